//! `start DIR`: a new kitchen folder that already works.

use std::fs;
use std::path::Path;

use super::outcome::{Done, Failure, say};
use super::{Cli, setting};
use crate::kitchen::starter;

pub fn run(dir: &Path, cli: &Cli) -> Done {
    if fs::symlink_metadata(dir).is_ok() && !empty_folder(dir) {
        let text = format!("{} is there already and is not an empty folder. Name a new one; nothing was written.", dir.display());
        return Err(Failure::Usage(text));
    }
    for (path, content) in starter(setting::today(cli)) {
        let path = dir.join(path);
        let folder = path.parent().unwrap_or(dir);
        fs::create_dir_all(folder).map_err(|error| Failure::writing(folder, &error))?;
        fs::write(&path, content).map_err(|error| Failure::writing(&path, &error))?;
    }
    let name = dir.display();
    say(&format!("{name} is ready. Look into its files, then try:\n  spence --kitchen {name} list\n  spence --kitchen {name} print\n"))
}

fn empty_folder(dir: &Path) -> bool {
    fs::read_dir(dir).is_ok_and(|mut entries| entries.next().is_none())
}
