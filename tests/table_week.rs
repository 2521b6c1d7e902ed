//! One week in a table, every figure by hand: two trips, two sessions, six meals, and one of each event that upsets a plan.
//!
//! Two eaters. A portion of mash takes 100 g of bluegrain, one of soup 100 g of moon beans. Bluegrain is sold at 2.00 the 500 g, moon beans
//! at 0.80 the 400 g, mooncress at 0.50 the 100 g (0.40 the 50 g at the kiosk), comet eggs at 0.30 each. Mooncress keeps four days, moon
//! beans three once opened, mash and soup three.

use pretty_assertions::assert_eq;
use serde_json::Value;

use crate::kitchen::{Kitchen, json, kitchen, stderr, stdout};

const HOUSEHOLD: &str = "[household]\nname = \"Test row\"\neaters = 2\ncurrency = \"EUR\"\nbudget = \"10.00\"\n[rules]\nboxing = \"0 min\"\n\
    wash = \"0 min\"\ncool = \"0 min\"\n[[appliance]]\nname = \"hob\"\nout = \"0 min\"\n[[appliance]]\nname = \"hay box\"\n";

const FOODS: &str = "[[food]]\nname = \"bluegrain\"\nallergens = []\nsource = \"weighed at home\"\n\
    [[food]]\nname = \"moon bean\"\nallergens = []\nkeeps = { opened = \"3 days\" }\nsource = \"weighed at home\"\n\
    [[food]]\nname = \"mooncress\"\nallergens = []\nkeeps = { fridge = \"4 days\" }\nsource = \"weighed at home\"\n\
    [[food]]\nname = \"comet egg\"\nallergens = []\nsource = \"weighed at home\"\n";

const SHOPS: &str = "[[shop]]\nname = \"Stall\"\n[[shop]]\nname = \"Kiosk\"\n\
    [[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nsize = \"500 g\"\nprice = 2.00\n\
    [[pack]]\nshop = \"Stall\"\nfood = \"moon bean\"\nsize = \"400 g\"\nprice = 0.80\n\
    [[pack]]\nshop = \"Stall\"\nfood = \"mooncress\"\nsize = \"100 g\"\nprice = 0.50\n\
    [[pack]]\nshop = \"Kiosk\"\nfood = \"mooncress\"\nsize = \"50 g\"\nprice = 0.40\n\
    [[pack]]\nshop = \"Stall\"\nfood = \"comet egg\"\nloose = true\nprice = \"0.30 / each\"\n";

const MASH: &str = "name = \"Moon mash\"\nmakes = \"4 portions\"\nbatches = \"any\"\nkeeps = { fridge = \"3 days\" }\n\
    ingredients = [\"400 g bluegrain\"]\n[[step]]\ntext = \"Stir.\"\nhands = \"40 min\"\nscales = false\n";

const SOUP: &str = "name = \"Moon soup\"\nmakes = \"2 portions\"\nbatches = \"any\"\nkeeps = { fridge = \"3 days\" }\n\
    ingredients = [\"200 g moon beans\"]\n[[step]]\ntext = \"Simmer.\"\nhands = \"5 min\"\nwait = \"30 min\"\non = \"hob\"\n\
    or_on = \"hay box\"\nor_wait = \"45 min\"\n";

const WEEK: &str = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\nshops = [\"Stall\"]\n[[trip]]\non = 2026-12-02\nshops = [\"Stall\"]\n\
    [[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n[[session]]\nstart = 2026-12-02T19:30\npeople = [\"cook\", \"Jo\"]\n\
    [[meal]]\nday = \"mon\"\nat = \"supper\"\neach = [\"1 portion recipe:mash\"]\n\
    [[meal]]\nday = \"tue\"\nat = \"supper\"\neach = [\"1 portion recipe:mash\", \"50 g mooncress\"]\n\
    [[meal]]\nday = \"wed\"\nat = \"lunch\"\neach = [\"1 portion recipe:soup\"]\n\
    [[meal]]\nday = \"thu\"\nat = \"supper\"\neach = [\"1 portion recipe:soup\"]\n\
    [[meal]]\nday = \"fri\"\nat = \"supper\"\neach = [\"1 portion recipe:mash\", \"50 g mooncress\"]\n\
    [[meal]]\nday = \"sat\"\nat = \"supper\"\neach = [\"2 comet eggs\"]\n";

/// What is done on a day.
enum Act {
    Run(&'static [&'static str]),
    /// Ends with 2 and books nothing; says this.
    Refused(&'static [&'static str], &'static str),
    /// In the week's file.
    Edit(&'static str, &'static str),
    /// The same; then the next session takes so many minutes.
    Replan(&'static str, &'static str, i64),
    /// What is typed for each lot that `look` asks for.
    Look(&'static str),
}

use Act::{Edit, Look, Refused, Replan, Run};

/// What stands after an act: on the shelf grams of bluegrain, moon beans and mooncress, eggs, portions of mash and of soup; what the open trips
/// cost, what the whole week does, and by how many portions it is short.
struct Row(&'static str, Act, [f64; 6], &'static str, &'static str, f64);

const TABLE: &[Row] = &[
    // Mash for Monday, Tuesday and Friday, 2 each: 600 g bluegrain, two packs 4.00. Soup for Wednesday and Thursday: 400 g moon beans, one pack
    // 0.80, since Sunday's opened one is good until Wednesday. 100 g of cress for Tuesday, 0.50; 4 eggs, 1.20: 6.50 on Saturday. Saturday's cress
    // does not last to Friday: another 0.50 on Wednesday.
    Row("2026-11-27", Run(&["print", "--only", "list"]), [0.0, 0.0, 0.0, 0.0, 0.0, 0.0], "7.00", "7.00", 0.0),
    Row("2026-11-28", Run(&["receive"]), [1000.0, 400.0, 100.0, 4.0, 0.0, 0.0], "0.50", "7.00", 0.0),
    // 4 portions of mash take 400 g, 2 of soup 200 g.
    Row("2026-11-29", Run(&["issue"]), [600.0, 200.0, 100.0, 4.0, 4.0, 2.0], "0.50", "7.00", 0.0),
    // Guests: 3 portions of mash on Tuesday beside Monday's 2, and there are 4: 1 short. 150 g of cress, and there are 100: 50 g from the kiosk, 0.40,
    // on a trip of its own, which may use every shop. Friday's pack stays on Wednesday's trip.
    Row("2026-11-30", Edit("day = \"tue\"\n", "day = \"tue\"\nguests = 1\n"), [600.0, 200.0, 100.0, 4.0, 4.0, 2.0], "0.90", "7.40", 1.0),
    // A meal was eaten.
    Row("2026-11-30", Run(&["issue", "--meal", "mon supper"]), [600.0, 200.0, 100.0, 4.0, 2.0, 2.0], "0.90", "7.40", 1.0),
    // The trip of its own, received.
    Row("2026-12-01", Run(&["receive"]), [600.0, 200.0, 150.0, 4.0, 2.0, 2.0], "0.50", "7.40", 1.0),
    // Thrown away: one portion more is short.
    Row("2026-12-01", Run(&["waste", "1 portion recipe:mash", "--why", "fell"]), [600.0, 200.0, 150.0, 4.0, 1.0, 2.0], "0.50", "7.40", 2.0),
    // Bought beside the plan: two packs of 400 g, 1.50.
    Row(
        "2026-12-01",
        Run(&["receive", "--also", "2 x 400 g moon beans at 1.50", "--on", "2026-12-01"]),
        [600.0, 1000.0, 150.0, 4.0, 1.0, 2.0],
        "0.50",
        "8.90",
        2.0,
    ),
    // Eaten beside the plan: Saturday lacks an egg, which Wednesday buys, 0.30.
    Row("2026-12-01", Run(&["issue", "--also", "1 comet egg"]), [600.0, 1000.0, 150.0, 3.0, 1.0, 2.0], "0.80", "9.20", 2.0),
    // Thursday and Friday change places: Wednesday's session makes the same, and the cress is wanted a day earlier.
    Row("2026-12-01", Run(&["exchange", "thu supper", "fri supper"]), [600.0, 1000.0, 150.0, 3.0, 1.0, 2.0], "0.80", "9.20", 2.0),
    // Several meals at once: 1 portion of mash, the other 2 were not there; 150 g of cress; 2 portions of soup.
    Row(
        "2026-12-02",
        Run(&["issue", "--meal", "tue supper", "--meal", "wed lunch"]),
        [600.0, 1000.0, 0.0, 3.0, 0.0, 0.0],
        "0.80",
        "9.20",
        0.0,
    ),
    // The stall is closed: cress from the kiosk, two packs of 50 g, 0.80; nobody sells eggs there, and the line has no price.
    Row(
        "2026-12-02",
        Edit("on = 2026-12-02\nshops = [\"Stall\"]", "on = 2026-12-02\nshops = [\"Kiosk\"]"),
        [600.0, 1000.0, 0.0, 3.0, 0.0, 0.0],
        "0.80",
        "9.20",
        0.0,
    ),
    // The plan has changed since Friday's print.
    Row(
        "2026-12-02",
        Refused(&["receive"], "mooncress: printed 1 × 100 g, now 2 × 50 g"),
        [600.0, 1000.0, 0.0, 3.0, 0.0, 0.0],
        "0.80",
        "9.20",
        0.0,
    ),
    // 0.80 are paid, 9.20 in all; the egg that was not to be had stands on a trip of its own, before Saturday.
    Row("2026-12-02", Run(&["receive", "--replan", "--without", "comet egg"]), [600.0, 1000.0, 100.0, 3.0, 0.0, 0.0], "0.30", "9.50", 0.0),
    // A look at the shelf finds one egg less.
    Row("2026-12-02", Look("2"), [600.0, 1000.0, 100.0, 2.0, 0.0, 0.0], "0.60", "9.80", 0.0),
    // Jo does not come: 5 min of hands on the soup, which then simmers for 30, and 40 on the mash are one after the other.
    Row(
        "2026-12-02",
        Replan("people = [\"cook\", \"Jo\"]", "people = [\"cook\"]\n# Wednesday", 45),
        [600.0, 1000.0, 100.0, 2.0, 0.0, 0.0],
        "0.60",
        "9.80",
        0.0,
    ),
    // The hob is out of order as well: 5 min of hands, then 45 on the hay box.
    Row("2026-12-02", Replan("# Wednesday", "without = [\"hob\"]", 50), [600.0, 1000.0, 100.0, 2.0, 0.0, 0.0], "0.60", "9.80", 0.0),
    // 2 portions of mash take 200 g, 2 of soup 200 g: the opened rest, which is good today.
    Row("2026-12-02", Run(&["issue"]), [400.0, 800.0, 100.0, 2.0, 2.0, 2.0], "0.60", "9.80", 0.0),
    // Friday, which holds the soup now, falls out.
    Row("2026-12-03", Run(&["skip", "fri supper"]), [400.0, 800.0, 100.0, 2.0, 2.0, 2.0], "0.60", "9.80", 0.0),
    Row("2026-12-03", Run(&["issue", "--meal", "thu supper"]), [400.0, 800.0, 0.0, 2.0, 0.0, 2.0], "0.60", "9.80", 0.0),
    // A wrong booking, and back.
    Row("2026-12-03", Run(&["waste", "1 portion recipe:soup", "--why", "guess"]), [400.0, 800.0, 0.0, 2.0, 0.0, 1.0], "0.60", "9.80", 0.0),
    Row("2026-12-03", Run(&["undo", "--back-to", "13"]), [400.0, 800.0, 0.0, 2.0, 0.0, 2.0], "0.60", "9.80", 0.0),
    // The last trip of its own; then all is past.
    Row("2026-12-05", Run(&["receive"]), [400.0, 800.0, 0.0, 4.0, 0.0, 2.0], "0.00", "9.80", 0.0),
    Row("2026-12-05", Run(&["issue", "--until", "2026-12-05"]), [400.0, 800.0, 0.0, 0.0, 0.0, 2.0], "0.00", "9.80", 0.0),
];

fn lived(kitchen: Kitchen, row: &Row) -> Kitchen {
    let Row(on, act, ..) = row;
    match act {
        Run(arguments) => drop(kitchen.done_on(on, arguments)),
        Refused(arguments, why) => {
            let output = kitchen.run_on(on, arguments);
            assert_eq!(output.status.code(), Some(2), "{arguments:?}");
            assert!(stderr(&output).contains(why), "{}", stderr(&output));
        }
        Edit(from, to) | Replan(from, to, _) => {
            let text = kitchen.text("weeks/week.toml");
            assert!(text.contains(from), "{from} in {text}");
            return kitchen.week(&text.replacen(from, to, 1));
        }
        Look(eggs) => look(&kitchen, on, eggs),
    }
    kitchen
}

/// Says yes to everything but to the eggs.
fn look(kitchen: &Kitchen, on: &str, eggs: &str) {
    let run = |typed: &str| {
        assert_cmd::Command::cargo_bin("spence")
            .expect("the program is built")
            .arg("--kitchen")
            .arg(kitchen.path())
            .args(["--today", on, "look"])
            .write_stdin(typed.to_owned())
            .output()
            .expect("the program runs")
    };
    let asked = stdout(&run(&"\n".repeat(20)));
    let lots = asked.lines().map(str::trim).filter(|line| line.ends_with('?') && line.contains(','));
    let typed: String = lots.map(|lot| if lot.starts_with("comet egg") { format!("{eggs}\n") } else { "y\n".to_owned() }).collect();
    let said = stdout(&run(&typed));
    assert!(said.contains("1 differs"), "{said}");
}

fn prep_on(kitchen: &Kitchen, today: &str) -> Value {
    json(&kitchen.run_on(today, &["--format", "json", "prep"]))
}

fn on_shelf(stock: &Value, name: &str) -> f64 {
    let lots = stock["places"].as_array().expect("places").iter().flat_map(|place| place["lots"].as_array().expect("lots"));
    lots.filter(|lot| lot["food"] == name || lot["recipe"] == name).filter_map(|lot| lot["amount"]["amount"].as_f64()).sum()
}

#[test]
fn a_week_of_every_event_adds_up_after_each() {
    let mut kitchen =
        kitchen().file("kitchen.toml", HOUSEHOLD).foods(FOODS).shops(SHOPS).recipe("mash", MASH).recipe("soup", SOUP).week(WEEK);
    for (number, row) in TABLE.iter().enumerate() {
        kitchen = lived(kitchen, row);
        let Row(on, act, shelf, open, week, short) = row;
        let stock = json(&kitchen.run_on(on, &["--format", "json", "stock"]));
        let found = ["bluegrain", "moon bean", "mooncress", "comet egg", "mash", "soup"].map(|name| on_shelf(&stock, name));
        assert_eq!(found, *shelf, "the shelf after row {number}");
        let list = kitchen.list_on(on);
        assert_eq!((list["cost"].as_str(), list["budget"]["cost"].as_str()), (Some(*open), Some(*week)), "after row {number}: {list:#}");
        let lacks: f64 = list["short"].as_array().expect("short").iter().filter_map(|meal| meal["amount"]["amount"].as_f64()).sum();
        assert_eq!(lacks, *short, "short after row {number}");
        if let Replan(.., minutes) = act {
            assert_eq!(prep_on(&kitchen, on)["sessions"][0]["minutes"], *minutes, "row {number}");
        }
        if lacks > 0.0 {
            assert_eq!(prep_on(&kitchen, on)["short"], list["short"], "row {number}");
            assert_eq!(kitchen.run_on(on, &["check"]).status.code(), Some(0), "check after row {number}");
        }
    }
    // 400 g of bluegrain at 2.00 the 500 g, 1.60; 800 g of moon beans as paid, 1.50; soup of 200 g of beans at 0.80 the 400 g, 0.40.
    let stock = json(&kitchen.run_on("2026-12-05", &["--format", "json", "stock"]));
    assert_eq!(stock["value"], "3.50");
    let list = kitchen.list_on("2026-12-05");
    // Nobody eats the soup that was cooked for Friday.
    let soup =
        serde_json::json!([{ "recipe": "soup", "amount": {"amount": 2.0, "unit": "portion"}, "place": "fridge", "until": "2026-12-05" }]);
    assert_eq!(list["expiring"], soup);
    // A portion of mash was 100 g of bluegrain.
    let waste = json(&kitchen.run_on("2026-12-05", &["--format", "json", "stock", "--waste"]));
    assert_eq!((waste["waste"][0]["recipe"].as_str(), waste["value"].as_str()), (Some("mash"), Some("0.40")));
    let all = json(&kitchen.run_on("2026-12-05", &["--format", "json", "list", "--all"]));
    let told: Vec<_> = all["trips"]
        .as_array()
        .expect("trips")
        .iter()
        .map(|trip| (trip["on"].clone(), trip["cost"].clone(), trip["state"].clone()))
        .collect();
    let done = |on: &str, cost: &str| (on.into(), cost.into(), "done".into());
    // As booked: the print of Wednesday had a pack of cress for 0.50, and two of the kiosk were bought for 0.80.
    assert_eq!(told, [done("2026-11-28", "6.50"), done("2026-12-01", "0.40"), done("2026-12-02", "0.80"), done("2026-12-05", "0.60")]);
}
