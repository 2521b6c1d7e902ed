//! Everything that is tested from outside the library, as one program: linking is what takes the time.
//!
//! `kitchen` writes tiny kitchens and runs the built program on them; `support` makes up streets of shops; `dice` gives both numbers from a seed.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on says so")]

mod dice;
mod kitchen;
mod support;

mod boatyard_row;
mod book;
mod cli;
mod components;
mod count;
mod every_key;
mod finer_rules;
mod issue;
mod lines;
mod machine;
mod makings;
mod mistakes;
mod money;
mod needs;
mod netting;
mod next_week;
mod opened;
mod packs;
mod prep_advice;
mod prep_people;
mod prep_rules;
mod print;
mod properties;
mod receive;
mod reference_lines;
mod schedule;
mod shops;
mod solver_check;
mod trips;
mod worked_week;
mod year;
