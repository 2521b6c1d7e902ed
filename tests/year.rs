//! A year of planned weeks booked one after the other: trips, sessions, meals. The book adds up to the milligram.

use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;

use jiff::ToSpan;
use jiff::civil::{Date, date};
use pretty_assertions::assert_eq;
use spence::book::{
    Bench, Book, Booked, Booking, Change, Exceptions, LotRecord, Verb, difference, edit_lots, issue_meal, issue_session, meal_key, receive,
    records, session_key, sum, trip_key, with_paid,
};
use spence::kitchen::{Loaded, Week, load};
use spence::measure::Number;
use spence::prep::Effort;
use spence::purchase::TripBuys;
use spence::shelf::lot_dates;
use spence::{PastTrips, Reckoning, Shown, reckon};

use crate::kitchen::kitchen;

/// Sevenths and thirds of a batch, by weight, volume, piece and bunch.
const STEW: &str = "name = \"Moon stew\"\nmakes = \"7 portions\"\nbatches = \"any\"\nkeeps = { fridge = \"3 days\" }\ningredients = \"\"\"\n\
                    1 kg bluegrain\n1/2 l moon milk\n2 comet eggs\n1 bunch star leaf\n\"\"\"\n[[step]]\ntext = \"Cook {bluegrain}.\"\nhands = \"5 min\"\n";
const CAKE: &str = "name = \"Sun cake\"\nmakes = \"3 pieces\"\nbatches = \"halves\"\nkeeps = { fridge = \"2 days\", freezer = \"2 months\" }\n\
                    ingredients = \"\"\"\n100 g bluegrain\n2 portions recipe:stew\n\"\"\"\n[[step]]\ntext = \"Bake {bluegrain}.\"\nhands = \"5 min\"\n";
const SHOPS: &str = "[[shop]]\nname = \"Stall\"\n[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nsize = \"750 g\"\nprice = 2.00\n\
                     [[pack]]\nshop = \"Stall\"\nfood = \"moon milk\"\nsize = \"1 l\"\nprice = 1.10\n\
                     [[pack]]\nshop = \"Stall\"\nfood = \"comet egg\"\nsize = \"10\"\nprice = 3.00\n\
                     [[pack]]\nshop = \"Stall\"\nfood = \"star leaf\"\nsize = \"1 bunch\"\nprice = 0.90\n";

fn foods() -> String {
    let food = |name: &str, more: &str| format!("[[food]]\nname = \"{name}\"\nallergens = []\n{more}source = \"weighed at home\"\n");
    let bunch = "bunch = \"70 g\"\nkeeps = { fridge = \"9 days\" }\n";
    let milk = "keeps = { fridge = \"12 days\" }\n";
    [food("bluegrain", ""), food("moon milk", milk), food("comet egg", ""), food("star leaf", bunch)].concat()
}

/// The trip on Saturday, the session on Sunday, suppers for three on Monday to Wednesday.
fn week_of(monday: Date) -> String {
    let day = |days: i64| monday.saturating_add(days.days());
    let supper = |days: i64, each: &str| format!("[[meal]]\non = {}\nat = \"supper\"\neaters = 3\neach = [{each}]\n", day(days));
    let suppers = [
        supper(0, "\"1 portion recipe:stew\", \"33 g bluegrain\""),
        supper(1, "\"1 piece recipe:cake\""),
        supper(2, "\"2/3 portion recipe:stew\", \"1/3 comet egg\""),
    ];
    let head = format!("from = {monday}\n[[trip]]\non = {}\n[[session]]\nstart = {}T14:00\npeople = [\"cook\"]\n", day(-2), day(-1));
    head + &suppers.concat()
}

/// Everything that a booking reads and writes.
struct Year {
    folder: PathBuf,
    loaded: Loaded,
    shelf: Vec<LotRecord>,
    book: Book,
    pantry: String,
    /// Thousandths that came and went of each thing and measure.
    came: BTreeMap<(String, String), Number>,
    went: BTreeMap<(String, String), Number>,
}

impl Year {
    fn book(&mut self, on: Date, verb: Verb, covers: &[String], mut changes: Vec<Change>) {
        if verb != Verb::Opening {
            self.pantry = edit_lots(&self.pantry, &self.shelf, &mut changes).expect("the pantry can be edited");
        }
        // What is left of a pack that is opened lies beside it as a lot of its own: it neither came nor went.
        let mut moved: BTreeMap<(String, String), Number> = BTreeMap::new();
        for change in &changes {
            let amount = |lot: &Option<LotRecord>| lot.as_ref().map_or(Number::ZERO, |lot| lot.amount.number.clone());
            let lot = change.to.as_ref().or(change.from.as_ref()).expect("a lot");
            let key = (lot.name().to_owned(), lot.amount.dimension.symbol().to_owned());
            *moved.entry(key).or_default() += amount(&change.to) - amount(&change.from);
        }
        for (key, more) in moved {
            *if more > 0 { &mut self.came } else { &mut self.went }.entry(key).or_default() += more.abs();
        }
        self.book.append(Booking { covers: covers.to_vec(), ..Booking::new(on, verb, "a year", changes) });
        fs::write(self.folder.join("pantry.toml"), &self.pantry).expect("a file");
        self.loaded = load(&self.folder).expect("a kitchen without mistakes");
        // The household's own file says what the book adds up to.
        let booked = sum(&self.book.bookings);
        assert_eq!(difference(&booked, &records(&self.loaded.kitchen)), []);
        self.shelf = with_paid(records(&self.loaded.kitchen), &booked);
    }

    fn bench(&self) -> Bench<'_> {
        Bench::new(&self.loaded.kitchen, self.shelf.clone())
    }

    /// The week reckoned on the shelf as it is, without what is booked.
    fn reckon(&self, week: &Week) -> Reckoning<'_> {
        reckon(&self.loaded, &Booked::by(&self.book), &[], 0, week.trips[0].on).expect("every meal is within reach")
    }

    /// What may not be drawn any more is thrown away.
    fn clear_out(&mut self, on: Date) {
        let gone = |(lot, _): &(&spence::kitchen::Lot, &LotRecord)| {
            !lot_dates(&self.loaded.kitchen.foods, &self.loaded.kitchen.recipes, lot).may_be_drawn_on(on)
        };
        let gone = self.loaded.kitchen.lots.iter().zip(&self.shelf).filter(gone).map(|(_, lot)| Change::new(Some(lot.clone()), None));
        let changes: Vec<Change> = gone.collect();
        self.book(on, Verb::Waste, &[], changes);
    }

    fn live_through(&mut self, week: &Week) {
        let trip = TripBuys::from(&self.reckon(week).list(Shown { past: PastTrips::AsPrinted, compared: false }).trips[0]);
        let mut bench = self.bench();
        let not_booked = receive(&self.loaded.kitchen, &mut bench, &trip, &Exceptions::default()).expect("a trip");
        assert_eq!(not_booked, Vec::<String>::new());
        self.book(trip.on, Verb::Receive, &[trip_key(trip.on, 0)], bench.finish());

        let prep = self.reckon(week).prep(Effort::Low);
        let (session, on) = (&prep.sessions[0], week.sessions[0].start.date());
        let mut bench = self.bench();
        assert_eq!(issue_session(&self.loaded.kitchen, &mut bench, &session.into()), Vec::new(), "{on}");
        self.book(on, Verb::Issue, &[session_key(session.start)], bench.finish());

        for meal in &week.meals {
            let reckoning = self.reckon(week);
            let mut bench = self.bench();
            let plan = (&reckoning.makings, &reckoning.demanded);
            assert_eq!(issue_meal(&self.loaded.kitchen, &mut bench, &reckoning.week, plan, 0), Vec::new(), "{}", meal.at_time);
            self.book(meal.at_time.date(), Verb::Issue, &[meal_key(meal)], bench.finish());
        }
        self.clear_out(week.from.saturating_add(6.days()));
    }
}

#[test]
fn a_year_of_planned_weeks_adds_up_to_the_milligram() {
    let pantry = "# Ours\n\n[[lot]]\nfood = \"bluegrain\"   # the blue tin\namount = \"400 g\"\nplace = \"cupboard\"\n";
    let folder = kitchen()
        .rules("short_by = \"0%\"")
        .foods(&foods())
        .shops(SHOPS)
        .recipe("stew", STEW)
        .recipe("cake", CAKE)
        .pantry(pantry)
        .week(&week_of(date(2026, 11, 30)));
    let read = || -> Loaded { load(folder.path()).expect("a kitchen without mistakes") };
    let loaded = read();
    let opening = records(&loaded.kitchen).into_iter().map(|lot| Change::new(None, Some(lot))).collect();
    let mut year = Year {
        folder: folder.path().to_owned(),
        loaded,
        shelf: Vec::new(),
        book: Book::default(),
        pantry: pantry.to_owned(),
        came: BTreeMap::new(),
        went: BTreeMap::new(),
    };
    year.book(date(2026, 11, 27), Verb::Opening, &[], opening);

    for number in 0..52 {
        fs::write(folder.path().join("weeks/week.toml"), week_of(date(2026, 11, 30).saturating_add((7 * number).days()))).expect("a file");
        year.loaded = read();
        let week = year.loaded.weeks[0].1.clone();
        year.live_through(&week);
    }

    let mut left: BTreeMap<(String, String), Number> = BTreeMap::new();
    for lot in &year.shelf {
        *left.entry((lot.name().to_owned(), lot.amount.dimension.symbol().to_owned())).or_default() += &lot.amount.number;
    }
    for (key, came) in &year.came {
        let went = year.went.get(key).cloned().unwrap_or_default();
        assert_eq!(came - went, left.get(key).cloned().unwrap_or_default(), "{key:?}");
    }
    // By the recipes: a week's suppers of stew are 3 and 2 portions, and 2 more in a batch of three cakes: 7, or 1 kg of grain, with
    // 100 g in the cakes and 99 g at table; what is eaten never falls short by more than the rounding of each taking.
    let grain = year.went[&("bluegrain".to_owned(), "g".to_owned())].to_f64();
    assert!((grain - 52.0 * 1199.0).abs() <= 52.0 * 0.004, "{grain} g");
    assert!(year.pantry.starts_with("# Ours") && year.pantry.contains("# the blue tin") || !year.pantry.contains("400 g"));
    let again = Book::read(year.book.text()).expect("the book is whole");
    assert_eq!(bag(&sum(&again.bookings)), bag(&year.shelf));
    // The opening; then a trip, a session, three meals and a clearing out a week.
    assert_eq!(again.bookings.len(), 1 + 52 * 6);
}

/// The lots in no order: a new one stands beside its like in the file.
fn bag(lots: &[LotRecord]) -> Vec<String> {
    let mut told: Vec<String> = lots.iter().map(|lot| format!("{lot:?}")).collect();
    told.sort();
    told
}
