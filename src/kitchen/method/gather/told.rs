//! What a method leaves open, told at its line.

use super::{Draft, Gather};
use crate::kitchen::method::Paragraph;
use crate::kitchen::method::act::{Act, On, Takes};
use crate::kitchen::method::clauses::Clause;
use crate::kitchen::method::clock::Time;
use crate::kitchen::words::Words;

impl Gather<'_, '_> {
    pub(super) fn doubt(&mut self, w: &Words, clause: &Clause, read: &Act, paragraph: &Paragraph) {
        let words = w.text(clause.start..clause.end);
        if clause.supposed {
            if read.time.is_some() {
                let text = format!("\"{words}\" is not planned, because it is done only where that is so; it stays in the words");
                self.doubts.push((paragraph.at.clone(), text));
            }
            return;
        }
        if read.left_out {
            let text = format!("\"{words}\" is not planned, because it may be left out; it stays in the words");
            self.doubts.push((paragraph.at.clone(), text));
            return;
        }
        if read.unknown {
            let text = format!("\"{words}\" has a time, but what is done in it is not known; it is planned as a wait");
            self.doubts.push((paragraph.at.clone(), text));
        }
        if read.or && matches!(read.takes, Takes::Wait { .. }) && (clause.start..clause.end).any(|at| w.is(at, "overnight")) {
            self.doubts
                .push((paragraph.at.clone(), format!("\"{words}\" leaves a choice; the first is planned, in the session. Write one time")));
        }
        if let (true, Some(On::Kind(kind))) = (read.moved, read.need) {
            let kind = kind.name();
            let text =
                format!("\"{words}\" is planned in the {kind}, which was heated and which nothing else uses; write where it happens");
            self.doubts.push((paragraph.at.clone(), text));
        }
        if read.time.is_some_and(|time| time.by_weight) {
            let text = format!("\"{words}\" gives a time by weight, of which one part is planned. Write the time in all");
            self.doubts.push((paragraph.at.clone(), text));
        }
        let planned = matches!(read.takes, Takes::Hands(Some(_)) | Takes::Wait { .. } | Takes::Release { .. });
        if read.doubtful && planned {
            self.doubts.push((paragraph.at.clone(), format!("\"{words}\" gives several times; the longest is planned")));
        }
        // The day before is no wait of its own, and what is done at the table takes no time here.
        if read.time.is_some_and(|time| !time.day_before && !time.overnight) && !planned && read.takes != Takes::Serve {
            self.doubts.push((paragraph.at.clone(), format!("\"{words}\" gives a time that is not planned; it stays in the words")));
        }
    }

    /// "Fry 4 at a time, 5 minutes a side": where it is known how many there are, the rounds are planned; else one is, and told.
    pub(super) fn in_rounds(&mut self, w: &Words, clause: &Clause, mut read: Act, draft: &Draft, paragraph: &Paragraph) -> Act {
        let Some((at_once, time)) = read.round.zip(read.time) else { return read };
        let named: Vec<usize> = self.larder.mentions(w, clause.start, clause.end).into_iter().flat_map(|mention| mention.foods).collect();
        let foods = [named, self.last_foods.clone(), draft.foods.clone()].into_iter().find(|foods| !foods.is_empty()).unwrap_or_default();
        let count = foods.iter().find_map(|food| self.larder.counted_pieces(*food));
        let rounds = at_once.zip(count).map(|(at_once, count)| (count / at_once).ceil()).filter(|rounds| *rounds >= 1.0);
        let words = w.text(clause.start..clause.end);
        let minutes = time.high;
        match (rounds, &mut read.takes) {
            (Some(rounds), Takes::Hands(Some(each)) | Takes::Wait { minutes: each, .. }) => {
                *each *= rounds;
                if rounds > 1.0 {
                    read.time = Some(Time { vague: true, ..time });
                    if let Takes::Wait { written, .. } = &mut read.takes {
                        *written = false;
                    }
                    let text = format!("\"{words}\" gives the time of one round: {rounds} rounds of {minutes} minutes are planned");
                    self.doubts.push((paragraph.at.clone(), text));
                }
            }
            (None, Takes::Hands(Some(_)) | Takes::Wait { .. }) => {
                let text = format!("\"{words}\" gives the time of one round, and one is planned. Write the time in all");
                self.doubts.push((paragraph.at.clone(), text));
            }
            _ => {}
        }
        read
    }

    /// What was heated for nothing that the method says.
    pub(super) fn tell_what_stands_empty(&mut self, paragraphs: &[Paragraph]) {
        let (Some(On::Kind(kind)), Some(first)) = (self.whereabouts.spare(), paragraphs.first()) else { return };
        if self.made.iter().any(|made| made.waits_on_heat) {
            let kind = kind.name();
            let text = format!("the method heats the {kind}, and no step is read as in it; write \"in the {kind}\" where one is");
            self.doubts.push((first.at.clone(), text));
        }
    }
}
