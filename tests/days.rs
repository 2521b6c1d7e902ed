//! Bookings made too early, too late or twice, and what a household is told of them: nothing is booked in silence that did not happen.

use std::fs;

use pretty_assertions::assert_eq;

use crate::kitchen::{Kitchen, json, kitchen, stderr, stdout, supper};

const FOOD: &str = "[[food]]\nname = \"bluegrain\"\nallergens = []\nkeeps = { cupboard = \"100 days\" }\nsource = \"weighed at home\"\n";

/// Two portions of 100 g bluegrain each; three days in the fridge.
const STEW: &str = "name = \"Moon stew\"\nmakes = \"2 portions\"\nbatches = \"whole\"\nkeeps = { fridge = \"3 days\" }\n\
                    ingredients = [\"200 g bluegrain\"]\n[[step]]\ntext = \"Cook {bluegrain}.\"\nhands = \"5 min\"\n";

const GRAIN: &str = "[[lot]]\nfood = \"bluegrain\"\namount = \"1 kg\"\nplace = \"cupboard\"\n";

/// One portion of stew on Monday and Tuesday: one batch of 200 g on Sunday, bought on Saturday where the shelf has none.
fn two_suppers(pantry: &str) -> Kitchen {
    let meals = supper("2026-11-30", "\"1 portion recipe:stew\"") + &supper("2026-12-01", "\"1 portion recipe:stew\"");
    kitchen().foods(FOOD).recipe("stew", STEW).pantry(pantry).meals(&meals)
}

/// What a run says on standard error, and its exit status.
fn told(kitchen: &Kitchen, today: &str, arguments: &[&str]) -> (Option<i32>, String) {
    let output = kitchen.run_on(today, arguments);
    (output.status.code(), stderr(&output))
}

#[test]
fn a_session_that_is_booked_before_its_trip_names_the_trip() {
    let kitchen = two_suppers("");
    let (status, said) = told(&kitchen, "2026-11-29", &["issue"]);
    let way = "the trip of Sat 28 Nov is not booked yet. Book it with spence receive: what the session took of it comes off then.";
    assert!(status == Some(0) && said.contains(way), "{said}");
    kitchen.done_on("2026-11-29", &["undo"]);
    kitchen.done_on("2026-11-29", &["receive"]);
    let (_, said) = told(&kitchen, "2026-11-29", &["issue"]);
    assert!(!said.contains("is not booked"), "{said}");
}

#[test]
fn a_meal_that_lacks_what_its_trip_brings_names_the_trip_and_no_session() {
    let kitchen = kitchen().foods(FOOD).meals(&supper("2026-11-30", "\"100 g bluegrain\""));
    let (_, said) = told(&kitchen, "2026-11-30", &["issue", "--meal", "mon supper"]);
    assert!(said.contains("the trip of Sat 28 Nov is not booked yet.") && said.contains("what the meals took of it"), "{said}");
    assert!(!said.contains("the session of"), "{said}");
}

#[test]
fn a_session_and_a_meal_that_are_yet_to_come_are_told() {
    let kitchen = two_suppers(GRAIN);
    let session = "warning: Sun 29 Nov is yet to come: the session is booked as cooked. Where that is not meant: spence undo.\n";
    let (status, said) = told(&kitchen, "2026-11-28", &["--strict", "issue"]);
    assert_eq!((status, said.starts_with(session)), (Some(1), true), "{said}");
    assert_eq!(told(&kitchen, "2026-11-28", &["issue"]), (Some(0), session.to_owned()));
    let (_, said) = told(&kitchen, "2026-11-29", &["issue", "--meal", "tue supper"]);
    assert!(said.contains("Tue 1 Dec is yet to come: Tue supper is booked as eaten."), "{said}");
}

#[test]
fn a_session_with_an_appliance_out_of_order_is_booked_and_told() {
    let roast = STEW.replace("hands = \"5 min\"", "hands = \"5 min\"\nwait = \"20 min\"\non = \"oven\"\ntemperature = \"180 °C\"");
    let week = "from = 2026-11-30\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\nwithout = [\"oven\"]\n".to_owned()
        + &supper("2026-11-30", "\"1 portion recipe:stew\"");
    let kitchen = kitchen()
        .household("[[appliance]]\nname = \"oven\"\nroom = 2\nheat = true\n")
        .foods(FOOD)
        .recipe("stew", &roast)
        .pantry(GRAIN)
        .week(&week);
    let (status, said) = told(&kitchen, "2026-11-29", &["issue"]);
    assert_eq!(status, Some(0), "{said}");
    assert!(
        said.contains("the oven is out of order, and step 1 of Moon stew needs it. The session is booked as cooked all the same."),
        "{said}"
    );
    assert!(said.contains("weeks/week.toml:") && said.contains("spence undo"), "{said}");
    // Once the session is past.
    kitchen.done_on("2026-11-30", &["undo"]);
    let (_, said) = told(&kitchen, "2026-11-30", &["issue"]);
    assert!(said.contains("the oven is out of order"), "{said}");
}

#[test]
fn meals_are_booked_with_their_days_and_one_that_is_named_twice_is_told() {
    let kitchen = two_suppers(GRAIN);
    kitchen.done_on("2026-11-29", &["issue"]);
    let output = kitchen.run_on("2026-11-30", &["issue", "--meal", "mon supper", "--meal", "Mon supper"]);
    assert!(stdout(&output).contains("eaten: Mon supper (Week of 30 Nov 2026), on Mon 30 Nov"), "{}", stdout(&output));
    assert!(stderr(&output).contains("\"Mon supper\" is named twice, and booked once."), "{}", stderr(&output));
    kitchen.done_on("2026-12-01", &["undo"]);
    let said = kitchen.done_on("2026-12-01", &["issue", "--until", "2026-12-01"]);
    assert!(said.contains("eaten: Mon supper, Tue supper (Week of 30 Nov 2026), from Mon 30 Nov to Tue 1 Dec"), "{said}");
}

#[test]
fn a_trip_that_is_yet_to_come_is_told_when_it_is_booked() {
    let kitchen = two_suppers("");
    // The evening before is early enough.
    assert_eq!(told(&kitchen, "2026-11-27", &["receive"]), (Some(0), String::new()));
    kitchen.done_on("2026-11-27", &["undo"]);
    let (status, said) = told(&kitchen, "2026-11-26", &["receive"]);
    let text = "warning: Sat 28 Nov is yet to come: what is booked as of it counts as on the shelf from now on. Where that is not meant: spence undo.\n";
    assert_eq!((status, said), (Some(0), text.to_owned()));
}

#[test]
fn a_slip_of_the_year_is_told_with_the_year() {
    let kitchen = two_suppers("");
    let output = kitchen.run_on("2026-11-28", &["receive", "--on", "2025-12-02"]);
    assert!(stdout(&output).contains("bought Sat 28 Nov on Tue 2 Dec 2025: 1 lot"), "{}", stdout(&output));
    assert!(stderr(&output).contains("Tue 2 Dec 2025 is long before the trip, Sat 28 Nov 2026:"), "{}", stderr(&output));
    kitchen.done_on("2026-11-28", &["undo"]);
    let (_, said) = told(&kitchen, "2026-11-28", &["receive", "--on", "2027-12-02"]);
    assert!(said.contains("Thu 2 Dec 2027 is yet to come"), "{said}");
}

#[test]
fn a_date_on_a_pack_that_is_past_on_the_day_of_buying_is_told() {
    let kitchen = two_suppers("");
    let (status, said) = told(&kitchen, "2026-11-28", &["receive", "--until", "bluegrain=2026-11-01"]);
    assert_eq!(status, Some(0));
    assert!(said.contains("bluegrain: the date on the pack, Sun 1 Nov, is past on the day of buying, Sat 28 Nov."), "{said}");
    kitchen.done_on("2026-11-28", &["undo"]);
    assert_eq!(told(&kitchen, "2026-11-28", &["receive", "--until", "bluegrain=2026-11-28"]), (Some(0), String::new()));
}

#[test]
fn who_counts_before_what_is_past_is_booked_is_told_that_it_counts_twice() {
    let kitchen = two_suppers(GRAIN);
    kitchen.done_on("2026-11-28", &["receive"]);
    kitchen.done_on("2026-11-30", &["count", "--sheet"]);
    let sheet = kitchen.path().join("sheets/count-2026-11-30.toml");
    let text = fs::read_to_string(&sheet).expect("a sheet");
    fs::write(&sheet, text.replace("counted = \"\"", "counted = \"800 g\"")).expect("written");
    let sheet = sheet.display().to_string();
    let (status, said) = told(&kitchen, "2026-11-30", &["count", &sheet]);
    assert_eq!(status, Some(0), "{said}");
    assert!(said.contains("the session of Sun 29 Nov 14:00. To book: spence issue."), "{said}");
    assert!(said.contains("counts twice"), "{said}");
    let (_, said) = told(&kitchen, "2026-11-30", &["look"]);
    assert!(said.contains("the session of Sun 29 Nov 14:00") && said.contains("counts twice"), "{said}");
}

#[test]
fn what_is_there_only_because_it_is_taken_as_done_is_told_with_what_books_it() {
    let kitchen = two_suppers("");
    let (status, said) = told(&kitchen, "2026-12-01", &["waste", "1 portion recipe:stew", "--why", "it fell"]);
    assert_eq!(status, Some(2));
    assert!(said.contains("there is none on the shelf. Nothing was booked. It is there once what is taken as done is booked:"), "{said}");
    assert!(said.contains("First: spence receive; spence issue; spence issue --until 2026-11-30."), "{said}");
    let (status, said) = told(&kitchen, "2026-12-01", &["issue", "--also", "1 portion recipe:stew"]);
    assert!(status == Some(2) && said.contains("First: spence receive"), "{said}");
    let (status, said) = told(&kitchen, "2026-12-01", &["stock"]);
    assert!(status == Some(0) && said.contains("not booked, and taken as done: the trip of Sat 28 Nov"), "{said}");
    let (_, said) = told(&kitchen, "2026-12-01", &["waste", "1 kg bluegrain", "--why", "it fell"]);
    assert!(said.ends_with("there is none on the shelf. Nothing was booked.\n"), "{said}");
}

#[test]
fn a_lot_that_says_a_day_to_come_is_told_with_its_place() {
    let lots = "[[lot]]\nfood = \"bluegrain\"\namount = \"1 kg\"\nplace = \"cupboard\"\nsince = 2026-12-20\n\
                [[lot]]\nrecipe = \"stew\"\namount = \"1 portion\"\nplace = \"fridge\"\nmade = 2026-12-20\n";
    let kitchen = two_suppers(lots);
    for verb in ["check", "list", "stock"] {
        let (status, said) = told(&kitchen, "2026-11-28", &[verb]);
        assert_eq!(status, Some(0), "{said}");
        assert!(said.contains("pantry.toml:1:1: since = 2026-12-20 of bluegrain is after today, 2026-11-28:"), "{verb}: {said}");
        assert!(said.contains("pantry.toml:6:1: made = 2026-12-20 of moon stew"), "{verb}: {said}");
    }
    let (_, said) = told(&kitchen, "2026-12-20", &["stock"]);
    assert!(!said.contains("after today"), "{said}");
}

#[test]
fn an_emptied_list_of_lots_is_booked_into() {
    let kitchen = two_suppers("lot = []\n");
    kitchen.done_on("2026-11-28", &["receive"]);
    assert!(kitchen.text("pantry.toml").contains("amount = \"200 g\""), "{}", kitchen.text("pantry.toml"));
    kitchen.done_on("2026-11-28", &["undo"]);
    assert!(!kitchen.text("pantry.toml").contains("bluegrain"));
}

#[test]
fn a_print_with_a_byte_that_is_no_letter_is_a_mistake_that_a_print_mends() {
    let kitchen = two_suppers("");
    kitchen.done_on("2026-11-28", &["print"]);
    let print = kitchen.path().join("sheets/plan-2026-11-30.json");
    let mut bytes = fs::read(&print).expect("a print");
    bytes[12] = 0xff;
    fs::write(&print, bytes).expect("written");
    let (status, said) = told(&kitchen, "2026-11-29", &["list"]);
    assert_eq!(status, Some(1), "{said}");
    assert!(said.contains("sheets/plan-2026-11-30.json:") && said.contains("it is not UTF-8 here. Print the week again."), "{said}");
    kitchen.done_on("2026-11-29", &["print"]);
    assert_eq!(told(&kitchen, "2026-11-29", &["list"]).0, Some(0));
}

#[test]
fn a_refused_booking_leaves_no_new_file() {
    let kitchen = two_suppers("").recipe("stew", &STEW.replace("2 portions", "0 portions"));
    assert_eq!(told(&kitchen, "2026-11-28", &["receive"]).0, Some(1));
    assert!(!kitchen.path().join(".pantry.lock").exists());
}

#[test]
fn a_book_without_the_line_that_pantry_has_is_a_warning_for_plans_and_an_error_for_bookings() {
    let kitchen = two_suppers("");
    kitchen.done_on("2026-11-28", &["receive"]);
    let book = kitchen.path().join("pantry.book.jsonl");
    let bytes = fs::read(&book).expect("a book");
    fs::write(&book, &bytes[..bytes.len() - 10]).expect("written");
    let cut = "pantry.book.jsonl:2: this line of the book was cut short, and pantry.toml has what it booked.";
    for verb in ["list", "check", "stock"] {
        let (status, said) = told(&kitchen, "2026-11-28", &[verb]);
        assert!(status == Some(0) && said.contains(cut), "{verb}: {said}");
    }
    let before = fs::read(&book).expect("a book");
    let (status, said) = told(&kitchen, "2026-11-28", &["receive"]);
    assert!(status == Some(1) && said.contains(cut), "{said}");
    assert_eq!(fs::read(&book).expect("a book"), before);
    // Put back as it was, all is well.
    fs::write(&book, bytes).expect("written");
    kitchen.done_on("2026-11-28", &["undo"]);
}

#[test]
fn what_a_dish_made_at_the_meal_leaves_is_on_the_shelf_once_the_meal_is_booked() {
    // A whole batch of 2 portions on Monday, of which one is eaten: the other is Tuesday's.
    let kitchen = two_suppers(GRAIN).recipe("stew", &STEW.replace("batches =", "made = \"at the meal\"\nbatches ="));
    kitchen.done_on("2026-11-30", &["issue", "--until", "2026-11-30"]);
    let pantry = kitchen.text("pantry.toml");
    assert!(pantry.contains("amount = \"800 g\"") && pantry.contains("recipe = \"stew\""), "{pantry}");
    assert!(pantry.contains("amount = \"1 portion\"") && pantry.contains("made = 2026-11-30"), "{pantry}");
    let list = kitchen.list_on("2026-12-01");
    assert_eq!(list["from_pantry"][0]["recipe"], "stew", "{list:#}");
    // Taken as done it is there, too.
    kitchen.done_on("2026-12-01", &["undo"]);
    let list = kitchen.list_on("2026-12-01");
    assert_eq!(list["from_pantry"][0]["recipe"], "stew", "{list:#}");
}

#[test]
fn what_is_eaten_beside_the_plan_is_first_what_is_not_past_its_date() {
    let lots = "[[lot]]\nfood = \"bluegrain\"\namount = \"110 g\"\nplace = \"fridge\"\nuse_by = 2026-11-30\n\
                [[lot]]\nfood = \"bluegrain\"\namount = \"100 g\"\nplace = \"fridge\"\nuse_by = 2026-12-05\n";
    let kitchen = two_suppers(lots);
    // 100 g that are good, then 20 g that are past.
    kitchen.done_on("2026-12-01", &["issue", "--also", "120 g bluegrain"]);
    let pantry = kitchen.text("pantry.toml");
    assert!(pantry.contains("amount = \"90 g\"") && pantry.contains("use_by = 2026-11-30") && !pantry.contains("2026-12-05"), "{pantry}");
}

#[test]
fn a_lot_without_a_date_is_wasted_as_if_it_were_good_until_the_week_ends() {
    // The week ends on 1 December: the lot without a date goes before the one of 18 December.
    let lots = "[[lot]]\nfood = \"bluegrain\"\namount = \"110 g\"\nplace = \"cupboard\"\nbest_before = 2026-12-18\n\
                [[lot]]\nfood = \"bluegrain\"\namount = \"100 g\"\nplace = \"cupboard\"\n";
    let kitchen = two_suppers(lots);
    kitchen.done_on("2026-11-28", &["waste", "100 g bluegrain", "--why", "moths"]);
    let pantry = kitchen.text("pantry.toml");
    assert!(pantry.contains("amount = \"110 g\"") && !pantry.contains("amount = \"100 g\""), "{pantry}");
}

#[test]
fn a_dish_baked_at_the_meal_is_begun_in_time_to_heat_the_oven() {
    // 5 min of hands, then 20 min in the oven, which takes 10 min to come up: 18:30 less 35 min.
    let bake = "name = \"Moon bake\"\nmakes = \"1 portion\"\nmade = \"at the meal\"\ningredients = [\"100 g bluegrain\"]\n\
                [[step]]\ntext = \"Lay {bluegrain} on a tray.\"\nhands = \"5 min\"\n\
                [[step]]\ntext = \"Bake.\"\non = \"oven\"\ntemperature = \"200 °C\"\nwait = \"20 min\"\n";
    let kitchen = kitchen()
        .household("[[appliance]]\nname = \"oven\"\nroom = 2\nheat = true\n")
        .foods(FOOD)
        .recipe("bake", bake)
        .meals(&supper("2026-11-30", "\"1 portion recipe:bake\""));
    let day = json(&kitchen.run_on("2026-11-30", &["--format", "json", "day"]));
    assert_eq!(day["meals"][0]["begin_by"], "2026-11-30T17:55", "{day:#}");
    let said = kitchen.done_on("2026-11-30", &["day"]);
    assert!(said.contains("    1  Heat the oven to 200 °C (390 °F).\n    2  Lay 100 g bluegrain on a tray."), "{said}");
}

#[test]
fn a_trip_that_was_booked_without_a_print_is_told_as_the_book_has_it() {
    // 200 g in packs of 100 g at 1.00.
    let shop = "[[shop]]\nname = \"Stall\"\n[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nsize = \"100 g\"\nprice = 1.00\n";
    let kitchen = two_suppers("").shops(shop);
    kitchen.done_on("2026-11-28", &["receive"]);
    let list = json(&kitchen.run_on("2026-11-28", &["--format", "json", "list", "--all"]));
    let trip = &list["trips"][0];
    assert_eq!((trip["state"].as_str(), trip["cost"].as_str()), (Some("done"), Some("2.00")), "{trip:#}");
    let line = &trip["shops"][0]["sections"][0]["lines"][0];
    assert_eq!((line["food"].as_str(), line["packs"][0]["count"].as_i64()), (Some("bluegrain"), Some(2)), "{trip:#}");
    assert_eq!(list["cost"], "0.00");
    let said = kitchen.done_on("2026-11-28", &["list", "--all"]);
    assert!(said.contains("Sat 28 Nov 2026  2.00 EUR  done") && !said.contains("nothing to buy"), "{said}");
}

#[test]
fn an_exchange_that_would_make_a_mistake_is_not_written() {
    let eater = "[[eater]]\nname = \"Rosa\"\n[[eater]]\nname = \"Emil\"\n";
    let household = "[household]\nname = \"Test row\"\ncurrency = \"EUR\"\n".to_owned() + eater;
    let monday = supper("2026-11-30", "\"100 g bluegrain\"") + "without = { Emil = [\"bluegrain\"] }\n";
    let tuesday = supper("2026-12-01", "\"20 g bluegrain\"") + "for = [\"Rosa\"]\n";
    let kitchen = kitchen().foods(FOOD).file("kitchen.toml", &household).meals(&(monday + &tuesday));
    let before = kitchen.text("weeks/week.toml");
    let (status, said) = told(&kitchen, "2026-11-28", &["exchange", "mon supper", "tue supper"]);
    assert_eq!(status, Some(1), "{said}");
    assert!(said.contains("error: weeks/week.toml: the exchange would bring about that \"Emil\" does not eat at this meal."), "{said}");
    assert_eq!(kitchen.text("weeks/week.toml"), before);
}

#[test]
fn without_kitchen_toml_that_is_the_mistake() {
    let roast = STEW.replace("hands = \"5 min\"", "hands = \"5 min\"\non = \"oven\"");
    let kitchen = two_suppers("").recipe("stew", &roast);
    fs::remove_file(kitchen.path().join("kitchen.toml")).expect("removed");
    let (status, said) = told(&kitchen, "2026-11-28", &["check"]);
    assert!(status == Some(1) && said.contains("there is no kitchen.toml"), "{said}");
    assert!(!said.contains("there is no appliance"), "{said}");
}

#[test]
fn a_word_that_a_dish_fits_holds_no_letter_that_a_terminal_obeys() {
    let kitchen = two_suppers("").recipe("stew", &STEW.replace("batches =", "fits = \"\\u001b[31mx\"\nbatches ="));
    let (status, said) = told(&kitchen, "2026-11-28", &["check"]);
    assert!(status == Some(1) && said.contains("fits: a word holds ␛ (U+001B), which nobody can see. Take it out."), "{said}");
}

#[test]
fn what_nobody_sells_is_booked_alike_from_the_print_and_from_the_plan() {
    // A third of 100 g for each of two, bought without a shop: 66.667 g.
    let kitchen = kitchen().foods(FOOD).meals(&supper("2026-11-30", "\"66 2/3 g bluegrain\""));
    kitchen.done_on("2026-11-28", &["print"]);
    kitchen.done_on("2026-11-28", &["receive"]);
    assert!(kitchen.text("pantry.toml").contains("amount = \"66.667 g\""), "{}", kitchen.text("pantry.toml"));
    kitchen.done_on("2026-11-28", &["undo"]);
    kitchen.done_on("2026-11-28", &["receive", "--replan"]);
    assert!(kitchen.text("pantry.toml").contains("amount = \"66.667 g\""), "{}", kitchen.text("pantry.toml"));
}
