//! What is eaten hot on the day of its session: when it is ready, and what is boxed instead.
//!
//! Sunday 29 November, 14:00, one cook; supper at 18:30 is minute 270.

use pretty_assertions::assert_eq;
use serde_json::Value;

use crate::kitchen::one_session::*;
use crate::kitchen::{Kitchen, minute, stdout, step, supper, tasks};

const ROAST: &str = "hands = \"5 min\"\nwait = \"60 min\"\non = \"oven\"\ntemperature = \"180 °C\"";

fn hot(keys: &str) -> String {
    recipe("Sun roast", &does(ROAST)).replace("keeps", &format!("serve = \"hot\"\n{keys}\nkeeps"))
}

/// A stew of 20 min of hands for Monday, and a roast for Sunday's supper; `session` are the keys of the session.
fn roast_dinner(session: &str, roast: &str) -> Kitchen {
    let meals = supper("2026-11-29", "\"2 portions recipe:roast\"") + &supper("2026-11-30", "\"2 portions recipe:stew\"");
    let week = format!("from = 2026-11-29\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\n{session}\n{meals}");
    stew(OVEN, "2", &does("hands = \"20 min\"")).recipe("roast", roast).week(&week)
}

fn places(prep: &Value) -> Vec<(&str, &str)> {
    let boxes = session(prep)["boxes"].as_array().expect("a list");
    boxes.iter().map(|boxed| (boxed["recipe"].as_str().unwrap_or("?"), boxed["place"].as_str().unwrap_or("?"))).collect()
}

const ONE_COOK: &str = "people = [\"cook\"]";

#[test]
fn a_roast_for_supper_is_ready_with_it_and_the_session_is_done_before() {
    // The roast ends between 18:00 and 18:30, minutes 240 to 270. The rest is the stew alone: 20 min.
    let prep = roast_dinner(&format!("finish_by = \"16:30\"\n{ONE_COOK}"), &hot("")).prep();
    let end = minute(step(&prep, "roast", 1), "end_minute");
    assert!((240..=270).contains(&end), "out of the oven at {end}");
    assert_eq!((minute(session(&prep), "minutes"), session(&prep)["finish"].as_str()), (20, Some("2026-11-29T14:20")));
    assert_eq!(places(&prep), [("stew", "fridge")]);
    assert_eq!(session(&prep)["advice"], Value::Array(vec![]));
}

#[test]
fn what_must_be_served_at_once_ends_with_the_meal() {
    let prep = roast_dinner(&format!("finish_by = \"17:00\"\n{ONE_COOK}"), &hot("hold = \"0 min\"")).prep();
    assert_eq!(minute(step(&prep, "roast", 1), "end_minute"), 270);
}

#[test]
fn what_is_kept_hot_may_wait_longer() {
    // 16:00 is two and a half hours before supper; kept hot for three it is straight from the pot all the same: from 15:30, minute 90, on.
    let session = format!("finish_by = \"16:00\"\n{ONE_COOK}");
    let prep = roast_dinner(&session, &hot("hold_hot = \"3 h\"")).prep();
    assert_eq!(places(&prep), [("stew", "fridge")]);
    assert!((90..=270).contains(&minute(step(&prep, "roast", 1), "end_minute")));
    let boxed = roast_dinner(&session, &hot("")).prep();
    assert_eq!(places(&boxed), [("roast", "fridge"), ("stew", "fridge")]);
}

#[test]
fn what_is_not_served_hot_is_boxed_on_its_day_too() {
    let prep = roast_dinner(&format!("finish_by = \"17:00\"\n{ONE_COOK}"), &recipe("Sun roast", &does(ROAST))).prep();
    assert_eq!(places(&prep), [("roast", "fridge"), ("stew", "fridge")]);
}

#[test]
fn without_a_finish_by_the_earliest_finish_of_the_rest_counts() {
    // The stew of 20 min is done at 14:20, four hours before supper: the roast is boxed. One of 150 min is done at 16:30: it is not.
    assert_eq!(places(&roast_dinner(ONE_COOK, &hot("")).prep()), [("roast", "fridge"), ("stew", "fridge")]);
    let long = roast_dinner(ONE_COOK, &hot("")).recipe("stew", &recipe("Moon stew", &does("hands = \"150 min\"")));
    assert_eq!(places(&long.prep()), [("stew", "fridge")]);
}

#[test]
fn where_the_cook_leaves_before_the_meal_the_roast_stands_for_as_few_minutes_as_may_be() {
    // Until 16:00, minute 120: ready then, 120 min before the half hour begins.
    let people = "finish_by = \"17:00\"\npeople = [{ name = \"Ann\", as = \"cook\", until = \"16:00\" }]";
    let prep = roast_dinner(people, &hot("")).prep();
    assert_eq!(minute(step(&prep, "roast", 1), "end_minute"), 120);
    let advice = session(&prep)["advice"].to_string();
    assert!(
        advice.contains("Sun roast, step 1 is done at 16:00, 2 h 30 min before it is served at 18:30; it keeps for 30 min (hold)."),
        "{advice}"
    );
}

#[test]
fn what_is_left_of_a_roast_is_boxed_once_it_is_cool() {
    // Sunday eats 2 portions, Monday 2 more of the same two trays: out by minute 270 at the latest, boxed 10 to 120 min after.
    let meals = supper("2026-11-29", "\"2 portions recipe:roast\"") + &supper("2026-11-30", "\"2 portions recipe:roast\"");
    let week =
        "from = 2026-11-29\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\nfinish_by = \"17:00\"\npeople = [\"cook\"]\n";
    let kitchen = stew(OVEN, "2", "").recipe("roast", &hot("")).only_rules(OVEN).week(&format!("{week}{meals}"));
    let prep = kitchen.prep();
    let (out, boxed) = (minute(step(&prep, "roast", 1), "end_minute"), minute(tasks(&prep, "box", "roast")[0], "start_minute"));
    assert!((240..=270).contains(&out) && (out + 10..=out + 120).contains(&boxed), "out at {out}, boxed at {boxed}");
    assert_eq!(minute(session(&prep), "minutes"), 0, "nothing else is made");
}

#[test]
fn what_is_kept_hot_says_at_which_temperature_wherever_it_is_served() {
    let kitchen = roast_dinner(&format!("finish_by = \"16:00\"\n{ONE_COOK}"), &hot("hold_hot = \"3 h\""));
    let at_least = "at 60 °C (140 °F) or above";
    let cautions = session(&kitchen.prep())["cautions"].to_string();
    assert!(
        cautions.contains(&format!("Keep what waits hot for its meal {at_least}")) && cautions.contains("USDA FSIS, Danger Zone"),
        "{cautions}"
    );
    let text = stdout(&kitchen.run(&["prep"]));
    assert!(text.contains(&format!("- Keep it {at_least} until it is served, at 18:30")), "{text}");
    let day = stdout(&kitchen.run_on("2026-11-27", &["day", "2026-11-29"]));
    assert!(day.contains(&format!("straight from the pot: keep {at_least} until it is served")), "{day}");
    let usual = roast_dinner(&format!("finish_by = \"17:00\"\n{ONE_COOK}"), &hot("")).prep();
    assert!(!session(&usual)["cautions"].to_string().contains("60 °C"));
}

#[test]
fn a_pot_for_two_meals_keeps_its_hold_for_the_later_or_says_so() {
    let dinner = |hold: &str| {
        let later = "[[meal]]\non = 2026-11-29\nat = \"19:00\"\neach = [\"2 portions recipe:roast\"]\n";
        let meals = supper("2026-11-29", "\"2 portions recipe:roast\"") + later;
        let head = "from = 2026-11-29\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\nfinish_by = \"17:30\"\n";
        let prep = stew(OVEN, "2", "").recipe("roast", &hot(hold)).week(&format!("{head}{ONE_COOK}\n{meals}")).prep();
        (minute(step(&prep, "roast", 1), "end_minute"), session(&prep)["advice"].clone())
    };
    // For 18:30, and 30 min later it is still good.
    assert_eq!(dinner(""), (270, Value::Array(vec![])));
    let (end, advice) = dinner("hold = \"20 min\"");
    assert_eq!(end, 270);
    assert_eq!(
        advice[0].as_str(),
        Some("Sun roast, step 1 is done at 18:30, 30 min before it is served at 19:00; it keeps for 20 min (hold).")
    );
}

#[test]
fn hot_dishes_of_one_meal_end_together_as_far_as_hold_allows() {
    // The pie must be served at once, at minute 270; the roast may stand for half an hour. One cook takes one after the other out.
    let pie = hot("hold = \"0 min\"").replace("Sun roast", "Leek pie").replace("60 min", "10 min");
    let meals = supper("2026-11-29", "\"2 portions recipe:roast\", \"2 portions recipe:pie\"");
    let week = format!(
        "from = 2026-11-29\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\nfinish_by = \"18:00\"\n{ONE_COOK}\n{meals}"
    );
    let kitchen = stew(OVEN, "2", &does("hands = \"20 min\"")).recipe("roast", &hot("")).recipe("pie", &pie).week(&week);
    let prep = kitchen.prep();
    assert_eq!(minute(step(&prep, "pie", 1), "end_minute"), 270);
    assert_eq!(minute(step(&prep, "roast", 1), "end_minute"), 269);
}
