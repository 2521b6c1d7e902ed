//! Buying for a thousand foods at once: far more than a household, so that a household's list is there at once.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a benchmark that cannot go on says so")]

use std::time::Instant;

#[path = "../dice.rs"]
mod dice;
#[path = "../support/mod.rs"]
mod support;

use dice::Dice;
use spence::purchase::choose;
use support::solver::least_by_solver;
use support::{Street, street, with_opened};

/// Streets that the general solver is timed on, and the foods of each: the more foods share the fares, the harder it searches.
const BESIDE_SOLVER: [(u64, usize); 3] = [(20, 1), (10, 2), (5, 4)];

fn main() {
    BESIDE_SOLVER.iter().for_each(|(streets, foods)| beside_the_solver(*streets, *foods));
    divan::main();
}

/// The same problems by the exact choice and by a general solver of mixed integer programs, in one run.
fn beside_the_solver(streets: u64, foods: usize) {
    let problems: Vec<Street> = (1..=streets).map(|seed| a_street(foods, seed)).collect();
    let timed = |solve: &dyn Fn(&Street) -> i64| {
        let start = Instant::now();
        let costs: Vec<i64> = problems.iter().map(solve).collect();
        (start.elapsed(), costs)
    };
    let (ours, costs) = timed(&|street| choose(&street.kitchen, &street.week, &street.needs).cost.0);
    let (solver, optima) = timed(&least_by_solver);
    assert_eq!(costs, optima, "the same optima to the cent");
    let ratio = solver.as_secs_f64() / ours.as_secs_f64();
    println!(
        "{streets} lists of {foods} foods x 8 packs x 4 shops: exact choice {ours:.1?}, general solver {solver:.1?}: {ratio:.0} times as fast"
    );
}

/// `foods` foods × 8 packs × 4 shops with offers, needs from 20 g to 5 kg.
fn a_street(foods: usize, seed: u64) -> Street {
    let mut dice = Dice(seed);
    let mut street = street(foods, &[0, 150, 200, 350]);
    for food in 0..foods {
        for shop in 0..4 {
            for _ in 0..8 {
                let grams = dice.between(2, 200) * 10;
                let minor = grams * dice.between(15, 30) / 100 + dice.between(5, 40);
                let buy = dice.between(2, 4);
                let offer = dice.one_in(3).then(|| (buy, buy * minor * dice.between(70, 95) / 100));
                street.sell(shop, food, grams, minor, offer);
            }
        }
        let grams = dice.between(20, 5000);
        street.need(food, &[(1, grams)]);
    }
    street
}

#[divan::bench(args = [30, 1000])]
fn foods(bencher: divan::Bencher, foods: usize) {
    let street = a_street(foods, 1);
    bencher.bench(|| choose(&street.kitchen, &street.week, &street.needs));
}

/// Every other food is opened in three windows, every third is sold loose somewhere.
#[divan::bench(args = [30, 1000])]
fn opened_and_loose_foods(bencher: divan::Bencher, foods: usize) {
    let opened: Vec<usize> = (0..foods).step_by(2).collect();
    let mut street = with_opened(a_street(foods, 1), &opened);
    street.needs.clear();
    for food in 0..foods {
        if food % 3 == 0 {
            street.sell_loose(food % 4, food, 25);
        }
        street.need(food, &[(1, 300), (4, 450), (7, 90)]);
    }
    bencher.bench(|| choose(&street.kitchen, &street.week, &street.needs));
}
