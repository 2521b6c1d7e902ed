//! What `list` says after the trips: what the week leaves behind, where the money goes, and other rounds of the shops.

use std::fmt::Write;

use super::list::titled;
use super::wrap::columns;
use crate::measure::{Quantity, Units, show};
use crate::purchase::{FoodAmount, Round, ShoppingList, TripComparison};
use crate::words::{day, day_near};

/// What is left over, and the recipes that would use it up.
pub fn left_over(list: &ShoppingList, units: Units) -> String {
    let mut out = String::new();
    let leftovers = list.leaves.leftovers.iter().map(|left| {
        let until = left.until.map(|until| format!("good until {}", day_near(until, list.from))).unwrap_or_default();
        vec![left.food.clone(), show(&left.amount, units), left.value.clone(), until]
    });
    titled(&mut out, "Left over", leftovers.collect());
    let uses = list.leaves.uses.iter().map(|uses| {
        let needs = if uses.needs.is_empty() { String::new() } else { format!("; needs {}", amounts(&uses.needs, units)) };
        vec![uses.recipe.clone(), uses.value.clone(), format!("uses {}{needs}", amounts(&uses.uses, units))]
    });
    titled(&mut out, "One batch would use up", uses.collect());
    out
}

fn amounts(parts: &[FoodAmount], units: Units) -> String {
    let said = parts.iter().map(|part| match &part.amount {
        Some(amount @ Quantity::Count(_)) => format!("{} × {}", show(amount, units), part.food),
        Some(amount) => format!("{} {}", show(amount, units), part.food),
        None => part.food.clone(),
    });
    said.collect::<Vec<_>>().join(", ")
}

/// Where the total goes, the budget, and the rounds compared.
pub fn money(list: &ShoppingList) -> String {
    let worth = &list.leaves.worth;
    let mut out = String::new();
    let _ = writeln!(out, "  used {}, left and good for another week {}, left and will spoil {}", worth.used, worth.keeps, worth.spoils);
    if let Some(budget) = &list.budget {
        let _ = writeln!(out, "\nBudget {} {} a week; the week costs {}", budget.limit, list.currency, budget.cost);
        if budget.is_over() {
            let _ = writeln!(out, "  {} over", budget.over);
        }
        let changes = budget
            .changes
            .iter()
            .map(|saving| vec![saving.change.clone(), format!("saves {}", saving.saves), format!("then {}", saving.cost)]);
        let mut rows: Vec<Vec<String>> = changes.collect();
        if let Some(together) = budget.together.as_ref().filter(|_| rows.len() > 1) {
            rows.push(vec!["all of these".to_owned(), String::new(), format!("then {together}")]);
        }
        out.push_str(&columns(&rows, 2));
    }
    if let Some(compared) = &list.compare {
        out.push_str("\nCompared\n");
        out.push_str(&compared.iter().map(rounds).collect::<String>());
    }
    out
}

fn rounds(trip: &TripComparison) -> String {
    let single = trip.single.iter().map(|round| ("one shop", round));
    let all = std::iter::once(("as listed", &trip.chosen)).chain(single).chain(trip.pair.as_ref().map(|pair| ("best pair", pair)));
    format!("  {}\n{}", day(trip.on), columns(&all.map(|(what, round)| row(what, round)).collect::<Vec<_>>(), 4))
}

fn row(what: &str, round: &Round) -> Vec<String> {
    let shops = if round.shops.is_empty() { "nowhere".to_owned() } else { round.shops.join(" and ") };
    let lacks = if round.lacks.is_empty() { String::new() } else { format!("lacks {}", round.lacks.join(", ")) };
    vec![what.to_owned(), shops, round.cost.clone(), lacks]
}
