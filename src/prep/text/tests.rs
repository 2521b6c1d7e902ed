use pretty_assertions::assert_eq;

use super::*;
use crate::foods::{Fact, Grade, Measured};
use crate::measure::{Celsius, Unit, Units, Word};
use crate::prep::line_words::*;
use crate::prep::testing::*;
use crate::words::{degrees, plural};

/// White-bean mash: beans (0), oil (1), rosemary (2), onions (3), salt to taste (4), herb yoghurt (5).
fn mash() -> Kitchen {
    let mut kitchen = kitchen();
    let beans = food(&mut kitchen, "tinned white beans", "pulse");
    let oil = food(&mut kitchen, "olive oil", "oil");
    let rosemary = food(&mut kitchen, "rosemary", "herb");
    let onion = food(&mut kitchen, "onion", "vegetable");
    let salt = food(&mut kitchen, "salt", "spice");
    let tins = Item { size: Some(Quantity::grams(400.0)), ..item(2.0, Unit::Word(Word::Tin)) };
    let mut mash = recipe("mash", "White-bean mash", 6.0, vec![]);
    mash.ingredients = vec![
        ingredient("2 tins (400 g) white beans, drained", beans, Some(tins), Some("drained")),
        ingredient("60 ml olive oil", oil, Some(item(60.0, Unit::Millilitre)), None),
        ingredient("1 sprig rosemary", rosemary, Some(item(1.0, Unit::Word(Word::Sprig))), None),
        ingredient("1 large onion, diced", onion, Some(Item { grade: Some(Grade::Large), ..item(1.0, Unit::Piece) }), Some("diced")),
        ingredient("salt, to taste", salt, None, None),
        component("200 g recipe:herb-yoghurt", RecipeId(1), Quantity::grams(200.0)),
    ];
    kitchen.recipes = vec![mash, recipe("herb-yoghurt", "Herb yoghurt", 4.0, vec![])];
    kitchen
}

/// The text of one step of the mash, every other ingredient being named by a second step.
fn text(pieces: Vec<Piece>, batches: f64) -> String {
    let mut kitchen = mash();
    let rest = Step { text: (0..6).map(named).collect(), ..step("") };
    kitchen.recipes[0].steps = vec![Step { text: pieces, ..step("") }, rest];
    step_text(&kitchen, RecipeId(0), 0, &Number::from(batches))
}

#[test]
fn a_food_is_printed_with_its_scaled_amount() {
    // 60 ml x 2; 1 sprig x 2.
    let said = text(vec![words("Warm "), named(1), words(" with "), named(2), words(".")], 2.0);
    assert_eq!(said, "Warm 120 ml olive oil with 2 sprigs rosemary.");
}

/// *Bakery and Business Math*, Open Washington Pressbooks, chapter 21: a recipe for 48 made for 72 is every amount x 1.5; 2 eggs
/// become 3, 1 cup of butter 1½ cups.
#[test]
fn a_recipe_for_48_makes_72() {
    let mut kitchen = mash();
    kitchen.print.units = Units::Us;
    let (egg, butter) = (food(&mut kitchen, "egg", "raw egg"), food(&mut kitchen, "butter", "dairy"));
    kitchen.recipes[0].ingredients = vec![
        ingredient("2 eggs", egg, Some(item(2.0, Unit::Piece)), None),
        ingredient("1 cup butter", butter, Some(item(1.0, Unit::Cup)), None),
    ];
    kitchen.recipes[0].steps = vec![Step { text: vec![words("Beat "), named(0), words(" into "), named(1)], ..step("") }];
    assert_eq!(step_text(&kitchen, RecipeId(0), 0, &Number::from(72.0 / 48.0)), "Beat 3 eggs into 1½ cups butter");
}

/// What a step says of a number of pieces of a food that weighs `each` grams and of which `edible` is left.
fn counted(name: &str, kind: &str, (each, edible): (f64, f64), number: f64, units: Units) -> String {
    step_text(&weighed_kitchen(name, kind, (each, edible), units), RecipeId(0), 0, &Number::from(number))
}

fn weighed_kitchen(name: &str, kind: &str, (each, edible): (f64, f64), units: Units) -> Kitchen {
    let mut kitchen = mash();
    kitchen.print.units = units;
    let id = food(&mut kitchen, name, kind);
    kitchen.foods.all[id.0 as usize].each = Some(Fact { value: Measured::Single(each), source: "a test".into() });
    kitchen.foods.all[id.0 as usize].edible = Some(Fact { value: edible, source: "a test".into() });
    kitchen.recipes[0].ingredients = vec![ingredient("some", id, Some(item(1.0, Unit::Piece)), None)];
    kitchen.recipes[0].steps = vec![Step { text: vec![named(0)], ..step("") }];
    kitchen
}

fn prepared(name: &str, (each, edible): (f64, f64), number: f64, prep: &str, units: Units) -> String {
    let mut kitchen = weighed_kitchen(name, "vegetable", (each, edible), units);
    kitchen.recipes[0].ingredients[0].prep = Some(prep.to_owned());
    step_text(&kitchen, RecipeId(0), 0, &Number::from(number))
}

#[test]
fn what_is_cooked_whole_has_its_weight_as_bought() {
    // 6 potatoes of 300 g, of which 90 % are edible: 1.8 kg with their skins.
    assert_eq!(counted("potato", "vegetable", (300.0, 0.9), 6.0, Units::Metric), "6 potatoes (1.8 kg)");
}

#[test]
fn the_juice_of_a_fruit_keeps_its_words() {
    assert_eq!(prepared("lime", (67.0, 0.84), 2.0, "juice", Units::Metric), "the juice of 2 limes");
    assert_eq!(
        prepared("lemon", (84.0, 0.7), 1.0, "finely grated zest and juice", Units::Metric),
        "the finely grated zest and juice of 1 lemon"
    );
    // Fruit that is sliced with its peel loses none of its weight.
    assert_eq!(prepared("lemon", (84.0, 0.7), 2.0, "sliced", Units::Metric), "2 lemons (170 g)");
}

#[test]
fn the_size_of_a_bunch_stands_where_it_was_typed() {
    let bunch = |typed: &str| {
        let mut kitchen = mash();
        let coriander = food(&mut kitchen, "coriander", "herb");
        let small = Item { grade: Some(Grade::Small), ..item(1.0, Unit::Word(Word::Bunch)) };
        kitchen.recipes[0].ingredients = vec![ingredient(typed, coriander, Some(small), None)];
        kitchen.recipes[0].steps = vec![Step { text: vec![named(0)], ..step("") }];
        step_text(&kitchen, RecipeId(0), 0, &Number::from(1.0))
    };
    assert_eq!(bunch("1 small bunch coriander"), "1 small bunch coriander");
    assert_eq!(bunch("1 bunch coriander, small"), "1 bunch coriander, small");
}

#[test]
fn pieces_are_printed_with_the_weight_that_is_left_of_them() {
    // USDA SR 11282: 3 medium onions of 110 g without their refuse, 122.2 g with it. 330 g are 11.64 oz.
    assert_eq!(prepared("onion", (110.0 / 0.9, 0.9), 3.0, "diced", Units::Metric), "3 onions (330 g trimmed)");
    assert_eq!(prepared("onion", (110.0 / 0.9, 0.9), 3.0, "peeled", Units::Us), "3 onions (11¾ oz peeled)");
    // A food of no known weight stays a number.
    assert_eq!(text(vec![named(3)], 2.0), "2 large onions");
}

#[test]
fn only_an_egg_that_has_to_be_parted_is_weighed() {
    // USDA SR 01123: 50 g without the shell, 12 % refuse: 2½ are 125 g.
    assert_eq!(counted("egg", "raw egg", (50.0 / 0.88, 0.88), 2.5, Units::Metric), "2½ eggs (125 g beaten)");
    assert_eq!(counted("egg", "raw egg", (50.0 / 0.88, 0.88), 6.0, Units::Metric), "6 eggs");
}

#[test]
fn steps_are_printed_in_the_units_of_the_sheets() {
    let mut kitchen = mash();
    kitchen.print.units = Units::Us;
    let oil = |amount: Amount| Piece::Ingredient { index: 1, share: Some(amount) };
    let pieces = vec![oil(amount(15.0, Unit::Millilitre)), words(", "), oil(amount(80.0, Unit::Millilitre)), words(", "), named(5)];
    kitchen.recipes[0].steps = vec![Step { text: pieces, ..step("") }, Step { text: (0..6).map(named).collect(), ..step("") }];
    // 15 ml ÷ 14.787 = 1.01 tbsp; 80 ml ÷ 236.588 = 0.338 cups; 200 g ÷ 28.35 = 7.05 oz.
    assert_eq!(step_text(&kitchen, RecipeId(0), 0, &Number::from(1.0)), "1 tbsp olive oil, ⅓ cup olive oil, 7 oz herb yoghurt");
}

#[test]
fn a_share_is_scaled_by_itself() {
    // 20 ml x 1.5 = 30 ml, 2.03 US tablespoons.
    let share = Piece::Ingredient { index: 1, share: Some(amount(20.0, Unit::Millilitre)) };
    assert_eq!(text(vec![words("Drizzle with "), share], 1.5), "Drizzle with 2 tbsp olive oil");
}

#[test]
fn tins_keep_their_size_and_pieces_their_plural() {
    assert_eq!(text(vec![words("Mash "), named(0)], 1.0), "Mash 2 tins (400 g) white beans");
    assert_eq!(text(vec![words("Fry "), named(3)], 1.0), "Fry 1 large onion");
    assert_eq!(text(vec![words("Fry "), named(3)], 3.0), "Fry 3 large onions");
}

#[test]
fn to_taste_has_no_amount_and_a_component_its_name_in_small_letters() {
    let said = text(vec![words("Season with "), named(4), words(", fold in "), named(5)], 2.0);
    assert_eq!(said, "Season with salt, fold in 400 g herb yoghurt");
}

#[test]
fn what_alone_is_used_of_a_fruit_is_said() {
    let mut kitchen = mash();
    let lemon = food(&mut kitchen, "lemon", "fruit");
    kitchen.recipes[0].ingredients = vec![
        ingredient("1 lemon, juice", lemon, Some(item(1.0, Unit::Piece)), Some("juice")),
        ingredient("zest and juice of 2 lemons", lemon, Some(item(2.0, Unit::Piece)), Some("zest and juice")),
    ];
    let said = |kitchen: &mut Kitchen, text: Vec<Piece>| {
        kitchen.recipes[0].steps = vec![Step { text, ..step("") }, Step { text: vec![named(0), named(1)], ..step("") }];
        step_text(kitchen, RecipeId(0), 0, &Number::from(2.0))
    };
    assert_eq!(
        said(&mut kitchen, vec![words("Stir in "), named(0), words(" and "), named(1)]),
        "Stir in the juice of 2 lemons and the zest and juice of 4 lemons"
    );
    // What the step itself says of the fruit is not said twice.
    assert_eq!(said(&mut kitchen, vec![words("Add the juice of "), named(0)]), "Add the juice of 2 lemons");
    assert_eq!(said(&mut kitchen, vec![words("Halve "), named(0)]), "Halve 2 lemons");
    kitchen.recipes[0].steps = vec![step("Stir.")];
    assert_eq!(
        step_text(&kitchen, RecipeId(0), 0, &Number::from(1.0)),
        "With the juice of 1 lemon and the zest and juice of 2 lemons: Stir."
    );
}

#[test]
fn a_cut_that_the_step_makes_itself_is_not_said_twice() {
    let mut kitchen = mash();
    let potato = food(&mut kitchen, "potato", "vegetable");
    kitchen.foods.all[potato.0 as usize].edible = Some(Fact { value: 0.75, source: "a test".into() });
    let diced = Item { state: State::Prepared("diced".into()), ..item(300.0, Unit::Gram) };
    kitchen.recipes[0].ingredients = vec![ingredient("300 g diced potato", potato, Some(diced), None)];
    let said = |kitchen: &mut Kitchen, verb: &str| {
        kitchen.recipes[0].steps = vec![Step { text: vec![words(verb), named(0)], ..step("") }];
        step_text(kitchen, RecipeId(0), 0, &Number::from(1.0))
    };
    // 300 g ÷ 0.75 = 400 g as bought.
    assert_eq!(said(&mut kitchen, "Peel and dice "), "Peel and dice 400 g potatoes (300 g diced)");
    assert_eq!(said(&mut kitchen, "Boil "), "Boil 300 g diced potato");
}

#[test]
fn a_part_of_a_bulb_is_taken_in_whole_cloves() {
    let mut kitchen = mash();
    let garlic = food(&mut kitchen, "garlic", "vegetable");
    let facts = &mut kitchen.foods.all[garlic.0 as usize];
    let fact = |grams: f64| Fact { value: grams, source: "a test".into() };
    facts.each = Some(Fact { value: Measured::Single(50.0), source: "a test".into() });
    facts.words = [("clove".to_owned(), fact(4.0)), ("bulb".to_owned(), fact(50.0))].into();
    let mut said = |line: &str, unit: Unit, batches: f64| {
        kitchen.recipes[0].ingredients = vec![ingredient(line, garlic, Some(item(1.0, unit)), None)];
        kitchen.recipes[0].steps = vec![Step { text: vec![words("Crush "), named(0)], ..step("") }];
        step_text(&kitchen, RecipeId(0), 0, &Number::from(batches))
    };
    // 0.625 x 50 g ÷ 4 g = 7.8, and so eight, as they are fetched.
    assert_eq!(said("1 bulb garlic", Unit::Word(Word::Bulb), 0.625), "Crush 8 cloves garlic");
    assert_eq!(said("1 garlic", Unit::Piece, 0.625), "Crush 8 cloves garlic");
    assert_eq!(said("1 bulb garlic", Unit::Word(Word::Bulb), 2.0), "Crush 2 bulbs garlic");
}

#[test]
fn what_no_step_names_leads_the_first_step() {
    let mut kitchen = mash();
    kitchen.recipes[0].steps = vec![
        Step { text: vec![words("Warm "), named(1), words(".")], ..step("") },
        Step { text: vec![named(0), named(3), named(5)], ..step("") },
    ];
    assert_eq!(step_text(&kitchen, RecipeId(0), 0, &Number::from(1.0)), "With 1 sprig rosemary: Warm 60 ml olive oil. Season with salt.");
    kitchen.recipes[0].steps[1].text.push(words(". Salt lightly."));
    assert_eq!(step_text(&kitchen, RecipeId(0), 0, &Number::from(1.0)), "With 1 sprig rosemary: Warm 60 ml olive oil.");
}

#[test]
fn the_first_step_in_the_session_has_what_no_step_names() {
    let mut kitchen = mash();
    kitchen.recipes[0].ingredients.truncate(2);
    let soak = Step { text: vec![words("Soak "), named(0)], ahead: Some(crate::measure::Minutes(60)), ..step("") };
    kitchen.recipes[0].steps = vec![soak, step("Cook.")];
    assert_eq!(step_text(&kitchen, RecipeId(0), 1, &Number::ONE), "With 60 ml olive oil: Cook.");
}

#[test]
fn a_range_prints_both_ends() {
    let ml = |n| Quantity::millilitres(n);
    assert_eq!(span(&ml(60.0), &ml(90.0), Units::Metric), "60–90 ml");
    let cloves = |n| Quantity::words(n, "clove");
    assert_eq!(span(&cloves(1.0), &cloves(2.0), Units::Metric), "1–2 cloves");
    assert_eq!(span(&Quantity::pieces(2.0), &Quantity::pieces(3.0), Units::Metric), "2–3");
    assert_eq!(span(&Quantity::grams(900.0), &Quantity::grams(1200.0), Units::Metric), "900 g to 1.2 kg");
}

#[test]
fn a_round_has_its_own_amounts() {
    let mut kitchen = mash();
    kitchen.recipes[0].ingredients.truncate(2);
    kitchen.recipes[0].steps = vec![Step { text: vec![words("Roast in "), named(1)], ..step("") }, step("")];
    // 60 ml x 3 batches x ⅔.
    let made = making(&kitchen, 0, 3.0);
    let said = making_text(&kitchen, &made, 0, &Number::over(2, 3));
    assert_eq!(said, "With 4 tins (400 g) white beans: Roast in 120 ml olive oil");
}

#[test]
fn a_state_and_what_comes_on_top_are_said() {
    let mut kitchen = mash();
    let flour = food(&mut kitchen, "flour", "grain");
    let onion = crate::foods::FoodId(3);
    let diced = Item { state: State::Prepared("diced".into()), ..item(300.0, Unit::Gram) };
    let dusted = Item { plus: vec![amount(20.0, Unit::Gram)], ..item(100.0, Unit::Gram) };
    kitchen.recipes[0].ingredients = vec![
        ingredient("300 g diced onion", onion, Some(diced), None),
        ingredient("100 g flour, plus 20 g for dusting", flour, Some(dusted), None),
    ];
    kitchen.recipes[0].steps = vec![Step { text: vec![named(0), words(" and "), named(1)], ..step("") }];
    assert_eq!(step_text(&kitchen, RecipeId(0), 0, &Number::from(2.0)), "600 g diced onion and 200 g plus 40 g flour");
}

#[test]
fn only_preparations_that_are_no_cuts_are_notes() {
    let mut kitchen = mash();
    kitchen.recipes[0].steps = vec![Step { text: (0..6).map(named).collect(), ..step("") }];
    let notes = preparations(&kitchen.foods, &kitchen.recipes, &kitchen.recipes[0], 0);
    let notes: Vec<String> = notes.iter().map(|note| note.text(kitchen.names(), Units::Metric)).collect();
    assert_eq!(notes, ["Tinned white beans: drained"]);
}

#[test]
fn degrees_are_printed_both_ways() {
    // 190 °C = 374 °F, 74 °C = 165.2 °F, 4 °C = 39.2 °F: to the nearest five.
    assert_eq!(degrees(Celsius(190.0), Units::Metric), "190 °C (375 °F)");
    assert_eq!(degrees(Celsius(74.0), Units::Us), "165 °F (74 °C)");
    assert_eq!(degrees(Celsius(4.0), Units::Metric), "4 °C (40 °F)");
}

#[test]
fn plurals_are_the_usual_ones() {
    let said: Vec<String> = ["onion", "potato", "bay leaf", "celery stick", "cherry", "chicken thighs", "radish"].map(plural).to_vec();
    assert_eq!(said, ["onions", "potatoes", "bay leaves", "celery sticks", "cherries", "chicken thighs", "radishes"]);
}

/// Barley, rinsed in the first step, and stock, which the second adds on the pressure cooker; `ahead` where the first is done before.
fn barley(ahead: bool) -> Kitchen {
    let mut kitchen = kitchen();
    let (barley, stock) = (food(&mut kitchen, "pearl barley", "grain"), food(&mut kitchen, "stock", "stock"));
    kitchen.appliances = vec![crate::prep::testing::appliance("pressure cooker", 1, false)];
    let rinse = Step { ahead: ahead.then_some(crate::measure::Minutes(60)), text: vec![words("Rinse "), named(0)], ..step("") };
    let cook = Step { text: vec![words("Cook with "), named(1)], on: vec![crate::kitchen::ApplianceId(0)], ..step("") };
    let mut dish = recipe("barley", "Pearl barley", 4.0, vec![rinse, cook]);
    dish.ingredients = vec![
        ingredient("255 g pearl barley", barley, Some(item(255.0, Unit::Gram)), None),
        ingredient("700 g stock", stock, Some(item(700.0, Unit::Gram)), None),
    ];
    kitchen.recipes = vec![dish];
    kitchen
}

#[test]
fn a_round_weighs_what_lies_there_without_what_its_step_adds() {
    // 2½ batches of 255 g barley are 637.5 g, a third of it 212.5 g; the 1750 g of stock are the step's own.
    let kitchen = barley(false);
    let there = |step| there_before(&kitchen, &making(&kitchen, 0, 2.5), step, &Number::over(1, 3));
    let weighed = |grams: f64| There { weight: Quantity::grams(grams), what: Some("pearl barley".into()), is_changed: false };
    assert_eq!(there(1).map(|there| (there.weight.base(), there.what)), Some((weighed(212.5).weight.base(), weighed(1.0).what)));
    // The first step says itself what it takes.
    assert_eq!(there(0), None);
}

#[test]
fn what_has_been_soaked_is_told_by_what_it_weighed_before() {
    let kitchen = barley(true);
    let there = there_before(&kitchen, &making(&kitchen, 0, 2.0), 1, &Number::over(1, 2)).expect("one thing alone");
    assert_eq!((there.weight.base(), there.is_changed), (255.0, true));
}

#[test]
fn a_step_takes_whole_eggs_and_tins() {
    // Five eighths of a batch: 1¼ eggs are 2 and ⅝ tin is a whole one, as they are bought and booked; 1¼ onions are cut.
    let mut kitchen = kitchen();
    let whole = Some(Fact { value: false, source: "a test".into() });
    let (egg, tomato, onion) = (food(&mut kitchen, "egg", "raw egg"), food(&mut kitchen, "tomatoes", ""), food(&mut kitchen, "onion", ""));
    kitchen.foods.all[egg.0 as usize].cut = whole;
    let mut dish =
        recipe("dish", "Dish", 4.0, vec![Step { text: vec![named(0), words(", "), named(1), words(", "), named(2)], ..step("") }]);
    let tin = Item { size: Some(Quantity::grams(400.0)), ..item(1.0, Unit::Word(Word::Tin)) };
    dish.ingredients = vec![
        ingredient("2 eggs", egg, Some(item(2.0, Unit::Piece)), None),
        ingredient("1 tin (400 g) tomatoes", tomato, Some(tin), None),
        ingredient("2 onions", onion, Some(item(2.0, Unit::Piece)), None),
    ];
    kitchen.recipes = vec![dish];
    assert_eq!(step_text(&kitchen, RecipeId(0), 0, &Number::from(0.625)), "2 eggs, 1 tin (400 g) tomatoes, 1¼ onions");
    // A round has its part of the whole ones.
    let half = making_text(&kitchen, &making(&kitchen, 0, 0.625), 0, &Number::over(1, 2));
    assert!(half.starts_with("1 egg, ½ tin"), "{half}");
}

#[test]
fn shares_of_whole_eggs_are_whole_eggs() {
    // 1¼ batches of three eggs are 3¾, so four: two and a half of them are three, one and a quarter is the last.
    let mut kitchen = kitchen();
    let egg = food(&mut kitchen, "egg", "raw egg");
    kitchen.foods.all[egg.0 as usize].cut = Some(Fact { value: false, source: "a test".into() });
    let share = |number: f64| Piece::Ingredient { index: 0, share: Some(amount(number, Unit::Piece)) };
    let steps = vec![Step { text: vec![share(2.0)], ..step("") }, Step { text: vec![share(1.0)], ..step("") }];
    let mut dish = recipe("dish", "Dish", 4.0, steps);
    dish.ingredients = vec![ingredient("3 eggs", egg, Some(item(3.0, Unit::Piece)), None)];
    kitchen.recipes = vec![dish];
    let said = |step, batches: f64| step_text(&kitchen, RecipeId(0), step, &Number::from(batches));
    assert_eq!((said(0, 1.25), said(1, 1.25)), ("3 eggs".to_owned(), "1 egg".to_owned()));
    // A quarter of a batch takes one egg: two thirds of it and a third.
    assert_eq!((said(0, 0.25), said(1, 0.25)), ("⅔ egg".to_owned(), "⅓ egg".to_owned()));
}

#[test]
fn nobody_takes_five_eighths_of_a_pinch_or_of_a_cherry_tomato() {
    let mut kitchen = kitchen();
    let (saffron, lemon, tomato) =
        (food(&mut kitchen, "saffron", "spice"), food(&mut kitchen, "lemon", "fruit"), food(&mut kitchen, "cherry tomato", "vegetable"));
    kitchen.foods.all[tomato.0 as usize].each = Some(Fact { value: Measured::Single(17.0), source: "a test".into() });
    let line = |food, number, unit, prep| ingredient("", food, Some(item(number, unit)), prep);
    let pinch = Unit::Word(Word::Pinch);
    let said = |one: &Ingredient, times| added_text(&kitchen, one, times);
    assert_eq!(said(&line(saffron, 1.0, pinch, None), 0.625), "½ pinch saffron");
    assert_eq!(said(&line(saffron, 1.0, pinch, None), 2.5), "3 pinches saffron");
    assert_eq!(said(&line(saffron, 1.0, Unit::Word(Word::Knob), None), 1.75), "2 knobs saffron");
    assert_eq!(said(&line(lemon, 1.0, Unit::Piece, Some("juice")), 0.625), "juice of ½ lemon");
    assert_eq!(said(&line(lemon, 1.0, Unit::Piece, Some("zest and juice")), 1.0), "zest and juice of 1 lemon");
    // 12½ of 17 g are 212.5 g; they are told as thirteen.
    assert_eq!(said(&line(tomato, 5.0, Unit::Piece, None), 2.5), "13 cherry tomatoes (215 g)");
}

#[test]
fn the_size_of_a_piece_is_told_as_it_was_typed() {
    let mut kitchen = kitchen();
    let cabbage = food(&mut kitchen, "red cabbage", "vegetable");
    let sized = |text: &str, pieces: f64, grams: f64| {
        let item = Item { size: Some(Quantity::grams(grams)), ..item(pieces, Unit::Piece) };
        ingredient(text, cabbage, Some(item), None)
    };
    let told = |one: &Ingredient, times: f64| amount_and_food(&kitchen, one, None, times);
    let one = sized("1 red cabbage (900 g)", 1.0, 900.0);
    assert_eq!(told(&one, 1.0), "1 red cabbage (900 g)");
    assert_eq!(told(&one, 2.0), "2 red cabbages (900 g each)");
    assert_eq!(told(&sized("2 x 400 g red cabbage", 2.0, 400.0), 1.0), "2 × 400 g red cabbages");
}
