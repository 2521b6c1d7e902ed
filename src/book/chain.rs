//! The lines of the book, each chained to the one before by its SHA-256 (FIPS 180-4).
//!
//! The book is a chain of changes of lots, and `pantry.toml` their sum as a bag of lots: a person may sort and comment
//! the file as they like. A booking is first written in full to `pantry.toml.new` and `pantry.book.jsonl.new`; renaming
//! the book is the moment at which it stands. Each booking names the SHA-256 of `pantry.toml` (and of `shops.toml`,
//! where prices went into it) before and after it, by which the next start knows whether to complete or to withdraw
//! what was cut short. Amounts are exact: what is no decimal is written as a fraction ("333 1/3 g"), one finer than
//! thousandths as the next thousandth above, so that a lot never falls short of what a plan counts on. Less than 1 g, 1
//! ml or a twentieth of a piece goes with the draw that would leave it.
//!
//! A line of the book edited by hand stops bookings, not planning; a last line cut short is kept, word for word, in the
//! next booking.

use super::booking::Booking;
use crate::store::{sha256, sha256_of_two};

/// All bookings, and the text they were read from.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Book {
    pub bookings: Vec<Booking>,
    text: String,
    /// A last line that was cut short.
    pub fragment: Option<String>,
}

/// A line that is not as it was booked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Broken {
    /// Counted from 1.
    pub line: usize,
    pub cause: String,
}

impl Book {
    /// Reads and checks every line. A last line without its end that ends before its booking does was cut short and is set aside.
    ///
    /// # Errors
    /// The first line that is not as it was booked.
    pub fn read(text: &str) -> Result<Book, Broken> {
        let mut book = Book::default();
        let mut previous = String::new();
        for (index, line) in text.split_inclusive('\n').enumerate() {
            let whole = line.strip_suffix('\n');
            let plain = whole.unwrap_or(line);
            let booking: Booking = match serde_json::from_str(plain) {
                Ok(booking) => booking,
                Err(error) if whole.is_none() && is_cut_short(plain.as_bytes(), &error) => {
                    book.fragment = Some(plain.to_owned());
                    return Ok(book);
                }
                Err(error) => return Err(unreadable(index + 1, &error)),
            };
            if booking.previous != previous {
                return Err(not_following(index + 1));
            }
            let marks = Marks::of(plain.as_bytes());
            if booking.number != index as u64 + 1 || Some(&booking.own) != marks.own.as_ref() {
                return Err(not_as_booked(index + 1));
            }
            previous = marks.line;
            book.bookings.push(booking);
            book.text.push_str(plain);
            book.text.push('\n');
        }
        Ok(book)
    }

    /// Puts a booking at the end, with its number and both of its SHA-256.
    pub fn append(&mut self, mut booking: Booking) {
        booking.number = self.bookings.len() as u64 + 1;
        booking.previous = self.text.lines().next_back().map(|line| sha256(line.as_bytes())).unwrap_or_default();
        booking.fragment = booking.fragment.or(self.fragment.take());
        self.text.push_str(&sealed(&mut booking));
        self.text.push('\n');
        self.bookings.push(booking);
    }

    pub fn text(&self) -> &str {
        &self.text
    }
}

/// Is it a booking as far as it goes? What is none was put there by someone else, and is not passed over.
pub(super) fn is_cut_short(line: &[u8], error: &serde_json::Error) -> bool {
    // It may end within a letter.
    let ends_within_a_letter = std::str::from_utf8(line).is_err_and(|error| error.error_len().is_none());
    error.is_eof() || ends_within_a_letter
}

pub(super) fn unreadable(line: usize, error: &serde_json::Error) -> Broken {
    Broken { line, cause: format!("this line of the book cannot be read ({error})") }
}

/// The line before is whole in itself, so a line is missing, or both were changed.
pub(super) fn not_following(line: usize) -> Broken {
    Broken { line, cause: "this line does not follow the one before it: the SHA-256 it names is another".to_owned() }
}

pub(super) fn not_as_booked(line: usize) -> Broken {
    Broken { line, cause: "this line is not as it was booked: its SHA-256 is another".to_owned() }
}

/// The SHA-256 of a line, and of the same line with `own` empty: `own` stands last.
pub(super) struct Marks {
    pub line: String,
    /// `None` where the line does not end as it was written.
    pub own: Option<String>,
}

impl Marks {
    pub fn of(line: &[u8]) -> Marks {
        let end = line.len().saturating_sub(OWN + 2);
        if line.ends_with(b"\"}") && line[..end].ends_with(b"\"own\":\"") {
            let [own, line] = sha256_of_two(&line[..end], b"\"}", &line[end..]);
            return Marks { line, own: Some(own) };
        }
        Marks { line: sha256(line), own: None }
    }
}

/// How many digits a SHA-256 has.
const OWN: usize = 64;

/// The line of a booking that has its number and its forerunner's SHA-256, closed by its own.
pub(super) fn sealed(booking: &mut Booking) -> String {
    booking.own = String::new();
    booking.own = sha256(line(booking).as_bytes());
    line(booking)
}

fn line(booking: &Booking) -> String {
    // Strings, integers and finite numbers alone: serde_json has nothing to refuse.
    serde_json::to_string(booking).unwrap_or_default()
}
