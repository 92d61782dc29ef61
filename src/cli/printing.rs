//! Paper and projection of the sheets: `make` draws on it, `check` judges on it, and the shop's file says which is usual.

use clap::Args;

use crate::sheet::content::Style;
use crate::sheet::scale::Paper;
use crate::sheet::symbols::Projection;
use crate::shop::Shop;

/// Options of every command that lays out sheets.
#[derive(Args, Clone, Copy, Default)]
pub struct Printing {
    /// Paper of the drawing sheets: A4 or letter; else that of shop.toml, or A4
    #[arg(long, value_parser = paper)]
    pub paper: Option<Paper>,
    /// Views and their symbol in first or third angle; else that of shop.toml, or first
    #[arg(long, value_parser = projection)]
    pub projection: Option<Projection>,
}

impl Printing {
    /// As asked for, else as the shop has it.
    pub fn style(self, shop: &Shop) -> Style {
        Style {
            paper: self.paper.or_else(|| paper(shop.paper).ok()).unwrap_or_default(),
            projection: self.projection.or_else(|| projection(shop.projection).ok()).unwrap_or_default(),
            owner: shop.owner.clone(),
            date: shop.drawing_date.clone(),
            ..Style::default()
        }
    }
}

fn paper(text: &str) -> Result<Paper, String> {
    match text.to_ascii_lowercase().as_str() {
        "a4" => Ok(Paper::A4),
        "letter" => Ok(Paper::Letter),
        _ => Err("A4 or letter".into()),
    }
}

fn projection(text: &str) -> Result<Projection, String> {
    match text {
        "first" => Ok(Projection::First),
        "third" => Ok(Projection::Third),
        _ => Err("first or third".into()),
    }
}
