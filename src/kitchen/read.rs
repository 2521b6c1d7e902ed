//! From the kitchen folder to a [`Kitchen`] and its weeks, or to every mistake at once.

use std::path::{Path, PathBuf};

use super::{Kitchen, Mistake, Warning, Week};

/// A kitchen folder without mistakes.
#[derive(Debug, Clone)]
pub struct Loaded {
    pub kitchen: Kitchen,
    /// In order of file name, with the file's path relative to the folder.
    pub weeks: Vec<(String, Week)>,
    pub warnings: Vec<Warning>,
}

/// The nearest folder from `from` upwards that holds kitchen.toml.
pub fn find_kitchen(from: &Path) -> Option<PathBuf> {
    let _ = from;
    todo!()
}

/// Reads and checks every file of the folder; all mistakes of all files at once.
pub fn load(folder: &Path) -> Result<Loaded, Vec<Mistake>> {
    let _ = folder;
    todo!()
}
