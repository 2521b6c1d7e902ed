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
mod stating;
mod uses;
mod weeks;
mod yields;

pub use allergies::{CrossContact, Guarded, cross_contacts, guard};
pub use aside::taken_out_before;
pub use avoid::{Beware, Contains, avoided, avoided_at_meals, food_contains, meal_contains, recipe_contains};
pub use demand::{Demanded, demand};
pub use making::{Apart, Boxed, Demand, Draw, Kept, MadeAt, Making, Makings, Move, Need, NeedUse, Spare, Stated, Use, User};
pub use makings::{plan, ready_at};
pub use servings::{Serving, goes_into, served_lines, servings};
pub use stating::Stating;
pub use uses::meal_name;
pub use weeks::{past, running, span, still_to_do_from, week_of};
pub use yields::{Batches, in_makes};
