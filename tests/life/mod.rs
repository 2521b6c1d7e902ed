//! Random households of one to five live through eight weeks: they plan, print, book, forget to book, change their minds, throw away and
//! count. After every act the shelf is what their own sum says, nothing done is planned again, and every open meal is served, on the
//! list, or short.
//!
//! `SPENCE_HOUSEHOLDS=5000 cargo test --release life` lives through more of them; `SPENCE_HOUSEHOLD=17` through that one alone.

mod home;
mod household;
mod program;

use std::sync::atomic::{AtomicU64, Ordering};

use jiff::ToSpan;
use spence::Reckoning;
use spence::kitchen::Ware;
use spence::plan::{MadeAt, User};
use spence::prep::Effort;
use spence::purchase::ShoppingList;

use home::{Home, foods, wanted_at};
use household::{FIRST, RECIPES, WEEKS, is_cooked, is_good};

/// Amounts are exact; what the household adds up of them is not.
const EXACTLY: f64 = 1e-6;

impl Home {
    fn live(&mut self) {
        let days = 3 + 7 * WEEKS;
        for day in 0..days {
            self.today = FIRST.saturating_add((day - 3).days());
            for act in 0..8 {
                let before = self.said.len();
                self.act(act);
                if self.said.len() > before {
                    let weeks = self.at_hand();
                    self.promises(&weeks[self.said.len() % weeks.len()..][..1]);
                }
            }
            // One week a day, by turns: the acts have held the others to their promises.
            let weeks = self.at_hand();
            self.promises(&weeks[day as usize % weeks.len()..][..1]);
        }
        assert_eq!(self.mine, home::on_shelf(&self.shelf));
        let again = spence::book::Book::read(self.book.text()).expect("the book is whole");
        assert_eq!(again, self.book);
    }

    fn act(&mut self, act: i64) {
        let odds = [25, 80, 80, 85, 10, 6, 8, 12][act as usize];
        if self.dice.between(1, 100) > odds {
            return;
        }
        let weeks = self.at_hand();
        let Some(&week) = weeks.get(self.dice.between(0, weeks.len() as i64 - 1) as usize) else { return };
        match act {
            0 => self.plan_and_print(week),
            1 => weeks.into_iter().for_each(|week| self.shop(week)),
            2 => weeks.into_iter().for_each(|week| self.cook(week)),
            3 => weeks.into_iter().for_each(|week| self.eat(week, self.today)),
            4 => self.throw_away(),
            5 => {
                if self.dice.between(0, 1) == 0 {
                    self.count()
                } else {
                    self.buy_beside()
                }
            }
            6 => self.undo(),
            _ if self.dice.between(1, 5) == 1 => self.move_trip(week),
            _ => self.change_mind(week),
        }
    }

    fn story(&self) -> String {
        self.said.join("\n")
    }

    fn promises(&self, weeks: &[usize]) {
        for &week in weeks {
            let reckoned = match self.reckon(week) {
                Ok(reckoned) => reckoned,
                Err(mistakes) => panic!("week {week} on {}: {mistakes:#?}\n{}", self.today, self.story()),
            };
            let list = reckoned.list(spence::Shown::default());
            self.done_is_done(week, &reckoned, &list);
            self.meals_are_served_or_short(week, &reckoned);
            self.food_is_there_or_listed(week, &reckoned, &list);
            self.nothing_past_is_drawn(&reckoned);
            self.guide_and_list_agree(&reckoned);
        }
    }

    fn done_is_done(&self, week: usize, reckoned: &Reckoning, list: &ShoppingList) {
        let is_done = |key: String| self.done.contains_key(&key);
        for trip in &list.trips {
            let listed = trip.lines().next().is_some() || trip.planned;
            assert!(listed && trip.on >= self.today, "the trip of {} on {}\n{}", trip.on, self.today, self.story());
            assert!(!is_done(spence::book::trip_key(trip.on, trip.nth)), "the trip of {} is done\n{}", trip.on, self.story());
        }
        for session in &reckoned.week.sessions {
            assert!(session.start.date() >= self.today && !is_done(spence::book::session_key(session.start)), "{}", self.story());
        }
        let ours = (0..self.weeks[week].meals.len()).filter(|&meal| self.is_open(week, meal)).map(|meal| self.weeks[week].meals[meal].at);
        let ours: Vec<_> = ours.filter(|at| at.date() >= self.today).collect();
        let planned: Vec<_> = reckoned.week.meals.iter().map(|meal| meal.at_time).collect();
        assert_eq!(planned, ours, "the open meals of week {week} on {}\n{}", self.today, self.story());
    }

    fn meals_are_served_or_short(&self, week: usize, reckoned: &Reckoning) {
        for (place, meal) in reckoned.week.meals.iter().enumerate() {
            let ours = self.weeks[week].meals.iter().find(|ours| ours.at == meal.at_time).expect("a meal of ours");
            for recipe in &RECIPES {
                let wanted = wanted_at(ours.dish, ours.eaters, recipe.id);
                let is_it = |id: spence::kitchen::RecipeId| self.loaded.kitchen.recipes[id].id == recipe.id;
                let makings = &reckoned.makings;
                let drawn = makings.cooked_draws.iter().filter(|draw| draw.by == [MadeAt::Meal(place)]);
                let drawn: f64 = drawn.filter(|draw| matches!(draw.of, Ware::Recipe(id) if is_it(id))).map(|draw| draw.amount.base()).sum();
                let uses = makings.makings.iter().filter(|making| is_it(making.recipe)).flat_map(|making| &making.uses);
                let used: f64 = uses.filter(|one| one.by == User::Meal(place)).map(|one| one.amount.base()).sum();
                let short = makings.short.iter().filter(|short| short.at == meal.at_time && is_it(short.recipe));
                let short: f64 = short.map(|short| short.amount.base()).sum();
                let served = drawn + used + short;
                assert!(
                    served >= wanted - 1e-6 && served <= wanted + 0.5,
                    "{} of {wanted} {} at {}: {drawn} of the shelf, {used} of sessions, {short} short\n{}",
                    served,
                    recipe.id,
                    meal.at_time,
                    self.story()
                );
            }
        }
    }

    /// What a week wants of a food at most, done or not: `short_by` is a share of that. Each session may round a dish up to a batch.
    fn whole_week_wants(&self, week: usize, name: &str) -> f64 {
        let meals = || self.weeks[week].meals.iter().filter(|meal| !meal.skip);
        let sessions = self.loaded.weeks[week].1.sessions.len() as f64;
        let eaten = |name: &str| meals().map(|meal| wanted_at(meal.dish, meal.eaters, name)).sum::<f64>();
        let batches = |id: &str, wanted: f64| is_cooked(id).map_or(0.0, |recipe| wanted / recipe.makes + sessions);
        let cakes = batches("cake", eaten("cake"));
        let mash = is_cooked("cake").map_or(0.0, |cake| cake.mash * cakes);
        let needs = |recipe: &household::Cooked| {
            let wanted = eaten(recipe.id) + if recipe.id == "mash" { mash } else { 0.0 };
            let one: f64 = recipe.needs.iter().filter(|(of, _)| *of == name).map(|(_, amount)| amount).sum();
            one * batches(recipe.id, wanted)
        };
        eaten(name) + RECIPES.iter().map(needs).sum::<f64>()
    }

    /// What open meals and sessions want of each food comes off the shelf or stands on an open trip.
    fn food_is_there_or_listed(&self, week: usize, reckoned: &Reckoning, list: &ShoppingList) {
        for name in foods() {
            let of_meal = |meal: &spence::kitchen::Meal| {
                let ours = self.weeks[week].meals.iter().find(|ours| ours.at == meal.at_time).expect("a meal of ours");
                wanted_at(ours.dish, ours.eaters, name)
            };
            let at_meals: f64 = reckoned.week.meals.iter().map(of_meal).sum();
            let of_making = |making: &spence::plan::Making| {
                let recipe = is_cooked(&self.loaded.kitchen.recipes[making.recipe].id).expect("a recipe of ours");
                let one: f64 = recipe.needs.iter().filter(|(of, _)| *of == name).map(|(_, amount)| amount).sum();
                one * making.makes.base() / recipe.makes
            };
            let cooked: f64 = reckoned.makings.makings.iter().map(of_making).sum();
            let is_it = |id: spence::foods::FoodId| self.loaded.kitchen.foods[id].name == name;
            let draws = || reckoned.netted.draws.iter().filter(|draw| matches!(draw.of, Ware::Food(id) if is_it(id)));
            let drawn: f64 = draws().map(|draw| draw.amount.base()).sum();
            let listed: f64 =
                list.trips.iter().flat_map(|trip| trip.lines()).filter(|line| is_it(line.food)).map(|line| line.need.base()).sum();
            let unmet = reckoned.demanded.demand.iter().zip(&reckoned.netted.unmet).filter(|(demand, _)| is_it(demand.food));
            let unmet: f64 = unmet.map(|(_, unmet)| unmet.to_f64()).sum();
            let told =
                || format!("week {week} on {}: {} of {name} are wanted, {drawn} drawn and {listed} listed", self.today, at_meals + cooked);
            let is_weighed = household::unit_of(name) != "piece";
            // A piece that can be cut is bought whole, once a trip; all else to the gram.
            let whole = if is_weighed { 0.0 } else { list.trips.len() as f64 };
            // Nobody goes shopping for what `short_by` leaves out; half of the households leave out nothing.
            let short = if is_weighed { self.loaded.kitchen.rules.short_by * self.whole_week_wants(week, name) } else { 0.0 };
            assert!(listed >= unmet - short - EXACTLY && listed <= unmet + whole + EXACTLY, "{}, {unmet} unmet\n{}", told(), self.story());
            // A draw takes along the rest that it would leave, and then nothing is left of what it drew on.
            let rest = if is_weighed { 1.0 } else { 0.05 };
            let rests = draws().filter(|draw| is_used_up(&reckoned.netted, draw.lot)).count() as f64 * rest;
            let over = drawn + unmet - (at_meals + cooked);
            assert!(over >= -EXACTLY && over <= rests + EXACTLY && (rests > 0.0 || over <= EXACTLY), "{}\n{}", told(), self.story());
            for trip in list.trips.iter().filter(|trip| !trip.planned) {
                for line in trip.lines().filter(|line| is_it(line.food)) {
                    assert!(line.last_used.is_none_or(|last| trip.on <= last), "{name} is bought after its use\n{}", self.story());
                }
            }
        }
    }

    fn nothing_past_is_drawn(&self, reckoned: &Reckoning) {
        for draw in reckoned.netted.draws.iter().chain(&reckoned.makings.cooked_draws) {
            let Some(lot) = reckoned.netted.lots.get(draw.lot) else { continue };
            let name = match draw.of {
                Ware::Food(food) => &self.loaded.kitchen.foods[food].name,
                Ware::Recipe(recipe) => &self.loaded.kitchen.recipes[recipe].id,
            };
            assert!(is_good(lot, name, draw.on), "{name} is past on {}: {lot:?}\n{}", draw.on, self.story());
        }
    }

    /// What a session makes by the guide is what the list was written for.
    fn guide_and_list_agree(&self, reckoned: &Reckoning) {
        let turnovers = reckoned.turnovers();
        for (place, session) in reckoned.week.sessions.iter().enumerate() {
            let told = turnovers.iter().find(|told| told.start == session.start).expect("an open session");
            let made: Vec<_> = reckoned.makings.makings.iter().filter(|making| making.at == MadeAt::Session(place)).collect();
            assert_eq!(told.batches.len(), made.len());
            for (batch, making) in told.batches.iter().zip(made) {
                assert_eq!((batch.recipe, &batch.makes), (making.recipe, &making.makes), "{}", self.story());
            }
        }
        if self.book.bookings.len() % 40 == 1 {
            let guide = reckoned.prep(Effort::Low);
            assert_eq!(guide.sessions.len(), reckoned.week.sessions.len());
        }
    }
}

/// Of a lot, or of the pack of it that was opened last, nothing is left.
fn is_used_up(netted: &spence::pantry::Netted, lot: usize) -> bool {
    let left = |lot: usize| netted.lots[lot].amount.base();
    let opened = netted.pack_of.iter().filter(|(_, of)| **of == lot);
    left(lot) == 0.0
        || (netted.lots[lot].pack.is_some() && opened.clone().count() == 0)
        || opened.clone().any(|(opened, _)| left(*opened) == 0.0)
}

fn lived(seed: u64) -> Home {
    let mut home = Home::new(seed);
    home.live();
    home
}

#[test]
fn households_live_through_eight_weeks_and_the_shelf_is_their_own_sum() {
    let number = |name: &str| std::env::var(name).ok().and_then(|text| text.parse::<u64>().ok());
    let (first, many) = number("SPENCE_HOUSEHOLD").map_or((0, number("SPENCE_HOUSEHOLDS").unwrap_or(300)), |one| (one, 1));
    let next = AtomicU64::new(first);
    let work = || {
        while let Some(seed) = Some(next.fetch_add(1, Ordering::Relaxed)).filter(|seed| *seed < first + many) {
            let home = std::panic::catch_unwind(|| lived(seed)).unwrap_or_else(|_| panic!("household {seed}; see above"));
            if seed % 20 == 7 {
                let again = lived(seed);
                assert_eq!(again.book.text(), home.book.text(), "household {seed} twice");
                assert_eq!(again.said, home.said);
            }
        }
    };
    std::thread::scope(|scope| {
        let threads = std::thread::available_parallelism().map_or(1, usize::from);
        (0..threads).for_each(|_| drop(scope.spawn(work)));
    });
}
