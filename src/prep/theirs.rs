//! Theirs first: what an allergic eater is served is prepared before the step that brings what they are allergic to.
//!
//! An order that the links already forbid is not asked for, nor one of what is served straight from the pot at its meal: there the step
//! says that other tools are used. FDA and FSA, cross-contact: see the cautions.

use super::names::handled;
use super::tasks::{Part, Work};
use super::{Care, Link, LinkWhy, Note, Schedule, Task};
use crate::kitchen::{Kitchen, Recipe, Ware, Week};
use crate::plan::{CrossContact, Making, Makings, cross_contacts, goes_into};

/// A job that brings what an eater is allergic to.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Brings {
    pub job: usize,
    pub eater: String,
    pub words: Vec<String>,
    /// The jobs on what the eater is served.
    pub theirs: Vec<usize>,
}

/// Adds a link for every order that can be kept, and remembers where each is asked for.
pub(super) fn put_theirs_first(kitchen: &Kitchen, week: &Week, makings: &Makings, work: &mut Work) {
    let made: Vec<&Making> = work.chosen.iter().map(|index| &makings.makings[*index]).collect();
    for contact in cross_contacts(kitchen, week, &made) {
        let theirs = jobs_of(makings, work, &contact);
        let bring: Vec<usize> = (0..work.origins.len()).filter(|job| brings(&kitchen.recipes, makings, work, *job, &contact)).collect();
        for job in bring {
            let beside = |other: &usize| work.origins[*other].making != work.origins[job].making;
            let theirs: Vec<usize> = theirs.iter().copied().filter(beside).collect();
            for before in &theirs {
                if can_come_first(work, *before, job) {
                    work.problem.links.push(Link { before: *before, after: job, gap: 0, within: None, why: LinkWhy::Order });
                }
            }
            work.brings.push(Brings { job, eater: contact.eater.clone(), words: contact.words.clone(), theirs });
        }
    }
}

/// What is told at a step that brings it: whether all that is theirs has been prepared by then.
pub(super) fn told_at(work: &Work, schedule: &Schedule, job: usize) -> Vec<Note> {
    let prepared = |other: &usize| schedule.placed[*other].start + work.problem.jobs[*other].hands <= schedule.placed[job].start;
    let note = |brings: &Brings| {
        let (eater, words) = (brings.eater.clone(), brings.words.clone());
        if brings.theirs.iter().all(prepared) { Note::CleanAfter { eater, words } } else { Note::OtherTools { eater, words } }
    };
    work.brings.iter().filter(|brings| brings.job == job).map(note).collect()
}

/// Whose food cannot all be made first, by the steps that say so: then the caution does not ask for it.
pub(super) fn tell_who_is_not_first(cautions: &mut [Care], tasks: &[(Task, Option<usize>)]) {
    let not_first = |who: &str| {
        let mut notes = tasks.iter().flat_map(|(task, _)| &task.notes);
        notes.any(|note| matches!(note, Note::OtherTools { eater, .. } if eater == who))
    };
    for caution in cautions {
        if let Care::CrossContact(contact) = caution {
            contact.first = !not_first(&contact.eater);
        }
    }
}

/// The hands-on steps of what the eater is served, and the portions that are set aside for them.
fn jobs_of(makings: &Makings, work: &Work, contact: &CrossContact) -> Vec<usize> {
    let is_theirs = |job: &usize| {
        let origin = work.origins[*job];
        let Some(making) = makings.makings.get(origin.making) else { return false };
        match origin.part {
            Part::Aside { of, .. } => making.apart[of].who == contact.eater,
            Part::Step { .. } => {
                let safe = contact.theirs.contains(&making.recipe) && !contact.others.contains(&making.recipe);
                safe && work.problem.jobs[*job].hands > 0
            }
            Part::Box | Part::WashUp | Part::Ahead { .. } | Part::Hot => false,
        }
    };
    (0..work.origins.len()).filter(is_theirs).collect()
}

/// Does the job handle it, itself or inside a component?
fn brings(recipes: &[Recipe], makings: &Makings, work: &Work, job: usize, contact: &CrossContact) -> bool {
    let origin = work.origins[job];
    let (Some(making), Part::Step { step, .. }) = (makings.makings.get(origin.making), origin.part) else { return false };
    let recipe = &recipes[making.recipe];
    let bears = |ware: Ware| match ware {
        Ware::Food(food) => contact.foods.contains(&food) && !making.is_without(ware),
        Ware::Recipe(part) => contact.foods.iter().any(|food| goes_into(recipes, part, Ware::Food(*food))),
    };
    handled(recipe, step).into_iter().filter_map(|index| recipe.ingredients.get(index)).any(|line| bears(line.ware()))
}

/// Whether one can end before the other begins: no chain of links forbids it, it does not wait for its meal, and no wait that takes no
/// board, knife or pan of the other holds it up.
fn can_come_first(work: &Work, before: usize, after: usize) -> bool {
    let jobs = &work.problem.jobs;
    let shares = jobs[before].machines.iter().any(|(one, _)| jobs[after].machines.iter().any(|(other, _)| one == other));
    let waits_for_its_meal = work.served.iter().any(|served| served.last == before || served.others.contains(&before));
    !waits_for_its_meal && (jobs[before].wait == 0 || shares) && !leads_to(work, after, before)
}

/// Do the links, and the order of rounds, bring `to` after `from`?
fn leads_to(work: &Work, from: usize, to: usize) -> bool {
    let asked = work.asked();
    let mut seen = vec![false; asked.jobs.len()];
    let mut open = vec![from];
    while let Some(job) = open.pop() {
        if job == to {
            return true;
        }
        if !std::mem::replace(&mut seen[job], true) {
            open.extend(asked.links.iter().filter(|link| link.before == job).map(|link| link.after));
        }
    }
    false
}
