//! Open meals that are eaten by the same people and may take the same: what one of them asks for, all do, and is reckoned once.

use std::sync::Arc;

use super::table::Table;

/// By gap, the first one that is like it.
pub fn alike(table: &Table, options: &[Vec<Option<u32>>]) -> Vec<usize> {
    let meal = |gap: usize| &table.trials.whole.meals[table.gaps[gap].meal];
    let are_alike = |one: usize, other: usize| {
        let (one_meal, other_meal) = (meal(one), meal(other));
        one_meal.eaters == other_meal.eaters && one_meal.diners == other_meal.diners && options[one] == options[other]
    };
    (0..table.gaps.len()).map(|gap| (0..gap).find(|first| are_alike(*first, gap)).unwrap_or(gap)).collect()
}

/// One for each gap, reckoned once for those that are alike.
pub fn shared<T>(alike: &[usize], mut what: impl FnMut(usize) -> T) -> Vec<Arc<T>> {
    let mut all: Vec<Arc<T>> = Vec::new();
    for (gap, first) in alike.iter().enumerate() {
        let one = if *first < gap { Arc::clone(&all[*first]) } else { Arc::new(what(gap)) };
        all.push(one);
    }
    all
}
