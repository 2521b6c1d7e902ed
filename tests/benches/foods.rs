//! Reading the built-in reference must not be felt at start-up: 2 ms at most.

use spence::foods::Foods;

fn main() {
    divan::main();
}

#[divan::bench]
fn reading_the_reference() -> Foods {
    Foods::reference()
}
