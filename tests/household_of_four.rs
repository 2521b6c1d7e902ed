//! A household of four, one week, every amount worked out by hand. Rosa and Tom eat a portion each, Emil a half, Pim a quarter: 2.75.

use pretty_assertions::assert_eq;

use crate::kitchen::{Kitchen, assert_amount, batches, kitchen, line, stderr};

const FOUR: &str = r#"
[household]
name = "Boatyard Row"
currency = "EUR"
[rules]
boxing = "0 min"
wash = "0 min"
[[eater]]
name = "Rosa"
[[eater]]
name = "Tom"
avoid = ["redroot"]
[[eater]]
name = "Emil"
share = 0.5
allergic = ["sesame"]
[[eater]]
name = "Pim"
share = 0.25
born = 2025-12-02
"#;

const FOODS: &str = r#"
[[food]]
name = "bluegrain"
allergens = []
per_100g = { kcal = 300, protein = "10 g", fibre = "8 g" }
[[food]]
name = "redroot"
allergens = []
per_100g = { kcal = 40, protein = "2 g", fibre = "3 g" }
[[food]]
name = "moonseed paste"
allergens = ["sesame"]
per_100g = { kcal = 600, protein = "20 g", fibre = "5 g" }
"#;

/// A portion is 100 g of bluegrain and 20 g of paste, which is stirred in last.
const MASH: &str = r#"
name = "Blue mash"
makes = "4 portions"
batches = "any"
keeps = { fridge = "4 days" }
ingredients = ["400 g bluegrain", "80 g moonseed paste"]
[[step]]
text = "Mash {bluegrain}."
hands = "10 min"
[[step]]
text = "Stir in {moonseed paste}."
hands = "5 min"
"#;

/// A portion is 150 g of redroot.
const ROOTS: &str = r#"
name = "Harbour roots"
makes = "2 portions"
batches = "any"
keeps = { fridge = "4 days" }
ingredients = ["300 g redroot"]
"#;

const WEEK: &str = r#"
from = 2026-11-30
away = { Tom = ["2026-12-01"] }
[[trip]]
on = 2026-11-28
[[session]]
start = 2026-11-29T14:00
people = ["cook"]

[[meal]]
day = "mon"
at = "supper"
name = "Mash for all"
each = ["1 portion recipe:blue-mash"]
shared = ["110 g redroot"]
without = { Emil = ["moonseed paste"] }

[[meal]]
day = "tue"
at = "supper"
name = "Roots, and a guest"
guests = 1
each = ["1 portion recipe:harbour-roots", "40 g bluegrain"]

[[meal]]
day = "wed"
at = "supper"
name = "Mash again"
for = ["Rosa", "Emil"]
each = ["2 portions recipe:blue-mash"]
instead = { Emil = ["1 portion recipe:harbour-roots", "60 g bluegrain"] }
"#;

fn house() -> Kitchen {
    kitchen().file("kitchen.toml", FOUR).foods(FOODS).recipe("blue-mash", MASH).recipe("harbour-roots", ROOTS).week(WEEK)
}

#[test]
fn every_amount_is_the_sum_of_its_eaters() {
    let kitchen = house();
    let (list, prep) = (kitchen.list(), kitchen.prep());
    // Blue mash. Monday 2.75 portions, of which Emil's half has no paste; Wednesday two for Rosa alone (Emil eats otherwise): 4.75 of 4 a batch.
    assert!((batches(&prep, 0, "blue-mash") - 4.75 / 4.0).abs() < 1e-9);
    // Paste: (2.75 − 0.5 + 2) × 20 g = 85 g.
    assert_amount(&line(&list, "moonseed paste")["need"], 85.0, "g");
    // Roots. Tuesday Rosa, Emil, Pim and a guest, Tom being away: 1 + 0.5 + 0.25 + 1 = 2.75; Wednesday half of one portion for Emil: 3.25 of 2.
    assert!((batches(&prep, 0, "harbour-roots") - 3.25 / 2.0).abs() < 1e-9);
    // Redroot: 3.25 × 150 g = 487.5 g in the roots, and 110 g on Monday's table.
    assert_amount(&line(&list, "redroot")["need"], 597.5, "g");
    // Bluegrain: 4.75 × 100 g in the mash; 2.75 × 40 g = 110 g on Tuesday; half of 60 g for Emil on Wednesday: 475 + 110 + 30.
    assert_amount(&line(&list, "bluegrain")["need"], 615.0, "g");
}

#[test]
fn what_each_eater_gets_adds_up_to_the_meal() {
    let list = house().list();
    let said = |meal: usize| -> Vec<(String, f64, f64)> {
        let eaters = list["meals"][meal]["eaters"].as_array().unwrap();
        let one = |eater: &serde_json::Value| {
            (eater["name"].as_str().unwrap().to_owned(), eater["share"].as_f64().unwrap(), eater["kcal"].as_f64().unwrap())
        };
        eaters.iter().map(one).collect()
    };
    let told = |name: &str, share: f64, kcal: f64| (name.to_owned(), share, kcal);
    // A portion of mash: 300 + 120 kcal; of the 110 g of redroot, 44 kcal, each has their part of 2.75: 16 for a whole share.
    // Emil: half of 300, and 8. Pim: a quarter of 420, and 4.
    assert_eq!(said(0), [told("Rosa", 1.0, 436.0), told("Tom", 1.0, 436.0), told("Emil", 0.5, 158.0), told("Pim", 0.25, 109.0)]);
    // Roots 60 kcal and 40 g of bluegrain 120 kcal: 180 for a whole share.
    assert_eq!(said(1), [told("Rosa", 1.0, 180.0), told("Emil", 0.5, 90.0), told("Pim", 0.25, 45.0), told("guests", 1.0, 180.0)]);
    // Rosa: two portions of mash. Emil: half of 60 and 180.
    assert_eq!(said(2), [told("Rosa", 1.0, 840.0), told("Emil", 0.5, 120.0)]);
}

#[test]
fn a_portion_set_aside_is_a_task_before_the_step() {
    let prep = house().prep();
    let session = &prep["sessions"][0];
    let tasks = session["tasks"].as_array().unwrap();
    let mash: Vec<&serde_json::Value> = tasks.iter().filter(|task| task["recipe"] == "blue-mash").collect();
    let kinds: Vec<&str> = mash.iter().map(|task| task["kind"].as_str().unwrap()).collect();
    assert_eq!(kinds, ["step", "aside", "step"]);
    assert_eq!((&mash[1]["eater"], &mash[1]["hands_minutes"]), (&"Emil".into(), &1.into()));
    // The paste of 1.1875 batches less Emil's half portion: 85 g.
    assert!(mash[2]["text"].as_str().unwrap().contains("85 g moonseed paste"), "{mash:#?}");
    let boxes = session["boxes"].as_array().unwrap();
    let kept: f64 = boxes.iter().filter(|one| one["recipe"] == "blue-mash").map(|one| one["portions"].as_f64().unwrap()).sum();
    assert_eq!(kept, 4.75);
}

#[test]
fn the_dates_on_which_the_infant_turns_one() {
    // Pim, born on 2 December 2025, is under twelve months at Tuesday's supper and one year old at Wednesday's.
    let honey = |day: &str| format!("[[meal]]\nday = \"{day}\"\nat = \"supper\"\neach = [\"5 g honey\"]\n");
    let early = house().meals(&honey("tue"));
    assert!(early.refusal().contains("Tue supper, Pim: honey: is never given before 12 months"), "{}", early.refusal());
    let late = house().meals(&honey("wed")).run(&["check"]);
    assert_eq!(late.status.code(), Some(0), "{}", stderr(&late));
    assert!(!stderr(&late).contains("Pim"), "{}", stderr(&late));
}

#[test]
fn what_one_avoids_is_told_of_that_one_alone() {
    let output = house().run(&["check"]);
    let said = stderr(&output);
    assert_eq!(output.status.code(), Some(0), "{said}");
    // Tom is away on Tuesday, and not asked on Wednesday.
    let told: Vec<&str> = said.lines().filter(|line| line.contains("avoids")).collect();
    assert_eq!(told.len(), 1, "{said}");
    assert!(told[0].contains("Mon supper, Tom: Mash for all > redroot: redroot, which Tom avoids."), "{said}");
}
