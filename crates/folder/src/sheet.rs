//! A table of text cells from a CSV or a spreadsheet, each cell with its name.

use std::path::{Path, PathBuf};
use words::Message;

use calamine::{Data, Reader};

use crate::reading::{OpenError, read_text};

/// The most cells that are read.
const MOST_CELLS: usize = 2_000_000;

/// A table of text cells.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Name of the file, and of the sheet where there are several.
    pub name: String,
    /// The rows; cells are trimmed, empty ones are empty texts.
    pub rows: Vec<Row>,
    /// Whether places are told as in a spreadsheet (`C5`) or as line and field.
    pub is_spreadsheet: bool,
}

/// One row of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Its line in the file, or its row in the sheet, from 1.
    pub line: usize,
    /// Its cells.
    pub cells: Vec<String>,
}

/// Why a table could not be read.
#[derive(Debug, thiserror::Error)]
pub enum SheetError {
    /// The file cannot be opened, or is no text.
    Open(#[from] OpenError),
    /// The CSV is broken.
    Csv {
        /// The file.
        name: String,
        /// Where.
        line: u64,
        /// What is wrong.
        why: String,
    },
    /// The spreadsheet is broken.
    Spreadsheet {
        /// The file.
        path: PathBuf,
        /// What is wrong.
        why: Message,
    },
    /// Too many cells.
    TooLarge {
        /// The file.
        name: String,
    },
}

impl From<&SheetError> for Message {
    fn from(error: &SheetError) -> Self {
        match error {
            SheetError::Open(error) => error.into(),
            SheetError::Csv { name, line, why } => Message::new("list-csv")
                .text("path", name)
                .text("line", line.to_string())
                .text("why", why),
            SheetError::Spreadsheet { path, why } => Message::new("list-spreadsheet")
                .text("path", path.display().to_string())
                .message("why", why.clone()),
            SheetError::TooLarge { name } => Message::new("list-too-large")
                .text("path", name)
                .count("limit", MOST_CELLS as i64),
        }
    }
}

words::said_in_english!(SheetError);

impl Sheet {
    /// Reads a `.csv`, `.xlsx` or `.ods` file: of a spreadsheet the first sheet that has a header with `id`.
    ///
    /// # Errors
    /// [`SheetError`] with the file's name.
    pub fn open(path: &Path) -> Result<Self, SheetError> {
        let name = path
            .file_name()
            .map(|n| n.to_string_lossy().into_owned())
            .unwrap_or_default();
        if path.extension().is_some_and(|e| e.eq_ignore_ascii_case("csv")) {
            let (text, _) = read_text(path)?;
            return Self::from_csv(&name, &text);
        }
        spreadsheet(path, &name)
    }

    /// Reads the text of a CSV; fields are parted by `;`, tab or `,`, whichever the header uses most.
    ///
    /// # Errors
    /// [`SheetError::Csv`] with the line.
    pub fn from_csv(name: &str, text: &str) -> Result<Self, SheetError> {
        let text = text.trim_start_matches('\u{feff}');
        let header = text.lines().find(|l| !l.trim().is_empty()).unwrap_or("");
        let parts = |c: char| header.matches(c).count();
        let separator = [b';', b'\t', b',']
            .into_iter()
            .max_by_key(|c| parts(*c as char))
            .unwrap_or(b',');
        let mut reader = csv::ReaderBuilder::new();
        let reader = reader
            .delimiter(separator)
            .has_headers(false)
            .flexible(true)
            .trim(csv::Trim::All);
        let mut rows = Vec::new();
        for record in reader.from_reader(text.as_bytes()).records() {
            let record = record.map_err(|e| SheetError::Csv {
                name: name.into(),
                line: e.position().map_or(0, csv::Position::line),
                why: e.to_string(),
            })?;
            let line = record.position().map_or(0, |p| p.line() as usize);
            rows.push(Row {
                line,
                cells: record.iter().map(str::to_owned).collect(),
            });
            too_large(name, rows.len(), record.len())?;
        }
        Ok(Self {
            name: name.into(),
            rows,
            is_spreadsheet: false,
        })
    }

    /// The name of a cell: `C5`, or `5:3` for line and field of a CSV.
    pub fn cell_name(&self, line: usize, column: usize) -> String {
        if !self.is_spreadsheet {
            return format!("{line}:{}", column + 1);
        }
        let (mut letters, mut rest) = (String::new(), column + 1);
        while rest > 0 {
            letters.insert(0, char::from(b'A' + ((rest - 1) % 26) as u8));
            rest = (rest - 1) / 26;
        }
        format!("{letters}{line}")
    }
}

fn too_large(name: &str, rows: usize, columns: usize) -> Result<(), SheetError> {
    if rows.saturating_mul(columns) > MOST_CELLS {
        Err(SheetError::TooLarge { name: name.into() })
    } else {
        Ok(())
    }
}

fn spreadsheet(path: &Path, name: &str) -> Result<Sheet, SheetError> {
    let broken = |why: Message| SheetError::Spreadsheet {
        path: path.into(),
        why,
    };
    let mut book = calamine::open_workbook_auto(path).map_err(|e| broken(Message::foreign(e)))?;
    let mut first = None;
    for sheet_name in book.sheet_names() {
        let range = book
            .worksheet_range(&sheet_name)
            .map_err(|e| broken(Message::foreign(e)))?;
        too_large(name, range.height(), range.width())?;
        let (top, left) = range.start().unwrap_or((0, 0));
        let rows = range.rows().enumerate().map(|(i, row)| {
            let indent = std::iter::repeat_n(String::new(), left as usize);
            Row {
                line: top as usize + i + 1,
                cells: indent.chain(row.iter().map(cell_text)).collect(),
            }
        });
        let sheet = Sheet {
            name: format!("{name}, {sheet_name}"),
            rows: rows.collect(),
            is_spreadsheet: true,
        };
        let has_id = sheet
            .rows
            .iter()
            .take(20)
            .any(|r| r.cells.iter().any(|c| c.eq_ignore_ascii_case("id")));
        if has_id {
            return Ok(sheet);
        }
        first.get_or_insert(sheet);
    }
    first.ok_or_else(|| broken(Message::new("list-no-sheet")))
}

/// A cell as text: numbers with all their digits and a point, dates as ISO 8601.
fn cell_text(cell: &Data) -> String {
    match cell {
        Data::Empty => String::new(),
        Data::String(text) | Data::DateTimeIso(text) | Data::DurationIso(text) => text.trim().to_owned(),
        Data::Float(number) => number.to_string(),
        Data::Int(number) => number.to_string(),
        Data::Bool(is) => is.to_string(),
        Data::DateTime(when) => {
            let (year, month, day, ..) = when.to_ymd_hms_milli();
            format!("{year:04}-{month:02}-{day:02}")
        }
        Data::Error(error) => format!("{error}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fields_are_parted_by_what_the_header_uses() {
        for text in [
            "id;sell\ntx-30;1 EUR\n",
            "id,sell\ntx-30,1 EUR\n",
            "\u{feff}id\tsell\ntx-30\t1 EUR\n",
        ] {
            let sheet = Sheet::from_csv("x", text).unwrap();
            assert_eq!(
                sheet.rows[1],
                Row {
                    line: 2,
                    cells: vec!["tx-30".into(), "1 EUR".into()]
                }
            );
        }
    }

    #[test]
    fn cells_are_named_as_people_name_them() {
        let mut sheet = Sheet {
            name: "x".into(),
            rows: vec![],
            is_spreadsheet: true,
        };
        assert_eq!(
            (sheet.cell_name(5, 2), sheet.cell_name(1, 26)),
            ("C5".into(), "AA1".into())
        );
        sheet.is_spreadsheet = false;
        assert_eq!(sheet.cell_name(5, 2), "5:3");
    }
}
