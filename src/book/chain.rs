//! The lines of the book, each chained to the one before by its SHA-256 (FIPS 180-4).

use super::booking::Booking;
use crate::store::sha256;

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
    /// Reads and checks every line. A last line without its end that cannot be read was cut short and is set aside.
    ///
    /// # Errors
    /// The first line that is not as it was booked.
    pub fn read(text: &str) -> Result<Book, Broken> {
        let mut book = Book::default();
        let mut previous = String::new();
        for (index, line) in text.split_inclusive('\n').enumerate() {
            let whole = line.strip_suffix('\n');
            let plain = whole.unwrap_or(line);
            let broken = |cause: String| Broken { line: index + 1, cause };
            let booking: Booking = match serde_json::from_str(plain) {
                Ok(booking) => booking,
                Err(_) if whole.is_none() => {
                    book.fragment = Some(plain.to_owned());
                    return Ok(book);
                }
                Err(error) => return Err(broken(format!("this line of the book cannot be read ({error})"))),
            };
            if booking.previous != previous {
                // The line before is whole in itself, so a line is missing, or both were changed.
                return Err(broken("this line does not follow the one before it: the SHA-256 it names is another".to_owned()));
            }
            if booking.number != index as u64 + 1 || booking.own != own(&booking) {
                return Err(broken("this line is not as it was booked: its SHA-256 is another".to_owned()));
            }
            previous = sha256(plain.as_bytes());
            book.bookings.push(booking);
            book.text.push_str(plain);
            book.text.push('\n');
        }
        Ok(book)
    }

    /// Puts a booking at the end, with its number and both of its SHA-256.
    pub fn append(&mut self, mut booking: Booking) {
        booking.number = self.bookings.len() as u64 + 1;
        booking.previous = self.text.lines().last().map(|line| sha256(line.as_bytes())).unwrap_or_default();
        booking.fragment = booking.fragment.or(self.fragment.take());
        booking.own = own(&booking);
        self.text.push_str(&line(&booking));
        self.text.push('\n');
        self.bookings.push(booking);
    }

    pub fn text(&self) -> &str {
        &self.text
    }
}

fn own(booking: &Booking) -> String {
    sha256(line(&Booking { own: String::new(), ..booking.clone() }).as_bytes())
}

fn line(booking: &Booking) -> String {
    // Strings, integers and finite numbers alone: serde_json has nothing to refuse.
    serde_json::to_string(booking).unwrap_or_default()
}
