//! Plans a household's week of batch cooking.

use std::process::ExitCode;

fn main() -> ExitCode {
    spence::cli::run()
}
