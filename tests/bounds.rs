//! Kitchens of a few lines that ask for more work than anybody would do, or in more ways than can be gone through one by one.
//! Tested is the answer, not the time: without a bound these tests would not end.

use pretty_assertions::assert_eq;

use crate::kitchen::{Kitchen, SATURDAY_AND_SUNDAY, assert_amount, kitchen, line, stderr, supper};

const FOODS: &str = "[[food]]\nname = \"bluegrain\"\nallergens = []\nsource = \"the label\"\n[[food]]\nname = \"redseed\"\nallergens = [\"sesame\"]\nsource = \"the label\"\n";

const OVEN: &str = "[[appliance]]\nname = \"oven\"\nheat = true\n";

fn recipe(name: &str, ingredients: &str, step: &str) -> String {
    format!(
        "name = \"{name}\"\nmakes = \"2 portions\"\nbatches = \"any\"\nkeeps = {{ fridge = \"3 days\" }}\ningredients = \"\"\"\n{ingredients}\n\"\"\"\n[[step]]\n{step}\n"
    )
}

fn bake_for(eaters: usize, step: &str) -> Kitchen {
    let bake = format!("text = \"Bake.\"\nhands = \"1 min\"\nwait = \"10 min\"\non = \"oven\"\ntemperature = \"180 °C\"\n{step}");
    let week = format!("eaters = {eaters}\n{SATURDAY_AND_SUNDAY}{}", supper("2026-11-30", "\"1 portion recipe:bake\""));
    kitchen().household(OVEN).foods(FOODS).recipe("bake", &recipe("Moon bake", "100 g bluegrain", &bake)).week(&week)
}

#[test]
fn more_rounds_than_anybody_cooks_are_a_mistake_at_the_step() {
    // Two portions a batch, a batch a round: 100 eaters are 50 rounds, 101 are 51.
    bake_for(100, "").done(&["check"]);
    for (eaters, rounds) in [(101, 51), (3_000, 1_500), (10_000, 5_000)] {
        for verb in ["check", "list", "prep", "print"] {
            let output = bake_for(eaters, "").run(&[verb]);
            assert_eq!(output.status.code(), Some(1));
            let said = stderr(&output);
            let told = format!(
                "error: recipes/bake.toml:8:1: Moon bake would take {rounds} rounds of this step on the oven in the session of Sun 29 Nov, and nobody cooks more than 50. Make less of it, let a batch take less room (takes), or give the appliance more (room).\n"
            );
            assert!(said.starts_with(&told), "{said}");
        }
    }
    assert!(bake_for(2, "takes = 1000").refusal().contains("would take 1000 rounds of this step on the oven"));
}

#[test]
fn more_steps_than_anybody_does_in_a_week_are_a_mistake_at_its_first_session() {
    // Twenty-one steps of 50 rounds each: 1050.
    let steps = |count: usize| "[[step]]\ntext = \"Bake.\"\nwait = \"10 min\"\non = \"oven\"\ntakes = 50\n".repeat(count);
    let bake = |count: usize| {
        let recipe = recipe("Moon bake", "100 g bluegrain", "text = \"Weigh.\"\nhands = \"1 min\"") + &steps(count);
        bake_for(2, "").recipe("bake", &recipe)
    };
    bake(19).done(&["check"]);
    let said = bake(21).refusal();
    assert!(said.contains("weeks/week.toml:"), "{said}");
    assert!(said.contains("the sessions of this week would take 1051 steps, rounds counted, and nobody cooks more than 1000"), "{said}");
}

/// Twenty-five levels, on each of them two dishes that both go into both of the level above: 2^24 ways down to the food.
fn levels(deepest: &str) -> Kitchen {
    const LEVELS: usize = 25;
    let mut kitchen = kitchen().foods(FOODS).meals(&supper("2026-11-30", "\"1 portion recipe:dish-0-a\""));
    for level in 0..LEVELS {
        let below = level + 1;
        let inside = format!("1 portion recipe:dish-{below}-a\n1 portion recipe:dish-{below}-b");
        let inside = if below == LEVELS { deepest } else { &inside };
        for side in ["a", "b"] {
            kitchen = kitchen.recipe(&format!("dish-{level}-{side}"), &recipe(&format!("Dish {level} {side}"), inside, "text = \"Mix.\""));
        }
    }
    kitchen
}

#[test]
fn dishes_that_go_into_one_another_in_millions_of_ways_add_up_and_are_asked_for_allergens() {
    // One portion is half a batch, and half a batch takes half a portion of each dish below: a quarter of a batch of each, which takes a
    // quarter of a portion twice over. So every level makes half a portion of both, and the lowest 2 x 1/4 x 100 g.
    let list = levels("100 g bluegrain").list();
    assert_amount(&line(&list, "bluegrain")["need"], 50.0, "g");

    let household = "[[eater]]\nname = \"Emil\"\nallergic = [\"sesame\"]\n";
    let named = |kitchen: Kitchen| {
        let text = kitchen.text("kitchen.toml").replace("eaters = 1\n", "");
        kitchen.file("kitchen.toml", &format!("{text}{household}"))
    };
    let said = named(levels("100 g redseed")).refusal();
    assert!(said.contains("> redseed: sesame"), "{said}");
    named(levels("100 g bluegrain")).done(&["prep"]);
}

#[test]
fn in_a_very_long_week_a_budget_says_how_many_changes_it_did_not_try() {
    // Seven meals of 300 lines each: 2100 lines that could be left out, and 40000 / 2100 = 19 plans of the week, so twenty are tried; one of
    // them leaves out the shop. The dearest food stands in the last line alone.
    let lines: Vec<String> = (0..299).map(|grams| format!("\"{} g bluegrain\"", grams % 9 + 1)).collect();
    let days: String = (0..7).map(|day| supper(&format!("2026-12-{:02}", day + 1), &lines.join(","))).collect();
    let week = days.replace("2026-12-07", "2026-11-30");
    let last = supper("2026-12-06", "\"100 g redseed\"").replace("supper", "lunch");
    let shop = |food: &str, price: &str| format!("[[pack]]\nshop = \"Stall\"\nfood = \"{food}\"\nloose = true\nprice = \"{price}\"\n");
    let shops = format!("[[shop]]\nname = \"Stall\"\n{}{}", shop("bluegrain", "1.00 / kg"), shop("redseed", "900.00 / kg"));
    let kitchen = kitchen().foods(FOODS).shops(&shops).meals(&format!("{week}{last}"));
    let text = kitchen.text("kitchen.toml").replace("[household]", "[household]\nbudget = \"1.00\"");
    let kitchen = kitchen.file("kitchen.toml", &text);
    let budget = &kitchen.list()["budget"];
    // 7 x 299 + 1 lines and the shop, less twenty.
    assert_eq!(budget["untried"], 7 * 299 + 2 - 20, "{budget}");
    assert!(budget["changes"][0]["change"].to_string().contains("redseed"), "{budget}");
    assert!(kitchen.done(&["list"]).contains("2075 smaller changes were not tried: the week is too long for that"));
}
