//! Pattern files after NSMA WG16.99.050 (1999), read and written as text.

use std::fmt::Write as _;

use num_complex::Complex64 as C64;

use super::{FLOOR_DBD, Pattern, PatternFileError};
use crate::direction::{Field, Plane};

/// One cut of a pattern file: dB against the antenna's maximum, 0 or less.
#[derive(Debug, Clone, PartialEq)]
pub struct FileCut {
    /// `AZ`, `EL`, or another plane's name, as written.
    pub kind: String,
    /// Antenna and measuring polarisation, as written: `V/V`, `H/H`.
    pub polarisation: String,
    /// Angle in degrees and relative level in dB, in the order of the file.
    pub points: Vec<(f64, f64)>,
}

/// A pattern file: the fields one asks for, and its cuts. Azimuth angles are bearings from the antenna's own zero, elevations are
/// positive above the horizon.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PatternFile {
    /// Maker of the antenna (ANTMAN).
    pub maker: String,
    /// Model (MODNUM).
    pub model: String,
    /// Description (DESCR1).
    pub description: String,
    /// Date of the data, yyyymmdd (DTDATA).
    pub date: String,
    /// Lowest and highest frequency it holds for, MHz (LOWFRQ, HGHFRQ).
    pub band_mhz: (f64, f64),
    /// Gain at mid band, dBd (MDGAIN, converted when GUNITS says dBi).
    pub gain_dbd: f64,
    /// The cuts.
    pub cuts: Vec<FileCut>,
}

/// dBi less dBd of a half-wave dipole, as files have it.
const DBI_OVER_DBD: f64 = 2.15;

impl PatternFile {
    /// Reads a file's text. Unknown tags are passed over; angles may run −180…180 or 0…360.
    ///
    /// # Errors
    /// [`PatternFileError`] with the line for a number that is none, a count that does not hold, or a gain in unknown units;
    /// without one cut, or without a gain.
    ///
    /// # Source
    /// NSMA WG16.99.050, tags from a public summary.
    pub fn parse(text: &str) -> Result<Self, PatternFileError> {
        let mut file = Self::default();
        let mut gain: Option<f64> = None;
        let mut dbi = false;
        let mut lines = text.lines().enumerate().map(|(i, l)| (i + 1, l.trim()));
        while let Some((line, text)) = lines.next() {
            let mut words = text.split(',').map(str::trim);
            let tag = words
                .next()
                .unwrap_or_default()
                .trim_end_matches(':')
                .to_ascii_uppercase();
            let value = words.next().unwrap_or_default();
            match tag.as_str() {
                "ANTMAN" => value.clone_into(&mut file.maker),
                "MODNUM" => value.clone_into(&mut file.model),
                "DESCR1" => text
                    .split_once(',')
                    .map_or("", |t| t.1)
                    .clone_into(&mut file.description),
                "DTDATA" => value.clone_into(&mut file.date),
                "LOWFRQ" => file.band_mhz.0 = number(value, line, text)?,
                "HGHFRQ" => file.band_mhz.1 = number(value, line, text)?,
                "GUNITS" => dbi = gain_unit_is_dbi(value, line, text)?,
                "MDGAIN" => gain = Some(number(value, line, text)?),
                "PATCUT" => file.cuts.push(FileCut {
                    kind: value.to_ascii_uppercase(),
                    ..FileCut::empty()
                }),
                "POLARI" => {
                    if let Some(cut) = file.cuts.last_mut() {
                        value.clone_into(&mut cut.polarisation);
                    }
                }
                "NUPOIN" => {
                    let count = number(value, line, text)? as usize;
                    let cut = file.cuts.last_mut().ok_or(PatternFileError::Line {
                        line,
                        text: text.to_owned(),
                        wanted: "cut-before",
                    })?;
                    for _ in 0..count {
                        let short = PatternFileError::Short {
                            line,
                            wanted: count,
                            found: cut.points.len(),
                        };
                        let (at, row) = lines.next().ok_or(short)?;
                        cut.points.push(point(row, at)?);
                    }
                }
                "ENDFIL" => break,
                _ => {}
            }
        }
        let gain = gain.ok_or(PatternFileError::Missing { what: "gain" })?;
        file.gain_dbd = if dbi { gain - DBI_OVER_DBD } else { gain };
        if file.cuts.iter().all(|c| c.points.is_empty()) {
            return Err(PatternFileError::Missing { what: "cut" });
        }
        Ok(file)
    }

    /// The file as text, records ending CR LF, levels to a thousandth of a decibel.
    pub fn to_text(&self) -> String {
        let clean = |s: &str| s.replace([',', '\r', '\n'], " ");
        let mut records = vec![
            ("REVNUM", "NSMA WG16.99.050".to_owned()),
            ("REVDAT", "19990520".to_owned()),
            ("ANTMAN", clean(&self.maker)),
            ("MODNUM", clean(&self.model)),
            ("DESCR1", clean(&self.description)),
            (
                "DESCR2",
                "ELEVATION POSITIVE ABOVE THE HORIZON; AZIMUTH CLOCKWISE".to_owned(),
            ),
            ("DTDATA", clean(&self.date)),
            ("LOWFRQ", self.band_mhz.0.to_string()),
            ("HGHFRQ", self.band_mhz.1.to_string()),
            ("GUNITS", "DBD/DBR".to_owned()),
            ("MDGAIN", format!("{:.3}", self.gain_dbd)),
            ("PATTYP", "TYPICAL".to_owned()),
            ("NUMCUT", self.cuts.len().to_string()),
        ];
        let mut out: String = records
            .drain(..)
            .map(|(tag, value)| format!("{tag}:,{value}\r\n"))
            .collect();
        for cut in &self.cuts {
            let _ = write!(
                out,
                "PATCUT:,{}\r\nPOLARI:,{}\r\n",
                clean(&cut.kind),
                clean(&cut.polarisation)
            );
            if let (Some(first), Some(last)) = (cut.points.first(), cut.points.last()) {
                let _ = write!(out, "FSTLST:,{},{}\r\n", first.0, last.0);
            }
            let _ = write!(out, "NUPOIN:,{}\r\n", cut.points.len());
            for (angle, db) in &cut.points {
                let _ = write!(out, "{angle:.4},{db:.3}\r\n");
            }
        }
        out.push_str("ENDFIL:,EOF\r\n");
        out
    }

    /// Two cuts of each plane of a pattern through the plane's strongest direction, in steps of one degree round and
    /// `elev_step_deg` up and down, against the strongest of all.
    pub fn of(pattern: &Pattern, planes: &[Plane], elev_step_deg: f64) -> Self {
        let peaks: Vec<_> = planes.iter().map(|p| (*p, pattern.peak(*p))).collect();
        let gain_dbd = peaks.iter().map(|p| p.1.gain_dbd).fold(FLOOR_DBD, f64::max);
        let relative = |gain: f64| (gain - gain_dbd).clamp(FLOOR_DBD, 0.0);
        let steps = (180.0 / elev_step_deg.clamp(0.05, 10.0)).round() as usize;
        let mut cuts = Vec::new();
        for (plane, peak) in peaks {
            let azimuth = pattern.horizontal_cut(plane, peak.elev_deg, 360);
            let elevation = pattern.vertical_cut(plane, peak.bearing_deg, steps);
            for (kind, cut) in [("AZ", azimuth), ("EL", elevation)] {
                cuts.push(FileCut {
                    kind: kind.into(),
                    polarisation: if plane == Plane::Vertical { "V/V" } else { "H/H" }.into(),
                    points: cut
                        .angle_deg
                        .into_iter()
                        .zip(cut.gain_dbd.into_iter().map(relative))
                        .collect(),
                });
            }
        }
        Self {
            band_mhz: (pattern.frequency_mhz(), pattern.frequency_mhz()),
            gain_dbd,
            cuts,
            ..Self::default()
        }
    }

    /// The whole pattern of one plane from its two cuts: azimuth times elevation shape, each against its own maximum, on linear
    /// field (common practice, no source: true only where the shapes do not depend on each other).
    ///
    /// # Errors
    /// [`PatternFileError::Missing`] without an azimuth or an elevation cut of that plane.
    pub fn pattern(&self, plane: Plane, freq_mhz: f64) -> Result<Pattern, PatternFileError> {
        let azimuth = self
            .cut("AZ", plane)
            .ok_or(PatternFileError::Missing { what: "azimuth-cut" })?;
        let elevation = self.cut("EL", plane).ok_or(PatternFileError::Missing {
            what: "elevation-cut",
        })?;
        let (round, up) = (Shape::round(&azimuth.points), Shape::up(&elevation.points));
        // The weaker plane of two never comes up to the antenna's own maximum.
        let top = azimuth.points.iter().chain(&elevation.points).map(|p| p.1);
        let peak = ratio(self.gain_dbd + top.fold(FLOOR_DBD, f64::max).min(0.0));
        Ok(Pattern::from_field(freq_mhz, 1.0, 0.25, |d| {
            let value = C64::from(peak * round.at(d.bearing_deg.rem_euclid(360.0)) * up.at(d.elev_deg));
            match plane {
                Plane::Vertical => Field {
                    vertical: value,
                    ..Field::default()
                },
                Plane::Horizontal => Field {
                    horizontal: value,
                    ..Field::default()
                },
            }
        }))
    }

    /// The cut of a kind and plane; a cut without a polarisation serves either.
    fn cut(&self, kind: &str, plane: Plane) -> Option<&FileCut> {
        let letter = if plane == Plane::Vertical { 'V' } else { 'H' };
        let fits = |c: &&FileCut| {
            let p = c.polarisation.trim().to_ascii_uppercase();
            c.kind == kind && !c.points.is_empty() && (p.is_empty() || p.starts_with(letter))
        };
        self.cuts.iter().find(fits)
    }
}

impl FileCut {
    fn empty() -> Self {
        Self {
            kind: String::new(),
            polarisation: String::new(),
            points: Vec::new(),
        }
    }
}

/// A cut as field ratios over a rising angle.
struct Shape {
    points: Vec<(f64, f64)>,
}

impl Shape {
    fn round(points: &[(f64, f64)]) -> Self {
        let mut turned: Vec<(f64, f64)> = points
            .iter()
            .map(|p| (p.0.rem_euclid(360.0), ratio(p.1)))
            .collect();
        turned.sort_by(|a, b| a.0.total_cmp(&b.0));
        turned.dedup_by(|a, b| (a.0 - b.0).abs() < 1e-9);
        // Closed to a ring.
        if let (Some(&first), Some(&last)) = (turned.first(), turned.last()) {
            turned.push((first.0 + 360.0, first.1));
            turned.insert(0, (last.0 - 360.0, last.1));
        }
        Self::against_maximum(turned)
    }

    /// Elevations −90…90; the far side of a full circle is left out.
    fn up(points: &[(f64, f64)]) -> Self {
        let fold = |a: f64| if a > 180.0 { a - 360.0 } else { a };
        let mut folded: Vec<(f64, f64)> = points.iter().map(|p| (fold(p.0), ratio(p.1))).collect();
        folded.retain(|p| p.0.abs() <= 90.0);
        folded.sort_by(|a, b| a.0.total_cmp(&b.0));
        Self::against_maximum(folded)
    }

    fn against_maximum(mut points: Vec<(f64, f64)>) -> Self {
        let top = points.iter().map(|p| p.1).fold(0.0, f64::max);
        if top > 0.0 {
            points.iter_mut().for_each(|p| p.1 /= top);
        }
        Self { points }
    }

    fn at(&self, angle: f64) -> f64 {
        let next = self.points.partition_point(|p| p.0 < angle);
        match (next.checked_sub(1).map(|i| self.points[i]), self.points.get(next)) {
            (Some(a), Some(b)) => a.1 + (b.1 - a.1) * (angle - a.0) / (b.0 - a.0),
            (Some(a), None) => a.1,
            (None, Some(b)) => b.1,
            (None, None) => 0.0,
        }
    }
}

fn ratio(db: f64) -> f64 {
    10f64.powf(db / 20.0)
}

fn gain_unit_is_dbi(value: &str, line: usize, text: &str) -> Result<bool, PatternFileError> {
    let unit = value
        .split('/')
        .next()
        .unwrap_or_default()
        .trim()
        .to_ascii_uppercase();
    match unit.as_str() {
        "DBI" => Ok(true),
        "DBD" => Ok(false),
        _ => Err(PatternFileError::Line {
            line,
            text: text.to_owned(),
            wanted: "gain-unit",
        }),
    }
}

fn number(word: &str, line: usize, text: &str) -> Result<f64, PatternFileError> {
    let value = word.parse::<f64>().ok().filter(|v| v.is_finite());
    value.ok_or(PatternFileError::Line {
        line,
        text: text.to_owned(),
        wanted: "number",
    })
}

fn point(row: &str, line: usize) -> Result<(f64, f64), PatternFileError> {
    let mut words = row.split(',').map(str::trim);
    let (angle, db) = (words.next().unwrap_or_default(), words.next().unwrap_or_default());
    let (angle, db) = (number(angle, line, row)?, number(db, line, row)?);
    if angle.abs() > 360.0 || db > 0.5 {
        let wanted = "level";
        return Err(PatternFileError::Line {
            line,
            text: row.to_owned(),
            wanted,
        });
    }
    Ok((angle, db))
}
