//! `completions SHELL` and `man`: both made from the command line's own definition.

use std::io::{IsTerminal, Write};

use clap::{Command, CommandFactory};
use clap_complete::Shell;
use clap_mangen::Man;

use super::Cli;
use super::outcome::{Done, Failure, say};

pub fn completions(shell: Shell) -> Done {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Cli::command(), "spence", &mut script);
    say_bytes(script)
}

/// To be read on a terminal; else a page in the format of man.
pub fn manual() -> Done {
    if std::io::stdout().is_terminal() {
        return say(&text());
    }
    let mut page = Vec::new();
    write_page(&mut page).map_err(|error| Failure::Machine(format!("cannot write the manual page: {error}.")))?;
    say_bytes(page)
}

/// The help of the tool, and after it that of every verb.
fn text() -> String {
    let mut whole = Cli::command();
    let mut text = whole.render_long_help().to_string();
    for verb in verbs(&Cli::command()) {
        text.push_str(&format!("\n\nspence {}\n\n{}", verb.get_name(), verb.clone().render_long_help()));
    }
    text
}

/// Each under the name by which it is typed, with what it takes of its own.
fn verbs(whole: &Command) -> Vec<Command> {
    let typed = |verb: &Command| verb.clone().bin_name(format!("spence {}", verb.get_name())).disable_help_flag(true);
    whole.get_subcommands().filter(|verb| !verb.is_hide_set()).map(typed).collect()
}

/// The tool's page with a section a verb; there are no pages beside it.
fn write_page(page: &mut impl Write) -> std::io::Result<()> {
    let whole = Cli::command();
    let man = Man::new(whole.clone());
    man.render_title(page)?;
    man.render_name_section(page)?;
    write_usage(page, ".SH SYNOPSIS", whole.clone())?;
    man.render_description_section(page)?;
    man.render_options_section(page)?;
    for verb in verbs(&whole) {
        writeln!(page, ".SH {}", verb.get_name().to_uppercase())?;
        writeln!(page, "{}", literally(&verb.get_about().map(ToString::to_string).unwrap_or_default()))?;
        write_usage(page, ".PP", verb.clone())?;
        let mut options = Vec::new();
        Man::new(verb).render_options_section(&mut options)?;
        let options = String::from_utf8_lossy(&options).replace(".SH OPTIONS\n", "");
        page.write_all(options.as_bytes())?;
    }
    man.render_version_section(page)
}

/// "spence start [OPTIONS] <DIR>", as --help has it.
fn write_usage(page: &mut impl Write, heading: &str, mut of: Command) -> std::io::Result<()> {
    let usage = of.render_usage().to_string();
    let lines = usage.trim_start_matches("Usage:").lines().map(str::trim).filter(|line| !line.is_empty());
    writeln!(page, "{heading}")?;
    for line in lines {
        writeln!(page, "\\fB{}\\fR\n.br", literally(line))?;
    }
    Ok(())
}

/// Text that roff takes for nothing but text.
fn literally(text: &str) -> String {
    text.replace('\\', "\\e").replace('-', "\\-").replace('\'', "\\(aq")
}

fn say_bytes(bytes: Vec<u8>) -> Done {
    let text = String::from_utf8(bytes).map_err(|error| Failure::Machine(format!("the text is not UTF-8: {error}.")))?;
    say(&text)
}
