//! Tiny kitchens against trying every week: each is written out, listed and compared. The rules are told anew here.

use std::collections::BTreeSet;
use std::fmt::Write;
use std::path::Path;

use jiff::civil::{Date, date};
use serde_json::Value;
use spence::book::Booked;
use spence::compose::{Asking, Composed, compose};
use spence::kitchen::{Loaded, Meal as WrittenMeal};
use spence::prep::Effort;
use spence::{Shown, reckon};
use tempfile::TempDir;

use crate::dice::Dice;

const TODAY: Date = date(2026, 11, 27);

/// A made-up kitchen, and what a person would have to know to compose its week.
struct Tiny {
    folder: TempDir,
    foods: usize,
    /// For each recipe, the words it fits.
    recipes: Vec<Vec<&'static str>>,
    /// The foods that fit "side".
    sides: Vec<usize>,
    /// Words of the places of each pattern, and how often it may be.
    patterns: Vec<(Vec<&'static str>, Option<usize>)>,
    /// Days of December, and whether they are open; a written one eats the first recipe.
    meals: Vec<(i8, bool)>,
    same_again_after: i32,
    recipes_at_most: usize,
    one_at_most: usize,
    may_cost: i64,
    prices: Vec<f64>,
    /// Of the wide ones: `spend_at_most` in cents, and a food that the household avoids.
    spend_at_most: Option<i64>,
    avoided: Option<usize>,
    /// For each recipe, its foods.
    made_of: Vec<Vec<usize>>,
}

/// One meal: its pattern and what fills its places, as they stand in file order.
type Meal = (usize, Vec<String>);

/// So many weeks are tried for one kitchen; for every tenth, more.
const MOST_WEEKS: usize = 14;
const MORE_WEEKS: usize = 60;

impl Tiny {
    /// The first kitchen from a seed on that is tiny.
    fn of(seed: u64) -> Tiny {
        let mut dice = Dice(seed);
        let most = if seed.is_multiple_of(10) { MORE_WEEKS } else { MOST_WEEKS };
        loop {
            let mut tiny = Tiny::rolled(&mut dice, (1, 3), false);
            if tiny.weeks().len() <= most {
                tiny.write_files(&mut dice);
                return tiny;
            }
        }
    }

    /// More open meals than every week could be tried of, with a budget and something to be avoided.
    fn wide(seed: u64) -> Tiny {
        let mut dice = Dice(seed);
        let mut tiny = Tiny::rolled(&mut dice, (3, 6), true);
        tiny.write_files(&mut dice);
        tiny
    }

    fn rolled(dice: &mut Dice, (fewest, most): (i64, i64), strict: bool) -> Tiny {
        let foods = dice.between(3, 5) as usize;
        let recipes: Vec<Vec<&str>> = (0..dice.between(2, 3))
            .map(|_| [vec!["main"], vec!["main", "side"], vec!["side"]][dice.between(0, 2) as usize].clone())
            .collect();
        let mut recipes = recipes;
        recipes[0] = vec!["main"];
        let sides: Vec<usize> = (0..foods).filter(|food| *food == 0 || dice.between(0, 2) == 0).collect();
        let mut patterns = vec![(vec!["main"], None), (vec!["main", "side"], None)];
        patterns[0].1 = (dice.between(0, 1) == 0).then(|| dice.between(1, 2) as usize);
        if dice.between(0, 2) == 0 {
            patterns.remove(0);
        }
        let open = dice.between(fewest, most);
        let mut day = 0;
        let mut meals = Vec::new();
        for place in 0..open + dice.between(0, 1) {
            day += dice.between(1, 2) as i8;
            meals.push((day, place < open));
        }
        let mut tiny = Tiny {
            foods,
            folder: TempDir::new().expect("a folder"),
            recipes,
            sides,
            patterns,
            meals,
            same_again_after: dice.between(1, 3) as i32,
            recipes_at_most: dice.between(1, 3) as usize,
            one_at_most: dice.between(1, 3) as usize,
            may_cost: [0, 2, 20][dice.between(0, 2) as usize],
            prices: Vec::new(),
            spend_at_most: None,
            avoided: None,
            made_of: Vec::new(),
        };
        if strict {
            tiny.spend_at_most = (dice.between(0, 1) == 0).then(|| dice.between(400, 3000));
            tiny.avoided = (dice.between(0, 1) == 0).then(|| dice.between(0, foods as i64 - 1) as usize);
            tiny.one_at_most += 1;
        }
        tiny
    }

    fn write_files(&mut self, dice: &mut Dice) {
        let foods = self.foods;
        let avoid = self.avoided.map(|food| format!("avoid = [\"foo{food}\"]\n")).unwrap_or_default();
        self.file(
            "kitchen.toml",
            &format!("[household]\nname = \"Row\"\neaters = 1\ncurrency = \"EUR\"\n{avoid}[rules]\nshort_by = \"0%\"\n"),
        );
        let (mut known, mut shops, mut pantry) = (String::new(), String::new(), String::new());
        shops.push_str("[[shop]]\nname = \"A\"\nsections = []\n[[shop]]\nname = \"B\"\nsections = []\ntrip = \"0.40\"\n");
        for food in 0..foods {
            let fits = if self.sides.contains(&food) { "fits = [\"side\"]\nserving = \"60 g\"\n" } else { "" };
            let keeps =
                [String::new(), format!("keeps = {{ fridge = \"{} days\" }}\n", dice.between(3, 20))][dice.between(0, 1) as usize].clone();
            let _ = write!(known, "[[food]]\nname = \"foo{food}\"\n{fits}{keeps}");
            let mut least = f64::MAX;
            for shop in ["A", "B"].iter().take(dice.between(1, 2) as usize) {
                let (size, price) = (dice.between(1, 5) * 50, dice.between(50, 300));
                least = least.min(price as f64 / size as f64);
                let _ = write!(
                    shops,
                    "[[pack]]\nshop = \"{shop}\"\nfood = \"foo{food}\"\nsize = \"{size} g\"\nprice = \"{}.{:02}\"\n",
                    price / 100,
                    price % 100
                );
            }
            self.prices.push(least);
            if dice.between(0, 2) == 0 {
                let until = [String::new(), format!("use_by = 2026-12-{:02}\n", dice.between(1, 6))][dice.between(0, 1) as usize].clone();
                let _ = write!(
                    pantry,
                    "[[lot]]\nfood = \"foo{food}\"\namount = \"{} g\"\nplace = \"fridge\"\n{until}",
                    dice.between(1, 4) * 50
                );
            }
        }
        self.file("foods.toml", &known);
        self.file("shops.toml", &shops);
        self.file("pantry.toml", &pantry);
        let mut made_of = Vec::new();
        for (recipe, fits) in self.recipes.iter().enumerate() {
            let (makes, cut) = (dice.between(1, 3), ["whole", "halves", "any"][dice.between(0, 2) as usize]);
            let text = format!(
                "name = \"Dish {recipe}\"\nmakes = \"{makes} portions\"\nbatches = \"{cut}\"\nkeeps = {{ fridge = \"{} days\" }}\nfits = {fits:?}\n\
                 ingredients = [\"{} g foo{}\", \"{} g foo{}\"]\n[[step]]\ntext = \"Cook.\"\nhands = \"{} min\"\n",
                dice.between(1, 7),
                dice.between(1, 4) * 40,
                {
                    made_of.push(vec![dice.between(0, foods as i64 - 1) as usize]);
                    made_of[recipe][0]
                },
                dice.between(1, 4) * 30,
                {
                    made_of[recipe].push(dice.between(0, foods as i64 - 1) as usize);
                    made_of[recipe][1]
                },
                dice.between(5, 20),
            );
            self.file(&format!("recipes/dish{recipe}.toml"), &text);
        }
        self.made_of = made_of;
        let mut meals = String::new();
        for (pattern, (places, most)) in self.patterns.iter().enumerate() {
            let each: Vec<String> = places.iter().map(|word| format!("1 portion any:{word}")).collect();
            let most = most.map(|most| format!("at_most = {most}\n")).unwrap_or_default();
            let _ = write!(meals, "[[pattern]]\nname = \"Pattern {pattern}\"\neach = {each:?}\n{most}");
        }
        self.file("meals.toml", &meals);
        self.file("weeks/week.toml", &self.week(None));
    }

    fn file(&self, name: &str, text: &str) {
        let path = self.folder.path().join(name);
        std::fs::create_dir_all(path.parent().expect("a parent")).expect("a folder");
        std::fs::write(path, text).expect("a file");
    }

    /// The week's file, with its open meals filled or open.
    fn week(&self, filled: Option<&[Meal]>) -> String {
        let spend = self.spend_at_most.map(|cents| format!("spend_at_most = \"{}.{:02}\"\n", cents / 100, cents % 100)).unwrap_or_default();
        let mut text = format!(
            "from = 2026-11-30\n[compose]\n{spend}same_again_after = \"{} days\"\nrecipes_at_most = {}\none_at_most = {}\nvariety_may_cost = \"{}%\"\n\
             [[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n[[session]]\nstart = 2026-12-03T09:00\npeople = [\"cook\"]\n",
            self.same_again_after, self.recipes_at_most, self.one_at_most, self.may_cost
        );
        let mut next = filled.into_iter().flatten();
        for (day, open) in &self.meals {
            let _ = write!(text, "[[meal]]\non = 2026-12-{day:02}\nat = \"supper\"\n");
            match (open, next.next()) {
                (true, Some((pattern, each))) => _ = write!(text, "pattern = \"Pattern {pattern}\"\neach = {each:?}\n"),
                (true, None) => text.push_str("open = true\n"),
                (false, _) => text.push_str("each = [\"1 portion recipe:dish0\"]\n"),
            }
        }
        text
    }

    /// Every way to fill one meal, in file order.
    fn ways(&self) -> Vec<Meal> {
        let who = |word: &str| {
            let recipes = self
                .recipes
                .iter()
                .enumerate()
                .filter(|(_, fits)| fits.contains(&word))
                .map(|(recipe, _)| format!("1 portion recipe:dish{recipe}"));
            let sides = self.sides.iter().filter(|_| word == "side").map(|food| format!("60 g foo{food}"));
            recipes.chain(sides).collect::<Vec<_>>()
        };
        let mut ways = Vec::new();
        for (pattern, (places, _)) in self.patterns.iter().enumerate() {
            let mut each: Vec<Vec<String>> = vec![Vec::new()];
            for word in places {
                each = each
                    .iter()
                    .flat_map(|so_far| {
                        who(word).into_iter().filter(|one| !so_far.contains(one)).map(|one| [so_far.clone(), vec![one]].concat())
                    })
                    .collect();
            }
            ways.extend(each.into_iter().map(|each| (pattern, each)));
        }
        ways
    }

    fn weeks(&self) -> Vec<Vec<Meal>> {
        let ways = self.ways();
        let open = self.meals.iter().filter(|(_, open)| *open).count();
        let mut weeks: Vec<Vec<Meal>> = vec![Vec::new()];
        for _ in 0..open {
            weeks = weeks.iter().flat_map(|week| ways.iter().map(move |way| [week.clone(), vec![way.clone()]].concat())).collect();
        }
        weeks.into_iter().filter(|week| self.is_allowed(week)).collect()
    }

    /// All meals of the week: day, pattern, lines.
    fn all(&self, week: &[Meal]) -> Vec<(i8, Option<usize>, Vec<String>)> {
        let mut next = week.iter();
        let meal = |(day, open): &(i8, bool)| match next.next().filter(|_| *open) {
            Some((pattern, each)) => (*day, Some(*pattern), each.clone()),
            None => (*day, None, vec!["1 portion recipe:dish0".to_owned()]),
        };
        self.meals.iter().map(meal).collect()
    }

    /// The rules that meals keep among themselves.
    fn is_allowed(&self, week: &[Meal]) -> bool {
        let all = self.all(week);
        let often = self
            .patterns
            .iter()
            .enumerate()
            .all(|(pattern, (_, most))| most.is_none_or(|most| all.iter().filter(|meal| meal.1 == Some(pattern)).count() <= most));
        let set = |lines: &[String]| lines.iter().cloned().collect::<BTreeSet<_>>();
        let apart = all.iter().enumerate().all(|(place, one)| {
            all[..place].iter().all(|other| {
                let same = set(&one.2) == set(&other.2);
                let written = one.1.is_none() && other.1.is_none();
                !same || written || i32::from(one.0 - other.0) >= self.same_again_after
            })
        });
        let ones = (0..self.recipes.len())
            .all(|recipe| all.iter().filter(|meal| meal.2.contains(&format!("1 portion recipe:dish{recipe}"))).count() <= self.one_at_most);
        often && apart && ones
    }

    /// Pairs of equal patterns on following days, then meals that share a recipe with the one before.
    fn variety(&self, week: &[Meal]) -> (usize, usize) {
        let all = self.all(week);
        let pairs = || all.windows(2);
        let equal = pairs().filter(|pair| pair[0].1.is_some() && pair[0].1 == pair[1].1 && pair[1].0 - pair[0].0 == 1).count();
        let recipe = |line: &String| line.contains("recipe:");
        let share = pairs().filter(|pair| pair[1].2.iter().any(|line| recipe(line) && pair[0].2.contains(line))).count();
        (equal, share)
    }

    /// What `list` says of a week: its net cost in cents, and its batches in thousandths; `None` where it is not allowed.
    fn worth(&self, week: &[Meal]) -> Option<(i64, i64)> {
        let text = self.week(Some(week));
        let loaded = spence::kitchen::load_with(self.folder.path(), &[("weeks/week.toml", &text)]).expect("a sound week");
        self.worth_of(&loaded)
    }

    /// The meals that stand open in the week, each with every way that it could be filled: read once, so that many weeks can be tried.
    fn ways_read(&self) -> (Loaded, Vec<WrittenMeal>) {
        let mut text = self.week(None);
        for (number, (pattern, each)) in self.ways().iter().enumerate() {
            let _ = write!(
                text,
                "[[meal]]\non = 2026-12-01\nat = \"{:02}:{:02}\"\npattern = \"Pattern {pattern}\"\neach = {each:?}\n",
                number / 60,
                number % 60
            );
        }
        let mut loaded = spence::kitchen::load_with(self.folder.path(), &[("weeks/week.toml", &text)]).expect("a sound week");
        let meals = &mut loaded.weeks[0].1.meals;
        // The week's own meals are at supper, and these before dawn: they stand where they were written.
        let ways = meals.iter().filter(|meal| meal.label.contains(':')).cloned().collect();
        meals.retain(|meal| !meal.label.contains(':'));
        (loaded, ways)
    }

    fn fill(&self, loaded: &mut Loaded, ways: &[WrittenMeal], week: &[Meal]) {
        let all = self.ways();
        let mut next = week.iter();
        for (meal, (_, open)) in loaded.weeks[0].1.meals.iter_mut().zip(&self.meals) {
            let Some(filled) = next.next().filter(|_| *open) else { continue };
            let way = &ways[all.iter().position(|way| way == filled).expect("a way")];
            meal.open = None;
            meal.each.clone_from(&way.each);
            meal.pattern = way.pattern;
        }
    }

    fn worth_of(&self, loaded: &Loaded) -> Option<(i64, i64)> {
        let reckoning = reckon(loaded, &Booked::default(), &[], 0, TODAY).ok()?;
        let list = serde_json::to_value(spence::json::list(&reckoning.list(Shown::default()), &reckoning.kitchen)).expect("JSON");
        if list["flags"].as_array().is_some_and(|flags| !flags.is_empty()) {
            return None;
        }
        let turnovers = reckoning.turnovers();
        let cooked: BTreeSet<_> = turnovers.iter().flat_map(|session| &session.batches).map(|batch| batch.recipe).collect();
        if cooked.len() > self.recipes_at_most {
            return None;
        }
        let batches: f64 = turnovers.iter().flat_map(|session| &session.batches).map(|batch| batch.batches).sum();
        Some((self.net(&list), (batches * 1000.0).round() as i64))
    }

    /// The cost, less what keeps, and what goes off: at what the list pays for it, else at the cheapest.
    fn net(&self, list: &Value) -> i64 {
        let cents = |value: &Value| (value.as_str().expect("money").parse::<f64>().expect("a number") * 100.0).round() as i64;
        let lines = crate::kitchen::lines(list);
        let off = |lot: &Value| {
            let food = lot["food"].as_str().expect("a food");
            let bought =
                lines.iter().find(|(_, _, line)| line["food"] == food && line["packs"].as_array().is_some_and(|packs| !packs.is_empty()));
            let amount = |value: &Value| value["amount"].as_f64().expect("an amount");
            let rate = bought.map_or(self.prices[food[3..].parse::<usize>().expect("a number")], |(_, _, line)| {
                cents(&line["cost"]) as f64 / (amount(&line["need"]) - amount(&line["short"]) + amount(&line["left"]))
            });
            (amount(&lot["amount"]) * rate + 1e-9).round() as i64
        };
        cents(&list["cost"]) - cents(&list["worth"]["keeps"]) + list["expiring"].as_array().expect("a list").iter().map(off).sum::<i64>()
    }

    /// `None` where the written meal alone cannot be made.
    fn composed(&self, folder: &Path) -> Option<Composed> {
        let loaded = spence::kitchen::load(folder).expect("a sound kitchen");
        compose(&loaded, &Booked::default(), &[], (0, TODAY), &Asking { effort: Effort::Normal, ..Asking::default() }).ok()
    }
}

#[test]
fn two_hundred_tiny_kitchens_get_what_trying_every_week_finds() {
    let (mut proposals, mut clashes) = (0, 0);
    for seed in 0..200 {
        let tiny = Tiny::of(seed);
        let weeks = tiny.weeks();
        let mut worth: Vec<(i64, (usize, usize), i64, usize)> = Vec::new();
        let (mut loaded, ways) = tiny.ways_read();
        for (place, week) in weeks.iter().enumerate() {
            tiny.fill(&mut loaded, &ways, week);
            worth.extend(tiny.worth_of(&loaded).map(|(net, batches)| (net, tiny.variety(week), batches, place)));
        }
        let least = worth.iter().map(|one| one.0).min();
        match (tiny.composed(tiny.folder.path()), least) {
            (Some(Composed::Proposal(proposal)), Some(least)) => {
                let as_good = (least as f64 * (1.0 + tiny.may_cost as f64 / 100.0) + 1e-6).floor() as i64;
                let best = worth.iter().min_by_key(|one| (one.0.max(as_good), one.1, one.2, one.3)).expect("one");
                assert!(proposal.proven, "seed {seed}");
                assert_eq!(proposal.bound.0, least, "seed {seed}");
                let found: Vec<Vec<String>> =
                    proposal.meals.iter().map(|meal| meal.each.iter().map(|line| line.text.clone()).collect()).collect();
                let wanted: Vec<Vec<String>> = weeks[best.3].iter().map(|meal| meal.1.clone()).collect();
                assert_eq!((proposal.net_cost.0, found), (best.0, wanted), "seed {seed}");
                proposals += 1;
            }
            (None, None) => {}
            // What the written meal alone draws a flag for is not held against the others.
            (Some(Composed::Proposal(_)), None) if !tiny.flags(None).is_empty() => {}
            (Some(Composed::Clash(clash)), None) => {
                assert!(!clash.wishes.is_empty(), "seed {seed}");
                clashes += 1;
            }
            (composed, least) => panic!("seed {seed}: {composed:?}, and every week finds {least:?}"),
        }
    }
    assert!(proposals > 80 && clashes > 20, "{proposals} proposals, {clashes} clashes");
}

#[test]
fn in_a_hundred_wide_kitchens_every_proposal_keeps_the_hard_rules_and_costs_what_the_list_says() {
    let (mut proposals, mut clashes) = (0, 0);
    for seed in 0..100 {
        let wide = Tiny::wide(seed);
        let loaded = spence::kitchen::load(wide.folder.path()).expect("a sound kitchen");
        let asking = Asking { effort: Effort::Low, ..Asking::default() };
        match compose(&loaded, &Booked::default(), &[], (0, TODAY), &asking) {
            Ok(Composed::Proposal(proposal)) => {
                let week: Vec<Meal> = proposal.meals.iter().map(|meal| wide.told(meal)).collect();
                assert_eq!(week.len(), wide.meals.iter().filter(|(_, open)| *open).count(), "seed {seed}");
                assert!(wide.is_allowed(&week), "seed {seed}: {week:?}");
                assert!(!wide.holds_what_is_avoided(&week), "seed {seed}: {week:?}, avoided {:?}, {:?}", wide.avoided, wide.made_of);
                let worth = wide.worth(&week).map(|(net, _)| net);
                // What the written meal alone draws a flag for is not held against the others.
                let is_excused = !wide.flags(None).is_empty();
                let flags = wide.flags(Some(&week));
                assert!(
                    worth == Some(proposal.net_cost.0) || worth.is_none() && is_excused,
                    "seed {seed}: {worth:?} {} {flags:?} {:?} at most {}",
                    proposal.net_cost.0,
                    proposal.recipes,
                    wide.recipes_at_most
                );
                assert!(wide.spend_at_most.is_none_or(|most| proposal.cost.0 <= most), "seed {seed}");
                assert!(proposal.bound.0 <= proposal.net_cost.0, "seed {seed}");
                proposals += 1;
            }
            Ok(Composed::Clash(clash)) => {
                assert!(!clash.wishes.is_empty(), "seed {seed}");
                clashes += 1;
            }
            _ => {}
        }
    }
    assert!(proposals > 10 && clashes > 20, "{proposals} proposals, {clashes} clashes");
}

impl Tiny {
    fn flags(&self, week: Option<&[Meal]>) -> Vec<Value> {
        let text = self.week(week);
        let loaded = spence::kitchen::load_with(self.folder.path(), &[("weeks/week.toml", &text)]).expect("a sound week");
        let reckoning = reckon(&loaded, &Booked::default(), &[], 0, TODAY).expect("it can be reckoned");
        let list = serde_json::to_value(spence::json::list(&reckoning.list(Shown::default()), &reckoning.kitchen)).expect("JSON");
        list["flags"].as_array().cloned().unwrap_or_default()
    }

    fn told(&self, meal: &spence::compose::FilledMeal) -> Meal {
        let pattern = meal.name.strip_prefix("Pattern ").and_then(|rest| rest.split(':').next()?.parse().ok());
        (pattern.expect("a pattern"), meal.each.iter().map(|line| line.text.clone()).collect())
    }

    fn holds_what_is_avoided(&self, week: &[Meal]) -> bool {
        let holds = |line: &String, food: usize| match line.strip_prefix("1 portion recipe:dish") {
            Some(dish) => self.made_of[dish.parse::<usize>().expect("a number")].contains(&food),
            None => *line == format!("60 g foo{food}"),
        };
        self.avoided.is_some_and(|food| week.iter().any(|meal| meal.1.iter().any(|line| holds(line, food))))
    }
}
