//! `keys`: every key of every file, from the table by which the reader checks; and a JSON Schema for each file and for what each verb answers.

use std::fmt::Write;
use std::path::Path;

use itertools::Itertools;

use super::outcome::{Done, Failure, json, say};
use super::sheet_files::write_all;
use super::wrap::{terminal_width, wrap};
use super::{Cli, Format};
use crate::json::output_schemas;
use crate::kitchen::keys::{FILES, File, Heading, Key, file, schema};

/// A heading of a file, with those of its keys that are asked for.
struct Part {
    file: &'static File,
    heading: &'static Heading,
    keys: Vec<&'static Key>,
}

impl Part {
    fn keys(&self) -> impl Iterator<Item = (&'static File, &'static Heading, &'static Key)> {
        self.keys.iter().map(|key| (self.file, self.heading, *key))
    }
}

pub fn run(cli: &Cli, name: Option<&str>) -> Done {
    let parts = asked_for(name);
    if parts.is_empty() {
        let name = name.unwrap_or_default();
        let files = FILES.map(|file| file.name).join(", ");
        return Err(Failure::NotKnown(format!("no file and no key is called \"{name}\". The files are: {files}.")));
    }
    match cli.format {
        Format::Text => say(&text(&parts)),
        Format::Json => say(&json(&crate::json::keys(parts.iter().flat_map(Part::keys)))?),
    }
}

/// The keys of one file, or all whose name has the word in it and those under a heading of that name, or all.
fn asked_for(name: Option<&str>) -> Vec<Part> {
    let one = name.and_then(file);
    let word = name.filter(|_| one.is_none()).map(|word| word.trim().to_lowercase()).unwrap_or_default();
    let files = FILES.into_iter().filter(|file| one.is_none_or(|one| one.name == file.name));
    let parts = files.flat_map(|file| file.headings.iter().map(move |heading| (file, heading))).map(|(file, heading)| {
        let whole = !word.is_empty() && is_of(heading.name, &word);
        let keys = heading.keys.iter().chain(&heading.open).filter(|key| whole || key.name.contains(&word)).collect();
        Part { file, heading, keys }
    });
    parts.filter(|part| !part.keys.is_empty()).collect()
}

/// Is `[compose]` or `[compose.each_day]` a heading of that name?
fn is_of(heading: &str, word: &str) -> bool {
    let name = heading.trim_matches(['[', ']']);
    name == word || name.strip_prefix(word).is_some_and(|rest| rest.starts_with('.'))
}

fn text(parts: &[Part]) -> String {
    let width = terminal_width().unwrap_or(usize::MAX);
    let mut out = String::new();
    for (index, part) in parts.iter().enumerate() {
        let heading = if part.heading.name.is_empty() { "at the top" } else { part.heading.name };
        let gap = if index == 0 { "" } else { "\n" };
        let _ = writeln!(out, "{gap}{}, {heading}", part.file.path);
        for key in &part.keys {
            let default = key.default.words();
            let range = key.range().map(|range| format!(", {}", range.words())).unwrap_or_default();
            let _ = writeln!(out, "  {}: {}{range}; {}", key.name, key.shape.words(), default_said(default));
            let meaning = format!("{}. Example: {} = {}", sentence(key.meaning), key.name, key.example);
            out.push_str(&wrap("      ", &meaning, width));
        }
    }
    out
}

fn default_said(default: &str) -> String {
    match default {
        "must be written" => default.to_owned(),
        "none" => "no default".to_owned(),
        _ => format!("default {default}"),
    }
}

fn sentence(meaning: &str) -> String {
    if meaning.starts_with('"') { meaning.to_owned() } else { crate::words::sentence(meaning) }
}

/// One schema a file: its name, `recipe.schema.json`, and its text.
pub fn schemas() -> Result<Vec<(String, String)>, Failure> {
    FILES.into_iter().map(|file| Ok((format!("{}.schema.json", file.name), json(&schema(file))?))).collect()
}

pub fn write_schemas(cli: &Cli, folder: &Path) -> Done {
    let outputs = output_schemas().into_iter().map(|(verb, schema)| Ok((format!("{verb}.output.schema.json"), json(&schema)?)));
    let outputs: Vec<(String, String)> = outputs.collect::<Result<_, Failure>>()?;
    let files: Vec<_> = schemas()?.into_iter().chain(outputs).map(|(name, text)| (folder.join(name), text.into_bytes())).collect();
    write_all(folder, &files)?;
    let paths = files.iter().map(|(path, _)| path.as_path());
    match cli.format {
        Format::Json => say(&json(&crate::json::files(paths))?),
        Format::Text => say(&format!("{}\n", paths.map(Path::display).join("\n"))),
    }
}
