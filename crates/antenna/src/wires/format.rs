//! The file form of a wire antenna (JSON) and of its answer: text in, text out.

pub use super::answer::{Answer, FeedAnswer, SampledCut};

use super::geometry::{Ground, Load, Port, Wire, WireEnds, WireModel};
use super::{Complex, WireFault};
use serde::Deserialize;
use serde_json::Value;
use words::{Arg, Message, said_in_english};

/// Why a file of wires was refused.
#[derive(Debug, thiserror::Error)]
pub enum FormatFault {
    /// Not JSON, or a key or value that does not belong.
    Json(#[from] serde_json::Error),
    /// A key that is not known but nearly is.
    Slip {
        /// The key.
        key: String,
        /// The one that was perhaps meant.
        near: &'static str,
    },
    /// A word that is not one of the choices.
    Choice {
        /// The key.
        key: &'static str,
        /// What stood there.
        found: String,
        /// What may stand there.
        expected: &'static [&'static str],
    },
    /// A number that cannot be.
    Number {
        /// The key.
        key: &'static str,
        /// What is wrong, and what was expected.
        problem: Message,
    },
    /// An answer beyond every number.
    Beyond {
        /// What of the answer.
        key: String,
    },
    /// The wires themselves.
    Wires(#[from] WireFault),
}

said_in_english!(FormatFault);

impl From<&FormatFault> for Message {
    fn from(fault: &FormatFault) -> Self {
        match fault {
            FormatFault::Json(error) => Message::foreign(error),
            FormatFault::Slip { key, near } => Message::new("wires-file-slip")
                .text("key", key)
                .text("near", *near),
            FormatFault::Choice { key, found, expected } => Message::new("wires-file-choice")
                .text("key", *key)
                .text("found", found)
                .with(
                    "expected",
                    Arg::Choices(expected.iter().map(|word| format!("`{word}`")).collect()),
                ),
            FormatFault::Number { key, problem } => Message::new("wires-file-number")
                .text("key", *key)
                .message("problem", problem.clone()),
            FormatFault::Beyond { key } => Message::new("wires-file-beyond").text("key", key),
            FormatFault::Wires(fault) => fault.into(),
        }
    }
}

/// Keys of the file's top, of which an unknown one may be a slip of the pen.
const TOP_KEYS: [&str; 11] = [
    "id",
    "title",
    "ground",
    "conductor",
    "ends",
    "frequency_mhz",
    "wires",
    "sources",
    "loads",
    "feed",
    "cuts",
];

/// A file of wires. What else stands at its top (results, remarks) is left aside, unless it looks like a key written wrong.
#[derive(Clone, Debug, Deserialize)]
pub struct WireFile {
    /// Short name.
    #[serde(default)]
    pub id: String,
    /// What it is.
    #[serde(default)]
    pub title: String,
    /// `free_space` or `perfect`.
    #[serde(default = "free_space")]
    pub ground: String,
    /// Only `perfect` is known.
    #[serde(default = "perfect")]
    pub conductor: String,
    /// `open` (a tube) or `closed` (a rod).
    #[serde(default = "open")]
    pub ends: String,
    /// Frequency, MHz.
    pub frequency_mhz: f64,
    /// The wires.
    pub wires: Vec<WireRow>,
    /// The sources.
    pub sources: Vec<SourceRow>,
    /// Lumped loads.
    #[serde(default)]
    pub loads: Vec<LoadRow>,
    /// How the sources' volts came about; its own results are added to the answer.
    #[serde(default)]
    pub feed: Option<Feed>,
    /// Where to sample.
    #[serde(default)]
    pub cuts: Option<Cuts>,
    #[serde(flatten)]
    others: std::collections::BTreeMap<String, Value>,
}

fn free_space() -> String {
    "free_space".into()
}

fn perfect() -> String {
    "perfect".into()
}

fn open() -> String {
    "open".into()
}

/// One wire of a file.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(missing_docs, reason = "the fields are those of `Wire`")]
pub struct WireRow {
    #[serde(default)]
    pub name: String,
    pub start_m: [f64; 3],
    pub end_m: [f64; 3],
    pub radius_m: f64,
    #[serde(default)]
    pub segments: Option<usize>,
}

/// A slip changes about a letter in three.
fn is_a_slip(key: &str, known: &str) -> bool {
    3 * strsim::damerau_levenshtein(key, known) <= known.len() + 1
}

/// The finest cutting of a thick wire that the file's count may ask for: its count is another program's, which may cut finer
/// than the thin-wire kernel here bears.
fn most_segments(row: &WireRow) -> usize {
    let length_m = (0..3)
        .map(|k| (row.end_m[k] - row.start_m[k]).powi(2))
        .sum::<f64>()
        .sqrt();
    let most = length_m / (super::check::LEAST_SEGMENT_RADII * row.radius_m);
    if most.is_finite() {
        most as usize
    } else {
        usize::MAX
    }
}

/// One source: a port and its volts `[re, im]`, peak.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(missing_docs, reason = "the fields are those of `Port`")]
pub struct SourceRow {
    pub wire: usize,
    #[serde(default = "middle")]
    pub position: f64,
    #[serde(default = "one_volt")]
    pub volts: [f64; 2],
}

fn middle() -> f64 {
    0.5
}

fn one_volt() -> [f64; 2] {
    [1.0, 0.0]
}

/// One load, ohm `[re, im]`.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(missing_docs, reason = "the fields are those of `Load`")]
pub struct LoadRow {
    pub wire: usize,
    #[serde(default = "middle")]
    pub position: f64,
    pub ohm: [f64; 2],
}

/// Where the sources' volts come from.
#[derive(Clone, Debug, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
#[expect(missing_docs, reason = "the fields are those of `network`")]
pub enum Feed {
    /// Matched sources of one resistance.
    IncidentWaves {
        z0_ohm: f64,
        power_w: Vec<f64>,
        phase_deg: Vec<f64>,
    },
    /// Lines from one node.
    CommonNode { lines: Vec<LineRow> },
}

/// One line of a common node.
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(missing_docs, reason = "the fields are those of `NodeLine`")]
pub struct LineRow {
    pub z0_ohm: f64,
    pub electrical_length_m: f64,
}

/// Where to sample.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(missing_docs, reason = "the names say it")]
pub struct Cuts {
    #[serde(default)]
    pub azimuth_cut: Option<AzimuthCut>,
    #[serde(default)]
    pub elevation_cut: Option<ElevationCut>,
}

/// A full turn at one elevation.
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(missing_docs, reason = "the names say it")]
pub struct AzimuthCut {
    pub elevation_deg: f64,
    pub azimuth_step_deg: f64,
}

/// From an elevation up to 90° at one azimuth.
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(missing_docs, reason = "the names say it")]
pub struct ElevationCut {
    pub azimuth_deg: f64,
    pub elevation_from_deg: f64,
    pub elevation_step_deg: f64,
}

impl WireFile {
    /// Reads a file's text.
    ///
    /// # Errors
    /// [`FormatFault`] with line and column, or the key that is wrong.
    pub fn parse(text: &str) -> Result<Self, FormatFault> {
        let file: Self = serde_json::from_str(text)?;
        for key in file.others.keys() {
            if let Some(near) = TOP_KEYS.iter().find(|known| is_a_slip(key, known)) {
                return Err(FormatFault::Slip {
                    key: key.clone(),
                    near,
                });
            }
        }
        let choice = |key, found: &str, expected: &'static [&'static str]| {
            if expected.contains(&found) {
                Ok(())
            } else {
                Err(FormatFault::Choice {
                    key,
                    found: found.to_owned(),
                    expected,
                })
            }
        };
        choice("ground", &file.ground, &["free_space", "perfect"])?;
        choice("conductor", &file.conductor, &["perfect"])?;
        choice("ends", &file.ends, &["open", "closed"])?;
        file.check_numbers()?;
        Ok(file)
    }

    fn check_numbers(&self) -> Result<(), FormatFault> {
        let wrong = |key, problem: Message| Err(FormatFault::Number { key, problem });
        let steps = self.cuts.iter().flat_map(|c| {
            [
                c.azimuth_cut.map(|a| a.azimuth_step_deg),
                c.elevation_cut.map(|e| e.elevation_step_deg),
            ]
        });
        if let Some(step) = steps
            .flatten()
            .find(|s| !(s.is_finite() && (0.01..=360.0).contains(s)))
        {
            return wrong("cuts", Message::new("wires-file-step").given("step", step));
        }
        let angles = self.cuts.iter().flat_map(|c| {
            [
                c.azimuth_cut.map(|a| ("elevation", a.elevation_deg, 90.0)),
                c.elevation_cut.map(|e| ("elevation", e.elevation_from_deg, 90.0)),
                c.elevation_cut.map(|e| ("azimuth", e.azimuth_deg, 360.0)),
            ]
        });
        for (what, angle_deg, most) in angles.flatten() {
            if !(-most..=most).contains(&angle_deg) {
                let problem = Message::new("wires-file-angle")
                    .tag("what", what)
                    .given("angle", angle_deg)
                    .given("most", most);
                return wrong("cuts", problem);
            }
        }
        let n = self.sources.len();
        let waves = |z: f64| z.is_finite() && z > 0.0;
        match &self.feed {
            Some(Feed::IncidentWaves {
                power_w,
                phase_deg,
                z0_ohm,
            }) => {
                if power_w.len() != n || phase_deg.len() != n {
                    return wrong(
                        "feed",
                        Message::new("wires-file-waves")
                            .count("powers", power_w.len() as i64)
                            .count("phases", phase_deg.len() as i64)
                            .count("sources", n as i64),
                    );
                }
                if !waves(*z0_ohm) {
                    return wrong("feed", Message::new("wires-file-z0").given("ohm", *z0_ohm));
                }
                if let Some(power) = power_w.iter().find(|p| !(p.is_finite() && **p >= 0.0)) {
                    return wrong("feed", Message::new("wires-file-power").given("power", *power));
                }
                if power_w.iter().sum::<f64>() <= 0.0 {
                    return wrong("feed", Message::new("wires-file-all-zero"));
                }
            }
            Some(Feed::CommonNode { lines }) => {
                if lines.len() != n {
                    return wrong(
                        "feed",
                        Message::new("wires-file-lines")
                            .count("lines", lines.len() as i64)
                            .count("sources", n as i64),
                    );
                }
                if let Some(line) = lines
                    .iter()
                    .find(|l| !waves(l.z0_ohm) || !l.electrical_length_m.is_finite())
                {
                    return wrong(
                        "feed",
                        Message::new("wires-file-line")
                            .given("ohm", line.z0_ohm)
                            .given("length", line.electrical_length_m),
                    );
                }
            }
            None => {}
        }
        Ok(())
    }

    /// The antenna in the file.
    pub fn model(&self) -> WireModel {
        let name = |i: usize, row: &WireRow| {
            if row.name.is_empty() {
                i.to_string()
            } else {
                row.name.clone()
            }
        };
        let wire = |(i, row): (usize, &WireRow)| Wire {
            name: name(i, row),
            start_m: row.start_m,
            end_m: row.end_m,
            radius_m: row.radius_m,
            segments: row.segments.map(|n| n.min(most_segments(row)).max(1)),
        };
        WireModel {
            wires: self.wires.iter().enumerate().map(wire).collect(),
            ports: self
                .sources
                .iter()
                .map(|s| Port {
                    wire: s.wire,
                    position: s.position,
                })
                .collect(),
            loads: self
                .loads
                .iter()
                .map(|l| Load {
                    wire: l.wire,
                    position: l.position,
                    ohm: complex(l.ohm),
                })
                .collect(),
            ground: if self.ground == "perfect" {
                Ground::Perfect
            } else {
                Ground::FreeSpace
            },
            ends: if self.ends == "closed" {
                WireEnds::Closed
            } else {
                WireEnds::Open
            },
            frequency_mhz: self.frequency_mhz,
        }
    }
}

pub(super) fn complex(pair: [f64; 2]) -> Complex {
    Complex::new(pair[0], pair[1])
}
