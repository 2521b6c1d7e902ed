//! Everything a person can write or a disk can spoil, changed at random: nothing panics, nothing is waited for, and what is taken in can be
//! reckoned. The whole files are ours; what is done to them is left to chance, in an order that proptest can repeat.
//!
//! `cargo test` tries a few of each. `SPENCE_FUZZ=5000 cargo test --test tests fuzz::` tries as many as it says.

mod spoil;

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use jiff::civil::date;
use proptest::prelude::*;
use spence::book::{Book, Booked, Ledger};
use spence::kitchen::{Loaded, load, read_count, read_goods, read_ingredients, read_line};
use spence::measure::{Spoons, read_quantity};
use spence::prep::Effort;
use spence::{PastTrips, Shown, adopt, json, reckon};

use spoil::{Spoilt, spoilt};

/// How many of each are tried, where the sample kitchen is read for every one.
const FEW: u32 = 16;

/// How many of each are tried, where a text alone is read.
const MANY: u32 = 200;

fn tried(usually: u32) -> ProptestConfig {
    let cases = std::env::var("SPENCE_FUZZ").ok().and_then(|number| number.parse().ok()).unwrap_or(usually);
    ProptestConfig { cases, failure_persistence: None, max_shrink_iters: 2_000, ..ProptestConfig::default() }
}

/// The sample kitchen: path within the folder, text.
fn sample() -> BTreeMap<String, String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-data");
    let mut files = BTreeMap::new();
    for folder in ["", "recipes", "weeks"] {
        for entry in fs::read_dir(root.join(folder)).unwrap().flatten().filter(|entry| entry.path().is_file()) {
            let name = Path::new(folder).join(entry.file_name()).to_string_lossy().replace('\\', "/");
            files.insert(name, fs::read_to_string(entry.path()).unwrap());
        }
    }
    files
}

/// Reads the folder and, where it can be read, reckons all its weeks, their lists and their sessions.
fn go_through(files: &BTreeMap<String, Vec<u8>>) {
    let folder = tempfile::tempdir().unwrap();
    for (name, bytes) in files {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
    match load(folder.path()) {
        Err(not) => assert!(!not.is_empty(), "what is refused is told"),
        Ok(loaded) => {
            for week in 0..loaded.weeks.len() {
                reckoned(&loaded, week);
            }
        }
    }
}

fn reckoned(loaded: &Loaded, week: usize) {
    let Ok(reckoning) = reckon(loaded, &Booked::default(), &[], week, date(2026, 11, 27)) else { return };
    let list = reckoning.list(Shown { past: PastTrips::AsBooked, compared: true });
    json::text(&json::list(&list, &loaded.kitchen)).unwrap();
    let plan = reckoning.prep(Effort::Low);
    json::text(&json::prep(&plan, None, &loaded.kitchen)).unwrap();
}

fn bytes(files: &BTreeMap<String, String>) -> BTreeMap<String, Vec<u8>> {
    files.iter().map(|(name, text)| (name.clone(), text.clone().into_bytes())).collect()
}

fn kitchen() -> &'static Loaded {
    static KITCHEN: std::sync::LazyLock<Loaded> =
        std::sync::LazyLock::new(|| load(&Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-data")).unwrap());
    &KITCHEN
}

const COUNT: &str = "from = 2026-11-27\n[[lot]]\nfood = \"pearl barley\"\nplace = \"cupboard\"\nbest_before = 2027-03-01\nbooked = \"350 g\"\ncounted = \"\"\n[[lot]]\nfood = \"feta\"\namount = \"1/2\"\nplace = \"fridge\"\n";

const GOODS: &str = "from = 2026-11-30\ntrip = 2026-11-28\nhash = \"0f3a55c1d2e4\"\nalso = [\"1 kg onions at 1.20\"]\n[[line]]\nfood = \"feta\"\npacks = \"1 x 200 g\"\ninstead = \"2 x 150 g\"\npaid = \"2.49\"\nuntil = 2026-12-04\n";

const PAGE: &str = "<!DOCTYPE html><html><head><title>Herb yoghurt</title><script type=\"application/ld+json\">{\"@context\":\"https://schema.org\",\"@graph\":[{\"@type\":[\"Recipe\"],\"name\":\"Herb yoghurt\",\"recipeYield\":[\"4\",\"4 servings\"],\"prepTime\":\"PT10M\",\"totalTime\":\"P0DT1H5M\",\"recipeIngredient\":[\"250 g yoghurt\",\"1 bunch dill\"],\"recipeInstructions\":[{\"@type\":\"HowToSection\",\"itemListElement\":[{\"@type\":\"HowToStep\",\"text\":\"Chop the dill. Stir it in.\"}]}]}]}</script></head><body><div itemscope itemtype=\"https://schema.org/Recipe\"><h1 itemprop=\"name\">Herb yoghurt</h1><ul><li itemprop=\"recipeIngredient\">&frac12; cup yoghurt</li></ul><ol><li itemprop=\"recipeInstructions\">Stir.</li></ol></div></body></html>";

const BOOK: &str = "{\"number\":1,\"on\":\"2026-11-27\",\"verb\":\"waste\",\"what\":\"1 g feta\",\"before\":\"\",\"changes\":[{\"from\":{\"food\":\"feta\",\"amount\":\"200 g\",\"place\":\"fridge\"},\"to\":{\"food\":\"feta\",\"amount\":\"199 g\",\"place\":\"fridge\"}}]}\n";

const LINES: [&str; 8] = [
    "2 tins (400 g) chopped tomatoes, drained",
    "1½ lb boneless chicken thighs (about 600 g), diced",
    "salt and black pepper, to taste",
    "400 g plain flour, plus 2 tbsp for dusting",
    "2-3 cloves garlic, crushed",
    "1 (2-inch) piece ginger; or 1 tsp ground ginger",
    "300 g recipe:roast-roots, warm",
    "Für den Teig: 1/2 Bund Dill",
];

/// Changes to each of some files: its place among them, and what is done to it.
fn changes(most: usize) -> impl Strategy<Value = Vec<(prop::sample::Index, Spoilt)>> {
    prop::collection::vec((any::<prop::sample::Index>(), spoilt()), 1..most)
}

proptest! {
    #![proptest_config(tried(FEW))]

    #[test]
    fn a_spoilt_file_of_a_kitchen_is_refused_with_a_word_or_reckoned(changes in changes(4)) {
        let mut files = bytes(&sample());
        for (file, spoilt) in changes {
            let name = file.get(&files.keys().cloned().collect::<Vec<_>>()).clone();
            let text = spoilt.of(&files[&name]);
            files.insert(name, text);
        }
        go_through(&files);
    }

    #[test]
    fn a_kitchen_with_other_values_is_refused_with_a_word_or_reckoned(changes in prop::collection::vec((any::<prop::sample::Index>(), any::<prop::sample::Index>(), any::<prop::sample::Index>()), 1..6)) {
        let mut files = sample();
        for (file, line, value) in changes {
            let name = file.get(&files.keys().cloned().collect::<Vec<_>>()).clone();
            let text = spoil::with_another_value(&files[&name], line, value);
            files.insert(name, text);
        }
        go_through(&bytes(&files));
    }
}

proptest! {
    #![proptest_config(tried(MANY))]

    #[test]
    fn a_spoilt_ingredient_line_is_read_or_refused_at_a_place_in_it(line in 0usize..LINES.len(), spoilt in spoilt()) {
        let text = String::from_utf8_lossy(&spoilt.of(LINES[line].as_bytes())).into_owned();
        let foods = &kitchen().kitchen.foods;
        for offset in [read_line(&text, foods, Spoons::Us).map(|_| ()), read_ingredients(&text, foods, Spoons::Us).map(|_| ())].into_iter().filter_map(|read| read.err().map(|error| error.offset)) {
            prop_assert!(offset <= text.len(), "{offset} in {text:?}");
        }
    }

    #[test]
    fn a_spoilt_page_is_adopted_or_holds_no_recipe(spoilt in spoilt()) {
        let is_ingredient = |line: &str| read_line(line, &kitchen().kitchen.foods, Spoons::Us).is_ok_and(|line| !format!("{line:?}").is_empty());
        let _ = adopt::adopt(&spoilt.of(PAGE.as_bytes()), &is_ingredient);
        let plain = spoilt.of(LINES.join("\n").as_bytes());
        let _ = adopt::adopt(&plain, &is_ingredient);
    }

    #[test]
    fn a_spoilt_count_or_goods_sheet_is_read_or_refused(spoilt in spoilt()) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("sheet.toml");
        fs::write(&path, spoilt.of(COUNT.as_bytes())).unwrap();
        let _ = read_count(&kitchen().kitchen, &path, &|_| Vec::new());
        fs::write(&path, spoilt.of(GOODS.as_bytes())).unwrap();
        let _ = read_goods(&kitchen().kitchen, &path);
    }

    #[test]
    fn a_spoilt_book_is_read_or_said_to_be_broken(spoilt in spoilt(), times in 1usize..3) {
        let text = spoilt.of(BOOK.repeat(times).as_bytes());
        let _ = Ledger::read(text.as_slice());
        let _ = Book::read(&String::from_utf8_lossy(&text));
    }

    #[test]
    fn a_spoilt_print_is_read_or_refused(spoilt in spoilt()) {
        static PRINT: std::sync::LazyLock<String> = std::sync::LazyLock::new(printed);
        let text = String::from_utf8_lossy(&spoilt.of(PRINT.as_bytes())).into_owned();
        let _ = json::read_printed(&text, "plan.json", &kitchen().kitchen);
    }

    #[test]
    fn a_spoilt_amount_is_no_food(spoilt in spoilt()) {
        let text = String::from_utf8_lossy(&spoilt.of(b"1 1/2 cups")).into_owned();
        let _ = kitchen().kitchen.foods.find(&text);
        let _ = read_quantity(&text, Spoons::Us);
    }
}

/// The list and the plan of the sample week, as a print keeps them.
fn printed() -> String {
    let loaded = kitchen();
    let reckoning = reckon(loaded, &Booked::default(), &[], 0, date(2026, 11, 27)).unwrap();
    let list = json::text(&json::list(&reckoning.list(Shown::default()), &loaded.kitchen)).unwrap();
    let prep = json::text(&json::prep(&reckoning.prep(Effort::Low), None, &loaded.kitchen)).unwrap();
    format!("{{\"list\":{list},\"prep\":{prep},\"mark\":\"0f3a\"}}")
}
