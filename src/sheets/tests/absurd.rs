//! Five hundred kitchens that nobody has, laid out soundly all the same: words of 200 letters, signs without a shape, 60 tasks, 400 lines.

use jiff::civil::date;

use super::checks::{is_sound_in, letters, letters_of};
use super::sample::{A4, FOLDED, LARGE, LETTER, appliance, euros, g, kitchen, line_of, list, loose, session, sized};
use crate::foods::{Allergen, Food, FoodId, Place};
use crate::kitchen::fixture::{empty_kitchen, recipe};
use crate::kitchen::{ApplianceId, Kitchen, Person, Recipe, RecipeId, Shop, ShopId, Spot, Warning};
use crate::measure::{Celsius, Minutes, Money, Quantity};
use crate::plan::Contains;
use crate::prep::{
    Advice, Before, BoxNote, BoxTask, CardDay, CardDish, CardMaking, CardMeal, CardStep, Cut, Doing, Errand, Kept, Label, Moment, Note,
    PersonId, SessionLabels, SessionPlan, StepTask, Task, Then, WeekCard,
};
use crate::purchase::{Beware, ListLine, Opening, PackCount, Section, ShopVisit, ShoppingList, Stop, TripList, Windows};
use crate::sheets::page::BLACK;
use crate::sheets::{LabelGrid, Settings, Size, Weight, label_sheet, prep_guide, shopping_list, week_card_sheet};

const KITCHENS: u64 = 500;
const HERE: usize = 12;
const PEOPLE: usize = 9;

const PLAIN: [&str; 12] =
    ["barley", "beetroot", "mash", "of", "slaw", "white beans", "with", "dill", "a", "braise", "leek and potato soup", "oats"];

const ABSURD: [&str; 12] =
    ["🌶️", "שלום", "白菜", "e\u{301}clair", "a-b/c-d", "\n\t\u{0}", "Ζαφορά", "укроп", "1/2", "👩\u{200d}🍳", "2–3 × 400 g", "…“”’"];

/// Numbers without a pattern, the same for the same start: SplitMix64 (Steele, Lea and Flood, 2014).
struct Chance(u64);

impl Chance {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn below(&mut self, most: usize) -> usize {
        (self.next() % most.max(1) as u64) as usize
    }

    fn one_in(&mut self, chances: usize) -> bool {
        self.below(chances) == 0
    }

    fn word(&mut self) -> String {
        match self.below(24) {
            0 => char::from(b'a' + self.below(26) as u8).to_string().repeat(200),
            1 => char::from_u32(self.below(0x11_0000) as u32).unwrap_or('x').to_string(),
            2..=5 => ABSURD[self.below(ABSURD.len())].to_owned(),
            _ => PLAIN[self.below(PLAIN.len())].to_owned(),
        }
    }

    fn text(&mut self, most: usize) -> String {
        let words: Vec<String> = (0..self.below(most)).map(|_| self.word()).collect();
        words.join(" ")
    }

    fn name(&mut self) -> String {
        if self.one_in(7) { self.text(4) } else { PLAIN[self.below(PLAIN.len())].to_owned() }
    }

    fn maybe(&mut self, most: usize) -> Option<String> {
        self.one_in(3).then(|| self.text(most))
    }

    fn many<T>(&mut self, most: usize, mut one: impl FnMut(&mut Chance) -> T) -> Vec<T> {
        (0..self.below(most)).map(|_| one(self)).collect()
    }

    /// A food of a new name.
    fn food(&mut self, kitchen: &mut Kitchen) -> FoodId {
        kitchen.foods.all.push(Food { name: self.name(), ..Food::default() });
        FoodId(kitchen.foods.all.len() as u32 - 1)
    }

    fn shop(&mut self, kitchen: &mut Kitchen) -> ShopId {
        kitchen.shops.push(Shop { name: self.name(), sections: Vec::new(), trip: Money::ZERO, at: Spot::default() });
        ShopId(kitchen.shops.len() - 1)
    }

    fn windows(&mut self) -> Windows {
        let packs = |chance: &mut Chance| vec![PackCount { count: chance.below(200) as u32, label: chance.text(6) }];
        let opening = |chance: &mut Chance| Opening { on: chance.one_in(2).then_some(date(2026, 12, 2)), packs: packs(chance) };
        Windows { openings: self.many(4, opening), over: packs(self), several: true }
    }

    fn beware(&mut self) -> Beware {
        let allergens = self.many(14, |_| Allergen::Sesame);
        if self.one_in(2) { Beware::Contains(allergens) } else { Beware::MayContain(allergens) }
    }

    fn line(&mut self, kitchen: &mut Kitchen) -> ListLine {
        let mut packs = self.many(3, |chance| sized(chance.below(200) as u32, &chance.name(), "1.00"));
        packs.push(loose(Quantity::pieces(self.below(9) as f64), "2.00"));
        let what_for = self.many(4, Chance::name);
        let what_for: Vec<&str> = what_for.iter().map(String::as_str).collect();
        let plain = line_of(self.food(kitchen), g(self.below(10_000_000) as f64), packs, &what_for);
        ListLine {
            own_words: self.maybe(6).into_iter().collect(),
            windows: self.one_in(3).then(|| self.windows()),
            beware: self.one_in(3).then(|| self.beware()),
            top_up: self.one_in(2),
            fresh: self.one_in(2),
            last_used: Some(date(2026, 12, 2)),
            ..plain
        }
    }

    /// Every twentieth list is four hundred lines long. What it names goes into the kitchen.
    fn list(&mut self, number: u64, kitchen: &mut Kitchen) -> ShoppingList {
        let most = if number.is_multiple_of(20) { 400 } else { 6 };
        let mut trips: Vec<TripList> = (0..self.below(3))
            .map(|_| {
                let shops = (0..self.below(3)).map(|_| self.visit(most, kitchen)).collect();
                TripList {
                    on: date(2026, 11, 28),
                    cost: euros("3.00"),
                    planned: true,
                    nth: 0,
                    before: None,
                    state: None,
                    shops,
                    not_booked: Vec::new(),
                }
            })
            .collect();
        if most == 400 {
            let shop = ShopVisit { at: None, sections: vec![self.section(400, kitchen)] };
            trips.push(TripList {
                on: date(2026, 12, 2),
                cost: Money::ZERO,
                planned: true,
                not_booked: Vec::new(),
                nth: 0,
                before: None,
                state: None,
                shops: vec![shop],
            });
        }
        let foods: Vec<FoodId> = (0..self.below(4)).map(|_| self.food(kitchen)).collect();
        let warnings = self.many(4, |chance| Warning::Note { at: None, text: chance.text(12) });
        ShoppingList { week: self.text(8), trips, ask: foods.clone(), no_price: foods, warnings, ..list() }
    }

    fn visit(&mut self, most: usize, kitchen: &mut Kitchen) -> ShopVisit {
        let lines = self.below(most + 1);
        let at = if self.one_in(4) { None } else { Some(self.shop(kitchen)) };
        ShopVisit {
            at: at.map(|shop| Stop { shop, fare: euros("1.50"), cost: euros("3.00") }),
            sections: vec![self.section(2, kitchen), self.section(lines, kitchen)],
        }
    }

    fn section(&mut self, lines: usize, kitchen: &mut Kitchen) -> Section {
        Section { section: self.name(), lines: (0..lines).map(|_| self.line(kitchen)).collect() }
    }

    /// Of `HERE` recipes, appliances and foods.
    fn kitchen(&mut self, household: &str) -> Kitchen {
        let mut kitchen = empty_kitchen();
        kitchen.household.name = household.to_owned();
        for number in 0..HERE {
            kitchen.recipes.push(Recipe { name: self.name(), ..recipe(&format!("recipe-{number}")) });
            kitchen.appliances.push(appliance(&self.text(4)));
            kitchen.foods.intern_unknown(&format!("{} {number}", self.text(8)));
        }
        kitchen
    }

    fn recipe(&mut self) -> RecipeId {
        RecipeId(self.below(HERE))
    }

    fn task(&mut self) -> Task {
        let recipe = self.recipe();
        let into = vec![Kept { amount: g(self.below(9000) as f64), place: [Place::Fridge, Place::Cupboard][self.below(2)] }];
        let step = StepTask { recipe, step: 0, round: 0, rounds: 1, text: self.text(12), part: None, verb: self.name(), uses: vec![] };
        let what = match self.below(4) {
            0 => Doing::Set,
            1 => Doing::Box(BoxTask { recipe, into, by: self.one_in(2).then_some(500), stood: None }),
            _ => Doing::Step(step),
        };
        let (start_minute, hands_minutes, wait, out_minutes) =
            (self.below(600) as i64, self.below(30) as i64, self.below(90) as i64, self.below(3) as i64);
        let on: Vec<ApplianceId> = self.one_in(3).then(|| ApplianceId(self.below(HERE))).into_iter().collect();
        let note = |chance: &mut Chance| Note::Prepared { what: chance.text(3), how: chance.text(6) };
        Task {
            what,
            start_minute,
            hands_minutes,
            out_minutes,
            end_minute: start_minute + hands_minutes + wait + out_minutes,
            person: (hands_minutes > 0).then(|| PersonId(self.below(PEOPLE))),
            out_person: (out_minutes > 0).then(|| PersonId(self.below(PEOPLE))),
            takes: (!on.is_empty()).then_some(1),
            on,
            at: self.one_in(2).then_some(Celsius(200.0)),
            notes: self.many(2, note),
            after: Vec::new(),
        }
    }

    fn contains(&mut self) -> Contains {
        let unknown = self.many(4, |chance| chance.text(4)).into_iter().collect();
        Contains { allergens: self.one_in(2).then_some(Allergen::Milk).into_iter().collect(), unknown, ..Contains::default() }
    }

    /// Every twentieth session has sixty tasks.
    fn session(&mut self, number: u64) -> SessionPlan {
        let count = if number.is_multiple_of(20) { 60 } else { self.below(12) };
        let mut tasks: Vec<Task> = (0..count).map(|_| self.task()).collect();
        tasks.sort_by_key(|task| task.start_minute);
        let words = self.many(5, |chance| chance.text(8));
        let contains = self.contains();
        let beware = contains.beware(&[Allergen::Sesame]);
        let boxes = tasks.iter().filter_map(Task::recipe).take(5);
        let boxes =
            boxes.map(|recipe| BoxNote { recipe, contains: contains.clone(), beware: beware.clone(), ..session().boxes[0].clone() });
        let person = |chance: &mut Chance| Person { name: chance.name(), role: chance.text(8), from: None, until: None, may: None };
        let cut = |(number, word): (usize, &String)| Cut {
            food: FoodId(number as u32),
            name: word.clone(),
            amount: g(10.0),
            counted: None,
            cut: word.clone(),
            step: 1,
        };
        SessionPlan {
            boxes: boxes.collect(),
            cuts: words.iter().enumerate().map(cut).collect(),
            people: (0..PEOPLE).map(|_| person(self)).collect(),
            slower: vec![],
            advice: words
                .iter()
                .map(|word| Advice::AtOnce { people: vec![word.clone()], appliances: vec![], session: session().start })
                .collect(),
            tasks,
            batches: vec![],
            fetch: vec![],
            ..session()
        }
    }

    fn card(&mut self, week: &str) -> WeekCard {
        let dish = |chance: &mut Chance| CardDish {
            whose: None,
            recipe: chance.recipe(),
            amounts: vec![Quantity::portions(chance.below(9) as f64), g(chance.below(9000) as f64)],
            place: [None, Some(Place::Fridge), Some(Place::Cupboard)][chance.below(3)],
            boxed: chance.maybe(3),
            then: [Then::FromThePot, Then::Eaten(None), Then::Into(vec![chance.recipe()])][chance.below(3)].clone(),
        };
        let step = |chance: &mut Chance| CardStep {
            text: chance.text(20),
            on: None,
            at: None,
            wait: Minutes(chance.below(2) as i64),
            inside: None,
        };
        let meal = |chance: &mut Chance| CardMeal {
            short: vec![],
            not_known: vec![],
            otherwise: vec![],
            choking: vec![],
            label: chance.name(),
            name: None,
            called: chance.maybe(8),
            dishes: chance.many(6, dish),
            text: chance.maybe(8),
            fresh: chance.many(6, Chance::name),
            cook: vec![],
            made: chance.many(2, |chance| CardMaking { recipe: chance.recipe(), steps: chance.many(6, step) }),
            beware: chance.contains().beware(&[Allergen::Sesame]),
        };
        let errand = |chance: &mut Chance| Errand::Step { recipe: chance.recipe(), step: 0, text: chance.text(12), bought: vec![] };
        let day = |chance: &mut Chance| CardDay {
            on: date(2026, 12, 1 + chance.below(9) as i8),
            meals: chance.many(5, meal),
            tonight: chance.many(3, errand),
        };
        WeekCard {
            week: week.to_owned(),
            from: date(2026, 11, 30),
            short: vec![],
            not_known: vec![],
            cautions: vec![],
            days: self.many(9, day),
        }
    }

    fn labels(&mut self) -> Vec<SessionLabels> {
        let label = |chance: &mut Chance| Label {
            eater: chance.maybe(3),
            without: vec![],
            not_known_for: vec![],
            named_for: vec![],
            recipe: chance.recipe(),
            amount: Quantity::portions(chance.below(9) as f64),
            place: [Place::Fridge, Place::Freezer][chance.below(2)],
            made_on: date(2026, 11, 29),
            use_by: date(2027, 1, 28),
            keeps_uncooled: false,
            serve: None,
            contains: chance.contains(),
            beware: chance.contains().beware(&[Allergen::Sesame]),
            what_for: Vec::new(),
        };
        self.many(3, |chance| SessionLabels { start: date(2026, 11, 29).at(14, 0, 0, 0), labels: chance.many(30, label) })
    }
}

/// All that a household might ask for, in turn.
fn settings(number: u64) -> Settings {
    let ways = [A4, LETTER, FOLDED, LARGE, A4, LETTER, Settings { size: Size::Large, fold: true, ..LETTER }];
    ways[number as usize % ways.len()]
}

/// A check of every kitchen; what fails is told with the kitchen's number.
fn for_all(check: impl Fn(&mut Chance, u64, Settings)) {
    for number in 0..KITCHENS {
        let told = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| check(&mut Chance(number), number, settings(number))));
        assert!(told.is_ok(), "kitchen {number} is not laid out soundly");
    }
}

#[test]
fn any_list_is_laid_out_soundly_and_drops_no_line() {
    for_all(|chance, number, settings| {
        let mut kitchen = kitchen().clone();
        let list = chance.list(number, &mut kitchen);
        kitchen.household.name = chance.text(6);
        let names = kitchen.names();
        let sheet = shopping_list(&list, &[], names, settings);
        is_sound_in(&sheet, &list.week, settings);
        let sizes = if settings.size == Size::Large { &[18.0][..] } else { &[12.0, 13.0][..] };
        let printed = letters_of(&sheet, |run| run.weight == Weight::SemiBold && sizes.contains(&run.size));
        for line in list.trips.iter().flat_map(|trip| &trip.shops).flat_map(|shop| &shop.sections).flat_map(|section| &section.lines) {
            let name = names.food(line.food);
            assert!(printed.contains(&letters(name)), "{name} is missing");
        }
    });
}

#[test]
fn any_session_is_laid_out_soundly_and_drops_no_step() {
    for_all(|chance, number, settings| {
        let settings = Settings { fold: false, ..settings };
        let (session, week, household) = (chance.session(number), chance.text(8), chance.text(6));
        let errand = Errand::Step { recipe: RecipeId(0), step: 0, text: household.clone(), bought: vec![] };
        let before = [Before { at: Moment::On(date(2026, 11, 29)), errand }];
        let kitchen = chance.kitchen(&household);
        let names = kitchen.names();
        let sheet = prep_guide(&week, &session, &before, names, settings);
        is_sound_in(&sheet, &week, settings);
        let text = letters_of(&sheet, |run| run.grey == BLACK && run.weight == Weight::Regular && run.size >= 9.0);
        // What is boxed is told by its boxes.
        let told = |task: &&Task| !task.is_box() || !session.boxes.iter().any(|note| Some(note.recipe) == task.recipe());
        for said in session.tasks.iter().filter(told).map(|task| task.text(names, settings.units)) {
            assert!(text.contains(&letters(&said)), "{said} is missing");
        }
    });
}

#[test]
fn any_week_card_is_laid_out_soundly_and_drops_no_meal() {
    for_all(|chance, _, settings| {
        let settings = Settings { fold: false, ..settings };
        let (week, household) = (chance.text(8), chance.text(6));
        let (card, kitchen) = (chance.card(&week), chance.kitchen(&household));
        let names = kitchen.names();
        let sheet = week_card_sheet(&card, names, settings);
        is_sound_in(&sheet, &week, settings);
        let title = settings.size.scale().title.size;
        let all = letters_of(&sheet, |run| run.grey == BLACK && run.size < title);
        let plain = letters_of(&sheet, |run| run.grey == BLACK && run.size < title && run.weight == Weight::Regular);
        for meal in card.days.iter().flat_map(|day| &day.meals) {
            assert!(all.contains(&letters(&meal.label)), "{} is missing", meal.label);
            assert!(meal.dishes.iter().all(|dish| all.contains(&letters(names.recipe(dish.recipe)))));
            // A day's heading, which is said again over a break, is no part of a step.
            let steps = meal.made.iter().flat_map(|making| &making.steps);
            assert!(steps.map(|step| letters(&step.text(names, settings.units))).all(|step| plain.contains(&step)));
        }
    });
}

#[test]
fn any_label_is_laid_out_soundly_in_any_grid() {
    for_all(|chance, _, settings| {
        let (labels, week) = (chance.labels(), chance.text(8));
        let asked = LabelGrid { columns: 1 + chance.below(4), rows: 1 + chance.below(12) };
        let grid = if asked.check(settings).is_ok() { asked } else { LabelGrid::usual(settings.size) };
        let kitchen = chance.kitchen("Boatyard Row");
        let sheet = label_sheet(&labels, (&week, date(2026, 11, 30)), kitchen.names(), grid, settings);
        is_sound_in(&sheet, &week, settings);
        let count: usize = labels.iter().map(|session| session.labels.len()).sum();
        assert_eq!(sheet.pages.len(), count.div_ceil(grid.columns * grid.rows).max(1));
    });
}
