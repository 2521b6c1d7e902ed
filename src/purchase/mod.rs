//! Packs, offers, shops, trips: the exact choice of what to buy where.

mod assemble;
mod choose;
mod list;
mod trips;

pub use assemble::{Parts, shopping_list};
pub use choose::{Basket, choose};
pub use list::{Expiring, Flag, FromPantry, ListLine, MoveNote, PackLine, Section, ShopVisit, ShoppingList, SpareNote, TripList};
pub use trips::{Needs, needs};
