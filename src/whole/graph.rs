//! The order of work as a graph: every stretch of work at one place, what comes before it in its part, and what it waits for
//! in others.

use super::share::{Share, Stage};

/// A stretch of work of one part.
#[derive(Clone, PartialEq, Debug)]
pub struct Node {
    /// Which of the parts.
    pub part: usize,
    /// The work.
    pub stage: Stage,
    /// So many stretches have to be done one after the other before it.
    pub level: usize,
}

/// One waits for another.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Edge {
    /// What is done first.
    pub from: usize,
    /// What waits.
    pub to: usize,
    /// It is another part that it waits for.
    pub across: bool,
}

/// All of it.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Graph {
    /// The work, part by part.
    pub nodes: Vec<Node>,
    /// What waits for what.
    pub edges: Vec<Edge>,
}

impl Stage {
    /// It is done by others: what is sent away is waited for.
    pub fn is_away(&self) -> bool {
        ["laser cutter", "plater", "galvanizer", "powder coater"].contains(&self.at.as_str())
    }
}

impl Graph {
    /// Of the parts that are made.
    pub fn of(parts: &[&Share]) -> Self {
        let mut graph = Self::default();
        let mut runs: Vec<Vec<usize>> = Vec::new();
        for (part, share) in parts.iter().enumerate() {
            let mut run = Vec::new();
            for stage in &share.stages {
                let to = graph.nodes.len();
                if let Some(from) = run.last() {
                    graph.edges.push(Edge { from: *from, to, across: false });
                }
                graph.nodes.push(Node { part, stage: stage.clone(), level: 0 });
                run.push(to);
            }
            runs.push(run);
        }
        for (share, run) in parts.iter().zip(&runs) {
            for (waited, at) in &share.waits {
                let other = parts.iter().position(|p| p.part == *waited).and_then(|i| runs.get(i));
                let from = other.and_then(|of| graph.awaited(of));
                let there = |to: &&usize| at.as_ref().is_none_or(|at| graph.at(**to) == Some(at.as_str()));
                if let (Some(from), Some(to)) = (from, run.iter().find(there).or(run.first())) {
                    graph.edges.push(Edge { from, to: *to, across: true });
                }
            }
        }
        for (share, run) in parts.iter().zip(&runs) {
            for seat in &share.seats {
                let other = parts.iter().position(|p| p.part == seat.part).and_then(|i| runs.get(i));
                other.into_iter().for_each(|of| graph.set_out(run, of, seat.on_frame));
            }
        }
        // A cone under several seats is named once.
        for edge in std::mem::take(&mut graph.edges) {
            if !graph.edges.contains(&edge) {
                graph.edges.push(edge);
            }
        }
        graph.level();
        graph
    }

    /// A cone is fixed where the landing has set it out, a cup where it was clamped over its cone; the frame is let down on
    /// what is fixed.
    fn set_out(&mut self, landing: &[usize], seated: &[usize], on_frame: bool) {
        let fixes = |i: &&usize| self.nodes.get(**i).is_some_and(|n| n.stage.fixes);
        let fitted = landing.iter().find(|i| self.at(**i) == Some("frame")).copied();
        let set_out = if on_frame { fitted } else { landing.first().copied() };
        let (Some(from), Some(to)) = (set_out, seated.iter().find(fixes).copied()) else { return };
        // The frame is fitted over cones that stand, with cups that are back from wherever they were sent.
        let ready = if on_frame { seated.iter().take_while(|i| **i != to).last() } else { seated.last() };
        if let (Some(ready), Some(fitted)) = (ready.copied(), fitted) {
            self.edges.push(Edge { from: ready, to: fitted, across: true });
        }
        let (last, down) = (seated.last().copied(), landing.last().copied());
        self.edges.push(Edge { from, to, across: true });
        if let (Some(last), Some(down)) = (last, down.filter(|down| *down != from)) {
            self.edges.push(Edge { from: last, to: down, across: true });
        }
    }

    /// Where a stretch is worked.
    fn at(&self, stretch: usize) -> Option<&str> {
        self.nodes.get(stretch).map(|n| n.stage.at.as_str())
    }

    /// The stretch after which a part is measured: before it is coated or built in; its last where nothing is measured.
    fn awaited(&self, run: &[usize]) -> Option<usize> {
        let made = ["welder", "plater", "galvanizer", "powder coater"];
        let fixes = |i: usize| self.nodes.get(i).is_some_and(|n| n.stage.fixes);
        let before: Vec<usize> = run
            .iter()
            .copied()
            .take_while(|i| self.at(*i).is_some_and(|at| !made.contains(&at)) && !fixes(*i))
            .collect();
        let measures = |i: &&usize| self.nodes.get(**i).is_some_and(|n| n.stage.measures);
        before.iter().rfind(measures).or(before.last()).or(run.last()).copied()
    }

    /// Longest way from a beginning; parts that wait for each other in a circle stop where the circle would go round again.
    fn level(&mut self) {
        for _ in 0..self.nodes.len() {
            let mut moved = false;
            for edge in &self.edges {
                let least = self.nodes.get(edge.from).map_or(0, |n| n.level + 1);
                if let Some(node) = self.nodes.get_mut(edge.to).filter(|n| n.level < least) {
                    node.level = least;
                    moved = true;
                }
            }
            if !moved {
                break;
            }
        }
    }

    /// So many levels.
    pub fn levels(&self) -> usize {
        self.nodes.iter().map(|n| n.level + 1).max().unwrap_or(0)
    }

    /// The stretches of other parts for which one waits.
    pub fn waits(&self, to: usize) -> impl Iterator<Item = &Node> {
        self.edges.iter().filter(move |e| e.across && e.to == to).filter_map(|e| self.nodes.get(e.from))
    }
}
