//! The prep plan as typed data: what is done when, by whom, on what; what is fetched, cut and boxed. No words but those of the household.

use jiff::Span;
use jiff::civil::{Date, DateTime};

use super::{Advice, Care, Rest};
use crate::foods::{FoodId, Place};
use crate::kitchen::{ApplianceId, Person, RecipeId, Ware, Whose};
use crate::measure::{Celsius, Number, Quantity};
use crate::plan::{Beware, Contains, ShortMeal};
use crate::words::{clock, duration, listed};

#[derive(Debug, Clone, PartialEq)]
pub struct PrepPlan {
    /// The week's name.
    pub week: String,
    pub sessions: Vec<SessionPlan>,
    /// What is done before a session or a meal, by the clock.
    pub before: Vec<Before>,
    /// Portions that go from the freezer to the fridge.
    pub moves: Vec<Before>,
    /// Meals that nothing can serve any more.
    pub short: Vec<ShortMeal>,
    /// What to take care of at the meals for whose dishes something is done before.
    pub cautions: Vec<Care>,
}

impl PrepPlan {
    /// What is to be done ahead of one session: after the start of the session before it, or from the beginning.
    pub fn before_session(&self, index: usize) -> Vec<Before> {
        let Some(until) = self.sessions.get(index).map(|session| Moment::At(session.start)) else { return Vec::new() };
        let after = index.checked_sub(1).map(|earlier| Moment::At(self.sessions[earlier].start));
        self.before.iter().filter(|note| after.is_none_or(|after| note.at > after) && note.at <= until).cloned().collect()
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct SessionPlan {
    pub start: DateTime,
    /// When it is wanted to be finished.
    pub finish_by: Option<DateTime>,
    /// When what comes straight from the pot is served, by the clock.
    pub served: Vec<DateTime>,
    pub finish: DateTime,
    pub minutes: i64,
    /// No plan is shorter than this.
    pub bound_minutes: i64,
    pub proven: bool,
    pub people: Vec<Person>,
    pub batches: Vec<Batch>,
    /// By the clock.
    pub tasks: Vec<Task>,
    pub fetch: Vec<Fetch>,
    pub cuts: Vec<Cut>,
    pub boxes: Vec<BoxNote>,
    /// What single eaters get straight from the pot without something that goes into the rest: in no box, and yet theirs alone.
    pub set_aside: Vec<Put>,
    pub cautions: Vec<Care>,
    /// The gravest first.
    pub advice: Vec<Advice>,
    /// How the plan fares with slower hands, a tenth and a fifth.
    pub slower: Vec<Slowed>,
    /// Where it was planned while it was under way.
    pub rest: Option<Rest>,
    /// How the session's lines speak of the foods that are fetched.
    pub said: Vec<Said>,
    /// What a step done ahead has taken already.
    pub begun: Vec<Begun>,
}

impl SessionPlan {
    /// The meal that the session ends with, where something is served straight from the pot, or its last step where that comes too late for
    /// it; else its finish.
    pub fn ends(&self) -> DateTime {
        let steps = self.tasks.iter().filter(|task| task.step().is_some()).map(|task| task.end_minute).max();
        let last = steps.and_then(|end| self.start.checked_add(Span::new().try_minutes(end).ok()?).ok());
        let last = last.filter(|_| !self.served.is_empty());
        self.served.iter().copied().chain([self.finish]).chain(last).max().unwrap_or(self.finish)
    }

    /// ", served at 18:30", or how much later than that.
    pub fn served_text(&self) -> String {
        let late = |one: &Advice| if let Advice::LateMeal { over, .. } = one { Some(*over) } else { None };
        let at = listed(&self.served.iter().map(|at| clock(*at)).collect::<Vec<_>>());
        match self.advice.iter().find_map(late) {
            _ if self.served.is_empty() => String::new(),
            Some(over) => format!(", for the meal at {at}, {} late", duration(over)),
            None => format!(", served at {at}"),
        }
    }

    /// Under way, with nothing left to do.
    pub fn is_done(&self) -> bool {
        self.advice.contains(&Advice::AllDone)
    }

    /// Whether work goes on after the finish, for a meal.
    pub fn ends_with_a_meal(&self) -> bool {
        self.ends() > self.finish
    }
}

/// What is fetched of a food, in a cook's words.
#[derive(Debug, Clone, PartialEq)]
pub struct Said {
    pub of: Ware,
    /// "onions", as a line names it.
    pub name: String,
    /// "5 cloves of garlic", "6 large potatoes, 1.8 kg", "2 tbsp honey", where all lines speak of it in one way.
    pub words: Option<String>,
    /// The number of pieces or cloves, by which the parts of it are told as well.
    pub counted: Option<Quantity>,
}

/// A share of what is fetched of a food that lies in its water or its bowl when the session begins.
#[derive(Debug, Clone, PartialEq)]
pub struct Begun {
    pub of: Ware,
    /// Over 0, at most 1.
    pub share: f64,
    pub since: DateTime,
}

/// The plan carried out in its own order with all hands-on times longer.
#[derive(Debug, Clone, PartialEq)]
pub struct Slowed {
    pub percent: i64,
    pub finish: DateTime,
    /// Minutes past `finish_by`, 0 where it is kept or not asked for.
    pub late: i64,
    /// Limits that break then, by all that they are overrun.
    pub breaks: Vec<Advice>,
}

impl SessionPlan {
    pub fn person(&self, id: PersonId) -> &Person {
        &self.people[id.0]
    }

    /// The mark of every task.
    pub fn marks(&self) -> Vec<Mark> {
        if let Some(rest) = self.rest.as_ref().filter(|rest| rest.marks.len() == self.tasks.len()) {
            return rest.marks.clone();
        }
        let (mut steps, mut boxes) = (0, 0);
        let mark = |task: &Task| match task.what {
            Doing::Set => Mark::None,
            Doing::Step(_) => {
                steps += 1;
                Mark::Number(steps)
            }
            Doing::Box(_) | Doing::Aside(_) | Doing::WashUp => {
                boxes += 1;
                Mark::Letter(boxes)
            }
        };
        self.tasks.iter().map(mark).collect()
    }
}

/// The index of somebody in [`SessionPlan::people`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PersonId(pub usize);

/// How chart and steps name a task: steps are counted from 1, all else is lettered from A, but setting an appliance has none.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mark {
    None,
    Number(u32),
    Letter(u32),
}

#[derive(Debug, Clone, PartialEq)]
pub struct Batch {
    pub recipe: RecipeId,
    pub batches: f64,
    pub makes: Quantity,
}

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

#[derive(Debug, Clone, PartialEq)]
pub struct Fetch {
    pub of: Ware,
    /// 0 for "to taste".
    pub amount: Quantity,
    /// `None` for what the trip brings and nobody has put anywhere yet.
    pub place: Option<Place>,
    pub look_first: bool,
    /// What the list left unbought: it comes from nowhere.
    pub is_short: bool,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Cut {
    pub food: FoodId,
    /// "onions", as its line names it.
    pub name: String,
    pub amount: Quantity,
    /// The same as a number of pieces or cloves, where the line counts them.
    pub counted: Option<Quantity>,
    /// In the household's words: "diced", "peeled, cut in wedges".
    pub cut: String,
    /// The number of the step on the guide (its place in `tasks` among the steps, from 1) that uses it.
    pub step: u32,
}

#[derive(Debug, Clone, PartialEq)]
pub struct BoxNote {
    pub recipe: RecipeId,
    /// Portions; grams, millilitres or pieces where the recipe does not say what a portion of them is.
    pub amount: Quantity,
    pub place: Place,
    pub use_by: Date,
    /// "Mon supper"; empty for what is to spare.
    pub what_for: Vec<String>,
    /// Whose it is, where it is a single eater's.
    pub eater: Option<String>,
    /// What it lacks of what goes into the rest.
    pub without: Vec<Ware>,
    /// Where the recipe has a box and its size can be compared.
    pub boxes: Option<Boxes>,
    pub contains: Contains,
    /// What of it the household avoids.
    pub beware: Option<Beware>,
}

/// A number of boxes of one kind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Boxes {
    pub count: usize,
    /// In the household's word, one of them: "flat tub".
    pub kind: String,
}

/// Something to be done on a day, or at a time of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Before {
    pub at: Moment,
    pub errand: Errand,
}

/// What has only a day comes first on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Moment {
    On(Date),
    At(DateTime),
}

impl Moment {
    pub fn date(self) -> Date {
        match self {
            Moment::On(date) => date,
            Moment::At(at) => at.date(),
        }
    }

    fn key(self) -> (Date, Option<DateTime>) {
        (self.date(), if let Moment::At(at) = self { Some(at) } else { None })
    }
}

impl Ord for Moment {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.key().cmp(&other.key())
    }
}

impl PartialOrd for Moment {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

#[derive(Debug, Clone, PartialEq)]
pub enum Errand {
    /// A step done ahead: soaking, marinating. The step counts from 0; the text has the amounts of this making.
    /// `bought`: foods of it that are bought only on that later day.
    Step { recipe: RecipeId, step: usize, text: String, bought: Vec<(FoodId, Date)> },
    /// Out of the freezer, to thaw in the fridge.
    Thaw { food: FoodId, amount: Quantity },
    /// Portions from the freezer to the fridge; `late` where they ought to have been moved before.
    Move { recipe: RecipeId, whose: Option<Whose>, amount: Quantity, late: bool },
}

/// What a session takes off the shelf and puts on it: all that a booking needs, of a plan just made or of one that was printed.
#[derive(Debug, Clone, PartialEq)]
pub struct Turnover {
    pub start: DateTime,
    pub batches: Vec<Batch>,
    pub fetch: Vec<Taken>,
    pub boxes: Vec<Put>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Taken {
    /// Or the name of a food that no file knows any more.
    pub of: Result<Ware, String>,
    pub amount: Quantity,
}

/// What goes into boxes of one place, or stands in the fridge until its meal is booked.
#[derive(Debug, Clone, PartialEq)]
pub struct Put {
    pub recipe: RecipeId,
    /// Whose it is, where it is a single eater's, and what it lacks.
    pub eater: Option<String>,
    pub without: Vec<Ware>,
    pub amount: Quantity,
    pub place: Place,
    pub use_by: Date,
}

impl From<BoxNote> for Put {
    fn from(note: BoxNote) -> Put {
        let BoxNote { recipe, amount, place, use_by, eater, without, .. } = note;
        Put { recipe, eater, without, amount, place, use_by }
    }
}

/// All that it takes and leaves, with what is done already where it is under way.
impl From<&SessionPlan> for Turnover {
    fn from(session: &SessionPlan) -> Turnover {
        let rest = session.rest.iter();
        let fetch = rest.clone().flat_map(|rest| &rest.fetched).chain(&session.fetch);
        let fetch = fetch.map(|one| Taken { of: Ok(one.of), amount: one.amount.clone() });
        let put = |one: &BoxNote| Put::from(one.clone());
        let boxes = rest.flat_map(|rest| &rest.boxed).chain(&session.boxes).map(put).chain(session.set_aside.iter().cloned());
        Turnover { start: session.start, batches: session.batches.clone(), fetch: fetch.collect(), boxes: boxes.collect() }
    }
}
