//! A step while it is gathered, and what is known of it once it is made.

use super::super::act::On;
use crate::kitchen::{ApplianceId, Estimates, Piece, Spot, Step};
use crate::measure::{Amount, Celsius, Minutes};

/// A step that is being gathered, always of one paragraph.
#[derive(Default)]
pub(super) struct Draft {
    /// Ranges of tokens.
    pub spans: Vec<(usize, usize)>,
    pub pieces: Vec<Placed>,
    pub foods: Vec<usize>,
    /// What was together on the heat.
    pub dish: Vec<usize>,
    pub hands_written: f64,
    pub hands_guessed: f64,
    pub wait: f64,
    pub wait_guessed: bool,
    pub waits: bool,
    pub on: Option<On>,
    /// Which of its kind that is.
    pub which: Option<ApplianceId>,
    pub celsius: Option<Celsius>,
    pub celsius_guessed: bool,
    pub inside: Option<Celsius>,
    pub knife: bool,
    pub one_layer: bool,
    /// Its wait is as long as nobody needs it: "chill until wanted".
    pub until_needed: bool,
    /// "4 hours or overnight", in the words of its clause.
    pub choice: Option<String>,
    pub overnight: bool,
    /// So many minutes before: "the day before", "two days before".
    pub day_before: i64,
    /// Begins with draining.
    pub drains: bool,
    /// Something is fried, boiled or baked in it, and not only made hot.
    pub cooks: bool,
    /// Heats what is none of the list.
    pub of_another: bool,
    /// What its words are done to, where only the clause after it names it: "dice and cook the carrots".
    pub borrowed: Vec<usize>,
    /// Foods that it handles without naming them, to be named before its words.
    pub front: Vec<usize>,
}

/// What takes the place of some tokens.
pub struct Placed {
    pub start: usize,
    pub end: usize,
    pub foods: Vec<(usize, Option<Amount>)>,
    pub group: bool,
    /// "Juice" where the method says lemon juice and the list has lemons.
    pub part: Option<&'static str>,
}

impl Draft {
    pub fn hands(&self) -> f64 {
        self.hands_written + self.hands_guessed
    }

    pub fn is_empty(&self) -> bool {
        self.spans.is_empty()
    }

    /// A night lies behind it.
    pub fn is_long(&self) -> bool {
        self.overnight || self.day_before > 0 || self.waits && self.on.is_none() && self.wait >= 240.0
    }

    pub fn add(&mut self, start: usize, end: usize) {
        match self.spans.last_mut() {
            Some(last) if last.1 == start => last.1 = end,
            _ => self.spans.push((start, end)),
        }
    }
}

/// What is known of a finished step beside the step itself.
pub struct Made {
    pub step: Step,
    /// Its wait is as long as nobody needs it.
    pub until_needed: bool,
    pub heated: bool,
    /// Waits in hot water: on the hob, or under pressure.
    pub boils: bool,
    pub stands: bool,
    /// "4 hours or overnight", in the words of its clause.
    pub choice: Option<String>,
    pub overnight: bool,
    pub day_before: i64,
    pub one_layer: bool,
    /// On so many trays, as the method says.
    pub trays: Option<f64>,
    pub foods: Vec<usize>,
    /// What was together on the heat.
    pub dish: Vec<usize>,
    /// Heats what is none of the list.
    pub of_another: bool,
}

impl Made {
    /// A step that heats nothing and waits for nothing.
    pub fn of_words(step: Step) -> Self {
        let [heated, boils, stands, overnight, one_layer, of_another] = [false; 6];
        Made {
            step,
            until_needed: false,
            heated,
            boils,
            stands,
            choice: None,
            overnight,
            day_before: 0,
            one_layer,
            trays: None,
            foods: Vec::new(),
            dish: Vec::new(),
            of_another,
        }
    }

    /// Hours lie between it and the next, or a night.
    pub fn is_long(&self) -> bool {
        self.overnight || self.day_before > 0 || self.step.wait.0 >= 120
    }
}

/// A step of which nobody said how long it takes: a minute.
pub fn blank(text: Vec<Piece>, at: Spot) -> Step {
    Step { hands: Minutes(1), estimated: Estimates { hands: true, ..Estimates::default() }, ..Step::of_words(text, at) }
}
