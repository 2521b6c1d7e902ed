//! A food that several people handle, each a part of it: the parts add up to the whole, and pieces stay whole.

use super::board::is_loose_in_print;
use crate::measure::{Number, Quantity};

/// Everybody's shares of a food, and whose of them is meant. Shares add up to 1, or to less where nobody handles the rest.
#[derive(Debug, Clone, PartialEq)]
pub struct Shares {
    pub all: Vec<f64>,
    pub whose: usize,
}

impl Shares {
    /// All of it.
    pub fn whole() -> Shares {
        Shares { all: vec![1.0], whose: 0 }
    }

    pub fn mine(&self) -> f64 {
        self.all.get(self.whose).copied().unwrap_or(0.0)
    }

    pub fn is_whole(&self) -> bool {
        self.mine() > 0.999
    }

    /// The part of what is counted: whole ones, at least one for everybody, where there are enough of them and half a one is nothing.
    pub(super) fn of(&self, counted: &Quantity) -> Quantity {
        let number = match counted {
            Quantity::Count(number) => number,
            Quantity::Words(number, word) if !is_loose_in_print(word) => number,
            other => return other.scaled(self.mine()),
        };
        let parts = self.whole_parts((number.to_f64() * self.all.iter().sum::<f64>().min(1.0) - 1e-6).ceil() as i64);
        match (parts.and_then(|parts| parts.get(self.whose).copied()), counted) {
            (Some(part), Quantity::Count(_)) => Quantity::Count(Number::from(part)),
            (Some(part), Quantity::Words(_, word)) => Quantity::Words(Number::from(part), word.clone()),
            _ => counted.scaled(self.mine()),
        }
    }

    /// So many pieces shared out: to each those that are wholly theirs, the others to whoever is owed most. `None` where there are fewer
    /// than people.
    fn whole_parts(&self, pieces: i64) -> Option<Vec<i64>> {
        let all: f64 = self.all.iter().sum();
        let sharers = self.all.iter().filter(|share| **share > 0.0).count() as i64;
        if pieces < sharers || all <= 0.0 {
            return None;
        }
        let owed: Vec<f64> = self.all.iter().map(|share| share / all * pieces as f64).collect();
        let mut parts: Vec<i64> = owed.iter().map(|owed| if *owed > 0.0 { ((owed + 1e-6).floor() as i64).max(1) } else { 0 }).collect();
        let short = |parts: &[i64], place: usize| owed[place] - parts[place] as f64;
        while parts.iter().sum::<i64>() != pieces {
            let more = parts.iter().sum::<i64>() < pieces;
            let places = (0..parts.len()).filter(|place| if more { owed[*place] > 0.0 } else { parts[*place] > 1 });
            let by = |a: &usize, b: &usize| short(&parts, *a).total_cmp(&short(&parts, *b)).then(b.cmp(a));
            let place = if more { places.max_by(by) } else { places.min_by(by) }?;
            parts[place] += if more { 1 } else { -1 };
        }
        Some(parts)
    }
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;

    fn parts(counted: Quantity, shares: &[f64]) -> Vec<Quantity> {
        (0..shares.len()).map(|whose| Shares { all: shares.to_vec(), whose }.of(&counted)).collect()
    }

    #[test]
    fn whole_pieces_are_shared_out_and_add_up() {
        // 7 cloves: 2.1 and 4.9; 2.33 each of three; 0.2 and 2.8 of three, and nobody goes without.
        let cloves = |numbers: &[i64]| numbers.iter().map(|one| Quantity::words(*one, "clove")).collect::<Vec<_>>();
        assert_eq!(parts(Quantity::words(7, "clove"), &[0.3, 0.7]), cloves(&[2, 5]));
        assert_eq!(parts(Quantity::words(7, "sprig"), &[1.0 / 3.0; 3])[0], Quantity::words(3, "sprig"));
        assert_eq!(parts(Quantity::words(3, "clove"), &[0.05, 0.95]), cloves(&[1, 2]));
        assert_eq!(parts(Quantity::pieces(4), &[0.0, 1.0]), [Quantity::pieces(0), Quantity::pieces(4)]);
    }

    #[test]
    fn too_few_pieces_and_what_is_taken_by_feel_are_parted() {
        assert_eq!(parts(Quantity::pieces(1), &[0.5, 0.5])[0], Quantity::pieces(0.5));
        assert_eq!(parts(Quantity::words(3, "handful"), &[0.5, 0.5])[0], Quantity::words(1.5, "handful"));
    }
}
