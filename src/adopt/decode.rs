//! Bytes to text: what a byte order mark says, else UTF-8, else what the page names, else Windows-1252, as browsers do (WHATWG Encoding).

use encoding_rs::{Encoding, UTF_8, WINDOWS_1252};

/// So many bytes at the start of a page may name its encoding (HTML Standard, 13.2.3.2).
const PRESCAN: usize = 1024;

pub(super) fn text(bytes: &[u8]) -> String {
    if let Some((encoding, _)) = Encoding::for_bom(bytes) {
        return encoding.decode(bytes).0.into_owned();
    }
    let named = named(&bytes[..bytes.len().min(PRESCAN)]).filter(|encoding| *encoding != UTF_8);
    match (std::str::from_utf8(bytes), named) {
        (Ok(text), _) => text.to_owned(),
        (Err(_), Some(encoding)) => encoding.decode(bytes).0.into_owned(),
        // A page that calls itself UTF-8 and is not, or is cut within a letter.
        (Err(error), None) if error.valid_up_to() > bytes.len() / 2 => String::from_utf8_lossy(bytes).into_owned(),
        (Err(_), None) => WINDOWS_1252.decode(bytes).0.into_owned(),
    }
}

/// The value of the first `charset=` of the page.
fn named(start: &[u8]) -> Option<&'static Encoding> {
    let start = String::from_utf8_lossy(start).to_ascii_lowercase();
    let (_, label) = start.split_once("charset=")?;
    let label = label.trim_start_matches(['"', '\'', ' ']);
    let end = label.find(|c: char| !(c.is_ascii_alphanumeric() || "-_:".contains(c))).unwrap_or(label.len());
    Encoding::for_label(&label.as_bytes()[..end])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_is_read_in_the_encoding_it_is_in() {
        assert_eq!(text("½ cup".as_bytes()), "½ cup");
        assert_eq!(text(b"\xef\xbb\xbf\xc2\xbd cup"), "½ cup");
        assert_eq!(text(b"<meta charset=iso-8859-1>\xbd cup"), "<meta charset=iso-8859-1>½ cup");
        assert_eq!(text(b"<meta charset=utf-8>\xbd"), "<meta charset=utf-8>\u{fffd}");
        assert_eq!(text(b"\xbd cup"), "½ cup");
        assert_eq!(text(b"\xff\xfe\xbd\x00"), "½");
    }
}
