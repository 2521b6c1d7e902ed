//! Recipe pages: one recipe after another, each on one page where it fits. What is said of it is given.

use itertools::Itertools;

use crate::kitchen::{Names, Serve, Source};
use crate::measure::{Days, Minutes, Quantity, Units};
use crate::prep::{PageLine, PageSize, PageStep, RecipePage, SizeOf};
use crate::purchase::{Of, PortionNote};
use crate::telling::list;
use crate::words::{degrees, sentence};

use super::flow::{Block, Cursor, pour};
use super::frame::{GRID, Head, across, columns, finished, headed, number_pages};
use super::page::{BLACK, MARGIN, Page};
use super::parts::{hanging, heading};
use super::scale::{Size, style};
use super::text::{Line, Setter, Span, Style, plain, soft, strong, width_of};
use super::wording::{amount, day, duration};
use super::{Settings, Sheet};

/// The type of a page: of ingredients and steps, and of what is read second.
#[derive(Clone, Copy)]
pub(super) struct Type {
    pub body: Style,
    pub note: Style,
}

/// Read at arm's length over the pot; smaller where that saves a page.
const SIZES: [Type; 3] = [
    Type { body: style(12.0, 15.5), note: style(9.5, 12.0) },
    Type { body: style(11.0, 14.0), note: style(9.5, 12.0) },
    Type { body: style(10.0, 12.5), note: style(9.0, 11.5) },
];

pub(super) const LARGE: [Type; 1] = [Type { body: style(16.0, 20.0), note: style(14.0, 18.0) }];

/// A page, and what so much of it holds.
pub type Told = (RecipePage, (Of, PortionNote));

/// The recipes under one title.
pub fn recipe_sheet(recipes: &[Told], (title, file_stem): (&str, String), names: Names, settings: Settings) -> Sheet {
    let mut setter = Setter::default();
    let mut pages: Vec<Page> = Vec::new();
    for told in recipes {
        let sizes = if settings.size == Size::Large { &LARGE[..] } else { &SIZES[..] };
        let ways = sizes.iter().map(|kind| laid_out(&mut setter, told, title, names, settings, *kind));
        pages.extend(ways.min_by_key(Vec::len).unwrap_or_default());
    }
    if pages.is_empty() {
        let head = Head { over: title.to_owned(), title: "Nothing is cooked".to_owned(), under: Vec::new() };
        pages.push(headed(&mut setter, settings, &head, names.household).0);
    }
    number_pages(&mut setter, &mut pages, title, settings);
    finished(setter, file_stem, title.to_owned(), pages, Vec::new())
}

/// Recipes one after another, each kept on one page where it fits: a short one stands below the one before it where it has room there.
pub(super) fn one_after_another(
    setter: &mut Setter,
    recipes: &[Told],
    over: &str,
    names: Names,
    settings: Settings,
    kind: Type,
) -> Vec<Page> {
    let mut pages: Vec<Page> = Vec::new();
    let mut lowest = 0.0;
    for told in recipes {
        let below = pages.last_mut().and_then(|page| set_below(setter, told, (page, lowest), names, settings, kind));
        lowest = below.unwrap_or_else(|| {
            let (more, end) = set(setter, told, over, names, settings, kind);
            pages.extend(more);
            end
        });
    }
    pages
}

/// Under what ends at `lowest`, where all of it has room; then where it ends itself.
fn set_below(
    setter: &mut Setter,
    told: &Told,
    (page, lowest): (&mut Page, f32),
    names: Names,
    settings: Settings,
    kind: Type,
) -> Option<f32> {
    let (recipe, figures) = told;
    let name = names.recipe(recipe.recipe);
    let scale = settings.size.scale();
    let (column, width) = columns(settings, page, lowest + 10.0 * GRID, 1);
    let mut head = setter.at_most(2, &[strong(name)], scale.title, width);
    head.extend(setter.at_most(3, &[plain(makes(recipe, settings.units))], scale.note, width));
    let mut blocks = vec![Block::of(head).heading()];
    blocks.extend(Body { names, units: settings.units, kind, width }.blocks(setter, recipe, figures, name));
    let tried = pour(&blocks, Cursor::default(), &column, None);
    let fits = tried.until.block == blocks.len() && tried.lowest <= column[0].bottom;
    fits.then(|| {
        page.rules.push(across(MARGIN, page.width - MARGIN, lowest + 5.0 * GRID, BLACK));
        pour(&blocks, Cursor::default(), &column, Some(page)).lowest
    })
}

/// "Sun 29 Nov makes 4 portions; one batch makes 4 portions".
fn makes(recipe: &RecipePage, units: Units) -> String {
    sentence(&recipe.sizes.iter().map(|size| format!("{} makes {}", size_name(&size.what), amount(&size.makes, units))).join("; "))
}

/// One recipe, on as many pages as it takes.
fn laid_out(setter: &mut Setter, told: &Told, over: &str, names: Names, settings: Settings, kind: Type) -> Vec<Page> {
    set(setter, told, over, names, settings, kind).0
}

/// The pages, and where the last of them ends.
fn set(setter: &mut Setter, told: &Told, over: &str, names: Names, settings: Settings, kind: Type) -> (Vec<Page>, f32) {
    let (recipe, figures) = told;
    let name = names.recipe(recipe.recipe);
    let under = vec![vec![plain(makes(recipe, settings.units))]];
    let head = Head { over: over.to_owned(), title: name.to_owned(), under };
    let again = Head { over: over.to_owned(), title: format!("{name}, continued"), under: Vec::new() };
    let (mut page, mut top) = headed(setter, settings, &head, names.household);
    let width = columns(settings, &page, top, 1).1;
    let body = Body { names, units: settings.units, kind, width };
    let blocks = body.blocks(setter, recipe, figures, name);
    let (mut pages, mut from) = (Vec::new(), Cursor::default());
    loop {
        let one = columns(settings, &page, top, 1).0;
        let poured = pour(&blocks, from, &one, Some(&mut page));
        from = poured.until;
        pages.push(page);
        if from.block >= blocks.len() {
            return (pages, poured.lowest);
        }
        (page, top) = headed(setter, settings, &again, names.household);
    }
}

fn size_name(what: &SizeOf) -> String {
    match what {
        SizeOf::Session(start) => day(start.date()),
        SizeOf::Meal(label) => label.clone(),
        SizeOf::Wanted => "this".to_owned(),
        SizeOf::Batch => "one batch".to_owned(),
    }
}

/// What all blocks of a page have in common.
struct Body<'a> {
    names: Names<'a>,
    units: Units,
    kind: Type,
    width: f32,
}

/// Free space between two columns.
const CLEAR: f32 = 8.0;

impl Body<'_> {
    fn blocks(&self, setter: &mut Setter, recipe: &RecipePage, figures: &(Of, PortionNote), name: &str) -> Vec<Block> {
        let Type { body, note } = self.kind;
        let mut blocks = vec![heading(setter, "Ingredients", body, self.width).marked(name)];
        if !recipe.lines.is_empty() {
            let heads: Vec<Vec<Span>> = recipe.sizes.iter().map(|size| vec![soft(sentence(&column_name(size)))]).collect();
            blocks.push(Block::of(self.row(setter, &[], &heads, note)).heading());
        }
        for line in &recipe.lines {
            blocks.push(Block::of(self.ingredient(setter, line)));
        }
        if recipe.steps.is_empty() && recipe.source != Source::default() {
            blocks.push(heading(setter, "Method", body, self.width));
            blocks.push(Block::of(setter.paragraph(&[plain("The method stands in the source, which is named below.")], body, self.width)));
        }
        let several = recipe.sizes.len() > 2;
        let amounts =
            if several { format!("Method, with the amounts of {}", size_name(&recipe.sizes[0].what)) } else { "Method".to_owned() };
        if !recipe.steps.is_empty() {
            blocks.push(heading(setter, &amounts, body, self.width));
        }
        for (index, step) in recipe.steps.iter().enumerate() {
            blocks.push(Block::of(self.step(setter, index + 1, step)).spaced(GRID));
        }
        blocks.push(heading(setter, "Keeping and serving", note, self.width));
        for spans in self.notes(recipe, figures) {
            blocks.push(Block::of(hanging(setter, &spans, note, self.width)));
        }
        blocks
    }

    fn ingredient(&self, setter: &mut Setter, line: &PageLine) -> Vec<Line> {
        let last = line.amounts.len().saturating_sub(1);
        let told = |(index, text): (usize, &String)| {
            let text = if text.is_empty() { "to taste" } else { text.as_str() };
            vec![if index == last && last > 0 { soft(text) } else { strong(text) }]
        };
        let amounts: Vec<Vec<Span>> = line.amounts.iter().enumerate().map(told).collect();
        self.row(setter, &[plain(line.name.as_str())], &amounts, self.kind.body)
    }

    /// Words on the left, and columns of figures on the right.
    fn row(&self, setter: &mut Setter, words: &[Span], figures: &[Vec<Span>], style: Style) -> Vec<Line> {
        let each = (self.width * 0.6 / figures.len().max(1) as f32).min(9.0 * self.kind.body.size);
        let left = self.width - each * figures.len() as f32;
        let mut lines = setter.paragraph(words, style, left - CLEAR);
        for (index, spans) in figures.iter().enumerate() {
            for (number, line) in setter.paragraph(spans, style, each - CLEAR).into_iter().enumerate() {
                let shift = left + each * (index + 1) as f32 - width_of(&line);
                let line = line.moved(shift);
                match lines.get_mut(number) {
                    Some(there) => there.items.extend(line.items),
                    None => lines.push(line),
                }
            }
        }
        lines
    }

    /// Times and degrees in the margin, the number and the words beside them.
    fn step(&self, setter: &mut Setter, number: usize, step: &PageStep) -> Vec<Line> {
        let Type { body, note } = self.kind;
        let (margin, indent) = (self.width * 0.24, 2.0 * body.size);
        let small = Style { size: note.size, leading: body.leading };
        let facts = self.facts(step);
        let beside: Vec<Line> = facts.iter().flat_map(|fact| setter.paragraph(&[soft(fact.as_str())], small, margin - CLEAR)).collect();
        let said = setter.paragraph(&[plain(step.text.as_str())], body, self.width - margin - indent);
        let mut lines: Vec<Line> = said.into_iter().map(|line| line.moved(margin + indent)).collect();
        if let Some(first) = lines.first_mut() {
            let number = setter.one_line(&[strong(number.to_string())], body, indent);
            first.items.extend(number.moved(margin).items);
        }
        for (index, line) in beside.into_iter().enumerate() {
            match lines.get_mut(index) {
                Some(there) => there.items.extend(line.items),
                None => lines.push(line),
            }
        }
        lines
    }

    fn facts(&self, step: &PageStep) -> Vec<String> {
        let minutes = |minutes: Minutes, word: &str| (minutes.0 > 0).then(|| format!("{} {word}", duration(minutes.0)));
        let place = step.on.iter().map(|id| self.names.appliance(*id)).join(", ");
        let place = (!place.is_empty()).then(|| sentence(&place));
        let heat = step.at.map(|heat| degrees(heat, self.units));
        let takes = (!step.on.is_empty() && whole_up(step.takes) != 1).then(|| format!("takes {} places", whole_up(step.takes)));
        let on = place.into_iter().chain(takes).chain(heat).join(", ");
        let ahead = step.ahead.map(|ahead| format!("{} ahead", duration(ahead.0)));
        let inside = step.inside.map(|heat| format!("inside {}", degrees(heat, self.units)));
        let on = (!on.is_empty()).then_some(on);
        let times = [ahead, minutes(step.hands, "hands-on"), minutes(step.wait, "unattended")];
        times.into_iter().flatten().chain(on).chain(inside).collect()
    }

    fn notes(&self, recipe: &RecipePage, figures: &(Of, PortionNote)) -> Vec<Vec<Span>> {
        let RecipePage { cupboard, fridge, freezer, .. } = *recipe;
        let days =
            |place: &str, days: Option<Days>| days.map(|days| format!("{place} {} {}", days.0, if days.0 == 1 { "day" } else { "days" }));
        let kept = [days("cupboard", cupboard), days("fridge", fridge), days("freezer", freezer)].into_iter().flatten().join(", ");
        let kept = if kept.is_empty() { "eat it on the day it is made".to_owned() } else { kept };
        let mut notes: Vec<Vec<Span>> =
            recipe.beware.iter().map(|beware| vec![strong(format!("{}.", sentence(&beware.to_string())))]).collect();
        notes.push(vec![strong("Keeps: "), plain(kept)]);
        notes.extend(recipe.serve.map(|serve| {
            let how = match serve {
                Serve::Hot => format!("hot; what was chilled is heated to {}", crate::prep::reheated(self.units)),
                Serve::Cold => "cold".to_owned(),
            };
            vec![strong("Serve: "), plain(how)]
        }));
        notes.extend(recipe.at_table.iter().map(|words| vec![strong("At the table: "), plain(words.clone())]));
        notes.extend(recipe.notes.iter().map(|words| vec![plain(words.clone())]));
        let allergens = recipe.contains.words().unwrap_or_else(|| "none of the substances of EU Regulation 1169/2011, Annex II".to_owned());
        notes.push(vec![strong("Allergens: "), plain(allergens)]);
        notes.extend(recipe.only_named.iter().map(|words| vec![strong(sentence(words))]));
        let (of, per) = figures;
        let of = match (of, recipe.sizes.last().map(|size| &size.makes)) {
            (Of::Portion, _) => "A portion: ",
            (Of::Piece, _) => "One piece: ",
            (Of::Hundred, Some(Quantity::Volume(_))) => "100 ml: ",
            (Of::Hundred, _) => "100 g: ",
            (Of::Batch, _) => "One batch: ",
        };
        notes.push(vec![strong(of), plain(format!("{}.", list::nourishes(per, self.names)))]);
        notes.extend(source_words(&recipe.source).map(|words| vec![strong("Source: "), plain(words)]));
        notes
    }
}

/// Places of an appliance are whole; the noise of a float is no part of one.
fn whole_up(places: f64) -> u32 {
    (places - 1e-9).ceil().max(1.0) as u32
}

/// "M. Reader, A book of soups, https://…"; nothing where none is known.
pub(super) fn source_words(source: &Source) -> Option<String> {
    let parts = [&source.author, &source.title, &source.address];
    let said = parts.into_iter().flatten().map(|part| part.trim()).filter(|part| !part.is_empty()).join(", ");
    (!said.is_empty()).then_some(said)
}

fn column_name(size: &PageSize) -> String {
    match &size.what {
        SizeOf::Wanted => "as asked".to_owned(),
        what => size_name(what),
    }
}
