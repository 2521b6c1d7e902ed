use pretty_assertions::assert_eq;

use super::*;
use crate::prep::tasks::Origin;
use crate::prep::testing::*;
use crate::prep::{Job, Placed, Problem, Worker};

/// Rosa works until 20; Tom until 30, then something stands until 40; then 10 min of washing up, for Tom as the search has it.
fn work(uncounted: bool) -> (Work, Schedule) {
    let job = |hands, wait| Job { hands, wait, people: vec![0, 1], ..Job::default() };
    let wash_up = Job { uncounted, ..job(10, 0) };
    let people = vec![Worker::default(), Worker::default()];
    let problem = Problem { people, jobs: vec![job(20, 0), job(10, 10), wash_up], ..Problem::default() };
    let step = Part::Step { step: 0, round: 0, rounds: 1, takes: 0 };
    let origin = |part| Origin { making: 0, part };
    let origins = vec![origin(step), origin(step), origin(Part::WashUp)];
    let none = || Vec::new();
    let work = Work { problem, origins, chosen: vec![0], people: vec![], unfit: vec![], brings: vec![], served: none(), ready: vec![] };
    let placed = |start, person| Placed { start, person: Some(person), out_person: None, set_to: None };
    let last = if uncounted { 55 } else { 40 };
    let plan = Schedule { placed: vec![placed(0, 0), placed(20, 1), placed(last, 1)], finish: 50, ..planned(50) };
    (work, plan)
}

#[test]
fn whoever_has_been_free_for_longest_washes_up() {
    for uncounted in [false, true] {
        let (work, plan) = work(uncounted);
        let plan = washed_up_soonest(&work, plan);
        assert_eq!((plan.placed[2].start, plan.placed[2].person), (40, Some(0)));
    }
}

#[test]
fn whoever_has_left_by_then_does_not() {
    let (mut work, plan) = work(false);
    work.problem.people[0].until = Some(45);
    assert_eq!(washed_up_soonest(&work, plan).placed[2].person, Some(1));
}
