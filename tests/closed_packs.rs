//! Closed packs: opened one at a time, what is left of one is a lot of its own, and a tin is one of them.

use pretty_assertions::assert_eq;
use serde_json::Value;

use crate::kitchen::{Kitchen, draws, json, kitchen};

const FOOD: &str =
    "[[food]]\nname = \"tinned moon beans\"\nallergens = []\nkeeps = { opened = \"4 days\" }\nsource = \"weighed at home\"\n";

const MEALS: &str = "[[meal]]\nday = \"mon\"\nat = \"supper\"\neach = [\"150 g tinned moon beans\"]\n\
    [[meal]]\nday = \"tue\"\nat = \"supper\"\nshared = [\"1 tin (380 g) moon beans\"]\n\
    [[meal]]\nday = \"wed\"\nat = \"supper\"\neach = [\"100 g tinned moon beans\"]\n";

/// Three tins of 400 g in the cupboard.
fn three_tins() -> Kitchen {
    let lot = "[[lot]]\nfood = \"tinned moon beans\"\namount = \"3 x 400 g\"\nplace = \"cupboard\"\nbest_before = 2028-01-01\n";
    kitchen().foods(FOOD).pantry(lot).meals(MEALS)
}

#[test]
fn what_is_left_of_an_opened_tin_stands_in_the_fridge_and_a_need_in_tins_takes_a_closed_one() {
    // Monday opens a tin for 150 g. Tuesday wants a tin of 380 g, and one of 400 g counts as that: closed, all of it. Wednesday's 100 g are of
    // the 250 g that are open.
    let kitchen = three_tins();
    let on = |day: &str, place: &str, amount: f64| (day.to_owned(), place.to_owned(), amount);
    let planned = [on("2026-11-30", "cupboard", 150.0), on("2026-12-01", "cupboard", 380.0), on("2026-12-02", "fridge", 100.0)];
    assert_eq!(draws(&kitchen.list(), "tinned moon beans"), planned);
    kitchen.done_on("2026-12-02", &["issue", "--until", "2026-12-02"]);
    let pantry = kitchen.text("pantry.toml");
    assert!(pantry.contains("amount = \"1 x 400 g\"\nplace = \"cupboard\"\nbest_before = 2028-01-01\n"), "{pantry}");
    assert!(pantry.contains("amount = \"150 g\"\nplace = \"fridge\"\nbest_before = 2028-01-01\nopened = 2026-11-30\n"), "{pantry}");
    // Opened on Monday, four days: the earliest of its dates, wherever it is told.
    let stock = json(&kitchen.run_on("2026-12-02", &["--format", "json", "stock"]));
    assert_eq!(stock["places"][1]["lots"][0]["until"], "2026-12-04");
    let day = json(&kitchen.run_on("2026-12-04", &["--format", "json", "day"]));
    assert_eq!(day["goes_off"][0]["amount"]["amount"], 150.0);
}

#[test]
fn a_count_and_a_use_in_tins_take_closed_packs() {
    let kitchen = three_tins();
    kitchen.done_on("2026-11-30", &["issue", "--meal", "mon supper"]);
    kitchen.done_on("2026-11-30", &["waste", "1 tin moon beans", "--why", "dented"]);
    let amounts = |stock: &Value| -> Vec<f64> {
        let lots = stock["places"].as_array().expect("places").iter().flat_map(|place| place["lots"].as_array().expect("lots").clone());
        lots.filter_map(|lot| lot["amount"]["amount"].as_f64()).collect()
    };
    let stock = || json(&kitchen.run_on("2026-11-30", &["--format", "json", "stock"]));
    assert_eq!(amounts(&stock()), [400.0, 250.0]);
    // A weight takes what is open first.
    kitchen.done_on("2026-11-30", &["waste", "300 g tinned moon beans", "--why", "fell"]);
    assert_eq!(amounts(&stock()), [350.0]);
}

#[test]
fn whatever_comes_in_a_tin_or_a_jar_stands_in_the_fridge_once_it_is_opened() {
    // By its shelf in the shop, its drained share, what its tin or jar weighs, another of its names; a bag of crisps stays where it was.
    for (told, place) in [
        ("section = \"Tins\"", "fridge"),
        ("drained = \"60%\"", "fridge"),
        ("tin = \"400 g\"", "fridge"),
        ("jar = \"400 g\"", "fridge"),
        ("also = [\"tinned moss\"]", "fridge"),
        ("packet = \"400 g\"", "cupboard"),
    ] {
        let food =
            format!("[[food]]\nname = \"moss\"\nallergens = []\nkeeps = {{ opened = \"4 days\" }}\n{told}\nsource = \"weighed at home\"\n");
        let lot = "[[lot]]\nfood = \"moss\"\namount = \"2 x 400 g\"\nplace = \"cupboard\"\n";
        let meal = "[[meal]]\nday = \"mon\"\nat = \"supper\"\neach = [\"50 g moss\"]\n";
        let kitchen = kitchen().foods(&food).pantry(lot).meals(meal);
        kitchen.done_on("2026-11-30", &["issue", "--meal", "mon supper"]);
        let pantry = kitchen.text("pantry.toml");
        assert!(pantry.contains(&format!("amount = \"350 g\"\nplace = \"{place}\"\nopened = 2026-11-30\n")), "{told}: {pantry}");
    }
    // Of the reference's own: baked beans are in no tin by their name.
    let lot = "[[lot]]\nfood = \"baked beans\"\namount = \"2 x 400 g\"\nplace = \"cupboard\"\n";
    let kitchen = kitchen().pantry(lot).meals("[[meal]]\nday = \"mon\"\nat = \"supper\"\neach = [\"50 g baked beans\"]\n");
    kitchen.done_on("2026-11-30", &["issue", "--meal", "mon supper"]);
    assert!(kitchen.text("pantry.toml").contains("amount = \"350 g\"\nplace = \"fridge\"\nopened = 2026-11-30\n"));
}

#[test]
fn a_pack_asked_for_in_two_words_on_one_day_is_two_packs_of_one_lot() {
    // Two packs of 150 g, one as a tub and one as a pack: 300 g are taken, as booking takes them.
    let food = "[[food]]\nname = \"moss\"\nallergens = []\nsource = \"weighed at home\"\n";
    let lot = "[[lot]]\nfood = \"moss\"\namount = \"2 x 150 g\"\nplace = \"fridge\"\n";
    let meals = "[[meal]]\nday = \"wed\"\nat = \"lunch\"\nshared = [\"1 tub moss\"]\n\
                 [[meal]]\nday = \"wed\"\nat = \"supper\"\nshared = [\"1 packet moss\"]\n";
    let list = kitchen().foods(food).pantry(lot).meals(meals).list();
    assert_eq!(draws(&list, "moss"), [("2026-12-02".to_owned(), "fridge".to_owned(), 300.0)]);
    assert_eq!(list["from_pantry"][0]["amount"]["unit"], "g");
}

#[test]
fn what_is_left_of_an_opened_pack_is_not_said_to_fail_a_need_that_a_closed_one_serves() {
    let meals = "[[meal]]\nday = \"mon\"\nat = \"lunch\"\nshared = [\"200 g tinned moon beans\"]\n\
                 [[meal]]\nday = \"mon\"\nat = \"supper\"\nshared = [\"1 jar tinned moon beans\"]\n";
    let lot = "[[lot]]\nfood = \"tinned moon beans\"\namount = \"2 x 400 g\"\nplace = \"cupboard\"\n";
    let list = kitchen().foods(FOOD).pantry(lot).meals(meals).list();
    assert_eq!(draws(&list, "tinned moon beans"), [("2026-11-30".to_owned(), "cupboard".to_owned(), 600.0)]);
    assert!(!list["warnings"].to_string().contains("cannot be compared"), "{}", list["warnings"]);
}

#[test]
fn a_pack_of_four_tins_is_four_closed_packs() {
    let shops =
        "[[shop]]\nname = \"Stall\"\n[[pack]]\nshop = \"Stall\"\nfood = \"tinned moon beans\"\nsize = \"4 x 400 g\"\nprice = 3.00\n";
    let meals = "[[meal]]\nday = \"mon\"\nat = \"supper\"\nshared = [\"1 tin (400 g) moon beans\"]\n";
    let kitchen = kitchen().foods(FOOD).shops(shops).meals(meals);
    // Three of them stay closed, and are good for longer than an opened one.
    let list = kitchen.list();
    assert_eq!(list["worth"]["spoils"], "0.00", "{list}");
    kitchen.done(&["print"]);
    kitchen.done_on("2026-11-29", &["receive"]);
    assert!(kitchen.text("pantry.toml").contains("amount = \"4 x 400 g\"\n"), "{}", kitchen.text("pantry.toml"));
    kitchen.done_on("2026-11-30", &["issue", "--until", "2026-11-30"]);
    assert!(kitchen.text("pantry.toml").contains("amount = \"3 x 400 g\"\nplace = \"cupboard\"\n"), "{}", kitchen.text("pantry.toml"));
}
