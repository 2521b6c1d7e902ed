//! One line of the list, from what was chosen for one need.
//!
//! A line offers to do without the last of it where the household's own rule (`choose`) then takes packs that cost
//! less, at the shop where it is bought; packs that no need can be compared with offer nothing.

use super::ask::{Ask, Window, WindowFor, is_wanted};
use super::choose::AtShop;
use super::list_line::{ListLine, OfferTaken, Opening, PackCount, PackLine, Packed, Windows};
use super::paid::Stay;
use super::shelf::Stocked;
use super::windows::Bought;
use crate::foods::{Food, Kind, Measured, Place};
use crate::kitchen::asked::Asked;
use crate::kitchen::{Offer, Pack, PackKind};
use crate::measure::{Dimension, Money, Number, Quantity, tidy};
use crate::plan::Need;

/// Nobody counts more pieces than this: raspberries are told by their weight alone.
const MOST_COUNTED: f64 = 30.0;

/// The part of a need by which pieces of the size that is known may fall short: under a twentieth nobody notices, nor under a quarter of a piece of many.
const NOT_MISSED: f64 = 0.05;
const A_QUARTER: f64 = 0.25;

/// What keeps fewer days than this is bought fresh.
const FRESH_DAYS: i64 = 21;

/// The line of a need that is bought at a shop.
pub(super) fn bought(ask: &Ask, there: &AtShop, to: Place, stays: &[Stay]) -> ListLine {
    let AtShop { stocked, windows, bought, left, .. } = there;
    let mut line = plain(ask.need, ask.food, to, &ask.total);
    line.packs = pack_lines(stocked, bought);
    line.cost = Some(Money(bought.whole.price));
    line.left = Quantity::of(&ask.need.dimension, tidy(ask.base(*left)));
    line.short = Quantity::of(&ask.need.dimension, tidy(ask.base(bought.whole.short)));
    line.left_until = stays.iter().filter(|stay| !stay.top_up).filter_map(|stay| stay.until).min();
    line.windows = (windows.len() > 1 && stocked.loose.is_none()).then(|| opened(stocked, windows, bought));
    if let [PackLine { what: Packed::Loose(amount), .. }] = line.packs.as_slice() {
        line.about = pieces_about(ask.food, amount).or(line.about);
    }
    line
}

/// The line of a need of which all may stay unmet.
pub(super) fn unmet(ask: &Ask, to: Place) -> ListLine {
    let line = plain(ask.need, ask.food, to, &ask.total);
    ListLine { cost: Some(Money::ZERO), short: line.need.clone(), ..line }
}

/// The line of a need that nobody sells, or sells without a price, or that stands in its own words. It would be put away in `to`.
pub(super) fn plain(need: &Need, food: &Food, to: Place, total: &Number) -> ListLine {
    let wanted = || need.uses.iter().filter(|part| is_wanted(part));
    let mut what_for: Vec<String> = Vec::new();
    for part in wanted().filter(|part| !part.top_up) {
        if !what_for.contains(&part.what_for) {
            what_for.push(part.what_for.clone());
        }
    }
    let mut own_words: Vec<String> = Vec::new();
    for part in wanted().filter(|part| !part.line.is_empty() && (need.own_words || part.to_taste)) {
        if !own_words.contains(&part.line) {
            own_words.push(part.line.clone());
        }
    }
    let mut instead: Vec<String> = Vec::new();
    for other in wanted().filter_map(|part| part.instead.as_ref()) {
        if !instead.contains(other) {
            instead.push(other.clone());
        }
    }
    let asked = || {
        let all: Option<Vec<&Asked>> = wanted().filter(|part| !part.to_taste).map(|part| part.asked.as_ref()).collect();
        Some(Asked::sum(all?.into_iter())?.whole())
    };
    let amount = Quantity::of(&need.dimension, total);
    let none = Quantity::of(&need.dimension, 0);
    ListLine {
        food: need.food,
        about: pieces_about(food, &amount),
        asked: asked().filter(|_| need.dimension == Dimension::Mass && !need.own_words && food.kind != Some(Kind::Household)),
        need: amount,
        packs: Vec::new(),
        cost: None,
        left: none.clone(),
        left_until: None,
        short: none,
        demand: Quantity::of(&need.dimension, need.demand.clone()),
        last_used: wanted().filter(|part| !part.top_up).map(|part| part.on).max(),
        what_for,
        top_up: wanted().any(|part| part.top_up),
        fresh: is_fresh(food, to),
        own_words,
        windows: None,
        optional: wanted().all(|part| part.optional),
        instead,
        without: None,
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
fn pack_lines(stocked: &Stocked, bought: &Bought) -> Vec<PackLine> {
    struct SizeTotal<'a> {
        size: &'a Quantity,
        single: &'a Quantity,
        label: &'a str,
        count: i64,
        offers: i64,
        cost: i64,
        /// The first that was taken.
        offer: Option<Offer>,
    }
    let mut sizes: Vec<SizeTotal> = Vec::new();
    for ((sized, pack), &count) in stocked.shelf.sized.iter().zip(&stocked.sized).zip(&bought.whole.counts) {
        let PackKind::Sized { size, single, label, offer, .. } = &pack.kind else { continue };
        if count == 0 {
            continue;
        }
        let offers = sized.offers_in(count);
        let offer = offer.filter(|_| offers > 0);
        let cost = sized.price_of(count);
        match sizes.iter_mut().find(|there| (there.size, there.single) == (size, single)) {
            Some(there) => {
                there.count += count;
                there.offers += offers;
                there.cost += cost;
                there.offer = there.offer.or(offer);
            }
            None => sizes.push(SizeTotal { size, single, label, count, offers, cost, offer }),
        }
    }
    let sized = sizes.into_iter().map(|total| PackLine {
        what: Packed::Packs {
            count: whole(total.count),
            size: total.size.clone(),
            single: total.single.clone(),
            label: total.label.to_owned(),
        },
        offer: total.offer.map(|offer| OfferTaken { offer, times: whole(total.offers) }),
        cost: Money(total.cost),
    });
    sized.chain(loose_line(stocked, bought.whole.steps)).collect()
}

fn loose_line(stocked: &Stocked, steps: i64) -> Option<PackLine> {
    let (loose, pack) = (stocked.shelf.loose.as_ref()?, stocked.loose?);
    let PackKind::Loose { step, .. } = &pack.kind else { return None };
    let amount = Quantity::of(&step.dimension(), tidy(step.base() * steps as f64));
    (steps > 0).then(|| PackLine { what: Packed::Loose(amount), offer: None, cost: Money(loose.price(steps)) })
}

fn whole(count: i64) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

/// The pieces that it takes to have a weight, where one piece's weight is known.
pub fn pieces_about(food: &Food, amount: &Quantity) -> Option<u32> {
    // What nobody eats is counted anyway.
    if amount.dimension() != Dimension::Mass || food.kind == Some(Kind::Household) {
        return None;
    }
    let grams = match &food.each.as_ref()?.value {
        Measured::Single(grams) => *grams,
        Measured::Table(table) => *table.get("medium")?,
    };
    let pieces = amount.base() / grams;
    let enough = (pieces - (NOT_MISSED * pieces).min(A_QUARTER)).ceil();
    (grams > 0.0 && pieces >= 0.5 && enough <= MOST_COUNTED).then_some(enough as u32)
}

fn is_fresh(food: &Food, to: Place) -> bool {
    food.keeps.at(to).is_some_and(|days| days.0 < FRESH_DAYS)
}

/// The packs of each window, and what is bought beyond them.
fn opened(stocked: &Stocked, windows: &[Window], bought: &Bought) -> Windows {
    let packs = |counts: &[i64]| -> Vec<PackCount> {
        let taken = counts.iter().zip(&stocked.sized).filter(|(count, _)| **count > 0);
        taken.map(|(count, pack)| PackCount { count: whole(*count), label: label(pack).to_owned() }).collect()
    };
    let mut over = bought.whole.counts.clone();
    let mut openings = Vec::new();
    for (window, counts) in windows.iter().zip(&bought.windows) {
        let on = match window.what {
            WindowFor::Day(on) | WindowFor::Taste(on) => Some(on),
            WindowFor::Shelf => None,
        };
        openings.push(Opening { on, packs: packs(counts) });
        for (over, count) in over.iter_mut().zip(counts) {
            *over -= count;
        }
    }
    Windows { openings, over: packs(&over), several: bought.whole.counts.iter().filter(|count| **count > 0).count() > 1 }
}

fn label(pack: &Pack) -> &str {
    match &pack.kind {
        PackKind::Sized { label, .. } => label,
        PackKind::Loose { .. } => "loose",
    }
}
