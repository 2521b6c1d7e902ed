//! What must always hold, over random small kitchens: nothing demanded is missing from list and pantry together, no lot gives more
//! than it holds, a bought pack set covers its need, and the sums add up.

use std::collections::BTreeMap;
use std::fs;

use jiff::civil::date;
use proptest::prelude::*;
use spence::book::Booked;
use spence::kitchen::Ware;
use spence::kitchen::{Loaded, load};
use spence::{PastTrips, Reckoning, Shown, reckon};

const EVERY_TRIP: Shown = Shown { past: PastTrips::AsPrinted, compared: false };

const FOODS: [&str; 4] = ["quay barley", "quay bean", "quay beetroot", "quay yoghurt"];

/// A kitchen of our four invented foods, weighed in grams throughout.
#[derive(Debug, Clone)]
struct Small {
    /// Days each food keeps in the fridge; 0 stands for "not known".
    keeps: Vec<i64>,
    opened: Vec<i64>,
    /// (food, grams, days after 2026-11-28 of its use-by; 0 for none).
    lots: Vec<(usize, u32, i64)>,
    /// (food, grams, cents).
    packs: Vec<(usize, u32, u32)>,
    /// Grams of each food in each of two recipes.
    recipes: [Vec<u32>; 2],
    fridge: [i64; 2],
    /// (days after 2026-11-30, recipe, portions, grams of food 3 on the day).
    meals: Vec<(i64, usize, u32, u32)>,
}

fn small() -> impl Strategy<Value = Small> {
    let grams = prop::collection::vec(prop_oneof![Just(0u32), 1u32..900], 4);
    (
        prop::collection::vec(0i64..6, 4),
        prop::collection::vec(0i64..4, 4),
        prop::collection::vec((0usize..4, 1u32..1500, 0i64..9), 0..8),
        prop::collection::vec((0usize..4, 1u32..1200, 1u32..500), 0..10),
        [grams.clone(), grams],
        [0i64..4, 0i64..4],
        prop::collection::vec((0i64..7, 0usize..2, 1u32..7, 0u32..300), 1..9),
    )
        .prop_map(|(keeps, opened, lots, packs, recipes, fridge, meals)| Small { keeps, opened, lots, packs, recipes, fridge, meals })
}

fn day(first: &str, days: i64) -> String {
    use jiff::ToSpan;
    let first: jiff::civil::Date = first.parse().unwrap();
    first.saturating_add(days.days()).to_string()
}

fn written(small: &Small) -> BTreeMap<String, String> {
    let mut files = BTreeMap::new();
    files.insert("kitchen.toml".into(), "[household]\nname = \"Boatyard Row\"\neaters = 1\ncurrency = \"EUR\"\n".into());
    let mut foods = String::new();
    for (index, name) in FOODS.iter().enumerate() {
        let mut keeps = Vec::new();
        if small.keeps[index] > 0 {
            keeps.push(format!("fridge = \"{} days\"", small.keeps[index]));
        }
        if small.opened[index] > 0 {
            keeps.push(format!("opened = \"{} days\"", small.opened[index]));
        }
        foods += &format!("[[food]]\nname = \"{name}\"\nallergens = []\nkeeps = {{ {} }}\n", keeps.join(", "));
    }
    files.insert("foods.toml".into(), foods);
    let mut lots = String::new();
    for (food, grams, use_by) in &small.lots {
        lots += &format!("[[lot]]\nfood = \"{}\"\namount = \"{grams} g\"\nplace = \"fridge\"\n", FOODS[*food]);
        if *use_by > 0 {
            lots += &format!("use_by = {}\n", day("2026-11-28", *use_by));
        }
    }
    files.insert("pantry.toml".into(), lots);
    let mut shops = "[[shop]]\nname = \"Quay market\"\nsections = []\ntrip = \"0.00\"\n".to_owned();
    for (food, grams, cents) in &small.packs {
        shops += &format!(
            "[[pack]]\nshop = \"Quay market\"\nfood = \"{}\"\nsize = \"{grams} g\"\nprice = {}.{:02}\n",
            FOODS[*food],
            cents / 100,
            cents % 100
        );
    }
    files.insert("shops.toml".into(), shops);
    for (index, grams) in small.recipes.iter().enumerate() {
        let lines: Vec<String> =
            grams.iter().zip(FOODS).filter(|(grams, _)| **grams > 0).map(|(grams, food)| format!("{grams} g {food}")).collect();
        let recipe = format!(
            "name = \"Dish {index}\"\nmakes = \"4 portions\"\nkeeps = {{ fridge = \"{} days\", freezer = \"30 days\" }}\ningredients = \"\"\"\n{}\n\"\"\"\n",
            small.fridge[index],
            lines.join("\n")
        );
        files.insert(format!("recipes/dish-{index}.toml"), recipe);
    }
    let mut week = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[trip]]\non = 2026-12-02\n".to_owned();
    week += "[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n[[session]]\nstart = 2026-12-02T09:00\npeople = [\"cook\"]\n";
    for (days, recipe, portions, extra) in &small.meals {
        week +=
            &format!("[[meal]]\non = {}\nat = \"supper\"\neach = [\"{portions} portions recipe:dish-{recipe}\"", day("2026-11-30", *days));
        if *extra > 0 {
            week += &format!(", \"{extra} g {}\"", FOODS[3]);
        }
        week += "]\n";
    }
    files.insert("weeks/week.toml".into(), week);
    files
}

fn loaded(small: &Small) -> Loaded {
    let folder = tempfile::tempdir().unwrap();
    for (path, content) in written(small) {
        let path = folder.path().join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, content).unwrap();
    }
    load(folder.path()).unwrap_or_else(|mistakes| panic!("{}", mistakes.iter().map(|mistake| format!("{mistake}\n")).collect::<String>()))
}

/// On the day before the shopping; nothing is booked.
fn reckoned(loaded: &Loaded) -> Reckoning<'_> {
    reckon(loaded, &Booked::default(), &[], 0, date(2026, 11, 27)).expect("the freezer reaches every meal")
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-6 * a.abs().max(b.abs()).max(1.0)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn nothing_demanded_is_missing_from_list_and_pantry(small in small()) {
        let loaded = loaded(&small);
        let reckoning = reckoned(&loaded);
        let (kitchen, list) = (&loaded.kitchen, reckoning.list(EVERY_TRIP));
        for (id, food) in kitchen.foods.iter().filter(|(_, food)| FOODS.contains(&food.name.as_str())) {
            let demanded: f64 = reckoning.demanded.demand.iter().filter(|demand| demand.food == id).map(|demand| demand.amount.base()).sum();
            let drawn: f64 = reckoning.netted.draws.iter().filter(|draw| draw.of == Ware::Food(id)).map(|draw| draw.amount.base()).sum();
            let lines = || list.lines().filter(|line| line.food == id);
            let listed: f64 = lines().map(|line| line.need.base()).sum();
            // A draw that would leave less than a gram of a lot takes the rest of it.
            let rests = kitchen.lots.iter().filter(|lot| lot.of == Ware::Food(id)).count() as f64;
            let served = drawn + listed;
            let covers = close(demanded, served) || (demanded < served && served < demanded + rests);
            prop_assert!(covers, "{}: {demanded} demanded, {drawn} drawn, {listed} listed", food.name);
            for line in lines().filter(|line| !line.packs.is_empty()) {
                let bought = line.need.base() + line.left.base() - line.short.base();
                let packed: f64 = line.packs.iter().map(|pack| pack.what.amount().base()).sum();
                prop_assert!(close(bought, packed), "{}: need + left - short is {bought}, packs hold {packed}", food.name);
                prop_assert!(packed >= line.need.base() - line.short.base() - 1e-6);
            }
        }
        for (index, lot) in kitchen.lots.iter().enumerate() {
            let drawn: f64 = reckoning.netted.draws.iter().filter(|draw| draw.lot == index).map(|draw| draw.amount.base()).sum();
            prop_assert!(drawn <= lot.amount.base() * (1.0 + 1e-9));
        }
    }

    #[test]
    fn what_is_made_is_eaten_or_spare(small in small()) {
        let loaded = loaded(&small);
        let reckoning = reckoned(&loaded);
        for making in &reckoning.makings.makings {
            let eaten: f64 = making.uses.iter().map(|use_| use_.amount.base()).sum();
            let spare = making.spare.as_ref().map_or(0.0, |spare| spare.amount.base());
            prop_assert!(close(making.makes.base(), eaten + spare));
        }
        let asked: f64 = small.meals.iter().map(|meal| f64::from(meal.2)).sum();
        let served: f64 = reckoning.makings.makings.iter().flat_map(|making| &making.uses).map(|use_| use_.amount.base()).sum();
        prop_assert!(close(asked, served));
    }

    #[test]
    fn the_same_kitchen_gives_the_same_bytes(small in small()) {
        let write = || {
            let loaded = loaded(&small);
            let reckoned = reckoned(&loaded);
            spence::json::text(&spence::json::list(&reckoned.list(EVERY_TRIP), &reckoned.kitchen)).unwrap()
        };
        prop_assert_eq!(write(), write());
    }
}
