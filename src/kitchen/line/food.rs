//! Which of a line's words are the food's name, and what the others say of it.
//!
//! A capital letter before a plant ("Jap pumpkin") is a variety of it, and a country before any food is left out; both
//! are told. Any other unknown word before a food makes an unknown food.

use std::borrow::Cow;
use std::ops::Range;

use super::Reader;
use super::beside::Share;
use super::vocabulary::{Class, class, opens_preparation, opens_preparation_of_a_known};
use crate::foods::{FoodId, Grade, Kind, State, key_of};
use crate::kitchen::words::Words;
use crate::measure::{Kind as Sign, Unit, Word as UnitWord};

/// The food of a line, with what the words around its name say.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Found {
    pub food: String,
    pub known: Option<FoodId>,
    pub state: Option<State>,
    pub grade: Option<Grade>,
    /// The unit that stands after the food: the "cloves" of "4 garlic cloves".
    pub unit: Option<Unit>,
    pub prep: Vec<String>,
    pub remarks: Vec<String>,
    pub doubts: Vec<String>,
    /// "Canned" stood before it.
    pub tinned: bool,
    /// Only its tinned kind is known, and only words after the comma say that it is meant: "15 oz baby corn, drained".
    pub only_tinned: bool,
    /// "Dried", "raw" or "uncooked" is in the line's own words.
    pub dried: bool,
    /// What follows the food without a comma: "for frying", "plus 2 tbsp".
    pub trailing: Range<usize>,
    /// Words of an unknown name.
    pub unexplained: usize,
    /// Words of a known name.
    pub named: usize,
    /// The known name as it stands in the line.
    pub name: Range<usize>,
}

impl Found {
    /// "300 g peeled weight" is after trimming, as "300 g diced" is; "300 g unpeeled" is as bought, whatever is done to it then.
    pub fn weighed_as(&mut self, of: Option<Share>) {
        let form = match (of, &self.state) {
            (Some(Share::AsBought), Some(State::Prepared(form))) => {
                self.prep.insert(0, form.clone());
                self.state = None;
                return;
            }
            (Some(Share::Peeled), None) => "peeled",
            (Some(Share::Trimmed), None) => "trimmed",
            _ => return,
        };
        self.state = Some(State::Prepared(form.to_owned()));
    }
}

/// The unit of the line's amount, and whether it was written.
pub(super) type Stated = Option<(Unit, bool)>;

/// The words of a line's head, without brackets and commas: places of tokens.
#[derive(Debug, Clone)]
pub(super) struct Head {
    pub places: Vec<usize>,
    pub end: usize,
    /// Words between the places are left out: "almond … milk" of "almond or soy milk".
    pub joined: bool,
}

impl Head {
    pub fn of(w: &Words, range: Range<usize>) -> Head {
        let places = range.clone().filter(|at| !w.key_at(*at).is_empty() || w.kind(*at) == Some(Sign::Percent)).collect();
        Head { places, end: range.end, joined: false }
    }

    fn key<'w>(&self, w: &'w Words, from: usize, to: usize) -> Cow<'w, str> {
        if !self.joined {
            return Cow::Borrowed(w.key(self.places[from]..self.places[to - 1] + 1));
        }
        let keys: Vec<&str> = self.places[from..to].iter().map(|at| w.key_at(*at)).filter(|key| !key.is_empty()).collect();
        Cow::Owned(keys.join(" "))
    }
}

impl Reader<'_> {
    /// A known food with all words of the head explained; `None` where it names none.
    pub(super) fn known(&self, head: &Head, stated: Stated) -> Option<Found> {
        self.known_with(head, stated, false)
    }

    /// "Jap pumpkin", "San Marzano tomatoes": a name with capital letters before a plant is a variety of it, which is told.
    pub(super) fn variety(&self, head: &Head, stated: Stated) -> Option<Found> {
        let found = self.known_with(head, stated, true)?;
        use Kind::*;
        let kind = self.foods[found.known?].kind?;
        let is_plant = matches!(kind, Vegetable | Fruit | Herb | Spice | Grain | Pulse | Nut | Seed);
        let last = self.w.at(found.name.end.checked_sub(1)?)?;
        (is_plant && last.text.starts_with(char::is_lowercase)).then_some(found)
    }

    fn known_with(&self, head: &Head, stated: Stated, variety: bool) -> Option<Found> {
        let w = self.w;
        let count = head.places.len();
        for end in (1..=count).rev() {
            if end < count && !self.may_follow(head, end) {
                continue;
            }
            let found = self.known_until(head, end, None, stated, variety);
            let counted = || {
                let unit = self.unit_word(head.places[end - 1]).filter(|_| end >= 2)?;
                Some((unit, self.known_until(head, end - 1, Some(unit), stated, variety)?))
            };
            match (found, counted()) {
                // "Celery sticks" may be a second name of celery; where a stick of it has a weight, it is two sticks of celery.
                (Some(found), Some((unit, counted))) => {
                    let weighed = counted.known == found.known && counted.unit.is_some() && self.weighs(&found, unit);
                    return Some(if weighed { counted } else { found });
                }
                (Some(found), None) => return Some(found),
                (None, Some((_, counted))) => return Some(counted),
                (None, None) => {}
            }
            // Part of the food, after its name: "sun-dried tomato halves".
            if end >= 2
                && matches!(class(w, head.places[end - 1]..head.end), Some((Class::Part, _)))
                && let Some(mut found) = self.known_until(head, end - 1, None, stated, variety)
            {
                found.remarks.push(w.plain(head.places[end - 1]..head.places[end - 1] + 1));
                found.trailing = self.rest(head, end);
                return Some(found);
            }
        }
        None
    }

    fn rest(&self, head: &Head, from: usize) -> Range<usize> {
        head.places.get(from).map_or(head.end..head.end, |first| *first..head.end)
    }

    fn weighs(&self, found: &Found, unit: Unit) -> bool {
        found.known.is_some_and(|id| self.foods[id].weight_of(unit.singular()).is_some())
    }

    /// May the food's name end before this word?
    fn may_follow(&self, head: &Head, end: usize) -> bool {
        let at = head.places[end];
        let percent = self.w.kind(at + 1) == Some(Sign::Percent);
        // "600 ml stock and cooled"
        let and_done = || self.w.is(at, "and") && self.only_done(head.places.get(end + 1).copied().unwrap_or(head.end), head.end);
        percent
            || and_done()
            || self.w.kind(at - 1) == Some(Sign::Plus)
            || opens_preparation_of_a_known(self.w, at)
            || matches!(
                class(self.w, at..head.end),
                Some((Class::Form | Class::Adverb | Class::Cooked | Class::Drained | Class::Way | Class::Tinned, _))
            )
    }

    /// Do all words of a range say what is done to the food?
    fn only_done(&self, from: usize, to: usize) -> bool {
        let mut at = from;
        while at < to {
            match class(self.w, at..to) {
                Some((Class::Form | Class::Adverb | Class::And, after)) => at = after,
                _ if self.w.key_at(at).is_empty() => at += 1,
                _ => return false,
            }
        }
        from < to
    }

    fn unit_word(&self, at: usize) -> Option<Unit> {
        match self.w.unit(at) {
            // "2 cinnamon rolls" are no rolls of cinnamon.
            Some((Unit::Word(UnitWord::Roll | UnitWord::Bar | UnitWord::Nest | UnitWord::Rack | UnitWord::Sprinkle), _)) => None,
            Some((unit @ Unit::Word(_), _)) => Some(unit),
            _ => None,
        }
    }

    /// The food's name ends at `end`; `after` is the unit that follows it there.
    fn known_until(&self, head: &Head, end: usize, after: Option<Unit>, stated: Stated, variety: bool) -> Option<Found> {
        let w = self.w;
        let unit = match (stated, after) {
            (Some((Unit::Piece, false)), Some(after)) => Some(after),
            (stated, _) => stated.map(|(unit, _)| unit),
        };
        let mut before = Before { variety, ..Before::default() };
        let mut start = 0;
        while start < end {
            let name = head.key(w, start, end);
            let found = self.find(&name, &before, unit).map(|id| (id, Vec::new()));
            if let Some((id, inside)) = found.or_else(|| self.name_around(head, start, end, &before, unit)) {
                before.ways.extend(inside);
                before.cooked &= !["ready-cooked", "cooked "].iter().any(|start| self.foods[id].name.starts_with(start));
                before.dried |= is_dried(w, head, start, end);
                let mut found = before.found(self.foods[id].name.clone(), unit);
                found.known = Some(id);
                found.named = end - start;
                found.name = head.places[start]..head.places[end - 1] + 1;
                match after {
                    Some(after) if stated == Some((Unit::Piece, false)) => found.unit = Some(after),
                    // "200 g mint leaves": the amount has its unit already.
                    Some(_) => found.remarks.push(w.plain(head.places[end]..head.places[end] + 1)),
                    None => {}
                }
                found.trailing = self.rest(head, end + usize::from(after.is_some()));
                return Some(found);
            }
            start = before.take(w, head, start, end, true)?;
        }
        None
    }

    /// A known name with describing words inside it: "minced lean beef", "dried white cannellini beans". Its first word is none that only
    /// describes: "chopped fresh tomatoes" are no tin of chopped tomatoes.
    fn name_around(&self, head: &Head, start: usize, end: usize, before: &Before, unit: Option<Unit>) -> Option<(FoodId, Vec<String>)> {
        let w = self.w;
        if end - start < 3 {
            return self.powder(head, start, end).or_else(|| self.other_name(head, start, end)).map(|id| (id, Vec::new()));
        }
        if matches!(class(w, head.places[start]..head.end), Some((Class::Form | Class::Adverb | Class::Cooked | Class::Drained, _))) {
            return None;
        }
        let mut kept = String::from(w.key_at(head.places[start]));
        let mut inside = Vec::new();
        let mut at = start + 1;
        while at < end {
            let dropped = class(w, head.places[at]..head.places[end - 1]).filter(|(class, _)| !matches!(class, Class::And | Class::Part));
            match dropped {
                Some((class, after)) if at + 1 < end => {
                    let places = head.places[at..end].iter().take_while(|place| **place < after).count().max(1);
                    if !matches!(class, Class::Plain | Class::BeforeKnown | Class::Adverb) {
                        inside.push(w.plain(head.places[at]..after));
                    }
                    at += places;
                }
                _ => {
                    kept.push(' ');
                    kept.push_str(w.key_at(head.places[at]));
                    at += 1;
                }
            }
        }
        if kept.len() == head.key(w, start, end).len() {
            return self.powder(head, start, end).or_else(|| self.other_name(head, start, end)).map(|id| (id, Vec::new()));
        }
        self.find(&kept, before, unit).map(|id| (id, inside))
    }

    /// "Cotija cheese" and "porcini mushrooms" are known without the noun, "cumin powder" as ground cumin.
    fn other_name(&self, head: &Head, start: usize, end: usize) -> Option<FoodId> {
        const NOUNS: [(&str, Kind); 7] = [
            ("cheese", Kind::Dairy),
            ("mushroom", Kind::Vegetable),
            ("lettuce", Kind::Vegetable),
            ("potato", Kind::Vegetable),
            ("rice", Kind::Grain),
            ("pasta", Kind::Grain),
            ("apple", Kind::Fruit),
        ];
        let key = head.key(self.w, start, end);
        let (name, last) = key.rsplit_once(' ')?;
        let (_, kind) = NOUNS.iter().find(|row| row.0 == last)?;
        let known = self.foods.find_known(name)?;
        (self.foods[known].kind == Some(*kind)).then_some(known)
    }

    /// "Cumin powder" and "coriander seed powder" are ground cumin and ground coriander.
    fn powder(&self, head: &Head, start: usize, end: usize) -> Option<FoodId> {
        let key = head.key(self.w, start, end);
        let rest = key.strip_suffix(" powder")?;
        let rest = rest.strip_suffix(" seed").unwrap_or(rest);
        let ground = format!("ground {}", self.foods.find_known(rest).map_or_else(|| rest.to_owned(), |id| key_of(&self.foods[id].name)));
        let own = || self.foods.find_known(&format!("ground {rest}"));
        // "Garam masala powder" is a powder anyway.
        let spice = || self.foods.find_known(rest).filter(|id| self.foods[*id].kind == Some(Kind::Spice));
        let named = own().or_else(|| self.foods.find_known(&ground));
        named.or_else(|| self.foods.find_known(&format!("ground {}", stem(&ground)))).or_else(spice)
    }

    /// The food of this key, or its tinned or dried kind where that is what the line means.
    fn find(&self, name: &str, before: &Before, unit: Option<Unit>) -> Option<FoodId> {
        let foods = self.foods;
        let plain = || foods.find_known(name);
        let counts_tins = is_tin(unit);
        if counts_tins || before.drained || before.tinned {
            let found = self
                .own_in_tins(name)
                .or_else(|| self.kind_of("tinned", name))
                .or_else(|| if unit == Some(Unit::Word(UnitWord::Jar)) { self.kind_of("jarred", name) } else { None });
            return found.or_else(plain);
        }
        // "Ready-cooked Puy lentils", and what is cooked in a pouch, is bought so.
        let in_a_pack = matches!(unit, Some(Unit::Word(UnitWord::Packet | UnitWord::Bag | UnitWord::Pot)));
        if before.cooked
            && (before.bought_cooked || in_a_pack)
            && let Some(ready) = self.kind_of("ready cooked", name).or_else(|| self.kind_of("ready cooked", name.rsplit(' ').next()?))
        {
            return Some(ready);
        }
        if before.cooked {
            return match plain() {
                Some(id) if foods[id].cooked.is_some() => Some(id),
                // "Cooked, peeled prawns" are bought cooked.
                Some(id) if foods[id].kind.is_some_and(Kind::is_raw_flesh) => self.kind_of("cooked", name).or(Some(id)),
                // Dried egg is not what is boiled: only what is cooked from dry has a cooked weight.
                found => self.kind_of("dried", name).filter(|id| foods[*id].cooked.is_some()).or(found),
            };
        }
        plain()
    }

    /// The household's own food of this key, which stands before a tinned food of the reference, though not before one of its own.
    pub(super) fn own_in_tins(&self, name: &str) -> Option<FoodId> {
        let foods = self.foods;
        let own_tinned = || self.kind_of("tinned", name).is_some_and(|id| foods.find_own(&key_of(&foods[id].name)).is_some());
        foods.find_own(name).filter(|_| !own_tinned())
    }

    /// The tinned or dried kind of the food of this key: "tinned salmon" where the line says "salmon fillets", which is another name of salmon.
    pub(super) fn kind_of(&self, kind: &str, name: &str) -> Option<FoodId> {
        let foods = self.foods;
        let own = || {
            let id = foods.find_known(name)?;
            let own = key_of(&foods[id].name);
            let bare = ["dried ", "frozen "].iter().find_map(|kind| own.strip_prefix(kind)).unwrap_or(&own);
            foods.find_known(&format!("{kind} {own}")).or_else(|| foods.find_known(&format!("{kind} {bare}")))
        };
        foods.find_known(&format!("{kind} {name}")).or_else(own)
    }

    /// A food that nobody knows keeps its own words, minus trims and sizes; `None` where every word only describes.
    pub(super) fn unknown(&self, head: &Head, stated: Stated) -> Option<Found> {
        let w = self.w;
        let count = head.places.len();
        let mut before = Before::default();
        let mut start = 0;
        while start < count
            && let Some(next) = before.take(w, head, start, count, false)
        {
            start = next;
        }
        if start == count || head.places[start..].iter().all(|at| class(w, *at..head.end).is_some()) {
            return None;
        }
        let ends_before = |at: usize| {
            let place = head.places[at];
            let describes = matches!(class(w, place..head.end), Some((Class::Form | Class::Adverb, _)));
            (opens_preparation(w, place) || describes || is_percent(w, place)) && !w.is(head.places[at - 1], "and")
        };
        let mut end = (start + 1..count).find(|at| ends_before(*at)).unwrap_or(count);
        let trailing = self.rest(head, end);
        let mut unit = None;
        if stated == Some((Unit::Piece, false))
            && end > start + 1
            && let Some(word) = self.unit_word(head.places[end - 1]).filter(|unit| counts_an_unknown(*unit))
        {
            unit = Some(word);
            end -= 1;
        }
        let range = head.places[start]..head.places[end - 1] + 1;
        let food = w.plain(range).trim_matches([',', ';', '.', ':', '!', '"', '*']).to_owned();
        let found = before.found(food, unit.or(stated.map(|stated| stated.0)));
        Some(Found { unit, trailing, unexplained: end - start, ..found })
    }
}

fn stem(name: &str) -> &str {
    name.strip_suffix(" seed").or_else(|| name.strip_suffix(" leaf")).unwrap_or(name)
}

fn is_percent(w: &Words, at: usize) -> bool {
    w.at(at).is_some_and(|token| token.is_number()) && w.kind(at + 1) == Some(Sign::Percent)
}

/// "93/7 ground turkey": lean and fat in a hundred. The place after it.
fn lean_to_fat(w: &Words, at: usize) -> Option<usize> {
    let figure = |at: usize| w.at(at).filter(|token| token.is_number())?.text.parse::<u32>().ok();
    let (lean, fat) = (figure(at)?, figure(at + 2)?);
    (w.kind(at + 1) == Some(Sign::Slash) && lean + fat == 100).then_some(at + 3)
}

fn is_dried(w: &Words, head: &Head, start: usize, end: usize) -> bool {
    head.places[..end].iter().enumerate().any(|(index, at)| {
        let says = ["dried", "dry", "raw", "uncooked"].iter().any(|word| w.is(*at, word));
        says && index <= start
    })
}

/// Words that count a food whoever it is; "2 stock cubes" and "2 bay leaves" may be foods of that name.
fn counts_an_unknown(unit: Unit) -> bool {
    use UnitWord::*;
    matches!(unit, Unit::Word(Clove | Slice | Sprig | Bunch | Stalk | Head | Rasher | Fillet | Handful | Tin | Jar | Packet | Bottle))
}

/// In tins and jars the tinned kind is meant.
pub(super) fn is_tin(unit: Option<Unit>) -> bool {
    matches!(unit, Some(Unit::Word(UnitWord::Tin | UnitWord::Jar)))
}

/// The words that were split off before the food's name.
#[derive(Default)]
struct Before {
    forms: Vec<String>,
    has_form: bool,
    cooked: bool,
    /// "Ready-cooked", "pre-cooked".
    bought_cooked: bool,
    drained: bool,
    tinned: bool,
    dried: bool,
    ways: Vec<String>,
    origins: Vec<String>,
    /// Words with capital letters may be taken as the name of a variety.
    variety: bool,
    grade: Option<Grade>,
}

impl Before {
    /// Takes the phrase that describes at a place; the place of the next word, or `None` where it does not describe.
    fn take(&mut self, w: &Words, head: &Head, at: usize, end: usize, food_is_known: bool) -> Option<usize> {
        let place = head.places[at];
        let next_after = |after: usize| at + head.places[at..].iter().take_while(|place| **place < after).count();
        // "2% milk", "5% fat curd"
        if is_percent(w, place) {
            let fat = w.is(place + 2, "fat") || w.is(place + 2, "lean");
            let after = place + 2 + usize::from(fat);
            self.ways.push(w.plain(place..after));
            return Some(next_after(after)).filter(|next| *next <= end);
        }
        if w.kind(place) == Some(Sign::Percent) {
            return Some(at + 1);
        }
        if let Some(after) = lean_to_fat(w, place) {
            self.ways.push(w.plain(place..after));
            return Some(next_after(after)).filter(|next| *next <= end);
        }
        let Some((class, after)) = class(w, place..head.end) else {
            let token = w.at(place).filter(|token| self.variety && place > 0 && token.text.starts_with(char::is_uppercase))?;
            self.origins.push(token.text.to_owned());
            return Some(at + 1);
        };
        let text = || w.plain(place..after);
        match class {
            Class::Form => {
                self.has_form = true;
                self.forms.push(text());
            }
            Class::Adverb | Class::And => self.forms.push(text()),
            Class::Cooked => {
                self.cooked = true;
                self.bought_cooked |= ["ready", "pre", "precooked"].iter().any(|word| w.is(place, word));
            }
            Class::Drained => self.drained = true,
            Class::Tinned if food_is_known => self.tinned = true,
            Class::Grade(grade) => self.grade = Some(grade),
            Class::Plain => {}
            Class::BeforeKnown if food_is_known => {
                self.dried |= ["dry", "raw", "uncooked"].iter().any(|word| w.is(place, word));
            }
            Class::Way if food_is_known => self.ways.push(text()),
            Class::Origin if food_is_known => self.origins.push(text()),
            _ => return None,
        }
        Some(next_after(after))
    }

    fn found(self, food: String, unit: Option<Unit>) -> Found {
        let forms = self.forms_text();
        let mut found = Found { food, grade: self.grade, tinned: self.tinned, dried: self.dried, ..Found::default() };
        // What is in a tin or packet was worked on before it was bought.
        if matches!(unit, Some(Unit::Word(word)) if word.is_container()) {
            found.remarks.extend(forms);
            found.prep.extend((self.drained && is_tin(unit)).then(|| "drained".to_owned()));
            if self.cooked && !is_tin(unit) {
                found.state = Some(State::Cooked);
            } else if self.drained && !is_tin(unit) {
                found.state = Some(State::Drained);
            }
        } else if self.cooked || self.drained {
            found.state = Some(if self.cooked { State::Cooked } else { State::Drained });
            found.prep.extend(forms);
        } else if let Some(forms) = forms {
            found.state = Some(State::Prepared(forms));
        }
        if !self.ways.is_empty() {
            found.remarks.push(self.ways.join(", "));
        }
        for origin in self.origins {
            found.doubts.push(format!("\"{origin}\" was not used: {} is taken", found.food));
            found.remarks.push(origin);
        }
        found
    }

    /// "finely chopped", "peeled and diced"; nothing where only "finely" or "and" is left.
    fn forms_text(&self) -> Option<String> {
        let is_and = |word: &String| word.eq_ignore_ascii_case("and") || *word == "&";
        let first = self.forms.iter().position(|word| !is_and(word))?;
        let last = self.forms.iter().rposition(|word| !is_and(word))?;
        self.has_form.then(|| self.forms[first..=last].join(" ").to_lowercase())
    }
}
