//! `print` and its flags: which files are written, what is in them, what is refused.

use std::fs;
use std::path::Path;

use lopdf::{Document, Object};
use pretty_assertions::assert_eq;

use crate::kitchen::{Kitchen, json, kitchen, sample, stderr, supper};

/// A stew of two portions, eaten on Monday out of a box made on Sunday.
fn stew(name: &str) -> Kitchen {
    kitchen()
        .foods("[[food]]\nname = \"bluegrain\"\ncup = \"160 g\"\nallergens = [\"milk\"]\nsource = \"weighed at home\"\n")
        .recipe(
            "stew",
            &format!(
                "name = \"{name}\"\nmakes = \"2 portions\"\nkeeps = {{ fridge = \"3 days\" }}\nserve = \"hot\"\ningredients = \"\"\"\n100 g bluegrain\n\"\"\"\n[[step]]\ntext = \"Cook {{bluegrain}}.\"\nhands = \"5 min\"\n"
            ),
        )
        .meals(&supper("2026-11-30", "\"1 portion recipe:stew\""))
}

/// The names of the sheets, without the plan beside them, in order.
fn written(kitchen: &Kitchen, arguments: &[&str]) -> Vec<String> {
    let output = kitchen.run(&[&["--format", "json", "print"], arguments].concat());
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {}", stderr(&output));
    let files = json(&output)["files"].as_array().cloned().unwrap_or_default();
    let name = |file: &serde_json::Value| Path::new(file.as_str()?).file_name()?.to_str().map(str::to_owned);
    files.iter().filter_map(name).filter(|name| name.ends_with(".pdf")).collect()
}

fn pdf(kitchen: &Kitchen, name: &str) -> Document {
    Document::load(kitchen.path().join("sheets").join(name)).expect("a PDF that can be read")
}

fn text(document: &Document) -> String {
    let pages: Vec<u32> = document.get_pages().keys().copied().collect();
    document.extract_text(&pages).expect("text").chars().filter(|c| !c.is_whitespace()).collect()
}

/// The width of the first page, in points.
fn width(document: &Document) -> f32 {
    let (_, page) = document.get_pages().into_iter().next().expect("a page");
    let media = document.get_dictionary(page).and_then(|page| page.get(b"MediaBox")).and_then(Object::as_array).expect("a size");
    media[2].as_float().expect("a number")
}

const LIST: &str = "shopping-list-2026-11-30.pdf";
const GUIDE: &str = "prep-guide-2026-11-29-1400.pdf";
const WEEK: &str = "week-card-2026-11-30.pdf";
const LABELS: &str = "labels-2026-11-30.pdf";

#[test]
fn without_flags_every_sheet_is_written() {
    assert_eq!(written(&stew("Moon stew"), &[]), [LIST, GUIDE, WEEK, LABELS]);
}

#[test]
fn only_writes_the_sheets_it_names() {
    let kitchen = stew("Moon stew");
    for (only, files) in
        [("list", vec![LIST]), ("guide", vec![GUIDE]), ("week", vec![WEEK]), ("labels", vec![LABELS]), ("week,list", vec![LIST, WEEK])]
    {
        assert_eq!(written(&kitchen, &["--only", only]), files, "{only}");
    }
    assert_eq!(kitchen.run(&["print", "--only", "posters"]).status.code(), Some(2));
}

#[test]
fn a_label_says_dish_portions_days_heating_and_allergens() {
    let kitchen = stew("Moon stew");
    written(&kitchen, &["--only", "labels"]);
    let text = text(&pdf(&kitchen, LABELS));
    // One eater eats one portion: half a batch.
    for said in ["Moonstew", "1portion·madeSun29Nov", "UsebyWed2Dec", "Heatto74°C(165°F)", "Allergens:milk"] {
        assert!(text.contains(said), "{said} is missing in {text}");
    }
}

#[test]
fn without_boxes_there_are_no_labels_unless_they_are_asked_for() {
    // Eaten straight from the pot on Sunday evening, and nothing to spare.
    let kitchen = stew("Moon stew").meals(&supper("2026-11-29", "\"2 portions recipe:stew\""));
    assert_eq!(written(&kitchen, &[]), [LIST, GUIDE, WEEK]);
    assert_eq!(written(&kitchen, &["--only", "labels"]), [LABELS]);
    assert!(text(&pdf(&kitchen, LABELS)).contains("Noboxestolabel"));
}

#[test]
fn a_grid_of_labels_that_cannot_be_is_a_wrong_command_line() {
    let kitchen = stew("Moon stew");
    for (grid, said) in [
        ("0x8", "write columns x rows, both at least 1, as in 3x8"),
        ("three by eight", "write columns x rows"),
        ("30x90", "30x90 labels on A4 are too small to be read: at most 4x12 fit."),
    ] {
        let output = kitchen.run(&["print", "--labels", grid]);
        assert_eq!(output.status.code(), Some(2), "{grid}");
        assert!(stderr(&output).contains(said), "{grid}: {}", stderr(&output));
        assert!(!kitchen.path().join("sheets").exists());
    }
    assert_eq!(written(&kitchen, &["--only", "labels", "--labels", "2x6"]), [LABELS]);
}

#[test]
fn a_flag_for_a_sheet_that_is_left_out_is_a_wrong_command_line() {
    let kitchen = stew("Moon stew");
    for (arguments, said) in [
        (vec!["print", "--only", "guide", "--fold"], "--fold is for the shopping list, which --only or --person leaves out."),
        (vec!["print", "--only", "list", "--labels", "3x8"], "--labels is for the box labels, which --only or --person leaves out."),
        (vec!["print", "--person", "cook", "--fold"], "--fold is for the shopping list"),
    ] {
        let output = kitchen.run(&arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        assert!(stderr(&output).contains(said), "{}", stderr(&output));
    }
}

#[test]
fn paper_is_what_the_flag_says_whatever_the_kitchen_says() {
    let kitchen = stew("Moon stew");
    for (paper, points) in [("letter", 612.0), ("A4", 595.28), ("a4", 595.28)] {
        for name in written(&kitchen, &["--paper", paper]) {
            assert!((width(&pdf(&kitchen, &name)) - points).abs() < 0.1, "{paper}: {name}");
        }
    }
    assert_eq!(kitchen.run(&["print", "--paper", "A5"]).status.code(), Some(2));
}

#[test]
fn large_print_and_a_fold_still_say_everything() {
    let kitchen = stew("Moon stew");
    for arguments in [vec!["--size", "large"], vec!["--fold"], vec!["--size", "large", "--fold", "--paper", "letter"]] {
        assert_eq!(written(&kitchen, &arguments), [LIST, GUIDE, WEEK, LABELS]);
        assert!(text(&pdf(&kitchen, LIST)).contains("bluegrain"));
        assert!(text(&pdf(&kitchen, GUIDE)).contains("Cook50gbluegrain."));
    }
    assert_eq!(kitchen.run(&["print", "--size", "huge"]).status.code(), Some(2));
}

#[test]
fn one_person_s_guide_is_printed_alone() {
    let kitchen = stew("Moon stew");
    assert_eq!(written(&kitchen, &["--person", "Cook"]), ["prep-guide-2026-11-29-1400-cook.pdf"]);
    assert_eq!(kitchen.run(&["print", "--person", "nobody"]).status.code(), Some(2));
}

#[test]
fn into_names_the_folder() {
    let kitchen = stew("Moon stew");
    let into = kitchen.path().join("fridge door");
    written(&kitchen, &["--into", into.to_str().expect("a path in Unicode")]);
    assert_eq!(fs::read_dir(into).expect("a folder").count(), 5);
    assert!(!kitchen.path().join("sheets").exists());
}

#[test]
fn a_print_elsewhere_tells_that_bookings_go_by_the_kitchen_s_own() {
    let kitchen = stew("Moon stew");
    let into = kitchen.path().join("fridge door");
    let elsewhere = || stderr(&kitchen.run(&["print", "--only", "list", "--into", into.to_str().expect("a path in Unicode")]));
    let said = "receive and issue book by sheets/plan-2026-11-30.json of the kitchen, not by this print: the plan as it stands.";
    assert!(elsewhere().contains(said), "{}", elsewhere());
    kitchen.done(&["print", "--only", "list"]);
    assert!(!elsewhere().contains("receive and issue book by"), "the same plan is there");
}

#[test]
fn what_cannot_be_printed_is_told_once_and_ends_a_strict_run_before_anything_is_written() {
    let kitchen = stew("Moon 白菜 stew");
    let said = "Chinese, Japanese and Korean cannot be printed; write the name in Latin, Greek or Cyrillic letters. The sheet's type has no shape for 白 (U+767D), 菜 (U+83DC): □ is printed instead";
    let strict = kitchen.run(&["--strict", "print"]);
    assert_eq!(strict.status.code(), Some(1), "{}", stderr(&strict));
    assert!(!kitchen.path().join("sheets").exists());
    let output = kitchen.run(&["print"]);
    assert_eq!(output.status.code(), Some(0));
    assert_eq!(stderr(&output).matches(said).count(), 1, "{}", stderr(&output));
    assert!(text(&pdf(&kitchen, WEEK)).contains("Moon□□stew"));
}

#[test]
fn what_the_household_avoids_is_pointed_out_on_every_sheet() {
    let kitchen = stew("Moon stew").file(
        "kitchen.toml",
        "[household]\nname = \"Test row\"\neaters = 1\ncurrency = \"EUR\"\navoid = [\"milk\"]\n[rules]\nwash = \"0 min\"\n",
    );
    for name in written(&kitchen, &[]) {
        let text = text(&pdf(&kitchen, &name)).to_lowercase();
        assert!(text.contains("containsmilk"), "{name}: {text}");
    }
}

#[test]
fn recipes_are_printed_only_where_they_are_asked_for() {
    let kitchen = stew("Moon stew");
    assert_eq!(written(&kitchen, &["--only", "recipes"]), ["recipes-2026-11-30.pdf"]);
    let text = text(&pdf(&kitchen, "recipes-2026-11-30.pdf"));
    // One of two portions: half a batch.
    for said in ["Sun29Novmakes1portion;onebatchmakes2portions", "bluegrain50g100g", "Cook50gbluegrain."] {
        assert!(text.contains(said), "{said} is missing in {text}");
    }
}

#[test]
fn one_recipe_is_printed_at_exactly_the_size_that_was_asked_for_without_a_week() {
    let kitchen = stew("Moon stew");
    for name in ["stew", "moon stew"] {
        assert_eq!(written(&kitchen, &["--only", "recipes", "--recipe", name, "--for", "5 portions"]), ["recipe-stew.pdf"]);
    }
    let text = text(&pdf(&kitchen, "recipe-stew.pdf"));
    assert!(text.contains("bluegrain250g100g"), "{text}");
    assert!(!kitchen.path().join("sheets/plan-2026-11-30.json").exists());
}

#[test]
fn a_recipe_or_a_size_that_is_not_known_is_a_mistake_of_the_command_line() {
    let kitchen = stew("Moon stew");
    for (arguments, said) in [
        (&["--recipe", "pie"][..], "\"pie\" is no recipe of this kitchen. There are: stew."),
        (&["--recipe", "stew", "--for", "2 kg"], "which cannot be compared with \"2 kg\""),
        (&["--recipe", "stew", "--for", "lots"], "--for: "),
        (&["--recipe", "stew", "--only", "list"], "write --only recipes"),
        (&["--for", "2 portions"], "--recipe"),
    ] {
        let output = kitchen.run(&[&["print"], arguments].concat());
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        assert!(stderr(&output).contains(said), "{said} is missing in {}", stderr(&output));
    }
}

#[test]
fn the_household_says_which_sheets_are_usual() {
    let sheets = |list: &str| {
        stew("Moon stew")
            .file("kitchen.toml", &format!("[household]\nname = \"Row\"\neaters = 1\ncurrency = \"EUR\"\n[print]\nsheets = {list}\n"))
    };
    assert_eq!(written(&sheets("[\"recipes\", \"week\"]"), &[]), [WEEK, "recipes-2026-11-30.pdf"]);
    assert_eq!(written(&sheets("[\"week\"]"), &["--only", "list"]), [LIST]);
    let output = sheets("[\"weak\"]").run(&["check"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(stderr(&output).contains("kitchen.toml:6:11: sheets: \"weak\" is no sheet. Did you mean \"week\"?"), "{}", stderr(&output));
}

/// On letter paper there is less height for the same words: the smallest type is 9 pt for the steps and 7.5 pt for the cautions.
#[test]
fn each_guide_of_the_sample_week_is_one_page_on_a4_and_on_letter() {
    let sample = crate::kitchen::sample();
    let household = fs::read_to_string(sample.path().join("kitchen.toml")).expect("a file");
    for paper in ["A4", "letter"] {
        let kitchen = crate::kitchen::sample().file("kitchen.toml", &household.replace("paper = \"A4\"", &format!("paper = \"{paper}\"")));
        let output = kitchen.run(&["print", "--only", "guide"]);
        let said = stderr(&output);
        assert!(output.status.success() && !said.contains("pages"), "{paper}: {said}");
    }
}

#[test]
fn a_fold_is_of_the_list_alone() {
    let kitchen = sample();
    let guides = |arguments: &[&str]| {
        kitchen.done(&[&["print", "--only", "list,guide,week"], arguments].concat());
        let mut files: Vec<_> = fs::read_dir(kitchen.path().join("sheets")).expect("sheets").flatten().map(|file| file.path()).collect();
        files.retain(|path| path.extension().is_some_and(|end| end == "pdf"));
        files.sort();
        let bytes = files.iter().map(|path| (path.file_name().expect("a name").to_owned(), fs::read(path).expect("a sheet")));
        bytes.partition::<Vec<_>, _>(|(name, _)| name.to_string_lossy().starts_with("shopping"))
    };
    let (flat, folded) = (guides(&[]), guides(&["--fold"]));
    assert!(!flat.1.is_empty() && flat.1 == folded.1, "another sheet was folded");
    assert!(flat.0 != folded.0, "the list was not");
}

/// The guides among the files that a print named.
fn guides(said: &str) -> Vec<&str> {
    said.lines().filter_map(|line| line.rsplit_once('/')).map(|(_, name)| name).filter(|name| name.starts_with("prep-guide")).collect()
}

#[test]
fn print_all_keeps_the_guide_of_a_session_that_is_done_as_it_was_printed() {
    let (sunday, wednesday) = ("prep-guide-2026-11-29-1400.pdf", "prep-guide-2026-12-02-1930.pdf");
    let kitchen = sample();
    kitchen.done(&["print"]);
    let paper = std::fs::read(kitchen.path().join("sheets").join(sunday)).expect("a guide");
    kitchen.done_on("2026-11-28", &["receive"]);
    kitchen.done_on("2026-11-29", &["issue"]);
    assert_eq!(guides(&kitchen.done_on("2026-11-30", &["print"])), [wednesday]);
    let mut all = guides(&kitchen.done_on("2026-11-30", &["print", "--all"])).join(" ");
    assert!(all.contains(sunday) && all.contains(wednesday), "{all}");
    let elsewhere = kitchen.path().join("elsewhere");
    all = kitchen.done_on("2026-11-30", &["print", "--all", "--only", "guide", "--into", &elsewhere.to_string_lossy()]);
    assert_eq!(guides(&all).len(), 2, "{all}");
    for folder in [kitchen.path().join("sheets"), elsewhere] {
        assert!(std::fs::read(folder.join(sunday)).expect("a guide") == paper, "byte for byte");
    }
}

#[test]
fn print_all_of_a_week_that_is_past_and_was_never_printed_has_its_guides_as_planned() {
    let kitchen = sample();
    let today = "2027-01-11";
    let week = ["--week", "2026-11-30"];
    assert_eq!(guides(&kitchen.done_on(today, &[&week[..], &["print"]].concat())), [""; 0]);
    let all = kitchen.done_on(today, &[&week[..], &["print", "--all"]].concat());
    assert_eq!(guides(&all), ["prep-guide-2026-11-29-1400.pdf", "prep-guide-2026-12-02-1930.pdf"]);
    // One that was booked and never printed: nobody knows how it went.
    let kitchen = sample();
    kitchen.done_on("2026-11-28", &["receive"]);
    kitchen.done_on("2026-11-29", &["issue"]);
    let output = kitchen.run_on("2026-11-30", &["print", "--all"]);
    let said = crate::kitchen::stderr(&output);
    assert!(said.contains("the session of Sun 29 Nov 14:00 is done, and no guide of it was printed here"), "{said}");
}

#[test]
fn print_all_marks_a_trip_that_is_no_longer_open_on_every_sheet() {
    let marked = |kitchen: &Kitchen, state: &str| {
        kitchen.done_on("2026-11-30", &["print", "--all"]);
        assert!(text(&pdf(kitchen, "shopping-list-2026-11-30.pdf")).contains(&format!("Sat28Nov2026,{}", state.replace(' ', ""))));
        kitchen.done_on("2026-11-30", &["print", "--all", "--only", "phone,calendar"]);
        let sheets = std::fs::read_dir(kitchen.path().join("sheets")).expect("sheets").flatten();
        let told: Vec<String> = sheets.filter_map(|entry| std::fs::read_to_string(entry.path()).ok()).collect();
        let phone = told.iter().find(|text| text.contains("<html")).expect("a page for the phone");
        assert!(phone.contains(&format!("<h2>Sat 28 Nov, {state}</h2>")), "{state}");
        let calendar = told.iter().find(|text| text.starts_with("BEGIN:VCALENDAR")).expect("a calendar");
        assert!(calendar.replace("\r\n ", "").contains(&format!("({state})")), "{calendar}");
    };
    let kitchen = sample();
    marked(&kitchen, "taken as done");
    kitchen.done_on("2026-11-28", &["receive"]);
    marked(&kitchen, "done");
}
