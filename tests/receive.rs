//! Goods in: a trip as printed, and what was otherwise.

use std::fs;

use pretty_assertions::assert_eq;
use serde_json::Value;

use crate::kitchen::{Kitchen, json, kitchen, stderr, supper};

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
    kitchen.done_on("2026-11-28", &[&["receive"], more].concat());
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
fn what_is_bought_fresh_does_not_go_into_the_freezer_because_some_of_it_is_frozen() {
    // Cheese keeps ten days in the fridge, wherever some of it lies; of bluegrain nobody knows how it keeps, so it goes where it lies.
    let frozen = "[[lot]]\nfood = \"moon cheese\"\namount = \"50 g\"\nplace = \"freezer\"\n\
                  [[lot]]\nfood = \"bluegrain\"\namount = \"100 g\"\nplace = \"freezer\"\n";
    let kitchen = shopping().pantry(frozen);
    receive(&kitchen, &[]);
    let stock = json(&kitchen.run(&["--format", "json", "stock"]));
    let lies = |place: &str| {
        let places = stock["places"].as_array().expect("places").iter().filter(|one| one["place"] == place);
        let lots = places.flat_map(|one| one["lots"].as_array().expect("lots"));
        lots.map(|lot| (lot["food"].as_str().unwrap_or("none"), lot["amount"]["amount"].as_f64())).collect::<Vec<_>>()
    };
    assert_eq!(lies("fridge"), [("moon cheese", Some(200.0))]);
    assert_eq!(lies("freezer"), [("moon cheese", Some(50.0)), ("bluegrain", Some(100.0)), ("bluegrain", Some(500.0))]);
}

#[test]
fn list_and_stock_give_what_lies_in_the_cupboard_the_same_last_day() {
    // Cheese keeps ten days in the fridge, and nobody knows how long in the cupboard, where this household has a closed pack of it.
    let closed = "[[lot]]\nfood = \"moon cheese\"\namount = \"1 x 200 g\"\nplace = \"cupboard\"\n";
    let shops = "[[shop]]\nname = \"Stall\"\n[[pack]]\nshop = \"Stall\"\nfood = \"moon cheese\"\nsize = \"200 g\"\nprice = 2.00\n";
    let last_days = |pantry: &str| {
        let kitchen = shopping().shops(shops).pantry(pantry).meals(&supper("2026-11-30", "\"250 g moon cheese\""));
        let list = kitchen.list();
        let said = list["trips"][0]["shops"][0]["sections"][0]["lines"][0]["left_until"].as_str().unwrap_or("none").to_owned();
        receive(&kitchen, &[]);
        let all: Vec<(String, f64, String, bool, String)> = (0..2).flat_map(|place| lots(&kitchen, place)).collect();
        // What came is the lot that has a date, if any has.
        let dated = all.iter().map(|lot| lot.2.clone()).find(|until| until != "none");
        (said, dated.unwrap_or_else(|| "none".to_owned()))
    };
    assert_eq!(last_days(closed), ("none".to_owned(), "none".to_owned()));
    // In the fridge, where it belongs: ten days from the 28th.
    assert_eq!(last_days(&closed.replace("cupboard", "fridge")), ("2026-12-08".to_owned(), "2026-12-08".to_owned()));
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
    kitchen.done(&["undo"]);
    assert_eq!(fs::read_to_string(kitchen.path().join("pantry.toml")).expect("a file"), PANTRY);
    receive(&kitchen, &[]);
    assert_eq!(lots(&kitchen, 1).len(), 1);
}

/// Writes the goods-in sheet and changes it.
fn sheet(kitchen: &Kitchen, changes: &[(&str, &str)]) -> String {
    kitchen.done(&["receive", "--sheet", "goods.toml"]);
    let mut filled = kitchen.text("goods.toml");
    for (from, to) in changes {
        assert!(filled.contains(from), "{from} in {filled}");
        filled = filled.replacen(from, to, 1);
    }
    fs::write(kitchen.path().join("goods.toml"), &filled).expect("a file");
    filled
}

#[test]
fn a_sheet_that_nobody_changed_books_the_list() {
    let (by_list, by_sheet) = (shopping(), shopping());
    receive(&by_list, &[]);
    let written = sheet(&by_sheet, &[]);
    assert!(written.contains("packs = \"500 g\"\npaid = \"\"   # listed: 2.00\n"), "{written}");
    assert_eq!(by_sheet.text("pantry.toml"), PANTRY, "writing a sheet books nothing");
    receive(&by_sheet, &["goods.toml"]);
    assert_eq!((lots(&by_list, 0), lots(&by_list, 1)), (lots(&by_sheet, 0), lots(&by_sheet, 1)));
    assert_eq!(by_sheet.run(&["receive", "--sheet", "goods.toml"]).status.code(), Some(2), "a sheet is not written over");
}

#[test]
fn a_sheet_says_what_the_command_line_says() {
    let kitchen = shopping();
    let changes = [
        ("also = []", "also = [\"200 g bluegrain at 1.20\"]"),
        ("packs = \"500 g\"\n", "packs = \"500 g\"\nwithout = true\n"),
        ("packs = \"250 g\"\npaid = \"\"   # listed: 2.50\nuntil = \"\"", "packs = \"2 x 150 g\"\npaid = \"4.50\"\nuntil = 2026-12-04"),
    ];
    sheet(&kitchen, &changes);
    receive(&kitchen, &["goods.toml"]);
    assert_eq!(lots(&kitchen, 0)[1], row("bluegrain", 200.0, "none", false, "1.20"));
    assert_eq!(lots(&kitchen, 1), [row("moon cheese", 300.0, "2026-12-04", false, "4.50")]);
}

#[test]
fn mistakes_of_a_sheet_are_all_said_with_file_and_line_and_nothing_is_written() {
    let kitchen = shopping();
    let changes = [
        ("packs = \"500 g\"", "packs = \"much\""),
        ("paid = \"\"   # listed: 2.00", "paid = \"two\""),
        ("until = \"\"", "until = \"soon\""),
        ("food = \"moon cheese\"", "food = \"sun cheese\""),
    ];
    let written = sheet(&kitchen, &changes);
    let output = kitchen.run(&["receive", "goods.toml"]);
    assert_eq!(output.status.code(), Some(1));
    let said = stderr(&output);
    for wrong in ["\"much\"", "paid = \"two\"", "\"soon\"", "\"sun cheese\""] {
        let line = written.lines().position(|line| line.contains(wrong)).expect("a line") + 1;
        assert!(said.contains(&format!("goods.toml:{line}:")), "{wrong} in {said}");
    }
    // What is read well but names nothing of this trip.
    fs::remove_file(kitchen.path().join("goods.toml")).expect("a file");
    sheet(&kitchen, &[("food = \"moon cheese\"", "food = \"salt\""), ("also = []", "also = [\"some salt\"]")]);
    let said = stderr(&kitchen.run(&["receive", "goods.toml"]));
    assert!(said.contains("salt is not among what this trip buys") && said.contains("2 mistakes found; nothing was written"), "{said}");
    assert_eq!(kitchen.text("pantry.toml"), PANTRY);
    assert!(!kitchen.path().join("pantry.book.jsonl").exists());
}

#[test]
fn a_sheet_is_not_booked_twice() {
    let kitchen = shopping();
    sheet(&kitchen, &[]);
    receive(&kitchen, &["goods.toml"]);
    let output = kitchen.run(&["receive", "goods.toml"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(stderr(&output).contains("goods.toml:11:8: the trip of Sat 28 Nov is booked already"), "{}", stderr(&output));
}

#[test]
fn paid_prices_go_into_shops_toml_and_undo_brings_the_old_ones_back() {
    // One pack of 500 g for 2.20; 250 g loose for 2.60 are 10.40 a kilogram.
    let kitchen = shopping();
    let before = kitchen.text("shops.toml");
    receive(&kitchen, &["--paid", "bluegrain=2.20", "--paid", "moon cheese=2.60"]);
    let after = before
        .replace("price = 2.00\n", "price = 2.20\nseen = 2026-11-28\n")
        .replace("10.00 / kg\"\n", "10.40 / kg\"\nseen = 2026-11-28\n");
    assert_eq!(kitchen.text("shops.toml"), after);
    assert_eq!(kitchen.run(&["--strict", "check", "--book"]).status.code(), Some(0));
    kitchen.done(&["undo"]);
    assert_eq!((kitchen.text("shops.toml"), kitchen.text("pantry.toml")), (before, PANTRY.to_owned()));
}

#[test]
fn undo_leaves_a_price_that_was_changed_by_hand_since_and_says_so() {
    let kitchen = shopping();
    receive(&kitchen, &["--paid", "bluegrain=2.20"]);
    let edited = kitchen.text("shops.toml").replace("2.20", "2.30");
    let kitchen = kitchen.shops(&edited);
    let output = kitchen.run(&["undo"]);
    assert_eq!(output.status.code(), Some(0));
    assert!(stderr(&output).contains("the price of bluegrain (500 g) has been changed since"), "{}", stderr(&output));
    assert_eq!((kitchen.text("shops.toml"), kitchen.text("pantry.toml")), (edited, PANTRY.to_owned()));
}

#[test]
fn what_is_no_price_of_one_pack_is_booked_and_not_written_into_shops_toml() {
    // Three packs for 5.00 are no whole price of one.
    let kitchen = shopping().meals(&supper("2026-11-30", "\"1500 g bluegrain\""));
    let before = kitchen.text("shops.toml");
    let output = kitchen.run_on("2026-11-28", &["receive", "--paid", "bluegrain=5.00"]);
    assert!(stderr(&output).contains("no price goes into shops.toml of bluegrain"), "{}", stderr(&output));
    assert_eq!(kitchen.text("shops.toml"), before);
    assert_eq!(lots(&kitchen, 0)[1].4, "5.00");
}

#[test]
fn a_price_seen_on_a_later_day_stays() {
    let kitchen = shopping();
    let later = kitchen.text("shops.toml").replace("price = 2.00\n", "price = 2.00\nseen = 2026-11-29\n");
    let kitchen = kitchen.shops(&later);
    kitchen.done_on("2026-11-30", &["receive", "--paid", "bluegrain=2.20"]);
    assert_eq!(kitchen.text("shops.toml"), later);
}

#[test]
fn a_food_that_the_list_has_twice_has_two_lines_of_the_sheet() {
    // Nobody knows what a handful weighs: it stands beside the 250 g.
    let kitchen = shopping().meals(&supper("2026-11-30", "\"250 g moon cheese\", \"1 handful moon cheese\""));
    let written = sheet(&kitchen, &[]);
    assert_eq!(written.matches("food = \"moon cheese\"").count(), 2, "{written}");
    receive(&kitchen, &["goods.toml"]);
    assert_eq!(lots(&kitchen, 1).iter().map(|lot| lot.1).collect::<Vec<_>>(), [250.0, 1.0]);
}

#[test]
fn what_was_bought_beside_the_plan_needs_no_trip() {
    let kitchen = shopping();
    // With a day it is that purchase alone: the trip is still open.
    kitchen.done_on("2026-11-28", &["receive", "--also", "200 g bluegrain at 1.20", "--on", "2026-11-27"]);
    assert_eq!(lots(&kitchen, 0)[1], row("bluegrain", 200.0, "none", false, "1.20"));
    assert_eq!(lots(&kitchen, 1), []);
    assert!(kitchen.text("pantry.toml").contains("since = 2026-11-27"));
    // Without a day it comes with the open trip, and with none it is a purchase of today.
    receive(&kitchen, &["--also", "10 g moon cheese at 0.20"]);
    assert_eq!(lots(&kitchen, 1).iter().map(|lot| lot.1).collect::<Vec<_>>(), [250.0, 10.0]);
    kitchen.done_on("2026-11-30", &["receive", "--also", "20 g moon cheese at 0.30"]);
    assert_eq!(lots(&kitchen, 1).len(), 3);
    assert!(kitchen.done(&["book"]).contains("Bought Mon 30 Nov beside the plan: 20 g moon cheese at 0.30."));
    assert_eq!(kitchen.run(&["--strict", "check", "--book"]).status.code(), Some(0));
}

#[test]
fn a_trip_is_booked_as_of_another_day() {
    let kitchen = shopping();
    kitchen.done_on("2026-11-29", &["receive", "--on", "2026-11-29"]);
    // The cheese came on the 29th and keeps ten days.
    assert_eq!(lots(&kitchen, 1), [row("moon cheese", 250.0, "2026-12-09", true, "2.50")]);
    assert_eq!(kitchen.run(&["receive"]).status.code(), Some(2), "the trip is booked");
}

#[test]
fn lines_of_a_trip_are_booked_apart_and_the_trip_stays_open_until_each_is_settled() {
    let kitchen = shopping();
    let written = sheet(&kitchen, &[]);
    let cheese_at = written.find("\n[[line]]\nfood = \"moon cheese\"").expect("a line");
    fs::write(kitchen.path().join("goods.toml"), &written[..cheese_at]).expect("a file");
    receive(&kitchen, &["goods.toml"]);
    assert_eq!((lots(&kitchen, 0).len(), lots(&kitchen, 1).len()), (2, 0), "the grain alone");
    receive(&kitchen, &[]);
    assert_eq!((lots(&kitchen, 0).len(), lots(&kitchen, 1).len()), (2, 1), "the other line");
    assert_eq!(kitchen.run(&["receive"]).status.code(), Some(2), "each is settled");
    kitchen.done(&["undo", "--back-to", "1"]);
    assert_eq!(kitchen.text("pantry.toml"), PANTRY);
}

#[test]
fn two_trips_of_one_day_are_booked_by_their_order_and_two_sessions_of_one_start_are_a_mistake() {
    let week = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n";
    let kitchen = shopping();
    let kitchen = kitchen.week(&format!("{week}{}", supper("2026-11-30", "\"300 g bluegrain\", \"250 g moon cheese\"")));
    receive(&kitchen, &[]);
    receive(&kitchen, &[]);
    assert_eq!(kitchen.run(&["receive"]).status.code(), Some(2), "both are booked");
    assert_eq!((lots(&kitchen, 0).len(), lots(&kitchen, 1).len()), (2, 1), "nothing is bought twice");
    let session = "[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n";
    let said = kitchen.week(&format!("{week}{session}")).refusal();
    assert!(said.contains("weeks/week.toml:9:1: two sessions begin at 2026-11-29T14:00: this one"), "{said}");
}

#[test]
fn the_old_price_is_told_with_the_digits_of_the_new_one() {
    let kitchen = shopping();
    let shops = kitchen.text("shops.toml").replace("price = 2.00", "price = 2.0");
    let kitchen = kitchen.shops(&shops);
    kitchen.done(&["print"]);
    let said = kitchen.done_on("2026-11-28", &["receive", "--paid", "bluegrain=2.20"]);
    assert!(said.contains("Price: bluegrain, 500 g at Stall: 2.20, was 2.00\n"), "{said}");
}

#[test]
fn what_is_said_twice_of_one_food_is_a_mistake() {
    let kitchen = shopping();
    for (flag, first, second) in [("--paid", "2.20", "2.10"), ("--until", "2026-12-01", "2026-12-02"), ("--instead", "1 kg", "2 kg")] {
        let output = kitchen.run_on("2026-11-28", &["receive", flag, &format!("bluegrain={first}"), flag, &format!("Bluegrain={second}")]);
        assert_eq!(output.status.code(), Some(2), "{flag}");
        let said = stderr(&output);
        assert!(said.contains(&format!("{flag} says two things of Bluegrain.")), "{said}");
    }
    assert_eq!(kitchen.text("pantry.toml"), PANTRY);
}

#[test]
fn goods_of_a_day_to_come_are_told() {
    let kitchen = shopping();
    let on = |flags: &[&str]| kitchen.run_on("2026-11-28", &[flags, &["receive", "--on", "2026-12-01"]].concat());
    let told = "warning: Tue 1 Dec is yet to come: what is booked as of it counts as on the shelf from now on. Where that is not meant: spence undo.\n";
    let strict = on(&["--strict"]);
    assert_eq!((strict.status.code(), stderr(&strict).starts_with(told)), (Some(1), true), "{}", stderr(&strict));
    let plain = on(&[]);
    assert_eq!((plain.status.code(), stderr(&plain)), (Some(0), told.to_owned()));
}

#[test]
fn with_strict_nothing_is_booked_of_a_kitchen_that_list_warns_of() {
    // What waits to be booked is no reason not to book it.
    let kitchen = shopping();
    let strict = |today: &str, verb: &[&str]| kitchen.run_on(today, &[&["--strict"], verb].concat()).status.code();
    assert_eq!(strict("2026-12-01", &["list"]), Some(1), "the trip is not booked");
    assert_eq!(strict("2026-12-01", &["receive"]), Some(0));
    let meal = supper("2026-12-02", "\"50 g moonchese\"");
    let kitchen = shopping().meals(&meal);
    for verb in [&["receive"][..], &["waste", "10 g bluegrain", "--why", "mould"], &["issue", "--until", "2026-12-02"], &["undo"]] {
        let run = kitchen.run_on("2026-12-03", &[&["--strict"], verb].concat());
        assert_eq!(run.status.code(), Some(1), "{verb:?}");
        assert!(stderr(&run).contains("\"moonchese\" is not a known food") && stderr(&run).contains("with --strict; nothing was written."));
    }
    assert_eq!(kitchen.text("pantry.toml"), PANTRY);
}

#[test]
fn one_food_is_answered_once_by_whichever_of_its_names() {
    let foods = "[[food]]\nname = \"bluegrain\"\nalso = [\"blue corn\"]\nallergens = []\nsource = \"weighed at home\"\n";
    let kitchen = shopping().foods(foods).meals(&supper("2026-11-30", "\"300 g bluegrain\""));
    for (flag, one, other) in [("--paid", "bluegrain=1.10", "Blue corn=1.20"), ("--until", "bluegrain=2026-12-04", "Blue corn=2026-12-05")]
    {
        let run = kitchen.run_on("2026-11-28", &["receive", flag, one, flag, other]);
        assert_eq!((run.status.code(), stderr(&run)), (Some(2), format!("error: {flag} says two things of Blue corn. Keep one.\n")));
    }
}

#[test]
fn an_amount_below_nothing_is_named() {
    let kitchen = shopping();
    let said = |arguments: &[&str]| stderr(&kitchen.run_on("2026-11-28", arguments));
    let negative = "error: cannot read \"-1 g bluegrain\": the amount is negative. Instead: write an amount above zero.\n";
    assert_eq!(said(&["waste", "-1 g bluegrain", "--why", "mould"]), negative);
    assert_eq!(said(&["issue", "--also", "-1 g bluegrain"]), negative);
    assert!(said(&["receive", "--also", "-1 g bluegrain"]).contains("the amount is negative"));
    assert!(said(&["waste", "--wy", "--why", "mould"]).contains("it is no option of this verb, and no amount of anything"));
}

/// As [`shopping`], the grain sold by the kilogram, too.
fn two_sizes() -> Kitchen {
    let shops = shopping().text("shops.toml");
    shopping().shops(&format!("{shops}[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nsize = \"1 kg\"\nprice = 3.20\n"))
}

#[test]
fn other_packs_than_listed_cost_what_their_shop_takes_for_them() {
    // 300 g at 2.00 for the 500 g that were listed; the kilogram costs 3.20, however it is said. With 2.50 of cheese the week costs 5.70.
    for amount in ["bluegrain=1 x 1 kg", "bluegrain=1 kg"] {
        let kitchen = two_sizes();
        let household = kitchen.text("kitchen.toml").replace("[household]\n", "[household]\nbudget = 50.00\n");
        let kitchen = kitchen.file("kitchen.toml", &household);
        receive(&kitchen, &["--instead", amount]);
        let list = kitchen.list_on("2026-11-28");
        assert_eq!(list["budget"]["cost"], "5.70", "{amount}");
    }
}

#[test]
fn the_price_paid_for_one_big_pack_is_no_price_of_two_small_ones() {
    let kitchen = two_sizes();
    let said = kitchen.done_on("2026-11-28", &["receive", "--instead", "bluegrain=1 x 1 kg", "--paid", "bluegrain=3.00"]);
    assert!(said.contains("Price: bluegrain, 1 kg at Stall: 3.00, was 3.20"), "{said}");
}

#[test]
fn what_is_bought_by_the_tin_is_closed_packs_where_a_tin_is_known_to_hold_so_much() {
    for (bought, amount) in [
        ("1 tin tinned chickpeas at 0.70", "1 x 400 g"),
        ("2 tins tinned chickpeas", "2 x 400 g"),
        ("2 tins (300 g) tinned chickpeas", "2 x 300 g"),
        ("1 jar passata", "1 x 690 g"),
        ("400 g tinned chickpeas", "400 g"),
        ("1½ tins tinned chickpeas", "600 g"),
    ] {
        let kitchen = shopping();
        kitchen.done_on("2026-11-28", &["receive", "--also", bought, "--on", "2026-11-27"]);
        let pantry = kitchen.text("pantry.toml");
        assert!(pantry.contains(&format!("amount = \"{amount}\"")), "{bought}: {pantry}");
    }
}

#[test]
fn another_amount_is_in_a_measure_that_the_list_can_reckon_with() {
    // One of the packs that the list has; packs of a size of their own.
    for (instead, amount) in [("1 pack", "1 x 500 g"), ("3 bags", "3 x 500 g"), ("2 tins (100 g)", "2 x 100 g"), ("500 g", "500 g")] {
        let kitchen = shopping();
        receive(&kitchen, &["--instead", &format!("bluegrain={instead}")]);
        let pantry = kitchen.text("pantry.toml");
        assert!(pantry.contains(&format!("food = \"bluegrain\"\namount = \"{amount}\"")), "{instead}: {pantry}");
    }
    // The g forgotten; a word that holds nobody knows how much.
    let kitchen = shopping();
    for (food, instead, said) in [
        (
            "bluegrain",
            "500",
            "bluegrain: \"500\" has no unit, and nobody knows what one weighs. Write it with its unit, like \"1 x 500 g\".",
        ),
        ("moon cheese", "1 bottle", "moon cheese: 1 bottle cannot be compared with the 250 g of the list. Write it like \"250 g\"."),
        ("moon cheese", "0 g", "moon cheese: "),
    ] {
        let output = kitchen.run_on("2026-11-28", &["receive", "--instead", &format!("{food}={instead}")]);
        assert_eq!(output.status.code(), Some(2), "{instead}");
        assert!(stderr(&output).contains(said), "{}", stderr(&output));
    }
    let sheet = "from = 2026-11-30\ntrip = 2026-11-28\n[[line]]\nfood = \"bluegrain\"\npacks = \"500\"\n";
    let kitchen = kitchen.file("in.toml", sheet);
    let output = kitchen.run_on("2026-11-28", &["receive", &kitchen.path().join("in.toml").to_string_lossy()]);
    assert_eq!(output.status.code(), Some(1));
    assert!(stderr(&output).contains("\"500\" has no unit"), "{}", stderr(&output));
    assert_eq!(kitchen.text("pantry.toml"), PANTRY);
}

#[test]
fn of_what_was_not_got_nothing_more_can_be_said() {
    let kitchen = shopping();
    for more in [["--instead", "bluegrain=1 x 500 g"], ["--paid", "bluegrain=1.00"], ["--without", "bluegrain"]] {
        let output = kitchen.run_on("2026-11-28", &[&["receive", "--without", "bluegrain"], &more[..]].concat());
        assert_eq!(output.status.code(), Some(2));
        let said = stderr(&output);
        assert!(said.contains("--without says that bluegrain was not bought, and bluegrain is named once more."), "{said}");
    }
}

#[test]
fn a_booking_that_is_refused_warns_of_nothing() {
    let kitchen = shopping();
    for refused in [
        vec!["receive", "--on", "2026-12-01", "--without", "salt"],
        vec!["receive", "--on", "2026-12-01", "--also", "much"],
        vec!["issue", "--meal", "mon supper", "--meal", "tue tea"],
    ] {
        let output = kitchen.run_on("2026-11-28", &refused);
        assert_eq!(output.status.code(), Some(2), "{refused:?}");
        assert!(!stderr(&output).contains("yet to come"), "{}", stderr(&output));
    }
}

#[test]
fn what_is_bought_once_the_week_is_over_is_a_purchase_of_today_alone() {
    let kitchen = shopping();
    kitchen.done_on("2026-12-20", &["receive", "--also", "200 g bluegrain at 1.20"]);
    assert!(kitchen.text("pantry.toml").ends_with("amount = \"200 g\"\nplace = \"cupboard\"\nsince = 2026-12-20\n"));
    // While the week goes on it comes with the trip that waits to be booked, and that is told.
    let kitchen = shopping();
    let output = kitchen.run_on("2026-11-30", &["receive", "--also", "200 g bluegrain at 1.20"]);
    assert_eq!(output.status.code(), Some(0));
    let told = "what stands in --also is booked with the trip, as bought on Sat 28 Nov. For another day: --on DATE.";
    assert!(stderr(&output).contains(told), "{}", stderr(&output));
}

#[test]
fn what_is_asked_for_cooked_and_was_never_weighed_so_is_bought_once() {
    let food = "[[food]]\nname = \"moonroot\"\nallergens = []\nkeeps = { fridge = \"10 days\" }\nsource = \"weighed at home\"\n";
    let kitchen = kitchen().foods(food).meals(&supper("2026-12-04", "\"160 g cooked moonroot\""));
    receive(&kitchen, &[]);
    assert!(kitchen.text("pantry.toml").contains("food = \"moonroot\"\namount = \"160 g cooked\""), "{}", kitchen.text("pantry.toml"));
    let list = json(&kitchen.run_on("2026-11-29", &["--format", "json", "list"]));
    assert_eq!((list["trips"].as_array().map(Vec::len), list["from_pantry"][0]["amount"]["amount"].as_f64()), (Some(0), Some(160.0)));
    kitchen.done_on("2026-12-04", &["issue", "--until", "2026-12-04"]);
    assert!(!kitchen.text("pantry.toml").contains("moonroot"), "{}", kitchen.text("pantry.toml"));
}

/// Starseed oil in bottles of 500 ml at 5.49 and of 1 l at 9.95, moonpaste in jars of 160 g, a jar of it held to be 350 g by whoever wrote it.
fn with_bottles() -> Kitchen {
    let food = |name: &str, more: &str| format!("[[food]]\nname = \"{name}\"\nallergens = []\nsource = \"weighed at home\"\n{more}");
    let pack = |food: &str, size: &str, price: &str| {
        format!("[[pack]]\nshop = \"Stall\"\nfood = \"{food}\"\nsize = \"{size}\"\nprice = {price}\n")
    };
    let shops = "[[shop]]\nname = \"Stall\"\n".to_owned()
        + &pack("starseed oil", "1 l", "9.95")
        + &pack("starseed oil", "500 ml", "5.49")
        + &pack("moonpaste", "160 g", "1.60");
    let foods =
        [food("starseed oil", ""), food("moonpaste", "jar = \"350 g\"\n"), food("moonjam", "jar = \"340 g\"\n"), food("moonwine", "")];
    kitchen().foods(&foods.concat()).shops(&shops).pantry("").meals(&supper("2026-11-30", "\"10 g moonjam\""))
}

/// What a line brings onto the shelf, and what is said of it.
fn bought_beside(line: &str) -> (Option<i32>, String, String) {
    let kitchen = with_bottles();
    let output = kitchen.run_on("2026-11-28", &["receive", "--also", line, "--on", "2026-11-28"]);
    let pantry = kitchen.text("pantry.toml");
    let amount = pantry.lines().find_map(|line| line.strip_prefix("amount = ")).unwrap_or_default().to_owned();
    (output.status.code(), amount, stderr(&output))
}

#[test]
fn a_pack_named_by_its_word_alone_is_one_that_a_shop_sells_and_that_is_said() {
    let taken = |line: &str, amount: &str, why: &str| {
        let (status, booked, said) = bought_beside(line);
        assert_eq!((status, booked.as_str()), (Some(0), amount), "{line}: {said}");
        assert!(said.contains(why) && said.contains("Where that is not meant: spence undo"), "{line}: {said}");
    };
    // Of two sizes the smaller, so that no more is shown than is there; unless what was paid is the price of the other.
    taken(
        "1 bottle starseed oil",
        "\"1 x 500 ml\"",
        "1 bottle of starseed oil is taken as 500 ml, the smallest of those that are sold: 500 ml and 1 l.",
    );
    taken("1 bottle starseed oil at 9.95", "\"1 x 1 l\"", "is taken as 1 l, which costs 9.95 at Stall.");
    taken(
        "2 bottles starseed oil at 10.98",
        "\"2 x 500 ml\"",
        "2 bottles of starseed oil are taken as 500 ml each, which costs 5.49 at Stall.",
    );
    // Half a bottle is no closed pack.
    taken("half a bottle starseed oil", "\"250 ml\"", "is taken as 500 ml");
    // The shop comes before what a jar is held to be in general; without a shop that counts.
    taken("1 jar moonpaste", "\"1 x 160 g\"", "is taken as 160 g, as Stall sells it.");
    taken("3 jars moonjam", "\"3 x 340 g\"", "are taken as 340 g each, as one is known to hold.");
}

#[test]
fn a_pack_of_which_nobody_knows_the_size_is_not_booked() {
    let (status, booked, said) = bought_beside("1 bottle moonwine");
    assert_eq!((status, booked.as_str()), (Some(2), ""), "{said}");
    let mend = "nobody knows how much 1 bottle of moonwine holds. Write its size, like \"1 bottle (500 ml) moonwine\", or a pack of it into \
                shops.toml.";
    assert!(said.contains(mend), "{said}");
    let (status, booked, said) = bought_beside("1 bottle (750 ml) moonwine");
    assert_eq!((status, booked.as_str(), said.as_str()), (Some(0), "\"1 x 750 ml\"", ""));
}
