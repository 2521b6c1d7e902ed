//! How far a week is from being allowed: what it breaks, and by how much, as a share of what each wish says.

use super::minutes::minutes_allowed;
use super::table::Table;
use super::wish::{Broken, Wish};

/// A wish that is broken counts so much, however little it is broken; one that is missed by all that it says, twice as much.
const ONE: i64 = 1_000;

/// A wish counts no more than so often, by however much it is broken.
const MOST: f64 = 4.0;

/// How far all that a week breaks is from being kept: 0 where nothing is broken.
pub fn far(table: &Table, broken: &[Broken]) -> i64 {
    broken.iter().map(|one| far_from(table, one)).sum()
}

/// How far one wish is from being kept, in thousandths.
pub fn far_from(table: &Table, one: &Broken) -> i64 {
    let share = figure(table, &one.wish).map_or(0.0, |figure| (one.would_do - figure).abs() / figure.max(1.0));
    ONE + (share.min(MOST) * ONE as f64).round() as i64
}

/// What a wish says, in the figures of [`Broken`]; `None` where it has none.
fn figure(table: &Table, wish: &Wish) -> Option<f64> {
    let wishes = &table.wishes;
    let pattern = |id: &crate::kitchen::PatternId| &table.kitchen().together.patterns[*id];
    match wish {
        Wish::Spend => wishes.spend_at_most.map(|most| most.0 as f64),
        Wish::RecipesAtMost => Some(f64::from(wishes.recipes_at_most)),
        Wish::SameAgainAfter => Some(wishes.same_again_after as f64),
        Wish::NotAgain => wishes.not_again.map(|days| days as f64),
        Wish::OneAtMost(place) => Some(f64::from(wishes.times(place.as_deref().unwrap_or_default()))),
        Wish::AtMost(id) => pattern(id).at_most.map(f64::from),
        Wish::EachDay(nutrient) => table.wanted_nutrients().find(|(wanted, _)| wanted == nutrient).map(|(_, least)| least),
        Wish::FinishBy(start) => {
            let session = table.trials.sessions().iter().find(|session| session.start == *start);
            session.and_then(minutes_allowed).map(|most| most as f64)
        }
        Wish::Minutes(id) => Some(id.as_ref().and_then(|id| pattern(id).minutes).map_or(0.0, |most| most.0 as f64)),
        Wish::ReadyIn(meal) => table.trials.whole.meals[*meal].asked.ready_in.map(|most| most.0 as f64),
        _ => None,
    }
}
