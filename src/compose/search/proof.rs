//! The proof: every week that could still be as good as the best known one is looked at, as far as the effort reaches.

use super::super::at_once::in_two;
use super::super::bound::Bound;
use super::super::floor::{Floor, Least};
use super::super::value::{Value, as_good_as};
use super::{Chosen, Search};

/// Looks at every week that could be as good as the best known one.
pub(super) struct Proof<'p, 's, 't, 'k> {
    pub(super) search: &'p mut Search<'s, 't, 'k>,
    pub(super) bound: &'p Bound,
    pub(super) floor: &'p Floor<'t, 's, 'k>,
    pub(super) known: Option<Value>,
    /// Weeks that are to be judged in one round.
    pub(super) waiting: Vec<Chosen>,
    pub(super) nodes: usize,
    /// The effort did not reach.
    pub(super) cut: bool,
}

/// Weeks of one round.
pub(super) const ROUND: usize = 32;

/// Where so many weeks begin alike, it pays to reckon what they cost at least.
const WORTH_A_FLOOR: usize = 4;

impl Proof<'_, '_, '_, '_> {
    pub(super) fn go(&mut self, taken: &mut Vec<usize>, chosen: &mut Chosen) {
        let (options, table) = (self.search.options, self.search.table);
        if taken.len() == options.len() {
            self.waiting.push(chosen.clone());
            if self.waiting.len() >= ROUND {
                self.look();
            }
            return;
        }
        let mut open: Vec<usize> = Vec::new();
        for place in 0..options[taken.len()].len() {
            if self.nodes == 0 || self.search.left == 0 {
                self.cut = true;
                return;
            }
            self.nodes -= 1;
            let option = options[taken.len()][place];
            taken.push(place);
            chosen.push(option);
            let mut week = chosen.clone();
            week.resize(options.len(), None);
            if !self.is_dearer(taken) && (option.is_none() || table.go_together(&week)) {
                open.push(place);
            }
            taken.pop();
            chosen.pop();
        }
        for place in self.within(chosen, open) {
            taken.push(place);
            chosen.push(options[taken.len() - 1][place]);
            self.go(taken, chosen);
            taken.pop();
            chosen.pop();
            if self.cut {
                return;
            }
        }
    }

    /// Of the options of the next meal, those with which the weeks that begin so could be as good as the best known, by the true stages.
    fn within(&mut self, chosen: &Chosen, open: Vec<usize>) -> Vec<usize> {
        let options = self.search.options;
        let next = chosen.len();
        let after: usize = options[next + 1..].iter().map(Vec::len).fold(1, usize::saturating_mul);
        if after < WORTH_A_FLOOR || self.by_something_else() {
            return open;
        }
        let begun: Vec<Chosen> = open.iter().map(|place| chosen.iter().copied().chain([options[next][*place]]).collect()).collect();
        let least = in_two(&begun, |begun| self.floor.of_first(begun));
        self.search.spend(begun.len());
        let could_be = |least: &Least| least.net.is_some_and(|net| !self.is_above(net)) && !self.is_overspent(least.cost);
        open.into_iter().zip(least).filter(|(_, least)| could_be(least)).map(|(place, _)| place).collect()
    }

    /// Are there few enough weeks that could be as good as the best known one, by the bound alone?
    pub(super) fn is_within_reach(&self) -> bool {
        let (mut left, mut nodes) = (self.search.left / self.search.unit() * 4, self.nodes);
        self.counts_down(&mut Vec::new(), &mut left, &mut nodes)
    }

    fn counts_down(&self, taken: &mut Vec<usize>, left: &mut usize, nodes: &mut usize) -> bool {
        let options = self.search.options;
        if taken.len() == options.len() {
            *left = left.saturating_sub(1);
            return *left > 0;
        }
        for place in 0..options[taken.len()].len() {
            *nodes = nodes.saturating_sub(1);
            taken.push(place);
            let within = *nodes > 0 && (self.is_dearer(taken) || self.counts_down(taken, left, nodes));
            taken.pop();
            if !within {
                return false;
            }
        }
        true
    }

    /// Does something else come before the cost?
    fn by_something_else(&self) -> bool {
        let table = self.search.table;
        table.from_shelf || table.lifted.is_some() || table.held.is_some()
    }

    /// Can no week that begins so be as good as the best known?
    fn is_dearer(&self, taken: &[usize]) -> bool {
        if self.by_something_else() {
            return false;
        }
        let least = self.bound.of_first(taken);
        self.is_above(least) || self.is_overspent(least)
    }

    /// Is a net cost above all that counts as equally cheap as the best known?
    fn is_above(&self, net: i64) -> bool {
        let wishes = &self.search.table.wishes;
        let by_cost = wishes.prefer[0] == crate::kitchen::Prefer::Cost;
        by_cost && self.known.is_some_and(|known| net > as_good_as(known.net, wishes))
    }

    /// Does a list cost more than may be spent?
    fn is_overspent(&self, cost: i64) -> bool {
        self.search.table.wishes.spend_at_most.is_some_and(|most| cost > most.0)
    }

    pub(super) fn look(&mut self) {
        let weeks = std::mem::take(&mut self.waiting);
        if self.search.left == 0 && !weeks.is_empty() {
            self.cut = true;
            return;
        }
        self.search.judge(&weeks);
        for week in weeks {
            let judged = &self.search.known[&week];
            let Some(value) = judged.value.filter(|_| judged.is_allowed()) else { continue };
            let cheaper = self.known.is_none_or(|known| (value.strain, value.net) < (known.strain, known.net));
            if cheaper {
                match self.search.confirm(&week) {
                    Some(true) => self.known = Some(value),
                    Some(false) => continue,
                    None => self.cut = true,
                }
            }
        }
    }
}
