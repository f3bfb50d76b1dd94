//! What a path answers, and how it is refused.

use propagation::p1812::Polarisation;
use serde_json::{Map, Value, json};

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
    /// Warnings in words.
    pub warnings: Vec<&'static str>,
    /// Intermediates by the method's own names.
    pub intermediates: Map<String, Value>,
}

/// One figure.
pub struct Figure {
    /// Name in JSON.
    pub name: &'static str,
    /// Words on the terminal.
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
        object.insert("warning_texts".into(), json!(self.warnings));
        object.insert("intermediates".into(), Value::Object(self.intermediates.clone()));
        Value::Object(object)
    }

    /// The main figures, one a line.
    pub fn to_text(&self) -> String {
        let width = self
            .figures
            .iter()
            .map(|f| f.words.chars().count())
            .max()
            .unwrap_or(0);
        self.figures
            .iter()
            .map(|f| format!("{:width$}  {:>8.2} {}\n", f.words, f.value, f.unit))
            .collect()
    }
}

/// Why a file is refused.
pub struct Refusal {
    /// The reason, with the way to mend it.
    pub reason: String,
    /// The method's own code and warnings, where it has them.
    pub code: Option<(u16, u16)>,
}

impl Refusal {
    /// A refusal of ours.
    pub fn because(reason: String) -> Self {
        Self { reason, code: None }
    }

    /// A file that does not have the expected shape.
    pub fn json(fault: serde_json::Error) -> Self {
        Self::because(format!("not a path file: {fault}"))
    }

    /// The refusal as a JSON object.
    pub fn to_json(&self) -> Value {
        let mut object = Map::new();
        object.insert("error".into(), json!(self.reason));
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
    Err(Refusal::because(format!(
        "`erp_kw` is {erp_kw}: expected a power above 0 kW"
    )))
}
