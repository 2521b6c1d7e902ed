//! How a run ends, and what it says on the way. Nothing reaches the terminal but through here, so that no name and no file name can
//! send it a control character.

use std::io::{self, Write};
use std::path::Path;
use std::process::ExitCode;

use itertools::Itertools;

use super::watching::clear;
use crate::kitchen::{Mistake, NotLoaded, Warning};
use crate::words::counted;
use crate::words::marks::{visible, visible_line};

/// Why a run did not end well.
#[derive(Debug)]
pub enum Failure {
    /// Exit status 1: the files have mistakes.
    Mistakes(Vec<Mistake>),
    /// Exit status 3: at least one file cannot be read; beside it there may be mistakes in others.
    Unreadable(Vec<Mistake>),
    /// Exit status 1: `--strict` and there are warnings, which have been said already.
    Strict(usize),
    /// Exit status 1: what was asked is not known; a whole sentence.
    NotKnown(String),
    /// Exit status 2: the command line names what does not exist.
    Usage(String),
    /// Exit status 3: the machine failed; a whole sentence.
    Machine(String),
}

pub type Done = Result<(), Failure>;

impl From<NotLoaded> for Failure {
    fn from(not: NotLoaded) -> Failure {
        if not.unreadable { Failure::Unreadable(not.mistakes) } else { Failure::Mistakes(not.mistakes) }
    }
}

impl Failure {
    pub fn reading(path: &Path, error: &io::Error) -> Failure {
        Failure::Machine(format!("cannot read {}: {error}.", path.display()))
    }

    pub fn writing(path: &Path, error: &io::Error) -> Failure {
        Failure::Machine(format!("cannot write {}: {}", path.display(), plainly(error)))
    }
}

/// What an operating system's error means, in words and with a remedy.
fn plainly(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::PermissionDenied => "no permission. Choose another folder, or allow writing there.".to_owned(),
        io::ErrorKind::StorageFull => "the disk is full. Nothing was lost; make room and run it again.".to_owned(),
        io::ErrorKind::FileTooLarge | io::ErrorKind::QuotaExceeded => {
            "no more may be written there. Nothing was lost; make room and run it again.".to_owned()
        }
        io::ErrorKind::ReadOnlyFilesystem => "the folder is read-only. Choose another one with --into.".to_owned(),
        io::ErrorKind::NotADirectory | io::ErrorKind::IsADirectory | io::ErrorKind::AlreadyExists => {
            "something else of that name is in the way.".to_owned()
        }
        _ => format!("{error}."),
    }
}

/// Writes to standard output; a reader that has gone away is no failure.
pub fn say(text: &str) -> Done {
    clear();
    let mut out = io::stdout().lock();
    match out.write_all(visible(text).as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => {
            Err(Failure::Machine(format!("cannot write to standard output: {}", plainly(&error))))
        }
        _ => Ok(()),
    }
}

/// Writes warnings to standard error; with `strict` they end the run.
pub fn warn(warnings: &[Warning], strict: bool) -> Done {
    warnings.iter().for_each(|warning| remark(&warning.to_string()));
    if strict && !warnings.is_empty() { Err(Failure::Strict(warnings.len())) } else { Ok(()) }
}

/// Writes one line of warning to standard error.
pub fn remark(text: &str) {
    notice(&format!("warning: {text}"));
}

/// Writes one line to standard error.
pub fn notice(text: &str) {
    clear();
    // Nobody is left to be told where standard error cannot be written.
    let _ = writeln!(io::stderr().lock(), "{}", visible_line(text));
}

/// Help, or what is wrong with the command line.
pub fn usage(error: &clap::Error) -> ExitCode {
    let text = error.render().to_string();
    if error.use_stderr() {
        let _ = io::stderr().lock().write_all(visible(&text).as_bytes());
        return ExitCode::from(2);
    }
    exit(say(&text))
}

/// Says what went wrong, and turns it into the exit status.
pub fn exit(done: Done) -> ExitCode {
    clear();
    let (status, text) = match done {
        Ok(()) => return ExitCode::SUCCESS,
        Err(Failure::Mistakes(mistakes)) => (1, all_of(&mistakes)),
        Err(Failure::Unreadable(mistakes)) => (3, all_of(&mistakes)),
        Err(Failure::Strict(count)) => (1, format!("error: {} with --strict; nothing was written.", counted(count, "warning"))),
        Err(Failure::NotKnown(text)) => (1, format!("error: {text}")),
        Err(Failure::Usage(text)) => (2, format!("error: {text}")),
        Err(Failure::Machine(text)) => (3, format!("error: {text}")),
    };
    let _ = writeln!(io::stderr().lock(), "{}", visible(&text));
    ExitCode::from(status)
}

fn all_of(mistakes: &[Mistake]) -> String {
    let said = mistakes.iter().map(|mistake| format!("error: {}", visible_line(&mistake.to_string()))).join("\n");
    format!("{said}\n{} found; nothing was written.", counted(mistakes.len(), "mistake"))
}

/// Indented JSON with a final line end.
pub fn json(value: &impl serde::Serialize) -> Result<String, Failure> {
    crate::json::text(value).map_err(|error| Failure::Machine(format!("cannot write JSON: {error}.")))
}
