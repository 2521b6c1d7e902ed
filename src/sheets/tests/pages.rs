//! Where every word of the sample week's sheets stands, as it was reviewed: what moves shows in the difference.

use std::fmt::Write;
use std::path::Path;

use jiff::civil::date;

use crate::book::Booked;
use crate::kitchen::{Kitchen, Loaded, Week, load};
use crate::prep::{Effort, labels, week_card};
use crate::sheets::{LabelGrid, Settings, Sheet, Size, Weight, label_sheet, prep_guide, shopping_list, week_card_sheet};
use crate::{Shown, reckon};

/// Whatever kitchen.toml says, the sheets are these.
fn sheets(loaded: &Loaded) -> Vec<Sheet> {
    let reckoning = reckon(loaded, &Booked::default(), &[], 0, date(2026, 11, 27)).expect("the sample week can be planned");
    let (kitchen, week): (&Kitchen, &Week) = (&reckoning.kitchen, &reckoning.week);
    let settings =
        Settings { paper: kitchen.print.paper, units: kitchen.print.units, size: Size::Normal, fold: false, under: kitchen.print.under };
    let names = kitchen.names();
    let list = reckoning.list(Shown::default());
    let prep = reckoning.prep(Effort::Low);
    let mut sheets = vec![shopping_list(&list, &prep.before, names, settings)];
    let guides = prep.sessions.iter().enumerate();
    sheets.extend(guides.map(|(index, session)| prep_guide(&prep.week, session, &prep.before_session(index), names, settings)));
    sheets.push(week_card_sheet(&week_card(kitchen, week, &reckoning.makings), names, settings));
    let boxes = labels(kitchen, week, &reckoning.makings);
    sheets.push(label_sheet(&boxes, (&list.week, list.from), names, LabelGrid::usual(Size::Normal), settings));
    sheets
}

/// A line a run: from the left, from the top, size and weight, words.
fn told(sheet: &Sheet) -> String {
    let mut out = String::new();
    for (number, page) in sheet.pages.iter().enumerate() {
        let _ = writeln!(out, "{}, page {}: {} rules, {} rectangles", sheet.title, number + 1, page.rules.len(), page.rects.len());
        for run in &page.runs {
            let weight = if run.weight == Weight::SemiBold { 'S' } else { 'R' };
            let _ = writeln!(out, "{:6.1} {:6.1} {:4}{weight} {}", run.x, run.baseline, run.size, run.text);
        }
    }
    out
}

#[test]
fn the_sample_week_s_pages_are_as_reviewed() {
    let loaded = load(Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/sample-data"))).expect("the sample kitchen has no mistakes");
    for sheet in sheets(&loaded) {
        super::checks::is_sound(&sheet, &loaded.weeks[0].1.name);
        insta::assert_snapshot!(sheet.file_stem.clone(), told(&sheet));
    }
}
