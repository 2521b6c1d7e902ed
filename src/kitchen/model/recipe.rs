//! Recipes: their lines and their steps.

use crate::foods::{FoodId, Item, Place};
use crate::measure::{Celsius, Days, Dimension, Minutes, Number, Quantity};

use super::super::warning::Spot;
use super::{Appliance, ApplianceId, HEAT, Ware};

/// The index of a recipe in [`Kitchen::recipes`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct RecipeId(pub usize);

/// How a batch may be cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BatchCut {
    Whole,
    Halves,
    Any,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Made {
    InASession,
    AtTheMeal,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Serve {
    Hot,
    Cold,
}

#[derive(Debug, Clone, PartialEq)]
pub struct BoxKind {
    pub name: String,
    pub holds: Quantity,
    /// Where `holds` is written.
    pub holds_at: Spot,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Recipe {
    /// The stem of its file.
    pub id: String,
    pub name: String,
    /// Portions, grams, millilitres or pieces of one batch.
    pub makes: Quantity,
    /// As typed: "2 1/2 cups".
    pub makes_typed: String,
    /// Grams of one portion.
    pub portion: Option<Number>,
    pub batches: BatchCut,
    /// Days after the day it was made; `None`: eaten on the day it is made.
    pub fridge: Option<Days>,
    pub freezer: Option<Days>,
    pub cupboard: Option<Days>,
    pub made: Made,
    pub serve: Option<Serve>,
    /// The most from the end of its last step to the meal, where it is served hot straight from the pot.
    pub hold: Minutes,
    /// The most where it is kept at 60 °C (140 °F) or above meanwhile.
    pub hold_hot: Option<Minutes>,
    pub boxed: Option<BoxKind>,
    /// The places in a meal that it can take, in lower case.
    pub fits: Vec<String>,
    /// What it is like at table, in lower case.
    pub is: Vec<String>,
    pub style: Option<String>,
    pub ingredients: Vec<Ingredient>,
    /// The headings of the list, "For the dressing", each with the place of the ingredient after it.
    pub headings: Vec<(usize, String)>,
    pub steps: Vec<Step>,
    /// What its method says is done at the table: printed with the dish.
    pub at_table: Vec<String>,
    /// The ingredients that only [`Recipe::at_table`] names, by their index.
    pub served: Vec<usize>,
    /// The notes of its method, "Tip: …": printed with the dish.
    pub notes: Vec<String>,
    pub source: Source,
    /// As written, a paragraph each; empty where the recipe has steps.
    pub method: Vec<String>,
    pub at: Spot,
}

/// [`Recipe::hold`] where a recipe says nothing.
pub const HOLD: Minutes = Minutes(30);

impl Recipe {
    /// How long it keeps without being frozen, and where: in the cupboard where that is longer than in the fridge.
    pub fn reach(&self) -> (Days, Place) {
        let fridge = self.fridge.unwrap_or_default();
        match self.cupboard {
            Some(cupboard) if cupboard > fridge => (cupboard, Place::Cupboard),
            _ => (fridge, Place::Fridge),
        }
    }

    /// The most minutes that it stands hot before it is eaten.
    pub fn holds(&self) -> Minutes {
        self.hold_hot.map_or(self.hold, |hot| hot.max(self.hold))
    }
}

/// What a line asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum Wanted {
    /// `item` is `None` for "salt, to taste".
    Food { food: FoodId, item: Option<Item> },
    /// Portions, grams, millilitres or pieces of another recipe.
    Recipe { recipe: RecipeId, amount: Quantity, most: Quantity },
}

/// One line of a recipe or of a meal.
#[derive(Debug, Clone, PartialEq)]
pub struct Ingredient {
    /// As typed.
    pub text: String,
    pub wanted: Wanted,
    /// After the comma: "diced", "rinsed".
    pub prep: Option<String>,
    /// In brackets, and how it is bought.
    pub remark: Option<String>,
    /// What could be taken instead: "soy milk".
    pub instead: Option<String>,
    /// "(optional)", "for garnish", "to serve".
    pub optional: bool,
    pub at: Spot,
}

impl Ingredient {
    /// The food or the dish that is asked for.
    pub fn ware(&self) -> Ware {
        match self.wanted {
            Wanted::Food { food, .. } => Ware::Food(food),
            Wanted::Recipe { recipe, .. } => Ware::Recipe(recipe),
        }
    }

    /// With nothing said beside what is wanted.
    pub fn of(text: String, wanted: Wanted, at: Spot) -> Self {
        Ingredient { text, wanted, prep: None, remark: None, instead: None, optional: false, at }
    }
}

/// A piece of a step's text.
#[derive(Debug, Clone, PartialEq)]
pub enum Piece {
    Words(String),
    /// `{food}` or `{food: 2 tbsp}`: an index into the recipe's ingredients, and the share where one is named.
    Ingredient {
        index: usize,
        share: Option<crate::measure::Amount>,
    },
}

/// Where a recipe comes from.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Source {
    pub author: Option<String>,
    pub title: Option<String>,
    pub address: Option<String>,
}

/// Which figures of a step nobody wrote: they were reckoned as its method was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Estimates {
    pub hands: bool,
    pub wait: bool,
    pub temperature: bool,
    pub inside: bool,
    pub takes: bool,
    /// Where what boiled is drained: from each load alone, so that it binds no step that waits for several.
    pub within: bool,
}

/// What a step comes after.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum After {
    /// Index of a step of the same recipe.
    Step(usize),
    /// All of another recipe made in the same session.
    Recipe(RecipeId),
}

/// Where a step goes whose appliance is out of order: `or_on`, with what differs there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Elsewhere {
    pub on: ApplianceId,
    pub wait: Option<Minutes>,
    pub temperature: Option<Celsius>,
    pub takes: Option<f64>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    pub id: Option<String>,
    pub text: Vec<Piece>,
    pub hands: Minutes,
    pub wait: Minutes,
    /// The default is already filled in: true without an appliance, false with one.
    pub scales: bool,
    pub on: Vec<ApplianceId>,
    pub takes: f64,
    pub temperature: Option<Celsius>,
    pub elsewhere: Option<Elsewhere>,
    pub inside: Option<Celsius>,
    pub who: Option<String>,
    pub skill: Option<String>,
    /// `None`: the step before it. Empty: starts free.
    pub after: Option<Vec<After>>,
    pub gap: Option<Minutes>,
    pub within: Option<Minutes>,
    pub ahead: Option<Minutes>,
    pub estimated: Estimates,
    pub at: Spot,
    /// Where its role and its skill stand.
    pub who_at: Spot,
    pub skill_at: Spot,
}

impl Step {
    /// Words alone: no hands, no wait, no appliance, no rule.
    pub fn of_words(text: Vec<Piece>, at: Spot) -> Step {
        Step {
            id: None,
            text,
            hands: Minutes(0),
            wait: Minutes(0),
            scales: true,
            on: Vec::new(),
            takes: 1.0,
            temperature: None,
            elsewhere: None,
            inside: None,
            who: None,
            skill: None,
            after: None,
            gap: None,
            within: None,
            ahead: None,
            estimated: Estimates::default(),
            who_at: at.clone(),
            skill_at: at.clone(),
            at,
        }
    }

    /// Does it stand on anything that heats?
    pub fn is_on_heat(&self, appliances: &[Appliance]) -> bool {
        self.on.iter().any(|id| appliances[*id].heats())
    }

    /// Its wait, and what its appliance takes to come up. A step without a wait is not under pressure.
    pub fn waits(&self, appliances: &[Appliance]) -> i64 {
        let comes_up = self.on.iter().map(|id| appliances[*id].comes_up.0).max().unwrap_or(0);
        if self.wait.0 > 0 { self.wait.0 + comes_up } else { 0 }
    }

    /// Its own skill, and [`HEAT`] where it stands on what heats.
    pub fn skills(&self, appliances: &[Appliance]) -> impl Iterator<Item = &str> {
        self.skill.as_deref().into_iter().chain(self.is_on_heat(appliances).then_some(HEAT))
    }
}

impl Recipe {
    /// `amount` of it in the unit of its `makes`; `None` where it does not say what a portion weighs.
    pub fn in_makes(&self, amount: &Quantity) -> Option<Number> {
        match (&self.makes, amount) {
            (Quantity::Portions(_), Quantity::Mass(weight)) => self.portion.as_ref().map(|portion| &weight.value / portion),
            (Quantity::Mass(_), Quantity::Portions(portions)) => self.portion.as_ref().map(|portion| portions * portion),
            (makes, amount) => (makes.dimension() == amount.dimension()).then(|| amount.exact().clone()),
        }
    }

    /// Would [`Recipe::in_makes`] know such an amount, were it said what a portion of it weighs?
    pub fn lacks_portion_for(&self, asked: &Dimension) -> bool {
        let by_weight = |dimension: &Dimension| matches!(dimension, Dimension::Mass | Dimension::Portion);
        self.portion.is_none() && by_weight(&self.makes.dimension()) && by_weight(asked)
    }
}
