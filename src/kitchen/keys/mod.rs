//! Every key of every file: its type, its default, what it means, an example. The reader checks against these tables, `spence keys`
//! prints them, and the JSON Schemas are made from them, so that the three cannot differ.
//!
//! A table says what may stand where, not how a value is read.

mod household;
mod line;
mod meals;
mod range;
mod schema;
mod sheets;
mod stores;
mod week;

pub use range::Range;
pub use schema::schema;

pub(super) use household::{FOODS, KITCHEN, RECIPE};
pub(super) use meals::MEALS;
pub(super) use sheets::{COUNT, GOODS};
pub(super) use stores::{PANTRY, SHOPS};
pub(super) use week::WEEK;

/// What is written behind a key.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    Text,
    /// A text of at most [`LETTERS`] letters, each of which can be seen.
    Name,
    TrueFalse,
    /// Above zero, whole or not.
    Number,
    /// Zero or more.
    NumberOrZero,
    WholeNumber,
    /// "2%", or 0.02.
    Share,
    /// "350 g", "3 portions", 6.
    Amount,
    /// "200 g": a weight.
    Weight,
    /// "20 l": a volume.
    Volume,
    /// "0.89", or 0.89.
    Money,
    /// "45 min", "1 h 10 min".
    Duration,
    /// "3 days", "2 weeks".
    Days,
    /// "190 °C", "375 F".
    Temperature,
    /// "10 °C".
    Degrees,
    /// 2026-11-30.
    Date,
    /// "17:30".
    Time,
    /// 2026-11-29T14:00.
    Moment,
    /// One of these words.
    OneOf(&'static [&'static str]),
    /// One text, or a list of them.
    Texts,
    /// One name, or a list of them.
    Names,
    /// Ingredient lines: a text of several lines, or a list of texts or of tables under this heading.
    Lines(&'static str),
    /// A list of texts, or of tables under this heading.
    TextsOr(&'static str),
    /// A text that may be empty.
    TextOrBlank,
    /// A text, or the table of this heading.
    TextOr(&'static str),
    /// One weight, or a table of weights by form or size.
    WeightOrTable,
    WeightOrVolume,
    /// An allergen of EU 1169/2011 Annex II, a list of them.
    Allergens,
    /// The one table of this heading.
    Table(&'static str),
    /// Any number of tables of this heading.
    Tables(&'static str),
    /// A whole number, or a list of tables under this heading.
    NumberOr(&'static str),
    /// A whole number, or a table of words of the household's own, each with one.
    NumberOrNamed,
    /// A table of words of the household's own, each with a value of this shape.
    Named(&'static Shape),
}

/// Whether a key must be written, and what holds where it is not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Default {
    Required,
    /// Nothing is said and nothing assumed.
    None,
    /// As it would be typed, or in words.
    Is(&'static str),
}

/// How many letters a name may have: a longer one fits into no column of any sheet.
pub const LETTERS: usize = 200;

/// One row of the tables.
#[derive(Debug, Clone, Copy)]
pub struct Key {
    pub name: &'static str,
    pub shape: Shape,
    pub default: Default,
    /// In one line.
    pub meaning: &'static str,
    /// A value as typed.
    pub example: &'static str,
    /// Where it is narrower than that of every figure of this shape.
    own_range: Option<Range>,
}

impl Key {
    /// With a range of its own, each end as it would be typed.
    const fn within(self, least: &'static str, most: &'static str) -> Key {
        Key { own_range: Some(Range { least, most }), ..self }
    }

    /// Its meaning, with its range where that is its own.
    fn said(&self) -> String {
        self.own_range.map_or_else(|| self.meaning.to_owned(), |range| format!("{}; {}", self.meaning, range.words()))
    }

    /// Between what a figure may lie; `None` where it is no figure.
    pub fn range(&self) -> Option<Range> {
        self.own_range.or_else(|| self.shape.range())
    }
}

/// A heading and its keys.
#[derive(Debug)]
pub struct Heading {
    /// As a person writes it: `[[step]]`; empty for the top of the file.
    pub name: &'static str,
    pub keys: &'static [Key],
    /// Keys of the household's own choice, such as kitchen words: `<kitchen word>`.
    pub open: Option<Key>,
}

/// All headings of one kind of file, the top first.
#[derive(Debug)]
pub struct File {
    /// What `spence keys` calls it: "recipe".
    pub name: &'static str,
    /// Where it lies: "recipes/*.toml".
    pub path: &'static str,
    pub headings: &'static [Heading],
}

/// Every kind of file, in the order of a household's own day: first what it writes, then what it fills in.
pub static FILES: [&File; 9] = [&KITCHEN, &RECIPE, &MEALS, &WEEK, &PANTRY, &SHOPS, &FOODS, &COUNT, &GOODS];

impl Shape {
    /// In the words of `spence keys`.
    pub fn words(&self) -> String {
        match self {
            Shape::Text => "text".to_owned(),
            Shape::Name => "name".to_owned(),
            Shape::TrueFalse => "true or false".to_owned(),
            Shape::Number => "number above 0".to_owned(),
            Shape::NumberOrZero => "number".to_owned(),
            Shape::WholeNumber => "whole number".to_owned(),
            Shape::Share => "share".to_owned(),
            Shape::Amount => "amount".to_owned(),
            Shape::Weight => "weight".to_owned(),
            Shape::Volume => "volume".to_owned(),
            Shape::Money => "money".to_owned(),
            Shape::Duration => "duration".to_owned(),
            Shape::Days => "days".to_owned(),
            Shape::Temperature => "temperature".to_owned(),
            Shape::Degrees => "degrees".to_owned(),
            Shape::Date => "date".to_owned(),
            Shape::Time => "time".to_owned(),
            Shape::Moment => "date and time".to_owned(),
            Shape::OneOf(words) => words.iter().map(|word| format!("\"{word}\"")).collect::<Vec<_>>().join(" or "),
            Shape::Texts => "texts".to_owned(),
            Shape::Names => "names".to_owned(),
            Shape::Lines(_) => "ingredient lines".to_owned(),
            Shape::TextsOr(heading) => format!("texts, or tables {heading}"),
            Shape::TextOrBlank => "text, or \"\"".to_owned(),
            Shape::TextOr(heading) => format!("text, or table {heading}"),
            Shape::WeightOrVolume => "weight or volume".to_owned(),
            Shape::WeightOrTable => "weight, or table of weights".to_owned(),
            Shape::Allergens => "allergens".to_owned(),
            Shape::NumberOr(heading) => format!("whole number, or tables {heading}"),
            Shape::Table(heading) => format!("table {heading}"),
            Shape::Tables(heading) => format!("tables {heading}"),
            Shape::NumberOrNamed => "whole number, or table of whole numbers".to_owned(),
            Shape::Named(each) => format!("table of {}", each.words()),
        }
    }
}

impl Default {
    /// In the words of `spence keys`.
    pub fn words(self) -> &'static str {
        match self {
            Default::Required => "must be written",
            Default::None => "none",
            Default::Is(value) => value,
        }
    }
}

impl Heading {
    /// The row of that name.
    pub fn row(&self, name: &str) -> Option<&'static Key> {
        self.keys.iter().find(|key| key.name == name)
    }

    /// May this key stand under the heading? Open names are the reader's to judge.
    pub fn has(&self, name: &str) -> bool {
        self.keys.iter().any(|key| key.name == name)
    }

    pub fn names(&self) -> impl Iterator<Item = &'static str> + Clone {
        self.keys.iter().map(|key| key.name)
    }
}

impl File {
    /// The heading of that name. Headings are named by this room alone, so a wrong one is a slip of ours that any test finds.
    pub fn heading(&self, name: &str) -> &'static Heading {
        self.headings.iter().find(|heading| heading.name == name).unwrap_or(&self.headings[0])
    }

    /// How a key at the top of the file is written: `[rules]`, `[[step]]`, or plainly.
    pub fn written(&self, key: &str) -> String {
        let forms = [format!("[{key}]"), format!("[[{key}]]")];
        forms.into_iter().find(|form| self.headings.iter().any(|heading| heading.name == form)).unwrap_or_else(|| format!("\"{key}\""))
    }
}

/// The file of that name, in any letter case: `recipe`, `recipes`, `recipe.toml`.
pub fn file(name: &str) -> Option<&'static File> {
    let plain = name.trim().to_lowercase();
    let plain = plain.strip_suffix(".toml").unwrap_or(&plain);
    FILES.into_iter().find(|file| file.name == plain || file.path.split(['/', '.']).next() == Some(plain))
}

const fn key(name: &'static str, shape: Shape, default: Default, meaning: &'static str, example: &'static str) -> Key {
    Key { name, shape, default, meaning, example, own_range: None }
}

const fn heading(name: &'static str, keys: &'static [Key]) -> Heading {
    Heading { name, keys, open: None }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows() -> impl Iterator<Item = (&'static File, &'static Heading, &'static Key)> {
        FILES
            .into_iter()
            .flat_map(|file| file.headings.iter().flat_map(move |heading| heading.keys.iter().map(move |key| (file, heading, key))))
    }

    #[test]
    fn every_example_is_a_value_as_toml_writes_it() {
        for (file, heading, key) in rows() {
            let said = format!("{} = {}", key.name, key.example);
            assert!(said.parse::<toml::Table>().is_ok(), "{} {}: {said}", file.name, heading.name);
        }
    }

    #[test]
    fn every_key_says_what_it_means_in_one_line_and_stands_once_under_its_heading() {
        for (file, heading, key) in rows() {
            assert!(!key.meaning.is_empty() && key.meaning.len() <= 120, "{} {} {}", file.name, heading.name, key.name);
            assert!(!key.meaning.ends_with('.'), "{} {} {}", file.name, heading.name, key.name);
            assert_eq!(
                heading.keys.iter().filter(|other| other.name == key.name).count(),
                1,
                "{} {} {}",
                file.name,
                heading.name,
                key.name
            );
        }
    }

    #[test]
    fn the_ends_of_every_range_can_be_typed_and_its_example_and_default_lie_between_them() {
        use crate::kitchen::read::within_range;
        for (file, heading, key) in rows() {
            let Some(range) = key.range() else { continue };
            let said = format!("{} {} {}", file.name, heading.name, key.name);
            for typed in [range.least, range.most] {
                assert!(within_range(key, &format!("\"{typed}\"")), "{said}: {typed}");
            }
            assert!(within_range(key, key.example), "{said}: {}", key.example);
            if let Default::Is(typed) = key.default {
                assert!(within_range(key, typed), "{said}: {typed}");
            }
        }
    }

    #[test]
    fn every_table_that_a_key_opens_has_its_heading_in_the_same_file() {
        for (file, _, key) in rows() {
            if let Shape::Table(name)
            | Shape::Tables(name)
            | Shape::Lines(name)
            | Shape::TextsOr(name)
            | Shape::TextOr(name)
            | Shape::NumberOr(name) = key.shape
            {
                assert!(file.headings.iter().any(|heading| heading.name == name), "{}: {name}", file.name);
            }
        }
    }

    #[test]
    fn a_file_is_found_by_its_name_in_any_of_the_ways_people_say_it() {
        for name in ["recipe", "Recipes", "recipe.toml"] {
            assert_eq!(file(name).map(|file| file.name), Some("recipe"), "{name}");
        }
        assert!(file("fridge").is_none());
    }
}
