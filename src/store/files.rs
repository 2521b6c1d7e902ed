//! The few things that are done to files, behind a trait, so that a test can stop at each of them.

use std::any::Any;
use std::io;

/// Held as long as it lives.
pub type Locked = Box<dyn Any>;

/// One folder's files, by name. Every call fails as the machine does.
pub trait Files {
    /// `None` where there is no such file.
    fn read(&self, name: &str) -> io::Result<Option<Vec<u8>>>;
    /// Makes the file new, or over again.
    fn write(&self, name: &str, bytes: &[u8]) -> io::Result<()>;
    /// Makes the file of the first `keep` bytes of `old`, and `more` behind them. A missing `old` is empty.
    fn write_behind(&self, name: &str, old: &str, keep: u64, more: &[u8]) -> io::Result<()>;
    /// Not before this returns is what was written on the disk.
    fn sync(&self, name: &str) -> io::Result<()>;
    /// In one step, over a file of that name.
    fn rename(&self, from: &str, to: &str) -> io::Result<()>;
    fn remove(&self, name: &str) -> io::Result<()>;
    /// Not before this returns is what was renamed, made and removed on the disk.
    fn sync_folder(&self) -> io::Result<()>;
    /// Waits a while for another writer; the system lets go of the lock when its holder ends, however it ends.
    fn lock(&self, name: &str) -> io::Result<Locked>;
}
