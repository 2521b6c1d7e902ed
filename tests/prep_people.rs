//! Who does what in a session: washing, boxing, helpers; and what is said around it.
//!
//! Sunday 29 November, 14:00, one cook, unless a test says otherwise. Minutes count from the session's start.

use pretty_assertions::assert_eq;
use serde_json::{Value, json};

use crate::kitchen::one_session::*;
use crate::kitchen::{assert_amount, minute, stderr, step, supper, tasks};

#[test]
fn the_wash_is_added_where_raw_food_is_handled() {
    // 5 + 4 = 9 for the step that names the raw poultry, 5 for the other.
    let recipe = recipe(
        "Moon stew",
        "[[step]]\ntext = \"Cut {moonbird}.\"\nhands = \"5 min\"\n[[step]]\ntext = \"Stir in {bluegrain}.\"\nhands = \"5 min\"\n",
    )
    .replace("100 g bluegrain", "100 g bluegrain\n200 g moonbird");
    for (kind, expected) in [("raw poultry", 9), ("raw minced meat", 9), ("raw meat", 9), ("raw fish", 9), ("raw egg", 9), ("vegetable", 5)]
    {
        let kitchen = stew("", "2", "")
            .only_rules("boxing = \"0 min\"\nwash = \"4 min\"")
            .foods(&format!("[[food]]\nname = \"bluegrain\"\n[[food]]\nname = \"moonbird\"\nkind = \"{kind}\"\n"))
            .recipe("stew", &recipe);
        let prep = kitchen.prep();
        assert_eq!(
            (minute(step(&prep, "stew", 1), "hands_minutes"), minute(step(&prep, "stew", 2), "hands_minutes")),
            (expected, 5),
            "{kind}"
        );
    }
}

#[test]
fn the_wash_is_three_minutes_and_the_boxing_three_by_default() {
    // 5 + 3 wash, then 3 of boxing: 11.
    let kitchen = stew("", "2", &does("hands = \"5 min\"")).only_rules("").foods("[[food]]\nname = \"bluegrain\"\nkind = \"raw meat\"\n");
    let prep = takes_minutes(&kitchen, 11);
    assert_eq!(minute(step(&prep, "stew", 1), "hands_minutes"), 8);
    assert_eq!(tasks(&prep, "box", "stew").len(), 1);
    assert_eq!(minute(tasks(&prep, "box", "stew")[0], "hands_minutes"), 3);
}

#[test]
fn no_boxing_time_leaves_the_task_out() {
    assert!(tasks(&stew("", "2", &does("hands = \"5 min\"")).prep(), "box", "").is_empty());
}

#[test]
fn boxes_start_within_two_hours_of_leaving_the_heat() {
    // The cook has a job of three hours, during which the stew may not stand about. Roast first: 180 of hands, the stew 180 to 206 in the oven
    // (hands 5, wait 20, out 1; warm-up before), the roast's box in its wait, the stew's box after 10 of cooling, 216 to 219. Stew first:
    // 10 + 26 + 10 + 3 + 180 + 3 = 232.
    let oven = does("hands = \"5 min\"\nwait = \"20 min\"\non = \"oven\"\ntemperature = \"180 °C\"");
    let kitchen =
        stew_and_roast(OVEN, &oven, &does("hands = \"180 min\"")).only_rules(&format!("boxing = \"3 min\"\nwash = \"0 min\"\n{OVEN}"));
    let prep = takes_minutes(&kitchen, 219);
    let boxed = minute(tasks(&prep, "box", "stew")[0], "start_minute");
    let left = minute(step(&prep, "stew", 1), "end_minute");
    assert!((left + 10..=left + 120).contains(&boxed), "left the heat at {left}, boxed at {boxed}");
}

fn with_helper(keys: &str) -> Value {
    let week = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\", { name = \"Jo\", as = \"helper\", from = \"15:00\", until = \"16:00\", may = [\"wash\", \"mix\"] }]\n".to_owned()
        + &supper("2026-11-30", "\"2 portions recipe:stew\"");
    stew("", "2", &does(&format!("hands = \"10 min\"\n{keys}"))).week(&week).prep()
}

#[test]
fn a_step_for_a_role_waits_until_that_person_comes() {
    // Jo comes at 15:00, minute 60.
    let prep = with_helper("who = \"helper\"");
    let task = step(&prep, "stew", 1);
    assert_eq!((task["person"].as_str(), minute(task, "start_minute")), (Some("Jo"), 60));
    assert_eq!(with_helper("who = \"Helper \""), prep, "a role is the same in any letter case");
}

#[test]
fn a_step_that_needs_a_skill_is_done_by_who_may() {
    // The cook may do everything, so nothing waits for Jo; a skill that Jo lacks together with Jo's role has nobody.
    let task_of = |keys: &str| step(&with_helper(keys), "stew", 1).clone();
    let knife = task_of("skill = \"knife\"");
    assert_eq!((knife["person"].as_str(), minute(&knife, "start_minute")), (Some("cook"), 0));
    let wash = task_of("who = \"helper\"\nskill = \"wash\"");
    assert_eq!((wash["person"].as_str(), minute(&wash, "start_minute")), (Some("Jo"), 60));
}

#[test]
fn a_helper_works_only_until_they_leave() {
    // Jo's 60 minutes hold one of 40: the other 40 are the cook's, though both could be mixed by Jo.
    let week = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\", { name = \"Jo\", as = \"helper\", until = \"15:00\" }]\n".to_owned()
        + &supper("2026-11-30", "\"2 portions recipe:stew\", \"2 portions recipe:roast\"");
    let kitchen = stew_and_roast("", &(does("hands = \"40 min\"") + &then("hands = \"40 min\"")), &does("hands = \"40 min\"")).week(&week);
    let prep = takes_minutes(&kitchen, 80);
    for task in tasks(&prep, "step", "") {
        if task["person"] == "Jo" {
            assert!(minute(task, "end_minute") <= 60, "{task}");
        }
    }
}

#[test]
fn what_is_done_ahead_stands_under_before_and_outside_the_minutes() {
    // 12 h before 14:00 is 02:00, at night: so 20:00 of the evening before; two batches soak 200 g. The session itself is the 10 of the second step.
    let steps = "[[step]]\ntext = \"Soak {bluegrain} in cold water.\"\nhands = \"3 min\"\nahead = \"12 h\"\n[[step]]\ntext = \"Cook.\"\nhands = \"5 min\"\n";
    let prep = takes_minutes(&stew("", "4", steps), 10);
    let before = prep["before"].as_array().expect("a list");
    assert_eq!(before.len(), 1);
    assert_eq!(before[0]["at"], "2026-11-28T20:00");
    let text = before[0]["text"].as_str().unwrap_or_default();
    assert!(text.starts_with("Soak") && text.contains("200 g"), "{text}");
    assert_eq!(tasks(&prep, "step", "stew").len(), 1);
}

#[test]
fn the_text_of_a_step_prints_the_scaled_amount() {
    // Three portions of two: 1.5 batches of 100 g.
    let prep = stew("", "3", &does("hands = \"5 min\"")).prep();
    let text = step(&prep, "stew", 1)["text"].as_str().unwrap_or_default().to_owned();
    assert!(text.contains("150 g") && text.contains("bluegrain"), "{text}");
}

#[test]
fn a_step_prints_its_share_of_an_ingredient() {
    // 40 of 100 g and 60 of 100 g, twice.
    let steps = "[[step]]\ntext = \"Toast {bluegrain: 40 g}.\"\nhands = \"5 min\"\n[[step]]\ntext = \"Add {bluegrain: 60 g}.\"\nhands = \"5 min\"\n";
    let prep = stew("", "4", steps).prep();
    for (number, amount) in [(1, "80 g"), (2, "120 g")] {
        let text = step(&prep, "stew", number)["text"].as_str().unwrap_or_default().to_owned();
        assert!(text.contains(amount), "{text}");
    }
}

#[test]
fn what_is_in_the_pantry_is_fetched() {
    // Two portions take 100 g, of which 60 are in the cupboard; the rest is of Saturday's trip.
    let prep =
        stew("", "2", &does("hands = \"5 min\"")).pantry("[[lot]]\nfood = \"bluegrain\"\namount = \"60 g\"\nplace = \"cupboard\"\n").prep();
    let fetched: Vec<&Value> =
        session(&prep)["fetch"].as_array().expect("a list").iter().filter(|fetch| fetch["from"][0]["place"] == "cupboard").collect();
    assert_eq!(fetched.len(), 1);
    assert_eq!(fetched[0]["food"], "bluegrain");
    assert_amount(&fetched[0]["from"][0]["amount"], 60.0, "g");
}

#[test]
fn what_is_cut_is_listed_with_the_step_that_uses_it() {
    let recipe =
        recipe("Moon stew", &(then("hands = \"2 min\"") + &does("hands = \"5 min\""))).replace("100 g bluegrain", "100 g bluegrain, diced");
    let prep = stew("", "4", "").recipe("stew", &recipe).prep();
    let cuts = session(&prep)["cuts"].as_array().expect("a list");
    assert_eq!(cuts.len(), 1);
    assert_eq!((cuts[0]["food"].as_str(), cuts[0]["cut"].as_str(), cuts[0]["step"].as_u64()), (Some("bluegrain"), Some("diced"), Some(2)));
    assert_amount(&cuts[0]["amount"], 200.0, "g");
}

#[test]
fn boxes_say_how_many_portions_go_where_until_when_and_for_what() {
    // Monday 2 portions and Tuesday 2 of one making, 29 November + 3 days.
    let meals = supper("2026-11-30", "\"2 portions recipe:stew\"") + &supper("2026-12-01", "\"1 portion recipe:stew\"");
    let prep = stew("", "2", &does("hands = \"5 min\"")).meals(&meals).prep();
    assert_eq!(
        session(&prep)["boxes"],
        json!([{
            "recipe": "stew", "portions": 3.0, "place": "fridge", "use_by": "2026-12-02", "for": ["Mon supper", "Tue supper"], "eater": null
        }])
    );
}

#[test]
fn cautions_are_printed_where_something_warm_is_kept() {
    let prep = stew(HOB, "2", &does("hands = \"5 min\"\nwait = \"20 min\"\non = \"hob\"")).prep();
    assert!(session(&prep)["cautions"].as_array().is_some_and(|cautions| !cautions.is_empty()));
}

#[test]
fn an_inside_temperature_is_said_in_the_cautions_or_the_steps() {
    let kitchen = stew(HOB, "2", &does("hands = \"5 min\"\nwait = \"20 min\"\non = \"hob\"\ninside = \"74 °C\""))
        .foods("[[food]]\nname = \"bluegrain\"\nkind = \"raw poultry\"\n");
    assert!(session(&kitchen.prep()).to_string().contains("74 °C"));
}

#[test]
fn a_session_that_overruns_its_finish_by_is_reported_and_planned_all_the_same() {
    // 90 minutes from 14:00 against 15:00.
    let week =
        "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\nfinish_by = \"15:00\"\npeople = [\"cook\"]\n"
            .to_owned()
            + &supper("2026-11-30", "\"2 portions recipe:stew\"");
    let kitchen = stew("", "2", &does("hands = \"90 min\"")).week(&week);
    let prep = takes_minutes(&kitchen, 90);
    let advice = session(&prep)["advice"].as_array().is_some_and(|advice| !advice.is_empty());
    let warning = !stderr(&kitchen.run(&["prep"])).is_empty();
    assert!(advice || warning);
}

#[test]
fn the_same_kitchen_gives_the_same_bytes() {
    let steps = does("hands = \"5 min\"\nwait = \"30 min\"\non = \"hob\"") + &then("hands = \"7 min\"");
    let kitchen = stew_and_roast(HOB, &steps, &steps);
    let once = kitchen.run(&["--format", "json", "prep"]);
    assert_eq!(once.stdout, kitchen.run(&["--format", "json", "prep"]).stdout);
}

#[test]
fn what_is_used_up_in_its_own_session_is_not_boxed() {
    // The pie takes all of the stew, so only the pie is boxed.
    let pie = "name = \"Moon pie\"\nmakes = \"1 portion\"\nkeeps = { fridge = \"1 day\" }\ningredients = [\"2 portions recipe:stew\"]\n[[step]]\ntext = \"Fill.\"\nhands = \"5 min\"\n";
    let kitchen = stew("", "2", &does("hands = \"5 min\""))
        .recipe("pie", pie)
        .only_rules("")
        .meals(&supper("2026-11-30", "\"1 portion recipe:pie\""));
    let prep = kitchen.prep();
    assert_eq!((tasks(&prep, "box", "stew").len(), tasks(&prep, "box", "pie").len()), (0, 1));
}
