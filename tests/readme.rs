//! What README promises can be typed: its ten minutes to a list of one's own, and its week lived on a copy of the sample.

use std::fs;
use std::path::Path;
use std::process::Output;

use assert_cmd::Command;
use tempfile::TempDir;

use crate::kitchen::{kitchen, sample, stderr, stdout};

fn readme() -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md")).expect("README")
}

/// The part between two headings.
fn part<'r>(readme: &'r str, from: &str, to: &str) -> &'r str {
    let (_, rest) = readme.split_once(from).unwrap_or_else(|| panic!("README has {from}"));
    rest.split_once(to).map_or(rest, |(part, _)| part)
}

/// The first fenced text after some words.
fn block<'r>(text: &'r str, after: &str) -> &'r str {
    let (_, rest) = text.split_once(after).unwrap_or_else(|| panic!("README has {after}"));
    let (_, rest) = rest.split_once("```").expect("a block");
    let (_, rest) = rest.split_once('\n').expect("a line");
    rest.split_once("```").expect("its end").0
}

/// The words of a command as a shell splits them: only double quotes are used here.
fn words(command: &str) -> Vec<String> {
    let command = command.split(" #").next().unwrap_or_default();
    let quoted = command.split('"').enumerate();
    let mut words = Vec::new();
    let mut joined = false;
    for (index, piece) in quoted {
        let pieces: Vec<&str> = if index % 2 == 1 { vec![piece] } else { piece.split(' ').collect() };
        for (place, one) in pieces.into_iter().enumerate() {
            // A quote that touches a word is part of it: feta="2 x 150 g".
            match words.last_mut() {
                Some(last) if joined && place == 0 => *last += one,
                _ => words.push(one.to_owned()),
            }
        }
        joined = true;
    }
    words.retain(|word: &String| !word.is_empty());
    words
}

fn typed(folder: &Path, command: &str) -> Output {
    let words = words(command);
    assert_eq!(words[0], "spence", "{command}");
    let run = Command::cargo_bin("spence").expect("the program is built").current_dir(folder).args(&words[1..]).output();
    run.expect("it runs")
}

#[track_caller]
fn done(folder: &Path, command: &str) -> String {
    let output = typed(folder, command);
    assert_eq!(output.status.code(), Some(0), "{command}: {}{}", stdout(&output), stderr(&output));
    stdout(&output)
}

fn edit(folder: &Path, file: &str, change: impl FnOnce(&str) -> String) {
    let path = folder.join(file);
    let text = fs::read_to_string(&path).expect("a file");
    fs::write(path, change(&text)).expect("it is written");
}

/// Lines under `makes`.
fn under_makes(text: &str, more: &str) -> String {
    let (before, rest) = text.split_once("makes = ").expect("makes");
    let (makes, rest) = rest.split_once('\n').expect("a line");
    format!("{before}makes = {makes}\n{more}\n{rest}")
}

/// A kitchen as the ten minutes of README leave it, before anything is composed.
fn my_kitchen() -> TempDir {
    let readme = readme();
    let text = part(&readme, "## Ten minutes to a list of your own", "## Living through a week");
    let above = TempDir::new().expect("a temporary folder");
    done(above.path(), "spence start my-kitchen");
    let folder = above.path().join("my-kitchen");
    for name in ["soup", "slaw", "fish"] {
        fs::write(folder.join(format!("{name}.txt")), block(text, &format!("`{name}.txt`"))).expect("a text");
    }
    block(text, "Bake at 200 °C for 15 minutes, until the fish reaches 63 °C inside.\n```")
        .lines()
        .for_each(|line| drop(done(&folder, line)));
    for recipe in ["leek-and-potato-soup", "red-cabbage-and-apple-slaw", "baked-fish-with-dill"] {
        let file = format!("recipes/{recipe}.toml");
        edit(&folder, &file, |old| under_makes(old, block(text, &format!("In `{file}`:"))));
    }
    for (recipe, what) in [("pearl-barley", "grain"), ("white-bean-mash", "main"), ("roast-beetroot-and-carrots", "vegetable")] {
        let line = format!("fits = [\"{what}\"]");
        assert!(text.contains(&format!("`{line}`")), "{line}");
        edit(&folder, &format!("recipes/{recipe}.toml"), |old| under_makes(old, &line));
    }
    fs::write(folder.join("meals.toml"), block(text, "A new file, `meals.toml`:")).expect("meals");
    let meals = block(text, "**4. The week.**");
    edit(&folder, "weeks/first-week.toml", |old| format!("{}{meals}", old.split("[[meal]]").next().unwrap_or_default()));
    above
}

#[test]
fn the_ten_minutes_end_with_a_list_and_sheets() {
    let readme = readme();
    let text = part(&readme, "**5. Compose and print.**", "## Living through a week");
    let above = my_kitchen();
    let folder = above.path().join("my-kitchen");
    // What is to be typed before the meals are written.
    for command in ["spence compose --another", "spence compose --from-shelf"] {
        assert!(text.contains(command), "{command}");
        assert!(!done(&folder, command).contains("no meal is open"), "{command}");
    }
    let commands = block(text, "");
    assert_eq!(commands.lines().count(), 4);
    commands.lines().for_each(|line| drop(done(&folder, line)));
    assert!(folder.join("sheets").read_dir().expect("sheets").flatten().any(|entry| entry.path().extension() == Some("pdf".as_ref())));
    assert!(text.contains("spence compose --refill \"tue supper\""));
    assert!(done(&folder, "spence compose --refill \"tue supper\"").contains("Tue supper"));
    assert!(done(&folder, "spence keys compose").contains("recipes_at_most"), "the wishes");

    edit(&folder, "recipes/pearl-barley.toml", |old| old.replace("keeps = ", "kepes = "));
    let refused = stderr(&typed(&folder, "spence check"));
    assert!(refused.starts_with(block(text, "would mend it, those of")), "{refused}");
}

#[test]
fn the_week_after_is_a_copy_with_four_changes() {
    let above = my_kitchen();
    let folder = above.path().join("my-kitchen");
    done(&folder, "spence compose --write");
    let first = fs::read_to_string(folder.join("weeks/first-week.toml")).expect("a week");
    let dates: Vec<jiff::civil::Date> = {
        let found = first.lines().filter_map(|line| line.split_once("= ")?.1.trim_matches('"').get(..10)?.parse().ok());
        found.collect()
    };
    assert_eq!(dates.len(), 3, "from, trip, session: {first}");
    let week_later = |text: String, date: &jiff::civil::Date| {
        text.replace(&date.to_string(), &date.checked_add(jiff::Span::new().days(7)).expect("a day").to_string())
    };
    // The later ones first, so that none is moved twice.
    let mut second = first.replace("First week", "Second week");
    let mut latest_first = dates.clone();
    latest_first.sort();
    latest_first.iter().rev().for_each(|date| second = week_later(second.clone(), date));
    let is_filled = |line: &&str| ["pattern", "name = \"Soup", "name = \"Plate", "each"].iter().any(|start| line.starts_with(start));
    let second: String =
        second.lines().filter(|line| !is_filled(line)).map(|line| line.trim_start_matches("# open").to_owned() + "\n").collect();
    let second = second.replace("\n = true", "\nopen = true");
    fs::write(folder.join("weeks/second-week.toml"), second).expect("a week");
    assert!(done(&folder, "spence --week second-week check").contains("2 weeks"));
    assert!(done(&folder, "spence --week second-week compose").contains("Second week"));
}

#[test]
fn every_command_of_the_week_lived_can_be_typed_in_its_order() {
    let readme = readme();
    let text = part(&readme, "## Living through a week", "## On the phone");
    let kitchen = sample();
    let pieces = text.split(['`', '\n']).map(str::trim).filter(|piece| piece.starts_with("spence --today "));
    let commands: Vec<&str> = pieces.collect();
    assert!(commands.len() > 12, "{commands:?}");
    for command in commands {
        done(kitchen.path(), command);
    }
}

#[test]
fn the_sample_is_printed_on_the_day_that_readme_names() {
    let readme = readme();
    let first = block(&readme, "## Two commands").lines().next().expect("a command");
    assert!(first.starts_with("cargo run --release -- print --kitchen sample-data --today 2026-11-27 "), "{first}");
    let said = sample().done_on("2026-11-27", &["print"]);
    assert!(said.contains("prep-guide-2026-11-29-1400.pdf") && said.contains("labels-2026-11-30.pdf"), "{said}");
    assert!(stdout(&kitchen().run(&["keys", "keeps"])).contains("fridge"));
}
