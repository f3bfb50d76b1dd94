//! Patterns as CSV: one row a direction, both planes.

use num_complex::Complex64 as C64;

use super::{FLOOR_DBD, Pattern, PatternFileError};
use crate::direction::{Field, Plane};

/// Columns of the table.
const HEADER: [&str; 4] = [
    "bearing_deg",
    "elev_deg",
    "vertical_gain_dbd",
    "horizontal_gain_dbd",
];

impl Pattern {
    /// The pattern as CSV: bearing, elevation, gain in both planes, dBd to a thousandth, in steps of at most so many degrees.
    pub fn to_csv(&self, bearing_step_deg: f64, elev_step_deg: f64) -> String {
        let bearings = (360.0 / bearing_step_deg.clamp(0.1, 90.0)).ceil() as usize;
        let elevs = (180.0 / elev_step_deg.clamp(0.05, 45.0)).ceil() as usize;
        let mut out = HEADER.join(",") + "\n";
        for b in 0..bearings {
            let bearing = 360.0 * b as f64 / bearings as f64;
            for e in 0..=elevs {
                let elev = -90.0 + 180.0 * e as f64 / elevs as f64;
                let [v, h] = Plane::BOTH.map(|p| self.gain_dbd(p, bearing, elev));
                out.push_str(&format!("{bearing:.4},{elev:.4},{v:.3},{h:.3}\n"));
            }
        }
        out
    }

    /// A pattern from CSV as [`Self::to_csv`] writes it: a full grid of equal steps, rows in any order, further columns ignored.
    /// Phases are not in the file, so values between the rows are interpolated on the size of the field.
    ///
    /// # Errors
    /// [`PatternFileError`] for a missing column, a number that is none, or a grid with a hole.
    pub fn from_csv(text: &str, freq_mhz: f64) -> Result<Self, PatternFileError> {
        let grid = Grid::read(text)?;
        let (bearing_step, elev_step) = (360.0 / grid.bearings as f64, 180.0 / (grid.elevs - 1) as f64);
        Ok(Self::from_field(freq_mhz, bearing_step, elev_step, |d| Field {
            vertical: C64::from(grid.at(d.bearing_deg, d.elev_deg, 0)),
            horizontal: C64::from(grid.at(d.bearing_deg, d.elev_deg, 1)),
        }))
    }
}

/// Field ratios on a full grid, bearing by bearing.
struct Grid {
    bearings: usize,
    elevs: usize,
    cells: Vec<[f64; 2]>,
}

impl Grid {
    fn read(text: &str) -> Result<Self, PatternFileError> {
        let mut reader = csv::ReaderBuilder::new()
            .trim(csv::Trim::All)
            .flexible(true)
            .from_reader(text.as_bytes());
        let header = reader
            .headers()
            .map_err(|e| PatternFileError::Csv { why: e.to_string() })?
            .clone();
        let column = |name: &'static str| {
            let place = header.iter().position(|h| h.eq_ignore_ascii_case(name));
            place.ok_or(PatternFileError::Column { name })
        };
        let columns = [
            column(HEADER[0])?,
            column(HEADER[1])?,
            column(HEADER[2])?,
            column(HEADER[3])?,
        ];
        let mut rows: Vec<[f64; 4]> = Vec::new();
        for (i, record) in reader.records().enumerate() {
            let record = record.map_err(|e| PatternFileError::Csv { why: e.to_string() })?;
            let mut row = [0.0; 4];
            for (value, &c) in row.iter_mut().zip(&columns) {
                let word = record.get(c).unwrap_or_default();
                let parsed = word.parse::<f64>().ok().filter(|v| v.is_finite());
                *value = parsed.ok_or_else(|| PatternFileError::Line {
                    line: record.position().map_or(i + 2, |p| p.line() as usize),
                    text: word.to_owned(),
                    wanted: "number",
                })?;
            }
            rows.push(row);
        }
        Self::full(rows)
    }

    fn full(rows: Vec<[f64; 4]>) -> Result<Self, PatternFileError> {
        let key = |x: f64| (x * 1000.0).round() as i64;
        let bearings: std::collections::BTreeSet<i64> =
            rows.iter().map(|r| key(r[0].rem_euclid(360.0))).collect();
        let elevs: std::collections::BTreeSet<i64> = rows.iter().map(|r| key(r[1])).collect();
        let (nb, ne) = (bearings.len(), elevs.len());
        let even = |set: &std::collections::BTreeSet<i64>, from: f64, step: f64| {
            set.iter()
                .enumerate()
                .all(|(i, k)| (*k as f64 / 1000.0 - from - step * i as f64).abs() < 0.01)
        };
        let whole = nb >= 1
            && ne >= 2
            && even(&bearings, 0.0, 360.0 / nb as f64)
            && even(&elevs, -90.0, 180.0 / (ne - 1).max(1) as f64);
        if !whole || rows.len() != nb * ne {
            return Err(PatternFileError::Grid {
                bearings: nb,
                elevs: ne,
                rows: rows.len(),
            });
        }
        let mut cells = vec![[0.0; 2]; nb * ne];
        for r in &rows {
            let b = (r[0].rem_euclid(360.0) / 360.0 * nb as f64).round() as usize % nb;
            let e = ((r[1] + 90.0) / 180.0 * (ne - 1) as f64).round() as usize;
            let ratio = |db: f64| {
                if db <= FLOOR_DBD {
                    0.0
                } else {
                    10f64.powf(db / 20.0)
                }
            };
            cells[b * ne + e] = [ratio(r[2]), ratio(r[3])];
        }
        Ok(Self {
            bearings: nb,
            elevs: ne,
            cells,
        })
    }

    fn at(&self, bearing_deg: f64, elev_deg: f64, plane: usize) -> f64 {
        let x = bearing_deg.rem_euclid(360.0) / 360.0 * self.bearings as f64;
        let y = (elev_deg + 90.0) / 180.0 * (self.elevs - 1) as f64;
        let (b, e) = (x as usize % self.bearings, (y as usize).min(self.elevs - 2));
        let (t, u) = (x - x.floor(), y - e as f64);
        let cell = |b: usize, e: usize| self.cells[b % self.bearings * self.elevs + e][plane];
        let lower = cell(b, e) * (1.0 - t) + cell(b + 1, e) * t;
        let upper = cell(b, e + 1) * (1.0 - t) + cell(b + 1, e + 1) * t;
        lower * (1.0 - u) + upper * u
    }
}
