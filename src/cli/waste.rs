//! `waste`: thrown away, with a reason.

use super::Cli;
use super::keeping::{book, open_with_prices, report};
use super::outcome::{Done, Failure};
use crate::book::{NotWasted, thrown_away};
use crate::kitchen::{Recipe, as_of_a_recipe};

pub fn run(cli: &Cli, what: &str, why: &str) -> Done {
    let (setting, mut keeping) = open_with_prices(cli)?;
    let thrown = thrown_away(&setting.loaded.kitchen, &keeping.shelf, what, why, setting.today);
    let thrown = thrown.map_err(|not| not_wasted(what, &not, &setting.loaded.kitchen.recipes))?;
    book(&mut keeping, thrown.booking)?;
    report(cli, keeping.new_bookings(), &thrown.missing)
}

pub fn not_wasted(what: &str, not: &NotWasted, recipes: &[Recipe]) -> Failure {
    let ids: Vec<&str> = recipes.iter().map(|recipe| recipe.id.as_str()).collect();
    let meant = as_of_a_recipe(what, ids.clone()).filter(|meant| meant.rsplit(' ').next().is_some_and(|own| !what.contains(own)));
    Failure::Usage(match (not, meant) {
        (NotWasted::Unread(_) | NotWasted::NoLot, Some(meant)) => format!("\"{what}\" is nothing on the shelf. Did you mean \"{meant}\"?"),
        (NotWasted::Unread(error), _) => format!("cannot read \"{what}\": {}. Instead: {}.", error.cause, error.remedy),
        (NotWasted::NoAmount, _) => format!("\"{what}\" has no amount. Write it like \"200 g feta\"."),
        (NotWasted::NoLot, _) => format!("\"{what}\": there is none on the shelf. Nothing was booked."),
        (NotWasted::NotComparable, _) => format!("\"{what}\" is in another measure than what is on the shelf. Nothing was booked."),
    })
}
