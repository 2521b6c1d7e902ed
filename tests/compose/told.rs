//! What a proposal and a clash say: sums that add up, hours as `prep` plans them, who must not be served what, and what loosening takes.

use pretty_assertions::assert_eq;
use serde_json::{Value, json};

use super::{FOODS, composed, dish, open, stall};
use crate::kitchen::{Kitchen, OVEN_HOB_AND_COOKER, json as answer, kitchen, stderr, stdout};

#[track_caller]
fn clash(kitchen: &Kitchen) -> Value {
    let output = kitchen.run(&["--format", "json", "compose"]);
    assert_eq!(output.status.code(), Some(1), "{}", stderr(&output));
    serde_json::from_slice::<Value>(&output.stdout).expect("JSON")["clash"].clone()
}

fn cents(money: &Value) -> i64 {
    money.as_str().expect("money").replace('.', "").parse().expect("cents")
}

/// A pot that is served hot, from a session of that afternoon: 10 minutes of hands, 5 and 1 on a hob that takes 30 more.
fn pot(compose: &str) -> Kitchen {
    let hob = "[[step]]\ntext = \"Heat.\"\nhands = \"5 min\"\nwait = \"30 min\"\non = \"hob\"\n";
    let pot = dish("Spelk pot", "spelk", "serve = \"hot\"") + hob;
    kitchen()
        .household(OVEN_HOB_AND_COOKER)
        .foods(FOODS)
        .shops(super::STALL)
        .recipe("spelk-pot", &pot)
        .file("meals.toml", super::PLATE)
        .week(&format!(
            "from = 2026-11-30\n{compose}[[trip]]\non = 2026-11-30\n[[session]]\nstart = 2026-11-30T16:00\nfinish_by = \"18:00\"\npeople = [\"cook\"]\n{}",
            open("2026-11-30", "")
        ))
}

#[test]
fn a_session_whose_dish_is_served_hot_says_its_hands_and_when_they_begin() {
    let kitchen = pot("");
    let session = composed(&kitchen, &[])["sessions"][0].clone();
    let said = stdout(&kitchen.run(&["compose"]));
    kitchen.run(&["compose", "--write"]);
    let planned = answer(&kitchen.run(&["--format", "json", "prep"]))["sessions"][0].clone();
    assert_eq!(session["minutes"], planned["minutes"]);
    let first = planned["tasks"].as_array().unwrap().iter().map(|task| task["start_minute"].as_i64().unwrap()).min().unwrap();
    let from = format!("2026-11-30T{}:{:02}", 16 + first / 60, first % 60);
    // 10 + 5 + 1 minutes of hands.
    assert_eq!(session["served"], json!({ "at": ["2026-11-30T18:30"], "hands_minutes": 16, "from": from }));
    assert!(
        said.contains(&format!("Mon 30 Nov 16:00  16 min of hands for what is served hot at 18:30, from {} on\n", &from[11..])),
        "{said}"
    );
}

#[test]
fn a_session_that_makes_something_else_too_says_both() {
    let kitchen = pot("[compose]\nuse = [\"recipe:brack-pot\"]\n").recipe("brack-pot", &dish("Brack pot", "brack", ""));
    let monday = kitchen.text("weeks/week.toml").replace("open = true", "each = [\"1 portion recipe:spelk-pot\"]");
    let kitchen = kitchen.week(&(monday + &open("2026-12-02", "")));
    let proposal = composed(&kitchen, &[]);
    let said = stdout(&kitchen.run(&["compose"]));
    kitchen.run(&["compose", "--write"]);
    let planned = answer(&kitchen.run(&["--format", "json", "prep"]))["sessions"][0].clone();
    assert_eq!(proposal["sessions"][0]["minutes"], planned["minutes"]);
    assert!(said.contains("Mon 30 Nov 16:00  10 min, and 16 min of hands for what is served hot at 18:30\n"), "{said}");
}

#[test]
fn the_net_cost_is_a_sum_that_can_be_followed() {
    // Spelk in packs of 100 g at 1.00, lubb at 0.50. Of the shelf 50 g fenk (1.50) goes off on Monday unused, 50 g brack (1.00) was past its
    // date on Thursday before.
    let shelf = "[[lot]]\nfood = \"fenk\"\namount = \"50 g\"\nplace = \"fridge\"\nuse_by = 2026-11-30\n\
                 [[lot]]\nfood = \"brack\"\namount = \"50 g\"\nplace = \"fridge\"\nuse_by = 2026-11-26\n";
    let kitchen = stall().pantry(shelf).meals(&open("2026-12-01", ""));
    let told = composed(&kitchen, &[]);
    let part = |key: &str| cents(&told[key]);
    assert_eq!([part("cost"), part("keeps"), part("goes_off"), part("lost")], [150, 0, 150, 100]);
    assert_eq!(part("net_cost"), part("cost") - part("keeps") + part("goes_off") + part("lost"));
    let said = stdout(&kitchen.run(&["compose"]));
    let sum = "What it costs, in EUR\n  the list                                        1.50\n  goes off on the shelf                          +1.50\n  \
               on the shelf past its date, whatever is eaten  +1.00\n  net cost                                        4.00\n";
    assert!(said.contains(sum), "{said}");
    let (off, lost) = said.split_once("\nOn the shelf past its date, whatever is eaten\n").expect("both");
    assert!(off.contains("\nGoes off on the shelf\n  fenk  50 g  good until Mon 30 Nov\n"), "{said}");
    assert!(lost.starts_with("  brack  50 g  good until Thu 26 Nov\n"), "{said}");
}

const MILK: &str = "[household]\nname = \"Row\"\ncurrency = \"EUR\"\n[[eater]]\nname = \"Al\"\nallergic = [\"milk\"]\n[rules]\nboxing = \"0 min\"\nwash = \"0 min\"\n";

/// Lunches are a pot and lubb, suppers a pot and a cheese.
fn cheeses(household: &str, compose: &str) -> Kitchen {
    let foods = FOODS.to_owned() + "[[food]]\nname = \"urd\"\nfits = [\"cheese\"]\nserving = \"30 g\"\nallergens = [\"milk\"]\n";
    let plates = "[[pattern]]\nname = \"Plate\"\nat = [\"lunch\"]\neach = [\"1 portion any:grain\", \"1 portion any:beside\"]\n\
                  [[pattern]]\nname = \"Cheese plate\"\nat = [\"supper\"]\neach = [\"1 portion any:grain\", \"1 portion any:cheese\"]\n";
    stall().foods(&foods).file("kitchen.toml", household).file("meals.toml", plates).week(&format!(
        "from = 2026-11-30\n[compose]\n{compose}\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n{}{}",
        open("2026-12-01", "").replace("supper", "lunch"),
        open("2026-12-01", "")
    ))
}

#[test]
fn an_allergy_that_alone_forbids_a_meal_is_named_alone_with_who_what_and_where() {
    // Both pots are unwanted, so that lunch cannot be filled: two wishes. Supper cannot for one: Al's allergy.
    let kitchen = cheeses(MILK, "not = [\"recipe:spelk-pot\", \"recipe:brack-pot\"]");
    let told = clash(&kitchen);
    assert_eq!(told.as_array().map(Vec::len), Some(1), "{told}");
    assert_eq!((&told[0]["key"], &told[0]["of"], &told[0]["now"]), (&json!("allergic"), &json!("Al"), &json!("milk")));
    assert_eq!(told[0]["served"], json!(["urd at Tue supper (Cheese plate)"]));
    // Without it one of the pots would have to be wanted, too.
    assert_eq!(told[0]["besides"], json!(["not"]));
    let said = stderr(&kitchen.run(&["compose"]));
    assert!(said.contains("allergic of Al: milk (urd at Tue supper (Cheese plate)); would do: "), "{said}");
    assert!(said.contains("It alone is not enough: loosen what stands beside it, too."), "{said}");
}

#[test]
fn the_dish_and_the_food_in_it_are_named() {
    let creamy = dish("Brack pot", "brack", "").replace("\"100 g brack\"", "[\"100 g brack\", \"30 g urd\"]");
    let kitchen = cheeses(MILK, "not = [\"recipe:spelk-pot\"]").recipe("brack-pot", &creamy).file("meals.toml", super::PLATE);
    let told = clash(&kitchen);
    let allergic = told.as_array().unwrap().iter().find(|one| one["key"] == "allergic").unwrap_or_else(|| panic!("{told}"));
    assert_eq!(allergic["served"], json!(["urd in brack pot at Tue lunch and Tue supper (Plate)"]));
}

#[test]
fn what_an_eater_does_not_eat_is_one_wish_whatever_food_it_is() {
    let eats = MILK.replace("allergic = [\"milk\"]", "eats = \"dairy\"");
    let kinds = |kitchen: Kitchen| {
        let foods = kitchen.text("foods.toml")
            + "kind = \"dairy\"\n[[food]]\nname = \"quarg\"\nkind = \"dairy\"\nfits = [\"cheese\"]\nserving = \"30 g\"\n";
        kitchen.foods(&foods)
    };
    let told = clash(&kinds(cheeses(&eats, "")));
    assert_eq!(told.as_array().map(Vec::len), Some(1), "{told}");
    assert_eq!((&told[0]["key"], &told[0]["of"], &told[0]["now"]), (&json!("eats"), &json!("Al"), &json!("no dairy")));
    assert_eq!(told[0]["served"], json!(["urd at Tue supper (Cheese plate)", "quarg at Tue supper (Cheese plate)"]));
}

#[test]
fn where_no_wish_alone_is_enough_that_is_said() {
    // One pot cooked, one supper of it: two suppers break both. Two recipes need one_at_most kept; one recipe needs it at 2.
    let both = open("2026-12-01", "") + &open("2026-12-02", "");
    let week = |compose: &str| {
        let week = format!(
            "from = 2026-11-30\n[compose]\n{compose}\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n{both}"
        );
        stderr(&stall().week(&week).run(&["compose"]))
    };
    let said = week("recipes_at_most = 1\none_at_most = 1");
    assert!(said.contains("Loosen one of them. Nothing was written."), "{said}");
    let said = week("recipes_at_most = 1\none_at_most = 1\nspend_at_most = \"1.00\"");
    assert!(said.contains("spend_at_most") && said.contains("It alone is not enough: loosen what stands beside it, too."), "{said}");
}
