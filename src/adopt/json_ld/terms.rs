//! The names of schema.org, whatever a page calls them: behind a prefix, as whole addresses, or under words of its own that its `@context`
//! explains. Lists and values that are wrapped (`@list`, `@set`, `@value`) stand bare afterwards (JSON-LD 1.1, from memory).

use std::collections::HashMap;

use serde_json::{Map, Value};

/// What schema.org is called as a place.
const PLACES: [&str; 4] = ["https://schema.org/", "http://schema.org/", "https://www.schema.org/", "http://www.schema.org/"];
/// What wraps a list or a value.
const WRAPS: [&str; 3] = ["@list", "@set", "@value"];
/// No page explains more words of its own.
const MOST_WORDS: usize = 1000;

/// A block in the names of schema.org alone.
pub(super) fn plain(block: Value) -> Value {
    let mut own = Own::default();
    match &block {
        Value::Array(things) => things.iter().for_each(|thing| own.learn(thing)),
        thing => own.learn(thing),
    }
    own.plain(block)
}

/// The words and prefixes of a page, each with what it means.
#[derive(Default)]
struct Own {
    words: HashMap<String, String>,
    prefixes: Vec<String>,
}

impl Own {
    /// What the `@context` of a thing explains.
    fn learn(&mut self, thing: &Value) {
        let contexts = match thing.get("@context") {
            Some(Value::Array(contexts)) => contexts.iter().collect(),
            Some(context) => vec![context],
            None => Vec::new(),
        };
        for (word, meant) in contexts.into_iter().filter_map(Value::as_object).flatten().take(MOST_WORDS) {
            let meant = meant.as_str().or_else(|| meant.get("@id")?.as_str()).unwrap_or_default();
            if PLACES.contains(&meant) && !word.starts_with('@') {
                self.prefixes.push(word.clone());
            } else if meant.starts_with('@') || self.bare(meant) != meant {
                let meant = self.bare(meant).to_owned();
                self.words.insert(word.clone(), meant);
            }
        }
    }

    /// Without the place or the prefix before it.
    fn bare<'n>(&self, name: &'n str) -> &'n str {
        if let Some(rest) = PLACES.iter().find_map(|place| name.strip_prefix(place)) {
            return rest;
        }
        match name.split_once(':') {
            Some((prefix, rest)) if prefix == "schema" || self.prefixes.iter().any(|known| known == prefix) => rest,
            _ => name,
        }
    }

    fn name(&self, name: &str) -> String {
        self.words.get(name).cloned().unwrap_or_else(|| self.bare(name).to_owned())
    }

    fn plain(&self, value: Value) -> Value {
        match value {
            Value::Array(values) => Value::Array(values.into_iter().map(|value| self.plain(value)).collect()),
            Value::Object(thing) => self.thing(thing),
            other => other,
        }
    }

    fn thing(&self, thing: Map<String, Value>) -> Value {
        let mut plain = Map::new();
        for (key, value) in thing {
            let key = self.name(&key);
            let value = match (key.as_str(), value) {
                ("@context", value) => value,
                ("@type", Value::String(kind)) => Value::String(self.name(&kind)),
                ("@type", Value::Array(kinds)) => kinds.iter().map(|kind| kind.as_str().map(|kind| self.name(kind))).collect(),
                (_, value) => self.plain(value),
            };
            if WRAPS.contains(&key.as_str()) {
                return value;
            }
            plain.entry(key).or_insert(value);
        }
        Value::Object(plain)
    }
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;
    use serde_json::json;

    use super::*;

    #[test]
    fn whatever_a_page_calls_them_the_names_are_those_of_schema_org() {
        let meant = |block: Value| {
            let mut plain = plain(block);
            plain.as_object_mut().map(|thing| thing.remove("@context"));
            plain
        };
        let wanted = json!({"@type": "Recipe", "name": "Slaw", "recipeIngredient": ["2 apples", "1 red cabbage"]});
        for block in [
            json!({"@context": {"schema": "https://schema.org/"}, "@type": "schema:Recipe", "schema:name": "Slaw",
                   "schema:recipeIngredient": {"@list": ["2 apples", "1 red cabbage"]}}),
            json!({"@context": ["https://schema.org", {"s": "http://schema.org/"}], "@type": "s:Recipe", "s:name": {"@value": "Slaw", "@language": "en"},
                   "s:recipeIngredient": {"@set": ["2 apples", {"@value": "1 red cabbage"}]}}),
            json!({"@type": "https://schema.org/Recipe", "https://schema.org/name": "Slaw", "https://schema.org/recipeIngredient": ["2 apples", "1 red cabbage"]}),
            json!({"@context": {"dish": "https://schema.org/name", "type": "@type", "needs": {"@id": "https://schema.org/recipeIngredient", "@container": "@list"}},
                   "type": "Recipe", "dish": "Slaw", "needs": ["2 apples", "1 red cabbage"]}),
        ] {
            assert_eq!(meant(block), wanted);
        }
        // Another vocabulary keeps its names.
        assert_eq!(
            plain(json!({"og:title": "Slaw", "@id": "https://example.org/#a"})),
            json!({"og:title": "Slaw", "@id": "https://example.org/#a"})
        );
    }
}
