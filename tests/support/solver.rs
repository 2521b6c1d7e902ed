//! A street's cheapest basket as a mixed integer program, for a general-purpose solver.

use good_lp::{Expression, ProblemVariables, Solution, SolverModel, Variable, constraint, microlp, variable};
use spence::kitchen::PackKind;

use super::Street;

/// What must be covered at one shop: one number a window, each use three days apart being a window of its own.
fn windows(street: &Street, food: usize, loose: bool) -> Vec<f64> {
    let need = &street.needs[food];
    let opened = street.kitchen.foods[need.food].keeps.opened.is_some();
    if opened && !loose && need.uses.len() > 1 {
        return need.uses.iter().map(|part| part.amount.to_f64()).collect();
    }
    let demand = need.demand.to_f64();
    let slack = if loose { 0.0 } else { street.kitchen.rules.short_by * demand };
    vec![demand - slack]
}

/// One food at one shop: its packs in whole numbers, offers over all windows together.
fn add_food(
    street: &Street,
    food: usize,
    shop: usize,
    here: Variable,
    vars: &mut ProblemVariables,
    cost: &mut Expression,
) -> Vec<good_lp::Constraint> {
    let count = |vars: &mut ProblemVariables| vars.add(variable().integer().min(0).max(400));
    let packs: Vec<_> = street.kitchen.packs.iter().filter(|pack| pack.food.0 as usize == food && pack.shop.0 == shop).collect();
    let loose = packs.iter().any(|pack| matches!(pack.kind, PackKind::Loose { .. }));
    let needs = windows(street, food, loose);
    let mut held = vec![Expression::default(); needs.len()];
    let mut constraints = Vec::new();
    for pack in packs {
        let bought: Vec<Variable> = needs.iter().map(|_| count(vars)).collect();
        let all: Expression = bought.iter().sum();
        match &pack.kind {
            PackKind::Sized { size, price, offer, .. } => {
                let price = price.unwrap().0 as f64;
                held.iter_mut().zip(&bought).for_each(|(held, bought)| *held += size.base() * *bought);
                *cost += price * all.clone();
                if let Some(offer) = offer {
                    let used = count(vars);
                    constraints.push(constraint!(all >= f64::from(offer.buy) * used));
                    *cost += (offer.pay.0 as f64 - price * f64::from(offer.buy)) * used;
                }
            }
            PackKind::Loose { price, step } => {
                held[0] += step.base() * bought[0];
                *cost += price.as_ref().unwrap().minor_e4 as f64 / 1e4 * bought[0];
            }
        }
    }
    constraints.extend(held.into_iter().zip(&needs).map(|(held, need)| constraint!(held >= *need * here)));
    constraints
}

/// Its least cost in minor units, fares included. Every food is sold somewhere.
pub fn least_by_solver(street: &Street) -> i64 {
    let mut vars = ProblemVariables::new();
    let mut cost = Expression::default();
    let visited: Vec<Variable> = street.kitchen.shops.iter().map(|_| vars.add(variable().binary())).collect();
    for (shop, visited) in street.kitchen.shops.iter().zip(&visited) {
        cost += shop.trip.0 as f64 * *visited;
    }
    let mut constraints = Vec::new();
    for food in 0..street.needs.len() {
        let mut somewhere = Expression::default();
        for (shop, visited) in visited.iter().enumerate() {
            if !street.kitchen.packs.iter().any(|pack| pack.food.0 as usize == food && pack.shop.0 == shop) {
                continue;
            }
            let here = vars.add(variable().binary());
            somewhere += here;
            constraints.push(constraint!(here <= *visited));
            constraints.extend(add_food(street, food, shop, here, &mut vars, &mut cost));
        }
        constraints.push(constraint!(somewhere == 1.0));
    }
    let model = vars.minimise(cost.clone()).using(microlp);
    let solution =
        constraints.into_iter().fold(model, |model, constraint| model.with(constraint)).solve().expect("a street where everything is sold");
    solution.eval(cost).round() as i64
}
