//! Dates, clock times, amounts and packs in the words of the sheets.

use jiff::civil::Date;

use crate::kitchen::Names;
use crate::measure::{Celsius, Currency, Quantity, Units, show};
use crate::prep::Moment;
use crate::purchase::{ListLine, OfferTaken};
use crate::telling::list;
use crate::words::{self, clock};

/// A space at which no line is broken.
pub const TIE: char = '\u{a0}';

/// Words that stay on one line.
pub fn tied(words: &str) -> String {
    words.replace(' ', "\u{a0}")
}

/// "Wed 2 Dec".
pub fn day(date: Date) -> String {
    tied(&words::day(date))
}

/// "Sat 28 Nov 2026".
pub fn full_day(date: Date) -> String {
    tied(&words::day_year(date))
}

/// "Wed 2 Dec", with its year where that is not the year of `near`.
pub fn long_day(date: Date, near: Date) -> String {
    tied(&words::day_near(date, near))
}

/// "Sun 29 Nov" or "Sun 29 Nov, 02:00".
pub fn moment(at: Moment) -> String {
    match at {
        Moment::At(at) => format!("{}, {}", day(at.date()), clock(at)),
        Moment::On(date) => day(date),
    }
}

/// "2 h 35 min".
pub fn duration(minutes: i64) -> String {
    tied(&words::duration(minutes))
}

/// An amount whose number and unit stay together.
pub fn amount(quantity: &Quantity, units: Units) -> String {
    tied(&show(quantity, units))
}

/// "180 °C", or "355 °F".
pub fn temperature(heat: Celsius, units: Units) -> String {
    tied(&words::temperature(heat, units))
}

/// "2 × 400 g", "1 kg loose", "1 × 6 pieces", "1 bunch".
pub fn bought(line: &ListLine, units: Units) -> String {
    list::packs(line.packs.iter().map(|pack| &pack.what), units).iter().map(|pack| tied(pack)).collect::<Vec<_>>().join(" + ")
}

/// "Take 3 for 2.00", "Take 3 for 2.00, twice".
pub fn offer(taken: &OfferTaken, currency: &Currency) -> String {
    let offer = tied(&list::offer(taken, currency));
    match taken.times {
        1 => format!("take {offer}"),
        2 => format!("take {offer}, twice"),
        n => format!("take {offer}, {n}{TIE}times"),
    }
}

/// "830 g, about 8"; nothing where the need is only "to taste".
pub fn need(line: &ListLine, names: Names, units: Units) -> Option<String> {
    list::need(line, names, units).map(|need| tied(&need).replace(",\u{a0}", ", "))
}
