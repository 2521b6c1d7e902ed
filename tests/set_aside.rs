//! What is taken out of a dish for one eater: never raw, never left standing, and theirs alone once it lies on the shelf.

use pretty_assertions::assert_eq;
use serde_json::Value;

use crate::kitchen::{Kitchen, OVEN_HOB_AND_COOKER, kitchen, line, stderr};

/// Rosa eats a portion, Emil a half: 1½ portions a meal.
const TWO: &str = "[household]\nname = \"Test row\"\ncurrency = \"EUR\"\n[rules]\nwash = \"0 min\"\ncool = \"0 min\"\n\
                   [[eater]]\nname = \"Rosa\"\n[[eater]]\nname = \"Emil\"\nshare = 0.5\nallergic = [\"sesame\"]\n";

fn dish(head: &str, lines: &[&str], method: &str) -> String {
    let lines = lines.iter().map(|line| format!("\"{line}\"")).collect::<Vec<_>>().join(", ");
    format!("makes = \"4 portions\"\nbatches = \"any\"\n{head}\ningredients = [{lines}]\nmethod = \"\"\"\n{method}\n\"\"\"\n")
}

const KEEPS: &str = "keeps = { fridge = \"3 days\" }";

/// Monday's supper is the dish, Emil's without sesame.
fn supper(dish: &str) -> Kitchen {
    let meal = "[[meal]]\nday = \"mon\"\nat = \"supper\"\neach = [\"1 portion recipe:dish\"]\nwithout = { Emil = [\"sesame seeds\"] }\n";
    kitchen().file("kitchen.toml", &format!("{TWO}{OVEN_HOB_AND_COOKER}")).recipe("dish", &format!("name = \"Dish\"\n{dish}")).meals(meal)
}

#[track_caller]
fn refused(kitchen: &Kitchen, said: &[&str]) {
    let refusal = kitchen.refusal();
    said.iter().for_each(|words| assert!(refusal.contains(words), "no \"{words}\" in {refusal}"));
}

#[test]
fn a_portion_that_a_later_step_would_have_to_cook_is_a_mistake() {
    let bake = "Turn the CHICKEN on a tray.\nScatter with the sesame seeds and bake at 200 °C for 40 minutes.";
    let boil = "Rinse the CHICKEN.\nAdd the sesame seeds and simmer for 60 minutes.";
    for (line, food, method) in [
        ("600 g chicken thighs", "chicken thighs", bake),
        ("600 g minced beef", "beef", bake),
        ("600 g cod fillets", "cod", bake),
        ("6 eggs", "eggs", bake),
        ("300 g dried white beans", "beans", boil),
        ("300 g pearl barley", "barley", boil),
        ("300 g spaghetti", "spaghetti", boil),
        ("600 g potatoes", "potatoes", boil),
    ] {
        let method = method.replace("CHICKEN", food);
        let kitchen = supper(&dish(KEEPS, &[line, "30 g sesame seeds"], &method));
        refused(
            &kitchen,
            &["Mon supper, Emil: Dish > sesame seed: Emil's portion would stay raw: step 2 cooks it together with the sesame"],
        );
        refused(&kitchen, &["instead", "in a step after the last heat of recipes/dish.toml"]);
    }
}

#[test]
fn so_it_is_at_the_meal_by_a_swap_and_on_a_hob_that_nobody_named() {
    let fry = dish(
        "made = \"at the meal\"",
        &["600 g minced beef", "30 g sesame seeds"],
        "Shape the beef.\nScatter with the sesame seeds.\nFry for 10 minutes.",
    );
    let said = ["Emil's portion would stay raw: step 3 cooks it, and the sesame seed goes in before that, with step 2"];
    refused(&supper(&fry), &said);
    refused(&supper(&fry).file("kitchen.toml", TWO), &["would stay raw"]);
    let meal = "[[meal]]\nday = \"mon\"\nat = \"supper\"\neach = [\"1 portion recipe:dish\"]\n";
    let swap = TWO.replace("allergic = [\"sesame\"]", "swap = { \"sesame seeds\" = \"\" }");
    refused(&supper(&fry).file("kitchen.toml", &format!("{swap}{OVEN_HOB_AND_COOKER}")).meals(meal), &["would stay raw"]);
}

#[test]
fn what_was_boiled_already_still_misses_the_baking() {
    let method = "Boil the potatoes for 20 minutes.\nTop with the sesame seeds and bake at 200 °C for 20 minutes.";
    let kitchen = supper(&dish(KEEPS, &["600 g potatoes", "30 g sesame seeds"], method));
    refused(&kitchen, &["Emil's portion would miss the rest of its heat: step 2 cooks it together with the sesame"]);
}

#[test]
fn a_component_of_which_a_part_was_set_aside_is_not_baked_into_the_others_dish_alone() {
    let sauce = dish(KEEPS, &["500 g tomatoes", "30 g sesame seeds"], "Simmer the tomatoes for 20 minutes.\nStir in the sesame seeds.");
    let method = "Brown the beef for 10 minutes, until 71 °C inside.\nTop with the sauce and bake at 200 °C for 30 minutes.";
    let kitchen = supper(&dish(KEEPS, &["400 g minced beef", "2 portions recipe:sauce"], method));
    refused(&kitchen.recipe("sauce", &format!("name = \"Sauce\"\n{sauce}")), &["Emil: Dish > ", "would miss the rest of its heat"]);
}

#[test]
fn what_goes_on_only_at_the_table_is_left_off_the_plate() {
    let method = "Bake the chicken at 200 °C for 40 minutes, until 74 °C inside.\nServe with the sesame seeds.";
    let kitchen = supper(&dish(KEEPS, &["600 g chicken thighs", "30 g sesame seeds"], method));
    // 30 g for 4 portions: for Rosa's one 7.5 g.
    let need = line(&kitchen.list(), "sesame seed")["need"]["amount"].as_f64();
    assert_eq!(need, Some(7.5));
    assert!(tasks(&kitchen, "aside").is_empty(), "nothing is set aside in the session");
}

#[test]
fn what_is_done_and_only_scattered_is_taken_out_before() {
    let method = "Bake the chicken at 200 °C for 40 minutes, until 74 °C inside.\nScatter with the sesame seeds.\nToss with the parsley.";
    let kitchen = supper(&dish(KEEPS, &["600 g chicken thighs", "30 g sesame seeds", "20 g parsley"], method));
    let asides = tasks(&kitchen, "aside");
    let text = asides[0]["text"].as_str().unwrap_or_default();
    assert_eq!(
        text,
        "Take out ½ portion of dish for Emil before the sesame seed. Keep it covered, with clean tools of its own. Give it its part of the parsley."
    );
}

#[test]
fn of_a_component_their_part_goes_to_theirs_alone() {
    // The salad takes 100 g of sauce a portion: 100 g for Rosa's, and 50 g without sesame for Emil's half.
    let sauce = "name = \"Sauce\"\nmakes = \"400 g\"\nbatches = \"any\"\nkeeps = { fridge = \"3 days\" }\n\
                 ingredients = [\"400 g greek yoghurt\", \"40 g sesame seeds\"]\nmethod = \"\"\"\nBeat the yoghurt.\nStir in the sesame seeds.\n\"\"\"\n";
    let salad = dish(KEEPS, &["400 g cucumber", "400 g recipe:sauce"], "Slice the cucumber.\nToss with the sauce.");
    let kitchen = supper(&salad).recipe("sauce", sauce);
    let toss = tasks(&kitchen, "step").into_iter().find(|task| task["recipe"] == "dish" && task["step"] == 2).expect("the tossing");
    assert_eq!(toss["text"], "Toss with 100 g sauce.");
    let texts: Vec<String> = tasks(&kitchen, "aside").iter().filter_map(|task| task["text"].as_str().map(str::to_owned)).collect();
    assert!(texts.iter().any(|text| text.ends_with("Give it of the sauce only what is set aside for Emil.")), "{texts:?}");
}

fn tasks(kitchen: &Kitchen, kind: &str) -> Vec<Value> {
    let prep = kitchen.prep();
    let tasks = prep["sessions"][0]["tasks"].as_array().cloned().unwrap_or_default();
    tasks.into_iter().filter(|task| task["kind"] == kind).collect()
}

const LONG: &str = "Simmer the chicken for 30 minutes, until 74 °C inside.\nStir in the sesame seeds and simmer for 3 hours.";

#[test]
fn a_portion_that_is_done_goes_into_the_cold_within_two_hours_and_not_with_the_rest() {
    let kitchen = supper(&dish(KEEPS, &["300 g chicken thighs", "30 g sesame seeds"], LONG));
    let (aside, simmer, boxes) = (tasks(&kitchen, "aside"), tasks(&kitchen, "step"), tasks(&kitchen, "box"));
    let minute = |task: &Value, key: &str| task[key].as_i64().unwrap_or(-1);
    let off_the_heat = minute(&simmer[0], "end_minute");
    assert!((off_the_heat..=off_the_heat + 120).contains(&minute(&aside[0], "start_minute")), "{aside:?}");
    let text = aside[0]["text"].as_str().unwrap_or_default();
    assert!(text.ends_with("Box it at once, with clean tools of its own: ½ portion to the fridge."), "{text}");
    assert_eq!(boxes[0]["text"], "Box and chill dish: 1 portion to the fridge");
    // The guide tells both when they are to be cold: Emil's two hours after 30 minutes of simmering, the rest after the three hours.
    let guide = kitchen.done(&["prep"]);
    assert_eq!(guide.matches("in the fridge by").count(), 2, "{guide}");
}

#[test]
fn a_portion_for_the_sessions_own_supper_is_chilled_and_heated_again() {
    let dish = dish("made = \"at the meal\"", &["300 g chicken thighs", "30 g sesame seeds"], LONG);
    let card = supper(&dish);
    let output = card.run_on("2026-11-30", &["day"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
}

#[test]
fn a_chilled_portion_for_the_sessions_own_supper_is_in_no_pot() {
    let dish = dish(&format!("serve = \"hot\"\n{KEEPS}"), &["300 g chicken thighs", "30 g sesame seeds"], LONG);
    let week = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-30T14:00\nfinish_by = \"18:00\"\npeople = [\"cook\"]\n\
                [[meal]]\nday = \"mon\"\nat = \"supper\"\neach = [\"1 portion recipe:dish\"]\nwithout = { Emil = [\"sesame seeds\"] }\n";
    let kitchen = supper(&dish).week(week);
    let guide = kitchen.done(&["prep"]);
    assert!(guide.split_whitespace().collect::<Vec<_>>().join(" ").contains("Chill it at once"), "{guide}");
    let day = kitchen.done_on("2026-11-30", &["day"]);
    assert!(day.contains("Dish, for Emil, without sesame seed, ½ portion, fridge: heat to 74 °C"), "{day}");
    assert!(day.contains("Dish, 1 portion, straight from the pot"), "{day}");
}

#[test]
fn two_portions_of_one_eater_that_lack_different_things_are_two_boxes() {
    // Monday without sesame, set aside before it; Tuesday without parsley as well.
    let method = format!("{LONG}\nToss with the parsley.");
    let dish = dish(KEEPS, &["300 g chicken thighs", "30 g sesame seeds", "20 g parsley"], &method);
    let supper_on = |day: &str, without: &str| {
        format!("[[meal]]\nday = \"{day}\"\nat = \"supper\"\neach = [\"1 portion recipe:dish\"]\nwithout = {{ Emil = [{without}] }}\n")
    };
    let meals = supper_on("mon", "\"sesame seeds\"") + &supper_on("tue", "\"sesame seeds\", \"parsley\"");
    let kitchen = supper(&dish).meals(&meals);
    let told: Vec<Value> = tasks(&kitchen, "aside");
    assert_eq!(told.len(), 2, "{told:?}");
    let guide = kitchen.done(&["prep"]);
    assert!(guide.contains("3 boxes for dish"), "{guide}");
    assert!(!guide.contains("Of it"), "{guide}");
}

const MASH: &str = "Boil the potatoes for 20 minutes.\nMash with the sesame seeds.";

/// Monday's mash for both, Emil's without sesame, and Tuesday's for Rosa alone: 1 + ½ + 1 portions.
fn mash_for_two_days() -> Kitchen {
    let dish = dish(KEEPS, &["600 g potatoes", "60 g sesame seeds"], MASH);
    let meals = "[[meal]]\nday = \"mon\"\nat = \"supper\"\neach = [\"1 portion recipe:dish\"]\nwithout = { Emil = [\"sesame seeds\"] }\n\
                 [[meal]]\nday = \"tue\"\nat = \"supper\"\nfor = [\"Rosa\"]\neach = [\"1 portion recipe:dish\"]\n";
    let lots = "[[lot]]\nfood = \"potatoes\"\namount = \"2 kg\"\nplace = \"cupboard\"\n\
                [[lot]]\nfood = \"sesame seeds\"\namount = \"200 g\"\nplace = \"cupboard\"\n";
    supper(&dish).meals(meals).pantry(lots)
}

/// (whose, portions) of every cooked lot in the fridge.
fn fridge(kitchen: &Kitchen, today: &str) -> Vec<(Option<String>, f64)> {
    let stock: Value = serde_json::from_str(&kitchen.done_on(today, &["--format", "json", "stock"])).expect("JSON");
    let lots = stock["places"][1]["lots"].as_array().cloned().unwrap_or_default();
    lots.iter().map(|lot| (lot["eater"].as_str().map(str::to_owned), lot["amount"]["amount"].as_f64().unwrap_or(-1.0))).collect()
}

fn emils(portions: f64) -> (Option<String>, f64) {
    (Some("Emil".to_owned()), portions)
}

#[test]
fn what_was_set_aside_lies_on_the_shelf_as_theirs_and_serves_their_meal() {
    let kitchen = mash_for_two_days();
    kitchen.done_on("2026-11-29", &["issue"]);
    let pantry = kitchen.text("pantry.toml");
    assert!(pantry.contains("eater = \"Emil\"\nwithout = [\"sesame seed\"]\namount = \"0.5 portion\""), "{pantry}");
    assert_eq!(fridge(&kitchen, "2026-11-30"), [(None, 2.0), emils(0.5)]);
    let list = kitchen.list_on("2026-11-30");
    let emils_own =
        list["from_pantry"].as_array().into_iter().flatten().filter(|one| one["eater"] == "Emil" && one["without"][0] == "sesame seed");
    assert_eq!(emils_own.count(), 1, "{:#}", list["from_pantry"]);
    let told = kitchen.done_on("2026-11-30", &["list"]);
    assert!(told.contains("Dish, for Emil, without sesame seed"), "{told}");
    assert_eq!(list["short"].as_array().map(Vec::len), Some(0), "{:#}", list["short"]);
    let day = kitchen.done_on("2026-11-30", &["day"]);
    assert!(day.contains("Take out: Dish, 1 portion, fridge"), "{day}");
    assert!(day.contains("Take out: Dish, for Emil, without sesame seed, ½ portion, fridge"), "{day}");
    let stock = kitchen.done_on("2026-11-30", &["stock"]);
    assert!(stock.contains("Dish, for Emil, without sesame seed"), "{stock}");
    let look = kitchen.done_on("2026-11-30", &["--format", "json", "look"]);
    let look: Value = serde_json::from_str(&look).expect("JSON");
    let asked = look["asked"].as_array().cloned().unwrap_or_default();
    assert!(asked.iter().any(|lot| lot["eater"] == "Emil" && lot["without"][0] == "sesame seed"), "{look:#}");
    // Monday's supper eats one of the two portions, and Emil's half.
    kitchen.done_on("2026-11-30", &["issue", "--meal", "mon supper"]);
    assert_eq!(fridge(&kitchen, "2026-11-30"), [(None, 1.0)]);
}

#[test]
fn nobody_elses_meal_draws_it() {
    let kitchen = mash_for_two_days();
    kitchen.done_on("2026-11-29", &["issue"]);
    // All but Emil's is gone: the portions that everybody has are thrown away first.
    kitchen.done_on("2026-11-30", &["waste", "2 portions recipe:dish", "--why", "spoilt"]);
    assert_eq!(fridge(&kitchen, "2026-11-30"), [emils(0.5)]);
    let short = kitchen.list_on("2026-11-30")["short"].clone();
    let amounts: Vec<f64> = short.as_array().into_iter().flatten().filter_map(|one| one["amount"]["amount"].as_f64()).collect();
    assert_eq!(amounts, [1.0, 1.0], "Rosa's on both days, and not Emil's half: {short:#}");
}

#[test]
fn a_session_that_nobody_booked_left_it_all_the_same() {
    let kitchen = mash_for_two_days();
    kitchen.done(&["print"]);
    let list = kitchen.list_on("2026-11-30");
    assert_eq!(list["short"].as_array().map(Vec::len), Some(0), "{:#}", list["short"]);
}

#[test]
fn the_count_sheet_knows_it_by_whose_it_is_and_undo_puts_it_back() {
    let kitchen = mash_for_two_days();
    kitchen.done_on("2026-11-29", &["issue"]);
    kitchen.done_on("2026-11-30", &["count", "--sheet"]);
    let name = "sheets/count-2026-11-30.toml";
    let sheet = kitchen.text(name);
    assert!(sheet.contains("eater = \"Emil\"\nwithout = [\"sesame seed\"]"), "{sheet}");
    let (before, emil) = sheet.split_once("eater = \"Emil\"").expect("Emil's lot");
    let counted = format!("{before}eater = \"Emil\"{}", emil.replacen("counted = \"\"", "counted = \"0\"", 1));
    let kitchen = kitchen.file("counted.toml", &counted);
    kitchen.done_on("2026-11-30", &["count", "counted.toml"]);
    assert_eq!(fridge(&kitchen, "2026-11-30"), [(None, 2.0)]);
    // What is missing is named as theirs, and nobody takes it for the dish that everybody has.
    let day = kitchen.done_on("2026-11-30", &["day"]);
    assert!(day.contains("½ portion of Dish, for Emil, without sesame seed"), "{day}");
    kitchen.done_on("2026-11-30", &["undo"]);
    assert_eq!(fridge(&kitchen, "2026-11-30"), [(None, 2.0), emils(0.5)]);
}

#[test]
fn a_lot_that_is_nobodys_alone_lacks_nothing_and_a_food_is_nobodys_alone() {
    let lot = |rest: &str| format!("[[lot]]\namount = \"1 portion\"\nplace = \"fridge\"\n{rest}\n");
    refused(
        &mash_for_two_days().pantry(&lot("recipe = \"dish\"\nwithout = [\"sesame seeds\"]")),
        &["without needs whose it is", "eater ="],
    );
    refused(
        &mash_for_two_days().pantry(&lot("recipe = \"dish\"\neater = \"Emil\"")),
        &["what is one eater's alone lacks something", "or take eater out"],
    );
    let food = "[[lot]]\nfood = \"potatoes\"\namount = \"1 kg\"\nplace = \"fridge\"\neater = \"Emil\"\n";
    refused(&mash_for_two_days().pantry(food), &["a food is nobody's alone"]);
}

#[test]
fn a_portion_for_somebody_whom_the_household_does_not_have_is_told() {
    let lot = |eater: &str| {
        format!(
            "[[lot]]\nrecipe = \"dish\"\neater = \"{eater}\"\nwithout = [\"sesame seeds\"]\namount = \"1 portion\"\nplace = \"fridge\"\n"
        )
    };
    let told = |eater: &str| stderr(&mash_for_two_days().pantry(&lot(eater)).run(&["check"]));
    let said = told("Emli");
    assert!(
        said.contains(
            "pantry.toml:1:1: \"Emli\" is none of the household's eaters, so that no meal takes this portion. Did you mean \"Emil\"?"
        ),
        "{said}"
    );
    assert!(told("Wanda").contains("no meal takes this portion. Where everybody may have it"), "{}", told("Wanda"));
    assert!(!told("Emil").contains("none of the household's eaters"));
}

#[test]
fn where_nobody_gets_a_food_nothing_is_taken_out_before_it() {
    let both = TWO.replacen("name = \"Rosa\"", "name = \"Rosa\"\nallergic = [\"sesame\"]", 1);
    let meal = "[[meal]]\nday = \"mon\"\nat = \"supper\"\neach = [\"1 portion recipe:dish\"]\n\
                without = { Emil = [\"sesame seeds\"], Rosa = [\"sesame seeds\"] }\n";
    let mash = dish(KEEPS, &["600 g bluegrain", "30 g sesame seeds"], "Mash the bluegrain.\nStir in the sesame seeds.");
    let food = "[[food]]\nname = \"bluegrain\"\nallergens = []\nsource = \"weighed at home\"\n";
    let kitchen = supper(&mash).file("kitchen.toml", &format!("{both}{OVEN_HOB_AND_COOKER}")).foods(food).meals(meal);
    assert_eq!(tasks(&kitchen, "aside"), Vec::<Value>::new());
    let steps: Vec<String> = tasks(&kitchen, "step").iter().filter_map(|task| task["text"].as_str().map(str::to_owned)).collect();
    assert_eq!(steps[1], "Stir in no sesame seeds.");
    let cautions = kitchen.prep()["sessions"][0]["cautions"].to_string();
    assert!(!cautions.contains("Allergens. Dish: sesame") && !cautions.contains("is allergic to"), "{cautions}");
}

#[test]
fn the_minute_of_what_is_set_aside_counts_at_the_meal() {
    // 8 and 8 minutes for four portions, 1½ of them: 3 and 3, and one for Emil's. Supper is at 18:30.
    let mash = "makes = \"4 portions\"\nbatches = \"any\"\nmade = \"at the meal\"\ningredients = [\"600 g bluegrain\", \"30 g sesame seeds\"]\n\
                [[step]]\ntext = \"Mash {bluegrain}.\"\nhands = \"8 min\"\n[[step]]\ntext = \"Stir in {sesame seeds}.\"\nhands = \"8 min\"\n";
    let food = "[[food]]\nname = \"bluegrain\"\nallergens = []\nsource = \"weighed at home\"\n";
    let begin = |kitchen: &Kitchen| {
        crate::kitchen::json(&kitchen.run_on("2026-11-30", &["--format", "json", "day"]))["meals"][0]["begin_by"].clone()
    };
    let kitchen = supper(mash).foods(food);
    assert_eq!(begin(&kitchen), "2026-11-30T18:23");
    let all = "[[meal]]\nday = \"mon\"\nat = \"supper\"\neach = [\"1 portion recipe:dish\"]\n";
    let without_allergy = TWO.replace("allergic = [\"sesame\"]", "");
    let kitchen = kitchen.file("kitchen.toml", &format!("{without_allergy}{OVEN_HOB_AND_COOKER}")).meals(all);
    assert_eq!(begin(&kitchen), "2026-11-30T18:24");
}

#[test]
fn nobody_is_told_to_make_theirs_first_where_no_plan_can() {
    // Emil's plain dish comes after the one with sesame.
    let with = "makes = \"4 portions\"\nbatches = \"any\"\nkeeps = { fridge = \"3 days\" }\ningredients = [\"30 g sesame seeds\"]\n\
                [[step]]\ntext = \"Grind {sesame seeds}.\"\nhands = \"5 min\"\n";
    let plain = |after: &str| {
        format!(
            "name = \"Plain\"\nmakes = \"4 portions\"\nbatches = \"any\"\nkeeps = {{ fridge = \"3 days\" }}\ningredients = [\"200 g bluegrain\"]\n\
             [[step]]\ntext = \"Mash {{bluegrain}}.\"\nhands = \"5 min\"\n{after}"
        )
    };
    let food = "[[food]]\nname = \"bluegrain\"\nallergens = []\nsource = \"weighed at home\"\n";
    let meal =
        "[[meal]]\nday = \"mon\"\nat = \"supper\"\neach = [\"1 portion recipe:dish\"]\ninstead = { Emil = [\"1 portion recipe:plain\"] }\n";
    let cautions = |after: &str| {
        let kitchen = supper(with).foods(food).recipe("plain", &plain(after)).meals(meal);
        kitchen.prep()["sessions"][0]["cautions"].to_string()
    };
    assert!(cautions("").contains("Make what Emil eats first (Plain)"));
    let told = cautions("after = [\"recipe:dish\"]\n");
    assert!(told.contains("Not all that Emil eats can be made first (Plain)") && !told.contains("Make what"), "{told}");
}

#[test]
fn washing_after_raw_meat_counts_at_the_meal_and_the_oven_warms_up_first() {
    // 8 minutes of hands, which do not grow with the load of an oven, 3 of washing, 30 in it, 10 until it is hot: 51 before 18:30.
    let roast = "makes = \"4 portions\"\nbatches = \"any\"\nmade = \"at the meal\"\ningredients = [\"600 g chicken thighs\"]\n\
                 [[step]]\ntext = \"Roast {chicken thighs}.\"\nhands = \"8 min\"\nwait = \"30 min\"\non = \"oven\"\ntemperature = \"200 °C\"\ninside = \"74 °C\"\n";
    let meal = "[[meal]]\nday = \"mon\"\nat = \"supper\"\neach = [\"1 portion recipe:dish\"]\n";
    let washed = TWO.replace("wash = \"0 min\"", "wash = \"3 min\"");
    let kitchen = supper(roast).file("kitchen.toml", &format!("{washed}{OVEN_HOB_AND_COOKER}")).meals(meal);
    let day = crate::kitchen::json(&kitchen.run_on("2026-11-30", &["--format", "json", "day"]));
    assert_eq!(day["meals"][0]["begin_by"], "2026-11-30T17:39");
}
