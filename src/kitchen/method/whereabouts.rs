//! Where the foods of a method are by now: on or in an appliance, in ovenware that will go into one, or nowhere yet.
//!
//! "Cook" names no appliance, and is the hob's as often as the oven's. It happens where its own food was last put; what was put
//! nowhere goes where an appliance was heated for it and nothing else uses that; else on the hob. A method is therefore gone
//! through twice: first for what uses each appliance, whatever "cook" may mean.
//!
//! Knows clauses and what each asks for; knows neither times nor steps.

use super::act::{Act, On, So, Takes, Ware};
use super::clauses::Clause;
use super::places::Kind;
use super::verbs::Way;
use crate::kitchen::words::Words;

/// Where the foods are that a clause is about.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) enum Own {
    /// It names none: what is at hand.
    #[default]
    Unsaid,
    /// They were put nowhere yet.
    Nowhere,
    On(On),
    InWare,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Put {
    /// `None`: taken off, or into a bowl.
    At(Option<On>),
    InWare,
}

/// What a clause brings to what is there already.
#[rustfmt::skip]
pub(super) const JOINS: [&str; 29] = [
    "add", "put", "place", "return", "tip", "slide", "drop", "nestle", "tuck", "throw", "chuck", "stir", "pour", "sprinkle", "scatter", "drizzle", "dot",
    "spoon", "ladle", "brush", "baste", "season", "dollop", "crumble", "top", "cover", "fold", "swirl", "turn",
];
/// Lays out, fills or covers what is then cooked whole.
#[rustfmt::skip]
const LAYS_OUT: [&str; 17] = [
    "spread", "layer", "top", "arrange", "spoon", "press", "roll", "wrap", "stuff", "fill", "assemble", "lay", "cover", "scatter", "sprinkle", "dot", "divide",
];
/// Makes ovenware ready, and puts nothing into it.
const LINES: [&str; 7] = ["line", "grease", "butter", "oil", "flour", "dust", "spray"];
const TOWARDS: [&str; 6] = ["to", "over", "on", "onto", "into", "with"];

/// One clause with the foods it names, in their order, each with the token it begins at.
pub(super) struct About<'a> {
    pub w: &'a Words<'a>,
    pub clause: &'a Clause,
    pub foods: &'a [(usize, usize)],
    /// All of them are boiled as a rule: grain, pulses, eggs.
    pub boils: bool,
    /// All of them are fats: heated for what is fried in them.
    pub fats: bool,
    /// Names something to heat or to make that is none of the list.
    pub other: bool,
}

pub(super) struct Whereabouts {
    foods: Vec<Option<Put>>,
    /// What the sentence has named since it last put something somewhere.
    about: Vec<usize>,
    sentence: (usize, usize),
    /// All that the sentence has named.
    named: Vec<usize>,
    /// What has been on heat, whatever was done with it since.
    heated: Vec<bool>,
    /// Everything named since something last stood on heat.
    at_hand: Vec<usize>,
    in_ware: bool,
    laid_out: bool,
    ready: bool,
    hot: Option<On>,
    spare: Option<On>,
    clauses: usize,
    heats: Vec<(usize, Kind)>,
    uses: Vec<(usize, On)>,
    never_used: Vec<usize>,
}

impl Whereabouts {
    /// `never_used`: the clauses that heat what nothing after them uses, as [`Whereabouts::never_used`] says after a first reading.
    pub fn new(foods: usize, never_used: Vec<usize>) -> Self {
        Whereabouts {
            foods: vec![None; foods],
            about: Vec::new(),
            sentence: (usize::MAX, usize::MAX),
            named: Vec::new(),
            heated: vec![false; foods],
            at_hand: Vec::new(),
            in_ware: false,
            laid_out: false,
            ready: false,
            hot: None,
            spare: None,
            clauses: 0,
            heats: Vec::new(),
            uses: Vec::new(),
            never_used,
        }
    }

    /// The clauses that heat an appliance which no clause after them uses.
    pub fn never_used(&self) -> Vec<usize> {
        let unused = |(heated, kind): &(usize, Kind)| !self.uses.iter().any(|(used, on)| used > heated && *on == On::Kind(*kind));
        self.heats.iter().filter(|heat| unused(heat)).map(|(clause, _)| *clause).collect()
    }

    /// Heated, and still without anything in it.
    pub fn spare(&self) -> Option<On> {
        self.spare
    }

    /// "Meanwhile": something else begins.
    pub fn turn_to_another(&mut self) {
        self.about.clear();
        self.at_hand.clear();
        (self.in_ware, self.laid_out) = (false, false);
    }

    /// What the clause may go by.
    pub fn before(&mut self, one: &About, paragraph: usize, so: So) -> So {
        let sentence = (paragraph, one.clause.sentence);
        if self.sentence != sentence {
            self.sentence = sentence;
            self.about.clear();
            self.named.clear();
        }
        let own = self.own(one);
        let boiled = one.boils && own == Own::Nowhere;
        self.named.extend(one.foods.iter().map(|(food, _)| *food));
        let raw = self.named.iter().any(|food| !self.heated[*food]);
        So { own, raw, spare: self.spare.filter(|_| !boiled), hot: self.hot, laid_out: self.laid_out, ready: self.ready, ..so }
    }

    fn own(&self, one: &About) -> Own {
        // "Cook for 3 hours, adding the carrots": of what is there.
        let brought = one.clause.brings_from(one.w);
        let named: Vec<usize> = one.foods.iter().filter(|(_, at)| *at < brought).map(|(food, _)| *food).collect();
        let foods = if named.is_empty() { &self.about } else { &named };
        if foods.is_empty() {
            return if self.in_ware { Own::InWare } else { Own::Unsaid };
        }
        let put = foods.iter().find_map(|food| match self.foods[*food]? {
            Put::At(on) => on.map(Own::On),
            Put::InWare => Some(Own::InWare),
        });
        // "Another 5 minutes" goes on with what is there.
        let goes_on = || {
            let more = ["another", "more", "further", "longer"];
            (one.clause.verb_end..one.clause.end).any(|at| more.iter().any(|word| one.w.is(at, word)))
        };
        put.unwrap_or_else(|| if goes_on() { Own::Unsaid } else { Own::Nowhere })
    }

    /// Notes what a clause has done with its foods, and mends where it leaves what is at hand: `place` is where that was.
    pub fn after(&mut self, one: &About, read: &mut Act, place: Option<On>) {
        let number = self.clauses;
        self.clauses += 1;
        if self.heat(read, place, number) {
            return;
        }
        let put = self.put(one, read, place);
        let mut foods: Vec<usize> = one.foods.iter().map(|(food, _)| *food).collect();
        if let Some(on) = read.need {
            self.uses.push((number, on));
            self.spare = self.spare.filter(|spare| *spare != on);
            if foods.is_empty() {
                foods = std::mem::take(&mut self.at_hand);
            }
            foods.iter().for_each(|food| self.heated[*food] = true);
            self.at_hand.clear();
            (self.laid_out, self.ready) = (false, false);
        } else {
            self.at_hand.extend(foods.iter().copied());
            self.ready |= matches!(read.place, Some(Some(_))) && foods.is_empty();
        }
        let verb = one.clause.verb.map_or("", |verb| verb.word);
        let says_what = one.clause.end > one.clause.verb_end + 1;
        self.laid_out |= read.need.is_none() && says_what && LAYS_OUT.contains(&verb);
        match put {
            Some(put) => {
                self.about.clear();
                self.in_ware = put == Put::InWare || self.in_ware && (put == Put::At(None) || read.need == self.hot.or(read.need));
                foods.iter().for_each(|food| self.foods[*food] = Some(put));
            }
            None if JOINS.contains(&verb) || one.w.is(one.clause.verb_end, "in") => self.join(one, read, place),
            None => self.about.extend(foods),
        }
    }

    /// Is the clause about heating an appliance, and no more? What is in it already stays in it.
    fn heat(&mut self, read: &mut Act, place: Option<On>, number: usize) -> bool {
        let heated = |kind: &Kind| !matches!(kind, Kind::Hob | Kind::Microwave | Kind::Rice);
        let Some(kind) = read.heats.filter(heated) else { return false };
        let on = On::Kind(kind);
        let full = place == Some(on) || self.foods.contains(&Some(Put::At(Some(on))));
        if full && read.takes != Takes::Preheat {
            return false;
        }
        self.heats.push((number, kind));
        if matches!(kind, Kind::Oven | Kind::Grill) {
            self.hot = Some(on);
            read.place = None;
        }
        if self.never_used.contains(&number) {
            self.spare = Some(on);
        }
        self.ready = true;
        true
    }

    fn put(&self, one: &About, read: &Act, place: Option<On>) -> Option<Put> {
        if let Some(on) = read.need {
            return Some(Put::At(Some(on)));
        }
        let puts = one.clause.verb.is_some_and(|verb| matches!(verb.way, Way::Put | Way::Hands) && !LINES.contains(&verb.word));
        let hob = place == Some(On::Kind(Kind::Hob));
        let ware = match read.ware {
            Some(Ware::Surely) => !matches!(read.place, Some(Some(_))),
            Some(Ware::Perhaps) => self.hot.is_some() && !hob && !matches!(read.place, Some(Some(_))),
            None => false,
        };
        if puts && ware { Some(Put::InWare) } else { read.place.map(Put::At) }
    }

    /// "Add the beans to the chicken", "stir in the honey": what is brought is where the other is.
    fn join(&mut self, one: &About, read: &mut Act, place: Option<On>) {
        let towards =
            |at: usize| (at.saturating_sub(3).max(one.clause.verb_end)..at).any(|at| TOWARDS.iter().any(|word| one.w.is(at, word)));
        let target = one.foods.iter().filter(|(_, at)| towards(*at)).find_map(|(food, _)| self.foods[*food]);
        let fresh = self.about.iter().all(|food| self.foods[*food].is_none()) && !self.about.is_empty();
        let here = if self.in_ware { Some(Put::InWare) } else { place.map(|on| Put::At(Some(on))) };
        let joined = target.or(here.filter(|_| !fresh));
        if let Some(Put::At(Some(on))) = target {
            read.place = Some(Some(on));
        }
        for (food, _) in one.foods {
            self.about.push(*food);
            if let Some(put) = joined {
                self.foods[*food] = Some(put);
            }
        }
    }
}

#[cfg(test)]
mod tests;
