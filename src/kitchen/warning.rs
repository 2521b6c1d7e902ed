//! Mistakes stop the run; warnings are said and the work goes on.

use std::fmt;

/// A place in a file the household wrote: `recipes/mash.toml:9:3`. Lines and columns count from 1.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Spot {
    /// Relative to the kitchen folder, with forward slashes.
    pub file: String,
    pub line: u32,
    /// 0 where only the line is known.
    pub column: u32,
}

impl fmt::Display for Spot {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.file)?;
        if self.line > 0 {
            write!(f, ":{}", self.line)?;
        }
        if self.line > 0 && self.column > 0 {
            write!(f, ":{}", self.column)?;
        }
        Ok(())
    }
}

/// What is wrong in a file, and what would mend it. Printed as `file:line:column: cause. remedy`.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Mistake {
    pub at: Spot,
    /// What is wrong: `"halfs" is not a way to cut a batch`.
    pub cause: String,
    /// What would mend it: `Write "whole", "halves" or "any".`
    pub remedy: String,
}

impl From<Mistake> for Warning {
    /// The same text at the same place, for what can go on all the same.
    fn from(mistake: Mistake) -> Warning {
        Warning::Note { text: format!("{}. {}", mistake.cause, mistake.remedy), at: Some(mistake.at) }
    }
}

impl fmt::Display for Mistake {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}. {}", self.at, self.cause, self.remedy)
    }
}

impl std::error::Error for Mistake {}

/// Why a household's files could not be taken in: all that is wrong at once.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct NotLoaded {
    pub mistakes: Vec<Mistake>,
    /// The machine gave no text of at least one of the files.
    pub unreadable: bool,
}

impl std::ops::Deref for NotLoaded {
    type Target = [Mistake];

    fn deref(&self) -> &[Mistake] {
        &self.mistakes
    }
}

/// Something the household should know although the work goes on. One `Display` for all, tested as text.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Warning {
    /// A line names a food that is neither in the reference nor in foods.toml.
    UnknownFood { at: Spot, food: String, nearest: Vec<String> },
    /// A line cannot be brought into the unit it must be added up or compared in.
    MissingFact { at: Spot, line: String, food: String, what: String, key: String },
    /// A lot in a measure that cannot be compared with the need is not drawn.
    LotNotComparable { at: Spot, food: String, amount: String, wanted: String, mend: String },
    /// A staple that stands in `always` or `ask`.
    StapleIgnored { at: Spot, food: String, list: &'static str },
    /// A meal or a listed food contains, or may contain, something the household avoids.
    Avoided { at: Spot, food: String, allergens: Vec<String>, unknown: Option<String> },
    /// Of something that an allergic eater is served nobody knows whether it has what they are allergic to: at the head of every sheet.
    /// `words` are those of `allergic`; `dish` is the outermost it lies in, or the meal.
    NotKnown { at: Spot, text: String, eater: String, words: Vec<String>, food: String, dish: String },
    /// A food that an allergic eater must not have stands only in words of what they are served: at the head of every sheet. `named` is
    /// what the words call it; the others as of [`Warning::NotKnown`].
    OnlyNamed { at: Spot, text: String, eater: String, words: Vec<String>, named: String, dish: String },
    /// What of a week lies before today and was not booked is taken as done; the commands would book it. What of it was not printed either
    /// changes with the week's file.
    NotBooked { week: String, what: Vec<String>, unprinted: Vec<String>, commands: Vec<String> },
    /// An earlier week is over, and only some of it was booked: what was not still counts on the shelf.
    NotBookedToItsEnd { week: String, what: Vec<String>, commands: Vec<String> },
    /// A meal of a week that has begun, which nothing can serve.
    Short { meal: String, lacks: String, remedies: Vec<String> },
    /// Anything a single room says in its own words.
    Note { at: Option<Spot>, text: String },
}

impl Warning {
    /// Where it arises, where one place can be named.
    pub fn at(&self) -> Option<&Spot> {
        match self {
            Warning::UnknownFood { at, .. }
            | Warning::MissingFact { at, .. }
            | Warning::LotNotComparable { at, .. }
            | Warning::StapleIgnored { at, .. }
            | Warning::NotKnown { at, .. }
            | Warning::OnlyNamed { at, .. }
            | Warning::Avoided { at, .. } => Some(at),
            Warning::NotBooked { .. } | Warning::NotBookedToItsEnd { .. } | Warning::Short { .. } => None,
            Warning::Note { at, .. } => at.as_ref(),
        }
    }

    /// Without its place.
    pub fn words(&self) -> String {
        match self {
            Warning::UnknownFood { food, nearest, .. } => {
                let mend = match nearest.as_slice() {
                    [] => "Add it to foods.toml to say what it weighs and how long it keeps".to_owned(),
                    names => format!("Nearest known: {}", names.join(", ")),
                };
                format!("\"{food}\" is not a known food; it keeps its own name. {mend}.")
            }
            Warning::MissingFact { line, food, what, key, .. } => {
                format!("cannot add up \"{line}\": {what}. Add {key} under {food} in foods.toml.")
            }
            Warning::LotNotComparable { food, amount, wanted, mend, .. } => {
                format!("{amount} of {food} cannot be compared with a need in {wanted}, so it is not drawn. {mend}.")
            }
            Warning::StapleIgnored { food, list, .. } => {
                format!("the staple {food} is ignored, because it stands in rules.{list}.")
            }
            Warning::Avoided { food, allergens, unknown: None, .. } => {
                format!("{food} contains {}, which this household avoids.", allergens.join(", "))
            }
            Warning::Avoided { food, allergens, unknown: Some(unknown), .. } => {
                format!("{food} may contain {}: the allergens of {unknown} are not known.", allergens.join(", "))
            }
            Warning::NotKnown { text, .. } | Warning::OnlyNamed { text, .. } => text.clone(),
            Warning::NotBooked { week, what, unprinted, commands } => {
                let so = match unprinted.as_slice() {
                    [] => String::new(),
                    all => format!(" Not printed, and so taken as the week stands now: {}.", all.join(", ")),
                };
                format!("{week}: not booked, and taken as done: {}.{so} To book: {}.", what.join(", "), commands.join("; "))
            }
            Warning::NotBookedToItsEnd { week, what, commands } => {
                format!("{week} is over, and not booked to its end: {}. To book: {}.", what.join(", "), commands.join("; "))
            }
            Warning::Short { meal, lacks, remedies } => {
                let mut remedies = remedies.join("; ");
                if let Some(first) = remedies.get_mut(..1) {
                    first.make_ascii_uppercase();
                }
                format!("short: {meal} lacks {lacks}. {remedies}.")
            }
            Warning::Note { text, .. } => text.clone(),
        }
    }
}

/// As the terminal says it: with its place first.
impl fmt::Display for Warning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(at) = self.at() {
            write!(f, "{at}: ")?;
        }
        f.write_str(&self.words())
    }
}
