//! A making while its recipe is being planned: what it serves so far, what it leaves over. It must not know which session suits a meal.

use jiff::civil::Date;

use crate::foods::Foods;
use crate::kitchen::Recipe;
use crate::measure::{Number, Quantity, is_nothing_of};
use crate::plan::making::{Apart, Kept, MadeAt, Use};
use crate::plan::uses::Pending;
use crate::plan::yields::Batches;
use crate::shelf::after_days;

/// A making while its recipe is being planned.
pub(super) struct Open {
    pub at: MadeAt,
    pub on: Date,
    pub needed: Number,
    pub uses: Vec<Use>,
    pub apart: Vec<Apart>,
}

impl Open {
    pub fn spare(&self, recipe: &Recipe, foods: &Foods) -> Number {
        let spare = Batches::to_yield(recipe, foods, &self.needed).make(recipe).exact() - &self.needed;
        if is_nothing_of(&spare, &self.needed) { Number::ZERO } else { spare }
    }

    pub fn give(&mut self, use_: &mut Pending, amount: Number, kept: Kept, unit: &Quantity) {
        if amount == use_.left {
            self.set_apart(std::mem::take(&mut use_.apart));
        }
        use_.serve(&amount);
        self.needed += &amount;
        let amount = Quantity::of(&unit.dimension(), amount);
        let own = if use_.left.is_zero() { std::mem::take(&mut use_.own) } else { Vec::new() };
        self.uses.push(Use { by: use_.by, on: use_.at.date(), amount, kept, own, label: use_.label.clone() });
    }

    /// Gives what is left over to the uses, in proportion.
    pub fn share_out(&mut self, left: &Number) {
        let share = left / &self.needed;
        for use_ in &mut self.uses {
            let amount = use_.amount.exact();
            use_.amount = Quantity::of(&use_.amount.dimension(), amount + &(amount * &share));
            use_.own.iter_mut().for_each(|own| own.amount = &own.amount + &(&own.amount * &share));
        }
    }

    /// One entry for each eater and what is left away.
    fn set_apart(&mut self, apart: Vec<Apart>) {
        for one in apart {
            match self.apart.iter_mut().find(|known| known.who == one.who && known.without == one.without) {
                Some(known) => known.amount += &one.amount,
                None => self.apart.push(one),
            }
        }
    }
}

/// The making of that session or meal; a new one where there is none yet.
pub(super) fn opened(open: &mut Vec<Open>, at: MadeAt, on: Date) -> &mut Open {
    let place = open.iter().position(|making| making.at == at).unwrap_or_else(|| {
        open.push(Open { at, on, needed: Number::ZERO, uses: Vec::new(), apart: Vec::new() });
        open.len() - 1
    });
    &mut open[place]
}

/// Spare serves from the day after it was made, up to its freezer days, oldest first.
pub(super) fn serve_from_frozen_spare(open: &mut [Open], use_: &mut Pending, recipe: &Recipe, foods: &Foods) {
    let Some(freezer) = recipe.freezer else { return };
    let day = use_.at.date();
    let mut oldest: Vec<&mut Open> = open.iter_mut().filter(|making| making.on < day && day <= after_days(making.on, freezer)).collect();
    oldest.sort_by_key(|making| (making.on, making.at));
    for making in oldest {
        let amount = making.spare(recipe, foods).min(use_.left_as_it_is());
        if amount > 0 {
            making.give(use_, amount, Kept::Freezer, &recipe.makes);
        }
    }
}
