//! What a run is at, on a terminal, once it takes longer than a second; and Ctrl-C. Nothing of it is seen in a pipe.

use std::io::{self, IsTerminal};
use std::sync::{Mutex, PoisonError};
use std::thread;
use std::time::Duration;

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use crate::progress::{At, Composing, Reached, watch};
use crate::store::unless_writing;
use crate::words::{counted, day_clock, duration};

/// A run that is shorter shows nothing.
const AFTER: Duration = Duration::from_secs(1);
const EVERY: Duration = Duration::from_millis(200);

/// The exit status of a run that Ctrl-C has stopped.
const STOPPED: i32 = 130;

/// The line on the terminal, while there is something to show and nothing else is written.
static LINE: Mutex<Option<ProgressBar>> = Mutex::new(None);

/// Ctrl-C stops the run from here on; and where standard error is a terminal, a long reckoning is shown.
pub fn begin() {
    // Where no handler can be set, the machine's own ending stands.
    let _ = ctrlc::set_handler(|| {
        unless_writing(|| {
            clear();
            std::process::exit(STOPPED);
        });
    });
    if io::stderr().is_terminal() {
        watch(show);
    }
}

/// Takes the line away, before anything else is written.
pub fn clear() {
    if let Some(line) = LINE.lock().unwrap_or_else(PoisonError::into_inner).take() {
        line.finish_and_clear();
    }
}

fn show(at: At, reached: Option<Reached>) {
    let mut line = LINE.lock().unwrap_or_else(PoisonError::into_inner);
    line.get_or_insert_with(new_line).set_message(words(at, reached));
}

/// Unseen at first; a second later it is drawn, unless it was taken away.
fn new_line() -> ProgressBar {
    let line = ProgressBar::with_draw_target(None, ProgressDrawTarget::hidden());
    if let Ok(style) = ProgressStyle::with_template("{spinner} {wide_msg}") {
        line.set_style(style);
    }
    let later = line.downgrade();
    thread::spawn(move || {
        thread::sleep(AFTER);
        let shown = LINE.lock().unwrap_or_else(PoisonError::into_inner);
        if let (Some(line), true) = (later.upgrade(), shown.is_some()) {
            line.set_draw_target(ProgressDrawTarget::stderr());
            line.enable_steady_tick(EVERY);
        }
    });
    line
}

/// Short enough for eighty columns.
fn words(at: At, reached: Option<Reached>) -> String {
    let far = match reached {
        None => "planning".to_owned(),
        Some(Reached { best, bound }) if best <= bound => format!("{} is the shortest; closing gaps", duration(best)),
        Some(Reached { best, bound }) => format!("best so far {}, at least {}", duration(best), duration(bound)),
    };
    match at {
        At::Session { start, number, of } => format!("{} ({number} of {of}): {far}", day_clock(start)),
        At::Composing { meals, weeks, aim } => {
            let aim = match aim {
                Composing::Good => "tried",
                Composing::Proof => "tried for the proof",
                Composing::Clash => "tried for what clashes",
            };
            format!("composing {}: {} {aim}", counted(meals, "meal"), counted(weeks, "week"))
        }
        At::Advice { start } => format!("{}: looking for what would help", day_clock(start)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kitchen::fixture::at;

    #[test]
    fn a_line_says_what_is_done_and_how_far_it_is() {
        let session = At::Session { start: at("2026-11-29T14:00"), number: 1, of: 2 };
        let said = words(session, Some(Reached { best: 190, bound: 165 }));
        assert_eq!(said, "Sun 29 Nov 14:00 (1 of 2): best so far 3 h 10 min, at least 2 h 45 min");
        assert_eq!(words(session, None), "Sun 29 Nov 14:00 (1 of 2): planning");
        let composing = At::Composing { meals: 3, weeks: 240, aim: Composing::Proof };
        assert_eq!(words(composing, None), "composing 3 meals: 240 weeks tried for the proof");
        let proven = words(session, Some(Reached { best: 165, bound: 165 }));
        assert_eq!(proven, "Sun 29 Nov 14:00 (1 of 2): 2 h 45 min is the shortest; closing gaps");
    }
}
