//! Turning pages into a PDF: it only transcribes what the layout has placed. Same pages, same bytes: no time of making is written.

use std::collections::{BTreeMap, BTreeSet};
use std::io::Write;

use flate2::Compression;
use flate2::write::ZlibEncoder;
use lopdf::{Dictionary, Object, StringFormat};
use printpdf::{
    Color, FontId, FontMetrics, Greyscale, Op, PaintMode, ParsedFont, PdfDocument, PdfFont, PdfFontHandle, PdfPage, PdfSaveOptions, Point,
    Pt, TextItem, WindingOrder,
};
use subsetter::GlyphRemapper;

use super::Sheet;
use super::face::{Typeface, Weight, typeface};
use super::mark::keywords;
use super::outline::{add_links, add_outline};
use super::page::{Page, Rect, Rule, TextRun};

const WEIGHTS: [Weight; 2] = [Weight::Regular, Weight::SemiBold];

/// The bytes of a sheet's PDF. Its text can be searched and copied; its fonts are embedded, cut down to the glyphs it uses.
pub fn to_pdf(sheet: &Sheet) -> Vec<u8> {
    let mut document = PdfDocument::new(&sheet.title);
    document.metadata.info.producer = "spence".to_owned();
    document.metadata.info.author = sheet.author.clone().unwrap_or_default();
    for weight in WEIGHTS {
        let used = characters(&sheet.pages, weight);
        if !used.is_empty() {
            let font = embedded(typeface(weight), &used);
            document.resources.fonts.map.insert(font_id(weight), PdfFont::new(font));
        }
    }
    document.pages = sheet.pages.iter().map(transcribed).collect();
    let mut written = document.to_lopdf_document(&PdfSaveOptions::default(), &mut Vec::new());
    add_outline(&mut written, &sheet.pages);
    add_links(&mut written, &sheet.pages);
    finish(&mut written, sheet);
    deflate(&mut written);
    let mut bytes = Vec::new();
    // Writing to memory does not fail.
    let _ = written.save_to(&mut bytes);
    bytes
}

fn characters(pages: &[Page], weight: Weight) -> BTreeSet<char> {
    pages.iter().flat_map(|page| &page.runs).filter(|run| run.weight == weight).flat_map(|run| run.text.chars()).collect()
}

fn font_id(weight: Weight) -> FontId {
    FontId(match weight {
        Weight::Regular => "Regular".to_owned(),
        Weight::SemiBold => "SemiBold".to_owned(),
    })
}

/// The face with only the glyphs of `used`. Where it cannot be cut down it is embedded whole.
fn embedded(face: &Typeface, used: &BTreeSet<char>) -> ParsedFont {
    let mut kept = GlyphRemapper::new();
    let glyphs: Vec<_> = used.iter().filter_map(|c| face.glyph(*c).map(|glyph| (*c, glyph))).collect();
    glyphs.iter().for_each(|(_, glyph)| {
        kept.remap(glyph.id);
    });
    let cut = subsetter::subset(face.data, 0, &kept);
    let whole = cut.is_err();
    let number = |id: u16| if whole { id } else { kept.get(id).unwrap_or(0) };
    let characters: BTreeMap<u32, u16> = glyphs.iter().map(|(c, glyph)| (*c as u32, number(glyph.id))).collect();
    let widths: BTreeMap<u16, u16> = glyphs.iter().map(|(_, glyph)| (number(glyph.id), glyph.advance)).collect();
    let (ascent, descent) = face.vertical();
    // Six capitals and a plus mark a face that was cut down (ISO 32000-1, 9.6.4).
    let name = if whole { face.name.to_owned() } else { format!("SPENCE+{}", face.name) };
    let bytes = cut.unwrap_or_else(|_| face.data.to_vec());
    ParsedFont::with_glyph_data(bytes, 0, Some(name), characters, widths, 1000, FontMetrics { ascent, descent })
}

fn transcribed(page: &Page) -> PdfPage {
    let mut ops = Vec::new();
    page.rules.iter().for_each(|rule| draw_rule(rule, page.height, &mut ops));
    page.rects.iter().for_each(|rect| draw_rect(rect, page.height, &mut ops));
    page.runs.iter().for_each(|run| show_run(run, page.height, &mut ops));
    PdfPage::new(Pt(page.width).into(), Pt(page.height).into(), ops)
}

fn grey(percent: f32) -> Color {
    Color::Greyscale(Greyscale { percent, icc_profile: None })
}

fn draw_rect(rect: &Rect, page_height: f32, ops: &mut Vec<Op>) {
    let shape = |mode| {
        let (x, y) = (Pt(rect.x), Pt(page_height - rect.y - rect.height));
        let rectangle = printpdf::Rect {
            x,
            y,
            width: Pt(rect.width),
            height: Pt(rect.height),
            mode: Some(mode),
            winding_order: Some(WindingOrder::NonZero),
        };
        Op::DrawRectangle { rectangle }
    };
    if let Some(fill) = rect.fill {
        ops.extend([Op::SetFillColor { col: grey(fill) }, shape(PaintMode::Fill)]);
    }
    if let Some(thickness) = rect.outline {
        ops.extend([Op::SetOutlineColor { col: grey(0.0) }, Op::SetOutlineThickness { pt: Pt(thickness) }, shape(PaintMode::Stroke)]);
    }
}

fn draw_rule(rule: &Rule, page_height: f32, ops: &mut Vec<Op>) {
    let point = |x, y| printpdf::LinePoint { p: Point { x: Pt(x), y: Pt(page_height - y) }, bezier: false };
    let line = printpdf::Line { points: vec![point(rule.x0, rule.y0), point(rule.x1, rule.y1)], is_closed: false };
    ops.extend([Op::SetOutlineColor { col: grey(rule.grey) }, Op::SetOutlineThickness { pt: Pt(rule.thickness) }, Op::DrawLine { line }]);
}

fn show_run(run: &TextRun, page_height: f32, ops: &mut Vec<Op>) {
    ops.extend([
        Op::StartTextSection,
        Op::SetFillColor { col: grey(run.grey) },
        Op::SetFont { font: PdfFontHandle::External(font_id(run.weight)), size: Pt(run.size) },
        Op::SetTextCursor { pos: Point { x: Pt(run.x), y: Pt(page_height - run.baseline) } },
        Op::ShowText { items: vec![TextItem::Text(run.text.clone())] },
        Op::EndTextSection,
    ]);
}

/// Packs every stream. The middle level costs half the time of the highest and a few bytes in a hundred.
fn deflate(document: &mut lopdf::Document) {
    for object in document.objects.values_mut() {
        let Object::Stream(stream) = object else { continue };
        if !stream.allows_compression || stream.dict.has(b"Filter") {
            continue;
        }
        let mut packer = ZlibEncoder::new(Vec::new(), Compression::default());
        let Ok(packed) = packer.write_all(&stream.content).and_then(|()| packer.finish()) else { continue };
        if packed.len() < stream.content.len() {
            stream.dict.set("Filter", "FlateDecode");
            stream.set_content(packed);
        }
    }
}

/// The language, a title bar that shows the title, an identity drawn from the sheet's name, and no dates.
fn finish(document: &mut lopdf::Document, sheet: &Sheet) {
    let id = |text: &str| Object::String(text.as_bytes().to_vec(), StringFormat::Hexadecimal);
    document.trailer.set("ID", Object::Array(vec![id(&sheet.file_stem), id(&sheet.file_stem)]));
    if let Ok(catalog) = document.catalog_mut() {
        catalog.set("Lang", Object::string_literal("en"));
        catalog.set("PageMode", Object::Name(b"UseNone".to_vec()));
        let mut viewer = Dictionary::new();
        viewer.set("DisplayDocTitle", true);
        catalog.set("ViewerPreferences", viewer);
    }
    let info = document.trailer.get(b"Info").and_then(Object::as_reference);
    if let Ok(info) = info.and_then(|id| document.get_object_mut(id)).and_then(Object::as_dict_mut) {
        for key in [b"CreationDate".as_slice(), b"ModDate", b"GTS_PDFXVersion", b"Trapped", b"Identifier"] {
            info.remove(key);
        }
        if let Some(keywords) = keywords(sheet) {
            info.set("Keywords", Object::string_literal(keywords));
        }
    }
}
