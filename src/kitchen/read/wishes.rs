//! `[compose]`, of a week or of kitchen.toml: what the household wants of a week that is composed. And `rules.prefer`.

use toml::de::DeValue;

use super::eaters::ware;
use super::lines::Speech;
use super::shapes;
use super::source::Source;
use super::table::Table;
use crate::kitchen::{Beside, Floors, OneAtMost, Prefer, Spot, Taste, Ware, WishTable};
use crate::measure::{Currency, ReadError};

static TASTES: [(&str, Taste); 3] = [("varied", Taste::Varied), ("cheap", Taste::Cheap), ("easy", Taste::Easy)];
static AIMS: [(&str, Prefer); 3] = [("cost", Prefer::Cost), ("variety", Prefer::Variety), ("work", Prefer::Work)];

/// The keys that a clash may name by their places.
const WITH_A_FIGURE: [&str; 7] = ["recipes_at_most", "same_again_after", "not_again", "one_at_most", "spend_at_most", "each_day", "beside"];

/// The word of `one_at_most` for every other place.
const ELSE: &str = "else";

pub(super) fn read_wishes(top: &Table<'_>, currency: &Currency, speech: &mut Speech<'_>) -> WishTable {
    let Some(table) = top.one("compose", "[compose]") else { return WishTable::default() };
    let (table, source) = (&table, table.file.source);
    WishTable {
        taste: table.optional("taste", shapes::one_of(&TASTES)),
        recipes_at_most: table.optional("recipes_at_most", shapes::whole(0)),
        same_again_after: table.optional("same_again_after", shapes::days),
        not_again: table.optional("not_again", shapes::days),
        one_at_most: table.optional("one_at_most", |value| one_at_most(value, source)),
        variety_may_cost: table.optional("variety_may_cost", shapes::share),
        spend_at_most: table.optional("spend_at_most", shapes::money(currency)),
        each_day: read_floors(table),
        beside: table.optional("beside", |value| beside(value, source)),
        wanted: wares(table, "use", speech),
        unwanted: wares(table, "not", speech),
        keys_at: table.keys_at(&WITH_A_FIGURE),
    }
}

/// One number, or one a place.
fn one_at_most(value: &DeValue<'_>, source: &Source) -> shapes::Read<OneAtMost> {
    let mut limits = OneAtMost::default();
    let DeValue::Table(places) = value else {
        return Ok(OneAtMost { otherwise: Some(shapes::whole(1)(value)?), ..limits });
    };
    for (place, value) in places.iter() {
        let at = source.spot(place.span().start);
        let place = place.get_ref().trim().to_lowercase();
        let read = shapes::whole(1)(value.get_ref()).map_err(|error| ReadError { cause: format!("{place}: {}", error.cause), ..error })?;
        match place.as_str() {
            ELSE => limits.otherwise = Some(read),
            _ => {
                limits.places_at.insert(place.clone(), at);
                limits.by_place.insert(place, read);
            }
        }
    }
    Ok(limits)
}

/// `{ soft = "crunchy" }`, in the order of the words.
fn beside(value: &DeValue<'_>, source: &Source) -> shapes::Read<Vec<Beside>> {
    let example = "Write it like { soft = \"crunchy\" }.";
    let DeValue::Table(pairs) = value else {
        return Err(ReadError { cause: "expected a table of words".to_owned(), remedy: example.to_owned() });
    };
    let pair = |(is, wants): (&toml::Spanned<toml::de::DeString<'_>>, &toml::Spanned<DeValue<'_>>)| {
        Ok(Beside {
            is: is.get_ref().trim().to_lowercase(),
            wants: shapes::text(wants.get_ref())?.to_lowercase(),
            at: [is.span().start, wants.span().start].map(|start| source.spot(start)),
        })
    };
    pairs.iter().map(pair).collect()
}

fn read_floors(table: &Table<'_>) -> Option<Floors> {
    let floors = table.one("each_day", "[compose.each_day]")?;
    Some(Floors {
        kcal: floors.optional("kcal", shapes::zero_or_more),
        protein_g: floors.optional("protein", shapes::grams),
        fibre_g: floors.optional("fibre", shapes::grams),
    })
}

fn wares(table: &Table<'_>, key: &str, speech: &mut Speech<'_>) -> Option<Vec<(Ware, Spot)>> {
    let words = table.texts(key)?;
    Some(words.iter().filter_map(|(word, at)| Some((ware(word, at, speech)?, at.clone()))).collect())
}

/// All three, the first first; what is not named follows in the usual order.
pub(super) fn read_prefer(rules: &Table<'_>) -> Option<[Prefer; 3]> {
    let mut order: Vec<Prefer> = Vec::new();
    for (typed, at) in rules.texts("prefer")? {
        let value = DeValue::String(typed.as_str().into());
        match shapes::one_of(&AIMS)(&value) {
            Ok(aim) if order.contains(&aim) => {
                rules.file.found.mistake(at, format!("prefer: \"{typed}\" stands twice"), "Name each aim once.")
            }
            Ok(aim) => order.push(aim),
            Err(error) => rules.file.found.mistake(at, format!("prefer: {}", error.cause), error.remedy),
        }
    }
    for (_, aim) in AIMS {
        if !order.contains(&aim) {
            order.push(aim);
        }
    }
    order.try_into().ok()
}
