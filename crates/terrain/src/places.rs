//! Named places, from CSV: `name,lat,lon,people,surroundings`.

use std::io::Read;

use words::Message;

use crate::position::Position;

/// What surrounds a place, for the field it wants (rows of Rec. ITU-R BS.412-9 § 1).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Surroundings {
    /// Open country and villages.
    Rural,
    /// A town.
    Urban,
    /// A large city.
    LargeCity,
}

/// A named place.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// Its name.
    pub name: String,
    /// Its middle.
    pub position: Position,
    /// People who live there; `None` if not known.
    pub people: Option<f64>,
    /// What surrounds it.
    pub surroundings: Surroundings,
}

/// A cell of the table that cannot be read.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub struct CellError {
    /// Line of the text, the header being line 1.
    pub line: u64,
    /// Column of the table, from 1.
    pub column: usize,
    /// What stood there and what was expected.
    pub message: Message,
}

/// Columns of the table; the first three must be there, in any order, unknown ones are errors.
const COLUMNS: [&str; 5] = ["name", "lat", "lon", "people", "surroundings"];

/// Most errors reported at once.
const MAX_ERRORS: usize = 50;

/// Reads places from CSV with a header; `people` and `surroundings` (`rural`, `urban`, `large city`) may be left out or empty,
/// surroundings are then rural below 5 000 people and urban from there (common practice, no source).
///
/// # Errors
/// Every cell that cannot be read, with line and column, up to 50.
///
/// # Example
/// ```
/// let text = "name,lat,lon,people,surroundings\nThrannock,43.48,-35.49,1480,rural\n";
/// assert_eq!(terrain::places::read_csv(text.as_bytes()).unwrap()[0].people, Some(1480.0));
/// let bad = terrain::places::read_csv("name,lat,lon\nA,north,-35\n".as_bytes()).unwrap_err();
/// assert_eq!(bad[0].to_string(), "2:2  lat `north`: expected degrees such as `43.48`");
/// ```
pub fn read_csv(from: impl Read) -> Result<Vec<Place>, Vec<CellError>> {
    let mut reader = csv::ReaderBuilder::new()
        .trim(csv::Trim::All)
        .flexible(true)
        .from_reader(from);
    let header = reader.headers().map_err(|e| vec![unreadable(1, &e)])?.clone();
    let columns = Columns::of(&header)?;
    let (mut places, mut errors) = (Vec::new(), Vec::new());
    for (index, row) in reader.records().enumerate() {
        match row {
            Ok(row) => {
                let line = row.position().map_or(index as u64 + 2, csv::Position::line);
                match columns.place(&row, line) {
                    Ok(place) => places.push(place),
                    Err(mut found) => errors.append(&mut found),
                }
            }
            Err(error) => errors.push(unreadable(index as u64 + 2, &error)),
        }
        if errors.len() >= MAX_ERRORS {
            break;
        }
    }
    if errors.is_empty() {
        Ok(places)
    } else {
        Err(errors)
    }
}

fn unreadable(line: u64, error: &csv::Error) -> CellError {
    let line = error.position().map_or(line, csv::Position::line);
    CellError {
        line,
        column: 1,
        message: Message::new("terrain-places-row").message("why", Message::foreign(error)),
    }
}

/// Where each column stands in the file.
struct Columns([Option<usize>; 5]);

impl Columns {
    fn of(header: &csv::StringRecord) -> Result<Self, Vec<CellError>> {
        let mut found = [None; 5];
        let mut errors = Vec::new();
        for (index, name) in header.iter().enumerate() {
            let name = name.trim_start_matches('\u{feff}');
            let complain = |message| CellError {
                line: 1,
                column: index + 1,
                message,
            };
            match COLUMNS
                .iter()
                .position(|column| column.eq_ignore_ascii_case(name))
            {
                Some(k) if found[k].is_none() => found[k] = Some(index),
                Some(_) => errors.push(complain(
                    Message::new("terrain-places-column-twice").text("column", name),
                )),
                None => errors.push(complain(
                    Message::new("terrain-places-column-unknown")
                        .text("column", name)
                        .text("columns", COLUMNS.join(", ")),
                )),
            }
        }
        for (k, name) in COLUMNS
            .iter()
            .enumerate()
            .take(3)
            .filter(|(k, _)| found[*k].is_none())
        {
            let message = Message::new("terrain-places-column-missing")
                .text("column", *name)
                .text("columns", COLUMNS.join(", "));
            errors.push(CellError {
                line: 1,
                column: k + 1,
                message,
            });
        }
        if errors.is_empty() {
            Ok(Self(found))
        } else {
            Err(errors)
        }
    }

    fn place(&self, row: &csv::StringRecord, line: u64) -> Result<Place, Vec<CellError>> {
        let mut errors = Vec::new();
        let name = self.cell(row, 0);
        if name.is_empty() {
            errors.push(self.complain(line, 0, Message::new("terrain-places-nameless")));
        }
        let lat = self.number(row, line, 1, &mut errors);
        let lon = self.number(row, line, 2, &mut errors);
        let people = self.people(row, line, &mut errors);
        let surroundings = self.surroundings(row, people, line, &mut errors);
        let position = match (lat, lon) {
            (Some(lat), Some(lon)) => Position::new(lat, lon)
                .map_err(|e| errors.push(self.complain(line, 1, (&e).into())))
                .ok(),
            _ => None,
        };
        match position {
            Some(position) if errors.is_empty() => Ok(Place {
                name: name.to_owned(),
                position,
                people,
                surroundings,
            }),
            _ => Err(errors),
        }
    }

    fn cell<'a>(&self, row: &'a csv::StringRecord, column: usize) -> &'a str {
        self.0[column].and_then(|index| row.get(index)).unwrap_or("")
    }

    fn complain(&self, line: u64, column: usize, message: Message) -> CellError {
        CellError {
            line,
            column: self.0[column].map_or(column, |index| index) + 1,
            message,
        }
    }

    fn number(
        &self,
        row: &csv::StringRecord,
        line: u64,
        column: usize,
        errors: &mut Vec<CellError>,
    ) -> Option<f64> {
        let text = self.cell(row, column);
        match text.parse::<f64>() {
            Ok(value) if value.is_finite() => Some(value),
            _ => {
                let message = Message::new("terrain-places-number")
                    .text("column", COLUMNS[column])
                    .text("text", text);
                errors.push(self.complain(line, column, message));
                None
            }
        }
    }

    fn people(&self, row: &csv::StringRecord, line: u64, errors: &mut Vec<CellError>) -> Option<f64> {
        if self.cell(row, 3).is_empty() {
            return None;
        }
        let people = self.number(row, line, 3, errors)?;
        if people < 0.0 {
            let message = Message::new("terrain-places-people").given("people", people);
            errors.push(self.complain(line, 3, message));
            return None;
        }
        Some(people)
    }

    fn surroundings(
        &self,
        row: &csv::StringRecord,
        people: Option<f64>,
        line: u64,
        errors: &mut Vec<CellError>,
    ) -> Surroundings {
        match self.cell(row, 4).to_ascii_lowercase().as_str() {
            "" if people.is_some_and(|n| n >= URBAN_FROM_PEOPLE) => Surroundings::Urban,
            "" | "rural" => Surroundings::Rural,
            "urban" => Surroundings::Urban,
            "large city" => Surroundings::LargeCity,
            other => {
                let message = Message::new("terrain-places-surroundings").text("text", other);
                errors.push(self.complain(line, 4, message));
                Surroundings::Rural
            }
        }
    }
}

/// From this many people a place without stated surroundings is urban (common practice, no source).
const URBAN_FROM_PEOPLE: f64 = 5000.0;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_bad_cell_is_told_with_line_and_column() {
        let text = "lon,name,lat,people,surroundings\n\
                    -35.5,Good,43.4,,\n\
                    x,\"Two,\nlines\",43.4,12,rural\n\
                    -35.5,,143.4,-3,swamp\n\
                    -35.5,NaN town,NaN,NaN,urban\n";
        let errors = read_csv(text.as_bytes()).unwrap_err();
        let at: Vec<_> = errors.iter().map(|e| (e.line, e.column)).collect();
        assert_eq!(
            at,
            [(3, 1), (5, 2), (5, 4), (5, 5), (5, 3), (6, 3), (6, 4)],
            "{errors:#?}"
        );
    }

    #[test]
    fn headers_must_be_known() {
        let errors = read_csv("name,latitude,lon\n".as_bytes()).unwrap_err();
        assert_eq!(errors.len(), 2);
        assert!(
            errors[0]
                .to_string()
                .starts_with("1:2  unknown column `latitude`")
        );
        assert!(read_csv("".as_bytes()).is_err());
        assert!(read_csv(&b"name,lat,lon\n\xff\xfe,1,2\n"[..]).is_err());
    }

    #[test]
    fn surroundings_follow_people_where_not_stated() {
        let places = read_csv("name,lat,lon,people\nA,1,2,6240\nB,1,2,900\nC,1,2,\n".as_bytes()).unwrap();
        assert_eq!(places[0].surroundings, Surroundings::Urban);
        assert_eq!(places[1].surroundings, Surroundings::Rural);
        assert_eq!(places[2].people, None);
    }
}
