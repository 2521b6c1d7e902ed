//! Text without markup: entities are letters, tags are gone, blanks are single, what cannot be seen is left out.

use scraper::{Html, Node};

use crate::measure::{Spoons, read_quantity};

/// Elements that stand on lines of their own.
const BLOCKS: [&str; 14] = ["p", "li", "br", "div", "ul", "ol", "h1", "h2", "h3", "h4", "h5", "h6", "tr", "section"];

/// Elements whose text nobody sees.
const UNSEEN: [&str; 4] = ["script", "style", "template", "noscript"];

/// Entities are sometimes written twice over: `&amp;frac12;`.
const TIMES: usize = 2;

/// The lines of a text that may hold markup, none of them blank.
pub(super) fn lines(text: &str) -> Vec<String> {
    let mut text = text.to_owned();
    for _ in 0..TIMES {
        if !text.contains(['<', '&']) {
            break;
        }
        text = seen(&Html::parse_fragment(&text));
    }
    // "Soak.\\n2. Simmer": a line end that was escaped twice over.
    let text = text.replace("\\r\\n", "\n").replace("\\n", "\n");
    text.lines().map(one_line).filter(|line| !line.is_empty()).collect()
}

/// All of it on one line.
pub(super) fn line(text: &str) -> String {
    lines(text).join(" ")
}

/// What a page must say so that this text is read from it: "<" and "&" as they are where nobody takes them for markup, else escaped, twice
/// where what is escaped once would be markup, too.
///
/// ```
/// assert_eq!(spence::adopt::as_markup("Fish & chips"), "Fish & chips");
/// assert_eq!(spence::adopt::as_markup("Boatyard <Book>"), "Boatyard &amp;lt;Book>");
/// ```
pub fn as_markup(text: &str) -> String {
    let escaped = |text: &str| text.replace('&', "&amp;").replace('<', "&lt;");
    let ways = [text.to_owned(), escaped(text), escaped(&escaped(text))];
    let read = one_line(text);
    ways.iter().find(|way| line(way) == read).unwrap_or(&ways[2]).clone()
}

/// The text of a document, blocks on lines of their own.
pub(super) fn seen(document: &Html) -> String {
    below(document.tree.root())
}

/// The text below a node, blocks on lines of their own.
pub(super) fn below(root: ego_tree::NodeRef<'_, Node>) -> String {
    use ego_tree::iter::Edge;
    let mut text = String::new();
    let mut unseen = 0_usize;
    for edge in root.traverse() {
        let (node, opens) = match edge {
            Edge::Open(node) => (node, true),
            Edge::Close(node) => (node, false),
        };
        match node.value() {
            Node::Text(words) if opens && unseen == 0 => text.push_str(words),
            Node::Element(element) if UNSEEN.contains(&element.name()) => {
                unseen = if opens { unseen + 1 } else { unseen.saturating_sub(1) }
            }
            Node::Element(element) if BLOCKS.contains(&element.name()) => text.push('\n'),
            _ => (),
        }
    }
    text
}

/// "50 g" alone on its line is of what the next line names.
pub(super) fn with_their_amounts(lines: Vec<String>) -> Vec<String> {
    let is_amount = |line: &str| line.chars().count() <= 20 && read_quantity(line, Spoons::Us).is_ok();
    let mut whole: Vec<String> = Vec::new();
    for line in lines {
        let begins = line.chars().next().is_some_and(char::is_alphabetic) && !line.ends_with(':');
        match whole.last_mut().filter(|last| begins && is_amount(last)) {
            Some(last) => *last = format!("{last} {line}"),
            None => whole.push(line),
        }
    }
    whole
}

/// Single blanks, and nothing that cannot be seen.
pub(super) fn one_line(line: &str) -> String {
    let visible: String = line.chars().map(|c| if c.is_whitespace() { ' ' } else { c }).filter(|c| !is_invisible(*c)).collect();
    visible.split(' ').filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ")
}

/// Control characters, marks of direction and of joining: nothing a reader sees, and dangerous on a terminal.
fn is_invisible(c: char) -> bool {
    c.is_control() || matches!(c, '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{feff}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn markup_goes_and_its_lines_stay() {
        assert_eq!(lines("<p>Peel &amp; cut.</p><p>Roast <b>50</b>&nbsp;min</p>"), ["Peel & cut.", "Roast 50 min"]);
        assert_eq!(lines("&amp;frac12; cup\u{202e}"), ["½ cup"]);
        assert_eq!(lines("<script>alert(1)</script>2 eggs"), ["2 eggs"]);
        assert_eq!(line("one\n\n  two"), "one two");
        assert_eq!(lines("1. Soak.\\n2. Simmer."), ["1. Soak.", "2. Simmer."]);
    }

    #[test]
    fn what_is_written_for_a_page_is_read_from_it() {
        for text in ["Fish & chips", "Boatyard <Book> & Co", "Write <b> and &amp; here", "1 < 2", "&lt;p&gt;", "AT&T; &frac12;", "plain"] {
            assert_eq!(line(&as_markup(text)), text);
        }
    }

    #[test]
    fn an_amount_that_stands_alone_is_of_the_food_below_it() {
        let whole = |typed: &[&str]| with_their_amounts(typed.iter().map(|line| (*line).to_owned()).collect());
        assert_eq!(
            whole(&["50 g", "butter", "2", "eggs", "1 tsp", "For the sauce:", "salt"]),
            ["50 g butter", "2 eggs", "1 tsp", "For the sauce:", "salt"]
        );
        assert_eq!(whole(&["50 g", "200 g flour", "2 leeks", "salt"]), ["50 g", "200 g flour", "2 leeks", "salt"]);
    }
}
