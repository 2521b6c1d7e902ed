//! What the pantry serves, what goes off, staples, and what is never counted.

use pretty_assertions::assert_eq;
use serde_json::{Value, json};

use crate::kitchen::{
    Kitchen, assert_amount, draws, has_line, kitchen, line, line_with_trip, lines, packs, shop_of, sizes, stderr, supper,
};

const BLUEGRAIN: &str = "[[food]]\nname = \"bluegrain\"\nkeeps = { cupboard = \"30 days\", fridge = \"10 days\", opened = \"10 days\" }\n";

/// Monday 30 November and Tuesday 1 December, so many grams of bluegrain each.
fn monday_and_tuesday(monday: &str, tuesday: &str) -> String {
    supper("2026-11-30", &format!("\"{monday} bluegrain\"")) + &supper("2026-12-01", &format!("\"{tuesday} bluegrain\""))
}

fn lot(place: &str, amount: &str, dates: &str) -> String {
    format!("[[lot]]\nfood = \"bluegrain\"\namount = \"{amount}\"\nplace = \"{place}\"\n{dates}\n")
}

fn with_pantry(lots: &str, meals: &str) -> Kitchen {
    kitchen().foods(BLUEGRAIN).pantry(lots).meals(meals)
}

/// (day, grams) of everything drawn.
fn drawn(list: &Value) -> Vec<(String, f64)> {
    draws(list, "bluegrain").into_iter().map(|(on, _, amount)| (on, amount)).collect()
}

fn on(day: &str, amount: f64) -> (String, f64) {
    (day.to_owned(), amount)
}

const MONDAY: &str = "2026-11-30";
const TUESDAY: &str = "2026-12-01";

#[test]
fn nothing_is_bought_that_is_there() {
    let list = with_pantry(&lot("cupboard", "350 g", ""), &supper(MONDAY, "\"300 g bluegrain\"")).list();
    assert!(!has_line(&list, "bluegrain"));
    assert_eq!(drawn(&list), [on(MONDAY, 300.0)]);
    assert_eq!(list["from_pantry"][0]["amount"]["unit"], "g");
    assert_eq!(list["cost"], "0.00");
}

#[test]
fn what_is_missing_is_needed() {
    // 100 at home: Monday's 60, and 40 of Tuesday's 60; 20 are bought, last used on Tuesday.
    let list = with_pantry(&lot("cupboard", "100 g", ""), &monday_and_tuesday("60 g", "60 g")).list();
    assert_eq!(drawn(&list), [on(MONDAY, 60.0), on(TUESDAY, 40.0)]);
    let bought = line(&list, "bluegrain");
    assert_amount(&bought["need"], 20.0, "g");
    assert_eq!(bought["last_used"], TUESDAY);
}

#[test]
fn lots_are_drawn_by_their_earliest_date_and_those_without_any_as_if_it_were_the_last_meals_day() {
    // Until: none, so 1 December, the day of the last meal; 25 November + 30 = 25 December; 20 December; 15 December; opened 28 November + 10 = 8 December.
    let lots = lot("cupboard", "10 g", "")
        + &lot("cupboard", "20 g", "since = 2026-11-25")
        + &lot("cupboard", "35 g", "best_before = 2026-12-20")
        + &lot("cupboard", "40 g", "use_by = 2026-12-15")
        + &lot("cupboard", "50 g", "opened = 2026-11-28");
    // Monday's 60 = the undated 10 + 50 opened; Tuesday's 85 = 40 of the use-by + 35 + 10 of the 20.
    let list = with_pantry(&lots, &monday_and_tuesday("60 g", "85 g")).list();
    let mut drawn = drawn(&list);
    drawn.sort_by(|a, b| a.partial_cmp(b).expect("numbers"));
    assert_eq!(drawn, [on(MONDAY, 10.0), on(MONDAY, 50.0), on(TUESDAY, 10.0), on(TUESDAY, 35.0), on(TUESDAY, 40.0)]);
    assert!(!has_line(&list, "bluegrain"));
}

#[test]
fn lots_of_one_date_are_drawn_in_the_order_of_the_file() {
    let lots = lot("freezer", "50 g", "best_before = 2026-12-20") + &lot("cupboard", "50 g", "best_before = 2026-12-20");
    let list = with_pantry(&lots, &supper(MONDAY, "\"50 g bluegrain\"")).list();
    assert_eq!(draws(&list, "bluegrain"), [(MONDAY.to_owned(), "freezer".to_owned(), 50.0)]);
}

#[test]
fn a_lot_is_drawn_up_to_its_use_by_and_not_after_in_any_place() {
    for place in ["cupboard", "fridge", "freezer"] {
        let list = with_pantry(&lot(place, "100 g", "use_by = 2026-11-30"), &monday_and_tuesday("30 g", "30 g")).list();
        assert_eq!(drawn(&list), [on(MONDAY, 30.0)], "{place}");
        assert_amount(&line(&list, "bluegrain")["need"], 30.0, "g");
    }
}

#[test]
fn an_opened_lot_is_not_drawn_after_its_opened_keeping() {
    // Opened on the 20th, 10 days: until the 30th.
    for place in ["cupboard", "fridge", "freezer"] {
        let list = with_pantry(&lot(place, "100 g", "opened = 2026-11-20"), &monday_and_tuesday("30 g", "30 g")).list();
        assert_eq!(drawn(&list), [on(MONDAY, 30.0)], "{place}");
    }
}

#[test]
fn past_best_before_is_drawn_from_cupboard_and_freezer_but_not_from_the_fridge() {
    for (place, expected) in [("cupboard", 30.0), ("freezer", 30.0), ("fridge", 0.0)] {
        let list = with_pantry(&lot(place, "100 g", "best_before = 2026-11-29"), &supper(MONDAY, "\"30 g bluegrain\"")).list();
        assert_eq!(drawn(&list).iter().map(|(_, amount)| amount).sum::<f64>(), expected, "{place}");
    }
}

#[test]
fn past_its_keeping_is_drawn_from_the_cupboard_but_not_from_the_fridge() {
    // Cupboard 30 days, fridge 10 days, since 1 October: both long past.
    for (place, expected) in [("cupboard", 30.0), ("fridge", 0.0)] {
        let list = with_pantry(&lot(place, "100 g", "since = 2026-10-01"), &supper(MONDAY, "\"30 g bluegrain\"")).list();
        assert_eq!(drawn(&list).iter().map(|(_, amount)| amount).sum::<f64>(), expected, "{place}");
    }
}

#[test]
fn since_counts_only_where_a_lot_has_no_other_date() {
    // By its keeping it was past on 11 October; its best before is what counts.
    let list =
        with_pantry(&lot("fridge", "100 g", "since = 2026-10-01\nbest_before = 2026-12-20"), &supper(MONDAY, "\"30 g bluegrain\"")).list();
    assert_eq!(drawn(&list), [on(MONDAY, 30.0)]);
    assert_eq!(list["expiring"], json!([]));
}

#[test]
fn being_opened_gives_no_date_to_a_food_without_an_opened_keeping() {
    let list = kitchen()
        .foods("[[food]]\nname = \"bluegrain\"\nkeeps = { fridge = \"10 days\" }\n")
        .pantry(&lot("fridge", "100 g", "opened = 2026-10-01"))
        .meals(&supper(MONDAY, "\"30 g bluegrain\""))
        .list();
    assert_eq!(drawn(&list), [on(MONDAY, 30.0)]);
    assert_eq!(list["expiring"], json!([]));
}

#[test]
fn every_lot_that_goes_off_before_the_last_meal_is_reported_needed_or_not() {
    // Last meal on Tuesday 1 December. The first lot is drawn empty, the second goes off on Monday with 70 of 100 left,
    // the third keeps until Tuesday itself, the fourth is a food that nobody needs.
    let lots = lot("cupboard", "20 g", "use_by = 2026-11-29")
        + &lot("cupboard", "100 g", "use_by = 2026-11-30")
        + &lot("cupboard", "5 g", "use_by = 2026-12-01")
        + "[[lot]]\nfood = \"moonroot\"\namount = \"80 g\"\nplace = \"fridge\"\nuse_by = 2026-11-28\n";
    let foods = format!("{BLUEGRAIN}[[food]]\nname = \"moonroot\"\n");
    let meals = supper("2026-11-29", "\"20 g bluegrain\"") + &supper(MONDAY, "\"30 g bluegrain\"") + &supper(TUESDAY, "\"5 g bluegrain\"");
    let list = kitchen().foods(&foods).pantry(&lots).meals(&meals).list();
    let mut found: Vec<(String, f64, String, String)> = list["expiring"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|lot| {
            let text = |key: &str| lot[key].as_str().unwrap_or("?").to_owned();
            (text("food"), lot["amount"]["amount"].as_f64().unwrap_or(f64::NAN), text("place"), text("until"))
        })
        .collect();
    found.sort_by(|a, b| a.0.cmp(&b.0));
    let expected = [("bluegrain", 70.0, "cupboard", MONDAY), ("moonroot", 80.0, "fridge", "2026-11-28")]
        .map(|(food, amount, place, until)| (food.to_owned(), amount, place.to_owned(), until.to_owned()));
    assert_eq!(found, expected);
}

#[test]
fn the_earliest_of_several_dates_is_the_one_a_lot_goes_off_by() {
    // Opened 15 November + 10 days = the 25th, long before the best before.
    let list =
        with_pantry(&lot("fridge", "100 g", "best_before = 2027-01-01\nopened = 2026-11-15"), &supper(MONDAY, "\"30 g bluegrain\"")).list();
    assert_eq!(list["expiring"][0]["until"], "2026-11-25");
    assert!(drawn(&list).is_empty());
}

#[test]
fn a_lot_that_cannot_be_compared_is_not_drawn_and_said() {
    // Two pieces of a food whose piece has no weight, against a need in grams.
    let kitchen = with_pantry(&lot("cupboard", "2", ""), &supper(MONDAY, "\"100 g bluegrain\""));
    let list = kitchen.list();
    assert!(drawn(&list).is_empty());
    assert_amount(&line(&list, "bluegrain")["need"], 100.0, "g");
    assert!(list["warnings"].as_array().is_some_and(|warnings| !warnings.is_empty()));
    assert!(stderr(&kitchen.run(&["list"])).contains("bluegrain"));
}

#[test]
fn a_lot_in_pieces_serves_a_need_in_grams_by_the_weight_of_a_piece() {
    // 2 × 60 = 120 g at home; 200 - 120 = 80.
    let list = kitchen()
        .foods("[[food]]\nname = \"bluegrain\"\neach = \"60 g\"\n")
        .pantry(&lot("cupboard", "2", ""))
        .meals(&supper(MONDAY, "\"200 g bluegrain\""))
        .list();
    assert_amount(&line(&list, "bluegrain")["need"], 80.0, "g");
}

#[test]
fn lots_and_bought_goods_remember_what_they_are_for() {
    let meal = "[[meal]]\non = 2026-11-30\nat = \"supper\"\nname = \"Plates\"\neach = [\"100 g bluegrain\"]\n";
    let list = with_pantry(&lot("cupboard", "60 g", ""), meal).list();
    assert_eq!(list["from_pantry"][0]["for"], json!(["Plates"]));
    assert_eq!(line(&list, "bluegrain")["for"], json!(["Plates"]));
}

#[test]
fn one_lot_has_one_entry_a_day() {
    // Two meals of one day draw 30 + 20 = 50 of one lot.
    let lunch = "[[meal]]\non = 2026-11-30\nat = \"lunch\"\neach = [\"20 g bluegrain\"]\n";
    let list = with_pantry(&lot("cupboard", "100 g", ""), &(supper(MONDAY, "\"30 g bluegrain\"") + lunch)).list();
    assert_eq!(drawn(&list), [on(MONDAY, 50.0)]);
}

// Staples.

fn with_staple(staple: &str, lots: &str, meals: &str) -> Kitchen {
    kitchen().household(&format!("[[staple]]\nfood = \"bluegrain\"\n{staple}\n")).foods(BLUEGRAIN).pantry(lots).meals(meals)
}

#[test]
fn a_staple_is_filled_up_when_less_than_half_is_left_by_default() {
    // 600 at home. After 100 there are 500 left, which is not below half of 1000; after 101 there are 499: 501 are bought.
    let enough = with_staple("par = \"1 kg\"", &lot("cupboard", "600 g", ""), &supper(MONDAY, "\"100 g bluegrain\"")).list();
    assert!(!has_line(&enough, "bluegrain"));
    let low = with_staple("par = \"1 kg\"", &lot("cupboard", "600 g", ""), &supper(MONDAY, "\"101 g bluegrain\"")).list();
    let bought = line(&low, "bluegrain");
    assert_amount(&bought["need"], 501.0, "g");
    assert_eq!(bought["for"], json!(["staple"]));
}

#[test]
fn when_below_can_be_set() {
    // 250 left: not below 200, below 300.
    for (when_below, bought) in [("200 g", false), ("300 g", true)] {
        let staple = format!("par = \"1 kg\"\nwhen_below = \"{when_below}\"");
        let list = with_staple(&staple, &lot("cupboard", "300 g", ""), &supper(MONDAY, "\"50 g bluegrain\"")).list();
        assert_eq!(has_line(&list, "bluegrain"), bought, "{when_below}");
    }
}

#[test]
fn top_up_and_demand_are_one_need_and_new_packs_left_overs_do_not_count() {
    // Nothing at home: 300 for Monday and 1000 for the shelf, though a pack of 2 kg leaves 700.
    let kitchen = with_staple("par = \"1 kg\"", "", &supper(MONDAY, "\"300 g bluegrain\""))
        .foods("[[food]]\nname = \"bluegrain\"\n")
        .shops("[[shop]]\nname = \"Stall\"\n[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nsize = \"2 kg\"\nprice = 3.00\n");
    let bought = line(&kitchen.list(), "bluegrain");
    assert_amount(&bought["need"], 1300.0, "g");
    assert_eq!(bought["packs"][0]["count"], 1);
    assert_amount(&bought["left"], 700.0, "g");
    assert!(bought["for"].as_array().is_some_and(|names| names.contains(&json!("staple"))));
}

#[test]
fn a_staple_that_no_meal_uses_is_filled_up_too() {
    let list = kitchen()
        .household("[[staple]]\nfood = \"bluegrain\"\npar = \"1 kg\"\n")
        .foods(&format!("{BLUEGRAIN}[[food]]\nname = \"moonroot\"\n"))
        .pantry(&lot("cupboard", "100 g", ""))
        .meals(&supper(MONDAY, "\"50 g moonroot\""))
        .list();
    assert_amount(&line(&list, "bluegrain")["need"], 900.0, "g");
}

#[test]
fn what_goes_off_before_the_last_meal_is_not_left_of_a_staple() {
    // 800 with a use-by on Monday; the last meal is on Tuesday: nothing could be drawn then, so the whole par is bought.
    let list =
        with_staple("par = \"1 kg\"", &lot("cupboard", "800 g", "use_by = 2026-11-30"), &monday_and_tuesday("10 g", "0.001 g")).list();
    let need = line(&list, "bluegrain")["need"]["amount"].as_f64().unwrap_or(0.0);
    assert!((need - 1000.001).abs() < 1e-6, "{need}");
}

#[test]
fn a_staple_is_bought_on_the_first_trip_even_if_nobody_sells_it_there() {
    let week = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\nshops = [\"Corner\"]\n[[trip]]\non = 2026-12-02\nshops = [\"Stall\"]\n"
        .to_owned()
        + &supper("2026-12-03", "\"50 g moonroot\"");
    let list = kitchen()
        .household("[[staple]]\nfood = \"bluegrain\"\npar = \"1 kg\"\n")
        .foods(&format!("{BLUEGRAIN}[[food]]\nname = \"moonroot\"\n"))
        .shops("[[shop]]\nname = \"Corner\"\n[[shop]]\nname = \"Stall\"\n[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nsize = \"1 kg\"\nprice = 1.00\n")
        .week(&week)
        .list();
    assert_eq!(line_with_trip(&list, "bluegrain").0, "2026-11-28");
    assert_eq!(shop_of(&list, "bluegrain"), Value::Null);
}

#[test]
fn a_staple_in_always_or_ask_is_ignored_and_said() {
    for rule in ["always", "ask"] {
        let kitchen = kitchen()
            .household(&format!("{rule} = [\"bluegrain\"]\n[[staple]]\nfood = \"bluegrain\"\npar = \"1 kg\"\n"))
            .foods(&format!("{BLUEGRAIN}[[food]]\nname = \"moonroot\"\n"))
            .meals(&supper(MONDAY, "\"50 g moonroot\""));
        let list = kitchen.list();
        assert!(!has_line(&list, "bluegrain"), "{rule}");
        assert!(
            list["warnings"]
                .as_array()
                .is_some_and(|warnings| warnings.iter().any(|w| w.as_str().is_some_and(|w| w.contains("bluegrain")))),
            "{rule}"
        );
    }
}

// What is never counted.

#[test]
fn what_is_in_always_is_never_bought_and_never_counted() {
    let list = kitchen()
        .rules("always = [\"bluegrain\"]")
        .foods(BLUEGRAIN)
        .pantry(&lot("cupboard", "50 g", ""))
        .meals(&supper(MONDAY, "\"100 g bluegrain\""))
        .list();
    assert!(!has_line(&list, "bluegrain"));
    assert!(drawn(&list).is_empty());
    assert_eq!(list["ask"], json!([]));
}

#[test]
fn what_is_in_ask_has_no_need_and_no_draw_and_is_listed_where_the_week_uses_it() {
    let list = kitchen()
        .rules("ask = [\"moonroot\", \"bluegrain\"]")
        .foods(&format!("{BLUEGRAIN}[[food]]\nname = \"moonroot\"\n"))
        .pantry(&lot("cupboard", "50 g", ""))
        .meals(&supper(MONDAY, "\"100 g bluegrain\""))
        .list();
    assert!(!has_line(&list, "bluegrain"));
    assert!(drawn(&list).is_empty());
    assert_eq!(list["ask"], json!(["bluegrain"]));
}

#[test]
fn to_taste_is_bought_only_where_none_is_left_at_home() {
    let foods = "[[food]]\nname = \"bluegrain\"\n";
    let to_taste = supper(TUESDAY, "\"bluegrain, to taste\"");
    let home = kitchen().foods(foods).pantry(&lot("cupboard", "50 g", "")).meals(&to_taste).list();
    assert!(!has_line(&home, "bluegrain"));
    let none = kitchen().foods(foods).meals(&to_taste).list();
    assert_eq!(line(&none, "bluegrain")["need"]["amount"].as_f64(), Some(0.0));
}

#[test]
fn to_taste_is_judged_on_what_earlier_lines_left() {
    // Monday takes all of the 50 g, so Tuesday finds none.
    let meals = supper(MONDAY, "\"50 g bluegrain\"") + &supper(TUESDAY, "\"bluegrain, to taste\"");
    let list = kitchen().foods("[[food]]\nname = \"bluegrain\"\n").pantry(&lot("cupboard", "50 g", "")).meals(&meals).list();
    assert_eq!(line(&list, "bluegrain")["need"]["amount"].as_f64(), Some(0.0));
}

#[test]
fn to_taste_buys_one_pack_by_choose() {
    // The cheapest pack for as little as you like: 30 g at 0.90, not 20 g at 1.00.
    let list = kitchen()
        .foods("[[food]]\nname = \"bluegrain\"\n")
        .shops("[[shop]]\nname = \"Stall\"\n[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nsize = \"20 g\"\nprice = 1.00\n[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nsize = \"30 g\"\nprice = 0.90\n")
        .meals(&supper(TUESDAY, "\"bluegrain, to taste\""))
        .list();
    let bought = line(&list, "bluegrain");
    assert_eq!(packs(&bought), sizes(&[("30 g", 1)]));
    assert_eq!(bought["cost"], "0.90");
}

#[test]
fn salt_to_taste_in_always_is_not_listed() {
    let list = kitchen().rules("always = [\"bluegrain\"]").foods(BLUEGRAIN).meals(&supper(MONDAY, "\"bluegrain, to taste\"")).list();
    assert!(lines(&list).is_empty());
}

#[test]
fn meals_at_one_time_are_served_in_the_order_of_the_file() {
    // 50 g at home: the first meal of the file takes them, the second is bought for.
    let meal = |name: &str| format!("[[meal]]\non = 2026-11-30\nat = \"supper\"\nname = \"{name}\"\neach = [\"50 g bluegrain\"]\n");
    let list = with_pantry(&lot("cupboard", "50 g", ""), &(meal("Zest") + &meal("Apple"))).list();
    assert_eq!(list["from_pantry"][0]["for"], json!(["Zest"]));
    assert_eq!(line(&list, "bluegrain")["for"], json!(["Apple"]));
}

#[test]
fn to_taste_takes_one_loose_step_where_that_is_what_is_sold() {
    // Steps of 30 g at 10.00 a kilogram: 0.30.
    let list = kitchen()
        .foods("[[food]]\nname = \"bluegrain\"\n")
        .shops("[[shop]]\nname = \"Stall\"\n[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nloose = true\nprice = \"10.00 / kg\"\nstep = \"30 g\"\n")
        .meals(&supper(TUESDAY, "\"bluegrain, to taste\""))
        .list();
    let bought = line(&list, "bluegrain");
    assert_amount(&bought["packs"][0]["amount"], 30.0, "g");
    assert_eq!(bought["cost"], "0.30");
}
