//! How a food is cooked by itself: `boil 30 min`.

use std::fmt;

use crate::measure::{Minutes, ReadError, read_minutes};

/// What is done with a food that is cooked by itself, and for how long once the water boils or the oven is hot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cooks {
    /// `boil`, `simmer`, `bake`, `pour boiling water over and leave`: in the words of a kitchen, without a full stop.
    pub how: String,
    pub minutes: Minutes,
}

impl fmt::Display for Cooks {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (hours, minutes) = (self.minutes.0 / 60, self.minutes.0 % 60);
        f.write_str(&self.how)?;
        if hours > 0 {
            write!(f, " {hours} h")?;
        }
        if minutes > 0 || hours == 0 {
            write!(f, " {minutes} min")?;
        }
        Ok(())
    }
}

/// Words, then a time of one minute to one day: `boil 30 min`, `bake 1 h 15 min`.
///
/// Fails without words, without a time, or with a time outside these bounds.
pub(crate) fn read_cooks(text: &str) -> Result<Cooks, ReadError> {
    let wrong = |cause: String| ReadError { cause, remedy: "Write how and how long: \"boil 30 min\".".to_owned() };
    let text = text.trim();
    let first_digit = text.find(|c: char| c.is_ascii_digit());
    let Some(start) = first_digit else { return Err(wrong(format!("\"{text}\" names no time"))) };
    let how = text[..start].trim().trim_end_matches([',', ':']).trim_end();
    if how.is_empty() {
        return Err(wrong(format!("\"{text}\" does not say how")));
    }
    let minutes = read_minutes(&text[start..]).map_err(|error| wrong(error.cause))?;
    if !(1..=24 * 60).contains(&minutes.0) {
        return Err(wrong(format!("\"{}\" is not a time from 1 minute to 1 day", text[start..].trim())));
    }
    Ok(Cooks { how: how.to_owned(), minutes })
}

#[cfg(test)]
mod tests {
    use super::*;
    use pretty_assertions::assert_eq;

    #[test]
    fn how_and_how_long_are_read_as_they_are_printed() {
        for (typed, how, minutes, printed) in [
            ("boil 30 min", "boil", 30, "boil 30 min"),
            ("bake 75 minutes", "bake", 75, "bake 1 h 15 min"),
            (" soak, 2 h ", "soak", 120, "soak 2 h"),
            ("pour boiling water over and leave 5 min", "pour boiling water over and leave", 5, "pour boiling water over and leave 5 min"),
        ] {
            let cooks = read_cooks(typed).unwrap();
            assert_eq!(cooks, Cooks { how: how.to_owned(), minutes: Minutes(minutes) }, "{typed}");
            assert_eq!(cooks.to_string(), printed);
            assert_eq!(read_cooks(printed), Ok(cooks));
        }
    }

    #[test]
    fn what_lacks_how_or_how_long_is_a_mistake() {
        for (typed, cause) in [
            ("boil", "\"boil\" names no time"),
            ("30 min", "\"30 min\" does not say how"),
            ("", "\"\" names no time"),
            ("boil 30 stone", "\"30 stone\" is not a duration"),
            ("boil 0 min", "\"0 min\" is not a time from 1 minute to 1 day"),
            ("dry 3 days", "\"3 days\" is not a time from 1 minute to 1 day"),
        ] {
            assert_eq!(read_cooks(typed).unwrap_err().cause, cause, "{typed}");
        }
    }
}
