//! From the folder to texts: which files there are, and whether they can be read at all.

use std::ffi::OsStr;
use std::fs;
use std::io::{self, Read};
use std::path::Path;

use super::source::{Findings, Source};
use super::table::unseen_letter;
use crate::kitchen::keys::LETTERS;
use crate::kitchen::{Mistake, Spot};
use crate::words::marks::is_unseen;

/// No file a household writes comes near this many bytes.
const MOST_BYTES: u64 = 10_000_000;

/// The files of a kitchen folder as texts. A file that is there but cannot be read is `Unreadable`.
#[derive(Debug)]
pub(super) struct Files {
    pub kitchen: Text,
    pub foods: Text,
    pub meals: Text,
    pub shops: Text,
    pub pantry: Text,
    /// In order of file name, with the stem.
    pub recipes: Vec<(String, Text)>,
    pub weeks: Vec<(String, Text)>,
    /// Could the two folders be read?
    pub recipes_listed: bool,
    pub weeks_listed: bool,
}

impl Files {
    /// Reads `text` in place of what the folder has in `file`.
    pub fn read_instead(&mut self, file: &str, text: &str, found: &Findings) {
        let read = text_of(text.as_bytes().to_vec(), file, found);
        let stem = file.strip_prefix("weeks/").and_then(|name| name.strip_suffix(".toml"));
        match file {
            "pantry.toml" => self.pantry = read,
            "shops.toml" => self.shops = read,
            _ => {
                if let Some((_, week)) = self.weeks.iter_mut().find(|(week, _)| Some(week.as_str()) == stem) {
                    *week = read;
                }
            }
        }
    }
}

#[derive(Debug)]
pub(super) enum Text {
    Absent,
    Unreadable,
    Read(Source),
}

impl Text {
    pub fn source(&self) -> Option<&Source> {
        match self {
            Text::Read(source) => Some(source),
            _ => None,
        }
    }
}

fn whole(file: &str) -> Spot {
    Spot { file: file.to_owned(), line: 0, column: 0 }
}

/// kitchen.toml and foods.toml alone: what is known of foods hangs on no other file.
pub(super) fn read_known(folder: &Path, found: &Findings) -> Option<(Text, Text)> {
    Some((read_kitchen(folder, found)?, read_one(folder, "foods.toml", found)))
}

/// Every file of the folder; what cannot be read is a mistake each.
pub(super) fn read_files(folder: &Path, found: &Findings) -> Option<Files> {
    let kitchen = read_kitchen(folder, found)?;
    let [recipes, weeks] = ["recipes", "weeks"].map(|inner| read_all(folder, inner, found));
    Some(Files {
        kitchen,
        foods: read_one(folder, "foods.toml", found),
        meals: read_one(folder, "meals.toml", found),
        shops: read_one(folder, "shops.toml", found),
        pantry: read_one(folder, "pantry.toml", found),
        recipes_listed: recipes.is_some(),
        weeks_listed: weeks.is_some(),
        recipes: recipes.unwrap_or_default(),
        weeks: weeks.unwrap_or_default(),
    })
}

fn read_kitchen(folder: &Path, found: &Findings) -> Option<Text> {
    if !folder.is_dir() {
        let shown = folder.display().to_string();
        let cause = if folder.exists() { "this is not a folder" } else { "there is no such folder" };
        found.mistake(whole(&shown), cause, "Name a folder that holds kitchen.toml, or make one with: spence start DIR.");
        return None;
    }
    let kitchen = read_one(folder, "kitchen.toml", found);
    if matches!(kitchen, Text::Absent) {
        let cause = format!("there is no kitchen.toml in {}", folder.display());
        found.mistake(whole("kitchen.toml"), cause, "Add it, or make a new kitchen with: spence start DIR.");
    }
    Some(kitchen)
}

/// Files beside kitchen.toml that read like a recipe or a week: there nobody reads them.
pub fn strays(folder: &Path) -> Vec<Mistake> {
    let Ok(entries) = fs::read_dir(folder) else { return Vec::new() };
    let mut names: Vec<String> = entries.filter_map(|entry| entry.ok()?.file_name().into_string().ok()).collect();
    names.retain(|name| name.ends_with(".toml") && !name.starts_with('.') && !OWN.contains(&name.as_str()) && !name.chars().any(is_unseen));
    names.sort();
    let stray = |name: String| {
        let text = bytes_of(&folder.join(&name)).ok().and_then(|bytes| String::from_utf8(bytes).ok())?;
        let table = text.parse::<toml::Table>().ok()?;
        let has = |key: &str| table.contains_key(key);
        let (what, home) = match () {
            () if has("ingredients") || has("makes") => ("recipe", "recipes"),
            () if has("from") && ["meal", "session"].into_iter().any(has) => ("week", "weeks"),
            () => return None,
        };
        let cause = format!("this reads like a {what}, but here nobody reads it");
        Some(Mistake { at: whole(&name), cause, remedy: format!("Move it into {home}.") })
    };
    names.into_iter().filter_map(stray).collect()
}

/// The files that stand beside the folders.
const OWN: [&str; 5] = ["kitchen.toml", "foods.toml", "meals.toml", "shops.toml", "pantry.toml"];

/// A form that a person names on the command line, by its path as typed.
pub(super) fn read_form(path: &Path, found: &Findings) -> Text {
    if path == Path::new("-") {
        return typed_in(found);
    }
    let shown = path.display().to_string();
    match bytes_of(path) {
        Ok(bytes) => text_of(bytes, &shown, found),
        Err(Unreadable::Absent) => {
            found.mistake(whole(&shown), "there is no such file", "Write one with --sheet first.");
            Text::Absent
        }
        Err(Unreadable::Because(cause, remedy)) => {
            found.unreadable(whole(&shown), cause, remedy);
            Text::Unreadable
        }
        Err(Unreadable::TooLarge(cause, remedy)) => {
            found.mistake(whole(&shown), cause, remedy);
            Text::Unreadable
        }
    }
}

/// What is pasted or piped in.
fn typed_in(found: &Findings) -> Text {
    let shown = "standard input";
    let mut bytes = Vec::new();
    match io::stdin().lock().take(MOST_BYTES).read_to_end(&mut bytes) {
        Ok(_) => text_of(bytes, shown, found),
        Err(error) => {
            found.unreadable(whole(shown), format!("cannot be read: {error}"), "Save it as a file, and name that.");
            Text::Unreadable
        }
    }
}

/// `None` where the folder is there but cannot be read, which has been said.
fn read_all(folder: &Path, inner: &str, found: &Findings) -> Option<Vec<(String, Text)>> {
    let unreadable = |error: io::Error| {
        found.unreadable(whole(inner), format!("the folder {inner} cannot be read: {error}"), "See that it is a folder and may be read.");
    };
    let entries = match fs::read_dir(folder.join(inner)) {
        Ok(entries) => entries,
        Err(error) if error.kind() == io::ErrorKind::NotFound && !is_link(&folder.join(inner)) => return Some(Vec::new()),
        Err(error) => {
            unreadable(error);
            return None;
        }
    };
    let mut names = Vec::new();
    for entry in entries {
        match entry {
            Ok(entry) => names.extend(toml_name(&entry.file_name(), inner, found)),
            Err(error) => unreadable(error),
        }
    }
    names.sort();
    let stem = |name: &str| name.strip_suffix(".toml").unwrap_or(name).to_owned();
    Some(names.iter().map(|name| (stem(name), read_one(folder, &format!("{inner}/{name}"), found))).collect())
}

/// The name of a file that is read; others, such as those that an editor hides, are not the household's.
fn toml_name(name: &OsStr, inner: &str, found: &Findings) -> Option<String> {
    let shown = name.to_string_lossy();
    if !shown.ends_with(".toml") || shown.starts_with('.') {
        return None;
    }
    let at = || whole(&format!("{inner}/{shown}"));
    let Some(name) = name.to_str() else {
        found.mistake(at(), "the name of this file is not UTF-8 text", "Rename it, in plain letters.");
        return None;
    };
    if let Some(letter) = name.chars().find(|letter| is_unseen(*letter)) {
        found.mistake(at(), format!("the name of this file holds {}", unseen_letter(letter)), "Rename it, in plain letters.");
        return None;
    }
    let letters = name.chars().count() - ".toml".len();
    if letters > LETTERS {
        found.mistake(at(), format!("the name of this file has {letters} letters"), format!("Rename it; write at most {LETTERS}."));
        return None;
    }
    Some(name.to_owned())
}

fn is_link(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok_and(|about| about.is_symlink())
}

fn read_one(folder: &Path, file: &str, found: &Findings) -> Text {
    let mut path = folder.to_owned();
    path.extend(file.split('/'));
    match bytes_of(&path) {
        Ok(bytes) => text_of(bytes, file, found),
        Err(Unreadable::Absent) => Text::Absent,
        Err(Unreadable::Because(cause, remedy)) => {
            found.unreadable(whole(file), cause, remedy);
            Text::Unreadable
        }
        Err(Unreadable::TooLarge(cause, remedy)) => {
            found.mistake(whole(file), cause, remedy);
            Text::Unreadable
        }
    }
}

enum Unreadable {
    Absent,
    Because(String, &'static str),
    /// It could be read, but is nothing that a household wrote.
    TooLarge(String, &'static str),
}

fn bytes_of(path: &Path) -> Result<Vec<u8>, Unreadable> {
    let failed = |error: io::Error| match error.kind() {
        io::ErrorKind::NotFound if is_link(path) => Unreadable::Because(
            "this is a link to a file that is not there".to_owned(),
            "Put the file where the link leads, or take the link away.",
        ),
        io::ErrorKind::NotFound => Unreadable::Absent,
        _ => Unreadable::Because(format!("this file cannot be read: {error}"), "See that it is a file and that you may read it."),
    };
    let about = fs::metadata(path).map_err(failed)?;
    if about.is_dir() {
        return Err(Unreadable::Because("this is a folder, not a file".to_owned(), "Put a file in its place, or take it away."));
    }
    if !about.is_file() {
        return Err(Unreadable::Because("this is not an ordinary file".to_owned(), "Put an ordinary file in its place."));
    }
    if about.len() > MOST_BYTES {
        let cause = format!("this file has {} bytes, more than the {MOST_BYTES} that are read", about.len());
        return Err(Unreadable::TooLarge(cause, "Split it, or take out what does not belong in it."));
    }
    fs::read(path).map_err(failed)
}

pub(super) fn text_of(bytes: Vec<u8>, file: &str, found: &Findings) -> Text {
    match String::from_utf8(bytes) {
        Ok(text) => {
            let plain = text.strip_prefix('\u{feff}');
            if plain.is_some() {
                let at = Spot { file: file.to_owned(), line: 1, column: 1 };
                found.mistake(at, "the file begins with a byte order mark", "Save it as plain UTF-8, without a byte order mark (BOM).");
            }
            Text::Read(Source::new(file.to_owned(), plain.map_or_else(|| text.clone(), str::to_owned)))
        }
        Err(error) => {
            let sound = &error.as_bytes()[..error.utf8_error().valid_up_to()];
            let line = sound.iter().filter(|byte| **byte == b'\n').count() as u32 + 1;
            let at = Spot { file: file.to_owned(), line, column: 0 };
            found.mistake(at, "this line is not UTF-8 text", "Save the file as UTF-8.");
            Text::Unreadable
        }
    }
}
