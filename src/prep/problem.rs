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
}

/// A pair of hands, present from `from` to `until`.
#[derive(Debug, Clone, PartialEq)]
pub struct Worker {
    pub from: i64,
    pub until: Option<i64>,
}

/// An appliance.
#[derive(Debug, Clone, PartialEq)]
pub struct Machine {
    pub room: i64,
    pub heat: Option<Heat>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Heat {
    /// Kelvin between the highest and the lowest of one run.
    pub near: f64,
    /// Minutes, unattended, before a run.
    pub warm_up: i64,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum JobKind {
    Step,
    Box,
}

/// One round of one step: hands, then wait, then out. All machines are held throughout; a person for hands and for out.
#[derive(Debug, Clone, PartialEq)]
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
    /// Who may do its hands and its out.
    pub people: Vec<usize>,
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
    /// Boxed within two hours of leaving the heat: never overrun.
    Safety,
}

/// `after` starts at least `gap` after the end of `before`, and at most `within` after it.
#[derive(Debug, Clone, PartialEq)]
pub struct Link {
    pub before: usize,
    pub after: usize,
    pub gap: i64,
    pub within: Option<i64>,
    pub why: LinkWhy,
}

/// The answer.
#[derive(Debug, Clone, PartialEq)]
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
    /// Where no plan holds every rule: a smallest set of links (by index, ascending) whose `within` cannot all be kept together.
    pub clash: Vec<usize>,
    /// Whether those could be kept if everybody were there all the time.
    pub clash_with_hours: bool,
    /// Rules that no plan at all could keep, not even by overrunning a recipe's `within`; the plan given breaks them.
    pub impossible: Vec<Impossible>,
}

/// A rule that had to be broken for there to be a plan at all.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Impossible {
    /// Nobody may do the job's hands or its out; it was planned as if it needed no one.
    Nobody { job: usize },
    /// It takes more room than the machine has; it was planned as if it filled the machine.
    Room { job: usize, machine: usize },
    /// It does not fit between the hours of those who could do it, or it runs while nobody is there.
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
