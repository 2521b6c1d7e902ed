//! The mark of a file's text, by which it is known again: its SHA-256 (FIPS 180-4).

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

/// In hexadecimal.
pub fn sha256(bytes: &[u8]) -> String {
    sha256_of(&[bytes])
}

/// Of several texts, one behind the other; in hexadecimal.
pub fn sha256_of(parts: &[&[u8]]) -> String {
    let mut digest = Sha256::new();
    parts.iter().for_each(|part| digest.update(part));
    written(digest)
}

/// Of two texts that begin alike, read once: the beginning, and how each ends.
pub fn sha256_of_two(begin: &[u8], one: &[u8], other: &[u8]) -> [String; 2] {
    let mut digest = Sha256::new();
    digest.update(begin);
    [one, other].map(|end| written(digest.clone().chain_update(end)))
}

fn written(digest: Sha256) -> String {
    let digit = |nibble: u8| char::from(DIGITS[usize::from(nibble)]);
    let bytes = digest.finalize();
    let mut text = String::with_capacity(2 * bytes.len());
    bytes.iter().for_each(|byte| text.extend([digit(byte >> 4), digit(byte & 15)]));
    text
}

const DIGITS: [u8; 16] = *b"0123456789abcdef";

/// SHA-256 of a file before and after it was written, by which a writing that was cut short is known.
#[derive(Debug, Clone, PartialEq, Eq, JsonSchema, Serialize, Deserialize)]
pub struct FileChange {
    pub before: String,
    pub after: String,
}

impl FileChange {
    pub fn of(before: &str, after: &str) -> FileChange {
        FileChange { before: sha256(before.as_bytes()), after: sha256(after.as_bytes()) }
    }
}
