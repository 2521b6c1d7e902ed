//! Lines of which one part says what another means: shared nouns, pints beside millilitres, lengths, more of the same.

use std::sync::LazyLock;

use pretty_assertions::assert_eq;

use super::super::{LineOf, LineRead, read_ingredients};
use crate::foods::Foods;
use crate::measure::Spoons;

static REFERENCE: LazyLock<Foods> = LazyLock::new(Foods::reference);

/// Each food of the line with its amount, and what is added to it.
fn told(text: &str) -> Vec<String> {
    let Ok(LineRead::Ingredients(lines)) = read_ingredients(text, &REFERENCE, Spoons::Us) else { panic!("{text}") };
    let one = |of: &LineOf| match of {
        LineOf::Food { food, item: Some(item) } => {
            let plus: String = item.plus.iter().map(|plus| format!(" + {plus}")).collect();
            format!("{food} {}{plus}", item.amount)
        }
        other => other.to_string(),
    };
    lines.iter().map(|line| one(&line.of)).collect()
}

#[test]
fn two_counts_share_the_noun_that_only_one_of_them_has() {
    assert_eq!(told("1 red and 1 yellow pepper"), ["red pepper 1", "yellow pepper 1"]);
    assert_eq!(told("1 red and 2 green peppers, sliced"), ["red pepper 1", "green pepper 2"]);
    assert_eq!(told("8 chicken drumsticks and 4 thighs"), ["chicken drumstick 8", "chicken thigh 4"]);
    assert_eq!(told("2 onions and 1 carrot"), ["onion 2", "carrot 1"]);
}

#[test]
fn more_of_the_same_is_added_with_or_without_a_comma() {
    assert_eq!(told("2 eggs + 1 for glazing"), ["egg 2 + 1"]);
    assert_eq!(told("2 eggs plus 1 to glaze"), ["egg 2 + 1"]);
    assert_eq!(told("2 eggs, plus 1 for glazing"), ["egg 2 + 1"]);
    assert_eq!(told("2 eggs plus 1 egg yolk").len(), 2);
    // A clove more, and no bulb.
    assert_eq!(told("2 cloves garlic, plus 1 whole"), ["garlic 2 cloves + 1 clove"]);
}

#[test]
fn millilitres_beside_a_pint_say_how_much_it_is() {
    assert_eq!(told("1 pint (570 ml) milk"), ["milk 570 ml"]);
    assert_eq!(told("10 fl oz (300 ml) vegetable stock"), ["vegetable stock 300 ml"]);
    assert_eq!(told("½ pint/300 ml milk"), ["milk 300 ml"]);
    assert_eq!(told("2 pints (1.2 litres) vegetable stock"), ["vegetable stock 1.2 l"]);
    assert_eq!(told("675ml (1¼ pints) vegetable stock"), ["vegetable stock 675 ml"]);
    assert_eq!(told("1 cup (240 ml) milk"), ["milk 1 cup"]);
}

#[test]
fn a_root_that_is_sold_by_its_length_weighs_by_its_length() {
    // 5 g a centimetre: 2 × 5, 5 × 5; an inch is 2.54 cm.
    assert_eq!(told("2 cm piece of ginger"), ["ginger 10 g"]);
    assert_eq!(told("5cm/2in piece fresh ginger, grated"), ["ginger 25 g"]);
    assert_eq!(told("1 (2-inch) piece ginger"), ["ginger 25.4 g"]);
    assert_eq!(told("2 x 4 cm pieces ginger"), ["ginger 40 g"]);
    // Nobody knows how thick another food is.
    assert_eq!(told("2 cm piece of butter"), ["butter 1 knob"]);
}

#[test]
fn every_part_of_a_line_that_is_an_amount_of_a_food_is_an_ingredient() {
    for (line, meant) in [
        ("2 carrots, 2 sticks of celery and 1 onion, all finely chopped", vec!["carrot 2", "celery 2 sticks", "onion 1"]),
        ("1 onion, 1 carrot and 1 leek, sliced", vec!["onion 1", "carrot 1", "leek 1"]),
        ("400 g tomatoes, 1 cucumber and 2 red peppers", vec!["tomato 400 g", "cucumber 1", "red pepper 2"]),
        ("2 tbsp olive oil, 1 onion and salt", vec!["olive oil 2 tbsp", "onion 1", "salt"]),
        ("2 eggs, 1 tbsp milk and a pinch of salt", vec!["egg 2", "milk 1 tbsp", "salt 1 pinch"]),
        ("salt, pepper and 1 tsp sugar", vec!["salt", "black pepper", "sugar 1 tsp"]),
        ("salt to taste, 1/2 tsp turmeric", vec!["salt", "ground turmeric ½ tsp"]),
        // One food in two ways, and what is no food.
        ("4 tomatoes, 2 chopped and 2 sliced", vec!["tomato 4"]),
        ("Salt, 1 tsp", vec!["salt 1 tsp"]),
        ("Garlic, 2 cloves", vec!["garlic 2 cloves"]),
    ] {
        assert_eq!(told(line), meant, "{line}");
    }
}

#[test]
fn two_systems_side_by_side_say_one_amount() {
    for (line, meant) in [
        ("500 g 1 lb 2 oz leeks", "leek 500 g"),
        ("25 g 1 oz butter", "butter 25 g"),
        ("4 oz 115 g plain flour", "plain flour 4 oz"),
        ("300 ml ½ pint milk", "milk 300 ml"),
        ("1 cup 240 ml milk", "milk 1 cup"),
        ("2 tbsp 30 ml olive oil", "olive oil 2 tbsp"),
        ("300 g 1 1/2 cups pearl barley", "pearl barley 300 g"),
        ("500 g, 1 lb 2 oz turnips", "turnip 500 g"),
        // Of one system they are added.
        ("1 lb 4 oz leeks", "leek 1 lb + 4 oz"),
        ("1 kg 200 g leeks", "leek 1 kg + 200 g"),
    ] {
        assert_eq!(told(line), [meant], "{line}");
    }
}

#[test]
fn a_weight_in_brackets_says_of_what_it_is() {
    let state = |text: &str| {
        let Ok(LineRead::Ingredients(lines)) = read_ingredients(text, &REFERENCE, Spoons::Us) else { panic!("{text}") };
        let LineOf::Food { item: Some(item), .. } = &lines[0].of else { panic!("{text}") };
        (item.amount.to_string(), matches!(item.state, crate::foods::State::Prepared(_)))
    };
    for (line, amount, trimmed) in [
        ("3 carrots (about 300 g unpeeled)", "300 g", false),
        ("4 chicken thighs (800 g with bones)", "800 g", false),
        ("3 carrots (about 300 g peeled weight)", "300 g", true),
        ("3 carrots, about 300 g unpeeled weight", "300 g", false),
        ("1 avocado (150 g peeled)", "150 g", true),
        ("1 kg potatoes (peeled weight)", "1 kg", true),
        ("1 kg potatoes, peeled weight", "1 kg", true),
        ("1 kg potatoes, peeled", "1 kg", false),
        ("2 onions (200 g net)", "200 g", false),
    ] {
        assert_eq!(state(line), (amount.to_owned(), trimmed), "{line}");
    }
}
