//! Every food that a household can speak of: finding one by any of its names, and laying a household's knowledge over the reference.

use std::collections::{BTreeMap, BTreeSet};

use super::names::key_of;
use super::rows::{Names, Rows};
use super::{Fact, Food, FoodId, Keeping, Measured, Nutrients};

/// Every food this household can speak of: the reference with foods.toml laid over it, and the unknown names its lines use.
#[derive(Debug, Clone, Default)]
pub struct Foods {
    pub(crate) all: Rows,
    /// Every name, singular, lower case -> food.
    pub(crate) names: Names,
    /// The names that stand in foods.toml, as keys, of foods that are the household's own or that it says come in tins.
    pub(crate) own: BTreeSet<String>,
}

impl FromIterator<Food> for Foods {
    /// A book of just these foods, each under its own name.
    fn from_iter<I: IntoIterator<Item = Food>>(foods: I) -> Self {
        let all: Rows = foods.into_iter().collect();
        let mut names = Names::default();
        names.extend(all.iter().zip(0..).map(|(food, index)| (food.name.to_lowercase(), FoodId(index))));
        Foods { all, names, own: BTreeSet::new() }
    }
}

impl std::ops::Index<FoodId> for Foods {
    type Output = Food;
    fn index(&self, id: FoodId) -> &Food {
        &self.all[id.0 as usize]
    }
}

impl Foods {
    pub fn is_empty(&self) -> bool {
        self.all.is_empty()
    }

    pub fn len(&self) -> usize {
        self.all.len()
    }

    pub fn iter(&self) -> impl Iterator<Item = (FoodId, &Food)> {
        self.all.iter().enumerate().map(|(index, food)| (FoodId(index as u32), food))
    }

    /// By name or `also`, singular or plural, in any letter case.
    pub fn find(&self, name: &str) -> Option<FoodId> {
        self.find_key(&key_of(name))
    }

    /// By a key that [`key_of`] made.
    pub(crate) fn find_key(&self, key: &str) -> Option<FoodId> {
        self.names.get(key)
    }

    /// As [`Foods::find_key`], without the names that only lines gave: what a line means must not hang on the lines before it.
    pub(crate) fn find_known(&self, key: &str) -> Option<FoodId> {
        self.find_key(key).filter(|id| !self.all.is_unknown(*id))
    }

    /// The nearest known names, the nearest first, at most three; for "did you mean".
    pub fn nearest(&self, name: &str) -> Vec<String> {
        let key = key_of(name);
        let mut scored: BTreeMap<FoodId, f64> = BTreeMap::new();
        for (known, id) in self.names.iter().filter(|(_, id)| !self.all.is_unknown(*id)) {
            let score = likeness(&key, known);
            if score >= NEAR {
                let best = scored.entry(id).or_insert(score);
                *best = best.max(score);
            }
        }
        let mut scored: Vec<_> = scored.into_iter().collect();
        scored.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        scored.into_iter().take(3).map(|(id, _)| self[id].name.clone()).collect()
    }

    /// The other names by which it is found: not those that a household gave to another food.
    pub fn other_names(&self, id: FoodId) -> Vec<&str> {
        self[id].also.iter().map(String::as_str).filter(|name| self.find(name) == Some(id)).collect()
    }

    /// A food nobody knows keeps its own name. Finds it again when asked twice.
    pub fn intern_unknown(&mut self, name: &str) -> FoodId {
        let key = key_of(name);
        if let Some(id) = self.find_key(&key) {
            return id;
        }
        let id = FoodId(self.all.len() as u32);
        self.all.push(Food { name: name.trim().to_owned(), unknown: true, ..Food::default() });
        self.names.insert(key, id);
        id
    }

    /// Lays a household's entry over the entry of the same name, key by key; a new name is a new food.
    ///
    /// Tables (`cup`, `each`, `keeps`) are laid over key by key too; `also` only gains names. A food's own name wins over another
    /// food's `also`, and the later `also` over the earlier.
    pub fn lay_over(&mut self, entry: Food) -> FoodId {
        let key = key_of(&entry.name);
        let same = self.find_key(&key).filter(|id| key_of(&self[*id].name) == key);
        let also: Vec<String> = entry.also.iter().map(|name| key_of(name)).collect();
        let id = match same {
            Some(id) => {
                lay_food(&mut self.all[id.0 as usize], entry);
                id
            }
            None => {
                let id = FoodId(self.all.len() as u32);
                self.all.push(entry);
                id
            }
        };
        self.names.insert(key, id);
        for key in also {
            let taken =
                self.find_key(&key).is_some_and(|other| other != id && key_of(&self[other].name) == key && !self.all.is_unknown(other));
            if !taken {
                self.names.insert(key, id);
            }
        }
        id
    }
}

impl Foods {
    /// The drained share of a food of which nobody says one, as a pack of it states its weights.
    pub(crate) fn learn_drained(&mut self, id: FoodId, share: f64, source: String) {
        if self[id].drained.is_none() {
            self.all[id.0 as usize].drained = Some(Fact { value: share, source });
        }
    }

    /// The household's other names of foods stand before every name of the reference; only its own first names stand before them.
    /// Those in `entries` that are marked stand before the tinned kind of a food, too: see [`Foods::find_own`].
    pub(crate) fn own_names(&mut self, entries: &[(FoodId, Vec<String>)], in_tins: &BTreeSet<FoodId>) {
        let first: Vec<(String, FoodId)> = entries.iter().map(|(id, _)| (key_of(&self[*id].name), *id)).collect();
        for (id, also) in entries {
            for key in also.iter().map(|name| key_of(name)) {
                self.names.insert(key, *id);
            }
        }
        let keys = |id: &FoodId, also: &[String]| -> Vec<String> {
            also.iter().map(|name| key_of(name)).chain([key_of(&self[*id].name)]).collect()
        };
        self.own = entries.iter().filter(|(id, _)| in_tins.contains(id)).flat_map(|(id, also)| keys(id, also)).collect();
        self.names.extend(first);
    }

    /// The household's own food of this key, where a line in tins means it and no tinned food of the reference: a food that the reference
    /// does not have, or one of which foods.toml itself says what a tin weighs or how much of it drains off. Of any other the reference
    /// knows the tinned kind better: who weighs a fresh tomato at home still buys tins of tomatoes.
    pub(crate) fn find_own(&self, key: &str) -> Option<FoodId> {
        self.find_known(key).filter(|_| self.own.contains(key))
    }
}

/// Below this likeness a name is no help to the person who mistyped another.
const NEAR: f64 = 0.8;

/// 1 for the same name; a name all of whose words stand in the other is near however long the other is.
fn likeness(a: &str, b: &str) -> f64 {
    let within = |few: &str, many: &str| few.split(' ').all(|word| many.split(' ').any(|other| other == word));
    let letters =
        if most_likely(a, b) < NEAR { 0.0 } else { strsim::normalized_damerau_levenshtein(a, b).max(strsim::jaro_winkler(a, b) - 0.05) };
    if within(a, b) || within(b, a) { letters.max(0.9) } else { letters }
}

/// No measure of letters can find two names more alike than this: reckoned from the letters they share in any order, and so
/// quickly, since nearly all names of a long book are far from the one that was typed.
fn most_likely(a: &str, b: &str) -> f64 {
    let mut counts = [0i16; 256];
    a.bytes().for_each(|letter| counts[usize::from(letter)] += 1);
    let mut shared = 0.0;
    for letter in b.bytes() {
        let count = &mut counts[usize::from(letter)];
        if *count > 0 {
            shared += 1.0;
        }
        *count -= 1;
    }
    let prefix = a.bytes().zip(b.bytes()).take(4).take_while(|(a, b)| a == b).count() as f64;
    let (a, b) = (a.len().max(1) as f64, b.len().max(1) as f64);
    let jaro = (shared / a + shared / b + 1.0) / 3.0;
    (shared / a.max(b)).max(jaro + 0.1 * prefix * (1.0 - jaro) - 0.05)
}

fn lay_food(under: &mut Food, over: Food) {
    for name in over.also {
        if !under.also.contains(&name) {
            under.also.push(name);
        }
    }
    lay(&mut under.kind, over.kind);
    lay(&mut under.section, over.section);
    lay_measured("cup", &mut under.cup, over.cup, &mut under.told);
    lay_measured("each", &mut under.each, over.each, &mut under.told);
    under.words.retain(|word, _| !over.volumes.contains_key(word));
    under.volumes.retain(|word, _| !over.words.contains_key(word));
    under.words.extend(over.words);
    under.volumes.extend(over.volumes);
    lay(&mut under.edible, over.edible);
    lay(&mut under.cooked, over.cooked);
    lay(&mut under.drained, over.drained);
    lay(&mut under.cut, over.cut);
    lay(&mut under.cooks, over.cooks);
    let Keeping { cupboard, fridge, freezer, opened } = over.keeps;
    lay(&mut under.keeps.cupboard, cupboard);
    lay(&mut under.keeps.fridge, fridge);
    lay(&mut under.keeps.freezer, freezer);
    lay(&mut under.keeps.opened, opened);
    lay(&mut under.thaw, over.thaw);
    lay(&mut under.allergens, over.allergens);
    if under.allergens.is_some() {
        under.contains = None;
    }
    lay(&mut under.contains, over.contains);
    lay_nutrients(&mut under.nutrients, over.nutrients, &mut under.told);
    under.unknown &= over.unknown;
}

fn lay<T>(under: &mut Option<T>, over: Option<T>) {
    if over.is_some() {
        *under = over;
    }
}

/// `told` remembers where each figure comes from that is laid into a table.
fn lay_measured(key: &str, under: &mut Option<Fact<Measured>>, over: Option<Fact<Measured>>, told: &mut BTreeMap<String, String>) {
    match (under.as_mut(), over) {
        (Some(Fact { value: Measured::Table(forms), .. }), Some(Fact { value: Measured::Table(more), source })) => {
            told.extend(more.keys().map(|form| (format!("{key}, {form}"), source.clone())));
            forms.extend(more);
        }
        (_, Some(over)) => {
            let table = format!("{key}, ");
            told.retain(|figure, _| !figure.starts_with(&table));
            *under = Some(over);
        }
        (_, None) => {}
    }
}

fn lay_nutrients(under: &mut Option<Fact<Nutrients>>, over: Option<Fact<Nutrients>>, told: &mut BTreeMap<String, String>) {
    let (Some(under), Some(over)) = (under.as_mut(), &over) else { return lay(under, over) };
    let figures = over.value.rows().into_iter().filter(|row| row.1.is_some());
    told.extend(figures.map(|(name, ..)| (name.to_owned(), over.source.clone())));
    let (of, with) = (&mut under.value, &over.value);
    of.kcal = with.kcal.or(of.kcal);
    of.protein_g = with.protein_g.or(of.protein_g);
    of.carbohydrate_g = with.carbohydrate_g.or(of.carbohydrate_g);
    of.fat_g = with.fat_g.or(of.fat_g);
    of.fibre_g = with.fibre_g.or(of.fibre_g);
    of.sodium_mg = with.sodium_mg.or(of.sodium_mg);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::foods::Kind;
    use pretty_assertions::assert_eq;

    fn named(name: &str, also: &[&str]) -> Food {
        Food { name: name.into(), also: also.iter().map(|name| (*name).to_owned()).collect(), ..Food::default() }
    }

    fn fact<T>(value: T) -> Option<Fact<T>> {
        Some(Fact { value, source: "a test".into() })
    }

    fn table(rows: &[(&str, f64)]) -> Option<Fact<Measured>> {
        fact(Measured::Table(rows.iter().map(|(form, grams)| ((*form).to_owned(), *grams)).collect()))
    }

    #[test]
    fn a_food_is_found_by_any_name_number_and_case() {
        let mut foods = Foods::default();
        let onion = foods.lay_over(named("onion", &["brown onion", "yellow onions"]));
        for name in ["onion", "Onions", "BROWN ONIONS", "yellow onion", "  onion "] {
            assert_eq!(foods.find(name), Some(onion), "{name}");
        }
        assert_eq!(foods.find("red onion"), None);
    }

    #[test]
    fn a_second_name_from_the_household_stands_before_a_first_name_of_the_reference() {
        let mut foods = Foods::default();
        foods.lay_over(named("cream", &[]));
        let ours = foods.lay_over(named("oat cream", &["cream"]));
        let milk = foods.lay_over(named("milk", &[]));
        let other = foods.lay_over(named("barista drink", &["milk"]));
        foods.own_names(&[(ours, vec!["cream".into()]), (milk, vec![]), (other, vec!["milk".into()])], &BTreeSet::from([ours]));
        assert_eq!(foods.find("cream"), Some(ours));
        assert_eq!(foods.find("milk"), Some(milk), "the household names this one itself");
    }

    #[test]
    fn an_entry_of_the_same_name_changes_only_the_keys_it_has() {
        let mut foods = Foods::default();
        let id = foods.lay_over(Food { cup: table(&[("chopped", 160.0)]), edible: fact(0.9), ..named("onion", &["brown onion"]) });
        let same = foods.lay_over(Food { cup: table(&[("sliced", 115.0)]), kind: Some(Kind::Vegetable), ..named("Onions", &[]) });
        assert_eq!(same, id);
        assert_eq!(foods.len(), 1);
        assert_eq!(foods[id].name, "onion");
        assert_eq!(foods[id].cup, table(&[("chopped", 160.0), ("sliced", 115.0)]));
        assert_eq!(foods[id].edible, fact(0.9));
        assert_eq!(foods[id].kind, Some(Kind::Vegetable));
        assert_eq!(foods.find("brown onion"), Some(id));
    }

    #[test]
    fn every_figure_keeps_the_source_it_came_from() {
        let per = |kcal, fibre_g| Nutrients { kcal, fibre_g, ..Nutrients::default() };
        fn said<T>(value: T) -> Option<Fact<T>> {
            Some(Fact { value, source: "our scale".to_owned() })
        }
        let mut foods = Foods::default();
        let id = foods.lay_over(Food {
            cup: table(&[("chopped", 160.0), ("sliced", 115.0)]),
            nutrients: fact(per(Some(40.0), Some(1.7))),
            ..named("onion", &[])
        });
        let chopped = said(Measured::Table([("chopped".to_owned(), 150.0)].into()));
        foods.lay_over(Food { cup: chopped, ..named("onion", &[]) });
        foods.lay_over(Food { nutrients: said(per(Some(38.0), None)), ..named("onion", &[]) });
        let onion = &foods[id];
        assert_eq!(onion.nutrients.as_ref().map(|fact| fact.value), Some(per(Some(38.0), Some(1.7))));
        let sources = ["cup, chopped", "cup, sliced", "energy", "fibre"].map(|figure| onion.source_of(figure, "a test"));
        assert_eq!(sources, ["our scale", "a test", "our scale", "a test"]);
    }

    #[test]
    fn a_single_weight_takes_the_place_of_a_table() {
        let mut foods = Foods::default();
        foods.lay_over(Food { cup: table(&[("chopped", 160.0)]), ..named("onion", &[]) });
        let id = foods.lay_over(Food { cup: fact(Measured::Single(150.0)), ..named("onion", &[]) });
        assert_eq!(foods[id].cup, fact(Measured::Single(150.0)));
    }

    #[test]
    fn an_entry_under_anothers_second_name_is_a_food_of_its_own() {
        let mut foods = Foods::default();
        let reference = foods.lay_over(named("dried white beans", &["white beans"]));
        let own = foods.lay_over(named("white beans", &[]));
        assert_eq!(foods.find("white beans"), Some(own));
        assert_eq!(foods.find("dried white beans"), Some(reference));
        let third = foods.lay_over(named("butter beans", &["white beans", "lima beans"]));
        assert_eq!(foods.find("white bean"), Some(own));
        assert_eq!(foods.find("lima bean"), Some(third));
    }

    #[test]
    fn an_unknown_food_keeps_its_name_and_is_found_again() {
        let mut foods = Foods::default();
        let id = foods.intern_unknown("Dragonfruits");
        assert_eq!(foods.intern_unknown("dragonfruit"), id);
        assert_eq!((foods[id].name.as_str(), foods[id].unknown), ("Dragonfruits", true));
        assert_eq!(foods.find_known("dragonfruit"), None);
        let known = foods.lay_over(named("dragonfruit", &[]));
        assert_eq!((known, foods[id].unknown), (id, false));
    }

    #[test]
    fn the_nearest_names_come_nearest_first_and_no_more_than_three() {
        let mut foods = Foods::default();
        for name in ["onion", "red onion", "spring onion", "spinach", "tomato", "tinned tomato", "potato"] {
            foods.lay_over(named(name, &[]));
        }
        assert_eq!(foods.nearest("onoin"), ["onion"]);
        assert_eq!(foods.nearest("baby spinach"), ["spinach"]);
        assert_eq!(foods.nearest("onion")[0], "onion");
        assert_eq!(foods.nearest("tomatto")[0], "tomato");
        assert!(foods.nearest("onions").len() <= 3);
        assert_eq!(foods.nearest("xyzzy"), Vec::<String>::new());
    }
}
