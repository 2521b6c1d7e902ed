//! Tins of the sizes that lines state: which of them a pack counts as.
//!
//! A pack within a tenth of a size that a line states counts as that size. Near several it counts as the nearest (400 g here, 800 g there) but
//! where one pack that is sold is near them all: "1 tin (410 g)" and "1 tin (390 g)" are two tins of 400 g. Such sizes are taken as their
//! mean, so that their sum stays what it is.

use itertools::Itertools;

use crate::measure::Number;
use crate::shelf::is_near_a_tin;

/// The sizes that the lines of a need state, in its base units; none where a line states none.
#[derive(Debug, Clone, Default)]
pub(super) struct Tins {
    /// Each once, smallest first.
    sizes: Vec<Number>,
    /// Sizes that are taken as one, no size twice.
    alike: Vec<Alike>,
}

#[derive(Debug, Clone)]
struct Alike {
    sizes: Vec<Number>,
    mean: Number,
}

impl Tins {
    /// `lines` are amounts, each with the size of its tins; `packs` what single packs hold that are sold.
    pub fn of(lines: &[(&Number, Number)], packs: &[Number]) -> Tins {
        let sizes: Vec<Number> = lines.iter().map(|(_, size)| size.clone()).sorted().dedup().collect();
        let near = |pack: &Number| sizes.iter().filter(|size| is_near_a_tin(pack, size)).cloned().collect::<Vec<Number>>();
        let several = packs.iter().map(near).filter(|near| near.len() > 1);
        // The most sizes first; of as many, the smallest.
        let several = several.sorted_by(|a, b| b.len().cmp(&a.len()).then_with(|| a.cmp(b)));
        let mut alike: Vec<Alike> = Vec::new();
        for sizes in several {
            if sizes.iter().all(|size| !alike.iter().any(|one| one.sizes.contains(size))) {
                alike.push(Alike { mean: mean(lines, &sizes), sizes });
            }
        }
        Tins { sizes, alike }
    }

    /// A line's amount in tins of that size, in the tins that are bought for it.
    pub fn asked(&self, amount: &Number, size: &Number) -> Number {
        match self.alike.iter().find(|one| one.sizes.contains(size)) {
            Some(alike) => amount * &(&alike.mean / size),
            None => amount.clone(),
        }
    }

    /// The size that a pack counts as; `None` where it is near none.
    pub fn counts_as(&self, pack: &Number) -> Option<Number> {
        let off = |size: &Number| (pack - size).abs();
        let near = |size: &&Number| is_near_a_tin(pack, size);
        let nearest = self.sizes.iter().filter(near).min_by(|a, b| off(a).cmp(&off(b)).then(a.cmp(b)))?;
        match self.alike.iter().find(|one| one.sizes.contains(nearest)) {
            Some(alike) if alike.sizes.iter().all(|size| is_near_a_tin(pack, size)) => Some(alike.mean.clone()),
            // It will do for some of them.
            Some(alike) => Some(pack.clone().min(alike.mean.clone())),
            None => Some(nearest.clone()),
        }
    }
}

/// Of so many tins, what one holds.
fn mean(lines: &[(&Number, Number)], sizes: &[Number]) -> Number {
    let of_them = || lines.iter().filter(|(_, size)| sizes.contains(size));
    let amount: Number = of_them().map(|(amount, _)| *amount).sum();
    let tins: Number = of_them().map(|(amount, size)| *amount / size).sum();
    if tins.is_positive() { amount / tins } else { sizes[0].clone() }
}
