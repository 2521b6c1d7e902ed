//! Twenty dishes as pages of every structure that people save, made from one table; what is taken in is what the table says, and no file but
//! those of the new recipes is ever touched.

use std::collections::BTreeMap;
use std::fmt::Write;
use std::fs;
use std::path::Path;

use pretty_assertions::assert_eq;
use serde_json::{Value, json};

use crate::dice::Dice;
use crate::kitchen::{Kitchen, json as answer, kitchen, stderr, stdout};

/// Name, yield as a page prints it and as `makes` has it, ingredients, method.
type Dish = (&'static str, &'static str, &'static str, &'static [&'static str], &'static [&'static str]);

#[rustfmt::skip]
const DISHES: [Dish; 20] = [
    ("Chicken thighs braised with tomatoes and olives", "Serves 4–6", "4 portions", &["1 kg chicken thighs", "2 tins (400 g) chopped tomatoes", "100 g olives"], &["Brown the thighs for 8 minutes.", "Add the rest and simmer for 45 minutes."]),
    ("Pearl barley", "4 servings", "4 portions", &["300 g pearl barley", "1 l vegetable stock"], &["Simmer the barley in the stock for 40 minutes."]),
    ("White-bean & rosemary mash", "6", "6 portions", &["2 tins (400 g) white beans, drained", "4 tbsp olive oil", "1 sprig rosemary"], &["Warm the oil with the rosemary.", "Mash in the beans."]),
    ("Roast beetroot and carrots", "for 4 people", "4 portions", &["500 g beetroot", "400 g carrots", "2 tbsp olive oil"], &["Heat the oven to 190 °C.", "Roast for 45–50 minutes."]),
    ("Red cabbage and apple slaw", "Serves 8", "8 portions", &["½ red cabbage", "2 apples", "3 tbsp vinegar"], &["Shred the cabbage & grate the apples.", "Dress with the vinegar."]),
    ("Herb yoghurt", "Makes 500 g", "500 g", &["500 g yoghurt", "½ bunch dill"], &["Chop the dill. Stir it in."]),
    ("Red-pepper sauce", "about 1 litre", "1 litre", &["4 red peppers", "1 onion", "2 cloves garlic"], &["Grill the peppers for 15 minutes.", "Blend everything."]),
    ("Flatbreads", "Makes 8 flatbreads", "8 pieces", &["400 g plain flour", "250 g yoghurt", "2 tsp baking powder"], &["Mix and knead for 5 minutes.", "Bake in a dry pan for 2 minutes a side."]),
    ("Boiled eggs", "6 pieces", "6 pieces", &["6 eggs"], &["Boil the eggs for 9 minutes."]),
    ("Leek and potato soup", "6 to 8 people", "6 portions", &["600 g leeks", "400 g potatoes", "1 l vegetable stock"], &["Sweat the leeks for 10 minutes.", "Simmer for 20 minutes and blend."]),
    ("Frittata", "1 frittata (6 servings)", "1 piece", &["8 eggs", "60 g feta", "1 red pepper"], &["Fry the pepper for 5 minutes.", "Pour in the eggs and cook for 12 minutes."]),
    ("Baked fish with dill", "2 servings", "2 portions", &["350 g cod", "½ bunch dill", "1 lemon, juice"], &["Bake at 200 °C for 15 minutes."]),
    ("Overnight oats", "3 portions", "3 portions", &["150 g rolled oats", "300 ml oat milk", "40 g raisins"], &["Stir together and chill overnight."]),
    ("Crème de poireaux", "4 generous servings", "4 portions", &["500 g leeks", "200 ml cream"], &["Simmer the leeks for 15 minutes."]),
    ("Käse-Fladen „groß“", "12 pieces", "12 pieces", &["300 g plain flour", "150 g feta"], &["Knead for 8 minutes. Rest for 1 hour."]),
    ("Barley with \"green\" things", "Serves 4", "4 portions", &["250 g pearl barley", "1 bunch parsley"], &["Boil for 35 minutes.", "Chop the parsley finely."]),
    ("Beans, the slow way", "1.5 kg", "1.5 kg", &["500 g dried white beans", "1 onion"], &["Soak overnight.", "Boil for 90 minutes."]),
    ("Carrot & ginger soup", "Yield: 5 portions", "5 portions", &["1 kg carrots", "20 g ginger"], &["Peel and slice the carrots.", "Simmer for 25 minutes."]),
    ("Fish cakes", "10 cakes", "10 pieces", &["400 g cod", "500 g potatoes"], &["Shape into 10 cakes.", "Fry for 4 minutes a side."]),
    ("Apple compote", "Serves 5", "5 portions", &["1 kg apples", "50 ml water"], &["Stew the apples for 20 minutes, stirring now and then."]),
];

fn block(dish: &Dish, index: usize) -> Value {
    let (name, yields, _, ingredients, method) = dish;
    let steps: Vec<Value> = method.iter().map(|text| json!({"@type": "HowToStep", "text": text})).collect();
    // As pages have them: one text, a list of texts, steps, or steps in a section.
    let method = match index % 4 {
        0 => json!(method.join("\n")),
        1 => json!(method),
        2 => json!(steps),
        _ => json!([{"@type": "HowToSection", "itemListElement": steps}]),
    };
    json!({"@context": "https://schema.org", "@type": "Recipe", "name": name, "recipeYield": yields, "recipeIngredient": ingredients,
           "recipeInstructions": method, "author": {"@type": "Person", "name": "A neighbour"}, "url": format!("https://example.org/{index}"), "cookTime": "PT35M"})
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('"', "&quot;").replace('½', "&frac12;")
}

fn around(head: &str, body: &str) -> String {
    format!(
        "<!DOCTYPE html>\n<html lang=en><head><meta charset=utf-8><title>Boatyard Row</title>{head}</head><body><nav>Home</nav>{body}</body></html>"
    )
}

fn in_page(block: &Value) -> String {
    around(&format!("<script type=\"application/ld+json\">{block}</script>"), "<p>1 mile from the harbour.</p>")
}

fn microdata((name, yields, _, ingredients, method): &Dish, index: usize) -> String {
    let kind = if index.is_multiple_of(2) { "https://schema.org/Recipe" } else { "http://schema.org/Recipe" };
    let items = |name: &str, all: &[&str]| {
        all.iter().fold(String::new(), |text, one| text + &format!("<li {name}><span>{}</span></li>\n", escaped(one)))
    };
    let steps = if index.is_multiple_of(2) {
        format!("<ol itemprop=\"recipeInstructions\">{}</ol>", items("", method))
    } else {
        items("itemprop=\"recipeInstructions\"", method)
    };
    around(
        "",
        &format!(
            "<article itemscope itemtype=\"{kind}\"><h1 itemprop=\"name\">{}</h1><p itemprop=\"recipeYield\">{}</p>\
             <span itemprop=author itemscope itemtype='https://schema.org/Person'><i itemprop=name>A neighbour</i></span>\
             <a itemprop=url href='https://example.org/{index}'>here</a><ul>{}</ul>{steps}</article>",
            escaped(name),
            escaped(yields),
            items("itemprop=\"recipeIngredient\"", ingredients)
        ),
    )
}

fn plain((name, yields, _, ingredients, method): &Dish, index: usize) -> String {
    let bullet = ["", "- ", "• ", "* "][index % 4];
    let listed = ingredients.iter().fold(String::new(), |text, line| text + &format!("{bullet}{line}\n"));
    let headed = index.is_multiple_of(2);
    let (first, second) = if headed { ("Ingredients\n", "Method\n") } else { ("", "") };
    // Without a word for it a number alone is no yield.
    let yields = if yields.chars().all(|c| c.is_ascii_digit()) { format!("Serves {yields}") } else { (*yields).to_owned() };
    format!("{name}\n{yields}\n\n{first}{listed}\n{second}{}\n", method.join("\n"))
}

type Maker = fn(&Dish, usize) -> String;

const STRUCTURES: [(&str, &str, Maker); 6] = [
    ("JSON-LD in a page", "html", |dish, index| in_page(&block(dish, index))),
    ("JSON-LD in a graph", "html", |dish, index| {
        in_page(
            &json!({"@context": "https://schema.org", "@graph": [{"@type": "WebSite", "name": "Row"}, block(dish, index), {"@type": "Person", "name": "A neighbour"}]}),
        )
    }),
    ("JSON-LD in a list", "html", |dish, index| in_page(&json!([{"@type": "BreadcrumbList", "itemListElement": []}, block(dish, index)]))),
    ("microdata", "html", microdata),
    ("plain text", "txt", plain),
    ("a JSON-LD file", "jsonld", |dish, index| block(dish, index).to_string()),
];

/// Every file below a folder with what stands in it.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut all = BTreeMap::new();
    let mut open = vec![folder.to_owned()];
    while let Some(next) = open.pop() {
        for entry in fs::read_dir(next).unwrap().flatten() {
            let path = entry.path();
            if path.is_dir() {
                open.push(path);
            } else {
                all.insert(path.strip_prefix(folder).unwrap().to_string_lossy().into_owned(), fs::read(&path).unwrap());
            }
        }
    }
    all
}

/// A list of a recipe's file, without the marks of a list.
fn list(table: &toml::Table, key: &str) -> Vec<String> {
    let bare = |line: &str| line.trim_start_matches(['-', '•', '*', ' ']).to_owned();
    table[key].as_str().unwrap().lines().map(bare).collect()
}

#[test]
fn twenty_pages_of_every_structure_are_what_the_table_says_and_nothing_else_is_touched() {
    for (structure, extension, make) in STRUCTURES {
        let mut kitchen = kitchen();
        let mut names = Vec::new();
        for (index, dish) in DISHES.iter().enumerate() {
            let name = format!("page-{index:02}.{extension}");
            kitchen = kitchen.file(&name, &make(dish, index));
            names.push(name);
        }
        let before = files(kitchen.path());
        let mut arguments = vec!["adopt"];
        arguments.extend(names.iter().map(String::as_str));
        let output = kitchen.run(&arguments);
        assert_eq!(output.status.code(), Some(0), "{structure}: {}", stderr(&output));
        assert!(stdout(&output).starts_with("20 recipes taken in."), "{structure}");
        let mut after = files(kitchen.path());
        for (index, (name, _, makes, ingredients, method)) in DISHES.iter().enumerate() {
            let id = spence::adopt::id_of(name);
            let written = after.remove(&format!("recipes/{id}.toml")).unwrap_or_else(|| panic!("{structure}: no {id}"));
            let table: toml::Table = String::from_utf8(written).unwrap().parse().unwrap();
            assert_eq!(table["name"].as_str(), Some(*name), "{structure}");
            assert_eq!(table["makes"].as_str(), Some(*makes), "{structure}: {name}");
            assert_eq!(list(&table, "ingredients"), *ingredients, "{structure}: {name}");
            assert_eq!(list(&table, "method"), *method, "{structure}: {name}");
            if extension != "txt" {
                assert_eq!(table["source"]["author"].as_str(), Some("A neighbour"), "{structure}: {name}");
                assert_eq!(table["source"]["address"].as_str(), Some(format!("https://example.org/{index}").as_str()), "{structure}");
            }
        }
        assert!(after == before, "{structure}: a file beside the recipes was touched");
        // Again: every id is taken, nothing is written.
        let before = files(kitchen.path());
        let again = kitchen.run(&arguments);
        assert_eq!(again.status.code(), Some(1), "{structure}");
        assert!(stderr(&again).contains("--as ID"), "{}", stderr(&again));
        assert!(files(kitchen.path()) == before, "{structure}: a refusal wrote something");
        // What was taken in works.
        let cards = answer(&kitchen.run(&["--format", "json", "recipe", "flatbreads"]));
        assert_eq!(cards["makes"]["amount"], 8.0, "{structure}");
    }
}

/// Property names of schema.org/Recipe and of what stands in it, from memory (schema.org, version of 2024, CC BY-SA 3.0): those that are
/// written and read here are all among them.
const TERMS: [&str; 24] = [
    "@context",
    "@type",
    "@graph",
    "@id",
    "name",
    "headline",
    "author",
    "url",
    "recipeYield",
    "recipeIngredient",
    "recipeInstructions",
    "recipeCategory",
    "recipeCuisine",
    "prepTime",
    "cookTime",
    "totalTime",
    "text",
    "itemListElement",
    "HowToStep",
    "HowToSection",
    "Person",
    "Recipe",
    "ItemList",
    "mainEntityOfPage",
];

fn terms(value: &Value, found: &mut Vec<String>) {
    match value {
        Value::Object(thing) => thing.iter().for_each(|(key, value)| {
            found.push(key.clone());
            if key == "@type" {
                found.extend(value.as_str().map(str::to_owned));
            }
            terms(value, found);
        }),
        Value::Array(values) => values.iter().for_each(|value| terms(value, found)),
        _ => {}
    }
}

fn page_of(kitchen: &Kitchen, id: &str) -> String {
    let output = kitchen.run(&["recipe", id, "--format", "jsonld"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    stdout(&output)
}

#[test]
fn a_page_of_our_own_comes_back_the_same_and_speaks_the_words_of_schema_org() {
    for (index, (name, _, makes, ingredients, method)) in DISHES.iter().enumerate() {
        if index % 3 > 0 {
            continue;
        }
        // Texts and lists of texts of JSON are such of TOML.
        let quoted = |text: &str| json!(text).to_string();
        let mut recipe = String::new();
        let mut lines = ingredients.to_vec();
        lines.insert(1, "For the table:");
        lines.push("salt, to taste");
        let _ =
            writeln!(recipe, "name = {}\nmakes = {}\nkeeps = {{ fridge = \"3 days\" }}\nbatches = \"whole\"", quoted(name), quoted(makes));
        let _ = writeln!(recipe, "source = {{ author = \"A neighbour\", title = \"Suppers & more\", address = \"page {index}\" }}");
        let _ = writeln!(recipe, "ingredients = {}\nmethod = {}", json!(lines), json!(method));
        let files = kitchen().recipe("dish", &recipe);
        let page = page_of(&files, "dish");
        let mut found = Vec::new();
        terms(&serde_json::from_str(&page).unwrap(), &mut found);
        assert!(found.iter().all(|term| TERMS.contains(&term.as_str())), "{found:?}");
        let other = kitchen().file("page.jsonld", &page);
        other.done(&["adopt", "page.jsonld", "--as", "dish"]);
        let table: toml::Table = other.text("recipes/dish.toml").parse().unwrap();
        assert_eq!(table["name"].as_str(), Some(*name));
        assert_eq!(list(&table, "ingredients"), lines);
        assert_eq!(list(&table, "method"), *method);
        assert_eq!(table["source"]["title"].as_str(), Some("Suppers & more"));
        assert_eq!(table["source"]["address"].as_str(), Some(format!("page {index}").as_str()));
        let card = |kitchen: &Kitchen| answer(&kitchen.run(&["--format", "json", "recipe", "dish"]));
        let (ours, theirs) = (card(&files), card(&other));
        for key in ["name", "makes", "ingredients", "steps", "source"] {
            assert_eq!(ours[key], theirs[key], "{key} of {name}");
        }
        // What the format has no place for is named.
        let said = stderr(&files.run(&["recipe", "dish", "--format", "jsonld"]));
        assert!(said.contains("how long it keeps (keeps)") && said.contains("how a batch may be cut (batches)"), "{said}");
    }
}

/// Bytes of a page changed, cut out or doubled at a few places.
fn mutated(page: &[u8], dice: &mut Dice) -> Vec<u8> {
    let mut bytes = page.to_vec();
    for _ in 0..dice.between(1, 6) {
        let at = dice.between(0, bytes.len() as i64 - 1) as usize;
        let to = (at + dice.between(0, 40) as usize).min(bytes.len());
        match dice.between(0, 3) {
            0 => bytes[at] = dice.between(0, 255) as u8,
            1 => drop(bytes.drain(at..to)),
            2 => {
                let part = bytes[at..to].to_vec();
                bytes.splice(at..at, part);
            }
            _ => drop(bytes.splice(at..at, *b"{<\"&#x20;")),
        }
        if bytes.is_empty() {
            bytes.push(b'<');
        }
    }
    bytes
}

/// 10,000 of them in the library, so that each takes no time but its own; `SPENCE_PAGES=100000` asks for more. An optimised build
/// (`cargo test --release`) has 200 ms for each; sixteen times that are let pass where tests are not optimised, and share the machine.
#[test]
fn ten_thousand_damaged_pages_are_read_or_refused_at_once() {
    let mut dice = Dice(1);
    let pages: Vec<Vec<u8>> =
        STRUCTURES.iter().flat_map(|(_, _, make)| DISHES.iter().enumerate().map(|(index, dish)| make(dish, index).into_bytes())).collect();
    let is_ingredient = |line: &str| line.starts_with(|c: char| c.is_ascii_digit() || c == '½');
    let mut read = 0;
    let most = if cfg!(debug_assertions) { 3200 } else { 200 };
    let tried = std::env::var("SPENCE_PAGES").ok().and_then(|tried| tried.parse().ok()).unwrap_or(10_000);
    let mut slowest = std::time::Duration::ZERO;
    for number in 0..tried {
        let page = mutated(&pages[number % pages.len()], &mut dice);
        let begun = std::time::Instant::now();
        let found = spence::adopt::adopt(&page, &is_ingredient).unwrap_or_default();
        let took = begun.elapsed();
        assert!(took.as_millis() < most, "page {number} took {took:?}");
        slowest = slowest.max(took);
        for recipe in &found {
            let written = spence::adopt::recipe_file(recipe);
            assert!(written.parse::<toml::Table>().is_ok(), "page {number}: {written}");
            assert!(!recipe.ingredients.is_empty(), "page {number}: half a recipe");
        }
        read += usize::from(!found.is_empty());
    }
    println!("{tried} pages, {read} read, the slowest in {slowest:?}");
    assert!((tried / 10..tried).contains(&read), "{read} of {tried} were read");
}
