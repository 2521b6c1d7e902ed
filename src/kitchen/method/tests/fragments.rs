//! Clauses without a verb, as cards have them; what goes on where it was; what stays on the hob when its food is lifted out.

use pretty_assertions::assert_eq;

use super::{read, told};
use crate::kitchen::Piece;

const FISH: [&str; 3] = ["600 g cod", "2 onions", "2 tbsp olive oil"];

#[test]
fn a_place_and_a_time_without_a_verb_are_a_wait_there() {
    for (method, meant) in [
        ("Simmer the cod for 12 min. Off heat 10 min.", &["hob w12", "- w10"][..]),
        ("Simmer the cod for 12 min. Into iced water 5 min. Flake.", &["hob w12", "- w5", "-"]),
        ("Onions and oil to the boil. Lowest heat 12 min.", &["hob w7", "hob w12"]),
        ("Heat the oven to 200 °C. Roast the cod 10 min. Baste. Another 20 minutes.", &["oven w10 c200", "oven w20 c200"]),
        ("Simmer the cod for 10 min. Stir, then 5 minutes more.", &["hob w10", "hob w5"]),
        ("Simmer the cod for 10 min. Another 5 minutes, lid on.", &["hob w10", "hob w5"]),
    ] {
        let found = read(&FISH, &[method]);
        assert_eq!(told(&found), meant, "{method}");
        assert_eq!(found.doubts, [], "{method}");
    }
}

#[test]
fn what_was_fried_is_fried_on() {
    let found = read(&FISH, &["Fry the onions in the oil for 6 minutes. Turn, then 4 minutes more."]);
    // 6 + 4, and one for turning that nobody wrote.
    assert_eq!((told(&found), found.steps[0].hands.0, found.doubts.len()), (vec!["hob".to_owned()], 11, 0));
}

#[test]
fn a_time_at_the_beginning_of_a_recipe_is_told_and_no_wait() {
    let found = read(&FISH, &["40 minutes.", "Simmer the cod for 12 min."]);
    assert_eq!(told(&found), ["hob w12"]);
    assert_eq!(found.doubts.len(), 1);
}

#[test]
fn the_pan_stays_on_the_hob_when_its_food_is_lifted_out() {
    let method = [
        "Heat the oil in a pan and brown the cod for 4 minutes, then lift it out on to a plate.",
        "Lower the heat, add the onions and let them soften for 10 minutes.",
    ];
    assert_eq!(told(&read(&FISH, &method)), ["hob", "hob w10"]);
}

#[test]
fn what_is_fried_under_a_lid_is_hands_and_told() {
    let found = read(&FISH, &["Fry the onions in the oil, covered, for 10 minutes."]);
    assert_eq!(told(&found), ["hob h10"]);
    assert!(found.doubts[0].1.contains("planned as hands"), "{:?}", found.doubts);
    let found = read(&FISH, &["Sauté the onions in the oil, covered, for 10 minutes."]);
    assert_eq!((told(&found), found.doubts.len()), (vec!["hob w10".to_owned()], 0));
}

#[test]
fn what_is_cut_for_the_table_is_no_step() {
    let found = read(&["600 g cod", "1 lemon"], &["Grill the cod for 8 minutes. Serve with the lemon, cut into wedges."]);
    assert_eq!(told(&found), ["grill w8"]);
    assert_eq!(found.serve, ["Serve with the lemon, cut into wedges."]);
}

/// Which ingredients each step names, by their places in the list.
fn named(typed: &[&str], method: &[&str]) -> Vec<Vec<usize>> {
    let of = |piece: &Piece| if let Piece::Ingredient { index, .. } = piece { Some(*index) } else { None };
    read(typed, method).steps.iter().map(|step| step.text.iter().filter_map(of).collect()).collect()
}

#[test]
fn the_rest_is_what_nothing_took_and_weighing_takes_nothing() {
    let sauce = ["6 red peppers", "1 onion", "3 tbsp olive oil", "1 tsp paprika"];
    assert_eq!(named(&sauce, &["Roast the peppers at 220 °C for 30 min.", "Blend with the rest. Rest for 5 min."])[1], [1, 2, 3]);
    assert_eq!(named(&sauce, &["Roast the peppers at 220 °C for 30 min.", "Blend with everything else but the paprika."])[1], [1, 2]);
    // What is divided has a rest of its own.
    let halves = named(&sauce, &["Fry the peppers in half the oil for 5 minutes. Fry the onion in the rest for 5 minutes."]);
    assert_eq!(halves, [vec![0, 2, 1, 2]]);
    let dough = ["500 g strong flour", "300 ml water", "10 g salt"];
    let method = ["Weigh all ingredients.", "Mix the flour and water. Rest for 20 minutes.", "Knead in the salt for 5 minutes."];
    assert_eq!(named(&dough, &method), [vec![], vec![0, 1], vec![2]]);
}

#[test]
fn everything_is_not_what_only_serving_names() {
    let roots = ["500 g carrots", "2 tbsp olive oil", "4 tbsp plain yoghurt"];
    let found = named(&roots, &["Toss everything in a tin and roast at 200 °C for 30 minutes. Serve with the yoghurt."]);
    assert_eq!(found, [vec![0, 1]]);
    // What is served itself was in it, and so was what nobody eats raw.
    let stew = ["1 kg chicken thighs", "400 g tomatoes", "300 g pearl barley"];
    let found = named(&stew, &["Put everything in the slow cooker and cook on low for 8 hours. Serve the chicken with the barley."]);
    assert_eq!(found, [vec![0, 1, 2]]);
}

#[test]
fn what_preheating_says_beside_the_degrees_stands_where_it_was_said() {
    let dough = ["500 g strong flour", "300 ml water"];
    let found = read(
        &dough,
        &["Mix the flour and water and leave for 1 hour. Heat the oven to 220 °C 20 minutes before the end. Bake for 40 minutes."],
    );
    let Some(Piece::Words(last)) = found.steps[0].text.last() else { panic!() };
    assert!(last.ends_with("leave for 1 hour. Heat the oven to 220 °C 20 minutes before the end."), "{last}");
}
