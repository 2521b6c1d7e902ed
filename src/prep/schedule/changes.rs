//! How much a solver step costs: every change of a bound is counted as it is made.
//!
//! One decision may move a start through the whole length of a session, a little at a time, and each of those moves is work. A rule that
//! is told of all of them, and itself rules out nothing, counts them.

use std::cell::Cell;
use std::rc::Rc;

use pumpkin_solver::Solver;
use pumpkin_solver::core::propagation::{
    DomainEvents, EnqueueDecision, EventsToRegister, LocalId, NotificationContext, OpaqueDomainEvent, PropagationContext, Propagator,
    PropagatorConstructor, PropagatorConstructorContext, PropagatorSpec, RuntimeCheckers,
};
use pumpkin_solver::core::state::PropagationStatusCP;
use pumpkin_solver::core::variables::DomainId;

/// Counts the changes of these variables from now on.
pub(super) fn counted(solver: &mut Solver, variables: &[DomainId]) -> Rc<Cell<u64>> {
    let changes = Rc::new(Cell::new(0));
    let counter = Counter { changes: changes.clone() };
    let _ = solver.add_propagator(Watch { counter, variables: variables.to_vec() });
    changes
}

struct Watch {
    counter: Counter,
    variables: Vec<DomainId>,
}

#[derive(Debug, Clone)]
struct Counter {
    changes: Rc<Cell<u64>>,
}

impl PropagatorConstructor for Watch {
    type PropagatorImpl = Counter;

    fn create(self, _: PropagatorConstructorContext) -> PropagatorSpec<Counter> {
        let mut registration = EventsToRegister::empty();
        for (place, variable) in self.variables.iter().enumerate() {
            registration.add(variable, DomainEvents::BOUNDS, LocalId::from(place as u32));
        }
        PropagatorSpec { registration, checkers: RuntimeCheckers::empty(), propagator: self.counter }
    }
}

impl Propagator for Counter {
    fn name(&self) -> &str {
        "changes"
    }

    fn propagate_from_scratch(&self, _: PropagationContext) -> PropagationStatusCP {
        Ok(())
    }

    fn notify(&mut self, _: NotificationContext, _: LocalId, _: OpaqueDomainEvent) -> EnqueueDecision {
        self.changes.set(self.changes.get() + 1);
        EnqueueDecision::Skip
    }
}
