//! The sessions by the clock, and the week by day, as HTML.

use std::fmt::Write;

use super::list::there;
use super::{first, safe, short_hash, warned};
use crate::kitchen::{Kitchen, Names};
use crate::measure::Units;
use crate::prep::{Before, CardMeal, Care, Fetched, Mark, Moment, PrepPlan, SessionPlan, Task, WeekCard, by_food, taken_from};
use crate::words::short::at_the_meal;
use crate::words::{clock, clock_after, day, day_clock, duration, ended, in_a_sentence, place, sentence};

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
        "<section class=\"session\" data-start=\"{}\" data-hash=\"{}\"><h2>Guide, {}</h2>\n<p>{}; {}done by {} ({}){}.</p>",
        session.start.strftime("%Y-%m-%dT%H:%M:00"),
        short_hash(&format!("{}\n{known_by}", session.start)),
        safe(&day_clock(session.start)),
        safe(&there(&session.people)),
        if session.ends_with_a_meal() { "the rest " } else { "" },
        clock(session.finish),
        duration(session.minutes),
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
    add_items(html, "Before", before.iter().map(|one| format!("{}: {}", moment(one.at), one.errand.text(names, units))));
    add_items(html, "Get out", session.get_out(None).words(names).into_iter());
    add_items(html, "Fetch", by_food(&session.fetch).iter().map(|one| fetched(one, session, names, units)));
    html.push_str("<ol>\n");
    let marks = session.marks();
    for (index, mark) in marks.iter().enumerate() {
        add_step(html, names, units, session, (index, *mark), &texts);
    }
    html.push_str("</ol>\n");
    add_items(html, "Care", session.cautions.iter().map(|care| care.with_source(names)));
    html.push_str("</section>\n");
}

fn fetched(one: &Fetched, session: &SessionPlan, names: Names, units: Units) -> String {
    format!("{}: {}", one.words(&session.said, 1.0, names, units), one.places(&session.said, units))
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
    let mut facts: Vec<String> = task.person.iter().map(|id| session.person(*id).name.clone()).collect();
    facts.extend(task.on.iter().map(|id| names.appliance(*id).to_owned()));
    facts.extend((task.hands_minutes > 0).then(|| format!("{} of hands", duration(task.hands_minutes))));
    facts.extend(task.notes.iter().map(|note| note.text(names, units)));
    let dish = dish(task, names).map(|dish| format!("<span class=\"dish\">{}</span>", safe(dish))).unwrap_or_default();
    let _ = write!(
        html,
        "<li class=\"step\" data-i=\"{index}\" data-at=\"{}\"><label class=\"tick\"><input type=\"checkbox\">\
         <span><span class=\"no\">{}</span> <time>{}</time> {dish}<b class=\"text\">{}</b><small>{}</small></span></label>",
        task.start_minute,
        told(mark),
        clock_after(session.start, task.start_minute),
        safe(&texts[index]),
        safe(&facts.join(" · "))
    );
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
        for (heading, late) in [("Now", true), ("In the evening", false)] {
            let errands = one.tonight.iter().filter(|errand| errand.is_late() == late);
            add_items(&mut html, heading, errands.map(|errand| errand.text(names, units)));
        }
    }
    html
}

fn add_meal(html: &mut String, meal: &CardMeal, names: Names, units: Units) {
    let name = meal.name.as_ref().map(|name| format!(": {name}")).unwrap_or_default();
    let _ = write!(html, "<p><b>{}</b></p><ul>", safe(&format!("{}{name}", meal.label)));
    let dishes = meal.dishes.iter().map(|dish| {
        let from = dish.place.map_or("straight from the pot".to_owned(), |from| format!("from the {}", place(from)));
        let then = dish.then.text(names, units).map(|then| format!(", {then}")).unwrap_or_default();
        format!("{}, {}, {from}{then}", names.recipe(dish.recipe), dish.amount_text(units))
    });
    let cook = meal.cook.iter().map(|cook| format!("Cook: {}", cook.text()));
    let added = meal.added();
    let fresh = (!added.is_empty()).then(|| format!("Fresh: {}", added.join(", ")));
    let made = meal.made.iter().flat_map(|making| {
        let steps = making.steps.iter().enumerate().map(|(index, step)| format!("{}. {}", index + 1, step.text(names, units)));
        std::iter::once(format!("Make: {}", names.recipe(making.recipe))).chain(steps)
    });
    // As on paper: who eats otherwise and what to beware of come first.
    let otherwise = meal.otherwise.iter().map(|one| format!("{one}."));
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
