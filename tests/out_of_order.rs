//! Meals that are booked before their session, sessions before their trip: what they took is taken off once it comes, and nothing lies on
//! the shelf that was eaten long ago.

use pretty_assertions::assert_eq;
use serde_json::{Value, json};

use crate::kitchen::{Kitchen, draws, json as read, kitchen, stderr, supper};

const MASH: &str = "name = \"Moon mash\"\nmakes = \"4 portions\"\nbatches = \"any\"\nkeeps = { fridge = \"4 days\" }\n\
                    ingredients = [\"400 g bluegrain\"]\n[[step]]\ntext = \"Stir.\"\nhands = \"6 min\"\n";

const FOODS: &str = "[[food]]\nname = \"bluegrain\"\nallergens = []\nkeeps = { cupboard = \"300 days\" }\nsource = \"weighed at home\"\n";

/// Bluegrain in packs of 100 g at 1.00.
const SHOP: &str = "[[shop]]\nname = \"Stall\"\n[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nsize = \"100 g\"\nprice = 1.00\n";

/// Sunday makes three portions of 100 g, for Monday, Tuesday and Wednesday; Monday adds 100 g: 400 g, 4.00.
fn week() -> Kitchen {
    let one = "\"1 portion recipe:mash\"";
    let meals =
        supper("2026-11-30", "\"1 portion recipe:mash\", \"100 g bluegrain\"") + &supper("2026-12-01", one) + &supper("2026-12-02", one);
    kitchen().foods(FOODS).shops(SHOP).recipe("mash", MASH).pantry("").meals(&meals)
}

fn printed() -> Kitchen {
    let kitchen = week();
    kitchen.done_on("2026-11-27", &["print"]);
    kitchen
}

fn list_on(kitchen: &Kitchen, today: &str) -> Value {
    read(&kitchen.run_on(today, &["--format", "json", "list"]))
}

/// What is left of the week on a day: the mash that is drawn, the bluegrain that is drawn, what runs short, what nobody eats, what is to buy.
fn story(kitchen: &Kitchen, today: &str) -> (Vec<f64>, usize, Value, Value, Value) {
    let list = list_on(kitchen, today);
    let mash = draws(&list, "mash").into_iter().map(|(_, _, amount)| amount).collect();
    (mash, draws(&list, "bluegrain").len(), list["short"].clone(), list["expiring"].clone(), list["trips"].clone())
}

/// Two portions are left on Tuesday morning, and nothing else.
fn two_portions() -> (Vec<f64>, usize, Value, Value, Value) {
    (vec![1.0, 1.0], 0, json!([]), json!([]), json!([]))
}

fn booked(kitchen: &Kitchen, today: &str, bookings: &[&[&str]]) {
    bookings.iter().for_each(|booking| drop(kitchen.done_on(today, booking)));
}

const TRIP: &[&str] = &["receive"];
const SESSION: &[&str] = &["issue"];
const MONDAY: &[&str] = &["issue", "--meal", "mon supper"];

/// The shelf when trip, session and meal are booked in order: two portions.
fn in_order() -> String {
    let kitchen = printed();
    booked(&kitchen, "2026-12-01", &[TRIP, SESSION, MONDAY]);
    kitchen.text("pantry.toml")
}

#[test]
fn a_meal_that_is_booked_before_its_session_has_eaten_of_it() {
    let kitchen = printed();
    booked(&kitchen, "2026-12-01", &[TRIP]);
    let said = stderr(&kitchen.run_on("2026-12-01", MONDAY));
    assert!(said.contains("the session of Sun 29 Nov 14:00 is not booked yet. Book it with spence issue"), "{said}");
    assert_eq!(story(&kitchen, "2026-12-01"), two_portions());
    let said = kitchen.done_on("2026-12-01", SESSION);
    assert!(said.contains("; taken off at once, for what was booked before: 1 portion of moon mash"), "{said}");
    assert_eq!(story(&kitchen, "2026-12-01"), two_portions());
    assert_eq!(kitchen.text("pantry.toml"), in_order());
    // Taken back, the session is taken as done again, and Monday has eaten.
    booked(&kitchen, "2026-12-01", &[&["undo"]]);
    assert_eq!(story(&kitchen, "2026-12-01"), two_portions());
    kitchen.done_on("2026-12-01", &["check", "--book"]);
}

#[test]
fn every_order_of_booking_leaves_the_same_shelf() {
    let all = [[TRIP, SESSION, MONDAY], [TRIP, MONDAY, SESSION], [SESSION, TRIP, MONDAY], [SESSION, MONDAY, TRIP], [MONDAY, TRIP, SESSION]];
    for order in all.into_iter().chain([[MONDAY, SESSION, TRIP]]) {
        for kitchen in [printed(), week()] {
            for (done, booking) in order.iter().enumerate() {
                kitchen.done_on("2026-12-01", booking);
                if order[..=done].contains(&MONDAY) {
                    assert_eq!(story(&kitchen, "2026-12-01"), two_portions(), "{:?}", &order[..=done]);
                }
            }
            // 3 portions less 1; 4 x 100 g less 3 for the session and 1 for Monday.
            assert_eq!(kitchen.text("pantry.toml").replace('\n', ""), in_order().replace('\n', ""), "{order:?}");
            // Four packs were bought, however much of them was eaten by then, and three portions were boxed.
            let trip = read(&kitchen.run_on("2026-12-01", &["--format", "json", "list", "--all"]))["trips"][0].clone();
            assert_eq!((&trip["cost"], &trip["state"]), (&json!("4.00"), &json!("done")), "{order:?}");
            let session = read(&kitchen.run_on("2026-12-01", &["--format", "json", "prep", "--all"]))["sessions"][0].clone();
            assert_eq!((&session["boxes"][0]["portions"], &session["state"]), (&json!(3.0), &json!("done")), "{order:?}");
            kitchen.done_on("2026-12-01", &["check", "--book"]);
        }
    }
}

#[test]
fn a_session_that_is_never_booked_feeds_the_meals_that_are() {
    for kitchen in [printed(), week()] {
        booked(&kitchen, "2026-12-02", &[MONDAY, &["issue", "--meal", "tue supper"]]);
        let (mash, ..) = story(&kitchen, "2026-12-02");
        assert_eq!(story(&kitchen, "2026-12-02"), (vec![1.0], 0, json!([]), json!([]), json!([])), "{mash:?}");
        // Nothing of it is on the shelf that is booked.
        assert!(!kitchen.text("pantry.toml").contains("mash"));
    }
}

#[test]
fn what_was_lacked_before_a_session_is_not_taken_off_it() {
    // Monday's box fell and was booked as gone; Monday is booked all the same. A session on Wednesday cooks for later: it owes Monday nothing.
    let kitchen = printed();
    booked(&kitchen, "2026-11-30", &[TRIP, SESSION, &["waste", "3 portions recipe:mash", "--why", "fell"], MONDAY]);
    let later = kitchen
        .text("weeks/week.toml")
        .replace("people = [\"cook\"]\n", "people = [\"cook\"]\n[[session]]\nstart = 2026-12-01T14:00\npeople = [\"cook\"]\n");
    let kitchen = kitchen.week(&later);
    booked(&kitchen, "2026-12-01", &[&["receive", "--also", "4 x 100 g bluegrain"], &["issue", "--replan"]]);
    let pantry = kitchen.text("pantry.toml");
    assert!(pantry.contains("amount = \"2 portions\""), "{pantry}");
}
