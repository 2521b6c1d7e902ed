//! The shopping list.

use jiff::civil::{Date, DateTime};
use schemars::JsonSchema;
use serde::Serialize;

use super::kept::KeptList;
use super::shape::OnDate;
use super::short::{Short, short};
use super::{Of, Theirs};
use crate::foods::Place;
use crate::kitchen::{Kitchen, Names, Warning};
use crate::measure::Quantity;
use crate::plan::{Move, Spare};
use crate::purchase::{Expiring, Flag, FoodAmount, FromPantry, Leftover, RecipeUse, Reserved, ShoppingList, TripList};
use crate::telling::list as words;

mod costs;
pub(super) mod meals;
pub(super) mod trips;

use self::costs::{Budgeted, Compared, Worth};
use self::meals::{Day, Meal};
use self::trips::Trip;

#[derive(JsonSchema, Serialize)]
pub(super) struct List<'a> {
    week: &'a str,
    #[schemars(with = "OnDate")]
    from: Date,
    short: Vec<Short>,
    currency: &'a str,
    cost: String,
    trips: Vec<Trip<'a>>,
    from_pantry: Vec<Drawn<'a>>,
    reserved: Vec<Kept<'a>>,
    expiring: Vec<Lot<'a>>,
    no_price: Vec<&'a str>,
    spare: Vec<Spared<'a>>,
    ask: Vec<&'a str>,
    moves: Vec<Moved>,
    flags: Vec<Flagged<'a>>,
    meals: Vec<Meal<'a>>,
    days: Vec<Day<'a>>,
    warnings: Vec<String>,
    leftovers: Vec<Left<'a>>,
    uses: Vec<Uses<'a>>,
    worth: Worth,
    budget: Option<Budgeted>,
    /// Where it was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    compare: Option<Vec<Compared<'a>>>,
}

/// As `list` writes it.
pub fn list<'a>(list: &'a ShoppingList, kitchen: &'a Kitchen) -> impl Serialize + 'a {
    told(list, |_| None, kitchen)
}

/// The same; a trip that is taken as done stands in it word for word as it was printed, and so does each line of one that is done and was
/// booked so.
pub fn list_with<'a>(list: &'a ShoppingList, kept: Option<&KeptList>, kitchen: &'a Kitchen) -> impl Serialize + 'a {
    told(list, move |trip| kept?.shown_trip(trip, kitchen.names()), kitchen)
}

/// `kept` is how a trip that is no longer open is told; where it is `None`, as the list has it.
pub(super) fn told<'a>(list: &'a ShoppingList, kept: impl Fn(&'a TripList) -> Option<Trip<'a>>, kitchen: &'a Kitchen) -> List<'a> {
    let names = kitchen.names();
    let units = kitchen.print.units;
    List {
        week: &list.week,
        from: list.from,
        short: short(&list.short, kitchen),
        currency: &names.currency.code,
        cost: names.money(list.cost),
        trips: list.trips.iter().map(|trip| kept(trip).unwrap_or_else(|| Trip::of(trip, names))).collect(),
        from_pantry: list.from_pantry.iter().map(|drawn| Drawn::of(drawn, names)).collect(),
        reserved: list.reserved.iter().map(|kept| Kept::of(kept, names)).collect(),
        expiring: list.expiring.iter().map(|lot| Lot::of(lot, names)).collect(),
        no_price: names.foods(&list.no_price),
        spare: list.spare.iter().map(|spare| Spared::of(spare, names)).collect(),
        ask: names.foods(&list.ask),
        moves: list.moves.iter().map(|moved: &Move| Moved { at: moved.on, text: words::moved(moved, names, units) }).collect(),
        flags: list.flags.iter().map(|flag| Flagged::of(flag, names)).collect(),
        meals: list.meals.iter().map(|meal| Meal::of(meal, names)).collect(),
        days: list.days.iter().map(Day::of).collect(),
        warnings: list.warnings.iter().map(Warning::to_string).collect(),
        leftovers: list.leaves.leftovers.iter().map(|left| Left::of(left, names)).collect(),
        uses: list.leaves.uses.iter().map(|uses| Uses::of(uses, names)).collect(),
        worth: Worth::of(&list.leaves.worth, names),
        budget: list.budget.as_ref().map(|budget| Budgeted::of(budget, names)),
        compare: list.compare.as_ref().map(|trips| trips.iter().map(|trip| Compared::of(trip, names)).collect()),
    }
}

impl List<'_> {
    /// Puts the meals of an earlier print that are no longer open beside those that are, and the days of which none is.
    pub(super) fn add_past_meals(&mut self, kept: &KeptList, past: &[(DateTime, String)]) {
        self.meals.extend(kept.past_meals(past));
        self.meals.sort_by(|a, b| (a.on, &a.at).cmp(&(b.on, &b.at)));
        let mut days = kept.past_days(past);
        days.retain(|day| !self.days.iter().any(|told| told.on == day.on && told.name == day.name));
        self.days.extend(days);
        self.days.sort_by_key(|day| day.on);
    }
}

#[derive(JsonSchema, Serialize)]
struct Drawn<'a> {
    #[serde(flatten)]
    of: Of<'a>,
    #[serde(flatten)]
    whose: Theirs,
    amount: &'a Quantity,
    place: Place,
    #[schemars(with = "OnDate")]
    on: Date,
    #[serde(rename = "for")]
    what_for: &'a [String],
}

impl<'a> Drawn<'a> {
    fn of(drawn: &'a FromPantry, names: Names<'a>) -> Drawn<'a> {
        let of = Of::ware(drawn.of, names);
        let whose = Theirs::of(drawn.whose.as_ref(), names);
        Drawn { of, whose, amount: &drawn.amount, place: drawn.place, on: drawn.on, what_for: &drawn.what_for }
    }
}

#[derive(JsonSchema, Serialize)]
struct Kept<'a> {
    week: &'a str,
    #[serde(flatten)]
    of: Of<'a>,
    amount: &'a Quantity,
    place: Place,
    #[schemars(with = "OnDate")]
    last_used: Date,
    #[serde(rename = "for")]
    what_for: &'a [String],
}

impl<'a> Kept<'a> {
    fn of(kept: &'a Reserved, names: Names<'a>) -> Kept<'a> {
        Kept {
            week: &kept.week,
            of: Of::ware(kept.of, names),
            amount: &kept.amount,
            place: kept.place,
            last_used: kept.last_used,
            what_for: &kept.what_for,
        }
    }
}

#[derive(JsonSchema, Serialize)]
struct Lot<'a> {
    #[serde(flatten)]
    of: Of<'a>,
    #[serde(flatten)]
    whose: Theirs,
    amount: &'a Quantity,
    place: Place,
    #[schemars(with = "Option<OnDate>")]
    until: Option<Date>,
    /// May it not be eaten any more?
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    past: bool,
}

impl<'a> Lot<'a> {
    fn of(lot: &'a Expiring, names: Names<'a>) -> Lot<'a> {
        Lot {
            of: Of::ware(lot.of, names),
            whose: Theirs::of(lot.whose.as_ref(), names),
            amount: &lot.amount,
            place: lot.place,
            until: lot.until,
            past: lot.past,
        }
    }
}

#[derive(JsonSchema, Serialize)]
struct Spared<'a> {
    recipe: &'a str,
    amount: &'a Quantity,
    #[schemars(with = "OnDate")]
    made_on: Date,
    #[schemars(with = "OnDate")]
    eat_by: Date,
}

impl<'a> Spared<'a> {
    fn of(spare: &'a Spare, names: Names<'a>) -> Spared<'a> {
        Spared { recipe: names.recipe_file(spare.recipe), amount: &spare.amount, made_on: spare.made_on, eat_by: spare.eat_by }
    }
}

#[derive(JsonSchema, Serialize)]
struct Moved {
    #[schemars(with = "OnDate")]
    at: Date,
    text: String,
}

#[derive(JsonSchema, Serialize)]
struct Flagged<'a> {
    food: &'a str,
    text: String,
}

impl<'a> Flagged<'a> {
    fn of(flag: &Flag, names: Names<'a>) -> Flagged<'a> {
        Flagged { food: names.food(flag.food), text: words::untimely(&flag.why) }
    }
}

#[derive(JsonSchema, Serialize)]
struct Left<'a> {
    food: &'a str,
    amount: &'a Quantity,
    value: String,
    #[schemars(with = "Option<OnDate>")]
    until: Option<Date>,
}

impl<'a> Left<'a> {
    fn of(left: &'a Leftover, names: Names<'a>) -> Left<'a> {
        Left { food: names.food(left.food), amount: &left.amount, value: names.money(left.value), until: left.until }
    }
}

#[derive(JsonSchema, Serialize)]
struct Uses<'a> {
    recipe: &'a str,
    value: String,
    uses: Vec<Part<'a>>,
    needs: Vec<Part<'a>>,
}

#[derive(JsonSchema, Serialize)]
struct Part<'a> {
    food: &'a str,
    amount: Option<&'a Quantity>,
}

impl<'a> Uses<'a> {
    fn of(uses: &'a RecipeUse, names: Names<'a>) -> Uses<'a> {
        let part = |part: &'a FoodAmount| Part { food: names.food(part.food), amount: part.amount.as_ref() };
        Uses {
            recipe: names.recipe_file(uses.recipe),
            value: names.money(uses.value),
            uses: uses.uses.iter().map(part).collect(),
            needs: uses.needs.iter().map(part).collect(),
        }
    }
}

#[cfg(test)]
mod tests;
