//! The days of cooking: the plan for one, the plan for two, what is done ahead, what could be left out.

use itertools::Itertools;
use jiff::civil::Date;

use super::stranger::Stranger;
use super::{AHEAD_OF_METHOD, DayNumber, step_of_method};
use crate::kitchen::{Kitchen, RecipeId, Week};
use crate::measure::Minutes;
use crate::plan::{Demand, MadeAt, Making, Makings, User};
use crate::prep::{Doing, Effort, RecipePage, SessionPlan, SizeOf, ahead_text, leads, plans_alone, spared_without};

#[derive(Debug, Clone)]
pub struct HandoutSession {
    pub day: DayNumber,
    /// For one person, and for cook and helper where the household has one. Each starts with its first task, at minute 0; no page tells
    /// their dates.
    pub plans: Vec<SessionPlan>,
    pub ahead: Vec<Ahead>,
    /// What could be left out, what saves most first.
    pub spared: Vec<Spared>,
}

/// A step that is done so long before the session begins.
#[derive(Debug, Clone, PartialEq)]
pub struct Ahead {
    pub before: Minutes,
    pub recipe: RecipeId,
    pub text: String,
}

/// A dish that could be left out when time is short.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spared {
    pub recipe: RecipeId,
    /// By how much the plan for one is shorter.
    pub saves: Minutes,
    /// "day 1 supper": the meals that then lack it.
    pub meals: Vec<String>,
}

/// Less is not worth a dish.
const WORTH_WHILE: i64 = 5;

impl HandoutSession {
    pub(super) fn withhold(&mut self, withheld: &[RecipeId]) {
        for task in self.plans.iter_mut().flat_map(|plan| &mut plan.tasks) {
            if let Doing::Step(step) = &mut task.what
                && withheld.contains(&step.recipe)
            {
                let verb = if step.verb.is_empty() { String::new() } else { format!(": {}", crate::words::in_a_sentence(&step.verb)) };
                step.text = format!("{}{verb}", step_of_method(step.step));
            }
        }
        for one in self.ahead.iter_mut().filter(|one| withheld.contains(&one.recipe)) {
            one.text = AHEAD_OF_METHOD.to_owned();
        }
    }
}

pub(super) fn sessions(
    own: &Kitchen,
    stranger: &Stranger,
    makings: &Makings,
    demand: &[Demand],
    first: Date,
    effort: Effort,
) -> Vec<HandoutSession> {
    let (kitchen, week) = (&stranger.kitchen, &stranger.week);
    let one = plans_alone(kitchen, week, makings, demand, effort);
    let two = stranger.for_two(own).map(|(kitchen, week)| plans_alone(&kitchen, &week, makings, demand, effort));
    let mut two = two.unwrap_or_default().into_iter();
    let session = |(index, alone): (usize, SessionPlan)| {
        let made = makings.makings.iter().filter(|making| making.at == MadeAt::Session(index));
        let (day, spared) = (DayNumber::since(first, alone.start.date()), spared(stranger, makings, index, &alone));
        let plans: Vec<SessionPlan> = std::iter::once(alone).chain(two.next()).map(SessionPlan::from_its_first_task).collect();
        let ahead = made.flat_map(|making| ahead(kitchen, making, plans.first()));
        HandoutSession { day, ahead: ahead.sorted_by_key(|one| std::cmp::Reverse(one.before)).collect(), spared, plans }
    };
    one.into_iter().enumerate().map(session).filter(|session| !session.plans[0].tasks.is_empty()).collect()
}

/// The steps of a making that are done ahead, before minute 0 of a plan or before its meal.
pub(super) fn ahead(kitchen: &Kitchen, making: &Making, plan: Option<&SessionPlan>) -> Vec<Ahead> {
    let told = |(step, before)| Ahead { before, recipe: making.recipe, text: ahead_text(kitchen, making, step) };
    leads(kitchen, making, plan).into_iter().map(told).collect()
}

fn spared(stranger: &Stranger, makings: &Makings, index: usize, plan: &SessionPlan) -> Vec<Spared> {
    let Stranger { kitchen, week, .. } = stranger;
    let mut all: Vec<Spared> = Vec::new();
    for (making, finish) in spared_without(kitchen, week, makings, index) {
        let making = &makings.makings[making];
        let meals = making.uses.iter().filter_map(|one| match one.by {
            User::Meal(meal) => Some(week.meals[meal].label.clone()),
            User::Making(dish) => match makings.makings[dish].at {
                MadeAt::Meal(meal) => Some(week.meals[meal].label.clone()),
                MadeAt::Session(_) => None,
            },
        });
        all.push(Spared { recipe: making.recipe, saves: Minutes(plan.minutes - finish), meals: meals.unique().collect() });
    }
    all.retain(|one| one.saves.0 >= WORTH_WHILE);
    all.sort_by_key(|one| std::cmp::Reverse(one.saves));
    all
}

/// Sessions by their days in place of dates.
pub(super) fn name_sizes(page: &mut RecipePage, week: &Week, first: Date) {
    let several = week.sessions.len() > 1;
    for size in &mut page.sizes {
        if let SizeOf::Session(start) = size.what {
            let day = DayNumber::since(first, start.date());
            size.what = SizeOf::Meal(if several { format!("cooking on {}", day.words()) } else { "the day of cooking".to_owned() });
        }
    }
}
