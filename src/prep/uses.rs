//! What each step handles of the session's foods, and how the lines of its dishes speak of them: fetching, in a cook's words.

use super::board::{is_cut, is_loose};
use super::cuts::first_handled;
use super::line_words::{only_part_of, plural_in_line};
use super::{Doing, Said, Task};
use crate::foods::{Food, FoodId, Foods, Item, Kind, State, as_purchased};
use crate::kitchen::asked::{Asked, graded, is_dry};
use crate::kitchen::much::said_once;
use crate::kitchen::{Ingredient, Kitchen, Print, Rules, Wanted, Ware};
use crate::measure::{Amount, Dimension, Number, Quantity, Spoons, Unit, Units, show, show_in_spoons};
use crate::plan::Making;
use crate::words::plural;

/// What a step, or a round of it, is the first to handle: each with its amount in grams where that is known, else in its own measure.
pub(super) fn first_uses(kitchen: &Kitchen, making: &Making, step: usize, share: &Number) -> Vec<(Ware, f64)> {
    let recipe = &kitchen.recipes[making.recipe];
    let taken = making.taken(&kitchen.foods, recipe);
    let used = first_handled(recipe, step).into_iter().map(|(index, one, part)| {
        let times = taken[index].to_f64() * share.to_f64();
        (one.ware(), measured(&kitchen.foods, &kitchen.rules, one, part) * times)
    });
    used.collect()
}

fn measured(foods: &Foods, rules: &Rules, one: &Ingredient, part: Option<&Amount>) -> f64 {
    match &one.wanted {
        Wanted::Recipe { amount, .. } => amount.base(),
        Wanted::Food { item: None, .. } => 0.0,
        Wanted::Food { food, item: Some(item) } => {
            let item = Item { amount: part.unwrap_or(&item.amount).clone(), ..item.clone() };
            let spoons = rules.spoons;
            as_purchased(&foods[*food], &item, &Dimension::Mass, spoons).unwrap_or_else(|_| item.amount.most(spoons)).base()
        }
    }
}

/// Turns the amounts of [`first_uses`] into shares of what the whole session uses.
pub(super) fn shared_out<'t>(tasks: impl Iterator<Item = &'t mut Task>) {
    let mut steps: Vec<&mut Vec<(Ware, f64)>> =
        tasks.filter_map(|task| if let Doing::Step(step) = &mut task.what { Some(&mut step.uses) } else { None }).collect();
    let all: Vec<(Ware, f64)> = steps.iter().flat_map(|uses| uses.iter().copied()).collect();
    let whole = |ware: Ware| all.iter().filter(|(of, _)| *of == ware).map(|(_, amount)| amount).sum::<f64>();
    for (ware, amount) in steps.iter_mut().flat_map(|uses| uses.iter_mut()) {
        let whole = whole(*ware);
        *amount = if whole > 0.0 { *amount / whole } else { 1.0 };
    }
}

/// How the lines of the dishes speak of each food, where they do so in one way.
pub(super) fn said<'m>(kitchen: &Kitchen, makings: impl Iterator<Item = &'m Making>) -> Vec<Said> {
    let mut lines: Vec<(FoodId, Vec<Line>)> = Vec::new();
    for making in makings {
        let recipe = &kitchen.recipes[making.recipe];
        for (one, times) in recipe.ingredients.iter().zip(making.taken(&kitchen.foods, recipe)) {
            let Wanted::Food { food, item: Some(item) } = &one.wanted else { continue };
            let asked = Line { one, item: item.scaled(times) };
            match lines.iter_mut().find(|(of, _)| of == food) {
                Some((_, all)) => all.push(asked),
                None => lines.push((*food, vec![asked])),
            }
        }
    }
    let one = |(food, all): &(FoodId, Vec<Line>)| {
        let (known, of) = (&kitchen.foods[*food], Ware::Food(*food));
        let name = all.first().map_or_else(|| known.name.clone(), |asked| plural_in_line(known, asked.one));
        let Spoken { words, counted, poured } = spoken(&kitchen.print, &kitchen.rules, known, all).unwrap_or_default();
        Said { of, name, words, counted, poured }
    };
    lines.iter().map(one).collect()
}

/// A line of a dish, with its amount for the making.
struct Line<'k> {
    one: &'k Ingredient,
    item: Item,
}

/// All lines of one food, spoken of in one way.
#[derive(Default)]
struct Spoken {
    words: Option<String>,
    counted: Option<Quantity>,
    poured: Option<(Quantity, Spoons)>,
}

fn spoken(print: &Print, rules: &Rules, known: &Food, all: &[Line]) -> Option<Spoken> {
    let first = &all.first()?.item;
    if all.iter().any(|line| !line.item.plus.is_empty() || line.item.size != first.size) {
        return None;
    }
    let asked: Option<Vec<Asked>> = all.iter().map(|line| Asked::of(&line.item, rules.spoons)).collect();
    let asked = asked.and_then(|all| Asked::sum(all.iter()));
    match first.amount.unit {
        unit if all.iter().any(|asked| asked.item.amount.unit != unit) => in_one_measure(print, rules, known, all),
        Unit::Piece if first.size.is_none() => {
            let Asked { much: count, grade, .. } = asked?.whole();
            let number = count.exact().clone();
            let name = if number > 1 { plural(&known.name) } else { known.name.clone() };
            let weight = weight_as_bought(print, rules, known, all, &number).map_or_else(String::new, |weight| format!(", {weight}"));
            let sized = grade.map_or_else(String::new, |grade| format!("{} ", graded(grade)));
            let words = format!("{} {sized}{name}{weight}", show(&count, print.units));
            Some(Spoken { words: Some(words), counted: Some(count), poured: None })
        }
        Unit::Word(word) => {
            let count = if is_loose(word) { asked?.loosely().much } else { asked?.whole().much };
            let number = count.exact().clone();
            let name = super::line_words::without_container(&known.name, first.amount.unit);
            let name = match &first.size {
                Some(size) if is_loose(word) => {
                    let name = plural_in_line(known, all.first()?.one);
                    format!(" ({}) {name}", show(&size.scaled(number.to_f64()), print.units))
                }
                Some(size) => format!(" ({}) {name}", show(size, print.units)),
                None if is_loose(word) => format!(" of {}", plural_in_line(known, all.first()?.one)),
                None => format!(" of {name}"),
            };
            let shown = show(&count, print.units);
            let once = said_once(&shown, word.singular(), &known.name).filter(|_| first.size.is_none());
            let words = once.unwrap_or_else(|| format!("{shown}{name}"));
            Some(Spoken { words: Some(words), counted: Some(count), poured: None })
        }
        _ => in_one_measure(print, rules, known, all),
    }
}

/// Volumes: spoons up to four tablespoons, above that what is poured, in the units of the sheets. What is dry is weighed.
fn in_one_measure(print: &Print, rules: &Rules, food: &Food, all: &[Line]) -> Option<Spoken> {
    let (units, spoons) = (print.units, rules.spoons);
    let volumes = all.iter().map(|asked| match asked.item.amount.most(spoons) {
        Quantity::Volume(_) if matches!(asked.item.state, State::AsPurchased) || units == Units::Us => Some(asked.item.amount.most(spoons)),
        _ => None,
    });
    let volumes: Vec<Quantity> = volumes.collect::<Option<_>>()?;
    let whole = volumes.into_iter().reduce(|sum, more| sum.plus(&more).unwrap_or(sum))?;
    if units == Units::Metric && food.kind.is_some_and(is_dry) && show_in_spoons(&whole, spoons).is_none() {
        return None;
    }
    let much = poured_out(&whole, spoons, units);
    let words = format!("{much} {}", plural_in_line(food, all.first()?.one));
    Some(Spoken { words: Some(words), counted: None, poured: Some((whole, spoons)) })
}

/// "2 tbsp", "75 ml": spoons up to four tablespoons, above that what is poured, in the units of the sheets.
pub(super) fn poured_out(whole: &Quantity, spoons: Spoons, units: Units) -> String {
    let small = (units == Units::Metric).then(|| show_in_spoons(whole, spoons)).flatten();
    small.unwrap_or_else(|| show(whole, units))
}

/// As bought, where nothing is cut away: "1.8 kg". Whatever is trimmed has its weight at its step.
fn weight_as_bought(print: &Print, rules: &Rules, food: &Food, all: &[Line], number: &Number) -> Option<String> {
    let whole = |asked: &Line| asked.one.prep.as_deref().is_none_or(|prep| !is_cut(prep) && !only_part_of(prep));
    if food.kind == Some(Kind::RawEgg) || !all.iter().all(whole) {
        return None;
    }
    let item = Item { amount: Amount { low: number.clone(), high: number.clone(), unit: Unit::Piece }, ..all.first()?.item.clone() };
    let weight = as_purchased(food, &item, &Dimension::Mass, rules.spoons).ok()?;
    Some(show(&weight, print.units))
}

#[cfg(test)]
mod tests;
