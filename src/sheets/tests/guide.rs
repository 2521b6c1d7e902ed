//! The prep guide.

use pretty_assertions::assert_eq;

use super::checks::{is_sound, is_sound_in, letters, letters_of};
use super::sample::{A4, Doing, LARGE, LETTER, WEEK, before, names, session, task};
use crate::foods::Allergen;
use crate::measure::Units;
use crate::plan::Beware;
use crate::prep::{Care, PersonId, SessionPlan, Task};
use crate::sheets::page::BLACK;
use crate::sheets::{Settings, Sheet, Weight, person_guide, prep_guide};

fn printed(session: &SessionPlan, settings: Settings) -> Sheet {
    prep_guide(WEEK, session, &before(), names(), settings)
}

fn text_of(task: &Task) -> String {
    task.text(names(), Units::Metric)
}

/// A session of `count` steps of 6 minutes, by two people in turn.
pub fn packed(count: i64) -> SessionPlan {
    let mut session = session();
    let doing = |n: i64| Doing {
        dish: "Leek and potato soup",
        step: n as usize + 1,
        at: 6 * n,
        hands: 6,
        wait: if n % 3 == 0 { 20 } else { 0 },
        out: i64::from(n % 3 == 0),
        who: if n % 2 == 0 { "cook" } else { "Jo" },
        on: (n % 3 == 0).then_some("hob"),
        celsius: None,
        text: "Slice 450 g leek and dice 1.2 kg potato, then soften them in 30 ml olive oil.",
    };
    session.tasks = (0..count).map(|n| task(&doing(n))).collect();
    session
}

#[test]
fn a_usual_afternoon_is_one_page_and_a_short_one_is_set_in_eleven_point() {
    let short = SessionPlan { tasks: session().tasks[..8].to_vec(), ..session() };
    for settings in [A4, LETTER] {
        assert!(printed(&short, settings).pages[0].runs.iter().any(|run| run.size == 11.0));
        let sheet = printed(&session(), settings);
        is_sound(&sheet, WEEK);
        assert_eq!(sheet.pages.len(), 1);
        assert_eq!(sheet.warnings, Vec::<String>::new());
    }
    assert_eq!(printed(&session(), A4).file_stem, "prep-guide-2026-11-29-1400");
}

#[test]
fn the_head_says_week_day_times_people_and_when_to_be_finished() {
    let all = letters_of(&printed(&session(), A4), |_| true);
    for said in [
        "Prep guide, First week of advent",
        "Sun 29 Nov 2026, 14:00 to 16:17",
        "cook; Jo (helper), 15:00 to 16:10",
        "to be finished by 17:30",
    ] {
        assert!(all.contains(&letters(said)), "{said} is missing in {all}");
    }
}

#[test]
fn every_step_says_its_time_its_person_its_text_and_when_it_comes_out() {
    let sheet = printed(&session(), A4);
    let text = letters_of(&sheet, |run| run.grey == BLACK && run.weight == Weight::Regular && run.size >= 9.0);
    // What is boxed is told by its boxes.
    let session = session();
    let told = |task: &&Task| !task.is_box() || !session.boxes.iter().any(|note| Some(note.recipe) == task.recipe());
    for said in session.tasks.iter().filter(told).map(text_of) {
        assert!(text.contains(&letters(&said)), "{said} is missing");
    }
    let all = letters_of(&sheet, |_| true);
    for said in [
        "14:12, 3 min, then 45 min on its own cook Roast beetroot",
        "Oven (2 places), 190 °C, out at 15:00.",
        "Until 15:40.",
        "15:14, 8 min on its own cook Set the oven",
        "Ready at 15:22",
    ] {
        assert!(all.contains(&letters(said)), "{said} is missing in {all}");
    }
}

#[test]
fn the_numbers_on_the_bars_are_those_of_the_steps() {
    let session = session();
    let sheet = printed(&session, A4);
    let bold = |chosen: fn(f32) -> bool| {
        let runs = sheet.pages[0].runs.iter().filter(move |run| chosen(run.size) && run.weight == Weight::SemiBold);
        runs.map(|run| run.text.trim().to_owned()).collect::<Vec<_>>()
    };
    let (on_bars, on_steps) = (bold(|size| size == 7.5), bold(|size| size >= 9.0));
    let marks: Vec<String> = session.marks().iter().map(ToString::to_string).collect();
    for (task, mark) in session.tasks.iter().zip(&marks).filter(|(task, _)| !task.is_set()) {
        assert!(on_bars.contains(mark), "no bar says {mark}");
        assert!(on_steps.contains(mark), "no step says {mark}");
        assert!(text_of(task).len() > 1);
    }
    assert_eq!(marks, ["1", "", "2", "3", "4", "5", "6", "7", "8", "", "9", "10", "11", "A", "B", "C"]);
}

#[test]
fn the_oven_runs_show_their_temperature_in_the_units_of_the_sheet() {
    let chart = |settings| letters_of(&printed(&session(), settings), |run| run.size == 7.5);
    assert!(chart(A4).contains("2190°CRoastbeetroot:toss"));
    // 190 °C is 374 °F, on an oven's dial 375 °F.
    assert!(chart(LETTER).contains("2375°FRoastbeetroot:toss"));
}

#[test]
fn twenty_steps_fit_one_page_in_smaller_type_never_under_nine() {
    let sheet = printed(&packed(22), A4);
    is_sound(&sheet, WEEK);
    assert_eq!(sheet.pages.len(), 1);
    assert!(sheet.pages[0].runs.iter().all(|run| run.size >= 9.0 || run.size == 7.5));
}

#[test]
fn steps_too_many_for_one_page_take_one_page_a_person_with_a_warning_and_drop_none() {
    for settings in [A4, LETTER] {
        let session = packed(46);
        let sheet = printed(&session, settings);
        is_sound(&sheet, WEEK);
        assert_eq!(sheet.warnings, ["the prep guide of Sun 29 Nov 14:00 needs 2 pages"]);
        let all = letters_of(&sheet, |run| run.size == 20.0);
        assert!(all.contains("cook") && all.contains("Jo"), "{all}");
        let text = letters_of(&sheet, |run| run.grey == BLACK && run.weight == Weight::Regular);
        assert_eq!(text.matches(&letters(&text_of(&session.tasks[0]))).count(), 46);
    }
}

#[test]
fn steps_too_many_for_that_take_further_pages_and_drop_none() {
    let session = packed(120);
    let sheet = printed(&session, A4);
    is_sound(&sheet, WEEK);
    assert!(sheet.pages.len() > 2);
    let text = letters_of(&sheet, |run| run.grey == BLACK && run.weight == Weight::Regular);
    assert_eq!(text.matches(&letters(&text_of(&session.tasks[0]))).count(), 120);
}

#[test]
fn one_person_s_page_says_what_to_wait_for_and_whom_to_tell() {
    let mut session = packed(4);
    // Steps 1 and 3 are the cook's, 2 and 4 Jo's.
    session.tasks[1].after = vec![0];
    session.tasks[2].after = vec![1];
    session.tasks[0].out_person = Some(PersonId(1));
    let page = |name| person_guide(WEEK, &session, &before(), names(), A4, name);
    let jo = page("jo").expect("Jo's page");
    is_sound(&jo, WEEK);
    assert_eq!(jo.file_stem, "prep-guide-2026-11-29-1400-jo");
    let all = letters_of(&jo, |_| true);
    for said in [
        "14:06, 6 min Leek and potato soup",
        "Wait for 1 (cook).",
        "Then tell cook (3).",
        "14:26 Leek and potato soup Take it off the hob.",
    ] {
        assert!(all.contains(&letters(said)), "{said} is missing in {all}");
    }
    assert!(!all.contains(&letters("14:12, 6 min")), "the cook's third step is on Jo's page");
    assert_eq!(page("nobody"), None);
}

#[test]
fn boxes_are_named_as_the_dish_with_their_day() {
    let all = letters_of(&printed(&session(), A4), |_| true);
    for said in [
        "6 portions in 2 flat tubs, use by Wed 2 Dec, for Mon supper, Wed lunch. Freezer: 3 portions in 1 flat tub, use by Thu 28 Jan, for Fri supper.",
        "☐ in the fridge by 16:11",
        "Knives: cut on a board",
        "6 cloves garlic: sliced for 7",
    ] {
        assert!(all.contains(&letters(said)), "{said} is missing in {all}");
    }
}

#[test]
fn boxes_that_no_task_fills_have_a_list_of_their_own() {
    let mut session = session();
    session.tasks.retain(|task| !task.is_box());
    let all = letters_of(&printed(&session, A4), |_| true);
    let said = "White-bean mash, 6 portions, fridge, 2 flat tubs, use by Wed 2 Dec, for Mon supper, Wed lunch";
    assert!(all.contains(&letters(said)));
}

#[test]
fn a_source_of_several_cautions_is_named_once() {
    let mut session = session();
    // With room for a paragraph each.
    session.tasks.truncate(3);
    let rule = |text, source| Care::Rule { text, figures: vec![], source };
    session.cautions = vec![rule("Chill.", "USDA FSIS"), rule("Steam.", "common practice"), rule("Reheat.", "USDA FSIS"), Care::LocalRules];
    let all = letters_of(&printed(&session, A4), |_| true);
    assert!(all.contains(&letters("Chill. Reheat. (USDA FSIS) Steam. (common practice) Where local food rules")), "{all}");
}

#[test]
fn a_session_without_tasks_is_a_page() {
    let mut empty = session();
    empty.tasks.clear();
    empty.minutes = 0;
    empty.people.clear();
    is_sound(&printed(&empty, A4), WEEK);
}

#[test]
fn a_box_says_what_the_household_avoids_or_what_is_not_known_of_it() {
    let mut session = session();
    session.boxes[0].beware = Some(Beware::Contains(vec![Allergen::Milk]));
    session.boxes[1].beware = Some(Beware::Contains(vec![Allergen::Milk]));
    let all = letters_of(&printed(&session, A4), |_| true);
    assert!(all.contains(&letters("use by Thu 28 Jan, for Fri supper. Contains milk.")), "{all}");
    assert!(all.contains(&letters("for Mon supper. Allergens not known: vegetable stock.")), "{all}");
    session.boxes.iter_mut().for_each(|one| (one.beware, one.contains.unknown) = (None, Default::default()));
    let all = letters_of(&printed(&session, A4), |_| true);
    assert!(!all.contains("Contains") && !all.contains(&letters("not known")), "{all}");
}

#[test]
fn large_print_takes_the_pages_it_needs_without_a_warning_and_drops_no_step() {
    let session = packed(22);
    let sheet = printed(&session, LARGE);
    is_sound_in(&sheet, WEEK, LARGE);
    assert!(sheet.pages.len() > 2);
    assert_eq!(sheet.warnings, Vec::<String>::new());
    let text = letters_of(&sheet, |run| run.grey == BLACK && run.weight == Weight::Regular);
    assert_eq!(text.matches(&letters(&text_of(&session.tasks[0]))).count(), 22);
    let jo = person_guide(WEEK, &session, &before(), names(), LARGE, "Jo").expect("Jo's page");
    is_sound_in(&jo, WEEK, LARGE);
}

#[test]
fn a_session_has_a_bookmark_and_so_has_each_person_s_page() {
    let titles = |session: &SessionPlan| -> Vec<String> {
        printed(session, A4).pages.iter().flat_map(|page| page.bookmarks.iter().map(|mark| mark.title.clone())).collect()
    };
    assert_eq!(titles(&session()), ["Sun 29 Nov, 14:00"]);
    assert_eq!(titles(&packed(46)), ["Sun 29 Nov, 14:00, cook", "Sun 29 Nov, 14:00, Jo"]);
}
