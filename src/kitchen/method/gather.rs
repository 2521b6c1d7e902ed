//! Clauses gathered into steps, with what they come after.
//!
//! A step without a known action keeps its words in the step before it. A time by weight ("20 minutes per 500 g") is
//! told, never reckoned.

use super::act::{Known, On, So, Takes};
use super::clauses::Clause;
use super::clock::times;
use super::dish::Dishes;
use super::headings::{headings, printed};
use super::larder::Larder;
use super::places::Kind;
use super::ways::{Label, label};
use super::whereabouts::Whereabouts;
use super::{MethodRead, Paragraph, Setting, name_fellows};
use crate::kitchen::words::Words;
use crate::kitchen::{ApplianceId, Piece, Spot};
use crate::measure::Celsius;

mod clause;
mod draft;
mod fill;
mod finish;
mod first;
mod heat;
mod objects;
mod order;
mod pressure;
mod told;

use self::draft::Draft;
pub(super) use self::draft::{Made, Placed, blank};
use self::objects::Objects;
use self::told::shaped;

/// More hands than this before an appliance is needed are a step of their own.
const MOST_HANDS_BEFORE: f64 = 2.0;

pub(super) struct Gather<'s, 'k> {
    pub(super) setting: &'s Setting<'k>,
    pub(super) larder: Larder<'k>,
    own: Vec<Known>,
    /// Which of a kind was named last by its own name.
    chosen: Vec<(Kind, ApplianceId)>,
    pub(super) made: Vec<Made>,
    serve: Vec<String>,
    doubts: Vec<(Spot, String)>,
    so: So,
    whereabouts: Whereabouts,
    dishes: Dishes,
    oven: Option<(Celsius, bool)>,
    /// What the step before came after, and the ends of the branches that are open.
    base: Vec<usize>,
    open: Vec<usize>,
    branch: Branch,
    /// Words that no step has yet.
    lead: String,
    last_foods: Vec<usize>,
    /// The last clause was about the heat.
    heat_set_last: bool,
    /// The work on the board that clauses do, by food.
    pub(super) done: Vec<(usize, &'static str)>,
    /// What is named at the table.
    at_table: Vec<usize>,
    /// "On 2 trays".
    trays: Option<f64>,
    /// What was cut.
    pub(super) cut: Vec<usize>,
    /// Doubts of the paragraph that is read.
    untold: Vec<String>,
    /// What the first thing on the heat is done to, where only later words name it.
    objects: Option<Objects>,
    /// How many clauses name each food.
    named_in: Vec<usize>,
    /// The number of the clause that is read, over all paragraphs.
    clauses_read: usize,
    /// "Meanwhile, heat the grill", "meanwhile, make the sauce": what is done beside comes with the next sentence.
    heats_meanwhile: bool,
    /// The pieces that a dough or a mixture was made into: "divide into 6".
    shaped: Option<f64>,
    /// The pressure cooker has cooked under pressure, and nothing has said yet that it is opened or released.
    closed: bool,
    /// Since then something else was done, somewhere else.
    works_elsewhere: bool,
}

impl<'s, 'k> Gather<'s, 'k> {
    /// `fan`: the oven has one.
    pub fn new(setting: &'s Setting<'k>, fan: bool) -> Self {
        let larder = Larder::new(setting.ingredients, setting.headings, setting.foods, setting.spoons, setting.recipe_name);
        let so = So { fan, ..So::default() };
        Gather {
            whereabouts: Whereabouts::new(setting.ingredients.len(), Vec::new()),
            dishes: Dishes::default(),
            setting,
            larder,
            own: Known::all(setting.appliances),
            chosen: Vec::new(),
            made: Vec::new(),
            serve: Vec::new(),
            doubts: Vec::new(),
            so,
            oven: None,
            base: Vec::new(),
            open: Vec::new(),
            branch: Branch::None,
            lead: String::new(),
            last_foods: Vec::new(),
            heat_set_last: false,
            done: Vec::new(),
            at_table: Vec::new(),
            trays: None,
            cut: Vec::new(),
            untold: Vec::new(),
            objects: None,
            named_in: Vec::new(),
            clauses_read: 0,
            heats_meanwhile: false,
            shaped: None,
            closed: false,
            works_elsewhere: false,
        }
    }

    pub fn read(mut self, paragraphs: &[Paragraph]) -> MethodRead {
        let first = self.first_reading(paragraphs);
        self.whereabouts = Whereabouts::new(self.setting.ingredients.len(), first.never_used);
        self.larder.note_names(&first.by_name, &first.at_table);
        (self.objects, self.named_in) = self.objects_of_the_first_heat(&first.seen);
        let headings = headings(paragraphs);
        for (number, paragraph) in paragraphs.iter().enumerate() {
            if headings[number] {
                let heading = printed(paragraph);
                self.lead = if self.lead.is_empty() { heading } else { format!("{} {heading}", self.lead) };
                continue;
            }
            self.paragraph(number, paragraph);
        }
        if !self.lead.is_empty() {
            let lead = std::mem::take(&mut self.lead);
            match self.made.last_mut() {
                Some(last) => last.step.text.push(Piece::Words(format!(" {lead}"))),
                None => self.words_alone(lead, paragraphs),
            }
        }
        self.tell_what_stands_empty(paragraphs);
        name_fellows(self.made.iter_mut().map(|made| &mut made.step), self.setting.ingredients, &self.at_table);
        self.soak_beforehand(paragraphs);
        self.cut_beforehand();
        self.wait_for_nobody();
        self.put_ahead();
        self.take_room();
        self.reach_inside();
        let shares = self.unfinished();
        self.doubts.extend(shares);
        self.tell_what_nobody_cooks();
        self.told()
    }

    /// A method of nothing but notes.
    pub fn words_only(mut self, paragraphs: &[Paragraph]) -> MethodRead {
        let texts: Vec<&str> = paragraphs.iter().map(|paragraph| paragraph.text.trim()).collect();
        self.words_alone(texts.join(" ").replace('{', "(").replace('}', ")"), paragraphs);
        self.told()
    }

    fn told(self) -> MethodRead {
        let steps = self.made.into_iter().map(|made| made.step).collect();
        MethodRead { steps, serve: self.serve, notes: Vec::new(), doubts: self.doubts }
    }

    /// A method of which nothing is understood stays one step of words.
    fn words_alone(&mut self, text: String, paragraphs: &[Paragraph]) {
        let at = paragraphs.first().map(|paragraph| paragraph.at.clone()).unwrap_or_default();
        self.doubts.push((at.clone(), "nothing in this method reads as something to do; it is printed as it stands".to_owned()));
        let step = blank(vec![Piece::Words(text)], at);
        self.made.push(Made::of_words(step));
    }

    fn paragraph(&mut self, number: usize, paragraph: &Paragraph) {
        let w = Words::of(&paragraph.text);
        let found = self.clauses(&w);
        let mut draft = Draft::default();
        let mut sentence = usize::MAX;
        self.heat_set_last = false;
        for (index, clause) in found.iter().enumerate() {
            let mut clause = *clause;
            if let Some(label) = self.label_of(&w, &clause, &found[index + 1..]) {
                self.finish(&w, &mut draft, paragraph);
                let words = w.text(clause.start..label.end);
                self.lead = if self.lead.is_empty() { words.to_owned() } else { format!("{} {words}", self.lead) };
                self.so.labelled = label.kind.map(On::Kind);
                if clause.end == label.end {
                    self.clauses_read += 1;
                    continue;
                }
                clause =
                    Clause { start: label.end, verb_at: clause.verb_at.max(label.end), verb_end: clause.verb_end.max(label.end), ..clause };
            }
            let clause = &clause;
            if clause.sentence != sentence {
                sentence = clause.sentence;
                // "Meanwhile, heat the grill. Grill the salmon": what was not touched yet is done beside.
                let goes_on = self.heats_meanwhile && draft.is_empty() && self.begins_with_something_new(&w, clause)
                    || self.only_makes_ready(&draft) && !self.names_what_goes_on(&w, clause);
                self.heats_meanwhile = false;
                if self.branch != Branch::None && !goes_on {
                    self.finish(&w, &mut draft, paragraph);
                    self.end_branch();
                }
                // "Turn the heat to its lowest. Leave for 10 minutes."
                self.so.turned_down &= self.heat_set_last;
            }
            // "Rest while you make the gravy": of which the method says no more.
            if clause.meanwhile && !draft.is_empty() && self.says_no_more(&w, clause) {
                self.heat_beside(&w, clause, number);
                draft.add(clause.start, clause.end);
                self.clauses_read += 1;
                continue;
            }
            if clause.meanwhile {
                self.finish(&w, &mut draft, paragraph);
                if self.branch != Branch::None {
                    self.end_branch();
                }
                self.begin_branch();
                self.whereabouts.turn_to_another();
                self.dishes.turn_to_another();
            }
            let mut whereabouts = std::mem::replace(&mut self.whereabouts, Whereabouts::new(0, Vec::new()));
            let mut dishes = std::mem::take(&mut self.dishes);
            let read = self.act(&w, clause, number, self.so, (&mut whereabouts, &mut dishes));
            (self.whereabouts, self.dishes) = (whereabouts, dishes);
            self.shaped = shaped(&w, clause).or(self.shaped);
            let read = self.in_rounds(&w, clause, read, &draft, paragraph);
            let read = self.without_the_wait_of_the_next(&w, read, clause, found.get(index + 1));
            self.tell_figures(&w, clause, &read, &draft, paragraph);
            let only_says = read.takes == Takes::Words && draft.is_empty() && !self.names_a_food(&w, clause);
            self.heats_meanwhile |= (read.takes == Takes::Preheat || only_says) && self.branch == Branch::Begins;
            self.clause(&w, clause, read, &found[index + 1..], &mut draft, paragraph);
            self.opens_or_closes(&w, clause, &read);
            self.clauses_read += 1;
        }
        self.finish(&w, &mut draft, paragraph);
        self.end_branch();
        self.heats_meanwhile = false;
        self.so.labelled = None;
        self.dishes.turn_back();
        self.doubts.extend(std::mem::take(&mut self.untold).into_iter().map(|text| (paragraph.at.clone(), text)));
    }

    /// "MICROWAVE: prick the potatoes": where its paragraph happens, as far as nothing else is said.
    fn label_of(&self, w: &Words, clause: &Clause, next: &[Clause]) -> Option<Label> {
        let end = next.iter().take_while(|after| after.sentence == clause.sentence).last().map_or(clause.end, |last| last.end);
        label(w, clause.start, end).filter(|label| label.end <= clause.end)
    }

    /// "While you cook the rest": neither how long nor what.
    fn says_no_more(&self, w: &Words, clause: &Clause) -> bool {
        let begins = (clause.start..clause.verb_at).any(|at| w.is(at, "while") || w.is(at, "whilst"));
        begins && times(w, clause.start, clause.end).is_empty() && self.larder.mentions(w, clause.start, clause.end).is_empty()
    }

    /// "Meanwhile, heat a pan. Add the oil and the onion. Fry": a pan is ready beside, nothing has cooked in it yet, and the step goes on.
    fn only_makes_ready(&self, draft: &Draft) -> bool {
        self.branch == Branch::Begins && draft.on == Some(On::Kind(Kind::Hob)) && !draft.waits && !draft.cooks
    }

    fn names_a_food(&self, w: &Words, clause: &Clause) -> bool {
        !self.larder.mentions(w, clause.verb_end, clause.end).is_empty()
    }

    /// Does a clause name what was at hand before "meanwhile"?
    fn names_what_goes_on(&self, w: &Words, clause: &Clause) -> bool {
        let named = self.larder.mentions(w, clause.start, clause.end);
        named.iter().flat_map(|mention| &mention.foods).any(|food| self.dishes.is_main(*food))
    }

    /// Does a sentence begin with foods that are not in what goes on beside it?
    fn begins_with_something_new(&self, w: &Words, clause: &Clause) -> bool {
        let named: Vec<usize> =
            self.larder.mentions(w, clause.verb_end, clause.end).into_iter().flat_map(|mention| mention.foods).collect();
        !named.is_empty() && !named.iter().any(|food| self.dishes.is_main(*food) || self.last_foods.contains(food))
    }

    /// Is it named at the table, whatever else names it?
    pub(super) fn is_at_table(&self, food: usize) -> bool {
        self.at_table.contains(&food)
    }
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Branch {
    None,
    Begins,
    GoesOn,
}
