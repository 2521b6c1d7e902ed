//! Kitchens that nobody has, laid out soundly all the same: words of 200 letters, signs without a shape, 60 tasks, 400 lines.

use jiff::civil::date;
use proptest::prelude::*;

use super::checks::{is_sound, letters, letters_of, semi_bold_of};
use super::sample::{A4, Doing, LETTER, g, line, list, loose, session, sized, task};
use crate::measure::Quantity;
use crate::prep::{Before, Cut, SessionPlan, Task, TaskKind};
use crate::purchase::{ListLine, Section, ShopVisit, ShoppingList, TripList};
use crate::sheets::page::BLACK;
use crate::sheets::{Settings, Weight, prep_guide, shopping_list};

fn word() -> impl Strategy<Value = String> {
    prop_oneof![
        8 => "[a-z]{1,12}",
        1 => "[A-Za-z]{200}",
        1 => "[0-9]{1,6}",
        1 => "[α-ωа-я]{1,10}",
        1 => Just("🌶️".to_owned()),
        1 => Just("שלום".to_owned()),
        1 => Just("白菜".to_owned()),
        1 => Just("e\u{301}clair".to_owned()),
        1 => Just("a-b/c-d".to_owned()),
        1 => Just("\n\t\u{0}".to_owned()),
        1 => "\\PC{1,8}",
    ]
}

fn text(most: usize) -> impl Strategy<Value = String> {
    prop::collection::vec(word(), 0..most).prop_map(|words| words.join(" "))
}

fn name() -> impl Strategy<Value = String> {
    prop_oneof![6 => "[a-z]{3,10}( [a-z]{3,10})?", 1 => text(4)]
}

fn entry() -> impl Strategy<Value = ListLine> {
    (name(), 0.0..1e7f64, prop::collection::vec((0u32..200, name()), 0..3), prop::collection::vec(name(), 0..6), text(6)).prop_map(
        |(food, need, packs, what_for, words)| {
            let mut packs: Vec<_> = packs.iter().map(|(count, size)| sized(*count, size, "1.00")).collect();
            packs.push(loose(Quantity::pieces(need.round()), "2.00"));
            let what_for: Vec<&str> = what_for.iter().map(String::as_str).collect();
            let plain = line(&food, g(need), packs, &what_for);
            ListLine { own_words: vec![words.clone()], windows: Some(words), fresh: true, last_used: Some(date(2026, 12, 2)), ..plain }
        },
    )
}

fn lists() -> impl Strategy<Value = ShoppingList> {
    let section = (name(), prop::collection::vec(entry(), 0..40)).prop_map(|(section, lines)| Section { section, lines });
    let visit = (prop::option::of(name()), prop::collection::vec(section, 0..4));
    let visit = visit.prop_map(|(shop, sections)| ShopVisit { shop, trip_cost: Some("1.50".into()), cost: Some("3.00".into()), sections });
    let trip = prop::collection::vec(visit, 0..3).prop_map(|shops| TripList { on: date(2026, 11, 28), cost: "3.00".into(), shops });
    (text(8), prop::collection::vec(trip, 0..3), prop::collection::vec(text(12), 0..4)).prop_map(|(week, trips, words)| ShoppingList {
        week,
        trips,
        ask: words.clone(),
        no_price: words.clone(),
        warnings: words,
        ..list()
    })
}

fn tasks() -> impl Strategy<Value = Vec<Task>> {
    let one = (0..3u8, name(), 0..600i64, 0..30i64, 0..90i64, 0..3i64, name(), prop::option::of(name()), text(12), prop::bool::ANY);
    let one = one.prop_map(|(kind, dish, at, hands, wait, out, who, on, text, hot)| {
        let doing = Doing {
            dish: &dish,
            step: 1,
            at,
            hands,
            wait,
            out,
            who: &who,
            on: on.as_deref(),
            celsius: hot.then_some(200.0),
            text: &text,
            short: &dish,
        };
        let kind = [TaskKind::Set, TaskKind::Step, TaskKind::Box][usize::from(kind)];
        Task { kind, notes: vec![text.clone()], ..task(&doing) }
    });
    prop::collection::vec(one, 0..60).prop_map(|mut tasks: Vec<Task>| {
        tasks.sort_by_key(|task| task.start_minute);
        tasks
    })
}

fn sessions() -> impl Strategy<Value = SessionPlan> {
    (tasks(), prop::collection::vec(text(8), 0..5)).prop_map(|(tasks, words)| SessionPlan {
        cuts: words.iter().map(|word| Cut { food: word.clone(), amount: g(10.0), cut: word.clone(), step: 1 }).collect(),
        people: words.clone(),
        advice: words,
        tasks,
        ..session()
    })
}

fn papers() -> impl Strategy<Value = Settings> {
    prop_oneof![Just(A4), Just(LETTER)]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_list_is_laid_out_soundly_and_drops_no_line(list in lists(), household in text(6), settings in papers()) {
        let sheet = shopping_list(&list, &[], &household, settings);
        is_sound(&sheet, &list.week);
        let names = letters_of(&sheet, semi_bold_of(13.0));
        for line in list.trips.iter().flat_map(|trip| &trip.shops).flat_map(|shop| &shop.sections).flat_map(|section| &section.lines) {
            prop_assert!(names.contains(&letters(&line.food)), "{} is missing", line.food);
        }
    }

    #[test]
    fn any_session_is_laid_out_soundly_and_drops_no_step(session in sessions(), week in text(8), household in text(6), settings in papers()) {
        let before = [Before { at: "soon".into(), text: household.clone() }];
        let sheet = prep_guide(&week, &session, &before, &household, settings);
        is_sound(&sheet, &week);
        let text = letters_of(&sheet, |run| run.grey == BLACK && run.weight == Weight::Regular && run.size >= 9.0);
        for task in &session.tasks {
            prop_assert!(text.contains(&letters(&task.text)), "{} is missing", task.text);
        }
    }
}
