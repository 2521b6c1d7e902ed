//! Where a household puts a food that it brings home. The list reckons its keeping from there, and the book puts it there.

use crate::foods::{FoodId, Foods, Kind, Place};
use crate::kitchen::{Lot, Ware};
use crate::measure::Days;

/// What keeps so long in the cupboard stands there, however long the fridge would keep it: onions, oil, flour. Common practice, no source.
const CUPBOARD_FROM: Days = Days(30);

/// Where what is bought of a food goes: to what lies there already, closed or loose, unless it keeps there for less than half as long as
/// where it belongs. What is open says nothing of a closed pack, and the freezer nothing of what is kept fresh, too.
pub fn home(foods: &Foods, lots: &[Lot], id: FoodId) -> Place {
    let food = &foods[id];
    let days_at = |place: Place| food.keeps.at(place);
    let practice = where_it_belongs(foods, id);
    let is_raw = food.kind.is_some_and(Kind::is_raw);
    let is_kept_fresh = is_raw || days_at(Place::Cupboard).or(days_at(Place::Fridge)).is_some();
    let goes_off_soon = |place: Place| days_at(place).zip(days_at(practice)).is_some_and(|(there, best)| 2 * there.0 < best.0);
    let counts = |lot: &&Lot| {
        let is_fitting = if lot.place == Place::Freezer { !is_kept_fresh } else { !goes_off_soon(lot.place) };
        lot.of == Ware::Food(id) && lot.opened.is_none() && is_fitting
    };
    lots.iter().find(counts).map_or(practice, |lot| lot.place)
}

/// Where a food belongs of which nothing lies on the shelf: the cupboard where it keeps a month there, else where it keeps longer.
fn where_it_belongs(foods: &Foods, id: FoodId) -> Place {
    let food = &foods[id];
    match (food.keeps.at(Place::Cupboard), food.keeps.at(Place::Fridge)) {
        (Some(cupboard), fridge) if cupboard >= CUPBOARD_FROM || fridge.is_none_or(|fridge| cupboard >= fridge) => Place::Cupboard,
        (_, Some(_)) => Place::Fridge,
        (_, None) if food.keeps.at(Place::Freezer).is_some() => Place::Freezer,
        (_, None) if food.kind.is_some_and(Kind::is_raw) => Place::Fridge,
        (_, None) => Place::Cupboard,
    }
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::foods::{Fact, Food, Keeping};
    use crate::kitchen::fixture::{empty_kitchen, lot};
    use crate::measure::Quantity;

    /// Where one food goes that keeps so many days in cupboard, fridge and freezer, beside what lies in these places, open or not.
    fn goes(days: [i64; 3], lies: &[(Place, bool)]) -> Place {
        let [cupboard, fridge, freezer] = days.map(|days| (days > 0).then(|| Fact { value: Days(days), source: "test".to_owned() }));
        let mut kitchen = empty_kitchen();
        kitchen.foods.all.push(Food { keeps: Keeping { cupboard, fridge, freezer, opened: None }, ..Food::default() });
        let food = FoodId(0);
        let lots: Vec<Lot> = lies
            .iter()
            .map(|&(place, is_open)| {
                let opened = is_open.then(|| date(2026, 11, 28));
                Lot { opened, ..lot(Ware::Food(food), Quantity::grams(10.0), place) }
            })
            .collect();
        home(&kitchen.foods, &lots, food)
    }

    #[test]
    fn what_keeps_a_month_in_the_cupboard_stands_there() {
        assert_eq!(goes([30, 60, 300], &[]), Place::Cupboard, "an onion");
        assert_eq!(goes([30, 7, 300], &[]), Place::Cupboard, "a potato");
        assert_eq!(goes([14, 0, 90], &[]), Place::Cupboard, "bread");
        assert_eq!(goes([21, 28, 240], &[]), Place::Fridge, "an apple");
        assert_eq!(goes([0, 14, 300], &[]), Place::Fridge, "a carrot");
        assert_eq!(goes([0, 0, 90], &[]), Place::Freezer, "frozen peas");
        assert_eq!(goes([0, 0, 0], &[]), Place::Cupboard, "nothing is known");
    }

    #[test]
    fn what_lies_already_shows_the_place_unless_it_keeps_badly_there() {
        assert_eq!(goes([21, 28, 240], &[(Place::Cupboard, false)]), Place::Cupboard, "a bowl of apples");
        assert_eq!(goes([30, 60, 300], &[(Place::Fridge, false)]), Place::Fridge, "onions that somebody keeps cold");
        assert_eq!(goes([30, 7, 300], &[(Place::Fridge, false)]), Place::Cupboard, "twice 7 days are less than 30");
        assert_eq!(goes([0, 7, 0], &[(Place::Cupboard, false)]), Place::Cupboard, "long-life milk");
        assert_eq!(goes([14, 0, 90], &[(Place::Freezer, false)]), Place::Cupboard, "a frozen loaf beside a fresh one");
    }

    #[test]
    fn an_open_tin_in_the_fridge_takes_no_closed_one_there() {
        assert_eq!(goes([360, 0, 0], &[(Place::Fridge, true)]), Place::Cupboard);
        assert_eq!(goes([360, 0, 0], &[(Place::Fridge, true), (Place::Cupboard, false)]), Place::Cupboard);
    }
}
