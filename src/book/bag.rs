//! Bags of lots that remember the order in which they came: of lots as records, and of lots as the lines of the book have them.

use std::collections::{BTreeMap, VecDeque};

use serde_json::value::RawValue;

use super::chain::{Broken, unreadable};
use super::record::LotRecord;

/// A bag of lots that remembers the order in which they came.
#[derive(Debug, Clone, Default)]
pub(super) struct Sum {
    /// The numbers of equal lots, the earliest first.
    lots: BTreeMap<LotRecord, VecDeque<u64>>,
    next: u64,
}

impl Sum {
    /// What takes the place of another lot takes its turn, too.
    pub fn change(&mut self, from: Option<LotRecord>, to: Option<LotRecord>) {
        let turn = from.and_then(|from| self.take(&from));
        let Some(to) = to else { return };
        let turn = turn.unwrap_or_else(|| {
            self.next += 1;
            self.next
        });
        let turns = self.lots.entry(to).or_default();
        let at = turns.partition_point(|earlier| *earlier < turn);
        turns.insert(at, turn);
    }

    fn take(&mut self, lot: &LotRecord) -> Option<u64> {
        let turns = self.lots.get_mut(lot)?;
        let first = turns.pop_front();
        if turns.is_empty() {
            self.lots.remove(lot);
        }
        first
    }

    pub fn lots(&self) -> Vec<LotRecord> {
        let mut lots: Vec<(u64, &LotRecord)> =
            self.lots.iter().flat_map(|(lot, turns)| turns.iter().map(move |turn| (*turn, lot))).collect();
        lots.sort_by_key(|(turn, _)| *turn);
        lots.into_iter().map(|(_, lot)| lot.clone()).collect()
    }
}

/// As [`Sum`], of lots as their lines have them: a book writes equal lots alike, and only those that are left at its end are read.
#[derive(Default)]
pub(super) struct AsWritten {
    /// Of equal lots their turns, the earliest first, each with the line that wrote it.
    lots: BTreeMap<Box<str>, VecDeque<(u64, u64)>>,
    next: u64,
}

impl AsWritten {
    pub fn change(&mut self, from: Option<&RawValue>, to: Option<&RawValue>, line: u64) {
        let turn = from.and_then(|from| self.take(from));
        let Some(to) = to else { return };
        let turn = turn.unwrap_or_else(|| {
            self.next += 1;
            self.next
        });
        match self.lots.get_mut(to.get()) {
            Some(turns) => turns.insert(turns.partition_point(|(earlier, _)| *earlier < turn), (turn, line)),
            None => drop(self.lots.insert(to.get().into(), VecDeque::from([(turn, line)]))),
        }
    }

    fn take(&mut self, lot: &RawValue) -> Option<u64> {
        let written = lot.get();
        if let Some(turns) = self.lots.get_mut(written) {
            let first = turns.pop_front();
            if turns.is_empty() {
                self.lots.remove(written);
            }
            return first.map(|(turn, _)| turn);
        }
        // Another edition may have written it otherwise.
        let wanted: LotRecord = serde_json::from_str(written).ok()?;
        let is_it = |other: &str| serde_json::from_str::<LotRecord>(other).is_ok_and(|other| other == wanted);
        let same = self.lots.iter().filter(|(other, _)| is_it(other)).min_by_key(|(_, turns)| turns.front().copied())?.0.clone();
        let turns = self.lots.get_mut(&same)?;
        let first = turns.pop_front();
        if turns.is_empty() {
            self.lots.remove(&same);
        }
        first.map(|(turn, _)| turn)
    }

    /// What is left at the end of the book.
    pub fn read(self) -> Result<Sum, Broken> {
        let mut sum = Sum { lots: BTreeMap::new(), next: self.next };
        for (written, turns) in self.lots {
            let lot: LotRecord = serde_json::from_str(&written).map_err(|error| {
                let line = turns.front().map_or(0, |(_, line)| *line);
                unreadable(line as usize, &error)
            })?;
            let known = sum.lots.entry(lot).or_default();
            known.extend(turns.iter().map(|(turn, _)| *turn));
            known.make_contiguous().sort_unstable();
        }
        Ok(sum)
    }
}
