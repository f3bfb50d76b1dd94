//! Far field of a stack with its currents: by direction, over the sphere, as gain.

use std::f64::consts::PI;

use num_complex::Complex64 as C64;

use super::element::{Arm, arms_split_field, wave_number};
use super::pole::PoleSeries;
use super::{ArrayError, ETA_OHM, Matrix, Stack};
use crate::direction::{Direction, Field, Plane};
use crate::quadrature::gauss_legendre;

/// A stack and its currents, made ready for many directions: bays that share place on the ground and shape are one group,
/// whose height enters by a sum per elevation only.
#[derive(Debug, Clone)]
pub struct Radiator {
    k_per_m: f64,
    height_m: f64,
    breadth_m: f64,
    groups: Vec<Group>,
}

#[derive(Debug, Clone)]
struct Group {
    arms: Vec<Arm>,
    east_m: f64,
    north_m: f64,
    beside: Option<Beside>,
    /// Height and dipole current of each bay.
    bays: Vec<(f64, C64)>,
}

#[derive(Debug, Clone, Copy)]
struct Beside {
    distance_m: f64,
    bearing_deg: f64,
    radius_m: f64,
    pole_east_m: f64,
    pole_north_m: f64,
}

/// A radiator at one elevation: what does not depend on the bearing is done.
pub struct Row<'a> {
    radiator: &'a Radiator,
    elev_deg: f64,
    groups: Vec<(C64, Option<PoleSeries>)>,
}

impl Radiator {
    /// Joins a checked stack and its port currents (A, peak).
    ///
    /// # Errors
    /// Whatever [`Stack::check`] finds; [`ArrayError::Length`] unless there is one current a bay.
    pub fn new(stack: &Stack, currents_a: &[C64]) -> Result<Self, ArrayError> {
        stack.check()?;
        if currents_a.len() != stack.bays.len() {
            return Err(ArrayError::Length {
                what: "currents",
                given: currents_a.len(),
                wanted: stack.bays.len(),
            });
        }
        let mut groups: Vec<Group> = Vec::new();
        for (bay, &amperes) in stack.bays.iter().zip(currents_a) {
            let [east, north, up] = bay.position_m;
            let entry = (up, amperes * bay.turns());
            let same = |g: &&mut Group| {
                (g.east_m - east).abs() < 1e-9 && (g.north_m - north).abs() < 1e-9 && g.arms == bay.arms
            };
            match groups.iter_mut().find(same) {
                Some(group) => group.bays.push(entry),
                None => groups.push(Group {
                    arms: bay.arms.clone(),
                    east_m: east,
                    north_m: north,
                    beside: stack.pole.map(|p| Beside {
                        distance_m: (east - p.east_m).hypot(north - p.north_m),
                        bearing_deg: (east - p.east_m).atan2(north - p.north_m).to_degrees(),
                        radius_m: p.radius_m,
                        pole_east_m: p.east_m,
                        pole_north_m: p.north_m,
                    }),
                    bays: vec![entry],
                }),
            }
        }
        let (height_m, breadth_m) = stack.extent_m();
        Ok(Self {
            k_per_m: wave_number(stack.frequency_mhz),
            height_m,
            breadth_m,
            groups,
        })
    }

    /// The sum F of currents and element fields, A: the far field is E = jη/(2πr)·e^{−jkr}·F.
    pub fn field(&self, towards: Direction) -> Field {
        self.row(towards.elev_deg).field(towards.bearing_deg)
    }

    /// Makes one elevation ready.
    pub fn row(&self, elev_deg: f64) -> Row<'_> {
        let k_up = self.k_per_m * elev_deg.to_radians().sin();
        let groups = self
            .groups
            .iter()
            .map(|g| {
                let sum = g
                    .bays
                    .iter()
                    .map(|&(up, i)| i * C64::from_polar(1.0, k_up * up))
                    .sum();
                let series = g
                    .beside
                    .map(|b| PoleSeries::new(self.k_per_m, elev_deg, b.distance_m, b.radius_m));
                (sum, series)
            })
            .collect();
        Row {
            radiator: self,
            elev_deg,
            groups,
        }
    }

    /// ∮|F|² dΩ over both components, A²: Gauss–Legendre in the sine of elevation, equal steps of bearing.
    pub fn sphere_integral(&self) -> f64 {
        let (n_theta, n_phi) = self.nodes();
        let mut sum = 0.0;
        for (sin_elev, weight) in gauss_legendre(n_theta) {
            let row = self.row(sin_elev.asin().to_degrees());
            let ring: f64 = (0..n_phi)
                .map(|i| row.field(360.0 * i as f64 / n_phi as f64).norm_sqr())
                .sum();
            sum += weight * ring * 2.0 * PI / n_phi as f64;
        }
        sum
    }

    /// Rings and points on each that the sphere's integral takes.
    fn nodes(&self) -> (usize, usize) {
        let n_theta = (self.k_per_m * self.height_m / 2.0 + 20.0).ceil() as usize;
        let n_phi = (2.0 * self.k_per_m * self.breadth_m + 16.0).ceil() as usize;
        (n_theta, n_phi)
    }

    /// ∮ F_i*·F_j dΩ of bays fed alone: the sphere's integral of any currents I is Iᴴ·G·I.
    ///
    /// # Shape
    /// `alone`: one radiator a bay of one stack, one ampere into its connector
    pub(crate) fn gram(alone: &[Radiator]) -> Matrix {
        let n = alone.len();
        let mut sum = Matrix::zeros(n, n);
        let Some(first) = alone.first() else { return sum };
        let (n_theta, n_phi) = first.nodes();
        for (sin_elev, weight) in gauss_legendre(n_theta) {
            let rows: Vec<Row> = alone
                .iter()
                .map(|r| r.row(sin_elev.asin().to_degrees()))
                .collect();
            for step in 0..n_phi {
                let bearing_deg = 360.0 * step as f64 / n_phi as f64;
                let fields: Vec<Field> = rows.iter().map(|r| r.field(bearing_deg)).collect();
                let share = weight * 2.0 * PI / n_phi as f64;
                for (i, a) in fields.iter().enumerate() {
                    for (j, b) in fields.iter().enumerate() {
                        let both = a.vertical.conj() * b.vertical + a.horizontal.conj() * b.horizontal;
                        sum[(i, j)] += both * share;
                    }
                }
            }
        }
        sum
    }

    /// Radiated power by the sphere integral, W.
    pub fn radiated_w(&self) -> f64 {
        ETA_OHM / (8.0 * PI * PI) * self.sphere_integral()
    }

    /// Directivity of both components together, as a ratio to isotropic.
    ///
    /// # Errors
    /// [`ArrayError::Silent`] when nothing is radiated.
    pub fn directivity(&self, towards: Direction) -> Result<f64, ArrayError> {
        Ok(4.0 * PI * self.field(towards).norm_sqr() / self.checked_integral()?)
    }

    /// Directivity of one component against the **total** power, as a ratio to isotropic. Errors as [`Self::directivity`].
    pub fn plane_directivity(&self, plane: Plane, towards: Direction) -> Result<f64, ArrayError> {
        Ok(4.0 * PI * self.field(towards).plane(plane).norm_sqr() / self.checked_integral()?)
    }

    pub(crate) fn checked_integral(&self) -> Result<f64, ArrayError> {
        let total = self.sphere_integral();
        if total > 0.0 && total.is_finite() {
            Ok(total)
        } else {
            Err(ArrayError::Silent)
        }
    }

    /// Height of the array between the outermost ends, m.
    pub fn height_m(&self) -> f64 {
        self.height_m
    }
}

impl Row<'_> {
    /// F towards a bearing at this elevation, A.
    pub fn field(&self, bearing_deg: f64) -> Field {
        let towards = Direction::new(bearing_deg, self.elev_deg);
        let unit = towards.unit();
        let k = self.radiator.k_per_m;
        let mut sum = Field::default();
        for (group, (heights, series)) in self.radiator.groups.iter().zip(&self.groups) {
            let (upright, rest) = arms_split_field(&group.arms, k, towards);
            let place = C64::from_polar(1.0, k * (unit[0] * group.east_m + unit[1] * group.north_m));
            let part = match (group.beside, series) {
                (Some(b), Some(series)) => {
                    let axis = C64::from_polar(1.0, k * (unit[0] * b.pole_east_m + unit[1] * b.pole_north_m));
                    let p = series.at((bearing_deg - b.bearing_deg).to_radians());
                    upright * (p * axis) + rest * place
                }
                _ => (upright + rest) * place,
            };
            sum = sum + part * *heights;
        }
        sum
    }
}
