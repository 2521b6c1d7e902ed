//! A session over time in plain characters: a row a stretch of minutes, a column a person, a bar a load of each appliance.
//!
//! A task's mark stands in the row in which it begins, and `|` in each row that it reaches into after that.

use crate::kitchen::{ApplianceId, Names};
use crate::prep::{Mark, PersonId, SessionPlan};
use crate::words::clock_after;

/// Minutes a row: the first with which the chart has no more than [`ROWS`] rows.
const SLOTS: [i64; 6] = [5, 10, 15, 30, 60, 120];
const ROWS: i64 = 40;

/// "14:00" and two blanks.
const CLOCK: usize = 7;

const WARMING: &str = "~";

/// Something that takes a lane's time.
struct Bar {
    from: i64,
    until: i64,
    mark: String,
}

struct Column {
    name: String,
    cells: Vec<String>,
}

impl Column {
    fn width(&self) -> usize {
        self.cells.iter().map(|cell| cell.chars().count()).max().unwrap_or(0).max(self.name.chars().count())
    }
}

/// The chart, no wider than `width`: columns that do not fit beside the others follow below in a chart of their own.
pub fn chart(session: &SessionPlan, names: Names, width: usize) -> String {
    let last = session.tasks.iter().map(|task| task.end_minute).chain([session.minutes, 1]).max().unwrap_or(1);
    let slot = SLOTS.into_iter().find(|slot| (last + slot - 1) / slot <= ROWS).unwrap_or((last + ROWS - 1) / ROWS);
    let rows = (last + slot - 1) / slot;
    let mut columns: Vec<Column> = Vec::new();
    let marks = session.marks();
    for (id, bars) in people(session, &marks) {
        columns.push(Column { name: session.person(id).name.clone(), cells: cells(&bars, slot, rows) });
    }
    for (id, bars) in appliances(session, &marks) {
        columns.push(Column { name: names.appliance(id).to_owned(), cells: side_by_side(lanes(bars), slot, rows) });
    }
    let mut out = String::new();
    // Of a session that is under way, what is past stays away.
    let is_bare = |row: &usize| columns.iter().all(|column| column.cells[*row].is_empty());
    let first = (0..rows as usize).find(|row| !is_bare(row)).unwrap_or(0);
    for panel in panels(columns, width.saturating_sub(CLOCK)) {
        draw(&mut out, &panel, session, (first, slot), width);
    }
    out
}

fn people(session: &SessionPlan, marks: &[Mark]) -> Vec<(PersonId, Vec<Bar>)> {
    let mut people = Vec::new();
    for (task, mark) in session.tasks.iter().zip(marks) {
        if let Some(person) = task.person.filter(|_| task.hands_minutes > 0) {
            let until = task.start_minute + task.hands_minutes;
            add(&mut people, person, Bar { from: task.start_minute, until, mark: mark.to_string() });
        }
        if let Some(person) = task.out_person.filter(|_| task.out_minutes > 0) {
            add(&mut people, person, Bar { from: task.out_minute(), until: task.end_minute, mark: format!("{mark} out") });
        }
    }
    people.sort_by_key(|(id, _)| *id);
    people
}

fn appliances(session: &SessionPlan, marks: &[Mark]) -> Vec<(ApplianceId, Vec<Bar>)> {
    let mut appliances = Vec::new();
    for (task, mark) in session.tasks.iter().zip(marks) {
        let mark = if task.is_set() { WARMING.to_owned() } else { mark.to_string() };
        for appliance in &task.on {
            add(&mut appliances, *appliance, Bar { from: task.start_minute, until: task.end_minute, mark: mark.clone() });
        }
    }
    appliances
}

fn add<Id: PartialEq>(all: &mut Vec<(Id, Vec<Bar>)>, id: Id, bar: Bar) {
    match all.iter_mut().find(|(known, _)| *known == id) {
        Some((_, bars)) => bars.push(bar),
        None => all.push((id, vec![bar])),
    }
}

/// As many lanes as things stand side by side at one time.
fn lanes(mut bars: Vec<Bar>) -> Vec<Vec<Bar>> {
    bars.sort_by_key(|bar| (bar.from, bar.until));
    let mut lanes: Vec<Vec<Bar>> = Vec::new();
    for bar in bars {
        match lanes.iter_mut().find(|lane| lane.last().is_none_or(|last| last.until <= bar.from)) {
            Some(lane) => lane.push(bar),
            None => lanes.push(vec![bar]),
        }
    }
    lanes
}

/// One cell a row: the marks of what begins in it, else whether something goes on.
fn cells(bars: &[Bar], slot: i64, rows: i64) -> Vec<String> {
    let cell = |row: i64| {
        let (from, until) = (row * slot, (row + 1) * slot);
        let begun: Vec<&str> = bars.iter().filter(|bar| bar.from >= from && bar.from < until).map(|bar| bar.mark.as_str()).collect();
        if !begun.is_empty() {
            return begun.join(",");
        }
        let on = bars.iter().find(|bar| bar.from < from && bar.until > from);
        on.map_or("", |bar| if bar.mark == WARMING { WARMING } else { "|" }).to_owned()
    };
    (0..rows).map(cell).collect()
}

fn side_by_side(lanes: Vec<Vec<Bar>>, slot: i64, rows: i64) -> Vec<String> {
    let mut joined = vec![String::new(); rows as usize];
    for lane in lanes {
        let cells = cells(&lane, slot, rows);
        let width = cells.iter().map(|cell| cell.chars().count()).max().unwrap_or(0);
        joined.iter_mut().zip(cells).for_each(|(row, cell)| row.push_str(&format!("{cell:width$} ")));
    }
    joined.iter().map(|row| row.trim_end().to_owned()).collect()
}

/// As many columns beside one another as fit.
fn panels(columns: Vec<Column>, room: usize) -> Vec<Vec<Column>> {
    let mut panels: Vec<Vec<Column>> = Vec::new();
    let mut taken = 0;
    for column in columns {
        let width = column.width() + 2;
        match panels.last_mut().filter(|_| taken + width <= room + 2) {
            Some(panel) => {
                taken += width;
                panel.push(column);
            }
            None => {
                taken = width;
                panels.push(vec![column]);
            }
        }
    }
    panels
}

fn draw(out: &mut String, panel: &[Column], session: &SessionPlan, (first, slot): (usize, i64), width: usize) {
    let mut line = |at: &str, cell: &dyn Fn(&Column) -> String| {
        let cells: String = panel.iter().map(|column| format!("{:width$}  ", cell(column), width = column.width())).collect();
        let text: String = format!("{at:CLOCK$}{cells}").chars().take(width).collect();
        out.push_str(text.trim_end());
        out.push('\n');
    };
    line("", &|column| column.name.clone());
    for row in first..panel.first().map_or(0, |column| column.cells.len()) {
        line(&clock_after(session.start, row as i64 * slot), &|column| column.cells[row].clone());
    }
    out.push('\n');
}
