//! The prep plan as plain data, in the shape of its JSON.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use crate::foods::Place;
use crate::measure::Quantity;

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PrepPlan {
    pub week: String,
    pub sessions: Vec<SessionPlan>,
    pub before: Vec<Before>,
    pub moves: Vec<Before>,
}

impl PrepPlan {
    /// What is to be done ahead of one session: after the start of the session before it, or from the beginning.
    pub fn before_session(&self, index: usize) -> Vec<Before> {
        // Written alike, from the year down, dates and times sort as text.
        let start = |index: usize| self.sessions.get(index).map_or("", |session| session.start.as_str());
        let after = index.checked_sub(1).map_or("", start);
        self.before.iter().filter(|note| note.at.as_str() > after && note.at.as_str() <= start(index)).cloned().collect()
    }
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SessionPlan {
    /// `2026-11-29T14:00`.
    pub start: String,
    pub finish: String,
    pub minutes: i64,
    pub bound_minutes: i64,
    pub proven: bool,
    pub batches: Vec<Batch>,
    /// By the clock.
    pub tasks: Vec<Task>,
    pub fetch: Vec<Fetch>,
    pub cuts: Vec<Cut>,
    pub boxes: Vec<BoxNote>,
    pub cautions: Vec<String>,
    pub advice: Vec<String>,
    /// Print only: "cook; Jo (helper), 15:00 to 16:00".
    #[serde(skip)]
    pub people: Vec<String>,
    /// Print only: `17:30`.
    #[serde(skip)]
    pub finish_by: Option<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Batch {
    pub recipe: String,
    pub batches: f64,
    pub makes: Quantity,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum TaskKind {
    /// An appliance brought to a temperature.
    Set,
    Step,
    Box,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Task {
    pub kind: TaskKind,
    pub recipe: Option<String>,
    /// Counted from 1.
    pub step: Option<u32>,
    pub round: Option<u32>,
    pub start_minute: i64,
    pub hands_minutes: i64,
    pub out_minutes: i64,
    pub end_minute: i64,
    pub person: Option<String>,
    pub out_person: Option<String>,
    pub appliance: Option<String>,
    pub also: Vec<String>,
    pub takes: Option<u32>,
    pub at_celsius: Option<f64>,
    pub text: String,
    /// Print only: the recipe's name.
    #[serde(skip)]
    pub dish: Option<String>,
    /// Print only: a few words for a bar of the chart.
    #[serde(skip)]
    pub short: String,
    /// Print only: "Cook until the inside is at 74 °C (165 °F)", "Wash hands, board and knife" ...
    #[serde(skip)]
    pub notes: Vec<String>,
    /// Print only: places in `tasks` of what must be done before it can start.
    #[serde(skip)]
    pub after: Vec<usize>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Fetch {
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub food: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub recipe: Option<String>,
    pub amount: Quantity,
    /// `None` for what the trip brings and nobody has put anywhere yet.
    pub place: Option<Place>,
    /// Print only: to be looked at first.
    #[serde(skip)]
    pub look_first: bool,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Cut {
    pub food: String,
    pub amount: Quantity,
    pub cut: String,
    /// The number of the step on the guide (its place in `tasks` among those of kind "step", from 1) that uses it.
    pub step: u32,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BoxNote {
    pub recipe: String,
    pub portions: f64,
    pub place: Place,
    pub use_by: Date,
    #[serde(rename = "for")]
    pub what_for: Vec<String>,
    /// Print only: "2 flat tubs".
    #[serde(skip)]
    pub boxes: Option<String>,
    /// Print only: "milk, egg; not known: vegetable stock"; nothing where it is known to hold none of them.
    #[serde(skip)]
    pub allergens: Option<String>,
    /// Print only: what of it the household avoids: "contains sesame".
    #[serde(skip)]
    pub beware: Option<String>,
    /// Print only: grams, millilitres or pieces, where the recipe does not say what a portion of them is; `portions` is then their number.
    #[serde(skip)]
    pub amount: Option<Quantity>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Before {
    /// A date, or a date and time.
    pub at: String,
    pub text: String,
}
