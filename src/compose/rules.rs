//! The hard rules, each once. What a way breaks by itself, what it breaks in its meal, what meals break together, and what shows only once
//! the week is reckoned.

use std::collections::BTreeSet;

use jiff::civil::Date;

use super::table::Table;
use super::ways::{Gap, recipes};
use super::wish::{Broken, Nutrient, Wish, add};
use crate::kitchen::{Kitchen, Made, Meal, RecipeId, Serve, Ware, Who};
use crate::plan::{MadeAt, NotFor, Serving, goes_into, servings, unfit};
use crate::prep::Effort;
use crate::purchase::{ListLine, MealNote, TripList, meals};
use crate::reckon::{Priced, Tried};

/// What a way breaks wherever it stands: style, what stands beside what, and what must not appear.
pub fn of_way(table: &Table, way: u32) -> Vec<Broken> {
    let (kitchen, wishes) = (table.kitchen(), &table.wishes);
    let chosen = &table.ways.all[way as usize];
    let mut broken = Vec::new();
    if is_of_several_styles(kitchen, &chosen.wares, table.ways.forms[chosen.form].style.as_ref()) {
        add(&mut broken, Wish::Style, 0.0);
    }
    for pair in &wishes.beside {
        let is = |word: &str| chosen.wares.iter().any(|ware| is_words(kitchen, *ware).iter().any(|own| own == word));
        if is(&pair.is) && !is(&pair.wants) {
            add(&mut broken, Wish::Beside(pair.is.clone()), 0.0);
        }
    }
    for ware in &wishes.unwanted {
        if holds(kitchen, &chosen.wares, *ware) {
            add(&mut broken, Wish::Not(*ware), 0.0);
        }
    }
    broken
}

/// Dishes of one meal share a style or have none; `own` is that of its pattern.
pub fn is_of_several_styles(kitchen: &Kitchen, wares: &[Ware], own: Option<&String>) -> bool {
    let of_dishes = recipes(wares).filter_map(|recipe| kitchen.recipes[recipe].style.as_ref());
    own.into_iter().chain(of_dishes).collect::<BTreeSet<_>>().len() > 1
}

/// What a way breaks at the meal it is to fill.
pub fn of_meal(table: &Table, gap: &Gap, way: u32) -> Vec<Broken> {
    let kitchen = table.kitchen();
    let mut broken = Vec::new();
    let chosen = &table.ways.all[way as usize];
    let meal = &table.trials.whole.meals[gap.meal];
    for ware in &chosen.wares {
        for one in table.unfit(gap.meal, *ware) {
            add(&mut broken, Wish::of(one), 0.0);
        }
    }
    let form = &table.ways.forms[chosen.form];
    let made_now = |recipe: &RecipeId| {
        kitchen.recipes[*recipe].made == Made::AtTheMeal && !table.trials.is_on_the_shelf(Ware::Recipe(*recipe), meal.at_time.date())
    };
    let filled = if form.own { &chosen.filled } else { &chosen.wares };
    if form.minutes.is_none() && recipes(filled).any(|recipe| made_now(&recipe)) {
        add(&mut broken, Wish::Minutes(form.pattern), 1.0);
    }
    if recipes(&chosen.wares).any(|recipe| !table.is_within_reach(gap.meal, recipe)) {
        add(&mut broken, Wish::Reach(gap.meal), 0.0);
    }
    let cold = |recipe: RecipeId| kitchen.recipes[recipe].serve == Some(Serve::Cold);
    if meal.asked.packed && !recipes(&chosen.wares).all(cold) {
        add(&mut broken, Wish::Packed(gap.meal), 0.0);
    }
    if super::ways::mealtime(kitchen, meal) == "supper" {
        for eater in sure_eaters(kitchen, meal) {
            let words = &kitchen.household.named[eater].sure;
            let filled = table.ways.meal(kitchen, meal, way);
            let is_sure = served_to(&filled, eater).any(|(ware, but)| words.iter().any(|word| is_or_holds(kitchen, ware, but, word)));
            if !is_sure {
                add(&mut broken, Wish::Sure(eater), 0.0);
            }
        }
    }
    for (on, other) in &table.eaten_elsewhere {
        let apart = days_between(*on, meal.at_time.date());
        if table.wishes.not_again.is_some_and(|days| apart < days) && table.is_again(way, other) {
            add(&mut broken, Wish::NotAgain, apart as f64);
        }
    }
    broken
}

/// Who of those at the meal wants to be sure of something.
fn sure_eaters(kitchen: &Kitchen, meal: &Meal) -> Vec<usize> {
    let at_table = |eater: &usize| {
        let named = meal.diners.is_empty() || meal.diners.iter().any(|diner| diner.who == Who::Eater(*eater));
        named && !kitchen.household.named[*eater].sure.is_empty()
    };
    (0..kitchen.household.named.len()).filter(at_table).collect()
}

/// What one of the eaters is served of a meal, each with what is left out of it.
fn served_to(meal: &Meal, eater: usize) -> impl Iterator<Item = (Ware, &[Ware])> {
    let place = meal.diners.iter().position(|diner| diner.who == Who::Eater(eater));
    let without = place.map_or(&[][..], |place| meal.diners[place].without.as_slice());
    let theirs = move |serving: &Serving| place.is_none_or(|place| serving.to.iter().any(|(to, _)| *to == place));
    servings(meal).into_iter().filter(theirs).map(move |serving| (serving.line.ware(), without))
}

/// The words of `is`.
fn is_words(kitchen: &Kitchen, ware: Ware) -> &[String] {
    match ware {
        Ware::Recipe(recipe) => &kitchen.recipes[recipe].is,
        Ware::Food(food) => kitchen.together.food(food).map_or(&[], |food| food.is.as_slice()),
    }
}

fn fits_words(kitchen: &Kitchen, ware: Ware) -> &[String] {
    match ware {
        Ware::Recipe(recipe) => &kitchen.recipes[recipe].fits,
        Ware::Food(food) => kitchen.together.food(food).map_or(&[], |food| food.fits.as_slice()),
    }
}

/// Is it what the word names ("rice" names brown rice), or does it hold that, at any depth? What is left out of it does not count.
fn is_or_holds(kitchen: &Kitchen, ware: Ware, but: &[Ware], word: &str) -> bool {
    if but.contains(&ware) {
        return false;
    }
    let named = |name: &str| {
        let name = name.to_lowercase();
        name == word || name.split(|c: char| !c.is_alphanumeric()).any(|part| part == word) || name.ends_with(&format!(" {word}"))
    };
    let said = is_words(kitchen, ware).iter().chain(fits_words(kitchen, ware)).any(|own| own == word);
    said || match ware {
        Ware::Food(food) => named(&kitchen.foods[food].name) || kitchen.foods.find(word) == Some(food),
        Ware::Recipe(id) => {
            let recipe = &kitchen.recipes[id];
            named(&recipe.id) || named(&recipe.name) || recipe.ingredients.iter().any(|line| is_or_holds(kitchen, line.ware(), but, word))
        }
    }
}

/// Is it among the wares, or in one of them at any depth?
pub fn holds(kitchen: &Kitchen, wares: &[Ware], ware: Ware) -> bool {
    wares.contains(&ware) || recipes(wares).any(|recipe| goes_into(&kitchen.recipes, recipe, ware))
}

pub fn days_between(one: Date, other: Date) -> i64 {
    one.until(other).map_or(i64::MAX, |span| i64::from(span.get_days()).abs())
}

/// What the meals of the week break together. `chosen` has a way, or none yet, for each gap.
pub fn of_meals(table: &Table, chosen: &[Option<u32>]) -> Vec<Broken> {
    let mut broken = Vec::new();
    let plates = table.plates(chosen);
    for (index, pattern) in table.kitchen().together.patterns.iter().enumerate() {
        let Some(most) = pattern.at_most else { continue };
        let id = crate::kitchen::PatternId(index);
        let times = plates.iter().filter(|plate| plate.pattern == Some(id)).count();
        if times > most as usize {
            add(&mut broken, Wish::AtMost(id), times as f64);
        }
    }
    same_again(table, chosen, &mut broken);
    one_at_most(table, &plates, &mut broken);
    for ware in &table.wishes.wanted {
        let all_filled = chosen.iter().all(Option::is_some);
        if all_filled && !plates.iter().any(|plate| holds(table.kitchen(), plate.wares, *ware)) {
            add(&mut broken, Wish::Use(*ware), 0.0);
        }
    }
    broken
}

fn same_again(table: &Table, chosen: &[Option<u32>], broken: &mut Vec<Broken>) {
    let days = table.wishes.same_again_after;
    for (place, (gap, way)) in table.gaps.iter().zip(chosen).enumerate() {
        let Some(way) = *way else { continue };
        let on = table.day(gap.meal);
        let written = table.written.iter().map(|(meal, eaten)| (table.day(*meal), table.is_like(way, eaten)));
        let earlier = table.gaps.iter().zip(chosen).take(place);
        let earlier = earlier.filter_map(|(gap, other)| other.map(|other| (table.day(gap.meal), table.are_alike(way, other))));
        for (other, alike) in written.chain(earlier) {
            let apart = days_between(on, other);
            if alike && apart < days {
                add(broken, Wish::SameAgainAfter, apart as f64);
            }
        }
    }
}

/// `one_at_most` of every other place.
const ELSE: &str = "else";

fn one_at_most(table: &Table, plates: &[super::table::PlateOf<'_>], broken: &mut Vec<Broken>) {
    let wishes = &table.wishes;
    let named: BTreeSet<RecipeId> = plates.iter().flat_map(|plate| recipes(plate.wares)).collect();
    for recipe in named {
        let here: Vec<_> = plates.iter().filter(|plate| plate.wares.contains(&Ware::Recipe(recipe))).collect();
        if wishes.one_at_most.by_place.is_empty() {
            if here.len() > wishes.times("") as usize {
                add(broken, Wish::OneAtMost(None), here.len() as f64);
            }
            continue;
        }
        // Where no place is known, the recipe counts in every place that it fits.
        let fits = &table.kitchen().recipes[recipe].fits;
        let mut places: BTreeSet<&str> = fits.iter().map(String::as_str).collect();
        places.extend(here.iter().filter_map(|plate| plate.place_of(table, recipe)));
        // What fits nowhere stands where somebody wrote it.
        places.extend(fits.is_empty().then_some(ELSE));
        for place in places {
            let stands = |plate: &&&super::table::PlateOf<'_>| match plate.place_of(table, recipe) {
                Some(taken) => taken == place,
                None => fits.iter().any(|own| own == place) || (fits.is_empty() && place == ELSE),
            };
            let times = here.iter().filter(stands).count();
            if times > wishes.times(place) as usize {
                let known = wishes.one_at_most.by_place.contains_key(place);
                add(broken, Wish::OneAtMost(Some(if known { place } else { ELSE }.to_owned())), times as f64);
            }
        }
    }
}

/// What shows once the week is reckoned.
pub fn of_week(table: &Table, chosen: &[Option<u32>], tried: &Tried, priced: &Priced, broken: &mut Vec<Broken>) {
    let wishes = &table.wishes;
    if wishes.spend_at_most.is_some_and(|most| priced.cost > most) {
        add(broken, Wish::Spend, priced.cost.0 as f64);
    }
    let cooked = cooked(tried);
    if cooked.len() > wishes.recipes_at_most as usize {
        add(broken, Wish::RecipesAtMost, cooked.len() as f64);
    }
    if tried.needs.flags.iter().any(|flag| !table.excused.contains(flag)) {
        add(broken, Wish::Flag, 0.0);
    }
    for recipe in table.trials.begun_too_late(tried).into_iter().filter(|recipe| !table.written_late.contains(recipe)) {
        add(broken, Wish::Ahead(recipe), 0.0);
    }
    for short in &tried.makings.short {
        let short_of = table.gaps.iter().find(|gap| table.trials.whole.meals[gap.meal].at_time == short.at);
        if let Some(gap) = short_of {
            add(broken, Wish::Reach(gap.meal), 0.0);
        }
    }
    for (gap, way) in table.gaps.iter().zip(chosen) {
        let Some(way) = way else { continue };
        let form = &table.ways.forms[table.ways.all[*way as usize].form];
        let at_table = table.trials.at_the_meal(tried, gap.meal);
        // Without minutes nothing is made at the meal, but what somebody wrote into it.
        let most = form.minutes.map(|minutes| minutes.0).or((!form.own).then_some(0));
        if most.is_some_and(|most| at_table.hands > most) {
            add(broken, Wish::Minutes(form.pattern), at_table.hands as f64);
        }
        let asked = table.trials.whole.meals[gap.meal].asked.ready_in;
        if asked.is_some_and(|most| at_table.ready_in > most.0) {
            add(broken, Wish::ReadyIn(gap.meal), at_table.ready_in as f64);
        }
    }
    floors(table, chosen, broken);
    if table.from_shelf && bought(&tried.basket.trips).any(|line| !table.written_buys(line)) {
        add(broken, Wish::FromShelf, 0.0);
    }
}

/// Lines of which something is bought, or would be if anybody sold it.
fn bought(trips: &[TripList]) -> impl Iterator<Item = &ListLine> {
    trips.iter().flat_map(TripList::lines).filter(|line| !line.packs.is_empty() || line.cost.is_none())
}

/// What the sessions to come cook, as a set.
pub fn cooked(tried: &Tried) -> BTreeSet<RecipeId> {
    let in_a_session = tried.makings.makings.iter().filter(|making| matches!(making.at, MadeAt::Session(_)));
    in_a_session.map(|making| making.recipe).collect()
}

fn floors(table: &Table, chosen: &[Option<u32>], broken: &mut Vec<Broken>) {
    if table.wanted_nutrients().next().is_none() {
        return;
    }
    for (_, got) in table.day_sums(chosen) {
        for (nutrient, least) in table.wanted_nutrients() {
            let had = got[nutrient as usize];
            if had < least * (1.0 - 1e-9) {
                add(broken, Wish::EachDay(nutrient), had);
            }
        }
    }
}

/// A session that ends too late by the least finish that `prep` finds. Last, because it is what takes longest.
pub fn of_sessions(table: &Table, tried: &Tried, effort: Effort, broken: &mut Vec<Broken>) {
    for (index, session) in tried.week.sessions.iter().enumerate() {
        let Some(most) = super::minutes::minutes_allowed(session) else { continue };
        let finish = table.finish_within(tried, index, most, effort);
        if finish > most {
            add(broken, Wish::FinishBy(session.start), finish as f64);
        }
    }
}

/// Figures of a whole share of a meal: energy, protein, fibre. What is not known counts nothing.
pub fn figures(note: &MealNote) -> [f64; 3] {
    let each = &note.per_eater;
    [each.kcal, each.protein_g, each.fibre_g].map(|figure| figure.unwrap_or(0.0))
}

/// The figures of one meal.
pub fn figures_of(kitchen: &Kitchen, week: &crate::kitchen::Week, meal: Meal) -> Option<MealNote> {
    let mut alone = week.clone();
    alone.meals = vec![meal];
    meals(kitchen, &alone, &[], &[]).into_iter().next()
}

/// Who must not be served it at this meal, and why.
pub fn unfit_line(kitchen: &Kitchen, meal: &Meal, line: &crate::kitchen::Ingredient, wanted: &[Ware]) -> Vec<NotFor> {
    unfit(kitchen, &meal.holding(kitchen, vec![line.clone()], Vec::new()), wanted)
}

impl Nutrient {
    pub const ALL: [Nutrient; 3] = [Nutrient::Energy, Nutrient::Protein, Nutrient::Fibre];
}
