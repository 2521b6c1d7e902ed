//! How one line of a recipe or a meal is said: its amount as the cook weighs it on the board, and its food in the right number.
//!
//! Pieces are printed with what is left of them after trimming ("3 onions (330 g)"), so that other sizes do as well; eggs only where one
//! has to be parted. Knows a line and its food; no step, no making.

use super::board::{is_cut, is_loose};
use crate::foods::{Food, Foods, Item, Kind, Measured, State, as_purchased, in_form_with_facts};
use crate::kitchen::asked::{by_hand, graded, is_dry};
use crate::kitchen::much::{is_several, part_of_a_bulb, said_once};
use crate::kitchen::{Ingredient, Kitchen, Print, Recipe, Rules, Wanted};
use crate::measure::{Amount, Dimension, Number, Quantity, Spoons, Unit, Units, Word, show, show_in_spoons, steps_up};
use crate::words::{in_a_sentence, plural};

/// As [`amount_and_food`], in the words that the line and the text before it ask for; `before` is the step so far, without its foods.
pub(super) fn said_of_a_line(kitchen: &Kitchen, one: &Ingredient, share: Option<&Amount>, batches: f64, before: &str) -> String {
    if let Some(diced) = still_to_be_cut(kitchen, one, share, batches, before) {
        return diced;
    }
    let said = said(kitchen, one, share, batches);
    if ["juice of ", "zest of ", "rind of ", "yolks of ", "whites of "].iter().any(|part| before.ends_with(part)) {
        return said.whole;
    }
    if let Some(part) = part_taken(one, share).filter(|_| !is_worked_on(before)) {
        return format!("the {part} of {}", said.whole);
    }
    // Inside a bracket the weight follows a comma: "the vegetables (2 turnips, 300 g; 4 carrots, 275 g)".
    let inside = before.matches('(').count() > before.matches(')').count();
    match said.weight {
        Some(weight) if inside => format!("{}, {weight}", said.whole),
        _ => said.text(),
    }
}

/// "juice", "finely grated zest and juice": what alone is used of whole fruit, by the line's own words.
fn part_taken(one: &Ingredient, share: Option<&Amount>) -> Option<String> {
    let Wanted::Food { item: Some(item), .. } = &one.wanted else { return None };
    let is_counted = share.unwrap_or(&item.amount).unit == Unit::Piece;
    one.prep.as_deref().filter(|prep| is_counted && only_part_of(prep)).map(as_part)
}

/// Does the text right before it work on the whole fruit: "squeeze", "halve"?
fn is_worked_on(before: &str) -> bool {
    const WORK: [&str; 14] =
        ["squeeze", "juice", "zest", "grate", "halve", "slice", "cut", "peel", "quarter", "wash", "scrub", "prick", "roll", "chop"];
    let sentence = before.rsplit(['.', ';']).next().unwrap_or_default().to_lowercase();
    sentence.split_whitespace().rev().take(6).any(|word| WORK.contains(&word.trim_matches(',')))
}

/// "535 g potatoes (400 g diced)" where the line weighs it cut and the step is what cuts it.
fn still_to_be_cut(kitchen: &Kitchen, one: &Ingredient, share: Option<&Amount>, batches: f64, before: &str) -> Option<String> {
    let Wanted::Food { food, item: Some(item) } = &one.wanted else { return None };
    let State::Prepared(form) = &item.state else { return None };
    let verb = form.rsplit(' ').next().unwrap_or_default().strip_suffix("ed")?;
    let doubled = verb.strip_suffix(|last| verb.chars().rev().nth(1) == Some(last)).unwrap_or(verb);
    let words = before.rsplit(['.', ';']).next().unwrap_or_default().to_lowercase();
    let is_verb = |word: &str| word == verb || word == doubled || word.strip_suffix('e') == Some(verb);
    if !words.split(|c: char| !c.is_alphabetic()).any(is_verb) || share.is_some() {
        return None;
    }
    let (units, spoons) = (kitchen.print.units, kitchen.rules.spoons);
    let facts = &kitchen.foods[*food];
    let bought = as_purchased(facts, &item.scaled(batches), &Dimension::Mass, spoons).ok()?;
    let cut = show(&item.amount.scaled(batches).most(spoons), units);
    Some(format!("{} {} ({cut} {form})", show(&bought, units), name_in_line(facts, one, 2.0)))
}

/// "40 g feta", "2 portions pearl barley, warm": a line of a meal with its amount, so many times.
pub fn line_text(kitchen: &Kitchen, line: &Ingredient, times: f64) -> String {
    let prep = line.prep.as_ref().map_or_else(String::new, |prep| format!(", {prep}"));
    format!("{}{prep}", amount_and_food(kitchen, line, None, times))
}

/// What a meal adds: "juice of 1 lemon", "2 red peppers (330 g), sliced".
pub(super) fn added_text(kitchen: &Kitchen, line: &Ingredient, times: f64) -> String {
    match part_taken(line, None) {
        Some(part) => format!("{part} of {}", said(kitchen, line, None, times).whole),
        None => {
            let prep = line.prep.as_ref().filter(|prep| !only_part_of(prep)).map_or_else(String::new, |prep| format!(", {prep}"));
            format!("{}{prep}", amount_and_food(kitchen, line, None, times))
        }
    }
}

/// "60 ml", "3", "2 (400 g)", "2–3 cloves": a line's amount without its food; empty for "to taste".
pub(super) fn amount_alone(kitchen: &Kitchen, one: &Ingredient, batches: f64) -> String {
    let units = kitchen.print.units;
    match &one.wanted {
        Wanted::Food { item: None, .. } => String::new(),
        Wanted::Food { food, item: Some(item) } => {
            let plus = plus_text(kitchen, item, &kitchen.foods[*food], batches);
            let weight = weight_beside(&kitchen.print, &kitchen.rules, &kitchen.foods[*food], &item.scaled(batches), one.prep.as_deref());
            let asked = Item { plus: Vec::new(), ..item.clone() }.scaled(batches);
            let much = much_in_line(kitchen, one, &kitchen.foods[*food], &asked);
            let whole = format!("{much}{}{plus}", container_size(&item.amount, item, batches, units));
            Said { whole, weight }.text()
        }
        Wanted::Recipe { amount, most, .. } => span(&amount.scaled(batches), &most.scaled(batches), units),
    }
}

/// "large onions, diced": a line's food without its amount, as for so many batches.
pub(super) fn name_alone(foods: &Foods, recipes: &[Recipe], one: &Ingredient, batches: f64) -> String {
    let name = match &one.wanted {
        Wanted::Food { food, item: Some(item) } => {
            let many = if item.amount.unit == Unit::Piece { item.amount.high.to_f64() * batches } else { 0.0 };
            let name = name_in_line(&foods[*food], one, many);
            format!("{}{}", describe(item), without_container(&name, item.amount.unit))
        }
        Wanted::Food { .. } | Wanted::Recipe { .. } => plain_name(foods, recipes, one),
    };
    let prep = one.prep.iter().map(|prep| format!(", {prep}"));
    let said = one.prep.as_deref().is_some_and(|prep| prep.contains(crate::telling::list::OPTIONAL));
    let optional = (one.optional && !said).then(|| format!(" ({})", crate::telling::list::OPTIONAL));
    let instead = one.instead.iter().map(|instead| format!(" (or {instead})"));
    [name].into_iter().chain(prep).chain(instead).chain(optional).collect()
}

/// "60 ml olive oil", "3 large onions (330 g trimmed)", "2 tins (400 g) white beans", "200 g herb yoghurt".
pub(super) fn amount_and_food(kitchen: &Kitchen, one: &Ingredient, share: Option<&Amount>, batches: f64) -> String {
    said(kitchen, one, share, batches).text()
}

/// An amount of a food in words, apart from what its pieces weigh.
struct Said {
    whole: String,
    /// "330 g trimmed".
    weight: Option<String>,
}

impl Said {
    fn text(self) -> String {
        let weight = self.weight.map(|weight| format!(" ({weight})")).unwrap_or_default();
        self.whole + &weight
    }
}

impl From<String> for Said {
    fn from(whole: String) -> Said {
        Said { whole, weight: None }
    }
}

fn said(kitchen: &Kitchen, one: &Ingredient, share: Option<&Amount>, batches: f64) -> Said {
    let units = kitchen.print.units;
    let shown = |amount: &Amount| shown(&kitchen.print, &kitchen.rules, &amount.scaled(batches));
    match &one.wanted {
        Wanted::Food { food, item: None } => {
            let share = share.map(|share| format!("{} ", shown(share))).unwrap_or_default();
            format!("{share}{}", name_in_line(&kitchen.foods[*food], one, 0.0)).into()
        }
        Wanted::Food { food, item: Some(item) } => {
            let amount = share.unwrap_or(&item.amount);
            let part_in_cloves = || part_of_a_bulb(&kitchen.foods[*food], &amount.scaled(batches));
            if item.plus.is_empty()
                && item.size.is_none()
                && let Some(cloves) = part_in_cloves()
            {
                let name = name_in_line(&kitchen.foods[*food], one, 0.0);
                return format!("{} {}", show(&cloves, units), without_container(&name, amount.unit)).into();
            }
            let size = container_size(amount, item, batches, units);
            let plus = if share.is_none() { plus_text(kitchen, item, &kitchen.foods[*food], batches) } else { String::new() };
            let described = describe(item);
            let many = if amount.unit == Unit::Piece { amount.high.to_f64() * batches } else { 0.0 };
            let name = name_in_line(&kitchen.foods[*food], one, many);
            let scaled = Item { amount: amount.clone(), ..item.clone() }.scaled(batches);
            let weight = weight_beside(&kitchen.print, &kitchen.rules, &kitchen.foods[*food], &scaled, one.prep.as_deref());
            let asked = Item { amount: amount.clone(), plus: Vec::new(), ..item.clone() }.scaled(batches);
            let much = much_in_line(kitchen, one, &kitchen.foods[*food], &asked);
            let name = without_container(&name, amount.unit);
            if let (Unit::Word(word), None) = (amount.unit, sized_word(one, item, amount))
                && let Some(name) = said_once(&much, word.singular(), name)
            {
                return format!("{name}{plus}").into();
            }
            match sized_word(one, item, amount) {
                // "1 small bunch coriander", "1 bunch coriander, small": as it was typed.
                Some((size, true)) => format!("{}{plus} {name}", much.replacen(' ', &format!(" {size} "), 1)).into(),
                Some((size, false)) => format!("{much}{plus} {name}, {size}").into(),
                None => match size_beside(one, item, amount) {
                    // "1 red cabbage (900 g)", as it was typed.
                    Some(size) => {
                        let each = if many > 1.0 { " each" } else { "" };
                        let weight = Some(format!("{}{each}", show(size, units)));
                        Said { whole: format!("{much}{plus} {described}{name}"), weight }
                    }
                    None => Said { whole: format!("{much}{size}{plus} {described}{name}"), weight },
                },
            }
        }
        Wanted::Recipe { recipe, amount, most } => {
            let name = in_a_sentence(&kitchen.recipes[*recipe].name);
            match share {
                Some(share) => format!("{} {name}", shown(share)).into(),
                None => format!("{} {name}", span(&amount.scaled(batches), &most.scaled(batches), units)).into(),
            }
        }
    }
}

/// A line's own amount, as a cook weighs it, counts it or takes it by hand.
fn much_in_line(kitchen: &Kitchen, one: &Ingredient, food: &Food, asked: &Item) -> String {
    let (print, rules) = (&kitchen.print, &kitchen.rules);
    weighed(print, rules, food, asked).unwrap_or_else(|| shown(print, rules, &handy(one, food, asked.amount.clone())))
}

/// " plus 40 g": what comes on top, measured as the food itself is.
fn plus_text(kitchen: &Kitchen, item: &Item, food: &Food, batches: f64) -> String {
    let (print, rules) = (&kitchen.print, &kitchen.rules);
    let one = |more: &Amount| {
        let alone = Item { amount: more.clone(), plus: Vec::new(), ..item.clone() }.scaled(batches);
        format!(" plus {}", weighed(print, rules, food, &alone).unwrap_or_else(|| shown(print, rules, &alone.amount)))
    };
    item.plus.iter().map(one).collect()
}

fn shown(print: &Print, rules: &Rules, amount: &Amount) -> String {
    let (least, most) = (amount.least(rules.spoons), amount.most(rules.spoons));
    // Both ends in spoons, or none: "60–90 ml" rather than "4 tbsp to 90 ml".
    let said = |end: &Quantity| match show_in_spoons(&most, rules.spoons) {
        Some(_) => in_spoons(print, rules, end),
        None => show(end, print.units),
    };
    between(said(&least), said(&most), &most)
}

/// Nobody takes five eighths of a pinch, of a lemon's juice or of a cherry tomato.
pub(super) fn handy(one: &Ingredient, food: &Food, amount: Amount) -> Amount {
    let by = |step: &dyn Fn(&Number) -> Number| Amount { low: step(&amount.low), high: step(&amount.high), unit: amount.unit };
    match amount.unit {
        Unit::Word(word) if is_loose(word) => by(&|number| by_hand(number, word.singular())),
        Unit::Word(Word::Leaf) => by(&|number| steps_up(number, &Number::ONE)),
        Unit::Piece if one.prep.as_deref().is_some_and(only_part_of) => by(&|number| by_hand(number, "")),
        Unit::Piece if is_small(food) => by(&|number| steps_up(number, &Number::ONE)),
        _ => amount,
    }
}

/// Grams of a piece under which nobody parts it: a cherry tomato, a bay leaf. Common practice, no source.
const SMALL: f64 = 30.0;

fn is_small(food: &Food) -> bool {
    match food.each.as_ref().map(|each| &each.value) {
        Some(Measured::Single(grams)) => *grams < SMALL,
        Some(Measured::Table(sizes)) => sizes.get("medium").is_some_and(|grams| *grams < SMALL),
        None => false,
    }
}

/// Spoons up to four tablespoons, else as it is shown everywhere.
fn in_spoons(print: &Print, rules: &Rules, amount: &Quantity) -> String {
    let units = print.units;
    let spoons = (units == Units::Metric).then(|| show_in_spoons(amount, rules.spoons)).flatten();
    spoons.unwrap_or_else(|| show(amount, units))
}

/// A dry food that is measured by volume, above four tablespoons: in grams of what is poured, where its weight is known.
fn weighed(print: &Print, rules: &Rules, food: &Food, item: &Item) -> Option<String> {
    let spoons = rules.spoons;
    let poured = item.amount.most(spoons);
    let is_small = show_in_spoons(&poured, spoons).is_some();
    let is_dry = food.kind.is_some_and(is_dry);
    if print.units != Units::Metric || !is_dry || is_small || !matches!(poured, Quantity::Volume(_)) || item.amount.is_range() {
        return None;
    }
    let (grams, _) = in_form_with_facts(food, item, &Dimension::Mass, &item.state, spoons).ok()?;
    Some(show(&grams, Units::Metric))
}

/// Fruit that is sliced with the peel on, whatever a table of edible shares leaves of it. Common practice, no source.
const EATEN_WITH_PEEL: [&str; 3] = ["lemon", "lime", "orange"];

/// "330 g trimmed" beside a number of pieces: what is left of them to cook, so that other sizes do as well; as bought where they are
/// cooked whole: "1.8 kg". Of eggs only where one has to be parted: "125 g beaten".
fn weight_beside(print: &Print, rules: &Rules, food: &Food, item: &Item, prep: Option<&str>) -> Option<String> {
    let counted = item.amount.unit == Unit::Piece && item.size.is_none() && item.plus.is_empty() && !item.amount.is_range();
    let counted = counted && prep.is_none_or(|prep| !only_part_of(prep));
    let is_egg = food.kind == Some(Kind::RawEgg);
    if !counted || (is_egg && (item.amount.high.round() - &item.amount.high).abs() < Number::over(1, 100)) {
        return None;
    }
    let bought = as_purchased(food, item, &Dimension::Mass, rules.spoons).ok()?;
    let edible = food.eaten_share(item);
    let cut = prep.filter(|prep| is_cut(prep)).filter(|_| edible < 1.0 && !EATEN_WITH_PEEL.contains(&food.name.as_str()));
    let (much, of) = match cut {
        _ if is_egg => (bought.scaled(edible), " beaten"),
        Some(prep) if prep.contains("peeled") => (bought.scaled(edible), " peeled"),
        Some(_) => (bought.scaled(edible), " trimmed"),
        None => (bought, ""),
    };
    Some(format!("{}{of}", show(&much, print.units)))
}

/// "juice", "zest and juice": no more of a fruit than that.
pub(super) fn only_part_of(prep: &str) -> bool {
    const BESIDE: [&str; 7] = ["finely", "grated", "and", "freshly", "squeezed", "only", "its"];
    let words = || prep.split(|c: char| !c.is_alphabetic()).filter(|word| !word.is_empty());
    let part = |word: &str| ["juice", "zest", "rind"].iter().any(|part| word == *part || word.strip_suffix('d') == Some(part));
    let part = |word: &str| part(word) || word == "zested";
    words().any(part) && words().all(|word| part(word) || BESIDE.contains(&word))
}

/// "juiced" is the juice, "zested" the zest.
fn as_part(prep: &str) -> String {
    prep.replace("juiced", "juice").replace("zested", "zest")
}

/// "small" of a small bunch, and whether the line says it before the word.
fn sized_word(one: &Ingredient, item: &Item, amount: &Amount) -> Option<(&'static str, bool)> {
    let Unit::Word(word) = amount.unit else { return None };
    let size = graded(item.grade?);
    (item.size.is_none() && item.state == State::AsPurchased).then(|| (size, one.text.contains(&format!("{size} {word}"))))
}

/// A number of tins need not say that what is in them is tinned.
pub(super) fn without_container(name: &str, unit: Unit) -> &str {
    if unit == Unit::Word(Word::Tin) { name.strip_prefix("tinned ").unwrap_or(name) } else { name }
}

pub(super) fn plain_name(foods: &Foods, recipes: &[Recipe], one: &Ingredient) -> String {
    match &one.wanted {
        Wanted::Food { food, .. } => name_in_line(&foods[*food], one, 0.0),
        Wanted::Recipe { recipe, .. } => in_a_sentence(&recipes[*recipe].name),
    }
}

/// "large ", "diced ", "cooked ": what the amount is of.
fn describe(item: &Item) -> String {
    let grade = item.grade.map_or_else(String::new, |grade| format!("{} ", graded(grade)));
    let state = match &item.state {
        State::AsPurchased => String::new(),
        State::Prepared(form) => format!("{form} "),
        State::Cooked => "cooked ".into(),
        State::Drained => "drained ".into(),
    };
    format!("{grade}{state}")
}

/// " (400 g)" after a number of tins, jars or packets; " × 400 g" after a bare number.
fn container_size(amount: &Amount, item: &Item, batches: f64, units: Units) -> String {
    match (&item.size, amount.unit) {
        (Some(size), Unit::Piece) if item.amount.unit == Unit::Piece => format!(" × {}", show(size, units)),
        // Of tins the size of one; of handfuls, which have none, what all of them weigh.
        (Some(size), unit @ Unit::Word(word)) if item.amount.unit == unit && is_loose(word) => {
            format!(" ({})", show(&size.scaled(amount.high.to_f64() * batches), units))
        }
        (Some(size), unit @ Unit::Word(_)) if item.amount.unit == unit => format!(" ({})", show(size, units)),
        _ => String::new(),
    }
}

/// One amount, or both ends of a range: "60–90 ml", "2–3 cloves", "900 g to 1.2 kg".
pub(super) fn span(least: &Quantity, most: &Quantity, units: Units) -> String {
    between(show(least, units), show(most, units), most)
}

pub(super) fn between(low: String, high: String, most: &Quantity) -> String {
    if low == high {
        return high;
    }
    let split =
        |text: &str| text.split_once([' ', '\u{a0}']).map_or((text.to_owned(), String::new()), |(n, u)| (n.to_owned(), u.to_owned()));
    let ((number, unit), (_, unit_of_most)) = (split(&low), split(&high));
    let words = matches!(most, Quantity::Words(..) | Quantity::Count(_) | Quantity::Portions(_));
    if words || unit == unit_of_most { format!("{number}–{high}") } else { format!("{low} to {high}") }
}

/// The size of one piece, where the line says it in brackets and not as "2 × 400 g".
fn size_beside<'i>(one: &Ingredient, item: &'i Item, amount: &Amount) -> Option<&'i Quantity> {
    let times = |word: &str| word == "×" || word.eq_ignore_ascii_case("x");
    let pieces = amount.unit == Unit::Piece && item.amount.unit == Unit::Piece;
    item.size.as_ref().filter(|_| pieces && one.text.contains('(') && !one.text.split_whitespace().any(times))
}

/// The food's name, in the plural where the line says so.
pub(super) fn plural_in_line(food: &Food, one: &Ingredient) -> String {
    let weight = match &one.wanted {
        Wanted::Food { item: Some(item), .. } => as_purchased(food, item, &Dimension::Mass, Spoons::Us).ok(),
        _ => None,
    };
    let several = weight.is_some_and(|weight| is_several(food, weight.base()));
    name_in_line(food, one, if several { 2.0 } else { 0.0 })
}

/// The food's name, in the plural where there is more than one piece of it or where the line itself says so.
fn name_in_line(food: &Food, one: &Ingredient, pieces: f64) -> String {
    let plural = plural(&food.name);
    let typed = one.text.to_lowercase().contains(&plural.to_lowercase());
    if pieces > 1.0 || (typed && pieces == 0.0) { plural } else { food.name.clone() }
}
