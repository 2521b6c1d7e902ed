//! The ingredients of one recipe as its method speaks of them: by any name, by the noun that only one has, by what they are; and how much
//! of each is still to be used.

use crate::foods::{FoodId, Foods, Item, Kind, key_of};
use crate::kitchen::words::Words;
use crate::kitchen::{Ingredient, Wanted};
use crate::measure::{Amount, Kind as Sign, Number, Spoons, Unit};

mod amounts;
mod except;
mod group;
mod rest;
mod vocabulary;

pub(super) use self::vocabulary::part_of_a_fruit;
use self::vocabulary::{ADJECTIVES, MADE_OF, MEANS, PARTS, SAUCES, SKIPPED, SOLD_AS, is_state};

/// A mention of ingredients in a text, by tokens; `start` takes in "the" and the words of a share.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Mention {
    pub start: usize,
    pub end: usize,
    pub foods: Vec<usize>,
    /// What of it: `None` is all that is left.
    pub part: Option<Part>,
    /// "The vegetables": the words stay, with the list after them.
    pub group: bool,
}

#[derive(Debug, Clone, PartialEq)]
pub(super) enum Part {
    Share(Number),
    Amount(Number, Unit),
    /// "All but 2 tbsp of the oil".
    AllBut(Number, Unit),
    Rest,
}

/// Why a part cannot be taken as it is said.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Short {
    /// So much is left.
    Left(Amount),
    /// A step before has taken all of it.
    Nothing,
    /// The unit does not go with the line's.
    Unknown,
}

struct Named {
    food: Option<FoodId>,
    /// The food's own key.
    key: String,
    names: Vec<String>,
    words: Vec<String>,
    head: String,
    kind: Option<Kind>,
    item: Option<Item>,
    heading: Option<String>,
    /// The line as it was typed, in lower case.
    typed: String,
    /// How many whole ones, where the line gives a weight too.
    count: Option<f64>,
}

pub(super) struct Larder<'k> {
    foods: &'k Foods,
    spoons: Spoons,
    named: Vec<Named>,
    /// The share of each that no step has taken yet.
    left: Vec<Number>,
    /// What a clause names by its own name, and not as one of several.
    by_name: Vec<bool>,
    /// What was divided, in the order in which a part of it was last taken.
    divided: Vec<usize>,
    /// Of a line of two amounts, the one that no step has taken, where one has taken the other.
    other: Vec<Option<Amount>>,
}

/// Things of a kitchen that are called after a food. Singular.
const THINGS: [&str; 8] = ["pot", "cooker", "pan", "kettle", "brush", "knife", "steamer", "grater"];

impl<'k> Larder<'k> {
    /// `headings`: the heading that an ingredient stands under, by its index.
    pub fn new(
        ingredients: &[Ingredient],
        headings: &[(usize, String)],
        foods: &'k Foods,
        spoons: Spoons,
        recipe_name: &dyn Fn(usize) -> String,
    ) -> Self {
        let named = ingredients.iter().enumerate().map(|(index, one)| {
            let heading = headings.iter().rev().find(|(from, _)| *from <= index).map(|(_, heading)| key_of(heading));
            named(one, heading, foods, recipe_name)
        });
        let named: Vec<Named> = named.collect();
        let left = vec![Number::ONE; named.len()];
        let (by_name, other) = (vec![false; named.len()], vec![None; named.len()]);
        Larder { foods, spoons, named, left, by_name, divided: Vec::new(), other }
    }

    /// Notes what the method names by its own name, so that "the spices" leave it for then.
    pub fn note_names(&mut self, named: &[usize]) {
        named.iter().for_each(|food| self.by_name[*food] = true);
    }

    pub fn name(&self, index: usize) -> &str {
        &self.named[index].key
    }

    /// Is the food's own name that part: lemon juice, egg yolk?
    pub fn is_itself(&self, index: usize, part: &str) -> bool {
        self.named[index].item.as_ref().is_none_or(|item| item.amount.unit != Unit::Piece)
            || self.name(index).split(' ').any(|word| part.trim_end_matches('s') == word)
    }

    pub fn kind(&self, index: usize) -> Option<Kind> {
        self.named[index].kind
    }

    /// Does the name of an ingredient, or of a known food of several words, begin here?
    pub fn begins(&self, w: &Words, at: usize) -> bool {
        let known = w.food(at, self.foods).is_some_and(|(_, end)| end > at + 1 || self.is_word(w.key_at(at)));
        known || self.is_word(w.key_at(at)) || w.food(at, self.foods).is_some()
    }

    fn is_word(&self, key: &str) -> bool {
        !key.is_empty() && !ADJECTIVES.contains(&key) && self.named.iter().any(|named| named.words.iter().any(|word| word == key))
    }

    /// Every mention between two places. `from` is after the verb.
    pub fn mentions(&self, w: &Words, from: usize, to: usize) -> Vec<Mention> {
        let mut found: Vec<Mention> = Vec::new();
        let mut at = from;
        let mut until = false;
        while at < to {
            if ["until", "till"].iter().any(|word| w.is(at, word)) {
                until = true;
            }
            // "Until soft, adding the salt halfway" goes on with what is done.
            if w.kind(at) == Some(Sign::Comma) && w.at(at + 1).is_some_and(|next| next.text.ends_with("ing")) {
                until = false;
            }
            if let Some(excepted) = self.excepted(w, at, to, false) {
                at = excepted.end;
                continue;
            }
            let group = if until { None } else { self.all_but(w, at, to).or_else(|| self.group(w, from, at, to)) };
            let one = group.or_else(|| self.one(w, from, at, to));
            // "A bean pot", "the rice cooker": a thing that is called after it.
            let is_thing = one.as_ref().is_some_and(|one| THINGS.contains(&w.key_at(one.end)) && one.end < to && !one.group);
            if let (true, Some(one)) = (is_thing, &one) {
                at = one.end + 1;
                continue;
            }
            match one {
                Some(mention) => {
                    at = mention.end.max(at + 1);
                    // A state that is waited for names its food again and takes nothing.
                    if !until {
                        found.push(mention);
                    }
                }
                None => at += self.other_food(w, at, to),
            }
        }
        found
    }

    /// How many words to pass over: the name of another food hides the words in it.
    fn other_food(&self, w: &Words, at: usize, to: usize) -> usize {
        match w.food(at, self.foods) {
            Some((_, end)) if end <= to && end > at + 1 && !self.is_word(w.key_at(end - 1)) => end - at,
            _ => 1,
        }
    }

    fn one(&self, w: &Words, from: usize, at: usize, to: usize) -> Option<Mention> {
        if let Some(rest) = self.rest_of_the_divided(w, from, at, to) {
            return Some(rest);
        }
        let (index, end) = self.named_at(w, at, to)?;
        if self.named[index].head == "water" && (self.is_other_water(w, at) || self.says_other_water(w, at, end)) {
            return None;
        }
        // "Lemon juice" of a lemon, "garlic cloves": the word belongs to the name.
        let belongs = |word: &str| self.named[index].words.iter().any(|own| own == word) || part_of_a_fruit(word).is_some();
        let end = if end < to && belongs(w.key_at(end)) { end + 1 } else { end };
        // "The soaked beans", "half the chopped onion": how it is stands between the share and the name.
        let described = (0..=2).take_while(|back| *back == 0 || at >= from + back && is_state(w, at - back)).last().unwrap_or(0);
        let (start, part) = share_before(w, from, at - described);
        let is_said = |place: usize| self.named[index].typed.split(|c: char| !c.is_alphanumeric()).any(|word| w.is(place, word));
        let group = described > 0 && !(at - described..at).all(is_said);
        Some(Mention { start, end, foods: vec![index], part, group })
    }

    /// "Cold water", "2 changes of water": not the water of the list.
    fn is_other_water(&self, w: &Words, at: usize) -> bool {
        let Some(before) = at.checked_sub(1) else { return false };
        w.is(before, "of")
            || ["cold", "boiling", "hot", "salted", "warm", "fresh", "running", "iced", "ice", "simmering"]
                .iter()
                .any(|word| w.is(before, word) && !self.is_word_of_water(word))
    }

    /// "Under cold water", where that is a name of water, too.
    fn says_other_water(&self, w: &Words, at: usize, end: usize) -> bool {
        (at..end).any(|place| ["cold", "boiling", "hot", "running"].iter().any(|word| w.is(place, word) && !self.is_word_of_water(word)))
    }

    fn is_word_of_water(&self, word: &str) -> bool {
        self.named.iter().any(|named| named.head == "water" && named.words.iter().any(|known| known == word))
    }

    /// The ingredient that is named here, and the place after its name.
    fn named_at(&self, w: &Words, at: usize, to: usize) -> Option<(usize, usize)> {
        if w.key_at(at).is_empty() || w.at(at).is_some_and(|token| token.is_number()) {
            return None;
        }
        let longest = to.min(at + 7);
        let full = (at + 1..=longest).rev().filter(|end| !w.key_at(end - 1).is_empty());
        for end in full {
            let key = w.key(at..end);
            let fits = (0..self.named.len()).filter(|index| self.named[*index].names.iter().any(|name| name == key));
            let fits: Vec<usize> = fits.filter(|index| !self.is_other_plural(*index, w, end - 1)).collect();
            // "Butter beans", where the list has butter, too.
            if let Some(index) = self.pick(&fits) {
                return Some(self.longer(w, at, end, to).unwrap_or((index, end)));
            }
        }
        let run = |index: usize| {
            let mut end = at;
            // "The base of a tin" names no shoulder of lamb.
            if SKIPPED.contains(&w.key_at(at)) {
                return at;
            }
            while end < to && (self.named[index].words.iter().any(|word| word == w.key_at(end)) || end > at && w.is_hyphen(end)) {
                end += 1;
            }
            end
        };
        // Another food of several words is meant: "spring onion" where the list has onions.
        let other = w.food(at, self.foods).map_or(at, |(_, end)| end);
        let fits = |by_head: bool| {
            let mut best: Vec<(usize, usize)> = Vec::new();
            for (index, named) in self.named.iter().enumerate() {
                let end = run(index);
                if end == at || end < other.min(to) {
                    continue;
                }
                let says = |word: &str| if by_head { word == named.head } else { !ADJECTIVES.contains(&word) };
                let only_one = || {
                    (at..end).all(|place| self.named.iter().filter(|one| one.words.iter().any(|word| word == w.key_at(place))).count() == 1)
                };
                // "The cumin" is the cumin seeds, where there is no other cumin.
                let sauce = || named.head == "sauce" && (at..end).any(|place| SAUCES.contains(&w.key_at(place)));
                let is_kind_of = (named.kind == Some(Kind::Spice) && SOLD_AS.contains(&named.head.as_str()) || sauce()) && only_one();
                let made_of =
                    MADE_OF.contains(&named.head.as_str()) && !(at..end).any(|place| w.key_at(place) == named.head) && !is_kind_of;
                let other = (at..end).all(|place| self.is_other_plural(index, w, place));
                if (at..end).any(|place| says(w.key_at(place))) && !made_of && !other {
                    best.push((index, end));
                }
            }
            let longest = best.iter().map(|(_, end)| *end).max()?;
            let longest_ones: Vec<usize> = best.iter().filter(|(_, end)| *end == longest).map(|(index, _)| *index).collect();
            self.pick(&longest_ones).map(|index| (index, longest))
        };
        if let Some(found) = fits(true).or_else(|| fits(false)) {
            return Some(found);
        }
        self.meant(w, at)
    }

    /// An ingredient whose name goes on beyond `end`, and the place after it.
    fn longer(&self, w: &Words, at: usize, end: usize, to: usize) -> Option<(usize, usize)> {
        let goes_on = |index: &usize| {
            let named = &self.named[*index];
            let own = |place: usize| named.words.iter().any(|word| word == w.key_at(place));
            let after = (at..to).find(|place| !own(*place)).unwrap_or(to);
            (after > end && w.key_at(after - 1) == named.head).then_some((*index, after))
        };
        let all: Vec<(usize, usize)> = (0..self.named.len()).filter_map(|index| goes_on(&index)).collect();
        let longest = all.iter().map(|(_, after)| *after).max()?;
        let fits: Vec<usize> = all.iter().filter(|(_, after)| *after == longest).map(|(index, _)| *index).collect();
        self.pick(&fits).map(|index| (index, longest))
    }

    /// "The peppers" are never the pepper: a spice is not counted, unless its line counts it, as cloves.
    fn is_other_plural(&self, index: usize, w: &Words, at: usize) -> bool {
        let named = &self.named[index];
        let typed = w.at(at).map(|token| token.text.to_lowercase()).unwrap_or_default();
        let plural = typed.ends_with('s') && typed != w.key_at(at);
        named.kind == Some(Kind::Spice) && plural && !named.typed.split(|c: char| !c.is_alphanumeric()).any(|word| word == typed)
    }

    /// Does the name of an ingredient begin here that is longer than one word, and stand there whole?
    pub fn is_named_whole(&self, w: &Words, at: usize) -> bool {
        let whole = |named: &Named| {
            let own = |place: usize| named.words.iter().any(|word| word == w.key_at(place));
            let end = (at..at + 7).find(|place| !own(*place)).unwrap_or(at);
            end > at + 1 && (at..end).any(|place| w.key_at(place) == named.head) && named.key.contains(w.key_at(at))
        };
        self.named.iter().any(whole)
    }

    /// The only one, or of several lines of one food the first that is left.
    fn pick(&self, fits: &[usize]) -> Option<usize> {
        let first = *fits.first()?;
        let same =
            fits.iter().all(|index| self.named[*index].food == self.named[first].food && self.named[*index].key == self.named[first].key);
        if !same {
            return None;
        }
        Some(fits.iter().copied().find(|index| self.left[*index].is_positive()).unwrap_or(first))
    }

    /// "The meat", "the pasta", "the beef": by what it is, where only one can be meant.
    fn meant(&self, w: &Words, at: usize) -> Option<(usize, usize)> {
        let key = w.key_at(at);
        let only = |fits: &dyn Fn(&Named) -> bool| {
            let fits: Vec<usize> = (0..self.named.len()).filter(|index| fits(&self.named[*index])).collect();
            self.pick(&fits).map(|index| (index, at + 1))
        };
        let flesh = |named: &Named| named.kind.is_some_and(|kind| kind.is_raw_flesh() && !kind.is_raw_fish());
        let red = |named: &Named| matches!(named.kind, Some(Kind::RawMeat | Kind::RawMincedMeat));
        let animals = ["beef", "pork", "lamb", "veal", "venison", "bacon"];
        match key {
            "meat" => only(&flesh),
            "chicken" | "turkey" | "duck" | "bird" => only(&|named| named.kind == Some(Kind::RawPoultry)),
            "fish" => only(&|named| named.kind.is_some_and(Kind::is_raw_fish)),
            "beef" | "pork" | "lamb" | "steak" | "joint" | "mince" => {
                only(&|named| red(named) && !animals.iter().any(|animal| *animal != key && named.words.iter().any(|word| word == animal)))
            }
            _ => {
                let (_, means) = MEANS.iter().find(|(word, _)| *word == key)?;
                only(&|named| means.iter().any(|mean| named.words.iter().any(|word| word == mean)))
            }
        }
    }
}

fn named(one: &Ingredient, heading: Option<String>, foods: &Foods, recipe_name: &dyn Fn(usize) -> String) -> Named {
    let (food, item, name, also, kind) = match &one.wanted {
        Wanted::Food { food, item } => (Some(*food), item.clone(), foods[*food].name.clone(), foods[*food].also.clone(), foods[*food].kind),
        Wanted::Recipe { recipe, .. } => (None, None, recipe_name(recipe.0), Vec::new(), None),
    };
    let key = key_of(&name);
    let mut names = vec![key.clone()];
    names.extend(also.iter().map(|name| key_of(name)));
    let mut words: Vec<String> = key.split(' ').map(str::to_owned).collect();
    let typed = Words::of(&one.text);
    let mut depth = 0usize;
    let mut after_comma = false;
    for at in 0..typed.len() {
        match typed.kind(at) {
            Some(Sign::Open) => depth += 1,
            Some(Sign::Close) => depth = depth.saturating_sub(1),
            Some(Sign::Comma | Sign::Semicolon) => after_comma = true,
            _ => {}
        }
        let word = typed.key_at(at);
        let plain = typed.kind(at) == Some(Sign::Word) && depth == 0 && !word.is_empty() && typed.unit(at).is_none();
        if plain && !SKIPPED.contains(&word) && (!after_comma || PARTS.contains(&word)) {
            words.extend(word.split(' ').map(str::to_owned));
        }
    }
    words.sort();
    words.dedup();
    let head = key.rsplit(' ').next().unwrap_or("").to_owned();
    Named { food, key, names, words, head, kind, item, heading, typed: one.text.to_lowercase(), count: count(&typed) }
}

/// The 20 of "20 small beetroots (1 kg)" and of "1 kg beetroot (about 20 small)".
fn count(w: &Words) -> Option<f64> {
    let whole = |at: usize| {
        let read = w.number(at).ok()??;
        let sized = ["small", "medium", "large", "big", "baby", "tiny"].iter().any(|word| w.is(read.end, word));
        let count = read.number.high.to_f64();
        let counted = at == 0 && w.kind(read.end) == Some(Sign::Word) && w.unit(read.end).is_none();
        ((sized || counted) && count.fract() == 0.0).then_some(count)
    };
    let weighs = (0..w.len()).any(|at| w.amount(at).ok().flatten().is_some_and(|read| read.unit_given));
    let open = (0..w.len()).find(|at| w.kind(*at) == Some(Sign::Open));
    let inside = || (open? + 1..open? + 3).find_map(whole);
    whole(0).or_else(inside).filter(|_| weighs)
}

/// "Half the", "the rest of the", "2 tbsp of the", "most of the" before a name, and where it begins.
fn share_before(w: &Words, from: usize, at: usize) -> (usize, Option<Part>) {
    let is = |place: Option<usize>, word: &str| place.is_some_and(|place| place >= from && w.is(place, word));
    let back = |steps: usize| at.checked_sub(steps);
    let other = is(back(1), "other") && is(back(2), "the");
    if is(back(1), "remaining") || is(back(1), "rest") || other {
        let the = usize::from(is(back(2), "the"));
        return (at - 1 - the, Some(Part::Rest));
    }
    let the = ["the", "your", "this"].iter().any(|word| is(back(1), word));
    let start = at - usize::from(the);
    let before = |steps: usize| start.checked_sub(steps);
    if is(before(1), "half") {
        return (start - 1, Some(Part::Share(Number::HALF)));
    }
    if is(before(1), "of") {
        for (word, part) in [
            ("half", Part::Share(Number::HALF)),
            ("third", Part::Share(Number::over(1, 3))),
            ("quarter", Part::Share(Number::over(1, 4))),
            ("most", Part::Share(Number::over(3, 4))),
            ("some", Part::Share(Number::HALF)),
            ("rest", Part::Rest),
            ("remainder", Part::Rest),
        ] {
            if is(before(2), word) {
                let article = is(before(3), "the") || is(before(3), "a") || is(before(3), "one");
                return (start - 2 - usize::from(article), Some(part));
            }
        }
    }
    // "2 tbsp of the oil", "2 tbsp oil", "2 eggs".
    for first in (from..start).rev().take(5) {
        let Ok(Some(read)) = w.amount(first) else { continue };
        let reaches = read.end == start || read.end + 1 == start && w.is(read.end, "of");
        let number = w.at(first).is_some_and(|token| {
            token.is_number() || ["a", "an", "one", "two", "three", "four", "five", "six"].iter().any(|word| token.is(word))
        });
        let earlier = first > from && w.at(first - 1).is_some_and(|token| token.is_number());
        // "Fry one onion" of two.
        let counted = read.end == start && ["one", "two", "three", "four", "five", "six"].iter().any(|word| w.is(first, word));
        if reaches && number && !earlier && (read.unit_given || counted || w.at(first).is_some_and(|token| token.is_number())) {
            return (first, Some(Part::Amount(read.amount.high, read.amount.unit)));
        }
    }
    (start, None)
}
