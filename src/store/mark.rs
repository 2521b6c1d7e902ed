//! The mark of a file's text, by which it is known again: its SHA-256 (FIPS 180-4).

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

/// In hexadecimal.
pub fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

/// SHA-256 of a file before and after it was written, by which a writing that was cut short is known.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct FileChange {
    pub before: String,
    pub after: String,
}

impl FileChange {
    pub fn of(before: &str, after: &str) -> FileChange {
        FileChange { before: sha256(before.as_bytes()), after: sha256(after.as_bytes()) }
    }
}
