//! The shopping list as plain data, in the shape of its JSON. Money is a decimal string; dates are ISO 8601.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::TripComparison;
use crate::foods::Place;
use crate::measure::Quantity;

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ShoppingList {
    pub week: String,
    pub from: Date,
    pub currency: String,
    pub cost: String,
    pub trips: Vec<TripList>,
    pub from_pantry: Vec<FromPantry>,
    /// What other weeks take off the shelf first.
    #[serde(default)]
    pub reserved: Vec<Reserved>,
    pub expiring: Vec<Expiring>,
    pub no_price: Vec<String>,
    pub spare: Vec<SpareNote>,
    pub ask: Vec<String>,
    pub moves: Vec<MoveNote>,
    pub flags: Vec<Flag>,
    /// In order of time.
    #[serde(default)]
    pub meals: Vec<MealNote>,
    pub warnings: Vec<String>,
    #[serde(flatten, default)]
    pub leaves: Leaves,
    /// `None` where the household names no budget.
    #[serde(default)]
    pub budget: Option<Budget>,
    /// Where it was asked for.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub compare: Option<Vec<TripComparison>>,
}

/// What the trips on the list leave behind once the week is over.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Leaves {
    /// What goes off first stands first.
    pub leftovers: Vec<Leftover>,
    /// The recipes of which one batch would use up the most, by value; at most five.
    pub uses: Vec<RecipeUse>,
    pub worth: Worth,
}

/// Bought beyond the need.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Leftover {
    pub food: String,
    pub amount: Quantity,
    /// Its share of what was paid.
    pub value: String,
    /// The last day it is good; `None` where no keeping time is known.
    pub until: Option<Date>,
}

/// What one batch of a recipe would use of left-overs and expiring lots, and what else it would need.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RecipeUse {
    pub recipe: String,
    pub value: String,
    pub uses: Vec<FoodAmount>,
    pub needs: Vec<FoodAmount>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FoodAmount {
    pub food: String,
    /// `None`: to taste, or not to be reckoned.
    pub amount: Option<Quantity>,
}

/// Where the money of the list goes; the three add up to its cost.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Worth {
    /// With the fares, and with what rounding leaves over.
    pub used: String,
    /// Left, and good for at least seven days after the week's last.
    pub keeps: String,
    /// Left, and not good for so long.
    pub spoils: String,
}

/// The week beside what the household means to spend on it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Budget {
    pub limit: String,
    /// Of all trips of the week, the past ones too.
    pub cost: String,
    /// "0.00" within the budget.
    pub over: String,
    /// The single changes that save most, at most three; none within the budget.
    pub changes: Vec<Saving>,
    /// What the week would cost with all of them.
    pub together: Option<String>,
}

impl Budget {
    pub fn is_over(&self) -> bool {
        self.over.bytes().any(|digit| (b'1'..=b'9').contains(&digit))
    }
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Saving {
    /// "leave out 2 lemons at Thu supper".
    pub change: String,
    pub saves: String,
    /// What the week would then cost.
    pub cost: String,
}

/// What one eater gets of a meal.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct MealNote {
    pub on: Date,
    /// `18:30`.
    pub at: String,
    pub name: String,
    pub per_eater: PerEater,
    /// "feta: fibre, price": what keeps a figure from being known.
    pub missing: Vec<String>,
}

/// `None`: some food's figure is not known.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PerEater {
    pub kcal: Option<f64>,
    pub protein_g: Option<f64>,
    pub fibre_g: Option<f64>,
    /// Goods alone, without the trips' fares.
    pub cost: Option<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct TripList {
    pub on: Date,
    pub cost: String,
    pub shops: Vec<ShopVisit>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ShopVisit {
    /// `None`: no shop sells it, or nothing is left to buy of it.
    pub shop: Option<String>,
    pub trip_cost: Option<String>,
    pub cost: Option<String>,
    pub sections: Vec<Section>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Section {
    pub section: String,
    pub lines: Vec<ListLine>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ListLine {
    pub food: String,
    pub need: Quantity,
    pub packs: Vec<PackLine>,
    pub cost: Option<String>,
    pub left: Quantity,
    /// The last day what is left is good, of several amounts the first; `None` where nothing is left or no keeping time is known.
    #[serde(default)]
    pub left_until: Option<Date>,
    pub short: Quantity,
    pub last_used: Option<Date>,
    #[serde(rename = "for")]
    pub what_for: Vec<String>,
    /// Print only: "about 8", where one piece's weight is known.
    #[serde(skip)]
    pub about: Option<String>,
    /// Print only: the food keeps days, not months, so the paper says how long it must last.
    #[serde(skip)]
    pub fresh: bool,
    /// Print only: lines in their own words that could not be added up.
    #[serde(skip)]
    pub own_words: Vec<String>,
    /// Print only: "one for Sunday, one for Friday", where packs are opened in windows.
    #[serde(skip)]
    pub windows: Option<String>,
    /// Print only: what of it the household avoids: "contains sesame".
    #[serde(skip)]
    pub beware: Option<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PackLine {
    /// "1 kg", or "loose".
    pub size: String,
    pub count: u32,
    /// Times the offer was used.
    pub offer: Option<u32>,
    /// `None` where the pack has no price.
    pub cost: Option<String>,
    /// Loose goods only.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub amount: Option<Quantity>,
    /// Print only: "3 for 2.00".
    #[serde(skip)]
    pub offer_text: Option<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FromPantry {
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub food: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub recipe: Option<String>,
    pub amount: Quantity,
    pub place: Place,
    pub on: Date,
    #[serde(rename = "for")]
    pub what_for: Vec<String>,
    /// Print only: past its best before, to be looked at first.
    #[serde(skip)]
    pub look_first: bool,
}

/// What another week takes out of one lot before this week does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Reserved {
    pub week: String,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub food: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub recipe: Option<String>,
    pub amount: Quantity,
    pub place: Place,
    pub last_used: Date,
    #[serde(rename = "for")]
    pub what_for: Vec<String>,
}

impl Reserved {
    /// One entry a week, food and place, with the last day of any.
    pub fn added_up(all: &[Reserved]) -> Vec<Reserved> {
        let mut rows: Vec<Reserved> = Vec::new();
        for next in all {
            let same = |row: &&mut Reserved| {
                row.week == next.week && row.food == next.food && row.recipe == next.recipe && row.place == next.place
            };
            let sum = rows.iter_mut().find(same).and_then(|row| row.amount.plus(&next.amount).map(|sum| (row, sum)));
            match sum {
                Some((row, sum)) => *row = Reserved { amount: sum, last_used: row.last_used.max(next.last_used), ..row.clone() },
                None => rows.push(next.clone()),
            }
        }
        rows
    }
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Expiring {
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub food: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub recipe: Option<String>,
    pub amount: Quantity,
    pub place: Place,
    pub until: Date,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SpareNote {
    pub recipe: String,
    pub amount: Quantity,
    pub made_on: Date,
    pub eat_by: Date,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct MoveNote {
    pub at: Date,
    pub text: String,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Flag {
    pub food: String,
    pub text: String,
}
