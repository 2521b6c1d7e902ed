//! The sessions by the clock, and the week by day, as HTML.

use std::fmt::Write;

use itertools::Itertools;

use super::list::there;
use super::{first, safe, short_hash, warned};
use crate::kitchen::much::for_whom;
use crate::kitchen::{Kitchen, Names};
use crate::measure::{Quantity, Units, show};
use crate::prep::{
    AT_THE_MEAL, Batch, Before, CardMeal, Care, Fetched, Mark, Moment, PrepPlan, SessionPlan, Shares, Task, WeekCard, by_food, taken_from,
};
use crate::telling::short::at_the_meal;
use crate::words::{clock, clock_after, day, day_clock, degrees, duration, ended, in_a_sentence, place, sentence};

pub(super) fn sessions(kitchen: &Kitchen, prep: &PrepPlan) -> String {
    let mut html = String::new();
    for (index, session) in prep.sessions.iter().enumerate() {
        add_session(&mut html, kitchen, session, &prep.before_session(index));
    }
    if html.is_empty() { "<h2>Guide</h2><p>Nothing is cooked ahead.</p>".to_owned() } else { html }
}

fn add_session(html: &mut String, kitchen: &Kitchen, session: &SessionPlan, before: &[Before]) {
    let (names, units) = (kitchen.names(), kitchen.print.units);
    let texts: Vec<String> = session.tasks.iter().map(|task| task.text(names, units)).collect();
    let known_by: String = session.tasks.iter().zip(&texts).map(|(task, text)| format!("{}\n{text}\n", task.start_minute)).collect();
    let _ = writeln!(
        html,
        "<section class=\"session\" data-start=\"{}\" data-hash=\"{}\"><h2>Guide, {}</h2>\n<p>{}; {}{}{}.</p>",
        session.start.strftime("%Y-%m-%dT%H:%M:00"),
        short_hash(&format!("{}\n{known_by}", session.start)),
        safe(&day_clock(session.start)),
        safe(&there(&session.people)),
        done_by(session),
        session.finish_by.map_or_else(String::new, |by| format!(", to be finished by {}", clock(by))),
        if session.ends_with_a_meal() { format!(", served at {}", clock(session.ends())) } else { String::new() }
    );
    // As on paper: what must not be overlooked stands at the head.
    for care in &session.cautions {
        match care {
            Care::Unknown(_) => html.push_str(&warned(&care.text(names))),
            Care::CrossContact(one) => html.push_str(&warned(&one.warning(names))),
            _ => {}
        }
    }
    html.push_str(
        "<p class=\"next\" role=\"status\"></p><div class=\"bar\"><button type=\"button\" data-shift=\"10\">Shift everything by 10 min</button>\
         <button type=\"button\" data-shift=\"-10\">10 min back</button><span class=\"shifted\" role=\"status\"></span></div>\n",
    );
    add_items(html, "Before the session", before.iter().map(|one| format!("{}: {}", moment(one.at), one.errand.text(names, units))));
    add_items(html, "Get out", session.get_out(None).words(names).into_iter());
    add_items(html, "Fetch", by_food(&session.fetch).iter().map(|one| fetched(one, session, names, units)));
    add_items(html, "Cut, and for which step", session.cuts_together().iter().map(|cut| cut.words(units)));
    html.push_str("<h3>Steps</h3>\n<ol>\n");
    let marks = session.marks();
    for (index, mark) in marks.iter().enumerate() {
        add_step(html, names, units, session, (index, *mark), &texts);
    }
    html.push_str("</ol>\n");
    add_items(html, "What this makes", session.batches.iter().map(|batch| made(batch, names, units)));
    let hands = session.hands().into_iter().map(|hands| hands.text(session));
    add_items(html, "Hands", hands.chain(session.slower_text(names)));
    add_items(html, "Good to know", session.advice.iter().map(|advice| advice.text(names)));
    add_items(html, "Take care", session.cautions.iter().map(|care| care.with_source(names)));
    html.push_str("</section>\n");
}

/// "done by 16:40 (2 h 40 min)", of the rest where some of it is served hot.
fn done_by(session: &SessionPlan) -> String {
    if session.is_all_served() {
        return "all served hot".to_owned();
    }
    let rest = if session.ends_with_a_meal() { "the rest " } else { "" };
    format!("{rest}done by {} ({})", clock(session.finish), duration(session.minutes))
}

fn fetched(one: &Fetched, session: &SessionPlan, names: Names, units: Units) -> String {
    format!("{}: {}", one.words(&session.said, &Shares::whole(), names, units), one.where_from(session, units))
}

/// "Pearl barley, 4 portions (2 batches)".
fn made(batch: &Batch, names: Names, units: Units) -> String {
    let word = if batch.batches <= 1.0 { "batch" } else { "batches" };
    let times = show(&Quantity::pieces(batch.batches), units);
    format!("{}, {} ({times} {word})", names.recipe(batch.recipe), show(&batch.makes, units))
}

fn moment(at: Moment) -> String {
    match at {
        Moment::On(date) => day(date),
        Moment::At(at) => day_clock(at),
    }
}

fn add_items(html: &mut String, title: &str, items: impl Iterator<Item = String>) {
    let items: String = items.map(|item| format!("<li>{}</li>", safe(&sentence(&item)))).collect();
    if !items.is_empty() {
        let _ = writeln!(html, "<h3>{title}</h3><ul>{items}</ul>");
    }
}

fn add_step(html: &mut String, names: Names, units: Units, session: &SessionPlan, (index, mark): (usize, Mark), texts: &[String]) {
    let task = &session.tasks[index];
    let facts: Vec<String> = facts(session, task, names, units).into_iter().filter(|fact| !fact.is_empty()).collect();
    let dish = dish(task, names).map(|dish| format!("<span class=\"dish\">{}</span>", safe(dish))).unwrap_or_default();
    let _ = write!(
        html,
        "<li class=\"step\" data-i=\"{index}\" data-at=\"{}\"><label class=\"tick\"><input type=\"checkbox\">\
         <span><span class=\"no\">{}</span> <time>{}</time> {dish}<b class=\"text\">{}</b><small>{}</small></span></label>",
        task.start_minute,
        told(mark),
        clock_after(session.start, task.start_minute),
        safe(&texts[index]),
        facts.join(" · ")
    );
    add_boxes(html, session, task, units);
    let wait = task.out_minute() - task.start_minute - task.hands_minutes;
    if wait > 0 {
        let then = safe(&when_it_ends(session, index, names, texts));
        let _ = write!(
            html,
            "<div class=\"timer\" data-then=\"{then}\"><button type=\"button\" data-wait=\"{wait}\">Timer: {wait} min</button><p></p></div>"
        );
    }
    html.push_str("</li>\n");
}

/// Who, where, how hot and how long, as HTML.
fn facts(session: &SessionPlan, task: &Task, names: Names, units: Units) -> Vec<String> {
    let mut places: Vec<String> = task.on.iter().map(|id| names.appliance(*id).to_owned()).collect();
    if let (Some(first), Some(takes)) = (places.first_mut(), task.takes.filter(|takes| *takes > 1)) {
        first.push_str(&format!(" ({takes} places)"));
    }
    // The words of what is set say how hot it is.
    if let (Some(first), Some(heat)) = (places.first_mut(), task.at.filter(|_| !task.is_set())) {
        first.push_str(&format!(", {}", degrees(heat, units)));
    }
    let by = task.out_person.filter(|person| task.person != Some(*person));
    let by = by.map(|person| format!(" ({})", session.person(person).name)).unwrap_or_default();
    let out = if task.out_minutes > 0 {
        format!("<b>out at {}{}</b>", minute(session, task.out_minute()), safe(&by))
    } else if task.is_set() {
        format!("ready at {}", minute(session, task.out_minute()))
    } else if task.out_minute() > task.start_minute + task.hands_minutes {
        format!("until {}", minute(session, task.out_minute()))
    } else {
        String::new()
    };
    let mut facts: Vec<String> = task.person.iter().map(|id| safe(&session.person(*id).name)).collect();
    facts.push(safe(task.timing().trim_start_matches(", ")));
    facts.extend(places.iter().map(|place| safe(place)));
    facts.push(out);
    facts.extend(task.notes.iter().map(|note| safe(&note.text(names, units))));
    facts
}

/// A time that moves with the rest when everything is shifted.
fn minute(session: &SessionPlan, minute: i64) -> String {
    format!("<span data-min=\"{minute}\">{}</span>", clock_after(session.start, minute))
}

/// "Fridge: 2½ portions in 2 deep tubs, use by Wed 2 Dec, for Mon supper", a line a place and date; last until when it must be cold.
fn add_boxes(html: &mut String, session: &SessionPlan, task: &Task, units: Units) {
    let fillings = session.fillings(task);
    if fillings.is_empty() {
        return;
    }
    html.push_str("<ul class=\"boxes\">");
    for filling in &fillings {
        let much = filling.amount().map_or_else(String::new, |much| format!(" {}", show(&much, units)));
        let boxes = filling.boxes().map_or_else(String::new, |boxes| format!(" in {boxes}"));
        let own =
            filling.own().filter(|_| task.is_box()).map(|(eater, much)| format!(", of it {} in a box of {eater}’s own", show(much, units)));
        let what_for = filling.what_for().join(", ");
        let what_for = (!what_for.is_empty()).then(|| format!(", for {what_for}"));
        let spare = filling.spare().map(|much| format!("; {} to spare", show(much, units)));
        let more: String = own.chain(what_for).chain(spare).collect();
        let head = format!("{}:{much}{boxes}, ", sentence(place(filling.place)));
        let _ = write!(html, "<li>{}<b>use by {}</b>{}</li>", safe(&head), safe(&day(filling.use_by)), safe(&more));
    }
    let known = fillings[0].notes[0];
    let warned = match &known.beware {
        Some(beware) => Some(sentence(&beware.to_string())),
        None => (!known.contains.unknown.is_empty()).then(|| format!("Allergens not known: {}", known.contains.unknown.iter().join(", "))),
    };
    html.extend(warned.map(|text| format!("<li><b>{}</b></li>", safe(&text))));
    if let Some(by) = task.cold_by() {
        let _ = write!(html, "<li><b>In the {} by {}</b></li>", place(task.cold_place()), minute(session, by));
    }
    html.push_str("</ul>");
}

/// The dish that a step belongs to, unless the step's own words name it.
fn dish<'k>(task: &Task, names: Names<'k>) -> Option<&'k str> {
    task.step().map(|step| names.recipe(step.recipe))
}

/// "12." for a step, "B." for a box, as on paper.
fn told(mark: Mark) -> String {
    if mark == Mark::None { String::new() } else { format!("{mark}.") }
}

/// "Step 4, white-bean mash: take it off the hob (Jo). Then step 12: Mash them." Of another dish its name is told, too.
fn when_it_ends(session: &SessionPlan, index: usize, names: Names, texts: &[String]) -> String {
    let marks = session.marks();
    let of_dish = |index: usize| session.tasks[index].step().map(|step| step.recipe);
    let called = |index: usize, with_dish: bool| {
        let number = match marks[index] {
            Mark::None => None,
            Mark::Number(number) => Some(format!("step {number}")),
            mark @ Mark::Letter(_) => Some(format!("box {mark}")),
        };
        let dish = dish(&session.tasks[index], names).filter(|_| with_dish).map(in_a_sentence);
        number.into_iter().chain(dish).collect::<Vec<_>>().join(", ")
    };
    let task = &session.tasks[index];
    let text = ended(&texts[index]);
    let mut said = Vec::new();
    if let Some(appliance) = task.on.first().filter(|_| task.out_minutes > 0) {
        let who = task.out_person.map(|id| format!(" ({})", session.person(id).name)).unwrap_or_default();
        said.push(format!("{}: take it {}{who}.", sentence(&called(index, true)), taken_from(*appliance, names)));
    } else if task.is_set() {
        said.push(format!("It is hot enough: {text}"));
    } else {
        said.push(format!("{} is done: {text}", sentence(&called(index, true))));
    }
    let next = session.tasks.iter().position(|later| later.after.contains(&index));
    said.extend(next.map(|next| match called(next, of_dish(next) != of_dish(index)) {
        called if called.is_empty() => format!("Then: {}", ended(&texts[next])),
        called => format!("Then {called}: {}", ended(&texts[next])),
    }));
    said.join(" ")
}

pub(super) fn week(kitchen: &Kitchen, card: &WeekCard) -> String {
    let (names, units) = (kitchen.names(), kitchen.print.units);
    let mut html = format!("<h2>Week</h2>\n{}", first(&card.short, &card.not_known, names, units));
    for one in &card.days {
        let _ = writeln!(html, "<h3>{}</h3>", safe(&day(one.on)));
        for meal in &one.meals {
            add_meal(&mut html, meal, names, units);
        }
        for (heading, late) in [("Today", true), ("Tonight", false)] {
            let errands = one.tonight.iter().filter(|errand| errand.is_late() == late);
            add_items(&mut html, heading, errands.map(|errand| errand.text(names, units)));
        }
    }
    add_items(&mut html, AT_THE_MEAL, card.cautions.iter().map(|care| care.with_source(names)));
    html
}

fn add_meal(html: &mut String, meal: &CardMeal, names: Names, units: Units) {
    let name = meal.called.as_ref().map(|name| format!(": {name}")).unwrap_or_default();
    let _ = write!(html, "<p><b>{}</b></p><ul>", safe(&format!("{}{name}", meal.label)));
    let dishes = meal.dishes.iter().map(|dish| {
        let from = match (dish.place, &dish.boxed) {
            (None, _) => "straight from the pot".to_owned(),
            (Some(at), None) => format!("from the {}", place(at)),
            (Some(at), Some(kind)) => format!("{kind} in the {}", place(at)),
        };
        let then = dish.then.text(names, units).map(|then| format!(", {then}")).unwrap_or_default();
        let whose = for_whom(names, dish.whose.as_ref());
        format!("{}{whose}, {}, {from}{then}", names.recipe(dish.recipe), dish.amount_text(units))
    });
    let cook = meal.cook.iter().map(|cook| format!("Cook: {}", cook.text()));
    let added = meal.added();
    let fresh = (!added.is_empty()).then(|| format!("Add: {}", added.join("; ")));
    let made = meal.made.iter().flat_map(|making| {
        let steps = making.steps.iter().enumerate().map(|(index, step)| format!("{}. {}", index + 1, step.text(names, units)));
        std::iter::once(format!("Make: {}", names.recipe(making.recipe))).chain(steps)
    });
    // As on paper: who eats otherwise and what to beware of come first.
    let otherwise = meal.otherwise.iter().chain(&meal.choking).map(|one| format!("{one}."));
    let first = otherwise.chain(meal.beware.iter().map(|beware| sentence(&beware.to_string())));
    let lacking = meal.short.iter().map(|short| at_the_meal(short, names, units));
    for item in lacking.chain(meal.not_known.iter().cloned()) {
        let _ = write!(html, "<li class=\"warn\">{}</li>", safe(&item));
    }
    for item in first.chain(dishes).chain(meal.text.clone()).chain(cook).chain(fresh).chain(made) {
        let _ = write!(html, "<li>{}</li>", safe(&item));
    }
    html.push_str("</ul>\n");
}
