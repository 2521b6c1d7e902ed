//! Sheets and forms onto the disk: each beside its place first, so that a full disk leaves the old ones whole.

use std::path::{Path, PathBuf};
use std::{fs, io};

use super::outcome::{Done, Failure};

/// Writes every file, or none.
pub fn write_all(folder: &Path, files: &[(PathBuf, Vec<u8>)]) -> Done {
    fs::create_dir_all(folder).map_err(|error| Failure::writing(folder, &error))?;
    nothing_in_the_way(files)?;
    let beside = |path: &Path| PathBuf::from(format!("{}.new", path.display()));
    for (path, bytes) in files {
        let new = beside(path);
        if let Err(error) = fs::write(&new, bytes) {
            for (path, _) in files {
                // What was never written cannot be removed, and need not be.
                let _ = fs::remove_file(beside(path));
            }
            return Err(Failure::writing(path, &error));
        }
    }
    files.iter().try_for_each(|(path, _)| fs::rename(beside(path), path).map_err(|error| Failure::writing(path, &error)))
}

/// A folder of the name of a sheet would stop the writing halfway.
fn nothing_in_the_way(files: &[(PathBuf, Vec<u8>)]) -> Done {
    let in_the_way = files.iter().find(|(path, _)| path.is_dir());
    in_the_way.map_or(Ok(()), |(path, _)| Err(Failure::writing(path, &io::ErrorKind::IsADirectory.into())))
}
