//! The type scale: four sizes, in an ordinary and in a large print. It must not know what is set in them.
//!
//! Large print is not made to fit: one column, as many pages as it takes, no warning.

use super::text::Style;

/// How large the print is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Size {
    #[default]
    Normal,
    /// For eyes that want it: nothing under 14 pt, on as many pages as it takes.
    Large,
}

/// The four sizes that all sheets share; the guide and the labels make do with less where room is short.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    pub title: Style,
    /// What is read at arm's length: the names on the list.
    pub entry: Style,
    /// What is read second, heads and feet of pages.
    pub note: Style,
    /// Within the chart.
    pub chart: Style,
}

pub const fn style(size: f32, leading: f32) -> Style {
    Style { size, leading }
}

impl Size {
    pub fn scale(self) -> Scale {
        match self {
            Size::Normal => Scale { title: style(20.0, 24.0), entry: style(13.0, 16.0), note: style(9.5, 12.0), chart: style(7.5, 10.0) },
            Size::Large => Scale { title: style(26.0, 31.0), entry: style(18.0, 22.0), note: style(14.0, 18.0), chart: style(14.0, 18.0) },
        }
    }

    pub fn is_large(self) -> bool {
        self == Size::Large
    }
}
