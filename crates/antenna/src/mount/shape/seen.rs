//! One place of the bays, solved: fields towards the audience and the mask for one ampere into each bay, and what any excitation
//! gives there.

use num_complex::{Complex32 as C32, Complex64 as C64};

use super::{Audience, Bounds, Goal, Harnessing, Heard};
use crate::array::Matrix;
use crate::direction::{Direction, Plane, Vec3, dot};
use crate::feed::Excitation;
use crate::mount::{MountError, MountPlan, Mounted};

/// The mask is held at so many bearings and elevations while searching; every degree counts at the end.
const MASK_BEARINGS: usize = 72;
const MASK_STEP_DEG: f64 = 360.0 / MASK_BEARINGS as f64;
const MASK_ELEVS: usize = 61;

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
        let mut solved = Self {
            ports_ohm: mounted.ports_ohm().clone(),
            wave_number_per_m: k,
            alone,
            plan,
            to_mask: Vec::new(),
        };
        let everywhere: Vec<Spot> = (0..MASK_BEARINGS * MASK_ELEVS)
            .map(|i| {
                let (b, e) = (i / MASK_ELEVS, i % MASK_ELEVS);
                let elev = -90.0 + 180.0 * e as f64 / (MASK_ELEVS - 1) as f64;
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

    /// By direction of the audience, by plane heard: each bay's field for one ampere, squares are W of ERP.
    pub(super) fn fields_towards(&self, audience: &dyn Audience) -> Vec<Vec<Vec<C64>>> {
        let planes = planes_heard(audience);
        audience
            .directions()
            .iter()
            .map(|d| {
                let spot = [Spot::new((d.bearing_deg, d.elev_deg))];
                let field = |p: &Parts| C64::new(f64::from(p.re[0]), f64::from(p.im[0]));
                planes
                    .iter()
                    .map(|plane| self.towards(&spot, *plane).iter().map(field).collect())
                    .collect()
            })
            .collect()
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

/// Fields of one bay towards many directions.
struct Parts {
    re: Vec<f32>,
    im: Vec<f32>,
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
                let strongest: f32 = powers
                    .iter()
                    .filter(|(p, _)| mask.plane.is_none_or(|q| q == *p))
                    .map(|(_, w)| {
                        let b = (b + MASK_BEARINGS - self.mask_turn) % MASK_BEARINGS;
                        w[b * MASK_ELEVS..(b + 1) * MASK_ELEVS]
                            .iter()
                            .copied()
                            .fold(0.0, f32::max)
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

/// The least power, dBW, with which enough people are reached, and how many those are; `high` is one that reaches them. People grow
/// with power: a bracket and false positions (Illinois).
fn least_dbw(people_at: &mut impl FnMut(f64) -> f64, enough: f64, high: (f64, f64)) -> (f64, f64) {
    const TO_DB: f64 = 0.002;
    let (mut high, mut step) = (high, 0.5);
    let mut low = loop {
        let dbw = high.0 - step;
        let people = people_at(dbw);
        if people < enough {
            break (dbw, people);
        }
        high = (dbw, people);
        step *= 2.0;
        // A millionth of a millionth of the power still reaches them: they need none.
        if step > 128.0 {
            return high;
        }
    };
    // Excess of people as it is weighed: an end that stays twice counts half.
    let (mut under, mut over) = (low.1 - enough, high.1 - enough);
    let mut last = 0;
    while high.0 - low.0 > TO_DB {
        let straight = low.0 + (high.0 - low.0) * under / (under - over);
        let dbw = straight.clamp(low.0 + 0.25 * TO_DB, high.0 - 0.25 * TO_DB);
        let people = people_at(dbw);
        if people < enough {
            low = (dbw, people);
            under = people - enough;
            over *= if last < 0 { 0.5 } else { 1.0 };
            last = -1;
        } else {
            high = (dbw, people);
            over = people - enough;
            under *= if last > 0 { 0.5 } else { 1.0 };
            last = 1;
        }
    }
    high
}

/// |Σ I f|² towards every direction.
fn powers(bays: &[Parts], currents: &[C64]) -> Vec<f32> {
    let n = bays.first().map_or(0, |p| p.re.len());
    let (mut re, mut im) = (vec![0.0f32; n], vec![0.0f32; n]);
    for (parts, current) in bays.iter().zip(currents) {
        add_product(&mut re, &mut im, parts, (current.re as f32, current.im as f32));
    }
    re.iter_mut().zip(&im).for_each(|(x, y)| *x = *x * *x + y * y);
    re
}

#[multiversion::multiversion(targets("x86_64+avx2+fma", "aarch64+neon"))]
fn add_product(re: &mut [f32], im: &mut [f32], parts: &Parts, (a, b): (f32, f32)) {
    for (((re, im), x), y) in re.iter_mut().zip(im).zip(&parts.re).zip(&parts.im) {
        *re += a * x - b * y;
        *im += a * y + b * x;
    }
}

/// Powers to decibels, each to 1e-4 dB, those below 1e-16 as that: exponent by its bits, mantissa m by 2 artanh((m − 1)/(m + 1)).
#[multiversion::multiversion(targets("x86_64+avx2+fma", "aarch64+neon"))]
fn to_db(powers: &mut [f32]) {
    const DB_PER_DOUBLING: f32 = 3.010_3;
    const PER_ARTANH: f32 = 2.0 * std::f32::consts::LOG2_E;
    for w in powers {
        let bits = w.max(1e-16).to_bits();
        let exponent = (bits >> 23) as i32 - 127;
        let m = f32::from_bits(bits & 0x007f_ffff | 0x3f80_0000);
        let t = (m - 1.0) / (m + 1.0);
        let z = t * t;
        let artanh = t * (1.0 + z * (1.0 / 3.0 + z * (0.2 + z * (1.0 / 7.0 + z * (1.0 / 9.0)))));
        *w = DB_PER_DOUBLING * (exponent as f32 + PER_ARTANH * artanh);
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn prop_decibels_are_those_of_the_logarithm() {
        let values: Vec<f32> = (0..20_000)
            .map(|i| 1e-15 * 1.004f32.powi(i))
            .filter(|w| w.is_finite())
            .collect();
        let mut got = values.clone();
        super::to_db(&mut got);
        for (w, db) in values.iter().zip(&got) {
            let want = 10.0 * f64::from(*w).log10();
            assert!((f64::from(*db) - want).abs() < 1e-4, "{w}: {db} {want}");
        }
        let mut nothing = [0.0, -1.0];
        super::to_db(&mut nothing);
        assert!(nothing.iter().all(|db| (db + 160.0).abs() < 1e-3), "{nothing:?}");
    }
}
