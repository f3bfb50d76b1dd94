//! A station file as a tree of values that remember where they stood in the text.
//!
//! The tree is neutral: it knows neither TOML nor the model. `folder` makes it from a file; [`crate::edit`] changes
//! it; [`crate::read`] turns it into a [`crate::Station`].

use serde_json::{Map, Value as Json};

/// Byte range in the text a node was read from; empty for nodes that were never text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, serde::Serialize)]
pub struct Span {
    /// First byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
}

/// One value and where it stood.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    /// Where it stood.
    pub span: Span,
    /// What it holds.
    pub value: Value,
}

/// What a node holds.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// Text, quantities included.
    Text(String),
    /// A whole number.
    Integer(i64),
    /// A number with a fraction.
    Float(f64),
    /// True or false.
    Bool(bool),
    /// A date as ISO 8601 text, written without quotes.
    Date(String),
    /// Items in order.
    List(Vec<Node>),
    /// Keys in the order they were written.
    Table(Vec<Entry>),
}

/// One key with its value.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// The key.
    pub key: String,
    /// Where the key stood.
    pub key_span: Span,
    /// Its value.
    pub node: Node,
}

impl Node {
    /// An empty table that stood nowhere.
    pub fn empty_table() -> Node {
        Node {
            span: Span::default(),
            value: Value::Table(Vec::new()),
        }
    }

    /// A node without a place, from JSON. Nulls inside tables are left out; a bare null becomes an empty text.
    pub fn from_json(json: &Json) -> Node {
        let value = match json {
            Json::Null => Value::Text(String::new()),
            Json::Bool(b) => Value::Bool(*b),
            Json::Number(n) => match n.as_i64() {
                Some(i) => Value::Integer(i),
                None => Value::Float(n.as_f64().unwrap_or(0.0)),
            },
            Json::String(s) => Value::Text(s.clone()),
            Json::Array(items) => Value::List(items.iter().map(Node::from_json).collect()),
            Json::Object(map) => Value::Table(
                map.iter()
                    .filter(|(_, v)| !v.is_null())
                    .map(|(k, v)| Entry {
                        key: k.clone(),
                        key_span: Span::default(),
                        node: Node::from_json(v),
                    })
                    .collect(),
            ),
        };
        Node {
            span: Span::default(),
            value,
        }
    }

    /// The same value as JSON, places dropped.
    pub fn to_json(&self) -> Json {
        match &self.value {
            Value::Text(s) | Value::Date(s) => Json::String(s.clone()),
            Value::Integer(i) => Json::from(*i),
            Value::Float(f) => Json::from(*f),
            Value::Bool(b) => Json::Bool(*b),
            Value::List(items) => Json::Array(items.iter().map(Node::to_json).collect()),
            Value::Table(entries) => Json::Object(
                entries
                    .iter()
                    .map(|e| (e.key.clone(), e.node.to_json()))
                    .collect::<Map<_, _>>(),
            ),
        }
    }

    /// What kind of value this is: a tag for messages.
    pub fn kind(&self) -> &'static str {
        match self.value {
            Value::Text(_) => "text",
            Value::Integer(_) => "whole",
            Value::Float(_) => "number",
            Value::Bool(_) => "truth",
            Value::Date(_) => "date",
            Value::List(_) => "list",
            Value::Table(_) => "table",
        }
    }

    /// The entry under `key`, when this is a table that has it.
    pub fn get(&self, key: &str) -> Option<&Node> {
        match &self.value {
            Value::Table(entries) => entries.iter().find(|e| e.key == key).map(|e| &e.node),
            _ => None,
        }
    }

    /// The node under a dotted path; list items go by their `tag`, or by position where they have none.
    pub fn at(&self, path: &str) -> Option<&Node> {
        let mut node = self;
        for step in path.split('.') {
            node = match &node.value {
                Value::Table(_) => node.get(step)?,
                Value::List(items) => &items[position_in_list(items, step)?],
                _ => return None,
            };
        }
        Some(node)
    }
}

/// Where in a list the item named by `step` stands: by tag first, then by number from 0.
pub fn position_in_list(items: &[Node], step: &str) -> Option<usize> {
    items
        .iter()
        .position(|n| matches!(n.get("tag").map(|t| &t.value), Some(Value::Text(t)) if t == step))
        .or_else(|| step.parse::<usize>().ok().filter(|i| *i < items.len()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn items_are_found_by_tag_and_by_number() {
        let doc = Node::from_json(
            &serde_json::json!({"items": [{"tag": "TX1", "place": "SHED"}, {"tag": "SP1"}], "mask": [1, 2]}),
        );
        assert_eq!(doc.at("items.TX1.place").map(Node::to_json), Some("SHED".into()));
        assert_eq!(doc.at("mask.1").map(Node::to_json), Some(2.into()));
        assert!(doc.at("items.TX9").is_none());
        assert!(doc.at("mask.2").is_none());
    }
}
