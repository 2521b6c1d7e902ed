//! What earlier bookings lacked is taken off what comes of the trip or the session that it was of, so that nothing lies there which was eaten
//! long ago.

use jiff::civil::DateTime;

use super::bench::Bench;
use super::lacks::Lack;
use super::out::{take_amount, take_recipe_of};
use super::record::{Exact, as_lot};
use crate::kitchen::{Kitchen, Lot, Ware};
use crate::measure::Number;
use crate::shelf::When;

/// Takes off what was put down on the bench so far what bookings lacked after that moment, the earliest first. Gives what was taken, and
/// leaves in `lacks` what is still lacked.
pub fn make_good(kitchen: &Kitchen, bench: &mut Bench, from: DateTime, lacks: &mut Vec<Lack>) -> Vec<Lack> {
    let mut later: Vec<usize> = (0..lacks.len()).filter(|place| lacks[*place].at > from).collect();
    let new: Option<Vec<Lot>> = bench.added().iter().map(|record| as_lot(kitchen, record)).collect();
    let Some(lots) = new.filter(|new| !new.is_empty() && !later.is_empty()) else { return Vec::new() };
    later.sort_by_key(|place| lacks[*place].at);
    let there = Kitchen { lots, ..kitchen.clone() };
    let mut taking = Bench::new(&there, bench.added().to_vec());
    let mut made_good = Vec::new();
    for place in later {
        let lack = &mut lacks[place];
        let (amount, on) = (lack.amount.quantity(), lack.at.date());
        let took = match lack.ware(kitchen) {
            Some((Ware::Food(food), _)) => take_amount(&kitchen.foods, &mut taking, food, (&amount, None), on),
            Some((Ware::Recipe(recipe), whose)) => {
                take_recipe_of(&kitchen.recipes, &mut taking, (recipe, whose.as_ref()), &amount, &[When::On(on)])
            }
            None => continue,
        };
        let Ok(took) = took else { continue };
        let all: Number = took.taken.exact() + took.missing.exact();
        if !took.taken.exact().is_positive() {
            continue;
        }
        let taken = &lack.amount.number * (took.taken.exact() / all);
        made_good.push(Lack { amount: Exact { number: taken.clone(), ..lack.amount.clone() }, ..lack.clone() });
        lack.amount.number = &lack.amount.number - taken;
    }
    lacks.retain(|lack| lack.amount.number.is_positive());
    let changes = taking.clone().finish();
    let left = taking.into_lots();
    bench.take_of_added(changes, left);
    made_good
}
