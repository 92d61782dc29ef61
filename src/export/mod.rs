//! Files for machines and for other people's programs, each a pure function from geometry to bytes.
//!
//! None of them knows a part family; none looks at a clock. The same geometry gives the same bytes.

pub mod dxf;
pub mod step;
pub mod stl;
pub mod threemf;

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
