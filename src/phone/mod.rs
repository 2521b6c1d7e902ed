//! The week on a phone: one HTML file that asks nothing of the network and keeps its ticks on the device.
//!
//! | file | what it holds |
//! | --- | --- |
//! | `list` | the trips by shop and section, and the hash by which a list is known |
//! | `guide` | the sessions by the clock, the week by day |
//! | `page.css`, `page.js` | look and behaviour, put into the page whole |
//!
//! Works from typed answers. Every text of the household is escaped where it enters the page; a Content-Security-Policy allows the
//! page's own script and style by their hashes and nothing else.

mod guide;
mod list;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use html_escape::encode_quoted_attribute;
use itertools::Itertools;
use sha2::{Digest, Sha256};

use crate::kitchen::not_known;
use crate::kitchen::{Kitchen, Names};
use crate::measure::Units;
use crate::plan::ShortMeal;
use crate::prep::{PrepPlan, WeekCard};
use crate::purchase::{ShoppingList, TripHashes};
use crate::telling::short::at_the_head;
use crate::words::plan_mark;

/// The page is smaller than this, in bytes.
pub const MOST_BYTES: usize = 200_000;

const STYLE: &str = include_str!("page.css");
const SCRIPT: &str = include_str!("page.js");

/// Text that may stand between tags and in quoted attributes.
fn safe(text: &str) -> String {
    encode_quoted_attribute(text).into_owned()
}

fn hash_of(text: &str) -> String {
    STANDARD.encode(Sha256::digest(text.as_bytes()))
}

/// Twelve hexadecimal digits by which a list or a guide is known.
fn short_hash(text: &str) -> String {
    Sha256::digest(text.as_bytes()).iter().take(6).map(|byte| format!("{byte:02x}")).collect()
}

/// A line that must not be overlooked.
fn warned(text: &str) -> String {
    format!("<p class=\"warn\">{}</p>\n", safe(text))
}

/// What stands before everything else: the meals that run short, then what is not known for an allergic eater.
fn first(short: &[ShortMeal], not_known: &[String], names: Names, units: Units) -> String {
    let lacking = short.iter().map(|short| at_the_head(short, names, units)).map(|(what, remedies)| format!("{what} {remedies}"));
    lacking.chain(not_known.iter().cloned()).map(|text| warned(&text)).collect()
}

/// The text of `list-<from>.html`, with the mark of its print and the hashes by which its trips are known. `None` where it would not stay
/// under [`MOST_BYTES`], however much is left out.
pub fn page(
    kitchen: &Kitchen,
    list: &ShoppingList,
    prep: &PrepPlan,
    card: &WeekCard,
    (mark, hashes): (&str, &TripHashes),
) -> Option<String> {
    let trips = list::trips(kitchen, list, hashes);
    let guides = guide::sessions(kitchen, prep);
    let week = guide::week(kitchen, card);
    // The page is list, guide and card in one: what any of them says at its head stands at its head.
    let unknown: Vec<String> = not_known(&list.warnings).into_iter().chain(card.not_known.iter().cloned()).unique().collect();
    let head = first(&list.short, &unknown, kitchen.names(), kitchen.print.units);
    let left_out = |what: &str| format!("<p>{what} too long for this page: read it on paper.</p>");
    let whole = [(guides.clone(), week.clone()), (guides, left_out("The week is")), (left_out("The guide is"), left_out("The week is"))];
    let pages = whole.iter().map(|(guides, week)| assembled(kitchen, list, &[&head, &trips, guides, week], mark));
    pages.into_iter().find(|page| page.len() < MOST_BYTES)
}

fn assembled(kitchen: &Kitchen, list: &ShoppingList, [head, trips, guides, week]: &[&str; 4], mark: &str) -> String {
    let household = &kitchen.household;
    let title = safe(&format!("{}: {}", household.name, list.week));
    let policy = format!(
        "default-src 'none'; script-src 'sha256-{}'; style-src 'sha256-{}'; base-uri 'none'; form-action 'none'",
        hash_of(SCRIPT),
        hash_of(STYLE)
    );
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <title>{title}</title>\n<style>{STYLE}</style></head>\n\
         <body data-from=\"{from}\" data-currency=\"{currency}\" data-digits=\"{digits}\">\n\
         <header><h1>{title}</h1>\n{head}\
         <p id=\"storage\" role=\"status\" hidden>Ticks are not kept here: this browser's storage is off.</p></header>\n\
         <nav aria-label=\"Parts\"><a href=\"#list\">List</a><a href=\"#guide\">Guide</a><a href=\"#week\">Week</a>\
         <button id=\"hide\" type=\"button\" aria-pressed=\"false\">Hide what is ticked</button></nav>\n\
         <main><div id=\"list\">{trips}</div>\n<div id=\"guide\">{guides}</div>\n<div id=\"week\">{week}</div></main>\n\
         <footer><p>{mark}</p></footer>\n\
         {OTHERWISE}<script>{SCRIPT}</script></body></html>\n",
        mark = safe(&plan_mark(mark)),
        from = list.from,
        currency = safe(&household.currency.code),
        digits = household.currency.digits,
    )
}

/// What can be said of a line; the script lays it into the line that asks for it.
const OTHERWISE: &str = "<template id=\"other\"><div class=\"other\">\
<label><input type=\"radio\" value=\"listed\">As listed</label>\
<label><input type=\"radio\" value=\"other\">Bought otherwise</label>\
<label><input type=\"radio\" value=\"none\">Not got</label>\
<label><input type=\"radio\" value=\"else\">Something else</label>\
<label class=\"field\" data-for=\"other\">Amount, as in 2 x 150 g<input data-field=\"amount\" autocomplete=\"off\"></label>\
<label class=\"field\" data-for=\"else\">What, as in 1 kg onions<input data-field=\"text\" autocomplete=\"off\"></label>\
<label class=\"field\" data-for=\"other else\">Price of the whole line<input data-field=\"price\" inputmode=\"decimal\" autocomplete=\"off\"></label>\
<label class=\"field\" data-for=\"other\">Good until<input data-field=\"until\" type=\"date\"></label>\
</div></template>\n";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_page_s_own_parts_name_no_address_and_end_no_element() {
        for part in [STYLE, SCRIPT, OTHERWISE] {
            assert!(!part.contains("http") && !part.contains("//www") && !part.contains("url("), "{part}");
        }
        assert!(!SCRIPT.contains("</") && !SCRIPT.contains("<!--") && !STYLE.contains("</"));
    }

    #[test]
    fn what_is_typed_is_text() {
        assert_eq!(safe("<img src=x onerror=\"a('b')\">&"), "&lt;img src=x onerror=&quot;a(&#x27;b&#x27;)&quot;&gt;&amp;");
    }
}
