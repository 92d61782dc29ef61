//! The command line: arguments to library calls to text and exit status.
//!
//! Exit status: 0 fine; 1 some finding is `fail`; 2 the input or the call is wrong; 3 a file could not be read or written.

mod change;
mod check;
mod fit;
pub mod help;
mod history;
mod in_place;
mod inspect;
mod licences;
mod make;
mod materials;
mod one_off;
mod parts;
mod pipe;
mod press;
mod printing;
mod progress;
mod raceway;
mod reading;
mod record;
mod shop;
mod teach;

use std::io::{self, Write};
use std::path::PathBuf;

use clap::{CommandFactory, Parser, Subcommand};

use crate::printable::{escaped, first_unseen};

/// How a run ended.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default)]
pub enum Exit {
    /// Nothing to complain of.
    #[default]
    Fine,
    /// Some finding is `fail`.
    Fails,
    /// The input or the call is wrong.
    Wrong,
    /// A file could not be read or written.
    Disk,
}

impl Exit {
    /// The number for the system.
    pub fn code(self) -> u8 {
        match self {
            Self::Fine => 0,
            Self::Fails => 1,
            Self::Wrong => 2,
            Self::Disk => 3,
        }
    }
}

/// Sizes, fits, checks and shop files for the parts that locate a heavy rig which comes apart and goes back together.
#[derive(Parser)]
#[command(
    name = "setdown",
    version,
    max_term_width = 100,
    disable_help_subcommand = true,
    after_help = "Begin with:  setdown start cone parts/my-cone.toml\nThen:        setdown make"
)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Work out every part and write its files into one folder
    Make(make::Make),
    /// Work out every part and print sizes and findings, without writing files; of shop.toml, what is in force
    Check(check::Check),
    /// Write into a part file what was measured, and say what it means
    Record(record::Record),
    /// What was measured of each size over time, and whether it moves
    History(history::History),
    /// Limits of a hole and a shaft, and what they give together
    Fit(fit::FitCall),
    /// All figures of a taper from any two or three of them
    Taper(one_off::TaperCall),
    /// Width of the one shim that leaves the wanted float
    Shim(one_off::ShimCall),
    /// What a cutter would send a drawing (DXF of any origin) back for, and the same drawing made sound
    Inspect(inspect::Inspect),
    /// Answer the tape question alone: adjusted points, residuals, the suspicious reading
    Survey {
        /// Part file of a landing
        file: PathBuf,
        /// Print JSON
        #[arg(long)]
        json: bool,
    },
    /// Pressure, stress, force and heat of a press fit, and by how much the bore closes
    Press(press::PressCall),
    /// Contact pressure of rollers on a raceway, and the load that begins to dent it
    Raceway(raceway::RacewayCall),
    /// Write a commented part file that builds as it is
    Start {
        /// Family; `setdown families` lists them; or shop, for shop.toml
        family: String,
        /// Part file to write
        file: PathBuf,
    },
    /// How the trade reckons it, one screen a subject: seat, fit, landing, shims, press, units; or the options of a command
    Help {
        /// Subject or command; without it, what there is
        subject: Option<String>,
    },
    /// List the part families
    Families,
    /// List the materials that the tool knows, with their figures
    Materials(materials::MaterialsCall),
    /// Print the notices of the lettering and of all crates in the program
    Licences,
    /// Print a completion script
    #[command(hide = true)]
    Completions {
        /// bash, zsh, fish, elvish or powershell
        shell: clap_complete::Shell,
    },
}

impl Command {
    /// Whether the work is shared out over threads; the others answer before a thread would have begun.
    fn is_long(&self) -> bool {
        match self {
            Self::Make(_)
            | Self::Check(_)
            | Self::Record(_)
            | Self::History(_)
            | Self::Survey { .. }
            | Self::Shim(_) => true,
            Self::Fit(_)
            | Self::Taper(_)
            | Self::Press(_)
            | Self::Raceway(_)
            | Self::Inspect(_)
            | Self::Start { .. } => false,
            Self::Help { .. } | Self::Families | Self::Materials(_) | Self::Licences | Self::Completions { .. } => {
                false
            }
        }
    }
}

/// Runs the program on the given arguments (program name first).
pub fn run(arguments: impl IntoIterator<Item = std::ffi::OsString>) -> Exit {
    let mut arguments: Vec<_> = arguments.into_iter().collect();
    // `help --help` is what a hand types that looks for help: it is the help.
    if arguments.get(1).is_some_and(|a| a == "help") {
        arguments.retain(|a| a != "--help" && a != "-h");
    }
    if let Some(trouble) = arguments.iter().skip(1).find_map(|a| argument_trouble(&a.to_string_lossy())) {
        let _ = writeln!(io::stderr(), "error: {trouble}");
        return Exit::Wrong;
    }
    let arguments = match Arguments::try_parse_from(arguments) {
        Ok(arguments) => arguments,
        Err(error) => {
            let exit = if error.use_stderr() { Exit::Wrong } else { Exit::Fine };
            let printed =
                error.print().or_else(|e| if e.kind() == io::ErrorKind::BrokenPipe { Ok(()) } else { Err(e) });
            return printed.map_or(Exit::Disk, |()| exit);
        }
    };
    if arguments.command.is_long() { with_threads(|| answer(arguments.command)) } else { answer(arguments.command) }
}

/// Runs a command with the terminal at hand.
fn answer(command: Command) -> Exit {
    let mut out = pipe::Patient::new(anstream::AutoStream::auto(io::stdout().lock()));
    // Not locked: a progress bar writes there from other threads while this one waits for them.
    let mut err = pipe::Patient::new(anstream::AutoStream::auto(io::stderr()));
    match dispatch(command, &mut out, &mut err).and_then(|exit| out.flush().map(|()| exit)) {
        Ok(exit) => exit,
        Err(error) => {
            let _ = writeln!(err, "error: cannot print: {error}");
            Exit::Disk
        }
    }
}

/// What a terminal would obey, or show in another order than it has, is not echoed and names no file of ours.
fn argument_trouble(argument: &str) -> Option<String> {
    let (_, c, why) = first_unseen(argument)?;
    let (what, help) = why.said();
    Some(format!("`{}`: {what}: U+{:04X}\n  help: {help}", escaped(argument), u32::from(c)))
}

/// Runs the work with a thread for each processor, or on the present thread alone where the system gives no other.
fn with_threads(work: impl FnOnce() -> Exit + Send) -> Exit {
    let alone = || rayon::ThreadPoolBuilder::new().num_threads(1).use_current_thread().build();
    match rayon::ThreadPoolBuilder::new().build().or_else(|_| alone()) {
        Ok(pool) => pool.install(work),
        Err(error) => {
            let _ = writeln!(io::stderr(), "error: the work cannot be begun: {error}");
            Exit::Disk
        }
    }
}

fn dispatch(command: Command, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    match command {
        Command::Make(call) => make::make(&call, out, err),
        Command::Check(call) => check::check(&call, out, err),
        Command::Record(call) => record::record(&call, out, err),
        Command::History(call) => history::history(&call, out, err),
        Command::Fit(call) => fit::fit(&call, out, err),
        Command::Taper(call) => one_off::taper(&call, out, err),
        Command::Shim(call) => one_off::shim(&call, out, err),
        Command::Inspect(call) => inspect::inspect(&call, out, err),
        Command::Survey { file, json } => parts::survey(&file, json, out, err),
        Command::Press(call) => press::press(&call, out, err),
        Command::Raceway(call) => raceway::raceway(&call, out, err),
        Command::Start { family, file } => parts::start(&family, &file, out, err),
        Command::Help { subject } => help::help(subject.as_deref(), out, err),
        Command::Families => families(out),
        Command::Materials(call) => materials::materials(&call, out, err),
        Command::Licences => licences::licences(out),
        Command::Completions { shell } => {
            clap_complete::generate(shell, &mut Arguments::command(), "setdown", out);
            Ok(Exit::Fine)
        }
    }
}

fn families(out: &mut dyn Write) -> io::Result<Exit> {
    for family in crate::families::FAMILIES {
        writeln!(out, "{:<8} {}", family.name, family.about)?;
    }
    Ok(Exit::Fine)
}

/// A figure of the JSON answers, to nine decimals; nought added so that nothing reads as minus nought.
fn rounded(x: f64) -> f64 {
    (x * 1e9).round() / 1e9 + 0.0
}

/// Says what is wrong with a call, and gives the status for it.
fn wrong(err: &mut dyn Write, message: impl std::fmt::Display) -> io::Result<Exit> {
    writeln!(err, "error: {message}")?;
    Ok(Exit::Wrong)
}

/// Adapters from the text readers to the argument parser.
mod read {
    use crate::formulas::hardness::Hardness;
    use crate::units::text::{self, TextError};
    use crate::units::{Angle, Force, Length, Mass, Stress, Temperature};

    fn said(error: TextError) -> String {
        match error.help {
            Some(help) => format!("{} ({help})", error.what),
            None => error.what,
        }
    }
    pub fn length(text: &str) -> Result<Length, String> {
        text::length(text).map_err(said)
    }
    /// A length that can be made and read: a micrometre at least.
    pub fn size(text: &str) -> Result<Length, String> {
        let length = length(text)?;
        if length >= Length::um(1.0) {
            Ok(length)
        } else if length > Length::ZERO {
            Err("a size under 0.001 mm can be neither made nor measured; is that the unit which was meant?".into())
        } else {
            Err("a size is greater than 0".into())
        }
    }
    /// A length not below 0.
    pub fn not_negative(text: &str) -> Result<Length, String> {
        let length = length(text)?;
        if length >= Length::ZERO { Ok(length) } else { Err("it cannot be negative".into()) }
    }
    pub fn angle(text: &str) -> Result<Angle, String> {
        text::angle(text).map_err(said)
    }
    /// A force, or a mass whose weight is meant.
    pub fn load(text: &str) -> Result<Force, String> {
        let read = text::force(text).or_else(|as_force| text::mass(text).map(Mass::weight).map_err(|_| as_force));
        let load = read.map_err(said)?;
        if load > Force::ZERO { Ok(load) } else { Err("a load is greater than 0".into()) }
    }
    pub fn stress(text: &str) -> Result<Stress, String> {
        text::stress(text).map_err(said)
    }
    pub fn hardness(text: &str) -> Result<Hardness, String> {
        Hardness::parse(text)
    }
    pub fn ratio(text: &str) -> Result<f64, String> {
        text::ratio(text).map_err(said)
    }
    pub fn temperature(text: &str) -> Result<Temperature, String> {
        let t = text::temperature(text).map_err(said)?;
        if t >= Temperature::ABSOLUTE_ZERO { Ok(t) } else { Err("that is below absolute zero".into()) }
    }
}
