//! Many open meals, of few recipes: a week that is allowed is found, not a clash told.

use std::fmt::Write;

use jiff::civil::date;

use super::composed;
use crate::kitchen::{Kitchen, kitchen};

const PLACES: [&str; 4] = ["grain", "main", "vegetable", "sauce"];

/// Thirty dishes over four places, eight patterns, two sessions; three meals a day that are open.
fn row(recipes_at_most: u32) -> Kitchen {
    let (mut foods, mut shops) = (String::new(), String::from("[[shop]]\nname = \"A\"\nsections = []\n"));
    for food in 0..30 {
        let _ = write!(foods, "[[food]]\nname = \"foo{food}\"\n");
        let (size, price) = (200 + 100 * (food % 4), 90 + 37 * food % 300);
        let _ = write!(
            shops,
            "[[pack]]\nshop = \"A\"\nfood = \"foo{food}\"\nsize = \"{size} g\"\nprice = \"{}.{:02}\"\n",
            price / 100,
            price % 100
        );
    }
    let mut row = kitchen().foods(&foods).shops(&shops);
    for dish in 0..30_usize {
        let text = format!(
            "name = \"Dish {dish}\"\nmakes = \"{} portions\"\nkeeps = {{ fridge = \"{} days\", freezer = \"1 month\" }}\nfits = [\"{}\"]\n\
             ingredients = [\"{} g foo{dish}\", \"{} g foo{}\"]\n[[step]]\ntext = \"Cut.\"\nhands = \"{} min\"\n",
            4 + dish % 3,
            3 + dish % 3,
            PLACES[dish % 4],
            200 + 50 * (dish % 5),
            100 + 40 * (dish % 4),
            (dish * 7 + 3) % 30,
            4 + dish % 6,
        );
        row = row.recipe(&format!("dish{dish}"), &text);
    }
    let patterns = ["grain main", "grain vegetable", "main sauce", "grain sauce vegetable", "main vegetable vegetable", "vegetable sauce"];
    let mut meals = String::new();
    for (number, places) in patterns.iter().enumerate() {
        let each: Vec<String> = places.split(' ').map(|word| format!("1 portion any:{word}")).collect();
        let _ = write!(meals, "[[pattern]]\nname = \"Pattern {number}\"\neach = {each:?}\nat_most = 4\n");
    }
    let mut week = format!(
        "from = 2026-11-30\n[compose]\nrecipes_at_most = {recipes_at_most}\n[[trip]]\non = 2026-11-28\n[[trip]]\non = 2026-12-02\n\
         [[session]]\nstart = 2026-11-29T12:00\npeople = [\"cook\"]\n[[session]]\nstart = 2026-12-02T19:30\npeople = [\"cook\"]\n"
    );
    for meal in 0..21 {
        let on = date(2026, 11, 30).saturating_add(jiff::Span::new().days(meal % 7));
        let at = ["supper", "lunch", "breakfast"][meal as usize / 7];
        let _ = write!(week, "[[meal]]\non = {on}\nat = \"{at}\"\nopen = true\n");
    }
    row.file("meals.toml", &meals).week(&week)
}

#[test]
fn a_week_of_many_open_meals_and_few_recipes_is_filled() {
    // 21 meals of two or three dishes, each five times at most: about eleven recipes are the fewest.
    let proposal = composed(&row(13), &["--effort", "low"]);
    assert_eq!(proposal["meals"].as_array().map(Vec::len), Some(21));
    assert!(proposal["recipes"].as_array().is_some_and(|recipes| recipes.len() <= 13));
}
