//! A shorter plan by changes to the order in which jobs are set; each plan is pushed late and then early again.
//!
//! Each job, in the order of a list, is set as early as it fits. Pushed late, last ends first, and then early, first starts first, a plan
//! is hardly ever longer and often shorter (Valls, Ballestín and Quintanilla, Justification and RCPSP, 2005, from memory). Who does what is
//! asked of the list as well: a helper of few hours is busy in them only if others leave to them what they may do.

use super::construct::{Builder, SCALE};
use super::cost::Plan;
use super::draw::Draw;
use super::model::Model;
use super::table::Table;

/// So often the best plan is taken up again.
const ROUNDS: u64 = 8;

/// A plan may be longer than the one before it by this part of it, at first; not at all at the end.
const SLACK: usize = 80;

/// So many minutes of whoever is there to the end count as one minute of the finish.
const LOAD: i64 = 4;

/// The plan shortened towards `bound` within so much work.
pub(super) fn shorten(model: &Model, plan: Plan, bound: i64, most_work: u64) -> Plan {
    let last = plan.seats.iter().zip(&model.minutes).map(|(seat, minutes)| seat.start + minutes).max().unwrap_or(0);
    let table = Table::new(model, &plan.seats, (plan.finish, last), 11);
    if plan.finish <= bound || table.makings.iter().all(Vec::is_empty) {
        return plan;
    }
    let choices = (0..model.count()).filter(|&job| model.hands[job].as_ref().is_some_and(|task| task.people.len() > 1)).collect();
    let mut lister = Lister { builder: Builder::by_list(model, most_work), table, draw: Draw::new(11), best: plan.clone(), plan, choices };
    let mut round = 0;
    while lister.best.finish > bound && lister.work() < most_work {
        lister.step(most_work);
        if lister.work() * ROUNDS / most_work > round {
            round += 1;
            lister.plan = lister.best.clone();
        }
    }
    lister.best
}

struct Lister<'a> {
    builder: Builder<'a>,
    table: Table<'a>,
    draw: Draw,
    plan: Plan,
    best: Plan,
    /// Jobs whose hands more than one may lend.
    choices: Vec<usize>,
}

impl Lister<'_> {
    fn work(&self) -> u64 {
        self.builder.work() + self.table.work()
    }

    /// One list tried; kept where its plan is no longer, or little.
    fn step(&mut self, most_work: u64) {
        let list = self.list();
        self.ask();
        let Some(plan) = self.builder.build(&list) else {
            // Nothing is placed where the rules contradict each other.
            self.table.set += 1;
            return;
        };
        let left = most_work.saturating_sub(self.work()) as usize;
        let slack = self.plan.finish as usize / SLACK * left / most_work as usize;
        let slack = self.draw.below(1 + slack);
        let slack = self.draw.below(1 + slack) as i64;
        let plan = self.justified(plan);
        let worth = |plan: &Plan| LOAD * plan.finish + self.load(plan);
        if worth(&plan) <= worth(&self.plan) + LOAD * slack {
            self.plan = plan;
        }
        if self.plan.finish < self.best.finish {
            self.best = self.plan.clone();
        }
    }

    /// Minutes of whoever of those who are there to the end has most to do.
    fn load(&self, plan: &Plan) -> i64 {
        let model = self.table.model;
        let mut minutes = vec![0; model.hours.len()];
        for (job, seat) in plan.seats.iter().enumerate() {
            for (task, person) in [(&model.hands[job], seat.hands), (&model.outs[job], seat.out)] {
                if let (Some(task), Some(person)) = (task, person)
                    && model.hours[person].1 >= plan.finish
                {
                    minutes[person] += task.minutes;
                }
            }
        }
        minutes.into_iter().max().unwrap_or(0)
    }

    /// Asks for each task whoever does it in the plan, but for a few; now and then whoever is free.
    fn ask(&mut self) {
        let asked = &mut self.builder.board.asked;
        asked.fill(None);
        if self.choices.is_empty() || self.draw.below(4) == 0 {
            return;
        }
        self.choices.iter().for_each(|&job| asked[job] = self.plan.seats[job].hands);
        for _ in 0..self.draw.below(4) {
            let job = self.choices[self.draw.below(self.choices.len())];
            if let Some(task) = &self.table.model.hands[job] {
                asked[job] = if self.draw.below(3) == 0 { None } else { Some(task.people[self.draw.below(task.people.len())]) };
            }
        }
    }

    /// The list of the plan with a change or two: what comes first has the highest priority.
    fn list(&mut self) -> Vec<i64> {
        let mut at: Vec<i64> = self.plan.seats.iter().map(|seat| seat.start * SCALE).collect();
        for _ in 0..=self.draw.below(2) {
            match self.draw.below(4) {
                0 => self.move_making(&mut at),
                1 => self.move_part(&mut at),
                2 => self.shuffle(&mut at),
                _ => self.exchange(&mut at),
            }
        }
        at.into_iter().map(|at| -at).collect()
    }

    /// A way to move something in a list: mostly a short one.
    fn by(&mut self) -> i64 {
        let half = (self.plan.finish * SCALE / 2) as usize;
        let most = 1 + self.draw.below(half);
        let by = 1 + self.draw.below(most) as i64;
        if self.draw.below(2) == 0 { by } else { -by }
    }

    fn move_making(&mut self, at: &mut [i64]) {
        let by = self.by();
        let making = self.draw.below(self.table.makings.len());
        self.table.makings[making].iter().for_each(|&job| at[job] += by);
    }

    /// Moves a job, with what comes before it in its making where it goes earlier, with what comes after it where it goes later.
    fn move_part(&mut self, at: &mut [i64]) {
        let job = self.draw.below(at.len());
        let to = at[job] + self.by();
        let jobs = &self.table.makings[self.table.piece[job]];
        let place = jobs.iter().position(|&other| other == job).unwrap_or(0);
        if to < at[job] {
            jobs.iter().take(place + 1).for_each(|&one| at[one] = at[one].min(to));
        } else {
            jobs.iter().skip(place).for_each(|&one| at[one] = at[one].max(to));
        }
    }

    /// Draws anew the order of all that starts within a while.
    fn shuffle(&mut self, at: &mut [i64]) {
        let from = self.draw.below((self.plan.finish * SCALE) as usize) as i64;
        let wide = SCALE * (10 + self.draw.below(50) as i64);
        for one in at.iter_mut().filter(|one| (from..from + wide).contains(*one)) {
            *one = from + self.draw.below(wide as usize) as i64;
        }
    }

    /// Two jobs change places.
    fn exchange(&mut self, at: &mut [i64]) {
        let one = self.draw.below(at.len());
        let to = at[one] + self.by();
        let other = (0..at.len()).filter(|&other| other != one).min_by_key(|&other| (at[other] - to).abs());
        at.swap(one, other.unwrap_or(one));
    }

    /// The plan with every job set as late as it fits, last ends first, and then as early, first starts first.
    fn justified(&mut self, plan: Plan) -> Plan {
        let table = &mut self.table;
        table.board.clear();
        table.board.asked.clone_from(&self.builder.board.asked);
        plan.seats.iter().enumerate().for_each(|(job, seat)| table.board.seat(job, seat.clone()));
        let end = |job: usize| plan.seats[job].start + table.model.minutes[job];
        let last = (0..plan.seats.len()).map(end).max().unwrap_or(0);
        let mut jobs: Vec<usize> = (0..plan.seats.len()).filter(|&job| !table.model.fixed[job]).collect();
        jobs.sort_by_key(|&job| std::cmp::Reverse((end(job), job)));
        (table.limit, table.horizon) = (plan.finish, last);
        for &job in &jobs {
            let Some(seat) = table.board.take_off(job) else { continue };
            if !table.set_late(job, last) {
                table.board.seat(job, seat);
            }
        }
        jobs.sort_by_key(|&job| (table.start(job), job));
        for &job in &jobs {
            let Some(seat) = table.board.take_off(job) else { continue };
            if !table.set_early(job, 0) {
                table.board.seat(job, seat);
            }
        }
        table.seats().map_or(plan, |seats| Plan::of(table.model, seats))
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::{Job, Problem, Worker};
    use super::super::board::Seat;
    use super::super::model::Rules;
    use super::super::ready;
    use super::*;

    fn job(making: usize, hands: i64, wait: i64, people: &[usize]) -> Job {
        Job { making, hands, wait, people: people.to_vec(), ..Job::default() }
    }

    fn cook() -> Worker {
        Worker::default()
    }

    fn plan(model: &Model, seats: &[(i64, usize)]) -> Plan {
        let seat = |&(start, person): &(i64, usize)| Seat { start, hands: Some(person), out: None, settings: vec![] };
        Plan::of(model, seats.iter().map(seat).collect())
    }

    fn lister<'a>(model: &'a Model, plan: &Plan, seed: u64) -> Lister<'a> {
        let table = Table::new(model, &plan.seats, (plan.finish, plan.finish), seed);
        let (builder, choices) = (Builder::by_list(model, 1_000), Vec::new());
        Lister { builder, table, draw: Draw::new(seed), best: plan.clone(), plan: plan.clone(), choices }
    }

    fn starts(plan: &Plan) -> Vec<i64> {
        plan.seats.iter().map(|seat| seat.start).collect()
    }

    /// Late: the second from 20 to 25, the first right before it. Early: from 0 to 5, and from 5 to 10.
    #[test]
    fn a_plan_pushed_late_and_then_early_leaves_nothing_unused() {
        let jobs = vec![job(0, 5, 0, &[0]), job(1, 5, 0, &[0])];
        let model = ready(&Problem { people: vec![cook()], jobs, ..Problem::default() }, Rules::ALL);
        let loose = plan(&model, &[(5, 0), (20, 0)]);
        let pushed = lister(&model, &loose, 1).justified(loose);
        assert_eq!((starts(&pushed), pushed.finish), (vec![0, 5], 10));
    }

    /// One pair of hands: 10 min first, then 2 min and a wait of 20: 32. With what waits first, the 10 min fall into the wait: 22.
    #[test]
    fn what_waits_long_comes_to_the_head_of_the_list() {
        let jobs = vec![job(0, 10, 0, &[0]), job(1, 2, 20, &[0])];
        let model = ready(&Problem { people: vec![cook()], jobs, ..Problem::default() }, Rules::ALL);
        let shorter = shorten(&model, plan(&model, &[(0, 0), (10, 0)]), 22, 1_000);
        assert_eq!((starts(&shorter), shorter.finish), (vec![2, 0], 22));
    }

    /// Two washes of 20 min, by anybody, and 20 min of the knife, by the cook alone; the helper leaves after 40 min. All three by the cook
    /// take 60; with both washes left to the helper, 40.
    #[test]
    fn a_helper_of_few_hours_is_given_what_others_leave() {
        let helper = Worker { until: Some(40), helper: true, ..Worker::default() };
        let jobs = vec![job(0, 20, 0, &[0, 1]), job(1, 20, 0, &[0, 1]), job(2, 20, 0, &[0])];
        let model = ready(&Problem { people: vec![cook(), helper], jobs, ..Problem::default() }, Rules::ALL);
        let shorter = shorten(&model, plan(&model, &[(0, 0), (20, 0), (40, 0)]), 30, 2_000);
        assert_eq!(shorter.finish, 40);
        assert_eq!(shorter.seats[2].hands, Some(0));
    }

    #[test]
    fn a_part_of_a_making_that_is_moved_takes_what_must_be_before_or_after_it_along() {
        let jobs: Vec<Job> = (0..9).map(|at| job(at / 3, 5, 0, &[0])).collect();
        let model = ready(&Problem { people: vec![cook()], jobs, ..Problem::default() }, Rules::ALL);
        let known = plan(&model, &(0..9).map(|at| (5 * at, 0)).collect::<Vec<_>>());
        for seed in 0..100 {
            let mut at: Vec<i64> = starts(&known).into_iter().map(|start| start * SCALE).collect();
            let before = at.clone();
            lister(&model, &known, seed).move_part(&mut at);
            assert!(at.chunks(3).all(|making| making.is_sorted()), "seed {seed}: {at:?}");
            assert_eq!((0..3).filter(|making| at[3 * making..3 * making + 3] != before[3 * making..3 * making + 3]).count(), 1);
        }
    }

    /// Without work nothing is tried, and a plan at its bound is left as it is; twice asked, twice the same.
    #[test]
    fn lists_keep_to_their_work_and_say_the_same_twice() {
        let jobs = vec![job(0, 10, 0, &[0]), job(1, 2, 20, &[0]), job(2, 3, 10, &[0]), job(3, 7, 0, &[0])];
        let model = ready(&Problem { people: vec![cook()], jobs, ..Problem::default() }, Rules::ALL);
        let known = plan(&model, &[(0, 0), (10, 0), (12, 0), (15, 0)]);
        assert_eq!(known.finish, 32);
        assert_eq!(shorten(&model, known.clone(), 20, 0), known);
        assert_eq!(shorten(&model, known.clone(), 32, 1_000), known);
        let once = shorten(&model, known.clone(), 20, 1_000);
        assert_eq!(once, shorten(&model, known, 20, 1_000));
        assert_eq!(once.finish, 22);
    }
}
