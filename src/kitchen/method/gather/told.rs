//! What a method leaves open, told at its line.

use super::{Draft, Gather};
use crate::kitchen::Spot;
use crate::kitchen::method::Paragraph;
use crate::kitchen::method::act::{Act, On, Round, Takes};
use crate::kitchen::method::clauses::Clause;
use crate::kitchen::method::clock::{Time, after_so_long, times, unread};
use crate::kitchen::method::places::Kind;
use crate::kitchen::words::Words;
use crate::measure::Kind as Sign;

/// "T190": the dial of an oven.
fn is_dial(word: &str) -> bool {
    word.strip_prefix(['T', 't', 'F', 'C']).is_some_and(|figure| figure.len() >= 2 && figure.chars().all(|letter| letter.is_ascii_digit()))
}

/// "To 180 °C for the chicken and 200 °C for the potatoes".
fn heats_for_two(w: &Words, clause: &Clause) -> bool {
    let degrees = |at: usize| w.kind(at) == Some(Sign::Number) || ["c", "f", "mark", "gas", "degrees"].iter().any(|word| w.is(at, word));
    let each = |at: &usize| w.is(*at, "for") && times(w, *at, clause.end.min(at + 3)).is_empty() && *at > 1 && (at - 2..*at).any(degrees);
    (clause.verb_end..clause.end).filter(each).count() > 1
}

fn is_soak(w: &Words, at: usize) -> bool {
    ["soak", "marinate", "prove", "rise", "chill", "steep"].iter().any(|word| w.is(at, word))
}

/// "Next day", "the following day": where that begins in a clause.
fn other_day(w: &Words, clause: &Clause) -> Option<usize> {
    let day = |at: usize| w.is(at, "day") || w.is(at, "morning");
    (clause.start..clause.end).find(|at| (w.is(*at, "next") || w.is(*at, "following")) && day(at + 1))
}

/// "Divide into 6", "shape into 8 balls", "roll out into 8 rounds".
pub(super) fn shaped(w: &Words, clause: &Clause) -> Option<f64> {
    const SHAPES: [&str; 8] = ["divide", "shape", "form", "roll", "cut", "make", "mould", "split"];
    let verb = clause.verb.filter(|verb| SHAPES.contains(&verb.word))?;
    (clause.verb_end..clause.end).find_map(|at| {
        let makes = verb.word == "make" && at == clause.verb_end;
        let from = if makes { at } else { at + 1 };
        let read = w.number(from).ok().flatten().filter(|_| makes || w.is(at, "into"))?;
        let measured = w.unit(read.end).is_some() || w.is(read.end, "cm") || w.is(read.end, "mm") || w.is_hyphen(read.end);
        Some(read.number.high.to_f64()).filter(|count| !measured && count.fract() == 0.0 && *count > 1.0)
    })
}

impl Gather<'_, '_> {
    pub(in super::super) fn tell(&mut self, at: Spot, text: String) {
        self.doubts.push((at, text));
    }

    pub(super) fn doubt(&mut self, w: &Words, clause: &Clause, read: &Act, paragraph: &Paragraph) {
        let words = w.text(clause.start..clause.end);
        if clause.is_forbidden(w) {
            if read.time.is_some() {
                let text = format!("\"{words}\" says what is not done; its time is not planned");
                self.doubts.push((paragraph.at.clone(), text));
            }
            return;
        }
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
        if let (true, Some(On::Kind(kind))) = (read.moved, read.need) {
            let kind = kind.name();
            let text =
                format!("\"{words}\" is planned in the {kind}, which was heated and which nothing else uses; write where it happens");
            self.doubts.push((paragraph.at.clone(), text));
        }
        if let Some((from, to)) = read.other {
            let name = w.text(from..to).trim_start_matches("in the ").trim_start_matches("in a ").trim_end_matches(" at");
            let text = format!("there is no {name} in kitchen.toml; the step stands without. Add [[appliance]] with name = \"{name}\"");
            self.doubts.push((paragraph.at.clone(), text));
        }
        if read.time.is_some_and(|time| time.by_weight) {
            let text = format!("\"{words}\" gives a time by weight, of which one part is planned. Write the time in all");
            self.doubts.push((paragraph.at.clone(), text));
        }
        let planned = matches!(read.takes, Takes::Hands(Some(_)) | Takes::Wait { .. } | Takes::Release { .. });
        if let (Some(at), true) = (read.another_way, planned) {
            let (first, other) = (w.text(clause.start..at), w.text(at..clause.end));
            let text = format!("\"{first}\" is planned; \"{other}\" is another way to do it, and stays in the words");
            self.doubts.push((paragraph.at.clone(), text));
        }
        if read.doubtful && planned && read.another_way.is_none() && read.time.is_none_or(|time| !time.by_weight) {
            self.doubts.push((paragraph.at.clone(), format!("\"{words}\" gives several times; the longest is planned")));
        }
        if read.conditional && planned {
            let text = format!("\"{words}\" is done only where that is so; its time is planned");
            self.doubts.push((paragraph.at.clone(), text));
        }
        if read.takes == Takes::Preheat && heats_for_two(w, clause) {
            let text = format!("\"{words}\" gives two temperatures, and one oven has one; write each beside what bakes at it");
            self.doubts.push((paragraph.at.clone(), text));
        }
        if read.assumed {
            let text = format!("\"{words}\" is planned in the oven, as cool as it may be by then, so that nothing bakes in it meanwhile");
            self.doubts.push((paragraph.at.clone(), text));
        }
        if read.covered && planned {
            let text = format!("\"{words}\" is planned as hands, because what is fried is not left; under a lid, \"cook\" would be a wait");
            self.doubts.push((paragraph.at.clone(), text));
        }
        // "Serve with the rice, boiled for 15 minutes": nobody boils it.
        let served = read.takes == Takes::Serve && clause.verb.is_some_and(|verb| verb.word == "serve");
        if served && read.time.is_some_and(|time| !time.day_before && !time.overnight && time.high < 1440.0) {
            self.doubts.push((paragraph.at.clone(), format!("\"{words}\" gives a time that is not planned; it stays in the words")));
        }
        // The day before is no wait of its own, and what is done at the table takes no time here.
        if read.time.is_some_and(|time| !time.day_before && !time.overnight) && !planned && read.takes != Takes::Serve {
            self.doubts.push((paragraph.at.clone(), format!("\"{words}\" gives a time that is not planned; it stays in the words")));
        }
    }

    /// What nothing above takes up: a figure of time or of heat, a night, another day. Told, so that none is lost without a word.
    pub(super) fn tell_figures(&mut self, w: &Words, clause: &Clause, read: &Act, draft: &Draft, paragraph: &Paragraph) {
        if clause.supposed || read.left_out || matches!(read.takes, Takes::Serve) {
            return;
        }
        let words = w.text(clause.start..clause.end).trim_start_matches([',', ';', ':', ' ']);
        let front = times(w, clause.start, clause.verb_at);
        let is_taken = |time: &Time| time.day_before || time.overnight || read.time.is_some_and(|taken| taken.start == time.start);
        let lost = front.iter().filter(|time| clause.verb.is_some() && !is_taken(time)).map(|time| (time.start, time.end));
        let mut told: Vec<String> = lost
            .chain(unread(w, clause.start, clause.end))
            .map(|(from, to)| format!("\"{}\" in \"{words}\" is a time that is not planned; it stays in the words", w.text(from..to)))
            .collect();
        if let Some(time) =
            after_so_long(w, clause.start, clause.end).filter(|time| !self.has_waited(time.high) && draft.wait + 0.5 < time.high)
        {
            told.push(format!("\"{}\" in \"{words}\" is a time that is not planned; it stays in the words", w.text(time.start..time.end)));
        }
        // "Rest 5.": a number and no unit.
        let last = clause.end.checked_sub(1).filter(|last| *last == clause.verb_end && read.time.is_none() && clause.verb.is_some());
        if last.is_some_and(|last| w.at(last).is_some_and(|token| token.is_number())) {
            told.push(format!("\"{words}\" does not say of what the number is; write the unit: \"5 minutes\""));
        }
        let waits = matches!(read.takes, Takes::Wait { .. });
        // "For a minute less than the packet says."
        let packet = |at: usize| ["packet", "package", "pack", "instruction", "box", "label", "bag"].contains(&w.key_at(at));
        let by_packet = (clause.verb_end..clause.end).any(|at| w.is(at, "than")) && (clause.verb_end..clause.end).any(packet);
        if let (Takes::Wait { minutes, .. }, true, None) = (read.takes, by_packet, read.time) {
            told.push(format!("\"{words}\" gives a time by the packet; {minutes} minutes are planned. Write the minutes"));
        }
        // "Boil for 6 minutes (soft) or 10 (hard)": the first is planned.
        let longer = |time: &&Time| time.or && read.time.is_some_and(|first| time.high > first.high) && !time.overnight;
        let choice = times(w, clause.verb_end, clause.end);
        if let (true, Some(longest)) = (waits && read.need.is_some() && !read.doubtful, choice.iter().rfind(longer)) {
            let longest = w.text(longest.start..longest.end);
            told.push(format!("\"{words}\" leaves a choice; the first time is planned, and \"{longest}\" is longer"));
        }
        if let Some(text) = self.lost_heat(w, clause, read) {
            told.push(text);
        }
        if clause.verb.is_some_and(|verb| verb.word == "repeat") && !self.is_counted_already(w, clause) {
            told.push(format!("\"{words}\" is not planned: the time before it is of one round. Write the time in all"));
        }
        // "Mix the night before", "in the evening": when, and nothing of how long.
        let night = read.time.is_some_and(|time| time.overnight);
        if night && !waits && matches!(read.takes, Takes::Hands(_) | Takes::Words) && !self.is_left_to_stand(w, clause) {
            told.push(format!("\"{words}\" is of the day before; how long it stands is not said. Write it: \"chill overnight\""));
        }
        if matches!(read.takes, Takes::Hands(None)) && (clause.verb_end..clause.end).any(|at| w.is(at, "to") && is_soak(w, at + 1)) {
            told.push(format!("\"{words}\" does not say how long; write it: \"soak overnight\""));
        }
        // Where a night lies before it, the session is the next morning.
        let after_a_night = self.made.iter().any(|made| made.is_long()) || draft.is_long();
        if let Some(at) = other_day(w, clause).filter(|_| !after_a_night) {
            let day = w.text(at..at + 2);
            told.push(format!(
                "\"{words}\" is of another day (\"{day}\"), and is planned in the same session; make it a recipe of its own"
            ));
        }
        self.doubts.extend(told.into_iter().map(|text| (paragraph.at.clone(), text)));
    }

    /// Does something in the paragraph stand from then on: "the night before, cover the beans and leave them to soak"?
    fn is_left_to_stand(&self, w: &Words, clause: &Clause) -> bool {
        const STANDS: [&str; 11] =
            ["soak", "chill", "refrigerate", "marinate", "prove", "rise", "overnight", "steep", "thaw", "fridge", "refrigerator"];
        (clause.start..w.len()).any(|at| STANDS.iter().any(|word| w.is(at, word)))
    }

    /// Is there a step that took so long?
    fn has_waited(&self, minutes: f64) -> bool {
        self.made.iter().any(|made| (made.step.wait.0 + made.step.hands.0) as f64 + 0.5 >= minutes)
    }

    /// "Repeat with the other side" is no round.
    fn is_counted_already(&self, w: &Words, clause: &Clause) -> bool {
        (clause.verb_end..clause.end).any(|at| w.is(at, "side") || w.is(at, "sides"))
    }

    /// Degrees that no step takes, or that are said in a way that is not understood.
    fn lost_heat(&self, w: &Words, clause: &Clause, read: &Act) -> Option<String> {
        // Degrees of what is heated on the hob stay in the words.
        const LIQUIDS: [&str; 16] = [
            "oil",
            "fat",
            "milk",
            "water",
            "syrup",
            "sugar",
            "jam",
            "cream",
            "custard",
            "chocolate",
            "caramel",
            "stock",
            "thermometer",
            "yoghurt",
            "yogurt",
            "liquid",
        ];
        const SAID: [&str; 6] = ["degrees", "degree", "thermostat", "gm", "regulo", "centigrade"];
        const UTMOST: [&str; 4] = ["highest", "hottest", "maximum", "max"];
        let says = |words: &[&str]| (clause.start..clause.end).any(|at| words.iter().any(|word| w.is(at, word)));
        let words = w.text(clause.start..clause.end).trim_start_matches([',', ';', ':', ' ']);
        let oven = Some(On::Kind(Kind::Oven));
        let of_oven = read.sets || says(&["oven"]) || read.place == Some(oven) || read.need == oven || read.takes == Takes::Preheat;
        if read.heat.oven.is_some() && !of_oven && !says(&LIQUIDS) {
            return Some(format!("\"{words}\" gives a temperature that no step takes; it stays in the words"));
        }
        // "T190", "no. 5".
        let figure = |at: usize| w.kind(at) == Some(Sign::Number);
        let numbered = |at: usize| w.is(at, "no") && (figure(at + 1) || w.kind(at + 1) == Some(Sign::Stop) && figure(at + 2));
        let dial = |at: usize| w.at(at).is_some_and(|token| is_dial(token.text)) || numbered(at);
        let unclear = says(&SAID) || of_oven && ((clause.start..clause.end).any(dial) || says(&UTMOST) && !says(&["shelf", "heat"]));
        // "Turn the oven down a little", "by 20 °C" where nothing was said before.
        let turned = clause.verb.is_some_and(|verb| matches!(verb.word, "turn" | "reduce" | "lower" | "raise" | "increase" | "decrease"));
        let little = turned
            && self.so.oven.is_some()
            && (read.place.flatten() == oven || self.so.place == oven || says(&["oven"]))
            && !read.off
            && says(&["oven", "temperature", "heat", "little", "slightly", "down", "bit"])
            && !says(&["side", "over", "out"]);
        let unclear = unclear || read.heat.by.is_some() || little;
        let none = read.heat.oven.is_none() && read.heat.inside.is_none() && read.other.is_none();
        (none && unclear && !says(&LIQUIDS))
            .then(|| format!("\"{words}\" says how hot in a way that is not understood; write degrees, such as 180 °C"))
    }

    /// "Fry 4 at a time, 5 minutes a side": where it is known how many there are, the rounds are planned; else one is, and told.
    pub(super) fn in_rounds(&mut self, w: &Words, clause: &Clause, mut read: Act, draft: &Draft, paragraph: &Paragraph) -> Act {
        let Some((round, time)) = read.round.zip(read.time) else { return read };
        let named: Vec<usize> = self.larder.mentions(w, clause.start, clause.end).into_iter().flat_map(|mention| mention.foods).collect();
        let foods = [named, self.last_foods.clone(), draft.foods.clone()].into_iter().find(|foods| !foods.is_empty()).unwrap_or_default();
        let count = foods
            .iter()
            .find_map(|food| self.larder.counted_pieces(*food))
            .or(self.shaped.filter(|_| read.need == Some(On::Kind(Kind::Hob))));
        let rounds = match round {
            Round::AtOnce(at_once) => count.map(|count| (count / at_once).ceil()),
            Round::Rounds(rounds) => Some(rounds),
            Round::Uncounted => None,
        };
        let rounds = rounds.filter(|rounds| *rounds >= 1.0);
        let words = w.text(clause.start..clause.end).trim_start_matches([',', ';', ':', ' ']);
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
        if self.made.iter().any(|made| made.heated) {
            let kind = kind.name();
            let text = format!("the method heats the {kind}, and no step is read as in it; write \"in the {kind}\" where one is");
            self.doubts.push((first.at.clone(), text));
        }
    }
}
