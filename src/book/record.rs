//! One lot as the book writes it: amounts are exact, so that what bookings take adds up.

use std::borrow::Cow;
use std::fmt::{self, Formatter};

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::de::{Error, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::foods::{Foods, Place};
use crate::kitchen::{Kitchen, Lot, Recipe, RecipeId, Spot, Ware, Whose};
use crate::measure::{Dimension, Number, Quantity, UnitPrice, plural_word};

/// An amount as it stands in pantry.toml and in the book: exactly, where its fraction is one that a person can read (`1/3`, `2 5/7`: of a
/// thousandth part at the finest); else the next thousandth above, so that a lot never falls short of what a plan counted on.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Exact {
    pub number: Number,
    pub dimension: Dimension,
}

impl Exact {
    pub fn of(quantity: &Quantity) -> Exact {
        Exact { number: quantity.exact().to_readable(), dimension: quantity.dimension() }
    }

    /// Books were kept in thousandths once: there `⅓` of pantry.toml stands as 0.333.
    pub fn is_rounded_from(&self, paper: &Exact) -> bool {
        self.dimension == paper.dimension && self.number == (&paper.number * 1000).round() / 1000
    }

    pub fn quantity(&self) -> Quantity {
        Quantity::of(&self.dimension, &self.number)
    }

    /// As a person writes it into pantry.toml, exactly: `350 g`, `1.2 kg`, `333 1/3 g`, `6`, `3 portions`.
    pub fn text(&self) -> String {
        match &self.dimension {
            Dimension::Mass => self.metric("g", "kg"),
            Dimension::Volume => self.metric("ml", "l"),
            Dimension::Count => self.number.to_string(),
            Dimension::Portion => self.named("portion", "portions"),
            Dimension::Word(word) => self.named(word, plural_word(word)),
        }
    }

    fn metric(&self, small: &str, large: &str) -> String {
        // Fifties are what a person would write in kilograms.
        let round = self.number >= 1000 && (&self.number / 50).is_whole();
        if round { format!("{} {large}", &self.number / 1000) } else { format!("{} {small}", self.number) }
    }

    fn named(&self, one: &str, many: &str) -> String {
        format!("{} {}", self.number, if self.number <= 1 { one } else { many })
    }
}

/// An amount and the size of the packs it lies in: as many of them as before, each as it can be written.
pub fn exactly(amount: &Quantity, pack: Option<&Quantity>) -> (Exact, Option<Exact>) {
    let Some((count, pack)) = pack.and_then(|pack| Some((amount.ratio(pack)?, Exact::of(pack)))) else { return (Exact::of(amount), None) };
    (Exact { number: count * &pack.number, dimension: pack.dimension.clone() }, Some(pack))
}

/// As pantry.toml says it: `350 g`, or of closed packs `3 x 400 g`.
pub fn amount_text(amount: &Exact, pack: Option<&Exact>) -> String {
    match pack {
        Some(pack) if pack.number.is_positive() => format!("{} x {}", &amount.number / &pack.number, pack.text()),
        _ => amount.text(),
    }
}

/// `{"amount": 350.0, "unit": "g"}`; what is no decimal is a fraction: `{"amount": "1/3", "unit": "portion"}`.
#[derive(Serialize, Deserialize)]
struct Written<'t> {
    amount: Amount,
    #[serde(borrow)]
    unit: Cow<'t, str>,
}

#[derive(Serialize)]
#[serde(untagged)]
enum Amount {
    Decimal(f64),
    Fraction(String),
}

/// Read without a detour: a book has many.
impl<'de> Deserialize<'de> for Amount {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Either;
        impl Visitor<'_> for Either {
            type Value = Amount;

            fn expecting(&self, formatter: &mut Formatter<'_>) -> fmt::Result {
                formatter.write_str("a number, or a fraction as text")
            }

            fn visit_f64<E: Error>(self, number: f64) -> Result<Amount, E> {
                Ok(Amount::Decimal(number))
            }

            fn visit_u64<E: Error>(self, number: u64) -> Result<Amount, E> {
                Ok(Amount::Decimal(number as f64))
            }

            fn visit_i64<E: Error>(self, number: i64) -> Result<Amount, E> {
                Ok(Amount::Decimal(number as f64))
            }

            fn visit_str<E: Error>(self, text: &str) -> Result<Amount, E> {
                Ok(Amount::Fraction(text.to_owned()))
            }
        }
        deserializer.deserialize_any(Either)
    }
}

impl Serialize for Exact {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let decimal = self.number.to_f64();
        let amount =
            if Number::from(decimal) == self.number { Amount::Decimal(decimal) } else { Amount::Fraction(self.number.to_string()) };
        Written { amount, unit: self.dimension.symbol().into() }.serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for Exact {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let Written { amount, unit } = Written::deserialize(deserializer)?;
        let number = match amount {
            Amount::Decimal(decimal) => Number::from(decimal),
            Amount::Fraction(text) => Number::from_text(&text).ok_or_else(|| Error::custom(format!("\"{text}\" is no amount")))?,
        };
        Ok(Exact { number, dimension: Dimension::of_symbol(&unit) })
    }
}

/// What was paid for how much.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, JsonSchema, Serialize, Deserialize)]
pub struct Paid {
    /// Minor units of money.
    pub minor: i64,
    pub amount: Exact,
}

#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, JsonSchema, Serialize, Deserialize)]
pub struct LotRecord {
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub food: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub recipe: Option<String>,
    /// Of a recipe: whose it is alone. Books from before do not say it.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub eater: Option<String>,
    /// What that lacks: foods by their names, recipes as `recipe:id`.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub without: Vec<String>,
    /// All of it, in packs or not.
    pub amount: Exact,
    /// The size of one of the closed packs that it lies in.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub pack: Option<Exact>,
    pub place: Place,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    #[schemars(with = "Option<String>")]
    pub best_before: Option<Date>,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    #[schemars(with = "Option<String>")]
    pub use_by: Option<Date>,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    #[schemars(with = "Option<String>")]
    pub opened: Option<Date>,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    #[schemars(with = "Option<String>")]
    pub since: Option<Date>,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    #[schemars(with = "Option<String>")]
    pub made: Option<Date>,
    /// Known to the book alone: pantry.toml does not say it.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub paid: Option<Paid>,
}

/// A food or a cooked recipe as the book names it: the kitchen may not know it any more.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Named {
    /// By its name.
    Food(String),
    /// By its id.
    Recipe(String),
}

impl Named {
    /// `None` where the kitchen does not know it.
    pub fn ware(&self, kitchen: &Kitchen) -> Option<Ware> {
        match self {
            Named::Food(name) => kitchen.foods.find(name).map(Ware::Food),
            Named::Recipe(id) => kitchen.recipes.iter().position(|recipe| recipe.id == *id).map(|at| Ware::Recipe(RecipeId(at))),
        }
    }

    /// What it is called: a recipe by its name, where it is known.
    pub fn called<'n>(&'n self, kitchen: &'n Kitchen) -> &'n str {
        match self {
            Named::Food(name) => name,
            Named::Recipe(id) => kitchen.recipes.iter().find(|recipe| recipe.id == *id).map_or(id, |recipe| &recipe.name),
        }
    }
}

impl LotRecord {
    pub fn named(&self) -> Named {
        match &self.recipe {
            Some(id) => Named::Recipe(id.clone()),
            None => Named::Food(self.food.clone().unwrap_or_default()),
        }
    }

    pub fn name(&self) -> &str {
        self.food.as_deref().or(self.recipe.as_deref()).unwrap_or_default()
    }

    /// How much of it there is, as pantry.toml says it: `350 g`, or of closed packs `3 x 400 g`.
    pub fn amount_text(&self) -> String {
        amount_text(&self.amount, self.pack.as_ref())
    }

    /// Its dates under their keys in pantry.toml.
    pub fn dates(&self) -> [(&'static str, Option<Date>); 5] {
        let LotRecord { best_before, use_by, opened, since, made, .. } = *self;
        [("best_before", best_before), ("use_by", use_by), ("opened", opened), ("since", since), ("made", made)]
    }

    /// As pantry.toml says it, without what was paid.
    pub fn on_paper(&self) -> LotRecord {
        LotRecord { paid: None, ..self.clone() }
    }

    /// The same lot but for how much of it there is.
    pub fn same_but_amount(&self, other: &LotRecord) -> bool {
        let alike = self.amount.dimension == other.amount.dimension;
        alike && LotRecord { amount: other.amount.clone(), ..self.on_paper() } == other.on_paper()
    }

    /// What was paid, as the price of a unit.
    pub fn unit_price(&self) -> Option<UnitPrice> {
        let paid = self.paid.as_ref()?;
        Some(UnitPrice { minor_e4: paid.minor.checked_mul(10_000)?, per: paid.amount.quantity() })
    }

    /// Minor units of money that one gram, millilitre or piece cost.
    pub fn rate_paid(&self) -> Option<f64> {
        let paid = self.paid.as_ref().filter(|paid| paid.amount.number > 0 && paid.amount.dimension == self.amount.dimension)?;
        Some((Number::whole(paid.minor) / &paid.amount.number).to_f64())
    }
}

fn record(foods: &Foods, recipes: &[Recipe], lot: &Lot) -> LotRecord {
    let (food, recipe) = match lot.of {
        Ware::Food(food) => (Some(foods[food].name.clone()), None),
        Ware::Recipe(recipe) => (None, Some(recipes[recipe].id.clone())),
    };
    let (amount, pack) = exactly(&lot.amount, lot.pack.as_ref());
    LotRecord {
        food,
        recipe,
        eater: lot.whose.as_ref().map(|whose| whose.eater.clone()),
        without: lot
            .whose
            .iter()
            .flat_map(|whose| &whose.without)
            .map(|ware| ware.as_written(foods, |recipe| &recipes[recipe].id))
            .collect(),
        amount,
        pack,
        place: lot.place,
        best_before: lot.best_before,
        use_by: lot.use_by,
        opened: lot.opened,
        since: lot.since,
        made: lot.made,
        paid: None,
    }
}

/// What is not known any more is left out: then it serves nobody who is to be without that.
fn whose(kitchen: &Kitchen, record: &LotRecord) -> Option<Whose> {
    let ware = |name: &String| match name.strip_prefix("recipe:") {
        Some(id) => kitchen.recipes.iter().position(|recipe| recipe.id == id).map(|index| Ware::Recipe(RecipeId(index))),
        None => kitchen.foods.find(name).map(Ware::Food),
    };
    Some(Whose { eater: record.eater.clone()?, without: record.without.iter().filter_map(ware).collect() })
}

/// As a lot of the kitchen; `None` where its food or recipe is not known any more.
pub fn as_lot(kitchen: &Kitchen, record: &LotRecord) -> Option<Lot> {
    let food = record.food.as_ref().and_then(|name| kitchen.foods.find(name)).map(Ware::Food);
    let recipe = || kitchen.recipes.iter().position(|recipe| Some(&recipe.id) == record.recipe.as_ref());
    let LotRecord { place, best_before, use_by, opened, since, made, .. } = *record;
    let of = food.or_else(|| recipe().map(|index| Ware::Recipe(RecipeId(index))))?;
    Some(Lot {
        of,
        whose: whose(kitchen, record),
        amount: record.amount.quantity(),
        pack: record.pack.as_ref().map(Exact::quantity),
        place,
        best_before,
        use_by,
        opened,
        since,
        made,
        paid: record.unit_price(),
        at: Spot::default(),
    })
}

/// The shelf as pantry.toml says it, in file order.
pub fn records(kitchen: &Kitchen) -> Vec<LotRecord> {
    kitchen.lots.iter().map(|lot| record(&kitchen.foods, &kitchen.recipes, lot)).collect()
}
