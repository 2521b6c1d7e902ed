//! The promises of the reading room, one file a kind of promise.

mod across;
mod arbitrary;
mod defaults;
mod folder;
mod headings;
mod lines;
mod shelves;
mod steps;
mod warnings;
mod weeks;

use std::fs;

use tempfile::TempDir;

use super::{Loaded, load};

/// A household with an oven and a hob.
const HOUSEHOLD: &str = r#"
[household]
name = "Boatyard Row"
eaters = 3
currency = "EUR"

[[appliance]]
name = "oven"
heat = true

[[appliance]]
name = "hob"
"#;

const BARLEY: &str = r#"
name = "Pearl barley"
makes = "6 portions"
ingredients = "300 g pearl barley"
"#;

/// A folder with these files; kitchen.toml is [`HOUSEHOLD`] unless it is among them.
fn folder(files: &[(&str, &str)]) -> TempDir {
    let folder = TempDir::new().unwrap();
    for (path, text) in [("kitchen.toml", HOUSEHOLD)].iter().chain(files) {
        let path = folder.path().join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }
    folder
}

fn mistakes(files: &[(&str, &str)]) -> Vec<String> {
    match load(folder(files).path()) {
        Ok(_) => Vec::new(),
        Err(mistakes) => mistakes.iter().map(|mistake| mistake.to_string()).collect(),
    }
}

/// The files are read, and what is wrong is this alone.
fn assert_mistake(files: &[(&str, &str)], wanted: &str) {
    pretty_assertions::assert_eq!(mistakes(files), vec![wanted.to_owned()]);
}

fn loaded(files: &[(&str, &str)]) -> Loaded {
    load(folder(files).path()).unwrap_or_else(|mistakes| panic!("{mistakes:#?}"))
}

fn warnings(files: &[(&str, &str)]) -> Vec<String> {
    loaded(files).warnings.iter().map(|warning| warning.to_string()).collect()
}

/// A recipe of one step with these lines under `[[step]]`.
fn step(lines: &str) -> String {
    format!("name = \"Dish\"\nmakes = \"2 portions\"\n[[step]]\ntext = \"Stir.\"\n{lines}\n")
}
