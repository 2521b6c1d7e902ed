//! Pouring blocks of lines into columns and pages: blocks stay whole where they can, and no heading stands alone at the foot of a column.

use super::page::{Bookmark, Page};
use super::text::Line;

/// Lines that stay together where a column has room for them.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Block {
    pub lines: Vec<Line>,
    /// Space above, dropped at the head of a column.
    pub space: f32,
    /// A heading: never the last thing in a column.
    pub with_next: bool,
    /// The heading that this stands under: said again at the head of a column.
    pub under: Option<usize>,
    /// The name by which its place can be found on a screen.
    pub bookmark: Option<String>,
}

impl Block {
    pub fn of(lines: Vec<Line>) -> Block {
        Block { lines, ..Block::default() }
    }

    pub fn spaced(mut self, space: f32) -> Block {
        self.space = space;
        self
    }

    pub fn heading(mut self) -> Block {
        self.with_next = true;
        self
    }

    /// Below the heading of that index among the blocks that are poured together.
    pub fn under(mut self, heading: usize) -> Block {
        self.under = Some(heading);
        self
    }

    pub fn marked(mut self, name: impl Into<String>) -> Block {
        self.bookmark = Some(name.into());
        self
    }

    pub fn height(&self) -> f32 {
        self.lines.iter().map(|line| line.height).sum()
    }
}

/// Every block below a heading is under it, so that what breaks over a column or a page says again what it belongs to.
pub fn under_headings(blocks: &mut [Block]) {
    let mut heading = None;
    for (index, block) in blocks.iter_mut().enumerate() {
        if block.with_next {
            heading = Some(index);
        } else if block.under.is_none() {
            block.under = heading;
        }
    }
}

/// A column to be filled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Column {
    pub x: f32,
    pub top: f32,
    pub bottom: f32,
}

/// How far the pouring has come: a block, and a line of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Cursor {
    pub block: usize,
    pub line: usize,
}

/// Where the pouring stopped, and the lowest point it reached.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Poured {
    pub until: Cursor,
    pub lowest: f32,
}

/// Float noise below which a block still fits.
const HAIR: f32 = 0.01;

/// Pours blocks from a cursor into columns, on a page or, without one, for measure only.
pub fn pour(blocks: &[Block], from: Cursor, columns: &[Column], mut page: Option<&mut Page>) -> Poured {
    let mut at = from;
    let mut lowest = columns.first().map_or(0.0, |column| column.top);
    for column in columns {
        let mut y = column.top;
        if let Some(heading) = blocks.get(at.block).and_then(|block| block.under).filter(|heading| heading + 1 < at.block || at.line > 0) {
            y = put_lines(&blocks[heading].lines, column.x, y, page.as_deref_mut());
        }
        let top = y;
        while at.block < blocks.len() {
            let block = &blocks[at.block];
            let space = if y > top { block.space } else { 0.0 };
            if y > top && y + space + needed(blocks, at, column.bottom - column.top) > column.bottom + HAIR {
                break;
            }
            y += space;
            if let (Some(page), Some(title), 0) = (page.as_deref_mut(), &block.bookmark, at.line) {
                page.bookmarks.push(Bookmark { title: title.replace('\u{a0}', " "), y });
            }
            let fitting = block.lines[at.line..].iter().scan(y, |end, line| {
                *end += line.height;
                Some(*end)
            });
            // In an empty column the first line is put even where it has no room: the pouring must go on.
            let count =
                fitting.take_while(|end| *end <= column.bottom + HAIR).count().max(usize::from(y == top)).min(block.lines.len() - at.line);
            y = put_lines(&block.lines[at.line..at.line + count], column.x, y, page.as_deref_mut());
            at.line += count;
            if at.line < block.lines.len() {
                break;
            }
            at = Cursor { block: at.block + 1, line: 0 };
        }
        lowest = lowest.max(y);
    }
    Poured { until: at, lowest }
}

fn put_lines(lines: &[Line], x: f32, mut y: f32, mut page: Option<&mut Page>) -> f32 {
    for line in lines {
        if let Some(page) = page.as_deref_mut() {
            line.items.iter().for_each(|item| page.put(item.moved(x, y)));
        }
        y += line.height;
    }
    y
}

/// The height that must be free to begin here: the rest of the block, with all that it must not be parted from.
fn needed(blocks: &[Block], at: Cursor, room: f32) -> f32 {
    let rest: f32 = blocks[at.block].lines[at.line..].iter().map(|line| line.height).sum();
    let mut sum = if rest > room { first_line(&blocks[at.block]) } else { rest };
    for pair in blocks[at.block..].windows(2) {
        if !pair[0].with_next {
            break;
        }
        let whole = pair[1].height();
        sum += pair[1].space + if sum + whole > room { first_line(&pair[1]) } else { whole };
    }
    sum
}

fn first_line(block: &Block) -> f32 {
    block.lines.first().map_or(0.0, |line| line.height)
}

/// Pours into columns of even height where everything fits, else into full columns.
pub fn pour_evenly(blocks: &[Block], from: Cursor, columns: &[Column], page: &mut Page) -> Poured {
    let end = Cursor { block: blocks.len(), line: 0 };
    let full = pour(blocks, from, columns, None);
    let Some(first) = columns.first() else { return full };
    if full.until < end || columns.len() < 2 {
        return pour(blocks, from, columns, Some(page));
    }
    let cut = |height: f32| columns.iter().map(|column| Column { bottom: column.top + height, ..*column }).collect::<Vec<_>>();
    let (mut low, mut high) = (0.0, first.bottom - first.top);
    while high - low > 4.0 {
        let middle = (low + high) / 2.0;
        let tried = pour(blocks, from, &cut(middle), None);
        if tried.until == end && tried.lowest <= first.bottom + HAIR { high = middle } else { low = middle }
    }
    pour(blocks, from, &cut(high), Some(page))
}
