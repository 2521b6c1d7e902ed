//! What there is to know of a session's plan, as plain data: which rules it breaks, who may not do what, what would help. It must not know
//! how that is found, nor the words in which it is told.

use jiff::civil::DateTime;

use super::doing::Stood;
use crate::kitchen::{ApplianceId, RecipeId};
use crate::measure::Celsius;

/// One thing to know of a session. Steps and rounds count from 0; times are in minutes unless they are moments.
#[derive(Debug, Clone, PartialEq)]
pub enum Advice {
    /// Nobody may do it.
    Nobody { step: Job },
    /// It takes more room than the appliance has.
    Room { step: Job, appliance: ApplianceId },
    /// It does not fit between the hours of the people.
    Absent { step: Job },
    /// The appliance warms up while nobody is there.
    Unwatched { appliance: Option<ApplianceId> },
    /// `job` starts `minutes` after the end of `before`; `limit` is the most that is safe.
    NotSafe { job: Job, before: Job, minutes: i64, limit: i64 },
    /// Under way, the time within which `job` was to follow `before` is over.
    StoodTooLong { job: Job, before: Job, stood: Stood },
    /// The rule closes a circle and is left out.
    Circle(Rule),
    /// `job` starts `over` too late, and should start within `limit` of `before`. Of a plan: whether it is `proven` that none keeps it;
    /// `None` where no other plan was looked for.
    TooLate { job: Job, before: Job, over: i64, limit: i64, proven: Option<bool> },
    /// `job` starts only `left` after `before`, and should leave `gap`.
    TooSoon { job: Job, before: Job, left: i64, gap: i64 },
    /// What is served straight from the pot ends after its meal, or more than `hold` minutes before.
    Served { job: Job, done: DateTime, meal: DateTime, hold: i64 },
    /// A meal is late by so many minutes; `sooner` is the start that is as much earlier, of a session that has not begun. `comes`: for whom
    /// it waits, and when they would have to come; `dishes`: of how many one could be left out.
    LateMeal { over: i64, sooner: Option<DateTime>, comes: Option<(String, DateTime)>, dishes: usize },
    /// Under way, and nothing is left to do.
    AllDone,
    /// Somebody stays past their hours, until `until`.
    Stays { person: String, minutes: i64, until: DateTime },
    /// A smallest set of rules that cannot be kept together, with `hours` not beside the hours of the people.
    Clash { rules: Vec<Rule>, hours: bool },
    /// Nobody in the session has the role or the skills, or nobody has them `together`; it is planned for anybody.
    Unfit { step: Job, role: Option<String>, skills: Vec<String>, together: bool },
    /// A calm session that keeps less than the last `wanted` minutes before `by` free.
    NotCalm { by: DateTime, wanted: i64, free: i64 },
    /// The session ends so long after `by`.
    Late { by: DateTime, over: i64 },
    /// What the session ends with.
    Ends { job: Job },
    /// What takes the most time by itself.
    Binds(Bottleneck),
    /// With the change it would end at `end`, which is `over` past the time it should: none or fewer where it is in time.
    Remedy { change: Change, end: DateTime, over: i64 },
    /// Planned anew from then on.
    Anew { from: DateTime },
    /// Another pair of hands would not make it any shorter.
    HandsGainNothing,
    /// An earlier session wants the same people and appliances at the same time.
    AtOnce { people: Vec<String>, appliances: Vec<ApplianceId>, session: DateTime },
    /// Two loads at once want an oven at two temperatures, and nothing says that it has only one.
    TwoHeats { appliance: ApplianceId, one: Celsius, other: Celsius, from: DateTime },
}

/// A round of a step, the boxing of a dish, or the washing-up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Job {
    /// `round` only where the step has several and one of them is meant.
    Step {
        recipe: RecipeId,
        step: usize,
        round: Option<usize>,
    },
    Boxing(RecipeId),
    WashUp,
}

/// A rule that a plan may have to break.
#[derive(Debug, Clone, PartialEq)]
pub enum Rule {
    /// `after` comes after `before`.
    After { after: Job, before: Job },
    /// And within so many minutes of it.
    Within { after: Job, before: Job, minutes: i64 },
    /// And at least so many minutes after it.
    Gap { after: Job, before: Job, minutes: i64 },
    /// It ends by the time at which it is served, and at most so many minutes before.
    Served { job: Job, hold: i64 },
    /// It ends by the time at which it is served.
    Done { job: Job, by: DateTime },
    /// Somebody leaves.
    Until { person: String },
}

#[derive(Debug, Clone, PartialEq)]
pub enum Bottleneck {
    /// The longest chain of steps.
    Chain {
        last: Job,
        minutes: i64,
    },
    Appliance {
        id: ApplianceId,
        minutes: i64,
    },
    Hands {
        minutes: i64,
        people: usize,
    },
}

#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    OneMorePerson,
    /// Room for one more load.
    MoreRoom(ApplianceId),
    /// A recipe made in another session.
    Moved {
        recipe: RecipeId,
        to: DateTime,
    },
    /// One dish less.
    Without(RecipeId),
}
