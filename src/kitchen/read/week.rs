//! weeks/*.toml: trips, sessions and meals of one planned week.

use jiff::ToSpan;
use jiff::civil::{Date, DateTime, Time, Weekday};
use toml::de::DeValue;

use super::diners::{AtWeek, Lines, read_at_week, read_diners};
use super::hint;
use super::lines::Speech;
use super::names::Names;
use super::plates::{Asking, Places, enough_fit, read_plates};
use super::session::read_session;
use super::shapes;
use super::table::Table;
use super::wishes::read_wishes;
use crate::kitchen::{Asked, Household, Ingredient, Meal, Open, PatternId, Plate, Session, ShopId, Trip, Week};

static DAYS: [(&str, Weekday); 14] = [
    ("mon", Weekday::Monday),
    ("tue", Weekday::Tuesday),
    ("wed", Weekday::Wednesday),
    ("thu", Weekday::Thursday),
    ("fri", Weekday::Friday),
    ("sat", Weekday::Saturday),
    ("sun", Weekday::Sunday),
    ("monday", Weekday::Monday),
    ("tuesday", Weekday::Tuesday),
    ("wednesday", Weekday::Wednesday),
    ("thursday", Weekday::Thursday),
    ("friday", Weekday::Friday),
    ("saturday", Weekday::Saturday),
    ("sunday", Weekday::Sunday),
];

/// What a week takes over from the household.
#[derive(Clone, Copy)]
pub(super) struct Customs<'k> {
    pub household: &'k Household,
    pub appliances: &'k Names,
    /// What can fill the places of open meals.
    pub places: &'k Places<'k>,
    pub patterns: &'k Names,
    /// False where kitchen.toml cannot be read: then a word of `at` that is not found says nothing.
    pub known: bool,
}

/// The week of one file, or `None` where it lacks what everything else counts from.
pub(super) fn read_week(top: &Table<'_>, customs: &Customs<'_>, shops: &Names, speech: &mut Speech<'_>) -> Option<Week> {
    let from = top.required("from", "2026-11-30", shapes::date);
    let name = top.optional("name", shapes::text);
    let at_week = read_at_week(top, customs.household);
    let mut trips = read_trips(top, shops);
    let sessions = top.each("session", "[[session]]");
    let mut sessions: Vec<Session> = sessions.iter().filter_map(|table| read_session(table, customs.appliances)).collect();
    let meals = top.each("meal", "[[meal]]");
    let mut meals: Vec<Meal> = meals.iter().filter_map(|table| read_meal(table, from, &at_week, customs, speech)).collect();
    trips.sort_by_key(|trip| trip.on);
    sessions.sort_by_key(|session| session.start);
    meals.sort_by_key(|meal| meal.at_time);
    let wishes = read_wishes(top, &customs.household.currency, speech);
    let from = from?;
    let name = name.unwrap_or_else(|| Week::usual_name(from));
    let mut week = Week { name, from, trips, sessions, meals, left_out: Default::default(), wishes, at: top.spot() };
    check_order(&week, top);
    if !top.has("trip") {
        week.trips.extend(default_trip(&week));
    }
    Some(week)
}

/// Without any trip: one, the day before the first session or meal.
fn default_trip(week: &Week) -> Option<Trip> {
    let sessions = week.sessions.iter().map(|session| session.start.date());
    let first = sessions.chain(week.meals.iter().map(|meal| meal.at_time.date())).min()?;
    Some(Trip { on: first.yesterday().ok()?, shops: None, planned: true, nth: 0, settled: Vec::new(), at: week.at.clone() })
}

fn read_trips(top: &Table<'_>, shops: &Names) -> Vec<Trip> {
    let mut trips = Vec::new();
    for table in top.each("trip", "[[trip]]") {
        let on = table.required("on", "2026-11-28", shapes::date);
        let named = table.texts("shops").map(|names| {
            if names.is_empty() {
                table.mistake("shops", "a trip to no shop at all", "Name a shop, or leave shops out to mean all of them.");
            }
            let found = names.iter().filter_map(|(name, at)| shops.find(name, at, table.file.found));
            let mut ids: Vec<ShopId> = found.map(ShopId).collect();
            ids.sort();
            ids.dedup();
            ids
        });
        if let Some(on) = on {
            let nth = trips.iter().filter(|other: &&Trip| other.on == on).count();
            trips.push(Trip { on, shops: named, planned: true, nth, settled: Vec::new(), at: table.spot() });
        }
    }
    trips
}

fn read_meal(table: &Table<'_>, from: Option<Date>, at_week: &AtWeek, customs: &Customs<'_>, speech: &mut Speech<'_>) -> Option<Meal> {
    let on = read_day(table, from);
    let at = read_at(table, customs);
    let name = table.optional("name", shapes::text);
    let text = table.optional("text", shapes::text);
    let asking = Asking { table, whose: "this meal".to_owned() };
    let [plates_each, plates_shared] = ["each", "shared"].map(|key| read_plates(&asking, key, customs.places, speech));
    enough_fit(&asking, &[&plates_each, &plates_shared], customs.places, speech);
    let [each, shared] = [&plates_each, &plates_shared].map(|plates| fixed(plates));
    let (pattern, open) = read_open(table, customs.patterns, Open { each: plates_each, shared: plates_shared });
    let asked =
        Asked { ready_in: table.optional("ready_in", shapes::minutes), packed: table.optional("packed", shapes::yes_no).unwrap_or(false) };
    let lines = Lines { each: &each, shared: &shared };
    let (eaters, diners) = read_diners(table, on, at_week, customs.household, &lines, speech);
    let skip = table.optional("skip", shapes::yes_no).unwrap_or(false);
    let said = skip || open.is_some() || text.is_some() || table.has("instead");
    if each.is_empty() && shared.is_empty() && !said {
        let text =
            "this meal has nothing in it: nobody eats then. Write what each eats, each = [\"1 portion recipe:...\"], or open = true.";
        table.file.found.note(table.spot(), text);
    }
    let (on, (time, word)) = (on?, at?);
    let label = format!("{} {word}", on.strftime("%a"));
    Some(Meal {
        at_time: on.to_datetime(time),
        label,
        word,
        name,
        text,
        eaters,
        diners,
        each,
        shared,
        skip,
        pattern,
        open,
        asked,
        at: table.spot(),
    })
}

/// The lines that are written out.
fn fixed(plates: &[Plate]) -> Vec<Ingredient> {
    let line = |plate: &Plate| match plate {
        Plate::As(line) => Some(line.clone()),
        Plate::Any(_) => None,
    };
    plates.iter().filter_map(line).collect()
}

/// The pattern of a meal, and what of it is open: what says so, names a pattern alone, or has a place to be filled.
fn read_open(table: &Table<'_>, patterns: &Names, lines: Open) -> (Option<PatternId>, Option<Open>) {
    let said = table.optional("open", shapes::yes_no);
    let name = table.optional("pattern", shapes::text);
    let pattern = name.and_then(|name| patterns.find(&name, &table.spot_of("pattern"), table.file.found)).map(PatternId);
    let places = lines.has_own_places();
    if said == Some(false) && places {
        let remedy = "Take open out, or name what fills the places.";
        table.mistake("open", "the meal is not open, but has a place to be filled", remedy);
    }
    let alone = table.has("pattern") && !table.has("each") && !table.has("shared");
    let open = said.unwrap_or(places || alone);
    (pattern, open.then_some(lines))
}

/// `on = DATE` or `day = "mon"`, the first such day on or after `from`.
fn read_day(table: &Table<'_>, from: Option<Date>) -> Option<Date> {
    let on = table.optional("on", shapes::date);
    let day = table.optional("day", shapes::one_of(&DAYS));
    match (table.has("on"), table.has("day")) {
        (true, false) => on,
        (false, true) => {
            let (from, day) = (from?, day?);
            let ahead = (day.to_monday_zero_offset() - from.weekday().to_monday_zero_offset()).rem_euclid(7);
            from.checked_add(i64::from(ahead).days()).ok()
        }
        (true, true) => {
            table.mistake("day", "a meal has both on and day", "Keep one of the two.");
            None
        }
        (false, false) => {
            table.file.found.mistake(table.spot(), "a meal lacks its day", "Add on = 2026-11-30 or day = \"mon\".");
            None
        }
    }
}

/// The time of day, and how the meal is called: a word of mealtimes, or the clock.
fn read_at(table: &Table<'_>, customs: &Customs<'_>) -> Option<(Time, String)> {
    let Some(entry) = table.entry("at") else {
        table.missing("at", "\"supper\"");
        return None;
    };
    let mealtimes = &customs.household.mealtimes;
    if let DeValue::String(typed) = entry.value {
        let typed = typed.trim();
        let word = mealtimes.iter().find(|(word, _)| word.eq_ignore_ascii_case(typed));
        if let Some((word, time)) = word {
            return Some((*time, word.clone()));
        }
        if !typed.starts_with(|c: char| c.is_ascii_digit()) {
            if !customs.known {
                return None;
            }
            let words = mealtimes.keys().map(String::as_str);
            let near = hint::nearest(typed, words.clone()).map(|near| format!("Did you mean \"{near}\"? ")).unwrap_or_default();
            let known: Vec<&str> = words.collect();
            let cause = format!("\"{typed}\" is neither a word of mealtimes nor a time");
            table.mistake("at", cause, format!("{near}Write one of {}, or a time like \"19:15\".", known.join(", ")));
            return None;
        }
    }
    let time = table.optional("at", shapes::time)?;
    Some((time, time.strftime("%H:%M").to_string()))
}

/// Says what lies outside the week: trips after every meal, meals before the first trip or session.
fn check_order(week: &Week, top: &Table<'_>) {
    let found = top.file.found;
    for pair in week.sessions.windows(2).filter(|pair| pair[0].start == pair[1].start) {
        let start = pair[1].start.strftime("%Y-%m-%dT%H:%M");
        let cause = format!("two sessions begin at {start}: this one and that of line {}", pair[0].at.line);
        found.mistake(pair[1].at.clone(), cause, "Give one of them another start.");
    }
    let last_meal = week.meals.last().map(|meal| meal.at_time.date());
    for trip in &week.trips {
        if let Some(last) = last_meal.filter(|last| trip.on > *last) {
            found.note(
                trip.at.clone(),
                format!("this trip on {} comes after the last meal, on {last}: what it buys comes too late for all of them.", trip.on),
            );
        }
    }
    let mut firsts: Vec<DateTime> = week.trips.iter().map(|trip| trip.on.to_datetime(Time::midnight())).collect();
    firsts.extend(week.sessions.iter().map(|session| session.start));
    // Without any trip there will be one the day before whatever comes first.
    let Some(first) = firsts.into_iter().min().filter(|_| !week.trips.is_empty()) else { return };
    for meal in week.meals.iter().filter(|meal| meal.at_time.date() < first.date()) {
        let cause = format!("this meal on {} comes before the first trip or session, on {}", meal.at_time.date(), first.date());
        found.mistake(meal.at.clone(), cause, "Give it a later day, or the week an earlier trip.");
    }
}
