//! The command line: verbs, exit statuses, where things are written.

mod kitchen;

use std::path::Path;
use std::process::Output;

use assert_cmd::Command;
use kitchen::{Kitchen, TODAY, json, kitchen, stderr, stdout, supper};
use pretty_assertions::assert_eq;

fn spence(folder: &Path, arguments: &[&str]) -> Output {
    Command::cargo_bin("spence").expect("the program is built").current_dir(folder).args(arguments).output().expect("the program runs")
}

fn simple() -> Kitchen {
    kitchen()
        .foods("[[food]]\nname = \"bluegrain\"\ncup = \"160 g\"\nallergens = []\nsource = \"weighed at home\"\n")
        .recipe(
            "stew",
            "name = \"Moon stew\"\nmakes = \"2 portions\"\nkeeps = { fridge = \"3 days\" }\ningredients = \"\"\"\n100 g bluegrain\n\"\"\"\n[[step]]\ntext = \"Cook {bluegrain}.\"\nhands = \"5 min\"\n",
        )
        .pantry("[[lot]]\nfood = \"bluegrain\"\namount = \"20 g\"\nplace = \"cupboard\"\nuse_by = 2026-12-31\n")
        .meals(&supper("2026-11-30", "\"1 portion recipe:stew\""))
}

#[test]
fn a_wrong_command_line_ends_with_status_two() {
    let kitchen = simple();
    for arguments in
        [vec!["dance"], vec!["--format", "yaml", "list"], vec!["--today", "yesterday", "list"], vec!["list", "--never-heard-of"], vec![]]
    {
        assert_eq!(spence(kitchen.path(), &arguments).status.code(), Some(2), "{arguments:?}");
    }
}

#[test]
fn help_and_version_end_with_status_zero() {
    let kitchen = simple();
    for arguments in [["--help"], ["--version"]] {
        assert_eq!(spence(kitchen.path(), &arguments).status.code(), Some(0));
    }
}

#[test]
fn the_kitchen_is_the_nearest_folder_upwards_that_holds_kitchen_toml() {
    let kitchen = simple();
    let output = spence(&kitchen.path().join("recipes"), &["--today", TODAY, "--format", "json", "list"]);
    assert_eq!(json(&output), kitchen.list());
}

#[test]
fn json_is_all_that_standard_output_gets() {
    // An unknown food warns, on standard error alone; json() reads standard output whole.
    let kitchen = simple().meals(&supper("2026-11-30", "\"100 g bluegrein\""));
    for verb in ["list", "prep"] {
        let output = kitchen.run(&["--format", "json", verb]);
        json(&output);
        assert!(stderr(&output).contains("bluegrein"), "{verb}");
    }
}

#[test]
fn every_verb_that_writes_files_says_which_in_json_alone() {
    let kitchen = simple();
    let printed = json(&kitchen.run(&["print", "--format", "json"]));
    assert_eq!(printed["week"], "Week of 30 Nov 2026");
    assert_eq!(printed["from"], "2026-11-30");
    assert_eq!(printed["files"].as_array().map(Vec::len), Some(3), "{printed}");
    let started = json(&spence(kitchen.path(), &["start", "my kitchen", "--format", "json"]));
    assert_eq!(started["kitchen"], "my kitchen");
    assert!(started["files"].as_array().is_some_and(|files| files.iter().any(|file| file == "my kitchen/kitchen.toml")), "{started}");
}

#[test]
fn a_folder_in_place_of_a_sheet_ends_with_status_three_and_nothing_is_written() {
    let kitchen = simple();
    let in_the_way = kitchen.path().join("sheets/plan-2026-11-30.json");
    std::fs::create_dir_all(&in_the_way).expect("a folder");
    let output = kitchen.run(&["print"]);
    assert_eq!(output.status.code(), Some(3));
    assert!(stderr(&output).contains("something else of that name is in the way"), "{}", stderr(&output));
    assert_eq!(std::fs::read_dir(kitchen.path().join("sheets")).expect("a folder").count(), 1);
}

#[test]
fn check_knows_a_week_that_is_not_there_as_a_wrong_command_line() {
    assert_eq!(simple().run(&["check", "--week", "nope"]).status.code(), Some(2));
}

#[test]
fn every_output_names_its_week() {
    let kitchen = simple().week(&format!(
        "name = \"Week of the blue grain\"\n{}{}",
        kitchen::SATURDAY_AND_SUNDAY,
        supper("2026-11-30", "\"1 portion recipe:stew\"")
    ));
    assert_eq!(kitchen.list()["week"], "Week of the blue grain");
    assert_eq!(kitchen.prep()["week"], "Week of the blue grain");
    for verb in ["list", "prep"] {
        assert!(stdout(&kitchen.run(&[verb])).contains("Week of the blue grain"), "{verb}");
    }
}

#[test]
fn every_list_of_the_json_is_there_even_where_it_is_empty() {
    let list = simple().list();
    for key in ["trips", "from_pantry", "expiring", "no_price", "spare", "ask", "moves", "flags", "warnings"] {
        assert!(list[key].is_array(), "{key}");
    }
    let prep = simple().prep();
    assert!(prep["sessions"].is_array() && prep["before"].is_array() && prep["moves"].is_array());
    for key in ["batches", "tasks", "fetch", "cuts", "boxes", "cautions", "advice"] {
        assert!(prep["sessions"][0][key].is_array(), "{key}");
    }
}

#[test]
fn start_makes_a_kitchen_that_already_works() {
    let empty = tempfile::tempdir().expect("a temporary folder");
    assert_eq!(spence(empty.path(), &["start", "new"]).status.code(), Some(0));
    let folder = empty.path().join("new");
    assert!(folder.join("kitchen.toml").is_file());
    for verb in ["check", "list", "prep"] {
        let output = spence(&folder, &[verb]);
        assert_eq!(output.status.code(), Some(0), "{verb}: {}", stderr(&output));
    }
}

#[test]
fn start_does_not_write_over_a_kitchen() {
    let kitchen = simple();
    let before = std::fs::read_to_string(kitchen.path().join("kitchen.toml")).expect("a file");
    assert_ne!(spence(kitchen.path(), &["start", "."]).status.code(), Some(0));
    assert_eq!(std::fs::read_to_string(kitchen.path().join("kitchen.toml")).expect("a file"), before);
}

#[test]
fn print_writes_the_sheets_and_beside_them_what_was_printed() {
    let kitchen = simple();
    assert_eq!(kitchen.run(&["print"]).status.code(), Some(0));
    let sheets = kitchen.path().join("sheets");
    assert!(sheets.join("plan-2026-11-30.json").is_file());
    let pdfs: Vec<Vec<u8>> = std::fs::read_dir(&sheets)
        .expect("a folder")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|end| end == "pdf"))
        .map(|path| std::fs::read(path).expect("a file"))
        .collect();
    assert!(!pdfs.is_empty() && pdfs.iter().all(|pdf| pdf.starts_with(b"%PDF-")));
}

#[test]
fn print_can_be_sent_into_another_folder() {
    let kitchen = simple();
    let into = kitchen.path().join("elsewhere");
    assert_eq!(kitchen.run(&["print", "--into", into.to_str().expect("UTF-8")]).status.code(), Some(0));
    assert!(into.join("plan-2026-11-30.json").is_file());
    assert!(!kitchen.path().join("sheets").exists());
}

#[test]
fn printing_twice_gives_the_same_bytes() {
    let kitchen = simple();
    let bytes = |folder: &str| {
        let into = kitchen.path().join(folder);
        assert_eq!(kitchen.run(&["print", "--into", into.to_str().expect("UTF-8")]).status.code(), Some(0));
        let mut files: Vec<_> = std::fs::read_dir(&into).expect("a folder").map(|entry| entry.expect("an entry").path()).collect();
        files.sort();
        files.iter().map(|path| (path.file_name().map(ToOwned::to_owned), std::fs::read(path).expect("a file"))).collect::<Vec<_>>()
    };
    assert!(bytes("once") == bytes("again"), "the same input gave other bytes");
}

#[test]
fn a_machine_that_fails_ends_with_status_three() {
    // A folder cannot be made beneath a file.
    let kitchen = simple();
    let output = kitchen.run(&["print", "--into", "kitchen.toml/sheets"]);
    assert_eq!(output.status.code(), Some(3), "{}", stderr(&output));
}
