//! Touchstone files (version 1): measured scattering parameters of one, two or more ports, read from text.

use num_complex::Complex64 as C64;
use serde::Serialize;

use super::return_loss_db;
use crate::array::Matrix;
use crate::line::two_port::Scattering;

/// Scattering parameters over frequency.
#[derive(Debug, Clone, PartialEq)]
pub struct Touchstone {
    /// Number of ports.
    pub ports: usize,
    /// Reference impedance, ohm.
    pub z0_ohm: f64,
    /// Frequency in MHz, rising, and the matrix row by row.
    points: Vec<(f64, Vec<C64>)>,
}

/// One frequency of a measurement laid over a prediction.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Overlay {
    /// Frequency, MHz.
    pub freq_mhz: f64,
    /// Return loss as measured, dB.
    pub measured_db: f64,
    /// Return loss as predicted, dB.
    pub predicted_db: f64,
    /// Distance of the two reflection coefficients in the complex plane.
    pub distance: f64,
}

/// What is wrong with a Touchstone text, or with a question to it.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum TouchstoneError {
    /// A line that cannot be read.
    Line {
        /// Line number, from 1.
        line: usize,
        /// What stood there.
        text: String,
        /// Tag of what would have been accepted.
        wanted: &'static str,
    },
    /// The text ends in the middle of a matrix, or holds none.
    Short {
        /// Ports of the file.
        ports: usize,
        /// Figures left over.
        found: usize,
        /// Figures of one frequency.
        wanted: usize,
    },
    /// A frequency the measurement does not cover.
    Outside {
        /// The frequency asked.
        freq_mhz: f64,
        /// First one measured.
        from_mhz: f64,
        /// Last one measured.
        to_mhz: f64,
    },
    /// A file of other ports than the place wants.
    Ports {
        /// Ports of the file.
        given: usize,
        /// Ports wanted.
        wanted: usize,
    },
}

#[derive(Clone, Copy)]
enum Form {
    MagnitudeAngle,
    DecibelAngle,
    RealImaginary,
}

struct Options {
    mhz: f64,
    form: Form,
    z0_ohm: f64,
}

impl Touchstone {
    /// Reads a text of so many ports (the number in the file's ending: 1 for `.s1p`).
    ///
    /// # Errors
    /// [`TouchstoneError`] with the line for anything but S-parameters of version 1, numbers that are none, or frequencies that
    /// do not rise.
    ///
    /// # Source
    /// Touchstone File Format Specification, version 1.1 (memory).
    pub fn parse(text: &str, ports: usize) -> Result<Self, TouchstoneError> {
        let mut options = Options {
            mhz: 1e3,
            form: Form::MagnitudeAngle,
            z0_ohm: 50.0,
        };
        let mut seen_options = false;
        let mut figures: Vec<(usize, f64)> = Vec::new();
        let per_point = 1 + 2 * ports * ports;
        for (i, raw) in text.lines().enumerate() {
            let line = raw.split('!').next().unwrap_or_default().trim();
            if let Some(rest) = line.strip_prefix('#') {
                // Only the first option line counts.
                if !seen_options {
                    options = parse_options(rest, i + 1, raw)?;
                    seen_options = true;
                }
                continue;
            }
            // Noise parameters of a two-port begin where the frequency falls back.
            let starts_record = figures.len().is_multiple_of(per_point) && !line.is_empty();
            if ports == 2 && starts_record && noise_begins(line, &figures, per_point) {
                break;
            }
            for word in line.split_whitespace() {
                let wanted = "figures";
                let bad = || TouchstoneError::Line {
                    line: i + 1,
                    text: raw.trim().to_owned(),
                    wanted,
                };
                let value: f64 = word.parse().map_err(|_| bad())?;
                if !value.is_finite() {
                    return Err(bad());
                }
                figures.push((i + 1, value));
            }
        }
        Self::assemble(&figures, ports, &options)
    }

    fn assemble(figures: &[(usize, f64)], ports: usize, options: &Options) -> Result<Self, TouchstoneError> {
        let per_point = 1 + 2 * ports * ports;
        let found = figures.len() % per_point;
        if ports == 0 || figures.is_empty() || found != 0 {
            return Err(TouchstoneError::Short {
                ports,
                found,
                wanted: per_point,
            });
        }
        let mut points: Vec<(f64, Vec<C64>)> = Vec::new();
        for record in figures.chunks(per_point) {
            let freq_mhz = record[0].1 * options.mhz;
            if freq_mhz < 0.0 || points.last().is_some_and(|p| freq_mhz <= p.0) {
                return Err(TouchstoneError::Line {
                    line: record[0].0,
                    text: record[0].1.to_string(),
                    wanted: "rising-frequency",
                });
            }
            let mut s: Vec<C64> = record[1..]
                .chunks(2)
                .map(|p| complex(options.form, p[0].1, p[1].1))
                .collect();
            if ports == 2 {
                // Two-ports alone are written S11 S21 S12 S22.
                s.swap(1, 2);
            }
            points.push((freq_mhz, s));
        }
        Ok(Self {
            ports,
            z0_ohm: options.z0_ohm,
            points,
        })
    }

    /// First and last frequency, MHz.
    pub fn span_mhz(&self) -> (f64, f64) {
        (self.points[0].0, self.points[self.points.len() - 1].0)
    }

    /// Frequencies measured, MHz.
    pub fn freqs_mhz(&self) -> impl Iterator<Item = f64> {
        self.points.iter().map(|p| p.0)
    }

    /// The matrix at a frequency, straight lines in the complex plane between the measured ones.
    ///
    /// # Errors
    /// [`TouchstoneError::Outside`] beyond the first or last frequency.
    pub fn at(&self, freq_mhz: f64) -> Result<Matrix, TouchstoneError> {
        let (from_mhz, to_mhz) = self.span_mhz();
        // A hair of rounding at the ends is forgiven.
        let slack = 1e-9 * to_mhz;
        if !(freq_mhz >= from_mhz - slack && freq_mhz <= to_mhz + slack) {
            return Err(TouchstoneError::Outside {
                freq_mhz,
                from_mhz,
                to_mhz,
            });
        }
        let next = self
            .points
            .partition_point(|p| p.0 < freq_mhz)
            .clamp(1, self.points.len().max(2) - 1);
        let (low, high) = (
            &self.points[next - 1],
            self.points.get(next).unwrap_or(&self.points[next - 1]),
        );
        let t = if high.0 > low.0 {
            ((freq_mhz - low.0) / (high.0 - low.0)).clamp(0.0, 1.0)
        } else {
            0.0
        };
        Ok(Matrix::from_fn(self.ports, self.ports, |i, j| {
            let k = i * self.ports + j;
            low.1[k] * (1.0 - t) + high.1[k] * t
        }))
    }

    /// A two-port's parameters at a frequency.
    ///
    /// # Errors
    /// [`TouchstoneError::Ports`] for another number of ports, [`TouchstoneError::Outside`] beyond the measurement.
    pub fn two_port_at(&self, freq_mhz: f64) -> Result<Scattering, TouchstoneError> {
        if self.ports != 2 {
            return Err(TouchstoneError::Ports {
                given: self.ports,
                wanted: 2,
            });
        }
        let m = self.at(freq_mhz)?;
        Ok(Scattering {
            s11: m[(0, 0)],
            s12: m[(0, 1)],
            s21: m[(1, 0)],
            s22: m[(1, 1)],
        })
    }

    /// Lays a measured reflection (S11) over predicted ones, given as frequency in MHz and reflection coefficient against the
    /// same impedance. Predictions outside the measurement are left out.
    pub fn over(&self, predicted: &[(f64, C64)]) -> Vec<Overlay> {
        predicted
            .iter()
            .filter_map(|&(freq_mhz, gamma)| {
                let measured = self.at(freq_mhz).ok()?[(0, 0)];
                Some(Overlay {
                    freq_mhz,
                    measured_db: return_loss_db(measured),
                    predicted_db: return_loss_db(gamma),
                    distance: (measured - gamma).norm(),
                })
            })
            .collect()
    }
}

fn noise_begins(line: &str, figures: &[(usize, f64)], per_point: usize) -> bool {
    let first: Option<f64> = line.split_whitespace().next().and_then(|w| w.parse().ok());
    let last = figures.len().checked_sub(per_point).map(|i| figures[i].1);
    matches!((first, last), (Some(f), Some(l)) if f < l && line.split_whitespace().count() == 5)
}

fn parse_options(rest: &str, line: usize, raw: &str) -> Result<Options, TouchstoneError> {
    let mut options = Options {
        mhz: 1e3,
        form: Form::MagnitudeAngle,
        z0_ohm: 50.0,
    };
    let mut words = rest.split_whitespace();
    let wanted = "option-line";
    let bad = || TouchstoneError::Line {
        line,
        text: raw.trim().to_owned(),
        wanted,
    };
    while let Some(word) = words.next() {
        match word.to_ascii_uppercase().as_str() {
            "HZ" => options.mhz = 1e-6,
            "KHZ" => options.mhz = 1e-3,
            "MHZ" => options.mhz = 1.0,
            "GHZ" => options.mhz = 1e3,
            "S" => {}
            "MA" => options.form = Form::MagnitudeAngle,
            "DB" => options.form = Form::DecibelAngle,
            "RI" => options.form = Form::RealImaginary,
            "R" => {
                let z: f64 = words.next().and_then(|w| w.parse().ok()).ok_or_else(bad)?;
                options.z0_ohm = if z > 0.0 && z.is_finite() {
                    z
                } else {
                    return Err(bad());
                };
            }
            _ => return Err(bad()),
        }
    }
    Ok(options)
}

fn complex(form: Form, a: f64, b: f64) -> C64 {
    match form {
        Form::MagnitudeAngle => C64::from_polar(a, b.to_radians()),
        Form::DecibelAngle => C64::from_polar(10f64.powf(a / 20.0), b.to_radians()),
        Form::RealImaginary => C64::new(a, b),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ONE_PORT: &str =
        "! invented antenna\n# MHz S MA R 50\n87.5 0.2 90 ! low edge\n98 0.1 0\n108 0.2 -90\n";
    const TWO_PORT: &str =
        "# GHz S RI R 75\n0.09 0.1 0  0.8 -0.1\n 0.7 0.05  0.2 0\n0.10 0.1 0 0.8 -0.3 0.7 0.1 0.2 0\n";

    #[test]
    fn reads_one_port_and_interpolates() {
        let t = Touchstone::parse(ONE_PORT, 1).unwrap();
        assert_eq!(t.span_mhz(), (87.5, 108.0));
        assert!((t.at(98.0).unwrap()[(0, 0)] - 0.1).norm() < 1e-12);
        assert!((t.at(103.0).unwrap()[(0, 0)] - C64::new(0.05, -0.1)).norm() < 1e-12);
        assert!((t.at(87.5).unwrap()[(0, 0)] - C64::new(0.0, 0.2)).norm() < 1e-12);
        assert!(matches!(t.at(120.0), Err(TouchstoneError::Outside { .. })));
    }

    #[test]
    fn two_ports_are_written_column_by_column() {
        let t = Touchstone::parse(TWO_PORT, 2).unwrap();
        let s = t.two_port_at(90.0).unwrap();
        assert_eq!((s.s21, s.s12), (C64::new(0.8, -0.1), C64::new(0.7, 0.05)));
        assert_eq!(t.z0_ohm, 75.0);
        let s = t.two_port_at(95.0).unwrap();
        assert!((s.s21 - C64::new(0.8, -0.2)).norm() < 1e-12);
    }

    #[test]
    fn one_single_frequency_can_be_asked() {
        let t = Touchstone::parse("# MHz S DB R 50\n98 -20 180\n", 1).unwrap();
        assert!((t.at(98.0).unwrap()[(0, 0)] + 0.1).norm() < 1e-12);
    }

    #[test]
    fn overlay_tells_both_return_losses() {
        let t = Touchstone::parse(ONE_PORT, 1).unwrap();
        let over = t.over(&[(98.0, C64::from(0.2)), (200.0, C64::from(0.2))]);
        assert_eq!(over.len(), 1);
        assert!((over[0].measured_db - 20.0).abs() < 1e-9 && (over[0].predicted_db - 13.979).abs() < 1e-3);
        assert!((over[0].distance - 0.1).abs() < 1e-12);
    }

    #[test]
    fn bad_texts_name_the_line() {
        let words = |t: &str, n| Touchstone::parse(t, n).unwrap_err().to_string();
        assert!(words("# MHz Z RI R 50\n98 1 0\n", 1).contains("line 1"));
        assert!(words("# MHz S RI R 50\n98 1 zero\n", 1).contains("line 2"));
        assert!(words("# MHz S RI R 50\n98 1\n", 1).contains("2 figures"));
        assert!(words("# MHz S RI R 50\n98 1 0\n90 1 0\n", 1).contains("line 3"));
        assert!(words("# MHz S RI R 50\n98 NaN 0\n", 1).contains("line 2"));
        assert!(words("[Version] 2.0\n# MHz S RI R 50\n98 1 0\n", 1).contains("line 1"));
        assert!(words("", 1).contains("0 figures"));
    }
}
