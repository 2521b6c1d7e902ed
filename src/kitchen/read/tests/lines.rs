use super::*;
use crate::kitchen::{RecipeId, Wanted};
use crate::measure::Quantity;
use pretty_assertions::assert_eq;

fn dish(ingredients: &str) -> String {
    format!("name = \"Dish\"\nmakes = \"2 portions\"\ningredients = {ingredients}\n")
}

#[test]
fn a_text_of_many_lines_a_list_and_tables_say_the_same() {
    let forms = [
        "\"\"\"\n300 g onions, diced\n\n2 portions recipe:barley\n\"\"\"",
        "[\"300 g onions, diced\", \"2 portions recipe:barley\"]",
        "[{ food = \"onions\", amount = \"300 g\", prep = \"diced\" }, { recipe = \"barley\", amount = \"2 portions\" }]",
    ];
    for form in forms {
        let kitchen = loaded(&[("recipes/barley.toml", BARLEY), ("recipes/dish.toml", &dish(form))]).kitchen;
        let lines = &kitchen.recipes[1].ingredients;
        assert_eq!((lines[0].text.as_str(), lines[0].prep.as_deref()), ("300 g onions, diced", Some("diced")), "{form}");
        assert!(matches!(&lines[0].wanted, Wanted::Food { food, .. } if kitchen.foods[*food].name == "onion"), "{form}");
        let two = Quantity::portions(2.0);
        assert_eq!(lines[1].wanted, Wanted::Recipe { recipe: RecipeId(0), amount: two.clone(), most: two }, "{form}");
    }
}

#[test]
fn each_line_of_a_long_text_has_its_own_place() {
    let recipe = dish("\"\"\"\n300 g onions\n  200 g carrots\n\"\"\"");
    let lines = loaded(&[("recipes/dish.toml", &recipe)]).kitchen.recipes.remove(0).ingredients;
    let places: Vec<String> = lines.iter().map(|line| line.at.to_string()).collect();
    assert_eq!(places, ["recipes/dish.toml:4:1", "recipes/dish.toml:5:3"]);
}

#[test]
fn a_recipe_nobody_wrote_is_a_mistake_on_its_own_line() {
    let recipe = dish("\"\"\"\n300 g onions\n2 portions recipe:barly\n\"\"\"");
    assert_mistake(
        &[("recipes/barley.toml", BARLEY), ("recipes/dish.toml", &recipe)],
        "recipes/dish.toml:5:1: there is no recipe \"barly\". Did you mean \"barley\"?",
    );
}

#[test]
fn a_line_of_nothing_is_a_mistake() {
    for ingredients in
        ["[\"0 g onions\"]", "[{ food = \"onion\", amount = \"0 g\" }]", "[{ recipe = \"barley\", amount = \"0 g\" }]", "[\"\"]"]
    {
        let said = mistakes(&[("recipes/barley.toml", BARLEY), ("recipes/dish.toml", &dish(ingredients))]);
        assert_eq!(said.len(), 1, "{ingredients}: {said:?}");
        assert!(said[0].starts_with("recipes/dish.toml:3:"), "{said:?}");
    }
}

#[test]
fn a_table_is_of_either_a_food_or_a_recipe() {
    assert_mistake(
        &[("recipes/dish.toml", &dish("[{ amount = \"2 g\" }]"))],
        "recipes/dish.toml:3:16: a line is of either a food or a recipe. Write food = \"...\" or recipe = \"...\", one of the two.",
    );
}

#[test]
fn a_recipe_is_asked_only_for_what_it_can_give() {
    let files = |portion: &str| {
        let barley = format!("{BARLEY}{portion}");
        mistakes(&[("recipes/barley.toml", &barley), ("recipes/dish.toml", &dish("[\"200 g recipe:barley\"]"))])
    };
    let said = "recipes/dish.toml:3:17: this asks for grams of \"Pearl barley\", which makes portions. Ask in portions, or add portion = \"200 g\", \
                the weight of one portion, to recipes/barley.toml.";
    assert_eq!(files(""), [said]);
    assert_eq!(files("portion = \"150 g\"\n"), Vec::<String>::new());
    // What a portion weighs makes no pieces and no millilitres of it.
    let pieces = mistakes(&[("recipes/barley.toml", BARLEY), ("recipes/dish.toml", &dish("[\"3 recipe:barley\"]"))]);
    let change = "Ask in portions, or change makes in recipes/barley.toml.";
    assert_eq!(pieces, [format!("recipes/dish.toml:3:17: this asks for pieces of \"Pearl barley\", which makes portions. {change}")]);
}
