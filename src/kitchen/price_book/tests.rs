use jiff::civil::{Date, date};
use pretty_assertions::assert_eq;

use super::*;

const SAMPLE: &str = include_str!("../../../sample-data/shops.toml");
const TODAY: Date = date(2026, 12, 5);

fn seen(pack: usize, price: &str) -> SeenPrice {
    SeenPrice { pack, price: price.to_owned(), seen: TODAY }
}

/// Lines that differ, the old above the new; a line only one text has stands against nothing.
fn changes(old: &str, new: &str) -> Vec<(String, String)> {
    let (old, new): (Vec<&str>, Vec<&str>) = (old.lines().collect(), new.lines().collect());
    let same_start = old.iter().zip(&new).take_while(|(a, b)| a == b).count();
    let same_end = old[same_start..].iter().rev().zip(new[same_start..].iter().rev()).take_while(|(a, b)| a == b).count();
    let middle = |lines: &[&str]| lines[same_start..lines.len() - same_end].iter().map(|line| (*line).to_owned()).collect::<Vec<_>>();
    let (old, new) = (middle(&old), middle(&new));
    let longest = old.len().max(new.len());
    (0..longest).map(|line| (old.get(line).cloned().unwrap_or_default(), new.get(line).cloned().unwrap_or_default())).collect()
}

fn pairs(expected: &[(&str, &str)]) -> Vec<(String, String)> {
    expected.iter().map(|(old, new)| ((*old).to_owned(), (*new).to_owned())).collect()
}

#[test]
fn no_price_leaves_the_sample_shops_as_they_were() {
    assert_eq!(write_prices(SAMPLE, &[]).as_deref(), Ok(SAMPLE));
}

#[test]
fn a_price_and_its_day_are_written_over_the_old_ones_and_nothing_else_changes() {
    // The second pack of the sample: a kilogram of carrots at Mill stores.
    let new = write_prices(SAMPLE, &[seen(1, "1.35")]).unwrap();
    let expected = [
        ("price = 1.29", "price = 1.35"),
        ("section = \"Vegetables\"", "section = \"Vegetables\""),
        ("seen = 2026-11-21", "seen = 2026-12-05"),
    ];
    assert_eq!(changes(SAMPLE, &new), pairs(&expected));
}

#[test]
fn a_loose_price_keeps_its_unit_and_the_day_is_added_to_its_pack() {
    let new = write_prices(SAMPLE, &[seen(0, "1.55 / kg")]).unwrap();
    let expected = [
        ("price = \"1.40 / kg\"", "price = \"1.55 / kg\""),
        ("step = \"100 g\"", "step = \"100 g\""),
        ("section = \"Vegetables\"", "section = \"Vegetables\""),
        ("", "seen = 2026-12-05"),
    ];
    assert_eq!(changes(SAMPLE, &new), pairs(&expected));
}

#[test]
fn every_pack_of_the_sample_takes_a_price_and_keeps_its_comments() {
    let count = SAMPLE.matches("[[pack]]").count();
    let prices: Vec<SeenPrice> = (0..count).map(|pack| seen(pack, "1.00")).collect();
    let new = write_prices(SAMPLE, &prices).unwrap();
    let comments =
        |text: &str| text.lines().filter_map(|line| line.split_once('#')).map(|(_, comment)| comment.to_owned()).collect::<Vec<_>>();
    assert_eq!(comments(&new), comments(SAMPLE));
    assert_eq!(new.matches("seen = 2026-12-05").count(), count);
    assert_eq!(write_prices(&new, &prices).as_deref(), Ok(new.as_str()), "written twice it is the same");
}

#[test]
fn a_price_typed_as_text_stays_text_and_an_inline_pack_stays_inline() {
    let shops = "pack = [\n  { size = \"400 g\", price = \"0.89\" },   # a tin\n]\n";
    let new = "pack = [\n  { size = \"400 g\", price = \"0.95\", seen = 2026-12-05 },   # a tin\n]\n";
    assert_eq!(write_prices(shops, &[seen(0, "0.95")]).as_deref(), Ok(new));
}

#[test]
fn an_offer_under_a_heading_of_its_own_stays_behind_the_new_keys() {
    let shops = "[[pack]]\nsize = \"1 l\"\n[pack.offer]\nbuy = 3\npay = 4.50\n";
    let new = "[[pack]]\nsize = \"1 l\"\nprice = 1.69\nseen = 2026-12-05\n[pack.offer]\nbuy = 3\npay = 4.50\n";
    assert_eq!(write_prices(shops, &[seen(0, "1.69")]).as_deref(), Ok(new));
}

#[test]
fn line_ends_of_another_system_stay() {
    let shops = "# shops\r\n[[pack]]\r\nsize = \"1 l\"\r\n";
    assert_eq!(
        write_prices(shops, &[seen(0, "1.69")]).as_deref(),
        Ok("# shops\r\n[[pack]]\r\nsize = \"1 l\"\r\nprice = 1.69\r\nseen = 2026-12-05\r\n")
    );
}

#[test]
fn a_pack_that_is_not_there_and_a_text_that_is_not_toml_are_refused() {
    assert_eq!(write_prices("", &[seen(0, "1.00")]), Err(NotWritten::NoSuchPack(0)));
    let count = SAMPLE.matches("[[pack]]").count();
    assert_eq!(write_prices(SAMPLE, &[seen(count, "1.00")]), Err(NotWritten::NoSuchPack(count)));
    assert!(matches!(write_prices("[[pack", &[seen(0, "1.00")]), Err(NotWritten::NotToml(_))));
}

const TWO: &str = "[[pack]]\nshop = \"Stall\"\nfood = \"feta\"\nsize = \"200 g\"\nprice = 2.39   # dear\n\n\
                   [[pack]]\nshop = \"Stall\"\nfood = \"carrot\"\nloose = true\nprice = \"1.40 / kg\"\nseen = \"2026-11-01\"\n";

#[test]
fn a_price_that_was_written_is_taken_back_to_the_letter() {
    let prices = [seen(0, "2.49"), seen(1, "1.60 / kg")];
    let changes = price_changes(TWO, &prices).unwrap();
    let (text, made) = change_prices(TWO, &changes).unwrap();
    assert_eq!((Ok(text.clone()), made.len()), (write_prices(TWO, &prices), 2));
    let back: Vec<PriceChange> = changes.iter().map(PriceChange::reversed).collect();
    assert_eq!(change_prices(&text, &back).map(|(text, _)| text).as_deref(), Ok(TWO));
    assert_eq!(price_changes(&text, &prices), Ok(vec![]), "what stands there already is no change");
}

#[test]
fn a_pack_that_was_moved_is_found_and_one_that_was_changed_is_left() {
    let changes = price_changes(TWO, &[seen(1, "1.60 / kg")]).unwrap();
    let written = change_prices(TWO, &changes).unwrap().0;
    let back: Vec<PriceChange> = changes.iter().map(PriceChange::reversed).collect();
    let moved =
        written.split("\n\n").collect::<Vec<_>>().into_iter().rev().map(|pack| format!("{}\n\n", pack.trim_end())).collect::<String>();
    let (text, made) = change_prices(&moved, &back).unwrap();
    assert!(text.contains("\"1.40 / kg\"") && made.len() == 1 && made[0].pack == 0, "{text}");
    let changed = written.replace("1.60", "1.70");
    assert_eq!(change_prices(&changed, &back), Ok((changed.clone(), vec![])));
}
