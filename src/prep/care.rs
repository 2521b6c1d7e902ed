//! What to take care of, as plain data, and the sentences in which it is told. It must not know when a caution applies.

use itertools::Itertools;

use crate::foods::{Allergen, FoodId};
use crate::kitchen::{Names, RecipeId};
use crate::measure::{Celsius, Units};
use crate::plan::CrossContact;
use crate::words::degrees;

const ANNEX: &str = "those of EU Regulation 1169/2011, Annex II";
const CROSS_CONTACT: &str = "FDA and FSA on allergen cross-contact, from memory";
pub(super) const DEFERENCE: &str = "Where local food rules, a label or an appliance's instructions say otherwise, follow those.";

/// What to take care of in a session.
#[derive(Debug, Clone, PartialEq)]
pub enum Care {
    /// A row of the table: what it says, with a figure in place of each `{}`, and who published it.
    Rule { text: &'static str, figures: Vec<Celsius>, source: &'static str },
    /// What of the dishes the household avoids.
    Avoided(Vec<Holds>),
    /// What the dishes contain of the substances of Annex II.
    Contains(Vec<Holds>),
    /// Whose food is made first, and after which dishes the tools are cleaned.
    CrossContact(CrossContact),
    /// What is not known for an allergic eater, as the week's warnings say it: at the head of the guide.
    Unknown(String),
    /// What is not for a small child, as the week's warnings say it.
    Child(String),
    /// Foods whose allergens are not known.
    NotKnown(Vec<FoodId>),
    /// Whose rules come first.
    LocalRules,
}

/// A dish, and which allergens of it are meant.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Holds {
    pub recipe: RecipeId,
    pub allergens: Vec<Allergen>,
    /// Foods and kinds of food that the household avoids, in its own words.
    pub words: Vec<String>,
}

impl CrossContact {
    /// "Emil is allergic to sesame, which is in White-bean mash."
    pub fn warning(&self, names: Names) -> String {
        format!("{} is allergic to {}, which goes into {}.", self.eater, self.words.join(", "), dishes(&self.others, names))
    }

    /// Whose food is made first, and after which dishes board and knife are cleaned.
    fn order(&self, names: Names) -> String {
        let (eater, theirs) = (&self.eater, dishes(&self.theirs, names));
        let first = if self.first {
            format!("Make what {eater} eats first ({theirs})")
        } else {
            format!("Not all that {eater} eats can be made first ({theirs}): use another board, knife and pan for it")
        };
        let (words, others) = (self.words.join(", "), dishes(&self.others, names));
        format!("{eater} is allergic to {words}. {first}; clean board, knife, spoons and hands after {others}.")
    }
}

impl Care {
    /// Without its source.
    pub fn text(&self, names: Names) -> String {
        let dish = |one: &Holds| {
            format!(
                "{}: {}",
                names.recipe(one.recipe),
                one.allergens.iter().map(|one| one.name()).chain(one.words.iter().map(String::as_str)).join(", ")
            )
        };
        match self {
            Care::Rule { text, figures, .. } => with_figures(text, figures),
            Care::Avoided(dishes) => format!("This household avoids what is in here. {}.", dishes.iter().map(dish).join("; ")),
            Care::CrossContact(one) => one.order(names),
            Care::Child(text) | Care::Unknown(text) => text.clone(),
            Care::Contains(dishes) => format!("Allergens. {}.", dishes.iter().map(dish).join("; ")),
            Care::NotKnown(foods) => {
                format!("Allergens not known: {}. Read the labels.", foods.iter().map(|food| names.food(*food)).join(", "))
            }
            Care::LocalRules => DEFERENCE.to_owned(),
        }
    }

    pub fn source(&self) -> Option<&'static str> {
        match self {
            Care::Rule { source, .. } => Some(source),
            Care::Contains(_) => Some(ANNEX),
            Care::CrossContact(_) => Some(CROSS_CONTACT),
            Care::Avoided(_) | Care::Child(_) | Care::Unknown(_) | Care::NotKnown(_) | Care::LocalRules => None,
        }
    }

    /// "text (source)".
    pub fn with_source(&self, names: Names) -> String {
        let source = self.source().map(|source| format!(" ({source})")).unwrap_or_default();
        self.text(names) + &source
    }
}

fn dishes(list: &[RecipeId], names: Names) -> String {
    list.iter().map(|dish| names.recipe(*dish)).join(", ")
}

/// As published: in both scales, Celsius first.
fn with_figures(text: &str, figures: &[Celsius]) -> String {
    figures.iter().fold(text.to_owned(), |told, figure| told.replacen("{}", &degrees(*figure, Units::Metric), 1))
}
