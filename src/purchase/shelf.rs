//! What one shop sells of one food, brought into the measure of a need. Of two loose prices in one shop, one is bought.

use super::ask::Ask;
use super::cover::Loose;
use super::windows::{Shelf, Sized};
use crate::foods::convert;
use crate::kitchen::{Pack, PackKind, Warning};
use crate::measure::{Dimension, Number, Quantity, UnitPrice};

/// A shelf, with the packs it was made of.
#[derive(Debug, Clone, Default)]
pub(super) struct Stocked<'a> {
    pub shelf: Shelf,
    /// In the order of [`Shelf::sized`].
    pub sized: Vec<&'a Pack>,
    pub loose: Option<&'a Pack>,
}

impl Stocked<'_> {
    pub fn is_empty(&self) -> bool {
        self.sized.is_empty() && self.loose.is_none()
    }
}

/// The priced packs that can be compared with the need, larger ones first, then in file order. A shop that sells the food loose at
/// several prices or steps has one shelf for each, as one of them is bought.
pub(super) fn stock<'a>(ask: &Ask, packs: impl Iterator<Item = &'a Pack>, unlike: &mut Vec<Unlike<'a>>) -> Vec<Stocked<'a>> {
    let mut sized: Vec<(Number, Sized, &Pack)> = Vec::new();
    let mut loosely: Vec<(Loose, &Pack)> = Vec::new();
    let mut stocked = Stocked::default();
    for pack in packs.filter(|pack| is_priced(pack)) {
        let found = match &pack.kind {
            PackKind::Sized { size, single, drained, price, offer, .. } => {
                counts_as(ask, (size, single), *drained).map(|(plain, units)| {
                    let price = price.map_or(0, |price| price.0);
                    let offer = offer.map(|offer| (i64::from(offer.buy), offer.pay.0));
                    sized.push((plain, Sized { size: units.max(1), singles: pack.singles(), price, offer }, pack));
                })
            }
            PackKind::Loose { price, step } => loose_of(ask, price.as_ref(), step).map(|loose| loosely.push((loose, pack))),
        };
        if let Err(why) = found {
            unlike.push(Unlike { pack, why });
        }
    }
    sized.sort_by(|a, b| b.0.cmp(&a.0));
    stocked.shelf.sized = sized.iter().map(|(_, sized, _)| *sized).collect();
    stocked.sized = sized.iter().map(|(_, _, pack)| *pack).collect();
    if loosely.is_empty() {
        return if stocked.is_empty() { Vec::new() } else { vec![stocked] };
    }
    let with_loose = |(loose, pack)| Stocked {
        shelf: Shelf { sized: stocked.shelf.sized.clone(), loose: Some(loose) },
        sized: stocked.sized.clone(),
        loose: Some(pack),
    };
    loosely.into_iter().map(with_loose).collect()
}

/// The priced packs of a need that none of them can be compared with, each of whose closed packs is as large as one of the `count` that are asked for. Nobody can
/// say how much of loose goods that would be.
pub(super) fn stock_by_the_pack<'a>(ask: &Ask, packs: impl Iterator<Item = &'a Pack>, count: i64) -> Option<Stocked<'a>> {
    let one = (ask.units(&ask.total).max(1) + count - 1) / count;
    let mut stocked = Stocked::default();
    for pack in packs {
        if let PackKind::Sized { price: Some(price), offer, .. } = &pack.kind {
            let offer = offer.map(|offer| (i64::from(offer.buy), offer.pay.0));
            let singles = pack.singles();
            stocked.shelf.sized.push(Sized { size: one.saturating_mul(singles), singles, price: price.0, offer });
            stocked.sized.push(pack);
        }
    }
    (!stocked.is_empty()).then_some(stocked)
}

pub(super) fn is_priced(pack: &Pack) -> bool {
    match &pack.kind {
        PackKind::Sized { price, .. } => price.is_some(),
        PackKind::Loose { price, .. } => price.is_some(),
    }
}

pub(super) struct NotComparable {
    what: String,
    key: Option<String>,
}

/// A pack that cannot be compared with a need, and why.
pub(super) struct Unlike<'a> {
    pack: &'a Pack,
    why: NotComparable,
}

impl Unlike<'_> {
    /// `then` is what is done about it: "so it is not bought".
    pub fn warning(&self, ask: &Ask, then: &str) -> Warning {
        let Unlike { pack, why } = self;
        let size = match &pack.kind {
            PackKind::Sized { label, .. } => format!("the pack \"{label}\" of {}", ask.food.name),
            PackKind::Loose { .. } => format!("loose {}", ask.food.name),
        };
        let unit = ask.need.dimension.symbol();
        let mend = why.key.as_ref().map_or(String::new(), |key| format!(" Add {key} under {} in foods.toml.", ask.food.name));
        Warning::Note {
            at: Some(pack.at.clone()),
            text: format!("{size} cannot be compared with a need in {unit}, {then}: {}.{mend}", why.what),
        }
    }
}

fn in_measure(ask: &Ask, amount: &Quantity, dimension: &Dimension) -> Result<Number, NotComparable> {
    let base = if amount.dimension() == *dimension {
        amount.exact().clone()
    } else {
        convert(ask.food, amount, dimension)
            .map_err(|missing| NotComparable { what: missing.what, key: Some(missing.key) })?
            .exact()
            .clone()
    };
    if base > 0 { Ok(base) } else { Err(NotComparable { what: "it holds nothing".into(), key: None }) }
}

/// A pack's own size in base units, and what it counts as in the unit of comparison. `single` is what each closed pack in it holds.
fn counts_as(ask: &Ask, (size, single): (&Quantity, &Quantity), drained: Option<f64>) -> Result<(Number, i64), NotComparable> {
    if let (Some(_), Some(grams)) = (&ask.drained, drained) {
        let grams = Number::from(grams);
        let units = ask.plain_units(&grams);
        return Ok((if size.dimension() == Dimension::Mass { size.exact().clone() } else { grams }, units));
    }
    let plain = in_measure(ask, size, &ask.need.dimension)?;
    let each = in_measure(ask, single, &ask.need.dimension)?;
    let units = match ask.tins.counts_as(&each) {
        Some(tin) => ask.units_each(&tin, &(&plain / &each)),
        None => in_proportion(ask, size)?,
    };
    Ok((plain, units))
}

/// Two packs of half a litre count as one of a litre to the last unit, whatever a litre weighs: else noise would decide between plans
/// that leave the same.
fn in_proportion(ask: &Ask, amount: &Quantity) -> Result<i64, NotComparable> {
    let one = in_measure(ask, &Quantity::of(&amount.dimension(), 1), &ask.need.dimension)?;
    Ok(ask.units_each(&one, amount.exact()))
}

fn loose_of(ask: &Ask, price: Option<&UnitPrice>, step: &Quantity) -> Result<Loose, NotComparable> {
    let units = in_proportion(ask, step)?.max(1);
    let Some(price) = price else { return Err(NotComparable { what: "it has no price".into(), key: None }) };
    let priced_step = in_measure(ask, step, &price.per.dimension())?;
    let fine = |base: &Number| (base * 1_000_000).round().to_i64().unwrap_or(i64::MAX).max(1);
    Ok(Loose { step: units, minor_e4: price.minor_e4, priced_step: fine(&priced_step), per: fine(price.per.exact()) })
}
