use std::collections::BTreeMap;

use pretty_assertions::assert_eq;

use super::*;
use crate::foods::{Fact, Measured};
use crate::kitchen::Step;
use crate::measure::Unit;
use crate::prep::clock::tasks;
use crate::prep::tasks::session_work;
use crate::prep::testing::*;
use crate::prep::{Placed, Schedule};

/// Cuts of one making whose steps are done one after another.
fn cuts_of(kitchen: &Kitchen, batches: f64) -> Vec<(String, f64, String, u32)> {
    let makings = makings(vec![making(kitchen, 0, batches)]);
    let work = session_work(kitchen, &week(), 0, &makings);
    let placed = (0..work.origins.len()).map(|job| Placed { start: job as i64, person: None, out_person: None, set_to: None });
    let schedule = Schedule { placed: placed.collect(), ..planned(0) };
    let tasks = tasks(kitchen, &makings, &work, &schedule);
    cuts(kitchen, &makings, &work, &tasks)
        .into_iter()
        .map(|c| (kitchen.foods[c.food].name.clone(), c.amount.base(), c.cut, c.step))
        .collect()
}

fn onions(lines: Vec<Ingredient>, steps: Vec<Step>) -> Kitchen {
    let mut kitchen = kitchen();
    food(&mut kitchen, "onion", "vegetable");
    let onion = &mut kitchen.foods.all[0];
    onion.each = Some(Fact { value: Measured::Single(110.0), source: "by hand".into() });
    onion.edible = Some(Fact { value: 0.9, source: "by hand".into() });
    onion.cup = Some(Fact { value: Measured::Table(BTreeMap::from([("chopped".into(), 160.0)])), source: "USDA SR 11282".into() });
    let mut dish = recipe("dish", "Dish", 4.0, steps);
    dish.ingredients = lines;
    kitchen.recipes = vec![dish];
    kitchen
}

const ONION: crate::foods::FoodId = crate::foods::FoodId(0);

fn in_step(index: usize) -> Step {
    Step { text: vec![named(index)], ..step("") }
}

#[test]
fn pieces_to_be_cut_are_weighed_as_bought() {
    // 2 onions of 110 g, 1.5 batches: 330 g.
    let line = ingredient("2 onions, diced", ONION, Some(item(2.0, Unit::Piece)), Some("diced"));
    assert_eq!(cuts_of(&onions(vec![line], vec![step("Boil."), in_step(0)]), 1.5), [("onion".to_owned(), 330.0, "diced".to_owned(), 2)]);
}

#[test]
fn what_a_line_states_cut_is_weighed_cut() {
    // 300 g diced onion are 300 g on the board, though 333 g are bought.
    let diced = Item { state: State::Prepared("diced".into()), ..item(300.0, Unit::Gram) };
    let line = ingredient("300 g diced onion", ONION, Some(diced), None);
    assert_eq!(cuts_of(&onions(vec![line], vec![in_step(0)]), 1.0), [("onion".to_owned(), 300.0, "diced".to_owned(), 1)]);
}

#[test]
fn a_share_is_cut_for_its_own_step() {
    let line = ingredient("300 g onions, sliced", ONION, Some(item(300.0, Unit::Gram)), Some("sliced"));
    let part = |grams| Step { text: vec![Piece::Ingredient { index: 0, share: Some(amount(grams, Unit::Gram)) }], ..step("") };
    let cuts = cuts_of(&onions(vec![line], vec![part(100.0), part(200.0)]), 1.0);
    assert_eq!(cuts, [("onion".to_owned(), 100.0, "sliced".to_owned(), 1), ("onion".to_owned(), 200.0, "sliced".to_owned(), 2)]);
}

#[test]
fn one_food_stands_together_and_the_same_cut_for_one_step_is_one_entry() {
    let diced = |grams| ingredient("onions, diced", ONION, Some(item(grams, Unit::Gram)), Some("diced"));
    let rings = ingredient("onions, sliced", ONION, Some(item(50.0, Unit::Gram)), Some("sliced"));
    let all = Step { text: vec![named(0), named(2), named(1)], ..step("") };
    let cuts = cuts_of(&onions(vec![diced(100.0), diced(20.0), rings], vec![all]), 1.0);
    assert_eq!(cuts, [("onion".to_owned(), 120.0, "diced".to_owned(), 1), ("onion".to_owned(), 50.0, "sliced".to_owned(), 1)]);
}

#[test]
fn rinsing_and_draining_are_no_cuts() {
    assert!(!is_cut("rinsed") && !is_cut("drained") && !is_cut("at room temperature"));
    assert!(is_cut("peeled and finely diced") && is_cut("cut into chunks"));
}

#[test]
fn half_of_two_onions_is_one_onion() {
    let line = ingredient("2 onions, diced", ONION, Some(item(2.0, Unit::Piece)), Some("diced"));
    let kitchen = onions(vec![line], vec![in_step(0)]);
    for (batches, said) in [(0.5, "1 onion: diced for\u{a0}1"), (0.25, "½ onion: diced for\u{a0}1"), (1.0, "2 onions: diced for\u{a0}1")] {
        let makings = makings(vec![making(&kitchen, 0, batches)]);
        let work = session_work(&kitchen, &week(), 0, &makings);
        let placed = (0..work.origins.len()).map(|job| Placed { start: job as i64, person: None, out_person: None, set_to: None });
        let tasks = tasks(&kitchen, &makings, &work, &Schedule { placed: placed.collect(), ..planned(0) });
        let cuts = cuts(&kitchen, &makings, &work, &tasks);
        let together = CutTogether { person: None, whole: all_of(&[&cuts[0]]), cuts: vec![&cuts[0]] };
        assert_eq!(together.words(Units::Metric), said);
    }
}
