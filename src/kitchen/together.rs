//! What can go together: patterns of meals, what fits a place in one, and a household's wishes for a week that is composed. Plain data;
//! what follows from it is reckoned in `compose`.

use std::collections::BTreeMap;

use super::{Ingredient, RecipeId, Spot, Ware};
use crate::foods::FoodId;
use crate::measure::{Amount, Days, Minutes, Money};

/// What meals are put together from, beside the recipes' own `fits`.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Together {
    /// In order of meals.toml.
    pub patterns: Vec<Pattern>,
    /// The foods of foods.toml that fit somewhere or are something, in its order.
    pub foods: Vec<FittingFood>,
    /// `[compose]` of kitchen.toml, as written.
    pub wishes: WishTable,
}

impl Together {
    pub fn food(&self, food: FoodId) -> Option<&FittingFood> {
        self.foods.iter().find(|fitting| fitting.food == food)
    }
}

/// The index of a pattern in [`Together::patterns`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PatternId(pub usize);

/// A way to put a meal together.
#[derive(Debug, Clone, PartialEq)]
pub struct Pattern {
    pub name: String,
    /// Words of mealtimes; `None`: every mealtime.
    pub mealtimes: Option<Vec<String>>,
    pub each: Vec<Plate>,
    pub shared: Vec<Plate>,
    /// Times a week.
    pub at_most: Option<u32>,
    /// Hands-on time at the meal.
    pub minutes: Option<Minutes>,
    pub style: Option<String>,
    pub at: Spot,
    /// Where its keys stand.
    pub keys_at: KeysAt,
}

/// Where the keys of a table stand that are written in it.
pub type KeysAt = BTreeMap<&'static str, Spot>;

/// A line of a pattern or of an open meal.
#[derive(Debug, Clone, PartialEq)]
pub enum Plate {
    As(Ingredient),
    Any(AnyLine),
}

/// `1 portion any:grain`: a place that one recipe or food fills.
#[derive(Debug, Clone, PartialEq)]
pub struct AnyLine {
    /// As typed.
    pub text: String,
    /// In lower case.
    pub word: String,
    /// What can fill it, each as the line that would be written: recipes by id, then foods as in foods.toml.
    pub fillings: Vec<Ingredient>,
    /// Recipes that fit, but of which nobody said what a portion weighs: `portion` would let them take the place.
    pub without_portion: Vec<RecipeId>,
    /// Recipes that fit and are made in another measure.
    pub in_another_measure: Vec<RecipeId>,
    pub at: Spot,
}

/// What foods.toml says of a food at table.
#[derive(Debug, Clone, PartialEq)]
pub struct FittingFood {
    pub food: FoodId,
    /// In lower case.
    pub fits: Vec<String>,
    /// In lower case.
    pub is: Vec<String>,
    /// One portion of it.
    pub serving: Option<Amount>,
    pub at: Spot,
}

/// A meal that is not written yet, or only in part.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Open {
    pub each: Vec<Plate>,
    pub shared: Vec<Plate>,
}

impl Open {
    /// Is any place of its own lines to be filled? Else a pattern's lines come beside them.
    pub fn has_own_places(&self) -> bool {
        self.each.iter().chain(&self.shared).any(|plate| matches!(plate, Plate::Any(_)))
    }
}

/// What a household wants of a meal beyond its lines.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Asked {
    /// Hands and waits at the meal.
    pub ready_in: Option<Minutes>,
    /// Eaten away and cold.
    pub packed: bool,
}

/// What decides between weeks that are allowed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Prefer {
    Cost,
    Variety,
    Work,
}

/// What is eaten often enough to be wanted often: `[compose] taste`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Taste {
    #[default]
    Varied,
    Cheap,
    Easy,
}

/// `one_at_most`: meals that name one recipe.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct OneAtMost {
    /// By the place that the recipe takes, in lower case.
    pub by_place: BTreeMap<String, u32>,
    /// Where the words stand.
    pub places_at: BTreeMap<String, Spot>,
    /// In every other place.
    pub otherwise: Option<u32>,
}

/// `each_day`: floors of a day, for a whole share.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Floors {
    pub kcal: Option<f64>,
    pub protein_g: Option<f64>,
    pub fibre_g: Option<f64>,
}

/// `beside = { soft = "crunchy" }`: what is soft has something crunchy beside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Beside {
    /// Both in lower case.
    pub is: String,
    pub wants: String,
    /// Where the two stand.
    pub at: [Spot; 2],
}

/// `[compose]` as it is written in a week or in kitchen.toml.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WishTable {
    pub taste: Option<Taste>,
    pub recipes_at_most: Option<u32>,
    pub same_again_after: Option<Days>,
    pub not_again: Option<Days>,
    pub one_at_most: Option<OneAtMost>,
    pub variety_may_cost: Option<f64>,
    pub spend_at_most: Option<Money>,
    pub each_day: Option<Floors>,
    pub beside: Option<Vec<Beside>>,
    pub wanted: Option<Vec<(Ware, Spot)>>,
    pub unwanted: Option<Vec<(Ware, Spot)>>,
    pub keys_at: KeysAt,
}
