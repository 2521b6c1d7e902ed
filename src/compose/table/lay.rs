//! The table is laid: which ways each open meal has, what is written, who may eat what, and which ways break a rule by themselves. It must
//! not know what a filled week is worth.

use std::collections::BTreeMap;
use std::sync::Mutex;

use jiff::civil::Date;

use super::Table;
use crate::compose::eaten::{Eaten, eaten};
use crate::compose::minutes::Finishes;
use crate::compose::rules;
use crate::compose::ways::{Gap, Ways, mealtime};
use crate::compose::wish::{Broken, add};
use crate::compose::wishes::Wishes;
use crate::kitchen::{Ingredient, Kitchen, Open, Ware, Week};
use crate::reckon::Trials;

impl<'t, 'k> Table<'t, 'k> {
    /// `lines` are what each open meal holds already, by the places of `trials.open`; `others` the household's other weeks.
    pub fn lay(trials: &'t Trials<'k>, wishes: Wishes, lines: &[Open], others: &[&Week], from_shelf: bool) -> Table<'t, 'k> {
        let kitchen: &Kitchen = &trials.kitchen;
        let whole = &trials.whole;
        let mut ways = Ways::new();
        let mut of_pattern = Vec::new();
        let gaps: Vec<Gap> = trials
            .open
            .iter()
            .zip(lines)
            .map(|(place, lines)| ways.gap(kitchen, &whole.meals[*place], *place, lines, &mut of_pattern))
            .collect();
        let written = (0..whole.meals.len()).filter(|place| !trials.open.contains(place));
        let written: Vec<(usize, Eaten)> = written.map(|place| (place, eaten(kitchen, &whole.meals[place]))).collect();
        let elsewhere = others.iter().flat_map(|week| &week.meals).filter(|meal| meal.open.is_none() && !meal.skip);
        let eaten_elsewhere = elsewhere.map(|meal| (meal.at_time.date(), eaten(kitchen, meal))).collect();
        let mut table = Table {
            trials,
            wishes,
            gaps,
            ways,
            written,
            eaten_elsewhere,
            written_flags: Vec::new(),
            written_late: Vec::new(),
            excused: Vec::new(),
            from_shelf,
            written_demands: 0,
            before: Vec::new(),
            barred: Vec::new(),
            lifted: None,
            held: None,
            yesterdays: yesterdays(kitchen, whole),
            written_needs: BTreeMap::new(),
            written_figures: BTreeMap::new(),
            unfit: BTreeMap::new(),
            reach: BTreeMap::new(),
            figures: Mutex::default(),
            finishes: Finishes::default(),
        };
        table.look_at_what_is_written();
        table.look_at_each_line();
        table.bar_ways();
        table
    }

    fn look_at_what_is_written(&mut self) {
        let trials = self.trials;
        let Ok(tried) = trials.run(&[]) else { return };
        for line in tried.basket.trips.iter().flat_map(|trip| trip.lines()) {
            *self.written_needs.entry(line.food).or_default() += line.need.base();
        }
        self.written_demands = tried.demanded.demand.len();
        self.written_late = trials.begun_too_late(&tried);
        self.written_flags = tried.needs.flags;
        if self.wanted_nutrients().next().is_some() {
            let whole = &self.trials.whole;
            let figures = |place: &usize| {
                Some((*place, rules::figures(&rules::figures_of(&self.trials.kitchen, whole, whole.meals[*place].clone())?)))
            };
            self.written_figures = self.written.iter().filter_map(|(place, _)| figures(place)).collect();
        }
    }

    /// Who may eat each line at each meal, and whether any session or shelf reaches it.
    fn look_at_each_line(&mut self) {
        for gap in &self.gaps {
            let meal = &self.trials.whole.meals[gap.meal];
            let mut forms: Vec<usize> = gap.ways.iter().map(|way| self.ways.all[*way as usize].form).collect();
            forms.dedup();
            for form in forms {
                let form = &self.ways.forms[form];
                let fillings = form.places().flat_map(|place| &place.fillings);
                let lines: Vec<&Ingredient> = form.fixed().chain(fillings).collect();
                for line in lines {
                    let ware = line.ware();
                    let wanted = &self.wishes.wanted;
                    let kitchen = &self.trials.kitchen;
                    self.unfit.entry((gap.meal, ware)).or_insert_with(|| rules::unfit_line(kitchen, meal, line, wanted));
                    if let Ware::Recipe(recipe) = ware {
                        self.reach.entry((gap.meal, recipe)).or_insert_with(|| {
                            let alone = meal.holding(kitchen, vec![line.clone()], Vec::new());
                            self.trials.run_alone(gap.meal, alone)
                        });
                    }
                }
            }
        }
    }

    /// Keeps the ways that break nothing by themselves.
    fn bar_ways(&mut self) {
        let mut by_itself: BTreeMap<u32, Vec<Broken>> = BTreeMap::new();
        let mut kept = Vec::new();
        for gap in &self.gaps {
            let (mut free, mut barred) = (Vec::new(), BTreeMap::new());
            for way in &gap.ways {
                let own = by_itself.entry(*way).or_insert_with(|| rules::of_way(self, *way));
                let mut broken = rules::of_meal(self, gap, *way);
                own.iter().for_each(|one| add(&mut broken, one.wish.clone(), one.would_do));
                if broken.is_empty() {
                    free.push(*way);
                } else {
                    barred.insert(*way, broken);
                }
            }
            kept.push((free, barred));
        }
        for (gap, (free, barred)) in self.gaps.iter_mut().zip(kept) {
            gap.ways = free;
            self.barred.push(barred);
        }
    }
}

fn yesterdays(kitchen: &Kitchen, week: &Week) -> Vec<Option<usize>> {
    let of: Vec<(String, Date)> = week.meals.iter().map(|meal| (mealtime(kitchen, meal), meal.at_time.date())).collect();
    let before =
        |(word, day): &(String, Date)| of.iter().position(|(other, on)| other == word && on.tomorrow().is_ok_and(|next| next == *day));
    of.iter().map(before).collect()
}
