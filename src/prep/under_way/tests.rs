use pretty_assertions::assert_eq;

use super::*;

#[test]
fn marks_are_read_as_they_are_printed() {
    for mark in [Mark::Number(1), Mark::Number(12), Mark::Letter(1), Mark::Letter(26), Mark::Letter(27), Mark::Letter(703)] {
        assert_eq!(mark.to_string().parse(), Ok(mark), "{mark}");
    }
    assert_eq!("a".parse(), Ok(Mark::Letter(1)));
    for wrong in ["", "0", "-1", "A1", "é", "99999999999", "ZZZZZZZZZZ"] {
        assert_eq!(wrong.parse::<Mark>(), Err(NoMark), "{wrong}");
    }
}

fn job(hands: i64, wait: i64, out: i64) -> Job {
    Job { hands, wait, out, people: vec![0], ..Job::default() }
}

#[test]
fn a_pot_whose_hands_are_done_runs_on_and_hands_alone_are_over() {
    let stands = |mut one: Job, told: i64, now: i64| {
        stood(&mut one, told, now, (Some(0), None));
        let start = one.fixed.map(|fixed| fixed.start).unwrap_or_default();
        (start, one.hands, start + one.minutes())
    };
    // Put on at 10, 5 by hand, 60 on its own, 1 to take it off: until 76.
    assert_eq!(stands(job(5, 60, 1), 10, 50), (10, 5, 76));
    // Told to begin at 48, and its 5 by hand are done at 50: it began at 45 at the latest.
    assert_eq!(stands(job(5, 60, 1), 48, 50), (45, 5, 111));
    // Told for later, done already.
    assert_eq!(stands(job(20, 0, 0), 60, 50), (30, 20, 50));
    // Quicker than anybody thought: 20 by hand in the first 10 minutes.
    assert_eq!(stands(job(20, 0, 0), 0, 10), (0, 10, 10));
}
