//! Which decision the solver takes next: first those of a known plan, then those that conflicts point at, then the earliest start.

use std::cell::Cell;
use std::rc::Rc;

use pumpkin_solver::core::branching::branchers::autonomous_search::AutonomousSearch;
use pumpkin_solver::core::branching::{Brancher, BrancherEvent, SelectionContext};
use pumpkin_solver::core::predicates::{Predicate, PredicateConstructor};
use pumpkin_solver::core::results::SolutionReference;
use pumpkin_solver::core::termination::TerminationCondition;
use pumpkin_solver::core::variables::DomainId;

/// How many decisions and conflicts the solver may still spend, so that the same question always gets the same answer. A conflict that
/// takes long to be taken apart counts for more than one, and so does a decision that moves much.
#[derive(Debug)]
pub(super) struct Steps {
    pub left: u64,
}

/// Stops the solver when its steps are spent, right after a decision: stopped with nothing decided, it cannot be asked again.
#[derive(Debug)]
pub(super) struct Stop {
    pub left: u64,
    pub decided: Rc<Cell<bool>>,
    /// As [`Guide::seen`].
    pub seen: Rc<Cell<u64>>,
    /// Changes of bounds that no step has paid for yet.
    pub changes: Rc<Cell<u64>>,
}

/// So many predicates of conflicts are as much work as a decision.
const PREDICATES_A_STEP: u64 = 32;

/// So many changes of bounds come with a step; where there are more, they are as much work as more steps.
const CHANGES_A_STEP: u64 = 40;

impl TerminationCondition for Stop {
    fn should_stop(&mut self) -> bool {
        let seen = self.seen.get();
        self.seen.set(seen % PREDICATES_A_STEP);
        let steps = 1 + seen / PREDICATES_A_STEP;
        let unpaid = self.changes.get().saturating_sub(steps * CHANGES_A_STEP);
        self.changes.set(unpaid % CHANGES_A_STEP);
        self.left = self.left.saturating_sub(steps + unpaid / CHANGES_A_STEP);
        self.left == 0 && self.decided.get()
    }
}

/// Follows a known plan to the first solution, then searches around the best one found.
#[derive(Debug)]
pub(super) struct Guide {
    known: Vec<(DomainId, i32)>,
    following: bool,
    /// Whether the solver's last move was a decision.
    pub decided: Rc<Cell<bool>>,
    /// Predicates seen while conflicts were taken apart.
    pub seen: Rc<Cell<u64>>,
    search: AutonomousSearch<Forward>,
}

impl Guide {
    pub fn new(known: Vec<(DomainId, i32)>, starts: Vec<DomainId>, others: Vec<DomainId>) -> Guide {
        let following = !known.is_empty();
        Guide { known, following, decided: Rc::default(), seen: Rc::default(), search: AutonomousSearch::new(Forward { starts, others }) }
    }
}

impl Brancher for Guide {
    fn next_decision(&mut self, context: &mut SelectionContext) -> Option<Predicate> {
        self.decided.set(true);
        if self.following {
            let wishes = self.known.iter().map(|&(variable, value)| variable.equality_predicate(value));
            let open = wishes.into_iter().find(|&wish| !context.is_predicate_assigned(wish));
            if open.is_some() {
                return open;
            }
        }
        self.search.next_decision(context)
    }

    fn on_conflict(&mut self) {
        self.following = false;
        self.decided.set(false);
        self.search.on_conflict();
    }

    fn on_solution(&mut self, solution: SolutionReference) {
        self.following = false;
        self.search.on_solution(solution);
    }

    fn on_backtrack(&mut self) {
        self.search.on_backtrack();
    }

    fn on_unassign_integer(&mut self, variable: DomainId, value: i32) {
        self.search.on_unassign_integer(variable, value);
    }

    fn on_appearance_in_conflict_predicate(&mut self, predicate: Predicate) {
        self.seen.set(self.seen.get() + 1);
        self.search.on_appearance_in_conflict_predicate(predicate);
    }

    fn on_restart(&mut self) {
        self.search.on_restart();
    }

    fn synchronise(&mut self, context: &mut SelectionContext) {
        self.search.synchronise(context);
    }

    fn is_restart_pointless(&mut self) -> bool {
        false
    }

    fn subscribe_to_events(&self) -> Vec<BrancherEvent> {
        self.search.subscribe_to_events()
    }
}

/// The job that can start earliest starts there; when all starts are fixed, every other variable takes its least value.
#[derive(Debug)]
struct Forward {
    starts: Vec<DomainId>,
    others: Vec<DomainId>,
}

impl Brancher for Forward {
    fn next_decision(&mut self, context: &mut SelectionContext) -> Option<Predicate> {
        let open = |variable: &&DomainId| !context.is_integer_fixed(**variable);
        let soonest = |variable: &&DomainId| (context.lower_bound(**variable), context.upper_bound(**variable));
        let first = self.starts.iter().filter(open).min_by_key(soonest).or_else(|| self.others.iter().find(open))?;
        Some(first.upper_bound_predicate(context.lower_bound(*first)))
    }

    fn subscribe_to_events(&self) -> Vec<BrancherEvent> {
        Vec::new()
    }
}
