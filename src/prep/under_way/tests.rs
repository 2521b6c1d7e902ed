use pretty_assertions::assert_eq;

use super::*;
use crate::foods::Place;
use crate::measure::Quantity;

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
        stood(&mut one, told, (now, None), (Some(0), None));
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

#[test]
fn what_was_done_before_something_done_is_over_by_then() {
    // Told 10 to 76; what comes after it began at 40: 5 by hand, then 25 on its own.
    let mut pot = job(5, 60, 1);
    stood(&mut pot, 10, (50, Some(40)), (Some(0), None));
    assert_eq!((pot.fixed.map(|fixed| fixed.start), pot.hands, pot.wait, pot.out), (Some(10), 5, 25, 0));
    // It began at 12: the pot, told for 10, from 7 on.
    let mut pot = job(5, 60, 1);
    stood(&mut pot, 10, (50, Some(12)), (Some(0), None));
    assert_eq!((pot.fixed.map(|fixed| fixed.start), pot.minutes()), (Some(7), 5));
}

#[test]
fn what_is_in_use_is_parted_from_what_is_still_to_be_fetched_and_nothing_is_lost() {
    // 500 g of barley, 350 of it in the cupboard, and 40 % of it in the pot: 200 g from there. Dill to taste is all still to come.
    let of = |food: u32| Ware::Food(crate::foods::FoodId(food));
    let one =
        |food: u32, grams: f64, place| Fetch { of: of(food), amount: Quantity::grams(grams), place, look_first: false, is_short: false };
    let fetch = [one(0, 350.0, Some(Place::Cupboard)), one(1, 0.0, None), one(0, 150.0, None), one(2, 80.0, None)];
    let share = |ware: Ware| [(of(0), 0.4), (of(2), 1.0)].iter().find(|(known, _)| *known == ware).map_or(0.0, |(_, share)| *share);
    let (left, used) = parted(&fetch, share);
    let grams = |list: &[Fetch]| list.iter().map(|one| one.amount.base().round()).collect::<Vec<_>>();
    assert_eq!((grams(&left), grams(&used)), (vec![150.0, 0.0, 150.0], vec![200.0, 80.0]));
}
