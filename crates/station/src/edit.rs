//! The one currency of change.

use crate::document::{Entry, Node, Span, Value, position_in_list};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use words::Message;

/// One change to a station: what stood at a path and what shall stand there.
///
/// The path is the dotted key, list items by tag: `items.TX1.place`. An absent `from` inserts, an absent `to` removes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Edit {
    /// Dotted key from the top of the file.
    pub path: String,
    /// What stands there now; absent when nothing does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<serde_json::Value>,
    /// What shall stand there; absent to remove.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub to: Option<serde_json::Value>,
    /// Places, in their list or section, of the steps of the path that are made or taken away, the outermost first. Empty:
    /// only the last step, and a new one stands at the end. [`Edit::set`] and [`Edit::remove`] fill them in, so that an inverse
    /// puts things back where they were.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(skip)]
    pub at: Vec<usize>,
}

/// Why an edit could not be applied.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum EditError {
    /// The path leads through something that is not there.
    NoSuchPlace {
        /// The whole path.
        path: String,
        /// The step that failed.
        step: String,
    },
    /// What stands there is not what the edit says stood there.
    Moved {
        /// The whole path.
        path: String,
        /// What stands there.
        found: String,
        /// What the edit expected.
        expected: String,
    },
    /// The edit changes nothing: neither `from` nor `to`.
    Empty {
        /// The whole path.
        path: String,
    },
}

impl From<&EditError> for Message {
    fn from(error: &EditError) -> Self {
        match error {
            EditError::NoSuchPlace { path, step } => Message::new("edit-no-such-place")
                .text("path", path)
                .text("step", step),
            EditError::Moved {
                path,
                found,
                expected,
            } => Message::new("edit-moved")
                .text("path", path)
                .text("found", found)
                .text("expected", expected),
            EditError::Empty { path } => Message::new("edit-empty").text("path", path),
        }
    }
}

words::said_in_english!(EditError);

impl Edit {
    /// A change of `path` to `to`, with `from` taken from the document as it stands.
    pub fn set(document: &Node, path: impl Into<String>, to: impl Into<serde_json::Value>) -> Edit {
        let path = at_the_end(document, path.into());
        let from = document.at(&path).map(Node::to_json);
        let at = if from.is_none() {
            places_made(document, &path)
        } else {
            Vec::new()
        };
        Edit {
            path,
            from,
            to: Some(to.into()),
            at,
        }
    }

    /// A removal of what stands at `path`.
    pub fn remove(document: &Node, path: impl Into<String>) -> Edit {
        let path = path.into();
        let from = document.at(&path).map(Node::to_json);
        let at = place_of(document, &path).into_iter().collect();
        Edit {
            path,
            from,
            to: None,
            at,
        }
    }

    /// The edit that takes this one back.
    pub fn inverse(&self) -> Edit {
        Edit {
            path: self.path.clone(),
            from: self.to.clone(),
            to: self.from.clone(),
            at: self.at.clone(),
        }
    }

    /// How many steps of the path are made or taken away.
    fn depth(&self) -> usize {
        self.at.len().max(1)
    }

    /// Applies the edit to a document.
    ///
    /// A new list item takes its tag from the last step of the path.
    ///
    /// # Errors
    /// [`EditError`] when the path leads nowhere or something else stands there; the document is unchanged then.
    pub fn apply(&self, document: &mut Node) -> Result<(), EditError> {
        if self.from.is_none() && self.to.is_none() {
            return Err(EditError::Empty {
                path: self.path.clone(),
            });
        }
        // What goes back into a list by number pushes aside whatever stands there now.
        let found = document
            .at(&self.path)
            .filter(|_| !self.goes_between(document))
            .map(Node::to_json);
        if found != self.from {
            let say = |v: &Option<serde_json::Value>| v.as_ref().map_or("nothing".into(), |v| v.to_string());
            return Err(EditError::Moved {
                path: self.path.clone(),
                found: say(&found),
                expected: say(&self.from),
            });
        }
        let mut steps: Vec<&str> = self.path.split('.').collect();
        if self.to.is_none() {
            // What was made for the sake of the last step goes with it.
            while steps.len() > self.steps_kept(document) {
                steps.pop();
            }
        }
        let between = self.goes_between(document);
        place(document, &steps, self.to.as_ref(), (&self.at, between)).map_err(|step| {
            EditError::NoSuchPlace {
                path: self.path.clone(),
                step,
            }
        })
    }

    /// It puts back an item that its list knows by number only.
    pub fn goes_between(&self, document: &Node) -> bool {
        let (parent, step) = match self.path.rsplit_once('.') {
            Some((parent, step)) => (document.at(parent), step),
            None => (Some(document), self.path.as_str()),
        };
        let Some(Value::List(items)) = parent.map(|node| &node.value) else {
            return false;
        };
        let by_tag = items
            .iter()
            .any(|n| n.get("tag").map(Node::to_json) == Some(step.into()));
        self.from.is_none() && !self.at.is_empty() && !by_tag && step.parse::<usize>().is_ok()
    }

    /// How many steps of a removal's path lead to what is removed: the parents that this edit's inverse made go too, as far as
    /// they hold nothing else.
    pub fn steps_kept(&self, document: &Node) -> usize {
        let steps: Vec<&str> = self.path.split('.').collect();
        let mut kept = steps.len();
        for _ in 1..self.depth() {
            let parent = steps[..kept.saturating_sub(1)].join(".");
            let alone = kept > 1
                && document.at(&parent).is_some_and(|node| match &node.value {
                    Value::Table(entries) => entries.len() == 1,
                    Value::List(items) => items.len() == 1,
                    _ => false,
                });
            if !alone {
                break;
            }
            kept -= 1;
        }
        kept
    }
}

/// A path to a number beyond the end of a list leads to its end: that is where the item will be found again.
fn at_the_end(document: &Node, path: String) -> String {
    let Some((parent, step)) = path.rsplit_once('.') else {
        return path;
    };
    match (document.at(parent).map(|node| &node.value), step.parse::<usize>()) {
        (Some(Value::List(items)), Ok(number))
            if number > items.len() && position_in_list(items, step).is_none() =>
        {
            format!("{parent}.{}", items.len())
        }
        _ => path,
    }
}

/// Place of what stands at a path, in its list or section.
fn place_of(document: &Node, path: &str) -> Option<usize> {
    let (parent, step) = match path.rsplit_once('.') {
        Some((parent, step)) => (document.at(parent)?, step),
        None => (document, path),
    };
    match &parent.value {
        Value::Table(entries) => entries.iter().position(|e| e.key == step),
        Value::List(items) => position_in_list(items, step),
        _ => None,
    }
}

/// Places of the steps that something new at a path would make: the first at the end of what is there, the others alone.
fn places_made(document: &Node, path: &str) -> Vec<usize> {
    let steps: Vec<&str> = path.split('.').collect();
    let there = (0..steps.len()).rev().find_map(|n| match n {
        0 => Some((0, document)),
        _ => document.at(&steps[..n].join(".")).map(|node| (n, node)),
    });
    let Some((known, node)) = there else {
        return Vec::new();
    };
    let end = match &node.value {
        Value::Table(entries) => entries.len(),
        Value::List(items) => items.len(),
        _ => 0,
    };
    std::iter::once(end)
        .chain(std::iter::repeat(0))
        .take(steps.len() - known)
        .collect()
}

/// Walks to the last step and puts, replaces or removes there; what is new stands at the places `at` names, else at the end,
/// and `between` others where they are known by number.
/// `Err` names the step that failed.
fn place(
    node: &mut Node,
    steps: &[&str],
    to: Option<&serde_json::Value>,
    (at, between): (&[usize], bool),
) -> Result<(), String> {
    let (step, rest) = steps.split_first().expect("a path has at least one step");
    let put_at = |len: usize| at.first().copied().unwrap_or(len).min(len);
    match &mut node.value {
        Value::Table(entries) => {
            let found = entries.iter().position(|e| e.key == *step);
            match (found, rest.is_empty(), to) {
                (Some(i), true, Some(to)) => entries[i].node = Node::from_json(to),
                (Some(i), true, None) => drop(entries.remove(i)),
                (None, true, Some(to)) => {
                    entries.insert(put_at(entries.len()), fresh(step, Node::from_json(to)));
                }
                (Some(i), false, _) => return place(&mut entries[i].node, rest, to, (at, between)),
                // A first item of a list, or a first key of a section, makes the list or section.
                (None, false, Some(to)) => {
                    let mut inner = match to {
                        serde_json::Value::Object(_) if rest.len() == 1 => Node {
                            span: Span::default(),
                            value: Value::List(Vec::new()),
                        },
                        _ => Node::empty_table(),
                    };
                    place(
                        &mut inner,
                        rest,
                        Some(to),
                        (at.get(1..).unwrap_or_default(), between),
                    )?;
                    entries.insert(put_at(entries.len()), fresh(step, inner));
                }
                (None, _, None) => return Err((*step).to_owned()),
            }
        }
        Value::List(items) => match (
            position_in_list(items, step).filter(|_| !(between && rest.is_empty())),
            rest.is_empty(),
            to,
        ) {
            (Some(i), true, Some(to)) => {
                items[i] = tagged(step, Node::from_json(to), items[i].get("tag").is_some())
            }
            (Some(i), true, None) => drop(items.remove(i)),
            (None, true, Some(to)) => {
                let by_tag = step.parse::<usize>().is_err();
                items.insert(put_at(items.len()), tagged(step, Node::from_json(to), by_tag));
            }
            (Some(i), false, _) => return place(&mut items[i], rest, to, (at, between)),
            (None, _, _) => return Err((*step).to_owned()),
        },
        _ => return Err((*step).to_owned()),
    }
    Ok(())
}

fn fresh(key: &str, node: Node) -> Entry {
    Entry {
        key: key.to_owned(),
        key_span: Span::default(),
        node,
    }
}

/// Gives a list item the tag its path names, when it is a table without one.
fn tagged(tag: &str, mut node: Node, by_tag: bool) -> Node {
    if let Value::Table(entries) = &mut node.value
        && by_tag
        && !entries.iter().any(|e| e.key == "tag")
    {
        let value = Node {
            span: Span::default(),
            value: Value::Text(tag.to_owned()),
        };
        entries.insert(0, fresh("tag", value));
    }
    node
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn doc() -> Node {
        Node::from_json(&json!({"brief": {"hosts": 1}, "items": [{"tag": "TX1", "place": "SHED"}]}))
    }

    #[test]
    fn an_edit_and_its_inverse_leave_the_document_as_it_was() {
        let edits = [
            Edit {
                path: "items.TX1.place".into(),
                from: Some(json!("SHED")),
                to: Some(json!("HILL")),
                at: Vec::new(),
            },
            Edit {
                path: "items.SP1".into(),
                from: None,
                to: Some(json!({"tag": "SP1", "shelf": "splitter-4"})),
                at: Vec::new(),
            },
            Edit {
                path: "brief.hosts".into(),
                from: Some(json!(1)),
                to: Some(json!(2)),
                at: Vec::new(),
            },
        ];
        for edit in edits {
            let mut changed = doc();
            edit.apply(&mut changed).unwrap();
            assert_ne!(changed.to_json(), doc().to_json());
            edit.inverse().apply(&mut changed).unwrap();
            assert_eq!(changed.to_json(), doc().to_json());
        }
    }

    #[test]
    fn a_new_item_takes_its_tag_from_the_path() {
        let mut changed = doc();
        Edit {
            path: "items.SP1".into(),
            from: None,
            to: Some(json!({"shelf": "x"})),
            at: Vec::new(),
        }
        .apply(&mut changed)
        .unwrap();
        assert_eq!(changed.at("items.SP1.tag").map(Node::to_json), Some(json!("SP1")));
    }

    #[test]
    fn bad_an_edit_of_what_has_moved_is_refused() {
        let edit = Edit {
            path: "brief.hosts".into(),
            from: Some(json!(7)),
            to: Some(json!(2)),
            at: Vec::new(),
        };
        assert!(matches!(edit.apply(&mut doc()), Err(EditError::Moved { .. })));
        let edit = Edit {
            path: "brief.x.y".into(),
            from: None,
            to: None,
            at: Vec::new(),
        };
        assert!(matches!(edit.apply(&mut doc()), Err(EditError::Empty { .. })));
        let edit = Edit {
            path: "items.TX9.place".into(),
            from: None,
            to: Some(json!("HILL")),
            at: Vec::new(),
        };
        assert!(matches!(
            edit.apply(&mut doc()),
            Err(EditError::NoSuchPlace { .. })
        ));
    }
}
