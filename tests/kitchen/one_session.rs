//! A kitchen with one session, Sunday 29 November at 14:00, and one or two recipes of a few steps.

use pretty_assertions::assert_eq;
use serde_json::Value;

use super::{Kitchen, kitchen, minute, supper};

pub const OVEN: &str = "[[appliance]]\nname = \"oven\"\nroom = 2\nheat = true\nnear = \"10 °C\"\nwarm_up = \"10 min\"\n";
pub const HOB: &str = "[[appliance]]\nname = \"hob\"\nroom = 4\n";
/// It comes up in no time, so that minutes are those of the steps.
pub const PRESSURE_COOKER: &str = "[[appliance]]\nname = \"pressure cooker\"\ncomes_up = \"0 min\"\n";

/// A recipe for 2 portions that keeps 3 days, of 100 g bluegrain a batch.
pub fn recipe(name: &str, steps: &str) -> String {
    format!(
        "name = \"{name}\"\nmakes = \"2 portions\"\nkeeps = {{ fridge = \"3 days\" }}\ningredients = \"\"\"\n100 g bluegrain\n\"\"\"\n{steps}"
    )
}

/// One step; `keys` after its text.
pub fn does(keys: &str) -> String {
    format!("[[step]]\ntext = \"Cook {{bluegrain}}.\"\n{keys}\n")
}

/// The same without naming the food.
pub fn then(keys: &str) -> String {
    format!("[[step]]\ntext = \"Go on.\"\n{keys}\n")
}

/// Kitchen with one recipe "stew" of these steps, of which Monday eats so many portions.
pub fn stew(appliances: &str, portions: &str, steps: &str) -> Kitchen {
    kitchen()
        .household(appliances)
        .foods("[[food]]\nname = \"bluegrain\"\nallergens = []\n")
        .recipe("stew", &recipe("Moon stew", steps))
        .meals(&supper("2026-11-30", &format!("\"{portions} portions recipe:stew\"")))
}

/// The same with a second recipe "roast"; one batch each.
pub fn stew_and_roast(appliances: &str, stew_steps: &str, roast_steps: &str) -> Kitchen {
    stew(appliances, "2", stew_steps)
        .recipe("roast", &recipe("Sun roast", roast_steps))
        .meals(&supper("2026-11-30", "\"2 portions recipe:stew\", \"2 portions recipe:roast\""))
}

pub fn session(prep: &Value) -> &Value {
    &prep["sessions"][0]
}

#[track_caller]
pub fn takes_minutes(kitchen: &Kitchen, minutes: i64) -> Value {
    let prep = kitchen.prep();
    let session = session(&prep);
    assert_eq!(minute(session, "minutes"), minutes, "{session:#}");
    assert_eq!(minute(session, "bound_minutes"), minutes);
    assert_eq!(session["proven"], true);
    prep
}
