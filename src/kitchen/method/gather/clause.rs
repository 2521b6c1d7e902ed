//! What one clause does to the step that is being gathered: it goes on in it, ends it, or stays words.

use super::super::Paragraph;
use super::super::act::{Act, On, So, Takes, act};
use super::super::clauses::Clause;
use super::super::places::Kind;
use super::super::text::{pieces, said};
use super::draft::Draft;
use super::{Gather, MOST_HANDS_BEFORE};
use crate::kitchen::Piece;
use crate::kitchen::words::Words;

impl Gather<'_, '_> {
    pub(super) fn clause(&mut self, w: &Words, clause: &Clause, read: Act, next: &[Clause], draft: &mut Draft, paragraph: &Paragraph) {
        self.doubt(w, clause, &read, paragraph);
        if clause.supposed {
            return self.suppose(w, clause, draft);
        }
        if read.left_out {
            return self.leave_out(w, clause, next, draft);
        }
        if draft.is_empty() || read.takes == Takes::Preheat {
            self.choose(&read);
        }
        // "Prove for 20 minutes while the oven heats to 230 °C" sets it, too.
        let beside = (clause.start..clause.end).any(|at| w.is(at, "oven")) && read.other.is_none();
        let of_oven = !read.stands_in_it && (read.sets || beside || read.place == Some(Some(On::Kind(Kind::Oven))));
        if of_oven && let Some(celsius) = read.heat.oven {
            self.set_oven(celsius, &read);
        }
        let text = (clause.start, clause.end);
        match read.takes {
            Takes::Preheat => return self.keep_what_more_is_said(w, clause, draft),
            Takes::Serve => {
                // What is printed at the table takes no time; its foods are named there, and stay for the first step.
                let words = said(w, text.0, text.1);
                let named = self.larder.mentions(w, clause.start, clause.end);
                self.at_table.extend(named.into_iter().flat_map(|mention| mention.foods));
                return self.serve.push(words);
            }
            Takes::Release { minutes, written } => return self.release(w, clause, (minutes, written), draft, paragraph),
            Takes::Words if draft.is_empty() && !self.mentions_something(w, clause) => {
                // "Core 75 °C": of what was heated last.
                if let Some(last) = self.made.last_mut().filter(|made| made.heated && made.step.inside.is_none()) {
                    last.step.inside = read.heat.inside;
                }
                let words = said(w, text.0, text.1);
                if !words.is_empty() {
                    self.lead = if self.lead.is_empty() { words } else { format!("{} {words}", self.lead) };
                }
                self.placed(&read);
                return;
            }
            _ => {}
        }
        let waits = matches!(read.takes, Takes::Wait { .. } | Takes::Boil);
        let stands = waits && read.need.is_none() || read.takes == Takes::Stand;
        let words = matches!(read.takes, Takes::Words);
        // "The night before, cover the beans with water and leave them to soak": one wait, and it is the night.
        let of_the_night = draft.overnight && draft.on.is_none() && stands && matches!(read.takes, Takes::Wait { written: false, .. });
        if of_the_night {
            draft.add(clause.start, clause.end);
            self.foods_of(w, clause, next, draft);
            return;
        }
        // "Rain in the polenta": what is brought by words alone is in none of the waits before it.
        let brings = words && draft.waits && self.mentions_something(w, clause);
        if (!words || brings) && self.begins_anew(w, &read, stands, next, draft) {
            self.finish(w, draft, paragraph);
        }
        self.choose(&read);
        self.add_to_draft(w, clause, &read, next, draft);
        self.placed(&read);
    }

    /// What is only done another way stays in the words.
    fn suppose(&mut self, w: &Words, clause: &Clause, draft: &mut Draft) {
        if !draft.is_empty() {
            return draft.add(clause.start, clause.end);
        }
        let words = said(w, clause.start, clause.end);
        self.lead = if self.lead.is_empty() { words } else { format!("{} {words}", self.lead) };
    }

    /// "Marinate the chicken in the yoghurt. Keep aside for 30 minutes": one wait, and it is the one that has a time.
    pub(super) fn without_the_wait_of_the_next(&self, w: &Words, read: Act, clause: &Clause, next: Option<&Clause>) -> Act {
        const SOAKS: [&str; 3] = ["marinate", "marinade", "soak"];
        const STAYS: [&str; 8] = ["leave", "let", "set aside", "keep", "stand", "rest", "refrigerate", "chill"];
        let is = |clause: &Clause, verbs: &[&str]| clause.verb.is_some_and(|verb| verbs.contains(&verb.word));
        let untimed = is(clause, &SOAKS) && matches!(read.takes, Takes::Wait { written: false, .. });
        let timed = |after: &&Clause| {
            let then = act(w, after, So { place: None, ..self.so }, &self.own);
            !after.meanwhile && is(after, &STAYS) && matches!(then.takes, Takes::Wait { written: true, .. }) && then.need.is_none()
        };
        if untimed && next.filter(timed).is_some() { Act { takes: Takes::Hands(None), ..read } } else { read }
    }

    /// Work that may be left out stays in the words, with what is named there alone.
    fn leave_out(&mut self, w: &Words, clause: &Clause, next: &[Clause], draft: &mut Draft) {
        if !draft.is_empty() {
            draft.add(clause.start, clause.end);
            self.foods_of(w, clause, next, draft);
            return;
        }
        let mut alone = Draft::default();
        alone.add(clause.start, clause.end);
        self.foods_of(w, clause, next, &mut alone);
        match self.made.last_mut().filter(|_| self.lead.is_empty()) {
            Some(before) => {
                before.step.text.push(Piece::Words(" ".to_owned()));
                before.step.text.append(&mut pieces(w, &alone.spans, &alone.pieces));
            }
            None => self.suppose(w, clause, draft),
        }
    }

    fn placed(&mut self, read: &Act) {
        if let Some(place) = read.place {
            match place {
                None => self.so.was = self.so.place.or(self.so.was),
                Some(_) => self.so.switched_off = false,
            }
            self.so.place = place;
        }
        if read.need.is_some() && matches!(read.takes, Takes::Hands(_) | Takes::Wait { .. } | Takes::Boil) {
            self.so.by_hand = matches!(read.takes, Takes::Hands(_));
        }
        self.so.switched_off |= read.switched_off;
        self.so.turned_down |= read.turned_down;
        self.heat_set_last = read.turned_down;
        self.so.pressed |= read.need == Some(On::Kind(Kind::Pressure)) && matches!(read.takes, Takes::Wait { .. });
        self.so.slow |= read.slow;
        let cooker = |kind: &Kind| matches!(kind, Kind::Pressure | Kind::Slow | Kind::Rice);
        let named =
            [read.need, read.place.flatten()].into_iter().flatten().find_map(|on| if let On::Kind(kind) = on { Some(kind) } else { None });
        self.so.cooker = named.filter(cooker).or(self.so.cooker);
    }

    /// Does the clause begin a step of its own?
    fn begins_anew(&self, w: &Words, read: &Act, stands: bool, next: &[Clause], draft: &Draft) -> bool {
        if draft.is_empty() {
            return false;
        }
        let other = |need: On| draft.on.is_some_and(|on| on != need);
        let first_need = |_: On| draft.on.is_none() && draft.hands() > MOST_HANDS_BEFORE + 1e-9;
        // "Remove from the heat and stand 12 minutes" begins the step off the heat.
        let frees = read.off && draft.on.is_some() && next.first().is_some_and(|after| self.will_stand(w, after));
        // "Two days before, put the beef in the wine. Simmer for 2 hours."
        let next_day = draft.day_before > 0 && read.need.is_some();
        draft.waits || next_day || read.need.is_some_and(|need| other(need) || first_need(need)) || stands && draft.on.is_some() || frees
    }

    fn will_stand(&self, w: &Words, clause: &Clause) -> bool {
        let so = So { place: None, ..self.so };
        let read = act(w, clause, so, &self.own);
        matches!(read.takes, Takes::Wait { .. }) && read.need.is_none() || matches!(read.takes, Takes::Words | Takes::Stand)
    }

    fn mentions_something(&self, w: &Words, clause: &Clause) -> bool {
        !self
            .larder
            .mentions(w, clause.verb_end, clause.end)
            .iter()
            .all(|mention| mention.foods.iter().all(|food| !self.larder.left(*food).is_positive()))
    }
}
