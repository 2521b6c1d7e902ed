//! Goods in: a trip as printed, and what was otherwise.

mod kitchen;

use std::fs;

use kitchen::{Kitchen, json, kitchen, stderr, supper};
use pretty_assertions::assert_eq;
use serde_json::Value;

const PANTRY: &str = "[[lot]]\nfood = \"bluegrain\"\namount = \"100 g\"\nplace = \"cupboard\"\n";

/// 300 g of bluegrain in packs of 500 g at 2.00, and 250 g of moon cheese, loose at 10.00 a kilogram; 100 g of the grain is at home.
fn shopping() -> Kitchen {
    kitchen()
        .foods(
            "[[food]]\nname = \"bluegrain\"\nallergens = []\nsource = \"weighed at home\"\n\
             [[food]]\nname = \"moon cheese\"\nallergens = []\nkeeps = { fridge = \"10 days\" }\nsource = \"weighed at home\"\n",
        )
        .shops(
            "[[shop]]\nname = \"Stall\"\n[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nsize = \"500 g\"\nprice = 2.00\n\
             [[pack]]\nshop = \"Stall\"\nfood = \"moon cheese\"\nloose = true\nprice = \"10.00 / kg\"\n",
        )
        .pantry(PANTRY)
        .meals(&supper("2026-11-30", "\"300 g bluegrain\", \"250 g moon cheese\""))
}

#[track_caller]
fn receive(kitchen: &Kitchen, more: &[&str]) {
    let output = kitchen.run_on("2026-11-28", &[&["receive"], more].concat());
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
}

/// (name, amount, until, estimate, value) of every lot of a place.
fn lots(kitchen: &Kitchen, place: usize) -> Vec<(String, f64, String, bool, String)> {
    let stock = json(&kitchen.run(&["--format", "json", "stock"]));
    let text = |value: &Value| value.as_str().unwrap_or("none").to_owned();
    let lots = stock["places"][place]["lots"].as_array().expect("lots").clone();
    let amount = |lot: &Value| lot["amount"]["amount"].as_f64().unwrap_or(f64::NAN);
    lots.iter().map(|lot| (text(&lot["food"]), amount(lot), text(&lot["until"]), lot["estimate"] == true, text(&lot["value"]))).collect()
}

fn row(name: &str, amount: f64, until: &str, estimate: bool, value: &str) -> (String, f64, String, bool, String) {
    (name.to_owned(), amount, until.to_owned(), estimate, value.to_owned())
}

#[test]
fn a_trip_brings_its_packs_and_dates_them_by_the_food_s_keeping() {
    let kitchen = shopping();
    receive(&kitchen, &[]);
    // 100 g at 2.00 for 500 g are 0.40. The cheese came on the 28th and keeps ten days.
    assert_eq!(lots(&kitchen, 0), [row("bluegrain", 100.0, "none", false, "0.40"), row("bluegrain", 500.0, "none", false, "2.00")]);
    assert_eq!(lots(&kitchen, 1), [row("moon cheese", 250.0, "2026-12-08", true, "2.50")]);
    let pantry = fs::read_to_string(kitchen.path().join("pantry.toml")).expect("a file");
    assert!(pantry.starts_with(PANTRY) && pantry.contains("since = 2026-11-28"), "{pantry}");
    assert_eq!(kitchen.run(&["receive"]).status.code(), Some(2), "there is no other trip");
}

#[test]
fn what_was_otherwise_is_booked_as_it_was() {
    let kitchen = shopping();
    let more = ["--without", "bluegrain", "--instead", "moon cheese=2 x 150 g", "--paid", "moon cheese=4.50"];
    receive(&kitchen, &[&more[..], &["--until", "moon cheese=2026-12-04", "--also", "200 g bluegrain at 1.20"]].concat());
    assert_eq!(lots(&kitchen, 0)[1], row("bluegrain", 200.0, "none", false, "1.20"));
    assert_eq!(lots(&kitchen, 1), [row("moon cheese", 300.0, "2026-12-04", false, "4.50")]);
}

#[test]
fn an_exception_that_names_nothing_on_the_list_books_nothing() {
    let kitchen = shopping();
    for more in [["--without", "salt"], ["--instead", "moon cheese"], ["--instead", "moon cheese=much"], ["--until", "moon cheese=soon"]] {
        assert_eq!(kitchen.run(&[&["receive"], &more[..]].concat()).status.code(), Some(2), "{more:?}");
    }
    assert_eq!(fs::read_to_string(kitchen.path().join("pantry.toml")).expect("a file"), PANTRY);
}

#[test]
fn where_the_plan_has_changed_since_it_was_printed_the_shopper_decides() {
    for (flag, cheese) in [("--anyway", 250.0), ("--replan", 400.0)] {
        let kitchen = shopping();
        assert_eq!(kitchen.run(&["print"]).status.code(), Some(0));
        let kitchen = kitchen.meals(&supper("2026-11-30", "\"300 g bluegrain\", \"400 g moon cheese\""));
        let output = kitchen.run(&["receive"]);
        assert_eq!(output.status.code(), Some(2));
        assert!(stderr(&output).contains("moon cheese: printed 250 g loose, now 400 g loose"), "{}", stderr(&output));
        receive(&kitchen, &[flag]);
        assert_eq!(lots(&kitchen, 1)[0].1, cheese);
    }
}

#[test]
fn after_the_trip_is_booked_nothing_more_is_to_be_bought() {
    let kitchen = shopping();
    receive(&kitchen, &[]);
    let list = json(&kitchen.run(&["--format", "json", "list"]));
    assert_eq!(list["cost"], "0.00");
    assert_eq!(kitchen.run(&["--strict", "check", "--book"]).status.code(), Some(0));
}

#[test]
fn undo_takes_a_trip_back() {
    let kitchen = shopping();
    receive(&kitchen, &[]);
    assert_eq!(kitchen.run(&["undo"]).status.code(), Some(0));
    assert_eq!(fs::read_to_string(kitchen.path().join("pantry.toml")).expect("a file"), PANTRY);
    receive(&kitchen, &[]);
    assert_eq!(lots(&kitchen, 1).len(), 1);
}
