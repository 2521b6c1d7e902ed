//! Setting text into lines of a given width. It must not know what the text says, only where an amount would be torn from its unit.

use std::collections::BTreeSet;

use unicode_linebreak::linebreaks;

use super::face::{Weight, printable, typeface};
use super::page::{BLACK, Grey, Item, SOFT, TextRun};

/// A stretch of text in one style.
#[derive(Debug, Clone, PartialEq)]
pub struct Span {
    pub text: String,
    pub weight: Weight,
    pub grey: Grey,
}

pub fn plain(text: impl Into<String>) -> Span {
    Span { text: text.into(), weight: Weight::Regular, grey: BLACK }
}

pub fn strong(text: impl Into<String>) -> Span {
    Span { text: text.into(), weight: Weight::SemiBold, grey: BLACK }
}

pub fn soft(text: impl Into<String>) -> Span {
    Span { text: text.into(), weight: Weight::Regular, grey: SOFT }
}

/// Size of the type and distance of its baselines, in points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Style {
    pub size: f32,
    pub leading: f32,
}

/// One line of a block: its height, and what stands on it, from the line's top left corner.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Line {
    pub height: f32,
    pub items: Vec<Item>,
}

impl Line {
    pub fn empty(height: f32) -> Line {
        Line { height, items: Vec::new() }
    }

    pub fn moved(mut self, dx: f32) -> Line {
        self.items = self.items.iter().map(|item| item.moved(dx, 0.0)).collect();
        self
    }
}

/// Where the baseline lies below the top of its line.
pub fn baseline(style: Style) -> f32 {
    style.leading / 2.0 + 0.23 * style.size
}

/// Sets text, and remembers the characters that it had no shape for.
#[derive(Debug, Default)]
pub struct Setter {
    pub missing: BTreeSet<char>,
}

/// One character with its style and its width.
#[derive(Clone, Copy)]
struct Sort {
    c: char,
    span: usize,
    width: f32,
}

impl Setter {
    /// A paragraph in lines no wider than `width`. Never empty; without text it is one empty line.
    pub fn paragraph(&mut self, spans: &[Span], style: Style, width: f32) -> Vec<Line> {
        let sorts = self.sorts(spans, style.size);
        let lines = broken(&sorts, width);
        lines.into_iter().map(|line| set_line(&sorts[line.0..line.1], spans, style)).collect()
    }

    /// As a paragraph, of at most `most` lines, the last of which ends in "…" where something is left out.
    pub fn at_most(&mut self, most: usize, spans: &[Span], style: Style, width: f32) -> Vec<Line> {
        let sorts = self.sorts(spans, style.size);
        let lines = broken(&sorts, width);
        if lines.len() <= most {
            return lines.into_iter().map(|line| set_line(&sorts[line.0..line.1], spans, style)).collect();
        }
        let mut out: Vec<Line> = lines[..most - 1].iter().map(|line| set_line(&sorts[line.0..line.1], spans, style)).collect();
        let (from, _) = lines[most - 1];
        let dots = typeface(Weight::SemiBold).advance('…', style.size);
        let mut last = Vec::new();
        let mut used = dots;
        for sort in &sorts[from..] {
            used += sort.width;
            if used > width {
                break;
            }
            last.push(*sort);
        }
        let span = last.last().map_or(0, |sort: &Sort| sort.span);
        while last.last().is_some_and(|sort| is_space(sort.c)) {
            last.pop();
        }
        last.push(Sort { c: '…', span, width: dots });
        out.push(set_line(&last, spans, style));
        out
    }

    /// One line that is cut off with "…" where it is wider than `width`.
    pub fn one_line(&mut self, spans: &[Span], style: Style, width: f32) -> Line {
        self.at_most(1, spans, style, width).pop().unwrap_or_default()
    }

    fn sorts(&mut self, spans: &[Span], size: f32) -> Vec<Sort> {
        let mut sorts: Vec<Sort> = Vec::new();
        for (index, span) in spans.iter().enumerate() {
            let face = typeface(span.weight);
            for c in printable(&span.text, &mut self.missing).chars() {
                let doubled = c == ' ' && sorts.last().is_none_or(|last| last.c == ' ');
                if !doubled {
                    sorts.push(Sort { c, span: index, width: face.advance(c, size) });
                }
            }
        }
        bind_amounts(&mut sorts);
        sorts
    }
}

/// The natural width of spans on one line.
pub fn width_of(line: &Line) -> f32 {
    line.items
        .iter()
        .map(|item| match item {
            Item::Text(run) => run.x + run.width(),
            _ => 0.0,
        })
        .fold(0.0, f32::max)
}

fn is_space(c: char) -> bool {
    c == ' ' || c == '\u{a0}'
}

/// A number is not parted from the short word, sign or number that follows it: "830 g", "2 × 400 g", "74 °C", "1 ½".
fn bind_amounts(sorts: &mut [Sort]) {
    for at in 1..sorts.len().saturating_sub(1) {
        if sorts[at].c != ' ' {
            continue;
        }
        let before = sorts[at - 1].c;
        let after = sorts[at + 1].c;
        let counts = before.is_numeric() || before == '×';
        let word = sorts[at + 1..].iter().take_while(|sort| !is_space(sort.c)).count();
        // "74 °C (165 °F)" is one figure.
        let degrees = after == '(' && at > 1 && sorts[at - 2].c == '°';
        if degrees || (counts && word <= 12 && (after.is_alphanumeric() || after == '×' || after == '°')) {
            sorts[at].c = '\u{a0}';
        }
    }
}

/// Ranges of sorts, one a line, without the spaces at their ends.
fn broken(sorts: &[Sort], width: f32) -> Vec<(usize, usize)> {
    let text: String = sorts.iter().map(|sort| sort.c).collect();
    let mut byte_to_sort = vec![0; text.len() + 1];
    for (index, (byte, _)) in text.char_indices().enumerate() {
        byte_to_sort[byte] = index;
    }
    byte_to_sort[text.len()] = sorts.len();
    let mut lines = Vec::new();
    let (mut start, mut end, mut used) = (0, 0, 0.0);
    for (byte, _) in linebreaks(&text) {
        let next = byte_to_sort[byte];
        // A range is not parted: "2–3 cloves".
        if next >= 2 && next < sorts.len() && sorts[next - 1].c == '–' && sorts[next - 2].c.is_numeric() && sorts[next].c.is_numeric() {
            continue;
        }
        let whole: f32 = sorts[end..next].iter().map(|sort| sort.width).sum();
        let bare: f32 = sorts[end..trimmed(sorts, end, next)].iter().map(|sort| sort.width).sum();
        if used + bare > width && end > start {
            lines.push((start, trimmed(sorts, start, end)));
            (start, used) = (end, 0.0);
        }
        if bare > width {
            (start, used) = chopped(sorts, end, next, width, &mut lines);
        } else {
            used += whole;
        }
        end = next;
    }
    if end > start || lines.is_empty() {
        lines.push((start, trimmed(sorts, start, end)));
    }
    lines
}

/// Cuts a word that is wider than a line between its letters; the start and the width of what is left on the last line.
fn chopped(sorts: &[Sort], from: usize, to: usize, width: f32, lines: &mut Vec<(usize, usize)>) -> (usize, f32) {
    let (mut start, mut used) = (from, 0.0);
    for (index, sort) in sorts.iter().enumerate().take(to).skip(from) {
        // A mark of no width stays with the letter it stands on.
        if used + sort.width > width && sort.width > 0.0 && index > start {
            lines.push((start, trimmed(sorts, start, index)));
            (start, used) = (index, 0.0);
        }
        used += sort.width;
    }
    (start, used)
}

fn trimmed(sorts: &[Sort], start: usize, mut end: usize) -> usize {
    while end > start && is_space(sorts[end - 1].c) {
        end -= 1;
    }
    end
}

fn set_line(sorts: &[Sort], spans: &[Span], style: Style) -> Line {
    let mut items: Vec<Item> = Vec::new();
    let mut x = 0.0;
    let mut current = None;
    for sort in sorts {
        let c = if sort.c == '\u{a0}' { ' ' } else { sort.c };
        match items.last_mut() {
            Some(Item::Text(run)) if current == Some(sort.span) => run.text.push(c),
            _ => {
                let span = &spans[sort.span];
                items.push(Item::Text(TextRun {
                    x,
                    baseline: baseline(style),
                    size: style.size,
                    weight: span.weight,
                    grey: span.grey,
                    text: c.to_string(),
                }));
                current = Some(sort.span);
            }
        }
        x += sort.width;
    }
    Line { height: style.leading, items }
}
