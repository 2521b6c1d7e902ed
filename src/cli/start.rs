//! `start DIR`: a new kitchen folder that already works.

use std::fs;
use std::path::{Path, PathBuf};

use toml_edit::DocumentMut;

use super::outcome::{Done, Failure, json, say};
use super::{Cli, Format, adopt, setting};
use crate::foods::Foods;
use crate::kitchen::starter;
use crate::measure::Spoons;
use crate::store::begin_writing;

/// `from`: files whose recipes are adopted too. Where one of them cannot be read, nothing is written.
pub fn run(dir: &Path, from: &[PathBuf], cli: &Cli) -> Done {
    if fs::symlink_metadata(dir).is_ok() && !empty_folder(dir) {
        let text = format!("{} is there already and is not an empty folder. Name a new one; nothing was written.", dir.display());
        return Err(Failure::Usage(text));
    }
    let mut starting = starter(setting::today(cli));
    let mut adopted = adopt::take(from, None, (&Foods::reference(), Spoons::default()), &adopt::There::new(), "another name in its file")?;
    adopted.iter_mut().for_each(|own| take_its_place(&mut starting, own));
    let texts = starting.into_iter().map(|(path, text)| (path.to_owned(), text));
    let schemas = super::keys::schemas()?.into_iter().map(|(name, text)| (format!("schemas/{name}"), text));
    let mut begun = Begun { folders: Vec::new(), files: Vec::new() };
    let written = begun.write(dir, texts.chain(schemas)).and_then(|()| adopt::write(dir, &adopted));
    if let Err(failure) = written {
        begun.clear_away(dir);
        return Err(failure);
    }
    let mut files = begun.files;
    adopt::tell_of_words(dir, &mut adopted);
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

/// What a new kitchen has of its own on the disk.
struct Begun {
    /// The outer before the inner.
    folders: Vec<PathBuf>,
    files: Vec<PathBuf>,
}

impl Begun {
    fn write(&mut self, dir: &Path, texts: impl Iterator<Item = (String, String)>) -> Done {
        begin_writing();
        for (path, content) in texts {
            let path = dir.join(path);
            let folder = path.parent().unwrap_or(dir);
            let missing = folder.ancestors().take_while(|folder| !folder.exists()).map(Path::to_owned);
            self.folders.extend(missing.collect::<Vec<_>>().into_iter().rev());
            fs::create_dir_all(folder).map_err(|error| Failure::writing(folder, &error))?;
            self.files.push(path.clone());
            fs::write(&path, content).map_err(|error| Failure::writing(&path, &error))?;
        }
        Ok(())
    }

    /// Half a kitchen would stand in the way of the next start. What cannot be taken away stays: the failure is told already.
    fn clear_away(&self, dir: &Path) {
        self.files.iter().for_each(|file| drop(fs::remove_file(file)));
        // Adopting makes this folder where no recipe of the starting kitchen did.
        let _ = fs::remove_dir(dir.join("recipes"));
        self.folders.iter().rev().for_each(|folder| drop(fs::remove_dir(folder)));
    }
}

/// A recipe of the household's own stands in place of the one of that name which every new kitchen has. The week's meals ask for it, so
/// where it does not say how long it keeps, what the other one says stands there to be looked over.
fn take_its_place(starting: &mut Vec<(&'static str, String)>, own: &mut adopt::Taken) {
    let is_it = |(path, text): &(&'static str, String)| {
        let id = path.strip_prefix("recipes/")?.strip_suffix(".toml")?;
        let file = text.parse::<DocumentMut>().ok()?;
        let same = id == own.id || file.get("name")?.as_str()?.to_lowercase() == own.name.to_lowercase();
        same.then(|| (id, file.get("keeps").map(ToString::to_string)))
    };
    let Some((place, (id, keeps))) = starting.iter().enumerate().find_map(|(place, one)| Some((place, is_it(one)?))) else { return };
    starting.remove(place);
    own.id = id.to_owned();
    let silent = own.text.parse::<DocumentMut>().is_ok_and(|file| !file.contains_key("keeps"));
    if let (Some(keeps), true) = (keeps.filter(|_| silent), own.text.contains(MAKES)) {
        let keeps = keeps.trim();
        let line = format!("\nkeeps = {keeps}   # of the recipe of this name that start writes: is it so of yours?{MAKES}");
        own.text = own.text.replacen(MAKES, &line, 1);
        own.missing.retain(|missing| !missing.starts_with("`keeps`"));
        own.missing.insert(
            0,
            format!("`keeps` is not told: {keeps} is written down, as start has it for a recipe of this name. Local rules come first."),
        );
    }
}

/// How the line after a recipe's name begins.
const MAKES: &str = "\nmakes = ";

fn empty_folder(dir: &Path) -> bool {
    fs::read_dir(dir).is_ok_and(|mut entries| entries.next().is_none())
}
