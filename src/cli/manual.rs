//! `completions SHELL` and `man`: both made from the command line's own definition.

use clap::CommandFactory;
use clap_complete::Shell;

use super::Cli;
use super::outcome::{Done, Failure, say};

pub fn completions(shell: Shell) -> Done {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Cli::command(), "spence", &mut script);
    say_bytes(script)
}

/// The tool's page, and after it a section a verb.
pub fn page() -> Done {
    let mut page = Vec::new();
    let whole = Cli::command();
    let written = clap_mangen::Man::new(whole.clone()).render(&mut page).and_then(|()| {
        whole.get_subcommands().filter(|verb| !verb.is_hide_set()).try_for_each(|verb| {
            let named = verb.clone().bin_name(format!("spence {}", verb.get_name())).disable_help_flag(true);
            let man = clap_mangen::Man::new(named);
            man.render_name_section(&mut page)?;
            man.render_synopsis_section(&mut page)?;
            man.render_options_section(&mut page)
        })
    });
    written.map_err(|error| Failure::Machine(format!("cannot write the manual page: {error}.")))?;
    say_bytes(page)
}

fn say_bytes(bytes: Vec<u8>) -> Done {
    let text = String::from_utf8(bytes).map_err(|error| Failure::Machine(format!("the text is not UTF-8: {error}.")))?;
    say(&text)
}
