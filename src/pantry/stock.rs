//! What is on the shelf: by place, oldest first, with what it is worth. Amounts are as they lie there; nothing is planned.

use itertools::Itertools;
use jiff::ToSpan;
use jiff::civil::Date;

use crate::foods::{Foods, Place};
use crate::kitchen::{Kitchen, Lot, Recipe, Ware, Whose};
use crate::measure::{Money, Quantity};
use crate::shelf::{Prices, lot_dates, worth};

/// Days within which what goes off is pointed out.
const SOON_DAYS: i64 = 7;

#[derive(Debug, Clone, PartialEq)]
pub struct Stock {
    /// Cupboard, fridge, freezer, empty ones too.
    pub places: Vec<StockPlace>,
    pub value: Money,
}

#[derive(Debug, Clone, PartialEq)]
pub struct StockPlace {
    pub place: Place,
    /// The earliest date first; lots without a date last, in file order.
    pub lots: Vec<StockLot>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct StockLot {
    pub of: Ware,
    /// Of what was cooked, whose it is alone.
    pub whose: Option<Whose>,
    pub amount: Quantity,
    /// The size of one of the closed packs that it lies in.
    pub pack: Option<Quantity>,
    /// The earliest of its dates.
    pub until: Option<Date>,
    /// Does `until` come from what is known of its keeping, and not from a date on the pack?
    pub estimate: bool,
    /// The last day on which it may be eaten, where there is one: later a best before in cupboard or freezer is looked at, not thrown away.
    pub last_day: Option<Date>,
    /// `None` where no price is known.
    pub value: Option<Money>,
}

/// The whole shelf. A lot is worth what was paid for it, else what the cheapest known price says.
pub fn stock(kitchen: &Kitchen) -> Stock {
    let prices = Prices::new(kitchen);
    let mut value = Money::ZERO;
    let places = [Place::Cupboard, Place::Fridge, Place::Freezer].map(|place| {
        let here = kitchen.lots.iter().enumerate().filter(|(_, lot)| lot.place == place);
        let lots = here.sorted_by_key(|(index, lot)| {
            let until = lot_dates(&kitchen.foods, &kitchen.recipes, lot).earliest;
            (until.is_none(), until, *index)
        });
        let lots = lots.map(|(_, lot)| {
            let lot_value = prices.of_lot(lot).map(|rate| worth(&lot.amount, rate));
            value += lot_value.unwrap_or_default();
            stock_lot(&kitchen.foods, &kitchen.recipes, lot, lot_value)
        });
        StockPlace { place, lots: lots.collect() }
    });
    Stock { places: places.into(), value }
}

fn stock_lot(foods: &Foods, recipes: &[Recipe], lot: &Lot, value: Option<Money>) -> StockLot {
    let dates = lot_dates(foods, recipes, lot);
    let (until, last_day) = (dates.earliest, dates.last_draw);
    let on_the_pack = [lot.use_by, lot.best_before].into_iter().flatten().min();
    let (amount, pack) = (lot.amount.clone(), lot.pack.clone());
    StockLot {
        of: lot.of,
        whose: lot.whose.clone(),
        amount,
        pack,
        until,
        estimate: until.is_some() && until != on_the_pack,
        last_day,
        value,
    }
}

impl StockLot {
    /// May it not be eaten any more?
    pub fn is_past(&self, today: Date) -> bool {
        self.last_day.is_some_and(|last| last < today)
    }
}

/// What goes off within seven days of `today`, the day itself and what is past included; the earliest first.
pub fn goes_off(stock: &Stock, today: Date) -> Vec<(Place, &StockLot)> {
    let last = today.saturating_add(SOON_DAYS.days());
    let lots = stock.places.iter().flat_map(|place| place.lots.iter().map(|lot| (place.place, lot)));
    lots.filter(|(_, lot)| lot.until.is_some_and(|until| until <= last)).sorted_by_key(|(_, lot)| lot.until).collect()
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::foods::{Fact, Food, FoodId, Keeping};
    use crate::kitchen::fixture::{date, empty_kitchen, lot, recipe, spot};
    use crate::kitchen::{Offer, Pack, RecipeId, ShopId};
    use crate::measure::{Days, UnitPrice};

    fn pack(kind: PackKindOf) -> Pack {
        let kind = match kind {
            PackKindOf::Sized(grams, price, offer) => crate::kitchen::PackKind::Sized {
                size: Quantity::grams(grams),
                single: Quantity::grams(grams),
                label: String::new(),
                drained: None,
                price: Some(Money(price)),
                offer: offer.map(|(buy, pay)| Offer { buy, pay: Money(pay) }),
            },
            PackKindOf::PerKilogram(minor) => crate::kitchen::PackKind::Loose {
                price: Some(UnitPrice { minor_e4: minor * 10_000, per: Quantity::grams(1000.0) }),
                step: Quantity::grams(1.0),
            },
        };
        Pack { shop: ShopId(0), food: FoodId(0), kind, section: None, seen: None, at: spot(1) }
    }

    enum PackKindOf {
        Sized(f64, i64, Option<(u32, i64)>),
        PerKilogram(i64),
    }

    /// Feta that keeps ten days in the fridge and five once opened, and a mash that keeps three.
    fn kitchen() -> Kitchen {
        let mut kitchen = empty_kitchen();
        let days = |days| Some(Fact { value: Days(days), source: "FSIS".to_owned() });
        let keeps = Keeping { fridge: days(10), opened: days(5), ..Keeping::default() };
        kitchen.foods = [Food { name: "feta".to_owned(), keeps, ..Food::default() }].into_iter().collect();
        let mut mash = recipe("mash");
        mash.fridge = Some(Days(3));
        kitchen.recipes.push(mash);
        kitchen
    }

    fn feta(grams: f64) -> Lot {
        lot(Ware::Food(FoodId(0)), Quantity::grams(grams), Place::Fridge)
    }

    fn fridge(kitchen: &Kitchen) -> Vec<StockLot> {
        stock(kitchen).places[1].lots.clone()
    }

    #[test]
    fn the_oldest_lot_comes_first_and_the_undated_last() {
        let mut kitchen = kitchen();
        let dated = |grams, until: &str| Lot { use_by: Some(date(until)), ..feta(grams) };
        kitchen.lots = vec![feta(1.0), dated(2.0, "2026-12-09"), dated(3.0, "2026-12-01")];
        assert_eq!(fridge(&kitchen).iter().map(|lot| lot.amount.base()).collect::<Vec<_>>(), [3.0, 2.0, 1.0]);
    }

    #[test]
    fn a_date_on_the_pack_is_no_estimate_and_a_keeping_is() {
        let mut kitchen = kitchen();
        let use_by = Some(date("2026-12-20"));
        kitchen.lots = vec![
            Lot { since: Some(date("2026-11-20")), ..feta(1.0) }, // 20 November and ten days
            Lot { use_by, opened: Some(date("2026-11-27")), ..feta(2.0) }, // opened and five days come before the use-by
            Lot { made: Some(date("2026-11-30")), ..lot(Ware::Recipe(RecipeId(0)), Quantity::portions(2.0), Place::Fridge) },
            Lot { use_by, ..feta(3.0) },
            feta(4.0),
        ];
        let until: Vec<_> = fridge(&kitchen).iter().map(|lot| (lot.until.map(|day| day.to_string()), lot.estimate)).collect();
        let some = |text: &str| Some(text.to_owned());
        assert_eq!(
            until,
            [
                (some("2026-11-30"), true),
                (some("2026-12-02"), true),
                (some("2026-12-03"), true),
                (some("2026-12-20"), false),
                (None, false)
            ]
        );
    }

    #[test]
    fn a_lot_is_worth_its_weight_at_the_cheapest_known_price() {
        // 200 g for 2.40 is 1.20 a 100 g; three of them for 6.00 is 1.00; loose at 11.00 a kilogram is 1.10.
        let mut kitchen = kitchen();
        kitchen.packs = vec![pack(PackKindOf::Sized(200.0, 240, None)), pack(PackKindOf::PerKilogram(1100))];
        kitchen.lots = vec![feta(150.0)];
        assert_eq!(fridge(&kitchen)[0].value, Some(Money(165)), "150 g at 1.10");
        kitchen.packs.push(pack(PackKindOf::Sized(200.0, 240, Some((3, 600)))));
        assert_eq!(fridge(&kitchen)[0].value, Some(Money(150)), "150 g at 1.00");
    }

    #[test]
    fn half_a_cent_is_rounded_up_and_the_total_is_the_sum_of_what_is_printed() {
        // 15 g at 0.70 for 100 g are 10.5 cents.
        let mut kitchen = kitchen();
        kitchen.packs = vec![pack(PackKindOf::Sized(100.0, 70, None))];
        kitchen.lots = vec![feta(15.0), feta(15.0)];
        let stock = stock(&kitchen);
        assert_eq!(stock.places[1].lots[0].value, Some(Money(11)));
        assert_eq!(stock.value, Money(22));
    }

    #[test]
    fn what_was_paid_goes_before_any_price() {
        let mut kitchen = kitchen();
        kitchen.packs = vec![pack(PackKindOf::Sized(100.0, 70, None))];
        let paid = Some(UnitPrice { minor_e4: 300 * 10_000, per: Quantity::grams(200.0) });
        kitchen.lots = vec![Lot { paid, ..feta(100.0) }, feta(100.0)];
        let values: Vec<_> = fridge(&kitchen).into_iter().map(|lot| lot.value).collect();
        assert_eq!(values, [Some(Money(150)), Some(Money(70))]);
    }

    #[test]
    fn without_a_price_there_is_no_value() {
        let mut kitchen = kitchen();
        kitchen.lots = vec![feta(100.0)];
        let stock = stock(&kitchen);
        assert_eq!((stock.places[1].lots[0].value, stock.value), (None, Money::ZERO));
    }

    #[test]
    fn what_goes_off_on_the_seventh_day_is_pointed_out_and_on_the_eighth_not_yet() {
        let mut kitchen = kitchen();
        let dated = |until: &str| Lot { use_by: Some(date(until)), ..feta(1.0) };
        kitchen.lots = vec![dated("2026-12-05"), dated("2026-12-06"), dated("2026-11-20")];
        let stock = stock(&kitchen);
        let soon: Vec<_> = goes_off(&stock, date("2026-11-28")).into_iter().filter_map(|(_, lot)| lot.until).collect();
        assert_eq!(soon, [date("2026-11-20"), date("2026-12-05")]);
    }
}
