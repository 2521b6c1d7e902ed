//! The files of a real folder.

use std::collections::BTreeSet;
use std::fs::{self, File, Metadata, OpenOptions, TryLockError};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use std::thread::sleep;
use std::time::Duration;

use super::commit::{BOOK, PANTRY, SHOPS};
use super::files::{Files, Locked};
use super::stop::begin_writing;

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
    /// A new file, for whom the one that it replaces was.
    fn begin(&self, name: &str) -> io::Result<File> {
        begin_writing();
        let file = create_anew(&self.place(name))?;
        let old = name.strip_suffix(NEW).and_then(|old| fs::metadata(self.place(old)).ok());
        if let Some(old) = old {
            keep_mode_and_owner(&file, &old)?;
        }
        Ok(file)
    }

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
        let mut bytes = Vec::new();
        match open_ordinary(&self.place(name)).and_then(|mut file| file.read_to_end(&mut bytes)) {
            Ok(_) => Ok(Some(bytes)),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(error) => Err(error),
        }
    }

    fn write(&self, name: &str, bytes: &[u8]) -> io::Result<()> {
        self.begin(name)?.write_all(bytes)
    }

    /// The machine copies what is kept: it is not read into the program.
    fn write_behind(&self, name: &str, old: &str, keep: u64, more: &[u8]) -> io::Result<()> {
        let mut file = self.begin(name)?;
        if keep > 0 {
            let copied = io::copy(&mut open_ordinary(&self.place(old))?.take(keep), &mut file)?;
            if copied < keep {
                return Err(io::Error::new(io::ErrorKind::UnexpectedEof, format!("{old} became shorter while it was copied")));
            }
        }
        file.write_all(more)
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
        let path = self.folder.join(name);
        let file = match fs::metadata(&path) {
            Ok(about) if !about.is_file() => return Err(not_ordinary()),
            _ => OpenOptions::new().create(true).truncate(false).write(true).open(path)?,
        };
        wait_for(&file, File::try_lock)?;
        Ok(Box::new(file))
    }
}

impl Disk {
    /// Waits a while for a writer, and keeps others out as long as it is held; other readers may come. `None` where nobody has ever
    /// written.
    ///
    /// # Errors
    /// The machine's, and a writer that does not end.
    pub fn lock_to_read(&self, name: &str) -> io::Result<Option<Locked>> {
        let file = match open_ordinary(&self.folder.join(name)) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
            file => file?,
        };
        wait_for(&file, File::try_lock_shared)?;
        Ok(Some(Box::new(file)))
    }
}

fn wait_for(file: &File, lock: impl Fn(&File) -> Result<(), TryLockError>) -> io::Result<()> {
    for _ in 0..TRIES {
        match lock(file) {
            Ok(()) => return Ok(()),
            Err(TryLockError::WouldBlock) => sleep(Duration::from_millis(WAIT_MS)),
            Err(TryLockError::Error(error)) => return Err(error),
        }
    }
    Err(io::Error::new(io::ErrorKind::WouldBlock, "another spence has been booking for ten seconds. Wait for it, and try again"))
}

/// Opens a file for reading, links followed. A pipe or a device in its place would be waited for without end.
///
/// # Errors
/// The machine's; that it is no ordinary file.
pub fn open_ordinary(path: &Path) -> io::Result<File> {
    if fs::metadata(path)?.is_file() { File::open(path) } else { Err(not_ordinary()) }
}

fn not_ordinary() -> io::Error {
    io::Error::new(io::ErrorKind::InvalidInput, "it is not an ordinary file. Put an ordinary file in its place, or take it away")
}

/// A new file in the place of whatever has that name: a link there is not followed, a pipe not waited for.
///
/// # Errors
/// The machine's.
pub fn create_anew(path: &Path) -> io::Result<File> {
    match fs::remove_file(path) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(error),
        _ => OpenOptions::new().write(true).create_new(true).open(path),
    }
}
