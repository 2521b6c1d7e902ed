//! The scheduler against published job shops, an independent checker and exhaustive search.

mod benchmarks;
mod checker;
mod doers;
mod exhaustive;
mod jobshops;
mod kitchens;
mod random;
mod rules;
