//! Inputs that say how well they are known.

use crate::document::Node;
use crate::read::{Faults, FromNode, TableReader};
use serde::ser::{Serialize, SerializeMap, Serializer};

crate::choice! {
    /// How good a figure is, best first.
    pub enum Mark {
        /// Looked up in its source.
        LookedUp = "looked up",
        /// Computed from a stated formula.
        Computed = "computed",
        /// From memory of its source; to be confirmed.
        Memory = "from memory",
        /// Common practice, no source.
        Practice = "common practice",
        /// Invented for the demo and the shelf.
        Invented = "invented",
    }
}

impl Mark {
    /// The weaker of two marks.
    pub fn weaker(self, other: Mark) -> Mark {
        self.max(other)
    }

    /// The mark's letter.
    pub fn letter(self) -> char {
        match self {
            Mark::LookedUp => 'V',
            Mark::Computed => 'C',
            Mark::Memory => 'M',
            Mark::Practice => 'P',
            Mark::Invented => 'I',
        }
    }
}

/// An input with what is known of it.
///
/// In the file `erp = "500 W"` is stated, `{ assumed = "500 W", low = .., high = .., why = ".." }` is assumed,
/// `{ measured = "480 W", plus_minus = "10 W", on = "2026-05-02" }` is measured. Where a stated value stood in the
/// text is asked of the document by path.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum Known<T> {
    /// Nobody said, and nobody assumed.
    #[default]
    NotKnown,
    /// The file says so.
    Stated(T),
    /// Taken to be so, within bounds, for a reason.
    Assumed(Assumed<T>),
    /// Read from an instrument.
    Measured(Measured<T>),
}

/// An assumed value with its bounds and reason.
#[derive(Debug, Clone, PartialEq)]
pub struct Assumed<T> {
    /// What is taken.
    pub value: T,
    /// The least it may well be.
    pub low: Option<T>,
    /// The most it may well be.
    pub high: Option<T>,
    /// Why.
    pub why: String,
    /// How good the reason is.
    pub mark: Mark,
}

/// A measured value with its doubt and day.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured<T> {
    /// What was read.
    pub value: T,
    /// Doubt to either side, as text with its unit.
    pub plus_minus: Option<String>,
    /// The day, ISO 8601.
    pub on: Option<String>,
}

impl<T> Known<T> {
    /// The value, however known.
    pub fn value(&self) -> Option<&T> {
        match self {
            Known::NotKnown => None,
            Known::Stated(value) => Some(value),
            Known::Assumed(a) => Some(&a.value),
            Known::Measured(m) => Some(&m.value),
        }
    }

    /// The assumption, when it is one.
    pub fn assumption(&self) -> Option<&Assumed<T>> {
        match self {
            Known::Assumed(a) => Some(a),
            _ => None,
        }
    }

    /// Fills a hole with a named assumption; what is known stays.
    pub fn or_assume(&mut self, value: T, low: Option<T>, high: Option<T>, why: &str, mark: Mark) {
        if matches!(self, Known::NotKnown) {
            *self = Known::Assumed(Assumed {
                value,
                low,
                high,
                why: why.to_owned(),
                mark,
            });
        }
    }

    /// How good the input is: stated and measured count as looked up, an assumption by its reason.
    pub fn mark(&self) -> Option<Mark> {
        match self {
            Known::NotKnown => None,
            Known::Stated(_) | Known::Measured(_) => Some(Mark::LookedUp),
            Known::Assumed(a) => Some(a.mark),
        }
    }
}

impl<T: FromNode> FromNode for Known<T> {
    fn from_node(node: &Node, path: &str, faults: &mut Faults) -> Option<Self> {
        if node.get("assumed").is_some() {
            let table = TableReader::open(node, path, faults)?;
            let value = table.field::<T>("assumed", faults);
            let low = table.field::<Option<T>>("low", faults);
            let high = table.field::<Option<T>>("high", faults);
            let why = table.field::<String>("why", faults);
            let mark = table.field::<Option<Mark>>("mark", faults);
            table.close(&["assumed", "low", "high", "why", "mark"], faults);
            let mark = mark?.unwrap_or(Mark::Practice);
            return Some(Known::Assumed(Assumed {
                value: value?,
                low: low?,
                high: high?,
                why: why?,
                mark,
            }));
        }
        if node.get("measured").is_some() {
            let table = TableReader::open(node, path, faults)?;
            let value = table.field::<T>("measured", faults);
            let plus_minus = table.field::<Option<String>>("plus_minus", faults);
            let on = table.field::<Option<String>>("on", faults);
            table.close(&["measured", "plus_minus", "on"], faults);
            return Some(Known::Measured(Measured {
                value: value?,
                plus_minus: plus_minus?,
                on: on?,
            }));
        }
        T::from_node(node, path, faults).map(Known::Stated)
    }
    fn absent() -> Option<Self> {
        Some(Known::NotKnown)
    }
}

impl<T: Serialize> Serialize for Known<T> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        match self {
            Known::NotKnown => to.serialize_none(),
            Known::Stated(value) => value.serialize(to),
            Known::Assumed(a) => {
                let mut map = to.serialize_map(None)?;
                map.serialize_entry("assumed", &a.value)?;
                if let Some(low) = &a.low {
                    map.serialize_entry("low", low)?;
                }
                if let Some(high) = &a.high {
                    map.serialize_entry("high", high)?;
                }
                map.serialize_entry("why", &a.why)?;
                map.serialize_entry("mark", &a.mark)?;
                map.end()
            }
            Known::Measured(m) => {
                let mut map = to.serialize_map(None)?;
                map.serialize_entry("measured", &m.value)?;
                if let Some(plus_minus) = &m.plus_minus {
                    map.serialize_entry("plus_minus", plus_minus)?;
                }
                if let Some(on) = &m.on {
                    map.serialize_entry("on", on)?;
                }
                map.end()
            }
        }
    }
}

impl<T: schemars::JsonSchema> schemars::JsonSchema for Known<T> {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        format!("Known_{}", T::schema_name()).into()
    }
    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let plain = generator.subschema_for::<T>();
        schemars::json_schema!({ "anyOf": [
            plain,
            { "type": "object", "properties": { "assumed": plain, "low": plain, "high": plain,
                "why": { "type": "string" }, "mark": generator.subschema_for::<Mark>() },
              "required": ["assumed", "why"], "additionalProperties": false },
            { "type": "object", "properties": { "measured": plain, "plus_minus": { "type": "string" },
                "on": { "type": "string", "description": "ISO 8601 date" } },
              "required": ["measured"], "additionalProperties": false }
        ]})
    }
}
