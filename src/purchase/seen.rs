//! Prices that were seen long ago.

use jiff::ToSpan;
use jiff::civil::Date;

use crate::kitchen::{Kitchen, Warning};
use crate::plan::Need;

/// After so many days a price is remarked on.
const OLD_AFTER_DAYS: i64 = 90;

/// One remark that names every needed food of which a pack's price was seen more than ninety days before today.
pub fn old_prices(kitchen: &Kitchen, needs: &[Need], today: Date) -> Option<Warning> {
    let oldest = today.saturating_sub(OLD_AFTER_DAYS.days());
    let is_old = |need: &&Need| kitchen.packs.iter().any(|pack| pack.food == need.food && pack.seen.is_some_and(|seen| seen < oldest));
    let mut foods: Vec<&str> = needs.iter().filter(is_old).map(|need| kitchen.foods[need.food].name.as_str()).collect();
    foods.sort();
    foods.dedup();
    let text = format!("shops.toml: prices seen more than {OLD_AFTER_DAYS} days ago: {}.", foods.join(", "));
    (!foods.is_empty()).then_some(Warning::Note { at: None, text })
}
