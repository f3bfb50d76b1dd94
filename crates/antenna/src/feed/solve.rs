//! The network of splitter, cables and coupled bays, solved for one watt at the input.

use faer::prelude::Solve;
use num_complex::Complex64 as C64;

use super::{End, Feed, ONE};
use crate::array::{ArrayError, Matrix, Stack};
use crate::line::{LineError, TwoPort, Vswr};

/// Impedance that stands for an open joint, ohm, and admittance that stands for a short, siemens.
const OPEN_OHM: f64 = 1e9;
const SHORT_S: f64 = 1e9;

/// What flows for 1 W **incident** at the input.
#[derive(Debug, Clone, PartialEq)]
pub struct Fed {
    /// Frequency, MHz.
    pub frequency_mhz: f64,
    /// System impedance, ohm.
    pub z0_ohm: f64,
    /// Current into each bay, A peak.
    pub currents_a: Vec<C64>,
    /// Voltage across each bay's connector, V peak.
    pub volts_v: Vec<C64>,
    /// Power into each bay, W; coupling can make it negative.
    pub bay_w: Vec<f64>,
    /// Reflection coefficient each splitter port sees, against the system impedance: with all ways driven.
    pub branch_reflection: Vec<C64>,
    /// Power incident from the splitter on each branch, W.
    pub branch_forward_w: Vec<f64>,
    /// Reflection coefficient at the input.
    pub input_reflection: C64,
    /// Power radiated, W: the sum over the bays.
    pub radiated_w: f64,
}

impl Fed {
    /// Power accepted at the input, W of 1 W incident.
    pub fn accepted_w(&self) -> f64 {
        1.0 - self.input_reflection.norm_sqr()
    }

    /// Radiated over accepted power: losses of splitter, cables and the loads of an isolated splitter.
    pub fn efficiency_ratio(&self) -> f64 {
        self.radiated_w / self.accepted_w()
    }

    /// VSWR at the input.
    ///
    /// # Errors
    /// [`LineError::Range`] at total reflection.
    pub fn input_vswr(&self) -> Result<Vswr, LineError> {
        Vswr::from_reflection(self.input_reflection.norm())
    }

    /// Impedance at the input, ohm.
    pub fn input_ohm(&self) -> C64 {
        (ONE + self.input_reflection) / (ONE - self.input_reflection) * self.z0_ohm
    }

    /// Active impedance of each bay, ohm: V/I with all bays driven. Infinite for a bay without current.
    pub fn active_ohm(&self) -> Vec<C64> {
        self.volts_v
            .iter()
            .zip(&self.currents_a)
            .map(|(v, i)| v / i)
            .collect()
    }

    /// Share of the power sent into the branches that comes back to the splitter.
    pub fn returned_ratio(&self) -> f64 {
        let forward: f64 = self.branch_forward_w.iter().sum();
        let back: f64 = self
            .branch_forward_w
            .iter()
            .zip(&self.branch_reflection)
            .map(|(w, g)| w * g.norm_sqr())
            .sum();
        back / forward
    }
}

impl Feed {
    /// Solves the feed with a stack's own port matrix (array model).
    ///
    /// # Errors
    /// Those of [`Stack::check`]; [`ArrayError::Length`], [`ArrayError::Range`] for a wrong feed; [`ArrayError::Singular`] for a
    /// network without a solution.
    pub fn solve(&self, stack: &Stack) -> Result<Fed, ArrayError> {
        self.solve_ports(&stack.port_matrix_ohm()?, stack.frequency_mhz)
    }

    /// Solves the feed with any port matrix (from wires, say), ohm. Errors as [`Self::solve`].
    pub fn solve_ports(&self, ports_ohm: &Matrix, freq_mhz: f64) -> Result<Fed, ArrayError> {
        let n = ports_ohm.nrows();
        self.check(n)?;
        let singular = |what| ArrayError::Singular { what, freq_mhz };
        let joints = self.joined(ports_ohm).ok_or(singular("joint"))?;
        let cables: Vec<TwoPort> = self
            .branches
            .iter()
            .map(|b| b.cable.two_port(freq_mhz, self.conductor_c))
            .collect::<Result<_, _>>()?;
        let (s, section) = self.splitter_network(freq_mhz)?;
        // Waves at the splitter's ports: onward Q·I/2, returning P·I/2 (volts), I the current into each joint.
        let z0 = self.z0_ohm;
        let wave = |sign: f64| {
            Matrix::from_fn(n, n, |i, j| {
                let unit = if i == j { ONE } else { C64::default() };
                let (c, z) = (&cables[i], joints[(i, j)]);
                c.a * z + c.b_ohm * unit + (c.c_s * z + c.d * unit) * (sign * z0)
            })
        };
        let (onward, back) = (wave(1.0), wave(-1.0));
        let s_pp = Matrix::from_fn(n, n, |i, j| s[(i + 1, j + 1)]);
        let s_p0 = Matrix::from_fn(n, 1, |i, _| s[(i + 1, 0)] * 2.0);
        let system = &onward - &s_pp * &back;
        let unit_currents = system.partial_piv_lu().solve(&s_p0);
        let returned = &back * &unit_currents;
        let node_reflection = s[(0, 0)]
            + (0..n)
                .map(|i| s[(0, i + 1)] * returned[(i, 0)] * 0.5)
                .sum::<C64>();
        // In front of the node stands the splitter's input section.
        let t = section.scattering(z0);
        let reach = t.s21 / (ONE - t.s22 * node_reflection);
        let input_reflection = t.s11 + t.s12 * node_reflection * reach;
        let a0 = C64::from((2.0 * z0).sqrt()) * reach;
        let joint_currents = Matrix::from_fn(n, 1, |i, _| unit_currents[(i, 0)] * a0);
        if !joint_currents.col(0).iter().all(|x| x.is_finite()) || !input_reflection.is_finite() {
            return Err(singular("feed"));
        }
        self.fed(
            ports_ohm,
            &joints,
            &joint_currents,
            (&onward, &back),
            input_reflection,
            freq_mhz,
        )
    }

    /// Port matrix as the cables see it: open joints in series, shorted ones across.
    fn joined(&self, ports_ohm: &Matrix) -> Option<Matrix> {
        let mut z = ports_ohm.clone();
        if self.branches.iter().any(|b| b.end == End::Short) {
            let mut y = inverse(&z)?;
            for (i, b) in self.branches.iter().enumerate() {
                if b.end == End::Short {
                    y[(i, i)] += SHORT_S;
                }
            }
            z = inverse(&y)?;
        }
        for (i, b) in self.branches.iter().enumerate() {
            if b.end == End::Open {
                z[(i, i)] += OPEN_OHM;
            }
        }
        Some(z)
    }

    fn fed(
        &self,
        ports_ohm: &Matrix,
        joints: &Matrix,
        joint_currents: &Matrix,
        (onward, back): (&Matrix, &Matrix),
        input_reflection: C64,
        frequency_mhz: f64,
    ) -> Result<Fed, ArrayError> {
        let n = ports_ohm.nrows();
        let mut volts = joints * joint_currents;
        for (i, b) in self.branches.iter().enumerate() {
            if b.end == End::Open {
                volts[(i, 0)] -= joint_currents[(i, 0)] * OPEN_OHM;
            }
        }
        let currents = if self.branches.iter().any(|b| b.end == End::Short) {
            ports_ohm.partial_piv_lu().solve(&volts)
        } else {
            joint_currents.clone()
        };
        let column = |m: &Matrix| (0..n).map(|i| m[(i, 0)]).collect::<Vec<C64>>();
        let (sent, returned) = (
            column(&(onward * joint_currents)),
            column(&(back * joint_currents)),
        );
        let (currents_a, volts_v) = (column(&currents), column(&volts));
        let bay_w: Vec<f64> = volts_v
            .iter()
            .zip(&currents_a)
            .map(|(v, i)| 0.5 * (v * i.conj()).re)
            .collect();
        Ok(Fed {
            frequency_mhz,
            z0_ohm: self.z0_ohm,
            branch_reflection: sent.iter().zip(&returned).map(|(a, b)| b / a).collect(),
            branch_forward_w: sent
                .iter()
                .map(|a| a.norm_sqr() / 4.0 / (2.0 * self.z0_ohm))
                .collect(),
            radiated_w: bay_w.iter().sum(),
            currents_a,
            volts_v,
            bay_w,
            input_reflection,
        })
    }
}

fn inverse(m: &Matrix) -> Option<Matrix> {
    let n = m.nrows();
    let identity = Matrix::from_fn(n, n, |i, j| if i == j { ONE } else { C64::default() });
    let out = m.partial_piv_lu().solve(&identity);
    (0..n)
        .all(|i| (0..n).all(|j| out[(i, j)].is_finite()))
        .then_some(out)
}
