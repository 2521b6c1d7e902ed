//! Pouring blocks into columns.

use pretty_assertions::assert_eq;

use crate::sheets::flow::{Block, Column, Cursor, Poured, pour, pour_evenly, under_headings};
use crate::sheets::text::{Line, Setter, Style, plain};
use crate::sheets::{Item, Page};

const STYLE: Style = Style { size: 10.0, leading: 10.0 };

fn said(text: &str, lines: usize) -> Block {
    let mut setter = Setter::default();
    Block::of((0..lines).flat_map(|_| setter.paragraph(&[plain(text)], STYLE, 100.0)).collect())
}

fn two_columns(height: f32) -> [Column; 2] {
    [Column { x: 0.0, top: 0.0, bottom: height }, Column { x: 200.0, top: 0.0, bottom: height }]
}

/// The texts of both columns, from top to bottom.
fn poured(blocks: &[Block], height: f32) -> [Vec<String>; 2] {
    let mut page = Page::default();
    pour(blocks, Cursor::default(), &two_columns(height), Some(&mut page));
    [0.0, 200.0].map(|x| page.runs.iter().filter(|run| run.x == x).map(|run| run.text.clone()).collect())
}

#[test]
fn a_heading_goes_with_what_it_heads() {
    // 2 lines, a heading and a block of 2 lines: 50 points. In columns of 40 the heading would stand alone at the foot.
    let blocks = [said("a", 2), said("heading", 1).heading(), said("b", 2)];
    assert_eq!(poured(&blocks, 40.0), [vec!["a", "a"], vec!["heading", "b", "b"]]);
}

#[test]
fn a_block_stays_whole_where_a_column_holds_it() {
    assert_eq!(poured(&[said("a", 2), said("b", 2)], 30.0), [vec!["a", "a"], vec!["b", "b"]]);
}

#[test]
fn a_block_taller_than_a_column_is_broken_between_its_lines() {
    assert_eq!(poured(&[said("a", 5)], 30.0), [vec!["a", "a", "a"], vec!["a", "a"]]);
}

#[test]
fn a_heading_is_said_again_at_the_head_of_a_column() {
    let blocks = [said("heading", 1).heading(), said("a", 1).under(0), said("b", 1).under(0), said("c", 1).under(0)];
    assert_eq!(poured(&blocks, 30.0), [vec!["heading", "a", "b"], vec!["heading", "c"]]);
}

#[test]
fn a_column_too_low_for_a_single_line_still_gets_one() {
    assert_eq!(poured(&[said("a", 2)], 5.0), [vec!["a"], vec!["a"]]);
}

#[test]
fn columns_are_evened_out_where_everything_fits() {
    let blocks: Vec<Block> = (0..10).map(|_| said("a", 1)).collect();
    let mut page = Page::default();
    let done = pour_evenly(&blocks, Cursor::default(), &two_columns(100.0), &mut page);
    assert_eq!((done.until.block, done.lowest), (10, 50.0));
}

#[test]
fn an_amount_and_its_unit_go_to_the_next_line_together() {
    let lines = |width: f32| -> Vec<String> {
        let text = |line: &Line| match line.items.first() {
            Some(Item::Text(run)) => run.text.clone(),
            _ => String::new(),
        };
        Setter::default().paragraph(&[plain("take 2 × 400 g beans at 74 °C")], STYLE, width).iter().map(text).collect()
    };
    assert_eq!(lines(50.0), ["take", "2 × 400 g", "beans at", "74 °C"]);
}

#[test]
fn degrees_in_both_units_stay_on_one_line() {
    let lines = Setter::default().paragraph(&[plain("heat to 74 °C (165 °F)")], STYLE, 70.0);
    let first = |line: &Line| match line.items.first() {
        Some(Item::Text(run)) => run.text.clone(),
        _ => String::new(),
    };
    assert_eq!(lines.iter().map(first).collect::<Vec<_>>(), ["heat to", "74 °C (165 °F)"]);
}

#[test]
fn a_word_longer_than_a_line_is_broken_and_keeps_every_letter() {
    let word = "x".repeat(200);
    let lines = Setter::default().paragraph(&[plain(format!("a {word} b"))], STYLE, 100.0);
    let text = |line: &Line| match line.items.first() {
        Some(Item::Text(run)) => run.text.clone(),
        _ => String::new(),
    };
    assert_eq!(lines.iter().map(text).collect::<String>(), format!("a{word} b"));
}

#[test]
fn what_breaks_over_a_page_says_its_heading_again() {
    let line = || Line::empty(10.0);
    let mut blocks = vec![Block::of(vec![line()]).heading(), Block::of(vec![line()]), Block::of(vec![line()])];
    under_headings(&mut blocks);
    assert_eq!(blocks.iter().map(|block| block.under).collect::<Vec<_>>(), [None, Some(0), Some(0)]);
    // Two lines have room; on the next page the third stands below its heading again: two lines there, too.
    let column = [Column { x: 0.0, top: 0.0, bottom: 20.0 }];
    let first = pour(&blocks, Cursor::default(), &column, None);
    assert_eq!(first.until, Cursor { block: 2, line: 0 });
    assert_eq!(pour(&blocks, first.until, &column, None), Poured { until: Cursor { block: 3, line: 0 }, lowest: 20.0 });
}
