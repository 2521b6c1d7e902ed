//! One file a verb, thin: parse, call one library function, print.

mod adopt;
mod after;
mod book;
mod book_told;
mod booked_before;
mod check;
mod compose;
mod convert;
mod count;
mod day;
mod food;
mod handout;
mod issue;
mod keeping;
mod keys;
mod known;
mod list;
mod look;
mod manual;
mod mind;
mod outcome;
mod past_guides;
mod prep;
mod print;
mod printed;
mod receive;
mod recipe;
mod recipe_page;
mod recipe_steps;
mod setting;
mod sheet_files;
mod start;
mod stock;
mod under_way;
mod undo;
mod waste;
mod watching;
mod wrap;

use std::path::PathBuf;
use std::process::ExitCode;

use clap::{Parser, Subcommand, ValueEnum};
use jiff::civil::Date;

use crate::prep::Effort;

/// Plans a household's week of batch cooking: what to buy, and what to do in which order
#[derive(Debug, Parser)]
#[command(name = "spence", version, about, max_term_width = 100, subcommand_value_name = "VERB", subcommand_help_heading = "Verbs")]
pub struct Cli {
    /// The kitchen folder; by default the nearest one upwards that holds kitchen.toml
    #[arg(long, global = true, value_name = "DIR", help_heading = EVERYWHERE)]
    kitchen: Option<PathBuf>,
    /// The week's file; by default the week that contains today, or else the next one, or else the latest
    #[arg(long, global = true, value_name = "FILE", help_heading = EVERYWHERE)]
    week: Option<PathBuf>,
    /// The day that counts as today, as in 2026-11-28
    #[arg(long, global = true, value_name = "DATE", value_parser = a_day, help_heading = EVERYWHERE)]
    today: Option<Date>,
    /// What is written to standard output
    #[arg(id = "format", long = "format", global = true, value_enum, default_value_t = FormatWord::Text, value_name = "FORMAT", help_heading = EVERYWHERE)]
    typed_format: FormatWord,
    /// As typed, where the verb has no format of its own.
    #[arg(skip)]
    format: Format,
    /// Warnings end the run as mistakes do
    #[arg(long, global = true, help_heading = EVERYWHERE)]
    strict: bool,
    #[command(subcommand)]
    verb: Verb,
}

/// What stands behind the options of a verb's own.
const EVERYWHERE: &str = "Options of every verb";

/// A date as the command line has it.
pub(crate) fn a_day(typed: &str) -> Result<Date, String> {
    typed.trim().parse().map_err(|_| "it is no date. Write year-month-day, as in 2026-11-28".to_owned())
}

/// The number of a booking.
fn a_number(typed: &str) -> Result<u64, String> {
    typed.trim().parse().map_err(|_| "it is no number of a booking. List them with: spence book".to_owned())
}

/// A line of a food. One that begins with a stroke is read, so that its mistake can be named; an option that does not exist is none.
pub(crate) fn a_line(typed: &str) -> Result<String, String> {
    if typed.starts_with("--") || typed == "-" {
        Err("it is no option of this verb, and no amount of anything".to_owned())
    } else {
        Ok(typed.to_owned())
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Format {
    #[default]
    Text,
    Json,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum FormatWord {
    Text,
    Json,
    /// schema.org/Recipe, of the verb recipe alone
    Jsonld,
}

#[derive(Debug, Subcommand)]
enum Verb {
    /// Make a new kitchen folder: short, commented files that already work
    Start {
        /// The folder to make
        dir: PathBuf,
        /// Adopt the recipes of these files, too
        #[arg(long, value_name = "FILE", num_args = 1..)]
        from: Vec<PathBuf>,
    },
    /// Take recipes in from saved web pages, JSON-LD files or plain text
    Adopt {
        /// The files; - reads standard input
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
        /// Another id than the recipe's name gives
        #[arg(long = "as", value_name = "ID")]
        id: Option<String>,
    },
    /// Read everything and report every mistake at once
    Check {
        /// Recompute pantry.toml from the book, too
        #[arg(long)]
        book: bool,
    },
    /// The shopping list
    List {
        /// Every trip, those that are done or taken as done too
        #[arg(long)]
        all: bool,
        /// What each shop alone and the best pair of shops would cost
        #[arg(long)]
        compare: bool,
    },
    /// The plan of the sessions
    Prep {
        /// Every session, those that are done or taken as done too
        #[arg(long)]
        all: bool,
        /// How hard to look for the shortest plan and its proof
        #[arg(long, value_enum, default_value_t = EffortWord::Normal)]
        effort: EffortWord,
        #[command(flatten)]
        running: under_way::Running,
    },
    /// Propose meals for what a week leaves open
    Compose {
        #[command(flatten)]
        choice: compose::Choice,
        /// How hard to look for the best week and its proof
        #[arg(long, value_enum, default_value_t = EffortWord::Normal)]
        effort: EffortWord,
    },
    /// Write the sheets as PDF
    Print {
        /// The folder for the sheets; by default sheets in the kitchen folder, by which receive and issue book
        #[arg(long, value_name = "DIR")]
        into: Option<PathBuf>,
        /// Every trip, those that are done or taken as done too
        #[arg(long)]
        all: bool,
        /// How hard to look for the shortest plan and its proof
        #[arg(long, value_enum, default_value_t = EffortWord::Normal)]
        effort: EffortWord,
        #[command(flatten)]
        choice: print::Choice,
    },
    /// Write one PDF of a week for people with other kitchens: the list of an empty shelf, the guide from 0:00, the week by its parts, recipes
    Handout {
        /// How hard to look for the shortest plan and its proof
        #[arg(long, value_enum, default_value_t = EffortWord::Normal)]
        effort: EffortWord,
        #[command(flatten)]
        asked: handout::Asked,
    },
    /// What is on the shelf, what goes off next, what it is worth
    Stock {
        /// Instead: what was thrown away, by month and food, in money
        #[arg(long)]
        waste: bool,
    },
    /// Book the next trip that is not booked yet, as printed
    Receive {
        #[command(flatten)]
        otherwise: receive::Otherwise,
    },
    /// Book the earliest session that is not booked yet, as printed; or meals that were eaten
    Issue {
        #[command(flatten)]
        eating: issue::Eating,
    },
    /// A stocktake: write a count sheet, or book what was counted on one
    Count {
        /// The count sheet, filled in
        #[arg(value_name = "FILE", required_unless_present = "sheet", conflicts_with = "sheet")]
        file: Option<PathBuf>,
        /// Write the sheet, as PDF and as TOML
        #[arg(long)]
        sheet: bool,
        /// The folder for the sheet; by default sheets in the kitchen folder
        #[arg(long, value_name = "DIR", requires = "sheet")]
        into: Option<PathBuf>,
    },
    /// A round of the shelf: of what the open meals and the next week rely on, is each lot there? Booked as a count
    Look,
    /// Book what is thrown away, as in "200 g feta"
    Waste {
        /// How much of what, as the shelf has it: "200 g feta", "1 portion recipe:leek-soup"
        #[arg(allow_hyphen_values = true, value_parser = a_line)]
        what: String,
        /// The reason
        #[arg(long)]
        why: String,
    },
    /// The bookings that stand, the last first
    Book {
        /// Instead: write into pantry.toml what a booking that was cut short was to write
        #[arg(long)]
        finish: bool,
    },
    /// Take back the last booking
    Undo {
        /// Instead: everything after the booking of that number, as the book lists it
        #[arg(long, value_name = "NUMBER", value_parser = a_number)]
        back_to: Option<u64>,
    },
    /// A day's meals: what to take out and where it stands, what to make and when to begin, what goes off
    Day {
        /// "thu", or 2026-12-03; by default today
        day: Option<String>,
    },
    /// A meal falls out, as in "thu supper": writes skip = true into its week
    Skip {
        /// The next meal of that name from today on
        meal: String,
    },
    /// Two meals change places, as in "tue supper" "thu supper": exchanges what they hold in the week's file
    Exchange {
        /// The next meal of that name from today on
        meal: String,
        /// The other one
        other: String,
    },
    /// What is known of a food, and from where
    Food {
        /// Any of its names
        #[arg(required = true, value_name = "NAME")]
        name: Vec<String>,
    },
    /// The card of a recipe: its ingredients, its steps as they were read, what was estimated
    Recipe {
        /// Its id, or its name
        #[arg(required = true, value_name = "NAME")]
        name: Vec<String>,
        /// Scale it, as in "12 portions"
        #[arg(long = "for", value_name = "AMOUNT")]
        amount: Option<String>,
        /// Write the reading into the recipe's file, as steps in place of its method
        #[arg(long, conflicts_with = "amount")]
        steps: bool,
    },
    /// Every key of every file: type, default, meaning, an example
    Keys {
        /// A file (kitchen, recipe, meals, week, pantry, shops, foods, count, goods), a heading (compose), or part of a key's name
        name: Option<String>,
        /// Instead: write a JSON Schema for each file, and for the JSON of each verb, into this folder
        #[arg(long, value_name = "DIR", conflicts_with = "name")]
        schema: Option<PathBuf>,
    },
    /// Print the completions for a shell: send them to where that shell looks for them
    Completions {
        /// The shell
        #[arg(value_enum)]
        shell: clap_complete::Shell,
    },
    /// The manual: text on a terminal, else a page for man, as in spence man | man -l -
    Man,
    /// One conversion, with the facts used: convert "2 cups flour" g
    Convert {
        /// An amount of a food, as an ingredient line has it
        line: String,
        /// g, kg, oz, lb, ml, l, tsp, tbsp, cup, each, clove ...
        #[arg(required = true, value_name = "UNIT")]
        unit: Vec<String>,
    },
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum EffortWord {
    Low,
    Normal,
    High,
}

impl From<EffortWord> for Effort {
    fn from(word: EffortWord) -> Effort {
        match word {
            EffortWord::Low => Effort::Low,
            EffortWord::Normal => Effort::Normal,
            EffortWord::High => Effort::High,
        }
    }
}

/// Runs the command line. Exit status: 0 done; 1 the files have mistakes; 2 the command line is wrong; 3 the machine failed; 130 stopped by Ctrl-C, with nothing written.
pub fn run() -> ExitCode {
    let mut cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(error) => return outcome::usage(&error),
    };
    if cli.typed_format == FormatWord::Json {
        cli.format = Format::Json;
    }
    if cli.typed_format == FormatWord::Jsonld && !matches!(cli.verb, Verb::Recipe { steps: false, .. }) {
        return outcome::exit(Err(outcome::Failure::Usage("--format jsonld is for recipe NAME alone. Write text or json.".to_owned())));
    }
    watching::begin();
    let done = match &cli.verb {
        Verb::Start { dir, from } => start::run(dir, from, &cli),
        Verb::Adopt { files, id } => adopt::run(&cli, files, id.as_deref()),
        Verb::Check { book } => check::run(&cli, *book),
        Verb::List { all, compare } => list::run(&cli, *all, *compare),
        Verb::Prep { all, effort, running } => prep::run(&cli, *all, (*effort).into(), running),
        Verb::Compose { choice, effort } => compose::run(&cli, choice, (*effort).into()),
        Verb::Print { into, all, effort, choice } => print::run(&cli, into.as_deref(), *all, (*effort).into(), choice),
        Verb::Handout { effort, asked } => handout::run(&cli, (*effort).into(), asked),
        Verb::Stock { waste } => stock::run(&cli, *waste),
        Verb::Receive { otherwise } => receive::run(&cli, otherwise),
        Verb::Issue { eating } => issue::run(&cli, eating),
        Verb::Count { file: Some(file), .. } => count::run(&cli, file),
        Verb::Count { file: None, into, .. } => count::write_sheet(&cli, into.as_deref()),
        Verb::Look => look::run(&cli),
        Verb::Waste { what, why } => waste::run(&cli, what, why),
        Verb::Book { finish: true } => book::finish(&cli),
        Verb::Book { finish: false } => book::run(&cli),
        Verb::Undo { back_to } => undo::run(&cli, *back_to),
        Verb::Day { day } => day::run(&cli, day.as_deref()),
        Verb::Skip { meal } => mind::skip(&cli, meal),
        Verb::Exchange { meal, other } => mind::exchange(&cli, meal, other),
        Verb::Food { name } => food::run(&cli, &name.join(" ")),
        Verb::Recipe { name, amount, steps } => {
            let name = name.join(" ");
            recipe::run(&cli, &recipe::Asked { name: &name, amount: amount.as_deref(), steps: *steps })
        }
        Verb::Keys { schema: Some(folder), .. } => keys::write_schemas(&cli, folder),
        Verb::Keys { name, schema: None } => keys::run(&cli, name.as_deref()),
        Verb::Completions { shell } => manual::completions(*shell),
        Verb::Man => manual::manual(),
        Verb::Convert { line, unit } => convert::run(&cli, line, &unit.join(" ")),
    };
    outcome::exit(done)
}
