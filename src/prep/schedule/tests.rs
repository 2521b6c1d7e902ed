use super::super::{Job, Serve, Worker};
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
