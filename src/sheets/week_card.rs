//! The week card: the meals by day, for the fridge door. What is said of a meal is given.

use crate::prep::{CardDay, CardDish, CardMeal, WeekCard};

use super::flow::{Block, Cursor, pour_evenly};
use super::frame::{GRID, Head, NOTE, columns, finished, headed, number_pages};
use super::parts::{hanging, heading};
use super::text::{Setter, Span, Style, plain, soft, strong};
use super::wording::{day, place};
use super::{Settings, Sheet};

/// The type of the card: read standing before the fridge; smaller where that saves a page.
const SIZES: [Style; 2] = [Style { size: 11.0, leading: 14.0 }, Style { size: 10.0, leading: 12.5 }];

/// The card of a week.
pub fn week_card_sheet(card: &WeekCard, household: &str, settings: Settings) -> Sheet {
    let mut setter = Setter::default();
    let title = format!("Week card, {}", card.week);
    let ways = SIZES.map(|style| laid_out(&mut setter, card, &title, household, settings, style));
    let mut pages = ways.into_iter().min_by_key(Vec::len).unwrap_or_default();
    number_pages(&mut setter, &mut pages, &title);
    finished(setter, format!("week-card-{}", card.from), title, pages, Vec::new())
}

fn laid_out(setter: &mut Setter, card: &WeekCard, over: &str, household: &str, settings: Settings, style: Style) -> Vec<super::page::Page> {
    let span = match (card.days.first(), card.days.last()) {
        (Some(first), Some(last)) => format!("{} to {}", day(first.on), day(last.on)),
        _ => "No meals".to_owned(),
    };
    let head = Head { over: over.to_owned(), title: span, under: Vec::new() };
    let (mut page, mut top) = headed(setter, settings, &head, household);
    let width = columns(&page, top, 2).1;
    let blocks: Vec<Block> = card.days.iter().flat_map(|day| day_blocks(setter, day, style, width)).collect();
    let mut pages = Vec::new();
    let mut from = Cursor::default();
    loop {
        let two = columns(&page, top, 2).0;
        from = pour_evenly(&blocks, from, &two, &mut page).until;
        pages.push(page);
        if from.block >= blocks.len() {
            return pages;
        }
        (page, top) = headed(setter, settings, &head, household);
    }
}

fn day_blocks(setter: &mut Setter, one: &CardDay, style: Style, width: f32) -> Vec<Block> {
    let mut blocks = vec![heading(setter, &day(one.on), style, width)];
    blocks.extend(one.meals.iter().map(|meal| meal_block(setter, meal, style, width).spaced(GRID)));
    let tonight = one.tonight.iter().map(|text| vec![strong("Tonight: "), plain(text)]);
    blocks.extend(tonight.map(|spans| Block::of(hanging(setter, &spans, style, width)).spaced(GRID)));
    blocks
}

fn meal_block(setter: &mut Setter, meal: &CardMeal, style: Style, width: f32) -> Block {
    let mut head = vec![strong(meal.label.as_str())];
    head.extend(meal.name.iter().map(|name| plain(format!("  {name}"))));
    let mut lines = hanging(setter, &head, style, width);
    for dish in &meal.dishes {
        lines.extend(hanging(setter, &taken_out(dish), NOTE, width));
    }
    if !meal.fresh.is_empty() {
        lines.extend(hanging(setter, &[strong("Add: "), plain(meal.fresh.join("; "))], NOTE, width));
    }
    for making in &meal.made {
        lines.extend(hanging(setter, &[strong(format!("Make: {}", making.dish))], NOTE, width));
        for (index, step) in making.steps.iter().enumerate() {
            lines.extend(hanging(setter, &[strong(format!("{}  ", index + 1)), plain(step)], NOTE, width));
        }
    }
    Block::of(lines)
}

/// "Pearl barley, 2½ portions, fridge: heat to 74 °C (165 °F)".
fn taken_out(dish: &CardDish) -> Vec<Span> {
    let from = dish.place.map_or("straight from the pot", place);
    let mut spans = vec![plain(dish.dish.as_str()), plain(format!(", {}, {from}", dish.amount.replace(' ', "\u{a0}")))];
    if !dish.heating.is_empty() {
        spans.push(soft(format!(": {}", dish.heating)));
    }
    spans
}
