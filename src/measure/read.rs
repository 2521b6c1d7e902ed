//! Reading what people type: amounts, durations, temperatures, shares and prices.
//!
//! `Spoons` says which pints are meant, too: every amount is read with both at once.

use jiff::{Span, fmt::friendly::SpanParser};

use super::amount::{AmountRead, amount, times, unit};
use super::number::number;
use super::quantity::tidy;
use super::read_error::{ReadError, error};
use super::tokens::{DASHES, Kind, cut};
use super::{Amount, Celsius, Currency, Days, Minutes, Money, Number, Quantity, Spoons, Unit, UnitPrice};

const AMOUNT_REMEDY: &str = "write an amount like \"350 g\", \"2 tbsp\", \"6\" or \"3 portions\"";

/// A whole text that is one amount: `350 g`, `2-3 tbsp`, `1½ cups`, `6` (pieces), `1 bunch`, `3 portions`.
///
/// `2 x 400 g` and `2 tins (400 g)` are 800 g.
///
/// ```
/// use spence::measure::{Amount, Unit, read_amount};
/// assert_eq!(read_amount("2-3 tbsp").unwrap(), Amount::between(2, 3, Unit::Tablespoon));
/// assert!(read_amount("0 g").is_err());
/// ```
pub fn read_amount(text: &str) -> Result<Amount, ReadError> {
    let unreadable = || error(&format!("\"{}\" is not an amount", text.trim()), AMOUNT_REMEDY);
    let tokens = cut(text);
    let Some(AmountRead { amount: first, end, .. }) = amount(&tokens, 0)? else { return Err(unreadable()) };
    match (&tokens[end..], first.unit) {
        ([], _) => Ok(first),
        ([open, inner @ .., close], Unit::Word(_)) if open.kind == Kind::Open && close.kind == Kind::Close => {
            let one = amount(inner, 0)?.filter(|one| one.end == inner.len()).ok_or_else(unreadable)?.amount;
            Ok(Amount { low: first.low * one.low, high: first.high * one.high, unit: one.unit })
        }
        _ => Err(unreadable()),
    }
}

/// As [`read_amount`], for one plain positive quantity: no range. Kitchen words become [`Quantity::Words`].
///
/// ```
/// use spence::measure::{Quantity, Spoons, read_quantity};
/// assert_eq!(read_quantity("6", Spoons::Us).unwrap(), Quantity::pieces(6));
/// assert_eq!(read_quantity("1 bunch", Spoons::Us).unwrap(), Quantity::words(1, "bunch"));
/// ```
pub fn read_quantity(text: &str, spoons: Spoons) -> Result<Quantity, ReadError> {
    let amount = read_amount(text)?;
    if amount.is_range() {
        return Err(error(&format!("\"{}\" is a range", text.trim()), "write one amount"));
    }
    Ok(amount.most(spoons))
}

/// An amount, and the size of one of the closed packs it lies in, where it lies in such.
#[derive(Debug, Clone, PartialEq)]
pub struct InPacks {
    pub amount: Quantity,
    pub pack: Option<Quantity>,
}

/// As [`read_quantity`], of what lies on a shelf: `3 x 400 g` are three closed packs, `1 x 400 g` is one, and `400 g` lies loose.
///
/// ```
/// use spence::measure::{Quantity, Spoons, read_in_packs};
/// let tins = read_in_packs("3 x 400 g", Spoons::Us).unwrap();
/// assert_eq!((tins.amount, tins.pack), (Quantity::grams(1200), Some(Quantity::grams(400))));
/// assert_eq!(read_in_packs("1.2 kg", Spoons::Us).unwrap().pack, None);
/// assert!(read_in_packs("2.5 x 400 g", Spoons::Us).is_err());
/// ```
///
/// `160 g cooked` stays in that word, as a line has it whose food nobody has weighed so.
///
/// ```
/// use spence::measure::{Quantity, Spoons, read_in_packs};
/// assert_eq!(read_in_packs("160 g cooked", Spoons::Us).unwrap().amount, Quantity::words(160, "g cooked"));
/// ```
pub fn read_in_packs(text: &str, spoons: Spoons) -> Result<InPacks, ReadError> {
    if let Some(amount) = in_a_form(text)? {
        return Ok(InPacks { amount, pack: None });
    }
    let amount = read_quantity(text, spoons)?;
    let tokens = cut(text);
    let Some(count) = number(&tokens, 0)? else { return Ok(InPacks { amount, pack: None }) };
    if times(&tokens, count.end).is_none() {
        return Ok(InPacks { amount, pack: None });
    }
    let count = count.number.high;
    if !count.is_whole() || !count.is_positive() {
        return Err(error(
            &format!("\"{}\" is no whole number of packs", text.trim()),
            "write closed packs like \"3 x 400 g\", and an opened one as a lot of its own",
        ));
    }
    let pack = amount.scaled(Number::ONE / count);
    Ok(InPacks { amount, pack: Some(pack) })
}

/// "160 g cooked", "2 cups diced".
fn in_a_form(text: &str) -> Result<Option<Quantity>, ReadError> {
    const FORMS: [&str; 8] = ["cooked", "drained", "chopped", "diced", "sliced", "grated", "shredded", "mashed"];
    let tokens = cut(text);
    let Some(AmountRead { amount, unit_given: true, end }) = amount(&tokens, 0)? else { return Ok(None) };
    let [form] = &tokens[end..] else { return Ok(None) };
    let form = FORMS.into_iter().find(|one| form.is(one)).filter(|_| !amount.is_range());
    Ok(form.map(|form| Quantity::words(&amount.high, format!("{} {form}", amount.unit.singular()))))
}

/// What one closed pack in a pack of that size holds: 400 g of `4 x 400 g`, else all of it. `size` is what the whole text is read as.
///
/// ```
/// use spence::measure::{Quantity, Spoons, single_of};
/// assert_eq!(single_of("4 x 400 g", &Quantity::grams(1600), Spoons::Us), Quantity::grams(400));
/// assert_eq!(single_of("400 g", &Quantity::grams(400), Spoons::Us), Quantity::grams(400));
/// ```
pub fn single_of(text: &str, size: &Quantity, spoons: Spoons) -> Quantity {
    read_in_packs(text, spoons).ok().and_then(|read| read.pack).unwrap_or_else(|| size.clone())
}

/// A whole text that is one unit, in any spelling: `g`, `Tbsp.`, `fl oz`, `each`, `cloves`.
///
/// ```
/// use spence::measure::{Unit, read_unit};
/// assert_eq!(read_unit("fl. oz"), Some(Unit::FluidOunce));
/// assert_eq!(read_unit("furlong"), None);
/// ```
pub fn read_unit(text: &str) -> Option<Unit> {
    let tokens = cut(text);
    unit(&tokens, 0).filter(|(_, end)| *end == tokens.len()).map(|(unit, _)| unit)
}

/// "45 min", "1 h 10 min", "0 min", "2 days". A day is 24 hours.
pub fn read_minutes(text: &str) -> Result<Minutes, ReadError> {
    let remedy = "write a duration like \"45 min\" or \"1 h 10 min\"";
    let span = span(text, remedy)?;
    if span.get_months() != 0 || span.get_years() != 0 {
        return Err(error(&format!("\"{}\" is too long for this", text.trim()), remedy));
    }
    let seconds = clock_seconds(&span) + (i64::from(span.get_weeks()) * 7 + i64::from(span.get_days())) * 86_400;
    if seconds % 60 != 0 || below_seconds(&span) {
        return Err(error(&format!("\"{}\" is not a whole number of minutes", text.trim()), "round it to minutes"));
    }
    Ok(Minutes(seconds / 60))
}

/// "3 days", "2 weeks", "2 months" (a month is 30 days, a year 365).
pub fn read_days(text: &str) -> Result<Days, ReadError> {
    let remedy = "write a time like \"3 days\", \"2 weeks\" or \"2 months\"";
    let span = span(text, remedy)?;
    let seconds = clock_seconds(&span);
    if seconds % 86_400 != 0 || below_seconds(&span) {
        return Err(error(&format!("\"{}\" is not a whole number of days", text.trim()), remedy));
    }
    let days = i64::from(span.get_years()) * 365
        + i64::from(span.get_months()) * 30
        + i64::from(span.get_weeks()) * 7
        + i64::from(span.get_days())
        + seconds / 86_400;
    Ok(Days(days))
}

fn span(text: &str, remedy: &str) -> Result<Span, ReadError> {
    let unreadable = || error(&format!("\"{}\" is not a duration", text.trim()), remedy);
    let span = SpanParser::new().parse_span(text.trim().to_lowercase()).map_err(|_| unreadable())?;
    if span.is_negative() {
        return Err(error(&format!("\"{}\" is negative", text.trim()), remedy));
    }
    Ok(span)
}

fn clock_seconds(span: &Span) -> i64 {
    i64::from(span.get_hours()) * 3600 + span.get_minutes() * 60 + span.get_seconds()
}

fn below_seconds(span: &Span) -> bool {
    span.get_milliseconds() != 0 || span.get_microseconds() != 0 || span.get_nanoseconds() != 0
}

enum Scale {
    Celsius,
    Fahrenheit,
}

/// "190 °C", "375 F".
///
/// ```
/// use spence::measure::{Celsius, read_celsius};
/// assert_eq!(read_celsius("212 F").unwrap(), Celsius(100.0));
/// assert!(read_celsius("190").is_err());
/// ```
pub fn read_celsius(text: &str) -> Result<Celsius, ReadError> {
    let (degrees, scale) = degrees(text)?;
    Ok(Celsius(match scale {
        Scale::Celsius => degrees,
        Scale::Fahrenheit => tidy((degrees - 32.0) * 5.0 / 9.0),
    }))
}

/// "10 °C" or "18 F" as a difference in kelvin.
pub fn read_kelvin(text: &str) -> Result<f64, ReadError> {
    let (degrees, scale) = degrees(text)?;
    if degrees < 0.0 {
        return Err(error(&format!("\"{}\" is negative", text.trim()), "write a difference like \"10 °C\""));
    }
    Ok(match scale {
        Scale::Celsius => degrees,
        Scale::Fahrenheit => tidy(degrees * 5.0 / 9.0),
    })
}

fn degrees(text: &str) -> Result<(f64, Scale), ReadError> {
    let remedy = "write a temperature like \"190 °C\" or \"375 F\"";
    let unreadable = || error(&format!("\"{}\" is not a temperature", text.trim()), remedy);
    let trimmed = text.trim();
    let (sign, rest) = match trimmed.strip_prefix(DASHES) {
        Some(rest) => (-1.0, rest),
        None => (1.0, trimmed),
    };
    let end = rest.find(|c: char| !c.is_ascii_digit() && c != '.' && c != ',').unwrap_or(rest.len());
    let (digits, unit) = rest.split_at(end);
    let degrees: f64 = digits.replace(',', ".").parse().map_err(|_| unreadable())?;
    let unit = unit.replace(['°', 'º', ' '], "").to_lowercase();
    let unit = unit.strip_prefix("degrees").or_else(|| unit.strip_prefix("deg")).unwrap_or(&unit);
    let scale = match unit {
        "c" | "℃" | "celsius" => Scale::Celsius,
        "f" | "℉" | "fahrenheit" => Scale::Fahrenheit,
        "" => return Err(error(&format!("\"{trimmed}\" does not say whether it is °C or °F"), remedy)),
        _ => return Err(unreadable()),
    };
    Ok((sign * degrees, scale))
}

/// "2%" or "90 %" as 0.02, 0.9.
pub fn read_share(text: &str) -> Result<f64, ReadError> {
    let remedy = "write a share like \"2%\"";
    let unreadable = || error(&format!("\"{}\" is not a share in per cent", text.trim()), remedy);
    let digits = text.trim().strip_suffix('%').ok_or_else(unreadable)?.trim_end();
    if digits.is_empty() || !digits.bytes().all(|b| b.is_ascii_digit() || b == b'.' || b == b',') {
        return Err(unreadable());
    }
    let percent: f64 = digits.replace(',', ".").parse().map_err(|_| unreadable())?;
    if percent > 100.0 {
        return Err(error(&format!("\"{}\" is more than the whole", text.trim()), "write a share from \"0%\" to \"100%\""));
    }
    Ok(percent / 100.0)
}

/// The digits of a price: "0.89", "1", "23.50". More digits than the currency's minor unit has are an error.
pub fn read_money(digits: &str, currency: &Currency) -> Result<Money, ReadError> {
    minor_units(digits, currency, 0).map(Money)
}

/// Far above any basket, and small enough that no sum of prices overflows.
const MOST_MINOR_UNITS: i64 = 1_000_000_000_000_000;

/// Whole minor units × 10^`finer`, from the digits alone.
fn minor_units(text: &str, currency: &Currency, finer: u32) -> Result<i64, ReadError> {
    let text = text.trim();
    let remedy = "write digits alone, with a point: \"23.50\"";
    if text.starts_with(DASHES) {
        return Err(error(&format!("the price \"{text}\" is negative"), remedy));
    }
    let (major, minor) = text.split_once(['.', ',']).unwrap_or((text, ""));
    let plain = |part: &str| part.bytes().all(|b| b.is_ascii_digit());
    if major.is_empty() || !plain(major) || !plain(minor) || (text.len() > major.len() && minor.is_empty()) {
        return Err(error(&format!("\"{text}\" is not a price"), remedy));
    }
    let places = (currency.digits + finer) as usize;
    if minor.len() > places {
        let cause = format!("\"{text}\" has more digits after the point than {currency} has");
        return Err(error(&cause, &format!("write at most {places} digits after the point")));
    }
    let padded = format!("{major}{minor:0<places$}");
    match padded.parse::<i64>() {
        Ok(units) if units < MOST_MINOR_UNITS => Ok(units),
        _ => Err(error(&format!("the price \"{text}\" is too large"), remedy)),
    }
}

/// "1.40 / kg", "0.35 / each", "2.10 / 100 g".
pub fn read_unit_price(text: &str, currency: &Currency) -> Result<UnitPrice, ReadError> {
    let remedy = "write a price like \"1.40 / kg\" or \"0.35 / each\"";
    let (price, per) = text
        .split_once('/')
        .or_else(|| text.split_once(" per "))
        .ok_or_else(|| error(&format!("\"{}\" does not say what the price is for", text.trim()), remedy))?;
    let minor_e4 = minor_units(price, currency, 4)?;
    let per = per.trim();
    let per = if per.starts_with(|c: char| c.is_alphabetic()) { format!("1 {per}") } else { per.to_owned() };
    let per = read_quantity(&per, Spoons::Us).map_err(|cause| error(&cause.cause, remedy))?;
    Ok(UnitPrice { minor_e4, per })
}
