//! `--write`: the meals stand in the week's file, everything else as it was.

use pretty_assertions::assert_eq;
use serde_json::Value;

use super::{composed, open, stall};
use crate::kitchen::SATURDAY_AND_SUNDAY;

const WEEK: &str = r#"# Ours
from = 2026-11-30
[[trip]]
on = 2026-11-28   # early
[[session]]
start = 2026-11-29T14:00
people = ["cook"]

[[meal]]      # the first
on = 2026-12-01
at = "supper"
open = true   # late
ready_in = "30 min"

# choir
[[meal]]
on = 2026-12-03
at = "supper"
pattern = "Plate"
"#;

#[test]
fn a_written_proposal_changes_the_open_meals_alone_and_keeps_what_it_replaced_as_remarks() {
    let kitchen = stall().week(WEEK);
    composed(&kitchen, &["--write"]);
    let expected = WEEK
        .replace(
            "open = true   # late\n",
            "# open = true   # late\npattern = \"Plate\"\nname = \"Plate: spelk pot and lubb\"\neach = [\"1 portion recipe:spelk-pot\", \"100 g lubb\"]\n",
        )
        .replace(
            "pattern = \"Plate\"\n\"#",
            "",
        );
    let expected = expected.strip_suffix("pattern = \"Plate\"\n").unwrap().to_owned()
        + "# pattern = \"Plate\"\npattern = \"Plate\"\nname = \"Plate: spelk pot and lubb\"\neach = [\"1 portion recipe:spelk-pot\", \"100 g lubb\"]\n";
    assert_eq!(kitchen.text("weeks/week.toml"), expected);
}

#[test]
fn a_written_proposal_costs_what_was_proposed() {
    let kitchen = stall().meals(&(open("2026-12-01", "") + &open("2026-12-02", "") + &open("2026-12-04", "")));
    let proposed = composed(&kitchen, &["--write"]);
    let list = kitchen.list();
    assert_eq!(list["cost"], proposed["cost"]);
    assert_eq!(list["warnings"].as_array().unwrap().iter().filter(|warning| warning.to_string().contains("open")).count(), 0);
    let minutes: Vec<&Value> = proposed["sessions"].as_array().unwrap().iter().map(|session| &session["minutes"]).collect();
    assert_eq!(minutes, [&kitchen.prep()["sessions"][0]["minutes"]]);
}

#[test]
fn a_meal_written_twice_keeps_its_first_remarks_once() {
    let kitchen = stall().meals(&open("2026-12-01", ""));
    composed(&kitchen, &["--write"]);
    let again = composed(&kitchen, &["--refill", "tue supper", "--write"]);
    let text = kitchen.text("weeks/week.toml");
    assert_eq!(text.matches("# open = true").count(), 1, "{text}");
    assert_eq!(text.matches("# each").count(), 0, "{text}");
    assert!(text.contains("recipe:brack-pot"), "{text}");
    assert_eq!(again["meals"][0]["pattern"], "Plate");
    // The pattern stays with the meal, so that at_most still counts it.
    assert!(text.contains("\npattern = \"Plate\"\n"), "{text}");
}

#[test]
fn without_write_nothing_changes() {
    let kitchen = stall().meals(&open("2026-12-01", ""));
    composed(&kitchen, &[]);
    assert_eq!(kitchen.text("weeks/week.toml"), format!("{SATURDAY_AND_SUNDAY}{}", open("2026-12-01", "")));
}
