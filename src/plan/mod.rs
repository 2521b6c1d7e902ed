//! Week -> makings in cooking sessions -> dated demand.

mod allergies;
mod aside;
mod avoid;
mod children;
mod demand;
mod making;
mod makings;
mod order;
mod pieces;
mod servings;
mod standing;
mod stating;
mod unfit;
mod uses;
mod weeks;
mod yields;

pub use allergies::{CrossContact, Guarded, cross_contacts, guard};
pub use aside::taken_out_before;
pub use avoid::{Beware, Contains, avoided, avoided_at_meals, food_contains, meal_contains, recipe_contains};
pub use demand::{Demanded, demand};
pub use making::{Apart, Boxed, Demand, Draw, Kept, MadeAt, Making, Makings, Move, Need, NeedUse, ShortMeal, Spare, Stated, Use, User};
pub use makings::{plan, plan_begun, ready_at};
pub use servings::{Serving, goes_into, served_lines, servings};
pub use standing::{Standing, State};
pub use stating::Stating;
pub use unfit::{Unfit, unfit};
pub use uses::meal_name;
pub use weeks::{running, span, week_of};
pub use yields::{Batches, in_makes};
