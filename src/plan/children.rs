//! What is not for infants and small children, by their age on the day of the meal. A table, one row each with its published source;
//! a rule only points it out, and the child's doctor has the last word.

use std::collections::BTreeSet;

use jiff::ToSpan;
use jiff::civil::Date;

use super::guarded::Guarded;
use super::plate::{Found, Plate, plates};
use crate::foods::{Allergen, Food, Kind, State};
use crate::kitchen::{Appliance, ApplianceId, Eater, Household, Kitchen, Mistake, Piece, Recipe, Step, Wanted, Ware, Warning, Week};

/// What a row looks for.
enum Sought {
    /// The food itself, or a sort of it: heather honey.
    Named(&'static [&'static str]),
    /// Not ground and no butter, oil or flour of it.
    WholeNut,
    /// In a dish, or at a meal, that no step heats.
    RawEgg,
    Sugar,
    /// A fruit whose name ends so, whole.
    Whole(&'static [&'static str]),
    /// In a dish, or at a meal, that no step heats.
    Raw(&'static [&'static str]),
    /// Butter of a nut, or of peanuts.
    NutButter,
    /// Cheese in sticks, or in pieces by the words of its line.
    CheeseInPieces,
}

struct Row {
    under_months: i32,
    sought: Sought,
    /// As a sentence goes on after the food: "is not for ...".
    why: &'static str,
    source: &'static str,
    is_mistake: bool,
}

const fn caution(under_months: i32, sought: Sought, why: &'static str, source: &'static str) -> Row {
    Row { under_months, sought, why, source, is_mistake: false }
}

const CDC: &str = "CDC, Foods and Drinks to Avoid or Limit, from memory";
const CHOKING: &str = "CDC, Choking Hazards, and AAP, Choking Prevention, from memory";
const WHO_FEEDING: &str = "WHO, Guideline for complementary feeding (2023), and CDC, from memory";

const SMALL_AND_ROUND: [&str; 10] = [
    "popcorn",
    "popcorn kernels",
    "raisin",
    "sultana",
    "currant",
    "dried cranberry",
    "marshmallow",
    "boiled sweet",
    "gummy sweet",
    "toffee",
];

/// Every rule. None of the sources was looked up for this table.
static ROWS: [Row; 12] = [
    Row {
        under_months: 12,
        sought: Sought::Named(&["honey"]),
        why: "is never given before 12 months, for it can cause infant botulism",
        source: CDC,
        is_mistake: true,
    },
    caution(12, Sought::WholeNut, "is a choking hazard: no whole nuts", CHOKING),
    caution(12, Sought::RawEgg, "is not given raw or soft: cook egg until firm", CDC),
    caution(12, Sought::Named(&["salt"]), "is not added to what an infant eats", WHO_FEEDING),
    caution(12, Sought::Sugar, "is added sugar, which an infant does not get", WHO_FEEDING),
    caution(48, Sought::WholeNut, "is a choking hazard under 4 years: no whole nuts", CHOKING),
    caution(
        48,
        Sought::Whole(&["grape", "cherry", "cherry tomato", "grape tomato", "blueberry"]),
        "is a choking hazard under 4 years: quarter it",
        CHOKING,
    ),
    caution(
        48,
        Sought::Raw(&["carrot", "celery", "apple", "radish", "turnip", "kohlrabi"]),
        "is a choking hazard under 4 years where raw and in pieces: grate it or cook it soft",
        CHOKING,
    ),
    caution(
        48,
        Sought::Whole(&["sausage", "frankfurter"]),
        "is a choking hazard under 4 years: cut it lengthwise, and then small",
        CHOKING,
    ),
    caution(48, Sought::Named(&SMALL_AND_ROUND), "is a choking hazard under 4 years", CHOKING),
    caution(48, Sought::NutButter, "is a choking hazard under 4 years by the spoon or in lumps: spread it thinly", CHOKING),
    caution(
        48,
        Sought::CheeseInPieces,
        "is a choking hazard under 4 years in cubes, chunks or sticks: grate it or slice it thinly",
        CHOKING,
    ),
];

/// Who should be asked.
const ASK: &str = "Ask the child's doctor";

/// Adds what is not for the small children of the household: honey as a mistake, cautions once a dish and week.
pub fn guard_children(kitchen: &Kitchen, week: &Week, guarded: &mut Guarded) {
    let mut said = BTreeSet::new();
    for meal in &week.meals {
        let on = meal.at_time.date();
        for plate in plates(kitchen, meal) {
            let Some(eater) = plate.eater else { continue };
            for found in plate.foods(kitchen) {
                for (number, row) in rows_for(eater, on).filter(|(_, row)| row.meets(kitchen, &found)) {
                    let dish = found.dishes.last().map(|dish| dish.0);
                    let first = said.insert((eater.name.clone(), number, dish, found.food, dish.is_none().then_some(on)));
                    if row.is_mistake {
                        guarded.mistakes.push(row.mistake(kitchen, &plate, &found));
                    } else if first {
                        let warning = row.warning(kitchen, eater, on, &plate, &found);
                        if row.source == CHOKING {
                            guarded.choking.push((eater.name.clone(), found.food, row.why));
                        }
                        guarded.cautions.push((found.dishes.last().copied(), warning.words()));
                        guarded.warnings.push(warning);
                    }
                }
            }
        }
    }
}

/// Nothing is reckoned of what a child needs: told where somebody under 18 has `needs`.
pub(super) fn needs_of_the_young(household: &Household, week: &Week) -> Vec<Warning> {
    let Some(on) = week.meals.iter().map(|meal| meal.at_time.date()).max() else { return Vec::new() };
    let young = |eater: &&Eater| eater.needs.is_some() && eater.born.is_some_and(|born| is_under(born, on, 18 * 12));
    let told = household.named.iter().filter(young).map(|eater| {
        let (name, age) = (&eater.name, eater.born.map(|born| age(born, on)).unwrap_or_default());
        let text = format!("the needs of {name} ({age}) are left out: they are for adults, nobody under 18. {ASK}, and take needs out.");
        Warning::Note { at: Some(eater.at.clone()), text }
    });
    told.collect()
}

/// The rows that hold for an eater of that age on that day; of two of one kind the one for the younger.
fn rows_for(eater: &Eater, on: Date) -> impl Iterator<Item = (usize, &'static Row)> {
    let born = eater.born;
    let holds = move |row: &Row| born.is_some_and(|born| is_under(born, on, row.under_months));
    let infant = born.is_some_and(|born| is_under(born, on, 12));
    ROWS.iter()
        .enumerate()
        .filter(move |(_, row)| holds(row) && !(infant && row.under_months > 12 && matches!(row.sought, Sought::WholeNut)))
}

/// On the birthday itself the age is reached. One born on 29 February has it on the 28th where there is no 29th. A day of birth after the meal
/// is a slip, and guards as the youngest.
fn is_under(born: Date, on: Date, months: i32) -> bool {
    born.checked_add(months.months()).is_ok_and(|reached| on < reached)
}

impl Row {
    fn meets(&self, kitchen: &Kitchen, found: &Found<'_>) -> bool {
        let food = &kitchen.foods[found.food];
        match self.sought {
            Sought::Named(names) => names.iter().any(|name| ends_with(food, name)),
            Sought::WholeNut => food.kind == Some(Kind::Nut) && !is_broken_up(food, found),
            Sought::RawEgg => food.kind == Some(Kind::RawEgg) && !is_heated(&kitchen.appliances, &kitchen.recipes, found),
            Sought::Sugar => (food.kind == Some(Kind::Sweetener) || ends_with(food, "sugar")) && !ends_with(food, "honey"),
            Sought::Whole(names) => names.iter().any(|name| ends_with(food, name)) && !is_broken_up(food, found),
            Sought::NutButter => {
                let of_nuts = |allergen: &Allergen| matches!(allergen, Allergen::Nuts | Allergen::Peanuts);
                let bears = [&food.allergens, &food.contains].into_iter().flatten().any(|fact| fact.value.iter().any(of_nuts));
                bears && ends_with(food, "butter")
            }
            Sought::CheeseInPieces => {
                let is_cheese = food.kind == Some(Kind::Dairy) && !["milk", "yoghurt", "cream"].iter().any(|other| ends_with(food, other));
                food.name == "string cheese" || is_cheese && is_firm(food) && is_in_pieces(found)
            }
            Sought::Raw(names) => {
                names.iter().any(|name| ends_with(food, name))
                    && !is_heated(&kitchen.appliances, &kitchen.recipes, found)
                    && !is_broken_up(food, found)
            }
        }
    }

    fn mistake(&self, kitchen: &Kitchen, plate: &Plate<'_>, found: &Found<'_>) -> Mistake {
        let name = plate.name;
        let food = &kitchen.foods[found.food].name;
        Mistake {
            at: found.at.clone(),
            cause: format!("{}: {} ({})", plate.chain(kitchen, found), self.why, self.source),
            remedy: format!(
                "Give {name} something else, with instead in the meal, or leave it away, with without = {{ {name} = [\"{food}\"] }}."
            ),
        }
    }

    fn warning(&self, kitchen: &Kitchen, eater: &Eater, on: Date, plate: &Plate<'_>, found: &Found<'_>) -> Warning {
        let age = eater.born.map(|born| age(born, on)).unwrap_or_default();
        let text = format!("{} ({}, {age}): {} ({}). {ASK}.", plate.chain(kitchen, found), eater.name, self.why, self.source);
        Warning::Note { at: Some(found.at.clone()), text }
    }
}

/// "9 months", "3 years".
fn age(born: Date, on: Date) -> String {
    if born > on {
        return format!("born after that day, on {born}: see born");
    }
    let months = born.until((jiff::Unit::Month, on)).map_or(0, |span| span.get_months());
    if months < 24 { format!("{months} months") } else { format!("{} years", months / 12) }
}

fn ends_with(food: &Food, name: &str) -> bool {
    let food = food.name.to_lowercase();
    food == name || food.ends_with(&format!(" {name}"))
}

/// Cheese that is firm enough to be cut into pieces; butter and what is poured or spread is not.
fn is_firm(food: &Food) -> bool {
    const SPREAD: [&str; 6] = ["butter", "ghee", "ricotta", "mascarpone", "quark", "custard"];
    !SPREAD.iter().any(|other| ends_with(food, other))
}

/// "Cubed", "in chunks", "diced": by the form, what is done to it, or what the line says besides.
fn is_in_pieces(found: &Found<'_>) -> bool {
    const WORDS: [&str; 8] = ["cubed", "cube", "cubes", "chunk", "chunks", "diced", "sticks", "pieces"];
    let line = found.line;
    let form = match &line.wanted {
        Wanted::Food { item: Some(item), .. } => match &item.state {
            State::Prepared(form) => form.as_str(),
            _ => "",
        },
        _ => "",
    };
    let said =
        [Some(form), line.prep.as_deref(), line.remark.as_deref()].into_iter().flatten().collect::<Vec<_>>().join(" ").to_lowercase();
    said.split(|c: char| !c.is_alphabetic()).any(|word| WORDS.contains(&word))
}

/// Ground, chopped, grated or made into something else.
fn is_broken_up(food: &Food, found: &Found<'_>) -> bool {
    const WORDS: [&str; 12] =
        ["ground", "chopped", "grated", "crushed", "flaked", "minced", "butter", "flour", "oil", "milk", "quartered", "paste"];
    let form = match &found.line.wanted {
        Wanted::Food { item: Some(item), .. } => match &item.state {
            State::Prepared(form) => form.as_str(),
            State::Cooked => return true,
            _ => "",
        },
        _ => "",
    };
    let beside = [found.line.prep.as_deref(), found.line.remark.as_deref()].map(Option::unwrap_or_default);
    let said = [food.name.as_str(), form, beside[0], beside[1]].join(" ").to_lowercase();
    said.split(|c: char| !c.is_alphabetic()).any(|word| WORDS.contains(&word))
}

/// Is it heated once it is in: by a step of its dish that names it or comes later, or so by a dish that its dish goes into?
fn is_heated(appliances: &[Appliance], recipes: &[Recipe], found: &Found<'_>) -> bool {
    let inside = found.dishes.iter().skip(1).map(|part| Ware::Recipe(*part)).chain([Ware::Food(found.food)]);
    found.dishes.iter().zip(inside).any(|(dish, ware)| {
        let recipe = &recipes[*dish];
        let is_it = |index: usize| recipe.ingredients.get(index).is_some_and(|line| line.ware() == ware);
        let names = |step: &Step| step.text.iter().any(|piece| matches!(piece, Piece::Ingredient { index, .. } if is_it(*index)));
        let first = recipe.steps.iter().position(names).unwrap_or(0);
        recipe.steps.iter().skip(first).any(|step| heats(appliances, step))
    })
}

fn heats(appliances: &[Appliance], step: &Step) -> bool {
    let hot = |on: &ApplianceId| appliances[*on].heat || appliances[*on].kind.is_some();
    step.on.iter().any(hot) || step.temperature.is_some() || step.inside.is_some()
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;
    use pretty_assertions::assert_eq;

    use super::*;

    #[test]
    fn on_the_birthday_the_age_is_reached() {
        let born = date(2026, 2, 20);
        assert_eq!([date(2027, 2, 19), date(2027, 2, 20)].map(|on| is_under(born, on, 12)), [true, false]);
        assert_eq!([date(2030, 2, 19), date(2030, 2, 20)].map(|on| is_under(born, on, 48)), [true, false]);
        assert!(is_under(born, date(2026, 1, 1), 12), "born after the meal");
        let leap = date(2028, 2, 29);
        assert_eq!([date(2029, 2, 27), date(2029, 2, 28)].map(|on| is_under(leap, on, 12)), [true, false]);
    }

    #[test]
    fn an_age_is_told_in_months_up_to_two_years() {
        let born = date(2026, 2, 20);
        assert_eq!(age(born, date(2026, 11, 30)), "9 months");
        assert_eq!(age(born, date(2029, 3, 1)), "3 years");
    }
}
