//! Dense complex algebra on one thread: at these sizes more threads gain nothing inside one factorisation, and callers run
//! many antennas at once.

use super::Complex;
use faer::dyn_stack::{MemBuffer, MemStack};
use faer::linalg::lu::partial_pivoting::{factor, solve};
use faer::linalg::matmul::matmul;
use faer::perm::PermRef;
use faer::{Accum, Mat, MatRef, Par};

/// A matrix factored by Gaussian elimination with row exchange.
#[derive(Clone, Debug)]
pub(crate) struct Factor {
    lu: Mat<Complex>,
    forward: Vec<usize>,
    backward: Vec<usize>,
}

impl Factor {
    pub(crate) fn new(mut matrix: Mat<Complex>) -> Self {
        let n = matrix.nrows();
        let (mut forward, mut backward) = (vec![0; n], vec![0; n]);
        let mut memory = MemBuffer::new(factor::lu_in_place_scratch::<usize, Complex>(
            n,
            n,
            Par::Seq,
            Default::default(),
        ));
        factor::lu_in_place(
            matrix.as_mut(),
            &mut forward,
            &mut backward,
            Par::Seq,
            MemStack::new(&mut memory),
            Default::default(),
        );
        Self {
            lu: matrix,
            forward,
            backward,
        }
    }

    fn rows(&self) -> PermRef<'_, usize> {
        PermRef::new_checked(&self.forward, &self.backward, self.lu.nrows())
    }

    pub(crate) fn solve(&self, mut sides: Mat<Complex>) -> Mat<Complex> {
        let (n, columns) = (self.lu.nrows(), sides.ncols());
        let mut memory = MemBuffer::new(solve::solve_in_place_scratch::<usize, Complex>(
            n,
            columns,
            Par::Seq,
        ));
        let lu = self.lu.as_ref();
        solve::solve_in_place(
            lu,
            lu,
            self.rows(),
            sides.as_mut(),
            Par::Seq,
            MemStack::new(&mut memory),
        );
        sides
    }

    pub(crate) fn solve_transpose(&self, mut sides: Mat<Complex>) -> Mat<Complex> {
        let (n, columns) = (self.lu.nrows(), sides.ncols());
        let mut memory = MemBuffer::new(solve::solve_transpose_in_place_scratch::<usize, Complex>(
            n,
            columns,
            Par::Seq,
        ));
        let lu = self.lu.as_ref();
        solve::solve_transpose_in_place(
            lu,
            lu,
            self.rows(),
            sides.as_mut(),
            Par::Seq,
            MemStack::new(&mut memory),
        );
        sides
    }
}

pub(crate) fn product(a: MatRef<'_, Complex>, b: MatRef<'_, Complex>) -> Mat<Complex> {
    let mut result = Mat::zeros(a.nrows(), b.ncols());
    matmul(&mut result, Accum::Replace, a, b, Complex::ONE, Par::Seq);
    result
}

/// `result` ← `result` − a·b.
pub(crate) fn subtract_product(result: &mut Mat<Complex>, a: MatRef<'_, Complex>, b: MatRef<'_, Complex>) {
    matmul(result, Accum::Add, a, b, -Complex::ONE, Par::Seq);
}
