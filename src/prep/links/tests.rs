use pretty_assertions::assert_eq;

use crate::kitchen::{After, ApplianceId, Kitchen, RecipeId, Step};
use crate::measure::{Minutes, Quantity};
use crate::plan::{Kept, Making, Use, User};
use crate::prep::tasks::{Work, session_work};
use crate::prep::testing::*;
use crate::prep::{Link, LinkWhy};

fn work(kitchen: &Kitchen, list: Vec<Making>) -> Work {
    session_work(kitchen, &week(), 0, &makings(list))
}

fn order(before: usize, after: usize) -> Link {
    Link { before, after, gap: 0, within: None, why: LinkWhy::Order }
}

/// One recipe, one making; the oven takes 2, the hob 3.
fn links_of(steps: Vec<Step>, batches: f64, kept: bool) -> Vec<Link> {
    let mut kitchen = kitchen();
    kitchen.appliances = vec![appliance("oven", 2, true), appliance("hob", 3, false)];
    kitchen.recipes = vec![recipe("dish", "Dish", 4.0, steps)];
    let mut one = making(&kitchen, 0, batches);
    if kept {
        one.boxes = two_in_the_fridge();
    }
    work(&kitchen, vec![one]).problem.links
}

fn oven(text: &str) -> Step {
    Step { wait: Minutes(30), on: vec![ApplianceId(0)], ..step(text) }
}

#[test]
fn a_step_follows_the_step_before_it_unless_it_starts_free() {
    let steps = vec![step("One."), step("Two."), Step { after: Some(vec![]), ..step("Free.") }];
    assert_eq!(links_of(steps, 1.0, false), [order(0, 1)]);
}

#[test]
fn rounds_follow_rounds_where_the_counts_agree() {
    // 4 batches: 2 + 2 in the oven, twice. Jobs 0, 1 then 2, 3.
    assert_eq!(links_of(vec![oven("Bake."), oven("Grill.")], 4.0, false), [order(0, 2), order(1, 3)]);
}

#[test]
fn a_step_in_one_round_follows_all_rounds_before_it() {
    assert_eq!(links_of(vec![oven("Bake."), step("Mix.")], 4.0, false), [order(0, 2), order(1, 2)]);
}

#[test]
fn gap_and_within_bind_to_each_job_before() {
    let rest = Step { gap: Some(Minutes(10)), within: Some(Minutes(60)), ..step("Carve.") };
    let link = |before| Link { before, after: 2, gap: 10, within: Some(60), why: LinkWhy::Within };
    assert_eq!(links_of(vec![oven("Bake."), rest], 4.0, false), [link(0), link(1)]);
}

#[test]
fn what_is_done_ahead_is_outside_and_its_links_vanish() {
    let soak = Step { ahead: Some(Minutes(720)), ..step("Soak.") };
    assert_eq!(links_of(vec![soak, step("Cook."), step("Mash.")], 1.0, false), [order(0, 1)]);
}

#[test]
fn a_load_is_boxed_within_two_hours_of_leaving_the_heat_for_good() {
    // Browned on the hob (0), braised in the oven (1), rested (2), boxed (3): only the oven is the last heat.
    let hob = Step { wait: Minutes(5), on: vec![ApplianceId(1)], ..step("Brown.") };
    let safe = Link { before: 1, after: 3, gap: 10, within: Some(120), why: LinkWhy::Safety };
    let back = Link { before: 0, after: 1, gap: 0, within: Some(120), why: LinkWhy::Safety };
    assert_eq!(links_of(vec![hob, oven("Braise."), step("Rest.")], 1.0, true), [order(0, 1), order(1, 2), order(2, 3), safe, back]);
}

/// The loads of a kept dish and the loads that heat the food again.
fn heated_again(steps: Vec<Step>, batches: f64) -> Vec<(usize, usize)> {
    let links = links_of(steps, batches, true);
    let safe = links.iter().filter(|link| link.why == LinkWhy::Safety && link.gap == 0);
    safe.map(|link| (link.before, link.after)).collect()
}

#[test]
fn what_goes_back_to_the_heat_stands_no_longer_than_two_hours_either() {
    let boil = || Step { wait: Minutes(20), on: vec![ApplianceId(1)], ..step("Boil.") };
    assert_eq!(heated_again(vec![boil(), step("Mash."), oven("Bake.")], 1.0), [(0, 2)]);
    assert_eq!(heated_again(vec![boil(), oven("Bake."), oven("Grill.")], 1.0), [(0, 1), (1, 2)], "each from its own last heat");
    // 3 batches: one pot, then trays of 2 and of 1, of which either may be filled from the end of the pot.
    assert_eq!(heated_again(vec![boil(), oven("Bake.")], 3.0), [(0, 1), (0, 2)]);
    // 4 batches: pots of 3 and of 1, trays of 2 and of 2.
    assert_eq!(heated_again(vec![boil(), oven("Bake.")], 4.0), [(0, 2), (1, 3)]);
}

#[test]
fn a_recipe_that_chills_or_rests_its_food_for_longer_is_believed() {
    let boil = || Step { wait: Minutes(20), on: vec![ApplianceId(1)], ..step("Boil.") };
    let rest = |minutes| Step { wait: Minutes(minutes), ..step("Rest.") };
    assert_eq!(heated_again(vec![boil(), rest(121), oven("Bake.")], 1.0), []);
    assert_eq!(heated_again(vec![boil(), Step { gap: Some(Minutes(180)), ..oven("Bake.") }], 1.0), []);
    assert_eq!(heated_again(vec![boil(), rest(60), oven("Bake.")], 1.0), [(0, 2)]);
}

#[test]
fn each_load_has_its_own_two_hours() {
    let safe = |before| Link { before, after: 2, gap: 10, within: Some(120), why: LinkWhy::Safety };
    assert_eq!(links_of(vec![oven("Bake.")], 4.0, true), [order(0, 2), order(1, 2), safe(0), safe(1)]);
}

/// The limits of safety of a load of the oven, boxed: cooling and the most, in minutes.
fn cools(cool: i64, kind: &str) -> Vec<(i64, Option<i64>)> {
    let mut kitchen = kitchen();
    kitchen.rules.cool = Minutes(cool);
    kitchen.appliances = vec![appliance("oven", 2, true)];
    let barley = food(&mut kitchen, "barley", kind);
    let mut dish = recipe("dish", "Dish", 4.0, vec![oven("Bake.")]);
    dish.ingredients = vec![ingredient("200 g barley", barley, None, None)];
    kitchen.recipes = vec![dish];
    let boxes = two_in_the_fridge();
    let list = vec![Making { boxes, ..making(&kitchen, 0, 1.0) }];
    let links = work(&kitchen, list).problem.links;
    links.iter().filter(|link| link.why == LinkWhy::Safety).map(|link| (link.gap, link.within)).collect()
}

#[test]
fn what_is_hot_cools_before_it_is_boxed_and_cooked_grains_are_boxed_within_the_hour() {
    assert_eq!(cools(10, "vegetable"), [(10, Some(120))]);
    assert_eq!(cools(0, "grain"), [(0, Some(60))]);
    assert_eq!(cools(90, "grain"), [(60, Some(60))], "cooling stops at the hour");
}

#[test]
fn what_stood_in_the_fridge_did_not_leave_the_heat() {
    let mut kitchen = kitchen();
    kitchen.appliances = vec![appliance("fridge", 2, false)];
    kitchen.recipes = vec![recipe("oats", "Oats", 4.0, vec![oven("Chill.")])];
    let boxes = two_in_the_fridge();
    assert_eq!(work(&kitchen, vec![Making { boxes, ..making(&kitchen, 0, 1.0) }]).problem.links, [order(0, 1)]);
}

/// A sauce (two steps), and a dish whose second step names it.
fn sauce_and_dish() -> Kitchen {
    let mut kitchen = kitchen();
    let sauce = recipe("sauce", "Sauce", 4.0, vec![step("Chop."), step("Blend.")]);
    let mut dish = recipe("dish", "Dish", 4.0, vec![step("Boil."), Step { text: vec![words("Fold in "), named(0)], ..step("") }]);
    dish.ingredients = vec![component("200 g recipe:sauce", RecipeId(0), Quantity::grams(200.0))];
    kitchen.recipes = vec![sauce, dish];
    kitchen
}

fn used_by(making: Making, dish: usize) -> Making {
    let amount = Quantity::portions(1.0);
    let one = Use { by: User::Making(dish), on: making.on, amount, kept: Kept::Straight, own: vec![], label: "Dish".into() };
    Making { uses: vec![one], ..making }
}

#[test]
fn a_component_is_ready_before_the_step_that_names_it() {
    let kitchen = sauce_and_dish();
    let list = vec![used_by(making(&kitchen, 0, 1.0), 1), making(&kitchen, 1, 1.0)];
    assert_eq!(work(&kitchen, list).problem.links, [order(0, 1), order(2, 3), order(1, 3)]);
}

#[test]
fn a_component_that_no_step_names_is_ready_before_the_first() {
    let mut kitchen = sauce_and_dish();
    kitchen.recipes[1].steps[1] = step("Fold.");
    let list = vec![used_by(making(&kitchen, 0, 1.0), 1), making(&kitchen, 1, 1.0)];
    assert_eq!(work(&kitchen, list).problem.links, [order(0, 1), order(2, 3), order(1, 2)]);
}

#[test]
fn a_step_after_another_recipe_waits_for_all_of_it() {
    let mut kitchen = sauce_and_dish();
    kitchen.recipes[0].steps[1].after = Some(vec![]);
    kitchen.recipes[1].ingredients.clear();
    kitchen.recipes[1].steps = vec![Step { after: Some(vec![After::Recipe(RecipeId(0))]), ..step("Fry.") }];
    let list = vec![making(&kitchen, 0, 1.0), making(&kitchen, 1, 1.0)];
    assert_eq!(work(&kitchen, list).problem.links, [order(0, 2), order(1, 2)]);
}

#[test]
fn what_stands_by_itself_after_the_heat_begins_to_stand_at_once() {
    let rest = || Step { wait: Minutes(10), ..step("Rest.") };
    let at_once = |before, after| Link { before, after, gap: 0, within: Some(0), why: LinkWhy::Within };
    assert_eq!(links_of(vec![oven("Roast."), rest()], 1.0, false), [at_once(0, 1)]);
    // Two rounds that stand together: when the second has left the heat.
    assert_eq!(links_of(vec![oven("Roast."), rest()], 4.0, false), [order(0, 2), at_once(1, 2)]);
    // Hands, an appliance, a gap of its own, or nothing hot before it: as ever.
    let carve = Step { hands: Minutes(1), ..rest() };
    assert_eq!(links_of(vec![oven("Roast."), carve], 1.0, false), [order(0, 1)]);
    assert_eq!(links_of(vec![step("Mix."), rest()], 1.0, false), [order(0, 1)]);
}
