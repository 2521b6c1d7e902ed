//! The only room that writes answers as JSON, and reads back what was printed. Names, keys and their order are a promise to whoever
//! reads them; ids become names here and nowhere else.
//!
//! Dates are ISO 8601, money is a decimal string, an amount is `{"amount": 830.0, "unit": "g"}`. Knows no rule.
//!
//! | file | what it writes |
//! | --- | --- |
//! | `list` | the shopping list |
//! | `stock` | the shelf, and what was thrown away |
//! | `count` | what a count found |
//! | `booked` | bookings |
//! | `food`, `convert`, `check` | the answers of the verbs of these names |
//! | `compose` | a proposal, a clash of wishes, a count of meals |
//! | `day` | what a day asks for |
//! | `files` | which files were written |
//! | `keys` | the keys of the household's files |
//! | `schema`, `shape` | the JSON Schema of every verb's answer |
//! | `adopted` | recipes that were taken in |
//! | `recipe`, `recipe_page` | one recipe, its steps as they were read; and as schema.org/Recipe |
//! | `prep` | the plan of the sessions |
//! | `short` | meals that run short, in `list` and in `prep` |
//! | `kept` | what a print told of trips and meals, kept word for word |
//! | `printed` | `plan-<from>.json`: written, and read back to ids |

mod adopted;
mod booked;
mod check;
mod compose;
mod convert;
mod count;
mod day;
mod files;
mod food;
mod kept;
mod keys;
mod list;
mod prep;
mod printed;
mod recipe;
mod recipe_page;
mod schema;
mod shape;
mod short;
mod stock;

pub use adopted::adopted;
pub use booked::{book, booked, changed_meals};
pub use check::check;
pub use compose::{clash, compose, compose_count, nothing_composed};
pub use convert::convert;
pub use count::{count, look};
pub use day::day;
pub use files::{files, kitchen_files, week_files};
pub use food::food;
pub use keys::keys;
pub use list::{list, list_with};
pub use prep::{Past, Session, prep};
pub use printed::{Earlier, Printed, printed, read_calendar, read_printed};
pub use recipe::recipe;
pub use recipe_page::{not_in_a_page, recipe_page, scaled_line};
pub use schema::output_schemas;
pub use stock::{stock, wasted};

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::kitchen::{Names, Ware, Whose};
use crate::words::marks::is_unseen;

/// A food by its name, or a recipe by its id: the one key that fits, among the keys of what holds it.
#[derive(JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
enum Of<'a> {
    Food(&'a str),
    Recipe(&'a str),
}

/// Of what was cooked: whose it is alone, and what it lacks; foods by their names, recipes as `recipe:id`.
#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Theirs {
    #[serde(skip_serializing_if = "Option::is_none", default)]
    eater: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    without: Vec<String>,
}

impl Theirs {
    fn of(whose: Option<&Whose>, names: Names<'_>) -> Theirs {
        let name = |ware: &Ware| match *ware {
            Ware::Food(food) => names.food(food).to_owned(),
            Ware::Recipe(recipe) => format!("recipe:{}", names.recipe_file(recipe)),
        };
        Theirs { eater: whose.map(|whose| whose.eater.clone()), without: whose.iter().flat_map(|whose| &whose.without).map(name).collect() }
    }
}

impl<'a> Of<'a> {
    fn ware(of: Ware, names: Names<'a>) -> Of<'a> {
        match of {
            Ware::Food(food) => Of::Food(names.food(food)),
            Ware::Recipe(recipe) => Of::Recipe(names.recipe_file(recipe)),
        }
    }
}

/// Indented, with a final line end. Letters that nobody sees are escaped (RFC 8259, section 7, lets any letter be), so that an answer
/// shown on a terminal does nothing there.
///
/// # Errors
/// None for answers: their keys are words and their numbers are finite.
pub fn text(answer: &impl Serialize) -> serde_json::Result<String> {
    serde_json::to_string_pretty(answer).map(|text| escaped(text) + "\n")
}

/// Outside its texts JSON has no unseen letters but line ends.
fn escaped(json: String) -> String {
    let unseen = |letter: char| letter != '\n' && is_unseen(letter);
    if !json.contains(unseen) {
        return json;
    }
    let mut safe = String::with_capacity(json.len());
    for letter in json.chars() {
        if unseen(letter) { safe.push_str(&format!("\\u{:04x}", letter as u32)) } else { safe.push(letter) }
    }
    safe
}
