//! `help`: what the program does and how the trade reckons it, one screen a subject; of a command, its options.

use std::io::{self, Write};

use clap::CommandFactory;

use super::{Arguments, Exit, wrong};
use crate::suggest;

/// A subject and its screen.
pub struct Subject {
    /// The word after `help`.
    pub name: &'static str,
    /// What it tells, one line.
    pub about: &'static str,
    /// At most 24 lines of 80 characters. What stands behind a `$ setdown` line is what the program prints.
    pub screen: &'static str,
}

/// Every subject.
pub const SUBJECTS: &[Subject] = &[
    Subject {
        name: "seat",
        about: "how high a cup stands on its cone, what it takes in, whether it comes free",
        screen: "\
A hole of diameter H on a cone with base D and half-angle a touches in a ring:

  seat height over the base   (D - H)/(2 tan a)      0.1 mm more hole: 0.1/(2 tan a) lower
  capture radius              (H - flat of the nose)/2
  slides home while           a + atan(friction) < 90 degrees
  comes free while            a > atan(friction)     blunter than 22.5 degrees for dry steel

The limits of hole, rim, base and angle all move the height: the sheet prints it from end to end.
The first loads press the rim in; shim after that, not before.

  $ setdown check parts/cup-front-left.toml
  ok      capture radius: 9.155 mm, at least 5 mm

Sources: equilibrium and geometry (derived); friction by handbook tables; the rim by K. L. Johnson,
Contact Mechanics, 1985. A locator is not a tie-down.",
    },
    Subject {
        name: "fit",
        about: "limits of hole and shaft, and what to make to a part as it was measured",
        screen: "\
A letter says where the limits lie, a number how far apart: H7 for the hole, g6 runs, h6 slides,
k6 locates, p6 and s6 are pressed. Clearance = hole - shaft; negative is interference.

  $ setdown fit 25mm H7/g6
  hole   H7     +21 / 0       25.000    25.021   0.9843    0.9850
  shaft  g6     -7 / -20      24.980    24.993   0.9835    0.9839

  setdown fit 25mm g6 --hole 25.031mm       what shaft to turn to the hole as it was bored
  setdown fit '1 in' RC4                    inch fits by name
  setdown fit 25mm H7/g6 --hole-temperature 60C  warm or cold; of the shaft and by material, too

In a part file: bore_class = \"H7\", or \"?\": the class that puts every check in order.
Measure at 20 degrees, or let both parts lie beside each other overnight.

Sources: ISO 286-1:2010 and 286-2:2010; ANSI B4.1 for inch fits.",
    },
    Subject {
        name: "landing",
        about: "a frame on its cones: where it rests, what carries it, which cup is which",
        screen: "\
One cup round, one a slot that points at it, the others clear on pads: six freedoms, six contacts.
A second round cup fits only by luck; the tape is never that good.

1. tape every line between the seats, and to a point well outside; both patterns
2. setdown survey FILE       a wrong reading is named where the geometry can tell
3. setdown check FILE        rest, loads, which cup, how large the clear holes, what shakes it off
4. setdown make FILE         the plan with what to do at each corner, the order of setting up

  $ setdown survey parts/landing-observatory.toml
  caution tape survey of the cones, scatter over what was stated: 6.526, at most 2 - if only one
            reading is wrong it is FR-HITCH (1471 mm), about 12.038 mm too long: measure it again

Load on the seats: three of four carry it at worst. Capture must exceed the swing of the hoist.
On the road: sideways g before it climbs off a cone, and the tie-down that holds it. A locator is
not a tie-down; hoisting and lashing follow local rules and who is licensed for them.

Sources: statics (derived); Baarda's test of readings; 49 CFR 393.102 for what the road asks.",
    },
    Subject {
        name: "shims",
        about: "one spacer of the right width in place of a stack",
        screen: "\
float = gap - shim. From the float wanted, least and greatest, less what the instruments leave open:

  shim = gap - (least + greatest)/2      tolerance = half the range less the measuring uncertainty

  $ setdown shim --gap 1.28mm --target-float 0.05mm 0.15mm
  width of the shim                1.18 mm   0.0465 in

Old shims measured one by one add up to more or less than the stack pressed together: measure the
stack. A part file takes the members of the chain instead of the gap, says which of them decides
(shares of the variance), and what cold and heat make of the float.

Sources: JCGM 100:2008 for the uncertainty, k = 2; the chain is a sum (derived).",
    },
    Subject {
        name: "press",
        about: "pressed and shrunk joints: pressure, force, heat, what closes",
        screen: "\
Interference i on the diameter D, hub D2, bore d, same steel: pressure (Lame, both parts elastic)

  p = i/D E / ((D2^2 + D^2)/(D2^2 - D^2) + (D^2 + d^2)/(D^2 - d^2))
  force = friction p pi D L      torque = force D/2      bore closes by hoop stress d/E

  $ setdown press --interface 38mm --hub-outside 62mm --bore 30mm --length 24mm --fit H7/p6
  interference                               1 µm        42 µm

The peaks of both faces are flattened: 0.8 (Rz1 + Rz2) comes off the least interference.
The bore closes: ream, bore or hone it after pressing where its class is narrower than that spread.
Heat the hub, not over what its temper bears; goggles and gloves; never heat a part with a closed
hollow. Stand clear of the press: a hard ring bursts without a sign.

Sources: DIN 7190-1, Lame; friction by handbook tables.",
    },
    Subject {
        name: "measure",
        about: "what a reading says: good or not, and what comes next",
        screen: "\
U is what the instrument leaves open, coverage factor 2; shop.toml tells yours as [[instrument]].

  good         least + U <= reading <= most - U
  not good     beyond a limit by more than U
  between      too near to tell: a finer instrument, or a cut to the middle of the limits

A warm part is brought to 20 degrees with --at 31C; leave it out where part and instrument are of
steel and lay side by side. Two readings of one day must agree within both their U; where metal was
cut in between, say --after-cut.

  setdown record parts/cone.toml base=60.12mm --with micrometer --piece 1 --on 2026-03-14
  setdown record parts/cone.toml            asks for one size after the other
  setdown record parts/cone.toml --undo     takes the last one back

Of a cone all readings together give base and half-angle; the check says how far the slide is to be
turned and what is left. From three readings on the history says whether a size moves:

  $ setdown history parts/shim-latch.toml
  2025-05-03  0.0064 in  ± 0.0004 in      [                   --o---             ]      good

Sources: ISO 14253-1 for the rule (from memory); JCGM 100:2008 for U; ISO 1 for the 20 degrees.",
    },
    Subject {
        name: "units",
        about: "how lengths, angles, loads and tapers are written",
        screen: "\
A unit is always written; nothing is guessed.

  lengths     25.4 mm   2.5 cm   12 um   1-1/4 in   '3/8\"'   10 thou   2' 3-1/2\"
  angles      30 deg   8 deg 30'   8d30m   0.5 rad   a taper 1:10 gives its half-angle
  loads       850 kg (its weight is meant)   2.5 kN   300 lbf
  others      0.8 g   250 MPa   36 ksi   60 C   100 F   60 HRC
  shares      0.3   3/4   10 %

units = \"in\" at the head of a part file lets bare numbers stand for inches, and shows inches first.
Figures are exact: 1 in is 25.4 mm. Limits are rounded inward in both units, so that a part within
the printed limits of either is within the true ones.

  $ setdown taper --large 60mm --small 24mm --half-angle 30deg
  length                                     31.177 mm           1.2274 in

Sources: ISO 80000-1 for rounding; the inch by the agreement of 1959.",
    },
];

/// `help`.
pub fn help(subject: Option<&str>, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    let mut program = Arguments::command().bin_name("setdown");
    program.build();
    let Some(name) = subject else {
        write!(out, "{}", program.render_long_help())?;
        writeln!(out, "\n\nSubjects:")?;
        for subject in SUBJECTS {
            writeln!(out, "  {:<12} {}", subject.name, subject.about)?;
        }
        return Ok(Exit::Fine);
    };
    let found = SUBJECTS.iter().find(|s| s.name == name);
    let of_command =
        program.find_subcommand_mut(name).filter(|c| !c.is_hide_set()).map(clap::Command::render_long_help);
    if let Some(subject) = found {
        writeln!(out, "{}", subject.screen)?;
        if of_command.is_some() {
            writeln!(out, "\nThe options of the command: setdown {name} --help")?;
        }
        return Ok(Exit::Fine);
    }
    if let Some(help) = of_command {
        writeln!(out, "{help}")?;
        return Ok(Exit::Fine);
    }
    let commands = program.get_subcommands().filter(|c| !c.is_hide_set()).map(clap::Command::get_name);
    let near = suggest::nearest(name, SUBJECTS.iter().map(|s| s.name).chain(commands));
    let help = if near.is_empty() {
        format!("the subjects are {}", SUBJECTS.iter().map(|s| s.name).collect::<Vec<_>>().join(", "))
    } else {
        format!("did you mean {}?", near.join(" or "))
    };
    wrong(err, format!("there is no help on `{name}`\n  help: {help}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A subject is one screen.
    #[test]
    fn a_subject_is_one_screen() {
        for s in SUBJECTS {
            let lines: Vec<&str> = s.screen.lines().collect();
            assert!(lines.len() <= 24, "{}: {} lines", s.name, lines.len());
            let wide = lines.iter().find(|l| l.chars().count() > 100);
            assert!(wide.is_none(), "{}: {wide:?}", s.name);
            assert!(s.screen.contains("Sources: ") && s.screen.contains("$ setdown "), "{}", s.name);
        }
    }
}
