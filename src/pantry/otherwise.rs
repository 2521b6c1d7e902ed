//! The shelf as it is booked beside the shelf as what is taken as done left it.

use jiff::civil::Date;

use crate::foods::Place;
use crate::kitchen::{Kitchen, Lot, Ware, Whose};
use crate::measure::Quantity;
use crate::shelf::lot_dates;

/// So much of one food or dish in one place, good until one day.
#[derive(Debug, Clone, PartialEq)]
pub struct LiesOtherwise {
    pub of: Ware,
    /// Of what was cooked, whose it is alone.
    pub whose: Option<Whose>,
    pub place: Place,
    pub until: Option<Date>,
    pub booked: Quantity,
    /// With what is taken as done.
    pub taken: Quantity,
}

/// What differs, in the order of the booked shelf, then what only what is taken as done brought; by place.
pub fn lies_otherwise(kitchen: &Kitchen, taken: &[Lot]) -> Vec<LiesOtherwise> {
    let mut rows: Vec<LiesOtherwise> = Vec::new();
    let all = kitchen.lots.iter().map(|lot| (lot, true)).chain(taken.iter().map(|lot| (lot, false)));
    for (lot, is_booked) in all {
        let until = lot_dates(&kitchen.foods, &kitchen.recipes, lot).earliest;
        let key = (lot.of, &lot.whose, lot.place, until, lot.amount.dimension());
        let same = |row: &LiesOtherwise| (row.of, &row.whose, row.place, row.until, row.booked.dimension()) == key;
        let at = rows.iter().position(same).unwrap_or_else(|| {
            let none = Quantity::of(&lot.amount.dimension(), 0);
            let (booked, taken) = (none.clone(), none);
            rows.push(LiesOtherwise { of: lot.of, whose: lot.whose.clone(), place: lot.place, until, booked, taken });
            rows.len() - 1
        });
        let sum = if is_booked { &mut rows[at].booked } else { &mut rows[at].taken };
        if let Some(more) = sum.plus(&lot.amount) {
            *sum = more;
        }
    }
    rows.retain(|row| row.booked != row.taken);
    rows.sort_by_key(|row| row.place as u8);
    rows
}
