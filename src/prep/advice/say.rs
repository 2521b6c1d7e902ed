//! Advice in sentences.

use super::super::Stood;
use super::super::advised::{Advice, Bottleneck, Change, Job, Rule};
use super::super::say::{onto, reheated};
use jiff::civil::DateTime;

use crate::kitchen::Names;
use crate::measure::Units;
use crate::words::{clock, clock_after, day, duration, in_a_sentence, listed, sentence, temperature};

impl Advice {
    pub fn text(&self, names: Names) -> String {
        match self {
            Advice::Anew { from } => {
                format!("Planned anew from {}: what was done by then is left out, and what runs goes on.", clock(*from))
            }
            Advice::Nobody { step } => format!("{}: nobody may do it.", step.text(names)),
            Advice::Room { step, appliance } => {
                format!("{}: takes more room than the {} has.", step.text(names), names.appliance(*appliance))
            }
            Advice::Absent { step } => {
                let step = sentence(&step.text(names));
                format!("{step}: does not fit between the hours of the people in this session; somebody must be found for it.")
            }
            Advice::Unwatched { appliance } => {
                let name = appliance.map_or("appliance", |id| names.appliance(id));
                format!("The {name} warms up while nobody is there: do not leave it alone.")
            }
            Advice::NotSafe { job, before, minutes, limit } => not_safe(&job.text(names), &before.text(names), *minutes, *limit),
            Advice::StoodTooLong { job, before, stood } => stood_too_long(&job.text(names), &before.text(names), *stood),
            Advice::Circle(rule) => format!("Steps wait for one another in a circle; this rule is left out: {}.", rule.text(names)),
            Advice::TooLate { job, before, over, limit, proven } => {
                let (job, before, over, limit) = (job.text(names), before.text(names), duration(*over), duration(*limit));
                let limit = if limit == duration(0) { "straight after".to_owned() } else { format!("within {limit} of") };
                format!("{} starts {over} too late ({limit} {before}).", surely(*proven, &job))
            }
            Advice::TooSoon { job, before, left, gap } => {
                let (job, before, gap) = (sentence(&job.text(names)), before.text(names), duration(*gap));
                let left = if *left > 0 { format!("only {}", duration(*left)) } else { "at once".to_owned() };
                format!("{job} starts {left} after {before}, which should rest {gap}.")
            }
            Advice::Served { job, done, meal, hold } => served(&sentence(&job.text(names)), *done, *meal, *hold),
            Advice::LateMeal { over, sooner: Some(_), comes: Some((person, at)), dishes } => {
                let less = if *dishes > 1 { ", or make one dish less" } else { "" };
                let or = if *dishes > 1 { "," } else { ", or" };
                let (over, at) = (duration(*over), clock(*at));
                format!("What would help: {person} comes {over} sooner, at {at}{or} have the meal {over} later{less}.")
            }
            Advice::LateMeal { over, sooner: Some(sooner), .. } => {
                let (over, sooner) = (duration(*over), clock(*sooner));
                format!("What would help: begin {over} sooner, at {sooner}, have the meal {over} later, or make one dish less.")
            }
            Advice::LateMeal { over, sooner: None, .. } => format!("The meal can begin {} later.", duration(*over)),
            Advice::AllDone => "All of it is done.".to_owned(),
            Advice::NotCalm { by, wanted, free } => {
                let (wanted, free, by) = (duration(*wanted), duration(*free), clock(*by));
                format!("A calm session keeps the last {wanted} before {by} free; no plan was found that leaves more than {free}.")
            }
            Advice::Stays { person, minutes, until } => {
                format!("{person} stays {} longer, until {}.", duration(*minutes), clock(*until))
            }
            Advice::Clash { rules, hours } => clash(rules, *hours, names),
            Advice::Unfit { step, role, skills, together } => {
                let role = role.iter().map(|role| format!("the role \"{role}\""));
                let asked: Vec<String> = role.chain(skills.iter().map(|skill| format!("the skill \"{skill}\""))).collect();
                let together = if *together { " together" } else { "" };
                format!("{}: nobody in this session has {}{together}; it is planned for anybody.", step.text(names), listed(&asked))
            }
            Advice::Late { by, over } => {
                format!("This session ends at {}, {} after {}.", clock_after(*by, *over), duration(*over), clock(*by))
            }
            Advice::Ends { job } => format!("It ends with {}.", in_a_sentence(&job.text(names))),
            Advice::HandsGainNothing => "One more pair of hands would gain nothing.".to_owned(),
            Advice::Binds(what) => format!("What binds is {}.", what.text(names)),
            Advice::Remedy { change, end, over } => {
                let verdict = if *over > 0 { format!("still {} late", duration(*over)) } else { "in time".to_owned() };
                match change {
                    Change::Without(_) => format!("{}: {}, {verdict}.", change.text(names), clock(*end)),
                    _ => format!("{} it would end at {}, {verdict}.", change.text(names), clock(*end)),
                }
            }
            Advice::TwoHeats { appliance, one, other, from } => {
                let (name, at) = (names.appliance(*appliance), clock(*from));
                let (one, other) = (temperature(*one, Units::Metric), temperature(*other, Units::Metric));
                format!(
                    "The {name} holds one load at {one} and another at {other} from {at} on. If it has one temperature, write heat = true under \
                     its [[appliance]]: then they come one after the other."
                )
            }
            Advice::AtOnce { people, appliances, session } => {
                let appliances = appliances.iter().map(|id| format!("the {}", names.appliance(*id)));
                let wanted: Vec<String> = people.iter().cloned().chain(appliances).collect();
                let verb = if wanted.len() == 1 { "is" } else { "are" };
                let (wanted, day, clock) = (sentence(&listed(&wanted)), day(session.date()), clock(*session));
                format!("{wanted} {verb} wanted by the session of {day} {clock} at the same time. Move one of the two.")
            }
        }
    }
}

/// With how sure it is that no plan does better; `None` where no other was looked for.
fn surely(proven: Option<bool>, job: &str) -> String {
    match proven {
        Some(true) => format!("No plan keeps every rule: {job}"),
        Some(false) => format!("No plan was found that keeps every rule: {job}"),
        None => sentence(job),
    }
}

/// "Moon stew, step 1 is done at 17:31, 59 min before it is served at 18:30; it keeps for 30 min (hold)."
fn served(job: &str, done: DateTime, meal: DateTime, hold: i64) -> String {
    let minutes = meal.duration_since(done).as_secs().div_euclid(60);
    let (at, meal) = (clock(done), clock(meal));
    if minutes < 0 {
        return format!("{job} is done at {at}, {} late for the meal at {meal}.", duration(-minutes));
    }
    let keeps = if hold > 0 { format!("it keeps for {} (hold)", duration(hold)) } else { "it is to be served at once (hold)".to_owned() };
    format!("{job} is done at {at}, {} before it is served at {meal}; {keeps}.", duration(minutes))
}

fn not_safe(job: &str, before: &str, minutes: i64, limit: i64) -> String {
    let (minutes, limit) = (duration(minutes), duration(limit));
    format!(
        "Not safe as planned: {job} starts {minutes} after the end of {before}, and {limit} is the most. Chill each load by itself as it \
         leaves the heat, or do not keep it."
    )
}

fn stood_too_long(job: &str, before: &str, stood: Stood) -> String {
    let (minutes, limit) = (duration(stood.minutes), duration(stood.limit));
    format!("Not safe any more: {before} has stood out {minutes}, and {limit} is the most before {job}. {}", what_to_do_with_it())
}

/// Of what has stood out too long. USDA FSIS, Leftovers and Food Safety: throw it out. From memory.
pub fn what_to_do_with_it() -> String {
    format!("Do not keep it: throw it out, or, where local rules allow it, eat it now, reheated to {} throughout.", reheated(Units::Metric))
}

fn clash(rules: &[Rule], hours: bool, names: Names) -> String {
    let mut rules: Vec<String> = rules.iter().map(|rule| rule.text(names)).collect();
    if hours {
        rules.push("the hours at which people are there".to_owned());
    }
    match rules.as_slice() {
        [rule] => format!("This rule cannot be kept, given the times of the steps: {rule}."),
        _ => format!("These rules cannot all be kept together: {}.", rules.join("; ")),
    }
}

impl Job {
    /// "White-bean mash, step 3", "White-bean mash, step 3, round 2", "boxing of white-bean mash".
    fn text(self, names: Names) -> String {
        match self {
            Job::WashUp => "washing up".to_owned(),
            Job::Boxing(recipe) => format!("boxing of {}", in_a_sentence(names.recipe(recipe))),
            Job::Step { recipe, step, round: None } => format!("{}, step {}", names.recipe(recipe), step + 1),
            Job::Step { recipe, step, round: Some(round) } => format!("{}, step {}, round {}", names.recipe(recipe), step + 1, round + 1),
        }
    }
}

impl Rule {
    /// "Roast beetroot, step 2 within 30 min of Roast beetroot, step 1".
    fn text(&self, names: Names) -> String {
        let between = |after: &Job, word: &str, before: &Job| format!("{} {word} {}", after.text(names), before.text(names));
        match self {
            Rule::After { after, before } => between(after, "after", before),
            Rule::Within { after, before, minutes: 0 } => between(after, "straight after", before),
            Rule::Within { after, before, minutes } => between(after, &format!("within {} of", duration(*minutes)), before),
            Rule::Gap { after, before, minutes } => between(after, &format!("at least {} after", duration(*minutes)), before),
            Rule::Served { job, hold: 0 } => format!("{} done just when it is served", job.text(names)),
            Rule::Served { job, hold } => format!("{} done at most {} before it is served", job.text(names), duration(*hold)),
            Rule::Done { job, by } => format!("{} done by {}, when it is served", job.text(names), clock(*by)),
            Rule::Until { person } => format!("the hours of {person}"),
        }
    }
}

impl Bottleneck {
    fn text(&self, names: Names) -> String {
        match self {
            Bottleneck::Chain { last, minutes } => {
                format!("the longest chain of steps, up to {}: {}", last.text(names), duration(*minutes))
            }
            Bottleneck::Appliance { id, minutes } => format!("the {}, full for {}", names.appliance(*id), duration(*minutes)),
            Bottleneck::Hands { minutes, people: 1 } => format!("hands-on work, {} for one pair of hands", duration(*minutes)),
            Bottleneck::Hands { minutes, people } => format!("hands-on work, {} for {people} pairs of hands", duration(*minutes)),
        }
    }
}

impl Change {
    fn text(&self, names: Names) -> String {
        match self {
            Change::OneMorePerson => "With one more person".to_owned(),
            Change::Without(recipe) => format!("Without {}", in_a_sentence(names.recipe(*recipe))),
            Change::MoreRoom(id) => format!("With room for one more load {}", onto(*id, names)),
            Change::Moved { recipe, to } => {
                format!("With {} moved to the session on {} {}", in_a_sentence(names.recipe(*recipe)), to.strftime("%a"), clock(*to))
            }
        }
    }
}
