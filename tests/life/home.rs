//! A household that lives through its weeks: what it books, forgets, changes and throws away, and its own sum of it all.

use std::collections::{BTreeMap, BTreeSet};

use jiff::ToSpan;
use jiff::civil::Date;
use spence::book::{
    As, Book, Booked, Booking, Change, Draft, Eaten, Exceptions, InWeek, Lack, LotRecord, Verb, as_lot, at_their_new_days, beside_the_plan,
    bought, bought_beside, cooked, count, differences, eaten, edit_lots, except, meal_key, meals_until, next_session, next_trip,
    open_goods, printed_trips_moved, records, session_key, sum, taken_back, thrown_away, trip_key, with_paid,
};
use spence::kitchen::{CountForm, Counted, CountedLot, Loaded, Session, Spot, Trip, load};
use spence::measure::InPacks;
use spence::prep::Turnover;
use spence::purchase::{TripBuys, WeekBuys};
use spence::{AsPrinted, PastTrips, Reckoning, Shown, reckon};

use super::household::{self, DISHES, FIRST, FOODS, Week, is_cooked, is_good};
use crate::dice::Dice;
use crate::kitchen::Kitchen;

const EVERY_TRIP: Shown = Shown { past: PastTrips::AsPrinted, compared: false };

/// Amounts by name.
pub type Amounts = BTreeMap<String, f64>;

fn added_up<'l>(lacks: impl IntoIterator<Item = &'l Lack>) -> Amounts {
    let mut sums = Amounts::new();
    for lack in lacks {
        let name = lack.food.as_ref().or(lack.recipe.as_ref()).cloned().unwrap_or_default();
        *sums.entry(name).or_default() += lack.amount.number.to_f64();
    }
    sums
}

pub struct Home {
    pub dice: Dice,
    pub folder: Kitchen,
    pub loaded: Loaded,
    pub weeks: Vec<Week>,
    pub shelf: Vec<LotRecord>,
    pub book: Book,
    booked: Booked,
    pantry: String,
    /// Is pantry.toml written and read back after every booking?
    by_file: bool,
    prints: Vec<Option<(WeekBuys, Vec<Turnover>)>>,
    /// What is booked, as its booking names it, with its number; kept apart from the book.
    pub done: BTreeMap<String, u64>,
    /// What each booking brought and took, by its number.
    moved: BTreeMap<u64, Amounts>,
    /// The household's own sum.
    pub mine: Amounts,
    pub today: Date,
    pub said: Vec<String>,
}

impl Home {
    pub fn new(seed: u64) -> Home {
        let mut dice = Dice(seed);
        let eaters = dice.between(1, 5);
        let weeks = household::weeks(&mut dice, eaters);
        let folder = household::folder(&mut dice, &weeks);
        let loaded = load(folder.path()).expect("a kitchen without mistakes");
        let shelf = records(&loaded.kitchen);
        let pantry = folder.text("pantry.toml");
        let mut book = Book::default();
        let opening = shelf.iter().map(|lot| Change::new(None, Some(lot.clone()))).collect();
        book.append(Booking::new(FIRST.saturating_sub(3.days()), Verb::Opening, "what lay there", opening));
        let prints = weeks.iter().map(|_| None).collect();
        let mine = on_shelf(&shelf);
        let today = FIRST.saturating_sub(3.days());
        let (done, moved, said) = Default::default();
        let booked = Booked::by(&book);
        Home { dice, folder, loaded, weeks, shelf, book, booked, pantry, by_file: seed % 100 == 1, prints, done, moved, mine, today, said }
    }

    fn chance(&mut self, percent: i64) -> bool {
        self.dice.between(1, 100) <= percent
    }

    pub fn booked(&self) -> &Booked {
        &self.booked
    }

    pub fn reckon(&self, week: usize) -> Result<Reckoning<'_>, Vec<spence::kitchen::Mistake>> {
        let prints: Vec<Option<AsPrinted>> =
            self.prints.iter().map(|known| known.as_ref().map(|(buys, turnovers)| AsPrinted { buys, turnovers })).collect();
        reckon(&self.loaded, self.booked(), &prints, week, self.today)
    }

    /// What is booked, of trips that were moved too.
    fn read_book(&mut self) {
        self.booked = Booked::by(&self.book);
        self.booked.follow_moved_trips(&self.loaded.weeks);
    }

    /// The weeks that a household thinks of on a day: those that are under way or come next.
    pub fn at_hand(&self) -> Vec<usize> {
        let starts = |week: usize| FIRST.saturating_add((7 * week as i64).days());
        let (first, last) = (self.today.saturating_sub(7.days()), self.today.saturating_add(5.days()));
        (0..self.weeks.len()).filter(|&week| first <= starts(week) && starts(week) <= last).collect()
    }

    /// Writes a booking that is expected to bring and take these amounts.
    fn book(&mut self, booking: Booking, expected: &Amounts, what: &str) {
        let mut changes = booking.changes.clone();
        if self.by_file {
            self.pantry = edit_lots(&self.pantry, &self.shelf, &mut changes).expect("the pantry can be edited");
        }
        let number = self.book.bookings.len() as u64 + 1;
        for key in &booking.covers {
            self.done.insert(key.clone(), number);
        }
        self.book.append(Booking { changes: changes.clone(), ..booking });
        self.read_book();
        let before = on_shelf(&self.shelf);
        self.lay_out(changes);
        let after = on_shelf(&self.shelf);
        self.said.push(format!("{} {what}", self.today));
        self.compare(&before, &after, expected, what);
        let names: BTreeSet<&String> = before.keys().chain(after.keys()).collect();
        let amount = |of: &Amounts, name: &String| of.get(name).copied().unwrap_or(0.0);
        let moved = names.into_iter().map(|name| (name.clone(), amount(&after, name) - amount(&before, name))).collect();
        self.moved.insert(number, moved);
        self.mine = after;
    }

    /// What the shelf gained is what was expected, but for rests that go with the draw that would leave them; a meal also eats what its making
    /// leaves below half a portion.
    fn compare(&self, before: &Amounts, after: &Amounts, expected: &Amounts, what: &str) {
        let amount = |of: &Amounts, name: &str| of.get(name).copied().unwrap_or(0.0);
        for name in before.keys().chain(after.keys()).chain(expected.keys()) {
            let gained = amount(after, name) - amount(before, name);
            let rest = match household::unit_of(name) {
                "g" | "ml" => 1.0,
                _ if is_cooked(name).is_some() && what.starts_with("eats") => 0.5,
                _ => 0.05,
            };
            let lots = 1 + self.shelf.iter().filter(|lot| lot.name() == name).count();
            let apart = gained - amount(expected, name);
            // The book writes what is finer than thousandths as the next thousandth above, once a lot.
            assert!(
                apart <= 0.001001 * lots as f64 && apart >= -rest * lots as f64,
                "{what} of {name}: {gained} came where {} was expected\n{}",
                amount(expected, name),
                self.said.join("\n")
            );
        }
    }

    fn lay_out(&mut self, changes: Vec<Change>) {
        if self.by_file {
            std::fs::write(self.folder.path().join("pantry.toml"), &self.pantry).expect("a file");
            let read = load(self.folder.path()).expect("a kitchen without mistakes");
            self.shelf = with_paid(records(&read.kitchen), &sum(&self.book.bookings));
        } else {
            for Change { from, to, .. } in changes {
                let at = from.and_then(|from| self.shelf.iter().position(|lot| *lot == from));
                match (at, to) {
                    (Some(at), Some(to)) => self.shelf[at] = to,
                    (Some(at), None) => drop(self.shelf.remove(at)),
                    (None, Some(to)) => self.shelf.push(to),
                    (None, None) => {}
                }
            }
        }
        let kitchen = &self.loaded.kitchen;
        let lots: Vec<_> = self.shelf.iter().filter_map(|lot| as_lot(kitchen, lot)).collect();
        assert_eq!(lots.len(), self.shelf.len());
        self.loaded.kitchen.lots = lots;
    }

    /// What of `wanted` may be taken from the shelf on a day.
    fn within_reach(&self, wanted: Amounts, day: Option<Date>) -> Amounts {
        let there = |name: &str| -> f64 {
            let good = |lot: &&LotRecord| {
                lot.name() == name && day.is_none_or(|day| is_good(&as_lot(&self.loaded.kitchen, lot).expect("a lot"), name, day))
            };
            self.shelf.iter().filter(good).map(|lot| lot.amount.number.to_f64()).sum()
        };
        wanted.into_iter().map(|(name, amount)| (name.clone(), -amount.min(there(&name)))).collect()
    }

    /// What a booking wanted and the shelf did not hold stands in it; a meal's share of what its making leaves, too.
    fn tells_what_it_lacked(&self, booking: &Booking, wanted: &Amounts, reached: &Amounts) {
        for (name, wanted) in wanted {
            let lacked = wanted + reached.get(name).copied().unwrap_or(0.0);
            let told = added_up(&booking.lacked).get(name).copied().unwrap_or(0.0);
            let share = if is_cooked(name).is_some() { 0.5 } else { 0.0 };
            let rest = if household::unit_of(name) == "g" { 1.0 } else { 0.05 };
            assert!(
                told >= lacked - rest - 0.001001 && told <= lacked + share + 0.001001,
                "{lacked} of {name} were lacked, told {told}: {}\n{}",
                booking.what,
                self.said.join("\n")
            );
        }
    }

    /// What a trip or a session brings, less what bookings lacked that stand, and no more than those lacked.
    fn takes_what_was_lacked(&self, booking: &Booking, expected: &mut Amounts) {
        let standing = spence::book::standing(&self.book.bookings);
        let all = |lacks: fn(&Booking) -> &Vec<Lack>| added_up(standing.iter().flat_map(|booking| lacks(booking)));
        let (lacked, made_good) = (all(|booking| &booking.lacked), all(|booking| &booking.made_good));
        for (name, amount) in added_up(&booking.made_good) {
            let owed = lacked.get(&name).copied().unwrap_or(0.0) - made_good.get(&name).copied().unwrap_or(0.0);
            assert!(amount <= owed + 1e-6, "{amount} of {name} are made good, and {owed} were lacked\n{}", self.said.join("\n"));
            *expected.entry(name).or_default() -= amount;
        }
    }

    /// Nothing that is past is eaten: what a booking took lay there with that day within its dates.
    fn nothing_past(&self, booking: &Booking, day: Date, what: &str) {
        for change in &booking.changes {
            let Some(from) = &change.from else { continue };
            let lot = as_lot(&self.loaded.kitchen, from).expect("a lot");
            assert!(is_good(&lot, from.name(), day), "{what} took {from:?}, which is past\n{}", self.said.join("\n"));
        }
    }

    pub fn plan_and_print(&mut self, week: usize) {
        let print = match self.reckon(week) {
            Ok(reckoned) => {
                let past = reckoned.past_sessions().iter().filter_map(|session| session.turnover.clone());
                let done: Vec<Turnover> = past.collect();
                let open = reckoned.turnovers().into_iter().filter(|open| done.iter().all(|past| past.start != open.start));
                let turnovers: Vec<Turnover> = done.iter().cloned().chain(open.collect::<Vec<_>>()).collect();
                Some((WeekBuys::from(&reckoned.list(EVERY_TRIP)), turnovers))
            }
            Err(_) => None,
        };
        if print.is_some() {
            self.prints[week] = print;
            self.said.push(format!("{} prints week {week}", self.today));
        }
    }

    pub fn shop(&mut self, week: usize) {
        let taken = if self.chance(50) { As::Planned } else { As::PrintedAnyway };
        // A trip of its own may stand in any week.
        let is_due = |trip: &Trip| trip.on <= self.today && !self.done.contains_key(&trip_key(trip.on, trip.nth));
        if !self.loaded.weeks[week].1.trips.iter().any(is_due) && !self.chance(20) {
            return;
        }
        let (booking, expected, what) = {
            let Ok(reckoned) = self.reckon(week) else { return };
            let plan = WeekBuys::from(&reckoned.list(EVERY_TRIP));
            let printed = self.prints[week].as_ref().map(|(buys, _)| buys);
            let Ok(next) = next_trip(&self.loaded.kitchen, &plan, printed, self.booked(), taken) else { return };
            if next.trip.on > self.today {
                return;
            }
            assert!(!self.done.contains_key(&trip_key(next.trip.on, next.trip.nth)), "a trip that is done comes again");
            let (trip, kitchen) = (next.trip.clone(), &self.loaded.kitchen);
            let (mut goods, not_booked) = open_goods(&kitchen.foods, &kitchen.rules, &trip, self.booked());
            assert_eq!(not_booked, Vec::<String>::new());
            let mut expected = bought_of(&trip, &self.loaded);
            let mut exceptions = Exceptions::default();
            let mut dice = Dice(self.dice.0);
            let name = goods.first().map(|first| kitchen.foods[first.food].name.clone());
            if let Some(name) = name.filter(|_| dice.between(1, 6) == 1) {
                expected.remove(&name);
                exceptions.without.push(name);
            }
            if dice.between(1, 6) == 1 {
                exceptions.also.push("2 x 400 g moon beans at 1.80".to_owned());
                *expected.entry("moon bean".to_owned()).or_default() += 800.0;
            }
            except(kitchen, &mut goods, &trip.shops, &exceptions).expect("exceptions that can be read");
            let what = format!("shops of {} #{} in week {week} as {taken:?}, {exceptions:?}", trip.on, trip.nth);
            let booking = bought(kitchen, (self.booked(), &self.shelf), &next, (&goods, None), Vec::new(), self.today);
            let booking = Booking { in_week: Some(InWeek::of(&self.loaded.weeks[week].1)), ..booking };
            self.takes_what_was_lacked(&booking, &mut expected);
            (booking, expected, what)
        };
        self.dice.between(0, 1);
        self.book(booking, &expected, &what);
    }

    pub fn cook(&mut self, week: usize) {
        let as_printed = self.chance(50);
        let is_due = |session: &Session| session.start.date() <= self.today && !self.done.contains_key(&session_key(session.start));
        if !self.loaded.weeks[week].1.sessions.iter().any(is_due) {
            return;
        }
        let (booking, expected, what) = {
            let Ok(reckoned) = self.reckon(week) else { return };
            let planned = reckoned.turnovers();
            let printed = self.prints[week].as_ref().filter(|_| as_printed).map(|(_, turnovers)| turnovers.clone());
            let sessions = printed.unwrap_or(planned);
            let Some(session) = next_session(&sessions, self.booked()).cloned() else { return };
            if session.start.date() > self.today {
                return;
            }
            assert!(!self.done.contains_key(&session_key(session.start)), "a session that is done comes again");
            let last_day = reckoned.week.meals.iter().map(|meal| meal.at_time.date()).max().unwrap_or(reckoned.week.from);
            let Draft { booking, .. } = cooked(
                &self.loaded.kitchen,
                (self.booked(), &self.shelf),
                &session,
                ("the week", last_day, &self.loaded.weeks[week].1),
                self.today,
            );
            let what = format!("cooks of {} in week {week}", session.start);
            self.nothing_past(&booking, session.start.date(), &what);
            let (took, made) = turned_over(&self.loaded, &session);
            let mut expected = self.within_reach(took.clone(), Some(session.start.date()));
            self.tells_what_it_lacked(&booking, &took, &expected);
            for (name, amount) in made {
                *expected.entry(name).or_default() += amount;
            }
            self.takes_what_was_lacked(&booking, &mut expected);
            (booking, expected, what)
        };
        self.book(booking, &expected, &what);
    }

    /// Eats every open meal up to that day.
    pub fn eat(&mut self, week: usize, until: Date) {
        let (bookings, whats) = {
            let spots = meals_until(&self.loaded.weeks[week].1, self.booked(), until);
            let Some(spot) = spots.first() else { return };
            let Ok(reckoned) = self.reckon(week) else { return };
            let (not_booked, makings, demanded) = reckoned.not_booked();
            let Some(place) = not_booked.meals.iter().position(|meal| meal.at == *spot) else { return };
            let meals = [place];
            let also = if self.dice.0.is_multiple_of(7) { vec!["1 comet egg".to_owned()] } else { Vec::new() };
            let weeks = [Eaten { week: not_booked, makings, demanded, meals: &meals }];
            let at = not_booked.meals[place].at_time;
            let Ok(draft) = eaten(&self.loaded.kitchen, &self.shelf, &weeks, (&also, None), self.today) else { return };
            let what = format!("eats of {at} in week {week}, also {also:?}");
            assert!(!self.done.contains_key(&meal_key(&not_booked.meals[place])), "a meal that is done comes again");
            let own = self.weeks[week].meals.iter().find(|meal| meal.at == at).expect("a meal of ours");
            let mut wanted = Amounts::new();
            for (name, amount) in DISHES[own.dish] {
                *wanted.entry((*name).to_owned()).or_default() += amount * own.eaters as f64;
            }
            let mut expected = self.within_reach(wanted.clone(), Some(at.date()));
            self.tells_what_it_lacked(&draft.booking, &wanted, &expected);
            if also.is_empty() {
                self.nothing_past(&draft.booking, at.date(), &what);
            } else {
                let eggs: f64 = self.shelf.iter().filter(|lot| lot.name() == "comet egg").map(|lot| lot.amount.number.to_f64()).sum();
                let eaten = expected.entry("comet egg".to_owned()).or_default();
                *eaten = (*eaten - 1.0).max(-eggs);
            }
            (draft.booking, (expected, what))
        };
        self.book(bookings, &whats.0, &whats.1);
    }

    pub fn throw_away(&mut self) {
        if self.shelf.is_empty() {
            return;
        }
        let lot = &self.shelf[self.dice.between(0, self.shelf.len() as i64 - 1) as usize];
        let name = lot.name().to_owned();
        let all: f64 = self.shelf.iter().filter(|other| other.name() == name).map(|lot| lot.amount.number.to_f64()).sum();
        let much = (all / 2.0).ceil();
        let unit = household::unit_of(&name);
        let of = if is_cooked(&name).is_some() {
            format!("{much} {unit} recipe:{name}")
        } else {
            format!("{much} {unit} {name}").replace(" piece ", " ")
        };
        let draft = thrown_away(&self.loaded.kitchen, &self.shelf, &of, "it fell", (None, self.today)).expect("something that is there");
        let expected = self.within_reach(Amounts::from([(name, much)]), None);
        self.book(draft.booking, &expected, &format!("throws away {of}"));
    }

    pub fn buy_beside(&mut self) {
        let exceptions = Exceptions { also: vec!["3 x 100 g mooncress at 2.10".to_owned()], ..Exceptions::default() };
        let goods = beside_the_plan(&self.loaded.kitchen, &exceptions).expect("a line that can be read");
        let booking = bought_beside(&self.loaded.kitchen, &self.shelf, &goods, self.today, self.today);
        self.book(booking, &Amounts::from([("mooncress".to_owned(), 300.0)]), "buys 300 g mooncress beside the plan");
    }

    /// Counts one lot and finds half of it, rounded down, or nothing.
    pub fn count(&mut self) {
        if self.shelf.is_empty() {
            return;
        }
        let lot = self.shelf[self.dice.between(0, self.shelf.len() as i64 - 1) as usize].clone();
        let there = lot.amount.number.to_f64();
        let half = (there / 2.0).floor();
        let booked = InPacks { amount: lot.amount.quantity(), pack: lot.pack.as_ref().map(|pack| pack.quantity()) };
        let found = InPacks { amount: booked.amount.scaled(if half > 0.0 { half / there } else { 0.0 }), pack: None };
        let left = if half > 0.0 { Counted::Left { amount: found, bare: false } } else { Counted::Gone };
        let line = CountedLot {
            food: lot.food.clone(),
            recipe: lot.recipe.clone(),
            eater: lot.eater.clone(),
            without: lot.without.clone(),
            place: lot.place,
            best_before: lot.best_before,
            use_by: lot.use_by,
            opened: lot.opened,
            since: lot.since,
            made: lot.made,
            booked: Some(booked),
            counted: Some(left),
            at: Spot::default(),
            counted_at: Spot::default(),
        };
        let form = CountForm { lots: vec![line], text: format!("sheet {}", self.book.bookings.len()), warnings: Vec::new() };
        let (_, changes) = count(&self.loaded.kitchen, &self.shelf, &form, self.today).expect("a count that can be booked");
        drop(differences(&self.loaded.kitchen, &changes));
        let booking = spence::book::found(&form, 1, changes, self.today);
        self.book(
            booking,
            &Amounts::from([(lot.name().to_owned(), half - there)]),
            &format!("counts {} {}: {half}", lot.amount_text(), lot.name()),
        );
        self.done.retain(|key, _| !key.starts_with("count"));
    }

    pub fn undo(&mut self) {
        let Some(back) = taken_back(&self.book, self.today) else { return };
        let number = back.takes_back.expect("the number of what is taken back");
        self.done.retain(|_, by| *by != number);
        let expected = self.moved[&number].iter().map(|(name, amount)| (name.clone(), -amount)).collect();
        let what = back.what.clone();
        self.book(back, &expected, &what);
    }

    /// A meal to come falls out, gets guests, or changes places with another; taken back where the plan then has a mistake.
    pub fn change_mind(&mut self, week: usize) {
        let today = self.today;
        let open: Vec<usize> = (0..self.weeks[week].meals.len())
            .filter(|&meal| self.is_open(week, meal))
            .filter(|&meal| self.weeks[week].meals[meal].at.date() >= today)
            .collect();
        if open.is_empty() {
            return;
        }
        let pick = |home: &mut Home| open[home.dice.between(0, open.len() as i64 - 1) as usize];
        let (meal, other, kind) = (pick(self), pick(self), self.dice.between(0, 2));
        let before = (self.weeks[week].clone(), self.loaded.weeks[week].1.clone());
        let (ours, theirs) = (&mut self.weeks[week].meals, &mut self.loaded.weeks[week].1.meals);
        match kind {
            0 => (ours[meal].skip, theirs[meal].skip) = (true, true),
            1 => {
                ours[meal].eaters += 2;
                theirs[meal].eaters += 2.0;
            }
            _ => {
                let dish = ours[meal].dish;
                ours[meal].dish = std::mem::replace(&mut ours[other].dish, dish);
                let each = theirs[meal].each.clone();
                theirs[meal].each = std::mem::replace(&mut theirs[other].each, each);
            }
        }
        if self.reckon(week).is_err() {
            (self.weeks[week], self.loaded.weeks[week].1) = before;
            return;
        }
        let what = ["falls out", "gets guests", "changes places"][kind as usize];
        self.said.push(format!("{today} week {week}: the meal of {} {what}", self.weeks[week].meals[meal].at));
    }

    /// A trip is made a day earlier or later, be it booked or printed already; taken back where the plan then has a mistake.
    pub fn move_trip(&mut self, week: usize) {
        let trips = self.loaded.weeks[week].1.trips.len() as i64;
        let place = self.dice.between(0, trips - 1) as usize;
        let before = (self.loaded.weeks.clone(), self.prints[week].clone(), self.done.clone());
        let trip = &mut self.loaded.weeks[week].1.trips[place];
        let (old, nth) = (trip.on, trip.nth);
        trip.on = old.saturating_add(if self.dice.between(0, 1) == 0 { 1.day() } else { -1.day() });
        let new = trip.on;
        if let Some(number) = self.done.remove(&trip_key(old, nth)) {
            self.done.insert(trip_key(new, nth), number);
        }
        let file = &self.loaded.weeks[week].1;
        self.prints[week] = self.prints[week].take().map(|(buys, turnovers)| {
            let moved = printed_trips_moved(&buys, file);
            (at_their_new_days(&buys, &moved), turnovers)
        });
        self.read_book();
        if self.reckon(week).is_err() {
            (self.loaded.weeks, self.prints[week], self.done) = before;
            self.read_book();
            return;
        }
        self.said.push(format!("{} week {week}: the trip of {old} is moved to {new}", self.today));
    }

    /// Neither booked nor fallen out.
    pub fn is_open(&self, week: usize, meal: usize) -> bool {
        let theirs = &self.loaded.weeks[week].1.meals[meal];
        !theirs.skip && !self.done.contains_key(&meal_key(theirs))
    }
}

/// What lies on a shelf, by name.
pub fn on_shelf(shelf: &[LotRecord]) -> Amounts {
    let mut there = Amounts::new();
    for lot in shelf {
        *there.entry(lot.name().to_owned()).or_default() += lot.amount.number.to_f64();
    }
    there
}

fn bought_of(trip: &TripBuys, loaded: &Loaded) -> Amounts {
    let mut bought = Amounts::new();
    for line in &trip.lines {
        for packed in &line.packs {
            *bought.entry(loaded.kitchen.foods[line.food].name.clone()).or_default() += packed.amount().base();
        }
    }
    bought
}

/// What a session takes, and what it leaves: all it makes but for the mash that goes into its own cakes.
fn turned_over(loaded: &Loaded, session: &Turnover) -> (Amounts, Amounts) {
    let (mut took, mut made) = (Amounts::new(), Amounts::new());
    for fetch in &session.fetch {
        let name = match fetch.of.as_ref().expect("a ware that is known") {
            spence::kitchen::Ware::Food(food) => loaded.kitchen.foods[*food].name.clone(),
            spence::kitchen::Ware::Recipe(recipe) => loaded.kitchen.recipes[*recipe].id.clone(),
        };
        *took.entry(name).or_default() += fetch.amount.base();
    }
    let cakes: f64 =
        session.batches.iter().filter(|batch| loaded.kitchen.recipes[batch.recipe].id == "cake").map(|batch| batch.batches).sum();
    for batch in &session.batches {
        *made.entry(loaded.kitchen.recipes[batch.recipe].id.clone()).or_default() += batch.makes.base();
    }
    let mash = cakes * is_cooked("cake").map_or(0.0, |cake| cake.mash) - took.get("mash").copied().unwrap_or(0.0);
    if let Some(made) = made.get_mut("mash") {
        *made -= mash.max(0.0);
    }
    (took, made)
}

/// What single names of a dish come to.
pub fn wanted_at(dish: usize, eaters: i64, name: &str) -> f64 {
    DISHES[dish].iter().filter(|(of, _)| *of == name).map(|(_, amount)| amount * eaters as f64).sum()
}

pub fn foods() -> impl Iterator<Item = &'static str> {
    FOODS.iter().map(|food| food.name)
}
