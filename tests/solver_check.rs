//! The same optimum as a general-purpose solver of mixed integer programs, to the cent: packs, offers, loose goods, windows,
//! several shops, fares. `SPENCE_SOLVER_PROBLEMS` sets the number of problems.

use pretty_assertions::assert_eq;
use spence::purchase::choose;

use crate::dice::Dice;
use crate::support::solver::least_by_solver;
use crate::support::{Street, street, with_opened};

const PROBLEMS: u64 = 500;

fn a_street(seed: u64) -> Street {
    let mut dice = Dice(seed);
    let shops = dice.between(1, 3) as usize;
    let foods = dice.between(1, 4) as usize;
    let fares: Vec<i64> = (0..shops).map(|_| dice.between(0, 3) * 40).collect();
    let opened: Vec<usize> = (0..foods).filter(|_| dice.one_in(3)).collect();
    let mut street = with_opened(street(foods, &fares), &opened);
    for food in 0..foods {
        for shop in 0..shops {
            for _ in 0..dice.between(i64::from(shop == 0), 3) {
                let grams = dice.between(2, 60) * 10;
                let minor = grams * dice.between(15, 40) / 100 + dice.between(1, 30);
                let buy = dice.between(2, 4);
                let offer = dice.one_in(3).then(|| (buy, buy * minor * dice.between(60, 95) / 100));
                street.sell(shop, food, grams, minor, offer);
            }
            if dice.one_in(4) {
                let minor = dice.between(10, 40);
                street.sell_loose(shop, food, minor);
            }
        }
        let uses: Vec<(i8, i64)> =
            (0..dice.between(1, 3)).map(|index| (1 + 3 * index as i8, dice.between(2, 90) * 10 + dice.between(0, 9))).collect();
        street.need(food, &uses);
    }
    street
}

#[test]
fn every_basket_costs_what_a_general_solver_finds() {
    let problems = std::env::var("SPENCE_SOLVER_PROBLEMS").ok().and_then(|text| text.parse().ok()).unwrap_or(PROBLEMS);
    for seed in 0..problems {
        let street = a_street(seed);
        let basket = choose(&street.kitchen, &street.week, &street.needs);
        assert_eq!((seed, basket.cost.0), (seed, least_by_solver(&street)));
    }
}
