//! Where a job fits beside what is on the table, all its starts at once.
//!
//! It says the same as [`Board::fits`], start by start, in the time that a few of those take.

use super::board::Board;
use super::model::{COLD, Load, Task};

/// The starts of one job that are open, from `low` on.
#[derive(Debug, Clone, Default)]
pub(super) struct Starts {
    pub low: i64,
    pub open: Vec<bool>,
    /// For one of several choices (a setting, a person), and what any of them leaves open.
    choice: Vec<bool>,
    any: Vec<bool>,
    /// Room taken, minute by minute.
    taken: Vec<i64>,
}

/// Up to so many minutes of starts take no more time than to set a job.
const LONG: usize = 900;

/// Closes the starts from `first` to `last`.
fn close(open: &mut [bool], low: i64, first: i64, last: i64) {
    let (from, until) = ((first - low).max(0), (last - low + 1).min(open.len() as i64));
    if from < until {
        open[from as usize..until as usize].fill(false);
    }
}

/// Keeps open only what lies in one of the stretches of first and last starts, which ascend and never overlap.
fn keep(open: &mut [bool], low: i64, stretches: impl Iterator<Item = (i64, i64)>) {
    let mut from = i64::MIN / 2;
    for (first, last) in stretches.filter(|(first, last)| first <= last) {
        close(open, low, from, first - 1);
        from = last + 1;
    }
    close(open, low, from, i64::MAX / 2);
}

impl Starts {
    /// The starts of the job from `low` to `high` at which it fits.
    pub fn fill(&mut self, board: &Board, job: usize, (low, high): (i64, i64)) {
        let model = board.model;
        let minutes = model.minutes[job];
        self.low = low;
        self.open.clear();
        self.open.resize((high - low + 1).max(0) as usize, true);
        board.look(self.open.len() / 16 + 2 * self.open.len().saturating_sub(LONG));
        if model.watched[job] {
            let warm_up = model.warm_up_of(job);
            keep(&mut self.open, low, model.presence.iter().map(|&(from, until)| (from + warm_up, until - minutes)));
        }
        for load in &model.loads[job] {
            self.keep_room(board, load);
            if !load.settings.is_empty() {
                self.keep_settings(board, load);
            }
        }
        for task in [&model.hands[job], &model.outs[job]].into_iter().flatten() {
            self.keep_hands(board, task);
        }
    }

    fn keep_room(&mut self, board: &Board, load: &Load) {
        let room = board.model.room[load.machine];
        let (low, minutes) = (self.low + load.offset, load.minutes);
        let many = self.open.len() as i64 + minutes;
        self.taken.clear();
        board.look(board.held[load.machine].len());
        for hold in &board.held[load.machine] {
            if hold.take + load.take > room {
                close(&mut self.open, low, hold.start - minutes + 1, hold.end - 1);
            } else if hold.take > 0 && hold.start < low + many && hold.end > low {
                self.taken.resize(many as usize, 0);
                let (from, until) = ((hold.start - low).max(0) as usize, (hold.end - low).min(many) as usize);
                self.taken[from..until].iter_mut().for_each(|taken| *taken += hold.take);
            }
        }
        let mut free = -1;
        for (minute, taken) in self.taken.iter().enumerate() {
            // Starts up to the last full minute that reach into it.
            if taken + load.take > room {
                let minute = minute as i64;
                close(&mut self.open, low, (low + minute - minutes + 1).max(low + free + 1), low + minute);
                free = minute;
            }
        }
    }

    fn keep_settings(&mut self, board: &Board, load: &Load) {
        let (low, minutes) = (self.low + load.offset, load.minutes);
        let warm_up = board.model.ovens[load.machine].warm_up;
        let holds = &board.held[load.machine];
        board.look(holds.len() * load.settings.len());
        self.any.clear();
        self.any.resize(self.open.len(), false);
        for &setting in &load.settings {
            self.choice.clear();
            self.choice.resize(self.open.len(), true);
            for hold in holds.iter().filter(|hold| hold.setting.is_some_and(|other| other != setting)) {
                close(&mut self.choice, low, hold.start - warm_up - minutes + 1, hold.end + warm_up - 1);
            }
            if setting != COLD {
                keep(&mut self.choice, low, board.model.presence.iter().map(|&(from, until)| (from + warm_up, until - minutes)));
            }
            self.any.iter_mut().zip(&self.choice).for_each(|(any, choice)| *any |= choice);
        }
        self.open.iter_mut().zip(&self.any).for_each(|(open, any)| *open &= any);
    }

    fn keep_hands(&mut self, board: &Board, task: &Task) {
        let Starts { low, open, choice, any, .. } = self;
        let low = *low;
        let close_for = |open: &mut [bool], person: usize| {
            let (from, until) = board.model.hours[person];
            keep(open, low, std::iter::once((from - task.offset, until - task.minutes - task.offset)));
            board.look(board.busy[person].len() / 2);
            for &(start, end, _) in &board.busy[person] {
                close(open, low, start - task.minutes - task.offset + 1, end - task.offset - 1);
            }
        };
        if let [person] = task.people[..] {
            return close_for(open, person);
        }
        any.clear();
        any.resize(open.len(), false);
        for &person in &task.people {
            choice.clear();
            choice.resize(open.len(), true);
            close_for(choice, person);
            any.iter_mut().zip(choice.iter()).for_each(|(any, choice)| *any |= choice);
        }
        open.iter_mut().zip(any.iter()).for_each(|(open, any)| *open &= any);
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::{Heat, Job, Machine, Problem, Worker};
    use super::super::draw::Draw;
    use super::super::model::{Model, Rules};
    use super::*;

    fn kitchen(draw: &mut Draw) -> Problem {
        let heat = Some(Heat { near: 10.0, warm_up: 7 });
        let people = vec![Worker::default(), Worker { from: 20, until: Some(70), ..Worker::default() }];
        let machines = vec![Machine { room: 2, heat, ..Machine::default() }, Machine { room: 3, ..Machine::default() }];
        let job = |making: usize, draw: &mut Draw| Job {
            making,
            hands: draw.below(6) as i64,
            wait: draw.below(20) as i64,
            out: draw.below(3) as i64,
            machines: vec![(0, 1), (1, 1 + draw.below(2) as i64)].into_iter().skip(draw.below(3)).collect(),
            temperature: [None, Some(180.0), Some(190.0), Some(200.0)][draw.below(4)],
            people: [vec![0], vec![1], vec![0, 1]][draw.below(3)].clone(),
            ..Job::default()
        };
        let jobs = (0..6).map(|making| job(making, draw)).collect();
        Problem { people, machines, jobs, ..Problem::default() }
    }

    #[test]
    fn all_starts_at_once_are_those_at_which_the_job_fits() {
        let mut starts = Starts::default();
        for seed in 0..200 {
            let mut draw = Draw::new(seed);
            let model = Model::new(&kitchen(&mut draw), Rules::ALL);
            let mut board = Board::new(&model);
            for job in 0..5 {
                if let Some(start) = board.earliest(job, draw.below(60) as i64, 100) {
                    board.put(job, start);
                }
            }
            starts.fill(&board, 5, (0, 100));
            let one_by_one: Vec<bool> = (0..=100).map(|start| board.fits(5, start)).collect();
            assert_eq!(starts.open, one_by_one, "seed {seed}");
        }
    }
}
