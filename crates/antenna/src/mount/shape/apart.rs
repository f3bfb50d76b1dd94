//! Bays in their places, put together from bays solved one by one beside the mast: moving one of them leaves all others as they were.

use std::sync::Arc;

use num_complex::{Complex32 as C32, Complex64 as C64};
use rayon::prelude::*;
use rustc_hash::FxHashMap;

use super::solved::{
    Alone, BEARINGS, ELEVS, MASK_STEP_DEG, against, kept_directions, middle_m, phases_of, planes_counted,
    planes_heard,
};
use super::{Audience, Bounds};
use crate::array::Matrix;
use crate::array::element::wave_number;
use crate::direction::Plane;
use crate::mount::mounted::{Connectors, DIGITS_OF_SEARCH, gain_per_field_square};
use crate::mount::{BayPlan, MountError, MountPlan};
use crate::wires::WireModel;
use crate::wires::apart::{Body, Footing, Standing};

/// Bays solved in one go: the mast's factors pass through the processor once for all of them.
const AT_ONCE: usize = 8;
/// Bearings and stand-offs nearer to each other than this are the same.
const SAME: f64 = 1e-6;

/// The bays of a plan, wherever they were asked for.
#[derive(Clone)]
pub(super) struct Apart<'a> {
    plan: &'a MountPlan,
    planes: Vec<Plane>,
    /// None where the mast is not worth keeping.
    footing: Option<Arc<Footing>>,
    known: FxHashMap<Key, Arc<Known>>,
}

/// Number of a bay, bearing within what the mast repeats, stand-off; both in steps of [`SAME`].
type Key = (usize, i64, i64);

type Known = Result<Bay, MountError>;

/// A bay solved beside the mast.
struct Bay {
    body: Body,
    /// For each of the body's columns, by plane, its field against the bay's middle.
    cells: Vec<[Vec<C32>; 2]>,
    /// The middle's phase in the same directions.
    phases: Vec<C32>,
}

/// Where a bay is known from.
struct Seat {
    key: Key,
    /// The bay as it is solved.
    bay: BayPlan,
    /// It hangs turned on from there by so many steps of the kept bearings, clockwise, and by so many sectors of the mast, anticlockwise.
    steps: usize,
    sectors: usize,
}

impl<'a> Apart<'a> {
    pub(super) fn new(plan: &'a MountPlan, audience: &dyn Audience, bounds: &Bounds) -> Self {
        let mut planes = planes_heard(audience);
        planes.extend(planes_counted(bounds).filter(|p| !planes_heard(audience).contains(p)));
        let mast = plan.mast_built().ok().filter(|m| !m.wires.is_empty());
        Self {
            plan,
            planes,
            footing: mast.and_then(|m| Footing::of(&m).ok().flatten()).map(Arc::new),
            known: FxHashMap::default(),
        }
    }

    /// Solves every bay that these plans need and that is not known. What cannot be solved is told where it is asked for.
    pub(super) fn prepare(&mut self, plans: &[MountPlan]) {
        let Some(footing) = self.footing.clone() else {
            return;
        };
        let mut wanted: Vec<Seat> = plans
            .iter()
            .flat_map(|plan| {
                plan.bays
                    .iter()
                    .enumerate()
                    .map(|(i, bay)| seat(&footing, i, bay))
            })
            .filter(|seat| !self.known.contains_key(&seat.key))
            .collect();
        wanted.sort_by_key(|seat| seat.key);
        wanted.dedup_by_key(|seat| seat.key);
        let solved: Vec<Vec<Arc<Known>>> = wanted
            .par_chunks(AT_ONCE)
            .map(|some| self.solved(&footing, some))
            .collect();
        for (seat, known) in wanted.iter().zip(solved.into_iter().flatten()) {
            self.known.insert(seat.key, known);
        }
    }

    /// Takes over what another search knows.
    pub(super) fn learn(&mut self, other: Self) {
        for (key, known) in other.known {
            self.known.entry(key).or_insert(known);
        }
    }

    /// Impedances between the connectors (ohm), matched with the others open, and each bay's field alone; none where they must be
    /// solved together.
    ///
    /// # Errors
    /// As [`MountPlan::solved`].
    pub(super) fn together(&self, plan: &MountPlan) -> Result<Option<(Matrix, Vec<Alone>)>, MountError> {
        let Some(footing) = &self.footing else {
            return Ok(None);
        };
        let (model, bays) = plan.bays_built()?;
        let seats: Vec<Seat> = plan
            .bays
            .iter()
            .enumerate()
            .map(|(i, b)| seat(footing, i, b))
            .collect();
        let held: Vec<Arc<Known>> = seats
            .iter()
            .flat_map(|seat| match self.known.get(&seat.key) {
                Some(known) => vec![known.clone()],
                None => self.solved(footing, std::slice::from_ref(seat)),
            })
            .collect();
        let known: Vec<&Bay> = held
            .iter()
            .map(|known| known.as_ref().as_ref().map_err(Clone::clone))
            .collect::<Result<_, _>>()?;
        let standing: Vec<Standing> = known
            .iter()
            .zip(&seats)
            .map(|(k, seat)| Standing {
                body: &k.body,
                sectors: seat.sectors,
            })
            .collect();
        let Some(together) = footing.together(&model, &standing)? else {
            return Ok(None);
        };
        let n = together.ohm.nrows();
        let wires_ohm = Matrix::from_fn(n, n, |i, j| together.ohm[(i, j)]);
        let connectors = Connectors {
            bays: &bays,
            wires_ohm: &wires_ohm,
            freq_mhz: plan.frequency_mhz,
        };
        let matching = connectors.matched(50.0)?;
        let scale = C64::from(gain_per_field_square(1.0).sqrt());
        // What each body's columns carry, for one ampere into each bay.
        let carried: Vec<Vec<Vec<C32>>> = (0..bays.len())
            .map(|i| {
                let one: Vec<C64> = (0..bays.len())
                    .map(|j| if i == j { scale } else { C64::default() })
                    .collect();
                let amperes = connectors.wire_amperes(&matching, &one);
                let (mut port, mut open) = (0, 0);
                known
                    .iter()
                    .map(|k| {
                        let own = amperes[port..port + k.body.ports()].iter().copied();
                        let more = k.cells.len() - k.body.ports();
                        let flowing = (open..open + more).map(|o| {
                            amperes
                                .iter()
                                .enumerate()
                                .map(|(p, a)| together.open[(o, p)] * a)
                                .sum::<C64>()
                        });
                        let columns = own
                            .chain(flowing)
                            .map(|c| C32::new(c.re as f32, c.im as f32))
                            .collect();
                        (port, open) = (port + k.body.ports(), open + more);
                        columns
                    })
                    .collect()
            })
            .collect();
        let alone = self.fields(plan, &seats, &known, &carried);
        Ok(Some((connectors.ohm(&matching), alone)))
    }

    /// Each bay's field alone: its own columns, and what flows in the others, which are open.
    fn fields(
        &self,
        plan: &MountPlan,
        seats: &[Seat],
        known: &[&Bay],
        carried: &[Vec<Vec<C32>>],
    ) -> Vec<Alone> {
        let start = |seat: &Seat, bearing: usize| (bearing + BEARINGS - seat.steps) % BEARINGS * ELEVS;
        let mut alone: Vec<Alone> = plan
            .bays
            .iter()
            .map(|bay| Alone {
                middle_m: middle_m(bay),
                cells: [Vec::new(), Vec::new()],
            })
            .collect();
        for plane in self.planes.iter().map(|p| *p as usize) {
            for bearing in 0..BEARINGS {
                let rows: Vec<usize> = seats.iter().map(|s| start(s, bearing)).collect();
                // What flows in open bays, in its own phase.
                let open: Vec<Vec<Vec<C32>>> = known
                    .iter()
                    .zip(&rows)
                    .map(|(k, &row)| {
                        let phases = &k.phases[row..row + ELEVS];
                        let phased = |column: &[Vec<C32>; 2]| {
                            column[plane][row..row + ELEVS]
                                .iter()
                                .zip(phases)
                                .map(|(f, p)| f * p)
                                .collect()
                        };
                        k.cells[k.body.ports()..].iter().map(phased).collect()
                    })
                    .collect();
                for (i, out) in alone.iter_mut().enumerate() {
                    let mut far = vec![C32::default(); ELEVS];
                    for (j, columns) in open.iter().enumerate().filter(|(j, _)| *j != i) {
                        let flowing = &carried[i][j][known[j].body.ports()..];
                        columns
                            .iter()
                            .zip(flowing)
                            .for_each(|(column, c)| add(&mut far, column, *c));
                    }
                    let (k, row) = (&known[i], rows[i]);
                    let phases = &k.phases[row..row + ELEVS];
                    far.iter_mut().zip(phases).for_each(|(f, p)| *f *= p.conj());
                    for (column, c) in k.cells.iter().zip(&carried[i][i]) {
                        add(&mut far, &column[plane][row..row + ELEVS], *c);
                    }
                    out.cells[plane].extend(far);
                }
            }
        }
        alone
    }

    fn solved(&self, footing: &Footing, seats: &[Seat]) -> Vec<Arc<Known>> {
        let freq_mhz = self.plan.frequency_mhz;
        let models: Vec<WireModel> = seats
            .iter()
            .map(|seat| {
                let mut model = WireModel {
                    frequency_mhz: freq_mhz,
                    ..WireModel::default()
                };
                seat.bay.add_to(&mut model, seat.key.0 + 1, freq_mhz);
                model
            })
            .collect();
        let bodies = footing.bodies(&models);
        let (bearings, elevs) = kept_directions();
        // Azimuth runs from east anticlockwise, bearings from north clockwise.
        let azimuths: Vec<f64> = bearings.iter().map(|b| 90.0 - b).collect();
        let sound: Vec<&Body> = bodies.iter().flatten().collect();
        let mut fields = footing
            .fields(&sound, &elevs, &azimuths, DIGITS_OF_SEARCH)
            .into_iter();
        bodies
            .into_iter()
            .zip(seats)
            .map(|(body, seat)| {
                let body = body.map_err(MountError::from)?;
                let grids = fields.next().unwrap_or_default();
                let phases = phases_of(middle_m(&seat.bay), wave_number(freq_mhz));
                Ok(Bay {
                    cells: grids.iter().map(|grid| against(grid, &phases)).collect(),
                    phases: phases
                        .iter()
                        .map(|p| C32::new(p.re as f32, p.im as f32))
                        .collect(),
                    body,
                })
            })
            .map(Arc::new)
            .collect()
    }
}

/// A bay turned back with its mast as far as the mast is itself again.
fn seat(footing: &Footing, number: usize, bay: &BayPlan) -> Seat {
    let order = footing.sectors();
    let sector_deg = 360.0 / order as f64;
    let whole_steps = (sector_deg / MASK_STEP_DEG).fract() == 0.0;
    let repeat_deg = match footing.is_round() {
        true => MASK_STEP_DEG,
        false if whole_steps => sector_deg,
        false => 360.0,
    };
    let turns = (bay.bearing_deg / repeat_deg + SAME).floor();
    let bearing_deg = ((bay.bearing_deg - turns * repeat_deg) / SAME).round() * SAME;
    let stand_off = (bay.stand_off_m / SAME).round();
    let turns = turns.rem_euclid((360.0 / repeat_deg).round()) as usize;
    Seat {
        key: (number, (bearing_deg / SAME).round() as i64, stand_off as i64),
        bay: BayPlan {
            bearing_deg,
            facing_deg: bearing_deg + bay.facing_deg - bay.bearing_deg,
            stand_off_m: stand_off * SAME,
            ..*bay
        },
        steps: (turns as f64 * repeat_deg / MASK_STEP_DEG).round() as usize % BEARINGS,
        sectors: if footing.is_round() {
            0
        } else {
            (order - turns % order) % order
        },
    }
}

fn add(to: &mut [C32], from: &[C32], factor: C32) {
    to.iter_mut().zip(from).for_each(|(a, b)| *a += b * factor);
}

#[cfg(test)]
mod tests;
