//! What a household is told of a use that no session serves: the cause and what would mend it. It must not know how a session is found.

use jiff::civil::Date;

use crate::foods::Place;
use crate::kitchen::{Mistake, Recipe};
use crate::measure::Days;
use crate::plan::uses::Pending;
use crate::words::counted;

/// No session is ready in time.
pub(super) fn nothing_serves(recipe: &Recipe, use_: &Pending) -> Mistake {
    // What is cooked already serves only those who eat the dish as it is.
    let apart =
        use_.apart.first().map(|apart| format!("; what is cooked already cannot be made fit for {}", apart.who)).unwrap_or_default();
    Mistake {
        at: use_.spot.clone(),
        cause: format!("no session is ready before {} ({}) to make {}{apart}", use_.label, use_.at.date(), recipe.name),
        remedy: format!(
            "Plan a session before it, with a finish_by no later than the meal, or write made = \"at the meal\" in {}.",
            recipe.at.file
        ),
    }
}

/// The latest session that is ready in time lies too long before it.
pub(super) fn nothing_reaches(recipe: &Recipe, use_: &Pending, made_on: Date) -> Mistake {
    let days = |days: Days| counted(days.0 as usize, "day");
    let wait = made_on.until(use_.at.date()).map_or(0, |span| span.get_days() as usize);
    let freezer = recipe.freezer.map_or("no days in the freezer".to_owned(), |known| format!("{} in the freezer", days(known)));
    let (reach, place) = recipe.reach();
    let place = if place == Place::Cupboard { "cupboard" } else { "fridge" };
    Mistake {
        at: use_.spot.clone(),
        cause: format!(
            "{} for {} ({}) would be made {} before it, on {made_on}, but keeps {} in the {place} and {freezer}",
            recipe.name,
            use_.label,
            use_.at.date(),
            counted(wait, "day"),
            days(reach),
        ),
        remedy: format!(
            "Plan a session nearer to the meal, or say how long it keeps, as keeps = {{ fridge = \"3 days\", freezer = \"2 months\" }}, in {}.",
            recipe.at.file
        ),
    }
}
