//! A Sunday afternoon on Boatyard Row, as a plan already made.

use jiff::civil::{Date, date};

use super::sample::{APPLIANCES, dish, food, g};
use crate::foods::{Allergen, Place};
use crate::kitchen::{ApplianceId, Person, Ware};
use crate::measure::{Celsius, Quantity};
use crate::plan::Contains;
use crate::prep::{
    self, Advice, Batch, Before, BoxNote, BoxTask, Boxes, Care, Change, Cut, Errand, Fetch, Kept, Moment, Note, PersonId, SessionPlan,
    StepTask, Task,
};

fn on(name: &str) -> ApplianceId {
    ApplianceId(APPLIANCES.iter().position(|known| *known == name).expect("an appliance of the sample"))
}

/// Of the cook and Jo.
fn who(name: &str) -> PersonId {
    PersonId(usize::from(name == "Jo"))
}

pub fn before() -> Vec<Before> {
    let text = "Soak 300 g dried white beans in cold water".into();
    let soak = Errand::Step { recipe: dish("White-bean mash"), step: 0, text, bought: vec![] };
    let thaw = Errand::Thaw { food: food("white fish"), amount: Quantity::pieces(4.0) };
    vec![
        Before { at: Moment::At(date(2026, 11, 29).at(2, 0, 0, 0)), errand: soak },
        Before { at: Moment::On(date(2026, 11, 28)), errand: thaw },
    ]
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
            part: None,
            verb,
            uses: Vec::new(),
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
    Task { what: prep::Doing::Box(BoxTask { recipe: dish(name), into, by: None, stood: None }), ..task(&doing) }
}

/// What nobody knows of a stock.
pub fn milk_and_stock() -> Contains {
    Contains { allergens: [Allergen::Milk].into(), unknown: ["vegetable stock".to_owned()].into(), ..Contains::default() }
}

fn fetched(name: &str, amount: Quantity, place: Option<Place>) -> Fetch {
    Fetch { of: Ware::Food(food(name)), amount, place, look_first: name == "pearl barley", is_short: false }
}

fn people() -> Vec<Person> {
    let person = |name: &str, role: &str| Person { name: name.into(), role: role.into(), from: None, until: None, may: None };
    let (from, until) = (Some(date(2026, 11, 29).at(15, 0, 0, 0)), Some(date(2026, 11, 29).at(16, 10, 0, 0)));
    vec![person("cook", "cook"), Person { from, until, ..person("Jo", "helper") }]
}

fn boxed(name: &str, portions: f64, place: Place, use_by: Date) -> BoxNote {
    BoxNote {
        eater: None,
        without: vec![],
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
    let start = date(2026, 11, 29).at(14, 0, 0, 0);
    SessionPlan {
        start,
        finish_by: Some(date(2026, 11, 29).at(17, 30, 0, 0)),
        served: vec![],
        finish: date(2026, 11, 29).at(16, 17, 0, 0),
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
            Cut { food: food("beetroot"), name: "beetroot".into(), amount: g(900.0), counted: None, cut: "in wedges".into(), step: 1 },
            Cut {
                food: food("garlic"),
                name: "garlic".into(),
                amount: Quantity::words(6.0, "clove"),
                counted: None,
                cut: "sliced".into(),
                step: 7,
            },
        ],
        set_aside: vec![],
        boxes: vec![
            BoxNote {
                what_for: vec!["Mon supper".into(), "Wed lunch".into()],
                boxes: tubs(2),
                ..boxed("White-bean mash", 6.0, Place::Fridge, date(2026, 12, 2))
            },
            BoxNote {
                what_for: vec!["Fri supper".into()],
                boxes: tubs(1),
                ..boxed("White-bean mash", 3.0, Place::Freezer, date(2027, 1, 28))
            },
            BoxNote { what_for: vec!["Mon supper".into()], ..boxed("Pearl barley", 6.0, Place::Fridge, date(2026, 12, 3)) },
        ],
        theirs: vec![],
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
        rest: None,
        slower: Vec::new(),
        said: Vec::new(),
        begun: vec![],
    }
}
