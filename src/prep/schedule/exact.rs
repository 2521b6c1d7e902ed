//! The problem told to a constraint solver: variables, and one constraint a rule.
//!
//! Starts are integers. Two jobs that can never stand side by side get one literal that says which comes first; room is a cumulative
//! constraint; who does what and which setting a load stands in are literals where there is a choice.
//!
//! Beyond thirty-four tasks the solver plans people as so many pairs of hands; who does what is named afterwards.
//! Beyond 160 tasks it is not asked, nor where it would have to remember too much: of every sum it keeps each value that its starts went
//! through, and where two limits clash they go through a whole session, minute by minute. That is little in an afternoon, and gigabytes in
//! a session that lasts for days.

use std::collections::BTreeMap;

use pumpkin_solver::core::constraints::NegatableConstraint;
use pumpkin_solver::core::options::SolverOptions;
use pumpkin_solver::core::predicates::{Predicate, PredicateConstructor};
use pumpkin_solver::core::proof::ConstraintTag;
use pumpkin_solver::core::results::{ProblemSolution, SolutionReference};
use pumpkin_solver::core::variables::{AffineView, DomainId, Literal, TransformableVariable};
use pumpkin_solver::propagators::disjunctive::ArgDisjunctiveTask;
use pumpkin_solver::{Solver, cumulative, disjunctive_strict, less_than_or_equals};

use super::board::Seat;
use super::lag::Lags;
use super::model::{Kind, Model, Task, merged};

/// Megabytes the solver sets aside for what it learns; it asks for more when it needs it.
const MEMORY: usize = 1;

/// So many jobs are planned with people by name; more only with people as hands, who are named afterwards.
const NAMED: usize = 34;

/// More values than this are not kept, at sixteen bytes each. Sessions of an afternoon stay below seven million, up to 84 tasks.
const MOST_KEPT: u64 = 10_000_000;

/// Something about the order of two jobs: known, or a literal.
#[derive(Debug, Clone, Copy)]
pub(super) enum Before {
    Always,
    Never,
    If(Literal),
}

pub(super) struct Exact<'a> {
    pub model: &'a Model,
    pub solver: Solver,
    pub tag: ConstraintTag,
    pub starts: Vec<DomainId>,
    /// Choices and sums, to be fixed after the starts.
    pub others: Vec<DomainId>,
    pub finish: DomainId,
    /// For each hands-on task with a choice: one literal a person; `None` where people are a pool or there is no choice.
    pub doers: BTreeMap<(usize, bool), Vec<(usize, Literal)>>,
    /// For each load (job, place among its loads) with a choice: one literal a setting.
    pub settings: BTreeMap<(usize, usize), Vec<(usize, Literal)>>,
    pub lags: Lags,
    /// The last minute of any plan looked for.
    pub limit: i64,
    /// By how long each person stays, where that may be.
    pub stays: Vec<Option<DomainId>>,
    /// Whether it is told who does what; else only how many hands there are.
    pub named: bool,
    before: BTreeMap<(usize, usize, i64), Before>,
    /// The most values that it may have to keep at once: one for every minute of every start of every sum.
    kept: u64,
}

/// Whether people are told as so many pairs of hands, as long as nobody stays longer than meant.
pub(super) fn only_hands(model: &Model) -> bool {
    model.count() > NAMED
}

impl<'a> Exact<'a> {
    /// `None` where it is plain that no plan finishes by `limit`. `horizon`: the last end of anything, counted or not.
    pub fn new(model: &'a Model, least: i64, limit: i64, horizon: i64) -> Option<Exact<'a>> {
        let window = |job: usize| (model.heads[job], model.last(job, limit).min(horizon - model.minutes[job]));
        if model.contradiction || least > limit || (0..model.count()).any(|job| window(job).0 > window(job).1) {
            return None;
        }
        let mut solver = Solver::with_options(SolverOptions { memory_preallocated: MEMORY, ..SolverOptions::default() });
        let tag = solver.new_constraint_tag();
        let starts = (0..model.count()).map(window).map(|(low, high)| solver.new_bounded_integer(low as i32, high as i32)).collect();
        let finish = solver.new_bounded_integer(least as i32, limit as i32);
        let mut exact = Exact {
            model,
            solver,
            tag,
            starts,
            others: vec![finish],
            finish,
            doers: BTreeMap::new(),
            settings: BTreeMap::new(),
            lags: Lags::new(model),
            limit: limit.max(horizon),
            stays: vec![None; model.hours.len()],
            named: !only_hands(model),
            before: BTreeMap::new(),
            kept: 0,
        };
        exact.post_all();
        (!exact.solver.is_inconsistent()).then_some(exact)
    }

    fn post_all(&mut self) {
        self.post_finish();
        self.post_arcs();
        self.post_stays();
        self.named |= self.stays.iter().any(Option::is_some);
        self.post_presence();
        super::rooms::post(self);
        super::hands::post(self);
    }

    /// One variable for each person whose `until` may be broken.
    fn post_stays(&mut self) {
        if self.model.rules.keep(Kind::Until) {
            return;
        }
        for person in (0..self.model.until.len()).filter(|&person| self.model.until[person] < self.limit) {
            let longest = self.limit - self.model.until[person].min(self.limit);
            let stay = self.solver.new_bounded_integer(0, longest as i32);
            self.stays[person] = Some(stay);
            self.others.push(stay);
        }
    }

    fn post_finish(&mut self) {
        for job in (0..self.model.count()).filter(|&job| self.model.leads_to_finish(job)) {
            let terms = [self.starts[job].scaled(1), self.finish.scaled(-1)];
            self.at_most(terms.to_vec(), -self.model.tails[job]);
        }
    }

    fn post_arcs(&mut self) {
        for arc in &self.model.arcs {
            self.apart(arc.before, arc.after, arc.least);
            if let Some(most) = arc.most {
                self.apart(arc.after, arc.before, -most);
            }
        }
    }

    /// A job that must be watched lies in one stretch of presence, its warm-up included.
    fn post_presence(&mut self) {
        let watched: Vec<usize> = (0..self.model.count()).filter(|&job| self.model.watched[job] && !self.model.fixed[job]).collect();
        for &job in &watched {
            self.attended(job, self.model.warm_up_of(job), &[]);
        }
        if self.stays.iter().any(Option::is_some) {
            self.post_watch(&watched);
        }
    }

    /// Where people may stay longer: after each stretch of hours somebody stays until the jobs begun in it end, or others come.
    fn post_watch(&mut self, watched: &[usize]) {
        let model = self.model;
        let hours: Vec<(i64, i64)> = model.hours.iter().zip(&model.until).map(|(hours, &until)| (hours.0, until)).collect();
        let stretches = merged(&hours);
        let limit = self.limit;
        for (place, &(_, end)) in stretches.iter().enumerate().filter(|(_, stretch)| stretch.1 < limit) {
            let comes = stretches.get(place + 1).map_or(limit, |next| next.0).min(limit);
            let there: Vec<usize> = (0..hours.len()).filter(|&person| hours[person].0 <= end).collect();
            let watch = self.solver.new_bounded_integer(end as i32, comes as i32);
            self.others.push(watch);
            let literals: Vec<Literal> = there.iter().map(|_| self.literal()).collect();
            self.clause(literals.iter().map(|literal| literal.get_true_predicate()).collect());
            for (&person, &literal) in there.iter().zip(&literals) {
                let Some(stay) = self.stays[person] else { continue };
                self.at_most_if(vec![watch.scaled(1), stay.scaled(-1)], model.until[person], literal);
            }
            for &job in watched {
                let first = (comes + model.warm_up_of(job)) as i32;
                let literal = self.literal();
                let later = self.starts[job].lower_bound_predicate(first);
                let covered = watch.lower_bound_predicate(comes as i32);
                let mut any = vec![later, literal.get_true_predicate()];
                if comes < limit {
                    any.push(covered);
                }
                self.clause(any);
                self.at_most_if(vec![self.starts[job].scaled(1), watch.scaled(-1)], -model.minutes[job], literal);
            }
        }
    }

    /// The job, and the warm-up before it, lie in one stretch of presence, unless one of `unless` holds.
    pub fn attended(&mut self, job: usize, warm_up: i64, unless: &[Predicate]) {
        if self.model.fixed[job] {
            return;
        }
        let start = self.starts[job];
        let minutes = self.model.minutes[job];
        let stretches = self.model.presence.iter().map(|&(from, until)| (from + warm_up, until - minutes));
        let stretches: Vec<(i64, i64)> = stretches.filter(|(first, last)| first <= last).collect();
        let or = |mut these: Vec<Predicate>| {
            these.extend_from_slice(unless);
            these
        };
        let (Some(first), Some(last)) = (stretches.first(), stretches.last()) else {
            return self.clause(or(Vec::new()));
        };
        self.clause(or(vec![start.lower_bound_predicate(first.0 as i32)]));
        self.clause(or(vec![start.upper_bound_predicate(last.1 as i32)]));
        for pair in stretches.windows(2) {
            let (left, right) = (start.upper_bound_predicate(pair[0].1 as i32), start.lower_bound_predicate(pair[1].0 as i32));
            self.clause(or(vec![left, right]));
        }
    }

    pub fn literal(&mut self) -> Literal {
        let literal = self.solver.new_literal();
        self.others.push(literal.get_true_predicate().get_domain());
        literal
    }

    /// At least one of them holds.
    pub fn clause(&mut self, any: Vec<Predicate>) {
        if !self.solver.is_inconsistent() {
            self.solver.add_clause(any, self.tag);
        }
    }

    /// The sum of the terms is at most so much.
    pub fn at_most(&mut self, terms: Vec<AffineView<DomainId>>, most: i64) {
        if self.keeps(&terms) {
            self.solver.add_constraint(less_than_or_equals(terms, most as i32, self.tag)).post();
        }
    }

    pub fn at_most_if(&mut self, terms: Vec<AffineView<DomainId>>, most: i64, literal: Literal) {
        if self.keeps(&terms) {
            self.solver.add_constraint(less_than_or_equals(terms, most as i32, self.tag)).implied_by(literal);
        }
    }

    /// Whether one more sum can be told. What is left out makes no plan impossible, and is never missed: see [`Exact::too_much`].
    fn keeps(&mut self, terms: &[AffineView<DomainId>]) -> bool {
        let minutes = |term: &AffineView<DomainId>| i64::from(self.solver.upper_bound(term)) - i64::from(self.solver.lower_bound(term));
        self.kept += terms.iter().map(minutes).sum::<i64>().unsigned_abs();
        !self.too_much() && !self.solver.is_inconsistent()
    }

    /// Whether it would have to remember too much: it must not be asked then.
    pub fn too_much(&self) -> bool {
        self.kept > MOST_KEPT
    }

    fn difference(&self, first: usize, second: usize) -> Vec<AffineView<DomainId>> {
        vec![self.starts[first].scaled(1), self.starts[second].scaled(-1)]
    }

    /// `second` starts at least `minutes` after `first` starts.
    pub fn apart(&mut self, first: usize, second: usize, minutes: i64) {
        self.at_most(self.difference(first, second), -minutes);
    }

    fn earliest(&self, job: usize) -> i64 {
        i64::from(self.solver.lower_bound(&self.starts[job]))
    }

    fn latest(&self, job: usize) -> i64 {
        i64::from(self.solver.upper_bound(&self.starts[job]))
    }

    /// Whether `second` must, can or cannot start at least `minutes` after `first` does.
    fn known(&self, first: usize, second: usize, minutes: i64) -> Option<bool> {
        if self.lags.least(first, second).is_some_and(|lag| lag >= minutes) || self.latest(first) + minutes <= self.earliest(second) {
            return Some(true);
        }
        let back = self.lags.least(second, first).is_some_and(|lag| lag > -minutes);
        (back || self.earliest(first) + minutes > self.latest(second)).then_some(false)
    }

    /// One of two orders holds: `second` at least `there` after `first`, or `first` at least `back` after `second`.
    pub fn one_after_the_other(&mut self, (first, second): (usize, usize), there: i64, back: i64) {
        match (self.known(first, second, there), self.known(second, first, back)) {
            (Some(true), _) | (_, Some(true)) => {}
            (Some(false), Some(false)) => self.clause(Vec::new()),
            (Some(false), None) => self.apart(second, first, back),
            (None, Some(false)) => self.apart(first, second, there),
            (None, None) => {
                let literal = self.literal();
                self.at_most_if(self.difference(first, second), -there, literal);
                self.at_most_if(self.difference(second, first), -back, !literal);
            }
        }
    }

    /// A literal that, when true, keeps `second` at least `minutes` after `first`.
    pub fn before(&mut self, first: usize, second: usize, minutes: i64) -> Before {
        if let Some(&before) = self.before.get(&(first, second, minutes)) {
            return before;
        }
        let before = match self.known(first, second, minutes) {
            Some(true) => Before::Always,
            Some(false) => Before::Never,
            None => {
                let literal = self.literal();
                let terms = self.difference(first, second);
                // Two sums: as it stands where the literal is true, turned round where it is false.
                if self.keeps(&terms) && self.keeps(&terms) {
                    let constraint = less_than_or_equals(terms, -minutes as i32, self.tag);
                    constraint.reify(&mut self.solver, literal);
                }
                Before::If(literal)
            }
        };
        self.before.insert((first, second, minutes), before);
        before
    }

    /// Either order, unless one of `unless` holds.
    pub fn ordered_unless(&mut self, orders: [Before; 2], mut unless: Vec<Predicate>) {
        for order in orders {
            match order {
                Before::Always => return,
                Before::Never => {}
                Before::If(literal) => unless.push(literal.get_true_predicate()),
            }
        }
        self.clause(unless);
    }

    /// Never more than `room` at once; each load is (job, minutes after its start, minutes, amount), and `fixed` ones are (start, end).
    pub fn cumulative(&mut self, loads: &[(usize, i64, i64, i64)], fixed: &[(i64, i64)], room: i64) {
        if self.solver.is_inconsistent() || self.too_much() {
            return;
        }
        let mut variables: Vec<AffineView<DomainId>> =
            loads.iter().map(|&(job, offset, ..)| self.starts[job].scaled(1).offset(offset as i32)).collect();
        let mut minutes: Vec<i32> = loads.iter().map(|load| load.2 as i32).collect();
        let mut amounts: Vec<i32> = loads.iter().map(|load| load.3 as i32).collect();
        for &(start, end) in fixed.iter().filter(|(start, end)| start < end) {
            variables.push(self.solver.new_bounded_integer(start as i32, start as i32).scaled(1));
            minutes.push((end - start) as i32);
            amounts.push(1);
        }
        self.solver.add_constraint(cumulative(variables, minutes, amounts, room as i32, self.tag)).post();
    }

    /// Never two at once, each (job, minutes after its start, minutes): what edge-finding sees beyond pairs.
    pub fn disjunctive(&mut self, mut stretches: Vec<(usize, i64, i64)>) {
        stretches.retain(|stretch| stretch.2 > 0 && !self.model.fixed[stretch.0]);
        if stretches.len() < 3 || self.solver.is_inconsistent() || self.too_much() {
            return;
        }
        let task = |&(job, offset, minutes): &(usize, i64, i64)| ArgDisjunctiveTask {
            start_time: self.starts[job].scaled(1).offset(offset as i32),
            processing_time: minutes as i32,
        };
        let tasks: Vec<ArgDisjunctiveTask<AffineView<DomainId>>> = stretches.iter().map(task).collect();
        self.solver.add_constraint(disjunctive_strict(tasks, self.tag)).post();
    }

    /// What a known plan says of every variable with a choice.
    pub fn known_values(&self, seats: &[Seat]) -> Vec<(DomainId, i32)> {
        let mut known: Vec<(DomainId, i32)> = self.starts.iter().zip(seats).map(|(&start, seat)| (start, seat.start as i32)).collect();
        let mut say = |choices: &[(usize, Literal)], chosen: Option<usize>| {
            known.extend(
                choices.iter().map(|&(choice, literal)| (literal.get_true_predicate().get_domain(), i32::from(Some(choice) == chosen))),
            );
        };
        for (&(job, out), doers) in &self.doers {
            say(doers, if out { seats[job].out } else { seats[job].hands });
        }
        for (&(job, load), settings) in &self.settings {
            say(settings, seats[job].settings[load]);
        }
        known
    }

    /// The plan that a solution stands for; `None` where the people cannot be named for it.
    pub fn read(&self, solution: SolutionReference) -> Option<Vec<Seat>> {
        let start = |job: usize| i64::from(solution.get_integer_value(self.starts[job]));
        let chosen = |choices: Option<&Vec<(usize, Literal)>>| {
            choices?.iter().find(|(_, literal)| solution.get_literal_value(*literal)).map(|&(choice, _)| choice)
        };
        let mut seats: Vec<Seat> = (0..self.model.count())
            .map(|job| Seat {
                start: start(job),
                hands: self.doer(&self.model.hands[job], chosen(self.doers.get(&(job, false)))),
                out: self.doer(&self.model.outs[job], chosen(self.doers.get(&(job, true)))),
                settings: self.model.loads[job]
                    .iter()
                    .enumerate()
                    .map(|(place, load)| chosen(self.settings.get(&(job, place))).or(load.settings.first().copied()))
                    .collect(),
            })
            .collect();
        let named = super::hands::hand_out(self.model, &mut seats, self.named);
        named.then_some(seats)
    }

    fn doer(&self, task: &Option<Task>, chosen: Option<usize>) -> Option<usize> {
        let task = task.as_ref()?;
        chosen.or_else(|| (task.people.len() == 1).then(|| task.people[0]))
    }
}

impl Exact<'_> {
    /// The sum of minutes by which limits of this kind are broken, at most `most`; of each job the worst counts.
    pub fn broken(&mut self, kind: Kind, most: i64) -> DomainId {
        let mut worst: BTreeMap<usize, DomainId> = BTreeMap::new();
        let checks = self.model.checks.clone();
        for check in checks.iter().filter(|check| check.kind == kind && !self.model.fixed[check.after]) {
            let over = *worst.entry(check.after).or_insert_with(|| self.solver.new_bounded_integer(0, most as i32));
            let sign = check.sign as i32;
            let mut terms = vec![self.starts[check.after].scaled(sign), over.scaled(-1)];
            terms.extend(check.before.map(|before| self.starts[before].scaled(-sign)));
            self.at_most(terms, check.most);
        }
        if kind == Kind::Until {
            worst.extend(self.stays.iter().enumerate().filter_map(|(person, stay)| stay.map(|stay| (person, stay))));
        } else {
            self.others.extend(worst.values());
        }
        let mut terms: Vec<AffineView<DomainId>> = worst.values().map(|over| over.scaled(1)).collect();
        let sum = self.solver.new_bounded_integer(0, most as i32);
        self.others.push(sum);
        terms.push(sum.scaled(-1));
        self.at_most(terms, 0);
        sum
    }

    /// The sum of idle minutes, and a minimum for it. Where links keep a making's jobs in order the sum telescopes to few starts.
    pub fn idle(&mut self, most: i64) -> (DomainId, i64) {
        let model = self.model;
        let mut weights = vec![0; model.count()];
        let mut terms: Vec<AffineView<DomainId>> = Vec::new();
        let (mut minutes, mut floor) = (0, 0);
        for &(job, next) in &model.pairs {
            let lag = self.lags.least(job, next);
            floor += lag.map_or(0, |lag| (lag - model.minutes[job]).max(0));
            if lag.is_some_and(|lag| lag >= model.minutes[job]) {
                weights[next] += 1;
                weights[job] -= 1;
                minutes += model.minutes[job];
            } else {
                let gap = self.solver.new_bounded_integer(0, most as i32);
                self.others.push(gap);
                self.at_most(vec![self.starts[next].scaled(1), self.starts[job].scaled(-1), gap.scaled(-1)], model.minutes[job]);
                terms.push(gap.scaled(1));
            }
        }
        let weighted = weights.iter().enumerate().filter(|(_, weight)| **weight != 0);
        terms.extend(weighted.map(|(job, &weight)| self.starts[job].scaled(weight)));
        let idle = self.solver.new_bounded_integer(floor.min(most) as i32, most as i32);
        self.others.push(idle);
        terms.push(idle.scaled(-1));
        self.at_most(terms, minutes);
        (idle, floor)
    }
}
