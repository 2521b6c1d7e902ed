//! What was last printed, as plan-<from>.json holds it.

use std::io::{self, ErrorKind, Read};
use std::path::Path;

use jiff::civil::Date;

use super::outcome::{Failure, remark};
use crate::json::{Printed, read_printed};
use crate::kitchen::{Kitchen, Mistake, Spot, Week};
use crate::sheets::mark_of;
use crate::store::open_ordinary;

/// The text of a file, which must be an ordinary one.
pub fn text_of(path: &Path) -> io::Result<String> {
    io::read_to_string(open_ordinary(path)?)
}

/// `None` where the week was not printed into the kitchen's own sheets.
pub fn printed(folder: &Path, kitchen: &Kitchen, week: &Week) -> Result<Option<Printed>, Failure> {
    printed_in(&folder.join("sheets"), kitchen, week.from)
}

/// The last print into a folder of the week that begins on a day.
pub fn printed_in(sheets: &Path, kitchen: &Kitchen, from: Date) -> Result<Option<Printed>, Failure> {
    let file = format!("sheets/plan-{from}.json");
    let path = sheets.join(format!("plan-{from}.json"));
    let text = match text_of(&path) {
        Ok(text) => text,
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(None),
        Err(error) if error.kind() == ErrorKind::InvalidData => return Err(Failure::Mistakes(vec![no_text(&path, &file)])),
        Err(error) => return Err(Failure::reading(&path, &error)),
    };
    read_printed(&text, &file, kitchen).map(Some).map_err(Failure::Mistakes)
}

/// A print with a byte that stands for no letter, with where that is.
fn no_text(path: &Path, file: &str) -> Mistake {
    let mut bytes = Vec::new();
    // What cannot be read a second time has no place to be told.
    let _ = open_ordinary(path).and_then(|mut file| file.read_to_end(&mut bytes));
    let upto = std::str::from_utf8(&bytes).map_or_else(|error| error.valid_up_to(), |_| 0);
    let line = bytes[..upto].iter().filter(|byte| **byte == b'\n').count() + 1;
    let column = bytes[..upto].iter().rev().take_while(|byte| **byte != b'\n').count() + 1;
    Mistake {
        at: Spot { file: file.to_owned(), line: line as u32, column: column as u32 },
        cause: "is not as it was printed, and cannot be read: it is not UTF-8 here".to_owned(),
        remedy: "Print the week again.".to_owned(),
    }
}

/// Paper that does not belong to the plan which is about to be booked is told: the print was cut short, or was another one's.
pub fn tell_strange_paper(folder: &Path, sheet: &str, plan: &Printed) {
    let mut bytes = Vec::new();
    let read = open_ordinary(&folder.join("sheets").join(sheet)).and_then(|mut file| file.read_to_end(&mut bytes));
    // What is not there, or cannot be read, was not printed.
    let Some((on_paper, planned)) = read.ok().and_then(|_| mark_of(&bytes)).zip(plan.mark.as_ref()) else { return };
    if on_paper != *planned {
        remark(&format!(
            "sheets/{sheet} belongs to another plan than sheets/plan-{}.json, by which this is booked: the foot of the one says plan \
             {on_paper}, the other is plan {planned}. Print the week again.",
            plan.buys.from
        ));
    }
}
