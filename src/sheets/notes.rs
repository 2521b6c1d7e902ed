//! What stands on the shopping list after the trips: what is at home, what runs out, what it costs, what to do before cooking.

use itertools::Itertools;

use crate::foods::{FoodId, Place};
use crate::kitchen::{ListPart, Names, Under, Ware, Warning};
use crate::measure::{Money, Quantity, Units};
use crate::plan::Spare;
use crate::prep::Before;
use crate::purchase::{DayNote, Expiring, Flag, FromPantry, Leftover, Reserved, ShoppingList};

use super::flow::Block;
use super::parts::{hanging, heading, opposite};
use super::text::{Setter, Span, Style, plain, soft, strong};
use super::wording::{amount, day, long_day, moment, tied};
use crate::kitchen::much::{called, drawn, for_whom, how_much, no_more_than, with_its_name};
use crate::telling::list::{self as words, PAST_ITS_DATE};
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

/// A list whose notes are set.
pub struct Notes<'a> {
    pub list: &'a ShoppingList,
    pub before: &'a [Before],
    pub names: Names<'a>,
    pub units: Units,
    pub under: Under,
    pub style: Style,
}

impl Notes<'_> {
    /// All notes in columns of `width`.
    pub fn blocks(&self, setter: &mut Setter, width: f32) -> Vec<Block> {
        let groups = self.under.parts().flat_map(|part| self.part(part)).chain([("Warnings", self.warnings())]);
        let filled = groups.filter(|(_, notes)| !notes.is_empty());
        filled.flat_map(|(title, notes)| group(setter, title, notes, self.style, width)).collect()
    }

    fn part(&self, part: ListPart) -> Vec<(&'static str, Vec<Note>)> {
        match part {
            ListPart::Home => vec![("Already at home", self.at_home()), ("Kept for other weeks", self.kept())],
            ListPart::Look => vec![("Look before you go", self.run_in(&self.list.ask))],
            ListPart::UseUp => {
                let expiring =
                    |past: bool| self.list.expiring.iter().filter(|lot| lot.lies_past == past).map(|lot| self.expiring(lot)).collect();
                vec![(PAST_ITS_DATE, expiring(true)), ("Use up first", expiring(false)), ("Worth knowing", self.untimely())]
            }
            ListPart::Cost => vec![("What it costs", self.costs()), ("No price known", self.run_in(&self.list.no_price))],
            ListPart::Left => vec![("Left in the packs, and good until", self.left_over())],
            ListPart::Moves => {
                let before = self.before.iter().map(|note| dated(moment(note.at), &note.errand.text(self.names, self.units)));
                vec![("Before cooking", before.collect()), ("During the week", self.moves())]
            }
            ListPart::Spare => vec![("Portions to spare", self.spare())],
            ListPart::Meals => vec![("Of what is wanted of a day", self.of_a_day())],
        }
    }

    /// What is taken of a lot, be it all: "350 g pearl barley".
    fn much(&self, much: (&Quantity, bool), of: Ware) -> String {
        with_its_name(self.names, of, much.0, tied(&drawn(self.names, of, much, self.units)))
    }

    /// Names in one paragraph.
    fn run_in(&self, foods: &[FoodId]) -> Vec<Note> {
        if foods.is_empty() { Vec::new() } else { vec![vec![plain(self.names.foods(foods).join(", "))].into()] }
    }

    /// A paragraph a place; what is taken of one thing on several days is added up.
    fn at_home(&self) -> Vec<Note> {
        let mut things: Vec<FromPantry> = Vec::new();
        for taken in &self.list.from_pantry {
            let same = |one: &&mut FromPantry| (one.of, one.place, &one.whose) == (taken.of, taken.place, &taken.whose);
            match things.iter_mut().filter(same).find_map(|one| one.lies.plus(&taken.lies).map(|sum| (one, sum))) {
                Some((one, sum)) => {
                    (one.lies, one.is_all) = (sum, false);
                    one.look_first |= taken.look_first;
                }
                None => things.push(taken.clone()),
            }
        }
        let paragraph = |at: Place| {
            let mut spans = vec![strong(format!("{}: ", sentence(place(at))))];
            for (index, one) in things.iter().filter(|one| one.place == at).enumerate() {
                let gap = if index > 0 { "; " } else { "" };
                spans.push(plain(format!(
                    "{gap}{}{}",
                    self.much((&one.lies, one.is_all), one.of),
                    for_whom(self.names, one.whose.as_ref())
                )));
                spans.extend(one.look_first.then(|| strong(" (look at it first)")));
            }
            (spans.len() > 1).then(|| spans.into())
        };
        [Place::Cupboard, Place::Fridge, Place::Freezer].into_iter().filter_map(paragraph).collect()
    }

    /// A paragraph a week.
    fn kept(&self) -> Vec<Note> {
        let rows = Reserved::added_up(&self.list.reserved);
        let paragraph = |week: &str| {
            let things = rows.iter().filter(|one| one.week == week).map(|one| self.much((&one.amount, true), one.of)).join("; ");
            vec![strong(format!("{week}: ")), plain(things)].into()
        };
        rows.iter().map(|one| one.week.as_str()).unique().map(paragraph).collect()
    }

    fn expiring(&self, lot: &Expiring) -> Note {
        // What is shown can be thrown away.
        let what = format!(", {}, {}", tied(&no_more_than(self.names, lot.of, &lot.amount, self.units)), place(lot.place));
        let name = called(self.names, lot.of, &lot.amount) + &for_whom(self.names, lot.whose.as_ref());
        let Some(last) = lot.until else { return vec![strong(name), plain(what)].into() };
        let until = day(last);
        // What is past and cold may not be eaten; what else is past its best before is looked at.
        let words = match lot.place {
            _ if lot.past => format!(": past {until}; when in doubt, throw it out"),
            _ if lot.lies_past => format!(": best before {until}; look at it first"),
            _ => format!(": use up by {until}"),
        };
        vec![strong(name), plain(what), plain(words)].into()
    }

    /// With its currency.
    fn sum(&self, money: Money) -> String {
        format!("{}\u{a0}{}", self.names.money(money), self.names.currency)
    }

    /// Goods and trip of every shop, and the sum.
    fn costs(&self) -> Vec<Note> {
        let (list, names) = (self.list, self.names);
        let mut notes: Vec<Note> = Vec::new();
        for trip in &list.trips {
            for stop in trip.shops.iter().filter_map(|visit| visit.at) {
                let paid = (stop.fare > Money::ZERO).then(|| format!(", of it {} for the way", names.money(stop.fare)));
                // What is no longer open is in no sum.
                let state = trip.closed().map(|state| format!(", {}", state.words())).unwrap_or_default();
                let spans = vec![plain(format!("{}, {}{state}", day(trip.on), names.shop(stop.shop))), soft(paid.unwrap_or_default())];
                notes.push(Note { spans, figures: Some(plain(names.money(stop.cost))) });
            }
        }
        let missing = if list.no_price.is_empty() { "" } else { ", without what has no price" };
        notes.push(Note { spans: vec![strong("All together"), soft(missing)], figures: Some(strong(self.sum(list.cost))) });
        if let Some(budget) = list.budget.as_ref().filter(|budget| budget.is_over()) {
            // The budget is held against the whole week, the past trips too.
            if budget.cost != list.cost {
                let figures = Some(plain(names.money(budget.cost)));
                notes.push(Note { spans: vec![plain("With the trips that are past")], figures });
            }
            let over = strong(format!("{}\u{a0}over", self.sum(budget.over())));
            notes.push(Note { spans: vec![plain(format!("Budget {}", names.money(budget.limit)))], figures: Some(over) });
        }
        notes
    }

    /// What of the packs is not needed, and until when it is good; what goes off first stands first.
    fn left_over(&self) -> Vec<Note> {
        let until = |left: &Leftover| left.until.map_or_else(|| soft("not known"), |date| plain(long_day(date, self.list.from)));
        let note = |left: &Leftover| Note {
            spans: vec![
                strong(called(self.names, Ware::Food(left.food), &left.amount)),
                plain(format!(", {}", tied(&how_much(self.names, Ware::Food(left.food), &left.amount, self.units)))),
            ],
            figures: Some(until(left)),
        };
        self.list.leaves.leftovers.iter().filter(|left| !is_crumbs(&left.amount)).map(note).collect()
    }

    fn untimely(&self) -> Vec<Note> {
        let note = |flag: &Flag| vec![strong(self.names.food(flag.food)), plain(format!(": {}", words::untimely(&flag.why)))].into();
        self.list.flags.iter().map(note).collect()
    }

    fn moves(&self) -> Vec<Note> {
        let moves = self.list.moves.iter();
        moves.map(|moved| dated(day(moved.on), &words::moved(moved, self.names, self.units))).collect()
    }

    fn spare(&self) -> Vec<Note> {
        let note = |spare: &Spare| {
            let what = format!(", {}", amount(&spare.amount, self.units));
            let days = format!(", made {}, eat by {}", day(spare.made_on), day(spare.eat_by));
            vec![strong(self.names.recipe(spare.recipe)), plain(what), plain(days)].into()
        };
        self.list.spare.iter().map(note).collect()
    }

    /// A paragraph a day and eater: what the planned meals give of what that eater wants of a day.
    fn of_a_day(&self) -> Vec<Note> {
        let note = |note: &DayNote| {
            let given = words::of_a_day(note).join(", ");
            vec![strong(format!("{}, {}: ", day(note.on), note.got.name)), plain(given)].into()
        };
        self.list.days.iter().map(note).collect()
    }

    /// Without the file and the line they are about: those are for the screen.
    fn warnings(&self) -> Vec<Note> {
        let told = self.list.warnings.iter().filter(|warning| !self.is_told_at_its_line(warning)).map(Warning::words);
        told.unique().map(|text| vec![plain(sentence(&text))].into()).collect()
    }

    /// "oatcake may contain sesame: …" stands on the line of the oatcake already.
    fn is_told_at_its_line(&self, warning: &Warning) -> bool {
        // At the head of the list.
        if matches!(warning, Warning::NotKnown { .. } | Warning::OnlyNamed { .. }) {
            return true;
        }
        let Warning::Avoided { food, .. } = warning else { return false };
        self.list.lines().any(|line| line.beware.is_some() && self.names.food(line.food) == food)
    }
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

fn dated(at: String, text: &str) -> Note {
    vec![strong(at), plain(format!("  {text}"))].into()
}

/// Grams or millilitres that nobody will look for in a packet.
const CRUMBS: f64 = 5.0;

fn is_crumbs(amount: &Quantity) -> bool {
    matches!(amount, Quantity::Mass(_) | Quantity::Volume(_)) && amount.base() < CRUMBS
}
