//! Invented sessions from a seed: the same seed, the same session.

use spence::prep::{Heat, Job, JobKind, Link, LinkWhy, Machine, Problem, Serve, Worker};

use crate::dice::Dice;

impl Dice {
    pub fn chance(&mut self, percent: i64) -> bool {
        self.between(1, 100) <= percent
    }
}

/// An afternoon as it might be: two people, an oven, a hob and a pressure cooker, and makings of a few steps each that end in boxes.
pub fn afternoon(seed: u64, tasks: usize) -> Problem {
    let mut dice = Dice(seed);
    let heat = Heat { near: 10.0, warm_up: 10 };
    let machines = vec![
        Machine { room: 2, heat: Some(heat), ..Machine::default() },
        Machine { room: 4, heat: None, ..Machine::default() },
        Machine { room: 1, heat: None, ..Machine::default() },
    ];
    let people = vec![Worker { from: 0, until: None, ..Worker::default() }, Worker { from: 0, until: None, ..Worker::default() }];
    let mut problem = Problem { people, machines, ..Problem::default() };
    let mut making = 0;
    while problem.jobs.len() < tasks {
        let steps = (dice.between(2, 4) as usize).min(tasks - problem.jobs.len());
        for step in 0..steps {
            let job = if step > 0 && step + 1 == steps { boxing(making) } else { cooking(&mut dice, making, step) };
            push(&mut problem, &mut dice, job, step > 0);
        }
        making += 1;
    }
    problem
}

fn push(problem: &mut Problem, dice: &mut Dice, job: Job, follows: bool) {
    let after = problem.jobs.len();
    let boxed = job.kind == JobKind::Box;
    problem.jobs.push(job);
    if !follows {
        return;
    }
    let (within, why) = match boxed {
        true => (Some(120), LinkWhy::Safety),
        false if dice.chance(15) => (Some(dice.between(0, 30)), LinkWhy::Within),
        false => (None, LinkWhy::Order),
    };
    let gap = if !boxed && within.is_none() && dice.chance(10) { dice.between(10, 60) } else { 0 };
    problem.links.push(Link { before: after - 1, after, gap, within, why });
}

fn boxing(making: usize) -> Job {
    Job { kind: JobKind::Box, making, hands: 3, wait: 0, out: 0, machines: vec![], temperature: None, people: vec![0, 1], ..Job::default() }
}

fn cooking(dice: &mut Dice, making: usize, step: usize) -> Job {
    let mut job = Job { kind: JobKind::Step, hands: dice.between(2, 15), ..boxing(making) };
    if step == 0 && dice.chance(60) {
        return job;
    }
    match dice.between(0, 5) {
        0 | 1 => {
            job.machines = vec![(0, 1)];
            job.temperature = Some(160.0 + 10.0 * dice.between(0, 6) as f64);
            (job.hands, job.wait, job.out) = (dice.between(1, 4), dice.between(15, 60), 1);
        }
        2 | 3 => {
            job.machines = vec![(1, 1)];
            job.wait = dice.between(0, 40);
        }
        4 => {
            job.machines = vec![(2, 1)];
            (job.hands, job.wait) = (dice.between(1, 5), dice.between(8, 45));
        }
        _ => {}
    }
    job
}

/// A session of every kind of rule at once: hours with holes, choices of people, near temperatures, limits both of recipes and of safety.
pub fn tangle(seed: u64, jobs: usize, longest: i64) -> Problem {
    let mut dice = Dice(seed.wrapping_mul(7919));
    let mut problem = Problem { people: workers(&mut dice, longest), ..Problem::default() };
    let heat = dice.chance(80).then(|| Heat { near: if dice.chance(50) { 10.0 } else { 0.0 }, warm_up: dice.between(0, longest) });
    problem.machines = vec![
        Machine { room: dice.between(1, 3), heat, ..Machine::default() },
        Machine { room: dice.between(1, 2), heat: None, ..Machine::default() },
    ];
    for _ in 0..jobs {
        let job = tangled(&mut dice, &problem, longest);
        problem.jobs.push(job);
    }
    for after in 1..jobs {
        for before in 0..after {
            if dice.chance(100 / jobs as i64 + 10) {
                let within = dice.chance(30).then(|| dice.between(0, 2 * longest));
                let gap = if within.is_none() { dice.between(0, 2) } else { 0 };
                let why = match within {
                    None => LinkWhy::Order,
                    Some(_) if dice.chance(30) => LinkWhy::Safety,
                    Some(_) => LinkWhy::Within,
                };
                problem.links.push(Link { before, after, gap, within, why });
            }
        }
    }
    problem.machines[1].watched = dice.chance(60);
    problem.jobs[0].uncounted = dice.chance(20);
    if dice.chance(25) {
        problem.jobs[0].serve = Some(Serve { at: dice.between(2, 6) * longest, hold: dice.between(0, longest) });
    }
    problem
}

fn workers(dice: &mut Dice, longest: i64) -> Vec<Worker> {
    let mut workers = vec![Worker { from: 0, until: None, ..Worker::default() }];
    if dice.chance(20) {
        workers[0].until = Some(dice.between(2, 6) * longest);
    }
    for _ in 0..dice.between(0, 2) {
        let from = if dice.chance(50) { 0 } else { dice.between(1, 3) * longest };
        let until = dice.chance(60).then(|| from + dice.between(1, 5) * longest);
        workers.push(Worker { from, until, ..Worker::default() });
    }
    workers
}

fn tangled(dice: &mut Dice, problem: &Problem, longest: i64) -> Job {
    let mut part = |percent| if dice.chance(percent) { dice.between(0, longest) } else { 0 };
    let (hands, wait, out) = (part(70), part(60), part(25));
    let mut people: Vec<usize> = (0..problem.people.len()).filter(|_| dice.chance(75)).collect();
    if people.is_empty() {
        people.push(0);
    }
    let mut machines = Vec::new();
    for (index, machine) in problem.machines.iter().enumerate() {
        if dice.chance(if index == 0 { 50 } else { 30 }) {
            machines.push((index, dice.between(1, machine.room)));
        }
    }
    let temperature = dice.chance(85).then(|| 180.0 + 10.0 * dice.between(0, 2) as f64);
    Job { kind: JobKind::Step, making: dice.between(0, 2) as usize, hands, wait, out, machines, temperature, people, ..Job::default() }
}
