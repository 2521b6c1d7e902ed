//! The exact choice of packs, offers, loose goods, windows of opened food, and shops.

mod kitchen;

use kitchen::{Kitchen, assert_amount, kitchen, line, lines, packs, shop_of, sizes, supper};
use pretty_assertions::assert_eq;
use serde_json::{Value, json};

const BLUEGRAIN: &str = "[[food]]\nname = \"bluegrain\"\n";
const STALL: &str = "[[shop]]\nname = \"Stall\"\n";

fn pack(size: &str, price: &str) -> String {
    format!("[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nsize = \"{size}\"\nprice = {price}\n")
}

fn loose(price: &str, step: &str) -> String {
    let step = if step.is_empty() { String::new() } else { format!("step = \"{step}\"\n") };
    format!("[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nloose = true\nprice = \"{price}\"\n{step}")
}

/// One supper of one eater that wants `amount` of bluegrain, one trip, one stall.
fn wants(amount: &str, packs: &str) -> Kitchen {
    kitchen().foods(BLUEGRAIN).shops(&format!("{STALL}{packs}")).meals(&supper("2026-11-30", &format!("\"{amount} bluegrain\"")))
}

fn bought(kitchen: &Kitchen) -> Value {
    line(&kitchen.list(), "bluegrain")
}

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

// Units of needs.

#[test]
fn a_need_is_stated_in_pieces_where_all_packs_are() {
    // 300 g of 120 g a piece are 2.5, rounded up to 3.
    let kitchen = wants("300 g", &pack("6", "2.00")).foods("[[food]]\nname = \"bluegrain\"\neach = \"120 g\"\n");
    let line = bought(&kitchen);
    assert_amount(&line["need"], 3.0, "each");
    assert_amount(&line["left"], 3.0, "each");
}

#[test]
fn grams_become_pieces_by_the_medium_weight() {
    // 244 ÷ 122 = 2; by the large weight it would be 1.46.
    let kitchen = wants("244 g", &pack("1", "0.50"))
        .foods("[[food]]\nname = \"bluegrain\"\neach = { small = \"78 g\", medium = \"122 g\", large = \"167 g\" }\n");
    assert_amount(&bought(&kitchen)["need"], 2.0, "each");
}

#[test]
fn a_count_stays_a_count_whatever_its_size() {
    let kitchen = kitchen()
        .foods("[[food]]\nname = \"bluegrain\"\neach = { small = \"78 g\", medium = \"122 g\", large = \"367 g\" }\n")
        .shops(&format!("{STALL}{}", pack("1", "0.50")))
        .meals(&supper("2026-11-30", "\"2 large bluegrains\""));
    assert_amount(&bought(&kitchen)["need"], 2.0, "each");
}

#[test]
fn a_need_is_stated_in_millilitres_where_all_packs_are() {
    // 4 tablespoons of 14.786 76 ml (NIST SP 811, B.8).
    assert_amount(&bought(&wants("4 tbsp", &pack("500 ml", "3.00")))["need"], 59.14704, "ml");
    // 90 g of a food whose cup of 236.5882 ml weighs 180 g are half a cup.
    let kitchen = wants("90 g", &pack("500 ml", "3.00")).foods("[[food]]\nname = \"bluegrain\"\ncup = \"180 g\"\n");
    assert_amount(&bought(&kitchen)["need"], 118.2941, "ml");
}

#[test]
fn a_need_is_stated_in_grams_where_packs_differ_priced_or_not() {
    // A second pack in grams, without a price and in another shop, counts for the unit.
    let shops = format!(
        "{STALL}[[shop]]\nname = \"Corner\"\n{}[[pack]]\nshop = \"Corner\"\nfood = \"bluegrain\"\nsize = \"500 g\"\n",
        pack("6", "2.00")
    );
    let kitchen = wants("2", "").shops(&shops).foods("[[food]]\nname = \"bluegrain\"\neach = \"120 g\"\n");
    let line = bought(&kitchen);
    assert_amount(&line["need"], 240.0, "g");
    assert_eq!(line["cost"], "2.00");
}

#[test]
fn counted_needs_are_rounded_up_once_a_food_and_trip() {
    // 1.5 + 1.5 = 3 on one trip, not 2 + 2.
    let meals = supper("2026-11-30", "\"1.5 bluegrain\"") + &supper("2026-12-03", "\"1.5 bluegrain\"");
    let one = wants("1", &pack("1", "0.50")).meals(&meals);
    assert_amount(&bought(&one)["need"], 3.0, "each");
    // Keeping 2 days, they are of two trips: 2 each.
    let week = format!("from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[trip]]\non = 2026-12-02\n{meals}");
    let two = wants("1", &pack("1", "0.50")).foods("[[food]]\nname = \"bluegrain\"\nkeeps = { fridge = \"2 days\" }\n").week(&week);
    let needs: Vec<f64> = lines(&two.list()).iter().filter_map(|(_, _, line)| line["need"]["amount"].as_f64()).collect();
    assert_eq!(needs, [2.0, 2.0]);
}

// Tins.

const TINS: &str = "[[food]]\nname = \"tinned bluegrain\"\ndrained = \"60%\"\n";

fn tins(lines: &str, size: &str, drained: &str) -> Value {
    let drained = if drained.is_empty() { String::new() } else { format!("drained = \"{drained}\"\n") };
    let kitchen = kitchen()
        .rules("short_by = \"0%\"")
        .foods(TINS)
        .shops(&format!("{STALL}[[pack]]\nshop = \"Stall\"\nfood = \"tinned bluegrain\"\nsize = \"{size}\"\n{drained}price = 1.00\n"))
        .meals(&supper("2026-11-30", lines));
    line(&kitchen.list(), "tinned bluegrain")
}

#[test]
fn a_packs_drained_weight_counts_where_every_line_is_drained() {
    // 250 g drained are 250 ÷ 0.6 = 416.7 g of tin, more than 400; but this tin drains to 250.
    assert_eq!(packs(&tins("\"250 g drained tinned bluegrain\"", "400 g", "250 g")), sizes(&[("400 g", 1)]));
    // 251 g are more than one such tin.
    assert_eq!(packs(&tins("\"251 g drained tinned bluegrain\"", "400 g", "250 g")), sizes(&[("400 g", 2)]));
}

#[test]
fn a_packs_drained_weight_does_not_count_where_a_line_is_not_drained() {
    // 416.7 + 10 g of 400 g as purchased: two.
    assert_eq!(packs(&tins("\"250 g drained tinned bluegrain\", \"10 g tinned bluegrain\"", "400 g", "250 g")), sizes(&[("400 g", 2)]));
}

#[test]
fn a_pack_within_ten_per_cent_counts_as_the_tin_of_the_line() {
    // 390 g are within 10 % of 400 g, 350 g are not.
    let near = tins("\"2 tins (400 g) bluegrain\"", "390 g", "");
    assert_eq!(packs(&near), sizes(&[("390 g", 2)]));
    assert!(near["left"]["amount"].as_f64().is_some_and(|left| left >= 0.0), "left is never negative");
    assert_eq!(packs(&tins("\"2 tins (400 g) bluegrain\"", "350 g", "")), sizes(&[("350 g", 3)]));
}

#[test]
fn the_ten_per_cent_do_not_count_where_a_line_is_not_in_tins() {
    // 400 + 10 g as purchased: two of 390 g.
    assert_eq!(packs(&tins("\"1 tin (400 g) bluegrain\", \"10 g tinned bluegrain\"", "390 g", "")), sizes(&[("390 g", 2)]));
}

// Opened food.

const OPENED: &str = "[[food]]\nname = \"bluegrain\"\nkeeps = { opened = \"3 days\" }\n";

fn on_days(days: &[(&str, &str)]) -> String {
    days.iter().map(|(day, amount)| supper(day, &format!("\"{amount} bluegrain\""))).collect()
}

#[test]
fn a_pack_once_opened_serves_the_days_it_keeps() {
    // Opened on Monday 30 November, good until Thursday 3 December, that day included: 100 + 100 of one pack.
    let within = wants("1 g", &pack("500 ml", "1.00")).foods(OPENED).meals(&on_days(&[("2026-11-30", "100 ml"), ("2026-12-03", "100 ml")]));
    assert_eq!(packs(&bought(&within)), sizes(&[("500 ml", 1)]));
    // On Friday a second one is opened: 500 - 100 of each are left.
    let beyond = wants("1 g", &pack("500 ml", "1.00")).foods(OPENED).meals(&on_days(&[("2026-11-30", "100 ml"), ("2026-12-04", "100 ml")]));
    assert_eq!(packs(&bought(&beyond)), sizes(&[("500 ml", 2)]));
}

#[test]
fn a_food_without_an_opened_keeping_has_no_windows() {
    let kitchen = wants("1 g", &pack("500 ml", "1.00")).meals(&on_days(&[("2026-11-30", "100 ml"), ("2026-12-04", "100 ml")]));
    assert_eq!(packs(&bought(&kitchen)), sizes(&[("500 ml", 1)]));
}

#[test]
fn a_window_begins_with_the_first_use_that_must_be_bought() {
    // Monday is served from the shelf; Thursday opens a pack, which is good until Sunday 6 December.
    let kitchen = wants("1 g", &pack("500 ml", "1.00"))
        .foods(OPENED)
        .pantry("[[lot]]\nfood = \"bluegrain\"\namount = \"100 ml\"\nplace = \"cupboard\"\n")
        .meals(&on_days(&[("2026-11-30", "100 ml"), ("2026-12-03", "100 ml"), ("2026-12-06", "100 ml")]));
    let line = bought(&kitchen);
    assert_amount(&line["need"], 200.0, "ml");
    assert_eq!(packs(&line), sizes(&[("500 ml", 1)]));
}

#[test]
fn loose_goods_have_no_windows() {
    // 100 + 50 g at once are one step of 150 g; in two windows they would be two.
    let kitchen =
        wants("1 g", &loose("1.00 / kg", "150 g")).foods(OPENED).meals(&on_days(&[("2026-11-30", "100 g"), ("2026-12-05", "50 g")]));
    assert_amount(&bought(&kitchen)["packs"][0]["amount"], 150.0, "g");
}

#[test]
fn offers_count_over_the_packs_of_all_windows() {
    // One pack in each of two windows: two for 1.50.
    let kitchen = wants("1 g", &(pack("500 ml", "1.00") + "offer = { buy = 2, pay = 1.50 }\n"))
        .foods(OPENED)
        .meals(&on_days(&[("2026-11-30", "100 ml"), ("2026-12-05", "100 ml")]));
    assert_eq!(bought(&kitchen)["cost"], "1.50");
}

#[test]
fn no_slack_is_given_where_a_line_has_several_windows() {
    // Each window lacks 1 ml of a pack, within 2 %; with two windows none may: 2 + 2 packs.
    let kitchen =
        wants("1 g", &pack("500 ml", "1.00")).foods(OPENED).meals(&on_days(&[("2026-11-30", "501 ml"), ("2026-12-05", "501 ml")]));
    assert_eq!(packs(&bought(&kitchen)), sizes(&[("500 ml", 4)]));
    // One window has it.
    let one = wants("1 g", &pack("500 ml", "1.00")).foods(OPENED).meals(&on_days(&[("2026-11-30", "501 ml")]));
    assert_eq!(packs(&bought(&one)), sizes(&[("500 ml", 1)]));
}

#[test]
fn a_top_up_of_a_food_that_goes_off_once_opened_is_a_window_of_its_own() {
    // 100 ml for Monday and 400 ml for the shelf would fit one pack of 500 ml, were the shelf's not to stay closed.
    let staple = "[[staple]]\nfood = \"bluegrain\"\npar = \"400 ml\"\n";
    let monday = on_days(&[("2026-11-30", "100 ml")]);
    let opened = wants("1 g", &pack("500 ml", "1.00")).household(staple).foods(OPENED).meals(&monday);
    assert_eq!(packs(&bought(&opened)), sizes(&[("500 ml", 2)]));
    let lasting = wants("1 g", &pack("500 ml", "1.00")).household(staple).meals(&monday);
    assert_eq!(packs(&bought(&lasting)), sizes(&[("500 ml", 1)]));
}

// Shops.

fn shop(name: &str, trip: &str) -> String {
    format!("[[shop]]\nname = \"{name}\"\ntrip = \"{trip}\"\n")
}

fn sells(shop: &str, food: &str, price: &str) -> String {
    format!("[[pack]]\nshop = \"{shop}\"\nfood = \"{food}\"\nsize = \"100 g\"\nprice = {price}\n")
}

fn two_shops(shops: &str, foods: &[&str]) -> Kitchen {
    let known: String = foods.iter().map(|food| format!("[[food]]\nname = \"{food}\"\n")).collect();
    let each: Vec<String> = foods.iter().map(|food| format!("\"100 g {food}\"")).collect();
    kitchen().foods(&known).shops(shops).meals(&supper("2026-11-30", &each.join(", ")))
}

#[test]
fn a_second_shop_is_visited_only_where_it_saves_more_than_its_trip() {
    // 1.00 here against 0.60 + 0.50 there: here. With two foods 2.00 against 1.20 + 0.50: there.
    let shops = shop("Near", "0.00")
        + &shop("Far", "0.50")
        + &sells("Near", "bluegrain", "1.00")
        + &sells("Far", "bluegrain", "0.60")
        + &sells("Near", "moonroot", "1.00")
        + &sells("Far", "moonroot", "0.60");
    let one = two_shops(&shops, &["bluegrain"]).list();
    assert_eq!((shop_of(&one, "bluegrain"), one["cost"].as_str()), (json!("Near"), Some("1.00")));
    let two = two_shops(&shops, &["bluegrain", "moonroot"]).list();
    assert_eq!((shop_of(&two, "bluegrain"), shop_of(&two, "moonroot")), (json!("Far"), json!("Far")));
    let visit = &two["trips"][0]["shops"][0];
    assert_eq!((visit["trip_cost"].as_str(), visit["cost"].as_str()), (Some("0.50"), Some("1.70")));
    assert_eq!((two["trips"][0]["cost"].as_str(), two["cost"].as_str()), (Some("1.70"), Some("1.70")));
}

#[test]
fn of_equal_costs_the_fewest_shops_are_visited() {
    // Bluegrain is 1.00 in both; moonroot only at Second: one shop will do.
    let shops = shop("First", "0.00")
        + &shop("Second", "0.00")
        + &sells("First", "bluegrain", "1.00")
        + &sells("Second", "bluegrain", "1.00")
        + &sells("Second", "moonroot", "1.00");
    let list = two_shops(&shops, &["bluegrain", "moonroot"]).list();
    assert_eq!((shop_of(&list, "bluegrain"), shop_of(&list, "moonroot")), (json!("Second"), json!("Second")));
}

#[test]
fn of_equal_shops_the_first_in_the_file_is_visited() {
    let shops =
        shop("First", "0.00") + &shop("Second", "0.00") + &sells("Second", "bluegrain", "1.00") + &sells("First", "bluegrain", "1.00");
    assert_eq!(shop_of(&two_shops(&shops, &["bluegrain"]).list(), "bluegrain"), "First");
}

#[test]
fn one_food_is_bought_in_one_shop_a_trip() {
    // 300 g of packs of 200 g at 1.00 in Near and of 100 g at 0.60 in Far: one of each would be 1.60, Near alone 2.00, Far alone 1.80.
    let shops = shop("Near", "0.00")
        + &shop("Far", "0.00")
        + &sells("Near", "bluegrain", "1.00").replace("100 g", "200 g")
        + &sells("Far", "bluegrain", "0.60");
    let list = two_shops(&shops, &["bluegrain"]).meals(&supper("2026-11-30", "\"300 g bluegrain\"")).list();
    let line = line(&list, "bluegrain");
    assert_eq!((packs(&line), line["cost"].as_str()), (sizes(&[("100 g", 3)]), Some("1.80")));
}

#[test]
fn a_trip_goes_only_to_its_shops() {
    let shops =
        shop("First", "0.00") + &shop("Second", "0.00") + &sells("First", "bluegrain", "0.50") + &sells("Second", "bluegrain", "1.00");
    let week =
        format!("from = 2026-11-30\n[[trip]]\non = 2026-11-28\nshops = [\"Second\"]\n{}", supper("2026-11-30", "\"100 g bluegrain\""));
    assert_eq!(shop_of(&two_shops(&shops, &["bluegrain"]).week(&week).list(), "bluegrain"), "Second");
}

#[test]
fn a_food_with_unpriced_packs_alone_is_listed_with_its_plain_need_under_no_shop() {
    let shops =
        shop("First", "0.00") + &sells("First", "bluegrain", "1.00").replace("price = 1.00\n", "") + &sells("First", "moonroot", "1.00");
    let list = two_shops(&shops, &["bluegrain", "moonroot"]).list();
    let line = line(&list, "bluegrain");
    assert_amount(&line["need"], 100.0, "g");
    assert_eq!((line["packs"].clone(), line["cost"].clone()), (json!([]), Value::Null));
    assert_eq!(shop_of(&list, "bluegrain"), Value::Null);
    assert!(list["no_price"].as_array().is_some_and(|foods| foods.contains(&json!("bluegrain"))));
    // It never blocks the rest.
    assert_eq!(list["cost"], "1.00");
    // Shop null stands last, with no costs.
    let visits = list["trips"][0]["shops"].as_array().expect("a list");
    assert_eq!((visits[0]["shop"].as_str(), visits[1]["shop"].clone()), (Some("First"), Value::Null));
    assert_eq!((visits[1]["cost"].clone(), visits[1]["trip_cost"].clone()), (Value::Null, Value::Null));
}

#[test]
fn an_unpriced_pack_is_ignored_where_a_priced_one_is_there() {
    let shops = shop("First", "0.00")
        + &sells("First", "bluegrain", "1.00").replace("price = 1.00\n", "").replace("100 g", "300 g")
        + &sells("First", "bluegrain", "1.00");
    let line = line(&two_shops(&shops, &["bluegrain"]).meals(&supper("2026-11-30", "\"300 g bluegrain\"")).list(), "bluegrain");
    assert_eq!((packs(&line), line["cost"].as_str()), (sizes(&[("100 g", 3)]), Some("3.00")));
}

#[test]
fn sections_stand_in_walking_order_and_a_pack_may_name_its_own() {
    let shops = "[[shop]]\nname = \"First\"\nsections = [\"Cellar\", \"Attic\"]\n".to_owned()
        + &sells("First", "bluegrain", "1.00")
        + "section = \"Attic\"\n"
        + &sells("First", "moonroot", "1.00");
    let kitchen = two_shops(&shops, &["bluegrain", "moonroot"])
        .foods("[[food]]\nname = \"bluegrain\"\nsection = \"Cellar\"\n[[food]]\nname = \"moonroot\"\nsection = \"Cellar\"\n");
    let list = kitchen.list();
    let sections = list["trips"][0]["shops"][0]["sections"].as_array().expect("a list");
    let names: Vec<(&str, &str)> = sections
        .iter()
        .map(|section| (section["section"].as_str().unwrap_or("?"), section["lines"][0]["food"].as_str().unwrap_or("?")))
        .collect();
    assert_eq!(names, [("Cellar", "moonroot"), ("Attic", "bluegrain")]);
}

#[test]
fn money_is_read_from_its_digits() {
    // 0.1 + 0.2 as binary fractions would be 0.30000000000000004.
    let shops = shop("First", "0.00") + &sells("First", "bluegrain", "0.10") + &sells("First", "moonroot", "0.20");
    assert_eq!(two_shops(&shops, &["bluegrain", "moonroot"]).list()["cost"], "0.30");
}
