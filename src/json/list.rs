//! The shopping list.

use std::borrow::Cow;

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::kept::KeptList;
use super::shape::OnDate;
use super::short::{Short, short};
use super::{Of, Theirs};
use crate::foods::Place;
use crate::kitchen::{self, Kitchen, Names, Warning};
use crate::measure::Quantity;
use crate::plan::{Move, Spare};
use crate::purchase::{
    self, Expiring, Flag, FoodAmount, FromPantry, Leftover, ListLine, PackLine, Packed, RecipeUse, Reserved, ShopVisit, ShoppingList,
    TripList,
};
use crate::telling::list as words;

mod costs;
mod meals;

use self::costs::{Budgeted, Compared, Worth};
pub(super) use self::meals::{Day, Meal};

#[derive(JsonSchema, Serialize)]
pub(super) struct List<'a> {
    week: &'a str,
    #[schemars(with = "OnDate")]
    from: Date,
    short: Vec<Short>,
    currency: &'a str,
    cost: String,
    pub(super) trips: Vec<Trip<'a>>,
    from_pantry: Vec<Drawn<'a>>,
    reserved: Vec<Kept<'a>>,
    expiring: Vec<Lot<'a>>,
    no_price: Vec<&'a str>,
    spare: Vec<Spared<'a>>,
    ask: Vec<&'a str>,
    moves: Vec<Moved>,
    flags: Vec<Flagged<'a>>,
    pub(super) meals: Vec<Meal<'a>>,
    pub(super) days: Vec<Day<'a>>,
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
    told(list, None, kitchen)
}

/// The same; a trip that is no longer open stands in it word for word as it was printed.
pub fn list_with<'a>(list: &'a ShoppingList, kept: Option<&KeptList>, kitchen: &'a Kitchen) -> impl Serialize + 'a {
    told(list, kept, kitchen)
}

pub(super) fn told<'a>(list: &'a ShoppingList, kept: Option<&KeptList>, kitchen: &'a Kitchen) -> List<'a> {
    let names = kitchen.names();
    let units = kitchen.print.units;
    List {
        week: &list.week,
        from: list.from,
        short: short(&list.short, kitchen),
        currency: &names.currency.code,
        cost: names.money(list.cost),
        trips: list.trips.iter().map(|trip| kept.and_then(|kept| kept.past_trip(trip)).unwrap_or_else(|| Trip::of(trip, names))).collect(),
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

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
pub(super) struct Trip<'a> {
    #[schemars(with = "OnDate")]
    pub(super) on: Date,
    #[serde(default = "yes")]
    pub(super) planned: bool,
    /// Of the second trip of its own on one day and the next ones: which it is, counted from 1.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub(super) number: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub(super) state: Option<Cow<'a, str>>,
    pub(super) cost: String,
    pub(super) shops: Vec<Visit<'a>>,
}

pub(super) fn yes() -> bool {
    true
}

impl<'a> Trip<'a> {
    fn of(trip: &'a TripList, names: Names<'a>) -> Trip<'a> {
        let shops = trip.shops.iter().map(|visit| Visit::of(visit, names)).collect();
        let state = trip.state.map(|state| Cow::Borrowed(state.words()));
        let number = trip.nth.checked_sub(kitchen::Trip::OWN).filter(|nth| *nth > 0).map(|nth| nth + 1);
        Trip { on: trip.on, planned: trip.planned, number, state, cost: names.money(trip.cost), shops }
    }
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
pub(super) struct Visit<'a> {
    shop: Option<Cow<'a, str>>,
    trip_cost: Option<String>,
    cost: Option<String>,
    sections: Vec<Section<'a>>,
}

impl<'a> Visit<'a> {
    fn of(visit: &'a ShopVisit, names: Names<'a>) -> Visit<'a> {
        let section = |section: &'a purchase::Section| Section {
            section: Cow::Borrowed(section.section.as_str()),
            lines: section.lines.iter().map(|line| Line::of(line, names)).collect(),
        };
        Visit {
            shop: visit.at.map(|stop| Cow::Borrowed(names.shop(stop.shop))),
            trip_cost: visit.at.map(|stop| names.money(stop.fare)),
            cost: visit.at.map(|stop| names.money(stop.cost)),
            sections: visit.sections.iter().map(section).collect(),
        }
    }
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Section<'a> {
    section: Cow<'a, str>,
    lines: Vec<Line<'a>>,
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Line<'a> {
    food: Cow<'a, str>,
    need: Cow<'a, Quantity>,
    packs: Vec<Pack<'a>>,
    cost: Option<String>,
    left: Cow<'a, Quantity>,
    #[schemars(with = "Option<OnDate>")]
    left_until: Option<Date>,
    short: Cow<'a, Quantity>,
    #[schemars(with = "Option<OnDate>")]
    last_used: Option<Date>,
    #[serde(rename = "for")]
    what_for: Vec<Cow<'a, str>>,
    /// Where every use of it is.
    #[serde(skip_serializing_if = "std::ops::Not::not", default)]
    optional: bool,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    without: Option<Without<'a>>,
}

/// The offer to do without the last of a line.
#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Without<'a> {
    short: Cow<'a, Quantity>,
    share: f64,
    saves: String,
}

impl<'a> Without<'a> {
    fn of(without: &'a purchase::Without, names: Names<'a>) -> Without<'a> {
        Without { short: Cow::Borrowed(&without.short), share: without.share, saves: names.money(without.saves) }
    }
}

impl<'a> Line<'a> {
    fn of(line: &'a ListLine, names: Names<'a>) -> Line<'a> {
        Line {
            food: Cow::Borrowed(names.food(line.food)),
            need: Cow::Borrowed(&line.need),
            packs: line.packs.iter().map(|pack| Pack::of(pack, names)).collect(),
            cost: line.cost.map(|cost| names.money(cost)),
            left: Cow::Borrowed(&line.left),
            left_until: line.left_until,
            short: Cow::Borrowed(&line.short),
            last_used: line.last_used,
            what_for: words::purposes(line).into_iter().map(Cow::Borrowed).collect(),
            optional: line.optional,
            without: line.without.as_ref().map(|without| Without::of(without, names)),
        }
    }
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Pack<'a> {
    /// As typed, or [`LOOSE`].
    size: Cow<'a, str>,
    count: u32,
    /// Times the offer was used.
    offer: Option<u32>,
    cost: String,
    /// Loose goods only.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    amount: Option<Cow<'a, Quantity>>,
}

/// The size of what is weighed out.
pub(super) const LOOSE: &str = "loose";

impl<'a> Pack<'a> {
    fn of(pack: &'a PackLine, names: Names<'a>) -> Pack<'a> {
        let (size, count, amount) = match &pack.what {
            Packed::Packs { count, label, .. } => (label.as_str(), *count, None),
            Packed::Loose(amount) => (LOOSE, 1, Some(Cow::Borrowed(amount))),
        };
        Pack { size: Cow::Borrowed(size), count, offer: pack.offer.map(|taken| taken.times), cost: names.money(pack.cost), amount }
    }
}

#[derive(JsonSchema, Serialize)]
struct Drawn<'a> {
    #[serde(flatten)]
    of: Of<'a>,
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
        Drawn { of, amount: &drawn.amount, place: drawn.place, on: drawn.on, what_for: &drawn.what_for }
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
