//! The whole pattern at once. A field from a body of limited size is band-limited, so a coarse grid of directions fixes it;
//! the wanted grid follows by trigonometric interpolation, exact to about 1e-6 of the maximum.
//!
//! # Source
//! Excess bandwidth formula ka + 1.8 d^(2/3) (ka)^(1/3) for d digits, in use with multipole expansions (from memory).

use super::dense::product;
use super::far_field::{Direction, FarField, Field, intensity};
use super::geometry::Ground;
use super::solve::{SegmentCurrents, Solution};
use super::vector::dot;
use super::{Complex, directivity_dbi};
use faer::Mat;

/// Digits of a pattern that is kept.
pub(crate) const DIGITS: f64 = 6.0;

/// Field over elevations × azimuths.
#[derive(Clone, Debug)]
pub struct FieldGrid {
    /// Elevations, degrees.
    pub elevation_deg: Vec<f64>,
    /// Azimuths, degrees.
    pub azimuth_deg: Vec<f64>,
    /// Fields, elevation by elevation.
    pub fields: Vec<Field>,
}

/// Where the gain is largest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Peak {
    /// Gain of both components together, dBi.
    pub gain_dbi: f64,
    /// Where.
    pub direction: Direction,
}

impl FieldGrid {
    /// Field of one set of currents.
    pub fn of(
        far_field: &FarField,
        currents: &SegmentCurrents,
        elevation_deg: &[f64],
        azimuth_deg: &[f64],
    ) -> Self {
        Self::of_all(far_field, &[currents], elevation_deg, azimuth_deg).swap_remove(0)
    }

    /// Fields of several sets, such as the embedded elements.
    pub fn of_all(
        far_field: &FarField,
        sets: &[&SegmentCurrents],
        elevation_deg: &[f64],
        azimuth_deg: &[f64],
    ) -> Vec<Self> {
        Self::to_digits(far_field, sets, elevation_deg, azimuth_deg, DIGITS)
    }

    /// As [`Self::of_all`] to so many digits, what repeats (the mast) and the rest each by themselves: a slim mast needs but few azimuths
    /// and the bays' own currents are few.
    pub(crate) fn in_parts(
        solution: &Solution,
        sets: &[&SegmentCurrents],
        elevation_deg: &[f64],
        azimuth_deg: &[f64],
        digits: f64,
    ) -> Vec<Self> {
        let (mast, all) = (
            solution.mesh.rotation.all_segments(),
            solution.mesh.segments.len(),
        );
        let of_part = |from: usize, to: usize| {
            let field = &solution.far_field;
            let part = FarField::of(
                field.wave_number_per_m(),
                field.ground(),
                &solution.mesh.segments[from..to],
            );
            let sets: Vec<SegmentCurrents> = sets.iter().map(|set| set[from..to].to_vec()).collect();
            let sets: Vec<&SegmentCurrents> = sets.iter().collect();
            Self::to_digits(&part, &sets, elevation_deg, azimuth_deg, digits)
        };
        let mut grids = of_part(mast, all);
        if mast > 0 {
            add_fields(&mut grids, &of_part(0, mast));
        }
        grids
    }

    pub(crate) fn to_digits(
        far_field: &FarField,
        sets: &[&SegmentCurrents],
        elevation_deg: &[f64],
        azimuth_deg: &[f64],
        digits: f64,
    ) -> Vec<Self> {
        let coarse = Coarse::new(far_field, digits);
        if elevation_deg.len() * azimuth_deg.len() <= coarse.elevations * coarse.azimuths {
            return plain(far_field, sets, elevation_deg, azimuth_deg);
        }
        coarse.interpolated(far_field, sets, elevation_deg, azimuth_deg)
    }

    /// Field at the i-th elevation and j-th azimuth.
    pub fn at(&self, elevation: usize, azimuth: usize) -> Field {
        self.fields[elevation * self.azimuth_deg.len() + azimuth]
    }
}

/// Adds the fields of other currents in the same directions, set by set.
pub(crate) fn add_fields(grids: &mut [FieldGrid], others: &[FieldGrid]) {
    for (grid, other) in grids.iter_mut().zip(others) {
        for (field, more) in grid.fields.iter_mut().zip(&other.fields) {
            field[0] += more[0];
            field[1] += more[1];
        }
    }
}

/// Every direction evaluated on its own: the oracle of the interpolation.
pub fn plain(
    far_field: &FarField,
    sets: &[&SegmentCurrents],
    elevation_deg: &[f64],
    azimuth_deg: &[f64],
) -> Vec<FieldGrid> {
    let fields = far_field.at_all(sets, &every_direction(elevation_deg, azimuth_deg));
    (0..sets.len())
        .map(|set| FieldGrid {
            elevation_deg: elevation_deg.to_vec(),
            azimuth_deg: azimuth_deg.to_vec(),
            fields: fields.iter().map(|f| f[set]).collect(),
        })
        .collect()
}

fn every_direction(elevation_deg: &[f64], azimuth_deg: &[f64]) -> Vec<Direction> {
    let row = |e: &f64| {
        let elevation_deg = *e;
        azimuth_deg.iter().map(move |a| Direction {
            azimuth_deg: *a,
            elevation_deg,
        })
    };
    elevation_deg.iter().flat_map(row).collect()
}

/// Direction of the largest gain, found on a 2° grid and then on one of 0.25° round the best.
pub fn peak(far_field: &FarField, currents: &SegmentCurrents, power_w: f64) -> Peak {
    let grounded = far_field.ground() == Ground::Perfect;
    let elevations: Vec<f64> = (if grounded { 0 } else { -45 }..=45)
        .map(|i| 2.0 * f64::from(i))
        .collect();
    let azimuths: Vec<f64> = (0..180).map(|i| 2.0 * f64::from(i)).collect();
    let first = best(
        &FieldGrid::of(far_field, currents, &elevations, &azimuths),
        power_w,
    );
    let fine = |middle: f64| (-8..=8).map(move |i| middle + 0.25 * f64::from(i));
    let low = if grounded { 0.0 } else { -90.0 };
    let elevations: Vec<f64> = fine(first.direction.elevation_deg)
        .filter(|e| (low..=90.0).contains(e))
        .collect();
    let azimuths: Vec<f64> = fine(first.direction.azimuth_deg)
        .map(|a| a.rem_euclid(360.0))
        .collect();
    let fine = plain(far_field, &[currents], &elevations, &azimuths).swap_remove(0);
    best(&fine, power_w)
}

fn best(grid: &FieldGrid, power_w: f64) -> Peak {
    let (index, field) = grid
        .fields
        .iter()
        .enumerate()
        .max_by(|a, b| intensity(a.1).total_cmp(&intensity(b.1)))
        .expect("a grid has directions");
    let total = Complex::from((field[0].norm_sqr() + field[1].norm_sqr()).sqrt());
    let columns = grid.azimuth_deg.len();
    Peak {
        gain_dbi: directivity_dbi(total, power_w),
        direction: Direction {
            azimuth_deg: grid.azimuth_deg[index % columns],
            elevation_deg: grid.elevation_deg[index / columns],
        },
    }
}

/// Numbers of polar angles and azimuths that fix the field.
struct Coarse {
    elevations: usize,
    azimuths: usize,
}

impl Coarse {
    fn new(far_field: &FarField, digits: f64) -> Self {
        let excess = 1.8 * digits.powf(2.0 / 3.0);
        let band = |size: f64| (size + excess * size.cbrt() + 0.5 * digits).ceil() as usize;
        let k = far_field.wave_number_per_m();
        Self {
            elevations: band(k * far_field.reach_m) + 1,
            azimuths: 2 * band(k * far_field.breadth_m) + 1,
        }
    }

    fn polar_rad(&self, index: usize) -> f64 {
        (index as f64 + 0.5) * std::f64::consts::PI / self.elevations as f64
    }

    fn interpolated(
        &self,
        far_field: &FarField,
        sets: &[&SegmentCurrents],
        elevation_deg: &[f64],
        azimuth_deg: &[f64],
    ) -> Vec<FieldGrid> {
        let elevations: Vec<f64> = (0..self.elevations)
            .map(|i| 90.0 - self.polar_rad(i).to_degrees())
            .collect();
        let azimuths: Vec<f64> = (0..self.azimuths)
            .map(|p| 360.0 * p as f64 / self.azimuths as f64)
            .collect();
        let mut samples = far_field.above_and_below(sets, &every_direction(&elevations, &azimuths));
        // Referred to the middle of the antenna the phase varies least.
        for (index, field) in samples.iter_mut().enumerate() {
            let back = middle_phase(
                far_field,
                elevations[index / self.azimuths],
                azimuths[index % self.azimuths],
            )
            .conj();
            field.iter_mut().flatten().for_each(|c| *c *= back);
        }
        let steps = Steps::new(self, elevation_deg, azimuth_deg);
        let forward = middle_phases(far_field, elevation_deg, azimuth_deg);
        let hidden = |e: f64| far_field.ground() == Ground::Perfect && e < -1e-9;
        (0..sets.len())
            .map(|set| {
                let [theta, phi] =
                    [0, 1].map(|c| steps.apply(self, |i, p| samples[i * self.azimuths + p][set][c]));
                let columns = azimuth_deg.len();
                let field = |index: usize| {
                    let (i, j) = (index / columns, index % columns);
                    if hidden(elevation_deg[i]) {
                        return [Complex::ZERO; 2];
                    }
                    [theta[(i, j)] * forward[index], phi[(i, j)] * forward[index]]
                };
                let fields = (0..forward.len()).map(field).collect();
                FieldGrid {
                    elevation_deg: elevation_deg.to_vec(),
                    azimuth_deg: azimuth_deg.to_vec(),
                    fields,
                }
            })
            .collect()
    }

    fn order(&self, column: usize) -> i64 {
        column as i64 - (self.azimuths / 2) as i64
    }
}

fn middle_phase(far_field: &FarField, elevation_deg: f64, azimuth_deg: f64) -> Complex {
    let (sin_e, cos_e) = elevation_deg.to_radians().sin_cos();
    let (sin_a, cos_a) = azimuth_deg.to_radians().sin_cos();
    Complex::from_polar(
        1.0,
        far_field.wave_number_per_m() * dot([cos_e * cos_a, cos_e * sin_a, sin_e], far_field.middle),
    )
}

/// The same over elevations × azimuths, sines taken once a row and column.
fn middle_phases(far_field: &FarField, elevation_deg: &[f64], azimuth_deg: &[f64]) -> Vec<Complex> {
    let middle = super::vector::scale(far_field.middle, far_field.wave_number_per_m());
    let around: Vec<f64> = azimuth_deg
        .iter()
        .map(|a| a.to_radians().sin_cos())
        .map(|(sin, cos)| cos * middle[0] + sin * middle[1])
        .collect();
    elevation_deg
        .iter()
        .map(|e| e.to_radians().sin_cos())
        .flat_map(|(sin, cos)| {
            around
                .iter()
                .map(move |level| Complex::from_polar(1.0, cos * level + sin * middle[2]))
        })
        .collect()
}

/// The matrices of the interpolation: samples → azimuth harmonics → wanted elevations → wanted azimuths.
struct Steps {
    harmonics: Mat<Complex>,
    polar: [Mat<Complex>; 2],
    azimuth: Mat<Complex>,
}

impl Steps {
    fn new(coarse: &Coarse, elevation_deg: &[f64], azimuth_deg: &[f64]) -> Self {
        let tau = std::f64::consts::TAU;
        let n = coarse.azimuths;
        let harmonics = Mat::from_fn(n, n, |p, m| {
            let turns = (p as i64 * coarse.order(m)).rem_euclid(n as i64);
            Complex::from_polar(1.0 / n as f64, -tau * turns as f64 / n as f64)
        });
        // Past the pole both unit vectors turn round, so harmonic m continues with sign −(−1)^m.
        let polar = [-1.0, 1.0].map(|sign| {
            Mat::from_fn(elevation_deg.len(), coarse.elevations, |i, s| {
                let theta = (90.0 - elevation_deg[i]).to_radians();
                let at = coarse.polar_rad(s);
                Complex::from(
                    dirichlet(theta - at, 2 * coarse.elevations)
                        + sign * dirichlet(theta + at, 2 * coarse.elevations),
                )
            })
        });
        let azimuth = Mat::from_fn(n, azimuth_deg.len(), |m, j| {
            Complex::from_polar(1.0, coarse.order(m) as f64 * azimuth_deg[j].to_radians())
        });
        Self {
            harmonics,
            polar,
            azimuth,
        }
    }

    fn apply(&self, coarse: &Coarse, sample: impl Fn(usize, usize) -> Complex) -> Mat<Complex> {
        let samples = Mat::from_fn(coarse.elevations, coarse.azimuths, sample);
        let spectrum = product(samples.as_ref(), self.harmonics.as_ref());
        let [even, odd] = [0, 1].map(|kind| product(self.polar[kind].as_ref(), spectrum.as_ref()));
        let mixed = Mat::from_fn(even.nrows(), even.ncols(), |i, m| {
            if coarse.order(m) % 2 == 0 {
                even[(i, m)]
            } else {
                odd[(i, m)]
            }
        });
        product(mixed.as_ref(), self.azimuth.as_ref())
    }
}

/// Interpolating kernel of an even number of equidistant samples of a periodic function.
fn dirichlet(x: f64, samples: usize) -> f64 {
    let n = samples as f64;
    let half = 0.5 * x.rem_euclid(std::f64::consts::TAU);
    if half.sin().abs() < 1e-12 {
        return 1.0;
    }
    (n * half).sin() / (n * half.tan())
}
