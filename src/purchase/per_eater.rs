//! What one eater gets of a meal and of a day, and which figures of it are not known, as plain data. It must not know where a figure comes
//! from.

use jiff::civil::{Date, DateTime};

use crate::foods::FoodId;
use crate::kitchen::Needs;
use crate::measure::Money;

/// What one eater gets of a meal.
#[derive(Debug, Clone, PartialEq)]
pub struct MealNote {
    pub at: DateTime,
    /// "supper", or "19:15".
    pub word: String,
    /// What is to be done at it, in the household's own words.
    pub text: Option<String>,
    /// Its own name, or its label.
    pub name: String,
    pub per_eater: PerEater,
    /// What each named eater and the guests get of it; empty where nobody is named.
    pub eaters: Vec<Portion>,
    /// What keeps a figure from being known, in order of the foods' names.
    pub missing: Vec<Lacking>,
}

impl MealNote {
    pub fn is_at_least(&self) -> bool {
        self.per_eater.is_at_least(&self.missing)
    }
}

/// What one eater gets, of a meal or of a day.
#[derive(Debug, Clone, PartialEq)]
pub struct Portion {
    pub name: String,
    /// In portions.
    pub share: f64,
    pub kcal: f64,
    pub protein_g: f64,
    pub fibre_g: f64,
    /// Some food's figure is not known: it is at least so much.
    pub at_least: bool,
}

/// What the planned meals of a day give one eater, beside what that eater wants of a day.
#[derive(Debug, Clone, PartialEq)]
pub struct DayNote {
    pub on: Date,
    pub got: Portion,
    pub of: Needs,
}

/// Sums of what is known. `None`: nothing is.
#[derive(Debug, Clone, PartialEq)]
pub struct PerEater {
    pub kcal: Option<f64>,
    pub protein_g: Option<f64>,
    pub fibre_g: Option<f64>,
    /// Goods alone, without the trips' fares.
    pub cost: Option<Money>,
}

impl PerEater {
    /// Is this figure the sum of what is known, and something of `missing` not in it?
    pub fn is_partial(&self, figure: Figure, missing: &[Lacking]) -> bool {
        let lacks = |lacking: &Figure| *lacking == figure || (*lacking == Figure::Weight && figure != Figure::Price);
        let is_given = match figure {
            Figure::Weight => false,
            Figure::Energy => self.kcal.is_some(),
            Figure::Protein => self.protein_g.is_some(),
            Figure::Fibre => self.fibre_g.is_some(),
            Figure::Price => self.cost.is_some(),
        };
        is_given && missing.iter().any(|food| food.figures.iter().any(lacks))
    }

    /// Is any of its figures?
    pub fn is_at_least(&self, missing: &[Lacking]) -> bool {
        [Figure::Energy, Figure::Protein, Figure::Fibre, Figure::Price].into_iter().any(|figure| self.is_partial(figure, missing))
    }
}

/// The figures that are not known of one food.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lacking {
    pub food: FoodId,
    pub figures: Vec<Figure>,
}

/// What can be missing of a food.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Figure {
    /// The weight of what a line says: without it nothing else can be reckoned but perhaps the price.
    Weight,
    Energy,
    Protein,
    Fibre,
    Price,
}
