//! `start DIR`: a new kitchen folder that already works.

use std::fs;
use std::path::{Path, PathBuf};

use super::outcome::{Done, Failure, json, say};
use super::{Cli, Format, adopt, setting};
use crate::foods::Foods;
use crate::kitchen::starter;
use crate::store::begin_writing;

/// `from`: files whose recipes are adopted too. Where one of them cannot be read, nothing is written.
pub fn run(dir: &Path, from: &[PathBuf], cli: &Cli) -> Done {
    if fs::symlink_metadata(dir).is_ok() && !empty_folder(dir) {
        let text = format!("{} is there already and is not an empty folder. Name a new one; nothing was written.", dir.display());
        return Err(Failure::Usage(text));
    }
    let starting = starter(setting::today(cli));
    let adopted = adopt::take(from, None, &Foods::reference(), &there(&starting))?;
    let mut files = Vec::new();
    let texts = starting.into_iter().map(|(path, text)| (path.to_owned(), text));
    let schemas = super::keys::schemas()?.into_iter().map(|(name, text)| (format!("schemas/{name}"), text));
    begin_writing();
    for (path, content) in texts.chain(schemas) {
        let path = dir.join(path);
        let folder = path.parent().unwrap_or(dir);
        fs::create_dir_all(folder).map_err(|error| Failure::writing(folder, &error))?;
        fs::write(&path, content).map_err(|error| Failure::writing(&path, &error))?;
        files.push(path);
    }
    adopt::write(dir, &adopted)?;
    files.extend(adopted.iter().map(|one| dir.join("recipes").join(format!("{}.toml", one.id))));
    if cli.format == Format::Json {
        return say(&json(&crate::json::kitchen_files(dir, files.iter().map(PathBuf::as_path)))?);
    }
    let name = dir.display();
    let typed = if dir.to_string_lossy().contains(char::is_whitespace) { format!("\"{name}\"") } else { name.to_string() };
    if !adopted.is_empty() {
        say(&(adopt::told(&adopted) + "\n"))?;
    }
    say(&format!("{name} is ready. Look into its files, then try:\n  spence --kitchen {typed} list\n  spence --kitchen {typed} print\n"))
}

/// The recipes that every new kitchen has.
fn there(starting: &[(&'static str, String)]) -> adopt::There {
    let recipes = starting.iter().filter_map(|(path, text)| {
        let id = path.strip_prefix("recipes/")?.strip_suffix(".toml")?;
        let name = text.parse::<toml_edit::DocumentMut>().ok().and_then(|file| Some(file.get("name")?.as_str()?.to_lowercase()));
        Some((id.to_owned(), name.unwrap_or_default()))
    });
    recipes.collect()
}

fn empty_folder(dir: &Path) -> bool {
    fs::read_dir(dir).is_ok_and(|mut entries| entries.next().is_none())
}
