//! What a clash says would do, does: random kitchens with wishes too tight for them, each figure written into the files, and the week
//! composed again.

use std::fmt::Write;

use jiff::civil::{Date, date};
use spence::book::Booked;
use spence::compose::{Asking, Clash, Composed, HowMuch, Wish, compose};
use spence::prep::Effort;
use tempfile::TempDir;

use crate::dice::Dice;

const BEFORE: Date = date(2026, 11, 27);
/// The first trip is past, the session of that day to come.
const BEGUN: Date = date(2026, 11, 29);
const QUICK: u64 = 24;

/// Figures of wishes; `None`: not wished.
#[derive(Debug, Clone, Default)]
struct Wished {
    spend: Option<i64>,
    recipes: Option<i64>,
    same_again: Option<i64>,
    one_at_most: Option<i64>,
    at_most: [Option<i64>; 2],
    minutes: [Option<i64>; 2],
    protein: Option<f64>,
    not_again: Option<i64>,
    finish_by: Option<i64>,
    ready_in: Vec<Option<i64>>,
}

/// What the dice gave, whatever is wished.
struct Household {
    folder: TempDir,
    days: Vec<i64>,
    wished: Wished,
    today: Date,
}

impl Household {
    fn of(seed: u64, meals: i64) -> Household {
        let mut dice = Dice(seed.wrapping_mul(6007).wrapping_add(1));
        let dice = &mut dice;
        let maybe = |dice: &mut Dice, low, high| (dice.between(1, 3) == 1).then(|| dice.between(low, high));
        let wished = Wished {
            spend: maybe(dice, 50, 900),
            recipes: maybe(dice, 1, 2),
            same_again: maybe(dice, 2, 6),
            one_at_most: maybe(dice, 1, 2),
            at_most: [maybe(dice, 1, 2), maybe(dice, 1, 2)],
            minutes: [maybe(dice, 1, 10), maybe(dice, 1, 10)],
            protein: maybe(dice, 2, 30).map(|grams| grams as f64),
            not_again: maybe(dice, 3, 12),
            finish_by: maybe(dice, 10, 60),
            ready_in: (0..meals).map(|_| maybe(dice, 5, 20)).collect(),
        };
        let folder = TempDir::new().expect("a folder");
        let household =
            Household { folder, days: (0..meals).collect(), wished, today: if dice.between(0, 2) == 0 { BEGUN } else { BEFORE } };
        household.write_shelf_and_dishes(dice);
        household.write_wishes(&household.wished);
        household
    }

    fn file(&self, name: &str, text: &str) {
        super::write(&self.folder, name, text);
    }

    fn write_shelf_and_dishes(&self, dice: &mut Dice) {
        self.file("kitchen.toml", "[household]\nname = \"Row\"\ncurrency = \"EUR\"\neaters = 1\n");
        let (mut foods, mut shops) = (String::new(), String::from("[[shop]]\nname = \"A\"\nsections = []\n"));
        for food in 0..5 {
            let side = if food < 2 { "fits = [\"side\"]\nserving = \"60 g\"\n" } else { "" };
            let _ = write!(
                foods,
                "[[food]]\nname = \"foo{food}\"\n{side}allergens = []\nper_100g = {{ protein = \"{} g\" }}\n",
                dice.between(0, 25)
            );
            let (size, price) = (dice.between(1, 5) * 50, dice.between(50, 300));
            let _ = write!(
                shops,
                "[[pack]]\nshop = \"A\"\nfood = \"foo{food}\"\nsize = \"{size} g\"\nprice = \"{}.{:02}\"\n",
                price / 100,
                price % 100
            );
        }
        self.file("foods.toml", &foods);
        self.file("shops.toml", &shops);
        for dish in 0..4 {
            let made = if dice.between(0, 3) == 0 { "made = \"at the meal\"\n" } else { "keeps = { fridge = \"9 days\" }\n" };
            self.file(
                &format!("recipes/dish{dish}.toml"),
                &format!(
                    "name = \"Dish {dish}\"\nmakes = \"{} portions\"\n{made}fits = [\"main\"]\ningredients = [\"{} g foo{}\", \"60 g foo{}\"]\n\
                     [[step]]\ntext = \"Cook.\"\nhands = \"{} min\"\nscales = false\nwait = \"{} min\"\n",
                    dice.between(1, 4),
                    dice.between(2, 8) * 20,
                    dice.between(0, 4),
                    dice.between(0, 4),
                    dice.between(5, 15),
                    dice.between(1, 15),
                ),
            );
        }
        let eaten = dice.between(0, 3);
        self.file(
            "weeks/before.toml",
            &format!(
                "from = 2026-11-23\n[[meal]]\non = 2026-11-28\nat = \"supper\"\npattern = \"Pattern 0\"\neach = [\"1 portion recipe:dish{eaten}\"]\n\
                 [[session]]\nstart = 2026-11-27T20:00\npeople = [\"cook\"]\n[[trip]]\non = 2026-11-27\n"
            ),
        );
    }

    fn write_wishes(&self, wished: &Wished) {
        let mut meals = String::new();
        for (number, each) in ["\"1 portion any:main\"", "\"1 portion any:main\", \"1 portion any:side\""].iter().enumerate() {
            let _ = write!(meals, "[[pattern]]\nname = \"Pattern {number}\"\neach = [{each}]\n");
            wished.at_most[number].iter().for_each(|most| meals.push_str(&format!("at_most = {most}\n")));
            wished.minutes[number].iter().for_each(|most| meals.push_str(&format!("minutes = \"{most} min\"\n")));
        }
        self.file("meals.toml", &meals);
        let mut week = String::from("from = 2026-11-29\n[compose]\n");
        let mut say = |key: &str, value: Option<String>| {
            value.into_iter().for_each(|value| week.push_str(&format!("{key} = {value}\n")));
        };
        say("spend_at_most", wished.spend.map(|minor| format!("\"{}.{:02}\"", minor / 100, minor % 100)));
        say("recipes_at_most", wished.recipes.map(|many| many.to_string()));
        say("same_again_after", wished.same_again.map(|days| format!("\"{days} days\"")));
        say("one_at_most", wished.one_at_most.map(|many| many.to_string()));
        say("each_day", wished.protein.map(|grams| format!("{{ protein = \"{grams} g\" }}")));
        say("not_again", wished.not_again.map(|days| format!("\"{days} days\"")));
        week.push_str("[[trip]]\non = 2026-11-28\n[[trip]]\non = 2026-11-29\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n");
        let finish = wished.finish_by.map(|minutes| format!("finish_by = \"{:02}:{:02}\"\n", 14 + minutes / 60, minutes % 60));
        week.push_str(&finish.unwrap_or_default());
        for (day, ready_in) in self.days.iter().zip(&wished.ready_in) {
            let on = date(2026, 11, 29).saturating_add(jiff::Span::new().days(day % 7));
            let _ = write!(week, "[[meal]]\non = {on}\nat = \"{}\"\nopen = true\n", if *day < 7 { "supper" } else { "lunch" });
            ready_in.iter().for_each(|most| week.push_str(&format!("ready_in = \"{most} min\"\n")));
        }
        self.file("weeks/week.toml", &week);
    }

    /// Nothing where a week is allowed.
    fn clash(&self) -> Option<Box<Clash>> {
        let loaded = spence::kitchen::load(self.folder.path()).unwrap_or_else(|why| panic!("{why:?}"));
        let index = loaded.weeks.iter().position(|(_, week)| week.from == date(2026, 11, 29)).expect("the week");
        let asking = Asking { effort: Effort::Low, ..Asking::default() };
        match compose(&loaded, &Booked::default(), &[], (index, self.today), &asking) {
            Ok(Composed::Proposal(_)) => None,
            Ok(Composed::Clash(clash)) => Some(clash),
            other => panic!("{other:?}"),
        }
    }

    /// The wishes with one of a clash at the figure that would do; `None` where it has none.
    fn loosened(&self, wish: &Wish, would_do: &HowMuch, label: &[String]) -> Option<Wished> {
        let mut wished = self.wished.clone();
        match (wish, would_do) {
            (_, HowMuch::Whole) => return None,
            (Wish::Spend, HowMuch::Minor(minor)) => wished.spend = Some(*minor),
            (Wish::RecipesAtMost, HowMuch::Times(many)) => wished.recipes = Some(i64::from(*many)),
            (Wish::SameAgainAfter, HowMuch::Days(days)) => wished.same_again = Some(*days),
            (Wish::OneAtMost(_), HowMuch::Times(many)) => wished.one_at_most = Some(i64::from(*many)),
            (Wish::AtMost(pattern), HowMuch::Times(many)) => wished.at_most[pattern.0] = Some(i64::from(*many)),
            (Wish::Minutes(Some(pattern)), HowMuch::Minutes(most)) => wished.minutes[pattern.0] = Some(*most),
            // As it is told: down to a tenth of a gram.
            (Wish::EachDay(_), HowMuch::Grams(grams)) => wished.protein = Some((grams * 10.0 + 1e-6).floor() / 10.0),
            (Wish::NotAgain, HowMuch::Days(days)) => wished.not_again = Some(*days),
            (Wish::FinishBy(start), HowMuch::At(at, _)) => {
                let minutes = at.since((jiff::Unit::Minute, *start)).expect("minutes").get_minutes();
                wished.finish_by = Some(minutes);
            }
            (Wish::ReadyIn(meal), HowMuch::Minutes(most)) => {
                // Meals of the week stand in order of time, those of the file in that of days, then lunches.
                let open: usize = label[*meal].parse().expect("a place");
                wished.ready_in[open] = Some(*most);
            }
            other => panic!("{other:?}"),
        }
        Some(wished)
    }

    /// By the meals of the week in order of time, their places in the file.
    fn places(&self, clash: &Clash) -> Vec<String> {
        let place = |meal: &spence::kitchen::Meal| {
            let day = meal.at_time.date().since(date(2026, 11, 29)).expect("days").get_days();
            (if meal.at_time.hour() < 15 { day + 7 } else { day }).to_string()
        };
        clash.week.meals.iter().map(place).collect()
    }
}

fn try_kitchens(seeds: u64, meals: impl Fn(u64) -> i64) -> (usize, usize) {
    let (mut clashes, mut tried) = (0, 0);
    for seed in 0..seeds {
        let household = Household::of(seed, meals(seed));
        let Some(clash) = household.clash() else { continue };
        clashes += 1;
        let places = household.places(&clash);
        for one in &clash.wishes {
            let Some(wished) = household.loosened(&one.wish, &one.would_do, &places) else { continue };
            tried += 1;
            household.write_wishes(&wished);
            let Some(next) = household.clash().filter(|_| one.besides.is_empty()) else { continue };
            let again = next.wishes.iter().any(|next| next.wish == one.wish);
            assert!(!again, "seed {seed}: {:?}, loosened: {one:?}, leaves {:?}", clash.wishes, next.wishes);
        }
    }
    (clashes, tried)
}

#[test]
fn what_a_clash_says_would_do_does() {
    let kitchens = std::env::var("SPENCE_KITCHENS").ok().and_then(|many| many.parse().ok()).unwrap_or(QUICK);
    let (clashes, tried) = try_kitchens(kitchens, |seed| 1 + (seed % 4) as i64);
    assert!(clashes * 4 > kitchens as usize && tried * 2 > clashes, "{clashes} clashes, {tried} figures");
}

#[test]
fn what_a_clash_says_would_do_does_where_not_every_week_is_looked_at() {
    let kitchens = std::env::var("SPENCE_KITCHENS").ok().and_then(|many| many.parse().ok()).unwrap_or(QUICK) / 10;
    let (clashes, tried) = try_kitchens(kitchens, |seed| 7 + (seed % 6) as i64);
    assert!(clashes > 0 && tried > 0, "{clashes} clashes, {tried} figures");
}
