//! How one step of a making falls into rounds, where its appliances cannot take all of it at once.

use super::fill::loads_needed;
use crate::kitchen::{Appliance, Kitchen, Mistake, Recipe, Session, Step, Week};
use crate::measure::whole_up;
use crate::plan::{MadeAt, Making, Makings, hands_for};
use crate::words;

/// Nobody cooks more rounds of one step in a session. Common practice, no source.
const MOST_ROUNDS: i64 = 50;

/// Nobody cooks more rounds of all steps in a week. Common practice, no source.
const MOST_IN_ALL: i64 = 1000;

/// One load of a step: the room it takes and its hands-on minutes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Round {
    /// 0 where the step holds no appliance.
    pub takes: i64,
    pub hands: i64,
}

/// The rounds of `step` for that many batches, fullest first; they take `least` of room in all, or more. `wash` minutes fall in each of
/// them, and are not paced.
pub(super) fn rounds(kitchen: &Kitchen, step: &Step, batches: f64, least: i64, wash: i64) -> Vec<Round> {
    let loads = match tightest_room(&kitchen.appliances, step) {
        None => vec![0],
        Some(room) => loads(room_taken(step, batches, least), room),
    };
    let hands = hands_of(step, batches, kitchen.rules.pace, &loads);
    loads.into_iter().zip(hands).map(|(takes, hands)| Round { takes, hands: hands + wash }).collect()
}

fn room_taken(step: &Step, batches: f64, least: i64) -> i64 {
    (whole_up(batches * step.takes, 1.0) as i64).max(least)
}

/// How many rounds [`rounds`] gives.
fn count(kitchen: &Kitchen, recipe: &Recipe, step: &Step, making: &Making) -> i64 {
    let batches = making.batches.to_f64();
    let taken = || room_taken(step, batches, loads_needed(kitchen, recipe, step, batches));
    tightest_room(&kitchen.appliances, step).map_or(1, |room| taken().div_euclid(room).saturating_add(i64::from(taken() % room > 0)).max(1))
}

/// Steps that would take more rounds than a person would cook, and weeks that would take more of them in all.
pub fn too_many_rounds(kitchen: &Kitchen, week: &Week, makings: &Makings) -> Vec<Mistake> {
    let mut mistakes = Vec::new();
    let mut all = 0i64;
    for making in &makings.makings {
        let MadeAt::Session(session) = making.at else { continue };
        let recipe = &kitchen.recipes[making.recipe];
        for step in recipe.steps.iter().filter(|step| step.ahead.is_none()) {
            let rounds = count(kitchen, recipe, step, making);
            all = all.saturating_add(rounds);
            if rounds > MOST_ROUNDS {
                mistakes.push(one_after_another(&kitchen.appliances, recipe, step, rounds, &week.sessions[session]));
            }
        }
    }
    if let Some(first) = week.sessions.first().filter(|_| all > MOST_IN_ALL && mistakes.is_empty()) {
        mistakes.push(Mistake {
            at: first.at.clone(),
            cause: format!("the sessions of this week would take {all} steps, rounds counted, and nobody cooks more than {MOST_IN_ALL}"),
            remedy: "Cook less, or plan it as several weeks.".to_owned(),
        });
    }
    mistakes
}

fn one_after_another(appliances: &[Appliance], recipe: &Recipe, step: &Step, rounds: i64, session: &Session) -> Mistake {
    let on: Vec<&str> = step.on.iter().map(|id| appliances[*id].name.as_str()).collect();
    let (on, day) = (on.join(" and the "), words::day(session.start.date()));
    Mistake {
        at: step.at.clone(),
        cause: format!(
            "{} would take {rounds} rounds of this step on the {on} in the session of {day}, and nobody cooks more than {MOST_ROUNDS}",
            recipe.name
        ),
        remedy: "Make less of it, let a batch take less room (takes), or give the appliance more (room).".to_owned(),
    }
}

/// The least room among the appliances that the step holds at once.
fn tightest_room(appliances: &[Appliance], step: &Step) -> Option<i64> {
    step.on.iter().map(|id| i64::from(appliances[*id].room).max(1)).min()
}

fn loads(total: i64, room: i64) -> Vec<i64> {
    let mut loads = vec![room; (total / room) as usize];
    if total % room > 0 || loads.is_empty() {
        loads.push(total % room);
    }
    loads
}

/// Fixed hands fall in each round. Growing hands are split by load; each round ends on the whole minute above its share of the
/// total, so that the rounds add up to the total.
fn hands_of(step: &Step, batches: f64, pace: f64, loads: &[i64]) -> Vec<i64> {
    let total = hands_for(step, batches, pace);
    if !step.scales {
        return vec![total; loads.len()];
    }
    let all: i64 = loads.iter().sum();
    if all == 0 {
        return vec![total; loads.len()];
    }
    let (mut loaded, mut spent) = (0, 0);
    let mut split = Vec::with_capacity(loads.len());
    for load in loads {
        loaded += load;
        let until = (total * loaded + all - 1) / all;
        split.push(until - spent);
        spent = until;
    }
    split
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    use super::*;
    use crate::measure::Minutes;
    use crate::prep::testing::{appliance, kitchen, step};

    fn on_the_oven(hands: i64, takes: f64, scales: bool) -> Step {
        Step { hands: Minutes(hands), takes, scales, on: vec![crate::kitchen::ApplianceId(0)], ..step("Roast.") }
    }

    fn with_room(room: u32) -> Kitchen {
        let mut kitchen = kitchen();
        kitchen.appliances = vec![appliance("oven", room, true), appliance("trays", 1, false)];
        kitchen
    }

    #[test]
    fn more_than_the_room_is_split_fullest_first() {
        // 2.5 batches x 2 trays = 5 trays; 5 = 2 + 2 + 1.
        let takes: Vec<i64> = rounds(&with_room(2), &on_the_oven(0, 2.0, false), 2.5, 0, 0).iter().map(|r| r.takes).collect();
        assert_eq!(takes, [2, 2, 1]);
    }

    #[test]
    fn floating_noise_does_not_take_another_tray() {
        // 3 x 0.1 is 0.30000000000000004 in binary; 10 x that is still 3 trays.
        assert_eq!(rounds(&with_room(3), &on_the_oven(0, 0.1 + 0.2, false), 10.0, 0, 0).len(), 1);
    }

    #[test]
    fn growing_hands_are_split_by_load_and_keep_their_sum() {
        // 10 min x 2.5 = 25 min over 3 trays in loads of 2 and 1: 16 2/3 -> 17, and 25 - 17 = 8.
        let hands: Vec<i64> = rounds(&with_room(2), &on_the_oven(10, 1.0, true), 2.5, 0, 0).iter().map(|r| r.hands).collect();
        assert_eq!(hands, [17, 8]);
    }

    #[test]
    fn fixed_hands_and_the_wash_fall_in_each_round() {
        // 4 min + 3 min of washing, twice.
        let hands: Vec<i64> = rounds(&with_room(2), &on_the_oven(4, 1.0, false), 3.0, 0, 3).iter().map(|r| r.hands).collect();
        assert_eq!(hands, [7, 7]);
    }

    #[test]
    fn the_pace_multiplies_hands_and_rounds_up_but_leaves_the_wash() {
        // 6 x 1.5 x 1.2 = 10.8 -> 11; + 3 = 14.
        let mut kitchen = with_room(2);
        kitchen.rules.pace = 1.2;
        let step = Step { hands: Minutes(6), ..step("Chop.") };
        assert_eq!(rounds(&kitchen, &step, 1.5, 0, 3), [Round { takes: 0, hands: 14 }]);
    }

    #[test]
    fn of_several_appliances_the_tightest_sets_the_rounds() {
        let step = Step { on: vec![crate::kitchen::ApplianceId(0), crate::kitchen::ApplianceId(1)], ..on_the_oven(0, 1.0, false) };
        assert_eq!(rounds(&with_room(2), &step, 3.0, 0, 0).len(), 3);
    }

    proptest! {
        #[test]
        fn rounds_add_up_to_the_room_taken_and_to_the_hands(batches in 1u32..20, room in 1u32..6, hands in 0i64..60) {
            let rounds = rounds(&with_room(room), &on_the_oven(hands, 1.0, true), f64::from(batches), 0, 0);
            prop_assert_eq!(rounds.iter().map(|r| r.takes).sum::<i64>(), i64::from(batches));
            prop_assert_eq!(rounds.iter().map(|r| r.hands).sum::<i64>(), hands * i64::from(batches));
            prop_assert!(rounds.iter().all(|r| r.takes >= 1 && r.takes <= i64::from(room) && r.hands >= 0));
        }
    }
}
