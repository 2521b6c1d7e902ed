//! A saved web page: its JSON-LD blocks, else its microdata, else its words.

use scraper::{ElementRef, Html};

use super::elements::all;
use super::tidy::{line, one_line, seen};
use super::{Adopted, Reads, depth, json_ld, microdata, once, words_of_page};
use crate::kitchen::keeping;

/// Does the text begin as a page does?
pub(super) fn is_page(text: &str) -> bool {
    let start: String = text.chars().take(2000).collect::<String>().to_lowercase();
    start.starts_with('<')
        && ["<!doctype", "<html", "<head", "<body", "<meta", "<script", "<div", "<article", "<title"].iter().any(|tag| start.contains(tag))
}

pub(super) fn recipes(text: &str, reads: &dyn Fn(&str) -> Reads) -> Vec<Adopted> {
    if depth::is_too_deep(text) {
        let blocks: Vec<String> = depth::blocks(text).into_iter().map(bare).collect();
        return once(json_ld::recipes(blocks.iter().map(String::as_str)));
    }
    let page = Html::parse_document(text);
    let blocks: Vec<String> = all(&page, "script").filter(is_json_ld).map(|block| bare(&block.text().collect::<String>())).collect();
    let mut found = json_ld::recipes(blocks.iter().map(String::as_str));
    if found.is_empty() {
        found = microdata::recipes(&page);
    }
    if found.is_empty() {
        found.extend(words_of_page::recipe(&page, reads));
    }
    let title = all(&page, "title").next().map(|title| line(&title.inner_html())).filter(|title| !title.is_empty());
    let address = all(&page, "link").find(|link| link.value().attr("rel") == Some("canonical"));
    let address = address.and_then(|link| link.value().attr("href")).filter(|address| address.starts_with("http"));
    for recipe in &mut found {
        recipe.source.title = recipe.source.title.take().or_else(|| title.clone());
        recipe.source.address = recipe.source.address.take().or_else(|| address.map(str::to_owned));
    }
    let mut found = once(found);
    // What a page says of storing is of its one recipe; of several nobody knows which.
    if let [recipe] = found.as_mut_slice()
        && recipe.keeps.places.is_empty()
    {
        recipe.keeps = keeping(lines(&page).iter().map(String::as_str), &recipe.name);
    }
    found
}

/// What is seen of a page, a block a line.
fn lines(page: &Html) -> Vec<String> {
    seen(page).lines().map(one_line).filter(|line| !line.is_empty()).collect()
}

fn is_json_ld(block: &ElementRef<'_>) -> bool {
    block.value().attr("type").is_some_and(|kind| kind.trim().to_lowercase().starts_with("application/ld+json"))
}

/// What stands in a script, without the marks of comments around it: `<!-- … -->`, `//<![CDATA[ … //]]>`, `/*<![CDATA[*/ … /*]]>*/`.
fn bare(text: &str) -> String {
    const OPEN: [&str; 5] = ["<!--", "<![CDATA[", "/*", "*/", "//"];
    const CLOSE: [&str; 6] = ["-->", "]]>", "/*", "*/", "//", ";"];
    let mut text = text.trim();
    while let Some(rest) = OPEN.iter().find_map(|mark| text.strip_prefix(mark)) {
        text = rest.trim_start();
    }
    while let Some(rest) = CLOSE.iter().find_map(|mark| text.strip_suffix(mark)) {
        text = rest.trim_end();
    }
    text.to_owned()
}
