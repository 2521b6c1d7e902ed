//! What only the ingredient lines say is soaked: "250 g dried beans, soaked overnight".
//!
//! Where no sentence of the method soaks anything, it is a step of its own before all others, of the time that the line gives: a night or hours
//! are spent ahead of the session. A line that gives no time is told.

use super::super::Paragraph;
use super::super::clock::times;
use super::super::gather::Gather;
use super::super::rates::LONG_WAIT;
use crate::kitchen::words::Words;
use crate::measure::Minutes;
use crate::words::plural;

/// What a method says of soaking.
const SOAKS: [&str; 6] = ["soak", "soaking", "soaked", "steep", "overnight", "rehydrate"];

impl Gather<'_, '_> {
    /// Puts what the lines say is soaked in front.
    pub(in super::super) fn soak_beforehand(&mut self, paragraphs: &[Paragraph]) {
        let soaks = |paragraph: &Paragraph| {
            let w = Words::of(&paragraph.text);
            (0..w.len()).any(|at| SOAKS.iter().any(|word| w.is(at, word)))
        };
        if self.made.is_empty() || paragraphs.iter().any(soaks) {
            return;
        }
        for food in (0..self.setting.ingredients.len()).rev() {
            let line = &self.setting.ingredients[food];
            let w = Words::of(&line.text);
            let Some(at) = (0..w.len()).find(|at| w.is(*at, "soaked")) else { continue };
            let Some(known) = self.food_of(food) else { continue };
            let name = &self.setting.foods[known].name;
            let several = Some(plural(name)).filter(|several| line.text.to_lowercase().contains(several.as_str()));
            let name = several.as_ref().unwrap_or(name);
            let Some(time) = times(&w, at, w.len()).first().copied() else {
                let text = format!("\"{}\" does not say how long, and no step soaks it; write it: \"soaked overnight\"", line.text);
                self.tell(line.at.clone(), text);
                continue;
            };
            let minutes = Minutes(time.high.ceil() as i64);
            let ahead = time.high >= LONG_WAIT;
            self.begin_with(0, format!("Soak the {name}{}.", if time.overnight { " overnight" } else { "" }));
            let step = &mut self.made[0].step;
            (step.hands, step.estimated.hands) = (Minutes(1), true);
            if ahead { step.ahead = Some(minutes) } else { step.wait = minutes }
        }
    }
}
