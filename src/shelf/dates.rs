//! Until when a lot is good, and until when it may still be drawn.
//!
//! A cooked lot serves from the day it is made, not before.

use jiff::ToSpan;
use jiff::civil::Date;

use crate::foods::{Foods, Place};
use crate::kitchen::{Lot, Recipe, Ware};
use crate::measure::Days;

/// The dates that follow from what is known of a lot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LotDates {
    /// The earliest of all its dates: the order of first expired, first out. `None` sorts last.
    pub earliest: Option<Date>,
    /// Never drawn after this day: use-by, opened keeping, and in the fridge best before and keeping.
    pub last_draw: Option<Date>,
    /// In cupboard and freezer: drawn after this day too, but marked "look at it first".
    pub look_after: Option<Date>,
}

impl LotDates {
    pub fn may_be_drawn_on(&self, day: Date) -> bool {
        self.last_draw.is_none_or(|last| day <= last)
    }

    pub fn wants_a_look_on(&self, day: Date) -> bool {
        self.look_after.is_some_and(|last| day > last)
    }
}

/// `days` after `day`, at the end of the calendar where it would lie beyond.
pub fn after_days(day: Date, days: Days) -> Date {
    day.saturating_add(days.0.clamp(-3_000_000, 3_000_000).days())
}

/// The dates of one lot, from its own and from what its food or recipe is known to keep.
pub fn lot_dates(foods: &Foods, recipes: &[Recipe], lot: &Lot) -> LotDates {
    let keeping = keeping(foods, recipes, lot);
    let opened = lot.opened.zip(opened_keeping(foods, lot)).map(|(day, days)| after_days(day, days));
    // `since` is a stand-in for the dates on a pack, and stays one once the pack is opened and stands in the fridge for it.
    let dated = lot.use_by.or(lot.best_before).is_some();
    let as_pack = opened.and(closed_keeping(foods, lot)).max(keeping);
    let since = lot.since.filter(|_| !dated).zip(as_pack).map(|(day, days)| after_days(day, days));
    let made = lot.made.zip(keeping).map(|(day, days)| after_days(day, days));

    let safety = [lot.use_by, opened].into_iter().flatten().min();
    let quality = [lot.best_before, since, made].into_iter().flatten().min();
    let chilled = lot.place == Place::Fridge;
    LotDates {
        earliest: [safety, quality].into_iter().flatten().min(),
        last_draw: [safety, quality.filter(|_| chilled)].into_iter().flatten().min(),
        look_after: quality.filter(|_| !chilled),
    }
}

fn keeping(foods: &Foods, recipes: &[Recipe], lot: &Lot) -> Option<Days> {
    match lot.of {
        Ware::Food(food) => foods[food].keeps.at(lot.place),
        Ware::Recipe(recipe) => {
            let recipe = &recipes[recipe];
            match lot.place {
                Place::Cupboard => recipe.cupboard,
                Place::Fridge => Some(recipe.fridge.unwrap_or_default()),
                Place::Freezer => recipe.freezer,
            }
        }
    }
}

/// How long it kept as a closed pack, which may have stood in the cupboard.
fn closed_keeping(foods: &Foods, lot: &Lot) -> Option<Days> {
    match lot.of {
        Ware::Food(food) if lot.place == Place::Fridge => foods[food].keeps.at(Place::Cupboard),
        _ => None,
    }
}

fn opened_keeping(foods: &Foods, lot: &Lot) -> Option<Days> {
    match lot.of {
        Ware::Food(food) => foods[food].keeps.opened.as_ref().map(|fact| fact.value),
        Ware::Recipe(_) => None,
    }
}
