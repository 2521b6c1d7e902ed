//! What a household should know about a session's plan: rules that clash, steps nobody may do, a finish that comes too late.
use super::remedies::{binding, remedies};
use super::tasks::{Origin, Part, Unfit, Work};
use super::{Impossible, Problem, Schedule};
use crate::kitchen::{Kitchen, Session, Week};
use crate::plan::Makings;
use crate::words::{duration, in_a_sentence, listed, sentence};

/// Sentences about session `index`, the gravest first. `replan` answers a changed problem with its finish in minutes.
pub(super) fn advice(
    (kitchen, week, makings): (&Kitchen, &Week, &Makings),
    index: usize,
    work: &Work,
    schedule: &Schedule,
    replan: impl Fn(&Problem) -> i64,
) -> Vec<String> {
    let session = &week.sessions[index];
    let teller = Teller { kitchen, makings, work };
    let mut said = teller.impossible(schedule);
    said.extend(teller.overruns(schedule));
    said.extend(teller.clash(schedule));
    said.extend(teller.unfit());
    if let Some(late) = late(session, schedule.finish) {
        said.push(late);
        said.extend(binding(kitchen, &teller));
        said.extend(remedies((kitchen, week, makings), index, work, schedule.finish, replan));
    }
    said
}

/// "Ends at 18:10, 40 min after 17:30."
fn late(session: &Session, finish: i64) -> Option<String> {
    let over = minutes_over(session, finish).filter(|over| *over > 0)?;
    let by = session.finish_by?;
    let end = by.checked_add(jiff::Span::new().try_minutes(over).ok()?).ok()?;
    Some(format!("This session ends at {}, {} after {}.", end.strftime("%H:%M"), duration(over), by.strftime("%H:%M")))
}

/// Minutes past `finish_by`; negative where there is time to spare.
pub(super) fn minutes_over(session: &Session, finish: i64) -> Option<i64> {
    session.finish_by.map(|by| finish - by.duration_since(session.start).as_secs().div_euclid(60))
}

/// Tells of links and jobs by their recipes and steps.
pub(super) struct Teller<'a> {
    pub kitchen: &'a Kitchen,
    pub makings: &'a Makings,
    pub work: &'a Work,
}

impl Teller<'_> {
    pub fn recipe_name(&self, making: usize) -> String {
        self.kitchen.recipes[self.makings.makings[making].recipe.0].name.clone()
    }

    /// "White-bean mash, step 3", "White-bean mash, step 3, round 2", "boxing White-bean mash".
    pub fn job(&self, job: usize) -> String {
        let Origin { making, part } = self.work.origins[job];
        match part {
            Part::Box => format!("boxing of {}", in_a_sentence(&self.recipe_name(making))),
            Part::Step { step, rounds: 1, .. } => format!("{}, step {}", self.recipe_name(making), step + 1),
            Part::Step { step, round, .. } => format!("{}, step {}, round {}", self.recipe_name(making), step + 1, round + 1),
        }
    }

    /// "Roast beetroot, step 2 within 30 min of step 1".
    fn rule(&self, link: usize) -> String {
        let link = &self.work.problem.links[link];
        let limit = duration(link.within.unwrap_or(link.gap));
        let word = if link.within.is_some() { format!("within {limit} of") } else { "after".to_owned() };
        format!("{} {word} {}", self.job(link.after), self.job(link.before))
    }

    fn overruns(&self, schedule: &Schedule) -> Vec<String> {
        let say = |(link, over): &(usize, i64)| {
            let asked = &self.work.problem.links[*link];
            let limit = duration(asked.within.unwrap_or(asked.gap));
            let (after, before) = (self.job(asked.after), self.job(asked.before));
            format!("No plan keeps every rule: {after} starts {} too late (within {limit} of {before}).", duration(*over))
        };
        self.worst(schedule.overrun.iter().copied()).iter().map(say).collect()
    }

    /// Of the limits that one job overruns, the one it overruns most.
    fn worst(&self, overruns: impl Iterator<Item = (usize, i64)>) -> Vec<(usize, i64)> {
        let mut worst: Vec<(usize, i64)> = Vec::new();
        for (link, over) in overruns {
            let late = self.work.problem.links[link].after;
            match worst.iter_mut().find(|(other, _)| self.work.problem.links[*other].after == late) {
                Some(known) if known.1 < over => *known = (link, over),
                Some(_) => {}
                None => worst.push((link, over)),
            }
        }
        worst
    }

    fn clash(&self, schedule: &Schedule) -> Option<String> {
        let mut rules: Vec<String> = schedule.clash.iter().map(|link| self.rule(*link)).collect();
        if schedule.clash_with_hours {
            rules.push("the hours at which people are there".to_owned());
        }
        match rules.as_slice() {
            [] => None,
            [rule] => Some(format!("This rule cannot be kept, given the times of the steps: {rule}.")),
            _ => Some(format!("These rules cannot all be kept together: {}.", rules.join("; "))),
        }
    }

    /// One sentence a role or skill that nobody has.
    fn unfit(&self) -> Vec<String> {
        let say = |unfit: &Unfit| {
            let step = &self.kitchen.recipes[self.makings.makings[unfit.making].recipe.0].steps[unfit.step];
            let who = step.who.as_ref().map(|who| format!("the role \"{who}\""));
            let skill = step.skill.as_ref().map(|skill| format!("the skill \"{skill}\""));
            let asked: Vec<String> = who.into_iter().chain(skill).collect();
            let name = self.recipe_name(unfit.making);
            format!("{name}, step {}: nobody in this session has {}; it is planned for anybody.", unfit.step + 1, listed(&asked))
        };
        self.work.unfit.iter().map(say).collect()
    }

    fn impossible(&self, schedule: &Schedule) -> Vec<String> {
        let safety = |broken: &Impossible| if let Impossible::Safety { link, minutes } = broken { Some((*link, *minutes)) } else { None };
        let worst = self.worst(schedule.impossible.iter().filter_map(safety));
        let told = schedule.impossible.iter().filter(|broken| safety(broken).is_none_or(|one| worst.contains(&one)));
        let mut said: Vec<String> = Vec::new();
        for sentence in told.map(|broken| self.broken(schedule, broken)) {
            if !said.contains(&sentence) {
                said.push(sentence);
            }
        }
        said
    }

    /// As [`Teller::job`], all rounds of a step alike.
    fn step(&self, job: usize) -> String {
        match self.work.origins[job] {
            Origin { making, part: Part::Step { step, .. } } => format!("{}, step {}", self.recipe_name(making), step + 1),
            _ => self.job(job),
        }
    }

    fn broken(&self, schedule: &Schedule, broken: &Impossible) -> String {
        let appliance = |machine: usize| self.kitchen.appliances[machine].name.as_str();
        match broken {
            Impossible::Nobody { job } => format!("{}: nobody may do it.", self.step(*job)),
            Impossible::Room { job, machine } => format!("{}: takes more room than the {} has.", self.step(*job), appliance(*machine)),
            Impossible::Absent { job } => {
                format!(
                    "{}: does not fit between the hours of the people in this session; somebody must be found for it.",
                    sentence(&self.step(*job))
                )
            }
            Impossible::Unwatched { setting } => {
                let name = schedule.settings.get(*setting).map_or("appliance", |setting| appliance(setting.machine));
                format!("The {name} warms up while nobody is there: do not leave it alone.")
            }
            Impossible::Safety { link, minutes } => {
                let link = &self.work.problem.links[*link];
                let limit = duration(link.within.unwrap_or(0));
                let (after, before) = (self.job(link.after), self.job(link.before));
                let after_all = duration(link.within.unwrap_or(0) + minutes);
                format!(
                    "Not safe as planned: {after} starts {after_all} after the end of {before}, and {limit} is the most. Chill each load by itself as it leaves the heat, or do not keep it."
                )
            }
            Impossible::Circle { link } => format!("Steps wait for one another in a circle; this rule is left out: {}.", self.rule(*link)),
        }
    }
}

#[cfg(test)]
mod tests;
