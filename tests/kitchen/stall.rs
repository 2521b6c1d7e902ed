//! One stall that sells packs, and one supper that wants an amount of bluegrain.

use serde_json::Value;

use super::{Kitchen, kitchen, line, supper};

/// A food of which nothing is known.
pub const BLUEGRAIN: &str = "[[food]]\nname = \"bluegrain\"\n";
pub const STALL: &str = "[[shop]]\nname = \"Stall\"\n";

pub fn pack(size: &str, price: &str) -> String {
    pack_of("bluegrain", size, price)
}

pub fn pack_of(food: &str, size: &str, price: &str) -> String {
    pack_at("Stall", food, size, price)
}

pub fn pack_at(shop: &str, food: &str, size: &str, price: &str) -> String {
    format!("[[pack]]\nshop = \"{shop}\"\nfood = \"{food}\"\nsize = \"{size}\"\nprice = {price}\n")
}

/// Bluegrain sold loose; without `step` in the usual one.
pub fn loose(price: &str, step: &str) -> String {
    let step = if step.is_empty() { String::new() } else { format!("step = \"{step}\"\n") };
    format!("[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nloose = true\nprice = \"{price}\"\n{step}")
}

/// One supper of one eater that wants `amount` of bluegrain, one trip, one stall.
pub fn wants(amount: &str, packs: &str) -> Kitchen {
    kitchen().foods(BLUEGRAIN).shops(&format!("{STALL}{packs}")).meals(&supper("2026-11-30", &format!("\"{amount} bluegrain\"")))
}

/// The line of bluegrain.
pub fn bought(kitchen: &Kitchen) -> Value {
    line(&kitchen.list(), "bluegrain")
}
