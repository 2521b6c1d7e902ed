//! `[[eater]]` of kitchen.toml, and the words of `allergic`, `avoid` and `eats`.

use std::collections::BTreeSet;

use super::allergens;
use super::hint;
use super::lines::Speech;
use super::shapes;
use super::table::Table;
use crate::foods::{Allergen, FoodId, Kind, animals, key_of};
use crate::kitchen::{Eater, Household, Needs, NotEaten, RecipeId, Shunned, Spot, Swap, Ware};
use crate::measure::Number;

/// Flesh of animals.
const FLESH: [Kind; 7] =
    [Kind::RawPoultry, Kind::RawMincedMeat, Kind::RawMeat, Kind::RawFish, Kind::RawSeafood, Kind::CookedMeat, Kind::CookedFish];

/// By these a mixed dish says that it has fish or seafood in it.
const OF_THE_SEA: [Allergen; 3] = [Allergen::Fish, Allergen::Crustaceans, Allergen::Molluscs];

/// Reads every `[[eater]]` into the household, and `[household] allergic` and `avoid`. Their sum is the household's number of eaters.
pub(super) fn read_eaters(top: &Table<'_>, household: &mut Household, speech: &mut Speech<'_>) {
    if let Some(table) = top.one("household", "[household]") {
        household.allergic = shunned(&table, "allergic", speech);
        for one in shunned(&table, "avoid", speech) {
            match one.allergen {
                Some(allergen) => household.avoid.push(allergen),
                None => household.avoid_foods.push(one),
            }
        }
        household.avoid.sort_unstable();
        household.avoid.dedup();
    }
    let mut names = BTreeSet::new();
    for table in top.each("eater", "[[eater]]") {
        let Some(eater) = read_eater(&table, speech) else { continue };
        if !names.insert(eater.name.to_lowercase()) {
            table.mistake("name", format!("two eaters are named \"{}\"", eater.name), "Give each a name of its own.");
        }
        household.named.push(eater);
    }
    if household.named.is_empty() {
        return;
    }
    let sum: Number = household.named.iter().map(|eater| &eater.share).sum();
    if let Some(table) = top.one("household", "[household]")
        && table.has("eaters")
        && Number::from(household.eaters) != sum
    {
        let cause = format!("eaters is {}, but the shares of [[eater]] come to {sum}", household.eaters);
        table.mistake("eaters", cause, "Leave eaters out, or mend the shares.");
    }
    household.eaters = sum.to_f64();
}

fn read_eater(table: &Table<'_>, speech: &mut Speech<'_>) -> Option<Eater> {
    let name = table.required("name", "\"Emil\"", shapes::text);
    let share = table.optional("share", shapes::positive).map_or(Number::ONE, Number::from);
    let allergic = shunned(table, "allergic", speech);
    let avoid = shunned(table, "avoid", speech);
    let not_eaten = not_eaten(table);
    let born = table.optional("born", shapes::date);
    let needs = table.one("needs", "[eater.needs]").map(|needs| Needs {
        kcal: needs.optional("kcal", shapes::zero_or_more),
        protein_g: needs.optional("protein", shapes::grams),
        fibre_g: needs.optional("fibre", shapes::grams),
    });
    let swap = read_swap(table, speech);
    let sure = table.texts("sure").unwrap_or_default();
    let (sure, sure_at) = sure.into_iter().map(|(word, at)| (word.to_lowercase(), at)).unzip();
    Some(Eater { name: name?, share, allergic, avoid, not_eaten, born, needs, swap, sure, sure_at, at: table.spot() })
}

/// The words under `key`. One that is no allergen, no kind and no food is a mistake: it would guard nobody.
pub(super) fn shunned(table: &Table<'_>, key: &str, speech: &mut Speech<'_>) -> Vec<Shunned> {
    let mut all: Vec<Shunned> = Vec::new();
    for (word, at) in table.texts(key).unwrap_or_default() {
        let meant = shunned_word(&word, speech);
        if meant.is_empty() {
            let cause = format!("\"{word}\" is no allergen, no food and no kind of food that is known here");
            let remedy = "Write an allergen, a kind of food, or a food of the reference or of foods.toml.";
            speech.found.mistake(at, cause, format!("{}{remedy}", nearest(&word, speech)));
        }
        all.extend(meant);
    }
    all
}

/// All that a word stands for: shellfish are crustaceans and molluscs, peppers are a spice and a vegetable.
fn shunned_word(word: &str, speech: &Speech<'_>) -> Vec<Shunned> {
    let foods = &speech.foods;
    let food = foods.find(word).filter(|food| !foods[*food].unknown);
    let kind = Kind::named(word);
    let allergens = match allergens::as_a_whole(word) {
        Some(_) => allergens::all_named(word),
        None if food.is_none() => allergens::named(word).into_iter().collect(),
        None => Vec::new(),
    };
    if food.is_none() && kind.is_none() && allergens.is_empty() {
        return Vec::new();
    }
    let of = |food: Option<FoodId>, allergen| {
        let known = food.and_then(|food| foods[food].allergens.as_ref().or(foods[food].contains.as_ref()));
        let group = known.map(|fact| fact.value.clone()).unwrap_or_default();
        let by_own_name = food.is_some_and(|food| key_of(&foods[food].name) == key_of(word));
        Shunned { word: word.trim().to_owned(), allergen, kind, food, by_own_name, group }
    };
    let other = OF_TWO_FOODS.iter().find(|(name, _)| *name == key_of(word)).and_then(|(_, other)| foods.find(other));
    let mut all: Vec<Shunned> = allergens.into_iter().map(|allergen| of(food, Some(allergen))).collect();
    if all.is_empty() {
        all.push(of(food, None));
    }
    all.extend(other.map(|other| of(Some(other), None)));
    all
}

/// Words for two foods: that which lines mean by them, and the other. Keys.
const OF_TWO_FOODS: [(&str, &str); 1] = [("pepper", "bell pepper")];

/// `Did you mean "sesame"? `, or nothing.
fn nearest(word: &str, speech: &Speech<'_>) -> String {
    let words = allergens::names().chain(Kind::NAMES);
    let near = hint::nearest(word, words).map(str::to_owned).or_else(|| speech.foods.nearest(word).into_iter().next());
    near.map(|near| format!("Did you mean \"{near}\"? ")).unwrap_or_default()
}

fn not_eaten(table: &Table<'_>) -> NotEaten {
    let mut not = NotEaten::default();
    for (typed, at) in table.texts("eats").unwrap_or_default() {
        let word = typed.to_lowercase();
        match word.as_str() {
            "no meat" => {
                not.kinds.extend(FLESH);
                not.allergens.extend(OF_THE_SEA);
                not.foods.extend(animals::OF_FLESH);
            }
            "no animal" => {
                not.kinds.extend(FLESH);
                not.kinds.extend([Kind::RawEgg, Kind::CookedEgg, Kind::Dairy]);
                not.allergens.extend(OF_THE_SEA);
                not.allergens.extend([Allergen::Egg, Allergen::Milk]);
                not.foods.extend(animals::OF_FLESH.iter().chain(animals::OF_ANIMALS));
            }
            _ => match Kind::named(&word) {
                Some(kind) => not.kinds.push(kind),
                None => {
                    let words = ["no meat", "no animal"].into_iter().chain(Kind::NAMES);
                    let named_in: Vec<String> = Kind::NAMES
                        .iter()
                        .filter(|name| name.split(' ').any(|part| key_of(part) == key_of(&word)))
                        .map(|name| format!("\"{name}\""))
                        .collect();
                    let near = match (named_in.as_slice(), hint::nearest(&word, words)) {
                        ([_, ..], _) => format!("Did you mean {}? ", named_in.join(" and ")),
                        ([], Some(near)) => format!("Did you mean \"{near}\"? "),
                        ([], None) => String::new(),
                    };
                    let cause = format!("\"{typed}\" is no way of eating and no kind of food");
                    let remedy = format!("{near}Write \"no meat\", \"no animal\", or the kinds of food that are not eaten.");
                    table.file.found.mistake(at, cause, remedy);
                    continue;
                }
            },
        }
        let word = word.strip_prefix("no ").unwrap_or(&word).to_owned();
        not.word = if not.word.is_empty() { word } else { format!("{}, {word}", not.word) };
    }
    not
}

fn read_swap(table: &Table<'_>, speech: &mut Speech<'_>) -> Vec<Swap> {
    let Some(entry) = table.entry("swap") else { return Vec::new() };
    let Some(pairs) = entry.value.as_table() else {
        table.mistake("swap", "swap: expected a table", "Write it like { white-bean-mash = \"plain-mash\", tahini = \"\" }.");
        return Vec::new();
    };
    let mut swaps = Vec::new();
    for (from, to) in pairs.iter() {
        let at = table.file.source.spot(to.span().start);
        let from = ware(from.get_ref(), &at, speech);
        let to = match to.get_ref().as_str() {
            Some(blank) if blank.trim().is_empty() => Some(None),
            Some(word) => ware(word, &at, speech).map(Some),
            None => {
                speech.found.mistake(at.clone(), "a swap is of two names", "Write a dish or a food, or \"\" to leave it out.");
                None
            }
        };
        let (Some(from), Some(to)) = (from, to) else { continue };
        if matches!((from, to), (Ware::Food(_), Some(Ware::Recipe(_))) | (Ware::Recipe(_), Some(Ware::Food(_)))) {
            let remedy = "Put a dish in place of a dish or a food in place of a food, or \"\" and write instead in the meal.";
            speech.found.mistake(at, "a dish and a food are not measured alike, so one cannot stand for the other", remedy);
            continue;
        }
        swaps.push(Swap { from, to });
        let before = &swaps[..swaps.len() - 1];
        if to.is_some_and(|to| comes_back(before, to, from)) {
            let remedy = "Put something else in its place, or \"\" to leave it out.";
            speech.found.mistake(at, "a swap that leads back to what it stands in for exchanges nothing", remedy);
        }
    }
    swaps
}

/// Do these lead from one to the other, step by step?
fn comes_back(swaps: &[Swap], from: Ware, to: Ware) -> bool {
    let mut here = from;
    for _ in 0..=swaps.len() {
        if here == to {
            return true;
        }
        match swaps.iter().find(|swap| swap.from == here).and_then(|swap| swap.to) {
            Some(next) => here = next,
            None => return false,
        }
    }
    false
}

/// A recipe by its id or a food by its name; where there is neither, a mistake that names the nearest.
pub(super) fn ware(word: &str, at: &Spot, speech: &mut Speech<'_>) -> Option<Ware> {
    let typed = word.trim();
    let plain = typed.strip_prefix("recipe:").unwrap_or(typed).trim();
    if let Some(recipe) = speech.recipes.get(plain) {
        return Some(Ware::Recipe(RecipeId(recipe)));
    }
    if let (Some(food), true) = (speech.foods.find(plain), plain == typed) {
        return Some(Ware::Food(food));
    }
    // Who writes "recipe:" means a recipe, and no food that reads alike.
    let is_recipe = plain != typed;
    let recipe = speech.recipes.nearest(plain).map(|id| format!("{}{id}", if is_recipe { "recipe:" } else { "" }));
    let near = recipe.or_else(|| if is_recipe { None } else { speech.foods.nearest(plain).into_iter().next() });
    let near = near.map(|near| format!("Did you mean \"{near}\"? ")).unwrap_or_default();
    let (cause, remedy) = match is_recipe {
        true => ("is no recipe", "Write recipe: and the name of a file in recipes, without .toml."),
        false => ("is neither a recipe nor a food", "Write the id of a recipe or the name of a food."),
    };
    speech.found.mistake(at.clone(), format!("\"{typed}\" {cause}"), format!("{near}{remedy}"));
    None
}
