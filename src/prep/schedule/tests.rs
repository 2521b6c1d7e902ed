use super::super::{Job, JobKind, Link, LinkWhy, Machine, Serve, Worker};
use super::board::Seat;
use super::*;

/// 30 min that count, then 20 min for what is served at 75 and 10 min for what is served at 70. The longer first: the shorter ends at 60,
/// and a fifth slower it is late, 60 * 1.2 = 72. The shorter first: the longer ends at 60, and hands up to a quarter slower are in time.
#[test]
fn of_plans_as_good_the_one_whose_limits_break_latest_is_taken() {
    let served = |making, hands, at, hold| Job {
        making,
        hands,
        people: vec![0],
        serve: Some(Serve { at, hold }),
        uncounted: true,
        ..Job::default()
    };
    let first = Job { hands: 30, people: vec![0], ..Job::default() };
    let jobs = vec![first, served(1, 20, 75, 45), served(2, 10, 70, 40)];
    let problem = Problem { people: vec![Worker::default()], jobs, ..Problem::default() };
    let model = ready(&problem, Rules::ALL);
    let plan = |starts: [i64; 3]| {
        let seat = |start| Seat { start, hands: Some(0), out: None, settings: vec![] };
        Plan::of(&model, starts.map(seat).to_vec())
    };
    let (longer_first, shorter_first) = (plan([0, 30, 50]), plan([0, 40, 30]));
    assert_eq!(longer_first.cost, shorter_first.cost);
    for plans in [[longer_first.clone(), shorter_first.clone()], [shorter_first, longer_first]] {
        let told = sturdiest(&problem, &model, &plans, 30);
        assert_eq!(told.placed.iter().map(|placed| placed.start).collect::<Vec<_>>(), [0, 40, 30]);
    }
}

/// One pair of hands: 5 min of a making, 10 of another, a pause of 5, and 5 of the first. In that order the two fives stand 10 min apart at
/// least; with the ten first, not at all.
#[test]
fn gaps_are_closed_in_a_plan_s_own_order_and_neighbours_change_places_for_fewer() {
    let job = |making, hands| Job { making, hands, people: vec![0], ..Job::default() };
    let jobs = vec![job(0, 5), job(1, 10), job(0, 5)];
    let problem = Problem { people: vec![Worker::default()], jobs, ..Problem::default() };
    let model = ready(&problem, Rules::ALL);
    let seat = |start| Seat { start, hands: Some(0), out: None, settings: vec![] };
    let plan = Plan::of(&model, [0, 5, 20].map(seat).to_vec());
    assert_eq!(plan.cost.idle, 15);
    let mut orders = Orders::new(&model, &plan.seats, (25, 25), 1).unwrap();
    let closed = orders.closed(&plan.seats).map(|seats| Plan::of(&model, seats));
    assert_eq!(closed.map(|plan| plan.cost.idle), Some(10));
    assert_eq!(orders.search(plan, 100, 0).cost.idle, 0);
}

/// The ten minutes stay between what begins before minute 5, as early as it may, and what begins then, as late: 20 to 25.
#[test]
fn what_is_on_the_table_is_pushed_apart_around_a_minute() {
    let job = |making, hands| Job { making, hands, people: vec![0], ..Job::default() };
    let problem = Problem { people: vec![Worker::default()], jobs: vec![job(0, 5), job(1, 10), job(0, 5)], ..Problem::default() };
    let model = ready(&problem, Rules::ALL);
    let seat = |start| Seat { start, hands: Some(0), out: None, settings: vec![] };
    let plan = Plan::of(&model, [2, 15, 10].map(seat).to_vec());
    let mut orders = Orders::new(&model, &plan.seats, (25, 25), 1).unwrap();
    assert!(orders.spread(&[Some(seat(2)), None, Some(seat(10))], 5));
    assert_eq!((orders.starts[0], orders.starts[2]), (0, 20));
}

/// Two dishes of so many loads each on a hob of one place, so long a load, each boxed at the end within two hours of all its loads: from
/// two loads on no plan keeps that.
fn loads(many: usize, wait: i64) -> Problem {
    let cook = |making| Job { making, hands: 7, wait, out: 1, machines: vec![(0, 1)], people: vec![0], ..Job::default() };
    let boxed = |making| Job { kind: JobKind::Box, making, hands: 3, people: vec![0], ..Job::default() };
    let jobs = (0..2 * many).map(|at| cook(at / many)).chain((0..2).map(boxed)).collect();
    let safety = |at| Link { before: at, after: 2 * many + at / many, gap: 10, within: Some(120), why: LinkWhy::Safety };
    let links = (0..2 * many).map(safety).collect();
    Problem { people: vec![Worker::default()], machines: vec![Machine::default()], jobs, links, ..Problem::default() }
}

/// 28 loads of ten hours are 12 days, looked at up to twice that: 28 * 27 / 2 orders of two on the hob and as many in the cook's hands, each
/// two sums of two starts, and minutes by the ten thousand of each. Of loads of twenty minutes it is a thirtieth.
#[test]
fn a_session_of_days_is_not_told_to_the_solver_and_is_not_proven_by_it() {
    let told = |problem: &Problem| {
        let model = ready(problem, Rules::above(Kind::Safety));
        let horizon = relax::horizon(&model, 0);
        exact::Exact::new(&model, 0, horizon, horizon).is_some_and(|exact| !exact.too_much())
    };
    assert!(!told(&loads(14, 600)) && told(&loads(14, 20)));
    let plan = schedule(&loads(14, 600), Effort::Low);
    assert!(!plan.none_keeps_all && plan.clash.is_empty() && !plan.impossible.is_empty());
}
