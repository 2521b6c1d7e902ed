//! `compose`: proposes meals for what a week leaves open, as text or JSON, and writes them into its file.

use std::fmt::Write;

use jiff::civil::Date;

use super::mind::{Change, meant, not_edited};
use super::outcome::{Done, Failure, json, say, warn};
use super::setting::Setting;
use super::wrap::{columns, line, stacked};
use super::{Cli, Format};
use crate::compose::say as words;
use crate::compose::{Asking, Clash, Composed, Count, DaySum, FilledMeal, GoesOff, Proposal, StaysOpen, count};
use crate::kitchen::{Ingredient, Kitchen, Recipe, Wanted, Ware, Warning, WrittenMeal, write_meals};
use crate::measure::{Money, show};
use crate::open_meals;
use crate::prep::{Effort, Hours};
use crate::words::{clock, day, day_clock, duration, in_a_sentence, listed};

/// What the command line asks for.
#[derive(Debug, Clone, clap::Args)]
pub struct Choice {
    /// Write the meals into the week's file, in place of open
    #[arg(long, conflicts_with = "count")]
    pub write: bool,
    /// The best other filling of one meal, as in "thu supper", everything else held
    #[arg(long, value_name = "MEAL", conflicts_with_all = ["another", "count"])]
    pub refill: Option<String>,
    /// The next best proposal that differs in at least two meals; again and again
    #[arg(long, action = clap::ArgAction::Count, conflicts_with = "count")]
    pub another: u8,
    /// Nothing is bought; what cannot be filled stays open
    #[arg(long, conflicts_with = "count")]
    pub from_shelf: bool,
    /// Instead: how many different meals the components at hand allow
    #[arg(long)]
    pub count: bool,
}

pub fn run(cli: &Cli, choice: &Choice, effort: Effort) -> Done {
    let setting = Setting::read(cli)?;
    // Where a meal is named and no week, the meal says which week is meant.
    let named = choice.refill.as_deref().map(|name| meant(cli, &setting, name)).transpose()?;
    let week = match named {
        Some(meal) => setting.weeks().position(|week| week.meals.iter().any(|other| other.at == meal.at)).unwrap_or_default(),
        None => setting.week_to_compose(cli.week.as_deref())?,
    };
    if choice.count {
        return tell_count(cli, &setting.count(week)?, &setting.loaded.kitchen);
    }
    let refill = named.and_then(|meal| setting.loaded.weeks[week].1.meals.iter().position(|other| other.at == meal.at));
    let asking = Asking { effort, refill, another: usize::from(choice.another), from_shelf: choice.from_shelf };
    let composed = setting.compose(week, &asking)?;
    let (file, read) = &setting.loaded.weeks[week];
    let kitchen = &setting.loaded.kitchen;
    match composed {
        Composed::Proposal(proposal) => {
            warn(&not_known(&proposal, kitchen), cli.strict)?;
            warn(&proposal.warnings, cli.strict)?;
            if choice.write {
                write(&setting, file, &proposal, kitchen)?;
            }
            match cli.format {
                Format::Json => say(&json(&crate::json::compose(&proposal, kitchen))?),
                Format::Text => say(&text(&proposal, kitchen, choice, file)),
            }
        }
        Composed::Clash(clash) => {
            if cli.format == Format::Json {
                say(&json(&crate::json::clash(&clash, kitchen))?)?;
            }
            Err(Failure::NotKnown(clash_text(&clash, kitchen, effort)))
        }
        Composed::NothingElse { proven } => {
            let refilled = refill.map(|meal| read.meals[meal].label.as_str());
            if cli.format == Format::Json {
                say(&json(&crate::json::nothing_composed(read, refilled, proven))?)?;
            }
            Err(Failure::NotKnown(format!("{}: {}", read.name, nothing_else(refilled, asking.another, proven, effort))))
        }
        Composed::NothingOpen(written) => match cli.format {
            Format::Json => say(&json(&crate::json::compose(&written, kitchen))?),
            Format::Text => say(&nothing_open(&written, kitchen, file)),
        },
    }
}

/// Why nothing else can be proposed, and what would help.
fn nothing_else(refilled: Option<&str>, another: usize, proven: bool, effort: Effort) -> String {
    let before = if another > 1 { format!("the {another} proposals before it") } else { "the first proposal".to_owned() };
    let wanted = match refilled {
        Some(meal) => format!("other filling of {meal} beside the other meals"),
        None => format!("week that differs from {before} in two meals"),
    };
    if !proven {
        return format!("no {wanted} was found that your wishes allow{}.", further(effort));
    }
    format!("no {wanted} is allowed by your wishes. Loosen one of them, or give more recipes and foods a place: fits, in their files.")
}

fn nothing_open(written: &Proposal, kitchen: &Kitchen, file: &str) -> String {
    match written.open.as_slice() {
        [] => format!("{}: no meal is open. Leave one to be filled with open = true in {file}.\n", written.week),
        open => format!("{}: no meal is open that is still to come.\n{}", written.week, stay_open(open, kitchen)),
    }
}

fn stay_open(open: &[StaysOpen], kitchen: &Kitchen) -> String {
    let rows: String = open.iter().map(|open| line(&format!("  {}: {}", open.label, words::stays(&open.why, kitchen)))).collect();
    format!("Stays open\n{rows}")
}

fn not_known(proposal: &Proposal, kitchen: &Kitchen) -> Vec<Warning> {
    let names = kitchen.names().foods(&proposal.not_known);
    let text = || format!("each_day: not all figures of {} are known; what is not known counts 0.", listed(&names));
    if names.is_empty() { Vec::new() } else { vec![Warning::Note { at: None, text: text() }] }
}

fn write(setting: &Setting, file: &str, proposal: &Proposal, kitchen: &Kitchen) -> Done {
    let texts = |lines: &[crate::kitchen::Ingredient]| lines.iter().map(|line| line.text.clone()).collect();
    let meal = |meal: &FilledMeal| WrittenMeal {
        at: meal.spot.clone(),
        pattern: meal.pattern.map(|pattern| kitchen.together.patterns[pattern].name.clone()),
        name: meal.name.clone(),
        each: texts(&meal.each),
        shared: texts(&meal.shared),
    };
    let Some(first) = proposal.meals.first() else { return Ok(()) };
    let change = Change::begin(setting)?;
    let meals: Vec<WrittenMeal> = proposal.meals.iter().map(meal).collect();
    let new = write_meals(&change.text(file)?, &meals).map_err(|why| not_edited(&first.spot, &why))?;
    let texts = [(file, new)];
    change.tried(&texts)?;
    change.write(&texts)
}

fn text(proposal: &Proposal, kitchen: &Kitchen, choice: &Choice, file: &str) -> String {
    let mut out = format!("{}: {}\n\n", kitchen.names().household, proposal.week);
    out.push_str(&meals_text(proposal, kitchen));
    out.push_str(&cost_text(proposal, kitchen, choice));
    out.push_str(&left_text(proposal, kitchen));
    out.push_str(&work_text(proposal, kitchen));
    if !proposal.days.is_empty() {
        out.push_str("\nA whole share gets, of what is wanted\n");
        out.push_str(&columns(&proposal.days.iter().map(day_row).collect::<Vec<_>>(), 2));
    }
    match choice.write {
        _ if proposal.meals.is_empty() => {}
        true => out.push_str(&format!("\nWritten: {file}\n")),
        false => out.push_str("\nspence compose --write puts these meals into the week.\n"),
    }
    out
}

fn meals_text(proposal: &Proposal, kitchen: &Kitchen) -> String {
    let rows: Vec<Vec<String>> = proposal.meals.iter().map(|meal| row(meal, kitchen)).collect();
    let mut out = stacked(&rows, 2, 2);
    if !proposal.open.is_empty() {
        out.push_str(if rows.is_empty() { "" } else { "\n" });
        out.push_str(&stay_open(&proposal.open, kitchen));
    }
    out
}

fn cost_text(proposal: &Proposal, kitchen: &Kitchen, choice: &Choice) -> String {
    let names = kitchen.names();
    let money = |money| format!("{} {}", names.money(money), names.currency);
    let mut out = format!("\n{}", sum_text(proposal, kitchen));
    if let Some(budget) = kitchen.household.budget.filter(|budget| proposal.cost > *budget) {
        let over = Money(proposal.cost.0 - budget.0);
        let _ = writeln!(out, "The list is {} above the household's budget of {}.", money(over), names.money(budget));
    }
    // A proposal that had to be another one is the best of those alone.
    let (week, among) = match choice {
        Choice { refill: Some(_), .. } => ("other filling", " among the other fillings of this meal"),
        Choice { another: 1, .. } => ("week", " among those that differ from the first proposal in two meals"),
        Choice { another: 2.., .. } => ("week", " among those that differ from the proposals before in two meals"),
        _ => ("week", ""),
    };
    out.push_str(&match proposal.proven {
        // Where nothing could be filled, nothing was there to choose.
        _ if proposal.meals.is_empty() => String::new(),
        true => format!("Nothing better exists{among}.\n"),
        false => format!("No {week} has a net cost below {}.\n", money(proposal.bound)),
    });
    if !proposal.no_price.is_empty() {
        out.push_str(&line(&words::no_price(&names.foods(&proposal.no_price))));
    }
    out
}

/// The net cost as a sum that can be followed down the page.
fn sum_text(proposal: &Proposal, kitchen: &Kitchen) -> String {
    let names = kitchen.names();
    let off = if is_uneaten(proposal) { "goes off on the shelf, or is not eaten" } else { "goes off on the shelf" };
    let parts = [
        ("of it left over, and keeps", "-", proposal.keeps),
        (off, "+", proposal.goes_off),
        ("on the shelf past its date, whatever is eaten", "+", proposal.lost),
    ];
    let mut rows = vec![("the list", "", proposal.cost)];
    rows.extend(parts.into_iter().filter(|(_, _, part)| *part != Money::ZERO));
    rows.push(("net cost", "", proposal.net_cost));
    let rows: Vec<(&str, String)> = rows.into_iter().map(|(what, sign, money)| (what, format!("{sign}{}", names.money(money)))).collect();
    let wide = rows.iter().map(|(_, money)| money.len()).max().unwrap_or(0);
    let rows: Vec<Vec<String>> = rows.into_iter().map(|(what, money)| vec![what.to_owned(), format!("{money:>wide$}")]).collect();
    let mut out = format!("What it costs, in {}\n{}", names.currency, columns(&rows, 2));
    let bought = Money(proposal.spoils.0 - proposal.goes_off.0 - proposal.lost.0);
    if bought > Money::ZERO {
        let _ = writeln!(out, "Of what is on the list, {} spoils before anybody uses it.", names.money(bought));
    }
    out
}

/// Does something cooked stay on the shelf?
fn is_uneaten(proposal: &Proposal) -> bool {
    proposal.off.iter().any(|off| !off.lost && matches!(off.of, Ware::Recipe(_)))
}

/// What of the shelf goes off, and what is left of the shopping.
fn left_text(proposal: &Proposal, kitchen: &Kitchen) -> String {
    let (names, units) = (kitchen.names(), kitchen.print.units);
    let until = |until: Option<Date>| until.map(|until| format!("good until {}", day(until))).unwrap_or_default();
    let mut out = String::new();
    let row = |off: &GoesOff| {
        let last = match off.of {
            Ware::Recipe(_) if !off.lost => format!("not eaten this week; {}", until(off.until)).trim_end_matches("; ").to_owned(),
            _ => until(off.until),
        };
        vec![in_a_sentence(names.ware(off.of)), show(&off.amount, units), last]
    };
    let goes_off = if is_uneaten(proposal) { "Goes off on the shelf, or is not eaten" } else { "Goes off on the shelf" };
    for (heading, lost) in [(goes_off, false), ("On the shelf past its date, whatever is eaten", true)] {
        let rows: Vec<Vec<String>> = proposal.off.iter().filter(|off| off.lost == lost).map(row).collect();
        if !rows.is_empty() {
            out.push_str(&format!("\n{heading}\n{}", columns(&rows, 2)));
        }
    }
    if !proposal.left.is_empty() {
        let row = |left: &crate::purchase::Leftover| {
            vec![names.food(left.food).to_owned(), show(&left.amount, units), names.money(left.value), until(left.until)]
        };
        out.push_str(&format!("\nLeft over\n{}", columns(&proposal.left.iter().map(row).collect::<Vec<_>>(), 2)));
    }
    out
}

/// What is cooked, and how long the sessions take.
fn work_text(proposal: &Proposal, kitchen: &Kitchen) -> String {
    let mut out = String::new();
    if !proposal.recipes.is_empty() {
        let cooked: Vec<&str> = proposal.recipes.iter().map(|recipe| kitchen.names().recipe(*recipe)).collect();
        out.push('\n');
        out.push_str(&line(&format!("Cooked: {}", cooked.join(", "))));
    }
    for hours in proposal.sessions.iter().filter(|hours| hours.minutes > 0 || hours.served.is_some()) {
        let _ = writeln!(out, "  {}  {}", day_clock(hours.start), hours_text(hours));
    }
    out
}

/// "1 h 4 min, and 25 min of hands for what is served hot at 18:30".
fn hours_text(hours: &Hours) -> String {
    let served = hours.served.as_ref().map(|served| {
        let at = listed(&served.at.iter().map(|at| clock(*at)).collect::<Vec<_>>());
        let from = served.from.map(|from| format!(", from {} on", clock(from))).unwrap_or_default();
        format!("{} of hands for what is served hot at {at}{from}", duration(served.hands))
    });
    let rest = (hours.minutes > 0).then(|| duration(hours.minutes));
    rest.into_iter().chain(served).collect::<Vec<_>>().join(", and ")
}

fn row(meal: &FilledMeal, kitchen: &Kitchen) -> Vec<String> {
    let pattern = meal.pattern.map(|pattern| kitchen.together.patterns[pattern].name.clone()).unwrap_or_default();
    let each = meal.each.iter().map(|line| by_name(line, &kitchen.recipes));
    let shared = meal.shared.iter().map(|line| format!("for all: {}", by_name(line, &kitchen.recipes)));
    let why: Vec<String> = meal.why.iter().map(|why| words::why(why, kitchen, kitchen.print.units)).collect();
    vec![meal.label.clone(), pattern, each.chain(shared).collect::<Vec<_>>().join(", "), why.join("; ")]
}

/// "1 portion leek and potato soup": a line as it is written, its recipe by its name.
fn by_name(line: &Ingredient, recipes: &[Recipe]) -> String {
    match (&line.wanted, line.text.split_once("recipe:")) {
        (Wanted::Recipe { recipe, .. }, Some((amount, _))) => format!("{amount}{}", in_a_sentence(&recipes[*recipe].name)),
        _ => line.text.clone(),
    }
}

fn day_row(sum: &DaySum) -> Vec<String> {
    let figure = |(nutrient, got, wanted): &(crate::compose::Nutrient, f64, f64)| {
        let unit = if *nutrient == crate::compose::Nutrient::Energy { "" } else { " g" };
        format!("{} {:.0} of {:.0}{unit}", words::nutrient_word(*nutrient), got, wanted)
    };
    std::iter::once(day(sum.on)).chain(sum.figures.iter().map(figure)).collect()
}

/// What would look further than was looked.
fn further(effort: Effort) -> &'static str {
    if effort == Effort::High { "" } else { "; --effort high looks further" }
}

fn clash_text(clash: &Clash, kitchen: &Kitchen, effort: Effort) -> String {
    let head = match (clash.proven, clash.exact) {
        (true, true) => "no week is allowed: these wishes clash",
        (true, false) => "no week is allowed. Every week that was looked at breaks one of these wishes",
        (false, _) => {
            "no week that is allowed was found, which does not prove that there is none: every week that was looked at breaks one of \
             these wishes"
        }
    };
    let further = if clash.proven { "" } else { further(effort) };
    let mut out = line(&format!("{}: {head}{further}.", clash.week.name));
    let said: Vec<words::Said> = clash.wishes.iter().map(|one| words::clashing(one, kitchen, &clash.week)).collect();
    for (one, said) in clash.wishes.iter().zip(&said) {
        let of = said.of.as_ref().map(|of| format!(" of {of}")).unwrap_or_default();
        let served = few(&said.served).map(|served| format!(" ({served})")).unwrap_or_default();
        let would = if said.would_do.is_empty() { String::new() } else { format!("; would do: {}", said.would_do) };
        let too = if said.besides.is_empty() { String::new() } else { format!(", with {} loosened, too", listed(&said.besides)) };
        let at = one.at.as_ref().map(|at| format!("{at}: ")).unwrap_or_default();
        let _ = writeln!(out, "  {at}{}{of}: {}{served}{would}{too}", said.key, said.now);
    }
    let alone = said.iter().filter(|said| said.besides.is_empty()).count();
    out.push_str(to_loosen(said.len(), alone));
    out.push_str(" Nothing was written.");
    out
}

/// So many of what somebody must not be served are told.
const SERVED: usize = 4;

fn few(served: &[String]) -> Option<String> {
    let more = served.len().saturating_sub(SERVED);
    let told = served[..served.len() - more].join("; ");
    (!served.is_empty()).then(|| if more > 0 { format!("{told}; and {more} more") } else { told })
}

/// What to do about so many wishes, of which so many are enough alone.
fn to_loosen(wishes: usize, alone: usize) -> &'static str {
    match (wishes, alone) {
        (1, 1) => "Loosen it.",
        (1, _) => "It alone is not enough: loosen what stands beside it, too.",
        (_, 0) => "None of them alone is enough: with the one that you loosen, loosen what stands beside it, too.",
        (all, alone) if all == alone => "Loosen one of them.",
        _ => "Loosen one of them; where others stand beside it, those too.",
    }
}

fn tell_count(cli: &Cli, counted: &Count, kitchen: &Kitchen) -> Done {
    if cli.format == Format::Json {
        return say(&json(&crate::json::compose_count(counted, kitchen))?);
    }
    let names = kitchen.names();
    let least = if counted.complete { "" } else { "at least " };
    let at_hand: Vec<String> = counted.at_hand.iter().map(|ware| in_a_sentence(names.ware(*ware))).collect();
    let mut out = format!("{}: {least}{}", counted.week, crate::words::counted(counted.meals, "different meal"));
    let _ = writeln!(
        out,
        " from {}: {}",
        crate::words::counted(at_hand.len(), "component"),
        if at_hand.is_empty() { "none".to_owned() } else { listed(&at_hand) }
    );
    let rows = counted.patterns.iter().map(|(pattern, count)| vec![kitchen.together.patterns[*pattern].name.clone(), count.to_string()]);
    out.push_str(&columns(&rows.collect::<Vec<_>>(), 2));
    say(&out)
}

impl Setting {
    /// The week that is meant; where none was named, the first from it on that leaves a meal open.
    fn week_to_compose(&self, file: Option<&std::path::Path>) -> Result<usize, Failure> {
        let meant = self.week(file)?;
        if file.is_some() || !open_meals(&self.loaded.weeks[meant].1, self.today).is_empty() {
            return Ok(meant);
        }
        let mut open: Vec<usize> = (0..self.loaded.weeks.len()).collect();
        open.retain(|week| !open_meals(&self.loaded.weeks[*week].1, self.today).is_empty());
        Ok(open.into_iter().min_by_key(|week| self.loaded.weeks[*week].1.from).unwrap_or(meant))
    }

    fn compose(&self, week: usize, asking: &Asking) -> Result<Composed, Failure> {
        self.with_prints(week, |prints| crate::compose::compose(&self.loaded, &self.booked, prints, (week, self.today), asking))
    }

    fn count(&self, week: usize) -> Result<Count, Failure> {
        self.with_prints(week, |prints| {
            let trials = crate::trials(&self.loaded, &self.booked, prints, (week, &[]), self.today)?;
            Ok(count(&trials, &self.loaded.weeks[week].1))
        })
    }
}
