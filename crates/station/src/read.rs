//! From a document to the model: every complaint at once, each with its place.

use crate::document::{Entry, Node, Span, Value};
use words::{Arg, Message};

/// One complaint about a station file.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Fault {
    /// Where in the text.
    pub span: Span,
    /// The dotted path, such as `antennas.ANT1.height`.
    pub path: String,
    /// What is wrong, the offending text in backticks.
    pub what: Message,
    /// How to mend it, where that is known.
    pub help: Option<Message>,
}

/// The complaint with the path of its key, where there is no text to have lines and columns.
impl From<&Fault> for Message {
    fn from(fault: &Fault) -> Self {
        complaint(&fault.path, fault.what.clone(), fault.help.as_ref())
    }
}

/// A complaint said with where it stands and, where that is known, how to mend it.
pub fn complaint(place: &str, what: Message, help: Option<&Message>) -> Message {
    let says = match help {
        Some(help) => Message::new("file-fault-help").message("help", help.clone()),
        None => Message::new("file-fault"),
    };
    says.text("place", place).message("what", what)
}

/// The complaints of one reading, in the order they were met.
#[derive(Debug, Default)]
pub struct Faults(pub Vec<Fault>);

impl Faults {
    /// Adds a complaint.
    pub fn add(&mut self, span: Span, path: &str, what: Message, help: Option<Message>) {
        self.0.push(Fault {
            span,
            path: path.to_owned(),
            what,
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

/// "Did you mean `x`?", as help.
pub fn did_you_mean(near: &str) -> Message {
    Message::new("file-did-you-mean").text("near", near)
}

/// Several names, all of them.
pub(crate) fn all(names: &[&str]) -> Arg {
    Arg::All(names.iter().map(|n| (*n).to_owned()).collect())
}

/// What was found where something else was expected.
fn found(code: &'static str, node: &Node) -> Message {
    Message::new(code).tag("found", node.kind())
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
                faults.add(node.span, path, found("file-section-expected", node), None);
                None
            }
        }
    }

    /// Reads the field `key`.
    pub fn field<T: FromNode>(&self, key: &str, faults: &mut Faults) -> Option<T> {
        match self.entries.iter().find(|e| e.key == key) {
            Some(entry) => T::from_node(&entry.node, &join(self.path, key), faults),
            None => T::absent().or_else(|| {
                let what = match self.path {
                    "" => Message::new("file-key-missing-at-top"),
                    section => Message::new("file-key-missing").text("section", section),
                };
                faults.add(self.span, &join(self.path, key), what.text("key", key), None);
                None
            }),
        }
    }

    /// Complains about the keys that nobody asked for.
    pub fn close(self, known: &[&str], faults: &mut Faults) {
        for entry in self.entries.iter().filter(|e| !known.contains(&e.key.as_str())) {
            let help = match nearest(&entry.key, known) {
                Some(near) => did_you_mean(near),
                None => Message::new("file-known-are").with("known", all(known)),
            };
            let what = Message::new("file-key-unknown").text("key", &*entry.key);
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
            faults.add(node.span, path, found("file-list-expected", node), None);
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
                let what = Message::new("file-tag-taken").text("tag", tag);
                let help = Message::new("file-tag-taken-help");
                faults.add(item.span, &join(path, tag), what, Some(help));
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
                faults.add(node.span, path, found("file-text-expected", node), None);
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
                faults.add(node.span, path, found("file-truth-expected", node), None);
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
                    let what = Message::new("file-count-range").text("text", i.to_string());
                    faults.add(node.span, path, what, None);
                    None
                }
            },
            _ => {
                faults.add(node.span, path, found("file-whole-expected", node), None);
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
                faults.add(node.span, path, found("file-number-expected", node), None);
                return None;
            }
        };
        if !number.is_finite() {
            let what = Message::new("file-finite-expected").text("text", number.to_string());
            faults.add(node.span, path, what, None);
            return None;
        }
        Some(number)
    }
}

/// Reads a type from its text, complaining with the error's own message. A bare number is read as its text, so that
/// the complaint names the unit that was expected.
pub fn from_text<T>(node: &Node, path: &str, faults: &mut Faults) -> Option<T>
where
    T: std::str::FromStr,
    for<'e> Message: From<&'e T::Err>,
{
    let text = match &node.value {
        Value::Text(text) | Value::Date(text) => text.clone(),
        Value::Integer(_) | Value::Float(_) => node.to_json().to_string(),
        _ => {
            faults.add(node.span, path, found("file-amount-expected", node), None);
            return None;
        }
    };
    match text.parse::<T>() {
        Ok(value) => Some(value),
        Err(error) => {
            faults.add(node.span, path, Message::from(&error), None);
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
                let choices = [$($word),*];
                let text = <String as $crate::read::FromNode>::from_node(node, path, faults)?;
                let found = $name::ALL.iter().find(|v| v.word() == text).copied();
                if found.is_none() {
                    let help = $crate::read::nearest(&text, &choices).map($crate::read::did_you_mean);
                    let what = words::Message::new("file-word-expected")
                        .text("text", text)
                        .with("words", words::Arg::Choices(choices.map(|w| format!("`{w}`")).to_vec()));
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
