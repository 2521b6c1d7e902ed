//! Week -> makings in cooking sessions -> dated demand.
//!
//! A dish that is served hot on the day of its session is eaten straight from the pot where the meal begins within two
//! hours of the session's `finish_by` (without one, of the earliest finish of the rest); every other is served from a
//! box, because what is not eaten must be chilled within two hours (USDA FSIS, left-overs).
//!
//! Booked trips, sessions and meals are left out of the plan. What is eaten straight from the pot is booked into the
//! fridge with its session and leaves with its meal.

mod allergies;
mod aside;
mod avoid;
mod boxes;
mod children;
mod demand;
mod guarded;
mod heated;
mod making;
mod makings;
mod meets;
mod minutes;
mod only_named;
mod order;
mod pieces;
mod plate;
mod servings;
mod standing;
mod stating;
mod straight;
mod unfit;
mod uses;
mod weeks;
mod words_beside;
mod yields;

pub use allergies::{CrossContact, cross_contacts, guard};
pub use aside::{goes_in_later, is_chilled_alone, set_aside_before, taken_out_before};
pub use avoid::{Beware, Contains, avoided, avoided_at_meals, food_contains, meal_contains, recipe_contains, recipe_contains_without};
pub use demand::{Demanded, demand, demand_by_lines, tin_of};
pub use guarded::Guarded;
pub use making::{
    Apart, Begins, Boxed, Demand, Draw, Kept, MadeAt, Making, Makings, Move, Need, NeedUse, ShortMeal, Spare, Stated, Use, User,
};
pub use makings::{plan, plan_begun, ready_at};
pub use minutes::{hands_for, one_after_another, paced};
pub use only_named::told_of_words;
pub use pieces::{counts_whole, times_taken};
pub use servings::{Serving, goes_into, served_dishes, served_lines, servings, taken_lines};
pub use standing::{Standing, State};
pub use stating::Stating;
pub use straight::{served_after, straight_meals};
pub use unfit::{NotFor, Unfit, avoided_ware, unfit};
pub use uses::meal_name;
pub use weeks::{running, span, week_of};
pub use yields::{Batches, in_makes};
