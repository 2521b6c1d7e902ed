//! Packs, offers, shops, trips: the exact choice of what to buy where.
//!
//! ```text
//! Need ── Ask (windows, targets) ──┐
//!                                  ├─ cover, windows: the best plan at each shop ─> shops: which to visit ─> lines by section
//! Pack ── Shelf (effective sizes) ─┘
//! ```

mod ask;
mod assemble;
mod budget;
mod buys;
mod choose;
mod compare;
mod cover;
mod joint;
mod leaves;
mod left_over;
mod line;
mod list;
mod list_line;
mod meals;
mod paid;
mod per_eater;
mod quote;
mod recipes;
mod seen;
mod shelf;
mod shops;
mod tins;
mod told;
mod trips;
mod windows;

#[cfg(test)]
mod tests;

pub use assemble::{Parts, shopping_list};
pub use budget::{Budget, SaveBy, Saving};
pub use buys::{Beside, Buy, Seller, TripBuys, TripHashes, WeekBuys, in_order};
pub use choose::{Basket, choose, leave_out_the_unmet};
pub use compare::compare;
pub use leaves::{leftovers, listed, worth};
pub use left_over::{FoodAmount, Leaves, Leftover, RecipeUse, Worth};
pub use line::pieces_about;
pub use list::{
    Awaiting, Expiring, Flag, FromPantry, Reserved, Round, Section, ShopVisit, ShoppingList, Stop, TripComparison, TripList, Untimely,
};
pub use list_line::{Beware, ListLine, OfferTaken, Opening, PackCount, PackLine, Packed, Windows, Without};
pub use meals::{MealPrices, Of, PortionNote, days, meals, per_batch, per_one, per_portion};
pub use paid::{Paid, Stay};
pub use per_eater::{DayNote, Figure, Lacking, MealNote, PerEater, Portion};
pub use quote::{Quote, Quotes};
pub use seen::old_prices;
pub use trips::{Needs, needs, trips_of_their_own};
