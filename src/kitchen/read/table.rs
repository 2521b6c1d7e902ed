//! Walking one table of a file: typed values come out, and whatever is wrong is gathered instead of stopping the reading.

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::hint;
use super::range::within;
use super::shapes::{self, Read, kind_of};
use super::source::{Findings, Source};
use crate::kitchen::keys::{File, Heading, Key, LETTERS, Shape};
use crate::kitchen::{KeysAt, Spot};
use crate::words::marks::{is_unseen, mark};

/// What every table of one file shares.
#[derive(Debug, Clone, Copy)]
pub(super) struct Reading<'a> {
    pub source: &'a Source,
    pub schema: &'static File,
    pub found: &'a Findings,
    /// Keys that are taken under a heading although the schema does not list them.
    pub also: fn(&str, &str) -> bool,
}

impl Reading<'_> {
    /// A name has no letter that nobody sees, and no more letters than a sheet has room for.
    pub fn check_name(&self, key: &str, entry: Entry<'_>) {
        let DeValue::String(name) = entry.value else { return };
        if let Some(letter) = name.trim().chars().find(|letter| is_unseen(*letter)) {
            let typed = self.source.text.get(entry.start..entry.end).unwrap_or("");
            let at = self.source.spot(entry.start + place_of(letter, typed));
            self.found.mistake(at, format!("{key}: a name holds {}", unseen_letter(letter)), "Take it out.");
        }
        let letters = name.trim().chars().count();
        if letters > LETTERS {
            let at = self.source.spot(entry.start);
            self.found.mistake(at, format!("{key}: a name of {letters} letters"), format!("Write at most {LETTERS}."));
        }
    }
}

/// "␛ (U+001B), which nobody can see".
pub(super) fn unseen_letter(letter: char) -> String {
    format!("{} (U+{:04X}), which nobody can see", mark(letter), letter as u32)
}

/// Where a letter stands in a value as it was typed, itself or as an escape of TOML; else the value's beginning.
fn place_of(letter: char, typed: &str) -> usize {
    if let Some(at) = typed.find(letter) {
        return at;
    }
    let (four, eight, two) =
        (format!("\\u{:04x}", letter as u32), format!("\\U{:08x}", letter as u32), format!("\\x{:02x}", letter as u32));
    let short = match letter {
        '\u{8}' => "\\b",
        '\t' => "\\t",
        '\n' => "\\n",
        '\u{c}' => "\\f",
        '\r' => "\\r",
        '\u{1b}' => "\\e",
        _ => &four,
    };
    let typed = typed.to_ascii_lowercase();
    [short, &four, &eight.to_ascii_lowercase(), &two].iter().filter_map(|escape| typed.find(*escape)).min().unwrap_or(0)
}

/// One table under one heading.
#[derive(Debug, Clone, Copy)]
pub(super) struct Table<'a> {
    table: &'a DeTable<'a>,
    start: usize,
    heading: &'static str,
    pub file: Reading<'a>,
}

/// A value, with the bytes it takes in the file.
#[derive(Debug, Clone, Copy)]
pub(super) struct Entry<'a> {
    pub value: &'a DeValue<'a>,
    pub start: usize,
    pub end: usize,
}

impl<'a> Entry<'a> {
    pub fn of(spanned: &'a Spanned<DeValue<'a>>) -> Self {
        Entry { value: spanned.get_ref(), start: spanned.span().start, end: spanned.span().end }
    }
}

impl<'a> Table<'a> {
    /// The top of a file.
    pub fn top(table: &'a DeTable<'a>, file: Reading<'a>) -> Self {
        let top = Table { table, start: 0, heading: "", file };
        top.check_keys();
        top
    }

    /// `value` as the table of `heading`; anything else is a mistake.
    pub fn open(entry: Entry<'a>, heading: &'static str, file: Reading<'a>) -> Option<Self> {
        Table::open_as(entry, heading, file, format!("Write it as {heading} with its keys below."))
    }

    fn open_as(entry: Entry<'a>, heading: &'static str, file: Reading<'a>, remedy: String) -> Option<Self> {
        let DeValue::Table(table) = entry.value else {
            let cause = format!("expected the table {heading}, found {}", kind_of(entry.value));
            file.found.mistake(file.source.spot(entry.start), cause, remedy);
            return None;
        };
        let opened = Table { table, start: entry.start, heading, file };
        opened.check_keys();
        Some(opened)
    }

    /// The one table `[key]`.
    pub fn one(&self, key: &str, heading: &'static str) -> Option<Table<'a>> {
        let entry = self.entry(key)?;
        if matches!(entry.value, DeValue::Array(_)) {
            self.mistake(
                key,
                format!("{heading} is written more than once or in double brackets"),
                format!("Write it once, as {heading}."),
            );
            return None;
        }
        // In one line it takes nothing that stands below it under its heading.
        let remedy = match self.row(key).filter(|row| row.example.starts_with('{')) {
            Some(row) => format!("Write it like {key} = {}.", row.example),
            None => format!("Write it as {heading} with its keys below."),
        };
        Table::open_as(entry, heading, self.file, remedy)
    }

    /// Every `[[key]]`, in order of the file.
    pub fn each(&self, key: &str, heading: &'static str) -> Vec<Table<'a>> {
        match self.entry(key) {
            None => Vec::new(),
            Some(Entry { value: DeValue::Array(items), .. }) => {
                items.iter().filter_map(|item| Table::open(Entry::of(item), heading, self.file)).collect()
            }
            Some(_) => {
                self.mistake(key, format!("{key} stands in single brackets"), format!("Write {heading}: there may be several."));
                Vec::new()
            }
        }
    }

    pub fn entry(&self, key: &str) -> Option<Entry<'a>> {
        self.table.get(key).map(Entry::of)
    }

    /// All keys with their values, in order of the alphabet.
    pub fn entries(&self) -> impl Iterator<Item = (&'a str, Entry<'a>)> {
        self.table.iter().map(|(key, value)| (key.get_ref().as_ref(), Entry::of(value)))
    }

    pub fn has(&self, key: &str) -> bool {
        self.table.contains_key(key)
    }

    /// The value of `key` in the shape wanted; `None` where it is absent or wrong, and what is wrong has been said.
    pub fn optional<T>(&self, key: &str, shape: impl FnOnce(&DeValue<'_>) -> Read<T>) -> Option<T> {
        let entry = self.entry(key)?;
        let row = self.row(key);
        let read = shape(entry.value).and_then(|read| row.map_or(Ok(()), |row| within(row, entry.value)).map(|()| read));
        match read {
            Ok(value) => {
                if row.is_some_and(|row| row.shape == Shape::Name) {
                    self.file.check_name(key, entry);
                }
                Some(value)
            }
            Err(error) => {
                self.mistake(key, format!("{key}: {}", error.cause), error.remedy);
                None
            }
        }
    }

    /// As [`Table::optional`], with `example` shown where the key is missing.
    pub fn required<T>(&self, key: &str, example: &str, shape: impl FnOnce(&DeValue<'_>) -> Read<T>) -> Option<T> {
        if !self.has(key) {
            self.missing(key, example);
        }
        self.optional(key, shape)
    }

    pub fn missing(&self, key: &str, example: &str) {
        let place = if self.heading.is_empty() { "the file".to_owned() } else { self.heading.to_owned() };
        self.file.found.mistake(self.spot(), format!("{place} lacks \"{key}\""), format!("Add {key} = {example}."));
    }

    /// A list of texts, each with its own place; one text alone does as well.
    pub fn texts(&self, key: &str) -> Option<Vec<(String, Spot)>> {
        let entry = self.entry(key)?;
        let single = [entry];
        let items: Vec<Entry<'a>> = match entry.value {
            DeValue::Array(items) => items.iter().map(Entry::of).collect(),
            _ => single.to_vec(),
        };
        let names = self.row(key).is_some_and(|row| row.shape == Shape::Names);
        let mut texts = Vec::new();
        for item in items {
            if names {
                self.file.check_name(key, item);
            }
            let at = self.file.source.spot(item.start);
            match shapes::text(item.value) {
                Ok(text) => texts.push((text, at)),
                Err(error) => self.file.found.mistake(at, format!("{key}: {}", error.cause), error.remedy),
            }
        }
        Some(texts)
    }

    /// The row of a key in the tables of all keys.
    fn row(&self, key: &str) -> Option<&'static Key> {
        self.file.schema.heading(self.heading).row(key)
    }

    /// How many values `key` lists: one where it is no list.
    pub fn count(&self, key: &str) -> usize {
        self.entry(key).map_or(0, |entry| entry.value.as_array().map_or(1, |items| items.len()))
    }

    /// Where the table begins.
    pub fn spot(&self) -> Spot {
        self.file.source.spot(self.start)
    }

    /// Where the value of `key` begins, or the table where it is absent.
    pub fn spot_of(&self, key: &str) -> Spot {
        self.file.source.spot(self.entry(key).map_or(self.start, |entry| entry.start))
    }

    /// Where those of the keys stand that are written here.
    pub fn keys_at(&self, keys: &[&'static str]) -> KeysAt {
        keys.iter().filter(|key| self.has(key)).map(|key| (*key, self.spot_of(key))).collect()
    }

    /// A mistake at the value of `key`.
    pub fn mistake(&self, key: &str, cause: impl Into<String>, remedy: impl Into<String>) {
        self.file.found.mistake(self.spot_of(key), cause, remedy);
    }

    fn check_keys(&self) {
        let heading = self.file.schema.heading(self.heading);
        for (key, value) in self.table.iter() {
            let name = key.get_ref().as_ref();
            if heading.has(name) || (self.file.also)(heading.name, name) {
                continue;
            }
            let inline = !self.file.source.text.get(value.span()).is_some_and(|typed| typed.starts_with('['))
                && !self.file.source.text.get(..key.span().start).is_some_and(|before| before.trim_end().ends_with('['));
            let (cause, remedy) = unknown_key(name, inline, heading, self.file.schema);
            self.file.found.mistake(self.file.source.spot(key.span().start), cause, remedy);
        }
    }
}

/// `inline`: the value stands beside the key, not under a heading.
fn unknown_key(name: &str, inline: bool, here: &Heading, schema: &File) -> (String, String) {
    let top = &schema.headings[0];
    if !here.name.is_empty() && top.has(name) {
        let cause = format!("\"{name}\" fell under {}, where it is not known", here.name);
        let opening = schema.headings.iter().find(|heading| here.name.starts_with(heading.name) && !heading.name.is_empty());
        let heading = opening.map_or(here.name, |heading| heading.name);
        return (cause, format!("\"{name}\" belongs at the top of the file: move it above the first {heading}."));
    }
    let elsewhere: Vec<&str> = schema.headings[1..].iter().filter(|heading| heading.has(name)).map(|heading| heading.name).collect();
    let cause = format!("unknown key \"{name}\" {}", heading_place(here.name));
    if !elsewhere.is_empty() {
        return (cause, format!("\"{name}\" belongs under {}.", elsewhere.join(" or ")));
    }
    let near_here = hint::nearest_and_how_far(name, here.names());
    let others: Vec<(&str, &str)> = schema
        .headings
        .iter()
        .filter(|heading| heading.name != here.name)
        .flat_map(|heading| heading.names().map(|key| (key, heading.name)))
        .collect();
    let near_elsewhere = hint::nearest_and_how_far(name, others.iter().map(|(key, _)| *key));
    match (near_here, near_elsewhere) {
        (Some((here_by, near)), elsewhere) if elsewhere.is_none_or(|(by, _)| here_by <= by) => {
            let near = if here.name.is_empty() && !inline { schema.written(near) } else { format!("\"{near}\"") };
            return (cause, format!("Did you mean {near}?"));
        }
        (_, Some((_, near))) => {
            let place = others.iter().find(|(key, _)| *key == near).map_or("", |(_, heading)| heading);
            return (cause, format!("Did you mean \"{near}\", which belongs {}?", heading_place(place)));
        }
        _ => {}
    }
    (cause, format!("Known here: {}.", here.names().collect::<Vec<_>>().join(", ")))
}

fn heading_place(heading: &str) -> String {
    if heading.is_empty() { "at the top of the file".to_owned() } else { format!("under {heading}") }
}
