//! "Roast for 40 minutes. Serve the chicken": what the first thing on the heat is done to, where only later words name it.
//!
//! A clause on the heat without an object is done to what the list has. What is not eaten raw, and what no later clause heats, was on
//! the heat then; and raw meat, fish, egg, grain, pulses and potatoes that are named at the table alone are cooked by nobody, which is told.

use super::super::act::Takes;
use super::super::clauses::Clause;
use super::super::verbs::{Rate, Way};
use super::Gather;
use super::draft::Draft;
use crate::foods::{Kind, State};
use crate::kitchen::Wanted;
use crate::kitchen::words::Words;

/// The clause, counted over all paragraphs, and the foods.
pub(in super::super) struct Objects {
    clause: usize,
    foods: Vec<usize>,
}

/// Words of a line for what is cooked already, or eaten as it is.
const READY: [&str; 14] =
    ["tinned", "canned", "tin", "tins", "can", "cooked", "ready", "smoked", "cured", "oat", "oats", "muesli", "granola", "crispbread"];
/// What is done to what is cooked already.
const AFTERWARDS: [&str; 8] = ["shred", "flake", "carve", "pull", "drain", "strain", "debone", "lift"];

/// One clause of the first reading.
pub(super) struct Seen {
    serves: bool,
    heats: bool,
    cuts: bool,
    afterwards: bool,
    foods: Vec<usize>,
    /// Of them those that are served themselves: "serve the chicken with the rice".
    main: Vec<usize>,
}

/// "Serve the chicken with the rice": where what is served beside it begins.
pub(super) fn served_beside(w: &Words, clause: &Clause) -> usize {
    let beside = |at: usize| ["with", "on", "over", "alongside", "beside"].iter().any(|word| w.is(at, word));
    (clause.verb_end..clause.end).find(|at| beside(*at)).unwrap_or(clause.end)
}

impl Gather<'_, '_> {
    /// Raw meat, fish and egg, dry grain and pulses, potatoes: what nobody eats as the list has it.
    pub(super) fn must_be_cooked(&self, food: usize) -> bool {
        let line = &self.setting.ingredients[food];
        let Wanted::Food { item, .. } = &line.wanted else { return false };
        let ready = item.as_ref().is_some_and(|item| item.state == State::Cooked)
            || line.text.to_lowercase().split(|letter: char| !letter.is_alphanumeric()).any(|word| READY.contains(&word));
        let raw = self.larder.kind(food).is_some_and(|kind| {
            kind.is_raw_flesh() || kind.is_raw_fish() || matches!(kind, Kind::RawEgg | Kind::RawSeafood | Kind::Grain | Kind::Pulse)
        });
        !ready && (raw || self.larder.name(food).split(' ').any(|word| word == "potato"))
    }

    /// What the first heat is done to, and how many clauses name each food.
    pub(super) fn objects_of_the_first_heat(&self, seen: &[Seen]) -> (Option<Objects>, Vec<usize>) {
        let clauses = |food: usize| seen.iter().filter(|one| one.foods.contains(&food)).count();
        let named = (0..self.setting.ingredients.len()).map(clauses).collect();
        (self.objects_of(seen), named)
    }

    pub(super) fn is_named_again(&self, food: usize) -> bool {
        self.named_in.get(food).is_some_and(|clauses| *clauses > 1)
    }

    fn objects_of(&self, seen: &[Seen]) -> Option<Objects> {
        let first = seen.iter().position(|one| one.heats)?;
        if seen[..=first].iter().any(|one| !one.serves && !one.foods.is_empty()) {
            return None;
        }
        let after = &seen[first + 1..];
        let is_named = |food: &usize| seen.iter().any(|one| one.foods.contains(food));
        let heated_later = |food: usize, from: usize| after[from..].iter().any(|one| one.heats && one.foods.contains(&food));
        let was_in_it = |food: &usize, raw: bool| {
            let Some((place, one)) = after.iter().enumerate().find(|(_, one)| one.foods.contains(food)) else { return false };
            let done = if raw { one.cuts || one.afterwards } else { one.cuts };
            one.main.contains(food) || !one.serves && !one.heats && done && (one.afterwards || !heated_later(*food, place + 1))
        };
        let all = 0..self.setting.ingredients.len();
        let mut foods: Vec<usize> = all.clone().filter(|food| self.must_be_cooked(*food) && was_in_it(food, true)).collect();
        let unnamed: Vec<usize> = all.clone().filter(|food| !is_named(food) && !self.is_to_taste(*food)).collect();
        let body = |food: &usize| {
            self.must_be_cooked(*food) || matches!(self.larder.kind(*food), Some(Kind::Vegetable | Kind::Fruit | Kind::PlantProtein))
        };
        if foods.is_empty() && !unnamed.iter().any(body) {
            // "Roast for 50 minutes. Slice the beetroot": of all that is left the first that is named then.
            let next = after.iter().find(|one| !one.foods.is_empty())?;
            foods.extend(next.foods.iter().copied().filter(|food| body(food) && was_in_it(food, false)).take(1));
        }
        if foods.is_empty() {
            return None;
        }
        foods.extend(unnamed);
        foods.sort();
        Some(Objects { clause: first, foods })
    }

    fn is_to_taste(&self, food: usize) -> bool {
        matches!(&self.setting.ingredients[food].wanted, Wanted::Food { item: None, .. })
    }

    pub(super) fn seen_of(&self, w: &Words, clause: &Clause, takes: Takes, needs: bool) -> Seen {
        let mentions = self.larder.mentions(w, clause.start, clause.end);
        let own = served_beside(w, clause);
        let main = mentions.iter().filter(|mention| mention.start < own).flat_map(|mention| mention.foods.clone()).collect();
        let verb = clause.verb;
        let serves = takes == Takes::Serve;
        let cuts = verb.is_some_and(|verb| {
            matches!(verb.rate, Rate::Cut(_) | Rate::Peel) || matches!(verb.word, "mash" | "peel" | "drain" | "fluff" | "halve" | "cool")
        });
        Seen {
            serves,
            heats: needs
                && matches!(takes, Takes::Wait { .. } | Takes::Hands(_))
                && verb.is_some_and(|verb| !matches!(verb.way, Way::Heat | Way::Put)),
            cuts,
            afterwards: verb.is_some_and(|verb| AFTERWARDS.contains(&verb.word)),
            foods: mentions.into_iter().flat_map(|mention| mention.foods).collect(),
            main: if serves { main } else { Vec::new() },
        }
    }

    /// What the clause that is read is done to without naming it.
    pub(super) fn take_objects(&mut self, draft: &mut Draft) -> Vec<usize> {
        let Some(objects) = self.objects.take_if(|objects| objects.clause == self.clauses_read) else { return Vec::new() };
        for food in &objects.foods {
            let _taken = self.larder.take(*food, None);
        }
        draft.foods.extend(objects.foods.iter().copied());
        draft.dish.extend(objects.foods.iter().copied());
        objects.foods
    }

    /// What is named at the table alone, and is not eaten as it is.
    pub(super) fn tell_what_nobody_cooks(&mut self) {
        let named = |food: usize| {
            let piece = |piece: &crate::kitchen::Piece| matches!(piece, crate::kitchen::Piece::Ingredient { index, .. } if *index == food);
            self.made.iter().any(|made| made.step.text.iter().any(piece))
        };
        let raw: Vec<usize> = (0..self.setting.ingredients.len())
            .filter(|food| self.is_at_table(*food) && !named(*food) && self.must_be_cooked(*food))
            .collect();
        for food in raw {
            let line = &self.setting.ingredients[food];
            let text = format!("\"{}\" is named only where it is served, and no step cooks it; write the step that does", line.text);
            self.doubts.push((line.at.clone(), text));
        }
    }
}
