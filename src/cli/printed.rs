//! What was last printed, as plan-<from>.json holds it.

use std::fs;
use std::io::ErrorKind;
use std::path::Path;

use super::outcome::Failure;
use crate::json::{Printed, read_printed};
use crate::kitchen::{Kitchen, Week};

/// `None` where the week was not printed into the kitchen's own sheets.
pub fn printed(folder: &Path, kitchen: &Kitchen, week: &Week) -> Result<Option<Printed>, Failure> {
    let file = format!("sheets/plan-{}.json", week.from);
    let path = folder.join(&file);
    let text = match fs::read_to_string(&path) {
        Ok(text) => text,
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(None),
        Err(error) => return Err(Failure::Machine(format!("cannot read {}: {error}.", path.display()))),
    };
    read_printed(&text, &file, kitchen).map(Some).map_err(Failure::Mistakes)
}
