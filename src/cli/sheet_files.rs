//! Sheets and forms onto the disk: all of them beside their places first and synced, then renamed one after the other, so that a full
//! disk or the end of the program leaves the old ones whole.
//!
//! Between the first and the last renaming the program can still be ended. Whoever writes a plan that others belong to puts it last, and
//! a mark into each, by which what does not belong to the plan is told.

use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::{fs, io::ErrorKind};

use super::outcome::{Done, Failure};
use crate::store::{begin_writing, create_anew};

/// Writes every file, or none, in their order.
pub fn write_all(folder: &Path, files: &[(PathBuf, Vec<u8>)]) -> Done {
    begin_writing();
    fs::create_dir_all(folder).map_err(|error| Failure::writing(folder, &error))?;
    nothing_in_the_way(files)?;
    if let Err((path, error)) = prepare(files) {
        for (path, _) in files {
            // What was never written cannot be removed, and need not be.
            let _ = fs::remove_file(beside(path));
        }
        return Err(Failure::writing(path, &error));
    }
    files.iter().try_for_each(|(path, _)| fs::rename(beside(path), path).map_err(|error| Failure::writing(path, &error)))?;
    sync_folder(folder).map_err(|error| Failure::writing(folder, &error))
}

/// All is written before anything is synced, so that the disk can take it in one go.
fn prepare(files: &[(PathBuf, Vec<u8>)]) -> Result<(), (&Path, io::Error)> {
    let mut written = Vec::with_capacity(files.len());
    for (path, bytes) in files {
        let new = create_anew(&beside(path)).and_then(|mut file| file.write_all(bytes).map(|()| file));
        written.push((path, new.map_err(|error| (path.as_path(), error))?));
    }
    written.iter().try_for_each(|(path, file)| file.sync_all().map_err(|error| (path.as_path(), error)))
}

/// `x.pdf.new` beside `x.pdf`.
fn beside(path: &Path) -> PathBuf {
    let mut new = path.to_owned();
    new.as_mut_os_string().push(".new");
    new
}

#[cfg(unix)]
fn sync_folder(folder: &Path) -> io::Result<()> {
    fs::File::open(folder)?.sync_all()
}

/// Elsewhere a folder cannot be opened, and its entries are written through.
#[cfg(not(unix))]
fn sync_folder(_: &Path) -> io::Result<()> {
    Ok(())
}

/// A folder of the name of a sheet would stop the renaming halfway.
fn nothing_in_the_way(files: &[(PathBuf, Vec<u8>)]) -> Done {
    let in_the_way = files.iter().find(|(path, _)| path.is_dir());
    in_the_way.map_or(Ok(()), |(path, _)| Err(Failure::writing(path, &ErrorKind::IsADirectory.into())))
}
