//! A measure that stands beside the amount, in a bracket, after a slash or after a comma: `(400 g)`, `(about 600 g each)`, `, 150 g (5 oz) each`.
//!
//! A weight beside a volume or a count is the amount, and what it took the place of is a remark ("½ cup (110 g) sugar"
//! is 110 g). It is the size of one of a tin or pack, of a single thing, and where "each" is said.

use std::ops::Range;
use std::sync::LazyLock;

use crate::kitchen::words::{Phrases, Words};
use crate::measure::{Amount, Kind, Quantity, Spoons, Unit};

/// A weight or volume, and of what it is.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Beside {
    pub amount: Amount,
    /// The ounces of `3 lb 5 oz`.
    pub plus: Vec<Amount>,
    /// Of one.
    pub each: bool,
    /// Of all.
    pub total: bool,
    pub about: bool,
    /// "unpeeled", "flesh": what of the food it weighs.
    pub of: Option<Share>,
    /// What follows it, after a comma or slash: `240 g drained`.
    pub rest: Option<String>,
    pub end: usize,
}

/// What of a food is weighed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Share {
    /// With peel, stones or bones.
    AsBought,
    /// What is left of it, peeled.
    Peeled,
    /// What is left of it without what nobody eats.
    Trimmed,
}

/// Words after a weight that say what of the food it is, before a "weight" or without it.
static SHARES: LazyLock<Phrases<Share>> = LazyLock::new(|| {
    const AS_BOUGHT: [&str; 22] = [
        "unpeeled",
        "untrimmed",
        "unshelled",
        "unprepared",
        "gross",
        "with bones",
        "with bone",
        "with the bone",
        "with the bones",
        "bone in",
        "on the bone",
        "with skin",
        "with the skin",
        "with skins",
        "skin on",
        "with peel",
        "with stones",
        "with their stones",
        "in their shells",
        "in the shell",
        "shell on",
        "as bought",
    ];
    const PEELED: [&str; 4] = ["peeled", "when peeled", "once peeled", "after peeling"];
    const TRIMMED: [&str; 16] = [
        "flesh",
        "of flesh",
        "trimmed",
        "prepared",
        "net",
        "without bones",
        "without bone",
        "without the bone",
        "without stones",
        "without skin",
        "shelled",
        "stoned",
        "pitted",
        "boned",
        "boneless",
        "after trimming",
    ];
    let all = |share: Share, phrases: &'static [&'static str]| phrases.iter().map(move |phrase| (share, *phrase));
    Phrases::of(all(Share::AsBought, &AS_BOUGHT).chain(all(Share::Peeled, &PEELED)).chain(all(Share::Trimmed, &TRIMMED)))
});

/// The words at a place that say what of the food is weighed, and the place after them: "unpeeled weight".
pub(super) fn share_at(words: &Words, at: usize) -> Option<(Share, usize)> {
    let (share, end) = SHARES.find(words, at..words.len())?;
    Some((share, end + usize::from(words.is(end, "weight"))))
}

/// "peeled weight", "(unpeeled weight)": the whole of a range.
pub(super) fn weight_of_a_share(words: &Words, range: Range<usize>) -> Option<Share> {
    share_at(words, range.start).filter(|(_, end)| *end == range.end && words.is(end - 1, "weight")).map(|(share, _)| share)
}

impl Beside {
    pub fn is_mass(&self) -> bool {
        matches!(self.amount.most(Spoons::Us), Quantity::Mass(_))
    }

    /// With what is added, as one amount.
    pub fn whole(&self, spoons: Spoons) -> Amount {
        if self.plus.is_empty() {
            return self.amount.clone();
        }
        let base = |amount: &Amount| amount.most(spoons).base();
        let sum = base(&self.amount) + self.plus.iter().map(base).sum::<f64>();
        Amount::new(sum, if self.is_mass() { Unit::Gram } else { Unit::Millilitre })
    }
}

/// An amount with what is added to it.
pub(super) fn sum(first: &Amount, plus: &[Amount], spoons: Spoons) -> Quantity {
    let whole =
        Beside { amount: first.clone(), plus: plus.to_vec(), each: false, total: false, about: false, of: None, rest: None, end: 0 };
    whole.whole(spoons).most(spoons)
}

/// Does a measure say the one before it again, in another system? "1 lb 2 oz" is a sum; "25 g 1 oz" is one amount, rounded as books do; a weight
/// beside a volume is always the same once more.
pub(super) fn says_again(first: &Quantity, unit: Unit, next: &Beside, spoons: Spoons) -> bool {
    /// A pint of 568 ml may stand beside 600 ml, and where the household's is 473 ml, too (common practice, no source).
    const APART: f64 = 1.4;
    let next_whole = next.whole(spoons).most(spoons);
    let is_mass = |of: &Quantity| matches!(of, Quantity::Mass(_));
    let is_volume = |of: &Quantity| matches!(of, Quantity::Volume(_));
    if is_mass(first) && is_volume(&next_whole) || is_volume(first) && is_mass(&next_whole) {
        return true;
    }
    let ratio = first.base() / next_whole.base();
    let alike = is_mass(first) && is_mass(&next_whole) || is_volume(first) && is_volume(&next_whole);
    alike && is_metric(unit) != is_metric(next.amount.unit) && (1.0 / APART..=APART).contains(&ratio)
}

fn is_metric(unit: Unit) -> bool {
    use Unit::*;
    matches!(unit, Gram | Kilogram | Milligram | Millilitre | Centilitre | Decilitre | Litre)
}

/// The measure that the whole text is; `None` where it says anything else.
pub(super) fn beside(words: &Words) -> Option<Beside> {
    let mut beside = beside_of_a_share(words, 0)?;
    let rest = beside.end..words.len();
    beside.rest = match words.kind(rest.start) {
        None => beside.rest.take(),
        Some(Kind::Comma | Kind::Semicolon | Kind::Slash) => Some(words.plain(rest.start + 1..rest.end)).filter(|rest| !rest.is_empty()),
        Some(_) if words.is(rest.start, "or") => Some(words.plain(rest)),
        Some(_) => return None,
    };
    Some(beside)
}

/// As [`beside_at`], with the words after it that say of what it is: "300 g unpeeled", "200 g of flesh".
pub(super) fn beside_of_a_share(words: &Words, at: usize) -> Option<Beside> {
    let mut beside = beside_at(words, at)?;
    if let Some((of, end)) = share_at(words, beside.end) {
        let mut marks = Marks { each: beside.each, total: beside.total };
        beside.of = Some(of);
        beside.end = marks.take(words, end);
        (beside.each, beside.total) = (marks.each, marks.total);
    }
    Some(beside)
}

/// The measure that begins at a place, with the brackets that say it again and the words that say of what it is.
pub(super) fn beside_at(words: &Words, at: usize) -> Option<Beside> {
    let mut marks = Marks::default();
    // "Net 400 g" is what is in it, as always.
    let mut at = marks.take(words, at + usize::from(words.is(at, "net")));
    // "each weighing 150 g"
    if ["weighing", "weighs", "weigh"].iter().any(|word| words.is(at, word)) {
        at = marks.take(words, at + 1);
    }
    let about = words.at(at).is_some_and(|token| !token.is_number());
    let read = words.amount(at).ok()??;
    if !read.unit_given || !read.amount.unit.is_measured() {
        return None;
    }
    let mut beside =
        Beside { amount: read.amount, plus: Vec::new(), each: false, total: false, about, of: None, rest: None, end: read.end };
    if let Ok(Some(more)) = words.amount(beside.end)
        && more.unit_given
        && more.amount.unit.is_measured()
        && more.amount.most(Spoons::Us).dimension() == beside.amount.most(Spoons::Us).dimension()
    {
        let again = Beside {
            amount: more.amount.clone(),
            plus: Vec::new(),
            each: false,
            total: false,
            about: false,
            of: None,
            rest: None,
            end: more.end,
        };
        match says_again(&beside.amount.most(Spoons::Us), beside.amount.unit, &again, Spoons::Us) {
            true => beside.rest = Some(words.plain(beside.end..more.end)),
            false => beside.plus.push(more.amount),
        }
        beside.end = more.end;
    }
    // "140g/5oz each", "150 g (5 oz) each"
    loop {
        beside.end = match words.kind(beside.end) {
            Some(Kind::Open) => beside.end + 1,
            Some(Kind::Slash) => match words.amount(beside.end + 1) {
                Ok(Some(again)) if again.unit_given && again.amount.unit.is_measured() => {
                    beside.rest = Some(words.plain(beside.end + 1..again.end));
                    again.end
                }
                _ => break,
            },
            _ => break,
        };
    }
    beside.end = marks.take(words, beside.end);
    (beside.each, beside.total) = (marks.each, marks.total);
    Some(beside)
}

#[derive(Default)]
struct Marks {
    each: bool,
    total: bool,
}

impl Marks {
    fn take(&mut self, words: &Words, mut at: usize) -> usize {
        loop {
            let is = |word: &str| words.is(at, word);
            if is("each") || is("apiece") {
                self.each = true;
            } else if is("total") || is("altogether") || is("together") {
                self.total = true;
            } else if is("in") && (words.is(at + 1, "all") || words.is(at + 1, "total")) {
                self.total = true;
                at += 1;
            } else if is("per") && (words.is(at + 1, "piece") || words.is(at + 1, "one")) {
                self.each = true;
                at += 1;
            } else {
                return at;
            }
            at += 1;
        }
    }
}
