//! `--write`: the meals stand in the week's file, everything else as it was.

use pretty_assertions::assert_eq;
use serde_json::Value;
use spence::kitchen::{Spot, WrittenMeal, write_meals};

use super::{composed, open, stall};
use crate::dice::Dice;
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

/// A meal as somebody might type it: keys in any order, remarks, blanks and lines anywhere, and which of its lines a proposal replaces.
fn typed_meal(dice: &mut Dice, number: i64) -> Vec<(String, bool)> {
    let mut pick = |of: &[&str]| of[dice.between(0, of.len() as i64 - 1) as usize].to_owned();
    let what = pick(&[
        "open = true",
        "open=true  # late",
        "pattern = \"Plate\"",
        "each = [ \"1 portion any:grain\" ,\n  # two of them\n  'any:beside' ]",
    ]);
    let mut keys: Vec<(String, bool)> = vec![
        (format!("on  =  2026-12-0{number}{}", pick(&["", "  # choir"])), false),
        (pick(&["at = \"supper\"", "at = 'supper' # after six"]), false),
        (
            pick(&["ready_in = \"30 min\"", "packed = true", "for = [\"Ana\",\n  \"Bo\",   # she too\n]", "without = { Bo = [\"lubb\"] }"]),
            false,
        ),
    ];
    for line in what.lines() {
        keys.push((line.to_owned(), true));
    }
    // The lines of what is replaced stay together.
    let replaced: Vec<_> = keys.split_off(3);
    let at = pick(&["0", "1", "2", "3"]).parse::<usize>().unwrap();
    keys.splice(at..at, replaced);
    let mut lines = vec![(pick(&["[[meal]]", "[[meal]] # ours", "[[meal]]   "]), false)];
    for (place, key) in keys.into_iter().enumerate() {
        let within = place > 0 && key.1 && lines.last().is_some_and(|last: &(String, bool)| last.1);
        if !within {
            lines.extend(pick(&["", "\n", "# a remark\n", "\n  # further in\n"]).lines().map(|line| (line.to_owned(), false)));
        }
        lines.extend(key.0.lines().map(|line| (line.to_owned(), key.1)));
    }
    lines.push((pick(&["", "# the end"]), false));
    lines
}

#[test]
fn in_three_hundred_weeks_every_line_stays_as_typed_and_the_replaced_ones_stay_once_as_remarks() {
    for seed in 0..300 {
        let mut dice = Dice(seed);
        let end = if dice.between(0, 3) == 0 { "\r\n" } else { "\n" };
        let mut lines: Vec<(String, bool)> =
            vec![("# Ours".into(), false), ("from = 2026-11-30 # Monday".into(), false), (String::new(), false)];
        let mut meals = Vec::new();
        for number in 1..=dice.between(1, 4) {
            let typed = typed_meal(&mut dice, number);
            // Some meals are not to be filled.
            let is_written = number == 1 || dice.between(0, 2) > 0;
            if is_written {
                meals.push(WrittenMeal {
                    at: Spot { file: "weeks/week.toml".into(), line: lines.len() as u32 + 1, column: 1 },
                    pattern: (dice.between(0, 2) > 0).then(|| "Plate".to_owned()),
                    name: format!("NEW {number}"),
                    each: vec!["NEW 1 \"a\"".to_owned(), "NEW 2".to_owned()],
                    shared: if dice.between(0, 1) == 0 { vec![] } else { vec!["NEW 3".to_owned()] },
                });
            }
            lines.extend(typed.into_iter().map(|(line, replaced)| (line, replaced && is_written)));
        }
        let text: String = lines.iter().map(|(line, _)| format!("{line}{end}")).collect();
        let new = write_meals(&text, &meals).unwrap_or_else(|why| panic!("seed {seed}: {why}\n{text}"));
        assert_eq!(new.matches('\r').count() > 0, end == "\r\n", "seed {seed}");
        // Without the new lines, and with the remarks taken back, it is the old text.
        let mut replaced = lines.iter().filter(|(_, replaced)| *replaced).map(|(line, _)| line).peekable();
        let mut kept = Vec::new();
        for line in new.lines() {
            let is_next = replaced.peek().is_some_and(|old| line == format!("# {old}"));
            match line {
                _ if is_next => kept.extend(replaced.next().cloned()),
                _ if line.contains("NEW") || line == "pattern = \"Plate\"" && meals.iter().any(|meal| meal.pattern.is_some()) => {}
                _ => kept.push(line.to_owned()),
            }
        }
        let old: Vec<String> = lines.iter().map(|(line, _)| line.clone()).collect();
        let bare = |lines: &[String]| lines.iter().filter(|line| *line != "pattern = \"Plate\"").cloned().collect::<Vec<_>>();
        assert_eq!(bare(&kept), bare(&old), "seed {seed}\n{text}\n---\n{new}");
        // Written again, nothing is said twice.
        let spots = new
            .lines()
            .enumerate()
            .filter(|(_, line)| line.trim_start().starts_with("[["))
            .map(|(at, _)| at as u32 + 1)
            .collect::<Vec<_>>();
        let old_spots =
            text.lines().enumerate().filter(|(_, line)| line.starts_with("[[")).map(|(at, _)| at as u32 + 1).collect::<Vec<_>>();
        let again: Vec<WrittenMeal> = meals
            .iter()
            .map(|meal| {
                let place = old_spots.iter().position(|line| *line == meal.at.line).unwrap();
                WrittenMeal { at: Spot { line: spots[place], ..meal.at.clone() }, ..meal.clone() }
            })
            .collect();
        assert_eq!(write_meals(&new, &again).as_deref(), Ok(new.as_str()), "seed {seed}");
    }
}

#[test]
fn a_person_s_own_remark_is_not_taken_for_what_the_meal_was() {
    let spot = |line| Spot { file: "weeks/week.toml".into(), line, column: 1 };
    let meal =
        |at| WrittenMeal { at, pattern: Some("Plate".into()), name: "Plate: pot".into(), each: vec!["1 pot".into()], shared: vec![] };
    let new = "pattern = \"Plate\"\nname = \"Plate: pot\"\neach = [\"1 pot\"]\n";
    for remark in [
        "# each = one for everybody\n",
        "# each = [\"1 portion recipe:stew\"]\n",
        "# name = \"Stew\"\n# shared = [\n#   \"1 loaf\",\n# ]\n",
    ] {
        let head = format!("[[meal]]\nday = \"thu\"\nat = \"supper\"\n{remark}");
        // An open meal, and one that a person wrote.
        for old in ["open = true\n", "name = \"Soup\"\neach = [\n  \"1 bowl\",\n]\n"] {
            let kept: String = old.lines().map(|line| format!("# {line}\n")).collect();
            let once = write_meals(&format!("{head}{old}"), &[meal(spot(1))]).unwrap();
            assert_eq!(once, format!("{head}{kept}{new}"));
            assert_eq!(write_meals(&once, &[meal(spot(1))]).unwrap(), once);
        }
    }
}

#[test]
fn a_line_that_does_not_change_stays_where_it_is_with_its_remark() {
    let week = WEEK.replace(
        "on = 2026-12-01\nat = \"supper\"\nopen = true   # late\n",
        "name = \"Choir night\"  # n\non = 2026-12-01\nat = \"supper\"\nopen = true   # late\npattern = \"Plate\"   # p\n",
    );
    let kitchen = stall().week(&week);
    composed(&kitchen, &["--write"]);
    let text = kitchen.text("weeks/week.toml");
    let meal = "[[meal]]      # the first\nname = \"Choir night\"  # n\non = 2026-12-01\nat = \"supper\"\n# open = true   # late\n\
                each = [\"1 portion recipe:spelk-pot\", \"100 g lubb\"]\npattern = \"Plate\"   # p\nready_in = \"30 min\"\n";
    assert!(text.contains(meal), "{text}");
}

#[test]
fn a_remark_behind_what_a_proposal_wrote_is_kept() {
    let kitchen = stall().meals(&open("2026-12-01", ""));
    composed(&kitchen, &["--write"]);
    let written = kitchen.text("weeks/week.toml").replace("\"100 g lubb\"]", "\"100 g lubb\"]   # Bo liked it");
    let kitchen = stall().week(&written);
    composed(&kitchen, &["--refill", "tue supper", "--write"]);
    let text = kitchen.text("weeks/week.toml");
    assert!(text.contains("# each = [\"1 portion recipe:spelk-pot\", \"100 g lubb\"]   # Bo liked it\n"), "{text}");
    assert_eq!(text.matches("# name").count(), 0, "{text}");
}
