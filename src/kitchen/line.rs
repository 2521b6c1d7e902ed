//! One ingredient line, as a cookery book prints it.

use crate::foods::{Foods, Item};
use crate::measure::Amount;

/// What a line says, before recipe names are resolved.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    pub of: LineOf,
    /// After the comma: "diced", "rinsed".
    pub prep: Option<String>,
    /// In brackets, where it is not a size.
    pub remark: Option<String>,
}

#[derive(Debug, Clone, PartialEq)]
pub enum LineOf {
    /// `food` is the known food's name, or the line's own words for an unknown one. `item` is `None` for "salt, to taste".
    Food { food: String, item: Option<Item> },
    /// `200 g recipe:herb-yoghurt`, `1 portion recipe:pearl-barley`.
    Recipe { id: String, amount: Amount },
}

/// A line that cannot be read: what is wrong, what would mend it, and where in the line (byte offset).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineError {
    pub cause: String,
    pub remedy: String,
    pub offset: usize,
}

/// Reads one line.
pub fn read_line(text: &str, foods: &Foods) -> Result<Line, LineError> {
    let _ = (text, foods);
    todo!()
}
