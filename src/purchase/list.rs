//! The shopping list as plain data: ids, money, dates, amounts. Whoever prints it finds the words and the names.

use jiff::civil::{Date, DateTime};

use super::TripComparison;
use crate::foods::{Allergen, FoodId, Place};
use crate::kitchen::asked::Asked;
use crate::kitchen::{BatchCut, Needs, Offer, RecipeId, ShopId, Ware, Warning, Whose};
use crate::measure::{Days, Money, Quantity};
use crate::plan::{Move, ShortMeal, Spare, State};

#[derive(Debug, Clone, PartialEq)]
pub struct ShoppingList {
    /// The name of the week.
    pub week: String,
    pub from: Date,
    pub cost: Money,
    pub trips: Vec<TripList>,
    pub from_pantry: Vec<FromPantry>,
    /// What other weeks take off the shelf first.
    pub reserved: Vec<Reserved>,
    pub expiring: Vec<Expiring>,
    /// In order of their names.
    pub no_price: Vec<FoodId>,
    pub spare: Vec<Spare>,
    /// In order of their names.
    pub ask: Vec<FoodId>,
    pub moves: Vec<Move>,
    pub flags: Vec<Flag>,
    /// Meals that nothing can serve any more.
    pub short: Vec<ShortMeal>,
    /// In order of time.
    pub meals: Vec<MealNote>,
    /// By day, then in the order of the eaters; of those who say what they need.
    pub days: Vec<DayNote>,
    pub warnings: Vec<Warning>,
    pub leaves: Leaves,
    /// `None` where the household names no budget.
    pub budget: Option<Budget>,
    /// Where it was asked for.
    pub compare: Option<Vec<TripComparison>>,
}

impl ShoppingList {
    /// Every line of every trip.
    pub fn lines(&self) -> impl Iterator<Item = &ListLine> {
        self.trips.iter().flat_map(TripList::lines)
    }
}

/// What the trips on the list leave behind once the week is over.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Leaves {
    /// What goes off first stands first.
    pub leftovers: Vec<Leftover>,
    /// The recipes of which one batch would use up the most, by value; at most five.
    pub uses: Vec<RecipeUse>,
    pub worth: Worth,
}

/// Bought beyond the need.
#[derive(Debug, Clone, PartialEq)]
pub struct Leftover {
    pub food: FoodId,
    pub amount: Quantity,
    /// Its share of what was paid.
    pub value: Money,
    /// The last day it is good; `None` where no keeping time is known.
    pub until: Option<Date>,
}

/// What one batch of a recipe would use of left-overs and expiring lots, and what else it would need.
#[derive(Debug, Clone, PartialEq)]
pub struct RecipeUse {
    pub recipe: RecipeId,
    pub value: Money,
    pub uses: Vec<FoodAmount>,
    pub needs: Vec<FoodAmount>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct FoodAmount {
    pub food: FoodId,
    /// `None`: to taste, or not to be reckoned.
    pub amount: Option<Quantity>,
}

/// Where the money of the list goes; the three add up to its cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Worth {
    /// With the fares, and with what rounding leaves over.
    pub used: Money,
    /// Left, and good for at least seven days after the week's last.
    pub keeps: Money,
    /// Left, and not good for so long.
    pub spoils: Money,
}

/// The week beside what the household means to spend on it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Budget {
    pub limit: Money,
    /// Of all trips of the week, the past ones too.
    pub cost: Money,
    /// The single changes that save most, at most three; none within the budget.
    pub changes: Vec<Saving>,
    /// In a large week: changes that were not tried, the least of them by what is paid for their foods.
    pub untried: usize,
    /// What the week would cost with all of them.
    pub together: Option<Money>,
}

impl Budget {
    /// Nothing within the budget.
    pub fn over(&self) -> Money {
        (self.cost - self.limit).max(Money::ZERO)
    }

    pub fn is_over(&self) -> bool {
        self.over() > Money::ZERO
    }
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Saving {
    pub by: SaveBy,
    pub saves: Money,
    /// What the week would then cost.
    pub cost: Money,
}

/// One thing that could be done otherwise, to save money.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SaveBy {
    CheapestPacks(FoodId),
    LeavingOutShop(ShopId),
    /// `to` is how its batches would then be cut.
    FinerBatches {
        recipe: RecipeId,
        to: BatchCut,
    },
    /// The line as typed, and the label of its meal.
    LeavingOutLine {
        line: String,
        for_each: bool,
        meal: String,
    },
}

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

/// A session or a meal that waits for goods, in order of time.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Awaiting {
    /// When it begins.
    pub at: DateTime,
    /// The word of a meal; a session has its clock alone.
    pub meal: Option<String>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct TripList {
    pub on: Date,
    pub cost: Money,
    /// False: it stands in no file, and buys what no planned trip brings in time.
    pub planned: bool,
    /// Which trip of its day it is, as [`Trip::nth`](crate::kitchen::Trip::nth).
    pub nth: usize,
    /// What waits for a trip of its own first.
    pub before: Option<Awaiting>,
    /// Where all trips are asked for.
    pub state: Option<State>,
    pub shops: Vec<ShopVisit>,
}

impl TripList {
    pub fn lines(&self) -> impl Iterator<Item = &ListLine> {
        self.shops.iter().flat_map(ShopVisit::lines)
    }

    /// How it stands, where it is no longer open.
    pub fn closed(&self) -> Option<State> {
        self.state.filter(|state| *state != State::Open)
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct ShopVisit {
    /// `None`: no shop sells it, or nothing is left to buy of it.
    pub at: Option<Stop>,
    pub sections: Vec<Section>,
}

impl ShopVisit {
    pub fn lines(&self) -> impl Iterator<Item = &ListLine> {
        self.sections.iter().flat_map(|section| &section.lines)
    }
}

/// One shop of a trip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stop {
    pub shop: ShopId,
    /// What it costs to get there.
    pub fare: Money,
    /// Goods and fare.
    pub cost: Money,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// As the household or the reference names it.
    pub section: String,
    pub lines: Vec<ListLine>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct ListLine {
    pub food: FoodId,
    pub need: Quantity,
    pub packs: Vec<PackLine>,
    pub cost: Option<Money>,
    pub left: Quantity,
    /// The last day what is left is good, of several amounts the first; `None` where nothing is left or no keeping time is known.
    pub left_until: Option<Date>,
    pub short: Quantity,
    /// All that is asked for, before the pantry.
    pub demand: Quantity,
    pub last_used: Option<Date>,
    /// Names of recipes and meals.
    pub what_for: Vec<String>,
    /// Does some of it fill up a staple?
    pub top_up: bool,
    /// What is to be bought of it in the measure of its lines, where those are alike and the need is in grams.
    pub asked: Option<Asked>,
    /// About how many pieces its weight takes, where one piece's weight is known.
    pub about: Option<u32>,
    /// The food keeps days, not months.
    pub fresh: bool,
    /// Lines as typed that could not be added up.
    pub own_words: Vec<String>,
    /// Which packs are opened when, where that is more than once.
    pub windows: Option<Windows>,
    /// Every use is "(optional)", "for garnish" or "to serve".
    pub optional: bool,
    /// What could be taken instead, as the lines say it: "2 shallots".
    pub instead: Vec<String>,
    /// Without its last few the line would cost less.
    pub without: Option<Without>,
    /// What of it the household avoids.
    pub beware: Option<Beware>,
}

impl ListLine {
    /// Is it short by so much that the shopper should know? Under a twentieth of what is asked for, nobody notices.
    pub fn is_short_of_note(&self) -> bool {
        self.short.base() > 0.0 && self.short.base() >= 0.05 * self.demand.base()
    }
}

/// The offer to do without the last of a line.
#[derive(Debug, Clone, PartialEq)]
pub struct Without {
    /// The whole short fall: at most a tenth of the demand.
    pub short: Quantity,
    /// Of the demand before the pantry, rounded to two decimals.
    pub share: f64,
    pub saves: Money,
}

/// So much of one size, or weighed out.
#[derive(Debug, Clone, PartialEq)]
pub struct PackLine {
    pub what: Packed,
    pub offer: Option<OfferTaken>,
    pub cost: Money,
}

#[derive(Debug, Clone, PartialEq)]
pub enum Packed {
    /// `label` is the size as typed: "400 g", "6"; `single` what one closed pack in it holds: 400 g of "4 x 400 g".
    Packs {
        count: u32,
        size: Quantity,
        single: Quantity,
        label: String,
    },
    Loose(Quantity),
}

impl Packed {
    pub fn amount(&self) -> Quantity {
        match self {
            Packed::Packs { count, size, .. } => size.scaled(f64::from(*count)),
            Packed::Loose(amount) => amount.clone(),
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OfferTaken {
    pub offer: Offer,
    pub times: u32,
}

/// Which packs are opened when.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Windows {
    pub openings: Vec<Opening>,
    /// Bought to fill up an offer.
    pub over: Vec<PackCount>,
    /// Are packs of more than one size or price bought?
    pub several: bool,
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Opening {
    /// The first use; `None`: for the shelf.
    pub on: Option<Date>,
    pub packs: Vec<PackCount>,
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PackCount {
    pub count: u32,
    /// The size as typed.
    pub label: String,
}

/// What a food holds of what the household avoids.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Beware {
    Contains(Vec<Allergen>),
    /// Allergens, foods and kinds of food, in the household's words.
    Holds(Vec<String>),
    /// Its allergens are not known; these are avoided.
    MayContain(Vec<Allergen>),
}

#[derive(Debug, Clone, PartialEq)]
pub struct FromPantry {
    pub of: Ware,
    pub amount: Quantity,
    pub place: Place,
    pub on: Date,
    /// Names of recipes and meals.
    pub what_for: Vec<String>,
    /// Past its best before, to be looked at first.
    pub look_first: bool,
    /// Of what was cooked, whose it is alone.
    pub whose: Option<Whose>,
}

/// What another week takes out of one lot before this week does.
#[derive(Debug, Clone, PartialEq)]
pub struct Reserved {
    /// The name of that week.
    pub week: String,
    pub of: Ware,
    pub amount: Quantity,
    pub place: Place,
    pub last_used: Date,
    /// Names of recipes and meals.
    pub what_for: Vec<String>,
}

impl Reserved {
    /// One entry a week, food and place, with the last day of any.
    pub fn added_up(all: &[Reserved]) -> Vec<Reserved> {
        let mut rows: Vec<Reserved> = Vec::new();
        for next in all {
            let same = |row: &&mut Reserved| row.week == next.week && row.of == next.of && row.place == next.place;
            let sum = rows.iter_mut().find(same).and_then(|row| row.amount.plus(&next.amount).map(|sum| (row, sum)));
            match sum {
                Some((row, sum)) => *row = Reserved { amount: sum, last_used: row.last_used.max(next.last_used), ..row.clone() },
                None => rows.push(next.clone()),
            }
        }
        rows
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct Expiring {
    pub of: Ware,
    /// Of what was cooked, whose it is alone.
    pub whose: Option<Whose>,
    pub amount: Quantity,
    pub place: Place,
    /// `None` of what was cooked and nobody will eat, where no date is known.
    pub until: Option<Date>,
    /// May it not be eaten any more?
    pub past: bool,
}

/// A food that no trip buys at the right time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Flag {
    pub food: FoodId,
    pub why: Untimely,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Untimely {
    /// It does not keep from the trip to its use.
    TooEarly { before: Days, keeps: Days },
    /// It is used before the trip.
    TooLate { needed: Date, bought: Date },
}
