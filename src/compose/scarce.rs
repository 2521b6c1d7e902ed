//! What meals cost at least where patterns and recipes may come only so often.
//!
//! Each meal by itself would take its cheapest way. Where more of them want a pattern or a recipe than may have it, a price is put on it:
//! whatever the prices, the cheapest ways with them, less what the allowed times are worth, cost no more than any allowed week
//! (Lagrangian relaxation; Held and Karp 1971). The prices are sought by steps along what is wanted too often, ever smaller ones.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::table::Table;
use super::ways::recipes;
use crate::kitchen::{PatternId, RecipeId};

/// So often are the prices bettered.
const STEPS: usize = 120;

/// Of more ways than these altogether no prices are sought.
const MOST_WAYS: usize = 50_000;

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Scarce {
    Pattern(PatternId),
    Recipe(RecipeId),
}

/// What is scarce, how often it is left, and by gap and option, what of it the option takes.
struct Wanted {
    left: Vec<f64>,
    takes: Vec<Vec<Vec<usize>>>,
}

/// The least that all gaps add together, in minor units. `adds` is what each option of a gap adds by itself, `floors` what no filling of a
/// gap falls below, where ways of it are not held.
pub fn least(table: &Table, options: &[Vec<Option<u32>>], adds: &[Arc<Vec<f64>>], floors: &[Option<f64>]) -> f64 {
    let wanted = wanted(table, options);
    let mut prices = vec![0.0; wanted.left.len()];
    let (mut best, mut often) = cheapest(&wanted, &prices, adds, floors);
    if adds.iter().map(|adds| adds.len()).sum::<usize>() > MOST_WAYS {
        return best;
    }
    let first = best / adds.len().max(1) as f64;
    for step in 0..STEPS {
        let over: Vec<f64> = often.iter().zip(&wanted.left).map(|(often, left)| often - left).collect();
        let moves = |price: &f64, over: &f64| *over > 0.0 || *price > 0.0;
        let length = prices.iter().zip(&over).filter(|(price, over)| moves(price, over)).map(|(_, over)| over * over).sum::<f64>().sqrt();
        if length < 1e-9 {
            break;
        }
        let stride = first / (1.0 + step as f64 / 8.0) / length;
        prices.iter_mut().zip(&over).for_each(|(price, over)| *price = (*price + stride * over).max(0.0));
        let (least, now) = cheapest(&wanted, &prices, adds, floors);
        best = best.max(least);
        often = now;
    }
    best
}

/// At these prices, what the gaps add at least, and how often each thing is then taken.
fn cheapest(wanted: &Wanted, prices: &[f64], adds: &[Arc<Vec<f64>>], floors: &[Option<f64>]) -> (f64, Vec<f64>) {
    let mut sum = -prices.iter().zip(&wanted.left).map(|(price, left)| price * left).sum::<f64>();
    let mut often = vec![0.0; prices.len()];
    for ((adds, takes), floor) in adds.iter().zip(&wanted.takes).zip(floors) {
        let priced = adds.iter().zip(takes).map(|(add, takes)| (add + takes.iter().map(|one| prices[*one]).sum::<f64>(), takes));
        let Some((least, takes)) = priced.min_by(|one, other| one.0.total_cmp(&other.0)) else { continue };
        sum += floor.map_or(least, |floor| floor.min(least));
        takes.iter().for_each(|one| often[*one] += 1.0);
    }
    (sum, often)
}

fn wanted(table: &Table, options: &[Vec<Option<u32>>]) -> Wanted {
    let patterns = &table.kitchen().together.patterns;
    let mut left: Vec<(Scarce, f64)> = Vec::new();
    for (index, most) in patterns.iter().enumerate().filter_map(|(index, pattern)| Some((index, pattern.at_most?))) {
        let written = table.written.iter().filter(|(_, eaten)| eaten.pattern == Some(PatternId(index))).count();
        left.push((Scarce::Pattern(PatternId(index)), f64::from(most) - written as f64));
    }
    // By place it hangs on where a recipe stands.
    if table.wishes.one_at_most.by_place.is_empty() {
        for recipe in (0..table.kitchen().recipes.len()).map(RecipeId) {
            let written = table.written.iter().filter(|(_, eaten)| recipes(&eaten.wares).any(|other| other == recipe)).count();
            left.push((Scarce::Recipe(recipe), f64::from(table.wishes.times("")) - written as f64));
        }
    }
    let places: BTreeMap<Scarce, usize> = left.iter().enumerate().map(|(place, (what, _))| (*what, place)).collect();
    let takes = |way: &Option<u32>| {
        let Some(way) = way.map(|way| &table.ways.all[way as usize]) else { return Vec::new() };
        let pattern = table.ways.forms[way.form].pattern.map(Scarce::Pattern);
        let all = pattern.into_iter().chain(recipes(&way.wares).map(Scarce::Recipe));
        all.filter_map(|what| places.get(&what).copied()).collect()
    };
    let takes = options.iter().map(|options| options.iter().map(takes).collect()).collect();
    Wanted { left: left.into_iter().map(|(_, left)| left).collect(), takes }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_may_come_only_so_often_makes_the_others_dearer() {
        // Three meals, each 1 of the first way or 3 of the second; the first may come once: 1 + 3 + 3.
        let takes = vec![vec![vec![0], vec![]]; 3];
        let wanted = Wanted { left: vec![1.0], takes };
        let adds = [(); 3].map(|()| Arc::new(vec![1.0, 3.0]));
        assert_eq!(cheapest(&wanted, &[0.0], &adds, &[None; 3]).0, 3.0);
        assert_eq!(cheapest(&wanted, &[2.0], &adds, &[None; 3]).0, 7.0);
        // A meal of which ways are not held stays at what no filling falls below.
        assert_eq!(cheapest(&wanted, &[2.0], &adds, &[None, None, Some(0.5)]).0, 4.5);
    }
}
