//! A text with its name, and where in it things stand.

use std::sync::Arc;

/// A text and where its lines begin.
#[derive(Debug, Clone)]
pub struct Source {
    name: String,
    text: Arc<str>,
    line_starts: Arc<[usize]>,
}

impl Source {
    /// A text under the name it is reported by, such as `station.toml`.
    pub fn new(name: impl Into<String>, text: impl Into<Arc<str>>) -> Self {
        let text = text.into();
        let ends = text
            .bytes()
            .enumerate()
            .filter(|(_, b)| *b == b'\n')
            .map(|(i, _)| i + 1);
        let line_starts = std::iter::once(0).chain(ends).collect();
        Self {
            name: name.into(),
            text,
            line_starts,
        }
    }

    /// The name it is reported by.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The whole text.
    pub fn text(&self) -> &Arc<str> {
        &self.text
    }

    /// Line and column of a byte, both from 1; the column counts characters, so that an editor goes there.
    pub fn position(&self, byte: usize) -> (usize, usize) {
        let byte = floor_char(&self.text, byte.min(self.text.len()));
        let line = self.line_starts.partition_point(|start| *start <= byte);
        let start = self.line_starts[line - 1];
        (line, self.text[start..byte].chars().count() + 1)
    }

    /// The text of a line counted from 1, without its end; empty beyond the last.
    pub fn line(&self, line: usize) -> &str {
        let Some(start) = line.checked_sub(1).and_then(|i| self.line_starts.get(i)) else {
            return "";
        };
        let rest = &self.text[*start..];
        rest.split('\n').next().unwrap_or("").trim_end_matches('\r')
    }

    /// The text between two bytes; what lies between characters is rounded outwards to whole ones.
    pub fn slice(&self, start: usize, end: usize) -> &str {
        let start = floor_char(&self.text, start.min(self.text.len()));
        let end = floor_char(&self.text, end.min(self.text.len())).max(start);
        &self.text[start..end]
    }
}

/// The last boundary between characters at or before `byte`.
fn floor_char(text: &str, byte: usize) -> usize {
    (0..=byte).rev().find(|i| text.is_char_boundary(*i)).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_and_columns_count_from_one_and_in_characters() {
        let source = Source::new("x", "a = 1\nµ = \"54 dBµV/m\"\r\nz = 2");
        assert_eq!(source.position(0), (1, 1));
        assert_eq!(source.position(6), (2, 1));
        assert_eq!(source.position(8), (2, 2), "behind the two bytes of µ");
        assert_eq!(source.line(2), "µ = \"54 dBµV/m\"");
        assert_eq!(source.position(10_000), (3, 6));
        assert_eq!(source.line(9), "");
    }
}
