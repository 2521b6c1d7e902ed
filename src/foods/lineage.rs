//! What one food is a form of and what it may hold, as it is kept once it was found out. Knows no food.

use super::FoodId;

/// A food that another is made of, and whether it was named by its own name: "chickpea" is another name of dried chickpeas.
pub(super) type Part = (FoodId, bool);

/// All that one food is a form of, and all that it may hold.
#[derive(Debug, Clone, Default)]
pub(crate) struct Lineage {
    pub forms: Vec<Part>,
    pub holds: Vec<Part>,
}
