//! Next week begins where this one ends: what the other weeks have yet to take off the shelf is taken first.
//!
//! Another week's uses count from today up to the first trip of the week that is reckoned, and to its own end where it began
//! earlier: the last suppers of this week come off the shelf that next week's list looks at, even when the shopping is done before.
//! What is booked is off the shelf already, and what lies before today is taken as done. What its sessions will have to spare by then
//! lies on the shelf like any cooked lot; what its trips will leave over is not counted before it is there.

use std::borrow::Cow;
use std::rc::Rc;

use jiff::civil::Date;

use super::another::{Another, Uses, taken};
use super::lived::Lived;
use super::walk::Walk;
use crate::kitchen::{Kitchen, Lot, Warning};
use crate::plan;
use crate::purchase::Reserved;

/// A kitchen whose shelf is as the other weeks leave it.
#[derive(Debug, Clone)]
pub(super) struct Carried<'k> {
    pub kitchen: Cow<'k, Kitchen>,
    /// What was taken, one entry a week and lot.
    pub reserved: Vec<Reserved>,
    pub warnings: Vec<Warning>,
}

/// Takes off the shelf what is open of `others` and used before `lived` does.
pub(super) fn carry<'k>(walk: &Walk, kitchen: Cow<'k, Kitchen>, others: &[Rc<Another>], lived: &Lived, today: Date) -> Carried<'k> {
    let (first, _) = plan::span(&lived.week);
    let trip = lived.week.trips.iter().map(|trip| trip.on).min().unwrap_or(first);
    // Every walk over the household's own shelf begins alike; one that was lived through since is walked alone.
    let mut at = matches!(kitchen, Cow::Borrowed(_)).then_some(Walk::START);
    let mut carried = Carried { kitchen, reserved: Vec::new(), warnings: Vec::new() };
    let mut shelf: Option<Rc<Vec<Lot>>> = None;
    let mut others: Vec<&Another> = others.iter().map(Rc::as_ref).collect();
    others.sort_by_key(|other| other.span.0);
    for other in others {
        let until = if other.span.0 < first { Date::MAX } else { trip };
        let uses = Uses { week: &other.week, has_begun: other.has_begun, from: today, until };
        at = at.filter(|_| until == Date::MAX);
        let step = walk.step(at, other.place, || {
            if let Some(lots) = &shelf {
                carried.kitchen.to_mut().lots.clone_from(lots);
            }
            taken(&carried.kitchen, &uses)
        });
        let Some(step) = step.as_ref() else { continue };
        carried.reserved.extend(step.reserved.iter().cloned());
        carried.warnings.extend(step.warning.clone());
        let Some(left) = &step.left else { continue };
        let kept: Vec<usize> = (0..step.spare.len()).filter(|spare| step.spare[*spare].is_there_on(first)).collect();
        let next = walk.go(at, other.place, kept, |kept| {
            left.iter().cloned().chain(kept.iter().map(|spare| step.spare[*spare].lot.clone())).collect()
        });
        (at, shelf) = (next.0, Some(next.1));
    }
    if let Some(lots) = shelf {
        carried.kitchen.to_mut().lots.clone_from(&lots);
    }
    carried
}
