//! Finer rules of the list that only show when two of them meet: one tiny kitchen each.

use pretty_assertions::assert_eq;
use serde_json::{Value, json};

use crate::kitchen::stall::{BLUEGRAIN, STALL, loose, pack_of, wants};
use crate::kitchen::{assert_amount, draws, kitchen, line, lines, packs, shop_of, sizes, supper};

/// Two lines of one supper in tins; packs of tinned bluegrain, each at 1.00 a 100 g so that price says how much was bought.
fn tins(lines: &str, shops: &str) -> Value {
    let kitchen = kitchen()
        .rules("short_by = \"0%\"")
        .foods("[[food]]\nname = \"tinned bluegrain\"\n")
        .shops(&format!("{STALL}{shops}"))
        .meals(&supper("2026-11-30", lines));
    line(&kitchen.list(), "tinned bluegrain")
}

#[test]
fn a_pack_counts_as_the_nearest_of_several_tins_that_lines_state() {
    // 400 + 800 g in tins: 390 counts as 400 and 780 as 800, nothing left; by weight a third pack would be needed.
    let line = tins(
        "\"1 tin (400 g) bluegrain\", \"1 tin (800 g) bluegrain\"",
        &(pack_of("tinned bluegrain", "390 g", "1.00") + &pack_of("tinned bluegrain", "780 g", "1.50")),
    );
    assert_amount(&line["need"], 1200.0, "g");
    assert_eq!((packs(&line), line["cost"].as_str()), (sizes(&[("780 g", 1), ("390 g", 1)]), Some("2.50")));
    assert_amount(&line["left"], 0.0, "g");
}

#[test]
fn a_tin_of_millilitres_is_held_against_packs_of_grams_by_the_foods_weight() {
    // A cup weighs 473.1765 g, so 1 ml is 2 g and the tin of 200 ml is one of 400 g; the pack of 390 g is within 10 % of it.
    let kitchen = kitchen()
        .rules("short_by = \"0%\"")
        .foods("[[food]]\nname = \"tinned bluegrain\"\ncup = \"473.176473 g\"\n")
        .shops(&format!("{STALL}{}", pack_of("tinned bluegrain", "390 g", "1.00")))
        .meals(&supper("2026-11-30", "\"1 tin (200 ml) bluegrain\""));
    assert_eq!(packs(&line(&kitchen.list(), "tinned bluegrain")), sizes(&[("390 g", 1)]));
}

#[test]
fn of_two_loose_prices_the_one_that_costs_less_for_the_need_is_taken() {
    // 1100 g: 1.10 by the gram, 1.20 in steps of 500 g at a lower price a kilogram. 1000 g: 1.00 and 0.80.
    let both = loose("1.00 / kg", "1 g") + &loose("0.80 / kg", "500 g");
    let fine = line(&wants("1100 g", &both).list(), "bluegrain");
    assert_eq!((packs(&fine), fine["cost"].as_str()), (sizes(&[("loose", 1)]), Some("1.10")));
    assert_amount(&fine["packs"][0]["amount"], 1100.0, "g");
    assert_eq!(line(&wants("1000 g", &both).list(), "bluegrain")["cost"], "0.80");
}

#[test]
fn pieces_left_of_several_windows_are_told_to_the_piece() {
    // Opened it keeps no day: a third of a piece on each of two days. 2/3 are rounded up to 1; two pieces are opened, 1 is left.
    let kitchen = kitchen()
        .foods("[[food]]\nname = \"bluegrain\"\nkeeps = { opened = \"0 days\" }\n")
        .shops(&format!("{STALL}{}", pack_of("bluegrain", "1", "0.50")))
        .meals(&(supper("2026-11-30", "\"1/3 bluegrain\"") + &supper("2026-12-01", "\"1/3 bluegrain\"")));
    let line = line(&kitchen.list(), "bluegrain");
    assert_amount(&line["need"], 1.0, "each");
    assert_eq!(packs(&line), sizes(&[("1", 2)]));
    assert_eq!(line["left"], json!({"amount": 1.0, "unit": "each"}));
}

fn stew(makes: &str, more: &str) -> String {
    format!(
        "name = \"Stew\"\nmakes = \"{makes}\"\nbatches = \"any\"\n{more}ingredients = \"400 g bluegrain\"\n[[step]]\ntext = \"Stir.\"\n"
    )
}

#[test]
fn a_cooked_lot_that_cannot_be_compared_is_not_drawn_and_said() {
    // Nobody says what a portion weighs: 100 g of stew serve none of the 3 portions, and all 300 g of bluegrain are bought.
    let kitchen = kitchen()
        .foods(BLUEGRAIN)
        .recipe("stew", &stew("4 portions", "keeps = { fridge = \"3 days\" }\n"))
        .pantry("[[lot]]\nrecipe = \"stew\"\namount = \"100 g\"\nplace = \"fridge\"\nmade = 2026-11-28\n")
        .meals(&supper("2026-11-30", "\"3 portions recipe:stew\""));
    let list = kitchen.list();
    assert_amount(&line(&list, "bluegrain")["need"], 300.0, "g");
    assert_eq!(draws(&list, "stew"), []);
    let warnings = list["warnings"].to_string();
    assert!(warnings.contains("pantry.toml:1") && warnings.contains("cannot be compared with a need in portions"), "{warnings}");
    assert!(warnings.contains("Add portion = ") && warnings.contains("to recipes/stew.toml"), "{warnings}");
}

#[test]
fn a_cooked_lot_that_no_portion_weight_would_mend_says_how_its_amount_is_written() {
    // makes, what more the recipe says, the lot; what is said, and the lot that is drawn
    for (makes, more, lot, wanted, mended) in [
        ("4 portions", "", "2", "2 of Stew cannot be compared with a need in portions", "2 portions"),
        ("4 portions", "portion = \"200 g\"\n", "2", "2 of Stew cannot be compared with a need in portions", "2 portions"),
        ("12 pieces", "portion = \"200 g\"\n", "2 portions", "2 portions of Stew cannot be compared with a need in pieces", "2"),
        ("1 l", "portion = \"200 g\"\n", "200 g", "200 g of Stew cannot be compared with a need in ml", "2 ml"),
    ] {
        let each = if makes == "12 pieces" {
            "3 recipe:stew"
        } else if makes == "1 l" {
            "3 ml recipe:stew"
        } else {
            "3 portions recipe:stew"
        };
        let with = |lot: &str| {
            let lot = format!("[[lot]]\nrecipe = \"stew\"\namount = \"{lot}\"\nplace = \"fridge\"\nmade = 2026-11-28\n");
            let recipe = stew(makes, &format!("{more}keeps = {{ fridge = \"3 days\" }}\n"));
            kitchen().foods(BLUEGRAIN).recipe("stew", &recipe).pantry(&lot).meals(&supper("2026-11-30", &format!("\"{each}\""))).list()
        };
        let warnings = with(lot)["warnings"].to_string().replace("\\\"", "\"");
        assert!(warnings.contains(wanted) && warnings.contains(&format!("amount = \"{mended}\".")), "{makes}: {warnings}");
        assert_eq!(draws(&with(mended), "stew").len(), 1, "what it says mends it");
    }
}

#[test]
fn a_lot_that_cannot_be_compared_names_the_key_that_would_mend_it() {
    let list = kitchen()
        .foods("[[food]]\nname = \"zub\"\n")
        .pantry("[[lot]]\nfood = \"zub\"\namount = \"100 ml\"\nplace = \"cupboard\"\n")
        .meals(&supper("2026-11-30", "\"100 g zub\""))
        .list();
    let warnings = list["warnings"].to_string();
    assert!(warnings.contains("100 ml of zub cannot be compared with a need in g"), "{warnings}");
    assert!(warnings.contains("Add cup = ") && warnings.contains("under zub in foods.toml"), "{warnings}");
}

#[test]
fn a_cooked_lot_serves_from_the_day_on_which_it_is_made() {
    // 2 portions made on Tuesday 1 December: Monday's are cooked on Sunday, Tuesday's come out of the fridge.
    let with = |meal: &str| {
        kitchen()
            .foods(BLUEGRAIN)
            .recipe("stew", &stew("4 portions", "keeps = { fridge = \"3 days\" }\n"))
            .pantry("[[lot]]\nrecipe = \"stew\"\namount = \"2 portions\"\nplace = \"fridge\"\nmade = 2026-12-01\n")
            .meals(&supper(meal, "\"2 portions recipe:stew\""))
            .list()
    };
    assert_amount(&line(&with("2026-11-30"), "bluegrain")["need"], 200.0, "g");
    assert_eq!(draws(&with("2026-12-01"), "stew"), [("2026-12-01".to_owned(), "fridge".to_owned(), 2.0)]);
}

#[test]
fn at_one_time_the_dish_of_the_earlier_meal_is_served_from_the_shelf_first() {
    // Two suppers at one time want 2 portions of stew each, the first as part of a dish made at the meal; 2 portions are at home.
    // File order gives them to the first, and the second makes its own 2 portions: 200 g on the same day.
    let plate = "name = \"Plate\"\nmakes = \"1 portion\"\nmade = \"at the meal\"\ningredients = \"2 portions recipe:stew\"\n[[step]]\ntext = \"Serve.\"\n";
    let meal = |name: &str, each: &str| format!("{}name = \"{name}\"\n", supper("2026-11-30", each));
    let kitchen = kitchen()
        .foods(BLUEGRAIN)
        .recipe("stew", &stew("4 portions", "made = \"at the meal\"\n"))
        .recipe("plate", plate)
        .pantry("[[lot]]\nrecipe = \"stew\"\namount = \"2 portions\"\nplace = \"fridge\"\n")
        .meals(&(meal("First", "\"1 portion recipe:plate\"") + &meal("Second", "\"2 portions recipe:stew\"")));
    let drawn = kitchen.list()["from_pantry"].clone();
    assert_eq!(drawn[0]["for"], json!(["Plate"]), "{drawn}");
}

/// First and Second are both visited, for what only they sell; bluegrain at either, 400 g wanted.
fn bluegrain_in_both(first: &str, second: &str) -> Value {
    let sells = |shop: &str, food: &str, pack: &str| format!("[[pack]]\nshop = \"{shop}\"\nfood = \"{food}\"\n{pack}\n");
    let shops = "[[shop]]\nname = \"First\"\n[[shop]]\nname = \"Second\"\n".to_owned()
        + &sells("First", "moonroot", "size = \"100 g\"\nprice = 1.00")
        + &sells("Second", "starroot", "size = \"100 g\"\nprice = 1.00")
        + &sells("First", "bluegrain", first)
        + &sells("Second", "bluegrain", second);
    let foods = format!("{BLUEGRAIN}[[food]]\nname = \"moonroot\"\n[[food]]\nname = \"starroot\"\n");
    let meal = supper("2026-11-30", "\"400 g bluegrain\", \"100 g moonroot\", \"100 g starroot\"");
    shop_of(&kitchen().foods(&foods).shops(&shops).meals(&meal).list(), "bluegrain")
}

#[test]
fn of_two_visited_shops_at_one_price_with_nothing_left_fewer_packs_and_then_the_file_decide() {
    // Two of 200 g at 0.50, or one of 400 g at 1.00; a loose amount counts as one pack.
    let (small, large) = ("size = \"200 g\"\nprice = 0.50", "size = \"400 g\"\nprice = 1.00");
    assert_eq!(bluegrain_in_both(small, large), "Second");
    assert_eq!(bluegrain_in_both(small, "loose = true\nprice = \"2.50 / kg\""), "Second");
    assert_eq!(bluegrain_in_both(large, large), "First");
}

#[test]
fn the_slack_is_of_the_top_up_too() {
    // 100 g for Monday and 900 g for the shelf: 1000 g, of which 20 may stay unmet, so 985 g will do; of 100 g alone it would be 2.
    let list = wants("100 g", &pack_of("bluegrain", "985 g", "1.00")).rules("[[staple]]\nfood = \"bluegrain\"\npar = \"900 g\"").list();
    let line = line(&list, "bluegrain");
    assert_eq!(packs(&line), sizes(&[("985 g", 1)]));
    assert_amount(&line["short"], 15.0, "g");
    assert_eq!(line["for"], json!(["Mon supper", "staple"]));
}

#[test]
fn as_little_as_you_like_is_covered_by_what_is_bought_and_leaves_the_slack() {
    // 404 g are within 2 % of one pack of 400 g, which also serves what is to taste.
    let alone = wants("404 g", &pack_of("bluegrain", "400 g", "1.00"));
    let both = alone.meals(&supper("2026-11-30", "\"404 g bluegrain\", \"bluegrain, to taste\""));
    let line = line(&both.list(), "bluegrain");
    assert_amount(&line["need"], 404.0, "g");
    assert_eq!(packs(&line), sizes(&[("400 g", 1)]));
    assert_amount(&line["short"], 4.0, "g");
}

#[test]
fn as_little_as_you_like_beside_a_need_that_is_sold_loose_adds_no_step() {
    // 100 g in steps of 50 g at 1.00 a kilogram.
    let kitchen = wants("100 g", &loose("1.00 / kg", "50 g")).meals(&supper("2026-11-30", "\"100 g bluegrain\", \"bluegrain, to taste\""));
    let line = line(&kitchen.list(), "bluegrain");
    assert_eq!((packs(&line), line["cost"].as_str()), (sizes(&[("loose", 1)]), Some("0.10")));
    assert_amount(&line["packs"][0]["amount"], 100.0, "g");
}

#[test]
fn as_little_as_you_like_is_covered_in_whichever_measure_the_food_is_bought() {
    // Three sprigs weigh nobody knows what: they are one pack, which serves what is to taste as well.
    let shops = pack_of("bluegrain", "100 g", "1.00");
    let list = wants("100 g", &shops).meals(&supper("2026-11-30", "\"3 sprigs bluegrain\", \"bluegrain, to taste\"")).list();
    assert_eq!(packs(&line(&list, "bluegrain")), sizes(&[("100 g", 1)]));
    assert_eq!(lines(&list).len(), 1);
}

#[test]
fn loose_goods_in_a_measure_that_cannot_be_compared_are_listed_without_a_price() {
    // Nobody knows what one weighs: two of them, and no grams that were guessed.
    let list = wants("100 g", &loose("6.00 / kg", "50 g")).meals(&supper("2026-11-30", "\"2 bluegrain\"")).list();
    let line = line(&list, "bluegrain");
    assert_eq!((packs(&line), &line["cost"]), (sizes(&[]), &serde_json::Value::Null));
    assert_amount(&line["need"], 2.0, "each");
    assert!(list["warnings"].to_string().contains("each = "), "{}", list["warnings"]);
}

#[test]
fn a_packs_drained_weight_tells_the_share_where_foods_toml_does_not() {
    // 300 g drained of packs that hold 240 g drained: two.
    let pack = pack_of("bluegrain", "400 g", "1.00") + "drained = \"240 g\"\n";
    let list = wants("100 g", &pack).meals(&supper("2026-11-30", "\"300 g drained bluegrain\"")).list();
    let line = line(&list, "bluegrain");
    assert_eq!(packs(&line), sizes(&[("400 g", 2)]));
    assert_amount(&line["need"], 500.0, "g");
}

#[test]
fn one_size_has_one_entry_whatever_its_prices() {
    // Any two for 1.50, or one at 1.00: three of 400 g are 1.50 + 0.90.
    let offered = pack_of("bluegrain", "400 g", "0.90") + "offer = { buy = 2, pay = 1.50 }\n";
    let line = line(&wants("1100 g", &(pack_of("bluegrain", "400 g", "1.00") + &offered)).list(), "bluegrain");
    assert_eq!(line["packs"], json!([{"size": "400 g", "count": 3, "offer": 1, "cost": "2.40"}]));
}

const TWO_SESSIONS: &str = "from = 2026-11-30\n[[trip]]\non = 2026-11-27\n\
    [[session]]\nstart = 2026-11-28T14:00\npeople = [\"cook\"]\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n";

#[test]
fn frozen_spare_does_not_serve_on_the_day_it_is_made() {
    // A plate takes 2 portions of stew in Saturday's session; at supper of that day, before the session is ready, nobody else can
    // have stew: the third portion of the pot is frozen from Sunday on, and there is no session for Saturday's supper.
    let plate = "name = \"Plate\"\nmakes = \"1 portion\"\nkeeps = { fridge = \"3 days\" }\ningredients = \"2 portions recipe:stew\"\n[[step]]\ntext = \"Serve.\"\n";
    let keys = "keeps = { fridge = \"0 days\", freezer = \"2 months\" }\n";
    let with = |at: &str| {
        kitchen().foods(BLUEGRAIN).recipe("plate", plate).recipe("stew", &stew("4 portions", keys).replace("any", "whole")).week(&format!(
            "{TWO_SESSIONS}{}[[meal]]\non = {at}\nat = \"16:00\"\neach = [\"1 portion recipe:stew\"]\n",
            supper("2026-11-28", "\"1 portion recipe:plate\"")
        ))
    };
    assert!(with("2026-11-28").refusal().contains("no session is ready"));
    // On Sunday at 16:00, before Sunday's session is ready, the frozen portion serves.
    let list = with("2026-11-29").list();
    assert_amount(&line(&list, "bluegrain")["need"], 400.0, "g");
    assert_eq!(list["moves"][0]["at"], "2026-11-28");
}

#[test]
fn the_freezer_serves_the_one_use_that_the_fridge_does_not_reach() {
    // Fridge 2 days from Sunday: Tuesday is served from the fridge, Wednesday and Friday out of the freezer, each moved the day before;
    // 3 portions of 4 in halves are one batch, and one portion is spare.
    let meals: String = ["2026-12-01", "2026-12-02", "2026-12-04"].map(|on| supper(on, "\"1 portion recipe:stew\"")).concat();
    let keys = "keeps = { fridge = \"2 days\", freezer = \"1 month\" }\n";
    let list = kitchen().foods(BLUEGRAIN).recipe("stew", &stew("4 portions", keys).replace("any", "halves")).meals(&meals).list();
    let moved: Vec<&Value> = list["moves"].as_array().into_iter().flatten().map(|moved| &moved["at"]).collect();
    assert_eq!(moved, ["2026-12-01", "2026-12-03"]);
    assert_amount(&list["spare"][0]["amount"], 1.0, "portion");
    assert_amount(&line(&list, "bluegrain")["need"], 400.0, "g");
}

#[test]
fn what_is_left_of_drained_packs_is_told_as_purchased() {
    // A tin drains to 250 g; 240 g are wanted, so 10 g drained are left: 10 ÷ 0.5 = 20 g as purchased, as is the need of 480 g.
    let kitchen = kitchen()
        .foods("[[food]]\nname = \"tinned bluegrain\"\ndrained = \"50%\"\n")
        .shops(&format!("{STALL}{}drained = \"250 g\"\n", pack_of("tinned bluegrain", "400 g", "1.00")))
        .meals(&supper("2026-11-30", "\"240 g drained bluegrain\""));
    let line = line(&kitchen.list(), "tinned bluegrain");
    assert_amount(&line["need"], 480.0, "g");
    assert_eq!(packs(&line), sizes(&[("400 g", 1)]));
    assert_amount(&line["left"], 20.0, "g");
}

#[test]
fn packs_in_another_measure_are_weighed_without_noise() {
    // A cup of 236.5882365 ml weighs 100 g, so 600 ml are 253.6 g. With a pack in grams beside them needs are in grams; 3 × 250 ml and
    // 250 + 500 ml leave the same at the same price, and two packs are fewer.
    let food = "[[food]]\nname = \"bluegrain\"\ncup = \"100 g\"\n";
    let sold = pack_of("bluegrain", "250 ml", "0.50") + &pack_of("bluegrain", "500 ml", "1.00") + &pack_of("bluegrain", "1 kg", "9.00");
    let list = wants("600 ml", &sold).foods(food).rules("choose = \"least-left\"").list();
    assert_eq!(packs(&line(&list, "bluegrain")), sizes(&[("500 ml", 1), ("250 ml", 1)]));
    let much = wants("30 l", &sold).foods(food).rules("choose = \"least-left\"\nshort_by = \"0%\"").list();
    assert_eq!(packs(&line(&much, "bluegrain")), sizes(&[("500 ml", 60)]));
}

#[test]
fn loose_steps_of_a_light_food_come_out_even() {
    // A cup weighs 5 g: 2000 ml are 42.3 g, bought in 2000 steps of 1 ml and not one more, though a pack in grams puts the need in grams.
    let food = "[[food]]\nname = \"bluegrain\"\ncup = \"5 g\"\n";
    let by_litre = "[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nloose = true\nprice = \"1.00 / l\"\n";
    let list = wants("2000 ml", &(by_litre.to_owned() + &pack_of("bluegrain", "1 kg", "9.00"))).foods(food).list();
    let line = line(&list, "bluegrain");
    assert_eq!(line["need"]["unit"], "g");
    assert_amount(&line["packs"][0]["amount"], 2000.0, "ml");
}

#[test]
fn three_thirds_of_a_need_are_told_as_a_whole() {
    // Three times 100 g after trimming at 30 %: 333.333... g each, 1000 g as purchased.
    let food = "[[food]]\nname = \"bluegrain\"\nedible = \"30%\"\n";
    let each = ["\"100 g diced bluegrain\""; 3].join(", ");
    let list = kitchen().foods(food).meals(&supper("2026-11-30", &each)).list();
    assert_eq!(line(&list, "bluegrain")["need"], json!({"amount": 1000.0, "unit": "g"}));
}
