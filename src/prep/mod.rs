//! Tasks, appliances, people; the schedule; what the guide says.

mod advice;
mod ahead;
mod at_once;
mod before;
mod bought;
mod boxes;
mod build;
mod cautions;
mod clock;
mod cooked;
mod cuts;
mod elsewhere;
mod evening;
mod fetch;
mod fill;
mod filling;
mod follows;
mod guide;
mod heating;
mod labels;
mod least;
mod links;
mod meal_cautions;
mod names;
mod problem;
mod ready;
mod recipe_page;
mod remedies;
mod rounds;
mod say;
mod schedule;
mod skills;
mod spared;
mod straight;
mod tasks;
#[cfg(test)]
mod testing;
mod text;
mod theirs;
mod under_way;
mod uses;
mod week_card;

pub use advice::{Advice, Bottleneck, Change, Rule};
pub use before::begins_ahead;
pub use bought::{BoughtLater, begun_before, bought_later, warned_of_bought_later};
pub use build::{plans_alone, prep, prep_under_way, turnover};
pub use cautions::{Care, Holds, cautions};
pub use cooked::CardCook;
pub use cuts::CutTogether;
pub use elsewhere::out_of_order;
pub use evening::begin_by;
pub use fetch::{Fetched, by_food};
pub use filling::{Filling, boxing_words};
pub use guide::{
    AsideTask, Batch, Before, Begun, BoxNote, BoxTask, Boxes, Cut, Doing, Errand, Fetch, Kept, Mark, Moment, Note, PartOf, PersonId,
    PrepPlan, Put, Said, SessionPlan, Slowed, StepTask, Stood, Taken, Task, There, Turnover,
};
pub use labels::{Label, SessionLabels, labels};
pub use least::{AtTheMeal, at_the_meal, session_minutes};
pub use meal_cautions::{AT_THE_MEAL, meal_cautions};
pub use problem::{
    Aim, Fixed, Heat, Impossible, Job, JobKind, Limit, Link, LinkWhy, Machine, Placed, Problem, Schedule, Serve, Setting, Worker,
};
pub use ready::{GetOut, Hands};
pub use recipe_page::{PageLine, PageSize, PageStep, RecipePage, SizeOf, recipe_alone, recipe_pages};
pub use rounds::too_many_rounds;
pub use say::{presence, reheated, taken_from};
pub use schedule::{Effort, Slower, least_finish, schedule, slower, slower_ends};
pub use skills::unskilled;
pub use spared::spared_without;
pub use straight::settled;
pub use text::{line_text, making_text, step_text};
pub use under_way::{Deed, NoMark, Rest, SetHeat, Told, UnderWay, Unmarked, unknown_marks, unmarked};
pub use uses::said;
pub use week_card::{CardDay, CardDish, CardMaking, CardMeal, CardStep, Then, WeekCard, meal_minutes, week_card};
