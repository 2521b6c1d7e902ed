//! Weeks that are looked at for a clash: all of them where they are few, else those that a search came by, or some that are spread over all.

use std::collections::{BTreeMap, BTreeSet};

use super::super::at_once::{in_two, judge_all};
use super::super::search::Chosen;
use super::super::table::{Judged, Look, Table};
use super::super::ways::Gap;
use super::super::wish::{Broken, add};
use crate::prep::Effort;
use crate::progress::{self, At, Composing};

const FEW_MEALS: usize = 5;

/// So much work goes into the plans of their sessions.
const WORK: usize = 60_000;

/// What weeks break, and whether those are all weeks: of all ways where they are few, else of those that are free.
pub fn looked_at(table: &Table, nearest: &[Chosen], most: usize, effort: Effort) -> (Vec<Vec<Broken>>, bool) {
    let free: Vec<Vec<u32>> = table.gaps.iter().map(|gap| gap.ways.clone()).collect();
    let with_barred = |(gap, barred): (&Gap, &BTreeMap<u32, Vec<Broken>>)| {
        let mut ways: Vec<u32> = gap.ways.iter().chain(barred.keys()).copied().collect();
        ways.sort_unstable();
        ways
    };
    let every: Vec<Vec<u32>> = table.gaps.iter().zip(&table.barred).map(with_barred).collect();
    let count = |ways: &[Vec<u32>]| ways.iter().map(|ways| ways.len() as f64).product::<f64>();
    // Weeks of few open meals are reckoned quickly.
    let enough = if table.gaps.len() <= FEW_MEALS { 12 * most } else { most } as f64;
    let all = count(&every) <= enough;
    let weeks: Vec<Chosen> = match all {
        true => all_weeks(&every),
        false if (1.0..=enough).contains(&count(&free)) => all_weeks(&free),
        // Weeks that were looked for tell more than weeks at random.
        false if !nearest.is_empty() => nearest.to_vec(),
        false => some_weeks(&every, most),
    };
    progress::at(At::Composing { meals: table.gaps.len(), weeks: weeks.len(), aim: Composing::Clash });
    let judged = judge_all(table, &weeks.iter().collect::<Vec<_>>(), Look::Thoroughly, effort);
    let (late, all_planned) = late(table, &weeks, &judged, effort);
    let broken = judged.into_iter().zip(late).map(|(judged, late)| {
        let mut broken = judged.broken;
        late.into_iter().for_each(|one| add(&mut broken, one.wish, one.would_do));
        broken
    });
    (broken.filter(|broken| !broken.is_empty()).collect(), all && all_planned)
}

/// What sessions of the weeks end too late; of those that break little else first, as far as the work goes; and
/// whether it went to the end.
fn late(table: &Table, weeks: &[Chosen], judged: &[Judged], effort: Effort) -> (Vec<Vec<Broken>>, bool) {
    let mut late = vec![Vec::new(); weeks.len()];
    if table.trials.sessions().iter().all(|session| session.finish_by.is_none()) {
        return (late, true);
    }
    let mut places: Vec<usize> = (0..weeks.len()).filter(|place| judged[*place].value.is_some()).collect();
    places.sort_by_key(|place| judged[*place].broken.len());
    let mut left = WORK;
    for few in places.chunks(8) {
        let found = in_two(few, |place| table.broken_sessions(&weeks[*place], effort));
        for (place, (broken, work)) in few.iter().zip(found) {
            late[*place] = broken;
            left = left.saturating_sub(work);
        }
        if left == 0 {
            return (late, false);
        }
    }
    (late, true)
}

fn all_weeks(ways: &[Vec<u32>]) -> Vec<Chosen> {
    let mut weeks: Vec<Chosen> = vec![Vec::new()];
    for ways in ways {
        weeks = weeks.iter().flat_map(|week| ways.iter().map(move |way| week.iter().copied().chain([Some(*way)]).collect())).collect();
    }
    weeks
}

/// Weeks spread over the ways: each meal walks through its own in steps of its own.
fn some_weeks(ways: &[Vec<u32>], most: usize) -> Vec<Chosen> {
    let weeks = (0..most).map(|number| {
        let way = |(gap, ways): (usize, &Vec<u32>)| {
            let mixed = (number as u64).wrapping_mul(0x9E37_79B9_7F4A_7C15).rotate_left(7 * gap as u32 + 11).wrapping_add(gap as u64);
            Some(ways[(mixed % ways.len() as u64) as usize])
        };
        ways.iter().enumerate().map(way).collect::<Chosen>()
    });
    weeks.collect::<BTreeSet<_>>().into_iter().collect()
}
