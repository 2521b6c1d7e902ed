//! The command line: verbs, exit statuses, where things are written.

use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Output, Stdio};

use assert_cmd::Command;
use pretty_assertions::assert_eq;

use crate::kitchen::{Kitchen, SATURDAY_AND_SUNDAY, TODAY, assert_amount, json, kitchen, sample, stderr, stdout, supper};

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
    assert_eq!(printed["files"].as_array().map(Vec::len), Some(5), "list, guide, week card, labels and plan: {printed}");
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
        SATURDAY_AND_SUNDAY,
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
    for key in ["trips", "from_pantry", "expiring", "no_price", "spare", "ask", "moves", "flags", "meals", "warnings"] {
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

#[test]
fn food_says_what_is_known_and_from_where() {
    let output = simple().run(&["food", "bluegrain"]);
    assert_eq!(output.status.code(), Some(0));
    let said = stdout(&output);
    assert!(said.contains("160 g") && (said.contains("weighed at home") || said.contains("foods.toml")), "{said}");
}

#[test]
fn convert_gives_the_amount_and_the_facts_used() {
    // 2 × 160 = 320.
    let output = simple().run(&["convert", "2 cups bluegrain", "g"]);
    assert_eq!(output.status.code(), Some(0));
    let said = stdout(&output);
    assert!(said.contains("320 g") && said.contains("160 g"), "{said}");
}

#[test]
fn convert_writes_the_chain_as_json() {
    // 2 × 160 = 320.
    let answer = json(&simple().run(&["--format", "json", "convert", "2 cups bluegrain", "g"]));
    assert_eq!(answer["from"], "2 cups bluegrain");
    assert_amount(&answer["to"], 320.0, "g");
    assert_eq!(
        answer["chain"],
        serde_json::json!([
            { "fact": "1 US cup", "value": "236.5882 ml", "source": "NIST SP 811 (2008), B.8" },
            { "fact": "cup", "value": "160 g", "source": "weighed at home" },
        ])
    );
}

#[test]
fn food_writes_its_card_as_json() {
    let card = json(&simple().run(&["--format", "json", "food", "Bluegrains"]));
    assert_eq!((&card["food"], &card["also"], &card["kind"]), (&"bluegrain".into(), &serde_json::json!([]), &serde_json::Value::Null));
    let facts = card["facts"].as_array().expect("facts");
    assert!(facts.contains(&serde_json::json!({ "fact": "cup", "value": "160 g", "source": "weighed at home" })), "{card:#}");
    assert!(facts.contains(&serde_json::json!({ "fact": "each", "value": "not known", "source": null })), "{card:#}");
}

#[test]
fn without_a_kitchen_the_built_in_reference_answers() {
    let empty = tempfile::tempdir().expect("a temporary folder");
    let output = spence(empty.path(), &["food", "rutabaga"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    assert!(stdout(&output).starts_with("swede\n"), "{}", stdout(&output));
    // NIST SP 811: 1 cup = 236.588 ml.
    let output = spence(empty.path(), &["convert", "1 cup", "ml"]);
    assert!(stdout(&output).contains("236.6 ml"), "{}", stdout(&output));
}

#[test]
fn a_mistake_in_a_recipe_does_not_keep_a_food_from_being_looked_up() {
    let kitchen = simple().recipe("broken", "name = ");
    assert_eq!(kitchen.run(&["food", "bluegrain"]).status.code(), Some(0));
    assert_eq!(kitchen.foods("[[food]]\nnam = \"x\"\n").run(&["food", "onion"]).status.code(), Some(1));
}

#[test]
fn what_is_not_known_ends_with_status_one_and_what_cannot_be_read_with_two() {
    let kitchen = simple();
    for (arguments, status, says) in [
        (["convert", "2 bluegrain", "g"], 1, "Add each = \"…\" under bluegrain in foods.toml"),
        (["convert", "2 cups bluegrin", "g"], 1, "Nearest known: bluegrain"),
        (["convert", "2 cups bluegrain", "furlong"], 2, "is not a unit"),
        (["convert", "0 cups bluegrain", "g"], 2, "0"),
        (["convert", "bluegrain, to taste", "g"], 2, "no amount"),
        (["food", "bluegrin", "flour"], 1, "not a known food"),
    ] {
        let output = kitchen.run(&arguments);
        assert_eq!(output.status.code(), Some(status), "{arguments:?}");
        assert!(stderr(&output).contains(says) && output.stdout.is_empty(), "{arguments:?}: {}", stderr(&output));
    }
}

#[test]
fn the_list_says_what_each_eater_gets_of_a_meal_and_what_is_not_known() {
    // A batch of 2 portions has 100 g, a portion 50 g. 250 g cost 2.00: 0.40. Nobody has told what bluegrain is made of.
    let kitchen = simple().shops(
        "[[shop]]\nname = \"Quay\"\nsections = [\"Grains\"]\n[[pack]]\nshop = \"Quay\"\nfood = \"bluegrain\"\nsize = \"250 g\"\nprice = 2.00\n",
    );
    let meal = &kitchen.list()["meals"][0];
    assert_eq!((&meal["on"], &meal["at"], &meal["name"]), (&"2026-11-30".into(), &"18:30".into(), &"Mon supper".into()));
    assert_eq!(meal["per_eater"], serde_json::json!({ "kcal": null, "protein_g": null, "fibre_g": null, "cost": "0.40" }));
    assert_eq!(meal["missing"], serde_json::json!(["bluegrain: energy, protein, fibre"]));
    assert!(stdout(&kitchen.run(&["list"])).contains("0.40 EUR"));
}

#[cfg(unix)]
#[test]
fn ctrl_c_ends_a_plan_with_130_and_nothing_written() {
    let kitchen = sample();
    let mut command = std::process::Command::new(assert_cmd::cargo::cargo_bin("spence"));
    command.current_dir(kitchen.path()).args(["--today", TODAY, "print", "--effort", "high"]).stderr(Stdio::piped()).stdout(Stdio::null());
    let mut running = command.spawn().expect("the program runs");
    // Its first warning is said before it plans.
    let mut said = BufReader::new(running.stderr.take().expect("standard error"));
    said.read_line(&mut String::new()).expect("a warning");
    let sent = std::process::Command::new("kill").args(["-INT", &running.id().to_string()]).status().expect("kill runs");
    assert!(sent.success());
    assert_eq!(running.wait().expect("it ends").code(), Some(130));
    assert!(!kitchen.path().join("sheets").exists());
}

#[test]
fn nothing_of_a_long_plan_is_shown_in_a_pipe() {
    let kitchen = sample();
    let said = stderr(&kitchen.run(&["prep"]));
    assert!(said.lines().all(|line| line.starts_with("warning: ")) && !said.contains(['\r', '\u{1b}']), "{said}");
}

#[test]
fn a_strict_check_that_fails_on_a_warning_gives_its_json_all_the_same() {
    let kitchen = crate::kitchen::kitchen().foods("").meals(&crate::kitchen::supper("2026-11-30", "\"100 g zingleaf\""));
    let output = kitchen.run(&["--format", "json", "--strict", "check"]);
    assert_eq!(output.status.code(), Some(1));
    let told: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert!(told["warnings"].as_array().is_some_and(|warnings| !warnings.is_empty()), "{told}");
}
