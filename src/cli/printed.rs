//! What was last printed, as plan-<from>.json holds it.

use std::fs;
use std::io::ErrorKind;
use std::path::Path;

use serde::Deserialize;

use super::outcome::Failure;
use crate::json::prep::Prep;
use crate::kitchen::Week;
use crate::purchase::ShoppingList;

#[derive(Deserialize)]
pub struct Printed {
    pub list: ShoppingList,
    pub prep: Prep,
}

/// `None` where the week was not printed into the kitchen's own sheets.
pub fn printed(folder: &Path, week: &Week) -> Result<Option<Printed>, Failure> {
    let path = folder.join("sheets").join(format!("plan-{}.json", week.from));
    let text = match fs::read_to_string(&path) {
        Ok(text) => text,
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(None),
        Err(error) => return Err(Failure::Machine(format!("cannot read {}: {error}.", path.display()))),
    };
    let unread = |error| Failure::Machine(format!("cannot read {}: {error}. Print the week again.", path.display()));
    serde_json::from_str(&text).map(Some).map_err(unread)
}
