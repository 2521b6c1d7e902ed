//! One food, one of several that would do, or several: "almond or soy milk", "salt, pepper and lemon juice".
//!
//! Several foods in a line are several ingredients. An amount of all together ("1 kg carrots and turnips") is shared
//! out equally, which is told.

use std::ops::Range;

use super::candidate::Candidate;
use super::food::{Found, Head, Stated};
use super::measure::Measure;
use super::parts::{Parts, says_tin, says_tinned};
use super::vocabulary::{Class, class_of, says_optional};
use super::{Line, LineError, Reader};
use crate::measure::{Kind, Unit, Word};

/// The foods of a head, and what could be taken instead of the only one.
#[derive(Default)]
pub(super) struct Resolved {
    pub founds: Vec<Found>,
    pub instead: Vec<String>,
    /// Ingredients with an amount of their own: the nutmeg of "salt, pepper, a pinch of nutmeg".
    pub extra: Vec<Line>,
}

impl Resolved {
    fn one(found: Found) -> Self {
        Resolved { founds: vec![found], ..Resolved::default() }
    }

    fn one_of(found: Found, instead: Vec<String>) -> Self {
        Resolved { founds: vec![found], instead, extra: Vec::new() }
    }
}

/// Is it added to taste where it stands beside another food?
fn is_seasoning(found: &Found) -> bool {
    ["salt", "sea salt", "black pepper"].contains(&found.food.as_str())
}

impl<'a> Reader<'a> {
    /// The ingredients that a measure, a head and the parts after it say.
    pub(super) fn foods(&self, measure: Measure, head: Head, parts: Parts, start: usize) -> Result<Candidate, LineError> {
        if let Some(candidate) = self.each_of_a_noun(&measure, &head) {
            return Ok(candidate);
        }
        if let Some(candidate) = self.own_amounts(&measure, &head, &parts, start)? {
            return Ok(candidate);
        }
        let (head, parts) = self.without_more(&measure, head, parts);
        let stated: Stated = measure.amount.as_ref().map(|amount| (amount.unit, measure.unit_given));
        let first = head.places.first().copied().unwrap_or(start);
        let Some(mut resolved) = self.resolve(&head, stated) else { return Err(self.no_food(start, first)) };
        if let [found] = resolved.founds.as_mut_slice()
            && let Some(tinned) = self.known_in_tins_alone(&head, found, &parts)
        {
            *found = tinned;
        }
        let mut parts = parts;
        if measure.amount.is_none() || measure.each {
            self.listed(&mut resolved, &mut parts, stated);
        }
        let unexplained =
            resolved.founds.iter().map(|found| found.unexplained).sum::<usize>() + parts.numbers(self, measure.amount.is_some());
        let named = resolved.founds.iter().map(|found| found.named).sum();
        let lines = self.lines(measure, resolved, &parts)?;
        Ok(Candidate { lines, unexplained, named })
    }

    /// "15 oz zeb, drained" where only tinned zeb is known: as "15 oz drained zeb".
    fn known_in_tins_alone(&self, head: &Head, found: &Found, parts: &Parts) -> Option<Found> {
        let says = |range: &Range<usize>| says_tinned(self.w, range.clone());
        if found.known.is_some() || !parts.ranges.iter().any(says) {
            return None;
        }
        let tinned = self.known(head, Some((Unit::Word(Word::Tin), true)))?;
        tinned.food.starts_with("tinned ").then_some(Found { only_tinned: true, ..tinned })
    }

    /// One line a food; an amount of several together is shared out equally, which is told.
    fn lines(&self, measure: Measure, resolved: Resolved, parts: &Parts) -> Result<Vec<Line>, LineError> {
        // "1 onion and salt": nobody counts or weighs salt with something else.
        let any_other = !measure.each && measure.amount.is_some() && resolved.founds.iter().any(|found| !is_seasoning(found));
        let count = resolved.founds.iter().filter(|found| !any_other || !is_seasoning(found)).count();
        let mut gathered = self.gather(&measure, &resolved, parts)?;
        gathered.instead.splice(0..0, resolved.instead);
        if let Some((last, size)) = gathered.instead.last_mut().zip(gathered.other_size.take()) {
            *last = format!("{last} {size}");
        }
        let mut measure = measure;
        if count > 1
            && !measure.each
            && let Some(amount) = &mut measure.amount
        {
            let together = amount.to_string();
            *amount = amount.scaled(1.0 / count as f64);
            gathered.doubts.push(format!("{together} of several foods together is shared out equally: {amount} of each"));
        }
        let mut extra = resolved.extra;
        extra.extend(std::mem::take(&mut gathered.extra));
        let of = |found: Found| {
            let to_taste = any_other && is_seasoning(&found);
            let measure = if to_taste { Measure { end: measure.end, ..Measure::default() } } else { measure.clone() };
            self.finish(measure, found, gathered.clone())
        };
        let mut lines: Vec<Line> = resolved.founds.into_iter().map(of).collect();
        for line in &mut extra {
            line.optional |= gathered.optional;
        }
        lines.extend(extra);
        Ok(lines)
    }

    /// "2 onions and 1 carrot", "2 eggs plus 1 egg yolk": each food has an amount of its own.
    fn own_amounts(&self, measure: &Measure, head: &Head, parts: &Parts, start: usize) -> Result<Option<Candidate>, LineError> {
        let w = self.w;
        let Some(amount) = &measure.amount else { return Ok(None) };
        let Some(first) = head.places.first().copied() else { return Ok(None) };
        for at in (first + 1..head.end).filter(|at| self.joins(*at)) {
            let head = Head::of(w, first..at);
            let stated = Some((amount.unit, measure.unit_given));
            if let Some(candidate) = self.sharing_a_noun(measure, &head, at, parts) {
                return Ok(Some(candidate));
            }
            let Some(second) = self.another(at + 1) else { continue };
            let Some(found) = self.known(&head, stated) else { continue };
            if second.lines.iter().any(|line| line.of.to_string() == found.food) {
                continue;
            }
            let before = Parts { ranges: Vec::new(), brackets: parts.brackets.iter().copied().filter(|bracket| *bracket < at).collect() };
            let candidate = self.foods(measure.clone(), head, before, start)?;
            let mut lines = candidate.lines;
            lines.extend(second.lines);
            // "2 carrots and 1 parsnip, grated, to serve"
            let optional = parts.ranges.iter().any(|range| says_optional(w, range.clone()));
            lines.iter_mut().for_each(|line| line.optional |= optional);
            return Ok(Some(Candidate { lines, unexplained: second.unexplained, named: candidate.named + second.named }));
        }
        Ok(None)
    }

    /// "1 red and 1 yellow pepper", "8 chicken drumsticks and 4 thighs": the second lends the first its noun, or the first the second what stands
    /// before it.
    fn sharing_a_noun(&self, measure: &Measure, first: &Head, and: usize, parts: &Parts) -> Option<Candidate> {
        let w = self.w;
        let other = self.measure(and + 1, false).ok()?;
        let stated = |measure: &Measure| measure.amount.as_ref().map(|amount| (amount.unit, measure.unit_given));
        let counted = |measure: &Measure| matches!(stated(measure), Some((Unit::Piece | Unit::Word(_), _)));
        if !counted(measure) || !counted(&other) || other.end >= self.end {
            return None;
        }
        let second = Head::of(w, other.end..self.separator(other.end));
        let join = |front: &[usize], back: &[usize]| {
            let places: Vec<usize> = front.iter().chain(back).copied().collect();
            Head { places, end: second.end, joined: true }
        };
        let alone = (self.known(first, stated(measure)), self.known(&second, stated(&other)));
        let (one, two) = match alone {
            (None, Some(two)) => {
                let noun = second.places.split_last()?.1.len();
                (self.known(&join(&first.places, &second.places[noun..]), stated(measure))?, two)
            }
            (Some(one), None) => {
                let (_, kind) = first.places.split_last()?;
                (one, self.known(&join(kind, &second.places), stated(&other))?)
            }
            _ => return None,
        };
        if one.known == two.known {
            return None;
        }
        let named = one.named + two.named;
        let before = Parts { ranges: Vec::new(), brackets: parts.brackets.iter().copied().filter(|at| *at < and).collect() };
        let after = Parts::after(self, second.end, &other);
        let of = |found: Found| Resolved::one(found);
        let mut lines = self.lines(measure.clone(), of(one), &before).ok()?;
        lines.extend(self.lines(other, of(two), &after).ok()?);
        Some(Candidate { lines, unexplained: 0, named })
    }

    /// "1 red, 1 yellow and 1 green pepper": one noun for colours that are counted each.
    fn each_of_a_noun(&self, measure: &Measure, head: &Head) -> Option<Candidate> {
        let w = self.w;
        measure.amount.as_ref().filter(|amount| amount.unit == Unit::Piece)?;
        let colour = |at: usize| class_of(w, at) == Some(Class::Inside);
        let mut at = head.places.first().copied().filter(|first| colour(*first) && w.kind(first + 1) == Some(Kind::Comma))?;
        let mut counted = vec![(measure.clone(), at)];
        while self.is_separator(at + 1) || self.joins(at + 1) {
            at += 2 + usize::from(self.is_separator(at + 1) && self.joins(at + 2));
            let next = self.measure(at, false).ok()?;
            at = next.end;
            next.amount.as_ref().filter(|amount| amount.unit == Unit::Piece && colour(at))?;
            counted.push((next, at));
        }
        let end = self.separator(at);
        let noun = at + 1..end;
        let mut founds = Vec::new();
        for (_, colour) in &counted {
            let places = std::iter::once(*colour).chain(noun.clone()).filter(|at| !w.key_at(*at).is_empty()).collect();
            founds.push(self.joined(&Head { places, end, joined: true }, 1, Some((Unit::Piece, false)))?);
        }
        let named = founds.iter().map(|found| found.named).sum();
        let mut lines = Vec::new();
        for ((measure, _), found) in counted.into_iter().zip(founds) {
            let parts = Parts::after(self, end, &measure);
            lines.extend(self.lines(measure, Resolved::one(found), &parts).ok()?);
        }
        Some(Candidate { lines, unexplained: 0, named })
    }

    /// "2 eggs + 1 for glazing": what is added is a part of its own, although no comma stands before it.
    fn without_more(&self, measure: &Measure, head: Head, mut parts: Parts) -> (Head, Parts) {
        let w = self.w;
        let adds = |at: usize| w.is(at, "plus") || w.kind(at) == Some(Kind::Plus);
        let Some(first) = head.places.first().copied().filter(|_| measure.amount.is_some() && !head.joined) else { return (head, parts) };
        let Some(at) = (first + 1..head.end).find(|at| adds(*at) && w.number(*at + 1).is_ok_and(|number| number.is_some())) else {
            return (head, parts);
        };
        parts.ranges.insert(0, at..head.end);
        (Head::of(w, first..at), parts)
    }

    /// An amount and a known food that begin at a place, all of whose words are explained; or the juice of so many.
    pub(super) fn another(&self, at: usize) -> Option<Candidate> {
        let best = || self.best(at).ok().filter(|best| best.unexplained == 0 && best.named > 0);
        if self.whole_of(at).is_some() {
            return best();
        }
        self.begins_another(at).then(best).flatten()
    }

    /// Does an amount of a known food begin here?
    pub(super) fn begins_another(&self, at: usize) -> bool {
        // "3 cloves" and nothing behind it is the spice.
        let unit = self.w.number(at).ok().flatten().is_some_and(|read| self.w.unit(read.end).is_some_and(|(_, end)| self.ends(end)));
        self.amount_begins(at, false) || unit && self.amount_begins(at, true)
    }

    /// Does the name of a food end here?
    pub(super) fn ends(&self, at: usize) -> bool {
        at == self.separator(at) || self.joins(at) || self.bracket(at).is_some() && at + 1 == self.separator(at)
    }

    fn amount_begins(&self, at: usize, as_count: bool) -> bool {
        let Some(measure) = self.measure(at, as_count).ok().filter(|measure| measure.amount.is_some()) else { return false };
        let first = measure.end;
        let end = self.separator(first);
        let stated: Stated = measure.amount.as_ref().map(|amount| (amount.unit, measure.unit_given));
        // Of "2 sticks of celery and 1 onion" what stands before the "and" names the food.
        let end = (first + 1..end)
            .find(|at| self.joins(*at))
            .filter(|_| self.known(&Head::of(self.w, first..end), stated).is_none())
            .unwrap_or(end);
        self.known(&Head::of(self.w, first..end), stated).is_some()
    }

    /// "and", "&", "plus", "+"
    pub(super) fn joins(&self, at: usize) -> bool {
        let w = self.w;
        w.is(at, "and") || w.is(at, "plus") || matches!(w.kind(at), Some(Kind::And | Kind::Plus))
    }

    /// Where several amounts stand on the line, "…, 1 lemon, salt" ends with foods of which no amount is said: where each begins and ends.
    pub(super) fn foods_at_the_end(&self, start: usize) -> Vec<Range<usize>> {
        let comma = |at: &usize| self.w.kind(*at) == Some(Kind::Comma);
        // Two amounts and a food without one are parted by two commas at least.
        if (start..self.end).filter(comma).take(2).count() < 2 {
            return Vec::new();
        }
        let mut found = Vec::new();
        let mut end = self.end;
        while let Some(at) = (start..end).rev().find(comma).filter(|at| self.names(at + 1) == Some(end)) {
            found.insert(0, at + 1..end);
            end = at;
        }
        let begins = std::iter::once(start).chain((start..end).filter(comma).map(|at| at + 1));
        if found.is_empty() || begins.filter(|at| self.begins_another(*at)).take(2).count() < 2 { Vec::new() } else { found }
    }

    /// The foods of a head; `None` where every word only describes.
    fn resolve(&self, head: &Head, stated: Stated) -> Option<Resolved> {
        if let Some(found) = self.known(head, stated) {
            return Some(Resolved::one(found));
        }
        self.either(head, stated)
            .or_else(|| self.both(head, stated))
            .or_else(|| self.variety(head, stated).map(Resolved::one))
            .or_else(|| self.unknown(head, stated).map(Resolved::one))
    }

    /// "A or B noun": the first with the noun, else the first, else the first that is known.
    fn either(&self, head: &Head, stated: Stated) -> Option<Resolved> {
        let w = self.w;
        let options = self.options(head);
        let (first, others) = options.split_first()?;
        if others.is_empty() || first.places.is_empty() || others.iter().any(|other| other.places.is_empty()) {
            return None;
        }
        let texts = |from: &[Head]| from.iter().map(|other| w.plain(other.places[0]..other.end)).collect::<Vec<_>>();
        let last = others.last()?;
        let has_amount = w.at(last.places[0]).is_some_and(|token| token.is_number());
        let joined =
            |from: usize| Head { places: first.places.iter().chain(&last.places[from..]).copied().collect(), end: last.end, joined: true };
        let alone = self.known(first, stated);
        if !has_amount {
            for from in 1..last.places.len() {
                let together = joined(from);
                // The name must hold words of both sides: "almond milk" of "almond or soy milk".
                let known = self.joined(&together, first.places.len(), stated);
                if let Some(found) = known.filter(|found| alone.as_ref().is_none_or(|alone| alone.known != found.known)) {
                    return Some(Resolved::one_of(found, texts(others)));
                }
            }
        }
        if let Some(mut found) = alone {
            // "200 g lentils or 1 tin"
            found.tinned |= others.iter().any(|other| says_tin(w, other.places[0]..other.end));
            return Some(Resolved::one_of(found, texts(others)));
        }
        let describes = self.describes_only_words(first);
        if has_amount && let Some(mut found) = self.lent_a_noun(first, last, stated) {
            found.tinned |= others.iter().any(|other| says_tin(w, other.places[0]..other.end));
            return Some(Resolved::one_of(found, texts(others)));
        }
        if describes && last.places.len() > 1 && !has_amount {
            return self.resolve_one(&joined(1), stated).map(|found| Resolved::one_of(found, texts(others)));
        }
        if !has_amount
            && last.places.len() > 1
            && let Some(found) = self.variety(&joined(last.places.len() - 1), stated)
        {
            return Some(Resolved::one_of(found, texts(others)));
        }
        // "Cassia bark or cinnamon": either does, and the second is known.
        for (index, other) in others.iter().enumerate().filter(|_| !describes) {
            if let Some(found) = self.known(other, stated).filter(|_| !has_amount) {
                let mut instead = texts(&options);
                instead.remove(index + 1);
                return Some(Resolved::one_of(found, instead));
            }
        }
        self.unknown(first, stated).map(|found| Resolved::one_of(found, texts(others)))
    }

    /// "1 tsp dried or 1 tbsp fresh thyme leaves": dried thyme; the second lends its noun.
    fn lent_a_noun(&self, first: &Head, last: &Head, stated: Stated) -> Option<Found> {
        let end = self.measure(*last.places.first()?, false).ok()?.end;
        let noun: Vec<usize> = last.places.iter().copied().filter(|place| *place >= end).collect();
        (0..noun.len()).find_map(|from| {
            let places = first.places.iter().chain(&noun[from..]).copied().collect();
            let together = Head { places, end: last.end, joined: true };
            // "2 cups cooked or 1 tin chickpeas": what stands before the "or" only describes.
            if self.describes_only_words(first) {
                self.known(&together, stated)
            } else {
                self.joined(&together, first.places.len(), stated)
            }
        })
    }

    fn joined(&self, together: &Head, first: usize, stated: Stated) -> Option<Found> {
        let boundary = *together.places.get(first)?;
        let last_of_first = *together.places.get(first.checked_sub(1)?)?;
        self.known(together, stated).filter(|found| found.name.start <= last_of_first && found.name.end > boundary)
    }

    fn resolve_one(&self, head: &Head, stated: Stated) -> Option<Found> {
        self.known(head, stated).or_else(|| self.unknown(head, stated))
    }

    /// The parts of a head between "or"s.
    fn options(&self, head: &Head) -> Vec<Head> {
        let w = self.w;
        let mut options = Vec::new();
        let mut places = Vec::new();
        let from = head.places.first().copied().unwrap_or(head.end);
        let mut at = from;
        let either = (from..head.end).any(|at| w.is(at, "or"));
        while at < head.end {
            let slash =
                w.kind(at) == Some(Kind::Slash) && w.kind(at.wrapping_sub(1)) == Some(Kind::Word) && w.kind(at + 1) == Some(Kind::Word);
            let and_or = w.is(at, "and") && w.kind(at + 1) == Some(Kind::Slash) && w.is(at + 2, "or");
            // "red, yellow or orange peppers"
            let colours = |places: &[usize]| places.iter().all(|place| class_of(w, *place) == Some(Class::Inside));
            let comma = either && w.kind(at) == Some(Kind::Comma) && !places.is_empty() && colours(&places) && !w.is(at + 1, "or");
            if w.is(at, "or") || slash || and_or || comma {
                options.push(Head { places: std::mem::take(&mut places), end: at, joined: false });
                at += if and_or { 3 } else { 1 };
                continue;
            }
            if head.places.contains(&at) {
                places.push(at);
            }
            at += 1;
        }
        options.push(Head { places, end: head.end, joined: false });
        options
    }

    fn describes_only_words(&self, head: &Head) -> bool {
        head.places.iter().all(|at| super::vocabulary::class(self.w, *at..head.end).is_some())
    }

    /// "Salt and pepper", "red and green peppers", "red, yellow and green peppers": every part is a known food.
    fn both(&self, head: &Head, stated: Stated) -> Option<Resolved> {
        let w = self.w;
        let is_and = |at: usize| w.is(at, "and") || w.kind(at) == Some(Kind::And);
        let many = head.places.len();
        let mut parts: Vec<Range<usize>> = Vec::new();
        let mut from = 0;
        for index in 1..many {
            let colours = || head.places[from..index].iter().all(|at| class_of(w, *at) == Some(Class::Inside));
            let comma = w.kind(head.places[index] - 1) == Some(Kind::Comma);
            let and = is_and(head.places[index]) && index + 1 < many;
            if index > from && (and || comma && colours()) {
                parts.push(from..index);
                from = index + usize::from(and);
            }
        }
        if parts.is_empty() {
            return None;
        }
        parts.push(from..many);
        let mut founds = Vec::new();
        for Range { start: from, end: to } in parts {
            let last = to == many;
            let part = Head { places: head.places[from..to].to_vec(), end: if last { head.end } else { head.places[to] }, joined: false };
            let found = self.known(&part, stated).filter(|found| last || found.trailing.is_empty());
            let with_noun = || {
                let noun = Head { places: part.places.iter().chain(head.places.last()).copied().collect(), end: head.end, joined: true };
                self.joined(&noun, part.places.len(), stated).filter(|_| !last)
            };
            founds.push(found.or_else(with_noun)?);
        }
        Some(Resolved { founds, ..Resolved::default() })
    }

    /// "Salt, pepper and lemon juice to taste": parts that are foods, of a line without an amount of its own or with one of each.
    fn listed(&self, resolved: &mut Resolved, parts: &mut Parts, stated: Stated) {
        let is_known = resolved.founds.iter().all(|found| found.known.is_some());
        // "Salt to taste, ½ tsp turmeric"
        if stated.is_none()
            && is_known
            && let Some(first) = parts.ranges.first().map(|range| range.start)
            && self.own_from(resolved, parts, first)
        {
            return;
        }
        let is_known = is_known && resolved.founds.iter().all(|found| found.trailing.is_empty());
        let mut passed = 0;
        while is_known && let Some(range) = parts.ranges.get(passed).cloned() {
            let mut range = range;
            if self.w.is(range.start, "and") {
                range.start += 1;
            }
            // "Salt, to taste, and plenty of black pepper".
            if stated.is_none() && super::parts::is_to_taste(self.w, range.clone()) {
                passed += 1;
                continue;
            }
            if let Some((after, false)) =
                super::vocabulary::vague(self.w, range.start).filter(|(after, _)| *after < range.end && passed > 0)
            {
                range.start = after;
            }
            // "Salt, a pinch of nutmeg": from here on each has an amount of its own.
            if stated.is_none() && self.own_from(resolved, parts, range.start) {
                return;
            }
            let and = (range.start + 1..range.end).find(|at| self.joins(*at)).filter(|_| stated.is_none());
            if let Some(and) = and
                && let Some(found) = self.known(&Head::of(self.w, range.start..and), stated)
                && self.own_from(resolved, parts, and + 1)
            {
                resolved.founds.push(found);
                return;
            }
            let head = Head::of(self.w, range);
            let more = match self.known(&head, stated) {
                Some(found) => vec![found],
                None => match self.both(&head, stated) {
                    Some(both) => both.founds,
                    None => return,
                },
            };
            let ends = more.last().is_some_and(|last| !last.trailing.is_empty());
            resolved.founds.extend(more);
            parts.ranges.remove(passed);
            if ends {
                return;
            }
        }
    }

    /// Takes the rest of the line where an amount and a food begin at a place.
    fn own_from(&self, resolved: &mut Resolved, parts: &mut Parts, at: usize) -> bool {
        let Some(other) = self.another(at) else { return false };
        let known_already = |line: &Line| resolved.founds.iter().any(|found| found.food == line.of.to_string());
        if other.lines.iter().any(known_already) {
            return false;
        }
        resolved.extra.extend(other.lines);
        parts.ranges.clear();
        parts.brackets.retain(|bracket| *bracket < at);
        true
    }
}
