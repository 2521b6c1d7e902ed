//! schema.org/Recipe as microdata: `itemscope`, `itemtype`, `itemprop`, `itemref` (HTML Standard, chapter 5). An item becomes the thing that
//! JSON-LD would have written, and is read as that. So is RDFa Lite 1.1 (W3C): `typeof`, `property`.

use std::collections::{BTreeSet, HashMap};

use scraper::{ElementRef, Html};
use serde_json::{Map, Value};

use super::elements::all;
use super::tidy::{below, line, lines};
use super::{Adopted, json_ld};

/// What a text of several lines is for.
const LINES: [&str; 7] = ["recipeIngredient", "recipeInstructions", "description", "text", "itemListElement", "step", "steps"];
/// What else a recipe and its parts say.
#[rustfmt::skip]
const READ: [&str; 17] = [
    "name", "headline", "author", "url", "recipeYield", "yield", "prepTime", "cookTime", "totalTime", "position", "item", "value", "minValue", "maxValue",
    "unitText", "unitCode", "requiredQuantity",
];
/// Elements that one page's items are looked through for; no page that a person saves has so many.
const MOST_ELEMENTS: usize = 1_000_000;
/// Items stand no deeper in each other.
const MOST_DEEP: usize = 12;

/// How a page marks its items.
#[derive(Clone, Copy)]
struct Marks {
    item: &'static str,
    /// The selector of elements that are items.
    items: &'static str,
    kind: &'static str,
    property: &'static str,
}

const MICRODATA: Marks = Marks { item: "itemscope", items: "[itemscope]", kind: "itemtype", property: "itemprop" };
const RDFA: Marks = Marks { item: "typeof", items: "[typeof]", kind: "typeof", property: "property" };

pub(super) fn recipes(page: &Html) -> Vec<Adopted> {
    let found = marked(page, MICRODATA);
    if found.is_empty() { marked(page, RDFA) } else { found }
}

fn marked(page: &Html, marks: Marks) -> Vec<Adopted> {
    let mut page = Page { by_id: HashMap::new(), left: MOST_ELEMENTS, page, marks };
    let found: Vec<ElementRef<'_>> = all(page.page, marks.items).filter(|item| is_recipe(item, marks)).collect();
    if found.iter().any(|item| item.value().attr("itemref").is_some()) {
        page.by_id = all(page.page, "[id]").filter_map(|element| Some((element.value().attr("id")?, element))).collect();
    }
    found.into_iter().filter_map(|item| json_ld::recipe(&page.thing(item, MOST_DEEP))).collect()
}

fn is_recipe(item: &ElementRef<'_>, marks: Marks) -> bool {
    let kinds = item.value().attr(marks.kind).unwrap_or_default();
    // RDFa may say its vocabulary once, above.
    let short = |kind: &str| marks.kind == "typeof" && (kind == "Recipe" || kind == "schema:Recipe");
    kinds.split_whitespace().any(|kind| kind.contains("schema.org/") && kind.ends_with("/Recipe") || short(kind))
}

struct Page<'p> {
    page: &'p Html,
    /// Where a recipe points at elements outside it.
    by_id: HashMap<&'p str, ElementRef<'p>>,
    left: usize,
    marks: Marks,
}

impl<'p> Page<'p> {
    /// The properties of one item, those of items inside it left to them.
    fn thing(&mut self, item: ElementRef<'p>, deep: usize) -> Map<String, Value> {
        let mut thing: Map<String, Value> = Map::new();
        let pointed = item.value().attr("itemref").unwrap_or_default().split_whitespace();
        let outside: Vec<ElementRef<'p>> = pointed.filter_map(|id| self.by_id.get(id).copied()).filter(|other| *other != item).collect();
        let mut open: Vec<ElementRef<'p>> = item.child_elements().chain(outside).collect();
        open.reverse();
        while let Some(element) = open.pop() {
            if self.left == 0 {
                break;
            }
            self.left -= 1;
            let is_item = element.value().attr(self.marks.item).is_some();
            let names = element.value().attr(self.marks.property).unwrap_or_default().split_whitespace();
            let names = names.map(|name| name.strip_prefix("schema:").unwrap_or(name));
            // What "ingredients" was called once; an element may bear both names.
            let names = names.map(|name| if name == "ingredients" { "recipeIngredient" } else { name });
            let names: BTreeSet<&str> = names.filter(|name| LINES.contains(name) || READ.contains(name)).collect();
            for name in names {
                let value = if is_item && deep > 0 { self.item(element, deep - 1) } else { value(name, element) };
                if name != "url" || value.as_str().is_some_and(|address| address.starts_with("http")) {
                    add(&mut thing, name, value);
                }
            }
            if !is_item {
                let inner: Vec<ElementRef<'p>> = element.child_elements().collect();
                open.extend(inner.into_iter().rev());
            }
        }
        thing
    }

    /// An item as a value; one that says nothing by properties says its text.
    fn item(&mut self, element: ElementRef<'p>, deep: usize) -> Value {
        let thing = self.thing(element, deep);
        let says = ["text", "name", "itemListElement", "step", "steps", "value", "minValue", "item"];
        if says.iter().any(|key| thing.contains_key(*key)) { Value::Object(thing) } else { value("text", element) }
    }
}

/// A property that stands several times has all of its values.
fn add(thing: &mut Map<String, Value>, name: &str, value: Value) {
    match thing.get_mut(name) {
        Some(Value::Array(values)) => values.push(value),
        Some(known) => *known = Value::Array(vec![known.take(), value]),
        None => drop(thing.insert(name.to_owned(), value)),
    }
}

/// What an element says to machines, else its text: its lines, where a property has several.
fn value(name: &str, element: ElementRef<'_>) -> Value {
    let attributes: &[&str] = if LINES.contains(&name) { &["content"] } else { &["content", "datetime", "href", "value"] };
    let text = attributes.iter().find_map(|name| element.value().attr(name)).map_or_else(|| below(*element), str::to_owned);
    Value::String(if LINES.contains(&name) { lines_of(&text) } else { line(&text) })
}

/// A text without markup of its own, whose lines stay apart.
fn lines_of(text: &str) -> String {
    text.lines().flat_map(lines).collect::<Vec<String>>().join("\n")
}
