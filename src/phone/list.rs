//! The trips as HTML, each line with what the goods-in file needs of it.

use std::collections::BTreeMap;
use std::fmt::Write;

use super::safe;
use crate::book::{goods_of, packs_of_goods};
use crate::foods::FoodId;
use crate::kitchen::Kitchen;
use crate::kitchen::much::{called, drawn};
use crate::measure::show;
use crate::prep::presence;
use crate::purchase::{Buy, ListLine, ShopVisit, ShoppingList, TripBuys, TripHashes, TripList};
use crate::telling;
use crate::words::{self, day};

pub(super) fn trips(kitchen: &Kitchen, list: &ShoppingList, hashes: &TripHashes) -> String {
    let mut html = String::new();
    for trip in &list.trips {
        add_trip(&mut html, kitchen, trip, hashes);
    }
    if list.trips.is_empty() {
        html.push_str("<h2>List</h2><p>Nothing to buy.</p>");
    }
    let names = kitchen.names();
    let units = kitchen.print.units;
    let look = list.ask.iter().map(|food| names.food(*food).to_owned());
    add_notes(&mut html, "Look before you go", look);
    let home = list.from_pantry.iter().map(|one| {
        let first = if one.look_first { ", look at it first" } else { "" };
        let (name, much) = (called(names, one.of, &one.lies), drawn(names, one.of, (&one.lies, one.is_all), units));
        format!("{name}, {much}, {}{first}", words::place(one.place))
    });
    add_notes(&mut html, "Already at home", home);
    html
}

fn add_notes(html: &mut String, title: &str, notes: impl Iterator<Item = String>) {
    let items: String = notes.map(|note| format!("<li>{}</li>", safe(&words::sentence(&note)))).collect();
    if !items.is_empty() {
        let _ = write!(html, "<h3>{title}</h3><ul>{items}</ul>");
    }
}

fn add_trip(html: &mut String, kitchen: &Kitchen, trip: &TripList, hashes: &TripHashes) {
    let buys = TripBuys::from(trip);
    let hash = hashes.get(&(trip.on, trip.nth)).cloned().unwrap_or_else(|| buys.hash(kitchen.names()));
    let state = trip.closed().map(|state| format!(", {}", state.words())).unwrap_or_default();
    let heading = format!("{}{state}", day(trip.on));
    let _ = writeln!(html, "<section class=\"trip\" data-on=\"{}\" data-hash=\"{hash}\"><h2>{}</h2>", trip.on, safe(&heading));
    html.push_str("<p class=\"sum\" role=\"status\"></p>\n");
    let mut rest = buys.lines.iter();
    let mut seen = BTreeMap::new();
    for visit in &trip.shops {
        add_shop(html, kitchen, visit, &buys, &mut rest, &mut seen);
    }
    html.push_str(
        "<div class=\"bar\"><button class=\"copy\" type=\"button\">Copy for receive</button>\
         <button class=\"again\" type=\"button\" hidden>Copy all again</button></div>\
         <p class=\"said\" role=\"status\"></p><textarea readonly hidden aria-label=\"For receive\"></textarea></section>\n",
    );
}

fn add_shop<'b>(
    html: &mut String,
    kitchen: &Kitchen,
    visit: &ShopVisit,
    trip: &TripBuys,
    rest: &mut impl Iterator<Item = &'b Buy>,
    seen: &mut BTreeMap<FoodId, usize>,
) {
    let names = kitchen.names();
    let name = visit.at.map_or("No shop known, or no price", |stop| names.shop(stop.shop));
    let fare = visit.at.map_or(0, |stop| stop.fare.0);
    let _ = writeln!(html, "<div class=\"shop\" data-fare=\"{fare}\"><h3>{}</h3>", safe(name));
    for section in &visit.sections {
        let title = safe(&section.section);
        let _ = writeln!(html, "<div class=\"section\"><h4><span>{title}</span><span class=\"left\"></span></h4><ul>");
        for line in &section.lines {
            let packs = rest.next().and_then(|buy| booked_as(kitchen, trip, buy));
            let next = seen.entry(line.food).or_default();
            add_line(html, kitchen, line, packs.as_deref(), std::mem::replace(next, *next + 1));
        }
        html.push_str("</ul></div>\n");
    }
    html.push_str("</div>\n");
}

/// The packs as the goods-in file has them; `None` for what cannot be booked.
fn booked_as(kitchen: &Kitchen, trip: &TripBuys, buy: &Buy) -> Option<Vec<String>> {
    let alone = TripBuys { lines: vec![buy.clone()], unknown: Vec::new(), ..trip.clone() };
    let (goods, _) = goods_of(&kitchen.foods, &kitchen.rules, &alone);
    goods.first().map(|goods| packs_of_goods(&kitchen.rules, goods))
}

/// `nth` counts the lines of one food from 0. A line's ticks are kept by both: that other lines are booked changes neither.
fn add_line(html: &mut String, kitchen: &Kitchen, line: &ListLine, packs: Option<&[String]>, nth: usize) {
    let (names, units) = (kitchen.names(), kitchen.print.units);
    let (food, called) = (safe(names.food(line.food)), safe(&telling::list::named(line, names, units)));
    let cost = line.cost.map(|cost| cost.0.to_string()).unwrap_or_default();
    let book = if packs.is_some() { " data-book=\"1\"" } else { "" };
    let packs = serde_json::to_string(packs.unwrap_or_default()).unwrap_or_default();
    let bought = telling::list::bought(line, units);
    let bought = if bought.is_empty() { telling::list::need(line, names, units).unwrap_or_default() } else { bought };
    let _ = write!(
        html,
        "<li class=\"line\" data-i=\"{nth}:{food}\" data-food=\"{food}\" data-cost=\"{cost}\" data-packs=\"{}\"{book}>\
         <label class=\"tick\"><input type=\"checkbox\"><span><b>{called}</b> <span>{}</span>",
        safe(&packs),
        safe(&bought)
    );
    let details = details(kitchen, line);
    if !details.is_empty() {
        let _ = write!(html, "<small>{}</small>", safe(&details));
    }
    html.push_str("<small class=\"how\"></small></span></label><details><summary>Otherwise</summary></details></li>\n");
}

/// What is good to know in the aisle.
fn details(kitchen: &Kitchen, line: &ListLine) -> String {
    let (names, units) = (kitchen.names(), kitchen.print.units);
    let mut parts: Vec<String> = line.beware.iter().map(telling::list::beware).collect();
    parts.extend(telling::list::need(line, names, units).filter(|_| !line.packs.is_empty()).map(|need| format!("need {need}")));
    let offers = line.packs.iter().filter_map(|pack| pack.offer.as_ref());
    parts.extend(offers.map(|taken| format!("take {}", telling::list::offer(taken, names.currency))));
    parts.extend(line.windows.as_ref().map(telling::list::windows));
    if let (true, Some(date)) = (line.fresh, line.last_used) {
        parts.push(format!("must last to {}", day(date)));
    }
    if line.is_short_of_note() {
        parts.push(format!("{} short", show(&line.short, units)));
    }
    parts.extend(line.own_words.iter().cloned());
    if !line.what_for.is_empty() {
        parts.push(format!("for {}", line.what_for.join(", ")));
    }
    parts.extend(line.top_up.then(|| telling::list::RESTOCK.to_owned()));
    parts.join(" · ")
}

/// Who is there, of all sessions of a page.
pub(super) fn there(people: &[crate::kitchen::Person]) -> String {
    people.iter().map(presence).collect::<Vec<_>>().join("; ")
}
