//! The stages in a row, up to the choice of packs: plan, demand, netting, needs.

use std::borrow::Cow;

use jiff::civil::Date;

use crate::book::Booked;
use crate::kitchen::{Kitchen, Mistake, Trip, Week};
use crate::pantry::{self, Netted};
use crate::plan::{self, Begins, Demand, Demanded, Makings, ShortMeal};
use crate::prep;
use crate::purchase::{self, Needs};

/// A week of which something is past or booked.
#[derive(Debug, Clone)]
pub(super) struct Begun {
    pub today: Date,
    /// What the sessions and meals that are done or taken as done needed.
    pub done: Vec<Demand>,
}

/// Everything before the choice of packs.
#[derive(Debug, Clone)]
pub(super) struct Stages {
    pub makings: Makings,
    pub demanded: Demanded,
    pub netted: Netted,
    pub needs: Needs,
}

pub(super) fn stages(kitchen: &Kitchen, week: &Week, makings: Makings) -> Stages {
    let makings = prep::settled(kitchen, week, makings);
    let demanded = plan::demand(kitchen, week, &makings);
    let netted = pantry::net(kitchen, week, &makings, &demanded);
    let needs = purchase::needs(kitchen, week, &demanded, &netted);
    Stages { makings, demanded, netted, needs }
}

/// The stages of what is open. A week that has begun gets trips of its own, and meals that nothing can serve are short.
pub(super) fn open_stages<'w>(
    kitchen: &Kitchen,
    week: Cow<'w, Week>,
    begun: Option<(&Begun, &Booked)>,
) -> Result<(Cow<'w, Week>, Stages), Vec<Mistake>> {
    let Some((Begun { today, done }, booked)) = begun else {
        let stages = stages(kitchen, &week, plan::plan(kitchen, &week)?);
        return Ok((week, stages));
    };
    let mut week = week;
    let mut stages = stages(kitchen, &week, plan::plan_begun(kitchen, &week));
    stages.makings.short.iter_mut().for_each(|short| short.begins = begins_by(kitchen, short, *today));
    let own = purchase::trips_of_their_own(kitchen, &week, &stages.demanded, &stages.netted, *today);
    if !own.is_empty() {
        let trips = &mut week.to_mut().trips;
        trips.extend(own.into_iter().map(|trip| Trip { nth: booked.next_own_trip(trip.on), ..trip }));
        trips.sort_by_key(|trip| trip.on);
        stages.needs = purchase::needs(kitchen, &week, &stages.demanded, &stages.netted);
        purchase::leave_out_the_unmet(kitchen, week.to_mut(), &stages.demanded, done, &mut stages.needs);
    }
    Ok((week, stages))
}

/// Nobody reads a list before this hour: what begins earlier on the day itself is over. Common practice, no source.
pub(super) const PEOPLE_ARE_UP: i8 = 7;

/// When what is done ahead of a meal that runs short had to begin.
fn begins_by(kitchen: &Kitchen, short: &ShortMeal, today: Date) -> Option<Begins> {
    let at = prep::begins_ahead(kitchen, short.recipe, &short.amount, short.at)?;
    Some(Begins { at, is_past: at < today.at(PEOPLE_ARE_UP, 0, 0, 0) })
}
