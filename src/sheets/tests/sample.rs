//! A small week on Boatyard Row, as lists and plans already computed.

use std::sync::LazyLock;

use jiff::civil::{Date, date};

use crate::foods::{Allergen, FoodId, Place};
use crate::kitchen::fixture::{empty_kitchen, recipe};
use crate::kitchen::{Appliance, ApplianceId, Kitchen, Names, Paper, Person, Recipe, RecipeId, Spot, Ware};
use crate::measure::{Celsius, Minutes, Quantity, Units};
use crate::plan::Contains;
use crate::prep::{
    self, Advice, Batch, Before, BoxNote, BoxTask, Boxes, Care, Change, Cut, Errand, Fetch, Kept, Moment, Note, PersonId, SessionPlan,
    StepTask, Task,
};
use crate::purchase::{Expiring, Flag, FromPantry, ListLine, MoveNote, PackLine, Section, ShopVisit, ShoppingList, SpareNote, TripList};
use crate::sheets::{Settings, Size};

pub const A4: Settings = Settings { paper: Paper::A4, units: Units::Metric, size: Size::Normal, fold: false };
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

pub fn sized(count: u32, size: &str, cost: &str) -> PackLine {
    PackLine { size: size.into(), count, offer: None, cost: Some(cost.into()), amount: None, offer_text: None }
}

pub fn loose(amount: Quantity, cost: &str) -> PackLine {
    PackLine { size: "loose".into(), count: 1, offer: None, cost: Some(cost.into()), amount: Some(amount), offer_text: None }
}

pub fn line(food: &str, need: Quantity, packs: Vec<PackLine>, what_for: &[&str]) -> ListLine {
    ListLine {
        food: food.into(),
        left: need.scaled(0.0),
        left_until: None,
        short: need.scaled(0.0),
        need,
        cost: packs.first().and_then(|pack| pack.cost.clone()),
        packs,
        last_used: None,
        what_for: what_for.iter().map(|text| (*text).to_owned()).collect(),
        about: None,
        fresh: false,
        own_words: Vec::new(),
        windows: None,
        beware: None,
    }
}

fn fresh(line: ListLine, until: Date) -> ListLine {
    ListLine { fresh: true, last_used: Some(until), ..line }
}

fn section(name: &str, lines: Vec<ListLine>) -> Section {
    Section { section: name.into(), lines }
}

fn offered(pack: PackLine, text: &str, times: u32) -> PackLine {
    PackLine { offer: Some(times), offer_text: Some(text.into()), ..pack }
}

fn quay_market() -> ShopVisit {
    let onion = ListLine {
        about: Some("about 8".into()),
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
            windows: Some("one for Sunday, one for Friday".into()),
            ..fresh(line("yoghurt", g(600.0), vec![sized(2, "500 g", "2.10")], &["Herb yoghurt"]), december(4))
        },
        line("feta", g(180.0), vec![sized(1, "200 g", "2.29")], &["Barley plates"]),
        line("oat milk", Quantity::millilitres(2000.0), vec![sized(2, "1 l", "3.10")], &["Overnight oats", "staple"]),
    ];
    let tins = vec![
        line("tinned white beans", g(1200.0), vec![offered(sized(3, "400 g", "2.00"), "3 for 2.00", 1)], &["White-bean mash"]),
        ListLine {
            short: g(20.0),
            ..line("chopped tomatoes", g(820.0), vec![sized(2, "400 g", "1.58")], &["Chicken thighs braised with tomatoes and olives"])
        },
    ];
    let meat = vec![fresh(
        line("boneless chicken thighs", g(1250.0), vec![loose(g(1250.0), "11.19")], &["Chicken thighs braised with tomatoes and olives"]),
        november(29),
    )];
    ShopVisit {
        shop: Some("Quay market".into()),
        trip_cost: Some("0.00".into()),
        cost: Some("33.26".into()),
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
        shop: Some("Mill stores".into()),
        trip_cost: Some("1.50".into()),
        cost: Some("6.34".into()),
        sections: vec![section("Grains and pulses", grains)],
    }
}

fn no_shop() -> ShopVisit {
    let mut rosemary = line("rosemary", Quantity::Words(2.0, "sprig".into()), Vec::new(), &["White-bean mash"]);
    rosemary.cost = None;
    let mut salt = line("flaky salt", g(0.0), Vec::new(), &["Flatbreads"]);
    salt.own_words = vec!["flaky salt, to taste".into()];
    ShopVisit { shop: None, trip_cost: None, cost: None, sections: vec![section("Herbs", vec![rosemary]), section("Other", vec![salt])] }
}

pub fn list() -> ShoppingList {
    ShoppingList {
        week: WEEK.into(),
        from: november(30),
        currency: "EUR".into(),
        cost: "39.60".into(),
        trips: vec![TripList { on: november(28), cost: "39.60".into(), shops: vec![quay_market(), mill_stores(), no_shop()] }],
        reserved: Vec::new(),
        from_pantry: vec![
            FromPantry {
                food: Some("pearl barley".into()),
                recipe: None,
                amount: g(350.0),
                place: Place::Cupboard,
                on: november(29),
                what_for: vec!["Pearl barley".into()],
                look_first: true,
            },
            FromPantry {
                food: None,
                recipe: Some("red-pepper-sauce".into()),
                amount: Quantity::portions(3.0),
                place: Place::Freezer,
                on: december(1),
                what_for: vec!["Tue supper".into()],
                look_first: false,
            },
        ],
        meals: Vec::new(),
        expiring: vec![Expiring { food: Some("feta".into()), recipe: None, amount: g(100.0), place: Place::Fridge, until: november(30) }],
        no_price: vec!["rosemary".into()],
        spare: vec![SpareNote {
            recipe: "white-bean-mash".into(),
            amount: Quantity::portions(0.5),
            made_on: november(29),
            eat_by: december(2),
        }],
        ask: vec!["olive oil".into(), "flour".into()],
        moves: vec![MoveNote { at: december(2), text: "Move 3 portions of pearl barley from the freezer to the fridge".into() }],
        flags: vec![Flag { food: "spinach".into(), text: "bought 5 days before it is used; keeps 3 days".into() }],
        leaves: Default::default(),
        budget: None,
        compare: None,
        warnings: vec!["recipes/flatbreads.toml:9: \"flaky salt\" is not a known food; it keeps its own name. Nearest known: salt.".into()],
    }
}

/// The household of all samples, with what they name.
pub static KITCHEN: LazyLock<Kitchen> = LazyLock::new(|| {
    let mut kitchen = empty_kitchen();
    kitchen.household.name = HOUSEHOLD.into();
    kitchen.recipes = RECIPES.map(|name| Recipe { name: name.into(), ..recipe(&name.to_lowercase().replace(' ', "-")) }).into();
    kitchen.appliances = APPLIANCES.map(appliance).into();
    for name in FOODS {
        kitchen.foods.intern_unknown(name);
    }
    kitchen
});

pub const LONG_DISH: &str = "Chicken thighs braised with tomatoes and olives, a red-pepper sauce and a little rosemary from the yard";

const RECIPES: [&str; 12] = [
    "White-bean mash",
    "Pearl barley",
    "Roast beetroot and carrots",
    "Chicken thighs braised with tomatoes and olives",
    "Flatbreads",
    "Red cabbage and apple slaw",
    "Baked fish with dill",
    "Leek and potato soup",
    "Herb yoghurt",
    "Frittata",
    "Red-pepper sauce",
    LONG_DISH,
];
const APPLIANCES: [&str; 3] = ["oven", "hob", "pressure cooker"];
const FOODS: [&str; 8] =
    ["pearl barley", "olive oil", "boneless chicken thighs", "white fish", "beetroot", "carrot", "garlic", "dried white beans"];

pub fn names() -> Names<'static> {
    KITCHEN.names()
}

pub fn appliance(name: &str) -> Appliance {
    let at = Spot::default();
    Appliance { name: name.into(), room: 2, heat: false, near: 10.0, warm_up: Minutes(0), out: Minutes(1), holds: None, kind: None, fan: false, at }
}

pub fn dish(name: &str) -> RecipeId {
    RecipeId(RECIPES.iter().position(|known| *known == name).expect("a recipe of the sample"))
}

fn food(name: &str) -> FoodId {
    KITCHEN.foods.find(name).expect("a food of the sample")
}

fn on(name: &str) -> ApplianceId {
    ApplianceId(APPLIANCES.iter().position(|known| *known == name).expect("an appliance of the sample"))
}

/// Of the cook and Jo.
fn who(name: &str) -> PersonId {
    PersonId(usize::from(name == "Jo"))
}

pub fn before() -> Vec<Before> {
    let text = "Soak 300 g dried white beans in cold water".into();
    let soak = Errand::Step { recipe: dish("White-bean mash"), step: 0, text };
    let thaw = Errand::Thaw { food: food("white fish"), amount: Quantity::pieces(4.0) };
    vec![Before { at: Moment::At(november(29).at(2, 0, 0, 0)), errand: soak }, Before { at: Moment::On(november(28)), errand: thaw }]
}

pub struct Doing<'a> {
    pub dish: &'a str,
    pub step: usize,
    pub at: i64,
    pub hands: i64,
    pub wait: i64,
    pub out: i64,
    pub who: &'a str,
    pub on: Option<&'a str>,
    pub celsius: Option<f64>,
    pub text: &'a str,
}

pub fn task(doing: &Doing) -> Task {
    let verb = doing.text.split(' ').next().unwrap_or_default().to_owned();
    Task {
        what: prep::Doing::Step(StepTask {
            recipe: dish(doing.dish),
            step: doing.step - 1,
            round: 0,
            rounds: 1,
            text: doing.text.to_owned(),
            verb,
        }),
        start_minute: doing.at,
        hands_minutes: doing.hands,
        out_minutes: doing.out,
        end_minute: doing.at + doing.hands + doing.wait + doing.out,
        person: (doing.hands > 0).then(|| who(doing.who)),
        out_person: (doing.out > 0).then(|| who(doing.who)),
        on: doing.on.map(on).into_iter().collect(),
        takes: doing.on.map(|_| 1),
        at: doing.celsius.map(Celsius),
        notes: Vec::new(),
        after: Vec::new(),
    }
}

#[rustfmt::skip]
const AFTERNOON: [Doing; 11] = [
    Doing { dish: "Roast beetroot and carrots", step: 1, at: 0, hands: 12, wait: 0, out: 0, who: "cook", on: None, celsius: None, text: "Peel 900 g beetroot and 740 g carrot and cut them into wedges." },
    Doing { dish: "Roast beetroot and carrots", step: 2, at: 12, hands: 3, wait: 45, out: 1, who: "cook", on: Some("oven"), celsius: Some(190.0), text: "Toss with 45 ml olive oil and 1 tsp salt on two trays and roast until tender." },
    Doing { dish: "Chicken thighs braised with tomatoes and olives", step: 1, at: 15, hands: 14, wait: 0, out: 0, who: "cook", on: Some("hob"), celsius: None, text: "Brown 1.25 kg boneless chicken thighs in 30 ml olive oil, in two lots, until golden." },
    Doing { dish: "Chicken thighs braised with tomatoes and olives", step: 2, at: 29, hands: 6, wait: 50, out: 1, who: "cook", on: Some("hob"), celsius: None, text: "Add 820 g chopped tomatoes and 150 g olives, cover, and simmer." },
    Doing { dish: "Pearl barley", step: 1, at: 35, hands: 3, wait: 35, out: 1, who: "cook", on: Some("pressure cooker"), celsius: None, text: "Rinse 350 g pearl barley, cover with 1.05 l water and cook under pressure." },
    Doing { dish: "Flatbreads", step: 1, at: 60, hands: 10, wait: 30, out: 0, who: "Jo", on: None, celsius: None, text: "Mix 600 g strong white flour, 360 g yoghurt and 9 g salt to a soft dough; knead and cover." },
    Doing { dish: "White-bean mash", step: 1, at: 61, hands: 6, wait: 0, out: 0, who: "cook", on: Some("hob"), celsius: None, text: "Warm 60 ml olive oil with 6 cloves garlic and 2 sprigs rosemary until it smells sweet." },
    Doing { dish: "White-bean mash", step: 2, at: 67, hands: 7, wait: 0, out: 0, who: "cook", on: None, celsius: None, text: "Mash 1.2 kg tinned white beans into the oil; season." },
    Doing { dish: "Red cabbage and apple slaw", step: 1, at: 76, hands: 15, wait: 0, out: 0, who: "Jo", on: None, celsius: None, text: "Shred 1 red cabbage and 3 apples; dress with 40 ml vinegar." },
    Doing { dish: "Baked fish with dill", step: 1, at: 82, hands: 4, wait: 16, out: 1, who: "cook", on: Some("oven"), celsius: Some(180.0), text: "Lay 4 pieces of white fish on 1 bunch dill, cover and bake." },
    Doing { dish: "Flatbreads", step: 2, at: 104, hands: 24, wait: 0, out: 0, who: "Jo", on: Some("hob"), celsius: None, text: "Roll into 12 rounds and bake each in a dry hot pan, one minute a side." },
];

fn set_oven(at: i64, minutes: i64, celsius: f64) -> Task {
    Task {
        what: prep::Doing::Set,
        start_minute: at,
        hands_minutes: 0,
        out_minutes: 0,
        end_minute: at + minutes,
        person: Some(who("cook")),
        out_person: None,
        on: vec![on("oven")],
        takes: None,
        at: Some(Celsius(celsius)),
        notes: Vec::new(),
        after: Vec::new(),
    }
}

fn boxing(name: &str, at: i64) -> Task {
    let doing = Doing { dish: name, step: 1, at, hands: 3, wait: 0, out: 0, who: "cook", on: None, celsius: None, text: "" };
    let into = vec![Kept { amount: Quantity::portions(6.0), place: Place::Fridge }];
    Task { what: prep::Doing::Box(BoxTask { recipe: dish(name), into }), ..task(&doing) }
}

/// What nobody knows of a stock.
pub fn milk_and_stock() -> Contains {
    Contains { allergens: [Allergen::Milk].into(), unknown: ["vegetable stock".to_owned()].into() }
}

fn fetched(name: &str, amount: Quantity, place: Option<Place>) -> Fetch {
    Fetch { of: Ware::Food(food(name)), amount, place, look_first: name == "pearl barley" }
}

fn people() -> Vec<Person> {
    let person = |name: &str, role: &str| Person { name: name.into(), role: role.into(), from: None, until: None, may: None };
    let (from, until) = (Some(november(29).at(15, 0, 0, 0)), Some(november(29).at(16, 10, 0, 0)));
    vec![person("cook", "cook"), Person { from, until, ..person("Jo", "helper") }]
}

fn boxed(name: &str, portions: f64, place: Place, use_by: Date) -> BoxNote {
    BoxNote {
        recipe: dish(name),
        amount: Quantity::portions(portions),
        place,
        use_by,
        what_for: Vec::new(),
        boxes: None,
        contains: milk_and_stock(),
        beware: None,
    }
}

fn tubs(count: usize) -> Option<Boxes> {
    Some(Boxes { count, kind: "flat tub".into() })
}

pub fn session() -> SessionPlan {
    let mut tasks: Vec<Task> = AFTERNOON.iter().map(task).collect();
    tasks[2].notes = vec![Note::Wash];
    tasks[3].notes = vec![Note::Inside(Celsius(74.0))];
    tasks[1].takes = Some(2);
    tasks.extend([set_oven(0, 12, 190.0), set_oven(74, 8, 180.0)]);
    tasks.extend([boxing("White-bean mash", 128), boxing("Pearl barley", 131), boxing("Roast beetroot and carrots", 134)]);
    tasks.sort_by_key(|task| (task.start_minute, task.end_minute));
    let start = november(29).at(14, 0, 0, 0);
    SessionPlan {
        start,
        finish_by: Some(november(29).at(17, 30, 0, 0)),
        finish: november(29).at(16, 17, 0, 0),
        minutes: 137,
        bound_minutes: 137,
        proven: true,
        people: people(),
        batches: vec![
            Batch { recipe: dish("White-bean mash"), batches: 1.5, makes: Quantity::portions(9.0) },
            Batch { recipe: dish("Pearl barley"), batches: 1.0, makes: Quantity::portions(6.0) },
        ],
        tasks,
        fetch: vec![
            fetched("pearl barley", g(350.0), Some(Place::Cupboard)),
            fetched("olive oil", Quantity::millilitres(135.0), Some(Place::Cupboard)),
            fetched("boneless chicken thighs", g(1250.0), Some(Place::Fridge)),
            fetched("white fish", Quantity::pieces(4.0), Some(Place::Fridge)),
            fetched("beetroot", g(900.0), None),
            fetched("carrot", g(740.0), None),
        ],
        cuts: vec![
            Cut { food: food("beetroot"), amount: g(900.0), cut: "in wedges".into(), step: 1 },
            Cut { food: food("garlic"), amount: Quantity::Words(6.0, "clove".into()), cut: "sliced".into(), step: 7 },
        ],
        boxes: vec![
            BoxNote {
                what_for: vec!["Mon supper".into(), "Wed lunch".into()],
                boxes: tubs(2),
                ..boxed("White-bean mash", 6.0, Place::Fridge, december(2))
            },
            BoxNote {
                what_for: vec!["Fri supper".into()],
                boxes: tubs(1),
                ..boxed("White-bean mash", 3.0, Place::Freezer, date(2027, 1, 28))
            },
            BoxNote { what_for: vec!["Mon supper".into()], ..boxed("Pearl barley", 6.0, Place::Fridge, december(3)) },
        ],
        cautions: vec![
            Care::Rule {
                text: "Chill cooked food within two hours, in shallow boxes; fridge at 4 °C (40 °F) or below.",
                figures: vec![],
                source: "USDA FSIS",
            },
            Care::Rule {
                text: "Pressure cooker: no more than two thirds full, half for foods that swell; let steam off away from hands.",
                figures: vec![],
                source: "common practice",
            },
            Care::Rule { text: "Knives: cut on a board that does not slip, fingertips bent.", figures: vec![], source: "common practice" },
            Care::LocalRules,
        ],
        advice: vec![Advice::Remedy { change: Change::OneMorePerson, end: start, over: 0 }],
    }
}
