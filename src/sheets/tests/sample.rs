//! A small week on Boatyard Row, as lists and plans already computed.

use std::sync::LazyLock;

use jiff::civil::{Date, date};

use crate::foods::{Food, FoodId, Place};
use crate::kitchen::fixture::{empty_kitchen, recipe, spot};
use crate::kitchen::{Appliance, Kitchen, Names, Offer, Paper, Recipe, RecipeId, Shop, ShopId, Spot, Ware, Warning};
use crate::measure::{Days, Minutes, Money, Quantity, Units, read_money};
use crate::plan::{Move, Spare};
use crate::purchase::{
    Expiring, Flag, FromPantry, ListLine, OfferTaken, Opening, PackCount, PackLine, Packed, Section, ShopVisit, ShoppingList, Stop,
    TripList, Untimely, Windows,
};
use crate::sheets::{Settings, Size};

pub use super::afternoon::{Doing, before, milk_and_stock, session, task};

pub const A4: Settings =
    Settings { paper: Paper::A4, units: Units::Metric, size: Size::Normal, fold: false, under: crate::kitchen::Under::ALL };
pub const LETTER: Settings = Settings { paper: Paper::Letter, units: Units::Us, ..A4 };
pub const LARGE: Settings = Settings { size: Size::Large, ..A4 };
pub const FOLDED: Settings = Settings { fold: true, ..A4 };

pub const WEEK: &str = "First week of advent";
pub const HOUSEHOLD: &str = "Boatyard Row";

fn november(day: i8) -> Date {
    date(2026, 11, day)
}

fn december(day: i8) -> Date {
    date(2026, 12, day)
}

pub fn g(grams: f64) -> Quantity {
    Quantity::grams(grams)
}

/// What the samples name, so that they can be written by name.
const FOODS: [&str; 27] = [
    "onion",
    "carrot",
    "beetroot",
    "red cabbage",
    "leek",
    "potato",
    "garlic",
    "yoghurt",
    "feta",
    "oat milk",
    "tinned white beans",
    "chopped tomatoes",
    "boneless chicken thighs",
    "pearl barley",
    "rolled oats",
    "strong white flour",
    "rosemary",
    "flaky salt",
    "olive oil",
    "flour",
    "spinach",
    "saffron",
    "honey",
    "oatcake",
    "white fish",
    "dried white beans",
    "Ζαφορά, укроп, 米 and 🌶️",
];

pub const LONG_DISH: &str = "Chicken thighs braised with tomatoes and olives, a red-pepper sauce and a little rosemary from the yard";

const RECIPES: [&str; 12] = [
    "White-bean mash",
    "Pearl barley",
    "Red-pepper sauce",
    "Roast beetroot and carrots",
    "Chicken thighs braised with tomatoes and olives",
    "Flatbreads",
    "Red cabbage and apple slaw",
    "Baked fish with dill",
    "Leek and potato soup",
    "Herb yoghurt",
    "Frittata",
    LONG_DISH,
];
pub const APPLIANCES: [&str; 3] = ["oven", "hob", "pressure cooker"];

pub const MASH: RecipeId = RecipeId(0);
pub const BARLEY: RecipeId = RecipeId(1);
pub const SAUCE: RecipeId = RecipeId(2);

const QUAY: ShopId = ShopId(0);
const MILL: ShopId = ShopId(1);

/// So many foods have a number for a name.
const THINGS: usize = 150;

static KITCHEN: LazyLock<Kitchen> = LazyLock::new(|| {
    let mut kitchen = empty_kitchen();
    let things = (1..=THINGS).map(|n| format!("thing number {n}"));
    kitchen.foods = FOODS.iter().map(|name| (*name).to_owned()).chain(things).map(|name| Food { name, ..Food::default() }).collect();
    kitchen.household.name = HOUSEHOLD.to_owned();
    kitchen.recipes = RECIPES.map(|name| Recipe { name: name.to_owned(), ..recipe(&name.to_lowercase().replace(' ', "-")) }).into();
    kitchen.appliances = APPLIANCES.map(appliance).into();
    let shop = |name: &str| Shop { name: name.to_owned(), sections: Vec::new(), trip: Money::ZERO, at: spot(1) };
    kitchen.shops = vec![shop("Quay market"), shop("Mill stores")];
    kitchen
});

pub fn kitchen() -> &'static Kitchen {
    &KITCHEN
}

pub fn names() -> Names<'static> {
    KITCHEN.names()
}

pub fn appliance(name: &str) -> Appliance {
    let at = Spot::default();
    Appliance {
        name: name.into(),
        room: 2,
        heat: false,
        near: 10.0,
        warm_up: Minutes(0),
        out: Minutes(1),
        comes_up: Minutes(0),
        holds: None,
        // As its name says.
        kind: (name == "hob").then_some(crate::kitchen::ApplianceKind::Hob),
        fan: false,
        at,
    }
}

pub fn dish(name: &str) -> RecipeId {
    RecipeId(RECIPES.iter().position(|known| *known == name).expect("a recipe of the sample"))
}

pub fn food(name: &str) -> FoodId {
    let at = KITCHEN.foods.all.iter().position(|food| food.name == name);
    FoodId(at.unwrap_or_else(|| panic!("{name} is not among the sample's foods")) as u32)
}

pub fn euros(text: &str) -> Money {
    read_money(text, &KITCHEN.household.currency).expect("money")
}

pub fn sized(count: u32, size: &str, cost: &str) -> PackLine {
    PackLine { what: Packed::Packs { count, size: g(1.0), single: g(1.0), label: size.into() }, offer: None, cost: euros(cost) }
}

pub fn loose(amount: Quantity, cost: &str) -> PackLine {
    PackLine { what: Packed::Loose(amount), offer: None, cost: euros(cost) }
}

pub fn line(name: &str, need: Quantity, packs: Vec<PackLine>, what_for: &[&str]) -> ListLine {
    line_of(food(name), need, packs, what_for)
}

pub fn line_of(food: FoodId, need: Quantity, packs: Vec<PackLine>, what_for: &[&str]) -> ListLine {
    ListLine {
        food,
        left: need.scaled(0.0),
        left_until: None,
        short: need.scaled(0.0),
        demand: need.clone(),
        need,
        cost: packs.first().map(|pack| pack.cost),
        packs,
        last_used: None,
        what_for: what_for.iter().map(|text| (*text).to_owned()).collect(),
        top_up: false,
        asked: None,
        about: None,
        fresh: false,
        own_words: Vec::new(),
        windows: None,
        optional: false,
        instead: Vec::new(),
        without: None,
        beware: None,
    }
}

fn fresh(line: ListLine, until: Date) -> ListLine {
    ListLine { fresh: true, last_used: Some(until), ..line }
}

fn section(name: &str, lines: Vec<ListLine>) -> Section {
    Section { section: name.into(), lines }
}

fn offered(pack: PackLine, buy: u32, pay: &str) -> PackLine {
    PackLine { offer: Some(OfferTaken { offer: Offer { buy, pay: euros(pay) }, times: 1 }), ..pack }
}

/// One pack of one size on each of these days.
fn windows_of(days: &[Date]) -> Windows {
    let opening = |day: &Date| Opening { on: Some(*day), packs: vec![PackCount { count: 1, label: "500 g".into() }] };
    Windows { openings: days.iter().map(opening).collect(), over: Vec::new(), several: false }
}

fn quay_market() -> ShopVisit {
    let onion = ListLine {
        about: Some(8),
        ..line("onion", g(830.0), vec![sized(1, "1 kg", "1.29")], &["White-bean mash", "Leek and potato soup"])
    };
    let vegetables = vec![
        fresh(onion, december(2)),
        fresh(line("carrot", g(740.0), vec![loose(g(800.0), "1.12")], &["Roast beetroot and carrots"]), november(29)),
        line("beetroot", g(900.0), vec![sized(1, "500 g", "1.40"), sized(2, "250 g", "1.60")], &["Roast beetroot and carrots"]),
        fresh(
            line("red cabbage", Quantity::pieces(1.0), vec![loose(Quantity::pieces(1.0), "1.80")], &["Red cabbage and apple slaw"]),
            december(3),
        ),
        fresh(line("leek", g(450.0), vec![sized(1, "500 g", "1.99")], &["Leek and potato soup"]), december(1)),
        line("potato", g(1200.0), vec![sized(1, "1.5 kg", "2.20")], &["Leek and potato soup"]),
        line("garlic", Quantity::pieces(1.0), vec![sized(1, "3", "0.90")], &["White-bean mash", "Red-pepper sauce"]),
    ];
    let dairy = vec![
        ListLine {
            windows: Some(windows_of(&[november(29), december(4)])),
            ..fresh(line("yoghurt", g(600.0), vec![sized(2, "500 g", "2.10")], &["Herb yoghurt"]), december(4))
        },
        line("feta", g(180.0), vec![sized(1, "200 g", "2.29")], &["Barley plates"]),
        ListLine { top_up: true, ..line("oat milk", Quantity::millilitres(2000.0), vec![sized(2, "1 l", "3.10")], &["Overnight oats"]) },
    ];
    let tins = vec![
        line("tinned white beans", g(1200.0), vec![offered(sized(3, "400 g", "2.00"), 3, "2.00")], &["White-bean mash"]),
        ListLine {
            // More than a twentieth: less is not told on paper.
            short: g(45.0),
            ..line("chopped tomatoes", g(820.0), vec![sized(2, "400 g", "1.58")], &["Chicken thighs braised with tomatoes and olives"])
        },
    ];
    let meat = vec![fresh(
        line("boneless chicken thighs", g(1250.0), vec![loose(g(1250.0), "11.19")], &["Chicken thighs braised with tomatoes and olives"]),
        november(29),
    )];
    ShopVisit {
        at: Some(Stop { shop: QUAY, fare: Money::ZERO, cost: euros("33.26") }),
        sections: vec![section("Vegetables", vegetables), section("Meat", meat), section("Dairy", dairy), section("Tins", tins)],
    }
}

fn mill_stores() -> ShopVisit {
    let grains = vec![
        line("pearl barley", g(250.0), vec![sized(1, "500 g", "1.15")], &["Pearl barley"]),
        line("rolled oats", g(320.0), vec![sized(1, "1 kg", "1.99")], &["Overnight oats"]),
        line("strong white flour", g(600.0), vec![sized(1, "1.5 kg", "1.70")], &["Flatbreads"]),
    ];
    ShopVisit {
        at: Some(Stop { shop: MILL, fare: euros("1.50"), cost: euros("6.34") }),
        sections: vec![section("Grains and pulses", grains)],
    }
}

fn no_shop() -> ShopVisit {
    let mut rosemary = line("rosemary", Quantity::words(2.0, "sprig"), Vec::new(), &["White-bean mash"]);
    rosemary.cost = None;
    let mut salt = line("flaky salt", g(0.0), Vec::new(), &["Flatbreads"]);
    salt.own_words = vec!["flaky salt, to taste".into()];
    ShopVisit { at: None, sections: vec![section("Herbs", vec![rosemary]), section("Other", vec![salt])] }
}

pub fn list() -> ShoppingList {
    ShoppingList {
        short: vec![],
        week: WEEK.into(),
        from: november(30),
        cost: euros("39.60"),
        trips: vec![TripList {
            on: november(28),
            cost: euros("39.60"),
            planned: true,
            not_booked: Vec::new(),
            nth: 0,
            before: None,
            state: None,
            shops: vec![quay_market(), mill_stores(), no_shop()],
        }],
        reserved: Vec::new(),
        from_pantry: vec![
            FromPantry {
                of: Ware::Food(food("pearl barley")),
                amount: g(350.0),
                lies: g(350.0),
                is_all: true,
                place: Place::Cupboard,
                on: november(29),
                what_for: vec!["Pearl barley".into()],
                look_first: true,
                whose: None,
            },
            FromPantry {
                of: Ware::Recipe(SAUCE),
                amount: Quantity::portions(3.0),
                lies: Quantity::portions(3.0),
                is_all: true,
                place: Place::Freezer,
                on: december(1),
                what_for: vec!["Tue supper".into()],
                look_first: false,
                whose: None,
            },
        ],
        days: vec![],
        meals: Vec::new(),
        expiring: vec![Expiring {
            whose: None,
            of: Ware::Food(food("feta")),
            amount: g(100.0),
            place: Place::Fridge,
            until: Some(november(30)),
            past: false,
            lies_past: false,
        }],
        no_price: vec![food("rosemary")],
        spare: vec![Spare { recipe: MASH, amount: Quantity::portions(0.5), made_on: november(29), eat_by: december(2), frozen: false }],
        ask: vec![food("olive oil"), food("flour")],
        moves: vec![Move {
            on: december(2),
            recipe: BARLEY,
            whose: None,
            amount: Quantity::portions(3.0),
            what_for: Vec::new(),
            late: false,
        }],
        flags: vec![Flag { food: food("spinach"), why: Untimely::TooEarly { before: Days(5), keeps: Days(3) } }],
        leaves: Default::default(),
        budget: None,
        compare: None,
        warnings: vec![Warning::UnknownFood {
            at: Spot { file: "recipes/flatbreads.toml".into(), line: 9, column: 0 },
            food: "flaky salt".into(),
            nearest: vec!["salt".into()],
        }],
    }
}
