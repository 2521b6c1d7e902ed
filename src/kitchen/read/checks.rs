//! What only shows when all files are read: circles, names taken twice, recipes asked for what they cannot give, roles nobody has.

use std::collections::{BTreeMap, BTreeSet};

use super::circles::circles;
use super::hint;
use super::source::Findings;
use crate::kitchen::{
    After, Appliance, ApplianceId, ApplianceKind, HEAT, Ingredient, Kitchen, Made, Meal, Plate, Recipe, RecipeId, Spot, Wanted, Ware, Week,
    Who,
};
use crate::measure::{Dimension, Quantity};

/// An oven that bakes at 150 and at 230 °C at once, because nothing says that its loads share their degrees.
fn check_ovens(kitchen: &Kitchen, found: &Findings) {
    for (index, oven) in kitchen.appliances.iter().enumerate() {
        if oven.heat || oven.kind != Some(ApplianceKind::Oven) {
            continue;
        }
        let mut steps = kitchen.recipes.iter().flat_map(|recipe| &recipe.steps);
        let asked = steps.any(|step| step.temperature.is_some() && step.on.contains(&ApplianceId(index)));
        if asked {
            let text = match oven.room {
                1 => format!("recipes give \"{}\" degrees, and the guide does not say when to set them. Add heat = true.", oven.name),
                _ => format!(
                    "recipes give \"{}\" degrees, and loads of different degrees may stand in it at once. Add heat = true: then they share \
                     one temperature.",
                    oven.name
                ),
            };
            found.note(oven.at.clone(), text);
        }
    }
}

/// A portion that lies there for somebody whom the household does not have: no meal will ever take it.
fn check_whose(kitchen: &Kitchen, found: &Findings) {
    let known = || kitchen.household.named.iter().map(|eater| eater.name.as_str());
    let alone = kitchen.lots.iter().filter_map(|lot| Some((lot, lot.whose.as_ref()?)));
    for (lot, whose) in alone.filter(|(_, whose)| !known().any(|name| name == whose.eater)) {
        let meant = hint::nearest(&whose.eater, known()).map_or_else(String::new, |name| format!(" Did you mean \"{name}\"?"));
        let text = format!(
            "\"{}\" is none of the household's eaters, so that no meal takes this portion.{meant} Where everybody may have it, take eater \
             and without out.",
            whose.eater
        );
        found.note(lot.at.clone(), text);
    }
}

/// Checks everything that one file alone cannot show. `sound` says which recipes could be read; the others are left out.
pub(super) fn check_all(kitchen: &Kitchen, sound: &[bool], weeks: &[(String, Week)], all_weeks: bool, found: &Findings) {
    check_recipe_names(&kitchen.recipes, found);
    check_recipe_circles(&kitchen.recipes, found);
    check_ovens(kitchen, found);
    check_whose(kitchen, found);
    for (recipe, _) in kitchen.recipes.iter().zip(sound).filter(|(_, sound)| **sound) {
        check_amounts(&recipe.ingredients, &kitchen.recipes, sound, found);
        check_fresh_in_session(recipe, &kitchen.recipes, found);
        if let Some(boxed) = &recipe.boxed
            && !gives(recipe, &boxed.holds.dimension())
        {
            let cause = format!(
                "the box holds {}, but \"{}\" makes {}",
                words(&boxed.holds.dimension()),
                recipe.name,
                words(&recipe.makes.dimension())
            );
            found.mistake(boxed.holds_at.clone(), cause, remedy(recipe, &boxed.holds.dimension()));
        }
    }
    for meal in weeks.iter().flat_map(|(_, week)| &week.meals) {
        check_amounts(&meal.each, &kitchen.recipes, sound, found);
        check_amounts(&meal.shared, &kitchen.recipes, sound, found);
        for diner in &meal.diners {
            check_amounts(diner.instead.as_deref().unwrap_or_default(), &kitchen.recipes, sound, found);
            for swapped in &diner.swapped {
                check_amounts(std::slice::from_ref(&swapped.line), &kitchen.recipes, sound, found);
            }
        }
        // Who is to get an open meal without something is served without it, whatever the meal becomes.
        if found.count() == 0 && meal.open.is_none() {
            check_without(meal, kitchen, found);
        }
    }
    for plate in kitchen.together.patterns.iter().flat_map(|pattern| pattern.each.iter().chain(&pattern.shared)) {
        if let Plate::As(line) = plate {
            check_amounts(std::slice::from_ref(line), &kitchen.recipes, sound, found);
        }
    }
    if all_weeks {
        check_people(&kitchen.recipes, weeks, found);
        check_heat(&kitchen.appliances, &kitchen.recipes, weeks, found);
    }
    check_same_from(weeks, found);
}

/// What is left away at a meal must be served there, itself or inside a dish: a slip of the hand would guard nobody.
fn check_without(meal: &Meal, kitchen: &Kitchen, found: &Findings) {
    for diner in &meal.diners {
        let standing = match diner.who {
            Who::Eater(eater) => kitchen.household.named[eater].swap.as_slice(),
            Who::Guest | Who::Anybody => &[],
        };
        let own = diner.without.iter().filter(|ware| standing.iter().all(|swap| swap.from != **ware));
        let each = diner.instead.as_ref().unwrap_or(&meal.each);
        for ware in own {
            let has = |line: &Ingredient| {
                line.ware() == *ware || matches!(line.ware(), Ware::Recipe(dish) if holds(kitchen, dish, *ware, &mut BTreeSet::new()))
            };
            if !each.iter().chain(&meal.shared).any(has) {
                let name = match *ware {
                    Ware::Food(food) => &kitchen.foods[food].name,
                    Ware::Recipe(recipe) => &kitchen.recipes[recipe].name,
                };
                let cause = format!("{} is to get this meal without {name}, which is not served at it", diner.name);
                found.mistake(meal.at.clone(), cause, "Name what stands in each or shared, or in one of their dishes.");
            }
        }
    }
}

/// Does it go into the dish, at any depth? `seen` are dishes that were asked before.
fn holds(kitchen: &Kitchen, dish: RecipeId, ware: Ware, seen: &mut BTreeSet<RecipeId>) -> bool {
    let new = seen.insert(dish);
    let mut holds = |line: &Ingredient| match line.ware() {
        one if one == ware => true,
        Ware::Recipe(part) => holds(kitchen, part, ware, seen),
        Ware::Food(_) => false,
    };
    new && kitchen.recipes[dish].ingredients.iter().any(&mut holds)
}

fn check_recipe_names(recipes: &[Recipe], found: &Findings) {
    let mut first: BTreeMap<String, &Recipe> = BTreeMap::new();
    for recipe in recipes.iter().filter(|recipe| !recipe.name.is_empty()) {
        if let Some(other) = first.get(&recipe.name.to_lowercase()) {
            let cause = format!("two recipes are named \"{}\": this one and {}", recipe.name, other.at.file);
            found.mistake(recipe.at.clone(), cause, "Give each a name of its own.");
        } else {
            first.insert(recipe.name.to_lowercase(), recipe);
        }
    }
}

/// The recipes that must be made before this one: its components, and those a step waits for.
fn needs(recipe: &Recipe) -> Vec<usize> {
    let components = recipe.ingredients.iter().filter_map(|line| match &line.wanted {
        Wanted::Recipe { recipe, .. } => Some(recipe.0),
        Wanted::Food { .. } => None,
    });
    let awaited = recipe.steps.iter().flat_map(|step| step.after.iter().flatten()).filter_map(|after| match after {
        After::Recipe(id) => Some(id.0),
        After::Step(_) => None,
    });
    components.chain(awaited).collect()
}

fn check_recipe_circles(recipes: &[Recipe], found: &Findings) {
    let edges: Vec<Vec<usize>> = recipes.iter().map(needs).collect();
    for circle in circles(&edges) {
        let mut ids: Vec<&str> = circle.iter().map(|index| recipes[*index].id.as_str()).collect();
        ids.push(ids[0]);
        let cause = format!("recipes need each other in a circle: {}", ids.join(" needs "));
        let first = &recipes[circle[0]];
        let next = circle.get(1).unwrap_or(&circle[0]);
        let line = first.ingredients.iter().find(|line| matches!(&line.wanted, Wanted::Recipe { recipe, .. } if recipe.0 == *next));
        let at = line.map_or(&first.at, |line| &line.at);
        found.mistake(at.clone(), cause, "Take one of them out of the other's ingredients or after list.");
    }
}

fn check_amounts(lines: &[Ingredient], recipes: &[Recipe], sound: &[bool], found: &Findings) {
    for line in lines {
        if let Wanted::Recipe { recipe, amount, .. } = &line.wanted {
            check_amount(recipe.0, amount, &line.at, recipes, sound, found);
        }
    }
}

fn check_amount(recipe: usize, amount: &Quantity, at: &Spot, recipes: &[Recipe], sound: &[bool], found: &Findings) {
    let recipe = match recipes.get(recipe) {
        Some(known) if sound[recipe] => known,
        _ => return,
    };
    if !gives(recipe, &amount.dimension()) {
        let (asked, made) = (words(&amount.dimension()), words(&recipe.makes.dimension()));
        found.mistake(
            at.clone(),
            format!("this asks for {asked} of \"{}\", which makes {made}", recipe.name),
            remedy(recipe, &amount.dimension()),
        );
    }
}

/// Can the recipe be asked for in this dimension? Portions and grams stand for each other where one portion's weight is known.
pub(super) fn gives(recipe: &Recipe, asked: &Dimension) -> bool {
    let by_weight = |dimension: &Dimension| matches!(dimension, Dimension::Mass | Dimension::Portion);
    let makes = recipe.makes.dimension();
    makes == *asked || (recipe.portion.is_some() && by_weight(&makes) && by_weight(asked))
}

fn words(dimension: &Dimension) -> String {
    match dimension {
        Dimension::Mass => "grams".to_owned(),
        Dimension::Volume => "millilitres".to_owned(),
        Dimension::Count => "pieces".to_owned(),
        Dimension::Portion => "portions".to_owned(),
        Dimension::Word(word) => format!("{word}s"),
    }
}

fn remedy(recipe: &Recipe, asked: &Dimension) -> String {
    let (made, file) = (words(&recipe.makes.dimension()), &recipe.at.file);
    if recipe.lacks_portion_for(asked) {
        return format!("Ask in {made}, or add portion = \"200 g\", the weight of one portion, to {file}.");
    }
    format!("Ask in {made}, or change makes in {file}.")
}

fn check_fresh_in_session(recipe: &Recipe, recipes: &[Recipe], found: &Findings) {
    if recipe.made == Made::AtTheMeal {
        return;
    }
    for line in &recipe.ingredients {
        let Wanted::Recipe { recipe: id, .. } = &line.wanted else { continue };
        if let Some(fresh) = recipes.get(id.0).filter(|component| component.made == Made::AtTheMeal) {
            let cause =
                format!("\"{}\" is made at the meal, so it cannot go into \"{}\", which is made in a session", fresh.name, recipe.name);
            found.mistake(
                line.at.clone(),
                cause,
                format!("Let one be made like the other: set made in {} or {}.", fresh.at.file, recipe.at.file),
            );
        }
    }
}

/// Roles and skills that steps ask for, against the people of all sessions.
fn check_people(recipes: &[Recipe], weeks: &[(String, Week)], found: &Findings) {
    let people: Vec<_> = weeks.iter().flat_map(|(_, week)| &week.sessions).flat_map(|session| &session.people).collect();
    if people.is_empty() {
        return;
    }
    for step in recipes.iter().flat_map(|recipe| &recipe.steps) {
        if let Some(who) = step.who.as_deref().filter(|who| !people.iter().any(|person| person.has_role(who))) {
            let roles: BTreeSet<&str> = people.iter().map(|person| person.role.as_str()).collect();
            let remedy = hint::did_you_mean(who, roles.iter().copied(), "Add such a person to a session.");
            found.mistake(step.who_at.clone(), format!("nobody in any session has the role \"{who}\""), remedy);
        }
        if let Some(skill) = step.skill.as_deref().filter(|skill| !people.iter().any(|person| person.may_do(skill))) {
            found.note(step.skill_at.clone(), format!("nobody in any session may do \"{skill}\"."));
        }
    }
}

/// Somebody must be allowed near the heat: told once a recipe.
fn check_heat(appliances: &[Appliance], recipes: &[Recipe], weeks: &[(String, Week)], found: &Findings) {
    let mut people = weeks.iter().flat_map(|(_, week)| &week.sessions).flat_map(|session| &session.people).peekable();
    if people.peek().is_none() || people.any(|person| person.may_do(HEAT)) {
        return;
    }
    for recipe in recipes.iter().filter(|recipe| recipe.made == Made::InASession) {
        if let Some(hot) = recipe.steps.iter().find(|step| step.is_on_heat(appliances)) {
            found.note(hot.at.clone(), format!("nobody in any session may do \"{HEAT}\"."));
        }
    }
}

fn check_same_from(weeks: &[(String, Week)], found: &Findings) {
    let mut first: BTreeMap<jiff::civil::Date, &str> = BTreeMap::new();
    for (file, week) in weeks {
        if let Some(other) = first.get(&week.from) {
            let cause = format!("this week begins on {}, as {other} does: both would be printed and booked as one", week.from);
            found.mistake(week.at.clone(), cause, "Give it another from, or write both into one file.");
        } else {
            first.insert(week.from, file);
        }
    }
}
