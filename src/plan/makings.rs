//! From a week to makings in its sessions: what is made when, in how many batches, and who eats it.
//!
//! Recipes are taken dishes first. For one recipe, its uses stand in time order; cooked lots serve first; the earliest use
//! that is left is made in the latest session that can serve it, and that making serves every later use its fridge days reach.
//! It must not know what is bought or when which step is done.

mod lots;
mod open;
mod unserved;

use jiff::ToSpan;
use jiff::civil::{Date, DateTime};

use self::lots::drawn;
use self::open::{Open, opened, serve_from_frozen_spare};
use self::unserved::{nothing_reaches, nothing_serves};
use super::boxes::{boxed, boxes};
use super::making::{Apart, Draw, Kept, MadeAt, Making, Makings, Move, ShortMeal, Spare, User};
use super::minutes::one_after_another;
use super::order::{dishes_first, in_session_order};
use super::servings::set_aside_of_part;
use super::straight::warm_until;
use super::uses::{Pending, direct_uses, meal_name};
use super::weeks::span;
use super::yields::{Batches, half_a_portion, in_makes};
use crate::foods::Place;
use crate::kitchen::{Kitchen, Made, Mistake, Recipe, RecipeId, Serve, Session, Wanted, Ware, Week, Whose};
use crate::measure::{Minutes, Number, Quantity};
use crate::shelf::{Shelf, after_days};

/// Everything the week makes.
///
/// # Errors
/// Every use that no session reaches, with the meal, the dish and the days.
pub fn plan(kitchen: &Kitchen, week: &Week) -> Result<Makings, Vec<Mistake>> {
    let planner = planned(kitchen, week);
    if planner.mistakes.is_empty() {
        return Ok(in_session_order(planner.made));
    }
    let mut mistakes = planner.mistakes;
    mistakes.sort();
    Err(mistakes)
}

/// [`plan`] of a week that has begun: a meal that nothing can serve is short, not a mistake.
pub fn plan_begun(kitchen: &Kitchen, week: &Week) -> Makings {
    in_session_order(planned(kitchen, week).made)
}

fn planned<'k>(kitchen: &'k Kitchen, week: &'k Week) -> Planner<'k> {
    let mut planner = Planner {
        kitchen,
        week,
        shelf: Shelf::new(kitchen).until(span(week).1),
        pending: direct_uses(kitchen, week),
        made: Makings::default(),
        mistakes: Vec::new(),
    };
    for recipe in dishes_first(kitchen) {
        planner.plan_recipe(recipe);
    }
    planner
}

/// When what a session makes can be served at a meal.
pub fn ready_at(session: &Session, ready_after: Minutes) -> DateTime {
    session.finish_by.unwrap_or_else(|| session.start.saturating_add(ready_after.0.minutes()))
}

struct Planner<'k> {
    kitchen: &'k Kitchen,
    week: &'k Week,
    shelf: Shelf<'k>,
    /// Uses by recipe, of which those of dishes already planned are complete.
    pending: Vec<Vec<Pending>>,
    made: Makings,
    mistakes: Vec<Mistake>,
}

impl Planner<'_> {
    fn plan_recipe(&mut self, id: RecipeId) {
        let recipe = &self.kitchen.recipes[id];
        let mut uses = std::mem::take(&mut self.pending[id.0]);
        // Meals at one time in file order, also where a dish made at one of them brings the use.
        uses.sort_by_key(|use_| (use_.at, use_.session.is_none(), use_.made_at));
        self.serve_from_lots(id, &mut uses);
        let made = match recipe.made {
            Made::AtTheMeal => self.make_at_meals(&mut uses, recipe),
            Made::InASession => self.make_in_sessions(&mut uses, id),
        };
        for making in made {
            self.close(id, making);
        }
    }

    fn serve_from_lots(&mut self, id: RecipeId, uses: &mut [Pending]) {
        let kitchen = self.kitchen;
        for (use_, taken) in drawn(kitchen, self.week, &mut self.shelf, id, uses) {
            let lot = &kitchen.lots[taken.lot];
            let amount = Quantity::of(&kitchen.recipes[id].makes.dimension(), &taken.amount);
            if lot.place == Place::Freezer {
                self.add_move((id, lot.whose.clone()), use_.at.date(), &amount, &use_.label);
            }
            self.made.cooked_draws.push(Draw {
                of: Ware::Recipe(id),
                lot: taken.lot,
                amount,
                place: lot.place,
                on: use_.at.date(),
                what_for: vec![use_.what_for.clone()],
                by: vec![use_.made_at],
                look_first: taken.look_first,
                whose: lot.whose.clone(),
            });
        }
    }

    /// One making a meal.
    fn make_at_meals(&self, uses: &mut [Pending], recipe: &Recipe) -> Vec<Open> {
        let mut open: Vec<Open> = Vec::new();
        for use_ in uses.iter_mut().filter(|use_| use_.left > 0) {
            let amount = use_.left.clone();
            opened(&mut open, use_.made_at, use_.at.date()).give(use_, amount, Kept::Straight, &recipe.makes);
        }
        open
    }

    fn make_in_sessions(&mut self, uses: &mut [Pending], id: RecipeId) -> Vec<Open> {
        let recipe = &self.kitchen.recipes[id];
        let (days, _) = recipe.reach();
        let mut open: Vec<Open> = Vec::new();
        for first in 0..uses.len() {
            serve_from_frozen_spare(&mut open, &mut uses[first], recipe, &self.kitchen.foods);
            if uses[first].left.is_zero() {
                continue;
            }
            let day = uses[first].at.date();
            let Some(session) = self.session_for(&uses[first]) else {
                self.mistakes.push(nothing_serves(recipe, &uses[first]));
                self.add_short(id, &uses[first]);
                continue;
            };
            let on = self.week.sessions[session].start.date();
            let reach = after_days(on, days);
            if day > reach && recipe.freezer.is_none_or(|days| day > after_days(on, days)) {
                self.mistakes.push(nothing_reaches(recipe, &uses[first], on));
                self.add_short(id, &uses[first]);
                continue;
            }
            let making = opened(&mut open, MadeAt::Session(session), on);
            if day > reach {
                let amount = uses[first].left.clone();
                making.give(&mut uses[first], amount, Kept::Freezer, &recipe.makes);
                continue;
            }
            for use_ in uses[first..].iter_mut().filter(|use_| use_.left > 0) {
                if use_.at.date() <= reach && self.can_serve(session, use_) {
                    let (amount, kept) = (use_.left.clone(), self.kept(recipe, session, use_));
                    making.give(use_, amount, kept, &recipe.makes);
                }
            }
        }
        open
    }

    /// One entry a meal and recipe: a dish made at the meal may want a component more than once.
    fn add_short(&mut self, id: RecipeId, use_: &Pending) {
        let MadeAt::Meal(index) = use_.made_at else { return };
        let (recipe, meal) = (&self.kitchen.recipes[id], &self.week.meals[index]);
        let amount = Quantity::of(&recipe.makes.dimension(), &use_.left);
        let minutes = |missing: &Quantity| {
            let batches = Batches::to_yield(recipe, &self.kitchen.foods, missing.exact());
            one_after_another(recipe, &self.kitchen.appliances, batches.to_f64(), self.kitchen.rules.pace)
        };
        let whose = use_.only_apart();
        let same =
            |short: &&mut ShortMeal| short.recipe == id && short.whose == whose && short.at == meal.at_time && short.label == meal.label;
        if let Some(known) = self.made.short.iter_mut().find(same) {
            known.amount = known.amount.plus(&amount).unwrap_or(amount);
            known.takes = minutes(&known.amount);
            return;
        }
        let takes = minutes(&amount);
        let (at, label, word) = (meal.at_time, meal.label.clone(), meal.word.clone());
        let ahead = recipe.steps.iter().filter_map(|step| step.ahead).max().unwrap_or_default();
        self.made.short.push(ShortMeal { at, label, word, meal: meal_name(meal), recipe: id, whose, amount, takes, ahead, begins: None });
    }

    /// The very session that uses it, or the latest whose food is ready by then.
    fn session_for(&self, use_: &Pending) -> Option<usize> {
        use_.session.or_else(|| (0..self.week.sessions.len()).rev().find(|&session| self.can_serve(session, use_)))
    }

    fn can_serve(&self, session: usize, use_: &Pending) -> bool {
        match use_.session {
            Some(later) => session <= later,
            None => ready_at(&self.week.sessions[session], self.kitchen.rules.ready_after) <= use_.at,
        }
    }

    /// What is served hot soon after its session is straight from the pot; all else is boxed. Without a `finish_by` nobody knows yet when
    /// the rest is done: see [`served_after`].
    fn kept(&self, recipe: &Recipe, session: usize, use_: &Pending) -> Kept {
        if use_.session == Some(session) {
            return Kept::Straight;
        }
        let made = &self.week.sessions[session];
        let same_day = use_.session.is_none() && use_.at.date() == made.start.date();
        let done = ready_at(made, self.kitchen.rules.ready_after);
        if same_day && recipe.serve == Some(Serve::Hot) && use_.at <= warm_until(recipe, done) { Kept::Straight } else { boxed(recipe) }
    }

    /// Turns a planned making into its final form, and its ingredients into uses of its components.
    fn close(&mut self, id: RecipeId, mut open: Open) {
        let (recipe, foods) = (&self.kitchen.recipes[id], &self.kitchen.foods);
        let batches = Batches::to_yield(recipe, foods, &open.needed);
        let mut spare = open.spare(recipe, foods);
        if half_a_portion(recipe).is_some_and(|half| spare < half) {
            open.share_out(&spare);
            spare = Number::ZERO;
        }
        let frozen = recipe.freezer.filter(|_| matches!(open.at, MadeAt::Session(_)));
        let spare = (spare > 0).then(|| Spare {
            recipe: id,
            amount: Quantity::of(&recipe.makes.dimension(), spare),
            made_on: open.on,
            eat_by: after_days(open.on, frozen.unwrap_or(recipe.reach().0)),
            frozen: frozen.is_some(),
        });
        for use_ in open.uses.iter().filter(|use_| use_.kept == Kept::Freezer) {
            for (whose, amount) in use_.by_whom() {
                self.add_move((id, whose), use_.on, &amount, &use_.label);
            }
        }
        let index = self.made.makings.len();
        self.add_component_uses(recipe, &open, index, &batches);
        let boxes = boxes(recipe, open.on, &open.uses, spare.as_ref());
        let apart = open.apart;
        self.made.makings.push(Making {
            recipe: id,
            at: open.at,
            on: open.on,
            makes: batches.make(recipe),
            batches,
            uses: open.uses,
            spare,
            boxes,
            apart,
        });
    }

    fn add_component_uses(&mut self, recipe: &Recipe, open: &Open, index: usize, batches: &Batches) {
        let (at, session) = match open.at {
            MadeAt::Session(session) => (self.week.sessions[session].start, Some(session)),
            MadeAt::Meal(meal) => (self.week.meals[meal].at_time, None),
        };
        for line in &recipe.ingredients {
            let Wanted::Recipe { recipe: part, most, .. } = &line.wanted else { continue };
            let Some(amount) = in_makes(&self.kitchen.recipes[*part], most) else { continue };
            let (amount, apart) = self.use_of_part(open, recipe, line.ware(), *part, amount, batches);
            self.pending[part.0].push(Pending {
                at,
                session,
                by: User::Making(index),
                made_at: open.at,
                amount: amount.clone(),
                left: amount,
                label: recipe.name.clone(),
                what_for: recipe.name.clone(),
                own: apart.clone(),
                apart,
                spot: line.at.clone(),
            });
        }
    }

    /// What all batches use of a component, less what single eaters get without it; and what of that lacks something in turn.
    fn use_of_part(
        &self,
        open: &Open,
        recipe: &Recipe,
        ware: Ware,
        part: RecipeId,
        once: Number,
        batches: &Batches,
    ) -> (Number, Vec<Apart>) {
        let all = once * batches.number();
        let made = batches.make(recipe);
        let left_away: Number = open.apart.iter().filter(|one| one.without.contains(&ware)).map(|one| &one.amount).sum();
        let rest = &all - &(&all * &(left_away / made.exact()));
        let apart = set_aside_of_part(&self.kitchen.recipes, &open.apart, part);
        let share = |amount: Number| &all * &(amount / made.exact());
        let apart = apart.map(|one| Apart { amount: share(one.amount), ..one }).collect();
        (rest, apart)
    }

    fn add_move(&mut self, (recipe, whose): (RecipeId, Option<Whose>), used_on: Date, amount: &Quantity, label: &str) {
        let on = used_on.saturating_sub(1.day());
        let moves = &mut self.made.moves;
        if let Some(known) = moves.iter_mut().find(|known| (known.on, known.recipe) == (on, recipe) && known.whose == whose) {
            known.amount = known.amount.plus(amount).unwrap_or_else(|| known.amount.clone());
            if !known.what_for.iter().any(|known| known == label) {
                known.what_for.push(label.to_owned());
            }
        } else {
            moves.push(Move { on, recipe, whose, amount: amount.clone(), what_for: vec![label.to_owned()], late: false });
        }
    }
}

#[cfg(test)]
mod tests;
