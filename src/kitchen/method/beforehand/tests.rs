use pretty_assertions::assert_eq;

use super::super::tests::read;
use crate::kitchen::{Piece, Step};

/// Each step as hands, "e" where estimated, and wait.
fn told(lines: &[&str], method: &[&str]) -> Vec<String> {
    let one = |step: &Step| format!("{}{} w{}", step.hands.0, if step.estimated.hands { "e" } else { "" }, step.wait.0);
    read(lines, method).steps.iter().map(one).collect()
}

#[test]
fn what_only_the_lines_cut_takes_its_minutes_in_the_first_step_that_names_it() {
    let method = ["Melt the butter, add the leeks and onion and cook with the lid on for 10 minutes.", "Blend."];
    // Without: 2 to melt, 0.5 to add. 3 leeks of 230 g sliced: 6.9 × 0.7 × 0.6 = 2.9; an onion of 120 g, finely: 1.2 × 0.9 × 1.5 × 0.8 = 1.3.
    let plain = told(&["30 g butter", "3 leeks", "1 onion"], &method);
    let cut = told(&["30 g butter", "3 leeks, sliced", "1 onion, finely chopped"], &method);
    assert_eq!(plain, ["3e w10", "2e w0"]);
    assert_eq!(cut, ["7e w10", "2e w0"]);
}

#[test]
fn peeling_counts_as_well_and_the_step_needs_a_knife() {
    let steps = read(&["1 kg beetroot, peeled and cut in wedges"], &["Boil the beetroot for 30 minutes."]).steps;
    // To compare: 1 kg of beetroot peeled and cut in wedges takes 12 minutes; one more to put it on.
    assert_eq!((steps[0].hands.0, steps[0].skill.as_deref(), steps[0].estimated.hands), (13, Some("knife"), true));
    assert!(steps[0].scales, "twelve kilos take longer to cut, whatever they boil in");
}

#[test]
fn what_a_clause_cuts_is_not_cut_twice() {
    let method = ["Peel and chop the carrots.", "Boil the carrots for 20 minutes."];
    assert_eq!(told(&["500 g carrots, peeled and diced"], &method), told(&["500 g carrots"], &method));
    // The clause peels, the line slices.
    let peel = ["Peel the carrots.", "Boil the carrots for 20 minutes."];
    assert_ne!(told(&["500 g carrots, peeled and sliced"], &peel), told(&["500 g carrots"], &peel));
}

#[test]
fn what_is_bought_cut_takes_no_minutes() {
    for (line, named) in [
        ("100 g grated cheddar", "cheddar"),
        ("1 tin chopped tomatoes", "tomatoes"),
        ("100 g ground almonds", "almonds"),
        ("100 g chopped walnuts", "walnuts"),
        ("500 g minced beef", "beef"),
        ("500 g diced lamb", "lamb"),
        ("300 g frozen chopped spinach", "spinach"),
        ("100 g pitted olives", "olives"),
        ("1 tsp ground cumin", "cumin"),
        ("50 g rolled oats", "oats"),
    ] {
        let method = [format!("Stir in the {named}.")];
        assert_eq!(told(&[line], &[&method[0]]), ["1e w0"], "{line}");
    }
}

#[test]
fn what_is_said_after_the_comma_is_done_at_home() {
    for (line, named) in [
        ("60 g parmesan, grated", "parmesan"),
        ("1 lemon, zest and juice", "lemon"),
        ("1 cup finely chopped onion", "onion"),
        ("400 g diced potato", "potato"),
        ("4 potatoes, in wedges", "potatoes"),
        ("500 g chicken thighs, diced", "chicken"),
    ] {
        let method = [format!("Stir in the {named}.")];
        assert_ne!(told(&[line], &[&method[0]]), ["1e w0"], "{line}");
    }
}

#[test]
fn hands_that_the_text_gives_stay_and_the_step_before_begins_with_the_cutting() {
    let lines = ["350 g spaghetti", "150 g bacon, diced"];
    let read = read(&lines, &["Cook the spaghetti for 11 minutes.", "While the pasta cooks, fry the bacon for 5 minutes."]);
    let hands: Vec<(i64, bool)> = read.steps.iter().map(|step| (step.hands.0, step.estimated.hands)).collect();
    // 1.5 × 1.3 × 0.8 = 1.6, and one to put the spaghetti in.
    assert_eq!(hands, [(3, true), (5, false)]);
    assert_eq!(read.steps[0].text[0], Piece::Words("Dice the bacon. ".to_owned()));
}

#[test]
fn before_the_first_step_or_after_a_night_the_cutting_is_a_step_of_its_own() {
    assert_eq!(told(&["1 onion, chopped", "20 g butter"], &["Fry the onion in the butter for 5 minutes."]), ["1e w0", "5 w0"]);
    let night = ["Soak the beans overnight.", "Fry the onion for 5 minutes.", "Meanwhile, boil the beans for 40 minutes."];
    let steps = read(&["250 g dried white beans", "1 onion, chopped"], &night).steps;
    assert_eq!(steps.len(), 4);
    assert_eq!(steps[1].text, [Piece::Words("Chop the onion.".to_owned())]);
    assert_eq!((steps[1].ahead, steps[2].hands.0), (None, 5));
    // "Meanwhile" still comes after what the frying came after.
    assert_eq!(steps[3].after, Some(vec![crate::kitchen::After::Step(0)]));
}

#[test]
fn no_oven_stands_hot_while_somebody_cuts() {
    // 15 carrots peeled are 9 minutes, 10 times 100 g diced 13.
    let roast = ["Toss the carrots with the oil and roast for 40 minutes at 200 °C."];
    assert_eq!(told(&["1 kg carrots, peeled and diced", "2 tbsp oil"], &roast), ["22e w0", "2e w40"]);
    // One of them is put in as it is cut.
    assert_eq!(told(&["1 onion, quartered", "2 tbsp oil"], &["Toss the onion with the oil and roast for 40 minutes."]).len(), 1);
}

#[test]
fn what_is_cut_for_the_table_takes_no_time_of_the_session() {
    for at_table in ["Serve with the parsley.", "Scatter with the parsley to serve."] {
        let method = ["Boil the potatoes for 20 minutes.", at_table];
        assert_eq!(told(&["500 g potatoes", "1 bunch parsley, chopped"], &method), ["1e w20"]);
    }
}

#[test]
fn the_pot_in_the_oven_does_not_wait_for_the_knife() {
    let method =
        ["Simmer the stock for 5 minutes.", "Bake in the oven at 180 °C for 40 minutes.", "Add the carrots and bake for 20 minutes."];
    let steps = read(&["500 ml stock", "1 kg carrots, peeled and diced"], &method).steps;
    let step = |at: usize| crate::kitchen::After::Step(at);
    assert_eq!(steps[2].text, [Piece::Words("Peel and dice the carrots.".to_owned())]);
    // Beside the baking, after the simmering; what follows comes after both.
    assert_eq!((&steps[2].after, &steps[3].after), (&Some(vec![step(0)]), &Some(vec![step(1), step(2)])));
    assert_eq!(told(&["120 g black olives, stoned"], &["Scatter in the olives."]), ["1e w0"]);
}
