use super::*;
use pretty_assertions::assert_eq;

fn cut(text: &str) -> Vec<String> {
    let w = Words::of(text);
    let is_food = |at: usize| ["salt", "mince"].iter().any(|word| w.is(at, word)) || w.is(at, "brown") && w.is(at + 1, "sugar");
    clauses(&w, &Names { begins: &is_food, whole: &|_| false })
        .iter()
        .map(|clause| format!("{}: {}", clause.verb.map_or("-", |verb| verb.word), w.text(clause.start..clause.end)))
        .collect()
}

#[test]
fn a_sentence_is_cut_before_its_verbs_of_action() {
    assert_eq!(cut("1. Peel, core and slice the apples."), ["peel: Peel", "core: , core", "slice: and slice the apples"]);
    assert_eq!(cut("Boil for 8 min. per batch; drain."), ["boil: Boil for 8 min. per batch;", "drain: drain"]);
    assert_eq!(cut("In a large sauté pan, heat the oil."), ["heat: In a large sauté pan, heat the oil"]);
    assert_eq!(cut("In the food processor mix the flour."), ["mix: In the food processor mix the flour"]);
}

#[test]
fn a_state_or_a_food_is_no_verb() {
    assert_eq!(cut("Cook until soft and brown, about 5 minutes."), ["cook: Cook until soft and brown, about 5 minutes"]);
    assert_eq!(cut("Add the onion, mince and salt."), ["add: Add the onion, mince and salt"]);
    assert_eq!(cut("Add the flour and brown sugar."), ["add: Add the flour and brown sugar"]);
    assert_eq!(cut("Cook until soft and stir in the cheese."), ["cook: Cook until soft", "stir: and stir in the cheese"]);
}
