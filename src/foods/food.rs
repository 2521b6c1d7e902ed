//! The plain data of a food.
//!
//! Figures of one table keep their own sources (`Food::told`): a household that weighs one form of a cup, or copies one
//! nutrient from a packet, leaves the others their published source.
//!
//! Allergens "at least": where a maker may add others (mayonnaise), `Food::allergens` stays not known and
//! `Food::contains` holds what is certain (egg). A dish is said to contain the one, and to be not known for the rest.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::Kind;
use super::cooks::Cooks;
use crate::measure::{Amount, Days, Dimension, Number, Quantity};

/// The index of a food in [`Foods`](super::Foods).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FoodId(pub u32);

/// A figure and where it comes from: `USDA SR 11282`, `FSIS 340`, `from memory`, `foods.toml:12`.
#[derive(Debug, Clone, PartialEq)]
pub struct Fact<T> {
    pub value: T,
    pub source: String,
}

/// A fact that may be one figure for every form, or a table by form or size.
#[derive(Debug, Clone, PartialEq)]
pub enum Measured {
    /// One weight in grams, which serves every form and size.
    Single(f64),
    /// Grams by form (`chopped`, `sliced`) or by size (`small`, `medium`, `large`).
    Table(BTreeMap<String, f64>),
}

/// Where something is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Place {
    Cupboard,
    Fridge,
    Freezer,
}

/// How long something keeps: days in each place, and once opened.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Keeping {
    pub cupboard: Option<Fact<Days>>,
    pub fridge: Option<Fact<Days>>,
    pub freezer: Option<Fact<Days>>,
    pub opened: Option<Fact<Days>>,
}

impl Keeping {
    pub fn at(&self, place: Place) -> Option<Days> {
        let fact = match place {
            Place::Cupboard => &self.cupboard,
            Place::Fridge => &self.fridge,
            Place::Freezer => &self.freezer,
        };
        fact.as_ref().map(|fact| fact.value)
    }
}

/// A substance of EU Regulation 1169/2011, Annex II.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Allergen {
    Gluten,
    Crustaceans,
    Egg,
    Fish,
    Peanuts,
    Soybeans,
    Milk,
    Nuts,
    Celery,
    Mustard,
    Sesame,
    Sulphites,
    Lupin,
    Molluscs,
}

impl Allergen {
    /// Every substance of Annex II, in its order, with the name that files and sheets give it.
    pub const ALL: [(Allergen, &str); 14] = [
        (Allergen::Gluten, "gluten"),
        (Allergen::Crustaceans, "crustaceans"),
        (Allergen::Egg, "egg"),
        (Allergen::Fish, "fish"),
        (Allergen::Peanuts, "peanuts"),
        (Allergen::Soybeans, "soybeans"),
        (Allergen::Milk, "milk"),
        (Allergen::Nuts, "nuts"),
        (Allergen::Celery, "celery"),
        (Allergen::Mustard, "mustard"),
        (Allergen::Sesame, "sesame"),
        (Allergen::Sulphites, "sulphites"),
        (Allergen::Lupin, "lupin"),
        (Allergen::Molluscs, "molluscs"),
    ];

    pub fn name(self) -> &'static str {
        Self::ALL[self as usize].1
    }
}

/// Per 100 g edible portion.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Nutrients {
    pub kcal: Option<f64>,
    pub protein_g: Option<f64>,
    pub carbohydrate_g: Option<f64>,
    pub fat_g: Option<f64>,
    pub fibre_g: Option<f64>,
    pub sodium_mg: Option<f64>,
}

impl Nutrients {
    /// Name, figure and unit of each, in the order of a label.
    pub fn rows(&self) -> [(&'static str, Option<f64>, &'static str); 6] {
        [
            ("energy", self.kcal, "kcal"),
            ("protein", self.protein_g, "g"),
            ("carbohydrate", self.carbohydrate_g, "g"),
            ("fat", self.fat_g, "g"),
            ("fibre", self.fibre_g, "g"),
            ("sodium", self.sodium_mg, "mg"),
        ]
    }
}

/// All that is known of one food. What is `None` is not known.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Food {
    pub name: String,
    pub also: Vec<String>,
    pub kind: Option<Kind>,
    pub section: Option<String>,
    /// Grams of one US cup (2.365 882 E-04 m³), whatever `spoons` says; edible portion where a prepared form is named.
    pub cup: Option<Fact<Measured>>,
    /// Grams of one piece, as purchased.
    pub each: Option<Fact<Measured>>,
    /// Grams of one clove, slice, sprig, bunch ..., by the word's singular.
    pub words: BTreeMap<String, Fact<f64>>,
    /// Millilitres of one carton, bottle, glass ... where its volume is known and not its weight.
    pub volumes: BTreeMap<String, Fact<f64>>,
    /// Edible portion / as purchased, 0 to 1. Without it the food is edible whole.
    pub edible: Option<Fact<f64>>,
    /// Cooked weight / dry weight.
    pub cooked: Option<Fact<f64>>,
    /// Drained share of a tin, 0 to 1.
    pub drained: Option<Fact<f64>>,
    /// `Some(false)`: only whole ones are taken, as of eggs, tins and rolls. `None`: nothing is said, so it may be cut.
    pub cut: Option<Fact<bool>>,
    /// How it is cooked by itself, in an ordinary pan or oven.
    pub cooks: Option<Fact<Cooks>>,
    pub keeps: Keeping,
    /// Days from freezer to thawed.
    pub thaw: Option<Fact<Days>>,
    /// `Some(empty)`: none. `None`: not known, and printed so.
    pub allergens: Option<Fact<Vec<Allergen>>>,
    /// What every maker's has, where `allergens` as a whole depend on the maker: mayonnaise has egg. `Some(empty)`: nothing for certain.
    pub contains: Option<Fact<Vec<Allergen>>>,
    pub nutrients: Option<Fact<Nutrients>>,
    /// Where single figures of a table come from, if elsewhere than the rest of it: `cup, chopped` or `energy` -> `foods.toml:12`.
    pub told: BTreeMap<String, String>,
    /// Neither in the built-in reference nor in foods.toml: it only has the name a line gave it.
    pub unknown: bool,
}

impl Food {
    /// Its kind where it is raw and the line does not ask for it cooked.
    pub fn raw_kind(&self, item: Option<&Item>) -> Option<Kind> {
        let cooked = item.is_some_and(|item| item.state == State::Cooked);
        self.kind.filter(|kind| kind.is_raw() && !cooked)
    }

    /// Is it sold by volume? By its kind, else by the last word of its name. Common practice, no source.
    pub fn is_liquid(&self) -> bool {
        const POURED: [&str; 11] = ["milk", "cream", "buttermilk", "kefir", "vinegar", "sauce", "wine", "beer", "cider", "juice", "syrup"];
        const DRY: [&str; 7] = ["cube", "powder", "granules", "coffee", "tea", "cocoa", "chocolate"];
        let by_name = || self.name.split_whitespace().last().is_some_and(|word| POURED.contains(&word.to_lowercase().as_str()));
        let is_dry = |name: &str| name.split_whitespace().any(|word| DRY.contains(&word.to_lowercase().as_str()));
        match self.kind {
            Some(Kind::Oil | Kind::Drink | Kind::Water | Kind::Stock) => !is_dry(&self.name),
            Some(Kind::Dairy | Kind::Sauce | Kind::Condiment | Kind::Sweetener) | None => by_name(),
            Some(_) => false,
        }
    }

    /// Does it come in a tin or a jar? By its shelf in the shop, by what is known of its tin, jar or drained share, or by one of its names.
    pub fn is_tinned(&self) -> bool {
        const SAYS: [&str; 3] = ["tinned ", "canned ", "jarred "];
        let says = |name: &String| SAYS.iter().any(|word| name.to_lowercase().starts_with(word));
        let weighed = |word: &str| self.words.contains_key(word) || self.volumes.contains_key(word);
        self.section.as_ref().is_some_and(|section| section.eq_ignore_ascii_case("tins"))
            || self.drained.is_some()
            || ["tin", "jar"].into_iter().any(weighed)
            || std::iter::once(&self.name).chain(&self.also).any(says)
    }

    /// The source of one figure of a table, where `rest` is that of the others.
    pub(crate) fn source_of<'a>(&'a self, figure: &str, rest: &'a str) -> &'a str {
        self.told.get(figure).map_or(rest, String::as_str)
    }
}

/// A size word in a line: "2 large onions".
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Grade {
    Small,
    Medium,
    Large,
}

/// What state the amount of a line is measured in.
#[derive(Debug, Clone, PartialEq)]
pub enum State {
    /// As bought: peel, stalks and bones included.
    AsPurchased,
    /// After trimming, in the named form: `chopped`, `sliced`; also the form by which a cup is weighed.
    Prepared(String),
    /// Cooked weight or volume of something bought dry.
    Cooked,
    /// Drained weight of something bought in a tin or jar.
    Drained,
}

/// An amount of one food, as a line states it.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    pub amount: Amount,
    /// The size of one tin, jar, pack in the line: `2 tins (400 g)`.
    pub size: Option<Quantity>,
    pub grade: Option<Grade>,
    pub state: State,
    /// "plus 2 tbsp for dusting": added to the amount.
    pub plus: Vec<Amount>,
    /// Bought without its bones: nothing of it is trimmed.
    pub boned: bool,
}

impl Item {
    /// The same line for `times` as much; the size of one tin stays.
    pub fn scaled(&self, times: impl Into<Number>) -> Item {
        let times = times.into();
        let plus = self.plus.iter().map(|amount| amount.scaled(&times)).collect();
        Item { amount: self.amount.scaled(&times), plus, ..self.clone() }
    }
}

impl Food {
    /// What is eaten of so much as purchased: all of what is bought without its bones.
    pub fn eaten_share(&self, item: &Item) -> f64 {
        if item.boned { 1.0 } else { self.edible.as_ref().map_or(1.0, |edible| edible.value) }
    }
}

/// A conversion that lacks a fact, with the key in foods.toml that would mend it.
#[derive(Debug, Clone, PartialEq)]
pub struct MissingFact {
    /// `no weight of a cup is known`.
    pub what: String,
    /// `cup = "…"`, to stand under the food in foods.toml.
    pub key: String,
    pub wanted: Dimension,
}
