//! What the plan of a session promises: rounds, shared ovens, gaps, the least finish.
//!
//! Sunday 29 November, 14:00, one cook, unless a test says otherwise. Minutes count from the session's start.

use pretty_assertions::assert_eq;
use serde_json::{Value, json};

use crate::kitchen::one_session::*;
use crate::kitchen::{minute, step, supper, tasks};

#[test]
fn a_step_is_its_hands_then_its_wait() {
    // 10 + 30, and 1 off the ring = 41: done at 14:41.
    let prep = takes_minutes(&stew(HOB, "2", &does("hands = \"10 min\"\nwait = \"30 min\"\non = \"hob\"")), 41);
    let task = step(&prep, "stew", 1);
    assert_eq!(
        (minute(task, "start_minute"), minute(task, "hands_minutes"), minute(task, "out_minutes"), minute(task, "end_minute")),
        (0, 10, 1, 41)
    );
    assert_eq!((task["person"].as_str(), task["appliance"].as_str(), task["round"].as_u64()), (Some("cook"), Some("hob"), Some(1)));
    assert_eq!(task["out_person"], "cook");
    assert_eq!((session(&prep)["start"].as_str(), session(&prep)["finish"].as_str()), (Some("2026-11-29T14:00"), Some("2026-11-29T14:41")));
    assert_eq!(session(&prep)["batches"], json!([{ "recipe": "stew", "batches": 1.0, "makes": { "amount": 2.0, "unit": "portion" } }]));
}

#[test]
fn one_person_does_one_hands_on_thing_at_a_time_and_waits_overlap() {
    // Hands 5 + 5 one after the other, the second waits 30 more and is taken off in 1: 41. The first is taken off at 35.
    let steps = does("hands = \"5 min\"\nwait = \"30 min\"\non = \"hob\"");
    takes_minutes(&stew_and_roast(HOB, &steps, &steps), 41);
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
    // 6 portions of 2 are 3 batches: 3 × 5 = 15 without, 5 with one, and 1 off the ring. The wait never grows.
    let free = takes_minutes(&stew("", "6", &does("hands = \"5 min\"\nwait = \"10 min\"")), 25);
    assert_eq!(minute(step(&free, "stew", 1), "hands_minutes"), 15);
    takes_minutes(&stew(HOB, "6", &does("hands = \"5 min\"\nwait = \"10 min\"\non = \"hob\"")), 16);
    takes_minutes(&stew(HOB, "6", &does("hands = \"5 min\"\nwait = \"10 min\"\non = \"hob\"\nscales = true")), 26);
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
    // Two pans of two batches each in turn on one ring, then into a press for two: round 2 of the ring (21 to 42) overlaps round 1 of the press.
    // Ring: 4 batches in rounds of 2 of 20 + 1 min. Press, which does not heat: 30 min each: 21 to 51, 51 to 81.
    let appliances = "[[appliance]]\nname = \"ring\"\nroom = 2\n[[appliance]]\nname = \"press\"\nroom = 2\n";
    let steps = does("wait = \"20 min\"\non = \"ring\"") + &then("wait = \"30 min\"\non = \"press\"");
    takes_minutes(&stew(appliances, "8", &steps), 81);
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
    // 5 + 20 + 1 = 26, twice: 52.
    let steps = does("hands = \"5 min\"\nwait = \"20 min\"\non = \"pressure cooker\"");
    takes_minutes(&stew_and_roast(PRESSURE_COOKER, &steps, &steps), 52);
}

#[test]
fn a_step_may_hold_several_appliances() {
    // Pot on the hob with the pressure cooker: the two recipes cannot overlap, 26 each.
    let steps = does("hands = \"5 min\"\nwait = \"20 min\"\non = [\"hob\", \"pressure cooker\"]");
    let prep = takes_minutes(&stew_and_roast(&format!("{HOB}{PRESSURE_COOKER}"), &steps, &steps), 52);
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
    assert!(session(&prep)["advice"].to_string().contains("50 min"), "the overrun is marked: {:#}", session(&prep)["advice"]);
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
fn unattended_appliances_run_only_while_somebody_is_present() {
    // The cook is there until 15:00, Jo from 15:30, minute 90. An hour on the hob fits only into Jo's time: 90 + 5 + 60 + 1 = 156.
    let week = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\npeople = [{ name = \"Ann\", as = \"cook\", until = \"15:00\" }, { name = \"Jo\", as = \"helper\", from = \"15:30\" }]\n".to_owned()
        + &supper("2026-11-30", "\"2 portions recipe:stew\"");
    let prep = takes_minutes(&stew(HOB, "2", &does("hands = \"5 min\"\nwait = \"1 h\"\non = \"hob\"")).week(&week), 156);
    assert_eq!(step(&prep, "stew", 1)["person"], "Jo");
}

#[test]
fn of_plans_that_finish_alike_the_steps_of_one_making_stand_close_together() {
    // The roast takes 60 whatever happens; the stew's two steps of 5 follow each other without a minute between.
    let prep =
        takes_minutes(&stew_and_roast("", &(does("hands = \"5 min\"") + &then("hands = \"5 min\"")), &does("wait = \"60 min\"")), 60);
    assert_eq!(minute(step(&prep, "stew", 1), "end_minute"), minute(step(&prep, "stew", 2), "start_minute"));
}

#[test]
fn a_gap_counts_from_the_latest_of_what_a_step_is_after() {
    // Waits of 10 and 30 at once; 20 after the later one: 50, and 5 of hands.
    let steps = "[[step]]\nid = \"short\"\ntext = \"Chill {bluegrain}.\"\nwait = \"10 min\"\n\
                 [[step]]\nid = \"long\"\ntext = \"Chill more.\"\nwait = \"30 min\"\nafter = []\n\
                 [[step]]\ntext = \"Mix.\"\nhands = \"5 min\"\nafter = [\"short\", \"long\"]\ngap = \"20 min\"\n";
    takes_minutes(&stew("", "2", steps), 55);
}

#[test]
fn a_pressure_cooker_of_known_size_is_filled_half_with_grains_and_two_thirds_with_the_rest() {
    // 100 g at 240 g a cup of 236.588 ml are 98.6 ml. Of 180 ml half is 90: two rounds of 20 + 1 min. Two thirds are 120: one round.
    let cooker = "[[appliance]]\nname = \"pressure cooker\"\ncomes_up = \"0 min\"\nholds = \"180 ml\"\n";
    let steps = does("wait = \"20 min\"\non = \"pressure cooker\"");
    let food = |kind: &str| format!("[[food]]\nname = \"bluegrain\"\nallergens = []\ncup = \"240 g\"\nkind = \"{kind}\"\n");
    let grain = takes_minutes(&stew(cooker, "2", &steps).foods(&food("grain")), 42);
    assert_eq!(tasks(&grain, "step", "stew").len(), 2);
    takes_minutes(&stew(cooker, "2", &steps).foods(&food("vegetable")), 21);
}

#[test]
fn a_pressure_cooker_is_not_split_where_no_volume_is_known() {
    let cooker = "[[appliance]]\nname = \"pressure cooker\"\ncomes_up = \"0 min\"\nholds = \"180 ml\"\n";
    takes_minutes(&stew(cooker, "2", &does("wait = \"20 min\"\non = \"pressure cooker\"")), 21);
}

/// Sunday's session with `keys` in it, and one supper of a stew.
fn one_session_with(keys: &str) -> String {
    let head = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n";
    format!("{head}{keys}\n{}", supper("2026-11-30", "\"2 portions recipe:stew\""))
}

#[test]
fn slower_hands_are_told_beside_the_plan() {
    // 52 min of hands: a tenth slower 57.2, done at 14:58; a fifth slower 62.4, done at 15:03, 3 min after 15:00.
    let kitchen = stew("", "2", &does("hands = \"52 min\"")).week(&one_session_with("finish_by = \"15:00\""));
    assert_eq!(
        session(&kitchen.prep())["slower"],
        json!([
            { "by": 0.1, "finish": "2026-11-29T14:58", "late": 0, "breaks": [] },
            { "by": 0.2, "finish": "2026-11-29T15:03", "late": 3, "breaks": [] }
        ])
    );
}

#[test]
fn a_calm_session_needs_a_time_to_keep_within() {
    let kitchen = stew("", "2", &does("hands = \"10 min\"")).week(&one_session_with("aim = \"calm\""));
    let said = kitchen.refusal();
    assert!(said.contains("a calm session has no finish_by to keep within"), "{said}");
    let kitchen = kitchen.week(&one_session_with("aim = \"calm\"\nfinish_by = \"17:30\""));
    assert_eq!(minute(session(&kitchen.prep()), "minutes"), 10);
}

#[test]
fn a_pressure_cooker_comes_up_before_it_cooks() {
    // 5 of hands, 10 to come up, 20 under pressure, 1 to let it off: 36. Without a wait nothing comes up: 5.
    let cooker = "[[appliance]]\nname = \"pressure cooker\"\n";
    let steps = does("hands = \"5 min\"\nwait = \"20 min\"\non = \"pressure cooker\"");
    takes_minutes(&stew(cooker, "2", &steps), 36);
    takes_minutes(&stew(&format!("{cooker}comes_up = \"4 min\"\n"), "2", &steps), 30);
    takes_minutes(&stew(cooker, "2", &does("hands = \"5 min\"\non = \"pressure cooker\"")), 5);
    // A slow cooker takes no time of its own: 26.
    takes_minutes(&stew("[[appliance]]\nname = \"slow cooker\"\n", "2", &steps.replace("pressure", "slow")), 26);
}

#[test]
fn the_washing_up_comes_once_and_last_and_counts() {
    // 10 and 20 of hands, then 15 of washing up: 45. The cook of two who is free sooner does it: 20 + 15.
    let kitchen = |people: &str| {
        let head = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\n";
        let week = format!("{head}people = {people}\n{}", supper("2026-11-30", "\"2 portions recipe:stew\", \"2 portions recipe:roast\""));
        stew_and_roast("", &does("hands = \"10 min\""), &does("hands = \"20 min\"")).rules("wash_up = \"15 min\"").week(&week)
    };
    let prep = takes_minutes(&kitchen("[\"cook\"]"), 45);
    let washing = tasks(&prep, "wash_up", "");
    assert_eq!(washing.len(), 1);
    assert_eq!((minute(washing[0], "start_minute"), minute(washing[0], "hands_minutes"), &washing[0]["recipe"]), (30, 15, &Value::Null));
    takes_minutes(&kitchen("[\"cook\", \"Jo\"]"), 35);
}

#[test]
fn what_is_soaking_is_not_fetched_again() {
    // 100 g put in water at two o'clock on Sunday morning.
    let kitchen = stew("", "2", &(does("ahead = \"12 h\"") + &then("hands = \"10 min\"")));
    let text = crate::kitchen::stdout(&kitchen.run(&["prep"]));
    assert!(text.contains("100 g bluegrain  begun Sun 29 Nov 02:00"), "{text}");
    // The book takes it off the shelf with the session all the same.
    let prep = kitchen.prep();
    assert_eq!(session(&prep)["fetch"][0]["food"], "bluegrain");
}

#[test]
fn what_needs_no_hands_is_somebody_s_all_the_same() {
    // Jo kneads and leaves it to rise; she may not bake, so the cook puts it in.
    let steps = does("hands = \"10 min\"\nwho = \"helper\"") + &then("wait = \"30 min\"") + &then("wait = \"20 min\"\non = \"oven\"");
    let week = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\n\
                people = [\"cook\", { name = \"Jo\", as = \"helper\", may = [\"mix\"] }]\n";
    let kitchen = stew(OVEN, "2", &steps).week(&format!("{week}{}", supper("2026-11-30", "\"2 portions recipe:stew\"")));
    let prep = kitchen.prep();
    let of = |number: u64| step(&prep, "stew", number)["person"].as_str().map(str::to_owned);
    assert_eq!([of(1), of(2), of(3)], [Some("Jo".to_owned()), Some("Jo".to_owned()), Some("cook".to_owned())]);
    // The household's order, though Jo begins.
    let text = crate::kitchen::stdout(&kitchen.run(&["prep"]));
    let heads = text.lines().find(|line| line.contains("cook") && line.contains("oven") && !line.contains(';')).expect("a chart");
    assert!(heads.find("cook") < heads.find("Jo"), "{heads}");
}

#[test]
fn what_goes_to_the_freezer_alone_is_told_to_be_in_the_freezer() {
    let steps = does("hands = \"1 min\"\nwait = \"20 min\"\non = \"hob\"");
    let recipe = recipe("Moon stew", &steps).replace("fridge = \"3 days\"", "freezer = \"90 days\"");
    let kitchen = stew(HOB, "2", &steps).only_rules(&format!("boxing = \"3 min\"\n{HOB}")).recipe("stew", &recipe);
    let kitchen = kitchen.meals(&supper("2026-12-03", "\"2 portions recipe:stew\""));
    let text = crate::kitchen::stdout(&kitchen.run(&["prep"]));
    assert!(text.contains("☐ in the freezer by 16:22"), "{text}");
}

#[test]
fn what_is_good_only_today_is_not_boxed_after_its_meal() {
    // Two portions are made and one is eaten, straight from the pot, of what does not keep.
    let steps = does("hands = \"10 min\"");
    let recipe = recipe("Moon stew", &steps).replace("keeps = { fridge = \"3 days\" }", "serve = \"hot\"");
    let week = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-30T18:00\nfinish_by = \"18:30\"\n\
                people = [\"cook\"]\n";
    let kitchen = stew("", "1", &steps).only_rules("boxing = \"3 min\"").recipe("stew", &recipe);
    let prep = kitchen.week(&format!("{week}{}", supper("2026-11-30", "\"1 portion recipe:stew\""))).prep();
    assert_eq!((session(&prep)["boxes"].as_array().map(Vec::len), tasks(&prep, "box", "").len()), (Some(0), 0));
}

#[test]
fn what_is_kept_back_from_its_box_is_told() {
    // 400 g of sauce, 100 of it into the roast; the sauce is boxed before the roast takes it, which simmers for an hour first.
    let sauce = "name = \"Sun sauce\"\nmakes = \"400 g\"\nportion = \"100 g\"\nkeeps = { fridge = \"3 days\" }\ningredients = \"\"\"\n\
                 100 g bluegrain\n\"\"\"\n[[step]]\ntext = \"Stir {bluegrain}.\"\nhands = \"5 min\"\n";
    let roast = "name = \"Moon roast\"\nmakes = \"1 portion\"\nbatches = \"any\"\nkeeps = { fridge = \"3 days\" }\ningredients = \"\"\"\n\
                 100 g bluegrain\n100 g recipe:sauce\n\"\"\"\n[[step]]\ntext = \"Simmer {bluegrain}.\"\nhands = \"1 min\"\nwait = \"1 h\"\n\
                 on = \"hob\"\n[[step]]\ntext = \"Add {recipe:sauce}.\"\nhands = \"2 min\"\n";
    let kitchen = stew(HOB, "2", &does("hands = \"1 min\"")).only_rules(&format!("boxing = \"3 min\"\n{HOB}"));
    let kitchen = kitchen.recipe("sauce", sauce).recipe("roast", roast);
    let kitchen = kitchen.meals(&supper("2026-11-30", "\"1 portion recipe:roast\", \"3 portions recipe:sauce\""));
    let text = crate::kitchen::stdout(&kitchen.run(&["prep"]));
    assert!(text.contains("Keep back 100 g for moon roast"), "{text}");
}

#[test]
fn what_rises_by_itself_is_seen_to_by_nobody_who_has_left() {
    // Jo makes it, and leaves at 14:20; the rise of what Jo made begins half an hour after it.
    let steps = does("hands = \"10 min\"\nwho = \"helper\"")
        + &then("wait = \"20 min\"\ngap = \"30 min\"")
        + &then("hands = \"5 min\"\nwho = \"cook\"");
    let kitchen = |until: &str| {
        let people = format!("people = [\"cook\", {{ name = \"Jo\", as = \"helper\", until = \"{until}\" }}]\n");
        let meal = supper("2026-11-30", "\"2 portions recipe:stew\"");
        stew("", "2", &steps)
            .week(&format!("from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\n{people}{meal}"))
    };
    let sees_to_it = |until: &str| step(&kitchen(until).prep(), "stew", 2)["person"].clone();
    assert_eq!(sees_to_it("17:00"), "Jo");
    assert_eq!(sees_to_it("14:20"), serde_json::Value::Null);
}
