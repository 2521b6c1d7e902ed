//! Every verb's JSON against the schema that `keys --schema` writes of it, by a validator that knows nothing of this project (boon, JSON Schema
//! 2020-12).

use std::collections::BTreeSet;
use std::fs;
use std::process::Output;

use boon::{Compiler, SchemaIndex, Schemas};
use serde_json::Value;

use crate::kitchen::{Kitchen, json, sample, stderr};

/// The schemas of a folder.
struct Checker {
    compiler: Compiler,
    schemas: Schemas,
    held: BTreeSet<String>,
}

impl Checker {
    fn of(kitchen: &Kitchen) -> Checker {
        kitchen.done(&["keys", "--schema", "schemas"]);
        let mut compiler = Compiler::new();
        compiler.enable_format_assertions();
        for entry in fs::read_dir(kitchen.path().join("schemas")).expect("schemas").flatten() {
            let name = entry.file_name().to_string_lossy().into_owned();
            let schema: Value = serde_json::from_str(&fs::read_to_string(entry.path()).expect("a file")).expect("JSON");
            compiler.add_resource(&format!("https://spence.test/{name}"), schema).expect("a schema");
        }
        Checker { compiler, schemas: Schemas::new(), held: BTreeSet::new() }
    }

    fn index(&mut self, verb: &str) -> SchemaIndex {
        let address = format!("https://spence.test/{verb}.output.schema.json");
        self.compiler.compile(&address, &mut self.schemas).unwrap_or_else(|error| panic!("{verb}: {error:#}"))
    }

    #[track_caller]
    fn holds(&mut self, verb: &str, output: &Output) {
        assert!(output.status.success() || verb == "check", "{verb}: {}", stderr(output));
        let answer: Value = serde_json::from_slice(&output.stdout).expect("JSON");
        let index = self.index(verb);
        if let Err(error) = self.schemas.validate(&answer, index) {
            panic!("{verb}: {error:#}");
        }
        self.held.insert(verb.to_owned());
    }
}

const PAGE: &str = "Plain beans\n\nServes 4\n\nIngredients\n200 g dried white beans\n1 onion\n\nMethod\nBoil the beans for 1 hour.\n";

#[test]
fn every_answer_of_the_sample_holds_its_schema() {
    let kitchen = sample().file("beans.txt", PAGE);
    let mut checker = Checker::of(&kitchen);
    // In the order of a week that is lived; `--all` and the other flags have keys of their own.
    let runs: &[(&str, &[&str])] = &[
        ("2026-11-27", &["check"]),
        ("2026-11-27", &["list", "--compare"]),
        ("2026-11-27", &["prep", "--effort", "low"]),
        ("2026-11-27", &["compose", "--week", "2026-12-07", "--effort", "low"]),
        ("2026-11-27", &["compose", "--count"]),
        ("2026-11-27", &["print", "--effort", "low"]),
        ("2026-11-27", &["print", "--recipe", "pearl-barley"]),
        ("2026-11-27", &["handout", "--effort", "low"]),
        ("2026-11-27", &["stock"]),
        ("2026-11-27", &["food", "feta"]),
        ("2026-11-27", &["food", "saffron"]),
        ("2026-11-27", &["recipe", "leek-soup", "--for", "12 portions"]),
        ("2026-11-27", &["recipe", "white-bean-mash"]),
        ("2026-11-27", &["convert", "2 cups chopped onion", "g"]),
        ("2026-11-27", &["keys"]),
        ("2026-11-27", &["keys", "--schema", "again"]),
        ("2026-11-27", &["adopt", "beans.txt"]),
        ("2026-11-27", &["start", "another"]),
        ("2026-11-28", &["receive", "--sheet", "goods.toml"]),
        ("2026-11-28", &["receive", "--without", "raisin", "--paid", "feta=2.99"]),
        ("2026-11-29", &["issue"]),
        ("2026-11-30", &["issue", "--meal", "mon supper"]),
        ("2026-11-30", &["day"]),
        ("2026-12-02", &["day", "wed"]),
        ("2026-12-01", &["list", "--all"]),
        ("2026-12-01", &["prep", "--all", "--effort", "low"]),
        ("2026-12-01", &["stock"]),
        ("2026-12-01", &["waste", "50 g feta", "--why", "mould"]),
        ("2026-12-01", &["stock", "--waste"]),
        ("2026-12-01", &["count", "--sheet"]),
        ("2026-12-01", &["look"]),
        ("2026-12-01", &["book"]),
        ("2026-12-01", &["undo"]),
        ("2026-12-01", &["exchange", "thu supper", "sat supper"]),
        ("2026-12-01", &["skip", "fri 19:00"]),
    ];
    for (today, arguments) in runs {
        checker.holds(arguments[0], &kitchen.run_on(today, &[&["--format", "json"], *arguments].concat()));
    }
    let sheet = fs::read_dir(kitchen.path().join("sheets")).expect("sheets").flatten().map(|entry| entry.path());
    let sheet = sheet.into_iter().find(|path| {
        path.file_name()
            .is_some_and(|name| name.to_string_lossy().starts_with("count") && path.extension().is_some_and(|end| end == "toml"))
    });
    let sheet = sheet.expect("a count sheet");
    let counted = fs::read_to_string(&sheet).expect("a sheet").replacen("\ncounted = \"\"", "\ncounted = \"0\"", 1);
    fs::write(&sheet, counted).expect("a sheet");
    checker.holds("count", &kitchen.run_on("2026-12-01", &["--format", "json", "count", &sheet.to_string_lossy()]));
    // Whoever writes a schema is held to it here.
    let written = fs::read_dir(kitchen.path().join("schemas")).expect("schemas").flatten();
    let named = written.filter_map(|entry| entry.file_name().to_string_lossy().strip_suffix(".output.schema.json").map(str::to_owned));
    assert_eq!(named.collect::<BTreeSet<String>>(), checker.held);
}

#[test]
fn mistakes_hold_the_schema_of_check() {
    let kitchen = sample();
    let mut checker = Checker::of(&kitchen);
    let kitchen = kitchen.file("recipes/broken.toml", "name = 3\n");
    let output = kitchen.run(&["--format", "json", "check"]);
    assert_eq!(output.status.code(), Some(1));
    checker.holds("check", &output);
}

#[test]
fn an_answer_with_a_key_too_many_does_not_hold() {
    let kitchen = sample();
    let mut checker = Checker::of(&kitchen);
    let index = checker.index("stock");
    let mut answer = json(&kitchen.run(&["--format", "json", "stock"]));
    assert!(checker.schemas.validate(&answer, index).is_ok());
    answer["places"][0]["lots"][0]["colour"] = "blue".into();
    assert!(checker.schemas.validate(&answer, index).is_err());
}

#[test]
fn every_verb_of_the_command_line_has_a_schema_or_writes_no_json() {
    let kitchen = sample();
    kitchen.done(&["keys", "--schema", "schemas"]);
    let help = kitchen.done(&["--help"]);
    let verbs = help.lines().skip_while(|line| *line != "Verbs:").skip(1).take_while(|line| !line.is_empty());
    let verbs: Vec<&str> =
        verbs.filter(|line| line.starts_with("  ") && !line.starts_with("   ")).filter_map(|line| line.split_whitespace().next()).collect();
    assert!(verbs.len() > 20, "{verbs:?}");
    for verb in verbs.into_iter().filter(|verb| !["completions", "man", "help"].contains(verb)) {
        assert!(kitchen.path().join(format!("schemas/{verb}.output.schema.json")).exists(), "{verb} has no schema of its JSON");
    }
}

/// The words in backticks of a part of README.
fn named(part: &str) -> BTreeSet<&str> {
    let spans = part.split('`').skip(1).step_by(2);
    spans.flat_map(|span| span.split(|letter: char| !letter.is_alphanumeric() && letter != '_')).collect()
}

fn properties(schema: &Value, into: &mut BTreeSet<String>) {
    match schema {
        Value::Object(table) => {
            into.extend(table.get("properties").and_then(Value::as_object).into_iter().flat_map(|all| all.keys().cloned()));
            table.values().for_each(|inner| properties(inner, into));
        }
        Value::Array(all) => all.iter().for_each(|inner| properties(inner, into)),
        _ => (),
    }
}

#[test]
fn every_field_of_every_answer_is_named_in_readme() {
    let kitchen = sample();
    kitchen.done(&["keys", "--schema", "schemas"]);
    let readme = fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/README.md")).expect("README.md");
    let part = readme.split("## What scripts read").nth(1).and_then(|rest| rest.split("\n## ").next()).expect("the part");
    let mut fields = BTreeSet::new();
    for entry in fs::read_dir(kitchen.path().join("schemas")).expect("schemas").flatten() {
        if entry.file_name().to_string_lossy().ends_with(".output.schema.json") {
            let schema: Value = serde_json::from_str(&fs::read_to_string(entry.path()).expect("a file")).expect("JSON");
            properties(&schema, &mut fields);
        }
    }
    assert!(fields.len() > 200, "{}", fields.len());
    let known = named(part);
    let unnamed: Vec<&String> = fields.iter().filter(|field| !known.contains(field.as_str())).collect();
    assert!(unnamed.is_empty(), "not in README: {unnamed:?}");
}
