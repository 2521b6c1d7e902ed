//! The week laid out for composing: its open meals, the ways to fill them, what is written and counts, and what a filled week is worth. It
//! must not know how weeks are searched.

mod lay;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Mutex;

use jiff::civil::Date;

use super::eaten::Eaten;
use super::minutes::{Finishes, work};
use super::rules;
use super::value::{Value, variety};
use super::ways::{Gap, Ways, recipes};
use super::wish::{Broken, Nutrient, Wish, add};
use super::wishes::Wishes;
use crate::foods::FoodId;
use crate::kitchen::{Kitchen, Meal, PatternId, RecipeId, Ware};
use crate::plan::{MadeAt, NotFor};
use crate::prep::{Effort, Hours};
use crate::purchase::{Flag, ListLine};
use crate::reckon::{Priced, Trials, Tried};

/// One filled meal among the meals of the week.
#[derive(Debug, Clone, Copy)]
pub struct PlateOf<'t> {
    pub meal: usize,
    pub pattern: Option<PatternId>,
    pub wares: &'t [Ware],
    pub holds: Holds<'t>,
}

/// How a meal came to what it holds.
#[derive(Debug, Clone, Copy)]
pub enum Holds<'t> {
    Written(&'t Eaten),
    Way(u32),
}

impl<'t> PlateOf<'t> {
    /// The place that a recipe takes in it, where that is known.
    pub fn place_of(&self, table: &'t Table, recipe: RecipeId) -> Option<&'t str> {
        match self.holds {
            Holds::Way(way) => table.ways.taken(way).find(|(_, taken)| *taken == recipe).map(|(word, _)| word),
            Holds::Written(eaten) => eaten.taken.iter().find(|(_, taken)| *taken == recipe).map(|(word, _)| word.as_str()),
        }
    }
}

/// Everything that is known before a way is chosen.
pub struct Table<'t, 'k> {
    pub trials: &'t Trials<'k>,
    pub wishes: Wishes,
    pub gaps: Vec<Gap>,
    pub ways: Ways,
    pub written: Vec<(usize, Eaten)>,
    /// Meals of the other weeks, with their days.
    pub eaten_elsewhere: Vec<(Date, Eaten)>,
    /// What the written meals alone draw.
    pub written_flags: Vec<Flag>,
    /// Dishes of the written meals that soak too early or too late, whatever is composed beside them.
    pub written_late: Vec<RecipeId>,
    /// Flags that are not held against a week.
    pub excused: Vec<Flag>,
    pub from_shelf: bool,
    /// How many lines the written meals ask for.
    pub written_demands: usize,
    /// Weeks that were proposed before.
    pub before: Vec<Vec<Option<u32>>>,
    /// For what they break by themselves, ways that no gap may take: by gap, the way and what it breaks.
    pub barred: Vec<BTreeMap<u32, Vec<Broken>>>,
    /// A wish that is not held against a week, but of which a week is the better the less it breaks it.
    pub lifted: Option<Wish>,
    /// Where a clash is sought: the only wishes that are held against a week.
    pub held: Option<BTreeSet<Wish>>,
    /// By meal of the week, the meal of the same mealtime on the day before.
    yesterdays: Vec<Option<usize>>,
    written_needs: BTreeMap<FoodId, f64>,
    written_figures: BTreeMap<usize, [f64; 3]>,
    unfit: BTreeMap<(usize, Ware), Vec<NotFor>>,
    reach: BTreeMap<(usize, RecipeId), bool>,
    figures: Mutex<BTreeMap<(usize, u32), [f64; 3]>>,
    finishes: Finishes,
}

/// What a filled week is.
#[derive(Debug, Clone)]
pub struct Judged {
    pub broken: Vec<Broken>,
    /// `None` where it was not, or could not be, reckoned.
    pub value: Option<Value>,
}

impl Judged {
    pub fn is_allowed(&self) -> bool {
        self.broken.is_empty() && self.value.is_some()
    }
}

/// How much of a week is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Look {
    /// Until it is known that it is not allowed.
    Shortly,
    /// Everything that it breaks.
    Thoroughly,
}

impl Table<'_, '_> {
    pub fn kitchen(&self) -> &Kitchen {
        &self.trials.kitchen
    }

    pub fn day(&self, meal: usize) -> Date {
        self.trials.whole.meals[meal].at_time.date()
    }

    /// The meal of the same mealtime on the day before, if the week has one.
    pub fn yesterdays(&self, meal: usize) -> Option<usize> {
        self.yesterdays[meal]
    }

    pub fn unfit(&self, meal: usize, ware: Ware) -> &[NotFor] {
        self.unfit.get(&(meal, ware)).map_or(&[], Vec::as_slice)
    }

    pub fn is_within_reach(&self, meal: usize, recipe: RecipeId) -> bool {
        self.reach.get(&(meal, recipe)).copied().unwrap_or(true)
    }

    /// Is a way the same meal as one that is written?
    pub fn is_like(&self, way: u32, eaten: &Eaten) -> bool {
        let way = &self.ways.all[way as usize];
        let pattern = self.ways.forms[way.form].pattern;
        match pattern.zip(eaten.pattern) {
            Some((own, other)) => own == other && way.filled == eaten.filled,
            // Without a pattern a meal is what stands in it.
            None => way.wares == eaten.wares,
        }
    }

    /// Is a way the same meal again as one that was eaten? Of a meal without a pattern its dishes tell, whatever stands beside them.
    pub fn is_again(&self, way: u32, eaten: &Eaten) -> bool {
        let dishes = |wares: &[Ware]| recipes(wares).collect::<BTreeSet<_>>();
        let same_dishes = || {
            let own = dishes(&self.ways.all[way as usize].wares);
            !own.is_empty() && own == dishes(&eaten.wares)
        };
        self.is_like(way, eaten) || (eaten.pattern.is_none() && same_dishes())
    }

    pub fn are_alike(&self, one: u32, other: u32) -> bool {
        let way = &self.ways.all[other as usize];
        let pattern = self.ways.forms[way.form].pattern;
        one == other || self.is_like(one, &Eaten { pattern, filled: way.filled.clone(), wares: way.wares.clone(), taken: Vec::new() })
    }

    /// The meals of the week in order of time, as far as they are written or filled.
    pub fn plates(&self, chosen: &[Option<u32>]) -> Vec<PlateOf<'_>> {
        let written = self.written.iter().map(|(meal, eaten)| PlateOf {
            meal: *meal,
            pattern: eaten.pattern,
            wares: &eaten.wares,
            holds: Holds::Written(eaten),
        });
        let filled = self.gaps.iter().zip(chosen).filter_map(|(gap, way)| {
            let way = (*way)?;
            let chosen = &self.ways.all[way as usize];
            Some(PlateOf { meal: gap.meal, pattern: self.ways.forms[chosen.form].pattern, wares: &chosen.wares, holds: Holds::Way(way) })
        });
        let mut plates: Vec<PlateOf> = written.chain(filled).collect();
        plates.sort_by_key(|plate| plate.meal);
        plates
    }

    /// The meals that a choice fills.
    pub fn filled(&self, chosen: &[Option<u32>]) -> Vec<(usize, Meal)> {
        let fill = |(gap, way): (&Gap, &Option<u32>)| {
            Some((gap.meal, self.ways.meal(self.kitchen(), &self.trials.whole.meals[gap.meal], (*way)?)))
        };
        self.gaps.iter().zip(chosen).filter_map(fill).collect()
    }

    /// May a week break it for now?
    pub fn is_loose(&self, wish: &Wish) -> bool {
        self.lifted.as_ref() == Some(wish) || self.held.as_ref().is_some_and(|held| !held.contains(wish))
    }

    /// Do the rules that meals keep among themselves allow these together? A lifted wish is not asked.
    pub fn go_together(&self, chosen: &[Option<u32>]) -> bool {
        rules::of_meals(self, chosen).iter().all(|one| self.is_loose(&one.wish))
    }

    /// Takes the lifted wish out of what a week breaks: by how much it is broken, in thousandths.
    fn strain(&self, broken: &mut Vec<Broken>) -> Option<i64> {
        broken.retain(|one| self.held.as_ref().is_none_or(|held| held.contains(&one.wish)));
        let place = broken.iter().position(|one| self.lifted.as_ref() == Some(&one.wish))?;
        let one = broken.swap_remove(place);
        let figure = (one.would_do * 1000.0).round() as i64;
        Some(if one.wish.is_floor() { -figure } else { figure })
    }

    /// What a week breaks and what it is worth. Its sessions are another matter: to plan them is what takes longest.
    pub fn judge(&self, chosen: &[Option<u32>], look: Look, effort: Effort) -> Judged {
        let mut broken = rules::of_meals(self, chosen);
        for (barred, way) in self.barred.iter().zip(chosen) {
            let own = way.and_then(|way| barred.get(&way));
            own.into_iter().flatten().for_each(|one| add(&mut broken, one.wish.clone(), one.would_do));
        }
        if self.before.iter().any(|before| !differs(before, chosen)) {
            add(&mut broken, Wish::Another, 0.0);
        }
        let is_broken = broken.iter().any(|one| !self.is_loose(&one.wish));
        if look == Look::Shortly && is_broken {
            return Judged { broken, value: None };
        }
        let filled = self.filled(chosen);
        let Ok(tried) = self.trials.run_leaving_open(&filled) else {
            let not_served = self.trials.not_served(&filled);
            let here = self.gaps.iter().filter(|gap| not_served.contains(&gap.meal));
            here.for_each(|gap| add(&mut broken, Wish::Reach(gap.meal), 0.0));
            if broken.is_empty() {
                // A written meal that is served only as long as this one takes nothing.
                self.gaps.first().into_iter().for_each(|gap| add(&mut broken, Wish::Reach(gap.meal), 0.0));
            }
            return Judged { broken, value: None };
        };
        let priced = self.trials.price(&tried);
        rules::of_week(self, chosen, &tried, &priced, &mut broken);
        let strain = self.strain(&mut broken);
        let value = Value { strain, ..self.value(chosen, &tried, &priced, effort) };
        Judged { broken, value: Some(value) }
    }

    /// Sessions of a week that end too late, and how much work it was to know it.
    pub fn broken_sessions(&self, chosen: &[Option<u32>], effort: Effort) -> (Vec<Broken>, usize) {
        let mut broken = Vec::new();
        let Ok(tried) = self.trials.run(&self.filled(chosen)) else { return (broken, 1) };
        rules::of_sessions(self, &tried, effort, &mut broken);
        self.strain(&mut broken);
        let limited = (0..tried.week.sessions.len()).filter(|index| tried.week.sessions[*index].finish_by.is_some());
        (broken, 1 + limited.map(|index| work(&tried, index)).sum::<usize>())
    }

    fn value(&self, chosen: &[Option<u32>], tried: &Tried, priced: &Priced, effort: Effort) -> Value {
        let in_sessions = tried.makings.makings.iter().filter(|making| matches!(making.at, MadeAt::Session(_)));
        let batches: f64 = in_sessions.map(|making| making.batches.to_f64()).sum();
        let minutes = if self.wishes.minutes_count { self.all_minutes(tried, effort) } else { 0 };
        Value {
            left_open: chosen.iter().filter(|way| way.is_none()).count() as u32,
            strain: None,
            net: priced.net.0,
            variety: variety(self, chosen),
            batches: (batches * 1e6).round() as i64,
            minutes,
        }
    }

    fn all_minutes(&self, tried: &Tried, effort: Effort) -> i64 {
        (0..tried.week.sessions.len()).map(|index| self.finish(tried, index, effort).0).sum()
    }

    /// The least finish of a session, and its bound.
    pub fn finish(&self, tried: &Tried, index: usize, effort: Effort) -> (i64, i64) {
        self.finishes.of(self.trials, tried, index, effort, |_, _| false)
    }

    /// How long a session takes, as its guide tells it.
    pub fn hours(&self, tried: &Tried, index: usize, effort: Effort) -> Hours {
        let least = self.finish(tried, index, effort).0;
        self.trials.hours(tried, (index, least), effort)
    }

    /// As [`Table::finish`], but no closer than it takes to say whether it is within `most`.
    pub fn finish_within(&self, tried: &Tried, index: usize, most: i64, effort: Effort) -> i64 {
        let enough = |finish, bound| finish <= most || bound > most;
        let (finish, bound) = self.finishes.of(self.trials, tried, index, effort, enough);
        if finish <= most { finish } else { finish.max(bound) }
    }

    pub fn wanted_nutrients(&self) -> impl Iterator<Item = (Nutrient, f64)> + use<> {
        let floors = self.wishes.each_day;
        let all = [(Nutrient::Energy, floors.kcal), (Nutrient::Protein, floors.protein_g), (Nutrient::Fibre, floors.fibre_g)];
        all.into_iter().filter_map(|(nutrient, least)| Some((nutrient, least?)))
    }

    /// What each day with an open meal gives a whole share: energy, protein, fibre.
    pub fn day_sums(&self, chosen: &[Option<u32>]) -> Vec<(Date, [f64; 3])> {
        let mut sums: BTreeMap<Date, [f64; 3]> = BTreeMap::new();
        for (gap, way) in self.gaps.iter().zip(chosen) {
            if let Some(way) = way {
                let got = sums.entry(self.day(gap.meal)).or_default();
                self.figures(gap.meal, *way).iter().zip(got).for_each(|(more, sum)| *sum += more);
            }
        }
        for (meal, figures) in &self.written_figures {
            if let Some(got) = sums.get_mut(&self.day(*meal)) {
                figures.iter().zip(got).for_each(|(more, sum)| *sum += more);
            }
        }
        sums.into_iter().collect()
    }

    fn figures(&self, meal: usize, way: u32) -> [f64; 3] {
        if let Some(known) = self.figures.lock().ok().and_then(|known| known.get(&(meal, way)).copied()) {
            return known;
        }
        let whole = &self.trials.whole;
        let filled = self.ways.meal(self.kitchen(), &whole.meals[meal], way);
        let figures = rules::figures_of(self.kitchen(), whole, filled).map(|note| rules::figures(&note)).unwrap_or_default();
        if let Ok(mut known) = self.figures.lock() {
            known.insert((meal, way), figures);
        }
        figures
    }

    /// Do the written meals alone buy so much of it?
    pub fn written_buys(&self, line: &ListLine) -> bool {
        let had = self.written_needs.get(&line.food).copied();
        had.is_some_and(|had| line.need.base() <= had * (1.0 + 1e-9))
    }
}

/// Do two weeks differ in two meals at least, or in all where there are fewer?
pub fn differs(one: &[Option<u32>], other: &[Option<u32>]) -> bool {
    one.iter().zip(other).filter(|(one, other)| one != other).count() >= one.len().min(2)
}
