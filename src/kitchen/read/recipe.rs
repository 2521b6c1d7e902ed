//! recipes/*.toml: the head of a recipe. Its steps are read in [`steps`](super::steps).

use super::lines::Speech;
use super::plates::words;
use super::shapes;
use super::table::Table;
use crate::foods::safety::CHILLED_WITHIN;
use crate::kitchen::{BatchCut, BoxKind, HOLD, Ingredient, Made, Recipe, Serve, Source, Spot};
use crate::measure::{Dimension, Minutes, Quantity, Spoons};
use crate::words::duration;

static CUTS: [(&str, BatchCut); 3] = [("whole", BatchCut::Whole), ("halves", BatchCut::Halves), ("any", BatchCut::Any)];
static MADE: [(&str, Made); 2] = [("in a session", Made::InASession), ("at the meal", Made::AtTheMeal)];
static SERVE: [(&str, Serve); 2] = [("hot", Serve::Hot), ("cold", Serve::Cold)];

/// How a count of pieces is recognised.
const PIECES: [&str; 3] = ["piece", "pc", "ea"];

/// Everything but the ingredients and the steps.
pub(super) fn read_head(id: &str, top: &Table<'_>, spoons: Spoons) -> Recipe {
    let keeps = top.one("keeps", "[keeps]");
    let serve = top.optional("serve", shapes::one_of(&SERVE));
    for key in ["hold", "hold_hot"].into_iter().filter(|key| serve != Some(Serve::Hot) && top.has(key)) {
        let text = format!(
            "{key} is for a dish that is served hot, straight from the pot; this one is boxed. Add serve = \"hot\", or take it out."
        );
        top.file.found.note(top.spot_of(key), text);
    }
    let days = |place: &str| keeps.as_ref().and_then(|keeps| keeps.optional(place, shapes::days));
    Recipe {
        id: id.to_owned(),
        name: top.required("name", "\"White-bean mash\"", shapes::text).unwrap_or_default(),
        makes: read_makes(top, spoons),
        makes_typed: typed_makes(top),
        portion: top.optional("portion", shapes::exact_grams),
        batches: top.optional("batches", shapes::one_of(&CUTS)).unwrap_or(BatchCut::Halves),
        fridge: days("fridge"),
        freezer: days("freezer"),
        cupboard: days("cupboard"),
        made: top.optional("made", shapes::one_of(&MADE)).unwrap_or(Made::InASession),
        serve,
        hold: read_hold(top),
        hold_hot: top.optional("hold_hot", shapes::minutes),
        boxed: read_box(top, spoons),
        fits: words(top, "fits"),
        is: words(top, "is"),
        style: top.optional("style", shapes::text).map(|style| style.to_lowercase()),
        ingredients: Vec::new(),
        steps: Vec::new(),
        headings: Vec::new(),
        at_table: Vec::new(),
        served: Vec::new(),
        notes: Vec::new(),
        source: read_source(top),
        method: Vec::new(),
        at: top.spot(),
    }
}

/// What stands in the place of a recipe whose file cannot be read, so that the others keep their places.
pub(super) fn unread(id: &str) -> Recipe {
    Recipe {
        id: id.to_owned(),
        name: String::new(),
        makes: Quantity::portions(1.0),
        makes_typed: String::new(),
        portion: None,
        batches: BatchCut::Halves,
        fridge: None,
        freezer: None,
        cupboard: None,
        made: Made::InASession,
        serve: None,
        hold: HOLD,
        hold_hot: None,
        boxed: None,
        fits: Vec::new(),
        is: Vec::new(),
        style: None,
        ingredients: Vec::new(),
        steps: Vec::new(),
        headings: Vec::new(),
        at_table: Vec::new(),
        served: Vec::new(),
        notes: Vec::new(),
        source: Default::default(),
        method: Vec::new(),
        at: Spot { file: format!("recipes/{id}.toml"), line: 1, column: 1 },
    }
}

/// A text is the title.
fn read_source(top: &Table<'_>) -> Source {
    let Some(entry) = top.entry("source") else { return Source::default() };
    if entry.value.as_str().is_some() {
        return Source { title: top.optional("source", shapes::text), ..Source::default() };
    }
    let Some(table) = top.one("source", "[source]") else { return Source::default() };
    let text = |key: &str| table.optional(key, shapes::text);
    Source { author: text("author"), title: text("title"), address: text("address") }
}

/// What only stands about is eaten within two hours.
fn read_hold(top: &Table<'_>) -> Minutes {
    let hold = top.optional("hold", shapes::minutes).unwrap_or(HOLD);
    let most = CHILLED_WITHIN.value;
    if hold > most {
        let text = format!(
            "hold is {}, but what leaves the heat is eaten or chilled within {} (USDA FSIS). hold_hot is for what is kept at 60 °C (140 °F) or \
             above. Local rules come first.",
            duration(hold.0),
            duration(most.0)
        );
        top.file.found.note(top.spot_of("hold"), text);
    }
    hold
}

fn typed_makes(top: &Table<'_>) -> String {
    top.optional("makes", |value| Ok(shapes::text_or_digits(value).unwrap_or_default())).unwrap_or_default()
}

fn read_makes(top: &Table<'_>, spoons: Spoons) -> Quantity {
    let makes = top.required("makes", "\"6 portions\"", shapes::quantity(spoons)).unwrap_or(Quantity::portions(1.0));
    let typed = typed_makes(top);
    // A bare number is pieces everywhere else, but whoever writes makes = 6 mostly means portions.
    if makes.dimension() == Dimension::Count && !PIECES.iter().any(|word| typed.to_lowercase().contains(word)) {
        let cause = format!("makes: \"{typed}\" does not say of what");
        top.mistake("makes", cause, "Write portions, pieces, a weight or a volume: \"6 portions\", \"12 pieces\".");
    }
    if let Dimension::Word(word) = makes.dimension() {
        top.mistake("makes", format!("a recipe cannot make {word}s"), "Write portions, a weight, a volume or pieces: \"6 portions\".");
    }
    makes
}

fn read_box(top: &Table<'_>, spoons: Spoons) -> Option<BoxKind> {
    let table = top.one("box", "[box]")?;
    let name = table.required("name", "\"flat tub\"", shapes::text);
    let holds = table.required("holds", "\"4 portions\"", shapes::quantity(spoons));
    Some(BoxKind { name: name?, holds: holds?, holds_at: table.spot_of("holds") })
}

/// The ingredient lines.
pub(super) fn read_ingredients(top: &Table<'_>, speech: &mut Speech<'_>) -> Vec<Ingredient> {
    speech.lines(top, "ingredients", "[[ingredients]]")
}
