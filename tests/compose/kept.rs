//! Random kitchens with every hard rule that a household can wish for, and a checker that tells the rules anew from the files alone.
//!
//! `SPENCE_KITCHENS=1000` tries so many; a plain run tries as many as stay quick.

use std::collections::BTreeSet;
use std::fmt::Write;

use jiff::civil::{Date, date};
use spence::book::Booked;
use spence::compose::{Asking, Composed, Proposal, compose};
use spence::prep::Effort;
use spence::{Shown, reckon};
use tempfile::TempDir;

use crate::dice::Dice;

const TODAY: Date = date(2026, 11, 27);
const QUICK: u64 = 60;

struct Dish {
    fits: &'static str,
    is: Option<&'static str>,
    style: Option<&'static str>,
    cold: bool,
    /// Hands and wait at the meal; `None`: cooked in the session.
    at_the_meal: Option<(i64, i64)>,
    makes: i64,
    /// Foods and grams of one batch.
    of: [(usize, i64); 2],
}

struct Food {
    /// Whether it fits "side".
    side: bool,
    is: Option<&'static str>,
    /// Grams in 100 g.
    protein: i64,
}

struct Pattern {
    places: Vec<&'static str>,
    minutes: Option<i64>,
    style: Option<&'static str>,
}

/// One meal of the week to be composed.
struct Asked {
    day: i8,
    packed: bool,
    ready_in: Option<i64>,
    written: bool,
}

struct Household {
    folder: TempDir,
    dishes: Vec<Dish>,
    foods: Vec<Food>,
    patterns: Vec<Pattern>,
    meals: Vec<Asked>,
    /// A food that Bo is allergic to, and one that Ana wants to be sure of.
    allergic: Option<usize>,
    sure: Option<usize>,
    beside: bool,
    protein: Option<i64>,
    /// Days, and a meal of the week before: its day in November, its pattern, its lines.
    not_again: Option<(i64, i8, usize, Vec<String>)>,
    finish_by: Option<i64>,
}

fn one<T: Copy>(dice: &mut Dice, of: &[T]) -> T {
    of[dice.between(0, of.len() as i64 - 1) as usize]
}

fn maybe<T>(dice: &mut Dice, one_in: i64, what: impl FnOnce(&mut Dice) -> T) -> Option<T> {
    (dice.between(1, one_in) == 1).then(|| what(dice))
}

impl Household {
    fn of(seed: u64) -> Household {
        let mut dice = Dice(seed.wrapping_mul(7919));
        let dice = &mut dice;
        let foods: Vec<Food> = (0..5)
            .map(|food| Food {
                side: food < 2 || dice.between(0, 1) == 0,
                is: one(dice, &[Some("crunchy"), Some("crunchy"), Some("soft"), None]),
                protein: dice.between(0, 30),
            })
            .collect();
        let dishes: Vec<Dish> = (0..4)
            .map(|dish| Dish {
                fits: if dish < 2 { "main" } else { one(dice, &["main", "side"]) },
                is: one(dice, &[Some("soft"), None, Some("crunchy")]),
                style: one(dice, &[None, None, Some("north"), Some("south")]),
                cold: dice.between(0, 1) == 0,
                at_the_meal: maybe(dice, 4, |dice| (dice.between(5, 15), dice.between(0, 15))),
                makes: dice.between(1, 4),
                of: [(dice.between(0, 4) as usize, dice.between(2, 8) * 20), (dice.between(0, 4) as usize, dice.between(1, 4) * 30)],
            })
            .collect();
        let patterns: Vec<Pattern> = [vec!["main"], vec!["main", "side"]]
            .into_iter()
            .map(|places| Pattern {
                places,
                minutes: maybe(dice, 2, |dice| dice.between(5, 20)),
                style: one(dice, &[None, None, None, Some("north")]),
            })
            .collect();
        let mut day = 0;
        let meals = (0..dice.between(2, 4)).map(|meal| {
            day += dice.between(1, 2) as i8;
            Asked {
                day,
                packed: dice.between(0, 4) == 0,
                ready_in: maybe(dice, 4, |dice| dice.between(10, 30)),
                written: meal == 1 && dice.between(0, 1) == 0,
            }
        });
        let meals = meals.collect();
        let mut household = Household {
            folder: TempDir::new().expect("a folder"),
            allergic: maybe(dice, 3, |dice| dice.between(0, 4) as usize),
            sure: maybe(dice, 4, |dice| dice.between(0, 4) as usize),
            beside: dice.between(0, 2) == 0,
            protein: maybe(dice, 3, |dice| dice.between(2, 25)),
            not_again: None,
            finish_by: maybe(dice, 3, |dice| dice.between(20, 80)),
            dishes,
            foods,
            patterns,
            meals,
        };
        household.not_again = maybe(dice, 2, |dice| {
            let dish = dice.between(0, 1);
            (dice.between(5, 12), dice.between(23, 28) as i8, 1, vec![format!("1 portion recipe:dish{dish}"), "60 g foo0".to_owned()])
        });
        household.write_files(dice);
        household
    }

    fn file(&self, name: &str, text: &str) {
        super::write(&self.folder, name, text);
    }

    fn write_files(&self, dice: &mut Dice) {
        let allergic = self.allergic.map(|food| format!("allergic = [\"foo{food}\"]\n")).unwrap_or_default();
        let sure = self.sure.map(|food| format!("sure = [\"foo{food}\"]\n")).unwrap_or_default();
        self.file(
            "kitchen.toml",
            &format!("[household]\nname = \"Row\"\ncurrency = \"EUR\"\n[[eater]]\nname = \"Ana\"\n{sure}[[eater]]\nname = \"Bo\"\nshare = 0.5\n{allergic}"),
        );
        let list = |key: &str, word: Option<&str>| word.map(|word| format!("{key} = [\"{word}\"]\n")).unwrap_or_default();
        let (mut known, mut shops) = (String::new(), String::from("[[shop]]\nname = \"A\"\nsections = []\n"));
        for (food, facts) in self.foods.iter().enumerate() {
            let side = if facts.side { "fits = [\"side\"]\nserving = \"60 g\"\n" } else { "" };
            let _ = write!(
                known,
                "[[food]]\nname = \"foo{food}\"\n{side}{}allergens = []\nper_100g = {{ protein = \"{} g\" }}\n",
                list("is", facts.is),
                facts.protein
            );
            let (size, price) = (dice.between(1, 5) * 50, dice.between(50, 300));
            let _ = write!(
                shops,
                "[[pack]]\nshop = \"A\"\nfood = \"foo{food}\"\nsize = \"{size} g\"\nprice = \"{}.{:02}\"\n",
                price / 100,
                price % 100
            );
        }
        // So that somebody is soft and somebody crunchy, whatever the dice say; no pattern asks for it.
        known.push_str("[[food]]\nname = \"moss\"\nis = [\"soft\", \"crunchy\"]\n");
        self.file("foods.toml", &known);
        self.file("shops.toml", &shops);
        for (number, dish) in self.dishes.iter().enumerate() {
            let style = dish.style.map(|style| format!("style = \"{style}\"\n")).unwrap_or_default();
            let serve = if dish.cold { "serve = \"cold\"\n" } else { "" };
            let made = if dish.at_the_meal.is_some() { "made = \"at the meal\"\n" } else { "keeps = { fridge = \"6 days\" }\n" };
            let (hands, wait) = dish.at_the_meal.unwrap_or((10, 10));
            let wait = if wait > 0 { format!("wait = \"{wait} min\"\n") } else { String::new() };
            let [(one, grams), (other, more)] = dish.of;
            self.file(
                &format!("recipes/dish{number}.toml"),
                &format!(
                    "name = \"Dish {number}\"\nmakes = \"{} portions\"\n{made}{serve}{style}fits = [\"{}\"]\n{}ingredients = [\"{grams} g foo{one}\", \"{more} g foo{other}\"]\n\
                     [[step]]\ntext = \"Cook.\"\nhands = \"{hands} min\"\nscales = false\n{wait}",
                    dish.makes,
                    dish.fits,
                    list("is", dish.is),
                ),
            );
        }
        let mut meals = String::new();
        for (number, pattern) in self.patterns.iter().enumerate() {
            let each: Vec<String> = pattern.places.iter().map(|word| format!("1 portion any:{word}")).collect();
            let minutes = pattern.minutes.map(|minutes| format!("minutes = \"{minutes} min\"\n")).unwrap_or_default();
            let style = pattern.style.map(|style| format!("style = \"{style}\"\n")).unwrap_or_default();
            let _ = write!(meals, "[[pattern]]\nname = \"Pattern {number}\"\neach = {each:?}\n{minutes}{style}");
        }
        self.file("meals.toml", &meals);
        self.file("weeks/week.toml", &self.week(None));
        if let Some((_, day, pattern, each)) = &self.not_again {
            let text = format!(
                "from = 2026-11-23\n[[meal]]\non = 2026-11-{day}\nat = \"supper\"\npattern = \"Pattern {pattern}\"\neach = {each:?}\n"
            );
            self.file("weeks/before.toml", &text);
        }
    }

    fn week(&self, filled: Option<&Proposal>) -> String {
        let mut text = String::from("from = 2026-11-30\n[compose]\n");
        if self.beside {
            text.push_str("beside = { soft = \"crunchy\" }\n");
        }
        if let Some(grams) = self.protein {
            let _ = writeln!(text, "each_day = {{ protein = \"{grams} g\" }}");
        }
        if let Some((days, ..)) = self.not_again {
            let _ = writeln!(text, "not_again = \"{days} days\"");
        }
        text.push_str("[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n");
        if let Some(minutes) = self.finish_by {
            let _ = writeln!(text, "finish_by = \"{:02}:{:02}\"", 14 + minutes / 60, minutes % 60);
        }
        let mut next = filled.into_iter().flat_map(|proposal| &proposal.meals);
        for meal in &self.meals {
            let _ = write!(text, "[[meal]]\non = 2026-12-{:02}\nat = \"supper\"\n", meal.day);
            if meal.packed {
                text.push_str("packed = true\n");
            }
            if let Some(minutes) = meal.ready_in {
                let _ = writeln!(text, "ready_in = \"{minutes} min\"");
            }
            match (meal.written, filled.is_some()) {
                (true, _) => text.push_str("each = [\"60 g foo1\"]\n"),
                (false, false) => text.push_str("open = true\n"),
                (false, true) => {
                    let meal = next.next().expect("a filled meal");
                    let each: Vec<&str> = meal.each.iter().map(|line| line.text.as_str()).collect();
                    let pattern = meal.name.split(':').next().expect("a pattern");
                    let _ = write!(text, "pattern = \"{pattern}\"\neach = {each:?}\n");
                }
            }
        }
        text
    }

    /// Everything that a proposal breaks.
    fn broken(&self, proposal: &Proposal) -> Vec<String> {
        let mut broken = Vec::new();
        let open: Vec<&Asked> = self.meals.iter().filter(|meal| !meal.written).collect();
        if proposal.meals.len() != open.len() {
            broken.push(format!("{} of {} meals are filled", proposal.meals.len(), open.len()));
        }
        for (meal, asked) in proposal.meals.iter().zip(open) {
            let lines: Vec<&str> = meal.each.iter().map(|line| line.text.as_str()).collect();
            let pattern: usize =
                meal.name.strip_prefix("Pattern ").and_then(|rest| rest.split(':').next()?.parse().ok()).expect("a pattern");
            self.check_meal(asked, &self.patterns[pattern], &lines, &mut broken);
            if let Some((days, day, other, each)) = &self.not_again {
                let apart = date(2026, 12, asked.day).since(date(2026, 11, *day)).expect("days").get_days();
                let same = pattern == *other
                    && lines.iter().collect::<BTreeSet<_>>() == each.iter().map(String::as_str).collect::<Vec<_>>().iter().collect();
                if same && i64::from(apart) < *days {
                    broken.push(format!("again after {apart} days"));
                }
            }
        }
        broken
    }

    fn check_meal(&self, asked: &Asked, pattern: &Pattern, lines: &[&str], broken: &mut Vec<String>) {
        let dishes: Vec<&Dish> = lines.iter().filter_map(|line| self.dish(line)).collect();
        let plain: Vec<usize> = lines.iter().filter_map(|line| food(line)).collect();
        let holds = |food: usize| plain.contains(&food) || dishes.iter().any(|dish| dish.of.iter().any(|(of, _)| *of == food));
        let mut no = |wrong: bool, what: &str| {
            if wrong {
                broken.push(format!("{what}: {lines:?}"));
            }
        };
        no(self.allergic.is_some_and(holds), "allergic");
        no(self.sure.is_some_and(|food| !holds(food)), "sure");
        let is =
            |word: &str| dishes.iter().any(|dish| dish.is == Some(word)) || plain.iter().any(|food| self.foods[*food].is == Some(word));
        no(self.beside && is("soft") && !is("crunchy"), "beside");
        let styles: BTreeSet<&str> = dishes.iter().filter_map(|dish| dish.style).chain(pattern.style).collect();
        no(styles.len() > 1, "style");
        no(asked.packed && dishes.iter().any(|dish| !dish.cold), "packed");
        let made: Vec<(i64, i64)> = dishes.iter().filter_map(|dish| dish.at_the_meal).collect();
        let hands: i64 = made.iter().map(|(hands, _)| hands).sum();
        let wait = made.iter().map(|(_, wait)| *wait).max().unwrap_or(0);
        no(!made.is_empty() && pattern.minutes.is_none_or(|most| hands > most), "minutes");
        no(asked.ready_in.is_some_and(|most| hands + wait > most), "ready_in");
        // Each day has one meal, and it is this one.
        let grams = |food: usize, grams: f64| grams * self.foods[food].protein as f64 / 100.0;
        let of_dish = |dish: &&Dish| dish.of.iter().map(|(food, whole)| grams(*food, *whole as f64 / dish.makes as f64)).sum::<f64>();
        let got: f64 = dishes.iter().map(of_dish).sum::<f64>() + plain.iter().map(|food| grams(*food, 60.0)).sum::<f64>();
        no(self.protein.is_some_and(|least| got < least as f64 - 1e-6), "protein");
    }

    fn dish(&self, line: &str) -> Option<&Dish> {
        Some(&self.dishes[line.strip_prefix("1 portion recipe:dish")?.parse::<usize>().ok()?])
    }
}

fn food(line: &str) -> Option<usize> {
    line.strip_prefix("60 g foo")?.parse().ok()
}

#[test]
fn in_random_kitchens_every_proposal_keeps_every_wish_and_costs_and_takes_what_list_and_prep_say() {
    let kitchens = std::env::var("SPENCE_KITCHENS").ok().and_then(|many| many.parse().ok()).unwrap_or(QUICK);
    let (mut proposals, mut clashes) = (0, 0);
    for seed in 0..kitchens {
        let household = Household::of(seed);
        let loaded = spence::kitchen::load(household.folder.path()).unwrap_or_else(|why| panic!("seed {seed}: {why:?}"));
        let index = loaded.weeks.iter().position(|(_, week)| week.from == date(2026, 11, 30)).expect("the week");
        let asking = Asking { effort: Effort::Low, ..Asking::default() };
        match compose(&loaded, &Booked::default(), &[], (index, TODAY), &asking) {
            Ok(Composed::Proposal(proposal)) => {
                assert_eq!(household.broken(&proposal), Vec::<String>::new(), "seed {seed}");
                let text = household.week(Some(&proposal));
                let written = spence::kitchen::load_with(household.folder.path(), &[("weeks/week.toml", &text)]).expect("a sound week");
                let reckoning = reckon(&written, &Booked::default(), &[], index, TODAY).expect("it can be reckoned");
                let list = reckoning.list(Shown::default());
                assert_eq!(list.cost, proposal.cost, "seed {seed}");
                assert!(list.flags.is_empty(), "seed {seed}");
                assert!(proposal.bound <= proposal.net_cost, "seed {seed}");
                if let Some(most) = household.finish_by {
                    let minutes = reckoning.prep(Effort::Low).sessions[0].minutes;
                    assert_eq!(proposal.sessions[0].minutes, minutes, "seed {seed}");
                    assert!(minutes <= most, "seed {seed}: {minutes} of {most}");
                }
                proposals += 1;
            }
            Ok(Composed::Clash(clash)) => {
                assert!(!clash.wishes.is_empty(), "seed {seed}");
                clashes += 1;
            }
            Ok(other) => panic!("seed {seed}: {other:?}"),
            // Bo is allergic to what is written.
            Err(_) => assert!(household.allergic == Some(1) && household.meals.iter().any(|meal| meal.written), "seed {seed}"),
        }
    }
    assert!(proposals * 4 > kitchens && clashes > 0, "{proposals} proposals, {clashes} clashes");
}
