//! Who does what: of all ways to share out the work at the minutes of the plan none is better than the plan's own.

use spence::prep::{Effort, Job, Problem, Schedule, Worker, schedule};

use super::random::afternoon;
use super::rules::holds_every_rule;

/// A cook who may do everything, and a helper who may not go near what heats.
fn with_a_helper(mut problem: Problem) -> Problem {
    problem.people[1].helper = true;
    problem.jobs.iter_mut().filter(|job| !job.machines.is_empty()).for_each(|job| job.people = vec![0]);
    problem
}

/// Hand-overs, the helpers' minutes below zero, and turns: `doers` are those of hands and of out, job by job.
fn by_name(problem: &Problem, plan: &Schedule, doers: &[[Option<usize>; 2]]) -> (usize, i64, usize) {
    let makings = problem.jobs.iter().map(|job| job.making + 1).max().unwrap_or(0);
    let of_making = |making| problem.jobs.iter().zip(doers).filter(move |(job, _)| job.making == making);
    let hands = |making| of_making(making).filter_map(|(_, doer)| doer[0]).collect::<Vec<usize>>();
    let hand_overs = (0..makings).map(|making| hands(making).windows(2).filter(|pair| pair[0] != pair[1]).count()).sum();
    let minutes = |(job, doer): (&Job, &[Option<usize>; 2])| {
        let helps = |doer: Option<usize>| doer.is_some_and(|person| problem.people[person].helper);
        i64::from(helps(doer[0])) * job.hands + i64::from(helps(doer[1])) * job.out
    };
    let unhelped = -problem.jobs.iter().zip(doers).map(minutes).sum::<i64>();
    let turns = |person: usize| {
        let mut stints: Vec<(i64, usize)> = Vec::new();
        for ((job, placed), doer) in problem.jobs.iter().zip(&plan.placed).zip(doers) {
            let out = placed.start + job.hands + job.wait;
            stints.extend((doer[0] == Some(person)).then_some((placed.start, job.making)));
            stints.extend((doer[1] == Some(person)).then_some((out, job.making)));
        }
        stints.sort_unstable();
        stints.dedup_by_key(|stint| stint.1);
        let (many, mut makings) = (stints.len(), stints.into_iter().map(|stint| stint.1).collect::<Vec<_>>());
        makings.sort_unstable();
        makings.dedup();
        many - makings.len()
    };
    (hand_overs, unhelped, (0..problem.people.len()).map(turns).sum())
}

/// (job, whether it is the out, from, until) of everything hands-on.
fn chores(problem: &Problem, plan: &Schedule) -> Vec<(usize, usize, i64, i64)> {
    let both = |(index, (job, placed)): (usize, (&Job, &spence::prep::Placed))| {
        let out = placed.start + job.hands + job.wait;
        [(index, 0, placed.start, placed.start + job.hands), (index, 1, out, out + job.out)]
    };
    problem.jobs.iter().zip(&plan.placed).enumerate().flat_map(both).filter(|chore| chore.2 < chore.3).collect()
}

/// The least of all ways to share out the chores from `at` on.
fn least(
    problem: &Problem,
    plan: &Schedule,
    chores: &[(usize, usize, i64, i64)],
    at: usize,
    doers: &mut [[Option<usize>; 2]],
) -> (usize, i64, usize) {
    let Some(&(job, part, from, until)) = chores.get(at) else { return by_name(problem, plan, doers) };
    let mut best = (usize::MAX, 0, 0);
    for &person in &problem.jobs[job].people {
        let Worker { from: comes, until: goes, .. } = problem.people[person];
        let busy = chores[..at].iter().any(|&(job, part, start, end)| doers[job][part] == Some(person) && start < until && end > from);
        if !busy && from >= comes && goes.is_none_or(|goes| until <= goes) {
            doers[job][part] = Some(person);
            best = best.min(least(problem, plan, chores, at + 1, doers));
        }
    }
    doers[job][part] = None;
    best
}

#[test]
fn no_other_sharing_out_of_the_work_has_fewer_hand_overs_more_help_or_fewer_turns() {
    for seed in 0..60 {
        let problem = with_a_helper(afternoon(30_000 + seed, 7));
        let plan = holds_every_rule(&format!("shared {seed}"), &problem, Effort::Normal);
        let doers: Vec<[Option<usize>; 2]> = plan.placed.iter().map(|placed| [placed.person, placed.out_person]).collect();
        let best = least(&problem, &plan, &chores(&problem, &plan), 0, &mut vec![[None; 2]; doers.len()]);
        assert_eq!(by_name(&problem, &plan, &doers), best, "seed {seed}\n{problem:#?}\n{plan:#?}");
    }
}

/// Any number of makings of two steps: the first for anybody, the second, half an hour later, for the cook alone. The helper, who would have
/// to hand each over, begins none.
#[test]
fn a_helper_does_not_begin_what_only_the_cook_can_go_on_with() {
    use spence::prep::{JobKind, Link, LinkWhy, Machine};
    for many in 1..=5 {
        let people = vec![Worker::default(), Worker { helper: true, ..Worker::default() }];
        let machines = vec![Machine { room: 9, ..Machine::default() }];
        let mut problem = Problem { people, machines, ..Problem::default() };
        for making in 0..many {
            let first = Job { kind: JobKind::Step, making, hands: 5, people: vec![0, 1], ..Job::default() };
            let second = Job { wait: 20, machines: vec![(0, 1)], people: vec![0], ..first.clone() };
            problem.jobs.extend([first, second]);
            problem.links.push(Link { before: 2 * making, after: 2 * making + 1, gap: 30, within: None, why: LinkWhy::Order });
        }
        let plan = schedule(&problem, Effort::Normal);
        let hand_overs = (0..many).filter(|making| plan.placed[2 * making].person != plan.placed[2 * making + 1].person).count();
        assert_eq!((plan.finish, hand_overs), (60 + 5 * (many as i64 - 1), 0), "{many}: {plan:#?}");
    }
}
