//! What is heated before a dish that is made at a meal can go into it: ovens, each before the step that leaves it time to come up.

use crate::kitchen::{ApplianceId, Kitchen, Piece, Step};
use crate::measure::Celsius;
use crate::plan::{Making, hands_for};

/// An appliance that is set to a temperature.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Heating {
    /// The step before which it is set; the first where the steps leave it too little time.
    pub before: usize,
    pub appliance: ApplianceId,
    pub to: Celsius,
    /// Minutes until it is hot, where the steps before leave less.
    pub waited: i64,
}

/// Each appliance that all loads share one temperature of, once: for its first step with a temperature. None where a step says it itself.
pub(super) fn heatings(kitchen: &Kitchen, making: &Making) -> Vec<Heating> {
    let steps = &kitchen.recipes[making.recipe].steps;
    let takes = |step: &Step| hands_for(step, making.batches.to_f64(), kitchen.rules.pace) + step.waits(&kitchen.appliances);
    let mut all: Vec<Heating> = Vec::new();
    for (number, step) in steps.iter().enumerate() {
        let Some(to) = step.temperature else { continue };
        let heated = step.on.iter().filter(|on| kitchen.appliances[**on].heat && kitchen.appliances[**on].warm_up.0 > 0);
        for &appliance in heated {
            let is_known = all.iter().any(|one| one.appliance == appliance);
            if is_known || steps[..number].iter().any(|earlier| earlier.on.is_empty() && says_to_heat(earlier)) {
                continue;
            }
            let minutes = kitchen.appliances[appliance].warm_up.0;
            let leaves_time = |from: &usize| steps[*from..number].iter().map(takes).sum::<i64>() >= minutes;
            let in_time = (0..number).rev().find(leaves_time);
            all.push(Heating { before: in_time.unwrap_or(0), appliance, to, waited: if in_time.is_some() { 0 } else { minutes } });
        }
    }
    all
}

/// "Heat the oven", "Preheat the oven to 200 °C".
fn says_to_heat(step: &Step) -> bool {
    let words = step.text.iter().map(|piece| if let Piece::Words(words) = piece { words.to_lowercase() } else { String::new() });
    words.into_iter().any(|words| ["heat the ", "preheat"].iter().any(|said| words.contains(said)))
}
