use super::*;

fn uses(name: &str, line: &str) -> String {
    format!("name = \"{name}\"\nmakes = \"2 portions\"\ningredients = \"{line}\"\n")
}

#[test]
fn recipes_in_a_circle_are_named() {
    let files = [
        ("recipes/a.toml", &*uses("A", "1 portion recipe:b")),
        ("recipes/b.toml", &uses("B", "1 portion recipe:c")),
        ("recipes/c.toml", &uses("C", "1 portion recipe:a")),
    ];
    assert_mistake(
        &files,
        "recipes/a.toml:3:16: recipes need each other in a circle: a needs b needs c needs a. Take one of them out of the other's ingredients or \
         after list.",
    );
}

#[test]
fn two_recipes_of_one_name_are_a_mistake() {
    assert_mistake(
        &[("recipes/a.toml", BARLEY), ("recipes/b.toml", BARLEY)],
        "recipes/b.toml:1:1: two recipes are named \"Pearl barley\": this one and recipes/a.toml. Give each a name of its own.",
    );
}

#[test]
fn two_appliances_or_two_shops_of_one_name_are_a_mistake() {
    let kitchen = format!("{HOUSEHOLD}\n[[appliance]]\nname = \"Oven\"\n");
    assert_mistake(
        &[("kitchen.toml", &kitchen)],
        "kitchen.toml:15:8: two appliances are named \"Oven\". Give each a name of its own, or raise room.",
    );
    assert_mistake(
        &[("shops.toml", "[[shop]]\nname = \"Quay\"\n[[shop]]\nname = \"Quay\"\n")],
        "shops.toml:4:8: two shops are named \"Quay\". Give each a name of its own.",
    );
}

#[test]
fn a_recipe_made_at_the_meal_cannot_go_into_a_dish_of_a_session() {
    let fresh = "name = \"Flatbreads\"\nmakes = \"4 portions\"\nmade = \"at the meal\"\n";
    assert_mistake(
        &[("recipes/flatbreads.toml", fresh), ("recipes/dish.toml", &uses("Dish", "1 portion recipe:flatbreads"))],
        "recipes/dish.toml:3:16: \"Flatbreads\" is made at the meal, so it cannot go into \"Dish\", which is made in a session. Let one be made like \
         the other: set made in recipes/flatbreads.toml or recipes/dish.toml.",
    );
}

#[test]
fn a_role_nobody_has_is_a_mistake() {
    let week = "from = 2026-11-30\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n";
    assert_mistake(
        &[("recipes/dish.toml", &step("who = \"cok\"")), ("weeks/one.toml", week)],
        "recipes/dish.toml:5:7: nobody in any session has the role \"cok\". Did you mean \"cook\"?",
    );
    assert_eq!(mistakes(&[("recipes/dish.toml", &step("who = \"cok\""))]), Vec::<String>::new());
}

#[test]
fn a_role_is_the_same_in_any_letter_case() {
    let week = "from = 2026-11-30\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n";
    assert_eq!(mistakes(&[("recipes/dish.toml", &step("who = \" Cook\"")), ("weeks/one.toml", week)]), Vec::<String>::new());
}
