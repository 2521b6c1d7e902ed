//! Ten thousand ingredient lines read and turned into grams as purchased.

mod printed;

use printed::LINES;
use spence::foods::{Foods, as_purchased};
use spence::kitchen::{Line, LineOf, read_line};
use spence::measure::{Dimension, Spoons};

/// Of a food that nobody knows.
const UNKNOWN: &str = "200 g diced dragonfruit (from the market)";

fn main() {
    divan::main();
}

#[divan::bench]
fn ten_thousand_lines_read_and_converted(bencher: divan::Bencher) {
    let foods = Foods::reference();
    bencher.bench(|| {
        let mut grams = 0.0;
        for text in LINES.iter().chain([&UNKNOWN]).cycle().take(10_000) {
            let Ok(Line { of: LineOf::Food { food, item: Some(item) }, .. }) = read_line(text, &foods, Spoons::Us) else { continue };
            if let Some(id) = foods.find(&food)
                && let Ok(quantity) = as_purchased(&foods[id], &item, &Dimension::Mass, Spoons::Us)
            {
                grams += quantity.base();
            }
        }
        grams
    });
}
