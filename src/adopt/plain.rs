//! Plain text: a name, a yield, ingredients, a method, told apart by headings, blank lines and by what reads as an ingredient.
//!
//! A list has parts: a heading of its own stands above lines that read as ingredients, with a colon or without, and a block of such lines is a
//! part of the list wherever it stands.

use super::head::{head, is_no_step, is_source, is_time, take_time};
use super::line::{Part, heading, is_food, is_part_name, is_sentence, is_short, is_yield, listed};
use super::row::{Row, can_go_on, entry_goes_on, goes_on, is_numbered, without_number};
use super::several::apart;
use super::yields::makes;
use super::{Adopted, Reads, layout};
use crate::kitchen::keeping;
use crate::kitchen::method::opens_with_work;

/// The recipes of a text, none where it has no list that reads as ingredients; `None` where there are several that cannot be told apart.
pub(super) fn recipes(text: &str, reads: &dyn Fn(&str) -> Reads) -> Option<Vec<Adopted>> {
    let mut rows: Vec<Row> = layout::lines(text, reads).iter().map(|line| Row::of(line)).collect();
    without_numbers(&mut rows, reads);
    let parts = apart(&rows, reads)?;
    let several = parts.len() > 1;
    let found: Vec<Option<Adopted>> = parts.into_iter().map(|part| recipe(&rows[part], reads)).collect();
    // Half of what a text holds would be worse than none.
    if several { found.into_iter().collect() } else { Some(found.into_iter().flatten().collect()) }
}

/// The numbers of a list are gone; those of steps stay.
fn without_numbers(rows: &mut [Row], reads: &dyn Fn(&str) -> Reads) {
    let is_a_food = |row: &Row| without_number(&row.text).is_some_and(|rest| listed(rest, reads) && !opens_with_work(rest));
    let mut from = 0;
    while from < rows.len() {
        let to = (from..rows.len()).find(|at| !is_numbered(&rows[*at].text)).unwrap_or(rows.len());
        let below_its_heading = from > 0 && heading(&rows[from - 1].text) == Some(Part::Ingredients);
        let foods = rows[from..to].iter().filter(|row| is_a_food(row)).count();
        let is_a_list = foods == to - from && foods > 1 || below_its_heading && foods * 2 >= to - from && foods > 0;
        if is_a_list {
            for row in &mut rows[from..to] {
                row.text = without_number(&row.text).unwrap_or(&row.text).to_owned();
                row.is_entry = true;
            }
        }
        from = to.max(from + 1);
    }
}

/// The recipe of a text; `None` where it has no list that reads as ingredients.
fn recipe(rows: &[Row], reads: &dyn Fn(&str) -> Reads) -> Option<Adopted> {
    let mut taking =
        Taking { reads, recipe: Adopted::default(), part: Part::Head, gap: false, last: None, low: false, wrapped: false, until: None };
    let headings = Headings::of(rows);
    // "10 cakes" under the name, alone before a blank line, is what it makes.
    let begins = rows.iter().position(|row| !row.text.is_empty()).unwrap_or(0);
    let head_end = (begins..rows.len()).find(|at| rows[*at].text.is_empty()).unwrap_or(rows.len());
    let read_from = |from: usize, to: usize| rows[from.min(to)..to].iter().filter(|row| listed(&row.text, reads)).count();
    let head_is_apart = read_from(begins + 1, head_end) <= 1 && read_from(head_end, rows.len()) > 0;
    let width = width(rows);
    for (at, row) in rows.iter().enumerate() {
        let in_head = head_is_apart && at < head_end;
        taking.wrapped = at > 0 && is_full(&rows[at - 1], row, width);
        taking.take(row, &rows[at + 1..], headings, in_head);
    }
    let mut recipe = taking.recipe;
    named_below(&mut recipe);
    for line in recipe.method.iter().filter(|line| is_food(line, reads)) {
        recipe.lost.push(format!("\"{line}\" stands in the method and reads as an ingredient: move it to the list, if it is one."));
    }
    recipe.lost.extend(another(rows, reads));
    recipe.keeps = keeping(paragraphs(rows).iter().map(String::as_str), &recipe.name);
    let whole = |line: &&String| listed(line, reads) || headings.list && reads(line).food;
    let read = recipe.ingredients.iter().filter(whole).count();
    let named = recipe.ingredients.iter().filter(|line| !is_part_name(line) && reads(line).food).count();
    let of_foods = recipe.ingredients.iter().filter(|line| !is_part_name(line)).count();
    (read > 0 && read.max(named) * 2 >= of_foods).then_some(recipe)
}

/// "Here it is at last!" above the name, as a letter begins: the first plain line below it is the name.
fn named_below(recipe: &mut Adopted) {
    const SAID: [char; 4] = ['!', '?', ':', ','];
    let is_name = |line: &String| is_short(line) && !line.ends_with(SAID) && line.starts_with(char::is_uppercase);
    if let Some(at) = recipe.unplaced.iter().position(is_name).filter(|_| recipe.name.ends_with(SAID)) {
        std::mem::swap(&mut recipe.name, &mut recipe.unplaced[at]);
    }
}

/// "Step 1" alone on its line.
fn is_step_number(line: &str) -> bool {
    let low = line.trim_end_matches([':', '.']).to_lowercase();
    low.strip_prefix("step ").is_some_and(|number| number.chars().all(|c| c.is_ascii_digit()))
}

/// "Herb yoghurt" above a list of its own, after a method: a part of the dish or another one, which nobody knows; told.
fn another(rows: &[Row], reads: &dyn Fn(&str) -> Reads) -> Option<String> {
    let done = rows.iter().position(|row| is_sentence(&row.text) && opens_with_work(&row.text))?;
    let list = rows[..done].iter().any(|row| is_food(&row.text, reads));
    let begins = |at: &usize| {
        let (row, next) = (&rows[*at], rows[at + 1..].iter().find(|row| !row.text.is_empty()));
        let is_name = is_short(&row.text) && !row.text.ends_with(':') && !row.text.to_lowercase().starts_with("for ");
        let plain = heading(&row.text).is_none() && !opens_with_work(&row.text) && !reads(&row.text).amount && !row.text.is_empty();
        rows[at - 1].text.is_empty() && is_name && plain && next.is_some_and(|next| is_food(&next.text, reads))
    };
    let has_a_method = |at: &usize| rows[*at..].iter().any(|row| is_sentence(&row.text) && opens_with_work(&row.text));
    let at = (done + 1..rows.len()).find(|at| list && begins(at) && has_a_method(at))?;
    Some(format!(
        "\"{}\" stands above a list and a method of its own, and is taken as a part of this one: if it is another recipe, give it a file of its own.",
        rows[at].text
    ))
}

/// Its lines, those that go on in the next as one; what stands under "To store" with that word.
fn paragraphs(rows: &[Row]) -> Vec<String> {
    const STORING: [&str; 5] = ["to store", "storing", "storage", "keeping", "to keep"];
    let mut paragraphs: Vec<String> = vec![String::new()];
    let mut storing: Option<&str> = None;
    for row in rows {
        let is_heading = STORING.contains(&row.text.trim_end_matches(':').to_lowercase().as_str());
        match paragraphs.last_mut() {
            _ if is_heading => paragraphs.push(String::new()),
            _ if storing.is_some() && !row.text.is_empty() => paragraphs.push(format!("{}: {}", storing.unwrap_or_default(), row.text)),
            Some(last) if !last.is_empty() && !row.text.is_empty() && goes_on(last, row, false) => *last = format!("{last} {}", row.text),
            _ => paragraphs.push(row.text.clone()),
        }
        storing = if is_heading { Some(row.text.trim_end_matches(':')) } else { storing.filter(|_| row.text.is_empty()) };
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
    reads: &'t dyn Fn(&str) -> Reads,
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
    /// Of a part of the list that stands within the method: how many lines are left when it ends.
    until: Option<usize>,
}

impl Taking<'_> {
    fn take(&mut self, row: &Row, to_come: &[Row], headings: Headings, in_head: bool) {
        let line = row.text.as_str();
        if line.is_empty() {
            self.gap = true;
            return;
        }
        let after_a_gap = std::mem::take(&mut self.gap);
        if self.until.is_some_and(|until| to_come.len() < until) {
            self.until = None;
            self.begin_the_method();
        }
        if let Some(next) = heading(line) {
            self.part = next;
            self.last = None;
            // "Ingredients for 4"
            if self.recipe.makes.is_none() {
                self.recipe.makes = makes(line);
            }
            return;
        }
        if self.part != Part::Head && (is_source(line, &mut self.recipe.source) || self.is_its_yield(line) || self.says_a_time(line)) {
            return;
        }
        if self.part == Part::Method && is_step_number(line) {
            self.last = None;
            return;
        }
        if self.part != Part::Head && is_no_step(line) {
            self.recipe.unplaced.push(line.to_owned());
            self.last = None;
            return;
        }
        let is_listed = listed(line, self.reads);
        let heads_a_part = self.heads_a_part(row, to_come, after_a_gap);
        let above_foods = || to_come.iter().find(|row| !row.text.is_empty()).is_some_and(|next| listed(&next.text, self.reads));
        let is_part = is_part_name(line) && line.split(' ').count() <= 5 && !line.contains(',') && above_foods();
        let opens = is_listed || heads_a_part || is_part;
        if self.part == Part::Head && !headings.list && !in_head && !self.recipe.name.is_empty() && opens {
            self.part = Part::Ingredients;
        }
        if self.part == Part::Method && after_a_gap && self.back_to_the_list(row, to_come) {
            return;
        }
        if self.part == Part::Ingredients && self.until.is_none() && heads_a_part {
            self.part_name(row);
            return;
        }
        if self.part == Part::Ingredients
            && self.until.is_none()
            && !headings.method
            && self.begins_the_method(row, to_come, headings, after_a_gap)
        {
            self.begin_the_method();
        }
        let last = self.last.take().filter(|_| !after_a_gap);
        match self.part {
            Part::Head => head(line, &mut self.recipe),
            Part::Ingredients => match last.filter(|last| entry_goes_on(last, row, is_listed || self.is_bracketed(line))) {
                Some(last) => self.go_on(last, row, Part::Ingredients),
                None => self.recipe.ingredients.push(unbracketed(named(row, is_listed), self.reads)),
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
        let is_listed = listed(line, self.reads);
        if is_listed || is_part_name(line) || row.is_title {
            return false;
        }
        if is_numbered(line) {
            return self.recipe.ingredients.iter().any(|line| !is_numbered(line)) && !self.is_numbered_food(line);
        }
        // Below a heading of its own the list may have blank lines in it.
        let apart = after_a_gap || self.recipe.ingredients.last().is_some_and(|last| is_part_name(last));
        if headings.list {
            let list_is_over = || !to_come.iter().any(|row| listed(&row.text, self.reads));
            return apart && !self.recipe.ingredients.is_empty() && (is_sentence(line) || !is_short(line) && list_is_over());
        }
        !is_short(line) || after_a_gap || apart && is_sentence(line)
    }

    /// "Sauce" above ingredients, with a colon or without: it names a part of the list, unless it is a food itself.
    fn heads_a_part(&self, row: &Row, to_come: &[Row], after_a_gap: bool) -> bool {
        let line = row.text.as_str();
        const ALWAYS: [&str; 6] = ["to finish", "to serve", "to garnish", "to decorate", "to top", "for the "];
        let low = line.to_lowercase();
        let begins = after_a_gap || self.recipe.ingredients.is_empty() || ALWAYS.iter().any(|words| low.starts_with(words));
        let is_for = low.starts_with("for ");
        let next = to_come.iter().find(|row| !row.text.is_empty());
        let above_foods = next.is_some_and(|next| listed(&next.text, self.reads) && !opens_with_work(&next.text));
        let is_name = is_short(line) && !line.ends_with([':', ',', '?']) && !line.contains(|c: char| c.is_numeric()) && !row.is_entry;
        let is_other = row.is_title || heading(line).is_some() || is_its_head(line);
        let says_foods = (self.reads)(line).food && !is_for;
        // "Finish" is a verb, too: then all of its block must be foods.
        let is_work = || opens_with_work(line) && !self.are_foods(to_come);
        begins && above_foods && is_name && !is_other && !says_foods && !is_work()
    }

    /// Are the lines up to the next gap ingredients with amounts, each of a known food?
    fn are_foods(&self, to_come: &[Row]) -> bool {
        let mut block = to_come.iter().take_while(|row| !row.text.is_empty()).peekable();
        block.peek().is_some() && block.all(|row| is_food(&row.text, self.reads))
    }

    /// Without "for" nobody knows that it is no food: that is told.
    fn part_name(&mut self, row: &Row) {
        let line = row.text.as_str();
        self.last = None;
        self.recipe.ingredients.push(format!("{line}:"));
        if line.to_lowercase().starts_with("for ") {
            return;
        }
        self.recipe.lost.push(format!("\"{line}\" is read as the heading of the lines below it: nothing of that name is bought."));
    }

    /// A block of lines that read as ingredients is a part of the list, although the method has begun; a heading may stand above them.
    fn back_to_the_list(&mut self, row: &Row, to_come: &[Row]) -> bool {
        let block: Vec<&Row> = std::iter::once(row).chain(to_come).take_while(|row| !row.text.is_empty()).collect();
        let is_food = |row: &&Row| is_food(&row.text, self.reads);
        let head = usize::from(!is_food(&row) && is_short(&row.text) && !row.text.contains(|c: char| c.is_numeric()));
        let foods = block.iter().skip(head).take_while(|row| is_food(row)).count();
        if foods + head < 2 || foods + head < block.len() {
            return false;
        }
        // Below it the method goes on.
        self.until = Some(to_come.len() + 1 - head - foods);
        self.part = Part::Ingredients;
        self.last = None;
        if head == 1 {
            let name = row.text.trim_end_matches(':').to_owned();
            self.part_name(&Row { text: name, ..row.clone() });
        }
        head == 1
    }

    fn is_bracketed(&self, line: &str) -> bool {
        line.strip_prefix('(').and_then(|line| line.strip_suffix(')')).is_some_and(|inner| listed(inner, self.reads))
    }

    /// "Cook: 25 minutes", alone on a line below the list, where nothing else said it.
    fn says_a_time(&mut self, line: &str) -> bool {
        line.contains(':') && take_time(line, &mut self.recipe)
    }

    /// "1. 2 onions"
    fn is_numbered_food(&self, line: &str) -> bool {
        let food = line.trim_start_matches(|c: char| c.is_ascii_digit()).trim_start_matches(['.', ')']).trim_start();
        listed(food, self.reads)
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

/// "(500 g potatoes)" alone on its line is an ingredient.
fn unbracketed(line: String, reads: &dyn Fn(&str) -> Reads) -> String {
    match line.strip_prefix('(').and_then(|line| line.strip_suffix(')')).filter(|inner| reads(inner).amount) {
        Some(inner) => inner.to_owned(),
        None => line,
    }
}

/// Says it how much the recipe makes, or how long it takes?
fn is_its_head(line: &str) -> bool {
    is_yield(line) || is_time(line)
}
