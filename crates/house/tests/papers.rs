//! What the papers of the tree point at is there: links and paths in README, ARCHITECTURE, CHANGELOG and `docs/`.

use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// The papers by hand: those at the root and every page of the guide.
fn papers() -> Vec<PathBuf> {
    let mut found: Vec<PathBuf> = ["README.md", "ARCHITECTURE.md", "CHANGELOG.md"]
        .iter()
        .map(|name| root().join(name))
        .collect();
    let mut folders = vec![root().join("docs")];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).expect("docs/ can be read").flatten() {
            let path = entry.path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending == "md") {
                found.push(path);
            }
        }
    }
    found
}

/// Targets of Markdown links that stay in the tree.
fn links(text: &str) -> impl Iterator<Item = &str> {
    text.split("](")
        .skip(1)
        .filter_map(|rest| rest.split(')').next())
        .map(|target| target.split('#').next().unwrap_or(target))
        .filter(|target| !target.is_empty() && !target.contains("://"))
}

/// Words in backticks that are paths of the tree: they begin with one of its folders and hold no placeholder.
fn paths(text: &str) -> impl Iterator<Item = &str> {
    const FOLDERS: &[&str] = &[
        "crates/",
        "web/",
        "shelf/",
        "country/",
        "examples/",
        "docs/",
        "tools/",
        "benches/",
        "schema/",
        "fonts/",
        ".ci/",
    ];
    text.split('`')
        .skip(1)
        .step_by(2)
        .filter(|word| FOLDERS.iter().any(|folder| word.starts_with(folder)))
        .filter(|word| !word.contains([' ', '*', '<', '{', '…', '\n']))
}

#[test]
fn every_link_and_path_in_the_papers_is_there() {
    let mut missing = Vec::new();
    let mut seen = 0;
    for paper in papers() {
        let text = fs::read_to_string(&paper).unwrap_or_else(|e| panic!("{}: {e}", paper.display()));
        let name = paper.strip_prefix(root()).unwrap_or(&paper).display().to_string();
        // Code blocks hold commands, not paths of the tree.
        let prose: String = text.split("```").step_by(2).collect();
        let beside = paper.parent().expect("a file is in a folder");
        for (target, base) in links(&prose)
            .map(|l| (l, beside.to_owned()))
            .chain(paths(&prose).map(|p| (p, root())))
        {
            seen += 1;
            if !base.join(target).exists() {
                missing.push(format!("{name}: `{target}` is not there"));
            }
        }
    }
    assert!(seen > 40, "only {seen} paths were looked at");
    assert!(missing.is_empty(), "\n{}", missing.join("\n"));
}

#[test]
fn links_and_paths_are_found_in_prose() {
    let text = "See [the guide](docs/guide.md#start) and `crates/terrain/src/lib.rs`, not `cargo run` or [a page](https://example.org).";
    assert_eq!(links(text).collect::<Vec<_>>(), ["docs/guide.md"]);
    assert_eq!(paths(text).collect::<Vec<_>>(), ["crates/terrain/src/lib.rs"]);
}

/// All Rust of the crates, in one text.
fn code() -> String {
    let mut text = String::new();
    let mut folders = vec![root().join("crates")];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).expect("crates/ can be read").flatten() {
            let path = entry.path();
            if path.is_dir() && path.file_name().is_some_and(|name| name != "house") {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                text += &fs::read_to_string(&path).unwrap_or_default();
            }
        }
    }
    text
}

#[test]
fn every_name_in_the_glossary_is_in_the_code() {
    let glossary = fs::read_to_string(root().join("docs/glossary.md")).expect("the glossary is there");
    let code = code();
    let words: std::collections::HashSet<&str> =
        code.split(|c: char| !c.is_alphanumeric() && c != '_').collect();
    let names: Vec<&str> = glossary.split('`').skip(1).step_by(2).collect();
    assert!(names.len() > 60, "only {} names", names.len());
    let strangers: Vec<&&str> = names.iter().filter(|name| !words.contains(**name)).collect();
    assert!(
        strangers.is_empty(),
        "in the glossary, not in the code: {strangers:?}"
    );
}
