use super::super::tests::{read, told};
use super::*;
use crate::kitchen::Spot;
use pretty_assertions::assert_eq;

const LINES: &[&str] = &["2 tins white beans", "1 onion", "2 red peppers"];

fn parts(paragraphs: &[&str]) -> (Vec<String>, Vec<String>) {
    parts_of(paragraphs, None)
}

fn parts_of(paragraphs: &[&str], kept: Option<&str>) -> (Vec<String>, Vec<String>) {
    static REFERENCE: std::sync::LazyLock<Foods> = std::sync::LazyLock::new(Foods::reference);
    let typed: Vec<Paragraph> = paragraphs.iter().map(|text| Paragraph { text: (*text).to_owned(), at: Spot::default() }).collect();
    let found = parted(&typed, &REFERENCE, kept);
    (found.method.into_iter().map(|paragraph| paragraph.text).collect(), found.notes)
}

#[test]
fn how_long_it_keeps_is_a_note_where_the_recipe_has_it() {
    let beans = "Simmer the beans for 15 minutes.";
    let keeps = "Keeps for 3 days in the fridge, or freeze for up to 2 months.";
    let own = |texts: &[&str]| texts.iter().map(|text| (*text).to_owned()).collect::<Vec<String>>();
    let within = format!("{beans} {keeps}");
    assert_eq!(parts_of(&[&within], Some("Bean mash")), (own(&[beans]), own(&[keeps])));
    assert_eq!(parts_of(&[beans, keeps], Some("Bean mash")), (own(&[beans]), own(&[keeps])));
    assert_eq!(parts_of(&[beans, keeps], None), (own(&[beans, keeps]), Vec::new()));
    // Work stays work, and what is said of a part of the dish its words.
    for work in ["Cool and freeze for up to 2 months.", "The dressing keeps for a week in the fridge."] {
        assert_eq!(parts_of(&[beans, work], Some("Bean mash")), (own(&[beans, work]), Vec::new()), "{work}");
    }
}

#[test]
fn a_note_takes_no_time_and_is_kept_as_it_was_typed() {
    for note in [
        "Tip: keeps for 3 days in the fridge.",
        "Tip: it keeps for 3 days and can be frozen.",
        "TIP - simmer it for 10 minutes more if you like it thick.",
        "Cook's tip: for a smoky taste, grill the peppers for 10 minutes first.",
        "Note: if using dried beans, soak overnight and boil for 1 hour.",
        "Note: you can use 2 tins instead and simmer for 10 minutes only.",
        "Notes: Soak the beans overnight. Boil them for 1 hour.",
        "Variation: bake for 20 minutes instead.",
        "Slow cooker version: cook on low for 8 hours.",
        "To make ahead: chill for up to 24 hours.",
        "Make-ahead: chill for 24 hours.",
        "Make ahead – chill for 24 hours, then bake for 10 minutes at 200C.",
        "Storage: chill for 2 hours and freeze.",
        "To freeze: cool for 1 hour, then freeze.",
        "To reheat: bake for 20 minutes at 180C.",
        "Leftovers: fry them for 5 minutes.",
        "**Tip:** roast the peppers for 30 minutes.",
        "* Note 2: rest the onion for 10 minutes.",
        "(Tip: roast the peppers for 30 minutes.)",
        "Tips for freezing: cool for 30 minutes first.",
    ] {
        let found = read(LINES, &["Simmer the beans for 20 minutes.", note]);
        assert_eq!(told(&found), ["hob w20"], "{note}");
        assert_eq!(found.notes, [note.trim_start_matches('(').trim_end_matches(')')], "{note}");
        let found = read(LINES, &[&format!("Simmer the beans for 20 minutes. {note}")]);
        assert_eq!(told(&found), if note.starts_with("Notes") { vec!["hob w20", "hob w60"] } else { vec!["hob w20"] }, "{note}");
    }
}

#[test]
fn what_stands_under_a_heading_of_notes_takes_no_time() {
    for heading in [
        "Tips",
        "Notes:",
        "NOTES",
        "Storage",
        "Make ahead",
        "Variations",
        "To freeze",
        "To reheat:",
        "Cook's notes",
        "## Tips & tricks",
        "Recipe notes",
    ] {
        let method = ["Simmer the beans for 20 minutes.", heading, "Chill the beans for 2 hours.", "2. Bake for 30 minutes at 200C."];
        let found = read(LINES, &method);
        assert_eq!(told(&found), ["hob w20"], "{heading}");
        assert_eq!(found.notes.len(), 2, "{heading}");
    }
    let method = ["Tips", "Buy ripe peppers.", "For the sauce:", "Simmer the beans for 20 minutes.", "Notes"];
    let (method, notes) = parts(&method);
    assert_eq!(method, ["For the sauce:", "Simmer the beans for 20 minutes."]);
    assert_eq!(notes, ["Tips: Buy ripe peppers.", "Notes"]);
}

#[test]
fn other_labels_and_the_verb_to_tip_are_no_notes() {
    for text in [
        "Tip the beans into a pan and simmer for 20 minutes.",
        "For the dressing: whisk the oil and vinegar.",
        "Step 2: simmer for 20 minutes.",
        "Asparagus tips: boil for 3 minutes.",
        "Trim the tips.",
        "Chill in the fridge.",
        "Cover to keep warm.",
        "Soak the beans ahead.",
        "Reserve the leftovers.",
        "Pressure cooker: cook for 20 minutes.",
        "Note that the beans simmer for 20 minutes.",
        "The night before: soak the beans.",
    ] {
        let none = parts(&[text]).1;
        assert!(none.is_empty(), "{text}: {none:?}");
    }
}

#[test]
fn what_is_done_after_a_tip_in_a_paragraph_is_still_done() {
    let found = read(LINES, &["Fry the onion for 5 minutes. Tip: keep the heat low. Add the beans and simmer for 20 minutes."]);
    assert_eq!(told(&found), ["hob w20"]);
    assert_eq!(found.notes, ["Tip: keep the heat low."]);
    let found = read(LINES, &["Simmer the beans (tip: soak them for 8 hours) for 20 minutes."]);
    assert_eq!((told(&found), found.notes), (vec!["hob w20".to_owned()], vec!["tip: soak them for 8 hours".to_owned()]));
}

#[test]
fn a_method_of_nothing_but_notes_is_one_step_of_words_and_told() {
    let found = read(LINES, &["Note: simmer for 20 minutes."]);
    assert_eq!(told(&found), ["-"]);
    assert!(found.doubts[0].1.contains("nothing in this method"), "{:?}", found.doubts);
}

#[test]
fn what_is_done_only_another_way_is_words_and_told() {
    for (text, reading) in [
        ("If using dried beans, soak them overnight.", &["-"][..]),
        ("If using dried beans, soak them overnight and boil for 1 hour.", &["-"]),
        ("If you're using dried beans, soak them for 8 hours; otherwise simmer for 10 minutes.", &["hob w10"]),
        ("Soak the beans overnight if using dried beans. Simmer for 10 minutes.", &["hob w10"]),
        ("If making ahead, chill for 2 hours.", &["-"]),
        ("If you have a pressure cooker, pressure cook the beans for 30 minutes.", &["-"]),
    ] {
        let found = read(LINES, &["Slice the onion.", text]);
        let wanted: Vec<&str> = ["-"].into_iter().chain(reading.iter().copied().filter(|one| *one != "-")).collect();
        assert_eq!(told(&found), wanted, "{text}");
        assert!(found.doubts.iter().any(|(_, doubt)| doubt.contains("is not planned")), "{text}: {:?}", found.doubts);
    }
    // A state, a wish and a thing that may be left out are planned as ever.
    for (text, reading) in [
        ("If the sauce is thin, simmer for 5 minutes more.", "hob w5"),
        ("Simmer the beans for 20 minutes if you have the time.", "hob w20"),
        ("Add the peppers, if using, and simmer for 10 minutes.", "hob w10"),
    ] {
        assert_eq!(told(&read(LINES, &[text])), [reading], "{text}");
    }
}

#[test]
fn what_hangs_on_an_if_stays_one_sentence() {
    let found = read(LINES, &["If using dried beans, soak them overnight and boil for 1 hour. Simmer the beans for 10 minutes."]);
    let crate::kitchen::Piece::Words(words) = &found.steps[0].text[0] else { panic!("{:?}", found.steps[0].text) };
    assert_eq!(words.trim_end(), "If using dried beans, soak them overnight and boil for 1 hour.");
    assert_eq!(found.doubts.len(), 1, "{:?}", found.doubts);
}
