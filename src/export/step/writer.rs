//! The clear text of ISO 10303-21: numbered records, numbers and names as it wants them.

use std::fmt::{Arguments, Write};

use crate::export::plain;

/// Collects records; each gets the next number.
#[derive(Default)]
pub(super) struct Writer {
    data: String,
    last: u32,
}

impl Writer {
    pub fn add(&mut self, record: Arguments<'_>) -> u32 {
        self.last += 1;
        // Writing into a String cannot fail.
        let _ = writeln!(self.data, "#{}={record};", self.last);
        self.last
    }
    pub fn point(&mut self, p: [f64; 3]) -> u32 {
        self.add(format_args!("CARTESIAN_POINT('',{})", triple(p)))
    }
    pub fn direction(&mut self, d: [f64; 3]) -> u32 {
        self.add(format_args!("DIRECTION('',{})", triple(d)))
    }
    /// A place with its main direction (z) and first cross direction (x).
    pub fn axes(&mut self, at: [f64; 3], z: [f64; 3], x: [f64; 3]) -> u32 {
        let (p, z, x) = (self.point(at), self.direction(z), self.direction(x));
        self.add(format_args!("AXIS2_PLACEMENT_3D('',#{p},#{z},#{x})"))
    }
    pub fn vertex(&mut self, at: [f64; 3]) -> u32 {
        let p = self.point(at);
        self.add(format_args!("VERTEX_POINT('',#{p})"))
    }
    /// An edge along a curve from one vertex to another.
    pub fn edge(&mut self, from: u32, to: u32, curve: u32, along: bool) -> u32 {
        let sense = flag(along);
        self.add(format_args!("EDGE_CURVE('',#{from},#{to},#{curve},{sense})"))
    }
    /// A straight curve through `at` along `d` (a unit vector).
    pub fn line(&mut self, at: [f64; 3], d: [f64; 3]) -> u32 {
        let (p, d) = (self.point(at), self.direction(d));
        let v = self.add(format_args!("VECTOR('',#{d},1.)"));
        self.add(format_args!("LINE('',#{p},#{v})"))
    }
    pub fn circle(&mut self, axes: u32, radius: f64) -> u32 {
        self.add(format_args!("CIRCLE('',#{axes},{})", plain(radius)))
    }
    /// A closed loop of edges, each with its sense.
    pub fn loop_of(&mut self, edges: &[(u32, bool)]) -> u32 {
        let oriented: Vec<u32> = edges
            .iter()
            .map(|(edge, along)| self.add(format_args!("ORIENTED_EDGE('',*,*,#{edge},{})", flag(*along))))
            .collect();
        self.add(format_args!("EDGE_LOOP('',({}))", list(&oriented)))
    }
    /// A face; the first loop is the outer one.
    pub fn face(&mut self, surface: u32, along: bool, loops: &[u32]) -> u32 {
        let bound = |w: &mut Self, (k, l): (usize, &u32)| {
            let kind = if k == 0 { "FACE_OUTER_BOUND" } else { "FACE_BOUND" };
            w.add(format_args!("{kind}('',#{l},.T.)"))
        };
        let bounds: Vec<u32> = loops.iter().enumerate().map(|l| bound(self, l)).collect();
        self.add(format_args!("ADVANCED_FACE('',({}),#{surface},{})", list(&bounds), flag(along)))
    }
    /// The whole file.
    pub fn finish(self, name: &str) -> Vec<u8> {
        // No time, no author: the same part gives the same bytes, whoever writes it and whenever. Part 21 lets both be empty.
        let head = format!(
            "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((''),'2;1');\n\
             FILE_NAME({name},'',(''),(''),'','setdown','');\n\
             FILE_SCHEMA(('AUTOMOTIVE_DESIGN {{ 1 0 10303 214 1 1 1 1 }}'));\nENDSEC;\nDATA;\n"
        );
        (head + &self.data + "ENDSEC;\nEND-ISO-10303-21;\n").into_bytes()
    }
}

pub(super) fn flag(yes: bool) -> &'static str {
    if yes { ".T." } else { ".F." }
}

/// `#1,#2,#3`
pub(super) fn list(records: &[u32]) -> String {
    records.iter().map(|r| format!("#{r}")).collect::<Vec<_>>().join(",")
}

pub(super) fn triple([x, y, z]: [f64; 3]) -> String {
    format!("({},{},{})", plain(x), plain(y), plain(z))
}

/// A quoted string: apostrophe and backslash doubled, everything beyond ASCII as `\X2\`…`\X0\`.
pub(super) fn text(raw: &str) -> String {
    let mut out = String::from("'");
    for c in raw.chars() {
        match c {
            '\'' => out.push_str("''"),
            '\\' => out.push_str("\\\\"),
            ' '..='~' => out.push(c),
            _ if c.is_control() => {}
            _ => {
                let units: String = c.encode_utf16(&mut [0; 2]).iter().map(|u| format!("{u:04X}")).collect();
                out.push_str(&format!("\\X2\\{units}\\X0\\"));
            }
        }
    }
    out + "'"
}

#[cfg(test)]
mod tests {
    /// ISO 10303-21:2002 clause 6.4.3 (string control directives, from memory).
    #[test]
    fn strings() {
        assert_eq!(super::text("cone 'A'"), "'cone ''A'''");
        assert_eq!(super::text("Hülse"), "'H\\X2\\00FC\\X0\\lse'");
    }
}
