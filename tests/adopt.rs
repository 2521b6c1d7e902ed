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
