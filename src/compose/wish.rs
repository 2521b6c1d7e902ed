//! What a week can be held against: every hard rule by its name, and by how much a week breaks it.

use jiff::civil::DateTime;

use crate::kitchen::{PatternId, RecipeId, Ware};
use crate::plan::{NotFor, Unfit};

/// A hard rule, as a household can name it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wish {
    /// What `spend_at_most` says.
    Spend,
    RecipesAtMost,
    SameAgainAfter,
    /// `one_at_most`, of one place where it names places.
    OneAtMost(Option<String>),
    AtMost(PatternId),
    /// A floor of `each_day`.
    EachDay(Nutrient),
    Use(Ware),
    Not(Ware),
    NotAgain,
    /// The `is` word of a pair.
    Beside(String),
    Style,
    /// The eater's place in the household.
    Sure(usize),
    /// Of the session that starts then.
    FinishBy(DateTime),
    /// A pattern's minutes; `None`: of a meal without a pattern.
    Minutes(Option<PatternId>),
    ReadyIn(usize),
    Packed(usize),
    /// Nobody eats what they must not; with the eater's name and the word, whatever food of a meal it is for.
    Unfit(Unfit, String, String),
    /// Something is bought too early to keep.
    Flag,
    /// A dish that soaks before its food is bought, or that should be in water by now.
    Ahead(RecipeId),
    /// A dish that no session and no shelf can serve, by meal.
    Reach(usize),
    /// A meal that no pattern can fill.
    Pattern(usize),
    /// Nothing is bought.
    FromShelf,
    /// It differs from the proposals before it.
    Another,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Nutrient {
    Energy,
    Protein,
    Fibre,
}

impl Wish {
    pub fn of(one: &NotFor) -> Wish {
        Wish::Unfit(one.why, one.who.clone(), one.word.clone())
    }

    /// Would a greater figure be the stricter one?
    pub fn is_floor(&self) -> bool {
        matches!(self, Wish::SameAgainAfter | Wish::NotAgain | Wish::EachDay(_))
    }
}

/// A wish that a week breaks, and the figure at which it would not: money in minor units, minutes, days, grams or how many.
#[derive(Debug, Clone, PartialEq)]
pub struct Broken {
    pub wish: Wish,
    pub would_do: f64,
}

/// Adds one; of a wish that is there already the figure that is harder to grant stays.
pub fn add(broken: &mut Vec<Broken>, wish: Wish, would_do: f64) {
    match broken.iter_mut().find(|known| known.wish == wish) {
        Some(known) => known.would_do = if wish.is_floor() { known.would_do.min(would_do) } else { known.would_do.max(would_do) },
        None => broken.push(Broken { wish, would_do }),
    }
}
