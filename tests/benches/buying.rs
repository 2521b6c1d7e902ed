//! Buying for a thousand foods at once: far more than a household, so that a household's list is there at once.

#[path = "../support/mod.rs"]
mod support;

use spence::purchase::choose;
use support::{Dice, Street, street};

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
