//! Bytes to text: what a byte order mark says, else UTF-8, else what the page names, else Windows-1252, as browsers do (WHATWG Encoding).

use encoding_rs::{Encoding, UTF_8, WINDOWS_1252};

/// So many bytes at the start of a page may name its encoding (HTML Standard, 13.2.3.2).
const PRESCAN: usize = 1024;

/// A page that names UTF-8 and is not loses letters: they are U+FFFD.
pub(super) fn text(bytes: &[u8]) -> String {
    if let Some((encoding, _)) = Encoding::for_bom(bytes) {
        return encoding.decode(bytes).0.into_owned();
    }
    let named = named(&bytes[..bytes.len().min(PRESCAN)]);
    match (std::str::from_utf8(bytes), named) {
        (Ok(text), _) => text.to_owned(),
        (Err(_), Some(encoding)) if encoding != UTF_8 => encoding.decode(bytes).0.into_owned(),
        (Err(error), _) if is_cut(bytes, &error) => String::from_utf8_lossy(&bytes[..error.valid_up_to()]).into_owned(),
        (Err(_), Some(_)) => String::from_utf8_lossy(bytes).into_owned(),
        (Err(_), None) => guessed(bytes),
    }
}

/// UTF-8 that ends within a letter.
fn is_cut(bytes: &[u8], error: &std::str::Utf8Error) -> bool {
    error.error_len().is_none() && !bytes[..error.valid_up_to()].is_ascii()
}

/// Windows-1252, unless most of what is beyond ASCII is UTF-8 all the same: then what is broken of it, alone.
fn guessed(bytes: &[u8]) -> String {
    let (mut sound, mut broken) = (0, 0);
    for chunk in bytes.utf8_chunks() {
        sound += chunk.valid().chars().filter(|letter| !letter.is_ascii()).count();
        broken += chunk.invalid().len();
    }
    if sound <= broken {
        return WINDOWS_1252.decode_without_bom_handling(bytes).0.into_owned();
    }
    let chunk = |chunk: std::str::Utf8Chunk<'_>| chunk.valid().to_owned() + &WINDOWS_1252.decode_without_bom_handling(chunk.invalid()).0;
    bytes.utf8_chunks().map(chunk).collect()
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

    #[test]
    fn a_page_that_names_no_encoding_and_is_no_utf_8_is_read_as_windows_1252_wherever_its_letters_stand() {
        let late = [&b"plain words ".repeat(50)[..], b"\xbd l cr\xe8me fra\xeeche, saut\xe9"].concat();
        assert!(text(&late).ends_with("½ l crème fraîche, sauté"));
        // One stray byte in a page of UTF-8 spoils itself alone; and a page that is cut off loses half a letter.
        assert_eq!(
            text("½ cup, ¼ cup and ".as_bytes().iter().copied().chain(*b"\xbd more").collect::<Vec<u8>>().as_slice()),
            "½ cup, ¼ cup and ½ more"
        );
        assert_eq!(text(&"½ cup crème".as_bytes()[.."½ cup crè".len() - 1]), "½ cup cr");
    }
}
