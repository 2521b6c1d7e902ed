//! Which of a line's words are the food's name, and what the others say of it.

use super::food::{Word, class_of, phrase};
use super::measure::join;
use super::words::{Class, opens_preparation, opens_preparation_of_a_known};
use crate::foods::{FoodId, Foods, Grade, State, key_of, push_word};
use crate::measure::{Unit, Word as UnitWord, unit_at};

/// The food of a line, with what the words around its name say.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Found {
    pub food: String,
    pub state: State,
    pub grade: Option<Grade>,
    /// The unit that stands after the food: the "cloves" of "4 garlic cloves".
    pub unit: Option<Unit>,
    pub prep: Option<String>,
    pub remark: Option<String>,
    /// What follows the food without a comma: "for frying", "plus 2 tbsp".
    pub trailing: Option<String>,
}

/// The unit of the line's amount, and whether it was written.
type Stated = Option<(Unit, bool)>;

/// `None` where every word only describes.
pub(super) fn resolve(head: &[Word], stated: Stated, foods: &Foods) -> Option<Found> {
    let Some(or) = head.iter().position(|word| word.text.eq_ignore_ascii_case("or")).filter(|or| *or > 0 && or + 1 < head.len()) else {
        return resolve_one(head, stated, foods);
    };
    let (first, other) = (&head[..or], &head[or + 1..]);
    if let Some(found) = known(head, stated, foods) {
        return Some(found);
    }
    let or_other = Some(format!("or {}", phrase(other)));
    let with_remark = |mut found: Found| {
        join(&mut found.remark, or_other.clone());
        found
    };
    if let Some(found) = known(first, stated, foods) {
        return Some(with_remark(found));
    }
    // "red or white onions" is red onions, "fresh or frozen peas" fresh peas.
    for from in 1..other.len() {
        let joined: Vec<Word> = first.iter().chain(&other[from..]).copied().collect();
        if let Some(found) = known(&joined, stated, foods) {
            return Some(with_remark(found));
        }
    }
    let describes_only = first.iter().all(|word| class_of(word).is_some());
    if describes_only && other.len() > 1 {
        let joined: Vec<Word> = first.iter().chain(&other[1..]).copied().collect();
        return resolve_one(&joined, stated, foods).map(with_remark);
    }
    resolve_one(first, stated, foods).map(with_remark)
}

fn resolve_one(head: &[Word], stated: Stated, foods: &Foods) -> Option<Found> {
    known(head, stated, foods).or_else(|| unknown(head, stated))
}

/// A known food: the longest name that ends where the food's words end, all words before it describing it.
fn known(head: &[Word], stated: Stated, foods: &Foods) -> Option<Found> {
    for end in (1..=head.len()).rev() {
        if end < head.len() && !may_follow(head, end) {
            continue;
        }
        let found = known_until(head, end, None, stated, foods);
        let counted = || {
            let unit = unit_word(&head[end - 1]).filter(|_| end >= 2)?;
            Some((unit, known_until(head, end - 1, Some(unit), stated, foods)?))
        };
        match (found, counted()) {
            // "Celery sticks" may be a second name of celery; where a stick of it has a weight, it is two sticks of celery.
            (Some(found), Some((unit, counted))) => {
                let weighed = counted.food == found.food && counted.unit.is_some() && weighs(&found.food, unit, foods);
                return Some(if weighed { counted } else { found });
            }
            (Some(found), None) => return Some(found),
            (None, Some((_, counted))) => return Some(counted),
            (None, None) => {}
        }
    }
    None
}

fn weighs(food: &str, unit: Unit, foods: &Foods) -> bool {
    foods.find(food).is_some_and(|id| foods[id].weight_of(unit.singular()).is_some())
}

/// May the food's name end before `head[end]`?
fn may_follow(head: &[Word], end: usize) -> bool {
    let word = &head[end];
    opens_preparation_of_a_known(word.text)
        || matches!(class_of(word), Some(Class::Form | Class::Adverb | Class::Cooked | Class::Drained | Class::Way))
}

fn unit_word(word: &Word) -> Option<Unit> {
    match unit_at(word.text, 0) {
        Some((unit @ Unit::Word(_), end)) if end == word.text.len() => Some(unit),
        _ => None,
    }
}

/// The food's name ends at `end`; `after` is the unit that follows it there.
fn known_until(head: &[Word], end: usize, after: Option<Unit>, stated: Stated, foods: &Foods) -> Option<Found> {
    let unit = match (stated, after) {
        (Some((Unit::Piece, false)), Some(after)) => Some(after),
        (stated, _) => stated.map(|(unit, _)| unit),
    };
    let mut key = String::with_capacity(8 + 12 * end);
    let starts: Vec<usize> = head[..end]
        .iter()
        .map(|word| {
            let start = key.len() + usize::from(!key.is_empty());
            push_word(&mut key, word.text);
            start
        })
        .collect();
    let mut before = Before::default();
    for (index, start) in starts.iter().enumerate() {
        if let Some(id) = key.get(*start..).and_then(|name| before.find(name, unit, foods)) {
            let mut found = before.found(foods[id].name.clone(), unit);
            match after {
                Some(after) if stated == Some((Unit::Piece, false)) => found.unit = Some(after),
                // "200 g mint leaves": the amount has its unit already.
                Some(_) => join(&mut found.remark, Some(head[end].text.to_owned())),
                None => {}
            }
            let follows = end + usize::from(after.is_some());
            found.trailing = (follows < head.len()).then(|| phrase(&head[follows..]));
            return Some(found);
        }
        if !before.take(&head[index], true) {
            return None;
        }
    }
    None
}

/// A food that nobody knows keeps its own words, minus trims and sizes.
fn unknown(head: &[Word], stated: Stated) -> Option<Found> {
    let mut before = Before::default();
    let mut start = 0;
    while start < head.len() && before.take(&head[start], false) {
        start += 1;
    }
    let mut end = (start + 1..head.len())
        .filter(|end| class_of(&head[*end - 1]) != Some(Class::And))
        .find(|end| opens_preparation(head[*end].text) || matches!(class_of(&head[*end]), Some(Class::Form | Class::Adverb)))
        .unwrap_or(head.len());
    if head[start..].iter().all(|word| class_of(word).is_some()) {
        return None;
    }
    let trailing = (end < head.len()).then(|| phrase(&head[end..]));
    let mut unit = None;
    if stated == Some((Unit::Piece, false))
        && end > start + 1
        && let Some(word) = unit_word(&head[end - 1]).filter(|unit| counts_an_unknown(*unit))
    {
        unit = Some(word);
        end -= 1;
    }
    let food = phrase(&head[start..end]);
    let found = before.found(food, unit.or(stated.map(|stated| stated.0)));
    Some(Found { unit, trailing, ..found })
}

/// Words that count a food whoever it is; "2 stock cubes" and "2 bay leaves" may be foods of that name.
fn counts_an_unknown(unit: Unit) -> bool {
    use UnitWord::*;
    matches!(unit, Unit::Word(Clove | Slice | Sprig | Bunch | Stalk | Head | Rasher | Fillet | Handful | Tin | Jar | Packet | Bottle))
}

/// The words that were split off before the food's name.
#[derive(Default)]
struct Before<'a> {
    forms: Vec<&'a str>,
    has_form: bool,
    cooked: bool,
    drained: bool,
    ways: Vec<&'a str>,
    grade: Option<Grade>,
}

impl<'a> Before<'a> {
    /// Takes one word that describes; false where it does not.
    fn take(&mut self, word: &Word<'a>, food_is_known: bool) -> bool {
        match class_of(word) {
            Some(Class::Form) => {
                self.has_form = true;
                self.forms.push(word.text);
            }
            Some(Class::Adverb | Class::And) => self.forms.push(word.text),
            Some(Class::Cooked) => self.cooked = true,
            Some(Class::Drained) => self.drained = true,
            Some(Class::Grade(grade)) => self.grade = Some(grade),
            Some(Class::Plain) => {}
            Some(Class::BeforeKnown) if food_is_known => {}
            Some(Class::Way) if food_is_known => self.ways.push(word.text),
            _ => return false,
        }
        true
    }

    /// The food of this key, or its tinned or dried kind where that is what the line means.
    fn find(&self, name: &str, unit: Option<Unit>, foods: &Foods) -> Option<FoodId> {
        let plain = || foods.find_known(name);
        // "Tinned salmon" where the line says "salmon fillets", which is another name of salmon.
        let kind = |prefix: &str| {
            let own = || plain().and_then(|id| foods.find_known(&format!("{prefix} {}", key_of(&foods[id].name))));
            foods.find_known(&format!("{prefix} {name}")).or_else(own)
        };
        if is_tin(unit) || self.drained {
            return kind("tinned").or_else(|| if unit == Some(Unit::Word(UnitWord::Jar)) { kind("jarred") } else { None }).or_else(plain);
        }
        if self.cooked {
            return match plain() {
                Some(id) if foods[id].cooked.is_some() => Some(id),
                // Dried egg is not what is boiled: only what is cooked from dry has a cooked weight.
                found => kind("dried").filter(|id| foods[*id].cooked.is_some()).or(found),
            };
        }
        plain()
    }

    fn found(self, food: String, unit: Option<Unit>) -> Found {
        let forms = self.forms_text();
        let mut found = Found { food, state: State::AsPurchased, grade: self.grade, unit: None, prep: None, remark: None, trailing: None };
        // What is in a tin or packet was worked on before it was bought.
        if matches!(unit, Some(Unit::Word(word)) if word.is_container()) {
            join(&mut found.remark, forms);
            let drained = (self.drained && is_tin(unit)).then(|| "drained".to_owned());
            join(&mut found.prep, drained);
            if self.cooked && !is_tin(unit) {
                found.state = State::Cooked;
            } else if self.drained && !is_tin(unit) {
                found.state = State::Drained;
            }
        } else if self.cooked || self.drained {
            found.state = if self.cooked { State::Cooked } else { State::Drained };
            join(&mut found.prep, forms);
        } else if let Some(forms) = forms {
            found.state = State::Prepared(forms);
        }
        if !self.ways.is_empty() {
            join(&mut found.remark, Some(self.ways.join(", ")));
        }
        found
    }

    /// "finely chopped", "peeled and diced"; nothing where only "finely" or "and" is left.
    fn forms_text(&self) -> Option<String> {
        let is_and = |word: &&&str| word.eq_ignore_ascii_case("and") || **word == "&";
        let first = self.forms.iter().position(|word| !is_and(&word))?;
        let last = self.forms.iter().rposition(|word| !is_and(&word))?;
        self.has_form.then(|| self.forms[first..=last].join(" ").to_lowercase())
    }
}

/// In tins and jars the tinned kind is meant.
fn is_tin(unit: Option<Unit>) -> bool {
    matches!(unit, Some(Unit::Word(UnitWord::Tin | UnitWord::Jar)))
}
