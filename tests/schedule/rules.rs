//! Over many invented sessions: no plan breaks a rule, and on tiny ones no plan is better.

use pretty_assertions::assert_eq;
use spence::prep::{Effort, Problem, Schedule, schedule};

use super::checker::faults;
use super::exhaustive::least;
use super::random::{afternoon, tangle};

pub fn holds_every_rule(name: &str, problem: &Problem, effort: Effort) -> Schedule {
    let plan = schedule(problem, effort);
    assert_eq!(faults(problem, &plan), Vec::<String>::new(), "{name}\n{problem:#?}\n{plan:#?}");
    plan
}

#[test]
fn two_thousand_quick_plans_break_no_rule() {
    for seed in 0..1_700 {
        holds_every_rule(&format!("tangle {seed}"), &tangle(seed, 2 + seed as usize % 9, 9), Effort::Low);
    }
    for seed in 0..300 {
        holds_every_rule(&format!("afternoon {seed}"), &afternoon(seed, 5 + seed as usize % 20), Effort::Low);
    }
}

#[test]
fn fifty_plans_at_normal_effort_break_no_rule() {
    for seed in 0..25 {
        holds_every_rule(&format!("tangle {seed}"), &tangle(10_000 + seed, 8, 9), Effort::Normal);
        holds_every_rule(&format!("afternoon {seed}"), &afternoon(10_000 + seed, 12), Effort::Normal);
    }
}

#[test]
fn no_plan_of_a_tiny_session_is_better_than_the_one_given() {
    for seed in 0..250 {
        let problem = tangle(20_000 + seed, 2 + seed as usize % 3, 3);
        let plan = holds_every_rule(&format!("tiny {seed}"), &problem, Effort::Normal);
        let sum = |broken: &[(usize, i64)]| broken.iter().map(|(_, minutes)| *minutes).sum();
        let by_job = |safety: bool| super::checker::overrun(&problem, &plan, safety);
        let broken = [by_job(true), sum(&plan.stays), by_job(false), super::checker::hurried(&problem, &plan), sum(&plan.unheld)];
        let (finish, idle) = (plan.finish, super::checker::idle(&problem, &plan));
        let ends = plan.placed.iter().zip(&problem.jobs).map(|(placed, job)| placed.start + job.minutes());
        let last = ends.max().unwrap_or(0);
        let horizon = if broken == [0; 5] { last } else { last + 8 };
        let best = least(&problem, horizon, (broken, finish, idle + 1));
        assert_eq!(best, Some((broken, finish, idle)), "seed {seed}\n{problem:#?}\n{plan:#?}");
        assert_eq!(plan.none_keeps_all, broken != [0; 5], "seed {seed}: {plan:?}");
        assert!(plan.proven, "seed {seed}: {plan:?}");
        assert!(!schedule(&problem, Effort::Low).none_keeps_all || broken != [0; 5], "seed {seed}: said at low effort without a proof");
    }
}
