//! Everything that is tested from outside the library, as one program: linking is what takes the time.
//!
//! `kitchen` writes tiny kitchens and runs the built program on them; `support` makes up streets of shops; `dice` gives both numbers from a seed.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on says so")]

mod days;
mod dice;
mod kitchen;
mod support;

mod adopt;
mod adopt_pages;
mod afternoons;
mod allergies;
mod as_booked;
mod boatyard_row;
mod book;
mod bounds;
mod browser;
mod calendar;
mod cli;
mod closed_packs;
mod components;
mod compose;
mod count;
mod eaters;
mod every_key;
mod finer_rules;
mod forms;
mod fuzz;
mod handout;
mod house;
mod household_of_four;
mod issue;
mod life;
mod lines;
mod lived;
mod machine;
mod makings;
mod meal_cautions;
mod methods;
mod mind;
mod mistakes;
mod money;
mod needs;
mod netting;
mod next_week;
mod one_price;
mod only_named;
mod opened;
mod opening_order;
mod out_of_order;
mod packs;
mod past_as_it_was;
mod phone;
mod prep_advice;
mod prep_people;
mod prep_rules;
mod print;
mod properties;
mod readme;
mod receive;
mod recipe;
mod reference_lines;
mod schedule;
mod schemas;
mod served;
mod set_aside;
mod shelf_told;
mod shops;
mod small_children;
mod solver_check;
mod steps_written;
mod table_week;
mod trips;
mod trust;
mod under_way;
mod wording;
mod worked_week;
mod year;

/// A file that is no module here would never be run.
#[test]
fn every_file_of_tests_is_a_module() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests");
    let said = include_str!("main.rs");
    for entry in std::fs::read_dir(folder).expect("the folder of tests").flatten() {
        let file = entry.file_name().into_string().expect("a plain name");
        if let Some(name) = file.strip_suffix(".rs").filter(|name| *name != "main") {
            assert!(said.contains(&format!("mod {name};")), "add \"mod {name};\" to tests/main.rs");
        }
    }
}
