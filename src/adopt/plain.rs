//! Plain text: a name, a yield, ingredients, a method, told apart by headings, blank lines and by what reads as an ingredient.

use super::keeping::keeping;
use super::tidy;
use super::yields::makes;
use super::{Adopted, Source};

/// Words that stand alone above the ingredients, or above the method.
const INGREDIENTS: [&str; 3] = ["ingredients", "you need", "you will need"];
const METHOD: [&str; 8] = ["method", "directions", "instructions", "preparation", "steps", "how to make it", "to make", "what to do"];

/// No line of a list is longer.
const LONGEST: usize = 160;

#[derive(Clone, Copy, PartialEq)]
enum Part {
    Head,
    Ingredients,
    Method,
}

/// The recipe of a text; `None` where it has no list that reads as ingredients.
pub(super) fn recipe(text: &str, is_ingredient: &dyn Fn(&str) -> bool) -> Option<Adopted> {
    let lines: Vec<String> = text.lines().map(tidy_line).collect();
    let mut recipe = Adopted::default();
    let has_headings = lines.iter().any(|line| heading(line) == Some(Part::Ingredients));
    let mut part = Part::Head;
    let mut after_a_gap = false;
    // "10 cakes" under the name, alone before a blank line, is what it makes.
    let begins = lines.iter().position(|line| !line.is_empty()).unwrap_or(0);
    let head_end = (begins..lines.len()).find(|at| lines[*at].is_empty()).unwrap_or(lines.len());
    let read_from = |from: usize, to: usize| lines[from.min(to)..to].iter().filter(|line| listed(line, is_ingredient)).count();
    let head_is_apart = read_from(begins + 1, head_end) <= 1 && read_from(head_end, lines.len()) > 0;
    for (at, line) in lines.iter().enumerate() {
        if line.is_empty() {
            after_a_gap = true;
            continue;
        }
        let goes_on = !std::mem::take(&mut after_a_gap) && is_short(line);
        if let Some(next) = heading(line) {
            part = next;
            continue;
        }
        let in_head = head_is_apart && at < head_end;
        if part == Part::Head && !has_headings && !in_head && !recipe.name.is_empty() && listed(line, is_ingredient) {
            part = Part::Ingredients;
        }
        if part == Part::Ingredients && !has_headings && !listed(line, is_ingredient) && !is_part_name(line) && !goes_on {
            part = Part::Method;
        }
        match part {
            Part::Head => head(line, &mut recipe),
            Part::Ingredients => recipe.ingredients.push(line.clone()),
            Part::Method => recipe.method.push(line.clone()),
        }
    }
    recipe.keeps = keeping(lines.iter().map(String::as_str), &recipe.name);
    let read = recipe.ingredients.iter().filter(|line| listed(line, is_ingredient)).count();
    (read > 0 && read * 2 >= recipe.ingredients.len()).then_some(recipe)
}

fn tidy_line(line: &str) -> String {
    // A text has no markup: "<" is a letter in it.
    tidy::line(&line.replace('&', "&amp;").replace('<', "&lt;"))
}

fn heading(line: &str) -> Option<Part> {
    let word = line.trim_matches(|c: char| !c.is_alphabetic()).to_lowercase();
    if INGREDIENTS.contains(&word.as_str()) {
        Some(Part::Ingredients)
    } else if METHOD.contains(&word.as_str()) {
        Some(Part::Method)
    } else {
        None
    }
}

/// "For the dressing:" in a list.
fn is_part_name(line: &str) -> bool {
    line.ends_with(':') && line.chars().count() < 60
}

/// "salt" and "a few sprigs of dill" in the middle of a list: no sentence.
fn is_short(line: &str) -> bool {
    line.chars().count() <= 40 && !line.ends_with(['.', '!'])
}

/// Does the line stand in a list of ingredients? A numbered step does not, nor a sentence.
fn listed(line: &str, is_ingredient: &dyn Fn(&str) -> bool) -> bool {
    let numbered = line.trim_start_matches(|c: char| c.is_ascii_digit());
    let is_step = numbered.len() < line.len() && numbered.starts_with(['.', ')']) && numbered[1..].starts_with(' ');
    let to_taste = line.to_lowercase().ends_with("to taste");
    !is_step && line.chars().count() <= LONGEST && !line.ends_with('.') && (to_taste || is_ingredient(line))
}

/// The first line is the name; what follows says how much it makes and where it is from.
fn head(line: &str, recipe: &mut Adopted) {
    // "(for 4)"
    let line = line.strip_prefix('(').and_then(|line| line.strip_suffix(')')).unwrap_or(line);
    let said = line.to_lowercase();
    let after = |word: &str| {
        said.starts_with(word).then(|| line[word.len()..].trim_start_matches([':', ' ']).to_owned()).filter(|rest| !rest.is_empty())
    };
    let is_yield = ["serves", "makes", "yield", "for ", "servings", "portions"].iter().any(|word| said.starts_with(word))
        || ["servings", "portions", "people"].iter().any(|word| said.ends_with(word))
        || said.trim_start_matches("about ").starts_with(|c: char| c.is_ascii_digit()) && is_short(line);
    if let Some(source) = after("source").or_else(|| after("from")) {
        let address = source.starts_with("http");
        recipe.source = if address {
            Source { address: Some(source), ..recipe.source.clone() }
        } else {
            Source { title: Some(source), ..recipe.source.clone() }
        };
    } else if let Some(author) = after("by ") {
        recipe.source.author = Some(author);
    } else if is_yield && recipe.makes.is_none() && makes(line).is_some() {
        recipe.makes = makes(line);
    } else if recipe.name.is_empty() {
        recipe.name = line.trim_start_matches(['#', ' ']).to_owned();
    }
}
