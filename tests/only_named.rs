//! Foods that stand only in words: of a step, beside a line, at the table. Nothing is said to contain them; whoever is allergic is told.

use crate::kitchen::{Kitchen, kitchen, stderr, supper};

const TWO: &str = "[household]\nname = \"Test row\"\ncurrency = \"EUR\"\n[[eater]]\nname = \"Rosa\"\n[[eater]]\nname = \"Emil\"\n\
                   allergic = [\"nuts\"]\n[[appliance]]\nname = \"hob\"\n";

const FOODS: &str = "[[food]]\nname = \"bluegrain\"\nallergens = []\n";

/// Bluegrain for four, with a method of one step a paragraph.
fn mash(method: &[&str]) -> String {
    let method: Vec<String> = method.iter().map(|line| format!("\"{line}\"")).collect();
    let method = method.join(", ");
    format!(
        "name = \"Blue mash\"\nmakes = \"4 portions\"\nbatches = \"any\"\nkeeps = {{ fridge = \"4 days\" }}\ningredients = [\"400 g bluegrain\"]\nmethod = [{method}]\n"
    )
}

fn household(recipe: &str, meals: &str) -> Kitchen {
    kitchen().file("kitchen.toml", TWO).foods(FOODS).recipe("blue-mash", recipe).meals(meals)
}

const TOLD: &str = "the words of step 2 name walnuts (nuts), which is not among the ingredients: if it is used, Emil may not eat it.";

fn with_walnuts() -> String {
    mash(&["Simmer the bluegrain for 20 minutes.", "Mash it and sprinkle with chopped walnuts."])
}

fn said(kitchen: &Kitchen, arguments: &[&str]) -> String {
    let output = kitchen.run(arguments);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    String::from_utf8_lossy(&output.stdout).into_owned() + &stderr(&output)
}

#[test]
fn what_only_the_words_of_a_step_name_is_told_by_every_verb_that_warns() {
    let kitchen = household(&with_walnuts(), &supper("2026-12-01", "\"1 portion recipe:blue-mash\""));
    for verb in [vec!["check"], vec!["list"], vec!["prep"], vec!["recipe", "blue-mash"], vec!["day", "2026-12-01"]] {
        let said = said(&kitchen, &verb);
        assert!(said.contains(TOLD), "{verb:?}: {said}");
        assert!(!said.contains("Rosa may"), "{said}");
    }
    assert_eq!(said(&kitchen, &["check"]).matches(TOLD).count(), 1);
    let list = kitchen.done(&["list"]);
    let lines: Vec<&str> = list.lines().filter(|line| !line.trim().is_empty()).collect();
    assert_eq!((lines[1], lines[2].trim()), ("Not known", format!("Blue mash: {TOLD}").as_str()), "{list}");
    // It is no fact of the dish.
    assert!(said(&kitchen, &["recipe", "blue-mash"]).contains("Allergens: none of EU 1169/2011 Annex II"));
    kitchen.done(&["print", "--only", "phone"]);
    assert!(kitchen.text("sheets/list-2026-11-30.html").contains(&format!("Blue mash: {TOLD}")));
}

#[test]
fn a_recipe_that_is_not_planned_is_told_of_too_and_one_that_bears_it_for_certain_is_not() {
    let kitchen = household(&with_walnuts(), "");
    assert!(said(&kitchen, &["check"]).contains(TOLD));
    assert!(!said(&kitchen, &["list"]).contains("walnuts"));
    let listed = with_walnuts().replace("\"400 g bluegrain\"", "\"400 g bluegrain\", \"50 g walnuts\"");
    assert!(!said(&household(&listed, ""), &["check"]).contains("not among"));
    // Almonds are nuts: their mistake, where it is served, says enough.
    let almonds = with_walnuts().replace("\"400 g bluegrain\"", "\"400 g bluegrain\", \"50 g almonds\"");
    assert!(!said(&household(&almonds, ""), &["check"]).contains("not among"));
}

#[test]
fn lines_of_recipes_the_table_and_notes_are_words_too() {
    let recipe = |line: &str, method: &[&str]| mash(method).replace("400 g bluegrain", line);
    let plain = ["Simmer the bluegrain for 20 minutes."];
    for (recipe, told) in [
        (
            recipe("400 g bluegrain, with chopped almonds", &plain),
            "the preparation of \\\"400 g bluegrain, with chopped almonds\\\" names almonds (nuts)",
        ),
        (
            recipe("400 g bluegrain (or 10 g almonds)", &plain),
            "the remark of \\\"400 g bluegrain (or 10 g almonds)\\\" names almonds (nuts)",
        ),
        (mash(&[plain[0], "Serve with walnuts."]), "the words for the table name walnuts (nuts)"),
        (mash(&[plain[0], "Tip: walnuts are good here."]), "the notes name walnuts (nuts)"),
    ] {
        let said = said(&household(&recipe, ""), &["recipe", "blue-mash"]);
        let told = told.replace("\\\"", "\"");
        assert!(
            said.contains(&format!("{told}, which is not among the ingredients: if it is used, Emil may not eat it.")),
            "{told}: {said}"
        );
    }
}

#[test]
fn a_household_without_named_eaters_is_told_as_one() {
    let recipe = with_walnuts();
    let allergic =
        "[household]\nname = \"Test row\"\ncurrency = \"EUR\"\neaters = 2\nallergic = [\"nuts\"]\n[[appliance]]\nname = \"hob\"\n";
    let told = said(&household(&recipe, "").file("kitchen.toml", allergic), &["check"]);
    assert!(told.contains("if it is used, nobody here may eat it."), "{told}");
    let avoids = allergic.replace("allergic", "avoid");
    let told = said(&household(&recipe, "").file("kitchen.toml", &avoids), &["check"]);
    assert!(told.contains("if it is used, this household avoids it."), "{told}");
}

#[test]
fn a_text_that_is_taken_in_tells_it_at_once() {
    let text =
        "Blue soup\nServes 4\n\nIngredients\n400 g bluegrain\n\nMethod\nSimmer the bluegrain for 20 minutes.\nSprinkle with walnuts.\n";
    let kitchen = household(&with_walnuts(), "").file("soup.txt", text);
    let file = kitchen.path().join("soup.txt");
    let output = kitchen.run(&["adopt", &file.to_string_lossy()]);
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(
        said.contains("walnuts (nuts), which is not among the ingredients: if it is used, Emil may not eat it."),
        "{said}{}",
        stderr(&output)
    );
}

#[test]
fn who_is_allergic_is_told_of_what_is_akin_to_it_or_made_of_food_of_that_kind() {
    for (allergic, named, words) in [("red onion", "spring onions", "spring onions"), ("vegetable", "ketchup", "ketchup")] {
        let recipe = mash(&["Simmer the bluegrain for 20 minutes.", &format!("Sprinkle with {named}.")]);
        let told = said(&household(&recipe, "").file("kitchen.toml", &TWO.replace("nuts", allergic)), &["check"]);
        assert!(told.contains(words) && told.contains("which is not among the ingredients: if it is used, Emil may not eat it."), "{told}");
        // Whoever only avoids it is not.
        let avoids = TWO.replace("nuts", allergic).replace("allergic", "avoid");
        let told = said(&household(&recipe, "").file("kitchen.toml", &avoids), &["check"]);
        assert!(!told.contains("Emil avoids it"), "{told}");
    }
}
