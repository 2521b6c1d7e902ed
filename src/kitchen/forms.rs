//! Forms that spence writes and a person fills in by hand: the count sheet and the goods-in sheet. Plain data; nothing is computed.

use jiff::civil::Date;

use super::warning::{Spot, Warning};
use crate::foods::Place;
use crate::measure::{InPacks, Money};

/// What was found on the shelf of one lot.
#[derive(Debug, Clone, PartialEq)]
pub enum Counted {
    /// "0".
    Gone,
    /// `bare` where no unit was written: "150".
    Left { amount: InPacks, bare: bool },
}

/// One `[[lot]]` of a count sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct CountedLot {
    pub food: Option<String>,
    pub recipe: Option<String>,
    /// Whose it is alone, and what it lacks: foods by their names, recipes as `recipe:id`.
    pub eater: Option<String>,
    pub without: Vec<String>,
    pub place: Place,
    pub best_before: Option<Date>,
    pub use_by: Option<Date>,
    pub opened: Option<Date>,
    pub since: Option<Date>,
    pub made: Option<Date>,
    /// What the book had when the sheet was written; `None` of a lot that a person added.
    pub booked: Option<InPacks>,
    /// `None` where it was left blank.
    pub counted: Option<Counted>,
    pub at: Spot,
    /// Where `counted` stands, or the lot.
    pub counted_at: Spot,
}

/// A count sheet as it was filled in.
#[derive(Debug, Clone, PartialEq)]
pub struct CountForm {
    pub lots: Vec<CountedLot>,
    /// The whole file, by which a sheet that is booked already is known.
    pub text: String,
    pub warnings: Vec<Warning>,
}

/// One `[[line]]` of a goods-in sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct GoodsLine {
    pub food: String,
    /// What was bought: one amount a size.
    pub packs: Vec<InPacks>,
    /// Written as an exception beside `packs`, which it replaces.
    pub instead: Option<InPacks>,
    pub without: bool,
    pub paid: Option<Money>,
    pub until: Option<Date>,
    pub at: Spot,
}

/// A goods-in sheet as it was filled in.
#[derive(Debug, Clone, PartialEq)]
pub struct GoodsForm {
    /// The week's name day.
    pub from: Date,
    pub from_at: Spot,
    pub trip: Date,
    pub trip_at: Spot,
    /// Of the list that it was copied from, where it was.
    pub hash: Option<String>,
    pub lines: Vec<GoodsLine>,
    /// As on the command line: "1 kg onions at 1.20".
    pub also: Vec<(String, Spot)>,
}
