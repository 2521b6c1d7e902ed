//! The ingredients of a recipe: texts, or things with a name and an amount, alone or in lists with a name of their own.

use serde_json::Value;

use super::{Thing, first, in_order, is_reference, texts};
use crate::adopt::tidy::{line, lines};

/// What may stand in a thing that is a list.
const INNER: [&str; 5] = ["itemListElement", "item", "recipeIngredient", "ingredients", "hasPart"];
/// Properties that say how much of a thing is meant.
const AMOUNTS: [&str; 3] = ["requiredQuantity", "amount", "quantity"];
/// Codes of units (UN/ECE Recommendation 20, from memory), and how a list writes them.
#[rustfmt::skip]
const CODES: [(&str, &str); 14] = [
    ("GRM", "g"), ("KGM", "kg"), ("MGM", "mg"), ("MLT", "ml"), ("CLT", "cl"), ("DLT", "dl"), ("LTR", "l"), ("LBR", "lb"), ("ONZ", "oz"), ("OZA", "fl oz"),
    ("G21", "cup"), ("G24", "tbsp"), ("G25", "tsp"), ("C62", ""),
];

/// The lines of a list, and what of it could not be read, a whole sentence each.
#[derive(Default)]
pub(super) struct Listed {
    pub lines: Vec<String>,
    pub lost: Vec<String>,
}

impl Listed {
    pub fn of(value: &Value) -> Listed {
        let mut listed = Listed::default();
        listed.take(value);
        // One text that holds them all.
        if let (Value::String(_), [one]) = (value, listed.lines.as_slice()) {
            listed.lines = apart(one);
        }
        listed
    }

    fn take(&mut self, value: &Value) {
        match value {
            Value::String(text) => self.lines.extend(lines(text)),
            Value::Number(number) => self.lines.push(number.to_string()),
            Value::Array(values) => in_order(values).into_iter().for_each(|value| self.take(value)),
            Value::Object(thing) => self.thing(thing),
            Value::Null | Value::Bool(_) => {}
        }
    }

    fn thing(&mut self, thing: &Thing) {
        if is_reference(thing) {
            let told = thing.get("@id").and_then(Value::as_str).unwrap_or_default();
            self.lost.push(format!("An ingredient is only pointed at ({}), and the page does not hold it.", line(told)));
            return;
        }
        let name = thing.get("name").and_then(first);
        if let Some((key, inner)) = INNER.iter().find_map(|key| Some((*key, thing.get(*key)?))) {
            // What a place of a list holds has no heading.
            let is_place = key == "item" || !inner.is_array() && !inner.is_object();
            self.lines.extend(name.filter(|_| !is_place).map(|name| format!("{}:", name.trim_end_matches(':'))));
            return self.take(inner);
        }
        let text = thing.get("text").and_then(first);
        let said = match (named(thing, name), text) {
            (Some(named), Some(text)) if !text.contains(&named) && named.contains(|c: char| c.is_numeric()) => Some(named),
            (_, Some(text)) => Some(text),
            (named, None) => named,
        };
        match said {
            Some(said) => self.lines.extend(lines(&said)),
            None => self.lost.push("An ingredient of the page has no name.".to_owned()),
        }
    }
}

/// "500 g potatoes" of a name and how much of it.
fn named(thing: &Thing, name: Option<String>) -> Option<String> {
    let name = name?;
    let asked = AMOUNTS.iter().find_map(|key| thing.get(*key)).and_then(amount).or_else(|| measured(thing));
    let described = thing.get("description").and_then(first).filter(|said| said.chars().count() <= 60);
    let described = described.map(|said| format!(", {}", said.trim_end_matches('.'))).unwrap_or_default();
    match asked.filter(|asked| !name.starts_with(asked.split(' ').next().unwrap_or(asked))) {
        Some(asked) => Some(format!("{asked} {name}{described}")),
        None => Some(name + &described),
    }
}

/// "2 tbsp", or a thing that says so in parts.
fn amount(value: &Value) -> Option<String> {
    match value {
        Value::Object(thing) => measured(thing).or_else(|| first(value)),
        Value::Array(values) => values.first().and_then(amount),
        other => first(other),
    }
}

/// Number and unit of a `QuantitativeValue` or `PropertyValue`; the ends of a range.
pub(super) fn measured(thing: &Thing) -> Option<String> {
    let number = |key: &str| thing.get(key).filter(|value| !value.is_object()).and_then(first).map(whole);
    let range = || match (number("minValue"), number("maxValue")) {
        (Some(low), Some(high)) if low != high => Some(format!("{low}-{high}")),
        (low, high) => low.or(high),
    };
    let Some(number) = number("value").or_else(range) else {
        return thing.get("value").and_then(Value::as_object).and_then(measured);
    };
    let coded = || {
        let code = thing.get("unitCode").and_then(first)?;
        Some(CODES.iter().find(|(known, _)| *known == code).map_or(code.clone(), |(_, unit)| (*unit).to_owned()))
    };
    let unit = thing.get("unitText").and_then(first).or_else(coded).unwrap_or_default();
    Some(format!("{number} {unit}").trim().to_owned())
}

/// "500.0" is 500.
fn whole(number: String) -> String {
    number.strip_suffix(".0").map(str::to_owned).unwrap_or(number)
}

/// A comma stands before each number.
fn apart(text: &str) -> Vec<String> {
    let mut parts: Vec<String> = vec![String::new()];
    let letters: Vec<char> = text.chars().collect();
    for (index, letter) in letters.iter().enumerate() {
        let next = letters[index + 1..].iter().find(|c| !c.is_whitespace());
        let begins_a_line = next.is_some_and(|c| c.is_ascii_digit() || "½⅓⅔¼¾⅛".contains(*c));
        if *letter == ';' || (*letter == ',' && begins_a_line && letters.get(index + 1) == Some(&' ')) {
            parts.push(String::new());
        } else if let Some(part) = parts.last_mut() {
            part.push(*letter);
        }
    }
    parts.iter().map(|part| part.trim().to_owned()).filter(|part| !part.is_empty()).collect()
}

/// The texts of a supply that no line of the list names.
pub(super) fn beside(supply: &Value, lines: &[String]) -> Vec<String> {
    let listed = |said: &String| lines.iter().any(|line| line.to_lowercase().contains(&said.to_lowercase()));
    let said = if supply.is_object() || supply.is_array() { Listed::of(supply).lines } else { texts(supply) };
    said.into_iter().filter(|said| !listed(said)).collect()
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;
    use serde_json::json;

    use super::*;

    #[test]
    fn things_with_an_amount_and_lists_with_a_name_are_lines_under_a_heading() {
        for (value, meant) in [
            (
                json!([{"@type": "ItemList", "name": "For the soup", "itemListElement": ["3 leeks", "500 g potatoes"]},
                       {"@type": "ItemList", "name": "Topping", "itemListElement": [{"@type": "ListItem", "position": 2, "item": "2 tbsp walnuts"},
                           {"@type": "ListItem", "position": 1, "item": {"@type": "PropertyValue", "name": "dill", "value": "1", "unitText": "bunch"}}]}]),
                vec!["For the soup:", "3 leeks", "500 g potatoes", "Topping:", "1 bunch dill", "2 tbsp walnuts"],
            ),
            (
                json!({"@type": "ItemList", "itemListElement": [{"name": "3 leeks"}, {"text": "1 l stock", "name": "stock"}]}),
                vec!["3 leeks", "1 l stock"],
            ),
            (
                json!([{"name": "potatoes", "value": 500.0, "unitText": "g", "description": "peeled"}, {"name": "stock", "value": 1, "unitCode": "LTR"},
                       {"name": "leeks", "value": "3", "unitCode": "C62"}, {"name": "olive oil", "requiredQuantity": {"value": 2, "unitText": "tbsp"}},
                       {"name": "carrots", "requiredQuantity": {"minValue": 2, "maxValue": 3}}, {"name": "salt", "requiredQuantity": "1 tsp"},
                       {"name": "oats", "value": {"@type": "QuantitativeValue", "value": 50, "unitCode": "GRM"}}, {"name": "4 eggs", "value": 4}]),
                vec![
                    "500 g potatoes, peeled",
                    "1 l stock",
                    "3 leeks",
                    "2 tbsp olive oil",
                    "2-3 carrots",
                    "1 tsp salt",
                    "50 g oats",
                    "4 eggs",
                ],
            ),
            (json!("500 g beetroot, peeled, 2 carrots; ½ tsp salt"), vec!["500 g beetroot, peeled", "2 carrots", "½ tsp salt"]),
        ] {
            let listed = Listed::of(&value);
            assert_eq!(listed.lines, meant, "{value}");
            assert_eq!(listed.lost, Vec::<String>::new());
        }
        let lost = Listed::of(&json!(["3 leeks", {"@id": "#oil"}, {"@type": "Thing"}]));
        assert_eq!(lost.lines, ["3 leeks"]);
        assert_eq!(
            lost.lost,
            ["An ingredient is only pointed at (#oil), and the page does not hold it.", "An ingredient of the page has no name."]
        );
    }
}
