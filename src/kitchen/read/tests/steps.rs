use super::*;
use crate::kitchen::{After, Piece};
use pretty_assertions::assert_eq;

fn dish(ingredients: &str, steps: &[&str]) -> String {
    let steps: String = steps.iter().map(|text| format!("[[step]]\ntext = \"{text}\"\n")).collect();
    format!("name = \"Dish\"\nmakes = \"2 portions\"\ningredients = \"\"\"\n{ingredients}\n\"\"\"\n{steps}")
}

/// Which ingredients the steps mention, in order.
fn mentioned(recipe: &str) -> Vec<usize> {
    let kitchen = loaded(&[("recipes/barley.toml", BARLEY), ("recipes/dish.toml", recipe)]).kitchen;
    let pieces = kitchen.recipes[1].steps.iter().flat_map(|step| step.text.clone());
    pieces.filter_map(|piece| if let Piece::Ingredient { index, .. } = piece { Some(index) } else { None }).collect()
}

#[test]
fn two_steps_of_one_id_are_one_mistake_and_no_circle() {
    let recipe = "name = \"Dish\"\nmakes = \"2 portions\"\n[[step]]\nid = \"a\"\ntext = \"Stir.\"\n[[step]]\nid = \"a\"\ntext = \"Stir.\"\nafter = [\"a\"]\n";
    assert_mistake(
        &[("recipes/dish.toml", recipe)],
        "recipes/dish.toml:7:6: two steps have the id \"a\". Give each step an id of its own.",
    );
}

#[test]
fn a_food_is_mentioned_by_any_of_its_names() {
    let lines = "2 tins (400 g) white beans, drained\n2 onions, diced\n100 g recipe:barley";
    let barley_by_weight = lines.replace("100 g", "1 portion");
    assert_eq!(mentioned(&dish(&barley_by_weight, &["{white beans} {onion} {recipe:barley}"])), [0, 1, 2]);
    assert_eq!(mentioned(&dish(&barley_by_weight, &["{pearl barley} {tinned white beans} {onions}"])), [2, 0, 1]);
}

#[test]
fn a_name_takes_the_ingredient_whose_noun_it_is() {
    for (lines, said, index) in [
        ("2 tbsp soy sauce\n1 tbsp fish sauce\n400 g cod", "{fish}", 2),
        ("1 tin (400 g) chopped tomatoes\n3 tbsp tomato purée", "{tomatoes}", 0),
        ("3 tbsp tomato purée\n200 g cherry tomatoes", "{tomatoes}", 1),
        ("100 g cream cheese\n200 ml double cream", "{cream}", 1),
        ("400 ml coconut milk\n20 g desiccated coconut", "{coconut}", 1),
        ("500 ml chicken stock\n4 chicken thighs", "{chicken}", 1),
        ("500 ml beef stock\n400 g minced beef", "{beef}", 1),
        ("1 tbsp lemon juice\n1 lemon", "{lemon}", 1),
        ("2 tbsp peanut butter\n20 g butter", "{butter}", 1),
        // Where nothing else is meant, the name of what it is made of will do.
        ("2 tbsp soy sauce\n400 g cod", "{soy}", 0),
        ("500 ml chicken stock\n1 onion", "{chicken}", 0),
    ] {
        assert_eq!(mentioned(&dish(lines, &[&format!("Add {said}.")])), [index], "{said} of {lines}");
    }
}

#[test]
fn a_food_on_two_lines_is_taken_in_their_order() {
    assert_eq!(mentioned(&dish("2 onions, diced\n1 onion, sliced", &["Fry {onion}.", "Add {onion}."])), [0, 1]);
}

#[test]
fn a_mention_of_nothing_is_a_mistake() {
    let said = mistakes(&[("recipes/dish.toml", &dish("2 onions", &["Fry {onoin}."]))]);
    assert_eq!(said, ["recipes/dish.toml:7:8: {onoin} names nothing among the ingredients. Did you mean \"onion\"?"]);
    let said = mistakes(&[("recipes/dish.toml", &dish("2 onions", &["Fry {onion."]))]);
    assert_eq!(said, ["recipes/dish.toml:7:8: a { is never closed. Close it: {onion} or {olive oil: 2 tbsp}."]);
}

#[test]
fn shares_add_up_to_their_line() {
    let with = |share: &str| dish("4 tbsp olive oil", &[&format!("Warm {{olive oil: {share}}}."), "Stir in {olive oil: 2 tbsp}."]);
    assert_eq!(mistakes(&[("recipes/dish.toml", &with("2 tbsp"))]), Vec::<String>::new());
    // 1 tbsp + 2 tbsp = 3 of 4
    assert_mistake(
        &[("recipes/dish.toml", &with("1 tbsp"))],
        "recipes/dish.toml:7:8: the shares of \"4 tbsp olive oil\" add up to 3 tbsp, but the line says 4 tbsp. Make the shares add up to the line.",
    );
    // 6 tsp are 2 tbsp
    assert_eq!(mistakes(&[("recipes/dish.toml", &with("6 tsp"))]), Vec::<String>::new());
    // 30 + 2 × 14.7868 = 59.5735 of 4 × 14.7868 = 59.1471: what is poured is compared as it is poured.
    assert_mistake(
        &[("recipes/dish.toml", &with("30 ml"))],
        "recipes/dish.toml:7:8: the shares of \"4 tbsp olive oil\" add up to 59.5735 ml, but the line says 59.1471 ml. Make the shares add up to \
         the line.",
    );
}

#[test]
fn thirds_add_up() {
    let recipe = dish("1 onion", &["{onion: 1/3} {onion: 1/3} {onion: 1/3}"]);
    assert_eq!(mistakes(&[("recipes/dish.toml", &recipe)]), Vec::<String>::new());
}

#[test]
fn an_appliance_nobody_has_is_a_mistake() {
    assert_mistake(
        &[("recipes/dish.toml", &step("on = \"ovn\""))],
        "recipes/dish.toml:5:6: there is no appliance \"ovn\". Did you mean \"oven\"?",
    );
}

#[test]
fn a_temperature_needs_an_appliance_with_heat() {
    assert_mistake(
        &[("recipes/dish.toml", &step("on = \"hob\"\ntemperature = \"180 °C\""))],
        "recipes/dish.toml:6:15: \"hob\" has no temperature to set: it is not marked heat = true. Name an appliance with heat = true in on, or take \
         the temperature out.",
    );
}

#[test]
fn after_names_steps_by_id_or_number_and_other_recipes() {
    let recipe = "name = \"Dish\"\nmakes = \"2 portions\"\n[[step]]\nid = \"soak\"\ntext = \"Soak.\"\n[[step]]\ntext = \"Chop.\"\nafter = []\n\
                  [[step]]\ntext = \"Cook.\"\nafter = [\"soak\", 2, \"recipe:barley\"]\n";
    let kitchen = loaded(&[("recipes/barley.toml", BARLEY), ("recipes/dish.toml", recipe)]).kitchen;
    let after: Vec<_> = kitchen.recipes[1].steps.iter().map(|step| step.after.clone()).collect();
    let barley = After::Recipe(crate::kitchen::RecipeId(0));
    assert_eq!(after, [None, Some(vec![]), Some(vec![After::Step(0), After::Step(1), barley])]);
    assert_mistake(
        &[("recipes/barley.toml", BARLEY), ("recipes/dish.toml", &recipe.replace("[\"soak\", 2", "[\"soka\""))],
        "recipes/dish.toml:11:10: no step of this recipe has the id \"soka\". Did you mean \"soak\"?",
    );
}

#[test]
fn steps_in_a_circle_are_named() {
    let recipe = "name = \"Dish\"\nmakes = \"2 portions\"\n[[step]]\nid = \"a\"\ntext = \"A.\"\nafter = [\"b\"]\n[[step]]\nid = \"b\"\ntext = \"B.\"\n";
    assert_mistake(
        &[("recipes/dish.toml", recipe)],
        "recipes/dish.toml:3:1: steps wait for each other in a circle: step \"a\" comes after step \"b\", which comes after step \"a\". Take one of them \
         out of an after list.",
    );
}

#[test]
fn a_gap_longer_than_within_can_never_hold() {
    assert_mistake(
        &[("recipes/dish.toml", &step("gap = \"2 h\"\nwithin = \"1 h\""))],
        "recipes/dish.toml:6:10: the gap of 120 min is longer than within, 60 min. Make within at least as long as gap.",
    );
}
