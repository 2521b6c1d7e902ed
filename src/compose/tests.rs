//! No bound may be above the truth: random small kitchens, every week of which is reckoned.

use std::fmt::Write;
use std::fs;

use jiff::civil::{Date, date};
use tempfile::TempDir;

use super::bound::Bound;
use super::floor::Floor;
use super::search::Chosen;
use super::table::{Look, Table};
use super::wishes::Wishes;
use super::{lines, options};
use crate::book::Booked;
use crate::kitchen::{Loaded, Open};
use crate::prep::Effort;
use crate::reckon::{open_meals, trials};

const TODAY: Date = date(2026, 11, 27);

/// The next of a fixed sequence (splitmix64, Steele, Lea and Flood 2014), from `least` to `most`.
fn roll(dice: &mut u64, least: u64, most: u64) -> u64 {
    *dice = dice.wrapping_add(0x9E37_79B9_7F4A_7C15);
    let mut mixed = *dice;
    mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    least + (mixed ^ (mixed >> 31)) % (most - least + 1)
}

fn pick<'p>(dice: &mut u64, of: &[&'p str]) -> &'p str {
    of[roll(dice, 0, of.len() as u64 - 1) as usize]
}

/// Three dishes, one of which may go into another; foods in packs, with offers, and loose; lots that go off and cooked ones; two trips.
fn kitchen(seed: u64) -> (TempDir, Loaded) {
    let folder = TempDir::new().expect("a folder");
    let dice = &mut seed.wrapping_mul(0xD1CE);
    let file = |name: &str, text: &str| {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().expect("a parent")).expect("a folder");
        fs::write(path, text).expect("a file");
    };
    let short = pick(dice, &["0%", "2%", "10%"]);
    file("kitchen.toml", &format!("[household]\nname = \"Row\"\neaters = 2\ncurrency = \"EUR\"\n[rules]\nshort_by = \"{short}\"\n"));
    let (mut foods, mut shops, mut pantry) = (String::new(), String::new(), String::new());
    shops.push_str("[[shop]]\nname = \"A\"\nsections = []\n[[shop]]\nname = \"B\"\nsections = []\ntrip = \"0.60\"\n");
    for food in 0..5 {
        let side = if food < 2 { "fits = [\"side\"]\nserving = \"60 g\"\n" } else { "" };
        let keeps = match roll(dice, 0, 2) {
            0 => String::new(),
            1 => format!("keeps = {{ fridge = \"{} days\" }}\n", roll(dice, 3, 12)),
            _ => format!("keeps = {{ fridge = \"20 days\", opened = \"{} days\" }}\n", roll(dice, 2, 6)),
        };
        let _ = write!(foods, "[[food]]\nname = \"foo{food}\"\n{side}{keeps}");
        for shop in ["A", "B"].iter().take(roll(dice, 1, 2) as usize) {
            let price = roll(dice, 50, 300);
            let price = format!("{}.{:02}", price / 100, price % 100);
            let _ = match roll(dice, 0, 4) {
                0 => write!(
                    shops,
                    "[[pack]]\nshop = \"{shop}\"\nfood = \"foo{food}\"\nloose = true\nprice = \"{price} / kg\"\nstep = \"50 g\"\n"
                ),
                1 => write!(
                    shops,
                    "[[pack]]\nshop = \"{shop}\"\nfood = \"foo{food}\"\nsize = \"100 g\"\nprice = 1.00\noffer = {{ buy = 3, pay = 2.{} }}\n",
                    roll(dice, 10, 90)
                ),
                _ => write!(
                    shops,
                    "[[pack]]\nshop = \"{shop}\"\nfood = \"foo{food}\"\nsize = \"{} g\"\nprice = {price}\n",
                    roll(dice, 1, 6) * 90
                ),
            };
        }
        if roll(dice, 0, 2) == 0 {
            let until = if roll(dice, 0, 1) == 0 { format!("use_by = 2026-12-{:02}\n", roll(dice, 1, 5)) } else { String::new() };
            let _ = write!(pantry, "[[lot]]\nfood = \"foo{food}\"\namount = \"{} g\"\nplace = \"fridge\"\n{until}", roll(dice, 1, 5) * 50);
        }
    }
    if roll(dice, 0, 2) == 0 {
        let _ = write!(
            pantry,
            "[[lot]]\nrecipe = \"dish0\"\namount = \"{} portions\"\nplace = \"freezer\"\nmade = 2026-11-20\n",
            roll(dice, 1, 3)
        );
    }
    file("foods.toml", &foods);
    file("shops.toml", &shops);
    file("pantry.toml", &pantry);
    let part = if roll(dice, 0, 1) == 0 { ", \"1 portion recipe:dish2\"" } else { "" };
    for dish in 0..3 {
        let text = format!(
            "name = \"Dish {dish}\"\nmakes = \"{} portions\"\nbatches = \"{}\"\nkeeps = {{ fridge = \"{} days\", freezer = \"1 month\" }}\nfits = [\"main\"]\n\
             ingredients = [\"{} g foo{}\", \"{} g foo{}\"{}]\n[[step]]\ntext = \"Cook.\"\nhands = \"10 min\"\n",
            roll(dice, 2, 5),
            pick(dice, &["whole", "halves", "any"]),
            roll(dice, 2, 6),
            roll(dice, 1, 6) * 45,
            roll(dice, 0, 4),
            roll(dice, 1, 4) * 30,
            roll(dice, 0, 4),
            if dish == 1 { part } else { "" },
        );
        file(&format!("recipes/dish{dish}.toml"), &text);
    }
    let once = if seed % 3 == 1 { "at_most = 1\n" } else { "" };
    file(
        "meals.toml",
        &format!(
            "[[pattern]]\nname = \"Plain\"\neach = [\"1 portion any:main\"]\n[[pattern]]\nname = \"Plate\"\n{once}each = [\"1 portion any:main\", \"1 portion any:side\"]\n"
        ),
    );
    let one_at_most = if seed % 2 == 1 { "one_at_most = 1\n" } else { "" };
    let mut week = "from = 2026-11-30\n[compose]\nONE_AT_MOSTsame_again_after = \"1 day\"\n[[trip]]\non = 2026-11-28\n[[trip]]\non = 2026-12-02\n\
                    [[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n[[session]]\nstart = 2026-12-02T20:00\npeople = [\"cook\"]\n"
        .replace("ONE_AT_MOST", one_at_most);
    if roll(dice, 0, 1) == 0 {
        week.push_str("[[meal]]\non = 2026-12-01\nat = \"lunch\"\neach = [\"1 portion recipe:dish1\", \"40 g foo3\"]\n");
    }
    for day in [1, 2 + roll(dice, 0, 1), 4] {
        let pattern = if day == 4 { "pattern = \"Plain\"" } else { "open = true" };
        let _ = write!(week, "[[meal]]\non = 2026-12-{day:02}\nat = \"supper\"\n{pattern}\n");
    }
    file("weeks/week.toml", &week);
    let loaded = crate::kitchen::load(folder.path()).unwrap_or_else(|why| panic!("seed {seed}: {why:?}"));
    (folder, loaded)
}

#[test]
fn no_week_costs_less_than_the_bounds_of_it_and_of_its_first_meals() {
    let (mut tight, mut all) = (0.0, 0.0);
    for seed in 0..24 {
        let (_folder, loaded) = kitchen(seed);
        let week = &loaded.weeks[0].1;
        let open = open_meals(week, TODAY);
        let booked = Booked::default();
        let Ok(trials) = trials(&loaded, &booked, &[], (0, &open), TODAY) else { continue };
        let lines: Vec<Open> = open.iter().map(|place| lines(&week.meals[*place])).collect();
        let table = Table::lay(&trials, Wishes::of(&trials.kitchen, week), &lines, &[], false);
        let options = options(&table);
        if options.iter().any(Vec::is_empty) {
            continue;
        }
        let (bound, floor) = (Bound::of(&table, &options), Floor::of(&table, &options));
        let mut weeks: Vec<Chosen> = vec![Vec::new()];
        for options in &options {
            weeks = weeks.iter().flat_map(|week| options.iter().map(move |way| [week.clone(), vec![*way]].concat())).collect();
        }
        let judged: Vec<Option<i64>> = weeks
            .iter()
            .map(|week| {
                let judged = table.judge(week, Look::Thoroughly, Effort::Low);
                judged.value.filter(|_| judged.is_allowed()).map(|value| value.net)
            })
            .collect();
        for first in 0..options.len() {
            let mut begun: Vec<&[Option<u32>]> = weeks.iter().map(|week| &week[..first]).collect();
            begun.dedup();
            for begun in begun {
                let least = weeks.iter().zip(&judged).filter(|(week, _)| week.starts_with(begun)).filter_map(|(_, net)| *net).min();
                let Some(least) = least else { continue };
                let floored = floor.of_first(begun).net;
                assert!(floored.is_some_and(|net| net <= least), "seed {seed}: {floored:?} of {begun:?}, where one costs {least}");
                let taken: Vec<usize> =
                    begun.iter().zip(&options).filter_map(|(way, options)| options.iter().position(|option| option == way)).collect();
                assert!(bound.of_first(&taken) <= least, "seed {seed}: {begun:?}");
                tight += floored.unwrap_or(0) as f64 / least.max(1) as f64;
                all += 1.0;
            }
        }
        let least = judged.iter().flatten().min();
        assert!(least.is_none_or(|least| bound.of_all(&table, &options) <= *least), "seed {seed}");
    }
    // A bound of nothing would hold as well, and be worth nothing.
    assert!(tight / all > 0.5, "{tight} of {all}");
}
