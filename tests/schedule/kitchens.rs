//! Small afternoons whose least finish can be summed up by hand.

use pretty_assertions::assert_eq;
use spence::prep::{
    Aim, Effort, Fixed, Heat, Impossible, Job, JobKind, Limit, Link, LinkWhy, Machine, Placed, Problem, Schedule, Serve, Setting, Slower,
    Worker, schedule, slower,
};

use super::checker::faults;

fn job(making: usize, hands: i64, wait: i64, out: i64) -> Job {
    Job { kind: JobKind::Step, making, hands, wait, out, machines: vec![], temperature: None, people: vec![0], ..Job::default() }
}

fn on(machine: usize, temperature: Option<f64>, job: Job) -> Job {
    Job { machines: vec![(machine, 1)], temperature, ..job }
}

fn oven(room: i64, near: f64, warm_up: i64) -> Machine {
    Machine { room, heat: Some(Heat { near, warm_up }), ..Machine::default() }
}

fn plain(room: i64) -> Machine {
    Machine { room, heat: None, ..Machine::default() }
}

fn cook() -> Worker {
    Worker { from: 0, until: None, ..Worker::default() }
}

fn kitchen(people: Vec<Worker>, machines: Vec<Machine>, jobs: Vec<Job>) -> Problem {
    Problem { people, machines, jobs, ..Problem::default() }
}

fn link(before: usize, after: usize) -> Link {
    Link { before, after, gap: 0, within: None, why: LinkWhy::Order }
}

/// The plan, checked, and its finish proven.
fn proven(problem: &Problem) -> Schedule {
    let plan = schedule(problem, Effort::Normal);
    assert_eq!(faults(problem, &plan), Vec::<String>::new(), "{plan:#?}");
    assert!(plan.proven, "{plan:#?}");
    plan
}

fn starts(plan: &Schedule) -> Vec<i64> {
    plan.placed.iter().map(|placed| placed.start).collect()
}

#[test]
fn nothing_to_do_is_done_at_once() {
    let plan = proven(&kitchen(vec![cook()], vec![], vec![]));
    assert_eq!((plan.finish, plan.bound, plan.placed), (0, 0, vec![]));
}

/// Common practice, no source: two dishes roasting at 375 F share the oven. 10 min of warm-up, the longer one in first for
/// 1 + 60 + 1 min; the other one's 1 + 30 + 1 min lie within that.
#[test]
fn two_roasts_at_one_temperature_share_the_oven() {
    let at = Some(190.55);
    let jobs = vec![on(0, at, job(0, 1, 30, 1)), on(0, at, job(1, 1, 60, 1))];
    let plan = proven(&kitchen(vec![cook()], vec![oven(2, 0.0, 10)], jobs));
    assert_eq!(plan.finish, 10 + 1 + 60 + 1);
    assert_eq!(plan.settings, vec![Setting { machine: 0, celsius: 190.55, start: 0, ready: 10 }]);
}

/// Common practice, no source: the dish that goes in second and roasts longer decides: 60 min after it went in both are done.
/// 10 min warm-up, 1 min to put the first in; the second waits for its 5 min of mixing, which the cook does while the oven warms up.
#[test]
fn both_roasts_are_done_sixty_minutes_after_the_second_went_in() {
    let at = Some(190.55);
    let mut jobs = vec![on(0, at, job(0, 0, 30, 0)), job(1, 15, 0, 0), on(0, at, job(1, 0, 60, 0))];
    jobs[0].making = 0;
    let mut problem = kitchen(vec![cook()], vec![oven(2, 0.0, 10)], jobs);
    problem.links = vec![link(1, 2)];
    let plan = proven(&problem);
    assert_eq!((plan.finish, plan.placed[2].start), (15 + 60, 15));
}

/// Common practice, no source: 6 min under pressure and 10 min of natural release, then 24 min of grain: 6 + 10 + 24 = 40.
#[test]
fn pulses_and_grain_take_turns_in_the_one_pressure_cooker() {
    let jobs = vec![on(0, None, job(0, 0, 6 + 10, 0)), on(0, None, job(1, 0, 24, 0))];
    let plan = proven(&kitchen(vec![cook()], vec![plain(1)], jobs));
    assert_eq!(plan.finish, 40);
}

/// 10 min of mixing, an hour in the marinade, 2 min of dressing: 10 + 60 + 2 = 72.
#[test]
fn a_salad_that_marinates_an_hour_is_not_served_before() {
    let mut problem = kitchen(vec![cook()], vec![], vec![job(0, 10, 0, 0), job(0, 2, 0, 0)]);
    problem.links = vec![Link { gap: 60, ..link(0, 1) }];
    assert_eq!(starts(&proven(&problem)), vec![0, 70]);
}

/// 180 and 200 are more than 10 apart: 10 + 30, 10 more to heat up, + 20 = 70.
#[test]
fn an_oven_changes_its_temperature_empty_and_warms_up_again() {
    let jobs = vec![on(0, Some(180.0), job(0, 0, 30, 0)), on(0, Some(200.0), job(1, 0, 20, 0))];
    let plan = proven(&kitchen(vec![cook()], vec![oven(2, 10.0, 10)], jobs));
    assert_eq!((plan.finish, plan.settings.len()), (70, 2));
}

/// 180, 185 and 190 with 10 K between them stand together at 180: 10 + 30.
#[test]
fn loads_that_are_near_in_temperature_share_a_run_at_the_lowest() {
    let jobs = [180.0, 185.0, 190.0].map(|at| on(0, Some(at), job(0, 0, 30, 0))).to_vec();
    let plan = proven(&kitchen(vec![cook()], vec![oven(3, 10.0, 10)], jobs));
    assert_eq!(plan.finish, 40);
    assert!(plan.placed.iter().all(|placed| placed.set_to == Some(180.0)));
}

/// 180 goes with 190, 190 with 200, but not 180 with 200: two of them together, the third after another warm-up: 10 + 30 + 10 + 30.
#[test]
fn a_chain_of_near_temperatures_is_no_run() {
    let jobs = [180.0, 190.0, 200.0].map(|at| on(0, Some(at), job(0, 0, 30, 0))).to_vec();
    assert_eq!(proven(&kitchen(vec![cook()], vec![oven(3, 10.0, 10)], jobs)).finish, 80);
}

/// Room for one: 190 after 180 in the same run, both at 180, and no warm-up between: 10 + 30 + 30.
#[test]
fn near_loads_one_after_the_other_save_the_warm_up_between_them() {
    let jobs = vec![on(0, Some(190.0), job(0, 0, 30, 0)), on(0, Some(180.0), job(1, 0, 30, 0))];
    let plan = proven(&kitchen(vec![cook()], vec![oven(1, 10.0, 10)], jobs));
    assert_eq!((plan.finish, plan.settings.len()), (70, 1));
}

/// One cook: taking out at 1 + 20 must not fall into the 30 min of chopping, so the chopping comes first or after: 22 + 30.
#[test]
fn a_load_is_taken_out_at_once_by_somebody_free() {
    let jobs = vec![on(0, None, job(0, 1, 20, 1)), job(1, 30, 0, 0)];
    assert_eq!(proven(&kitchen(vec![cook()], vec![plain(1)], jobs.clone())).finish, 52);
    let mut two = kitchen(vec![cook(), cook()], vec![plain(1)], jobs);
    two.jobs.iter_mut().for_each(|job| job.people = vec![0, 1]);
    assert_eq!(proven(&two).finish, 30);
}

/// The helper comes at 60 and alone may do the 20 min: 80. Meaning to leave at 75 she stays 5 min longer.
#[test]
fn a_helper_works_between_her_hours() {
    let helper = |until| Worker { from: 60, until: Some(until), ..Worker::default() };
    let mut problem = kitchen(vec![cook(), helper(90)], vec![], vec![Job { people: vec![1], ..job(0, 20, 0, 0) }]);
    assert_eq!(proven(&problem).finish, 80);
    problem.people[1] = helper(75);
    let plan = proven(&problem);
    assert_eq!((plan.finish, plan.stays, plan.impossible), (80, vec![(1, 5)], vec![]));
    assert!(plan.none_keeps_all);
}

/// 15 min of chopping, then 20 min on the hob; the cook leaves at 30 and the helper comes at 40: the hob waits for her.
#[test]
fn nothing_simmers_in_an_empty_house() {
    let people = vec![Worker { from: 0, until: Some(30), ..Worker::default() }, Worker { from: 40, until: None, ..Worker::default() }];
    let jobs = vec![job(0, 15, 0, 0), on(0, None, job(0, 0, 20, 0))];
    let mut problem = kitchen(people, vec![plain(4)], jobs);
    problem.links = vec![link(0, 1)];
    assert_eq!(proven(&problem).placed[1].start, 40);
}

/// Both dishes end at 50; the one of 10 + 20 min starts its chopping at 20, not at 0, so that nothing stands about.
#[test]
fn of_two_plans_with_one_finish_the_one_with_fewer_idle_minutes_is_taken() {
    let jobs = vec![job(0, 10, 0, 0), on(0, None, job(0, 0, 20, 0)), on(0, None, job(1, 0, 30, 0))];
    let mut problem = kitchen(vec![cook()], vec![plain(1)], jobs);
    problem.links = vec![link(0, 1)];
    let plan = proven(&problem);
    assert_eq!(plan.finish, 50);
    assert_eq!(plan.placed[1].start - plan.placed[0].start, 10);
}

/// Two loads of 60 min, one after the other, are both to be dressed within 5 min of their end by one 1-min job: the first waits 60,
/// 55 too many.
#[test]
fn a_limit_that_cannot_be_kept_is_overrun_by_the_fewest_minutes_and_named() {
    let jobs = vec![on(0, None, job(0, 0, 60, 0)), on(0, None, job(0, 0, 60, 0)), job(0, 1, 0, 0)];
    let mut problem = kitchen(vec![cook()], vec![plain(1)], jobs);
    let soon = |before| Link { within: Some(5), why: LinkWhy::Within, ..link(before, 2) };
    problem.links = vec![soon(0), soon(1)];
    let plan = schedule(&problem, Effort::Normal);
    assert_eq!(faults(&problem, &plan), Vec::<String>::new());
    assert_eq!(plan.overrun.iter().map(|(_, minutes)| minutes).sum::<i64>(), 55);
    let both = vec![Limit::Within { link: 0 }, Limit::Within { link: 1 }];
    assert_eq!((plan.finish, plan.clash, plan.impossible), (121, both, vec![]));
}

/// Ann puts three things to soak in minutes 0 to 3 and leaves; Jo comes at 10. The dressing (10 min) is wanted within 5 of the earlier of
/// two of them, the frying (7 min) within 5 of the third. Fried first, soaked last: 10 - 3 - 5 = 2, and 17 - 1 - 5 = 11, 13 in all; dressed
/// first it would be 10 - 1 - 5 = 4, and 20 - 3 - 5 = 12.
#[test]
fn a_step_that_is_late_after_several_others_counts_once() {
    let people = vec![Worker { from: 0, until: Some(3), ..Worker::default() }, Worker { from: 10, until: None, ..Worker::default() }];
    let by = |person: usize, job: Job| Job { people: vec![person], ..job };
    let soaked = |making: usize| by(0, job(making, 1, 0, 0));
    let jobs = vec![soaked(0), soaked(0), by(1, job(0, 10, 0, 0)), soaked(1), by(1, job(1, 7, 0, 0))];
    let mut problem = kitchen(people, vec![], jobs);
    let soon = |before, after| Link { within: Some(5), why: LinkWhy::Within, ..link(before, after) };
    problem.links = vec![soon(0, 2), soon(1, 2), soon(3, 4)];
    let plan = schedule(&problem, Effort::Normal);
    assert_eq!(faults(&problem, &plan), Vec::<String>::new());
    assert_eq!((plan.placed[4].start, plan.placed[2].start, super::checker::overrun(&problem, &plan, false)), (10, 17, 13));
    assert!(plan.proven);
}

/// The same with a safety limit: it is not overrun to please a recipe; where nothing else is left, it is told as impossible.
#[test]
fn a_safety_limit_that_cannot_be_kept_is_told_and_no_mere_overrun() {
    let jobs = vec![on(0, None, job(0, 0, 60, 0)), on(0, None, job(0, 0, 60, 0)), job(0, 1, 0, 0)];
    let mut problem = kitchen(vec![cook()], vec![plain(1)], jobs);
    let soon = |before, why| Link { within: Some(5), why, ..link(before, 2) };
    problem.links = vec![soon(0, LinkWhy::Safety), soon(1, LinkWhy::Within)];
    problem.links[1].within = Some(70);
    let plan = schedule(&problem, Effort::Normal);
    assert_eq!((plan.overrun, plan.impossible), (vec![], vec![]));
    problem.links[1] = soon(1, LinkWhy::Safety);
    let plan = schedule(&problem, Effort::Normal);
    assert_eq!(plan.overrun, vec![]);
    assert!(matches!(plan.impossible[..], [Impossible::Safety { minutes: 55, .. }]), "{plan:?}");
}

#[test]
fn what_nobody_may_do_is_told_and_still_planned() {
    let jobs = vec![Job { people: vec![], ..job(0, 10, 0, 0) }, job(1, 5, 0, 0)];
    let plan = schedule(&kitchen(vec![cook()], vec![], jobs), Effort::Normal);
    assert_eq!(plan.impossible, vec![Impossible::Nobody { job: 0 }]);
    assert_eq!(plan.placed[0], Placed { start: 0, person: None, out_person: None, set_to: None });
    let alone = schedule(&kitchen(vec![], vec![plain(1)], vec![on(0, None, job(0, 0, 20, 0))]), Effort::Normal);
    assert_eq!((alone.impossible, alone.finish), (vec![Impossible::Absent { job: 0 }], 20));
}

#[test]
fn what_takes_more_room_than_there_is_and_steps_in_a_circle_are_told() {
    let jobs = vec![Job { machines: vec![(0, 3)], ..job(0, 5, 5, 0) }, job(1, 5, 0, 0)];
    let mut problem = kitchen(vec![cook()], vec![plain(2)], jobs);
    problem.links = vec![link(0, 1), link(1, 0)];
    let plan = schedule(&problem, Effort::Normal);
    assert_eq!(plan.impossible, vec![Impossible::Room { job: 0, machine: 0 }, Impossible::Circle { link: 1 }]);
}

#[test]
fn steps_that_take_years_still_get_a_plan() {
    let jobs = vec![job(0, 5, 900_000, 0), job(0, 5, 900_000, 0)];
    let mut problem = kitchen(vec![cook()], vec![], jobs);
    problem.links = vec![link(0, 1)];
    assert_eq!(starts(&schedule(&problem, Effort::Normal)), vec![0, 900_005]);
}

#[test]
fn the_same_problem_gets_the_same_plan() {
    let problem = super::random::afternoon(7, 30);
    assert_eq!(schedule(&problem, Effort::Low), schedule(&problem, Effort::Low));
}

fn helper() -> Worker {
    Worker { helper: true, ..cook() }
}

/// Served at 60, held 10 min at most: 20 min on the hob end at 50 to 60, so they begin at 30 to 40. The finish is that of the 15 min of
/// chopping.
#[test]
fn what_is_served_ends_within_its_hold_and_leaves_the_finish_alone() {
    let serve = Some(Serve { at: 60, hold: 10 });
    let jobs = vec![Job { serve, uncounted: true, ..on(0, None, job(0, 0, 20, 0)) }, job(1, 15, 0, 0)];
    let plan = proven(&kitchen(vec![cook()], vec![plain(1)], jobs));
    assert_eq!((plan.finish, plan.unheld.len()), (15, 0));
    assert!((30..=40).contains(&plan.placed[0].start), "{plan:?}");
}

/// Two dishes of 30 min each for one ring, both served at 60 at once: one ends at 60, the other 30 min before.
#[test]
fn a_hold_that_cannot_be_kept_is_broken_by_the_fewest_minutes() {
    let serve = Some(Serve { at: 60, hold: 0 });
    let dish = |making| Job { serve, uncounted: true, ..on(0, None, job(making, 0, 30, 0)) };
    let plan = schedule(&kitchen(vec![cook()], vec![plain(1)], vec![dish(0), dish(1)]), Effort::Normal);
    assert_eq!(plan.unheld.iter().map(|(_, minutes)| minutes).sum::<i64>(), 30);
    assert!(plan.none_keeps_all);
}

/// A cook who leaves at 40 has 10 min to mix, an hour's marinade and 5 min to finish: the hour gives way before the cook stays.
#[test]
fn a_gap_gives_way_before_anybody_stays_longer() {
    let mut problem = kitchen(vec![Worker { until: Some(40), ..cook() }], vec![], vec![job(0, 10, 0, 0), job(0, 5, 0, 0)]);
    problem.links = vec![Link { gap: 60, ..link(0, 1) }];
    let plan = proven(&problem);
    assert_eq!((plan.hurried, plan.stays, plan.finish), (vec![(0, 35)], vec![], 40));
}

/// The fridge sets a cream for 40 min after the cook has gone at 10; on a hob somebody would have to stay.
#[test]
fn only_what_heats_is_watched() {
    let jobs = vec![on(0, None, job(0, 5, 40, 0))];
    let people = vec![Worker { until: Some(10), ..cook() }];
    let fridge = Machine { watched: false, ..plain(1) };
    assert_eq!(proven(&kitchen(people.clone(), vec![fridge], jobs.clone())).stays, vec![]);
    assert_eq!(proven(&kitchen(people, vec![plain(1)], jobs)).stays, vec![(0, 35)]);
}

/// Two makings of two steps each, two people: nobody hands over.
#[test]
fn whoever_begins_a_making_goes_on_with_it() {
    let jobs = vec![job(0, 10, 0, 0), job(0, 10, 0, 0), job(1, 10, 0, 0), job(1, 10, 0, 0)];
    let jobs = jobs.into_iter().map(|job| Job { people: vec![0, 1], ..job }).collect();
    let mut problem = kitchen(vec![cook(), cook()], vec![], jobs);
    problem.links = vec![link(0, 1), link(2, 3)];
    let plan = proven(&problem);
    let people: Vec<Option<usize>> = plan.placed.iter().map(|placed| placed.person).collect();
    assert_eq!((plan.finish, people[0], people[2]), (20, people[1], people[3]));
}

/// One step of 10 min that cook or helper may do: the helper does it.
#[test]
fn whoever_is_there_to_help_helps() {
    let jobs = vec![Job { people: vec![0, 1], ..job(0, 10, 0, 0) }];
    assert_eq!(proven(&kitchen(vec![cook(), helper()], vec![], jobs)).placed[0].person, Some(1));
}

/// One cook, one ring and two makings, each 5 min of hands, 20 min on the ring and 5 min of hands: one after the other nothing stands
/// idle, and 60 min are within the 90.
#[test]
fn a_calm_plan_finishes_within_its_time_and_stands_idle_least() {
    let steps = |making| [job(making, 5, 0, 0), on(0, None, job(making, 0, 20, 0)), job(making, 5, 0, 0)];
    let mut problem = kitchen(vec![cook()], vec![plain(1)], steps(0).into_iter().chain(steps(1)).collect());
    problem.links = vec![link(0, 1), link(1, 2), link(3, 4), link(4, 5)];
    problem.aim = Aim::Calm { by: 90 };
    let plan = schedule(&problem, Effort::Normal);
    assert_eq!(faults(&problem, &plan), Vec::<String>::new());
    assert!(plan.finish <= 90);
    assert_eq!(super::checker::idle(&problem, &plan), 0);
}

/// At 20 the roast is in since 0 and comes out at 45 to 46. The cook puts the second load into the oven as it stands, without a warm-up, and
/// has 5 min to do after it, which do not fit before 45: from 46 to 51. The load comes out at 45 at the latest, so it goes in at 22.
#[test]
fn a_session_under_way_is_planned_from_now_on() {
    let at = Some(180.0);
    let mut jobs = vec![on(0, at, job(0, 2, 43, 1)), on(0, at, job(1, 2, 20, 1)), job(1, 5, 0, 0)];
    jobs[0].fixed = Some(Fixed { start: 0, person: Some(0), out_person: None, set_to: at });
    let mut problem = kitchen(vec![cook()], vec![oven(2, 0.0, 10)], jobs);
    problem.links = vec![link(1, 2)];
    problem.now = 20;
    let plan = schedule(&problem, Effort::Normal);
    assert_eq!(starts(&plan), vec![0, 22, 46]);
    assert_eq!((plan.finish, plan.none_keeps_all), (51, false));
}

/// 10 + 10 min of a cook who leaves at 22: 22 min with hands a tenth slower, 24 min a fifth slower.
#[test]
fn slower_hands_do_the_same_in_the_same_order() {
    let mut problem = kitchen(vec![Worker { until: Some(22), ..cook() }], vec![], vec![job(0, 10, 0, 0), job(0, 10, 0, 0)]);
    problem.links = vec![Link { within: Some(0), why: LinkWhy::Within, ..link(0, 1) }];
    let plan = proven(&problem);
    assert_eq!(slower(&problem, &plan, 10), Slower { finish: 22, ..Slower::default() });
    let fifth = slower(&problem, &plan, 20);
    assert_eq!((fifth.finish, fifth.breaks), (24, vec![(Limit::Until { person: 0 }, 2)]));
}

/// What comes at once after two things of 10 min each of one cook is 10 min late for the first of them; a fifth slower 12, and all of that is
/// told, not the 2 that are new.
#[test]
fn a_limit_that_the_plan_breaks_itself_is_told_by_all_its_minutes_of_slower_hands() {
    let mut problem = kitchen(vec![cook()], vec![], vec![job(0, 10, 0, 0), job(1, 10, 0, 0), job(2, 5, 0, 0)]);
    let at_once = |before| Link { within: Some(0), why: LinkWhy::Within, ..link(before, 2) };
    problem.links = vec![at_once(0), at_once(1)];
    let plan = schedule(&problem, Effort::Normal);
    let late = plan.overrun[0].0;
    assert_eq!((plan.overrun.len(), plan.overrun[0].1), (1, 10));
    assert_eq!(slower(&problem, &plan, 20).breaks, vec![(Limit::Within { link: late }, 12)]);
}

/// The cook peels for 30 min, which alone counts. Then 10 min for what is served at 70 and 20 min for what is served at 75. In this order the
/// second ends at 60: hands up to a quarter slower are in time, 60 * 1.25 = 75. The other way round the shorter ends at 60, and already a
/// fifth slower it is late, 60 * 1.2 = 72.
#[test]
fn of_plans_equal_in_all_aims_the_one_with_the_later_breaking_limits_wins() {
    let served = |making, hands, at, hold| {
        let serve = Some(Serve { at, hold });
        Job { serve, uncounted: true, ..job(making, hands, 0, 0) }
    };
    for turned in [false, true] {
        let mut jobs = vec![job(0, 30, 0, 0), served(1, 20, 75, 45), served(2, 10, 70, 40)];
        let (long, short) = if turned { (2, 1) } else { (1, 2) };
        if turned {
            jobs.swap(1, 2);
        }
        let problem = kitchen(vec![cook()], vec![], jobs);
        let plan = proven(&problem);
        let starts = starts(&plan);
        assert!(plan.finish == 30 && starts[short] < starts[long], "{starts:?}");
        assert_eq!(slower(&problem, &plan, 20).breaks, vec![]);
    }
}

/// The roast goes in at 11, when it is peeled: the oven is to be set by 1, in the middle of the peeling. At 0 nothing is in hand yet.
#[test]
fn an_oven_is_set_the_minute_before_where_that_is_between_two_things() {
    let peeled_for = |minutes| {
        let jobs = vec![job(0, minutes, 0, 0), on(0, Some(200.0), job(0, 1, 30, 0))];
        let mut problem = kitchen(vec![cook()], vec![oven(1, 0.0, 10)], jobs);
        problem.links = vec![link(0, 1)];
        let plan = proven(&problem);
        (plan.finish, plan.settings[0].start, plan.settings[0].ready)
    };
    assert_eq!(peeled_for(11), (11 + 31, 0, 10));
    // Neither at 2 nor at 1 is anybody free.
    assert_eq!(peeled_for(12), (12 + 31, 2, 12));
}
