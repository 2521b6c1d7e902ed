//! What one clause asks for: its place, its hands, its wait, its heat.

use super::clauses::Clause;
use super::clock::{Time, times};
use super::degrees::{Heat, heat, turned_to};
use super::places::Kind;
use super::whereabouts::Own;
use crate::foods::key_of;
use crate::kitchen::words::Words;

mod fragment;
mod hands;
mod how_long;
mod named;
mod off_heat;
mod place;
mod reading;
mod setting;

use self::how_long::{in_turn, planned, round};
use self::named::{Named, another_way, places};
use self::reading::Reading;
use crate::kitchen::{Appliance, ApplianceId};
use crate::measure::Celsius;

/// An appliance by its own name. What one of a kind does is told of the kind; which of them it was is told beside.
pub(super) struct Known {
    pub id: ApplianceId,
    pub kind: Option<Kind>,
    /// The keys of its name's words.
    pub words: Vec<String>,
}

impl Known {
    /// All that have a name, the longest names first: "small oven" before "oven".
    pub fn all(appliances: &[Appliance]) -> Vec<Known> {
        let words = |name: &str| -> Vec<String> { Words::of(name).tokens().iter().map(|token| key_of(token.text)).collect() };
        let known =
            appliances.iter().enumerate().map(|(index, one)| Known { id: ApplianceId(index), kind: one.kind, words: words(&one.name) });
        let mut known: Vec<Known> = known.filter(|one| one.words.iter().any(|word| !word.is_empty())).collect();
        known.sort_by_key(|one| std::cmp::Reverse(one.words.len()));
        known
    }

    fn is_at(&self, w: &Words, at: usize, end: usize) -> bool {
        at + self.words.len() <= end && self.words.iter().enumerate().all(|(index, word)| w.key_at(at + index) == word)
    }

    fn on(&self) -> On {
        self.kind.map_or(On::Own(self.id), On::Kind)
    }
}

/// Where a clause happens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum On {
    Kind(Kind),
    /// An appliance without a kind, by its name.
    Own(ApplianceId),
}

/// How a clause fills its time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Takes {
    /// Nothing: words, or what only sets something.
    Words,
    /// The oven is set: no step, and no words are kept.
    Preheat,
    /// At the table.
    Serve,
    /// Minutes of hands that the text gives, or the verb's own rate.
    Hands(Option<f64>),
    /// Cools or rests as long as it likes: words, in a step off the heat.
    Stand,
    /// Minutes that the text gives, or the table's.
    Wait { minutes: f64, written: bool },
    /// Bring to the boil: a minute of hands, and a wait by the amount.
    Boil,
    /// Added to the wait of the pressure cooker before it.
    Release { minutes: f64, written: bool },
}

#[derive(Debug, Clone, Copy)]
pub(super) struct Act {
    pub takes: Takes,
    pub need: Option<On>,
    /// Where the food is afterwards; `None`: as before.
    pub place: Option<Option<On>>,
    /// Taken from the heat.
    pub off: bool,
    pub heat: Heat,
    /// Sets the oven for what follows.
    pub sets: bool,
    pub time: Option<Time>,
    /// The text gives another time as well: "4 hours or overnight".
    pub or: bool,
    /// The time is that of one round: "4 at a time", "in batches".
    pub round: Option<Round>,
    /// Two times that do not go together: the longer one is planned.
    pub doubtful: bool,
    /// A verb that the table does not have.
    pub unknown: bool,
    /// Names a slow cooker.
    pub slow: bool,
    /// The heat is turned down or up, and stays on.
    pub turned_down: bool,
    /// The appliance that it heats or sets for what follows.
    pub heats: Option<Kind>,
    /// Names ovenware, or what may be some.
    pub ware: Option<Ware>,
    /// Where it happens was taken from an appliance that was heated, against where its food was.
    pub moved: bool,
    /// The appliance that it names by its own name.
    pub which: Option<ApplianceId>,
    /// How often something is done while it waits: "fold every 30 minutes for 2 hours".
    pub turns: f64,
    /// Work that may be left out, and is.
    pub left_out: bool,
    /// On or in something that is of none of the kinds: its words, from and to.
    pub other: Option<(usize, usize)>,
    /// From there on the clause tells of another way to do it.
    pub another_way: Option<usize>,
    /// Heats or makes what is none of the list: plates, the gravy.
    pub of_another: bool,
    /// Waits under the pressure that is still there.
    pub held: bool,
    /// Stands in an oven, and bakes in none.
    pub stands_in_it: bool,
    /// Stands in an oven that nobody said the degrees of.
    pub assumed: bool,
    /// Stands as long as nobody needs it: "chill until wanted".
    pub until_needed: bool,
    /// Fried or browned under a lid: by hand all the same.
    pub covered: bool,
    /// Switches off what it is in.
    pub switched_off: bool,
    /// Done only where something turned out so: "if the sauce is thin".
    pub conditional: bool,
}

/// How the rounds of a work are counted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Round {
    /// "4 at a time".
    AtOnce(f64),
    /// "In two batches".
    Rounds(f64),
    Uncounted,
}

impl Act {
    /// Takes time, or room on an appliance.
    pub fn is_work(&self) -> bool {
        let planned = matches!(self.takes, Takes::Wait { .. } | Takes::Boil | Takes::Release { .. } | Takes::Hands(Some(_)));
        planned || self.need.is_some()
    }

    /// As words, whatever it asks for; the time stays, so that it can be told.
    pub fn supposed(self) -> Act {
        Act {
            takes: Takes::Words,
            need: None,
            place: None,
            off: false,
            unknown: false,
            heat: Heat::default(),
            sets: false,
            slow: false,
            turned_down: false,
            heats: None,
            ware: None,
            moved: false,
            which: None,
            other: None,
            ..self
        }
    }
}

/// What food is put into before it goes into the oven.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Ware {
    /// "A roasting tin".
    Surely,
    /// "The dish": where an oven is heated.
    Perhaps,
}

/// What the clauses before have left.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct So {
    pub place: Option<On>,
    pub fan: bool,
    /// The method has named a slow cooker, or is to use one.
    pub slow: bool,
    /// The sentence has set the heat, so what is left then is left on it.
    pub turned_down: bool,
    /// Where the foods of the clause are.
    pub own: Own,
    /// What was heated, and nothing but this clause can be meant for it.
    pub spare: Option<On>,
    /// The oven or the grill that was heated last.
    pub hot: Option<On>,
    /// What was at hand was laid out, covered or filled since it last stood on heat.
    pub laid_out: bool,
    /// The place was set just now, and nothing has been done since.
    pub ready: bool,
    /// Something has cooked under pressure; before that, the cooker is a pan.
    pub pressed: bool,
    /// The pressure cooker, slow cooker or rice cooker that was named last: "the cooker".
    pub cooker: Option<Kind>,
    /// The label of the paragraph names it: "MICROWAVE: …".
    pub labelled: Option<On>,
    /// How hot the oven was said to be last, and whether in Fahrenheit.
    pub oven: Option<(Celsius, bool)>,
    /// What was done last on the heat was done by hand: "fry", not "simmer".
    pub by_hand: bool,
    /// A food that the sentence names has been on no heat yet.
    pub raw: bool,
    /// Where it was before it was taken off, and whether that was switched off.
    pub was: Option<On>,
    pub switched_off: bool,
}

/// Reads one clause. Of two ways to do it, each on its own appliance and with its own time, the first is read.
pub(super) fn act(w: &Words, clause: &Clause, so: So, own: &[Known]) -> Act {
    match another_way(w, clause) {
        Some(at) => Act { another_way: Some(at), doubtful: true, ..one_way(w, &Clause { end: at, ..*clause }, so, own) },
        None => one_way(w, clause, so, own),
    }
}

fn one_way(w: &Words, clause: &Clause, so: So, own: &[Known]) -> Act {
    let named = places(w, clause, own, so.cooker);
    let verb = clause.verb;
    let word = verb.map_or("", |verb| verb.word);
    // "Lower the temperature to 170", "turn it down to 160": the oven's, where something is in it or it is heated.
    let says_heat = (clause.verb_end..clause.end).any(|at| w.is(at, "temperature") || w.is(at, "heat"));
    let lowers = ["lower", "reduce", "decrease", "turn", "raise", "increase", "drop the temperature", "drop the heat", "drop the oven"]
        .contains(&word)
        && (says_heat || so.hot == Some(On::Kind(Kind::Oven)) || so.place == Some(On::Kind(Kind::Oven)));
    let bare = named.at == Some(On::Kind(Kind::Oven)) || lowers || ["bake", "roast", "preheat", "pre-heat"].contains(&word);
    let mut heat = heat(w, clause.start, clause.own_end(w), so.fan, bare);
    turn_by(w, clause, &so, lowers, &mut heat);
    let all = times(w, if verb.is_some() { clause.verb_end } else { clause.start }, clause.end);
    let (time, or, doubtful) = planned(&in_turn(w, clause, all));
    // "The day before, soak the beans".
    let early = times(w, clause.start, clause.verb_at).into_iter().find(|time| time.day_before || time.overnight);
    // "For 10 minutes, simmer the sauce".
    let front = || times(w, clause.start, clause.verb_at).into_iter().find(|_| w.is(clause.start, "for"));
    let time = time.or(early.filter(|_| verb.is_some())).or_else(|| front().filter(|_| verb.is_some()));
    let mut act = Act {
        takes: Takes::Words,
        need: None,
        place: None,
        off: named.off,
        heat,
        sets: false,
        time,
        or,
        round: time.and_then(|time| round(w, clause, &time)),
        doubtful,
        unknown: false,
        slow: named.at == Some(On::Kind(Kind::Slow)),
        turned_down: false,
        heats: None,
        ware: named.ware,
        moved: false,
        which: named.which,
        turns: 0.0,
        left_out: false,
        other: None,
        another_way: None,
        of_another: false,
        held: false,
        stands_in_it: false,
        assumed: false,
        covered: false,
        until_needed: false,
        switched_off: false,
        conditional: false,
    };
    // "Switch the oven off".
    let switches = matches!(word, "turn" | "switch");
    act.off |= switches && (clause.verb_end..clause.end.min(clause.verb_end + 4)).any(|at| w.is(at, "off"));
    if switches && act.off {
        act.place = Some(None);
        act.switched_off = true;
    }
    let reader = Reading { w, clause, named: &named, so };
    reader.fill(&mut act);
    if named.at.is_none() && named.other.is_some() && matches!(act.takes, Takes::Wait { .. } | Takes::Boil | Takes::Hands(_)) {
        (act.other, act.need, act.place, act.sets) = (named.other, None, Some(None), false);
        act.heat.oven = None;
    }
    act
}

/// "Turn the oven down by 20 °C", "reduce to moderate": from how hot it was.
fn turn_by(w: &Words, clause: &Clause, so: &So, lowers: bool, heat: &mut Heat) {
    let says = |words: &[&str]| (clause.start..clause.end).any(|at| words.iter().any(|word| w.is(at, word)));
    if heat.oven.is_some() {
        return;
    }
    if let (Some(by), Some((before, fahrenheit))) = (heat.by, so.oven) {
        let down = says(&["reduce", "lower", "decrease", "drop", "down", "less", "cooler", "reducing", "lowering"]);
        let up = says(&["increase", "raise", "up", "higher", "more", "hotter"]);
        if down != up {
            // No oven is colder than a warm room, or hotter than any is built.
            heat.oven = Some(by.from(before, fahrenheit, up)).filter(|oven| (30.0..=300.0).contains(&oven.0));
        }
        return;
    }
    // The hob has heats of its own: "reduce the heat to low".
    let on = |kind: Kind| so.place == Some(On::Kind(kind));
    let of_the_oven = on(Kind::Oven) || says(&["oven"]) || so.oven.is_some() && !says(&["heat", "flame", "hob", "ring"]) && !on(Kind::Hob);
    let set = lowers || clause.verb.is_some_and(|verb| verb.word == "switch");
    if set && of_the_oven && !on(Kind::Slow) && !on(Kind::Pressure) {
        heat.oven = turned_to(w, clause.verb_end, clause.end);
        heat.guessed = heat.oven.is_some();
    }
}
