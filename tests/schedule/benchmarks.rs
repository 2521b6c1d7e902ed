//! Job shops whose least finish is published.

use pretty_assertions::assert_eq;
use spence::prep::{Effort, schedule};

use super::checker::faults;
use super::jobshops::{ABZ6, FT06, FT20, JobShop, LA01, LA02, LA03, LA04, LA05, LA16, LA19};

fn proven_at_its_published_best(shop: &JobShop) {
    let problem = shop.problem();
    let plan = schedule(&problem, Effort::Normal);
    assert_eq!(faults(&problem, &plan), Vec::<String>::new(), "{}", shop.name);
    assert_eq!((plan.finish, plan.bound, plan.proven), (shop.best, shop.best, true), "{}", shop.name);
}

#[test]
fn ft06_is_proven_at_55() {
    proven_at_its_published_best(&FT06);
}

#[test]
fn la01_is_proven_at_666() {
    proven_at_its_published_best(&LA01);
}

#[test]
fn la02_is_proven_at_655() {
    proven_at_its_published_best(&LA02);
}

#[test]
fn la03_is_proven_at_597() {
    proven_at_its_published_best(&LA03);
}

#[test]
fn la04_is_proven_at_590() {
    proven_at_its_published_best(&LA04);
}

#[test]
fn la05_is_proven_at_593() {
    proven_at_its_published_best(&LA05);
}

#[test]
fn la16_is_proven_at_945() {
    proven_at_its_published_best(&LA16);
}

#[test]
fn la19_is_proven_at_842() {
    proven_at_its_published_best(&LA19);
}

#[test]
fn abz6_is_proven_at_943() {
    proven_at_its_published_best(&ABZ6);
}

#[test]
fn ft20_is_proven_at_1165() {
    proven_at_its_published_best(&FT20);
}
