//! Changing one's mind: a meal falls out, two meals change places.

use pretty_assertions::assert_eq;

use crate::kitchen::{Kitchen, SATURDAY_AND_SUNDAY, draws, has_line, kitchen, minute, stderr, step, supper};

const MEALS: &str = "# Ours\n[[meal]]\nday = \"tue\"   # late\nat = \"supper\"\neaters = 2\neach = [\"100 g bluegrain\"]   # boiled\n\n\
                     [[meal]]\nday = \"thu\"\nat = \"supper\"\nname = \"Cheese\"\neach = [\"50 g moon cheese\"]\n";

fn two_suppers() -> Kitchen {
    kitchen()
        .foods(
            "[[food]]\nname = \"bluegrain\"\nallergens = []\nsource = \"weighed at home\"\n\
             [[food]]\nname = \"moon cheese\"\nallergens = []\nsource = \"weighed at home\"\n",
        )
        .pantry("[[lot]]\nfood = \"bluegrain\"\namount = \"1 kg\"\nplace = \"cupboard\"\n")
        .meals(MEALS)
}

#[test]
fn a_meal_that_falls_out_eats_nothing_and_the_file_keeps_the_rest() {
    let kitchen = two_suppers();
    let said = kitchen.done(&["skip", "Thu supper"]);
    assert_eq!(said, "Thu 3 Dec supper falls out: weeks/week.toml\n");
    assert_eq!(kitchen.text("weeks/week.toml"), format!("{SATURDAY_AND_SUNDAY}{MEALS}skip = true\n"));
    assert!(!has_line(&kitchen.list(), "moon cheese"));
    let output = kitchen.run(&["skip", "thu supper"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(stderr(&output).contains("there is no meal \"thu supper\" to come. There are: tue supper."), "{}", stderr(&output));
    assert!(stderr(&output).contains("That of Thu 3 Dec is skipped."), "{}", stderr(&output));
    assert_eq!(kitchen.run(&["issue", "--meal", "thu supper"]).status.code(), Some(2), "nor is it eaten");
}

#[test]
fn two_meals_exchange_their_dishes_and_keep_their_day_and_who_comes() {
    let kitchen = two_suppers();
    kitchen.done(&["exchange", "tue supper", "thu supper"]);
    let text = kitchen.text("weeks/week.toml");
    let (tuesday, thursday) = text.split_once("day = \"thu\"").expect("Thursday");
    assert!(
        tuesday.contains("day = \"tue\"   # late\nat = \"supper\"\neaters = 2\nname = \"Cheese\"\neach = [\"50 g moon cheese\"]\n"),
        "{text}"
    );
    assert!(thursday.contains("at = \"supper\"\neach = [\"100 g bluegrain\"]   # boiled\n"), "{text}");
    // One eater on Thursday: 100 g.
    assert_eq!(draws(&kitchen.list(), "bluegrain"), [("2026-12-03".to_owned(), "cupboard".to_owned(), 100.0)]);
    kitchen.done(&["exchange", "Cheese", "thu supper"]);
    assert_eq!(draws(&kitchen.list(), "bluegrain"), [("2026-12-01".to_owned(), "cupboard".to_owned(), 200.0)]);
    assert_eq!(kitchen.run(&["exchange", "tue supper", "Tue supper"]).status.code(), Some(2));
}

#[test]
fn a_day_says_what_to_add_and_what_goes_off() {
    let kitchen = two_suppers().pantry("[[lot]]\nfood = \"bluegrain\"\namount = \"1 kg\"\nplace = \"cupboard\"\nuse_by = 2026-12-01\n");
    let said = kitchen.done_on("2026-11-30", &["day", "tue"]);
    assert!(said.contains("Tue 1 Dec 2026") && said.contains("Tue supper") && said.contains("Add: 200 g bluegrain"), "{said}");
    assert!(said.contains("Goes off today\n  1 kg bluegrain, cupboard"), "{said}");
    assert!(kitchen.done(&["day"]).contains("No meal is planned or left to eat."));
    assert_eq!(kitchen.run(&["day", "someday"]).status.code(), Some(2));
}

/// A pot of moon stew whose one step stands in the oven.
fn oven_stew(step: &str) -> Kitchen {
    let recipe = format!(
        "name = \"Moon stew\"\nmakes = \"2 portions\"\nkeeps = {{ fridge = \"3 days\" }}\n\
         [[step]]\ntext = \"Braise.\"\nhands = \"5 min\"\nwait = \"40 min\"\non = \"oven\"\ntemperature = \"160 °C\"\n{step}"
    );
    kitchen()
        .household("[[appliance]]\nname = \"oven\"\nheat = true\n[[appliance]]\nname = \"hob\"\nroom = 4\n")
        .recipe("stew", &recipe)
        .week(&format!("{SATURDAY_AND_SUNDAY}without = [\"oven\"]\n{}", supper("2026-12-01", "\"2 portions recipe:stew\"")))
}

#[test]
fn an_appliance_out_of_order_is_a_mistake_for_the_session_and_a_warning_for_the_shopping() {
    let kitchen = oven_stew("");
    let told = "weeks/week.toml:5:1: the oven is out of order, and step 1 of Moon stew needs it. Give the step or_on = \"...\", make it in \
                another session, or take the appliance out of without.";
    for verb in ["check", "prep", "print"] {
        let output = kitchen.run(&[verb]);
        assert_eq!(output.status.code(), Some(1), "{verb}");
        assert!(stderr(&output).contains(told), "{verb}: {}", stderr(&output));
    }
    let output = kitchen.run(&["list"]);
    assert_eq!(output.status.code(), Some(0));
    assert!(stderr(&output).contains(&format!("warning: {told}")), "{}", stderr(&output));
}

#[test]
fn a_step_with_or_on_goes_there_while_its_own_appliance_is_out_of_order() {
    let prep = oven_stew("or_on = \"hob\"\nor_wait = \"30 min\"\n").prep();
    let step = step(&prep, "stew", 1);
    // 5 by hand, 30 on the hob, 1 to take it off; the hob has no temperature.
    let end = minute(step, "end_minute") - minute(step, "start_minute");
    assert_eq!((&step["appliance"], &step["at_celsius"], end), (&serde_json::json!("hob"), &serde_json::Value::Null, 36), "{step}");
}

#[test]
fn or_on_stands_for_the_appliance_that_is_out_on_a_step_of_several() {
    let kitchen = oven_stew("or_on = \"grill\"\nor_temperature = \"200 °C\"\n");
    let recipe = kitchen.text("recipes/stew.toml").replace("on = \"oven\"", "on = [\"oven\", \"hob\"]");
    let household = "[[appliance]]\nname = \"oven\"\nheat = true\n[[appliance]]\nname = \"hob\"\nroom = 4\n\
                     [[appliance]]\nname = \"grill\"\nheat = true\n";
    let prep = kitchen.household(household).recipe("stew", &recipe).prep();
    let step = step(&prep, "stew", 1);
    let on = [step["appliance"].clone(), step["also"][0].clone()];
    assert!(on.contains(&"grill".into()) && on.contains(&"hob".into()), "{step}");
    assert_eq!(step["at_celsius"], 200.0);
}

#[test]
fn meals_are_listed_as_they_are_typed() {
    let kitchen = two_suppers();
    let output = kitchen.run(&["skip", "fri supper"]);
    // Thursday's is called Cheese.
    assert!(stderr(&output).contains("There are: tue supper, thu supper."), "{}", stderr(&output));
    let output = kitchen.run_on("2026-12-02", &["skip", "tue supper"]);
    assert!(stderr(&output).contains("There are: thu supper. That of Tue 1 Dec is past."), "{}", stderr(&output));
}

/// The Tuesday of two weeks, the second of which says what it holds.
fn with_next_week(next: &str) -> Kitchen {
    let week = format!("from = 2026-12-07\n[[trip]]\non = 2026-12-05\n[[meal]]\nday = \"tue\"\nat = \"supper\"\n{next}\n");
    two_suppers().file("weeks/next.toml", &week)
}

#[test]
fn a_meal_that_nobody_has_filled_is_not_exchanged() {
    let kitchen = with_next_week("open = true");
    let before = kitchen.text("weeks/week.toml");
    let output = kitchen.run_on("2026-12-02", &["exchange", "tue supper", "thu supper"]);
    assert_eq!(output.status.code(), Some(2));
    let told = "Tue 8 Dec supper, the next of that name from today on, is open";
    assert!(stderr(&output).contains(told), "{}", stderr(&output));
    assert_eq!(kitchen.text("weeks/week.toml"), before);
}

#[test]
fn an_exchange_between_two_weeks_is_told_with_its_dates() {
    let kitchen = with_next_week("each = [\"10 g moon cheese\"]");
    let output = kitchen.run_on("2026-12-02", &["exchange", "tue supper", "thu supper"]);
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    assert_eq!(said, "Tue 8 Dec supper and Thu 3 Dec supper exchange what they hold: weeks/next.toml, weeks/week.toml\n");
    assert!(stderr(&output).contains("warning: the two are of different weeks"), "{}", stderr(&output));
}

#[test]
fn what_an_exchange_makes_short_is_told_at_once() {
    // Sunday's pot serves Monday; Friday is past its three days.
    let stew =
        "name = \"Moon stew\"\nmakes = \"1 portion\"\nkeeps = { fridge = \"3 days\" }\n[[step]]\ntext = \"Boil.\"\nhands = \"5 min\"\n";
    let meals = supper("2026-11-30", "\"1 portion recipe:stew\"") + &supper("2026-12-04", "\"50 g moon cheese\"");
    let kitchen = two_suppers().recipe("stew", stew).week(&format!("{SATURDAY_AND_SUNDAY}{meals}"));
    let output = kitchen.run_on("2026-11-30", &["exchange", "mon supper", "fri supper"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    assert!(stderr(&output).contains("warning: short: Fri supper lacks 1 portion of Moon stew"), "{}", stderr(&output));
}

#[test]
fn a_meal_with_nothing_in_it_is_told() {
    let kitchen = two_suppers().meals(&format!("{MEALS}\n[[meal]]\nday = \"fri\"\nat = \"supper\"\n"));
    assert!(stderr(&kitchen.run(&["check"])).contains("this meal has nothing in it"), "{}", stderr(&kitchen.run(&["check"])));
    assert!(!stderr(&two_suppers().run(&["check"])).contains("nothing in it"));
}

#[test]
fn a_day_names_its_trip_its_session_and_what_is_past_its_date() {
    let stew = "name = \"Moon stew\"\nmakes = \"1 portion\"\nkeeps = { fridge = \"3 days\" }\ningredients = \"\"\"\n100 g moon cheese\n\"\"\"\n\
                [[step]]\ntext = \"Soak {moon cheese}\"\nhands = \"1 min\"\nahead = \"3 h\"\n[[step]]\ntext = \"Boil.\"\nhands = \"5 min\"\n";
    let old = "[[lot]]\nfood = \"bluegrain\"\namount = \"1 kg\"\nplace = \"fridge\"\nuse_by = 2026-11-26\n";
    let kitchen = two_suppers().pantry(old).recipe("stew", stew);
    let kitchen = kitchen.week(&format!("{SATURDAY_AND_SUNDAY}{}", supper("2026-11-30", "\"1 portion recipe:stew\"")));
    let saturday = kitchen.done_on("2026-11-28", &["day"]);
    assert!(saturday.contains("\nShopping: 1 line, no price known. See spence list.\n"), "{saturday}");
    assert!(
        saturday.contains("\nPast its date: look, then throw away or book it\n  1 kg bluegrain, fridge, until Thu 26 Nov\n"),
        "{saturday}"
    );
    let sunday = kitchen.done_on("2026-11-29", &["day"]);
    assert!(sunday.contains("\n11:00: Soak 100 g moon cheese\n"), "{sunday}");
    assert!(sunday.contains("\nCooking, 14:00: moon stew\n"), "{sunday}");
    let day = crate::kitchen::json(&kitchen.run_on("2026-11-29", &["--format", "json", "day"]));
    assert_eq!(day["sessions"][0]["start"], "2026-11-29T14:00");
    assert_eq!((&day["sessions"][0]["makes"][0], &day["past"][0]["until"]), (&serde_json::json!("stew"), &serde_json::json!("2026-11-26")));
}
