//! The plan of the sessions as text for a terminal of some width: a chart, the numbered steps, then what to fetch, cut and box.

use jiff::civil::DateTime;

use super::super::wrap::{table, wrap};
use super::chart::chart;
use crate::PastSession;
use crate::kitchen::Names;
use crate::kitchen::much::{lacking, made as made_of};
use crate::measure::{Units, show};
use crate::prep::{
    AT_THE_MEAL, Before, BoxNote, Fetched, Filling, Mark, Moment, PersonId, PrepPlan, Put, SessionPlan, Shares, by_food, presence,
};
use crate::words::{brief, clock, clock_after, day, day_clock, place, temperature};

/// The plan in lines of at most `width` characters. Steps and boxes bear the marks of the printed guide.
pub fn text(plan: &PrepPlan, past: &[PastSession], names: Names, units: Units, width: usize) -> String {
    let mut out = wrap("", &format!("{}: {}", names.household, plan.week), width);
    let writer = Writer { names, units, width };
    super::super::list::short(&plan.short, names, units, &mut out);
    for session in past {
        let made = session.turnover.iter().flat_map(|turnover| &turnover.batches);
        let made: Vec<String> = made.map(|batch| made_of(names, batch.recipe, &batch.makes, units)).collect();
        let made = if made.is_empty() { String::new() } else { format!(": {}", made.join(", ")) };
        out.push('\n');
        out.push_str(&wrap("", &format!("{}, {}{made}", day_clock(session.start), session.state.words()), width));
        let boxes = session.turnover.iter().flat_map(|turnover| &turnover.boxes);
        out.push_str(&table(&boxes.map(|put| writer.put(put)).collect::<Vec<_>>(), 2, width));
    }
    titled(&mut out, "Before", &writer.dated(&plan.before), width);
    listed(&mut out, AT_THE_MEAL, plan.cautions.iter().map(|care| care.with_source(names)), width);
    for session in &plan.sessions {
        writer.session(&mut out, session);
    }
    titled(&mut out, "From freezer to fridge", &writer.dated(&plan.moves), width);
    out
}

/// What all parts of the text need.
#[derive(Clone, Copy)]
struct Writer<'k> {
    names: Names<'k>,
    units: Units,
    width: usize,
}

impl Writer<'_> {
    fn dated(self, notes: &[Before]) -> Vec<Vec<String>> {
        let moment = |at: Moment| match at {
            Moment::On(date) => day(date),
            Moment::At(at) => day_clock(at),
        };
        notes.iter().map(|note| vec![moment(note.at), note.errand.text(self.names, self.units)]).collect()
    }

    fn session(self, out: &mut String, session: &SessionPlan) {
        let Writer { names, width, .. } = self;
        out.push('\n');
        out.push_str(&wrap("", &headline(session), width));
        out.push_str(&wrap("", &session.people.iter().map(presence).collect::<Vec<_>>().join("; "), width));
        listed(out, "", session.advice.iter().map(|advice| advice.text(names)), width);
        if session.tasks.is_empty() {
            return;
        }
        out.push('\n');
        out.push_str(&chart(session, names, width));
        out.push_str(&wrap("", "A number or letter: the step or box begins. |: it goes on. ~: warming up.", width));
        out.push('\n');
        for (place, mark) in session.marks().into_iter().enumerate() {
            self.task(out, session, place, mark);
        }
        listed(out, "Get out", session.get_out(None).words(names).into_iter(), width);
        titled(out, "Fetch", &by_food(&session.fetch).iter().map(|one| self.fetch(session, one)).collect::<Vec<_>>(), width);
        listed(out, "Cut, and for which step", session.cuts_together().iter().map(|cut| cut.words(self.units)), width);
        titled(out, "Boxes", &session.boxes.iter().map(|one| self.boxed(one)).collect::<Vec<_>>(), width);
        let slower = session.slower_text(names);
        listed(out, "Hands", session.hands().iter().map(|one| one.text(session)).chain(slower), width);
        listed(out, "Mind", session.cautions.iter().map(|caution| caution.with_source(names)), width);
    }

    /// A line with when, who and where; below it what to do and what to mind.
    fn task(self, out: &mut String, session: &SessionPlan, index: usize, mark: Mark) {
        let task = &session.tasks[index];
        let Writer { names, units, width } = self;
        let indent = " ".repeat(5);
        let at = |minute: i64| clock_after(session.start, minute);
        let name = |id: PersonId| session.person(id).name.clone();
        let mut head = format!("{}{}", at(task.start_minute), task.timing());
        let places: Vec<&str> = task.on.iter().map(|id| names.appliance(*id)).collect();
        let dish = task.recipe().map(|id| names.recipe(id).to_owned());
        let heat = task.at.map(|heat| temperature(heat, units));
        for part in [task.person.map(name), dish, (!places.is_empty()).then(|| places.join(" and ")), heat].into_iter().flatten() {
            head.push_str("; ");
            head.push_str(&part);
        }
        let mark = if task.is_set() { "~".to_owned() } else { mark.to_string() };
        out.push_str(&wrap(&format!("{mark:>3}  "), &head, width));
        out.push_str(&wrap(&indent, &task.text(names, units), width));
        // A portion that is boxed by itself says so in its own words.
        for (eater, much) in session.fillings(task).iter().filter(|_| task.is_box()).flat_map(Filling::own) {
            out.push_str(&wrap("     - ", &format!("Of it {} in a box of {eater}’s own", show(much, units)), width));
        }
        if task.out_minutes > 0 && !session.stays_on(index) {
            let by = task.out_person.map_or_else(String::new, |person| format!(" ({})", name(person)));
            out.push_str(&wrap(&indent, &format!("Out at {}{by}.", at(task.out_minute())), width));
        } else if task.out_minute() > task.start_minute + task.hands_minutes {
            out.push_str(&wrap(&indent, &format!("Until {}.", at(task.out_minute())), width));
        }
        if let Some(by) = task.cold_by() {
            out.push_str(&wrap(&indent, &format!("☐ in the {} by {}", place(task.cold_place()), at(by)), width));
        }
        task.notes.iter().for_each(|note| out.push_str(&wrap("     - ", &note.text(names, units), width)));
    }

    /// "505 g apples  500 g fridge, the rest from the shopping".
    fn fetch(self, session: &SessionPlan, item: &Fetched) -> Vec<String> {
        let said = &session.said;
        let taste = if item.amount.is_zero() { ", to taste" } else { "" };
        vec![format!("{}{taste}", item.words(said, &Shares::whole(), self.names, self.units)), item.where_from(session, self.units)]
    }

    /// A box of a session that is no longer open.
    fn put(self, put: &Put) -> Vec<String> {
        let own = put.eater.as_ref().map_or_else(String::new, |eater| format!("{eater}’s own, "));
        let name = brief(self.names.recipe(put.recipe)) + &lacking(self.names, &put.without);
        vec![name, show(&put.amount, self.units), format!("{own}{}, use by {}", place(put.place), day(put.use_by))]
    }

    fn boxed(self, boxed: &BoxNote) -> Vec<String> {
        let into = boxed.boxes.as_ref().map_or_else(String::new, |boxes| format!("in {boxes}, "));
        let own = boxed.eater.as_ref().map_or_else(String::new, |eater| format!("{eater}’s own, "));
        let until = format!("{into}{own}{}, use by {}", place(boxed.place), day(boxed.use_by));
        let what_for = if boxed.what_for.is_empty() { String::new() } else { format!(", for {}", boxed.what_for.join(", ")) };
        let allergens = boxed.contains.words().map_or_else(String::new, |allergens| format!("; allergens: {allergens}"));
        vec![
            brief(self.names.recipe(boxed.recipe)) + &lacking(self.names, &boxed.without),
            show(&boxed.amount, self.units),
            until + &what_for + &allergens,
        ]
    }
}

fn headline(session: &SessionPlan) -> String {
    let proof = match session.bound_minutes {
        _ if session.proven => "no shorter plan exists".to_owned(),
        ..=0 => "a shorter plan may exist".to_owned(),
        bound => format!("no plan is shorter than {bound} min"),
    };
    let by = session.finish_by.map_or_else(String::new, |by| format!(", to finish by {}", clock(by)));
    let by = by + &session.served_text();
    let at = |moment: DateTime| if session.start.date() == moment.date() { clock(moment) } else { day_clock(moment) };
    // What is served last counts to no finish, but the cook is at work until then.
    let rest = session.ends_with_a_meal().then(|| format!("the rest done at {}, ", at(session.finish)));
    let rest = rest.unwrap_or_default();
    let (from, to) = (day_clock(session.start), at(session.ends()));
    if session.is_done() {
        return format!("{from} to {to}: all of it is done");
    }
    // All of it is served hot: there is no rest whose minutes could be told.
    if session.is_all_served() {
        return format!("{from} to {to}{by}");
    }
    format!("{from} to {to}{by}: {rest}{} min, {proof}", session.minutes)
}

fn titled(out: &mut String, title: &str, rows: &[Vec<String>], width: usize) {
    if !rows.is_empty() {
        out.push_str(&format!("\n{title}\n{}", table(rows, 2, width)));
    }
}

fn listed(out: &mut String, title: &str, texts: impl Iterator<Item = String>, width: usize) {
    let mut heading = Some(if title.is_empty() { "\n".to_owned() } else { format!("\n{title}\n") });
    for text in texts {
        out.extend(heading.take());
        out.push_str(&wrap("  - ", &text, width));
    }
}

#[cfg(test)]
mod tests;
