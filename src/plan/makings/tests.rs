use pretty_assertions::assert_eq;

use super::*;
use crate::kitchen::fixture::{at, date, empty_kitchen, lot, meal, recipe, recipe_line, session, week};
use crate::kitchen::{BatchCut, Made, Ware};
use crate::measure::Days;

/// Sunday 29 November 2026, 14:00; its food is ready at 17:00.
const SUNDAY: &str = "2026-11-29T14:00";
const WEDNESDAY: &str = "2026-12-02T18:00";

fn one_recipe(change: impl FnOnce(&mut Recipe)) -> Kitchen {
    let mut kitchen = empty_kitchen();
    let mut mash = recipe("mash");
    mash.fridge = Some(Days(3));
    change(&mut mash);
    kitchen.recipes.push(mash);
    kitchen
}

fn suppers(days: &[(&str, f64)]) -> Vec<crate::kitchen::Meal> {
    days.iter().map(|(day, portions)| meal(&format!("{day}T18:30"), day, vec![recipe_line(0, *portions)])).collect()
}

#[test]
fn one_making_serves_every_supper_its_fridge_days_reach() {
    let kitchen = one_recipe(|_| ());
    // Sunday + 3 days reaches Wednesday, that day included: 2 + 2 + 3 = 7 portions, 7/6 batches, in halves 1.5.
    let week = week(vec![session(SUNDAY)], suppers(&[("2026-11-30", 2.0), ("2026-12-01", 2.0), ("2026-12-02", 3.0)]));
    let made = plan(&kitchen, &week).expect("a plan");
    assert_eq!(made.makings.len(), 1);
    assert_eq!(made.makings[0].batches.to_f64(), 1.5);
    assert_eq!(made.makings[0].makes, Quantity::portions(9.0));
    let spare = made.makings[0].spare.clone().expect("9 - 7 = 2 spare");
    assert_eq!((spare.amount.base(), spare.eat_by, spare.frozen), (2.0, date("2026-12-02"), false));
}

#[test]
fn a_supper_beyond_the_fridge_days_is_frozen_and_moved_the_day_before() {
    let kitchen = one_recipe(|mash| mash.freezer = Some(Days(60)));
    let week = week(vec![session(SUNDAY)], suppers(&[("2026-11-30", 3.0), ("2026-12-04", 3.0)]));
    let made = plan(&kitchen, &week).expect("a plan");
    assert_eq!(made.makings[0].batches.to_f64(), 1.0);
    let kept: Vec<Kept> = made.makings[0].uses.iter().map(|use_| use_.kept).collect();
    assert_eq!(kept, [Kept::Fridge, Kept::Freezer]);
    assert_eq!(made.moves.len(), 1);
    assert_eq!((made.moves[0].on, made.moves[0].amount.base()), (date("2026-12-03"), 3.0));
}

#[test]
fn frozen_spare_serves_part_of_the_next_use_and_the_rest_is_made() {
    let kitchen = one_recipe(|mash| {
        mash.fridge = Some(Days(1));
        mash.freezer = Some(Days(60));
        mash.batches = BatchCut::Whole;
    });
    // Sunday makes 6 for Monday's 4: 2 spare, frozen. Thursday wants 5: 2 from the spare, 3 made on Wednesday in a batch of 6.
    let week = week(vec![session(SUNDAY), session(WEDNESDAY)], suppers(&[("2026-11-30", 4.0), ("2026-12-03", 5.0)]));
    let made = plan(&kitchen, &week).expect("a plan");
    let summary: Vec<(f64, Vec<f64>)> =
        made.makings.iter().map(|making| (making.batches.to_f64(), making.uses.iter().map(|use_| use_.amount.base()).collect())).collect();
    assert_eq!(summary, [(1.0, vec![4.0, 2.0]), (1.0, vec![3.0])]);
    assert_eq!(made.makings[0].spare, None);
    assert_eq!(made.makings[1].spare.as_ref().map(|spare| (spare.amount.base(), spare.eat_by)), Some((3.0, date("2027-01-31"))));
}

#[test]
fn a_meal_before_the_session_is_ready_is_not_served_by_it() {
    let kitchen = one_recipe(|_| ());
    let week = week(vec![session(SUNDAY)], suppers(&[("2026-11-29", 1.0)]));
    assert!(plan(&kitchen, &week).is_ok(), "18:30 is after 14:00 + 3 h");
    let mut early = week.clone();
    early.meals[0].at_time = at("2026-11-29T16:59");
    let mistakes = plan(&kitchen, &early).expect_err("nothing is ready at 16:59");
    assert_eq!(mistakes.len(), 1);
    assert!(mistakes[0].cause.contains("mash"), "{}", mistakes[0]);
    early.sessions[0].finish_by = Some(at("2026-11-29T16:59"));
    assert!(plan(&kitchen, &early).is_ok(), "finish_by stands in place of ready_after");
}

#[test]
fn what_neither_fridge_nor_freezer_reaches_is_named_with_meal_dish_and_days() {
    let kitchen = one_recipe(|_| ());
    let week = week(vec![session(SUNDAY)], suppers(&[("2026-12-04", 1.0)]));
    let mistakes = plan(&kitchen, &week).expect_err("Friday is 5 days after Sunday");
    assert_eq!(
        mistakes[0].cause,
        "mash for 2026-12-04 (2026-12-04) would be made 5 days before it, on 2026-11-29, but keeps 3 days in the fridge and no days in \
         the freezer"
    );
}

#[test]
fn cooked_lots_serve_first_and_only_the_rest_is_made() {
    let mut kitchen = one_recipe(|_| ());
    let mut cooked = lot(Ware::Recipe(RecipeId(0)), Quantity::portions(2.0), Place::Fridge);
    cooked.made = Some(date("2026-11-28"));
    kitchen.lots.push(cooked);
    // Made Saturday, good to Tuesday: Monday's 3 take 2 of it. 1 + Wednesday's 2 = 3 are made, half a batch.
    let week = week(vec![session(SUNDAY)], suppers(&[("2026-11-30", 3.0), ("2026-12-02", 2.0)]));
    let made = plan(&kitchen, &week).expect("a plan");
    assert_eq!(made.cooked_draws.iter().map(|draw| (draw.on, draw.amount.base())).collect::<Vec<_>>(), [(date("2026-11-30"), 2.0)]);
    assert_eq!(made.makings[0].batches.to_f64(), 0.5);
}

#[test]
fn a_component_is_made_in_the_very_session_of_its_dish_and_scaled_by_its_batches() {
    let mut kitchen = one_recipe(|_| ());
    let mut dish = recipe("pie");
    dish.fridge = Some(Days(3));
    dish.ingredients.push(recipe_line(0, 2.0));
    kitchen.recipes.push(dish);
    // 9 portions of pie are 1.5 batches, which take 3 portions of mash: half a batch of 6, in the same session, unboxed.
    let supper = meal("2026-12-03T18:30", "Thu supper", vec![recipe_line(1, 9.0)]);
    let week = week(vec![session(SUNDAY), session(WEDNESDAY)], vec![supper]);
    let made = plan(&kitchen, &week).expect("a plan");
    let summary: Vec<(usize, MadeAt, f64)> =
        made.makings.iter().map(|making| (making.recipe.0, making.at, making.batches.to_f64())).collect();
    assert_eq!(summary, [(0, MadeAt::Session(1), 0.5), (1, MadeAt::Session(1), 1.5)]);
    assert_eq!(made.makings[0].uses[0].kept, Kept::Straight);
    assert_eq!(made.makings[0].uses[0].by, User::Making(1));
    assert!(!made.makings[0].is_kept());
}

#[test]
fn a_dish_made_at_the_meal_is_one_making_a_meal() {
    let kitchen = one_recipe(|mash| {
        mash.made = Made::AtTheMeal;
        mash.batches = BatchCut::Whole;
    });
    let week = week(vec![session(SUNDAY)], suppers(&[("2026-11-30", 4.0), ("2026-12-01", 6.0)]));
    let made = plan(&kitchen, &week).expect("a plan");
    assert_eq!(
        made.makings.iter().map(|making| (making.at, making.batches.to_f64())).collect::<Vec<_>>(),
        [(MadeAt::Meal(0), 1.0), (MadeAt::Meal(1), 1.0)]
    );
    assert_eq!(made.makings[0].spare.as_ref().map(|spare| spare.amount.base()), Some(2.0));
    assert_eq!(made.makings[1].spare, None);
}

#[test]
fn a_third_of_a_batch_three_times_is_one_batch() {
    let kitchen = one_recipe(|mash| {
        mash.makes = Quantity::portions(1.0);
        mash.batches = BatchCut::Whole;
    });
    let third = 1.0 / 3.0;
    let week = week(vec![session(SUNDAY)], suppers(&[("2026-11-30", third), ("2026-12-01", third), ("2026-12-02", third)]));
    assert_eq!(plan(&kitchen, &week).expect("a plan").makings[0].batches.to_f64(), 1.0);
}

#[test]
fn one_meal_that_names_a_recipe_twice_is_one_use() {
    let kitchen = one_recipe(|_| ());
    let supper = meal("2026-11-30T18:30", "Mon supper", vec![recipe_line(0, 2.0), recipe_line(0, 1.0)]);
    let made = plan(&kitchen, &week(vec![session(SUNDAY)], vec![supper])).expect("a plan");
    assert_eq!(made.makings[0].uses.len(), 1);
    assert_eq!(made.makings[0].boxes[0].what_for, ["Mon supper"]);
}

#[test]
fn what_is_left_below_half_a_portion_goes_to_the_meals_in_proportion() {
    // 8.6 portions need 1.5 batches, 9: the 0.4 left are shared out, 4.3 × 9 ÷ 8.6 = 4.5 each.
    let kitchen = one_recipe(|_| ());
    let made = plan(&kitchen, &week(vec![session(SUNDAY)], suppers(&[("2026-11-30", 4.3), ("2026-12-01", 4.3)]))).expect("a plan");
    let making = &made.makings[0];
    assert_eq!((making.spare.as_ref(), making.makes.base()), (None, 9.0));
    assert_eq!(making.uses.iter().map(|use_| use_.amount.base()).collect::<Vec<_>>(), [4.5, 4.5]);
    assert_eq!(making.boxes.iter().map(|boxed| boxed.amount.base()).collect::<Vec<_>>(), [9.0]);
}

#[test]
fn half_a_portion_is_spare_and_so_is_what_no_portion_is_known_of() {
    let kitchen = one_recipe(|_| ());
    let made = plan(&kitchen, &week(vec![session(SUNDAY)], suppers(&[("2026-11-30", 8.5)]))).expect("a plan");
    assert_eq!(made.makings[0].spare.as_ref().map(|spare| spare.amount.base()), Some(0.5));
    // 590 g of 600 g; at 200 g a portion 10 g are a twentieth of one, and without `portion` nobody knows.
    let of_grams = |portion: Option<i64>| {
        let mut kitchen = one_recipe(|mash| {
            mash.makes = Quantity::grams(600);
            mash.portion = portion.map(Into::into);
        });
        kitchen.recipes[0].batches = BatchCut::Whole;
        let mut supper = meal("2026-11-30T18:30", "Mon supper", vec![recipe_line(0, 1.0)]);
        let grams = Quantity::grams(590);
        supper.each[0].wanted = Wanted::Recipe { recipe: RecipeId(0), amount: grams.clone(), most: grams };
        let made = plan(&kitchen, &week(vec![session(SUNDAY)], vec![supper])).expect("a plan");
        (made.makings[0].uses[0].amount.base(), made.makings[0].spare.as_ref().map(|spare| spare.amount.base()))
    };
    assert_eq!(of_grams(Some(200)), (600.0, None));
    assert_eq!(of_grams(None), (590.0, Some(10.0)));
}

/// Sunday's mash, eaten at `meal` on Sunday; what is kept of it.
fn kept_for(meal_at: &str, finish_by: Option<&str>, change: impl FnOnce(&mut Recipe)) -> Kept {
    let kitchen = one_recipe(change);
    let mut week = week(vec![session(SUNDAY)], vec![meal(meal_at, "Sun supper", vec![recipe_line(0, 2.0)])]);
    week.sessions[0].finish_by = finish_by.map(at);
    plan(&kitchen, &week).expect("a plan").makings[0].uses[0].kept
}

#[test]
fn what_is_served_hot_within_two_hours_of_the_finish_is_straight_from_the_pot_and_all_else_is_boxed() {
    let hot = |mash: &mut Recipe| mash.serve = Some(Serve::Hot);
    let by = Some("2026-11-29T16:30");
    assert_eq!(kept_for("2026-11-29T18:30", by, hot), Kept::Straight);
    assert_eq!(kept_for("2026-11-29T18:31", by, hot), Kept::Fridge);
    assert_eq!(kept_for("2026-11-29T18:30", by, |mash| mash.serve = Some(Serve::Cold)), Kept::Fridge);
    assert_eq!(kept_for("2026-11-29T18:30", by, |_| ()), Kept::Fridge, "nobody says that it is served hot");
    let hot_for_three_hours = |mash: &mut Recipe| {
        mash.serve = Some(Serve::Hot);
        mash.hold_hot = Some(Minutes(180));
    };
    assert_eq!(kept_for("2026-11-29T19:30", by, hot_for_three_hours), Kept::Straight);
}

#[test]
fn bread_is_boxed_where_it_keeps_longest() {
    let kitchen = one_recipe(|bread| (bread.fridge, bread.cupboard) = (Some(Days(1)), Some(Days(4))));
    // Sunday + 4 days reaches Thursday.
    let week = week(vec![session(SUNDAY)], suppers(&[("2026-11-30", 2.0), ("2026-12-03", 2.0)]));
    let made = plan(&kitchen, &week).expect("a plan");
    let boxes: Vec<_> = made.makings[0].boxes.iter().map(|boxed| (boxed.amount.base(), boxed.place, boxed.use_by)).collect();
    let spare = (2.0, Place::Cupboard, date("2026-12-03"));
    assert_eq!(boxes, [(4.0, Place::Cupboard, date("2026-12-03")), spare]);
    assert!(made.makings[0].uses.iter().all(|use_| use_.kept == Kept::Cupboard));
}
