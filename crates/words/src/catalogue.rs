//! The catalogue: all messages of all languages, and how one is said.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use thiserror::Error;
use unic_langid::LanguageIdentifier;

use crate::language::Language;
use crate::mentions::{Selection, all_mentions, collect};
use crate::message::{Arg, Message};

include!(concat!(env!("OUT_DIR"), "/files.rs"));

/// Why a message could not be said, or the catalogue not be read. A fault of ours, not of the user's.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum WordsError {
    /// No such message in this language.
    #[error("there is no message `{code}` in `{}`", language.tag())]
    NoMessage {
        /// The code.
        code: String,
        /// The language asked for.
        language: Language,
    },
    /// The message wants an argument that was not given, or that cannot be shown.
    #[error("message `{code}` in `{}`: {why}", language.tag())]
    Argument {
        /// The code.
        code: String,
        /// The language asked for.
        language: Language,
        /// What is wrong, with the argument's name.
        why: String,
    },
    /// A message file that cannot be read.
    #[error("message file {file}: {why}")]
    File {
        /// Its name.
        file: String,
        /// What is wrong with it.
        why: String,
    },
}

/// A sentence and the language it came out in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Said {
    /// The sentence.
    pub text: String,
    /// Its language: another than the one asked for where that has no such message.
    pub language: Language,
}

/// All messages of all languages.
pub struct Words {
    bundles: BTreeMap<Language, FluentBundle<FluentResource>>,
    arguments: BTreeMap<(Language, String), BTreeSet<String>>,
    selections: BTreeMap<(Language, String), BTreeSet<Selection>>,
}

/// The catalogue that is built in.
pub fn words() -> &'static Words {
    static WORDS: LazyLock<Words> =
        LazyLock::new(|| Words::built_in().expect("the embedded message files are read by a test"));
    &WORDS
}

/// Says `message` in `language`.
///
/// # Errors
/// No such message, or an argument missing or not to be shown.
pub fn say(message: &Message, language: Language) -> Result<String, WordsError> {
    words().say(message, language)
}

/// Says `message` in `language`, or in English where that language has no such message; which of both is told.
///
/// # Errors
/// As [`say`], for English.
pub fn say_best(message: &Message, language: Language) -> Result<Said, WordsError> {
    match say(message, language) {
        Err(WordsError::NoMessage { .. }) if language != Language::English => say(message, Language::English)
            .map(|text| Said {
                text,
                language: Language::English,
            }),
        said => said.map(|text| Said { text, language }),
    }
}

/// Says `message` in `language`, or in English where that language lacks it. A message that cannot be said is a fault of ours
/// and shows what is wrong with it.
pub fn said(message: &Message, language: Language) -> String {
    say_best(message, language).map_or_else(|error| error.to_string(), |said| said.text)
}

/// Lets an error that converts into a [`Message`] be shown: in English, for logs and terminals.
#[macro_export]
macro_rules! said_in_english {
    ($error:ty) => {
        impl std::fmt::Display for $error {
            fn fmt(&self, to: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                to.write_str(&$crate::said(
                    &$crate::Message::from(self),
                    $crate::Language::English,
                ))
            }
        }
    };
}

impl Words {
    /// Reads the embedded files.
    ///
    /// # Errors
    /// A file that does not parse, or a code that stands twice.
    pub fn built_in() -> Result<Self, WordsError> {
        Self::from_files(FILES)
    }

    fn from_files(files: &[(&str, &str, &str)]) -> Result<Self, WordsError> {
        let mut words = Words {
            bundles: BTreeMap::new(),
            arguments: BTreeMap::new(),
            selections: BTreeMap::new(),
        };
        for language in Language::ALL {
            let mut bundle = empty_bundle(*language);
            let mut found = BTreeMap::new();
            for (_, name, text) in files.iter().filter(|(tag, ..)| *tag == language.tag()) {
                let resource = FluentResource::try_new((*text).to_owned())
                    .map_err(|(_, faults)| bad_file(name, text, &faults))?;
                collect(&resource, &mut found);
                bundle.add_resource(resource).map_err(|faults| WordsError::File {
                    file: (*name).into(),
                    why: faults
                        .iter()
                        .map(ToString::to_string)
                        .collect::<Vec<_>>()
                        .join("; "),
                })?;
            }
            for code in found.keys() {
                let all = all_mentions(code, &found, &mut BTreeSet::new());
                let key = (*language, code.clone());
                words.arguments.insert(key.clone(), all.arguments);
                words.selections.insert(key, all.selections);
            }
            words.bundles.insert(*language, bundle);
        }
        Ok(words)
    }

    /// Says `message` in `language`.
    ///
    /// # Errors
    /// No such message, or an argument missing or not to be shown.
    pub fn say(&self, message: &Message, language: Language) -> Result<String, WordsError> {
        let mut args = FluentArgs::new();
        for (name, arg) in &message.args {
            args.set(name.as_ref(), self.value(message, name, arg, language)?);
        }
        self.format(&message.code, &args, language)
    }

    fn format(&self, code: &str, args: &FluentArgs, language: Language) -> Result<String, WordsError> {
        let no_message = || WordsError::NoMessage {
            code: code.into(),
            language,
        };
        let bundle = self.bundles.get(&language).ok_or_else(no_message)?;
        let (id, attribute) = code
            .split_once('.')
            .map_or((code, None), |(id, attribute)| (id, Some(attribute)));
        let message = bundle.get_message(id).ok_or_else(no_message)?;
        let pattern = match attribute {
            None => message.value(),
            Some(name) => message.get_attribute(name).map(|a| a.value()),
        };
        let mut faults = Vec::new();
        let text = bundle
            .format_pattern(pattern.ok_or_else(no_message)?, Some(args), &mut faults)
            .into_owned();
        if faults.is_empty() {
            return Ok(text);
        }
        let why = faults
            .iter()
            .map(ToString::to_string)
            .collect::<Vec<_>>()
            .join("; ");
        Err(WordsError::Argument {
            code: code.into(),
            language,
            why,
        })
    }

    /// An argument as Fluent takes it: a number where it chooses a plural, else finished text.
    fn value(
        &self,
        message: &Message,
        name: &str,
        arg: &Arg,
        language: Language,
    ) -> Result<FluentValue<'static>, WordsError> {
        match arg {
            Arg::Count(count) => Ok(FluentValue::from(*count)),
            Arg::Choices(texts) => Ok(self.joined(texts, "words-or", language)?.into()),
            Arg::All(texts) => Ok(self.joined(texts, "words-and", language)?.into()),
            Arg::Said(message) => Ok(self.within(message, language)?.into()),
            Arg::Lines(messages) => {
                let lines: Result<Vec<_>, _> = messages.iter().map(|m| self.within(m, language)).collect();
                Ok(lines?.join("\n").into())
            }
            arg => {
                let shown = arg.shown(language.locale()).ok_or_else(|| WordsError::Argument {
                    code: message.code.to_string(),
                    language,
                    why: format!("argument `{name}` cannot be shown: {arg:?}"),
                })?;
                match reference_of(arg) {
                    None => Ok(shown.into()),
                    Some(code) => {
                        let mut args = FluentArgs::new();
                        args.set("amount", shown);
                        Ok(self.format(code, &args, language)?.into())
                    }
                }
            }
        }
    }

    /// A message inside another: in English where the language lacks it, since half a translation tells more than none.
    fn within(&self, message: &Message, language: Language) -> Result<String, WordsError> {
        match self.say(message, language) {
            Err(WordsError::NoMessage { .. }) if language != Language::English => {
                self.say(message, Language::English)
            }
            said => said,
        }
    }

    /// `a, b` and the message `joint` before the last one.
    fn joined(&self, texts: &[String], joint: &str, language: Language) -> Result<String, WordsError> {
        let [first @ .., last] = texts else {
            return Ok(String::new());
        };
        if first.is_empty() {
            return Ok(last.clone());
        }
        let mut args = FluentArgs::new();
        args.set("first", first.join(", "));
        args.set("last", last.clone());
        self.format(joint, &args, language)
    }

    /// The codes of a language, in order.
    pub fn codes(&self, language: Language) -> impl Iterator<Item = &str> {
        self.arguments
            .keys()
            .filter(move |(l, _)| *l == language)
            .map(|(_, code)| code.as_str())
    }

    /// The arguments a message takes, those of the messages it refers to included; none when there is no such message.
    pub fn arguments(&self, code: &str, language: Language) -> Option<&BTreeSet<String>> {
        self.arguments.get(&(language, code.to_owned()))
    }

    /// The choices in a message, those of the messages it refers to included; none when there is no such message.
    pub fn selections(&self, code: &str, language: Language) -> Option<&BTreeSet<Selection>> {
        self.selections.get(&(language, code.to_owned()))
    }

    /// Those of `codes` that have no message in English: for the tests of whoever speaks.
    pub fn missing<'a>(&self, codes: impl IntoIterator<Item = &'a str>) -> Vec<&'a str> {
        codes
            .into_iter()
            .filter(|code| self.arguments(code, Language::English).is_none())
            .collect()
    }
}

/// The message that puts a quantity's reference behind its amount, for quantities that have one.
fn reference_of(arg: &Arg) -> Option<&'static str> {
    let Arg::Quantity { quantity, .. } = arg else {
        return None;
    };
    match quantity.as_str() {
        "height-above-ground" => Some("words-above-ground"),
        "height-above-sea" => Some("words-above-sea"),
        "effective-height" => Some("words-effective-height"),
        "isotropic-power" => Some("words-eirp"),
        _ => None,
    }
}

fn empty_bundle(language: Language) -> FluentBundle<FluentResource> {
    let id: LanguageIdentifier = language.tag().parse().expect("our language tags are well formed");
    let mut bundle = FluentBundle::new_concurrent(vec![id]);
    bundle.set_use_isolating(false);
    bundle.set_formatter(Some(match language {
        Language::English => |value, _| grouped(value, Language::English),
        Language::French => |value, _| grouped(value, Language::French),
    }));
    bundle
}

/// Counts are printed as the language groups them; everything else arrives as text.
fn grouped(value: &FluentValue, language: Language) -> Option<String> {
    match value {
        FluentValue::Number(number) => Some(language.locale().count(number.value as i64)),
        _ => None,
    }
}

fn bad_file(name: &str, text: &str, faults: &[fluent_syntax::parser::ParserError]) -> WordsError {
    let say = |fault: &fluent_syntax::parser::ParserError| {
        let line = text.as_bytes()[..fault.pos.start.min(text.len())]
            .iter()
            .filter(|b| **b == b'\n')
            .count()
            + 1;
        format!("line {line}: {fault}")
    };
    WordsError::File {
        file: name.into(),
        why: faults.iter().map(say).collect::<Vec<_>>().join("; "),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::Digits;

    fn words_of(en: &'static str) -> Words {
        Words::from_files(&[("en", "en/test.ftl", en)]).unwrap()
    }

    #[test]
    fn counts_choose_the_plural_and_are_grouped() {
        let words = words_of(
            "hears = { $people ->\n [one] One person hears it.\n *[other] { $people } people hear it.\n }",
        );
        let say = |n| {
            words
                .say(&Message::new("hears").count("people", n), Language::English)
                .unwrap()
        };
        assert_eq!(say(1), "One person hears it.");
        assert_eq!(say(8130), "8,130 people hear it.");
    }

    #[test]
    fn bad_a_missing_argument_is_an_error_not_a_half_sentence() {
        let words = words_of("short = { $place } is { $short } short.");
        let message = Message::new("short").text("place", "Skerrow");
        assert!(matches!(
            words.say(&message, Language::English),
            Err(WordsError::Argument { .. })
        ));
        let nan = message.number("short", f64::NAN, Digits::Decimals(1));
        assert!(matches!(
            words.say(&nan, Language::English),
            Err(WordsError::Argument { .. })
        ));
        let none = Message::new("nowhere");
        assert!(matches!(
            words.say(&none, Language::English),
            Err(WordsError::NoMessage { .. })
        ));
    }

    #[test]
    fn bad_files_name_their_line() {
        let fault = Words::from_files(&[("en", "en/test.ftl", "good = Good.\nbad = { $\n")])
            .err()
            .unwrap();
        assert!(
            fault.to_string().starts_with("message file en/test.ftl: line 2:"),
            "{fault}"
        );
        assert!(Words::from_files(&[("en", "a", "x = X.\n"), ("en", "b", "x = X.\n")]).is_err());
    }

    #[test]
    fn a_cause_is_said_inside_its_message_in_the_same_language_or_in_english() {
        let words = Words::from_files(&[
            ("en", "a", "outer = File: { $why }\ninner = bad\nonly = worse\n"),
            ("fr", "b", "outer = Fichier : { $why }\ninner = mauvais\n"),
        ])
        .unwrap();
        let say = |inner: &'static str, language| {
            let message = Message::new("outer").message("why", Message::new(inner));
            words.say(&message, language).unwrap()
        };
        assert_eq!(say("inner", Language::English), "File: bad");
        assert_eq!(say("inner", Language::French), "Fichier : mauvais");
        assert_eq!(say("only", Language::French), "Fichier : worse");
        let nowhere = Message::new("outer").message("why", Message::new("nowhere"));
        assert!(words.say(&nowhere, Language::French).is_err());
        let lines = Message::new("outer").lines("why", [Message::new("inner"), Message::new("only")]);
        assert_eq!(words.say(&lines, Language::English).unwrap(), "File: bad\nworse");
    }

    #[test]
    fn numbers_as_given_keep_their_digits_and_may_be_none() {
        let words = words_of("n = { $n }");
        let say = |message: Message| words.say(&message, Language::English).unwrap();
        assert_eq!(say(Message::new("n").given("n", 0.1)), "0.1");
        assert_eq!(
            say(Message::new("n").given_in("n", -1234.5678, "m")),
            "\u{2212}1,234.5678\u{a0}m"
        );
        assert_eq!(say(Message::new("n").given("n", f64::NAN)), "NaN");
        assert_eq!(
            say(Message::new("n").given_in("n", f64::INFINITY, "km")),
            "inf km"
        );
    }

    #[test]
    fn choices_are_found_with_their_variants() {
        let words = words_of("a = { $kind ->\n [x] X\n [2] two\n *[other] Y\n }\nb = { a } and { $n }\n");
        let found = words.selections("b", Language::English).unwrap();
        let one = found.first().unwrap();
        assert_eq!(
            (found.len(), one.argument.as_str(), one.default.as_str()),
            (1, "kind", "other")
        );
        assert_eq!(
            one.keys.iter().map(String::as_str).collect::<Vec<_>>(),
            ["2", "other", "x"]
        );
    }

    #[test]
    fn attributes_and_references_count_as_arguments() {
        let words = words_of(
            "a = { b } at { $place }.\nb = { $kind ->\n [x] X\n *[other] Y\n }\n    .more = { $extra }\n",
        );
        let names = |code| {
            words
                .arguments(code, Language::English)
                .unwrap()
                .iter()
                .cloned()
                .collect::<Vec<_>>()
        };
        assert_eq!(names("a"), ["kind", "place"]);
        assert_eq!(names("b.more"), ["extra"]);
        assert_eq!(words.missing(["a", "c"]), ["c"]);
    }
}
