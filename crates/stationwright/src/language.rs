//! The language that is spoken: the one asked for on the command line, else the station's, else that of the machine, else English.

use station::Node;
use station::document::Value;
use std::sync::OnceLock;
use words::{Language, Message, said};

/// What the command line asks for.
static ASKED: OnceLock<Language> = OnceLock::new();
/// What the station's file says: one process has one station.
static OF_FILE: OnceLock<Language> = OnceLock::new();
/// What the machine is set to.
static OF_MACHINE: OnceLock<Language> = OnceLock::new();

/// Settles what the command line and the machine say, before anything else is read: a refused argument is said in it too.
pub fn settle(args: impl Iterator<Item = String>) {
    if let Some(language) = asked(args) {
        ASKED.get_or_init(|| language);
    }
    if let Some(language) = of_machine(|name| std::env::var(name).ok()) {
        OF_MACHINE.get_or_init(|| language);
    }
}

/// Remembers what a station's file says, so that its own faults are told in its language.
pub fn of_file(document: &Node) {
    let tag = match document.get("language").map(|node| &node.value) {
        Some(Value::Text(tag)) => Some(tag.as_str()),
        _ => None,
    };
    if let Some(language) = tag.and_then(Language::from_tag) {
        OF_FILE.get_or_init(|| language);
    }
}

/// The language of a station, by the `language` of its file.
pub fn of(station: Option<&str>) -> Language {
    let asked = ASKED.get().copied();
    let stated = asked.or_else(|| station.and_then(Language::from_tag));
    stated.or_else(|| OF_MACHINE.get().copied()).unwrap_or_default()
}

/// The language of whoever sits at the terminal.
pub fn here() -> Language {
    let asked = ASKED.get().or_else(|| OF_FILE.get());
    asked.or_else(|| OF_MACHINE.get()).copied().unwrap_or_default()
}

/// A message in the language of whoever sits at the terminal.
pub fn told(message: impl Into<Message>) -> String {
    said(&message.into(), here())
}

/// A row of plain numbers, with the decimal sign of whoever sits at the terminal.
pub fn row(numbers: &str) -> String {
    numbers.replace('.', &here().locale().decimal.to_string())
}

/// A language as typed on the command line.
///
/// # Errors
/// What there is, in words.
pub fn typed(tag: &str) -> Result<Language, String> {
    let known = Language::ALL.iter().map(|l| l.tag().to_owned()).collect();
    let refused = || {
        Message::new("cli-no-language")
            .text("given", tag)
            .with("known", words::Arg::All(known))
    };
    Language::from_tag(tag).ok_or_else(|| told(refused()))
}

/// The value of `--language`, wherever it stands.
fn asked(mut args: impl Iterator<Item = String>) -> Option<Language> {
    while let Some(arg) = args.next() {
        match arg.strip_prefix("--language") {
            Some("") => return args.next().and_then(|tag| Language::from_tag(&tag)),
            Some(rest) => return rest.strip_prefix('=').and_then(Language::from_tag),
            None => {}
        }
    }
    None
}

/// What POSIX says of sentences: the first of three variables that is set (IEEE Std 1003.1, § 8.2, from memory).
fn of_machine(variable: impl Fn(&str) -> Option<String>) -> Option<Language> {
    let set = ["LC_ALL", "LC_MESSAGES", "LANG"]
        .into_iter()
        .find_map(|name| variable(name).filter(|v| !v.is_empty()));
    set.and_then(|tag| Language::from_tag(tag.split('.').next().unwrap_or_default()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_command_line_is_heard_wherever_it_says_so() {
        let of = |args: &[&str]| asked(args.iter().map(|a| (*a).to_owned()));
        assert_eq!(
            of(&["ask", "--language", "fr", "--mast", "30m"]),
            Some(Language::French)
        );
        assert_eq!(of(&["--language=en", "assess"]), Some(Language::English));
        assert_eq!(of(&["assess", "--language"]), None);
        assert_eq!(of(&["assess", "--language", "tlh"]), None);
    }

    #[test]
    fn the_first_variable_that_is_set_decides() {
        let of = |set: &[(&str, &str)]| {
            of_machine(|name| set.iter().find(|(n, _)| *n == name).map(|(_, v)| (*v).to_owned()))
        };
        assert_eq!(of(&[("LANG", "fr_FR.UTF-8")]), Some(Language::French));
        assert_eq!(of(&[("LANG", "fr_FR.UTF-8"), ("LC_ALL", "C.UTF-8")]), None);
        assert_eq!(
            of(&[("LC_ALL", ""), ("LC_MESSAGES", "fr_CA"), ("LANG", "en_GB")]),
            Some(Language::French)
        );
        assert_eq!(of(&[]), None);
    }
}
