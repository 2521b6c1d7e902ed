//! How many different meals the components at hand allow: those that lie on the shelf, and those that this week's written meals have
//! cooked.

use super::rules;
use super::ways::{Form, Ways};
use super::wishes::Wishes;
use crate::kitchen::{Ingredient, Kitchen, Meal, Open, PatternId, Ware, Week};
use crate::reckon::Trials;

/// Different meals, all together and by pattern.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Count {
    pub week: String,
    /// Recipes and foods that fit somewhere and are at hand.
    pub at_hand: Vec<Ware>,
    pub patterns: Vec<(PatternId, usize)>,
    pub meals: usize,
    /// False where a pattern has more ways than are counted: then it is at least so many.
    pub complete: bool,
}

/// Counts over every pattern, at any mealtime: a meal is a pattern with what fills it. What the household must not or does not eat, and
/// what its wishes for one meal exclude, does not count.
pub fn count(trials: &Trials, week: &Week) -> Count {
    let kitchen: &Kitchen = &trials.kitchen;
    let wishes = Wishes::of(kitchen, week);
    let cooked = trials.run(&[]).map(|tried| rules::cooked(&tried)).unwrap_or_default();
    // What is cooked is cooked for as many as eat of it; what lies there has to be enough for one.
    let here = |line: &Ingredient| {
        trials.shelf_holds(line, trials.first_day()) || matches!(line.ware(), Ware::Recipe(recipe) if cooked.contains(&recipe))
    };
    let mut counted = Count { week: week.name.clone(), at_hand: Vec::new(), patterns: Vec::new(), meals: 0, complete: true };
    let meal = anybodys_meal(trials);
    for (index, pattern) in kitchen.together.patterns.iter().enumerate() {
        let id = PatternId(index);
        let only = |plates: &[crate::kitchen::Plate]| plates.iter().cloned().map(|plate| at_hand_only(plate, &here)).collect::<Vec<_>>();
        let lines = Open { each: only(&pattern.each), shared: only(&pattern.shared) };
        for plate in lines.each.iter().chain(&lines.shared) {
            if let crate::kitchen::Plate::Any(place) = plate {
                counted.at_hand.extend(place.fillings.iter().map(Ingredient::ware));
            }
        }
        let fixed = |plate: &crate::kitchen::Plate| match plate {
            crate::kitchen::Plate::As(line) => match line.ware() {
                Ware::Recipe(_) => here(line),
                Ware::Food(_) => true,
            },
            crate::kitchen::Plate::Any(_) => true,
        };
        if !lines.each.iter().chain(&lines.shared).all(fixed) {
            counted.patterns.push((id, 0));
            continue;
        }
        let mut ways = Ways::new();
        let form = Form { pattern: Some(id), each: lines.each, shared: lines.shared, own: false, minutes: pattern.minutes, style: None };
        ways.add(form);
        let allowed = (0..ways.all.len() as u32).filter(|way| {
            let wares = &ways.all[*way as usize].wares;
            let (each, shared) = ways.lines(*way);
            let served = meal.holding(kitchen, each, shared);
            let unwanted = wishes.unwanted.iter().any(|ware| rules::holds(kitchen, wares, *ware));
            !unwanted
                && crate::plan::unfit(kitchen, &served, &wishes.wanted).is_empty()
                && !rules::is_of_several_styles(kitchen, wares, pattern.style.as_ref())
        });
        let times = allowed.count();
        counted.complete &= ways.complete;
        counted.meals += times;
        counted.patterns.push((id, times));
    }
    counted.at_hand.sort();
    counted.at_hand.dedup();
    counted
}

fn at_hand_only(plate: crate::kitchen::Plate, here: &impl Fn(&Ingredient) -> bool) -> crate::kitchen::Plate {
    match plate {
        crate::kitchen::Plate::Any(mut place) => {
            place.fillings.retain(here);
            crate::kitchen::Plate::Any(place)
        }
        fixed => fixed,
    }
}

/// A meal at which everybody of the household sits.
fn anybodys_meal(trials: &Trials) -> Meal {
    Meal {
        text: None,
        at_time: trials.whole.from.to_datetime(jiff::civil::Time::midnight()),
        label: String::new(),
        word: String::new(),
        name: None,
        eaters: trials.kitchen.household.eaters,
        diners: Vec::new(),
        each: Vec::new(),
        shared: Vec::new(),
        skip: false,
        pattern: None,
        open: None,
        asked: Default::default(),
        at: trials.whole.at.clone(),
    }
}
