//! The session over time: a lane for every person and every appliance, a bar for everything that takes their time, numbered as the steps are.

use crate::kitchen::{ApplianceId, Names};
use crate::measure::Units;
use crate::prep::{PersonId, SessionPlan};

use super::face::Weight;
use super::flow::Block;
use super::frame::across;
use super::page::{BLACK, HAIRLINE, Item, Rect, Rule, TextRun};
use super::scale::Size;
use super::text::{Line, Setter, Style, baseline, plain, strong, width_of};
use super::wording::temperature;
use crate::words::Clock;

/// Space between a bar's edge and its label.
const PAD: f32 = 2.0;

/// What is too short to be seen is drawn this wide.
const LEAST: f32 = 1.5;

/// Minutes between ticks: the first that leaves room for the clock times.
const TICKS: [i64; 5] = [15, 30, 60, 120, 240];

/// One lane's bar, before it has a row.
struct Bar {
    from: i64,
    until: i64,
    mark: String,
    name: String,
    fill: Option<f32>,
}

/// A bar with its place across, and its label.
struct Placed {
    x: f32,
    width: f32,
    label: Line,
    left: f32,
    right: f32,
    fill: Option<f32>,
}

/// Time across: minute `first` at `left`, `last` at `right`; and the type.
struct Scale {
    left: f32,
    right: f32,
    first: i64,
    last: i64,
    style: Style,
}

impl Scale {
    /// Space for the names of the lanes at the left.
    fn of(size: Size, width: f32, (first, last): (i64, i64)) -> Scale {
        Scale { left: if size.is_large() { 112.0 } else { 68.0 }, right: width, first, last, style: size.scale().chart }
    }

    /// The widest label beside a bar.
    fn beside(&self) -> f32 {
        6.4 * self.style.size
    }

    fn x(&self, minute: i64) -> f32 {
        self.left + self.per_minute() * (minute.clamp(self.first, self.last) - self.first) as f32
    }

    fn per_minute(&self) -> f32 {
        (self.right - self.left) / (self.last - self.first) as f32
    }
}

/// How a chart is set.
#[derive(Clone, Copy)]
pub struct Look {
    /// The height of a row.
    pub row: f32,
    pub size: Size,
    pub width: f32,
    pub units: Units,
    pub clock: Clock,
}

/// The chart as blocks as wide as the page: the clock, then a block a lane. Of a session under way it begins where that goes on.
pub fn chart(setter: &mut Setter, session: &SessionPlan, names: Names, look: Look) -> Vec<Block> {
    let first = session.begins();
    let last = session.tasks.iter().map(|task| task.end_minute).chain([session.minutes, first + 1]).max().unwrap_or(first + 1);
    let scale = Scale::of(look.size, look.width, (first, last));
    let ticks = ticks(&scale, look.clock);
    let mut blocks = vec![clock_line(&scale, &ticks, look.clock)];
    for (name, bars) in lanes(session, names, look.units) {
        blocks.push(lane(setter, name, &bars, &scale, &ticks, look.row));
    }
    if let Some(line) = blocks.last_mut().and_then(|block| block.lines.last_mut()) {
        line.items.push(Item::Rule(across(0.0, look.width, line.height, BLACK)));
    }
    blocks
}

/// Minutes after the start that lie on the clock's quarters, halves or hours.
fn ticks(scale: &Scale, clock: Clock) -> Vec<i64> {
    let room = 3.0 * scale.style.size * 1.2;
    let step = TICKS.into_iter().find(|step| *step as f32 * scale.per_minute() >= room).unwrap_or(480);
    (scale.first..=scale.last).filter(|minute| (clock.past() + minute) % step == 0).collect()
}

fn clock_line(scale: &Scale, ticks: &[i64], clock: Clock) -> Block {
    let mut line = Line::empty(scale.style.leading);
    for minute in ticks {
        let text = clock.after(*minute);
        let mut run =
            TextRun { x: 0.0, baseline: baseline(scale.style) - 1.0, size: scale.style.size, weight: Weight::Regular, grey: BLACK, text };
        let width = run.width();
        run.x = (scale.x(*minute) - width / 2.0).min(scale.right - width);
        line.items.push(Item::Text(run));
    }
    Block::of(vec![line]).heading()
}

/// People first, in the household's order, then appliances in the order in which they are first needed.
fn lanes<'s>(session: &'s SessionPlan, names: Names<'s>, units: Units) -> Vec<(&'s str, Vec<Bar>)> {
    let mut people: Vec<(PersonId, Vec<Bar>)> = Vec::new();
    let mut appliances: Vec<(ApplianceId, Vec<Bar>)> = Vec::new();
    for (place, (task, mark)) in session.tasks.iter().zip(session.marks()).enumerate() {
        let bar = |from, until, name, fill| Bar { from, until, mark: mark.to_string(), name, fill };
        let short = task.short(names, units);
        if let Some(person) = task.person.filter(|_| task.hands_minutes > 0 && !session.runs(place)) {
            let until = task.start_minute + task.hands_minutes;
            add(&mut people, person, bar(task.start_minute, until, short.clone(), Some(0.82)));
        }
        if let Some(person) = task.out_person.or(task.person).filter(|_| task.out_minutes > 0) {
            add(&mut people, person, bar(task.out_minute(), task.end_minute, "out".to_owned(), Some(0.82)));
        }
        for (place, appliance) in task.on.iter().enumerate() {
            let name = match task.at.filter(|_| place == 0).map(|heat| temperature(heat, units)) {
                Some(warm) if task.is_set() => warm,
                Some(warm) => format!("{warm} {short}"),
                None => short.clone(),
            };
            add(&mut appliances, *appliance, bar(task.start_minute, task.end_minute, name, (!task.is_set()).then_some(0.92)));
        }
    }
    people.sort_by_key(|(id, _)| *id);
    let people = people.into_iter().map(|(id, bars)| (session.person(id).name.as_str(), bars));
    people.chain(appliances.into_iter().map(|(id, bars)| (names.appliance(id), bars))).collect()
}

fn add<Id: PartialEq>(lanes: &mut Vec<(Id, Vec<Bar>)>, id: Id, bar: Bar) {
    match lanes.iter_mut().find(|(lane, _)| *lane == id) {
        Some((_, bars)) => bars.push(bar),
        None => lanes.push((id, vec![bar])),
    }
}

/// A lane in as many rows as it has things at one time, or labels that need the room.
fn lane(setter: &mut Setter, name: &str, bars: &[Bar], scale: &Scale, ticks: &[i64], row: f32) -> Block {
    let mut order: Vec<&Bar> = bars.iter().collect();
    order.sort_by_key(|bar| (bar.from, bar.until));
    let mut rows: Vec<(f32, Vec<Placed>)> = Vec::new();
    for bar in order {
        let placed = placed(setter, bar, scale);
        match rows.iter_mut().find(|(taken, _)| *taken <= placed.left) {
            Some((taken, row)) => {
                *taken = placed.right;
                row.push(placed);
            }
            None => rows.push((placed.right, vec![placed])),
        }
    }
    let mut lines: Vec<Line> = rows.into_iter().map(|(_, bars)| row_line(bars, scale, ticks, row)).collect();
    if let Some(first) = lines.first_mut() {
        let label = setter.one_line(&[strong(name)], scale.style, scale.left - 6.0);
        first.items.extend(on_row(label, row, scale.style).items);
        first.items.push(Item::Rule(across(0.0, scale.right, 0.0, BLACK)));
    }
    Block::of(lines)
}

fn on_row(line: Line, row: f32, style: Style) -> Line {
    let items = line.items.iter().map(|item| item.moved(0.0, row / 2.0 + 0.33 * style.size - baseline(style))).collect();
    Line { items, ..line }
}

/// The label stands in the bar where it fits, first with its name, then with fewer of its letters, then as the bare number; else beside it.
fn placed(setter: &mut Setter, bar: &Bar, scale: &Scale) -> Placed {
    let x = scale.x(bar.from).min(scale.right - LEAST);
    let width = (scale.x(bar.until) - x).max(LEAST);
    let inside = width - 2.0 * PAD;
    let mark = if bar.mark.is_empty() { bar.name.clone() } else { bar.mark.clone() };
    let bare = setter.one_line(&[strong(mark)], scale.style, scale.beside());
    let needed = width_of(&bare);
    let name = if bar.mark.is_empty() { String::new() } else { bar.name.clone() };
    if needed <= inside {
        let full = setter.one_line(&[strong(bar.mark.as_str()), plain(format!(" {name}"))], scale.style, inside);
        let label = if bar.mark.is_empty() || width_of(&full) < needed + 1.6 * scale.style.size { bare } else { full };
        return Placed { x, width, left: x, right: x + width, label: label.moved(x + PAD), fill: bar.fill };
    }
    // A bare mark fills its bar from edge to edge before it takes a place beside it.
    if needed <= width - 2.0 * HAIRLINE {
        let label = bare.moved(x + (width - needed) / 2.0);
        return Placed { x, width, left: x, right: x + width, label, fill: bar.fill };
    }
    let right = x + width + PAD;
    if right + needed <= scale.right {
        return Placed { x, width, left: x, right: right + needed + PAD, label: bare.moved(right), fill: bar.fill };
    }
    let left = x - PAD - needed;
    Placed { x, width, left, right: x + width, label: bare.moved(left), fill: bar.fill }
}

fn row_line(bars: Vec<Placed>, scale: &Scale, ticks: &[i64], row: f32) -> Line {
    let mut line = Line::empty(row);
    for minute in ticks {
        let x = scale.x(*minute);
        line.items.push(Item::Rule(Rule { x0: x, y0: 0.0, x1: x, y1: row, thickness: HAIRLINE, grey: 0.75 }));
    }
    // Where rows are low, bars stand closer, so that no outline runs through their words.
    let apart = ((row - 9.0) / 2.0).clamp(0.5, 1.5);
    for bar in bars {
        let (y, height) = (apart, row - 2.0 * apart);
        let rect = Rect { x: bar.x, y, width: bar.width, height, fill: bar.fill.or(Some(1.0)), outline: Some(HAIRLINE) };
        line.items.push(Item::Rect(rect));
        line.items.extend(on_row(bar.label, row, scale.style).items);
    }
    line
}
