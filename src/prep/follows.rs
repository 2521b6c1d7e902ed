//! Which steps of a recipe come after which, by way of any others.

use crate::kitchen::{After, Recipe};

/// Of each step those that come before it, in the session: known once, however often it is asked.
pub(super) struct Follows(Vec<Vec<bool>>);

impl Follows {
    pub fn of(recipe: &Recipe) -> Follows {
        let count = recipe.steps.len();
        let mut known: Vec<Option<Vec<bool>>> = vec![None; count];
        for step in 0..count {
            let mut open = vec![step];
            while let Some(&top) = open.last() {
                let before = steps_before(recipe, top);
                if let Some(&first) = before.iter().find(|other| known[**other].is_none() && !open.contains(other)) {
                    open.push(first);
                    continue;
                }
                let mut all = vec![false; count];
                for other in before {
                    all[other] = true;
                    let further = known[other].iter().flatten().enumerate().filter(|(_, is_before)| **is_before);
                    further.for_each(|(place, _)| all[place] = true);
                }
                known[top] = Some(all);
                open.pop();
            }
        }
        Follows(known.into_iter().map(Option::unwrap_or_default).collect())
    }

    /// Does `later` come after `earlier`, by way of any other steps?
    pub fn comes_after(&self, later: usize, earlier: usize) -> bool {
        self.0[later].get(earlier).copied().unwrap_or(false)
    }
}

/// The steps of the same recipe, in the session, that a step comes right after.
pub(super) fn steps_before(recipe: &Recipe, step: usize) -> Vec<usize> {
    directly_before(recipe, step).into_iter().filter(|s| recipe.steps.get(*s).is_some_and(|step| step.ahead.is_none())).collect()
}

/// The steps of its own recipe that a step comes directly after, done ahead or not.
pub(super) fn directly_before(recipe: &Recipe, step: usize) -> Vec<usize> {
    match &recipe.steps[step].after {
        None => step.checked_sub(1).into_iter().collect(),
        Some(list) => list.iter().filter_map(|after| if let After::Step(s) = after { Some(*s) } else { None }).collect(),
    }
}
