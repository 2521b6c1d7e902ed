//! The exact choice of packs, offers, loose goods, windows of opened food, and shops.

use pretty_assertions::assert_eq;
use serde_json::{Value, json};

use crate::kitchen::stall::{bought, loose, pack, wants};
use crate::kitchen::{assert_amount, line, packs, shop_of, sizes};

#[test]
fn the_cheapest_set_of_packs_is_bought() {
    // For 750 g: 250 + 500 = 2.40; 3 × 250 = 2.55; 1 kg = 2.90.
    let line = bought(&wants("750 g", &(pack("250 g", "0.85") + &pack("500 g", "1.55") + &pack("1 kg", "2.90"))));
    let mut found = packs(&line);
    found.sort();
    assert_eq!(found, sizes(&[("250 g", 1), ("500 g", 1)]));
    assert_eq!(line["cost"], "2.40");
    assert_amount(&line["left"], 0.0, "g");
    assert_amount(&line["short"], 0.0, "g");
}

#[test]
fn of_equal_prices_the_least_is_left_over() {
    assert_eq!(packs(&bought(&wants("350 g", &(pack("500 g", "1.00") + &pack("400 g", "1.00"))))), sizes(&[("400 g", 1)]));
}

#[test]
fn of_equal_left_overs_the_fewest_packs_are_bought() {
    assert_eq!(packs(&bought(&wants("400 g", &(pack("200 g", "1.00") + &pack("400 g", "2.00"))))), sizes(&[("400 g", 1)]));
}

#[test]
fn least_left_can_be_chosen_over_cheapest() {
    // 350 g: 400 g at 2.00 leaves 50, 500 g at 1.00 leaves 150.
    let packs_of = pack("500 g", "1.00") + &pack("400 g", "2.00");
    assert_eq!(packs(&bought(&wants("350 g", &packs_of))), sizes(&[("500 g", 1)]));
    assert_eq!(packs(&bought(&wants("350 g", &packs_of).rules("choose = \"least-left\""))), sizes(&[("400 g", 1)]));
}

#[test]
fn a_need_ten_grams_over_a_pack_buys_one_pack_within_the_slack() {
    // 2 % of 510 g are 10.2 g: 500 g will do, 10 short. 2 % of 511 g are 10.22 g, less than the 11 missing.
    let short = bought(&wants("510 g", &pack("500 g", "1.00")));
    assert_eq!(packs(&short), sizes(&[("500 g", 1)]));
    assert_amount(&short["short"], 10.0, "g");
    assert_amount(&short["left"], 0.0, "g");
    let full = bought(&wants("511 g", &pack("500 g", "1.00")));
    assert_eq!(packs(&full), sizes(&[("500 g", 2)]));
    assert_amount(&full["left"], 489.0, "g");
}

#[test]
fn a_need_exactly_at_the_slack_is_met() {
    // 2 % of 500 g are 10 g: 490 g will do.
    assert_eq!(packs(&bought(&wants("500 g", &pack("490 g", "1.00")))), sizes(&[("490 g", 1)]));
}

#[test]
fn short_by_can_be_set() {
    assert_eq!(packs(&bought(&wants("510 g", &pack("500 g", "1.00")).rules("short_by = \"0%\""))), sizes(&[("500 g", 2)]));
    assert_eq!(packs(&bought(&wants("550 g", &pack("500 g", "1.00")).rules("short_by = \"10%\""))), sizes(&[("500 g", 1)]));
}

#[test]
fn the_slack_is_of_the_demand_before_the_pantry() {
    // 1000 g wanted, 490 at home: of the 510 needed 15 are missing with 495; 2 % of 1000 are 20.
    let kitchen =
        wants("1000 g", &pack("495 g", "1.00")).pantry("[[lot]]\nfood = \"bluegrain\"\namount = \"490 g\"\nplace = \"cupboard\"\n");
    let line = bought(&kitchen);
    assert_amount(&line["need"], 510.0, "g");
    assert_eq!(packs(&line), sizes(&[("495 g", 1)]));
    assert_amount(&line["short"], 15.0, "g");
}

#[test]
fn where_the_slack_leaves_nothing_to_buy_the_line_stands_without_packs_and_no_shop_is_visited() {
    // 1000 g wanted, 985 at home; the 15 missing are within 20.
    let list = wants("1000 g", &pack("500 g", "1.00"))
        .shops(&format!("[[shop]]\nname = \"Stall\"\ntrip = \"2.00\"\n{}", pack("500 g", "1.00")))
        .pantry("[[lot]]\nfood = \"bluegrain\"\namount = \"985 g\"\nplace = \"cupboard\"\n")
        .list();
    let line = line(&list, "bluegrain");
    assert_eq!((line["packs"].clone(), line["cost"].as_str()), (json!([]), Some("0.00")));
    assert_amount(&line["short"], 15.0, "g");
    assert_eq!(shop_of(&list, "bluegrain"), Value::Null);
    assert_eq!(list["cost"], "0.00");
}

#[test]
fn counted_foods_have_no_slack() {
    // 2 % of 102 would be 2.
    let line = bought(&wants("102", &pack("100", "1.00")));
    assert_eq!(packs(&line), sizes(&[("100", 2)]));
    assert_eq!(line["need"]["unit"], "each");
}

#[test]
fn what_the_shop_sells_loose_has_no_slack() {
    // Loose alone: all 510 g. Beside a pack of 500 g: the pack and 10 g, not the pack with 10 short.
    assert_amount(&bought(&wants("510 g", &loose("1.00 / kg", "")))["packs"][0]["amount"], 510.0, "g");
    let both = bought(&wants("510 g", &(pack("500 g", "0.10") + &loose("1.00 / kg", ""))));
    assert_eq!(both["cost"], "0.11");
    assert_amount(&both["short"], 0.0, "g");
}

#[test]
fn an_offer_is_used_again_and_again() {
    // Any three for 2.00, one for 0.89.
    for (need, cost, offer) in [("1600 g", "2.89", json!(1)), ("2400 g", "4.00", json!(2)), ("800 g", "1.78", Value::Null)] {
        let line = bought(&wants(need, &(pack("400 g", "0.89") + "offer = { buy = 3, pay = 2.00 }\n")));
        assert_eq!(line["cost"], cost, "{need}");
        assert_eq!(line["packs"][0]["offer"], offer, "{need}");
    }
}

#[test]
fn an_offer_that_is_cheaper_than_what_is_needed_is_taken() {
    // Two at 1.10 are 2.20; three for 2.00, and 400 g are left.
    let line = bought(&wants("800 g", &(pack("400 g", "1.10") + "offer = { buy = 3, pay = 2.00 }\n")));
    assert_eq!((packs(&line), line["cost"].as_str()), (sizes(&[("400 g", 3)]), Some("2.00")));
    assert_amount(&line["left"], 400.0, "g");
}

#[test]
fn loose_goods_are_rounded_up_to_their_step() {
    // 830 g in steps of 100 g: 900 g at 1.40 a kilogram = 1.26.
    let line = bought(&wants("830 g", &loose("1.40 / kg", "100 g")));
    assert_eq!(line["packs"].as_array().map(Vec::len), Some(1));
    let pack = &line["packs"][0];
    assert_eq!((pack["size"].as_str(), pack["count"].as_u64(), pack["cost"].as_str()), (Some("loose"), Some(1), Some("1.26")));
    assert_amount(&pack["amount"], 900.0, "g");
    assert_amount(&line["left"], 70.0, "g");
}

#[test]
fn a_loose_price_is_rounded_half_up_once() {
    // 70 g at 1.50 a kilogram = 0.105, up to 0.11; 69 g = 0.1035, down to 0.10. Without a step it is one gram.
    assert_eq!(bought(&wants("70 g", &loose("1.50 / kg", "")))["cost"], "0.11");
    assert_eq!(bought(&wants("69 g", &loose("1.50 / kg", "")))["cost"], "0.10");
    assert_amount(&bought(&wants("69.2 g", &loose("1.50 / kg", "")))["packs"][0]["amount"], 70.0, "g");
}

#[test]
fn loose_goods_are_sold_by_the_piece_too() {
    let line = bought(&wants("3", &loose("0.35 / each", "")));
    assert_eq!(line["cost"], "1.05");
    assert_amount(&line["packs"][0]["amount"], 3.0, "each");
}

#[test]
fn packs_and_a_loose_amount_are_weighed_against_each_other() {
    // 1200 g: 1 kg and 200 g loose = 1.00 + 0.30; two packs 2.00; all loose 1.80.
    let line = bought(&wants("1200 g", &(pack("1 kg", "1.00") + &loose("1.50 / kg", "100 g"))));
    let mut found = packs(&line);
    found.sort();
    assert_eq!(found, sizes(&[("1 kg", 1), ("loose", 1)]));
    assert_eq!(line["cost"], "1.30");
}

#[test]
fn of_equal_plans_less_short_wins_before_fewer_packs() {
    // For 510 g: 500 g at 1.00 is 10 short, 2 × 255 g at 0.50 is nothing short; both cost 1.00 and leave nothing.
    let line = bought(&wants("510 g", &(pack("500 g", "1.00") + &pack("255 g", "0.50"))));
    assert_eq!(packs(&line), sizes(&[("255 g", 2)]));
    assert_amount(&line["short"], 0.0, "g");
}

#[test]
fn a_bag_that_stands_for_one_of_unknown_weight_names_the_key_that_would_tell_it() {
    let kitchen = wants("½ bag", &pack("200 g", "1.20"));
    assert_eq!(packs(&bought(&kitchen)), sizes(&[("200 g", 1)]));
    let said = crate::kitchen::stderr(&kitchen.run(&["list"]));
    assert!(said.contains("no weight of a bag is known. Add bag ="), "{said}");
}
