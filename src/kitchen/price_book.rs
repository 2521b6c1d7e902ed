//! Writing a price into shops.toml and leaving everything else as a person typed it: comments, order, blank lines, spelling.
//!
//! Knows the text of the file alone; no folder, no food, no currency.

use std::fmt;

use jiff::civil::Date;
use toml_edit::{DocumentMut, Item, TableLike, Value};

/// What was paid for a pack, and when.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SeenPrice {
    /// Index into [`Kitchen::packs`](super::Kitchen::packs): the packs of shops.toml in the order of the file.
    pub pack: usize,
    /// As shops.toml writes it: `0.89` for a pack with a size, `1.40 / kg` for loose goods.
    pub price: String,
    pub seen: Date,
}

/// Why a price cannot be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotWritten {
    /// The text is not TOML; what the reader of TOML says.
    NotToml(String),
    /// The file has fewer packs.
    NoSuchPack(usize),
}

impl fmt::Display for NotWritten {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NotWritten::NotToml(why) => write!(f, "shops.toml cannot be read: {why}"),
            NotWritten::NoSuchPack(pack) => write!(f, "shops.toml has no pack number {}", pack + 1),
        }
    }
}

impl std::error::Error for NotWritten {}

/// The text of shops.toml with these prices and the days they were seen. Of two prices of one pack the later in the list stands.
///
/// A price that stood as text stays text; a new key goes to the end of its pack.
///
/// # Errors
/// A text that is not TOML, or a pack that it does not have; nothing is then changed.
///
/// ```
/// use jiff::civil::date;
/// use spence::kitchen::{SeenPrice, write_prices};
///
/// let shops = "[[pack]]\nsize = \"400 g\"   # a tin\nprice = 0.89     # dear\nseen = 2026-08-01\n";
/// let paid = SeenPrice { pack: 0, price: "0.95".to_owned(), seen: date(2026, 11, 28) };
/// let new = "[[pack]]\nsize = \"400 g\"   # a tin\nprice = 0.95     # dear\nseen = 2026-11-28\n";
/// assert_eq!(write_prices(shops, &[paid]).as_deref(), Ok(new));
/// ```
pub fn write_prices(shops_toml: &str, prices: &[SeenPrice]) -> Result<String, NotWritten> {
    let mut document: DocumentMut = shops_toml.parse().map_err(|error: toml_edit::TomlError| NotWritten::NotToml(error.to_string()))?;
    for price in prices {
        let packs = document.get_mut("pack").ok_or(NotWritten::NoSuchPack(price.pack))?;
        let pack = pack_mut(packs, price.pack).ok_or(NotWritten::NoSuchPack(price.pack))?;
        write(pack, price);
    }
    let written = document.to_string();
    // New keys come with plain line ends.
    Ok(if shops_toml.contains("\r\n") { written.replace("\r\n", "\n").replace('\n', "\r\n") } else { written })
}

/// `[[pack]]`, or an array of inline tables.
fn pack_mut(packs: &mut Item, index: usize) -> Option<&mut dyn TableLike> {
    match packs {
        Item::ArrayOfTables(tables) => tables.get_mut(index).map(|table| table as &mut dyn TableLike),
        Item::Value(Value::Array(tables)) => tables.get_mut(index)?.as_inline_table_mut().map(|table| table as &mut dyn TableLike),
        _ => None,
    }
}

fn write(pack: &mut dyn TableLike, price: &SeenPrice) {
    let was_text = pack.get("price").is_some_and(Item::is_str);
    let number = price.price.parse::<Value>().ok().filter(|value| !was_text && (value.is_float() || value.is_integer()));
    set(pack, "price", number.unwrap_or_else(|| Value::from(price.price.as_str())));
    let seen = price.seen.to_string();
    set(pack, "seen", seen.parse::<Value>().unwrap_or_else(|_| Value::from(seen)));
}

/// What stands around the old value, the comment behind it too, stays.
fn set(pack: &mut dyn TableLike, key: &str, mut new: Value) {
    match pack.get_mut(key).and_then(Item::as_value_mut) {
        Some(old) => {
            *new.decor_mut() = old.decor().clone();
            *old = new;
        }
        None => {
            take_blank_before_brace(pack, &mut new);
            pack.insert(key, Item::Value(new));
        }
    }
}

/// The blank between the last value of an inline table and its brace belongs behind the new last value.
fn take_blank_before_brace(pack: &mut dyn TableLike, new: &mut Value) {
    let Some((_, last)) = pack.iter_mut().last() else { return };
    let Some(decor) = last.as_value_mut().map(Value::decor_mut) else { return };
    let suffix = decor.suffix().and_then(|suffix| suffix.as_str()).unwrap_or_default().to_owned();
    if !suffix.is_empty() && suffix.trim().is_empty() {
        decor.set_suffix("");
        *new.decor_mut() = toml_edit::Decor::new(" ", suffix);
    }
}

#[cfg(test)]
#[path = "price_book_tests.rs"]
mod tests;
