//! What an allowed week is worth beside another: net cost, variety, work, in the household's order; then file order.

use std::cmp::Ordering;

use super::table::{PlateOf, Table};
use super::ways::recipes;
use super::wishes::Wishes;
use crate::kitchen::Prefer;

/// The less of each, the better.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Value {
    /// Meals that nobody filled.
    pub left_open: u32,
    /// Of a lifted wish, by how much it is broken, in thousandths; `None` where it is kept.
    pub strain: Option<i64>,
    /// Minor units.
    pub net: i64,
    pub variety: Variety,
    /// Millionths of a batch.
    pub batches: i64,
    /// Of all sessions, where they count.
    pub minutes: i64,
}

/// How much of a week comes again, the weightiest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Variety {
    /// Pairs of meals, one after the other, of one pattern on following days.
    pub pairs: u32,
    /// Meals that share a recipe with the meal before.
    pub shared: u32,
    /// Meals of the pattern that the same mealtime of the day before had: where there is lunch and supper, no two suppers follow each other.
    pub as_yesterday: u32,
}

impl Value {
    /// By the household's order, with net costs up to `as_good` all alike.
    pub fn compare(&self, other: &Value, wishes: &Wishes, as_good: i64) -> Ordering {
        let net = |value: &Value| value.net.max(as_good);
        let mut order = self.left_open.cmp(&other.left_open).then(self.strain.cmp(&other.strain));
        for aim in wishes.prefer {
            order = order.then_with(|| match aim {
                Prefer::Cost => net(self).cmp(&net(other)),
                Prefer::Variety => self.variety.cmp(&other.variety),
                Prefer::Work => (self.batches, self.minutes).cmp(&(other.batches, other.minutes)),
            });
        }
        order
    }
}

/// The most that counts as equally cheap as `least`.
pub fn as_good_as(least: i64, wishes: &Wishes) -> i64 {
    (least as f64 * (1.0 + wishes.slack()) + 1e-6).floor() as i64
}

/// Two meals are a pair where they follow each other in time.
pub fn variety(table: &Table, chosen: &[Option<u32>]) -> Variety {
    let plates = table.plates(chosen);
    let same = |one: &PlateOf, other: &PlateOf| one.pattern.is_some() && one.pattern == other.pattern;
    let (mut pairs, mut shared) = (0, 0);
    for pair in plates.windows(2) {
        let [before, after] = pair else { continue };
        let following = table.day(before.meal).tomorrow().is_ok_and(|next| next == table.day(after.meal));
        pairs += u32::from(following && same(before, after));
        shared += u32::from(recipes(after.wares).any(|recipe| recipes(before.wares).any(|other| other == recipe)));
    }
    let yesterday = |plate: &PlateOf| {
        let meal = table.yesterdays(plate.meal)?;
        plates.binary_search_by_key(&meal, |other| other.meal).ok().map(|place| &plates[place])
    };
    let as_yesterday = plates.iter().filter(|plate| yesterday(plate).is_some_and(|before| same(before, plate))).count() as u32;
    Variety { pairs, shared, as_yesterday }
}
