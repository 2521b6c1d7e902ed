//! The handout of the sample week: its pages hold what all sheets hold, and its contents lead where they say.

use std::path::Path;
use std::sync::LazyLock;

use lopdf::{Document, Object};
use pretty_assertions::assert_eq;

use super::checks::{is_sound_in, letters, letters_of};
use super::sample::{A4, LARGE, LETTER};
use crate::handout::{Handout, Wishes, handout};
use crate::kitchen::load;
use crate::measure::Number;
use crate::prep::Effort;
use crate::sheets::{Author, Settings, Sheet, handout_sheet, to_pdf};

const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/sample-data");
const TITLE: &str = "Five components, seven suppers";
const NOTE: &str = "Cook once, eat for a week.\n\nA line\nthat goes on.";

fn told(eaters: Option<Number>) -> Handout {
    let loaded = load(Path::new(FOLDER)).expect("the sample kitchen has no mistakes");
    let wishes = Wishes { eaters, methods: false, effort: Effort::Low };
    handout(&loaded.kitchen, &loaded.weeks[0].1, &wishes).expect("the week can be planned")
}

static TOLD: LazyLock<Handout> = LazyLock::new(|| told(None));

fn printed(settings: Settings) -> Sheet {
    handout_sheet(&TOLD, &Author { title: Some(TITLE), by: Some("A neighbour"), note: NOTE }, settings)
}

#[test]
fn every_page_is_sound_and_names_title_and_author_at_its_foot() {
    for settings in [A4, LETTER, LARGE] {
        let sheet = printed(settings);
        is_sound_in(&sheet, TITLE, settings);
        assert_eq!(sheet.warnings, Vec::<String>::new());
        for page in &sheet.pages {
            let foot = format!("{TITLE}, by A neighbour");
            assert!(page.runs.iter().any(|run| run.text == foot && run.baseline > page.height - 60.0), "a page without {foot}");
        }
    }
}

#[test]
fn contents_lead_to_the_pages_whose_numbers_they_print() {
    for settings in [A4, LETTER, LARGE] {
        let sheet = printed(settings);
        let links: Vec<_> = sheet.pages.iter().flat_map(|page| page.links.iter().map(move |link| (page, link))).collect();
        assert!(links.len() > 15);
        for (page, link) in links {
            let on_line = |run: &&crate::sheets::TextRun| run.baseline > link.y && run.baseline <= link.y + link.height;
            let words: Vec<&str> = page.runs.iter().filter(on_line).map(|run| run.text.as_str()).collect();
            let number: usize = words.last().and_then(|word| word.parse().ok()).expect("a page number");
            assert_eq!(number, link.to.0 + 1, "{words:?}");
            let there = &sheet.pages[link.to.0];
            let all: String = there.runs.iter().map(|run| letters(&run.text)).collect();
            let marks: String = there.bookmarks.iter().map(|mark| letters(&mark.title)).collect();
            assert!(all.contains(&letters(words[0])) || marks.contains(&letters(words[0])), "{words:?} is not on its page");
        }
    }
}

#[test]
fn links_and_bookmarks_are_in_the_pdf_and_its_text_can_be_copied() {
    let sheet = printed(A4);
    let document = Document::load_mem(&to_pdf(&sheet)).expect("a PDF");
    let pages = document.get_pages();
    let first = document.get_dictionary(pages[&1]).expect("a page");
    let notes = first.get(b"Annots").and_then(Object::as_array).expect("links");
    assert_eq!(notes.len(), sheet.pages[0].links.len());
    assert!(document.catalog().expect("a catalog").has(b"Outlines"));
    for (index, page) in sheet.pages.iter().enumerate() {
        let back: String = document.extract_text(&[index as u32 + 1]).expect("text").split_whitespace().collect();
        let laid_out: String = page.runs.iter().flat_map(|run| run.text.split_whitespace()).collect();
        assert_eq!(back, laid_out);
    }
}

#[test]
fn the_parts_stand_in_the_reader_s_order() {
    let sheet = printed(A4);
    let marks: Vec<&str> = sheet.pages.iter().flat_map(|page| &page.bookmarks).map(|mark| mark.title.as_str()).collect();
    let order = [
        TITLE,
        "Before you begin",
        "Cooking on the day before day 1, for one",
        "Cooking on day 3, for cook and helper",
        "Day by day",
        "Recipes",
        "Cautions and sources",
    ];
    let places: Vec<usize> =
        order.iter().map(|name| marks.iter().position(|mark| mark == name).unwrap_or_else(|| panic!("{name} in {marks:?}"))).collect();
    assert!(places.is_sorted(), "{marks:?}");
    let days: Vec<&str> = marks.iter().copied().filter(|mark| mark.starts_with("Day ") && mark.len() == 5).collect();
    assert_eq!(days, ["Day 1", "Day 2", "Day 3", "Day 4", "Day 5", "Day 6", "Day 7"]);
}

#[test]
fn meals_are_told_by_their_parts_and_the_clock_starts_at_nought() {
    let all = letters_of(&printed(A4), |_| true);
    for said in [
        "Each meal is reckoned for 2½ people; day 5 supper for 3½ people.",
        "Cook once, eat for a week.",
        "A line that goes on.",
        "Day 1, supper: Braised chicken and barley: chicken thighs braised with tomatoes and olives + pearl barley + herb yoghurt",
        "Day 1, breakfast: overnight oats",
        "The clock starts at 0:00",
        "16 h before 0:00",
        "Buy on day 3",
        "Bought every week beside it",
        "oat milk, olive oil, eggs, plain flour",
        "water, salt, dried oregano, baking powder",
        "Short of time? Leave out leek and potato soup, saves",
        "boil 115 g brown rice, 30 min",
        "The author's own",
    ] {
        assert!(all.contains(&letters(said)), "{said} is missing in {all}");
    }
}

#[test]
fn so_many_eaters_are_in_place_of_everybody() {
    let two = told(Some(Number::whole(2)));
    assert!(two.eaters.iter().all(|(number, _)| *number == Number::whole(2)) && two.eaters.len() == 1);
    // A pot for one, 50 g of oats: two breakfasts for two.
    let oats = two.buying.iter().flat_map(|one| &one.sections).flat_map(|one| &one.lines).find(|line| line.name == "rolled oats");
    assert_eq!(oats.map(|line| line.amounts.clone()), Some(vec![crate::measure::Quantity::grams(200.0)]));
}

#[test]
fn the_file_names_its_title_and_its_author_apart() {
    let document = Document::load_mem(&to_pdf(&printed(A4))).expect("a PDF");
    let info = document.trailer.get(b"Info").and_then(|info| document.dereference(info)).expect("what the file says of itself").1;
    let said = |key: &[u8]| info.as_dict().and_then(|info| info.get(key)).and_then(lopdf::decode_text_string).expect("a text");
    assert_eq!((said(b"Title"), said(b"Author")), (TITLE.to_owned(), "A neighbour".to_owned()));
}
