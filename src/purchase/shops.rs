//! Which shops to visit on one trip, and which food to buy in which of them.
//!
//! Knows prices and fares only, no food, no pack.
//!
//! **Method.** Depth first over the shops in file order, each first visited, then not. A branch is left where its fares and every
//! food at the lowest price of a shop visited or still open come to more than the best in hand. With `n` shops there are at most
//! 2ⁿ branches, so up to twelve shops are always searched to the end; with more the search ends after [`MOST_BRANCHES`] branches and
//! says by how much at most the best in hand is dearer than the cheapest: no branch left open costs less than its fares and lowest prices.

use std::collections::BTreeSet;

/// 2²⁰: all that twenty shops can have.
const MOST_BRANCHES: usize = 1 << 20;

/// What one food would cost in one shop.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Choice {
    /// Index among the trip's shops, in file order.
    pub shop: usize,
    pub price: i64,
    pub left: i64,
    pub packs: i64,
}

/// The shop of every food: an index into its choices.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Visits {
    pub chosen: Vec<usize>,
    /// Minor units by which a cheaper choice may exist; 0 where the search was finished or the bound proves the choice.
    pub gap: i64,
}

/// The least sum of prices and fares, then the fewest shops, then the earliest in the file. Every food has at least one choice.
pub(super) fn visit(fares: &[i64], foods: &[Vec<Choice>]) -> Visits {
    visit_within(fares, foods, MOST_BRANCHES)
}

pub(super) fn visit_within(fares: &[i64], foods: &[Vec<Choice>], most_branches: usize) -> Visits {
    let mut search = Search { most_branches, ..Search::new(fares, foods) };
    let none = vec![i64::MAX; foods.len()];
    search.branch((0, 0), 0, &none);
    let best = search.best.unwrap_or(search.ceiling);
    let chosen = foods.iter().map(|choices| in_shops(choices, &best.visited)).collect();
    let gap = best.cost.saturating_sub(search.least_open).max(0);
    Visits { chosen, gap }
}

/// Of the visited shops the cheapest for one food; at one price less left, then fewer packs, then file order.
fn in_shops(choices: &[Choice], visited: &[bool]) -> usize {
    let open = |index: &usize| visited[choices[*index].shop];
    let order = |index: &usize| (choices[*index].price, choices[*index].left, choices[*index].packs, choices[*index].shop);
    (0..choices.len()).filter(open).min_by_key(order).unwrap_or(0)
}

struct Best {
    cost: i64,
    shops: usize,
    visited: Vec<bool>,
}

struct Search<'a> {
    fares: &'a [i64],
    /// By shop, then food.
    price: Vec<Vec<i64>>,
    /// By shop, then food: the lowest price in this shop or a later one.
    later: Vec<Vec<i64>>,
    visited: Vec<bool>,
    /// A round that can be had, found by dropping shops one by one. It is taken where the search ends before it finds one as good.
    ceiling: Best,
    best: Option<Best>,
    branches: usize,
    most_branches: usize,
    /// The least that a branch left open could cost.
    least_open: i64,
}

impl Search<'_> {
    fn new<'a>(fares: &'a [i64], foods: &[Vec<Choice>]) -> Search<'a> {
        let mut price = vec![vec![i64::MAX; foods.len()]; fares.len()];
        for (food, choices) in foods.iter().enumerate() {
            for choice in choices {
                price[choice.shop][food] = choice.price;
            }
        }
        let mut later = vec![vec![i64::MAX; foods.len()]; fares.len() + 1];
        for shop in (0..fares.len()).rev() {
            later[shop] = lower(&price[shop], &later[shop + 1]);
        }
        let ceiling = drop_one_by_one(fares, &price);
        Search {
            fares,
            price,
            later,
            visited: vec![false; fares.len()],
            ceiling,
            best: None,
            branches: 0,
            most_branches: MOST_BRANCHES,
            least_open: i64::MAX,
        }
    }

    /// From `shop` on, with so many visited before it.
    fn branch(&mut self, (shop, shops): (usize, usize), spent: i64, lowest: &[i64]) {
        self.branches += 1;
        let goods = lowest
            .iter()
            .zip(&self.later[shop])
            .map(|(here, later)| *here.min(later))
            .try_fold(0i64, |sum, price| if price == i64::MAX { None } else { sum.checked_add(price) });
        let Some(goods) = goods else { return };
        let cost = goods.saturating_add(spent);
        if (cost, shops) > (self.ceiling.cost, self.ceiling.shops)
            || self.best.as_ref().is_some_and(|best| (cost, shops) >= (best.cost, best.shops))
        {
            return;
        }
        if self.branches > self.most_branches {
            self.least_open = self.least_open.min(cost);
            return;
        }
        if shop == self.fares.len() {
            self.best = Some(Best { cost, shops, visited: self.visited.clone() });
            return;
        }
        self.visited[shop] = true;
        let with = lower(lowest, &self.price[shop]);
        self.branch((shop + 1, shops + 1), spent.saturating_add(self.fares[shop]), &with);
        self.visited[shop] = false;
        self.branch((shop + 1, shops), spent, lowest);
    }
}

fn lower(a: &[i64], b: &[i64]) -> Vec<i64> {
    a.iter().zip(b).map(|(a, b)| *a.min(b)).collect()
}

/// Starts with all shops and drops whichever saves the most, as long as that saves or costs nothing.
fn drop_one_by_one(fares: &[i64], price: &[Vec<i64>]) -> Best {
    let foods = price.first().map_or(0, Vec::len);
    let mut dearer: Vec<Dearer> = (0..foods).map(|food| Dearer::of(price, food)).collect();
    let mut round = Round::of(fares, &dearer);
    let mut cost = dearer.iter().map(Dearer::price).chain(fares.iter().copied()).fold(0, i64::saturating_add);
    // What would not be had without its shop never counts as cheaper.
    while let Some((more, shop)) = round.cheapest_to_drop() {
        if cost == i64::MAX || more > 0 {
            break;
        }
        cost = i64::try_from(i128::from(cost) + more).unwrap_or(i64::MAX);
        round.drop(shop, &mut dearer);
    }
    let shops = round.visited.iter().filter(|visited| **visited).count();
    Best { cost, shops, visited: round.visited }
}

/// The shops of one food, cheapest first, as they are dropped: where it is bought, and where else it would be.
struct Dearer {
    /// Price and shop.
    by_price: Vec<(i64, usize)>,
    first: usize,
    second: usize,
}

impl Dearer {
    fn of(price: &[Vec<i64>], food: usize) -> Dearer {
        let sold = price.iter().enumerate().filter(|(_, foods)| foods[food] < i64::MAX);
        let mut by_price: Vec<(i64, usize)> = sold.map(|(shop, foods)| (foods[food], shop)).collect();
        by_price.sort_unstable();
        Dearer { by_price, first: 0, second: 1 }
    }

    fn price(&self) -> i64 {
        self.by_price.get(self.first).map_or(i64::MAX, |(price, _)| *price)
    }

    fn shop(&self) -> Option<usize> {
        self.by_price.get(self.first).map(|(_, shop)| *shop)
    }

    /// What it costs more without the shop where it is bought; `None` where it would not be had.
    fn more(&self) -> Option<i128> {
        let second = self.by_price.get(self.second)?.0;
        Some(i128::from(second) - i128::from(self.price()))
    }

    /// Passes over shops that are not visited any more.
    fn move_on(&mut self, visited: &[bool]) {
        let next = |from: usize| (from..self.by_price.len()).find(|at| visited[self.by_price[*at].1]).unwrap_or(self.by_price.len());
        let first = next(self.first);
        (self.first, self.second) = (first, next(self.second.max(first + 1)));
    }
}

/// The shops that are visited, and what it would cost to drop each.
struct Round {
    visited: Vec<bool>,
    fares: Vec<i64>,
    /// The foods that are bought, or next cheapest, in each shop.
    counted: Vec<BTreeSet<usize>>,
    /// What the foods bought in each shop cost more elsewhere, and how many are to be had nowhere else.
    more: Vec<(i128, usize)>,
    /// What the round costs more without a shop, and the shop: those that can be left out.
    to_drop: BTreeSet<(i128, usize)>,
}

impl Round {
    fn of(fares: &[i64], dearer: &[Dearer]) -> Round {
        let shops = fares.len();
        let mut round = Round {
            visited: vec![true; shops],
            fares: fares.to_vec(),
            counted: vec![BTreeSet::new(); shops],
            more: vec![(0, 0); shops],
            to_drop: BTreeSet::new(),
        };
        dearer.iter().enumerate().for_each(|(food, one)| round.count(food, one, 1));
        (0..shops).for_each(|shop| round.offer(shop));
        round
    }

    /// Counts a food where it is bought, or with -1 not any more.
    fn count(&mut self, food: usize, one: &Dearer, times: i128) {
        for at in [one.first, one.second] {
            if let Some((_, shop)) = one.by_price.get(at) {
                if times > 0 {
                    self.counted[*shop].insert(food)
                } else {
                    self.counted[*shop].remove(&food)
                };
            }
        }
        let Some(shop) = one.shop() else { return };
        let (more, nowhere) = &mut self.more[shop];
        match one.more() {
            Some(dearer) => *more += times * dearer,
            None if times > 0 => *nowhere += 1,
            None => *nowhere -= 1,
        }
    }

    fn without(&self, shop: usize) -> (i128, usize) {
        (self.more[shop].0 - i128::from(self.fares[shop]), shop)
    }

    fn offer(&mut self, shop: usize) {
        if self.visited[shop] && self.more[shop].1 == 0 {
            self.to_drop.insert(self.without(shop));
        }
    }

    /// Of equal ones the first in the file.
    fn cheapest_to_drop(&self) -> Option<(i128, usize)> {
        self.to_drop.first().copied()
    }

    fn drop(&mut self, shop: usize, dearer: &mut [Dearer]) {
        self.to_drop.remove(&self.without(shop));
        self.visited[shop] = false;
        for food in std::mem::take(&mut self.counted[shop]) {
            let bought_in = dearer[food].shop();
            if let Some(shop) = bought_in {
                self.to_drop.remove(&self.without(shop));
            }
            self.count(food, &dearer[food], -1);
            dearer[food].move_on(&self.visited);
            let now_in = dearer[food].shop();
            if let Some(shop) = now_in {
                self.to_drop.remove(&self.without(shop));
            }
            self.count(food, &dearer[food], 1);
            bought_in.into_iter().chain(now_in).for_each(|shop| self.offer(shop));
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// Every shop is left out in turn, and the whole round reckoned again.
    fn by_trying(fares: &[i64], price: &[Vec<i64>]) -> (i64, Vec<usize>) {
        let cost = |visited: &[usize]| -> i64 {
            let goods = (0..price[0].len()).map(|food| visited.iter().map(|shop| price[*shop][food]).min().unwrap_or(i64::MAX));
            goods.chain(visited.iter().map(|shop| fares[*shop])).fold(0, i64::saturating_add)
        };
        let mut visited: Vec<usize> = (0..fares.len()).collect();
        let mut best = cost(&visited);
        loop {
            let without = |gone: usize| visited.iter().copied().filter(|shop| *shop != gone).collect::<Vec<usize>>();
            let Some(next) = visited.iter().map(|gone| without(*gone)).min_by_key(|rest| cost(rest)) else { break };
            if cost(&next) == i64::MAX || cost(&next) > best {
                break;
            }
            (best, visited) = (cost(&next), next);
        }
        (best, visited)
    }

    proptest! {
        #[test]
        fn shops_are_dropped_as_if_every_round_were_reckoned_again(
            fares in prop::collection::vec(0i64..30, 1..9),
            sold in prop::collection::vec(prop::collection::vec(prop::option::weighted(0.6, 1i64..20), 8), 1..7),
        ) {
            let at = |shop: usize| sold.iter().map(|food| food[shop].unwrap_or(i64::MAX)).collect::<Vec<i64>>();
            let price: Vec<Vec<i64>> = (0..fares.len()).map(at).collect();
            let had = (0..sold.len()).all(|food| price.iter().any(|shop| shop[food] < i64::MAX));
            prop_assume!(had);
            let dropped = drop_one_by_one(&fares, &price);
            let visited: Vec<usize> = (0..fares.len()).filter(|shop| dropped.visited[*shop]).collect();
            prop_assert_eq!((dropped.cost, visited.clone()), by_trying(&fares, &price));
            prop_assert_eq!(dropped.shops, visited.len());
        }
    }
}
