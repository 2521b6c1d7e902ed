//! Ten thousand ingredient lines read and turned into grams as purchased.

use spence::foods::{Foods, as_purchased};
use spence::kitchen::{Line, LineOf, read_line};
use spence::measure::{Dimension, Spoons};

const LINES: [&str; 20] = [
    "8 chicken thighs",
    "2 tins (400 g) white beans, drained",
    "240 g drained white beans",
    "2 cups cooked rice",
    "3 cloves garlic, peeled",
    "4 garlic cloves, finely chopped",
    "4 tbsp olive oil",
    "1 sprig rosemary",
    "2 x 400 g chopped tomatoes",
    "300 g pearl barley",
    "1½ cups sliced onion",
    "1 medium red onion, thinly sliced",
    "500 g beetroot, peeled",
    "2-3 carrots",
    "juice of half a lemon",
    "200 g plain flour, plus 2 tbsp for dusting",
    "salt, to taste",
    "600 g boneless, skinless chicken thighs, cut into chunks",
    "1 lb 4 oz minced beef",
    "200 g diced dragonfruit (from the market)",
];

fn main() {
    divan::main();
}

#[divan::bench]
fn ten_thousand_lines_read_and_converted(bencher: divan::Bencher) {
    let foods = Foods::reference();
    bencher.bench(|| {
        let mut grams = 0.0;
        for text in LINES.iter().cycle().take(10_000) {
            let Ok(Line { of: LineOf::Food { food, item: Some(item) }, .. }) = read_line(text, &foods) else { continue };
            if let Some(id) = foods.find(&food)
                && let Ok(quantity) = as_purchased(&foods[id], &item, &Dimension::Mass, Spoons::Us)
            {
                grams += quantity.base();
            }
        }
        grams
    });
}
