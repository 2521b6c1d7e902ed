//! Up to when a run may be stopped: until it begins to write, and no longer, so that what it writes is whole.

use std::sync::{Mutex, PoisonError};

static WRITING: Mutex<bool> = Mutex::new(false);

/// From here on this run is carried through.
pub fn begin_writing() {
    *WRITING.lock().unwrap_or_else(PoisonError::into_inner) = true;
}

/// Runs `stop` unless writing has begun; it cannot begin meanwhile.
pub fn unless_writing(stop: impl FnOnce()) {
    let writing = WRITING.lock().unwrap_or_else(PoisonError::into_inner);
    if !*writing {
        stop();
    }
}
