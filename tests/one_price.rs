//! Money of one food is told by one price: what was paid, else what this week pays, else the cheapest that is known. Shelf, meals, what was
//! cooked: before the shopping, after it and after the cooking.

use pretty_assertions::assert_eq;
use serde_json::Value;

use crate::dice::Dice;
use crate::kitchen::{Kitchen, json, kitchen, supper};

const FOODS: &str = "[[food]]\nname = \"bluegrain\"\nallergens = []\nkeeps = { cupboard = \"100 days\" }\nsource = \"weighed at home\"\n\
    [[food]]\nname = \"mooncress\"\nallergens = []\nkeeps = { fridge = \"20 days\" }\nsource = \"weighed at home\"\n";

fn pack(shop: &str, food: &str, size: &str, price: &str) -> String {
    format!("[[pack]]\nshop = \"{shop}\"\nfood = \"{food}\"\nsize = \"{size}\"\nprice = {price}\n")
}

/// 100 g of bluegrain at home; four portions take 300 g of it and 100 g of mooncress, and are eaten on Monday.
fn household(first_pack: &str, others: &str) -> Kitchen {
    let shops = format!(
        "[[shop]]\nname = \"Stall\"\n{}{first_pack}{}{others}",
        pack("Stall", "bluegrain", "100 g", "1.00"),
        pack("Stall", "mooncress", "200 g", "1.50")
    );
    kitchen()
        .foods(FOODS)
        .shops(&shops)
        .pantry("[[lot]]\nfood = \"bluegrain\"\namount = \"100 g\"\nplace = \"cupboard\"\n")
        .recipe(
            "stew",
            "name = \"Stew\"\nmakes = \"4 portions\"\nkeeps = { fridge = \"3 days\" }\ningredients = [\"300 g bluegrain\", \"100 g mooncress\"]\n\
             [[step]]\ntext = \"Stir.\"\nhands = \"5 min\"\n",
        )
        .meals(&supper("2026-11-30", "\"4 portions recipe:stew\""))
}

/// What each lot of bluegrain and of stew is worth, and what the meal costs.
fn told(kitchen: &Kitchen, today: &str) -> (Vec<String>, String) {
    let stock = json(&kitchen.run_on(today, &["--format", "json", "stock"]));
    let lots = stock["places"].as_array().into_iter().flatten().flat_map(|place| place["lots"].as_array().into_iter().flatten());
    let counts = |lot: &&Value| lot["food"] == "bluegrain" || lot["recipe"] == "stew";
    let text = |value: &Value| value.as_str().unwrap_or("?").to_owned();
    (lots.filter(counts).map(|lot| text(&lot["value"])).collect(), text(&kitchen.list_on(today)["meals"][0]["per_eater"]["cost"]))
}

/// Before the shopping, after it, and after the cooking.
fn lived(kitchen: &Kitchen, paid: Option<&str>) -> [(Vec<String>, String); 3] {
    let before = told(kitchen, "2026-11-28");
    let mut receive = vec!["receive"];
    receive.extend(paid.into_iter().flat_map(|paid| ["--paid", paid]));
    kitchen.done_on("2026-11-28", &receive);
    let bought = told(kitchen, "2026-11-28");
    kitchen.done_on("2026-11-29", &["issue"]);
    [before, bought, told(kitchen, "2026-11-29")]
}

fn worth(lots: &[&str], meal: &str) -> (Vec<String>, String) {
    (lots.iter().map(|lot| (*lot).to_owned()).collect(), meal.to_owned())
}

#[test]
fn a_cheaper_unit_that_was_not_bought_changes_no_price() {
    // Two packs of 100 g at 1.00 are bought beside the 100 g at home: 300 g are 3.00, with 0.75 for half the mooncress 3.75. For 3.00, the
    // two packs are 1.50 each, and so is what lay at home: 4.50 and 0.75.
    let dear = "[[shop]]\nname = \"Mill\"\ntrip = \"5.00\"\n";
    for (offer, others) in [
        ("", String::new()),
        ("offer = { buy = 3, pay = 2.40 }\n", String::new()),
        ("", pack("Stall", "bluegrain", "500 g", "2.50")),
        ("", format!("{dear}{}", pack("Mill", "bluegrain", "100 g", "0.70"))),
    ] {
        let kitchen = household(offer, &others);
        assert_eq!(lived(&kitchen, None), [worth(&["1.00"], "3.75"), worth(&["2.00", "1.00"], "3.75"), worth(&["3.75"], "3.75")]);
        let kitchen = household(offer, &others);
        let paid = [worth(&["1.00"], "3.75"), worth(&["3.00", "1.50"], "5.25"), worth(&["5.25"], "5.25")];
        assert_eq!(lived(&kitchen, Some("bluegrain=3.00")), paid, "{offer}{others}");
    }
}

#[test]
fn what_was_paid_for_a_lot_goes_into_the_meal_that_takes_it() {
    // 100 g came beside the plan for 2.00. With 200 g at 1.00 the 100 g, and 0.75: 2.00 + 2.00 + 0.75.
    let kitchen = household("", "").file("pantry.toml", "");
    kitchen.done_on("2026-11-27", &["receive", "--on", "2026-11-27", "--also", "100 g bluegrain at 2.00"]);
    let [before, _, cooked] = lived(&kitchen, None);
    assert_eq!((before.1, cooked), ("4.75".to_owned(), worth(&["4.75"], "4.75")));
}

#[test]
fn what_is_thrown_away_after_the_shopping_is_worth_what_the_week_paid() {
    let kitchen = household("offer = { buy = 3, pay = 2.40 }\n", "");
    kitchen.done_on("2026-11-28", &["receive"]);
    kitchen.done_on("2026-11-28", &["waste", "100 g bluegrain", "--why", "moths"]);
    let waste = json(&kitchen.run_on("2026-11-28", &["--format", "json", "stock", "--waste"]));
    assert_eq!(waste["value"], "1.00", "{waste:#}");
}

#[test]
fn booked_as_planned_no_meal_costs_otherwise() {
    for seed in 0..12 {
        let mut dice = Dice(seed);
        let mut any = |least, most| dice.between(least, most);
        let stew = format!(
            "name = \"Stew\"\nmakes = \"{} portions\"\nbatches = \"any\"\nkeeps = {{ fridge = \"4 days\" }}\n\
             ingredients = [\"{} g bluegrain\", \"{} g mooncress\"]\n[[step]]\ntext = \"Stir.\"\nhands = \"5 min\"\n",
            any(2, 7),
            any(50, 700),
            any(30, 300)
        );
        let lots = [any(0, 250), any(0, 120)];
        let at_home = format!(
            "[[lot]]\nfood = \"bluegrain\"\namount = \"{} g\"\nplace = \"cupboard\"\n[[lot]]\nrecipe = \"stew\"\namount = \"1 portion\"\n\
             place = \"fridge\"\nmade = 2026-11-28\n",
            lots[0] + 1
        );
        let others = format!(
            "{}{}",
            pack("Stall", "bluegrain", "500 g", &format!("2.{}", any(10, 99))),
            pack("Stall", "mooncress", "70 g", &format!("0.{}", any(30, 99)))
        );
        let meals = format!(
            "{}{}{}",
            supper("2026-11-30", &format!("\"{} portions recipe:stew\"", any(1, 3))),
            supper("2026-12-01", &format!("\"{} portions recipe:stew\", \"{} g bluegrain\"", any(1, 3), any(10, 90))),
            supper("2026-12-02", &format!("\"1 portion recipe:stew\", \"{} g mooncress\"", any(10, 90)))
        );
        let kitchen = household("", &others).pantry(&at_home).recipe("stew", &stew).meals(&meals);
        let costs = |today: &str| -> Vec<Value> {
            let list = kitchen.list_on(today);
            list["meals"].as_array().into_iter().flatten().map(|meal| meal["per_eater"]["cost"].clone()).collect()
        };
        let planned = costs("2026-11-27");
        assert_eq!(planned.len(), 3);
        kitchen.done_on("2026-11-28", &["receive"]);
        assert_eq!(costs("2026-11-28"), planned, "bought, household {seed}");
        kitchen.done_on("2026-11-29", &["issue"]);
        assert_eq!(costs("2026-11-29"), planned, "cooked, household {seed}");
        kitchen.done_on("2026-11-30", &["issue", "--until", "2026-11-30"]);
        assert_eq!(costs("2026-12-01"), planned[1..], "eaten, household {seed}");
    }
}

#[test]
fn a_meal_that_is_called_as_its_dish_keeps_its_own_foods_out_of_the_price_of_the_dish() {
    // Stew is made at the meal, 4 portions of 300 g of bluegrain at 1.00 and 100 g of mooncress at 0.75: 3.75; 1 portion is eaten, with 200 g of
    // mooncress beside it, 1.50, in a meal that is called "Stew". The 3 portions left are worth three quarters of 3.75: 2.81.
    let kitchen = household("", "");
    let stew = kitchen.text("recipes/stew.toml").replace("makes =", "batches = \"whole\"\nmade = \"at the meal\"\nmakes =");
    let kitchen = kitchen
        .file("recipes/stew.toml", &stew)
        .meals(&supper("2026-11-30", "\"1 portion recipe:stew\", \"200 g mooncress\"").replace("at =", "name = \"Stew\"\nat ="));
    kitchen.done_on("2026-11-28", &["receive"]);
    kitchen.done_on("2026-11-30", &["issue", "--meal", "mon supper"]);
    let stock = json(&kitchen.run_on("2026-11-30", &["--format", "json", "stock"]));
    let lots = stock["places"].as_array().into_iter().flatten().flat_map(|place| place["lots"].as_array().into_iter().flatten());
    let stew: Vec<_> = lots.filter(|lot| lot["recipe"] == "stew").map(|lot| lot["value"].as_str().unwrap_or("?").to_owned()).collect();
    assert_eq!(stew, ["2.81"]);
}

#[test]
fn where_no_price_is_known_the_shelf_is_not_worth_nothing() {
    let kitchen = kitchen().foods(FOODS).pantry("[[lot]]\nfood = \"bluegrain\"\namount = \"100 g\"\nplace = \"cupboard\"\n");
    let said = kitchen.done_on("2026-11-28", &["stock"]);
    assert!(said.ends_with("\nNo price known\n") && !said.contains("Worth"), "{said}");
    assert!(household("", "").done_on("2026-11-28", &["stock"]).ends_with("\nWorth 1.00 EUR\n"));
}
