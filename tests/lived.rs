//! The week once it has begun: what is done, what is taken as done, what is open, and what runs short.

use pretty_assertions::assert_eq;
use serde_json::Value;

use crate::kitchen::{Kitchen, TWO_SESSIONS, assert_amount, draws, has_line, json, kitchen, line_with_trip, stderr, supper};

const MASH: &str = "name = \"Moon mash\"\nmakes = \"4 portions\"\nbatches = \"any\"\nkeeps = { fridge = \"3 days\" }\n\
                    ingredients = [\"400 g bluegrain\"]\n[[step]]\ntext = \"Stir.\"\nhands = \"6 min\"\nwait = \"30 min\"\n";

/// Bluegrain by weight at 1.00 a 100 g, mooncress by weight at 0.50 a 100 g.
const SHOP: &str = "[[shop]]\nname = \"Stall\"\n\
    [[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nsize = \"100 g\"\nprice = 1.00\n\
    [[pack]]\nshop = \"Stall\"\nfood = \"mooncress\"\nsize = \"100 g\"\nprice = 0.50\n";

/// A trip on Saturday, sessions on Sunday and Wednesday evening; mash on Monday, Tuesday and Thursday, greens on Tuesday and Friday.
///
/// Sunday makes 2 portions of 200 g, Wednesday 1 of 100 g: 300 g of bluegrain, 200 g of mooncress, all on Saturday: 3.00 + 1.00.
fn week() -> Kitchen {
    let mash = "\"1 portion recipe:mash\"";
    let meals = supper("2026-11-30", mash)
        + &supper("2026-12-01", "\"1 portion recipe:mash\", \"100 g mooncress\"")
        + &supper("2026-12-03", mash)
        + &supper("2026-12-04", "\"100 g mooncress\"");
    let food = |name: &str| format!("[[food]]\nname = \"{name}\"\nallergens = []\nsource = \"weighed at home\"\n");
    kitchen().foods(&(food("bluegrain") + &food("mooncress"))).shops(SHOP).recipe("mash", MASH).week(&format!("{TWO_SESSIONS}{meals}"))
}

fn list_on(kitchen: &Kitchen, today: &str, more: &[&str]) -> Value {
    json(&kitchen.run_on(today, &[&["--format", "json", "list"], more].concat()))
}

fn prep_on(kitchen: &Kitchen, today: &str, more: &[&str]) -> Value {
    json(&kitchen.run_on(today, &[&["--format", "json", "prep"], more].concat()))
}

fn starts(prep: &Value) -> Vec<&str> {
    prep["sessions"].as_array().expect("sessions").iter().filter_map(|session| session["start"].as_str()).collect()
}

fn states(of: &Value) -> Vec<&str> {
    of.as_array().expect("a list").iter().filter_map(|one| one["state"].as_str()).collect()
}

/// Saturday's trip and Sunday's session are booked.
fn cooked() -> Kitchen {
    let kitchen = week();
    kitchen.done_on("2026-11-28", &["receive"]);
    kitchen.done_on("2026-11-29", &["issue"]);
    kitchen
}

#[test]
fn what_is_booked_is_neither_planned_nor_listed_nor_counted_again() {
    let kitchen = cooked();
    let list = list_on(&kitchen, "2026-11-29", &[]);
    assert_eq!((list["cost"].as_str(), list["trips"].as_array().map(Vec::len)), (Some("0.00"), Some(0)));
    // Of 300 g, 200 g went into Sunday's mash; Wednesday's takes the rest.
    assert_eq!(draws(&list, "bluegrain"), [("2026-12-02".to_owned(), "cupboard".to_owned(), 100.0)]);
    assert_eq!(list["short"], serde_json::json!([]));
    assert_eq!(starts(&prep_on(&kitchen, "2026-11-29", &[])), ["2026-12-02T19:30"]);
    let all = list_on(&kitchen, "2026-11-29", &["--all"]);
    assert_eq!((all["cost"].as_str(), states(&all["trips"])), (Some("0.00"), vec!["done"]));
    assert_eq!(states(&prep_on(&kitchen, "2026-11-29", &["--all"])["sessions"]), ["done", "open"]);
}

#[test]
fn what_is_past_and_not_booked_is_taken_as_done_and_its_boxes_serve() {
    // On Tuesday nothing is booked: Saturday brought 300 + 200 g, Sunday left 2 portions, Monday ate one, and the other is Tuesday's.
    let kitchen = week();
    let list = list_on(&kitchen, "2026-12-01", &[]);
    assert_eq!(list["trips"], serde_json::json!([]));
    assert_eq!(draws(&list, "mash"), [("2026-12-01".to_owned(), "fridge".to_owned(), 1.0)]);
    assert_eq!(draws(&list, "bluegrain"), [("2026-12-02".to_owned(), "cupboard".to_owned(), 100.0)]);
    let warnings = list["warnings"].as_array().expect("warnings");
    let said: Vec<&str> = warnings.iter().filter_map(Value::as_str).collect();
    assert_eq!(
        said,
        ["Week of 30 Nov 2026: not booked, and taken as done: the trip of Sat 28 Nov, the session of Sun 29 Nov 14:00, Mon supper. \
          Not printed, and so taken as the week stands now: the trip of Sat 28 Nov, the session of Sun 29 Nov 14:00. \
          To book: spence receive; spence issue; spence issue --until 2026-11-30."]
    );
    let all = list_on(&kitchen, "2026-12-01", &["--all"]);
    assert_eq!(states(&all["trips"]), ["taken as done"]);
    assert_eq!((all["trips"][0]["cost"].as_str(), all["cost"].as_str()), (Some("4.00"), Some("0.00")));
    assert_eq!(states(&prep_on(&kitchen, "2026-12-01", &["--all"])["sessions"]), ["taken as done", "open"]);
}

#[test]
fn guests_once_the_week_has_begun_make_a_meal_short_and_not_a_mistake() {
    // Two guests on Tuesday want 2 portions more than Sunday made, and 200 g more mooncress than Saturday brought. Two portions are half
    // a batch: 3 minutes of hands, and 30.
    let kitchen = cooked();
    let text = kitchen.text("weeks/week.toml").replacen("on = 2026-12-01\n", "on = 2026-12-01\nname = \"Plates\"\nguests = 2\n", 1);
    let kitchen = kitchen.week(&text);
    let output = kitchen.run_on("2026-11-30", &["--format", "json", "list"]);
    let list = json(&output);
    let short = serde_json::json!([{
        "on": "2026-12-01", "at": "supper", "meal": "Plates", "recipe": "mash", "amount": {"amount": 2.0, "unit": "portion"},
        "remedies": ["cook it before: a session on Tue 1 Dec or earlier", "make it at the meal: 33 min", "leave it out, or eat less of it"]
    }]);
    assert_eq!(list["short"], short);
    assert_eq!(prep_on(&kitchen, "2026-11-30", &[])["short"], short);
    assert!(stderr(&output).contains("short: Tue supper (Plates) lacks 2 portions of Moon mash."), "{}", stderr(&output));
    // 400 g of mooncress are wanted from Tuesday on and 200 g are there: the rest of Friday's and of Tuesday's comes on a trip of its own.
    assert_eq!(list["trips"][0]["planned"], false);
    let (on, line) = line_with_trip(&list, "mooncress");
    assert_eq!(on, "2026-12-01");
    assert_amount(&line["need"], 200.0, "g");
    let text = kitchen.done_on("2026-11-30", &["list"]);
    assert!(text.contains("Still to get, before Tue 1 Dec supper"), "{text}");
    assert!(text.find("Runs short") < text.find("Still to get"), "{text}");
    kitchen.done_on("2026-11-30", &["check"]);
}

#[test]
fn before_anything_is_past_or_booked_a_meal_that_nothing_serves_is_a_mistake() {
    let kitchen = week();
    let text = kitchen.text("weeks/week.toml") + &supper("2026-12-09", "\"1 portion recipe:mash\"");
    let kitchen = kitchen.week(&text);
    assert_eq!(kitchen.run_on("2026-11-27", &["list"]).status.code(), Some(1));
    assert_eq!(kitchen.run_on("2026-11-30", &["list"]).status.code(), Some(0));
}

#[test]
fn a_meal_that_falls_out_eats_nothing() {
    let kitchen = week();
    let text = kitchen.text("weeks/week.toml").replacen("on = 2026-12-04\n", "on = 2026-12-04\nskip = true\n", 1);
    let list = list_on(&kitchen.week(&text), "2026-11-27", &[]);
    assert_amount(&line_with_trip(&list, "mooncress").1["need"], 100.0, "g");
}

#[test]
fn what_was_printed_counts_where_the_plan_has_changed_since() {
    // Printed on Friday; then a guest is written into Monday, which is over by Tuesday: Sunday still made 2 portions, Monday ate both.
    let kitchen = week();
    kitchen.done_on("2026-11-27", &["print", "--only", "list"]);
    let text = kitchen.text("weeks/week.toml").replacen("[[meal]]\non = 2026-11-30\nat", "[[meal]]\non = 2026-11-30\nguests = 1\nat", 1);
    let kitchen = kitchen.week(&text);
    let list = list_on(&kitchen, "2026-12-01", &[]);
    assert_eq!(list["short"][0]["on"], "2026-12-01");
    assert!(!has_line(&list, "bluegrain"), "{list:#}");
}

#[test]
fn a_print_once_the_week_has_begun_keeps_what_is_no_longer_open_word_for_word() {
    let kitchen = week();
    let plan = |kitchen: &Kitchen| -> Value { serde_json::from_str(&kitchen.text("sheets/plan-2026-11-30.json")).expect("JSON") };
    kitchen.done_on("2026-11-27", &["print", "--only", "list"]);
    let before = plan(&kitchen);
    kitchen.done_on("2026-11-28", &["receive"]);
    kitchen.done_on("2026-11-29", &["issue"]);
    kitchen.done_on("2026-11-30", &["issue", "--meal", "mon supper"]);
    kitchen.done_on("2026-11-30", &["print", "--only", "list"]);
    let after = plan(&kitchen);
    let done = |mut told: Value| {
        told["state"] = "done".into();
        told
    };
    assert_eq!(after["list"]["trips"][0], done(before["list"]["trips"][0].clone()));
    assert_eq!(after["list"]["trips"][0]["shops"][0]["sections"][0]["lines"][0]["for"], serde_json::json!(["Moon mash"]));
    assert_eq!(after["list"]["meals"][0], before["list"]["meals"][0]);
    assert_eq!((after["list"]["meals"][0]["on"].as_str(), after["list"]["meals"].as_array().map(Vec::len)), (Some("2026-11-30"), Some(4)));
    assert_eq!(after["prep"]["sessions"][0]["tasks"], before["prep"]["sessions"][0]["tasks"]);
    assert_eq!(states(&after["prep"]["sessions"]), ["done", "open"]);
    // So does the list of all, on a terminal as well.
    let all = list_on(&kitchen, "2026-11-30", &["--all"]);
    assert_eq!(all["trips"][0], after["list"]["trips"][0]);
    let text = kitchen.done_on("2026-11-30", &["list", "--all"]);
    assert!(text.contains("3 × 100 g  bluegrain  300 g  3.00  for Moon mash"), "{text}");
    // A third print keeps what the second kept.
    kitchen.done_on("2026-12-01", &["print", "--only", "list"]);
    assert_eq!(plan(&kitchen)["list"]["trips"], after["list"]["trips"]);
}

#[test]
fn a_week_wholly_past_has_nothing_open_and_all_shows_it() {
    let kitchen = week();
    let list = list_on(&kitchen, "2027-03-01", &[]);
    assert_eq!((&list["trips"], list["cost"].as_str()), (&serde_json::json!([]), Some("0.00")));
    assert_eq!(states(&list_on(&kitchen, "2027-03-01", &["--all"])["trips"]), ["taken as done"]);
}

#[test]
fn the_budget_is_held_against_what_was_paid_and_what_is_open() {
    let kitchen = week();
    let budget = kitchen.text("kitchen.toml").replacen("currency", "budget = \"10.00\"\ncurrency", 1);
    let kitchen = kitchen.file("kitchen.toml", &budget);
    kitchen.done_on("2026-11-28", &["receive"]);
    let text = kitchen.text("weeks/week.toml") + &supper("2026-12-05", "\"100 g mooncress\"");
    // 4.00 were paid, 0.50 are still to be.
    assert_eq!(list_on(&kitchen.week(&text), "2026-11-29", &[])["budget"]["cost"], "4.50");
}

#[test]
fn what_another_week_bought_on_one_of_its_days_does_not_count_in_its_budget() {
    // 4.00 were paid for this week; the next shops on its Friday, which is one of this week's days: 0.50.
    let next = format!("from = 2026-12-07\n[[trip]]\non = 2026-12-04\n{}", supper("2026-12-07", "\"100 g mooncress\""));
    let kitchen = week().file("weeks/next.toml", &next);
    let budget = kitchen.text("kitchen.toml").replacen("currency", "budget = \"1.00\"\ncurrency", 1);
    let kitchen = kitchen.file("kitchen.toml", &budget);
    kitchen.done_on("2026-11-28", &["receive"]);
    let cost = |kitchen: &Kitchen| list_on(kitchen, "2026-12-04", &["--week", "weeks/week.toml"])["budget"]["cost"].clone();
    let before = cost(&kitchen);
    kitchen.done_on("2026-12-04", &["--week", "weeks/next.toml", "receive"]);
    assert_eq!(cost(&kitchen), before);
}

#[test]
fn a_day_tells_what_goes_off_of_what_is_taken_to_lie_there() {
    // Nothing is booked. On Wednesday Sunday's mash is all eaten; of 200 g of mooncress, which keeps four days, Tuesday ate 100.
    let kitchen = week();
    let foods = kitchen.text("foods.toml").replace("name = \"mooncress\"", "name = \"mooncress\"\nkeeps = { fridge = \"4 days\" }");
    let kitchen =
        kitchen.foods(&foods).pantry("[[lot]]\nrecipe = \"mash\"\namount = \"1 portion\"\nplace = \"fridge\"\nuse_by = 2026-12-01\n");
    let on = |today: &str, day: &str| json(&kitchen.run_on(today, &["--format", "json", "day", day]))["goes_off"].clone();
    let gone = |of: &str, amount: f64, unit: &str| serde_json::json!([{ "food": of, "amount": {"amount": amount, "unit": unit}, "place": "fridge" }]);
    // The portion at home is Monday's, so Tuesday has nothing of it left.
    assert_eq!(on("2026-11-30", "2026-12-01"), serde_json::json!([]));
    // Friday's mooncress does not last from Saturday; Tuesday's 100 g are eaten by Wednesday.
    assert_eq!(on("2026-12-01", "2026-12-02"), gone("mooncress", 100.0, "g"));
}

#[test]
fn what_the_list_left_short_is_told_when_it_is_cooked() {
    // 306 g of bluegrain for 3 portions of 102 g; 2 % of them need not be bought: 6 g less is 300 g, three packs.
    let kitchen = week();
    let recipe = kitchen.text("recipes/mash.toml").replace("400 g", "408 g");
    let week = kitchen.text("weeks/week.toml").replace("start = 2026-12-02T19:30", "start = 2026-12-05T19:30");
    let week = week.replace("on = 2026-12-03", "on = 2026-12-02");
    let kitchen = kitchen.recipe("mash", &recipe).week(&week);
    assert_amount(&line_with_trip(&list_on(&kitchen, "2026-11-27", &[]), "bluegrain").1["short"], 6.0, "g");
    kitchen.done_on("2026-11-28", &["receive"]);
    assert!(kitchen.done_on("2026-11-29", &["issue"]).contains("Not on the shelf: 6 g bluegrain"));
}

#[test]
fn nobody_goes_shopping_again_for_what_the_list_left_short() {
    // 306 g of bluegrain are wanted and 300 g are bought, as the list says; 6 g are within 2 %. All of the trip is at home.
    let kitchen = week();
    let recipe = kitchen.text("recipes/mash.toml").replace("400 g", "408 g");
    let kitchen = kitchen.recipe("mash", &recipe);
    assert_amount(&line_with_trip(&list_on(&kitchen, "2026-11-27", &[]), "bluegrain").1["short"], 6.0, "g");
    kitchen.done_on("2026-11-28", &["receive"]);
    assert_eq!(list_on(&kitchen, "2026-11-28", &[])["trips"], serde_json::json!([]));
    assert_eq!(kitchen.run_on("2026-11-28", &["receive"]).status.code(), Some(2), "there is nothing left to book");
    // Were 100 g thrown away, 106 g of 306 g would be missing: a trip of its own, before Sunday.
    kitchen.done_on("2026-11-28", &["waste", "100 g bluegrain", "--why", "it fell"]);
    let list = list_on(&kitchen, "2026-11-28", &[]);
    assert_eq!((line_with_trip(&list, "bluegrain").0, list["trips"][0]["planned"].as_bool()), ("2026-11-29".to_owned(), Some(false)));
}

#[test]
fn the_command_that_would_book_names_the_week_where_another_would_be_meant() {
    let kitchen = week();
    let next = kitchen.text("weeks/week.toml").replace("2026-12-0", "2026-12-1").replace("2026-11-30", "2026-12-10");
    let next = next
        .replace("2026-11-28", "2026-12-08")
        .replace("2026-11-29", "2026-12-09")
        .replace("from = 2026-12-10", "name = \"Next\"\nfrom = 2026-12-10");
    let kitchen = kitchen.file("weeks/next.toml", &next);
    let told = |today: &str, more: &[&str]| {
        let list = list_on(&kitchen, today, more);
        let warnings = list["warnings"].as_array().expect("warnings").clone();
        let said = warnings.iter().filter_map(Value::as_str).find(|said| said.contains("To book")).map(str::to_owned);
        said.and_then(|said| said.split("To book: ").nth(1).map(str::to_owned)).unwrap_or_default()
    };
    // On Tuesday the first week is meant anyway; on the ninth of December the second.
    assert_eq!(told("2026-12-01", &[]), "spence receive; spence issue; spence issue --until 2026-11-30.");
    assert_eq!(
        told("2026-12-09", &["--week", "week"]),
        "spence receive --week weeks/week.toml; spence issue --week weeks/week.toml; spence issue --until 2026-12-04 --week weeks/week.toml."
    );
    assert!(kitchen.done_on("2026-12-09", &["receive", "--week", "weeks/week.toml"]).contains("bought Sat 28 Nov"));
}

#[test]
fn what_does_not_keep_until_its_use_has_a_trip_of_its_own_on_another_day() {
    // Saturday's trip is booked without anything. Bluegrain for Wednesday's session and mooncress for Tuesday are wanted from Tuesday on; Friday's
    // mooncress, which keeps two days, would be past by then.
    let kitchen = week();
    let foods = kitchen.text("foods.toml").replace("name = \"mooncress\"", "name = \"mooncress\"\nkeeps = { fridge = \"2 days\" }");
    let kitchen = kitchen.foods(&foods);
    kitchen.done_on("2026-11-28", &["receive", "--without", "bluegrain", "--without", "mooncress"]);
    let list = list_on(&kitchen, "2026-11-30", &[]);
    let trips: Vec<_> =
        list["trips"].as_array().expect("trips").iter().map(|trip| (trip["on"].as_str(), trip["planned"].as_bool())).collect();
    assert_eq!(trips, [(Some("2026-12-01"), Some(false)), (Some("2026-12-04"), Some(false))]);
    // Each is received in its turn.
    assert!(kitchen.done_on("2026-12-01", &["receive"]).contains("bought Tue 1 Dec"));
    assert!(kitchen.done_on("2026-12-04", &["receive"]).contains("bought Fri 4 Dec"));
    assert_eq!(states(&list_on(&kitchen, "2026-12-04", &["--all"])["trips"]), ["done", "done", "done"]);
}

#[test]
fn the_book_calls_a_recipe_by_its_name() {
    let pantry = "[[lot]]\nrecipe = \"mash\"\namount = \"3 portions\"\nplace = \"fridge\"\nmade = 2026-11-27\n";
    let kitchen = kitchen().recipe("mash", MASH).pantry(pantry);
    let thrown = kitchen.done_on("2026-11-28", &["waste", "1 portion recipe:mash", "--why", "late"]);
    assert!(thrown.contains("thrown away: 1 portion moon mash (late)"), "{thrown}");
    let eaten = kitchen.done_on("2026-11-28", &["issue", "--also", "1 portion recipe:mash"]);
    assert!(eaten.contains("1 portion moon mash beside the plan"), "{eaten}");
    let book = kitchen.done_on("2026-11-28", &["book"]);
    assert!(!book.contains("recipe:"), "{book}");
}

#[test]
fn what_a_making_leaves_below_half_a_portion_is_eaten_with_it_before_and_after_it_is_booked() {
    // 3 portions are made for Tuesday's 1.75 and Wednesday's 1: of the 0.25 left Tuesday gets 1.75 of 2.75, Wednesday the rest.
    let whole = MASH.replacen("4 portions", "3 portions", 1).replacen("batches = \"any\"\n", "", 1);
    let meals = supper("2026-12-01", "\"1.75 portion recipe:mash\"") + &supper("2026-12-02", "\"1 portion recipe:mash\"");
    let food = "[[food]]\nname = \"bluegrain\"\nallergens = []\nsource = \"weighed at home\"\n";
    let sunday = "[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n";
    let kitchen = kitchen()
        .foods(food)
        .shops(SHOP)
        .recipe("mash", &whole)
        .week(&format!("from = 2026-11-30\n[[trip]]\non = 2026-11-28\n{sunday}{meals}"));
    kitchen.done_on("2026-11-28", &["receive"]);
    kitchen.done_on("2026-11-29", &["issue"]);
    let drawn = |today: &str| draws(&list_on(&kitchen, today, &[]), "mash").into_iter().map(|(_, _, amount)| amount).collect::<Vec<_>>();
    let close = |found: Vec<f64>, wanted: &[f64]| {
        assert_eq!(found.len(), wanted.len());
        found.iter().zip(wanted).for_each(|(one, other)| assert!((one - other).abs() < 0.01, "{found:?} for {wanted:?}"));
    };
    close(drawn("2026-11-30"), &[1.909, 1.091]);
    assert_eq!(list_on(&kitchen, "2026-11-30", &[])["expiring"], serde_json::json!([]));
    close(drawn("2026-12-02"), &[1.091]);
    kitchen.done_on("2026-12-02", &["issue", "--until", "2026-12-01"]);
    close(drawn("2026-12-02"), &[1.091]);
    kitchen.done_on("2026-12-03", &["issue", "--until", "2026-12-02"]);
    assert!(!kitchen.text("pantry.toml").contains("mash"), "{}", kitchen.text("pantry.toml"));
}

#[test]
fn once_the_last_meal_is_past_what_has_gone_off_is_told_still() {
    // 100 g of mooncress are good until 2 December; the last meal is on Friday, the 4th.
    let lot = "[[lot]]\nfood = \"mooncress\"\namount = \"900 g\"\nplace = \"fridge\"\nuse_by = 2026-12-02\n";
    let kitchen = week().pantry(lot);
    let gone = |today: &str| {
        let list = list_on(&kitchen, today, &[]);
        let lots = list["expiring"].as_array().expect("lots").iter();
        lots.filter(|lot| lot["food"] == "mooncress").map(|lot| lot["past"].clone()).collect::<Vec<_>>()
    };
    assert_eq!((gone("2026-12-04"), gone("2026-12-05")), (vec![Value::Bool(true)], vec![Value::Bool(true)]));
}

#[test]
fn a_day_says_which_of_its_meals_run_short_and_what_is_to_thaw_for_the_next() {
    let kitchen = cooked();
    kitchen.done_on("2026-11-30", &["waste", "2 portions recipe:mash", "--why", "spilt"]);
    let day = |today: &str, which: &str| json(&kitchen.run_on(today, &["--format", "json", "day", which]));
    let short = day("2026-11-30", "2026-12-01")["short"].clone();
    assert_eq!((short.as_array().map(Vec::len), &short[0]["recipe"]), (Some(1), &serde_json::json!("mash")));
    assert!(kitchen.done_on("2026-11-30", &["day"]).contains("Runs short\n  Mon 30 Nov supper: 1 portion of Moon mash"));
    assert_eq!(day("2026-11-30", "2026-12-04")["short"], serde_json::json!([]));

    let foods = kitchen.text("foods.toml").replace("name = \"mooncress\"", "name = \"mooncress\"\nthaw = \"1 day\"");
    let lot = "[[lot]]\nfood = \"mooncress\"\namount = \"400 g\"\nplace = \"freezer\"\n";
    let meal = format!("from = 2026-11-30\n[[trip]]\non = 2026-11-28\n{}", supper("2026-12-04", "\"100 g mooncress\""));
    let kitchen = week().foods(&foods).pantry(lot).week(&meal);
    let thursday = kitchen.done_on("2026-12-03", &["day"]);
    assert!(thursday.contains("In the evening: Take 100 g mooncress out of the freezer"), "{thursday}");
}

#[test]
fn a_trip_that_is_taken_as_done_bought_what_was_planned_beside_the_other_week() {
    // 250 g at home: the first week eats 100 g on Monday and on Saturday, the second wants 300 g on Monday after. Of 250 less 200 it buys
    // 250 g on Saturday, five packs, and has them on Sunday, nobody having printed or booked anything.
    let food = "[[food]]\nname = \"mooncress\"\nallergens = []\nsource = \"weighed at home\"\n";
    let first =
        format!("from = 2026-11-30\n{}{}", supper("2026-11-30", "\"100 g mooncress\""), supper("2026-12-05", "\"100 g mooncress\""));
    let second = format!("from = 2026-12-07\n[[trip]]\non = 2026-12-05\n{}", supper("2026-12-07", "\"300 g mooncress\""));
    let kitchen = kitchen()
        .foods(food)
        .shops(&SHOP.replacen("\"100 g\"\nprice = 0.50", "\"50 g\"\nprice = 0.50", 1).replace("bluegrain", "mooncress"))
        .pantry("[[lot]]\nfood = \"mooncress\"\namount = \"250 g\"\nplace = \"cupboard\"\n")
        .week(&first)
        .file("weeks/second.toml", &second);
    let of_second = |today: &str| list_on(&kitchen, today, &["--week", "weeks/second.toml"]);
    assert_amount(&line_with_trip(&of_second("2026-12-05"), "mooncress").1["need"], 250.0, "g");
    let sunday = of_second("2026-12-06");
    assert_eq!(sunday["trips"], serde_json::json!([]), "{sunday:#}");
    let drawn: f64 = draws(&sunday, "mooncress").iter().map(|(.., amount)| amount).sum();
    assert_eq!(drawn, 300.0);
}

#[test]
fn what_ought_to_have_been_moved_from_the_freezer_yesterday_is_told_for_today() {
    // One portion lies in the freezer for Tuesday's supper: moved on Monday evening; on Tuesday it is late.
    let mash = MASH.replace("fridge = \"3 days\"", "fridge = \"3 days\", freezer = \"2 months\"");
    let lot = "[[lot]]\nrecipe = \"mash\"\namount = \"1 portion\"\nplace = \"freezer\"\nmade = 2026-11-20\n";
    let kitchen = kitchen().recipe("mash", &mash).pantry(lot).meals(&supper("2026-12-01", "\"1 portion recipe:mash\""));
    let moves = |today: &str| {
        let list = list_on(&kitchen, today, &[]);
        (list["moves"].clone(), prep_on(&kitchen, today, &[])["moves"].clone())
    };
    let eve = serde_json::json!([{ "at": "2026-11-30", "text": "Move 1 portion of moon mash from the freezer to the fridge" }]);
    assert_eq!(moves("2026-11-30"), (eve.clone(), eve));
    let late = "Move 1 portion of moon mash from the freezer to the fridge now, or heat it from frozen, if it was not moved before";
    let told = serde_json::json!([{ "at": "2026-12-01", "text": late }]);
    assert_eq!(moves("2026-12-01"), (told.clone(), told));
    let day = kitchen.done_on("2026-12-01", &["day"]);
    assert!(day.contains(&format!("\nToday: {late}\n")), "{day}");
    assert!(day.contains("Take out: Moon mash, 1 portion, fridge") && !day.contains("Tonight"), "{day}");
    assert!(kitchen.done_on("2026-11-30", &["day", "tue"]).contains("Take out: Moon mash, 1 portion, fridge"));
    // In the calendar it stands all day: supper comes before the evening's errands.
    kitchen.done_on("2026-12-01", &["print", "--only", "calendar"]);
    let calendar = kitchen.text("sheets/week-2026-11-30.ics").replace("\r\n ", "");
    let event = calendar.split("BEGIN:VEVENT").find(|event| event.contains("heat it from frozen")).expect("the errand");
    assert!(event.contains("DTSTART;VALUE=DATE:20261201"), "{event}");
}

#[test]
fn what_the_list_left_short_is_not_to_be_got_once_a_part_of_the_week_is_eaten() {
    // 30 g + 100 g + 145 g are 275 g, of which 2 % are 5.5 g: one pack of 270 g is enough. When Monday's 30 g are eaten, 5 g of 245 g are
    // missing, still.
    let food = "[[food]]\nname = \"bluegrain\"\nallergens = []\nsource = \"weighed at home\"\n";
    let pack = |size: &str, price: &str| format!("[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nsize = \"{size}\"\nprice = {price}\n");
    let shops = format!("[[shop]]\nname = \"Stall\"\n{}{}", pack("270 g", "3.00"), pack("75 g", "0.94"));
    let meals = [("2026-11-30", "\"30 g bluegrain\""), ("2026-12-04", "\"100 g bluegrain\""), ("2026-12-06", "\"145 g bluegrain\"")];
    let meals: String = meals.into_iter().map(|(on, line)| supper(on, line)).collect();
    let kitchen = kitchen().foods(food).shops(&shops).meals(&meals);
    let trips = |today: &str| list_on(&kitchen, today, &[])["trips"].clone();
    assert_amount(&line_with_trip(&list_on(&kitchen, "2026-11-28", &[]), "bluegrain").1["short"], 5.0, "g");
    // Nothing is booked; then the trip; then the meals.
    assert_eq!(trips("2026-12-04"), serde_json::json!([]));
    kitchen.done_on("2026-11-28", &["receive"]);
    assert_eq!(trips("2026-12-05"), serde_json::json!([]));
    kitchen.done_on("2026-12-05", &["issue", "--until", "2026-12-04"]);
    assert_eq!(trips("2026-12-05"), serde_json::json!([]));
    // What is thrown away is missing.
    kitchen.done_on("2026-12-05", &["waste", "20 g bluegrain", "--why", "spilt"]);
    assert_amount(&line_with_trip(&list_on(&kitchen, "2026-12-05", &[]), "bluegrain").1["need"], 25.0, "g");
}

#[test]
fn meals_that_are_booked_before_the_session_that_cooked_for_them_say_so() {
    let kitchen = week();
    kitchen.done_on("2026-11-28", &["receive"]);
    let output = kitchen.run_on("2026-12-01", &["issue", "--until", "2026-11-30"]);
    let said = stderr(&output);
    assert!(said.contains("the session of Sun 29 Nov 14:00 is not booked yet. Book it with spence issue:"), "{said}");
    kitchen.done_on("2026-12-01", &["undo"]);
    kitchen.done_on("2026-12-01", &["issue"]);
    let output = kitchen.run_on("2026-12-01", &["issue", "--until", "2026-11-30"]);
    assert!(!stderr(&output).contains("is not booked"), "{}", stderr(&output));
}

#[test]
fn what_was_moved_out_of_the_freezer_for_a_meal_that_falls_out_is_told() {
    // Moved on Monday evening for Tuesday, and good for three days from then: until Thursday. On Monday itself nothing was moved yet.
    let mash = MASH.replace("fridge = \"3 days\"", "fridge = \"3 days\", freezer = \"2 months\"");
    let lot = "[[lot]]\nrecipe = \"mash\"\namount = \"1 portion\"\nplace = \"freezer\"\nmade = 2026-11-20\n";
    let skipped = |today: &str| {
        let kitchen = kitchen().recipe("mash", &mash).pantry(lot).meals(&supper("2026-12-01", "\"1 portion recipe:mash\""));
        stderr(&kitchen.run_on(today, &["skip", "tue supper"]))
    };
    let said = "1 portion of moon mash: to be moved from the freezer to the fridge on Mon 30 Nov. If it was, it keeps until Thu 3 Dec: write \
                place = \"fridge\" and use_by = 2026-12-03 for its lot into pantry.toml.";
    assert!(skipped("2026-12-01").contains(said), "{}", skipped("2026-12-01"));
    assert!(!skipped("2026-11-30").contains("to be moved"), "{}", skipped("2026-11-30"));
}

#[test]
fn beside_a_book_that_nobody_can_read_what_is_past_is_not_laid_on_the_shelf_once_more() {
    let kitchen = week();
    kitchen.done_on("2026-11-28", &["print"]);
    kitchen.done_on("2026-11-28", &["receive"]);
    let book = kitchen.text("pantry.book.jsonl").replacen("bluegrain", "bluegrein", 1);
    let kitchen = kitchen.file("pantry.book.jsonl", &book);
    // 300 g and 200 g were bought, and stand in pantry.toml: the printed trip brings them no second time.
    let stock =
        |today: &str| json(&kitchen.run_on(today, &["--format", "json", "stock"]))["places"].to_string().matches("bluegrain").count();
    assert_eq!(stock("2026-11-29"), 1);
    let list = list_on(&kitchen, "2026-11-29", &[]);
    let drawn: f64 = draws(&list, "bluegrain").iter().map(|(.., amount)| amount).sum();
    assert_eq!(drawn, 300.0);
    assert_eq!(list["expiring"].to_string().matches("mooncress").count(), 0, "{}", list["expiring"]);
    assert!(!list["warnings"].to_string().contains("taken as done:"), "{}", list["warnings"]);
    // A third portion on Monday wants another 100 g.
    let more = kitchen.text("weeks/week.toml").replacen("\"1 portion recipe:mash\"", "\"2 portions recipe:mash\"", 1);
    let kitchen = kitchen.file("weeks/week.toml", &more);
    assert_amount(&line_with_trip(&list_on(&kitchen, "2026-11-29", &[]), "bluegrain").1["need"], 100.0, "g");
}

#[test]
fn a_list_tells_what_of_an_overlapping_week_was_not_booked() {
    let kitchen = week().file("weeks/other.toml", &format!("from = 2026-12-01\n{}", supper("2026-12-02", "\"100 g mooncress\"")));
    let list = list_on(&kitchen, "2026-11-30", &["--week", "weeks/other.toml"]);
    let warnings = list["warnings"].to_string();
    assert!(warnings.contains("taken as done: the trip of Sat 28 Nov, the session of Sun 29 Nov 14:00"), "{warnings}");
}

#[test]
fn an_overlapping_week_that_is_over_is_told_of_once() {
    let meals = supper("2026-12-04", "\"100 g mooncress\"") + &supper("2026-12-07", "\"100 g mooncress\"");
    let kitchen = week().file("weeks/other.toml", &format!("from = 2026-12-04\n{meals}"));
    kitchen.done_on("2026-11-28", &["receive"]);
    let list = list_on(&kitchen, "2026-12-06", &["--week", "weeks/other.toml"]);
    assert_eq!(list["warnings"].to_string().matches("the session of Sun 29 Nov 14:00").count(), 1, "{}", list["warnings"]);
}

#[test]
fn what_could_be_made_at_the_meal_takes_the_warming_up_of_the_oven_too() {
    // 6 minutes of hands, which do not grow with the load of an oven, 30 in it, and 10 until it is hot.
    let oven = "[[appliance]]\nname = \"oven\"\nroom = 2\nheat = true\n";
    let baked = MASH.replace("wait = \"30 min\"", "wait = \"30 min\"\non = \"oven\"\ntemperature = \"180 °C\"");
    let kitchen = week().household(oven).recipe("mash", &baked);
    kitchen.done_on("2026-11-28", &["receive"]);
    kitchen.done_on("2026-11-29", &["issue"]);
    let text = kitchen.text("weeks/week.toml").replacen("each =", "guests = 1\neach =", 1);
    let list = list_on(&kitchen.file("weeks/week.toml", &text), "2026-11-30", &[]);
    assert_eq!(list["short"][0]["remedies"][1], "make it at the meal: 46 min", "{:#}", list["short"]);
}
