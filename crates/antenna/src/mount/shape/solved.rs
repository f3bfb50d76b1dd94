//! One place of the bays, solved: fields towards the audience and the masks for one ampere into each bay.

use num_complex::{Complex32 as C32, Complex64 as C64};

use super::sums::Parts;
use super::{Audience, Bounds, Heard};
use crate::array::Matrix;
use crate::direction::{Direction, Plane, Vec3, dot};
use crate::mount::{BayPlan, MountPlan, Mounted};
use crate::wires::FieldGrid;

/// The mask is held at so many bearings while searching; every degree counts at the end.
pub(super) const MASK_BEARINGS: usize = 72;
pub(super) const MASK_STEP_DEG: f64 = 360.0 / MASK_BEARINGS as f64;
/// Steps of elevation there: the beam's peak between them is that of a parabola. The outermost bay's phase sets how fine, radians.
const MASK_ELEV_STEP_DEG: f64 = 3.0;
const MASK_ELEV_STEP_RAD: f64 = 0.5;

/// Steps of the kept fields. Each bay's field is kept against its own middle, where it turns slowly from sample to sample: between them it
/// is within a hundredth of itself (the answer at the end rests on the whole pattern).
pub(super) const BEARINGS: usize = 72;
pub(super) const ELEVS: usize = 91;

/// Bays in their places, with the fields of each bay alone at one ampere.
pub(super) struct Solved {
    pub(super) plan: MountPlan,
    pub(super) ports_ohm: Matrix,
    wave_number_per_m: f64,
    alone: Vec<Alone>,
    /// By plane counted, by bay: bearing by bearing.
    pub(super) to_mask: Vec<(Plane, Vec<Parts>)>,
    pub(super) mask_elevs: usize,
}

/// Field of one bay alone, ratio to a half-wave dipole's for one watt; by plane, bearing by bearing.
pub(super) struct Alone {
    pub(super) middle_m: Vec3,
    pub(super) cells: [Vec<C32>; 2],
}

/// Bearings and elevations of the kept fields, degrees.
pub(super) fn kept_directions() -> (Vec<f64>, Vec<f64>) {
    let bearing = |b: usize| 360.0 * b as f64 / BEARINGS as f64;
    (
        (0..BEARINGS).map(bearing).collect(),
        (0..ELEVS).map(elev_deg).collect(),
    )
}

/// Phase of a bay's middle towards every kept direction, bearing by bearing.
pub(super) fn phases_of(middle_m: Vec3, wave_number_per_m: f64) -> Vec<C64> {
    let (bearings, elevs) = kept_directions();
    let rounds: Vec<(f64, f64)> = bearings.iter().map(|b| b.to_radians().sin_cos()).collect();
    let rises: Vec<(f64, f64)> = elevs.iter().map(|e| e.to_radians().sin_cos()).collect();
    let phase = |sb: f64, cb: f64, (se, ce): (f64, f64)| {
        C64::from_polar(1.0, wave_number_per_m * dot([ce * sb, ce * cb, se], middle_m))
    };
    rounds
        .iter()
        .flat_map(|&(sb, cb)| rises.iter().map(move |rise| phase(sb, cb, *rise)))
        .collect()
}

/// The middle of a bay, m.
pub(super) fn middle_m(bay: &BayPlan) -> Vec3 {
    let out = Direction::new(bay.bearing_deg, 0.0).unit();
    [out[0] * bay.stand_off_m, out[1] * bay.stand_off_m, bay.height_m]
}

/// A field against a middle whose phases are given, over the kept directions, by plane.
pub(super) fn against(grid: &FieldGrid, phases: &[C64]) -> [Vec<C32>; 2] {
    let mut cells = [Vec::with_capacity(phases.len()), Vec::with_capacity(phases.len())];
    for (i, phase) in phases.iter().enumerate() {
        for (cell, f) in cells.iter_mut().zip(grid.at(i % ELEVS, i / ELEVS)) {
            let f = f * phase.conj();
            cell.push(C32::new(f.re as f32, f.im as f32));
        }
    }
    cells
}

impl Solved {
    pub(super) fn new(plan: MountPlan, mounted: &Mounted, bounds: &Bounds) -> Self {
        let k = crate::array::element::wave_number(plan.frequency_mhz);
        let (bearings, elevs) = kept_directions();
        let alone = plan
            .bays
            .iter()
            .zip(mounted.alone(&bearings, &elevs))
            .map(|(bay, grid)| {
                let middle_m = middle_m(bay);
                Alone {
                    middle_m,
                    cells: against(&grid, &phases_of(middle_m, k)),
                }
            })
            .collect();
        Self::of(plan, mounted.ports_ohm().clone(), alone, bounds)
    }

    /// From each bay's field alone and the impedances between them.
    pub(super) fn of(plan: MountPlan, ports_ohm: Matrix, alone: Vec<Alone>, bounds: &Bounds) -> Self {
        let k = crate::array::element::wave_number(plan.frequency_mhz);
        let tall_m = plan.bays.iter().map(|b| b.height_m.abs()).fold(0.1, f64::max);
        let step_deg = (MASK_ELEV_STEP_RAD / (k * tall_m))
            .to_degrees()
            .min(MASK_ELEV_STEP_DEG);
        // The horizon is one of them.
        let mask_elevs = 2 * (90.0 / step_deg).ceil() as usize + 1;
        let mut solved = Self {
            ports_ohm,
            wave_number_per_m: k,
            alone,
            plan,
            to_mask: Vec::new(),
            mask_elevs,
        };
        let everywhere: Vec<Spot> = (0..MASK_BEARINGS * mask_elevs)
            .map(|i| {
                let (b, e) = (i / mask_elevs, i % mask_elevs);
                let elev = -90.0 + 180.0 * e as f64 / (mask_elevs - 1) as f64;
                Spot::new((b as f64 * MASK_STEP_DEG, elev))
            })
            .collect();
        solved.to_mask = planes_counted(bounds)
            .map(|p| (p, solved.towards(&everywhere, p)))
            .collect();
        solved
    }

    /// Field of each bay alone.
    #[cfg(test)]
    pub(super) fn alone(&self) -> &[Alone] {
        &self.alone
    }

    /// Resistances between the bays' connectors, ohm.
    pub(super) fn resistance_ohm(&self) -> Vec<Vec<f64>> {
        let n = self.plan.bays.len();
        (0..n)
            .map(|i| (0..n).map(|j| self.ports_ohm[(i, j)].re).collect())
            .collect()
    }

    /// By direction of the audience, by plane heard: each bay's field for one ampere, everything turned clockwise; squares are W of ERP.
    pub(super) fn fields_towards(&self, audience: &dyn Audience, by_deg: f64) -> Vec<Vec<Vec<C64>>> {
        let planes = planes_heard(audience);
        audience
            .directions()
            .iter()
            .map(|d| {
                let spot = [Spot::new((d.bearing_deg - by_deg, d.elev_deg))];
                let field = |p: &Parts| C64::new(f64::from(p.re[0]), f64::from(p.im[0]));
                planes
                    .iter()
                    .map(|plane| self.towards(&spot, *plane).iter().map(field).collect())
                    .collect()
            })
            .collect()
    }

    /// Some directions of every mask: by plane counted each bay's field for one ampere, everything turned clockwise, and the ERP allowed, W.
    pub(super) fn fields_to_masks(&self, bounds: &Bounds, by_deg: f64) -> Vec<(Vec<Vec<C64>>, f64)> {
        let field = |p: &Parts| C64::new(f64::from(p.re[0]), f64::from(p.im[0]));
        let mut out = Vec::new();
        for mask in &bounds.masks {
            for bearing_deg in (0..MASK_BEARINGS).map(|b| b as f64 * MASK_STEP_DEG) {
                let allowed_w = 10f64.powf(mask.at_dbw(bearing_deg) / 10.0);
                for elev_deg in [-6.0, -3.0, 0.0, 3.0] {
                    let spot = [Spot::new((bearing_deg - by_deg, elev_deg))];
                    let planes = Plane::BOTH
                        .into_iter()
                        .filter(|p| mask.plane.is_none_or(|q| q == *p))
                        .map(|plane| self.towards(&spot, plane).iter().map(field).collect())
                        .collect();
                    out.push((planes, allowed_w));
                }
            }
        }
        out
    }

    pub(super) fn towards(&self, spots: &[Spot], plane: Plane) -> Vec<Parts> {
        self.alone
            .iter()
            .map(|alone| {
                let cells = &alone.cells[plane as usize];
                let middle = alone.middle_m.map(|m| self.wave_number_per_m * m);
                let mut parts = Parts {
                    re: Vec::with_capacity(spots.len()),
                    im: Vec::with_capacity(spots.len()),
                };
                for s in spots {
                    let f = s.between(cells) * C32::from_polar(1.0, dot(s.unit, middle) as f32);
                    parts.re.push(f.re);
                    parts.im.push(f.im);
                }
                parts
            })
            .collect()
    }
}

/// The planes that some mask counts.
pub(super) fn planes_counted(bounds: &Bounds) -> impl Iterator<Item = Plane> {
    let counts = |p: &Plane| bounds.masks.iter().any(|m| m.plane.is_none_or(|q| q == *p));
    Plane::BOTH.into_iter().filter(counts)
}

pub(super) fn planes_heard(audience: &dyn Audience) -> Vec<Plane> {
    match audience.heard() {
        Heard::In(plane) => vec![plane],
        Heard::Stronger => Plane::BOTH.to_vec(),
    }
}

/// Where a direction lies among the samples.
pub(super) struct Spot {
    unit: Vec3,
    left: usize,
    right: usize,
    across: f32,
    up: f32,
}

impl Spot {
    pub(super) fn new((bearing_deg, elev_deg): (f64, f64)) -> Self {
        let x = bearing_deg.rem_euclid(360.0) / 360.0 * BEARINGS as f64;
        let b = x as usize % BEARINGS;
        let y = (elev_deg.clamp(-90.0, 90.0) + 90.0) / 180.0 * (ELEVS - 1) as f64;
        let e = (y as usize).min(ELEVS - 2);
        Self {
            unit: Direction::new(bearing_deg, elev_deg).unit(),
            left: b * ELEVS + e,
            right: (b + 1) % BEARINGS * ELEVS + e,
            across: (x - x.floor()) as f32,
            up: (y - e as f64) as f32,
        }
    }

    fn between(&self, cells: &[C32]) -> C32 {
        let along = |at: usize| cells[at] * (1.0 - self.up) + cells[at + 1] * self.up;
        along(self.left) * (1.0 - self.across) + along(self.right) * self.across
    }
}

fn elev_deg(e: usize) -> f64 {
    -90.0 + 180.0 * e as f64 / (ELEVS - 1) as f64
}
