//! What one clause asks for: its place, its hands, its wait, its heat.

use std::sync::LazyLock;

use super::clauses::Clause;
use super::clock::{Time, times};
use super::degrees::{Heat, heat, turned_to};
use super::places::{Kind, PLACES, Place, WARES};
use super::verbs::{Way, inflected};
use super::whereabouts::Own;
use crate::foods::key_of;
use crate::kitchen::words::{Phrases, Words};

mod hands;
mod place;
mod reading;
mod setting;

use self::reading::Reading;
use crate::kitchen::{Appliance, ApplianceId};
use crate::measure::{Celsius, Kind as Sign};

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
    /// Where it was before it was taken off, and whether that was switched off.
    pub was: Option<On>,
    pub switched_off: bool,
}

static PHRASES: LazyLock<Phrases<Place>> = LazyLock::new(|| Phrases::of(PLACES.iter().chain(WARES).copied()));

/// The places that a clause names, the verb itself left out.
struct Named {
    at: Option<On>,
    /// The token at which that place is named.
    at_token: usize,
    pan: bool,
    /// "In a pan", and not "rotating the pan".
    in_pan: bool,
    off: bool,
    ware: Option<Ware>,
    which: Option<ApplianceId>,
    other: Option<(usize, usize)>,
}

fn places(w: &Words, clause: &Clause, own: &[Known], cooker: Option<Kind>) -> Named {
    let end = clause.own_end(w);
    let mut named = Named { at: None, at_token: end, pan: false, in_pan: false, off: false, ware: None, which: None, other: None };
    // "While they are in the oven, warm the beans" warms none in it.
    let beside = clause.verb.is_some() && (w.is(clause.start, "while") || w.is(clause.start, "whilst"));
    let mut at = if beside { clause.verb_at } else { clause.start };
    while at < end {
        // "Simmer for 2 hours (or 40 minutes in a pressure cooker)": where the other way would be done.
        if w.kind(at) == Some(Sign::Open) && (w.is(at + 1, "or") || at > clause.verb_end && is_way(w, at + 1, w.closing(at).unwrap_or(end)))
        {
            at = w.closing(at).map_or(end, |close| close + 1);
            continue;
        }
        if clause.verb.is_some() && at >= clause.verb_at && at < clause.verb_end && clause.verb.is_some_and(|verb| verb.word != "turn") {
            at += 1;
            continue;
        }
        let phrase = PHRASES.find(w, at..end);
        // The household's own name wins over the words of a kind, but "oven dish" is no oven.
        let known = own.iter().find(|one| one.is_at(w, at, end));
        if let Some(known) = known.filter(|known| phrase.is_none_or(|(_, past)| past <= at + known.words.len())) {
            named.own(w, known, at, clause.start);
            at += known.words.len();
            continue;
        }
        let Some((place, past)) = phrase else {
            if let Some(kind) = cooker.filter(|_| w.is(at, "cooker") && named.at.is_none()) {
                named.cooker(w, kind, at, clause.start);
            }
            at += 1;
            continue;
        };
        match place {
            // A pan in the oven is in the oven; a hob is named by its heat beside other places.
            Place::At(kind) if named.at.is_none() || named.at == Some(On::Kind(Kind::Hob)) => {
                (named.at, named.at_token, named.which) = (Some(On::Kind(kind)), at, None)
            }
            Place::Pan => {
                named.pan = true;
                named.in_pan |= follows_into(w, clause.start, at);
            }
            Place::Off => named.off = true,
            Place::Other => named.other = named.other.or(Some((at, past))),
            Place::Ware => named.ware = Some(Ware::Surely),
            Place::Dish if named.ware.is_none() && is_put_into(w, clause.start, at, past) => named.ware = Some(Ware::Perhaps),
            _ => {}
        }
        at = past;
    }
    named
}

impl Named {
    /// "Set the cooker to simmer", "take it out of the cooker".
    fn cooker(&mut self, w: &Words, kind: Kind, at: usize, from: usize) {
        let away = (at.saturating_sub(3).max(from)..at).any(|at| w.is(at, "from") || w.is(at, "of") || w.is(at, "off"));
        match away {
            true => self.off = true,
            false => (self.at, self.at_token, self.which) = (Some(On::Kind(kind)), at, None),
        }
    }

    /// "In the multicooker", "out of the Aga".
    fn own(&mut self, w: &Words, known: &Known, at: usize, from: usize) {
        let before = |back: usize, word: &str| at >= from + back && w.is(at - back, word);
        let the = usize::from(before(1, "the") || before(1, "your"));
        self.off |= before(the + 1, "from") || before(the + 1, "of") && before(the + 2, "out");
        if self.off {
            return;
        }
        if known.kind.is_none() || self.at.is_none() || self.at == Some(On::Kind(Kind::Hob)) {
            (self.at, self.at_token, self.which) = (Some(known.on()), at, Some(known.id));
        }
    }
}

/// "In the dish", "on a lined tray", "wrap in foil"; "a tin of tomatoes" and "the tin" are no place.
fn is_put_into(w: &Words, from: usize, at: usize, end: usize) -> bool {
    follows_into(w, from, at) && !w.is(end, "of") && !w.is(at.wrapping_sub(1), "dry")
}

/// Does a word of putting stand a little before?
fn follows_into(w: &Words, from: usize, at: usize) -> bool {
    const INTO: [&str; 9] = ["in", "into", "on", "onto", "to", "over", "between", "among", "with"];
    let near = at.saturating_sub(4).max(from);
    (near..at).any(|place| INTO.iter().any(|word| w.is(place, word)))
}

/// Reads one clause. Of two ways to do it, each on its own appliance and with its own time, the first is read.
pub(super) fn act(w: &Words, clause: &Clause, so: So, own: &[Known]) -> Act {
    match another_way(w, clause) {
        Some(at) => Act { another_way: Some(at), doubtful: true, ..one_way(w, &Clause { end: at, ..*clause }, so, own) },
        None => one_way(w, clause, so, own),
    }
}

/// Where a clause begins to tell of another way: "for 2 hours on the hob, or 25 minutes in a pressure cooker".
fn another_way(w: &Words, clause: &Clause) -> Option<usize> {
    let parts = |at: usize| w.is(at, "or") || matches!(w.kind(at), Some(Sign::Comma | Sign::Semicolon | Sign::Open));
    (clause.verb_end + 1..clause.end).filter(|at| parts(*at)).find(|at| {
        let said_before = kind_named(w, clause.verb_at, *at);
        let from = *at + 1;
        let said_after = kind_named(w, from, clause.end);
        let timed = |from: usize, to: usize| !times(w, from, to).is_empty();
        // Without "or" both are to be named: "covered on the hob for 10 minutes, in the oven for 20".
        let or = w.is(*at, "or") || w.kind(*at) == Some(Sign::Open);
        let after_or = or && said_after.is_some() && said_before != said_after;
        let another = said_before.is_some() && said_after.is_some() && said_before != said_after;
        let colon = (clause.start..*at).any(|at| w.kind(at) == Some(Sign::Colon));
        // "For 3 hours on the lowest heat, or in the oven at 150 °C": as long there.
        let placed = w.is(*at, "or") && after_or && said_before.is_some() && ["in", "on", "under"].iter().any(|word| w.is(from, word));
        (after_or || another && colon) && timed(clause.verb_end, *at) && (timed(from, clause.end) || placed)
    })
}

/// Does a bracket tell of another way: "(pressure cooker: 40 min)"?
fn is_way(w: &Words, from: usize, to: usize) -> bool {
    kind_named(w, from, to).is_some_and(|kind| kind != Kind::Hob) && !times(w, from, to).is_empty()
}

/// The first appliance that the words name.
fn kind_named(w: &Words, from: usize, to: usize) -> Option<Kind> {
    (from..to).find_map(|at| match PHRASES.find(w, at..to) {
        Some((Place::At(kind), _)) => Some(kind),
        _ => None,
    })
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

/// "Fry 4 at a time", "one at a time", "in batches", "5 minutes per batch".
fn round(w: &Words, clause: &Clause, time: &Time) -> Option<Round> {
    let all = || clause.start..clause.end;
    let of_time = |at: usize| w.is(at, "at") && w.is(at + 1, "a") && w.is(at + 2, "time");
    let at_once = all().filter(|at| *at > clause.start && of_time(*at)).find_map(|at| {
        let read = w.number(at - 1).ok().flatten().filter(|read| read.end == at);
        read.map(|read| read.number.high.to_f64())
    });
    let needed = |at: usize| w.is(at + 2, "if") || w.is(at + 3, "if");
    let batches = all().any(|at| w.is(at, "in") && (w.is(at + 1, "batches") || w.is(at + 2, "batches")) && !needed(at));
    let counted = all().find_map(|at| {
        let read = w.number(at + 1).ok().flatten().filter(|read| w.is(at, "in") && w.is(read.end, "batches") && w.is(at + 1 + 1, "batches"));
        read.map(|read| read.number.high.to_f64()).filter(|_| !needed(at))
    });
    const AFTER_ANOTHER: [&[&str]; 4] =
        [&["one", "by", "one"], &["one", "after", "another"], &["one", "after", "the", "other"], &["after", "the", "other"]];
    // "Cook each for a minute a side", "make 12 pancakes, cooking each".
    let cooks = |at: usize| {
        let gerund = || inflected(&w.at(at)?.text.to_lowercase(), "ing");
        let verb = clause.verb.filter(|_| at + 1 == clause.verb_end).or_else(gerund);
        verb.is_some_and(|verb| matches!(verb.way, Way::Wait(..) | Way::HandsOn(_)))
    };
    let each = (clause.verb_end.saturating_sub(1)..clause.end).any(|at| cooks(at) && w.is(at + 1, "each"));
    let in_turn = each || all().any(|at| AFTER_ANOTHER.iter().any(|words| words.iter().enumerate().all(|(i, word)| w.is(at + i, word))));
    // "In two batches, about 10 minutes in all."
    if all().any(|at| w.is(at, "altogether") || w.is(at, "total") || w.is(at, "in") && (w.is(at + 1, "all") || w.is(at + 1, "total"))) {
        return None;
    }
    let uncounted = (batches || in_turn || time.by_batch).then_some(Round::Uncounted);
    let one_by_one = || (in_turn && !each).then_some(Round::AtOnce(1.0));
    at_once.map(Round::AtOnce).or(counted.map(Round::Rounds)).or_else(one_by_one).or(uncounted)
}

/// "30 minutes covered and 15 uncovered" are one after the other.
fn in_turn(w: &Words, clause: &Clause, mut all: Vec<Time>) -> Vec<Time> {
    let says = |word: &str| (clause.start..clause.end).any(|at| w.is(at, word));
    if let ([first, second], true) = (all.as_mut_slice(), says("covered") && says("uncovered"))
        && !second.or
    {
        (first.low, first.high) = (first.low + second.low, first.high + second.high);
        all.truncate(1);
    }
    all
}

/// The first time of a clause; of several that are no choice, the longest.
fn planned(all: &[Time]) -> (Option<Time>, bool, bool) {
    let Some(first) = all.first().copied() else { return (None, false, false) };
    // "For 5 minutes before adding the garlic for another minute": one after the other.
    let more: Vec<&Time> = all[1..].iter().filter(|time| time.further && !time.or).collect();
    let first = more.iter().fold(first, |sum, time| Time { low: sum.low + time.low, high: sum.high + time.high, ..sum });
    let others: Vec<&Time> = all[1..].iter().filter(|time| !time.or && !time.further).collect();
    let longest = others.iter().fold(first, |longest, time| if time.high > longest.high { **time } else { longest });
    let doubtful = others.iter().any(|time| (time.high - first.high).abs() > 1e-9);
    // "20 minutes per 500 g plus 30 minutes" goes by weight, whichever is planned.
    let longest = Time { by_weight: all.iter().any(|time| time.by_weight), ..longest };
    (Some(longest), all.iter().any(|time| time.or), doubtful)
}
