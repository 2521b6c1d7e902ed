//! What stands beside the steps of a guide, as typed data: what is fetched, cut and boxed. It must not know who does it, or when.

use jiff::civil::{Date, DateTime};

use super::turnover::Put;
use crate::foods::{FoodId, Place};
use crate::kitchen::{RecipeId, Ware};
use crate::measure::{Quantity, Spoons};
use crate::plan::{Beware, Contains};

#[derive(Debug, Clone, PartialEq)]
pub struct Fetch {
    pub of: Ware,
    /// 0 for "to taste".
    pub amount: Quantity,
    /// `None` for what the trip brings and nobody has put anywhere yet.
    pub place: Option<Place>,
    pub look_first: bool,
    /// What the list left unbought: it comes from nowhere.
    pub is_short: bool,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Cut {
    pub food: FoodId,
    /// "onions", as its line names it.
    pub name: String,
    pub amount: Quantity,
    /// The same as a number of pieces or cloves, where the line counts them.
    pub counted: Option<Quantity>,
    /// In the household's words: "diced", "peeled, cut in wedges".
    pub cut: String,
    /// The number of the step on the guide (its place in `tasks` among the steps, from 1) that uses it.
    pub step: u32,
}

#[derive(Debug, Clone, PartialEq)]
pub struct BoxNote {
    pub recipe: RecipeId,
    /// Portions; grams, millilitres or pieces where the recipe does not say what a portion of them is.
    pub amount: Quantity,
    pub place: Place,
    pub use_by: Date,
    /// "Mon supper"; empty for what is to spare.
    pub what_for: Vec<String>,
    /// Whose it is, where it is a single eater's.
    pub eater: Option<String>,
    /// What it lacks of what goes into the rest.
    pub without: Vec<Ware>,
    /// Where the recipe has a box and its size can be compared.
    pub boxes: Option<Boxes>,
    pub contains: Contains,
    /// What of it the household avoids.
    pub beware: Option<Beware>,
}

/// A number of boxes of one kind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Boxes {
    pub count: usize,
    /// In the household's word, one of them: "flat tub".
    pub kind: String,
}

/// What is fetched of a food, in a cook's words.
#[derive(Debug, Clone, PartialEq)]
pub struct Said {
    pub of: Ware,
    /// "onions", as a line names it.
    pub name: String,
    /// "5 cloves of garlic", "6 large potatoes, 1.8 kg", "2 tbsp honey", where all lines speak of it in one way.
    pub words: Option<String>,
    /// The number of pieces or cloves, by which the parts of it are told as well.
    pub counted: Option<Quantity>,
    /// What all lines pour by the spoon or the cup, by which the parts of it are told as well.
    pub poured: Option<(Quantity, Spoons)>,
}

/// A share of what is fetched of a food that lies in its water or its bowl when the session begins.
#[derive(Debug, Clone, PartialEq)]
pub struct Begun {
    pub of: Ware,
    /// Over 0, at most 1.
    pub share: f64,
    pub since: DateTime,
}

impl From<BoxNote> for Put {
    fn from(note: BoxNote) -> Put {
        let BoxNote { recipe, amount, place, use_by, eater, without, .. } = note;
        Put { recipe, eater, without, amount, place, use_by }
    }
}
