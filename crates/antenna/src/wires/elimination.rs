//! The unknowns for unit volts at each port: the mast eliminated first when it is a part by itself, then the rest.

use super::Complex;
use super::dense::{Factor, product, subtract_product};
use super::fault::WireFault;
use super::fill::Matrix;
use super::mesh::Mesh;
use super::rotation::Rotation;
use faer::{Mat, MatRef};

/// Unknowns for unit volts at each port, one column each.
pub(crate) fn port_columns(
    mesh: &Mesh,
    matrix: &Matrix,
    mast: Option<&Mast>,
) -> Result<Mat<Complex>, WireFault> {
    let first = mesh.rotation.all_unknowns();
    let mut volts = Mat::zeros(matrix.rest.rows, mesh.ports.len());
    for (port, tap) in mesh.ports.iter().enumerate() {
        volts[(tap.unknown - first, port)] = Complex::from(tap.sign);
    }
    let all = if let Some(mast) = mast {
        // The mast's currents for unit currents in the rest, and what they give back.
        let reaction = mast.solve(matrix.across.view().transpose());
        let mut rest = matrix.rest.view().to_owned();
        subtract_product(&mut rest, matrix.across.view(), reaction.as_ref());
        let own = Factor::new(rest).solve(volts);
        let on_mast = product(reaction.as_ref(), own.as_ref());
        Mat::from_fn(first + own.nrows(), own.ncols(), |i, j| {
            if i < first {
                -on_mast[(i, j)]
            } else {
                own[(i - first, j)]
            }
        })
    } else {
        Factor::new(matrix.rest.view().to_owned()).solve(volts)
    };
    if (0..all.ncols()).any(|j| (0..all.nrows()).any(|i| !all[(i, j)].is_finite())) {
        return Err(WireFault::Singular);
    }
    Ok(all)
}

/// A repeating mast, factored: one small block for each harmonic of the turn.
///
/// With first-row blocks A_k the harmonics are Σ A_k ωᵐᵏ, ω = e^(j2π/n); since A_(n−k) = A_kᵀ, harmonic n − m is the
/// transpose of harmonic m and needs no factor of its own.
#[derive(Clone, Debug)]
pub(crate) struct Mast {
    order: usize,
    block: usize,
    factors: Vec<Factor>,
}

impl Mast {
    pub(crate) fn new(rotation: &Rotation, sector: MatRef<'_, Complex>) -> Self {
        let (order, block) = (rotation.order, rotation.unknowns);
        let harmonic = |m: usize| {
            let mut sum = Mat::<Complex>::zeros(block, block);
            for k in 0..order {
                let turn = root(order, m * k);
                faer::zip!(&mut sum, sector.subcols(k * block, block))
                    .for_each(|faer::unzip!(s, a)| *s += *a * turn);
            }
            Factor::new(sum)
        };
        Self {
            order,
            block,
            factors: (0..=order / 2).map(harmonic).collect(),
        }
    }

    /// Solves for every column.
    pub(crate) fn solve(&self, sides: MatRef<'_, Complex>) -> Mat<Complex> {
        let (n, block, columns) = (self.order, self.block, sides.ncols());
        let mut solved = Mat::<Complex>::zeros(n * block, columns);
        for m in 0..n {
            let mut part = Mat::<Complex>::zeros(block, columns);
            for b in 0..n {
                let turn = root(n, (n - m) * b) / n as f64;
                faer::zip!(&mut part, sides.subrows(b * block, block))
                    .for_each(|faer::unzip!(s, a)| *s += *a * turn);
            }
            let part = if m <= n / 2 {
                self.factors[m].solve(part)
            } else {
                self.factors[n - m].solve_transpose(part)
            };
            for b in 0..n {
                let turn = root(n, m * b);
                let target = solved.as_mut().subrows_mut(b * block, block);
                faer::zip!(target, &part).for_each(|faer::unzip!(s, a)| *s += *a * turn);
            }
        }
        solved
    }
}

fn root(order: usize, turns: usize) -> Complex {
    Complex::from_polar(1.0, std::f64::consts::TAU * (turns % order) as f64 / order as f64)
}
