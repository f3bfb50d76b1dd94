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
    /// Tags that it may be given, as far as its own file tells, by their argument.
    tags: Vec<(String, String)>,
    /// Whether it is handed on at once: elsewhere more arguments may follow.
    is_whole: bool,
}

/// Every `Message::new("...")` of a text with the calls behind it.
fn made(text: &str) -> Vec<Made> {
    let mut found = Vec::new();
    for (before, rest) in text
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
        let (mut args, mut tags) = (Vec::new(), Vec::new());
        while let Some((name, behind)) = argument(rest) {
            let call = &rest[..rest.len() - behind.len()];
            let given = tag_in(call).map(|value| tags_given(text, before, value));
            tags.extend(given.into_iter().flatten().map(|tag| (name.clone(), tag)));
            args.push(name);
            rest = behind;
        }
        let is_whole = rest.trim_start().starts_with(')');
        found.push(Made {
            code: code.to_owned(),
            args,
            tags,
            is_whole,
        });
    }
    found
}

/// What gives the tag in `.tag("name", what gives it)`.
fn tag_in(call: &str) -> Option<&str> {
    let (name, value) = call.trim_start().strip_prefix(".tag(")?.split_once(',')?;
    name.trim().strip_prefix('"')?;
    Some(value.trim().strip_suffix(')')?.trim_end_matches(',').trim())
}

/// The tags that a piece of source names: its texts that look like one. What stands before `=>` chooses and is no tag.
fn tags_of(source: &str) -> Vec<String> {
    let tag = |text: &str| {
        text.starts_with(|c: char| c.is_ascii_alphanumeric())
            && text
                .chars()
                .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
    };
    let parts: Vec<&str> = source.split('"').collect();
    let chooses = |i: usize| {
        let behind = parts.get(i + 1).map_or("", |b| b.trim_start());
        behind.starts_with("=>") || behind.starts_with('|')
    };
    let texts = parts.iter().enumerate().filter(|(i, _)| i % 2 == 1);
    texts
        .filter(|(i, text)| tag(text) && !chooses(*i))
        .map(|(_, text)| (*text).to_owned())
        .collect()
}

/// The tags a call may give, as far as its own file tells: texts in it; those of a function of the file that it calls; those that
/// the variable it names was made from.
fn tags_given(file: &str, before: &str, value: &str) -> Vec<String> {
    let named = value.trim_start_matches(['*', '&']);
    let end = named
        .find(|c: char| !c.is_alphanumeric() && c != '_')
        .unwrap_or(named.len());
    let (name, rest) = named.split_at(end);
    let within = |from: usize, text: &str, ends: &str| {
        let to = text[from..].find(ends).map_or(text.len(), |i| from + i);
        tags_of(&text[from..to])
    };
    let function = file
        .find(&format!("\nfn {name}("))
        .filter(|_| rest.starts_with('('));
    let function_start = before.rfind("\nfn ").max(before.rfind("    fn ")).unwrap_or(0);
    let before = &before[function_start..];
    let variable = before
        .rfind(&format!("let {name} = "))
        .filter(|_| rest.is_empty() && !name.is_empty());
    match (function, variable) {
        (Some(at), _) => within(at, file, "\n}"),
        (None, Some(at)) => within(at, before, ";\n"),
        (None, None) => tags_of(value),
    }
}

/// `.text("name", ...)` and its kin: the name and what stands behind the call.
fn argument(text: &str) -> Option<(String, &str)> {
    const CALLS: [&str; 12] = [
        "text", "tag", "count", "quantity", "number", "amount", "money", "with", "given", "given_in",
        "message", "lines",
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

/// Sources of the crates with their text, tests within them cut off.
fn texts() -> Vec<(PathBuf, String)> {
    let crates = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let mut files = Vec::new();
    sources(&crates, &mut files);
    let text = |file: &PathBuf| std::fs::read_to_string(file).expect("a source is text");
    let cut = |text: String| {
        text.split("#[cfg(test)]\nmod tests")
            .next()
            .unwrap_or_default()
            .to_owned()
    };
    files
        .into_iter()
        .map(|file| (file.clone(), cut(text(&file))))
        .collect()
}

/// Whether a message has a variant for a tag: one of its own, or `other`, which is made for the rest. A default by any other name
/// means one value, and would say something false of this one.
fn is_chosen(code: &str, argument: &str, tag: &str) -> bool {
    let all = words().selections(code, Language::English).into_iter().flatten();
    let mut by_it = all.filter(|s| s.argument == argument).peekable();
    by_it.peek().is_some() && by_it.all(|s| s.keys.contains(tag) || s.default == "other")
}

/// A tag that stands in the sources has its variant; one that no message chooses by would be printed as it is.
///
/// A tag that comes from another file or as a parameter is not seen here, but for those of [`PASSED_ON`].
#[test]
fn every_tag_in_the_sources_has_its_variant() {
    let (mut wrong, mut seen) = (Vec::new(), 0);
    for (file, text) in texts() {
        for message in made(&text) {
            for (argument, tag) in &message.tags {
                seen += 1;
                if !is_chosen(&message.code, argument, tag) {
                    wrong.push(format!(
                        "{}: {} has no variant `{tag}` of ${argument}",
                        file.display(),
                        message.code
                    ));
                }
            }
        }
    }
    assert!(seen > 40, "only {seen} tags seen");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Tags that go through a function or a field before they come to their message: the crate, what stands before the tag in its
/// sources, the message and its argument. A tag is the first text behind the opening, or the last one within its brackets.
const PASSED_ON: &[(&str, &str, Which, &str, &str)] = &[
    ("antenna/src", "within(", Which::First, "antenna-range", "what"),
    ("antenna/src", "within(", Which::Last, "antenna-range", "wanted"),
    ("coverage/src", "refuse(", Which::First, "coverage-study", "what"),
    (
        "propagation/src",
        "within(",
        Which::First,
        "propagation-p1812-range",
        "what",
    ),
];

/// Which text of a call.
#[derive(Clone, Copy, PartialEq)]
enum Which {
    First,
    Last,
}

/// The texts that are whole arguments of the call whose bracket has just been opened.
fn literals(text: &str) -> Vec<(usize, String)> {
    let (mut found, mut depth, mut start, mut position) = (Vec::new(), 0, 0, 0);
    let mut quoted = false;
    for (i, c) in text.char_indices() {
        let ends = !quoted && depth == 0 && matches!(c, ',' | ')');
        if ends {
            let whole = text[start..i].trim();
            let inner = whole.strip_prefix('"').and_then(|t| t.strip_suffix('"'));
            found.extend(inner.map(|t| (position, t.to_owned())));
            start = i + 1;
            position += usize::from(!whole.is_empty());
        }
        match c {
            '"' => quoted = !quoted,
            ')' if ends => break,
            '(' | '[' | '{' if !quoted => depth += 1,
            ')' | ']' | '}' if !quoted => depth -= 1,
            _ => {}
        }
    }
    found
}

#[test]
fn every_tag_that_is_passed_on_has_its_variant() {
    let all = texts();
    let mut wrong = Vec::new();
    for (folder, opening, which, code, argument) in PASSED_ON {
        let mut seen = 0;
        for (file, text) in all
            .iter()
            .filter(|(f, _)| f.display().to_string().contains(folder))
        {
            for (at, _) in text.match_indices(opening) {
                let before = text[..at].chars().next_back();
                if before.is_some_and(|c| c.is_alphanumeric() || "._".contains(c))
                    || text[..at].ends_with("fn ")
                {
                    continue;
                }
                let texts = literals(&text[at + opening.len()..]);
                let tag = match which {
                    Which::First => texts.iter().find(|(position, _)| *position == 0),
                    Which::Last => texts.iter().find(|(position, _)| *position == 3),
                };
                let Some((_, tag)) = tag else { continue };
                seen += 1;
                if !words()
                    .selections(code, Language::English)
                    .into_iter()
                    .flatten()
                    .any(|s| s.argument == *argument && s.keys.contains(tag))
                {
                    wrong.push(format!(
                        "{}: {code} has no variant `{tag}` of ${argument}",
                        file.display()
                    ));
                }
            }
        }
        assert!(seen > 3, "only {seen} tags behind `{opening}` in {folder}");
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Reasons of assumptions stand in tables of the sources by their code alone.
#[test]
fn every_reason_in_the_sources_is_a_message_and_every_such_message_is_used() {
    let texts = texts();
    let named: Vec<&str> = texts
        .iter()
        .flat_map(|(_, text)| text.split('"'))
        .filter(|code| code.len() > 4 && code.starts_with("why-") && !code.contains(char::is_whitespace))
        .collect();
    let missing = words().missing(named.iter().copied());
    assert!(missing.is_empty(), "{missing:?}");
    let all = words()
        .codes(Language::English)
        .filter(|code| code.starts_with("why-"));
    let unused: Vec<_> = all.filter(|code| !named.contains(code)).collect();
    assert!(unused.is_empty() && named.len() > 40, "{unused:?}");
}

/// Error types that tell themselves in English, each with the reason why nobody is shown it.
const FOR_PROGRAMMERS: &[(&str, &str)] = &[
    (
        "QuantityError",
        "`words` says it by its code; this is what a parser of others gets",
    ),
    ("Kind", "a part of `QuantityError`"),
    (
        "WordsError",
        "a message that cannot be said cannot be said by a message: a fault of ours",
    ),
    (
        "StoredFieldError",
        "a loss field kept in the cache that does not fit is computed anew, and nobody is told",
    ),
];

/// The type that an attribute `#[error(...)]` at a place belongs to: the one it stands in, or the one that follows.
fn type_of(text: &str, at: usize) -> &str {
    let name = |rest: &'_ str| -> usize { rest.find(|c: char| !c.is_alphanumeric()).unwrap_or(rest.len()) };
    let named = |from: usize, to: usize, last: bool| {
        let part = &text[from..to];
        let places = ["enum ", "struct "].into_iter().filter_map(|word| {
            let found = if last { part.rfind(word) } else { part.find(word) };
            found.map(|i| from + i + word.len())
        });
        if last { places.max() } else { places.min() }
    };
    let is_inside = text[..at].ends_with("    ");
    let start = if is_inside {
        named(0, at, true)
    } else {
        named(at, text.len(), false)
    };
    start.map_or("", |i| &text[i..i + name(&text[i..])])
}

/// An error shown to a person is a message, in every language; one in English within the sources is none.
#[test]
fn no_error_tells_itself_in_english() {
    let mut wrong = Vec::new();
    let mut used = Vec::new();
    for (file, text) in texts() {
        let attributes = text.match_indices("#[error(").map(|(at, _)| at);
        let literal = attributes.filter(|at| !text[*at..].starts_with("#[error(transparent)"));
        for at in literal.filter(|at| text[..*at].lines().next_back().is_none_or(|l| !l.contains("//"))) {
            let name = type_of(&text, at);
            match FOR_PROGRAMMERS.iter().find(|(known, _)| *known == name) {
                Some((known, _)) => used.push(*known),
                None => wrong.push(format!("{}: `{name}` tells itself in English", file.display())),
            }
        }
    }
    wrong.dedup();
    assert!(
        wrong.is_empty(),
        "make it a message, as its neighbours are:\n{}",
        wrong.join("\n")
    );
    for (known, _) in FOR_PROGRAMMERS {
        assert!(
            used.contains(known),
            "FOR_PROGRAMMERS names `{known}`, which needs it no more"
        );
    }
}

#[test]
fn tags_are_found_where_the_file_gives_them() {
    let file = "let what = match x {\n \"no tag\" => \"a\",\n \"b\" | \"c\" => \"d-e\",\n};\n\n\
                fn yes(is: bool) -> X {\n    if is { \"yes\" } else { \"no\" }\n}\n";
    let made = &file[..file.find("\nfn ").unwrap_or(0)];
    assert_eq!(tags_given(file, made, "what"), ["a", "d-e"]);
    assert!(
        tags_given(file, file, "what").is_empty(),
        "made in another function"
    );
    assert_eq!(tags_given(file, made, "*what"), ["a", "d-e"]);
    assert_eq!(tags_given(file, file, "yes(x)"), ["yes", "no"]);
    assert_eq!(
        tags_given(file, file, "way.map_or(\"none\", Way::word).replace(' ', \"-\")"),
        ["none"]
    );
    assert!(tags_given(file, file, "way.word()").is_empty());
}

#[test]
fn the_type_of_an_error_is_found() {
    let text = "pub enum Before {}\n#[error(\"a\")]\npub struct One;\npub enum Two {\n    #[error(\"b\")]\n    X,\n}\n";
    let places: Vec<_> = text
        .match_indices("#[error(")
        .map(|(at, _)| type_of(text, at))
        .collect();
    assert_eq!(places, ["One", "Two"]);
    assert_eq!(
        literals("\"a b\", f(\"c\"), x, \"d\") + \"e\""),
        [(0, "a b".to_owned()), (3, "d".to_owned())]
    );
}

#[test]
fn every_message_made_in_the_sources_has_its_words_and_its_arguments() {
    let all = texts();
    let (mut wrong, mut seen) = (Vec::new(), 0);
    for (file, text) in &all {
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
    assert!(seen > 150, "only {seen} messages seen in {} files", all.len());
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn messages_are_found_with_what_is_given_to_them() {
    let text = r#"f(Message::new("a-b").text("x", f("(", y)).count(
            "n", 1); push(Message::new("c").with("z", Arg::All(v))
        .tag("t", "u").tag("v", if w { "x" } else { "y" })), Message::new(code)"#;
    let found = made(text);
    assert_eq!(
        (found[0].args.join(" ").as_str(), found[0].is_whole),
        ("x n", false)
    );
    assert_eq!((found[1].code.as_str(), found[1].is_whole), ("c", true));
    assert_eq!(found[1].args, ["z", "t", "v"]);
    let tag = |name: &str, tag: &str| (name.to_owned(), tag.to_owned());
    assert_eq!(found[1].tags, [tag("t", "u"), tag("v", "x"), tag("v", "y")]);
    assert_eq!(found.len(), 2);
}
