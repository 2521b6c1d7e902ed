//! Appliances out of order: which steps of a session go elsewhere, and which cannot be done at all.

use std::borrow::Cow;

use crate::kitchen::{Appliance, ApplianceId, Elsewhere, Kitchen, Mistake, Recipe, Session, Spot, Step, Week};
use crate::plan::{MadeAt, Makings};
use crate::words::listed;

/// The kitchen as a session finds it: what stands on an appliance that is out of order there stands on its `or_on`.
pub(super) fn as_found<'k>(kitchen: &'k Kitchen, session: &Session) -> Cow<'k, Kitchen> {
    let moves = |step: &Step| moved(&kitchen.appliances, step, &session.without).is_some();
    if session.without.is_empty() || !kitchen.recipes.iter().flat_map(|recipe| &recipe.steps).any(moves) {
        return Cow::Borrowed(kitchen);
    }
    let mut found = kitchen.clone();
    for step in found.recipes.iter_mut().flat_map(|recipe| &mut recipe.steps) {
        if let Some(there) = moved(&kitchen.appliances, step, &session.without) {
            *step = there;
        }
    }
    Cow::Owned(found)
}

/// The step on its `or_on`; `None` where it stays. Done ahead, it is not done in the session.
fn moved(appliances: &[Appliance], step: &Step, without: &[ApplianceId]) -> Option<Step> {
    let Elsewhere { on, wait, temperature, takes } = step.elsewhere?;
    let lacking = step.on.iter().position(|id| without.contains(id)).filter(|_| step.ahead.is_none())?;
    let mut there = step.clone();
    there.on[lacking] = on;
    there.wait = wait.unwrap_or(step.wait);
    there.takes = takes.unwrap_or(step.takes);
    there.temperature = temperature.or(step.temperature).filter(|_| there.on.iter().any(|id| appliances[*id].heat));
    Some(there)
}

/// Each step of each session that needs an appliance which is out of order there.
pub fn out_of_order(kitchen: &Kitchen, week: &Week, makings: &Makings) -> Vec<Mistake> {
    let mut mistakes = Vec::new();
    for (index, session) in week.sessions.iter().enumerate().filter(|(_, session)| !session.without.is_empty()) {
        let found = as_found(kitchen, session);
        let mut recipes: Vec<_> =
            makings.makings.iter().filter(|making| making.at == MadeAt::Session(index)).map(|one| one.recipe).collect();
        recipes.sort_unstable();
        recipes.dedup();
        for (recipe, written) in recipes.into_iter().map(|id| (&found.recipes[id], &kitchen.recipes[id])) {
            for (number, (step, written)) in (1..).zip(recipe.steps.iter().zip(&written.steps)) {
                let lacks = |id: &&ApplianceId| session.without.contains(id);
                if step.ahead.is_none() && step.on.iter().any(|id| lacks(&id)) {
                    mistakes.push(Mistake { at: session.at.clone(), ..cannot_stand(kitchen, recipe, (number, step, written), lacks) });
                }
            }
        }
    }
    mistakes
}

/// What a step lacks where it stands; where it was moved there, what it lacks where it is written, too.
fn cannot_stand(
    kitchen: &Kitchen,
    recipe: &Recipe,
    (number, step, written): (usize, &Step, &Step),
    lacks: impl Fn(&&ApplianceId) -> bool,
) -> Mistake {
    let named = |ids: &[ApplianceId]| -> Vec<String> {
        ids.iter().filter(&lacks).map(|id| format!("the {}", kitchen.appliances[*id].name)).collect()
    };
    let (theirs, there) = (named(&written.on), named(&step.on));
    let name = step.id.as_ref().map_or(format!("step {number}"), |id| format!("step {number} (\"{id}\")"));
    let (cause, or_on) = if step.on == written.on {
        let (are, it) = if there.len() == 1 { ("is", "it") } else { ("are", "them") };
        (format!("{} {are} out of order, and {name} of {} needs {it}", listed(&there), recipe.name), "Give the step or_on = \"...\"")
    } else {
        let (theirs, there) = (listed(&theirs), listed(&there));
        (
            format!("{theirs} and, in its place, {there} are out of order, and {name} of {} needs one of them", recipe.name),
            "Name another appliance in or_on",
        )
    };
    let remedy = format!("{or_on}, make it in another session, or take the appliance out of without.");
    Mistake { at: Spot::default(), cause, remedy }
}

#[cfg(test)]
mod tests;
