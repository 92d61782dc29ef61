//! The file formats. Each is one record; all of them see only the finished design.

mod digits;
pub mod dxf;
pub mod json;
pub mod mesh;
pub mod pdf;
pub mod step;
pub mod stl;
pub mod svg;
pub mod text;
pub mod threemf;

use std::cell::OnceCell;

use crate::export::mesh::Mesh;
use crate::record::design::Design;
use crate::shape::Solid;
use crate::sheet::content::Style;
use crate::sheet::layout::Sheets;
use crate::sheet::of_design;
use crate::units::{Length, LengthUnit};

/// What a run may set for the files.
#[derive(Clone, Debug)]
pub struct Options {
    /// Greatest distance of a mesh from the true surface.
    pub chord_tolerance: Length,
    /// Release of DXF.
    pub dxf: dxf::Release,
    /// Paper and projection of the drawing sheets.
    pub style: Style,
    /// Only these extensions; all if empty.
    pub only: Vec<String>,
}

impl Default for Options {
    fn default() -> Self {
        Self { chord_tolerance: Length::mm(0.01), dxf: dxf::Release::R2000, style: Style::default(), only: Vec::new() }
    }
}

/// A design with what several formats need of it, worked out once.
pub struct Prepared<'a> {
    design: &'a Design,
    options: &'a Options,
    sheets: OnceCell<Result<Sheets, String>>,
    meshes: OnceCell<Result<Vec<Mesh>, String>>,
}

impl<'a> Prepared<'a> {
    fn new(design: &'a Design, options: &'a Options) -> Self {
        Self { design, options, sheets: OnceCell::new(), meshes: OnceCell::new() }
    }

    /// The drawing sheets.
    fn sheets(&self) -> Result<&Sheets, String> {
        let all = self.sheets.get_or_init(|| of_design::sheets(self.design, &self.options.style));
        all.as_ref().map_err(String::clone)
    }

    /// A mesh for each solid.
    fn meshes(&self) -> Result<&[Mesh], String> {
        let mesh = |solid: &Solid| mesh::mesh(&solid.body, self.options.chord_tolerance).map_err(|e| e.to_string());
        let all = self.meshes.get_or_init(|| self.design.solids.iter().map(mesh).collect());
        all.as_ref().map(Vec::as_slice).map_err(String::clone)
    }
}

/// One file: what follows the stem in its name, and its bytes.
pub type NamedBytes = (String, Vec<u8>);

/// A file format.
pub struct Format {
    /// Extension, and the word after `--only`.
    pub extension: &'static str,
    /// The options that shape its files, as text: files of other options are other files.
    pub shaped_by: fn(&Options) -> String,
    /// The files of one part; none where the format has nothing to say about it.
    pub write: fn(&Prepared) -> Result<Vec<NamedBytes>, String>,
}

/// Every format, in the order of the list of files.
pub const FORMATS: &[Format] = &[
    Format { extension: "3mf", shaped_by: by_chord, write: write_3mf },
    Format { extension: "dxf", shaped_by: by_release, write: write_dxf },
    Format { extension: "json", shaped_by: by_nothing, write: write_json },
    Format { extension: "pdf", shaped_by: by_paper, write: write_pdf },
    Format { extension: "step", shaped_by: by_nothing, write: write_step },
    Format { extension: "stl", shaped_by: by_chord, write: write_stl },
    Format { extension: "svg", shaped_by: by_paper, write: write_svg },
    Format { extension: "txt", shaped_by: by_nothing, write: write_text },
];

fn by_nothing(_: &Options) -> String {
    String::new()
}

fn by_chord(options: &Options) -> String {
    format!("chord {} mm", plain(options.chord_tolerance.as_mm()))
}

fn by_release(options: &Options) -> String {
    format!("{:?}", options.dxf)
}

fn by_paper(options: &Options) -> String {
    let Style { paper, projection, date, owner, creator, approved } = &options.style;
    let people: Vec<&str> = [owner, date, creator, approved].into_iter().flatten().map(String::as_str).collect();
    let people = if people.is_empty() { String::new() } else { format!(", {}", people.join(", ")) };
    format!("{paper:?}, {projection:?} angle{people}")
}

/// The options that shape the files of a whole job, as text.
pub fn shapes_job(options: &Options) -> String {
    format!("{}; {}", by_paper(options), by_release(options))
}

/// Why `make` would refuse the sheets of a part, where it would: a drawing that no paper holds at a legible size.
pub fn undrawable(design: &Design, style: &Style) -> Option<String> {
    of_design::sheets(design, style).err()
}

/// All files of one part, by full name.
///
/// # Errors
/// A format that cannot express the part; the sentence names it.
pub fn files(design: &Design, options: &Options) -> Result<Vec<NamedBytes>, String> {
    let wanted = |f: &&Format| options.only.is_empty() || options.only.iter().any(|o| o == f.extension);
    let prepared = Prepared::new(design, options);
    let mut files = Vec::new();
    for format in FORMATS.iter().filter(wanted) {
        let written = (format.write)(&prepared)?;
        files.extend(written.into_iter().map(|(tail, bytes)| (format!("{}{tail}", design.header.stem), bytes)));
    }
    Ok(files)
}

fn write_json(p: &Prepared) -> Result<Vec<NamedBytes>, String> {
    Ok(vec![(".json".into(), json::to_text(&json::whole(p.design)).into_bytes())])
}

fn write_text(p: &Prepared) -> Result<Vec<NamedBytes>, String> {
    Ok(vec![(".txt".into(), text::bench_sheet(p.design).into_bytes())])
}

/// The sheets for the bench in one file; beside it the reasons, and the paper template of a flat part or of what is wrapped round one.
fn write_pdf(p: &Prepared) -> Result<Vec<NamedBytes>, String> {
    let title = &p.design.header.name;
    let sheets = p.sheets()?;
    let mut files = vec![(".pdf".to_string(), pdf::write(&sheets.bench, title))];
    if !sheets.reasons.is_empty() {
        files.push(("-reasons.pdf".into(), pdf::write(&sheets.reasons, &format!("{title}, reasons"))));
    }
    let template = of_design::template(p.design, p.options.style.paper);
    if !template.is_empty() {
        files.push(("-template.pdf".into(), pdf::write(&template, &format!("{title}, paper template 1:1"))));
    }
    Ok(files)
}

/// One file for each sheet with a drawing.
fn write_svg(p: &Prepared) -> Result<Vec<NamedBytes>, String> {
    let name = |i: usize| if i == 0 { ".svg".to_string() } else { format!("-sheet-{}.svg", i + 1) };
    let sheets = p.sheets()?;
    let drawings = sheets.bench.iter().take(sheets.drawings);
    Ok(drawings.enumerate().map(|(i, page)| (name(i), svg::write(page).into_bytes())).collect())
}

/// What follows the stem for one of the solids.
fn tail(solid: &Solid, extension: &str) -> String {
    solid.name_suffix.as_ref().map_or_else(|| format!(".{extension}"), |suffix| format!("-{suffix}.{extension}"))
}

/// Name of one solid inside a file that carries names.
fn solid_name(design: &Design, solid: &Solid) -> String {
    solid
        .name_suffix
        .as_ref()
        .map_or_else(|| design.header.name.clone(), |suffix| format!("{} {suffix}", design.header.name))
}

/// Always in mm: the unit that every cutter and every release of the format agrees on.
fn write_dxf(p: &Prepared) -> Result<Vec<NamedBytes>, String> {
    let bytes = |cutting| dxf::dxf(cutting, dxf::Options { release: p.options.dxf, unit: LengthUnit::Mm });
    let pieces = p.design.cut_pieces.iter().map(|(name, cutting)| (format!("-{name}.dxf"), bytes(cutting)));
    let wrap = p.design.wrap.iter().map(|outline| ("-wrap.dxf".into(), bytes(outline)));
    Ok(p.design.cutting.iter().map(|cutting| (".dxf".into(), bytes(cutting))).chain(pieces).chain(wrap).collect())
}

fn write_stl(p: &Prepared) -> Result<Vec<NamedBytes>, String> {
    let one = |(solid, mesh): (&Solid, &Mesh)| Ok((tail(solid, "stl"), stl::stl(mesh).map_err(|e| e.to_string())?));
    p.design.solids.iter().zip(p.meshes()?).map(one).collect()
}

fn write_3mf(p: &Prepared) -> Result<Vec<NamedBytes>, String> {
    let one =
        |(solid, mesh): (&Solid, &Mesh)| (tail(solid, "3mf"), threemf::threemf(&solid_name(p.design, solid), mesh));
    Ok(p.design.solids.iter().zip(p.meshes()?).map(one).collect())
}

fn write_step(p: &Prepared) -> Result<Vec<NamedBytes>, String> {
    let one = |solid: &Solid| (tail(solid, "step"), step::step(&solid_name(p.design, solid), &solid.body));
    Ok(p.design.solids.iter().map(one).collect())
}

/// A number without an exponent, always with a decimal point, never `-0`; sizes below 1e-12 count as nought.
/// The shortest digits that read back as the very same number.
pub(crate) fn plain(value: f64) -> String {
    let value = if value.abs() < 1e-12 { 0.0 } else { value };
    let text = format!("{value}");
    if text.contains('.') { text } else { text + ".0" }
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn numbers_read_back() {
        assert_eq!(plain(-0.0), "0.0");
        assert_eq!(plain(-1e-17), "0.0");
        assert_eq!(plain(12.0), "12.0");
        assert_eq!(plain(0.1 + 0.2), "0.30000000000000004");
        assert_eq!(plain(1e-7), "0.0000001");
    }
}
