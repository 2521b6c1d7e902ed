//! A session that ends too late: what binds it, and what would help.

use super::Problem;
use super::advice::{Teller, minutes_over};
use super::advised::{Advice, Bottleneck, Change};
use super::spared::makings_without;
use super::tasks::{Part, Work, session_work};
use super::under_way::{UnderWay, stand};
use crate::kitchen::{Appliance, ApplianceId, Kitchen, Recipe, Rules, Session, Week};
use crate::measure::Days;
use crate::plan::{Kept, MadeAt, Makings, Use, User};

/// How many remedies are told beside the dish to leave out: the best, and what one more pair of hands gains.
const TOLD: usize = 3;

/// What takes the most time by itself: the longest chain of steps, one appliance, or all hands together.
pub(super) fn binding(appliances: &[Appliance], teller: &Teller) -> Option<Bottleneck> {
    let problem = &teller.work.problem;
    let (chain, last) = longest_chain(problem)?;
    let people = problem.people.len().max(1);
    let hands: i64 = problem.jobs.iter().map(|job| job.hands + job.out).sum();
    let mut ranked = vec![(chain, Bottleneck::Chain { last: teller.job(last), minutes: chain })];
    for id in (0..appliances.len()).map(ApplianceId) {
        let full = minutes_of_machine(problem, id.0);
        ranked.push((full, Bottleneck::Appliance { id, minutes: full }));
    }
    ranked.push((hands / people as i64, Bottleneck::Hands { minutes: hands, people }));
    let most = ranked.iter().map(|(minutes, _)| *minutes).max()?;
    ranked.into_iter().find(|(minutes, _)| *minutes == most).map(|(_, what)| what)
}

/// Minutes of the longest path through the links, and its last job.
fn longest_chain(problem: &Problem) -> Option<(i64, usize)> {
    let mut ends: Vec<i64> = problem.jobs.iter().map(super::Job::minutes).collect();
    // Without circles, as many rounds as there are jobs settle every path.
    for _ in 0..problem.jobs.len() {
        let mut moved = false;
        for link in &problem.links {
            let end = ends[link.before] + link.gap + problem.jobs[link.after].minutes();
            moved |= end > ends[link.after];
            ends[link.after] = ends[link.after].max(end);
        }
        if !moved {
            break;
        }
    }
    let longest = ends.iter().copied().max()?;
    ends.iter().position(|end| *end == longest).map(|job| (longest, job))
}

/// Minutes for which the machine would be full if its loads fitted without a gap.
fn minutes_of_machine(problem: &Problem, machine: usize) -> i64 {
    let load = |job: &super::Job| job.machines.iter().filter(|(m, _)| *m == machine).map(|(_, takes)| takes * job.minutes()).sum::<i64>();
    problem.jobs.iter().map(load).sum::<i64>() / problem.machines[machine].room.max(1)
}

/// The best of: one more person, one more load of room in an appliance, one recipe moved to another session. Then the one dish that is best
/// left out: of those that mend it the one that takes the least time away, else the one that takes the most. Under way it is too late for
/// other appliances and sessions, and for leaving out what is begun.
pub(super) fn remedies(
    (kitchen, week, makings): (&Kitchen, &Week, &Makings),
    (index, under_way): (usize, Option<&UnderWay>),
    work: &Work,
    finish: i64,
    replan: impl Fn(&Problem) -> i64,
) -> Vec<Advice> {
    let mut changes = vec![(Change::OneMorePerson, one_more_person(&work.problem))];
    if under_way.is_none() {
        changes.extend(more_room(kitchen, week, index, makings, work));
        changes.extend(moved_recipes(kitchen, week, makings, index, work));
    }
    let session = &week.sessions[index];
    let mut ends: Vec<(i64, Change)> = changes.into_iter().map(|(what, problem)| (replan(&problem), what)).collect();
    ends.retain(|(end, _)| *end < finish);
    ends.sort_by_key(|(end, _)| *end);
    let hands = ends.iter().position(|(_, change)| *change == Change::OneMorePerson);
    if let Some(hands) = hands.filter(|hands| *hands >= TOLD) {
        ends.swap(hands, TOLD - 1);
    }
    let less = without_one((kitchen, week, makings), (index, under_way), work).into_iter().map(|(what, problem)| (replan(&problem), what));
    let less: Vec<(i64, Change)> = less.filter(|(end, _)| *end < finish).collect();
    let in_time = |(end, _): &&(i64, Change)| minutes_over(session, *end).is_some_and(|over| over <= 0);
    let best = less.iter().filter(in_time).max_by_key(|(end, _)| *end).or_else(|| less.iter().min_by_key(|(end, _)| *end)).cloned();
    let mut told: Vec<Advice> = ends.into_iter().take(TOLD).chain(best).filter_map(|(end, change)| remedy(session, end, change)).collect();
    told.extend(hands.is_none().then_some(Advice::HandsGainNothing));
    told
}

/// One change a making that no other making of the session goes into; what goes only into it is left out with it.
fn without_one(
    (kitchen, week, makings): (&Kitchen, &Week, &Makings),
    (index, under_way): (usize, Option<&UnderWay>),
    work: &Work,
) -> Vec<(Change, Problem)> {
    let needed = |making: usize| {
        let uses = &makings.makings[making].uses;
        uses.iter().any(|one| matches!(one.by, User::Making(dish) if work.chosen.contains(&dish)))
    };
    let begun = |making: usize| {
        let jobs = work.problem.jobs.iter().zip(&work.origins);
        jobs.into_iter().any(|(job, origin)| origin.making == making && is_begun(origin.part) && job.fixed.is_some())
    };
    let without = |making: usize| {
        let rest = makings_without(makings, &work.chosen, making);
        let mut less = session_work(kitchen, week, index, &rest);
        if let Some(under_way) = under_way {
            stand(&mut less, &rest, under_way);
        }
        // Nobody leaves out all that is cooked.
        (!less.chosen.is_empty()).then(|| (Change::Without(makings.makings[making].recipe), less.problem))
    };
    work.chosen.iter().copied().filter(|making| !needed(*making) && !begun(*making)).filter_map(without).collect()
}

/// What is done ahead, and an oven that is hot, keep nobody from leaving a dish out.
fn is_begun(part: Part) -> bool {
    !matches!(part, Part::Ahead { .. } | Part::Hot | Part::WashUp)
}

fn remedy(session: &Session, end: i64, change: Change) -> Option<Advice> {
    let at = jiff::Span::new().try_minutes(end).and_then(|span| session.start.checked_add(span)).ok()?;
    minutes_over(session, end).map(|over| Advice::Remedy { change, end: at, over })
}

fn one_more_person(problem: &Problem) -> Problem {
    let mut more = problem.clone();
    let person = more.people.len();
    more.people.push(super::Worker { from: problem.now, until: None, ..super::Worker::default() });
    more.jobs.iter_mut().for_each(|job| job.people.push(person));
    more
}

/// One change an appliance that the session uses.
fn more_room(kitchen: &Kitchen, week: &Week, index: usize, makings: &Makings, work: &Work) -> Vec<(Change, Problem)> {
    let used = |id: &ApplianceId| work.problem.jobs.iter().any(|job| job.machines.iter().any(|(m, _)| *m == id.0));
    let roomier = |id: ApplianceId| {
        let mut roomier = kitchen.clone();
        roomier.appliances[id].room += 1;
        (Change::MoreRoom(id), session_work(&roomier, week, index, makings).problem)
    };
    (0..kitchen.appliances.len()).map(ApplianceId).filter(used).map(roomier).collect()
}

/// One change a making that another session of the week could make as well: the first that can serve all its uses.
fn moved_recipes(kitchen: &Kitchen, week: &Week, makings: &Makings, index: usize, work: &Work) -> Vec<(Change, Problem)> {
    let mut changes = Vec::new();
    for making in work.chosen.iter().copied().filter(|making| stands_alone(makings, *making)) {
        let others = (0..week.sessions.len()).filter(|other| *other != index);
        let Some(other) = others.into_iter().find(|other| can_make(&kitchen.recipes, &kitchen.rules, week, makings, making, *other)) else {
            continue;
        };
        let mut moved = makings.clone();
        moved.makings[making].at = MadeAt::Session(other);
        let change = Change::Moved { recipe: makings.makings[making].recipe, to: week.sessions[other].start };
        changes.push((change, session_work(kitchen, week, index, &moved).problem));
    }
    changes
}

/// Neither goes straight into a dish nor takes a component straight from its session.
fn stands_alone(makings: &Makings, making: usize) -> bool {
    let straight = |one: &Use| one.kept == Kept::Straight && matches!(one.by, User::Making(_));
    let gives = makings.makings[making].uses.iter().any(straight);
    let takes = makings.makings.iter().flat_map(|m| &m.uses).any(|one| straight(one) && one.by == User::Making(making));
    !gives && !takes
}

fn can_make(recipes: &[Recipe], rules: &Rules, week: &Week, makings: &Makings, making: usize, other: usize) -> bool {
    let session = &week.sessions[other];
    let recipe = &recipes[makings.makings[making].recipe];
    let keeps = recipe.reach().0.max(recipe.freezer.unwrap_or(Days(0))).0;
    let ready = session
        .finish_by
        .or_else(|| jiff::Span::new().try_minutes(rules.ready_after.0).and_then(|span| session.start.checked_add(span)).ok());
    let uses = &makings.makings[making].uses;
    !uses.is_empty()
        && uses.iter().all(|one| {
            let from = match one.by {
                User::Meal(meal) => week.meals.get(meal).map(|meal| meal.at_time),
                User::Making(dish) => match makings.makings.get(dish).map(|dish| dish.at) {
                    Some(MadeAt::Session(of)) => week.sessions.get(of).map(|of| of.start),
                    Some(MadeAt::Meal(of)) => week.meals.get(of).map(|of| of.at_time),
                    None => None,
                },
            };
            let days = one.on.duration_since(session.start.date()).as_hours() / 24;
            from.zip(ready).is_some_and(|(from, ready)| from >= ready) && days <= keeps
        })
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::kitchen::{ApplianceId, Meal, Spot, Step};
    use crate::measure::{Minutes, Quantity};
    use crate::plan::Making;
    use crate::prep::testing::*;

    /// Three trays of 60 min in an oven for two, and 30 min of chopping; two sessions, the second on Wednesday.
    fn roast_and_slaw() -> (Kitchen, Week, Makings) {
        let mut kitchen = kitchen();
        kitchen.appliances = vec![appliance("oven", 2, true)];
        kitchen.appliances[0].out = Minutes(0);
        let roast = Step { wait: Minutes(60), on: vec![ApplianceId(0)], ..step("Roast.") };
        let chop = Step { hands: Minutes(30), ..step("Chop.") };
        kitchen.recipes = vec![recipe("roast", "Roast roots", 4.0, vec![roast]), recipe("slaw", "Slaw", 4.0, vec![chop])];
        kitchen.recipes[1].fridge = Some(Days(3));
        let mut week = week();
        let mut second = week.sessions[0].clone();
        second.start = date(2026, 12, 2).at(17, 0, 0, 0);
        week.sessions.push(second);
        let at_time = date(2026, 12, 3).at(18, 30, 0, 0);
        week.meals = vec![Meal {
            text: None,
            at_time,
            label: "Thu supper".into(),
            word: "supper".into(),
            name: None,
            eaters: 3.0,
            diners: vec![],
            each: vec![],
            shared: vec![],
            skip: false,
            pattern: None,
            open: None,
            asked: Default::default(),
            at: Spot::default(),
        }];
        let eaten = Use {
            by: User::Meal(0),
            on: at_time.date(),
            amount: Quantity::portions(3.0),
            kept: Kept::Fridge,
            own: vec![],
            label: "Thu supper".into(),
        };
        let slaw = Making { uses: vec![eaten], ..making(&kitchen, 1, 1.0) };
        let list = makings(vec![making(&kitchen, 0, 3.0), slaw]);
        (kitchen, week, list)
    }

    #[test]
    fn the_fullest_of_chain_appliance_and_hands_is_named() {
        // Chain 60 min; oven (2 + 1) x 60 / 2 = 90 min; hands 30 min.
        let (kitchen, week, makings) = roast_and_slaw();
        let work = session_work(&kitchen, &week, 0, &makings);
        let teller = Teller { kitchen: &kitchen, makings: &makings, work: &work };
        let told = binding(&kitchen.appliances, &teller).map(|what| Advice::Binds(what).text(kitchen.names()));
        assert_eq!(told.as_deref(), Some("What binds is the oven, full for 1 h 30 min."));
    }

    #[test]
    fn the_best_three_remedies_say_when_the_session_would_end() {
        let (kitchen, mut week, makings) = roast_and_slaw();
        week.sessions[0].finish_by = Some(date(2026, 11, 29).at(15, 30, 0, 0));
        let work = session_work(&kitchen, &week, 0, &makings);
        // A stand-in that reckons 60 min a roast and 30 min of chopping shared by all hands.
        let reckon = |problem: &Problem| {
            let roasts = problem.jobs.iter().filter(|job| job.wait == 60).count() as i64;
            let hands: i64 = problem.jobs.iter().map(|job| job.hands).sum();
            roasts * 60 + hands / problem.people.len() as i64
        };
        assert_eq!(reckon(&work.problem), 150);
        let told = remedies((&kitchen, &week, &makings), (0, None), &work, 150, reckon);
        // 60 + 30; 120 + 0; 120 + 15.
        let expected = [
            "With room for one more load in the oven it would end at 15:30, in time.",
            "With slaw moved to the session on Wed 17:00 it would end at 16:00, still 30 min late.",
            "With one more person it would end at 16:15, still 45 min late.",
            // Without the roast 30 min of chopping are left, without the slaw 120 of roasting.
            "Without roast roots: 14:30, in time.",
        ];
        assert_eq!(told.iter().map(|one| one.text(kitchen.names())).collect::<Vec<_>>(), expected);
    }

    #[test]
    fn under_way_a_dish_that_is_not_begun_may_be_left_out_and_hands_may_come() {
        let (kitchen, mut week, makings) = roast_and_slaw();
        week.sessions[0].finish_by = Some(date(2026, 11, 29).at(15, 30, 0, 0));
        let under_way = UnderWay { start: sunday(), now: 10, told: vec![], heats: vec![], done: Default::default() };
        let mut work = session_work(&kitchen, &week, 0, &makings);
        stand(&mut work, &makings, &under_way);
        let reckon = |problem: &Problem| {
            let roasts = problem.jobs.iter().filter(|job| job.wait == 60).count() as i64;
            let hands: i64 = problem.jobs.iter().map(|job| job.hands).sum();
            roasts * 60 + hands / problem.people.len() as i64
        };
        let told = |work: &Work| {
            let told = remedies((&kitchen, &week, &makings), (0, Some(&under_way)), work, 150, reckon);
            told.iter().map(|one| one.text(kitchen.names())).collect::<Vec<_>>()
        };
        let hands = "With one more person it would end at 16:15, still 45 min late.";
        assert_eq!(told(&work), [hands, "Without roast roots: 14:30, in time."]);
        // Once the first tray is in, only the slaw is still to be left out.
        work.problem.jobs[0].fixed = Some(crate::prep::Fixed::default());
        assert_eq!(told(&work), [hands, "Without slaw: 16:00, still 30 min late."]);
    }

    #[test]
    fn a_recipe_moves_only_where_the_other_session_can_serve_it() {
        let (mut kitchen, week, makings) = roast_and_slaw();
        assert!(can_make(&kitchen.recipes, &kitchen.rules, &week, &makings, 1, 1));
        kitchen.recipes[1].fridge = None;
        assert!(!can_make(&kitchen.recipes, &kitchen.rules, &week, &makings, 1, 1));
    }
}
