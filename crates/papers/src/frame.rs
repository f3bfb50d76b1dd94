//! What every set paper shares: title block, head, words, and the road from data to a PDF.

use crate::book::Book;
use crate::paper::PaperError;
use crate::typeset::Typeset;
use crate::wording::Wording;
use serde_json::{Map as Object, Value};

/// Words of the title block.
const WORDS: [(&str, &str); 9] = [
    ("semicolon", "words-semicolon"),
    ("colon", "words-colon"),
    ("revision", "paper-revision"),
    ("date", "paper-date"),
    ("file", "paper-file"),
    ("sheet", "paper-sheet"),
    ("drawn", "paper-drawn"),
    ("unsigned", "paper-unsigned"),
    ("invented", "paper-invented"),
];

/// Sets a paper: the template with the head's data, its own, and its drawings.
///
/// # Errors
/// [`PaperError::Typeset`] with the typesetter's words, [`PaperError::Words`].
pub(crate) fn set(
    book: &Book,
    title: &'static str,
    template: &str,
    own_words: &[(&str, &'static str)],
    own: Value,
    mut files: Vec<(&str, Vec<u8>)>,
) -> Result<Vec<u8>, PaperError> {
    let sheet = book.sheet;
    let words = Wording::of(&sheet.language);
    let mut said = Object::new();
    for (name, code) in WORDS.iter().chain(own_words) {
        said.insert((*name).to_owned(), Value::from(words.word(code)?));
    }
    let mut data = Object::new();
    let mut put = |key: &str, value: Value| data.insert(key.to_owned(), value);
    put("w", Value::Object(said));
    put("title", words.word(title)?.into());
    put("name", sheet.name.as_str().into());
    put("invented", sheet.invented.into());
    put("client", sheet.client.clone().into());
    put("revision", sheet.revision.to_string().into());
    put("date", sheet.date.clone().into());
    put("digest", sheet.digest.get(..8).into());
    put("currency", sheet.currency.as_str().into());
    put("language", sheet.language.as_str().into());
    if let Value::Object(own) = own {
        data.extend(own);
    }
    files.push(("/data.json", Value::Object(data).to_string().into_bytes()));
    let ident = format!("{title}-{}-{}", sheet.digest, sheet.revision);
    Typeset::new(template, files).pdf(&ident, sheet.date.is_some())
}
