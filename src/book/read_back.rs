//! What is about to be written, read back by the reader of the household's files: what it would refuse is never written.

use std::path::Path;

use super::booking::Change;
use super::record::{LotRecord, records};
use crate::kitchen::{Mistake, Spot, load_with};
use crate::store::PANTRY;

/// The shelf with these changes made, without what was paid.
pub fn as_it_would_stand(shelf: &[LotRecord], changes: &[Change]) -> Vec<LotRecord> {
    let mut shelf: Vec<LotRecord> = shelf.iter().map(LotRecord::on_paper).collect();
    for change in changes {
        if let Some(from) = change.from.as_ref().map(LotRecord::on_paper)
            && let Some(at) = shelf.iter().position(|lot| *lot == from)
        {
            shelf.remove(at);
        }
        shelf.extend(change.to.as_ref().map(LotRecord::on_paper));
    }
    shelf
}

/// Reads the kitchen with `texts` in place of its files, each by its name, and holds its lots against those expected.
///
/// # Errors
/// What the reader refuses, with the line as it would stand; and lots that would be read otherwise than they are booked.
pub fn read_back(folder: &Path, texts: &[(&str, String)], expected: &[LotRecord]) -> Result<(), Vec<Mistake>> {
    if texts.is_empty() {
        return Ok(());
    }
    let plain: Vec<(&str, &str)> = texts.iter().map(|(file, text)| (*file, text.as_str())).collect();
    let loaded =
        load_with(folder, &plain).map_err(|not| not.mistakes.into_iter().map(|one| as_written(one, &plain)).collect::<Vec<_>>())?;
    let (read, booked) = (bag(&records(&loaded.kitchen)), bag(expected));
    if read == booked {
        return Ok(());
    }
    let other = booked.iter().find(|lot| !read.contains(lot)).or_else(|| read.iter().find(|lot| !booked.contains(lot)));
    let lot = other.map(|lot| lot.amount_text()).unwrap_or_default();
    Err(vec![Mistake {
        at: Spot { file: PANTRY.to_owned(), ..Spot::default() },
        cause: format!("this booking would write {lot}, which would be read as another lot"),
        remedy: "Book a plainer amount.".to_owned(),
    }])
}

/// In one order; a food may bear another name by now.
fn bag(lots: &[LotRecord]) -> Vec<LotRecord> {
    let mut bag: Vec<LotRecord> = lots.iter().map(unnamed).collect();
    bag.sort();
    bag
}

fn unnamed(lot: &LotRecord) -> LotRecord {
    let foods = |name: &String| if name.starts_with("recipe:") { name.clone() } else { String::new() };
    LotRecord { food: lot.food.as_ref().map(|_| String::new()), without: lot.without.iter().map(foods).collect(), ..lot.clone() }
}

/// The place is of a text that never stands, so the line itself is told.
fn as_written(mistake: Mistake, texts: &[(&str, &str)]) -> Mistake {
    let Some((_, text)) = texts.iter().find(|(file, _)| *file == mistake.at.file) else { return mistake };
    let line = text.lines().nth((mistake.at.line as usize).saturating_sub(1)).unwrap_or_default().trim();
    Mistake {
        at: Spot { file: mistake.at.file, ..Spot::default() },
        cause: format!("this booking would write the line {line} there: {}", mistake.cause),
        remedy: mistake.remedy,
    }
}
