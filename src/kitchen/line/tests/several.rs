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
fn cloves_with_nothing_behind_them_are_the_spice_wherever_they_stand() {
    for (text, foods) in [
        ("1 bay leaf, 5 juniper berries and 3 cloves", &["bay leaf 1", "juniper berries 5", "cloves 3"][..]),
        ("1 cinnamon stick, 3 cloves", &["cinnamon stick 1", "cloves 3"]),
        ("1 bay leaf and 3 cloves", &["bay leaf 1", "cloves 3"]),
        ("2 cloves and 1 bay leaf", &["cloves 2", "bay leaf 1"]),
        ("2 cloves garlic and 1 bay leaf", &["garlic 2 cloves", "bay leaf 1"]),
    ] {
        assert_eq!(told(text).len(), foods.len(), "{text}: {:?}", told(text));
    }
    assert_eq!(told("salt, to taste, and plenty of black pepper").len(), 2);
}

#[test]
fn what_an_and_alone_parts_is_bought_each() {
    for (text, foods) in [
        ("1 onion, thyme and 50 g walnuts", &["onion 1", "thyme", "walnut 50 g"][..]),
        ("1 onion, 50 g walnuts, some thyme and 3 eggs", &["onion 1", "walnut 50 g", "thyme", "egg 3"]),
        ("1 carrot, peeled and 1 leek", &["carrot 1", "leek 1"]),
        ("400 g carrots (plus 50 g walnuts)", &["carrot 400 g", "walnut 50 g"]),
        ("1 whole egg plus 1 white", &["egg 1", "egg white 1"]),
        ("3 eggs plus 2 yolks, beaten", &["egg 3", "egg yolk 2"]),
        // One food, whatever is done to parts of it.
        ("4 tomatoes, 2 chopped and 2 sliced", &["tomato 4"]),
        ("1 onion, studded with 3 cloves", &["onion 1", "clove 3"]),
        ("3 eggs, yolks and 2 whites apart", &["egg 3"]),
        ("zest of 1 lime, plus juice of 2", &["lime 2"]),
    ] {
        assert_eq!(told(text), foods, "{text}");
    }
}

#[test]
fn a_part_that_is_no_food_takes_no_other_with_it_and_is_told() {
    for (text, foods, left) in [
        ("2 eggs, 50 g walnuts and the rest of the milk", ["egg 2", "walnut 50 g"], "the rest of the milk"),
        ("1 onion, 50 g walnuts and a splash", ["onion 1", "walnut 50 g"], "a splash"),
    ] {
        assert_eq!(told(text), foods, "{text}");
        let Ok(LineRead::Ingredients(lines)) = read_ingredients(text, &REFERENCE, Spoons::Us) else { panic!("{text}") };
        assert!(lines.iter().flat_map(|line| &line.doubts).any(|doubt| *doubt == format!("\"{left}\" was not used")), "{lines:?}");
    }
}

#[test]
fn numbers_as_other_countries_write_them() {
    for (text, food) in [
        ("1 000 g potatoes", "potato 1000 g"),
        ("1 400 g tin chickpeas", "tinned chickpeas 1 tin"),
        ("± 500 g potatoes", "potato 500 g"),
        ("min. 500 g potatoes", "potato 500 g"),
        ("at least 4 cloves garlic", "garlic 4 cloves"),
        ("1 3½–4 lb. whole chicken", "chicken 1"),
        ("3 EL olive oil", "olive oil 3 tbsp"),
        ("1 teasp salt", "salt 1 tsp"),
        ("1 tablespoon (20 ml) soy sauce", "soy sauce 20 ml"),
        ("1 tablespoon (15 ml) soy sauce", "soy sauce 1 tbsp"),
    ] {
        assert_eq!(told(text), [food], "{text}");
    }
}

#[test]
fn what_is_cooked_in_a_pouch_is_no_dried_food() {
    for (text, food) in [
        ("250 g pouch cooked lentils", "ready-cooked lentils 1 packet"),
        ("250 g ready-cooked Puy lentils", "ready-cooked lentils 250 g"),
        ("1 pouch cooked brown rice", "ready-cooked brown rice 1 packet"),
        ("250 g cooked lentils", "lentils 250 g"),
        ("250 g cooked, peeled cold-water prawns", "cooked prawn 250 g"),
    ] {
        assert_eq!(told(text), [food], "{text}");
    }
}

#[test]
fn marks_of_lists_say_nothing() {
    for text in ["† 2 eggs", "1. 2 eggs", "▢ 2 eggs", "✓ 2 eggs", "- [x] 2 eggs"] {
        assert_eq!(told(text), ["egg 2"], "{text}");
    }
    assert_eq!(told("2.5 kg potatoes"), ["potato 2½ kg"]);
}

#[test]
fn what_is_left_of_an_amount_is_reckoned_in_the_remedy() {
    for (text, left) in [("½ cup less 1 tbsp sugar", "7 tbsp"), ("1 cup less 1 tbsp sugar", "15 tbsp")] {
        let error = read_ingredients(text, &REFERENCE, Spoons::Us).unwrap_err();
        assert_eq!(error.remedy, format!("write what is left as one: {left}"), "{text}");
    }
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
