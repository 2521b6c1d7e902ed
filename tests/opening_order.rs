//! Packs are opened as the list allots them: what a trip brings lies on the shelf in the order in which the week opens it.

use pretty_assertions::assert_eq;

use crate::dice::Dice;
use crate::kitchen::{Kitchen, kitchen, lines, supper};

const FOODS: &str = "[[food]]\nname = \"moon cream\"\nallergens = []\nkeeps = { fridge = \"20 days\", opened = \"3 days\" }\n\
    source = \"weighed at home\"\n";

/// Moon cream in packs of such sizes at such prices, eaten in grams on such days of December (0: 30 November).
fn household(packs: &[(i64, i64)], eaten: &[(i64, i64)]) -> Kitchen {
    let pack = |(size, cents): &(i64, i64)| {
        format!("[[pack]]\nshop = \"Stall\"\nfood = \"moon cream\"\nsize = \"{size} g\"\nprice = {}.{:02}\n", cents / 100, cents % 100)
    };
    let shops = packs.iter().map(pack).collect::<String>();
    let meals = eaten.iter().map(|(day, grams)| supper(&date(*day), &format!("\"{grams} g moon cream\""))).collect::<String>();
    kitchen().foods(FOODS).shops(&format!("[[shop]]\nname = \"Stall\"\n{shops}")).meals(&meals)
}

fn date(day: i64) -> String {
    if day == 0 { "2026-11-30".to_owned() } else { format!("2026-12-{day:02}") }
}

fn amounts(kitchen: &Kitchen) -> Vec<String> {
    let pantry = kitchen.text("pantry.toml");
    pantry.lines().filter_map(|line| line.strip_prefix("amount = ")).map(|amount| amount.trim_matches('"').to_owned()).collect()
}

#[test]
fn the_pack_that_is_opened_first_stands_first() {
    // 140 g on Monday are one pack of 150 g, 390 g on 8 December one of 400 g.
    let kitchen = household(&[(150, 90), (400, 200)], &[(0, 140), (8, 390)]);
    kitchen.done_on("2026-11-28", &["receive"]);
    assert_eq!(amounts(&kitchen), ["1 x 150 g", "1 x 400 g"]);
    kitchen.done_on("2026-11-30", &["issue", "--until", "2026-11-30"]);
    assert_eq!(amounts(&kitchen), ["1 x 400 g", "10 g"]);
    assert!(lines(&kitchen.list_on("2026-12-01")).is_empty());
}

#[test]
fn a_trip_that_was_printed_is_booked_and_taken_as_done_in_the_same_order() {
    // At 1.10 and 2.00: 440 g on Monday are 400 g and 150 g (three of 150 g cost 3.30), 390 g on 8 December are 400 g: 110 g are left of Monday's smaller pack.
    let kitchen = household(&[(150, 110), (400, 200)], &[(0, 440), (8, 390)]);
    kitchen.done_on("2026-11-28", &["print", "--only", "list"]);
    assert!(lines(&kitchen.list_on("2026-12-02")).is_empty(), "taken as done");
    kitchen.done_on("2026-11-28", &["receive"]);
    assert_eq!(amounts(&kitchen), ["1 x 400 g", "1 x 150 g", "1 x 400 g"]);
    kitchen.done_on("2026-11-30", &["issue", "--until", "2026-11-30"]);
    assert!(lines(&kitchen.list_on("2026-12-01")).is_empty(), "booked");
    assert_eq!(amounts(&kitchen), ["1 x 400 g", "110 g"]);
}

#[test]
fn booked_as_planned_nothing_more_is_to_buy_before_the_last_window() {
    for seed in 0..16 {
        let mut dice = Dice(seed);
        let mut any = |least, most| dice.between(least, most);
        let sizes = any(2, 3);
        let packs: Vec<(i64, i64)> = (0..sizes).map(|nth| (50 * any(1, 4) + 130 * nth, any(60, 250))).collect();
        let mut day = 0;
        let mut eaten = Vec::new();
        for _ in 0..any(2, 4) {
            eaten.push((day, any(20, 700)));
            day += any(1, 5);
        }
        let kitchen = household(&packs, &eaten);
        let unbooked = household(&packs, &eaten);
        kitchen.done_on("2026-11-28", &["receive"]);
        for (day, _) in &eaten {
            let today = date(*day);
            assert!(lines(&kitchen.list_on(&today)).is_empty(), "household {seed} on {today}: {packs:?} {eaten:?} {:?}", amounts(&kitchen));
            assert!(lines(&unbooked.list_on(&today)).is_empty(), "household {seed} on {today}, taken as done");
            kitchen.done_on(&today, &["issue", "--until", &today]);
        }
    }
}
