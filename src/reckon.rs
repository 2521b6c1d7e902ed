//! The stages in a row: a kitchen and a week in, everything that is said of them out. Files are read before and written after.

use jiff::civil::Date;

use crate::budget::budget;
use crate::kitchen::{Kitchen, Mistake, Spot, Warning, Week};
use crate::pantry::{self, Netted};
use crate::plan::{self, Demanded, Makings};
use crate::prep::{self, Effort, PrepPlan};
use crate::purchase::{self, Basket, Needs, Reserved, ShoppingList, TripComparison};

/// What every stage answered for one week.
#[derive(Debug, Clone)]
pub struct Reckoning {
    pub makings: Makings,
    pub demanded: Demanded,
    pub netted: Netted,
    pub needs: Needs,
    pub basket: Basket,
    /// What other weeks take off the shelf first, where the kitchen is as they leave it.
    pub reserved: Vec<Reserved>,
    /// Of all stages, in order and each once.
    pub warnings: Vec<Warning>,
}

/// Plans a week up to what is bought where.
///
/// # Errors
/// Meals that no session can serve.
pub fn reckon(kitchen: &Kitchen, week: &Week) -> Result<Reckoning, Vec<Mistake>> {
    let Stages { makings, demanded, netted, needs } = stages(kitchen, week)?;
    let basket = purchase::choose(kitchen, week, &needs.needs);
    let mut warnings = plan::avoided_at_meals(kitchen, week);
    warnings.extend(avoided_on_list(kitchen, &demanded, &needs));
    warnings.extend(demanded.warnings.iter().chain(&netted.warnings).chain(&basket.warnings).cloned());
    let mut said = std::collections::BTreeSet::new();
    warnings.retain(|warning| said.insert(warning.clone()));
    Ok(Reckoning { makings, demanded, netted, needs, basket, reserved: Vec::new(), warnings })
}

/// Everything before the choice of packs.
pub(crate) struct Stages {
    pub makings: Makings,
    pub demanded: Demanded,
    pub netted: Netted,
    pub needs: Needs,
}

pub(crate) fn stages(kitchen: &Kitchen, week: &Week) -> Result<Stages, Vec<Mistake>> {
    let makings = plan::plan(kitchen, week)?;
    let demanded = plan::demand(kitchen, week, &makings);
    let netted = pantry::net(kitchen, week, &makings, &demanded);
    let needs = purchase::needs(kitchen, week, &demanded, &netted);
    Ok(Stages { makings, demanded, netted, needs })
}

impl Reckoning {
    /// The shopping list; with `shown_from`, of the trips from that day on. `warnings` are those of reading the files.
    pub fn list(&self, kitchen: &Kitchen, week: &Week, shown_from: Option<Date>, warnings: &[Warning]) -> ShoppingList {
        let parts = purchase::Parts {
            makings: &self.makings,
            netted: &self.netted,
            basket: &self.basket,
            flags: &self.needs.flags,
            ask: &self.demanded.ask,
            warnings,
        };
        let reserved = self.reserved.clone();
        ShoppingList { budget: budget(kitchen, week, self), reserved, ..purchase::shopping_list(kitchen, week, parts, shown_from) }
    }

    /// What each shop alone and the best pair would cost, for the trips from `shown_from` on, or all.
    pub fn compare(&self, kitchen: &Kitchen, week: &Week, shown_from: Option<Date>) -> Vec<TripComparison> {
        let mut compared = purchase::compare(kitchen, week, &self.needs.needs);
        compared.retain(|trip| shown_from.is_none_or(|day| trip.on >= day));
        compared
    }

    /// The plan of the week's sessions.
    pub fn prep(&self, kitchen: &Kitchen, week: &Week, effort: Effort) -> PrepPlan {
        prep::prep(kitchen, week, &self.makings, &self.demanded.demand, &self.netted.draws, effort)
    }
}

/// Foods on the list that contain, or may contain, what the household avoids.
fn avoided_on_list(kitchen: &Kitchen, demanded: &Demanded, needs: &Needs) -> Vec<Warning> {
    if kitchen.household.avoid.is_empty() {
        return Vec::new();
    }
    let warn = |need: &crate::plan::Need| {
        let name = &kitchen.foods[need.food].name;
        let demand = demanded.demand.iter().find(|demand| demand.food == need.food);
        let staple = kitchen.staples.iter().find(|staple| staple.food == need.food);
        let at = demand.map(|demand| &demand.at).or(staple.map(|staple| &staple.at)).cloned().unwrap_or_else(Spot::default);
        plan::avoided(kitchen, &plan::food_contains(kitchen, need.food), name, &at)
    };
    needs.needs.iter().filter_map(warn).collect()
}
