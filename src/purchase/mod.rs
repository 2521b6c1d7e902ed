//! Packs, offers, shops, trips: the exact choice of what to buy where.
//!
//! ```text
//! Need ── Ask (windows, targets) ──┐
//!                                  ├─ cover, windows: the best plan at each shop ─> shops: which to visit ─> lines by section
//! Pack ── Shelf (effective sizes) ─┘
//! ```

mod ask;
mod assemble;
mod choose;
mod compare;
mod cover;
mod joint;
mod line;
mod list;
mod meals;
mod shelf;
mod shops;
mod trips;
mod windows;

#[cfg(test)]
mod tests;

pub use assemble::{Parts, shopping_list};
pub use choose::{Basket, choose};
pub use compare::{Round, TripComparison, compare};
pub use list::{
    Expiring, Flag, FromPantry, ListLine, MealNote, MoveNote, PackLine, PerEater, Section, ShopVisit, ShoppingList, SpareNote, TripList,
};
pub use meals::meals;
pub use trips::{Needs, needs};
