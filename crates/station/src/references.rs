//! Tags that name nothing: every one a complaint with its place, whatever else is wrong with the file.

use std::collections::BTreeSet;

use crate::document::{Node, Value};
use crate::read::{Faults, all, did_you_mean, join, nearest};
use words::Message;

/// A key that names a tag: where it stands (`*` for every item of a list), what it names, and the lists that hold it.
struct Link {
    path: &'static str,
    what: &'static str,
    lists: &'static [&'static str],
}

const fn link(path: &'static str, what: &'static str, lists: &'static [&'static str]) -> Link {
    Link { path, what, lists }
}

const LINKS: &[Link] = &[
    link("brief.wanted.*.place", "place", &["places"]),
    link("emissions.*.antenna", "antenna", &["antennas"]),
    link("emissions.*.transmitter", "item", &["items"]),
    link("emissions.*.licence.conditions.*.place", "place", &["places"]),
    link("antennas.*.site", "site", &["sites"]),
    link("antennas.*.splitter", "item", &["items"]),
    link("hops.*.from", "site", &["sites"]),
    link("hops.*.to", "site", &["sites"]),
    link("rooms.*.site", "site", &["sites"]),
    link("items.*.place", "site-or-room", &["sites", "rooms"]),
    link("cables.*.from", "item-or-antenna", &["items", "antennas"]),
    link("cables.*.to", "item-or-antenna", &["items", "antennas"]),
];

/// Tags that are looked through for the one that was meant, and named.
const MOST_NAMED: usize = 40;

/// Checks the format's number, and that each tag a document mentions is there.
pub fn check(document: &Node, faults: &mut Faults) {
    if let Some(Node {
        value: Value::Integer(format),
        span,
    }) = document.get("format")
        && *format != 1
    {
        let what = Message::new("file-format").text("format", format.to_string());
        faults.add(*span, "format", what, Some(Message::new("file-format-help")));
    }
    for link in LINKS {
        let known: BTreeSet<&str> = link.lists.iter().flat_map(|list| tags(document, list)).collect();
        let steps: Vec<&str> = link.path.split('.').collect();
        each(document, &steps, "", &mut |node, path| {
            look_up(node, path, link.what, &known, faults)
        });
    }
}

/// The tags of a list at the top of the document.
fn tags<'a>(document: &'a Node, list: &str) -> Vec<&'a str> {
    let Some(Node {
        value: Value::List(items),
        ..
    }) = document.get(list)
    else {
        return Vec::new();
    };
    items.iter().filter_map(|item| text(item.get("tag")?)).collect()
}

fn text(node: &Node) -> Option<&str> {
    match &node.value {
        Value::Text(text) => Some(text),
        _ => None,
    }
}

/// Calls `found` with every node that a path with `*` leads to.
fn each(node: &Node, steps: &[&str], path: &str, found: &mut dyn FnMut(&Node, &str)) {
    let Some((step, rest)) = steps.split_first() else {
        return found(node, path);
    };
    match (&node.value, *step) {
        (Value::List(items), "*") => {
            for (i, item) in items.iter().enumerate() {
                let tag = item
                    .get("tag")
                    .and_then(text)
                    .map_or_else(|| i.to_string(), str::to_owned);
                each(item, rest, &join(path, &tag), found);
            }
        }
        (_, key) => {
            if let Some(inner) = node.get(key) {
                each(inner, rest, &join(path, key), found);
            }
        }
    }
}

fn look_up(node: &Node, path: &str, what: &str, known: &BTreeSet<&str>, faults: &mut Faults) {
    let Some(text) = text(node) else { return };
    let tag = text.split(':').next().unwrap_or(text); // an end of a cable may name a port: `TX1:rf out`
    if known.contains(tag) {
        return;
    }
    let few: Vec<&str> = known.iter().copied().take(MOST_NAMED).collect();
    let help = match nearest(tag, &few) {
        Some(near) => did_you_mean(near),
        None if known.is_empty() => Message::new("file-none-yet").tag("what", what),
        None if known.len() > few.len() => Message::new("file-known-are-and-more")
            .text("known", few.join(", "))
            .count("more", (known.len() - few.len()) as i64),
        None => Message::new("file-known-are").with("known", all(&few)),
    };
    let what = Message::new("file-no-such-tag")
        .tag("what", what)
        .text("tag", tag);
    faults.add(node.span, path, what, Some(help));
}
