//! One line of the list, from what was chosen for one need.

use jiff::civil::Date;

use super::ask::{Ask, Window, WindowFor, is_wanted};
use super::choose::AtShop;
use super::list::{ListLine, PackLine};
use super::paid::Stay;
use super::shelf::Stocked;
use super::windows::Bought;
use crate::foods::{Food, Measured, Place};
use crate::kitchen::{Pack, PackKind};
use crate::measure::{Currency, Dimension, Money, Number, Quantity, tidy};
use crate::plan::Need;

/// What keeps fewer days than this is bought fresh.
const FRESH_DAYS: i64 = 21;

/// The line of a need that is bought at a shop.
pub(super) fn bought(ask: &Ask, there: &AtShop, stays: &[Stay], currency: &Currency) -> ListLine {
    let AtShop { stocked, windows, bought, left, .. } = there;
    let mut line = plain(ask.need, ask.food, &ask.total);
    line.packs = pack_lines(stocked, bought, currency);
    line.cost = Some(Money(bought.whole.price).decimal(currency));
    line.left = Quantity::of(&ask.need.dimension, tidy(ask.base(*left)));
    line.short = Quantity::of(&ask.need.dimension, tidy(ask.base(bought.whole.short)));
    line.left_until = stays.iter().filter(|stay| !stay.top_up).filter_map(|stay| stay.until).min();
    line.windows = (windows.len() > 1 && stocked.loose.is_none()).then(|| windows_text(stocked, windows, bought));
    if let [loose] = line.packs.as_slice()
        && let Some(amount) = &loose.amount
    {
        line.about = about(ask.food, amount).or(line.about);
    }
    line
}

/// The line of a need of which all may stay unmet.
pub(super) fn unmet(ask: &Ask, currency: &Currency) -> ListLine {
    let mut line = plain(ask.need, ask.food, &ask.total);
    line.cost = Some(Money::ZERO.decimal(currency));
    line.short = line.need.clone();
    line
}

/// The line of a need that nobody sells, or sells without a price, or that stands in its own words.
pub(super) fn plain(need: &Need, food: &Food, total: &Number) -> ListLine {
    let wanted = || need.uses.iter().filter(|part| is_wanted(part));
    let mut what_for: Vec<String> = Vec::new();
    for part in wanted().filter(|part| !part.top_up) {
        if !what_for.contains(&part.what_for) {
            what_for.push(part.what_for.clone());
        }
    }
    if wanted().any(|part| part.top_up) && !what_for.iter().any(|what| what == "staple") {
        what_for.push("staple".to_owned());
    }
    let mut own_words: Vec<String> = Vec::new();
    for part in wanted().filter(|part| !part.line.is_empty() && (need.own_words || part.to_taste)) {
        if !own_words.contains(&part.line) {
            own_words.push(part.line.clone());
        }
    }
    let amount = Quantity::of(&need.dimension, total);
    let none = Quantity::of(&need.dimension, 0);
    ListLine {
        food: food.name.clone(),
        about: about(food, &amount),
        need: amount,
        packs: Vec::new(),
        cost: None,
        left: none.clone(),
        left_until: None,
        short: none,
        last_used: wanted().filter(|part| !part.top_up).map(|part| part.on).max(),
        what_for,
        fresh: is_fresh(food),
        own_words,
        windows: None,
        beware: None,
    }
}

/// What a line leaves over, in the units of its `ask`.
///
/// Pieces are rounded over the trip, not in each window: what the windows leave is less by what the rounding added.
pub(super) fn left_units(ask: &Ask, windows: &[Window], bought: &Bought) -> i64 {
    let rounding = if ask.need.dimension == Dimension::Count {
        ask.units(&ask.total) - windows.iter().map(|window| ask.units(&window.amount)).sum::<i64>()
    } else {
        0
    };
    (bought.whole.left - rounding).max(0)
}

/// One entry a size, larger sizes first; the loose amount last.
fn pack_lines(stocked: &Stocked, bought: &Bought, currency: &Currency) -> Vec<PackLine> {
    struct SizeTotal<'a> {
        size: &'a Quantity,
        label: &'a str,
        count: i64,
        offers: i64,
        cost: i64,
        offer_text: Option<String>,
    }
    let mut sizes: Vec<SizeTotal> = Vec::new();
    for ((sized, pack), &count) in stocked.shelf.sized.iter().zip(&stocked.sized).zip(&bought.whole.counts) {
        let PackKind::Sized { size, label, offer, .. } = &pack.kind else { continue };
        if count == 0 {
            continue;
        }
        let offers = sized.offers_in(count);
        let offer_text = offer.filter(|_| offers > 0).map(|offer| format!("{} for {}", offer.buy, offer.pay.decimal(currency)));
        let cost = sized.price_of(count);
        match sizes.iter_mut().find(|there| there.size == size) {
            Some(there) => {
                there.count += count;
                there.offers += offers;
                there.cost += cost;
                there.offer_text = there.offer_text.take().or(offer_text);
            }
            None => sizes.push(SizeTotal { size, label, count, offers, cost, offer_text }),
        }
    }
    let sized = sizes.into_iter().map(|total| PackLine {
        size: total.label.to_owned(),
        count: whole(total.count),
        offer: (total.offers > 0).then(|| whole(total.offers)),
        cost: Some(Money(total.cost).decimal(currency)),
        amount: None,
        offer_text: total.offer_text,
    });
    sized.chain(loose_line(stocked, bought.whole.steps, currency)).collect()
}

fn loose_line(stocked: &Stocked, steps: i64, currency: &Currency) -> Option<PackLine> {
    let (loose, pack) = (stocked.shelf.loose.as_ref()?, stocked.loose?);
    let PackKind::Loose { step, .. } = &pack.kind else { return None };
    (steps > 0).then(|| PackLine {
        size: "loose".to_owned(),
        count: 1,
        offer: None,
        cost: Some(Money(loose.price(steps)).decimal(currency)),
        amount: Some(Quantity::of(&step.dimension(), tidy(step.base() * steps as f64))),
        offer_text: None,
    })
}

fn whole(count: i64) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

/// "about 8": the pieces in a weight, where one piece's weight is known.
fn about(food: &Food, amount: &Quantity) -> Option<String> {
    if amount.dimension() != Dimension::Mass {
        return None;
    }
    let grams = match &food.each.as_ref()?.value {
        Measured::Single(grams) => *grams,
        Measured::Table(table) => *table.get("medium")?,
    };
    let pieces = (amount.base() / grams).round();
    (grams > 0.0 && (1.0..1e6).contains(&pieces)).then(|| format!("about {pieces}"))
}

fn is_fresh(food: &Food) -> bool {
    let days = [Place::Cupboard, Place::Fridge].into_iter().filter_map(|place| food.keeps.at(place)).map(|days| days.0).max();
    days.is_some_and(|days| days < FRESH_DAYS)
}

/// "one for Sunday, one for Friday"; with several sizes "one 400 g for Sunday".
fn windows_text(stocked: &Stocked, windows: &[Window], bought: &Bought) -> String {
    let several_sizes = bought.whole.counts.iter().filter(|count| **count > 0).count() > 1;
    let packs = |counts: &[i64]| -> Vec<String> {
        let taken = counts.iter().zip(&stocked.sized).filter(|(count, _)| **count > 0);
        taken.map(|(count, pack)| if several_sizes { format!("{} {}", number(*count), label(pack)) } else { number(*count) }).collect()
    };
    let mut said: Vec<String> = Vec::new();
    let mut over = bought.whole.counts.clone();
    for (window, counts) in windows.iter().zip(&bought.windows) {
        said.push(format!("{} for {}", packs(counts).join(" and "), occasion(window.what, windows)));
        for (over, count) in over.iter_mut().zip(counts) {
            *over -= count;
        }
    }
    if over.iter().any(|count| *count > 0) {
        said.push(format!("{} over", packs(&over).join(" and ")));
    }
    said.join(", ")
}

fn label(pack: &Pack) -> &str {
    match &pack.kind {
        PackKind::Sized { label, .. } => label,
        PackKind::Loose { .. } => "loose",
    }
}

/// The weekday, with its date where two windows begin on the same weekday.
fn occasion(what: WindowFor, windows: &[Window]) -> String {
    let day = |what: WindowFor| match what {
        WindowFor::Day(on) | WindowFor::Taste(on) => Some(on),
        WindowFor::Shelf => None,
    };
    let Some(on) = day(what) else { return "the shelf".to_owned() };
    let clash = |other: Date| other != on && other.weekday() == on.weekday();
    let form = if windows.iter().filter_map(|window| day(window.what)).any(clash) { "%A %-d %b" } else { "%A" };
    on.strftime(form).to_string()
}

fn number(count: i64) -> String {
    const WORDS: [&str; 12] = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    usize::try_from(count - 1).ok().and_then(|index| WORDS.get(index)).map_or_else(|| count.to_string(), |word| (*word).to_owned())
}
