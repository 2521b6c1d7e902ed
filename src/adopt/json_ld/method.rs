//! The method of a recipe: texts, steps, sections, whole lists of them, a paragraph each.
//!
//! A step's name is mostly a title. Where it says a figure that its text does not, it is part of the step; else it heads it, unless the text
//! says it anyway.

use serde_json::Value;

use super::{Thing, first, in_order, is_reference};
use crate::adopt::tidy::{line, lines};

/// What may stand in a section, a step or a list of them.
const INNER: [&str; 4] = ["itemListElement", "step", "steps", "item"];

/// The paragraphs of a method, and what of it could not be read, a whole sentence each.
#[derive(Default)]
pub(super) struct Told {
    pub paragraphs: Vec<String>,
    pub lost: Vec<String>,
}

impl Told {
    pub fn of(value: &Value) -> Told {
        let mut told = Told::default();
        told.take(value);
        told
    }

    fn take(&mut self, value: &Value) {
        match value {
            Value::String(text) => self.paragraphs.extend(lines(text)),
            Value::Array(values) => in_order(values).into_iter().for_each(|value| self.take(value)),
            Value::Object(thing) => self.thing(thing),
            Value::Null | Value::Bool(_) | Value::Number(_) => {}
        }
    }

    fn thing(&mut self, thing: &Thing) {
        if is_reference(thing) {
            let told = thing.get("@id").and_then(Value::as_str).unwrap_or_default();
            self.lost.push(format!("A step is only pointed at ({}), and the page does not hold it.", line(told)));
            return;
        }
        let name = thing.get("name").and_then(first).map(|name| line(&name)).filter(|name| !name.is_empty());
        let mut inner = Told::default();
        let parts: Vec<&str> = INNER.into_iter().filter(|key| thing.contains_key(*key)).collect();
        parts.iter().filter_map(|key| thing.get(*key)).for_each(|value| inner.take(value));
        let texts =
            ["text", "description"].iter().find_map(|key| thing.get(*key)).map(|said| Told::of(said).paragraphs).unwrap_or_default();
        // A step that tells its directions one by one sometimes has all of them as its text, too.
        let whole = joined(&inner.paragraphs);
        let mut own: Vec<String> = texts.into_iter().filter(|text| !whole.contains(&joined(&[text]))).collect();
        if let Some(name) = name {
            let said = joined(&own) + &whole;
            // The name of a part may be a word of its steps; that of a step says nothing then.
            let again = own.is_empty() && said == joined(&[&name]) || !own.is_empty() && said.contains(&joined(&[&name]));
            match own.first_mut() {
                _ if again || is_a_number(&name) => {}
                None if inner.paragraphs.is_empty() => own.push(name),
                Some(first) if figures_beyond(&name, &said) => *first = format!("{}: {first}", name.trim_end_matches(['.', ':', ' '])),
                _ => own.insert(0, format!("{}:", name.trim_end_matches(['.', ':', ' ']))),
            }
        }
        self.paragraphs.append(&mut own);
        self.paragraphs.append(&mut inner.paragraphs);
        self.lost.append(&mut inner.lost);
    }
}

/// Letters and digits alone.
fn joined(texts: &[impl AsRef<str>]) -> String {
    let letters = |text: &str| text.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect::<String>();
    texts.iter().map(|text| letters(text.as_ref())).collect()
}

/// "Step 2"
fn is_a_number(name: &str) -> bool {
    let name = joined(&[name]);
    let number = name.strip_prefix("step").or_else(|| name.strip_prefix("part")).unwrap_or(&name);
    number.chars().all(|c| c.is_ascii_digit())
}

/// Does it say a figure that the text does not?
fn figures_beyond(name: &str, said: &str) -> bool {
    let figures = name.split(|c: char| !c.is_ascii_digit()).filter(|figure| !figure.is_empty());
    figures.into_iter().any(|figure| !said.contains(figure)) || name.contains(|c: char| "½⅓⅔¼¾".contains(c))
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;
    use serde_json::json;

    use super::*;

    #[test]
    fn every_word_of_a_step_and_of_a_section_is_kept() {
        for (value, meant) in [
            (
                json!([{"name": "Slice the leeks."}, {"name": "Blend until smooth.", "text": ""}]),
                vec!["Slice the leeks.", "Blend until smooth."],
            ),
            (
                json!([{"name": "Blend.", "text": "Blend."}, {"name": "Step 2", "text": "Simmer."}, {"name": "3", "text": "Rest."}]),
                vec!["Blend.", "Simmer.", "Rest."],
            ),
            (
                json!({"name": "Bake at 180 °C for 40 minutes", "text": "Until golden."}),
                vec!["Bake at 180 °C for 40 minutes: Until golden."],
            ),
            (json!({"name": "Cook the sauce", "text": "Simmer for 10 minutes."}), vec!["Cook the sauce:", "Simmer for 10 minutes."]),
            (
                json!({"name": "Simmer for 10 minutes…", "text": "Simmer for 10 minutes, stirring."}),
                vec!["Simmer for 10 minutes, stirring."],
            ),
            (
                json!([{"@type": "HowToSection", "name": "Soup", "steps": [{"text": "Slice."}]}, {"@type": "HowToSection", "name": "End", "step": {"text": "Simmer."}}]),
                vec!["Soup:", "Slice.", "End:", "Simmer."],
            ),
            (json!({"@type": "HowTo", "step": [{"text": "Slice."}, {"text": "Simmer."}]}), vec!["Slice.", "Simmer."]),
            (
                json!({"@type": "HowToStep", "text": "First:", "itemListElement": [{"@type": "HowToDirection", "text": "Slice."}, {"@type": "HowToTip", "text": "Thinly."}]}),
                vec!["First:", "Slice.", "Thinly."],
            ),
            (json!({"text": "Slice. Simmer.", "itemListElement": [{"text": "Slice."}, {"text": "Simmer."}]}), vec!["Slice.", "Simmer."]),
            (
                json!({"itemListElement": [{"position": 2, "item": {"text": "Simmer."}}, {"position": 1, "item": "Slice."}]}),
                vec!["Slice.", "Simmer."],
            ),
        ] {
            assert_eq!(Told::of(&value).paragraphs, meant, "{value}");
        }
        assert_eq!(Told::of(&json!([{"@id": "#s1"}])).lost, ["A step is only pointed at (#s1), and the page does not hold it."]);
    }
}
