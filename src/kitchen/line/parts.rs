//! What a line says after its food: preparations, remarks, sizes, what is added, what could be taken instead.
//!
//! "Packed" after the comma is how the cup was filled, where the food knows the weight of such a cup.

use std::collections::BTreeMap;
use std::ops::Range;

use super::beside::{Beside, Share, beside, beside_of_a_share, weight_of_a_share};
use super::candidate::Candidate;
use super::food::{Found, Head};
use super::foods::Resolved;
use super::length::grams_of;
use super::measure::{Measure, size_of};
use super::vocabulary::{Class, class, says_optional};
use super::{Line, LineError, LineOf, Reader, join};
use crate::foods::{FoodId, Item, Kind as FoodKind, Measured, State, same_forms};
use crate::kitchen::words::Words;
use crate::measure::{Amount, Ends, Kind, Number, Quantity, ReadError, Spoons, Unit, Word as UnitWord, amount_of, skip_about};

/// The parts of a line after its head, and all brackets beside its food.
#[derive(Debug, Clone, Default)]
pub(super) struct Parts {
    pub ranges: Vec<Range<usize>>,
    /// Places of brackets that say something of the food or its amount.
    pub brackets: Vec<usize>,
}

impl Parts {
    /// From the separator at `at` to the end, with the brackets after the measure.
    pub fn after(reader: &Reader, at: usize, measure: &Measure) -> Parts {
        let brackets = reader.inside.iter().map(|(place, _)| *place).filter(|place| *place >= measure.end && *place < reader.end).collect();
        let mut parts = Parts { ranges: Vec::new(), brackets };
        parts.cut(reader, at, reader.end);
        parts
    }

    /// Between two places, brackets and all.
    pub fn between(reader: &Reader, from: usize, to: usize) -> Parts {
        let brackets = reader.inside.iter().map(|(place, _)| *place).filter(|place| *place < to).collect();
        let mut parts = Parts { ranges: Vec::new(), brackets };
        parts.cut(reader, from, to);
        parts
    }

    fn cut(&mut self, reader: &Reader, from: usize, to: usize) {
        let mut at = from;
        while at < to {
            if reader.is_separator(at) {
                at += 1;
                continue;
            }
            let end = reader.separator(at).min(to);
            if (at..end).any(|place| reader.w.kind(place) != Some(Kind::Open)) {
                self.ranges.push(at..end);
            }
            at = end;
        }
    }

    /// Parts that begin with a number and are read as nothing: "eggs, 2", "strawberries, about 1/2 kg".
    pub fn numbers(&self, reader: &Reader, has_amount: bool) -> usize {
        let is_number = |words: &Words, at: usize| words.at(skip_about(words.tokens(), at)).is_some_and(|token| token.is_number());
        // "300 g barley, 1 lemon": another ingredient, not a number too many.
        let is_bare = |range: &&Range<usize>| {
            is_number(reader.w, range.start) && (!has_amount || range.len() < 3 && !reader.begins_another(range.start))
        };
        let weighs = |at: &&usize| !has_amount && reader.bracket(**at).is_some_and(|inner| beside(inner).is_some());
        self.ranges.iter().filter(is_bare).count() + self.brackets.iter().filter(weighs).count()
    }
}

/// What is told beside the amount and the food.
#[derive(Debug, Clone, Default)]
pub(super) struct Gathered {
    pub prep: Vec<String>,
    pub remarks: Vec<String>,
    pub instead: Vec<String>,
    pub doubts: Vec<String>,
    /// Ingredients of their own: "plus 1 egg yolk".
    pub extra: Vec<Line>,
    plus: Vec<Amount>,
    /// What may tell a size or weight, as typed.
    besides: Vec<(Beside, String)>,
    /// "(two 15-oz cans)".
    tins: Option<(Ends, Quantity)>,
    to_taste: bool,
    pub optional: bool,
    /// "zest of 1 orange, juice of 2": so many are needed.
    of_so_many: Option<Ends>,
    /// "drained", "canned" or "or 1 tin" after the food.
    says_tinned: bool,
    /// The "(400 g)" of what would do as well.
    pub other_size: Option<String>,
    /// "(drained weight)": the amount is of what is drained.
    drained_weight: bool,
    /// "(peeled weight)": of what of the food the amount is.
    weight_of: Option<Share>,
}

impl<'a> Reader<'a> {
    pub(super) fn gather(&self, measure: &Measure, resolved: &Resolved, parts: &Parts) -> Result<Gathered, LineError> {
        let mut gathered = Gathered::default();
        let has_amount = measure.amount.is_some();
        if let Some(found) = resolved.founds.last().filter(|found| !found.trailing.is_empty()) {
            let range = found.trailing.clone();
            let at = range.start;
            self.trailing(&mut gathered, range, has_amount, resolved).map_err(|error| self.error(error, at))?;
        }
        let mut parts = parts.clone();
        while !parts.ranges.is_empty() {
            let range = parts.ranges.remove(0);
            let at = range.start;
            if let Some(end) = self.part(&mut gathered, range, has_amount, resolved).map_err(|error| self.error(error, at))? {
                // What follows belongs to the food of that part.
                parts.ranges.retain(|range| range.start < end);
                parts.brackets.retain(|bracket| *bracket < end);
            }
        }
        for at in parts.brackets {
            let Some(inner) = self.bracket(at).filter(|inner| !inner.is_empty()) else { continue };
            if self.is_size_of_another(at) {
                let size = format!("({})", inner.plain(0..inner.len()));
                gathered.other_size = Some(size);
                continue;
            }
            match self.added_in_bracket(inner, resolved).filter(|_| has_amount) {
                Some(lines) => gathered.extra.extend(lines),
                None => gathered.bracket(inner, self.spoons),
            }
        }
        Ok(gathered)
    }

    /// "250 g cooked chickpeas, or 1 (400 g) tin": the bracket is the size of what would do as well.
    fn is_size_of_another(&self, at: usize) -> bool {
        let w = self.w;
        let from = (0..at).rev().find(|place| self.is_separator(*place)).unwrap_or(0);
        let or = (from..at).rfind(|place| w.is(*place, "or") && w.number(place + 1).is_ok_and(|number| number.is_some()));
        or.is_some_and(|or| says_tin(w, or..self.separator(at)))
    }

    /// What follows the food without a comma: "for frying", "rinsed and drained or 1 1/2 cups dry beans".
    fn trailing(&self, gathered: &mut Gathered, range: Range<usize>, has_amount: bool, resolved: &Resolved) -> Result<(), ReadError> {
        let w = self.w;
        let or = range.clone().skip(1).find(|at| w.is(*at, "or") && w.at(at + 1).is_some_and(|token| token.is_number()));
        let first = range.start..or.unwrap_or(range.end);
        self.part(gathered, first, has_amount, resolved)?;
        if let Some(or) = or {
            self.part(gathered, or..range.end, has_amount, resolved)?;
        }
        Ok(())
    }

    /// One part; the place from which on the line speaks of another food, where the part begins one.
    fn part(
        &self,
        gathered: &mut Gathered,
        range: Range<usize>,
        has_amount: bool,
        resolved: &Resolved,
    ) -> Result<Option<usize>, ReadError> {
        let w = self.w;
        let text = trimmed(&w.plain(range.clone()));
        let plus = w.is(range.start, "plus") || w.kind(range.start) == Some(Kind::Plus) || w.is(range.start, "and");
        let from = range.start + usize::from(plus);
        let known_already = |line: &Line| resolved.founds.iter().any(|found| found.food == line.of.to_string());
        if has_amount
            && let Some(other) = self.another(from)
            && !other.lines.iter().any(known_already)
        {
            gathered.extra.extend(other.lines);
            return Ok(Some(range.start));
        }
        if has_amount && let Some(end) = self.parted(gathered, from..range.end, resolved) {
            return Ok(end);
        }
        if plus
            && has_amount
            && let Some((amount, end)) = self.added(from)?
        {
            if let Some(line) = self.part_of_an_egg(&amount, end..range.end, resolved) {
                gathered.extra.push(line);
                return Ok(None);
            }
            gathered.plus.push(amount);
            let rest = w.plain(end..range.end);
            gathered.prep.push(rest);
            return Ok(None);
        }
        gathered.optional |= says_optional(w, range.clone());
        if has_amount
            && let Some(other) = self.mixed_in(range.clone())
            && !other.lines.iter().any(known_already)
        {
            gathered.extra.extend(other.lines);
            gathered.prep.push(text);
            return Ok(Some(range.end));
        }
        if w.is(range.start, "or") && !(w.is(range.start + 1, "to") && w.is(range.start + 2, "taste")) {
            gathered.says_tinned |= says_tin(w, range.clone());
            gathered.instead.push(trimmed(&w.plain(range.start + 1..range.end)));
        } else if resolved.founds.len() == 1 && self.names_others(range.clone(), &resolved.founds[0]) {
            gathered.instead.push(text);
        } else if let Some(beside) = beside_of_a_share(w, range.start).filter(|beside| beside.end >= range.end) {
            gathered.besides.push((beside, text));
        } else if is_to_taste(w, range.clone()) {
            gathered.to_taste = true;
        } else {
            gathered.drained_weight |= is_drained_weight(w, range.clone());
            gathered.weight_of = weight_of_a_share(w, range.clone()).or(gathered.weight_of);
            let many = self.whole_of(from).and_then(|(_, after)| w.number(after).ok().flatten());
            gathered.of_so_many = many.filter(|many| many.end >= range.end).map(|many| many.number).or(gathered.of_so_many.take());
            gathered.says_tinned |= says_tinned(w, range);
            gathered.prep.push(text);
        }
        Ok(None)
    }

    /// "Butter, ghee or oil": foods that would do as well, each known, or told by what stands before the noun of the first.
    fn names_others(&self, range: Range<usize>, first: &Found) -> bool {
        let w = self.w;
        let ors: Vec<usize> = range.clone().filter(|at| w.is(*at, "or")).collect();
        let Some(or) = ors.first().copied().filter(|or| ors.len() == 1 && *or > range.start && or + 1 < range.end) else { return false };
        let noun = first.name.end.checked_sub(1);
        let names = |range: Range<usize>| {
            let head = Head::of(w, range);
            let alone = |head: &Head| self.known(head, None).is_some_and(|found| found.trailing.is_empty());
            let with_noun = || {
                let places = head.places.iter().copied().chain(noun).collect();
                alone(&Head { places, end: head.end, joined: true })
            };
            !head.places.is_empty() && (alone(&head) || with_noun())
        };
        names(range.start..or) && names(or + 1..range.end)
    }

    /// "Sifted with 1 tsp baking powder" asks for another food; "made with 1 stock cube" says what the first is made of, and nobody buys water.
    fn mixed_in(&self, range: Range<usize>) -> Option<Candidate> {
        let w = self.w;
        let joins = |at: usize| ["with", "in"].iter().any(|word| w.is(at, word)) && !(at > 0 && w.is(at - 1, "made"));
        let at = range.clone().find(|at| joins(*at) && w.at(at + 1).is_some_and(|next| next.is_number()))?;
        self.another(at + 1).filter(|other| !other.lines.iter().any(|line| self.is_water(line)))
    }

    fn is_water(&self, line: &Line) -> bool {
        let id = self.foods.find_known(&crate::foods::key_of(&line.of.to_string()));
        id.is_some_and(|id| self.foods[id].kind == Some(FoodKind::Water))
    }

    /// The amount of "plus 2 tbsp for dusting" and "plus an extra tbsp".
    fn added(&self, at: usize) -> Result<Option<(Amount, usize)>, ReadError> {
        let w = self.w;
        let article = w.is(at, "an") || w.is(at, "a");
        let extra = ["extra", "additional", "further", "heaped"].iter().any(|word| w.is(at + 1, word));
        if article && extra {
            return Ok(w.unit(at + 2).filter(|(unit, _)| unit.is_measured()).map(|(unit, end)| (Amount::new(1.0, unit), end)));
        }
        let read = w.amount(at)?.filter(|read| read.amount.unit != Unit::Portion);
        Ok(read.filter(|read| read.unit_given || w.at(at).is_some_and(|token| token.is_number())).map(|read| {
            let extra = ["extra", "additional", "more"].iter().any(|word| w.is(read.end, word));
            (read.amount, read.end + usize::from(extra))
        }))
    }

    /// One ingredient of what was gathered.
    pub(super) fn finish(&self, measure: Measure, found: Found, gathered: Gathered) -> Line {
        let mut measure = measure;
        let mut gathered = gathered;
        if let (Some(unit), Some(amount)) = (found.unit, &mut measure.amount) {
            amount.unit = unit;
            measure.said = amount.to_string();
        }
        if let (Some(many), Some(amount)) = (&gathered.of_so_many, &mut measure.amount)
            && amount.unit == Unit::Piece
            && many.high > amount.high
        {
            *amount = amount_of(many, Unit::Piece);
        }
        // "2 cloves garlic, plus 1 whole": a clove more.
        if let Some(unit @ Unit::Word(word)) = measure.amount.as_ref().map(|amount| amount.unit)
            && !word.is_container()
        {
            gathered.plus.iter_mut().filter(|plus| plus.unit == Unit::Piece).for_each(|plus| plus.unit = unit);
        }
        self.made_vague_where_nobody_knows(&mut measure, &found);
        by_its_length(&mut measure, &found);
        self.in_halves(&mut measure, &found);
        self.in_sheets(&mut measure, &found);
        let besides = std::mem::take(&mut gathered.besides);
        for (beside, text) in besides {
            measure.take(beside, text, self.spoons);
        }
        let mut found = self.by_measure(found, &measure, &mut gathered.doubts);
        let weighed = matches!(measure.amount.as_ref().map(|amount| amount.most(Spoons::Us)), Some(Quantity::Mass(_)));
        if gathered.drained_weight && weighed && measure.size.is_none() && found.state.is_none() {
            found.state = Some(State::Drained);
        }
        let of = measure.of.or(gathered.weight_of.filter(|_| weighed && measure.size.is_none()));
        found.weighed_as(of);
        let found = self.tinned_pulse(found, &mut measure, gathered.says_tinned, gathered.tins.take());
        let mut prep: Vec<String> = measure.vague.iter().cloned().collect();
        prep.extend(found.prep);
        prep.extend(std::mem::take(&mut gathered.prep));
        let mut remarks = measure.remarks;
        remarks.extend(found.remarks);
        remarks.extend(gathered.remarks);
        let mut doubts = found.doubts;
        doubts.extend(gathered.doubts);
        if measure.vague.is_some() {
            let how_much =
                format!("how much \"{}\" is cannot be reckoned: it is listed to taste, in its own words", self.w.text(0..self.end));
            doubts.push(format!("{how_much}. Write a number to have it bought by amount"));
        }
        let state = found.state.unwrap_or(State::AsPurchased);
        let item = match measure.amount {
            Some(amount) => {
                prep.extend(gathered.to_taste.then(|| "to taste".to_owned()));
                let mut amount = amount;
                // "2 x 400 g chopped tomatoes" are two tins.
                if amount.unit == Unit::Piece && state == State::AsPurchased && measure.size.is_some() && found.food.starts_with("tinned ")
                {
                    amount.unit = Unit::Word(UnitWord::Tin);
                }
                let plus = measure.plus.into_iter().chain(gathered.plus).collect();
                let grade = found.grade.or(measure.grade).filter(|_| !measure.replaced);
                let form = if let State::Prepared(form) = &state { Some(form) } else { None };
                // A piece weighs what it weighs with its bones, which are thrown away.
                let is_weighed = !matches!(amount.unit, Unit::Piece | Unit::Word(_));
                let boned = is_weighed && self.is_boned(found.known, prep.iter().chain(&remarks).chain(form));
                Some(Item { amount, size: measure.size, grade, state, plus, boned })
            }
            None => {
                // Nothing is measured, so the form is something to do.
                prep.extend(if let State::Prepared(form) = state { Some(form) } else { None });
                None
            }
        };
        let instead = (!gathered.instead.is_empty()).then(|| gathered.instead.join(" or "));
        let mut line = Line {
            of: LineOf::Food { food: found.food, item },
            prep: None,
            remark: None,
            instead,
            optional: gathered.optional,
            for_one: None,
            doubts,
        };
        self.filled(&mut line, found.known, &mut prep, &mut remarks);
        line.prep = join(prep);
        line.remark = join(remarks);
        line
    }

    /// Meat that the line calls boneless, whose weight is otherwise with the bones.
    fn is_boned<'w>(&self, known: Option<FoodId>, mut said: impl Iterator<Item = &'w String>) -> bool {
        const SAYS: [&str; 5] = ["boneless", "boned", "deboned", "off the bone", "without bones"];
        let is_meat = |id: FoodId| matches!(self.foods[id].kind, Some(FoodKind::RawMeat | FoodKind::RawPoultry));
        known.is_some_and(is_meat)
            && said.any(|said| {
                let key = crate::foods::key_of(said);
                let mut cut = key.split(|c: char| !c.is_alphanumeric() && c != ' ');
                cut.any(|part| SAYS.iter().any(|word| format!(" {part} ").contains(&format!(" {} ", crate::foods::key_of(word)))))
            })
    }

    /// "A splash of Worcestershire sauce" is to taste where the food does not say what one weighs, which is told.
    fn made_vague_where_nobody_knows(&self, measure: &mut Measure, found: &Found) {
        use UnitWord::{Drizzle, Drop, Glug, Shaving, Splash, Sprinkle, Squeeze, Twist};
        let Some(Amount { unit: Unit::Word(word), .. }) = measure.amount else { return };
        let loose = matches!(word, Drizzle | Drop | Glug | Shaving | Splash | Sprinkle | Squeeze | Twist);
        let knows =
            |id: FoodId| self.foods[id].weight_of(word.singular()).is_some() || self.foods[id].volumes.contains_key(word.singular());
        if loose && measure.size.is_none() && measure.plus.is_empty() && !found.known.is_some_and(knows) {
            measure.amount = None;
            measure.vague = Some(std::mem::take(&mut measure.said).trim_end_matches(" of").to_owned());
        }
    }

    /// "6 walnut halves" are three walnuts.
    fn in_halves(&self, measure: &mut Measure, found: &Found) {
        let is_nut = found.known.is_some_and(|id| self.foods[id].kind == Some(FoodKind::Nut));
        let halves = || self.w.key(found.name.clone()).ends_with(" half") || found.remarks.iter().any(|remark| remark == "halves");
        if let Some(amount) = measure.amount.as_mut().filter(|amount| is_nut && amount.unit == Unit::Piece && measure.size.is_none())
            && halves()
        {
            *amount = amount.scaled(Number::over(1, 2));
            measure.remarks.push(std::mem::take(&mut measure.said) + " halves");
        }
    }

    /// "4 paper towels" are four sheets.
    fn in_sheets(&self, measure: &mut Measure, found: &Found) {
        let Some(food) = found.known.map(|id| &self.foods[id]).filter(|food| food.kind == Some(FoodKind::Household)) else { return };
        if let Some(amount) = measure.amount.as_mut().filter(|amount| amount.unit == Unit::Piece)
            && food.words.contains_key(UnitWord::Sheet.singular())
        {
            amount.unit = Unit::Word(UnitWord::Sheet);
        }
    }

    /// "1 cup brown sugar, packed", "1 cup (grated) parmesan" and "1 cup onion, diced" say how the cup is filled: the form is the cup's, where the
    /// food knows what such a cup weighs and knows none of no form. A food of one form only is measured in it.
    fn filled(&self, line: &mut Line, known: Option<crate::foods::FoodId>, prep: &mut Vec<String>, remarks: &mut Vec<String>) {
        let LineOf::Food { item: Some(item), .. } = &mut line.of else { return };
        let Some(Measured::Table(cups)) = known.and_then(|id| self.foods[id].cup.as_ref()).map(|cup| &cup.value) else { return };
        let is_volume = item.amount.unit.is_measured() && matches!(item.amount.most(Spoons::Us), Quantity::Volume(_));
        if !is_volume || item.size.is_some() {
            return;
        }
        // However firmly it is pressed down, where no such cup is known.
        if let State::Prepared(form) = &item.state
            && form.ends_with("packed")
            && !cups.contains_key("packed")
        {
            remarks.push(form.clone());
            item.state = State::AsPurchased;
        }
        if item.state != State::AsPurchased {
            return;
        }
        let measured = |form: &str| cups.contains_key(form) || same_forms(form).any(|same| cups.contains_key(same));
        let form = |entry: &str| {
            let words = Words::of(entry);
            let is_form = |at| words.is(at, "minced") || matches!(class(&words, at..words.len()), Some((Class::Form | Class::Adverb, _)));
            let describes = (0..words.len()).all(is_form);
            let last = entry.split(' ').next_back().unwrap_or(entry).to_lowercase();
            describes && measured(&last)
        };
        let whole = cups.contains_key("whole");
        let done_later = |entry: &str| form(entry) && (!whole || entry.ends_with("packed"));
        let taken = take_first(remarks, form).or_else(|| take_first(prep, done_later));
        let shape = || remarks.iter().find_map(|remark| shape_of(remark).filter(|form| measured(form)));
        if let Some(taken) = taken {
            item.state = State::Prepared(taken.to_lowercase());
        } else if let Some(form) = shape() {
            item.state = State::Prepared(form.to_owned());
        } else if !whole && let Some(only) = only_form(cups) {
            item.state = State::Prepared(only.to_owned());
        }
    }
}

/// "5 cm piece of ginger" is a weight.
fn by_its_length(measure: &mut Measure, found: &Found) {
    let Some(amount) = measure.amount.as_ref().filter(|amount| matches!(amount.unit, Unit::Word(UnitWord::Knob) | Unit::Piece)) else {
        return;
    };
    let Some(grams) = measure.long.as_ref().and_then(|long| grams_of(&found.food, long)) else { return };
    measure.amount = Some(Amount { low: &amount.low * &grams, high: &amount.high * &grams, unit: Unit::Gram });
}

/// The form of a food of which every cup weighs the same, however it is cut.
fn only_form(cups: &BTreeMap<String, f64>) -> Option<&str> {
    let mut forms = cups.iter().filter(|(form, _)| !matches!(form.as_str(), "cooked" | "drained"));
    let (first, grams) = forms.next()?;
    forms.all(|(_, other)| other == grams).then_some(first)
}

/// How a cup is filled with "mango chunks" and "carrot matchsticks".
fn shape_of(remark: &str) -> Option<&'static str> {
    const SHAPES: [(&str, &str); 9] = [
        ("chunk", "cubed"),
        ("cube", "cubed"),
        ("piece", "pieces"),
        ("floret", "chopped"),
        ("slice", "sliced"),
        ("ring", "sliced"),
        ("matchstick", "strips"),
        ("strip", "strips"),
        ("crumb", "crumbs"),
    ];
    SHAPES.iter().find(|row| row.0 == crate::foods::key_of(remark)).map(|row| row.1)
}

fn take_first(entries: &mut Vec<String>, fits: impl Fn(&str) -> bool) -> Option<String> {
    let at = entries.iter().position(|entry| fits(entry))?;
    Some(entries.remove(at))
}

fn trimmed(text: &str) -> String {
    text.trim_end_matches(['.', ':', '!', '*', ' ']).to_owned()
}

impl Gathered {
    fn bracket(&mut self, inner: &Words, spoons: Spoons) {
        let all = 0..inner.len();
        let text = inner.plain(all.clone());
        self.optional |= says_optional(inner, all.clone());
        if let Some(beside) = beside(inner) {
            self.besides.push((beside, text));
        } else if let Some(tins) = tins(inner, spoons) {
            self.tins = Some(tins);
            self.says_tinned = true;
            self.remarks.push(text);
        } else if inner.is(0, "or") && !is_to_taste(inner, all.clone()) {
            self.says_tinned |= says_tin(inner, all.clone());
            self.instead.push(inner.plain(1..inner.len()));
        } else {
            self.drained_weight |= is_drained_weight(inner, all.clone());
            self.weight_of = weight_of_a_share(inner, all.clone()).or(self.weight_of);
            self.says_tinned |= says_tinned(inner, all);
            self.remarks.push(text);
        }
    }
}

/// "two 15-oz cans": how many, and the size of one.
fn tins(words: &Words, spoons: Spoons) -> Option<(Ends, Quantity)> {
    let number = words.number(0).ok()??;
    let at = words.times(number.end).unwrap_or(number.end);
    let one = words.amount(at).ok()?.filter(|one| one.unit_given && one.amount.unit.is_measured())?;
    let (Unit::Word(UnitWord::Tin | UnitWord::Jar), _) = words.unit(one.end)? else { return None };
    Some((number.number, size_of(&one.amount, spoons)))
}

/// Tins of which a line says how many and how large.
pub(super) fn in_tins(tins: &(Ends, Quantity)) -> (Amount, Quantity) {
    (amount_of(&tins.0, Unit::Word(UnitWord::Tin)), tins.1.clone())
}

pub(super) fn is_to_taste(words: &Words, range: Range<usize>) -> bool {
    matches!(
        words.key(range),
        "to taste" | "or to taste" | "to your taste" | "according to taste" | "as per taste" | "q b" | "qb" | "quanto basta"
    )
}

/// "drained weight", "net drained weight", "weight when drained".
fn is_drained_weight(words: &Words, range: Range<usize>) -> bool {
    let any = |word: &str| range.clone().any(|at| words.is(at, word));
    any("drained") && any("weight")
}

/// "drained and rinsed", "canned", but not "soaked and drained".
pub(super) fn says_tinned(words: &Words, range: Range<usize>) -> bool {
    let any = |phrases: &[&str]| range.clone().any(|at| phrases.iter().any(|word| words.is(at, word)));
    any(&["canned", "tinned", "tin", "can"])
        || any(&["drained"]) && !any(&["soaked", "cooked", "boiled", "simmered", "overnight", "blanched"])
}

/// "or 1 tin".
pub(super) fn says_tin(words: &Words, range: Range<usize>) -> bool {
    range.clone().any(|at| ["canned", "tinned", "tin", "tins", "can", "cans"].iter().any(|word| words.is(at, word)))
}
