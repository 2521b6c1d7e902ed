//! In which unit a need is stated, how it is rounded, and what counts as a tin.

use pretty_assertions::assert_eq;
use serde_json::Value;

use crate::kitchen::stall::{STALL, bought, pack, wants};
use crate::kitchen::{assert_amount, kitchen, line, lines, packs, sizes, supper};

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
