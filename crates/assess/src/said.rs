//! An assessment put into a language: what every face shows, so that page, papers and terminal say the same.

use crate::figure::Stage;
use crate::finding::Severity;
use serde::Serialize;
use station::Edit;
use utoipa::ToSchema;

/// A whole assessment in words and finished numbers.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Sheet {
    /// The station's name.
    pub name: String,
    /// Everything in it is invented.
    pub invented: bool,
    /// The client.
    pub client: Option<String>,
    /// Revision.
    pub revision: u32,
    /// Day of the revision, written out.
    pub date: Option<String>,
    /// Digest of everything that went in.
    pub digest: String,
    /// ISO 4217 code of its prices.
    pub currency: String,
    /// Language tag.
    pub language: String,
    /// The answer in one sentence.
    pub sentence: Vec<Piece>,
    /// What stands before a signature.
    pub lead: String,
    /// The stages of the chain, then the ground.
    pub stages: Vec<SaidStage>,
    /// The brief, point by point.
    pub points: Vec<SaidPoint>,
    /// Every figure, by place.
    pub figures: Vec<SaidFigure>,
    /// Every finding, worst first.
    pub findings: Vec<SaidFinding>,
    /// The price list without cost prices.
    pub bill: Vec<SaidBillLine>,
    /// What is not in the price.
    pub excluded: Vec<String>,
    /// What was taken to be so.
    pub assumptions: Vec<SaidAssumption>,
    /// Questions to send back.
    pub questions: Vec<String>,
    /// Curves of the drawings.
    pub curves: Vec<SaidCurve>,
}

/// A piece of a sentence: text, or a figure that can be asked how.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Piece {
    /// What it says.
    pub text: String,
    /// The figure behind it, by id.
    pub figure: Option<String>,
}

/// A finished number with its unit.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Shown {
    /// The number, grouped and rounded, sign U+2212; or words.
    pub text: String,
    /// The unit; empty for words and plain counts.
    pub unit: String,
    /// The number behind it, in `unit` before any scaling to kilo; absent for words.
    pub number: Option<f64>,
}

/// One stage of the chain.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct SaidStage {
    /// Which.
    pub stage: Stage,
    /// Its name.
    pub name: String,
    /// Its level.
    pub level: Option<Shown>,
    /// Figure of the level, by id.
    pub level_figure: Option<String>,
    /// Its least margin.
    pub margin: Option<Shown>,
    /// Figure of the margin, by id.
    pub margin_figure: Option<String>,
    /// Worst severity of its findings.
    pub worst: Option<Severity>,
}

/// One point of the brief.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct SaidPoint {
    /// What was asked.
    pub label: String,
    /// How much was asked.
    pub asked: Shown,
    /// The answer.
    pub answered: Shown,
    /// Room in hand.
    pub in_hand: Option<Shown>,
    /// The figure that answers, by id.
    pub figure: String,
    /// Whether it is kept.
    pub kept: bool,
}

/// One figure.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct SaidFigure {
    /// Stable id.
    pub id: String,
    /// Where it belongs.
    pub stage: Stage,
    /// What it is.
    pub label: String,
    /// What it is worth; `not known` with what is missing.
    pub value: Shown,
    /// What is missing, when it is not known.
    pub missing: Option<String>,
    /// Its spread, finished, such as `± 6.3 dB`.
    pub spread: Option<String>,
    /// In hand.
    pub in_hand: Option<Shown>,
    /// Short of what was asked or allowed.
    pub short: bool,
    /// What it is measured against, in words.
    pub against: Option<String>,
    /// The mark's letter.
    pub mark: String,
    /// The mark in plain words.
    pub mark_words: String,
    /// How it came about.
    pub how: How,
}

/// How a figure came about.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct How {
    /// The formula.
    pub formula: String,
    /// Standard and clause.
    pub clause: String,
    /// Where it holds.
    pub validity: String,
    /// The test that witnesses it.
    pub witness: String,
    /// What went in.
    pub inputs: Vec<SaidInput>,
}

/// One input of a figure.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct SaidInput {
    /// `figure`, `stated`, `shelf` or `table`.
    pub kind: String,
    /// Id of the figure, path in the file, or shelf id: what a link leads to.
    pub target: String,
    /// What it is.
    pub label: String,
    /// What it is worth.
    pub value: Shown,
    /// Source, for tables.
    pub source: Option<String>,
    /// The mark's letter.
    pub mark: String,
}

/// One finding.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct SaidFinding {
    /// Code, such as `TX 03`.
    pub code: String,
    /// Key for lists: code and tag.
    pub key: String,
    /// How bad.
    pub severity: Severity,
    /// `Error`, `Warning`, `Caution`, `Note`, in the language.
    pub severity_word: String,
    /// Where it belongs.
    pub stage: Stage,
    /// What it is about, by tag.
    pub tag: String,
    /// What, where, how much.
    pub says: String,
    /// What would mend it.
    pub remedies: Vec<SaidRemedy>,
    /// Source and clause.
    pub clause: String,
    /// The mark's letter.
    pub mark: String,
    /// Figures it rests on, by id.
    pub figures: Vec<String>,
}

/// One remedy.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct SaidRemedy {
    /// What it does.
    pub does: String,
    /// The edits.
    #[schema(value_type = Vec<Object>)]
    pub edits: Vec<Edit>,
    /// Its price and effect in words, once weighed.
    pub effect: Option<String>,
}

/// One line of the price list.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct SaidBillLine {
    /// Stable id.
    pub id: String,
    /// Where in the chain it belongs.
    pub stage: Stage,
    /// Name of that stage.
    pub stage_name: String,
    /// Shelf id.
    pub shelf: String,
    /// What it is.
    pub name: String,
    /// How many.
    pub quantity: Shown,
    /// What the client pays for one.
    pub each: Option<Shown>,
    /// What the client pays for the line.
    pub line: Option<Shown>,
    /// Mass of the line.
    pub mass: Option<Shown>,
    /// Why it was added.
    pub why: Option<String>,
    /// The mark's letter of its price.
    pub mark: String,
}

/// One assumption.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct SaidAssumption {
    /// Where it stands.
    pub path: String,
    /// What it is about.
    pub label: String,
    /// What is taken.
    pub value: String,
    /// The bounds, in words.
    pub between: Option<String>,
    /// Why.
    pub why: String,
    /// What it is worth in field.
    pub field: Option<Shown>,
    /// What it is worth in people.
    pub people: Option<Shown>,
    /// What it is worth in money.
    pub money: Option<Shown>,
    /// The mark's letter.
    pub mark: String,
}

/// One curve.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct SaidCurve {
    /// Stable id.
    pub id: String,
    /// What runs along.
    pub along: String,
    /// Unit along.
    pub along_unit: String,
    /// What is plotted.
    pub of: String,
    /// Unit of it.
    pub unit: String,
    /// Points, along then value.
    #[schema(value_type = Vec<Vec<f64>>)]
    pub points: Vec<(f64, f64)>,
}
