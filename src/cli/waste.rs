//! `waste`: thrown away, with a reason.

use super::Cli;
use super::keeping::{book, open, report};
use super::outcome::{Done, Failure};
use crate::book::{NotWasted, thrown_away};

pub fn run(cli: &Cli, what: &str, why: &str) -> Done {
    let (setting, mut keeping) = open(cli)?;
    let thrown = thrown_away(&setting.loaded.kitchen, &keeping.shelf, what, why, setting.today);
    let thrown = thrown.map_err(|not| not_wasted(what, &not))?;
    book(&mut keeping, thrown.booking)?;
    report(cli, keeping.new_bookings(), &thrown.missing)
}

fn not_wasted(what: &str, not: &NotWasted) -> Failure {
    Failure::Usage(match not {
        NotWasted::Unread(error) => format!("cannot read \"{what}\": {}. Instead: {}.", error.cause, error.remedy),
        NotWasted::NoAmount => format!("\"{what}\" has no amount. Write it like \"200 g feta\"."),
        NotWasted::NoLot => format!("\"{what}\": there is none on the shelf. Nothing was booked."),
        NotWasted::NotComparable => format!("\"{what}\" is in another measure than what is on the shelf. Nothing was booked."),
    })
}
