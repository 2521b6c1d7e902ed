//! Buying for a thousand foods at once: far more than a household, so that a household's list is there at once.

#[path = "../support/mod.rs"]
mod support;

use spence::purchase::choose;
use support::{Dice, Street, street, with_opened};

fn main() {
    divan::main();
}

/// `foods` foods × 8 packs × 4 shops with offers, needs from 20 g to 5 kg.
fn a_large_street(foods: usize) -> Street {
    let mut dice = Dice(1);
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
    let street = a_large_street(foods);
    bencher.bench(|| choose(&street.kitchen, &street.week, &street.needs));
}

/// Every other food is opened in three windows, every third is sold loose somewhere.
#[divan::bench(args = [30, 1000])]
fn opened_and_loose_foods(bencher: divan::Bencher, foods: usize) {
    let opened: Vec<usize> = (0..foods).step_by(2).collect();
    let mut street = with_opened(a_large_street(foods), &opened);
    street.needs.clear();
    for food in 0..foods {
        if food % 3 == 0 {
            street.sell_loose(food % 4, food, 25);
        }
        street.need(food, &[(1, 300), (4, 450), (7, 90)]);
    }
    bencher.bench(|| choose(&street.kitchen, &street.week, &street.needs));
}
