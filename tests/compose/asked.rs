//! What is asked for: the cheapest, another, one meal anew, from the shelf, how many.

use pretty_assertions::assert_eq;
use serde_json::json;

use super::{composed, each, open, stall};

#[test]
fn the_cheapest_meal_is_proposed_and_proven() {
    // Spelk 1.00 and lubb 0.50.
    let kitchen = stall().meals(&open("2026-12-01", ""));
    let proposal = composed(&kitchen, &[]);
    assert_eq!(each(&proposal), [["1 portion recipe:spelk-pot", "100 g lubb"]]);
    assert_eq!(proposal["net_cost"], "1.50");
    assert_eq!(proposal["bound"], "1.50");
    assert_eq!(proposal["proven"], true);
    assert_eq!(proposal["meals"][0]["pattern"], "Plate");
    assert_eq!(proposal["meals"][0]["on"], "2026-12-01");
    assert_eq!(proposal["meals"][0]["at"], "18:30");
    assert_eq!(proposal["recipes"], json!(["spelk-pot"]));
    assert_eq!(
        proposal["sessions"],
        json!([{ "start": "2026-11-29T14:00:00", "minutes": 10 }]).as_array().map(|_| proposal["sessions"].clone()).unwrap()
    );
}

#[test]
fn the_same_meal_stands_two_days_apart() {
    // Monday 1.50; Tuesday differs by the cheaper change: brack and lubb, 2.50.
    let kitchen = stall().meals(&(open("2026-12-01", "") + &open("2026-12-02", "")));
    let proposal = composed(&kitchen, &[]);
    assert_eq!(proposal["net_cost"], "4.00");
    let apart = stall().meals(&(open("2026-12-01", "") + &open("2026-12-03", "")));
    assert_eq!(composed(&apart, &[])["net_cost"], "3.00");
}

#[test]
fn open_meals_are_left_out_with_one_warning() {
    let kitchen = stall().meals(&(open("2026-12-01", "") + &open("2026-12-02", "")));
    for verb in [vec!["list"], vec!["prep"], vec!["print", "--only", "list"]] {
        let output = kitchen.run(&verb);
        assert_eq!(output.status.code(), Some(0));
        let said = crate::kitchen::stderr(&output);
        assert_eq!(said.lines().filter(|line| line.contains("Tue supper and Wed supper are open")).count(), 1, "{said}");
    }
    assert_eq!(kitchen.list()["cost"], "0.00");
}

#[test]
fn what_goes_off_on_the_shelf_is_used() {
    // Unused, 100 g of fenk is worth 3.00: with it 1.00, without it 1.50 + 3.00.
    let kitchen = stall()
        .pantry("[[lot]]\nfood = \"fenk\"\namount = \"100 g\"\nplace = \"fridge\"\nuse_by = 2026-12-01\n")
        .meals(&(open("2026-12-01", "") + "[[meal]]\non = 2026-12-03\nat = \"supper\"\neach = [\"100 g lubb\"]\n"));
    let proposal = composed(&kitchen, &[]);
    assert_eq!(each(&proposal)[0][1], "100 g fenk");
    assert_eq!(proposal["net_cost"], "1.50");
    assert_eq!(proposal["meals"][0]["why"][0], "uses 100 g fenk, good until Tue");
}

#[test]
fn a_reason_tells_what_its_own_meal_takes_of_a_lot() {
    // One lot of 250 g: the pot of Tuesday and Thursday takes 100 g for each, Friday's brack pot 50 g.
    let brack = super::dish("Brack pot", "brack", "").replace("100 g brack", "50 g spelk");
    let kitchen = stall()
        .recipe("brack-pot", &brack)
        .pantry("[[lot]]\nfood = \"spelk\"\namount = \"250 g\"\nplace = \"fridge\"\nuse_by = 2026-12-02\n")
        .meals(&format!(
            "{}{}{}",
            open("2026-12-01", "").replace("open = true", "each = [\"1 portion any:grain\", \"100 g fenk\"]"),
            crate::kitchen::supper("2026-12-03", "\"1 portion recipe:spelk-pot\""),
            crate::kitchen::supper("2026-12-04", "\"1 portion recipe:brack-pot\""),
        ));
    let proposal = composed(&kitchen, &[]);
    assert_eq!(each(&proposal)[0][0], "1 portion recipe:spelk-pot");
    assert_eq!(proposal["meals"][0]["why"][0], "uses 100 g spelk, good until Wed");
}

#[test]
fn another_differs_in_two_meals_again_and_again() {
    let kitchen = stall().meals(&(open("2026-12-01", "") + &open("2026-12-03", "")));
    let first = each(&composed(&kitchen, &[]));
    let second = each(&composed(&kitchen, &["--another"]));
    let third = each(&composed(&kitchen, &["--another", "--another"]));
    for (one, other) in [(&first, &second), (&first, &third), (&second, &third)] {
        assert_eq!(one.iter().zip(other).filter(|(one, other)| one != other).count(), 2, "{one:?} {other:?}");
    }
}

#[test]
fn a_dish_that_soaks_before_its_trip_is_not_proposed() {
    // Spelk soaks from 02:00 of the 29th, and its trip is on that day: brack, 2.00, with lubb, 0.50. Bought a day earlier, spelk: 1.00.
    let soaked = super::dish("Spelk pot", "spelk", "") + "[[step]]\ntext = \"Soak.\"\nhands = \"1 min\"\n";
    let soaked = soaked.replace("text = \"Cook.\"\nhands = \"10 min\"", "text = \"Soak the {spelk}.\"\nahead = \"12 h\"");
    let week = |on: &str| {
        format!(
            "from = 2026-11-30\n[[trip]]\non = {on}\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n{}",
            open("2026-12-01", "")
        )
    };
    let proposed = |on: &str| composed(&stall().recipe("spelk-pot", &soaked).week(&week(on)), &[])["net_cost"].clone();
    assert_eq!(proposed("2026-11-29"), "2.50");
    assert_eq!(proposed("2026-11-28"), "1.50");
}

#[test]
fn a_meal_that_stays_open_from_the_shelf_says_which_wish_keeps_out_what_lies_there() {
    let pot =
        |more: &str| format!("[[lot]]\nrecipe = \"spelk-pot\"\namount = \"4 portions\"\nplace = \"fridge\"\nmade = 2026-11-28\n{more}");
    let lubb = "[[lot]]\nfood = \"lubb\"\namount = \"400 g\"\nplace = \"cupboard\"\n";
    let week = |compose: &str, meals: String| {
        format!(
            "from = 2026-11-30\n[compose]\n{compose}\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n{meals}"
        )
    };
    let why = |compose: &str, pantry: &str, days: &[&str]| {
        let meals = days.iter().map(|day| open(day, "")).collect();
        let proposal = composed(&stall().pantry(pantry).week(&week(compose, meals)), &["--from-shelf"]);
        proposal["open"][0]["why"].as_str().unwrap_or_default().to_owned()
    };
    let both = pot(lubb);
    let two = ["2026-12-01", "2026-12-02"];
    assert_eq!(why("", &both, &two), "what the shelf holds for it is kept out by same_again_after: 2 days");
    assert_eq!(
        why("same_again_after = \"1 day\"\none_at_most = 1", &both, &two),
        "what the shelf holds for it is kept out by one_at_most: 1"
    );
    // Made on the 28th, it keeps five days.
    assert_eq!(why("", &both, &["2026-12-05"]), "what lies on the shelf is not good until then");
    assert_eq!(why("", &pot(""), &["2026-12-01"]), "the shelf does not hold enough for any of its patterns");
}

#[test]
fn one_meal_is_filled_anew_and_the_rest_held() {
    let kitchen = stall().meals(&(open("2026-12-01", "") + &open("2026-12-03", "")));
    let first = each(&composed(&kitchen, &[]));
    let anew = each(&composed(&kitchen, &["--refill", "thu supper"]));
    assert_eq!(first[0], anew[0]);
    assert_eq!(anew[1], ["1 portion recipe:brack-pot", "100 g lubb"]);
}

#[test]
fn from_the_shelf_nothing_is_bought_and_the_rest_stays_open() {
    let lots = "[[lot]]\nfood = \"spelk\"\namount = \"100 g\"\nplace = \"cupboard\"\n[[lot]]\nfood = \"fenk\"\namount = \"100 g\"\nplace = \"cupboard\"\n";
    let kitchen = stall().pantry(lots).meals(&(open("2026-12-01", "") + &open("2026-12-03", "")));
    let proposal = composed(&kitchen, &["--from-shelf"]);
    assert_eq!(each(&proposal), [["1 portion recipe:spelk-pot", "100 g fenk"]]);
    assert_eq!(proposal["open"].as_array().unwrap().len(), 1);
    assert!(proposal["open"][0]["why"].as_str().unwrap().contains("shelf"));
    assert_eq!(proposal["cost"], "0.00");
}

#[test]
fn meals_are_counted_from_what_lies_there_and_what_is_cooked() {
    // Spelk is cooked for Monday, both sides lie on the shelf: two plates.
    let lots = "[[lot]]\nfood = \"lubb\"\namount = \"100 g\"\nplace = \"cupboard\"\n[[lot]]\nfood = \"fenk\"\namount = \"100 g\"\nplace = \"cupboard\"\n";
    let kitchen = stall().pantry(lots).meals(&crate::kitchen::supper("2026-12-01", "\"1 portion recipe:spelk-pot\""));
    assert_eq!(composed(&kitchen, &["--count"])["count"], 2);
}

#[test]
fn a_pattern_alone_and_a_line_with_a_place_are_open_too() {
    let meals = "[[meal]]\non = 2026-12-01\nat = \"supper\"\npattern = \"Plate\"\n[[meal]]\non = 2026-12-03\nat = \"supper\"\neach = [\"1 portion any:grain\", \"50 g fenk\"]\n";
    let proposal = composed(&stall().meals(meals), &[]);
    assert_eq!(each(&proposal)[1], ["1 portion recipe:spelk-pot", "50 g fenk"]);
    assert_eq!(proposal["meals"][1]["pattern"], json!(null));
}

#[test]
fn an_eater_s_allergies_avoids_and_eats_are_kept() {
    let eater = |keys: &str| format!("[[eater]]\nname = \"Ana\"\n{keys}\n");
    let kitchen = |keys: &str| {
        stall()
            .file("kitchen.toml", &format!("[household]\nname = \"Row\"\ncurrency = \"EUR\"\n{}", eater(keys)))
            .meals(&open("2026-12-01", ""))
    };
    let lubb = kitchen("allergic = [\"gluten\"]\navoid = [\"lubb\"]");
    assert_eq!(each(&composed(&lubb, &[])), [["1 portion recipe:spelk-pot", "100 g fenk"]]);
}

#[test]
fn where_ways_are_cut_the_bound_counts_every_filling() {
    // Three of thirty sides: more ways than are held. The last two sides cost 0.01 each, the others 1.00: two of them and one make 1.02.
    let (mut foods, mut shops) = (String::new(), String::from("[[shop]]\nname = \"Stall\"\nsections = [\"All\"]\n"));
    for side in 0..30 {
        let price = if side < 28 { "1.00" } else { "0.01" };
        foods.push_str(&format!("[[food]]\nname = \"side {side}\"\nfits = [\"beside\"]\nserving = \"100 g\"\nallergens = []\n"));
        shops.push_str(&format!("[[pack]]\nshop = \"Stall\"\nfood = \"side {side}\"\nsize = \"100 g\"\nprice = {price}\n"));
    }
    let three = "[[pattern]]\nname = \"Three\"\neach = [\"1 portion any:beside\", \"1 portion any:beside\", \"1 portion any:beside\"]\n";
    let kitchen = crate::kitchen::kitchen().foods(&foods).shops(&shops).file("meals.toml", three).meals(&open("2026-12-01", ""));
    let proposal = composed(&kitchen, &["--effort", "low"]);
    assert_eq!(proposal["proven"], false);
    let bound: f64 = proposal["bound"].as_str().unwrap().parse().unwrap();
    assert!(bound <= 1.02, "{bound}");
}

#[test]
fn parts_of_one_batch_are_halves_only_where_they_are_equal() {
    let pot = "name = \"Spelk pot\"\nmakes = \"8 pieces\"\nbatches = \"any\"\nkeeps = { fridge = \"5 days\" }\ningredients = \"100 g spelk\"\n\
               [[step]]\ntext = \"Cook.\"\nhands = \"10 min\"\n";
    let patterns = "[[pattern]]\nname = \"Plate\"\neach = [\"2 pieces recipe:spelk-pot\", \"1 portion any:beside\"]\n";
    let kitchen = |written: &str| {
        let written = crate::kitchen::supper("2026-11-30", &format!("\"{written} recipe:spelk-pot\""));
        stall().recipe("spelk-pot", pot).file("meals.toml", patterns).meals(&(written + &open("2026-12-02", "")))
    };
    let why = |written: &str| composed(&kitchen(written), &[])["meals"][0]["why"][0].clone();
    assert_eq!(why("2 pieces"), "second half of Sunday's spelk pot");
    assert_eq!(why("1 piece"), "the rest of Sunday's spelk pot");
}

#[test]
fn pieces_from_the_freezer_are_told_as_pieces() {
    let pot = "name = \"Flatbreads\"\nmakes = \"8 pieces\"\nkeeps = { fridge = \"2 days\", freezer = \"90 days\" }\ningredients = \"100 g spelk\"\n\
               [[step]]\ntext = \"Fry.\"\nhands = \"10 min\"\n";
    let patterns = "[[pattern]]\nname = \"Plate\"\neach = [\"2 pieces recipe:flatbreads\", \"1 portion any:beside\"]\n";
    let kitchen = |lot: &str| {
        stall()
            .recipe("flatbreads", pot)
            .file("meals.toml", patterns)
            .pantry(&format!("[[lot]]\nrecipe = \"flatbreads\"\namount = \"{lot}\"\nplace = \"freezer\"\nmade = 2026-11-20\n"))
            .meals(&open("2026-12-01", ""))
    };
    let why = |lot: &str| composed(&kitchen(lot), &[])["meals"][0]["why"][0].clone();
    assert_eq!(why("4 pieces"), "uses 2 flatbreads from the freezer");
    assert_eq!(why("1 piece"), "uses 1 of the flatbreads from the freezer");
}

#[test]
fn a_food_that_the_household_avoids_is_not_proposed() {
    // Without lubb there is fenk, at six times the price.
    let household = "[household]\nname = \"Row\"\neaters = 1\ncurrency = \"EUR\"\navoid = [\"lubb\"]\n";
    let kitchen = stall().file("kitchen.toml", household).meals(&open("2026-12-01", ""));
    assert_eq!(each(&composed(&kitchen, &[])), [["1 portion recipe:spelk-pot", "100 g fenk"]]);
}

#[test]
fn meals_are_the_same_only_with_the_same_pattern_and_fillings() {
    // One dish and one side: two patterns hold them in other amounts, so that they are not the same meal.
    let double = format!("{}[[pattern]]\nname = \"Feast\"\neach = [\"1 portion any:grain\", \"2 portions any:beside\"]\n", super::PLATE);
    let week = "from = 2026-11-30\n[compose]\nnot = [\"fenk\", \"recipe:brack-pot\"]\nsame_again_after = \"3 days\"\n\
                [[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n";
    let kitchen = stall().file("meals.toml", &double).week(&format!("{week}{}{}", open("2026-12-01", ""), open("2026-12-02", "")));
    let proposal = composed(&kitchen, &[]);
    assert_eq!([&proposal["meals"][0]["pattern"], &proposal["meals"][1]["pattern"]], ["Plate", "Feast"]);
    // A written meal without a pattern is the same as one that holds the same.
    let written = crate::kitchen::supper("2026-12-02", "\"1 portion recipe:spelk-pot\", \"100 g lubb\"");
    let kitchen = stall().file("meals.toml", super::PLATE).meals(&(open("2026-12-01", "") + &written));
    assert_eq!(each(&composed(&kitchen, &[])), [["1 portion recipe:brack-pot", "100 g lubb"]]);
}

#[test]
fn of_equally_good_weeks_the_first_in_file_order_is_proposed_though_a_later_pattern_is_named_first() {
    // Both patterns hold the same; Monday is held to the second, so that Thursday's first choice stands behind it among the ways.
    let two = "[[pattern]]\nname = \"One\"\neach = [\"1 portion any:grain\", \"1 portion any:beside\"]\n\
               [[pattern]]\nname = \"Two\"\neach = [\"1 portion any:grain\", \"1 portion any:beside\"]\n";
    let monday = "[[meal]]\non = 2026-11-30\nat = \"supper\"\npattern = \"Two\"\n";
    let kitchen = stall().file("meals.toml", two).meals(&(monday.to_owned() + &open("2026-12-03", "")));
    let proposal = composed(&kitchen, &[]);
    assert_eq!([&proposal["meals"][0]["pattern"], &proposal["meals"][1]["pattern"]], ["Two", "One"]);
}

#[test]
fn open_meals_that_are_past_stay_open_and_are_told() {
    let kitchen = stall().meals(&(open("2026-11-30", "") + &open("2026-12-02", "")));
    let output = kitchen.run_on("2026-12-01", &["--format", "json", "compose"]);
    let proposal: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    // The session is past, and nothing was cooked in it.
    assert_eq!(output.status.code(), Some(1));
    assert_eq!(proposal["clash"][0]["key"], "session");
    let lot = "[[lot]]\nrecipe = \"spelk-pot\"\namount = \"3 portions\"\nplace = \"fridge\"\nmade = 2026-11-29\n[[lot]]\nfood = \"lubb\"\namount = \"300 g\"\nplace = \"cupboard\"\n";
    let proposal = crate::kitchen::json(&kitchen.pantry(lot).run_on("2026-12-01", &["--format", "json", "compose"]));
    assert_eq!(each(&proposal), [["1 portion recipe:spelk-pot", "100 g lubb"]]);
    assert_eq!(proposal["open"], json!([{ "on": "2026-11-30", "at": "18:30", "meal": "Mon supper", "why": "it is past" }]));
}

#[test]
fn a_week_without_open_meals_is_told_as_it_is_written() {
    let kitchen = stall().meals(&crate::kitchen::supper("2026-12-01", "\"1 portion recipe:spelk-pot\""));
    let proposal = composed(&kitchen, &[]);
    assert_eq!(proposal["meals"], json!([]));
    assert_eq!((&proposal["net_cost"], &proposal["bound"], &proposal["proven"]), (&json!("1.00"), &json!("1.00"), &json!(true)));
    assert_eq!(proposal["recipes"], json!(["spelk-pot"]));
}

#[test]
fn one_at_most_of_every_other_place_holds_for_what_stands_in_no_place() {
    // The pattern itself names the pot, which fits nowhere: twice is allowed, three times are not.
    let pot = super::dish("Spelk pot", "spelk", "").replace("fits = [\"grain\"]\n", "");
    let week = |meals: &str| {
        format!(
            "from = 2026-11-30\n[compose]\none_at_most = {{ grain = 5, else = 2 }}\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n{meals}"
        )
    };
    let kitchen = |meals: &str| {
        stall()
            .recipe("spelk-pot", &pot)
            .file("meals.toml", "[[pattern]]\nname = \"Bowl\"\neach = [\"1 portion recipe:spelk-pot\", \"1 portion any:beside\"]\n")
            .week(&week(meals))
    };
    let two = open("2026-11-30", "") + &open("2026-12-01", "");
    assert_eq!(each(&composed(&kitchen(&two), &[])).len(), 2);
    let output = kitchen(&(two + &open("2026-12-03", ""))).run(&["--format", "json", "compose"]);
    let clash: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(clash["clash"], json!([{ "key": "one_at_most", "of": "else", "now": "2", "would_do": "3" }]));
}

#[test]
fn what_lies_frozen_past_its_time_is_no_loss() {
    // Drawn all the same another week: it adds nothing to the net cost of 1.50.
    let lot = "[[lot]]\nfood = \"fenk\"\namount = \"100 g\"\nplace = \"freezer\"\nbest_before = 2026-11-01\n\
               [[lot]]\nrecipe = \"brack-pot\"\namount = \"1 portion\"\nplace = \"freezer\"\nmade = 2025-11-01\n";
    let pot = super::dish("Brack pot", "brack", "")
        .replace("keeps = { fridge = \"5 days\" }", "keeps = { fridge = \"5 days\", freezer = \"30 days\" }");
    let week = "from = 2026-11-30\n[compose]\nnot = [\"fenk\", \"recipe:brack-pot\"]\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n";
    let kitchen = stall().recipe("brack-pot", &pot).pantry(lot).week(&format!("{week}{}", open("2026-12-01", "")));
    assert_eq!(composed(&kitchen, &[])["net_cost"], "1.50");
}

#[test]
fn a_meal_that_uses_nothing_up_says_what_it_costs_less_than() {
    // Spelk and lubb 1.50; brack instead of spelk 1.00 more, fenk instead of lubb 2.50 more: the nearest is told.
    let kitchen = stall().meals(&open("2026-12-01", ""));
    assert_eq!(composed(&kitchen, &[])["meals"][0]["why"], json!(["costs 1.00 EUR less than with brack pot"]));
}

#[test]
fn a_meal_that_nothing_else_can_fill_says_so() {
    let week = "from = 2026-11-30\n[compose]\nnot = [\"fenk\", \"recipe:brack-pot\"]\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n";
    let kitchen = stall().week(&format!("{week}{}", open("2026-12-01", "")));
    let why = composed(&kitchen, &[])["meals"][0]["why"].clone();
    assert_eq!(why, json!(["the only filling that your wishes allow beside the other meals"]));
}

#[test]
fn a_food_without_a_price_is_told_as_one_that_counts_nothing() {
    let shops = super::STALL.replace("[[pack]]\nshop = \"Stall\"\nfood = \"fenk\"\nsize = \"100 g\"\nprice = 3.00\n", "");
    let kitchen = stall().shops(&shops).meals(&open("2026-12-01", ""));
    assert_eq!(composed(&kitchen, &[])["no_price"], json!(["fenk"]));
    let said = crate::kitchen::stdout(&kitchen.run(&["compose"]));
    assert!(said.contains("No price is known for fenk: it counts nothing, so that a dish with it looks cheaper than it is."), "{said}");
}

#[test]
fn what_is_filled_from_the_shelf_costs_what_the_list_says_of_it() {
    // Fenk is good until Wednesday and nobody may have it: with Thursday open for good, the week ends on Tuesday, and it does not go off.
    let lots = "[[lot]]\nfood = \"spelk\"\namount = \"100 g\"\nplace = \"cupboard\"\n[[lot]]\nfood = \"lubb\"\namount = \"100 g\"\nplace = \"cupboard\"\n\
                [[lot]]\nfood = \"fenk\"\namount = \"50 g\"\nplace = \"fridge\"\nuse_by = 2026-12-02\n";
    let kitchen = stall().pantry(lots).meals(&(open("2026-12-01", "") + &open("2026-12-03", "")));
    let proposal = composed(&kitchen, &["--from-shelf", "--write"]);
    assert_eq!(each(&proposal), [["1 portion recipe:spelk-pot", "100 g lubb"]]);
    let list = kitchen.list();
    assert_eq!((&list["cost"], &list["expiring"]), (&json!("0.00"), &json!([])));
    assert_eq!((&proposal["net_cost"], &proposal["spoils"]), (&json!("0.00"), &json!("0.00")));
}

#[test]
fn an_amount_too_small_for_one_is_no_component_at_hand() {
    // A portion of a side is 100 g: 90 g of lubb are none, two lots of fenk are one.
    let lots = "[[lot]]\nfood = \"lubb\"\namount = \"90 g\"\nplace = \"cupboard\"\n[[lot]]\nfood = \"fenk\"\namount = \"60 g\"\nplace = \"cupboard\"\n\
                [[lot]]\nfood = \"fenk\"\namount = \"40 g\"\nplace = \"cupboard\"\n";
    let kitchen = stall().pantry(lots).meals(&crate::kitchen::supper("2026-12-01", "\"1 portion recipe:spelk-pot\""));
    let counted = composed(&kitchen, &["--count"]);
    assert_eq!((&counted["count"], &counted["at_hand"]), (&json!(1), &json!(["fenk", "spelk-pot"])));
}

#[test]
fn another_proposal_is_the_best_of_those_that_differ_and_says_so() {
    let kitchen = stall().meals(&(open("2026-12-01", "") + &open("2026-12-03", "")));
    let said = |arguments: &[&str]| crate::kitchen::stdout(&kitchen.run(&[&["compose"], arguments].concat()));
    assert!(said(&[]).contains("\nNothing better exists.\n"));
    assert!(said(&["--another"]).contains("\nNothing better exists among those that differ from the first proposal in two meals.\n"));
    assert!(said(&["--refill", "thu supper"]).contains("\nNothing better exists among the other fillings of this meal.\n"));
}

#[test]
fn where_nothing_else_is_allowed_it_says_what_would_help() {
    let week = "from = 2026-11-30\n[compose]\nnot = [\"fenk\", \"recipe:brack-pot\"]\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n";
    let kitchen = stall().week(&format!("{week}{}", open("2026-12-01", "")));
    let said = |arguments: &[&str]| {
        let output = kitchen.run(&[&["compose"], arguments].concat());
        assert_eq!(output.status.code(), Some(1));
        crate::kitchen::stderr(&output)
    };
    let another = said(&["--another"]);
    assert!(another.contains("no week that differs from the first proposal in two meals is allowed by your wishes."), "{another}");
    let refilled = said(&["--refill", "tue supper"]);
    assert!(refilled.contains("no other filling of Tue supper beside the other meals is allowed by your wishes."), "{refilled}");
    assert!(refilled.contains("Loosen one of them"), "{refilled}");
}

#[test]
fn a_meal_may_use_what_is_left_of_a_pack_that_an_earlier_one_opens() {
    // Monday opens the pack of 300 g; Tuesday takes 100 g of its rest, which keeps no longer than Thursday's meal.
    let kitchen =
        stall().pantry("[[lot]]\nfood = \"fenk\"\namount = \"1 x 300 g\"\nplace = \"fridge\"\nuse_by = 2026-12-01\n").meals(&format!(
            "{}{}{}",
            crate::kitchen::supper("2026-11-30", "\"100 g fenk\""),
            open("2026-12-01", ""),
            crate::kitchen::supper("2026-12-03", "\"100 g lubb\""),
        ));
    let proposal = composed(&kitchen, &[]);
    assert_eq!(each(&proposal)[0][1], "100 g fenk");
    assert_eq!(proposal["meals"][0]["why"][0], "uses 100 g fenk, good until Tue");
}

#[test]
fn a_written_meal_counts_in_the_place_of_its_pattern_that_its_dish_takes() {
    // The pot fits two places; Tuesday and Wednesday are written with it, once in each: another filling of Wednesday still has both dishes.
    let pot = |name: &str, of: &str| super::dish(name, of, "").replace("[\"grain\"]", "[\"grain\", \"middle\"]");
    let week = "from = 2026-11-30\n[compose]\none_at_most = { grain = 1, middle = 1 }\nsame_again_after = \"0 days\"\n[[trip]]\non = 2026-11-28\n\
                [[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n";
    let meal = |on: &str, pattern: &str| {
        format!("[[meal]]\non = {on}\nat = \"supper\"\npattern = \"{pattern}\"\neach = [\"1 portion recipe:spelk-pot\", \"100 g lubb\"]\n")
    };
    let kitchen = stall()
        .recipe("spelk-pot", &pot("Spelk pot", "spelk"))
        .recipe("brack-pot", &pot("Brack pot", "brack"))
        .file(
            "meals.toml",
            &(super::PLATE.to_owned() + "[[pattern]]\nname = \"Roll\"\neach = [\"1 portion any:middle\", \"1 portion any:beside\"]\n"),
        )
        .week(&format!("{week}{}{}", meal("2026-12-01", "Plate"), meal("2026-12-02", "Roll")));
    let anew = composed(&kitchen, &["--refill", "wed supper"]);
    assert_eq!(each(&anew), [["1 portion recipe:brack-pot", "100 g lubb"]]);
    assert_eq!(anew["proven"], true);
}

#[test]
fn a_cooked_box_that_nobody_eats_is_a_loss_though_it_is_good_to_the_last_day() {
    // Two portions lie there; Monday and Wednesday may have one of them, by one_at_most. What is left is worth 1.00, and Wednesday's pot costs
    // 2.00; each meal has lubb for 0.50.
    let lot = |until: &str| {
        format!("[[lot]]\nrecipe = \"spelk-pot\"\namount = \"2 portions\"\nplace = \"fridge\"\nmade = 2026-11-27\nuse_by = {until}\n")
    };
    let week = "from = 2026-11-30\n[compose]\none_at_most = 1\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n";
    for until in ["2026-12-01", "2026-12-02", "2026-12-03"] {
        let kitchen = stall().pantry(&lot(until)).week(&format!("{week}{}{}", open("2026-11-30", ""), open("2026-12-02", "")));
        assert_eq!(composed(&kitchen, &[])["net_cost"], "4.00", "good until {until}");
    }
    let kitchen = stall().pantry(&lot("2026-12-03")).week(&format!("{week}{}{}", open("2026-11-30", ""), open("2026-12-02", "")));
    let said = crate::kitchen::stdout(&kitchen.run(&["compose"]));
    assert!(
        said.contains("goes off on the shelf, or is not eaten  +1.00") && said.contains("not eaten this week; good until Wed 2 Dec"),
        "{said}"
    );
}

#[test]
fn what_has_no_price_is_not_said_to_cost_less() {
    // Nobody sells spelk: brack's price says nothing about which of the two costs less.
    let shops = super::STALL.replace("[[pack]]\nshop = \"Stall\"\nfood = \"spelk\"\nsize = \"100 g\"\nprice = 1.00\n", "");
    let kitchen = stall().shops(&shops).meals(&open("2026-12-01", ""));
    let why = composed(&kitchen, &[])["meals"][0]["why"].clone();
    assert_eq!(why, json!(["no price is known for spelk, so that it cannot be held against brack pot"]));
}

#[test]
fn where_there_is_lunch_and_supper_no_two_suppers_of_one_pattern_follow_each_other() {
    // Three dishes at one price, Plate and Roll the same but for their names: equal in cost, in pairs and in what is cooked.
    let patterns = ["Plate", "Roll"].map(|name| format!("[[pattern]]\nname = \"{name}\"\neach = [\"1 portion any:grain\"]\n")).concat();
    let lunch = |on: &str| format!("[[meal]]\non = {on}\nat = \"lunch\"\neach = [\"50 g lubb\"]\n");
    let days = ["2026-12-01", "2026-12-02", "2026-12-03"].map(|on| lunch(on) + &open(on, "")).concat();
    let kitchen = stall().file("meals.toml", &patterns).meals(&days);
    let proposal = composed(&kitchen, &[]);
    let patterns: Vec<&str> = proposal["meals"].as_array().unwrap().iter().map(|meal| meal["pattern"].as_str().unwrap()).collect();
    assert_eq!(patterns, ["Plate", "Roll", "Plate"]);
}

#[test]
fn a_trip_that_was_neither_booked_nor_printed_is_told_before_more_is_written_into_its_week() {
    let kitchen = stall().meals(&(open("2026-12-01", "") + &crate::kitchen::supper("2026-12-03", "\"100 g lubb\"")));
    let told = |today: &str| {
        let said = crate::kitchen::stderr(&kitchen.run_on(today, &["compose"]));
        said.contains("the trip of Sat 28 Nov is past, and was neither booked nor printed")
    };
    assert!(!told("2026-11-27"));
    assert!(told("2026-11-29"));
}

#[test]
fn what_somebody_is_sure_of_is_what_they_are_served() {
    let kitchen = |keys: &str, meal: &str| {
        let eater = format!(
            "[household]\nname = \"Row\"\ncurrency = \"EUR\"\n[[eater]]\nname = \"Ana\"\nsure = [\"spelk\"]\n{keys}\n[[eater]]\nname = \"Bo\"\n"
        );
        stall().file("kitchen.toml", &eater).meals(&open("2026-12-01", meal))
    };
    let grain = |kitchen: &crate::kitchen::Kitchen| each(&composed(kitchen, &[]))[0][0].clone();
    assert_eq!(grain(&kitchen("", "")), "1 portion recipe:spelk-pot");
    // Ana leaves the pot of spelk away, so that it makes nobody sure: nothing does.
    let output = kitchen("", "without = { Ana = [\"recipe:spelk-pot\"] }").run(&["--format", "json", "compose"]);
    assert_eq!(output.status.code(), Some(1));
    // What Ana gets in place of the dish is what counts, whatever Bo has.
    let instead = kitchen("", "instead = { Ana = [\"50 g spelk\"] }");
    assert_eq!(grain(&instead), "1 portion recipe:spelk-pot");
    let other = instead.week(
        "from = 2026-11-30\n[compose]\nnot = [\"recipe:spelk-pot\"]\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\n\
         people = [\"cook\"]\n[[meal]]\non = 2026-12-01\nat = \"supper\"\nopen = true\ninstead = { Ana = [\"50 g spelk\"] }\n",
    );
    assert_eq!(grain(&other), "1 portion recipe:brack-pot");
}

#[test]
fn no_reason_names_a_use_on_a_day_on_which_the_food_is_past() {
    // Wednesday's pot is cooked on Sunday, of spelk that is good until Monday. In the cupboard it is past its best before, and looked at.
    let first_reason = |lot: &str| {
        let lot = format!("[[lot]]\nfood = \"spelk\"\namount = \"100 g\"\n{lot}\n");
        let meal = open("2026-12-02", "").replace("open = true", "each = [\"1 portion any:grain\", \"100 g fenk\"]");
        let proposal = composed(&stall().pantry(&lot).meals(&meal), &[]);
        assert_eq!(each(&proposal)[0][0], "1 portion recipe:spelk-pot");
        proposal["meals"][0]["why"][0].as_str().unwrap_or_default().to_owned()
    };
    assert_eq!(first_reason("place = \"fridge\"\nuse_by = 2026-11-30"), "uses 100 g spelk on Sun, good until Mon");
    let past = first_reason("place = \"cupboard\"\nbest_before = 2026-11-20");
    assert!(!past.contains("good until"), "{past}");
}
