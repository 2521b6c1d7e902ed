//! What `prep` advises where a session ends too late, where no plan keeps every rule, and where two sessions meet.
//!
//! Sunday 29 November, 14:00, one cook, unless a test says otherwise.

use pretty_assertions::assert_eq;
use serde_json::Value;

use crate::kitchen::one_session::*;
use crate::kitchen::{Kitchen, minute, stdout, step, supper};

fn advice(prep: &Value, session: usize) -> Vec<String> {
    let said = prep["sessions"][session]["advice"].as_array().expect("a list");
    said.iter().map(|text| text.as_str().expect("words").to_owned()).collect()
}

fn week(sessions: &str, meals: &str) -> String {
    format!("from = 2026-11-30\n[[trip]]\non = 2026-11-28\n{sessions}{meals}")
}

/// One cook from 14:00, to be done by then; Monday eats stew and roast.
fn done_by(kitchen: Kitchen, by: &str) -> Kitchen {
    let session = format!("[[session]]\nstart = 2026-11-29T14:00\nfinish_by = \"{by}\"\npeople = [\"cook\"]\n");
    kitchen.week(&week(&session, &supper("2026-11-30", "\"2 portions recipe:stew\", \"2 portions recipe:roast\"")))
}

#[test]
fn an_appliance_that_binds_is_named_with_its_minutes_and_what_more_room_would_save() {
    // The pressure cooker: 5 + 20 + 1 = 26, twice: 52. With room for two: 5 + 5 + 20 + 1 = 31. A second person helps nothing.
    let steps = does("hands = \"5 min\"\nwait = \"20 min\"\non = \"pressure cooker\"");
    let prep = done_by(stew_and_roast(PRESSURE_COOKER, &steps, &steps), "14:40").prep();
    let expected = [
        "This session ends at 14:52, 12 min after 14:40.",
        "It ends with moon stew, step 1.",
        "What binds is the pressure cooker, full for 52 min.",
        "With room for one more load in the pressure cooker it would end at 14:31, in time.",
        "Without moon stew: 14:26, in time.",
        "One more pair of hands would gain nothing.",
    ];
    assert_eq!(advice(&prep, 0), expected);
}

#[test]
fn hands_that_bind_are_named_with_their_minutes_and_what_one_more_person_would_save() {
    // 40 + 40 = 80; with two people 40.
    let steps = does("hands = \"40 min\"");
    let prep = done_by(stew_and_roast("", &steps, &steps), "15:00").prep();
    let expected = [
        "This session ends at 15:20, 20 min after 15:00.",
        "It ends with moon stew, step 1.",
        "What binds is hands-on work, 1 h 20 min for one pair of hands.",
        "With one more person it would end at 14:40, in time.",
        "Without moon stew: 14:40, in time.",
    ];
    assert_eq!(advice(&prep, 0), expected);
}

#[test]
fn a_chain_that_binds_is_named_and_nothing_is_promised_that_would_not_help() {
    // The stew: 10 + 60 + 1, then 10. Neither more hands nor more rings make it shorter; 21 less is what the session has.
    let chain = does("hands = \"10 min\"\nwait = \"1 h\"\non = \"hob\"") + &then("hands = \"10 min\"");
    let prep = done_by(stew_and_roast(HOB, &chain, &does("hands = \"5 min\"")), "15:00").prep();
    let expected = [
        "This session ends at 15:21, 21 min after 15:00.",
        "It ends with moon stew, step 2.",
        "What binds is the longest chain of steps, up to Moon stew, step 2: 1 h 21 min.",
        "Without moon stew: 14:05, in time.",
        "One more pair of hands would gain nothing.",
    ];
    assert_eq!(advice(&prep, 0), expected);
}

#[test]
fn a_recipe_moved_to_the_other_session_is_among_the_best_three() {
    // Monday's session is the latest for Monday's supper: 40 + 40, by 15:00. Sunday could make either, and both keep until Monday.
    let steps = does("hands = \"40 min\"");
    let sessions = "[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n\
                    [[session]]\nstart = 2026-11-30T14:00\nfinish_by = \"15:00\"\npeople = [\"cook\"]\n";
    let meals = supper("2026-11-30", "\"2 portions recipe:stew\", \"2 portions recipe:roast\"");
    let prep = stew_and_roast("", &steps, &steps).week(&week(sessions, &meals)).prep();
    assert_eq!(advice(&prep, 0), Vec::<String>::new());
    let expected = [
        "This session ends at 15:20, 20 min after 15:00.",
        "It ends with moon stew, step 1.",
        "What binds is hands-on work, 1 h 20 min for one pair of hands.",
        "With one more person it would end at 14:40, in time.",
        "With sun roast moved to the session on Sun 14:00 it would end at 14:40, in time.",
        "With moon stew moved to the session on Sun 14:00 it would end at 14:40, in time.",
        "Without moon stew: 14:40, in time.",
    ];
    assert_eq!(advice(&prep, 1), expected);
}

#[test]
fn a_limit_that_the_steps_between_rule_out_is_named_alone() {
    // Step 3 within 10 of step 1, and step 2 takes 60 between them: 50 too late. 3 + 60 + 5 = 68.
    let steps = "[[step]]\nid = \"first\"\ntext = \"Toast {bluegrain}.\"\nhands = \"3 min\"\n\
                 [[step]]\nid = \"slow\"\ntext = \"Simmer.\"\nwait = \"1 h\"\n\
                 [[step]]\ntext = \"Mix.\"\nhands = \"5 min\"\nafter = [\"first\", \"slow\"]\nwithin = \"10 min\"\n";
    let expected = [
        "No plan keeps every rule: Moon stew, step 3 starts 50 min too late (within 10 min of Moon stew, step 1).",
        "This rule cannot be kept, given the times of the steps: Moon stew, step 3 within 10 min of Moon stew, step 1.",
    ];
    let kitchen = stew("", "2", steps);
    assert_eq!(advice(&takes_minutes(&kitchen, 68), 0), expected);
    let said = stdout(&kitchen.run(&["prep"]));
    assert!(said.contains("Starts 50 min later than the recipe allows"), "the step itself is marked: {said}");
}

#[test]
fn a_session_that_ends_after_midnight_names_the_day() {
    // 14:00 and 11 h.
    let said = stdout(&stew("", "2", &does("wait = \"11 h\"")).run(&["prep"]));
    assert!(said.contains("Sun 29 Nov 14:00 to Mon 30 Nov 01:00: 660 min"), "{said}");
}

#[test]
fn limits_that_clash_are_named_together_and_no_others() {
    // One pot: 31 and 31 one after the other, then mixed within 10 of both: the first stands 31, 21 too many. 62 + 5 = 67.
    // The roast's limit has nothing to do with it.
    let steps = "[[step]]\nid = \"one\"\ntext = \"Cook {bluegrain}.\"\nwait = \"30 min\"\non = \"pressure cooker\"\n\
                 [[step]]\nid = \"two\"\ntext = \"Cook the rest.\"\nwait = \"30 min\"\non = \"pressure cooker\"\nafter = []\n\
                 [[step]]\ntext = \"Mix.\"\nhands = \"5 min\"\nafter = [\"one\", \"two\"]\nwithin = \"10 min\"\n";
    let roast = does("hands = \"5 min\"") + &then("hands = \"5 min\"\nwithin = \"30 min\"");
    let said = advice(&takes_minutes(&stew_and_roast(PRESSURE_COOKER, steps, &roast), 67), 0);
    assert_eq!(said.len(), 2, "{said:?}");
    assert!(
        said[0].starts_with("No plan keeps every rule: Moon stew, step 3 starts 21 min too late (within 10 min of Moon stew, step "),
        "{said:?}"
    );
    let rules = "Moon stew, step 3 within 10 min of Moon stew, step 1; Moon stew, step 3 within 10 min of Moon stew, step 2";
    assert_eq!(said[1], format!("These rules cannot all be kept together: {rules}."));
}

#[test]
fn people_s_hours_are_named_where_they_stand_in_the_way_of_a_limit() {
    // The cook leaves at 30, Jo comes at 60 and has to go on within 20 of the cook's end: 10 too late.
    let sessions = "[[session]]\nstart = 2026-11-29T14:00\npeople = [{ name = \"Ann\", as = \"cook\", until = \"14:30\" }, \
                    { name = \"Jo\", as = \"helper\", from = \"15:00\" }]\n";
    let steps = does("hands = \"10 min\"\nwho = \"cook\"") + &then("hands = \"10 min\"\nwho = \"helper\"\nwithin = \"20 min\"");
    let kitchen = stew("", "2", &steps).week(&week(sessions, &supper("2026-11-30", "\"2 portions recipe:stew\"")));
    let expected = [
        "No plan keeps every rule: Moon stew, step 2 starts 10 min too late (within 20 min of Moon stew, step 1).",
        "These rules cannot all be kept together: Moon stew, step 2 within 20 min of Moon stew, step 1; the hours at which people are there.",
    ];
    assert_eq!(advice(&takes_minutes(&kitchen, 70), 0), expected);
}

#[test]
fn a_making_that_cannot_be_boxed_in_time_is_called_unsafe_and_never_a_mere_overrun() {
    // Off the hob at 31, worked on for 155 min, then boxed: 155 min after the heat, and 120 is the most.
    let steps = does("wait = \"30 min\"\non = \"hob\"") + &then("hands = \"155 min\"\nscales = false");
    let said = advice(&stew("", "2", &steps).only_rules(HOB).prep(), 0);
    assert!(said[0].starts_with(
        "Not safe as planned: boxing of moon stew starts 2 h 35 min after the end of Moon stew, step 1, and 2 h is the most."
    ));
    assert!(!said.iter().any(|text| text.contains("too late")), "{said:?}");
}

#[test]
fn a_rest_gives_way_before_the_two_hours_do_and_is_told() {
    // Off the hob at 31, stirred two and a half hours later for 5 min, then boxed: 155 min after the heat. The rest is cut to 115.
    let steps = does("wait = \"30 min\"\non = \"hob\"") + &then("hands = \"5 min\"\ngap = \"150 min\"");
    let said = advice(&stew("", "2", &steps).only_rules(HOB).prep(), 0);
    assert_eq!(said[0], "Moon stew, step 2 starts only 1 h 55 min after Moon stew, step 1, which should rest 2 h 30 min.");
    let rules = "boxing of moon stew within 2 h of Moon stew, step 1; Moon stew, step 2 at least 2 h 30 min after Moon stew, step 1";
    assert_eq!(said[1..], [format!("These rules cannot all be kept together: {rules}.")]);
}

#[test]
fn where_only_a_rest_breaks_it_is_named_in_the_clash() {
    // Step 4 starts within 30 of step 2, which starts within 10 of step 1: at 3 + 10 + 5 + 30 = 48 at the latest. So step 3, 2 min before
    // it, starts at 46: 43 after step 1, not 60. 48 + 2 = 50. The rest of the roast is kept and is not named.
    let steps = "[[step]]\nid = \"one\"\ntext = \"Toast {bluegrain}.\"\nhands = \"3 min\"\n\
                 [[step]]\nid = \"two\"\ntext = \"Stir.\"\nhands = \"5 min\"\nwithin = \"10 min\"\n\
                 [[step]]\nid = \"three\"\ntext = \"Turn.\"\nhands = \"2 min\"\nafter = [\"one\"]\ngap = \"1 h\"\n\
                 [[step]]\ntext = \"Mix.\"\nhands = \"2 min\"\nafter = [\"two\", \"three\"]\nwithin = \"30 min\"\n";
    let roast = does("hands = \"1 min\"") + &then("hands = \"1 min\"\ngap = \"20 min\"");
    let expected = [
        "Moon stew, step 3 starts only 43 min after Moon stew, step 1, which should rest 1 h.",
        "These rules cannot all be kept together: Moon stew, step 2 within 10 min of Moon stew, step 1; \
         Moon stew, step 4 within 30 min of Moon stew, step 2; Moon stew, step 3 at least 1 h after Moon stew, step 1.",
    ];
    assert_eq!(advice(&takes_minutes(&stew_and_roast("", steps, &roast), 50), 0), expected);
}

#[test]
fn people_s_hours_are_named_where_they_stand_in_the_way_of_a_rest() {
    // Ann leaves at 30: the second step starts at 20, 10 after the first, and its rest is 50 short.
    let sessions = "[[session]]\nstart = 2026-11-29T14:00\npeople = [{ name = \"Ann\", as = \"cook\", until = \"14:30\" }]\n";
    let steps = does("hands = \"10 min\"") + &then("hands = \"10 min\"\ngap = \"1 h\"");
    let kitchen = stew("", "2", &steps).week(&week(sessions, &supper("2026-11-30", "\"2 portions recipe:stew\"")));
    let expected = [
        "Moon stew, step 2 starts only 10 min after Moon stew, step 1, which should rest 1 h.",
        "These rules cannot all be kept together: Moon stew, step 2 at least 1 h after Moon stew, step 1; the hours at which people are there.",
    ];
    assert_eq!(advice(&takes_minutes(&kitchen, 30), 0), expected);
}

#[test]
fn people_s_hours_are_named_where_they_stand_in_the_way_of_what_is_served() {
    // Supper is at 18:30 and Ann leaves at 18:00; the stew may stand for 5 min, and ends at 18:00: 25 too early.
    let sessions = "[[session]]\nstart = 2026-11-29T17:00\nfinish_by = \"18:00\"\n\
                    people = [{ name = \"Ann\", as = \"cook\", until = \"18:00\" }]\n";
    let text = recipe("Moon stew", &does("hands = \"10 min\"")).replace("makes", "serve = \"hot\"\nhold = \"5 min\"\nmakes");
    let kitchen = stew("", "2", "").recipe("stew", &text).week(&week(sessions, &supper("2026-11-29", "\"2 portions recipe:stew\"")));
    let expected = [
        "Moon stew, step 1 is done at 18:00, 30 min before it is served at 18:30; it keeps for 5 min (hold).",
        "These rules cannot all be kept together: Moon stew, step 1 done at most 5 min before it is served; \
         the hours at which people are there.",
    ];
    assert_eq!(advice(&kitchen.prep(), 0), expected);
}

#[test]
fn a_component_off_the_heat_waits_no_longer_than_two_hours_for_the_box_of_its_cold_dish() {
    // The dish proves for 180, is filled with the stew for 5 and boxed from 185 on: the stew leaves the hob at 65 or later.
    let pie = "name = \"Moon pie\"\nmakes = \"1 portion\"\nkeeps = { fridge = \"1 day\" }\ningredients = \"\"\"\n1 portion recipe:stew\n50 g bluegrain\n\"\"\"\n\
               [[step]]\ntext = \"Let {bluegrain} prove.\"\nwait = \"3 h\"\n[[step]]\ntext = \"Fill with {recipe:stew}.\"\nhands = \"5 min\"\n";
    let kitchen = stew("", "2", &does("wait = \"10 min\"\non = \"hob\"")).recipe("pie", pie).only_rules(HOB);
    let prep = takes_minutes(&kitchen.meals(&supper("2026-11-30", "\"1 portion recipe:pie\"")), 188);
    assert!(minute(step(&prep, "stew", 1), "end_minute") >= 65, "{prep:#}");
}

#[test]
fn a_rest_that_the_hours_alone_cut_is_named_with_them_although_somebody_stays() {
    // Ann comes for 14:00 to 14:15 and needs 10 + 10: she stays 5 min longer, and the rest is nothing.
    let sessions = "[[session]]\nstart = 2026-11-29T14:00\npeople = [{ name = \"Ann\", as = \"cook\", until = \"14:15\" }]\n";
    let steps = does("hands = \"10 min\"") + &then("hands = \"10 min\"\ngap = \"1 h\"");
    let kitchen = stew("", "2", &steps).week(&week(sessions, &supper("2026-11-30", "\"2 portions recipe:stew\"")));
    let expected = [
        "Ann stays 5 min longer, until 14:20.",
        "Moon stew, step 2 starts at once after Moon stew, step 1, which should rest 1 h.",
        "These rules cannot all be kept together: Moon stew, step 2 at least 1 h after Moon stew, step 1; the hours at which people are there.",
    ];
    assert_eq!(advice(&takes_minutes(&kitchen, 20), 0), expected);
}

#[test]
fn rather_than_let_half_cooked_food_stand_somebody_stays_longer() {
    // Ann leaves at 14:30, Jo comes at 17:00 and heats it again: it may leave the hob at 15:00 at the earliest.
    let sessions = "[[session]]\nstart = 2026-11-29T14:00\npeople = [{ name = \"Ann\", as = \"cook\", until = \"14:30\" }, \
                    { name = \"Jo\", as = \"helper\", from = \"17:00\" }]\n";
    let steps = does("hands = \"10 min\"\non = \"hob\"\nwho = \"cook\"") + &then("hands = \"10 min\"\non = \"hob\"\nwho = \"helper\"");
    let kitchen = stew(HOB, "2", &steps).only_rules(HOB).week(&week(sessions, &supper("2026-11-30", "\"2 portions recipe:stew\"")));
    assert_eq!(advice(&kitchen.prep(), 0)[0], "Ann stays 30 min longer, until 15:00.");
}

#[test]
fn two_sessions_that_want_the_same_person_at_one_time_say_so() {
    // Sunday's supper can only come from the session at 14:00 (90 min), Monday's comes from the one at 15:00: both want the cook.
    let sessions = "[[session]]\nstart = 2026-11-29T14:00\nfinish_by = \"16:00\"\npeople = [\"cook\"]\n\
                    [[session]]\nstart = 2026-11-29T15:00\nfinish_by = \"21:00\"\npeople = [\"cook\"]\n";
    let meals = supper("2026-11-29", "\"2 portions recipe:stew\"") + &supper("2026-11-30", "\"2 portions recipe:roast\"");
    let kitchen = stew_and_roast("", &does("hands = \"90 min\""), &does("hands = \"30 min\""));
    let prep = kitchen.week(&week(sessions, &meals)).prep();
    assert_eq!(advice(&prep, 0), Vec::<String>::new());
    assert_eq!(advice(&prep, 1), ["Cook is wanted by the session of Sun 29 Nov 14:00 at the same time. Move one of the two."]);
}

#[test]
fn what_is_added_to_taste_is_fetched_without_an_amount() {
    let text = recipe("Moon stew", &does("hands = \"5 min\"")).replace("100 g bluegrain\n", "100 g bluegrain\nmoonsalt, to taste\n");
    let foods = "[[food]]\nname = \"bluegrain\"\nallergens = []\n[[food]]\nname = \"moonsalt\"\nallergens = []\n";
    let said = stdout(&stew("", "2", "").foods(foods).recipe("stew", &text).run(&["prep"]));
    let fetched = said.lines().find(|line| line.trim_start().starts_with("moonsalt")).unwrap_or_default();
    assert!(fetched.contains("to taste") && !fetched.contains("0 g"), "{said}");
}

#[test]
fn without_a_dish_its_component_is_not_cooked_either_and_all_is_never_left_out() {
    // The pie of 20 is made of the stew of 30, which goes nowhere else; the roast takes 40: 90, 10 too late. Without the pie 40.
    let pie = recipe("Moon pie", &does("hands = \"20 min\"")).replace("100 g bluegrain", "100 g bluegrain\n2 portions recipe:stew");
    let session = "[[session]]\nstart = 2026-11-29T14:00\nfinish_by = \"15:20\"\npeople = [\"cook\"]\n";
    let kitchen = |meal: &str| {
        let kitchen = stew_and_roast("", &does("hands = \"30 min\""), &does("hands = \"40 min\"")).recipe("pie", &pie);
        kitchen.week(&week(session, &supper("2026-11-30", meal)))
    };
    let both = advice(&kitchen("\"2 portions recipe:pie\", \"2 portions recipe:roast\"").prep(), 0);
    assert!(both.contains(&"Without sun roast: 14:50, in time.".to_owned()), "{both:?}");
    let late = session.replace("15:20", "14:45");
    let kitchen_late = kitchen("\"2 portions recipe:pie\", \"2 portions recipe:roast\"");
    let late = kitchen_late.week(&week(&late, &supper("2026-11-30", "\"2 portions recipe:pie\", \"2 portions recipe:roast\"")));
    let said = advice(&late.prep(), 0);
    assert!(said.contains(&"Without moon pie: 14:40, in time.".to_owned()), "{said:?}");
    let alone = kitchen("\"2 portions recipe:pie\"")
        .week(&week(&session.replace("15:20", "14:20"), &supper("2026-11-30", "\"2 portions recipe:pie\"")));
    let said = advice(&alone.prep(), 0);
    assert!(said.iter().all(|one| !one.starts_with("Without")), "{said:?}");
}

#[test]
fn a_calm_session_that_cannot_keep_its_tenth_free_says_so() {
    // 57 of 60 min: 6 should be free, 3 are.
    let session = "[[session]]\nstart = 2026-11-29T14:00\nfinish_by = \"15:00\"\naim = \"calm\"\npeople = [\"cook\"]\n";
    let kitchen = |hands: &str| {
        stew("", "2", &does(&format!("hands = \"{hands}\""))).week(&week(session, &supper("2026-11-30", "\"2 portions recipe:stew\"")))
    };
    let expected = "A calm session keeps the last 6 min before 15:00 free; no plan was found that leaves more than 3 min.";
    assert_eq!(advice(&kitchen("57 min").prep(), 0), [expected]);
    assert_eq!(advice(&kitchen("54 min").prep(), 0), Vec::<String>::new());
}

#[test]
fn a_cooling_time_beyond_the_hour_of_grains_is_told() {
    let kitchen = stew("", "2", &does("hands = \"10 min\"")).only_rules("cool = \"90 min\"");
    let said = crate::kitchen::stderr(&kitchen.run(&["check"]));
    assert!(said.contains("cool is 1 h 30 min, but cooked rice and grains are boxed within 1 h of leaving the heat"), "{said}");
}

#[test]
fn what_is_soaked_before_it_is_bought_is_told_in_list_check_and_guide() {
    // Soaked at 14:00 less 12 h, 02:00 on Sunday: nothing that Sunday's trip brings is at home then; Saturday's brings it in time.
    let steps = step_ahead("12 h") + &does("hands = \"10 min\"");
    let told = |trip: &str| {
        let week = format!("from = 2026-11-30\n[[trip]]\non = {trip}\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n");
        let kitchen = stew("", "2", &steps).week(&(week + &supper("2026-11-30", "\"2 portions recipe:stew\"")));
        let warnings: Vec<String> = ["list", "check", "prep"].iter().map(|verb| crate::kitchen::stderr(&kitchen.run(&[verb]))).collect();
        let before = kitchen.prep()["before"][0]["text"].as_str().expect("words").to_owned();
        (warnings.iter().map(|said| said.contains("bluegrain: wanted for this step on")).collect::<Vec<_>>(), before)
    };
    let late = "Cook 100 g bluegrain. (not at home yet: bluegrain bought only on Sun 29 Nov)";
    assert_eq!(told("2026-11-29"), (vec![true; 3], late.to_owned()));
    assert_eq!(told("2026-11-28"), (vec![false; 3], "Cook 100 g bluegrain.".to_owned()));
}

fn step_ahead(long: &str) -> String {
    does(&format!("ahead = \"{long}\""))
}

/// Served hot on Monday at 18:30; 40 min by hand, begun at 18:00.
fn served_late() -> Kitchen {
    let steps = does("hands = \"40 min\"");
    let recipe = recipe("Moon stew", &steps).replacen("makes", "serve = \"hot\"\nmakes", 1);
    let sessions = "[[session]]\nstart = 2026-11-30T18:00\nfinish_by = \"18:30\"\npeople = [\"cook\"]\n";
    stew("", "2", &steps).recipe("stew", &recipe).week(&week(sessions, &supper("2026-11-30", "\"2 portions recipe:stew\"")))
}

#[test]
fn a_dish_that_is_late_for_its_meal_is_told_as_late_with_what_would_help() {
    let kitchen = served_late();
    let expected = [
        "Moon stew, step 1 is done at 18:40, 10 min late for the meal at 18:30.",
        "What would help: begin 10 min sooner, at 17:50, have the meal 10 min later, or make one dish less.",
        "This rule cannot be kept, given the times of the steps: Moon stew, step 1 done by 18:30, when it is served.",
    ];
    assert_eq!(advice(&kitchen.prep(), 0), expected);
    let text = stdout(&kitchen.run(&["prep"]));
    let told = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(told.contains("Mon 30 Nov 18:00 to 18:40, to finish by 18:30, for the meal at 18:30, 10 min late"), "{text}");
    assert!(!told.contains("Serve it at 18:30"), "{text}");
}

#[test]
fn slow_hands_are_told_by_the_meal_where_all_is_served_hot() {
    // Ten minutes by hand from 18:00 on, held for 30 min at most: a fifth slower is 12 min.
    let steps = does("hands = \"10 min\"");
    let recipe = recipe("Moon stew", &steps).replacen("makes", "serve = \"hot\"\nmakes", 1);
    let sessions = "[[session]]\nstart = 2026-11-30T18:00\nfinish_by = \"18:30\"\npeople = [\"cook\"]\n";
    let kitchen = stew("", "2", &steps).recipe("stew", &recipe);
    let kitchen = kitchen.week(&week(sessions, &supper("2026-11-30", "\"2 portions recipe:stew\"")));
    let text = stdout(&kitchen.run(&["prep"]));
    assert!(text.contains("a fifth slower: served at 18:30 all the same; nothing breaks"), "{text}");
    assert!(text.contains("- Serve it at 18:30"), "{text}");
}

#[test]
fn room_for_one_more_pot_is_on_the_hob() {
    let one_ring = "[[appliance]]\nname = \"hob\"\nroom = 1\n";
    let pot = does("hands = \"1 min\"\nwait = \"20 min\"\non = \"hob\"");
    let told = advice(&done_by(stew_and_roast(one_ring, &pot, &pot), "14:30").prep(), 0);
    assert!(told.iter().any(|one| one.starts_with("With room for one more load on the hob it would end at")), "{told:?}");
}

#[test]
fn an_oven_that_does_not_share_one_temperature_is_told_of_where_it_holds_two_and_each_step_has_its_degrees() {
    let oven = "[[appliance]]\nname = \"oven\"\nroom = 2\n";
    let roast = |celsius: i64| format!("method = \"Roast the bluegrain at {celsius} °C for 40 minutes.\"\n");
    let prep = done_by(stew_and_roast(oven, &roast(150), &roast(230)), "18:00").prep();
    let told = advice(&prep, 0);
    assert!(told.iter().any(|text| text.starts_with("The oven holds one load at") && text.contains("heat = true")), "{told:?}");
    let tasks = prep["sessions"][0]["tasks"].as_array().expect("a list");
    let mut degrees: Vec<f64> = tasks.iter().filter_map(|task| task["at_celsius"].as_f64()).collect();
    degrees.sort_by(f64::total_cmp);
    assert_eq!(degrees, [150.0, 230.0]);
    // With one temperature they come one after the other, and nothing is told.
    let one = done_by(stew_and_roast(&format!("{oven}heat = true\n"), &roast(150), &roast(230)), "18:00").prep();
    assert!(!advice(&one, 0).iter().any(|text| text.starts_with("The oven holds")), "{:?}", advice(&one, 0));
}
