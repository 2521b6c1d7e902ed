//! The same optimum as a general-purpose solver of mixed integer programs, to the cent: packs, offers, loose goods, windows,
//! several shops, fares. `SPENCE_SOLVER_PROBLEMS` sets the number of problems.

mod support;

use good_lp::{Expression, ProblemVariables, Solution, SolverModel, Variable, constraint, microlp, variable};
use pretty_assertions::assert_eq;
use spence::kitchen::PackKind;
use spence::purchase::choose;
use support::{Dice, Street, street, with_opened};

const PROBLEMS: u64 = 500;

fn a_street(seed: u64) -> Street {
    let mut dice = Dice(seed);
    let shops = dice.between(1, 3) as usize;
    let foods = dice.between(1, 4) as usize;
    let fares: Vec<i64> = (0..shops).map(|_| dice.between(0, 3) * 40).collect();
    let opened: Vec<usize> = (0..foods).filter(|_| dice.one_in(3)).collect();
    let mut street = with_opened(street(foods, &fares), &opened);
    for food in 0..foods {
        for shop in 0..shops {
            for _ in 0..dice.between(i64::from(shop == 0), 3) {
                let grams = dice.between(2, 60) * 10;
                let minor = grams * dice.between(15, 40) / 100 + dice.between(1, 30);
                let buy = dice.between(2, 4);
                let offer = dice.one_in(3).then(|| (buy, buy * minor * dice.between(60, 95) / 100));
                street.sell(shop, food, grams, minor, offer);
            }
            if dice.one_in(4) {
                let minor = dice.between(10, 40);
                street.sell_loose(shop, food, minor);
            }
        }
        let uses: Vec<(i8, i64)> =
            (0..dice.between(1, 3)).map(|index| (1 + 3 * index as i8, dice.between(2, 90) * 10 + dice.between(0, 9))).collect();
        street.need(food, &uses);
    }
    street
}

/// What must be covered at one shop: one number a window, each use three days apart being a window of its own.
fn windows(street: &Street, food: usize, loose: bool) -> Vec<f64> {
    let need = &street.needs[food];
    let opened = street.kitchen.foods[need.food].keeps.opened.is_some();
    if opened && !loose && need.uses.len() > 1 {
        return need.uses.iter().map(|part| part.amount).collect();
    }
    let slack = if loose { 0.0 } else { street.kitchen.rules.short_by * need.demand };
    vec![need.demand - slack]
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

fn least_by_solver(street: &Street) -> i64 {
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

#[test]
fn every_basket_costs_what_a_general_solver_finds() {
    let problems = std::env::var("SPENCE_SOLVER_PROBLEMS").ok().and_then(|text| text.parse().ok()).unwrap_or(PROBLEMS);
    for seed in 0..problems {
        let street = a_street(seed);
        let basket = choose(&street.kitchen, &street.week, &street.needs);
        assert_eq!((seed, basket.cost.0), (seed, least_by_solver(&street)));
    }
}
