//! The ways to fill each open meal: a pattern, and what takes each of its places. In file order: of patterns, then of recipes by id, then
//! of foods as in foods.toml.
//!
//! Two places of one word are filled by two different things, and a recipe stands once in a meal. Which of the ways a household allows is
//! not known here.

use std::collections::BTreeSet;

use crate::kitchen::{AnyLine, Ingredient, Kitchen, Meal, Open, PatternId, Plate, RecipeId, Ware};
use crate::measure::Minutes;
use crate::words::{in_a_sentence, listed, sentence};

/// A form is filled in at most so many ways; where there would be more, each place keeps its first.
const MOST_WAYS: usize = 20_000;

/// The lines of a meal, with places to be filled.
#[derive(Debug, Clone)]
pub struct Form {
    pub pattern: Option<PatternId>,
    pub each: Vec<Plate>,
    pub shared: Vec<Plate>,
    /// What a person wrote into the meal itself.
    pub own: bool,
    pub minutes: Option<Minutes>,
    pub style: Option<String>,
}

impl Form {
    pub fn places(&self) -> impl Iterator<Item = &AnyLine> {
        let place = |plate: &'_ Plate| matches!(plate, Plate::Any(_));
        self.each.iter().chain(&self.shared).filter(move |plate| place(plate)).filter_map(|plate| match plate {
            Plate::Any(line) => Some(line),
            Plate::As(_) => None,
        })
    }

    pub fn fixed(&self) -> impl Iterator<Item = &Ingredient> {
        self.each.iter().chain(&self.shared).filter_map(|plate| match plate {
            Plate::As(line) => Some(line),
            Plate::Any(_) => None,
        })
    }
}

/// One way to fill a form, with what rules ask of it.
#[derive(Debug, Clone)]
pub struct Way {
    /// Index into [`Ways::forms`].
    pub form: usize,
    /// For each place of the form, which of its fillings.
    pub choice: Vec<u16>,
    /// What fills the places, in order.
    pub fillings: Vec<Ware>,
    /// As a set.
    pub filled: Vec<Ware>,
    /// Everything that its lines name, as a set.
    pub wares: Vec<Ware>,
}

/// An open meal.
#[derive(Debug, Clone)]
pub struct Gap {
    /// Its place in the whole week.
    pub meal: usize,
    /// Indices into [`Ways::all`], in file order.
    pub ways: Vec<u32>,
    /// What it may follow, whatever is barred of their ways.
    pub forms: Vec<usize>,
}

/// All ways of all open meals. Meals that follow the same pattern share them.
#[derive(Debug, Clone, Default)]
pub struct Ways {
    pub forms: Vec<Form>,
    pub all: Vec<Way>,
    /// By form, its ways.
    of_form: Vec<std::ops::Range<u32>>,
    /// False where some form has more ways than are held.
    pub complete: bool,
    /// By form, whether it is one of those.
    pub cut: Vec<bool>,
}

impl Ways {
    pub fn new() -> Ways {
        Ways { complete: true, ..Ways::default() }
    }

    /// The gap of a meal; `lines` is what it holds already. `of_pattern` remembers the forms that are patterns alone.
    pub fn gap(&mut self, kitchen: &Kitchen, meal: &Meal, place: usize, lines: &Open, of_pattern: &mut Vec<(PatternId, usize)>) -> Gap {
        let patterns = &kitchen.together.patterns;
        let mut ways = Vec::new();
        if lines.has_own_places() {
            let named = meal.pattern.map(|pattern| &patterns[pattern]);
            let form = Form {
                pattern: meal.pattern,
                each: lines.each.clone(),
                shared: lines.shared.clone(),
                own: true,
                minutes: named.and_then(|named| named.minutes),
                style: named.and_then(|named| named.style.clone()),
            };
            let form = self.add(form);
            ways.extend(self.of_form[form].clone());
            return Gap { meal: place, ways, forms: vec![form] };
        }
        let mealtime = mealtime(kitchen, meal);
        let mut forms = Vec::new();
        for (index, pattern) in patterns.iter().enumerate() {
            let id = PatternId(index);
            let served = pattern.mealtimes.as_ref().is_none_or(|words| words.contains(&mealtime));
            if meal.pattern.map_or(!served, |named| named != id) {
                continue;
            }
            let bare = lines.each.is_empty() && lines.shared.is_empty();
            let known = of_pattern.iter().find(|(known, _)| bare && *known == id).map(|(_, form)| *form);
            let form = known.unwrap_or_else(|| {
                let form = self.add(Form {
                    pattern: Some(id),
                    each: lines.each.iter().chain(&pattern.each).cloned().collect(),
                    shared: lines.shared.iter().chain(&pattern.shared).cloned().collect(),
                    own: false,
                    minutes: pattern.minutes,
                    style: pattern.style.clone(),
                });
                if bare {
                    of_pattern.push((id, form));
                }
                form
            });
            ways.extend(self.of_form[form].clone());
            forms.push(form);
        }
        Gap { meal: place, ways, forms }
    }

    /// Adds a form with all its ways; its place among the forms.
    pub fn add(&mut self, form: Form) -> usize {
        let index = self.forms.len();
        let start = self.all.len() as u32;
        let places: Vec<&AnyLine> = form.places().collect();
        let mut most: Vec<usize> = places.iter().map(|place| place.fillings.len()).collect();
        let too_many = |most: &[usize]| most.iter().map(|count| *count as f64).product::<f64>() > MOST_WAYS as f64;
        let cut = too_many(&most);
        self.complete &= !cut;
        while too_many(&most) {
            if let Some(longest) = most.iter_mut().max() {
                *longest -= 1;
            }
        }
        let mut choices = Vec::new();
        choose(&form, &places, &most, &mut Vec::new(), &mut choices);
        let ways = choices.into_iter().map(|choice| way(&form, index, choice));
        self.all.extend(ways);
        self.of_form.push(start..self.all.len() as u32);
        self.cut.push(cut);
        self.forms.push(form);
        index
    }

    /// The lines of a way: for each eater, and for the table.
    pub fn lines(&self, way: u32) -> (Vec<Ingredient>, Vec<Ingredient>) {
        let way = &self.all[way as usize];
        let form = &self.forms[way.form];
        let mut next = way.choice.iter();
        let mut fill = |plates: &[Plate]| {
            let line = |plate: &Plate| match plate {
                Plate::As(line) => Some(line.clone()),
                Plate::Any(line) => next.next().and_then(|choice| line.fillings.get(usize::from(*choice))).cloned(),
            };
            plates.iter().filter_map(line).collect::<Vec<_>>()
        };
        let each = fill(&form.each);
        (each, fill(&form.shared))
    }

    /// The meal with a way written into it.
    pub fn meal(&self, kitchen: &Kitchen, meal: &Meal, way: u32) -> Meal {
        let (each, shared) = self.lines(way);
        let chosen = &self.all[way as usize];
        let mut filled = meal.holding(kitchen, each, shared);
        filled.pattern = self.forms[chosen.form].pattern;
        filled.name = meal.name.clone().or_else(|| Some(self.name(kitchen, chosen)));
        filled
    }

    /// "Plate: pearl barley, braised chicken and slaw".
    fn name(&self, kitchen: &Kitchen, way: &Way) -> String {
        let names = kitchen.names();
        let said: Vec<String> = way.fillings.iter().map(|ware| in_a_sentence(names.ware(*ware))).collect();
        let pattern = self.forms[way.form].pattern.map(|pattern| &kitchen.together.patterns[pattern].name);
        match (pattern, said.is_empty()) {
            (Some(pattern), true) => pattern.clone(),
            (Some(pattern), false) => format!("{pattern}: {}", dishes(&said)),
            (None, _) => sentence(&dishes(&said)),
        }
    }

    /// The places that a way gives to recipes.
    pub fn taken(&self, way: u32) -> impl Iterator<Item = (&str, RecipeId)> {
        let way = &self.all[way as usize];
        let words = self.forms[way.form].places().map(|place| place.word.as_str());
        words.zip(&way.fillings).filter_map(|(word, ware)| recipe_of(*ware).map(|recipe| (word, recipe)))
    }
}

/// "pearl barley and apple"; where a dish has an "and" of its own, commas alone part it from the next.
fn dishes(said: &[String]) -> String {
    if said.iter().any(|dish| dish.contains(" and ")) { said.join(", ") } else { listed(said) }
}

/// What of a meal's wares are recipes.
pub fn recipes(wares: &[Ware]) -> impl Iterator<Item = RecipeId> {
    wares.iter().filter_map(|ware| recipe_of(*ware))
}

fn recipe_of(ware: Ware) -> Option<RecipeId> {
    match ware {
        Ware::Recipe(recipe) => Some(recipe),
        Ware::Food(_) => None,
    }
}

fn way(form: &Form, index: usize, choice: Vec<u16>) -> Way {
    let filling = |(place, choice): (&AnyLine, &u16)| place.fillings.get(usize::from(*choice)).map(Ingredient::ware);
    let fillings: Vec<Ware> = form.places().zip(&choice).filter_map(filling).collect();
    let wares = form.fixed().map(Ingredient::ware).chain(fillings.iter().copied());
    Way { form: index, choice, filled: as_set(fillings.iter().copied()), wares: as_set(wares), fillings }
}

pub fn as_set(wares: impl Iterator<Item = Ware>) -> Vec<Ware> {
    wares.collect::<BTreeSet<_>>().into_iter().collect()
}

/// Every choice in file order. Of two places that ask for the same, the first takes what stands first.
fn choose(form: &Form, places: &[&AnyLine], most: &[usize], so_far: &mut Vec<u16>, choices: &mut Vec<Vec<u16>>) {
    let at = so_far.len();
    let Some(place) = places.get(at) else { return choices.push(so_far.clone()) };
    for (index, filling) in place.fillings.iter().enumerate().take(most[at]) {
        let ware = filling.ware();
        let is_recipe = matches!(ware, Ware::Recipe(_));
        let clashes = |(other, choice): (&&AnyLine, &u16)| {
            let taken = other.fillings[usize::from(*choice)].ware();
            let same_place = other.word == place.word;
            let alike = same_place && alike(other, place) && usize::from(*choice) > index;
            (taken == ware && (same_place || is_recipe)) || alike
        };
        if places.iter().zip(so_far.iter()).any(clashes) || (is_recipe && form.fixed().any(|line| line.ware() == ware)) {
            continue;
        }
        so_far.push(index as u16);
        choose(form, places, most, so_far, choices);
        so_far.pop();
    }
}

/// Do two places ask for the same amount of the same word, so that their order says nothing?
fn alike(one: &AnyLine, other: &AnyLine) -> bool {
    one.text == other.text && one.fillings.len() == other.fillings.len()
}

/// The word of mealtimes that a meal is for; of a meal at a time of its own, the nearest.
pub fn mealtime(kitchen: &Kitchen, meal: &Meal) -> String {
    let mealtimes = &kitchen.household.mealtimes;
    if mealtimes.contains_key(&meal.word) {
        return meal.word.clone();
    }
    let at = meal.at_time.time();
    let far =
        |time: &jiff::civil::Time| time.until(at).map_or(i64::MAX, |span| (i64::from(span.get_hours()) * 60 + span.get_minutes()).abs());
    mealtimes.iter().min_by_key(|(_, time)| far(time)).map_or_else(|| meal.word.clone(), |(word, _)| word.clone())
}
