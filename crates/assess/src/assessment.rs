//! Every figure and finding of one station.

use crate::figure::{Figure, Stage, Value};
use crate::finding::Finding;
use serde::Serialize;
use station::Mark;
use station::assumptions::Assumption;
use words::Message;

/// The whole proof of one station, before it is put into a language.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Assessment {
    /// What it is about.
    pub head: Head,
    /// One sentence: who hears it, what it costs, what it keeps.
    pub sentence: Message,
    /// What stands before a signature.
    pub lead: Message,
    /// The nine stages of the air chain, and the ground.
    pub stages: Vec<StageLine>,
    /// The brief, point by point.
    pub points: Vec<Point>,
    /// Every figure.
    pub figures: Vec<Figure>,
    /// Every finding, worst first.
    pub findings: Vec<Finding>,
    /// The price list, line by line.
    pub bill: Vec<BillLine>,
    /// What is not in the price.
    pub excluded: Vec<Message>,
    /// What was taken to be so, worst first.
    pub assumptions: Vec<RankedAssumption>,
    /// Questions to send back to the client.
    pub questions: Vec<Message>,
    /// Curves and profiles that drawings show.
    pub curves: Vec<Curve>,
}

/// What an assessment is about.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Head {
    /// The station's name.
    pub name: String,
    /// Everything in it is invented.
    pub invented: bool,
    /// The client.
    pub client: Option<String>,
    /// Revision.
    pub revision: u32,
    /// Day of the revision, ISO 8601.
    pub date: Option<String>,
    /// Digest of everything that went in.
    pub digest: String,
    /// ISO 4217 code of its prices.
    pub currency: String,
    /// Language of its papers.
    pub language: String,
}

/// One stage of the chain as the strip shows it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StageLine {
    /// The stage.
    pub stage: Stage,
    /// Figure that is its level, by id.
    pub level: Option<String>,
    /// Figure whose margin is its least, by id.
    pub margin: Option<String>,
}

/// One point of the brief and how it is answered.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Point {
    /// What was asked.
    pub label: Message,
    /// How much was asked.
    pub asked: Value,
    /// The figure that answers, by id.
    pub figure: String,
    /// Room in hand; negative is short.
    pub in_hand: Option<Value>,
    /// Whether it is kept.
    pub kept: bool,
}

/// One line of the price list.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BillLine {
    /// Stable id: the item's tag, or the shelf id with what it belongs to.
    pub id: String,
    /// Where in the chain it belongs.
    pub stage: Stage,
    /// Shelf id.
    pub shelf: String,
    /// What it is.
    pub name: String,
    /// How many, metres, days.
    pub quantity: f64,
    /// By what it is counted.
    pub per: Message,
    /// What the client pays for one; `None` when it has no price.
    pub each: Option<quantity::Money>,
    /// What the client pays for the line.
    pub line: Option<quantity::Money>,
    /// What the line costs the builder. For the builder's eyes: no client's paper holds it.
    pub cost: Option<quantity::Money>,
    /// Mass of the line, packed where known, kg.
    pub mass_kg: Option<f64>,
    /// Why it is here, when it was added by rule.
    pub why: Option<Message>,
    /// How good its price is.
    pub mark: Mark,
}

/// An assumption and what it is worth.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RankedAssumption {
    /// The assumption.
    pub assumption: Assumption,
    /// Change of the worst wanted field from low to high, dB.
    pub field_db: Option<f64>,
    /// Change of people served from low to high.
    pub people: Option<f64>,
    /// Change of the price from low to high.
    pub money: Option<f64>,
}

/// A curve of a drawing.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Curve {
    /// Stable id, such as `antenna.ANT1.horizon`.
    pub id: String,
    /// What runs along.
    pub along: Message,
    /// Unit along.
    pub along_unit: &'static str,
    /// What is plotted.
    pub of: Message,
    /// Unit of it.
    pub unit: &'static str,
    /// Points.
    pub points: Vec<(f64, f64)>,
}

/// What the builder pays and earns: for the builder's eyes, no client's paper holds it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Costs {
    /// Line by line, in the bill's order.
    pub lines: Vec<LineCost>,
    /// What the lines with a known cost come to.
    pub cost: Option<quantity::Money>,
    /// What is earned on them.
    pub earned: Option<quantity::Money>,
}

/// What one line of the bill costs the builder.
#[derive(Debug, Clone, PartialEq)]
pub struct LineCost {
    /// The line, by its id.
    pub id: String,
    /// Its cost price; `None` when no supplier has named one.
    pub cost: Option<quantity::Money>,
    /// Its price less its cost.
    pub earned: Option<quantity::Money>,
}

impl Assessment {
    /// What the builder pays and earns on every line, and in all.
    pub fn costs(&self) -> Costs {
        let lines: Vec<_> = self
            .bill
            .iter()
            .map(|line| LineCost {
                id: line.id.clone(),
                cost: line.cost,
                earned: line
                    .line
                    .zip(line.cost)
                    .and_then(|(price, cost)| price.checked_sub(cost)),
            })
            .collect();
        let sum = |of: fn(&LineCost) -> Option<quantity::Money>| {
            lines
                .iter()
                .filter_map(of)
                .reduce(|a, b| a.checked_add(b).unwrap_or(a))
        };
        Costs {
            cost: sum(|l| l.cost),
            earned: sum(|l| l.earned),
            lines,
        }
    }
    /// The figure with an id.
    pub fn figure(&self, id: &str) -> Option<&Figure> {
        self.figures.iter().find(|f| f.id == id)
    }
    /// Whether any finding is an error.
    pub fn has_errors(&self) -> bool {
        self.findings
            .iter()
            .any(|f| f.severity == crate::finding::Severity::Error)
    }
}
