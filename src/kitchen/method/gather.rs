//! Clauses gathered into steps, with what they come after.
//!
//! A step without a known action keeps its words in the step before it. A time by weight ("20 minutes per 500 g") is
//! told, never reckoned.

use super::act::{Act, Known, On, So, Takes, act};
use super::clauses::{Clause, Names, clauses};
use super::clock::times;
use super::dish::Dishes;
use super::headings::{headings, printed};
use super::larder::Larder;
use super::places::Kind;
use super::text::{pieces, said};
use super::verbs::Way;
use super::ways::{Label, label};
use super::whereabouts::{About, Whereabouts};
use super::{MethodRead, Paragraph, Setting, name_fellows};
use crate::kitchen::words::Words;
use crate::kitchen::{ApplianceId, Piece, Spot};
use crate::measure::{Celsius, Kind as Sign};

mod draft;
mod fill;
mod finish;
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
    /// "Meanwhile, heat the grill": what is done beside comes with the next sentence.
    heats_meanwhile: bool,
    /// The pieces that a dough or a mixture was made into: "divide into 6".
    shaped: Option<f64>,
    /// The pressure cooker has cooked under pressure, and nothing has said yet that it is opened or released.
    closed: bool,
    /// Since then something else was done, somewhere else.
    works_elsewhere: bool,
}

impl<'s, 'k> Gather<'s, 'k> {
    pub fn new(setting: &'s Setting<'k>) -> Self {
        let larder = Larder::new(setting.ingredients, setting.headings, setting.foods, setting.spoons, setting.recipe_name);
        let so = So { fan: setting.appliances.iter().any(|one| one.fan && one.kind == Some(Kind::Oven)), ..So::default() };
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
        self.whereabouts = Whereabouts::new(self.setting.ingredients.len(), self.never_used(paragraphs));
        (self.objects, self.named_in) = self.objects_of_the_first_heat(paragraphs);
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

    /// A first reading, for the appliances that are heated and that nothing uses.
    fn never_used(&self, paragraphs: &[Paragraph]) -> Vec<usize> {
        let mut whereabouts = Whereabouts::new(self.setting.ingredients.len(), Vec::new());
        let mut so = self.so;
        let headings = headings(paragraphs);
        for (number, paragraph) in paragraphs.iter().enumerate().filter(|(number, _)| !headings[*number]) {
            let w = Words::of(&paragraph.text);
            for clause in self.clauses(&w) {
                if clause.meanwhile {
                    whereabouts.turn_to_another();
                }
                let read = self.act(&w, &clause, number, so, (&mut whereabouts, &mut Dishes::default()));
                so.place = read.place.unwrap_or(so.place);
                so.slow |= read.slow;
            }
        }
        whereabouts.never_used()
    }

    fn clauses(&self, w: &Words) -> Vec<Clause> {
        clauses(w, &Names { begins: &|at| self.larder.begins(w, at), whole: &|at| self.larder.is_named_whole(w, at) })
    }

    /// Reads one clause, and notes where it leaves its foods.
    fn act(&self, w: &Words, clause: &Clause, paragraph: usize, so: So, noted: (&mut Whereabouts, &mut Dishes)) -> Act {
        if clause.supposed || clause.is_forbidden(w) {
            return act(w, clause, so, &self.own).supposed();
        }
        if clause.optional {
            let read = act(w, clause, so, &self.own);
            if read.is_work() {
                return Act { left_out: true, ..read.supposed() };
            }
        }
        let (whereabouts, dishes) = noted;
        let beside = clause.opens_beside(w);
        let from = if beside || clause.verb_at == clause.start { clause.verb_at } else { clause.start };
        let mut mentions = self.larder.mentions(w, from, clause.verb_at);
        mentions.extend(self.larder.mentions(w, clause.verb_end, clause.end));
        let foods: Vec<(usize, usize)> =
            mentions.iter().flat_map(|mention| mention.foods.iter().map(|food| (*food, mention.start))).collect();
        let boiled = |food: usize| {
            matches!(self.larder.kind(food), Some(crate::foods::Kind::Grain | crate::foods::Kind::Pulse | crate::foods::Kind::RawEgg))
        };
        let boils = foods.iter().all(|(food, _)| boiled(*food)) && !foods.is_empty();
        let about = About { w, clause, foods: &foods, boils, other: foods.is_empty() && self.is_of_something_else(w, clause) };
        let so = whereabouts.before(&about, paragraph, so);
        let mut read = act(w, clause, so, &self.own);
        read.conditional = clause.conditional && read.time.is_some();
        if let (true, Takes::Wait { written, .. }) = (read.conditional, &mut read.takes) {
            *written = false;
        }
        self.stays_under_pressure(&about, dishes, &mut read);
        whereabouts.after(&about, &mut read, so.place);
        dishes.take(&about, &read);
        read.of_another = about.other;
        read
    }

    /// "Warm the plates", "toast the bread", "make the gravy": what is heated or made is none of the list.
    fn is_of_something_else(&self, w: &Words, clause: &Clause) -> bool {
        const BEFORE: [&str; 10] = ["the", "a", "an", "some", "your", "plenty", "of", "up", "serving", "dinner"];
        const BESIDE: [&str; 8] = ["plate", "platter", "gravy", "sauce", "dressing", "salsa", "topping", "dumpling"];
        let Some(verb) = clause.verb else { return false };
        let makes = verb.word == "make";
        let heats = matches!(verb.way, Way::Wait(..) | Way::HandsOn(_) | Way::Heat) || verb.word == "warm";
        let passed = |at: &usize| BEFORE.iter().any(|word| w.is(*at, word)) || w.at(*at).is_some_and(|token| token.text.ends_with("ly"));
        let passed = |at: &usize| passed(at) || w.number(*at).is_ok_and(|number| number.is_some());
        let at = clause.verb_end + (clause.verb_end..clause.end).take_while(passed).count();
        if at >= clause.end || !(heats || makes) {
            return false;
        }
        let beside = BESIDE.iter().any(|word| w.key_at(at) == *word);
        let food = || w.food(at, self.setting.foods).and_then(|(food, _)| self.setting.foods[food].kind);
        use crate::foods::Kind as Food;
        // "Heat some oil, fry for 5 minutes" goes on with what was cut before.
        let apart =
            |kind: Food| matches!(kind, Food::Bread | Food::Grain | Food::Pulse | Food::Vegetable | Food::Fruit | Food::Nut | Food::Seed);
        makes && beside
            || heats && (w.key_at(at) == "plate" || w.key_at(at) == "platter" || w.key_at(at) == "gravy" || food().is_some_and(apart))
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
                let goes_on = self.heats_meanwhile && draft.is_empty() && self.begins_with_something_new(&w, clause);
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
            self.heats_meanwhile |= read.takes == Takes::Preheat && self.branch == Branch::Begins;
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

    fn clause(&mut self, w: &Words, clause: &Clause, read: Act, next: &[Clause], draft: &mut Draft, paragraph: &Paragraph) {
        self.doubt(w, clause, &read, paragraph);
        if clause.supposed {
            return self.suppose(w, clause, draft);
        }
        if read.left_out {
            return self.leave_out(w, clause, next, draft);
        }
        if draft.is_empty() || read.takes == Takes::Preheat {
            self.choose(&read);
        }
        // "Prove for 20 minutes while the oven heats to 230 °C" sets it, too.
        let beside = (clause.start..clause.end).any(|at| w.is(at, "oven")) && read.other.is_none();
        let of_oven = !read.stands_in_it && (read.sets || beside || read.place == Some(Some(On::Kind(Kind::Oven))));
        if of_oven && let Some(celsius) = read.heat.oven {
            self.set_oven(celsius, &read);
        }
        let text = (clause.start, clause.end);
        match read.takes {
            Takes::Preheat => return self.keep_what_more_is_said(w, clause),
            Takes::Serve => {
                // What is printed at the table takes no time; its foods are named there, and stay for the first step.
                let words = said(w, text.0, text.1);
                let named = self.larder.mentions(w, clause.start, clause.end);
                self.at_table.extend(named.into_iter().flat_map(|mention| mention.foods));
                return self.serve.push(words);
            }
            Takes::Release { minutes, written } => return self.release(w, clause, (minutes, written), draft, paragraph),
            Takes::Words if draft.is_empty() && !self.mentions_something(w, clause) => {
                let words = said(w, text.0, text.1);
                if !words.is_empty() {
                    self.lead = if self.lead.is_empty() { words } else { format!("{} {words}", self.lead) };
                }
                self.placed(&read);
                return;
            }
            _ => {}
        }
        let waits = matches!(read.takes, Takes::Wait { .. } | Takes::Boil);
        let stands = waits && read.need.is_none() || read.takes == Takes::Stand;
        let words = matches!(read.takes, Takes::Words);
        // "The night before, cover the beans with water and leave them to soak": one wait, and it is the night.
        let of_the_night = draft.overnight && draft.on.is_none() && stands && matches!(read.takes, Takes::Wait { written: false, .. });
        if of_the_night {
            draft.add(clause.start, clause.end);
            self.foods_of(w, clause, next, draft);
            return;
        }
        if !words && self.begins_anew(w, &read, stands, next, draft) {
            self.finish(w, draft, paragraph);
        }
        self.choose(&read);
        self.add_to_draft(w, clause, &read, next, draft);
        self.placed(&read);
    }

    /// What is only done another way stays in the words.
    fn suppose(&mut self, w: &Words, clause: &Clause, draft: &mut Draft) {
        if !draft.is_empty() {
            return draft.add(clause.start, clause.end);
        }
        let words = said(w, clause.start, clause.end);
        self.lead = if self.lead.is_empty() { words } else { format!("{} {words}", self.lead) };
    }

    /// "Marinate the chicken in the yoghurt. Keep aside for 30 minutes": one wait, and it is the one that has a time.
    fn without_the_wait_of_the_next(&self, w: &Words, read: Act, clause: &Clause, next: Option<&Clause>) -> Act {
        const SOAKS: [&str; 3] = ["marinate", "marinade", "soak"];
        const STAYS: [&str; 8] = ["leave", "let", "set aside", "keep", "stand", "rest", "refrigerate", "chill"];
        let is = |clause: &Clause, verbs: &[&str]| clause.verb.is_some_and(|verb| verbs.contains(&verb.word));
        let untimed = is(clause, &SOAKS) && matches!(read.takes, Takes::Wait { written: false, .. });
        let timed = |after: &&Clause| {
            let then = act(w, after, So { place: None, ..self.so }, &self.own);
            !after.meanwhile && is(after, &STAYS) && matches!(then.takes, Takes::Wait { written: true, .. }) && then.need.is_none()
        };
        if untimed && next.filter(timed).is_some() { Act { takes: Takes::Hands(None), ..read } } else { read }
    }

    /// Work that may be left out stays in the words, with what is named there alone.
    fn leave_out(&mut self, w: &Words, clause: &Clause, next: &[Clause], draft: &mut Draft) {
        if !draft.is_empty() {
            draft.add(clause.start, clause.end);
            self.foods_of(w, clause, next, draft);
            return;
        }
        let mut alone = Draft::default();
        alone.add(clause.start, clause.end);
        self.foods_of(w, clause, next, &mut alone);
        match self.made.last_mut().filter(|_| self.lead.is_empty()) {
            Some(before) => {
                before.step.text.push(Piece::Words(" ".to_owned()));
                before.step.text.append(&mut pieces(w, &alone.spans, &alone.pieces));
            }
            None => self.suppose(w, clause, draft),
        }
    }

    /// "While you cook the rest": neither how long nor what.
    fn says_no_more(&self, w: &Words, clause: &Clause) -> bool {
        let begins = (clause.start..clause.verb_at).any(|at| w.is(at, "while") || w.is(at, "whilst"));
        begins && times(w, clause.start, clause.end).is_empty() && self.larder.mentions(w, clause.start, clause.end).is_empty()
    }

    /// "Prove for 20 minutes while you heat the oven to 200 °C": no step, and what follows is as hot.
    fn heat_beside(&mut self, w: &Words, clause: &Clause, paragraph: usize) {
        let mut whereabouts = std::mem::replace(&mut self.whereabouts, Whereabouts::new(0, Vec::new()));
        let mut dishes = std::mem::take(&mut self.dishes);
        let read = self.act(w, clause, paragraph, self.so, (&mut whereabouts, &mut dishes));
        (self.whereabouts, self.dishes) = (whereabouts, dishes);
        if let (Takes::Preheat, Some(celsius)) = (read.takes, read.heat.oven) {
            self.set_oven(celsius, &read);
        }
    }

    /// What follows in the oven is as hot.
    pub(super) fn set_oven(&mut self, celsius: Celsius, read: &Act) {
        self.oven = Some((celsius, read.heat.guessed));
        self.so.oven = Some((celsius, if read.heat.by.is_some() { self.so.oven.is_some_and(|(_, f)| f) } else { read.heat.fahrenheit }));
    }

    /// "Heat the oven with a baking stone inside": more than how hot it is stays in the words.
    fn keep_what_more_is_said(&mut self, w: &Words, clause: &Clause) {
        #[rustfmt::skip]
        const SAID: [&str; 60] = [
            "heat", "preheat", "pre", "the", "your", "an", "a", "oven", "grill", "to", "at", "on", "in", "of", "up", "and", "or", "then", "first", "now", "start", "by",
            "meanwhile", "meantime", "while", "whilst", "when", "you", "are", "ready", "bake", "cook", "temperature", "degrees", "degree", "c", "f", "celsius", "fahrenheit",
            "centigrade", "fan", "gas", "mark", "no", "convection", "conventional", "electric", "high", "medium", "hot", "very", "moderate", "low", "cool", "slow",
            "turn", "set", "get", "broiler", "for",
        ];
        let times = times(w, clause.start, clause.end);
        let more = (clause.start..clause.end).any(|at| {
            let word = w.at(at).filter(|token| token.kind == Sign::Word && token.text.len() > 1 && !token.text.ends_with("ly"));
            word.is_some() && !SAID.iter().any(|said| w.is(at, said)) && !times.iter().any(|time| (time.start..time.end).contains(&at))
        });
        if more {
            let words = said(w, clause.start, clause.end);
            self.lead = if self.lead.is_empty() { words } else { format!("{} {words}", self.lead) };
        }
    }

    /// Does a sentence begin with foods that are not in what goes on beside it?
    fn begins_with_something_new(&self, w: &Words, clause: &Clause) -> bool {
        let named: Vec<usize> =
            self.larder.mentions(w, clause.verb_end, clause.end).into_iter().flat_map(|mention| mention.foods).collect();
        !named.is_empty() && !named.iter().any(|food| self.dishes.is_main(*food) || self.last_foods.contains(food))
    }

    fn mentions_something(&self, w: &Words, clause: &Clause) -> bool {
        !self
            .larder
            .mentions(w, clause.verb_end, clause.end)
            .iter()
            .all(|mention| mention.foods.iter().all(|food| !self.larder.left(*food).is_positive()))
    }

    fn placed(&mut self, read: &Act) {
        if let Some(place) = read.place {
            match place {
                None => self.so.was = self.so.place.or(self.so.was),
                Some(_) => self.so.switched_off = false,
            }
            self.so.place = place;
        }
        self.so.switched_off |= read.switched_off;
        self.so.turned_down |= read.turned_down;
        self.heat_set_last = read.turned_down;
        self.so.pressed |= read.need == Some(On::Kind(Kind::Pressure)) && matches!(read.takes, Takes::Wait { .. });
        self.so.slow |= read.slow;
        let cooker = |kind: &Kind| matches!(kind, Kind::Pressure | Kind::Slow | Kind::Rice);
        let named =
            [read.need, read.place.flatten()].into_iter().flatten().find_map(|on| if let On::Kind(kind) = on { Some(kind) } else { None });
        self.so.cooker = named.filter(cooker).or(self.so.cooker);
    }

    /// Does the clause begin a step of its own?
    fn begins_anew(&self, w: &Words, read: &Act, stands: bool, next: &[Clause], draft: &Draft) -> bool {
        if draft.is_empty() {
            return false;
        }
        let other = |need: On| draft.on.is_some_and(|on| on != need);
        let first_need = |_: On| draft.on.is_none() && draft.hands() > MOST_HANDS_BEFORE + 1e-9;
        // "Remove from the heat and stand 12 minutes" begins the step off the heat.
        let frees = read.off && draft.on.is_some() && next.first().is_some_and(|after| self.will_stand(w, after));
        // "Two days before, put the beef in the wine. Simmer for 2 hours."
        let next_day = draft.day_before > 0 && read.need.is_some();
        draft.waits || next_day || read.need.is_some_and(|need| other(need) || first_need(need)) || stands && draft.on.is_some() || frees
    }

    fn will_stand(&self, w: &Words, clause: &Clause) -> bool {
        let so = So { place: None, ..self.so };
        let read = act(w, clause, so, &self.own);
        matches!(read.takes, Takes::Wait { .. }) && read.need.is_none() || matches!(read.takes, Takes::Words | Takes::Stand)
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
