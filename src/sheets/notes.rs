//! What stands on the shopping list after the trips: what is at home, what runs out, what it costs, what to do before cooking.

use itertools::Itertools;

use crate::foods::Place;
use crate::kitchen::Names;
use crate::measure::{Quantity, Units};
use crate::prep::Before;
use crate::purchase::{FromPantry, ListLine, Reserved, ShoppingList};

use super::flow::Block;
use super::parts::{hanging, heading, opposite};
use super::text::{Setter, Span, Style, plain, soft, strong};
use super::wording::{amount, day, long_day, moment, spoken};
use crate::words::{place, sentence};

/// One note, and the figures that stand at the right edge of its first line.
struct Note {
    spans: Vec<Span>,
    figures: Option<Span>,
}

impl From<Vec<Span>> for Note {
    fn from(spans: Vec<Span>) -> Note {
        Note { spans, figures: None }
    }
}

/// All notes of a list in columns of `width`.
pub fn blocks(
    setter: &mut Setter,
    list: &ShoppingList,
    before: &[Before],
    names: Names,
    width: f32,
    (units, style): (Units, Style),
) -> Vec<Block> {
    let groups: Vec<(&str, Vec<Note>)> = vec![
        ("Look before you go", run_in(&list.ask)),
        ("Already at home", at_home(&list.from_pantry, units)),
        ("Kept for other weeks", kept(&list.reserved, units)),
        ("Use up first", expiring(list, units)),
        ("What it costs", costs(list)),
        ("Left in the packs, and good until", left_over(list, units)),
        ("No price known", run_in(&list.no_price)),
        (
            "Worth knowing",
            list.flags.iter().map(|flag| vec![strong(flag.food.as_str()), plain(format!(": {}", flag.text))].into()).collect(),
        ),
        ("Before cooking", before.iter().map(|note| dated(moment(note.at), &note.errand.text(names, units))).collect()),
        ("During the week", list.moves.iter().map(|note| dated(day(note.at), &note.text)).collect()),
        ("Portions to spare", spare(list, units)),
        (
            "Warnings",
            list.warnings
                .iter()
                .map(|text| without_place(text))
                .filter(|text| !is_told_at_its_line(list, text))
                .map(|text| vec![plain(sentence(text))].into())
                .unique_by(|note: &Note| note.spans[0].text.clone())
                .collect(),
        ),
    ];
    groups.into_iter().filter(|(_, notes)| !notes.is_empty()).flat_map(|(title, notes)| group(setter, title, notes, style, width)).collect()
}

fn group(setter: &mut Setter, title: &str, notes: Vec<Note>, style: Style, width: f32) -> Vec<Block> {
    let mut blocks = vec![heading(setter, title, style, width)];
    blocks.extend(notes.into_iter().map(|note| set_note(setter, note, style, width)));
    blocks
}

fn set_note(setter: &mut Setter, note: Note, style: Style, width: f32) -> Block {
    let lines = match note.figures {
        Some(figures) => opposite(setter, &note.spans, &[figures], style, width),
        None => hanging(setter, &note.spans, style, width),
    };
    Block::of(lines)
}

/// A warning without the file and the line it is about: those are for the screen.
fn without_place(warning: &str) -> &str {
    let parts = warning.split_once(".toml:").and_then(|(_, rest)| rest.split_once(": "));
    parts.filter(|(line, _)| line.chars().all(|c| c.is_ascii_digit() || c == ':')).map_or(warning, |(_, text)| text)
}

/// "oatcake may contain sesame: …" stands on the line of the oatcake already.
fn is_told_at_its_line(list: &ShoppingList, warning: &str) -> bool {
    let sections = list.trips.iter().flat_map(|trip| &trip.shops).flat_map(|visit| &visit.sections);
    let told = |line: &ListLine| {
        let words = line.beware.as_ref().and_then(|_| warning.strip_prefix(line.food.as_str()));
        words.is_some_and(|words| words.starts_with(" contains ") || words.starts_with(" may contain "))
    };
    sections.flat_map(|section| &section.lines).any(told)
}

/// Words in one paragraph.
fn run_in(words: &[String]) -> Vec<Note> {
    if words.is_empty() { Vec::new() } else { vec![vec![plain(words.join(", "))].into()] }
}

fn dated(at: String, text: &str) -> Note {
    vec![strong(at), plain(format!("  {text}"))].into()
}

fn named(food: &Option<String>, recipe: &Option<String>) -> String {
    food.clone().or_else(|| recipe.as_deref().map(spoken)).unwrap_or_default()
}

/// A paragraph a place; what is taken of one thing on several days is added up.
fn at_home(from_pantry: &[FromPantry], units: Units) -> Vec<Note> {
    let mut things: Vec<FromPantry> = Vec::new();
    for taken in from_pantry {
        let same = |one: &&mut FromPantry| (&one.food, &one.recipe, one.place) == (&taken.food, &taken.recipe, taken.place);
        match things.iter_mut().find(same).and_then(|one| one.amount.plus(&taken.amount).map(|sum| (one, sum))) {
            Some((one, sum)) => {
                one.amount = sum;
                one.look_first |= taken.look_first;
            }
            None => things.push(taken.clone()),
        }
    }
    let paragraph = |at: Place| {
        let mut spans = vec![strong(format!("{}: ", sentence(place(at))))];
        for (index, one) in things.iter().filter(|one| one.place == at).enumerate() {
            let gap = if index > 0 { "; " } else { "" };
            spans.push(plain(format!("{gap}{} {}", amount(&one.amount, units), named(&one.food, &one.recipe))));
            spans.extend(one.look_first.then(|| strong(" (look at it first)")));
        }
        (spans.len() > 1).then(|| spans.into())
    };
    [Place::Cupboard, Place::Fridge, Place::Freezer].into_iter().filter_map(paragraph).collect()
}

/// A paragraph a week.
fn kept(reserved: &[Reserved], units: Units) -> Vec<Note> {
    let rows = Reserved::added_up(reserved);
    let paragraph = |week: &str| {
        let things = rows.iter().filter(|one| one.week == week);
        let things = things.map(|one| format!("{} {}", amount(&one.amount, units), named(&one.food, &one.recipe))).join("; ");
        vec![strong(format!("{week}: ")), plain(things)].into()
    };
    rows.iter().map(|one| one.week.as_str()).unique().map(paragraph).collect()
}

fn expiring(list: &ShoppingList, units: Units) -> Vec<Note> {
    // Before the first trip it is too late to use anything up.
    let first = list.trips.first().map_or(list.from, |trip| trip.on);
    let note = |lot: &crate::purchase::Expiring| {
        let what = format!(", {}, {}", amount(&lot.amount, units), place(lot.place));
        let until = day(lot.until);
        let words = match lot.place {
            _ if lot.until >= first => format!(": use up by {until}"),
            Place::Fridge => format!(": past {until}; when in doubt, throw it out"),
            Place::Cupboard | Place::Freezer => format!(": best before {until}; look at it first"),
        };
        vec![strong(named(&lot.food, &lot.recipe)), plain(what), plain(words)].into()
    };
    list.expiring.iter().map(note).collect()
}

/// Goods and trip of every shop, and the sum.
fn costs(list: &ShoppingList) -> Vec<Note> {
    let mut notes: Vec<Note> = Vec::new();
    for trip in &list.trips {
        for visit in &trip.shops {
            let (Some(shop), Some(cost)) = (&visit.shop, &visit.cost) else { continue };
            let paid = visit.trip_cost.as_ref().filter(|fare| fare.chars().any(|c| ('1'..='9').contains(&c)));
            let fare = paid.map_or_else(String::new, |fare| format!(", of it {fare} for the way"));
            let spans = vec![plain(format!("{}, {}", day(trip.on), shop)), soft(fare)];
            notes.push(Note { spans, figures: Some(plain(cost)) });
        }
    }
    let missing = if list.no_price.is_empty() { "" } else { ", without what has no price" };
    let total = strong(format!("{}\u{a0}{}", list.cost, list.currency));
    notes.push(Note { spans: vec![strong("All together"), soft(missing)], figures: Some(total) });
    if let Some(budget) = list.budget.as_ref().filter(|budget| budget.is_over()) {
        // The budget is held against the whole week, the past trips too.
        if budget.cost != list.cost {
            notes.push(Note { spans: vec![plain("With the trips that are past")], figures: Some(plain(budget.cost.as_str())) });
        }
        let over = strong(format!("{}\u{a0}{}\u{a0}over", budget.over, list.currency));
        notes.push(Note { spans: vec![plain(format!("Budget {}", budget.limit))], figures: Some(over) });
    }
    notes
}

/// Grams or millilitres that nobody will look for in a packet.
const CRUMBS: f64 = 5.0;

/// What of the packs is not needed, and until when it is good; what goes off first stands first.
fn left_over(list: &ShoppingList, units: Units) -> Vec<Note> {
    let note = |left: &crate::purchase::Leftover| Note {
        spans: vec![strong(left.food.as_str()), plain(format!(", {}", amount(&left.amount, units)))],
        figures: Some(left.until.map_or_else(|| soft("not known"), |date| plain(long_day(date, list.from)))),
    };
    let crumbs = |quantity: &Quantity| matches!(quantity, Quantity::Mass(_) | Quantity::Volume(_)) && quantity.base() < CRUMBS;
    list.leaves.leftovers.iter().filter(|left| !crumbs(&left.amount)).map(note).collect()
}

fn spare(list: &ShoppingList, units: Units) -> Vec<Note> {
    let note = |spare: &crate::purchase::SpareNote| {
        let what = format!(", {}", amount(&spare.amount, units));
        let days = format!(", made {}, eat by {}", day(spare.made_on), day(spare.eat_by));
        vec![strong(spoken(&spare.recipe)), plain(what), plain(days)].into()
    };
    list.spare.iter().map(note).collect()
}
