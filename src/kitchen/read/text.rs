//! `{food}` and `{food: share}` in the text of steps, resolved to the ingredients of the recipe.
//!
//! A step's `{peppers}` is the ingredient that its line calls so ("2 peppers"), before one that only ends in it ("black
//! pepper"); of two different foods it is a mistake.

use std::collections::BTreeMap;

use super::lines::plain;
use super::names::Names;
use super::source::Findings;
use crate::foods::{FoodId, Foods, Item, as_purchased, key_of};
use crate::kitchen::{Ingredient, Piece, RecipeId, Spot, Wanted, Words};
use crate::measure::{Amount, Dimension, Number, Spoons, read_amount};

/// Shares that differ from the whole by less than this share of it add up: thirds written with a few digits do not.
const SHARE_TOLERANCE: f64 = 1e-6;

/// The mentions of one recipe's ingredients, over all its steps.
pub(super) struct Mentions<'k> {
    ingredients: &'k [Ingredient],
    foods: &'k Foods,
    recipes: &'k Names,
    /// Names of the recipes by index.
    recipe_names: &'k [String],
    spoons: Spoons,
    found: &'k Findings,
    of_food: BTreeMap<FoodId, Vec<usize>>,
    of_recipe: BTreeMap<RecipeId, Vec<usize>>,
    used: Vec<Used>,
    /// False where a line of the recipe could not be read: then a mention that finds nothing says nothing.
    complete: bool,
}

/// How far an ingredient has been mentioned.
#[derive(Debug, Clone, Default)]
struct Used {
    wholly: bool,
    shares: Vec<Amount>,
    first_share_at: Option<Spot>,
}

/// Figures of one ingredient's shares and of its line, in one unit.
struct Sum {
    shares: f64,
    line: f64,
    /// As it follows a figure: " g", " tbsp", or nothing.
    unit: String,
}

impl<'k> Mentions<'k> {
    pub fn new(
        ingredients: &'k [Ingredient],
        complete: bool,
        foods: &'k Foods,
        recipes: (&'k Names, &'k [String]),
        spoons: Spoons,
        found: &'k Findings,
    ) -> Self {
        let mut of_food: BTreeMap<FoodId, Vec<usize>> = BTreeMap::new();
        let mut of_recipe: BTreeMap<RecipeId, Vec<usize>> = BTreeMap::new();
        for (index, ingredient) in ingredients.iter().enumerate() {
            match &ingredient.wanted {
                Wanted::Food { food, .. } => of_food.entry(*food).or_default().push(index),
                Wanted::Recipe { recipe, .. } => of_recipe.entry(*recipe).or_default().push(index),
            }
        }
        let used = vec![Used::default(); ingredients.len()];
        let (recipes, recipe_names) = recipes;
        Mentions { ingredients, foods, recipes, recipe_names, spoons, found, of_food, of_recipe, used, complete }
    }

    /// The text cut into words and ingredients.
    pub fn pieces(&mut self, text: &str, at: &Spot) -> Vec<Piece> {
        let mut pieces = Vec::new();
        let mut rest = text;
        while let Some(open) = rest.find('{') {
            if open > 0 {
                pieces.push(Piece::Words(rest[..open].to_owned()));
            }
            let Some(close) = rest[open..].find('}') else {
                self.found.mistake(at.clone(), "a { is never closed", "Close it: {onion} or {olive oil: 2 tbsp}.");
                return pieces;
            };
            pieces.extend(self.mention(rest[open + 1..open + close].trim(), at));
            rest = &rest[open + close + 1..];
        }
        if !rest.is_empty() {
            pieces.push(Piece::Words(rest.to_owned()));
        }
        pieces
    }

    fn mention(&mut self, inside: &str, at: &Spot) -> Option<Piece> {
        let (prefix, plain) = inside.strip_prefix("recipe:").map_or(("", inside), |plain| ("recipe:", plain));
        let (name, share) = plain.split_once(':').map_or((plain, None), |(name, share)| (name, Some(share.trim())));
        let name = name.trim();
        let candidates = if prefix.is_empty() { self.by_any_name(name) } else { self.by_recipe(name) };
        if let Some((first, second)) = self.two(&candidates) {
            let cause = format!("{{{inside}}} could be \"{first}\" or \"{second}\"");
            self.found.mistake(at.clone(), cause, "Write the whole name of the one that is meant.");
            return None;
        }
        let Some(index) = self.first_unused(&candidates) else {
            if self.complete {
                let remedy = self.remedy(name);
                self.found.mistake(at.clone(), format!("{{{inside}}} names nothing among the ingredients"), remedy);
            }
            return None;
        };
        let Some(share) = share else {
            self.used[index].wholly = true;
            return Some(Piece::Ingredient { index, share: None });
        };
        match read_amount(share) {
            Ok(amount) if amount.low > 0 => {
                self.used[index].shares.push(amount.clone());
                self.used[index].first_share_at.get_or_insert_with(|| at.clone());
                Some(Piece::Ingredient { index, share: Some(amount) })
            }
            Ok(_) => {
                self.found.mistake(at.clone(), format!("the share in {{{inside}}} is not above zero"), "Write a share above 0.");
                None
            }
            Err(error) => {
                self.found.mistake(at.clone(), format!("the share in {{{inside}}}: {}", error.cause), error.remedy);
                None
            }
        }
    }

    fn by_recipe(&self, name: &str) -> Vec<usize> {
        let by_id = self.recipes.get(name).and_then(|index| self.of_recipe.get(&RecipeId(index)));
        by_id.cloned().unwrap_or_else(|| {
            let named = |id: &RecipeId| self.recipe_names.get(id.0).is_some_and(|known| same_words(known, name));
            self.of_recipe.iter().filter(|(id, _)| named(id)).flat_map(|(_, indices)| indices.iter().copied()).collect()
        })
    }

    fn by_any_name(&self, name: &str) -> Vec<usize> {
        let mut found = self.by_name(name);
        if is_vegetables(name) {
            let is_spice = |index: &usize| matches!(self.ingredients[*index].wanted, Wanted::Food { food, .. } if self.foods[food].name == "black pepper");
            if found.iter().all(is_spice) {
                found = (0..self.ingredients.len()).filter(|index| has_words(&self.ingredients[*index].text, name)).collect();
            }
            found.retain(|index| !is_spice(index));
        }
        found
    }

    fn by_name(&self, name: &str) -> Vec<usize> {
        let called = self.called(name);
        if !called.is_empty() {
            return called;
        }
        if let Some(indices) = self.foods.find(name).and_then(|food| self.of_food.get(&food)) {
            return indices.clone();
        }
        let named = self.of_food.iter().filter(|(food, _)| same_words(&self.foods[**food].name, name));
        let named: Vec<usize> = named.flat_map(|(_, indices)| indices.iter().copied()).collect();
        if !named.is_empty() {
            return named;
        }
        let recipes = self.by_recipe(name);
        if !recipes.is_empty() {
            return recipes;
        }
        // "white beans" of a line in tins is the food "tinned white beans": the line's own words name it as well.
        let lines = self.ingredients.iter().enumerate();
        let spoken: Vec<usize> = lines.filter(|(_, line)| has_words(&line.text, name)).map(|(index, _)| index).collect();
        self.by_noun(name, spoken)
    }

    /// Of the ingredients in whose line a name stands, those whose noun it is: "{tomatoes}" are chopped tomatoes and no tomato purée. Where it is
    /// nobody's noun, what is of that kind ("{fish}" is the cod, and no fish sauce), then what is not only made of it ("{chicken}" is no stock).
    fn by_noun(&self, name: &str, spoken: Vec<usize>) -> Vec<usize> {
        const MADE_OF_IT: [&str; 16] = [
            "sauce",
            "stock",
            "cube",
            "puree",
            "paste",
            "powder",
            "juice",
            "oil",
            "vinegar",
            "broth",
            "gravy",
            "milk",
            "flour",
            "syrup",
            "seasoning",
            "zest",
        ];
        let key = key_of(name);
        let nouns = |index: usize| -> Vec<String> {
            let text = &self.ingredients[index].text;
            let words = Words::of(text);
            let typed = (0..words.len()).find_map(|at| words.food(at, self.foods).map(|(_, end)| words.key(at..end).to_owned()));
            let known = match self.ingredients[index].wanted {
                Wanted::Food { food, .. } => Some(key_of(&self.foods[food].name)),
                Wanted::Recipe { .. } => None,
            };
            typed.into_iter().chain(known).collect()
        };
        let ends = |index: usize, word: &str| {
            nouns(index).iter().any(|noun| noun == word || noun.strip_suffix(word).is_some_and(|rest| rest.ends_with(' ')))
        };
        let of_kind = |index: usize| match self.ingredients[index].wanted {
            Wanted::Food { food, .. } => self.foods[food].kind.is_some_and(|kind| kind.name().split(' ').next_back() == Some(key.as_str())),
            Wanted::Recipe { .. } => false,
        };
        let of = |keeps: &dyn Fn(usize) -> bool| spoken.iter().copied().filter(|index| keeps(*index)).collect::<Vec<_>>();
        let nouned = of(&|index| ends(index, &key));
        if !nouned.is_empty() {
            return nouned;
        }
        let is_made = |index: usize| MADE_OF_IT.iter().any(|noun| ends(index, noun));
        let kinds: Vec<usize> = (0..self.ingredients.len()).filter(|index| of_kind(*index)).collect();
        if !kinds.is_empty() && spoken.iter().all(|index| is_made(*index)) {
            return kinds;
        }
        let others = of(&|index| !is_made(index));
        if others.is_empty() { spoken } else { others }
    }

    /// The ingredients whose line calls its food so: "2 peppers" is called "peppers", "2 red peppers" and "black pepper" only end in it.
    fn called(&self, name: &str) -> Vec<usize> {
        let key = key_of(name);
        let calls = |text: &str| {
            let words = Words::of(text);
            let mut at = 0;
            while at < words.len() {
                match words.food(at, self.foods) {
                    Some((id, end)) if words.key(at..end) == key => return Some(id),
                    Some((_, end)) => at = end,
                    None => at += 1,
                }
            }
            None
        };
        // "Salt and pepper" is two ingredients of one text: each is called what it is.
        let stands_alone = |line: &Ingredient| self.ingredients.iter().filter(|other| other.at == line.at).count() == 1;
        let is_called = |line: &Ingredient| match (&line.wanted, calls(&line.text)) {
            (Wanted::Food { food, .. }, Some(called)) => *food == called || stands_alone(line),
            _ => false,
        };
        (0..self.ingredients.len()).filter(|index| is_called(&self.ingredients[*index])).collect()
    }

    /// Two ingredients of different foods that a name would do for.
    fn two(&self, candidates: &[usize]) -> Option<(&str, &str)> {
        let food = |index: &usize| match self.ingredients[*index].wanted {
            Wanted::Food { food, .. } => Some(food),
            Wanted::Recipe { .. } => None,
        };
        let (first, others) = candidates.split_first()?;
        let other = others.iter().find(|other| food(other) != food(first))?;
        Some((&self.ingredients[*first].text, &self.ingredients[*other].text))
    }

    fn first_unused(&self, candidates: &[usize]) -> Option<usize> {
        let open = candidates.iter().find(|index| !self.is_used_up(**index));
        open.or(candidates.last()).copied()
    }

    fn is_used_up(&self, index: usize) -> bool {
        let used = &self.used[index];
        let full = || self.sum(index).is_some_and(|sum| sum.shares >= sum.line * (1.0 - SHARE_TOLERANCE));
        used.wholly || (!used.shares.is_empty() && full())
    }

    fn remedy(&self, name: &str) -> String {
        let mut known: Vec<&str> = Vec::new();
        for ingredient in self.ingredients {
            known.push(match &ingredient.wanted {
                Wanted::Food { food, .. } => &self.foods[*food].name,
                Wanted::Recipe { recipe, .. } => self.recipe_names.get(recipe.0).map_or("", String::as_str),
            });
        }
        super::hint::did_you_mean(name, known.iter().copied(), "Add it to the ingredients.")
    }

    /// Says where the shares of an ingredient do not add up to its line. The table may get what is left: "serve with the remaining lemon".
    pub fn check_shares(&self, at_table: &[usize]) {
        for (index, used) in self.used.iter().enumerate() {
            let (Some(at), line) = (&used.first_share_at, &self.ingredients[index].text) else { continue };
            match self.sum(index) {
                Some(sum) if (sum.shares - sum.line).abs() <= SHARE_TOLERANCE * sum.line.abs() => {}
                Some(sum) if at_table.contains(&index) && sum.shares < sum.line => {}
                Some(Sum { shares, line: whole, unit }) => {
                    let cause =
                        format!("the shares of \"{line}\" add up to {}{unit}, but the line says {}{unit}", figure(shares), figure(whole));
                    self.found.mistake(at.clone(), cause, "Make the shares add up to the line.");
                }
                None => {
                    let cause = format!("the shares of \"{line}\" cannot be compared with the line");
                    self.found.mistake(at.clone(), cause, "Write the shares in the unit of the line.");
                }
            }
        }
    }

    /// Shares and line in one unit: the line's own where all agree, else as purchased, in grams or millilitres.
    fn sum(&self, index: usize) -> Option<Sum> {
        let shares = &self.used[index].shares;
        match &self.ingredients[index].wanted {
            Wanted::Food { item: None, .. } => None,
            Wanted::Food { food, item: Some(item) } => {
                if item.plus.is_empty() && shares.iter().all(|share| share.unit == item.amount.unit) {
                    let unit = format!(" {}", if item.amount.high > 1 { item.amount.unit.plural() } else { item.amount.unit.singular() });
                    let shares = shares.iter().map(|share| &share.high).sum::<Number>().to_f64();
                    return Some(Sum { shares, line: item.amount.high.to_f64(), unit: unit.trim_end().to_owned() });
                }
                let in_dimension = |dimension: Dimension, unit| {
                    let measure = |item: &Item| as_purchased(&self.foods[*food], item, &dimension, self.spoons).ok().map(|q| q.base());
                    let of_share = |share: &Amount| measure(&Item { amount: share.clone(), plus: Vec::new(), ..item.clone() });
                    let total = shares.iter().map(of_share).sum::<Option<f64>>()?;
                    Some(Sum { shares: total, line: measure(item)?, unit: String::from(unit) })
                };
                let (weight, volume) = (|| in_dimension(Dimension::Mass, " g"), || in_dimension(Dimension::Volume, " ml"));
                let is_poured = |amount: &Amount| amount.most(self.spoons).dimension() == Dimension::Volume;
                // Spoons and millilitres ask nothing of the food.
                if is_poured(&item.amount) && shares.iter().all(is_poured) { volume().or_else(weight) } else { weight().or_else(volume) }
            }
            Wanted::Recipe { most, .. } => {
                let plain_share =
                    |share: &Amount| plain(&share.high, share.unit, self.spoons).filter(|q| q.dimension() == most.dimension());
                let total = shares.iter().map(|share| plain_share(share).map(|q| q.base())).sum::<Option<f64>>()?;
                Some(Sum { shares: total, line: most.base(), unit: String::new() })
            }
        }
    }
}

fn figure(number: f64) -> f64 {
    (number * 1e4).round() / 1e4
}

/// In the plural it is the vegetable: nobody adds black peppers.
fn is_vegetables(name: &str) -> bool {
    name.eq_ignore_ascii_case("peppers")
}

fn same_words(a: &str, b: &str) -> bool {
    a.to_lowercase() == b.to_lowercase()
}

/// Does the line hold the name as whole words, singular or plural?
fn has_words(line: &str, name: &str) -> bool {
    let words = |text: &str| -> Vec<String> {
        let parts = text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
        parts.map(|word| singular(&word.to_lowercase())).collect()
    };
    let (line, name) = (words(line), words(name));
    !name.is_empty() && line.windows(name.len()).any(|window| window == name.as_slice())
}

fn singular(word: &str) -> String {
    let stem = word.strip_suffix("oes").map(|stem| format!("{stem}o")).or_else(|| word.strip_suffix('s').map(str::to_owned));
    stem.filter(|stem| stem.len() > 2).unwrap_or_else(|| word.to_owned())
}
