//! What is done is shown as it was booked: a trip by what it brought and what was paid, a session by what it made, took and boxed. What is
//! taken as done is shown as it was printed.

use pretty_assertions::assert_eq;
use serde_json::{Value, json};

use crate::kitchen::{Kitchen, assert_amount, has_line, json as read, kitchen, line, line_with_trip, packs, shop_of, sizes, supper};

const MASH: &str = "name = \"Moon mash\"\nmakes = \"4 portions\"\nbatches = \"any\"\nkeeps = { fridge = \"3 days\" }\n\
                    ingredients = [\"400 g bluegrain\"]\n[[step]]\ntext = \"Stir {bluegrain}.\"\nhands = \"6 min\"\n";

/// Hot on Sunday evening, straight from the pot.
const SOUP: &str = "name = \"Moon soup\"\nmakes = \"2 portions\"\nserve = \"hot\"\nkeeps = { fridge = \"3 days\" }\n\
                    ingredients = [\"100 g mooncress\"]\n[[step]]\ntext = \"Simmer {mooncress}.\"\nhands = \"6 min\"\n";

/// The way to the stall costs 1.00.
const SHOPS: &str = "[[shop]]\nname = \"Stall\"\ntrip = \"1.00\"\n[[shop]]\nname = \"Kiosk\"\n\
    [[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nsize = \"100 g\"\nprice = 1.00\n\
    [[pack]]\nshop = \"Stall\"\nfood = \"mooncress\"\nloose = true\nprice = \"0.50 / 100 g\"\n\
    [[pack]]\nshop = \"Stall\"\nfood = \"bitterleaf\"\nsize = \"50 g\"\nprice = 0.90\n\
    [[pack]]\nshop = \"Kiosk\"\nfood = \"starroot\"\nsize = \"200 g\"\nprice = 2.00\n";

/// Four portions of mash, two of soup, 50 g of bitterleaf and 200 g of starroot.
///
/// The list: 4 x 100 g bluegrain 4.00, 100 g mooncress 0.50, 1 x 50 g bitterleaf 0.90, the way to the stall 1.00; 1 x 200 g starroot 2.00:
/// 8.40.
fn week() -> Kitchen {
    let meals = supper("2026-11-29", "\"2 portions recipe:soup\"")
        + &supper("2026-11-30", "\"2 portions recipe:mash\"")
        + &supper("2026-12-01", "\"2 portions recipe:mash\", \"50 g bitterleaf\"")
        + &supper("2026-12-02", "\"200 g starroot\"");
    let food = |name: &str| format!("[[food]]\nname = \"{name}\"\nallergens = []\nsource = \"weighed at home\"\n");
    let foods: String = ["bluegrain", "mooncress", "bitterleaf", "starroot", "comet egg"].into_iter().map(food).collect();
    let week =
        "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T16:00\nfinish_by = \"18:00\"\npeople = [\"cook\"]\n";
    kitchen().foods(&foods).shops(SHOPS).recipe("mash", MASH).recipe("soup", SOUP).week(&format!("{week}{meals}"))
}

fn list_on(kitchen: &Kitchen, today: &str) -> Value {
    read(&kitchen.run_on(today, &["--format", "json", "list", "--all"]))
}

fn session_on(kitchen: &Kitchen, today: &str) -> Value {
    read(&kitchen.run_on(today, &["--format", "json", "prep", "--all"]))["sessions"][0].clone()
}

fn printed(kitchen: &Kitchen) -> Value {
    serde_json::from_str(&kitchen.text("sheets/plan-2026-11-30.json")).expect("a print")
}

fn without_state(mut of: Value) -> Value {
    of.as_object_mut().map(|of| of.remove("state"));
    of
}

/// Printed on Friday. On Saturday there was no bitterleaf, the bluegrain came in two packs of 250 g for 4.50, the starroot cost 1.80, and
/// three eggs for 0.90 came along.
fn shopped() -> Kitchen {
    let kitchen = week();
    kitchen.done_on("2026-11-27", &["print"]);
    kitchen.done_on(
        "2026-11-28",
        &[
            &["receive", "--without", "bitterleaf", "--instead", "bluegrain=2 x 250 g", "--paid", "bluegrain=4.50"][..],
            &["--paid", "starroot=1.80", "--also", "3 comet egg at 0.90"],
        ]
        .concat(),
    );
    kitchen
}

#[test]
fn a_booked_trip_shows_what_it_brought_and_what_was_paid() {
    let kitchen = shopped();
    let list = list_on(&kitchen, "2026-11-29");
    let trip = &list["trips"][0];
    // 4.50 + 0.50 and 1.00 for the way at the stall, 1.80 at the kiosk, 0.90 for the eggs.
    assert_eq!((&trip["state"], &trip["cost"]), (&json!("done"), &json!("8.70")));
    assert_eq!(trip["not_booked"], json!(["bitterleaf"]));
    let visits: Vec<_> = trip["shops"].as_array().expect("shops").iter().map(|visit| (&visit["shop"], &visit["cost"])).collect();
    assert_eq!(visits, [(&json!("Stall"), &json!("6.00")), (&json!("Kiosk"), &json!("1.80")), (&Value::Null, &Value::Null)], "{trip:#}");
    let bluegrain = line(&list, "bluegrain");
    assert_eq!((packs(&bluegrain), &bluegrain["cost"]), (sizes(&[("250 g", 2)]), &json!("4.50")));
    // 400 g were needed, and 500 g came.
    assert_amount(&bluegrain["need"], 400.0, "g");
    assert_amount(&bluegrain["left"], 100.0, "g");
    assert_eq!(bluegrain["for"], json!(["Moon mash"]));
    assert!(!list["trips"][0]["shops"].to_string().contains("bitterleaf"), "it was not got");
    // What the week still wants of it is asked for again.
    assert_eq!(line_with_trip(&list, "bitterleaf").0, "2026-12-01");
    let starroot = line(&list, "starroot");
    assert_eq!((packs(&starroot), &starroot["cost"], shop_of(&list, "starroot")), (sizes(&[("200 g", 1)]), &json!("1.80"), json!("Kiosk")));
    let egg = line(&list, "comet egg");
    assert_eq!((&egg["cost"], &egg["need"]["amount"], &egg["for"]), (&json!("0.90"), &json!(0.0), &json!([])));
    // A line that was booked as it was printed stands word for word as it was.
    assert_eq!(line(&list, "mooncress"), line(&printed(&kitchen)["list"], "mooncress"));
}

#[test]
fn the_terminal_says_of_a_booked_trip_what_was_bought_and_what_was_not() {
    let kitchen = shopped();
    let said = kitchen.done_on("2026-11-29", &["list", "--all"]);
    assert!(said.contains("Sat 28 Nov 2026  8.70 EUR  done"), "{said}");
    assert!(said.contains("[x] 2 × 250 g"), "{said}");
    assert!(said.contains("Printed, and not booked as bought: bitterleaf."), "{said}");
}

#[test]
fn what_is_taken_as_done_and_what_a_later_print_keeps_is_as_it_was_printed() {
    let kitchen = shopped();
    let before = printed(&kitchen);
    kitchen.done_on("2026-11-29", &["print", "--all"]);
    let after = printed(&kitchen);
    assert_eq!(without_state(after["list"]["trips"][0].clone()), without_state(before["list"]["trips"][0].clone()));
    kitchen.done_on("2026-11-29", &["undo"]);
    let list = list_on(&kitchen, "2026-11-29");
    assert_eq!((&list["trips"][0]["state"], &list["trips"][0]["cost"]), (&json!("taken as done"), &json!("8.40")));
    assert!(has_line(&list, "bitterleaf") && !has_line(&list, "comet egg"), "{list:#}");
}

#[test]
fn a_trip_booked_as_printed_stays_as_it_was_printed() {
    let kitchen = week();
    kitchen.done_on("2026-11-27", &["print"]);
    kitchen.done_on("2026-11-28", &["receive"]);
    let trip = without_state(list_on(&kitchen, "2026-11-29")["trips"][0].clone());
    assert_eq!(trip, without_state(printed(&kitchen)["list"]["trips"][0].clone()));
}

#[test]
fn a_trip_that_was_never_printed_says_the_shops_in_which_it_was_bought() {
    let kitchen = week();
    kitchen.done_on("2026-11-28", &["receive", "--paid", "starroot=1.80"]);
    let list = list_on(&kitchen, "2026-11-29");
    // 4.00 + 0.50 + 0.90 + 1.00 for the way, and 1.80.
    assert_eq!(
        (&list["trips"][0]["cost"], shop_of(&list, "starroot"), shop_of(&list, "bluegrain")),
        (&json!("8.20"), json!("Kiosk"), json!("Stall"))
    );
    assert_eq!(list["trips"][0]["shops"][0]["trip_cost"], "1.00");
}

#[test]
fn a_trip_booked_in_two_parts_is_the_sum_of_both() {
    let kitchen = week();
    kitchen.done_on("2026-11-27", &["print"]);
    let sheet = kitchen.path().join("goods.toml").display().to_string();
    kitchen.done_on("2026-11-28", &["receive", "--sheet", &sheet]);
    let text = kitchen.text("goods.toml");
    let (head, starroot) = text.split_at(text.find("\n[[line]]\nfood = \"starroot\"").expect("the last line"));
    let part = |name: &str, text: &str| std::fs::write(kitchen.path().join(name), text).expect("a sheet");
    part("first.toml", head);
    part(
        "second.toml",
        &(head[..head.find("\n[[line]]").expect("a line")].to_owned() + &starroot.replace("paid = \"\"", "paid = \"1.70\"")),
    );
    for name in ["first.toml", "second.toml"] {
        kitchen.done_on("2026-11-28", &["receive", &kitchen.path().join(name).display().to_string()]);
    }
    // 6.40 at the stall with the way, 1.70 at the kiosk.
    assert_eq!(list_on(&kitchen, "2026-11-29")["trips"][0]["cost"], "8.10");
}

#[test]
fn a_session_booked_as_printed_stays_word_for_word_as_it_was_printed() {
    let kitchen = week();
    kitchen.done_on("2026-11-27", &["print"]);
    kitchen.done_on("2026-11-28", &["receive"]);
    kitchen.done_on("2026-11-29", &["issue"]);
    let session = session_on(&kitchen, "2026-11-30");
    assert_eq!(session["state"], "done");
    assert_eq!(without_state(session), without_state(printed(&kitchen)["prep"]["sessions"][0].clone()));
}

#[test]
fn a_session_booked_otherwise_shows_what_was_made_taken_and_boxed() {
    // Printed for four portions; Tuesday wants four by now, six in all: 600 g of bluegrain, of which 500 g were there.
    let kitchen = shopped();
    let text = kitchen.text("weeks/week.toml").replace("\"2 portions recipe:mash\", \"50 g", "\"4 portions recipe:mash\", \"50 g");
    let kitchen = kitchen.week(&text);
    assert_eq!(kitchen.run_on("2026-11-29", &["issue"]).status.code(), Some(2), "the plan has changed");
    kitchen.done_on("2026-11-29", &["issue", "--replan"]);
    let session = session_on(&kitchen, "2026-11-30");
    let mash =
        |of: &Value, key: &str| of[key].as_array().into_iter().flatten().find(|one| one["recipe"] == "mash").cloned().unwrap_or_default();
    assert_eq!(mash(&session, "batches"), json!({"recipe": "mash", "batches": 1.5, "makes": {"amount": 6.0, "unit": "portion"}}));
    let boxed = mash(&session, "boxes");
    assert_eq!((&boxed["portions"], &boxed["place"], &boxed["use_by"]), (&json!(6.0), &json!("fridge"), &json!("2026-12-02")));
    // The soup was served straight from the pot: no box.
    assert_eq!(session["boxes"].as_array().map(Vec::len), Some(1), "{session:#}");
    let fetched: Vec<_> =
        session["fetch"].as_array().expect("foods").iter().map(|one| (&one["food"], &one["amount"], &one["from"])).collect();
    let grams = |grams: f64| json!({"amount": grams, "unit": "g"});
    let of_bluegrain = json!([{"amount": grams(500.0), "place": "cupboard"}]);
    assert!(fetched.contains(&(&json!("bluegrain"), &grams(500.0), &of_bluegrain)), "{session:#}");
    // The order of the steps is known to the print alone.
    assert_eq!(session["tasks"], printed(&kitchen)["prep"]["sessions"][0]["tasks"]);
    let said = kitchen.done_on("2026-11-30", &["prep", "--all"]);
    assert!(said.contains("done: 6 portions of Moon mash") && said.contains("6 portions  fridge, use by Wed 2 Dec"), "{said}");
    let said = kitchen.run_on("2026-11-30", &["print", "--all", "--only", "guide"]);
    assert!(crate::kitchen::stderr(&said).contains("was booked otherwise than its guide says"), "{said:?}");
    // Taken back, it is as it was printed.
    kitchen.done_on("2026-11-30", &["undo"]);
    assert_eq!(mash(&session_on(&kitchen, "2026-11-30"), "boxes")["portions"], 4.0);
}

#[test]
fn a_session_that_was_never_printed_shows_what_the_book_has_of_it() {
    let kitchen = week();
    kitchen.done_on("2026-11-28", &["receive"]);
    kitchen.done_on("2026-11-29", &["issue"]);
    let session = session_on(&kitchen, "2026-11-30");
    let made: Vec<_> = session["batches"].as_array().expect("batches").iter().map(|one| (&one["recipe"], &one["batches"])).collect();
    assert_eq!(made, [(&json!("mash"), &json!(1.0)), (&json!("soup"), &json!(1.0))], "{session:#}");
    assert_eq!(
        (&session["boxes"][0]["recipe"], &session["boxes"][0]["portions"], session["boxes"].as_array().map(Vec::len)),
        (&json!("mash"), &json!(4.0), Some(1))
    );
}
