//! Edits applied to the text of a station file: comments, order and spelling of everything else stay.

use serde_json::Value as Json;
use station::Edit;
use station::edit::EditError;
use thiserror::Error;
use toml_edit::{
    Array, ArrayOfTables, Decor, DocumentMut, InlineTable, Item, Key, RawString, Table, TableLike, Value,
};
use words::Message;

use crate::document;

/// Why an edit could not be applied to the text. The text is as it was.
#[derive(Debug, Error)]
pub enum TextEditError {
    /// The text is not TOML as it stands.
    Syntax(Message),
    /// The edit does not fit what stands there.
    Edit(#[from] EditError),
    /// The edited text would say something else than the edited document: a fault of ours, nothing is changed.
    Unfaithful {
        /// Path of the edit.
        path: String,
    },
}

impl From<&TextEditError> for Message {
    fn from(error: &TextEditError) -> Self {
        match error {
            TextEditError::Syntax(why) => Message::new("edit-syntax").message("why", why.clone()),
            TextEditError::Edit(error) => error.into(),
            TextEditError::Unfaithful { path } => Message::new("edit-unfaithful").text("path", path),
        }
    }
}

words::said_in_english!(TextEditError);

/// Applies `edits` in turn to the text of a station file.
///
/// The result is read again and compared with the edited document: a text that says anything else is never returned.
///
/// # Errors
/// [`TextEditError`], naming the first edit that does not fit.
pub fn edit_text(text: &str, edits: &[Edit]) -> Result<String, TextEditError> {
    let mut text = text.to_owned();
    for edit in edits {
        text = edit_once(&text, edit)?;
    }
    Ok(text)
}

fn edit_once(text: &str, edit: &Edit) -> Result<String, TextEditError> {
    let (mut node, faults) = document::parse(text);
    if let Some(fault) = faults.first() {
        return Err(TextEditError::Syntax(fault.what.clone()));
    }
    let kept = if edit.to.is_none() {
        edit.steps_kept(&node)
    } else {
        usize::MAX
    };
    let between = edit.goes_between(&node);
    edit.apply(&mut node)?;
    let mut document: DocumentMut = text
        .parse()
        .map_err(|e: toml_edit::TomlError| TextEditError::Syntax(Message::foreign(e.message())))?;
    let steps: Vec<&str> = edit.path.split('.').take(kept).collect();
    let new = New {
        at: &edit.at,
        between,
    };
    let unfaithful = || TextEditError::Unfaithful {
        path: edit.path.clone(),
    };
    in_table(document.as_table_mut(), &steps, edit.to.as_ref(), new, true).ok_or_else(unfaithful)?;
    let written = document.to_string();
    let (again, faults) = document::parse(&written);
    let says_the_same = without_empties(&again.to_json()) == without_empties(&node.to_json());
    if faults.is_empty() && says_the_same {
        Ok(written)
    } else {
        Err(unfaithful())
    }
}

/// Lists and sections with nothing in them are as good as absent.
fn without_empties(json: &Json) -> Json {
    let is_empty =
        |v: &Json| v.as_array().is_some_and(Vec::is_empty) || v.as_object().is_some_and(|o| o.is_empty());
    match json {
        Json::Array(items) => Json::Array(items.iter().map(without_empties).collect()),
        Json::Object(map) => {
            let kept = map
                .iter()
                .map(|(k, v)| (k.clone(), without_empties(v)))
                .filter(|(_, v)| !is_empty(v));
            Json::Object(kept.collect())
        }
        other => other.clone(),
    }
}

/// Where what is new goes: places of the steps made, and whether it goes between items known by number.
#[derive(Clone, Copy)]
struct New<'a> {
    at: &'a [usize],
    between: bool,
}

impl New<'_> {
    /// Place of the first step made, in something of this length.
    fn place(self, len: usize) -> usize {
        self.at.first().copied().unwrap_or(len).min(len)
    }

    /// For what is made inside the first step made.
    fn inside(self) -> Self {
        New {
            at: self.at.get(1..).unwrap_or_default(),
            ..self
        }
    }
}

/// Puts a key at a place of a table: those behind it are taken out and put back with all that is theirs.
fn insert_at(table: &mut dyn TableLike, place: usize, key: &str, item: Item) -> Option<()> {
    let behind: Vec<Key> = table
        .iter()
        .skip(place)
        .map(|(k, _)| k.to_owned())
        .collect::<Vec<_>>()
        .iter()
        .filter_map(|k| table.key(k).cloned())
        .collect();
    let mut taken = Vec::new();
    for key in behind {
        let item = table.remove(key.get())?;
        taken.push((key, item));
    }
    table.insert(key, item);
    for (key, item) in taken {
        table.entry_format(&key).or_insert(item);
    }
    Some(())
}

/// Puts, replaces or removes at the last step below a table. `None` when the text has no such place.
fn in_table(
    table: &mut dyn TableLike,
    steps: &[&str],
    to: Option<&Json>,
    new: New,
    at_root: bool,
) -> Option<()> {
    let (step, rest) = steps.split_first()?;
    match (table.get_mut(step), rest.is_empty(), to) {
        (Some(item), true, Some(to)) => replace(item, to),
        (Some(_), true, None) => {
            table.remove(step)?;
        }
        (Some(item), false, _) => return in_item(item, rest, to, new),
        (None, true, Some(to)) => {
            let item = if at_root { block(to) } else { compact(to) };
            let place = new.place(table.len());
            insert_at(table, place, step, item)?;
        }
        (None, false, Some(to)) => {
            // The first item of a list makes the list, the first key of a section the section.
            let is_list = to.is_object() && rest.len() == 1;
            let mut inner = match (is_list, at_root) {
                (true, true) => Item::ArrayOfTables(ArrayOfTables::new()),
                (true, false) => Item::Value(Value::Array(Array::new())),
                (false, true) => Item::Table(Table::new()),
                (false, false) => Item::Value(Value::InlineTable(InlineTable::new())),
            };
            in_item(&mut inner, rest, Some(to), new.inside())?;
            let place = new.place(table.len());
            insert_at(table, place, step, inner)?;
        }
        (None, _, None) => return None,
    }
    Some(())
}

fn in_item(item: &mut Item, steps: &[&str], to: Option<&Json>, new: New) -> Option<()> {
    match item {
        Item::Table(table) => in_table(table, steps, to, new, false),
        Item::Value(Value::InlineTable(table)) => in_table(table, steps, to, new, false),
        Item::ArrayOfTables(tables) => in_tables(tables, steps, to, new),
        Item::Value(Value::Array(array)) => in_array(array, steps, to, new),
        _ => None,
    }
}

fn in_tables(tables: &mut ArrayOfTables, steps: &[&str], to: Option<&Json>, new: New) -> Option<()> {
    let (step, rest) = steps.split_first()?;
    let by_tag = tables
        .iter()
        .position(|t| t.get("tag").and_then(Item::as_str) == Some(*step));
    let found = by_tag
        .or_else(|| step.parse().ok().filter(|i| *i < tables.len()))
        .filter(|_| !(new.between && rest.is_empty()));
    match (found, rest.is_empty(), to) {
        (Some(i), false, _) => in_table(tables.get_mut(i)?, rest, to, new, false)?,
        (Some(i), true, Some(to)) => {
            let old = tables.get_mut(i)?;
            let tagged = with_tag(to, old.get("tag").and_then(Item::as_str));
            let decor = old.decor().clone();
            *old = block_table(&tagged)?;
            *old.decor_mut() = decor;
        }
        (Some(i), true, None) => {
            let comments = comments_of_others(tables.get(i)?.decor());
            tables.remove(i);
            if let Some(next) = tables.get_mut(i) {
                prepend(next.decor_mut(), &comments);
            }
        }
        (None, true, Some(to)) => {
            let mut table = block_table(&with_tag(to, Some(step)))?;
            table.decor_mut().set_prefix("\n");
            let place = new.place(tables.len());
            let mut behind: Vec<Table> = tables.iter().skip(place).cloned().collect();
            (0..behind.len()).for_each(|_| drop(tables.remove(place)));
            tables.push(table);
            behind.drain(..).for_each(|t| tables.push(t));
        }
        (None, ..) => return None,
    }
    Some(())
}

fn in_array(array: &mut Array, steps: &[&str], to: Option<&Json>, new: New) -> Option<()> {
    let (step, rest) = steps.split_first()?;
    let tag_of = |v: &Value| {
        v.as_inline_table()
            .and_then(|t| t.get("tag"))
            .and_then(Value::as_str)
            .map(str::to_owned)
    };
    let by_tag = array.iter().position(|v| tag_of(v).as_deref() == Some(step));
    let found = by_tag
        .or_else(|| step.parse().ok().filter(|i| *i < array.len()))
        .filter(|_| !(new.between && rest.is_empty()));
    match (found, rest.is_empty(), to) {
        (Some(i), false, _) => match array.get_mut(i)? {
            Value::InlineTable(table) => in_table(table, rest, to, new, false)?,
            Value::Array(inner) => in_array(inner, rest, to, new)?,
            _ => return None,
        },
        (Some(i), true, Some(to)) => {
            let old = array.get_mut(i)?;
            let tag = tag_of(old);
            let mut new = value(&with_tag(to, tag.as_deref()), Some(old));
            *new.decor_mut() = old.decor().clone();
            *old = new;
        }
        (Some(i), true, None) => {
            array.remove(i);
            // What comes first in a list on one line stands close to its bracket.
            if let (0, Some(first)) = (i, array.get_mut(0))
                && first.decor().prefix().and_then(RawString::as_str) == Some(" ")
            {
                first.decor_mut().set_prefix("");
            }
        }
        (None, true, Some(to)) => {
            let tag = to.is_object().then_some(*step);
            let mut one = value(&with_tag(to, tag), None);
            let place = new.place(array.len());
            // In a list of one item a line, the new one stands as the last one does.
            if let Some(last) = array.get(array.len().wrapping_sub(1)) {
                let prefix = last.decor().prefix().and_then(RawString::as_str).unwrap_or("");
                let own_line = prefix.rfind('\n').map(|end| prefix[end..].to_owned()); // without the comment of the one before
                let first = if place == 0 { "" } else { " " };
                one.decor_mut().set_prefix(own_line.as_deref().unwrap_or(first));
                if own_line.is_none()
                    && place == 0
                    && let Some(next) = array.get_mut(0)
                {
                    next.decor_mut().set_prefix(" ");
                }
                array.insert_formatted(place, one);
            } else {
                array.push(one);
            }
        }
        (None, ..) => return None,
    }
    Some(())
}

/// Replaces an item; the comment behind a value, and those above a section, stay.
fn replace(item: &mut Item, to: &Json) {
    match item {
        Item::Value(old) => {
            let mut new = value(to, Some(old));
            *new.decor_mut() = old.decor().clone();
            *old = new;
        }
        Item::Table(old) => {
            let decor = old.decor().clone();
            match block_table(to) {
                Some(mut new) => {
                    *new.decor_mut() = decor;
                    new.set_position(old.position());
                    *old = new;
                }
                None => *item = Item::Value(value(to, None)),
            }
        }
        Item::ArrayOfTables(_) | Item::None => *item = block(to),
    }
}

/// A table's comments that stand apart from it by an empty line: they are not its own.
fn comments_of_others(decor: &Decor) -> String {
    let prefix = decor.prefix().and_then(RawString::as_str).unwrap_or("");
    match prefix.rfind("\n\n") {
        Some(end) if prefix[..end].contains('#') => prefix[..=end].to_owned(),
        _ => String::new(),
    }
}

fn prepend(decor: &mut Decor, comments: &str) {
    if !comments.is_empty() {
        let own = decor
            .prefix()
            .and_then(RawString::as_str)
            .unwrap_or("")
            .to_owned();
        decor.set_prefix(format!("{comments}{own}"));
    }
}

/// An object with the tag its path names, where it has none.
fn with_tag(json: &Json, tag: Option<&str>) -> Json {
    let (Json::Object(map), Some(tag)) = (json, tag) else {
        return json.clone();
    };
    if map.contains_key("tag") || tag.parse::<usize>().is_ok() {
        return json.clone();
    }
    let tagged = std::iter::once(("tag".to_owned(), Json::from(tag))).chain(map.clone());
    Json::Object(tagged.collect())
}

/// As a section of its own where it can be one.
fn block(json: &Json) -> Item {
    if let Some(table) = block_table(json) {
        return Item::Table(table);
    }
    match json {
        Json::Array(items) if !items.is_empty() && items.iter().all(Json::is_object) => {
            let mut tables = ArrayOfTables::new();
            for table in items.iter().filter_map(block_table) {
                tables.push(table);
            }
            Item::ArrayOfTables(tables)
        }
        other => Item::Value(value(other, None)),
    }
}

fn block_table(json: &Json) -> Option<Table> {
    let mut table = Table::new();
    for (key, item) in json.as_object()?.iter().filter(|(_, v)| !v.is_null()) {
        table.insert(key, compact(item));
    }
    Some(table)
}

fn compact(json: &Json) -> Item {
    Item::Value(value(json, None))
}

/// A value in one line. A text that takes the place of a date, and is one, is written as a date.
fn value(json: &Json, old: Option<&Value>) -> Value {
    match json {
        Json::Null => Value::from(""),
        Json::Bool(is) => Value::from(*is),
        Json::Number(n) => n
            .as_i64()
            .map_or_else(|| Value::from(n.as_f64().unwrap_or(0.0)), Value::from),
        Json::String(text) => match (old, text.parse::<toml_edit::Datetime>()) {
            (Some(Value::Datetime(_)), Ok(date)) => Value::from(date),
            _ => Value::from(text.as_str()),
        },
        Json::Array(items) => Value::Array(items.iter().map(|v| value(v, None)).collect()),
        Json::Object(map) => {
            let mut table = InlineTable::new();
            for (key, item) in map.iter().filter(|(_, v)| !v.is_null()) {
                table.insert(key, value(item, None));
            }
            Value::InlineTable(table)
        }
    }
}
