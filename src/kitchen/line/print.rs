//! A line as it would be typed in the tool's own plain way; reading it gives the same line again.

use std::fmt;

use super::vocabulary;
use super::{Line, LineOf};
use crate::foods::{Item, State};
use crate::kitchen::Words;
use crate::measure::{Amount, Quantity, Unit, exact_number};

impl fmt::Display for Line {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.of {
            LineOf::Recipe { id, amount } => write!(f, "{amount} recipe:{id}")?,
            LineOf::Food { food, item: None } => return self.write_to_taste(f, food),
            LineOf::Food { food, item: Some(item) } => {
                write_item(f, item)?;
                write!(f, " {food}")?;
            }
        }
        if let Some(prep) = &self.prep {
            write!(f, ", {prep}")?;
        }
        if let LineOf::Food { item: Some(item), .. } = &self.of {
            for plus in &item.plus {
                write!(f, ", plus {plus}")?;
            }
        }
        self.write_rest(f)
    }
}

/// Some cloves: of the kitchen words, only this one is a food, too.
fn names_a_spice(amount: &str) -> bool {
    vocabulary::vague(&Words::of(amount), 0).is_some() && amount.trim_end_matches('s').ends_with("clove")
}

impl Line {
    /// "some cloves" stands before the food as it was typed: after the comma it would be a second food, the spice.
    fn write_to_taste(&self, f: &mut fmt::Formatter<'_>, food: &str) -> fmt::Result {
        match self.prep.as_deref().map(|prep| prep.split_once(", ").map_or((prep, None), |(first, more)| (first, Some(more)))) {
            None => write!(f, "{food}, to taste")?,
            Some((amount, more)) if names_a_spice(amount) => {
                write!(f, "{amount} {food}")?;
                if let Some(more) = more {
                    write!(f, ", {more}")?;
                }
            }
            Some(_) => write!(f, "{food}, {}", self.prep.as_deref().unwrap_or_default())?,
        }
        self.write_rest(f)
    }

    fn write_rest(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(instead) = &self.instead {
            write!(f, " (or {instead})")?;
        }
        match &self.remark {
            Some(remark) => write!(f, " ({remark})"),
            None => Ok(()),
        }
    }
}

/// The food's name, or `recipe:` and the id.
impl fmt::Display for LineOf {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            LineOf::Food { food, .. } => f.write_str(food),
            LineOf::Recipe { id, .. } => write!(f, "recipe:{id}"),
        }
    }
}

fn write_item(f: &mut fmt::Formatter<'_>, item: &Item) -> fmt::Result {
    write!(f, "{}", item.amount)?;
    match (&item.size, item.amount.unit) {
        (Some(size), Unit::Piece) => write!(f, " x {}", plain(size))?,
        // In brackets after several things that are no packs stands what they weigh together.
        (Some(size), Unit::Word(word)) if !word.is_container() && item.amount != Amount::new(1, item.amount.unit) => {
            write!(f, " ({} each)", plain(size))?;
        }
        (Some(size), _) => write!(f, " ({})", plain(size))?,
        (None, _) => {}
    }
    if let Some(grade) = item.grade {
        write!(f, " {}", grade.word())?;
    }
    match &item.state {
        State::AsPurchased => Ok(()),
        State::Prepared(form) => write!(f, " {form}"),
        State::Cooked => f.write_str(" cooked"),
        State::Drained => f.write_str(" drained"),
    }
}

fn plain(size: &Quantity) -> String {
    format!("{} {}", exact_number(size.exact()), size.dimension())
}
