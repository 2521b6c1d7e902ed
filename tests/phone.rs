//! `print --only phone`: a page that asks nothing of the network, in which every name is text; and the way back into `receive`.

use std::fs;

use assert_cmd::Command;
use pretty_assertions::assert_eq;

use crate::kitchen::{Kitchen, kitchen, sample, stderr, supper};

const FOODS: &str =
    "[[food]]\nname = \"bluegrain\"\ncup = \"160 g\"\nallergens = []\nkeeps = { cupboard = \"300 days\" }\nsource = \"weighed at home\"\n";

fn stew(name: &str) -> Kitchen {
    kitchen()
        .foods(FOODS)
        .shops("[[shop]]\nname = \"Quay market\"\ntrip = \"1.50\"\n[[pack]]\nshop = \"Quay market\"\nfood = \"bluegrain\"\nsize = \"400 g\"\nprice = \"2.40\"\n")
        .recipe(
            "stew",
            &format!(
                "name = '''{name}'''\nmakes = \"2 portions\"\nkeeps = {{ fridge = \"3 days\" }}\nserve = \"hot\"\ningredients = \"\"\"\n800 g bluegrain\n\"\"\"\n[[step]]\ntext = \"Cook {{bluegrain}}.\"\nhands = \"5 min\"\nwait = \"20 min\"\n"
            ),
        )
        .meals(&supper("2026-11-30", "\"1 portion recipe:stew\""))
}

fn page(kitchen: &Kitchen) -> String {
    let output = kitchen.run(&["print", "--only", "phone"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    fs::read_to_string(kitchen.path().join("sheets/list-2026-11-30.html")).expect("a page")
}

fn between<'p>(page: &'p str, before: &str, after: &str) -> &'p str {
    page.split_once(before).and_then(|(_, rest)| rest.split_once(after)).map(|(found, _)| found).expect("it is there")
}

#[test]
fn the_page_names_no_address_and_is_small() {
    let page = page(&stew("Moon stew"));
    for outside in ["http:", "https:", "src=", "@import", "url(", "<link", "<iframe", "<img"] {
        assert!(!page.contains(outside), "{outside}");
    }
    assert!(page.len() < 200_000);
    assert!(page.contains("default-src 'none'; script-src 'sha256-"));
}

#[test]
fn a_hostile_name_is_text() {
    let page = page(&stew("<img src=x onerror=\"alert(1)\">&</script><script>alert(2)</script>"));
    assert!(!page.contains("<img") && !page.contains("<script>alert"));
    assert_eq!(page.matches("<script>").count(), 1);
    assert!(page.contains("&lt;img src=x onerror=&quot;alert(1)&quot;&gt;&amp;&lt;/script&gt;"));
}

#[test]
fn the_same_week_gives_the_same_page_and_writes_the_plan_beside_it() {
    let kitchen = stew("Moon stew");
    assert_eq!(page(&kitchen), page(&kitchen));
    assert!(kitchen.path().join("sheets/plan-2026-11-30.json").exists());
}

fn receive(kitchen: &Kitchen, text: &str) -> std::process::Output {
    let mut command = Command::cargo_bin("spence").expect("the program is built");
    let run = command.current_dir(kitchen.path()).args(["--today", "2026-11-28", "receive", "-"]).write_stdin(text.to_owned());
    run.output().expect("it runs")
}

#[test]
fn what_the_page_copies_is_booked_from_standard_input() {
    let kitchen = stew("Moon stew");
    let page = page(&kitchen);
    let hash = between(&page, "data-hash=\"", "\"");
    let packs = between(&page, "data-packs=\"", "\"").replace("&quot;", "\"");
    assert_eq!(packs, "[\"400 g\"]");
    let text =
        format!("from = 2026-11-30\ntrip = 2026-11-28\nhash = \"{hash}\"\nalso = []\n\n[[line]]\nfood = \"bluegrain\"\npacks = {packs}\n");
    let output = receive(&kitchen, &text);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    assert!(!stderr(&output).contains("printed anew"), "{}", stderr(&output));
    let pantry = fs::read_to_string(kitchen.path().join("pantry.toml")).expect("a pantry");
    assert!(pantry.contains("bluegrain") && pantry.contains("400 g"), "{pantry}");
}

#[test]
fn a_file_copied_from_an_earlier_print_says_so() {
    let kitchen = stew("Moon stew");
    page(&kitchen);
    let text = "from = 2026-11-30\ntrip = 2026-11-28\nhash = \"0123456789ab\"\n[[line]]\nfood = \"bluegrain\"\npacks = \"400 g\"\n";
    let output = receive(&kitchen, text);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    assert!(stderr(&output).contains("the plan has been printed anew since this was copied from its list"), "{}", stderr(&output));
}

#[test]
fn a_mistake_in_what_was_pasted_is_pointed_at() {
    let output = receive(&stew("Moon stew"), "from = 2026-11-30\ntrip = 2026-11-28\n[[line]]\nfood = \"blugrain\"\npacks = \"400 g\"\n");
    assert_eq!(output.status.code(), Some(1));
    assert!(stderr(&output).contains("standard input:4:8:"), "{}", stderr(&output));
}

#[test]
fn what_is_pasted_again_is_not_booked_twice() {
    let kitchen = stew("Moon stew").foods(&format!("{FOODS}[[food]]\nname = \"redgrain\"\nallergens = []\nsource = \"weighed at home\"\n"));
    let kitchen = kitchen.household("[[staple]]\nfood = \"redgrain\"\npar = \"1 kg\"\n");
    page(&kitchen);
    let line = |food: &str, packs: &str| format!("[[line]]\nfood = \"{food}\"\npacks = \"{packs}\"\n");
    let file = |also: &str, lines: &[String]| format!("from = 2026-11-30\ntrip = 2026-11-28\nalso = [{also}]\n{}", lines.concat());
    let (blue, red) = (line("bluegrain", "400 g"), line("redgrain", "1 kg"));
    assert_eq!(receive(&kitchen, &file("", std::slice::from_ref(&blue))).status.code(), Some(0));

    let again = receive(&kitchen, &file("", std::slice::from_ref(&blue)));
    assert_eq!(again.status.code(), Some(1));
    let said = stderr(&again);
    assert!(
        said.contains("standard input:5:8: bluegrain is booked already. Nothing of it is left to book; copy what is still open."),
        "{said}"
    );

    // What was bought beside the list may have been booked with it: nobody knows.
    let both = [blue, red];
    let beside = receive(&kitchen, &file("\"1 kg bluegrain at 1.20\"", &both));
    assert_eq!(beside.status.code(), Some(1));
    assert!(stderr(&beside).contains("bluegrain is booked already, and what stands in also may be"), "{}", stderr(&beside));

    let rest = receive(&kitchen, &file("", &both));
    assert_eq!(rest.status.code(), Some(0), "{}", stderr(&rest));
    assert!(stderr(&rest).contains("warning: bluegrain is booked already, and is left out."), "{}", stderr(&rest));
    let pantry = kitchen.text("pantry.toml");
    assert_eq!((pantry.matches("\"bluegrain\"").count(), pantry.matches("\"redgrain\"").count()), (1, 1), "{pantry}");
}

/// The week card of the page says what the one of paper says.
#[test]
fn the_week_says_what_a_meal_cooks_and_when_to_begin() {
    let kitchen = crate::kitchen::sample();
    let output = kitchen.run(&["print", "--only", "phone,calendar"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    let page = fs::read_dir(kitchen.path().join("sheets"))
        .expect("sheets")
        .flatten()
        .find(|file| file.path().extension().is_some_and(|end| end == "html"));
    let page = fs::read_to_string(page.expect("a page").path()).expect("a page");
    let week = between(&page, "<div id=\"week\">", "</main>");
    // 300 g cooked of what swells 2.6-fold.
    assert!(week.contains("<li>Cook: boil 115 g brown rice, 30 min, start 18:00</li>"), "{week}");
    assert!(!week.contains("300 g cooked brown rice"), "{week}");
    assert!(week.contains("start 17:15"), "{week}");
    // In the kitchen's number; what is booked is the food by its name.
    assert!(page.contains("data-food=\"egg\"") && page.contains("<b>eggs</b>"), "{page}");
    let calendar = fs::read_dir(kitchen.path().join("sheets"))
        .expect("sheets")
        .flatten()
        .find(|file| file.path().extension().is_some_and(|end| end == "ics"));
    let calendar = fs::read_to_string(calendar.expect("a calendar").path()).expect("a calendar").replace("\r\n ", "");
    assert!(calendar.contains("\\neggs: "), "{calendar}");
    assert!(calendar.contains("chicken thighs out of the freezer"), "{calendar}");
}

/// Bluegrain, redgrain and greengrain on one trip.
pub fn three_grains() -> Kitchen {
    let more = |name: &str| format!("[[food]]\nname = \"{name}\"\nallergens = []\nsource = \"weighed at home\"\n");
    stew("Moon stew")
        .foods(&format!("{FOODS}{}{}", more("redgrain"), more("greengrain")))
        .household("[[staple]]\nfood = \"redgrain\"\npar = \"1 kg\"\n[[staple]]\nfood = \"greengrain\"\npar = \"2 kg\"\n")
}

fn keys_of_lines(page: &str) -> Vec<&str> {
    page.split("data-i=\"").skip(1).filter_map(|rest| rest.split_once('"')).map(|(key, _)| key).filter(|key| key.contains(':')).collect()
}

#[test]
fn a_trip_that_is_booked_in_part_is_known_to_the_phone_as_before() {
    let kitchen = three_grains();
    let first = page(&kitchen);
    let hash = between(&first, "data-hash=\"", "\"").to_owned();
    assert_eq!(keys_of_lines(&first), ["0:bluegrain", "0:greengrain", "0:redgrain"]);
    let file = |food: &str, packs: &str| {
        format!("from = 2026-11-30\ntrip = 2026-11-28\nhash = \"{hash}\"\n[[line]]\nfood = \"{food}\"\npacks = \"{packs}\"\n")
    };
    assert_eq!(receive(&kitchen, &file("bluegrain", "2 x 400 g")).status.code(), Some(0));
    // Printed twice after it: the second print knows it from the first.
    for _ in 0..2 {
        let again = page(&kitchen);
        assert_eq!((between(&again, "data-hash=\"", "\""), keys_of_lines(&again)), (hash.as_str(), vec!["0:greengrain", "0:redgrain"]));
    }
    let second = receive(&kitchen, &file("greengrain", "2 kg"));
    assert_eq!(second.status.code(), Some(0), "{}", stderr(&second));
    assert!(!stderr(&second).contains("printed anew"), "{}", stderr(&second));
    assert_eq!(keys_of_lines(&page(&kitchen)), ["0:redgrain"]);
    assert_eq!(between(&page(&kitchen), "data-hash=\"", "\""), hash);

    // Another amount is another list, and starts fresh.
    let text = kitchen.text("kitchen.toml").replace("par = \"1 kg\"", "par = \"3 kg\"");
    let kitchen = kitchen.file("kitchen.toml", &text);
    assert_ne!(between(&page(&kitchen), "data-hash=\"", "\""), hash);
}

#[test]
fn what_runs_short_stands_first_on_the_page_and_at_its_meal() {
    // Two portions are eaten on Monday and two on Wednesday; one of four is spilt on Tuesday.
    let kitchen = stew("Moon stew").meals(&format!(
        "{}{}",
        supper("2026-11-30", "\"2 portions recipe:stew\""),
        supper("2026-12-02", "\"2 portions recipe:stew\"")
    ));
    kitchen.done(&["print", "--only", "phone"]);
    kitchen.done_on("2026-11-28", &["receive"]);
    kitchen.done_on("2026-11-29", &["issue"]);
    kitchen.done_on("2026-12-01", &["issue", "--until", "2026-11-30"]);
    kitchen.done_on("2026-12-01", &["waste", "1 portion recipe:stew", "--why", "spilt"]);
    kitchen.done_on("2026-12-01", &["print", "--only", "phone,calendar"]);
    let page = kitchen.text("sheets/list-2026-11-30.html");
    let head = between(&page, "<header>", "<nav");
    assert!(head.contains("<p class=\"warn\">Short: Wed 2 Dec supper: 1 portion of Moon stew. "), "{head}");
    let week = between(&page, "<div id=\"week\">", "</main>");
    assert!(week.contains("<li class=\"warn\">Short: 1 portion of moon stew. "), "{week}");
    let calendar = kitchen.text("sheets/week-2026-11-30.ics").replace("\r\n ", "");
    assert!(calendar.contains("DESCRIPTION:Short: 1 portion of moon stew. "), "{calendar}");
}

#[test]
fn what_is_not_known_for_an_allergic_eater_stands_at_the_head_of_page_guide_and_meal() {
    let kitchen = sample();
    kitchen.done(&["print", "--only", "phone,calendar"]);
    let page = kitchen.text("sheets/list-2026-11-30.html");
    let told = "Sesame not known for Emil: read the packet of oatcake (Bean mash and oatcakes).";
    assert!(between(&page, "<header>", "<nav").contains(&format!("<p class=\"warn\">{told}</p>")));
    let week = between(&page, "<div id=\"week\">", "</main>");
    assert!(week.starts_with(&format!("<h2>Week</h2>\n<p class=\"warn\">{told}</p>")), "{week}");
    assert!(week.contains(&format!("<li class=\"warn\">{told}</li>")), "{week}");
    let calendar = kitchen.text("sheets/week-2026-11-30.ics").replace("\r\n ", "");
    assert!(calendar.contains(&format!("DESCRIPTION:{told}")), "{calendar}");
}

#[test]
fn of_two_trips_of_a_day_that_one_is_booked_whose_list_was_copied() {
    // Bluegrain is sold at the Quay, redgrain at the Mill; each trip goes to one of them.
    let food = |name: &str| format!("[[food]]\nname = \"{name}\"\nallergens = []\nsource = \"weighed at home\"\n");
    let shop = |name: &str, food: &str| {
        format!("[[shop]]\nname = \"{name}\"\n[[pack]]\nshop = \"{name}\"\nfood = \"{food}\"\nsize = \"400 g\"\nprice = \"2.40\"\n")
    };
    let trip = |shop: &str| format!("[[trip]]\non = 2026-11-28\nshops = [\"{shop}\"]\n");
    let kitchen = kitchen()
        .foods(&(food("bluegrain") + &food("redgrain")))
        .shops(&(shop("Quay", "bluegrain") + &shop("Mill", "redgrain")))
        .week(&format!(
            "from = 2026-11-30\n{}{}{}",
            trip("Quay"),
            trip("Mill"),
            supper("2026-11-30", "\"400 g bluegrain\", \"400 g redgrain\"")
        ));
    let page = page(&kitchen);
    let hashes: Vec<&str> = page.split("data-hash=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect();
    assert_eq!(hashes.len(), 2);
    let file = |hash: &str, food: &str| {
        format!("from = 2026-11-30\ntrip = 2026-11-28\nhash = \"{hash}\"\n[[line]]\nfood = \"{food}\"\npacks = \"400 g\"\n")
    };
    for text in [file(hashes[1], "redgrain"), file(hashes[0], "bluegrain")] {
        let output = receive(&kitchen, &text);
        assert_eq!((output.status.code(), stderr(&output)), (Some(0), String::new()));
    }
    let again = receive(&kitchen, &file(hashes[1], "redgrain"));
    assert_eq!(again.status.code(), Some(1));
    assert!(stderr(&again).contains("the trip of Sat 28 Nov is booked already"), "{}", stderr(&again));
}

#[test]
fn the_guide_of_the_page_says_of_boxes_cuts_and_loads_what_paper_says() {
    let kitchen = sample();
    kitchen.done(&["print", "--only", "phone"]);
    let page = kitchen.text("sheets/list-2026-11-30.html");
    let guide = between(&page, "<h2>Guide, Sun 29 Nov 14:00</h2>", "<h2>Guide, Wed");
    for told in [
        "to be finished by 17:30",
        "<h3>Cut, and for which step</h3><ul><li>",
        "in 1 jar, <b>use by Wed 2 Dec</b>, for Mon supper</li>",
        "<li><b>In the fridge by <span data-min=",
        "<b>out at <span data-min=",
        "then 50 min on its own",
        "<h3>What this makes</h3>",
        "<h3>Hands</h3>",
        "A fifth slower",
    ] {
        assert!(guide.contains(told), "{told} is missing in {guide}");
    }
}

#[test]
fn a_session_of_which_all_is_served_hot_is_not_done_when_it_begins() {
    let week = format!(
        "from = 2026-11-30\n[[session]]\nstart = 2026-11-30T17:00\nfinish_by = \"18:00\"\npeople = [\"cook\"]\n{}",
        supper("2026-11-30", "\"1 portion recipe:stew\"")
    );
    let page = page(&stew("Moon stew").week(&week));
    assert!(page.contains("all served hot, to be finished by 18:00, served at 18:30"));
    assert!(!page.contains("done by 17:00"));
}
