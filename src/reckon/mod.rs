//! The one door: what was read, what is booked and today go in; the whole reckoning of a week comes out. Every verb goes through it.
//!
//! ```text
//! Kitchen, Week, Booked ── carry: what other weeks take first ─> the stages in a row: plan, demand, netting, needs, packs ─> Reckoning
//! ```
//!
//! Files are read before it and written after it; what takes long (the schedule, the budget's advice, other rounds of the shops) is
//! reckoned when it is asked for. Knows no file and no terminal.

mod budget;
mod carry;

use std::borrow::Cow;
use std::collections::BTreeSet;

use jiff::civil::Date;

use crate::book::Booked;
use crate::kitchen::{Kitchen, Loaded, Meal, Mistake, Spot, Warning, Week};
use crate::pantry::{self, Netted};
use crate::plan::{self, Demanded, Makings};
use crate::prep::{self, Effort, PrepPlan};
use crate::purchase::{self, Basket, Needs, Reserved, ShoppingList, TripComparison};

/// What every stage answered for one week.
#[derive(Debug, Clone)]
pub struct Reckoning<'k> {
    /// Its shelf is as the other weeks leave it: lots are not those of pantry.toml, one by one.
    pub kitchen: Cow<'k, Kitchen>,
    /// Without the meals that are booked: the places of meals are those in here.
    pub week: Cow<'k, Week>,
    pub makings: Makings,
    pub demanded: Demanded,
    pub netted: Netted,
    pub needs: Needs,
    pub basket: Basket,
    /// What other weeks take off the shelf first.
    pub reserved: Vec<Reserved>,
    /// Of reading and of all stages, in order and each once.
    pub warnings: Vec<Warning>,
    /// The first day whose trips are still to be made, where some of the week is past.
    pub shown_from: Option<Date>,
}

/// What a list is to show.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Shown {
    /// Every trip, the past ones too.
    pub all: bool,
    /// What each shop alone and the best pair of shops would cost.
    pub compared: bool,
}

/// Reckons one of the household's weeks, by its place in `loaded`, after what the other weeks have yet to take off the shelf.
///
/// # Errors
/// Meals that no session can serve, and what an eater is allergic to in anything they would be served.
pub fn reckon<'k>(loaded: &'k Loaded, booked: &Booked, week: usize, today: Date) -> Result<Reckoning<'k>, Vec<Mistake>> {
    let mut rest: Vec<Cow<Week>> = loaded.weeks.iter().map(|(_, week)| without_booked_meals(week, booked)).collect();
    let others: Vec<&Week> = (0..rest.len()).filter(|&other| other != week).map(|other| &*rest[other]).collect();
    let carried = carry::carry(&loaded.kitchen, &others, booked, &rest[week], today);
    let kitchen = carried.kitchen;
    let week = rest.swap_remove(week);
    let guarded = plan::guard(&kitchen, &week);
    let staged = stages(&kitchen, &week);
    if !guarded.mistakes.is_empty() {
        let mut mistakes = guarded.mistakes;
        mistakes.extend(staged.err().into_iter().flatten());
        return Err(mistakes);
    }
    let Stages { makings, demanded, netted, needs } = staged?;
    let basket = purchase::choose(&kitchen, &week, &needs.needs);

    let mut warnings = loaded.warnings.clone();
    warnings.extend(plan::past(&week, today));
    warnings.extend(carried.warnings);
    warnings.extend(purchase::old_prices(&kitchen, &needs.needs, today));
    warnings.extend(guarded.warnings);
    warnings.extend(plan::avoided_at_meals(&kitchen, &week));
    warnings.extend(avoided_on_list(&kitchen, &demanded, &needs));
    warnings.extend(demanded.warnings.iter().chain(&netted.warnings).chain(&basket.warnings).cloned());
    let mut said = BTreeSet::new();
    warnings.retain(|warning| said.insert(warning.clone()));
    let shown_from = plan::still_to_do_from(&week, today);
    Ok(Reckoning { kitchen, week, makings, demanded, netted, needs, basket, reserved: carried.reserved, warnings, shown_from })
}

/// Without the meals that are booked, and those that fall out.
fn without_booked_meals<'k>(week: &'k Week, booked: &Booked) -> Cow<'k, Week> {
    let mut week = Cow::Borrowed(week);
    let open = |meal: &Meal| !meal.skip && !booked.has_meal(meal);
    if !week.meals.iter().all(open) {
        week.to_mut().meals.retain(open);
    }
    week
}

/// Everything before the choice of packs.
struct Stages {
    makings: Makings,
    demanded: Demanded,
    netted: Netted,
    needs: Needs,
}

fn stages(kitchen: &Kitchen, week: &Week) -> Result<Stages, Vec<Mistake>> {
    let makings = plan::plan(kitchen, week)?;
    let demanded = plan::demand(kitchen, week, &makings);
    let netted = pantry::net(kitchen, week, &makings, &demanded);
    let needs = purchase::needs(kitchen, week, &demanded, &netted);
    Ok(Stages { makings, demanded, netted, needs })
}

impl Reckoning<'_> {
    /// The shopping list, of the trips still to be made or of all.
    pub fn list(&self, shown: Shown) -> ShoppingList {
        let shown_from = self.shown_from.filter(|_| !shown.all);
        let parts = purchase::Parts {
            makings: &self.makings,
            netted: &self.netted,
            basket: &self.basket,
            flags: &self.needs.flags,
            ask: &self.demanded.ask,
            reserved: &self.reserved,
            warnings: &self.warnings,
            budget: budget::budget(self),
            compare: shown.compared.then(|| self.compare(shown_from)),
        };
        purchase::shopping_list(&self.kitchen, &self.week, parts, shown_from)
    }

    /// What each shop alone and the best pair would cost, for the trips from `shown_from` on, or all.
    fn compare(&self, shown_from: Option<Date>) -> Vec<TripComparison> {
        let mut compared = purchase::compare(&self.kitchen, &self.week, &self.needs.needs);
        compared.retain(|trip| shown_from.is_none_or(|day| trip.on >= day));
        compared
    }

    /// The plan of the week's sessions.
    pub fn prep(&self, effort: Effort) -> PrepPlan {
        prep::prep(&self.kitchen, &self.week, &self.makings, &self.demanded.demand, &self.netted.draws, effort)
    }
}

/// Foods on the list that contain, or may contain, what the household avoids.
fn avoided_on_list(kitchen: &Kitchen, demanded: &Demanded, needs: &Needs) -> Vec<Warning> {
    if kitchen.household.avoid.is_empty() {
        return Vec::new();
    }
    let warn = |need: &plan::Need| {
        let name = &kitchen.foods[need.food].name;
        let demand = demanded.demand.iter().find(|demand| demand.food == need.food);
        let staple = kitchen.staples.iter().find(|staple| staple.food == need.food);
        let at = demand.map(|demand| &demand.at).or(staple.map(|staple| &staple.at)).cloned().unwrap_or_else(Spot::default);
        plan::avoided(kitchen, &plan::food_contains(kitchen, need.food), name, &at)
    };
    needs.needs.iter().filter_map(warn).collect()
}
