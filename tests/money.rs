//! What a week leaves behind and what its money is spent on: left-overs, recipes that use them up, the budget and its advice, old
//! prices, shops compared.

use pretty_assertions::assert_eq;
use serde_json::{Value, json};

use crate::kitchen::stall::{STALL, pack_at};
use crate::kitchen::{Kitchen, assert_amount, json, kitchen, line, shop_of, stderr, stdout, supper};

/// Keeps a year in the cupboard; cream keeps ten days in the fridge, three once opened.
const FOODS: &str = r#"
[[food]]
name = "bluegrain"
keeps = { cupboard = "365 days" }
[[food]]
name = "starcream"
keeps = { fridge = "10 days", opened = "3 days" }
[[food]]
name = "moonroot"
"#;

fn stall() -> String {
    STALL.to_owned() + &pack_at("Stall", "bluegrain", "500 g", "2.00") + &pack_at("Stall", "starcream", "200 g", "1.00")
}

fn household(budget: &str, rules: &str) -> String {
    format!("[household]\nname = \"Test row\"\neaters = 1\ncurrency = \"EUR\"\nbudget = \"{budget}\"\n[rules]\n{rules}\n")
}

/// Grain keeps; cream is opened on Monday and good until Thursday.
fn leaving() -> Kitchen {
    let fed = |name: &str, lines: &str| format!("name = \"{name}\"\nmakes = \"2 portions\"\ningredients = \"\"\"\n{lines}\"\"\"\n");
    kitchen()
        .foods(FOODS)
        .shops(&stall())
        .recipe("porridge", &fed("Porridge", "300 g bluegrain\n100 g starcream\n"))
        .recipe("whip", &fed("Whip", "60 g starcream\n1 moonroot\n"))
        .recipe("roots", &fed("Roots", "3 moonroot\n"))
        .meals(&supper("2026-11-30", "\"100 g bluegrain\", \"120 g starcream\""))
}

#[test]
fn every_line_says_what_stays_over_and_until_when_it_is_good() {
    let list = leaving().list();
    // The trip is on 28 November: a year on for the grain. The cream is opened on Monday 30: three days.
    assert_eq!(line(&list, "bluegrain")["left_until"], "2027-11-28");
    assert_eq!(line(&list, "starcream")["left_until"], "2026-12-03");
    let text = stdout(&leaving().run(&["list"]));
    assert!(text.contains("80 g over, good until Thu 3 Dec\n"), "{text}");
    assert!(text.contains("400 g over, good until Sun 28 Nov 2027\n"), "{text}");
}

#[test]
fn nothing_left_has_no_day() {
    let list = kitchen().foods(FOODS).shops(&stall()).meals(&supper("2026-11-30", "\"500 g bluegrain\"")).list();
    assert_eq!((&line(&list, "bluegrain")["left_until"], &list["leftovers"]), (&Value::Null, &json!([])));
}

#[test]
fn the_list_ends_with_what_the_week_leaves_behind() {
    let grams = |amount: f64| json!({ "amount": amount, "unit": "g" });
    // 80 of 200 g of cream: 0.40. 400 of 500 g of grain: 1.60.
    let expected = json!([
        { "food": "starcream", "amount": grams(80.0), "value": "0.40", "until": "2026-12-03" },
        { "food": "bluegrain", "amount": grams(400.0), "value": "1.60", "until": "2027-11-28" },
    ]);
    assert_eq!(leaving().list()["leftovers"], expected);
}

#[test]
fn a_lot_is_worth_the_same_in_stock_and_in_what_would_use_it_up() {
    // 60 g of cream that goes off, at three pots of 200 g for 2.00: 0.20.
    let offer = STALL.to_owned() + &pack_at("Stall", "starcream", "200 g", "1.00") + "offer = { buy = 3, pay = 2.00 }\n";
    let lot = "[[lot]]\nfood = \"starcream\"\namount = \"60 g\"\nplace = \"fridge\"\nuse_by = 2026-11-30\n";
    let whip = "name = \"Whip\"\nmakes = \"2 portions\"\ningredients = \"\"\"\n60 g starcream\n\"\"\"\n";
    let meals = supper("2026-11-30", "\"1 moonroot\"") + &supper("2026-12-02", "\"1 moonroot\"");
    let kitchen = kitchen().foods(FOODS).shops(&offer).recipe("whip", whip).pantry(lot).meals(&meals);
    let list = kitchen.list();
    let stock = json(&kitchen.run(&["--format", "json", "stock"]));
    assert_eq!((&list["uses"][0]["value"], &stock["places"][1]["lots"][0]["value"]), (&json!("0.20"), &json!("0.20")));
}

#[test]
fn recipes_stand_by_the_value_of_what_one_batch_would_use() {
    let list = leaving().list();
    let uses = list["uses"].as_array().expect("a list");
    // Porridge: 300 g of grain at 0.004 and 80 g of cream at 0.005: 1.20 + 0.40. Whip: 60 g of cream, 0.30. Roots: nothing.
    assert_eq!(
        uses.iter().map(|entry| (entry["recipe"].as_str(), entry["value"].as_str())).collect::<Vec<_>>(),
        [(Some("porridge"), Some("1.60")), (Some("whip"), Some("0.30"))]
    );
    assert_amount(&uses[0]["uses"][0]["amount"], 300.0, "g");
    assert_amount(&uses[0]["uses"][1]["amount"], 80.0, "g");
    // 100 g of cream less the 80 in hand.
    assert_eq!(uses[0]["needs"].as_array().map(Vec::len), Some(1));
    assert_amount(&uses[0]["needs"][0]["amount"], 20.0, "g");
    assert_eq!(uses[1]["needs"], json!([{ "food": "moonroot", "amount": { "amount": 1.0, "unit": "each" } }]));
}

#[test]
fn an_expiring_lot_counts_at_the_price_of_its_food_unless_it_may_no_longer_be_eaten() {
    let lot = |until: &str| format!("[[lot]]\nfood = \"starcream\"\namount = \"50 g\"\nplace = \"fridge\"\nuse_by = {until}\n");
    let week = || leaving().meals(&(supper("2026-11-30", "\"500 g bluegrain\"") + &supper("2026-12-06", "\"500 g bluegrain\"")));
    let uses = |kitchen: Kitchen| kitchen.list()["uses"].clone();
    // 50 g at 1.00 for 200 g; nothing of the grain is left.
    let used = uses(week().pantry(&lot("2026-12-01")));
    assert_eq!((used[0]["recipe"].as_str(), used[0]["value"].as_str()), (Some("porridge"), Some("0.25")));
    assert_eq!(uses(week().pantry(&lot("2026-11-27"))), json!([]));
}

#[test]
fn what_is_used_what_keeps_and_what_spoils_add_up_to_the_total() {
    // 3.00 in all. The cream is gone by Thursday, 0.40; the grain keeps, 1.60; used 1.00.
    let list = leaving().list();
    assert_eq!((list["cost"].as_str(), &list["worth"]), (Some("3.00"), &json!({ "used": "1.00", "keeps": "1.60", "spoils": "0.40" })));
}

#[test]
fn rounding_and_fares_count_as_used_and_a_top_up_as_kept() {
    let shops = "[[shop]]\nname = \"Stall\"\ntrip = \"0.50\"\n".to_owned() + &pack_at("Stall", "bluegrain", "300 g", "1.00");
    let staple = "[[staple]]\nfood = \"bluegrain\"\npar = \"100 g\"\n";
    let week = kitchen().foods(FOODS).shops(&shops).household(staple).meals(&supper("2026-11-30", "\"100 g bluegrain\""));
    let list = week.list();
    // A third each is used, put by as a staple, and left: 1.00 / 3 twice is 0.67; with the fare 1.50 - 0.67 are used.
    assert_eq!((list["cost"].as_str(), &list["worth"]), (Some("1.50"), &json!({ "used": "0.83", "keeps": "0.67", "spoils": "0.00" })));
    assert_amount(&list["leftovers"][0]["amount"], 100.0, "g");
}

#[test]
fn without_a_budget_there_is_none_and_within_it_nothing_is_advised() {
    assert_eq!(leaving().list()["budget"], Value::Null);
    let within = leaving().file("kitchen.toml", &household("3.00", "")).list();
    assert_eq!(within["budget"], json!({ "limit": "3.00", "cost": "3.00", "over": "0.00", "changes": [], "together": null }));
}

#[test]
fn over_budget_the_extras_that_save_most_are_named_with_all_of_them_together() {
    let meals = supper("2026-11-30", "\"100 g bluegrain\", \"120 g starcream\"")
        + &supper("2026-12-01", "\"400 g bluegrain\", \"300 g bluegrain\"");
    let list = leaving().file("kitchen.toml", &household("3.50", "")).meals(&meals).list();
    // 800 g of grain are two packs, 4.00; cream 1.00. One pack does without the 300 g, or without the 400 g; dropping 100 g saves nothing.
    // Without cream 4.00. All three: 100 g of grain, 2.00. Of equal savings the one served first.
    let change = |text: &str, saves: &str, cost: &str| json!({ "change": text, "saves": saves, "cost": cost });
    let expected = json!({
        "limit": "3.50", "cost": "5.00", "over": "1.50",
        "changes": [
            change("leave out \"400 g bluegrain\" for each at Tue supper", "2.00", "3.00"),
            change("leave out \"300 g bluegrain\" for each at Tue supper", "2.00", "3.00"),
            change("leave out \"120 g starcream\" for each at Mon supper", "1.00", "4.00"),
        ],
        "together": "2.00",
    });
    assert_eq!(list["budget"], expected);
}

#[test]
fn over_budget_a_finer_cut_of_batches_is_tried_where_something_is_spare() {
    let stew = "name = \"Stew\"\nmakes = \"2 portions\"\nbatches = \"whole\"\ningredients = \"400 g bluegrain\"\nkeeps = { fridge = \"3 days\" }\n";
    let list = kitchen()
        .foods(FOODS)
        .shops(&stall())
        .file("kitchen.toml", &household("3.00", ""))
        .recipe("stew", stew)
        .meals(&supper("2026-11-30", "\"2.2 portions recipe:stew\""))
        .list();
    // 2.2 portions are two whole batches, 800 g, two packs; in halves 1.5 batches, 600 g, two packs as well.
    assert_eq!(list["budget"]["changes"], json!([]));
    let halves = stew.replace("400 g", "320 g");
    let list = kitchen()
        .foods(FOODS)
        .shops(&stall())
        .file("kitchen.toml", &household("3.00", ""))
        .recipe("stew", &halves)
        .meals(&supper("2026-11-30", "\"2.2 portions recipe:stew\""))
        .list();
    // 640 g are two packs; in halves 480 g are one.
    assert_eq!(list["budget"]["changes"], json!([{ "change": "make Stew in half batches", "saves": "2.00", "cost": "2.00" }]));
    assert_eq!(list["budget"]["together"], "2.00");
}

#[test]
fn over_budget_the_cheapest_packs_are_tried_where_the_rule_is_another() {
    let shops = STALL.to_owned() + &pack_at("Stall", "bluegrain", "500 g", "2.00") + &pack_at("Stall", "bluegrain", "100 g", "0.90");
    let list = kitchen()
        .foods(FOODS)
        .shops(&shops)
        .file("kitchen.toml", &household("2.50", "choose = \"least-left\""))
        .meals(&supper("2026-11-30", "\"300 g bluegrain\""))
        .list();
    // Three of 100 g leave nothing and cost 2.70; one of 500 g costs 2.00. Dropping the line saves it all.
    assert_eq!((list["cost"].as_str(), list["budget"]["over"].as_str()), (Some("2.70"), Some("0.20")));
    let changes = list["budget"]["changes"].as_array().expect("a list");
    assert_eq!(changes[0]["cost"], "0.00");
    assert_eq!(changes[1], json!({ "change": "buy the cheapest packs of bluegrain", "saves": "0.70", "cost": "2.00" }));
}

#[test]
fn a_shop_is_left_out_only_where_everything_is_still_bought() {
    // Saturday goes to the hill alone, Monday to the stall alone. Grain of both belongs to Saturday, and costs a bus there.
    let week = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\nshops = [\"Hill\"]\n[[trip]]\non = 2026-11-30\nshops = [\"Stall\"]\n";
    let shops = stall() + "[[shop]]\nname = \"Hill\"\ntrip = \"3.00\"\n" + &pack_at("Hill", "bluegrain", "500 g", "2.00");
    let supper_of = |lines: &str| format!("{week}{}", supper("2026-12-01", lines));
    let over = |shops: &str, lines: &str| {
        let kitchen = kitchen().foods(FOODS).shops(shops).file("kitchen.toml", &household("0.50", "")).week(&supper_of(lines));
        kitchen.list()["budget"]["changes"].as_array().expect("a list").iter().map(|change| change["change"].clone()).collect::<Vec<_>>()
    };
    // Hill 3.00 + 2.00; at the stall 2.00.
    assert!(over(&shops, "\"300 g bluegrain\"").contains(&json!("leave out Hill")));
    let shops = shops + &pack_at("Hill", "moonroot", "6", "1.00");
    assert!(!over(&shops, "\"300 g bluegrain\", \"2 moonroot\"").contains(&json!("leave out Hill")), "nobody else sells moonroot");
}

#[test]
fn the_text_says_by_how_much_the_week_is_over_and_what_would_help() {
    let kitchen = leaving().file("kitchen.toml", &household("2.50", ""));
    let text = stdout(&kitchen.run(&["list"]));
    let end = &text[text.find("Total").expect("a total")..];
    let expected = "Total 3.00 EUR
  used 1.00, left and good for another week 1.60, left and will spoil 0.40

Budget 2.50 EUR a week; the week costs 3.00
  0.50 over
  leave out \"100 g bluegrain\" for each at Mon supper  saves 2.00  then 1.00
  leave out \"120 g starcream\" for each at Mon supper  saves 1.00  then 2.00
  all of these                                                    then 0.00
";
    assert_eq!(end, expected);
}

#[test]
fn a_budget_that_is_no_money_is_a_mistake() {
    let refusal = leaving().file("kitchen.toml", &household("-1", "")).refusal();
    assert!(refusal.contains("kitchen.toml:5"), "{refusal}");
}

fn two_shops() -> Kitchen {
    let shops = stall() + "[[shop]]\nname = \"Hill\"\ntrip = \"0.30\"\n" + &pack_at("Hill", "bluegrain", "500 g", "1.50");
    leaving().shops(&shops)
}

#[test]
fn compare_shows_each_shop_alone_and_the_best_pair() {
    let kitchen = two_shops();
    let compare = json(&kitchen.run(&["--format", "json", "list", "--compare"]))["compare"].clone();
    let round = |shops: &[&str], cost: &str, lacks: &[&str]| json!({ "shops": shops, "cost": cost, "lacks": lacks });
    // Both: cream 1.00, grain 1.50, fare 0.30. The stall alone 3.00. The hill alone 1.80, without cream.
    let both = round(&["Stall", "Hill"], "2.80", &[]);
    let expected = json!([{
        "on": "2026-11-28", "chosen": both, "pair": both,
        "single": [round(&["Stall"], "3.00", &[]), round(&["Hill"], "1.80", &["starcream"])],
    }]);
    assert_eq!(compare, expected);
    assert!(kitchen.list().get("compare").is_none(), "only where it is asked for");
}

#[test]
fn compare_is_a_small_table_in_the_text() {
    let text = stdout(&two_shops().run(&["list", "--compare"]));
    let expected = "Compared
  Sat 28 Nov
    as listed  Stall and Hill  2.80
    one shop   Stall           3.00
    one shop   Hill            1.80  lacks starcream
    best pair  Stall and Hill  2.80
";
    assert!(text.ends_with(expected), "{text}");
}

#[test]
fn a_fare_changes_the_answer() {
    let list = two_shops().list();
    assert_eq!((list["cost"].as_str(), shop_of(&list, "bluegrain")), (Some("2.80"), json!("Hill")));
    // At a fare of 0.60 the grain costs 2.10 up the hill.
    let dear = stall() + "[[shop]]\nname = \"Hill\"\ntrip = \"0.60\"\n" + &pack_at("Hill", "bluegrain", "500 g", "1.50");
    let list = leaving().shops(&dear).list();
    assert_eq!((list["cost"].as_str(), shop_of(&list, "bluegrain")), (Some("3.00"), json!("Stall")));
}

#[test]
fn old_prices_are_remarked_on_once() {
    let old = stall().replace("price = 2.00\n", "price = 2.00\nseen = 2026-08-01\n");
    let said = stderr(&leaving().shops(&old).run(&["list"]));
    assert_eq!(said.matches("prices seen more than 90 days ago: bluegrain.").count(), 1, "{said}");
}
