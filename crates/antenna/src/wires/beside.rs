//! The unknowns for unit volts at each port of a few wires beside a factored mast, without eliminating the mast: it is solved only for
//! the currents that flow, not for every current that could.
//!
//! With one ampere into a port and the others open a bay feels the mast little. So currents start as the bays' own without the mast;
//! what the mast leaves unbalanced is answered by the bays alone again, and of all currents so far the best mixture is taken
//! (Galerkin's condition; the matrix is symmetric, so impedances err with the square of the currents' error). Each round multiplies the
//! error by how much the mast matters, a tenth or less for open dipoles.

use super::Complex;
use super::dense::{Factor, product, subtract_product};
use super::elimination::Mast;
use super::fill::Matrix;
use super::mesh::Mesh;
use faer::{Mat, MatRef};

/// Next correction of the currents, of the currents themselves, below which nothing more is asked.
const ENOUGH: f64 = 1e-5;
/// After so many rounds the mast is better eliminated.
const MOST_ROUNDS: usize = 6;
/// Fewer unknowns for each port than this are not worth it.
const LEAST_FOR_A_PORT: usize = 8;
/// What remains of a direction that the others hold already.
const NOTHING_NEW: f64 = 1e-8;

/// Unknowns for unit volts at each port, one column each; none where elimination is the better way.
pub(crate) fn port_columns_beside(mesh: &Mesh, matrix: &Matrix, mast: &Mast) -> Option<Mat<Complex>> {
    let first = mesh.rotation.all_unknowns();
    let ports: Vec<usize> = mesh.ports.iter().map(|tap| tap.unknown - first).collect();
    let n = matrix.rest.rows;
    if n < LEAST_FOR_A_PORT * ports.len() {
        return None;
    }
    let around = Around {
        free: (0..n).filter(|i| !ports.contains(i)).collect(),
        matrix,
        mast,
    };
    let own = around.own();
    let lone = own.solve(Mat::from_fn(around.free.len(), ports.len(), |i, p| {
        -matrix.rest.values[around.free[i] * n + ports[p]]
    }));
    let flowing = norm(lone.as_ref());
    let mut driven = around.spread(lone.as_ref());
    ports
        .iter()
        .enumerate()
        .for_each(|(p, &at)| driven[(at, p)] = Complex::ONE);
    let driven = Seen::new(&around, driven);
    let mut more: Option<Seen> = None;
    let mut mixture = Mat::<Complex>::zeros(0, ports.len());
    for round in 0.. {
        let mut unbalanced = around.gathered(driven.image.as_ref());
        if let Some(more) = &more {
            let image = around.gathered(more.image.as_ref());
            unbalanced += product(image.as_ref(), mixture.as_ref());
        }
        let correction = own.solve(-unbalanced);
        if norm(correction.as_ref()) <= ENOUGH * flowing {
            break;
        }
        if round == MOST_ROUNDS {
            return None;
        }
        let fresh = fresh(
            &around.spread(correction.as_ref()),
            more.as_ref().map(|m| m.currents.as_ref()),
        );
        if fresh.ncols() == 0 {
            break;
        }
        let fresh = Seen::new(&around, fresh);
        let all = match more.take() {
            Some(more) => more.beside(&fresh),
            None => fresh,
        };
        let mixed = product(all.currents.transpose(), all.image.as_ref());
        let wanted = product(all.currents.transpose(), driven.image.as_ref());
        mixture = Factor::new(mixed).solve(-wanted);
        more = Some(all);
    }
    let mut total = driven;
    if let Some(more) = more {
        total.currents += product(more.currents.as_ref(), mixture.as_ref());
        total.image += product(more.image.as_ref(), mixture.as_ref());
        total.on_mast += product(more.on_mast.as_ref(), mixture.as_ref());
    }
    // So far for one ampere into each unknown of a port; now for one volt along its wire.
    let ohm = Mat::from_fn(ports.len(), ports.len(), |i, j| total.image[(ports[i], j)]);
    let per_volt = Factor::new(ohm).solve(Mat::from_fn(ports.len(), ports.len(), |i, j| {
        Complex::from(if i == j { mesh.ports[i].sign } else { 0.0 })
    }));
    let rest = product(total.currents.as_ref(), per_volt.as_ref());
    let on_mast = product(total.on_mast.as_ref(), per_volt.as_ref());
    let all = Mat::from_fn(first + n, ports.len(), |i, j| {
        if i < first {
            -on_mast[(i, j)]
        } else {
            rest[(i - first, j)]
        }
    });
    let finite = (0..all.ncols()).all(|j| all.col_as_slice(j).iter().all(|v| v.is_finite()));
    finite.then_some(all)
}

/// The bays, their unknowns without the ports', and the mast.
struct Around<'a> {
    free: Vec<usize>,
    matrix: &'a Matrix,
    mast: &'a Mast,
}

impl Around<'_> {
    /// The bays by themselves, all ports open.
    fn own(&self) -> Factor {
        let (n, values) = (self.matrix.rest.rows, &self.matrix.rest.values);
        Factor::new(Mat::from_fn(self.free.len(), self.free.len(), |i, j| {
            values[self.free[i] * n + self.free[j]]
        }))
    }

    fn spread(&self, free: MatRef<'_, Complex>) -> Mat<Complex> {
        let mut all = Mat::zeros(self.matrix.rest.rows, free.ncols());
        for j in 0..free.ncols() {
            for (i, &at) in self.free.iter().enumerate() {
                all[(at, j)] = free[(i, j)];
            }
        }
        all
    }

    fn gathered(&self, all: MatRef<'_, Complex>) -> Mat<Complex> {
        Mat::from_fn(self.free.len(), all.ncols(), |i, j| all[(self.free[i], j)])
    }
}

/// Currents of the bays, what they induce on the mast (with the sign turned), and the volts of both along the bays.
struct Seen {
    currents: Mat<Complex>,
    on_mast: Mat<Complex>,
    image: Mat<Complex>,
}

impl Seen {
    fn new(around: &Around, currents: Mat<Complex>) -> Self {
        let across = around.matrix.across.view();
        let on_mast = around
            .mast
            .solve(product(across.transpose(), currents.as_ref()).as_ref());
        let mut image = product(around.matrix.rest.view(), currents.as_ref());
        subtract_product(&mut image, across, on_mast.as_ref());
        Self {
            currents,
            on_mast,
            image,
        }
    }

    fn beside(&self, other: &Self) -> Self {
        let joined = |a: &Mat<Complex>, b: &Mat<Complex>| {
            let columns = a.ncols();
            Mat::from_fn(a.nrows(), columns + b.ncols(), |i, j| {
                if j < columns {
                    a[(i, j)]
                } else {
                    b[(i, j - columns)]
                }
            })
        };
        Self {
            currents: joined(&self.currents, &other.currents),
            on_mast: joined(&self.on_mast, &other.on_mast),
            image: joined(&self.image, &other.image),
        }
    }
}

/// Columns made orthonormal against those held and one another (Gram and Schmidt, twice); what is nothing new is left out.
pub(super) fn fresh(columns: &Mat<Complex>, held: Option<MatRef<'_, Complex>>) -> Mat<Complex> {
    let mut kept: Vec<Vec<Complex>> = held.map_or_else(Vec::new, |h| {
        (0..h.ncols())
            .map(|j| (0..h.nrows()).map(|i| h[(i, j)]).collect())
            .collect()
    });
    let before = kept.len();
    for j in 0..columns.ncols() {
        let mut column = columns.col_as_slice(j).to_vec();
        let at_first = length(&column);
        for _ in 0..2 {
            for other in &kept {
                let along: Complex = other.iter().zip(&column).map(|(a, b)| a.conj() * b).sum();
                column.iter_mut().zip(other).for_each(|(c, a)| *c -= along * a);
            }
        }
        let left = length(&column);
        if left > NOTHING_NEW * at_first {
            column.iter_mut().for_each(|c| *c /= left);
            kept.push(column);
        }
    }
    Mat::from_fn(columns.nrows(), kept.len() - before, |i, j| kept[before + j][i])
}

fn length(column: &[Complex]) -> f64 {
    column.iter().map(|c| c.norm_sqr()).sum::<f64>().sqrt()
}

fn norm(matrix: MatRef<'_, Complex>) -> f64 {
    (0..matrix.ncols())
        .flat_map(|j| (0..matrix.nrows()).map(move |i| matrix[(i, j)].norm_sqr()))
        .sum::<f64>()
        .sqrt()
}
