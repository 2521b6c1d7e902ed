//! Least minutes from one job's start to another's, by way of the links between them.

use super::model::Model;

#[derive(Debug, Clone)]
pub(super) struct Lags {
    count: usize,
    least: Vec<Option<i64>>,
}

impl Lags {
    pub fn new(model: &Model) -> Lags {
        let count = model.count();
        let mut lags = Lags { count, least: vec![None; count * count] };
        let order = order(model);
        for first in 0..count {
            lags.least[first * count + first] = Some(0);
            for &job in &order {
                let Some(so_far) = lags.least(first, job) else { continue };
                for &arc in &model.from[job] {
                    let arc = &model.arcs[arc];
                    let place = first * count + arc.after;
                    lags.least[place] = lags.least[place].max(Some(so_far + arc.least));
                }
            }
        }
        lags
    }

    /// `None` where no chain of links leads from `first` to `second`.
    pub fn least(&self, first: usize, second: usize) -> Option<i64> {
        self.least[first * self.count + second]
    }
}

/// The jobs, each after all it waits for.
pub(super) fn order(model: &Model) -> Vec<usize> {
    let mut waiting: Vec<usize> = model.into.iter().map(Vec::len).collect();
    let mut order: Vec<usize> = (0..waiting.len()).filter(|&job| waiting[job] == 0).collect();
    let mut place = 0;
    while place < order.len() {
        for &arc in &model.from[order[place]] {
            let after = model.arcs[arc].after;
            waiting[after] -= 1;
            if waiting[after] == 0 {
                order.push(after);
            }
        }
        place += 1;
    }
    order
}
