//! The elements of a saved page.

use scraper::{ElementRef, Html, Selector};

/// The elements of a name, in order of the page.
pub(super) fn all<'p>(page: &'p Html, name: &'static str) -> impl Iterator<Item = ElementRef<'p>> {
    let selector = Selector::parse(name).ok();
    let found: Vec<ElementRef<'p>> = selector.map(|selector| page.select(&selector).collect()).unwrap_or_default();
    found.into_iter()
}
