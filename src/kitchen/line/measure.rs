//! The amount of a line, with its unit, the size of one, and what says it again.
//!
//! An amount that says no number ("a few sprigs", "some", "a little") is taken as "to taste" in its own words, with a
//! note; an unknown counting word before a food ("2 zorks cream") is part of an unknown food's name. Neither is an
//! error.

use super::beside::{Beside, Share};
use super::vocabulary::{self, Class};
use super::{LineError, Reader};
use crate::foods::Grade;
use crate::measure::{Amount, Ends, Kind, Number, Quantity, ReadError, Spoons, Unit, Word};

mod measuring;

use self::measuring::Measuring;

/// How much, before any word about what.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Measure {
    /// `None`: the line begins with the food.
    pub amount: Option<Amount>,
    pub unit_given: bool,
    pub size: Option<Quantity>,
    pub grade: Option<Grade>,
    pub plus: Vec<Amount>,
    /// "a few sprigs": some amount, but nobody can say which.
    pub vague: Option<String>,
    /// "heaped", and the other measure of "200 g / 7 oz".
    pub remarks: Vec<String>,
    /// "2 tsp each paprika and cumin".
    pub each: bool,
    /// How long one piece is, in centimetres: "2 cm piece".
    pub long: Option<Number>,
    /// A weight took the place of a count or a volume, and of the size of one.
    pub replaced: bool,
    /// What of the food the weight is of that stands beside a count.
    pub of: Option<Share>,
    /// The place of a unit that could be part of a food's name.
    pub unit_at: Option<usize>,
    /// As typed, without brackets: "2 large", "½ cup".
    pub said: String,
    /// The place where the words about the food begin.
    pub end: usize,
}

/// In grams or millilitres, by the household's pints.
pub(super) fn size_of(amount: &Amount, spoons: Spoons) -> Quantity {
    amount.most(spoons)
}

/// A cup of 250 ml, as a line rounds it. Common practice, no source.
const METRIC_CUP_ML: std::ops::RangeInclusive<f64> = 245.0..=260.0;

/// An Australian tablespoon, of 20 ml. From memory.
const LARGE_SPOON_ML: std::ops::RangeInclusive<f64> = 19.0..=21.0;

impl Measure {
    /// What a bracket or a part says of the same amount: the size of one, the weight that counts, or the same once more.
    ///
    /// A weight beside a volume or a count is the amount, millilitres beside a pint too; "each" multiplies; beside a container it is the size of one, "total" aside; of one
    /// thing alone it is what that weighs. Anything else is a remark.
    pub fn take(&mut self, beside: Beside, text: String, spoons: Spoons) {
        let Some(amount) = self.amount.clone() else { return self.remarks.push(text) };
        let is_mass = beside.is_mass();
        let one = amount.low == 1 && amount.high == 1;
        let container = matches!(amount.unit, Unit::Word(word) if word.is_container());
        if self.size.is_some() {
            return self.remarks.push(text);
        }
        let glass = amount.unit == Unit::Word(Word::Glass);
        if container || matches!(amount.unit, Unit::Word(_) | Unit::Piece) && (beside.each || one && (is_mass || glass)) {
            let share = if beside.total { Number::ONE.checked_div(&amount.high).unwrap_or(Number::ONE) } else { Number::ONE };
            self.size = Some(size_of(&beside.whole(spoons).scaled(&share), spoons));
            self.of = beside.of.filter(|_| !container);
            self.remarks.extend(beside.rest);
            return;
        }
        // "1 pint (570 ml)" says whose pint it is, "1 cup (250 ml)" that it is a metric cup; 240 ml are the US cup in round figures.
        let is_metric = matches!(beside.amount.unit, Unit::Millilitre | Unit::Centilitre | Unit::Decilitre | Unit::Litre);
        let one = beside.amount.most(spoons).base() / amount.high.to_f64();
        let metric_cup = amount.unit == Unit::Cup && is_metric && METRIC_CUP_ML.contains(&one);
        let large_spoon = amount.unit == Unit::Tablespoon && is_metric && LARGE_SPOON_ML.contains(&one);
        let whose = metric_cup || large_spoon || amount.unit.depends_on_pints() && !is_mass && !beside.amount.unit.depends_on_pints();
        let replaces = !beside.each && (is_mass && (!amount.unit.is_measured() || self.is_volume()) || !is_mass && glass || whose);
        if !replaces {
            return self.remarks.push(text);
        }
        self.remarks.insert(0, std::mem::take(&mut self.said));
        self.amount = Some(beside.amount);
        self.plus = beside.plus;
        self.unit_given = true;
        self.replaced = true;
        self.of = beside.of;
        self.remarks.extend(beside.rest);
    }

    fn is_volume(&self) -> bool {
        self.amount.as_ref().is_some_and(|amount| matches!(amount.most(Spoons::Us), Quantity::Volume(_)))
    }
}

impl Reader<'_> {
    /// The measure that begins at `start`; without an amount where none does. `as_count`: a kitchen word after the number is part of the
    /// food's name.
    pub(super) fn measure(&self, start: usize, as_count: bool) -> Result<Measure, LineError> {
        if let Some(vague) = self.vague(start) {
            return Ok(vague);
        }
        let w = self.w;
        let qualified = self.qualified(start);
        let (at, counted) = match self.bracketed_count(qualified.at) {
            Some(number) => (qualified.at + 1, Some(number)),
            None => (qualified.at, None),
        };
        let read = match counted {
            Some(number) => Some((number, at, None)),
            None => w.number(at).map_err(|error| self.error(error, at))?.map(|read| (read.number, read.end, read.dash)),
        };
        let Some((number, after, dash)) = read else { return Ok(self.without_number(start)) };
        if w.kind(after) == Some(Kind::Percent) {
            return Ok(Measure { end: start, ..Measure::default() });
        }
        let mut measuring = Measuring { reader: self, start, number, as_count, measure: Measure { end: after, ..Measure::default() } };
        measuring.measure.grade = qualified.grade;
        measuring.measure.remarks.extend(qualified.told);
        if let Some(dash) = dash {
            measuring.count_of_sizes(dash, at)?;
        }
        measuring.size_before_unit()?;
        measuring.unit()?;
        measuring.again()?;
        measuring.second_unit()?;
        Ok(measuring.finish())
    }

    pub(super) fn error(&self, error: ReadError, at: usize) -> LineError {
        LineError::new(error.cause, error.remedy, self.w.byte(at))
    }

    /// "(1) 8 oz package".
    fn bracketed_count(&self, at: usize) -> Option<Ends> {
        let inner = self.bracket(at)?;
        let read = inner.number(0).ok()??;
        (read.end == inner.len()).then_some(read.number)
    }

    /// "A few sprigs of thyme": thyme, of which nobody can say how much.
    fn vague(&self, start: usize) -> Option<Measure> {
        let w = self.w;
        let (after, may_name) = vocabulary::vague(w, start)?;
        // "A little gem lettuce" is one, "a little handful" a small one.
        if may_name && (self.names(start + 1).is_some() || matches!(w.unit(after), Some((Unit::Word(_), _)))) {
            return None;
        }
        let mut end = after;
        if let Some((unit, unit_end)) = w.unit(self.qualified(after).at)
            && unit != Unit::Portion
            && self.names(after).is_none_or(|end| end <= unit_end)
        {
            end = unit_end + usize::from(w.is(unit_end, "of"));
        }
        if end >= self.end {
            return None;
        }
        let said = w.plain(start..end);
        let said = said.strip_suffix(" of").unwrap_or(&said).to_owned();
        Some(Measure { vague: Some(said), end, ..Measure::default() })
    }

    /// "Pinch of salt" is one pinch, "heaped tbsp sugar" one of those; anything else begins with the food.
    fn without_number(&self, start: usize) -> Measure {
        let w = self.w;
        let none = Measure { end: start, ..Measure::default() };
        let Qualified { at, grade, told, likened } = self.qualified(start);
        let Some((unit, end)) = w.unit(at) else { return none };
        let unit = as_knob(unit, likened);
        let of = w.is(end, "of");
        let alone = match unit {
            // "Small pack coriander", "tin tomatoes"
            Unit::Word(word) => LOOSE.contains(&word) || likened || word.is_container() && (at > start || self.names(end).is_some()),
            Unit::Teaspoon | Unit::Dessertspoon | Unit::Tablespoon | Unit::Cup => at > start,
            _ => return none,
        };
        // "Pinch each salt and pepper"
        let after_each = vocabulary::each(w, end);
        let each = after_each.is_some();
        let end = after_each.map_or(end + usize::from(of), |end| end + usize::from(w.is(end, "of")));
        if !(of || alone) || end >= self.end || self.names(start).is_some_and(|name| name > end) {
            return none;
        }
        let said = w.plain(start..end);
        Measure {
            amount: Some(Amount::new(1.0, unit)),
            unit_given: true,
            grade,
            remarks: told.into_iter().collect(),
            said,
            each,
            end,
            ..none
        }
    }

    /// The end of the longest known name that begins here.
    pub(super) fn names(&self, at: usize) -> Option<usize> {
        self.w.food(at, self.foods).map(|(_, end)| end)
    }

    /// Words like "large" and "heaped".
    fn qualified(&self, at: usize) -> Qualified {
        let w = self.w;
        let mut found = Qualified { at, grade: None, told: None, likened: false };
        let mut told: Vec<String> = Vec::new();
        while let Some(end) = vocabulary::qualifier(w, found.at) {
            match vocabulary::class(w, found.at..end) {
                Some((Class::Grade(grade), _)) => found.grade = Some(grade),
                _ if w.is(found.at, "level") => {}
                _ => {
                    found.likened |= vocabulary::likened(w, found.at).is_some();
                    told.push(w.plain(found.at..end));
                }
            }
            found.at = end;
        }
        found.told = (!told.is_empty()).then(|| told.join(" "));
        found
    }
}

/// Words that make an amount of one without a number and without "of".
const LOOSE: [Word; 18] = {
    use Word::*;
    [Pinch, Dash, Drop, Splash, Drizzle, Handful, Knob, Bunch, Sprig, Dollop, Glug, Squeeze, Scoop, Ladle, Glass, Chunk, Pat, Twist]
};

struct Qualified {
    at: usize,
    grade: Option<Grade>,
    /// What they say; "level" says nothing.
    told: Option<String>,
    likened: bool,
}

/// A "thumb-sized piece" is a knob.
fn as_knob(unit: Unit, likened: bool) -> Unit {
    if unit == Unit::Piece && likened { Unit::Word(Word::Knob) } else { unit }
}

/// Things of which a line may say what one weighs: "200 g block feta", "30 g bunch dill".
fn is_one_thing(unit: Unit) -> bool {
    use Word::*;
    match unit {
        Unit::Piece => true,
        Unit::Word(word) => {
            word.is_container() || matches!(word, Block | Ball | Loaf | Bunch | Head | Bulb | Fillet | Chunk | Lump | Knob | Glass | Sheet)
        }
        _ => false,
    }
}
