//! `print`: the sheets as PDF, and beside them what was printed.
//!
//! A flag for a sheet that is left out is a wrong command line. What the sheets warn of ends a `--strict` run before
//! anything is written.

use std::path::{Path, PathBuf};

use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args, ValueEnum};
use itertools::Itertools;
use jiff::civil::Date;

use super::outcome::{Done, Failure, json, remark, say, warn};
use super::past_guides::{How, PastGuides, past_guides};
use super::printed::{printed, printed_in, text_of};
use super::setting::Setting;
use super::sheet_files::write_all;
use super::under_way::Running;
use super::{Cli, Format};
use crate::book::trip_hashes;
use crate::calendar::{Before, Kept, after, calendar, planned};
use crate::json::{Earlier, Past, Printed, read_calendar};
use crate::kitchen::{Kitchen, Names, Paper, Print, Recipe, RecipeId, Rules, SheetKind, Sheets, Warning, did_you_mean, likely};
use crate::measure::{Number, Units, read_quantity, show};
use crate::phone::page;
use crate::plan::in_makes;
use crate::prep::{Effort, PrepPlan, RecipePage, UnderWay, WeekCard, labels, recipe_alone, recipe_pages, week_card};
use crate::purchase::{ShoppingList, TripHashes, WeekBuys, per_one};
use crate::sheets::{
    LabelGrid, Settings, Sheet, Size, Told, label_sheet, mark, person_guide, prep_guide, recipe_sheet, shopping_list, to_pdf,
    week_card_sheet,
};
use crate::words::{listed, sentence};
use crate::{PastTrips, Reckoning, Shown};

/// Which sheets, and on what paper.
#[derive(Debug, Clone, Args)]
pub struct Choice {
    /// Only these sheets
    #[arg(long, value_parser = sheet(), value_delimiter = ',', value_name = "SHEETS")]
    only: Vec<SheetKind>,
    /// The paper, whatever kitchen.toml says
    #[arg(long, value_enum, value_name = "PAPER")]
    paper: Option<PaperWord>,
    /// How many labels stand on a page, columns by rows: 3x8 unless the print is large
    #[arg(long, value_name = "COLUMNSxROWS")]
    labels: Option<LabelGrid>,
    /// Large print: nothing under 14 pt, on as many pages as it takes
    #[arg(long, value_enum, default_value_t = SizeWord::Normal)]
    size: SizeWord,
    /// A fold line down the middle of the shopping list
    #[arg(long)]
    fold: bool,
    /// One recipe alone, without a week: its name or id
    #[arg(long, value_name = "NAME", conflicts_with_all = ["labels", "fold", "person"])]
    recipe: Option<String>,
    /// The size of that recipe, as in "12 portions"; without it one batch
    #[arg(long = "for", value_name = "AMOUNT", requires = "recipe")]
    size_of: Option<String>,
    #[command(flatten)]
    running: Running,
    /// The guides of one person alone, with what to wait for and whom to tell
    #[arg(long, value_name = "NAME")]
    person: Option<String>,
}

/// One of the words that `[print] sheets` knows.
fn sheet() -> impl TypedValueParser<Value = SheetKind> {
    let known = |typed: String| SheetKind::WORDS.iter().find(|(word, _)| *word == typed).map(|(_, kind)| *kind).ok_or("no such sheet");
    PossibleValuesParser::new(SheetKind::WORDS.map(|(word, _)| word)).try_map(known)
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum SizeWord {
    Normal,
    Large,
}

impl SizeWord {
    pub fn size(self) -> Size {
        match self {
            SizeWord::Normal => Size::Normal,
            SizeWord::Large => Size::Large,
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum PaperWord {
    #[value(name = "A4", alias = "a4")]
    A4,
    Letter,
}

impl PaperWord {
    pub fn paper(self) -> Paper {
        match self {
            PaperWord::A4 => Paper::A4,
            PaperWord::Letter => Paper::Letter,
        }
    }
}

impl Choice {
    fn wants(&self, sheet: SheetKind, usual: Sheets) -> bool {
        let asked_for = self.only.contains(&sheet);
        let usual = if self.person.is_none() { usual.has(sheet) } else { sheet == SheetKind::Guide };
        if self.only.is_empty() { usual } else { asked_for }
    }

    fn settings(&self, print: Print) -> Settings {
        let paper = self.paper.map_or(print.paper, PaperWord::paper);
        Settings { paper, units: print.units, size: self.size.size(), fold: self.fold, under: print.under }
    }

    /// Flags that would do nothing, and labels too small to be read, are mistakes of the command line.
    fn grid(&self, settings: Settings, usual: Sheets) -> Result<LabelGrid, Failure> {
        let idle = |flag: &str, sheet: &str| Failure::Usage(format!("{flag} is for the {sheet}, which --only or --person leaves out."));
        if self.fold && !self.wants(SheetKind::List, usual) {
            return Err(idle("--fold", "shopping list"));
        }
        if self.labels.is_some() && !self.wants(SheetKind::Labels, usual) {
            return Err(idle("--labels", "box labels"));
        }
        let grid = self.labels.unwrap_or(LabelGrid::usual(settings.size));
        grid.check(settings).map_err(|words| Failure::Usage(format!("--labels: {words}.")))?;
        Ok(grid)
    }
}

pub fn run(cli: &Cli, into: Option<&Path>, all: bool, effort: Effort, choice: &Choice) -> Done {
    let mut setting = Setting::read(cli)?;
    let settings = choice.settings(setting.loaded.kitchen.print);
    if choice.running.is_asked() && choice.only != [SheetKind::Guide] {
        return Err(Failure::Usage("--at is for the guide of a session that is under way: add --only guide.".to_owned()));
    }
    if let Some(name) = &choice.recipe {
        return one_recipe(cli, &setting, into, choice, name, settings);
    }
    let usual = setting.loaded.kitchen.print.sheets;
    let grid = choice.grid(settings, usual)?;
    let week = setting.week(cli.week.as_deref())?;
    let anew: Vec<Warning> = setting.print_anew(week)?.into_iter().collect();
    warn(&anew, cli.strict)?;
    let setting = &setting;
    let reckoned = setting.reckon_sessions(week)?;
    warn(&reckoned.warnings, cli.strict)?;
    let list = reckoned.list(Shown { past: PastTrips::shown(all), compared: false });
    let under_way = choice.running.under_way(setting, week, &reckoned, effort)?;
    let prep = under_way.as_ref().map_or_else(|| reckoned.prep(effort), |under_way| reckoned.prep_under_way(effort, under_way));
    let asked = Asked { choice, usual, settings, reckoned: &reckoned, list: &list, prep: &prep };

    let mut sheets = asked.sheets(grid, under_way.as_ref())?;
    say_what_did_not_fit(&sheets, cli.strict)?;

    let folder = into.map_or_else(|| setting.folder.join("sheets"), Path::to_path_buf);
    let PastGuides { printed: kept_pages, planned } = asked.past_guides(setting, &folder, all && under_way.is_none(), effort)?;
    say_what_did_not_fit(&planned, cli.strict)?;
    sheets.extend(planned);
    let last = last_events(&folder, setting, list.from, (cli.strict, anew.is_empty()))?;
    let events = asked.wants(SheetKind::Calendar).then(|| events(setting, week, &reckoned, &prep, &last));
    let kept = events.as_ref().map_or(last.clone(), |(told, remembered)| told.iter().chain(remembered).cloned().collect());
    let before = asked.before(setting, week)?;
    let past = Past { sessions: reckoned.past_sessions(), printed: Printed::sessions_of(before.as_ref()), as_booked: false };
    let every_trip = if reckoned.has_begun() { &reckoned.list(Shown { past: PastTrips::AsPrinted, compared: false }) } else { &list };
    let hashes = asked.hashes(setting, every_trip, &folder);
    let earlier = Earlier { print: before.as_ref(), meals: reckoned.past_meals(), hashes: &hashes, calendar: &kept };
    let printed = crate::json::printed(every_trip, &prep, past, earlier, &reckoned.kitchen);

    sheets.iter_mut().for_each(|sheet| mark(sheet, &printed.mark, settings));
    let mut files: Vec<(PathBuf, Vec<u8>)> =
        sheets.iter().map(|sheet| (format!("{}.pdf", sheet.file_stem).into(), to_pdf(sheet))).collect();
    files.extend(kept_pages);
    files.extend(asked.page((&printed.mark, &hashes))?);
    files.extend(events.map(|(told, _)| asked.calendar(&printed.mark, &told)));
    // The plan comes last: until it stands, what is booked is what was printed before.
    files.push((plan_name(list.from).into(), json(&printed.plan)?.into_bytes()));
    files.iter_mut().for_each(|(name, _)| *name = folder.join(&*name));
    write_all(&folder, &files)?;
    if into.is_some() {
        tell_what_bookings_go_by(setting, week, &printed.mark);
    }
    let paths = files.iter().map(|(path, _)| path.as_path());
    match cli.format {
        Format::Json => say(&json(&crate::json::week_files(&list.week, list.from, paths))?),
        Format::Text => say(&format!("{}\n{}\n", asked.title(), paths.map(Path::display).join("\n"))),
    }
}

/// A week as it is printed: what was reckoned of it, and what was asked for.
struct Asked<'a> {
    choice: &'a Choice,
    usual: Sheets,
    settings: Settings,
    reckoned: &'a Reckoning<'a>,
    list: &'a ShoppingList,
    prep: &'a PrepPlan,
}

impl Asked<'_> {
    fn wants(&self, sheet: SheetKind) -> bool {
        self.choice.wants(sheet, self.usual)
    }

    /// "Boatyard Row: Apples and barley".
    fn title(&self) -> String {
        format!("{}: {}", self.reckoned.kitchen.household.name, self.list.week)
    }

    fn card(&self) -> WeekCard {
        week_card(&self.reckoned.kitchen, &self.reckoned.week, &self.reckoned.makings)
    }

    /// The sheets of paper, in the order of a print.
    fn sheets(&self, grid: LabelGrid, under_way: Option<&UnderWay>) -> Result<Vec<Sheet>, Failure> {
        let (folded, list, prep) = (self.settings, self.list, self.prep);
        // The fold is the list's: no other sheet is held in half a hand.
        let settings = Settings { fold: false, ..folded };
        let Reckoning { kitchen, week, makings, .. } = self.reckoned;
        let names = kitchen.names();
        let mut sheets = Vec::new();
        if self.wants(SheetKind::List) {
            sheets.push(shopping_list(list, &prep.before, names, folded));
        }
        if self.wants(SheetKind::Guide) {
            sheets.extend(guides(prep, names, settings, (self.choice.person.as_deref(), under_way))?);
        }
        if self.wants(SheetKind::Week) {
            sheets.push(week_card_sheet(&self.card(), names, settings));
        }
        if self.wants(SheetKind::Labels) {
            let labels = labels(kitchen, week, makings);
            // Nobody asked for a sheet that says that there are none.
            if !labels.is_empty() || !self.choice.only.is_empty() {
                sheets.push(label_sheet(&labels, (&list.week, list.from), names, grid, settings));
            }
        }
        if self.wants(SheetKind::Recipes) {
            let told: Vec<Told> = recipe_pages(kitchen, week, makings).into_iter().map(|page| told(kitchen, page)).collect();
            let title = format!("Recipes, {}", list.week);
            sheets.push(recipe_sheet(&told, (&title, format!("recipes-{}", list.from)), names, settings));
        }
        Ok(sheets)
    }

    /// Of the sessions that are no longer open, where all are asked for.
    fn past_guides(&self, setting: &Setting, folder: &Path, all: bool, effort: Effort) -> Result<PastGuides, Failure> {
        if !all || !self.wants(SheetKind::Guide) {
            return Ok(PastGuides::default());
        }
        let settings = Settings { fold: false, ..self.settings };
        let how = How { names: self.reckoned.kitchen.names(), settings, effort, person: self.choice.person.as_deref() };
        past_guides(setting, self.reckoned, folder, &how)
    }

    /// The last print of a week that has begun.
    fn before(&self, setting: &Setting, week: usize) -> Result<Option<Printed>, Failure> {
        if self.reckoned.has_begun() { setting.printed(week) } else { Ok(None) }
    }

    /// By which a phone knows the trips, after the last print there, or else in the kitchen's own sheets. One that cannot be read is told
    /// elsewhere.
    fn hashes(&self, setting: &Setting, list: &ShoppingList, folder: &Path) -> TripHashes {
        let kitchen = &setting.loaded.kitchen;
        let read = |folder: &Path| printed_in(folder, kitchen, list.from).ok().flatten();
        let before = read(folder).or_else(|| read(&setting.folder.join("sheets")));
        trip_hashes(kitchen, &WeekBuys::from(list), before.as_ref().map(|before| (&before.buys, &before.hashes)), &setting.booked)
    }

    /// The page for a phone, where it is asked for.
    fn page(&self, known_by: (&str, &TripHashes)) -> Result<Option<(PathBuf, Vec<u8>)>, Failure> {
        if !self.wants(SheetKind::Phone) {
            return Ok(None);
        }
        let page = page(&self.reckoned.kitchen, self.list, self.prep, &self.card(), known_by);
        let page =
            page.ok_or_else(|| Failure::NotKnown("the list is too long for a page on a phone; print it with --only list.".to_owned()))?;
        Ok(Some((format!("list-{}.html", self.list.from).into(), page.into_bytes())))
    }

    fn calendar(&self, mark: &str, told: &[Kept]) -> (PathBuf, Vec<u8>) {
        let text = calendar((&self.title(), mark), self.list.from, told);
        (format!("week-{}.ics", self.list.from).into(), text.into_bytes())
    }
}

/// What is printed elsewhere is told: `receive` and `issue` look into the kitchen's own sheets.
fn tell_what_bookings_go_by(setting: &Setting, week: usize, mark: &str) {
    let week = &setting.loaded.weeks[week].1;
    let own = printed(&setting.folder, &setting.loaded.kitchen, week).ok().flatten().and_then(|own| own.mark);
    if own.as_deref() != Some(mark) {
        let instead = own.map_or("the plan as it stands".to_owned(), |own| format!("plan {own}"));
        remark(&format!(
            "receive and issue book by sheets/plan-{}.json of the kitchen, not by this print: {instead}. Print without --into, too, where \
             they are to book what is on this paper.",
            week.from
        ));
    }
}

fn told(kitchen: &Kitchen, page: RecipePage) -> Told {
    let figures = per_one(kitchen, page.recipe);
    (page, figures)
}

/// `--recipe NAME --for AMOUNT`: no week is reckoned, and none is written.
fn one_recipe(cli: &Cli, setting: &Setting, into: Option<&Path>, choice: &Choice, name: &str, settings: Settings) -> Done {
    if choice.only.iter().any(|sheet| *sheet != SheetKind::Recipes) {
        return Err(Failure::Usage("--recipe prints a recipe: write --only recipes, or leave --only out.".to_owned()));
    }
    let kitchen = &setting.loaded.kitchen;
    let id = named_recipe(kitchen, name)?;
    let recipe = &kitchen.recipes[id];
    let batches = choice.size_of.as_deref().map(|size| batches_for(kitchen.print.units, &kitchen.rules, recipe, size)).transpose()?;
    let told = told(kitchen, recipe_alone(kitchen, id, batches));
    let sheet = recipe_sheet(&[told], (&recipe.name, format!("recipe-{}", recipe.id)), kitchen.names(), settings);
    say_what_did_not_fit(std::slice::from_ref(&sheet), cli.strict)?;
    let folder = into.map_or_else(|| setting.folder.join("sheets"), Path::to_path_buf);
    let path = folder.join(format!("{}.pdf", sheet.file_stem));
    write_all(&folder, &[(path.clone(), to_pdf(&sheet))])?;
    match cli.format {
        Format::Json => say(&json(&crate::json::files(std::iter::once(path.as_path())))?),
        Format::Text => say(&format!("{}: {}\n{}\n", kitchen.household.name, recipe.name, path.display())),
    }
}

/// By its id or its name, in any letter case.
fn named_recipe(kitchen: &Kitchen, name: &str) -> Result<RecipeId, Failure> {
    let wanted = name.trim().to_lowercase();
    let by = |key: fn(&Recipe) -> &str| kitchen.recipes.iter().position(|recipe| key(recipe).to_lowercase() == wanted);
    by(|recipe| &recipe.id).or_else(|| by(|recipe| &recipe.name)).map(RecipeId).ok_or_else(|| {
        let known: Vec<&str> = kitchen.recipes.iter().map(|recipe| recipe.id.as_str()).collect();
        let near = if likely(name, known.clone()).is_empty() { String::new() } else { did_you_mean(name, known.clone(), "") + " " };
        Failure::Usage(format!("\"{name}\" is no recipe of this kitchen. {near}There are: {}.", known.join(", ")))
    })
}

/// How many batches come to exactly that size.
fn batches_for(units: Units, rules: &Rules, recipe: &Recipe, size: &str) -> Result<Number, Failure> {
    let usage = |cause: String, remedy: &str| Failure::Usage(format!("--for: {cause}. {remedy}"));
    let wanted = read_quantity(size, rules.spoons).map_err(|error| usage(error.cause, &error.remedy))?;
    let makes = show(&recipe.makes, units);
    let amount = in_makes(recipe, &wanted).ok_or_else(|| {
        usage(format!("{} makes {makes}, which cannot be compared with \"{size}\"", recipe.name), "Write the size in the same unit.")
    })?;
    let batches = amount.checked_div(recipe.makes.exact()).filter(|batches| *batches > 0);
    batches.ok_or_else(|| usage(format!("\"{size}\" is nothing to cook"), "Write a size above zero."))
}

fn plan_name(from: Date) -> String {
    format!("plan-{from}.json")
}

/// The events of the last print there, or else of the kitchen's own sheets. Without them they are told anew.
fn last_events(folder: &Path, setting: &Setting, from: Date, (strict, tell): (bool, bool)) -> Result<Vec<Kept>, Failure> {
    let name = plan_name(from);
    for path in [folder.join(&name), setting.folder.join("sheets").join(&name)] {
        let Ok(text) = text_of(&path) else { continue };
        return read_calendar(&text, &path.display().to_string()).or_else(|mistakes| {
            if !tell {
                return Ok(Vec::new());
            }
            let said = mistakes.iter().map(|mistake| format!("{}: {}", mistake.at.file, mistake.cause)).join("; ");
            let text = format!("{said}. It is written anew; a calendar that has read an earlier print may then hold events twice.");
            warn(&[Warning::Note { at: None, text }], strict).map(|()| Vec::new())
        });
    }
    Ok(Vec::new())
}

/// What the calendar tells, and what it only remembers for the next print.
fn events(setting: &Setting, week: usize, reckoned: &Reckoning, prep: &PrepPlan, last: &[Kept]) -> (Vec<Kept>, Vec<Kept>) {
    let list = reckoned.list(Shown { past: PastTrips::AsPrinted, compared: false });
    let planned = planned(&reckoned.kitchen, &reckoned.week, &reckoned.makings, &list, prep);
    let whole = &setting.loaded.weeks[week].1;
    after(&reckoned.kitchen.household.name, Before { kept: last, whole, today: setting.today }, planned)
}

/// The warnings of the sheets, each once; with `--strict` they end the run before anything is written.
fn say_what_did_not_fit(sheets: &[Sheet], strict: bool) -> Done {
    let texts = sheets.iter().flat_map(|sheet| &sheet.warnings).unique();
    let warnings: Vec<Warning> = texts.map(|text| Warning::Note { at: None, text: text.clone() }).collect();
    warn(&warnings, strict)
}

/// A guide a session, of everybody or of one person.
fn guides(
    prep: &PrepPlan,
    names: Names,
    settings: Settings,
    (person, under_way): (Option<&str>, Option<&UnderWay>),
) -> Result<Vec<Sheet>, Failure> {
    let asked = prep.sessions.iter().enumerate().filter(|(_, session)| under_way.is_none_or(|one| one.start == session.start));
    // Under way, what was to be done before is past.
    let before = |index| if under_way.is_some() { Vec::new() } else { prep.before_session(index) };
    let all = asked.map(|(index, session)| (session, before(index)));
    let Some(person) = person else {
        return Ok(all.map(|(session, before)| prep_guide(&prep.week, session, &before, names, settings)).collect());
    };
    let theirs: Vec<Sheet> =
        all.filter_map(|(session, before)| person_guide(&prep.week, session, &before, names, settings, person)).collect();
    if theirs.is_empty() {
        let busy: Vec<String> = prep.sessions.iter().flat_map(|session| session.busy().map(|one| one.name.clone())).unique().collect();
        let verb = if busy.len() == 1 { "has" } else { "have" };
        let who = if busy.is_empty() { "Nobody has.".to_owned() } else { format!("{} {verb}.", sentence(&listed(&busy))) };
        return Err(Failure::Usage(format!("nobody called {person} has anything to do in {}. {who}", prep.week)));
    }
    Ok(theirs)
}
