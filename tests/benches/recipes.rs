//! Whole kitchens of 1,000, 3,000 and 10,000 recipes of ten lines: read from files, planned and netted. The time must grow as the kitchen does.

#![allow(clippy::expect_used, reason = "a benchmark that cannot go on says so")]

mod printed;

use std::fmt::Write;
use std::fs;

use divan::{Bencher, black_box};
use printed::LINES;
use spence::kitchen::load;
use spence::{pantry, plan};
use tempfile::TempDir;

const SIZES: [usize; 3] = [1_000, 3_000, 10_000];

fn main() {
    divan::main();
}

/// Twenty lines in turn.
fn line_of(number: usize) -> &'static str {
    LINES.get(number % (LINES.len() + 1)).copied().unwrap_or("200 g diced swede")
}

/// Every recipe is eaten once, a hundred in a meal of three eaters.
fn folder(recipes: usize) -> TempDir {
    let folder = TempDir::new().expect("a temporary folder");
    let write = |file: &str, text: &str| fs::write(folder.path().join(file), text).expect("a file");
    for inner in ["recipes", "weeks"] {
        fs::create_dir(folder.path().join(inner)).expect("a folder");
    }
    write("kitchen.toml", "[household]\nname = \"Boatyard Row\"\neaters = 3\ncurrency = \"EUR\"\n");
    write("pantry.toml", "[[lot]]\nfood = \"pearl barley\"\namount = \"2 kg\"\nplace = \"cupboard\"\nbest_before = 2027-03-01\n");
    for recipe in 0..recipes {
        let lines: String = (0..10).map(|line| format!("{}\n", line_of(recipe * 7 + line))).collect();
        let text = format!(
            "name = \"Dish {recipe}\"\nmakes = \"6 portions\"\nkeeps = {{ fridge = \"3 days\" }}\ningredients = \"\"\"\n{lines}\"\"\"\n[[step]]\ntext = \"Cook.\"\nhands = \"5 min\"\n"
        );
        write(&format!("recipes/dish-{recipe}.toml"), &text);
    }
    let mut week = "from = 2026-11-30\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n".to_owned();
    for first in (0..recipes).step_by(100) {
        let each: Vec<String> = (first..recipes.min(first + 100)).map(|recipe| format!("\"1 portion recipe:dish-{recipe}\"")).collect();
        let _ = write!(week, "[[meal]]\non = 2026-11-30\nat = \"supper\"\neach = [{}]\n", each.join(", "));
    }
    write("weeks/week.toml", &week);
    folder
}

#[divan::bench(args = SIZES, sample_count = 5)]
fn a_loaded(bencher: Bencher, recipes: usize) {
    let folder = folder(recipes);
    bencher.bench(|| load(folder.path()).expect("no mistakes"));
}

#[divan::bench(args = SIZES, sample_count = 5)]
fn b_loaded_planned_and_netted(bencher: Bencher, recipes: usize) {
    let folder = folder(recipes);
    bencher.bench(|| {
        let loaded = load(folder.path()).expect("no mistakes");
        let (kitchen, week) = (&loaded.kitchen, &loaded.weeks[0].1);
        let makings = plan::plan(kitchen, week).expect("a plan");
        let demanded = plan::demand(kitchen, week, &makings);
        black_box(pantry::net(kitchen, week, &makings, &demanded))
    });
}
