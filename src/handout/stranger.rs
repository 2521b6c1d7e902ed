//! A household's kitchen and week as a stranger has them: an empty shelf, no shops, nobody's name.

use jiff::civil::Date;

use super::{DayNumber, Wishes};
use crate::kitchen::{Household, Kitchen, Meal, Person, Piece, RecipeId, Source, Spot, Warning, Week, Who};
use crate::plan::Makings;

/// Minutes by which a meal may be away from a mealtime and still bear its name.
const NEAR: i64 = 90;

pub(super) struct Stranger {
    pub kitchen: Kitchen,
    /// Its meals are labelled by day: "day 1 supper".
    pub week: Week,
    /// The household's helper, called so, from start to end.
    pub helper: Option<Person>,
    /// The role that steps ask for in the household's own words, where a helper has it.
    helper_role: Option<String>,
    /// Whoever has a name in the household, and its shops.
    names: Vec<String>,
    /// Meals whose words name one of them, which is not told.
    withheld: Vec<Spot>,
}

impl Stranger {
    pub fn of(kitchen: &Kitchen, week: &Week, first: Date, wishes: &Wishes) -> Stranger {
        let names = names(kitchen, week);
        let second = helper(week);
        let helper_role = second.map(|person| person.role.trim().to_lowercase());
        // Whoever helps the reader is not this household's helper, and what that one may do is told nowhere.
        let helper = second.map(|_| alone("helper"));
        let mut stranger = Stranger { kitchen: nobodys(kitchen), week: week.clone(), helper, helper_role, names, withheld: Vec::new() };
        stranger.week.meals.retain(|meal| !meal.skip);
        stranger.week.trips.iter_mut().for_each(|trip| trip.shops = None);
        for session in &mut stranger.week.sessions {
            session.people = vec![alone("cook")];
            // What is out of order here stands in other kitchens.
            session.without = Vec::new();
        }
        let words = mealtimes(&stranger.kitchen.household, &stranger.week);
        for (index, word) in words.into_iter().enumerate() {
            let mut meal = stranger.week.meals[index].name.take();
            meal = meal.filter(|name| stranger.tells_nobody(name));
            let words = stranger.week.meals[index].text.take();
            let named = words.as_ref().is_some_and(|words| !stranger.tells_nobody(words));
            stranger.withheld.extend(named.then(|| stranger.week.meals[index].at.clone()));
            let told = &mut stranger.week.meals[index];
            told.text = words.filter(|_| !named);
            told.name = meal;
            told.label = format!("{} {word}", DayNumber::since(first, told.at_time.date()).words());
            told.word = word;
            who_eats(told, wishes);
        }
        for recipe in &mut stranger.kitchen.recipes {
            recipe.steps.iter_mut().for_each(|step| step.who = None);
        }
        stranger
    }

    /// As planned for two: steps that ask for the helper's role are the helper's, those that ask for any other the cook's.
    pub fn for_two(&self, kitchen: &Kitchen) -> Option<(Kitchen, Week)> {
        let helper = self.helper.clone()?;
        let mut two = self.kitchen.clone();
        for (recipe, own) in two.recipes.iter_mut().zip(&kitchen.recipes) {
            for (step, own) in recipe.steps.iter_mut().zip(&own.steps) {
                let asked = own.who.as_ref().map(|who| who.trim().to_lowercase());
                step.who = asked.map(|who| if Some(&who) == self.helper_role.as_ref() { "helper" } else { "cook" }.to_owned());
            }
        }
        let mut week = self.week.clone();
        week.sessions.iter_mut().for_each(|session| session.people = vec![alone("cook"), helper.clone()]);
        Some((two, week))
    }

    /// Recipes with a source that is not the household itself.
    pub fn not_their_own(&self, recipes: impl Iterator<Item = RecipeId>) -> Vec<RecipeId> {
        recipes.filter(|id| self.kitchen.recipes[*id].source != Source::default()).collect()
    }

    /// Is nobody of the household, and none of its shops, named in it?
    pub fn tells_nobody(&self, text: &str) -> bool {
        !self.names.iter().any(|name| names_it(text, name))
    }

    /// What would be printed with a name in it: recipes and foods keep their words, and it is told.
    pub fn named_in(&self, makings: &Makings) -> Vec<Warning> {
        let mut made: Vec<RecipeId> = makings.makings.iter().map(|making| making.recipe).collect();
        made.sort();
        made.dedup();
        let of = |id: &RecipeId| -> Vec<(&Spot, String)> {
            let recipe = &self.kitchen.recipes[*id];
            let words = |piece: &Piece| if let Piece::Words(words) = piece { words.clone() } else { String::new() };
            let steps = recipe.steps.iter().map(|step| (&step.at, step.text.iter().map(words).collect::<String>()));
            let lines = recipe.ingredients.iter().map(|line| (&line.at, line.text.clone()));
            let boxed = recipe.boxed.iter().map(|boxed| (&recipe.at, boxed.name.clone()));
            let table = recipe.at_table.iter().chain(&recipe.notes).map(|text| (&recipe.at, text.clone()));
            std::iter::once((&recipe.at, recipe.name.clone())).chain(lines).chain(steps).chain(boxed).chain(table).collect()
        };
        let texts = made.iter().flat_map(of);
        let warn = |(at, text): (&Spot, String)| {
            let name = self.names.iter().find(|name| names_it(&text, name))?;
            let text = format!("\"{name}\" stands in the handout, because a recipe says it. Write the recipe without the name.");
            Some(Warning::Note { at: Some(at.clone()), text })
        };
        let withheld = self.withheld.iter().map(|at| {
            let text =
                "the text of this meal is not in the handout, because it names somebody of the household. Write it without the name.";
            Warning::Note { at: Some(at.clone()), text: text.to_owned() }
        });
        texts.filter_map(warn).chain(withheld).collect()
    }
}

fn alone(role: &str) -> Person {
    Person { name: role.to_owned(), role: role.to_owned(), from: None, until: None, may: None }
}

/// The first person of any session who is not its cook.
fn helper(week: &Week) -> Option<&Person> {
    week.sessions.iter().find_map(|session| {
        let cook = session.people.iter().position(|person| person.has_role("cook")).unwrap_or(0);
        session.people.iter().enumerate().find(|(place, _)| *place != cook).map(|(_, person)| person)
    })
}

/// The kitchen without shelf, shops, staples and names; a source that is the household itself is none.
fn nobodys(kitchen: &Kitchen) -> Kitchen {
    let mut theirs = kitchen.clone();
    let own: Vec<String> =
        std::iter::once(&kitchen.household.name).chain(kitchen.household.named.iter().map(|eater| &eater.name)).cloned().collect();
    theirs.household.name = String::new();
    theirs.household.named = Vec::new();
    theirs.household.avoid = Vec::new();
    theirs.household.allergic = Vec::new();
    theirs.household.budget = None;
    (theirs.shops, theirs.packs, theirs.lots, theirs.staples) = Default::default();
    for recipe in &mut theirs.recipes {
        let is_own = |who: &Option<String>| who.as_ref().is_none_or(|who| own.iter().any(|name| name.eq_ignore_ascii_case(who.trim())));
        if is_own(&recipe.source.author)
            && recipe.source.title.as_ref().is_none_or(|title| own.contains(title))
            && recipe.source.address.is_none()
        {
            recipe.source = Source::default();
        }
    }
    theirs
}

/// A number in place of the eaters where one is wished; else everybody as they are, without their names.
fn who_eats(meal: &mut Meal, wishes: &Wishes) {
    if let Some(eaters) = &wishes.eaters {
        meal.eaters = eaters.to_f64();
        meal.diners = Vec::new();
        return;
    }
    let differs = |index: &usize| {
        let diner = &meal.diners[*index];
        diner.instead.is_some() || !diner.without.is_empty() || !diner.swapped.is_empty()
    };
    let alone = (0..meal.diners.len()).filter(differs).count() == 1;
    for (index, diner) in meal.diners.iter_mut().enumerate() {
        diner.name = if alone { "one eater".to_owned() } else { format!("eater {}", index + 1) };
        // Nobody's own list of the household is asked any more.
        diner.who = Who::Guest;
        (diner.allergic, diner.avoid) = Default::default();
    }
}

/// "supper", of each meal: the mealtime it is, else the nearest that no other meal of the day has, else its time.
fn mealtimes(household: &Household, week: &Week) -> Vec<String> {
    let own = |meal: &Meal| Some(&meal.word).filter(|word| household.mealtimes.contains_key(*word)).cloned();
    let taken = |meal: &Meal, name: &str| {
        week.meals.iter().any(|other| other.at_time.date() == meal.at_time.date() && own(other).as_deref() == Some(name))
    };
    let near = |meal: &Meal| {
        let away = |time: jiff::civil::Time| time.duration_until(meal.at_time.time()).as_mins().abs();
        let times = household.mealtimes.iter().map(|(name, time)| (away(*time), name));
        let near = times.filter(|(away, name)| *away <= NEAR && !taken(meal, name)).min();
        let alone = week.meals.iter().filter(|other| other.at_time.date() == meal.at_time.date() && own(other).is_none()).count() == 1;
        near.filter(|_| alone).map(|(_, name)| name.clone())
    };
    week.meals.iter().map(|meal| own(meal).or_else(|| near(meal)).unwrap_or_else(|| meal.word.clone())).collect()
}

/// Names of the household, its eaters, guests, cooks and shops; "cook" and "helper" are nobody's.
fn names(kitchen: &Kitchen, week: &Week) -> Vec<String> {
    let household = std::iter::once(&kitchen.household.name);
    let eaters = kitchen.household.named.iter().map(|eater| &eater.name);
    let guests = week.meals.iter().flat_map(|meal| &meal.diners).filter(|diner| diner.who == Who::Guest).map(|diner| &diner.name);
    let people = week.sessions.iter().flat_map(|session| &session.people).map(|person| &person.name);
    let shops = kitchen.shops.iter().map(|shop| &shop.name);
    let mut names: Vec<String> = household.chain(eaters).chain(guests).chain(people).chain(shops).cloned().collect();
    names.retain(|name| !["", "cook", "helper", "guest", "guests", "everybody"].contains(&name.trim().to_lowercase().as_str()));
    names.sort();
    names.dedup();
    names
}

/// As whole words, in the letter case in which the household writes it.
fn names_it(text: &str, name: &str) -> bool {
    let is_letter = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
    text.match_indices(name)
        .any(|(at, found)| !is_letter(text[..at].chars().next_back()) && !is_letter(text[at + found.len()..].chars().next()))
}
