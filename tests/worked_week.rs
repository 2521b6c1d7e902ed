//! A small week worked out by hand, from Saturday's trip to Friday's supper; list and plan are held against it as a whole.
//!
//! Two eaters. Saturday 28 November: trip. Sunday 29: first session. Wednesday 2 December: second session, after supper.
//!
//! ```text
//! Mon 30 supper   moon stew, blue grain
//! Tue  1 supper   blue grain, 60 g starcheese each
//! Thu  3 supper   moon stew, 40 g starcheese each
//! Fri  4 supper   blue grain, night broth, 100 g diced moonroot each
//! ```
//!
//! **Makings.** A batch of each recipe is 4 portions, of the broth 2.
//! - Stew, whole batches, 2 days in the fridge: Monday's 2 portions are made on Sunday (29 + 2 = 1 December). One batch is 4; the spare 2 are
//!   frozen and serve Thursday's 2, moved on Wednesday the 2nd. Nothing is made on Wednesday, nothing is left.
//! - Grain, half batches, 3 days: Sunday's serves Monday and Tuesday, 2 + 2 = 4 = 1 batch. Friday's 2 are made on Wednesday: 2 ÷ 4 = 0.5 batch.
//! - Broth, any batches, 1 day in the fridge: Wednesday's reaches Thursday, not Friday; so Friday's 2 are frozen on Wednesday and moved on
//!   Thursday the 3rd. 2 ÷ 2 = 1 batch.
//!
//! **Demand, pantry, need.**
//! - Moonroot: stew 500 g on Sunday, broth 100 g on Wednesday, Friday 2 × 100 ÷ 0.8 = 250 g; 850 g in all. 120 g are at home: 730 g are needed,
//!   loose in steps of 100 g: 800 g at 1.50 a kilogram = 1.20; 70 g left.
//! - Bluegrain: 1 batch on Sunday 200 g, 0.5 on Wednesday 100 g. 150 g are at home: 150 g are needed. 2 % of 300 g are 6 g, so a packet of
//!   500 g at 1.20; 350 g left.
//! - Starcheese: Tuesday 120 g of the 150 g at home, whose use-by is Tuesday: 30 g go off. Thursday's 80 g are bought: 150 g at 2.00; 70 g left.
//! - Goldoil: 100 ml on Sunday, which are at home.
//!
//! Goods 1.20 + 1.20 + 2.00 = 4.40, and 0.50 for the way: 4.90.
//!
//! **Left over.** Moonroot 70 of 800 g, 0.105, good 20 days from the trip, to 18 December; bluegrain 350 of 500 g, 0.84, 300 days; starcheese 70
//! of 150 g, 0.933, 10 days. The week ends on 4 December: the cheese does not keep to the 11th, 0.93; the others do, 0.945, 0.95; used is the
//! rest of 4.90. A batch of grain uses 200 g at 0.0024; of broth or stew all 70 g of moonroot, in the order of their files.
//!
//! **Sunday**, one cook: stew cut 0 to 10, on the hob 10 to 43 (2 + 30, and 1 off the ring), 10 of cooling, boxed 53 to 56. The grain fits
//! between, to the minute: on the hob 12 to 40 (3 + 24 + 1), boxed 50 to 53. No plan is shorter than the stew's own 56.
//!
//! **Wednesday**: broth 0 to 36 (5 + 30 + 1), boxed 46 to 49; grain 5 to 33 (3 + 24 + 1), boxed 43 to 46. The broth alone is 49.

use pretty_assertions::assert_eq;
use serde_json::{Value, json};

use crate::kitchen::{Kitchen, batches, kitchen};

fn worked_week() -> Kitchen {
    kitchen()
        .file("kitchen.toml", "[household]\nname = \"Test row\"\neaters = 2\ncurrency = \"EUR\"\n[[appliance]]\nname = \"hob\"\nroom = 4\n")
        .foods(
            r#"
[[food]]
name = "moonroot"
section = "Vegetables"
kind = "vegetable"
edible = "80%"
keeps = { fridge = "20 days" }
allergens = []

[[food]]
name = "bluegrain"
section = "Grains"
keeps = { cupboard = "300 days" }
allergens = []

[[food]]
name = "starcheese"
section = "Dairy"
kind = "ready to eat"
keeps = { fridge = "10 days" }
allergens = ["milk"]

[[food]]
name = "goldoil"
section = "Grains"
allergens = []
"#,
        )
        .shops(
            r#"
[[shop]]
name = "Stall"
sections = ["Vegetables", "Dairy", "Grains"]
trip = "0.50"

[[pack]]
shop = "Stall"
food = "moonroot"
loose = true
price = "1.50 / kg"
step = "100 g"

[[pack]]
shop = "Stall"
food = "bluegrain"
size = "500 g"
price = 1.20

[[pack]]
shop = "Stall"
food = "starcheese"
size = "150 g"
price = 2.00

[[pack]]
shop = "Stall"
food = "goldoil"
size = "250 ml"
price = 3.00
"#,
        )
        .pantry(
            r#"
[[lot]]
food = "bluegrain"
amount = "150 g"
place = "cupboard"
best_before = 2027-03-01

[[lot]]
food = "moonroot"
amount = "120 g"
place = "fridge"
since = 2026-11-20

[[lot]]
food = "goldoil"
amount = "100 ml"
place = "cupboard"

[[lot]]
food = "starcheese"
amount = "150 g"
place = "fridge"
use_by = 2026-12-01
"#,
        )
        .recipe(
            "stew",
            r#"
name = "moon stew"
makes = "4 portions"
batches = "whole"
keeps = { fridge = "2 days", freezer = "2 months" }
ingredients = """
500 g moonroots, diced
100 ml goldoil
"""
[[step]]
text = "Dice {moonroot}."
hands = "10 min"
[[step]]
text = "Simmer in {goldoil}."
hands = "2 min"
wait = "30 min"
on = "hob"
"#,
        )
        .recipe(
            "grain",
            r#"
name = "blue grain"
makes = "4 portions"
keeps = { fridge = "3 days" }
ingredients = ["200 g bluegrain"]
[[step]]
text = "Boil {bluegrain}."
hands = "3 min"
wait = "24 min"
on = "hob"
"#,
        )
        .recipe(
            "broth",
            r#"
name = "night broth"
makes = "2 portions"
batches = "any"
keeps = { fridge = "1 day", freezer = "1 month" }
ingredients = ["100 g moonroot"]
[[step]]
text = "Boil {moonroot}."
hands = "5 min"
wait = "30 min"
on = "hob"
"#,
        )
        .week(
            r#"
name = "Worked week"
from = 2026-11-30

[[trip]]
on = 2026-11-28

[[session]]
start = 2026-11-29T14:00
finish_by = "17:30"
people = ["cook"]

[[session]]
start = 2026-12-02T19:30
people = ["cook"]

[[meal]]
day = "mon"
at = "supper"
each = ["1 portion recipe:stew", "1 portion recipe:grain"]

[[meal]]
day = "tue"
at = "supper"
name = "Cheese plates"
each = ["1 portion recipe:grain", "60 g starcheese"]

[[meal]]
day = "thu"
at = "supper"
name = "Stew again"
each = ["1 portion recipe:stew", "40 g starcheese"]

[[meal]]
day = "fri"
at = "supper"
name = "Friday plates"
each = ["1 portion recipe:grain", "1 portion recipe:broth", "100 g diced moonroot"]
"#,
        )
}

fn grams(amount: f64) -> Value {
    json!({ "amount": amount, "unit": "g" })
}

#[test]
fn the_worked_weeks_shopping_list() {
    let mut list = worked_week().list();
    // The invented foods have prices, but no nutrients: a meal says what it costs, and names what is not known.
    let meals = list.as_object_mut().and_then(|list| list.remove("meals")).expect("the meals");
    let names: Vec<&Value> = meals.as_array().into_iter().flatten().map(|meal| &meal["name"]).collect();
    assert_eq!(names[..2], ["Mon supper", "Cheese plates"]);
    assert_eq!(meals[1]["per_eater"]["kcal"], Value::Null);
    assert_eq!(meals[1]["missing"], json!(["bluegrain: energy, protein, fibre", "starcheese: energy, protein, fibre"]));
    let line = |food: &str, need: f64, packs: Value, cost: &str, left: f64, left_until: &str, last_used: &str, what_for: Value| {
        json!({
            "food": food, "need": grams(need), "packs": packs, "cost": cost, "left": grams(left), "left_until": left_until, "short": grams(0.0),
            "last_used": last_used, "for": what_for,
        })
    };
    let loose = json!([{ "size": "loose", "count": 1, "offer": null, "cost": "1.20", "amount": grams(800.0) }]);
    let pack = |size: &str, cost: &str| json!([{ "size": size, "count": 1, "offer": null, "cost": cost }]);
    let drawn = |food: &str, amount: Value, place: &str, on: &str, what_for: &str| json!({ "food": food, "amount": amount, "place": place, "on": on, "for": [what_for] });
    let left_over = |food: &str, amount: f64, value: &str, until: &str| json!({ "food": food, "amount": grams(amount), "value": value, "until": until });
    let amount_of = |food: &str, amount: Value| json!({ "food": food, "amount": amount });
    let expected = json!({
        "week": "Worked week", "from": "2026-11-30", "short": [], "currency": "EUR", "cost": "4.90",
        "trips": [{ "on": "2026-11-28", "planned": true, "cost": "4.90", "shops": [{ "shop": "Stall", "trip_cost": "0.50", "cost": "4.90", "sections": [
            { "section": "Vegetables", "lines": [
                line("moonroot", 730.0, loose, "1.20", 70.0, "2026-12-18", "2026-12-04", json!(["moon stew", "night broth", "Friday plates"])),
            ] },
            { "section": "Dairy", "lines": [line("starcheese", 80.0, pack("150 g", "2.00"), "2.00", 70.0, "2026-12-08", "2026-12-03", json!(["Stew again"]))] },
            { "section": "Grains", "lines": [line("bluegrain", 150.0, pack("500 g", "1.20"), "1.20", 350.0, "2027-09-24", "2026-12-02", json!(["blue grain"]))] },
        ] }] }],
        "from_pantry": [
            drawn("bluegrain", grams(150.0), "cupboard", "2026-11-29", "blue grain"),
            drawn("moonroot", grams(120.0), "fridge", "2026-11-29", "moon stew"),
            drawn("goldoil", json!({ "amount": 100.0, "unit": "ml" }), "cupboard", "2026-11-29", "moon stew"),
            drawn("starcheese", grams(120.0), "fridge", "2026-12-01", "Cheese plates"),
        ],
        "expiring": [{ "food": "starcheese", "amount": grams(30.0), "place": "fridge", "until": "2026-12-01" }],
        "no_price": [], "spare": [], "ask": [],
        "moves": [
            { "at": "2026-12-02", "text": "Move 2 portions of moon stew from the freezer to the fridge" },
            { "at": "2026-12-03", "text": "Move 2 portions of night broth from the freezer to the fridge" },
        ],
        "flags": [], "warnings": [], "reserved": [], "days": [],
        "leftovers": [
            left_over("starcheese", 70.0, "0.93", "2026-12-08"),
            left_over("moonroot", 70.0, "0.11", "2026-12-18"),
            left_over("bluegrain", 350.0, "0.84", "2027-09-24"),
        ],
        "uses": [
            { "recipe": "grain", "value": "0.48", "uses": [amount_of("bluegrain", grams(200.0))], "needs": [] },
            { "recipe": "broth", "value": "0.11", "uses": [amount_of("moonroot", grams(70.0))], "needs": [amount_of("moonroot", grams(30.0))] },
            { "recipe": "stew", "value": "0.11", "uses": [amount_of("moonroot", grams(70.0))],
              "needs": [amount_of("moonroot", grams(430.0)), amount_of("goldoil", json!({ "amount": 100.0, "unit": "ml" }))] },
        ],
        "worth": { "used": "3.02", "keeps": "0.95", "spoils": "0.93" },
        "budget": null,
    });
    assert_eq!(list, expected);
}

/// Everything about a task but its words.
fn bare(task: &Value) -> Value {
    json!([
        task["kind"],
        task["recipe"],
        task["step"],
        task["start_minute"],
        task["hands_minutes"],
        task["end_minute"],
        task["person"],
        task["appliance"]
    ])
}

fn bare_tasks(session: &Value) -> Vec<Value> {
    session["tasks"].as_array().expect("a list").iter().map(bare).collect()
}

/// (recipe, portions, place, what for) of every box.
fn boxes(session: &Value) -> Vec<Value> {
    session["boxes"].as_array().expect("a list").iter().map(|b| json!([b["recipe"], b["portions"], b["place"], b["for"]])).collect()
}

#[test]
fn the_worked_weeks_first_session() {
    let prep = worked_week().prep();
    let session = &prep["sessions"][0];
    assert_eq!((session["start"].as_str(), session["finish"].as_str()), (Some("2026-11-29T14:00"), Some("2026-11-29T14:56")));
    assert_eq!(
        (session["minutes"].as_i64(), session["bound_minutes"].as_i64(), session["proven"].as_bool()),
        (Some(56), Some(56), Some(true))
    );
    assert_eq!((batches(&prep, 0, "stew"), batches(&prep, 0, "grain"), batches(&prep, 0, "broth")), (1.0, 1.0, 0.0));
    assert_eq!(
        bare_tasks(session),
        [
            json!(["step", "stew", 1, 0, 10, 10, "cook", null]),
            json!(["step", "stew", 2, 10, 2, 43, "cook", "hob"]),
            json!(["step", "grain", 1, 12, 3, 40, "cook", "hob"]),
            json!(["box", "grain", null, 50, 3, 53, "cook", null]),
            json!(["box", "stew", null, 53, 3, 56, "cook", null]),
        ]
    );
    let mut boxes = boxes(session);
    boxes.sort_by_key(Value::to_string);
    assert_eq!(
        boxes,
        [
            json!(["grain", 4.0, "fridge", ["Mon supper", "Tue supper"]]),
            json!(["stew", 2.0, "freezer", ["Thu supper"]]),
            json!(["stew", 2.0, "fridge", ["Mon supper"]]),
        ]
    );
    assert_eq!(session["cuts"], json!([{ "food": "moonroot", "amount": grams(500.0), "cut": "diced", "step": 1 }]));
    let fetched: Vec<&Value> =
        session["fetch"].as_array().expect("a list").iter().filter(|fetch| !fetch["from"][0]["place"].is_null()).collect();
    assert_eq!(fetched.len(), 3, "bluegrain, moonroot and goldoil: {fetched:?}");
}

#[test]
fn the_worked_weeks_second_session() {
    let prep = worked_week().prep();
    let session = &prep["sessions"][1];
    assert_eq!((session["start"].as_str(), session["finish"].as_str()), (Some("2026-12-02T19:30"), Some("2026-12-02T20:19")));
    assert_eq!(
        (session["minutes"].as_i64(), session["bound_minutes"].as_i64(), session["proven"].as_bool()),
        (Some(49), Some(49), Some(true))
    );
    assert_eq!((batches(&prep, 1, "stew"), batches(&prep, 1, "grain"), batches(&prep, 1, "broth")), (0.0, 0.5, 1.0));
    assert_eq!(
        bare_tasks(session),
        [
            json!(["step", "broth", 1, 0, 5, 36, "cook", "hob"]),
            json!(["step", "grain", 1, 5, 3, 33, "cook", "hob"]),
            json!(["box", "grain", null, 43, 3, 46, "cook", null]),
            json!(["box", "broth", null, 46, 3, 49, "cook", null]),
        ]
    );
    let mut boxes = boxes(session);
    boxes.sort_by_key(Value::to_string);
    assert_eq!(boxes, [json!(["broth", 2.0, "freezer", ["Fri supper"]]), json!(["grain", 2.0, "fridge", ["Fri supper"]])]);
    assert_eq!(prep["before"], json!([]));
    let moved: Vec<&Value> = prep["moves"].as_array().expect("a list").iter().map(|one| &one["at"]).collect();
    assert_eq!(moved, ["2026-12-02", "2026-12-03"]);
}
