//! Writing a price into shops.toml and leaving everything else as a person typed it: comments, order, blank lines, spelling.
//!
//! Knows the text of the file alone; no folder, no food, no currency.

use std::fmt;

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
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

/// A price and its day as the file has them: values of TOML, `None` where the key is not there.
#[derive(Debug, Clone, Default, PartialEq, Eq, JsonSchema, Serialize, Deserialize)]
pub struct OnFile {
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub price: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub seen: Option<String>,
}

/// What was written over a price, so that it can be taken back.
#[derive(Debug, Clone, PartialEq, Eq, JsonSchema, Serialize, Deserialize)]
pub struct PriceChange {
    /// As in [`SeenPrice`]. Where the household has moved its packs since, shop, food and size say which it was.
    pub pack: usize,
    pub shop: String,
    pub food: String,
    /// "400 g", or "loose".
    pub size: String,
    pub from: OnFile,
    pub to: OnFile,
}

impl PriceChange {
    pub fn reversed(&self) -> PriceChange {
        PriceChange { from: self.to.clone(), to: self.from.clone(), ..self.clone() }
    }
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

/// The changes that [`write_prices`] makes, each with what stood there before; those that change nothing are left out.
///
/// # Errors
/// As [`write_prices`].
pub fn price_changes(shops_toml: &str, prices: &[SeenPrice]) -> Result<Vec<PriceChange>, NotWritten> {
    let after = write_prices(shops_toml, prices)?;
    let parse = |text: &str| text.parse::<DocumentMut>().map_err(|error| NotWritten::NotToml(error.to_string()));
    let (before, after) = (parse(shops_toml)?, parse(&after)?);
    let mut changes: Vec<PriceChange> = Vec::new();
    for price in prices {
        let none = NotWritten::NoSuchPack(price.pack);
        let (Some(old), Some(new)) = (pack_of(&before, price.pack), pack_of(&after, price.pack)) else { return Err(none) };
        let (from, to) = (on_file(old), on_file(new));
        if from != to && !changes.iter().any(|known| known.pack == price.pack) {
            let [shop, food, size] = names_of(old);
            changes.push(PriceChange { pack: price.pack, shop, food, size, from, to });
        }
    }
    Ok(changes)
}

/// Makes changes of prices. Returns the new text and the changes that were made: a pack that is not as `from` says is left as it is.
///
/// # Errors
/// A text that is not TOML.
pub fn change_prices(shops_toml: &str, changes: &[PriceChange]) -> Result<(String, Vec<PriceChange>), NotWritten> {
    let mut document: DocumentMut = shops_toml.parse().map_err(|error: toml_edit::TomlError| NotWritten::NotToml(error.to_string()))?;
    let mut made = Vec::new();
    for change in changes {
        let is_it = |pack: &dyn TableLike| {
            on_file(pack) == change.from && names_of(pack) == [change.shop.as_str(), &change.food, &change.size].map(str::to_owned)
        };
        let at_its_place = [change.pack].into_iter().filter(|&pack| pack_of(&document, pack).is_some_and(is_it));
        let elsewhere = (0..pack_count(&document)).filter(|&pack| pack_of(&document, pack).is_some_and(is_it));
        let Some(at) = at_its_place.chain(elsewhere).next() else { continue };
        let Some(pack) = document.get_mut("pack").and_then(|packs| pack_mut(packs, at)) else { continue };
        for (key, literal) in [("price", &change.to.price), ("seen", &change.to.seen)] {
            match literal.as_ref().and_then(|literal| literal.parse::<Value>().ok()) {
                Some(value) => set(pack, key, value),
                None => drop(pack.remove(key)),
            }
        }
        made.push(PriceChange { pack: at, ..change.clone() });
    }
    let text = document.to_string();
    Ok((if shops_toml.contains("\r\n") { text.replace("\r\n", "\n").replace('\n', "\r\n") } else { text }, made))
}

fn pack_of(document: &DocumentMut, index: usize) -> Option<&dyn TableLike> {
    match document.get("pack")? {
        Item::ArrayOfTables(tables) => tables.get(index).map(|table| table as &dyn TableLike),
        Item::Value(Value::Array(tables)) => tables.get(index)?.as_inline_table().map(|table| table as &dyn TableLike),
        _ => None,
    }
}

fn pack_count(document: &DocumentMut) -> usize {
    match document.get("pack") {
        Some(Item::ArrayOfTables(tables)) => tables.len(),
        Some(Item::Value(Value::Array(tables))) => tables.len(),
        _ => 0,
    }
}

fn on_file(pack: &dyn TableLike) -> OnFile {
    let literal = |key: &str| {
        let mut value = pack.get(key)?.as_value()?.clone();
        value.decor_mut().clear();
        Some(value.to_string())
    };
    OnFile { price: literal("price"), seen: literal("seen") }
}

/// Shop, food, and size or "loose".
fn names_of(pack: &dyn TableLike) -> [String; 3] {
    let text =
        |key: &str| pack.get(key).and_then(Item::as_value).map(|value| value.as_str().map_or_else(|| value.to_string(), str::to_owned));
    [text("shop"), text("food"), text("size").or(Some("loose".to_owned()))].map(|text| text.unwrap_or_default().trim().to_owned())
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
mod tests;
