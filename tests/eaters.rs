//! Who eats: shares, guests, instead, without and away, and what is never served to whom. Every sum is written out.

use pretty_assertions::assert_eq;

use crate::kitchen::{Kitchen, assert_amount, batches, has_line, kitchen, line, stderr};

/// Rosa and Tom eat a portion each, Emil a half, Pim a quarter: 2.75.
const FOUR: &str = r#"
[household]
name = "Test row"
currency = "EUR"
[rules]
boxing = "0 min"
wash = "0 min"
[[eater]]
name = "Rosa"
[[eater]]
name = "Tom"
[[eater]]
name = "Emil"
share = 0.5
allergic = ["sesame"]
[[eater]]
name = "Pim"
share = 0.25
"#;

/// Invented foods whose allergens are known, one that has sesame and one of which nothing is known.
const FOODS: &str = r#"
[[food]]
name = "bluegrain"
allergens = []
[[food]]
name = "redroot"
allergens = []
[[food]]
name = "moonseed paste"
allergens = ["sesame"]
[[food]]
name = "harbour relish"
"#;

/// A mash of 100 g of bluegrain and 20 g of paste a portion, the paste stirred in at the end.
const MASH: &str = r#"
name = "Blue mash"
makes = "4 portions"
batches = "any"
keeps = { fridge = "4 days" }
ingredients = ["400 g bluegrain", "80 g moonseed paste"]
[[step]]
text = "Mash {bluegrain}."
hands = "10 min"
[[step]]
text = "Stir in {moonseed paste}."
hands = "5 min"
"#;

/// The four of them, the foods, the mash, and these meals.
fn four(meals: &str) -> Kitchen {
    kitchen().file("kitchen.toml", FOUR).foods(FOODS).recipe("blue-mash", MASH).meals(meals)
}

fn meal(day: &str, rest: &str) -> String {
    format!("[[meal]]\nday = \"{day}\"\nat = \"supper\"\n{rest}\n")
}

#[track_caller]
fn needs(kitchen: &Kitchen, food: &str, grams: f64) {
    assert_amount(&line(&kitchen.list(), food)["need"], grams, "g");
}

#[track_caller]
fn refused(kitchen: &Kitchen, said: &[&str]) {
    let refusal = kitchen.refusal();
    for words in said {
        assert!(refusal.contains(words), "no \"{words}\" in {refusal}");
    }
}

#[test]
fn a_meal_is_the_sum_of_its_eaters_shares() {
    // 1 + 1 + 0.5 + 0.25 = 2.75 portions of 100 g.
    needs(&four(&meal("mon", "each = [\"100 g bluegrain\"]")), "bluegrain", 275.0);
    // Rosa and Emil: 1.5.
    needs(&four(&meal("mon", "for = [\"Rosa\", \"Emil\"]\neach = [\"100 g bluegrain\"]")), "bluegrain", 150.0);
    // Two guests, each one portion: 4.75.
    needs(&four(&meal("mon", "guests = 2\neach = [\"100 g bluegrain\"]")), "bluegrain", 475.0);
    // A number names nobody, and a guest adds to it: 3.5 + 1.
    needs(&four(&meal("mon", "eaters = 3.5\nguests = 1\neach = [\"100 g bluegrain\"]")), "bluegrain", 450.0);
}

#[test]
fn shares_that_are_no_decimals_add_up_exactly() {
    let thirds = "[household]\nname = \"Test row\"\ncurrency = \"EUR\"\n[[eater]]\nname = \"Ana\"\nshare = 0.1\n[[eater]]\nname = \"Bo\"\nshare = 0.2\n";
    let kitchen = kitchen().file("kitchen.toml", thirds).foods(FOODS).meals(&meal("mon", "each = [\"100 g bluegrain\"]"));
    assert_eq!(line(&kitchen.list(), "bluegrain")["need"]["amount"], 30.0);
}

#[test]
fn guests_add_whole_shares_in_a_kitchen_without_eaters() {
    let one = kitchen().foods(FOODS).meals(&meal("mon", "guests = 2\neach = [\"100 g bluegrain\"]"));
    needs(&one, "bluegrain", 300.0);
}

#[test]
fn instead_takes_the_place_of_all_of_each_and_leaves_what_is_shared() {
    // Each: Rosa, Tom and Pim 2.25 × 100 g. Emil: half of 60 g of redroot. Shared: 550 g for all, redroot 30 + 550.
    let rest = "each = [\"100 g bluegrain\"]\nshared = [\"550 g redroot\"]\ninstead = { Emil = [\"60 g redroot\"] }";
    let kitchen = four(&meal("mon", rest));
    needs(&kitchen, "bluegrain", 225.0);
    needs(&kitchen, "redroot", 580.0);
}

#[test]
fn without_leaves_a_food_away_and_an_eaters_part_of_what_is_shared() {
    // Of 275 g for 2.75, Emil's part is 50 g.
    let rest = "shared = [\"275 g redroot\"]\neach = [\"100 g bluegrain\"]\nwithout = { Emil = [\"redroot\"] }";
    needs(&four(&meal("mon", rest)), "redroot", 225.0);
}

#[test]
fn without_reaches_into_a_dish_and_the_making_has_less_of_that_food_alone() {
    // 2.75 portions: 275 g bluegrain; paste for all but Emil's half: 20 g × 2.25 = 45 g.
    let kitchen = four(&meal("mon", "each = [\"1 portion recipe:blue-mash\"]\nwithout = { Emil = [\"moonseed paste\"] }"));
    needs(&kitchen, "bluegrain", 275.0);
    needs(&kitchen, "moonseed paste", 45.0);
    let prep = kitchen.prep();
    assert!((batches(&prep, 0, "blue-mash") - 2.75 / 4.0).abs() < 1e-9);
    assert!(prep.to_string().contains("Stir in 45 g moonseed paste"), "{prep:#}");
}

#[test]
fn without_reaches_through_components_of_components() {
    // Roots take 100 g of mash a portion, which weighs 100 g; Emil's half has no paste: 20 g × 2.25 = 45 g.
    let mash = MASH.replace("makes = \"4 portions\"", "makes = \"4 portions\"\nportion = \"100 g\"");
    let roots = "name = \"Roots\"\nmakes = \"1 portion\"\nbatches = \"any\"\nkeeps = { fridge = \"2 days\" }\n\
                 ingredients = [\"50 g redroot\", \"1 portion recipe:blue-mash\"]\n\
                 [[step]]\ntext = \"Roast {redroot}.\"\nhands = \"1 min\"\n[[step]]\ntext = \"Top with {recipe:blue-mash}.\"\nhands = \"1 min\"\n";
    let roots = roots.replace("{recipe:blue-mash}", "{blue-mash}");
    let kitchen = four(&meal("mon", "each = [\"1 portion recipe:roots\"]\nwithout = { Emil = [\"moonseed paste\"] }"));
    let kitchen = kitchen.recipe("blue-mash", &mash).recipe("roots", &roots);
    needs(&kitchen, "moonseed paste", 45.0);
    needs(&kitchen, "bluegrain", 275.0);
    needs(&kitchen, "redroot", 137.5);
}

#[test]
fn who_is_away_does_not_eat_and_is_back_the_day_after() {
    // Emil is away on Tuesday and Wednesday: 2.25 + 2.25 and, on Monday and Thursday, 2.75 each: 10 × 10 g.
    let meals: String = ["mon", "tue", "wed", "thu"].iter().map(|day| meal(day, "each = [\"10 g bluegrain\"]")).collect();
    let week = crate::kitchen::SATURDAY_AND_SUNDAY.replacen('\n', "\naway = { Emil = [\"2026-12-01/2026-12-02\"] }\n", 1);
    needs(&four("").week(&format!("{week}{meals}")), "bluegrain", 100.0);
}

#[test]
fn a_weeks_for_is_the_default_of_its_meals() {
    let week = crate::kitchen::SATURDAY_AND_SUNDAY.replacen('\n', "\nfor = [\"Pim\"]\n", 1);
    let meals = meal("mon", "each = [\"100 g bluegrain\"]") + &meal("tue", "for = [\"Rosa\"]\neach = [\"100 g bluegrain\"]");
    needs(&four("").week(&format!("{week}{meals}")), "bluegrain", 125.0);
}

#[test]
fn a_standing_exchange_holds_in_every_meal() {
    let swapped = FOUR.replace("allergic = [\"sesame\"]", "swap = { blue-mash = \"plain-mash\" }");
    let plain =
        MASH.replace("Blue mash", "Plain mash").replace(", \"80 g moonseed paste\"", "").replace("Stir in {moonseed paste}.", "Taste.");
    let kitchen = four(&meal("mon", "each = [\"1 portion recipe:blue-mash\"]"));
    let kitchen = kitchen.file("kitchen.toml", &swapped).recipe("plain-mash", &plain);
    // Paste for 2.25 portions; bluegrain for all 2.75.
    needs(&kitchen, "moonseed paste", 45.0);
    needs(&kitchen, "bluegrain", 275.0);
    let left_away = FOUR.replace("allergic = [\"sesame\"]", "swap = { \"moonseed paste\" = \"\" }");
    needs(&four(&meal("mon", "each = [\"1 portion recipe:blue-mash\"]")).file("kitchen.toml", &left_away), "moonseed paste", 45.0);
}

#[test]
fn what_a_swap_puts_on_the_plate_is_looked_at_though_it_is_exchanged_itself_elsewhere() {
    // Redroot becomes paste, and paste is left out where it is served: Emil is served 50 g of it, and it is what he is allergic to.
    let swap = "allergic = [\"sesame\"]\nswap = { redroot = \"moonseed paste\", \"moonseed paste\" = \"\" }";
    let kitchen = four(&meal("mon", "each = [\"100 g redroot\"]"));
    refused(&kitchen.file("kitchen.toml", &FOUR.replace("allergic = [\"sesame\"]", swap)), &["Mon supper, Emil: moonseed paste: sesame"]);
}

#[test]
fn a_swap_that_leads_back_is_a_mistake() {
    for ring in ["redroot = \"redroot\"", "redroot = \"bluegrain\", bluegrain = \"redroot\""] {
        let swapped = FOUR.replace("allergic = [\"sesame\"]", &format!("swap = {{ {ring} }}"));
        let kitchen = four(&meal("mon", "each = [\"100 g bluegrain\"]")).file("kitchen.toml", &swapped);
        refused(&kitchen, &["a swap that leads back to what it stands in for exchanges nothing"]);
    }
}

#[test]
fn a_number_beside_names_is_a_mistake() {
    for key in ["for = [\"Rosa\"]", "instead = { Emil = [\"1 g redroot\"] }", "without = { Emil = [\"bluegrain\"] }"] {
        refused(&four(&meal("mon", &format!("eaters = 2\n{key}\neach = [\"100 g bluegrain\"]"))), &["eaters stands beside"]);
    }
}

#[test]
fn what_cannot_be_understood_of_who_eats_is_a_mistake_that_names_the_nearest() {
    refused(
        &four(&meal("mon", "for = [\"Emli\"]\neach = [\"100 g bluegrain\"]")),
        &["there is no eater \"Emli\"", "Did you mean \"Emil\"?"],
    );
    // It is one mistake, not two.
    let wrong = four(&meal("mon", "for = [\"Emli\"]\neach = [\"100 g bluegrain\"]")).refusal();
    assert!(!wrong.contains("nobody eats"), "{wrong}");
    refused(&four(&meal("mon", "for = []\neach = [\"100 g bluegrain\"]")), &["nobody eats at this meal"]);
    refused(
        &four(&meal("mon", "each = [\"100 g bluegrain\"]\nwithout = { Emil = [\"redroot\"] }")),
        &["without redroot, which is not served"],
    );
    let kitchen = four(&meal("mon", "each = [\"100 g bluegrain\"]"));
    let kitchen = kitchen.file("kitchen.toml", &FOUR.replace("\"sesame\"", "\"sesmae\""));
    refused(&kitchen, &["\"sesmae\" is no allergen", "Did you mean \"sesame\"?"]);
    let kitchen = kitchen.file("kitchen.toml", &FOUR.replace("\"Tom\"", "\"rosa\""));
    refused(&kitchen, &["two eaters are named \"rosa\""]);
    let kitchen = kitchen.file("kitchen.toml", &FOUR.replace("currency", "eaters = 3\ncurrency"));
    refused(&kitchen, &["the shares of [[eater]] come to 2.75"]);
}

#[test]
fn a_household_whose_number_is_the_sum_of_its_eaters_is_right() {
    let kitchen =
        four(&meal("mon", "each = [\"100 g bluegrain\"]")).file("kitchen.toml", &FOUR.replace("currency", "eaters = 2.75\ncurrency"));
    let output = kitchen.run(&["check"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    assert!(!has_line(&kitchen.list(), "redroot"));
}

#[test]
fn what_an_eater_is_allergic_to_stops_every_verb_and_names_the_whole_chain() {
    let roots = "name = \"Harbour roots\"\nmakes = \"1 portion\"\nbatches = \"any\"\nkeeps = { fridge = \"2 days\" }\n\
                 ingredients = [\"50 g redroot\", \"1 portion recipe:blue-mash\"]\n";
    let kitchen =
        four(&meal("tue", "name = \"Roots for all\"\neach = [\"1 portion recipe:harbour-roots\"]")).recipe("harbour-roots", roots);
    for verb in [vec!["check"], vec!["list"], vec!["prep"], vec!["print"]] {
        let output = kitchen.run(&verb);
        assert_eq!(output.status.code(), Some(1), "{verb:?}: {}", stderr(&output));
        let said = stderr(&output);
        let chain = "Tue supper, Emil: Roots for all > Harbour roots > Blue mash > moonseed paste: sesame";
        for words in [chain, "instead = { Emil = [", "without = { Emil = [\"moonseed paste\"] }", "weeks/week.toml:"] {
            assert!(said.contains(words), "{verb:?} lacks \"{words}\": {said}");
        }
    }
    assert!(!kitchen.path().join("out").exists(), "nothing is printed");
}

#[test]
fn either_way_out_of_an_allergy_is_taken() {
    for out in ["instead = { Emil = [\"100 g redroot\"] }", "without = { Emil = [\"moonseed paste\"] }", "for = [\"Rosa\", \"Tom\"]"] {
        four(&meal("mon", &format!("each = [\"1 portion recipe:blue-mash\"]\n{out}"))).done(&["list"]);
    }
}

#[test]
fn a_number_of_eaters_keeps_everybodys_allergies() {
    refused(&four(&meal("mon", "eaters = 2\neach = [\"10 g moonseed paste\"]")), &["Mon supper, Emil: moonseed paste: sesame"]);
}

#[test]
fn what_the_household_may_not_be_served_holds_for_guests_too() {
    let kitchen = four(&meal("mon", "for = []\nguests = 1\neach = [\"10 g redroot\"]"));
    let kitchen = kitchen.file("kitchen.toml", &FOUR.replace("currency", "allergic = [\"redroot\"]\ncurrency"));
    refused(&kitchen, &["Mon supper, guests: redroot"]);
    let ana = "guests = [{ name = \"Ana\", allergic = [\"bluegrain\"] }]\neach = [\"10 g bluegrain\"]";
    refused(&four(&meal("mon", ana)), &["Mon supper, Ana: bluegrain: bluegrain", "without = { Ana = "]);
}

/// What `check` warns of, having ended with status 0.
#[track_caller]
fn warned(kitchen: &Kitchen) -> String {
    let output = kitchen.run(&["check"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    stderr(&output)
}

#[test]
fn what_is_not_known_is_a_warning_with_the_same_chain_until_the_packet_was_read() {
    let kitchen = four(&meal("mon", "each = [\"10 g harbour relish\"]"));
    let said = warned(&kitchen);
    assert!(said.contains("Mon supper, Emil: harbour relish: not known for Emil whether it has sesame: read the packet."), "{said}");
    assert!(!said.contains("Rosa"), "{said}");
    let read = kitchen.foods(&FOODS.replace("name = \"harbour relish\"", "name = \"harbour relish\"\nallergens = [\"mustard\"]"));
    assert!(!warned(&read).contains("relish"));
}

#[test]
fn a_group_that_does_not_say_which_is_a_warning() {
    let nuts =
        "[[food]]\nname = \"stormnut\"\nkind = \"nut\"\nallergens = [\"nuts\"]\n[[food]]\nname = \"nut crunch\"\nallergens = [\"nuts\"]\n";
    let kitchen = four(&meal("mon", "each = [\"10 g nut crunch\"]")).foods(&format!("{FOODS}{nuts}"));
    let kitchen = kitchen.file("kitchen.toml", &FOUR.replace("\"sesame\"", "\"stormnut\""));
    assert!(warned(&kitchen).contains("Mon supper, Emil: nut crunch: nuts, which may be stormnut."));
    refused(&kitchen.meals(&meal("mon", "each = [\"10 g stormnut\"]")), &["Mon supper, Emil: stormnut: stormnut"]);
}

#[test]
fn what_only_the_words_beside_a_food_name_is_told_to_the_allergic() {
    for (line, what) in [("100 g bluegrain, with moonseed paste", "preparation"), ("100 g bluegrain (or 10 g moonseed paste)", "remark")] {
        let said = warned(&four(&meal("mon", &format!("each = [\"{line}\"]"))));
        let told = format!(
            "the {what} of \"{line}\" names moonseed paste (sesame), which is not among the ingredients: if it is used, Emil may not eat it."
        );
        assert!(said.contains(&told), "{said}");
        assert!(!said.contains("Rosa may not"), "{said}");
    }
    let without = warned(&four(&meal("mon", "each = [\"100 g bluegrain, without moonseed paste\"]")));
    assert!(!without.contains("names moonseed"), "{without}");
}

#[test]
fn what_is_avoided_or_not_eaten_is_a_warning() {
    let foods = FOODS.replacen("allergens = []", "kind = \"raw meat\"\nallergens = []", 1);
    let kitchen = four(&meal("mon", "each = [\"10 g bluegrain\", \"10 g redroot\"]")).foods(&foods);
    let kitchen =
        kitchen.file("kitchen.toml", &FOUR.replace("name = \"Tom\"", "name = \"Tom\"\navoid = [\"redroot\"]\neats = \"no meat\""));
    let said = warned(&kitchen);
    assert!(said.contains("Mon supper, Tom: redroot: redroot, which Tom avoids."), "{said}");
    assert!(said.contains("Mon supper, Tom: bluegrain: Tom eats no meat."), "{said}");
}

/// What `eats` says of lines in which an animal hides: in the fat, the jelly, the sauce, the filling.
fn tom_is_told(eats: &str, foods: &[&str]) -> String {
    let lines: Vec<String> = foods.iter().map(|food| format!("\"10 g {food}\"")).collect();
    let kitchen = four(&meal("mon", &format!("each = [{}]", lines.join(", "))));
    warned(&kitchen.file(
        "kitchen.toml",
        &FOUR.replace("name = \"Tom\"", &format!("name = \"Tom\"\neats = \"{eats}\"")).replace("allergic = [\"sesame\"]", ""),
    ))
}

#[test]
fn meat_that_hides_in_fats_sauces_and_sweets_is_told_or_said_not_to_be_known() {
    let certain = ["lard", "goose fat", "suet", "gelatine", "bolognese sauce", "beef stock cube"];
    let said = tom_is_told("no meat", &certain);
    certain.iter().for_each(|food| assert!(said.contains(&format!("Mon supper, Tom: {food}: Tom eats no meat.")), "{food}: {said}"));
    let maybe = ["red curry paste", "tapenade", "marshmallow", "mincemeat", "frozen dumplings", "frozen pizza", "instant noodle"];
    let said = tom_is_told("no meat", &maybe);
    for food in maybe {
        assert!(said.contains(&format!("{food}: not known whether there is meat or fish in it, which Tom does not eat")), "{food}: {said}");
    }
    let said = tom_is_told("no meat", &["white bread", "ketchup", "cheddar", "soy sauce", "dark chocolate"]);
    assert!(!said.contains("Tom"), "{said}");
}

#[test]
fn what_a_maker_may_take_from_animals_is_said_not_to_be_known_to_who_eats_none_of_it() {
    let said = tom_is_told("no animal", &["gelatine", "honey mustard dressing", "lard"]);
    assert_eq!(said.matches("Tom eats nothing of animals").count(), 3, "{said}");
    let maybe = ["naan", "margarine", "custard powder", "batter mix", "puff pastry", "granola", "marzipan", "crumpet", "bagel"];
    let said = tom_is_told("no animal", &maybe);
    for food in maybe {
        assert!(said.contains(&format!("{food}: not known whether there is anything of animals in it")), "{food}: {said}");
    }
    let said = tom_is_told("no animal", &["plain flour", "olive oil", "ketchup", "vegan mayonnaise", "sugar", "mustard"]);
    assert!(!said.contains("Tom"), "{said}");
}

#[test]
fn honey_is_a_mistake_up_to_the_day_before_the_infant_turns_one() {
    let born = |date: &str| FOUR.replace("name = \"Pim\"", &format!("name = \"Pim\"\nborn = {date}"));
    let kitchen = four(&meal("mon", "each = [\"10 g honey\"]"));
    // Monday is 30 November 2026.
    refused(&kitchen.file("kitchen.toml", &born("2025-12-01")), &["Mon supper, Pim: honey: is never given before 12 months", "CDC"]);
    let kitchen = four(&meal("mon", "each = [\"10 g honey\"]")).file("kitchen.toml", &born("2025-11-30"));
    assert!(!warned(&kitchen).contains("Pim"));
}

#[test]
fn cautions_for_small_children_are_said_once_a_dish_and_week_and_name_the_doctor() {
    let mash = MASH.replace("\"80 g moonseed paste\"", "\"1 tsp salt\"").replace("{moonseed paste}", "{salt}");
    let meals = meal("mon", "each = [\"1 portion recipe:blue-mash\"]") + &meal("tue", "each = [\"1 portion recipe:blue-mash\"]");
    let kitchen = four(&meals).recipe("blue-mash", &mash);
    let kitchen = kitchen.file("kitchen.toml", &FOUR.replace("name = \"Pim\"", "name = \"Pim\"\nborn = 2026-02-20"));
    let said = warned(&kitchen);
    assert_eq!(said.matches("is not added to what an infant eats").count(), 1, "{said}");
    assert!(said.contains("(Pim, 9 months)") && said.contains("Ask the child's doctor."), "{said}");
}

#[test]
fn the_list_says_what_each_eater_gets_and_what_of_the_days_needs() {
    let foods = FOODS.replacen("allergens = []", "allergens = []\nper_100g = { kcal = 200, protein = \"10 g\", fibre = \"4 g\" }", 1);
    let needs = "name = \"Tom\"\nneeds = { kcal = 2000, protein = \"50 g\" }";
    let kitchen =
        four(&meal("mon", "guests = 2\neach = [\"100 g bluegrain\"]\nwithout = { Pim = [\"bluegrain\"] }\nshared = [\"475 g redroot\"]"));
    let kitchen = kitchen.foods(&foods).file("kitchen.toml", &FOUR.replace("name = \"Tom\"", needs));
    let list = kitchen.list();
    let eaters = &list["meals"][0]["eaters"];
    let told = |place: usize| (eaters[place]["name"].clone(), eaters[place]["share"].clone(), eaters[place]["kcal"].clone());
    assert_eq!(told(2), ("Emil".into(), 0.5.into(), 100.0.into()));
    assert_eq!(told(3), ("Pim".into(), 0.25.into(), 0.0.into()));
    assert_eq!(told(4), ("guests".into(), 2.0.into(), 400.0.into()));
    // Redroot has no figures, so it is at least so much.
    assert_eq!(eaters[2]["at_least"], true);
    let day = &list["days"][0];
    assert_eq!((&day["on"], &day["name"], &day["kcal"]), (&"2026-11-30".into(), &"Tom".into(), &200.0.into()));
    assert_eq!((&day["of"]["kcal"], &day["of"]["protein_g"], &day["at_least"]), (&2000.0.into(), &50.0.into(), &true.into()));
    assert_eq!(list["days"].as_array().map(Vec::len), Some(1));
}

#[test]
fn an_eaters_portion_is_set_aside_before_the_step_that_names_the_food() {
    let kitchen = four(&meal("mon", "each = [\"1 portion recipe:blue-mash\"]\nwithout = { Emil = [\"moonseed paste\"] }"));
    let prep = kitchen.prep();
    let tasks = prep["sessions"][0]["tasks"].as_array().expect("tasks").clone();
    let kinds: Vec<(&str, i64, i64)> = tasks
        .iter()
        .map(|task| {
            (
                task["kind"].as_str().unwrap_or("?"),
                task["start_minute"].as_i64().unwrap_or(-1),
                task["hands_minutes"].as_i64().unwrap_or(-1),
            )
        })
        .collect();
    // Mash 10 min, set aside 1 min, stir in 5 min (more for 0.6875 batches is less: the steps scale).
    assert_eq!(kinds.iter().map(|(kind, _, _)| *kind).collect::<Vec<_>>(), ["step", "aside", "step"], "{prep:#}");
    assert_eq!(kinds[1].2, 1);
    assert_eq!((&tasks[1]["eater"], &tasks[1]["recipe"]), (&"Emil".into(), &"blue-mash".into()));
    let text = tasks[1]["text"].as_str().unwrap_or_default();
    assert!(text.starts_with("Take out ½ portion of blue mash for Emil before the moonseed paste"), "{text}");
}

#[test]
fn what_cannot_be_taken_out_any_more_is_a_mistake_that_says_so() {
    let mash = "name = \"Blue mash\"\nmakes = \"4 portions\"\ningredients = [\"400 g bluegrain\", \"80 g moonseed paste\"]\n\
                [[step]]\ntext = \"Mash {bluegrain} with {moonseed paste}.\"\nhands = \"5 min\"\n";
    let kitchen = four(&meal("mon", "each = [\"1 portion recipe:blue-mash\"]\nwithout = { Emil = [\"moonseed paste\"] }"));
    refused(&kitchen.recipe("blue-mash", mash), &["Emil: Blue mash > moonseed paste: no portion can be taken out before it", "instead"]);
}

#[test]
fn what_the_household_avoids_may_be_a_food_or_a_kind_of_food() {
    let foods = FOODS.replacen("allergens = []", "kind = \"seed\"\nallergens = []", 1);
    let kitchen = four(&meal(
        "mon",
        "name = \"Plates\"\neach = [\"1 portion recipe:blue-mash\", \"10 g redroot\"]\nwithout = { Emil = [\"moonseed paste\"] }",
    ));
    let kitchen =
        kitchen.foods(&foods).file("kitchen.toml", &FOUR.replace("currency", "avoid = [\"redroot\", \"seed\", \"milk\"]\ncurrency"));
    let said = warned(&kitchen);
    assert!(said.contains("Plates (Mon supper) contains redroot, seed, which this household avoids."), "{said}");
    assert!(stderr(&kitchen.run(&["list"])).contains("redroot contains redroot, which this household avoids."));
    let typo = kitchen.file("kitchen.toml", &FOUR.replace("currency", "avoid = [\"mushrom\"]\ncurrency"));
    refused(&typo, &["\"mushrom\" is no allergen, no food and no kind of food", "Did you mean \"mushroom\"?"]);
    let never = FOUR.replace("currency", "allergic = [\"seed\"]\ncurrency");
    refused(&typo.file("kitchen.toml", &never), &["Mon supper, Rosa: Plates > Blue mash > bluegrain: seed"]);
}

#[test]
fn an_exchange_of_a_food_inside_a_dish_is_told() {
    let swapped = FOUR.replace("allergic = [\"sesame\"]", "swap = { \"moonseed paste\" = \"redroot\" }");
    let kitchen = four(&meal("mon", "each = [\"1 portion recipe:blue-mash\"]")).file("kitchen.toml", &swapped);
    let said = warned(&kitchen);
    assert!(
        said.contains("Mon supper, Emil: Blue mash > moonseed paste: left out for Emil, and redroot does not take its place"),
        "{said}"
    );
    // Set aside before the step, as without would.
    needs(&kitchen, "moonseed paste", 45.0);
    // As a line of the meal it is exchanged, and nothing is told: Emil's half of 10 g.
    let kitchen = kitchen.meals(&meal("mon", "each = [\"10 g moonseed paste\"]"));
    assert!(!warned(&kitchen).contains("does not take its place"));
    needs(&kitchen, "redroot", 5.0);
    needs(&kitchen, "moonseed paste", 22.5);
}

#[test]
fn what_somebody_under_eighteen_needs_is_left_out_and_told() {
    let young = |born: &str| FOUR.replace("name = \"Pim\"", &format!("name = \"Pim\"\nborn = {born}\nneeds = {{ kcal = 900 }}"));
    let kitchen = four(&meal("mon", "each = [\"10 g redroot\"]")).file("kitchen.toml", &young("2008-12-01"));
    let said = warned(&kitchen);
    assert!(
        said.contains("the needs of Pim (17 years) are left out: they are for adults, nobody under 18. Ask the child's doctor"),
        "{said}"
    );
    assert_eq!(kitchen.list()["days"], serde_json::json!([]));
    let grown = kitchen.file("kitchen.toml", &young("2008-11-30"));
    assert!(!warned(&grown).contains("are left out"));
    assert_eq!(grown.list()["days"][0]["of"]["kcal"], 900.0);
}

#[test]
fn what_is_not_known_for_an_eater_stands_at_the_head_of_the_list() {
    let kitchen = four(&meal("mon", "each = [\"10 g harbour relish\", \"10 g redroot\"]"));
    let list = kitchen.done(&["list"]);
    let told = "Sesame not known for Emil: read the packet of harbour relish (Mon supper).";
    let lines: Vec<&str> = list.lines().filter(|line| !line.trim().is_empty()).collect();
    assert_eq!((lines[1], lines[2].trim()), ("Not known", told), "{list}");
    let read = kitchen.foods(&FOODS.replace("name = \"harbour relish\"", "name = \"harbour relish\"\nallergens = []"));
    assert!(!read.done(&["list"]).contains("Not known"));
}

#[test]
fn what_is_set_aside_has_a_box_of_its_own_with_the_eaters_name() {
    let kitchen = four(&meal("tue", "each = [\"1 portion recipe:blue-mash\"]\nwithout = { Emil = [\"moonseed paste\"] }"));
    let prep = kitchen.prep();
    let boxes = prep["sessions"][0]["boxes"].as_array().expect("boxes").clone();
    let told: Vec<(Option<&str>, f64)> =
        boxes.iter().map(|one| (one["eater"].as_str(), one["portions"].as_f64().unwrap_or(-1.0))).collect();
    // Rosa and Tom 1 each, Pim 1/4; Emil 1/2, without the paste. Batches of any size: nothing is spare.
    assert_eq!(told, [(None, 2.25), (Some("Emil"), 0.5)], "{prep:#}");
}

#[test]
fn an_allergic_eaters_food_is_prepared_before_the_step_that_brings_the_allergen() {
    let plain = "name = \"Plain roots\"\nmakes = \"4 portions\"\nbatches = \"any\"\nkeeps = { fridge = \"4 days\" }\n\
                 ingredients = [\"400 g redroot\"]\n[[step]]\ntext = \"Grate {redroot}.\"\nhands = \"8 min\"\n";
    let first = "each = [\"1 portion recipe:blue-mash\"]\ninstead = { Emil = [\"1 portion recipe:plain-roots\"] }";
    let kitchen = four(&meal("tue", first)).recipe("plain-roots", plain);
    let prep = kitchen.prep();
    let tasks = prep["sessions"][0]["tasks"].as_array().expect("tasks").clone();
    let at = |words: &str| {
        let task = tasks.iter().find(|task| task["text"].as_str().is_some_and(|text| text.contains(words)));
        task.unwrap_or_else(|| panic!("no task with {words}: {prep:#}")).clone()
    };
    let (theirs, brings) = (at("Grate"), at("Stir in"));
    assert!(theirs["end_minute"].as_i64() <= brings["start_minute"].as_i64(), "{prep:#}");
    let note = "After this clean board, knife, pan and hands: Emil is allergic to sesame";
    assert!(brings.to_string().contains(note) || kitchen.done(&["prep"]).contains(note), "{brings:#}");
}

#[test]
fn a_meal_says_its_text_on_the_day() {
    let kitchen = four(&meal("mon", "each = [\"10 g redroot\"]\ntext = \"Set the table for four.\""));
    let day = kitchen.done(&["day", "2026-11-30"]);
    assert!(day.contains("Set the table for four."), "{day}");
}

#[test]
fn the_day_and_the_boxes_say_whose_portion_is_set_aside() {
    let kitchen = four(&meal("mon", "each = [\"1 portion recipe:blue-mash\"]\nwithout = { Emil = [\"moonseed paste\"] }"));
    let day = kitchen.done(&["day", "2026-11-30"]);
    assert!(day.contains("Emil: without moonseed paste"), "{day}");
    let read: serde_json::Value = serde_json::from_str(&kitchen.done(&["day", "2026-11-30", "--format", "json"])).expect("JSON");
    assert!(read["meals"][0]["otherwise"][0].as_str().is_some_and(|told| told.starts_with("Emil: without moonseed paste")), "{read:#}");
    // A day later both are boxed: Emil's own half, and the rest.
    let later = four(&meal("tue", "each = [\"1 portion recipe:blue-mash\"]\nwithout = { Emil = [\"moonseed paste\"] }"));
    let prep = later.done(&["prep"]);
    for words in ["2 boxes for blue mash", "Emil’s own, fridge"] {
        assert!(prep.contains(words), "{words} in {prep}");
    }
}

#[test]
fn a_way_of_eating_that_is_half_a_kind_names_the_kinds() {
    let household = |eats: &str| FOUR.replace("allergic = [\"sesame\"]", &format!("eats = [\"{eats}\"]"));
    for (eats, near) in [
        ("poultry", "Did you mean \"raw poultry\"?"),
        ("fish", "Did you mean \"raw fish\" and \"cooked fish\"?"),
        ("eggs", "Did you mean \"raw egg\" and \"cooked egg\"?"),
    ] {
        refused(&four("").file("kitchen.toml", &household(eats)), &[&format!("\"{eats}\" is no way of eating"), near]);
    }
}

#[test]
fn of_a_meal_that_names_nobody_it_is_not_known_what_somebody_got() {
    let foods = FOODS.replacen("allergens = []", "allergens = []\nper_100g = { kcal = 200, protein = \"10 g\", fibre = \"4 g\" }", 1);
    let meals = meal("mon", "eaters = 3.5\neach = [\"100 g bluegrain\"]") + &meal("tue", "each = [\"100 g bluegrain\"]");
    let needs = FOUR.replace("name = \"Tom\"", "name = \"Tom\"\nneeds = { kcal = 2000, protein = \"50 g\" }");
    let list = four(&meals).foods(&foods).file("kitchen.toml", &needs).list();
    let told = |day: usize| (list["days"][day]["kcal"].as_f64(), list["days"][day]["at_least"].as_bool());
    assert_eq!((told(0), told(1)), ((Some(0.0), Some(true)), (Some(200.0), Some(false))));
}
