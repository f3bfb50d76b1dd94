//! From a document to the model: every complaint at once, each with its place.

use crate::document::{Entry, Node, Span, Value};

/// One complaint about a station file.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Fault {
    /// Where in the text.
    pub span: Span,
    /// The dotted path, such as `antennas.ANT1.height`.
    pub path: String,
    /// What is wrong, in one sentence, the offending text in backticks.
    pub what: String,
    /// How to mend it, where that is known.
    pub help: Option<String>,
}

/// The complaints of one reading, in the order they were met.
#[derive(Debug, Default)]
pub struct Faults(pub Vec<Fault>);

impl Faults {
    /// Adds a complaint.
    pub fn add(&mut self, span: Span, path: &str, what: impl Into<String>, help: Option<String>) {
        self.0.push(Fault {
            span,
            path: path.to_owned(),
            what: what.into(),
            help,
        });
    }
}

/// Something that can be read from a node.
pub trait FromNode: Sized {
    /// Reads it; `None` when it could not be, with the reason among `faults`.
    fn from_node(node: &Node, path: &str, faults: &mut Faults) -> Option<Self>;

    /// What an absent key means; `None` when the key must be there.
    fn absent() -> Option<Self> {
        None
    }
}

/// Names of keys and words, for proposing the one that was meant.
pub fn nearest<'a>(word: &str, known: &[&'a str]) -> Option<&'a str> {
    let plain = word.to_lowercase().replace('-', "_");
    known
        .iter()
        .map(|k| (strsim::damerau_levenshtein(&plain, &k.to_lowercase()), *k))
        .min()
        .filter(|(distance, k)| *distance <= (k.len() / 3).max(2))
        .map(|(_, k)| k)
}

/// Reads one table, ticking off the keys it is asked for.
pub struct TableReader<'a> {
    entries: &'a [Entry],
    span: Span,
    path: &'a str,
}

impl<'a> TableReader<'a> {
    /// Opens a node as a table; a complaint and `None` when it is none.
    pub fn open(node: &'a Node, path: &'a str, faults: &mut Faults) -> Option<Self> {
        match &node.value {
            Value::Table(entries) => Some(TableReader {
                entries,
                span: node.span,
                path,
            }),
            _ => {
                faults.add(
                    node.span,
                    path,
                    format!("a section was expected here, {} was found", node.kind()),
                    None,
                );
                None
            }
        }
    }

    /// Reads the field `key`.
    pub fn field<T: FromNode>(&self, key: &str, faults: &mut Faults) -> Option<T> {
        match self.entries.iter().find(|e| e.key == key) {
            Some(entry) => T::from_node(&entry.node, &join(self.path, key), faults),
            None => T::absent().or_else(|| {
                let here = if self.path.is_empty() {
                    "the file"
                } else {
                    self.path
                };
                faults.add(
                    self.span,
                    &join(self.path, key),
                    format!("`{key}` is missing in `{here}`"),
                    None,
                );
                None
            }),
        }
    }

    /// Complains about the keys that nobody asked for.
    pub fn close(self, known: &[&str], faults: &mut Faults) {
        for entry in self.entries.iter().filter(|e| !known.contains(&e.key.as_str())) {
            let help = match nearest(&entry.key, known) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("known here are {}", known.join(", ")),
            };
            let what = format!("`{}` is not known here", entry.key);
            faults.add(entry.key_span, &join(self.path, &entry.key), what, Some(help));
        }
    }
}

/// A path with one more step.
pub fn join(path: &str, step: &str) -> String {
    if path.is_empty() {
        step.to_owned()
    } else {
        format!("{path}.{step}")
    }
}

impl<T: FromNode> FromNode for Option<T> {
    fn from_node(node: &Node, path: &str, faults: &mut Faults) -> Option<Self> {
        T::from_node(node, path, faults).map(Some)
    }
    fn absent() -> Option<Self> {
        Some(None)
    }
}

impl<T: FromNode> FromNode for Vec<T> {
    fn from_node(node: &Node, path: &str, faults: &mut Faults) -> Option<Self> {
        let Value::List(items) = &node.value else {
            faults.add(
                node.span,
                path,
                format!("a list was expected here, {} was found", node.kind()),
                None,
            );
            return None;
        };
        let mut seen = std::collections::HashSet::new();
        let mut read = Vec::new();
        let mut whole = true;
        for (i, item) in items.iter().enumerate() {
            let tag = match item.get("tag").map(|t| &t.value) {
                Some(Value::Text(t)) => Some(t.as_str()),
                _ => None,
            };
            if let Some(tag) = tag
                && !seen.insert(tag)
            {
                let help = "each tag stands once in its list; give this one another".to_owned();
                faults.add(
                    item.span,
                    &join(path, tag),
                    format!("the tag `{tag}` is taken"),
                    Some(help),
                );
                whole = false;
            }
            let step = tag.map_or_else(|| i.to_string(), str::to_owned);
            match T::from_node(item, &join(path, &step), faults) {
                Some(item) => read.push(item),
                None => whole = false,
            }
        }
        whole.then_some(read)
    }
    fn absent() -> Option<Self> {
        Some(Vec::new())
    }
}

impl FromNode for String {
    fn from_node(node: &Node, path: &str, faults: &mut Faults) -> Option<Self> {
        match &node.value {
            Value::Text(s) => Some(s.clone()),
            _ => {
                let what = format!("text in quotes was expected, {} was found", node.kind());
                faults.add(node.span, path, what, None);
                None
            }
        }
    }
}

impl FromNode for bool {
    fn from_node(node: &Node, path: &str, faults: &mut Faults) -> Option<Self> {
        match &node.value {
            Value::Bool(b) => Some(*b),
            _ => {
                let what = format!("`true` or `false` was expected, {} was found", node.kind());
                faults.add(node.span, path, what, None);
                None
            }
        }
    }
    fn absent() -> Option<Self> {
        Some(false)
    }
}

impl FromNode for u32 {
    fn from_node(node: &Node, path: &str, faults: &mut Faults) -> Option<Self> {
        match &node.value {
            Value::Integer(i) => match u32::try_from(*i) {
                Ok(n) if n <= 1_000_000_000 => Some(n),
                _ => {
                    let what = format!("`{i}`: a count from 0 to 1,000,000,000 was expected");
                    faults.add(node.span, path, what, None);
                    None
                }
            },
            _ => {
                let what = format!(
                    "a whole number without a unit was expected, {} was found",
                    node.kind()
                );
                faults.add(node.span, path, what, None);
                None
            }
        }
    }
}

impl FromNode for f64 {
    fn from_node(node: &Node, path: &str, faults: &mut Faults) -> Option<Self> {
        let number = match &node.value {
            Value::Integer(i) => *i as f64,
            Value::Float(f) => *f,
            _ => {
                let what = format!("a plain number was expected, {} was found", node.kind());
                faults.add(node.span, path, what, None);
                return None;
            }
        };
        if !number.is_finite() {
            faults.add(
                node.span,
                path,
                format!("`{number}`: a finite number was expected"),
                None,
            );
            return None;
        }
        Some(number)
    }
}

/// Reads a type from its text, complaining with the error's own words. A bare number is read as its text, so that
/// the complaint names the unit that was expected.
pub fn from_text<T>(node: &Node, path: &str, faults: &mut Faults) -> Option<T>
where
    T: std::str::FromStr,
    T::Err: std::fmt::Display,
{
    let text = match &node.value {
        Value::Text(text) | Value::Date(text) => text.clone(),
        Value::Integer(_) | Value::Float(_) => node.to_json().to_string(),
        _ => {
            let what = format!("text with its unit was expected, {} was found", node.kind());
            faults.add(node.span, path, what, None);
            return None;
        }
    };
    match text.parse::<T>() {
        Ok(value) => Some(value),
        Err(error) => {
            faults.add(node.span, path, error.to_string(), None);
            None
        }
    }
}

/// Declares a section of the station file once: the struct, how it is read, and its JSON Schema.
///
/// A section whose every key may be absent may be absent itself.
#[macro_export]
macro_rules! record {
    ($(#[doc = $doc:expr])* pub struct $name:ident { $($(#[doc = $fdoc:expr])* pub $field:ident : $ty:ty),* $(,)? }) => {
        $(#[doc = $doc])*
        #[derive(Debug, Clone, PartialEq, serde::Serialize)]
        pub struct $name { $($(#[doc = $fdoc])* pub $field: $ty),* }

        impl $crate::read::FromNode for $name {
            fn from_node(
                node: &$crate::document::Node,
                path: &str,
                faults: &mut $crate::read::Faults,
            ) -> Option<Self> {
                let table = $crate::read::TableReader::open(node, path, faults)?;
                $(let $field = table.field::<$ty>(stringify!($field), faults);)*
                table.close(&[$(stringify!($field)),*], faults);
                Some($name { $($field: $field?),* })
            }
            fn absent() -> Option<Self> {
                let mut faults = $crate::read::Faults::default();
                Self::from_node(&$crate::document::Node::empty_table(), "", &mut faults)
            }
        }

        impl schemars::JsonSchema for $name {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($name).into()
            }
            fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
                let mut properties = serde_json::Map::new();
                let mut required: Vec<&str> = Vec::new();
                $({
                    let mut inner = generator.subschema_for::<$ty>();
                    inner.insert("description".into(), concat!($($fdoc, "\n"),*).trim().into());
                    properties.insert(stringify!($field).into(), inner.into());
                    if <$ty as $crate::read::FromNode>::absent().is_none() {
                        required.push(stringify!($field));
                    }
                })*
                schemars::json_schema!({
                    "type": "object",
                    "description": concat!($($doc, "\n"),*).trim(),
                    "properties": properties,
                    "required": required,
                    "additionalProperties": false
                })
            }
        }
    };
}

/// Declares a choice of words once: the enum, how it is read and written, and its JSON Schema.
#[macro_export]
macro_rules! choice {
    ($(#[doc = $doc:expr])* pub enum $name:ident { $($(#[doc = $vdoc:expr])* $variant:ident = $word:literal),* $(,)? }) => {
        $(#[doc = $doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($(#[doc = $vdoc])* $variant),* }

        impl $name {
            /// Every choice, in order.
            pub const ALL: &'static [$name] = &[$($name::$variant),*];
            /// The word for it in the file.
            pub fn word(self) -> &'static str {
                match self { $($name::$variant => $word),* }
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                to.serialize_str(self.word())
            }
        }

        impl $crate::read::FromNode for $name {
            fn from_node(
                node: &$crate::document::Node,
                path: &str,
                faults: &mut $crate::read::Faults,
            ) -> Option<Self> {
                let words = [$($word),*];
                let text = <String as $crate::read::FromNode>::from_node(node, path, faults)?;
                let found = $name::ALL.iter().find(|v| v.word() == text).copied();
                if found.is_none() {
                    let help = $crate::read::nearest(&text, &words).map(|near| format!("did you mean `{near}`?"));
                    let what = format!("`{text}`: expected one of {}", words.map(|w| format!("`{w}`")).join(", "));
                    faults.add(node.span, path, what, help);
                }
                found
            }
        }

        impl schemars::JsonSchema for $name {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($name).into()
            }
            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!({
                    "type": "string",
                    "description": concat!($($doc, "\n"),*).trim(),
                    "enum": [$($word),*]
                })
            }
        }
    };
}
