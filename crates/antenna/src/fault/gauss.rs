//! Normal deviates that share causes: density and distance, by the matrix inversion lemma.

/// How far one reading lies from what is expected.
pub(super) struct Off {
    /// By how much, dB.
    pub db: f64,
    /// Variance of its own, dB², above 0.
    pub variance: f64,
    /// What each shared cause of unit variance does to it, dB: as many in every reading.
    pub shared: Vec<f64>,
}

/// Natural logarithm of the density, but for a constant of the number of readings.
pub(super) fn log_density(offs: &[Off]) -> f64 {
    let (square, log_det) = weighed(offs);
    -0.5 * (square + log_det)
}

/// Square of the distance in units of the common deviation (Mahalanobis).
pub(super) fn square_distance(offs: &[Off]) -> f64 {
    weighed(offs).0
}

/// What readings say of the shared causes, of unit variance before.
pub(super) struct Learnt {
    /// L⁻¹U, where L·Lᵀ is the readings' covariance D + U·Uᵀ.
    rows: Vec<Vec<f64>>,
    /// What is expected of each cause.
    mean: Vec<f64>,
}

impl Learnt {
    pub fn from(offs: &[Off]) -> Self {
        let causes = offs.first().map_or(0, |o| o.shared.len());
        let mut lower: Vec<Vec<f64>> = Vec::with_capacity(offs.len());
        let mut learnt = Self {
            rows: Vec::with_capacity(offs.len()),
            mean: vec![0.0; causes],
        };
        let mut known: Vec<f64> = Vec::with_capacity(offs.len());
        for (i, o) in offs.iter().enumerate() {
            let mut row = Vec::with_capacity(i + 1);
            for (j, other) in offs[..=i].iter().enumerate() {
                let dot: f64 = o.shared.iter().zip(&other.shared).map(|(a, b)| a * b).sum();
                let before = if j < i { &lower[j] } else { &row };
                let taken: f64 = row.iter().zip(before).map(|(a, b)| a * b).sum();
                row.push(if j < i {
                    (dot - taken) / lower[j][j]
                } else {
                    (dot + o.variance - taken).sqrt()
                });
            }
            let own = row[i];
            let mut of_causes = o.shared.clone();
            let mut off = o.db;
            for ((l, earlier), k) in row.iter().zip(&learnt.rows).zip(&known) {
                of_causes.iter_mut().zip(earlier).for_each(|(c, e)| *c -= l * e);
                off -= l * k;
            }
            of_causes.iter_mut().for_each(|c| *c /= own);
            off /= own;
            learnt
                .mean
                .iter_mut()
                .zip(&of_causes)
                .for_each(|(m, c)| *m += c * off);
            learnt.rows.push(of_causes);
            known.push(off);
            lower.push(row);
        }
        learnt
    }

    /// How far off a reading with these causes is to be expected, dB, and its variance by the causes.
    pub fn expected(&self, shared: &[f64]) -> (f64, f64) {
        let dot = |a: &[f64]| -> f64 { a.iter().zip(shared).map(|(x, y)| x * y).sum() };
        let before = dot(shared);
        let known: f64 = self.rows.iter().map(|row| dot(row).powi(2)).sum();
        (dot(&self.mean), (before - known).max(0.0))
    }
}

/// dᵀC⁻¹d and ln det C for C = D + U·Uᵀ.
fn weighed(offs: &[Off]) -> (f64, f64) {
    let causes = offs.first().map_or(0, |o| o.shared.len());
    if offs.len() <= causes {
        directly(offs)
    } else {
        by_causes(offs, causes)
    }
}

fn directly(offs: &[Off]) -> (f64, f64) {
    let n = offs.len();
    let mut c = vec![0.0; n * n];
    for (i, a) in offs.iter().enumerate() {
        for (j, b) in offs[..=i].iter().enumerate() {
            c[i * n + j] = a.shared.iter().zip(&b.shared).map(|(x, y)| x * y).sum();
        }
        c[i * n + i] += a.variance;
    }
    factored(c, offs.iter().map(|o| o.db).collect())
}

/// dᵀD⁻¹d − bᵀM⁻¹b with b = UᵀD⁻¹d, M = 1 + UᵀD⁻¹U (Woodbury), for more readings than causes.
fn by_causes(offs: &[Off], n: usize) -> (f64, f64) {
    let mut m = vec![0.0; n * n];
    let mut b = vec![0.0; n];
    let (mut square, mut log_det) = (0.0, 0.0);
    for i in 0..n {
        m[i * n + i] = 1.0;
    }
    for o in offs {
        square += o.db * o.db / o.variance;
        log_det += o.variance.ln();
        for (i, u) in o.shared.iter().enumerate() {
            let part = u / o.variance;
            b[i] += part * o.db;
            for (sum, v) in m[i * n..=i * n + i].iter_mut().zip(&o.shared) {
                *sum += part * v;
            }
        }
    }
    let (taken, det) = factored(m, b);
    (square - taken, log_det + det)
}

/// bᵀM⁻¹b and ln det M of a positive matrix given by its lower half: Cholesky in place, b solved along.
fn factored(mut m: Vec<f64>, mut b: Vec<f64>) -> (f64, f64) {
    let n = b.len();
    let (mut square, mut log_det) = (0.0, 0.0);
    for i in 0..n {
        for j in 0..=i {
            let dot: f64 = m[i * n..i * n + j]
                .iter()
                .zip(&m[j * n..j * n + j])
                .map(|(x, y)| x * y)
                .sum();
            let left = m[i * n + j] - dot;
            m[i * n + j] = if i == j { left.sqrt() } else { left / m[j * n + j] };
        }
        let dot: f64 = m[i * n..i * n + i].iter().zip(&b).map(|(x, y)| x * y).sum();
        b[i] = (b[i] - dot) / m[i * n + i];
        square += b[i] * b[i];
        log_det += 2.0 * m[i * n + i].ln();
    }
    (square, log_det)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn verif_what_is_learnt_of_a_cause_by_hand() {
        // One cause seen once with its own variance of one: half of what was read, half of the variance left.
        let seen = Off {
            db: 3.0,
            variance: 1.0,
            shared: vec![1.0, 0.0],
        };
        let (off, variance) = Learnt::from(&[seen]).expected(&[1.0, 2.0]);
        assert!((off - 1.5).abs() < 1e-12 && (variance - 4.5).abs() < 1e-12);
        // Seen twice: two thirds of it, a third left.
        let twice = [3.0, 3.0].map(|db| Off {
            db,
            variance: 1.0,
            shared: vec![1.0],
        });
        let (off, variance) = Learnt::from(&twice).expected(&[1.0]);
        assert!((off - 2.0).abs() < 1e-12 && (variance - 1.0 / 3.0).abs() < 1e-12);
    }

    #[test]
    fn verif_two_readings_with_one_cause_by_hand() {
        // C = [[2, 1], [1, 2]], d = (1, −1): dᵀC⁻¹d = 2, det C = 3.
        let off = |db| Off {
            db,
            variance: 1.0,
            shared: vec![1.0],
        };
        let (square, log_det) = weighed(&[off(1.0), off(-1.0)]);
        assert!((square - 2.0).abs() < 1e-12 && (log_det - 3f64.ln()).abs() < 1e-12);
        // d = (1, 1) lies along the cause: 2/3.
        assert!((square_distance(&[off(1.0), off(1.0)]) - 2.0 / 3.0).abs() < 1e-12);
        // More readings than causes go the other way to the same answer.
        let many = [off(1.0), off(-1.0), off(0.5)];
        let (a, b) = (directly(&many), by_causes(&many, 1));
        assert!((a.0 - b.0).abs() < 1e-12 && (a.1 - b.1).abs() < 1e-12);
    }
}
