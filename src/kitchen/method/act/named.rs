//! The places that a clause names, and where it begins to tell of another way in another place.

use std::sync::LazyLock;

use super::super::clauses::Clause;
use super::super::clock::times;
use super::super::places::{Kind, PLACES, Place, WARES};
use super::{Known, On, Ware};
use crate::kitchen::ApplianceId;
use crate::kitchen::words::{Phrases, Words};
use crate::measure::Kind as Sign;

static PHRASES: LazyLock<Phrases<Place>> = LazyLock::new(|| Phrases::of(PLACES.iter().chain(WARES).copied()));

/// The places that a clause names, the verb itself left out.
pub(super) struct Named {
    pub at: Option<On>,
    /// The token at which that place is named.
    pub at_token: usize,
    pub pan: bool,
    /// "In a pan", and not "rotating the pan".
    pub in_pan: bool,
    pub off: bool,
    pub ware: Option<Ware>,
    pub which: Option<ApplianceId>,
    pub other: Option<(usize, usize)>,
}

pub(super) fn places(w: &Words, clause: &Clause, own: &[Known], cooker: Option<Kind>) -> Named {
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
        if let Some(known) =
            known.filter(|known| phrase.is_none_or(|(place, past)| place == Place::Other || past <= at + known.words.len()))
        {
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

/// Where a clause begins to tell of another way: "for 2 hours on the hob, or 25 minutes in a pressure cooker".
pub(super) fn another_way(w: &Words, clause: &Clause) -> Option<usize> {
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
