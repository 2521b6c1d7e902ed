//! Week -> makings in cooking sessions -> dated demand.

mod avoid;
mod demand;
mod making;
mod makings;
mod order;
mod standing;
mod stating;
mod uses;
mod weeks;
mod yields;

pub use avoid::{Beware, Contains, avoided, avoided_at_meals, food_contains, meal_contains, recipe_contains};
pub use demand::{Demanded, demand};
pub use making::{Boxed, Demand, Draw, Kept, MadeAt, Making, Makings, Move, Need, NeedUse, ShortMeal, Spare, Stated, Use, User};
pub use makings::{plan, plan_begun, ready_at};
pub use standing::{Standing, State};
pub use stating::Stating;
pub use uses::{meal_name, served_lines};
pub use weeks::{running, span, week_of};
pub use yields::{Batches, in_makes};
