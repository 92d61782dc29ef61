//! The bar that a person sees while long work is going on.

use std::io::{self, IsTerminal};
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant};

/// A progress bar that appears only when a person watches and the work takes longer than a second. It counts parts, and
/// within a part that takes long its share, so that a single one moves it too.
pub struct Progress {
    bar: Option<indicatif::ProgressBar>,
    begun: Instant,
    done: AtomicU64,
}

/// Steps of the bar for one part.
const FINE: u64 = 1000;

impl Progress {
    /// For so many parts.
    pub fn new(parts: usize) -> Self {
        let bar = io::stderr().is_terminal().then(|| {
            let hidden = indicatif::ProgressDrawTarget::hidden();
            let bar = indicatif::ProgressBar::with_draw_target(Some(parts as u64 * FINE), hidden);
            // Steps say nothing to a person; should the fixed template ever be wrong, the usual bar does as well.
            match indicatif::ProgressStyle::with_template("{wide_bar} {percent} %  {msg:24!}") {
                Ok(style) => bar.with_style(style),
                Err(_) => bar,
            }
        });
        Self { bar, begun: Instant::now(), done: AtomicU64::new(0) }
    }

    /// One more part is done.
    pub fn step(&self) {
        self.show(self.done.fetch_add(FINE, Ordering::Relaxed) + FINE);
    }

    /// That part is being worked now.
    pub fn name(&self, part: &str) {
        if let Some(bar) = &self.bar {
            bar.set_message(part.to_string());
        }
    }

    /// A share of one part is done, the others being where they are.
    pub fn within(&self, share: f64) {
        self.show(self.done.load(Ordering::Relaxed) + (share.clamp(0.0, 1.0) * FINE as f64) as u64);
    }

    fn show(&self, position: u64) {
        let Some(bar) = &self.bar else { return };
        // Never backwards: parts are worked side by side.
        bar.set_position(position.max(bar.position()));
        if bar.is_hidden() && self.begun.elapsed() > Duration::from_secs(1) {
            bar.set_draw_target(indicatif::ProgressDrawTarget::stderr());
        }
    }

    /// Takes the bar away.
    pub fn end(&self) {
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
    }
}
