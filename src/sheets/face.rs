//! The two faces that every sheet is set in: which glyphs they have and how wide each is. It must not know a page.

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::sync::OnceLock;

use ttf_parser::Face;
use unicode_normalization::UnicodeNormalization;

/// Characters below this are looked up once: Latin, Greek and Cyrillic.
const NEAR: u32 = 0x530;

/// Stands for a character that the faces have no shape for.
const STAND_IN: char = '□';

/// The weight of a run of text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Weight {
    Regular,
    SemiBold,
}

/// One face: its file, and the glyphs it maps characters to.
pub struct Typeface {
    pub data: &'static [u8],
    /// Its PostScript name.
    pub name: &'static str,
    face: Option<Face<'static>>,
    per_em: f32,
    near: Vec<Option<Glyph>>,
}

/// A glyph of a face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Glyph {
    pub id: u16,
    /// In thousandths of the size.
    pub advance: u16,
}

impl Typeface {
    fn read(data: &'static [u8], name: &'static str) -> Typeface {
        let face = Face::parse(data, 0).ok();
        let per_em = face.as_ref().map_or(1000.0, |face| f32::from(face.units_per_em()));
        let mut typeface = Typeface { data, name, face, per_em, near: Vec::new() };
        typeface.near = (0..NEAR).map(|code| char::from_u32(code).and_then(|c| typeface.look_up(c))).collect();
        typeface
    }

    fn look_up(&self, c: char) -> Option<Glyph> {
        let face = self.face.as_ref()?;
        let id = face.glyph_index(c)?;
        let advance = f32::from(face.glyph_hor_advance(id).unwrap_or(0)) * 1000.0 / self.per_em;
        Some(Glyph { id: id.0, advance: advance.round() as u16 })
    }

    /// The glyph of a character, or `None` where the face has no shape for it.
    pub fn glyph(&self, c: char) -> Option<Glyph> {
        match self.near.get(c as usize) {
            Some(glyph) => *glyph,
            None => self.look_up(c),
        }
    }

    /// Points that one character takes at a size.
    pub fn advance(&self, c: char, size: f32) -> f32 {
        self.glyph(c).map_or(0.0, |glyph| f32::from(glyph.advance)) * size / 1000.0
    }

    /// Points that a text takes on one line at a size.
    pub fn width(&self, text: &str, size: f32) -> f32 {
        text.chars().map(|c| self.advance(c, size)).sum()
    }

    /// Ascent and descent in thousandths of the size.
    pub fn vertical(&self) -> (i16, i16) {
        self.face.as_ref().map_or((0, 0), |face| (face.ascender(), face.descender()))
    }
}

/// The face of a weight, parsed once.
pub fn typeface(weight: Weight) -> &'static Typeface {
    static REGULAR: OnceLock<Typeface> = OnceLock::new();
    static SEMI_BOLD: OnceLock<Typeface> = OnceLock::new();
    match weight {
        Weight::Regular => {
            REGULAR.get_or_init(|| Typeface::read(include_bytes!("../../fonts/SourceSans3-Regular.ttf"), "SourceSans3-Regular"))
        }
        Weight::SemiBold => {
            SEMI_BOLD.get_or_init(|| Typeface::read(include_bytes!("../../fonts/SourceSans3-SemiBold.ttf"), "SourceSans3-Semibold"))
        }
    }
}

/// What a character does on a page.
enum Printed {
    As(char),
    Space,
    Nothing,
    Missing,
}

fn printed(c: char) -> Printed {
    match c {
        '\u{a0}' | '\u{202f}' | '\u{2007}' => Printed::As('\u{a0}'),
        c if c.is_whitespace() => Printed::Space,
        // Joiners, direction marks, variation selectors and the byte order mark have no shape of their own.
        '\u{ad}'
        | '\u{200b}'..='\u{200f}'
        | '\u{202a}'..='\u{202e}'
        | '\u{2060}'..='\u{2069}'
        | '\u{fe00}'..='\u{fe0f}'
        | '\u{feff}'
        | '\u{e0000}'..='\u{e01ef}' => Printed::Nothing,
        c if c.is_control() => Printed::Nothing,
        c if has_shape(c) => Printed::As(c),
        _ => Printed::Missing,
    }
}

fn has_shape(c: char) -> bool {
    typeface(Weight::Regular).glyph(c).is_some() && typeface(Weight::SemiBold).glyph(c).is_some()
}

/// Letters and their accents as one character each. Below U+0300 no character joins another, which is nearly every text.
fn composed(text: &str) -> Cow<'_, str> {
    if text.chars().all(|c| c < '\u{300}') { Cow::Borrowed(text) } else { Cow::Owned(text.nfc().collect()) }
}

/// A text as the faces can print it: letters and their accents composed (Unicode, NFC), white space run together, and a stand-in for every character without a shape, which is noted in `missing`.
pub fn printable(text: &str, missing: &mut BTreeSet<char>) -> String {
    let mut out = String::with_capacity(text.len());
    for c in composed(text).chars() {
        match printed(c) {
            Printed::As(c) => out.push(c),
            Printed::Space if out.ends_with(' ') => {}
            Printed::Space => out.push(' '),
            Printed::Nothing => {}
            Printed::Missing => {
                missing.insert(c);
                out.push(if has_shape(STAND_IN) { STAND_IN } else { '?' });
            }
        }
    }
    out
}

/// Writing that the faces do not have, by the blocks of the Unicode Standard.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Script {
    RightToLeft,
    EastAsian,
    Other,
}

fn script(c: char) -> Script {
    match c {
        // Hebrew to Arabic Extended-A; presentation forms; the right-to-left blocks of the supplementary plane.
        '\u{590}'..='\u{8ff}'
        | '\u{fb1d}'..='\u{fdff}'
        | '\u{fe70}'..='\u{fefe}'
        | '\u{10800}'..='\u{10fff}'
        | '\u{1e800}'..='\u{1efff}' => Script::RightToLeft,
        // Hangul Jamo; radicals to Yi; Hangul; compatibility forms; full widths; kana and ideographs of the supplementary planes.
        '\u{1100}'..='\u{11ff}'
        | '\u{2e80}'..='\u{a4cf}'
        | '\u{a960}'..='\u{a97f}'
        | '\u{ac00}'..='\u{d7ff}'
        | '\u{f900}'..='\u{faff}'
        | '\u{fe30}'..='\u{fe4f}'
        | '\u{ff00}'..='\u{ffef}'
        | '\u{1aff0}'..='\u{1b2ff}'
        | '\u{20000}'..='\u{3ffff}' => Script::EastAsian,
        _ => Script::Other,
    }
}

/// What could not be printed, a warning a kind of writing, naming up to twelve characters of each.
pub fn warnings_of(missing: &BTreeSet<char>) -> Vec<String> {
    let kinds = [
        (
            Script::RightToLeft,
            "right-to-left writing cannot be printed; write the name in Latin, Greek or Cyrillic letters. The sheet's type",
        ),
        (
            Script::EastAsian,
            "Chinese, Japanese and Korean cannot be printed; write the name in Latin, Greek or Cyrillic letters. The sheet's type",
        ),
        (Script::Other, "the sheet's type"),
    ];
    let warning = |(kind, words): (Script, &str)| {
        let these: Vec<char> = missing.iter().copied().filter(|c| script(*c) == kind).collect();
        let named = these.iter().take(12).map(|c| format!("{c} (U+{:04X})", *c as u32)).collect::<Vec<_>>().join(", ");
        let more = these.len().saturating_sub(12);
        let rest = if more > 0 { format!(" and {more} more") } else { String::new() };
        (!these.is_empty()).then(|| format!("{words} has no shape for {named}{rest}: {STAND_IN} is printed instead"))
    };
    kinds.into_iter().filter_map(warning).collect()
}
