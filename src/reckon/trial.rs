//! A week whose open meals are tried in many ways: what does not hang on them is reckoned once, the stages run anew for each try.
//!
//! The stages are those of the list itself, so that a try costs what the list will say. What takes long and decides nothing (advice on
//! the budget, the schedule's proofs) is left out.

use std::borrow::Cow;

use jiff::civil::Date;

use super::before::{Before, Household};
use super::lived::AsPrinted;
use super::stages::{Begun, PEOPLE_ARE_UP, Stages, open_stages};
use super::walk::Walk;
use crate::book::Booked;
use crate::foods::as_purchased;
use crate::kitchen::{Ingredient, Kitchen, Loaded, Lot, Meal, Mistake, Open, RecipeId, Wanted, Ware, Warning, Week};
use crate::measure::{Money, Number, Quantity};
use crate::pantry::last_day;
use crate::plan::{self, Demanded, Makings, in_makes};
use crate::prep::{self, AtTheMeal, Effort, Hours, at_the_meal, session_minutes};
use crate::purchase::{self, Basket, Needs};
use crate::shelf::{Prices, lot_dates, worth};

/// A week with open meals, made ready for trying.
#[derive(Debug, Clone)]
pub struct Trials<'k> {
    /// Its shelf is as the other weeks and what is taken as done leave it.
    pub kitchen: Cow<'k, Kitchen>,
    /// Every meal that counts, those that are past too; open ones are there without lines. In order of time.
    pub whole: Week,
    /// Of `whole`, which meals are to be filled.
    pub open: Vec<usize>,
    pub warnings: Vec<Warning>,
    /// What is still to come of it, with the places in it of the meals of `whole`.
    week: Week,
    places: Vec<Option<usize>>,
    begun: Option<(Begun, &'k Booked)>,
    today: Date,
}

/// One way to fill the week, reckoned.
#[derive(Debug, Clone)]
pub struct Tried {
    /// What is still to come.
    pub week: Week,
    pub makings: Makings,
    pub demanded: Demanded,
    pub netted: crate::pantry::Netted,
    pub needs: Needs,
    pub basket: Basket,
}

/// What a filled week costs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Priced {
    /// The cost, less what is left and keeps, and what of the shelf goes off unused.
    pub net: Money,
    pub cost: Money,
    /// Of what is bought, what is left and good for another week.
    pub keeps: Money,
    /// Of the shelf, what goes off unused.
    pub off: Money,
    /// Of the shelf, what was past its date before anything of the week could use it.
    pub lost: Money,
    /// Of what is bought and of the shelf together.
    pub spoils: Money,
}

/// Makes a week ready, by its place in `loaded`. `open` are the places of its meals that are to be filled, whatever stands in them now.
///
/// # Errors
/// What keeps the written meals alone from being reckoned.
pub fn trials<'k>(
    loaded: &'k Loaded,
    booked: &'k Booked,
    prints: &[Option<AsPrinted>],
    (index, open): (usize, &[usize]),
    today: Date,
) -> Result<Trials<'k>, Vec<Mistake>> {
    let mut template = loaded.weeks[index].1.clone();
    // What a written meal was, its name and its pattern, says nothing of what it is to become.
    let bare = |meal: &Meal| {
        let (name, pattern) = if meal.open.is_some() { (meal.name.clone(), meal.pattern) } else { (None, None) };
        Meal { open: None, name, pattern, each: Vec::new(), shared: Vec::new(), ..meal.clone() }
    };
    for (place, meal) in template.meals.iter_mut().enumerate() {
        match open.contains(&place) {
            true => *meal = bare(meal),
            // Past and never filled, or left out: nobody eats it.
            false if meal.open.is_some() => meal.skip = true,
            false => {}
        }
    }
    let spots: Vec<_> = open.iter().map(|place| template.meals[*place].at.clone()).collect();
    let household = Household { walk: &Walk::default(), loaded, booked, prints, today };
    let Before { lived, kitchen, warnings: carried, begun, .. } = household.before(index, &template);
    let week = lived.open().into_owned();
    let whole = lived.week.clone().into_owned();
    let places = whole.meals.iter().map(|meal| week.meals.iter().position(|other| other.at == meal.at)).collect();
    let open: Vec<usize> = (0..whole.meals.len()).filter(|place| spots.contains(&whole.meals[*place].at)).collect();
    let mut warnings = loaded.warnings.clone();
    warnings.extend(carried);
    warnings.extend(lived.neither_booked_nor_printed().filter(|_| !open.is_empty()));
    let begun = begun.map(|begun| (begun, booked));
    let trials = Trials { kitchen, whole, open, warnings, week, places, begun, today };
    let written = plan::guard(&trials.kitchen, &trials.week);
    if written.mistakes.is_empty() { trials.run(&[]).map(|_| trials) } else { Err(written.mistakes) }
}

impl Trials<'_> {
    /// Can a meal of `whole` still be filled? What is past cannot.
    pub fn is_to_come(&self, meal: usize) -> bool {
        self.places.get(meal).is_some_and(Option::is_some)
    }

    /// The week with these meals in their places, by the places of `whole`; every other open meal is there without lines: it is to be
    /// filled yet, and until then the week is not over.
    ///
    /// # Errors
    /// Meals that no session and no shelf can serve.
    pub fn run(&self, filled: &[(usize, Meal)]) -> Result<Tried, Vec<Mistake>> {
        self.run_week(self.week.clone(), filled)
    }

    /// As [`Trials::run`], where every other open meal stays open for good: the list leaves it out, and so is its day.
    ///
    /// # Errors
    /// Meals that no session and no shelf can serve.
    pub fn run_leaving_open(&self, filled: &[(usize, Meal)]) -> Result<Tried, Vec<Mistake>> {
        self.run_week(self.week_leaving_open(filled), filled)
    }

    /// Of `whole`, the meals that no session and no shelf serves, where every other open meal stays open for good.
    pub fn not_served(&self, filled: &[(usize, Meal)]) -> Vec<usize> {
        let week = self.with_meals(self.week_leaving_open(filled), filled);
        let short = plan::plan_begun(&self.kitchen, &week).short;
        let is_short = |meal: &Meal| short.iter().any(|one| (one.at, &one.label) == (meal.at_time, &meal.label));
        (0..self.whole.meals.len()).filter(|place| is_short(&self.whole.meals[*place])).collect()
    }

    fn week_leaving_open(&self, filled: &[(usize, Meal)]) -> Week {
        let mut week = self.week.clone();
        let stays = |place: &&usize| filled.iter().all(|(meal, _)| meal != *place);
        for place in self.open.iter().filter(stays).filter_map(|place| self.places[*place]) {
            week.meals[place].open = Some(Open::default());
        }
        week
    }

    fn with_meals(&self, mut week: Week, filled: &[(usize, Meal)]) -> Week {
        for (place, meal) in filled {
            if let Some(place) = self.places.get(*place).copied().flatten() {
                week.meals[place] = meal.clone();
            }
        }
        week
    }

    fn run_week(&self, week: Week, filled: &[(usize, Meal)]) -> Result<Tried, Vec<Mistake>> {
        let week = self.with_meals(week, filled);
        let (week, Stages { makings, demanded, netted, needs }) =
            open_stages(&self.kitchen, Cow::Owned(week), self.begun.as_ref().map(|(begun, booked)| (begun, *booked)))?;
        let week = week.into_owned();
        let basket = purchase::choose(&self.kitchen, &week, &needs.needs);
        Ok(Tried { week, makings, demanded, netted, needs, basket })
    }

    /// Could a session or the shelf serve this meal, were it the only one of the week?
    pub fn run_alone(&self, place: usize, meal: Meal) -> bool {
        let mut week = self.week.clone();
        week.meals = vec![Meal { at_time: self.whole.meals[place].at_time, ..meal }];
        match self.begun {
            None => plan::plan(&self.kitchen, &week).is_ok(),
            Some(_) => plan::plan_begun(&self.kitchen, &week).short.is_empty(),
        }
    }

    /// Dishes that soak before their food is bought, or that should be in water by now.
    pub fn begun_too_late(&self, tried: &Tried) -> Vec<RecipeId> {
        let Tried { week, makings, needs, .. } = tried;
        let mut late: Vec<RecipeId> = prep::bought_later(&self.kitchen, week, makings, &needs.needs).iter().map(|one| one.recipe).collect();
        late.extend(prep::begun_before(&self.kitchen, week, makings, self.today.at(PEOPLE_ARE_UP, 0, 0, 0)));
        late
    }

    /// The sessions that are still to come.
    pub fn sessions(&self) -> &[crate::kitchen::Session] {
        &self.week.sessions
    }

    /// What the list says the week costs, what is left and keeps, and what goes off.
    pub fn price(&self, tried: &Tried) -> Priced {
        let worth_of = purchase::worth(&tried.week, &tried.basket);
        let listed = purchase::listed(&tried.basket);
        let prices = Prices::new(&self.kitchen).with_list(listed);
        let first = self.first_use();
        let (mut off, mut lost) = (Money::ZERO, Money::ZERO);
        for lot in self.goes_off(tried) {
            let sum = if self.is_lost(lot, first) { &mut lost } else { &mut off };
            *sum += prices.of_lot(lot).map_or(Money::ZERO, |price| worth(&lot.amount, price));
        }
        let cost = tried.basket.cost;
        Priced { net: cost - worth_of.keeps + off + lost, cost, keeps: worth_of.keeps, off, lost, spoils: worth_of.spoils + off + lost }
    }

    /// The first day on which the week could use anything: of its meals and sessions to come.
    pub fn first_use(&self) -> Date {
        let meals = self.week.meals.iter().map(|meal| meal.at_time.date());
        let sessions = self.week.sessions.iter().map(|session| session.start.date());
        meals.chain(sessions).min().map_or(self.today, |first| first.max(self.today))
    }

    /// Was a lot past its date by then, so that nothing of the week can use it?
    pub fn is_lost(&self, lot: &Lot, first_use: Date) -> bool {
        !lot_dates(&self.kitchen.foods, &self.kitchen.recipes, lot).may_be_drawn_on(first_use)
    }

    /// Lots of the shelf that go off unused, and what is cooked and nobody eats. Past its best before in cupboard or freezer a lot is still
    /// drawn.
    pub fn goes_off<'r>(&'r self, tried: &'r Tried) -> impl Iterator<Item = &'r Lot> {
        let last = last_day(&tried.week);
        let lots = tried.netted.expiring.iter().map(|(lot, until)| (&tried.netted.lots[*lot], *until));
        let is_lost = move |(lot, until): &(&Lot, Option<Date>)| {
            let past = until.is_some_and(|until| until < last);
            !past || !lot_dates(&self.kitchen.foods, &self.kitchen.recipes, lot).may_be_drawn_on(last)
        };
        lots.filter(is_lost).map(|(lot, _)| lot)
    }

    /// What one unit of a lot is worth at least, whatever a list pays: minor units.
    pub fn least_price(&self, lot: &Lot) -> Option<f64> {
        Prices::new(&self.kitchen).of_lot(lot)
    }

    /// Is anything of the week past or booked?
    pub fn has_begun(&self) -> bool {
        self.begun.is_some()
    }

    /// The place of a meal of `whole` in what is still to come.
    pub fn place(&self, meal: usize) -> Option<usize> {
        self.places.get(meal).copied().flatten()
    }

    /// Minutes at a meal of `whole`.
    pub fn at_the_meal(&self, tried: &Tried, meal: usize) -> AtTheMeal {
        self.place(meal).map(|place| at_the_meal(&self.kitchen, &tried.makings, place)).unwrap_or_default()
    }

    /// The least finish of a session that is still to come, and its bound.
    pub fn session_minutes(&self, tried: &Tried, session: usize, effort: Effort) -> (i64, i64) {
        session_minutes(&self.kitchen, &tried.week, &tried.makings, session, effort)
    }

    /// How long a session to come takes whose least finish is known, as its guide tells it.
    pub fn hours(&self, tried: &Tried, (session, least): (usize, i64), effort: Effort) -> Hours {
        prep::hours(&self.kitchen, &tried.week, &tried.makings, (session, least), effort)
    }

    /// Does the shelf hold any of it that may still be drawn on this day?
    pub fn is_on_the_shelf(&self, ware: Ware, on: Date) -> bool {
        let good = |lot: &Lot| lot_dates(&self.kitchen.foods, &self.kitchen.recipes, lot).may_be_drawn_on(on);
        self.kitchen.lots.iter().any(|lot| lot.of == ware && !lot.amount.is_zero() && good(lot))
    }

    /// Does the shelf hold as much as a line asks for, on this day? A lot that cannot be compared is taken to be enough.
    pub fn shelf_holds(&self, line: &Ingredient, on: Date) -> bool {
        self.holds(line, |lot| lot_dates(&self.kitchen.foods, &self.kitchen.recipes, lot).may_be_drawn_on(on))
    }

    /// As [`Trials::shelf_holds`], whenever that is. What is always there is.
    pub fn shelf_holds_ever(&self, line: &Ingredient) -> bool {
        matches!(line.ware(), Ware::Food(food) if self.kitchen.rules.always.contains(&food)) || self.holds(line, |_| true)
    }

    fn holds(&self, line: &Ingredient, good: impl Fn(&Lot) -> bool) -> bool {
        let kitchen: &Kitchen = &self.kitchen;
        let share = |lot: &Lot| {
            let wanted = match &line.wanted {
                Wanted::Food { food, item } => {
                    let item = item.as_ref()?;
                    as_purchased(&kitchen.foods[*food], item, &lot.amount.dimension(), kitchen.rules.spoons).ok()?.exact().clone()
                }
                Wanted::Recipe { recipe, amount, .. } => {
                    let recipe = &kitchen.recipes[*recipe];
                    in_makes(recipe, amount)? / in_makes(recipe, &Quantity::of(&lot.amount.dimension(), 1))?
                }
            };
            wanted.is_positive().then(|| lot.amount.exact() / &wanted)
        };
        let lots = kitchen.lots.iter().filter(|lot| lot.of == line.ware() && !lot.amount.is_zero()).filter(|lot| good(lot));
        lots.map(|lot| share(lot).unwrap_or(Number::ONE)).sum::<Number>() >= Number::ONE
    }

    /// The first day that is still to come of the week.
    pub fn first_day(&self) -> Date {
        self.begun.as_ref().map_or(self.week.from, |(begun, _)| begun.today.max(self.week.from))
    }
}

/// The places of the meals of a week that nobody has filled yet and that are not past.
pub fn open_meals(week: &Week, today: Date) -> Vec<usize> {
    let is_open = |meal: &Meal| meal.open.is_some() && !meal.skip && meal.at_time.date() >= today;
    (0..week.meals.len()).filter(|place| is_open(&week.meals[*place])).collect()
}

/// Open meals are left out, which is told once.
pub(super) fn left_out(week: &Week, today: Date) -> Option<Warning> {
    let open = open_meals(week, today);
    let first = &week.meals[*open.first()?];
    let labels: Vec<&str> = open.iter().map(|place| week.meals[*place].label.as_str()).collect();
    let (is, them) = if open.len() == 1 { ("is", "it") } else { ("are", "them") };
    let text = format!("{} {is} open and left out here: fill {them} with spence compose.", crate::words::listed(&labels));
    Some(Warning::Note { at: Some(first.at.clone()), text })
}
