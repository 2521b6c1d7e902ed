//! What lies cooked on the shelf serves the uses of a recipe first. It must not know what is made for the rest.

use std::collections::BTreeSet;

use crate::kitchen::{Kitchen, Lot, Recipe, RecipeId, Ware, Week};
use crate::measure::{Number, Quantity};
use crate::plan::uses::Pending;
use crate::plan::yields::{half_a_portion, in_makes};
use crate::shelf::{First, Shelf, Taken};

/// What each use gets of the lots, the earliest use first; that is taken off the shelf and off what is left to serve.
pub(super) fn drawn<'u>(
    kitchen: &Kitchen,
    week: &Week,
    shelf: &mut Shelf,
    id: RecipeId,
    uses: &'u mut [Pending],
) -> Vec<(&'u Pending, Taken)> {
    let recipe = &kitchen.recipes[id];
    let rate = |lot: &Lot| in_makes(recipe, &Quantity::of(&lot.amount.dimension(), 1));
    let mut draws: Vec<(&Pending, Taken)> = Vec::new();
    for use_ in uses {
        let own = draw_own(shelf, id, use_, rate);
        // Nothing can be taken out of what is cooked already.
        let wanted = use_.left_as_it_is();
        let taken = shelf.draw(Ware::Recipe(id), use_.at.date(), First::Opened, &wanted, rate);
        taken.iter().for_each(|taken| use_.serve(&taken.amount));
        let use_ = &*use_;
        draws.extend(own.into_iter().chain(taken).map(|taken| (use_, taken)));
    }
    share_out_rests(kitchen, week, shelf, recipe, &mut draws);
    draws
}

/// What a session that is over left below half a portion goes to its uses, as it would have before it: in proportion.
fn share_out_rests(kitchen: &Kitchen, week: &Week, shelf: &mut Shelf, recipe: &Recipe, draws: &mut [(&Pending, Taken)]) {
    let Some(half) = half_a_portion(recipe) else { return };
    let of_this_week = |lot: usize| kitchen.lots[lot].made.is_some_and(|made| week.left_out.cooked.contains(&made));
    let lots: BTreeSet<usize> = draws.iter().map(|(_, taken)| taken.lot).filter(|&lot| of_this_week(lot)).collect();
    for lot in lots {
        let left = shelf.left(lot).clone();
        let Some(rest) = in_makes(recipe, &left).filter(|rest| *rest < half) else { continue };
        let of_lot = || draws.iter().map(|(_, taken)| taken).filter(|taken| taken.lot == lot);
        let share = rest / of_lot().map(|taken| &taken.amount).sum::<Number>();
        let Some(last) = draws.iter().map(|(use_, _)| use_.at.date()).max() else { continue };
        shelf.draw_from(lot, left.exact(), last);
        for (_, taken) in draws.iter_mut().filter(|(_, taken)| taken.lot == lot) {
            taken.amount = &taken.amount + &(&taken.amount * &share);
            taken.own = &taken.own + &(&taken.own * &share);
        }
    }
}

/// What was set aside for an eater serves that eater.
fn draw_own(shelf: &mut Shelf, id: RecipeId, use_: &mut Pending, rate: impl Fn(&Lot) -> Option<Number> + Copy) -> Vec<Taken> {
    let mut all = Vec::new();
    for own in use_.own.clone() {
        let taken = shelf.draw_own(Ware::Recipe(id), use_.at.date(), (&own.who, &own.without), &own.amount, rate);
        let served: Number = taken.iter().map(|taken| &taken.amount).sum();
        if served.is_positive() {
            use_.serve(&served);
            use_.lessen_own(&own, &served);
        }
        all.extend(taken);
    }
    all
}
