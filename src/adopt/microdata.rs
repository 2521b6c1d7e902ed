//! schema.org/Recipe as microdata: `itemscope`, `itemtype`, `itemprop` (HTML Standard, chapter 5).

use scraper::{ElementRef, Html};

use super::html::all;
use super::json_ld::minutes;
use super::tidy::{below, line, lines};
use super::yields::makes;
use super::{Adopted, Source};
use crate::kitchen::keeping;

pub(super) fn recipes(page: &Html) -> Vec<Adopted> {
    all(page, "[itemscope]").filter(is_recipe).filter_map(recipe).collect()
}

fn is_recipe(item: &ElementRef<'_>) -> bool {
    let kinds = item.value().attr("itemtype").unwrap_or_default();
    kinds.split_whitespace().any(|kind| kind.contains("schema.org/") && kind.ends_with("/Recipe"))
}

/// The properties of one item, those of items inside it left out.
struct Item<'p> {
    properties: Vec<(&'p str, ElementRef<'p>)>,
}

impl<'p> Item<'p> {
    fn of(scope: ElementRef<'p>) -> Self {
        let mut properties = Vec::new();
        let mut open: Vec<ElementRef<'p>> = scope.child_elements().collect();
        open.reverse();
        while let Some(element) = open.pop() {
            let names = element.value().attr("itemprop").unwrap_or_default();
            properties.extend(names.split_whitespace().map(|name| (name, element)));
            if element.value().attr("itemscope").is_none() {
                let inner: Vec<ElementRef<'p>> = element.child_elements().collect();
                open.extend(inner.into_iter().rev());
            }
        }
        Item { properties }
    }

    fn every(&self, names: &[&str]) -> Vec<ElementRef<'p>> {
        self.properties.iter().filter(|(name, _)| names.contains(name)).map(|(_, element)| *element).collect()
    }

    fn first(&self, name: &str) -> Option<String> {
        self.every(&[name]).first().map(|element| value(*element)).filter(|value| !value.is_empty())
    }
}

fn recipe(scope: ElementRef<'_>) -> Option<Adopted> {
    let item = Item::of(scope);
    let said = |names: &[&str]| item.every(names).into_iter().flat_map(said).collect::<Vec<String>>();
    let ingredients = said(&["recipeIngredient", "ingredients"]);
    if ingredients.is_empty() {
        return None;
    }
    let author = item
        .every(&["author"])
        .first()
        .and_then(|author| if author.value().attr("itemscope").is_some() { Item::of(*author).first("name") } else { Some(value(*author)) });
    let times = [("preparation", "prepTime"), ("cooking", "cookTime"), ("in all", "totalTime")];
    let method = said(&["recipeInstructions"]);
    let described = said(&["description"]);
    let name = item.first("name").unwrap_or_default();
    Some(Adopted {
        keeps: keeping(described.iter().chain(&method).map(String::as_str), &name),
        name,
        makes: item.first("recipeYield").and_then(|said| makes(&said)),
        ingredients,
        method,
        source: Source {
            author: author.filter(|author| !author.is_empty()),
            title: None,
            address: item.first("url").filter(|url| url.starts_with("http")),
        },
        times: times.iter().filter_map(|(word, name)| Some((*word, minutes(&item.first(name)?)?))).collect(),
        unread: Vec::new(),
        unplaced: Vec::new(),
    })
}

/// The value of a property on one line: what its element says to machines, else its text.
fn value(element: ElementRef<'_>) -> String {
    let told = ["content", "datetime", "href", "value"].iter().find_map(|name| element.value().attr(name));
    told.map_or_else(|| line(&below(*element)), line)
}

/// Every line of a property: of a step (an item of its own) its text, else the lines of the element.
fn said(element: ElementRef<'_>) -> Vec<String> {
    if let Some(content) = element.value().attr("content") {
        return lines(content);
    }
    if element.value().attr("itemscope").is_some() {
        let inner = Item::of(element);
        let steps = inner.every(&["text", "itemListElement"]);
        if !steps.is_empty() {
            return steps.into_iter().flat_map(said).collect();
        }
    }
    below(*element).lines().map(line).filter(|line| !line.is_empty()).collect()
}
