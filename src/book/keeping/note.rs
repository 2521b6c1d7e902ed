//! What a person is told of the book's state beside what they asked for. It must not know the book or a file of it.

use std::fmt;

use crate::store::BOOK;

/// What a person is told about the book beside what they asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Note {
    /// The last booking was cut short and pantry.toml edited since, so that it is taken back.
    TakenBack { what: String },
    /// The last line of the book was cut short, and goes into the next booking as it is.
    FragmentKept,
    /// The book is one line, which was cut short and goes into the first booking as it is.
    OnlyLineCutShort,
    /// The last booking was cut short and shops.toml edited since.
    PricesLeft,
    /// The last booking was cut short, and what was to be written into pantry.toml is lost.
    Lost { what: String },
    /// A price that was to be put back has been changed by hand since.
    PriceChanged { food: String, size: String },
}

impl fmt::Display for Note {
    fn fmt(&self, out: &mut fmt::Formatter) -> fmt::Result {
        match self {
            Note::TakenBack { what } => {
                write!(out, "the booking \"{what}\" was cut short, and pantry.toml has been edited since: it is taken back. Book it again.")
            }
            Note::FragmentKept => write!(out, "{BOOK}: its last line was cut short; what is left of it is kept in the next booking."),
            Note::OnlyLineCutShort => write!(
                out,
                "{BOOK}: its only line was cut short, so that no booking can be read. The next booking begins with what pantry.toml says, \
                 and keeps what is left of the line."
            ),
            Note::PricesLeft => write!(
                out,
                "the last booking was cut short, and shops.toml has been edited since: the prices paid were not written into it."
            ),
            Note::Lost { what } => write!(
                out,
                "the booking \"{what}\" was cut short and never came into pantry.toml. Finish it with spence book --finish, or take it \
                 back with spence undo."
            ),
            Note::PriceChanged { food, size } => {
                write!(out, "shops.toml: the price of {food} ({size}) has been changed since and is left as it stands.")
            }
        }
    }
}
