//! The field far away from given currents.
//!
//! Values are E·r·e^(jkr) in volts peak: divide by the distance for volts per metre. Radiation intensity is |E|²/(2η).

use super::geometry::{Ground, WireModel};
use super::mesh::{Mesh, Segment};
use super::phase::{fma, sin_cos};
use super::quadrature::gauss_01;
use super::solve::SegmentCurrents;
use super::vector::{Point, add, scale};
use super::{Complex, FREE_SPACE_OHM};
use rayon::prelude::*;

const LANES: usize = 8;
/// Below this many directions × segments (some 10 ms) a second thread costs more than it brings.
const PARALLEL_WORK: usize = 3_000_000;

/// Field in one direction: [θ component (vertical plane of polarisation), φ component (horizontal)], volts.
pub type Field = [Complex; 2];

/// A direction: azimuth from +x towards +y, elevation above the horizon, degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Direction {
    /// Azimuth, degrees.
    pub azimuth_deg: f64,
    /// Elevation, degrees.
    pub elevation_deg: f64,
}

/// Segments laid out for fast evaluation of their far field.
#[derive(Clone, Debug)]
pub struct FarField {
    wave_number: f64,
    segments: usize,
    centre: [Vec<f64>; 3],
    half: [Vec<f64>; 3],
    axis: [Vec<f64>; 3],
    length: Vec<f64>,
    ground: Ground,
    /// Middle of the box round all segments, the reference for band limits.
    pub(crate) middle: Point,
    /// Largest distance of any point from the middle, metres.
    pub(crate) reach_m: f64,
    /// Largest distance of any point from the vertical axis through the middle, metres.
    pub(crate) breadth_m: f64,
}

impl FarField {
    /// For the segments of a mesh.
    pub fn new(model: &WireModel, mesh: &Mesh) -> Self {
        Self::of(model.wave_number_per_m(), model.ground, &mesh.segments)
    }

    /// For some segments.
    pub(crate) fn of(wave_number: f64, ground: Ground, pieces: &[Segment]) -> Self {
        let grounded = ground == Ground::Perfect;
        let n = pieces.len();
        let total = if grounded { 2 * n } else { n };
        let padded = total.next_multiple_of(LANES);
        let columns = || -> [Vec<f64>; 3] { std::array::from_fn(|_| vec![0.0; padded]) };
        let (mut centre, mut half, mut axis) = (columns(), columns(), columns());
        let mut length = vec![0.0; padded];
        for index in 0..total {
            let s = &pieces[index % n];
            let middle = add(s.start_m, scale(s.direction, 0.5 * s.length_m));
            for i in 0..3 {
                // The image's place is mirrored; its current runs the other way.
                let mirror = if index >= n && i == 2 { -1.0 } else { 1.0 };
                centre[i][index] = mirror * middle[i];
                half[i][index] = mirror * 0.5 * s.length_m * s.direction[i];
                axis[i][index] = s.direction[i] * mirror * if index >= n { -1.0 } else { 1.0 };
            }
            length[index] = s.length_m;
        }
        let mut field = Self {
            wave_number,
            segments: n,
            centre,
            half,
            axis,
            length,
            ground,
            middle: [0.0; 3],
            reach_m: 0.0,
            breadth_m: 0.0,
        };
        field.measure(total);
        field
    }

    fn measure(&mut self, total: usize) {
        let ends = |index: usize| {
            [-1.0, 1.0].map(|e| [0, 1, 2].map(|i| self.centre[i][index] + e * self.half[i][index]))
        };
        let points: Vec<Point> = (0..total).flat_map(ends).collect();
        for i in 0..3 {
            let (low, high) = points
                .iter()
                .fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), p| {
                    (l.min(p[i]), h.max(p[i]))
                });
            self.middle[i] = 0.5 * (low + high);
        }
        for p in &points {
            let d = super::vector::sub(*p, self.middle);
            self.reach_m = self.reach_m.max(super::vector::length(d));
            self.breadth_m = self.breadth_m.max(d[0].hypot(d[1]));
        }
    }

    /// Wave number, per metre.
    pub fn wave_number_per_m(&self) -> f64 {
        self.wave_number
    }

    /// The ground the fields stand on.
    pub fn ground(&self) -> Ground {
        self.ground
    }

    /// Field of one set of currents in any directions.
    pub fn at(&self, currents: &SegmentCurrents, directions: &[Direction]) -> Vec<Field> {
        self.at_all(&[currents], directions)
            .into_iter()
            .map(|mut sets| sets.swap_remove(0))
            .collect()
    }

    /// Fields of several sets of currents (embedded elements): `[direction][set]`. The phases are computed once.
    pub fn at_all(&self, sets: &[&SegmentCurrents], directions: &[Direction]) -> Vec<Vec<Field>> {
        let mut fields = self.above_and_below(sets, directions);
        if self.ground == Ground::Perfect {
            for (direction, field) in directions.iter().zip(&mut fields) {
                if direction.elevation_deg < -1e-9 {
                    field.fill([Complex::ZERO; 2]);
                }
            }
        }
        fields
    }

    /// As [`Self::at_all`], but over ground the image's mirrored field is given below the horizon, so that the whole sphere
    /// is smooth.
    pub(crate) fn above_and_below(
        &self,
        sets: &[&SegmentCurrents],
        directions: &[Direction],
    ) -> Vec<Vec<Field>> {
        let laid: Vec<Laid> = sets.iter().map(|c| self.lay_out(c)).collect();
        let one = |d: &Direction| self.one(&laid, *d);
        if directions.len() * self.length.len() > PARALLEL_WORK && rayon::current_num_threads() > 1 {
            directions.par_iter().with_min_len(32).map(one).collect()
        } else {
            directions.iter().map(one).collect()
        }
    }

    fn lay_out(&self, currents: &SegmentCurrents) -> Laid {
        let padded = self.length.len();
        let mut laid = Laid {
            parts: std::array::from_fn(|_| vec![0.0; padded]),
        };
        let total = if self.ground == Ground::Perfect {
            2 * self.segments
        } else {
            self.segments
        };
        for index in 0..total {
            let [start, end] = currents[index % self.segments];
            let mean = (start + end) * (0.5 * self.length[index]);
            let slope = (end - start) * (0.5 * self.length[index]);
            for (part, value) in laid.parts.iter_mut().zip([mean.re, mean.im, slope.re, slope.im]) {
                part[index] = value;
            }
        }
        laid
    }

    fn one(&self, laid: &[Laid], direction: Direction) -> Vec<Field> {
        let (sin_e, cos_e) = direction.elevation_deg.to_radians().sin_cos();
        let (sin_a, cos_a) = direction.azimuth_deg.to_radians().sin_cos();
        let toward = [cos_e * cos_a, cos_e * sin_a, sin_e];
        let mut sums: Vec<Sums> = vec![[[0.0; LANES]; 6]; laid.len()];
        radiation_sums(self, laid, scale(toward, self.wave_number), &mut sums);
        let factor = Complex::new(
            0.0,
            -self.wave_number * FREE_SPACE_OHM / (4.0 * std::f64::consts::PI),
        );
        // θ̂ points down where elevation rises: θ = 90° − elevation.
        let theta = [sin_e * cos_a, sin_e * sin_a, -cos_e];
        let along = |n: &[f64; 6], u: [f64; 3]| {
            factor
                * Complex::new(
                    n[0] * u[0] + n[2] * u[1] + n[4] * u[2],
                    n[1] * u[0] + n[3] * u[1] + n[5] * u[2],
                )
        };
        let total = |lanes: &Sums| lanes.map(|l| l.iter().sum::<f64>());
        sums.iter()
            .map(total)
            .map(|n| [along(&n, theta), along(&n, [-sin_a, cos_a, 0.0])])
            .collect()
    }

    /// Power radiated through the sphere (upper half above ground), watts: Gauss–Legendre in sin(elevation), equal steps in
    /// azimuth, enough of both to be exact for these dimensions.
    pub fn radiated_power_w(&self, currents: &SegmentCurrents) -> f64 {
        let k = self.wave_number;
        let rings = (k * self.reach_m + 20.0).ceil() as usize;
        let steps = (2.0 * k * self.breadth_m + 16.0).ceil() as usize;
        let grounded = self.ground == Ground::Perfect;
        let mut directions = Vec::new();
        let mut weights = Vec::new();
        for (x, w) in gauss_01(rings) {
            let sine = if grounded { x } else { 2.0 * x - 1.0 };
            for step in 0..steps {
                directions.push(Direction {
                    azimuth_deg: 360.0 * step as f64 / steps as f64,
                    elevation_deg: sine.asin().to_degrees(),
                });
                weights.push(w * if grounded { 1.0 } else { 2.0 } * std::f64::consts::TAU / steps as f64);
            }
        }
        let fields = self.at(currents, &directions);
        fields.iter().zip(&weights).map(|(f, w)| w * intensity(f)).sum()
    }
}

/// Radiation intensity of a field, watts per steradian.
pub fn intensity(field: &Field) -> f64 {
    (field[0].norm_sqr() + field[1].norm_sqr()) / (2.0 * FREE_SPACE_OHM)
}

/// Gain of one field component over an isotropic radiator of the given power, dBi; negative infinity for no field.
pub fn directivity_dbi(component: Complex, power_w: f64) -> f64 {
    10.0 * (4.0 * std::f64::consts::PI * component.norm_sqr() / (2.0 * FREE_SPACE_OHM * power_w)).log10()
}

/// x, y, z, real and imaginary, eight partial sums each.
type Sums = [[f64; LANES]; 6];

/// A set of currents: mean and half the difference, times length, real and imaginary.
struct Laid {
    parts: [Vec<f64>; 4],
}

/// ∫ I e^{jk r̂·r} along every segment, summed as a vector: closed form for a current linear along the segment.
#[multiversion::multiversion(targets("x86_64+avx2+fma", "aarch64+neon"))]
fn radiation_sums(field: &FarField, laid: &[Laid], wave: Point, sums: &mut [Sums]) {
    if multiversion::target::target_cfg_f!(any(target_feature = "fma", target_arch = "aarch64")) {
        radiation_sums_with::<true>(field, laid, wave, sums);
    } else {
        radiation_sums_with::<false>(field, laid, wave, sums);
    }
}

#[inline(always)]
fn lanes(v: &[f64], at: usize) -> &[f64; LANES] {
    v[at..at + LANES].try_into().expect("padded to whole lanes")
}

#[inline(always)]
fn radiation_sums_with<const F: bool>(field: &FarField, laid: &[Laid], wave: Point, sums: &mut [Sums]) {
    for at in (0..field.length.len()).step_by(LANES) {
        // Arrays are spelt out: closures do not inherit the wide instructions.
        let (centre, half, axis) = (&field.centre, &field.half, &field.axis);
        let [cx, cy, cz] = [
            lanes(&centre[0], at),
            lanes(&centre[1], at),
            lanes(&centre[2], at),
        ];
        let [hx, hy, hz] = [lanes(&half[0], at), lanes(&half[1], at), lanes(&half[2], at)];
        let axis = [lanes(&axis[0], at), lanes(&axis[1], at), lanes(&axis[2], at)];
        let (mut sin, mut cos, mut even, mut odd) = ([0.0; LANES], [0.0; LANES], [0.0; LANES], [0.0; LANES]);
        for l in 0..LANES {
            let phase = fma::<F>(wave[0], cx[l], fma::<F>(wave[1], cy[l], wave[2] * cz[l]));
            let x = fma::<F>(wave[0], hx[l], fma::<F>(wave[1], hy[l], wave[2] * hz[l]));
            (sin[l], cos[l]) = sin_cos::<F>(phase);
            (even[l], odd[l]) = linear_current::<F>(x);
        }
        for (set, total) in laid.iter().zip(sums.iter_mut()) {
            let parts = &set.parts;
            let (mr, mi) = (lanes(&parts[0], at), lanes(&parts[1], at));
            let (sr, si) = (lanes(&parts[2], at), lanes(&parts[3], at));
            for l in 0..LANES {
                // (mean·even + j·slope·odd)(cos + j sin)
                let re = fma::<F>(mr[l], even[l], -si[l] * odd[l]);
                let im = fma::<F>(mi[l], even[l], sr[l] * odd[l]);
                let (wr, wi) = (
                    fma::<F>(re, cos[l], -im * sin[l]),
                    fma::<F>(re, sin[l], im * cos[l]),
                );
                for i in 0..3 {
                    total[2 * i][l] = fma::<F>(axis[i][l], wr, total[2 * i][l]);
                    total[2 * i + 1][l] = fma::<F>(axis[i][l], wi, total[2 * i + 1][l]);
                }
            }
        }
    }
}

/// sin x / x and (sin x − x cos x)/x²: a current's mean and its slope along a segment of electrical half-length x. Series,
/// for |x| < 0.8: segments are at most λ/8 long.
#[inline(always)]
fn linear_current<const F: bool>(x: f64) -> (f64, f64) {
    let z = x * x;
    let (mut even, mut odd) = (1.0 / 362_880.0, 1.0 / 3_991_680.0);
    for (e, o) in [
        (-1.0 / 5040.0, -1.0 / 45_360.0),
        (1.0 / 120.0, 1.0 / 840.0),
        (-1.0 / 6.0, -1.0 / 30.0),
        (1.0, 1.0 / 3.0),
    ] {
        even = fma::<F>(even, z, e);
        odd = fma::<F>(odd, z, o);
    }
    (even, x * odd)
}
