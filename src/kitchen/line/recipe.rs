//! Lines of a recipe: `200 g recipe:herb-yoghurt`, `1 portion recipe:pearl-barley, warm`.

use super::measure::Measure;
use super::{Line, LineError, LineOf, Reader, join, read_line};
use crate::measure::{Amount, Kind, Quantity, Unit};

impl Reader<'_> {
    /// The places of "recipe:".
    pub(super) fn recipes(&self, from: usize) -> impl Iterator<Item = usize> {
        let w = self.w;
        (from..self.end)
            .filter(move |at| w.is(*at, "recipe") && w.at(at + 1).is_some_and(|colon| colon.kind == Kind::Colon && !colon.spaced))
    }

    pub(super) fn recipe_line(&self, measure: Measure, start: usize, at: usize) -> Result<Line, LineError> {
        let w = self.w;
        if let Some(second) = self.recipes(at + 1).next() {
            return Err(LineError::new("a line is of one recipe", "write the second recipe on a line of its own", w.byte(second)));
        }
        let mut end = at + 2;
        while w
            .at(end)
            .is_some_and(|token| end < self.end && !token.spaced && !matches!(token.kind, Kind::Comma | Kind::Semicolon | Kind::Open))
        {
            end += 1;
        }
        let id = w.text(at + 2..end).trim_end_matches(['.', ':', '!']);
        if id.is_empty() {
            let remedy = "write recipe: and the stem of its file: recipe:pearl-barley";
            return Err(LineError::new("\"recipe:\" names no recipe", remedy, w.byte(at)));
        }
        if at > measure.end {
            let cause = format!("\"{}\" stands between the amount and the recipe", w.plain(measure.end..at));
            return Err(LineError::new(cause, "write the amount, then recipe:id, then a comma and the rest", w.byte(measure.end)));
        }
        let amount = recipe_amount(&measure, id, w.byte(start))?;
        let mut remarks = measure.remarks;
        remarks.extend((end..self.end).filter_map(|at| self.bracket(at)).map(|inner| inner.plain(0..inner.len())));
        let mut prep = Vec::new();
        let mut from = end;
        while from < self.end {
            let to = self.separator(from);
            let part = w.plain(from..to);
            if let Some(more) = self.more(&part) {
                return Err(another(id, &part, more, w.byte(from)));
            }
            prep.push(part);
            from = to + 1;
        }
        if let Some((remark, more)) = remarks.iter().find_map(|remark| Some((remark, self.more(remark)?))) {
            return Err(another(id, remark, more, w.byte(end)));
        }
        let of = LineOf::Recipe { id: id.to_owned(), amount };
        Ok(Line { of, prep: join(prep), remark: join(remarks), instead: None, optional: false, for_one: None, doubts: Vec::new() })
    }

    /// The amount of a food that a part of the line asks for beside the recipe: of "plus 20 g feta" that is "20 g feta".
    fn more<'t>(&self, part: &'t str) -> Option<&'t str> {
        let typed = part.trim();
        let part = typed.trim_start_matches(['+', '&', ' ']);
        let more = JOINS.iter().find_map(|join| part.strip_prefix(join)).unwrap_or(part).trim_start();
        let Ok(Line { of: LineOf::Food { food, item: Some(item) }, .. }) = read_line(more, self.foods, self.spoons) else { return None };
        let is_weighed = !matches!(item.amount.unit, Unit::Piece | Unit::Portion | Unit::Word(_));
        // "2 tbsp at a time" is no food that anybody buys.
        let is_joined = more.len() < typed.len();
        (more.starts_with(char::is_numeric) && (is_weighed && is_joined || self.foods.find(&food).is_some())).then_some(more)
    }
}

const JOINS: [&str; 4] = ["plus ", "and ", "with ", "also "];

fn another(id: &str, part: &str, more: &str, offset: usize) -> LineError {
    let cause = format!("\"{part}\" is bought by no line of recipe:{id}");
    LineError::new(cause, format!("write \"{more}\" on a line of its own"), offset)
}

fn recipe_amount(measure: &Measure, id: &str, offset: usize) -> Result<Amount, LineError> {
    let remedy = format!(
        "write an amount in the measure of what it makes: \"1 portion recipe:{id}\" where it makes portions, \"2 recipe:{id}\" where it makes \
         pieces, \"200 g recipe:{id}\" where it makes a weight"
    );
    let Some(amount) = measure.amount.clone() else {
        return Err(LineError::new("a recipe needs an amount", remedy, offset));
    };
    if !measure.plus.is_empty() {
        return Err(LineError::new("a recipe's amount is one number", remedy, offset));
    }
    match (&measure.size, amount.unit) {
        (Some(size), _) => {
            let unit = if matches!(size, Quantity::Mass(_)) { Unit::Gram } else { Unit::Millilitre };
            Ok(Amount { unit, ..amount.scaled(size.exact()) })
        }
        (None, Unit::Word(word)) => Err(LineError::new(format!("a recipe is not measured by the {word}"), remedy, offset)),
        (None, _) => Ok(amount),
    }
}
