//! From one TOML value to one typed value, read as people type it. What is far outside any kitchen is refused here, so that no later
//! sum can overflow.

use jiff::civil::{Date, DateTime, Time};
use toml::de::DeValue;

use super::hint;
use crate::foods::Kind;
use crate::measure::{
    Celsius, Currency, Days, Dimension, InPacks, Minutes, Money, Number, Quantity, ReadError, Spoons, read_celsius, read_days,
    read_in_packs, read_kelvin, read_minutes, read_money, read_quantity, read_share,
};

pub(super) type Read<T> = Result<T, ReadError>;

/// No household amount, in grams, millilitres, pieces or portions, comes near this.
const MOST: f64 = 1e9;
/// Nor is any as small: a tenth of a milligram.
const LEAST: f64 = 1e-4;
const MOST_MINUTES: i64 = 60 * 24 * 366;
const MOST_DAYS: i64 = 366 * 100;
const MOST_MONEY: i64 = 1_000_000_000_000;
const YEARS: std::ops::RangeInclusive<i16> = 1900..=2999;

/// What a value is, in words.
pub(super) fn kind_of(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "a text",
        DeValue::Integer(_) | DeValue::Float(_) => "a number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date or time",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}

pub(super) fn wrong<T>(cause: String, remedy: impl Into<String>) -> Read<T> {
    Err(ReadError { cause, remedy: remedy.into() })
}

fn wrong_kind<T>(value: &DeValue<'_>, wanted: &str, example: &str) -> Read<T> {
    wrong(format!("expected {wanted}, found {}", kind_of(value)), format!("Write it like {example}."))
}

/// A text that is not blank.
pub(super) fn text(value: &DeValue<'_>) -> Read<String> {
    match value {
        DeValue::String(text) if text.trim().is_empty() => {
            wrong("the text is empty".to_owned(), "Write something in it, or leave the key out.")
        }
        DeValue::String(text) => Ok(text.trim().to_owned()),
        _ => wrong_kind(value, "a text", "\"...\", in quotes"),
    }
}

/// A text, or the digits of a number.
pub(super) fn text_or_digits(value: &DeValue<'_>) -> Read<String> {
    match value {
        DeValue::Integer(number) if number.radix() == 10 => Ok(number.as_str().to_owned()),
        DeValue::Float(number) => Ok(number.as_str().to_owned()),
        _ => text(value),
    }
}

pub(super) fn yes_no(value: &DeValue<'_>) -> Read<bool> {
    match value {
        DeValue::Boolean(yes) => Ok(*yes),
        _ => wrong_kind(value, "true or false", "true, without quotes"),
    }
}

/// A number above zero, whole or not, quoted or not.
pub(super) fn positive(value: &DeValue<'_>) -> Read<f64> {
    let number = number(value)?;
    if number > 0.0 && number < MOST {
        return Ok(number);
    }
    if number > 0.0 {
        return wrong("the number is too large for a kitchen".to_owned(), format!("Write a number above 0 and below {MOST}."));
    }
    wrong(format!("{number} is not above zero"), "Write a number above 0.")
}

/// A number of zero or more.
pub(super) fn zero_or_more(value: &DeValue<'_>) -> Read<f64> {
    let number = number(value)?;
    if (0.0..MOST).contains(&number) { Ok(number) } else { wrong(format!("{number} is not zero or more"), "Write a number of 0 or more.") }
}

pub(super) fn number(value: &DeValue<'_>) -> Read<f64> {
    let digits = match value {
        DeValue::Integer(number) if number.radix() == 10 => number.as_str(),
        DeValue::Float(number) => number.as_str(),
        DeValue::String(text) => text.trim(),
        _ => return wrong_kind(value, "a number", "3 or 0.5"),
    };
    match digits.parse::<f64>() {
        Ok(number) if number.is_finite() => Ok(number),
        _ => wrong(format!("\"{digits}\" is not a number"), "Write a number such as 3 or 0.5."),
    }
}

/// A whole number from `least` to 1000.
pub(super) fn whole(least: u32) -> impl FnOnce(&DeValue<'_>) -> Read<u32> {
    move |value| {
        let number = number(value)?;
        if number.fract() == 0.0 && number >= f64::from(least) && number <= 1000.0 {
            return Ok(number as u32);
        }
        wrong(
            format!("{number} is not a whole number from {least} to 1000"),
            if number > 1000.0 {
                "Write a whole number, 1000 or less.".to_owned()
            } else {
                format!("Write a whole number, {least} or more.")
            },
        )
    }
}

/// One of a few words, in any letter case.
pub(super) fn one_of<T: Copy>(words: &'static [(&'static str, T)]) -> impl FnOnce(&DeValue<'_>) -> Read<T> {
    move |value| {
        let typed = text(value)?;
        if let Some((_, meant)) = words.iter().find(|(word, _)| word.eq_ignore_ascii_case(&typed)) {
            return Ok(*meant);
        }
        let known: Vec<String> = words.iter().map(|(word, _)| format!("\"{word}\"")).collect();
        let near = hint::nearest(&typed, words.iter().map(|(word, _)| *word)).map(|word| format!("Did you mean \"{word}\"? "));
        wrong(
            format!("\"{typed}\" is not one of the words known here"),
            format!("{}Write {}.", near.unwrap_or_default(), known.join(" or ")),
        )
    }
}

/// A kind of food.
pub(super) fn kind(value: &DeValue<'_>) -> Read<Kind> {
    let typed = text(value)?;
    if let Some(kind) = Kind::named(&typed) {
        return Ok(kind);
    }
    let remedy = match hint::nearest(&typed, Kind::NAMES) {
        Some(near) => format!("Did you mean \"{near}\"?"),
        None => format!("Known: {}.", Kind::NAMES.join(", ")),
    };
    wrong(format!("\"{typed}\" is not a kind of food"), remedy)
}

fn a_text<'a>(value: &'a DeValue<'_>, wanted: &str, example: &str) -> Read<&'a str> {
    match value {
        DeValue::String(text) => Ok(text.trim()),
        _ => wrong_kind(value, wanted, example),
    }
}

pub(super) fn minutes(value: &DeValue<'_>) -> Read<Minutes> {
    let minutes = read_minutes(a_text(value, "a duration", "\"45 min\" or \"1 h 10 min\"")?)?;
    if (0..=MOST_MINUTES).contains(&minutes.0) {
        return Ok(minutes);
    }
    wrong("a duration from 0 minutes to one year is wanted".to_owned(), "Write it like \"45 min\" or \"1 h 10 min\".")
}

pub(super) fn days(value: &DeValue<'_>) -> Read<Days> {
    let days = read_days(a_text(value, "a number of days", "\"3 days\" or \"2 weeks\"")?)?;
    if (0..=MOST_DAYS).contains(&days.0) {
        return Ok(days);
    }
    wrong("a time from 0 days to one hundred years is wanted".to_owned(), "Write it like \"3 days\" or \"2 weeks\".")
}

pub(super) fn celsius(value: &DeValue<'_>) -> Read<Celsius> {
    let celsius = read_celsius(a_text(value, "a temperature", "\"190 °C\" or \"375 F\"")?)?;
    if (-60.0..=1000.0).contains(&celsius.0) {
        return Ok(celsius);
    }
    wrong(format!("{} °C is no temperature of a kitchen", celsius.0), "Write it like \"190 °C\" or \"375 F\".")
}

/// A difference of temperatures, in kelvin.
pub(super) fn kelvin(value: &DeValue<'_>) -> Read<f64> {
    let kelvin = read_kelvin(a_text(value, "a difference of temperatures", "\"10 °C\"")?)?;
    if (0.0..=500.0).contains(&kelvin) {
        return Ok(kelvin);
    }
    wrong("a difference from 0 to 500 °C is wanted".to_owned(), "Write it like \"10 °C\".")
}

/// A share of one: "2%", or 0.02 as a plain number.
pub(super) fn share(value: &DeValue<'_>) -> Read<f64> {
    let share = match value {
        DeValue::String(text) => read_share(text.trim())?,
        DeValue::Integer(_) | DeValue::Float(_) => number(value)?,
        _ => return wrong_kind(value, "a share", "\"2%\""),
    };
    if (0.0..=1.0).contains(&share) {
        return Ok(share);
    }
    wrong("a share lies between 0% and 100%".to_owned(), "Write it like \"2%\".")
}

/// A share above zero.
pub(super) fn some_share(value: &DeValue<'_>) -> Read<f64> {
    match share(value)? {
        0.0 => wrong("the share is zero".to_owned(), "Write a share above zero, or leave the key out."),
        some => Ok(some),
    }
}

/// An amount above zero; a plain number is that many pieces.
pub(super) fn quantity(spoons: Spoons) -> impl FnOnce(&DeValue<'_>) -> Read<Quantity> {
    move |value| {
        let typed = typed_amount(value)?;
        let quantity = read_quantity(&typed, spoons)?;
        a_kitchen_could_mean(&quantity, &typed)?;
        Ok(quantity)
    }
}

/// As [`quantity`], of what lies on a shelf: closed packs are told apart, as in `3 x 400 g`.
pub(super) fn in_packs(spoons: Spoons) -> impl FnOnce(&DeValue<'_>) -> Read<InPacks> {
    move |value| {
        let typed = typed_amount(value)?;
        let lies = read_in_packs(&typed, spoons)?;
        a_kitchen_could_mean(&lies.amount, &typed)?;
        Ok(lies)
    }
}

fn typed_amount(value: &DeValue<'_>) -> Read<String> {
    match value {
        DeValue::String(_) | DeValue::Integer(_) | DeValue::Float(_) => text_or_digits(value),
        _ => wrong_kind(value, "an amount", "\"350 g\""),
    }
}

fn a_kitchen_could_mean(quantity: &Quantity, typed: &str) -> Read<()> {
    if (LEAST..MOST).contains(&quantity.base()) {
        return Ok(());
    }
    wrong(format!("\"{typed}\" is not an amount above zero that a kitchen could mean"), "Write an amount above 0, such as \"350 g\".")
}

fn in_dimension(
    spoons: Spoons,
    dimension: Dimension,
    wanted: &'static str,
    example: &'static str,
) -> impl FnOnce(&DeValue<'_>) -> Read<Number> {
    move |value| {
        let quantity = quantity(spoons)(value)?;
        if quantity.dimension() == dimension {
            return Ok(quantity.exact().clone());
        }
        wrong(format!("{wanted} is wanted here"), format!("Write it like {example}."))
    }
}

/// Grams, from any unit of mass.
pub(super) fn grams(value: &DeValue<'_>) -> Read<f64> {
    exact_grams(value).map(|grams| grams.to_f64())
}

pub(super) fn exact_grams(value: &DeValue<'_>) -> Read<Number> {
    in_dimension(Spoons::Us, Dimension::Mass, "a weight", "\"200 g\"")(value)
}

/// What a thing of the kitchen weighs or holds: in grams or millilitres.
pub(super) fn weight_or_volume(value: &DeValue<'_>) -> Read<Quantity> {
    let quantity = quantity(Spoons::Us)(value)?;
    if matches!(quantity.dimension(), Dimension::Mass | Dimension::Volume) {
        return Ok(quantity);
    }
    wrong("a weight or a volume is wanted here".to_owned(), "Write it like \"200 g\" or \"500 ml\".")
}

/// Litres, from any unit of volume.
pub(super) fn litres(value: &DeValue<'_>) -> Read<f64> {
    in_dimension(Spoons::Us, Dimension::Volume, "a volume", "\"20 l\"")(value).map(|millilitres| (millilitres / 1000).to_f64())
}

/// Money from its digits, quoted or not, never negative.
pub(super) fn money(currency: &Currency) -> impl FnOnce(&DeValue<'_>) -> Read<Money> {
    move |value| {
        let digits = match value {
            DeValue::String(_) | DeValue::Integer(_) | DeValue::Float(_) => text_or_digits(value)?,
            _ => return wrong_kind(value, "an amount of money", "0.89 or \"0.89\""),
        };
        if digits.starts_with('-') {
            return wrong(format!("{digits} is less than nothing"), "Write a price of 0 or more.");
        }
        let money = read_money(&digits, currency)?;
        if (0..=MOST_MONEY).contains(&money.0) {
            return Ok(money);
        }
        wrong(format!("{digits} is not a price that a shop could ask"), "Write a price like 0.89.")
    }
}

fn sensible(date: Option<Date>, typed: &str) -> Read<Date> {
    match date {
        Some(date) if YEARS.contains(&date.year()) => Ok(date),
        Some(_) => wrong(format!("the year of \"{typed}\" is not from 1900 to 2999"), "Write it as year-month-day: 2026-11-30."),
        None => wrong(format!("\"{typed}\" is not a day of the calendar"), "Write it as year-month-day: 2026-11-30."),
    }
}

fn date_from_text(text: &str) -> Option<Date> {
    let mut parts = text.split('-');
    let (year, month, day) = (parts.next()?, parts.next()?, parts.next()?);
    let digits = |part: &str, most: usize| !part.is_empty() && part.len() <= most && part.bytes().all(|b| b.is_ascii_digit());
    if parts.next().is_some() || year.len() != 4 || !digits(year, 4) || !digits(month, 2) || !digits(day, 2) {
        return None;
    }
    Date::new(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?).ok()
}

fn time_from_text(text: &str) -> Option<Time> {
    let parts: Vec<&str> = text.split(':').collect();
    let digits = |part: &str| (1..=2).contains(&part.len()) && part.bytes().all(|b| b.is_ascii_digit());
    if !(2..=3).contains(&parts.len()) || !parts.iter().all(|part| digits(part)) || parts[1].len() != 2 {
        return None;
    }
    let second = parts.get(2).map_or(Some(0), |second| second.parse().ok())?;
    Time::new(parts[0].parse().ok()?, parts[1].parse().ok()?, second, 0).ok()
}

fn toml_date(date: toml::value::Date) -> Option<Date> {
    Date::new(date.year as i16, date.month as i8, date.day as i8).ok()
}

fn toml_time(time: toml::value::Time) -> Option<Time> {
    Time::new(time.hour as i8, time.minute as i8, time.second.unwrap_or(0) as i8, 0).ok()
}

/// A date alone, quoted or not.
pub(super) fn date(value: &DeValue<'_>) -> Read<Date> {
    match value {
        DeValue::String(text) => sensible(date_from_text(text.trim()), text.trim()),
        DeValue::Datetime(moment) if moment.time.is_none() => sensible(moment.date.and_then(toml_date), &moment.to_string()),
        DeValue::Datetime(moment) => wrong(format!("{moment} is not a date alone"), "Write the day without a time: 2026-11-30."),
        _ => wrong_kind(value, "a date", "2026-11-30"),
    }
}

/// A time of day, quoted or not, with or without seconds.
pub(super) fn time(value: &DeValue<'_>) -> Read<Time> {
    let (time, typed) = match value {
        DeValue::String(text) => (time_from_text(text.trim()), text.trim().to_owned()),
        DeValue::Datetime(moment) if moment.date.is_none() => (moment.time.and_then(toml_time), moment.to_string()),
        DeValue::Datetime(moment) => {
            return wrong(format!("{moment} is not a time of day alone"), "Write the time without a date: \"17:30\".");
        }
        _ => return wrong_kind(value, "a time of day", "\"17:30\""),
    };
    time.map_or_else(|| wrong(format!("\"{typed}\" is not a time of day"), "Write it like \"17:30\"."), Ok)
}

/// A date and a time of day, quoted or not, with "T" or a blank between.
pub(super) fn moment(value: &DeValue<'_>) -> Read<DateTime> {
    let example = "Write day and time: 2026-11-29T14:00.";
    let (date, time, typed) = match value {
        DeValue::String(text) => {
            let (date, time) = text.trim().split_once(['T', 't', ' ']).unwrap_or((text.trim(), ""));
            (date_from_text(date), time_from_text(time.trim()), text.trim().to_owned())
        }
        DeValue::Datetime(moment) if moment.offset.is_some() => {
            return wrong(format!("{moment} names a time zone, but the household has only its own clock"), example);
        }
        DeValue::Datetime(moment) => (moment.date.and_then(toml_date), moment.time.and_then(toml_time), moment.to_string()),
        _ => return wrong_kind(value, "a date with a time", "2026-11-29T14:00"),
    };
    match (date, time) {
        (Some(date), Some(time)) if YEARS.contains(&date.year()) => Ok(date.to_datetime(time)),
        (Some(_), None) => wrong(format!("\"{typed}\" lacks a time of day"), example),
        _ => wrong(format!("\"{typed}\" is not a date with a time"), example),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::{date as day, time as clock};
    use pretty_assertions::assert_eq;

    fn value(text: &str) -> DeValue<'_> {
        DeValue::parse(text).unwrap().into_inner()
    }

    #[test]
    fn times_are_read_with_or_without_seconds_quoted_or_not() {
        for typed in ["17:30", "\"17:30\"", "17:30:00", "\"17:30:00\""] {
            assert_eq!(time(&value(typed)), Ok(clock(17, 30, 0, 0)), "{typed}");
        }
        assert_eq!(time(&value("\"7:30\"")), Ok(clock(7, 30, 0, 0)));
        for typed in ["\"25:00\"", "\"17:3\"", "\"supper\"", "1730", "2026-11-30"] {
            assert!(time(&value(typed)).is_err(), "{typed}");
        }
    }

    #[test]
    fn dates_and_moments_are_read_quoted_or_not() {
        assert_eq!(date(&value("2026-11-30")), Ok(day(2026, 11, 30)));
        assert_eq!(date(&value("\"2026-11-30\"")), Ok(day(2026, 11, 30)));
        let two = day(2026, 11, 29).at(14, 0, 0, 0);
        for typed in ["2026-11-29T14:00", "2026-11-29 14:00", "\"2026-11-29 14:00\"", "\"2026-11-29T14:00:00\""] {
            assert_eq!(moment(&value(typed)), Ok(two), "{typed}");
        }
        for typed in ["\"2026-02-30\"", "\"30.11.2026\"", "2026-11-29T14:00", "0001-01-01"] {
            assert!(date(&value(typed)).is_err(), "{typed}");
        }
        assert!(moment(&value("2026-11-29T14:00:00Z")).unwrap_err().cause.contains("time zone"));
    }

    #[test]
    fn a_number_may_be_whole_or_broken_but_never_zero_or_less() {
        assert_eq!(positive(&value("3")), Ok(3.0));
        assert_eq!(positive(&value("2.5")), Ok(2.5));
        for typed in ["0", "-1", "nan", "inf", "\"three\"", "true"] {
            assert!(positive(&value(typed)).is_err(), "{typed}");
        }
    }
}
