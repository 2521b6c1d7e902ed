//! What a food is a form of, and what it may hold: tinned tomatoes are tomatoes, ketchup is made of them.
//!
//! Three things tell it. The last noun of a name: "cherry tomato". What stands before a form in which a food is bought: "carrot juice",
//! "chicken thigh". And the table `made_of.tsv` beside this file, for what no name tells, and for what a name tells wrongly: butter beans
//! are no butter. A food of the household is known by its name and its other names in the same way.
//!
//! It is asked once all foods are known: what a food is made of is found out once.

use std::collections::{BTreeMap, HashMap};
use std::sync::OnceLock;

use super::animals::{OF_ANIMALS, OF_FLESH};
use super::lineage::{Lineage, Part};
use super::names::key_of;
use super::{Allergen, Food, FoodId, Foods, Kind};

const TABLE: &str = include_str!("made_of.tsv");

/// How a food stands to another that somebody asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kinship {
    /// It is that food, whatever was done to it.
    Form,
    /// It usually, or with some makers, holds it.
    MayHold,
    /// Both are forms of one food, or it may hold another form of that food: red onion and spring onion.
    Near(FoodId),
    None,
}

/// Forms in which a food is bought: before them stands what it is. Singular. Common practice, no source.
const FORMS: &str = "belly bone breast brisket butter carcass cheek chip chop chuck chunk compote concentrate croquette crown cube drumstick \
    escalope fillet flake flour foot fry giblet jam joint juice kernel leaf leg loin marmalade meal meat mince neck nectar nib \
    noodle nugget paste pasta peel piece pod powder pulp puree rack rib rind root rump seed shank shin shoot shoulder \
    silverside skin slice sprout steak stick strip syrup tail tenderloin thigh topside trotter wedge wing zest";

/// Names that say little inside another name: a red pepper is no pepper, and a burger bun holds no burger. Keys.
const SAY_LITTLE: &str = "ale; bean; beer; bran; burger; butter; cereal; cracker; cream; crisp; curd; currant; danish; drumstick; flour; goat; \
    goose; gyoza; hamburger; hot dog; ice; jelly; liver; milk; mince; molasses; muffin; nut; pepper; pickle; pizza; port; \
    preserve; pudding mix; queso; quail; roll; rose; salad; soda; sprout; squash; steak; string; sushi; toast; \
    vermicelli; wafer; water; wrap";

/// A name that begins so names what it stands for, not what it is.
const INSTEAD_OF: [&str; 3] = ["mock", "imitation", "faux"];

/// A name that begins so names nothing of animals by what it is; of plants it does.
const OF_PLANTS: [&str; 7] = ["vegan", "vegetarian", "meatless", "plant based", "meat free", "dairy free", "non dairy"];

/// What the table says of one food.
#[derive(Debug, Default)]
struct Said {
    forms: Vec<&'static str>,
    holds: Vec<&'static str>,
    not: Vec<&'static str>,
}

/// The table by the food that it speaks of.
struct Table {
    foods: HashMap<&'static str, Said>,
    kinds: BTreeMap<&'static str, Vec<&'static str>>,
}

/// The columns of `made_of.tsv`: the food, its forms, what it may be in, and what is only called like it.
fn rows() -> impl Iterator<Item = [&'static str; 4]> {
    let lines = TABLE.lines().filter(|line| !line.is_empty() && !line.starts_with('#')).skip(1);
    lines.map(|line| {
        let mut cells = line.split('\t');
        [(); 4].map(|()| cells.next().unwrap_or_default())
    })
}

fn names(cell: &'static str) -> impl Iterator<Item = &'static str> {
    cell.split("; ").filter(|name| !name.is_empty())
}

fn table() -> &'static Table {
    static READ: OnceLock<Table> = OnceLock::new();
    READ.get_or_init(|| {
        let mut table = Table { foods: HashMap::new(), kinds: BTreeMap::new() };
        for [food, forms, holders, not] in rows() {
            names(forms).for_each(|name| table.foods.entry(name).or_default().forms.push(food));
            names(not).for_each(|name| table.foods.entry(name).or_default().not.push(food));
            for name in names(holders) {
                match name.strip_prefix("kind:") {
                    Some(kind) => table.kinds.entry(kind).or_default().push(food),
                    None => table.foods.entry(name).or_default().holds.push(food),
                }
            }
        }
        table
    })
}

impl Foods {
    /// How `food` stands to `asked`, which was named by its own name or by another, wider one.
    ///
    /// Who asks for chickpeas means dried and tinned ones; who asks for dried chickpeas may mean only these.
    pub fn kinship(&self, food: FoodId, asked: FoodId, by_own_name: bool) -> Kinship {
        if food == asked {
            return Kinship::Form;
        }
        let lineage = self.lineage(food);
        let is_it = |part: &&Part| part.0 == asked;
        let is_meant = |part: &Part| part.0 == asked && (part.1 || !by_own_name);
        if lineage.forms.iter().any(is_meant) {
            return Kinship::Form;
        }
        if lineage.holds.iter().any(is_meant) {
            return Kinship::MayHold;
        }
        if let Some(part) = lineage.forms.iter().chain(&lineage.holds).find(is_it) {
            return Kinship::Near(part.0);
        }
        let theirs = &self.lineage(asked).forms;
        let of_theirs = |part: &&Part| theirs.iter().any(|(form, _)| *form == part.0);
        let shared = lineage.forms.iter().chain(&lineage.holds).find(of_theirs).map(|part| part.0);
        let plain = || theirs.iter().map(|part| part.0).find(|form| *form == food);
        shared.or_else(plain).map_or(Kinship::None, Kinship::Near)
    }

    /// Is it a form of food of that kind, or may it hold some?
    pub fn is_made_of_kind(&self, food: FoodId, kind: Kind) -> bool {
        let lineage = self.lineage(food);
        lineage.forms.iter().chain(&lineage.holds).any(|part| self[part.0].kind == Some(kind))
    }

    fn lineage(&self, food: FoodId) -> &Lineage {
        self.all.lineage(food, || self.find_lineage(food))
    }

    fn find_lineage(&self, id: FoodId) -> Lineage {
        let mut forms = self.forms_of(id);
        let mut held = self.direct(id).1;
        // The table says of each food of the reference what it may hold. What a household mixes itself, or calls by a name of its own,
        // may hold what its parts do.
        if !self.all.is_of_reference(id) {
            let parts = forms.iter().chain(&held).map(|part| part.0);
            let theirs: Vec<Part> = parts.flat_map(|part| self.direct(part).1).collect();
            held.extend(theirs);
        }
        let mut holds: Vec<Part> = Vec::new();
        for part in held {
            for one in [part].into_iter().chain(self.forms_of(part.0)) {
                if one.0 != id && !holds.contains(&one) && !forms.contains(&one) {
                    holds.push(one);
                }
            }
        }
        let not: Vec<FoodId> = self.said(id).into_iter().flat_map(|said| &said.not).filter_map(|name| self.find(name)).collect();
        let free = self.free_of(id);
        let is_free = |part: &Part| free.contains(&part.0) || self.forms_of(part.0).iter().any(|form| free.contains(&form.0));
        let keep = |part: &Part| !not.contains(&part.0) && (free.is_empty() || !is_free(part));
        forms.retain(keep);
        holds.retain(keep);
        forms.sort();
        holds.sort();
        Lineage { forms, holds }
    }

    /// What it is a form of, and what that is a form of. A wider name leads no further: who is called after "liver", which is that of
    /// chicken by itself, is of no chicken.
    fn forms_of(&self, id: FoodId) -> Vec<Part> {
        let mut forms: Vec<Part> = Vec::new();
        let mut open = self.direct(id).0;
        while let Some(part) = open.pop() {
            if part.0 != id && !forms.contains(&part) {
                forms.push(part);
                if part.1 {
                    open.extend(self.direct(part.0).0);
                }
            }
        }
        forms
    }

    /// What its name says it is free of: "tomato-free ketchup".
    fn free_of(&self, id: FoodId) -> Vec<FoodId> {
        let key = key_of(&self[id].name);
        let words: Vec<&str> = key.split(' ').collect();
        let before = |at: usize| (0..at).find_map(|from| self.find_known(&words[from..at].join(" ")));
        words.iter().enumerate().filter(|(_, word)| **word == "free").filter_map(|(at, _)| before(at)).collect()
    }

    fn said(&self, id: FoodId) -> Option<&'static Said> {
        table().foods.get(self[id].name.as_str())
    }

    /// What a food is a form of and what it holds, by its own name and by the table alone.
    fn direct(&self, id: FoodId) -> (Vec<Part>, Vec<Part>) {
        let food = &self[id];
        let said = self.said(id);
        let (mut forms, mut holds) = self.by_name(&food.name, id);
        if !self.all.is_of_reference(id) {
            for also in &food.also {
                let (more, held) = self.by_name(also, id);
                forms.extend(more);
                holds.extend(held);
                let said = table().foods.get(also.to_lowercase().as_str());
                forms.extend(said.iter().flat_map(|said| &said.forms).filter_map(|name| self.part(name)));
                holds.extend(said.iter().flat_map(|said| &said.holds).filter_map(|name| self.part(name)));
            }
        }
        forms.extend(said.iter().flat_map(|said| &said.forms).filter_map(|name| self.part(name)));
        holds.extend(said.iter().flat_map(|said| &said.holds).filter_map(|name| self.part(name)));
        let of_kind = food.kind.and_then(|kind| table().kinds.get(kind.name()));
        holds.extend(of_kind.into_iter().flatten().filter_map(|name| self.part(name)));
        let not: Vec<FoodId> = said.into_iter().flat_map(|said| &said.not).filter_map(|name| self.find(name)).collect();
        let keep = |part: &Part| part.0 != id && !not.contains(&part.0);
        forms.retain(keep);
        holds.retain(keep);
        (forms, holds)
    }

    fn part(&self, name: &str) -> Option<Part> {
        let key = key_of(name);
        self.find_known(&key).map(|id| (id, key_of(&self[id].name) == key))
    }

    /// What a name tells: the food at its end or before a form, and the foods that stand in the rest of it.
    fn by_name(&self, name: &str, id: FoodId) -> (Vec<Part>, Vec<Part>) {
        let key = key_of(name);
        if self[id].kind == Some(Kind::Household) || INSTEAD_OF.iter().any(|start| key.starts_with(start)) {
            return Default::default();
        }
        let words: Vec<&str> = key.split(' ').collect();
        let known = |from: usize, to: usize| {
            let key = words[from..to].join(" ");
            let says_little = SAY_LITTLE.split("; ").any(|name| name == key);
            let food = if says_little { None } else { self.find_known(&key).filter(|food| *food != id) };
            food.map(|food| (food, key_of(&self[food].name) == key))
        };
        let count = words.len();
        let at_its_end = (1..count).find_map(|from| known(from, count).map(|part| (part, from, count)));
        let is_form = |word: &&str| FORMS.split(' ').any(|form| form == *word);
        let before_a_form =
            || (1..count).rev().filter(|to| words[*to..].iter().all(is_form)).find_map(|to| known(0, to).map(|part| (part, 0, to)));
        let form = at_its_end.or_else(before_a_form);
        let span = form.map_or(count..count, |(_, from, to)| from..to);
        let mut holds = Vec::new();
        let mut from = 0;
        while from < count {
            if span.contains(&from) {
                from = span.end;
                continue;
            }
            let last = if from < span.start { span.start } else { count };
            let found = (from + 1..=last).rev().filter(|to| to - from < count).find_map(|to| known(from, to).map(|part| (part, to)));
            match found {
                Some((part, to)) => {
                    let is_free = words.get(to) == Some(&"free");
                    if !is_free && form.is_none_or(|(of, ..)| of.0 != part.0) {
                        holds.push(part);
                    }
                    from = to;
                }
                None => from += 1,
            }
        }
        let mut forms: Vec<Part> = form.into_iter().map(|(part, ..)| part).collect();
        // "Strawberry jam" is jam, and it is strawberries.
        if span.start < count && span.end == count && words[span.clone()].iter().all(is_form) {
            let whole = known(0, span.start);
            holds.retain(|held| Some(*held) != whole);
            forms.extend(whole);
        }
        if OF_PLANTS.iter().any(|start| key.starts_with(start)) {
            forms.retain(|part| !is_of_animals(&self[part.0]));
            holds.retain(|part| !is_of_animals(&self[part.0]));
        }
        (forms, holds)
    }
}

fn is_of_animals(food: &Food) -> bool {
    const BORNE: [Allergen; 5] = [Allergen::Milk, Allergen::Egg, Allergen::Fish, Allergen::Crustaceans, Allergen::Molluscs];
    let by_kind =
        food.kind.is_some_and(|kind| kind.is_raw() || matches!(kind, Kind::CookedMeat | Kind::CookedFish | Kind::CookedEgg | Kind::Dairy));
    let bears = [&food.allergens, &food.contains].into_iter().flatten().any(|fact| fact.value.iter().any(|one| BORNE.contains(one)));
    by_kind || bears || OF_FLESH.iter().chain(OF_ANIMALS).any(|name| *name == food.name)
}

/// Every food that others are made of: what is a form of it, and what may hold it.
#[cfg(test)]
pub(crate) fn listing(foods: &Foods) -> String {
    use itertools::Itertools;

    let mut forms: BTreeMap<String, Vec<String>> = BTreeMap::new();
    let mut holders: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for (id, food) in foods.iter() {
        let lineage = foods.lineage(id);
        let name = |part: &Part| foods[part.0].name.clone();
        lineage.forms.iter().map(name).unique().for_each(|of| forms.entry(of).or_default().push(food.name.clone()));
        lineage.holds.iter().map(name).unique().for_each(|of| holders.entry(of).or_default().push(food.name.clone()));
    }
    let bases: Vec<String> = forms.keys().chain(holders.keys()).cloned().sorted().dedup().collect();
    let line = |base: &String| {
        let of = forms.get(base).map_or(String::new(), |all| format!("\n    is: {}", all.iter().sorted().join(", ")));
        let may = holders.get(base).map_or(String::new(), |all| format!("\n    may be in: {}", all.iter().sorted().join(", ")));
        format!("{base}{of}{may}\n")
    };
    bases.iter().map(line).collect()
}

#[cfg(test)]
mod tests;
