//! Which shops to visit on one trip, and which food to buy in which of them.
//!
//! Knows prices and fares only, no food, no pack.
//!
//! **Method.** Depth first over the shops in file order, each first visited, then not. A branch is left where its fares and every
//! food at the lowest price of a shop visited or still open come to more than the best in hand. With `n` shops there are at most
//! 2ⁿ branches, so up to twelve shops are always searched to the end; with more the search ends after [`MOST_BRANCHES`] branches and
//! says by how much at most the best in hand is dearer than the cheapest: no branch left open costs less than its fares and lowest prices.

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
    search.branch(0, 0, &none);
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

    fn branch(&mut self, shop: usize, spent: i64, lowest: &[i64]) {
        self.branches += 1;
        let shops = self.visited.iter().filter(|visited| **visited).count();
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
        self.branch(shop + 1, spent.saturating_add(self.fares[shop]), &with);
        self.visited[shop] = false;
        self.branch(shop + 1, spent, lowest);
    }
}

fn lower(a: &[i64], b: &[i64]) -> Vec<i64> {
    a.iter().zip(b).map(|(a, b)| *a.min(b)).collect()
}

/// Starts with all shops and drops whichever saves the most, as long as that saves or costs nothing.
fn drop_one_by_one(fares: &[i64], price: &[Vec<i64>]) -> Best {
    let cost = |visited: &[usize]| -> i64 {
        let foods = price.first().map_or(0, Vec::len);
        let goods = (0..foods).map(|food| visited.iter().map(|shop| price[*shop][food]).min().unwrap_or(i64::MAX));
        goods.chain(visited.iter().map(|shop| fares[*shop])).fold(0, i64::saturating_add)
    };
    let mut visited: Vec<usize> = (0..fares.len()).collect();
    let mut best = cost(&visited);
    loop {
        let without = |gone: usize| visited.iter().copied().filter(|shop| *shop != gone).collect::<Vec<usize>>();
        let Some(next) = visited.iter().map(|gone| without(*gone)).min_by_key(|rest| cost(rest)) else { break };
        let (less, possible) = (cost(&next), cost(&next) < i64::MAX);
        if !possible || less > best {
            break;
        }
        (best, visited) = (less, next);
    }
    let is_visited = |shop: usize| visited.contains(&shop);
    Best { cost: best, shops: visited.len(), visited: (0..fares.len()).map(is_visited).collect() }
}
