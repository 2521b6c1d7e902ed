//! The week card as plain data.

use std::path::Path;

use super::*;
use crate::kitchen::fixture::{date, empty_kitchen, meal, recipe, recipe_line, session, week};
use crate::kitchen::{Recipe, load};
use crate::plan::{Draw, Kept, Making, Use};

/// The sample kitchen and its week's card.
fn sample() -> (Kitchen, WeekCard) {
    let loaded = load(Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/sample-data"))).expect("a kitchen without mistakes");
    let week = &loaded.weeks[0].1;
    let card = week_card(&loaded.kitchen, week, &crate::plan::plan(&loaded.kitchen, week).expect("a plan"));
    (loaded.kitchen, card)
}

fn meal_of<'c>(card: &'c WeekCard, label: &str) -> &'c CardMeal {
    card.days.iter().flat_map(|day| &day.meals).find(|meal| meal.label == label).expect("the meal")
}

#[test]
fn a_meal_says_what_comes_out_and_whether_it_is_heated() {
    let (kitchen, card) = sample();
    let names = kitchen.names();
    let monday = meal_of(&card, "Mon supper");
    let chicken = monday.dishes.iter().find(|dish| names.recipe(dish.recipe).starts_with("Chicken thighs")).expect("the chicken");
    // 2.5 eaters, a portion each.
    assert_eq!((chicken.amount_text(Units::Metric).as_str(), chicken.place), ("2½ portions", Some(Place::Fridge)));
    assert!(chicken.then.text(names, Units::Metric).is_some_and(|then| then.contains("74 °C (165 °F)")));
    let yoghurt = monday.dishes.iter().find(|dish| names.recipe(dish.recipe) == "Herb yoghurt").expect("the yoghurt");
    assert_eq!(yoghurt.then.text(names, Units::Metric).as_deref(), Some("cold"));
}

#[test]
fn what_is_added_fresh_is_for_the_whole_table() {
    // 2.5 × 30 g of feta, and one lemon for all, with what is left of it after trimming.
    assert_eq!(meal_of(&sample().1, "Tue supper").fresh, ["75 g feta", "1 lemon (110 g)"]);
}

#[test]
fn a_dish_made_at_the_meal_has_its_steps_with_heat_and_time() {
    let (kitchen, card) = sample();
    let made = &meal_of(&card, "Thu supper").made;
    assert_eq!(made.len(), 1);
    // No time to spare before it goes in: the oven first.
    assert_eq!(made[0].steps[0].text, "Heat the oven to 190 °C (375 °F).");
    let said = made[0].steps[2].text(kitchen.names(), Units::Metric);
    assert!(said.contains("Oven, 190 °C (375 °F), 18 min. Until the inside reaches 63 °C (145 °F)."), "{said}");
}

#[test]
fn a_move_stands_on_the_evening_it_is_done() {
    let (kitchen, card) = sample();
    let sunday = card.days.first().expect("a day");
    assert_eq!(sunday.on, jiff::civil::date(2026, 11, 29));
    let tonight: Vec<String> = sunday.tonight.iter().map(|errand| errand.text(kitchen.names(), Units::Metric)).collect();
    assert_eq!(tonight, ["Move 1 portion of pearl barley from the freezer to the fridge"]);
}

/// A dish in a kitchen of one eater, eaten on Monday evening.
fn monday(serve: Option<Serve>, draws: Vec<Draw>, making: Vec<Making>) -> CardMeal {
    let mut kitchen = empty_kitchen();
    kitchen.recipes = vec![Recipe { serve, ..recipe("barley") }];
    let supper = meal("2026-11-30T18:30", "Mon supper", vec![recipe_line(0, 2.5)]);
    let week = week(vec![session("2026-11-29T14:00")], vec![supper]);
    let makings = Makings { makings: making, cooked_draws: draws, moves: vec![], short: vec![] };
    week_card(&kitchen, &week, &makings).days[0].meals[0].clone()
}

fn drawn(amount: Quantity, place: Place) -> Draw {
    Draw {
        of: Ware::Recipe(RecipeId(0)),
        lot: 0,
        amount,
        place,
        on: date("2026-11-30"),
        what_for: vec!["Mon supper".into()],
        by: vec![MadeAt::Meal(0)],
        look_first: false,
        whose: None,
    }
}

fn made_on_sunday(amount: Quantity, kept: Kept) -> Making {
    let on = date("2026-11-29");
    let eaten = Use { by: User::Meal(0), on: date("2026-11-30"), amount, kept, own: vec![], label: "Mon supper".into() };
    Making {
        recipe: RecipeId(0),
        at: MadeAt::Session(0),
        on,
        batches: crate::plan::Batches::new(1),
        makes: Quantity::portions(6.0),
        uses: vec![eaten],
        spare: None,
        boxes: vec![],
        apart: vec![],
    }
}

#[test]
fn a_dish_from_a_frozen_lot_and_from_a_making_stands_once_with_its_sum() {
    // 1 portion of the lot, moved to the fridge on Sunday, and 1½ of Sunday's: 2½.
    let lots = vec![drawn(Quantity::portions(1.0), Place::Freezer)];
    let meal = monday(Some(Serve::Hot), lots, vec![made_on_sunday(Quantity::portions(1.5), Kept::Fridge)]);
    assert_eq!(meal.dishes.len(), 1);
    assert_eq!((meal.dishes[0].amount_text(Units::Metric).as_str(), meal.dishes[0].place), ("2½ portions", Some(Place::Fridge)));
}

#[test]
fn two_makings_of_one_dish_stand_once_and_amounts_that_cannot_be_added_up_side_by_side() {
    let made = |amount| made_on_sunday(amount, Kept::Fridge);
    let meal = monday(None, vec![], vec![made(Quantity::portions(1.0)), made(Quantity::portions(1.0)), made(Quantity::grams(200.0))]);
    assert_eq!(meal.dishes.iter().map(|dish| dish.amount_text(Units::Metric)).collect::<Vec<_>>(), ["2 portions and 200 g"]);
}

#[test]
fn what_comes_from_the_pot_is_not_added_to_what_comes_from_the_fridge() {
    let made = vec![made_on_sunday(Quantity::portions(1.0), Kept::Straight), made_on_sunday(Quantity::portions(1.5), Kept::Fridge)];
    let meal = monday(Some(Serve::Hot), vec![], made);
    let said: Vec<_> = meal.dishes.iter().map(|dish| (dish.amount_text(Units::Metric), dish.place, dish.then.clone())).collect();
    let eaten = Then::Eaten(Some(Serve::Hot));
    assert_eq!(said, [("1 portion".into(), None, Then::FromThePot), ("1½ portions".into(), Some(Place::Fridge), eaten)]);
}

#[test]
fn only_hot_dishes_are_heated() {
    let kitchen = empty_kitchen();
    let then = |serve| monday(serve, vec![drawn(Quantity::portions(2.5), Place::Fridge)], vec![]).dishes[0].then.clone();
    let heating = |serve| then(serve).text(kitchen.names(), Units::Metric).unwrap_or_default();
    assert_eq!(heating(Some(Serve::Cold)), "cold");
    assert_eq!(heating(Some(Serve::Hot)), "heat to 74 °C (165 °F)");
    assert_eq!(heating(None), "cold, or heated to 74 °C (165 °F)");
}

#[test]
fn what_goes_into_a_dish_made_at_the_meal_is_taken_out_for_it() {
    let (kitchen, card) = sample();
    let (names, units) = (kitchen.names(), Units::Metric);
    let frittata = meal_of(&card, "Wed supper");
    let said: Vec<_> =
        frittata.dishes.iter().map(|dish| (names.recipe(dish.recipe), dish.amount_text(units), dish.then.text(names, units))).collect();
    // One batch takes 300 g at 150 g a portion.
    let then = Some("for Frittata with roast roots".to_owned());
    assert_eq!(said, [("Roast beetroot and carrots", "2 portions".to_owned(), then)]);
}

#[test]
fn a_meal_with_what_the_household_avoids_says_so() {
    let (_, card) = sample();
    let said = "may contain sesame: the allergens of oatcake are not known";
    assert_eq!(meal_of(&card, "Tue lunch").beware.as_ref().map(ToString::to_string).as_deref(), Some(said));
    assert_eq!(meal_of(&card, "Mon supper").beware, None);
}

#[test]
fn what_is_added_cooked_is_told_raw_with_its_time_and_start() {
    let (_, card) = sample();
    let cook = |label: &str| meal_of(&card, label).cook.iter().map(CardCook::text).collect::<Vec<_>>();
    // 120 g cooked for 2½ eaters at half past six, boiled for half an hour; potatoes in their jackets for an hour and a quarter.
    let [rice, peas] = &cook("Thu supper")[..] else { panic!("two foods are cooked") };
    assert_eq!(peas, "boil 100 g frozen peas, 3 min, start 18:27");
    assert!(rice.starts_with("boil 1") && rice.ends_with(" g brown rice, 30 min, start 18:00"), "{rice}");
    assert_eq!(cook("Sat supper"), ["bake 2½ large potatoes (925 g), 1 h 15 min, start 17:15"]);
    assert!(cook("Tue supper").is_empty());
}

#[test]
fn what_is_made_by_the_piece_is_said_by_its_name() {
    let mut kitchen = empty_kitchen();
    kitchen.recipes = vec![recipe("Flatbreads")];
    let dish =
        |amount| CardDish { recipe: RecipeId(0), whose: None, amounts: vec![amount], place: None, boxed: None, then: Then::FromThePot };
    let said = |amount| dish(amount).words(kitchen.names(), Units::Metric, " of ");
    assert_eq!(said(Quantity::pieces(7)), "7 flatbreads");
    assert_eq!(said(Quantity::pieces(1)), "1 piece of flatbreads");
    assert_eq!(said(Quantity::portions(2)), "2 portions of flatbreads");
}
