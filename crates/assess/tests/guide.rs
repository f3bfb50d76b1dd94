//! The user's list of findings, made from the rules' own pages.

#![expect(
    clippy::unwrap_used,
    reason = "a test stops at the first thing that is not as it should be"
)]

use assess::finding::Severity;
use assess::rules;
use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// The doc comment at the head of each rule's file, by code: title and explanation.
fn pages() -> BTreeMap<String, (String, String)> {
    let rules = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/rules");
    let mut pages = BTreeMap::new();
    for subject in std::fs::read_dir(rules)
        .unwrap()
        .map(|e| e.unwrap().path())
        .filter(|p| p.is_dir())
    {
        for file in std::fs::read_dir(subject).unwrap().map(|e| e.unwrap().path()) {
            let text = std::fs::read_to_string(&file).unwrap();
            let Some((_, after)) = text.split_once("    code: \"") else {
                continue;
            };
            let code = after.split('"').next().unwrap().to_owned();
            let docs: Vec<&str> = text
                .lines()
                .map_while(|l| l.strip_prefix("//!"))
                .map(str::trim)
                .collect();
            let (head, rest) = docs.split_first().unwrap();
            let title = head
                .strip_prefix(&format!("{code}: "))
                .unwrap_or_else(|| panic!("{file:?}: begins with its code"));
            let explanation = rest.join("\n").trim().to_owned();
            assert!(
                pages.insert(code, (title.to_owned(), explanation)).is_none(),
                "{file:?}"
            );
        }
    }
    pages
}

fn guide() -> String {
    let mut out = String::from(
        "# Findings\n\nEvery finding by its code: what it says, how bad it is, where it comes from. This list is made from the rules;\n\
         `UPDATE_GUIDE=1 cargo test -p assess --test guide` writes it again.\n\n\
         *Error*: the station must not be built like this. *Warning*: it can be, but somebody will regret it. *Caution*: people\n\
         can be hurt; shown always. *Note*: worth knowing.\n",
    );
    let pages = pages();
    let mut all: Vec<_> = rules::all().collect();
    all.sort_by_key(|r| r.code);
    for rule in all {
        let (title, explanation) = &pages[rule.code];
        let severity = match rule.severity {
            Severity::Error => "Error",
            Severity::Warning => "Warning",
            Severity::Caution => "Caution",
            Severity::Note => "Note",
        };
        write!(out, "\n## {}\n\n*{severity}.* {title}\n", rule.code).unwrap();
        if !explanation.is_empty() {
            write!(out, "\n{explanation}\n").unwrap();
        }
        let source = words::said(
            &assess::finding::clause_message(rule.clause),
            words::Language::English,
        );
        write!(out, "\nSource: {source} ({}).\n", rule.mark.word()).unwrap();
    }
    out
}

#[test]
fn the_guide_is_fresh() {
    let path = root().join("docs/findings.md");
    let fresh = guide();
    if std::env::var_os("UPDATE_GUIDE").is_some() {
        std::fs::write(&path, &fresh).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(
        kept == fresh,
        "docs/findings.md is stale: UPDATE_GUIDE=1 cargo test -p assess --test guide writes it"
    );
    assert_eq!(
        pages().len(),
        rules::all().count(),
        "a rule's file is not among the rules"
    );
}

/// No code of a message stands twice in the files of a language.
#[test]
fn no_message_code_stands_twice() {
    let messages = root().join("crates/words/messages");
    for language in std::fs::read_dir(messages)
        .unwrap()
        .map(|e| e.unwrap().path())
        .filter(|p| p.is_dir())
    {
        let mut seen: BTreeMap<String, PathBuf> = BTreeMap::new();
        for file in std::fs::read_dir(language).unwrap().map(|e| e.unwrap().path()) {
            for line in std::fs::read_to_string(&file).unwrap().lines() {
                let code = line.split(" =").next().unwrap();
                let is_code = line.contains(" =") && code.starts_with(|c: char| c.is_ascii_lowercase());
                if is_code && let Some(before) = seen.insert(code.to_owned(), file.clone()) {
                    panic!("{code} stands in {before:?} and {file:?}");
                }
            }
        }
    }
}
