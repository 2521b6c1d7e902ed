//! A text as it lies on its page, before it is read line by line: what stands side by side is told apart, what only draws is gone.
//!
//! ```text
//! "Prep: 15 min   Cook: 40 min"    lines of the head, a line each
//! "8 chicken thighs      2 onions" two ingredients, where each reads as one
//! "Ingredients        Method"      two columns: the left one comes first
//! "Ingredients: 3 leeks, 1 onion"  a heading, and a line a food
//! "From: …", "Subject: …"          the head of a letter; what stands above its list is the name
//! "-----", "=====", "|---|"        a line that is drawn
//! ```

use super::head::{is_time, label};
use super::line::{Part, heading, is_yield};
use super::{Reads, inline};

/// So many blanks stand between columns.
const GAP: &str = "   ";
/// Marks between what stands side by side in a head.
const BESIDE: [&str; 4] = [" | ", " • ", " · ", "\t"];
/// Lines that a letter begins with.
const LETTER: [&str; 8] = ["from", "to", "subject", "date", "sent", "cc", "reply-to", "re"];

/// The lines of a text, each by itself.
pub(super) fn lines(text: &str, reads: &dyn Fn(&str) -> Reads) -> Vec<String> {
    let all: Vec<&str> = text.lines().map(|line| if is_drawn(line) { "" } else { line }).collect();
    let all = in_two_columns(&all).unwrap_or_else(|| all.iter().map(|line| (*line).to_owned()).collect());
    let all: Vec<String> = all.iter().flat_map(|line| side_by_side(line, reads)).collect();
    inline::apart(without_the_letter(all, reads), reads)
}

fn is_drawn(line: &str) -> bool {
    let marks = line.chars().filter(|c| !c.is_whitespace()).collect::<String>();
    marks.chars().count() >= 3 && marks.chars().all(|c| "-=_*~–—─━|:+".contains(c))
}

/// Ingredients on the left, the method on the right: the left column first.
fn in_two_columns(all: &[&str]) -> Option<Vec<String>> {
    let both = |line: &&str| {
        let pieces = pieces(line);
        matches!(pieces.as_slice(), [left, right] if heading(left) == Some(Part::Ingredients) && heading(right) == Some(Part::Method))
    };
    let top = all.iter().position(both)?;
    let right_at = all[top].trim_end().rfind(GAP).map(|at| all[top][..at + GAP.len()].chars().count())?;
    let cut = |line: &str| -> Option<(String, String)> {
        let letters: Vec<char> = line.chars().collect();
        if letters.len() <= right_at {
            return Some((line.trim().to_owned(), String::new()));
        }
        // The columns end where a word runs over.
        let is_apart = letters[right_at - 1].is_whitespace() || letters[..right_at].iter().all(|c| c.is_whitespace());
        let side = |letters: &[char]| letters.iter().collect::<String>().trim().to_owned();
        is_apart.then(|| (side(&letters[..right_at]), side(&letters[right_at..])))
    };
    let columns: Vec<(String, String)> = all[top..].iter().map_while(|line| cut(line)).collect();
    let rest = all[top + columns.len()..].iter().map(|line| (*line).to_owned());
    let (left, right): (Vec<String>, Vec<String>) = columns.into_iter().unzip();
    Some(all[..top].iter().map(|line| (*line).to_owned()).chain(left).chain([String::new()]).chain(right).chain(rest).collect())
}

/// What stands between wide gaps.
fn pieces(line: &str) -> Vec<&str> {
    let mut pieces = vec![line.trim()];
    for gap in [GAP, "\t"] {
        pieces = pieces.iter().flat_map(|piece| piece.split(gap)).map(str::trim).filter(|piece| !piece.is_empty()).collect();
    }
    pieces
}

fn side_by_side(line: &str, reads: &dyn Fn(&str) -> Reads) -> Vec<String> {
    // A row of a table.
    let inner = line.trim().strip_prefix('|').and_then(|line| line.strip_suffix('|'));
    if let Some(inner) = inner {
        return vec![inner.split('|').map(str::trim).filter(|cell| !cell.is_empty()).collect::<Vec<_>>().join(" ")];
    }
    let columns = pieces(line);
    if columns.len() > 1 && columns.iter().all(|piece| reads(piece).amount) {
        return columns.into_iter().map(str::to_owned).collect();
    }
    let mut beside = columns;
    for mark in BESIDE {
        beside = beside.iter().flat_map(|piece| piece.split(mark)).map(str::trim).filter(|piece| !piece.is_empty()).collect();
    }
    let says = |piece: &&str| is_yield(piece) || is_time(piece);
    if beside.len() > 1 && beside.iter().filter(|piece| says(piece)).count() * 2 >= beside.len() {
        return beside.into_iter().map(str::to_owned).collect();
    }
    vec![line.to_owned()]
}

/// The name of a recipe in a letter stands above its list.
fn without_the_letter(all: Vec<String>, reads: &dyn Fn(&str) -> Reads) -> Vec<String> {
    let begins = all.iter().position(|line| !line.trim().is_empty()).unwrap_or(0);
    let of_a_letter = |line: &&String| LETTER.iter().any(|word| label(line, word).is_some());
    let head = all[begins..].iter().take_while(of_a_letter).count();
    if head < 2 {
        return all;
    }
    let (mut kept, rest): (Vec<String>, &[String]) = (Vec::new(), &all[begins + head..]);
    let list = rest.iter().position(|line| heading(line) == Some(Part::Ingredients) || reads(line).amount).unwrap_or(0);
    let is_name = |line: &&String| {
        let line = line.trim();
        !line.is_empty() && !line.ends_with([':', ',', '.', '!', '?']) && !is_yield(line) && !is_time(line)
    };
    let name = rest[..list].iter().rposition(|line| is_name(&line));
    let subject = || all[begins..begins + head].iter().find_map(|line| label(line, "subject"));
    kept.extend(name.map(|at| rest[at].clone()).or_else(|| subject().map(str::to_owned)));
    kept.extend(all[begins..begins + head].iter().find_map(|line| Some(format!("by {}", label(line, "from")?))));
    kept.extend(rest.iter().enumerate().filter(|(at, _)| Some(*at) != name).map(|(_, line)| line.clone()));
    kept
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;

    fn read(text: &str) -> Vec<String> {
        let reads = |line: &str| Reads::from(line.starts_with(|c: char| c.is_ascii_digit()) && line.contains(' '));
        lines(text, &reads).into_iter().filter(|line| !line.is_empty()).collect()
    }

    #[test]
    fn what_stands_side_by_side_is_told_apart() {
        for (text, meant) in [
            (
                "8 chicken thighs        2 onions\n400 g tomatoes\t100 g olives",
                vec!["8 chicken thighs", "2 onions", "400 g tomatoes", "100 g olives"],
            ),
            ("Makes: 6 portions     Prep: 15 min     Cook: 1 h 10 min", vec!["Makes: 6 portions", "Prep: 15 min", "Cook: 1 h 10 min"]),
            ("Serves 4 | Ready in 40 minutes", vec!["Serves 4", "Ready in 40 minutes"]),
            ("| 300 g | barley |\n|---|---|\n| 2 tbsp | oil |", vec!["300 g barley", "2 tbsp oil"]),
            ("1 small red cabbage    shredded", vec!["1 small red cabbage    shredded"]),
            ("=====\n-----", vec![]),
        ] {
            assert_eq!(read(text), meant, "{text}");
        }
    }

    #[test]
    fn of_two_columns_the_left_one_comes_first() {
        let text = "Slaw\n\nIngredients        Method\n1 red cabbage      Shred the cabbage.\n2 apples           Grate\n                   the apples.\n1 tbsp vinegar\n\nKeeps 2 days.";
        assert_eq!(
            read(text),
            [
                "Slaw",
                "Ingredients",
                "1 red cabbage",
                "2 apples",
                "1 tbsp vinegar",
                "Keeps 2 days.",
                "Method",
                "Shred the cabbage.",
                "Grate",
                "the apples."
            ]
        );
    }

    #[test]
    fn a_letter_has_its_recipe_below_its_head() {
        let text = "From: Ada\nTo: Ben\nSubject: soup\n\nHi Ben, here is the soup:\n\nLeek soup for four\n\n3 leeks\n\nSimmer.";
        assert_eq!(read(text), ["Leek soup for four", "by Ada", "Hi Ben, here is the soup:", "3 leeks", "Simmer."]);
        let text = "Subject: Leek soup\nFrom: Ada\n\nDear Ben,\n\nServes 4\n\n3 leeks";
        assert_eq!(read(text), ["Leek soup", "by Ada", "Dear Ben,", "Serves 4", "3 leeks"]);
    }
}
