//! One line of the list as plain data: a food, its packs, what is left of them and what is said beside it. It must not know a trip or a shop.

use jiff::civil::Date;

use crate::foods::{Allergen, FoodId};
use crate::kitchen::Offer;
use crate::kitchen::asked::Asked;
use crate::measure::{Money, Quantity};

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
