//! What a list is worth, what it should cost, and what other shops would ask for it.

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::Serialize;

use super::super::shape::OnDate;
use crate::kitchen::Names;
use crate::purchase::{self, Budget, Round, TripComparison};
use crate::telling::list as words;

#[derive(JsonSchema, Serialize)]
pub(super) struct Worth {
    used: String,
    keeps: String,
    spoils: String,
}

impl Worth {
    pub(super) fn of(worth: &purchase::Worth, names: Names) -> Worth {
        Worth { used: names.money(worth.used), keeps: names.money(worth.keeps), spoils: names.money(worth.spoils) }
    }
}

#[derive(JsonSchema, Serialize)]
pub(super) struct Budgeted {
    limit: String,
    cost: String,
    over: String,
    changes: Vec<Saved>,
    /// Changes that were not tried, in a very long week.
    #[serde(skip_serializing_if = "Option::is_none")]
    untried: Option<usize>,
    together: Option<String>,
}

#[derive(JsonSchema, Serialize)]
struct Saved {
    change: String,
    saves: String,
    cost: String,
}

impl Budgeted {
    pub(super) fn of(budget: &Budget, names: Names) -> Budgeted {
        let saved = |saving: &purchase::Saving| Saved {
            change: words::save_by(&saving.by, names),
            saves: names.money(saving.saves),
            cost: names.money(saving.cost),
        };
        Budgeted {
            limit: names.money(budget.limit),
            cost: names.money(budget.cost),
            over: names.money(budget.over()),
            changes: budget.changes.iter().map(saved).collect(),
            untried: Some(budget.untried).filter(|untried| *untried > 0),
            together: budget.together.map(|together| names.money(together)),
        }
    }
}

#[derive(JsonSchema, Serialize)]
pub(super) struct Compared<'a> {
    #[schemars(with = "OnDate")]
    on: Date,
    chosen: Shops<'a>,
    single: Vec<Shops<'a>>,
    pair: Option<Shops<'a>>,
}

#[derive(JsonSchema, Serialize)]
struct Shops<'a> {
    shops: Vec<&'a str>,
    cost: String,
    lacks: Vec<&'a str>,
}

impl<'a> Compared<'a> {
    pub(super) fn of(trip: &TripComparison, names: Names<'a>) -> Compared<'a> {
        let shops = |round: &Round| Shops {
            shops: round.shops.iter().map(|shop| names.shop(*shop)).collect(),
            cost: names.money(round.cost),
            lacks: names.foods(&round.lacks),
        };
        Compared {
            on: trip.on,
            chosen: shops(&trip.chosen),
            single: trip.single.iter().map(shops).collect(),
            pair: trip.pair.as_ref().map(shops),
        }
    }
}
