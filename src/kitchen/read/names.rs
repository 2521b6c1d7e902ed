//! What other files may refer to by name: recipes, appliances, shops.

use std::cell::Cell;
use std::collections::BTreeMap;

use super::hint;
use super::source::Findings;
use crate::kitchen::Spot;

/// After so many, a hint costs more time than it saves anybody.
const MOST_HINTS: u32 = 40;

/// The names of one kind of thing, in any letter case.
#[derive(Debug)]
pub(super) struct Names {
    /// "recipe", "appliance", "shop".
    what: &'static str,
    /// Where such a thing is written down: "kitchen.toml".
    home: &'static str,
    by_name: BTreeMap<String, usize>,
    as_typed: Vec<String>,
    /// False where the file that names them is broken: then a missing name says nothing.
    complete: bool,
    hints: Cell<u32>,
}

impl Names {
    pub fn new(what: &'static str, home: &'static str, complete: bool) -> Self {
        Names { what, home, by_name: BTreeMap::new(), as_typed: Vec::new(), complete, hints: Cell::new(0) }
    }

    /// The first thing of a name keeps it; false where the name is taken.
    pub fn add(&mut self, name: &str, index: usize) -> bool {
        let key = name.trim().to_lowercase();
        if self.by_name.contains_key(&key) {
            return false;
        }
        self.by_name.insert(key, index);
        self.as_typed.push(name.to_owned());
        true
    }

    pub fn get(&self, name: &str) -> Option<usize> {
        self.by_name.get(&name.trim().to_lowercase()).copied()
    }

    /// The name that was added at that place, as typed; empty where there is none.
    pub fn name(&self, index: usize) -> &str {
        self.as_typed.get(index).map_or("", String::as_str)
    }

    /// The thing of that name; where there is none, a mistake at `at` that names the nearest.
    pub fn find(&self, name: &str, at: &Spot, found: &Findings) -> Option<usize> {
        let index = self.get(name);
        if index.is_none() && self.complete {
            let cause = format!("there is no {} \"{}\"", self.what, name.trim());
            found.mistake(at.clone(), cause, self.remedy(name.trim()));
        }
        index
    }

    /// The nearest name to one that is not there.
    pub fn nearest(&self, name: &str) -> Option<&str> {
        hint::nearest(name, self.as_typed.iter().map(String::as_str))
    }

    /// "1 portion recipe:boiled-eggs", where a line of portions was meant to be of one of these.
    pub fn in_a_line(&self, line: &str) -> Option<String> {
        hint::as_of_a_recipe(line, self.as_typed.iter().map(String::as_str))
    }

    fn remedy(&self, name: &str) -> String {
        let none = format!("Add it to {}.", self.home);
        self.hints.set(self.hints.get() + 1);
        if self.hints.get() > MOST_HINTS {
            return none;
        }
        hint::did_you_mean(name, self.as_typed.iter().map(String::as_str), &none)
    }
}
