//! The week card: the meals by day, for the fridge door. What is said of a meal is given.

use crate::kitchen::Names;
use crate::kitchen::much::for_whom;
use crate::measure::Units;
use crate::prep::{AT_THE_MEAL, CardDay, CardDish, CardMeal, Then, WeekCard};

use super::cares::{by_source, run_in};
use super::flow::{Block, Cursor, pour_evenly, under_headings};
use super::frame::{GRID, Head, columns, finished, headed, number_pages};
use super::page::Page;
use super::parts::{hanging, heading};
use super::scale::{Size, style};
use super::shopping::short_lines;
use super::text::{Setter, Span, Style, plain, soft, strong};
use super::wording::{day, tied};
use super::{Settings, Sheet};
use crate::words::{place, sentence};

/// The type of a card: of its days and meals, and of what is told of them.
#[derive(Clone, Copy)]
struct Type {
    body: Style,
    note: Style,
    /// What to take care of, at the foot.
    care: Style,
}

/// Read standing before the fridge; smaller where that saves a page.
const SIZES: [Type; 4] = [
    Type { body: style(13.0, 16.0), note: style(11.5, 14.5), care: style(9.5, 11.5) },
    Type { body: style(12.0, 15.0), note: style(10.5, 13.0), care: style(9.5, 11.5) },
    Type { body: style(11.0, 14.0), note: style(9.5, 12.0), care: style(7.5, 9.5) },
    Type { body: style(10.0, 12.5), note: style(9.5, 12.0), care: style(7.5, 9.5) },
];

const LARGE: [Type; 1] = [Type { body: style(16.0, 20.0), note: style(14.0, 18.0), care: style(14.0, 17.0) }];

/// The card of a week.
pub fn week_card_sheet(card: &WeekCard, names: Names, settings: Settings) -> Sheet {
    let mut setter = Setter::default();
    let title = format!("Week card, {}", card.week);
    let sizes = if settings.size == Size::Large { &LARGE[..] } else { &SIZES[..] };
    let ways = sizes.iter().map(|kind| laid_out(&mut setter, card, &title, names, settings, *kind));
    let mut pages = ways.min_by_key(Vec::len).unwrap_or_default();
    number_pages(&mut setter, &mut pages, &title, settings);
    finished(setter, format!("week-card-{}", card.from), title, pages, Vec::new())
}

fn laid_out(setter: &mut Setter, card: &WeekCard, over: &str, names: Names, settings: Settings, kind: Type) -> Vec<Page> {
    let span = match (card.days.first(), card.days.last()) {
        (Some(first), Some(last)) => format!("{} to {}", day(first.on), day(last.on)),
        _ => "No meals".to_owned(),
    };
    let mut under: Vec<Vec<Span>> = card.not_known.iter().map(|text| vec![strong(text)]).collect();
    under.extend(short_lines(&card.short, names, settings.units));
    let head = Head { over: over.to_owned(), title: span, under };
    let (mut page, mut top) = headed(setter, settings, &head, names.household);
    // Large lines want the width of the page.
    let count = if settings.size == Size::Large { 1 } else { 2 };
    let width = columns(settings, &page, top, count).1;
    let column = Column { names, units: settings.units, kind, width };
    let mut blocks: Vec<Block> = card.days.iter().flat_map(|day| column.day(setter, day)).collect();
    let foot = card.heating_text(settings.units).map(|text| hanging(setter, &[soft(text)], kind.note, width));
    blocks.extend(column.cautions(setter, card));
    under_headings(&mut blocks);
    blocks.extend(foot.map(|lines| Block::of(lines).spaced(3.0 * GRID)));
    let again = Head { title: format!("{}, continued", head.title), over: head.over.clone(), under: head.under.clone() };
    let mut pages = Vec::new();
    let mut from = Cursor::default();
    loop {
        let two = columns(settings, &page, top, count).0;
        from = pour_evenly(&blocks, from, &two, &mut page).until;
        pages.push(page);
        if from.block >= blocks.len() {
            return pages;
        }
        (page, top) = headed(setter, settings, &again, names.household);
    }
}

/// What all blocks of a card have in common.
struct Column<'a> {
    names: Names<'a>,
    units: Units,
    kind: Type,
    width: f32,
}

impl Column<'_> {
    fn day(&self, setter: &mut Setter, one: &CardDay) -> Vec<Block> {
        let Type { body, .. } = self.kind;
        let mut blocks = vec![heading(setter, &day(one.on), body, self.width).marked(day(one.on))];
        blocks.extend(one.meals.iter().map(|meal| self.meal(setter, meal).spaced(GRID)));
        let tonight =
            one.tonight.iter().map(|errand| vec![strong(format!("{}: ", errand.when())), plain(errand.text(self.names, self.units))]);
        blocks.extend(tonight.map(|spans| Block::of(hanging(setter, &spans, body, self.width)).spaced(GRID)));
        blocks
    }

    /// What is made or added at a meal asks for the same care as in a session.
    fn cautions(&self, setter: &mut Setter, card: &WeekCard) -> Vec<Block> {
        if card.cautions.is_empty() {
            return Vec::new();
        }
        let said = run_in(by_source(card.cautions.iter(), self.names, false));
        let lines = hanging(setter, &said, self.kind.care, self.width);
        let mut blocks = vec![heading(setter, AT_THE_MEAL, self.kind.note, self.width)];
        blocks.extend(lines.into_iter().map(|line| Block::of(vec![line])));
        blocks
    }

    fn meal(&self, setter: &mut Setter, meal: &CardMeal) -> Block {
        let mut head = vec![strong(meal.label.as_str())];
        head.extend(meal.called.iter().map(|name| plain(format!("  {name}"))));
        let mut lines = hanging(setter, &head, self.kind.body, self.width);
        let mut note = |spans: &[Span]| lines.extend(hanging(setter, spans, self.kind.note, self.width));
        for one in meal.otherwise.iter().chain(&meal.choking) {
            note(&[strong(format!("{one}."))]);
        }
        if let Some(beware) = &meal.beware {
            note(&[strong(format!("{}.", sentence(&beware.to_string())))]);
        }
        meal.dishes.iter().for_each(|dish| note(&self.taken_out(dish)));
        if let Some(text) = &meal.text {
            note(&[plain(text.as_str())]);
        }
        meal.cook.iter().for_each(|cook| note(&[strong("Cook: "), plain(cook.text())]));
        let fresh = meal.added();
        if !fresh.is_empty() {
            note(&[strong("Add: "), plain(fresh.join("; "))]);
        }
        for making in &meal.made {
            note(&[strong(format!("Make: {}", self.names.recipe(making.recipe)))]);
            for (index, step) in making.steps.iter().enumerate() {
                note(&[strong(format!("{}  ", index + 1)), plain(step.text(self.names, self.units))]);
            }
        }
        Block::of(lines)
    }

    /// "Pearl barley, 2½ portions, fridge: heat".
    fn taken_out(&self, dish: &CardDish) -> Vec<Span> {
        let from = match (dish.place, &dish.boxed) {
            (None, _) => "straight from the pot".to_owned(),
            (Some(at), None) => place(at).to_owned(),
            (Some(at), Some(kind)) => format!("{kind} in the {}", place(at)),
        };
        let amount = tied(&dish.amount_text(self.units));
        let whose = for_whom(self.names, dish.whose.as_ref());
        let mut spans = vec![plain(self.names.recipe(dish.recipe)), plain(format!("{whose}, {amount}, {from}"))];
        spans.extend(dish.then.brief(self.names, self.units).map(|then| soft(format!(": {then}"))));
        if !matches!(dish.then, Then::Into(_)) {
            spans.extend(self.names.with_the_dish(dish.recipe).map(|text| soft(format!(". {}", text.trim_end_matches('.')))));
        }
        spans
    }
}
