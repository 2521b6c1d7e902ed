//! `waste`: thrown away, with a reason.

use super::Cli;
use super::keeping::{book, open_with_prices, report};
use super::outcome::{Done, Failure};
use super::setting::Setting;
use crate::book::{NotWasted, thrown_away};
use crate::kitchen::{Ware, Warning, as_of_a_recipe};

pub fn run(cli: &Cli, what: &str, why: &str) -> Done {
    let (setting, mut keeping) = open_with_prices(cli)?;
    let thrown = thrown_away(&setting.loaded.kitchen, &keeping.shelf, what, why, (setting.last_day(cli), setting.today));
    let thrown = thrown.map_err(|not| not_wasted(cli, &setting, what, &not))?;
    let missing = thrown.missing_words();
    book(&mut keeping, thrown.booking)?;
    report(cli, keeping.new_bookings(), &missing)
}

pub fn not_wasted(cli: &Cli, setting: &Setting, what: &str, not: &NotWasted) -> Failure {
    let ids: Vec<&str> = setting.loaded.kitchen.recipes.iter().map(|recipe| recipe.id.as_str()).collect();
    let meant = as_of_a_recipe(what, ids.clone()).filter(|meant| meant.rsplit(' ').next().is_some_and(|own| !what.contains(own)));
    Failure::Usage(match (not, meant) {
        (NotWasted::Unread(_) | NotWasted::NoLot(_), Some(meant)) => {
            format!("\"{what}\" is nothing on the shelf. Did you mean \"{meant}\"?")
        }
        (NotWasted::Unread(error), _) => format!("cannot read \"{what}\": {}. Instead: {}.", error.cause, error.remedy),
        (NotWasted::NoAmount, _) => format!("\"{what}\" has no amount. Write it like \"200 g feta\"."),
        (NotWasted::NoLot(of), _) => {
            let first = of.and_then(|of| to_book_first(cli, setting, of)).unwrap_or_default();
            format!("\"{what}\": there is none on the shelf. Nothing was booked.{first}")
        }
        (NotWasted::NotComparable, _) => format!("\"{what}\" is in another measure than what is on the shelf. Nothing was booked."),
    })
}

/// What `list` has at home because it is taken as done is on no shelf until that is booked.
fn to_book_first(cli: &Cli, setting: &Setting, of: Ware) -> Option<String> {
    let weeks = setting.weeks_at_hand(cli.week.as_deref()).ok()?;
    let said = |week: usize| {
        let reckoned = setting.reckon_week(week).ok()?;
        let has_it = reckoned.kitchen.lots.iter().any(|lot| lot.of == of && lot.amount.exact().is_positive());
        let waiting = reckoned.warnings.iter().find_map(|warning| match warning {
            Warning::NotBooked { what, commands, .. } => Some((what, commands)),
            _ => None,
        });
        let (what, commands) = waiting.filter(|_| has_it)?;
        Some(format!(" It is there once what is taken as done is booked: {}. First: {}.", what.join(", "), commands.join("; ")))
    };
    weeks.into_iter().find_map(said)
}
