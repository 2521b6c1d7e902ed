//! What somebody typed of goods and nobody can book, with what would mend it.

use crate::words::{ended, sentence};

#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct NotTaken {
    /// Without a full stop.
    pub cause: String,
    /// A whole sentence.
    pub remedy: String,
}

impl NotTaken {
    pub fn new(cause: impl Into<String>, remedy: &str) -> NotTaken {
        NotTaken { cause: cause.into(), remedy: ended(&sentence(remedy)) }
    }
}

/// One sentence after the other.
impl From<NotTaken> for String {
    fn from(not: NotTaken) -> String {
        format!("{}. {}", not.cause, not.remedy)
    }
}
