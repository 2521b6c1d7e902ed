//! The steps of a session by the clock, and the numbers that chart and steps share.

use itertools::Itertools;

use crate::foods::Place;
use crate::kitchen::Names;
use crate::measure::Units;
use crate::prep::{BoxNote, Filling, Mark, Note, PersonId, SessionPlan, Task, boxing_words, taken_from};

use super::flow::Block;
use super::text::{Line, Setter, Span, Style, plain, soft, strong, width_of};
use super::wording::{TIE, amount, day, temperature};
use crate::words::{brief, clock_after, ended, first_words, place, sentence};

/// The type of a guide.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Type {
    /// The steps.
    pub body: Style,
    /// The lists.
    pub note: Style,
    /// The cautions.
    pub small: Style,
    /// Whether a step's text begins on the line of its time and dish, and its notes on the line where the text ends.
    pub run_in: bool,
    /// Space between two steps.
    pub gap: f32,
    /// Nothing is said twice: the minutes at the head of a step are its end, too.
    pub brief: bool,
}

impl Type {
    /// Set small to save room: then lists run in one paragraph, and headings take less.
    pub fn is_tight(&self) -> bool {
        self.small.size < self.note.size
    }
}

/// What all steps of a page have in common.
pub struct Steps<'a> {
    pub session: &'a SessionPlan,
    pub kind: Type,
    pub width: f32,
    pub names: Names<'a>,
    pub units: Units,
    /// The person whose steps alone are wanted, with what they wait for and whom they tell.
    pub whose: Option<PersonId>,
}

impl Steps<'_> {
    /// A block a task, in the order of the clock.
    pub fn blocks(&self, setter: &mut Setter) -> Vec<Block> {
        let marks = self.session.marks();
        let tasks = self.session.tasks.iter().zip(&marks).enumerate();
        // What needs nobody's hands stands with whoever begins.
        let first = self.session.tasks.iter().find_map(|task| task.person.or(task.out_person));
        let mut blocks: Vec<(i64, Block)> = Vec::new();
        for (index, (task, mark)) in tasks {
            let theirs = |person: Option<PersonId>| self.whose.is_none_or(|whose| person == Some(whose));
            let nobody_s = task.person.is_none() && self.whose.is_none_or(|whose| Some(whose) == first);
            if nobody_s || theirs(task.person) {
                blocks.push((task.start_minute, self.step(setter, index, *mark, self.with_others(index, &marks))));
            }
            let by_others = !nobody_s && !theirs(task.person);
            if task.out_minutes > 0 && theirs(task.out_person) && (by_others || !self.kind.brief && !self.session.stays_on(index)) {
                blocks.push((task.out_minute(), self.taken_out(setter, task, *mark)));
            }
        }
        blocks.sort_by_key(|(minute, _)| *minute);
        blocks.into_iter().map(|(_, block)| block).collect()
    }

    fn step(&self, setter: &mut Setter, index: usize, mark: Mark, with_others: Vec<Span>) -> Block {
        let task = &self.session.tasks[index];
        let Type { body, note, run_in, .. } = self.kind;
        let room = self.width - self.indent();
        let (head, mut text) = (self.head(task), self.text(index));
        text.extend(with_others);
        let notes = task.notes.iter().filter(|note| !self.is_said_before(task, note));
        // Where room is short, the minutes at its head tell all of its wait.
        let notes = notes.filter(|note| !self.kind.brief || !matches!(note, Note::ComesUp(_)));
        let notes: Vec<String> = notes.map(|note| note.text(self.names, self.units)).collect();
        let mut lines = if run_in {
            text.extend(notes.iter().map(|words| plain(format!(" {}", ended(words)))));
            setter.paragraph(&[head, vec![plain("  ")], text].concat(), body, room)
        } else {
            let head = setter.paragraph(&head, body, room);
            [head, setter.paragraph(&text, body, room)].concat()
        };
        for words in notes.iter().filter(|_| !run_in) {
            lines.extend(setter.paragraph(&[plain(words.as_str())], note, room));
        }
        // What is set has no number; it stands apart from the step above.
        if task.is_set() {
            self.numbered(setter, lines, "–".to_owned()).spaced(if self.kind.brief { 1.0 } else { 1.5 } * self.kind.gap)
        } else {
            self.numbered(setter, lines, mark.to_string())
        }
    }

    /// Where type is small, what an earlier step has told of the same appliance is not told again.
    fn is_said_before(&self, task: &Task, note: &Note) -> bool {
        let earlier = self.session.tasks.iter().take_while(|other| !std::ptr::eq(*other, task));
        let told = |other: &Task| other.notes.contains(note) && other.on.first() == task.on.first();
        // Each dish goes to the table by itself.
        let of_a_dish = matches!(note, Note::ServeAt(_) | Note::KeepHot(_));
        !of_a_dish && self.kind.is_tight() && self.whose.is_none() && !task.on.is_empty() && earlier.into_iter().any(told)
    }

    /// A load, at the minute at which its time is over.
    fn taken_out(&self, setter: &mut Setter, task: &Task, mark: Mark) -> Block {
        let at = clock_after(self.session.start, task.out_minute());
        let place = task.on.first().map_or_else(String::new, |id| format!(" {}", taken_from(*id, self.names)));
        let mut spans = vec![strong(at)];
        if self.whose.is_none() && self.session.people.len() > 1 {
            spans.extend(task.out_person.map(|person| strong(format!("  {}", self.person(person)))));
        }
        spans.extend([soft(format!("  {}", self.dish(task))), plain(format!("  Take it{place}."))]);
        let lines = setter.paragraph(&spans, self.kind.body, self.width - self.indent());
        self.numbered(setter, lines, mark.to_string())
    }

    fn numbered(&self, setter: &mut Setter, lines: Vec<Line>, mark: String) -> Block {
        let indent = self.indent();
        let mut lines: Vec<Line> = lines.into_iter().map(|line| line.moved(indent)).collect();
        let number = setter.one_line(&[strong(mark)], self.kind.body, indent);
        let shift = (indent - 0.6 * self.kind.body.size - width_of(&number)).max(0.0);
        if let Some(first) = lines.first_mut() {
            // First, as it is read.
            first.items.splice(0..0, number.moved(shift).items);
        }
        Block::of(lines).spaced(self.kind.gap)
    }

    /// Where the text of a step begins, right of its number.
    fn indent(&self) -> f32 {
        2.0 * self.kind.body.size
    }

    /// "14:35, 4 min, then 45 min on its own  Jo  White-bean mash". What is set, or done by the one person of the page, needs less.
    fn head(&self, task: &Task) -> Vec<Span> {
        let mut spans = vec![strong(clock_after(self.session.start, task.start_minute)), plain(task.timing())];
        if self.whose.is_none() && self.session.people.len() > 1 {
            spans.extend(task.person.map(|person| strong(format!("  {}", self.person(person)))));
        }
        if !task.is_set() {
            spans.push(soft(format!("  {}", self.dish(task))));
        }
        spans
    }

    fn person(&self, id: PersonId) -> &str {
        &self.session.person(id).name
    }

    fn dish(&self, task: &Task) -> String {
        let Some(recipe) = task.recipe() else { return String::new() };
        let name = self.names.recipe(recipe);
        if name.chars().count() <= SHORT {
            return name.to_owned();
        }
        let short = first_words(name);
        // Its full name once, then its first words, unless another dish has the same.
        let earlier = self
            .session
            .tasks
            .iter()
            .take_while(|other| !std::ptr::eq(*other, task))
            .any(|other| other.recipe() == Some(recipe) && self.whose.is_none_or(|whose| other.person == Some(whose)));
        let alike = self
            .session
            .tasks
            .iter()
            .filter_map(Task::recipe)
            .any(|other| other != recipe && first_words(self.names.recipe(other)) == short);
        if earlier && !alike { short } else { brief(name) }
    }

    /// What to do, then where, how hot and until when, or into which box.
    fn text(&self, index: usize) -> Vec<Span> {
        let task = &self.session.tasks[index];
        if task.is_box() {
            return self.boxed(task);
        }
        let mut spans = vec![plain(ended(&task.text(self.names, self.units)))];
        if task.boxing().is_some() {
            spans.push(plain(" "));
            spans.extend(self.filled(task, None));
            return spans;
        }
        let more = self.facts(index);
        if !more.is_empty() {
            spans.push(plain(" "));
            spans.extend(more);
        }
        spans
    }

    /// "Box and chill. Fridge: 2½ portions in 2 deep tubs, use by Wed 2 Dec, for Mon supper. ☐ in the fridge by 18:21 ______ cold ______".
    fn boxed(&self, task: &Task) -> Vec<Span> {
        let fillings = self.session.fillings(task);
        if fillings.is_empty() {
            return vec![plain(ended(&task.text(self.names, self.units)))];
        }
        let places: Vec<Place> = fillings.iter().map(|filling| filling.place).collect();
        let (verb, rest) = boxing_words(&places);
        [vec![plain(format!("{verb}. "))], self.filled(task, rest)].concat()
    }

    /// "Fridge: 2½ portions in 2 deep tubs, …". `rest` are the words before what is cold, where some of it is not.
    fn filled(&self, task: &Task, mut rest: Option<&'static str>) -> Vec<Span> {
        let fillings = self.session.fillings(task);
        let mut spans = Vec::new();
        for (index, filling) in fillings.iter().enumerate() {
            let gap = if index > 0 { " " } else { "" };
            let chill = rest.take_if(|_| filling.place != Place::Cupboard).map(|rest| format!("{}. ", sentence(rest))).unwrap_or_default();
            let much = filling.amount().map_or_else(String::new, |much| format!(" {}", amount(&much, self.units)));
            let boxes = filling.boxes().map_or_else(String::new, |boxes| format!(" in {}", boxes.to_string().replacen(' ', "\u{a0}", 1)));
            spans.push(plain(format!("{gap}{chill}{}:{much}{boxes}, ", sentence(place(filling.place)))));
            spans.push(strong(format!("use by {}", day(filling.use_by))));
            let own = filling
                .own()
                .filter(|_| task.is_box())
                .map(|(eater, much)| format!(", of it {} in a box of {eater}’s own", amount(much, self.units)));
            spans.extend(own.map(strong));
            let purposes = self.purposes(filling);
            spans.push(soft(if purposes.is_empty() { ".".to_owned() } else { format!(", {purposes}.") }));
        }
        let mine = fillings.first().and_then(|filling| filling.notes.first());
        spans.extend(mine.and_then(|note| warned_of(note)));
        if let Some(by) = task.cold_by() {
            let at = task.cold_place();
            let by = clock_after(self.session.start, by);
            spans.push(strong(format!(" ☐{TIE}in the {} by{TIE}{by}", place(at))));
            let blank = match (self.kind.brief, self.kind.is_tight()) {
                (true, _) => "_____",
                (_, true) => "______",
                _ => "__________",
            };
            spans.push(soft(format!("{TIE}{blank} cold{TIE}{blank}")));
        }
        spans
    }

    /// "for Mon supper; 1 portion to spare".
    fn purposes(&self, filling: &Filling) -> String {
        let what_for = filling.what_for().join(", ");
        let spare = filling.spare().map(|much| format!("{} to spare", amount(much, self.units)));
        (!what_for.is_empty()).then(|| format!("for {what_for}")).into_iter().chain(spare).join("; ")
    }

    /// On a page for one person: which steps of others come first, and who waits for this one.
    fn with_others(&self, index: usize, marks: &[Mark]) -> Vec<Span> {
        let Some(whose) = self.whose else { return Vec::new() };
        let tasks = &self.session.tasks;
        let other = |one: usize| tasks[one].person.filter(|person| *person != whose).map(|who| Theirs { who, mark: marks[one] });
        // What an earlier step of the same person has waited for is done.
        let earlier = tasks[..index].iter().filter(|task| task.person == Some(whose));
        let known: Vec<usize> = earlier.flat_map(|task| &task.after).copied().collect();
        let before = tasks[index].after.iter().copied().filter(|one| *one < tasks.len() && !known.contains(one)).sorted();
        let waits = by_person(before.filter_map(other));
        let told = by_person((0..tasks.len()).filter(|one| tasks[*one].after.contains(&index)).filter_map(other));
        let waits = waits.iter().map(|(who, marks)| format!("{marks}{TIE}({})", self.person(*who))).join(", ");
        let told = told.iter().map(|(who, marks)| format!("{}{TIE}({marks})", self.person(*who))).join(", ");
        let mut spans = Vec::new();
        spans.extend((!waits.is_empty()).then(|| strong(format!(" Wait for {waits}."))));
        spans.extend((!told.is_empty()).then(|| strong(format!(" Then tell {told}."))));
        spans
    }

    /// "Oven (2 places), 180 °C, out at 15:33 (Jo).", "Hob, until 15:01."
    fn facts(&self, index: usize) -> Vec<Span> {
        let task = &self.session.tasks[index];
        let mut places: Vec<String> = task.on.iter().map(|id| self.names.appliance(*id).to_owned()).collect();
        if let (Some(first), Some(takes)) = (places.first_mut(), task.takes.filter(|takes| *takes > 1)) {
            first.push_str(&format!(" ({takes}{TIE}places)"));
        }
        if let (Some(first), Some(heat)) = (places.first_mut(), task.at) {
            first.push_str(&format!(", {}", temperature(heat, self.units)));
        }
        let other = task.out_person.filter(|person| task.person != Some(*person));
        let by = other.map_or_else(String::new, |person| format!(" ({})", self.person(person)));
        let out = clock_after(self.session.start, task.out_minute());
        let until = if task.out_minutes > 0 && !self.session.stays_on(index) {
            Some(format!("out at {out}{by}"))
        } else if task.is_set() {
            (!self.kind.brief).then(|| format!("ready at {out}"))
        } else {
            (task.out_minute() > task.start_minute + task.hands_minutes && !self.kind.brief).then(|| format!("until {out}"))
        };
        let where_ = if task.is_set() { String::new() } else { sentence(&places.join("; ")) };
        match (where_.is_empty(), until) {
            (true, None) => Vec::new(),
            (true, Some(until)) => vec![strong(format!("{}.", sentence(&until)))],
            (false, None) => vec![soft(format!("{where_}."))],
            (false, Some(until)) => vec![soft(format!("{where_}, ")), strong(format!("{until}."))],
        }
    }
}

/// Letters up to which a dish is called by its whole name at each step.
const SHORT: usize = 22;

/// The mark of a task that somebody else does.
struct Theirs {
    who: PersonId,
    mark: Mark,
}

/// Everybody once, with their marks: "1, 3".
fn by_person(theirs: impl Iterator<Item = Theirs>) -> Vec<(PersonId, String)> {
    let all: Vec<Theirs> = theirs.collect();
    let marks = |who: PersonId| all.iter().filter(|one| one.who == who).map(|one| one.mark.to_string()).join(", ");
    all.iter().map(|one| one.who).unique().map(|who| (who, marks(who))).collect()
}

/// " Contains sesame." of what the household avoids; else " Allergens not known: vegetable stock."
pub fn warned_of(note: &BoxNote) -> Option<Span> {
    let unknown = &note.contains.unknown;
    match &note.beware {
        Some(beware) => Some(strong(format!(" {}.", sentence(&beware.to_string())))),
        None => (!unknown.is_empty()).then(|| soft(format!(" Allergens not known: {}.", unknown.iter().join(", ")))),
    }
}
