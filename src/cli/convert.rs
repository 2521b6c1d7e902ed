//! `convert LINE UNIT`: one conversion, with the facts used.
//!
//! The answer is what has to be bought, as everywhere; only a volume answers in the form that the line names, because a cup of what still
//! has its peel and stalks is no measure.
//!
//! `convert` answers as purchased, as every amount is that has to be bought, and says beside it what is left after
//! trimming, cooking or draining. Only a volume answers in the form that the line names: a cup of what still has its
//! peel is no measure. It and `food` read `kitchen.toml` and `foods.toml` alone, so that a mistake in a recipe does not
//! stand in the way.

use super::known::{self, Known};
use super::outcome::{Done, Failure, json, say};
use super::wrap::columns;
use super::{Cli, Format};
use crate::foods::{Food, Foods, Item, Measured, MissingFact, State, UsedFact, in_form_with_facts, unit_fact};
use crate::kitchen::{LineOf, read_line};
use crate::measure::{Amount, Dimension, Quantity, Spoons, Unit, read_amount, read_unit, tidy};

#[derive(Debug)]
struct Answer {
    /// As typed.
    from: String,
    /// So many of the unit that was asked for.
    amount: f64,
    unit: Unit,
    chain: Vec<UsedFact>,
    /// Of what, and in which form.
    remark: String,
}

pub fn run(cli: &Cli, line: &str, unit: &str) -> Done {
    let Known { foods, spoons } = known::read(cli)?;
    let Some(to) = read_unit(unit) else {
        let text = format!("\"{}\" is not a unit. Write one like g, kg, oz, lb, ml, l, tsp, tbsp, cup, each or clove.", unit.trim());
        return Err(Failure::Usage(text));
    };
    let answer = answer(line.trim(), to, &foods, spoons)?;
    match cli.format {
        Format::Json => say(&json(&crate::json::convert(&answer.from, answer.amount, unit_name(answer.unit), &answer.chain))?),
        Format::Text => say(&text(&answer)),
    }
}

fn answer(text: &str, to: Unit, foods: &Foods, spoons: Spoons) -> Result<Answer, Failure> {
    match read_line(text, foods, spoons) {
        Ok(line) => match &line.of {
            LineOf::Food { food, item: Some(item) } => of_food(text, food, item, line.prep.as_deref(), to, foods, spoons),
            LineOf::Food { item: None, .. } => {
                Err(Failure::Usage(format!("\"{text}\" has no amount that can be reckoned. Write a number before the food.")))
            }
            LineOf::Recipe { .. } => Err(Failure::Usage(format!("\"{text}\" is of a recipe. Only an amount of a food can be converted."))),
        },
        Err(error) => match read_amount(text) {
            Ok(amount) => of_no_food(text, &amount, to, spoons),
            Err(_) => Err(Failure::Usage(format!("cannot read \"{text}\": {}. {}.", error.cause, error.remedy.trim_end_matches('.')))),
        },
    }
}

/// How many of `unit` an amount in base units is.
fn number_of(base: f64, unit: Unit, spoons: Spoons) -> f64 {
    base / Amount::new(1.0, unit).most(spoons).base()
}

fn of_food(text: &str, name: &str, item: &Item, prep: Option<&str>, to: Unit, foods: &Foods, spoons: Spoons) -> Result<Answer, Failure> {
    let unknown = Food { name: name.to_owned(), unknown: true, ..Food::default() };
    let food = foods.find(name).map_or(&unknown, |id| &foods[id]);
    let dimension = Amount::new(1.0, to).most(spoons).dimension();
    let form = if dimension == Dimension::Volume { poured_form(food, item, prep) } else { State::AsPurchased };
    let lacking = |missing: MissingFact| {
        if food.unknown {
            return known::unknown(name, foods);
        }
        let MissingFact { what, key, .. } = missing;
        Failure::NotKnown(format!("cannot convert \"{text}\" to {}: {what}. Add {key} under {} in foods.toml.", unit_name(to), food.name))
    };
    let (quantity, mut chain) = in_form_with_facts(food, item, &dimension, &form, spoons).map_err(lacking)?;
    if let Some(size) = &item.size {
        let of_size = unit_of_size(text, size, spoons);
        of_size.into_iter().for_each(|unit| add_unit(&mut chain, unit, spoons));
    }
    add_unit(&mut chain, to, spoons);
    let stated = (form != item.state && dimension == Dimension::Mass).then_some(&item.state);
    let also = stated.and_then(|state| {
        let (weight, _) = in_form_with_facts(food, item, &dimension, state, spoons).ok()?;
        (weight != quantity).then(|| (number_of(weight.base(), to, spoons), state))
    });
    // "As purchased" says nothing of what is bought as it is eaten.
    let eaten_whole = !food.unknown && food.edible.is_none() && item.state == State::AsPurchased && form == item.state;
    let mut remark = if eaten_whole { format!(" {}", food.name) } else { format!(" {} {}", food.name, state_words(&form)) };
    if let Some((weight, state)) = also {
        remark.push_str(&format!(" ({} {})", counted(weight, to), state_words(state)));
    }
    if item.amount.is_range() {
        remark.push_str(", for the upper end of the range");
    }
    Ok(Answer { from: text.to_owned(), amount: tidy(number_of(quantity.base(), to, spoons)), unit: to, chain, remark })
}

/// The form in which a volume of this line is poured: the one it names, or, of a food of no such cup, the one it is cut into afterwards.
fn poured_form(food: &Food, item: &Item, prep: Option<&str>) -> State {
    match (&item.state, prep, food.cup.as_ref().map(|cup| &cup.value)) {
        (State::Prepared(form), _, _) => State::Prepared(form.clone()),
        (State::AsPurchased, Some(prep), Some(Measured::Table(forms))) if !forms.contains_key("whole") => {
            let named = prep.split(|c: char| !c.is_alphabetic()).find(|word| forms.contains_key(*word));
            named.map_or(State::AsPurchased, |form| State::Prepared(form.to_owned()))
        }
        _ => State::AsPurchased,
    }
}

/// "2 cups" in millilitres needs no food.
fn of_no_food(text: &str, amount: &Amount, to: Unit, spoons: Spoons) -> Result<Answer, Failure> {
    let (from, one) = (amount.most(spoons), Amount::new(1.0, to).most(spoons));
    if from.dimension() != one.dimension() {
        let text = format!("\"{text}\" to {} takes a food: write it after the amount, as in \"{text} onion\".", unit_name(to));
        return Err(Failure::NotKnown(text));
    }
    let mut chain = Vec::new();
    add_unit(&mut chain, amount.unit, spoons);
    add_unit(&mut chain, to, spoons);
    let amount = tidy(number_of(from.base(), to, spoons));
    Ok(Answer { from: text.to_owned(), amount, unit: to, chain, remark: String::new() })
}

fn add_unit(chain: &mut Vec<UsedFact>, unit: Unit, spoons: Spoons) {
    if unit.is_customary() {
        let (fact, value, source) = unit_fact(unit, spoons);
        let used = UsedFact { fact, value, source };
        if !chain.contains(&used) {
            chain.push(used);
        }
    }
}

/// The unit in which the line states the size of one, as ounces in "1 can (15 oz)": where the size stands among its words.
fn unit_of_size(text: &str, size: &Quantity, spoons: Spoons) -> Option<Unit> {
    let mut spaced = String::new();
    for letter in text.chars() {
        let parts = |last: char| last.is_numeric() != letter.is_numeric() && (last.is_alphabetic() || letter.is_alphabetic());
        if spaced.chars().last().is_some_and(parts) {
            spaced.push(' ');
        }
        spaced.push(if matches!(letter, '(' | ')' | '-' | '–') { ' ' } else { letter });
    }
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let stated = (2..=4).flat_map(|count| words.windows(count)).filter_map(|some| read_amount(&some.join(" ")).ok());
    stated.filter(|amount| amount.most(spoons) == *size).map(|amount| amount.unit).find(|unit| unit.is_customary())
}

/// The unit as JSON names it.
fn unit_name(unit: Unit) -> &'static str {
    if unit == Unit::Piece { "each" } else { unit.singular() }
}

fn state_words(state: &State) -> &str {
    match state {
        State::AsPurchased => "as purchased",
        State::Prepared(form) => form,
        State::Cooked => "cooked",
        State::Drained => "drained",
    }
}

/// Four digits: finer than any kitchen scale.
fn counted(amount: f64, unit: Unit) -> String {
    let places = (3 - amount.abs().max(1e-9).log10().floor() as i32).clamp(0, 12);
    let rounded = format!("{amount:.*}", places as usize);
    let number = if rounded.contains('.') { rounded.trim_end_matches('0').trim_end_matches('.') } else { &rounded };
    let word = match unit {
        Unit::Piece if number == "1" => "piece",
        Unit::Piece => "pieces",
        _ if number == "1" => unit.singular(),
        _ => unit.plural(),
    };
    format!("{number} {word}")
}

fn text(answer: &Answer) -> String {
    let to = counted(answer.amount, answer.unit);
    let rows: Vec<Vec<String>> = answer.chain.iter().map(|used| vec![used.fact.clone(), used.value.clone(), used.source.clone()]).collect();
    format!("{} = {to}{}\n{}", answer.from, answer.remark, columns(&rows, 2))
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;

    fn said(line: &str, unit: &str) -> String {
        let unit = read_unit(unit).expect("a unit");
        match answer(line, unit, &Foods::reference(), Spoons::Us) {
            Ok(answer) => text(&answer).lines().next().unwrap_or_default().to_owned(),
            Err(Failure::NotKnown(text) | Failure::Usage(text)) => text,
            Err(other) => panic!("{other:?}"),
        }
    }

    #[test]
    fn the_answer_is_what_has_to_be_bought_and_says_so() {
        // USDA SR 11282: a cup of chopped onion 160 g, 10 % refuse: 2 × 160 ÷ 0.9 = 355.6.
        assert_eq!(said("2 cups chopped onion", "g"), "2 cups chopped onion = 355.6 g onion as purchased (320 g chopped)");
        assert_eq!(said("300 g onions, diced", "g"), "300 g onions, diced = 300 g onion as purchased");
        // 355.6 ÷ 453.592 = 0.784
        assert_eq!(said("2 cups chopped onion", "lb"), "2 cups chopped onion = 0.7839 lb onion as purchased (0.7055 lb chopped)");
        assert_eq!(said("2-3 onions", "each"), "2-3 onions = 3 pieces onion as purchased, for the upper end of the range");
    }

    #[test]
    fn a_volume_answers_in_the_form_that_the_line_names() {
        // 320 ÷ 160 = 2 cups; 3 medium onions of 122 g are 366 g, 329.4 g trimmed, 2.059 cups.
        assert_eq!(said("320 g chopped onion", "cups"), "320 g chopped onion = 2 cups onion chopped");
        assert_eq!(said("3 onions, chopped", "cups"), "3 onions, chopped = 2.059 cups onion chopped");
    }

    #[test]
    fn an_amount_alone_needs_no_food_within_its_dimension() {
        assert_eq!(said("2 cups", "ml"), "2 cups = 473.2 ml");
        assert_eq!(said("2 cups", "g"), "\"2 cups\" to g takes a food: write it after the amount, as in \"2 cups onion\".");
    }

    #[test]
    fn what_is_missing_is_named_with_the_key_that_mends_it() {
        let text = said("2 bunches onion", "g");
        assert!(text.contains("no weight of a bunch is known. Add bunch = \"…\" under onion in foods.toml."), "{text}");
        let text = said("2 cups oniom", "g");
        assert!(text.contains("\"oniom\" is not a known food. Nearest known: onion"), "{text}");
        // Weight to weight asks nothing of the food.
        assert_eq!(said("2 lb oniom", "kg"), "2 lb oniom = 0.9072 kg oniom as purchased");
    }
    #[test]
    fn the_unit_of_the_size_of_one_is_among_the_facts() {
        // NIST SP 811: 1 oz is 28.3495 g.
        let facts = |line: &str| match answer(line, Unit::Gram, &Foods::reference(), Spoons::Us) {
            Ok(answer) => answer.chain.into_iter().map(|used| used.fact).collect::<Vec<_>>(),
            Err(other) => panic!("{other:?}"),
        };
        for line in
            ["1 can (15 oz) chickpeas, drained", "1 15oz can chickpeas", "2 (14.5-ounce) cans chickpeas", "1 can (15 oz / 425 g) chickpeas"]
        {
            assert_eq!(facts(line), ["1 oz"], "{line}");
        }
        assert_eq!(facts("1 tin (400 g) chickpeas"), Vec::<String>::new());
    }

    #[test]
    fn what_is_weighed_by_the_cup_only_in_its_forms_says_in_which() {
        let text = said("2 onions", "ml");
        let what = "no weight of a cup of it as it is bought is known, only of it chopped, sliced. Add cup = { whole = \"…\" } under onion in foods.toml.";
        assert!(text.contains(what), "{text}");
    }
}
