//! Another week than the one that is reckoned: what of it is still to come, and what that takes off a shelf and leaves to spare.

use jiff::civil::Date;

use super::lived::Lived;
use crate::foods::Place;
use crate::kitchen::{Kitchen, Lot, Recipe, Ware, Warning, Week};
use crate::measure::{Number, Quantity, is_nothing_of};
use crate::pantry::{self, Netted};
use crate::plan::{self, Makings};
use crate::purchase::Reserved;

/// Another week, with what is still to come of it.
#[derive(Debug, Clone)]
pub(super) struct Another {
    /// Among the household's weeks.
    pub place: usize,
    pub week: Week,
    pub span: (Date, Date),
    pub has_begun: bool,
}

impl Another {
    pub fn of(place: usize, lived: &Lived) -> Another {
        Another { place, week: lived.open().into_owned(), span: plan::span(&lived.week), has_begun: lived.standing.has_begun() }
    }

    /// With what of it nobody booked, be it past.
    pub fn not_booked(place: usize, lived: &Lived) -> Another {
        Another { place, week: lived.not_booked_yet(), span: plan::span(&lived.week), has_begun: true }
    }

    pub fn overlaps(&self, (from, until): (Date, Date)) -> bool {
        let (first, last) = self.span;
        first <= until && from <= last
    }
}

/// The uses of a week that are still to come, up to a day that is not counted any more.
pub(super) struct Uses<'w> {
    pub week: &'w Week,
    pub from: Date,
    pub until: Date,
    pub has_begun: bool,
}

impl Uses<'_> {
    fn counts_on(&self, day: Date) -> bool {
        self.from <= day && day < self.until
    }

    /// The week with the meals that are still to come.
    fn rest(&self) -> Week {
        let mut rest = self.week.clone();
        rest.meals.retain(|meal| self.counts_on(meal.at_time.date()));
        rest
    }
}

/// What one week takes off a shelf.
#[derive(Debug)]
pub(super) struct Step {
    pub reserved: Vec<Reserved>,
    pub warning: Option<Warning>,
    /// What is left of the shelf; `None` where that is not known, and all is left.
    pub left: Option<Vec<Lot>>,
    /// What its sessions leave to spare.
    pub spare: Vec<SpareLot>,
}

#[derive(Debug)]
pub(super) struct SpareLot {
    made: Date,
    eat_by: Date,
    pub lot: Lot,
}

impl SpareLot {
    /// Is it made before a day, and still good then?
    pub fn is_there_on(&self, day: Date) -> bool {
        self.made < day && self.eat_by >= day
    }
}

/// What a week takes off the kitchen's shelf; `None` where nothing is to come.
pub(super) fn taken(kitchen: &Kitchen, uses: &Uses) -> Option<Step> {
    let rest = uses.rest();
    if rest.meals.is_empty() {
        return None;
    }
    let planned = if uses.has_begun { Ok(plan::plan_begun(kitchen, &rest)) } else { plan::plan(kitchen, &rest) };
    let Ok(mut makings) = planned else {
        let text = format!("{} has a meal that cannot be made, so what it takes off the shelf is not counted here.", rest.name);
        let warning = Some(Warning::Note { at: Some(rest.at.clone()), text });
        return Some(Step { reserved: Vec::new(), warning, left: None, spare: Vec::new() });
    };
    let mut demanded = plan::demand(kitchen, &rest, &makings);
    demanded.demand.retain(|demand| uses.counts_on(demand.on));
    makings.cooked_draws.retain(|draw| uses.counts_on(draw.on));
    let netted = pantry::net(kitchen, &rest, &makings, &demanded);
    let reserved = reserved(&kitchen.lots, &rest, &netted);
    let mut left = netted.lots;
    left.retain(|lot| !lot.amount.is_zero());
    Some(Step { reserved, warning: None, left: Some(left), spare: spare(&kitchen.recipes, &rest, &makings, uses) })
}

/// What was taken out of each lot, in the lot's own measure; packs opened meanwhile count as of their lot.
fn reserved(lots: &[Lot], week: &Week, netted: &Netted) -> Vec<Reserved> {
    let mut reserved = Vec::new();
    for (index, lot) in lots.iter().enumerate() {
        let is_of = |other: usize| other == index || netted.pack_of.get(&other) == Some(&index);
        let left = netted.lots.iter().enumerate().filter(|(other, _)| is_of(*other)).map(|(_, lot)| lot.amount.exact()).sum::<Number>();
        let taken = lot.amount.exact() - left;
        if is_nothing_of(&taken, lot.amount.exact()) {
            continue;
        }
        let taken = Quantity::of(&lot.amount.dimension(), taken);
        let mine = || netted.draws.iter().filter(|draw| is_of(draw.lot));
        let mut what_for: Vec<String> = Vec::new();
        for what in mine().flat_map(|draw| &draw.what_for) {
            if !what_for.contains(what) {
                what_for.push(what.clone());
            }
        }
        reserved.push(Reserved {
            week: week.name.clone(),
            of: lot.of,
            amount: taken,
            place: lot.place,
            last_used: mine().map(|draw| draw.on).max().unwrap_or(week.from),
            what_for,
        });
    }
    reserved
}

/// What the sessions to come leave to spare.
fn spare(recipes: &[Recipe], week: &Week, makings: &Makings, uses: &Uses) -> Vec<SpareLot> {
    let to_come = makings.makings.iter().filter(|making| uses.counts_on(making.on));
    let spare = to_come.filter_map(|making| Some((making.on, making.spare.as_ref()?)));
    spare
        .map(|(made, spare)| SpareLot {
            made,
            eat_by: spare.eat_by,
            lot: Lot {
                of: Ware::Recipe(spare.recipe),
                whose: None,
                amount: spare.amount.clone(),
                pack: None,
                place: if spare.frozen { Place::Freezer } else { recipes[spare.recipe].reach().1 },
                best_before: None,
                use_by: None,
                opened: None,
                since: None,
                made: Some(spare.made_on),
                paid: None,
                at: week.at.clone(),
            },
        })
        .collect()
}
