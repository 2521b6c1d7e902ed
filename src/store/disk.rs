//! The files of a real folder.

use std::collections::BTreeSet;
use std::fs::{self, File, Metadata, OpenOptions, TryLockError};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::thread::sleep;
use std::time::Duration;

use super::commit::{BOOK, PANTRY, SHOPS};
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

/// How many links of links are followed.
const LINKS: usize = 40;

/// The ending of a file that is about to take another's place.
const NEW: &str = ".new";

impl Disk {
    /// Where a file really stands: behind its link, and `x.new` beside the real `x`.
    fn place(&self, name: &str) -> PathBuf {
        let (name, ending) = name.strip_suffix(NEW).map_or((name, ""), |old| (old, NEW));
        let mut path = self.folder.join(name);
        for _ in 0..LINKS {
            let Ok(to) = fs::read_link(&path) else { break };
            path = path.parent().map_or(to.clone(), |folder| folder.join(&to));
        }
        if !ending.is_empty() {
            path.as_mut_os_string().push(ending);
        }
        path
    }
}

/// The new file may be read and written by whom the old one could; its owner is kept where this is allowed at all.
#[cfg(unix)]
fn keep_mode_and_owner(file: &File, old: &Metadata) -> io::Result<()> {
    use std::os::unix::fs::{MetadataExt, fchown};
    let new = file.metadata()?;
    if (new.uid(), new.gid()) != (old.uid(), old.gid()) {
        // Only the machine's keeper may give a file away; a member of its group may keep the group.
        let _ = fchown(file, Some(old.uid()), Some(old.gid())).or_else(|_| fchown(file, None, Some(old.gid())));
    }
    file.set_permissions(old.permissions())
}

#[cfg(not(unix))]
fn keep_mode_and_owner(_: &File, _: &Metadata) -> io::Result<()> {
    Ok(())
}

impl Files for Disk {
    fn read(&self, name: &str) -> io::Result<Option<Vec<u8>>> {
        match fs::read(self.place(name)) {
            Ok(bytes) => Ok(Some(bytes)),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(error) => Err(error),
        }
    }

    fn write(&self, name: &str, bytes: &[u8]) -> io::Result<()> {
        let path = self.place(name);
        match fs::remove_file(&path) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => return Err(error),
            _ => (),
        }
        let mut file = File::create(&path)?;
        let old = name.strip_suffix(NEW).and_then(|old| fs::metadata(self.place(old)).ok());
        if let Some(old) = old {
            keep_mode_and_owner(&file, &old)?;
        }
        file.write_all(bytes)
    }

    #[cfg(unix)]
    fn sync(&self, name: &str) -> io::Result<()> {
        // A file that may not be written can still be synced.
        File::open(self.place(name)).or_else(|_| OpenOptions::new().write(true).open(self.place(name)))?.sync_all()
    }

    #[cfg(not(unix))]
    fn sync(&self, name: &str) -> io::Result<()> {
        OpenOptions::new().write(true).open(self.place(name))?.sync_all()
    }

    fn rename(&self, from: &str, to: &str) -> io::Result<()> {
        fs::rename(self.place(from), self.place(to))
    }

    fn remove(&self, name: &str) -> io::Result<()> {
        fs::remove_file(self.place(name))
    }

    #[cfg(unix)]
    fn sync_folder(&self) -> io::Result<()> {
        let linked = [BOOK, PANTRY, SHOPS].map(|name| self.place(name).parent().map(Path::to_owned));
        let folders: BTreeSet<PathBuf> = linked.into_iter().flatten().chain([self.folder.clone()]).filter(|path| path.is_dir()).collect();
        folders.iter().try_for_each(|folder| File::open(folder)?.sync_all())
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
