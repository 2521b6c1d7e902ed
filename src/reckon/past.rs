//! The past of weeks that overlap: what nobody booked is taken to have happened as it was printed, else as each week would have been planned
//! beside the others.

use std::borrow::Cow;
use std::rc::Rc;

use jiff::civil::Date;

use super::another::Another;
use super::carry::carry;
use super::lacking::not_booked_yet;
use super::lived::{Lived, as_it_happened};
use super::walk::Walk;
use crate::kitchen::{Kitchen, WeekPrice};

/// Plans the past of weeks that overlap, each on the shelf as it lay when its unprinted past began, and gives the shelf as it left it, and what the
/// first of them has paid for foods.
pub(super) fn live_through<'k>(kitchen: &'k Kitchen, weeks: &mut [Lived]) -> (Cow<'k, Kitchen>, Vec<WeekPrice>) {
    let not_booked: Vec<Rc<Another>> = weeks.iter().enumerate().map(|(place, week)| Rc::new(Another::not_booked(place, week))).collect();
    for (place, week) in weeks.iter_mut().enumerate().filter(|(_, week)| week.standing.has_taken_as_done()) {
        let others: Vec<Rc<Another>> = not_booked.iter().filter(|other| other.place != place).cloned().collect();
        let then = week.shelf_then(kitchen);
        let shelf = carry(&Walk::default(), then, &others, week, Date::MIN).kitchen;
        let not_booked = not_booked_yet(&shelf, week);
        week.plan_past(shelf.into_owned(), not_booked);
    }
    as_it_happened(kitchen, weeks)
}
