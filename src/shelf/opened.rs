//! Closed packs: what is left of one once it is opened, and what counts as one of a line's tins.

use jiff::civil::Date;

use crate::foods::{Food, FoodId, Foods, Place, convert};
use crate::kitchen::{Lot, Ware};
use crate::measure::{Days, Dimension, Number, Quantity, is_nothing_of, word_named};

/// A pack this near a size stated in a line counts as that size (ten per cent).
const NEAR_A_TIN: Number = Number::over(1, 10);

/// What keeps no longer than this once it is opened belongs into the fridge then. Common practice, no source.
const FRIDGE_WITHIN: Days = Days(30);

/// Is a pack as good as a tin of that size, which a line states? Both in one unit.
pub fn is_near_a_tin(pack: &Number, tin: &Number) -> bool {
    is_nothing_of(&((pack - tin).abs() - tin * NEAR_A_TIN), tin)
}

/// What is left of a pack that is opened on that day, or on the day on which it came. It keeps the other dates of its pack: a pack of what
/// keeps in the cupboard for nobody knows how long had none from the day it came, and gets none in the fridge.
pub fn once_opened(foods: &Foods, pack: &Lot, rest: Quantity, day: Date) -> Lot {
    let (place, keeps_undated) = match pack.of {
        Ware::Food(food) => (place_once_opened(&foods[food], pack.place), foods[food].keeps.at(pack.place).is_none()),
        Ware::Recipe(_) => (pack.place, false),
    };
    let opened = pack.since.map_or(day, |since| since.max(day));
    let since = pack.since.filter(|_| place == pack.place || !keeps_undated);
    Lot { amount: rest, pack: None, place, opened: Some(opened), since, ..pack.clone() }
}

/// From the cupboard into the fridge, where that is how the food keeps once opened.
fn place_once_opened(food: &Food, place: Place) -> Place {
    let soon = food.keeps.opened.as_ref().is_some_and(|days| days.value <= FRIDGE_WITHIN);
    let bears_it = food.is_tinned() || food.keeps.fridge.is_some();
    if place == Place::Cupboard && soon && bears_it { Place::Fridge } else { place }
}

/// How many units of `dimension` one base unit of a food's lot is; `None` where the two cannot be compared. `tin` is the size of one
/// where tins are counted: a closed pack near it is as good as one, and where no size is known any pack is.
pub fn food_rate(foods: &Foods, lot: &Lot, food: FoodId, dimension: &Dimension, tin: Option<&Quantity>) -> Option<Number> {
    let facts = &foods[food];
    if let Some(pack) = &lot.pack {
        let sized = || facts.weight_of(dimension.symbol()).is_some() || facts.volumes.contains_key(dimension.symbol());
        if counts_packs(dimension) && !sized() {
            return Some(Number::ONE / pack.exact());
        }
        let tin = tin.and_then(|tin| Some((in_dimension(facts, tin, &pack.dimension())?, in_dimension(facts, tin, dimension)?)));
        if let Some((_, asked)) = tin.filter(|(like, _)| is_near_a_tin(pack.exact(), like)) {
            return Some(asked / pack.exact());
        }
    }
    in_dimension(facts, &Quantity::of(&lot.amount.dimension(), 1), dimension)
}

/// A number of tins, packs, jars and their like.
pub fn counts_packs(dimension: &Dimension) -> bool {
    matches!(dimension, Dimension::Word(word) if word_named(word).is_some_and(|word| word.is_container()))
}

fn in_dimension(food: &Food, amount: &Quantity, dimension: &Dimension) -> Option<Number> {
    if amount.dimension() == *dimension {
        return Some(amount.exact().clone());
    }
    convert(food, amount, dimension).ok().map(|same| same.exact().clone())
}
