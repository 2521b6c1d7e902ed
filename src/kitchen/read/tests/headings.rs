use super::*;

#[test]
fn an_unknown_key_names_the_nearest_known_one() {
    let recipe = "name = \"Mash\"\nmakes = \"2 portions\"\nbatchs = \"any\"\n";
    assert_mistake(
        &[("recipes/mash.toml", recipe)],
        "recipes/mash.toml:3:1: unknown key \"batchs\" at the top of the file. Did you mean \"batches\"?",
    );
}

#[test]
fn the_nearest_key_wins_wherever_it_belongs() {
    let recipe = "name = \"Mash\"\nmakes = \"2 portions\"\nkeepss = { fridge = \"3 days\" }\n";
    assert_mistake(
        &[("recipes/mash.toml", recipe)],
        "recipes/mash.toml:3:1: unknown key \"keepss\" at the top of the file. Did you mean \"keeps\"?",
    );
    assert_mistake(
        &[("recipes/dish.toml", &step("keepss = { fridge = \"3 days\" }"))],
        "recipes/dish.toml:5:1: unknown key \"keepss\" under [[step]]. Did you mean \"keeps\", which belongs at the top of the file?",
    );
    assert_mistake(
        &[("recipes/dish.toml", &step("servee = \"hot\""))],
        "recipes/dish.toml:5:1: unknown key \"servee\" under [[step]]. Did you mean \"serve\", which belongs at the top of the file?",
    );
}

#[test]
fn a_key_that_fell_under_the_wrong_heading_is_told_where_it_belongs() {
    let recipe = step("hands = \"2 min\"\nkeeps = { fridge = \"3 days\" }");
    assert_mistake(
        &[("recipes/dish.toml", &recipe)],
        "recipes/dish.toml:6:1: \"keeps\" fell under [[step]], where it is not known. \"keeps\" belongs at the top of the file: move it above the first [[step]].",
    );
}

#[test]
fn a_key_of_another_heading_is_sent_there() {
    let kitchen = format!("{HOUSEHOLD}\n[print]\nshort_by = \"2%\"\n");
    assert_mistake(
        &[("kitchen.toml", &kitchen)],
        "kitchen.toml:15:1: unknown key \"short_by\" under [print]. \"short_by\" belongs under [rules].",
    );
}

#[test]
fn a_mistyped_heading_names_the_right_one() {
    let recipe = "name = \"Mash\"\nmakes = \"2 portions\"\n[[steps]]\ntext = \"Stir.\"\n";
    assert_mistake(
        &[("recipes/mash.toml", recipe)],
        "recipes/mash.toml:3:3: unknown key \"steps\" at the top of the file. Did you mean [[step]]?",
    );
}

#[test]
fn single_and_double_brackets_are_told_apart() {
    let recipe = "name = \"Mash\"\nmakes = \"2 portions\"\n[step]\ntext = \"Stir.\"\n";
    assert_mistake(
        &[("recipes/mash.toml", recipe)],
        "recipes/mash.toml:3:1: step stands in single brackets. Write [[step]]: there may be several.",
    );
}

#[test]
fn curly_quotes_are_named_as_such() {
    assert_mistake(
        &[("recipes/mash.toml", "name = “Mash”\nmakes = \"2 portions\"\n")],
        "recipes/mash.toml:1:8: “ is a curly quote, which TOML does not read. Write straight quotes: \" or '.",
    );
}

#[test]
fn curly_quotes_within_a_text_are_text() {
    assert_eq!(mistakes(&[("recipes/mash.toml", "name = \"Jo’s “best” mash\"\nmakes = \"2 portions\"\n")]), Vec::<String>::new());
}

#[test]
fn a_byte_order_mark_is_named_as_such() {
    assert_mistake(
        &[("recipes/barley.toml", &format!("\u{feff}{BARLEY}"))],
        "recipes/barley.toml:1:1: the file begins with a byte order mark. Save it as plain UTF-8, without a byte order mark (BOM).",
    );
}

#[test]
fn a_wrong_type_says_what_was_expected() {
    assert_mistake(
        &[("recipes/dish.toml", &step("hands = 6"))],
        "recipes/dish.toml:5:9: hands: expected a duration, found a number. Write it like \"45 min\" or \"1 h 10 min\".",
    );
}

#[test]
fn a_missing_key_is_named_with_an_example() {
    assert_mistake(
        &[("recipes/mash.toml", "name = \"Mash\"\n")],
        "recipes/mash.toml:1:1: the file lacks \"makes\". Add makes = \"6 portions\".",
    );
    let kitchen = "[household]\nname = \"Boatyard Row\"\neaters = 3\n";
    assert_mistake(&[("kitchen.toml", kitchen)], "kitchen.toml:1:1: [household] lacks \"currency\". Add currency = \"EUR\".");
}

#[test]
fn a_recipe_says_what_it_makes_a_number_of() {
    for (typed, wanted) in [("6", "6"), ("\"two\"", "two")] {
        let wanted = format!(
            "recipes/mash.toml:2:9: makes: \"{wanted}\" does not say of what. Write portions, pieces, a weight or a volume: \"6 portions\", \
             \"12 pieces\"."
        );
        assert_mistake(&[("recipes/mash.toml", &format!("name = \"Mash\"\nmakes = {typed}\n"))], &wanted);
    }
    assert_eq!(mistakes(&[("recipes/eggs.toml", "name = \"Eggs\"\nmakes = \"12 pieces\"\n")]), Vec::<String>::new());
}

#[test]
fn mistakes_of_all_files_come_in_one_run_in_order() {
    let files = [
        ("kitchen.toml", "[household]\nname = \"Boatyard Row\"\neaters = 0\ncurrency = \"EUR\"\n"),
        ("pantry.toml", "[[lot]]\nfood = \"onion\"\namount = \"2\"\nplace = \"shed\"\n"),
        ("recipes/mash.toml", "name = \"Mash\nmakes = 3\n"),
    ];
    let said = mistakes(&files);
    let places: Vec<&str> = said.iter().map(|text| text.split(": ").next().unwrap()).collect();
    assert_eq!(places, ["kitchen.toml:3:10", "pantry.toml:4:9", "recipes/mash.toml:1:13"]);
}

#[test]
fn a_key_written_twice_is_a_mistake() {
    let said = mistakes(&[("recipes/mash.toml", "name = \"Mash\"\nname = \"Mash\"\nmakes = \"2 portions\"\n")]);
    assert!(said[0].starts_with("recipes/mash.toml:2:1: this is not valid TOML: the same key or heading is written twice"), "{said:?}");
}

#[test]
fn a_text_where_a_small_table_belongs_is_told_how_it_is_written_in_one_line() {
    // Under a heading of its own it would take every key below it.
    let recipe = "name = \"Mash\"\nmakes = \"2 portions\"\nkeeps = \"3 days\"\n";
    assert_mistake(
        &[("recipes/mash.toml", recipe)],
        "recipes/mash.toml:3:9: expected the table [keeps], found a text. Write it like keeps = { fridge = \"3 days\" }.",
    );
}
