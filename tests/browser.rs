//! The phone page in a headless browser, by way of `tests/outside/phone_check.mjs`. Runs where `SPENCE_BROWSER` names a Chromium, as
//! `.ci/run` does; elsewhere it says in a line that it is left out.

use std::fs;
use std::io::{self, Write};
use std::path::Path;
use std::process::Command;

use crate::kitchen::{Kitchen, kitchen, sample, stderr, supper};
use crate::phone::three_grains;

/// What is wrong with a page, by the script's own words; `None` where there is no browser.
fn checked(page: &Path, goods: Option<&Path>) -> Option<Result<(), String>> {
    let browser = std::env::var_os("SPENCE_BROWSER")?;
    let root = env!("CARGO_MANIFEST_DIR");
    let mut command = Command::new("node");
    command.current_dir(root).env("SPENCE_BROWSER", browser).arg("tests/outside/phone_check.mjs").arg(page).args(goods);
    let output = command.output().expect("node runs");
    let said = String::from_utf8_lossy(&output.stdout).into_owned() + &stderr(&output);
    Some(if output.status.success() { Ok(()) } else { Err(said) })
}

#[test]
fn the_page_works_in_a_browser_and_what_was_ticked_there_is_booked_at_home() {
    let Some(_) = std::env::var_os("SPENCE_BROWSER") else {
        // Past the capture of the test runner, so that it is seen.
        let _ = writeln!(io::stderr(), "left out: the phone page in a browser; .ci/run checks it");
        return;
    };
    let kitchen = sample();
    kitchen.done(&["print", "--only", "phone"]);
    let goods = kitchen.path().join("goods.toml");
    if let Some(Err(said)) = checked(&kitchen.path().join("sheets/list-2026-11-30.html"), Some(&goods)) {
        panic!("{said}");
    }
    let before = kitchen.text("pantry.toml");
    kitchen.done_on("2026-11-28", &["receive", "goods.toml"]);
    assert_ne!(kitchen.text("pantry.toml"), before);
}

/// The foods that are ticked in the page, after ticking these too, in a browser that keeps its storage in `profile`.
fn ticked(kitchen: &Kitchen, profile: &Path, foods: &[&str]) -> Vec<String> {
    let mut command = Command::new("node");
    command.current_dir(env!("CARGO_MANIFEST_DIR")).arg("tests/outside/phone_ticks.mjs");
    let output = command.arg(kitchen.path().join("sheets/list-2026-11-30.html")).arg(profile).args(foods).output().expect("node runs");
    assert!(output.status.success(), "{}", stderr(&output));
    String::from_utf8_lossy(&output.stdout).lines().filter(|line| !line.is_empty()).map(str::to_owned).collect()
}

#[test]
fn ticks_stay_where_a_trip_is_booked_in_part_and_printed_anew() {
    if std::env::var_os("SPENCE_BROWSER").is_none() {
        return;
    }
    let kitchen = three_grains();
    let profile = tempfile::TempDir::new().expect("a temporary folder");
    kitchen.done(&["print", "--only", "phone"]);
    assert_eq!(ticked(&kitchen, profile.path(), &["redgrain", "bluegrain"]), ["bluegrain", "redgrain"]);
    let goods = "from = 2026-11-30\ntrip = 2026-11-28\n[[line]]\nfood = \"bluegrain\"\npacks = \"2 x 400 g\"\n";
    let kitchen = kitchen.file("goods.toml", goods);
    kitchen.done_on("2026-11-28", &["receive", "goods.toml"]);
    kitchen.done(&["print", "--only", "phone"]);
    // Of the lines still open, those that were ticked are, and no other.
    assert_eq!(ticked(&kitchen, profile.path(), &[]), ["redgrain"]);
}

/// Names that a page, a script, a style or a file of TOML could take for more than a name.
const HOSTILE: [&str; 50] = [
    "<img src=x onerror=\"bad=1\">",
    "<img src=x onerror=bad=1>",
    "<IMG SRC=x ONERROR='bad=1'>",
    "</script><script>bad=1</script>",
    "<script>bad=1</script>",
    "</style><style>*{display:none}</style>",
    "</title><script>bad=1</script>",
    "</template><b onclick=bad=1>",
    "<svg onload=bad=1>",
    "<svg/onload=bad=1//",
    "<iframe srcdoc='<script>parent.bad=1</script>'>",
    "<a href=javascript:bad=1>stew</a>",
    "<base href=x>",
    "<!-- <script>",
    "--><script>bad=1</script><!--",
    "<![CDATA[stew]]>",
    "<?php bad ?>",
    "\" autofocus onfocus=bad=1 x=\"",
    "' autofocus onfocus=bad=1 x='",
    "` onfocus=bad=1 x=`",
    "\"><img src=x onerror=bad=1>",
    "'><img src=x onerror=bad=1>",
    "&lt;img src=x onerror=bad=1&gt;",
    "&amp;quot;&quot; & &amp; &#60;",
    "&#x3C;script>bad=1&#x3C;/script>",
    "\\u003cscript\\u003ebad=1\\u003c/script\\u003e",
    "\\\"; bad = 1; //",
    "\\'; bad = 1; //",
    "${bad = 1}",
    "{{bad = 1}}",
    "`${bad = 1}`",
    "*/ bad = 1; /*",
    "// bad\\nbad=1",
    "]]\\n[[line]] food = \"x\"",
    "\"\"\" '''",
    "a = \"b\" # c",
    "__proto__",
    "constructor",
    "toString",
    "null",
    "%3Cscript%3Ebad=1%3C/script%3E",
    "javascript:bad=1",
    "data:text/html,<script>bad=1</script>",
    "\u{5de}\u{5e8}\u{5e7} \u{5e2}\u{5d3}\u{5e9}\u{5d9}\u{5dd}",
    "\u{634}\u{648}\u{631}\u{628}\u{629} \u{639}\u{62f}\u{633} (soup) \u{661}",
    "line\u{2028}separated\u{2029}stew",
    "e\u{301}e\u{301}\u{323}\u{308} z\u{334}\u{335}\u{336}",
    "\u{1f372}\u{1f468}\u{200d}\u{1f373} stew",
    "\u{ff1c}script\u{ff1e}bad=1\u{ff1c}/script\u{ff1e}",
    "supercalifragilisticexpialidocioussupercalifragilisticexpialidocious",
];

/// A kitchen in which everything bears the name: household, food, shop, section, recipe, step, appliance, person, meal.
fn named(name: &str) -> Kitchen {
    // What JSON writes between quotes is a basic string of TOML.
    let toml = serde_json::to_string(name).expect("a text");
    let step = serde_json::to_string(&format!("Cook it: {}", name.replace('{', "(").replace('}', ")"))).expect("a text");
    kitchen()
        .file("kitchen.toml", &format!("[household]\nname = {toml}\neaters = 1\ncurrency = \"EUR\"\n[[appliance]]\nname = {toml}\n[[staple]]\nfood = {toml}\npar = \"400 g\"\n"))
        .foods(&format!("[[food]]\nname = \"bluegrain\"\nallergens = []\nsource = \"weighed at home\"\n[[food]]\nname = {toml}\nallergens = []\nkeeps = {{ cupboard = \"300 days\" }}\nsection = {toml}\nsource = {toml}\n"))
        .shops(&format!("[[shop]]\nname = {toml}\nsections = [{toml}]\n[[pack]]\nshop = {toml}\nfood = {toml}\nsize = \"400 g\"\nprice = \"2.40\"\n"))
        .recipe(
            "stew",
            &format!(
                "name = {toml}\nmakes = \"2 portions\"\nkeeps = {{ fridge = \"3 days\" }}\ningredients = \"800 g bluegrain\"\n\
                 [[step]]\ntext = {step}\nhands = \"5 min\"\nwait = \"20 min\"\non = [{toml}]\n"
            ),
        )
        .meals(&supper("2026-11-30", "\"1 portion recipe:stew\"").replace("[[meal]]", &format!("[[meal]]\nname = {toml}")))
        .file("name", name)
}

#[test]
fn fifty_kitchens_with_hostile_names_are_text_in_a_browser_and_are_booked() {
    if std::env::var_os("SPENCE_BROWSER").is_none() {
        return;
    }
    let folder = tempfile::TempDir::new().expect("a temporary folder");
    let kitchens: Vec<Kitchen> = HOSTILE.iter().map(|name| named(name)).collect();
    for (index, kitchen) in kitchens.iter().enumerate() {
        kitchen.done(&["print", "--only", "phone"]);
        let here = folder.path().join(format!("{index:02}"));
        fs::create_dir_all(here.join("sheets")).expect("a folder");
        for file in ["name", "sheets/list-2026-11-30.html"] {
            fs::copy(kitchen.path().join(file), here.join(file)).expect("a file");
        }
    }
    if let Some(Err(said)) = checked(folder.path(), None) {
        panic!("{said}");
    }
    for (index, kitchen) in kitchens.iter().enumerate() {
        let goods = folder.path().join(format!("{index:02}/goods.toml"));
        kitchen.done_on("2026-11-28", &["receive", &goods.to_string_lossy()]);
        let pantry: toml::Table = kitchen.text("pantry.toml").parse().expect("a pantry");
        let lots = pantry["lot"].as_array().expect("lots");
        assert!(lots.iter().any(|lot| lot["food"].as_str() == Some(HOSTILE[index])), "{}", kitchen.text("pantry.toml"));
    }
}
