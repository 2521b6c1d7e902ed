//! Lines of a recipe: `200 g recipe:herb-yoghurt`, `1 portion recipe:pearl-barley, warm`.

use super::measure::Measure;
use super::{Line, LineError, LineOf, Reader, join};
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
            prep.push(w.plain(from..to));
            from = to + 1;
        }
        let of = LineOf::Recipe { id: id.to_owned(), amount };
        Ok(Line { of, prep: join(prep), remark: join(remarks), instead: None, optional: false, doubts: Vec::new() })
    }
}

fn recipe_amount(measure: &Measure, id: &str, offset: usize) -> Result<Amount, LineError> {
    let remedy = format!("write \"200 g recipe:{id}\", \"1 portion recipe:{id}\" or \"2 recipe:{id}\"");
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
