//! `plan-<from>.json`: the list and the plan of the sessions as they were printed. It is read back to ids, once; a food that is not
//! known any more keeps its name, so that it can be told.
//!
//! `plan-<from>.json` holds the list and the plan exactly as `list` and `prep` write them.

use std::collections::BTreeMap;

use jiff::civil::{Date, DateTime};
use serde::{Deserialize, Serialize};

use super::kept::KeptList;
use super::list::told;
use super::list::trips::LOOSE;
use super::prep::{Past, Prep, Session, whole};
use crate::calendar::Kept;
use crate::kitchen::{Kitchen, Mistake, Names, ShopId, Spot};
use crate::measure::{Money, Quantity, read_money, read_quantity, single_of};
use crate::prep::{PrepPlan, Turnover};
use crate::purchase::{Beside, Buy, Packed, Seller, ShoppingList, TripBuys, TripHashes, TripList, WeekBuys, in_order};
use crate::reckon::AsPrinted;
use crate::store::sha256;

#[derive(Serialize)]
struct Plan<'c, L, P> {
    /// By which the sheets of this print are known.
    #[serde(skip_serializing_if = "str::is_empty")]
    mark: String,
    list: L,
    prep: P,
    /// Of trips that were printed before some of them was booked: by which a phone knows them still.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    hashes: Vec<KnownBy>,
    /// As last written into a calendar.
    #[serde(skip_serializing_if = "<[Kept]>::is_empty")]
    calendar: &'c [Kept],
}

/// What a print takes over from those before it.
#[derive(Clone, Copy)]
pub struct Earlier<'a> {
    pub print: Option<&'a Printed>,
    /// Meals that are done or taken as done, each with its name, or its label.
    pub meals: &'a [(DateTime, String)],
    pub hashes: &'a TripHashes,
    pub calendar: &'a [Kept],
}

/// What is no longer open stands in it, too, as the print before told it.
pub fn printed<'a>(
    shopping: &'a ShoppingList,
    plan: &PrepPlan,
    past: Past,
    earlier: Earlier<'a>,
    kitchen: &'a Kitchen,
) -> Printing<impl Serialize + 'a> {
    let Earlier { hashes, calendar, .. } = earlier;
    let kept = earlier.print.map(|print| &print.kept);
    let mut list = told(shopping, |trip| kept?.past_trip(trip), kitchen);
    if let Some(kept) = kept {
        list.add_past_meals(kept, earlier.meals);
    }
    let prep = whole(plan, Some(past), kitchen);
    let mark = mark_of(shopping, &prep, hashes);
    let hashes = KnownBy::of(shopping, hashes, kitchen.names());
    Printing { mark: mark.clone(), plan: Plan { mark, list, prep, hashes, calendar } }
}

/// A trip that a phone knows by another hash than that of its lines.
#[derive(Serialize, Deserialize)]
struct KnownBy {
    on: Date,
    /// Which trip of its day, as [`crate::kitchen::Trip::nth`].
    nth: usize,
    hash: String,
}

impl KnownBy {
    fn of(list: &ShoppingList, hashes: &TripHashes, names: Names) -> Vec<KnownBy> {
        let known = |trip: &TripList| {
            let hash = hashes.get(&(trip.on, trip.nth))?;
            let own = TripBuys::from(trip).hash(names);
            (*hash != own).then(|| KnownBy { on: trip.on, nth: trip.nth, hash: hash.clone() })
        };
        list.trips.iter().filter_map(known).collect()
    }
}

/// A plan that is about to be printed.
pub struct Printing<T> {
    pub mark: String,
    pub plan: T,
}

/// The first digits of the SHA-256 of all that is planned: what was printed alike has one mark.
/// Of what is bought and what is cooked: neither another day nor a booking makes another plan of it.
fn mark_of(list: &ShoppingList, prep: &Prep, hashes: &TripHashes) -> String {
    let trips: Vec<_> = list.trips.iter().map(|trip| (trip.on, hashes.get(&(trip.on, trip.nth)))).collect();
    let sessions: Vec<Session> = prep.sessions.iter().map(Session::planned).collect();
    let mut digits = sha256(&serde_json::to_vec(&(&list.week, list.from, trips, sessions)).unwrap_or_default());
    digits.truncate(MARK);
    digits
}

/// As many digits as a person compares at a glance.
const MARK: usize = 8;

/// What booking needs of a print.
#[derive(Debug, Clone)]
pub struct Printed {
    /// By which its sheets are known; none in what an earlier version printed.
    pub mark: Option<String>,
    pub buys: WeekBuys,
    /// By which a phone knows those of its trips that were printed before some of them was booked.
    pub hashes: TripHashes,
    /// What each session took and gave.
    pub turnovers: Vec<Turnover>,
    /// As they stand in the print.
    pub sessions: Vec<Session>,
    pub kept: KeptList,
}

impl Printed {
    /// The sessions that an earlier print of the week told, if there is one.
    pub fn sessions_of(print: Option<&Printed>) -> &[Session] {
        print.map_or(&[], |print| &print.sessions)
    }

    /// By which a phone knows the trips of a day: which of its day each is, and its hash.
    pub fn hashes_of(&self, on: Date, names: Names) -> Vec<(usize, String)> {
        let of_day = self.buys.trips.iter().filter(|trip| trip.on == on);
        let hash = |trip: &TripBuys| self.hashes.get(&(trip.on, trip.nth)).cloned().unwrap_or_else(|| trip.hash(names));
        of_day.map(|trip| (trip.nth, hash(trip))).collect()
    }

    /// What the reckoning of a week reads of it.
    pub fn print(&self) -> AsPrinted<'_> {
        AsPrinted { buys: &self.buys, turnovers: &self.turnovers }
    }
}

/// The events as the print has them, whatever else stands in it; none where it holds none.
///
/// # Errors
/// What cannot be understood.
pub fn read_calendar(text: &str, file: &str) -> Result<Vec<Kept>, Vec<Mistake>> {
    #[derive(Deserialize)]
    struct Events {
        #[serde(default)]
        calendar: Vec<Kept>,
    }
    let read: Result<Events, _> = serde_json::from_str(text);
    read.map(|events| events.calendar).map_err(|error| vec![not_read(&error, file)])
}

/// Reads a print; `file` is its name in the kitchen folder.
///
/// # Errors
/// What cannot be understood.
pub fn read_printed(text: &str, file: &str, kitchen: &Kitchen) -> Result<Printed, Vec<Mistake>> {
    let whole: Whole = serde_json::from_str(text).map_err(|error| vec![not_read(&error, file)])?;
    let mut reading = Reading { kitchen, file, mistakes: Vec::new() };
    let mut planned: BTreeMap<Date, usize> = BTreeMap::new();
    let mut nth = |trip: &Trip| match trip.planned {
        true => {
            let next = planned.entry(trip.on).or_default();
            std::mem::replace(next, *next + 1)
        }
        false => crate::kitchen::Trip::OWN + trip.number.saturating_sub(1),
    };
    let trips = whole.list.trips.into_iter().map(|trip| (nth(&trip), trip)).collect::<Vec<_>>();
    let trips = trips.into_iter().map(|(nth, trip)| reading.trip(trip, nth)).collect();
    let buys = WeekBuys { week: whole.list.week, from: whole.list.from, trips };
    let turnovers = whole.prep.turnovers(kitchen).unwrap_or_else(|start| {
        reading.mistake(format!("the start of a session, \"{start}\", is no date and time"));
        Vec::new()
    });
    if reading.mistakes.is_empty() {
        let hashes = whole.hashes.into_iter().map(|known| ((known.on, known.nth), known.hash)).collect();
        Ok(Printed { mark: whole.mark, buys, hashes, turnovers, sessions: whole.prep.sessions, kept: KeptList::of(text) })
    } else {
        Err(reading.mistakes)
    }
}

fn not_read(error: &serde_json::Error, file: &str) -> Mistake {
    let how = if error.is_eof() { "was cut short" } else { "is not as it was printed" };
    Mistake {
        at: Spot { file: file.to_owned(), line: error.line() as u32, column: error.column() as u32 },
        cause: format!("{how}, and cannot be read"),
        remedy: AGAIN.to_owned(),
    }
}

const AGAIN: &str = "Print the week again.";

#[derive(Deserialize)]
struct Whole {
    mark: Option<String>,
    list: List,
    prep: Prep,
    #[serde(default)]
    hashes: Vec<KnownBy>,
}

#[derive(Deserialize)]
struct List {
    week: String,
    from: Date,
    trips: Vec<Trip>,
}

#[derive(Deserialize)]
struct Trip {
    on: Date,
    #[serde(default = "yes")]
    planned: bool,
    /// Of a trip of its own: which one of its day, counted from 1.
    #[serde(default = "one")]
    number: usize,
    shops: Vec<Visit>,
}

fn yes() -> bool {
    true
}

fn one() -> usize {
    1
}

#[derive(Deserialize)]
struct Visit {
    shop: Option<String>,
    sections: Vec<Section>,
}

#[derive(Deserialize)]
struct Section {
    section: String,
    lines: Vec<Line>,
}

#[derive(Deserialize)]
struct Line {
    food: String,
    need: Quantity,
    packs: Vec<Pack>,
    cost: Option<String>,
    #[serde(default)]
    left: Option<Quantity>,
    #[serde(default)]
    left_until: Option<Date>,
    #[serde(default)]
    short: Option<Quantity>,
    #[serde(default)]
    last_used: Option<Date>,
    #[serde(rename = "for", default)]
    what_for: Vec<String>,
    #[serde(default)]
    opened: Vec<Opened>,
}

#[derive(Deserialize)]
struct Opened {
    packs: Vec<Pack>,
}

#[derive(Deserialize)]
struct Pack {
    size: String,
    count: u32,
    #[serde(default)]
    amount: Option<Quantity>,
}

struct Reading<'k> {
    kitchen: &'k Kitchen,
    file: &'k str,
    mistakes: Vec<Mistake>,
}

impl Reading<'_> {
    fn trip(&mut self, trip: Trip, nth: usize) -> TripBuys {
        let mut buys = TripBuys { on: trip.on, nth, shops: Vec::new(), lines: Vec::new(), unknown: Vec::new() };
        for mut visit in trip.shops {
            let from = self.seller(visit.shop.as_deref());
            if let Seller::Shop(shop) = from {
                buys.shops.push(shop);
            }
            let lines = visit.sections.iter_mut().flat_map(|section| {
                let name = section.section.clone();
                std::mem::take(&mut section.lines).into_iter().map(move |line| (name.clone(), line))
            });
            for (section, line) in lines {
                match self.kitchen.foods.find(&line.food) {
                    Some(food) => {
                        let cost = line.cost.as_deref().and_then(|cost| self.money(cost, &line.food));
                        let packs: Vec<Packed> = line.packs.into_iter().filter_map(|pack| self.pack(pack, &line.food)).collect();
                        let told = line.opened.iter().flat_map(|opened| &opened.packs).map(|pack| (pack.count, pack.size.as_str()));
                        let opened = if line.opened.is_empty() { Vec::new() } else { in_order(&packs, told) };
                        let beside = Beside {
                            section: Some(section),
                            left: line.left,
                            left_until: line.left_until,
                            short: line.short,
                            last_used: line.last_used,
                            what_for: line.what_for,
                            top_up: false,
                        };
                        buys.lines.push(Buy { food, from, need: line.need, packs, opened, cost, beside });
                    }
                    None => buys.unknown.push(line.food),
                }
            }
        }
        buys
    }

    fn seller(&self, name: Option<&str>) -> Seller {
        let Some(name) = name else { return Seller::Anywhere };
        let known = self.kitchen.shops.iter().position(|shop| shop.name == name);
        known.map_or(Seller::Unknown, |shop| Seller::Shop(ShopId(shop)))
    }

    fn money(&mut self, text: &str, food: &str) -> Option<Money> {
        let money = read_money(text, &self.kitchen.household.currency);
        if money.is_err() {
            self.mistake(format!("the cost of {food}, \"{text}\", is no money"));
        }
        money.ok()
    }

    fn pack(&mut self, pack: Pack, food: &str) -> Option<Packed> {
        match pack.amount {
            Some(amount) if pack.size == LOOSE => Some(Packed::Loose(amount)),
            _ => {
                let spoons = self.kitchen.rules.spoons;
                let size = read_quantity(&pack.size, spoons);
                if size.is_err() {
                    self.mistake(format!("the pack of {food}, \"{}\", is no size", pack.size));
                }
                let size = size.ok()?;
                let single = single_of(&pack.size, &size, spoons);
                Some(Packed::Packs { count: pack.count, size, single, label: pack.size })
            }
        }
    }

    fn mistake(&mut self, cause: String) {
        let at = Spot { file: self.file.to_owned(), ..Spot::default() };
        self.mistakes.push(Mistake { at, cause, remedy: AGAIN.to_owned() });
    }
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::foods::{Food, FoodId};
    use crate::kitchen::Shop;
    use crate::kitchen::fixture::empty_kitchen;

    fn kitchen() -> Kitchen {
        let mut kitchen = empty_kitchen();
        kitchen.foods = [Food { name: "feta".to_owned(), ..Food::default() }].into_iter().collect();
        kitchen.shops = vec![Shop { name: "Quay market".to_owned(), sections: Vec::new(), trip: Money::ZERO, at: Spot::default() }];
        kitchen
    }

    /// A print of one trip with one shop.
    fn print_of(shop: &str, lines: &str) -> String {
        format!(
            r#"{{"list": {{"week": "Advent", "from": "2026-11-30", "trips": [{{"on": "2026-11-28", "shops": [{{"shop": {shop},
               "sections": [{{"section": "Dairy", "lines": [{lines}]}}]}}]}}]}},
               "prep": {{"week": "Advent", "sessions": [], "before": [], "moves": []}}}}"#
        )
    }

    fn line(food: &str, size: &str, cost: &str) -> String {
        format!(
            r#"{{"food": "{food}", "need": {{"amount": 300.0, "unit": "g"}}, "cost": "{cost}",
               "packs": [{{"size": "{size}", "count": 2, "offer": null, "cost": "{cost}"}}]}}"#
        )
    }

    #[test]
    fn a_print_is_read_back_to_ids_and_money() {
        let read = read_printed(&print_of("\"Quay market\"", &line("feta", "200 g", "4.60")), "plan.json", &kitchen()).expect("a print");
        let size = Quantity::grams(200.0);
        let packs = vec![Packed::Packs { count: 2, single: size.clone(), size, label: "200 g".to_owned() }];
        let (food, from) = (FoodId(0), Seller::Shop(ShopId(0)));
        let beside = Beside { section: Some("Dairy".to_owned()), ..Beside::default() };
        let lines = vec![Buy { food, from, need: Quantity::grams(300.0), packs, opened: Vec::new(), cost: Some(Money(460)), beside }];
        let trip = TripBuys { on: date(2026, 11, 28), nth: 0, shops: vec![ShopId(0)], lines, unknown: Vec::new() };
        assert_eq!(read.buys, WeekBuys { week: "Advent".to_owned(), from: date(2026, 11, 30), trips: vec![trip] });
    }

    #[test]
    fn what_is_not_known_any_more_is_told_by_its_name() {
        let lines = [line("feta", "200 g", "4.60"), line("zork", "200 g", "1.00")].join(",");
        let read = read_printed(&print_of("\"Ferry kiosk\"", &lines), "plan.json", &kitchen()).expect("a print");
        let trip = &read.buys.trips[0];
        assert_eq!((trip.lines[0].from, trip.unknown.as_slice()), (Seller::Unknown, &["zork".to_owned()][..]));
    }

    #[test]
    fn what_cannot_be_understood_is_a_mistake_with_its_file() {
        let said = |text: &str| {
            let mistakes = read_printed(text, "sheets/plan.json", &kitchen()).expect_err("a mistake");
            mistakes.iter().map(Mistake::to_string).collect::<Vec<_>>()
        };
        assert_eq!(
            said("{\n  \"list\": 3}"),
            ["sheets/plan.json:2:11: is not as it was printed, and cannot be read. Print the week again."]
        );
        assert_eq!(said("{\n  \"list"), ["sheets/plan.json:2:7: was cut short, and cannot be read. Print the week again."]);
        assert_eq!(
            said(&print_of("null", &line("feta", "a lot", "4,6,0"))),
            [
                "sheets/plan.json: the cost of feta, \"4,6,0\", is no money. Print the week again.",
                "sheets/plan.json: the pack of feta, \"a lot\", is no size. Print the week again."
            ]
        );
    }
}
