//! What a hostile or hasty kitchen does: letters that nobody sees, figures out of all proportion, files that are none.

use std::fs;
use std::process::{Command, Output};

use pretty_assertions::assert_eq;

use crate::kitchen::{Kitchen, TODAY, json, kitchen, stderr, stdout, supper};

const FOODS: &str = "[[food]]\nname = \"bluegrain\"\nallergens = []\nsource = \"weighed at home\"\n";

const STEW: &str = "name = \"Moon stew\"\nmakes = \"2 portions\"\nkeeps = { fridge = \"3 days\" }\ningredients = \"\"\"\n100 g bluegrain\n\"\"\"\n[[step]]\ntext = \"Cook {bluegrain}.\"\nhands = \"5 min\"\n";

fn with_stew(text: &str) -> Kitchen {
    kitchen().foods(FOODS).recipe("stew", text).meals(&supper("2026-11-30", "\"1 portion recipe:stew\""))
}

#[track_caller]
fn ended(output: &Output, status: i32) -> String {
    let said = stderr(output);
    assert_eq!(output.status.code(), Some(status), "{said}");
    said
}

#[track_caller]
fn refused(kitchen: &Kitchen, words: &str) {
    let said = ended(&kitchen.run(&["check"]), 1);
    assert!(said.contains(words), "no {words:?} in: {said}");
}

/// Control characters of ISO 6429, and the marks of direction of UAX #9.
fn unseen() -> impl Iterator<Item = char> {
    let codes = (1..0x20).chain(0x7f..0xa0).chain(0x202a..=0x202e).chain(0x2066..=0x2069).chain([0x61c, 0x200e, 0x200f]);
    codes.filter_map(char::from_u32)
}

#[track_caller]
fn assert_seen(output: &Output) {
    for text in [stdout(output), stderr(output)] {
        let sent = text.chars().find(|letter| unseen().any(|unseen| unseen == *letter) && *letter != '\n');
        assert_eq!(sent, None, "{text:?}");
    }
}

#[test]
fn a_name_with_a_letter_that_nobody_sees_is_a_mistake_at_that_letter() {
    for letter in unseen() {
        // Every letter of TOML can be written by its number.
        let number = letter as u32;
        let output = with_stew(&STEW.replace("Moon stew", &format!("Moon\\u{number:04x} stew"))).run(&["check"]);
        let said = ended(&output, 1);
        assert!(said.starts_with("error: recipes/stew.toml:1:13: name: a name holds "), "{number:x}: {said}");
        assert!(said.contains(&format!("(U+{number:04X}), which nobody can see. Take it out.")), "{number:x}: {said}");
        assert_seen(&output);
    }
    refused(&with_stew(&STEW.replace("Moon stew", "Moon\u{202e} stew")), "recipes/stew.toml:1:13: name: a name holds <U+202E>");
    refused(&with_stew(&STEW.replace("g bluegrain", "g blue\u{200f}grain")), "recipes/stew.toml:5:11: this line holds <U+200F>");
    refused(&kitchen().household("[[appliance]]\nname = \"o\\u001bven\"\n"), "name: a name holds ␛");
    refused(
        &kitchen().week("from = 2026-11-30\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"Jo\\u0007\"]\n"),
        "people: a name holds ␇",
    );
    refused(
        &kitchen().shops("[[shop]]\nname = \"Stall\"\nsections = [\"Dai\\u0085ry\"]\n"),
        "shops.toml:3:17: sections: a name holds <U+0085>",
    );
}

#[test]
fn a_text_with_such_letters_is_shown_with_visible_marks_and_escaped_in_json() {
    let stew = with_stew(&STEW.replace("Cook", "Cook\\u001b[31m\\u009b\\u202e it:"));
    for arguments in [&["prep"][..], &["recipe", "stew"]] {
        let output = stew.run(arguments);
        ended(&output, 0);
        assert_seen(&output);
        assert!(stdout(&output).contains("Cook␛[31m<U+009B><U+202E>"), "{}", stdout(&output));
        let output = stew.run(&[&["--format", "json"], arguments].concat());
        assert_seen(&output);
        assert!(stdout(&output).contains("Cook\\u001b[31m\\u009b\\u202e it"), "{}", stdout(&output));
        let whole = json(&output).to_string();
        assert!(whole.contains("\u{202e} it"), "read back it is the same text");
    }
}

#[test]
fn what_was_typed_on_the_command_line_reaches_no_terminal_unmarked() {
    let stew = with_stew(STEW);
    for arguments in [
        &["food", "\u{1b}]0;x\u{7}onion"][..],
        &["recipe", "st\u{9b}ew"],
        &["--week", "we\u{1b}ek.toml", "list"],
        &["--format", "\u{1b}[2J", "list"],
        &["bake\u{7}"],
        &["waste", "1 g blue\u{202e}grain", "--why", "mo\u{1b}uld"],
    ] {
        let output = stew.run(arguments);
        assert_ne!(output.status.code(), Some(0), "{arguments:?}");
        assert_seen(&output);
    }
    assert_seen(&stew.file("pantry.toml", "[[lot]]\nfood = \"bluegrain\"\namount = \"100 g\"\nplace = \"cupboard\"\n").run(&[
        "waste",
        "1 g bluegrain",
        "--why",
        "mo\u{1b}uld",
    ]));
}

#[test]
fn help_and_a_wrong_command_line_end_as_they_should() {
    let stew = with_stew(STEW);
    let help = stew.run(&["--help"]);
    assert!(stdout(&help).contains("Usage: spence"), "{}", stdout(&help));
    assert_eq!((ended(&help, 0), stdout(&stew.run(&["--version"])).starts_with("spence ")), (String::new(), true));
    assert!(ended(&stew.run(&["lst"]), 2).contains("list"));
}

#[test]
fn a_name_has_at_most_two_hundred_letters() {
    let named = |letters: usize| with_stew(&STEW.replace("Moon stew", &"é".repeat(letters)));
    for arguments in [&["list"][..], &["prep"], &["stock"], &["print"]] {
        named(200).done(arguments);
    }
    refused(&named(201), "recipes/stew.toml:1:8: name: a name of 201 letters. Write at most 200.");
    refused(&named(65_535), "name: a name of 65535 letters. Write at most 200.");
    let line = format!("100 g {}", "x".repeat(201));
    refused(&with_stew(&STEW.replace("100 g bluegrain", &line).replace(" {bluegrain}", "")), "a food's name of 201 letters");
}

#[test]
fn a_figure_out_of_all_proportion_is_a_mistake_at_its_place() {
    let food = |line: &str| kitchen().foods(&format!("{FOODS}{line}\n"));
    refused(&food("edible = 1e-320"), "foods.toml:5:10: edible: 1e-320 is less than 1%. Write a figure from 1% to 100%.");
    refused(&food("drained = \"0.5%\""), "drained: 0.5% is less than 1%");
    refused(&food("cooked = 1e300"), "cooked: ");
    refused(&food("cooked = 500"), "cooked: 500 is more than 100. Write a figure from 0.01 to 100.");
    refused(&food("per_100g = { kcal = 1e308 }"), "no food has 1e308 kcal in 100 g");
    refused(&food("per_100g = { kcal = nan }"), "kcal");
    refused(&food("clove = \"1e300 g\""), "clove");
    refused(&food("clove = \"0.00000000001 g\""), "clove");
    let week = |line: &str| kitchen().week(&format!("from = 2026-11-30\n{line}\n"));
    refused(&week("eaters = 1e-320"), "weeks/week.toml:2:10: eaters: 1e-320 is less than 0.01. Write a figure from 0.01 to 10000.");
    refused(&week("eaters = 10001"), "eaters: 10001 is more than 10000");
    refused(&week("eaters = inf"), "eaters");
    refused(&week("eaters = nan"), "eaters");
    refused(&week("[[meal]]\nday = \"mon\"\nat = \"supper\"\neaters = 1e-7"), "eaters: 1e-7 is less than 0.01");
    let household = |more: &str| kitchen().file("kitchen.toml", &format!("[household]\nname = \"Row\"\ncurrency = \"EUR\"\n{more}\n"));
    refused(&household("[[eater]]\nname = \"Emil\"\nshare = 1e-300"), "share: 1e-300 is less than 0.01");
    refused(&household("[[eater]]\nname = \"Emil\"\nneeds = { kcal = 1e9 }"), "kcal");
    refused(&household("eaters = 3\nbudget = \"99999999.00\""), "budget: 99999999.00 is more than 10000000");
    refused(&household("eaters = 3\n[rules]\npace = 1e-5"), "pace: 1e-5 is less than 0.01");
    refused(&household("eaters = 3\n[[appliance]]\nname = \"hob\"\nroom = 100000"), "room");
    refused(&with_stew(&format!("{STEW}takes = 1e6\n")), "takes: 1e6 is more than 1000");
    refused(&with_stew(&format!("{STEW}wait = \"400 days\"\n")), "wait");
    refused(&with_stew(&STEW.replace("2 portions", "0.00001 portions")), "makes");
}

#[test]
fn money_beyond_counting_is_a_mistake_and_no_sum() {
    let sold = |price: &str, amount: &str| {
        with_stew(&STEW.replace("100 g bluegrain", &format!("{amount} bluegrain")))
            .shops(&format!("[[shop]]\nname = \"Stall\"\n[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\n{price}\n"))
    };
    refused(&sold("size = \"1 kg\"\nprice = 10000001", "100 g"), "shops.toml:7:9: price: 10000001 is more than 10000000");
    refused(&sold("size = \"1 kg\"\nprice = inf", "100 g"), "price");
    refused(&sold("loose = true\nprice = \"9000000 / g\"", "100 g"), "no gram, millilitre or piece of anything costs as much");
    let dear = sold("size = \"1 g\"\nprice = 10000000", "900000000 g");
    refused(
        &dear,
        "weeks/week.toml:3:1: this trip comes to more money than can be counted, bluegrain most of all. Look at its price in shops.toml",
    );
    assert!(ended(&dear.run(&["list"]), 1).contains("more money than can be counted"));
}

#[test]
fn an_amount_that_is_none_does_not_go_into_the_name_of_the_food() {
    for amount in ["nan", "inf", "-inf", "\"1000%\"", "\"soon\"", "\"0x10\""] {
        let line = format!("ingredients = [{{ food = \"bluegrain\", amount = {amount} }}]");
        let stew = with_stew(&STEW.replace("ingredients = \"\"\"\n100 g bluegrain\n\"\"\"", &line));
        refused(&stew, "recipes/stew.toml:4:");
        refused(&stew, "amount");
    }
    for amount in ["\"2 tbsp\"", "3", "0.5", "\"a few sprigs\"", "\"some\""] {
        let line = format!("ingredients = [{{ food = \"bluegrain\", amount = {amount} }}]");
        with_stew(&STEW.replace("ingredients = \"\"\"\n100 g bluegrain\n\"\"\"", &line)).done(&["check"]);
    }
}

#[test]
fn a_box_that_holds_another_measure_is_told_at_its_line() {
    let boxed = STEW.replace("ingredients =", "box = { name = \"tub\", holds = \"1 l\" }\ningredients =");
    refused(&with_stew(&boxed), "recipes/stew.toml:4:31: the box holds millilitres, but \"Moon stew\" makes portions");
}

#[test]
fn a_book_cut_within_its_first_line_is_told() {
    let kitchen = with_stew(STEW).pantry("[[lot]]\nfood = \"bluegrain\"\namount = \"100 g\"\nplace = \"cupboard\"\n");
    let kitchen = kitchen.file("pantry.book.jsonl", "{\"number\":1,\"on\":\"2026-");
    let told = "its only line was cut short, so that no booking can be read";
    let book = kitchen.run(&["book"]);
    assert!(ended(&book, 0).contains(told));
    assert_eq!(stdout(&book), "No booking can be read.\n");
    assert!(ended(&kitchen.run(&["list"]), 0).contains(told));
    assert!(!stdout(&kitchen.run(&["check", "--book"])).contains("adds up"));
    assert!(ended(&kitchen.run(&["waste", "1 g bluegrain", "--why", "mould"]), 0).contains(told));
    assert!(kitchen.text("pantry.book.jsonl").contains("{\\\"number\\\":1,\\\"on\\\":\\\"2026-"), "what was left of it is kept");
    kitchen.done(&["--strict", "check", "--book"]);
}

#[cfg(unix)]
mod files {
    use std::ffi::OsStr;
    use std::os::unix::ffi::OsStrExt;
    use std::os::unix::fs::symlink;
    use std::time::{Duration, Instant};

    use pretty_assertions::assert_eq;

    use super::*;

    #[test]
    fn a_link_to_nothing_and_a_name_that_is_no_text_are_told() {
        for file in ["recipes/lost.toml", "weeks/lost.toml", "shops.toml", "pantry.toml"] {
            let stew = with_stew(STEW);
            symlink("nowhere.toml", stew.path().join(file)).expect("a link");
            let told = format!("error: {file}: this is a link to a file that is not there.");
            assert!(ended(&stew.run(&["check"]), 3).contains(&told), "{file}");
        }
        let stew = with_stew(STEW);
        fs::write(stew.path().join("recipes").join(OsStr::from_bytes(b"caf\xe9.toml")), STEW).expect("a file");
        assert!(ended(&stew.run(&["check"]), 1).contains("recipes/caf\u{fffd}.toml: the name of this file is not UTF-8 text"));
        let stew = with_stew(STEW).recipe("a\u{1b}b", STEW);
        assert!(ended(&stew.run(&["check"]), 1).contains("recipes/a␛b.toml: the name of this file holds ␛ (U+001B)"));
    }

    #[test]
    fn an_unreadable_file_ends_with_3_and_the_mistakes_of_the_others_are_told_beside_it() {
        let stew = with_stew(&STEW.replace("hands", "hand"));
        fs::create_dir(stew.path().join("pantry.toml")).expect("a folder");
        for arguments in [&["check"][..], &["list"], &["waste", "1 g bluegrain", "--why", "x"], &["--format", "json", "check"]] {
            let said = ended(&stew.run(arguments), 3);
            assert!(said.contains("pantry.toml: this is a folder, not a file") && said.contains("unknown key \"hand\""), "{said}");
        }
        let printed = with_stew(STEW).file("sheets/plan-2026-11-30.json", "{");
        assert!(ended(&printed.run(&["receive"]), 1).contains("sheets/plan-2026-11-30.json:1"));
    }

    fn pipe(kitchen: &Kitchen, file: &str) -> bool {
        Command::new("mkfifo").arg(kitchen.path().join(file)).status().is_ok_and(|status| status.success())
    }

    #[test]
    fn a_pipe_in_the_place_of_a_file_is_never_waited_for() {
        for (file, arguments, status) in [
            (".pantry.lock", &["waste", "1 g bluegrain", "--why", "x"][..], 3),
            (".pantry.lock", &["check", "--book"], 3),
            ("pantry.book.jsonl", &["list"], 0),
            ("pantry.book.jsonl", &["book"], 3),
            ("pantry.toml", &["list"], 3),
            ("recipes/pipe.toml", &["list"], 3),
            ("sheets/plan-2026-11-30.json", &["receive"], 3),
            ("sheets/plan-2026-11-30.json", &["print", "--only", "list"], 0),
            ("sheets/shopping-list-2026-11-30.pdf", &["print", "--only", "list"], 0),
            ("sheets/shopping-list-2026-11-30.pdf.new", &["print", "--only", "list"], 0),
        ] {
            let stew = with_stew(STEW);
            fs::create_dir(stew.path().join("sheets")).expect("a folder");
            if !pipe(&stew, file) {
                return;
            }
            let start = Instant::now();
            let output = Command::new("timeout")
                .arg("20")
                .arg(assert_cmd::cargo::cargo_bin("spence"))
                .arg("--kitchen")
                .arg(stew.path())
                .args(["--today", TODAY])
                .args(arguments)
                .output()
                .expect("it runs");
            assert!(start.elapsed() < Duration::from_secs(15), "{file} {arguments:?}");
            ended(&output, status);
        }
    }

    #[test]
    fn what_lies_in_the_place_of_a_new_file_is_not_followed() {
        let stew = with_stew(STEW).file("mine.txt", "mine\n");
        fs::create_dir(stew.path().join("sheets")).expect("a folder");
        for name in ["plan-2026-11-30.json.new", "week-card-2026-11-30.pdf.new"] {
            symlink("../mine.txt", stew.path().join("sheets").join(name)).expect("a link");
        }
        stew.done(&["print", "--only", "week"]);
        assert_eq!(stew.text("mine.txt"), "mine\n");
        let left: Vec<_> = fs::read_dir(stew.path().join("sheets")).expect("a folder").flatten().map(|entry| entry.file_name()).collect();
        assert!(left.iter().all(|name| !name.to_string_lossy().ends_with(".new")), "{left:?}");
    }

    #[test]
    fn a_check_of_the_book_waits_for_a_booking_beside_it() {
        let kitchen = with_stew(STEW).pantry("[[lot]]\nfood = \"bluegrain\"\namount = \"100 g\"\nplace = \"cupboard\"\n");
        kitchen.done(&["waste", "1 g bluegrain", "--why", "mould"]);
        let lock = fs::File::open(kitchen.path().join(".pantry.lock")).expect("a lock");
        lock.lock().expect("held as a booking holds it");
        let start = Instant::now();
        let mut check = Command::new(assert_cmd::cargo::cargo_bin("spence"));
        check.arg("--kitchen").arg(kitchen.path()).args(["--today", TODAY, "check", "--book"]).stdout(std::process::Stdio::piped());
        let check = check.spawn().expect("it runs");
        std::thread::sleep(Duration::from_millis(1500));
        lock.unlock().expect("let go");
        let output = check.wait_with_output().expect("it ends");
        assert!(start.elapsed() >= Duration::from_millis(1500), "it waited");
        assert!(stdout(&output).contains("The book adds up"), "{}", stdout(&output));
    }
}

#[test]
fn paper_that_belongs_to_another_plan_is_told_when_it_is_booked() {
    let stew =
        with_stew(STEW).shops("[[shop]]\nname = \"Stall\"\n[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nsize = \"1 kg\"\nprice = 1\n");
    stew.done(&["print"]);
    let before = stew.text("sheets/plan-2026-11-30.json");
    // The same print has the same mark; another has another.
    stew.done(&["print"]);
    assert_eq!(stew.text("sheets/plan-2026-11-30.json"), before);
    let stew = stew.recipe("stew", &STEW.replace("100 g", "300 g").replace("5 min", "7 min"));
    stew.done(&["print"]);
    assert_ne!(stew.text("sheets/plan-2026-11-30.json"), before);
    // Ended between the sheets and the plan: the old plan stands beside new sheets.
    let stew = stew.file("sheets/plan-2026-11-30.json", &before);
    let mark = |text: &str| json_mark(text);
    let told = ended(&stew.run(&["receive", "--anyway"]), 0);
    assert!(told.contains("sheets/shopping-list-2026-11-30.pdf belongs to another plan than sheets/plan-2026-11-30.json"), "{told}");
    assert!(told.contains(&format!("the other is plan {}", mark(&before))), "{told}");
    let told = ended(&stew.run(&["issue", "--anyway"]), 0);
    assert!(told.contains("sheets/prep-guide-2026-11-29-1400.pdf belongs to another plan"), "{told}");
    let whole = with_stew(STEW);
    whole.done(&["print"]);
    assert_eq!(ended(&whole.run(&["receive"]), 0), "");
}

fn json_mark(plan: &str) -> String {
    let plan: serde_json::Value = serde_json::from_str(plan).expect("JSON");
    plan["mark"].as_str().expect("a mark").to_owned()
}

#[test]
fn a_booking_and_another_day_make_no_other_plan_of_what_is_on_paper() {
    // Two foods on one trip: one is booked, and on the next day the page for the phone is printed. The paper is of Friday, still.
    let shop = "[[shop]]\nname = \"Stall\"\n[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nsize = \"1 kg\"\nprice = 1\n";
    let stew = with_stew(STEW).shops(shop).household("[[staple]]\nfood = \"salt\"\npar = \"1 kg\"\n");
    stew.done(&["print"]);
    let first = json_mark(&stew.text("sheets/plan-2026-11-30.json"));
    let form = "from = 2026-11-30\ntrip = 2026-11-28\n[[line]]\nfood = \"bluegrain\"\npacks = \"1 kg\"\n";
    let stew = stew.file("goods.toml", form);
    stew.done_on("2026-11-28", &["receive", "goods.toml"]);
    for (today, command) in [("2026-11-28", ["receive"]), ("2026-11-29", ["issue"])] {
        stew.done_on(today, &["print", "--only", "phone"]);
        assert_eq!(json_mark(&stew.text("sheets/plan-2026-11-30.json")), first);
        let booked = stew.run_on(today, &command);
        assert_eq!((booked.status.code(), stderr(&booked)), (Some(0), String::new()));
    }
    stew.done_on("2026-11-30", &["print", "--only", "phone"]);
    assert_eq!(json_mark(&stew.text("sheets/plan-2026-11-30.json")), first);
}
