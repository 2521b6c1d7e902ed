//! One thing that is done in a session, as typed data: by whom, when, on what, with its small print. It must not know the session around it.

use jiff::civil::DateTime;

use super::beside::BoxNote;
use crate::foods::Place;
use crate::kitchen::{ApplianceId, RecipeId, Ware};
use crate::measure::{Celsius, Minutes, Number, Quantity};

/// The index of somebody in [`SessionPlan::people`](super::SessionPlan::people).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PersonId(pub usize);

#[derive(Debug, Clone, PartialEq)]
pub struct Task {
    pub what: Doing,
    /// Minutes from the session's start.
    pub start_minute: i64,
    pub hands_minutes: i64,
    pub out_minutes: i64,
    pub end_minute: i64,
    pub person: Option<PersonId>,
    pub out_person: Option<PersonId>,
    /// All that it holds; the first is the one that is set and loaded.
    pub on: Vec<ApplianceId>,
    /// The room that it takes of its appliances.
    pub takes: Option<u32>,
    pub at: Option<Celsius>,
    pub notes: Vec<Note>,
    /// Places in `tasks` of what must be done before it can start.
    pub after: Vec<usize>,
}

#[derive(Debug, Clone, PartialEq)]
pub enum Doing {
    /// Its appliance is brought to its temperature.
    Set,
    Step(StepTask),
    Box(BoxTask),
    Aside(AsideTask),
    /// Once, at the end of the session.
    WashUp,
}

/// One round of a step; step and round count from 0.
#[derive(Debug, Clone, PartialEq)]
pub struct StepTask {
    pub recipe: RecipeId,
    pub step: usize,
    pub round: usize,
    pub rounds: usize,
    /// The recipe's own words with the amounts of this making and round.
    pub text: String,
    /// Of several rounds, how much of it goes into this one.
    pub part: Option<PartOf>,
    /// The word with which the recipe begins it, "Roast"; empty where it begins with a food.
    pub verb: String,
    /// What it is the first to handle, each with its share of what the session takes of that.
    pub uses: Vec<(Ware, f64)>,
}

/// One round's share of a step.
#[derive(Debug, Clone, PartialEq)]
pub struct PartOf {
    pub share: Number,
    /// How many pieces of how many, where the recipe makes so many and they are there by then.
    pub pieces: Option<(Number, Number)>,
    /// What lies on the board for it before the step, so far as it can be weighed.
    pub there: Option<There>,
}

/// What is parted into rounds: without what the step itself adds.
#[derive(Debug, Clone, PartialEq)]
pub struct There {
    /// Of this round.
    pub weight: Quantity,
    /// "pearl barley", where it is one thing alone.
    pub what: Option<String>,
    /// It was weighed before it was soaked or cooked.
    pub is_changed: bool,
}

#[derive(Debug, Clone, PartialEq)]
pub struct BoxTask {
    pub recipe: RecipeId,
    /// What goes where, each place once.
    pub into: Vec<Kept>,
    /// The minute by which what was hot must be cold; `None` where nothing was.
    pub by: Option<i64>,
    /// What has stood out too long by now is not boxed any more.
    pub stood: Option<Stood>,
}

/// How long something has stood since it left the heat, and the most that is safe; in minutes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stood {
    pub minutes: i64,
    pub limit: i64,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Kept {
    pub amount: Quantity,
    pub place: Place,
}

/// What is taken out for one eater before something goes in that this eater does not get.
#[derive(Debug, Clone, PartialEq)]
pub struct AsideTask {
    pub recipe: RecipeId,
    pub eater: String,
    pub amount: Quantity,
    pub without: Vec<Ware>,
    /// What goes into the rest later, of which it is due its part; true where that part is set aside for it, of a component.
    pub later: Vec<(Ware, bool)>,
    /// Where it goes into the cold by itself, for the rest is cooked on: into which boxes, or where it waits for its meal.
    pub chilled: Option<BoxTask>,
    /// Of what is chilled so: it is eaten at the session's own meal, and heated for that.
    pub eaten_at_once: bool,
}

impl AsideTask {
    /// Does it fill this box?
    pub fn fills(&self, note: &BoxNote) -> bool {
        self.chilled.is_some() && self.recipe == note.recipe && note.eater.as_ref() == Some(&self.eater) && self.without == note.without
    }
}

impl Task {
    /// What it puts into boxes or into the cold: a boxing, or a portion that is chilled by itself.
    pub fn boxing(&self) -> Option<&BoxTask> {
        match &self.what {
            Doing::Box(boxing) => Some(boxing),
            Doing::Aside(aside) => aside.chilled.as_ref(),
            Doing::Set | Doing::Step(_) | Doing::WashUp => None,
        }
    }

    pub fn recipe(&self) -> Option<RecipeId> {
        match &self.what {
            Doing::Set | Doing::WashUp => None,
            Doing::Step(step) => Some(step.recipe),
            Doing::Box(boxing) => Some(boxing.recipe),
            Doing::Aside(aside) => Some(aside.recipe),
        }
    }

    pub fn step(&self) -> Option<&StepTask> {
        if let Doing::Step(step) = &self.what { Some(step) } else { None }
    }

    pub fn is_set(&self) -> bool {
        self.what == Doing::Set
    }

    pub fn is_box(&self) -> bool {
        matches!(self.what, Doing::Box(_))
    }

    /// When its hands or its wait end and what it holds is taken out.
    pub fn out_minute(&self) -> i64 {
        self.end_minute - self.out_minutes
    }
}

/// Small print of a step.
#[derive(Debug, Clone, PartialEq)]
pub enum Note {
    /// What a line says after its comma that is no cut: "drained".
    Prepared { what: String, how: String },
    /// It is done when the inside is so hot.
    Inside(Celsius),
    /// Hands, board and knife are washed after raw food.
    Wash,
    /// How full a pressure cooker may be, and how full with foods that swell.
    Fill { cooker: ApplianceId, most: Quantity, swelling: Quantity },
    /// So much of its wait is for coming up to pressure.
    ComesUp(Minutes),
    /// It brings what an eater is allergic to, whose food has been prepared by then.
    CleanAfter { eater: String, words: Vec<String> },
    /// It brings what an eater is allergic to, whose food is still to be prepared.
    OtherTools { eater: String, words: Vec<String> },
    /// So many minutes later than the recipe allows.
    Late(i64),
    /// It goes to the table at that time.
    ServeAt(DateTime),
    /// So much of it is not boxed: it goes into a dish that is still to be made.
    KeepBack { amount: Quantity, dish: RecipeId },
    /// It is kept hot for meals, the last of them at that time.
    KeepHot(DateTime),
}
