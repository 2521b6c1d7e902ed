//! One week: trips, sessions and meals.

use jiff::civil::{Date, DateTime};

use crate::foods::FoodId;

use super::super::eaters::Diner;
use super::super::together::{Asked, Open, PatternId, WishTable};
use super::super::warning::Spot;
use super::{Appliance, ApplianceId, Ingredient, ShopId, Step};

/// One planned week.
#[derive(Debug, Clone, PartialEq)]
pub struct Week {
    /// Its name, or "Week of 30 Nov 2026" where it has none.
    pub name: String,
    pub from: Date,
    pub trips: Vec<Trip>,
    pub sessions: Vec<Session>,
    pub meals: Vec<Meal>,
    pub left_out: LeftOut,
    /// `[compose]` of the week, as written.
    pub wishes: WishTable,
    pub at: Spot,
}

/// What is known of a week beside what is kept of it: of its past, where only what is open is planned.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LeftOut {
    /// The days of its other sessions: what they left cooked is this week's.
    pub cooked: Vec<Date>,
    /// The day of its last meal, kept or not.
    pub last_meal: Option<Date>,
}

impl Week {
    /// The name of a week that has none.
    pub fn usual_name(from: Date) -> String {
        format!("Week of {}", from.strftime("%-d %b %Y"))
    }
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
    /// "supper", or "19:15": the label without its day.
    pub word: String,
    pub name: Option<String>,
    /// What is to be known or done at this meal, in the household's words.
    pub text: Option<String>,
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
