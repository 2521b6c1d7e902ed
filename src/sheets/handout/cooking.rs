//! A day of cooking by a clock that starts at 0:00: chart, steps, cuts, boxes; for one, and for cook and helper.

use itertools::Itertools;
use jiff::civil::{Date, DateTime};

use crate::foods::Place;
use crate::handout::{DayNumber, HandoutSession};
use crate::measure::Quantity;
use crate::prep::{Batch, Filling, Mark, Note, SessionPlan, Shares, Task, boxing_words, by_food};
use crate::words::{Clock, brief, ended, in_a_sentence, listed, place, sentence};

use super::{Book, Part, led};
use crate::sheets::chart::{Look, chart};
use crate::sheets::flow::{Block, Cursor, pour, under_headings};
use crate::sheets::frame::{GRID, columns, headed};
use crate::sheets::page::Page;
use crate::sheets::parts::heading;
use crate::sheets::text::{Line, Setter, Span, plain, soft, strong, width_of};
use crate::sheets::wording::{amount, duration, temperature};

/// The height of a row of the chart.
const ROW: f32 = 13.0;
const LARGE_ROW: f32 = 20.0;

/// Where it is written when a box went in, and when it was cold.
const BLANK: &str = "__________";

/// Below the chart at least this much must be free for the steps to begin on the same page.
const LEAST_BELOW: f32 = 120.0;

impl Book<'_> {
    /// One part a day of cooking and number of people.
    pub(super) fn cooking(&self, setter: &mut Setter) -> Vec<Part> {
        let several = self.told.sessions.len() > 1;
        let mut parts = Vec::new();
        for session in &self.told.sessions {
            let day = if several { format!("Cooking on {}", session.day.words()) } else { "The day of cooking".to_owned() };
            for plan in &session.plans {
                let who = match plan.people.len() {
                    _ if session.plans.len() == 1 => String::new(),
                    0 | 1 => ", for one".to_owned(),
                    _ => ", for cook and helper".to_owned(),
                };
                let name = format!("{day}{who}");
                let pages = self.session(setter, session, plan, &name);
                parts.push(Part { name, pages, in_detail: false });
            }
        }
        parts
    }

    fn session(&self, setter: &mut Setter, session: &HandoutSession, plan: &SessionPlan, title: &str) -> Vec<Page> {
        let when =
            if session.day == DayNumber(0) || session.day.0 < 0 { format!("{}. ", sentence(&session.day.words())) } else { String::new() };
        let under = vec![vec![plain(format!("{when}The clock starts at 0:00; {}.", done_at(plan)))]];
        let (mut page, mut top) = headed(setter, self.settings, &self.head(title, under), "");
        let mut pages = Vec::new();
        let row = if self.is_large() { LARGE_ROW } else { ROW };
        let look = Look { row, size: self.settings.size, width: self.width(1), units: self.units(), clock: Clock::FromZero };
        let lanes = chart(setter, plan, self.names, look);
        let again = self.head(&format!("{title}, continued"), Vec::new());
        let mut from = Cursor::default();
        loop {
            let poured = pour(&lanes, from, &columns(self.settings, &page, top, 1).0, Some(&mut page));
            (from, top) = (poured.until, poured.lowest + 3.0 * GRID);
            let room = columns(self.settings, &page, top, 1).0[0].bottom - top;
            if from.block >= lanes.len() && room >= LEAST_BELOW {
                break;
            }
            pages.push(page);
            (page, top) = headed(setter, self.settings, &again, "");
        }
        let blocks = self.session_blocks(setter, session, plan);
        pages.extend(self.on_pages(setter, (page, top), title, &blocks, self.count()));
        pages
    }

    /// In the order in which a kitchen needs them.
    fn session_blocks(&self, setter: &mut Setter, session: &HandoutSession, plan: &SessionPlan) -> Vec<Block> {
        let (kind, width) = (self.kind, self.width(self.count()));
        let ahead = session.ahead.iter().map(|one| {
            vec![
                strong(format!("{} before 0:00  ", duration(one.before.0))),
                soft(format!("{}  ", brief(self.names.recipe(one.recipe)))),
                plain(one.text.as_str()),
            ]
        });
        let mut blocks = self.group(setter, "Ahead", &ahead.collect::<Vec<_>>(), kind.note, width);
        blocks.extend(self.group(setter, "Have at hand", &self.at_hand(plan), kind.note, width));
        blocks.extend(self.group(setter, "Cut, and for which step", &self.cuts(plan), kind.note, width));
        under_headings(&mut blocks);
        blocks.push(heading(setter, "Steps", kind.note, width));
        blocks.extend(self.steps(setter, plan, width));
        let makes = plan.batches.iter().map(|batch| self.makes(batch)).collect::<Vec<_>>();
        blocks.extend(self.group(setter, "What this makes", &makes, kind.note, width));
        blocks
    }

    /// All that the day takes, in one paragraph.
    fn at_hand(&self, plan: &SessionPlan) -> Vec<Vec<Span>> {
        let told = by_food(&plan.fetch).into_iter().map(|one| one.words(&plan.said, &Shares::whole(), self.names, self.units()));
        let all = told.collect::<Vec<_>>().join("; ");
        if all.is_empty() { Vec::new() } else { vec![vec![plain(all)]] }
    }

    /// One paragraph a food, as on the household's own guide.
    fn cuts(&self, plan: &SessionPlan) -> Vec<Vec<Span>> {
        plan.cuts_together().iter().map(|cut| vec![plain(cut.words(self.units()))]).collect()
    }

    fn makes(&self, batch: &Batch) -> Vec<Span> {
        let times = amount(&Quantity::pieces(batch.batches), self.units());
        let word = if batch.batches <= 1.0 { "batch" } else { "batches" };
        let made = amount(&batch.makes, self.units());
        vec![strong(self.names.recipe(batch.recipe)), plain(format!(", {made}")), soft(format!(" ({times}\u{a0}{word})"))]
    }

    fn steps(&self, setter: &mut Setter, plan: &SessionPlan, width: f32) -> Vec<Block> {
        plan.tasks.iter().zip(plan.marks()).map(|(task, mark)| self.step(setter, plan, task, mark, width)).collect()
    }

    fn step(&self, setter: &mut Setter, plan: &SessionPlan, task: &Task, mark: Mark, width: f32) -> Block {
        let (body, note) = (self.kind.body, self.kind.note);
        let indent = 2.0 * body.size;
        let room = width - indent;
        let mut head = vec![strong(Clock::FromZero.after(task.start_minute)), plain(task.timing())];
        if plan.people.len() > 1 {
            head.extend(task.person.map(|person| strong(format!("  {}", plan.person(person).name))));
        }
        head.extend(task.step().map(|step| soft(format!("  {}", brief(self.names.recipe(step.recipe))))));
        let mut text = vec![plain(ended(&self.what_to_do(plan, task)))];
        text.extend(self.facts(plan, task));
        // What has no dish in its head begins on the line of its time.
        let mut lines = if task.step().is_some() {
            [setter.paragraph(&head, body, room), setter.paragraph(&text, body, room)].concat()
        } else {
            setter.paragraph(&[head, vec![plain("  ")], text].concat(), body, room)
        };
        let notes = task.notes.iter().filter(|note| !matches!(note, Note::Late(_)));
        for words in notes.map(|note| note.text_by(|at| from_zero(plan, at), self.names, self.units())) {
            lines.extend(setter.paragraph(&[plain(words)], note, room));
        }
        if task.is_box() {
            for spans in self.boxes(plan, task) {
                lines.extend(setter.paragraph(&spans, note, room));
            }
        }
        let mut lines: Vec<Line> = lines.into_iter().map(|line| line.moved(indent)).collect();
        let number = setter.one_line(&[strong(mark.to_string())], body, indent);
        let shift = (indent - 0.6 * body.size - width_of(&number)).max(0.0);
        if let Some(first) = lines.first_mut() {
            first.items.extend(number.moved(shift).items);
        }
        Block::of(lines).spaced(self.kind.gap)
    }

    /// Of a boxing the dish alone: what goes where is told below it.
    fn what_to_do(&self, plan: &SessionPlan, task: &Task) -> String {
        let places: Vec<Place> = plan.fillings(task).iter().map(|filling| filling.place).collect();
        match task.recipe().filter(|_| !places.is_empty()) {
            Some(recipe) => {
                let (verb, rest) = boxing_words(&places);
                let rest = rest.map(|rest| format!("; {rest}")).unwrap_or_default();
                format!("{verb} {}{rest}", in_a_sentence(self.names.recipe(recipe)))
            }
            None => task.text(self.names, self.units()),
        }
    }

    /// " Oven (2 places), 180 °C, out at 1:33 (helper)."
    fn facts(&self, plan: &SessionPlan, task: &Task) -> Vec<Span> {
        if task.is_box() {
            return Vec::new();
        }
        let mut places: Vec<String> =
            if task.is_set() { Vec::new() } else { task.on.iter().map(|id| self.names.appliance(*id).to_owned()).collect() };
        if let (Some(first), Some(takes)) = (places.first_mut(), task.takes.filter(|takes| *takes > 1)) {
            first.push_str(&format!(" ({takes}\u{a0}places)"));
        }
        if let (Some(first), Some(heat)) = (places.first_mut(), task.at) {
            first.push_str(&format!(", {}", temperature(heat, self.units())));
        }
        let out = Clock::FromZero.after(task.out_minute());
        let until = if task.out_minutes > 0 {
            let by =
                task.out_person.filter(|_| plan.people.len() > 1).map_or_else(String::new, |id| format!(" ({})", plan.person(id).name));
            Some(format!("out at {out}{by}"))
        } else if task.is_set() {
            Some(format!("ready at {out}"))
        } else {
            (task.out_minute() > task.start_minute + task.hands_minutes).then(|| format!("until {out}"))
        };
        let said = [(!places.is_empty()).then(|| places.join("; ")), until].into_iter().flatten().join(", ");
        if said.is_empty() { Vec::new() } else { vec![soft(format!(" {}.", sentence(&said)))] }
    }

    /// "Fridge: 2½ portions in 2 deep tubs, use by day 4, for day 1 supper", a paragraph a place and date; last until when it must be cold.
    fn boxes(&self, plan: &SessionPlan, task: &Task) -> Vec<Vec<Span>> {
        let filled = |filling: &Filling| {
            let much = filling.amount().map_or_else(String::new, |much| format!(" {}", amount(&much, self.units())));
            let boxes = filling.boxes().map_or_else(String::new, |boxes| format!(" in {boxes}"));
            let what_for = filling.what_for().join(", ");
            let spare = filling.spare().map(|much| format!("{} to spare", amount(much, self.units())));
            let purposes =
                (!what_for.is_empty()).then(|| format!(", for {what_for}")).into_iter().chain(spare.map(|one| format!("; {one}")));
            vec![
                plain(format!("{}:{much}{boxes}, ", sentence(place(filling.place)))),
                strong(self.use_by(plan, filling.use_by)),
                soft(format!("{}.", purposes.collect::<String>())),
            ]
        };
        let fillings = plan.fillings(task);
        let cold = task.cold_by().map(|by| {
            let place = if fillings.iter().any(|filling| filling.place == Place::Fridge) { Place::Fridge } else { Place::Freezer };
            let by = format!("☐\u{a0}in the {} by\u{a0}{}", crate::words::place(place), Clock::FromZero.after(by));
            vec![strong(by), soft(format!(" {BLANK} cold\u{a0}{BLANK}"))]
        });
        fillings.iter().map(filled).chain(cold).collect()
    }

    /// By its day where that is one of the week's, else by how long it keeps.
    fn use_by(&self, plan: &SessionPlan, use_by: Date) -> String {
        let by = DayNumber::since(self.told.first, use_by);
        if self.told.days.last().is_some_and(|last| by <= last.day) {
            return format!("use by {}", by.words());
        }
        let keeps = DayNumber::since(plan.start.date(), use_by).0 - 1;
        format!("keeps {keeps}\u{a0}{}", if keeps == 1 { "day" } else { "days" })
    }

    /// What could be left out of a session.
    pub(super) fn short_of_time(&self) -> Vec<Vec<Span>> {
        let several = self.told.sessions.len() > 1;
        let all = self.told.sessions.iter().flat_map(|session| session.spared.iter().take(MOST_SPARED).map(move |one| (session, one)));
        all.map(|(session, one)| {
            let on = if several { format!(" on {}", session.day.words()) } else { " on the day of cooking".to_owned() };
            let lack = if one.meals.is_empty() { String::new() } else { format!("; it is then missing at {}", listed(&one.meals)) };
            let name = in_a_sentence(self.names.recipe(one.recipe));
            led("Short of time?", format!("Leave out {name}, saves {}{on}{lack}.", duration(one.saves.0)))
        })
        .collect()
    }
}

/// "all is done at 2:40", "all is served at 3:30", or both where only some of it is served hot.
fn done_at(plan: &SessionPlan) -> String {
    let served = from_zero(plan, plan.ends());
    match plan.is_all_served() {
        true => format!("all is served at {served}"),
        false if plan.ends_with_a_meal() => format!("the rest is done at {}, served at {served}", Clock::FromZero.after(plan.minutes)),
        false => format!("all is done at {}", Clock::FromZero.after(plan.minutes)),
    }
}

fn from_zero(plan: &SessionPlan, at: DateTime) -> String {
    Clock::FromZero.after(at.duration_since(plan.start).as_secs().div_euclid(60))
}

/// So many dishes of a day are named that could be left out.
const MOST_SPARED: usize = 3;
