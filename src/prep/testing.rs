//! Small kitchens, written out by hand, for the tests of this room.

use jiff::civil::{DateTime, date};

use crate::foods::{Food, FoodId, Item, Kind, Place, State};
use crate::kitchen::fixture::empty_kitchen;
use crate::kitchen::*;
use crate::measure::{Amount, Minutes, Quantity, Unit};
use crate::plan::{Boxed, MadeAt, Making, Makings};
use crate::prep::Schedule;

/// A kitchen with the default rules and nothing in it.
pub fn kitchen() -> Kitchen {
    let mut kitchen = empty_kitchen();
    kitchen.household.eaters = 3.0;
    kitchen
}

/// A food of a kind; of none where that is "".
pub fn food(kitchen: &mut Kitchen, name: &str, kind: &str) -> FoodId {
    let id = FoodId(kitchen.foods.all.len() as u32);
    let kind = (!kind.is_empty()).then(|| Kind::named(kind).expect("a kind of food"));
    kitchen.foods.all.push(Food { name: name.into(), kind, ..Food::default() });
    kitchen.foods.names.insert(name.into(), id);
    id
}

/// With the defaults of the reader.
pub fn appliance(name: &str, room: u32, heat: bool) -> Appliance {
    let kind = ApplianceKind::of_name(name);
    let (near, warm_up) = if heat { (10.0, Minutes(10)) } else { (0.0, Minutes(0)) };
    let out = Minutes(i64::from(heat || kind.is_some()));
    let comes_up = Minutes(if kind == Some(ApplianceKind::Pressure) { 10 } else { 0 });
    Appliance { name: name.into(), room, heat, near, warm_up, out, comes_up, holds: None, kind, fan: false, at: Spot::default() }
}

/// A step without hands, wait, appliance or rule.
pub fn step(text: &str) -> Step {
    Step::of_words(vec![Piece::Words(text.into())], Spot::default())
}

pub fn recipe(id: &str, name: &str, portions: f64, steps: Vec<Step>) -> Recipe {
    Recipe {
        id: id.into(),
        name: name.into(),
        makes: Quantity::portions(portions),
        makes_typed: String::new(),
        portion: None,
        batches: BatchCut::Halves,
        fridge: None,
        freezer: None,
        cupboard: None,
        made: Made::InASession,
        serve: None,
        hold: HOLD,
        hold_hot: None,
        boxed: None,
        fits: vec![],
        is: vec![],
        style: None,
        ingredients: vec![],
        steps,
        headings: Vec::new(),
        at_table: Vec::new(),
        served: Vec::new(),
        notes: Vec::new(),
        source: Default::default(),
        method: Vec::new(),
        at: Spot::default(),
    }
}

pub fn amount(number: f64, unit: Unit) -> Amount {
    Amount::new(number, unit)
}

pub fn item(number: f64, unit: Unit) -> Item {
    Item { amount: amount(number, unit), size: None, grade: None, state: State::AsPurchased, plus: vec![], boned: false }
}

pub fn ingredient(text: &str, food: FoodId, item: Option<Item>, prep: Option<&str>) -> Ingredient {
    Ingredient { prep: prep.map(str::to_owned), ..Ingredient::of(text.into(), Wanted::Food { food, item }, Spot::default()) }
}

pub fn component(text: &str, recipe: RecipeId, amount: Quantity) -> Ingredient {
    let wanted = Wanted::Recipe { recipe, most: amount.clone(), amount };
    Ingredient::of(text.into(), wanted, Spot::default())
}

pub fn named(index: usize) -> Piece {
    Piece::Ingredient { index, share: None }
}

pub fn words(text: &str) -> Piece {
    Piece::Words(text.into())
}

/// Sunday 29 November 2026, 14:00.
pub fn sunday() -> DateTime {
    date(2026, 11, 29).at(14, 0, 0, 0)
}

pub fn person(name: &str, role: &str) -> Person {
    Person { name: name.into(), role: role.into(), from: None, until: None, may: None }
}

/// One session on Sunday with one cook.
pub fn week() -> Week {
    Week {
        name: "First week of advent".into(),
        from: date(2026, 11, 30),
        trips: vec![],
        sessions: vec![Session {
            start: sunday(),
            finish_by: None,
            people: vec![person("cook", "cook")],
            aim: Aim::default(),
            without: vec![],
            at: Spot::default(),
        }],
        meals: vec![],
        left_out: Default::default(),
        wishes: Default::default(),
        at: Spot::default(),
    }
}

/// A making of the first session of which nothing is kept.
pub fn making(kitchen: &Kitchen, recipe: usize, batches: f64) -> Making {
    Making {
        recipe: RecipeId(recipe),
        at: MadeAt::Session(0),
        on: sunday().date(),
        batches: crate::plan::Batches::new(batches),
        makes: kitchen.recipes[recipe].makes.scaled(batches),
        uses: vec![],
        spare: None,
        boxes: vec![],
        apart: vec![],
    }
}

pub fn makings(makings: Vec<Making>) -> Makings {
    Makings { makings, ..Makings::default() }
}

/// A proven plan of that many minutes with nothing in it.
pub fn planned(minutes: i64) -> Schedule {
    Schedule { finish: minutes, bound: minutes, proven: true, ..Schedule::default() }
}

/// Two portions in the fridge until 2 December, for nobody in particular.
pub fn two_in_the_fridge() -> Vec<Boxed> {
    vec![Boxed {
        amount: Quantity::portions(2.0),
        place: Place::Fridge,
        use_by: date(2026, 12, 2),
        what_for: vec![],
        parts: vec![],
        eater: None,
        without: vec![],
    }]
}
