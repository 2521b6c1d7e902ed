//! Six afternoons of Boatyard Row, as a cook and a helper would live through them.
//!
//! Sunday 29 November; minutes count from the start of the session.

use pretty_assertions::assert_eq;
use serde_json::Value;

use crate::kitchen::{Kitchen, kitchen, minute, step};

const OVEN: &str = "[[appliance]]\nname = \"oven\"\nroom = 2\nheat = true\n";
const SMALL_OVEN: &str = "[[appliance]]\nname = \"small oven\"\nkind = \"oven\"\nheat = true\n";
const REST: &str = "[[appliance]]\nname = \"hob\"\nroom = 4\n[[appliance]]\nname = \"pressure cooker\"\nholds = \"6 l\"\n";

/// Id and file of each dish.
const DISHES: [(&str, &str); 11] = [
    (
        "roast-chicken",
        r#"name = "Roast chicken thighs"
makes = "3 portions"
serve = "hot"
keeps = { fridge = "2 days" }
ingredients = ["900 g chicken thighs", "1 tbsp olive oil"]
[[step]]
text = "Lay {chicken thighs} on a tray with {olive oil} and roast."
hands = "6 min"
wait = "40 min"
on = "oven"
temperature = "200 °C"
inside = "74 °C"
"#,
    ),
    (
        "roast-roots",
        r#"name = "Roast beetroot and carrots"
makes = "3 portions"
serve = "hot"
keeps = { fridge = "4 days" }
ingredients = ["500 g beetroot, diced", "400 g carrots, sliced", "2 tbsp olive oil"]
[[step]]
text = "Peel and cut {beetroot} and {carrots}, toss with {olive oil}."
hands = "14 min"
skill = "cut"
[[step]]
text = "Roast until soft."
hands = "1 min"
wait = "45 min"
on = "oven"
temperature = "190 °C"
"#,
    ),
    (
        "bean-mash",
        r#"name = "White-bean and rosemary mash"
makes = "6 portions"
serve = "hot"
keeps = { fridge = "3 days", freezer = "2 months" }
ingredients = ["2 tins white beans (400 g)", "2 tbsp olive oil", "1 tsp rosemary"]
[[step]]
text = "Warm {olive oil} and {rosemary} with {white beans}."
hands = "4 min"
wait = "8 min"
on = "hob"
[[step]]
text = "Mash."
hands = "4 min"
skill = "mix"
within = "15 min"
"#,
    ),
    (
        "slaw",
        r#"name = "Red cabbage and apple slaw"
makes = "6 portions"
serve = "cold"
keeps = { fridge = "3 days" }
ingredients = ["1/2 red cabbage", "2 apples", "3 tbsp plain yoghurt"]
[[step]]
text = "Shred {red cabbage} and grate {apples}."
hands = "12 min"
skill = "cut"
[[step]]
text = "Mix with {plain yoghurt}."
hands = "2 min"
skill = "mix"
"#,
    ),
    (
        "herb-yoghurt",
        r#"name = "Herb yoghurt"
makes = "6 portions"
serve = "cold"
keeps = { fridge = "3 days" }
ingredients = ["500 g plain yoghurt", "20 g parsley"]
[[step]]
text = "Wash and pick {parsley}."
hands = "4 min"
skill = "wash"
[[step]]
text = "Chop it and stir into {plain yoghurt}."
hands = "4 min"
skill = "mix"
"#,
    ),
    (
        "barley",
        r#"name = "Pearl barley"
makes = "6 portions"
serve = "hot"
keeps = { fridge = "3 days" }
ingredients = ["400 g pearl barley", "1 l water"]
[[step]]
text = "Rinse {pearl barley}, add {water} and close the cooker."
hands = "4 min"
wait = "20 min"
on = "pressure cooker"
"#,
    ),
    (
        "pepper-sauce",
        r#"name = "Red-pepper sauce"
makes = "6 portions"
serve = "hot"
keeps = { fridge = "4 days" }
ingredients = ["4 red peppers", "1 onion, diced", "2 tbsp olive oil"]
[[step]]
text = "Halve {red peppers} and roast."
hands = "5 min"
wait = "25 min"
on = "oven"
temperature = "220 °C"
[[step]]
text = "Soften {onion} in {olive oil}, add the peppers and simmer."
hands = "6 min"
wait = "10 min"
on = "hob"
[[step]]
text = "Blend."
hands = "3 min"
skill = "mix"
within = "20 min"
"#,
    ),
    (
        "flatbreads",
        r#"name = "Flatbreads"
makes = "12 pieces"
serve = "cold"
keeps = { cupboard = "3 days" }
ingredients = ["600 g bread flour", "2 tbsp olive oil", "380 ml water"]
[[step]]
text = "Knead {bread flour}, {olive oil} and {water}."
hands = "10 min"
wait = "60 min"
[[step]]
text = "Roll out and bake."
hands = "10 min"
wait = "8 min"
on = "oven"
temperature = "240 °C"
within = "30 min"
"#,
    ),
    (
        "frittata",
        r#"name = "Frittata"
makes = "6 portions"
serve = "cold"
keeps = { fridge = "2 days" }
ingredients = ["8 eggs", "300 g potatoes, sliced"]
[[step]]
text = "Boil {potatoes}."
hands = "5 min"
wait = "12 min"
on = "hob"
[[step]]
text = "Beat {eggs}, pour over and bake until set."
hands = "6 min"
wait = "25 min"
on = "oven"
temperature = "170 °C"
inside = "71 °C"
"#,
    ),
    (
        "baked-fish",
        r#"name = "Baked fish with dill"
makes = "3 portions"
serve = "hot"
hold = "5 min"
keeps = { fridge = "1 day" }
ingredients = ["600 g cod fillets", "2 tbsp chopped dill", "1 tbsp olive oil"]
[[step]]
text = "Lay {cod fillets} on a tray with {dill} and {olive oil} and bake."
hands = "5 min"
wait = "15 min"
on = "oven"
temperature = "200 °C"
inside = "63 °C"
"#,
    ),
    (
        "leek-soup",
        r#"name = "Leek and potato soup"
makes = "6 portions"
serve = "hot"
keeps = { fridge = "3 days" }
ingredients = ["3 leeks, sliced", "500 g potatoes, diced", "1 tbsp olive oil", "1 l water"]
[[step]]
text = "Wash {leeks} and {potatoes}."
hands = "4 min"
skill = "wash"
[[step]]
text = "Slice the leeks, dice the potatoes."
hands = "9 min"
skill = "cut"
[[step]]
text = "Soften in {olive oil}, add {water} and simmer."
hands = "8 min"
wait = "20 min"
on = "hob"
[[step]]
text = "Blend."
hands = "3 min"
skill = "mix"
"#,
    ),
];

fn meal(on: &str, each: &[&str]) -> String {
    let each: Vec<String> = each.iter().map(|one| format!("\"{one}\"")).collect();
    format!("[[meal]]\non = {on}\nat = \"supper\"\neach = [{}]\n", each.join(", "))
}

/// The household of three with what there is to cook on, one session and its meals, and the dishes that they name.
fn afternoon(appliances: &str, session: &str, meals: &[String]) -> Kitchen {
    let week = format!("from = 2026-11-29\n[[trip]]\non = 2026-11-28\n[[session]]\n{session}\n{}", meals.concat());
    let household = "[household]\nname = \"Boatyard Row\"\neaters = 3\ncurrency = \"EUR\"\nmealtimes = { supper = \"18:30\" }\n";
    let named = DISHES.into_iter().filter(|(id, _)| week.contains(&format!("recipe:{id}")));
    let kitchen = named.fold(kitchen(), |kitchen, (id, text)| kitchen.recipe(id, text));
    kitchen.file("kitchen.toml", &format!("{household}{appliances}")).week(&week)
}

fn session(prep: &Value) -> &Value {
    &prep["sessions"][0]
}

fn advice(prep: &Value) -> String {
    session(prep)["advice"].to_string()
}

const SUN: &str = "2026-11-29";
const MON: &str = "2026-11-30";
const TUE: &str = "2026-12-01";

/// From 15:30 to the meal at 18:30 are 180 min; what is served hot is ready at most 30 min before.
#[test]
fn a_roast_dinner_ends_together_with_the_meal_and_says_when_that_is() {
    let meals = [
        meal(SUN, &["1 portion recipe:roast-chicken", "1 portion recipe:roast-roots", "1 portion recipe:bean-mash"]),
        meal(MON, &["1 portion recipe:slaw", "1 portion recipe:bean-mash"]),
    ];
    let kitchen = afternoon(&[OVEN, REST].concat(), "start = 2026-11-29T15:30\nfinish_by = \"17:30\"\npeople = [\"Ann\"]", &meals);
    let prep = kitchen.prep();
    for (dish, last) in [("roast-chicken", 1), ("roast-roots", 2), ("bean-mash", 2)] {
        let end = minute(step(&prep, dish, last), "end_minute");
        assert!((150..=180).contains(&end), "{dish} ends at {end}");
    }
    assert_eq!(advice(&prep), "[]");
    let told = kitchen.done(&["prep"]);
    // The slaw is done in 6 + 2 min and boxed in 3; Ann is at work until the meal.
    let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(told.contains("15:30 to 18:30, to finish by 17:30, served at 18:30: the rest done at 15:40, 10 min,"), "{told}");
}

/// 220, 190, 170 and 240 °C, none within 10 °C of another: four warm-ups, each with nothing in the oven.
#[test]
fn a_baking_day_sets_the_oven_once_for_each_temperature() {
    let meals = [
        meal(MON, &["2 pieces recipe:flatbreads", "1 portion recipe:frittata"]),
        meal(TUE, &["1 portion recipe:roast-roots", "2 pieces recipe:flatbreads", "1 portion recipe:pepper-sauce"]),
    ];
    let kitchen = afternoon(&[OVEN, REST].concat(), "start = 2026-11-29T10:00\nfinish_by = \"14:00\"\npeople = [\"Ann\"]", &meals);
    let told = kitchen.done(&["prep"]);
    assert_eq!(told.matches("Set the oven to").count(), 4, "{told}");
    assert_eq!(advice(&kitchen.prep()), "[]");
}

#[test]
fn a_helper_of_one_hour_washes_and_mixes_within_it_and_does_nothing_else() {
    let meals = [
        meal(MON, &["1 portion recipe:roast-roots", "1 portion recipe:bean-mash", "1 portion recipe:herb-yoghurt"]),
        meal(TUE, &["1 portion recipe:leek-soup", "1 portion recipe:slaw"]),
    ];
    let people = "people = [\"Ann\", { name = \"Jo\", as = \"helper\", from = \"15:00\", until = \"16:00\", may = [\"wash\", \"mix\"] }]";
    let kitchen = afternoon(&[OVEN, REST].concat(), &format!("start = 2026-11-29T14:00\nfinish_by = \"17:00\"\n{people}"), &meals);
    let prep = kitchen.prep();
    let tasks = session(&prep)["tasks"].as_array().expect("a list");
    let hers: Vec<&Value> = tasks.iter().filter(|task| task["person"] == "Jo").collect();
    assert!(!hers.is_empty(), "{tasks:#?}");
    for task in hers {
        assert!(minute(task, "start_minute") >= 60 && minute(task, "end_minute") <= 120, "{task:#?}");
        assert!(task["kind"] != "step" || task["on"].as_array().is_none_or(Vec::is_empty), "{task:#?}");
    }
}

#[test]
fn ninety_minutes_while_a_child_sleeps_are_enough_for_four_dishes() {
    let meals = [
        meal(MON, &["1 portion recipe:barley", "1 portion recipe:roast-roots", "1 portion recipe:herb-yoghurt"]),
        meal(TUE, &["1 portion recipe:leek-soup", "1 portion recipe:barley"]),
    ];
    let people = "people = [{ name = \"Ann\", as = \"cook\", until = \"14:30\" }]";
    let prep = afternoon(&[OVEN, REST].concat(), &format!("start = 2026-11-29T13:00\nfinish_by = \"14:30\"\n{people}"), &meals).prep();
    assert!(minute(session(&prep), "minutes") <= 90);
    assert_eq!(advice(&prep), "[]");
}

/// The fish is for 18:30 and counts for nothing: what is late is the rest, and the rest is what is named.
#[test]
fn where_a_session_is_late_what_is_served_after_it_is_not_what_it_ends_with() {
    let meals = [
        meal(SUN, &["1 portion recipe:baked-fish", "1 portion recipe:slaw"]),
        meal(MON, &["1 portion recipe:roast-roots", "1 portion recipe:pepper-sauce", "2 pieces recipe:flatbreads"]),
        meal(TUE, &["1 portion recipe:frittata", "1 portion recipe:roast-roots"]),
    ];
    let people = "start = 2026-11-29T14:00\nfinish_by = \"15:30\"\npeople = [\"Ann\", \"Ben\"]";
    let sauce = DISHES.iter().find(|(id, _)| *id == "pepper-sauce").expect("a dish").1.replace("\"oven\"", "\"small oven\"");
    let kitchen = afternoon(&[OVEN, SMALL_OVEN, REST].concat(), people, &meals).recipe("pepper-sauce", &sauce);
    let said = advice(&kitchen.prep());
    assert!(said.contains("It ends with") && !said.contains("It ends with baked fish"), "{said}");
}

#[test]
fn five_plant_components_are_done_by_two_within_two_hours() {
    let meals = [
        meal(MON, &["1 portion recipe:barley", "1 portion recipe:roast-roots", "1 portion recipe:pepper-sauce"]),
        meal(TUE, &["1 portion recipe:bean-mash", "1 portion recipe:slaw", "1 portion recipe:pepper-sauce"]),
    ];
    let people = "start = 2026-11-29T14:00\nfinish_by = \"17:30\"\npeople = [\"Ann\", \"Ben\"]";
    let prep = afternoon(&[OVEN, REST].concat(), people, &meals).prep();
    assert!(minute(session(&prep), "minutes") <= 120);
    assert_eq!((session(&prep)["proven"].as_bool(), advice(&prep).as_str()), (Some(true), "[]"));
}
