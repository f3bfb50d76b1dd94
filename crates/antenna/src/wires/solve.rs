//! Currents for each port alone, once; every feed afterwards is small algebra.

use super::Complex;
use super::check::check;
use super::dense::Factor;
use super::elimination::{Mast, port_columns};
use super::far_field::FarField;
use super::fault::{WireCaution, WireFault};
use super::fill::fill;
use super::geometry::{Ground, WireModel};
use super::mesh::{Mesh, mesh_for};
use super::near::Piece;
use super::rotation::Search;
use faer::Mat;

/// Current at the start and at the end of every segment, amperes peak, along the segment.
pub type SegmentCurrents = Vec<[Complex; 2]>;

/// Every port of an antenna solved.
#[derive(Clone, Debug)]
pub struct Solution {
    /// Frequency, MHz.
    pub frequency_mhz: f64,
    /// The mesh the currents live on.
    pub mesh: Mesh,
    /// For each port, the currents with one volt there and all other ports shorted.
    pub embedded: Vec<SegmentCurrents>,
    /// Short-circuit admittance matrix, siemens, row by row.
    pub admittance: Vec<Vec<Complex>>,
    /// What was computed with less certainty than usual.
    pub cautions: Vec<WireCaution>,
    /// Ready to evaluate fields.
    pub far_field: FarField,
    ground: Ground,
    loads: Vec<(super::mesh::Tap, Complex)>,
}

/// A solution driven by certain volts.
#[derive(Clone, Debug)]
pub struct Drive {
    /// Peak volts at each port.
    pub volts: Vec<Complex>,
    /// Peak amperes into each port.
    pub amperes: Vec<Complex>,
    /// Currents everywhere.
    pub currents: SegmentCurrents,
    /// Power taken from the sources, watts.
    pub input_power_w: f64,
    /// Power lost in lumped loads, watts.
    pub load_loss_w: f64,
}

/// Checks that run with every solve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Health {
    /// (radiated + lost in loads) / input; 1 is perfect, a warning belongs outside 0.99 to 1.01.
    pub power_balance: f64,
    /// Largest |Y − Yᵀ| over largest |Y|.
    pub asymmetry: f64,
    /// Whether the antenna takes power from every port, whatever the drive.
    pub passive: bool,
}

/// Meshes, fills, factors and solves for all ports.
///
/// # Errors
/// [`WireFault`], naming the wire and the mend.
///
/// # Example
/// ```
/// use antenna::wires::{Port, Wire, WireModel, solve};
/// let model = WireModel {
///     wires: vec![Wire::new("dipole", [0.0, 0.0, -0.71], [0.0, 0.0, 0.71], 0.008)],
///     ports: vec![Port { wire: 0, position: 0.5 }],
///     frequency_mhz: 98.0,
///     ..Default::default()
/// };
/// let z = solve(&model).unwrap().impedance().unwrap()[0][0];
/// assert!((z.re - 69.0).abs() < 2.0);
/// ```
pub fn solve(model: &WireModel) -> Result<Solution, WireFault> {
    let (joints, cautions) = check(model)?;
    if model.ports.is_empty() {
        return Err(WireFault::NoPort);
    }
    let mesh = mesh_for(model, &joints, Search::Repeating)?;
    check_taps(model, &mesh)?;
    let matrix = fill(model, &mesh);
    let mast = (mesh.rotation.order > 0).then(|| Mast::new(&mesh.rotation, matrix.sector.view()));
    let unknowns = port_columns(&mesh, &matrix, mast.as_ref())?;
    Ok(finished(model, mesh, cautions, &unknowns))
}

pub(crate) fn finished(
    model: &WireModel,
    mesh: Mesh,
    cautions: Vec<WireCaution>,
    unknowns: &Mat<Complex>,
) -> Solution {
    let embedded: Vec<SegmentCurrents> = (0..mesh.ports.len())
        .map(|port| segment_currents(&mesh, unknowns.col_as_slice(port)))
        .collect();
    let admittance = mesh
        .ports
        .iter()
        .map(|to| {
            (0..mesh.ports.len())
                .map(|from| unknowns[(to.unknown, from)] * to.sign)
                .collect()
        })
        .collect();
    let far_field = FarField::new(model, &mesh);
    let loads = mesh
        .loads
        .iter()
        .copied()
        .zip(model.loads.iter().map(|l| l.ohm))
        .collect();
    Solution {
        frequency_mhz: model.frequency_mhz,
        mesh,
        embedded,
        admittance,
        cautions,
        far_field,
        ground: model.ground,
        loads,
    }
}

pub(crate) fn check_taps(model: &WireModel, mesh: &Mesh) -> Result<(), WireFault> {
    for (second, tap) in mesh.ports.iter().enumerate() {
        if let Some(first) = mesh.ports[..second].iter().position(|t| t.unknown == tap.unknown) {
            let wire = model.wires[model.ports[second].wire].name.clone();
            return Err(WireFault::SamePlace { first, second, wire });
        }
    }
    Ok(())
}

pub(crate) fn segment_currents(mesh: &Mesh, unknowns: &[Complex]) -> SegmentCurrents {
    let at = |half: usize| {
        mesh.on_half[half]
            .iter()
            .map(|(unknown, sign)| unknowns[*unknown] * *sign)
            .sum()
    };
    (0..mesh.segments.len())
        .map(|s| [at(2 * s), at(2 * s + 1)])
        .collect()
}

impl Solution {
    /// Open-circuit impedance matrix of the ports, ohm, row by row.
    ///
    /// # Errors
    /// [`WireFault::Singular`] when a port carries no current at all.
    pub fn impedance(&self) -> Result<Vec<Vec<Complex>>, WireFault> {
        let n = self.admittance.len();
        let y = Mat::from_fn(n, n, |i, j| self.admittance[i][j]);
        let z = Factor::new(y).solve(Mat::<Complex>::identity(n, n));
        let rows: Vec<Vec<Complex>> = (0..n).map(|i| (0..n).map(|j| z[(i, j)]).collect()).collect();
        if rows.iter().flatten().any(|v| !v.is_finite()) {
            Err(WireFault::Singular)
        } else {
            Ok(rows)
        }
    }

    /// Superposes the ports' own solutions.
    ///
    /// # Shape
    /// `volts`: one peak value for each port, in the model's order.
    pub fn drive(&self, volts: &[Complex]) -> Drive {
        let amperes: Vec<Complex> = self
            .admittance
            .iter()
            .map(|row| row.iter().zip(volts).map(|(y, v)| y * v).sum())
            .collect();
        let mut currents = vec![[Complex::ZERO; 2]; self.mesh.segments.len()];
        for (own, v) in self.embedded.iter().zip(volts) {
            for (sum, one) in currents.iter_mut().zip(own) {
                sum[0] += one[0] * v;
                sum[1] += one[1] * v;
            }
        }
        let input_power_w = volts
            .iter()
            .zip(&amperes)
            .map(|(v, i)| 0.5 * (v * i.conj()).re)
            .sum();
        let load_loss_w = self
            .loads
            .iter()
            .map(|(tap, ohm)| 0.5 * ohm.re * self.tap_current(*tap, &currents).norm_sqr())
            .sum();
        Drive {
            volts: volts.to_vec(),
            amperes,
            currents,
            input_power_w,
            load_loss_w,
        }
    }

    /// Currents as straight pieces in space, in the order of the segments.
    pub fn pieces(&self, currents: &SegmentCurrents) -> Vec<Piece> {
        self.mesh
            .segments
            .iter()
            .zip(currents)
            .map(|(s, [start_a, end_a])| Piece {
                wire: s.wire,
                start_m: s.start_m,
                end_m: std::array::from_fn(|i| s.start_m[i] + s.length_m * s.direction[i]),
                start_a: *start_a,
                end_a: *end_a,
            })
            .collect()
    }

    fn tap_current(&self, tap: super::mesh::Tap, currents: &SegmentCurrents) -> Complex {
        let half = self.mesh.unknowns[tap.unknown].first;
        currents[half.segment][half.end]
    }

    /// Gain averaged over the sphere (over the upper half space above perfect ground, where 2 is perfect), in power.
    pub fn average_gain(&self, drive: &Drive) -> f64 {
        let nominal = if self.ground == Ground::Perfect { 2.0 } else { 1.0 };
        nominal * self.far_field.radiated_power_w(&drive.currents) / drive.input_power_w
    }

    /// The checks, for a certain drive.
    pub fn health(&self, drive: &Drive) -> Health {
        let radiated_w = self.far_field.radiated_power_w(&drive.currents);
        let n = self.admittance.len();
        let y = &self.admittance;
        let largest = y.iter().flatten().map(|v| v.norm()).fold(0.0, f64::max);
        let pairs = (0..n).flat_map(|i| (0..i).map(move |j| (i, j)));
        let asymmetry = pairs.map(|(i, j)| (y[i][j] - y[j][i]).norm()).fold(0.0, f64::max) / largest;
        let real = Mat::from_fn(n, n, |i, j| 0.5 * (y[i][j].re + y[j][i].re));
        let passive = real
            .self_adjoint_eigenvalues(faer::Side::Lower)
            .is_ok_and(|e| e.iter().all(|v| *v > 0.0));
        Health {
            power_balance: (radiated_w + drive.load_loss_w) / drive.input_power_w,
            asymmetry,
            passive,
        }
    }
}
