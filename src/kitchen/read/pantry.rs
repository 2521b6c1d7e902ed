//! pantry.toml: what is on the shelf now.

use jiff::civil::Date;

use super::eaters::ware;
use super::lines::Speech;
use super::shapes;
use super::table::Table;
use crate::foods::Place;
use crate::kitchen::{Lot, RecipeId, Ware, Whose};
use crate::measure::{Dimension, Quantity};

pub(super) static PLACES: [(&str, Place); 3] = [("cupboard", Place::Cupboard), ("fridge", Place::Fridge), ("freezer", Place::Freezer)];

pub(super) fn read_lots(top: &Table<'_>, speech: &mut Speech<'_>) -> Vec<Lot> {
    top.each("lot", "[[lot]]").iter().filter_map(|table| read_lot(table, speech)).collect()
}

fn read_lot(table: &Table<'_>, speech: &mut Speech<'_>) -> Option<Lot> {
    let of = read_of(table, speech);
    let lies = table.required("amount", "\"350 g\"", shapes::in_packs(speech.spoons));
    let place = table.required("place", "\"cupboard\"", shapes::one_of(&PLACES));
    let date = |key: &str| table.optional(key, shapes::date);
    let lot = Lot {
        best_before: date("best_before"),
        use_by: date("use_by"),
        opened: date("opened"),
        since: date("since"),
        made: date("made"),
        paid: None,
        of: of?,
        whose: read_whose(table, speech),
        // What was cooked lies in boxes, which nobody opens for good.
        pack: lies.as_ref().and_then(|lies| lies.pack.clone()).filter(|_| matches!(of, Some(Ware::Food(_)))),
        amount: lies?.amount,
        place: place?,
        at: table.spot(),
    };
    check_lot(&lot, table);
    Some(lot)
}

/// `eater`, and what its box lacks: `without`.
pub(super) fn read_whose(table: &Table<'_>, speech: &mut Speech<'_>) -> Option<Whose> {
    let eater = table.optional("eater", shapes::text);
    let words = table.texts("without").unwrap_or_default();
    let mut without: Vec<Ware> = words.iter().filter_map(|(word, at)| ware(word, at, speech)).collect();
    without.sort();
    without.dedup();
    if table.has("food") {
        let remedy = "Take it out: only of what was cooked is a portion set aside for one eater.";
        for key in ["eater", "without"].into_iter().filter(|key| table.has(key)) {
            table.mistake(key, "a food is nobody's alone", remedy);
        }
    } else if table.has("without") && !table.has("eater") {
        table.mistake("without", "without needs whose it is", "Add eater = \"Emil\": a portion without something is one eater's.");
    } else if table.has("eater") && !table.has("without") {
        table.mistake(
            "eater",
            "what is one eater's alone lacks something",
            "Add without = [\"tahini\"], or take eater out: it serves everybody.",
        );
    }
    Some(Whose { eater: eater?, without })
}

pub(super) fn read_of(table: &Table<'_>, speech: &mut Speech<'_>) -> Option<Ware> {
    let food = table.optional("food", shapes::text);
    let recipe = table.optional("recipe", shapes::text);
    match (table.has("food"), table.has("recipe")) {
        (true, false) => food.map(|name| Ware::Food(speech.food(&name, &table.spot_of("food")))),
        (false, true) => {
            let name = recipe?;
            let name = name.strip_prefix("recipe:").unwrap_or(&name);
            let index = speech.recipes.find(name, &table.spot_of("recipe"), speech.found)?;
            Some(Ware::Recipe(RecipeId(index)))
        }
        (true, true) => {
            table.mistake("recipe", "a lot is of either a food or a recipe", "Keep one of the two.");
            None
        }
        (false, false) => {
            table.missing("food", "\"pearl barley\"");
            None
        }
    }
}

fn check_lot(lot: &Lot, table: &Table<'_>) {
    if let Ware::Food(_) = lot.of {
        if lot.made.is_some() {
            table.mistake(
                "made",
                "only what was cooked has a day it was made",
                "Write since for the day from which a food's keeping counts.",
            );
        }
        if lot.amount.dimension() == Dimension::Portion {
            table.mistake("amount", "a food has no portions", "Write a weight, a volume or pieces.");
        }
    } else if let Quantity::Words(_, word) = &lot.amount {
        table.mistake("amount", format!("a cooked recipe is not counted in {word}s"), "Write portions, a weight, a volume or pieces.");
    }
    check_dates_of(lot, table);
}

/// The dates of a lot follow one another.
pub(super) fn check_dates_of(lot: &Lot, table: &Table<'_>) {
    let orders = [
        ("opened", lot.opened, "use_by", lot.use_by),
        ("since", lot.since, "use_by", lot.use_by),
        ("made", lot.made, "use_by", lot.use_by),
        ("made", lot.made, "best_before", lot.best_before),
        ("made", lot.made, "opened", lot.opened),
    ];
    for (first_key, first, then_key, then) in orders {
        check_dates(table, (first_key, first), (then_key, then));
    }
}

fn check_dates(table: &Table<'_>, (first_key, first): (&str, Option<Date>), (then_key, then): (&str, Option<Date>)) {
    if let (Some(first), Some(then)) = (first, then)
        && first > then
    {
        let cause = format!("the dates are out of order: {first_key} {first} lies after {then_key} {then}");
        table.mistake(first_key, cause, "Set right whichever of the two is wrong.");
    }
}
