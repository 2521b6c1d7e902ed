//! The files of a real folder.

use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::thread::sleep;
use std::time::Duration;

use super::files::{Files, Locked};

/// How often, and after how many milliseconds each time, another writer is waited for: ten seconds in all.
const TRIES: u32 = 400;
const WAIT_MS: u64 = 25;

#[derive(Debug, Clone)]
pub struct Disk {
    folder: PathBuf,
}

impl Disk {
    pub fn new(folder: &Path) -> Disk {
        Disk { folder: folder.to_owned() }
    }
}

impl Files for Disk {
    fn read(&self, name: &str) -> io::Result<Option<Vec<u8>>> {
        match fs::read(self.folder.join(name)) {
            Ok(bytes) => Ok(Some(bytes)),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(error) => Err(error),
        }
    }

    fn write(&self, name: &str, bytes: &[u8]) -> io::Result<()> {
        File::create(self.folder.join(name))?.write_all(bytes)
    }

    fn sync(&self, name: &str) -> io::Result<()> {
        OpenOptions::new().write(true).open(self.folder.join(name))?.sync_all()
    }

    fn rename(&self, from: &str, to: &str) -> io::Result<()> {
        fs::rename(self.folder.join(from), self.folder.join(to))
    }

    fn remove(&self, name: &str) -> io::Result<()> {
        fs::remove_file(self.folder.join(name))
    }

    #[cfg(unix)]
    fn sync_folder(&self) -> io::Result<()> {
        File::open(&self.folder)?.sync_all()
    }

    /// Elsewhere a folder cannot be opened, and its entries are written through.
    #[cfg(not(unix))]
    fn sync_folder(&self) -> io::Result<()> {
        Ok(())
    }

    fn lock(&self, name: &str) -> io::Result<Locked> {
        let file = OpenOptions::new().create(true).truncate(false).write(true).open(self.folder.join(name))?;
        for _ in 0..TRIES {
            match file.try_lock() {
                Ok(()) => return Ok(Box::new(file)),
                Err(TryLockError::WouldBlock) => sleep(Duration::from_millis(WAIT_MS)),
                Err(TryLockError::Error(error)) => return Err(error),
            }
        }
        Err(io::Error::new(io::ErrorKind::WouldBlock, "another spence has been booking for ten seconds. Wait for it, and try again"))
    }
}
