//! How long each stage of the sample week takes: `cargo bench --bench stages`.

#![allow(clippy::expect_used, reason = "a benchmark that cannot go on says so")]

use std::path::Path;

use divan::{Bencher, black_box};
use jiff::civil::date;
use spence::book::Booked;
use spence::kitchen::{Kitchen, Loaded, Week, load};
use spence::prep::{Effort, PrepPlan, labels, week_card};
use spence::purchase::ShoppingList;
use spence::sheets::{LabelGrid, Settings, Sheet, Size, label_sheet, prep_guide, shopping_list, to_pdf, week_card_sheet};
use spence::{Reckoning, Shown, pantry, plan, purchase, reckon};

fn main() {
    divan::main();
}

fn sample() -> Loaded {
    load(Path::new("sample-data")).expect("the sample kitchen has no mistakes")
}

fn week(loaded: &Loaded) -> (&Kitchen, &Week) {
    (&loaded.kitchen, &loaded.weeks[0].1)
}

fn reckoned(loaded: &Loaded) -> Reckoning<'_> {
    reckon(loaded, &Booked::default(), &[], 0, date(2026, 11, 27)).expect("the sample week can be planned")
}

#[divan::bench]
fn a_read(bencher: Bencher) {
    bencher.bench(sample);
}

#[divan::bench]
fn b_plan(bencher: Bencher) {
    let loaded = sample();
    let (kitchen, week) = week(&loaded);
    bencher.bench(|| {
        let makings = plan::plan(black_box(kitchen), week).expect("a plan");
        plan::demand(kitchen, week, &makings)
    });
}

#[divan::bench]
fn c_net(bencher: Bencher) {
    let loaded = sample();
    let reckoning = reckoned(&loaded);
    let (kitchen, week) = week(&loaded);
    bencher.bench(|| {
        let netted = pantry::net(kitchen, week, &reckoning.makings, &reckoning.demanded);
        purchase::needs(kitchen, week, &reckoning.demanded, &netted)
    });
}

#[divan::bench]
fn d_pack(bencher: Bencher) {
    let loaded = sample();
    let reckoning = reckoned(&loaded);
    let (kitchen, week) = week(&loaded);
    bencher.bench(|| purchase::choose(kitchen, week, &reckoning.needs.needs));
}

#[divan::bench(args = [Effort::Low, Effort::Normal], sample_count = 10)]
fn e_schedule(bencher: Bencher, effort: Effort) {
    let loaded = sample();
    let reckoning = reckoned(&loaded);
    bencher.bench(|| reckoning.prep(effort));
}

fn settings(kitchen: &Kitchen) -> Settings {
    Settings { paper: kitchen.print.paper, units: kitchen.print.units, size: Size::Normal, fold: false, under: kitchen.print.under }
}

/// Everything that a default print writes.
fn sheets(list: &ShoppingList, prep: &PrepPlan, kitchen: &Kitchen, week: &Week, reckoning: &Reckoning) -> Vec<Sheet> {
    let (settings, names) = (settings(kitchen), kitchen.names());
    let mut sheets = vec![shopping_list(list, &prep.before, names, settings)];
    sheets.extend(prep.sessions.iter().map(|session| prep_guide(&prep.week, session, &prep.before, names, settings)));
    sheets.push(week_card_sheet(&week_card(kitchen, week, &reckoning.makings), names, settings));
    let boxes = labels(kitchen, week, &reckoning.makings);
    sheets.push(label_sheet(&boxes, (&list.week, list.from), names, LabelGrid::usual(Size::Normal), settings));
    sheets
}

/// The sample week's list with the lines of its first section said again until there are a thousand of them.
fn thousand(list: &ShoppingList) -> ShoppingList {
    let mut long = list.clone();
    let lines = &mut long.trips[0].shops[0].sections[0].lines;
    *lines = lines.iter().cycle().take(1000).cloned().collect();
    long
}

#[divan::bench]
fn f_lay_out(bencher: Bencher) {
    let loaded = sample();
    let reckoning = reckoned(&loaded);
    let (kitchen, week) = week(&loaded);
    let (list, prep) = (reckoning.list(Shown::default()), reckoning.prep(Effort::Low));
    bencher.bench(|| sheets(&list, &prep, kitchen, week, &reckoning));
}

#[divan::bench]
fn g_write(bencher: Bencher) {
    let loaded = sample();
    let reckoning = reckoned(&loaded);
    let (kitchen, week) = week(&loaded);
    let (list, prep) = (reckoning.list(Shown::default()), reckoning.prep(Effort::Low));
    let sheets = sheets(&list, &prep, kitchen, week, &reckoning);
    bencher.bench(|| sheets.iter().map(to_pdf).collect::<Vec<_>>());
}

#[divan::bench]
fn h_a_thousand_lines(bencher: Bencher) {
    let loaded = sample();
    let reckoning = reckoned(&loaded);
    let kitchen = &loaded.kitchen;
    let list = thousand(&reckoning.list(Shown::default()));
    bencher.bench(|| to_pdf(&shopping_list(black_box(&list), &[], kitchen.names(), settings(kitchen))));
}

/// The list alone, laid out and written: `tests/outside/typst_page.py` compares it with a general-purpose typesetter.
#[divan::bench]
fn i_the_list(bencher: Bencher) {
    let loaded = sample();
    let reckoning = reckoned(&loaded);
    let kitchen = &loaded.kitchen;
    let list = reckoning.list(Shown::default());
    let prep = reckoning.prep(Effort::Low);
    bencher.bench(|| to_pdf(&shopping_list(black_box(&list), &prep.before, kitchen.names(), settings(kitchen))));
}

#[divan::bench(sample_count = 20)]
fn whole(bencher: Bencher) {
    bencher.bench(|| {
        let loaded = sample();
        let reckoning = reckoned(&loaded);
        let (kitchen, week) = week(&loaded);
        let (list, prep) = (reckoning.list(Shown::default()), reckoning.prep(Effort::Low));
        sheets(&list, &prep, kitchen, week, &reckoning).iter().map(to_pdf).collect::<Vec<_>>()
    });
}
