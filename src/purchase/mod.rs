//! Packs, offers, shops, trips: the exact choice of what to buy where.
//!
//! ```text
//! Need ── Ask (windows, targets) ──┐
//!                                  ├─ cover, windows: the best plan at each shop ─> shops: which to visit ─> lines by section
//! Pack ── Shelf (effective sizes) ─┘
//! ```

mod ask;
mod assemble;
mod buys;
mod choose;
mod compare;
mod cover;
mod joint;
mod leaves;
mod line;
mod list;
mod meals;
mod paid;
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
pub use buys::{Beside, Buy, Seller, TripBuys, TripHashes, WeekBuys, in_order};
pub use choose::{Basket, choose, choose_thrifty, leave_out_the_unmet};
pub use compare::{Round, TripComparison, compare};
pub use leaves::{leftovers, listed, worth};
pub use line::pieces_about;
pub use list::{
    Awaiting, Beware, Budget, DayNote, Expiring, Figure, Flag, FoodAmount, FromPantry, Lacking, Leaves, Leftover, ListLine, MealNote,
    OfferTaken, Opening, PackCount, PackLine, Packed, PerEater, Portion, RecipeUse, Reserved, SaveBy, Saving, Section, ShopVisit,
    ShoppingList, Stop, TripList, Untimely, Windows, Without, Worth,
};
pub use meals::{MealPrices, Of, PortionNote, days, meals, per_batch, per_one, per_portion};
pub use paid::{Paid, Stay};
pub use seen::old_prices;
pub use trips::{Needs, needs, trips_of_their_own};
