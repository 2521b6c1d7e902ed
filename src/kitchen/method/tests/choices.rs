//! What may be left out, what is done another way, and what is done later; and where goes on what names no place.

use super::{foods, read, told};
use crate::kitchen::method::MethodRead;
use pretty_assertions::assert_eq;

fn tells(found: &MethodRead, words: &str) -> bool {
    found.doubts.iter().any(|(_, text)| text.contains(words))
}

#[test]
fn what_may_be_left_out_is_not_planned_and_is_told() {
    for said in [
        "If you like, toast the rice in the oven for 5 minutes.",
        "Alternatively, bake the rice at 180C for 40 minutes.",
        "Or bake it at 180C for 40 minutes.",
        "Optional: bake the rice for 5 minutes at 180C.",
        "If desired, grill the top for 3 minutes.",
        "Grill the top for 3 minutes, if you like.",
        "Brown under the grill for 3 minutes (optional).",
    ] {
        let found = read(&["200 g rice"], &[&format!("Boil the rice for 12 minutes. {said}"), "Rest for 5 minutes."]);
        assert_eq!(told(&found), ["hob w12", "- w5"], "{said}");
        assert!(tells(&found, "it may be left out"), "{said} {:?}", found.doubts);
        let all: String = found.steps.iter().map(|step| super::text(&["200 g rice"], step)).collect();
        assert!(all.contains(said.split(' ').next().unwrap()), "{said}: {all}");
    }
}

#[test]
fn how_something_is_done_may_be_left_out_and_the_work_is_planned() {
    for said in ["with the lid on, if you like", "or longer, if you like", "adding salt, if you like"] {
        assert_eq!(told(&read(&["200 g rice"], &[&format!("Boil the rice for 12 minutes, {said}.")])), ["hob w12"], "{said}");
    }
    // A moment's work stays, so that its food is named where it goes.
    let typed = ["200 g rice", "1 bunch parsley"];
    let found = read(&typed, &["Boil the rice for 12 minutes.", "If you like, stir in the parsley."]);
    assert_eq!(foods(&typed, &found)[1], ["1 bunch parsley"]);
    // What is named in it alone stands in its words, and not under the first step.
    let found = read(&typed, &["Boil the rice for 12 minutes. If you like, fry the parsley for 2 minutes."]);
    assert_eq!(foods(&typed, &found), [["200 g rice", "1 bunch parsley"]]);
}

#[test]
fn a_paragraph_that_opens_with_a_tip_goes_on_with_the_method_where_the_method_goes_on() {
    let tip = "Note: the rice can be rinsed first. Drain the rice and rest it for 5 minutes.";
    let found = read(&["200 g rice"], &["Boil the rice for 12 minutes.", tip, "Fluff with a fork."]);
    assert_eq!(told(&found), ["hob w12", "- w5", "-"]);
    assert_eq!(found.notes, ["Note: the rice can be rinsed first."]);
    let last = read(&["200 g rice"], &["Boil the rice for 12 minutes.", tip]);
    assert_eq!((told(&last), last.notes.len()), (vec!["hob w12".to_owned()], 1));
    assert!(tells(&last, "begin a new one where the method goes on"), "{:?}", last.doubts);
    let kept = read(&["200 g rice"], &["Boil the rice for 12 minutes.", "Tip: it freezes well. Thaw overnight."]);
    assert!(kept.doubts.is_empty(), "{:?}", kept.doubts);
}

#[test]
fn what_is_done_to_freeze_or_to_reheat_is_a_note_with_a_comma_too() {
    for said in [
        "To freeze, wrap tightly and freeze; thaw overnight in the fridge.",
        "To reheat, bake at 180C for 15 minutes.",
        "To make ahead, chill for 24 hours.",
        "To store, chill for 2 hours.",
    ] {
        let found = read(&["200 g rice"], &[&format!("Boil the rice for 12 minutes. {said}")]);
        assert_eq!((told(&found), found.notes), (vec!["hob w12".to_owned()], vec![said.to_owned()]), "{said}");
    }
    assert_eq!(
        told(&read(&["200 g rice"], &["To cook, boil for 12 minutes.", "To finish, grill for 3 minutes."])),
        ["hob w12", "grill w3"]
    );
}

#[test]
fn what_names_no_place_goes_on_where_it_was() {
    for (method, reading) in [
        (&["Heat the rice in the microwave for 2 min; stir; heat 1 min more."][..], &["microwave w2", "microwave w1"][..]),
        (&["Put the rice in the rice cooker and switch on for 25 minutes."], &["rice cooker w25"]),
        (&["Put the rice in the slow cooker and set to low for 8 hours."], &["slow cooker w480"]),
        (
            &["Cook the rice at high pressure for 5 minutes. Set the cooker to simmer for 10 min."],
            &["pressure cooker w5", "pressure cooker w10"],
        ),
        (
            &["Cook the rice in the slow cooker for 3 hours. Take it out of the cooker and rest for 5 minutes."],
            &["slow cooker w180", "- w5"],
        ),
        (&["Pour the stock into a roasting tin and heat in the oven at 200C for 5 mins."], &["oven w5 c200"]),
        (&["Fry the rice for 3 minutes, keeping it warm in a low oven."], &["hob h3"]),
        (&["Boil the rice for 12 minutes; drain and steam-dry in the pan for a min."], &["hob w12", "- w1"]),
        (&["Keep the rice aside for 30 minutes.", "Boil for 12 minutes."], &["- w30", "hob w12"]),
        (&["Soak the rice in the stock. Keep aside for 30 minutes, preferably 2 hours.", "Boil for 12 minutes."], &["- w30", "hob w12"]),
        (&["Soak the rice.", "Boil for 12 minutes."], &["- w30", "hob w12"]),
        (
            &["Tip the rice into the slow cooker.", "Add the stock, put the lid on and leave on low for 7-8 hrs."],
            &["-", "slow cooker w480"],
        ),
        (&["Salt the rice in a colander for 20 minutes, then rinse.", "Boil for 12 minutes."], &["- w20", "-", "hob w12"]),
        (
            &[
                "Pressure cook the rice for 5 minutes. Boil the stock for 10 minutes. Mix in the rice and let it come to a boil; simmer 5 minutes.",
            ],
            &["pressure cooker w5", "hob w10", "hob w10", "hob w5"],
        ),
        (&["Boil the rice for 12 minutes. Wrap in a tea towel for 5 minutes."], &["hob w12", "- w5"]),
        (&["Heat the oven to gas 5/190C/fan 170C. Bake the rice, rotating the pan halfway, for 40 minutes."], &["oven w40 c190"]),
        (&["Roast the rice in a dry pan for 3 minutes."], &["hob h3"]),
        (&["Salt the rice. Boil for 12 minutes. Refrigerate up to 5 days."], &["hob w12"]),
        (&["Cook the rice for 3 whistles on medium."], &["pressure cooker w10"]),
        (&["Put it in the oven at 150C. Cook for 3 hours, adding the rice for the last half hour."], &["oven w180 c150"]),
        (&["Boil the rice for 12 minutes. Rest for 20 minutes while you make the gravy."], &["hob w12", "- w20"]),
    ] {
        let lines = ["200 g rice", "300 ml vegetable stock"];
        assert_eq!(told(&read(&lines, method)), reading, "{method:?}");
    }
}
