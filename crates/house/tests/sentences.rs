//! Sentences: what a person reads is a message, so no source of a floor that speaks holds a sentence of its own.

use std::path::{Path, PathBuf};

/// Crates that make what a person reads.
const SPEAKING: [&str; 6] = ["server", "stationwright", "assess", "planner", "papers", "folder"];
/// Crates that print or send it, where even one word in a text that is printed is refused.
const PRINTING: [&str; 2] = ["server", "stationwright"];
/// Macros whose first text is printed, sent, or put together to be.
const PRINTED: [&str; 7] = [
    "print", "println", "eprint", "eprintln", "format", "write", "writeln",
];

/// Texts that look like sentences and are none that a language could say otherwise: a part of the text, and why it may stand.
const NO_SENTENCES: &[(&str, &str)] = &[
    ("large city", "a word of the station file"),
    ("guyed lattice", "a word of the station file"),
    ("m above ground", "a quantity as the station file writes it"),
    ("common practice", "the station file's word for a mark"),
    ("field at least", "a value in a GeoJSON file, for programs"),
    (
        "field by P.1812 less field by ITM",
        "a value in JSON, for programs",
    ),
    ("as given", "a value in JSON, for programs"),
    ("free space", "a value in JSON, for programs"),
    ("antenna at {freq_mhz:?}", "what a digest is made of"),
    (
        "failed printing to stdout",
        "what the standard library says, to be recognised",
    ),
    ("attachment; filename=", "a header of HTTP"),
    ("default-src 'none'", "a header of HTTP"),
    ("stationwright:", "the program's name before what it says"),
    ("echo {i}", "the name of a thread"),
];

/// A text of a source: where it begins, what it holds, and the macro or function whose bracket it stands right behind.
struct Literal {
    line: usize,
    text: String,
    behind: String,
}

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).expect("a folder is listed") {
        let path = entry.expect("an entry is read").path();
        if path.is_dir() && path.file_name().is_some_and(|n| n != "tests") {
            sources(&path, found);
        } else if path.extension().is_some_and(|e| e == "rs") && !path.ends_with("tests.rs") {
            found.push(path);
        }
    }
}

/// The texts of a source: comments, attributes and tests left out.
fn literals(source: &str) -> Vec<Literal> {
    let source = source.split("#[cfg(test)]\nmod tests").next().unwrap_or_default();
    let chars: Vec<char> = source.chars().collect();
    let (mut found, mut i, mut line, mut code) = (Vec::new(), 0, 1, String::new());
    let at = |i: usize| chars.get(i).copied().unwrap_or('\0');
    while i < chars.len() {
        let (c, next) = (at(i), at(i + 1));
        if c == '/' && next == '/' {
            while i < chars.len() && at(i) != '\n' {
                i += 1;
            }
            continue;
        }
        if c == '#' && (next == '[' || next == '!' && at(i + 2) == '[') {
            i = past_attribute(&chars, i, &mut line);
            continue;
        }
        // A quote as a character is no text.
        if c == '\'' && (next == '"' && at(i + 2) == '\'' || next == '\\' && at(i + 3) == '\'') {
            i += if next == '"' { 3 } else { 4 };
            continue;
        }
        if c == '"' {
            let hashes = code.chars().rev().take_while(|c| *c == '#').count();
            let is_raw = code.trim_end_matches('#').ends_with('r');
            let (text, end) = if is_raw {
                raw(&chars, i + 1, hashes)
            } else {
                plain(&chars, i + 1)
            };
            let behind = code.trim_end().to_owned();
            found.push(Literal {
                line,
                behind,
                text: text.clone(),
            });
            line += text.matches('\n').count();
            code.push('"');
            i = end;
            continue;
        }
        line += usize::from(c == '\n');
        code.push(c);
        i += 1;
    }
    found
}

/// The text of a literal with escapes, from behind its first quote; and where the source goes on.
fn plain(chars: &[char], from: usize) -> (String, usize) {
    let (mut text, mut i) = (String::new(), from);
    while i < chars.len() && chars[i] != '"' {
        if chars[i] == '\\' {
            i += 1;
        }
        text.extend(chars.get(i));
        i += 1;
    }
    (text, i + 1)
}

/// The text of a raw literal that ends with so many hashes.
fn raw(chars: &[char], from: usize, hashes: usize) -> (String, usize) {
    let ends = |i: usize| {
        chars[i] == '"' && chars[i + 1..].iter().take(hashes).filter(|c| **c == '#').count() == hashes
    };
    let end = (from..chars.len()).find(|i| ends(*i)).unwrap_or(chars.len());
    (
        chars[from..end].iter().collect(),
        (end + 1 + hashes).min(chars.len()),
    )
}

/// Where the source goes on behind an attribute.
fn past_attribute(chars: &[char], from: usize, line: &mut usize) -> usize {
    let (mut i, mut depth) = (from, 0);
    while i < chars.len() {
        match chars[i] {
            '"' => {
                let (text, end) = plain(chars, i + 1);
                *line += text.matches('\n').count();
                i = end;
                continue;
            }
            '[' => depth += 1,
            ']' if depth == 1 => return i + 1,
            ']' => depth -= 1,
            '\n' => *line += 1,
            _ => {}
        }
        i += 1;
    }
    i
}

/// Words of lower case as a sentence has them; names in braces, paths and keys are none.
fn words(text: &str) -> Vec<Option<String>> {
    let mut outside = String::new();
    let mut depth = 0;
    for c in text.chars() {
        depth += i32::from(c == '{');
        outside.push(if depth > 0 { '\u{1}' } else { c });
        depth -= i32::from(c == '}' && depth > 0);
    }
    let word = |token: &str| {
        let word = token
            .trim_matches(|c: char| ",;:.!?()'’“”".contains(c))
            .to_owned();
        let is_word = word.chars().all(|c| c.is_lowercase()) && word.chars().count() > 1;
        is_word.then_some(word)
    };
    outside.split_whitespace().map(word).collect()
}

/// Two words beside each other, one of them of three letters or more.
fn reads_like_a_sentence(text: &str) -> bool {
    let long = |word: &Option<String>| word.as_ref().is_some_and(|w| w.chars().count() > 2);
    let words = words(text);
    words
        .windows(2)
        .any(|pair| pair.iter().all(Option::is_some) && pair.iter().any(long))
}

fn is_printed(behind: &str) -> bool {
    let head = behind.trim_end_matches('(').trim_end();
    let head = head.rsplit_once("!(").map_or(head, |(before, rest)| {
        if rest.contains([';', '"', ')']) {
            head
        } else {
            before
        }
    });
    let head = head.trim_end_matches('!');
    let name = head
        .rsplit(|c: char| !(c.is_alphanumeric() || c == '_'))
        .next()
        .unwrap_or_default();
    PRINTED.contains(&name) && behind.contains('!')
}

/// Why a text may stand, where it is known to be no sentence.
fn excused(text: &str) -> Option<&'static str> {
    NO_SENTENCES
        .iter()
        .map(|(part, _)| *part)
        .find(|part| text.contains(part))
}

#[test]
fn no_source_that_speaks_holds_a_sentence_of_its_own() {
    let crates = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let (mut wrong, mut used, mut seen) = (Vec::new(), Vec::new(), 0);
    for name in SPEAKING {
        let mut files = Vec::new();
        sources(&crates.join(name).join("src"), &mut files);
        for file in files {
            let source = std::fs::read_to_string(&file).expect("a source is text");
            for literal in literals(&source) {
                seen += 1;
                let expected = literal.behind.ends_with("expect(");
                let one_word = PRINTING.contains(&name)
                    && is_printed(&literal.behind)
                    && words(&literal.text)
                        .iter()
                        .flatten()
                        .any(|w| w.chars().count() > 2);
                if expected || !(reads_like_a_sentence(&literal.text) || one_word) {
                    continue;
                }
                match excused(&literal.text) {
                    Some(part) => used.push(part),
                    None => wrong.push(format!("{}:{}: {:?}", file.display(), literal.line, literal.text)),
                }
            }
        }
    }
    assert!(seen > 3000, "only {seen} texts seen");
    assert!(
        wrong.is_empty(),
        "make it a message, or name it in NO_SENTENCES with the reason why nobody could say it otherwise:\n{}",
        wrong.join("\n")
    );
    for (part, _) in NO_SENTENCES {
        assert!(
            used.contains(part),
            "NO_SENTENCES names `{part}`, which needs it no more"
        );
    }
}

#[test]
fn texts_are_found_where_they_stand() {
    let source = "#[doc = \"an attribute is none\"]\n// \"a comment is none\"\nlet a = \"one \\\"two\\\" three\";\n\
                  let b = r#\"raw \"text\" here\"#; let c = '\"';\nprintln!(\"short\");\neprintln!(\n    \"{}: no such thing\",\n    x);\n";
    let found = literals(source);
    let texts: Vec<&str> = found.iter().map(|l| l.text.as_str()).collect();
    assert_eq!(
        texts,
        [
            "one \"two\" three",
            "raw \"text\" here",
            "short",
            "{}: no such thing"
        ]
    );
    assert_eq!((found[0].line, found[3].line), (3, 7));
    assert!(!is_printed(&found[0].behind) && is_printed(&found[2].behind) && is_printed(&found[3].behind));
    assert!(
        reads_like_a_sentence("{}: no such thing")
            && !reads_like_a_sentence("{} = {} dB")
            && !reads_like_a_sentence("coverage.{tag}.people")
    );
    assert!(
        !reads_like_a_sentence("fig-people-total") && reads_like_a_sentence("common practice, no source")
    );
}
