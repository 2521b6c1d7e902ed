//! What a clause adds to the step that is being gathered: its words, its foods, its hands, its wait and its heat.

use super::super::act::{Act, On, Takes};
use super::super::beforehand::work_of;
use super::super::clauses::Clause;
use super::super::larder::{self, Mention, Part, Short};
use super::super::places::Kind;
use super::super::text::said;
use super::super::verbs::{Rate, Way, needs_knife};
use super::super::{Paragraph, rates};
use super::Gather;
use super::draft::{Draft, Placed};
use crate::kitchen::Piece;
use crate::kitchen::words::Words;
use crate::measure::{Amount, Dimension, Kind as Sign};

/// What ends boiling: it would go on in the hot water. "Leave in the water" is a wait, and stands between.
const DRAINS: [&str; 4] = ["drain", "strain", "refresh", "plunge"];

/// Makes ready what others use.
const MEASURES: [&str; 3] = ["weigh", "measure", "scale"];

/// Minutes of hands each time that something is turned, stirred or folded while it waits. Common practice, no source.
const TURN: f64 = 1.0;

/// Grams of butter or flour that a tin takes at most: of more the dish is made. Common practice, no source.
const MOST_TO_GREASE: f64 = 60.0;

/// More trays than this are no trays.
const MOST_TRAYS: f64 = 6.0;

impl Gather<'_, '_> {
    pub(super) fn add_to_draft(&mut self, w: &Words, clause: &Clause, read: &Act, next: &[Clause], draft: &mut Draft) {
        draft.drains |= draft.is_empty() && clause.verb.is_some_and(|verb| DRAINS.contains(&verb.word));
        draft.add(clause.start, clause.end);
        let foods = self.foods_of(w, clause, next, draft);
        let front = self.take_objects(draft);
        self.trays = trays(w, clause).or(self.trays);
        if draft.on.is_none() {
            draft.on = read.need;
            draft.which = read.need.and_then(|on| if let On::Kind(kind) = on { self.of_kind(kind) } else { None });
        }
        if draft.on.is_some() {
            draft.dish.extend(self.dishes.at_hand());
            draft.dish.extend(self.dishes.inside(draft.on));
            draft.of_another = read.of_another && draft.foods.is_empty();
        }
        let verb = clause.verb;
        if verb.is_some_and(|verb| matches!(verb.rate, Rate::Cut(_)) && !["trim", "carve"].contains(&verb.word)) {
            self.cut.extend(foods.iter().copied());
        }
        if let Some(work) = verb.and_then(work_of) {
            self.done.extend(foods.iter().map(|food| (*food, work)));
        }
        draft.cooks |= read.need.is_some() && verb.is_some_and(|verb| matches!(verb.way, Way::HandsOn(_) | Way::Wait(..)));
        self.take_time(w, clause, read, &foods, draft);
        draft.front.extend(front);
        draft.day_before = draft.day_before.max(minutes_before(read));
        draft.overnight |= read.time.is_some_and(|time| time.overnight);
        draft.knife |= verb.is_some_and(needs_knife);
        draft.inside = draft.inside.or(read.heat.inside);
        self.take_oven(w, clause, read, draft);
    }

    /// Its hands and its wait, as said or by the rates.
    fn take_time(&self, w: &Words, clause: &Clause, read: &Act, foods: &[usize], draft: &mut Draft) {
        let verb = clause.verb;
        match read.takes {
            Takes::Hands(Some(written)) => {
                if read.time.is_some_and(|time| time.vague) {
                    draft.hands_guessed += written;
                } else {
                    draft.hands_written += written;
                }
            }
            Takes::Hands(None) => {
                draft.hands_guessed += verb.map_or(0.5, |verb| rates::hands(verb, w, clause.verb_end..clause.end, foods, &self.larder));
            }
            Takes::Stand => draft.hands_guessed += 0.5,
            Takes::Boil => {
                let litres: f64 = draft.foods.iter().map(|food| self.larder.litres(*food)).sum::<f64>() + typed_litres(w, clause);
                draft.hands_guessed += 1.0;
                draft.wait += rates::to_the_boil(if litres > 0.0 { litres } else { 1.0 });
                (draft.waits, draft.wait_guessed) = (true, true);
            }
            Takes::Wait { minutes, written } => {
                // The rate of a wait is the foods that are put in first.
                if read.need.is_some()
                    && !foods.is_empty()
                    && verb.is_some_and(|verb| verb.rate == Rate::Once(0.0))
                    && draft.hands() == 0.0
                    && !draft.pieces.is_empty()
                {
                    draft.hands_guessed += 0.5;
                }
                draft.hands_guessed += read.turns * TURN;
                draft.wait += minutes;
                draft.waits = true;
                draft.until_needed = read.until_needed;
                draft.wait_guessed |= !written || read.doubtful || read.unknown || read.time.is_some_and(|time| time.by_weight);
                let leaves_a_choice = read.or && (clause.start..clause.end).any(|at| w.is(at, "overnight"));
                draft.choice = leaves_a_choice.then(|| w.text(clause.start..clause.end).to_owned()).or(draft.choice.take());
                draft.overnight |= read.time.is_some_and(|time| time.overnight);
                draft.day_before = draft.day_before.max(minutes_before(read));
            }
            _ => {}
        }
    }

    /// Whether it fills trays, and how hot the oven is for it.
    fn take_oven(&mut self, w: &Words, clause: &Clause, read: &Act, draft: &mut Draft) {
        if (clause.start..clause.end).any(|at| w.is(at, "one") && w.is(at + 1, "layer") || w.is(at, "single") && w.is(at + 1, "layer"))
            || clause.verb.is_some_and(|verb| verb.word == "roast")
        {
            draft.one_layer |= read.need == Some(On::Kind(Kind::Oven)) || draft.on == Some(On::Kind(Kind::Oven));
            if draft.one_layer && draft.hands() > 0.0 && !clause.goes_on() {
                draft.hands_guessed += rates::FILL_A_TRAY;
            }
        }
        // Dough in a warm oven, meringues in one that cools: what follows is no colder for it.
        if let (true, Some(celsius)) = (read.stands_in_it, read.heat.oven) {
            (draft.celsius, draft.celsius_guessed) = (Some(celsius), read.heat.guessed);
        } else if read.need == Some(On::Kind(Kind::Oven)) {
            if let Some(celsius) = read.heat.oven {
                self.set_oven(celsius, read);
            }
            if let (None, Some((celsius, guessed))) = (draft.celsius, self.oven) {
                (draft.celsius, draft.celsius_guessed) = (Some(celsius), guessed);
            }
        }
    }

    /// The foods that a clause is about; what it names takes its place in the text.
    pub(super) fn foods_of(&mut self, w: &Words, clause: &Clause, next: &[Clause], draft: &mut Draft) -> Vec<usize> {
        let mut mentions = Vec::new();
        if clause.verb_at > clause.start {
            mentions.extend(self.larder.mentions(w, clause.start, clause.verb_at));
        }
        mentions.extend(self.larder.mentions(w, clause.verb_end, clause.end));
        // "While the peppers cool, chop the onion" chops no peppers.
        let beside = clause.opens_beside(w);
        let done = mentions.iter().filter(|mention| !beside || mention.start >= clause.verb_at);
        let mut foods: Vec<usize> = done.flat_map(|mention| mention.foods.iter().copied()).collect();
        // "Grease a tin with butter" takes none of what the cake is made of; "weigh all ingredients" takes nothing that is named again.
        let greases = self.makes_ware_ready(w, clause);
        let weighs = clause.verb.is_some_and(|verb| MEASURES.contains(&verb.word));
        for mut mention in mentions {
            if weighs {
                mention.foods.retain(|food| !self.is_named_again(*food));
            }
            let too_much = |food: &usize| self.larder.grams(*food) > MOST_TO_GREASE;
            let again = mention.part.is_none() && mention.foods.iter().all(|food| self.is_named_again(*food) || too_much(food));
            if !(greases && again) {
                self.place(w, mention, draft);
            }
        }
        if foods.is_empty() && clause.end <= clause.verb_end + 1 {
            // "Peel, core and slice the apples": the food stands with the last of them.
            let fellow = next
                .iter()
                .take_while(|other| other.sentence == clause.sentence)
                .map(|other| self.larder.mentions(w, other.verb_end, other.end));
            let named = fellow.into_iter().find(|mentions| !mentions.is_empty()).unwrap_or_default();
            foods = named.into_iter().flat_map(|mention| mention.foods).collect();
            draft.borrowed.extend(self.object_of_the_next(w, clause, next));
        }
        if foods.is_empty() {
            let them = (clause.verb_end..clause.end.min(clause.verb_end + 4))
                .any(|at| ["them", "it", "into", "in", "thinly", "finely", "crosswise"].iter().any(|word| w.is(at, word)));
            if them {
                foods.clone_from(&self.last_foods);
            }
        } else {
            self.last_foods.clone_from(&foods);
        }
        draft.foods.extend(foods.iter().copied());
        foods
    }

    /// "Dice and cook the carrots": the object of the last of several verbs. "Drain and mash with the butter" has none.
    fn object_of_the_next(&self, w: &Words, clause: &Clause, next: &[Clause]) -> Vec<usize> {
        let bare = |other: &&Clause| other.end <= other.verb_end + 1;
        let Some(last) = next.iter().take_while(|other| other.sentence == clause.sentence).find(|other| !bare(other)) else {
            return Vec::new();
        };
        let beside = |at: usize| ["with", "in", "into", "on", "to", "over", "for"].iter().any(|word| w.is(at, word));
        let end = (last.verb_end..last.end).find(|at| beside(*at)).unwrap_or(last.end);
        self.larder
            .mentions(w, last.verb_end, end)
            .into_iter()
            .filter(|mention| mention.part.is_none())
            .flat_map(|mention| mention.foods)
            .collect()
    }

    /// Greases or dusts a tin, a dish or a board: in this clause, or before it in the sentence.
    fn makes_ware_ready(&self, w: &Words, clause: &Clause) -> bool {
        const MAKES: [&str; 9] = ["grease", "butter", "oil", "flour", "dust", "brush", "rub", "line", "spray"];
        const WARE: [&str; 12] = ["tin", "tray", "dish", "pan", "mould", "ramekin", "sheet", "surface", "worktop", "board", "case", "bowl"];
        let from = (0..clause.start).rev().find(|at| w.kind(*at) == Some(Sign::Stop)).map_or(0, |stop| stop + 1);
        let to = (clause.verb_end + 6).min(clause.end);
        clause.verb.is_some_and(|verb| MAKES.contains(&verb.word)) && (from..to).any(|at| WARE.contains(&w.key_at(at)))
    }

    /// More of a line than is left of it, or an amount that is not known.
    fn tell_what_falls_short(&mut self, w: &Words, mention: &Mention) {
        let (Some(part @ Part::Amount(..)), [food]) = (&mention.part, mention.foods.as_slice()) else { return };
        let (said, line) = (w.text(mention.start..mention.end), &self.setting.ingredients[*food].text);
        self.untold.push(match self.larder.falls_short(*food, part) {
            None => return,
            // "Top each with 1 tbsp of the yoghurt": what each gets of what is there.
            Some(Short::Nothing) if is_of_each(w, mention) => return,
            Some(Short::Nothing) => format!(
                "the method takes \"{said}\" when all of \"{line}\" is taken already; it stays in the words, the same for any number of \
                 batches. Write before it how much is taken first"
            ),
            Some(Short::Unknown) => format!("how much of \"{line}\" \"{said}\" is is not known; what is left of it is taken"),
            Some(Short::Left(left)) => format!("the method takes \"{said}\" where {left} is left of \"{line}\"; what is left is taken"),
        });
    }

    fn place(&mut self, w: &Words, mention: Mention, draft: &mut Draft) {
        self.tell_what_falls_short(w, &mention);
        let mut taken: Vec<(usize, Option<Amount>)> = Vec::new();
        for food in mention.foods.iter().copied() {
            let first = if self.keeps_some_for_later(food, &mention) { self.larder.take_the_first(food) } else { None };
            let took = first.map(Some).or_else(|| self.larder.take(food, mention.part.as_ref()));
            taken.extend(took.map(|amount| (food, amount)));
        }
        if !taken.is_empty() {
            let Mention { start, end, group, .. } = mention;
            let part = larder::part_of_a_fruit(w.key_at(end - 1)).filter(|part| !self.larder.is_itself(taken[0].0, part));
            draft.pieces.push(Placed { start, end, foods: taken, group, part });
        }
    }

    /// "500 g flour, plus 2 tbsp for rolling", which the method names again: what is for later does not go in with the first.
    fn keeps_some_for_later(&self, food: usize, mention: &Mention) -> bool {
        let line = &self.setting.ingredients[food];
        mention.part.is_none() && line.prep.as_deref().is_some_and(|prep| prep.starts_with("for ")) && self.is_named_again(food)
    }

    /// "Let the pressure fall for ten minutes": it waits on the cooker of the step before.
    pub(super) fn release(
        &mut self,
        w: &Words,
        clause: &Clause,
        (minutes, written): (f64, bool),
        draft: &mut Draft,
        paragraph: &Paragraph,
    ) {
        let on_pressure = draft.on == Some(On::Kind(Kind::Pressure));
        if on_pressure || draft.is_empty() && self.made.is_empty() {
            draft.add(clause.start, clause.end);
            draft.wait += minutes;
            draft.waits = true;
            draft.wait_guessed |= !written;
            return;
        }
        let pressure = self.of_kind(Kind::Pressure);
        let before = self.made.last_mut().filter(|made| pressure.is_some_and(|id| made.step.on.contains(&id)) && draft.is_empty());
        match before {
            Some(made) => {
                made.step.wait.0 += minutes.ceil() as i64;
                made.step.estimated.wait |= !written;
                let lead = std::mem::take(&mut self.lead);
                let lead = if lead.is_empty() { lead } else { format!(" {lead}") };
                made.step.text.push(Piece::Words(format!("{lead} {}", said(w, clause.start, clause.end))));
            }
            None => {
                if !draft.is_empty() {
                    self.finish(w, draft, paragraph);
                }
                draft.add(clause.start, clause.end);
                draft.wait += minutes;
                draft.waits = true;
                draft.wait_guessed |= !written;
                draft.on = Some(On::Kind(Kind::Pressure));
            }
        }
    }
}

/// "Each", "per flatbread" beside a mention.
fn is_of_each(w: &Words, mention: &Mention) -> bool {
    (mention.start.saturating_sub(4)..mention.end + 3).any(|at| ["each", "every", "per", "apiece"].iter().any(|word| w.is(at, word)))
}

/// "The day before", "two days before".
fn minutes_before(read: &Act) -> i64 {
    read.time.filter(|time| time.day_before).map_or(0, |time| time.high as i64)
}

/// "On 2 trays", "two lined baking sheets", "on one tray".
fn trays(w: &Words, clause: &Clause) -> Option<f64> {
    let is_tray = |at: usize| ["tray", "sheet"].contains(&w.key_at(at));
    (clause.start..clause.end).find_map(|at| {
        let read = w.number(at).ok()?.filter(|_| !w.is(at, "a") && !w.is(at, "an"))?;
        let plain = |at: &usize| !is_tray(*at) && matches!(w.kind(*at), Some(Sign::Word | Sign::Dash));
        let tray = read.end + (read.end..(read.end + 3).min(clause.end)).take_while(plain).count();
        let after_unit = w.unit(read.end).is_some();
        let count = read.number.high.to_f64();
        (is_tray(tray) && tray < clause.end && !after_unit && count.fract() == 0.0 && (1.0..=MOST_TRAYS).contains(&count)).then_some(count)
    })
}

/// Litres that a clause itself names: "4 quarts of water".
fn typed_litres(w: &Words, clause: &Clause) -> f64 {
    let mut at = clause.verb_end;
    let mut litres = 0.0;
    while at < clause.end {
        match w.amount(at) {
            Ok(Some(read)) if read.unit_given => {
                let most = read.amount.most(crate::measure::Spoons::Us);
                if most.dimension() == Dimension::Volume {
                    litres += most.base() / 1000.0;
                }
                at = read.end.max(at + 1);
            }
            _ => at += 1,
        }
    }
    litres
}
