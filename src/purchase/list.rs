//! The shopping list as plain data: ids, money, dates, amounts. Whoever prints it finds the words and the names.

use jiff::civil::{Date, DateTime};

use super::budget::Budget;
use super::left_over::Leaves;
use super::list_line::ListLine;
use super::per_eater::{DayNote, MealNote};
use crate::foods::{FoodId, Place};
use crate::kitchen::{ShopId, Ware, Warning, Whose};
use crate::measure::{Days, Money, Quantity};
use crate::plan::{Move, ShortMeal, Spare, State};

#[derive(Debug, Clone, PartialEq)]
pub struct ShoppingList {
    /// The name of the week.
    pub week: String,
    pub from: Date,
    pub cost: Money,
    pub trips: Vec<TripList>,
    pub from_pantry: Vec<FromPantry>,
    /// What other weeks take off the shelf first.
    pub reserved: Vec<Reserved>,
    pub expiring: Vec<Expiring>,
    /// In order of their names.
    pub no_price: Vec<FoodId>,
    pub spare: Vec<Spare>,
    /// In order of their names.
    pub ask: Vec<FoodId>,
    pub moves: Vec<Move>,
    pub flags: Vec<Flag>,
    /// Meals that nothing can serve any more.
    pub short: Vec<ShortMeal>,
    /// In order of time.
    pub meals: Vec<MealNote>,
    /// By day, then in the order of the eaters; of those who say what they need.
    pub days: Vec<DayNote>,
    pub warnings: Vec<Warning>,
    pub leaves: Leaves,
    /// `None` where the household names no budget.
    pub budget: Option<Budget>,
    /// Where it was asked for.
    pub compare: Option<Vec<TripComparison>>,
}

impl ShoppingList {
    /// Every line of every trip.
    pub fn lines(&self) -> impl Iterator<Item = &ListLine> {
        self.trips.iter().flat_map(TripList::lines)
    }
}

/// The rounds one trip could be, one entry a trip of the week.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TripComparison {
    pub on: Date,
    /// The round on the shopping list.
    pub chosen: Round,
    /// Each shop of the trip that sells anything needed, in file order.
    pub single: Vec<Round>,
    /// The two shops that lack the least; of those the cheapest, then the first in the file. `None` with fewer than two shops.
    pub pair: Option<Round>,
}

/// What is bought in some shops, fares included.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Round {
    pub shops: Vec<ShopId>,
    /// Goods and fares.
    pub cost: Money,
    /// Foods that the chosen round buys and these shops do not sell for a price, in order of their names.
    pub lacks: Vec<FoodId>,
}

/// A session or a meal that waits for goods, in order of time.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Awaiting {
    /// When it begins.
    pub at: DateTime,
    /// The word of a meal; a session has its clock alone.
    pub meal: Option<String>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct TripList {
    pub on: Date,
    pub cost: Money,
    /// False: it stands in no file, and buys what no planned trip brings in time.
    pub planned: bool,
    /// Which trip of its day it is, as [`Trip::nth`](crate::kitchen::Trip::nth).
    pub nth: usize,
    /// What waits for a trip of its own first.
    pub before: Option<Awaiting>,
    /// Where all trips are asked for.
    pub state: Option<State>,
    pub shops: Vec<ShopVisit>,
    /// Of a booked trip: what its print had, and what was not booked as bought.
    pub not_booked: Vec<FoodId>,
}

impl TripList {
    pub fn lines(&self) -> impl Iterator<Item = &ListLine> {
        self.shops.iter().flat_map(ShopVisit::lines)
    }

    /// How it stands, where it is no longer open.
    pub fn closed(&self) -> Option<State> {
        self.state.filter(|state| *state != State::Open)
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct ShopVisit {
    /// `None`: no shop sells it, or nothing is left to buy of it.
    pub at: Option<Stop>,
    pub sections: Vec<Section>,
}

impl ShopVisit {
    pub fn lines(&self) -> impl Iterator<Item = &ListLine> {
        self.sections.iter().flat_map(|section| &section.lines)
    }
}

/// One shop of a trip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stop {
    pub shop: ShopId,
    /// What it costs to get there.
    pub fare: Money,
    /// Goods and fare.
    pub cost: Money,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// As the household or the reference names it.
    pub section: String,
    pub lines: Vec<ListLine>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct FromPantry {
    pub of: Ware,
    /// In the measure of the need.
    pub amount: Quantity,
    /// The same in the measure in which the lot lies: that is how a person is told it.
    pub lies: Quantity,
    /// Is that all of the lot?
    pub is_all: bool,
    pub place: Place,
    pub on: Date,
    /// Names of recipes and meals.
    pub what_for: Vec<String>,
    /// Past its best before, to be looked at first.
    pub look_first: bool,
    /// Of what was cooked, whose it is alone.
    pub whose: Option<Whose>,
}

/// What another week takes out of one lot before this week does.
#[derive(Debug, Clone, PartialEq)]
pub struct Reserved {
    /// The name of that week.
    pub week: String,
    pub of: Ware,
    pub amount: Quantity,
    pub place: Place,
    pub last_used: Date,
    /// Names of recipes and meals.
    pub what_for: Vec<String>,
}

impl Reserved {
    /// One entry a week, food and place, with the last day of any.
    pub fn added_up(all: &[Reserved]) -> Vec<Reserved> {
        let mut rows: Vec<Reserved> = Vec::new();
        for next in all {
            let same = |row: &&mut Reserved| row.week == next.week && row.of == next.of && row.place == next.place;
            let sum = rows.iter_mut().find(same).and_then(|row| row.amount.plus(&next.amount).map(|sum| (row, sum)));
            match sum {
                Some((row, sum)) => *row = Reserved { amount: sum, last_used: row.last_used.max(next.last_used), ..row.clone() },
                None => rows.push(next.clone()),
            }
        }
        rows
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct Expiring {
    pub of: Ware,
    /// Of what was cooked, whose it is alone.
    pub whose: Option<Whose>,
    pub amount: Quantity,
    pub place: Place,
    /// `None` of what was cooked and nobody will eat, where no date is known.
    pub until: Option<Date>,
    /// May it not be eaten any more?
    pub past: bool,
    /// Is the day past until which it was good? In cupboard and freezer it is then looked at, and may still be drawn.
    pub lies_past: bool,
}

/// A food that no trip buys at the right time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Flag {
    pub food: FoodId,
    pub why: Untimely,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Untimely {
    /// It does not keep from the trip to its use.
    TooEarly { before: Days, keeps: Days },
    /// It is used before the trip.
    TooLate { needed: Date, bought: Date },
}
