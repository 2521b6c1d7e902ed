//! Constraints of machines: room, and one temperature at a time.

use super::exact::{Before, Exact};
use super::model::{COLD, Load};

/// A load: its job, and its place among the job's loads.
type Place = (usize, usize);

pub(super) fn post(exact: &mut Exact) {
    for machine in 0..exact.model.room.len() {
        let places: Vec<Place> = (0..exact.model.count())
            .flat_map(|job| (0..exact.model.loads[job].len()).map(move |place| (job, place)))
            .filter(|&(job, place)| exact.model.loads[job][place].machine == machine)
            .collect();
        post_choices(exact, &places);
        post_pairs(exact, machine, &places);
        post_room(exact, machine, &places);
    }
}

fn load<'a>(exact: &Exact<'a>, place: Place) -> &'a Load {
    &exact.model.loads[place.0][place.1]
}

/// One literal a setting where a load has a choice; exactly one is true.
fn post_choices(exact: &mut Exact, places: &[Place]) {
    for &place in places {
        let settings = load(exact, place).settings.clone();
        if settings.len() < 2 {
            continue;
        }
        let literals: Vec<_> = settings.into_iter().map(|setting| (setting, exact.literal())).collect();
        exact.clause(literals.iter().map(|(_, literal)| literal.get_true_predicate()).collect());
        for (index, (_, one)) in literals.iter().enumerate() {
            for (_, other) in &literals[index + 1..] {
                exact.clause(vec![one.get_false_predicate(), other.get_false_predicate()]);
            }
        }
        // A load without a temperature, in a warm oven, may be the one before which it warms up.
        if let Some((_, cold)) = literals.iter().find(|(setting, _)| *setting == COLD) {
            let warm_up = exact.model.ovens[load(exact, place).machine].warm_up;
            exact.attended(place.0, warm_up, &[cold.get_true_predicate()]);
        }
        exact.settings.insert(place, literals);
    }
}

fn post_pairs(exact: &mut Exact, machine: usize, places: &[Place]) {
    for (index, &one) in places.iter().enumerate() {
        for &other in &places[index + 1..] {
            if one.0 != other.0 {
                post_pair(exact, machine, one, other);
            }
        }
    }
}

fn post_pair(exact: &mut Exact, machine: usize, one: Place, other: Place) {
    let (a, b) = (load(exact, one), load(exact, other));
    let warm_up = exact.model.ovens[machine].warm_up;
    let (first, second) = (exact.model.minutes[one.0], exact.model.minutes[other.0]);
    let shared = a.settings.iter().any(|setting| b.settings.contains(setting));
    if !a.settings.is_empty() && !shared {
        return exact.one_after_the_other((one.0, other.0), first + warm_up, second + warm_up);
    }
    if a.take + b.take > exact.model.room[machine] {
        exact.one_after_the_other((one.0, other.0), first, second);
    }
    if a.settings.len() + b.settings.len() > 2 {
        post_settings(exact, one, other, [first + warm_up, second + warm_up]);
    }
}

/// Two loads in different settings stand a warm-up apart.
fn post_settings(exact: &mut Exact, one: Place, other: Place, [there, back]: [i64; 2]) {
    let orders = [exact.before(one.0, other.0, there), exact.before(other.0, one.0, back)];
    if orders.iter().any(|order| matches!(order, Before::Always)) {
        return;
    }
    for setting in load(exact, one).settings.clone() {
        let unless: Option<Vec<_>> = [(one, false), (other, true)]
            .into_iter()
            .map(|(place, want)| says(exact, place, setting, want))
            .filter(|says| !matches!(says, Says::No))
            .map(|says| if let Says::If(predicate) = says { Some(predicate) } else { None })
            .collect();
        if let Some(unless) = unless {
            exact.ordered_unless(orders, unless);
        }
    }
}

enum Says {
    Yes,
    No,
    If(pumpkin_solver::core::predicates::Predicate),
}

/// Whether the load stands (or does not stand) in the setting.
fn says(exact: &Exact, place: Place, setting: usize, want: bool) -> Says {
    let yes_if = |holds: bool| if holds == want { Says::Yes } else { Says::No };
    match exact.settings.get(&place) {
        None => yes_if(load(exact, place).settings.contains(&setting)),
        Some(choices) => match choices.iter().find(|(choice, _)| *choice == setting) {
            None => yes_if(false),
            Some((_, literal)) if want => Says::If(literal.get_true_predicate()),
            Some((_, literal)) => Says::If(literal.get_false_predicate()),
        },
    }
}

fn post_room(exact: &mut Exact, machine: usize, places: &[Place]) {
    let room = exact.model.room[machine];
    let loads: Vec<(usize, i64, i64, i64)> =
        places.iter().map(|&place| (place.0, 0, exact.model.minutes[place.0], load(exact, place).take)).filter(|load| load.3 > 0).collect();
    let alone = |a: i64, b: i64| a + b > room;
    let pairwise = loads.iter().enumerate().all(|(index, a)| loads[index + 1..].iter().all(|b| alone(a.3, b.3)));
    if loads.iter().map(|load| load.3).sum::<i64>() > room && !pairwise {
        exact.cumulative(&loads, &[], room);
    }
    exact.disjunctive(loads.iter().filter(|load| alone(load.3, load.3)).map(|load| (load.0, 0, load.2)).collect());
}
