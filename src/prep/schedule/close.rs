//! The starts of a making at which it stands idle least, beside all that is on the table.
//!
//! Its jobs follow one another, so the least sum of idle minutes up to each job and start is told by that of the job before (Bellman 1957,
//! dynamic programming). Among starts as good, one is drawn.

use super::open::Starts;
use super::table::Table;

/// More than any sum of idle minutes.
const NEVER: i64 = i64::MAX / 4;

/// Room to work in, kept from making to making.
#[derive(Debug, Clone, Default)]
pub(super) struct Closer {
    /// One a job: where it fits, and the least idle minutes up to there.
    starts: Vec<Starts>,
    idle: Vec<Vec<i64>>,
    /// The least of `idle - start` of the starts so far.
    least: Vec<i64>,
    row: Vec<usize>,
}

/// How a job follows the one before it in its making.
#[derive(Debug, Clone, Copy)]
struct Step {
    /// Minutes of the job before.
    minutes: i64,
    /// Least and most minutes between the two starts, where a link says so.
    link: Option<(i64, Option<i64>)>,
}

impl Step {
    fn new(table: &Table, before: usize, job: usize) -> Step {
        let model = table.model;
        let arcs = model.into[job].iter().map(|&arc| &model.arcs[arc]).filter(|arc| arc.before == before);
        let link =
            arcs.map(|arc| (arc.least, arc.most)).reduce(|one, other| (one.0.max(other.0), [one.1, other.1].into_iter().flatten().min()));
        Step { minutes: model.minutes[before], link }
    }

    /// Idle minutes, where the second may start there.
    fn idle(self, first: i64, second: i64) -> Option<i64> {
        let lag = second - first;
        let kept = self.link.is_none_or(|(least, most)| lag >= least && most.is_none_or(|most| lag <= most));
        kept.then_some((lag - self.minutes).max(0))
    }
}

impl Table<'_> {
    /// Starts of the jobs, which are off the table, with the least idle minutes; `None` where there are none. A job may still stand in the
    /// way of another of them.
    pub fn closest(&mut self, jobs: &[usize]) -> Option<Vec<i64>> {
        let mut closer = std::mem::take(&mut self.closer);
        let found = closer.closest(self, jobs);
        self.closer = closer;
        found
    }
}

impl Closer {
    fn closest(&mut self, table: &mut Table, jobs: &[usize]) -> Option<Vec<i64>> {
        let many = jobs.len();
        self.starts.resize_with(many.max(self.starts.len()), Starts::default);
        self.idle.resize_with(many.max(self.idle.len()), Vec::new);
        let mut steps = Vec::with_capacity(many);
        for (place, &job) in jobs.iter().enumerate() {
            let window = table.window(job);
            if window.0 > window.1 {
                return None;
            }
            self.starts[place].fill(&table.board, job, window);
            table.set += 1;
            let step = place.checked_sub(1).map(|before| Step::new(table, jobs[before], job));
            steps.push(step);
            self.reach(table, job, place, step);
        }
        self.trace(table, jobs, &steps)
    }

    /// The least idle minutes up to each start of the job.
    fn reach(&mut self, table: &Table, job: usize, place: usize, step: Option<Step>) {
        let (done, rest) = self.idle.split_at_mut(place);
        let (starts, idle) = (&self.starts[place], &mut rest[0]);
        idle.clear();
        idle.resize(starts.open.len(), NEVER);
        let open = || starts.open.iter().enumerate().filter(|(_, open)| **open).map(|(at, _)| at);
        let Some(step) = step else {
            let before = table.board.before[job].and_then(|before| table.ends(before));
            return open().for_each(|at| idle[at] = before.map_or(0, |end| (starts.low + at as i64 - end).max(0)));
        };
        let (low, known) = (self.starts[place - 1].low, &done[place - 1]);
        // The best of the starts up to each, brought to start 0; from the last back, the best of those from each on.
        match step.link {
            Some((least, most)) => {
                // The starts of the job before that may still be best, ascending in both place and `idle - place`.
                let (row, first) = (&mut self.row, &mut 0);
                row.clear();
                let mut next = 0;
                for at in open() {
                    let start = starts.low + at as i64 - low;
                    while next < known.len() && next as i64 <= start - least {
                        if known[next] < NEVER {
                            let worse = |&other: &usize| known[other] - other as i64 >= known[next] - next as i64;
                            while row.len() > *first && row.last().is_some_and(worse) {
                                row.pop();
                            }
                            row.push(next);
                        }
                        next += 1;
                    }
                    while row.len() > *first && most.is_some_and(|most| (row[*first] as i64) < start - most) {
                        *first += 1;
                    }
                    if let Some(&before) = row.get(*first) {
                        idle[at] = known[before] - before as i64 + start - step.minutes;
                    }
                }
            }
            None => {
                running_least(known, &mut self.least);
                let mut beside = vec![NEVER; known.len() + 1];
                (0..known.len()).rev().for_each(|at| beside[at] = known[at].min(beside[at + 1]));
                for at in open() {
                    let ended = starts.low + at as i64 - step.minutes - low;
                    let apart = upto(&self.least, ended).map_or(NEVER, |best| reached(best, ended));
                    idle[at] = apart.min(beside[(ended + 1).clamp(0, known.len() as i64) as usize]);
                }
            }
        }
    }

    /// Back from the last job: of the starts as good, one is drawn.
    fn trace(&self, table: &mut Table, jobs: &[usize], steps: &[Option<Step>]) -> Option<Vec<i64>> {
        let last = jobs.len() - 1;
        let job = jobs[last];
        let (low, idle) = (self.starts[last].low, &self.idle[last]);
        let next = table.board.next[job].and_then(|next| table.board.seats[next].as_ref()).map(|seat| seat.start);
        let after = |at: usize| next.map_or(0, |next| (next - low - at as i64 - table.model.minutes[job]).max(0));
        let cost = |at: usize| if idle[at] < NEVER { idle[at] + after(at) } else { NEVER };
        let best = (0..idle.len()).map(cost).min().filter(|best| *best < NEVER)?;
        // At an edge of where it could stand it leaves the most room to others.
        let edges = table.draw.below(2) == 0;
        let good = |at: usize| at < idle.len() && cost(at) == best;
        let fits = |&at: &usize| good(at) && !(edges && at > 0 && good(at - 1) && good(at + 1));
        let many = (0..idle.len()).filter(fits).count();
        let drawn = table.draw.below(many);
        let at = (0..idle.len()).filter(fits).nth(drawn)?;
        let mut found = vec![low + at as i64; jobs.len()];
        let mut sum = idle[at];
        for place in (1..jobs.len()).rev() {
            let (step, low, known) = (steps[place]?, self.starts[place - 1].low, &self.idle[place - 1]);
            let start = found[place];
            let fits = |&before: &usize| {
                known[before] < NEVER && step.idle(low + before as i64, start).is_some_and(|gap| known[before] + gap == sum)
            };
            let near = span(low, known.len(), step, start);
            let many = near.clone().filter(fits).count();
            let before = near.filter(fits).nth(if many > 1 { table.draw.below(many) } else { 0 })?;
            found[place - 1] = low + before as i64;
            sum = known[before];
        }
        Some(found)
    }
}

/// The starts of the job before that its link allows, as places.
fn span(low: i64, many: usize, step: Step, start: i64) -> std::ops::Range<usize> {
    let (first, last) = match step.link {
        Some((least, most)) => (most.map_or(low, |most| start - most), start - least),
        None => (low, low + many as i64),
    };
    let from = (first - low).clamp(0, many as i64);
    from as usize..(last - low + 1).clamp(from, many as i64) as usize
}

fn reached(best: i64, minutes: i64) -> i64 {
    if best < NEVER / 2 { best + minutes } else { NEVER }
}

fn running_least(known: &[i64], least: &mut Vec<i64>) {
    let mut best = NEVER;
    least.clear();
    least.extend(known.iter().enumerate().map(|(at, &idle)| {
        best = best.min(if idle < NEVER { idle - at as i64 } else { NEVER });
        best
    }));
}

fn upto(least: &[i64], last: i64) -> Option<i64> {
    if last < 0 { None } else { least.get((last as usize).min(least.len().checked_sub(1)?)).copied() }
}
