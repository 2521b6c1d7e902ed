//! How deep the parts of a page stand in each other, before it is read as a tree: to build one takes as long as its tags times its depth,
//! so that a few megabytes of nothing but openings would take hours.

/// Deeper pages are not built as trees. Browsers stop at 512, too (common practice, no source).
const MOST: usize = 512;

/// Never open for long: without an end of their own, or closed by what follows.
const SHORT: [&str; 31] = [
    "area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "param", "source", "track", "wbr", "p", "li", "dt", "dd",
    "tr", "td", "th", "thead", "tbody", "tfoot", "colgroup", "option", "optgroup", "rp", "rt", "html", "body",
];
/// What stands in them is text to their end tag.
const RAW: [&str; 5] = ["script", "style", "textarea", "title", "xmp"];
/// Drawings, where "/>" closes.
const DRAWN: [&str; 12] = ["path", "g", "rect", "circle", "use", "line", "polygon", "polyline", "ellipse", "stop", "svg", "image"];

/// Is the page deeper than any that a person saves? An estimate from its tags, for pages as they are written.
pub(super) fn is_too_deep(page: &str) -> bool {
    let (mut depth, mut rest) = (0usize, page);
    while let Some(at) = rest.find('<') {
        rest = &rest[at + 1..];
        if let Some(comment) = rest.strip_prefix("!--") {
            rest = comment.find("-->").map_or("", |end| &comment[end + 3..]);
            continue;
        }
        let closes = rest.starts_with('/');
        let name_at = usize::from(closes);
        let length = rest[name_at..].find(|c: char| !c.is_ascii_alphanumeric() && c != '-').unwrap_or(rest.len() - name_at);
        let name = rest[name_at..name_at + length].to_ascii_lowercase();
        if !name.starts_with(|c: char| c.is_ascii_alphabetic()) {
            continue;
        }
        let end = tag_end(&rest[name_at + length..]).map_or(rest.len(), |end| name_at + length + end);
        let shut = rest[..end].ends_with('/') && DRAWN.contains(&name.as_str());
        rest = rest.get(end + 1..).unwrap_or("");
        if RAW.contains(&name.as_str()) && !closes {
            rest = past_raw(rest, &name);
        } else if closes && !SHORT.contains(&name.as_str()) {
            depth = depth.saturating_sub(1);
        } else if !closes && !shut && !SHORT.contains(&name.as_str()) {
            depth += 1;
        }
        if depth > MOST {
            return true;
        }
    }
    false
}

/// The ">" of a tag, past its quoted values.
fn tag_end(rest: &str) -> Option<usize> {
    let mut quote = None;
    let mut after_equals = false;
    for (at, byte) in rest.bytes().enumerate() {
        match (quote, byte) {
            (Some(open), _) if byte == open => quote = None,
            (Some(_), _) => {}
            (None, b'>') => return Some(at),
            (None, b'"' | b'\'') if after_equals => quote = Some(byte),
            _ => {}
        }
        after_equals = byte == b'=' || after_equals && byte.is_ascii_whitespace();
    }
    None
}

/// Past the text of a script or its like, to its end tag.
fn past_raw<'t>(rest: &'t str, name: &str) -> &'t str {
    let mut from = 0;
    while let Some(at) = rest[from..].find("</") {
        let end = from + at;
        if rest.get(end + 2..end + 2 + name.len()).is_some_and(|found| found.eq_ignore_ascii_case(name)) {
            return &rest[end..];
        }
        from = end + 2;
    }
    ""
}

/// The JSON-LD blocks of a page that is not built as a tree.
pub(super) fn blocks(page: &str) -> Vec<&str> {
    let mut found = Vec::new();
    let mut rest = page;
    while let Some(at) = rest.find('<') {
        rest = &rest[at + 1..];
        if let Some(comment) = rest.strip_prefix("!--") {
            rest = comment.find("-->").map_or("", |end| &comment[end + 3..]);
            continue;
        }
        if !rest.get(..6).is_some_and(|name| name.eq_ignore_ascii_case("script")) {
            continue;
        }
        let Some(end) = tag_end(rest) else { break };
        let is_json = rest[..end].to_ascii_lowercase().contains("application/ld+json");
        let inside = &rest[end + 1..];
        rest = past_raw(inside, "script");
        if is_json {
            found.push(&inside[..inside.len() - rest.len()]);
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use pretty_assertions::assert_eq;

    #[test]
    fn what_people_save_is_not_too_deep_and_what_nests_for_ever_is() {
        assert!(!is_too_deep(&"<p>One<br><img src='a>b'>".repeat(5000)));
        assert!(!is_too_deep(&"<div class=\"a > b\"><span>one</span></div>".repeat(5000)));
        assert!(!is_too_deep(&format!("<script>{}</script><!-- {} -->", "<div>".repeat(900), "<div>".repeat(900))));
        assert!(!is_too_deep(&"<svg><path d='M0'/></svg>".repeat(900)));
        assert!(is_too_deep(&"<div>".repeat(513)));
        assert!(is_too_deep(&format!("{}{}", "<b>".repeat(600), "</b>".repeat(600))));
    }

    #[test]
    fn the_blocks_of_a_deep_page_are_found_without_a_tree() {
        let page =
            "<!-- <script type='application/ld+json'>{}</script> --><SCRIPT type=\"application/ld+json\">[1]</script><script>2</script>";
        assert_eq!(blocks(page), ["[1]"]);
        assert_eq!(blocks("<script type='application/ld+json'>"), [""]);
    }
}
