//! A tiny kitchen in a temporary folder, and the built program run on it. It knows the command line and the JSON, nothing inside.
//!
//! Foods carry invented names, so that no figure of the built-in reference gets into a sum.

pub mod one_session;
pub mod stall;

use std::fs;
use std::path::Path;
use std::process::Output;

use assert_cmd::Command;
use serde_json::Value;
use tempfile::TempDir;

/// The day on which tests run: before the first trip of every week in them.
pub const TODAY: &str = "2026-11-27";

/// Household of one eater; no boxing and no washing, so that minutes are those of the steps.
const HOUSEHOLD: &str = r#"
[household]
name = "Test row"
eaters = 1
currency = "EUR"
"#;

const RULES: &str = r#"
[rules]
boxing = "0 min"
wash = "0 min"
"#;

/// What most methods ask for.
pub const OVEN_HOB_AND_COOKER: &str = r#"
[[appliance]]
name = "oven"
room = 2
heat = true
[[appliance]]
name = "hob"
room = 4
[[appliance]]
name = "pressure cooker"
"#;

/// As [`OVEN_HOB_AND_COOKER`], with these beside them.
pub fn appliances(others: &[&str]) -> String {
    let others = others.iter().map(|name| format!("[[appliance]]\nname = \"{name}\"\n"));
    [OVEN_HOB_AND_COOKER.to_owned()].into_iter().chain(others).collect()
}

/// Trip on Saturday 28 November, session on Sunday at 14:00.
pub const SATURDAY_AND_SUNDAY: &str = r#"
from = 2026-11-30
[[trip]]
on = 2026-11-28
[[session]]
start = 2026-11-29T14:00
people = ["cook"]
"#;

/// Sessions on Sunday 29 November and Wednesday 2 December, the second after supper.
pub const TWO_SESSIONS: &str = r#"
from = 2026-11-30
[[trip]]
on = 2026-11-28
[[session]]
start = 2026-11-29T14:00
people = ["cook"]
[[session]]
start = 2026-12-02T19:30
people = ["cook"]
"#;

pub struct Kitchen {
    folder: TempDir,
}

/// A kitchen of one eater without rules of its own.
pub fn kitchen() -> Kitchen {
    Kitchen { folder: TempDir::new().expect("a temporary folder") }.household("").week(SATURDAY_AND_SUNDAY)
}

/// A copy of the sample kitchen.
pub fn sample() -> Kitchen {
    let mut copy = Kitchen { folder: TempDir::new().expect("a temporary folder") };
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-data");
    for part in ["", "recipes", "weeks"] {
        for entry in fs::read_dir(folder.join(part)).expect("a folder").flatten().filter(|entry| entry.path().is_file()) {
            let name = Path::new(part).join(entry.file_name());
            copy = copy.file(&name.to_string_lossy(), &fs::read_to_string(entry.path()).expect("a file"));
        }
    }
    copy
}

impl Kitchen {
    pub fn path(&self) -> &Path {
        self.folder.path()
    }

    pub fn file(self, name: &str, text: &str) -> Self {
        let path = self.path().join(name);
        fs::create_dir_all(path.parent().expect("a parent")).expect("a folder");
        fs::write(path, text).expect("a file");
        self
    }

    /// kitchen.toml with the usual household and rules, and `more` after them.
    pub fn household(self, more: &str) -> Self {
        self.file("kitchen.toml", &format!("{HOUSEHOLD}{RULES}{more}"))
    }

    /// kitchen.toml with the usual household, and `rules` laid into its rules.
    pub fn rules(self, rules: &str) -> Self {
        self.file("kitchen.toml", &format!("{HOUSEHOLD}{RULES}{rules}\n"))
    }

    /// kitchen.toml with the usual household, and these rules alone.
    pub fn only_rules(self, rules: &str) -> Self {
        self.file("kitchen.toml", &format!("{HOUSEHOLD}[rules]\n{rules}\n"))
    }

    pub fn foods(self, text: &str) -> Self {
        self.file("foods.toml", text)
    }

    pub fn shops(self, text: &str) -> Self {
        self.file("shops.toml", text)
    }

    pub fn pantry(self, text: &str) -> Self {
        self.file("pantry.toml", text)
    }

    pub fn recipe(self, id: &str, text: &str) -> Self {
        self.file(&format!("recipes/{id}.toml"), text)
    }

    pub fn week(self, text: &str) -> Self {
        self.file("weeks/week.toml", text)
    }

    /// Saturday's trip, Sunday's session, and `meals`.
    pub fn meals(self, meals: &str) -> Self {
        self.week(&format!("{SATURDAY_AND_SUNDAY}{meals}"))
    }

    pub fn run_on(&self, today: &str, arguments: &[&str]) -> Output {
        Command::cargo_bin("spence")
            .expect("the program is built")
            .current_dir(self.path())
            .arg("--kitchen")
            .arg(self.path())
            .args(["--today", today])
            .args(arguments)
            .output()
            .expect("the program runs")
    }

    pub fn run(&self, arguments: &[&str]) -> Output {
        self.run_on(TODAY, arguments)
    }

    /// Standard output, having ended with status 0.
    #[track_caller]
    pub fn done_on(&self, today: &str, arguments: &[&str]) -> String {
        let output = self.run_on(today, arguments);
        assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
        stdout(&output)
    }

    #[track_caller]
    pub fn done(&self, arguments: &[&str]) -> String {
        self.done_on(TODAY, arguments)
    }

    /// What stands in a file of the folder.
    pub fn text(&self, name: &str) -> String {
        fs::read_to_string(self.path().join(name)).expect("a file")
    }

    pub fn list(&self) -> Value {
        json(&self.run(&["--format", "json", "list"]))
    }

    pub fn list_on(&self, today: &str) -> Value {
        json(&self.run_on(today, &["--format", "json", "list"]))
    }

    pub fn prep(&self) -> Value {
        json(&self.run(&["--format", "json", "prep"]))
    }

    /// What `list` says on standard error, having ended with status 1.
    pub fn refusal(&self) -> String {
        let output = self.run(&["list"]);
        assert_eq!(output.status.code(), Some(1), "it should be refused: {}", stderr(&output));
        assert!(output.stdout.is_empty(), "nothing is printed beside mistakes");
        stderr(&output)
    }
}

/// Standard output as JSON, having ended with status 0.
pub fn json(output: &Output) -> Value {
    assert_eq!(output.status.code(), Some(0), "{}", stderr(output));
    serde_json::from_slice(&output.stdout).expect("only JSON on standard output")
}

pub fn stderr(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

pub fn stdout(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// A meal at supper with what each eater gets.
pub fn supper(on: &str, each: &str) -> String {
    format!("[[meal]]\non = {on}\nat = \"supper\"\neach = [{each}]\n")
}

fn array(value: &Value) -> &Vec<Value> {
    value.as_array().unwrap_or_else(|| panic!("a list is always there: {value}"))
}

/// Every (trip's date, shop, line) of a shopping list, in order.
pub fn lines(list: &Value) -> Vec<(String, Value, Value)> {
    let mut all = Vec::new();
    for trip in array(&list["trips"]) {
        for shop in array(&trip["shops"]) {
            for section in array(&shop["sections"]) {
                for line in array(&section["lines"]) {
                    all.push((trip["on"].as_str().unwrap_or("?").to_owned(), shop["shop"].clone(), line.clone()));
                }
            }
        }
    }
    all
}

/// The only line of `food`, with its trip's date.
pub fn line_with_trip(list: &Value, food: &str) -> (String, Value) {
    let mut found = lines(list).into_iter().filter(|(_, _, line)| line["food"] == food);
    let (on, _, line) = found.next().unwrap_or_else(|| panic!("no line of {food} in {list:#}"));
    assert!(found.next().is_none(), "more than one line of {food} in {list:#}");
    (on, line)
}

pub fn line(list: &Value, food: &str) -> Value {
    line_with_trip(list, food).1
}

pub fn has_line(list: &Value, food: &str) -> bool {
    lines(list).iter().any(|(_, _, line)| line["food"] == food)
}

/// The shop under which `food` stands: null where nobody sells it.
pub fn shop_of(list: &Value, food: &str) -> Value {
    lines(list).into_iter().find(|(_, _, line)| line["food"] == food).unwrap_or_else(|| panic!("no line of {food} in {list:#}")).1
}

/// (size, count) of every pack of a line.
pub fn packs(line: &Value) -> Vec<(String, u64)> {
    array(&line["packs"])
        .iter()
        .map(|pack| (pack["size"].as_str().unwrap_or("?").to_owned(), pack["count"].as_u64().unwrap_or(0)))
        .collect()
}

pub fn sizes(expected: &[(&str, u64)]) -> Vec<(String, u64)> {
    expected.iter().map(|(size, count)| ((*size).to_owned(), *count)).collect()
}

/// Holds `amount` against `{"amount": …, "unit": …}`, floating noise aside.
#[track_caller]
pub fn assert_amount(amount: &Value, expected: f64, unit: &str) {
    let found = amount["amount"].as_f64().unwrap_or_else(|| panic!("not an amount: {amount}"));
    assert!((found - expected).abs() <= 1e-6 * expected.abs().max(1.0), "{found} is not {expected}");
    assert_eq!(amount["unit"], unit);
}

/// (day, place, amount) of everything taken from the pantry of `name`, which is a food or a recipe.
pub fn draws(list: &Value, name: &str) -> Vec<(String, String, f64)> {
    array(&list["from_pantry"])
        .iter()
        .filter(|draw| draw["food"] == name || draw["recipe"] == name)
        .map(|draw| {
            let text = |key: &str| draw[key].as_str().unwrap_or("?").to_owned();
            (text("on"), text("place"), draw["amount"]["amount"].as_f64().unwrap_or(f64::NAN))
        })
        .collect()
}

/// (batches, amount made) of `recipe` in the session of that number; zero where it is not made there.
pub fn batches(prep: &Value, session: usize, recipe: &str) -> f64 {
    array(&prep["sessions"][session]["batches"])
        .iter()
        .filter(|batch| batch["recipe"] == recipe)
        .map(|batch| batch["batches"].as_f64().unwrap_or(f64::NAN))
        .sum()
}

/// The tasks of the first session of that kind and recipe, by the clock.
pub fn tasks<'a>(prep: &'a Value, kind: &str, recipe: &str) -> Vec<&'a Value> {
    array(&prep["sessions"][0]["tasks"])
        .iter()
        .filter(|task| task["kind"] == kind && (recipe.is_empty() || task["recipe"] == recipe))
        .collect()
}

/// The task of the first session that does step `step` of `recipe`, in its only round.
pub fn step<'a>(prep: &'a Value, recipe: &str, step: u64) -> &'a Value {
    let found: Vec<&Value> = tasks(prep, "step", recipe).into_iter().filter(|task| task["step"] == step).collect();
    assert_eq!(found.len(), 1, "step {step} of {recipe} in {prep:#}");
    found[0]
}

#[track_caller]
pub fn minute(task: &Value, key: &str) -> i64 {
    task[key].as_i64().unwrap_or_else(|| panic!("no {key} in {task}"))
}
