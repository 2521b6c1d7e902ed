//! The plan's own sentences, which terminal, paper and JSON share. They are made here, at the edge, and nobody reads them back.

use super::advice::what_to_do_with_it;
use super::beside::Boxes;
use super::boxes::counted;
use super::doing::{AsideTask, BoxTask, Doing, Kept, Note, StepTask, Task};
use super::errand::Errand;
use super::filling::boxing_words;
use super::guide::Mark;
use crate::foods::safety::{KEPT_HOT, REHEATED};
use crate::foods::{FoodId, Place};
use crate::kitchen::much::{for_whom, much_of, several};
use crate::kitchen::{ApplianceId, ApplianceKind, Names, Person, Ware};
use crate::measure::{Number, Units, show, show_at_most};
use crate::telling;
use crate::words::{self, clock, degrees, duration, first_words, in_a_sentence, listed, sentence, temperature};
use jiff::civil::{Date, DateTime};
use std::fmt;

impl Task {
    /// What to do: "Set the oven to 190 °C (375 °F)", "Box and chill slaw: 3 portions to the fridge", or the recipe's words.
    pub fn text(&self, names: Names, units: Units) -> String {
        match &self.what {
            Doing::Set => {
                let appliance = self.on.first().map_or("appliance", |id| names.appliance(*id));
                let heat = self.at.map(|heat| format!(" to {}", degrees(heat, units))).unwrap_or_default();
                format!("Set the {appliance}{heat}")
            }
            Doing::WashUp => "Wash up".to_owned(),
            Doing::Step(step) => step.text(units),
            Doing::Box(boxing) => boxing.text(names, units),
            Doing::Aside(aside) => aside.text(names, units),
        }
    }
}

impl Task {
    /// A few words for a bar of a chart: "Pearl barley: simmer", "Slaw: box", "Oven 190 °C".
    pub fn short(&self, names: Names, units: Units) -> String {
        match &self.what {
            Doing::Set => {
                let appliance = self.on.first().map_or("appliance", |id| names.appliance(*id));
                let heat = self.at.map(|heat| format!(" {}", temperature(heat, units))).unwrap_or_default();
                format!("{}{heat}", sentence(appliance))
            }
            Doing::WashUp => "Wash up".to_owned(),
            Doing::Aside(aside) => format!("{}: for {}", first_words(names.recipe(aside.recipe)), aside.eater),
            Doing::Box(boxing) => format!("{}: box", first_words(names.recipe(boxing.recipe))),
            Doing::Step(step) if step.verb.is_empty() => first_words(names.recipe(step.recipe)),
            Doing::Step(step) => format!("{}: {}", first_words(names.recipe(step.recipe)), in_a_sentence(&step.verb)),
        }
    }
}

/// From where a load is taken: "off the hob", "out of the oven", "from under the grill".
pub fn taken_from(appliance: ApplianceId, names: Names) -> String {
    let way = match names.appliance_kind(appliance) {
        Some(ApplianceKind::Hob) => "off",
        Some(ApplianceKind::Grill) => "from under",
        _ => "out of",
    };
    format!("{way} the {}", names.appliance(appliance))
}

/// Where a load is put: "on the hob", "in the oven", "under the grill".
pub(super) fn onto(appliance: ApplianceId, names: Names) -> String {
    let way = match names.appliance_kind(appliance) {
        Some(ApplianceKind::Hob) => "on",
        Some(ApplianceKind::Grill) => "under",
        _ => "in",
    };
    format!("{way} the {}", names.appliance(appliance))
}

impl StepTask {
    /// "Round 2 of 3: a third of it, 600 g. Roast the beetroot.", "Round 1 of 2: half of it, 215 g pearl barley. Cook with 585 ml stock.",
    /// "half of it, from 320 g dried white beans" of what has been soaked; "8 of 12" of pieces.
    pub fn text(&self, units: Units) -> String {
        let Some(part) = &self.part else { return self.text.clone() };
        if let Some((here, all)) = &part.pieces {
            return format!("Round {} of {}: {here} of {all}. {}", self.round + 1, self.rounds, self.text);
        }
        let weight = part.there.as_ref().map_or_else(String::new, |there| {
            let from = if there.is_changed { "from " } else { "" };
            let what = there.what.as_ref().map_or_else(String::new, |what| format!(" {what}"));
            format!(", {from}{}{what}", show(&there.weight, units))
        });
        format!("Round {} of {}: {} of it{weight}. {}", self.round + 1, self.rounds, share_of(&part.share), self.text)
    }
}

/// "half", "two thirds", "three fifths"; a number from twelfths on.
fn share_of(share: &Number) -> String {
    const PARTS: [(i64, &str); 10] = [
        (2, "half"),
        (3, "third"),
        (4, "quarter"),
        (5, "fifth"),
        (6, "sixth"),
        (7, "seventh"),
        (8, "eighth"),
        (9, "ninth"),
        (10, "tenth"),
        (11, "eleventh"),
    ];
    const NUMBERS: [&str; 10] = ["a", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];
    let words = |(of, part): &(i64, &str)| {
        let place = (1..*of).find(|number| *share == Number::over(*number, *of))? as usize - 1;
        Some(match (NUMBERS[place], *part) {
            (_, "half") => "half".to_owned(),
            ("a", part) if part.starts_with('e') => format!("an {part}"),
            ("a", part) => format!("a {part}"),
            (number, part) => format!("{number} {part}s"),
        })
    };
    PARTS.iter().find_map(words).unwrap_or_else(|| share.to_string())
}

impl AsideTask {
    /// "Take out ½ portion of white-bean mash for Emil before the tahini. Keep it covered, with clean tools of its own."
    pub(super) fn text(&self, names: Names, units: Units) -> String {
        if let Some(chilled) = self.chilled.as_ref().filter(|chilled| chilled.stood.is_some()) {
            return chilled.text(names, units);
        }
        let without: Vec<String> = self.without.iter().map(|ware| in_a_sentence(names.ware(*ware))).collect();
        format!(
            "Take out {} of {} for {} before the {}. {}{}",
            counted(&self.amount, units),
            in_a_sentence(names.recipe(self.recipe)),
            self.eater,
            listed(&without),
            self.kept(units),
            self.due(names)
        )
    }

    /// "Keep it covered, with clean tools of its own.", or into the cold by itself.
    fn kept(&self, units: Units) -> String {
        let Some(chilled) = &self.chilled else { return "Keep it covered, with clean tools of its own.".to_owned() };
        if self.eaten_at_once {
            return format!("Chill it at once, covered, with clean tools of its own; heat it to {} for its meal.", reheated(units));
        }
        let into: Vec<String> =
            chilled.into.iter().map(|kept| format!("{} to the {}", counted(&kept.amount, units), words::place(kept.place))).collect();
        format!("Box it at once, with clean tools of its own: {}.", listed(&into))
    }

    /// " Give it its part of the parsley, too, and of the mash what is set aside for Emil."
    fn due(&self, names: Names) -> String {
        let named = |own: bool| {
            let wares = self.later.iter().filter(|(_, set_aside)| *set_aside == own).map(|(ware, _)| in_a_sentence(names.ware(*ware)));
            let wares: Vec<String> = wares.collect();
            (!wares.is_empty()).then(|| listed(&wares))
        };
        let shared = named(false).map(|wares| format!("its part of the {wares}"));
        let own = named(true).map(|wares| format!("of the {wares} only what is set aside for {}", self.eater));
        let due: Vec<String> = shared.into_iter().chain(own).collect();
        if due.is_empty() { String::new() } else { format!(" Give it {}.", due.join(", and ")) }
    }
}

impl BoxTask {
    /// "Box and chill white-bean mash: 3 portions to the fridge and 2 portions to the freezer"; "Box flatbreads: 5 pieces to the cupboard;
    /// chill the rest: 7 pieces to the freezer".
    pub fn text(&self, names: Names, units: Units) -> String {
        if let Some(stood) = self.stood {
            let (name, minutes, limit) = (in_a_sentence(names.recipe(self.recipe)), duration(stood.minutes), duration(stood.limit));
            return format!("Do not box {name}: it has stood out {minutes}, and {limit} is the most. {}", what_to_do_with_it());
        }
        let part = |kept: &Kept| format!("{} to the {}", counted(&kept.amount, units), words::place(kept.place));
        let places: Vec<Place> = self.into.iter().map(|kept| kept.place).collect();
        let (verb, rest) = boxing_words(&places);
        let name = in_a_sentence(names.recipe(self.recipe));
        let parts = |wanted: fn(Place) -> bool| listed(&self.into.iter().filter(|kept| wanted(kept.place)).map(part).collect::<Vec<_>>());
        match rest {
            None => format!("{verb} {name}: {}", parts(|_| true)),
            // What stays in the cupboard wants no chill.
            Some(rest) => {
                format!("{verb} {name}: {}; {rest}: {}", parts(|place| place == Place::Cupboard), parts(|place| place != Place::Cupboard))
            }
        }
    }
}

impl Note {
    pub fn text(&self, names: Names, units: Units) -> String {
        self.text_by(clock, names, units)
    }

    /// With its moments as another clock tells them.
    pub fn text_by(&self, clock: impl Fn(DateTime) -> String, names: Names, units: Units) -> String {
        match self {
            Note::Prepared { what, how } => format!("{}: {how}", sentence(what)),
            Note::Inside(heat) => format!("Until the inside reaches {}", degrees(*heat, units)),
            Note::Wash => "Wash hands, board and knife".to_owned(),
            Note::Fill { cooker, most, swelling } => {
                let (cooker, most, swelling) = (names.appliance(*cooker), show_at_most(most, units), show_at_most(swelling, units));
                format!("Fill the {cooker} to {most} at most, to {swelling} with foods that swell")
            }
            Note::ComesUp(minutes) => format!("Comes up for {} first", duration(minutes.0)),
            Note::CleanAfter { eater, words } => {
                format!("After this clean board, knife, pan and hands: {eater} is allergic to {}", listed(words))
            }
            Note::OtherTools { eater, words } => format!(
                "Use another board, knife and pan, and wash your hands: {eater} is allergic to {}, and {eater}’s food is not all made yet",
                listed(words)
            ),
            Note::ServeAt(at) => format!("Serve it at {}", clock(*at)),
            Note::KeepBack { amount, dish } => {
                format!("Keep back {} for {}", counted(amount, units), in_a_sentence(names.recipe(*dish)))
            }
            Note::KeepHot(until) => format!("Keep it at {} or above until it is served, at {}", kept_hot(units), clock(*until)),
            Note::Late(minutes) => format!("Starts {} later than the recipe allows", duration(*minutes)),
        }
    }
}

impl Errand {
    /// When a day's errand is done: "Tonight", or "Today" where it ought to have been done before.
    pub fn when(&self) -> &'static str {
        if self.is_late() { "Today" } else { "Tonight" }
    }

    pub fn is_late(&self) -> bool {
        matches!(self, Errand::Move { late: true, .. })
    }

    pub fn text(&self, names: Names, units: Units) -> String {
        match self {
            Errand::Step { text, bought, .. } => {
                let late = |(food, on): &(FoodId, Date)| format!("{} bought only on {}", names.food(*food), words::day(*on));
                let late = bought.iter().map(late).collect::<Vec<_>>();
                if late.is_empty() { text.clone() } else { format!("{text} (not at home yet: {})", late.join("; ")) }
            }
            Errand::Thaw { food, amount } => {
                let ware = Ware::Food(*food);
                let them = if several(names, ware, amount) { "them" } else { "it" };
                format!("Take {} out of the freezer and let {them} thaw in the fridge", much_of(names, ware, amount, units))
            }
            Errand::Move { recipe, whose, amount, late } => {
                let now = if *late { telling::list::NOW } else { "" };
                let dish = in_a_sentence(names.recipe(*recipe)) + &for_whom(names, whose.as_ref());
                let gap = if whose.is_some() { "," } else { "" };
                format!("Move {} of {dish}{gap} from the freezer to the fridge{now}", counted(amount, units))
            }
        }
    }
}

/// "2 flat tubs".
impl fmt::Display for Boxes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&words::counted(self.count, &self.kind))
    }
}

/// "12", "A", "AB"; nothing for what has no mark.
impl fmt::Display for Mark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Mark::None => f.pad(""),
            Mark::Number(number) => f.pad(&number.to_string()),
            Mark::Letter(number) => f.pad(&letters(*number)),
        }
    }
}

/// A, B ... Z, AA, AB ...
fn letters(mut number: u32) -> String {
    let mut out = Vec::new();
    while number > 0 {
        number -= 1;
        out.push(char::from(b'A' + (number % 26) as u8));
        number /= 26;
    }
    out.iter().rev().collect()
}

/// "cook", "Jo (helper), 15:00 to 16:00".
pub fn presence(person: &Person) -> String {
    let name = if person.name == person.role { person.name.clone() } else { format!("{} ({})", person.name, person.role) };
    match (person.from, person.until) {
        (None, None) => name,
        (Some(from), None) => format!("{name}, from {}", clock(from)),
        (None, Some(until)) => format!("{name}, until {}", clock(until)),
        (Some(from), Some(until)) => format!("{name}, {} to {}", clock(from), clock(until)),
    }
}

/// What waits hot for its meal is kept at: "60 °C (140 °F)".
pub(super) fn kept_hot(units: Units) -> String {
    degrees(KEPT_HOT.value, units)
}

/// What left-overs are heated to: "74 °C (165 °F)".
pub fn reheated(units: Units) -> String {
    degrees(REHEATED.value, units)
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;

    #[test]
    fn a_round_is_a_share_in_words() {
        let told = [(1, 2), (2, 3), (1, 4), (2, 5), (1, 8), (10, 11)].map(|(part, of)| share_of(&Number::over(part, of)));
        assert_eq!(told, ["half", "two thirds", "a quarter", "two fifths", "an eighth", "ten elevenths"]);
    }
}
