//! Clauses gathered into steps, with what they come after.
//!
//! A step without a known action keeps its words in the step before it. A time by weight ("20 minutes per 500 g") is
//! told, never reckoned.

use super::act::{Act, Known, On, So, Takes, act};
use super::beforehand::work_of;
use super::clauses::{Clause, Names, clauses};
use super::dish::Dishes;
use super::larder::{Larder, Mention, Part, Short};
use super::places::Kind;
use super::text::{pieces, said};
use super::verbs::{Rate, needs_knife};
use super::whereabouts::{About, Whereabouts};
use super::{MethodRead, Paragraph, Setting, rates};
use crate::kitchen::words::Words;
use crate::kitchen::{ApplianceId, Estimates, Piece, Spot, Step};
use crate::measure::{Amount, Celsius, Dimension, Kind as Sign, Minutes};

mod order;
mod told;

/// More hands than this before an appliance is needed are a step of their own.
const MOST_HANDS_BEFORE: f64 = 2.0;

/// What ends boiling: it would go on in the hot water. "Leave in the water" is a wait, and stands between.
const DRAINS: [&str; 4] = ["drain", "strain", "refresh", "plunge"];
/// So soon after it has boiled. Common practice, no source.
const DRAINED_WITHIN: Minutes = Minutes(2);

/// Minutes of hands each time that something is turned, stirred or folded while it waits. Common practice, no source.
const TURN: f64 = 1.0;

/// More trays than this are no trays.
const MOST_TRAYS: f64 = 6.0;

/// A step that is being gathered, always of one paragraph.
#[derive(Default)]
struct Draft {
    /// Ranges of tokens.
    spans: Vec<(usize, usize)>,
    pieces: Vec<Placed>,
    foods: Vec<usize>,
    /// What was together on the heat.
    dish: Vec<usize>,
    hands_written: f64,
    hands_guessed: f64,
    wait: f64,
    wait_guessed: bool,
    waits: bool,
    on: Option<On>,
    /// Which of its kind that is.
    which: Option<ApplianceId>,
    celsius: Option<Celsius>,
    celsius_guessed: bool,
    inside: Option<Celsius>,
    knife: bool,
    one_layer: bool,
    /// "4 hours or overnight".
    or: bool,
    overnight: bool,
    day_before: bool,
    /// Begins with draining.
    drains: bool,
}

/// What takes the place of some tokens.
pub(super) struct Placed {
    pub start: usize,
    pub end: usize,
    pub foods: Vec<(usize, Option<Amount>)>,
    pub group: bool,
    /// "Juice" where the method says lemon juice and the list has lemons.
    pub part: Option<&'static str>,
}

impl Draft {
    fn hands(&self) -> f64 {
        self.hands_written + self.hands_guessed
    }

    fn is_empty(&self) -> bool {
        self.spans.is_empty()
    }

    fn add(&mut self, start: usize, end: usize) {
        match self.spans.last_mut() {
            Some(last) if last.1 == start => last.1 = end,
            _ => self.spans.push((start, end)),
        }
    }
}

/// What is known of a finished step beside the step itself.
pub(super) struct Made {
    pub step: Step,
    pub heated: bool,
    /// Waits on an appliance.
    pub waits_on_heat: bool,
    /// Waits in hot water: on the hob, or under pressure.
    pub boils: bool,
    pub stands: bool,
    pub or: bool,
    pub overnight: bool,
    pub day_before: bool,
    pub one_layer: bool,
    /// On so many trays, as the method says.
    pub trays: Option<f64>,
    pub foods: Vec<usize>,
    /// What was together on the heat.
    pub dish: Vec<usize>,
}

impl Made {
    /// A step that heats nothing and waits for nothing.
    pub fn of_words(step: Step) -> Self {
        let [heated, waits_on_heat, boils, stands, or, overnight, day_before, one_layer] = [false; 8];
        Made {
            step,
            heated,
            waits_on_heat,
            boils,
            stands,
            or,
            overnight,
            day_before,
            one_layer,
            trays: None,
            foods: Vec::new(),
            dish: Vec::new(),
        }
    }

    /// Hours lie between it and the next, or a night.
    pub fn is_long(&self) -> bool {
        self.overnight || self.day_before || self.step.wait.0 >= 120
    }
}

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
        }
    }

    pub fn read(mut self, paragraphs: &[Paragraph]) -> MethodRead {
        self.whereabouts = Whereabouts::new(self.setting.ingredients.len(), self.never_used(paragraphs));
        for (number, paragraph) in paragraphs.iter().enumerate() {
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
        self.cut_beforehand();
        self.put_ahead();
        self.take_room();
        self.reach_inside();
        let shares = self.unfinished();
        self.doubts.extend(shares);
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
        for (number, paragraph) in paragraphs.iter().enumerate() {
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
        if clause.supposed {
            return act(w, clause, so, &self.own).supposed();
        }
        let (whereabouts, dishes) = noted;
        let beside = ["while", "whilst", "when", "once", "as"].iter().any(|word| w.is(clause.start, word));
        let from = if beside || clause.verb_at == clause.start { clause.verb_at } else { clause.start };
        let mut mentions = self.larder.mentions(w, from, clause.verb_at);
        mentions.extend(self.larder.mentions(w, clause.verb_end, clause.end));
        let foods: Vec<(usize, usize)> =
            mentions.iter().flat_map(|mention| mention.foods.iter().map(|food| (*food, mention.start))).collect();
        let boiled = |food: usize| {
            matches!(self.larder.kind(food), Some(crate::foods::Kind::Grain | crate::foods::Kind::Pulse | crate::foods::Kind::RawEgg))
        };
        let boils = foods.iter().all(|(food, _)| boiled(*food)) && !foods.is_empty();
        let about = About { w, clause, foods: &foods, boils };
        let so = whereabouts.before(&about, paragraph, so);
        let mut read = act(w, clause, so, &self.own);
        whereabouts.after(&about, &mut read, so.place);
        dishes.take(&about);
        read
    }

    fn paragraph(&mut self, number: usize, paragraph: &Paragraph) {
        let w = Words::of(&paragraph.text);
        let found = self.clauses(&w);
        let mut draft = Draft::default();
        let mut sentence = usize::MAX;
        self.heat_set_last = false;
        for (index, clause) in found.iter().enumerate() {
            if clause.sentence != sentence {
                sentence = clause.sentence;
                if self.branch != Branch::None {
                    self.finish(&w, &mut draft, paragraph);
                    self.end_branch();
                }
                // "Turn the heat to its lowest. Leave for 10 minutes."
                self.so.turned_down &= self.heat_set_last;
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
            let read = self.in_rounds(&w, clause, read, &draft, paragraph);
            self.clause(&w, clause, read, &found[index + 1..], &mut draft, paragraph);
        }
        self.finish(&w, &mut draft, paragraph);
        self.end_branch();
        self.dishes.turn_back();
        self.doubts.extend(std::mem::take(&mut self.untold).into_iter().map(|text| (paragraph.at.clone(), text)));
    }

    fn clause(&mut self, w: &Words, clause: &Clause, read: Act, next: &[Clause], draft: &mut Draft, paragraph: &Paragraph) {
        self.doubt(w, clause, &read, paragraph);
        if clause.supposed {
            return self.suppose(w, clause, draft);
        }
        if draft.is_empty() || read.takes == Takes::Preheat {
            self.choose(&read);
        }
        let of_oven = read.sets || read.place == Some(Some(On::Kind(Kind::Oven)));
        if of_oven && let Some(celsius) = read.heat.oven {
            self.oven = Some((celsius, read.heat.guessed));
        }
        let text = (clause.start, clause.end);
        match read.takes {
            Takes::Preheat => return,
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

    fn mentions_something(&self, w: &Words, clause: &Clause) -> bool {
        !self
            .larder
            .mentions(w, clause.verb_end, clause.end)
            .iter()
            .all(|mention| mention.foods.iter().all(|food| !self.larder.left(*food).is_positive()))
    }

    fn placed(&mut self, read: &Act) {
        if let Some(place) = read.place {
            self.so.place = place;
        }
        self.so.turned_down |= read.turned_down;
        self.heat_set_last = read.turned_down;
        self.so.pressed |= read.need == Some(On::Kind(Kind::Pressure)) && matches!(read.takes, Takes::Wait { .. });
        self.so.slow |= read.slow;
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
        draft.waits || read.need.is_some_and(|need| other(need) || first_need(need)) || stands && draft.on.is_some() || frees
    }

    fn will_stand(&self, w: &Words, clause: &Clause) -> bool {
        let so = So { place: None, ..self.so };
        let read = act(w, clause, so, &self.own);
        matches!(read.takes, Takes::Wait { .. }) && read.need.is_none() || matches!(read.takes, Takes::Words | Takes::Stand)
    }

    fn add_to_draft(&mut self, w: &Words, clause: &Clause, read: &Act, next: &[Clause], draft: &mut Draft) {
        draft.drains |= draft.is_empty() && clause.verb.is_some_and(|verb| DRAINS.contains(&verb.word));
        draft.add(clause.start, clause.end);
        let foods = self.foods_of(w, clause, next, draft);
        self.trays = trays(w, clause).or(self.trays);
        if draft.on.is_none() {
            draft.on = read.need;
            draft.which = read.need.and_then(|on| if let On::Kind(kind) = on { self.of_kind(kind) } else { None });
        }
        if draft.on.is_some() {
            draft.dish.extend(self.dishes.at_hand());
        }
        let verb = clause.verb;
        if verb.is_some_and(|verb| matches!(verb.rate, Rate::Cut(_)) && !["trim", "carve"].contains(&verb.word)) {
            self.cut.extend(foods.iter().copied());
        }
        if let Some(work) = verb.and_then(work_of) {
            self.done.extend(foods.iter().map(|food| (*food, work)));
        }
        match read.takes {
            Takes::Hands(Some(written)) => {
                if read.time.is_some_and(|time| time.vague) {
                    draft.hands_guessed += written;
                } else {
                    draft.hands_written += written;
                }
            }
            Takes::Hands(None) => {
                draft.hands_guessed += verb.map_or(0.5, |verb| rates::hands(verb, w, clause.verb_end..clause.end, &foods, &self.larder));
            }
            Takes::Stand => draft.hands_guessed += 0.5,
            Takes::Boil => {
                let litres: f64 = draft.foods.iter().map(|food| self.larder.litres(*food)).sum::<f64>() + typed_litres(w, clause);
                draft.hands_guessed += 1.0;
                draft.wait += rates::to_the_boil(if litres > 0.0 { litres } else { 1.0 });
                (draft.waits, draft.wait_guessed) = (true, true);
            }
            Takes::Wait { minutes, written } => {
                // The rate of a wait is the foods that are put in first.
                if read.need.is_some()
                    && !foods.is_empty()
                    && verb.is_some_and(|verb| verb.rate == Rate::Once(0.0))
                    && draft.hands() == 0.0
                    && !draft.pieces.is_empty()
                {
                    draft.hands_guessed += 0.5;
                }
                draft.hands_guessed += read.turns * TURN;
                draft.wait += minutes;
                draft.waits = true;
                draft.wait_guessed |= !written || read.doubtful || read.unknown || read.time.is_some_and(|time| time.by_weight);
                draft.or |= read.or;
                draft.overnight |= read.time.is_some_and(|time| time.overnight);
                draft.day_before |= read.time.is_some_and(|time| time.day_before);
            }
            _ => {}
        }
        draft.day_before |= read.time.is_some_and(|time| time.day_before);
        draft.overnight |= read.time.is_some_and(|time| time.overnight);
        draft.knife |= verb.is_some_and(needs_knife);
        draft.inside = draft.inside.or(read.heat.inside);
        if (clause.start..clause.end).any(|at| w.is(at, "one") && w.is(at + 1, "layer") || w.is(at, "single") && w.is(at + 1, "layer"))
            || verb.is_some_and(|verb| verb.word == "roast")
        {
            draft.one_layer |= read.need == Some(On::Kind(Kind::Oven)) || draft.on == Some(On::Kind(Kind::Oven));
            if draft.one_layer && draft.hands() > 0.0 {
                draft.hands_guessed += rates::FILL_A_TRAY;
            }
        }
        if read.need == Some(On::Kind(Kind::Oven)) {
            if let Some(celsius) = read.heat.oven {
                self.oven = Some((celsius, read.heat.guessed));
            }
            if let (None, Some((celsius, guessed))) = (draft.celsius, self.oven) {
                (draft.celsius, draft.celsius_guessed) = (Some(celsius), guessed);
            }
        }
    }

    /// The foods that a clause is about; what it names takes its place in the text.
    fn foods_of(&mut self, w: &Words, clause: &Clause, next: &[Clause], draft: &mut Draft) -> Vec<usize> {
        let mut mentions = Vec::new();
        if clause.verb_at > clause.start {
            mentions.extend(self.larder.mentions(w, clause.start, clause.verb_at));
        }
        mentions.extend(self.larder.mentions(w, clause.verb_end, clause.end));
        // "While the peppers cool, chop the onion" chops no peppers.
        let beside = ["while", "whilst", "when", "once", "as"].iter().any(|word| w.is(clause.start, word));
        let done = mentions.iter().filter(|mention| !beside || mention.start >= clause.verb_at);
        let mut foods: Vec<usize> = done.flat_map(|mention| mention.foods.iter().copied()).collect();
        for mention in mentions {
            self.place(w, mention, draft);
        }
        if foods.is_empty() && clause.end <= clause.verb_end + 1 {
            // "Peel, core and slice the apples": the food stands with the last of them.
            let fellow = next
                .iter()
                .take_while(|other| other.sentence == clause.sentence)
                .map(|other| self.larder.mentions(w, other.verb_end, other.end));
            let named = fellow.into_iter().find(|mentions| !mentions.is_empty()).unwrap_or_default();
            foods = named.into_iter().flat_map(|mention| mention.foods).collect();
        }
        if foods.is_empty() {
            let them = (clause.verb_end..clause.end.min(clause.verb_end + 4))
                .any(|at| ["them", "it", "into", "in", "thinly", "finely", "crosswise"].iter().any(|word| w.is(at, word)));
            if them {
                foods.clone_from(&self.last_foods);
            }
        } else {
            self.last_foods.clone_from(&foods);
        }
        draft.foods.extend(foods.iter().copied());
        foods
    }

    fn place(&mut self, w: &Words, mention: Mention, draft: &mut Draft) {
        if let (Some(part @ Part::Amount(..)), [food]) = (&mention.part, mention.foods.as_slice())
            && let Some(short) = self.larder.falls_short(*food, part)
        {
            let (said, line) = (w.text(mention.start..mention.end), &self.setting.ingredients[*food].text);
            self.untold.push(match short {
                Short::Unknown => format!("how much of \"{line}\" \"{said}\" is is not known; what is left of it is taken"),
                Short::Left(left) => format!("the method takes \"{said}\" where {left} is left of \"{line}\"; what is left is taken"),
            });
        }
        let taken: Vec<(usize, Option<Amount>)> =
            mention.foods.iter().filter_map(|food| Some((*food, self.larder.take(*food, mention.part.as_ref())?))).collect();
        if !taken.is_empty() {
            let Mention { start, end, group, .. } = mention;
            let part = super::larder::part_of_a_fruit(w.key_at(end - 1)).filter(|part| !self.larder.is_itself(taken[0].0, part));
            draft.pieces.push(Placed { start, end, foods: taken, group, part });
        }
    }

    fn release(&mut self, w: &Words, clause: &Clause, (minutes, written): (f64, bool), draft: &mut Draft, paragraph: &Paragraph) {
        let on_pressure = draft.on == Some(On::Kind(Kind::Pressure));
        if on_pressure || draft.is_empty() && self.made.is_empty() {
            draft.add(clause.start, clause.end);
            draft.wait += minutes;
            draft.waits = true;
            draft.wait_guessed |= !written;
            return;
        }
        let pressure = self.of_kind(Kind::Pressure);
        let before = self.made.last_mut().filter(|made| pressure.is_some_and(|id| made.step.on.contains(&id)) && draft.is_empty());
        match before {
            Some(made) => {
                made.step.wait.0 += minutes.ceil() as i64;
                made.step.estimated.wait |= !written;
                made.step.text.push(Piece::Words(format!(" {}", said(w, clause.start, clause.end))));
            }
            None => {
                if !draft.is_empty() {
                    self.finish(w, draft, paragraph);
                }
                draft.add(clause.start, clause.end);
                draft.wait += minutes;
                draft.waits = true;
                draft.wait_guessed |= !written;
                draft.on = Some(On::Kind(Kind::Pressure));
            }
        }
    }

    /// Ends the step that is being gathered.
    fn finish(&mut self, w: &Words, draft: &mut Draft, paragraph: &Paragraph) {
        let done = std::mem::take(draft);
        if done.is_empty() {
            return;
        }
        let mut text = pieces(w, &done.spans, &done.pieces);
        if !self.lead.is_empty() {
            let lead = std::mem::take(&mut self.lead);
            text.insert(0, Piece::Words(format!("{lead} ")));
        }
        let idle = done.hands() == 0.0 && !done.waits;
        if idle && done.pieces.is_empty() {
            // Nothing but words: they belong to what was done before.
            match self.made.last_mut() {
                Some(last) => {
                    last.step.text.push(Piece::Words(" ".to_owned()));
                    last.step.text.append(&mut text);
                }
                None => self.lead = text.iter().map(|piece| if let Piece::Words(words) = piece { words.as_str() } else { "" }).collect(),
            }
            return;
        }
        let on = self.appliance(done.on, done.which, paragraph);
        let hands = if idle { 1.0 } else { (done.hands_written - 1e-6).ceil() + done.hands_guessed };
        let hands = if hands > 0.0 { hands.round().max(1.0) } else { 0.0 };
        let hot = done.on == Some(On::Kind(Kind::Oven)) && !on.is_empty();
        let after = self.after();
        let at_once = done.drains && after.is_none() && self.made.last().is_some_and(|before| before.boils);
        let step = Step {
            within: at_once.then_some(DRAINED_WITHIN),
            hands: Minutes(hands as i64),
            wait: Minutes((done.wait - 1e-6).ceil().max(0.0) as i64),
            scales: on.is_empty(),
            on,
            temperature: done.celsius.filter(|_| hot),
            inside: done.inside,
            skill: done.knife.then(|| "knife".to_owned()),
            after,
            estimated: Estimates {
                hands: idle || done.hands_guessed > 0.0,
                wait: done.waits && done.wait_guessed,
                temperature: hot && done.celsius.is_some() && done.celsius_guessed,
                inside: false,
                takes: false,
                within: at_once,
            },
            ..blank(text, paragraph.at.clone())
        };
        let heated = matches!(done.on, Some(On::Kind(_)));
        let boils = done.waits && matches!(done.on, Some(On::Kind(Kind::Hob | Kind::Pressure)));
        let stands = done.waits && done.on.is_none();
        self.made.push(Made {
            step,
            heated,
            waits_on_heat: heated && done.waits,
            boils,
            stands,
            or: done.or,
            overnight: done.overnight,
            day_before: done.day_before,
            one_layer: done.one_layer,
            trays: self.trays,
            foods: done.foods,
            dish: done.dish,
        });
    }

    /// Is it named at the table, whatever else names it?
    pub(super) fn is_at_table(&self, food: usize) -> bool {
        self.at_table.contains(&food)
    }

    /// Notes which of a kind a clause names.
    fn choose(&mut self, read: &Act) {
        if let Some((id, kind)) = read.which.and_then(|id| Some((id, self.setting.appliances[id.0].kind?))) {
            self.chosen.retain(|(other, _)| *other != kind);
            self.chosen.push((kind, id));
        }
    }

    /// The one that was named last, else the first of the kind.
    fn of_kind(&self, kind: Kind) -> Option<ApplianceId> {
        let chosen = self.chosen.iter().find(|(of, _)| *of == kind).map(|(_, id)| *id);
        chosen.or_else(|| self.setting.appliances.iter().position(|one| one.kind == Some(kind)).map(ApplianceId))
    }

    fn appliance(&mut self, on: Option<On>, which: Option<ApplianceId>, paragraph: &Paragraph) -> Vec<ApplianceId> {
        match on {
            None => Vec::new(),
            Some(On::Own(id)) => vec![id],
            Some(On::Kind(kind)) => match which.or_else(|| self.of_kind(kind)) {
                Some(id) => vec![id],
                None => {
                    let name = kind.name();
                    let text =
                        format!("there is no {name} in kitchen.toml; the step stands without. Add [[appliance]] with name = \"{name}\"");
                    let doubt = (paragraph.at.clone(), text);
                    if !self.doubts.contains(&doubt) {
                        self.doubts.push(doubt);
                    }
                    Vec::new()
                }
            },
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Branch {
    None,
    Begins,
    GoesOn,
}

/// A step of words, every key at its default.
pub(super) fn blank(text: Vec<Piece>, at: Spot) -> Step {
    Step {
        id: None,
        text,
        hands: Minutes(1),
        wait: Minutes(0),
        scales: true,
        on: Vec::new(),
        takes: 1.0,
        temperature: None,
        elsewhere: None,
        inside: None,
        who: None,
        skill: None,
        after: None,
        gap: None,
        within: None,
        ahead: None,
        estimated: Estimates { hands: true, ..Estimates::default() },
        who_at: at.clone(),
        skill_at: at.clone(),
        at,
    }
}

/// "On 2 trays", "two lined baking sheets", "on one tray".
fn trays(w: &Words, clause: &Clause) -> Option<f64> {
    let is_tray = |at: usize| ["tray", "sheet"].contains(&w.key_at(at));
    (clause.start..clause.end).find_map(|at| {
        let read = w.number(at).ok()?.filter(|_| !w.is(at, "a") && !w.is(at, "an"))?;
        let plain = |at: &usize| !is_tray(*at) && matches!(w.kind(*at), Some(Sign::Word | Sign::Dash));
        let tray = read.end + (read.end..(read.end + 3).min(clause.end)).take_while(plain).count();
        let after_unit = w.unit(read.end).is_some();
        let count = read.number.high.to_f64();
        (is_tray(tray) && tray < clause.end && !after_unit && count.fract() == 0.0 && (1.0..=MOST_TRAYS).contains(&count)).then_some(count)
    })
}

/// Litres that a clause itself names: "4 quarts of water".
fn typed_litres(w: &Words, clause: &Clause) -> f64 {
    let mut at = clause.verb_end;
    let mut litres = 0.0;
    while at < clause.end {
        match w.amount(at) {
            Ok(Some(read)) if read.unit_given => {
                let most = read.amount.most(crate::measure::Spoons::Us);
                if most.dimension() == Dimension::Volume {
                    litres += most.base() / 1000.0;
                }
                at = read.end.max(at + 1);
            }
            _ => at += 1,
        }
    }
    litres
}
