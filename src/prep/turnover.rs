//! What a session takes off the shelf and puts on it, as a booking needs it. It must not know the plan that it comes from.

use jiff::civil::{Date, DateTime};

use crate::foods::Place;
use crate::kitchen::{RecipeId, Ware};
use crate::measure::Quantity;

/// What a session takes off the shelf and puts on it: all that a booking needs, of a plan just made or of one that was printed.
#[derive(Debug, Clone, PartialEq)]
pub struct Turnover {
    pub start: DateTime,
    pub batches: Vec<Batch>,
    pub fetch: Vec<Taken>,
    pub boxes: Vec<Put>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Batch {
    pub recipe: RecipeId,
    pub batches: f64,
    pub makes: Quantity,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Taken {
    /// Or the name of a food that no file knows any more.
    pub of: Result<Ware, String>,
    pub amount: Quantity,
    /// Where it lay; `None` where it comes from the shopping, or nobody says.
    pub place: Option<Place>,
}

/// What goes into boxes of one place, or stands in the fridge until its meal is booked.
#[derive(Debug, Clone, PartialEq)]
pub struct Put {
    pub recipe: RecipeId,
    /// Whose it is, where it is a single eater's, and what it lacks.
    pub eater: Option<String>,
    pub without: Vec<Ware>,
    pub amount: Quantity,
    pub place: Place,
    pub use_by: Date,
}
