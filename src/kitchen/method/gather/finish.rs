//! A gathered step made into a step of the recipe, on the household's own appliances.

use super::super::Paragraph;
use super::super::act::{Act, On};
use super::super::places::Kind;
use super::super::text::{pieces, with};
use super::Gather;
use super::draft::{Draft, Made, blank};
use crate::kitchen::words::Words;
use crate::kitchen::{ApplianceId, Estimates, Piece, Step};
use crate::measure::{Minutes, Number};

/// So soon after it has boiled. Common practice, no source.
const DRAINED_WITHIN: Minutes = Minutes(2);

impl Gather<'_, '_> {
    /// Ends the step that is being gathered.
    pub(super) fn finish(&mut self, w: &Words, draft: &mut Draft, paragraph: &Paragraph) {
        let done = std::mem::take(draft);
        if done.is_empty() {
            return;
        }
        let mut text = pieces(w, &done.spans, &done.pieces);
        let front = self.named_in_front(&done);
        if !front.is_empty() {
            text = [with(&front), text].concat();
        }
        if !self.lead.is_empty() {
            let lead = std::mem::take(&mut self.lead);
            text.insert(0, Piece::Words(format!("{lead} ")));
        }
        let idle = done.hands() == 0.0 && !done.waits;
        if idle && done.pieces.is_empty() {
            // Nothing but words: they belong to what was done before.
            match self.made.last_mut() {
                Some(last) => {
                    last.step.text.push(Piece::Words(" ".to_owned()));
                    last.step.text.append(&mut text);
                }
                None => self.lead = text.iter().map(|piece| if let Piece::Words(words) = piece { words.as_str() } else { "" }).collect(),
            }
            return;
        }
        let on = self.appliance(done.on, done.which, paragraph);
        let hands = if idle { 1.0 } else { (done.hands_written - 1e-6).ceil() + done.hands_guessed };
        let hands = if hands > 0.0 { hands.round().max(1.0) } else { 0.0 };
        let hot = done.on == Some(On::Kind(Kind::Oven)) && !on.is_empty();
        let after = self.after();
        let at_once = done.drains && after.is_none() && self.made.last().is_some_and(|before| before.boils);
        let step = Step {
            within: at_once.then_some(DRAINED_WITHIN),
            hands: Minutes(hands as i64),
            wait: Minutes((done.wait - 1e-6).ceil().max(0.0) as i64),
            scales: on.is_empty(),
            on,
            temperature: done.celsius.filter(|_| hot),
            inside: done.inside,
            skill: done.knife.then(|| "knife".to_owned()),
            after,
            estimated: Estimates {
                hands: idle || done.hands_guessed > 0.0,
                wait: done.waits && done.wait_guessed,
                temperature: hot && done.celsius.is_some() && done.celsius_guessed,
                inside: false,
                takes: false,
                within: at_once,
            },
            ..blank(text, paragraph.at.clone())
        };
        let heated = matches!(done.on, Some(On::Kind(_)));
        let boils = done.waits && matches!(done.on, Some(On::Kind(Kind::Hob | Kind::Pressure)));
        let stands = done.waits && done.on.is_none();
        self.made.push(Made {
            step,
            until_needed: done.until_needed,
            heated,
            boils,
            stands,
            choice: done.choice,
            overnight: done.overnight,
            day_before: done.day_before,
            one_layer: done.one_layer,
            trays: self.trays,
            foods: done.foods,
            dish: done.dish,
            of_another: done.of_another,
        });
    }

    /// What a step handles and none of its words name, once each.
    fn named_in_front(&mut self, done: &Draft) -> Vec<usize> {
        let mut front = done.front.clone();
        if done.pieces.is_empty() {
            for food in &done.borrowed {
                if !front.contains(food) && self.larder.left(*food) == &Number::ONE && self.larder.take(*food, None).is_some() {
                    front.push(*food);
                }
            }
        }
        front
    }

    /// Notes which of a kind a clause names.
    pub(super) fn choose(&mut self, read: &Act) {
        if let Some((id, kind)) = read.which.and_then(|id| Some((id, self.setting.appliances[id.0].kind?))) {
            self.chosen.retain(|(other, _)| *other != kind);
            self.chosen.push((kind, id));
        }
    }

    /// The one that was named last, else the first of the kind.
    pub(super) fn of_kind(&self, kind: Kind) -> Option<ApplianceId> {
        let chosen = self.chosen.iter().find(|(of, _)| *of == kind).map(|(_, id)| *id);
        chosen.or_else(|| self.setting.appliances.iter().position(|one| one.kind == Some(kind)).map(ApplianceId))
    }

    fn appliance(&mut self, on: Option<On>, which: Option<ApplianceId>, paragraph: &Paragraph) -> Vec<ApplianceId> {
        match on {
            None => Vec::new(),
            Some(On::Own(id)) => vec![id],
            Some(On::Kind(kind)) => match which.or_else(|| self.of_kind(kind)) {
                Some(id) => vec![id],
                None => {
                    let name = kind.name();
                    let heat = if kind == Kind::Oven { " and heat = true" } else { "" };
                    let text = format!(
                        "there is no {name} in kitchen.toml; the step stands without. Add [[appliance]] with name = \"{name}\"{heat}"
                    );
                    let doubt = (paragraph.at.clone(), text);
                    if !self.doubts.contains(&doubt) {
                        self.doubts.push(doubt);
                    }
                    Vec::new()
                }
            },
        }
    }
}
