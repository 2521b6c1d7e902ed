//! What `list` says after the trips: what the week leaves behind, where the money goes, and other rounds of the shops.

use std::fmt::Write;

use super::wrap::{columns, titled};
use crate::kitchen::much::{called, how_much, much_of};
use crate::kitchen::{Names, Ware};
use crate::measure::Units;
use crate::purchase::{FoodAmount, Round, ShoppingList, TripComparison};
use crate::telling::list::save_by;
use crate::words::{day, day_near};

/// What is left over, and the recipes that would use it up.
pub fn left_over(list: &ShoppingList, names: Names, units: Units) -> String {
    let mut out = String::new();
    let leftovers = list.leaves.leftovers.iter().map(|left| {
        let until = left.until.map(|until| format!("good until {}", day_near(until, list.from))).unwrap_or_default();
        let food = Ware::Food(left.food);
        vec![called(names, food, &left.amount), how_much(names, food, &left.amount, units), names.money(left.value), until]
    });
    titled(&mut out, "Left over", leftovers.collect());
    let uses = list.leaves.uses.iter().map(|uses| {
        let needs = if uses.needs.is_empty() { String::new() } else { format!("; needs {}", amounts(&uses.needs, names, units)) };
        vec![names.recipe(uses.recipe).to_owned(), names.money(uses.value), format!("uses {}{needs}", amounts(&uses.uses, names, units))]
    });
    titled(&mut out, "One batch would use up", uses.collect());
    out
}

fn amounts(parts: &[FoodAmount], names: Names, units: Units) -> String {
    let said = parts.iter().map(|part| match &part.amount {
        Some(amount) => much_of(names, Ware::Food(part.food), amount, units),
        None => names.food(part.food).to_owned(),
    });
    said.collect::<Vec<_>>().join(", ")
}

/// Where the total goes, the budget, and the rounds compared.
pub fn money(list: &ShoppingList, names: Names) -> String {
    let [used, keeps, spoils] = [list.leaves.worth.used, list.leaves.worth.keeps, list.leaves.worth.spoils].map(|sum| names.money(sum));
    let mut out = String::new();
    let _ = writeln!(out, "  used {used}, left and good for another week {keeps}, left and will spoil {spoils}");
    if let Some(budget) = &list.budget {
        let (limit, cost) = (names.money(budget.limit), names.money(budget.cost));
        let _ = writeln!(out, "\nBudget {limit} {} a week; the week costs {cost}", names.currency);
        if budget.is_over() {
            let _ = writeln!(out, "  {} over", names.money(budget.over()));
        }
        let row = |what: String, saves: String, cost| vec![what, saves, format!("then {}", names.money(cost))];
        let changes = budget.changes.iter();
        let changes = changes.map(|saving| row(save_by(&saving.by, names), format!("saves {}", names.money(saving.saves)), saving.cost));
        let mut rows: Vec<Vec<String>> = changes.collect();
        if let Some(together) = budget.together.filter(|_| rows.len() > 1) {
            rows.push(row("all of these".to_owned(), String::new(), together));
        }
        out.push_str(&columns(&rows, 2));
        if budget.untried > 0 {
            let _ = writeln!(out, "  {} smaller changes were not tried: the week is too long for that", budget.untried);
        }
    }
    if let Some(compared) = &list.compare {
        out.push_str("\nCompared\n");
        out.push_str(&compared.iter().map(|trip| rounds(trip, names)).collect::<String>());
    }
    out
}

fn rounds(trip: &TripComparison, names: Names) -> String {
    let single = trip.single.iter().map(|round| ("one shop", round));
    let all = std::iter::once(("as listed", &trip.chosen)).chain(single).chain(trip.pair.as_ref().map(|pair| ("best pair", pair)));
    format!("  {}\n{}", day(trip.on), columns(&all.map(|(what, round)| row(what, round, names)).collect::<Vec<_>>(), 4))
}

fn row(what: &str, round: &Round, names: Names) -> Vec<String> {
    let shops = round.shops.iter().map(|shop| names.shop(*shop)).collect::<Vec<_>>().join(" and ");
    let shops = if shops.is_empty() { "nowhere".to_owned() } else { shops };
    let lacks = if round.lacks.is_empty() { String::new() } else { format!("lacks {}", names.foods(&round.lacks).join(", ")) };
    vec![what.to_owned(), shops, names.money(round.cost), lacks]
}
