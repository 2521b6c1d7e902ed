//! What is to be there before cooking begins: appliances, and boxes by number and name.

use itertools::Itertools;

use super::HandoutSession;
use crate::kitchen::{ApplianceId, Elsewhere, Kitchen, Recipe, RecipeId};
use crate::plan::Makings;
use crate::prep::Boxes;

#[derive(Debug, Clone, PartialEq)]
pub struct Ready {
    pub needed: Vec<Needed>,
    /// Of all sessions, each kind once.
    pub boxes: Vec<Boxes>,
}

/// An appliance that the week uses.
#[derive(Debug, Clone, PartialEq)]
pub struct Needed {
    pub appliance: ApplianceId,
    /// Its places that are taken at one time, at most: trays, rings.
    pub most: u32,
    /// The dishes that cannot be made without it.
    pub dishes: Vec<RecipeId>,
    /// Those whose steps on it say where else they can stand.
    pub elsewhere: Vec<(RecipeId, Vec<Elsewhere>)>,
}

pub(super) fn ready(kitchen: &Kitchen, makings: &Makings, sessions: &[HandoutSession]) -> Ready {
    let needed = (0..kitchen.appliances.len()).map(ApplianceId).filter_map(|id| needed(&kitchen.recipes, makings, sessions, id)).collect();
    let mut boxes: Vec<Boxes> = Vec::new();
    for one in sessions.iter().flat_map(|session| &session.plans[0].boxes).filter_map(|note| note.boxes.as_ref()) {
        match boxes.iter_mut().find(|known| known.kind == one.kind) {
            Some(known) => known.count += one.count,
            None => boxes.push(one.clone()),
        }
    }
    Ready { needed, boxes }
}

fn needed(recipes: &[Recipe], makings: &Makings, sessions: &[HandoutSession], id: ApplianceId) -> Option<Needed> {
    let steps = |recipe: RecipeId| recipes[recipe].steps.iter().filter(|step| step.on.contains(&id));
    let uses = |recipe: &RecipeId| steps(*recipe).next().is_some();
    let made: Vec<RecipeId> = makings.makings.iter().map(|making| making.recipe).filter(uses).unique().collect();
    let other = |recipe: &RecipeId| steps(*recipe).map(|step| step.elsewhere.filter(|other| other.on != id)).collect::<Option<Vec<_>>>();
    let elsewhere: Vec<_> = made.iter().filter_map(|recipe| Some((*recipe, other(recipe)?))).collect();
    let dishes: Vec<RecipeId> = made.iter().copied().filter(|recipe| other(recipe).is_none()).collect();
    let most = sessions.iter().flat_map(|session| &session.plans).map(|plan| {
        let tasks: Vec<_> = plan.tasks.iter().filter(|task| task.on.contains(&id) && !task.is_set()).collect();
        let at = |minute: i64| {
            tasks
                .iter()
                .filter(|task| task.start_minute <= minute && minute < task.end_minute)
                .map(|task| task.takes.unwrap_or(1))
                .sum::<u32>()
        };
        tasks.iter().map(|task| at(task.start_minute)).max().unwrap_or(0)
    });
    (!made.is_empty()).then(|| Needed { appliance: id, most: most.max().unwrap_or(0).max(1), dishes, elsewhere })
}
