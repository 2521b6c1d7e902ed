//! What a session sets ready before anything is fetched, and how much of it is each person's work.

use std::collections::BTreeSet;

use itertools::Itertools;

use super::advised::Job;
use super::{Advice, Boxes, Doing, PersonId, SessionPlan, Stood, Task};
use crate::foods::Place;
use crate::kitchen::{ApplianceId, ApplianceKind, Names, RecipeId};
use crate::words::{self, duration};
use crate::words::{clock_after, in_a_sentence};

/// What is set ready before the first step.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct GetOut {
    /// Boxes and jars, each kind once.
    pub boxes: Vec<Boxes>,
    /// Dishes that are kept, of which nobody said in what, and how many boxes of each are filled.
    pub unboxed: Vec<(RecipeId, usize)>,
    /// Appliances in the order in which they are needed, with the most loads that are on them at once.
    pub on: Vec<(ApplianceId, u32)>,
}

/// One person's share of a session.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hands {
    pub person: PersonId,
    pub minutes: i64,
    /// From minute to minute, where they have nothing to do for longer than [`REST`].
    pub free: Vec<(i64, i64)>,
}

/// A pause that is worth telling, in minutes.
pub(super) const REST: i64 = 10;

impl SessionPlan {
    /// For one person, only what their tasks need.
    pub fn get_out(&self, whose: Option<PersonId>) -> GetOut {
        let theirs = |task: &&Task| whose.is_none_or(|whose| task.person == Some(whose));
        let tasks: Vec<&Task> = self.tasks.iter().filter(theirs).collect();
        let boxed: Vec<RecipeId> = tasks.iter().filter(|task| task.is_box()).filter_map(|task| task.recipe()).collect();
        let no_task = |recipe: RecipeId| !self.tasks.iter().any(|task| task.is_box() && task.recipe() == Some(recipe));
        let mut out = GetOut::default();
        for note in self.boxes.iter().filter(|note| boxed.contains(&note.recipe) || whose.is_none() && no_task(note.recipe)) {
            match &note.boxes {
                None if out.unboxed.iter().any(|(known, _)| *known == note.recipe) => {}
                None => out.unboxed.push((note.recipe, self.apart(note.recipe))),
                Some(more) => match out.boxes.iter_mut().find(|known| known.kind == more.kind) {
                    Some(known) => known.count += more.count,
                    None => out.boxes.push(more.clone()),
                },
            }
        }
        let needed = tasks.iter().filter(|task| !task.is_set()).flat_map(|task| &task.on).unique();
        out.on = needed.map(|id| (*id, self.at_once(*id, whose))).filter(|(_, most)| *most > 0).collect();
        out
    }

    /// What has one place, one date and one eater goes into one box.
    fn apart(&self, recipe: RecipeId) -> usize {
        let mine = self.boxes.iter().filter(|note| note.recipe == recipe && note.boxes.is_none());
        mine.map(|note| (note.place, note.use_by, &note.eater, &note.without)).collect::<BTreeSet<_>>().len()
    }

    /// The most vessels of an appliance that are full at any time: what has left the heat stays in its pot until the next step takes it up.
    /// Between two rounds of a step the pot is emptied and rinsed for the next. What is on already is out already.
    /// Of one person only their own loads: each gets out the trays for what they put in.
    fn at_once(&self, id: ApplianceId, whose: Option<PersonId>) -> u32 {
        let next = |index: usize| self.tasks.iter().filter(move |task| task.after.contains(&index)).map(|task| task.start_minute).min();
        // What bakes at a temperature stays on its tray.
        let last_round = |task: &Task| task.at.is_some() || task.step().is_none_or(|step| step.round + 1 >= step.rounds);
        let stays = |index: usize, task: &Task| next(index).filter(|_| last_round(task)).unwrap_or(0).max(task.end_minute);
        let on = self.tasks.iter().enumerate().filter(|(_, task)| {
            let theirs = task.at.is_none() || whose.is_none_or(|whose| task.person == Some(whose));
            !task.is_set() && task.on.contains(&id) && theirs
        });
        let full: Vec<(i64, i64, u32)> = on.map(|(index, task)| (task.start_minute, stays(index, task), task.takes.unwrap_or(1))).collect();
        let taken = |minute: i64| full.iter().filter(|(from, until, _)| *from <= minute && minute < *until).map(|one| one.2).sum::<u32>();
        let most = full.iter().map(|(from, ..)| taken(*from)).max().unwrap_or(0);
        let out = self.tasks.iter().enumerate().filter(|(place, task)| self.runs(*place) && task.on.contains(&id));
        most.saturating_sub(out.map(|(_, task)| task.takes.unwrap_or(1)).sum())
    }

    /// Whether the task is under way already.
    pub fn runs(&self, task: usize) -> bool {
        self.rest.as_ref().is_some_and(|rest| rest.runs.get(task) == Some(&true))
    }

    /// Whether what is on an appliance stays there for its next step, which begins as this one ends.
    pub fn stays_on(&self, task: usize) -> bool {
        let here = &self.tasks[task];
        let goes_on = |next: &Task| {
            next.after.contains(&task) && next.recipe() == here.recipe() && next.on == here.on && next.start_minute == here.end_minute
        };
        here.step().is_some() && !here.on.is_empty() && self.tasks.iter().any(goes_on)
    }

    /// The minute from which on there is something to do: later than 0 where the session is under way.
    pub fn begins(&self) -> i64 {
        self.rest.as_ref().map_or(0, |rest| rest.from)
    }

    /// Everybody who has something to do, with their minutes of work and their pauses.
    pub fn hands(&self) -> Vec<Hands> {
        (0..self.people.len()).map(|index| self.hands_of(PersonId(index))).filter(|hands| hands.minutes > 0).collect()
    }

    /// Everybody who has something to do, if only to take something out.
    pub fn busy(&self) -> impl Iterator<Item = &crate::kitchen::Person> {
        let has_work = |index: &usize| !self.work_of(PersonId(*index)).is_empty();
        (0..self.people.len()).filter(has_work).map(|index| &self.people[index])
    }

    fn hands_of(&self, person: PersonId) -> Hands {
        let work: Vec<(i64, i64)> = self.work_of(person).into_iter().map(|(from, until, _)| (from, until)).collect();
        let known = &self.people[person.0];
        let minute = |at: Option<jiff::civil::DateTime>| at.map(|at| at.duration_since(self.start).as_secs().div_euclid(60));
        let there = (minute(known.from).unwrap_or(0).max(self.begins()), minute(known.until).unwrap_or(self.minutes).min(self.minutes));
        let ends = std::iter::once(there.0).chain(work.iter().map(|(_, until)| *until));
        let starts = work.iter().map(|(from, _)| *from).chain([there.1]);
        let free = ends.zip(starts).filter(|(from, until)| until - from > REST).collect();
        Hands { person, minutes: work.iter().map(|(from, until)| until - from).sum(), free }
    }

    /// What one person's hands do, by the clock: from, until, and the place in `tasks`.
    pub(super) fn work_of(&self, person: PersonId) -> Vec<(i64, i64, usize)> {
        let mut work = Vec::new();
        for (index, task) in self.tasks.iter().enumerate() {
            if task.person == Some(person) && task.hands_minutes > 0 && !self.runs(index) {
                work.push((task.start_minute, task.start_minute + task.hands_minutes, index));
            }
            if task.out_person.or(task.person) == Some(person) && task.out_minutes > 0 {
                work.push((task.out_minute(), task.end_minute, index));
            }
        }
        work.sort_unstable();
        work
    }
}

impl GetOut {
    /// "5 deep tubs", "a box for flatbreads", "3 boxes for mash", "2 trays or dishes for the oven", "3 pots or pans", "the pressure cooker".
    pub fn words(&self, names: Names) -> Vec<String> {
        let boxes = self.boxes.iter().map(ToString::to_string);
        let unboxed = self.unboxed.iter().map(|(id, count)| {
            let boxes = if *count == 1 { "a box".to_owned() } else { format!("{count} boxes") };
            format!("{boxes} for {}", in_a_sentence(names.recipe(*id)))
        });
        boxes.chain(unboxed).chain(self.on.iter().filter_map(|(id, most)| vessels(names, *id, *most))).collect()
    }
}

/// What is put on or into an appliance; nothing for what cools.
fn vessels(names: Names, id: ApplianceId, most: u32) -> Option<String> {
    let name = names.appliance(id);
    let cools = ["fridge", "freezer", "cellar", "larder", "sink"].iter().any(|word| name.to_lowercase().contains(word));
    let many = |one: &str, more: &str| format!("{most} {} for the {name}", if most == 1 { one } else { more });
    match names.appliance_kind(id) {
        Some(ApplianceKind::Oven | ApplianceKind::Grill) => Some(many("tray or dish", "trays or dishes")),
        Some(ApplianceKind::Hob) => Some(many("pot or pan", "pots or pans")),
        _ if cools => None,
        _ => Some(format!("the {name}")),
    }
}

impl Hands {
    /// "cook: 1 h 44 min hands-on, free 15:56 to 16:20".
    pub fn text(&self, session: &SessionPlan) -> String {
        let at = |minute: i64| clock_after(session.start, minute);
        let free: Vec<String> = self.free.iter().map(|(from, until)| format!("{} to {}", at(*from), at(*until))).collect();
        let free = if free.is_empty() { String::new() } else { format!(", free {}", words::listed(&free)) };
        format!("{}: {} hands-on{free}", session.person(self.person).name, duration(self.minutes))
    }
}

impl SessionPlan {
    /// "a tenth slower: 16:41; a fifth slower: 16:52; nothing breaks".
    pub fn slower_text(&self, names: Names) -> Option<String> {
        let worst = self.slower.iter().max_by_key(|slowed| slowed.percent).filter(|_| !self.tasks.is_empty())?;
        let by = match worst.percent {
            10 => "a tenth".to_owned(),
            20 => "a fifth".to_owned(),
            percent => format!("{percent} %"),
        };
        let late = if worst.late > 0 { format!(", {} late", duration(worst.late)) } else { String::new() };
        // What is served hot ends with its meal, which the finish does not tell.
        let then = match (self.served.is_empty(), self.minutes) {
            (true, _) => format!("{}{late}; ", words::clock(worst.finish)),
            (false, 0) => String::new(),
            (false, _) => format!("the rest {}{late}; ", words::clock(worst.finish)),
        };
        let meal = words::listed(&self.served.iter().map(|at| words::clock(*at)).collect::<Vec<_>>());
        let breaks: Vec<String> = worst.breaks.iter().map(|advice| advice.text(names).trim_end_matches('.').to_owned()).collect();
        let breaks = match (breaks.is_empty(), meal.is_empty()) {
            (false, _) => breaks.join("; "),
            (true, true) => "nothing breaks".to_owned(),
            (true, false) => format!("served at {meal} all the same; nothing breaks"),
        };
        Some(format!("{by} slower: {then}{breaks}"))
    }
}

impl Advice {
    /// Whether it is about what one person of the session does or stays for.
    pub fn touches(&self, session: &SessionPlan, whose: PersonId) -> bool {
        let does = |job: &Job| {
            let theirs = session.tasks.iter().filter(|task| task.person == Some(whose) || task.out_person == Some(whose));
            theirs.into_iter().any(|task| match job {
                Job::Step { recipe, step, .. } => task.step().is_some_and(|one| one.recipe == *recipe && one.step == *step),
                Job::Boxing(recipe) => task.is_box() && task.recipe() == Some(*recipe),
                Job::WashUp => matches!(task.what, Doing::WashUp),
            })
        };
        match self {
            Advice::Stays { person, .. } => session.people.get(whose.0).is_some_and(|one| one.name == *person),
            Advice::Nobody { step } | Advice::Room { step, .. } | Advice::Absent { step } | Advice::Unfit { step, .. } => does(step),
            Advice::NotSafe { job, before, .. }
            | Advice::StoodTooLong { job, before, .. }
            | Advice::TooLate { job, before, .. }
            | Advice::TooSoon { job, before, .. } => does(job) || does(before),
            Advice::Served { job, .. } => does(job),
            Advice::Anew { .. } | Advice::AllDone => true,
            _ => false,
        }
    }
}

impl Task {
    /// ", 4 min, then 45 min on its own": the minutes of hands, and what then runs by itself.
    pub fn timing(&self) -> String {
        let wait = self.out_minute() - self.start_minute - self.hands_minutes;
        let alone = |words: &str| if wait > 0 { format!(", {words}{} on its own", duration(wait)) } else { String::new() };
        if self.hands_minutes > 0 { format!(", {}{}", duration(self.hands_minutes), alone("then ")) } else { alone("") }
    }

    /// The minute by which what is boxed must be in its cold place: two hours after it left the heat, or the end of boxing of what
    /// was cold, and of what is boxed too late: no time is told that is past when the boxing begins.
    pub fn cold_by(&self) -> Option<i64> {
        let boxing = self.boxing()?;
        let chilled = boxing.into.iter().any(|kept| kept.place != Place::Cupboard);
        (chilled && boxing.stood.is_none()).then(|| boxing.by.filter(|by| *by >= self.start_minute).unwrap_or(self.end_minute))
    }

    /// Where a boxing's cold part goes: the fridge where any of it does.
    pub fn cold_place(&self) -> Place {
        let Some(boxing) = self.boxing() else { return Place::Fridge };
        if boxing.into.iter().any(|kept| kept.place == Place::Fridge) { Place::Fridge } else { Place::Freezer }
    }

    /// Of a boxing: how long what was to be boxed has stood, where that is too long.
    pub fn stood(&self) -> Option<Stood> {
        self.boxing().and_then(|boxing| boxing.stood)
    }

    /// What it handles first, with its share of what the session takes of each.
    pub fn uses(&self) -> &[(crate::kitchen::Ware, f64)] {
        if let Doing::Step(step) = &self.what { &step.uses } else { &[] }
    }
}

#[cfg(test)]
mod tests;
