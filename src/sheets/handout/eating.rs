//! Day by day: which component goes into which meal, and each meal by its parts.

use itertools::Itertools;

use crate::handout::{Component, DayNumber, Goes, HandoutDay, HandoutMeal};
use crate::prep::{CardDish, Then, reheated};
use crate::words::{in_a_sentence, listed, place, sentence};

use super::{Book, led};
use crate::sheets::flow::{Block, Cursor, pour, under_headings};
use crate::sheets::frame::{GRID, across, columns, headed};
use crate::sheets::page::{BLACK, Item, Page};
use crate::sheets::parts::{hanging, heading};
use crate::sheets::text::{Line, Setter, Span, plain, soft, strong, width_of};
use crate::sheets::wording::{duration, tied};

const TITLE: &str = "Day by day";

/// The share of the width that the names of the components take.
const NAMES: f32 = 0.3;

/// So many lines must be free below the table for the first day to begin there.
const LEAST_BELOW: f32 = 14.0;

/// Free space between two cells.
const CLEAR: f32 = 6.0;

impl Book<'_> {
    pub(super) fn eating(&self, setter: &mut Setter) -> Vec<Page> {
        let (mut page, mut top) = headed(setter, self.settings, &self.head(TITLE, Vec::new()), "");
        let again = self.head(&format!("{TITLE}, continued"), Vec::new());
        let mut table = self.table(setter, self.width(1));
        let short = self.short_of_time();
        table.extend(short.iter().map(|spans| Block::of(hanging(setter, spans, self.kind.note, self.width(1))).spaced(GRID)));
        let (mut pages, mut from) = (Vec::new(), Cursor::default());
        while from.block < table.len() {
            let poured = pour(&table, from, &columns(self.settings, &page, top, 1).0, Some(&mut page));
            (from, top) = (poured.until, poured.lowest + 3.0 * GRID);
            if from.block < table.len() {
                pages.push(page);
                (page, top) = headed(setter, self.settings, &again, "");
            }
        }
        // A meal stays whole where a page has room for it: none begins in the little that the table leaves.
        if columns(self.settings, &page, top, 1).0[0].bottom - top < LEAST_BELOW * self.kind.body.leading {
            pages.push(page);
            (page, top) = headed(setter, self.settings, &again, "");
        }
        let width = self.width(self.count());
        let mut blocks: Vec<Block> = self.told.days.iter().flat_map(|day| self.day(setter, day, width)).collect();
        under_headings(&mut blocks);
        pages.extend(self.on_pages(setter, (page, top), TITLE, &blocks, self.count()));
        pages
    }

    /// A row a component, a column a day; a list where not even one day has room beside the names.
    fn table(&self, setter: &mut Setter, width: f32) -> Vec<Block> {
        let components = &self.told.components;
        if components.is_empty() {
            return Vec::new();
        }
        let goes_to = |component: &Component| {
            component.goes.iter().filter_map(|one| if let Goes::To(slot) = one { Some(slot.clone()) } else { None }).collect::<Vec<_>>()
        };
        // A day without any is looked for, too.
        let days: Vec<DayNumber> =
            components.iter().flat_map(goes_to).map(|slot| slot.day).chain(self.told.days.iter().map(|day| day.day)).collect();
        let days: Vec<DayNumber> = days.into_iter().sorted().dedup().collect();
        let mut blocks = vec![heading(setter, "Which component goes into which meal", self.kind.body, width)];
        let names = width * NAMES;
        let words: Vec<String> = components.iter().flat_map(goes_to).map(|slot| slot.word).chain(["day 00".to_owned()]).unique().collect();
        let widest =
            words.iter().map(|word| width_of(&setter.one_line(&[strong(word.as_str())], self.kind.note, width))).fold(0.0, f32::max);
        let side_by_side = ((width - names) / (widest + CLEAR)) as usize;
        if side_by_side == 0 {
            blocks.extend(components.iter().map(|component| self.in_a_line(setter, component, width)));
            return blocks;
        }
        // Where the days have no room side by side, the table goes on below with the rest of them.
        let parts = days.len().div_ceil(side_by_side).max(1);
        for days in days.chunks(days.len().div_ceil(parts).max(1)) {
            let cell = (width - names) / days.len() as f32;
            let heads: Vec<Vec<String>> = days.iter().map(|day| vec![sentence(&day.words())]).collect();
            blocks.push(Block::of(self.row(setter, "", &heads, (names, cell), true)).spaced(2.0 * GRID).heading());
            for component in components {
                let slots = goes_to(component);
                let cells: Vec<Vec<String>> =
                    days.iter().map(|day| slots.iter().filter(|slot| slot.day == *day).map(|slot| slot.word.clone()).collect()).collect();
                // On one of several tables, what goes nowhere on its days is left out.
                if parts > 1 && cells.iter().all(Vec::is_empty) {
                    continue;
                }
                let into = self.into(component);
                let name = self.names.recipe(component.recipe);
                let name = if into.is_empty() { name.to_owned() } else { format!("{name} ({into})") };
                blocks.push(Block::of(self.row(setter, &name, &cells, (names, cell), false)));
            }
        }
        under_headings(&mut blocks);
        blocks
    }

    /// "also in white-bean mash".
    fn into(&self, component: &Component) -> String {
        let dishes = component
            .goes
            .iter()
            .filter_map(|one| if let Goes::Into(dish) = one { Some(in_a_sentence(self.names.recipe(*dish))) } else { None });
        let dishes: Vec<String> = dishes.collect();
        if dishes.is_empty() { String::new() } else { format!("also in {}", listed(&dishes)) }
    }

    fn row(&self, setter: &mut Setter, name: &str, cells: &[Vec<String>], (names, cell): (f32, f32), is_head: bool) -> Vec<Line> {
        let note = self.kind.note;
        let mut lines = setter.paragraph(&[strong(name)], note, names - CLEAR);
        for (index, words) in cells.iter().enumerate() {
            for (at, word) in words.iter().enumerate() {
                let span = if is_head { strong(word.as_str()) } else { plain(word.as_str()) };
                let line = setter.one_line(&[span], note, cell).moved(names + index as f32 * cell);
                match lines.get_mut(at) {
                    Some(there) => there.items.extend(line.items),
                    None => lines.push(line),
                }
            }
        }
        let right = names + cells.len() as f32 * cell;
        if let Some(last) = lines.last_mut() {
            last.height += GRID;
            last.items.push(Item::Rule(across(0.0, right, last.height - 2.0, if is_head { BLACK } else { 0.75 })));
        }
        lines
    }

    fn in_a_line(&self, setter: &mut Setter, component: &Component, width: f32) -> Block {
        let slots = component.goes.iter().filter_map(|one| if let Goes::To(slot) = one { Some(slot.words()) } else { None });
        let into = self.into(component);
        let all = slots.chain((!into.is_empty()).then_some(into)).join(", ");
        Block::of(hanging(setter, &[strong(self.names.recipe(component.recipe)), plain(format!(": {all}"))], self.kind.note, width))
    }

    fn day(&self, setter: &mut Setter, one: &HandoutDay, width: f32) -> Vec<Block> {
        let name = sentence(&one.day.words());
        let mut blocks = vec![heading(setter, &name, self.kind.body, width).spaced(4.0 * GRID).marked(name)];
        let space = |at: usize| if at == 0 { 0.0 } else { 2.0 * GRID };
        blocks.extend(one.meals.iter().enumerate().map(|(at, meal)| self.meal(setter, meal, width).spaced(space(at))));
        let tonight = one.tonight.iter().map(|errand| led("In the evening:", format!("{}.", errand.text(self.names, self.units()))));
        blocks.extend(tonight.map(|spans| Block::of(hanging(setter, &spans, self.kind.note, width)).spaced(GRID)).collect::<Vec<_>>());
        blocks
    }

    /// "Day 1, supper: Filled flatbreads: spiced beans + yoghurt + slaw", and what is done for it.
    fn meal(&self, setter: &mut Setter, meal: &HandoutMeal, width: f32) -> Block {
        let slot = format!("{}, {}: ", sentence(&meal.slot.day.words()), meal.slot.word);
        let parts = meal.parts.join(" + ");
        let head = match &meal.card.called {
            Some(name) => vec![strong(format!("{slot}{name}")), plain(format!(": {parts}"))],
            None => vec![strong(slot), plain(parts)],
        };
        let mut lines = hanging(setter, &head, self.kind.body, width);
        for spans in self.told_of(meal) {
            lines.extend(hanging(setter, &spans, self.kind.note, width));
        }
        Block::of(lines)
    }

    fn told_of(&self, meal: &HandoutMeal) -> Vec<Vec<Span>> {
        let card = &meal.card;
        let mut told: Vec<Vec<Span>> = Vec::new();
        for one in &meal.ahead {
            told.push(led(&format!("{} before:", duration(one.before.0)), one.text.as_str()));
        }
        let taken: Vec<String> = card.dishes.iter().map(|dish| self.taken_out(dish)).collect();
        if !taken.is_empty() {
            told.push(led("Take out:", format!("{}.", taken.join("; "))));
        }
        let named = |wanted: fn(&Then) -> bool| -> Vec<String> {
            let dishes = card.dishes.iter().filter(|dish| wanted(&dish.then)).map(|dish| in_a_sentence(self.names.recipe(dish.recipe)));
            dishes.unique().collect()
        };
        let hot = named(|then| *then == Then::Eaten(Some(crate::kitchen::Serve::Hot)));
        if !hot.is_empty() {
            told.push(led("Heat:", format!("{}, to {} throughout.", listed(&hot), reheated(self.units()))));
        }
        let either = named(|then| *then == Then::Eaten(None));
        if !either.is_empty() {
            told.push(led("Cold or hot:", format!("{}; hot means {} throughout.", listed(&either), reheated(self.units()))));
        }
        if !meal.cooked.is_empty() {
            told.push(led("Cook:", format!("{}.", meal.cooked.join("; "))));
        }
        for making in &card.made {
            told.push(led("Make fresh:", self.names.recipe(making.recipe)));
            told.extend(
                making.steps.iter().enumerate().map(|(index, step)| led(&format!("{}", index + 1), step.text(self.names, self.units()))),
            );
        }
        told.push(self.together(meal));
        told.extend(card.otherwise.iter().map(|one| vec![strong(format!("{}.", sentence(one)))]));
        told.extend(meal.spared.iter().map(|(recipe, minutes)| {
            let name = in_a_sentence(self.names.recipe(*recipe));
            led("Short of time?", format!("Leave out {name}, saves {}.", duration(minutes.0)))
        }));
        told
    }

    /// "Put together: on each plate 1 portion pearl barley and 30 g feta; for the table 1 lemon."
    fn together(&self, meal: &HandoutMeal) -> Vec<Span> {
        let each = (!meal.each.is_empty()).then(|| format!("on each plate {}", listed(&meal.each)));
        let shared = (!meal.shared.is_empty()).then(|| format!("for the table {}", listed(&meal.shared)));
        let mut spans = led("Put together:", format!("{}.", each.into_iter().chain(shared).join("; ")));
        let texts = meal
            .card
            .dishes
            .iter()
            .filter(|dish| !matches!(dish.then, Then::Into(_)))
            .flat_map(|dish| self.names.with_the_dish(dish.recipe));
        spans.extend(texts.map(|text| soft(format!(" {}.", text.trim_end_matches('.')))));
        spans.extend(meal.card.text.iter().map(|text| plain(format!(" {}.", text.trim_end_matches('.')))));
        spans
    }

    /// "2½ portions of pearl barley, flat tub in the fridge".
    fn taken_out(&self, dish: &CardDish) -> String {
        let from = match (dish.place, &dish.boxed) {
            (None, _) => "straight from the pot".to_owned(),
            (Some(at), None) => format!("from the {}", place(at)),
            (Some(at), Some(kind)) => format!("from the {kind} in the {}", place(at)),
        };
        let into = match &dish.then {
            Then::Into(dishes) => {
                format!(", for {}", listed(&dishes.iter().map(|id| in_a_sentence(self.names.recipe(*id))).collect::<Vec<_>>()))
            }
            _ => String::new(),
        };
        let amount = dish.amount_text(self.units());
        let much = dish.words(self.names, self.units(), " ").replacen(&amount, &tied(&amount), 1);
        format!("{much}, {from}{into}")
    }
}
