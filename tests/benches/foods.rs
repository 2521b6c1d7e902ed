//! Reading the built-in reference must not be felt at start-up: under 2 ms for six hundred foods.

use spence::foods::Foods;

fn main() {
    divan::main();
}

#[divan::bench]
fn reading_the_reference() -> Foods {
    Foods::reference()
}
