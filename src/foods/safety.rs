//! Published figures that keep eaters well. Reader, planner and sheets read them here, so that they cannot differ.
//!
//! They are reminders: where local food-safety rules, a label or a doctor say otherwise, those come first.

use super::{Food, Kind};
use crate::measure::{Celsius, Days, Minutes};

/// A figure and who published it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Published<T> {
    pub value: T,
    pub source: &'static str,
}

/// "Safe Minimum Internal Temperature Chart" of the USDA's Food Safety and Inspection Service.
pub const INSIDE_CHART: &str = "USDA FSIS, Safe Minimum Internal Temperature Chart";
const LEFTOVERS: &str = "USDA FSIS, Leftovers and Food Safety";
const REFRIGERATION: &str = "USDA FSIS, Refrigeration and Food Safety";

/// Least temperature inside, by kind: 165, 160, 145, 145, 145 and 160 °F of [`INSIDE_CHART`], from memory. Of whole cuts, which then rest
/// 3 minutes. Seafood stands with fish in the chart.
const INSIDE: [(Kind, Celsius); 6] = [
    (Kind::RawPoultry, Celsius(74.0)),
    (Kind::RawMincedMeat, Celsius(71.0)),
    (Kind::RawMeat, Celsius(63.0)),
    (Kind::RawFish, Celsius(63.0)),
    (Kind::RawSeafood, Celsius(63.0)),
    (Kind::RawEgg, Celsius(71.0)),
];

/// Left-overs are reheated throughout to 165 °F. From memory.
pub const REHEATED: Published<Celsius> = Published { value: Celsius(74.0), source: LEFTOVERS };

/// What is kept hot until it is eaten is kept at 140 °F or above. From memory.
pub const KEPT_HOT: Published<Celsius> = Published { value: Celsius(60.0), source: "USDA FSIS, Danger Zone (40 °F to 140 °F)" };

/// From leaving the heat to being chilled: two hours. From memory.
pub const CHILLED_WITHIN: Published<Minutes> = Published { value: Minutes(120), source: LEFTOVERS };

/// Cooked rice and other grains: within one hour. From memory.
pub const GRAINS_CHILLED_WITHIN: Published<Minutes> =
    Published { value: Minutes(60), source: "UK Food Standards Agency, Cooling reheating and freezing food" };

/// What the reference knows by another kind, and is cooked rice or grain all the same: common practice, no source.
const GRAINS_OF_OTHER_KINDS: [&str; 5] =
    ["ready-cooked rice", "ready-cooked brown rice", "ready-cooked quinoa", "ready-cooked grains", "semolina"];

/// Is it chilled as fast as [`GRAINS_CHILLED_WITHIN`] asks once it is cooked?
pub fn is_chilled_as_grain(food: &Food) -> bool {
    food.kind == Some(Kind::Grain) || GRAINS_OF_OTHER_KINDS.contains(&food.name.as_str())
}

/// The fridge is at 40 °F or below. From memory.
pub const FRIDGE_AT_MOST: Published<Celsius> = Published { value: Celsius(4.0), source: REFRIGERATION };

/// Left-overs of meat, poultry and fish keep 3 to 4 days in the fridge: least and most. From memory.
pub const LEFTOVERS_KEEP: Published<(Days, Days)> = Published { value: (Days(3), Days(4)), source: LEFTOVERS };

/// The least temperature inside at which a raw food is done; `None` of a kind that has none.
pub fn least_inside(kind: Kind) -> Option<Celsius> {
    INSIDE.iter().find(|(known, _)| *known == kind).map(|(_, least)| *least)
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;

    #[test]
    fn every_raw_kind_has_its_least_temperature_and_no_other() {
        for (kind, name) in Kind::ALL {
            assert_eq!(least_inside(kind).is_some(), kind.is_raw(), "{name}");
        }
    }

    #[test]
    fn cooked_rice_is_chilled_as_fast_whatever_it_was_bought_as() {
        let reference = crate::foods::Foods::reference();
        for name in GRAINS_OF_OTHER_KINDS {
            let food = &reference[reference.find(name).unwrap_or_else(|| panic!("the reference has no {name}"))];
            assert!(is_chilled_as_grain(food) && food.kind != Some(Kind::Grain), "{name}");
        }
    }
}
