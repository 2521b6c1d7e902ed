//! What a long reckoning is at, for whoever watches. Those who reckon tell it and never ask, so that nothing here can change an answer.
//! Knows no terminal, no clock and no rule.

use std::sync::{Mutex, OnceLock, PoisonError};

use jiff::civil::DateTime;

/// What is being done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum At {
    /// The plan of one session is looked for, the `number`th of `of`.
    Session { start: DateTime, number: usize, of: usize },
    /// What would make a session shorter, or keep its limits.
    Advice { start: DateTime },
    /// So many open meals are filled; so many weeks were reckoned for it.
    Composing { meals: usize, weeks: usize, aim: Composing },
}

/// What weeks are reckoned for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Composing {
    Good,
    Proof,
    /// Nothing is allowed: what clashes.
    Clash,
}

/// How far it is: minutes of the best plan so far, and minutes below which no plan can end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reached {
    pub best: i64,
    pub bound: i64,
}

type Watcher = fn(At, Option<Reached>);

static WATCHER: OnceLock<Watcher> = OnceLock::new();
static NOW: Mutex<Option<At>> = Mutex::new(None);

/// From now on `watcher` is told; the first one stays.
pub fn watch(watcher: Watcher) {
    let _ = WATCHER.set(watcher);
}

/// Something new is begun.
pub(crate) fn at(at: At) {
    tell(|now| {
        *now = Some(at);
        Some((at, None))
    });
}

/// A better plan, or a better bound, of the session whose plan is looked for; plans that are only tried out are not told.
pub(crate) fn reached(best: i64, bound: i64) {
    tell(|now| match *now {
        Some(at @ At::Session { .. }) => Some((at, Some(Reached { best, bound }))),
        _ => None,
    });
}

fn tell(what: impl FnOnce(&mut Option<At>) -> Option<(At, Option<Reached>)>) {
    let Some(watcher) = WATCHER.get() else { return };
    let told = what(&mut NOW.lock().unwrap_or_else(PoisonError::into_inner));
    if let Some((at, reached)) = told {
        watcher(at, reached);
    }
}
