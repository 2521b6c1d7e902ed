//! What is read back from the PDF.

use lopdf::{Dictionary, Document, Object};
use pretty_assertions::assert_eq;

use super::labels;
use super::sample::{A4, FOLDED, LARGE, LETTER, WEEK, before, list, names, session};
use super::week_card::card;
use crate::sheets::{LabelGrid, Settings, Sheet, prep_guide, shopping_list, to_pdf, week_card_sheet};

fn sheets() -> Vec<Sheet> {
    let all = |settings: Settings| {
        let grid = LabelGrid::usual(settings.size);
        [
            shopping_list(&list(), &before(), names(), settings),
            prep_guide(WEEK, &session(), &before(), names(), settings),
            week_card_sheet(&card(), names(), settings),
            labels::printed(vec![labels::label(); 9], grid, settings),
        ]
    };
    [A4, LETTER, LARGE, FOLDED].into_iter().flat_map(all).collect()
}

fn read(sheet: &Sheet) -> Document {
    Document::load_mem(&to_pdf(sheet)).expect("a PDF that can be read")
}

fn bare(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace()).collect()
}

#[test]
fn the_text_read_back_is_the_text_laid_out() {
    for sheet in sheets() {
        let document = read(&sheet);
        for (index, page) in sheet.pages.iter().enumerate() {
            let back = document.extract_text(&[index as u32 + 1]).expect("text");
            let laid_out: String = page.runs.iter().map(|run| bare(&run.text)).collect();
            assert_eq!(bare(&back), laid_out);
        }
    }
}

#[test]
fn the_same_sheet_is_the_same_bytes() {
    for sheet in sheets() {
        assert!(to_pdf(&sheet) == to_pdf(&sheet));
    }
}

#[test]
fn no_time_of_making_is_written() {
    for sheet in sheets() {
        let bytes = to_pdf(&sheet);
        assert!(!bytes.windows(12).any(|window| window == b"CreationDate"));
        assert!(!bytes.windows(7).any(|window| window == b"ModDate"));
    }
}

fn fonts(document: &Document) -> Vec<&Dictionary> {
    let is_descriptor = |object: &&Object| object.as_dict().is_ok_and(|dict| dict.has_type(b"FontDescriptor"));
    document.objects.values().filter(is_descriptor).filter_map(|object| object.as_dict().ok()).collect()
}

#[test]
fn fonts_are_embedded_and_cut_down() {
    for sheet in sheets() {
        let document = read(&sheet);
        let fonts = fonts(&document);
        assert_eq!(fonts.len(), 2);
        for font in fonts {
            let name = font.get(b"FontName").and_then(Object::as_name).expect("a name");
            assert!(name.starts_with(b"SPENCE+SourceSans3-"));
            let file = font.get(b"FontFile2").and_then(Object::as_reference).and_then(|id| document.get_object(id));
            let length = file.and_then(Object::as_stream).map(|stream| stream.content.len()).expect("a font file");
            assert!((1_000..40_000).contains(&length), "{length} bytes");
        }
    }
}

#[test]
fn a_sheet_is_less_than_100_kilobytes() {
    assert!(sheets().iter().all(|sheet| to_pdf(sheet).len() < 100_000));
}

#[test]
fn language_and_title_are_told() {
    for sheet in sheets() {
        let document = read(&sheet);
        let catalog = document.catalog().expect("a catalog");
        assert_eq!(catalog.get(b"Lang").and_then(Object::as_str).ok(), Some(b"en".as_slice()));
        let title: Vec<u8> = [0xfe, 0xff].into_iter().chain(sheet.title.encode_utf16().flat_map(u16::to_be_bytes)).collect();
        let info = document.trailer.get(b"Info").and_then(Object::as_reference).and_then(|id| document.get_dictionary(id));
        assert_eq!(info.and_then(|info| info.get(b"Title")).and_then(Object::as_str).ok(), Some(title.as_slice()));
        assert_eq!(document.get_pages().len(), sheet.pages.len());
    }
}

#[test]
fn bookmarks_lead_to_the_shops_days_and_sessions_in_their_order() {
    for sheet in sheets() {
        let document = read(&sheet);
        let laid_out: Vec<&str> = sheet.pages.iter().flat_map(|page| &page.bookmarks).map(|mark| mark.title.as_str()).collect();
        assert!(!laid_out.is_empty(), "{}", sheet.title);
        let outline = document.catalog().and_then(|catalog| catalog.get(b"Outlines")).and_then(Object::as_reference).expect("an outline");
        let mut next = document.get_dictionary(outline).and_then(|root| root.get(b"First")).and_then(Object::as_reference).ok();
        let mut back = Vec::new();
        while let Some(item) = next.and_then(|id| document.get_dictionary(id).ok()) {
            back.push(lopdf::decode_text_string(item.get(b"Title").expect("a title")).expect("text"));
            next = item.get(b"Next").and_then(Object::as_reference).ok();
        }
        assert_eq!(back, laid_out);
    }
}
