//! How the shelf is told: one way of saying an amount wherever a lot is told, which shelf it is, and what lies past its date.

use pretty_assertions::assert_eq;
use serde_json::{Value, json};

use crate::kitchen::{Kitchen, draws, json as read, kitchen, supper};

const MASH: &str = "name = \"Moon mash\"\nmakes = \"4 portions\"\nbatches = \"any\"\nkeeps = { fridge = \"4 days\" }\n\
                    ingredients = [\"400 g bluegrain\"]\n[[step]]\ntext = \"Stir.\"\nhands = \"6 min\"\n";

const FOODS: &str = "[[food]]\nname = \"bluegrain\"\nallergens = []\nkeeps = { cupboard = \"300 days\" }\nsource = \"weighed at home\"\n";

fn rows<'t>(text: &'t str, title: &str) -> Vec<&'t str> {
    let after = text.split_once(&format!("\n{title}\n")).map(|(_, after)| after).unwrap_or_default();
    after.lines().take_while(|line| !line.is_empty()).map(str::trim).collect()
}

#[test]
fn stock_says_that_it_shows_the_shelf_as_booked_and_what_lies_otherwise_with_what_is_taken_as_done() {
    // 500 g at home. Sunday made three portions of 100 g; Monday ate one, and 50 g of the grain: 150 g and two portions are left on Tuesday.
    let one = "\"1 portion recipe:mash\"";
    let meals =
        supper("2026-11-30", "\"1 portion recipe:mash\", \"50 g bluegrain\"") + &supper("2026-12-01", one) + &supper("2026-12-02", one);
    let lot = "[[lot]]\nfood = \"bluegrain\"\namount = \"500 g\"\nplace = \"cupboard\"\nbest_before = 2027-05-01\n";
    let kitchen = kitchen().foods(FOODS).recipe("mash", MASH).pantry(lot).meals(&meals);
    let said = kitchen.done_on("2026-12-01", &["stock"]);
    assert!(said.starts_with("Test row: on the shelf on Tue 1 Dec 2026, as booked\n"), "{said}");
    assert_eq!(rows(&said, "cupboard"), ["500 g  bluegrain  Sat 1 May 2027"]);
    assert_eq!(
        rows(&said, "Otherwise, with what is not booked and taken as done"),
        [
            "150 g       bluegrain  cupboard  until Sat 1 May 2027  booked 500 g",
            "2 portions  Moon mash  fridge    until Thu 3 Dec       booked none"
        ],
        "{said}"
    );
    let stock = read(&kitchen.run_on("2026-12-01", &["--format", "json", "stock"]));
    let grams = |grams: f64| json!({"amount": grams, "unit": "g"});
    let taken = json!([
        {"food": "bluegrain", "amount": grams(150.0), "booked": grams(500.0), "place": "cupboard", "until": "2027-05-01"},
        {"recipe": "mash", "amount": {"amount": 2.0, "unit": "portion"}, "booked": {"amount": 0.0, "unit": "portion"}, "place": "fridge",
         "until": "2026-12-03"},
    ]);
    assert_eq!(stock["taken_as_done"], taken);
    // Booked, there is one shelf.
    kitchen.done_on("2026-12-01", &["issue"]);
    kitchen.done_on("2026-12-01", &["issue", "--until", "2026-11-30"]);
    let said = kitchen.done_on("2026-12-01", &["stock"]);
    assert!(said.starts_with("Test row: on the shelf on Tue 1 Dec 2026\n") && !said.contains("taken as done"), "{said}");
    assert_eq!(read(&kitchen.run_on("2026-12-01", &["--format", "json", "stock"]))["taken_as_done"], Value::Null);
    // A later week sees the shelf as booked alone: nothing is taken as done on top of it.
    assert!(!kitchen.done_on("2027-01-10", &["stock"]).contains("bluegrain  cupboard"));
}

/// Half a bulb of garlic and 428 g of bluegrain, all of which Thursday takes.
fn garlic() -> Kitchen {
    let lots = "[[lot]]\nfood = \"garlic\"\namount = \"0.5\"\nplace = \"cupboard\"\n\
                [[lot]]\nfood = \"bluegrain\"\namount = \"428 g\"\nplace = \"cupboard\"\n";
    kitchen().foods(FOODS).pantry(lots).meals(&supper("2026-12-03", "\"428 g bluegrain\", \"7 cloves garlic\""))
}

#[test]
fn a_lot_is_told_alike_in_stock_on_the_list_and_on_the_count_sheet() {
    // Half a bulb of 50 g is 25 g, in cloves of 3.45 g: 7.2, of which seven are there. 428 g are no more than 425 g in steps of 5.
    let kitchen = garlic();
    assert_eq!(rows(&kitchen.done_on("2026-12-01", &["stock"]), "cupboard"), ["7 cloves  garlic", "425 g     bluegrain"]);
    let list = kitchen.done_on("2026-12-01", &["list"]);
    assert_eq!(rows(&list, "Already at home"), ["garlic     7 cloves  cupboard  Thu 3 Dec", "bluegrain  425 g     cupboard  Thu 3 Dec"]);
    kitchen.done_on("2026-12-01", &["count", "--sheet"]);
    let form = kitchen.text("sheets/count-2026-12-01.toml");
    assert!(form.contains("booked = \"0.5\"   # 7 cloves\n") && form.contains("booked = \"428 g\"\n"), "{form}");
}

#[test]
fn what_is_shown_of_a_lot_can_be_thrown_away() {
    for shown in ["7 cloves garlic", "425 g bluegrain"] {
        let kitchen = garlic();
        kitchen.done_on("2026-12-01", &["waste", shown, "--why", "soft"]);
        let name = shown.rsplit(' ').next().unwrap_or_default();
        assert!(!kitchen.text("pantry.toml").contains(name), "all of it is gone: {}", kitchen.text("pantry.toml"));
    }
}

#[test]
fn what_lies_past_its_date_never_stands_under_use_up() {
    // The freezer's bluegrain is past its best before, drawn all the same, and looked at; 300 g of 400 g stay. The fridge's may not be eaten.
    let lots = "[[lot]]\nfood = \"bluegrain\"\namount = \"400 g\"\nplace = \"freezer\"\nbest_before = 2026-11-15\n\
                [[lot]]\nfood = \"bluegrain\"\namount = \"50 g\"\nplace = \"fridge\"\nuse_by = 2026-11-20\n\
                [[lot]]\nfood = \"bluegrain\"\namount = \"30 g\"\nplace = \"fridge\"\nuse_by = 2026-11-29\n";
    let kitchen = kitchen().foods(FOODS).pantry(lots).meals(&supper("2026-12-03", "\"100 g bluegrain\""));
    let list = read(&kitchen.run_on("2026-11-27", &["--format", "json", "list"]));
    assert_eq!(draws(&list, "bluegrain"), [("2026-12-03".to_owned(), "freezer".to_owned(), 100.0)]);
    let told = |entry: &Value| (entry["place"].clone(), entry["until"].clone(), entry["past"].clone());
    let expiring: Vec<_> = list["expiring"].as_array().expect("lots").iter().map(told).collect();
    assert_eq!(
        expiring,
        [
            (json!("freezer"), json!("2026-11-15"), Value::Null),
            (json!("fridge"), json!("2026-11-20"), json!(true)),
            (json!("fridge"), json!("2026-11-29"), Value::Null)
        ]
    );
    let past = "Past its date: look, then throw away or book it";
    let text = kitchen.done_on("2026-11-27", &["list"]);
    assert_eq!(
        rows(&text, past),
        ["bluegrain  300 g  freezer  until Sun 15 Nov  look at it first", "bluegrain  50 g   fridge   until Fri 20 Nov"]
    );
    assert_eq!(rows(&text, "Use up"), ["bluegrain  30 g  fridge  until Sun 29 Nov"]);
    let stock = kitchen.done_on("2026-11-27", &["stock"]);
    assert_eq!(
        rows(&stock, past),
        ["400 g  bluegrain  freezer  Sun 15 Nov  look at it first", "50 g   bluegrain  fridge   Fri 20 Nov  past"],
        "{stock}"
    );
    assert_eq!(rows(&stock, "Goes off within seven days"), ["30 g  bluegrain  fridge  Sun 29 Nov"]);
}
