//! Plain text: a name, a yield, ingredients, a method, told apart by headings, blank lines and by what reads as an ingredient.

use super::row::{Row, can_go_on, entry_goes_on, goes_on, is_numbered};
use super::several::apart;
use super::yields::makes;
use super::{Adopted, Source};
use crate::kitchen::keeping;
use crate::kitchen::method::opens_with_work;

/// Words that stand alone above the ingredients, or above the method.
#[rustfmt::skip]
const INGREDIENTS: [&str; 9] = [
    "ingredients", "you need", "you will need", "you'll need", "what you need", "what you will need", "what you'll need", "what goes in", "zutaten",
];
#[rustfmt::skip]
const METHOD: [&str; 14] = [
    "method", "directions", "instructions", "preparation", "procedure", "steps", "how to make it", "how to do it", "how to cook it", "to make", "what to do",
    "what you do", "how it is done", "zubereitung",
];

/// No line of a list is longer.
const LONGEST: usize = 160;

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Part {
    Head,
    Ingredients,
    Method,
}

/// The recipes of a text, none where it has no list that reads as ingredients; `None` where there are several that cannot be told apart.
pub(super) fn recipes(text: &str, is_ingredient: &dyn Fn(&str) -> bool) -> Option<Vec<Adopted>> {
    let rows: Vec<Row> = text.lines().map(Row::of).collect();
    let parts = apart(&rows, is_ingredient)?;
    let several = parts.len() > 1;
    let found: Vec<Option<Adopted>> = parts.into_iter().map(|part| recipe(&rows[part], is_ingredient)).collect();
    // Half of what a text holds would be worse than none.
    if several { found.into_iter().collect() } else { Some(found.into_iter().flatten().collect()) }
}

/// The recipe of a text; `None` where it has no list that reads as ingredients.
fn recipe(rows: &[Row], is_ingredient: &dyn Fn(&str) -> bool) -> Option<Adopted> {
    let mut taking =
        Taking { is_ingredient, recipe: Adopted::default(), part: Part::Head, gap: false, last: None, low: false, wrapped: false };
    let headings = Headings::of(rows);
    // "10 cakes" under the name, alone before a blank line, is what it makes.
    let begins = rows.iter().position(|row| !row.text.is_empty()).unwrap_or(0);
    let head_end = (begins..rows.len()).find(|at| rows[*at].text.is_empty()).unwrap_or(rows.len());
    let read_from = |from: usize, to: usize| rows[from.min(to)..to].iter().filter(|row| listed(&row.text, is_ingredient)).count();
    let head_is_apart = read_from(begins + 1, head_end) <= 1 && read_from(head_end, rows.len()) > 0;
    let width = width(rows);
    for (at, row) in rows.iter().enumerate() {
        let in_head = head_is_apart && at < head_end;
        taking.wrapped = at > 0 && is_full(&rows[at - 1], row, width);
        let to_come = &rows[at + 1..];
        taking.take(row, to_come, headings, in_head);
    }
    let mut recipe = taking.recipe;
    recipe.keeps = keeping(paragraphs(rows).iter().map(String::as_str), &recipe.name);
    let read = recipe.ingredients.iter().filter(|line| listed(line, is_ingredient)).count();
    (read > 0 && read * 2 >= recipe.ingredients.len()).then_some(recipe)
}

/// Its lines, those that go on in the next as one.
fn paragraphs(rows: &[Row]) -> Vec<String> {
    let mut paragraphs: Vec<String> = vec![String::new()];
    for row in rows {
        match paragraphs.last_mut() {
            Some(last) if !last.is_empty() && !row.text.is_empty() && goes_on(last, row, false) => *last = format!("{last} {}", row.text),
            _ => paragraphs.push(row.text.clone()),
        }
    }
    paragraphs
}

/// Shorter lines than this are nobody's width: whoever wrote them ended them.
const LEAST_WIDTH: usize = 50;

/// The longest line of a text that was wrapped; `None` where the lines are as long as their paragraphs.
fn width(rows: &[Row]) -> Option<usize> {
    const MOST_WIDTH: usize = 100;
    let width = rows.iter().map(|row| row.text.chars().count()).max().unwrap_or(0);
    (LEAST_WIDTH..=MOST_WIDTH).contains(&width).then_some(width)
}

/// Had the next line's first word no room in this one?
fn is_full(row: &Row, next: &Row, width: Option<usize>) -> bool {
    let word = next.text.split(' ').next().unwrap_or_default();
    width.is_some_and(|width| row.text.chars().count() + 1 + word.chars().count() > width)
}

/// Which headings a recipe has.
#[derive(Clone, Copy)]
struct Headings {
    list: bool,
    /// One of the method, below that of the list.
    method: bool,
}

impl Headings {
    fn of(rows: &[Row]) -> Headings {
        let at = rows.iter().position(|row| heading(&row.text) == Some(Part::Ingredients));
        let below = at.map_or(&[][..], |at| &rows[at..]);
        Headings { list: at.is_some(), method: below.iter().any(|row| heading(&row.text) == Some(Part::Method)) }
    }
}

/// A recipe that is read line by line.
struct Taking<'t> {
    is_ingredient: &'t dyn Fn(&str) -> bool,
    recipe: Adopted,
    part: Part,
    /// A blank line stood before.
    gap: bool,
    /// The last line of the list or of the method.
    last: Option<Row>,
    /// Sentences of the method begin with small letters.
    low: bool,
    /// The line before is as long as a line can be.
    wrapped: bool,
}

impl Taking<'_> {
    fn take(&mut self, row: &Row, to_come: &[Row], headings: Headings, in_head: bool) {
        let line = row.text.as_str();
        if line.is_empty() {
            self.gap = true;
            return;
        }
        let after_a_gap = std::mem::take(&mut self.gap);
        if let Some(next) = heading(line) {
            self.part = next;
            self.last = None;
            // "Ingredients for 4"
            if self.recipe.makes.is_none() {
                self.recipe.makes = makes(line);
            }
            return;
        }
        if self.part != Part::Head && (is_source(line, &mut self.recipe.source) || self.is_its_yield(line)) {
            return;
        }
        let is_listed = listed(line, self.is_ingredient);
        if self.part == Part::Head && !headings.list && !in_head && !self.recipe.name.is_empty() && is_listed {
            self.part = Part::Ingredients;
        }
        if self.part == Part::Ingredients && !headings.method && self.begins_the_method(row, to_come, headings, after_a_gap) {
            self.begin_the_method();
        }
        let last = self.last.take().filter(|_| !after_a_gap);
        match self.part {
            Part::Head => head(line, &mut self.recipe),
            Part::Ingredients => match last.filter(|last| entry_goes_on(last, row, is_listed)) {
                Some(last) => self.go_on(last, row, Part::Ingredients),
                None => self.recipe.ingredients.push(named(row, is_listed)),
            },
            Part::Method => {
                if self.recipe.method.iter().all(|line| is_part_name(line)) {
                    self.low = line.starts_with(|c: char| c.is_lowercase());
                }
                match last.filter(|last| goes_on(&last.text, row, self.low) || self.wrapped && can_go_on(&last.text, row)) {
                    Some(last) => self.go_on(last, row, Part::Method),
                    None => self.recipe.method.push(named(row, false)),
                }
            }
        }
        if self.part != Part::Head && self.last.is_none() {
            self.last = Some(row.clone());
        }
    }

    /// Does the list end before this line, although no heading says so?
    fn begins_the_method(&self, row: &Row, to_come: &[Row], headings: Headings, after_a_gap: bool) -> bool {
        let line = row.text.as_str();
        let is_listed = listed(line, self.is_ingredient);
        if is_listed || is_part_name(line) || row.is_title {
            return false;
        }
        if is_numbered(line) {
            return self.recipe.ingredients.iter().any(|line| !is_numbered(line)) && !self.is_numbered_food(line);
        }
        // Below a heading of its own the list may have blank lines in it.
        let apart = after_a_gap || self.recipe.ingredients.last().is_some_and(|last| is_part_name(last));
        if headings.list {
            let list_is_over = || !to_come.iter().any(|row| listed(&row.text, self.is_ingredient));
            return apart && !self.recipe.ingredients.is_empty() && (is_sentence(line) || !is_short(line) && list_is_over());
        }
        !is_short(line) || after_a_gap || apart && is_sentence(line)
    }

    /// "1. 2 onions"
    fn is_numbered_food(&self, line: &str) -> bool {
        let food = line.trim_start_matches(|c: char| c.is_ascii_digit()).trim_start_matches(['.', ')']).trim_start();
        listed(food, self.is_ingredient)
    }

    /// What was taken for the name of a part of the list, and has nothing below it, heads the method.
    fn begin_the_method(&mut self) {
        self.part = Part::Method;
        self.last = None;
        let named = self.recipe.ingredients.iter().rposition(|line| !is_part_name(line)).map_or(0, |at| at + 1);
        self.recipe.method.extend(self.recipe.ingredients.drain(named..));
    }

    /// "Serves 4" below the list, or at the end of it all.
    fn is_its_yield(&mut self, line: &str) -> bool {
        if self.recipe.makes.is_some() || !is_yield(line) {
            return false;
        }
        self.recipe.makes = makes(line);
        self.recipe.makes.is_some()
    }

    /// What was wrapped is one line again.
    fn go_on(&mut self, last: Row, row: &Row, part: Part) {
        let lines = if part == Part::Method { &mut self.recipe.method } else { &mut self.recipe.ingredients };
        if let Some(line) = lines.last_mut() {
            *line = format!("{line} {}", row.text);
            self.last = Some(Row { text: line.clone(), ..last });
        }
    }
}

/// A heading within the list or the method ends with a colon.
fn named(row: &Row, is_listed: bool) -> String {
    if row.is_title && !is_listed && !row.text.ends_with([':', '.']) { format!("{}:", row.text) } else { row.text.clone() }
}

pub(super) fn heading(line: &str) -> Option<Part> {
    let word = line.trim_matches(|c: char| !c.is_alphabetic()).to_lowercase().replace('’', "'");
    let rest = word.strip_prefix("ingredients").map(|rest| rest.trim_start_matches([' ', ':', '(', '-', ',']));
    // The digits of "Ingredients (for 4)" are trimmed away above.
    let for_so_many = rest.is_some_and(|rest| {
        !rest.is_empty() && line.to_lowercase().split_once(rest).is_some_and(|(_, end)| is_yield(&format!("{rest}{end}")))
    });
    if INGREDIENTS.contains(&word.as_str()) || for_so_many {
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

/// "Chop the dill" and "In a pan, heat the oil.": something to do, or told in a sentence.
fn is_sentence(line: &str) -> bool {
    line.ends_with(['.', '!']) || opens_with_work(line)
}

/// Does the line stand in a list of ingredients? A numbered step does not, nor a sentence.
pub(super) fn listed(line: &str, is_ingredient: &dyn Fn(&str) -> bool) -> bool {
    let to_taste = line.to_lowercase().ends_with("to taste");
    !is_numbered(line) && line.chars().count() <= LONGEST && !line.ends_with('.') && (to_taste || is_ingredient(line))
}

/// "Serves 4", "Makes 24 biscuits", "For 2", alone on a line.
pub(super) fn is_yield(line: &str) -> bool {
    const SAYS: [&str; 7] = ["serves", "serving", "makes", "yield", "servings", "portions", "feeds"];
    let line = line.trim_matches(['(', ')', '.', ' ']);
    let said = line.to_lowercase();
    let first = said.split([' ', ':']).next().unwrap_or_default();
    let people = said.strip_prefix("for ").is_some_and(|rest| {
        let rest =
            rest.trim_start_matches("about ").trim_end_matches(" people").trim_end_matches(" portions").trim_end_matches(" servings");
        !rest.contains(' ') && makes(rest).is_some()
    });
    (people || SAYS.contains(&first)) && is_short(line) && makes(line).is_some()
}

/// "Source: https://…", "Source: A neighbour", or an address alone on its line.
fn is_source(line: &str, source: &mut Source) -> bool {
    let said = line.to_lowercase();
    let told = if said.starts_with("http://") || said.starts_with("https://") {
        (!line.contains(' ')).then_some(line)
    } else {
        said.starts_with("source:").then(|| line["source:".len()..].trim()).filter(|rest| !rest.is_empty())
    };
    let Some(told) = told else { return false };
    let place = if told.starts_with("http") { &mut source.address } else { &mut source.title };
    if place.is_some() {
        return false;
    }
    *place = Some(told.to_owned());
    true
}

/// The first line is the name; what follows says how much it makes and where it is from.
fn head(line: &str, recipe: &mut Adopted) {
    // "(for 4)"
    let line = line.strip_prefix('(').and_then(|line| line.strip_suffix(')')).unwrap_or(line);
    let said = line.to_lowercase();
    let after = |word: &str| {
        said.starts_with(word).then(|| line[word.len()..].trim_start_matches([':', ' ']).to_owned()).filter(|rest| !rest.is_empty())
    };
    let says_how_much = ["serves", "makes", "yield", "for ", "servings", "portions"].iter().any(|word| said.starts_with(word))
        || ["servings", "portions", "people"].iter().any(|word| said.ends_with(word))
        || said.trim_start_matches("about ").starts_with(|c: char| c.is_ascii_digit()) && is_short(line);
    // "For two: leek soup" is a name.
    let says_how_much = says_how_much && (!recipe.name.is_empty() || is_yield(line) || said.contains(|c: char| c.is_ascii_digit()));
    if is_source(line, &mut recipe.source) {
        return;
    }
    if let Some(title) = after("source").or_else(|| after("from")) {
        let place = if title.starts_with("http") { &mut recipe.source.address } else { &mut recipe.source.title };
        *place = Some(title);
    } else if let Some(author) = after("by ") {
        recipe.source.author = Some(author);
    } else if says_how_much && recipe.makes.is_none() && makes(line).is_some() {
        recipe.makes = makes(line);
    } else if recipe.name.is_empty() {
        recipe.name = line.to_owned();
    } else {
        recipe.unplaced.push(line.to_owned());
    }
}
