//! Port volts from the feed: matched splitters, and lines from one node. Small algebra on the port matrix.
//!
//! # Source
//! Transmission-line and wave-matrix theory (any textbook; Pozar, *Microwave Engineering*, from memory).

use super::Complex;
use super::dense::Factor;
use faer::Mat;

/// What a matched splitter finds at its ports.
#[derive(Clone, Debug, PartialEq)]
pub struct WaveAnswer {
    /// Volts at the ports, peak.
    pub volts: Vec<Complex>,
    /// Active reflection coefficient of each port.
    pub reflection: Vec<Complex>,
    /// Power into each port, watts.
    pub power_w: Vec<f64>,
    /// Share of the offered power that comes back.
    pub reflected_fraction: f64,
}

/// Ports driven by matched sources of one resistance with the given incident power and phase: V + Z₀I = 2a.
///
/// # Shape
/// `impedance_ohm`: the open-circuit port matrix; `power_w` and `phase_deg`: one value for each port.
pub fn incident_waves(
    impedance_ohm: &[Vec<Complex>],
    z0_ohm: f64,
    power_w: &[f64],
    phase_deg: &[f64],
) -> WaveAnswer {
    let n = impedance_ohm.len();
    let a: Vec<Complex> = power_w
        .iter()
        .zip(phase_deg)
        .map(|(p, phase)| Complex::from_polar((2.0 * p * z0_ohm).sqrt(), phase.to_radians()))
        .collect();
    let matrix = Mat::from_fn(n, n, |i, j| {
        impedance_ohm[i][j] + if i == j { z0_ohm } else { 0.0 }
    });
    let amperes = Factor::new(matrix).solve(Mat::from_fn(n, 1, |i, _| 2.0 * a[i]));
    let back: Vec<Complex> = (0..n).map(|i| a[i] - amperes[(i, 0)] * z0_ohm).collect();
    let total = |waves: &[Complex]| waves.iter().map(|w| w.norm_sqr()).sum::<f64>();
    let volts: Vec<Complex> = (0..n).map(|i| a[i] + back[i]).collect();
    WaveAnswer {
        reflection: back.iter().zip(&a).map(|(b, a)| b / a).collect(),
        power_w: (0..n)
            .map(|i| 0.5 * (volts[i] * amperes[(i, 0)].conj()).re)
            .collect(),
        reflected_fraction: total(&back) / total(&a),
        volts,
    }
}

/// A lossless line from the common node to a port.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NodeLine {
    /// Characteristic impedance, ohm.
    pub z0_ohm: f64,
    /// Length divided by the velocity factor, metres.
    pub electrical_length_m: f64,
}

/// What one node sees that feeds every port through a line.
#[derive(Clone, Debug, PartialEq)]
pub struct NodeAnswer {
    /// Volts at the ports with one volt at the node.
    pub volts: Vec<Complex>,
    /// Impedance at the node, ohm.
    pub node_impedance_ohm: Complex,
    /// Share of the power that goes into each port.
    pub power_fraction: Vec<f64>,
}

/// Ports fed through lossless lines from one node at 1 V.
///
/// # Shape
/// `admittance`: the short-circuit port matrix, siemens; `lines`: one for each port; `wave_number_per_m`: 2π/λ.
pub fn common_node(admittance: &[Vec<Complex>], lines: &[NodeLine], wave_number_per_m: f64) -> NodeAnswer {
    let n = lines.len();
    let turn: Vec<(f64, f64)> = lines
        .iter()
        .map(|l| (wave_number_per_m * l.electrical_length_m).sin_cos())
        .collect();
    let matrix = Mat::from_fn(n, n, |i, j| {
        let own = if i == j { turn[i].1 } else { 0.0 };
        Complex::new(0.0, lines[i].z0_ohm * turn[i].0) * admittance[i][j] + own
    });
    let solved = Factor::new(matrix).solve(Mat::from_fn(n, 1, |_, _| Complex::ONE));
    let volts: Vec<Complex> = (0..n).map(|i| solved[(i, 0)]).collect();
    let amperes: Vec<Complex> = admittance
        .iter()
        .map(|row| row.iter().zip(&volts).map(|(y, v)| y * v).sum())
        .collect();
    let at_node =
        |i: usize| amperes[i] * turn[i].1 + Complex::new(0.0, turn[i].0 / lines[i].z0_ohm) * volts[i];
    let power: Vec<f64> = (0..n).map(|i| 0.5 * (volts[i] * amperes[i].conj()).re).collect();
    let total: f64 = power.iter().sum();
    NodeAnswer {
        node_impedance_ohm: (0..n).map(at_node).sum::<Complex>().inv(),
        power_fraction: power.iter().map(|p| p / total).collect(),
        volts,
    }
}
