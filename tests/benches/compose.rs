//! A week with 7, 14 or 21 open meals, 30 recipes, 8 patterns and two shops: how long the first proposal takes, and how far it is from the
//! bound and from what more effort finds. Prints; asserts nothing.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a benchmark that cannot go on says so")]

use std::fmt::Write;
use std::fs;
use std::time::Instant;

use jiff::ToSpan;
use jiff::civil::{Date, date};
use spence::book::Booked;
use spence::compose::{Asking, Composed, compose};
use spence::prep::Effort;
use tempfile::TempDir;

const TODAY: Date = date(2026, 11, 27);
const PLACES: [&str; 4] = ["grain", "main", "vegetable", "sauce"];

fn main() {
    for open in [7, 14, 21] {
        let folder = kitchen(open);
        let loaded = spence::kitchen::load(folder.path()).expect("a sound kitchen");
        let mut found: Vec<(Effort, f64)> = Vec::new();
        for effort in [Effort::Low, Effort::Normal, Effort::High] {
            let begun = Instant::now();
            let asking = Asking { effort, ..Asking::default() };
            let composed = compose(&loaded, &Booked::default(), &[], (0, TODAY), &asking).expect("it can be reckoned");
            let took = begun.elapsed();
            match composed {
                Composed::Proposal(proposal) => {
                    let (net, bound) = (proposal.net_cost.0 as f64 / 100.0, proposal.bound.0 as f64 / 100.0);
                    println!(
                        "{open} open meals, {effort:?}: {took:.2?}, net cost {net:.2}, bound {bound:.2}, gap {:.1} %",
                        (net / bound - 1.0) * 100.0
                    );
                    found.push((effort, net));
                }
                other => println!("{open} open meals, {effort:?}: {took:.2?}, {other:?}"),
            }
        }
        let best = found.iter().map(|(_, net)| *net).fold(f64::MAX, f64::min);
        for (effort, net) in &found {
            println!("{open} open meals, {effort:?}: {:.1} % above the best that was found", (net / best - 1.0) * 100.0);
        }
    }
}

/// Thirty recipes over four places, eight patterns, two shops, two sessions; lunches and suppers, then breakfasts.
fn kitchen(open: usize) -> TempDir {
    let folder = TempDir::new().expect("a folder");
    let file = |name: &str, text: &str| {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().expect("a parent")).expect("a folder");
        fs::write(path, text).expect("a file");
    };
    file(
        "kitchen.toml",
        "[household]\nname = \"Row\"\neaters = 3\ncurrency = \"EUR\"\n[[appliance]]\nname = \"oven\"\nroom = 2\n[[appliance]]\nname = \"hob\"\nroom = 4\n",
    );
    let (mut foods, mut shops) =
        (String::new(), "[[shop]]\nname = \"A\"\nsections = []\n[[shop]]\nname = \"B\"\nsections = []\ntrip = \"1.20\"\n".to_owned());
    for food in 0..30 {
        let keeps = if food % 3 == 0 { format!("keeps = {{ fridge = \"{} days\" }}\n", 5 + food % 7) } else { String::new() };
        let _ = write!(foods, "[[food]]\nname = \"foo{food}\"\n{keeps}");
        for (shop, size, price) in [("A", 200 + 100 * (food % 4), 90 + 37 * food % 300), ("B", 500, 150 + 53 * food % 400)] {
            let _ = write!(
                shops,
                "[[pack]]\nshop = \"{shop}\"\nfood = \"foo{food}\"\nsize = \"{size} g\"\nprice = \"{}.{:02}\"\n",
                price / 100,
                price % 100
            );
        }
    }
    file("foods.toml", &foods);
    file("shops.toml", &shops);
    for recipe in 0..30_usize {
        let text = format!(
            "name = \"Dish {recipe}\"\nmakes = \"{} portions\"\nkeeps = {{ fridge = \"{} days\", freezer = \"1 month\" }}\nfits = [\"{}\"]\n\
             ingredients = [\"{} g foo{}\", \"{} g foo{}\"]\n[[step]]\ntext = \"Cut.\"\nhands = \"{} min\"\n[[step]]\ntext = \"Cook.\"\nwait = \"{} min\"\non = \"{}\"\n",
            4 + recipe % 3,
            3 + recipe % 3,
            PLACES[recipe % 4],
            200 + 50 * (recipe % 5),
            recipe,
            100 + 40 * (recipe % 4),
            (recipe * 7 + 3) % 30,
            4 + recipe % 6,
            15 + 5 * (recipe % 6),
            ["oven", "hob"][recipe % 2],
        );
        file(&format!("recipes/dish{recipe}.toml"), &text);
    }
    let patterns = [
        "grain main",
        "grain main vegetable",
        "grain vegetable",
        "main sauce",
        "grain sauce vegetable",
        "main vegetable vegetable",
        "grain main sauce",
        "vegetable sauce",
    ];
    let mut meals = String::new();
    for (index, places) in patterns.iter().enumerate() {
        let each: Vec<String> = places.split(' ').map(|word| format!("1 portion any:{word}")).collect();
        let _ = write!(meals, "[[pattern]]\nname = \"Pattern {index}\"\neach = {each:?}\nat_most = 4\n");
    }
    file("meals.toml", &meals);
    let mut week = "from = 2026-11-30\n[compose]\nrecipes_at_most = 14\n[[trip]]\non = 2026-11-28\n[[trip]]\non = 2026-12-02\n\
                    [[session]]\nstart = 2026-11-29T12:00\nfinish_by = \"19:00\"\npeople = [\"cook\", \"helper\"]\n\
                    [[session]]\nstart = 2026-12-02T19:30\nfinish_by = \"23:00\"\npeople = [\"cook\"]\n"
        .to_owned();
    let times = ["supper", "lunch", "breakfast"];
    for meal in 0..open {
        let on = date(2026, 11, 30).saturating_add((meal % 7).try_into().unwrap_or(0_i64).days());
        let _ = write!(week, "[[meal]]\non = {on}\nat = \"{}\"\nopen = true\n", times[meal / 7]);
    }
    file("weeks/week.toml", &week);
    folder
}
