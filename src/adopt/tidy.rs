//! Text without markup: entities are letters, tags are gone, blanks are single, what cannot be seen is left out.

use scraper::{Html, Node};

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
    text.lines().map(one_line).filter(|line| !line.is_empty()).collect()
}

/// All of it on one line.
pub(super) fn line(text: &str) -> String {
    lines(text).join(" ")
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
    }
}
