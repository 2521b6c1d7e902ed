//! What comes after what: steps of one making, components before their dishes, the box within two hours of the heat.
//!
//! A component off the heat that goes straight into a dish, and is not heated again there, is boxed with it within the
//! same two hours. What goes back to the heat does so within them, too, unless its recipe chills it or lets it stand longer.

use std::collections::BTreeMap;

use super::boxes::chilled_alone;
use super::follows::{Follows, directly_before, steps_before};
use super::names::step_using;
use super::tasks::{Origin, Part, Work};
use super::{Fixed, Job, Link, LinkWhy};
use crate::foods::Place;
use crate::foods::safety::{CHILLED_WITHIN, GRAINS_CHILLED_WITHIN, is_chilled_as_grain};
use crate::kitchen::{After, Appliance, Kitchen, Recipe, RecipeId, Step, Wanted};
use crate::plan::{Kept, Making, Makings, User};

/// The jobs of the session's makings: by making (number within the session) and step, then the rounds in order.
struct Jobs {
    steps: BTreeMap<(usize, usize), Vec<usize>>,
    boxes: BTreeMap<usize, usize>,
    /// By making, each with its place among what is set apart and the step it comes before.
    asides: BTreeMap<usize, Vec<(usize, usize, usize)>>,
}

impl Jobs {
    fn of(work: &Work) -> Self {
        let mut jobs = Jobs { steps: BTreeMap::new(), boxes: BTreeMap::new(), asides: BTreeMap::new() };
        for (job, origin) in work.origins.iter().enumerate() {
            let number = work.problem.jobs[job].making;
            match origin.part {
                Part::Step { step, .. } => jobs.steps.entry((number, step)).or_default().push(job),
                Part::Aside { of, before } => jobs.asides.entry(number).or_default().push((job, of, before)),
                Part::Box => {
                    jobs.boxes.insert(number, job);
                }
                Part::WashUp | Part::Ahead { .. } | Part::Hot => {}
            }
        }
        jobs
    }

    fn rounds(&self, number: usize, step: usize) -> &[usize] {
        self.steps.get(&(number, step)).map_or(&[], Vec::as_slice)
    }
}

/// Adds every link of the session.
pub(super) fn link_all(kitchen: &Kitchen, makings: &Makings, work: &mut Work) {
    let jobs = Jobs::of(work);
    for number in 0..work.chosen.len() {
        let making = &makings.makings[work.chosen[number]];
        let recipe = &kitchen.recipes[making.recipe];
        for step in 0..recipe.steps.len() {
            link_step(&kitchen.appliances, recipe, (number, step), &jobs, work);
            link_to_ahead(&kitchen.appliances, recipe, (number, step), &jobs, work);
        }
        link_asides(recipe, number, &jobs, work);
        link_chilled_alone(kitchen, making, number, &jobs, work);
        link_box(kitchen, makings, number, &jobs, work);
    }
    for number in 0..work.chosen.len() {
        link_to_other_recipes(&kitchen.recipes, makings, number, &jobs, work);
        link_to_dishes(&kitchen.recipes, makings, number, &jobs, work);
    }
}

/// The steps in the session that no other step of the recipe comes after.
fn last_steps(recipe: &Recipe) -> Vec<usize> {
    let followed: Vec<usize> = in_session(recipe).flat_map(|step| steps_before(recipe, step)).collect();
    in_session(recipe).filter(|step| !followed.contains(step)).collect()
}

fn in_session(recipe: &Recipe) -> impl Iterator<Item = usize> + '_ {
    (0..recipe.steps.len()).filter(|step| recipe.steps[*step].ahead.is_none())
}

fn last_jobs(recipe: &Recipe, number: usize, jobs: &Jobs) -> Vec<usize> {
    last_steps(recipe).into_iter().flat_map(|step| jobs.rounds(number, step).iter().copied()).collect()
}

/// The last job of the making as its recipe is written, and the others that nothing of it comes after.
pub(super) fn last_of(recipes: &[Recipe], makings: &Makings, number: usize, work: &Work) -> (Option<usize>, Vec<usize>) {
    let mut others = last_jobs(recipe_of(recipes, makings, work, number), number, &Jobs::of(work));
    let last = others.pop();
    (last, others)
}

fn link_step(appliances: &[Appliance], recipe: &Recipe, (number, step): (usize, usize), jobs: &Jobs, work: &mut Work) {
    let after = jobs.rounds(number, step);
    if let Some(heated) = rests_after(appliances, recipe, step) {
        return link_rest(jobs.rounds(number, heated), after, work);
    }
    for earlier in steps_before(recipe, step) {
        let before = jobs.rounds(number, earlier);
        if before.len() == after.len() {
            for (b, a) in before.iter().zip(after) {
                add_ruled(&recipe.steps[step], &[*b], &[*a], work);
            }
        } else {
            add_ruled(&recipe.steps[step], before, after, work);
        }
    }
}

/// The step off whose heat another stands by itself, with nothing before it: it begins to stand at once, whenever anybody says so.
fn rests_after(appliances: &[Appliance], recipe: &Recipe, step: usize) -> Option<usize> {
    let rest = &recipe.steps[step];
    let stands = rest.hands.0 == 0 && rest.wait.0 > 0 && rest.on.is_empty() && rest.gap.is_none() && rest.within.is_none();
    let [heated] = steps_before(recipe, step)[..] else { return None };
    (stands && is_hot(appliances, recipe.steps.get(heated)?)).then_some(heated)
}

/// Each round begins to stand when it leaves the heat, all together when the last of them does.
fn link_rest(before: &[usize], after: &[usize], work: &mut Work) {
    let at_once = (0, Some(0));
    if before.len() == after.len() {
        before.iter().zip(after).for_each(|(b, a)| add(&[*b], &[*a], at_once, LinkWhy::Within, work));
    } else if let [earlier @ .., last] = before {
        add(earlier, after, (0, None), LinkWhy::Order, work);
        add(&[*last], after, at_once, LinkWhy::Within, work);
    }
}

/// What comes `within` so long of a step done ahead, whose hands are over when the session begins at the latest.
fn link_to_ahead(appliances: &[Appliance], recipe: &Recipe, (number, step): (usize, usize), jobs: &Jobs, work: &mut Work) {
    let (Some(within), after) = (recipe.steps[step].within, jobs.rounds(number, step)) else { return };
    let ahead = |earlier: &usize| recipe.steps.get(*earlier).is_some_and(|step| step.ahead.is_some());
    for earlier in directly_before(recipe, step).into_iter().filter(ahead).filter(|_| !after.is_empty()) {
        let before = work.problem.jobs.len();
        work.origins.push(Origin { making: work.chosen[number], part: Part::Ahead { step: earlier } });
        let making = work.chosen.len() + 1 + before;
        work.problem.jobs.push(Job { making, uncounted: true, fixed: Some(Fixed::default()), ..Job::default() });
        let within = within.0 + recipe.steps[earlier].waits(appliances);
        add(&[before], after, (0, Some(within)), LinkWhy::Within, work);
    }
}

/// What is set aside comes after the steps before the one that would spoil it, and before that one.
fn link_asides(recipe: &Recipe, number: usize, jobs: &Jobs, work: &mut Work) {
    for (job, _, before) in jobs.asides.get(&number).into_iter().flatten() {
        let mut earlier = steps_before(recipe, *before);
        if earlier.is_empty() {
            earlier = in_session(recipe).filter(|step| step < before).collect();
        }
        for step in earlier {
            add(jobs.rounds(number, step), &[*job], (0, None), LinkWhy::Order, work);
        }
        add(&[*job], jobs.rounds(number, *before), (0, None), LinkWhy::Order, work);
    }
}

/// A portion that goes into the cold by itself is taken out in time after each load that was the last to heat it.
fn link_chilled_alone(kitchen: &Kitchen, making: &Making, number: usize, jobs: &Jobs, work: &mut Work) {
    let recipe = &kitchen.recipes[making.recipe];
    let within = chilled_within(kitchen, recipe);
    for (job, of, before) in jobs.asides.get(&number).into_iter().flatten() {
        if !chilled_alone(kitchen, making, *of) {
            continue;
        }
        for step in last_hot_steps(&kitchen.appliances, recipe, *before) {
            add(jobs.rounds(number, step), &[*job], (0, Some(within)), LinkWhy::Safety, work);
        }
    }
}

/// `after = ["recipe:other"]`: after all of that recipe's making in this session.
fn link_to_other_recipes(recipes: &[Recipe], makings: &Makings, number: usize, jobs: &Jobs, work: &mut Work) {
    let recipe = recipe_of(recipes, makings, work, number);
    for (position, step) in recipe.steps.iter().enumerate() {
        for after in step.after.iter().flatten() {
            let After::Recipe(other) = after else { continue };
            for earlier in numbers_of(makings, work, *other).into_iter().filter(|n| *n != number) {
                let before = last_jobs(&recipes[*other], earlier, jobs);
                add_ruled(step, &before, jobs.rounds(number, position), work);
            }
        }
    }
}

/// A component's last steps come before the step of the dish that names it.
fn link_to_dishes(recipes: &[Recipe], makings: &Makings, number: usize, jobs: &Jobs, work: &mut Work) {
    let making = &makings.makings[work.chosen[number]];
    let before = last_jobs(&recipes[making.recipe], number, jobs);
    for dish in dishes_of(making, work) {
        let recipe = recipe_of(recipes, makings, work, dish);
        if let Some(step) = step_using(recipe, making.recipe) {
            add(&before, jobs.rounds(dish, step), (0, None), LinkWhy::Order, work);
        }
    }
}

/// The session's makings, by number, that use this one at once.
fn dishes_of(making: &Making, work: &Work) -> Vec<usize> {
    let mut dishes: Vec<usize> = making
        .uses
        .iter()
        .filter(|one| one.kept == Kept::Straight)
        .filter_map(|one| match one.by {
            User::Making(dish) => work.chosen.iter().position(|chosen| *chosen == dish),
            User::Meal(_) => None,
        })
        .collect();
    dishes.sort_unstable();
    dishes.dedup();
    dishes
}

/// The box comes after all last steps, once each load has cooled, and starts in time after each load left the heat for good: within two
/// hours, with cooked grains within one.
fn link_box(kitchen: &Kitchen, makings: &Makings, number: usize, jobs: &Jobs, work: &mut Work) {
    let Some(boxing) = jobs.boxes.get(&number).copied() else { return };
    let recipe = recipe_of(&kitchen.recipes, makings, work, number);
    add(&last_jobs(recipe, number, jobs), &[boxing], (0, None), LinkWhy::Order, work);
    // What keeps in the cupboard cools there; it is boxed once it is cool enough.
    let chilled = makings.makings[work.chosen[number]].boxes.iter().any(|boxed| boxed.place != Place::Cupboard);
    for load in leaving_the_heat(kitchen, makings, number, jobs, work) {
        let within = chilled_within(kitchen, recipe_of(&kitchen.recipes, makings, work, work.problem.jobs[load].making));
        add(&[load], &[boxing], (kitchen.rules.cool.0.min(within), chilled.then_some(within)), LinkWhy::Safety, work);
    }
    for (load, heated) in back_to_the_heat(kitchen, makings, number, jobs, work) {
        add(&[load], &[heated], (0, Some(CHILLED_WITHIN.value.0)), LinkWhy::Safety, work);
    }
}

/// Minutes from the heat to the cold.
fn chilled_within(kitchen: &Kitchen, recipe: &Recipe) -> i64 {
    if holds_grain(kitchen, recipe) { GRAINS_CHILLED_WITHIN } else { CHILLED_WITHIN }.value.0
}

/// Rice, barley and the like among its ingredients, or those of its components at any depth.
pub(super) fn holds_grain(kitchen: &Kitchen, recipe: &Recipe) -> bool {
    recipe.ingredients.iter().any(|line| match line.wanted {
        Wanted::Food { food, .. } => is_chilled_as_grain(&kitchen.foods[food]),
        Wanted::Recipe { recipe, .. } => holds_grain(kitchen, &kitchen.recipes[recipe]),
    })
}

/// The jobs after which the food of a making does not go back to the heat: its own, and those of components that go straight into it and
/// are not heated again there.
fn leaving_the_heat(kitchen: &Kitchen, makings: &Makings, number: usize, jobs: &Jobs, work: &Work) -> Vec<usize> {
    let recipe = recipe_of(&kitchen.recipes, makings, work, number);
    let hot = last_hot_steps(&kitchen.appliances, recipe, recipe.steps.len());
    let mut loads: Vec<usize> = hot.iter().flat_map(|step| jobs.rounds(number, *step).iter().copied()).collect();
    let follows = Follows::of(recipe);
    for part in (0..work.chosen.len()).filter(|part| *part != number) {
        let component = &makings.makings[work.chosen[part]];
        let goes_in = dishes_of(component, work).contains(&number);
        let Some(used) = step_using(recipe, component.recipe).filter(|_| goes_in) else { continue };
        if !hot.iter().any(|step| *step == used || follows.comes_after(*step, used)) {
            loads.extend(leaving_the_heat(kitchen, makings, part, jobs, work));
        }
    }
    loads
}

/// Loads of a making, and of components that go straight into it, each with a load in which the food is next on the heat.
fn back_to_the_heat(kitchen: &Kitchen, makings: &Makings, number: usize, jobs: &Jobs, work: &Work) -> Vec<(usize, usize)> {
    let recipe = recipe_of(&kitchen.recipes, makings, work, number);
    let follows = Follows::of(recipe);
    let mut pairs = Vec::new();
    for next in in_session(recipe).filter(|step| is_hot(&kitchen.appliances, &recipe.steps[*step])) {
        let heated = jobs.rounds(number, next);
        let hot = |step: &usize| is_hot(&kitchen.appliances, &recipe.steps[*step]);
        for step in in_session(recipe).filter(hot).filter(|step| stands_between(&kitchen.appliances, recipe, &follows, (*step, next))) {
            let loads = jobs.rounds(number, step);
            if loads.len() == heated.len() {
                pairs.extend(loads.iter().copied().zip(heated.iter().copied()));
            } else {
                pairs.extend(loads.iter().flat_map(|load| heated.iter().map(|heated| (*load, *heated))));
            }
        }
        for part in (0..work.chosen.len()).filter(|part| *part != number) {
            let component = &makings.makings[work.chosen[part]];
            let goes_in = dishes_of(component, work).contains(&number);
            let Some(used) = step_using(recipe, component.recipe).filter(|_| goes_in) else { continue };
            if used == next
                || (!is_hot(&kitchen.appliances, &recipe.steps[used])
                    && stands_between(&kitchen.appliances, recipe, &follows, (used, next)))
            {
                let loads = leaving_the_heat(kitchen, makings, part, jobs, work);
                pairs.extend(loads.iter().flat_map(|load| heated.iter().map(|heated| (*load, *heated))));
            }
        }
    }
    pairs
}

/// Whether the food of a step, off the heat, is next heated in a later one, and stands at room temperature until then for as short as the
/// recipe lets it: where that is more than the time within which it is to be chilled, the recipe knows why.
fn stands_between(appliances: &[Appliance], recipe: &Recipe, follows: &Follows, (earlier, next): (usize, usize)) -> bool {
    if !follows.comes_after(next, earlier) {
        return false;
    }
    let between: Vec<usize> =
        in_session(recipe).filter(|step| follows.comes_after(*step, earlier) && follows.comes_after(next, *step)).collect();
    let stands = |step: &usize| recipe.steps[*step].wait.0 + recipe.steps[*step].gap.map_or(0, |gap| gap.0);
    let asked = between.iter().map(stands).sum::<i64>() + recipe.steps[next].gap.map_or(0, |gap| gap.0);
    let elsewhere = |step: &usize| is_hot(appliances, &recipe.steps[*step]) || !recipe.steps[*step].on.is_empty();
    asked <= CHILLED_WITHIN.value.0 && !between.iter().any(elsewhere)
}

/// Of the steps that stand before `until`, those after which the food does not go back to the heat in another of them.
fn last_hot_steps(appliances: &[Appliance], recipe: &Recipe, until: usize) -> Vec<usize> {
    let hot: Vec<usize> =
        in_session(recipe).take_while(|step| *step < until).filter(|step| is_hot(appliances, &recipe.steps[*step])).collect();
    let follows = Follows::of(recipe);
    let reheated = |step: usize| hot.iter().any(|later| *later != step && follows.comes_after(*later, step));
    hot.iter().copied().filter(|step| !reheated(*step)).collect()
}

pub(super) fn is_hot(appliances: &[Appliance], step: &Step) -> bool {
    step.is_on_heat(appliances) || step.temperature.is_some() || step.inside.is_some()
}

fn recipe_of<'k>(recipes: &'k [Recipe], makings: &Makings, work: &Work, number: usize) -> &'k Recipe {
    &recipes[makings.makings[work.chosen[number]].recipe.0]
}

fn numbers_of(makings: &Makings, work: &Work, recipe: RecipeId) -> Vec<usize> {
    (0..work.chosen.len()).filter(|n| makings.makings[work.chosen[*n]].recipe == recipe).collect()
}

/// Links with the `gap` and `within` of the later step. Applied to each of the earlier jobs, `gap` counts from the latest of them
/// and `within` from the earliest; one that nobody wrote, of what is drained, binds no loads that come off the heat one by one.
fn add_ruled(step: &Step, before: &[usize], after: &[usize], work: &mut Work) {
    let one_by_one = step.estimated.within && before.len() > 1;
    let within = step.within.filter(|_| !one_by_one).map(|w| w.0);
    let why = if within.is_some() { LinkWhy::Within } else { LinkWhy::Order };
    add(before, after, (step.gap.map_or(0, |gap| gap.0), within), why, work);
}

fn add(before: &[usize], after: &[usize], (gap, within): (i64, Option<i64>), why: LinkWhy, work: &mut Work) {
    for b in before {
        work.problem.links.extend(after.iter().map(|a| Link { before: *b, after: *a, gap, within, why }));
    }
}

#[cfg(test)]
mod tests;
