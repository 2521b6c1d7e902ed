//! What a household should know about a session's plan: rules that clash, steps nobody may do, a finish that comes too late.

use itertools::Itertools;
use jiff::Span;
use jiff::civil::DateTime;

use super::advised::{Advice, Job, Rule};
use super::clock::stood;
use super::remedies::{binding, remedies};
use super::tasks::{Origin, Part, Unfit, Work};
use super::under_way::UnderWay;
use super::{Aim, Impossible, Limit, Problem, Schedule};
use crate::kitchen::{ApplianceId, Kitchen, Person, RecipeId, Session, Week};
use crate::plan::Makings;

mod say;

pub use say::what_to_do_with_it;

/// What there is to know about session `index`, the gravest first, as far as it is done. `replan` answers a changed problem with its finish in minutes.
pub(super) fn advice(
    (kitchen, week, makings): (&Kitchen, &Week, &Makings),
    (index, under_way): (usize, Option<&UnderWay>),
    work: &Work,
    schedule: &Schedule,
    replan: impl Fn(&Problem) -> i64,
) -> Vec<Advice> {
    let session = &week.sessions[index];
    let teller = Teller { kitchen, makings, work };
    let anew = Some(work.problem.now).filter(|now| *now > 0).and_then(|now| Span::new().try_minutes(now).ok());
    let anew = anew.map(|now| Advice::Anew { from: session.start.saturating_add(now) });
    let mut said: Vec<Advice> = anew.into_iter().chain(teller.impossible(schedule)).collect();
    said.extend(teller.stays(schedule, session.start));
    said.extend(teller.overruns(schedule));
    said.extend(teller.hurries(schedule));
    said.extend(teller.unheld(session.start, |job| schedule.placed[job].start + work.problem.jobs[job].minutes()));
    let comes = teller.waits_for(schedule);
    said.extend(late_meal(&said, session.start, comes, work));
    said.extend(teller.clash(schedule, session.start, comes.is_some()));
    said.extend(teller.unfit());
    said.extend(not_calm(session, work, schedule.finish));
    if let Some(late) = late(session, schedule.finish) {
        said.push(late);
        said.extend(teller.ends(schedule));
        said.extend(binding(&kitchen.appliances, &teller).map(Advice::Binds));
        said.extend(remedies((kitchen, week, makings), (index, under_way), work, schedule.finish, replan));
    }
    said
}

/// What would help where something is served late: by the dish that is latest.
fn late_meal(said: &[Advice], start: DateTime, comes: Option<usize>, work: &Work) -> Option<Advice> {
    let over = |one: &Advice| {
        if let Advice::Served { done, meal, .. } = one { Some(done.duration_since(*meal).as_secs().div_euclid(60)) } else { None }
    };
    let over = said.iter().filter_map(over).max().filter(|over| *over > 0)?;
    let comes = comes.map(|person| (work.people[person].name.clone(), at_minute(start, work.problem.people[person].from - over)));
    let sooner = (work.problem.now == 0).then(|| at_minute(start, -over));
    Some(Advice::LateMeal { over, sooner, comes, dishes: work.chosen.len() })
}

/// The start itself where the clock runs out of years.
fn at_minute(start: DateTime, minutes: i64) -> DateTime {
    Span::new().try_minutes(minutes).and_then(|span| start.checked_add(span)).unwrap_or(start)
}

/// A session in time, but with less of its end free than `calm` keeps.
fn not_calm(session: &Session, work: &Work, finish: i64) -> Option<Advice> {
    let Aim::Calm { by: calm } = work.problem.aim else { return None };
    let (by, over) = session.finish_by.zip(minutes_over(session, finish))?;
    (finish > calm && over <= 0).then_some(Advice::NotCalm { by, wanted: finish - over - calm, free: -over })
}

fn late(session: &Session, finish: i64) -> Option<Advice> {
    let over = minutes_over(session, finish).filter(|over| *over > 0)?;
    session.finish_by.map(|by| Advice::Late { by, over })
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
    /// The job that is over last.
    fn ends(&self, schedule: &Schedule) -> Option<Advice> {
        let end = |job: &usize| schedule.placed[*job].start + self.work.problem.jobs[*job].minutes();
        // What is served later does not count to the finish.
        let counted = |job: &usize| !self.work.problem.jobs[*job].uncounted;
        let last = (0..schedule.placed.len()).filter(counted).max_by_key(end)?;
        Some(Advice::Ends { job: self.job(last) })
    }

    fn recipe(&self, making: usize) -> RecipeId {
        self.makings.makings[making].recipe
    }

    pub fn job(&self, job: usize) -> Job {
        let Origin { making, part } = self.work.origins[job];
        match part {
            Part::WashUp => Job::WashUp,
            Part::Box => Job::Boxing(self.recipe(making)),
            // No rule is about it, and its making is the first.
            Part::Hot => Job::Boxing(self.recipe(making)),
            Part::Ahead { step } => Job::Step { recipe: self.recipe(making), step, round: None },
            Part::Aside { before, .. } => Job::Step { recipe: self.recipe(making), step: before, round: None },
            Part::Step { step, round, rounds, .. } => Job::Step { recipe: self.recipe(making), step, round: (rounds > 1).then_some(round) },
        }
    }

    /// As [`Teller::job`], all rounds of a step alike.
    fn step(&self, job: usize) -> Job {
        match self.job(job) {
            Job::Step { recipe, step, .. } => Job::Step { recipe, step, round: None },
            other @ (Job::Boxing(_) | Job::WashUp) => other,
        }
    }

    /// The order that a link asks for.
    fn order(&self, link: usize) -> Rule {
        let link = &self.work.problem.links[link];
        Rule::After { after: self.job(link.after), before: self.job(link.before) }
    }

    /// `end` is the minute at which a job ends: what is done too late for its meal is told otherwise than what is done too soon.
    fn rule(&self, limit: Limit, start: DateTime, end: impl Fn(usize) -> i64) -> Rule {
        let links = &self.work.problem.links;
        let ends = |link: usize| (self.job(links[link].after), self.job(links[link].before));
        match limit {
            Limit::Safety { link } | Limit::Within { link } => {
                let (after, before) = ends(link);
                Rule::Within { after, before, minutes: links[link].within.unwrap_or_default() }
            }
            Limit::Gap { link } => {
                let (after, before) = ends(link);
                Rule::Gap { after, before, minutes: links[link].gap }
            }
            Limit::Hold { job } => {
                let serve = self.work.problem.jobs[job].serve;
                match serve.filter(|serve| end(job) > serve.at) {
                    Some(late) => Rule::Done { job: self.job(job), by: at_minute(start, late.at) },
                    None => Rule::Served { job: self.job(job), hold: serve.map_or(0, |serve| serve.hold) },
                }
            }
            Limit::Until { person } => Rule::Until { person: self.work.people[person].name.clone() },
        }
    }

    fn overruns(&self, schedule: &Schedule) -> Vec<Advice> {
        let tell = |(link, over): &(usize, i64)| {
            let asked = &self.work.problem.links[*link];
            let limit = asked.within.unwrap_or(asked.gap);
            Advice::TooLate {
                job: self.job(asked.after),
                before: self.job(asked.before),
                over: *over,
                limit,
                proven: Some(schedule.none_keeps_all),
            }
        };
        self.worst(schedule.overrun.iter().copied()).iter().map(tell).collect()
    }

    fn hurries(&self, schedule: &Schedule) -> impl Iterator<Item = Advice> {
        schedule.hurried.iter().map(|(link, few)| self.hurry(*link, *few))
    }

    fn hurry(&self, link: usize, few: i64) -> Advice {
        let asked = &self.work.problem.links[link];
        Advice::TooSoon { job: self.job(asked.after), before: self.job(asked.before), left: asked.gap - few, gap: asked.gap }
    }

    /// What is served too long after it left the heat, or before: each meal by itself. `end` is the minute at which a job ends.
    fn unheld(&self, start: DateTime, end: impl Fn(usize) -> i64) -> Vec<Advice> {
        let done = |job: usize| start.saturating_add(Span::new().try_minutes(end(job)).unwrap_or_default());
        let mut told = Vec::new();
        for served in &self.work.served {
            let hold = served.hold;
            let late = |job: &usize| served.meals.iter().find(|meal| **meal < done(*job)).map(|meal| (*job, *meal));
            told.extend(served.others.iter().filter_map(late));
            let minutes = |meal: DateTime| meal.duration_since(done(served.last)).as_secs().div_euclid(60);
            let broken = served.meals.iter().filter(|meal| !(0..=hold).contains(&minutes(**meal)));
            told.extend(broken.map(|meal| (served.last, *meal)));
        }
        for ready in &self.work.ready {
            told.extend(ready.jobs.iter().filter(|job| ready.meal < done(**job)).map(|job| (*job, ready.meal)));
        }
        let hold = |job: usize| self.work.served.iter().find(|served| served.last == job).map_or(0, |served| served.hold);
        told.into_iter().map(|(job, meal)| Advice::Served { job: self.job(job), done: done(job), meal, hold: hold(job) }).collect()
    }

    /// Whoever stays past their hours, for the least number of minutes that lets the session hold its other limits.
    fn stays(&self, schedule: &Schedule, start: DateTime) -> Vec<Advice> {
        schedule.stays.iter().map(|(person, minutes)| self.stay(*person, *minutes, start)).collect()
    }

    fn stay(&self, person: usize, minutes: i64, start: DateTime) -> Advice {
        let until = self.work.problem.people[person].until.unwrap_or_default() + minutes;
        let until = start.saturating_add(jiff::Span::new().try_minutes(until).unwrap_or_default());
        Advice::Stays { person: self.work.people[person].name.clone(), minutes, until }
    }

    /// Limits that a slower run breaks, by so many minutes in all; of those that one job overruns, the worst. `end` is the minute at which
    /// a job of that run ends.
    pub fn breaks(&self, broken: &[(Limit, i64)], start: DateTime, end: impl Fn(usize) -> i64) -> Vec<Advice> {
        let of = |which: fn(&Limit) -> Option<usize>| {
            self.worst(broken.iter().filter_map(move |(limit, minutes)| which(limit).map(|link| (link, *minutes))))
        };
        let safety = of(|limit| if let Limit::Safety { link } = limit { Some(*link) } else { None });
        let within = of(|limit| if let Limit::Within { link } = limit { Some(*link) } else { None });
        let ends = |link: usize| {
            let asked = &self.work.problem.links[link];
            (self.job(asked.after), self.job(asked.before), asked.within.unwrap_or(asked.gap))
        };
        let tell = |(limit, minutes): &(Limit, i64)| match limit {
            // What has stood too long by now is told of the plan; slower hands make it no worse.
            Limit::Safety { link } if stood(&self.work.problem, *link).is_some() => None,
            Limit::Safety { link } => safety.contains(&(*link, *minutes)).then(|| {
                let (job, before, limit) = ends(*link);
                Advice::NotSafe { job, before, minutes: limit + minutes, limit }
            }),
            Limit::Within { link } => within.contains(&(*link, *minutes)).then(|| {
                let (job, before, limit) = ends(*link);
                Advice::TooLate { job, before, over: *minutes, limit, proven: None }
            }),
            Limit::Gap { link } => Some(self.hurry(*link, *minutes)),
            Limit::Until { person } => Some(self.stay(*person, *minutes, start)),
            // Told by its meals.
            Limit::Hold { .. } => None,
        };
        let mut told: Vec<Advice> = broken.iter().filter_map(tell).collect();
        told.extend(self.unheld(start, end));
        told
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

    /// For whom what is served latest waits, where it is served late: whoever comes later than the session begins, and begins it then.
    fn waits_for(&self, schedule: &Schedule) -> Option<usize> {
        let jobs = &self.work.problem.jobs;
        let over = |last: usize| Some(schedule.placed[last].start + jobs[last].minutes() - jobs[last].serve?.at);
        let cold = self.work.ready.iter().flat_map(|ready| ready.jobs.iter().copied());
        let last = self.work.served.iter().map(|served| served.last).chain(cold);
        let (over, last) = last.filter_map(|last| Some((over(last)?, last))).max()?;
        let waits = |job: usize| {
            let person = schedule.placed[job].person?;
            let from = self.work.problem.people[person].from;
            (jobs[job].making == jobs[last].making && from > 0 && schedule.placed[job].start == from).then_some(person)
        };
        (over > 0).then(|| (0..jobs.len()).find_map(waits)).flatten()
    }

    fn clash(&self, schedule: &Schedule, start: DateTime, waits: bool) -> Option<Advice> {
        let end = |job: usize| schedule.placed[job].start + self.work.problem.jobs[job].minutes();
        let rules: Vec<Rule> = schedule.clash.iter().map(|limit| self.rule(*limit, start, end)).collect();
        let hours = schedule.clash_with_hours || (waits && !schedule.clash.is_empty());
        (hours || !rules.is_empty()).then_some(Advice::Clash { rules, hours })
    }

    /// One a step whose role or skill nobody has.
    fn unfit(&self) -> Vec<Advice> {
        let tell = |unfit: &Unfit| {
            let recipe = self.recipe(unfit.making);
            let step = &self.kitchen.recipes[recipe].steps[unfit.step];
            let job = Job::Step { recipe, step: unfit.step, round: None };
            let people = &self.work.people;
            let nobody = |may: &dyn Fn(&Person) -> bool| !people.iter().any(may);
            let role = step.who.clone();
            let skills: Vec<String> = step.skills(&self.kitchen.appliances).map(str::to_owned).unique().collect();
            let no_role = role.clone().filter(|role| nobody(&|person| person.has_role(role)));
            let lacking: Vec<String> = skills.iter().filter(|skill| nobody(&|person| person.may_do(skill))).cloned().collect();
            // Each has somebody, but nobody has all.
            let together = no_role.is_none() && lacking.is_empty();
            let (role, skills) = if together { (role, skills) } else { (no_role, lacking) };
            Advice::Unfit { step: job, role, skills, together }
        };
        self.work.unfit.iter().map(tell).collect()
    }

    fn impossible(&self, schedule: &Schedule) -> Vec<Advice> {
        let safety = |broken: &Impossible| if let Impossible::Safety { link, minutes } = broken { Some((*link, *minutes)) } else { None };
        let worst = self.worst(schedule.impossible.iter().filter_map(safety));
        let told = schedule.impossible.iter().filter(|broken| safety(broken).is_none_or(|one| worst.contains(&one)));
        let mut said: Vec<Advice> = Vec::new();
        for advice in told.map(|broken| self.broken(schedule, broken)) {
            if !said.contains(&advice) {
                said.push(advice);
            }
        }
        said
    }

    fn broken(&self, schedule: &Schedule, broken: &Impossible) -> Advice {
        match broken {
            Impossible::Nobody { job } => Advice::Nobody { step: self.step(*job) },
            Impossible::Room { job, machine } => Advice::Room { step: self.step(*job), appliance: ApplianceId(*machine) },
            Impossible::Absent { job } => Advice::Absent { step: self.step(*job) },
            Impossible::Unwatched { setting } => {
                Advice::Unwatched { appliance: schedule.settings.get(*setting).map(|setting| ApplianceId(setting.machine)) }
            }
            Impossible::Safety { link, minutes } => {
                let stood = stood(&self.work.problem, *link);
                let link = &self.work.problem.links[*link];
                if let Some(stood) = stood {
                    return Advice::StoodTooLong { job: self.job(link.after), before: self.job(link.before), stood };
                }
                let limit = link.within.unwrap_or(0);
                Advice::NotSafe { job: self.job(link.after), before: self.job(link.before), minutes: limit + minutes, limit }
            }
            Impossible::Circle { link } => Advice::Circle(self.order(*link)),
        }
    }
}

#[cfg(test)]
mod tests;
