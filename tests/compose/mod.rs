//! Composing the week: proposals against trying every week, rules, writing, clashes.

mod asked;
mod clashes;
mod kept;
mod loosened;
mod many;
mod tiny;
mod told;
mod writing;

use serde_json::Value;

use crate::kitchen::{Kitchen, json, kitchen};

/// Two grains, two sauces and a leaf on one stall; a plate takes a grain and something beside it.
pub const STALL: &str = r#"
[[shop]]
name = "Stall"
sections = ["All"]
[[pack]]
shop = "Stall"
food = "spelk"
size = "100 g"
price = 1.00
[[pack]]
shop = "Stall"
food = "brack"
size = "100 g"
price = 2.00
[[pack]]
shop = "Stall"
food = "lubb"
size = "100 g"
price = 0.50
[[pack]]
shop = "Stall"
food = "fenk"
size = "100 g"
price = 3.00
"#;

pub const FOODS: &str = r#"
[[food]]
name = "spelk"
allergens = []
[[food]]
name = "brack"
allergens = ["gluten"]
[[food]]
name = "lubb"
fits = ["beside"]
is = ["crunchy"]
serving = "100 g"
allergens = []
[[food]]
name = "fenk"
fits = ["beside"]
serving = "100 g"
allergens = ["sesame"]
"#;

pub const PLATE: &str = "[[pattern]]\nname = \"Plate\"\neach = [\"1 portion any:grain\", \"1 portion any:beside\"]\n";

pub fn dish(name: &str, of: &str, more: &str) -> String {
    format!(
        "name = \"{name}\"\nmakes = \"1 portion\"\nbatches = \"whole\"\nkeeps = {{ fridge = \"5 days\" }}\nfits = [\"grain\"]\n{more}\n\
         ingredients = \"100 g {of}\"\n[[step]]\ntext = \"Cook.\"\nhands = \"10 min\"\n"
    )
}

/// Spelk costs 1.00 a portion and brack 2.00; lubb 0.50 and fenk 3.00.
pub fn stall() -> Kitchen {
    kitchen()
        .foods(FOODS)
        .shops(STALL)
        .recipe("spelk-pot", &dish("Spelk pot", "spelk", ""))
        .recipe("brack-pot", &dish("Brack pot", "brack", ""))
        .file("meals.toml", PLATE)
}

/// A supper that is open, with more keys.
pub fn open(on: &str, more: &str) -> String {
    format!("[[meal]]\non = {on}\nat = \"supper\"\nopen = true\n{more}\n")
}

pub fn composed(kitchen: &Kitchen, arguments: &[&str]) -> Value {
    json(&kitchen.run(&[&["--format", "json", "compose"], arguments].concat()))
}

/// The lines of each proposed meal.
pub fn each(proposal: &Value) -> Vec<Vec<String>> {
    let texts = |meal: &Value| meal["each"].as_array().unwrap().iter().map(|line| line.as_str().unwrap().to_owned()).collect();
    proposal["meals"].as_array().unwrap().iter().map(texts).collect()
}

/// A file of a kitchen that is written by hand, with the folders it needs.
fn write(folder: &tempfile::TempDir, name: &str, text: &str) {
    let path = folder.path().join(name);
    std::fs::create_dir_all(path.parent().expect("a parent")).expect("a folder");
    std::fs::write(path, text).expect("a file");
}
