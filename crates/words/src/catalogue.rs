//! The catalogue: all messages of all languages, and how one is said.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use fluent_syntax::ast::{CallArguments, Entry, Expression, InlineExpression, Pattern, PatternElement};
use thiserror::Error;
use unic_langid::LanguageIdentifier;

use crate::language::Language;
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
        };
        for language in Language::ALL {
            let mut bundle = empty_bundle(*language);
            let mut found = BTreeMap::new();
            for (_, name, text) in files.iter().filter(|(tag, ..)| *tag == language.tag()) {
                let resource = FluentResource::try_new((*text).to_owned())
                    .map_err(|(_, faults)| bad_file(name, text, &faults))?;
                collect_arguments(&resource, &mut found);
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
                words.arguments.insert(
                    (*language, code.clone()),
                    all_arguments(code, &found, &mut BTreeSet::new()),
                );
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

/// What one message mentions: its own arguments, and the messages it refers to.
#[derive(Default)]
struct Mentions {
    arguments: BTreeSet<String>,
    messages: BTreeSet<String>,
}

fn collect_arguments(resource: &FluentResource, found: &mut BTreeMap<String, Mentions>) {
    for entry in resource.entries() {
        let Entry::Message(message) = entry else { continue };
        if let Some(pattern) = &message.value {
            mentions_of(pattern, found.entry(message.id.name.to_owned()).or_default());
        }
        for attribute in &message.attributes {
            let code = format!("{}.{}", message.id.name, attribute.id.name);
            mentions_of(&attribute.value, found.entry(code).or_default());
        }
    }
}

fn all_arguments(
    code: &str,
    found: &BTreeMap<String, Mentions>,
    seen: &mut BTreeSet<String>,
) -> BTreeSet<String> {
    let Some(mentions) = found.get(code) else {
        return BTreeSet::new();
    };
    if !seen.insert(code.to_owned()) {
        return BTreeSet::new();
    }
    let mut arguments = mentions.arguments.clone();
    for other in &mentions.messages {
        arguments.extend(all_arguments(other, found, seen));
    }
    arguments
}

fn mentions_of(pattern: &Pattern<&str>, mentions: &mut Mentions) {
    for element in &pattern.elements {
        if let PatternElement::Placeable { expression } = element {
            mentions_in(expression, mentions);
        }
    }
}

fn mentions_in(expression: &Expression<&str>, mentions: &mut Mentions) {
    match expression {
        Expression::Inline(inline) => mentions_inline(inline, mentions),
        Expression::Select { selector, variants } => {
            mentions_inline(selector, mentions);
            for variant in variants {
                mentions_of(&variant.value, mentions);
            }
        }
    }
}

fn mentions_inline(inline: &InlineExpression<&str>, mentions: &mut Mentions) {
    match inline {
        InlineExpression::VariableReference { id } => {
            mentions.arguments.insert(id.name.to_owned());
        }
        InlineExpression::MessageReference { id, attribute } => {
            let code = attribute
                .as_ref()
                .map_or(id.name.to_owned(), |a| format!("{}.{}", id.name, a.name));
            mentions.messages.insert(code);
        }
        InlineExpression::FunctionReference {
            arguments: CallArguments { positional, .. },
            ..
        } => {
            for argument in positional {
                mentions_inline(argument, mentions);
            }
        }
        InlineExpression::Placeable { expression } => mentions_in(expression, mentions),
        _ => {}
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
