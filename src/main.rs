//! The program `setdown`: everything of it is in the library; here is only the way in.

#![forbid(unsafe_code)]

use std::process::ExitCode;

fn main() -> ExitCode {
    ExitCode::from(setdown::run(std::env::args_os()).code())
}
