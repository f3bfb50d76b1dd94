//! One place of the bays, solved: fields towards the audience and the mask for one ampere into each bay, and what any excitation
//! gives there.

use num_complex::{Complex32 as C32, Complex64 as C64};

use super::sums::{Parts, least_dbw, powers, strongest, to_db};
use super::{Audience, Bounds, Goal, Harnessing, Heard};
use crate::array::Matrix;
use crate::direction::{Direction, Plane, Vec3, dot};
use crate::feed::Excitation;
use crate::mount::{MountError, MountPlan, Mounted};

/// The mask is held at so many bearings while searching; every degree counts at the end.
const MASK_BEARINGS: usize = 72;
const MASK_STEP_DEG: f64 = 360.0 / MASK_BEARINGS as f64;
/// Steps of elevation there: the beam's peak between them is that of a parabola. The outermost bay's phase sets how fine, radians.
const MASK_ELEV_STEP_DEG: f64 = 3.0;
const MASK_ELEV_STEP_RAD: f64 = 0.5;

/// Steps of the kept fields. Each bay's field is kept against its own middle, where it turns slowly from sample to sample: between them it
/// is within a hundredth of itself (the answer at the end rests on the whole pattern).
const BEARINGS: usize = 72;
const ELEVS: usize = 91;

/// Worth of what is known to be no better.
const NO_WORTH: f64 = -1e12;

/// Bays in their places, with the fields of each bay alone at one ampere.
pub(super) struct Solved {
    pub(super) plan: MountPlan,
    ports_ohm: Matrix,
    wave_number_per_m: f64,
    alone: Vec<Alone>,
    /// By plane counted, by bay: bearing by bearing.
    to_mask: Vec<(Plane, Vec<Parts>)>,
    mask_elevs: usize,
}

/// Field of one bay alone, ratio to a half-wave dipole's for one watt; by plane, bearing by bearing.
struct Alone {
    middle_m: Vec3,
    cells: [Vec<C32>; 2],
}

impl Solved {
    pub(super) fn new(plan: MountPlan, mounted: &Mounted, bounds: &Bounds) -> Self {
        let k = crate::array::element::wave_number(plan.frequency_mhz);
        let bearings: Vec<f64> = (0..BEARINGS)
            .map(|b| 360.0 * b as f64 / BEARINGS as f64)
            .collect();
        let elevs: Vec<f64> = (0..ELEVS).map(elev_deg).collect();
        let grids = mounted.alone(&bearings, &elevs);
        let rounds: Vec<(f64, f64)> = bearings.iter().map(|b| b.to_radians().sin_cos()).collect();
        let rises: Vec<(f64, f64)> = elevs.iter().map(|e| e.to_radians().sin_cos()).collect();
        let alone = plan
            .bays
            .iter()
            .zip(grids)
            .map(|(bay, grid)| {
                let out = Direction::new(bay.bearing_deg, 0.0).unit();
                let middle_m = [out[0] * bay.stand_off_m, out[1] * bay.stand_off_m, bay.height_m];
                let mut cells = [Vec::new(), Vec::new()];
                for (b, &(sb, cb)) in rounds.iter().enumerate() {
                    for (e, &(se, ce)) in rises.iter().enumerate() {
                        let back = C64::from_polar(1.0, -k * dot([ce * sb, ce * cb, se], middle_m));
                        for (cell, f) in cells.iter_mut().zip(grid.at(e, b)) {
                            let f = f * back;
                            cell.push(C32::new(f.re as f32, f.im as f32));
                        }
                    }
                }
                Alone { middle_m, cells }
            })
            .collect();
        let tall_m = plan.bays.iter().map(|b| b.height_m.abs()).fold(0.1, f64::max);
        let step_deg = (MASK_ELEV_STEP_RAD / (k * tall_m))
            .to_degrees()
            .min(MASK_ELEV_STEP_DEG);
        // The horizon is one of them.
        let mask_elevs = 2 * (90.0 / step_deg).ceil() as usize + 1;
        let mut solved = Self {
            ports_ohm: mounted.ports_ohm().clone(),
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
        solved.to_mask = Plane::BOTH
            .into_iter()
            .filter(|p| bounds.masks.iter().any(|m| m.plane.is_none_or(|q| q == *p)))
            .map(|p| (p, solved.towards(&everywhere, p)))
            .collect();
        solved
    }

    /// Looked at with everything turned clockwise round the axis, by a multiple of [`MASK_STEP_DEG`].
    pub(super) fn turned<'a>(
        &'a self,
        by_deg: f64,
        audience: &'a dyn Audience,
        bounds: &'a Bounds,
        harness: &'a Harnessing,
    ) -> Seen<'a> {
        let people: Vec<Spot> = audience
            .directions()
            .iter()
            .map(|d| Spot::new((d.bearing_deg - by_deg, d.elev_deg)))
            .collect();
        Seen {
            solved: self,
            by_deg,
            mask_turn: (by_deg / MASK_STEP_DEG).round() as usize % MASK_BEARINGS,
            audience,
            bounds,
            harness,
            to_people: planes_heard(audience)
                .into_iter()
                .map(|p| self.towards(&people, p))
                .collect(),
        }
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

    fn towards(&self, spots: &[Spot], plane: Plane) -> Vec<Parts> {
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

fn planes_heard(audience: &dyn Audience) -> Vec<Plane> {
    match audience.heard() {
        Heard::In(plane) => vec![plane],
        Heard::Stronger => Plane::BOTH.to_vec(),
    }
}

/// Where a direction lies among the samples.
struct Spot {
    unit: Vec3,
    left: usize,
    right: usize,
    across: f32,
    up: f32,
}

impl Spot {
    fn new((bearing_deg, elev_deg): (f64, f64)) -> Self {
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

/// A solved place seen from the audience.
pub(super) struct Seen<'a> {
    solved: &'a Solved,
    pub(super) by_deg: f64,
    /// The same in steps of the mask.
    mask_turn: usize,
    audience: &'a dyn Audience,
    bounds: &'a Bounds,
    harness: &'a Harnessing,
    /// By plane heard, by bay.
    to_people: Vec<Vec<Parts>>,
}

/// What an excitation gives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Given {
    /// What is to be as large as can be.
    pub(super) worth: f64,
    pub(super) people: f64,
    pub(super) power_w: f64,
    pub(super) mask_w: f64,
}

impl Seen<'_> {
    pub(super) fn bays(&self) -> usize {
        self.solved.plan.bays.len()
    }

    /// The plan as it is seen: turned.
    pub(super) fn plan(&self) -> MountPlan {
        let mut plan = self.solved.plan.clone();
        for bay in &mut plan.bays {
            bay.bearing_deg = (bay.bearing_deg + self.by_deg).rem_euclid(360.0);
            bay.facing_deg = (bay.facing_deg + self.by_deg).rem_euclid(360.0);
        }
        plan
    }

    pub(super) fn given(&self, wanted: &[Excitation], goal: Goal) -> Result<Given, MountError> {
        self.given_beyond(wanted, goal, None)
    }

    /// As [`Self::given`]; what clearly gives no more than `other` need not be known well and is of no worth.
    pub(super) fn given_beyond(
        &self,
        wanted: &[Excitation],
        goal: Goal,
        other: Option<&Given>,
    ) -> Result<Given, MountError> {
        let freq_mhz = self.solved.plan.frequency_mhz;
        let fed = self
            .harness
            .feed(wanted, freq_mhz)?
            .solve_ports(&self.solved.ports_ohm, freq_mhz)?;
        let mask_w = self.mask_w(&fed.currents_a);
        let bays_w = self.bounds.bay_w.map_or(f64::INFINITY, |most| {
            let strongest = fed.bay_w.iter().copied().fold(0.0, f64::max);
            most / strongest
        });
        let most_w = self.bounds.power_w.min(mask_w).min(bays_w);
        let relative = self.relative_dbw(&fed.currents_a);
        let mut erp = vec![0.0; relative.len()];
        let mut people_at = |dbw: f64| {
            erp.iter_mut()
                .zip(&relative)
                .for_each(|(e, r)| *e = r + dbw as f32);
            self.audience.people(&erp)
        };
        let most_dbw = 10.0 * most_w.log10();
        let given = |worth: f64, people: f64, power_dbw: f64| Given {
            worth,
            people,
            power_w: 10f64.powf(power_dbw / 10.0),
            mask_w,
        };
        let people = people_at(most_dbw);
        let enough = match goal {
            Goal::MostPeople => return Ok(given(people, people, most_dbw)),
            Goal::LeastPower { people: enough } if people < enough => {
                return Ok(given(people - enough, people, most_dbw));
            }
            Goal::LeastPower { people } => people,
        };
        let (mut high, mut at_high) = (most_dbw, people);
        if let Some(other) = other.filter(|o| o.people >= enough) {
            let least = (10.0 * other.power_w.log10()).min(most_dbw);
            let people = people_at(least);
            if people < enough {
                return Ok(given(NO_WORTH, people, least));
            }
            (high, at_high) = (least, people);
        }
        let (power_dbw, people) = least_dbw(&mut people_at, enough, (high, at_high));
        Ok(given(
            10.0 * self.bounds.power_w.log10() - power_dbw,
            people,
            power_dbw,
        ))
    }

    /// People at a power, W.
    pub(super) fn people_at(&self, wanted: &[Excitation], power_w: f64) -> Result<f64, MountError> {
        let freq_mhz = self.solved.plan.frequency_mhz;
        let feed = self.harness.feed(wanted, freq_mhz)?;
        let fed = feed.solve_ports(&self.solved.ports_ohm, freq_mhz)?;
        let plus = 10.0 * power_w.log10() as f32;
        let erp: Vec<f32> = self
            .relative_dbw(&fed.currents_a)
            .iter()
            .map(|r| r + plus)
            .collect();
        Ok(self.audience.people(&erp))
    }

    /// Power at the splitter that just meets the masks, W.
    fn mask_w(&self, currents: &[C64]) -> f64 {
        let powers: Vec<(Plane, Vec<f32>)> = self
            .solved
            .to_mask
            .iter()
            .map(|(plane, bays)| (*plane, powers(bays, currents)))
            .collect();
        let mut least = f64::INFINITY;
        for mask in &self.bounds.masks {
            for b in 0..MASK_BEARINGS {
                // As a licence counts: in each plane the strongest of all elevations; planes summed where their sum counts.
                let elevs = self.solved.mask_elevs;
                let strongest: f32 = powers
                    .iter()
                    .filter(|(p, _)| mask.plane.is_none_or(|q| q == *p))
                    .map(|(_, w)| {
                        let b = (b + MASK_BEARINGS - self.mask_turn) % MASK_BEARINGS;
                        strongest(&w[b * elevs..(b + 1) * elevs])
                    })
                    .sum();
                let allowed_dbw = mask.at_dbw(b as f64 * MASK_STEP_DEG);
                least = least.min(10f64.powf(allowed_dbw / 10.0) / f64::from(strongest));
            }
        }
        least
    }

    /// ERP towards the audience for 1 W at the splitter, dBW.
    fn relative_dbw(&self, currents: &[C64]) -> Vec<f32> {
        let mut best = vec![0.0f32; self.audience.directions().len()];
        for bays in &self.to_people {
            for (b, w) in best.iter_mut().zip(powers(bays, currents)) {
                *b = b.max(w);
            }
        }
        to_db(&mut best);
        best
    }
}
