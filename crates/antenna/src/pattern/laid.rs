//! A measured pattern laid over a computed one, cut by cut; and which file form a pattern comes in.

use serde::Serialize;

use super::{FileCut, Pattern, PatternFile, PatternFileError};
use crate::direction::Plane;

/// Levels further below a cut's maximum are not compared: the inside of a null is the measuring range's.
pub const COMPARED_DB: f64 = 20.0;
/// Step of elevation in the cuts that are written and laid over each other, degrees.
const ELEV_STEP_DEG: f64 = 0.5;

/// The file form of a pattern.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PatternForm {
    /// Cuts after NSMA WG16.99.050.
    Nsma,
    /// A table of every direction.
    Csv,
}

impl PatternForm {
    /// The form that a file's extension names: `csv`, or `nsma`, `adf` or `txt`.
    pub fn of_extension(extension: &str) -> Option<Self> {
        match extension.to_ascii_lowercase().as_str() {
            "csv" => Some(Self::Csv),
            "nsma" | "adf" | "txt" => Some(Self::Nsma),
            _ => None,
        }
    }

    /// A pattern's planes as text in this form: cuts through the strongest direction, or every 2° by 1°.
    pub fn text(self, pattern: &Pattern, planes: &[Plane], model: &str, description: &str) -> String {
        match self {
            Self::Csv => pattern.to_csv(2.0, 1.0),
            Self::Nsma => PatternFile {
                model: model.to_owned(),
                description: description.to_owned(),
                ..PatternFile::of(pattern, planes, ELEV_STEP_DEG)
            }
            .to_text(),
        }
    }
}

/// A pattern as it was measured.
#[derive(Debug, Clone, PartialEq)]
pub enum MeasuredPattern {
    /// Cuts from an NSMA file.
    Cuts(PatternFile),
    /// Every direction, from CSV.
    Whole(Pattern),
}

/// Which way a cut runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum CutKind {
    /// Round the mast at one elevation.
    Azimuth,
    /// Up and down on one bearing.
    Elevation,
}

/// One measured cut against the computed pattern. Differences are measured less computed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct CutApart {
    /// Which way it runs.
    pub kind: CutKind,
    /// The plane of polarisation.
    pub plane: Plane,
    /// Elevation of an azimuth cut, bearing of an elevation cut: where the computed pattern is strongest, degrees.
    pub at_deg: f64,
    /// Points compared: those within [`COMPARED_DB`] of the cut's maximum in either pattern.
    pub points: usize,
    /// Largest difference in size, with its sign, dB.
    pub largest_db: f64,
    /// Angle of it, degrees.
    pub largest_at_deg: f64,
    /// Root of the mean square of the differences, dB.
    pub rms_db: f64,
    /// Mean difference, dB: what a wrong gain leaves.
    pub mean_db: f64,
}

impl MeasuredPattern {
    /// Reads a file's text.
    ///
    /// # Errors
    /// Those of [`PatternFile::parse`] and [`Pattern::from_csv`].
    pub fn parse(text: &str, form: PatternForm, freq_mhz: f64) -> Result<Self, PatternFileError> {
        Ok(match form {
            PatternForm::Nsma => Self::Cuts(PatternFile::parse(text)?),
            PatternForm::Csv => Self::Whole(Pattern::from_csv(text, freq_mhz)?),
        })
    }

    /// Lays it over a computed pattern: one answer for each measured cut of a plane that the antenna has.
    ///
    /// # Units
    /// - `zero_deg`: true bearing of the measurement's azimuth 0, degrees
    ///
    /// # Errors
    /// [`PatternFileError::Missing`] when no cut can be compared.
    pub fn over(
        &self,
        computed: &Pattern,
        planes: &[Plane],
        zero_deg: f64,
    ) -> Result<Vec<CutApart>, PatternFileError> {
        let mut apart = Vec::new();
        match self {
            Self::Cuts(file) => {
                for cut in &file.cuts {
                    apart.extend(cut_apart(file, cut, computed, planes, zero_deg));
                }
            }
            Self::Whole(measured) => {
                for &plane in planes {
                    let peak = computed.peak(plane);
                    let round = (0..360)
                        .map(f64::from)
                        .map(|a| (a, measured.gain_dbd(plane, a - zero_deg, peak.elev_deg)));
                    apart.extend(laid(CutKind::Azimuth, plane, computed, round));
                    let up = (-180..=180).map(|i| ELEV_STEP_DEG * f64::from(i));
                    let up = up.map(|e| (e, measured.gain_dbd(plane, peak.bearing_deg - zero_deg, e)));
                    apart.extend(laid(CutKind::Elevation, plane, computed, up));
                }
            }
        }
        if apart.is_empty() {
            return Err(PatternFileError::Missing {
                what: "comparable-cut",
            });
        }
        Ok(apart)
    }
}

fn cut_apart(
    file: &PatternFile,
    cut: &FileCut,
    computed: &Pattern,
    planes: &[Plane],
    zero_deg: f64,
) -> Option<CutApart> {
    let letter = cut
        .polarisation
        .trim()
        .chars()
        .next()
        .map(|c| c.to_ascii_uppercase());
    let plane = match letter {
        Some('V') => Plane::Vertical,
        Some('H') => Plane::Horizontal,
        // A cut that does not say is of the plane the antenna has.
        None => *planes.first()?,
        Some(_) => return None,
    };
    if !planes.contains(&plane) {
        return None;
    }
    let level = |(angle, db): &(f64, f64)| (*angle, file.gain_dbd + db);
    let points = cut.points.iter().map(level);
    match cut.kind.as_str() {
        "AZ" => laid(
            CutKind::Azimuth,
            plane,
            computed,
            points.map(|(a, g)| (a + zero_deg, g)),
        ),
        "EL" => laid(CutKind::Elevation, plane, computed, points),
        _ => None,
    }
}

/// Compares levels in dBd over true bearings or elevations; none without a point.
fn laid(
    kind: CutKind,
    plane: Plane,
    computed: &Pattern,
    measured: impl Iterator<Item = (f64, f64)>,
) -> Option<CutApart> {
    let peak = computed.peak(plane);
    let ours = |angle_deg: f64| match kind {
        CutKind::Azimuth => computed.gain_dbd(plane, angle_deg, peak.elev_deg),
        CutKind::Elevation => {
            // Beyond the zenith or the nadir a full circle goes on behind the antenna.
            let turned = (angle_deg + 180.0).rem_euclid(360.0) - 180.0;
            if turned.abs() <= 90.0 {
                computed.gain_dbd(plane, peak.bearing_deg, turned)
            } else {
                computed.gain_dbd(plane, peak.bearing_deg + 180.0, turned.signum() * 180.0 - turned)
            }
        }
    };
    let pairs: Vec<[f64; 3]> = measured
        .map(|(angle, theirs)| [angle, theirs, ours(angle)])
        .collect();
    let top = pairs
        .iter()
        .map(|p| p[1].max(p[2]))
        .fold(f64::NEG_INFINITY, f64::max);
    let compared: Vec<(f64, f64)> = pairs
        .iter()
        .filter(|p| p[1].max(p[2]) >= top - COMPARED_DB)
        .map(|p| (p[0], p[1] - p[2]))
        .collect();
    let &(largest_at_deg, largest_db) = compared.iter().max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))?;
    let count = compared.len() as f64;
    Some(CutApart {
        kind,
        plane,
        at_deg: match kind {
            CutKind::Azimuth => peak.elev_deg,
            CutKind::Elevation => peak.bearing_deg,
        },
        points: compared.len(),
        largest_db,
        largest_at_deg: match kind {
            CutKind::Azimuth => largest_at_deg.rem_euclid(360.0),
            CutKind::Elevation => largest_at_deg,
        },
        rms_db: (compared.iter().map(|p| p.1 * p.1).sum::<f64>() / count).sqrt(),
        mean_db: compared.iter().map(|p| p.1).sum::<f64>() / count,
    })
}
