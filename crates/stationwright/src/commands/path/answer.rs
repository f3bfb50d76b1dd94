//! What a path answers, and how it is refused.

use crate::language;
use propagation::p1812::Polarisation;
use serde_json::{Map, Value, json};
use words::{Message, said};

/// A computed path: figures by stable names, in the order they are printed.
pub struct Answer {
    /// Method.
    pub model: &'static str,
    /// The file's own name for the case, if it has one.
    pub id: Option<String>,
    /// Main figures: name in JSON, words, value, unit, decimals.
    pub figures: Vec<Figure>,
    /// Further members of the JSON object.
    pub members: Vec<(&'static str, Value)>,
    /// Warnings.
    pub warnings: Vec<Message>,
    /// Intermediates by the method's own names.
    pub intermediates: Map<String, Value>,
}

/// One figure.
pub struct Figure {
    /// Name in JSON.
    pub name: &'static str,
    /// Code of its words on the terminal.
    pub words: &'static str,
    /// Value.
    pub value: f64,
    /// Unit.
    pub unit: &'static str,
}

impl Answer {
    /// Everything as one JSON object.
    pub fn to_json(&self) -> Value {
        let mut object = Map::new();
        object.insert("model".into(), json!(self.model));
        if let Some(id) = &self.id {
            object.insert("id".into(), json!(id));
        }
        for figure in &self.figures {
            object.insert(figure.name.into(), json!(figure.value));
        }
        for (name, value) in &self.members {
            object.insert((*name).into(), value.clone());
        }
        object.insert(
            "warning_texts".into(),
            json!(self.warnings.iter().map(words).collect::<Vec<_>>()),
        );
        object.insert("intermediates".into(), Value::Object(self.intermediates.clone()));
        Value::Object(object)
    }

    /// The main figures, one a line.
    pub fn to_text(&self) -> String {
        let named: Vec<_> = self
            .figures
            .iter()
            .map(|f| (words(&Message::new(f.words)), f))
            .collect();
        let width = named
            .iter()
            .map(|(name, _)| name.chars().count())
            .max()
            .unwrap_or(0);
        named
            .iter()
            .map(|(name, f)| {
                let value = language::row(&format!("{:>8.2}", f.value));
                format!("{name:width$}  {value} {}\n", f.unit)
            })
            .collect()
    }
}

/// The terminal's words.
pub fn words(message: &Message) -> String {
    said(message, language::here())
}

/// Why a file is refused.
pub struct Refusal {
    /// The reason, with the way to mend it.
    pub reason: Message,
    /// The method's own code and warnings, where it has them.
    pub code: Option<(u16, u16)>,
}

impl Refusal {
    /// A refusal of ours.
    pub fn because(reason: impl Into<Message>) -> Self {
        Self {
            reason: reason.into(),
            code: None,
        }
    }

    /// A file that does not have the expected shape.
    pub fn json(fault: serde_json::Error) -> Self {
        Self::because(Message::new("path-no-file").message("why", Message::foreign(fault)))
    }

    /// The refusal as a JSON object.
    pub fn to_json(&self) -> Value {
        let mut object = Map::new();
        object.insert("error".into(), json!(words(&self.reason)));
        if let Some((code, warnings)) = self.code {
            object.insert("code".into(), json!(code));
            object.insert("warnings".into(), json!(warnings));
            object.insert("a_db".into(), Value::Null);
        }
        Value::Object(object)
    }
}

/// Reads `h` or `v`.
pub fn polarisation(text: &str) -> Option<Polarisation> {
    match text {
        "h" => Some(Polarisation::Horizontal),
        "v" => Some(Polarisation::Vertical),
        _ => None,
    }
}

/// Refuses an ERP that is not above 0.
pub fn check_erp(erp_kw: f64) -> Result<(), Refusal> {
    if erp_kw > 0.0 && erp_kw.is_finite() {
        return Ok(());
    }
    Err(Refusal::because(Message::new("path-erp").given("erp", erp_kw)))
}
