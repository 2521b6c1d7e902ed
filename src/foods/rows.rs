//! Foods by their numbers, and the names that lead to them. A row of the built-in reference is read when it is first asked for: a week
//! speaks of sixty foods, the reference knows two thousand.
//!
//! Knows no figure of a food.

use std::borrow::Cow;
use std::collections::hash_map::DefaultHasher;
use std::collections::{BTreeMap, HashMap};
use std::hash::BuildHasherDefault;
use std::ops::{Index, IndexMut};
use std::sync::{Arc, OnceLock};

use super::lineage::Lineage;
use super::reference::row::read_known_row;
use super::{Food, FoodId};

/// Foods by the number in their [`FoodId`].
#[derive(Debug, Clone, Default)]
pub(crate) struct Rows(Vec<Row>);

#[derive(Debug, Clone)]
struct Row {
    /// Its line in the built-in reference, and what stands there; nothing where the food came as one.
    line: usize,
    text: &'static str,
    food: OnceLock<Box<Food>>,
    lineage: OnceLock<Box<Lineage>>,
}

impl Row {
    fn read(&self) -> &Food {
        self.food.get_or_init(|| Box::new(read_known_row(self.line, self.text)))
    }
}

impl Rows {
    /// Rows of the reference, each with its line, unread.
    pub fn written(rows: &[(usize, &'static str)]) -> Rows {
        Rows(rows.iter().map(|&(line, text)| Row { line, text, food: OnceLock::new(), lineage: OnceLock::new() }).collect())
    }

    pub fn push(&mut self, food: Food) {
        self.0.push(Row { line: 0, text: "", food: OnceLock::from(Box::new(food)), lineage: OnceLock::new() });
    }

    pub fn len(&self) -> usize {
        self.0.len()
    }

    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    pub fn iter(&self) -> impl ExactSizeIterator<Item = &Food> {
        self.0.iter().map(Row::read)
    }

    /// Is it a row of the built-in reference, whatever a household laid over it?
    pub fn is_of_reference(&self, id: FoodId) -> bool {
        self.0[id.0 as usize].line > 0
    }

    /// What the food is made of, found out when it is first asked for.
    pub fn lineage(&self, id: FoodId, find: impl FnOnce() -> Lineage) -> &Lineage {
        self.0[id.0 as usize].lineage.get_or_init(|| Box::new(find()))
    }

    /// Is it a name that a line gave? No row need be read for that: the reference knows its foods.
    pub fn is_unknown(&self, id: FoodId) -> bool {
        self.0[id.0 as usize].food.get().is_some_and(|food| food.unknown)
    }
}

impl Index<usize> for Rows {
    type Output = Food;

    fn index(&self, index: usize) -> &Food {
        self.0[index].read()
    }
}

impl IndexMut<usize> for Rows {
    fn index_mut(&mut self, index: usize) -> &mut Food {
        let row = &mut self.0[index];
        row.read();
        match row.food.get_mut() {
            Some(food) => food,
            None => unreachable!("it has just been read"),
        }
    }
}

impl FromIterator<Food> for Rows {
    fn from_iter<I: IntoIterator<Item = Food>>(foods: I) -> Rows {
        let mut rows = Rows::default();
        foods.into_iter().for_each(|food| rows.push(food));
        rows
    }
}

/// The same bytes come out of every run: nothing here is seeded by chance, and nobody walks over it but to find the best.
type Table = HashMap<Cow<'static, str>, FoodId, BuildHasherDefault<DefaultHasher>>;

/// Every name, by its key. What the household and its lines add stands before the reference.
#[derive(Debug, Clone, Default)]
pub(crate) struct Names {
    reference: Arc<Table>,
    own: BTreeMap<String, FoodId>,
}

impl Names {
    /// Of two foods of one key the first has it.
    pub fn written(keys: impl Iterator<Item = (Cow<'static, str>, FoodId)>) -> Names {
        // The reference has about twice as many other names as foods.
        let mut table = Table::with_capacity_and_hasher(3 * keys.size_hint().0, BuildHasherDefault::default());
        for (key, id) in keys {
            table.entry(key).or_insert(id);
        }
        Names { reference: Arc::new(table), own: BTreeMap::new() }
    }

    pub fn get(&self, key: &str) -> Option<FoodId> {
        self.own.get(key).or_else(|| self.reference.get(key)).copied()
    }

    pub fn insert(&mut self, key: String, id: FoodId) {
        self.own.insert(key, id);
    }

    pub fn extend(&mut self, keys: impl IntoIterator<Item = (String, FoodId)>) {
        self.own.extend(keys);
    }

    /// In no order that means anything.
    pub fn iter(&self) -> impl Iterator<Item = (&str, FoodId)> {
        let reference = self.reference.iter().map(|(key, id)| (&**key, *id)).filter(|(key, _)| !self.own.contains_key(*key));
        self.own.iter().map(|(key, id)| (key.as_str(), *id)).chain(reference)
    }
}
