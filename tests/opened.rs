//! Food that keeps a few days once its pack is opened.

use pretty_assertions::assert_eq;

use crate::kitchen::stall::{bought, loose, pack, wants};
use crate::kitchen::{assert_amount, packs, sizes, supper};

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
