//! The household as plain data, every reference already resolved to an index.

use jiff::civil::{Date, DateTime, Time};
use std::collections::BTreeMap;
use std::ops::{Index, IndexMut};

use crate::foods::{Allergen, FoodId, Foods, Item, Place};
use crate::measure::{Celsius, Currency, Days, Minutes, Money, Number, Quantity, Spoons, UnitPrice, Units};

use super::appliance_kind::ApplianceKind;
use super::eaters::{Diner, Eater, Shunned};
use super::together::{Asked, Open, Pattern, PatternId, Prefer, Together, WishTable};
use super::warning::Spot;

/// Everything the household's files say, the weeks left out.
#[derive(Debug, Clone)]
pub struct Kitchen {
    pub household: Household,
    pub print: Print,
    pub rules: Rules,
    pub appliances: Vec<Appliance>,
    pub staples: Vec<Staple>,
    /// In order of their ids.
    pub recipes: Vec<Recipe>,
    pub foods: Foods,
    pub shops: Vec<Shop>,
    pub packs: Vec<Pack>,
    pub lots: Vec<Lot>,
    pub together: Together,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Household {
    pub name: String,
    /// In portions; the sum of [`Household::named`] where there are any.
    pub eaters: f64,
    /// Every `[[eater]]`, in order of the file; empty where the household is a number.
    pub named: Vec<Eater>,
    pub currency: Currency,
    /// Allergens that everybody would rather not have.
    pub avoid: Vec<Allergen>,
    /// Foods and kinds of food that everybody would rather not have.
    pub avoid_foods: Vec<Shunned>,
    /// Holds for everybody.
    pub allergic: Vec<Shunned>,
    /// What a week's shopping may cost.
    pub budget: Option<Money>,
    /// The defaults with the household's own laid over them.
    pub mealtimes: BTreeMap<String, Time>,
    /// Of the IANA tz database, by its own name; `None`: its times float.
    pub zone: Option<String>,
}

impl Household {
    /// Is there anything that everybody would rather not have?
    pub fn avoids_something(&self) -> bool {
        !self.avoid.is_empty() || !self.avoid_foods.is_empty()
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    A4,
    Letter,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Print {
    pub paper: Paper,
    pub units: Units,
    /// What a print writes where nothing else is asked for.
    pub sheets: Sheets,
}

/// What `print` can write.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SheetKind {
    List,
    Guide,
    Week,
    Labels,
    Recipes,
    Phone,
    Calendar,
}

/// A choice of sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sheets(u8);

impl Sheets {
    pub const USUAL: Sheets = Sheets::of(&[SheetKind::List, SheetKind::Guide, SheetKind::Week, SheetKind::Labels]);

    pub const fn of(kinds: &[SheetKind]) -> Sheets {
        let (mut bits, mut at) = (0, 0);
        while at < kinds.len() {
            bits |= 1 << kinds[at] as u8;
            at += 1;
        }
        Sheets(bits)
    }

    pub fn has(self, kind: SheetKind) -> bool {
        self.0 & (1 << kind as u8) != 0
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Choose {
    Cheapest,
    LeastLeft,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Rules {
    /// Share of a demand that may stay unmet, 0.02 for "2%".
    pub short_by: f64,
    pub choose: Choose,
    pub spoons: Spoons,
    pub always: Vec<FoodId>,
    pub ask: Vec<FoodId>,
    pub ready_after: Minutes,
    pub boxing: Minutes,
    /// Between leaving the heat and being boxed.
    pub cool: Minutes,
    pub wash: Minutes,
    /// Hands-on, once at the end of a session.
    pub wash_up: Minutes,
    pub pace: f64,
    /// What decides between composed weeks, the first first; `None` where nothing is written.
    pub prefer: Option<[Prefer; 3]>,
}

/// What holds where kitchen.toml says nothing. Which foods are always there, and which are asked after, is told by the kitchen's own foods.
impl Default for Rules {
    fn default() -> Self {
        Rules {
            short_by: 0.02,
            choose: Choose::Cheapest,
            spoons: Spoons::Us,
            always: Vec::new(),
            ask: Vec::new(),
            ready_after: Minutes(180),
            boxing: Minutes(3),
            cool: Minutes(10),
            wash: Minutes(3),
            wash_up: Minutes(0),
            pace: 1.0,
            prefer: None,
        }
    }
}

/// The index of an appliance in [`Kitchen::appliances`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ApplianceId(pub usize);

#[derive(Debug, Clone, PartialEq)]
pub struct Appliance {
    pub name: String,
    pub room: u32,
    pub heat: bool,
    /// Kelvin by which the highest and the lowest temperature of one run may differ.
    pub near: f64,
    pub warm_up: Minutes,
    pub out: Minutes,
    /// Until it is under pressure: added to the wait of each load.
    pub comes_up: Minutes,
    /// Litres.
    pub holds: Option<f64>,
    /// Given, or guessed from its name.
    pub kind: Option<ApplianceKind>,
    /// An oven that moves its air: methods give it figures of its own.
    pub fan: bool,
    pub at: Spot,
}

impl Appliance {
    /// Every kind heats, and what is marked so. It wants the skill [`HEAT`] and runs only while somebody is there.
    pub fn heats(&self) -> bool {
        self.heat || self.kind.is_some()
    }
}

/// The skill of whoever puts something on what heats, and takes it out.
pub const HEAT: &str = "heat";

#[derive(Debug, Clone, PartialEq)]
pub struct Staple {
    pub food: FoodId,
    pub par: Quantity,
    pub when_below: Quantity,
    pub at: Spot,
}

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

/// The index of a shop in [`Kitchen::shops`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ShopId(pub usize);

#[derive(Debug, Clone, PartialEq)]
pub struct Shop {
    pub name: String,
    pub sections: Vec<String>,
    pub trip: Money,
    pub at: Spot,
}

/// Any `buy` for `pay`, again and again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Offer {
    pub buy: u32,
    pub pay: Money,
}

#[derive(Debug, Clone, PartialEq)]
pub enum PackKind {
    Sized {
        size: Quantity,
        /// The size as typed: "400 g", "6".
        label: String,
        /// Grams.
        drained: Option<f64>,
        price: Option<Money>,
        offer: Option<Offer>,
    },
    Loose {
        price: Option<UnitPrice>,
        step: Quantity,
    },
}

#[derive(Debug, Clone, PartialEq)]
pub struct Pack {
    pub shop: ShopId,
    pub food: FoodId,
    pub kind: PackKind,
    pub section: Option<String>,
    pub seen: Option<Date>,
    pub at: Spot,
}

/// A food, or a dish that was cooked: what a shelf holds, and what is drawn from it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ware {
    Food(FoodId),
    Recipe(RecipeId),
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
}

#[derive(Debug, Clone, PartialEq)]
pub struct Lot {
    pub of: Ware,
    /// All of it, in packs or not.
    pub amount: Quantity,
    /// The size of one of the closed packs that it lies in; `None` of what is open or loose.
    pub pack: Option<Quantity>,
    pub place: Place,
    pub best_before: Option<Date>,
    pub use_by: Option<Date>,
    pub opened: Option<Date>,
    pub since: Option<Date>,
    pub made: Option<Date>,
    /// What was paid, where that is known: the book says it, pantry.toml does not.
    pub paid: Option<UnitPrice>,
    pub at: Spot,
}

/// The parts of a kitchen are found by their own ids alone.
macro_rules! found_by {
    ($($id:ty => $part:ty),* $(,)?) => { $(
        impl Index<$id> for [$part] {
            type Output = $part;
            fn index(&self, id: $id) -> &$part {
                &self[id.0]
            }
        }
        impl Index<$id> for Vec<$part> {
            type Output = $part;
            fn index(&self, id: $id) -> &$part {
                &self[id.0]
            }
        }
        impl IndexMut<$id> for Vec<$part> {
            fn index_mut(&mut self, id: $id) -> &mut $part {
                &mut self[id.0]
            }
        }
    )* };
}

found_by! { ApplianceId => Appliance, PatternId => Pattern, RecipeId => Recipe, ShopId => Shop }

/// One planned week.
#[derive(Debug, Clone, PartialEq)]
pub struct Week {
    /// Its name, or "Week of 30 Nov 2026" where it has none.
    pub name: String,
    pub from: Date,
    pub trips: Vec<Trip>,
    pub sessions: Vec<Session>,
    pub meals: Vec<Meal>,
    /// `[compose]` of the week, as written.
    pub wishes: WishTable,
    pub at: Spot,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Trip {
    pub on: Date,
    /// `None`: all shops.
    pub shops: Option<Vec<ShopId>>,
    /// False: it stands in no file. It buys what no open trip brings in time.
    pub planned: bool,
    /// Which trip of its day it is, in the order of the file, counted from 0; one of its own from [`Trip::OWN`] on.
    pub nth: usize,
    /// Foods that were booked on it already, or were not to be had there: nothing more of them is bought on it.
    pub settled: Vec<FoodId>,
    pub at: Spot,
}

impl Trip {
    /// Trips of their own are counted apart from those of the file, which may yet be given more.
    pub const OWN: usize = 1000;
}

#[derive(Debug, Clone, PartialEq)]
pub struct Session {
    pub start: DateTime,
    pub finish_by: Option<DateTime>,
    pub people: Vec<Person>,
    pub aim: Aim,
    /// Appliances out of order.
    pub without: Vec<ApplianceId>,
    pub at: Spot,
}

/// What a good plan of a session is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Aim {
    /// The least finish.
    #[default]
    Soonest,
    /// Few idle minutes, hand-overs and turns; a tenth of the session is kept free before `finish_by`.
    Calm,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Person {
    pub name: String,
    pub role: String,
    pub from: Option<DateTime>,
    pub until: Option<DateTime>,
    /// `None`: may do everything.
    pub may: Option<Vec<String>>,
}

impl Person {
    pub fn has_role(&self, role: &str) -> bool {
        same_words(&self.role, role)
    }

    pub fn may_do(&self, skill: &str) -> bool {
        self.may.as_ref().is_none_or(|may| may.iter().any(|one| same_words(one, skill)))
    }

    /// Has the role and every skill that the step asks for.
    pub fn can_do(&self, step: &Step, appliances: &[Appliance]) -> bool {
        step.who.as_deref().is_none_or(|role| self.has_role(role)) && step.skills(appliances).all(|skill| self.may_do(skill))
    }
}

/// "Cook " is the same role as "cook".
fn same_words(one: &str, other: &str) -> bool {
    one.trim().to_lowercase() == other.trim().to_lowercase()
}

#[derive(Debug, Clone, PartialEq)]
pub struct Meal {
    pub at_time: DateTime,
    /// "Mon supper", or "Mon 19:15".
    pub label: String,
    pub name: Option<String>,
    /// In portions; the sum of `diners` where there are any.
    pub eaters: f64,
    /// Who eats, where the meal or the household says; empty where it is a number alone.
    pub diners: Vec<Diner>,
    /// For each eater.
    pub each: Vec<Ingredient>,
    /// For the whole table.
    pub shared: Vec<Ingredient>,
    /// It falls out: it eats nothing.
    pub skip: bool,
    /// The pattern that it follows, where it names one.
    pub pattern: Option<PatternId>,
    /// Not written yet: nothing is reckoned of it, and `each` and `shared` hold what of it is fixed.
    pub open: Option<Open>,
    pub asked: Asked,
    pub at: Spot,
}
