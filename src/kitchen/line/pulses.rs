//! Foods that the words of a line name only together with their measure: tinned pulses, and the pepper that is counted.

use super::Reader;
use super::food::{Found, is_tin};
use super::measure::{Measure, size_of};
use super::parts::in_tins;
use crate::foods::{FoodId, Kind, Measured, State, key_of};
use crate::measure::{Amount, Ends, Quantity, Spoons, Unit, Word};

/// A name that means another food in another measure: the name, the food that it is otherwise, what it is in this measure, and from how many
/// grams or millilitres on. Common practice, no source.
const BY_MEASURE: [(&str, &str, &str, Least); 2] = [
    // Black pepper is never counted, nor weighed by the hundred grams.
    ("pepper", "black pepper", "bell pepper", Least { grams: Some(50.0), millilitres: 60.0, counts: true }),
    // American tomato purée is measured by the cup; the concentrate by the spoon.
    ("tomato puree", "tomato purée", "passata", Least { grams: None, millilitres: 120.0, counts: false }),
];

struct Least {
    /// `None`: a weight says nothing.
    grams: Option<f64>,
    millilitres: f64,
    counts: bool,
}

impl Least {
    fn holds(&self, amount: &Amount) -> bool {
        match (amount.most(Spoons::Us), amount.unit) {
            (Quantity::Mass(_), _) => self.grams.is_some_and(|least| amount.most(Spoons::Us).base() >= least),
            (Quantity::Volume(_), _) => amount.most(Spoons::Us).base() >= self.millilitres,
            (_, Unit::Word(Word::Pinch | Word::Dash | Word::Twist | Word::Drop)) => false,
            _ => self.counts,
        }
    }
}

impl Reader<'_> {
    /// "2 peppers" is the vegetable.
    pub(super) fn by_measure(&self, mut found: Found, measure: &Measure, doubts: &mut Vec<String>) -> Found {
        let Some(amount) = &measure.amount else { return found };
        let name = self.w.key(found.name.clone());
        let Some((_, _, other, _)) =
            BY_MEASURE.iter().find(|(named, is, _, least)| *named == name && *is == found.food && least.holds(amount))
        else {
            return found;
        };
        if let Some(id) = self.foods.find_known(&key_of(other)) {
            if *other != "bell pepper" {
                doubts.push(format!("{amount} of \"{}\" is taken as {}", self.w.text(found.name.clone()), self.foods[id].name));
            }
            found.food.clone_from(&self.foods[id].name);
            found.known = Some(id);
        }
        found
    }

    /// A pulse that is drained, canned, or would do from a tin is the tinned food, as tins of that size or by the drained share: never the
    /// dried one by weight.
    pub(super) fn tinned_pulse(&self, mut found: Found, measure: &mut Measure, says_tinned: bool, tins: Option<(Ends, Quantity)>) -> Found {
        let Some(id) = found.known.filter(|_| says_tinned || found.tinned) else { return found };
        if self.foods[id].kind != Some(Kind::Pulse) || found.dried {
            return found;
        }
        let Some(tinned) = self.tinned(id) else { return found };
        let stated_already = found.state == Some(State::Drained) || is_tin(measure.amount.as_ref().map(|amount| amount.unit));
        found.food.clone_from(&self.foods[tinned].name);
        found.known = Some(tinned);
        let Some(amount) = measure.amount.clone().filter(|_| !stated_already && measure.size.is_none()) else { return found };
        match amount.most(Spoons::Us) {
            Quantity::Mass(_) => {
                if let Some((counted, size)) = tins.as_ref().map(in_tins) {
                    measure.amount = Some(counted);
                    measure.size = Some(size);
                } else if says_tinned && measure.plus.is_empty() {
                    // "15 oz black beans, drained" are a tin of that size.
                    measure.size = Some(size_of(&amount, self.spoons));
                    measure.amount = Some(Amount::new(1.0, Unit::Word(Word::Tin)));
                }
            }
            // A cup of what was drained, where that has a weight of its own; else a cup of all that is in the tin.
            Quantity::Volume(_) if self.has_drained_cup(tinned) => found.state = Some(State::Drained),
            _ => {}
        }
        found
    }

    fn has_drained_cup(&self, id: FoodId) -> bool {
        let cup = self.foods[id].cup.as_ref().map(|cup| &cup.value);
        matches!(cup, Some(Measured::Table(forms)) if forms.contains_key("drained"))
    }

    /// The tinned kind of a food.
    fn tinned(&self, id: FoodId) -> Option<FoodId> {
        let name = key_of(&self.foods[id].name);
        if name.starts_with("tinned ") {
            return Some(id);
        }
        self.kind_of("tinned", &name)
    }
}
