//! Messages: every code that the sources name is a message with English words, and takes the arguments that stand beside it.

use std::path::{Path, PathBuf};
use words::{Language, words};

/// Files of Rust below a folder, tests left out.
fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).expect("a folder is listed") {
        let path = entry.expect("an entry is read").path();
        if path.is_dir() && path.file_name().is_some_and(|n| n != "tests" && n != "target") {
            sources(&path, found);
        } else if path.extension().is_some_and(|e| e == "rs") {
            found.push(path);
        }
    }
}

/// A message as it is made in a source: its code, and the arguments given to it in the same chain of calls.
#[derive(Debug, PartialEq)]
struct Made {
    code: String,
    args: Vec<String>,
    /// Whether it is handed on at once: elsewhere more arguments may follow.
    is_whole: bool,
}

/// Every `Message::new("...")` of a text with the calls behind it.
fn made(text: &str) -> Vec<Made> {
    let mut found = Vec::new();
    for (_, rest) in text
        .match_indices("Message::new(\"")
        .map(|(i, m)| text.split_at(i + m.len()))
    {
        let Some((code, mut rest)) = rest.split_once('"') else {
            continue;
        };
        let Some(after) = rest.trim_start().strip_prefix(')') else {
            continue;
        };
        rest = after;
        let mut args = Vec::new();
        while let Some((name, behind)) = argument(rest) {
            args.push(name);
            rest = behind;
        }
        let is_whole = rest.trim_start().starts_with(')');
        found.push(Made {
            code: code.to_owned(),
            args,
            is_whole,
        });
    }
    found
}

/// `.text("name", ...)` and its kin: the name and what stands behind the call.
fn argument(text: &str) -> Option<(String, &str)> {
    const CALLS: [&str; 8] = [
        "text", "tag", "count", "quantity", "number", "amount", "money", "with",
    ];
    let call = text.trim_start().strip_prefix('.')?;
    let (method, inner) = call.split_once('(')?;
    CALLS.contains(&method).then_some(())?;
    let (name, _) = inner.trim_start().strip_prefix('"')?.split_once('"')?;
    let mut depth = 1;
    let mut quoted = false;
    let mut escaped = false;
    for (i, c) in inner.char_indices() {
        match c {
            _ if escaped => escaped = false,
            '\\' if quoted => escaped = true,
            '"' => quoted = !quoted,
            '(' if !quoted => depth += 1,
            ')' if !quoted => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return Some((name.to_owned(), &inner[i + 1..]));
        }
    }
    None
}

#[test]
fn every_message_made_in_the_sources_has_its_words_and_its_arguments() {
    let crates = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let mut files = Vec::new();
    sources(&crates, &mut files);
    let (mut wrong, mut seen) = (Vec::new(), 0);
    for file in &files {
        let text = std::fs::read_to_string(file).expect("a source is text");
        let text = text.split("#[cfg(test)]\nmod tests").next().unwrap_or_default();
        for message in made(text) {
            seen += 1;
            let at = format!("{}: {}", file.display(), message.code);
            let Some(wanted) = words().arguments(&message.code, Language::English) else {
                wrong.push(format!("{at}: no such message"));
                continue;
            };
            let missing: Vec<_> = wanted.iter().filter(|w| !message.args.contains(w)).collect();
            if message.is_whole && !missing.is_empty() {
                wrong.push(format!("{at}: is not given {missing:?}"));
            }
        }
    }
    assert!(seen > 150, "only {seen} messages seen in {} files", files.len());
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn messages_are_found_with_what_is_given_to_them() {
    let text = r#"f(Message::new("a-b").text("x", f("(", y)).count(
            "n", 1); push(Message::new("c").with("z", Arg::All(v))
        .tag("t", "u")), Message::new(code)"#;
    let found = made(text);
    assert_eq!(
        (found[0].args.join(" ").as_str(), found[0].is_whole),
        ("x n", false)
    );
    assert_eq!((found[1].code.as_str(), found[1].is_whole), ("c", true));
    assert_eq!(found[1].args, ["z", "t"]);
    assert_eq!(found.len(), 2);
}
