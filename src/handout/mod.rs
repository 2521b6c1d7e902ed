//! A week for people with other kitchens: what they buy, make ready, cook and eat, told by the day and by a clock that starts at 0:00.
//!
//! ```text
//! Kitchen, Week ── stranger: nothing of this household ─> plan ─┬─ buying: the list of an empty shelf
//!                                                               ├─ prep: for one, and for two where there is a helper
//!                                                               └─ days: each meal by its parts
//! ```
//!
//! It knows nothing of the household's shelf, shops, prices, dates, nor of any name in it. What is booked and what day it is change nothing.
//! Knows no file, no terminal and no page.

mod buying;
mod days;
mod ready;
mod sessions;
mod sources;
mod stranger;

use jiff::civil::Date;

use crate::foods::FoodId;
use crate::kitchen::{Kitchen, Mistake, RecipeId, Warning, Week};
use crate::measure::Number;
use crate::plan::{Contains, plan, recipe_contains};
use crate::prep::{Care, Effort, RecipePage, cautions, recipe_pages};
use crate::purchase::{Of, PortionNote, per_one};

pub use buying::{Buying, BuyingLine, BuyingSection};
pub use days::{Component, Goes, HandoutDay, HandoutMeal, Slot};
pub use ready::{Needed, Ready};
pub use sessions::{Ahead, HandoutSession, Spared};
pub use sources::Origin;

use stranger::Stranger;

/// What is wished of a handout.
#[derive(Debug, Clone, Default)]
pub struct Wishes {
    /// How many eat every meal, in portions, in place of who eats it at home.
    pub eaters: Option<Number>,
    /// Print the methods of recipes that are not the household's own.
    pub methods: bool,
    pub effort: Effort,
}

/// A day of the week as strangers count it: 1 is the first that has a meal, 0 the day before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct DayNumber(pub i64);

impl DayNumber {
    /// Of a day, where the first that has a meal is known.
    pub fn since(first: Date, on: Date) -> DayNumber {
        let days = on.duration_since(first).as_hours() / 24;
        DayNumber(1 + days)
    }

    /// "day 3", "the day before day 1", "2 days before day 1".
    pub fn words(self) -> String {
        match self.0 {
            0 => "the day before day 1".to_owned(),
            n if n < 0 => format!("{} days before day 1", 1 - n),
            n => format!("day {n}"),
        }
    }
}

/// The whole handout as typed data.
#[derive(Debug, Clone)]
pub struct Handout {
    /// As a stranger has it: its names and units are those that pages are printed with.
    pub kitchen: Kitchen,
    /// The week's name; `None` where it names somebody of the household.
    pub week: Option<String>,
    pub from: Date,
    /// The first day that has a meal.
    pub first: Date,
    /// For how many a meal is reckoned, in portions, and the meals that are reckoned so; what most are reckoned for stands first.
    pub eaters: Vec<(Number, Vec<Slot>)>,
    /// Of an empty shelf: first what is bought before cooking begins.
    pub buying: Vec<Buying>,
    /// What is bought every week beside it.
    pub weekly: Vec<FoodId>,
    /// What is taken to be at home.
    pub at_home: Vec<FoodId>,
    pub ready: Ready,
    pub sessions: Vec<HandoutSession>,
    pub components: Vec<Component>,
    pub days: Vec<HandoutDay>,
    pub recipes: Vec<(RecipePage, (Of, PortionNote))>,
    /// Recipes whose method is not printed.
    pub withheld: Vec<RecipeId>,
    pub cautions: Vec<Care>,
    /// Of every dish, by name.
    pub contains: Vec<(RecipeId, Contains)>,
    /// Where the figures on foods come from.
    pub origins: Vec<Origin>,
    pub warnings: Vec<Warning>,
}

/// Reckons a week for strangers.
///
/// # Errors
/// Meals that no session can serve where nothing is cooked yet, and a week without meals.
pub fn handout(kitchen: &Kitchen, week: &Week, wishes: &Wishes) -> Result<Handout, Vec<Mistake>> {
    let Some(first) = week.meals.iter().filter(|meal| !meal.skip).map(|meal| meal.at_time.date()).min() else {
        let (cause, remedy) = ("the week has no meal".to_owned(), "Add [[meal]]: a handout tells what is eaten.".to_owned());
        return Err(vec![Mistake { at: week.at.clone(), cause, remedy }]);
    };
    let stranger = Stranger::of(kitchen, week, first, wishes);
    let Stranger { kitchen: theirs, week: their_week, .. } = &stranger;
    let makings = plan(theirs, their_week)?;
    let bought = buying::buying(theirs, their_week, &makings, first);
    let mut sessions = sessions::sessions(kitchen, &stranger, &makings, &bought.demand, first, wishes.effort);
    let mut days = days::days(theirs, their_week, &makings, first);
    let mut recipes: Vec<RecipePage> = recipe_pages(theirs, their_week, &makings);
    recipes.iter_mut().for_each(|page| sessions::name_sizes(page, their_week, first));
    let withheld: Vec<RecipeId> = if wishes.methods { Vec::new() } else { stranger.not_their_own(recipes.iter().map(|page| page.recipe)) };
    withhold(&withheld, &mut sessions, &mut days, &mut recipes);
    let all: Vec<usize> = (0..makings.makings.len()).collect();
    let mut contains: Vec<(RecipeId, Contains)> = recipes.iter().map(|page| (page.recipe, recipe_contains(theirs, page.recipe))).collect();
    contains.sort_by_key(|(id, _)| theirs.recipes[*id].name.clone());
    Ok(Handout {
        week: Some(&week.name).filter(|name| stranger.tells_nobody(name) && **name != Week::usual_name(week.from)).cloned(),
        from: week.from,
        first,
        eaters: days::eaters(their_week, first),
        weekly: kitchen.staples.iter().map(|staple| staple.food).collect(),
        at_home: kitchen.rules.always.iter().chain(&kitchen.rules.ask).copied().collect(),
        ready: ready::ready(theirs, &makings, &sessions),
        components: days::components(&theirs.recipes, their_week, &makings, first),
        cautions: cautions(theirs, &makings, &all),
        origins: sources::origins(theirs, their_week, &makings),
        recipes: recipes
            .into_iter()
            .map(|page| {
                let per = per_one(theirs, page.recipe);
                (page, per)
            })
            .collect(),
        warnings: [bought.warnings, stranger.named_in(&makings)].concat(),
        buying: bought.trips,
        contains,
        sessions,
        days,
        withheld,
        kitchen: stranger.kitchen,
    })
}

/// The words of methods that are not the household's own give way to their numbers.
fn withhold(withheld: &[RecipeId], sessions: &mut [HandoutSession], days: &mut [HandoutDay], recipes: &mut [RecipePage]) {
    sessions.iter_mut().for_each(|session| session.withhold(withheld));
    days.iter_mut().flat_map(|day| &mut day.meals).for_each(|meal| meal.withhold(withheld));
    recipes.iter_mut().filter(|page| withheld.contains(&page.recipe)).for_each(|page| page.steps.clear());
}

/// In place of a step that is done ahead.
const AHEAD_OF_METHOD: &str = "What its method does ahead";

/// "Step 3 of its method".
fn step_of_method(step: usize) -> String {
    format!("Step {} of its method", step + 1)
}
