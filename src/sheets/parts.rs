//! Parts that both sheets are built of: headings over a hairline, hanging paragraphs, words and figures on one line.

use super::flow::Block;
use super::frame::{GRID, across};
use super::page::{BLACK, Item};
use super::text::{Line, Setter, Span, Style, strong, width_of};

/// Where the second and further lines of a note begin.
const HANG: f32 = 8.0;

/// At least this much stays free between words and figures.
const CLEAR: f32 = 12.0;

/// A quiet heading over a hairline; never alone at the foot of a column.
pub fn heading(setter: &mut Setter, title: &str, style: Style, width: f32) -> Block {
    let lines = setter.at_most(3, &[strong(title)], style, width);
    Block::of(underlined(lines, width)).spaced(2.0 * GRID).heading()
}

/// Lines with a hairline below the last.
pub fn underlined(mut lines: Vec<Line>, width: f32) -> Vec<Line> {
    if let Some(last) = lines.last_mut() {
        last.height += GRID;
        last.items.push(Item::Rule(across(0.0, width, last.height - 2.0, BLACK)));
    }
    lines
}

/// A paragraph whose further lines are set in a little.
pub fn hanging(setter: &mut Setter, spans: &[Span], style: Style, width: f32) -> Vec<Line> {
    let lines = setter.paragraph(spans, style, width - HANG);
    lines.into_iter().enumerate().map(|(index, line)| if index > 0 { line.moved(HANG) } else { line }).collect()
}

/// Words on the left and figures at the right edge, on one line where both have room, else the figures below.
pub fn opposite(setter: &mut Setter, words: &[Span], figures: &[Span], style: Style, width: f32) -> Vec<Line> {
    if figures.iter().all(|span| span.text.is_empty()) {
        return setter.paragraph(words, style, width);
    }
    let figures = setter.paragraph(figures, style, width);
    let widest = figures.iter().map(width_of).fold(0.0, f32::max);
    let beside = widest <= width * 0.55;
    let mut lines = setter.paragraph(words, style, if beside { width - widest - CLEAR } else { width });
    for (index, line) in figures.into_iter().enumerate() {
        let shift = width - width_of(&line);
        let line = line.moved(shift);
        match lines.get_mut(index).filter(|_| beside) {
            Some(existing) => existing.items.extend(line.items),
            None => lines.push(line),
        }
    }
    lines
}
