//! A finding: something about the station that its engineer must know, and what would mend it.

use crate::figure::{Stage, Value};
use serde::Serialize;
use station::{Edit, Mark};
use words::Message;

/// A result of a check.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Finding {
    /// Two letters of its subject and two digits, such as `TX 03`.
    pub code: &'static str,
    /// How bad it is.
    pub severity: Severity,
    /// The stage of the air chain it belongs to.
    pub stage: Stage,
    /// Tag of what it is about, such as `TX1`; empty when it is about the whole.
    pub tag: String,
    /// What, where, how much.
    pub says: Message,
    /// What would mend it, best first.
    pub remedies: Vec<Remedy>,
    /// Source and clause, as the code of a message: `clause-practice`.
    pub clause: &'static str,
    /// How good the source is.
    pub mark: Mark,
    /// Figures it rests on, by id.
    pub figures: Vec<String>,
    /// People it touches, for ordering.
    pub people: f64,
}

/// How bad a finding is, worst first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, utoipa::ToSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// The station must not be built like this.
    Error,
    /// It can be, but somebody will regret it.
    Warning,
    /// People can be hurt: shown always, never dismissed.
    Caution,
    /// Worth knowing.
    Note,
}

/// Edits that mend a finding.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Remedy {
    /// What it does, as a verb with an object.
    pub does: Message,
    /// The edits.
    pub edits: Vec<Edit>,
    /// What it changes, once weighed.
    pub effect: Option<Effect>,
}

/// What a remedy changes.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Effect {
    /// Change of the sell price.
    pub price: Option<Value>,
    /// By how much the whole then costs more than the budget, where it does and the remedy costs something.
    pub over_budget: Option<Value>,
    /// Change of people served.
    pub people: Option<Value>,
    /// The finding is gone.
    pub mends: bool,
}

impl Remedy {
    /// A remedy not weighed yet.
    pub fn new(does: Message, edits: Vec<Edit>) -> Remedy {
        Remedy {
            does,
            edits,
            effect: None,
        }
    }
}

/// What a rule or a check rests on, as a message: ours in every language, a standard and its clause as it is written.
pub fn clause_message(clause: &str) -> Message {
    match clause.strip_prefix("clause-") {
        Some(_) => Message::new(clause.to_owned()),
        None => Message::foreign(clause),
    }
}

/// What is fixed about a rule: its code, its worst severity, its clause.
#[derive(Debug)]
pub struct Rule {
    /// Code, such as `TX 03`.
    pub code: &'static str,
    /// Severity.
    pub severity: Severity,
    /// Source and clause, as the code of a message: `clause-practice`.
    pub clause: &'static str,
    /// How good the source is.
    pub mark: Mark,
    /// Looks for it.
    pub check: fn(&crate::rules::Look, &Rule) -> Vec<Finding>,
}

impl Rule {
    /// A finding of this rule.
    pub fn finding(&self, stage: Stage, tag: impl Into<String>, says: Message) -> Finding {
        Finding {
            code: self.code,
            severity: self.severity,
            stage,
            tag: tag.into(),
            says,
            remedies: Vec::new(),
            clause: self.clause,
            mark: self.mark,
            figures: Vec::new(),
            people: 0.0,
        }
    }
}

impl Finding {
    /// Adds a remedy.
    pub fn remedy(mut self, remedy: Remedy) -> Finding {
        self.remedies.push(remedy);
        self
    }
    /// Adds a remedy where there is one.
    pub fn remedy_if(mut self, remedy: Option<Remedy>) -> Finding {
        self.remedies.extend(remedy);
        self
    }
    /// It rests on what the brief asks for, not on law, safety or the supply.
    pub fn is_of_the_brief(&self) -> bool {
        self.clause == "clause-brief"
    }
    /// Names a figure it rests on.
    pub fn rests_on(mut self, id: impl Into<String>) -> Finding {
        self.figures.push(id.into());
        self
    }
    /// Says how many people it touches.
    pub fn touches(mut self, people: f64) -> Finding {
        self.people = people;
        self
    }
}
