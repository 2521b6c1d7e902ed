//! A booking as a run of the program makes it: the book opened, what it has to tell said, the booking written and reported.

use std::path::Path;

use jiff::civil::Date;

use super::book_told::say_notes;
use super::outcome::{Done, Failure, json, say, warn};
use super::setting::{Setting, folder, today};
use super::{Cli, Format};
use crate::Reckoning;
use crate::book::{Booking, Keeping, NotBooked, Verb};
use crate::kitchen::{Loaded, PriceChange, Warning};
use crate::words::{counted, day_near, sentence};

/// Opens the book for one booking, with the household as it is then. With --strict what reading warns of ends it here.
pub fn open(cli: &Cli) -> Result<(Setting, Keeping), Failure> {
    let (setting, keeping) = open_by(cli, Keeping::open)?;
    if cli.strict {
        warn(&setting.loaded.warnings, true)?;
    }
    Ok((setting, keeping))
}

/// As [`open`], of a verb that tells what lots are worth.
pub fn open_with_prices(cli: &Cli) -> Result<(Setting, Keeping), Failure> {
    let (mut setting, keeping) = open(cli)?;
    setting.tell_week_prices(cli);
    Ok((setting, keeping))
}

/// With --strict nothing is booked of a week that `list` warns of; but for what waits to be booked and what runs short, which booking mends.
pub fn strictly(cli: &Cli, reckoned: &Reckoning) -> Done {
    let is_mended =
        |warning: &&Warning| matches!(warning, Warning::NotBooked { .. } | Warning::NotBookedToItsEnd { .. } | Warning::Short { .. });
    let warnings: Vec<Warning> = reckoned.warnings.iter().filter(|warning| !is_mended(warning)).cloned().collect();
    if cli.strict { warn(&warnings, true) } else { Ok(()) }
}

/// What is booked as of a day after today may still turn out otherwise: told, and with --strict not booked.
pub fn tell_of_a_day_to_come(cli: &Cli, on: Date, today: Date, what_follows: &str) -> Done {
    if on <= today {
        return Ok(());
    }
    let text = format!("{} is yet to come: {what_follows}. Where that is not meant: spence undo.", day_near(on, today));
    warn(&[Warning::Note { at: None, text }], cli.strict)
}

/// Before a count: what is past and not booked is taken as done on top of what is counted. With --strict nothing is booked then.
pub fn tell_what_counts_twice(cli: &Cli, waiting: &[Warning]) -> Done {
    if waiting.is_empty() {
        return Ok(());
    }
    let text = "what is taken as done is reckoned on top of what is counted: what it bought or made counts twice, what it took or ate is \
                taken off again. Book it first. Where it has been counted already: spence undo, book it, and count again.";
    warn(&[waiting.to_vec(), vec![Warning::Note { at: None, text: text.to_owned() }]].concat(), cli.strict)
}

/// The same, also where the last booking never came into pantry.toml.
pub fn open_to_mend(cli: &Cli) -> Result<(Setting, Keeping), Failure> {
    open_by(cli, Keeping::open_to_mend)
}

type Opened = Result<(Loaded, Keeping), NotBooked>;

fn open_by(cli: &Cli, opens: impl FnOnce(&Path, Date) -> Opened) -> Result<(Setting, Keeping), Failure> {
    let (folder, today) = (folder(cli)?, today(cli));
    let (loaded, mut keeping) = opens(&folder, today)?;
    say_notes(&mut keeping);
    let booked = keeping.booked();
    Ok((Setting::of(folder, loaded, booked, today), keeping))
}

/// Writes a booking.
pub fn book(keeping: &mut Keeping, booking: Booking) -> Done {
    book_all(keeping, vec![booking])
}

/// Writes several bookings in one step.
pub fn book_all(keeping: &mut Keeping, bookings: Vec<Booking>) -> Done {
    let done = keeping.book_all(bookings);
    say_notes(keeping);
    Ok(done?)
}

/// A booking in one sentence: "Thrown away: 40 g feta (mould)."
pub fn sentence_of(what: &str, why: Option<&str>) -> String {
    let why = why.map(|why| format!(" ({why})")).unwrap_or_default();
    format!("{}{why}.", sentence(what))
}

/// Says what was booked: a sentence a booking, or the bookings as JSON.
pub fn report(cli: &Cli, booked: &[Booking], missing: &[String]) -> Done {
    if cli.format == Format::Json {
        return booked_all_the_same(say(&json(&crate::json::booked(booked, missing))?));
    }
    let lines = booked.iter().filter(|booking| booking.verb != Verb::Opening).map(|booking| {
        let why = booking.why.as_deref().map(|why| format!(" ({why})")).unwrap_or_default();
        let prices = booking.prices.iter().map(price_said).collect::<String>();
        match booking.verb {
            Verb::Undo => format!("{}\n{prices}", sentence(&booking.what)),
            _ => format!("Booked: {}{why}\n{prices}", booking.what),
        }
    });
    let missing = missing.iter().map(|line| format!("Not on the shelf: {line}\n"));
    booked_all_the_same(say(&lines.chain(missing).collect::<String>()))
}

/// What cannot be said has been booked, and must not be booked again.
pub fn booked_all_the_same(said: Done) -> Done {
    said.map_err(|failure| match failure {
        Failure::Machine(why) => {
            Failure::Machine(format!("{} The booking stands: do not book it again.", why.replace("; make room and run it again", "")))
        }
        failure => failure,
    })
}

/// "Price: feta, 200 g at Quay market: 2.49, was 2.39".
fn price_said(price: &PriceChange) -> String {
    let plain = |literal: &Option<String>| literal.as_deref().map(|literal| literal.trim_matches('"').to_owned());
    let (to, from) = (plain(&price.to.price), plain(&price.from.price));
    let was = match &from {
        Some(from) if Some(from) == to.as_ref() => ", as before".to_owned(),
        Some(from) => format!(", was {}", in_digits_of(from, to.as_deref())),
        None => String::new(),
    };
    format!("Price: {}, {} at {}: {}{was}\n", price.food, price.size, price.shop, to.unwrap_or_else(|| "none".to_owned()))
}

/// A price as it was typed, "1.0", with as many digits as the one beside it, "1.00".
fn in_digits_of(price: &str, other: Option<&str>) -> String {
    let digits = |price: &str| {
        let number = price.split(' ').next().unwrap_or_default();
        number.split_once('.').map_or(0, |(_, digits)| digits.len())
    };
    let (number, per) = price.split_once(' ').map_or((price, String::new()), |(number, per)| (number, format!(" {per}")));
    let missing = other.map_or(0, |other| digits(other).saturating_sub(digits(price)));
    let point = if missing > 0 && !number.contains('.') { "." } else { "" };
    format!("{number}{point}{}{per}", "0".repeat(missing))
}

/// "1 lot", "3 lots".
pub fn lots(count: usize) -> String {
    counted(count, "lot")
}
