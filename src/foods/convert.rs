//! All conversions of an amount of a food: mass, volume, count, pack, form, as purchased, dry, drained.
//!
//! Everything goes through grams as purchased, and only where it must:
//!
//! ```text
//! volume ─cup, form─> grams in that state ─÷ edible, cooked or drained─> grams as purchased ─cup─> volume
//! count  ─each, size─> grams as purchased                                                  ─each─> count
//! word   ─its weight, or the size in the line─> grams as purchased                         ─its weight─> word
//! ```

use super::facts::Notes;
use super::{Fact, Food, Grade, Item, Measured, MissingFact, State, UsedFact};
use crate::measure::{
    Amount, Density, Dimension, Mass, Number, Pints, Quantity, Spoons, US_CUP_ML, Unit, Word, mass, tidy, to_digits, volume,
};

/// `item` as purchased, in `to` (grams, millilitres or pieces), for the upper end of a range.
///
/// Fails with the fact that is missing, and the key in foods.toml that would mend it.
pub fn as_purchased(food: &Food, item: &Item, to: &Dimension, spoons: Spoons) -> Result<Quantity, MissingFact> {
    Conversion { food, spoons, to, form: &State::AsPurchased, boned: item.boned, notes: Notes(None) }.item(item)
}

/// As [`as_purchased`], with every fact that was used.
pub fn as_purchased_with_facts(food: &Food, item: &Item, to: &Dimension, spoons: Spoons) -> Result<(Quantity, Vec<UsedFact>), MissingFact> {
    in_form_with_facts(food, item, to, &State::AsPurchased, spoons)
}

/// As [`as_purchased_with_facts`], with the answer weighed or poured in `form`: 300 g chopped onion are so many cups of chopped onion.
pub fn in_form_with_facts(
    food: &Food,
    item: &Item,
    to: &Dimension,
    form: &State,
    spoons: Spoons,
) -> Result<(Quantity, Vec<UsedFact>), MissingFact> {
    let mut facts = Vec::new();
    let quantity = Conversion { food, spoons, to, form, boned: item.boned, notes: Notes(Some(&mut facts)) }.item(item)?;
    Ok((quantity, facts))
}

/// `item` as purchased in the line's own dimension, where no fact beyond the line is needed: `None` otherwise.
///
/// A kitchen word with neither a weight nor a size stays a number of that word. A form or size that the food's table does not
/// name is a missing fact, whatever it would be added to.
pub fn own_dimension(food: &Food, item: &Item, spoons: Spoons) -> Option<Quantity> {
    if item.size.is_none() && is_missing_in_table(food, item, spoons) {
        return None;
    }
    let to = match (&item.size, item.amount.unit) {
        (Some(size), _) => size.dimension(),
        (None, Unit::Word(word)) if food.weight_of(word.singular()).is_some() => Dimension::Mass,
        (None, Unit::Word(word)) if food.volumes.contains_key(word.singular()) || small_volume(word, spoons).is_some() => Dimension::Volume,
        _ => item.amount.most(spoons).dimension(),
    };
    as_purchased(food, item, &to, spoons).ok()
}

fn is_missing_in_table(food: &Food, item: &Item, spoons: Spoons) -> bool {
    let table = |fact: &Option<Fact<Measured>>, named: &str| match fact {
        Some(Fact { value: Measured::Table(table), .. }) => form_in(table, named).is_none(),
        _ => false,
    };
    match (item.amount.most(spoons), &item.state) {
        (Quantity::Volume(_), State::AsPurchased) => table(&food.cup, "whole"),
        (Quantity::Volume(_), State::Prepared(form)) => table(&food.cup, form),
        (Quantity::Count(_), _) => item.grade.is_some_and(|grade| table(&food.each, grade.word())),
        _ => false,
    }
}

/// A plain amount of a food as purchased (a lot, a pack, a par) in another dimension.
pub fn convert(food: &Food, amount: &Quantity, to: &Dimension) -> Result<Quantity, MissingFact> {
    Conversion { food, spoons: Spoons::Us, to, form: &State::AsPurchased, boned: false, notes: Notes(None) }.plain(amount)
}

/// As [`convert`], with every fact that was used.
pub fn convert_with_facts(food: &Food, amount: &Quantity, to: &Dimension) -> Result<(Quantity, Vec<UsedFact>), MissingFact> {
    let mut facts = Vec::new();
    let quantity = Conversion { food, spoons: Spoons::Us, to, form: &State::AsPurchased, boned: false, notes: Notes(Some(&mut facts)) }
        .plain(amount)?;
    Ok((quantity, facts))
}

struct Conversion<'a> {
    food: &'a Food,
    spoons: Spoons,
    to: &'a Dimension,
    /// The state in which a weight or volume answers.
    form: &'a State,
    /// Bought without its bones.
    boned: bool,
    notes: Notes<'a>,
}

impl Conversion<'_> {
    fn item(&mut self, item: &Item) -> Result<Quantity, MissingFact> {
        let stated = match &item.size {
            // Pieces stay pieces, and tins tins, however large the line says that one is.
            Some(_) if item.amount.most(self.spoons).dimension() == *self.to => item.amount.most(self.spoons),
            Some(size) => size.scaled(&item.amount.high),
            None => self.poured(&item.amount),
        };
        let mut sum = self.stated(&stated, item.grade, &item.state)?;
        for amount in &item.plus {
            let more = self.poured(amount);
            sum += self.stated(&more, None, &item.state)?;
        }
        Ok(Quantity::of(self.to, sum))
    }

    fn plain(&mut self, amount: &Quantity) -> Result<Quantity, MissingFact> {
        let base = self.stated(amount, None, &State::AsPurchased)?;
        Ok(Quantity::of(self.to, base))
    }

    /// A pinch or dash of a food that says no weight of one is a small volume.
    fn poured(&mut self, amount: &Amount) -> Quantity {
        if let Unit::Word(word) = amount.unit
            && self.food.weight_of(word.singular()).is_none()
            && let Some(one) = small_volume(word, self.spoons)
        {
            self.notes.note(|| (format!("1 {word}"), format!("{} tsp", small_share(word)), "from memory".to_owned()));
            self.notes.note(|| unit_fact(Unit::Teaspoon, self.spoons));
            return one.scaled(&amount.high);
        }
        if amount.unit.is_customary() {
            self.notes.note(|| unit_fact(amount.unit, self.spoons));
        }
        amount.most(self.spoons)
    }

    /// In base units of `to`, as purchased.
    fn stated(&mut self, stated: &Quantity, grade: Option<Grade>, state: &State) -> Result<Number, MissingFact> {
        if let Quantity::Words(n, word) = stated
            && stated.dimension() != *self.to
            && let Some(one) = self.volume(word)
        {
            return self.stated(&Quantity::millilitres(one * n.clone()), grade, state);
        }
        match (stated, self.to) {
            (Quantity::Count(n), Dimension::Count) => return Ok(n.clone()),
            (Quantity::Words(n, word), Dimension::Word(wanted)) if word == wanted => return Ok(n.clone()),
            (Quantity::Portions(n), Dimension::Portion) => return Ok(n.clone()),
            (Quantity::Volume(poured), Dimension::Volume) if self.is_whole(state) && self.is_whole(self.form) => {
                return Ok(poured.value.clone());
            }
            (Quantity::Volume(_), Dimension::Volume) | (Quantity::Mass(_), Dimension::Mass) if state == self.form => {
                return Ok(stated.exact().clone());
            }
            (Quantity::Mass(weighed), Dimension::Volume) if state == self.form => return Ok((weighed.clone() / self.cup(state)?).value),
            _ => {}
        }
        let bought: Mass = match stated {
            Quantity::Mass(weighed) => weighed.clone() / self.factor(state)?,
            Quantity::Volume(poured) => {
                let cup = self.cup(state)?;
                let factor = self.factor(state)?;
                poured.clone() * cup / factor
            }
            Quantity::Count(n) => self.each(grade)? * n.clone(),
            Quantity::Words(n, word) => match grade {
                Some(grade) if self.is_sized(word, grade) => self.each(Some(grade))? * n.clone(),
                Some(grade) => self.word(&self.sized(word, grade))? * n.clone(),
                None => self.word(word)? * n.clone(),
            },
            Quantity::Portions(_) => return Err(self.missing("a portion of a food has no weight", "each = \"…\"")),
        };
        self.stated_as(bought)
    }

    /// From a weight as purchased to base units of `to`.
    fn stated_as(&mut self, bought: Mass) -> Result<Number, MissingFact> {
        Ok(match self.to {
            Dimension::Mass => (bought * self.factor(self.form)?).value,
            Dimension::Volume => (bought * self.factor(self.form)? / self.cup(self.form)?).value,
            Dimension::Count => (bought / self.each(None)?).value,
            Dimension::Word(word) => (bought / self.word(&word.clone())?).value,
            Dimension::Portion => return Err(self.missing("a portion of a food has no weight", "each = \"…\"")),
        })
    }

    /// Does this state weigh and measure as much as the food as purchased?
    fn is_whole(&self, state: &State) -> bool {
        match state {
            State::AsPurchased => true,
            State::Prepared(_) => self.food.edible.as_ref().is_none_or(|edible| edible.value == 1.0),
            State::Cooked | State::Drained => false,
        }
    }

    /// Weight in this state / weight as purchased.
    fn factor(&mut self, state: &State) -> Result<Number, MissingFact> {
        let (name, fact, what, key) = match state {
            State::AsPurchased => return Ok(Number::ONE),
            State::Prepared(_) if self.boned => return Ok(Number::ONE),
            State::Prepared(_) => match &self.food.edible {
                None => return Ok(Number::ONE),
                known => ("edible portion / as purchased", known, "no edible share is known", "edible = \"…\""),
            },
            State::Cooked => ("cooked / dry weight", &self.food.cooked, "no cooked weight is known", "cooked = …"),
            State::Drained => ("drained share", &self.food.drained, "no drained share is known", "drained = \"…\""),
        };
        match fact {
            Some(Fact { value, source }) if *value > 0.0 => {
                let value = *value;
                self.notes.note(|| (name.to_owned(), share_or_factor(state, value), source.clone()));
                Ok(value.into())
            }
            _ => Err(self.missing(what, key)),
        }
    }

    /// What a US cup in this state weighs, over what it holds.
    fn cup(&mut self, state: &State) -> Result<Density, MissingFact> {
        let form = match state {
            State::AsPurchased => "whole",
            State::Prepared(form) => form,
            State::Cooked => "cooked",
            State::Drained => "drained",
        };
        let Some(Fact { value, source }) = &self.food.cup else {
            return Err(self.missing("no weight of a cup is known", "cup = \"…\""));
        };
        let found = match value {
            Measured::Single(grams) => Some(("", *grams)),
            Measured::Table(forms) => form_in(forms, form),
        };
        match found {
            Some((named, grams)) if grams > 0.0 => {
                self.notes.note(|| unit_fact(Unit::Cup, Spoons::Us));
                self.notes.note(|| {
                    let fact = if named.is_empty() { "cup".to_owned() } else { format!("cup, {named}") };
                    let source = self.food.source_of(&fact, source).to_owned();
                    (fact, grams_text(grams), source)
                });
                Ok(mass(grams) / volume(US_CUP_ML))
            }
            _ if *state == State::AsPurchased => {
                let forms = match value {
                    Measured::Table(forms) => forms.keys().cloned().collect::<Vec<_>>().join(", "),
                    Measured::Single(_) => String::new(),
                };
                let only = if forms.is_empty() { forms } else { format!(", only of it {forms}") };
                Err(self.missing(&format!("no weight of a cup of it as it is bought is known{only}"), "cup = { whole = \"…\" }"))
            }
            _ => Err(self.missing(&format!("no weight of a cup, {form}, is known"), &format!("cup = {{ {} = \"…\" }}", toml_key(form)))),
        }
    }

    /// One piece as purchased; of no named size, the medium one.
    fn each(&mut self, grade: Option<Grade>) -> Result<Mass, MissingFact> {
        let size = grade.map_or("medium", Grade::word);
        let Some(Fact { value, source }) = &self.food.each else {
            return Err(self.missing("no weight of one is known", "each = \"…\""));
        };
        let (named, grams) = match value {
            Measured::Single(grams) => ("", *grams),
            Measured::Table(sizes) => (size, sizes.get(size).copied().unwrap_or(0.0)),
        };
        if grams <= 0.0 {
            return Err(self.missing(&format!("no weight of a {size} one is known"), &format!("each = {{ {size} = \"…\" }}")));
        }
        self.notes.note(|| {
            let fact = if named.is_empty() { "each".to_owned() } else { format!("each, {named}") };
            let source = self.food.source_of(&fact, source).to_owned();
            (fact, grams_text(grams), source)
        });
        Ok(mass(grams))
    }

    /// "1 large glass", where the food knows what such a one holds.
    fn sized(&self, word: &str, grade: Grade) -> String {
        let sized = format!("{} {word}", grade.word());
        if self.food.words.contains_key(&sized) { sized } else { word.to_owned() }
    }

    /// "1 small head": a head that weighs as much as a medium one is one, and small ones are known.
    fn is_sized(&self, word: &str, grade: Grade) -> bool {
        let Some(Measured::Table(sizes)) = self.food.each.as_ref().map(|each| &each.value) else { return false };
        let head = self.food.weight_of(word).map(|head| head.value);
        sizes.contains_key(grade.word()) && head.is_some() && head == sizes.get(Grade::Medium.word()).copied()
    }

    /// Millilitres of one carton, bottle, glass ... of a food that does not say what it weighs.
    fn volume(&mut self, word: &str) -> Option<Number> {
        let Fact { value, source } = self.food.volumes.get(word).filter(|_| self.food.weight_of(word).is_none())?;
        self.notes.note(|| (word.to_owned(), format!("{} ml", tidy(*value)), source.clone()));
        Some((*value).into())
    }

    /// One clove, slice, sprig ... as purchased.
    fn word(&mut self, word: &str) -> Result<Mass, MissingFact> {
        if let Some(poured) = self.volume(word) {
            let cup = self.cup(&State::AsPurchased)?;
            return Ok(volume(poured) * cup);
        }
        match self.food.weight_of(word) {
            Some(Fact { value, source }) if *value > 0.0 => {
                let value = *value;
                self.notes.note(|| (word.to_owned(), grams_text(value), source.clone()));
                Ok(mass(value))
            }
            _ => Err(self.missing(&format!("no weight of a {word} is known"), &format!("{} = \"…\"", toml_key(word)))),
        }
    }

    fn missing(&self, what: &str, key: &str) -> MissingFact {
        MissingFact { what: what.to_owned(), key: key.to_owned(), wanted: self.to.clone() }
    }
}

impl Grade {
    /// `small`, `medium`, `large`: the key in an `each` table.
    pub fn word(self) -> &'static str {
        match self {
            Grade::Small => "small",
            Grade::Medium => "medium",
            Grade::Large => "large",
        }
    }
}

/// Forms that fill a cup alike: where a food has no weight of its own for one, it is measured as the next of its row. Common practice,
/// no source.
const SAME_FORMS: [&[&str]; 4] = [
    &["chopped", "diced", "cubed", "minced", "torn", "pieces", "cut", "broken"],
    &["grated", "shredded"],
    &["sliced", "julienned", "strips"],
    &["mashed", "puréed", "pureed"],
];

/// The forms as which another is measured, the nearest first.
pub(crate) fn same_forms(form: &str) -> impl Iterator<Item = &'static str> {
    let row = SAME_FORMS.iter().find(|row| row.contains(&form)).copied().unwrap_or_default();
    row.iter().copied().filter(move |same| *same != form)
}

/// Worked on, but no smaller: so many fill a cup as before. Common practice, no source.
const AS_WHOLE: [&str; 12] =
    ["toasted", "roasted", "rinsed", "washed", "thawed", "defrosted", "cleaned", "scrubbed", "hulled", "stemmed", "blanched", "trimmed"];

/// The form as named, or its last word that the table knows: "finely chopped" is a way of being chopped, and diced is measured as chopped.
fn form_in<'a>(forms: &'a std::collections::BTreeMap<String, f64>, form: &str) -> Option<(&'a str, f64)> {
    let get = |name: &str| forms.get_key_value(name).map(|(name, grams)| (name.as_str(), *grams));
    let words = || form.split(' ').rev();
    let as_whole = || words().all(|word| AS_WHOLE.contains(&word)).then(|| get("whole")).flatten();
    get(form).or_else(|| words().find_map(get)).or_else(|| words().flat_map(same_forms).find_map(get)).or_else(as_whole)
}

/// Two words for one thing: a food that knows only the other is weighed by it.
const SAME: [(&str, &str); 3] = [("stick", "stalk"), ("stalk", "stick"), ("rasher", "slice")];

impl Food {
    /// The weight of one clove, slice, sprig ... in grams as purchased, by the word's singular.
    pub fn weight_of(&self, word: &str) -> Option<&Fact<f64>> {
        self.words.get(word).or_else(|| {
            let (_, same) = SAME.iter().find(|row| row.0 == word)?;
            self.words.get(*same)
        })
    }
}

/// Shares of a teaspoon. From memory; common in American measuring-spoon sets.
const SMALL_WORDS: [(Word, Number, &str); 2] = [(Word::Pinch, Number::over(1, 16), "1/16"), (Word::Dash, Number::over(1, 8), "1/8")];

/// What a pinch or a dash holds.
fn small_volume(word: Word, spoons: Spoons) -> Option<Quantity> {
    let (_, share, _) = SMALL_WORDS.into_iter().find(|row| row.0 == word)?;
    Some(Amount::new(share, Unit::Teaspoon).most(spoons))
}

fn small_share(word: Word) -> &'static str {
    SMALL_WORDS.iter().find(|row| row.0 == word).map_or("", |row| row.2)
}

/// How much one of a unit is, for units that are not plainly metric, to the seven digits that NIST prints.
pub(crate) fn unit_fact(unit: Unit, spoons: Spoons) -> (String, String, String) {
    let one = Amount::new(1, unit);
    let (name, source) = match (spoons, unit) {
        (_, Unit::Dessertspoon) => (one.to_string(), "two teaspoons, from memory"),
        (Spoons::Metric | Spoons::MetricByImperialPint, Unit::Teaspoon | Unit::Tablespoon | Unit::Cup) => {
            (one.to_string(), "rules.spoons = \"metric\"")
        }
        (_, unit) if unit.depends_on_pints() && spoons.pints() == Pints::Imperial => {
            (format!("{one} (imperial)"), "NIST SP 811 (2008), B.8; rules.pints = \"imperial\"")
        }
        // Every weight of a cup is of this one, whichever the household's spoons are.
        (_, Unit::Cup) => ("1 US cup".to_owned(), "NIST SP 811 (2008), B.8"),
        _ => (one.to_string(), "NIST SP 811 (2008), B.8"),
    };
    let most = one.most(spoons);
    let mut source = source.to_owned();
    // Whose pint was meant, and how much the other is.
    if unit.depends_on_pints() && spoons.pints() == Pints::Us {
        source.push_str(&format!("; US measure, imperial {:.0} ml", one.most(spoons.with(Pints::Imperial)).base()));
    }
    (name, format!("{} {}", to_digits(most.base(), 7), most.dimension()), source)
}

fn share_or_factor(state: &State, value: f64) -> String {
    match state {
        State::Cooked => tidy(value).to_string(),
        _ => format!("{} %", tidy(value * 100.0)),
    }
}

fn grams_text(grams: f64) -> String {
    format!("{} g", tidy(grams))
}

/// A key that TOML takes bare, or in quotes.
fn toml_key(word: &str) -> String {
    let bare = word.chars().all(|c| c.is_ascii_alphanumeric() || c == '-' || c == '_');
    if bare { word.to_owned() } else { format!("{word:?}") }
}

#[cfg(test)]
mod tests;
