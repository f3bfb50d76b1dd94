//! The file form of a wire antenna (JSON) and of its answer: text in, text out.

use super::far_field::{Direction, Field};
use super::geometry::{Ground, Load, Port, Wire, WireEnds, WireModel};
use super::network::{NodeLine, common_node, incident_waves};
use super::solve::{Drive, Solution, solve};
use super::{Complex, WireFault, directivity_dbi, grid};
use serde::{Deserialize, Serialize};
use serde_json::Value;

/// Gains below this are printed as this, dB.
const FLOOR_DBI: f64 = -60.0;

/// Why a file of wires was refused.
#[derive(Debug, thiserror::Error)]
pub enum FormatFault {
    /// Not JSON, or a key or value that does not belong.
    #[error("{0}")]
    Json(#[from] serde_json::Error),
    /// A key that is not known but nearly is.
    #[error("`{key}` is not known here; did you mean `{near}`?")]
    Slip {
        /// The key.
        key: String,
        /// The one that was perhaps meant.
        near: &'static str,
    },
    /// A word that is not one of the choices.
    #[error("`{key}`: `{found}`: expected {expected}")]
    Choice {
        /// The key.
        key: &'static str,
        /// What stood there.
        found: String,
        /// What may stand there.
        expected: &'static str,
    },
    /// A number that cannot be.
    #[error("`{key}`: {problem}")]
    Number {
        /// The key.
        key: &'static str,
        /// What is wrong, and what was expected.
        problem: String,
    },
    /// The wires themselves.
    #[error("{0}")]
    Wires(#[from] WireFault),
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
        let choice = |key, found: &str, known: &[&str], expected| {
            if known.contains(&found) {
                Ok(())
            } else {
                Err(FormatFault::Choice {
                    key,
                    found: found.to_owned(),
                    expected,
                })
            }
        };
        choice(
            "ground",
            &file.ground,
            &["free_space", "perfect"],
            "`free_space` or `perfect`",
        )?;
        choice("conductor", &file.conductor, &["perfect"], "`perfect`")?;
        choice("ends", &file.ends, &["open", "closed"], "`open` or `closed`")?;
        file.check_numbers()?;
        Ok(file)
    }

    fn check_numbers(&self) -> Result<(), FormatFault> {
        let wrong = |key, problem: String| Err(FormatFault::Number { key, problem });
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
            return wrong("cuts", format!("a step of {step}°: expected 0.01 to 360"));
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
                        format!(
                            "{} powers and {} phases for {n} sources: give one of each",
                            power_w.len(),
                            phase_deg.len()
                        ),
                    );
                }
                if !waves(*z0_ohm) {
                    return wrong("feed", format!("z0_ohm {z0_ohm}: expected a positive number"));
                }
            }
            Some(Feed::CommonNode { lines }) => {
                if lines.len() != n {
                    return wrong(
                        "feed",
                        format!("{} lines for {n} sources: give one each", lines.len()),
                    );
                }
                if let Some(line) = lines
                    .iter()
                    .find(|l| !waves(l.z0_ohm) || !l.electrical_length_m.is_finite())
                {
                    return wrong(
                        "feed",
                        format!(
                            "a line of {} ohm, {} m: expected positive numbers",
                            line.z0_ohm, line.electrical_length_m
                        ),
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

    /// Solves the antenna and samples it where the file says.
    ///
    /// # Errors
    /// [`FormatFault::Wires`].
    pub fn answer(&self) -> Result<Answer, FormatFault> {
        let model = self.model();
        for (index, source) in self.sources.iter().enumerate() {
            if source.volts.iter().any(|v| !v.is_finite()) {
                let wire = model
                    .wires
                    .get(source.wire)
                    .map_or_else(String::new, |w| w.name.clone());
                return Err(WireFault::BadValue {
                    what: "source",
                    index,
                    wire,
                    value: format!("{:?} V", source.volts),
                }
                .into());
            }
        }
        let solution = solve(&model)?;
        let drive = solution.drive(&self.sources.iter().map(|s| complex(s.volts)).collect::<Vec<_>>());
        if drive.input_power_w.is_nan() || drive.input_power_w <= 0.0 {
            return Err(FormatFault::Number {
                key: "sources",
                problem: "the sources deliver no power: give at least one some volts".into(),
            });
        }
        Answer::new(self, &solution, &drive)
    }
}

fn complex(pair: [f64; 2]) -> Complex {
    Complex::new(pair[0], pair[1])
}

fn rounded(value: f64, decimals: i32) -> f64 {
    let unit = 10f64.powi(decimals);
    // Adding zero turns −0 into 0.
    (value * unit).round() / unit + 0.0
}

fn pair(value: Complex, decimals: i32) -> [f64; 2] {
    [rounded(value.re, decimals), rounded(value.im, decimals)]
}

/// What is printed.
#[derive(Clone, Debug, Serialize)]
#[expect(missing_docs, reason = "the names say it, units included")]
pub struct Answer {
    pub segments_total: usize,
    pub unknowns: usize,
    pub input_impedance_ohm: Vec<[f64; 2]>,
    pub input_current_a: Vec<[f64; 2]>,
    pub input_power_w: f64,
    pub max_gain_dbi: f64,
    pub max_gain_elevation_deg: f64,
    pub max_gain_azimuth_deg: f64,
    pub average_gain: f64,
    pub average_gain_nominal: f64,
    pub power_balance: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub azimuth_cut: Option<SampledCut>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub elevation_cut: Option<SampledCut>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub port_impedance_matrix_ohm: Option<Vec<Vec<[f64; 2]>>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub port_matrix_asymmetry: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub feed: Option<FeedAnswer>,
    pub cautions: Vec<String>,
}

/// Gains along a cut.
#[derive(Clone, Debug, Serialize)]
#[expect(missing_docs, reason = "the names say it, units included")]
pub struct SampledCut {
    pub elevation_deg: Value,
    pub azimuth_deg: Value,
    pub gain_dbi: Vec<f64>,
    pub vertical_gain_dbi: Vec<f64>,
    pub horizontal_gain_dbi: Vec<f64>,
}

/// What the feed adds.
#[derive(Clone, Debug, Serialize)]
#[serde(untagged)]
#[expect(missing_docs, reason = "the names say it, units included")]
pub enum FeedAnswer {
    IncidentWaves {
        active_reflection_coefficient: Vec<[f64; 2]>,
        power_into_bay_w: Vec<f64>,
        reflected_power_fraction: f64,
    },
    CommonNode {
        node_impedance_ohm: [f64; 2],
        power_into_bay_fraction: Vec<f64>,
    },
}

impl Answer {
    fn new(file: &WireFile, solution: &Solution, drive: &Drive) -> Result<Self, FormatFault> {
        let peak = grid::peak(&solution.far_field, &drive.currents, drive.input_power_w);
        let health = solution.health(drive);
        let matrix = if file.sources.len() > 1 || file.feed.is_some() {
            Some(solution.impedance()?)
        } else {
            None
        };
        let cuts = file.cuts.as_ref();
        Ok(Self {
            segments_total: solution.mesh.segments.len(),
            unknowns: solution.mesh.unknowns.len(),
            input_impedance_ohm: drive
                .volts
                .iter()
                .zip(&drive.amperes)
                .map(|(v, i)| pair(v / i, 3))
                .collect(),
            input_current_a: drive.amperes.iter().map(|i| pair(*i, 9)).collect(),
            input_power_w: rounded(drive.input_power_w, 9),
            max_gain_dbi: rounded(peak.gain_dbi, 3),
            max_gain_elevation_deg: peak.direction.elevation_deg,
            max_gain_azimuth_deg: peak.direction.azimuth_deg,
            average_gain: rounded(solution.average_gain(drive), 5),
            average_gain_nominal: if file.ground == "perfect" { 2.0 } else { 1.0 },
            power_balance: rounded(health.power_balance, 5),
            azimuth_cut: cuts
                .and_then(|c| c.azimuth_cut)
                .map(|c| azimuth_cut(solution, drive, c)),
            elevation_cut: cuts
                .and_then(|c| c.elevation_cut)
                .map(|c| elevation_cut(solution, drive, c)),
            feed: match (&file.feed, &matrix) {
                (Some(feed), Some(z)) => Some(feed_answer(feed, z, solution)),
                _ => None,
            },
            port_impedance_matrix_ohm: matrix.map(|rows| {
                rows.iter()
                    .map(|row| row.iter().map(|z| pair(*z, 3)).collect())
                    .collect()
            }),
            port_matrix_asymmetry: (file.sources.len() > 1).then_some(health.asymmetry),
            cautions: solution.cautions.iter().map(ToString::to_string).collect(),
        })
    }

    /// The answer as indented JSON.
    pub fn to_json(&self) -> String {
        serde_json::to_string_pretty(self).expect("plain numbers and names always serialise")
    }
}

fn steps(from: f64, to: f64, step: f64) -> Vec<f64> {
    let count = ((to - from) / step + 1e-9).floor().max(0.0) as usize;
    (0..=count).map(|i| from + step * i as f64).collect()
}

fn azimuth_cut(solution: &Solution, drive: &Drive, cut: AzimuthCut) -> SampledCut {
    let azimuths: Vec<f64> = steps(0.0, 360.0, cut.azimuth_step_deg)
        .into_iter()
        .filter(|a| *a < 360.0 - 1e-9)
        .collect();
    let directions: Vec<_> = azimuths
        .iter()
        .map(|a| Direction {
            azimuth_deg: *a,
            elevation_deg: cut.elevation_deg,
        })
        .collect();
    sampled(
        solution,
        drive,
        &directions,
        cut.elevation_deg.into(),
        azimuths.into(),
    )
}

fn elevation_cut(solution: &Solution, drive: &Drive, cut: ElevationCut) -> SampledCut {
    let elevations = steps(cut.elevation_from_deg, 90.0, cut.elevation_step_deg);
    let directions: Vec<_> = elevations
        .iter()
        .map(|e| Direction {
            azimuth_deg: cut.azimuth_deg,
            elevation_deg: *e,
        })
        .collect();
    sampled(
        solution,
        drive,
        &directions,
        elevations.into(),
        cut.azimuth_deg.into(),
    )
}

fn sampled(
    solution: &Solution,
    drive: &Drive,
    directions: &[Direction],
    elevation_deg: Value,
    azimuth_deg: Value,
) -> SampledCut {
    let fields = solution.far_field.at(&drive.currents, directions);
    let gains = |part: &dyn Fn(&Field) -> Complex| {
        fields
            .iter()
            .map(|f| rounded(directivity_dbi(part(f), drive.input_power_w).max(FLOOR_DBI), 3))
            .collect()
    };
    SampledCut {
        elevation_deg,
        azimuth_deg,
        gain_dbi: gains(&|f| Complex::from((f[0].norm_sqr() + f[1].norm_sqr()).sqrt())),
        vertical_gain_dbi: gains(&|f| f[0]),
        horizontal_gain_dbi: gains(&|f| f[1]),
    }
}

fn feed_answer(feed: &Feed, impedance: &[Vec<Complex>], solution: &Solution) -> FeedAnswer {
    match feed {
        Feed::IncidentWaves {
            z0_ohm,
            power_w,
            phase_deg,
        } => {
            let answer = incident_waves(impedance, *z0_ohm, power_w, phase_deg);
            FeedAnswer::IncidentWaves {
                active_reflection_coefficient: answer.reflection.iter().map(|g| pair(*g, 5)).collect(),
                power_into_bay_w: answer.power_w.iter().map(|p| rounded(*p, 5)).collect(),
                reflected_power_fraction: rounded(answer.reflected_fraction, 5),
            }
        }
        Feed::CommonNode { lines } => {
            let lines: Vec<_> = lines
                .iter()
                .map(|l| NodeLine {
                    z0_ohm: l.z0_ohm,
                    electrical_length_m: l.electrical_length_m,
                })
                .collect();
            let answer = common_node(
                &solution.admittance,
                &lines,
                solution.far_field.wave_number_per_m(),
            );
            FeedAnswer::CommonNode {
                node_impedance_ohm: pair(answer.node_impedance_ohm, 3),
                power_into_bay_fraction: answer.power_fraction.iter().map(|p| rounded(*p, 5)).collect(),
            }
        }
    }
}
