//! The household: its rules, its sheets, its appliances, its staples.

use std::collections::BTreeMap;

use jiff::civil::Time;

use crate::foods::{Allergen, FoodId};
use crate::measure::{Currency, Minutes, Money, Quantity, Spoons, Units};

use super::super::appliance_kind::ApplianceKind;
use super::super::eaters::{Eater, Shunned};
use super::super::together::Prefer;
use super::super::warning::Spot;

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
    /// What stands under the shopping list, in this order.
    pub under: Under,
}

/// A part of what stands under the shopping list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ListPart {
    /// What is at home already, and what is kept for other weeks.
    Home,
    /// What to look at before going.
    Look,
    /// What goes off first, and what would be bought too early.
    UseUp,
    /// What the trips cost, and what has no price.
    Cost,
    /// What of the packs is left.
    Left,
    /// What to do before cooking, and in the evenings.
    Moves,
    /// Portions that nobody has planned to eat.
    Spare,
    /// What the meals give of what is wanted of a day.
    Meals,
}

/// Parts in the order in which they stand, each at most once.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Under([Option<ListPart>; 8]);

impl Under {
    pub const ALL: Under = Under([
        Some(ListPart::Home),
        Some(ListPart::Look),
        Some(ListPart::UseUp),
        Some(ListPart::Cost),
        Some(ListPart::Left),
        Some(ListPart::Moves),
        Some(ListPart::Spare),
        Some(ListPart::Meals),
    ]);

    /// A part that is named again stands where it was named first.
    pub fn of(parts: &[ListPart]) -> Under {
        let mut under = [None; 8];
        let mut next = 0;
        for part in parts {
            if !under[..next].contains(&Some(*part)) {
                under[next] = Some(*part);
                next += 1;
            }
        }
        Under(under)
    }

    pub fn parts(&self) -> impl Iterator<Item = ListPart> {
        self.0.into_iter().flatten()
    }
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

impl SheetKind {
    /// As `[print] sheets` and `print --only` name them.
    pub const WORDS: [(&str, SheetKind); 7] = [
        ("list", SheetKind::List),
        ("guide", SheetKind::Guide),
        ("week", SheetKind::Week),
        ("labels", SheetKind::Labels),
        ("recipes", SheetKind::Recipes),
        ("phone", SheetKind::Phone),
        ("calendar", SheetKind::Calendar),
    ];
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
