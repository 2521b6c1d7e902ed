//! What is not for infants and small children, by their age on the day of the meal. A table, one row each with its published source;
//! a rule only points it out, and the child's doctor has the last word.

use std::collections::BTreeSet;

use jiff::ToSpan;
use jiff::civil::Date;

use super::guarded::{ForAChild, Guarded};
use super::heated::{is_firm, is_heated};
use super::only_named::WordsOf;
use super::plate::{Found, Plate, plates};
use super::uses::meal_name;
use crate::foods::{Allergen, Food, FoodId, Foods, Kind, Kinship, State, key_of};
use crate::kitchen::{Eater, Household, Kitchen, Mistake, RecipeId, Wanted, Warning, Week};

/// What a row looks for.
enum Sought {
    /// The food itself, or a sort of it: heather honey.
    Named(&'static [&'static str]),
    /// Not ground and no butter, oil or flour of it.
    WholeNut,
    /// In a dish, or at a meal, that no step heats until it is firm.
    RawEgg,
    /// What may have honey in it, or is called after it.
    MayHoldHoney,
    /// In pieces: chopped, flaked.
    ChoppedNut,
    /// Whole or in pieces, of those that are not tiny.
    Seed,
    /// Rich in salt, other than salt itself.
    Salty,
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

const SALTY: &str = "NHS, Foods to avoid giving babies and young children, from memory";

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
static ROWS: [Row; 16] = [
    Row {
        under_months: 12,
        sought: Sought::Named(&["honey"]),
        why: "is never given before 12 months, for it can cause infant botulism",
        source: CDC,
        is_mistake: true,
    },
    caution(12, Sought::MayHoldHoney, "may have honey in it, which is never given before 12 months: read the packet", CDC),
    caution(12, Sought::WholeNut, "is a choking hazard: no whole nuts", CHOKING),
    caution(12, Sought::RawEgg, "is not given raw or soft: cook egg until firm", CDC),
    caution(12, Sought::Named(&["salt"]), "is not added to what an infant eats", WHO_FEEDING),
    caution(12, Sought::Salty, "is rich in salt, which an infant does not get: leave it out, or take one without salt", SALTY),
    caution(12, Sought::Sugar, "is added sugar, which an infant does not get", WHO_FEEDING),
    caution(48, Sought::WholeNut, "is a choking hazard under 4 years: no whole nuts", CHOKING),
    caution(48, Sought::ChoppedNut, "is a choking hazard under 4 years, chopped too: grind it, or spread it smooth and thin", CHOKING),
    caution(48, Sought::Seed, "is a choking hazard under 4 years: grind it", CHOKING),
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
    guard_infants_of_words(kitchen, week, guarded);
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
                        let choking = row.source == CHOKING;
                        if choking {
                            guarded.choking.push((eater.name.clone(), found.food, row.why));
                        }
                        guarded.cautions.push(ForAChild { dish: found.dishes.last().copied(), text: warning.words(), choking });
                        guarded.warnings.push(warning);
                    }
                }
            }
        }
    }
}

/// The foods on a plate that are a mistake for so small a child.
pub(super) fn never_for(kitchen: &Kitchen, plate: &Plate<'_>) -> Vec<FoodId> {
    let Some(eater) = plate.eater else { return Vec::new() };
    let rows: Vec<&Row> = rows_for(eater, plate.meal.at_time.date()).map(|(_, row)| row).filter(|row| row.is_mistake).collect();
    let found = if rows.is_empty() { Vec::new() } else { plate.foods(kitchen) };
    found.iter().filter(|found| rows.iter().any(|row| row.meets(kitchen, found))).map(|found| found.food).collect()
}

/// Honey, nuts, salt and sugar that stand only in the words of what an infant is served, once a dish or a meal.
fn guard_infants_of_words(kitchen: &Kitchen, week: &Week, guarded: &mut Guarded) {
    let mut said = BTreeSet::new();
    for meal in &week.meals {
        let on = meal.at_time.date();
        for plate in plates(kitchen, meal) {
            let Some(eater) = plate.eater.filter(|eater| eater.born.is_some_and(|born| is_under(born, on, 12))) else { continue };
            let on_plate = plate.foods(kitchen);
            let dishes: BTreeSet<RecipeId> = on_plate.iter().flat_map(|found| found.dishes.iter().copied()).collect();
            let of_dishes = dishes.into_iter().map(|dish| (Some(dish), WordsOf::recipe(kitchen, dish)));
            let holds: Vec<FoodId> = on_plate.iter().map(|found| found.food).collect();
            let of_lines = plate.lines.iter().map(|line| (None, WordsOf::line(&kitchen.foods, line, &holds, meal_name(meal))));
            let of_meal = std::iter::once((None, WordsOf::meal(kitchen, meal)));
            for (dish, words) in of_dishes.chain(of_lines).chain(of_meal) {
                for warning in words.told_of_infant(
                    &kitchen.foods,
                    |food| for_no_infant(&kitchen.foods, food),
                    &format!("{} ({}) ", eater.name, age_of(eater, on)),
                ) {
                    if said.insert((eater.name.clone(), warning.clone())) {
                        guarded.cautions.push(ForAChild { dish, text: warning.words(), choking: false });
                        guarded.warnings.push(warning);
                    }
                }
            }
        }
    }
}

/// Why a food that only words name is not for an infant, with the source.
fn for_no_infant(foods: &Foods, food: FoodId) -> Option<String> {
    let of = &foods[food];
    let row = ROWS.iter().find(|row| {
        let is_it = match row.sought {
            Sought::Named(names) => names.iter().any(|name| ends_with(of, name)),
            Sought::MayHoldHoney => may_hold_honey(foods, food),
            Sought::WholeNut => of.kind == Some(Kind::Nut) && !names_what_is_ground(&of.name),
            Sought::Sugar => is_sugar(of),
            _ => false,
        };
        row.under_months == 12 && is_it
    })?;
    Some(format!("{} ({}). {ASK}", row.why, row.source))
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
            Sought::RawEgg => food.kind == Some(Kind::RawEgg) && !is_firm(&kitchen.appliances, &kitchen.recipes, found),
            Sought::MayHoldHoney => may_hold_honey(&kitchen.foods, found.food),
            Sought::ChoppedNut => food.kind == Some(Kind::Nut) && is_in_bits(food, found),
            Sought::Seed => {
                ["sunflower seed", "pumpkin seed", "mixed seeds", "watermelon seed"].contains(&food.name.as_str())
                    && !is_ground(food, found)
            }
            Sought::Salty => is_salty(food),
            Sought::Sugar => is_sugar(food),
            Sought::Whole(names) => names.iter().any(|name| ends_with(food, name)) && !is_broken_up(food, found),
            Sought::NutButter => {
                let of_nuts = |allergen: &Allergen| matches!(allergen, Allergen::Nuts | Allergen::Peanuts);
                let bears = [&food.allergens, &food.contains].into_iter().flatten().any(|fact| fact.value.iter().any(of_nuts));
                bears && ends_with(food, "butter")
            }
            Sought::CheeseInPieces => {
                let is_cheese = food.kind == Some(Kind::Dairy) && !["milk", "yoghurt", "cream"].iter().any(|other| ends_with(food, other));
                food.name == "string cheese" || is_cheese && can_be_cut(food) && is_in_pieces(found)
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
                "Give {name} something else, with instead in the meal, or leave it out, with without = {{ {name} = [\"{food}\"] }}."
            ),
        }
    }

    fn warning(&self, kitchen: &Kitchen, eater: &Eater, on: Date, plate: &Plate<'_>, found: &Found<'_>) -> Warning {
        let age = eater.born.map(|born| age(born, on)).unwrap_or_default();
        let text = format!("{} ({}, {age}): {} ({}). {ASK}.", plate.chain(kitchen, found), eater.name, self.why, self.source);
        Warning::Note { at: Some(found.at.clone()), text }
    }
}

fn age_of(eater: &Eater, on: Date) -> String {
    eater.born.map(|born| age(born, on)).unwrap_or_default()
}

/// "9 months", "3 years".
fn age(born: Date, on: Date) -> String {
    if born > on {
        return format!("born after that day, on {born}: see born");
    }
    let months = born.until((jiff::Unit::Month, on)).map_or(0, |span| span.get_months());
    if months < 24 { format!("{months} months") } else { format!("{} years", months / 12) }
}

fn is_sugar(food: &Food) -> bool {
    (food.kind == Some(Kind::Sweetener) || ends_with(food, "sugar")) && !ends_with(food, "honey")
}

/// By what it is made of; of a food that nobody knows by its name alone: "honeycomb".
fn may_hold_honey(foods: &Foods, food: FoodId) -> bool {
    let of = &foods[food];
    let named = of.unknown && of.name.to_lowercase().split(' ').any(|word| word.starts_with("honey") && !word.starts_with("honeydew"));
    let kinship = foods.find("honey").map_or(Kinship::None, |honey| foods.kinship(food, honey, true));
    !ends_with(of, "honey") && (named || matches!(kinship, Kinship::Form | Kinship::MayHold))
}

/// Bits of a nut are as dangerous as the whole one; flour, paste and oil are none.
fn is_in_bits(food: &Food, found: &Found<'_>) -> bool {
    const BITS: [&str; 6] = ["chopped", "crushed", "flaked", "nibbed", "broken", "minced"];
    said_of(food, found).split(|c: char| !c.is_alphabetic()).any(|word| BITS.contains(&word)) && !is_ground(food, found)
}

fn is_ground(food: &Food, found: &Found<'_>) -> bool {
    names_what_is_ground(&said_of(food, found))
}

fn names_what_is_ground(words: &str) -> bool {
    const GROUND: [&str; 8] = ["ground", "milled", "butter", "flour", "oil", "milk", "paste", "meal"];
    words.split(|c: char| !c.is_alphabetic()).any(|word| GROUND.contains(&word))
}

/// Over 600 mg of sodium (1.5 g of salt) in 100 g is "high" on a label: UK Department of Health and FSA, Guide to creating a front of pack
/// nutrition label, from memory. Cubes, powders and stock are salty whatever their row says, unless the name denies it.
fn is_salty(food: &Food) -> bool {
    const HIGH: f64 = 600.0;
    let salted = [
        Kind::Sauce,
        Kind::Condiment,
        Kind::CookedMeat,
        Kind::CookedFish,
        Kind::RawMeat,
        Kind::RawMincedMeat,
        Kind::RawFish,
        Kind::ReadyToEat,
        Kind::Bread,
    ];
    let sodium = food.nutrients.as_ref().and_then(|fact| fact.value.sodium_mg).unwrap_or_default();
    // What is low in salt has some.
    let denied = ["unsalted", "salt free", "no salt", "no added salt", "without salt"].iter().any(|word| key_of(&food.name).contains(word));
    let is_stock = food.kind == Some(Kind::Stock) && !denied;
    is_stock || food.kind.is_some_and(|kind| salted.contains(&kind)) && sodium > HIGH && !denied
}

fn ends_with(food: &Food, name: &str) -> bool {
    let food = food.name.to_lowercase();
    food == name || food.ends_with(&format!(" {name}"))
}

/// Cheese that is firm enough to be cut into pieces; butter and what is poured or spread is not.
fn can_be_cut(food: &Food) -> bool {
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
    is_cooked(found) || said_of(food, found).split(|c: char| !c.is_alphabetic()).any(|word| WORDS.contains(&word))
}

fn is_cooked(found: &Found<'_>) -> bool {
    matches!(&found.line.wanted, Wanted::Food { item: Some(item), .. } if item.state == State::Cooked)
}

/// Its name, the form that is asked for, and what the line says besides; lower case.
fn said_of(food: &Food, found: &Found<'_>) -> String {
    let form = match &found.line.wanted {
        Wanted::Food { item: Some(item), .. } => match &item.state {
            State::Prepared(form) => form.as_str(),
            _ => "",
        },
        _ => "",
    };
    let beside = [found.line.prep.as_deref(), found.line.remark.as_deref()].map(Option::unwrap_or_default);
    [food.name.as_str(), form, beside[0], beside[1]].join(" ").to_lowercase()
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
