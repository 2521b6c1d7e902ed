//! From a week to makings in its sessions: what is made when, in how many batches, and who eats it.
//!
//! Recipes are taken dishes first. For one recipe, its uses stand in time order; cooked lots serve first; the earliest use
//! that is left is made in the latest session that can serve it, and that making serves every later use its fridge days reach.

use std::collections::BTreeSet;

use jiff::ToSpan;
use jiff::civil::{Date, DateTime};

use super::boxes::{boxed, boxes};
use super::making::{Apart, Draw, Kept, MadeAt, Making, Makings, Move, ShortMeal, Spare, Use, User};
use super::minutes::one_after_another;
use super::order::dishes_first;
use super::servings::set_aside_of_part;
use super::straight::warm_until;
use super::uses::{Pending, direct_uses, meal_name};
use super::weeks::span;
use super::yields::{Batches, in_makes};
use crate::foods::{Foods, Place};
use crate::kitchen::{Kitchen, Lot, Made, Mistake, Recipe, RecipeId, Serve, Session, Wanted, Ware, Week, Whose};
use crate::measure::{Days, Minutes, Number, Quantity, is_nothing_of};
use crate::shelf::{First, Shelf, Taken, after_days};

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

/// A making while its recipe is being planned.
struct Open {
    at: MadeAt,
    on: Date,
    needed: Number,
    uses: Vec<Use>,
    apart: Vec<Apart>,
}

impl Open {
    fn spare(&self, recipe: &Recipe, foods: &Foods) -> Number {
        let spare = Batches::to_yield(recipe, foods, &self.needed).make(recipe).exact() - &self.needed;
        if is_nothing_of(&spare, &self.needed) { Number::ZERO } else { spare }
    }

    fn give(&mut self, use_: &mut Pending, amount: Number, kept: Kept, unit: &Quantity) {
        if amount == use_.left {
            self.set_apart(std::mem::take(&mut use_.apart));
        }
        use_.serve(&amount);
        self.needed += &amount;
        let amount = Quantity::of(&unit.dimension(), amount);
        let own = if use_.left.is_zero() { std::mem::take(&mut use_.own) } else { Vec::new() };
        self.uses.push(Use { by: use_.by, on: use_.at.date(), amount, kept, own, label: use_.label.clone() });
    }

    /// Gives what is left over to the uses, in proportion.
    fn share_out(&mut self, left: &Number) {
        let share = left / &self.needed;
        for use_ in &mut self.uses {
            let amount = use_.amount.exact();
            use_.amount = Quantity::of(&use_.amount.dimension(), amount + &(amount * &share));
            use_.own.iter_mut().for_each(|own| own.amount = &own.amount + &(&own.amount * &share));
        }
    }
}

impl Open {
    /// One entry for each eater and what is left away.
    fn set_apart(&mut self, apart: Vec<Apart>) {
        for one in apart {
            match self.apart.iter_mut().find(|known| known.who == one.who && known.without == one.without) {
                Some(known) => known.amount += &one.amount,
                None => self.apart.push(one),
            }
        }
    }
}

impl Pending {
    fn serve(&mut self, amount: &Number) {
        self.left -= amount;
        if is_nothing_of(&self.left, &self.amount) {
            self.left = Number::ZERO;
        }
    }
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
        let recipe = &kitchen.recipes[id];
        let rate = |lot: &Lot| in_makes(recipe, &Quantity::of(&lot.amount.dimension(), 1));
        let mut draws: Vec<(&Pending, Taken)> = Vec::new();
        for use_ in uses {
            let own = draw_own(&mut self.shelf, id, use_, rate);
            // Nothing can be taken out of what is cooked already.
            let wanted = use_.left_as_it_is();
            let taken = self.shelf.draw(Ware::Recipe(id), use_.at.date(), First::Opened, &wanted, rate);
            taken.iter().for_each(|taken| use_.serve(&taken.amount));
            let use_ = &*use_;
            draws.extend(own.into_iter().chain(taken).map(|taken| (use_, taken)));
        }
        self.share_out_rests(recipe, &mut draws);
        for (use_, taken) in draws {
            let lot = &kitchen.lots[taken.lot];
            let amount = Quantity::of(&recipe.makes.dimension(), &taken.amount);
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

    /// What a session that is over left below half a portion goes to its uses, as it would have before it: in proportion.
    fn share_out_rests(&mut self, recipe: &Recipe, draws: &mut [(&Pending, Taken)]) {
        let Some(half) = half_a_portion(recipe) else { return };
        let of_this_week = |lot: usize| self.kitchen.lots[lot].made.is_some_and(|made| self.week.left_out.cooked.contains(&made));
        let lots: BTreeSet<usize> = draws.iter().map(|(_, taken)| taken.lot).filter(|&lot| of_this_week(lot)).collect();
        for lot in lots {
            let left = self.shelf.left(lot).clone();
            let Some(rest) = in_makes(recipe, &left).filter(|rest| *rest < half) else { continue };
            let of_lot = || draws.iter().map(|(_, taken)| taken).filter(|taken| taken.lot == lot);
            let share = rest / of_lot().map(|taken| &taken.amount).sum::<Number>();
            let Some(last) = draws.iter().map(|(use_, _)| use_.at.date()).max() else { continue };
            self.shelf.draw_from(lot, left.exact(), last);
            for (_, taken) in draws.iter_mut().filter(|(_, taken)| taken.lot == lot) {
                taken.amount = &taken.amount + &(&taken.amount * &share);
                taken.own = &taken.own + &(&taken.own * &share);
            }
        }
    }

    /// One making a meal.
    fn make_at_meals(&self, uses: &mut [Pending], recipe: &Recipe) -> Vec<Open> {
        let mut open: Vec<Open> = Vec::new();
        for use_ in uses.iter_mut().filter(|use_| use_.left > 0) {
            let at = use_.made_at;
            let index = open.iter().position(|making| making.at == at).unwrap_or_else(|| {
                open.push(Open { at, on: use_.at.date(), needed: Number::ZERO, uses: Vec::new(), apart: Vec::new() });
                open.len() - 1
            });
            let amount = use_.left.clone();
            open[index].give(use_, amount, Kept::Straight, &recipe.makes);
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
            let at = MadeAt::Session(session);
            let index = open.iter().position(|making| making.at == at).unwrap_or_else(|| {
                open.push(Open { at, on, needed: Number::ZERO, uses: Vec::new(), apart: Vec::new() });
                open.len() - 1
            });
            if day > reach {
                let amount = uses[first].left.clone();
                open[index].give(&mut uses[first], amount, Kept::Freezer, &recipe.makes);
                continue;
            }
            for use_ in uses[first..].iter_mut().filter(|use_| use_.left > 0) {
                if use_.at.date() <= reach && self.can_serve(session, use_) {
                    let (amount, kept) = (use_.left.clone(), self.kept(recipe, session, use_));
                    open[index].give(use_, amount, kept, &recipe.makes);
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

/// What was set aside for an eater serves that eater.
fn draw_own(shelf: &mut Shelf, id: RecipeId, use_: &mut Pending, rate: impl Fn(&Lot) -> Option<Number> + Copy) -> Vec<Taken> {
    let mut all = Vec::new();
    for own in use_.own.clone() {
        let taken = shelf.draw_own(Ware::Recipe(id), use_.at.date(), (&own.who, &own.without), &own.amount, rate);
        let served: Number = taken.iter().map(|taken| &taken.amount).sum();
        if served.is_positive() {
            use_.serve(&served);
            use_.lessen_own(&own, &served);
        }
        all.extend(taken);
    }
    all
}

/// Spare serves from the day after it was made, up to its freezer days, oldest first.
fn serve_from_frozen_spare(open: &mut [Open], use_: &mut Pending, recipe: &Recipe, foods: &Foods) {
    let Some(freezer) = recipe.freezer else { return };
    let day = use_.at.date();
    let mut oldest: Vec<&mut Open> = open.iter_mut().filter(|making| making.on < day && day <= after_days(making.on, freezer)).collect();
    oldest.sort_by_key(|making| (making.on, making.at));
    for making in oldest {
        let amount = making.spare(recipe, foods).min(use_.left_as_it_is());
        if amount > 0 {
            making.give(use_, amount, Kept::Freezer, &recipe.makes);
        }
    }
}

/// In the unit of `makes`: what is left of a making below this is nobody's spare. `None` where the recipe does not say what a portion is.
fn half_a_portion(recipe: &Recipe) -> Option<Number> {
    in_makes(recipe, &Quantity::portions(Number::HALF))
}

/// Sessions and meals in order, components beside the dishes they go into.
fn in_session_order(mut made: Makings) -> Makings {
    let mut order: Vec<usize> = (0..made.makings.len()).collect();
    order.sort_by_key(|&index| (made.makings[index].at, made.makings[index].recipe));
    let mut new_index = vec![0; order.len()];
    for (new, &old) in order.iter().enumerate() {
        new_index[old] = new;
    }
    let mut makings: Vec<Making> = order.iter().map(|&old| made.makings[old].clone()).collect();
    for use_ in makings.iter_mut().flat_map(|making| &mut making.uses) {
        if let User::Making(index) = &mut use_.by {
            *index = new_index[*index];
        }
    }
    made.makings = makings;
    made.short.sort_by_key(|short| (short.at, short.recipe));
    made.moves.sort_by_key(|move_| (move_.on, move_.recipe));
    made.cooked_draws.sort_by_key(|draw| (draw.on, draw.lot));
    made
}

fn nothing_serves(recipe: &Recipe, use_: &Pending) -> Mistake {
    // What is cooked already serves only those who eat the dish as it is.
    let apart =
        use_.apart.first().map(|apart| format!("; what is cooked already cannot be made fit for {}", apart.who)).unwrap_or_default();
    Mistake {
        at: use_.spot.clone(),
        cause: format!("no session is ready before {} ({}) to make {}{apart}", use_.label, use_.at.date(), recipe.name),
        remedy: format!(
            "Plan a session before it, with a finish_by no later than the meal, or write made = \"at the meal\" in {}.",
            recipe.at.file
        ),
    }
}

fn nothing_reaches(recipe: &Recipe, use_: &Pending, made_on: Date) -> Mistake {
    let days = |days: Option<Days>| match days {
        None | Some(Days(0)) => "0 days".to_owned(),
        Some(Days(1)) => "1 day".to_owned(),
        Some(Days(days)) => format!("{days} days"),
    };
    let wait = made_on.until(use_.at.date()).map_or(0, |span| span.get_days());
    let freezer = recipe.freezer.map_or("no days in the freezer".to_owned(), |_| format!("{} in the freezer", days(recipe.freezer)));
    let (reach, place) = recipe.reach();
    let place = if place == Place::Cupboard { "cupboard" } else { "fridge" };
    Mistake {
        at: use_.spot.clone(),
        cause: format!(
            "{} for {} ({}) would be made {} before it, on {made_on}, but keeps {} in the {place} and {freezer}",
            recipe.name,
            use_.label,
            use_.at.date(),
            days(Some(Days(wait.into()))),
            days(Some(reach)),
        ),
        remedy: format!(
            "Plan a session nearer to the meal, or say how long it keeps, as keeps = {{ fridge = \"3 days\", freezer = \"2 months\" }}, in {}.",
            recipe.at.file
        ),
    }
}

#[cfg(test)]
mod tests;
