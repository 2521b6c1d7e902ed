//! What holds of every cover, and the same optimum by trying everything.

use pretty_assertions::assert_eq;
use proptest::prelude::*;

use crate::kitchen::Choose;
use crate::purchase::cover::{Cover, Loose, Target};
use crate::purchase::windows::{Shelf, Sized, buy};

fn target(need: i64, slack: i64) -> Target {
    Target { need, least: (need - slack).max(1), noise: 0 }
}

fn sized() -> impl Strategy<Value = Sized> {
    (1i64..40, 0i64..30, prop::option::of((2i64..4, 0i64..60))).prop_map(|(size, price, offer)| Sized { size, singles: 1, price, offer })
}

fn loose() -> impl Strategy<Value = Loose> {
    (1i64..12, 0i64..40_000).prop_map(|(step, minor_e4)| Loose { step, minor_e4, priced_step: step, per: 1 })
}

fn larger_first(mut sized: Vec<Sized>) -> Vec<Sized> {
    sized.sort_by_key(|sized| std::cmp::Reverse(sized.size));
    sized
}

fn packs() -> impl Strategy<Value = Vec<Sized>> {
    prop::collection::vec(sized(), 1..4).prop_map(larger_first)
}

fn rule() -> impl Strategy<Value = Choose> {
    prop::sample::select(vec![Choose::Cheapest, Choose::LeastLeft])
}

/// Every count of every pack up to `most`.
fn every_count(packs: usize, most: i64) -> Vec<Vec<i64>> {
    (0..packs).fold(vec![vec![]], |all, _| {
        all.iter().flat_map(|counts| (0..=most).map(move |count| [counts.clone(), vec![count]].concat())).collect()
    })
}

fn total(shelf: &Shelf, counts: &[i64]) -> i64 {
    shelf.sized.iter().zip(counts).map(|(sized, count)| sized.size * count).sum()
}

/// The least price of so many packs, with as few or as many offers as one likes.
fn price(sized: &Sized, count: i64) -> i64 {
    let (buy, pay) = sized.offer.unwrap_or((1, sized.price));
    (0..=count / buy).map(|offers| offers * pay + (count - offers * buy) * sized.price).min().unwrap_or(0)
}

fn as_cover(shelf: &Shelf, counts: Vec<i64>, steps: i64, left: i64, short: i64) -> Cover {
    let goods: i64 = shelf.sized.iter().zip(&counts).map(|(sized, count)| price(sized, *count)).sum();
    let price = goods + shelf.loose.map_or(0, |loose| loose.price(steps));
    let packs = counts.iter().sum::<i64>() + i64::from(steps > 0);
    Cover { counts, steps, price, left, short, packs, proven: true }
}

/// One target, tried with every count up to what covers it twice over.
fn by_trying(shelf: &Shelf, target: &Target, rule: Choose) -> Option<Cover> {
    let most = |size: i64| (target.need + size - 1) / size + 3;
    let ranges = shelf.sized.iter().map(|sized| most(sized.size)).max().unwrap_or(0);
    let steps = shelf.loose.map_or(0, |loose| most(loose.step));
    let mut best: Option<Cover> = None;
    for counts in every_count(shelf.sized.len(), ranges) {
        for steps in 0..=steps {
            let sum = total(shelf, &counts) + shelf.loose.map_or(0, |loose| loose.step * steps);
            if sum < target.least {
                continue;
            }
            let plan = as_cover(shelf, counts.clone(), steps, (sum - target.need).max(0), (target.need - sum).max(0));
            if best.as_ref().is_none_or(|best| plan.compare(best, rule).is_lt()) {
                best = Some(plan);
            }
        }
    }
    best
}

/// Two windows, every pair of counts; prices count over both.
fn both_by_trying(shelf: &Shelf, targets: &[Target; 2], rule: Choose, most: i64) -> Option<Cover> {
    let counts = every_count(shelf.sized.len(), most);
    let covers = |target: &Target| -> Vec<&Vec<i64>> { counts.iter().filter(|counts| total(shelf, counts) >= target.least).collect() };
    let mut best: Option<Cover> = None;
    let second = covers(&targets[1]);
    for a in covers(&targets[0]) {
        for b in &second {
            let left = total(shelf, a) - targets[0].need + total(shelf, b) - targets[1].need;
            let sum = a.iter().zip(b.iter()).map(|(a, b)| a + b).collect();
            let plan = as_cover(shelf, sum, 0, left, 0);
            if best.as_ref().is_none_or(|best| plan.compare(best, rule).is_lt()) {
                best = Some(plan);
            }
        }
    }
    best
}

fn scores(cover: &Cover) -> (i64, i64, i64, i64, Vec<i64>) {
    (cover.price, cover.left, cover.short, cover.packs, cover.counts.clone())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn one_window_is_what_trying_everything_finds(sized in packs(), need in 1i64..90, slack in 0i64..10, rule in rule()) {
        let shelf = Shelf { sized: sized.into_iter().map(|pack| Sized { size: pack.size.max(8), ..pack }).collect(), loose: None };
        let shelf = Shelf { sized: larger_first(shelf.sized), loose: None };
        let target = target(need, slack);
        let found = buy(&shelf, &[target], rule).map(|bought| bought.whole);
        let tried = by_trying(&shelf, &target, rule);
        assert_eq!(found.as_ref().map(scores), tried.as_ref().map(scores));
    }

    #[test]
    fn loose_goods_and_packs_are_what_trying_everything_finds(
        sized in prop::collection::vec(sized(), 0..3), loose in loose(), need in 1i64..60, rule in rule(),
    ) {
        let shelf = Shelf { sized: larger_first(sized.into_iter().map(|pack| Sized { size: pack.size.max(5), ..pack }).collect()), loose: Some(loose) };
        let target = target(need, 0);
        let found = buy(&shelf, &[target], rule).map(|bought| bought.whole);
        let tried = by_trying(&shelf, &target, rule);
        assert_eq!(found.as_ref().map(|cover| (scores(cover), cover.steps)), tried.as_ref().map(|cover| (scores(cover), cover.steps)));
    }

    #[test]
    fn two_windows_are_what_trying_everything_finds(sized in packs(), first in 1i64..60, second in 1i64..60, rule in rule()) {
        let sized = sized.into_iter().map(|pack| Sized { size: pack.size.max(15), price: pack.price.max(1), ..pack }).collect();
        let shelf = Shelf { sized: larger_first(sized), loose: None };
        let targets = [target(first, 0), target(second, 0)];
        let found = buy(&shelf, &targets, rule).map(|bought| bought.whole);
        let tried = both_by_trying(&shelf, &targets, rule, 6);
        assert_eq!(found.as_ref().map(scores), tried.as_ref().map(scores));
    }

    #[test]
    fn the_need_is_always_covered_and_no_pack_can_be_left_out_for_less(sized in packs(), need in 1i64..2000, rule in rule()) {
        let shelf = Shelf { sized, loose: None };
        let target = target(need, need / 50);
        let cover = buy(&shelf, &[target], rule).unwrap().whole;
        let sum = total(&shelf, &cover.counts);
        prop_assert!(sum >= target.least);
        for pack in 0..shelf.sized.len() {
            let mut fewer = cover.counts.clone();
            fewer[pack] -= 1;
            if fewer[pack] >= 0 && total(&shelf, &fewer) >= target.least {
                let left = (sum - shelf.sized[pack].size - need).max(0);
                let short = (need - (sum - shelf.sized[pack].size)).max(0);
                let plan = as_cover(&shelf, fewer, 0, left, short);
                prop_assert!(cover.compare(&plan, rule).is_lt());
            }
        }
    }

    #[test]
    fn another_pack_in_the_shop_never_makes_it_dearer(sized in packs(), more in sized(), need in 1i64..2000) {
        let shelf = Shelf { sized: sized.clone(), loose: None };
        let larger = Shelf { sized: larger_first([sized, vec![more]].concat()), loose: None };
        let price = |shelf: &Shelf| buy(shelf, &[target(need, 0)], Choose::Cheapest).unwrap().whole.price;
        prop_assert!(price(&larger) <= price(&shelf));
    }

    #[test]
    fn a_larger_need_is_never_cheaper(sized in packs(), need in 1i64..2000, more in 0i64..200) {
        let shelf = Shelf { sized, loose: None };
        let price = |need: i64| buy(&shelf, &[target(need, 0)], Choose::Cheapest).unwrap().whole.price;
        prop_assert!(price(need) <= price(need + more));
    }

    #[test]
    fn the_order_of_packs_does_not_matter(sized in prop::collection::vec(sized(), 1..5).prop_shuffle(), need in 1i64..2000, rule in rule()) {
        let forth = Shelf { sized: larger_first(sized.clone()), loose: None };
        let back = Shelf { sized: larger_first(sized.into_iter().rev().collect()), loose: None };
        let plan = |shelf: &Shelf| {
            let cover = buy(shelf, &[target(need, 0)], rule).unwrap().whole;
            (cover.price, cover.left, cover.packs)
        };
        prop_assert_eq!(plan(&forth), plan(&back));
    }

    #[test]
    fn windows_bought_together_cost_no_more_than_apart(sized in packs(), needs in prop::collection::vec(1i64..300, 2..5)) {
        let shelf = Shelf { sized, loose: None };
        let targets: Vec<Target> = needs.iter().map(|need| target(*need, 0)).collect();
        let together = buy(&shelf, &targets, Choose::Cheapest).unwrap();
        let apart: i64 = targets.iter().map(|target| buy(&shelf, &[*target], Choose::Cheapest).unwrap().whole.price).sum();
        prop_assert!(together.whole.price <= apart);
        for (target, counts) in targets.iter().zip(&together.windows) {
            prop_assert!(total(&shelf, counts) >= target.need);
        }
        let paid: i64 = shelf.sized.iter().zip(&together.whole.counts).map(|(sized, count)| price(sized, *count)).sum();
        prop_assert_eq!(paid, together.whole.price);
    }
}
