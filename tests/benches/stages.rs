//! How long each stage of the sample week takes: `cargo bench --bench stages`.

use std::path::Path;

use divan::{Bencher, black_box};
use spence::kitchen::{Kitchen, Loaded, Week, load};
use spence::prep::{Effort, PrepPlan};
use spence::purchase::ShoppingList;
use spence::sheets::{Settings, Sheet, prep_guide, shopping_list, to_pdf};
use spence::{Reckoning, pantry, plan, purchase, reckon};

fn main() {
    divan::main();
}

fn sample() -> Loaded {
    load(Path::new("sample-data")).expect("the sample kitchen has no mistakes")
}

fn week(loaded: &Loaded) -> (&Kitchen, &Week) {
    (&loaded.kitchen, &loaded.weeks[0].1)
}

fn reckoned() -> (Loaded, Reckoning) {
    let loaded = sample();
    let (kitchen, week) = week(&loaded);
    let reckoning = reckon(kitchen, week).expect("the sample week can be planned");
    (loaded, reckoning)
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
    let (loaded, reckoning) = reckoned();
    let (kitchen, week) = week(&loaded);
    bencher.bench(|| {
        let netted = pantry::net(kitchen, week, &reckoning.makings, &reckoning.demanded);
        purchase::needs(kitchen, week, &reckoning.demanded, &netted)
    });
}

#[divan::bench]
fn d_pack(bencher: Bencher) {
    let (loaded, reckoning) = reckoned();
    let (kitchen, week) = week(&loaded);
    bencher.bench(|| purchase::choose(kitchen, week, &reckoning.needs.needs));
}

#[divan::bench(args = [Effort::Low, Effort::Normal], sample_count = 10)]
fn e_schedule(bencher: Bencher, effort: Effort) {
    let (loaded, reckoning) = reckoned();
    let (kitchen, week) = week(&loaded);
    bencher.bench(|| reckoning.prep(kitchen, week, effort));
}

fn sheets(list: &ShoppingList, prep: &PrepPlan, kitchen: &Kitchen) -> Vec<Sheet> {
    let settings = Settings { paper: kitchen.print.paper, units: kitchen.print.units };
    let name = &kitchen.household.name;
    let mut sheets = vec![shopping_list(list, &prep.before, name, settings)];
    sheets.extend(prep.sessions.iter().map(|session| prep_guide(&prep.week, session, &prep.before, name, settings)));
    sheets
}

#[divan::bench]
fn f_lay_out(bencher: Bencher) {
    let (loaded, reckoning) = reckoned();
    let (kitchen, week) = week(&loaded);
    let (list, prep) = (reckoning.list(kitchen, week, None, &reckoning.warnings), reckoning.prep(kitchen, week, Effort::Low));
    bencher.bench(|| sheets(&list, &prep, kitchen));
}

#[divan::bench]
fn g_write(bencher: Bencher) {
    let (loaded, reckoning) = reckoned();
    let (kitchen, week) = week(&loaded);
    let (list, prep) = (reckoning.list(kitchen, week, None, &reckoning.warnings), reckoning.prep(kitchen, week, Effort::Low));
    let sheets = sheets(&list, &prep, kitchen);
    bencher.bench(|| sheets.iter().map(to_pdf).collect::<Vec<_>>());
}

#[divan::bench(sample_count = 20)]
fn whole(bencher: Bencher) {
    bencher.bench(|| {
        let (loaded, reckoning) = reckoned();
        let (kitchen, week) = week(&loaded);
        let (list, prep) = (reckoning.list(kitchen, week, None, &reckoning.warnings), reckoning.prep(kitchen, week, Effort::Low));
        sheets(&list, &prep, kitchen).iter().map(to_pdf).collect::<Vec<_>>()
    });
}
