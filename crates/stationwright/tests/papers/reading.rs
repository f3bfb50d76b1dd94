//! Reading a paper as somebody else would: words of a PDF by poppler, tokens of a text, and what an assessment says.

use serde_json::Value;
use std::collections::BTreeSet;
use std::io::Write;
use std::process::{Command, Stdio};

/// What poppler says of a PDF; `None`, said aloud, where the machine has none of it.
pub fn poppler(program: &str, arguments: &[&str], pdf: &[u8]) -> Option<String> {
    let mut file = tempfile::NamedTempFile::new().unwrap();
    file.write_all(pdf).unwrap();
    let path = file.path().display().to_string();
    let mut command = Command::new(program);
    let arguments = arguments
        .iter()
        .map(|a| if *a == "FILE" { path.as_str() } else { a });
    match command.args(arguments).stderr(Stdio::null()).output() {
        Ok(output) => Some(String::from_utf8(output.stdout).unwrap()),
        Err(error) => {
            assert!(std::env::var_os("CI").is_none(), "{program}: {error}");
            println!("left out: {program}: {error}");
            None
        }
    }
}

/// The text in the order in which it was set: a row of a table is a line, columns side by side do not mix.
pub fn text(pdf: &[u8]) -> Option<String> {
    poppler("pdftotext", &["-raw", "FILE", "-"], pdf)
}

/// Words of a text without the points and brackets around them.
pub fn tokens(text: &str) -> Vec<&str> {
    text.split(|c: char| c.is_whitespace() || c == '\u{a0}' || c == '\u{202f}')
        .map(|word| {
            word.trim_start_matches(['(', '“'])
                .trim_end_matches([')', ';', ',', '.', ':', '”'])
        })
        .filter(|word| !word.is_empty())
        .collect()
}

/// Whether a token is a number, sign, grouping and a degree sign included.
pub fn is_number(token: &str) -> bool {
    let digits = token.trim_start_matches(['+', '−', '±']).trim_end_matches('°');
    digits.starts_with(|c: char| c.is_ascii_digit())
        && digits.chars().all(|c| c.is_ascii_digit() || c == ',' || c == '.')
}

/// What an assessment says: every token, and every number with the token after it.
#[derive(Default)]
pub struct Told {
    pub tokens: BTreeSet<String>,
    pub pairs: BTreeSet<(String, String)>,
    pub units: BTreeSet<String>,
}

impl Told {
    pub fn of(values: &[&Value]) -> Self {
        let mut told = Self::default();
        values.iter().for_each(|value| told.hear(value));
        told
    }

    fn hear(&mut self, value: &Value) {
        match value {
            Value::String(text) => self.listen(text),
            Value::Array(list) => list.iter().for_each(|v| self.hear(v)),
            Value::Object(fields) => {
                if let (Some(Value::String(text)), Some(Value::String(unit))) =
                    (fields.get("text"), fields.get("unit"))
                {
                    // A degree sign stands close.
                    let close = if unit == "°" { "" } else { " " };
                    self.listen(&format!("{text}{close}{unit}"));
                    self.units.extend(tokens(unit).first().map(|u| (*u).to_owned()));
                }
                fields.values().for_each(|v| self.hear(v));
            }
            // Whole numbers, such as the number of a bay.
            Value::Number(number) if number.is_u64() => {
                self.tokens.insert(number.to_string());
            }
            _ => {}
        }
    }

    fn listen(&mut self, text: &str) {
        let words = tokens(text);
        self.tokens.extend(words.iter().map(|w| (*w).to_owned()));
        self.pairs.extend(
            words
                .windows(2)
                .filter(|w| is_number(w[0]))
                .map(|w| (w[0].to_owned(), w[1].to_owned())),
        );
    }
}
