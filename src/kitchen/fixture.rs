//! Small kitchens for unit tests, built without files.

use jiff::civil::{Date, DateTime};

use super::*;
use crate::foods::Foods;
use crate::measure::{Currency, Quantity, Units};

pub(crate) fn spot(line: u32) -> Spot {
    Spot { file: "weeks/test.toml".to_owned(), line, column: 1 }
}

pub(crate) fn date(text: &str) -> Date {
    text.parse().expect("a date")
}

pub(crate) fn at(text: &str) -> DateTime {
    text.parse().expect("a date and time")
}

/// A kitchen with nothing in it and every rule at its default.
pub(crate) fn empty_kitchen() -> Kitchen {
    Kitchen {
        household: Household {
            name: "Boatyard Row".to_owned(),
            eaters: 1.0,
            named: Vec::new(),
            currency: Currency { code: "EUR".to_owned(), digits: 2 },
            avoid: Vec::new(),
            avoid_foods: Vec::new(),
            allergic: Vec::new(),
            budget: None,
            mealtimes: Default::default(),
            zone: None,
        },
        print: Print { paper: Paper::A4, units: Units::Metric, sheets: Sheets::USUAL, under: crate::kitchen::Under::ALL },
        rules: Rules::default(),
        appliances: Vec::new(),
        staples: Vec::new(),
        recipes: Vec::new(),
        foods: Foods::default(),
        shops: Vec::new(),
        packs: Vec::new(),
        lots: Vec::new(),
        week_prices: Vec::new(),
        together: Together::default(),
    }
}

/// A recipe of six portions that keeps nowhere and has neither ingredients nor steps.
pub(crate) fn recipe(id: &str) -> Recipe {
    Recipe {
        id: id.to_owned(),
        name: id.to_owned(),
        makes: Quantity::portions(6.0),
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
        fits: Vec::new(),
        is: Vec::new(),
        style: None,
        ingredients: Vec::new(),
        steps: Vec::new(),
        headings: Vec::new(),
        at_table: Vec::new(),
        served: Vec::new(),
        notes: Vec::new(),
        source: Default::default(),
        method: Vec::new(),
        at: Spot { file: format!("recipes/{id}.toml"), line: 1, column: 1 },
    }
}

pub(crate) fn recipe_line(recipe: usize, portions: f64) -> Ingredient {
    let amount = Quantity::portions(portions);
    let wanted = Wanted::Recipe { recipe: RecipeId(recipe), amount: amount.clone(), most: amount };
    Ingredient::of(format!("{portions} portions"), wanted, spot(1))
}

pub(crate) fn session(start: &str) -> Session {
    Session { start: at(start), finish_by: None, people: Vec::new(), aim: Aim::default(), without: Vec::new(), at: spot(2) }
}

/// A supper for one, with one line for each eater.
pub(crate) fn meal(on: &str, label: &str, each: Vec<Ingredient>) -> Meal {
    Meal {
        at_time: at(on),
        label: label.to_owned(),
        word: label.split_once(' ').map_or(label, |(_, word)| word).to_owned(),
        name: None,
        text: None,
        eaters: 1.0,
        diners: Vec::new(),
        each,
        shared: Vec::new(),
        skip: false,
        pattern: None,
        open: None,
        asked: Asked::default(),
        at: spot(3),
    }
}

pub(crate) fn week(sessions: Vec<Session>, meals: Vec<Meal>) -> Week {
    let first = sessions.iter().map(|session| session.start.date()).chain(meals.iter().map(|meal| meal.at_time.date())).min();
    let from = first.expect("a session or a meal");
    Week {
        name: "Test week".to_owned(),
        from,
        trips: vec![Trip { on: from, shops: None, planned: true, nth: 0, settled: Vec::new(), at: spot(1) }],
        sessions,
        meals,
        left_out: Default::default(),
        wishes: WishTable::default(),
        at: spot(1),
    }
}

pub(crate) fn lot(of: Ware, amount: Quantity, place: crate::foods::Place) -> Lot {
    Lot {
        of,
        whose: None,
        amount,
        pack: None,
        place,
        best_before: None,
        use_by: None,
        opened: None,
        since: None,
        made: None,
        paid: None,
        at: spot(9),
    }
}
