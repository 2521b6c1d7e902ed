//! A random household, as it stands in its files: who eats, what is cooked, what is sold, what is planned for eight weeks.

use std::fmt::Write;

use jiff::ToSpan;
use jiff::civil::{Date, DateTime, date, time};

use crate::dice::Dice;
use crate::kitchen::{Kitchen, kitchen};

pub const WEEKS: i64 = 8;

/// The household's first Monday.
pub const FIRST: Date = date(2026, 11, 30);

/// A food: its name, its unit, what it keeps in the fridge and once it is opened, in days, and its packs with their prices.
pub struct Sold {
    pub name: &'static str,
    pub unit: &'static str,
    pub fridge: Option<i64>,
    pub opened: Option<i64>,
    packs: &'static [(&'static str, &'static str)],
}

pub const FOODS: [Sold; 5] = [
    Sold { name: "bluegrain", unit: "g", fridge: None, opened: None, packs: &[("500 g", "1.90"), ("1 kg", "3.50")] },
    Sold { name: "mooncress", unit: "g", fridge: Some(4), opened: None, packs: &[("100 g", "0.80")] },
    Sold { name: "moon bean", unit: "g", fridge: None, opened: Some(3), packs: &[("400 g", "1.10")] },
    Sold { name: "star milk", unit: "ml", fridge: Some(9), opened: Some(4), packs: &[("500 ml", "0.70"), ("1 l", "1.20")] },
    Sold { name: "comet egg", unit: "piece", fridge: Some(20), opened: None, packs: &[("6", "1.80")] },
];

/// A recipe: its id, what one batch makes, what goes into one batch, and the portions of mash that do.
pub struct Cooked {
    pub id: &'static str,
    pub makes: f64,
    pub needs: &'static [(&'static str, f64)],
    pub mash: f64,
    /// How many days after its session it is still good; mash is frozen beyond them.
    reach: i64,
}

pub const RECIPES: [Cooked; 3] = [
    Cooked { id: "mash", makes: 4.0, needs: &[("bluegrain", 400.0), ("moon bean", 150.0)], mash: 0.0, reach: 3 },
    Cooked { id: "soup", makes: 3.0, needs: &[("star milk", 250.0), ("mooncress", 40.0)], mash: 0.0, reach: 2 },
    Cooked { id: "cake", makes: 6.0, needs: &[("bluegrain", 90.0), ("comet egg", 2.0)], mash: 1.5, reach: 4 },
];

/// What each gets at a meal: of dishes in the unit of what they make, of foods in theirs.
pub const DISHES: [&[(&str, f64)]; 7] = [
    &[("mash", 1.0)],
    &[("soup", 1.0), ("bluegrain", 30.0)],
    &[("cake", 1.0), ("star milk", 100.0)],
    &[("mash", 0.5), ("comet egg", 1.0)],
    &[("mooncress", 35.0), ("comet egg", 2.0)],
    &[("moon bean", 130.0), ("bluegrain", 75.0)],
    &[("soup", 1.5)],
];

#[derive(Debug, Clone, PartialEq)]
pub struct Meal {
    pub at: DateTime,
    pub dish: usize,
    pub eaters: i64,
    pub skip: bool,
}

#[derive(Debug, Clone)]
pub struct Week {
    pub trips: Vec<Date>,
    pub sessions: Vec<DateTime>,
    pub meals: Vec<Meal>,
}

pub fn is_cooked(name: &str) -> Option<&'static Cooked> {
    RECIPES.iter().find(|recipe| recipe.id == name)
}

fn line(name: &str, amount: f64) -> String {
    match (is_cooked(name), FOODS.iter().find(|food| food.name == name)) {
        (Some(recipe), _) => format!("{amount} {} recipe:{name}", unit_of(recipe.id)),
        (None, Some(food)) => format!("{amount} {} {name}", food.unit).replace(" piece ", " "),
        (None, None) => unreachable!("{name} is neither cooked nor sold"),
    }
}

pub fn unit_of(name: &str) -> &'static str {
    match name {
        "cake" => "piece",
        "mash" | "soup" => "portion",
        food => FOODS.iter().find(|sold| sold.name == food).map_or("", |sold| sold.unit),
    }
}

/// Whoever plans a dish sees to a session within its reach.
fn is_within_reach(dish: usize, day: Date, sessions: &[DateTime]) -> bool {
    DISHES[dish].iter().filter_map(|(name, _)| is_cooked(name)).all(|recipe| {
        sessions.iter().any(|start| {
            let after = start.date().until(day).map_or(-1, |span| i64::from(span.get_days()));
            after >= 1 && (after <= recipe.reach || recipe.id == "mash")
        })
    })
}

pub fn weeks(dice: &mut Dice, eaters: i64) -> Vec<Week> {
    (0..WEEKS).map(|number| week(dice, eaters, FIRST.saturating_add((7 * number).days()))).collect()
}

fn week(dice: &mut Dice, eaters: i64, monday: Date) -> Week {
    let day = |days: i64| monday.saturating_add(days.days());
    let at = |days: i64, hour: i8| day(days).to_datetime(time(hour, 0, 0, 0));
    let mut week = Week { trips: vec![day(-2)], sessions: vec![at(-1, 14)], meals: Vec::new() };
    if dice.between(0, 1) == 0 {
        week.trips.push(day(2));
        week.sessions.push(at(2, 20));
    }
    for days in 0..6 {
        for (hour, odds) in [(13, 3), (19, 1)] {
            let dish = dice.between(0, DISHES.len() as i64 - 1) as usize;
            if dice.between(0, odds) == 0 && is_within_reach(dish, day(days), &week.sessions) {
                week.meals.push(Meal { at: at(days, hour), dish, eaters, skip: false });
            }
        }
    }
    if week.meals.is_empty() {
        week.meals.push(Meal { at: at(0, 19), dish: 0, eaters, skip: false });
    }
    week
}

/// The household's folder.
pub fn folder(dice: &mut Dice, weeks: &[Week]) -> Kitchen {
    let mut foods = String::new();
    let mut shops = "[[shop]]\nname = \"Stall\"\n".to_owned();
    for Sold { name, fridge, opened, packs, .. } in &FOODS {
        let keeps: Vec<String> = [("fridge", fridge), ("opened", opened)]
            .iter()
            .filter_map(|(key, days)| days.map(|days| format!("{key} = \"{days} days\"")))
            .collect();
        let keeps = if keeps.is_empty() { String::new() } else { format!("keeps = {{ {} }}\n", keeps.join(", ")) };
        let _ = write!(foods, "[[food]]\nname = \"{name}\"\nallergens = []\n{keeps}source = \"weighed at home\"\n");
        for (size, price) in *packs {
            let _ = write!(shops, "[[pack]]\nshop = \"Stall\"\nfood = \"{name}\"\nsize = \"{size}\"\nprice = {price}\n");
        }
    }
    let mut pantry = "# Ours\n".to_owned();
    for Sold { name, unit, fridge, .. } in &FOODS {
        if dice.between(0, 2) == 0 {
            let unit = if *unit == "piece" { "" } else { unit };
            let place = if fridge.is_some() { "fridge" } else { "cupboard" };
            let _ = write!(pantry, "\n[[lot]]\nfood = \"{name}\"\namount = \"{} {unit}\"\nplace = \"{place}\"\n", 10 * dice.between(1, 40));
            if fridge.is_some() {
                let _ = writeln!(pantry, "since = {}", FIRST.saturating_sub(dice.between(0, 6).days()));
            }
        }
    }
    let eaters = weeks.iter().flat_map(|week| &week.meals).map(|meal| meal.eaters).next().unwrap_or(1);
    let rules = if eaters % 2 == 0 { "short_by = \"0%\"" } else { "" };
    let mut made = kitchen().rules(rules).foods(&foods).shops(&shops).pantry(&pantry);
    for (recipe, batches) in RECIPES.iter().zip(["any", "halves", "any"]) {
        let mut lines: Vec<String> = recipe.needs.iter().map(|(name, amount)| format!("\"{}\"", line(name, *amount))).collect();
        if recipe.mash > 0.0 {
            lines.push(format!("\"{}\"", line("mash", recipe.mash)));
        }
        let freezer = if recipe.id == "mash" { ", freezer = \"2 months\"" } else { "" };
        let text = format!(
            "name = \"{}\"\nmakes = \"{} {}\"\nbatches = \"{batches}\"\nkeeps = {{ fridge = \"{} days\"{freezer} }}\ningredients = [{}]\n\
             [[step]]\ntext = \"Stir.\"\nhands = \"5 min\"\n",
            recipe.id,
            recipe.makes,
            unit_of(recipe.id),
            recipe.reach,
            lines.join(", ")
        );
        made = made.recipe(recipe.id, &text);
    }
    std::fs::remove_file(made.path().join("weeks/week.toml")).expect("the usual week");
    for (number, week) in weeks.iter().enumerate() {
        made = made.file(&format!("weeks/{number}.toml"), &text_of(number as i64, week));
    }
    made
}

fn text_of(number: i64, week: &Week) -> String {
    let mut text = format!("from = {}\n", FIRST.saturating_add((7 * number).days()));
    for trip in &week.trips {
        let _ = write!(text, "[[trip]]\non = {trip}\n");
    }
    for start in &week.sessions {
        let _ = write!(text, "[[session]]\nstart = {start}\npeople = [\"cook\"]\n");
    }
    for meal in &week.meals {
        let each: Vec<String> = DISHES[meal.dish].iter().map(|(name, amount)| format!("\"{}\"", line(name, *amount))).collect();
        let _ = write!(
            text,
            "[[meal]]\non = {}\nat = \"{}\"\neaters = {}\neach = [{}]\n",
            meal.at.date(),
            meal.at.strftime("%H:%M"),
            meal.eaters,
            each.join(", ")
        );
    }
    text
}

/// May a lot of it be eaten on that day, by its own dates and by what its food keeps? Written apart from the rule it checks.
pub fn is_good(lot: &spence::kitchen::Lot, name: &str, day: Date) -> bool {
    let after = |from: Option<Date>, days: Option<i64>| from.zip(days).is_some_and(|(from, days)| from.saturating_add(days.days()) < day);
    let sold = FOODS.iter().find(|sold| sold.name == name);
    let chilled = lot.place == spence::foods::Place::Fridge;
    let opened = after(lot.opened, sold.and_then(|sold| sold.opened));
    let since = chilled && after(lot.since, sold.and_then(|sold| sold.fridge));
    let not_made_yet = lot.made.is_some_and(|made| made > day);
    !(lot.use_by.is_some_and(|last| last < day) || opened || since || not_made_yet)
}
