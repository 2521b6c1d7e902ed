//! The sample kitchen shows what the comments in its files say, with the sums of its week by hand. Its household counts 2.5 eaters.

use std::path::Path;
use std::process::Output;
use std::sync::OnceLock;

use assert_cmd::Command;
use pretty_assertions::assert_eq;
use serde_json::{Value, json};

use crate::kitchen::{assert_amount, batches, draws, json, line, line_with_trip, lines, minute, packs, shop_of, sizes, stderr, tasks};

fn run(arguments: &[&str]) -> Output {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-data");
    let mut command = Command::cargo_bin("spence").expect("the program is built");
    command.arg("--kitchen").arg(folder).args(["--today", "2026-11-27"]).args(arguments).output().expect("the program runs")
}

fn list() -> Value {
    json(&run(&["--format", "json", "list"]))
}

/// Any good plan will do, so that no time goes into a proof. One run serves all tests.
fn prep() -> &'static Value {
    static PREP: OnceLock<Value> = OnceLock::new();
    PREP.get_or_init(|| json(&run(&["--format", "json", "prep", "--effort", "low"])))
}

#[test]
fn its_files_have_no_mistakes() {
    let output = run(&["check"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
}

#[test]
fn it_buys_on_both_trips_what_the_comments_promise() {
    let list = list();
    // Five grams of 255 are within 2 %.
    let barley = line(&list, "pearl barley");
    assert_amount(&barley["need"], 255.0, "g");
    assert_eq!(packs(&barley), sizes(&[("250 g", 1)]));
    assert_amount(&barley["short"], 5.0, "g");
    // Fish keeps a day: 2.5 ÷ 2 × 350 = 437.5 g on Wednesday, in steps of 10 g: 0.44 kg at 18.50 = 8.14.
    let (on, cod) = line_with_trip(&list, "cod");
    assert_eq!(on, "2026-12-02");
    assert_amount(&cod["need"], 437.5, "g");
    assert_eq!(cod["cost"], "8.14");
    // Yoghurt: half a batch of herb yoghurt 250 + flatbreads 250 + Friday 120 = 620 g by Friday; 2.5 × 50 = 125 g on Saturday, when the first pot
    // has been open too long. At the market 500 + 150 and 150 g are 1.49 + 0.65 + 0.65 = 2.79; at the mill 1 kg and 500 g are 3.88.
    let yoghurt = line(&list, "yoghurt");
    assert_amount(&yoghurt["need"], 745.0, "g");
    let mut pots = packs(&yoghurt);
    pots.sort();
    assert_eq!((pots, yoghurt["cost"].as_str()), (sizes(&[("150 g", 2), ("500 g", 1)]), Some("2.79")));
    // Oat milk: 1000 - 500 for the oats - 150 for the soup = 350 ml, below 500: 2000 - 350.
    let oat_milk = line(&list, "oat milk");
    assert_amount(&oat_milk["need"], 1650.0, "ml");
    assert_eq!(oat_milk["for"], json!(["staple"]));
    // The frittata takes all six eggs, and six are always at home.
    assert_amount(&line(&list, "egg")["need"], 6.0, "each");
    // To taste, and none at home.
    assert_eq!(packs(&line(&list, "smoked paprika")), sizes(&[("40 g", 1)]));
    // Rosemary has no price: it is listed all the same.
    assert_eq!(shop_of(&list, "rosemary"), Value::Null);
    assert!(list["no_price"].as_array().is_some_and(|foods| foods.contains(&json!("rosemary"))));
    assert!(lines(&list).iter().any(|(_, _, line)| line["food"] == "mint"), "a handful of mint, in its own words");
    assert_eq!(list["ask"].as_array().map(Vec::len), Some(2));
}

#[test]
fn it_takes_from_the_shelf_what_is_there() {
    let list = list();
    let one = |day: &str, place: &str, amount: f64| vec![(day.to_owned(), place.to_owned(), amount)];
    // 2.5 × 30 = 75 g of feta on the day it goes off; the other 75 g are reported.
    assert_eq!(draws(&list, "feta"), one("2026-12-01", "fridge", 75.0));
    let feta: Vec<&Value> = list["expiring"].as_array().expect("a list").iter().filter(|lot| lot["food"] == "feta").collect();
    assert_eq!(feta.len(), 1);
    assert_amount(&feta[0]["amount"], 75.0, "g");
    // Oats for 2.5 batches are 250 g, of which 180 g, past their best before, are in the cupboard.
    assert_eq!(draws(&list, "rolled oats"), one("2026-11-29", "cupboard", 180.0));
    assert_eq!(draws(&list, "frozen peas"), one("2026-12-03", "freezer", 100.0));
    assert_eq!(draws(&list, "pearl-barley"), one("2026-11-30", "freezer", 1.0));
    assert_eq!(draws(&list, "chicken thigh"), one("2026-11-29", "freezer", 500.0));
}

#[test]
fn it_makes_five_components_on_sunday_and_two_on_wednesday() {
    let prep = prep();
    // Chicken 1 whole batch of 6; barley 5 - 1 cooked = 4 of 4; mash 5 of 6, to the half: 1; herb yoghurt 200 + 2.5 × 40 = 300 of 600 g;
    // roots 5 portions and 300 g = 2 portions for the frittata, 7 of 4: 2; oats 5 of 2, any: 2.5.
    let sunday = [
        ("braised-chicken", 1.0),
        ("pearl-barley", 1.0),
        ("white-bean-mash", 1.0),
        ("herb-yoghurt", 0.5),
        ("roast-roots", 2.0),
        ("overnight-oats", 2.5),
    ];
    for (recipe, expected) in sunday {
        assert_eq!(batches(prep, 0, recipe), expected, "{recipe}");
    }
    // Soup 5 of 4: 1.5; flatbreads 2 × 3.5 = 7 of 8: 1.
    for (recipe, expected) in [("leek-soup", 1.5), ("flatbreads", 1.0)] {
        assert_eq!(batches(prep, 1, recipe), expected, "{recipe}");
    }
    // Sunday's chicken comes out of the freezer on Saturday, and so do Sunday's helpings of Wednesday's soup.
    let list = list();
    let on_saturday = list["moves"].as_array().expect("a list").iter().filter(|one| one["at"] == "2026-12-05").count();
    assert_eq!(on_saturday, 2);
}

#[test]
fn its_sunday_is_done_by_half_past_five_and_shares_the_oven() {
    let prep = prep();
    let sunday = &prep["sessions"][0];
    assert!((120..=210).contains(&minute(sunday, "minutes")), "{} minutes", sunday["minutes"]);
    // Two batches of a tray and a half are three trays, in an oven for two.
    let mut trays: Vec<i64> =
        tasks(prep, "step", "roast-roots").iter().filter(|task| task["step"] == 2).map(|task| minute(task, "takes")).collect();
    trays.sort_unstable();
    assert_eq!(trays, [1, 2]);
    // The marinade has its 45 minutes.
    let of_chicken = |number: u64| tasks(prep, "step", "braised-chicken").into_iter().find(|task| task["step"] == number).expect("a step");
    assert!(minute(of_chicken(3), "start_minute") - minute(of_chicken(1), "end_minute") >= 45);
    // The beans want 16 hours before two, which is ten at night: nobody soaks them then, so at eight.
    let soak =
        prep["before"].as_array().expect("a list").iter().find(|one| one["text"].as_str().is_some_and(|text| text.starts_with("Soak")));
    assert_eq!(soak.expect("a soak")["at"], "2026-11-28T20:00");
    // Jo is there from three to four, and neither cuts nor fries.
    for task in sunday["tasks"].as_array().expect("a list") {
        if task["person"] == "Jo" {
            assert!(minute(task, "start_minute") >= 60 && minute(task, "start_minute") + minute(task, "hands_minutes") <= 120, "{task}");
        }
    }
}
