//! The dimension in which the needs of each food are stated.

use crate::foods::{FoodId, Item, as_purchased, convert, own_dimension};
use crate::kitchen::{Kitchen, PackKind};
use crate::measure::{Dimension, Quantity};

/// What the packs of all shops say of a food's dimension.
#[derive(Debug, Clone)]
pub struct Stating {
    /// By food: pieces or millilitres where all its packs are, grams where it has other packs, `None` where it has none.
    by_packs: Vec<Option<Dimension>>,
}

impl Stating {
    pub fn new(kitchen: &Kitchen) -> Self {
        let mut by_packs: Vec<Option<Dimension>> = vec![None; kitchen.foods.len()];
        for pack in &kitchen.packs {
            let size = match &pack.kind {
                PackKind::Sized { size, .. } => size,
                PackKind::Loose { step, .. } => step,
            };
            let own = match size.dimension() {
                own @ (Dimension::Count | Dimension::Volume) => own,
                _ => Dimension::Mass,
            };
            let known = &mut by_packs[pack.food.0 as usize];
            *known = Some(match known.take() {
                Some(other) if other != own => Dimension::Mass,
                _ => own,
            });
        }
        Stating { by_packs }
    }

    /// The dimension of the food's needs, given all lines and plain amounts (a par) that must be added up.
    ///
    /// Packs decide. Without packs it is grams where the facts allow; where they allow it for no line, and all are of one
    /// dimension, they are added up in that.
    pub fn of(&self, kitchen: &Kitchen, food: FoodId, items: &[&Item], pars: &[&Quantity]) -> Dimension {
        if let Some(dimension) = &self.by_packs[food.0 as usize] {
            return dimension.clone();
        }
        let facts = &kitchen.foods[food];
        let spoons = kitchen.rules.spoons;
        let weighed = items.iter().any(|item| as_purchased(facts, item, &Dimension::Mass, spoons).is_ok())
            || pars.iter().any(|par| convert(facts, par, &Dimension::Mass).is_ok());
        if weighed {
            return Dimension::Mass;
        }
        let own = items.iter().map(|item| own_dimension(facts, item, spoons).map(|own| own.dimension()));
        let mut own = own.chain(pars.iter().map(|par| Some(par.dimension())));
        match own.next().flatten() {
            Some(first) if own.all(|other| other.as_ref() == Some(&first)) => first,
            _ => Dimension::Mass,
        }
    }
}
