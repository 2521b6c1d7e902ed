//! What the plan of a session promises: rounds, shared ovens, gaps, hands, boxes, and what is said around it.
//!
//! Sunday 29 November, 14:00, one cook, unless a test says otherwise. Minutes count from the session's start.

mod kitchen;

use kitchen::{Kitchen, assert_amount, kitchen, minute, step, supper, tasks};
use pretty_assertions::assert_eq;
use serde_json::{Value, json};

const OVEN: &str = "[[appliance]]\nname = \"oven\"\nroom = 2\nheat = true\nnear = \"10 °C\"\nwarm_up = \"10 min\"\n";
const HOB: &str = "[[appliance]]\nname = \"hob\"\nroom = 4\n";
const PRESSURE_COOKER: &str = "[[appliance]]\nname = \"pressure cooker\"\n";

/// A recipe for 2 portions that keeps 3 days, of 100 g bluegrain a batch.
fn recipe(name: &str, steps: &str) -> String {
    format!(
        "name = \"{name}\"\nmakes = \"2 portions\"\nkeeps = {{ fridge = \"3 days\" }}\ningredients = \"\"\"\n100 g bluegrain\n\"\"\"\n{steps}"
    )
}

/// One step; `keys` after its text.
fn does(keys: &str) -> String {
    format!("[[step]]\ntext = \"Cook {{bluegrain}}.\"\n{keys}\n")
}

/// The same without naming the food.
fn then(keys: &str) -> String {
    format!("[[step]]\ntext = \"Go on.\"\n{keys}\n")
}

/// Kitchen with one recipe "stew" of these steps, of which Monday eats so many portions.
fn stew(appliances: &str, portions: &str, steps: &str) -> Kitchen {
    kitchen()
        .household(appliances)
        .foods("[[food]]\nname = \"bluegrain\"\nallergens = []\n")
        .recipe("stew", &recipe("Moon stew", steps))
        .meals(&supper("2026-11-30", &format!("\"{portions} portions recipe:stew\"")))
}

/// The same with a second recipe "roast"; one batch each.
fn stew_and_roast(appliances: &str, stew_steps: &str, roast_steps: &str) -> Kitchen {
    stew(appliances, "2", stew_steps)
        .recipe("roast", &recipe("Sun roast", roast_steps))
        .meals(&supper("2026-11-30", "\"2 portions recipe:stew\", \"2 portions recipe:roast\""))
}

fn session(prep: &Value) -> &Value {
    &prep["sessions"][0]
}

#[track_caller]
fn takes_minutes(kitchen: &Kitchen, minutes: i64) -> Value {
    let prep = kitchen.prep();
    let session = session(&prep);
    assert_eq!(minute(session, "minutes"), minutes, "{session:#}");
    assert_eq!(minute(session, "bound_minutes"), minutes);
    assert_eq!(session["proven"], true);
    prep
}

#[test]
fn a_step_is_its_hands_then_its_wait() {
    // 10 + 30 = 40: done at 14:40.
    let prep = takes_minutes(&stew(HOB, "2", &does("hands = \"10 min\"\nwait = \"30 min\"\non = \"hob\"")), 40);
    let task = step(&prep, "stew", 1);
    assert_eq!(
        (minute(task, "start_minute"), minute(task, "hands_minutes"), minute(task, "out_minutes"), minute(task, "end_minute")),
        (0, 10, 0, 40)
    );
    assert_eq!((task["person"].as_str(), task["appliance"].as_str(), task["round"].as_u64()), (Some("cook"), Some("hob"), Some(1)));
    assert_eq!(task["out_person"], Value::Null);
    assert_eq!((session(&prep)["start"].as_str(), session(&prep)["finish"].as_str()), (Some("2026-11-29T14:00"), Some("2026-11-29T14:40")));
    assert_eq!(session(&prep)["batches"], json!([{ "recipe": "stew", "batches": 1.0, "makes": { "amount": 2.0, "unit": "portion" } }]));
}

#[test]
fn one_person_does_one_hands_on_thing_at_a_time_and_waits_overlap() {
    // Hands 5 + 5 one after the other, the second waits 30 more: 40.
    let steps = does("hands = \"5 min\"\nwait = \"30 min\"\non = \"hob\"");
    takes_minutes(&stew_and_roast(HOB, &steps, &steps), 40);
}

#[test]
fn two_people_work_side_by_side() {
    let week = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\", \"Jo\"]\n"
        .to_owned()
        + &supper("2026-11-30", "\"2 portions recipe:stew\", \"2 portions recipe:roast\"");
    let steps = does("hands = \"20 min\"");
    takes_minutes(&stew_and_roast("", &steps, &steps).week(&week), 20);
}

#[test]
fn the_least_finish_is_found_where_the_obvious_order_is_longer() {
    // The long wait has to start first: 5 + 60 = 65, with the 20 of the roast inside it. The other way round it would be 85.
    takes_minutes(&stew_and_roast("", &does("hands = \"20 min\""), &does("hands = \"5 min\"\nwait = \"60 min\"")), 65);
}

#[test]
fn hands_grow_with_the_batches_without_an_appliance_and_not_with_one() {
    // 6 portions of 2 are 3 batches: 3 × 5 = 15 without, 5 with one. The wait never grows.
    let free = takes_minutes(&stew("", "6", &does("hands = \"5 min\"\nwait = \"10 min\"")), 25);
    assert_eq!(minute(step(&free, "stew", 1), "hands_minutes"), 15);
    takes_minutes(&stew(HOB, "6", &does("hands = \"5 min\"\nwait = \"10 min\"\non = \"hob\"")), 15);
    takes_minutes(&stew(HOB, "6", &does("hands = \"5 min\"\nwait = \"10 min\"\non = \"hob\"\nscales = true")), 25);
    takes_minutes(&stew("", "6", &does("hands = \"5 min\"\nscales = false")), 5);
}

#[test]
fn pace_multiplies_hands_on_time() {
    // 10 × 1.5 = 15; the wait stays.
    let kitchen = stew("", "2", &does("hands = \"10 min\"\nwait = \"20 min\"")).rules("pace = 1.5");
    takes_minutes(&kitchen, 35);
}

#[test]
fn more_than_the_room_is_split_into_rounds_fullest_first() {
    // 3 batches of one tray in an oven for two: warm-up to 10, round 1 with 2 trays 10 to 43 (hands 2, wait 30, out 1), round 2 with 1 to 76.
    let prep = takes_minutes(&stew(OVEN, "6", &does("hands = \"2 min\"\nwait = \"30 min\"\non = \"oven\"\ntemperature = \"180 °C\"")), 76);
    let rounds = tasks(&prep, "step", "stew");
    let figures: Vec<(i64, i64, i64, i64, i64)> = rounds
        .iter()
        .map(|task| {
            (
                minute(task, "round"),
                minute(task, "takes"),
                minute(task, "hands_minutes"),
                minute(task, "start_minute"),
                minute(task, "end_minute"),
            )
        })
        .collect();
    // Fixed hands fall in each round.
    assert_eq!(figures, [(1, 2, 2, 10, 43), (2, 1, 2, 43, 76)]);
}

#[test]
fn room_is_batches_times_takes_rounded_up() {
    // 1.5 batches of 1.5 trays are 2.25, up to 3: rounds of 2 and 1.
    let prep = stew(OVEN, "3", &does("hands = \"2 min\"\nwait = \"30 min\"\non = \"oven\"\ntakes = 1.5\ntemperature = \"180 °C\"")).prep();
    let takes: Vec<i64> = tasks(&prep, "step", "stew").iter().map(|task| minute(task, "takes")).collect();
    assert_eq!(takes, [2, 1]);
}

#[test]
fn growing_hands_are_split_by_load() {
    // 3 batches × 9 = 27: 18 for two trays, 9 for one.
    let prep =
        stew(OVEN, "6", &does("hands = \"9 min\"\nwait = \"30 min\"\non = \"oven\"\nscales = true\ntemperature = \"180 °C\"")).prep();
    let hands: Vec<i64> = tasks(&prep, "step", "stew").iter().map(|task| minute(task, "hands_minutes")).collect();
    assert_eq!(hands, [18, 9]);
}

#[test]
fn a_step_after_rounds_waits_for_all_of_them_where_the_counts_differ() {
    // Rounds end at 43 and 76; then 5 × 3 = 15.
    let steps = does("hands = \"2 min\"\nwait = \"30 min\"\non = \"oven\"\ntemperature = \"180 °C\"") + &then("hands = \"5 min\"");
    let prep = takes_minutes(&stew(OVEN, "6", &steps), 91);
    assert_eq!(minute(step(&prep, "stew", 2), "start_minute"), 76);
}

#[test]
fn round_follows_round_where_the_counts_agree() {
    // Two pans of two batches each in turn on one ring, then into a press for two: round 2 of the ring (20 to 40) overlaps round 1 of the press.
    // Ring: 4 batches in rounds of 2 of 20 min. Press: 30 min each: 20 to 50, 50 to 80.
    let appliances = "[[appliance]]\nname = \"ring\"\nroom = 2\n[[appliance]]\nname = \"press\"\nroom = 2\n";
    let steps = does("wait = \"20 min\"\non = \"ring\"") + &then("wait = \"30 min\"\non = \"press\"");
    takes_minutes(&stew(appliances, "8", &steps), 80);
}

#[test]
fn loads_within_near_share_a_run_at_the_lowest_temperature() {
    // Warm-up to 10; 10 to 43 and 12 to 45 (hands 2, wait 30, out 1), both at 180.
    let at = |celsius: &str| does(&format!("hands = \"2 min\"\nwait = \"30 min\"\non = \"oven\"\ntemperature = \"{celsius} °C\""));
    let prep = takes_minutes(&stew_and_roast(OVEN, &at("180"), &at("190")), 45);
    for id in ["stew", "roast"] {
        assert_eq!(step(&prep, id, 1)["at_celsius"].as_f64(), Some(180.0));
    }
    let set = tasks(&prep, "set", "");
    assert_eq!(set.len(), 1);
    assert_eq!((minute(set[0], "start_minute"), minute(set[0], "end_minute"), set[0]["at_celsius"].as_f64()), (0, 10, Some(180.0)));
    assert_eq!((set[0]["recipe"].clone(), set[0]["appliance"].as_str()), (Value::Null, Some("oven")));
}

#[test]
fn loads_further_apart_take_runs_of_their_own_with_a_warm_up_each() {
    // 10 + 33, 10 + 33 = 86.
    let at = |celsius: &str| does(&format!("hands = \"2 min\"\nwait = \"30 min\"\non = \"oven\"\ntemperature = \"{celsius} °C\""));
    let prep = takes_minutes(&stew_and_roast(OVEN, &at("180"), &at("191")), 86);
    assert_eq!(tasks(&prep, "set", "").len(), 2);
}

#[test]
fn there_is_no_warm_up_between_runs_at_the_same_temperature() {
    // An oven for one: 10 + 33 + 33 = 76.
    let at = does("hands = \"2 min\"\nwait = \"30 min\"\non = \"oven\"\ntemperature = \"180 °C\"");
    takes_minutes(&stew_and_roast(&OVEN.replace("room = 2", "room = 1"), &at, &at), 76);
}

#[test]
fn the_out_of_a_load_is_hands_on_and_follows_its_wait_at_once() {
    // Out 4: 10 + 2 + 30 + 4 = 46.
    let kitchen = stew(
        &format!("{OVEN}out = \"4 min\"\n"),
        "2",
        &does("hands = \"2 min\"\nwait = \"30 min\"\non = \"oven\"\ntemperature = \"180 °C\""),
    );
    let prep = takes_minutes(&kitchen, 46);
    let task = step(&prep, "stew", 1);
    assert_eq!((minute(task, "out_minutes"), task["out_person"].as_str()), (4, Some("cook")));
}

#[test]
fn out_keeps_other_hands_away_from_its_minutes() {
    // One oven load 10 to 43 with its out in minute 42 to 43; one long job of 30 and one of 20 without an appliance have to go around it.
    let oven = does("hands = \"2 min\"\nwait = \"30 min\"\non = \"oven\"\ntemperature = \"180 °C\"");
    let prep = stew_and_roast(OVEN, &oven, &(does("hands = \"30 min\"") + &then("hands = \"20 min\""))).prep();
    let load = step(&prep, "stew", 1);
    let out = minute(load, "end_minute") - 1;
    for number in [1, 2] {
        let job = step(&prep, "roast", number);
        let (start, end) = (minute(job, "start_minute"), minute(job, "start_minute") + minute(job, "hands_minutes"));
        assert!(end <= out || start > out, "{start} to {end} runs over the out at {out}");
    }
}

#[test]
fn a_pressure_cooker_takes_one_load_after_the_other() {
    // 25 + 25 = 50.
    let steps = does("hands = \"5 min\"\nwait = \"20 min\"\non = \"pressure cooker\"");
    takes_minutes(&stew_and_roast(PRESSURE_COOKER, &steps, &steps), 50);
}

#[test]
fn a_step_may_hold_several_appliances() {
    // Pot on the hob with the pressure cooker: the two recipes cannot overlap.
    let steps = does("hands = \"5 min\"\nwait = \"20 min\"\non = [\"hob\", \"pressure cooker\"]");
    let prep = takes_minutes(&stew_and_roast(&format!("{HOB}{PRESSURE_COOKER}"), &steps, &steps), 50);
    let task = step(&prep, "stew", 1);
    assert_eq!((task["appliance"].as_str(), task["also"].clone()), (Some("hob"), json!(["pressure cooker"])));
}

#[test]
fn a_gap_is_the_least_time_between_steps() {
    // 5, then an hour of the marinade, then 5: 70.
    let prep = takes_minutes(&stew("", "2", &(does("hands = \"5 min\"") + &then("hands = \"5 min\"\ngap = \"1 h\""))), 70);
    assert_eq!(minute(step(&prep, "stew", 2), "start_minute"), 65);
}

#[test]
fn within_is_the_most_time_between_steps() {
    // Step 1 may not end more than 10 before step 3, which waits for the hour of step 2: it is put off until minute 53 at the earliest.
    let steps = "[[step]]\nid = \"quick\"\ntext = \"Toast {bluegrain}.\"\nhands = \"3 min\"\n\
                 [[step]]\nid = \"slow\"\ntext = \"Simmer.\"\nwait = \"1 h\"\nafter = []\n\
                 [[step]]\ntext = \"Mix.\"\nhands = \"5 min\"\nafter = [\"quick\", \"slow\"]\nwithin = \"10 min\"\n";
    let prep = stew("", "2", steps).prep();
    // Within counts from the earliest of what it is after, so the slow step cannot end before the quick one by much either.
    assert_eq!(minute(session(&prep), "minutes"), 65);
    let last = minute(step(&prep, "stew", 3), "start_minute");
    assert_eq!(last, 60);
    assert!(last - minute(step(&prep, "stew", 1), "end_minute") <= 10);
}

#[test]
fn where_no_plan_holds_within_it_is_overrun_by_the_least_and_the_plan_is_printed_all_the_same() {
    // Step 2 takes 60 after step 1, and step 3 comes after both but within 10 of the first: overrun by 50, no more.
    let steps = "[[step]]\nid = \"first\"\ntext = \"Toast {bluegrain}.\"\nhands = \"3 min\"\n\
                 [[step]]\nid = \"slow\"\ntext = \"Simmer.\"\nwait = \"1 h\"\n\
                 [[step]]\ntext = \"Mix.\"\nhands = \"5 min\"\nafter = [\"first\", \"slow\"]\nwithin = \"10 min\"\n";
    let prep = stew("", "2", steps).prep();
    assert_eq!(minute(step(&prep, "stew", 3), "start_minute") - minute(step(&prep, "stew", 1), "end_minute"), 60);
    assert_eq!(minute(session(&prep), "minutes"), 68);
}

#[test]
fn an_empty_after_starts_free() {
    // Both waits at once: 30, not 60.
    takes_minutes(&stew("", "2", &(does("wait = \"30 min\"") + &then("wait = \"30 min\"\nafter = []"))), 30);
}

#[test]
fn a_step_may_follow_all_of_another_recipe() {
    let prep = takes_minutes(&stew_and_roast("", &does("wait = \"30 min\""), &does("hands = \"5 min\"\nafter = [\"recipe:stew\"]")), 35);
    assert_eq!(minute(step(&prep, "roast", 1), "start_minute"), 30);
}

/// A dish of two steps that takes the stew; `second` is the text of its second step.
fn with_component(second: &str) -> Value {
    let dish = format!(
        "name = \"Moon pie\"\nmakes = \"1 portion\"\nkeeps = {{ fridge = \"1 day\" }}\ningredients = \"\"\"\n1 portion recipe:stew\n50 g bluegrain\n\"\"\"\n\
         [[step]]\ntext = \"Roll out {{bluegrain}}.\"\nhands = \"10 min\"\n[[step]]\ntext = \"{second}\"\nhands = \"5 min\"\n"
    );
    stew("", "2", &does("wait = \"30 min\"")).recipe("pie", &dish).meals(&supper("2026-11-30", "\"1 portion recipe:pie\"")).prep()
}

#[test]
fn a_component_precedes_the_first_step_that_names_it() {
    // Rolling out goes on during the 30 of the stew: 30 + 5.
    assert_eq!(minute(session(&with_component("Fill with {recipe:stew}.")), "minutes"), 35);
}

#[test]
fn a_component_that_no_step_names_precedes_the_first() {
    // 30 + 10 + 5.
    assert_eq!(minute(session(&with_component("Fill and fold.")), "minutes"), 45);
}

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
    // (hands 5, wait 20, out 1; warm-up before), the roast's box in its wait, the stew's box to 209. Stew first: 10 + 26 + 3 + 180 + 3 = 222.
    let oven = does("hands = \"5 min\"\nwait = \"20 min\"\non = \"oven\"\ntemperature = \"180 °C\"");
    let kitchen =
        stew_and_roast(OVEN, &oven, &does("hands = \"180 min\"")).only_rules(&format!("boxing = \"3 min\"\nwash = \"0 min\"\n{OVEN}"));
    let prep = takes_minutes(&kitchen, 209);
    let boxed = minute(tasks(&prep, "box", "stew")[0], "start_minute");
    let left = minute(step(&prep, "stew", 1), "end_minute");
    assert!((left..=left + 120).contains(&boxed), "left the heat at {left}, boxed at {boxed}");
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
    // 12 h before 14:00 is 02:00; two batches soak 200 g. The session itself is the 10 of the second step.
    let steps = "[[step]]\ntext = \"Soak {bluegrain} in cold water.\"\nhands = \"3 min\"\nahead = \"12 h\"\n[[step]]\ntext = \"Cook.\"\nhands = \"5 min\"\n";
    let prep = takes_minutes(&stew("", "4", steps), 10);
    let before = prep["before"].as_array().expect("a list");
    assert_eq!(before.len(), 1);
    assert_eq!(before[0]["at"], "2026-11-29T02:00");
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
        session(&prep)["fetch"].as_array().expect("a list").iter().filter(|fetch| fetch["place"] == "cupboard").collect();
    assert_eq!(fetched.len(), 1);
    assert_eq!(fetched[0]["food"], "bluegrain");
    assert_amount(&fetched[0]["amount"], 60.0, "g");
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
        json!([{ "recipe": "stew", "portions": 3.0, "place": "fridge", "use_by": "2026-12-02", "for": ["Mon supper", "Tue supper"] }])
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
    let warning = !kitchen::stderr(&kitchen.run(&["prep"])).is_empty();
    assert!(advice || warning);
}

#[test]
fn the_same_kitchen_gives_the_same_bytes() {
    let steps = does("hands = \"5 min\"\nwait = \"30 min\"\non = \"hob\"") + &then("hands = \"7 min\"");
    let kitchen = stew_and_roast(HOB, &steps, &steps);
    let once = kitchen.run(&["--format", "json", "prep"]);
    assert_eq!(once.stdout, kitchen.run(&["--format", "json", "prep"]).stdout);
}
