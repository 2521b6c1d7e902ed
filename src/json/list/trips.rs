//! What each trip of the list buys: shops, sections, lines and packs. A print is read back by the same shapes, so they own what they hold.

use std::borrow::Cow;

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::super::shape::OnDate;
use crate::kitchen::{self, Names};
use crate::measure::Quantity;
use crate::purchase::{self, ListLine, PackLine, Packed, ShopVisit, TripList};
use crate::telling::list as words;

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
pub(in crate::json) struct Trip<'a> {
    #[schemars(with = "OnDate")]
    pub(in crate::json) on: Date,
    #[serde(default = "yes")]
    pub(in crate::json) planned: bool,
    /// Of the second trip of its own on one day and the next ones: which it is, counted from 1.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub(in crate::json) number: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub(in crate::json) state: Option<Cow<'a, str>>,
    pub(in crate::json) cost: String,
    pub(in crate::json) shops: Vec<Visit<'a>>,
    /// Of a booked trip: foods that its print had, and that were not booked as bought.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub(in crate::json) not_booked: Vec<Cow<'a, str>>,
}

pub(in crate::json) fn yes() -> bool {
    true
}

impl<'a> Trip<'a> {
    pub(in crate::json) fn of(trip: &'a TripList, names: Names<'a>) -> Trip<'a> {
        let shops = trip.shops.iter().map(|visit| Visit::of(visit, names)).collect();
        let state = trip.state.map(|state| Cow::Borrowed(state.words()));
        let not_booked = trip.not_booked.iter().map(|food| Cow::Borrowed(names.food(*food))).collect();
        let number = trip.nth.checked_sub(kitchen::Trip::OWN).filter(|nth| *nth > 0).map(|nth| nth + 1);
        Trip { on: trip.on, planned: trip.planned, number, state, cost: names.money(trip.cost), shops, not_booked }
    }

    /// The same, with each line that says of its food what `told` says of it word for word as there.
    pub(in crate::json) fn in_the_words_of(mut self, told: Trip<'a>) -> Trip<'a> {
        let mut told: Vec<Line<'a>> = told.shops.into_iter().flat_map(|visit| visit.sections).flat_map(|section| section.lines).collect();
        for line in self.shops.iter_mut().flat_map(|visit| &mut visit.sections).flat_map(|section| &mut section.lines) {
            if let Some(place) = told.iter().position(|told| told.buys_as(line)) {
                *line = told.remove(place);
            }
        }
        self
    }
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
pub(in crate::json) struct Visit<'a> {
    shop: Option<Cow<'a, str>>,
    trip_cost: Option<String>,
    cost: Option<String>,
    sections: Vec<Section<'a>>,
}

impl<'a> Visit<'a> {
    fn of(visit: &'a ShopVisit, names: Names<'a>) -> Visit<'a> {
        let section = |section: &'a purchase::Section| Section {
            section: Cow::Borrowed(section.section.as_str()),
            lines: section.lines.iter().map(|line| Line::of(line, names)).collect(),
        };
        Visit {
            shop: visit.at.map(|stop| Cow::Borrowed(names.shop(stop.shop))),
            trip_cost: visit.at.map(|stop| names.money(stop.fare)),
            cost: visit.at.map(|stop| names.money(stop.cost)),
            sections: visit.sections.iter().map(section).collect(),
        }
    }
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Section<'a> {
    section: Cow<'a, str>,
    lines: Vec<Line<'a>>,
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Line<'a> {
    food: Cow<'a, str>,
    need: Cow<'a, Quantity>,
    packs: Vec<Pack<'a>>,
    cost: Option<String>,
    left: Cow<'a, Quantity>,
    #[schemars(with = "Option<OnDate>")]
    left_until: Option<Date>,
    short: Cow<'a, Quantity>,
    #[schemars(with = "Option<OnDate>")]
    last_used: Option<Date>,
    #[serde(rename = "for")]
    what_for: Vec<Cow<'a, str>>,
    /// Where every use of it is.
    #[serde(skip_serializing_if = "std::ops::Not::not", default)]
    optional: bool,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    without: Option<Without<'a>>,
    /// Which packs are opened when, where several sizes are opened more than once; what is bought over stands last, on no day.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    opened: Vec<Opened<'a>>,
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Opened<'a> {
    /// The first use; null: for the shelf.
    #[schemars(with = "Option<OnDate>")]
    on: Option<Date>,
    packs: Vec<Count<'a>>,
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Count<'a> {
    size: Cow<'a, str>,
    count: u32,
}

impl<'a> Opened<'a> {
    fn of(windows: &'a purchase::Windows) -> Vec<Opened<'a>> {
        let count = |pack: &'a purchase::PackCount| Count { size: Cow::Borrowed(&pack.label), count: pack.count };
        let opened = |on, packs: &'a [purchase::PackCount]| Opened { on, packs: packs.iter().map(count).collect() };
        let over = Some(&windows.over).filter(|over| !over.is_empty());
        windows.openings.iter().map(|opening| opened(opening.on, &opening.packs)).chain(over.map(|over| opened(None, over))).collect()
    }
}

/// The offer to do without the last of a line.
#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Without<'a> {
    short: Cow<'a, Quantity>,
    share: f64,
    saves: String,
}

impl<'a> Without<'a> {
    fn of(without: &'a purchase::Without, names: Names<'a>) -> Without<'a> {
        Without { short: Cow::Borrowed(&without.short), share: without.share, saves: names.money(without.saves) }
    }
}

impl<'a> Line<'a> {
    /// The same packs of the same food for the same money; the money of each pack may be told otherwise.
    fn buys_as(&self, other: &Line) -> bool {
        let packs =
            |line: &Line| line.packs.iter().map(Pack::what).collect::<Vec<_>>() == other.packs.iter().map(Pack::what).collect::<Vec<_>>();
        self.food == other.food && self.cost == other.cost && packs(self)
    }

    fn of(line: &'a ListLine, names: Names<'a>) -> Line<'a> {
        Line {
            food: Cow::Borrowed(names.food(line.food)),
            need: Cow::Borrowed(&line.need),
            packs: line.packs.iter().map(|pack| Pack::of(pack, names)).collect(),
            cost: line.cost.map(|cost| names.money(cost)),
            left: Cow::Borrowed(&line.left),
            left_until: line.left_until,
            short: Cow::Borrowed(&line.short),
            last_used: line.last_used,
            what_for: words::purposes(line).into_iter().map(Cow::Borrowed).collect(),
            optional: line.optional,
            without: line.without.as_ref().map(|without| Without::of(without, names)),
            opened: line.windows.as_ref().filter(|windows| windows.several).map(Opened::of).unwrap_or_default(),
        }
    }
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Pack<'a> {
    /// As typed, or [`LOOSE`].
    size: Cow<'a, str>,
    count: u32,
    /// Times the offer was used.
    offer: Option<u32>,
    cost: String,
    /// Loose goods only.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    amount: Option<Cow<'a, Quantity>>,
}

/// The size of what is weighed out.
pub(in crate::json) const LOOSE: &str = "loose";

impl<'a> Pack<'a> {
    fn what(&self) -> (&str, u32, Option<&Quantity>) {
        (&self.size, self.count, self.amount.as_deref())
    }

    fn of(pack: &'a PackLine, names: Names<'a>) -> Pack<'a> {
        let (size, count, amount) = match &pack.what {
            Packed::Packs { count, label, .. } => (label.as_str(), *count, None),
            Packed::Loose(amount) => (LOOSE, 1, Some(Cow::Borrowed(amount))),
        };
        Pack { size: Cow::Borrowed(size), count, offer: pack.offer.map(|taken| taken.times), cost: names.money(pack.cost), amount }
    }
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::foods::{Food, FoodId};
    use crate::kitchen::Kitchen;
    use crate::kitchen::fixture::empty_kitchen;
    use crate::measure::Money;

    /// One food, onion.
    fn kitchen() -> Kitchen {
        let mut kitchen = empty_kitchen();
        kitchen.foods = [Food { name: "onion".to_owned(), ..Food::default() }].into_iter().collect();
        kitchen
    }

    fn onions() -> ListLine {
        let size = Quantity::grams(1000.0);
        let what = Packed::Packs { count: 1, single: size.clone(), size, label: "1000 g".to_owned() };
        ListLine {
            food: FoodId(0),
            need: Quantity::grams(830.0),
            packs: vec![PackLine { what, offer: None, cost: Money(129) }],
            cost: Some(Money(129)),
            left: Quantity::grams(170.0),
            left_until: None,
            short: Quantity::grams(0.0),
            demand: Quantity::grams(830.0),
            last_used: Some(date(2026, 12, 2)),
            what_for: vec!["White-bean mash".to_owned()],
            top_up: false,
            asked: None,
            about: None,
            fresh: false,
            own_words: Vec::new(),
            windows: None,
            optional: false,
            instead: Vec::new(),
            without: None,
            beware: None,
        }
    }

    #[test]
    fn the_line_reads_as_the_contract_shows_it() {
        let kitchen = kitchen();
        let json = serde_json::to_string(&Line::of(&onions(), kitchen.names())).expect("JSON");
        assert_eq!(
            json,
            r#"{"food":"onion","need":{"amount":830.0,"unit":"g"},"packs":[{"size":"1000 g","count":1,"offer":null,"cost":"1.29"}],"#
                .to_owned()
                + r#""cost":"1.29","left":{"amount":170.0,"unit":"g"},"left_until":null,"short":{"amount":0.0,"unit":"g"},"last_used":"2026-12-02","for":["White-bean mash"]}"#
        );
    }

    #[test]
    fn an_optional_line_and_an_offer_to_do_without_say_so() {
        let kitchen = kitchen();
        let without = purchase::Without { short: Quantity::grams(3.5), share: 0.04, saves: Money(165) };
        let line = ListLine { optional: true, without: Some(without), ..onions() };
        let json = serde_json::to_string(&Line::of(&line, kitchen.names())).expect("JSON");
        let end = r#""optional":true,"without":{"short":{"amount":3.5,"unit":"g"},"share":0.04,"saves":"1.65"}}"#;
        assert!(json.ends_with(end), "{json}");
    }

    #[test]
    fn a_line_that_fills_up_the_shelf_is_for_staple_once() {
        let kitchen = kitchen();
        let both = ListLine { top_up: true, ..onions() };
        let named_alike = ListLine { what_for: vec!["staple".to_owned()], ..both.clone() };
        assert_eq!(Line::of(&both, kitchen.names()).what_for, ["White-bean mash", "staple"]);
        assert_eq!(Line::of(&named_alike, kitchen.names()).what_for, ["staple"]);
    }
}
