//! The chain from transmitter to antenna over the band: what a network analyser or the transmitter's own meters would read.

use crate::case::Case;
use crate::proofs::transmission::{NoPattern, antenna_inputs_ohm, joints_to_splitter, line_constants};
use antenna::chain::{
    Chain as TwoPorts, ChainAnswer, ChainError, FM_BAND_MHZ, FoldBack, Overlay, Stage, Touchstone, sweep_mhz,
};
use antenna::feed::Cable as FeedCable;
use antenna::line::Vswr;
use serde::Serialize;
use station::chain::{self, ChainFault, Part};
use words::{Arg, Message};

/// Impedance the chain is made for, ohm.
pub const Z0_OHM: f64 = 50.0;
/// Frequencies over the band: every half megahertz.
const OVER_THE_BAND: usize = 42;
/// Half of what an emission takes, MHz: the channel is looked at from end to end (Rec. ITU-R BS.450: ±75 kHz deviation and
/// the multiplex, under ±150 kHz; from memory).
const HALF_CHANNEL_MHZ: f64 = 0.15;

/// An emission's chain over the band.
#[derive(Debug, Clone, Serialize)]
pub struct Sweep {
    /// Tag of the emission.
    pub emission: String,
    /// Its carrier, MHz.
    pub frequency_mhz: f64,
    /// Forward power at the transmitter, W.
    pub forward_w: f64,
    /// Tags of the planes: what stands before each, the transmitter first.
    pub planes: Vec<String>,
    /// The answers by rising frequency, the carrier and both ends of its channel among them.
    pub answers: Vec<ChainAnswer>,
    /// VSWR at which the transmitter begins to fold back, where it is known.
    pub fold_back_vswr: Option<f64>,
    /// Stretches of the band in which it would: first and last frequency of each, MHz.
    pub folds_back_mhz: Vec<(f64, f64)>,
    /// A measurement laid over the prediction, where one was given.
    pub overlay: Vec<Overlay>,
    /// How far the two lie apart: distance of the reflection coefficients, in the mean and at most.
    pub apart: Option<(f64, f64)>,
}

/// Why there is no sweep.
#[derive(Debug, Clone, PartialEq)]
pub enum NoSweep {
    /// The station has no emission with that tag; those it has.
    NoEmission(Vec<String>),
    /// The emission has no carrier or no power yet.
    NotKnown(&'static str),
    /// The cables do not lead to the antenna.
    Open(ChainFault),
    /// A line or a box without its constants: its tag.
    Unrated(String),
    /// The antenna cannot be computed.
    Antenna(NoPattern),
    /// The chain cannot be answered.
    Chain(ChainError),
}

impl NoSweep {
    /// Why there is none, for the emission asked for.
    pub fn says(&self, emission: &str) -> Message {
        match self {
            NoSweep::NoEmission(known) => Message::new("sweep-no-emission")
                .text("tag", emission)
                .with("known", Arg::All(known.clone())),
            NoSweep::NotKnown(key) => Message::new("sweep-not-known")
                .text("tag", emission)
                .text("key", *key),
            NoSweep::Open(fault) => crate::rules::feeder::open::says(fault),
            NoSweep::Unrated(tag) => Message::new("sweep-unrated").text("tag", tag),
            NoSweep::Antenna(why) => crate::rules::antenna::no_pattern::says(emission, why),
            NoSweep::Chain(why) => Message::new("sweep-refused")
                .text("tag", emission)
                .message("why", why),
        }
    }
}

/// Sweeps the chain of an emission over the FM band at the power it is set to.
///
/// # Units
/// - `forward_w`: power towards the antenna at the transmitter, W
///
/// # Errors
/// [`NoSweep`].
pub fn sweep(
    case: &Case,
    tag: &str,
    forward_w: f64,
    measured: Option<&Touchstone>,
) -> Result<Sweep, NoSweep> {
    let emission = case
        .station
        .emission(tag)
        .ok_or_else(|| NoSweep::NoEmission(case.station.emissions.iter().map(|e| e.tag.clone()).collect()))?;
    let carrier_mhz = emission
        .frequency
        .value()
        .ok_or(NoSweep::NotKnown("frequency"))?
        .mhz();
    let (stages, planes, fold_back_vswr) = two_ports(case, emission)?;
    let mut freqs_mhz = sweep_mhz(FM_BAND_MHZ.0, FM_BAND_MHZ.1, OVER_THE_BAND);
    freqs_mhz.extend([
        carrier_mhz - HALF_CHANNEL_MHZ,
        carrier_mhz,
        carrier_mhz + HALF_CHANNEL_MHZ,
    ]);
    freqs_mhz.sort_by(f64::total_cmp);
    freqs_mhz.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    let loads = antenna_inputs_ohm(case, emission, &freqs_mhz).map_err(NoSweep::Antenna)?;
    let chain = TwoPorts {
        z0_ohm: Z0_OHM,
        stages,
    };
    let answers: Vec<ChainAnswer> = freqs_mhz
        .iter()
        .zip(loads)
        .map(|(f, load)| chain.at(*f, load, forward_w))
        .collect::<Result<_, _>>()
        .map_err(NoSweep::Chain)?;
    let guard = fold_back_vswr.and_then(|limit| Vswr::new(limit).ok());
    let predicted: Vec<_> = answers.iter().map(|a| (a.freq_mhz, a.input_reflection)).collect();
    let overlay = measured.map_or_else(Vec::new, |m| m.over(&predicted));
    Ok(Sweep {
        emission: tag.to_owned(),
        frequency_mhz: carrier_mhz,
        forward_w,
        planes,
        folds_back_mhz: guard.map_or_else(Vec::new, |limit| FoldBack { limit }.reduces_mhz(&answers)),
        fold_back_vswr,
        apart: apart(&overlay),
        overlay,
        answers,
    })
}

fn apart(overlay: &[Overlay]) -> Option<(f64, f64)> {
    let distances = || overlay.iter().map(|o| o.distance);
    let worst = distances().reduce(f64::max)?;
    Some((distances().sum::<f64>() / overlay.len() as f64, worst))
}

impl Sweep {
    /// The answer at the carrier.
    pub fn at_carrier(&self) -> Option<&ChainAnswer> {
        self.answers
            .iter()
            .find(|a| (a.freq_mhz - self.frequency_mhz).abs() < 1e-6)
    }

    /// The highest VSWR within the emission's channel.
    pub fn channel_vswr(&self) -> Option<f64> {
        self.answers
            .iter()
            .filter(|a| (a.freq_mhz - self.frequency_mhz).abs() < HALF_CHANNEL_MHZ + 1e-6)
            .map(|a| a.vswr.ratio())
            .reduce(f64::max)
    }
}

/// The parts between transmitter and splitter as two-ports, the tags of what stands before each plane, and where the
/// transmitter folds back.
pub(crate) type Parts = (Vec<Stage>, Vec<String>, Option<f64>);

pub(crate) fn two_ports(case: &Case, emission: &station::design::Emission) -> Result<Parts, NoSweep> {
    let walked = chain::walk(case.station, case.shelf, emission).map_err(NoSweep::Open)?;
    let joints = joints_to_splitter(&walked);
    let mut stages = Vec::new();
    let mut planes = vec![walked.links[0].part.tag().to_owned()];
    for (index, link) in walked.links.iter().enumerate().skip(1) {
        let Some(joint_loss_db) = joints.get(index - 1) else {
            break;
        };
        stages.push(Stage::Loss {
            loss_db: *joint_loss_db,
        });
        planes.push(link.part.tag().to_owned());
        let unrated = || NoSweep::Unrated(link.part.tag().to_owned());
        let stage = match link.part {
            Part::Antenna(_) => break,
            Part::Cable(cable) => Stage::Line {
                cable: FeedCable {
                    line: link.shelf.and_then(line_constants).ok_or_else(unrated)?,
                    length_m: cable.length.m(),
                },
                conductor_c: cable.temperature.value().map_or(40.0, |t| t.celsius()),
            },
            // The splitter's own loss belongs to the antenna system.
            Part::Item(_) if link.shelf.is_some_and(|s| s.splitter.is_some()) => break,
            Part::Item(_) => Stage::Loss {
                loss_db: link
                    .shelf
                    .and_then(|s| s.inline.as_ref())
                    .ok_or_else(unrated)?
                    .loss
                    .db(),
            },
        };
        stages.push(stage);
        planes.push(link.part.tag().to_owned());
    }
    let fold_back = walked.links[0]
        .shelf
        .and_then(|s| s.transmitter.as_ref())
        .and_then(|t| t.fold_back_vswr);
    Ok((stages, planes, fold_back))
}
