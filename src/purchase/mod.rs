//! Packs, offers, shops, trips: the exact choice of what to buy where.

mod choose;
mod list;

pub use choose::{Basket, choose};
pub use list::{Expiring, Flag, FromPantry, ListLine, MoveNote, PackLine, Section, ShopVisit, ShoppingList, SpareNote, TripList};
