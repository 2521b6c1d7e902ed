//! kitchen.toml: the household, its rules, its appliances, its staples.

use std::collections::BTreeMap;

use jiff::civil::Time;
use jiff::tz::TimeZoneDatabase;

use super::hint;
use super::lines::Speech;
use super::names::Names;
use super::shapes;
use super::table::Table;
use super::wishes::read_prefer;
use crate::foods::convert;
use crate::foods::safety::{CHILLED_WITHIN, GRAINS_CHILLED_WITHIN};
use crate::kitchen::{Appliance, ApplianceKind, Choose, Household, ListPart, Paper, Print, Rules, SheetKind, Sheets, Staple, Under};
use crate::measure::{Currency, Dimension, Minutes, Pints, ReadError, Spoons, Units};
use crate::words::duration;

static PAPERS: [(&str, Paper); 2] = [("A4", Paper::A4), ("letter", Paper::Letter)];
static UNDER: [(&str, ListPart); 8] = [
    ("home", ListPart::Home),
    ("look", ListPart::Look),
    ("use-up", ListPart::UseUp),
    ("cost", ListPart::Cost),
    ("left", ListPart::Left),
    ("moves", ListPart::Moves),
    ("spare", ListPart::Spare),
    ("meals", ListPart::Meals),
];

static UNITS: [(&str, Units); 2] = [("metric", Units::Metric), ("us", Units::Us)];
static CHOICES: [(&str, Choose); 2] = [("cheapest", Choose::Cheapest), ("least-left", Choose::LeastLeft)];
static SPOONS: [(&str, Spoons); 2] = [("us", Spoons::Us), ("metric", Spoons::Metric)];
static PINTS: [(&str, Pints); 2] = [("us", Pints::Us), ("imperial", Pints::Imperial)];

/// Meals that every household has unless it says otherwise.
const MEALTIMES: [(&str, Time); 3] =
    [("breakfast", Time::constant(7, 30, 0, 0)), ("lunch", Time::constant(12, 30, 0, 0)), ("supper", Time::constant(18, 30, 0, 0))];

/// The spoons and pints that the household means; every other amount is read with them.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Spoken {
    pub spoons: Spoons,
    /// `rules.pints` is written.
    pub pints_written: bool,
}

/// Said again, with its mistakes, when the rules are read.
pub(super) fn read_spoons(top: &Table<'_>) -> Spoken {
    let rules = top.entry("rules").and_then(|entry| entry.value.as_table());
    let typed = |key: &str| rules.and_then(|rules| rules.get(key)).and_then(|value| value.get_ref().as_str());
    let pints = typed("pints").and_then(|typed| named(typed, &PINTS));
    let spoons = typed("spoons").and_then(|typed| named(typed, &SPOONS)).unwrap_or_default();
    Spoken { spoons: spoons.with(pints.unwrap_or_default()), pints_written: pints.is_some() }
}

fn named<T: Copy>(typed: &str, words: &[(&str, T)]) -> Option<T> {
    words.iter().find(|(word, _)| word.eq_ignore_ascii_case(typed.trim())).map(|(_, value)| *value)
}

/// The household of a kitchen.toml that cannot be read: what the other files are checked against meanwhile.
pub(super) fn fallback() -> Household {
    Household {
        name: String::new(),
        eaters: 1.0,
        named: Vec::new(),
        currency: Currency { code: "EUR".to_owned(), digits: 2 },
        avoid: Vec::new(),
        avoid_foods: Vec::new(),
        allergic: Vec::new(),
        budget: None,
        mealtimes: MEALTIMES.iter().map(|(word, time)| ((*word).to_owned(), *time)).collect(),
        zone: None,
    }
}

pub(super) fn read_household(top: &Table<'_>) -> Household {
    let mut household = fallback();
    let Some(table) = top.one("household", "[household]") else {
        if !top.has("household") {
            top.mistake("household", "kitchen.toml lacks [household]", "Add [household] with name, eaters and currency.");
        }
        return household;
    };
    household.name = table.required("name", "\"Boatyard Row\"", shapes::text).unwrap_or_default();
    // With [[eater]] it is their sum, which is checked when they are read.
    let eaters =
        if top.has("eater") { table.optional("eaters", shapes::positive) } else { table.required("eaters", "3", shapes::positive) };
    household.eaters = eaters.unwrap_or(1.0);
    if let Some(currency) = table.required("currency", "\"EUR\"", |value| currency(&shapes::text(value)?)) {
        household.currency = currency;
    }
    household.budget = table.optional("budget", shapes::money(&household.currency));
    household.mealtimes.extend(read_mealtimes(&table));
    household.zone = table.optional("zone", |value| zone(&shapes::text(value)?));
    household
}

fn currency(code: &str) -> Result<Currency, ReadError> {
    let known = iso_currency::Currency::from_code(&code.to_uppercase());
    let digits = known.as_ref().and_then(|currency| currency.exponent());
    match (known, digits) {
        (Some(currency), Some(digits)) => Ok(Currency { code: currency.code().to_owned(), digits: u32::from(digits) }),
        _ => Err(ReadError {
            cause: format!("\"{code}\" is not a currency of ISO 4217"),
            remedy: "Write its three letters: \"EUR\", \"GBP\", \"USD\".".to_owned(),
        }),
    }
}

/// The zone's own name. The database is built in, so that a zone means the same on every machine.
fn zone(name: &str) -> Result<String, ReadError> {
    let zone = TimeZoneDatabase::bundled().get(name).ok();
    zone.and_then(|zone| zone.iana_name().map(str::to_owned)).ok_or_else(|| {
        let near = hint::nearest(
            name,
            TimeZoneDatabase::bundled().available().map(|known| known.to_string()).collect::<Vec<_>>().iter().map(String::as_str),
        )
        .map(|known| format!("Did you mean \"{known}\"?"));
        ReadError {
            cause: format!("\"{name}\" is no zone of the IANA tz database"),
            remedy: near.unwrap_or_else(|| "Write it like \"Europe/Lisbon\", or leave it out.".to_owned()),
        }
    })
}

fn read_mealtimes(table: &Table<'_>) -> BTreeMap<String, Time> {
    let mut mealtimes = BTreeMap::new();
    let Some(entry) = table.entry("mealtimes") else { return mealtimes };
    let Some(words) = entry.value.as_table() else {
        table.mistake("mealtimes", "mealtimes: expected a table of words and times", "Write { supper = \"18:30\" }.");
        return mealtimes;
    };
    for (word, value) in words.iter() {
        match shapes::time(value.get_ref()) {
            Ok(time) => drop(mealtimes.insert(word.get_ref().to_string(), time)),
            Err(error) => table.file.found.wrong(table.file.source.spot(value.span().start), error),
        }
    }
    mealtimes
}

pub(super) fn read_print(top: &Table<'_>) -> Print {
    let table = top.one("print", "[print]");
    let table = table.as_ref();
    Print {
        paper: table.and_then(|table| table.optional("paper", shapes::one_of(&PAPERS))).unwrap_or(Paper::A4),
        units: table.and_then(|table| table.optional("units", shapes::one_of(&UNITS))).unwrap_or(Units::Metric),
        sheets: table
            .and_then(|table| read_words(table, "sheets", "sheet", &SheetKind::WORDS))
            .map_or(Sheets::USUAL, |kinds| Sheets::of(&kinds)),
        under: table.and_then(|table| read_words(table, "under", "part of the list", &UNDER)).map_or(Under::ALL, |parts| Under::of(&parts)),
    }
}

/// A list of words, each one of `known`.
fn read_words<T: Copy>(table: &Table<'_>, key: &str, what: &str, known: &[(&str, T)]) -> Option<Vec<T>> {
    let mut meant = Vec::new();
    for (typed, at) in table.texts(key)? {
        match known.iter().find(|(word, _)| word.eq_ignore_ascii_case(&typed)) {
            Some((_, one)) => meant.push(*one),
            None => {
                let near = hint::nearest(&typed, known.iter().map(|(word, _)| *word)).map(|word| format!("Did you mean \"{word}\"?"));
                let all = || format!("There are {}.", known.iter().map(|(word, _)| *word).collect::<Vec<_>>().join(", "));
                table.file.found.mistake(at, format!("{key}: \"{typed}\" is no {what}"), near.unwrap_or_else(all));
            }
        }
    }
    Some(meant)
}

/// The rules with every default filled in. `top` is `None` where kitchen.toml cannot be read.
pub(super) fn read_rules(top: Option<&Table<'_>>, speech: &mut Speech<'_>) -> Rules {
    let table = top.and_then(|top| top.one("rules", "[rules]"));
    let table = table.as_ref();
    let usual = Rules::default();
    let minutes = |key: &str, usual: Minutes| table.and_then(|table| table.optional(key, shapes::minutes)).unwrap_or(usual);
    let mut foods = |key: &str, default: &[&str]| match table.and_then(|table| table.texts(key)) {
        Some(names) => names.iter().map(|(name, at)| speech.food(name, at)).collect(),
        None => default.iter().map(|name| speech.foods.find(name).unwrap_or_else(|| speech.foods.intern_unknown(name))).collect(),
    };
    let spoons = table.and_then(|table| table.optional("spoons", shapes::one_of(&SPOONS))).unwrap_or(usual.spoons);
    let pints = table.and_then(|table| table.optional("pints", shapes::one_of(&PINTS))).unwrap_or_default();
    Rules {
        always: foods("always", &["water"]),
        ask: foods("ask", &[]),
        short_by: table.and_then(|table| table.optional("short_by", shapes::share)).unwrap_or(usual.short_by),
        choose: table.and_then(|table| table.optional("choose", shapes::one_of(&CHOICES))).unwrap_or(usual.choose),
        spoons: spoons.with(pints),
        ready_after: minutes("ready_after", usual.ready_after),
        boxing: minutes("boxing", usual.boxing),
        cool: table.map_or(usual.cool, |table| read_cool(table, usual.cool)),
        wash: minutes("wash", usual.wash),
        wash_up: minutes("wash_up", usual.wash_up),
        pace: table.and_then(|table| table.optional("pace", shapes::positive)).unwrap_or(usual.pace),
        prefer: table.and_then(read_prefer),
    }
}

/// What cools longer than it may stand warm cannot be boxed in time.
fn read_cool(table: &Table<'_>, usual: Minutes) -> Minutes {
    let cool = table.optional("cool", shapes::minutes).unwrap_or(usual);
    let most = CHILLED_WITHIN.value;
    if cool > most {
        let cause = format!("cool is {}, but what is kept is boxed within {} of leaving the heat", duration(cool.0), duration(most.0));
        table.mistake("cool", cause, "Write a shorter time: cool = \"10 min\".");
        return usual;
    }
    let grains = GRAINS_CHILLED_WITHIN.value;
    if cool > grains {
        let text = format!(
            "cool is {}, but cooked rice and grains are boxed within {} of leaving the heat ({}): for them that wins.",
            duration(cool.0),
            duration(grains.0),
            GRAINS_CHILLED_WITHIN.source
        );
        table.file.found.note(table.spot_of("cool"), text);
    }
    cool
}

pub(super) fn read_appliances(top: &Table<'_>, names: &mut Names) -> Vec<Appliance> {
    let mut appliances = Vec::new();
    for table in top.each("appliance", "[[appliance]]") {
        let heat = table.optional("heat", shapes::yes_no).unwrap_or(false);
        let name = table.required("name", "\"oven\"", shapes::text).unwrap_or_default();
        let kind = table.optional("kind", shapes::one_of(&ApplianceKind::BY_NAME)).or_else(|| ApplianceKind::of_name(&name));
        let appliance = Appliance {
            kind,
            fan: table.optional("fan", shapes::yes_no).unwrap_or(false),
            name,
            room: table.optional("room", shapes::whole(1)).unwrap_or(1),
            heat,
            near: table.optional("near", shapes::kelvin).unwrap_or(if heat { 10.0 } else { 0.0 }),
            warm_up: table.optional("warm_up", shapes::minutes).unwrap_or(Minutes(if heat { 10 } else { 0 })),
            // Off the ring, out of the cooker, out of the oven: whatever heats is emptied by somebody.
            out: table.optional("out", shapes::minutes).unwrap_or(Minutes(i64::from(heat || kind.is_some()))),
            comes_up: table.optional("comes_up", shapes::minutes).unwrap_or(Minutes(if kind == Some(ApplianceKind::Pressure) {
                10
            } else {
                0
            })),
            holds: table.optional("holds", shapes::litres),
            at: table.spot(),
        };
        if !appliance.name.is_empty() && !names.add(&appliance.name, appliances.len()) {
            table.mistake(
                "name",
                format!("two appliances are named \"{}\"", appliance.name),
                "Give each a name of its own, or raise room.",
            );
        }
        if !heat && appliance.warm_up.0 > 0 {
            table.file.found.note(table.spot_of("warm_up"), "warm_up counts only for an appliance with heat = true.");
        }
        if !heat && table.has("near") {
            table.file.found.note(table.spot_of("near"), "near counts only for an appliance with heat = true.");
        }
        appliances.push(appliance);
    }
    appliances
}

pub(super) fn read_staples(top: &Table<'_>, speech: &mut Speech<'_>) -> Vec<Staple> {
    let mut staples: Vec<Staple> = Vec::new();
    for table in top.each("staple", "[[staple]]") {
        let food = table.required("food", "\"oat milk\"", shapes::text);
        let par = table.required("par", "\"2 l\"", shapes::quantity(speech.spoons));
        let when_below = table.optional("when_below", shapes::quantity(speech.spoons));
        let (Some(food), Some(par)) = (food, par) else { continue };
        let id = speech.food(&food, &table.spot_of("food"));
        if par.dimension() == Dimension::Portion {
            table.mistake("par", "a staple is a food, and a food has no portions", "Write a weight, a volume or pieces.");
        }
        if staples.iter().any(|staple| staple.food == id) {
            table.mistake("food", format!("two staples are of {food}"), "Keep one of them.");
        }
        let staple = Staple { food: id, when_below: when_below.unwrap_or_else(|| par.scaled(0.5)), par, at: table.spot() };
        check_staple(&staple, &table, speech);
        staples.push(staple);
    }
    staples
}

fn check_staple(staple: &Staple, table: &Table<'_>, speech: &Speech<'_>) {
    match convert(&speech.foods[staple.food], &staple.when_below, &staple.par.dimension()) {
        Ok(below) if below.base() > staple.par.base() * (1.0 + crate::measure::TOLERANCE) => {
            table.mistake("when_below", "when_below is more than par", "Make when_below at most par; without it, half of par counts.");
        }
        Ok(_) => {}
        Err(missing) => {
            let cause = format!("when_below cannot be compared with par: {}", missing.what);
            table.mistake("when_below", cause, "Write both in the same kind of unit.");
        }
    }
}
