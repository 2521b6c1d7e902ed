//! An adopted recipe as the text of a file in recipes/.

use std::fmt::Write;

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

use super::Adopted;
use crate::words;

/// The line above the ingredients in a file.
pub const INGREDIENTS: &str = "ingredients = \"\"\"";

/// No file name needs to be longer.
const LONGEST_ID: usize = 80;

/// Letters that are folded to several.
const FOLDED: [(char, &str); 8] = [('ß', "ss"), ('æ', "ae"), ('œ', "oe"), ('ø', "o"), ('ł', "l"), ('đ', "d"), ('þ', "th"), ('ð', "d")];

/// The name in lower case, other letters folded, words joined by hyphens: "Crème brûlée" is `creme-brulee`.
///
/// ```
/// assert_eq!(spence::adopt::id_of("Roast beetroot & carrots"), "roast-beetroot-carrots");
/// assert_eq!(spence::adopt::id_of("Crème brûlée"), "creme-brulee");
/// ```
pub fn id_of(name: &str) -> String {
    let mut id = String::new();
    for letter in name.to_lowercase().nfkd().filter(|c| !is_combining_mark(*c) && !matches!(c, '\'' | '’')) {
        match FOLDED.iter().find(|(known, _)| *known == letter) {
            Some((_, folded)) => id.push_str(folded),
            None if letter.is_ascii_alphanumeric() => id.push(letter),
            None if !id.is_empty() && !id.ends_with('-') => id.push('-'),
            None => (),
        }
    }
    id.truncate(LONGEST_ID);
    let id = id.trim_matches('-');
    if id.is_empty() { "recipe".to_owned() } else { id.to_owned() }
}

/// The file: name, makes, source, how long it keeps and in which words the page says so, the page's times and what has no key as comments, ingredients and
/// method as written, beside them as comments what does not read as an ingredient.
pub fn recipe_file(recipe: &Adopted) -> String {
    let mut text = String::new();
    let quoted = |text: &str| toml_edit::Value::from(text).to_string();
    let name = if recipe.name.is_empty() { "Recipe" } else { &recipe.name };
    let _ = writeln!(text, "name = {}", quoted(name));
    let _ = match (&recipe.makes, &recipe.yields) {
        (Some(makes), _) => writeln!(text, "makes = {}", quoted(makes)),
        (None, Some(said)) => writeln!(text, "makes = \"4 portions\"   # the page says: {said}"),
        (None, None) => writeln!(text, "makes = \"4 portions\"   # the page does not say"),
    };
    let source = [("author", &recipe.source.author), ("title", &recipe.source.title), ("address", &recipe.source.address)];
    let source: Vec<String> = source.iter().filter_map(|(key, value)| Some(format!("{key} = {}", quoted(value.as_deref()?)))).collect();
    if !source.is_empty() {
        let _ = writeln!(text, "source = {{ {} }}", source.join(", "));
    }
    if !recipe.keeps.places.is_empty() {
        let places = recipe.keeps.places.iter().map(|(place, time)| format!("{} = {}", words::place(*place), quoted(time)));
        let places: Vec<String> = places.collect();
        let _ = writeln!(text, "keeps = {{ {} }}   # the page says: {}", places.join(", "), recipe.keeps.said());
    }
    if !recipe.times.is_empty() {
        let times: Vec<String> = recipe.times.iter().map(|(what, minutes)| format!("{what} {}", words::duration(*minutes))).collect();
        let _ = writeln!(text, "# The page says: {}.", times.join(", "));
    }
    for line in &recipe.unplaced {
        let _ = writeln!(text, "# The page also says: {line}");
    }
    let _ = write!(text, "\n{INGREDIENTS}\n{}\"\"\"\n", several_lines(&recipe.ingredients));
    for line in &recipe.unread {
        let _ = writeln!(text, "# Not read as an ingredient: {line}");
    }
    for told in &recipe.lost {
        let _ = writeln!(text, "# {told}");
    }
    if !recipe.method.is_empty() {
        let _ = write!(text, "\nmethod = \"\"\"\n{}\"\"\"\n", several_lines(&recipe.method));
    }
    text
}

/// Inside three quotes: a backslash and a quote that could end the text are escaped.
fn several_lines(lines: &[String]) -> String {
    lines.iter().map(|line| line.replace('\\', "\\\\").replace("\"\"", "\\\"\\\"") + "\n").collect()
}
