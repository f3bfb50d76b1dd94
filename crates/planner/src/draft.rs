//! A document being changed, with the edits that change it.

use serde_json::Value as Json;
use station::edit::EditError;
use station::{Edit, Node};

/// A document and the edits that led to it.
#[derive(Debug, Clone)]
pub struct Draft {
    /// The document as it stands now.
    pub node: Node,
    /// What was changed, in order.
    pub edits: Vec<Edit>,
}

impl Draft {
    /// A draft with nothing changed.
    pub fn of(node: &Node) -> Draft {
        Draft {
            node: node.clone(),
            edits: Vec::new(),
        }
    }

    /// Puts a value at a path; nothing happens where it stands already.
    ///
    /// # Errors
    /// [`EditError`] when the path leads through something that is no section.
    pub fn set(&mut self, path: impl Into<String>, to: impl Into<Json>) -> Result<(), EditError> {
        let (path, to) = (path.into(), to.into());
        if self.node.at(&path).map(Node::to_json).as_ref() == Some(&to) {
            return Ok(());
        }
        let edit = Edit::set(&self.node, path, to);
        edit.apply(&mut self.node)?;
        self.edits.push(edit);
        Ok(())
    }

    /// Removes what stands at a path, where something does.
    ///
    /// # Errors
    /// [`EditError`], as [`Draft::set`].
    pub fn remove(&mut self, path: impl Into<String>) -> Result<(), EditError> {
        let path = path.into();
        if self.has(&path) {
            let edit = Edit::remove(&self.node, path);
            edit.apply(&mut self.node)?;
            self.edits.push(edit);
        }
        Ok(())
    }

    /// Whether something stands at a path.
    pub fn has(&self, path: &str) -> bool {
        self.node.at(path).is_some()
    }

    /// The tag itself, or the first with a number behind its letters that no item or cable bears.
    pub fn fresh(&self, wanted: &str) -> String {
        let taken = |tag: &str| {
            ["items", "cables", "antennas", "hops"]
                .iter()
                .any(|list| self.has(&format!("{list}.{tag}")))
        };
        if !taken(wanted) {
            return wanted.to_owned();
        }
        let stem = wanted.trim_end_matches(|c: char| c.is_ascii_digit());
        (2..)
            .map(|i| format!("{stem}{i}"))
            .find(|tag| !taken(tag))
            .expect("some number is free")
    }

    /// Adds an item, or raises the count of the one that the planner added before under this tag.
    ///
    /// # Errors
    /// [`EditError`], as [`Draft::set`].
    pub fn item(&mut self, tag: &str, shelf: &str, place: Option<&str>, count: u32) -> Result<(), EditError> {
        let tag = self.fresh(tag);
        let mut table = serde_json::json!({ "shelf": shelf });
        if let Some(place) = place {
            table["place"] = place.into();
        }
        if count > 1 {
            table["count"] = count.into();
        }
        self.set(format!("items.{tag}"), table)
    }
}
