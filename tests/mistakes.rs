//! What is refused, in which words, and what is only warned about.

use crate::kitchen::{Kitchen, assert_amount, kitchen, line, stderr, stdout, supper};

const FOODS: &str = "[[food]]\nname = \"bluegrain\"\nallergens = []\n";

const STEW: &str = "name = \"Moon stew\"\nmakes = \"2 portions\"\ningredients = \"\"\"\n100 g bluegrain\n\"\"\"\n[[step]]\ntext = \"Cook {bluegrain}.\"\nhands = \"5 min\"\n";

fn stew(text: &str) -> Kitchen {
    kitchen().foods(FOODS).recipe("stew", text).meals(&supper("2026-11-29", "\"1 portion recipe:stew\""))
}

/// What `check` says, having ended with status 1.
#[track_caller]
fn refused(kitchen: &Kitchen, words: &[&str]) {
    let output = kitchen.run(&["check"]);
    let said = stderr(&output) + &stdout(&output);
    assert_eq!(output.status.code(), Some(1), "{said}");
    for word in words {
        assert!(said.contains(word), "no {word:?} in: {said}");
    }
}

#[track_caller]
fn accepted(kitchen: &Kitchen) {
    kitchen.done(&["check"]);
}

#[test]
fn a_kitchen_without_mistakes_is_accepted() {
    accepted(&stew(STEW));
}

#[test]
fn an_unknown_key_names_its_file_and_the_nearest_known_key() {
    refused(&stew(&STEW.replace("makes", "maks")), &["recipes/stew.toml:2", "maks", "makes"]);
    refused(&stew(&STEW.replace("hands", "hand")), &["recipes/stew.toml:8", "hands"]);
    let household = kitchen().foods(FOODS).household("chose = \"cheapest\"\n");
    refused(&household, &["kitchen.toml", "chose", "choose"]);
}

#[test]
fn a_key_under_the_wrong_heading_is_told_where_it_belongs() {
    // `keeps` is a key of the recipe, and fell under its last [[step]].
    refused(&stew(&format!("{STEW}keeps = {{ fridge = \"3 days\" }}\n")), &["recipes/stew.toml:9", "keeps", "[[step]]"]);
}

#[test]
fn curly_quotes_are_named_as_such() {
    refused(&stew(&STEW.replace("\"2 portions\"", "“2 portions”")), &["recipes/stew.toml:2", "curly"]);
}

#[test]
fn a_byte_order_mark_is_named_as_such() {
    refused(&stew(&format!("\u{feff}{STEW}")), &["recipes/stew.toml", "byte order mark"]);
}

#[test]
fn every_mistake_of_every_file_is_reported_at_once() {
    let kitchen = stew(&STEW.replace("hands = \"5 min\"", "hands = \"5 moons\"").replace("makes = \"2 portions\"", "makes = \"plenty\""))
        .pantry("[[lot]]\nfood = \"bluegrain\"\namount = \"100 g\"\nplace = \"attic\"\n")
        .shops("[[shop]]\nname = \"Stall\"\n[[pack]]\nshop = \"Stal\"\nfood = \"bluegrain\"\nsize = \"100 g\"\n");
    refused(&kitchen, &["5 moons", "plenty", "attic", "Stal"]);
}

#[test]
fn a_kind_of_food_that_there_is_not_is_refused_and_the_nearest_named() {
    let of_kind = |kind: &str| kitchen().foods(&format!("[[food]]\nname = \"bluegrain\"\nkind = \"{kind}\"\n"));
    refused(&of_kind("raw poulty"), &["foods.toml:3:8: kind: \"raw poulty\" is not a kind of food. Did you mean \"raw poultry\"?"]);
    refused(&of_kind("wholesome"), &["Known: vegetable, fruit,", "ready to eat, household."]);
    accepted(&of_kind("Raw Poultry"));
}

#[test]
fn the_first_syntax_error_of_each_file_is_reported() {
    refused(&stew("name = \n").pantry("[[lot]\n"), &["recipes/stew.toml:1", "pantry.toml:1"]);
}

#[test]
fn a_word_that_is_no_mealtime_is_refused() {
    let meal = "[[meal]]\non = 2026-11-30\nat = \"elevenses\"\neach = [\"100 g bluegrain\"]\n";
    refused(&kitchen().foods(FOODS).meals(meal), &["weeks/week.toml", "elevenses"]);
}

#[test]
fn a_meal_needs_its_at() {
    refused(&kitchen().foods(FOODS).meals("[[meal]]\non = 2026-11-30\neach = [\"100 g bluegrain\"]\n"), &["weeks/week.toml", "at"]);
}

#[test]
fn a_recipe_that_is_not_there_is_refused_with_the_nearest() {
    refused(&stew(STEW).meals(&supper("2026-11-29", "\"1 portion recipe:stw\"")), &["weeks/week.toml", "stw", "stew"]);
}

#[test]
fn a_recipe_that_goes_into_itself_is_refused() {
    refused(&stew(&STEW.replace("100 g bluegrain", "100 g bluegrain\n1 portion recipe:stew")), &["stew"]);
}

#[test]
fn an_appliance_that_is_not_there_is_refused() {
    refused(&stew(&format!("{STEW}on = \"kiln\"\n")), &["recipes/stew.toml:9", "kiln"]);
}

#[test]
fn a_shop_of_a_trip_that_is_not_there_is_refused() {
    let week =
        format!("from = 2026-11-30\n[[trip]]\non = 2026-11-28\nshops = [\"Nowhere\"]\n{}", supper("2026-11-30", "\"100 g bluegrain\""));
    refused(&kitchen().foods(FOODS).shops("[[shop]]\nname = \"Stall\"\n").week(&week), &["weeks/week.toml", "Nowhere"]);
}

#[test]
fn a_food_in_a_steps_text_that_no_line_has_is_refused() {
    refused(&stew(&STEW.replace("{bluegrain}", "{moonroot}")), &["recipes/stew.toml:7", "moonroot"]);
}

#[test]
fn shares_that_do_not_add_up_are_refused() {
    // 40 + 50 of 100 g.
    let second = "[[step]]\ntext = \"Add {bluegrain: 50 g}.\"\n";
    refused(&stew(&format!("{}{second}", STEW.replace("{bluegrain}", "{bluegrain: 40 g}"))), &["recipes/stew.toml", "bluegrain"]);
    // 40 + 60 is all of it.
    accepted(&stew(&format!("{}{}", STEW.replace("{bluegrain}", "{bluegrain: 40 g}"), second.replace("50", "60"))));
}

#[test]
fn values_that_make_no_sense_are_refused() {
    for (from, to) in
        [("makes = \"2 portions\"", "makes = \"0 portions\""), ("makes = \"2 portions\"", "makes = \"-2 portions\""), ("100 g", "-100 g")]
    {
        refused(&stew(&STEW.replace(from, to)), &["recipes/stew.toml"]);
    }
    refused(&kitchen().foods(FOODS).household("short_by = \"plenty\"\n"), &["kitchen.toml", "plenty"]);
    let currency = "[household]\nname = \"Test row\"\neaters = 1\ncurrency = \"XYZ\"\n";
    refused(&kitchen().foods(FOODS).file("kitchen.toml", currency), &["kitchen.toml:4", "XYZ"]);
}

#[test]
fn times_are_read_with_or_without_seconds_quoted_or_not() {
    for start in ["2026-11-29T14:00", "2026-11-29T14:00:00", "\"2026-11-29T14:00\"", "\"2026-11-29T14:00:00\""] {
        for finish_by in ["17:00", "17:00:00", "\"17:00\"", "\"17:00:00\""] {
            let week = format!(
                "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = {start}\nfinish_by = {finish_by}\npeople = [\"cook\"]\n{}",
                supper("2026-11-29", "\"1 portion recipe:stew\"")
            );
            accepted(&stew(STEW).week(&week));
        }
    }
}

#[test]
fn dates_are_read_quoted_or_not() {
    let week = format!("from = \"2026-11-30\"\n[[trip]]\non = \"2026-11-28\"\n{}", supper("2026-11-30", "\"100 g bluegrain\""));
    accepted(&kitchen().foods(FOODS).week(&week));
}

#[test]
fn ingredients_are_read_as_a_text_a_list_of_lines_or_a_list_of_tables() {
    for ingredients in
        ["ingredients = [\"100 g bluegrain\"]", "ingredients = [{ food = \"bluegrain\", amount = \"100 g\", prep = \"rinsed\" }]"]
    {
        let kitchen = stew(&STEW.replace("ingredients = \"\"\"\n100 g bluegrain\n\"\"\"", ingredients));
        accepted(&kitchen);
        // One portion of two: half a batch.
        assert_amount(&line(&kitchen.list(), "bluegrain")["need"], 50.0, "g");
    }
    let base = "name = \"Base\"\nmakes = \"1 kg\"\ningredients = [\"10 g bluegrain\"]\n";
    let table = "ingredients = [{ recipe = \"base\", amount = \"200 g\" }]";
    let with_base = STEW.replace("ingredients = \"\"\"\n100 g bluegrain\n\"\"\"", table).replace("{bluegrain}", "it");
    accepted(&stew(&with_base).recipe("base", base));
}

#[test]
fn an_unknown_food_keeps_its_name_and_the_nearest_known_ones_are_named() {
    let kitchen = kitchen().foods(FOODS).meals(&supper("2026-11-30", "\"100 g bluegrein\""));
    let output = kitchen.run(&["check"]);
    assert_eq!(output.status.code(), Some(0));
    let said = stderr(&output);
    assert!(said.contains("bluegrein") && said.contains("bluegrain"), "{said}");
    assert_amount(&line(&kitchen.list(), "bluegrein")["need"], 100.0, "g");
}

#[test]
fn what_the_household_avoids_draws_a_warning_where_it_is_or_may_be() {
    for (allergens, warned) in
        [("allergens = [\"sesame\"]", true), ("", true), ("allergens = []", false), ("allergens = [\"milk\"]", false)]
    {
        let household = "[household]\nname = \"Test row\"\neaters = 1\ncurrency = \"EUR\"\navoid = [\"sesame\"]\n";
        let kitchen = kitchen()
            .file("kitchen.toml", household)
            .foods(&format!("[[food]]\nname = \"bluegrain\"\n{allergens}\n"))
            .meals(&supper("2026-11-30", "\"100 g bluegrain\""));
        for verb in ["check", "list"] {
            let said = stderr(&kitchen.run(&[verb]));
            assert_eq!(said.contains("sesame") && said.contains("bluegrain"), warned, "{verb}, {allergens:?}: {said}");
        }
    }
}

#[test]
fn a_kitchen_with_mistakes_writes_nothing() {
    let kitchen = stew(&STEW.replace("makes", "maks"));
    for verb in ["list", "prep", "print"] {
        let output = kitchen.run(&["--format", "json", verb]);
        assert_eq!((output.status.code(), output.stdout.len()), (Some(1), 0), "{verb}");
    }
    assert!(!kitchen.path().join("sheets").exists());
}

#[test]
fn an_after_that_names_a_recipe_is_told_how_recipes_are_written() {
    let oats = "name = \"Oats\"\nmakes = \"2 portions\"\ningredients = [\"100 g bluegrain\"]\n";
    let kitchen = stew(&format!("{STEW}after = [\"oats\"]\n")).recipe("oats", oats);
    refused(&kitchen, &["recipes/stew.toml:9", "Write \"recipe:oats\" for all of that recipe."]);
}

#[test]
fn shares_that_do_not_add_up_are_compared_in_the_unit_of_the_line() {
    refused(&stew(&STEW.replace("{bluegrain}", "{bluegrain: 40 g}")), &["add up to 40 g, but the line says 100 g"]);
}

#[test]
fn a_date_that_the_calendar_lacks_is_named_as_such() {
    let kitchen = stew(STEW).meals(&supper("2026-02-30", "\"1 portion recipe:stew\""));
    refused(&kitchen, &["year-month-day"]);
}

#[test]
fn what_stands_behind_a_recipe_in_its_line_is_refused_where_it_would_have_to_be_bought() {
    let eaten = |line: &str| kitchen().foods(FOODS).recipe("stew", STEW).meals(&supper("2026-11-29", &format!("\"{line}\"")));
    for more in
        [" plus 20 g bluegrain", ", plus 20 g bluegrain", " and 20 g bluegrain", " + 20 g bluegrain", " (20 g bluegrain)", ", 2 eggs"]
    {
        refused(&eaten(&format!("1 portion recipe:stew{more}")), &["is bought by no line of recipe:stew", "on a line of its own"]);
    }
    for remark in [", warm", ", cut into 4 slices", ", 5 minutes in the pan", " (200 g)", ", about 2 cm thick"] {
        accepted(&eaten(&format!("1 portion recipe:stew{remark}")));
    }
    // The remedy is never the line itself.
    let output = eaten("-1 portion recipe:stew").run(&["check"]);
    assert!(!stderr(&output).contains("write recipe:"), "{}", stderr(&output));
}

#[test]
fn a_line_of_a_meal_that_lacks_its_amount_is_no_heading() {
    let eaten = |line: &str| {
        kitchen()
            .foods(FOODS)
            .recipe("stew", STEW)
            .meals(&supper("2026-11-29", &format!("\"1 portion recipe:stew\", \"{line}\", \"20 g bluegrain\"")))
    };
    refused(&eaten("bluegrain:"), &["weeks/week.toml", "\"bluegrain:\" names no amount", "100 g bluegrain"]);
    accepted(&eaten("For the table:"));
}
