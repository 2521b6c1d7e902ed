//! What `recipe NAME --steps` writes reads back to the same steps: random methods, built from the grammar of `kitchen::method`.

use pretty_assertions::assert_eq;
use serde_json::Value;

use crate::dice::Dice;
use crate::kitchen::{Kitchen, appliances, json, kitchen, stdout};

const INGREDIENTS: &str = r#"
1.2 kg chicken thighs
2 tbsp olive oil
1 lemon, juice
3 cloves garlic
For the sauce:
2 tins (400 g) chopped tomatoes
1 tbsp olive oil
200-250 ml vegetable stock
400 g diced potato
salt and pepper, to taste
1 portion recipe:herb-yoghurt
"#;

const YOGHURT: &str = "name = \"Herb yoghurt\"\nmakes = \"2 portions\"\ningredients = [\"200 g plain yoghurt\"]\n";

fn pick<'w>(dice: &mut Dice, words: &[&'w str]) -> &'w str {
    words[dice.between(0, words.len() as i64 - 1) as usize]
}

fn clause(dice: &mut Dice) -> String {
    let share = pick(dice, &["the ", "half the ", "the rest of the ", "1 tbsp of the ", "the chopped ", "most of the ", ""]);
    let food = pick(
        dice,
        &[
            "chicken",
            "oil",
            "garlic",
            "tomatoes",
            "stock",
            "potatoes",
            "lemon juice",
            "herb yoghurt",
            "everything",
            "the sauce ingredients",
            "salt",
        ],
    );
    let time = match dice.between(0, 6) {
        0 => String::new(),
        1 => format!(" for {} minutes", dice.between(1, 40)),
        2 => format!(" for {}-{} mins", dice.between(5, 9), dice.between(10, 20)),
        3 => " for an hour and a half".to_owned(),
        4 => " overnight".to_owned(),
        5 => format!(" for {} minutes a side", dice.between(2, 6)),
        _ => format!(" at {} °C for {} minutes", dice.between(15, 22) * 10, dice.between(10, 60)),
    };
    let place = pick(
        dice,
        &[
            "",
            "",
            " in the oven",
            " over a medium heat",
            " in a bowl",
            " in the pressure cooker",
            " in the bread machine",
            " until the inside reaches 74 °C",
        ],
    );
    let verb = pick(
        dice,
        &[
            "chop",
            "peel and dice",
            "add",
            "stir in",
            "fry",
            "simmer",
            "roast",
            "bake",
            "marinate",
            "rest",
            "boil",
            "bring to the boil with",
            "whisk",
            "leave to cool with",
            "crush",
            "serve with",
        ],
    );
    format!("{verb} {share}{food}{place}{time}")
}

fn method(dice: &mut Dice) -> Vec<String> {
    let sentence = |dice: &mut Dice| {
        let front = pick(dice, &["", "", "Heat the oven to 190 °C and ", "Meanwhile, ", "The day before, "]);
        let mut text = format!("{front}{}", clause(dice));
        for _ in 0..dice.between(0, 2) {
            text += pick(dice, &[", then ", " and ", "; "]);
            text += &clause(dice);
        }
        text[..1].to_uppercase() + &text[1..] + "."
    };
    (0..dice.between(1, 4)).map(|_| (0..dice.between(1, 3)).map(|_| sentence(dice)).collect::<Vec<_>>().join(" ")).collect()
}

/// The steps without what says which of their figures nobody wrote.
fn steps(kitchen: &Kitchen) -> Vec<Value> {
    let card = json(&kitchen.run(&["--format", "json", "recipe", "dish"]));
    let mut steps = card["steps"].as_array().unwrap().clone();
    steps.iter_mut().for_each(|step| drop(step.as_object_mut().unwrap().remove("estimated")));
    steps
}

#[test]
fn what_is_written_as_steps_reads_back_to_the_same_steps() {
    for seed in 1..=20 {
        let method = method(&mut Dice(seed));
        let recipe = format!(
            "# Kept.\nname = \"Dish\"   # kept too\nmakes = \"4 portions\"\ningredients = \"\"\"{INGREDIENTS}\"\"\"\nmethod = \"\"\"\n{}\n\"\"\"\nkeeps = {{ fridge = \"3 days\" }}\n",
            method.join("\n")
        );
        let kitchen = kitchen().household(&appliances(&["bread machine"])).recipe("herb-yoghurt", YOGHURT).recipe("dish", &recipe);
        let before = steps(&kitchen);
        let said = stdout(&kitchen.run(&["recipe", "dish", "--steps"]));
        assert!(said.contains(&format!("{} step", before.len())), "{said}");
        let text = kitchen.text("recipes/dish.toml");
        for kept in ["# Kept.", "# kept too", "3 days", "For the sauce:"] {
            assert!(text.contains(kept), "seed {seed}: {kept} in {text}");
        }
        assert!(!text.contains("method ="), "{text}");
        let output = kitchen.run(&["--format", "json", "recipe", "dish"]);
        assert_eq!(output.status.code(), Some(0), "seed {seed}: {method:#?}\n{text}\n{}", crate::kitchen::stderr(&output));
        assert_eq!(steps(&kitchen), before, "seed {seed}: {method:#?}\n{text}");
    }
}

#[test]
fn what_is_done_at_the_table_and_notes_stay_beside_the_steps() {
    let recipe = "name = \"Dish\"\nmakes = \"4 portions\"\ningredients = [\"1 lemon\", \"1 bunch parsley\"]\nmethod = [\"Slice the lemon. Serve with parsley.\", \"Tip: keep it cool.\"]\n";
    let kitchen = kitchen().household(&appliances(&["bread machine"])).recipe("dish", recipe);
    let card = || json(&kitchen.run(&["--format", "json", "recipe", "dish"]));
    let before = card();
    // What is only used at the table is no part of the first work, and is kept for it at the end.
    assert_eq!(before["steps"][0]["text"], "Slice 1 lemon (110 g). Keep 1 bunch parsley for the table.");
    kitchen.done(&["recipe", "dish", "--steps"]);
    let text = kitchen.text("recipes/dish.toml");
    assert!(text.contains("at_table = [\"Serve with parsley.\"]\nnotes = [\"Tip: keep it cool.\"]\n"), "{text}");
    for key in ["serve", "notes"] {
        assert_eq!(card()[key], before[key], "{key}");
    }
    assert_eq!(card()["steps"][0]["text"], before["steps"][0]["text"]);
    let both = kitchen.recipe("dish", &format!("{recipe}notes = \"Tip: more.\"\n"));
    let said = crate::kitchen::stderr(&both.run(&["recipe", "dish"]));
    assert!(said.contains("notes stands beside [[step]], and this recipe has a method"), "{said}");
}

#[test]
fn headings_and_the_sentence_of_keeping_read_back_beside_the_steps() {
    let recipe = "name = \"Dish\"\nmakes = \"4 portions\"\nkeeps = { fridge = \"3 days\" }\ningredients = [\"1 lemon\", \"1 bunch parsley\"]\nmethod = \"\"\"\nFor the lemon:\nSlice the lemon.\nTo finish:\nChop the parsley. Serve cold: \\\"at once\\\". Keeps for 3 days in the fridge.\nTips\nKeep it {cool}.\nUse it up.\n\"\"\"\n";
    let kitchen = kitchen().household(&appliances(&[])).recipe("dish", recipe);
    let output = kitchen.run(&["--format", "json", "recipe", "dish"]);
    let before = json(&output);
    assert!(!crate::kitchen::stderr(&output).contains("not planned"), "{}", crate::kitchen::stderr(&output));
    assert_eq!(before["steps"][0]["text"], "For the lemon: Slice 1 lemon (110 g).");
    assert!(before["notes"].to_string().contains("Keeps for 3 days in the fridge."), "{before:#}");
    kitchen.done(&["recipe", "dish", "--steps"]);
    let after = json(&kitchen.run(&["--format", "json", "recipe", "dish"]));
    for key in ["serve", "notes", "keeps"] {
        assert_eq!(after[key], before[key], "{key}");
    }
    let texts = |card: &Value| card["steps"].as_array().unwrap().iter().map(|step| step["text"].clone()).collect::<Vec<_>>();
    assert_eq!(texts(&after), texts(&before));
}

#[test]
fn what_is_drained_at_once_is_written_so_and_so_is_cutting_that_grows_with_the_batches() {
    let recipe = "name = \"Dish\"\nmakes = \"4 portions\"\ningredients = [\"1 kg potatoes, peeled and diced\"]\nmethod = [\"Boil the potatoes for 15 minutes. Drain.\"]\n";
    let kitchen = kitchen().household(&appliances(&[])).recipe("dish", recipe);
    let before = steps(&kitchen);
    kitchen.done(&["recipe", "dish", "--steps"]);
    let text = kitchen.text("recipes/dish.toml");
    assert!(text.contains("within = \"2 min\"   # estimated\n") && text.contains("scales = true   # estimated\n"), "{text}");
    assert_eq!(steps(&kitchen), before, "{text}");
}

#[test]
fn comments_above_a_method_in_its_list_and_behind_it_stand_above_the_steps() {
    let recipe = "name = \"Dish\"\nmakes = \"4 portions\"\n# Of the file.\ningredients = [\"1 lemon\"]   # kept\n\n# As it was told.\nmethod = [   # a list\n  # first\n  \"Slice the lemon.\",   # thinly\n  \"Rest for 5 minutes.\",\n  # last\n]   # the end\n";
    let kitchen = kitchen().household(&appliances(&[])).recipe("dish", recipe);
    kitchen.done(&["recipe", "dish", "--steps"]);
    let text = kitchen.text("recipes/dish.toml");
    assert!(text.contains("# As it was told.\n# a list\n# first\n# thinly\n# last\n# the end\n[[step]]\n"), "{text}");
    assert!(text.contains("# Of the file.\ningredients = [\"1 lemon\"]   # kept\n"), "{text}");
}

#[test]
fn what_is_left_of_a_line_for_the_table_reads_back() {
    let recipe = "name = \"Dish\"\nmakes = \"4 portions\"\ningredients = [\"600 g cod\", \"1 lemon\"]\nmethod = [\"Squeeze half the lemon over the cod and bake at 200 °C for 15 minutes. Serve with the remaining lemon.\"]\n";
    let kitchen = kitchen().household(&appliances(&[])).recipe("dish", recipe);
    let before = steps(&kitchen);
    kitchen.done(&["recipe", "dish", "--steps"]);
    assert_eq!(steps(&kitchen), before, "{}", kitchen.text("recipes/dish.toml"));
}
