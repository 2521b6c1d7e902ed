//! Places in a meal, `1 portion any:grain`, and what can fill them: recipes and foods by their `fits`, each as the line that would be
//! written.

use std::collections::{BTreeMap, BTreeSet};

use super::any;
use super::checks::gives;
use super::hint;
use super::lines::{Speech, Typed, Written};
use super::source::Source;
use super::table::{Table, unseen_letter};
use crate::foods::{FoodId, as_purchased};
use crate::kitchen::{AnyLine, FittingFood, Ingredient, Pack, PackKind, Plate, Recipe, RecipeId, Spot, Wanted, Ware};
use crate::measure::{Amount, Dimension, Unit, read_amount};
use crate::words::marks::is_unseen;

/// Words of the household's own, in lower case: each is one word, because `any:WORD` ends at the first blank.
pub(super) fn words(table: &Table<'_>, key: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for (typed, at) in table.texts(key).unwrap_or_default() {
        let word = typed.to_lowercase();
        if let Some(letter) = word.chars().find(|letter| is_unseen(*letter)) {
            table.file.found.mistake(at, format!("{key}: a word holds {}", unseen_letter(letter)), "Take it out.");
        } else if word.contains(|c: char| c.is_whitespace() || ",;:()".contains(c)) {
            let plain = word.split(|c: char| !c.is_alphanumeric()).filter(|part| !part.is_empty()).collect::<Vec<_>>().join("-");
            let cause = format!("{key}: \"{typed}\" is not one word");
            table.file.found.mistake(at, cause, format!("Write it as one: \"{plain}\"."));
        } else if !words.contains(&word) {
            words.push(word);
        }
    }
    words
}

/// Who can take which place.
pub(super) struct Places<'k> {
    pub recipes: &'k [Recipe],
    /// Which recipes could be read.
    pub sound: &'k [bool],
    pub foods: &'k [FittingFood],
    pub packs: &'k [Pack],
    /// Every file that could say so was read: else nobody's `fits` says nothing.
    pub complete: bool,
}

/// Whose line it is, for messages: `the pattern "Plate"`, "this meal".
pub(super) struct Asking<'t, 'a> {
    pub table: &'t Table<'a>,
    pub whose: String,
}

/// All lines of `key`, with places to be filled among them.
pub(super) fn read_plates(asking: &Asking<'_, '_>, key: &str, places: &Places<'_>, speech: &mut Speech<'_>) -> Vec<Plate> {
    let read = |speech: &mut Speech<'_>, typed: Written<'_, '_>| match typed {
        Written::Line(typed, source) => match any_line(&typed, source, asking, places, speech) {
            Some(plate) => plate.into_iter().collect(),
            None => food_line(typed, source, asking, speech).into_iter().map(Plate::As).collect(),
        },
        Written::Table(table) => speech.table_line(table).into_iter().map(Plate::As).collect(),
    };
    speech.each_line(asking.table, key, "[[meal.each]]", read)
}

/// A line of a food or a recipe. What reads as a heading is one that lacks its amount, unless it says what it is for: "For the table:".
fn food_line(typed: Typed, source: &Source, asking: &Asking<'_, '_>, speech: &mut Speech<'_>) -> Vec<Ingredient> {
    let headings = speech.headings.len();
    let lines = speech.line(typed, source);
    for (at, heading) in speech.headings.drain(headings..).filter(|(_, heading)| !heading.to_lowercase().starts_with("for ")) {
        let cause = format!("\"{heading}:\" names no amount, so {} would be without it", asking.whose);
        asking.table.file.found.mistake(at, cause, format!("Write how much: \"100 g {heading}\"; or take the line out."));
    }
    lines
}

/// Two places of one word are filled by two different things: tells where fewer fit than the word has places.
pub(super) fn enough_fit(asking: &Asking<'_, '_>, plates: &[&[Plate]], places: &Places<'_>, speech: &Speech<'_>) {
    let mut of_word: BTreeMap<&str, Vec<&AnyLine>> = BTreeMap::new();
    for plate in plates.iter().copied().flatten() {
        if let Plate::Any(place) = plate {
            of_word.entry(&place.word).or_default().push(place);
        }
    }
    for (word, asked) in
        of_word.into_iter().filter(|(_, asked)| asked.len() > 1 && places.complete && places.sound.iter().all(|sound| *sound))
    {
        let fit: BTreeSet<Ware> = asked.iter().flat_map(|place| &place.fillings).map(Ingredient::ware).collect();
        // Where nothing fits, that has been told.
        if (1..asked.len()).contains(&fit.len()) {
            let cause = format!(
                "{} has {} places for any:{word}, each for something else, and only {} {}",
                asking.whose,
                asked.len(),
                fit.len(),
                if fit.len() == 1 { "fits" } else { "fit" }
            );
            let remedy = format!("Add fits = [\"{word}\"] to another recipe or food, or take a place out.");
            speech.found.mistake(asked[fit.len()].at.clone(), cause, remedy);
        }
    }
}

/// The line as a place, if it is one; `None` within where it is wrong, which has been said.
fn any_line(
    typed: &Typed,
    source: &Source,
    asking: &Asking<'_, '_>,
    places: &Places<'_>,
    speech: &mut Speech<'_>,
) -> Option<Option<Plate>> {
    let text = typed.text.trim();
    let (before, after) = any::split(text)?;
    let at = source.spot(typed.byte + if typed.exact { typed.text.len() - typed.text.trim_start().len() } else { 0 });
    let end = after.find(|c: char| c.is_whitespace() || ",;".contains(c)).unwrap_or(after.len());
    let (word, tail) = (after[..end].to_lowercase(), &after[end..]);
    let example = "Write an amount, then any: and one word, as in \"1 portion any:grain\".";
    if word.is_empty() || !(tail.is_empty() || tail.trim_start().starts_with([',', ';', '('])) {
        speech.found.mistake(at, format!("\"{text}\" does not name one place"), example);
        return Some(None);
    }
    let amount = match read_amount(before.trim()) {
        Ok(amount) if amount.high.is_positive() => amount,
        Ok(_) => {
            speech.found.mistake(at, format!("\"{text}\" asks for nothing"), example);
            return Some(None);
        }
        Err(error) => {
            speech.found.mistake(at, error.cause, example);
            return Some(None);
        }
    };
    let wanted = Place { before: before.trim(), amount, word: &word, tail, at: &at, whose: &asking.whose };
    Some(Some(Plate::Any(wanted.filled(text, places, speech))))
}

struct Place<'p> {
    before: &'p str,
    amount: Amount,
    word: &'p str,
    tail: &'p str,
    at: &'p Spot,
    whose: &'p str,
}

impl Place<'_> {
    fn filled(&self, text: &str, places: &Places<'_>, speech: &mut Speech<'_>) -> AnyLine {
        let mut line = AnyLine {
            text: text.to_owned(),
            word: self.word.to_owned(),
            fillings: Vec::new(),
            without_portion: Vec::new(),
            in_another_measure: Vec::new(),
            at: self.at.clone(),
        };
        let mut somebody = false;
        let fits = |words: &[String]| words.iter().any(|word| word == self.word);
        for (index, recipe) in places.recipes.iter().enumerate().filter(|(_, recipe)| fits(&recipe.fits)) {
            somebody = true;
            if places.sound.get(index).copied().unwrap_or(false) {
                self.add_recipe(RecipeId(index), recipe, &mut line, speech);
            }
        }
        for food in places.foods.iter().filter(|food| fits(&food.fits)) {
            somebody = true;
            line.fillings.extend(self.of_food(food, places, speech));
        }
        if !somebody && places.complete {
            let known = places.recipes.iter().flat_map(|recipe| &recipe.fits).chain(places.foods.iter().flat_map(|food| &food.fits));
            let known: Vec<&str> = known.map(String::as_str).collect();
            let near = hint::nearest(self.word, known).map(|near| format!("Did you mean \"{near}\"? ")).unwrap_or_default();
            let cause = format!("{} asks for any:{}, which no recipe and no food fits", self.whose, self.word);
            let remedy = format!("{near}Add fits = [\"{}\"] to a recipe, or to a food of foods.toml.", self.word);
            speech.found.mistake(self.at.clone(), cause, remedy);
        }
        line
    }

    fn add_recipe(&self, id: RecipeId, recipe: &Recipe, place: &mut AnyLine, speech: &mut Speech<'_>) {
        let text = format!("{} recipe:{}{}", self.before, recipe.id, self.tail);
        let Some(line) = speech.quietly(&text, self.at) else { return };
        let Wanted::Recipe { recipe: read, amount, .. } = &line.wanted else { return };
        let asked = amount.dimension();
        match () {
            () if *read != id => {}
            () if gives(recipe, &asked) => place.fillings.push(line),
            () if recipe.lacks_portion_for(&asked) => place.without_portion.push(id),
            () => place.in_another_measure.push(id),
        }
    }

    fn of_food(&self, fitting: &FittingFood, places: &Places<'_>, speech: &mut Speech<'_>) -> Option<Ingredient> {
        let name = speech.foods[fitting.food].name.clone();
        let amount = match (self.amount.unit, &fitting.serving) {
            (Unit::Portion, Some(serving)) if self.amount.low == self.amount.high => serving.scaled(&self.amount.high),
            (Unit::Portion, None) => {
                let cause = format!("{name} fits \"{}\", of which {} asks for portions, but has no serving", self.word, self.whose);
                speech.found.mistake(fitting.at.clone(), cause, "Add serving = \"40 g\", what one portion of it is");
                return None;
            }
            _ => self.amount.clone(),
        };
        let amount = if amount.unit == Unit::Piece { amount.to_string().trim_end_matches(" each").to_owned() } else { amount.to_string() };
        let line = speech.quietly(&format!("{amount} {name}{}", self.tail), self.at)?;
        let Wanted::Food { food, item: Some(item) } = &line.wanted else { return None };
        let by_the_piece = |food: FoodId| places.packs.iter().any(|pack| pack.food == food && is_counted(pack));
        let known = as_purchased(&speech.foods[*food], item, &Dimension::Mass, speech.spoons).is_ok()
            || (item.amount.unit == Unit::Piece && by_the_piece(*food));
        (*food == fitting.food && known).then_some(line)
    }
}

fn is_counted(pack: &Pack) -> bool {
    let dimension = match &pack.kind {
        PackKind::Sized { size, .. } => size.dimension(),
        PackKind::Loose { step, .. } => step.dimension(),
    };
    dimension == Dimension::Count
}
