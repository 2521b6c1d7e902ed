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
mod cover;
mod line;
mod list;
mod shelf;
mod shops;
mod trips;
mod windows;

#[cfg(test)]
mod tests;

pub use assemble::{Parts, shopping_list};
pub use choose::{Basket, choose};
pub use list::{Expiring, Flag, FromPantry, ListLine, MoveNote, PackLine, Section, ShopVisit, ShoppingList, SpareNote, TripList};
pub use trips::{Needs, needs};
