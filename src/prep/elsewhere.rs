//! Appliances out of order: which steps of a session go elsewhere, and which cannot be done at all.

use std::borrow::Cow;
use std::collections::BTreeSet;

use crate::kitchen::{Appliance, ApplianceId, ApplianceKind, Elsewhere, Kitchen, Mistake, Session, Step, Week};
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
    there.temperature = temperature.or(step.temperature).filter(|_| there.on.iter().any(|id| has_degrees(&appliances[*id])));
    Some(there)
}

fn has_degrees(appliance: &Appliance) -> bool {
    appliance.heat || appliance.kind == Some(ApplianceKind::Oven)
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
        for (written, recipe) in recipes.into_iter().map(|id| (&kitchen.recipes[id], &found.recipes[id])) {
            let steps = (1..).zip(written.steps.iter().zip(&recipe.steps)).filter(|(_, (_, step))| step.ahead.is_none());
            for (number, (written, step)) in steps {
                let is_out = |id: &&ApplianceId| session.without.contains(id);
                if !step.on.iter().any(|id| is_out(&id)) {
                    continue;
                }
                // What stands in for an appliance may be out of order, too.
                let lacking: BTreeSet<ApplianceId> = written.on.iter().chain(&step.on).filter(is_out).copied().collect();
                let lacking: Vec<&str> = lacking.iter().map(|id| kitchen.appliances[*id].name.as_str()).collect();
                let name = step.id.as_ref().map_or(format!("step {number}"), |id| format!("step {number} (\"{id}\")"));
                let (are, it) = match (lacking.len(), step.on != written.on) {
                    (1, _) => ("is", "it"),
                    (_, true) => ("are", "one of them"),
                    (_, false) => ("are", "them"),
                };
                mistakes.push(Mistake {
                    at: session.at.clone(),
                    cause: format!("the {} {are} out of order, and {name} of {} needs {it}", listed(&lacking), recipe.name),
                    remedy: remedy(written).to_owned(),
                });
            }
        }
    }
    mistakes
}

fn remedy(step: &Step) -> &'static str {
    match step.elsewhere {
        None => "Give the step or_on = \"...\", make it in another session, or take the appliance out of without.",
        Some(_) => "Give the step another or_on, make it in another session, or take one of the appliances out of without.",
    }
}

#[cfg(test)]
mod tests;
