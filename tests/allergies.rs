//! Random households, dishes and meals: what an allergic eater is served, asked again by a checker that shares no code with the plan.
//!
//! The checker walks from a plate through every dish to its foods, by the texts that were written. Two promises: nothing that an eater is
//! allergic to is ever planned, and nothing of which it is not known is planned without a warning; and the amounts of the list are the sums of
//! the eaters' own.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

use crate::dice::Dice;
use crate::kitchen::{Kitchen, assert_amount, json, kitchen, line, lines, stderr};

const FOODS: [&str; 8] = ["bluegrain", "redroot", "moonseed", "quayleaf", "tarnip", "sandpea", "driftnut", "foamcurd"];
const ALLERGENS: [&str; 4] = ["sesame", "milk", "egg", "mustard"];
const NAMES: [&str; 3] = ["Rosa", "Emil", "Pim"];
const SHARES: [f64; 3] = [1.0, 0.5, 0.25];
const DAYS: [(&str, &str); 3] = [("mon", "Mon"), ("tue", "Tue"), ("wed", "Wed")];

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Ware {
    Food(usize),
    Dish(usize),
}

/// So many grams or portions of it.
type Line = (Ware, f64);

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Word {
    Allergen(usize),
    Food(usize),
}

#[derive(Debug)]
struct Meal {
    each: Vec<Line>,
    shared: Vec<Line>,
    who: Vec<usize>,
    guests: i64,
    instead: Option<(usize, Vec<Line>)>,
    without: Option<(usize, Ware)>,
}

#[derive(Debug)]
struct House {
    /// `None`: nobody knows.
    foods: Vec<Option<BTreeSet<usize>>>,
    dishes: Vec<Vec<Line>>,
    allergic: Vec<Vec<Word>>,
    /// What an eater never gets.
    left_away: Option<(usize, usize)>,
    meals: Vec<Meal>,
}

fn pick(dice: &mut Dice, count: usize) -> usize {
    dice.between(0, count as i64 - 1) as usize
}

fn some_lines(dice: &mut Dice, most: i64, dishes: usize) -> Vec<Line> {
    let mut lines: Vec<Line> = Vec::new();
    for _ in 0..dice.between(1, most) {
        let dish = dishes > 0 && dice.between(0, 1) == 1;
        let (ware, amount) = if dish {
            (Ware::Dish(pick(dice, dishes)), dice.between(1, 2) as f64 / 2.0)
        } else {
            (Ware::Food(pick(dice, FOODS.len())), dice.between(1, 9) as f64 * 10.0)
        };
        if lines.iter().all(|(known, _)| *known != ware) {
            lines.push((ware, amount));
        }
    }
    lines
}

fn house(seed: u64) -> House {
    let mut dice = Dice(seed);
    let foods = (0..FOODS.len())
        .map(|_| match dice.between(0, 5) {
            0 => None,
            1 => Some([pick(&mut dice, ALLERGENS.len())].into()),
            _ => Some(BTreeSet::new()),
        })
        .collect();
    let dishes: Vec<Vec<Line>> = (0..5).map(|below| some_lines(&mut dice, 3, below)).collect();
    let word = |dice: &mut Dice| match dice.between(0, 2) {
        0 => Word::Food(pick(dice, FOODS.len())),
        _ => Word::Allergen(pick(dice, ALLERGENS.len())),
    };
    let allergic = NAMES.map(|_| (0..(dice.between(0, 2) - 1).max(0)).map(|_| word(&mut dice)).collect()).into();
    let left_away = (dice.between(0, 2) == 0).then(|| (pick(&mut dice, NAMES.len()), pick(&mut dice, FOODS.len())));
    let mut house = House { foods, dishes, allergic, left_away, meals: Vec::new() };
    for _ in DAYS {
        let each = some_lines(&mut dice, 3, 5);
        let shared = if dice.between(0, 2) == 0 { some_lines(&mut dice, 1, 0) } else { Vec::new() };
        let mut who: Vec<usize> = (0..NAMES.len()).filter(|_| dice.between(0, 3) > 0).collect();
        if who.is_empty() {
            who.push(0);
        }
        let mut meal = Meal { each, shared, guests: dice.between(0, 1), instead: None, without: None, who };
        let eater = meal.who[pick(&mut dice, meal.who.len())];
        match dice.between(0, 2) {
            0 => meal.instead = Some((eater, some_lines(&mut dice, 2, 5))),
            1 => {
                let plate = plate(&house, &meal, Some(eater));
                let served: Vec<usize> = plate.into_keys().collect();
                if !served.is_empty() {
                    meal.without = Some((eater, Ware::Food(served[pick(&mut dice, served.len())])));
                }
            }
            _ => {}
        }
        house.meals.push(meal);
    }
    house
}

fn share(eater: Option<usize>) -> f64 {
    eater.map_or(1.0, |eater| SHARES[eater])
}

/// What one eater (or, without a number, one guest) gets at a meal: grams of each food.
fn plate(house: &House, meal: &Meal, eater: Option<usize>) -> BTreeMap<usize, f64> {
    let mut without: Vec<Ware> = meal.without.iter().filter(|(who, _)| Some(*who) == eater).map(|(_, ware)| *ware).collect();
    without.extend(house.left_away.iter().filter(|(who, _)| Some(*who) == eater).map(|(_, food)| Ware::Food(*food)));
    let whole: f64 = meal.who.iter().map(|who| SHARES[*who]).sum::<f64>() + meal.guests as f64;
    let own = meal.instead.as_ref().filter(|(who, _)| Some(*who) == eater).map(|(_, lines)| lines);
    // What is written in instead is wanted, whatever is always left out.
    without.retain(|ware| own.is_none_or(|lines| lines.iter().all(|(line, _)| line != ware)));
    let mut plate = BTreeMap::new();
    for (ware, amount) in own.unwrap_or(&meal.each) {
        reach(house, *ware, amount * share(eater), &without, &mut plate);
    }
    for (ware, amount) in &meal.shared {
        reach(house, *ware, amount * share(eater) / whole, &without, &mut plate);
    }
    plate
}

fn reach(house: &House, ware: Ware, amount: f64, without: &[Ware], plate: &mut BTreeMap<usize, f64>) {
    if without.contains(&ware) {
        return;
    }
    match ware {
        Ware::Food(food) => *plate.entry(food).or_default() += amount,
        Ware::Dish(dish) => house.dishes[dish].iter().for_each(|(ware, each)| reach(house, *ware, each * amount, without, plate)),
    }
}

/// Is the food, for certain, what the word names?
fn is_it(house: &House, word: Word, food: usize) -> bool {
    match word {
        Word::Food(named) => named == food,
        Word::Allergen(allergen) => house.foods[food].as_ref().is_some_and(|borne| borne.contains(&allergen)),
    }
}

/// Could it be, for all that is known?
fn could_be(house: &House, word: Word, food: usize) -> bool {
    match (word, &house.foods[food]) {
        (Word::Allergen(_), borne) => borne.is_none(),
        (Word::Food(named), borne) => {
            let group = house.foods[named].clone().unwrap_or_default();
            borne.as_ref().map_or(!group.is_empty(), |borne| !borne.is_disjoint(&group))
        }
    }
}

fn typed(line: &Line) -> String {
    match line {
        (Ware::Food(food), grams) => format!("\"{grams} g {}\"", FOODS[*food]),
        (Ware::Dish(dish), portions) => format!("\"{portions} portion recipe:dish-{dish}\""),
    }
}

fn listed(lines: &[Line]) -> String {
    format!("[{}]", lines.iter().map(typed).collect::<Vec<_>>().join(", "))
}

fn written(house: &House) -> Kitchen {
    let mut files = kitchen();
    let mut foods = String::new();
    for (food, allergens) in house.foods.iter().enumerate() {
        let borne = |all: &BTreeSet<usize>| all.iter().map(|one| format!("\"{}\"", ALLERGENS[*one])).collect::<Vec<_>>().join(", ");
        let known = allergens.as_ref().map(|all| format!("allergens = [{}]\n", borne(all))).unwrap_or_default();
        let _ = writeln!(foods, "[[food]]\nname = \"{}\"\n{known}", FOODS[food]);
    }
    files = files.foods(&foods);
    let mut household = "[household]\nname = \"Test row\"\ncurrency = \"EUR\"\n[rules]\nboxing = \"0 min\"\nwash = \"0 min\"\n".to_owned();
    for (eater, name) in NAMES.iter().enumerate() {
        let words: Vec<&str> = house.allergic[eater]
            .iter()
            .map(|word| match word {
                Word::Food(food) => FOODS[*food],
                Word::Allergen(allergen) => ALLERGENS[*allergen],
            })
            .collect();
        let _ = writeln!(household, "[[eater]]\nname = \"{name}\"\nshare = {}\nallergic = {words:?}", SHARES[eater]);
        if let Some((_, food)) = house.left_away.filter(|(who, _)| *who == eater) {
            let _ = writeln!(household, "swap = {{ {} = \"\" }}", FOODS[food]);
        }
    }
    files = files.file("kitchen.toml", &household);
    for (dish, ingredients) in house.dishes.iter().enumerate() {
        let mut recipe = format!(
            "name = \"Dish {dish}\"\nmakes = \"1 portion\"\nbatches = \"any\"\nkeeps = {{ fridge = \"5 days\" }}\ningredients = {}\n[[step]]\ntext = \"Begin.\"\n",
            listed(ingredients)
        );
        for (ware, _) in ingredients {
            let named = match ware {
                Ware::Food(food) => FOODS[*food].to_owned(),
                Ware::Dish(part) => format!("dish-{part}"),
            };
            let _ = writeln!(recipe, "[[step]]\ntext = \"Add {{{named}}}.\"\nhands = \"1 min\"");
        }
        files = files.recipe(&format!("dish-{dish}"), &recipe);
    }
    let mut meals = String::new();
    for (meal, (day, _)) in house.meals.iter().zip(DAYS) {
        let who: Vec<&str> = meal.who.iter().map(|who| NAMES[*who]).collect();
        let _ = writeln!(
            meals,
            "[[meal]]\nday = \"{day}\"\nat = \"supper\"\nfor = {who:?}\nguests = {}\neach = {}",
            meal.guests,
            listed(&meal.each)
        );
        if !meal.shared.is_empty() {
            let _ = writeln!(meals, "shared = {}", listed(&meal.shared));
        }
        if let Some((who, lines)) = &meal.instead {
            let _ = writeln!(meals, "instead = {{ {} = {} }}", NAMES[*who], listed(lines));
        }
        if let Some((who, Ware::Food(food))) = &meal.without {
            let _ = writeln!(meals, "without = {{ {} = [\"{}\"] }}", NAMES[*who], FOODS[*food]);
        }
    }
    files.meals(&meals)
}

/// Day, eater and food of everything on a plate that `met` holds of and one of the eater's words.
fn on_plates(house: &House, met: impl Fn(&House, Word, usize) -> bool) -> BTreeSet<(usize, usize, usize)> {
    let mut all = BTreeSet::new();
    for (day, meal) in house.meals.iter().enumerate() {
        for eater in &meal.who {
            let foods = plate(house, meal, Some(*eater)).into_keys();
            let found = foods.filter(|food| house.allergic[*eater].iter().any(|word| met(house, *word, *food)));
            all.extend(found.map(|food| (day, *eater, food)));
        }
    }
    all
}

#[track_caller]
fn assert_told(said: &str, seed: u64, (day, eater, food): (usize, usize, usize)) {
    let head = format!("{} supper, {}: ", DAYS[day].1, NAMES[eater]);
    let told = said.lines().any(|line| line.contains(&head) && line.contains(FOODS[food]));
    assert!(told, "seed {seed}: nothing of {head}{} in {said}", FOODS[food]);
}

#[test]
fn no_eater_is_served_what_they_are_allergic_to_nor_what_is_not_known_without_a_warning() {
    let (mut refused, mut planned) = (0, 0);
    for seed in 1..=60 {
        let house = house(seed);
        let files = written(&house);
        let output = files.run(&["--format", "json", "list"]);
        let said = stderr(&output);
        let certain = on_plates(&house, is_it);
        if certain.is_empty() {
            assert_eq!(output.status.code(), Some(0), "seed {seed}: {said}\n{house:?}");
            planned += 1;
            on_plates(&house, could_be).into_iter().for_each(|one| assert_told(&said, seed, one));
            let list = json(&output);
            let mut sums: BTreeMap<usize, f64> = BTreeMap::new();
            for meal in &house.meals {
                let eaters = meal.who.iter().map(|who| Some(*who)).chain((0..meal.guests).map(|_| None));
                for (food, grams) in eaters.flat_map(|eater| plate(&house, meal, eater)) {
                    *sums.entry(food).or_default() += grams;
                }
            }
            let wanted: BTreeSet<&str> = sums.keys().map(|food| FOODS[*food]).collect();
            let bought = lines(&list);
            let bought: BTreeSet<&str> = bought.iter().map(|(_, _, line)| line["food"].as_str().unwrap()).collect();
            assert_eq!(bought, wanted, "seed {seed}");
            for (food, grams) in sums {
                assert_amount(&line(&list, FOODS[food])["need"], grams, "g");
            }
        } else {
            assert_eq!(output.status.code(), Some(1), "seed {seed}: served {certain:?}\n{house:?}");
            assert!(output.stdout.is_empty(), "seed {seed}");
            refused += 1;
            certain.into_iter().for_each(|one| assert_told(&said, seed, one));
        }
    }
    assert!(refused >= 10 && planned >= 20, "{refused} refused, {planned} planned");
}
