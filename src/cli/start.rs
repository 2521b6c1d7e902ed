//! `start DIR`: a new kitchen folder that already works.

use std::fs;
use std::path::{Path, PathBuf};

use super::outcome::{Done, Failure, json, say};
use super::{Cli, Format, setting};
use crate::kitchen::starter;

pub fn run(dir: &Path, cli: &Cli) -> Done {
    if fs::symlink_metadata(dir).is_ok() && !empty_folder(dir) {
        let text = format!("{} is there already and is not an empty folder. Name a new one; nothing was written.", dir.display());
        return Err(Failure::Usage(text));
    }
    let mut files = Vec::new();
    let texts = starter(setting::today(cli)).into_iter().map(|(path, text)| (path.to_owned(), text));
    let schemas = super::keys::schemas()?.into_iter().map(|(name, text)| (format!("schemas/{name}"), text));
    for (path, content) in texts.chain(schemas) {
        let path = dir.join(path);
        let folder = path.parent().unwrap_or(dir);
        fs::create_dir_all(folder).map_err(|error| Failure::writing(folder, &error))?;
        fs::write(&path, content).map_err(|error| Failure::writing(&path, &error))?;
        files.push(path);
    }
    if cli.format == Format::Json {
        return say(&json(&crate::json::kitchen_files(dir, files.iter().map(PathBuf::as_path)))?);
    }
    let name = dir.display();
    let typed = if dir.to_string_lossy().contains(char::is_whitespace) { format!("\"{name}\"") } else { name.to_string() };
    say(&format!("{name} is ready. Look into its files, then try:\n  spence --kitchen {typed} list\n  spence --kitchen {typed} print\n"))
}

fn empty_folder(dir: &Path) -> bool {
    fs::read_dir(dir).is_ok_and(|mut entries| entries.next().is_none())
}
