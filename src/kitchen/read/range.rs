//! Whether a figure lies in the range of its key.

use toml::de::DeValue;

use super::shapes::{Read, celsius, days, grams, kelvin, litres, minutes, number, share, text_or_digits, weight_or_volume, wrong};
use crate::kitchen::keys::{Key, Shape};

/// Does the figure lie in the range of its key? A value that is no figure of that shape has been told already, or is read in a way of its
/// own.
pub(super) fn within(key: &Key, value: &DeValue<'_>) -> Read<()> {
    let Some(range) = key.range() else { return Ok(()) };
    let end = |typed: &'static str| figure(&key.shape, &DeValue::String(typed.into()));
    let (Some(figure), Some(least), Some(most)) = (figure(&key.shape, value), end(range.least), end(range.most)) else { return Ok(()) };
    let (than, end) = match figure {
        figure if figure < least => ("less", range.least),
        figure if figure > most => ("more", range.most),
        _ => return Ok(()),
    };
    let typed = text_or_digits(value).unwrap_or_default();
    wrong(format!("{typed} is {than} than {end}"), format!("Write a figure {}.", range.words()))
}

/// The number by which a figure is compared with the ends of its range.
fn figure(shape: &Shape, value: &DeValue<'_>) -> Option<f64> {
    match shape {
        Shape::Number | Shape::NumberOrZero | Shape::WholeNumber | Shape::NumberOr(_) | Shape::Money => number(value),
        Shape::Share => share(value),
        Shape::Duration => minutes(value).map(|minutes| minutes.0 as f64),
        Shape::Days => days(value).map(|days| days.0 as f64),
        Shape::Temperature => celsius(value).map(|celsius| celsius.0),
        Shape::Degrees => kelvin(value),
        Shape::Weight => grams(value),
        Shape::Volume => litres(value),
        Shape::WeightOrVolume => weight_or_volume(value).map(|one| one.base()),
        _ => return None,
    }
    .ok()
}
