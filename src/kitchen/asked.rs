//! So much of a food as its lines ask for it: three limes, a tin of 400 g, a bunch. Where nobody knows how a shop packs it, that is what
//! to buy; and it is what a cook fetches.
//!
//! It knows no weight: what lines measure in different ways is not added up here.

use crate::foods::{Grade, Item, Kind, State};
use crate::measure::{Number, Quantity, Spoons, Unit, Units, show, show_in_spoons, steps_up};

/// An amount in the measure of its line.
#[derive(Debug, Clone, PartialEq)]
pub struct Asked {
    pub much: Quantity,
    /// Of one tin, jar or pack.
    pub size: Option<Quantity>,
    pub grade: Option<Grade>,
    /// The household's.
    pub spoons: Spoons,
}

impl Asked {
    /// The most that a line asks for, as it is bought; `None` of "plus 2 tbsp for dusting", of what is weighed or measured after it is cut
    /// or cooked, and of "2 × 400 g".
    pub fn of(item: &Item, spoons: Spoons) -> Option<Asked> {
        let much = match item.amount.unit {
            Unit::Piece if item.size.is_none() => Quantity::Count(item.amount.high.clone()),
            Unit::Word(word) => Quantity::Words(item.amount.high.clone(), word.to_string()),
            _ => item.amount.most(spoons),
        };
        let as_bought = matches!(much, Quantity::Count(_) | Quantity::Words(..))
            || (matches!(much, Quantity::Volume(_)) && item.state == State::AsPurchased);
        (as_bought && item.plus.is_empty()).then(|| Asked { much, size: item.size.clone(), grade: item.grade, spoons })
    }

    pub fn scaled(&self, times: impl Into<Number>) -> Asked {
        Asked { much: self.much.scaled(times), ..self.clone() }
    }

    /// All of them together, where they are measured alike; a size that they do not share is not told.
    pub fn sum<'a>(mut all: impl Iterator<Item = &'a Asked>) -> Option<Asked> {
        let first = all.next()?.clone();
        all.try_fold(first, |sum, more| {
            let grade = sum.grade.filter(|grade| more.grade == Some(*grade));
            (sum.size == more.size).then_some(Asked { much: sum.much.plus(&more.much)?, grade, size: sum.size, ..more.clone() })
        })
    }

    /// What is counted, whole: nobody buys or fetches three eighths of a garlic.
    pub fn whole(self) -> Asked {
        let up = |number: &Number| steps_up(number, &Number::ONE);
        let much = match &self.much {
            Quantity::Count(number) => Quantity::Count(up(number)),
            Quantity::Words(number, word) => Quantity::Words(up(number), word.clone()),
            poured => poured.clone(),
        };
        Asked { much, ..self }
    }

    /// What half a one of can be taken, as a cook takes it: half a knob, two pinches.
    pub fn loosely(self) -> Asked {
        let much = match &self.much {
            Quantity::Words(number, word) => Quantity::Words(by_hand(number, word), word.clone()),
            other => other.clone(),
        };
        Asked { much, ..self }
    }

    /// "2 large", "1 tin (400 g)", "2 tbsp", "750 ml"; `None` of a dry food by the cup where sheets are in grams.
    pub fn text(&self, kind: Option<Kind>, units: Units) -> Option<String> {
        if matches!(self.much, Quantity::Volume(_)) && units == Units::Metric {
            return match show_in_spoons(&self.much, self.spoons) {
                None if kind.is_some_and(is_dry) => None,
                None => Some(show(&self.much, units)),
                spoons => spoons,
            };
        }
        let much = show(&self.much, units);
        Some(match (&self.size, self.grade) {
            (Some(size), _) => format!("{much} ({})", show(size, units)),
            (None, Some(grade)) if matches!(self.much, Quantity::Count(_)) => format!("{much} {}", graded(grade)),
            _ => much,
        })
    }
}

/// Pinches are whole from one on; of a knob, a handful, a drizzle and of a part of a pinch there are halves. What is under three eighths
/// stays as it is.
pub fn by_hand(number: &Number, word: &str) -> Number {
    const BY_FINGERS: [&str; 2] = ["pinch", "dash"];
    let step = if *number >= 1 && BY_FINGERS.contains(&word) { Number::ONE } else { Number::over(1, 2) };
    if *number < Number::over(3, 8) { number.clone() } else { (number / &step).round() * step }
}

pub fn graded(grade: Grade) -> &'static str {
    match grade {
        Grade::Small => "small",
        Grade::Medium => "medium",
        Grade::Large => "large",
    }
}

/// What is weighed rather than poured.
pub fn is_dry(kind: Kind) -> bool {
    use Kind::{Baking, Bread, Fruit, Grain, Herb, Nut, Pulse, Seed, Spice, Vegetable};
    matches!(kind, Vegetable | Fruit | Herb | Spice | Grain | Pulse | Nut | Seed | Bread | Baking)
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::measure::{Amount, Word};

    fn item(number: f64, unit: Unit) -> Item {
        Item { amount: Amount::new(number, unit), size: None, grade: None, state: State::AsPurchased, boned: false, plus: vec![] }
    }

    fn said(items: &[Item], kind: Option<Kind>) -> Option<String> {
        let all: Vec<Asked> = items.iter().map(|item| Asked::of(item, Spoons::Us)).collect::<Option<_>>()?;
        Asked::sum(all.iter())?.whole().text(kind, Units::Metric)
    }

    #[test]
    fn what_is_counted_is_told_whole_and_never_less_than_asked_for() {
        // ⅝ of a lime twice are 1¼: two. ⅝ of a bunch is one, 2½ cloves are three.
        assert_eq!(said(&[item(0.625, Unit::Piece), item(0.625, Unit::Piece)], None).as_deref(), Some("2"));
        assert_eq!(said(&[item(0.625, Unit::Word(Word::Bunch))], None).as_deref(), Some("1 bunch"));
        assert_eq!(said(&[item(2.5, Unit::Word(Word::Clove))], None).as_deref(), Some("3 cloves"));
        let tin = Item { size: Some(Quantity::grams(400)), ..item(1.0, Unit::Word(Word::Tin)) };
        assert_eq!(said(std::slice::from_ref(&tin), None).as_deref(), Some("1 tin (400 g)"));
        let large = Item { grade: Some(Grade::Large), ..item(1.5, Unit::Piece) };
        assert_eq!(said(&[large], None).as_deref(), Some("2 large"));
    }

    #[test]
    fn what_is_poured_is_in_spoons_and_millilitres_and_what_is_dry_in_grams() {
        assert_eq!(said(&[item(2.0, Unit::Tablespoon)], None).as_deref(), Some("2 tbsp"));
        assert_eq!(said(&[item(700.0, Unit::Millilitre), item(50.0, Unit::Millilitre)], None).as_deref(), Some("750 ml"));
        assert_eq!(said(&[item(1.0, Unit::Teaspoon)], Some(Kind::Spice)).as_deref(), Some("1 tsp"));
        assert_eq!(said(&[item(1.0, Unit::Cup)], Some(Kind::Grain)), None);
    }

    #[test]
    fn what_is_measured_in_two_ways_is_not_added_up() {
        assert_eq!(said(&[item(1.0, Unit::Piece), item(1.0, Unit::Word(Word::Clove))], None), None);
        assert_eq!(said(&[item(100.0, Unit::Gram)], None), None);
        assert_eq!(said(&[Item { state: State::Cooked, ..item(1.0, Unit::Cup) }], None), None);
    }
}
