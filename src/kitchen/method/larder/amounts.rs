//! How much there is of each ingredient, and how much of it no step has taken yet.

use super::{Larder, Named, Part, Short};
use crate::foods::{Kind, as_purchased};
use crate::measure::{Amount, Dimension, Number, Unit};

/// A part by other units of at least so much of the line is all of it: spoons and cups are not so exact.
const AS_GOOD_AS_ALL: f64 = 0.85;

impl Larder<'_> {
    /// Grams as purchased; where no weight is known, 100 g: something has to be cut.
    pub fn grams(&self, index: usize) -> f64 {
        self.measured(index, &Dimension::Mass).unwrap_or(if self.named[index].item.is_some() { 100.0 } else { 0.0 })
    }

    pub fn litres(&self, index: usize) -> f64 {
        let liquid = matches!(self.named[index].kind, Some(Kind::Water | Kind::Stock | Kind::Drink | Kind::Dairy))
            || self.named[index].head == "water";
        if liquid { self.measured(index, &Dimension::Volume).unwrap_or(0.0) / 1000.0 } else { 0.0 }
    }

    /// Whole ones: cloves of garlic are pieces.
    pub fn pieces(&self, index: usize) -> f64 {
        let Some(item) = &self.named[index].item else { return 1.0 };
        if let Unit::Word(word) = item.amount.unit
            && ["clove", "slice", "piece", "fillet"].contains(&word.singular())
        {
            return item.amount.high.to_f64();
        }
        if let Some(count) = self.named[index].count {
            return count;
        }
        let counted = self.measured(index, &Dimension::Count).unwrap_or_else(|| self.grams(index) / 100.0);
        counted.max(0.5)
    }

    pub fn bunches(&self, index: usize) -> f64 {
        match self.named[index].item.as_ref().map(|item| (item.amount.high.to_f64(), item.amount.unit)) {
            Some((number, Unit::Word(word))) if word.singular() == "bunch" => number,
            _ => self.grams(index) / 60.0,
        }
    }

    pub(super) fn measured(&self, index: usize, to: &Dimension) -> Option<f64> {
        let Named { food: Some(food), item: Some(item), .. } = &self.named[index] else { return None };
        as_purchased(&self.foods[*food], item, to, self.spoons).ok().map(|quantity| quantity.base())
    }

    /// The share of an ingredient that is still to be used.
    pub fn left(&self, index: usize) -> &Number {
        &self.left[index]
    }

    /// Has a part of it been used, and a part not?
    pub fn is_divided(&self, index: usize) -> bool {
        self.left[index].is_positive() && self.left[index] < Number::ONE
    }

    /// Takes a part of it and says how much: `None` all of the line, else that share of it. Nothing where nothing is left.
    pub fn take(&mut self, index: usize, part: Option<&Part>) -> Option<Option<Amount>> {
        let left = self.left[index].clone();
        if !left.is_positive() {
            return None;
        }
        if let Some(other) = self.other[index].take() {
            self.left[index] = Number::ZERO;
            return Some(Some(other));
        }
        if let Some((taken, other)) = part.and_then(|part| self.one_of_two(index, part)) {
            self.left[index] = Number::HALF;
            self.other[index] = Some(other);
            self.divided.push(index);
            return Some(Some(taken));
        }
        let share = match part {
            Some(Part::Share(share)) => share.clone().min(left.clone()),
            Some(Part::Amount(number, unit)) => self.share_of(index, number, *unit).unwrap_or(left.clone()).min(left.clone()),
            Some(Part::AllBut(number, unit)) => match self.share_of(index, number, *unit) {
                Some(kept) if kept < left => left.clone() - &kept,
                _ => left.clone(),
            },
            _ => left.clone(),
        };
        // A line of several amounts is not divided but into them, one of none not at all.
        match self.named[index].item.as_ref().filter(|item| item.plus.is_empty()) {
            Some(item) if share < Number::ONE => {
                self.left[index] = left - &share;
                self.divided.retain(|other| *other != index);
                self.divided.push(index);
                Some(Some(item.amount.scaled(&share)))
            }
            _ => {
                self.left[index] = Number::ZERO;
                Some(None)
            }
        }
    }

    /// Of a line of two amounts, untouched so far, the first; the other is taken next.
    pub fn take_the_first(&mut self, index: usize) -> Option<Amount> {
        let item = self.named[index].item.as_ref().filter(|_| self.left[index] == Number::ONE)?;
        let [plus] = item.plus.as_slice() else { return None };
        (self.left[index], self.other[index]) = (Number::HALF, Some(plus.clone()));
        self.divided.push(index);
        Some(item.amount.clone())
    }

    /// "400 g of the flour" where the line is "400 g flour, plus 2 tbsp": that, and the other amount.
    fn one_of_two(&self, index: usize, part: &Part) -> Option<(Amount, Amount)> {
        let (Part::Amount(number, unit), Some(item)) = (part, &self.named[index].item) else { return None };
        let [plus] = item.plus.as_slice() else { return None };
        let said = Amount { low: number.clone(), high: number.clone(), unit: *unit }.most(self.spoons);
        let is_it = |amount: &Amount| said.ratio(&amount.most(self.spoons)) == Some(Number::ONE);
        match () {
            () if is_it(&item.amount) => Some((item.amount.clone(), plus.clone())),
            () if is_it(plus) => Some((plus.clone(), item.amount.clone())),
            () => None,
        }
    }

    pub(super) fn share_of(&self, index: usize, number: &Number, unit: Unit) -> Option<Number> {
        self.ratio(index, number, unit).filter(|share| *share < Number::ONE)
    }

    fn ratio(&self, index: usize, number: &Number, unit: Unit) -> Option<Number> {
        let item = self.named[index].item.as_ref()?;
        let part = Amount { low: number.clone(), high: number.clone(), unit };
        let said = part.most(self.spoons).ratio(&item.amount.most(self.spoons));
        said.or_else(|| self.ratio_by_weight(index, part))
    }

    /// "2 tbsp butter" of 100 g; where it is as good as all of the line, it is all of it.
    fn ratio_by_weight(&self, index: usize, part: Amount) -> Option<Number> {
        let Named { food: Some(food), item: Some(item), .. } = &self.named[index] else { return None };
        let part = crate::foods::Item { amount: part, plus: Vec::new(), ..item.clone() };
        let grams = as_purchased(&self.foods[*food], &part, &Dimension::Mass, self.spoons).ok()?.base();
        let share = grams / self.measured(index, &Dimension::Mass).filter(|all| *all > 0.0)?;
        Some(if share < AS_GOOD_AS_ALL { Number::over((share * 100.0).round() as i64, 100) } else { Number::ONE })
    }

    /// Does the method take more than is left of what it divides, or an amount that nothing says how much it is?
    pub fn falls_short(&self, index: usize, part: &Part) -> Option<Short> {
        let Part::Amount(number, unit) = part else { return None };
        let item = self.named[index].item.as_ref()?;
        if !self.left[index].is_positive() {
            return Some(Short::Nothing);
        }
        if let Some(other) = &self.other[index] {
            let said = Amount { low: number.clone(), high: number.clone(), unit: *unit };
            let is_it = said.most(self.spoons).ratio(&other.most(self.spoons)) == Some(Number::ONE);
            return (!is_it).then(|| Short::Left(other.clone()));
        }
        if !item.plus.is_empty() {
            return (*unit != Unit::Piece && self.one_of_two(index, part).is_none()).then_some(Short::Unknown);
        }
        match self.ratio(index, number, *unit) {
            Some(share) => {
                let left = &self.left[index];
                let divided = self.is_divided(index);
                (divided && share > *left).then(|| Short::Left(item.amount.scaled(left)))
            }
            None => (self.left[index].is_positive() && *unit != Unit::Piece).then_some(Short::Unknown),
        }
    }

    /// How many there are, where they are counted.
    pub fn counted_pieces(&self, index: usize) -> Option<f64> {
        let amount = &self.named[index].item.as_ref()?.amount;
        let piece = match amount.unit {
            Unit::Piece => true,
            Unit::Word(word) => ["slice", "piece", "fillet"].contains(&word.singular()),
            _ => false,
        };
        piece.then(|| amount.high.to_f64())
    }

    /// Birds and joints that are roasted whole, by their number: heavy ones, however the line tells their amount.
    pub fn whole_pieces(&self, index: usize) -> Option<f64> {
        const BIRDS: [&str; 5] = ["chicken", "turkey", "duck", "goose", "capon"];
        const JOINTS: [&str; 14] = [
            "whole",
            "shoulder",
            "leg",
            "joint",
            "brisket",
            "topside",
            "silverside",
            "gammon",
            "ham",
            "crown",
            "saddle",
            "rack",
            "belly",
            "loin",
        ];
        const HEAVY: f64 = 600.0;
        let named = &self.named[index];
        named.kind.filter(|kind| kind.is_raw_flesh())?;
        let grams = self.measured(index, &Dimension::Mass)?;
        if let Some(count) = self.counted_pieces(index) {
            return (grams / count >= HEAVY).then_some(count);
        }
        let poultry = named.kind == Some(Kind::RawPoultry);
        let joint = |word: &String| if poultry { word == "whole" || word == "crown" } else { JOINTS.contains(&word.as_str()) };
        let whole = BIRDS.contains(&named.key.as_str()) || named.words.iter().any(joint);
        const PARTED: [&str; 13] =
            ["dice", "cube", "slice", "piece", "chunk", "strip", "thigh", "wing", "drumstick", "breast", "chop", "steak", "mince"];
        let is_parted = PARTED.iter().any(|word| named.typed.contains(word));
        (whole && !is_parted && grams >= HEAVY).then_some(1.0)
    }
}
