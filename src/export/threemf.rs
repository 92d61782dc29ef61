//! 3MF: the mesh with its unit, for 3D printing (ends the question whether a file is in millimetres or inches).
//!
//! 3MF core specification 1.3: an Open Packaging ZIP with content types, a relationship and one model. The parts
//! are stored, not packed, and dated 1980-01-01, the first date that a ZIP can hold, so that no clock gets in.

use std::fmt::Write;

use zlib_rs::crc32::crc32;

use super::digits::Digits;
use crate::export::mesh::Mesh;

const CONTENT_TYPES: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>
"#;
const RELATIONSHIPS: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Target="/3D/3dmodel.model" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>
"#;

/// Bytes of a 3MF file with one object, in millimetres.
pub fn threemf(name: &str, mesh: &Mesh) -> Vec<u8> {
    zip(&[
        ("[Content_Types].xml", CONTENT_TYPES.as_bytes()),
        ("_rels/.rels", RELATIONSHIPS.as_bytes()),
        ("3D/3dmodel.model", model(name, mesh).as_bytes()),
    ])
}

/// Coordinates are written to a nanometre.
fn model(name: &str, mesh: &Mesh) -> String {
    let mut xml = String::from(concat!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n",
        "<model unit=\"millimeter\" xml:lang=\"en-US\" ",
        "xmlns=\"http://schemas.microsoft.com/3dmanufacturing/core/2015/02\">\n"
    ));
    let title = escaped(name);
    let _ =
        write!(xml, "<metadata name=\"Title\">{title}</metadata>\n<metadata name=\"Application\">setdown</metadata>\n");
    xml.push_str("<resources>");
    let _ = write!(xml, "<object id=\"1\" name=\"{title}\" type=\"model\"><mesh>\n<vertices>\n");
    for p in &mesh.points {
        for (before, mm) in ["<vertex x=\"", "\" y=\"", "\" z=\""].iter().zip(p) {
            xml.push_str(before);
            xml.units((mm * 1e6).round() as i64, 6);
        }
        xml.push_str("\"/>\n");
    }
    xml.push_str("</vertices>\n<triangles>\n");
    for corners in &mesh.triangles {
        for (before, number) in ["<triangle v1=\"", "\" v2=\"", "\" v3=\""].iter().zip(corners) {
            xml.push_str(before);
            xml.whole(*number);
        }
        xml.push_str("\"/>\n");
    }
    xml.push_str("</triangles>\n</mesh></object></resources>\n<build><item objectid=\"1\"/></build>\n</model>\n");
    xml
}

/// Text as an XML attribute; characters that XML cannot hold are left out.
fn escaped(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => {}
            c => out.push(c),
        }
    }
    out
}

/// A ZIP archive (PKWARE APPNOTE 6.3) of stored files.
fn zip(files: &[(&str, &[u8])]) -> Vec<u8> {
    let (mut out, mut directory) = (Vec::new(), Vec::new());
    for (name, data) in files {
        let at = out.len() as u32;
        let fields = file_fields(name, data);
        put(&mut out, &[b"PK\x03\x04", &fields, name.as_bytes(), data]);
        // Made by: version 2.0; after the shared fields: no comment, disk 0, attributes 0, where the file starts.
        put(&mut directory, &[b"PK\x01\x02\x14\x00", &fields, &[0; 10], &at.to_le_bytes(), name.as_bytes()]);
    }
    let (count, start, size) = (files.len() as u16, out.len() as u32, directory.len() as u32);
    let counts = [[0, 0], [0, 0], count.to_le_bytes(), count.to_le_bytes()].concat();
    put(&mut out, &[&directory, b"PK\x05\x06", &counts, &size.to_le_bytes(), &start.to_le_bytes(), &[0, 0]]);
    out
}

/// The fields that local header and directory share: version 2.0, no flags, stored, 00:00 on 1980-01-01, checksum,
/// both sizes, length of the name, no extra field.
fn file_fields(name: &str, data: &[u8]) -> Vec<u8> {
    let (size, mut out) = ((data.len() as u32).to_le_bytes(), Vec::new());
    put(&mut out, &[&[0x14, 0, 0, 0, 0, 0, 0, 0, 0x21, 0], &crc32(0, data).to_le_bytes(), &size, &size]);
    put(&mut out, &[&(name.len() as u16).to_le_bytes(), &[0, 0]]);
    out
}

fn put(out: &mut Vec<u8>, parts: &[&[u8]]) {
    parts.iter().for_each(|part| out.extend_from_slice(part));
}

#[cfg(test)]
mod tests {
    /// The check value that the catalogue of CRCs gives for the nine digits (CRC-32 of ISO 3309, which ZIP asks for).
    #[test]
    fn crc_check_value() {
        assert_eq!(super::crc32(0, b"123456789"), 0xcbf4_3926);
    }
}
