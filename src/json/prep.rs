//! The prep plan in JSON, as `prep` writes it and `plan-<from>.json` keeps it.

mod past;
mod read;

pub use self::past::Past;

use itertools::Itertools;
use jiff::Span;
use jiff::civil::Date;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::shape::{OnDate, minute};
use super::short::{Short, short};
use crate::foods::Place;
use crate::kitchen::{Kitchen, Names, RecipeId, Ware};
use crate::measure::{Quantity, Units};
use crate::plan::State;
use crate::prep::{self, Doing, Mark, Moment, PersonId, PrepPlan, Put, SessionPlan, Taken};

/// The plan of a week.
#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
pub struct Prep {
    pub week: String,
    #[serde(default)]
    short: Vec<Short>,
    pub sessions: Vec<Session>,
    before: Vec<Before>,
    moves: Vec<Before>,
    /// What to take care of at the meals for whose dishes something is done before, each with its source.
    #[serde(default)]
    cautions: Vec<String>,
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
pub struct Session {
    /// `2026-11-29T14:00`.
    start: String,
    /// Where all sessions are asked for.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    state: Option<String>,
    finish: String,
    minutes: i64,
    bound_minutes: i64,
    proven: bool,
    batches: Vec<Batch>,
    tasks: Vec<Task>,
    fetch: Vec<Fetch>,
    cuts: Vec<Cut>,
    boxes: Vec<Boxed>,
    /// What single eaters get straight from the pot without something that goes into the rest. Left out where there is none.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    set_aside: Vec<Boxed>,
    cautions: Vec<String>,
    advice: Vec<String>,
    #[serde(default)]
    slower: Vec<Slower>,
    /// Where it was planned while it was under way: from when on, `2026-11-29T14:50`.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    from: Option<String>,
    /// What was done by then.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    done: Vec<Task>,
    /// What had been fetched for that; `fetch` is the rest.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    fetched: Vec<Fetch>,
    /// What stood in its boxes by then; `boxes` are the rest.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    boxed: Vec<Boxed>,
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Slower {
    /// 0.1 for a tenth.
    by: f64,
    finish: String,
    late: i64,
    breaks: Vec<String>,
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Batch {
    recipe: String,
    batches: f64,
    makes: Quantity,
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Kind {
    Set,
    Step,
    Box,
    Aside,
    #[serde(rename = "wash_up")]
    WashUp,
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Task {
    kind: Kind,
    recipe: Option<String>,
    /// Step and round count from 1.
    step: Option<usize>,
    round: Option<usize>,
    start_minute: i64,
    hands_minutes: i64,
    out_minutes: i64,
    end_minute: i64,
    person: Option<String>,
    out_person: Option<String>,
    appliance: Option<String>,
    also: Vec<String>,
    takes: Option<u32>,
    at_celsius: Option<f64>,
    text: String,
    /// For whom something is set aside.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    eater: Option<String>,
    /// Its number or letter, in a plan that was made under way: that of the guide before.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    mark: Option<String>,
    /// Whether it was under way when that plan was made, its hands done. Left out where it was not.
    #[serde(skip_serializing_if = "std::ops::Not::not", default)]
    under_way: bool,
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Fetch {
    #[serde(skip_serializing_if = "Option::is_none", default)]
    food: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    recipe: Option<String>,
    amount: Quantity,
    /// Where it lies; the amounts add up. Plans of old prints do not have it, and no booking needs it.
    #[serde(default)]
    from: Vec<FetchedFrom>,
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct FetchedFrom {
    amount: Quantity,
    /// `None`: it comes from the shopping.
    place: Option<Place>,
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Cut {
    food: String,
    amount: Quantity,
    cut: String,
    step: u32,
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Boxed {
    recipe: String,
    /// Or grams, millilitres or pieces, where the recipe does not say what a portion of them is.
    portions: f64,
    place: Place,
    #[schemars(with = "OnDate")]
    use_by: Date,
    #[serde(rename = "for")]
    what_for: Vec<String>,
    /// Whose it is; null where it is everybody's. Plans of old prints do not have it.
    #[serde(default)]
    eater: Option<String>,
    /// What a single eater's lacks: foods by their names, recipes as `recipe:id`. Left out where it lacks nothing.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    without: Vec<String>,
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Before {
    /// A date, or a date and time.
    at: String,
    text: String,
}

/// Writes ids by their names.
#[derive(Clone, Copy)]
struct Writer<'k> {
    names: Names<'k>,
    units: Units,
}

impl Prep {
    fn of(plan: &PrepPlan, kitchen: &Kitchen) -> Prep {
        let writer = Writer { names: kitchen.names(), units: kitchen.print.units };
        Prep {
            week: plan.week.clone(),
            short: short(&plan.short, kitchen),
            sessions: plan.sessions.iter().map(|session| writer.session(session)).collect(),
            before: plan.before.iter().map(|note| writer.before(note)).collect(),
            moves: plan.moves.iter().map(|note| writer.before(note)).collect(),
            cautions: plan.cautions.iter().map(|care| care.with_source(writer.names)).collect(),
        }
    }
}

/// As `prep` writes it; with `past`, every session of the week, each marked with how it stands.
pub fn prep(plan: &PrepPlan, past: Option<Past>, kitchen: &Kitchen) -> impl Serialize + use<> {
    whole(plan, past, kitchen)
}

pub(super) fn whole(plan: &PrepPlan, past: Option<Past>, kitchen: &Kitchen) -> Prep {
    let mut prep = Prep::of(plan, kitchen);
    if let Some(past) = past {
        prep.sessions.iter_mut().for_each(|session| session.state = Some(State::Open.words().to_owned()));
        prep.sessions.extend(past.sessions.iter().map(|session| past.session(session, kitchen)));
        prep.sessions.sort_by(|a, b| a.start.cmp(&b.start));
    }
    prep
}

impl Session {
    /// By which a print knows it: without how it stands today, what its food lies in by now, and what is said beside. What it takes follows
    /// from its batches.
    pub(super) fn planned(&self) -> Session {
        Session { state: None, fetch: Vec::new(), cautions: Vec::new(), advice: Vec::new(), slower: Vec::new(), ..self.clone() }
    }
}

impl Writer<'_> {
    fn session(self, session: &SessionPlan) -> Session {
        let rest = session.rest.as_ref();
        let marked = |mark: &Mark, task: &prep::Task| {
            let mark = Some(mark.to_string()).filter(|mark| rest.is_some() && !mark.is_empty());
            Task { mark, ..self.task(session, task) }
        };
        let runs = |place: usize| rest.is_some_and(|rest| rest.runs.get(place) == Some(&true));
        let marks = session.marks();
        let tasks = session.tasks.iter().zip(&marks).enumerate();
        Session {
            from: rest.map(|rest| minute(session.start.saturating_add(Span::new().minutes(rest.from)))),
            done: rest.iter().flat_map(|rest| &rest.done).map(|(mark, task)| marked(mark, task)).collect(),
            start: minute(session.start),
            state: None,
            finish: minute(session.finish),
            minutes: session.minutes,
            bound_minutes: session.bound_minutes,
            proven: session.proven,
            batches: session.batches.iter().map(|one| self.batch(one)).collect(),
            tasks: tasks.map(|(place, (task, mark))| Task { under_way: runs(place), ..marked(mark, task) }).collect(),
            fetched: rest.map(|rest| prep::by_food(&rest.fetched).iter().map(|one| self.fetch(one)).collect()).unwrap_or_default(),
            boxed: rest.iter().flat_map(|rest| &rest.boxed).map(|one| self.boxed(one)).collect(),
            fetch: prep::by_food(&session.fetch).iter().map(|one| self.fetch(one)).collect(),
            cuts: session.cuts.iter().sorted_by_key(|cut| cut.step).map(|one| self.cut(one)).collect(),
            boxes: session.boxes.iter().map(|one| self.boxed(one)).collect(),
            set_aside: session.set_aside.iter().map(|one| self.put(one)).collect(),
            cautions: session.cautions.iter().map(|one| one.with_source(self.names)).collect(),
            advice: session.advice.iter().map(|one| one.text(self.names)).collect(),
            slower: session.slower.iter().map(|one| self.slower(one)).collect(),
        }
    }

    fn slower(self, slower: &prep::Slowed) -> Slower {
        Slower {
            by: slower.percent as f64 / 100.0,
            finish: minute(slower.finish),
            late: slower.late,
            breaks: slower.breaks.iter().map(|one| one.text(self.names)).collect(),
        }
    }

    fn recipe(self, id: RecipeId) -> String {
        self.names.recipe_file(id).to_owned()
    }

    fn batch(self, batch: &prep::Batch) -> Batch {
        Batch { recipe: self.recipe(batch.recipe), batches: batch.batches, makes: batch.makes.clone() }
    }

    fn task(self, session: &SessionPlan, task: &prep::Task) -> Task {
        let kind = match task.what {
            Doing::Set => Kind::Set,
            Doing::Step(_) => Kind::Step,
            Doing::Box(_) => Kind::Box,
            Doing::Aside(_) => Kind::Aside,
            Doing::WashUp => Kind::WashUp,
        };
        let person = |id: PersonId| session.person(id).name.clone();
        let mut on = task.on.iter().map(|id| self.names.appliance(*id).to_owned());
        Task {
            kind,
            recipe: task.recipe().map(|id| self.recipe(id)),
            step: task.step().map(|step| step.step + 1),
            round: task.step().map(|step| step.round + 1),
            start_minute: task.start_minute,
            hands_minutes: task.hands_minutes,
            out_minutes: task.out_minutes,
            end_minute: task.end_minute,
            person: task.person.map(person),
            out_person: task.out_person.map(person),
            appliance: on.next(),
            also: on.collect(),
            takes: task.takes,
            at_celsius: task.at.map(|heat| heat.0),
            text: task.text(self.names, self.units),
            eater: if let Doing::Aside(aside) = &task.what { Some(aside.eater.clone()) } else { None },
            mark: None,
            under_way: false,
        }
    }

    fn fetch(self, fetch: &prep::Fetched) -> Fetch {
        let (food, recipe) = match fetch.of {
            Ware::Food(food) => (Some(self.names.food(food).to_owned()), None),
            Ware::Recipe(recipe) => (None, Some(self.recipe(recipe))),
        };
        let from = fetch.from.iter().map(|one| FetchedFrom { amount: one.amount.clone(), place: one.place });
        Fetch { food, recipe, amount: fetch.amount.clone(), from: from.collect() }
    }

    /// One entry a food and measure; where nobody says where it lay, without its places.
    fn taken(self, all: &[Taken]) -> Vec<Fetch> {
        let mut fetch: Vec<(&Result<Ware, String>, Fetch)> = Vec::new();
        for taken in all {
            let from = taken.place.map(|place| FetchedFrom { amount: taken.amount.clone(), place: Some(place) });
            let same = |(of, one): &&mut (&Result<Ware, String>, Fetch)| **of == taken.of && one.from.is_empty() == from.is_none();
            let sum = fetch.iter_mut().filter(same).find_map(|(_, one)| one.amount.plus(&taken.amount).map(|sum| (one, sum)));
            if let Some((one, sum)) = sum {
                one.amount = sum;
                one.from.extend(from);
                continue;
            }
            let (food, recipe) = match &taken.of {
                Ok(Ware::Food(food)) => (Some(self.names.food(*food).to_owned()), None),
                Ok(Ware::Recipe(recipe)) => (None, Some(self.recipe(*recipe))),
                Err(name) => (Some(name.clone()), None),
            };
            fetch.push((&taken.of, Fetch { food, recipe, amount: taken.amount.clone(), from: from.into_iter().collect() }));
        }
        fetch.into_iter().map(|(_, one)| one).collect()
    }

    fn put(self, put: &Put) -> Boxed {
        let (recipe, portions) = (self.recipe(put.recipe), put.amount.base());
        Boxed {
            recipe,
            portions,
            place: put.place,
            use_by: put.use_by,
            what_for: Vec::new(),
            eater: put.eater.clone(),
            without: self.lacks(&put.without),
        }
    }

    fn lacks(self, without: &[Ware]) -> Vec<String> {
        let name = |ware: &Ware| match *ware {
            Ware::Food(food) => self.names.food(food).to_owned(),
            Ware::Recipe(recipe) => format!("recipe:{}", self.recipe(recipe)),
        };
        without.iter().map(name).collect()
    }

    fn cut(self, cut: &prep::Cut) -> Cut {
        Cut { food: self.names.food(cut.food).to_owned(), amount: cut.amount.clone(), cut: cut.cut.clone(), step: cut.step }
    }

    fn boxed(self, note: &prep::BoxNote) -> Boxed {
        let (recipe, portions) = (self.recipe(note.recipe), note.amount.base());
        Boxed {
            recipe,
            portions,
            place: note.place,
            use_by: note.use_by,
            what_for: note.what_for.clone(),
            eater: note.eater.clone(),
            without: self.lacks(&note.without),
        }
    }

    fn before(self, note: &prep::Before) -> Before {
        let at = match note.at {
            Moment::On(date) => date.to_string(),
            Moment::At(at) => minute(at),
        };
        Before { at, text: note.errand.text(self.names, self.units) }
    }
}
