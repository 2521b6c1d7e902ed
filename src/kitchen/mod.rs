//! The household's files: reading, checking, pointing at mistakes. Nothing is computed here.

mod appliance_kind;
pub mod asked;
mod change_week;
mod eaters;
#[cfg(test)]
pub(crate) mod fixture;
mod forms;
mod keeping;
pub mod keys;
mod line;
pub mod method;
mod model;
pub mod much;
mod names;
mod not_known;
mod price_book;
mod read;
mod start;
mod together;
mod warning;
mod words;
mod write_meals;

pub use appliance_kind::ApplianceKind;
pub use change_week::{exchange_meals, exchange_meals_between, skip_meal};
pub use eaters::{Diner, Eater, Needs, NotEaten, Shunned, Swap, Swapped, Who};
pub use forms::{CountForm, Counted, CountedLot, GoodsForm, GoodsLine};
pub use keeping::{Keeping, keeping};
pub use line::{Line, LineError, LineOf, LineRead, read_ingredients, read_line};
pub use method::heats_in_words;
pub use model::*;
pub use names::Names;
pub use not_known::not_known;
pub use price_book::{NotWritten, OnFile, PriceChange, SeenPrice, change_prices, price_changes, write_prices};
pub use read::{
    Loaded, as_of_a_recipe, did_you_mean, find_kitchen, likely, load, load_foods, load_with, read_count, read_goods, recipe_mistakes,
    strays,
};
pub use start::starter;
pub use together::{
    AnyLine, Asked, Beside, FittingFood, Floors, KeysAt, OneAtMost, Open, Pattern, PatternId, Plate, Prefer, Taste, Together, WishTable,
};
pub use warning::{Mistake, NotLoaded, Spot, Warning};
pub use words::{Phrases, Words};
pub use write_meals::{WrittenMeal, write_meals};
