//! What a household should know about a session's plan: rules that clash, steps nobody may do, a finish that comes too late.

use super::names::in_a_sentence;
use super::remedies::{binding, remedies};
use super::tasks::{Origin, Part, Unfit, Work};
use super::text::listed;
use super::{Impossible, Problem, Schedule};
use crate::kitchen::{Kitchen, Session, Week};
use crate::plan::Makings;

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

/// "45 min", "1 h 10 min", "2 h".
pub(super) fn duration(minutes: i64) -> String {
    match (minutes / 60, minutes % 60) {
        (0, rest) => format!("{rest} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, rest) => format!("{hours} h {rest} min"),
    }
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

    /// "White-bean mash, step 3", "White-bean mash, step 3, load 2", "boxing White-bean mash".
    pub fn job(&self, job: usize) -> String {
        let Origin { making, part } = self.work.origins[job];
        match part {
            Part::Box => format!("boxing of {}", in_a_sentence(&self.recipe_name(making))),
            Part::Step { step, rounds: 1, .. } => format!("{}, step {}", self.recipe_name(making), step + 1),
            Part::Step { step, round, .. } => format!("{}, step {}, load {}", self.recipe_name(making), step + 1, round + 1),
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
        schedule.overrun.iter().map(say).collect()
    }

    fn clash(&self, schedule: &Schedule) -> Option<String> {
        let rules: Vec<String> =
            schedule.clash.iter().filter(|link| **link < self.work.problem.links.len()).map(|link| self.rule(*link)).collect();
        (!rules.is_empty()).then(|| format!("These rules cannot all be kept together: {}.", rules.join("; ")))
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
        schedule.impossible.iter().map(|broken| self.broken(schedule, broken)).collect()
    }

    fn broken(&self, schedule: &Schedule, broken: &Impossible) -> String {
        let appliance = |machine: usize| self.kitchen.appliances[machine].name.as_str();
        match broken {
            Impossible::Nobody { job } => format!("{}: nobody may do it.", self.job(*job)),
            Impossible::Room { job, machine } => format!("{}: takes more room than the {} has.", self.job(*job), appliance(*machine)),
            Impossible::Absent { job } => {
                format!("{}: does not fit between the hours of the people in this session; somebody must be found for it.", self.job(*job))
            }
            Impossible::Unwatched { setting } => {
                let name = schedule.settings.get(*setting).map_or("appliance", |setting| appliance(setting.machine));
                format!("The {name} warms up while nobody is there: do not leave it alone.")
            }
            Impossible::Safety { link, minutes } => {
                let link = &self.work.problem.links[*link];
                let limit = duration(link.within.unwrap_or(0));
                let (after, before) = (self.job(link.after), self.job(link.before));
                format!(
                    "Not safe as planned: {after} starts {} later than {limit} after {before}. Chill it in time, or do not keep it.",
                    duration(*minutes)
                )
            }
            Impossible::Circle { link } => format!("Steps wait for one another in a circle; this rule is left out: {}.", self.rule(*link)),
        }
    }
}

#[cfg(test)]
mod tests;
