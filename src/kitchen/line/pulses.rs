//! Foods that the words of a line name only together with their measure: tinned pulses, the pepper that is counted, the coriander of a
//! teaspoon.

use super::Reader;
use super::food::{Found, is_tin};
use super::measure::{Measure, size_of};
use super::parts::in_tins;
use crate::foods::{FoodId, Kind, Measured, State, key_of};
use crate::measure::{Amount, Ends, Quantity, Spoons, Unit, Word};

/// A name that means another food in another measure.
struct ByMeasure {
    /// As the line has it, and the food that it is otherwise.
    named: &'static str,
    is: &'static str,
    /// What it is in these measures.
    becomes: &'static str,
    /// Words beside it that keep it what it is.
    unless: &'static [&'static str],
    /// Is it what any cook would understand? Anything else is told.
    plain: bool,
    measures: fn(&Amount) -> bool,
}

/// Common practice, no source.
const BY_MEASURE: [ByMeasure; 17] = [
    // Black pepper is never counted, nor weighed by the hundred grams.
    ByMeasure { named: "pepper", is: "black pepper", becomes: "bell pepper", unless: &[], plain: true, measures: is_a_vegetable },
    // American tomato purée is measured by the cup; the concentrate by the spoon.
    ByMeasure { named: "tomato puree", is: "tomato purée", becomes: "passata", unless: &[], plain: false, measures: is_poured },
    // The leaf is taken by the bunch, the handful and the tablespoon, the seed by the teaspoon.
    ByMeasure {
        named: "coriander",
        is: "coriander",
        becomes: "ground coriander",
        unless: &[
            "fresh", "leaf", "leave", "leaves", "chopped", "torn", "garnish", "stalk", "stalks", "stem", "stems", "root", "roots", "sprig",
            "sprigs",
        ],
        plain: false,
        measures: is_a_teaspoon,
    },
    // A head that is counted is the small pale one.
    ByMeasure { named: "endive", is: "endive", becomes: "chicory", unless: &["curly"], plain: false, measures: is_counted },
    // A piece or an inch of it is the bark.
    ByMeasure {
        named: "cinnamon",
        is: "cinnamon",
        becomes: "cinnamon stick",
        unless: &["ground", "powder", "powdered"],
        plain: true,
        measures: is_a_piece,
    },
    // A fish that is counted is a whole one, unless the line speaks of fillets.
    whole_fish("trout", "trout", "whole trout"),
    whole_fish("rainbow trout", "trout", "whole trout"),
    whole_fish("mackerel", "mackerel", "whole mackerel"),
    whole_fish("sea bass", "sea bass", "whole sea bass"),
    whole_fish("bass", "sea bass", "whole sea bass"),
    whole_fish("sea bream", "sea bream", "whole sea bream"),
    whole_fish("bream", "sea bream", "whole sea bream"),
    whole_fish("herring", "herring", "whole herring"),
    whole_fish("plaice", "plaice", "whole plaice"),
    whole_fish("sole", "sole", "whole sole"),
    whole_fish("mullet", "mullet", "whole mullet"),
    whole_fish("snapper", "snapper", "whole snapper"),
];

/// What one weighs at least that is sold whole, where the line says a weight. Common practice, no source.
const WHOLE_FISH_GRAMS: f64 = 200.0;

const fn whole_fish(named: &'static str, is: &'static str, becomes: &'static str) -> ByMeasure {
    const CUT: &[&str] = &[
        "fillet", "fillets", "portion", "portions", "piece", "pieces", "steak", "steaks", "loin", "loins", "skinless", "boneless", "slice",
        "slices", "side", "sides",
    ];
    ByMeasure { named, is, becomes, unless: CUT, plain: true, measures: is_counted }
}

fn is_a_vegetable(amount: &Amount) -> bool {
    match (amount.most(Spoons::Us), amount.unit) {
        (Quantity::Mass(_), _) => amount.most(Spoons::Us).base() >= 50.0,
        (Quantity::Volume(_), _) => amount.most(Spoons::Us).base() >= 60.0,
        (_, Unit::Word(Word::Pinch | Word::Dash | Word::Twist | Word::Drop | Word::Sprinkle)) => false,
        _ => true,
    }
}

fn is_poured(amount: &Amount) -> bool {
    matches!(amount.most(Spoons::Us), Quantity::Volume(_)) && amount.most(Spoons::Us).base() >= 120.0
}

fn is_a_teaspoon(amount: &Amount) -> bool {
    matches!(amount.unit, Unit::Teaspoon | Unit::Word(Word::Pinch | Word::Dash))
}

fn is_counted(amount: &Amount) -> bool {
    amount.unit == Unit::Piece
}

fn is_a_piece(amount: &Amount) -> bool {
    matches!(amount.unit, Unit::Piece | Unit::Word(Word::Stick | Word::Knob | Word::Chunk | Word::Strip | Word::Bar))
}

impl Reader<'_> {
    /// "2 peppers" is the vegetable.
    pub(super) fn by_measure(&self, mut found: Found, measure: &Measure, doubts: &mut Vec<String>) -> Found {
        let Some(amount) = &measure.amount else { return found };
        let name = self.w.key(found.name.clone());
        let means = |row: &&ByMeasure| {
            let says = |word: &str| (0..self.end).any(|at| self.w.is(at, word));
            let fits =
                row.becomes.strip_prefix("whole ").is_none() || measure.size.as_ref().is_none_or(|one| one.base() >= WHOLE_FISH_GRAMS);
            row.named == name && row.is == found.food && fits && (row.measures)(amount) && !row.unless.iter().any(|word| says(word))
        };
        let Some(row) = BY_MEASURE.iter().find(means) else { return found };
        if let Some(id) = self.foods.find_known(&key_of(row.becomes)) {
            if !row.plain {
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
        let is_own = self.own_in_tins(self.w.key(found.name.clone())).is_some();
        if self.foods[id].kind != Some(Kind::Pulse) && !found.only_tinned || found.dried || is_own {
            return found;
        }
        let Some(tinned) = self.tinned(id) else { return found };
        let stated_already = found.state == Some(State::Drained) || is_tin(measure.amount.as_ref().map(|amount| amount.unit));
        found.food.clone_from(&self.foods[tinned].name);
        found.known = Some(tinned);
        // "250 g cooked chickpeas, or 1 tin": what is cooked is what is left when a tin is drained, in a cup only where that is weighed.
        let was_cooked = found.state == Some(State::Cooked);
        if was_cooked {
            let poured = measure.amount.as_ref().is_some_and(|amount| matches!(amount.most(Spoons::Us), Quantity::Volume(_)));
            found.state = Some(State::Drained).filter(|_| !poured || self.has_drained_cup(tinned));
        }
        let is_open = !stated_already && !was_cooked && measure.size.is_none();
        let Some(amount) = measure.amount.clone().filter(|_| is_open) else { return found };
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
