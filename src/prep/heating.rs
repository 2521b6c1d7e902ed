//! What is heated before a dish that is made at a meal can go into it: ovens, each before the step that leaves it time to come up.

use crate::kitchen::{ApplianceId, Kitchen, Piece, Step};
use crate::measure::Celsius;
use crate::plan::{Making, hands_for};

/// An appliance that is set to a temperature.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Heating {
    /// The step before which it is set: of the meal's own steps the first, where they leave it too little time.
    pub before: usize,
    pub appliance: ApplianceId,
    pub to: Celsius,
    /// Minutes until it is hot, where the steps before leave less, or would have it stand hot for long: all of them, on the safe side.
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
            if is_known || steps[..=number].iter().any(|step| says_to_heat(step, kitchen, appliance)) {
                continue;
            }
            let minutes = kitchen.appliances[appliance].warm_up.0;
            let leaves_time = |from: &usize| steps[*from..number].iter().map(takes).sum::<i64>() >= minutes;
            let first = steps[..number].iter().rposition(|step| step.ahead.is_some()).map_or(0, |ahead| ahead + 1);
            let stands_hot = |from: usize| steps[from..number].iter().map(takes).sum::<i64>() > minutes + HOT_FOR_NOTHING;
            let (before, waited) = match (first..number).rev().find(leaves_time) {
                Some(from) if stands_hot(from) => (number, minutes),
                Some(from) => (from, 0),
                None => (first, minutes),
            };
            all.push(Heating { before, appliance, to, waited });
        }
    }
    all
}

/// Nobody heats an oven for so many minutes more than it takes to come up, while a dough rests: common practice, no source.
const HOT_FOR_NOTHING: i64 = 30;

/// "Heat the oven", "Preheat the oven to 200 °C", in the step that uses it or one that uses nothing.
fn says_to_heat(step: &Step, kitchen: &Kitchen, appliance: ApplianceId) -> bool {
    let heat_it = format!("heat the {}", kitchen.appliances[appliance].name.to_lowercase());
    let words = step.text.iter().map(|piece| if let Piece::Words(words) = piece { words.to_lowercase() } else { String::new() });
    let mut words = words.into_iter();
    (step.on.is_empty() || step.on.contains(&appliance)) && words.any(|words| words.contains(&heat_it) || words.contains("preheat"))
}
