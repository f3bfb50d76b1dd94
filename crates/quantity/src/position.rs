//! A place on the earth: latitude and longitude, in degrees or in degrees, minutes and seconds.

use std::borrow::Cow;
use std::fmt;
use std::str::FromStr;

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use crate::error::{Kind, QuantityError};
use crate::number::{DecimalNumber, Source, leading_number};
use crate::read::plain_text;

const EXPECTED: &str = "a position such as `47.1234 N, 11.5678 E` or `47°07'24.2\"N 11°34'04.1\"E`";
const EXAMPLES: &[&str] = &[
    "47.1234 N, 11.5678 E",
    "-33.5, 18.25",
    "47°07'24.2\"N 11°34'04.1\"E",
];

/// A position on the WGS 84 ellipsoid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Position {
    lat_deg: f64,
    lon_deg: f64,
}

impl Position {
    /// From degrees, north and east positive.
    ///
    /// # Errors
    /// Latitude outside ±90°, longitude outside ±180°, or either not finite.
    pub fn from_deg(lat_deg: f64, lon_deg: f64) -> Result<Self, QuantityError> {
        Self::within(lat_deg, lon_deg).map_err(|kind| refused(&format!("{lat_deg}, {lon_deg}"), kind))
    }

    fn within(lat_deg: f64, lon_deg: f64) -> Result<Self, Kind> {
        if !lat_deg.is_finite() || !lon_deg.is_finite() {
            return Err(Kind::NotFinite);
        }
        if lat_deg.abs() > 90.0 && lat_deg.abs() <= 180.0 && lon_deg.abs() <= 90.0 {
            return Err(Kind::Swapped);
        }
        if lat_deg.abs() > 90.0 {
            return Err(Kind::OutOfRange {
                low: "90° S".into(),
                high: "90° N".into(),
            });
        }
        if lon_deg.abs() > 180.0 {
            return Err(Kind::OutOfRange {
                low: "180° W".into(),
                high: "180° E".into(),
            });
        }
        Ok(Self {
            lat_deg: lat_deg + 0.0,
            lon_deg: lon_deg + 0.0,
        })
    }

    /// Latitude in degrees, north positive.
    pub fn lat_deg(self) -> f64 {
        self.lat_deg
    }

    /// Longitude in degrees, east positive.
    pub fn lon_deg(self) -> f64 {
        self.lon_deg
    }

    /// Reads degrees or degrees, minutes, seconds; latitude first unless letters say otherwise.
    ///
    /// # Errors
    /// [`QuantityError`] with what stood there and what was expected.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        read(text).map_err(|kind| refused(text, kind))
    }

    /// The exact form: `47.1234 N, 11.5678 E`.
    pub fn file_form(self) -> String {
        let part = |deg: f64, letters: [char; 2]| {
            format!(
                "{} {}",
                DecimalNumber::shortest(deg.abs()).text(0),
                letters[usize::from(deg < 0.0)]
            )
        };
        format!(
            "{}, {}",
            part(self.lat_deg, ['N', 'S']),
            part(self.lon_deg, ['E', 'W'])
        )
    }

    /// For people, in degrees with so many decimals: `47.1234° N, 11.5678° E`.
    pub fn show_degrees(self, decimals: usize) -> String {
        let part = |deg: f64, letters: [char; 2]| {
            let text = format!("{:.decimals$}", deg.abs());
            format!("{text}°\u{a0}{}", letters[usize::from(deg < 0.0)])
        };
        format!(
            "{}, {}",
            part(self.lat_deg, ['N', 'S']),
            part(self.lon_deg, ['E', 'W'])
        )
    }

    /// For people and licences, in degrees, minutes and tenths of a second: `47°07′24.2″N 11°34′04.1″E`.
    pub fn show_dms(self) -> String {
        format!(
            "{} {}",
            dms(self.lat_deg, ['N', 'S']),
            dms(self.lon_deg, ['E', 'W'])
        )
    }
}

fn dms(deg: f64, letters: [char; 2]) -> String {
    // Tenths of a second as a whole number, so that 59.96″ carries into the minute.
    let tenths = (deg.abs() * 36_000.0).round() as u64;
    let (degrees, minutes, rest) = (tenths / 36_000, tenths / 600 % 60, tenths % 600);
    format!(
        "{degrees}°{minutes:02}′{:02}.{}″{}",
        rest / 10,
        rest % 10,
        letters[usize::from(deg < 0.0)]
    )
}

fn refused(text: &str, kind: Kind) -> QuantityError {
    QuantityError {
        text: text.into(),
        quantity: "position",
        expected: EXPECTED,
        examples: EXAMPLES,
        kind: Box::new(kind),
    }
}

/// One coordinate as read: degrees with sign, and the letter that went with it.
struct Coordinate {
    deg: f64,
    letter: Option<char>,
}

fn read(text: &str) -> Result<Position, Kind> {
    let plain = plain_text(text);
    if plain.is_empty() {
        return Err(Kind::Empty);
    }
    let lower = plain.to_ascii_lowercase();
    if lower.contains("nan") || lower.contains("inf") {
        return Err(Kind::NotFinite);
    }
    let parts = two_parts(&plain).ok_or(Kind::NotAPosition)?;
    let first = coordinate(&parts.0)?;
    let second = coordinate(&parts.1)?;
    let is_lon = |c: &Coordinate| matches!(c.letter, Some('E' | 'W'));
    let is_lat = |c: &Coordinate| matches!(c.letter, Some('N' | 'S'));
    if (is_lat(&first) && is_lat(&second)) || (is_lon(&first) && is_lon(&second)) {
        return Err(Kind::NotAPosition);
    }
    if is_lon(&first) || is_lat(&second) {
        Position::within(second.deg, first.deg)
    } else {
        Position::within(first.deg, second.deg)
    }
}

/// The two halves of a position: at a comma, or behind the first letter, or at the middle of an even count of numbers.
fn two_parts(plain: &str) -> Option<(String, String)> {
    if let Some((a, b)) = plain.split_once(',') {
        return (!b.contains(',')).then(|| (a.trim().into(), b.trim().into()));
    }
    let letters: Vec<usize> = plain
        .char_indices()
        .filter(|(_, c)| "NSEWnsew".contains(*c))
        .map(|(i, _)| i)
        .collect();
    if let [first, second] = letters.as_slice() {
        let cut = if *first == 0 { *second } else { first + 1 };
        return Some((plain[..cut].trim().into(), plain[cut..].trim().into()));
    }
    let words: Vec<&str> = plain.split_whitespace().collect();
    let is_even = letters.is_empty() && matches!(words.len(), 2 | 4 | 6);
    is_even.then(|| {
        (
            words[..words.len() / 2].join(" "),
            words[words.len() / 2..].join(" "),
        )
    })
}

fn coordinate(text: &str) -> Result<Coordinate, Kind> {
    let is_letter = |c: char| "NSEWnsew".contains(c);
    let letter = text
        .chars()
        .find(|c| is_letter(*c))
        .map(|c| c.to_ascii_uppercase());
    let mut rest = text.trim_matches(|c: char| is_letter(c) || c == ' ');
    let mut numbers = Vec::new();
    while !rest.is_empty() {
        let (number, after) = leading_number(rest, Source::File).map_err(|kind| {
            if kind == Kind::NotANumber {
                Kind::NotAPosition
            } else {
                kind
            }
        })?;
        numbers.push(number);
        rest = after.trim_start_matches(['°', '\'', '′', '"', '″', ':', ' ']);
        if after.starts_with(|c: char| c.is_alphabetic()) {
            return Err(Kind::NotAPosition);
        }
    }
    let [degrees, minutes_seconds @ ..] = numbers.as_slice() else {
        return Err(Kind::NotAPosition);
    };
    if minutes_seconds.len() > 2 || minutes_seconds.iter().any(|n| n.negative || n.shifted(0) >= 60.0) {
        return Err(Kind::NotAPosition);
    }
    let parts = minutes_seconds
        .iter()
        .zip([60.0, 3600.0])
        .map(|(n, per_degree)| n.shifted(0) / per_degree);
    let size = degrees.shifted(0).abs() + parts.sum::<f64>();
    let is_south_or_west = matches!(letter, Some('S' | 'W'));
    if is_south_or_west && degrees.negative {
        return Err(Kind::NotAPosition);
    }
    Ok(Coordinate {
        deg: if is_south_or_west || degrees.negative {
            -size
        } else {
            size
        },
        letter,
    })
}

impl fmt::Display for Position {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.file_form())
    }
}

impl FromStr for Position {
    type Err = QuantityError;
    fn from_str(text: &str) -> Result<Self, QuantityError> {
        Self::parse(text)
    }
}

impl Serialize for Position {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.file_form())
    }
}

impl<'de> Deserialize<'de> for Position {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = Cow::<'de, str>::deserialize(deserializer)?;
        Self::parse(&text).map_err(de::Error::custom)
    }
}

impl JsonSchema for Position {
    fn schema_name() -> Cow<'static, str> {
        "Position".into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        schemars::json_schema!({ "type": "string", "description": EXPECTED, "examples": EXAMPLES })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_usual_spelling_gives_the_same_place() {
        let there = Position::from_deg(47.5, -11.25).unwrap();
        for text in [
            "47.5 N, 11.25 W",
            "47.5, -11.25",
            "47.5 −11.25",
            "11.25W 47.5N",
            "N47.5 W11.25",
            "47°30'00\"N 11°15'00\"W",
            "47°30′N 11°15′W",
            "47 30 0 N, 11 15 0 W",
            "47:30:00 N 11:15:00 W",
        ] {
            assert_eq!(Position::parse(text).unwrap(), there, "{text}");
        }
        assert_eq!(there.file_form(), "47.5 N, 11.25 W");
        assert_eq!(there.show_dms(), "47°30′00.0″N 11°15′00.0″W");
        assert_eq!(
            Position::from_deg(-0.5 / 3600.0, 179.999_999).unwrap().show_dms(),
            "0°00′00.5″S 180°00′00.0″E"
        );
    }

    #[test]
    fn bad_positions_say_what_is_wrong() {
        for (text, code) in [
            ("", "quantity-empty"),
            ("147.5, 11.2", "quantity-swapped"),
            ("97.5 N, 111.2 E", "quantity-out-of-range"),
            ("7.5 N, 191.2 E", "quantity-out-of-range"),
            ("47.5 N, 11.2 N", "quantity-not-a-position"),
            ("47°60'00\"N 11°15'00\"W", "quantity-not-a-position"),
            ("NaN, 1", "quantity-not-finite"),
            ("47.5", "quantity-not-a-position"),
            ("here", "quantity-not-a-position"),
        ] {
            assert_eq!(Position::parse(text).map_err(|e| e.code()), Err(code), "{text}");
        }
    }
}
