//! What is known of a food: weights, yields, keeping, section, allergens; the built-in reference; conversions.
//!
//! Nothing in this room knows a recipe.

pub mod animals;
mod book;
mod card;
mod convert;
mod cooks;
mod facts;
mod food;
mod kind;
mod lineage;
mod made_of;
mod names;
mod reference;
mod rows;
pub mod safety;

pub use book::Foods;
pub use card::CardLine;
pub use convert::{as_purchased, as_purchased_with_facts, convert, convert_with_facts, in_form_with_facts, own_dimension};
pub(crate) use convert::{same_forms, unit_fact};
pub use cooks::Cooks;
pub(crate) use cooks::read_cooks;
pub use facts::UsedFact;
pub use food::{Allergen, Fact, Food, FoodId, Grade, Item, Keeping, Measured, MissingFact, Nutrients, Place, State};
pub use kind::Kind;
pub use made_of::Kinship;
pub(crate) use names::{key_of, push_word};
