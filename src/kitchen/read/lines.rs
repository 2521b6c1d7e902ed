//! Ingredient lines in all the ways a file may hold them: one text of many lines, a list of texts, a list of tables.

use std::collections::BTreeMap;

use toml::de::DeValue;

use super::any;
use super::names::Names;
use super::shapes;
use super::source::{Findings, Source};
use super::table::{Entry, Table, unseen_letter};
use crate::foods::{Food, FoodId, Foods, Item, State, own_dimension};
use crate::kitchen::keys::LETTERS;
use crate::kitchen::line::{Line, LineError, LineOf, LineRead, read_ingredients};
use crate::kitchen::method::Paragraph;
use crate::kitchen::{Ingredient, RecipeId, Spot, Wanted, Warning};
use crate::measure::{Amount, Number, Pints, Quantity, Spoons, Unit, read_amount, unit_like};
use crate::words::marks::is_unseen;

/// What a line can speak of.
#[derive(Debug)]
pub(super) struct Speech<'k> {
    pub foods: Foods,
    pub recipes: &'k Names,
    pub spoons: Spoons,
    pub found: &'k Findings,
    /// `rules.pints` is written; else a line that uses one is told which was meant.
    pub pints_written: bool,
    /// How many the recipe whose lines are read serves, where it says so.
    pub portions: Option<Number>,
    nearest: BTreeMap<FoodId, Vec<String>>,
    /// "For the dressing:" and its likes, each with its place.
    pub headings: Vec<(Spot, String)>,
}

/// One line with its place: `byte` is where its text begins, `exact` whether offsets in the text are offsets in the file.
pub(super) struct Typed {
    pub text: String,
    pub byte: usize,
    pub exact: bool,
}

/// A line as a file holds it.
pub(super) enum Written<'t, 's> {
    Line(Typed, &'s Source),
    Table(Table<'t>),
}

/// "vegetable stock, by the liter" for "litter vegetable stock": a slip in a unit made it a part of the name.
fn by_another_unit(name: &str, foods: &Foods) -> Option<String> {
    let (unit, food) = name.split_once(' ')?;
    let (unit, food) = (unit_like(unit)?, foods.find(food)?);
    Some(format!("{}, by the {unit}", foods[food].name))
}

impl<'k> Speech<'k> {
    pub fn new(foods: Foods, recipes: &'k Names, spoons: Spoons, found: &'k Findings) -> Self {
        Speech { foods, recipes, spoons, found, pints_written: true, portions: None, nearest: BTreeMap::new(), headings: Vec::new() }
    }

    /// The food of that name; an unknown one keeps its own name, with a warning.
    pub fn food(&mut self, name: &str, at: &Spot) -> FoodId {
        let id = self.foods.find(name).unwrap_or_else(|| self.foods.intern_unknown(name));
        if self.foods[id].unknown {
            let foods = &self.foods;
            let near = || by_another_unit(name, foods).map_or_else(|| foods.nearest(name), |meant| vec![meant]);
            let nearest = self.nearest.entry(id).or_insert_with(near).clone();
            self.found.warn(Warning::UnknownFood { at: at.clone(), food: name.to_owned(), nearest });
        }
        id
    }

    /// The headings of a recipe's list, each with the place of the ingredient after it.
    pub fn headings_of(&self, recipe: &crate::kitchen::Recipe) -> Vec<(usize, String)> {
        let own = self.headings.iter().filter(|(at, _)| at.file == recipe.at.file);
        own.map(|(at, heading)| (recipe.ingredients.iter().filter(|one| one.at < *at).count(), heading.clone())).collect()
    }

    /// All lines of `key`; `heading` is how a line is written as a table.
    pub fn lines(&mut self, table: &Table<'_>, key: &str, heading: &'static str) -> Vec<Ingredient> {
        self.each_line(table, key, heading, |speech, written| match written {
            Written::Line(typed, source) => match any::split(&typed.text) {
                Some(_) => {
                    any::refuse(typed.text.trim(), source.spot(typed.byte), speech.found);
                    Vec::new()
                }
                None => speech.line(typed, source),
            },
            Written::Table(table) => speech.table_line(table),
        })
    }

    /// What `read` makes of every line of `key`, one after another.
    pub fn each_line<T>(
        &mut self,
        table: &Table<'_>,
        key: &str,
        heading: &'static str,
        mut read: impl FnMut(&mut Self, Written<'_, '_>) -> Vec<T>,
    ) -> Vec<T> {
        let source = table.file.source;
        match table.entry(key) {
            None => Vec::new(),
            Some(entry @ Entry { value: DeValue::String(text), .. }) => {
                let typed = lines_of_text(text, entry, source);
                typed.into_iter().flat_map(|line| read(self, Written::Line(line, source))).collect()
            }
            Some(Entry { value: DeValue::Array(items), .. }) => {
                let mut all = Vec::new();
                for item in items.iter() {
                    all.extend(self.item(Entry::of(item), table, heading).map(|written| read(self, written)).into_iter().flatten());
                }
                all
            }
            Some(entry) => {
                let cause = format!("{key}: expected lines, found {}", shapes::kind_of(entry.value));
                table.mistake(key, cause, "Write one line an ingredient between \"\"\" and \"\"\", or a list of texts.");
                Vec::new()
            }
        }
    }

    /// The lines of a text, or the texts of a list, that are not blank, each with its place.
    pub fn paragraphs(&self, table: &Table<'_>, key: &str) -> Vec<Paragraph> {
        let source = table.file.source;
        let paragraph = |typed: &str, byte: usize| Paragraph { text: typed.trim().to_owned(), at: source.spot(byte) };
        match table.entry(key) {
            Some(entry @ Entry { value: DeValue::String(text), .. }) => {
                lines_of_text(text, entry, source).iter().map(|line| paragraph(&line.text, line.byte)).collect()
            }
            Some(Entry { value: DeValue::Array(items), .. }) => {
                let texts = items.iter().filter_map(|item| Some((item.get_ref().as_str()?, item.span().start)));
                texts
                    .flat_map(|(text, byte)| text.lines().map(move |line| (line, byte)))
                    .filter(|(line, _)| !line.trim().is_empty())
                    .map(|(line, byte)| paragraph(line, byte))
                    .collect()
            }
            _ => Vec::new(),
        }
    }

    fn item<'t>(&self, entry: Entry<'t>, table: &Table<'t>, heading: &'static str) -> Option<Written<'t, 't>> {
        match entry.value {
            DeValue::String(text) => {
                let typed = Typed { text: text.to_string(), byte: entry.start, exact: false };
                let raw = table.file.source.text.get(entry.start + 1..entry.end).unwrap_or("");
                let exact = raw.starts_with(typed.text.as_str());
                let typed = if exact { Typed { byte: entry.start + 1, exact, ..typed } } else { typed };
                if typed.text.trim().is_empty() {
                    let at = table.file.source.spot(entry.start);
                    self.found.mistake(at, "this line is empty", "Write an amount and a food, or take the line out.");
                    return None;
                }
                Some(Written::Line(typed, table.file.source))
            }
            _ => Table::open(entry, heading, table.file).map(Written::Table),
        }
    }

    /// The one ingredient of a line that nobody typed, of what is known already; nothing is said of it.
    pub fn quietly(&self, text: &str, at: &Spot) -> Option<Ingredient> {
        let Ok(LineRead::Ingredients(mut lines)) = read_ingredients(text, &self.foods, self.spoons) else { return None };
        let line = lines.pop().filter(|_| lines.is_empty())?;
        let wanted = match line.of {
            LineOf::Food { food, item } => Wanted::Food { food: self.foods.find(&food)?, item },
            LineOf::Recipe { id, amount } => {
                let end = |number: &Number| plain(number, amount.unit, self.spoons);
                let (low, high) = (end(&amount.low)?, end(&amount.high)?);
                Wanted::Recipe { recipe: RecipeId(self.recipes.get(&id)?), amount: low, most: high }
            }
        };
        let Line { prep, remark, instead, optional, .. } = line;
        Some(Ingredient { text: text.to_owned(), wanted, prep, remark, instead, optional, at: at.clone() })
    }

    pub fn line(&mut self, typed: Typed, source: &Source) -> Vec<Ingredient> {
        let lead = typed.text.len() - typed.text.trim_start().len();
        let text = typed.text.trim();
        if let Some((offset, letter)) = text.char_indices().find(|(_, letter)| is_unseen(*letter) && *letter != '\t') {
            let at = source.spot(if typed.exact { typed.byte + lead + offset } else { typed.byte });
            self.found.mistake(at, format!("this line holds {}", unseen_letter(letter)), "Take it out.");
            return Vec::new();
        }
        let byte = if typed.exact { typed.byte + lead } else { typed.byte };
        let place = |error: &LineError| source.spot(byte + if typed.exact { error.offset.min(text.len()) } else { 0 });
        self.read(text, &source.spot(byte), place)
    }

    /// The ingredients of one line; none for a heading.
    fn read(&mut self, text: &str, at: &Spot, place: impl Fn(&LineError) -> Spot) -> Vec<Ingredient> {
        match read_ingredients(text, &self.foods, self.spoons) {
            Ok(LineRead::Heading(heading)) => {
                self.headings.push((at.clone(), heading));
                Vec::new()
            }
            Ok(LineRead::Ingredients(lines)) => {
                self.tell_sizes(&lines, text, at);
                lines.into_iter().filter_map(|line| self.ingredient(line, text, at)).collect()
            }
            Err(error) => {
                let meant = self.recipes.in_a_line(text).filter(|_| !text.contains("recipe:"));
                let remedy = meant.map_or(error.remedy.clone(), |meant| format!("write recipe: before the id of a recipe: \"{meant}\""));
                self.found.mistake(place(&error), error.cause, remedy);
                Vec::new()
            }
        }
    }

    fn ingredient(&mut self, line: Line, text: &str, at: &Spot) -> Option<Ingredient> {
        let line = self.for_all(line, text, at);
        for doubt in line.doubts {
            self.found.note(at.clone(), format!("{doubt}."));
        }
        self.tell_pints(&line.of, text, at);
        let wanted = match line.of {
            LineOf::Food { food, item } => self.wanted_food(&food, item, text, at)?,
            LineOf::Recipe { id, amount } => self.wanted_recipe(&id, &amount, text, at)?,
        };
        let Line { prep, remark, instead, optional, .. } = line;
        Some(Ingredient { text: text.to_owned(), wanted, prep, remark, instead, optional, at: at.clone() })
    }

    /// "150 g pasta per person" of a recipe for four is 600 g, which is told.
    fn for_all(&self, mut line: Line, text: &str, at: &Spot) -> Line {
        let (Some(one), LineOf::Food { item: Some(item), .. }) = (line.for_one.take(), &mut line.of) else { return line };
        let Some(portions) = &self.portions else {
            let text = format!("\"{one}\" says how much one gets, and so much is bought in all; write the amount for all.");
            self.found.note(at.clone(), text);
            return line;
        };
        std::iter::once(&mut item.amount).chain(&mut item.plus).for_each(|amount| *amount = amount.scaled(portions));
        let text = format!("\"{text}\" is what one gets: {} in all, for {portions} portions.", item.amount);
        self.found.note(at.clone(), text);
        let without = |words: Option<String>| {
            let kept: Vec<String> = words?.split(", ").filter(|words| *words != one).map(str::to_owned).collect();
            (!kept.is_empty()).then(|| kept.join(", "))
        };
        Line { prep: without(line.prep), remark: without(line.remark), ..line }
    }

    /// Where the household does not say which pints are its own: what was meant, and how much the other would be.
    fn tell_pints(&self, of: &LineOf, text: &str, at: &Spot) {
        let amounts: Vec<&Amount> = match of {
            _ if self.pints_written => return,
            LineOf::Food { item: Some(item), .. } => std::iter::once(&item.amount).chain(&item.plus).collect(),
            LineOf::Food { item: None, .. } => return,
            LineOf::Recipe { amount, .. } => vec![amount],
        };
        for amount in amounts.into_iter().filter(|amount| amount.unit.depends_on_pints()) {
            let much = |pints: Pints| amount.most(self.spoons.with(pints));
            self.tell_both(text, &much(Pints::Us), &much(Pints::Imperial), at);
        }
    }

    /// As [`Self::tell_pints`], of the size of one container: "1 tub (1 pint)".
    fn tell_sizes(&self, lines: &[Line], text: &str, at: &Spot) {
        let size = |line: &Line| if let LineOf::Food { item: Some(item), .. } = &line.of { item.size.clone() } else { None };
        let in_pints = |size: Quantity| matches!(size, Quantity::Volume(_));
        if self.pints_written || !lines.iter().filter_map(size).any(in_pints) {
            return;
        }
        let imperial = read_ingredients(text, &self.foods, self.spoons.with(Pints::Imperial));
        let Ok(LineRead::Ingredients(imperial)) = imperial else { return };
        let sizes = lines.iter().filter_map(size).zip(imperial.iter().filter_map(size));
        sizes.filter(|(us, imperial)| us != imperial).for_each(|(us, imperial)| self.tell_both(text, &us, &imperial, at));
    }

    fn tell_both(&self, text: &str, us: &Quantity, imperial: &Quantity, at: &Spot) {
        let (us, imperial) = (us.base(), imperial.base());
        let remark = format!(
            "\"{text}\" is taken in US measure, {us:.0} ml; in imperial it would be {imperial:.0} ml. Write pints = \"us\" or \"imperial\" under [rules]."
        );
        self.found.note(at.clone(), remark);
    }

    fn wanted_food(&mut self, name: &str, item: Option<Item>, text: &str, at: &Spot) -> Option<Wanted> {
        if let Some(item) = &item {
            let amounts = std::iter::once(&item.amount).chain(&item.plus);
            if !amounts.into_iter().all(|amount| self.is_some(amount, text, at)) {
                return None;
            }
        }
        let letters = name.chars().count();
        if letters > LETTERS {
            self.found.mistake(at.clone(), format!("a food's name of {letters} letters"), format!("Write at most {LETTERS}."));
            return None;
        }
        let food = self.food(name, at);
        Some(Wanted::Food { food, item })
    }

    fn wanted_recipe(&mut self, id: &str, amount: &Amount, text: &str, at: &Spot) -> Option<Wanted> {
        let recipe = self.recipes.find(id, at, self.found);
        let amount = self.recipe_amount(amount, text, at);
        let ((low, high), recipe) = (amount?, RecipeId(recipe?));
        Some(Wanted::Recipe { recipe, amount: low, most: high })
    }

    /// Lower and upper end of an amount of a recipe.
    fn recipe_amount(&self, amount: &Amount, text: &str, at: &Spot) -> Option<(Quantity, Quantity)> {
        if !self.is_some(amount, text, at) {
            return None;
        }
        let ends = (plain(&amount.low, amount.unit, self.spoons), plain(&amount.high, amount.unit, self.spoons));
        if let (Some(low), Some(high)) = ends {
            return Some((low, high));
        }
        let cause = format!("\"{text}\" asks for a recipe in a kitchen word");
        self.found.mistake(at.clone(), cause, "Ask for portions, a weight, a volume or pieces of a recipe.");
        None
    }

    fn is_some(&self, amount: &Amount, text: &str, at: &Spot) -> bool {
        let sound = amount.low > 0 && amount.high >= amount.low && amount.high < 1_000_000_000;
        if !sound {
            self.found.mistake(
                at.clone(),
                format!("\"{text}\" has no amount above zero"),
                "Write an amount above 0, or \"to taste\" after a comma.",
            );
        }
        sound
    }

    /// `{ food = "white beans", amount = "400 g", prep = "drained" }` or `{ recipe = "herb-yoghurt", amount = "200 g" }`.
    pub fn table_line(&mut self, table: Table<'_>) -> Vec<Ingredient> {
        let at = table.spot();
        let food = table.optional("food", shapes::text);
        let recipe = table.optional("recipe", shapes::text);
        let amount = table.optional("amount", shapes::text_or_digits);
        let prep = table.optional("prep", shapes::text);
        match (table.has("food"), table.has("recipe")) {
            (true, false) => food.map_or_else(Vec::new, |food| {
                self.food_table(&food, amount, prep, table.has("amount").then(|| table.spot_of("amount")), at)
            }),
            (false, true) => {
                if !table.has("amount") {
                    table.missing("amount", "\"1 portion\"");
                }
                let (Some(recipe), Some(amount)) = (recipe, amount) else { return Vec::new() };
                let recipe = recipe.strip_prefix("recipe:").unwrap_or(&recipe).trim();
                let text = format!("{amount} recipe:{recipe}");
                let amount = match read_amount(&amount) {
                    Ok(amount) => amount,
                    Err(error) => {
                        self.found.wrong(table.spot_of("amount"), error);
                        return Vec::new();
                    }
                };
                let wanted = self.wanted_recipe(recipe, &amount, &text, &at);
                wanted.map(|wanted| Ingredient { prep, ..Ingredient::of(text, wanted, at) }).into_iter().collect()
            }
            _ => {
                self.found.mistake(
                    at,
                    "a line is of either a food or a recipe",
                    "Write food = \"...\" or recipe = \"...\", one of the two.",
                );
                Vec::new()
            }
        }
    }

    fn same_food(&self, one: &str, other: &str) -> bool {
        let (one, other) = (one.trim(), other.trim());
        one.eq_ignore_ascii_case(other) || self.foods.find(one).is_some_and(|food| self.foods.find(other) == Some(food))
    }

    /// `stated` is where the amount stands, if it is written.
    fn food_table(&mut self, food: &str, amount: Option<String>, prep: Option<String>, stated: Option<Spot>, at: Spot) -> Vec<Ingredient> {
        let Some(amount) = amount else {
            if stated.is_some() {
                return Vec::new();
            }
            let wanted = Wanted::Food { food: self.food(food, &at), item: None };
            return vec![Ingredient { prep, ..Ingredient::of(food.to_owned(), wanted, at) }];
        };
        let amount_at = stated.unwrap_or_else(|| at.clone());
        let comma = prep.map(|prep| format!(", {prep}")).unwrap_or_default();
        let text = format!("{amount} {food}{comma}");
        // What has no number is to taste ("a few sprigs"); a number that is no amount is a slip.
        let slip = |read: &str| amount.contains(|letter: char| letter.is_numeric()) || !self.same_food(read, food);
        if let Ok(LineRead::Ingredients(lines)) = read_ingredients(&text, &self.foods, self.spoons)
            && lines.iter().any(|line| matches!(&line.of, LineOf::Food { food: read, item: None } if slip(read)))
        {
            let cause = format!("amount: \"{amount}\" is not an amount");
            self.found.mistake(amount_at, cause, "Write an amount like \"350 g\", or leave it out: to taste.");
            return Vec::new();
        }
        self.read(&text, &at, |_| at.clone())
    }
}

/// A number of a unit that needs no fact about any food; `None` for a kitchen word.
pub(super) fn plain(number: &Number, unit: Unit, spoons: Spoons) -> Option<Quantity> {
    match unit {
        Unit::Piece => Some(Quantity::pieces(number)),
        Unit::Portion => Some(Quantity::portions(number)),
        Unit::Word(_) => None,
        _ => {
            let amount = Amount::new(number, unit);
            let item = Item { amount, size: None, grade: None, state: State::AsPurchased, plus: Vec::new(), boned: false };
            own_dimension(&Food::default(), &item, spoons)
        }
    }
}

/// The lines of one text, each with the byte of the file at which it begins.
fn lines_of_text(text: &str, entry: Entry<'_>, source: &Source) -> Vec<Typed> {
    let raw = source.text.get(entry.start..entry.end).unwrap_or("");
    let quotes = if raw.starts_with("\"\"\"") || raw.starts_with("'''") { 3 } else { 1 };
    let mut byte = entry.start + quotes;
    let mut inner = raw.get(quotes..raw.len().saturating_sub(quotes)).unwrap_or("");
    if quotes == 3 {
        // TOML drops a line break right after the opening quotes.
        let after = inner.strip_prefix("\r\n").or_else(|| inner.strip_prefix('\n')).unwrap_or(inner);
        byte += inner.len() - after.len();
        inner = after;
    }
    let raw_lines: Vec<&str> = inner.split('\n').collect();
    let lines: Vec<&str> = text.split('\n').collect();
    // A line joined with a backslash, or written with \n, no longer stands on a line of its own.
    let paired = raw_lines.len() == lines.len();
    let mut typed = Vec::new();
    for (index, line) in lines.iter().enumerate() {
        let exact = paired && raw_lines[index].trim_end() == line.trim_end();
        if !line.trim().is_empty() {
            let byte = if paired { byte } else { entry.start };
            typed.push(Typed { text: (*line).to_owned(), byte, exact });
        }
        byte += raw_lines.get(index).map_or(0, |raw| raw.len() + 1);
    }
    typed
}
