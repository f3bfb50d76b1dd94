//! What a change of the station does, in sentences.

use crate::office::Office;
use assess::naming;
use serde_json::Value as Json;
use station::{Edit, Node};
use words::{Language, Message, WordsError, say_best};

/// Edits told one by one; the others are counted.
const MOST_TOLD: usize = 3;

/// What edits do to a document, in words: each thing by its name, what it is now and what it was.
///
/// # Errors
/// [`WordsError`] for a message that lacks an argument: a fault of ours.
pub fn says(
    office: &Office,
    document: &Node,
    edits: &[Edit],
    language: Language,
) -> Result<String, WordsError> {
    let told: Vec<&Edit> = edits.iter().filter(|e| e.from != e.to).collect();
    let mut sentences = told
        .iter()
        .take(MOST_TOLD)
        .map(|edit| sentence(office, document, edit, language))
        .collect::<Result<Vec<_>, _>>()?;
    let more = told.len().saturating_sub(MOST_TOLD);
    if more > 0 {
        let message = Message::new("change-more").count("count", more as i64);
        sentences.push(say_best(&message, language)?.text);
    }
    let joint = say_best(&Message::new("words-semicolon"), language)?.text;
    Ok(sentences.join(&joint))
}

fn sentence(office: &Office, document: &Node, edit: &Edit, language: Language) -> Result<String, WordsError> {
    let what = what(&edit.path, document, language)?;
    let side = |json: &Json| shown(office, &edit.path, json, language);
    let is_thing = |json: &Option<Json>| json.as_ref().is_some_and(|j| j.is_object() && known(j).is_none());
    let message = match (&edit.from, &edit.to) {
        (None, Some(to)) if is_thing(&edit.to) => match thing(office, to) {
            Some(thing) => Message::new("change-added-of").text("thing", thing),
            None => Message::new("change-added"),
        },
        (Some(from), None) if is_thing(&edit.from) => match thing(office, from) {
            Some(thing) => Message::new("change-removed-of").text("thing", thing),
            None => Message::new("change-removed"),
        },
        (Some(_), Some(to)) if is_thing(&edit.to) => match thing(office, to) {
            Some(thing) => Message::new("change-to").text("to", thing),
            None => Message::new("change-made"),
        },
        (Some(from), Some(to)) => Message::new("change-set")
            .text("to", side(to)?)
            .text("from", side(from)?),
        (None, Some(to)) => Message::new("change-first").text("to", side(to)?),
        (Some(from), None) => Message::new("change-cleared").text("from", side(from)?),
        (None, None) => Message::new("change-made"),
    };
    Ok(say_best(&message.text("what", what), language)?.text)
}

/// What a path is called; its last key, of whose it is, where nobody gave it a name.
fn what(path: &str, document: &Node, language: Language) -> Result<String, WordsError> {
    let name = naming::name(path, document, language)?;
    if !name.contains(" · ") {
        return Ok(name);
    }
    let steps: Vec<&str> = path.split('.').collect();
    let key = steps.last().copied().unwrap_or(path).replace('_', " ");
    let of = steps
        .iter()
        .rev()
        .skip(1)
        .find(|s| s.chars().any(char::is_uppercase));
    let message = match of {
        Some(of) => Message::new("change-key-of").text("of", (*of).to_owned()),
        None => Message::new("change-key").text("of", steps[..steps.len() - 1].join(" ").replace('_', " ")),
    };
    Ok(say_best(&message.text("key", key), language)?.text)
}

/// The value of something assumed or measured.
fn known(json: &Json) -> Option<&Json> {
    json.get("assumed").or_else(|| json.get("measured"))
}

/// A value for a reader: equipment by its name, the rest as every face prints it.
fn shown(office: &Office, path: &str, json: &Json, language: Language) -> Result<String, WordsError> {
    let json = known(json).unwrap_or(json);
    if let Some(item) = json.as_str().and_then(|id| office.shelf.get(id)) {
        return Ok(item.name.clone());
    }
    if let Json::Array(items) = json {
        let one = |item: &Json| shown(office, path, item, language);
        return Ok(items.iter().map(one).collect::<Result<Vec<_>, _>>()?.join(", "));
    }
    naming::value(path, json, language)
}

/// The equipment that an item is.
fn thing(office: &Office, json: &Json) -> Option<String> {
    let id = json.get("shelf")?.as_str()?;
    Some(
        office
            .shelf
            .get(id)
            .map_or_else(|| id.to_owned(), |s| s.name.clone()),
    )
}
