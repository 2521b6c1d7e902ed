//! Before you begin: what to buy, and what to have ready.

use itertools::Itertools;

use crate::foods::FoodId;
use crate::handout::{Buying, BuyingLine, Needed};
use crate::kitchen::much::called;
use crate::kitchen::{Elsewhere, Names, RecipeId, Ware};
use crate::measure::{Quantity, Units, show};
use crate::sheets::face::Weight;
use crate::words::{degrees, duration, in_a_sentence, listed, sentence};

use super::Book;
use crate::sheets::flow::{Block, under_headings};
use crate::sheets::frame::{GRID, across, headed};
use crate::sheets::page::{Item, Page, Rect};
use crate::sheets::parts::{heading, opposite};
use crate::sheets::text::{Line, Setter, Span, plain, soft, strong};
use crate::sheets::wording::{amount, tied};

impl Book<'_> {
    pub(super) fn before(&self, setter: &mut Setter) -> Vec<Page> {
        const TITLE: &str = "Before you begin";
        let under = vec![vec![plain("The list is for an empty shelf: cross out what you have.")]];
        let begun = headed(setter, self.settings, &self.head(TITLE, under), "");
        let width = self.width(self.count());
        let mut blocks: Vec<Block> = Vec::new();
        for buying in &self.told.buying {
            blocks.extend(self.buying(setter, buying, width));
        }
        let foods = |foods: &[FoodId]| foods.iter().map(|food| called(self.names, Ware::Food(*food), &Quantity::grams(SEVERAL))).join(", ");
        let paragraph = |foods: String| if foods.is_empty() { Vec::new() } else { vec![vec![plain(foods)]] };
        let body = self.kind.body;
        blocks.extend(self.group(setter, "Bought every week beside it", &paragraph(foods(&self.told.weekly)), body, width));
        blocks.extend(self.group(setter, "Taken to be at home", &paragraph(foods(&self.told.at_home)), body, width));
        blocks.extend(self.group(setter, "Have ready", &self.ready(), body, width));
        blocks.extend(self.group(setter, "Without an appliance", &self.without(), body, width));
        under_headings(&mut blocks);
        self.on_pages(setter, begun, TITLE, &blocks, self.count())
    }

    fn buying(&self, setter: &mut Setter, buying: &Buying, width: f32) -> Vec<Block> {
        let title = match buying.on {
            None => "Buy before you begin".to_owned(),
            Some(day) => format!("Buy on {}", day.words()),
        };
        let mut blocks = vec![heading(setter, &title, self.kind.body, width).spaced(4.0 * GRID).marked(title.clone())];
        for section in &buying.sections {
            let name = setter.at_most(2, &[Span { weight: Weight::SemiBold, ..soft(section.section.as_str()) }], self.kind.note, width);
            blocks.push(Block::of(name).spaced(2.0 * GRID).heading());
            blocks.extend(section.lines.iter().map(|line| self.line(setter, line, width)));
        }
        blocks
    }

    /// A box to tick, the food, how much of it, and below what it is for.
    fn line(&self, setter: &mut Setter, line: &BuyingLine, width: f32) -> Block {
        let body = self.kind.body;
        let side = (0.77 * body.size).round();
        let indent = side + 2.0 * GRID;
        let mut lines = opposite(setter, &[strong(line.name.as_str())], &[plain(need_words(line, self.units()))], body, width - indent);
        let what_for = line.what_for.iter().map(|one| in_a_sentence(one)).join(", ");
        let optional = if line.optional { "optional; " } else { "" };
        lines.extend(setter.paragraph(&[soft(format!("{optional}for {what_for}"))], self.kind.note, width - indent));
        let mut lines: Vec<Line> = lines.into_iter().map(|line| line.moved(indent)).collect();
        if let Some(first) = lines.first_mut() {
            let top = (body.leading - side) / 2.0;
            first.items.push(Item::Rect(Rect { x: 0.0, y: top, width: side, height: side, fill: None, outline: Some(0.8) }));
        }
        if let Some(last) = lines.last_mut() {
            last.height += GRID;
            last.items.push(Item::Rule(across(indent, width, last.height - 2.0, 0.75)));
        }
        Block::of(lines)
    }

    fn ready(&self) -> Vec<Vec<Span>> {
        let needed = &self.told.ready.needed;
        let place = |one: &Needed| {
            let name = sentence(self.names.appliance(one.appliance));
            let most = if one.most > 1 { format!(", {} places at one time", one.most) } else { String::new() };
            vec![strong(name), plain(most)]
        };
        let boxes: Vec<String> = self.told.ready.boxes.iter().map(ToString::to_string).collect();
        let boxes = (!boxes.is_empty()).then(|| vec![strong("Boxes"), plain(format!(": {}", listed(&boxes)))]);
        needed.iter().map(place).chain(boxes).collect()
    }

    /// What cannot be made without each appliance, and what goes elsewhere; the rest works without it.
    fn without(&self) -> Vec<Vec<Span>> {
        let all = self.told.recipes.len();
        let told = |one: &Needed| {
            let name = self.names.appliance(one.appliance);
            let mut texts: Vec<String> = one.elsewhere.iter().map(|(dish, others)| self.goes(*dish, others)).collect();
            if one.dishes.len() >= all {
                texts.push("every dish needs it.".to_owned());
            } else if !one.dishes.is_empty() {
                let (dishes, it) = (dishes(&one.dishes, self.names), it(&one.dishes));
                texts.push(format!("the plan works if you leave out {dishes}, or cook {it} another way."));
            }
            let texts: Vec<String> =
                texts.iter().enumerate().map(|(at, text)| if at == 0 { text.clone() } else { sentence(text) }).collect();
            vec![strong(format!("No {name}: ")), plain(texts.join(" "))]
        };
        self.told.ready.needed.iter().map(told).collect()
    }

    /// "pearl barley can be cooked with the hob, 35 min."
    fn goes(&self, dish: RecipeId, others: &[Elsewhere]) -> String {
        let place = |other: &Elsewhere| {
            let heat = other.temperature.map(|heat| format!(" at {}", degrees(heat, self.units())));
            let wait = other.wait.filter(|wait| wait.0 > 0).map(|wait| format!(", {}", duration(wait.0)));
            format!("the {}{}{}", self.names.appliance(other.on), heat.unwrap_or_default(), wait.unwrap_or_default())
        };
        let places: Vec<String> = others.iter().map(place).unique().collect();
        format!("{} can be cooked with {}.", in_a_sentence(self.names.recipe(dish)), listed(&places))
    }
}

/// In grams, more than one of anything that is counted.
const SEVERAL: i64 = 1_000_000;

fn it(dishes: &[RecipeId]) -> &'static str {
    if dishes.len() == 1 { "it" } else { "them" }
}

fn dishes(dishes: &[RecipeId], names: Names) -> String {
    listed(&dishes.iter().map(|id| in_a_sentence(names.recipe(*id))).collect::<Vec<_>>())
}

/// "1 kg, about 12", "800 g, 2 of 400 g", "6", "to taste".
pub(super) fn need_words(line: &BuyingLine, units: Units) -> String {
    if line.amounts.is_empty() {
        return tied("to taste");
    }
    let amounts = line.amounts.iter().map(|one| amount(one, units)).join(" and ");
    let tins =
        line.tins.as_ref().map(|(count, size)| format!("{} of {}", show(&Quantity::pieces(count.clone()), units), amount(size, units)));
    // Whoever shops looks for cloves and sprigs, and not for grams of them.
    if let (Some(counted), [weight]) = (&line.counted, line.amounts.as_slice()) {
        let weight = (weight.dimension() != counted.dimension()).then(|| amount(weight, units));
        return [Some(amount(counted, units)), weight].into_iter().flatten().join(", ");
    }
    let about = line.about.map(|pieces| format!("about {pieces}"));
    [Some(amounts), tins.or(about).map(|more| tied(&more))].into_iter().flatten().join(", ")
}
