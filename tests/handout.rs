//! `handout`: a week for people with other kitchens. Its list is the demand of an empty shelf, and nothing of the household is in it.

use std::collections::BTreeMap;
use std::fs;

use lopdf::Document;
use pretty_assertions::assert_eq;
use spence::handout::{Handout, Wishes, handout};
use spence::kitchen::load;
use spence::measure::{Quantity, Units, show};
use spence::prep::Effort;

use crate::kitchen::{Kitchen, kitchen, sample, stderr, supper};

fn told(kitchen: &Kitchen) -> Handout {
    let loaded = load(kitchen.path()).expect("no mistakes");
    handout(&loaded.kitchen, &loaded.weeks[0].1, &Wishes { effort: Effort::Low, ..Wishes::default() }).expect("a plan")
}

/// Every food with its amounts as they are printed, by the day on which it is bought.
fn bought(told: &Handout) -> Vec<(String, String, String)> {
    let mut all = Vec::new();
    for buying in &told.buying {
        let on = buying.on.map_or_else(|| "first".to_owned(), |day| day.words());
        for line in buying.sections.iter().flat_map(|section| &section.lines) {
            let amounts: Vec<String> = line.amounts.iter().map(|amount| show(amount, Units::Metric)).collect();
            all.push((on.clone(), line.name.clone(), amounts.join(" and ")));
        }
    }
    all
}

fn text_of(kitchen: &Kitchen, arguments: &[&str]) -> String {
    kitchen.done(&[&["handout"], arguments].concat());
    let pdf = Document::load(kitchen.path().join("sheets/handout-2026-11-30.pdf")).expect("a PDF");
    let pages: Vec<u32> = pdf.get_pages().keys().copied().collect();
    pdf.extract_text(&pages).expect("text")
}

fn row(on: &str, name: &str, amount: &str) -> (String, String, String) {
    (on.to_owned(), name.to_owned(), amount.to_owned())
}

/// The shops that the sample week names, which sell nothing.
const UNPRICED: &str = "[[shop]]\nname = \"Quay market\"\n[[shop]]\nname = \"Mill stores\"\n";

const FOODS: &str = r#"
[[food]]
name = "bluegrain"
section = "Grains"
[[food]]
name = "redroot"
section = "Vegetables"
each = "100 g"
keeps = { fridge = "1 day" }
[[food]]
name = "moonoil"
kind = "oil"
section = "Oils"
[[food]]
name = "greenleaf"
section = "Vegetables"
"#;

/// Two eaters eat stew and roots; the shelf is full and the shop sells in sacks.
fn small() -> Kitchen {
    kitchen()
        .file("kitchen.toml", "[household]\nname = \"Test row\"\neaters = 2\ncurrency = \"EUR\"\n[rules]\nboxing = \"0 min\"\nwash = \"0 min\"\nalways = [\"water\"]\nask = [\"salt\"]\n[[staple]]\nfood = \"greenleaf\"\npar = \"900 g\"\n")
        .foods(FOODS)
        .shops("[[shop]]\nname = \"Zebra stores\"\n[[pack]]\nshop = \"Zebra stores\"\nfood = \"bluegrain\"\nsize = \"5 kg\"\nprice = \"9.99\"\n")
        .pantry("[[lot]]\nfood = \"bluegrain\"\namount = \"2 kg\"\nplace = \"cupboard\"\n")
        .recipe(
            "stew",
            "name = \"Stew\"\nmakes = \"4 portions\"\nkeeps = { fridge = \"3 days\" }\ningredients = [\"200 g bluegrain\", \"3 redroots\", \"60 ml moonoil\", \"salt, to taste\"]\n[[step]]\ntext = \"Stew it.\"\nhands = \"9 min\"\n",
        )
        .meals("[[meal]]\nday = \"mon\"\nat = \"supper\"\neach = [\"1 portion recipe:stew\", \"25 g greenleaf\"]\n[[meal]]\nday = \"wed\"\nat = \"supper\"\neach = [\"1 portion recipe:stew\", \"1.25 redroot\"]\n")
}

#[test]
fn the_list_is_the_demand_of_an_empty_shelf_by_sums_written_out() {
    // Stew: 2 eaters on Monday and 2 on Wednesday are 4 portions, one batch: 200 g, 3 pieces, 60 ml. Greenleaf: 2 × 25 g.
    // Redroot keeps a day: Saturday's trip reaches Sunday's session; Wednesday's 2 × 1.25 = 2.5, 3 whole, are bought on day 3.
    let told = told(&small());
    assert_eq!(
        bought(&told),
        [
            row("first", "bluegrain", "200 g"),
            row("first", "moonoil", "60 ml"),
            row("first", "greenleaf", "50 g"),
            row("first", "redroots", "3"),
            row("day 3", "redroots", "3"),
        ]
    );
    let names = |foods: &[spence::foods::FoodId]| foods.iter().map(|food| told.kitchen.foods[*food].name.clone()).collect::<Vec<_>>();
    assert_eq!((names(&told.weekly), names(&told.at_home)), (vec!["greenleaf".to_owned()], vec!["water".to_owned(), "salt".to_owned()]));
}

#[test]
fn the_list_of_the_sample_is_what_list_needs_without_shelf_shops_and_staples() {
    let bare = sample().pantry("").shops(UNPRICED);
    let household = bare.text("kitchen.toml");
    let bare = bare.file("kitchen.toml", household.split("[[staple]]").next().expect("a household"));
    let list = bare.list();
    let mut needed: BTreeMap<String, f64> = BTreeMap::new();
    for line in list["trips"]
        .as_array()
        .expect("trips")
        .iter()
        .flat_map(|trip| trip["shops"].as_array().expect("shops"))
        .flat_map(|shop| shop["sections"].as_array().expect("sections"))
        .flat_map(|section| section["lines"].as_array().expect("lines"))
    {
        if line["need"]["unit"] == "g" {
            *needed.entry(line["food"].as_str().expect("a food").to_owned()).or_default() +=
                line["need"]["amount"].as_f64().expect("grams");
        }
    }
    let told = told(&sample());
    let mut stated: BTreeMap<String, f64> = BTreeMap::new();
    for line in told.buying.iter().flat_map(|one| &one.sections).flat_map(|one| &one.lines) {
        for amount in &line.amounts {
            if matches!(amount, Quantity::Mass(_)) {
                *stated.entry(told.kitchen.foods[line.food].name.clone()).or_default() += amount.base();
            }
        }
    }
    assert!(stated.len() > 20, "{stated:?}");
    for (food, grams) in &stated {
        let wanted = needed.get(food).unwrap_or_else(|| panic!("{food} is not needed"));
        // JSON has amounts to the tenth of a gram.
        assert!((grams - wanted).abs() < 0.06, "{food}: {grams} g, not {wanted} g");
    }
    // Written out: braise 1, herb yoghurt half of 1, roots 1, fish 1¼: 3¾ lemons. Oats 2½ and slaw 2: 4½ apples. Oil 45 + 60 + 60 + 15 ml.
    // Oat milk 500 ml for five portions of oats and 150 ml for six of soup. Stock 1050 ml and 1500 ml. One frittata has six eggs.
    let all = bought(&told);
    for row in [
        row("first", "lemons", "4"),
        row("first", "apples", "5"),
        row("first", "olive oil", "180 ml"),
        row("first", "oat milk", "650 ml"),
        row("first", "vegetable stock", "2.55 l"),
        row("first", "eggs", "6"),
        row("day 3", "red peppers", "2"),
    ] {
        assert!(all.contains(&row), "{row:?} is not in {all:?}");
    }
}

#[test]
fn no_name_shop_price_or_date_of_the_household_is_in_it() {
    let text = text_of(&sample(), &["--by", "A neighbour"]);
    let words: Vec<&str> = text.split(|c: char| !c.is_alphanumeric()).collect();
    for name in ["Boatyard", "Rosa", "Tom", "Emil", "Jo", "Quay", "Mill", "EUR", "2026"] {
        assert!(!words.contains(&name), "{name} is in the handout");
    }
    for word in ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun", "Nov", "Dec"] {
        assert!(!words.contains(&word), "{word} is in the handout");
    }
    assert!(!text.contains('€'));
    let shops = sample().text("shops.toml");
    let figures = shops.split(|c: char| !c.is_ascii_digit() && c != '.');
    let prices: Vec<&str> = figures.filter(|figure| figure.split_once('.').is_some_and(|(_, cents)| cents.len() == 2)).collect();
    assert!(prices.len() > 20, "{prices:?}");
    let tokens: Vec<&str> = text.split_whitespace().map(|token| token.trim_matches(|c: char| !c.is_alphanumeric())).collect();
    for pair in tokens.windows(2) {
        let is_amount = ["l", "kg"].contains(&pair[1]);
        assert!(is_amount || !prices.contains(&pair[0]), "{pair:?} is a price");
    }
}

#[test]
fn a_week_without_a_name_tells_no_date() {
    let week = sample().text("weeks/2026-11-30.toml").replace("name = \"First week of advent\"\n", "");
    let text = text_of(&sample().file("weeks/2026-11-30.toml", &week), &[]);
    assert!(!text.contains("Week of") && !text.contains("2026"), "{text}");
}

#[test]
fn shelf_shops_prices_and_the_day_change_nothing_of_it() {
    let read = |kitchen: &Kitchen| fs::read(kitchen.path().join("sheets/handout-2026-11-30.pdf")).expect("a PDF");
    let with = sample();
    with.done(&["handout"]);
    let first = read(&with);
    let bare = sample().pantry("").shops(UNPRICED);
    bare.done(&["handout"]);
    assert!(read(&bare) == first, "the shelf or the shops are in it");
    with.done_on("2027-01-01", &["handout"]);
    assert!(read(&with) == first, "the day is in it");
}

#[test]
fn a_handout_writes_one_file_and_no_plan() {
    let kitchen = small();
    let said = kitchen.done(&["handout", "--title", "Stew week", "--by", "Me"]);
    assert!(said.starts_with("Stew week, by Me\n"), "{said}");
    let files: Vec<String> = fs::read_dir(kitchen.path().join("sheets"))
        .expect("sheets")
        .flatten()
        .map(|entry| entry.file_name().to_string_lossy().into_owned())
        .collect();
    assert_eq!(files, ["handout-2026-11-30.pdf"]);
    kitchen.done(&["handout", "--into", "elsewhere", "--paper", "letter", "--size", "large"]);
    assert!(kitchen.path().join("elsewhere/handout-2026-11-30.pdf").exists());
}

#[test]
fn a_method_that_is_somebody_else_s_is_printed_only_when_asked_for() {
    let with = |source: &str| {
        let kitchen = small();
        let stew = kitchen.text("recipes/stew.toml").replace("makes =", &format!("source = {source}\nmakes ="));
        kitchen.file("recipes/stew.toml", &stew)
    };
    let theirs = with("{ author = \"A. Reader\", title = \"Pots\", address = \"https://example.org/pots\" }");
    let text = text_of(&theirs, &[]);
    assert!(text.contains("A. Reader") && text.contains("https://example.org/pots"), "{text}");
    assert!(!text.contains("tew it"), "{text}");
    assert!(text_of(&theirs, &["--methods"]).contains("tew it"));
    let own = with("\"Test row\"");
    let text = text_of(&own, &[]);
    assert!(text.contains("tew it") && !text.contains("Test row"), "{text}");
}

#[test]
fn a_name_of_the_household_that_a_recipe_says_is_pointed_out() {
    let kitchen = small();
    let eaters = kitchen
        .text("kitchen.toml")
        .replace("eaters = 2\n", "")
        .replace("[rules]", "[[eater]]\nname = \"Ada\"\n[[eater]]\nname = \"Bo\"\n[rules]");
    let stew = kitchen.text("recipes/stew.toml").replace("Stew it.", "Stew it as Ada likes it.");
    let kitchen = kitchen.file("kitchen.toml", &eaters).file("recipes/stew.toml", &stew);
    let output = kitchen.run(&["handout"]);
    assert!(
        stderr(&output).contains("recipes/stew.toml") && stderr(&output).contains("\"Ada\" stands in the handout"),
        "{}",
        stderr(&output)
    );
}

#[test]
fn what_cannot_be_read_or_reckoned_is_told() {
    let kitchen = small();
    for (arguments, status, words) in [
        (vec!["handout", "--eaters", "0"], 2, "no number of eaters"),
        (vec!["handout", "--note", "missing.txt"], 2, "there is no file missing.txt"),
    ] {
        let output = kitchen.run(&arguments);
        assert_eq!(output.status.code(), Some(status), "{}", stderr(&output));
        assert!(stderr(&output).contains(words), "{}", stderr(&output));
        assert!(!kitchen.path().join("sheets").exists());
    }
    let empty = kitchen.week("from = 2026-11-30\n");
    let output = empty.run(&["handout"]);
    assert_eq!((output.status.code(), stderr(&output).contains("the week has no meal")), (Some(1), true));
}

#[test]
fn what_goes_elsewhere_without_an_appliance_is_told_with_where_and_how_long() {
    let stew = "name = \"Moon stew\"\nmakes = \"2 portions\"\nkeeps = { fridge = \"3 days\" }\n[[step]]\ntext = \"Braise.\"\nhands = \"5 min\"\n\
                wait = \"40 min\"\non = \"oven\"\ntemperature = \"160 °C\"\nor_on = \"hob\"\nor_wait = \"30 min\"\n";
    let roast = "name = \"Moon roast\"\nmakes = \"2 portions\"\nkeeps = { fridge = \"3 days\" }\n[[step]]\ntext = \"Roast.\"\nhands = \"5 min\"\n\
                 wait = \"40 min\"\non = \"oven\"\ntemperature = \"160 °C\"\n";
    let appliances = "[[appliance]]\nname = \"oven\"\nheat = true\n[[appliance]]\nname = \"hob\"\nroom = 4\n";
    let meal = supper("2026-11-30", "\"1 portion recipe:stew\", \"1 portion recipe:roast\", \"1 portion recipe:salad\"");
    let salad =
        "name = \"Moon salad\"\nmakes = \"2 portions\"\nkeeps = { fridge = \"3 days\" }\n[[step]]\ntext = \"Mix.\"\nhands = \"5 min\"\n";
    let kitchen = kitchen().household(appliances).recipe("stew", stew).recipe("roast", roast).recipe("salad", salad).meals(&meal);
    let text = text_of(&kitchen, &[]);
    let plain: String = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let told = "No oven: moon stew can be cooked with the hob, 30 min. The plan works if you leave out moon roast";
    assert!(plain.contains(told), "{plain}");
}

#[test]
fn what_the_household_s_helper_may_do_is_told_to_nobody_else() {
    let kitchen = sample();
    let own = kitchen.text("weeks/2026-11-30.toml");
    let free = own.replace(", may = [\"wash\", \"mix\"]", "");
    assert_ne!(own, free);
    let with = text_of(&kitchen, &[]);
    fs::write(kitchen.path().join("weeks/2026-11-30.toml"), free).expect("it can be written");
    assert_eq!(text_of(&kitchen, &[]), with);
}

#[test]
fn the_list_counts_what_all_lines_count() {
    let told = text_of(&sample(), &[]);
    for counted in ["7 cloves", "1 bunch", "4 sprigs"] {
        assert!(told.contains(counted), "{counted} is missing");
    }
}

#[test]
fn pieces_that_a_meal_itself_counts_are_counted_in_the_list() {
    // Two eaters; a clove each beside the three of the recipe's batch of four portions, of which two are eaten: half a batch, 1½ cloves.
    let kitchen = kitchen()
        .file("kitchen.toml", "[household]\nname = \"Test row\"\neaters = 2\ncurrency = \"EUR\"\n")
        .recipe("dip", "name = \"Dip\"\nmakes = \"2 portions\"\nkeeps = { fridge = \"3 days\" }\ningredients = \"3 cloves garlic\"\nmethod = \"Mix.\"\n")
        .meals(&supper("2026-11-30", "\"1 portion recipe:dip\", \"1 clove garlic\", \"1 slice bread\", \"1 packet oatcakes\""));
    let text = text_of(&kitchen, &[]);
    for counted in ["5 cloves", "2 slices", "2 packets"] {
        assert!(text.contains(counted), "{counted} is missing in {text}");
    }
    assert!(!text.contains("2 packets, 2 packets"), "{text}");
}

#[test]
fn what_is_ahead_keeps_gaps_and_the_words_of_a_meal_are_told_but_for_names() {
    let steps = "[[step]]\ntext = \"Soak it.\"\nhands = \"5 min\"\nahead = \"4 h\"\n[[step]]\ntext = \"Stew it.\"\nhands = \"9 min\"\ngap = \"14 h\"\n";
    let stew = small().text("recipes/stew.toml");
    let stew = format!("{}{steps}", stew.split("[[step]]").next().expect("a head"));
    let meal = |text: &str| {
        let meals = "[[meal]]\nday = \"mon\"\nat = \"supper\"\neach = [\"1 portion recipe:stew\"]\n";
        let kitchen = small().file("recipes/stew.toml", &stew).meals(&format!("{meals}text = \"{text}\"\n"));
        (text_of(&kitchen, &[]), stderr(&kitchen.run(&["handout"])))
    };
    // Half a batch: 3 min by hand.
    let (told, said) = meal("Eat it outdoors.");
    assert!(told.contains("14 h 3 min before 0:00"), "{told}");
    assert!(told.split_whitespace().collect::<Vec<_>>().join(" ").contains("Eat it outdoors."), "{told}");
    assert!(!said.contains("is not in the handout"), "{said}");
    let (told, said) = meal("As on Test row.");
    assert!(!told.contains("As on Test row"), "{told}");
    assert!(said.contains("the text of this meal is not in the handout"), "{said}");
}

#[test]
fn what_is_served_hot_is_told_by_a_clock_that_starts_with_the_first_step() {
    // 9 min by hand, at most half an hour before supper: the clock starts with it.
    let stew = small().text("recipes/stew.toml").replace("makes", "serve = \"hot\"\nhold = \"0 min\"\nmakes");
    let week = format!(
        "from = 2026-11-30\n[[session]]\nstart = 2026-11-30T15:00\nfinish_by = \"18:00\"\npeople = [\"cook\"]\n{}",
        supper("2026-11-30", "\"2 portions recipe:stew\"")
    );
    let told = text_of(&small().file("recipes/stew.toml", &stew).week(&week), &[]);
    assert!(told.contains("The clock starts at 0:00; all is served at 0:09."), "{told}");
    assert!(told.contains("Serve it at 0:09") && !told.contains("18:30"), "{told}");
}

#[test]
fn an_oven_that_is_out_of_order_at_home_stands_in_other_kitchens() {
    let stew = "name = \"Moon stew\"\nmakes = \"2 portions\"\nkeeps = { fridge = \"3 days\" }\n[[step]]\ntext = \"Braise.\"\nhands = \"5 min\"\n\
                wait = \"40 min\"\non = \"oven\"\ntemperature = \"160 °C\"\nor_on = \"hob\"\nor_wait = \"31 min\"\n";
    let week = format!(
        "from = 2026-11-30\n[[session]]\nstart = 2026-11-29T14:00\nwithout = [\"oven\"]\npeople = [\"cook\"]\n{}",
        supper("2026-11-30", "\"2 portions recipe:stew\"")
    );
    let kitchen = kitchen().household(crate::kitchen::OVEN_HOB_AND_COOKER).recipe("stew", stew).week(&week);
    let plan = &told(&kitchen).sessions[0].plans[0];
    let braise = plan.tasks.iter().find(|task| task.step().is_some()).expect("a step");
    assert_eq!((braise.out_minute() - braise.start_minute - braise.hands_minutes, braise.at.map(|at| at.0)), (40, Some(160.0)));
}
