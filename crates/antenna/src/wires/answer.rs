//! What a file of wires answers: impedances, gain, cuts, power balance, and what its feed adds.

use super::far_field::{Direction, Field};
use super::format::{AzimuthCut, ElevationCut, Feed, FormatFault, WireFile, complex};
use super::network::{NodeLine, common_node, incident_waves};
use super::solve::{Drive, Solution, solve};
use super::{Complex, WireFault, directivity_dbi, grid};
use quantity::Digits;
use serde::Serialize;
use serde_json::Value;
use words::{Language, Message, said};

/// Gains below this are printed as this, dB.
const FLOOR_DBI: f64 = -60.0;
/// A power balance outside is a caution (method's note), and outside the wider bounds no answer.
const SOUND_BALANCE: std::ops::RangeInclusive<f64> = 0.99..=1.01;
const ANY_BALANCE: std::ops::RangeInclusive<f64> = 0.8..=1.25;

impl WireFile {
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
                problem: Message::new("wires-file-no-power"),
            });
        }
        if let Some(index) = drive.amperes.iter().position(|i| *i == Complex::ZERO) {
            return Err(FormatFault::Number {
                key: "sources",
                problem: Message::new("wires-file-no-current").count("source", index as i64),
            });
        }
        let answer = Answer::new(self, &solution, &drive)?;
        answer.check()?;
        Ok(answer)
    }
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
    #[serde(serialize_with = "in_english")]
    pub cautions: Vec<Message>,
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
        let mut cautions: Vec<Message> = solution.cautions.iter().map(Message::from).collect();
        if !SOUND_BALANCE.contains(&health.power_balance) {
            let caution = Message::new("wires-balance");
            cautions.push(caution.number("balance", health.power_balance, Digits::Decimals(3)));
        }
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
            cautions,
        })
    }

    /// Whether it is an answer: every number finite, the power accounted for.
    fn check(&self) -> Result<(), FormatFault> {
        let value = serde_json::to_value(self)?;
        let unknown = value
            .as_object()
            .and_then(|keys| keys.iter().find(|(_, v)| holds_nothing(v)));
        if let Some((key, _)) = unknown {
            return Err(FormatFault::Beyond { key: key.clone() });
        }
        if !ANY_BALANCE.contains(&self.power_balance) {
            return Err(FormatFault::Number {
                key: "frequency_mhz",
                problem: Message::new("wires-file-unbalanced").given("balance", self.power_balance),
            });
        }
        Ok(())
    }

    /// The answer as indented JSON.
    pub fn to_json(&self) -> String {
        serde_json::to_string_pretty(self).expect("plain numbers and names always serialise")
    }
}

/// JSON is one and the same in every language.
fn in_english<S: serde::Serializer>(messages: &[Message], to: S) -> Result<S::Ok, S::Error> {
    to.collect_seq(messages.iter().map(|message| said(message, Language::English)))
}

/// Numbers that are none become null in JSON.
fn holds_nothing(value: &Value) -> bool {
    match value {
        Value::Null => true,
        Value::Array(list) => list.iter().any(holds_nothing),
        Value::Object(keys) => keys.values().any(holds_nothing),
        _ => false,
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
