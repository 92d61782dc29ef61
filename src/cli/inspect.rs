//! `inspect`: what a cutter would send a drawing back for, and the same drawing made sound.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use clap::Args;
use serde_json::{Value as Json, json};

use super::reading::{self, shown};
use super::{Exit, read, rounded, wrong};
use crate::export::dxf::{self, BEND_LAYER, Content, Lines, MARK_LAYER};
use crate::export::json::to_text;
use crate::export::svg;
use crate::export::text::wrap;
use crate::outline::{self, Ask, Inspected, Least, MOST_BYTES, Purpose, Refusal};
use crate::record::design::Value;
use crate::record::show;
use crate::sheet::{Line, outlines};
use crate::standards::processes;
use crate::units::show::trimmed;
use crate::units::{Area, Length, LengthUnit, Mass};

/// Arguments of `inspect`.
#[derive(Args)]
#[command(
    after_help = "Examples:\n  setdown inspect bracket.dxf --thickness 3mm\n  setdown inspect bracket.dxf --mend bracket-sound.dxf --picture bracket.svg"
)]
pub struct Inspect {
    /// Drawing, as DXF in text
    file: PathBuf,
    /// Thickness of the plate: holes and webs are held against it; mass and time of cutting follow
    #[arg(long, value_parser = read::size)]
    thickness: Option<Length>,
    /// Ends nearer than this to each other are joined
    #[arg(long, value_parser = read::not_negative, default_value = "0.05 mm")]
    gap: Length,
    /// What the numbers in the file mean, mm or in, whatever the file says
    #[arg(long, value_parser = unit)]
    unit: Option<LengthUnit>,
    /// Material, for the mass
    #[arg(long, default_value = "steel S235")]
    material: String,
    /// Shop file with materials of your own
    #[arg(long)]
    shop: Option<PathBuf>,
    /// Write a sound drawing: joined, without doubles, blocks taken apart, splines as arcs, in mm
    #[arg(long, value_name = "OUT.dxf")]
    mend: Option<PathBuf>,
    /// Write a picture of it with the faults marked
    #[arg(long, value_name = "OUT.svg")]
    picture: Option<PathBuf>,
    /// Print JSON
    #[arg(long)]
    json: bool,
}

fn unit(text: &str) -> Result<LengthUnit, String> {
    match text {
        "mm" => Ok(LengthUnit::Mm),
        "in" | "inch" => Ok(LengthUnit::Inch),
        _ => Err("mm or in".into()),
    }
}

/// `inspect`.
pub fn inspect(call: &Inspect, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    let shop = match reading::shop_or_usual(call.shop.as_deref(), err)? {
        Ok(shop) => shop,
        Err(exit) => return Ok(exit),
    };
    let density = match shop.material(&call.material) {
        Ok(material) => material.density,
        Err(message) => return wrong(err, message),
    };
    let found = match look(call) {
        Ok(found) => found,
        Err(message) => return wrong(err, message),
    };
    if let Err((exit, message)) = files(call, &found) {
        writeln!(err, "error: {message}")?;
        return Ok(exit);
    }
    let plate = call.thickness.map(|t| Plate {
        thickness: t,
        mass: density * (Area::mm2(found.area()) * t),
        minutes: processes::laser_minutes(found.cut_length(), found.pierces(), t).map(|m| m.value),
    });
    if call.json {
        write!(out, "{}", to_text(&as_json(call, &found, plate.as_ref())))?;
    } else {
        say(call, &found, plate.as_ref(), out)?;
    }
    Ok(if found.refused() { Exit::Fails } else { Exit::Fine })
}

/// What follows from the thickness.
struct Plate {
    thickness: Length,
    mass: Mass,
    minutes: Option<f64>,
}

fn look(call: &Inspect) -> Result<Inspected, String> {
    let name = shown(&call.file);
    let meta = fs::metadata(&call.file).map_err(|e| format!("cannot read {name}: {e}"))?;
    if !meta.is_file() {
        return Err(format!("{name} is not a file"));
    }
    if meta.len() > MOST_BYTES {
        return Err(format!("{name} is {} bytes long; a drawing of a part has at most {MOST_BYTES}", meta.len()));
    }
    let bytes = fs::read(&call.file).map_err(|e| format!("cannot read {name}: {e}"))?;
    let least = call.thickness.map(|t| Least {
        hole: (processes::least_cut_hole(t), processes::burnt_below(t)),
        web: (processes::least_web(t), processes::burnt_web(t)),
    });
    let ask = Ask { gap: call.gap, unit: call.unit, least };
    outline::inspect(&bytes, &ask).map_err(|Refusal { line, what }| match line {
        Some(line) => format!("{name}, line {line}: {what}"),
        None => format!("{name}: {what}"),
    })
}

/// Writes what was asked for; nothing where the drawing cannot be made sound.
fn files(call: &Inspect, found: &Inspected) -> Result<(), (Exit, String)> {
    let mended = call.mend.as_ref().map(|to| Ok((to, mend(found)?))).transpose();
    let mended = mended.map_err(|why: String| (Exit::Fails, format!("nothing is written: {why}")))?;
    let picture = call.picture.as_ref().map(|to| (to, svg::write(&drawn(call, found)).into_bytes()));
    for (to, bytes) in mended.into_iter().chain(picture) {
        put(to, &bytes).map_err(|why| (Exit::Disk, format!("cannot write {}: {why}", shown(to))))?;
    }
    Ok(())
}

/// The drawing made sound.
fn mend(found: &Inspected) -> Result<Vec<u8>, String> {
    if let Some(first) = found.unsound.first() {
        let more = found.unsound.len() - 1;
        let more = if more > 0 { format!(", and {more} more") } else { String::new() };
        return Err(format!("{first}{more}; a wider --gap joins what lies apart, the rest its author must put right"));
    }
    let contours = found.contours().map_err(|e| e.to_string())?;
    let marks = found.marks.iter().map(|r| (r, MARK_LAYER));
    let bends = found.bends.iter().map(|r| (r, BEND_LAYER));
    let lines = marks.chain(bends).map(|(r, layer)| Lines { layer, edges: &r.edges, closed: r.closed }).collect();
    let content = Content { cut: contours.iter().collect(), marks: &[], lines };
    Ok(dxf::write(&content, dxf::Options::default()))
}

fn drawn(call: &Inspect, found: &Inspected) -> crate::sheet::Page {
    let line = |purpose| match purpose {
        Purpose::Bend => Line::Centre,
        Purpose::Mark => Line::Hidden,
        _ => Line::Narrow,
    };
    let runs: Vec<_> = found.runs().map(|(run, purpose)| (run.edges.as_slice(), line(purpose))).collect();
    let says = |f: &outline::Fault| (f.at, format!("{} at {}: {}", f.kind.word(), f.at, f.says));
    let places: Vec<_> = found.faults.iter().map(says).collect();
    outlines::picture(&shown(&call.file), &runs, &places)
}

/// A new file, whole or not at all; never in place of another.
fn put(path: &Path, bytes: &[u8]) -> io::Result<()> {
    if path.exists() {
        return Err(io::Error::new(io::ErrorKind::AlreadyExists, "it is there already; name another, or move it away"));
    }
    let name = path.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
    let beside = path.with_file_name(format!(".{name}.{}", std::process::id()));
    let written = fs::File::create_new(&beside).and_then(|mut file| {
        file.write_all(bytes)?;
        file.sync_all()
    });
    let placed = written.and_then(|()| fs::rename(&beside, path));
    if placed.is_err() {
        let _ = fs::remove_file(&beside);
    }
    placed
}

fn as_json(call: &Inspect, found: &Inspected, plate: Option<&Plate>) -> Json {
    let findings = found.faults.iter().map(|f| {
        json!({
            "kind": f.kind.word(), "layer": f.layer, "at_mm": [rounded(f.at.x().as_mm()), rounded(f.at.y().as_mm())],
            "text": f.says, "refused": f.refused,
        })
    });
    let layers = found
        .layers
        .iter()
        .map(|(name, purpose, number)| json!({ "name": name, "purpose": purpose.word(), "entities": number }));
    let mut answer = json!({
        "file": shown(&call.file),
        "unit": found.unit,
        "findings": findings.collect::<Vec<_>>(),
        "area_mm2": rounded(found.area()),
        "cut_length_mm": rounded(found.cut_length().as_mm()),
        "pierces": found.pierces(),
        "outlines": found.outlines.len(),
        "parts": found.outlines.iter().filter(|o| !o.is_hole()).count(),
        "layers": layers.collect::<Vec<_>>(),
    });
    if let (Some(plate), Some(object)) = (plate, answer.as_object_mut()) {
        object.insert("thickness_mm".into(), json!(rounded(plate.thickness.as_mm())));
        object.insert("mass_kg".into(), json!(rounded(plate.mass.as_kg())));
        object.insert("cutting_minutes".into(), json!(plate.minutes.map(rounded)));
    }
    if let (Some(_), Some(object)) = (&call.mend, answer.as_object_mut()) {
        object.insert("changes".into(), json!(found.mended));
    }
    answer
}

fn say(call: &Inspect, found: &Inspected, plate: Option<&Plate>, out: &mut dyn Write) -> io::Result<()> {
    let text = |v: Value| show::value(&v, LengthUnit::Mm);
    let parts = found.outlines.iter().filter(|o| !o.is_hole()).count();
    writeln!(out, "{}: drawn in {}", shown(&call.file), found.unit)?;
    for (name, purpose, number) in &found.layers {
        writeln!(out, "  layer {name}: {number} entities, {}", purpose.word())?;
    }
    writeln!(out, "  parts {parts}, closed outlines {}, pierces {}", found.outlines.len(), found.pierces())?;
    writeln!(
        out,
        "  area {}, length of cut {}",
        text(Value::Area(Area::mm2(found.area()))),
        text(Value::Length(found.cut_length()))
    )?;
    if let Some(plate) = plate {
        writeln!(
            out,
            "  mass {} of {}, {} thick",
            text(Value::Mass(plate.mass)),
            call.material,
            text(Value::Length(plate.thickness))
        )?;
        match plate.minutes {
            Some(minutes) => writeln!(
                out,
                "  cutting some {} min, if steel [speeds of a usual laser, from memory, unconfirmed: half or twice is possible]",
                trimmed(minutes.max(0.1), 1)
            )?,
            None => writeln!(out, "  no time of cutting: speeds are known for 0.5 to 20 mm")?,
        }
    }
    for fault in &found.faults {
        let word = if fault.refused { "refused" } else { "asked" };
        let place =
            if fault.layer.is_empty() { String::new() } else { format!(" at {}, layer {}", fault.at, fault.layer) };
        for (i, line) in wrap(&format!("{word:<8}{}{place}: {}", fault.kind.word(), fault.says), 100).iter().enumerate()
        {
            writeln!(out, "{}{line}", if i == 0 { "" } else { "        " })?;
        }
    }
    if found.faults.is_empty() {
        writeln!(out, "nothing in it that a cutter would ask about")?;
    }
    if let Some(to) = &call.mend {
        writeln!(out, "{}: written, in mm; changed:", shown(to))?;
        found.mended.iter().try_for_each(|change| writeln!(out, "  {change}"))?;
        if found.mended.is_empty() {
            writeln!(out, "  nothing but the form of the file")?;
        }
    }
    Ok(())
}
