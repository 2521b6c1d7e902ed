//! Files of the household that must never be lost: one writer at a time, every write to a new file that is synced and renamed.
//!
//! It knows files and the order in which they are written, and nothing of what stands in them.
//!
//! ```text
//! 1  pantry.toml.new, shops.toml.new, synced     until here nothing has happened
//! 2  pantry.book.jsonl.new, synced; the folder synced
//! 3  pantry.book.jsonl.new -> pantry.book.jsonl  the booking stands
//! 4  pantry.toml.new -> pantry.toml              completed, now or at the next start
//! 5  shops.toml.new -> shops.toml                likewise, where prices were paid
//! ```
//!
//! The lock is an advisory lock of the operating system on `.pantry.lock`: it goes with its holder, and the file may
//! stay.

mod commit;
mod disk;
mod files;
mod mark;
#[cfg(test)]
mod memory;
mod stop;
#[cfg(test)]
mod tests;

pub use commit::{Added, BOOK, LOCK, PANTRY, Recovered, SHOPS, commit, left_over, recover};
pub use disk::{Disk, create_anew, open_ordinary};
pub use files::{Files, Locked};
pub use mark::{FileChange, sha256, sha256_of_two};
pub use stop::{begin_writing, unless_writing};
