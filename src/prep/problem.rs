//! What the scheduler is asked and what it answers: plain numbers, minutes from the session's start.
//!
//! Nothing here knows a recipe, a food or a file; a job shop of a textbook is a [`Problem`] as well as a Sunday afternoon.

/// The question.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Problem {
    pub people: Vec<Worker>,
    pub machines: Vec<Machine>,
    pub jobs: Vec<Job>,
    pub links: Vec<Link>,
    pub aim: Aim,
    /// The minute from which on is planned: no job without [`Job::fixed`] starts before it. 0 but for a session that is under way.
    pub now: i64,
}

/// What is best among the plans that break no more limits than they must. After what is said here, both go on with the fewest hand-overs,
/// the most hands-on minutes of helpers and the fewest turns.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Aim {
    /// The least finish, then the fewest idle minutes.
    #[default]
    Soonest,
    /// The fewest idle minutes of the plans that finish by minute `by`; where there is none, of those that finish first.
    Calm { by: i64 },
}

/// A pair of hands, present from `from` to `until`. Nothing is done by them before `from`; `until` is overrun, by the fewest minutes, where
/// no plan keeps it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Worker {
    pub from: i64,
    pub until: Option<i64>,
    /// Here to help: of plans otherwise equal, the one with most hands-on minutes of helpers is best.
    pub helper: bool,
}

/// An appliance.
#[derive(Debug, Clone, PartialEq)]
pub struct Machine {
    pub room: i64,
    pub heat: Option<Heat>,
    /// Whether it runs, and warms up, only while somebody is present.
    pub watched: bool,
}

impl Default for Machine {
    /// Room for one load, and watched.
    fn default() -> Machine {
        Machine { room: 1, heat: None, watched: true }
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct Heat {
    /// Kelvin between the highest and the lowest of one run.
    pub near: f64,
    /// Minutes, unattended, before a run.
    pub warm_up: i64,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum JobKind {
    #[default]
    Step,
    Box,
}

/// One round of one step: hands, then wait, then out. All machines are held throughout; a person for hands and for out.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Job {
    pub kind: JobKind,
    /// Jobs of one making share this number: minutes between them are idle minutes to be kept low.
    pub making: usize,
    pub hands: i64,
    pub wait: i64,
    pub out: i64,
    /// (machine, room taken).
    pub machines: Vec<(usize, i64)>,
    /// Degrees Celsius it wants of its machines with heat.
    pub temperature: Option<f64>,
    /// Who may do its hands and its out: who has every skill it needs.
    pub people: Vec<usize>,
    /// The minute at which what it makes is served: it ends by then, and at most `hold` before.
    pub serve: Option<Serve>,
    /// Its end does not count to the finish.
    pub uncounted: bool,
    /// Done already, or under way: it stands where it stands.
    pub fixed: Option<Fixed>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Serve {
    pub at: i64,
    pub hold: i64,
}

/// Where a job stands that was begun before [`Problem::now`].
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Fixed {
    pub start: i64,
    /// Who does, or did, its hands; `None` where it does not matter, or it has none.
    pub person: Option<usize>,
    /// Who takes, or took, it out; `None` where that is still open.
    pub out_person: Option<usize>,
    /// What its machine with heat stands at.
    pub set_to: Option<f64>,
}

impl Job {
    pub fn minutes(&self) -> i64 {
        self.hands + self.wait + self.out
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LinkWhy {
    /// One step after another, with its gap.
    Order,
    /// `within` of a recipe: may be overrun where no plan holds every rule.
    Within,
    /// Boxed within two hours of leaving the heat: overrun last of all. Its `gap` (cooling before the box) is always kept.
    Safety,
}

/// `after` starts at least `gap` after the end of `before`, and at most `within` after it. That it starts after that end is always kept.
#[derive(Debug, Clone, PartialEq)]
pub struct Link {
    pub before: usize,
    pub after: usize,
    pub gap: i64,
    pub within: Option<i64>,
    pub why: LinkWhy,
}

/// The answer.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Schedule {
    /// One a job, in the jobs' order.
    pub placed: Vec<Placed>,
    pub settings: Vec<Setting>,
    /// Minutes from the session's start to the last end of anything.
    pub finish: i64,
    /// No plan is shorter than this.
    pub bound: i64,
    /// `bound == finish`.
    pub proven: bool,
    /// Links whose `within` is overrun because no plan holds every rule: (index of link, minutes over).
    pub overrun: Vec<(usize, i64)>,
    /// Links that leave less than their `gap`: (index of link, minutes too few).
    pub hurried: Vec<(usize, i64)>,
    /// Who stays longer than `until`: (person, minutes).
    pub stays: Vec<(usize, i64)>,
    /// Jobs that end earlier than their `hold` allows, or after they are served: (job, minutes).
    pub unheld: Vec<(usize, i64)>,
    /// Where any of these four, or a safety limit, is broken: whether it is proven that no plan keeps every limit. Without a proof, none
    /// was found.
    pub none_keeps_all: bool,
    /// Where no plan holds every rule: a smallest set of limits that cannot all be kept together.
    pub clash: Vec<Limit>,
    /// Whether those could be kept if everybody were there all the time.
    pub clash_with_hours: bool,
    /// Rules that no plan at all could keep, not even by overrunning a recipe's `within`; the plan given breaks them.
    pub impossible: Vec<Impossible>,
}

/// What a plan may break where none keeps them all; the gravest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Limit {
    /// The `within` of a link of safety.
    Safety { link: usize },
    /// Somebody stays longer than `until`.
    Until { person: usize },
    /// The `within` of a link of a recipe.
    Within { link: usize },
    /// The `gap` of a link of a recipe.
    Gap { link: usize },
    /// What is served ends too early, or too late.
    Hold { job: usize },
}

/// A rule that had to be broken for there to be a plan at all.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Impossible {
    /// Nobody may do the job's hands or its out; it was planned as if it needed no one.
    Nobody { job: usize },
    /// It takes more room than the machine has; it was planned as if it filled the machine.
    Room { job: usize, machine: usize },
    /// It runs while nobody is there, because there is nobody at all.
    Absent { job: usize },
    /// A warm-up runs while nobody is there: (index of setting).
    Unwatched { setting: usize },
    /// A safety limit is overrun by so many minutes.
    Safety { link: usize, minutes: i64 },
    /// The link closes a circle of steps that wait for one another; it was left out.
    Circle { link: usize },
}

#[derive(Debug, Clone, PartialEq)]
pub struct Placed {
    pub start: i64,
    /// `None` where the job has no hands.
    pub person: Option<usize>,
    /// `None` where the job has no out.
    pub out_person: Option<usize>,
    /// What its machine with heat is set to.
    pub set_to: Option<f64>,
}

/// A machine brought to a temperature: warm-up from `start` to `ready`.
#[derive(Debug, Clone, PartialEq)]
pub struct Setting {
    pub machine: usize,
    pub celsius: f64,
    pub start: i64,
    pub ready: i64,
}
