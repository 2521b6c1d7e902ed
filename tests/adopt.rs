//! `adopt FILE...`: recipes from pages and text, never over a file that is there, all or none.

use std::fs;

use pretty_assertions::assert_eq;

use crate::kitchen::{Kitchen, json, kitchen, stderr};

const SOUP: &str = "Leek and potato soup\nServes 4\n\nIngredients\n600 g leeks\n400 g potatoes\n1 l vegetable stock\n\nMethod\nSlice the leeks.\nSimmer everything for 20 minutes.\n";

fn with_soup() -> Kitchen {
    kitchen().file("soup.txt", SOUP)
}

fn recipes(kitchen: &Kitchen) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(kitchen.path().join("recipes"))
        .map(|entries| entries.flatten().map(|entry| entry.file_name().to_string_lossy().into_owned()).collect())
        .unwrap_or_default();
    names.sort();
    names
}

#[test]
fn a_text_becomes_a_recipe_that_works_and_says_what_is_missing() {
    let kitchen = with_soup();
    let said = kitchen.done(&["adopt", "soup.txt"]);
    assert!(said.contains("`keeps` is missing: it will be eaten on the day it is made. USDA: cooked dishes 3 to 4 days"), "{said}");
    assert_eq!(recipes(&kitchen), ["leek-and-potato-soup.toml"]);
    let card = json(&kitchen.run(&["--format", "json", "recipe", "leek-and-potato-soup"]));
    assert_eq!(card["makes"]["amount"], 4.0);
    assert_eq!(card["steps"].as_array().map(Vec::len), Some(2));
}

#[test]
fn how_long_it_keeps_is_taken_where_the_text_says_so() {
    let kitchen = kitchen().file("soup.txt", &format!("{SOUP}Keeps 3 days in the fridge; freezes for a month.\n"));
    let said = kitchen.done(&["adopt", "soup.txt"]);
    assert!(!said.contains("`keeps` is missing"), "{said}");
    assert!(
        said.contains(
            "`keeps` is read from \"Keeps 3 days in the fridge; freezes for a month.\": 3 days in the fridge and 1 month in the freezer."
        ),
        "{said}"
    );
    let card = json(&kitchen.run(&["--format", "json", "recipe", "leek-and-potato-soup"]));
    assert_eq!((card["keeps"]["fridge"].as_i64(), card["keeps"]["freezer"].as_i64()), (Some(3), Some(30)));
    // The words keep no time of the session.
    assert_eq!(card["steps"].as_array().map(Vec::len), Some(2));
}

#[test]
fn nothing_is_ever_overwritten() {
    let kitchen = with_soup();
    kitchen.done(&["adopt", "soup.txt"]);
    let before = kitchen.text("recipes/leek-and-potato-soup.toml");
    let refused = kitchen.run(&["adopt", "soup.txt"]);
    assert_eq!(refused.status.code(), Some(1));
    assert!(stderr(&refused).contains("--as ID"), "{}", stderr(&refused));
    assert_eq!(kitchen.text("recipes/leek-and-potato-soup.toml"), before);
    kitchen.done(&["adopt", "soup.txt", "--as", "tuesday-soup"]);
    assert!(kitchen.text("recipes/tuesday-soup.toml").contains("name = \"Leek and potato soup (tuesday-soup)\""));
}

#[test]
fn of_several_files_all_are_taken_or_none() {
    let kitchen = with_soup().file("not.txt", "Dear all,\nthe boat leaves at noon.\n");
    let refused = kitchen.run(&["adopt", "soup.txt", "not.txt"]);
    assert_eq!(refused.status.code(), Some(1));
    let said = stderr(&refused);
    assert!(said.contains("no recipe in not.txt: neither schema.org/Recipe nor a list that reads as ingredients"), "{said}");
    assert_eq!(recipes(&kitchen), Vec::<String>::new());
    let refused = kitchen.run(&["adopt", "soup.txt", "soup.txt", "--as", "soup"]);
    assert_eq!(refused.status.code(), Some(2), "{}", stderr(&refused));
    let refused = kitchen.run(&["adopt", "soup.txt", "soup.txt"]);
    assert_eq!(refused.status.code(), Some(1), "two of one id: {}", stderr(&refused));
    assert_eq!(recipes(&kitchen), Vec::<String>::new());
}

#[test]
fn an_id_stays_in_its_folder() {
    let kitchen = with_soup();
    for id in ["../soup", "a/b", "Soup", ""] {
        let refused = kitchen.run(&["adopt", "soup.txt", "--as", id]);
        assert_eq!(refused.status.code(), Some(2), "{id}: {}", stderr(&refused));
    }
    assert_eq!(recipes(&kitchen), Vec::<String>::new());
}

#[test]
fn a_new_kitchen_begins_with_recipes_of_ones_own() {
    let kitchen = with_soup();
    kitchen.done(&["start", "new", "--from", "soup.txt"]);
    assert!(kitchen.text("new/recipes/leek-and-potato-soup.toml").contains("Simmer everything"));
    let refused = kitchen.run(&["start", "other", "--from", "week.txt"]);
    assert_eq!(refused.status.code(), Some(1), "{}", stderr(&refused));
    assert!(!kitchen.path().join("other").exists());
}

#[test]
fn a_recipe_of_ones_own_takes_the_place_of_the_one_that_a_new_kitchen_has() {
    let kitchen = kitchen().file(
        "roots.txt",
        "Roast beetroot and carrots\nServes 4\n\nIngredients\n900 g beetroot\n400 g carrots\n\nMethod\nRoast at 200 °C for 45 minutes.\n",
    );
    let said = kitchen.done(&["start", "new", "--from", "roots.txt"]);
    let text = kitchen.text("new/recipes/roast-beetroot-and-carrots.toml");
    assert!(text.contains("900 g beetroot") && !text.contains("600 g beetroot"), "{text}");
    // The week asks for it days later: what the other one says of keeping stands there, marked, and is told.
    assert!(text.contains("makes = \"4 servings\"\n") || text.contains("makes = \"4 portions\"\n"), "{text}");
    assert!(
        text.contains("keeps = { fridge = \"3 days\" }   # of the recipe of this name that start writes: is it so of yours?\n"),
        "{text}"
    );
    assert!(said.contains("`keeps` is not told: { fridge = \"3 days\" } is written down"), "{said}");
    let mut command = assert_cmd::Command::cargo_bin("spence").expect("the program is built");
    let checked = command.current_dir(kitchen.path().join("new")).arg("check").output().expect("it runs");
    assert_eq!(checked.status.code(), Some(0), "{}", stderr(&checked));
}

/// A page that never closes what it opens would take hours as a tree.
#[test]
fn a_large_page_is_read_or_refused_in_a_sentence_and_nothing_beside_is_written() {
    let soup = r#"<script type="application/ld+json">{"@type": "Recipe", "name": "Soup", "recipeIngredient": ["3 leeks"]}</script>"#;
    let nested = |head: &str| format!("<!DOCTYPE html><html><head>{head}</head><body>{}", "<div>".repeat(800_000));
    let kitchen = kitchen()
        .file("nested.html", &nested(soup))
        .file("bare.html", &nested(""))
        .file("long.txt", &format!("Soup\nServes 4\n\nIngredients\n{}\nMethod\nSimmer.\n", "1 leek\n".repeat(500_000)))
        .file("large.html", &format!("<!DOCTYPE html><html><body>{}", "word ".repeat(7_000_000)));
    assert_eq!(kitchen.run(&["adopt", "nested.html"]).status.code(), Some(0));
    for (file, said) in [
        ("bare.html", "no recipe in bare.html: neither schema.org/Recipe nor a list that reads as ingredients"),
        ("long.txt", "long.txt has more lines than any recipe"),
        ("large.html", "large.html is larger than 32 MB"),
    ] {
        let refused = kitchen.run(&["adopt", file]);
        assert_eq!(refused.status.code(), Some(1), "{file}");
        assert!(stderr(&refused).contains(said), "{file}: {}", stderr(&refused));
    }
    assert_eq!(recipes(&kitchen), ["soup.toml"]);
}

/// Bytes as an editor of the nineties saved them.
fn adopted(bytes: &[u8], name: &str) -> (Kitchen, std::process::Output) {
    let kitchen = kitchen();
    fs::write(kitchen.path().join(name), bytes).expect("a file");
    let output = kitchen.run(&["adopt", name]);
    (kitchen, output)
}

fn lines(kitchen: &Kitchen, id: &str, key: &str) -> Vec<String> {
    let table: toml::Table = kitchen.text(&format!("recipes/{id}.toml")).parse().expect("valid TOML");
    table[key].as_str().expect("a text").lines().map(str::to_owned).collect()
}

#[test]
fn a_page_without_an_encoding_keeps_its_letters_and_one_that_names_a_wrong_one_is_refused() {
    let page = |head: &str| {
        let before = format!("<!DOCTYPE html><html><head>{head}</head><body><p>{}</p>", "The harbour is quiet. ".repeat(60));
        let block = b"<script type='application/ld+json'>{\"@type\":\"Recipe\",\"name\":\"Leek soup\",\"recipeIngredient\":[\"\xbd l cr\xe8me fra\xeeche\",\"3 leeks\"]}</script>";
        [before.as_bytes(), block].concat()
    };
    let (kitchen, output) = adopted(&page(""), "old.html");
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    assert_eq!(lines(&kitchen, "leek-soup", "ingredients"), ["½ l crème fraîche", "3 leeks"]);
    assert_eq!(kitchen.run(&["check"]).status.code(), Some(0));

    let (kitchen, output) = adopted(&page("<meta charset=utf-8>"), "wrong.html");
    assert_eq!(output.status.code(), Some(1));
    assert!(stderr(&output).contains("wrong.html names an encoding that it is not in"), "{}", stderr(&output));
    assert_eq!(recipes(&kitchen), Vec::<String>::new());
}

#[test]
fn a_line_that_the_kitchen_would_refuse_stands_beside_the_others_and_is_told() {
    let block = r#"{"@type": "Recipe", "name": "Leek soup", "recipeYield": "4", "recipeIngredient":
        ["3 leeks", "(see note)", "2 tbsp", "— — —", "0 g butter", "1 l vegetable stock"], "recipeInstructions": "Simmer."}"#;
    let (kitchen, output) = adopted(block.as_bytes(), "soup.json");
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    let said = crate::kitchen::stdout(&output);
    assert!(said.contains("\"(see note)\" does not read as an ingredient"), "{said}");
    assert_eq!(lines(&kitchen, "leek-soup", "ingredients"), ["3 leeks", "1 l vegetable stock"]);
    let text = kitchen.text("recipes/leek-soup.toml");
    for line in ["(see note)", "2 tbsp", "— — —", "0 g butter"] {
        assert!(text.contains(&format!("# Not read as an ingredient: {line}\n")), "{text}");
    }
    for verb in [&["check"][..], &["list"]] {
        assert_eq!(kitchen.run(verb).status.code(), Some(0), "{verb:?}");
    }
    let (kitchen, output) = adopted(br#"{"@type": "Recipe", "name": "Notes", "recipeIngredient": ["(see note)"]}"#, "notes.json");
    assert_eq!(output.status.code(), Some(1));
    assert!(stderr(&output).contains("\"Notes\" cannot be taken in: no line of its list reads as an ingredient"), "{}", stderr(&output));
    assert_eq!(recipes(&kitchen), Vec::<String>::new());
}

#[test]
fn two_recipes_of_a_text_are_two_or_none() {
    let two = "Two soups\n\n# Leek soup\nServes 4\n\nIngredients\n2 leeks\n1 l vegetable stock\n\nMethod\nSimmer the leeks.\n\n# Onion soup\nServes 6\n\nIngredients\n6 onions\n\nMethod\nSlice the onions.\n";
    let (kitchen, output) = adopted(two.as_bytes(), "two.txt");
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    assert_eq!(recipes(&kitchen), ["leek-soup.toml", "onion-soup.toml"]);
    assert_eq!(lines(&kitchen, "leek-soup", "ingredients"), ["2 leeks", "1 l vegetable stock"]);
    assert_eq!(lines(&kitchen, "leek-soup", "method"), ["Simmer the leeks."]);
    assert!(kitchen.text("recipes/onion-soup.toml").contains("makes = \"6 portions\""));

    let bare = two.replace("# ", "").replace("Ingredients\n", "").replace("Method\n", "").replace("Two soups\n\n", "");
    let (kitchen, output) = adopted(bare.as_bytes(), "bare.txt");
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    assert_eq!(recipes(&kitchen), ["leek-soup.toml", "onion-soup.toml"]);
    assert_eq!(lines(&kitchen, "onion-soup", "ingredients"), ["6 onions"]);

    let unnamed = two.replace("# Onion soup\n", "").replace("Serves 6\n\n", "");
    let (kitchen, output) = adopted(unnamed.as_bytes(), "unnamed.txt");
    assert_eq!(output.status.code(), Some(1));
    assert!(stderr(&output).contains("unnamed.txt holds several recipes, and nothing says where one ends"), "{}", stderr(&output));
    assert_eq!(recipes(&kitchen), Vec::<String>::new());

    let tools = "Leek soup\n\nYou will need\n1 large pan\n\nIngredients\n2 leeks\n1 l vegetable stock\n\nMethod\nSimmer the leeks.\n";
    let (kitchen, output) = adopted(tools.as_bytes(), "tools.txt");
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    assert_eq!(recipes(&kitchen), ["leek-soup.toml"]);
}

#[test]
fn a_text_that_was_wrapped_is_read_as_it_was_written() {
    let text = "> *Baked fish with dill*\n> *For 2*\n>\n> ### Ingredients\n> * **350 g** cod\n> * 1 tin white beans, drained and\n> rinsed\n> * 1 bunch dill\n> ### To serve\n> * 1 lemon\n>\n> ### Method\n> Heat the oven to\n> 200C. Bake the fish for\n> 15 minutes. Chop\n> the dill and stir it into the beans.\n> Serve at once.\n>\n> Source: https://example.org/fish\n";
    let (kitchen, output) = adopted(text.as_bytes(), "mail.txt");
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    let (id, file) = ("baked-fish-with-dill", kitchen.text("recipes/baked-fish-with-dill.toml"));
    assert_eq!(
        lines(&kitchen, id, "ingredients"),
        ["350 g cod", "1 tin white beans, drained and rinsed", "1 bunch dill", "To serve:", "1 lemon"]
    );
    assert_eq!(
        lines(&kitchen, id, "method"),
        ["Heat the oven to 200C. Bake the fish for 15 minutes. Chop the dill and stir it into the beans.", "Serve at once."]
    );
    assert!(file.contains("makes = \"2 portions\"\n"), "{file}");
    assert!(file.contains("source = { address = \"https://example.org/fish\" }"), "{file}");
    let plain = "leek soup\nserves 4\n\n2 leeks\nsalt\n1 l vegetable stock\n\nslice the leeks\nfry them\nsimmer for\n20 minutes\n";
    let (kitchen, output) = adopted(plain.as_bytes(), "low.txt");
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    assert_eq!(lines(&kitchen, "leek-soup", "ingredients"), ["2 leeks", "salt", "1 l vegetable stock"]);
    assert_eq!(lines(&kitchen, "leek-soup", "method"), ["slice the leeks", "fry them", "simmer for 20 minutes"]);
}

#[test]
fn a_page_says_how_much_it_makes_in_its_own_words() {
    for (said, makes) in
        [("One 23 cm cake (serves 8)", "8 portions"), ("2 dozen", "24 pieces"), ("Serves six", "6 portions"), ("1½ litres", "1½ litres")]
    {
        let block = serde_json::json!({"@type": "Recipe", "name": "Dish", "recipeYield": said, "recipeIngredient": ["3 leeks"]});
        let (kitchen, output) = adopted(block.to_string().as_bytes(), "dish.json");
        assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
        let text = kitchen.text("recipes/dish.toml");
        assert!(text.contains(&format!("makes = \"{makes}\"\n")), "{said}: {text}");
        assert_eq!(kitchen.run(&["check"]).status.code(), Some(0), "{said}");
    }
}

#[test]
fn a_page_says_how_much_it_makes_only_in_words_or_has_no_name_and_that_is_told() {
    let block = r#"{"@type": "Recipe", "recipeYield": "a crowd", "recipeIngredient": ["3 leeks"], "recipeInstructions": "Simmer."}"#;
    let (kitchen, output) = adopted(block.as_bytes(), "soup.json");
    let said = crate::kitchen::stdout(&output);
    assert!(said.contains("`makes`: the page says \"a crowd\", which is no number: 4 portions are written down."), "{said}");
    assert!(said.contains("`name` is missing on the page: \"Recipe\" is written down."), "{said}");
    assert!(kitchen.text("recipes/recipe.toml").contains("makes = \"4 portions\"   # the page says: a crowd\n"));
}

#[test]
fn two_files_of_one_recipe_are_named_and_neither_is_written() {
    let kitchen = with_soup().file("again.txt", SOUP);
    let refused = kitchen.run(&["adopt", "soup.txt", "again.txt"]);
    assert_eq!(refused.status.code(), Some(1));
    let said = stderr(&refused);
    assert!(said.contains("soup.txt and again.txt: two recipes would be recipes/leek-and-potato-soup.toml"), "{said}");
    assert_eq!(recipes(&kitchen), Vec::<String>::new());
}

/// What nobody could read is looked through for allergens by whoever cooks.
#[test]
fn an_allergen_in_a_line_that_was_not_read_stands_in_the_method_as_a_note() {
    let block = r#"{"@type": "Recipe", "name": "Slaw", "recipeYield": "4", "recipeIngredient": ["2 apples", "0 g walnuts", "— — —"],
        "recipeInstructions": "Grate the apples."}"#;
    let (kitchen, output) = adopted(block.as_bytes(), "slaw.json");
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    assert_eq!(lines(&kitchen, "slaw", "method"), ["Grate the apples.", "Note: of the list, not read: 0 g walnuts"]);
    assert_eq!(kitchen.run(&["check"]).status.code(), Some(0));
}

#[test]
fn how_long_it_keeps_beyond_what_usda_has_for_cooked_dishes_is_told() {
    let kitchen = kitchen().file("soup.txt", &format!("{SOUP}Keeps 2 weeks in the fridge.\n"));
    let said = kitchen.done(&["adopt", "soup.txt"]);
    assert!(said.contains("2 weeks in the fridge. That is longer than USDA has for cooked dishes: 3 to 4 days in the fridge."), "{said}");
}

/// The steps that a household wrote come back as a method of which every amount is taken where it stood.
#[test]
fn a_line_of_two_amounts_that_two_steps_take_comes_back_so() {
    let bread = "name = \"Flatbreads\"\nmakes = \"8 pieces\"\ningredients = \"\"\"\n400 g plain flour, plus 2 tbsp\n250 g plain yoghurt\n\"\"\"\n\
                 [[step]]\ntext = \"Mix {plain flour: 400 g} with {yoghurt}.\"\n[[step]]\ntext = \"Roll out on {plain flour: 2 tbsp}.\"\n";
    let kitchen = kitchen().recipe("bread", bread);
    let page = crate::kitchen::stdout(&kitchen.run(&["recipe", "bread", "--format", "jsonld"]));
    let kitchen = kitchen.file("bread.json", &page);
    let said = kitchen.done(&["adopt", "bread.json", "--as", "again"]);
    assert!(!said.contains("flour"), "{said}");
    let texts = |id: &str| {
        let card = json(&kitchen.run(&["--format", "json", "recipe", id, "--for", "16 pieces"]));
        card["steps"].as_array().unwrap().iter().map(|step| step["text"].as_str().unwrap().to_owned()).collect::<Vec<_>>()
    };
    assert_eq!(texts("again"), ["Mix 800 g plain flour with 500 g yoghurt.", "Roll out on 4 tbsp plain flour."]);
    assert_eq!(texts("bread"), texts("again"));
}

/// A recipe in a recipe goes out by its name, and comes back as the recipe of that name.
#[test]
fn a_recipe_in_a_recipe_goes_out_by_its_name_and_comes_back() {
    let sauce = "name = \"Best sauce of the row\"\nmakes = \"2 1/2 cups\"\nsource = { title = \"Boatyard <Book> & Co\" }\ningredients = \"6 red peppers\"\nmethod = \"Write <b> and &amp; on it. Simmer for 20 minutes.\"\n";
    let pie = "name = \"Pie\"\nmakes = \"12 pieces\"\nfits = [\"main\"]\nis = [\"soft\"]\ningredients = \"\"\"\n300 ml recipe:sauce\n3 leeks\n\"\"\"\nmethod = \"Bake for 20 minutes.\"\n";
    let kitchen = kitchen().recipe("sauce", sauce).recipe("pie", pie);
    let page = |id: &str| kitchen.run(&["recipe", id, "--format", "jsonld"]);
    let out = crate::kitchen::stdout(&page("pie"));
    assert!(out.contains("\"300 ml Best sauce of the row\"") && !out.contains("recipe:"), "{out}");
    let told = stderr(&page("pie"));
    assert!(told.contains("(fits)") && told.contains("(is)") && told.contains("(recipe:)"), "{told}");
    let kitchen = kitchen.file("pie.json", &out);
    let said = kitchen.done(&["adopt", "pie.json", "--as", "other-pie"]);
    assert!(said.contains("is read as the recipe of that name: 300 ml recipe:sauce."), "{said}");
    assert_eq!(lines(&kitchen, "other-pie", "ingredients"), ["300 ml recipe:sauce", "3 leeks"]);
    let out = crate::kitchen::stdout(&kitchen.run(&["recipe", "sauce", "--format", "jsonld"]));
    let kitchen = kitchen.file("sauce.json", &out);
    kitchen.done(&["adopt", "sauce.json", "--as", "other-sauce"]);
    let text = kitchen.text("recipes/other-sauce.toml");
    assert!(text.contains("makes = \"2 1/2 cups\"\n"), "{text}");
    assert!(text.contains("title = \"Boatyard <Book> & Co\""), "{text}");
    assert_eq!(lines(&kitchen, "other-sauce", "method"), ["Write <b> and &amp; on it. Simmer for 20 minutes."]);
    // What to write instead is of this recipe.
    let refused = kitchen.run(&["recipe", "pie", "--for", "300 g"]);
    assert!(stderr(&refused).contains("--for \"24 pieces\""), "{}", stderr(&refused));
}

#[test]
fn a_mistake_in_the_method_hides_no_other() {
    let recipe = "name = \"Pie\"\nmakes = \"4 portions\"\ntrays = \"two\"\ningredients = \"3 leeks\"\nmethod = [1, \"Boil.\"]\n";
    let checked = kitchen().recipe("pie", recipe).run(&["check"]);
    let said = stderr(&checked);
    assert!(said.contains("method: expected text") && said.contains("trays"), "{said}");
}
