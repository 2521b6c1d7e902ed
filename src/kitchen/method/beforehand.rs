//! What only the ingredient lines say is cut: "3 leeks, sliced", "500 g carrots, peeled and diced", "1 lemon, juice".
//!
//! Where no clause of the method does that work, its minutes, by the same rates, go to the first step that names the
//! food, marked as estimated. Readings of published recipes hold it so: they give such lines no step of their own.
//! Hands that the text gives stay what it gives: the step before then begins with the cutting; where there is none, or
//! it waits for hours, the cutting is a step of its own. So is more of it before the oven than the oven takes to warm up: it would stand hot meanwhile.
//!
//! What is bought cut takes no minutes: what a name says itself (tinned chopped tomatoes, minced beef), and what stands
//! before the name of anything but a vegetable, a fruit or a herb (grated cheddar, chopped walnuts, diced lamb).

use super::gather::{Gather, Made, blank};
use super::rates;
use super::verbs::{Rate, Verb, inflected, needs_knife, verb};
use crate::foods::{Kind, State};
use crate::kitchen::words::Words;
use crate::kitchen::{After, ApplianceId, ApplianceKind, Ingredient, Piece, Step, Wanted};
use crate::measure::{Kind as Sign, Minutes};
use crate::words::{listed, plural, sentence};

/// No oven stands hot and empty for longer, while somebody cuts: so long it takes to warm up.
const HEATED_FOR: Minutes = Minutes(10);

/// Work on the board that a list asks for.
#[rustfmt::skip]
const ON_THE_BOARD: [&str; 26] = [
    "chop", "cut", "slice", "dice", "cube", "mince", "julienne", "shred", "halve", "quarter", "trim", "core", "deseed", "seed", "stone", "pit",
    "zest", "segment", "peel", "grate", "tear", "snip", "pick", "squeeze", "juice", "crush",
];
/// Sold without their stones, wherever the line says it.
const SOLD_STONED: [&str; 3] = ["olive", "date", "prune"];
/// Of fruit, said before its name: so it is sold.
const SOLD_SO: [&str; 4] = ["pit", "stone", "seed", "deseed"];

/// One kind of work on a food, whatever the word: a clause that slices leaves nothing to chop.
pub(super) fn work_of(verb: &Verb) -> Option<&'static str> {
    match verb.rate {
        Rate::Cut(_) => Some("cut"),
        Rate::Peel => Some("peel"),
        _ => match ON_THE_BOARD.iter().copied().find(|word| *word == verb.word)? {
            "squeeze" => Some("juice"),
            "seed" => Some("deseed"),
            other => Some(other),
        },
    }
}

/// The work that one line asks for and no clause does.
struct Asked {
    food: usize,
    minutes: f64,
    verbs: Vec<&'static Verb>,
}

impl Gather<'_, '_> {
    /// Adds the minutes of what the lines say is cut.
    pub(super) fn cut_beforehand(&mut self) {
        let asked: Vec<Asked> = (0..self.setting.ingredients.len()).filter_map(|food| self.asked(food)).collect();
        let mut index = 0;
        while index < self.made.len() {
            let here: Vec<&Asked> = asked.iter().filter(|one| self.step_of(one.food) == Some(index)).collect();
            index += 1 + if here.is_empty() { 0 } else { self.cut_for(index, &here) };
        }
    }

    /// The first step that names the food; what none names is handled in the first step of all, unless it can be left out.
    fn step_of(&self, food: usize) -> Option<usize> {
        let names = |made: &Made| made.step.text.iter().any(|piece| matches!(piece, Piece::Ingredient { index, .. } if *index == food));
        let needed = !self.setting.ingredients[food].optional && !self.made.is_empty() && !self.is_at_table(food);
        self.made.iter().position(names).or(needed.then_some(0))
    }

    /// Puts the minutes where they belong, and says how many steps it took for them.
    fn cut_for(&mut self, index: usize, asked: &[&Asked]) -> usize {
        let minutes = Minutes(asked.iter().map(|one| one.minutes).sum::<f64>().round().max(1.0) as i64);
        let knife = asked.iter().flat_map(|one| &one.verbs).any(|verb| needs_knife(verb));
        let is_written = |made: &Made| made.step.hands.0 > 0 && !made.step.estimated.hands;
        let lies_between = |at: usize| at < index && self.made[at].is_long();
        let is_oven = |on: &ApplianceId| self.setting.appliances[on.0].kind == Some(ApplianceKind::Oven);
        let stands_hot = minutes > HEATED_FOR && self.made[index].step.on.iter().any(is_oven);
        let place = (0..=index).rev().take_while(|at| !lies_between(*at) && !stands_hot).find(|at| !is_written(&self.made[*at]));
        if place != Some(index) {
            let text = self.said_of(asked);
            match place {
                Some(place) => self.made[place].step.text.insert(0, Piece::Words(format!("{text} "))),
                None => {
                    self.begin_with(index, text);
                    self.beside_what_waits(index);
                }
            }
        }
        let step = &mut self.made[place.unwrap_or(index)].step;
        // Cutting grows with the batches, though what is done on a hob does not.
        step.scales |= minutes >= step.hands;
        step.hands.0 += minutes.0;
        step.estimated.hands = true;
        if knife && step.skill.is_none() {
            step.skill = Some("knife".to_owned());
        }
        usize::from(place.is_none())
    }

    /// A step of its own before another, with no minutes yet.
    pub(super) fn begin_with(&mut self, index: usize, text: String) {
        for made in &mut self.made {
            for after in made.step.after.iter_mut().flatten() {
                match after {
                    After::Step(step) if *step >= index => *step += 1,
                    _ => {}
                }
            }
        }
        let next = &mut self.made[index].step;
        let after = next.after.take();
        let step = Step { hands: Minutes(0), after, ..blank(vec![Piece::Words(text)], next.at.clone()) };
        self.made.insert(index, Made::of_words(step));
    }

    /// Nobody wrote when that is done: it is ready in time, and the pot in the oven does not wait for the knife.
    fn beside_what_waits(&mut self, index: usize) {
        let Some(before) = index.checked_sub(1).filter(|before| !self.made[*before].is_long() && self.made[index].step.after.is_none())
        else {
            return;
        };
        let Some(next) = self.made.get(index + 1).filter(|next| next.step.after.is_none()).map(|_| index + 1) else { return };
        let first = || before.checked_sub(1).map(After::Step).into_iter().collect();
        let base: Vec<After> = self.made[before].step.after.clone().unwrap_or_else(first);
        self.made[index].step.after = Some(base);
        self.made[next].step.after = Some(vec![After::Step(before), After::Step(index)]);
    }

    /// "Slice the leeks. Chop the onion."
    fn said_of(&self, asked: &[&Asked]) -> String {
        let one = |one: &&Asked| {
            let name = &self.setting.foods[self.food_of(one.food)?].name;
            let several = Some(plural(name)).filter(|several| self.setting.ingredients[one.food].text.to_lowercase().contains(several));
            let name = several.as_ref().unwrap_or(name);
            let verbs: Vec<&str> = one.verbs.iter().map(|verb| verb.word).collect();
            Some(format!("{} the {name}.", sentence(&listed(&verbs))))
        };
        asked.iter().filter_map(one).collect::<Vec<String>>().join(" ")
    }

    pub(super) fn food_of(&self, food: usize) -> Option<crate::foods::FoodId> {
        let Wanted::Food { food, .. } = &self.setting.ingredients[food].wanted else { return None };
        Some(*food)
    }

    fn asked(&self, food: usize) -> Option<Asked> {
        let line = &self.setting.ingredients[food];
        let Wanted::Food { item: Some(item), .. } = &line.wanted else { return None };
        let form = if let State::Prepared(form) = &item.state { form.as_str() } else { "" };
        let said = format!("{form}, {}", line.prep.as_deref().filter(|prep| *prep != form).unwrap_or_default());
        let asked = Words::of(&said);
        let kind = self.larder.kind(food);
        let fresh = matches!(kind, Some(Kind::Vegetable | Kind::Fruit | Kind::Herb));
        let mut verbs: Vec<&'static Verb> = Vec::new();
        for at in 0..asked.len() {
            let Some(verb) = done_on_the_board(&asked, at) else { continue };
            let before = is_before_the_name(line, verb);
            let bought = before && (!fresh || SOLD_SO.contains(&verb.word)) || kind == Some(Kind::RawMincedMeat);
            let sold = SOLD_SO.contains(&verb.word) && self.larder.name(food).split(' ').any(|word| SOLD_STONED.contains(&word));
            let bought = bought || sold;
            let done = work_of(verb).is_some_and(|work| self.done.contains(&(food, work)));
            if !bought && !done && verbs.iter().all(|known| work_of(known) != work_of(verb)) {
                verbs.push(verb);
            }
        }
        if verbs.iter().any(|verb| verb.word == "zest") {
            verbs.retain(|verb| verb.word != "grate");
        }
        let minutes = verbs.iter().map(|verb| rates::hands(verb, &asked, 0..asked.len(), &[food], &self.larder)).sum();
        (!verbs.is_empty()).then_some(Asked { food, minutes, verbs })
    }
}

/// "Diced", "cut", "torn", "zest", "juice", "in wedges".
fn done_on_the_board(w: &Words, at: usize) -> Option<&'static Verb> {
    let word = w.at(at).filter(|token| token.kind == Sign::Word)?.text.to_lowercase();
    let known = match word.as_str() {
        "cut" | "zest" | "juice" => verb(&word),
        "torn" => verb("tear"),
        "in" | "into" if (at + 1..at + 4).any(|at| rates::is_shape(w.key_at(at))) => verb("cut"),
        word => inflected(word, "ed"),
    };
    known.filter(|verb| ON_THE_BOARD.contains(&verb.word))
}

/// Does the line say it before the food, with no comma or bracket between?
fn is_before_the_name(line: &Ingredient, verb: &Verb) -> bool {
    let head = Words::of(line.text.split([',', '(', ';']).next().unwrap_or_default());
    (0..head.len()).any(|at| done_on_the_board(&head, at).is_some_and(|said| said.word == verb.word))
}

mod soak;

#[cfg(test)]
mod tests;
