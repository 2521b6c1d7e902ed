//! A saved page that says nothing in schema.org: its words, where a heading "Ingredients" stands above a list and one of the method below it.
//!
//! The name is the last heading above, each part goes to the next heading of its rank. Whatever else stands on the page is left out.

use ego_tree::NodeRef;
use ego_tree::iter::Edge;
use scraper::{Html, Node};

use super::head::is_time;
use super::line::{Part, heading, is_sentence, is_yield, listed};
use super::plain::recipes;
use super::tidy::one_line;
use super::{Adopted, Reads};

/// Elements that stand on lines of their own.
const BLOCKS: [&str; 22] = [
    "p", "li", "br", "div", "ul", "ol", "tr", "dt", "dd", "section", "article", "main", "table", "header", "figure", "h1", "h2", "h3",
    "h4", "h5", "h6", "body",
];
/// Elements whose text is none of the recipe's.
const OTHER: [&str; 13] =
    ["script", "style", "template", "noscript", "nav", "footer", "aside", "form", "button", "select", "head", "svg", "figcaption"];

/// A line of a page.
#[derive(Default)]
struct Line {
    text: String,
    /// 1 to 6 of a heading, 1 the highest.
    rank: Option<u8>,
    is_entry: bool,
}

/// The one recipe that the words of a page hold.
pub(super) fn recipe(page: &Html, reads: &dyn Fn(&str) -> Reads) -> Option<Adopted> {
    let lines = lines(page.tree.root());
    let at = |wanted: Part| lines.iter().enumerate().filter(move |(_, line)| heading(&line.text) == Some(wanted)).map(|(at, _)| at);
    let lists: Vec<usize> = at(Part::Ingredients).collect();
    // Of several nobody knows which.
    let [list] = lists.as_slice() else { return None };
    // Without a heading of its own the method begins with the first sentence below the list.
    let headed = at(Part::Method).find(|method| method > list);
    let first = || (list + 1..lines.len()).find(|at| is_sentence(&lines[*at].text) && !listed(&lines[*at].text, reads));
    let method = headed.or_else(first)?;
    let name = |rank: Option<u8>| lines[..*list].iter().rev().find(|line| line.rank.is_some() && (rank.is_none() || line.rank == rank));
    let name = name(Some(1)).or_else(|| name(None))?;
    let says = lines[..*list].iter().map(|line| &line.text).filter(|line| is_yield(line) || is_time(line));
    let mut text = format!("{}\n", name.text);
    says.for_each(|line| text += &format!("{line}\n"));
    for (from, to) in [(*list, method), (method, lines.len())] {
        let end = (from + 1..to).find(|at| ends(&lines[from], &lines[*at])).unwrap_or(to);
        let says_so = from == *list || headed.is_some();
        text += &format!("\n{}\n", if says_so { &lines[from].text } else { "Method" });
        for line in &lines[from + usize::from(says_so)..end] {
            let mark = if line.rank.is_some() {
                "\n## "
            } else if line.is_entry {
                "- "
            } else {
                ""
            };
            text += &format!("{mark}{}\n", line.text);
        }
    }
    let mut found = recipes(&text, reads)?;
    let mut recipe = found.pop().filter(|_| found.is_empty())?;
    recipe.lost.push("The page has no schema.org/Recipe: the words below its headings were read.".to_owned());
    Some(recipe)
}

/// Does a part end above this heading?
fn ends(part: &Line, next: &Line) -> bool {
    next.rank.is_some_and(|rank| part.rank.is_none_or(|of_part| rank <= of_part))
}

fn lines(root: NodeRef<'_, Node>) -> Vec<Line> {
    let mut lines = vec![Line::default()];
    let mut unseen = 0_usize;
    for edge in root.traverse() {
        let (node, opens) = match edge {
            Edge::Open(node) => (node, true),
            Edge::Close(node) => (node, false),
        };
        match (node.value(), lines.last_mut()) {
            (Node::Text(words), Some(line)) if opens && unseen == 0 => line.text.push_str(words),
            (Node::Element(element), _) if OTHER.contains(&element.name()) => {
                unseen = if opens { unseen + 1 } else { unseen.saturating_sub(1) }
            }
            // Cells side by side: "400 g", "plain flour".
            (Node::Element(element), Some(line)) if ["td", "th"].contains(&element.name()) => line.text.push(' '),
            (Node::Element(element), _) if BLOCKS.contains(&element.name()) => {
                let rank = element.name().strip_prefix('h').and_then(|rank| rank.parse().ok()).filter(|_| opens);
                lines.push(Line { text: String::new(), rank, is_entry: opens && element.name() == "li" });
            }
            _ => (),
        }
    }
    lines.iter_mut().for_each(|line| line.text = one_line(&line.text));
    lines.retain(|line| !line.text.is_empty());
    lines
}
