//! How long the scheduler takes: invented afternoons of 10 to 80 tasks, and the hardest of the small published job shops.
//!
//! With SPENCE_SESSIONS set to a folder, the invented sessions are written there with what was found and in how many seconds, for
//! tests/outside/cpsat_check.py, and nothing else is measured.

#![allow(clippy::expect_used, reason = "a benchmark that cannot go on says so")]

use divan::Bencher;
use spence::prep::{Effort, schedule};

mod written;

#[path = "../dice.rs"]
mod dice;
#[path = "../schedule/jobshops.rs"]
#[allow(dead_code)]
mod jobshops;
#[path = "../schedule/random.rs"]
#[allow(dead_code)]
mod random;

fn main() {
    if let Some(folder) = std::env::var_os("SPENCE_SESSIONS") {
        return written::write_all(std::path::Path::new(&folder));
    }
    for tasks in [10, 20, 40, 80] {
        let plans = (0..20).map(|seed| schedule(&random::afternoon(seed, tasks), Effort::Normal));
        let proven = plans.filter(|plan| plan.proven).count();
        println!("{tasks} tasks: {proven} of 20 proven at normal effort");
    }
    divan::main();
}

#[divan::bench(args = [10, 20, 40, 80], sample_count = 10)]
fn afternoon_at_low_effort(bencher: Bencher, tasks: usize) {
    let problem = random::afternoon(1, tasks);
    bencher.bench(|| schedule(&problem, Effort::Low));
}

#[divan::bench(args = [10, 20, 40, 80], sample_count = 5)]
fn afternoon_at_normal_effort(bencher: Bencher, tasks: usize) {
    let problem = random::afternoon(1, tasks);
    bencher.bench(|| schedule(&problem, Effort::Normal));
}

/// Source: Fisher and Thompson 1963; the least finish, 930, was proven by Carlier and Pinson in 1989.
#[divan::bench(sample_count = 1)]
fn ft10_is_proven_at_930_at_high_effort() {
    let plan = schedule(&jobshops::FT10.problem(), Effort::High);
    assert_eq!((plan.finish, plan.proven), (930, true));
}
