//! A stocktake: the sheet that is written, and what is booked of it once it is filled in.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Output;

use pretty_assertions::assert_eq;

use crate::kitchen::{Kitchen, json, kitchen, stderr, stdout};

/// Moon cheese is 2.40 for 200 g: 1.20 a 100 g. Nobody knows the price of bluegrain.
const SHELF: &str = "# Ours\n\n[[lot]]\nfood = \"moon cheese\"   # the good one\namount = \"200 g\"\nplace = \"fridge\"\nuse_by = 2026-12-09\n\n\
                     [[lot]]\nfood = \"bluegrain\"\namount = \"1 kg\"\nplace = \"cupboard\"\n\n\
                     [[lot]]\nfood = \"moon cheese\"\namount = \"100 g\"\nplace = \"fridge\"\nuse_by = 2026-12-01\n\n\
                     [[lot]]\nrecipe = \"stew\"\namount = \"2 portions\"\nplace = \"freezer\"\nmade = 2026-11-20\n";

const STEW: &str = "name = \"Moon stew\"\nmakes = \"2 portions\"\nkeeps = { fridge = \"3 days\", freezer = \"2 months\" }\ningredients = \"\"\"\n\
                    200 g bluegrain\n\"\"\"\n[[step]]\ntext = \"Cook {bluegrain}.\"\nhands = \"5 min\"\n";

fn larder() -> Kitchen {
    let food = |name: &str| format!("[[food]]\nname = \"{name}\"\nallergens = []\nsource = \"weighed at home\"\n");
    kitchen()
        .foods(&[food("moon cheese"), food("bluegrain")].concat())
        .recipe("stew", STEW)
        .shops("[[shop]]\nname = \"Stall\"\n[[pack]]\nshop = \"Stall\"\nfood = \"moon cheese\"\nsize = \"200 g\"\nprice = 2.40\n")
        .pantry(SHELF)
}

fn sheet(kitchen: &Kitchen) -> PathBuf {
    kitchen.done(&["count", "--sheet"]);
    kitchen.path().join("sheets/count-2026-11-27.toml")
}

/// Fills in the n-th blank of the sheet, counted from 0.
fn fill(sheet: &Path, blank: usize, counted: &str) {
    let text = fs::read_to_string(sheet).expect("a sheet");
    let mut parts: Vec<&str> = text.split("\ncounted = \"\"\n").collect();
    let rest = parts.split_off(blank + 1);
    let filled = format!("{}\ncounted = \"{counted}\"\n{}", parts.join("\ncounted = \"\"\n"), rest.join("\ncounted = \"\"\n"));
    fs::write(sheet, filled).expect("a sheet");
}

fn count(kitchen: &Kitchen, sheet: &Path, more: &[&str]) -> Output {
    kitchen.run(&[more, &["count", sheet.to_str().expect("a path")]].concat())
}

#[test]
fn the_sheet_has_every_lot_in_the_order_of_the_shelf_with_a_blank() {
    let kitchen = larder();
    let text = fs::read_to_string(sheet(&kitchen)).expect("a sheet");
    let value: toml::Table = text.parse().expect("it is TOML");
    let lots = value["lot"].as_array().expect("lots");
    let said: Vec<_> =
        lots.iter().map(|lot| (lot.get("food").or(lot.get("recipe")).and_then(|name| name.as_str()), lot["booked"].as_str())).collect();
    // Cupboard, fridge, freezer; of one food the oldest first.
    let some = |name, booked| (Some(name), Some(booked));
    assert_eq!(said, [some("bluegrain", "1 kg"), some("moon cheese", "100 g"), some("moon cheese", "200 g"), some("stew", "2 portions")]);
    assert!(lots.iter().all(|lot| lot["counted"].as_str() == Some("")));
    let pdf = fs::read(kitchen.path().join("sheets/count-2026-11-27.pdf")).expect("a PDF");
    assert!(pdf.starts_with(b"%PDF"));
    assert!(!kitchen.path().join("pantry.book.jsonl").exists(), "a sheet books nothing");
}

#[test]
fn into_writes_the_sheet_elsewhere() {
    let kitchen = larder();
    let output = kitchen.run(&["--format", "json", "count", "--sheet", "--into", "elsewhere"]);
    assert_eq!(json(&output)["files"].as_array().map(Vec::len), Some(2));
    assert!(kitchen.path().join("elsewhere/count-2026-11-27.toml").exists());
}

#[test]
fn what_was_found_is_booked_with_its_worth_and_a_blank_stays_as_it_is() {
    // 200 g booked and 150 g found: 50 g at 1.20 a 100 g are 0.60. All of the older 100 g is gone: 1.20. Nobody knows what 200 g of
    // bluegrain more are worth. The stew is not looked at.
    let kitchen = larder();
    let sheet = sheet(&kitchen);
    fill(&sheet, 0, "1.2 kg");
    fill(&sheet, 0, "0");
    fill(&sheet, 0, "150 g");
    let found = json(&count(&kitchen, &sheet, &["--format", "json"]));
    assert_eq!(found["counted"], 3);
    let rows: Vec<_> = found["differences"]
        .as_array()
        .expect("differences")
        .iter()
        .map(|row| (row["food"].as_str().unwrap_or("?"), row["difference"]["amount"].as_f64(), row["value"].as_str()))
        .collect();
    assert_eq!(
        rows,
        [("bluegrain", Some(200.0), None), ("moon cheese", Some(-100.0), Some("-1.20")), ("moon cheese", Some(-50.0), Some("-0.60"))]
    );
    assert_eq!(found["value"], "-1.80");
    let text = kitchen.text("pantry.toml");
    assert!(
        text.contains("# Ours") && text.contains("# the good one") && text.contains("\"150 g\"") && text.contains("\"1.2 kg\""),
        "{text}"
    );
    assert!(!text.contains("2026-12-01") && text.contains("2 portions"), "{text}");
    assert_eq!(kitchen.run(&["--strict", "check", "--book"]).status.code(), Some(0));
}

#[test]
fn undo_takes_a_count_back_to_the_letter_of_each_lot() {
    let kitchen = larder();
    let sheet = sheet(&kitchen);
    fill(&sheet, 2, "150 g");
    let said = stdout(&count(&kitchen, &sheet, &[]));
    assert!(said.contains("counted 150 g") && said.contains("-50 g") && said.contains("0.60 EUR less"), "{said}");
    assert_eq!(count(&kitchen, &sheet, &[]).status.code(), Some(2), "it is booked already");
    kitchen.done(&["undo"]);
    assert_eq!(kitchen.text("pantry.toml"), SHELF);
    assert_eq!(count(&kitchen, &sheet, &[]).status.code(), Some(0), "taken back, it can be booked again");
}

#[test]
fn a_lot_added_by_hand_is_booked_as_new() {
    let kitchen = larder();
    let sheet = sheet(&kitchen);
    let text = fs::read_to_string(&sheet).expect("a sheet");
    let new = "\n[[lot]]\nfood = \"moon cheese\"\namount = \"50 g\"\nplace = \"fridge\"\nuse_by = 2026-12-20\n";
    fs::write(&sheet, text + new).expect("a sheet");
    let found = json(&count(&kitchen, &sheet, &["--format", "json"]));
    assert_eq!((found["value"].as_str(), found["differences"][0]["until"].as_str()), (Some("0.60"), Some("2026-12-20")));
    let before_the_stew = "\n[[lot]]\nrecipe";
    assert_eq!(
        kitchen.text("pantry.toml"),
        SHELF.replace(before_the_stew, &format!("{new}{before_the_stew}")),
        "behind the last of its place"
    );
}

#[test]
fn mistakes_of_a_sheet_are_all_said_with_their_lines_and_nothing_is_booked() {
    let kitchen = larder();
    let sheet = sheet(&kitchen);
    fill(&sheet, 0, "800");
    fill(&sheet, 0, "much");
    fill(&sheet, 0, "2 portions");
    let output = count(&kitchen, &sheet, &[]);
    assert_eq!(output.status.code(), Some(1));
    let said = stderr(&output);
    assert!(said.contains("\"much\" is not an amount"), "{said}");
    fill(&sheet, 0, "");
    let text = fs::read_to_string(&sheet).expect("a sheet").replace("\"much\"", "\"\"");
    fs::write(&sheet, text).expect("a sheet");
    let said = stderr(&count(&kitchen, &sheet, &[]));
    for wanted in ["count-2026-11-27.toml:16:11", "\"800\" has no unit", "moon cheese is booked in another measure: 200 g"] {
        assert!(said.contains(wanted), "{wanted} in {said}");
    }
    assert_eq!(kitchen.text("pantry.toml"), SHELF);
    assert!(!kitchen.path().join("pantry.book.jsonl").exists());
}

#[test]
fn what_was_booked_after_the_sheet_was_written_is_not_counted_over() {
    let kitchen = larder();
    let sheet = sheet(&kitchen);
    fill(&sheet, 1, "90 g");
    assert_eq!(kitchen.run(&["waste", "30 g moon cheese", "--why", "mould"]).status.code(), Some(0));
    let output = count(&kitchen, &sheet, &[]);
    assert_eq!(output.status.code(), Some(1));
    assert!(stderr(&output).contains("100 g of moon cheese was booked when the sheet was written, and 70 g is now"), "{}", stderr(&output));
}

#[test]
fn an_empty_sheet_and_no_sheet_at_all_are_said() {
    let kitchen = larder();
    let sheet = sheet(&kitchen);
    assert!(stderr(&count(&kitchen, &sheet, &[])).contains("nothing is counted in it yet"));
    let none = kitchen.path().join("none.toml");
    assert!(stderr(&count(&kitchen, &none, &[])).contains("there is no such file"));
    assert_eq!(kitchen.run(&["count"]).status.code(), Some(2));
}

#[test]
fn counts_that_are_not_booked_yet_are_not_written_over() {
    let kitchen = larder();
    let sheet = sheet(&kitchen);
    fill(&sheet, 1, "90 g");
    let output = kitchen.run(&["count", "--sheet"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(stderr(&output).contains("is filled in and not booked yet"), "{}", stderr(&output));
    assert_eq!(count(&kitchen, &sheet, &[]).status.code(), Some(0));
    assert_eq!(kitchen.run(&["count", "--sheet"]).status.code(), Some(0), "booked, it may be written anew");
}

#[test]
fn all_mistakes_of_a_sheet_are_told_at_once() {
    let kitchen = larder();
    let sheet = sheet(&kitchen);
    // One that no reader understands, and one that the shelf does not: cheese is weighed.
    fill(&sheet, 0, "some");
    fill(&sheet, 0, "3 sprigs");
    let output = count(&kitchen, &sheet, &[]);
    assert_eq!(output.status.code(), Some(1));
    let said = stderr(&output);
    assert_eq!(said.matches("count-2026-11-27.toml:").count(), 2, "{said}");
}

#[test]
fn what_is_as_much_as_was_booked_and_in_a_pack_does_not_differ() {
    let kitchen = larder();
    let sheet = sheet(&kitchen);
    // The blanks of the bluegrain, 1 kg loose, and of the 100 g of cheese: one pack of a kilogram, and 90 g.
    fill(&sheet, 0, "1 x 1 kg");
    fill(&sheet, 0, "90 g");
    let output = count(&kitchen, &sheet, &[]);
    let said = stdout(&output);
    assert!(said.contains("counted 2 lots, 1 differs") && !said.contains("+0"), "{said}{}", stderr(&output));
    assert!(kitchen.text("pantry.toml").contains("\"1 x 1 kg\""), "{}", kitchen.text("pantry.toml"));
}
