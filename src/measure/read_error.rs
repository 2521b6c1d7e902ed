//! Why a text cannot be read: what every reader of this room answers with.

/// Why a text cannot be read, and what would mend it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadError {
    pub cause: String,
    pub remedy: String,
}

pub(super) fn error(cause: &str, remedy: &str) -> ReadError {
    ReadError { cause: cause.to_owned(), remedy: remedy.to_owned() }
}
