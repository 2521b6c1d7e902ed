//! The method of a recipe, as a book prints it, read to steps.
//!
//! ```text
//! method    = {paragraph}                                       one a line; a step never goes beyond its paragraph
//! paragraph = [number "." | "Step" number ":"] {sentence}
//! sentence  = clause {(";" | "then" | ("and" | ",") before a verb) clause}
//! clause    = {adverb} [front ","] verb {word | food | place | time | degrees | share}
//! front     = ("in" | "on" | "when" | "while" | …) {word}       "In a large pan, heat the oil"
//! food      = any name of an ingredient | the noun that only one has | what only one is ("the meat") | group
//! group     = "everything" | "all ingredients" | "the vegetables" | "the dressing ingredients"
//! share     = ("half" | "most of" | "the rest of" | amount "of") before a food
//! ```
//!
//! Notes are parted from the rest first ([`notes`]), and of several ways to make the dish the first is taken ([`ways`]); headings are words ([`headings`]). Clauses gather into one step until one of them waits, another appliance is needed, or the paragraph ends ([`gather`]). The verb at the
//! head of a clause says whether it is hands-on or unattended, where, and what it takes when nothing is said ([`verbs`]); times
//! ([`clock`]), degrees ([`degrees`]) and appliances ([`places`]) are read from its words. A place that is not named is where the food
//! was last put ([`whereabouts`]); which foods are together by then ([`dish`]) says where raw meat reaches its temperature. Hands that
//! nobody wrote come from a table of rates ([`rates`]) and are marked as estimated; so do those for what only the ingredient lines say
//! is cut ([`beforehand`]).
//!
//! Where two readings are possible the longer time is planned, the words of the text stay in the step, and the reading is marked. What is
//! not understood stays as text in its step. Nothing here knows files, weeks or plans; places in files come and go as they are.
//!
//! A method is read when its recipe is loaded, into the same steps that a household writes; nothing after the reader
//! knows the difference, but for `estimated`. "Bring to the boil" without a time is a step of its own, so that the
//! times of the text stay as they are. Hands add up to whole minutes a step: what is written is rounded up, what is
//! estimated to the nearest, at least one.

mod act;
mod beforehand;
mod clauses;
mod clock;
mod degrees;
mod dish;
mod fellows;
mod gather;
mod headings;
mod heat_words;
mod larder;
mod notes;
mod places;
mod rates;
mod text;
mod verbs;
mod ways;
mod whereabouts;
mod whole;

use crate::foods::Foods;
use crate::kitchen::words::Words;
use crate::kitchen::{Appliance, ApplianceKind, Ingredient, Spot, Step};
use crate::measure::Spoons;

pub use fellows::name_fellows;
pub use heat_words::heats_in_words;

/// One paragraph of a method, and where it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Paragraph {
    pub text: String,
    pub at: Spot,
}

/// What a method can speak of.
pub struct Setting<'k> {
    pub ingredients: &'k [Ingredient],
    /// The headings of the list, each with the index of the ingredient after it.
    pub headings: &'k [(usize, String)],
    pub foods: &'k Foods,
    pub spoons: Spoons,
    pub appliances: &'k [Appliance],
    /// The names of recipes by index.
    pub recipe_name: &'k dyn Fn(usize) -> String,
    /// The name of the dish, where its recipe says in `keeps` how long it keeps: a sentence that says so is then a note.
    pub kept: Option<&'k str>,
    /// Trays that one batch takes in the oven, where the recipe says so.
    pub trays: Option<f64>,
}

/// How a method was read.
#[derive(Debug, Clone, PartialEq)]
pub struct MethodRead {
    pub steps: Vec<Step>,
    /// What is done at the table: printed with the dish, and no part of the session.
    pub serve: Vec<String>,
    /// Tips, what keeps how long, other ways: printed with the dish, and nothing that is done.
    pub notes: Vec<String>,
    /// What was taken although it could mean something else, or could not be placed; without the full stop.
    pub doubts: Vec<(Spot, String)>,
}

/// Reads a method. It never fails: words that are not understood stay words.
pub fn read_method(paragraphs: &[Paragraph], setting: &Setting<'_>) -> MethodRead {
    let notes::Parted { method, notes, doubts } = notes::parted(paragraphs, setting.foods, setting.kept);
    let (method, others, untold) = ways::first_way(method);
    let (notes, doubts) = ([notes, others].concat(), [doubts, untold].concat());
    // Notes alone are read as they stand: a recipe has at least one step.
    if method.is_empty() && !notes.is_empty() {
        return gather::Gather::new(setting, false).words_only(paragraphs);
    }
    let mut read = read_for_the_ovens(&method, setting);
    read.doubts.extend(doubts);
    MethodRead { notes, ..read }
}

/// Each step is as hot as its own oven asks: where some have a fan and some have none, the method is read for both.
fn read_for_the_ovens(method: &[Paragraph], setting: &Setting<'_>) -> MethodRead {
    let is_oven = |fan: bool| move |one: &Appliance| one.kind == Some(ApplianceKind::Oven) && one.fan == fan;
    let with_a_fan = setting.appliances.iter().any(is_oven(true));
    if !with_a_fan || !setting.appliances.iter().any(is_oven(false)) {
        return gather::Gather::new(setting, with_a_fan).read(method);
    }
    let mut read = gather::Gather::new(setting, false).read(method);
    let of_a_fan = gather::Gather::new(setting, true).read(method);
    for (step, fanned) in read.steps.iter_mut().zip(of_a_fan.steps) {
        if step.on.iter().any(|id| is_oven(true)(&setting.appliances[id.0])) {
            (step.temperature, step.estimated.temperature) = (fanned.temperature, fanned.estimated.temperature);
        }
    }
    read
}

/// Does a line open with a verb of the table, as the lines of a method do and those of a list do not?
///
/// ```
/// use spence::kitchen::method::opens_with_work;
/// assert!(opens_with_work("1. Heat half of the oil") && opens_with_work("Butter the tin"));
/// assert!(!opens_with_work("butter, for the tin") && !opens_with_work("2 onions"));
/// ```
pub fn opens_with_work(line: &str) -> bool {
    /// Verbs that are foods, too.
    #[rustfmt::skip]
    const FOODS: [&str; 16] = [
        "salt", "oil", "butter", "flour", "ice", "mince", "cream", "juice", "zest", "toast", "stew", "roast", "roll", "crisp", "brown", "seed",
    ];
    const OBJECTS: [&str; 9] = ["the", "a", "an", "it", "them", "your", "all", "everything", "both"];
    let w = Words::of(line);
    let first = clauses::sentences(&w).first().map_or(0, |(start, _)| *start);
    clauses::verb_at(&w, first).is_some_and(|(verb, after)| !FOODS.contains(&verb.word) || OBJECTS.iter().any(|word| w.is(after, word)))
}

/// The ingredients that texts name, by their index, each once; of several lines of one food those that are not `taken` come first.
pub fn named_in(
    texts: &[String],
    taken: &[usize],
    ingredients: &[Ingredient],
    headings: &[(usize, String)],
    (foods, spoons): (&Foods, Spoons),
    recipe_name: &dyn Fn(usize) -> String,
) -> Vec<usize> {
    let mut larder = larder::Larder::new(ingredients, headings, foods, spoons, recipe_name);
    taken.iter().for_each(|food| drop(larder.take(*food, None)));
    let mut named: Vec<usize> = Vec::new();
    for text in texts {
        let w = Words::of(text);
        named.extend(larder.mentions(&w, 0, w.len()).into_iter().flat_map(|mention| mention.foods));
    }
    named.sort();
    named.dedup();
    named
}

#[cfg(test)]
mod tests;
