//! The bays as faults find them: impedances and fields from the array model or from wires on their mast, solved once.
//!
//! Everything that can go wrong outside a bay's own metal is an edit of the network on that one solution, exactly: a joint open or
//! shorted, cables swapped, of another velocity or full of water. So is a bay upside down, where half a turn lays its conductors on
//! each other ([`WireElement::turns_onto_itself`]): the same metal, its current reversed. A turnstile is not such a bay and is solved
//! anew. Booms, clamps and matching sections off the axis are not in the model; a bay they make lopsided is only nearly reversed.
//! A bay tuned elsewhere has other metal. It is taken as what the lone bay would show more at its terminals: exact for the bay
//! itself, while coupling and field keep their shape, which a few per cent of length hardly change (`tests/fault_wires.rs` holds it
//! to bays really cut shorter and longer).
//!
//! [`WireElement::turns_onto_itself`]: crate::mount::WireElement::turns_onto_itself

use std::sync::{Arc, OnceLock};

use num_complex::Complex64 as C64;

use super::FieldPoint;
use super::installation::InstallationError;
use crate::array::{ArrayError, HALF_WAVE_DIRECTIVITY, Matrix, Radiator, Stack};
use crate::direction::{Direction, dot, minus};
use crate::mount::{BayPlan, Mast, Matching, MountError, MountPlan, Mounted, WireElement};
use crate::wires::Wire;

/// Bays on their mast, with what is wrong with them.
#[derive(Debug, Clone)]
pub struct Aerial {
    solved: Arc<Solved>,
    /// What each connector shows beyond the solution, ohm.
    off_ohm: Vec<C64>,
    /// −1 for a bay whose current is reversed.
    sense: Vec<f64>,
}

#[derive(Debug)]
struct Solved {
    frequency_mhz: f64,
    /// Impedances between the connectors, ohm.
    ports_ohm: Matrix,
    source: Source,
}

#[derive(Debug)]
enum Source {
    Array {
        stack: Stack,
        /// Each bay alone at one ampere into its connector.
        alone: Vec<Radiator>,
        /// ∮ F_i*·F_j dΩ.
        gram: Matrix,
    },
    Wires {
        plan: MountPlan,
        mounted: Box<Mounted>,
        /// Whether each bay's metal is turned half round.
        turned: Vec<bool>,
        /// For each bay, what it shows alone and more than now when its resonance moves, at every step of [`moves_mhz`].
        moved: OnceLock<Result<Vec<Vec<C64>>, MountError>>,
    },
}

/// Moves of a resonance that are solved, MHz; straight lines between them are within a twentieth of an ohm.
fn moves_mhz() -> impl Iterator<Item = f64> {
    (-6..=6).map(|i| 2.0 * f64::from(i))
}

impl Aerial {
    /// Bays by the array model.
    ///
    /// # Errors
    /// Whatever [`Stack::check`] finds.
    pub fn array(stack: Stack) -> Result<Self, ArrayError> {
        let n = stack.bays.len();
        let one = |i: usize| -> Vec<C64> { (0..n).map(|j| C64::from(f64::from(i == j))).collect() };
        let alone: Vec<Radiator> = (0..n)
            .map(|i| Radiator::new(&stack, &one(i)))
            .collect::<Result<_, _>>()?;
        Ok(Self::of(Solved {
            frequency_mhz: stack.frequency_mhz,
            ports_ohm: stack.port_matrix_ohm()?,
            source: Source::Array {
                gram: Radiator::gram(&alone),
                alone,
                stack,
            },
        }))
    }

    /// Bays as wires on their mast, solved at the plan's frequency.
    ///
    /// # Errors
    /// Those of [`MountPlan::solved`].
    pub fn wires(plan: MountPlan) -> Result<Self, MountError> {
        let mounted = plan.solved()?;
        Ok(Self::solved(plan, mounted))
    }

    /// Bays as wires solved before, at any frequency and with any matching.
    pub fn solved(plan: MountPlan, mounted: Mounted) -> Self {
        let turned = vec![false; plan.bays.len()];
        Self::of(Solved {
            frequency_mhz: mounted.frequency_mhz(),
            ports_ohm: mounted.ports_ohm().clone(),
            source: Source::Wires {
                plan,
                mounted: Box::new(mounted),
                turned,
                moved: OnceLock::new(),
            },
        })
    }

    fn of(solved: Solved) -> Self {
        let n = solved.ports_ohm.nrows();
        Self {
            solved: Arc::new(solved),
            off_ohm: vec![C64::default(); n],
            sense: vec![1.0; n],
        }
    }

    /// How many bays.
    pub fn bays(&self) -> usize {
        self.sense.len()
    }

    /// Frequency they are fed at, MHz.
    pub fn frequency_mhz(&self) -> f64 {
        self.solved.frequency_mhz
    }

    /// Impedances between the bays' connectors as they are now, ohm.
    pub fn ports_ohm(&self) -> Matrix {
        let z = &self.solved.ports_ohm;
        Matrix::from_fn(z.nrows(), z.ncols(), |i, j| {
            let own = if i == j { self.off_ohm[i] } else { C64::default() };
            z[(i, j)] * (self.sense[i] * self.sense[j]) + own
        })
    }

    /// The same with a bay hung the wrong way up. A bay that does not exist changes nothing.
    ///
    /// # Errors
    /// [`MountError`] where the bay must be solved anew and cannot be.
    pub fn upside_down(mut self, bay: usize) -> Result<Self, MountError> {
        if bay >= self.bays() {
            return Ok(self);
        }
        if let Source::Wires {
            plan,
            mounted,
            turned,
            ..
        } = &self.solved.source
            && !plan.bays[bay].element.turns_onto_itself()
        {
            let mut turned = turned.clone();
            turned[bay] = !turned[bay];
            let anew = plan.solved_reshaped(mounted.frequency_mhz(), mounted.matching(), |i, wire| {
                if turned[i] {
                    half_turn(&plan.bays[i], wire);
                }
            })?;
            let solved = Solved {
                frequency_mhz: anew.frequency_mhz(),
                ports_ohm: anew.ports_ohm().clone(),
                source: Source::Wires {
                    plan: plan.clone(),
                    mounted: Box::new(anew),
                    turned,
                    moved: OnceLock::new(),
                },
            };
            self.solved = Arc::new(solved);
            return Ok(self);
        }
        self.sense[bay] = -self.sense[bay];
        Ok(self)
    }

    /// The same with a bay tuned elsewhere, by 12 MHz at most; its match stays as the maker built it.
    ///
    /// # Errors
    /// [`MountError`] where the lone bay cannot be solved that far off.
    pub fn detuned(self, bay: usize, by_mhz: f64) -> Result<Self, MountError> {
        if bay >= self.bays() {
            return Ok(self);
        }
        let ohm = match &self.solved.source {
            Source::Array { stack, .. } => stack.bays[bay].moved_ohm(by_mhz),
            Source::Wires {
                plan, mounted, moved, ..
            } => {
                let moved = moved
                    .get_or_init(|| moved_ohm(plan, mounted))
                    .as_ref()
                    .map_err(Clone::clone)?;
                between(&moved[bay], by_mhz)
            }
        };
        Ok(self.shows_more(bay, ohm))
    }

    /// The same with a bay's connector that shows more by an impedance, ohm.
    pub fn shows_more(mut self, bay: usize, ohm: C64) -> Self {
        if let Some(off) = self.off_ohm.get_mut(bay) {
            *off += ohm;
        }
        self
    }
}

/// Turns a bay's wire half round the direction the bay faces, through the bay's middle.
fn half_turn(bay: &BayPlan, wire: &mut Wire) {
    let ahead = Direction::new(bay.facing_deg, 0.0).unit();
    let out = Direction::new(bay.bearing_deg, 0.0).unit();
    let middle = [out[0] * bay.stand_off_m, out[1] * bay.stand_off_m, bay.height_m];
    for end in [&mut wire.start_m, &mut wire.end_m] {
        let from = minus(*end, middle);
        let along = dot(from, ahead);
        *end = std::array::from_fn(|i| middle[i] + 2.0 * along * ahead[i] - from[i]);
    }
}

/// What each bay shows at its connector, alone in the air, more than unmoved, for every move of its resonance. Moved by so much it
/// shows at the working frequency what it would show that much lower.
fn moved_ohm(plan: &MountPlan, mounted: &Mounted) -> Result<Vec<Vec<C64>>, MountError> {
    let at_mhz = mounted.frequency_mhz();
    let lone = |bay: &BayPlan| -> Result<Vec<C64>, MountError> {
        let alone = MountPlan {
            bays: vec![*bay],
            mast: Mast::None,
            ..plan.clone()
        };
        let ohm = |at_mhz: f64| -> Result<C64, MountError> {
            Ok(alone.solved_with(at_mhz, &[Matching::BARE])?.ports_ohm()[(0, 0)])
        };
        let now = ohm(at_mhz)?;
        moves_mhz().map(|by| Ok(ohm(at_mhz - by)? - now)).collect()
    };
    let mut known: Vec<(WireElement, Vec<C64>)> = Vec::new();
    let mut out = Vec::new();
    for (bay, matching) in plan.bays.iter().zip(mounted.matching()) {
        let of_kind = match known.iter().find(|k| k.0 == bay.element) {
            Some((_, ohms)) => ohms.clone(),
            None => {
                let ohms = lone(bay)?;
                known.push((bay.element, ohms.clone()));
                ohms
            }
        };
        out.push(of_kind.iter().map(|z| z * matching.turns.powi(2)).collect());
    }
    Ok(out)
}

/// Between two of the solved moves, by a straight line.
fn between(solved_ohm: &[C64], by_mhz: f64) -> C64 {
    let last = solved_ohm.len() - 1;
    let place = ((by_mhz + last as f64) / 2.0).clamp(0.0, last as f64);
    let low = (place as usize).min(last.saturating_sub(1));
    let part = place - low as f64;
    solved_ohm[low] * (1.0 - part) + solved_ohm[(low + 1).min(last)] * part
}

/// Fields of the bays at points, kept from one fault to the next: only other metal changes them.
pub(super) struct Sight<'a> {
    points: &'a [FieldPoint],
    of: Option<(Arc<Solved>, Vec<Vec<C64>>)>,
}

impl<'a> Sight<'a> {
    pub fn new(points: &'a [FieldPoint]) -> Self {
        Self { points, of: None }
    }

    /// Gain against a half-wave dipole towards each point in its plane, for currents into the connectors.
    ///
    /// # Units
    /// - `currents_a`: A peak; `radiated_w`: what they radiate
    pub fn gains(
        &mut self,
        aerial: &Aerial,
        currents_a: &[C64],
        radiated_w: f64,
    ) -> Result<Vec<f64>, InstallationError> {
        let seen = match self.of.take() {
            Some((solved, fields)) if Arc::ptr_eq(&solved, &aerial.solved) => (solved, fields),
            _ => (aerial.solved.clone(), aerial.solved.fields(self.points)),
        };
        let fields = &self.of.insert(seen).1;
        let currents: Vec<C64> = currents_a
            .iter()
            .zip(&aerial.sense)
            .map(|(i, sense)| i * sense)
            .collect();
        let scale = aerial.solved.scale(&currents, radiated_w)?;
        let sum = |of_bays: &Vec<C64>| of_bays.iter().zip(&currents).map(|(e, i)| e * i).sum::<C64>();
        Ok(fields.iter().map(|f| scale * sum(f).norm_sqr()).collect())
    }
}

impl Solved {
    /// For each point, the field of each bay alone at one ampere.
    fn fields(&self, points: &[FieldPoint]) -> Vec<Vec<C64>> {
        match &self.source {
            Source::Array { alone, .. } => {
                let of_point =
                    |p: &FieldPoint| alone.iter().map(|r| r.field(p.towards).plane(p.plane)).collect();
                points.iter().map(of_point).collect()
            }
            Source::Wires { mounted, .. } => {
                let towards: Vec<Direction> = points.iter().map(|p| p.towards).collect();
                let in_plane = |(p, fields): (&FieldPoint, Vec<crate::direction::Field>)| {
                    fields.into_iter().map(|f| f.plane(p.plane)).collect()
                };
                points
                    .iter()
                    .zip(mounted.fields_of_bays(&towards))
                    .map(in_plane)
                    .collect()
            }
        }
    }

    /// Gain for each squared field. The array model's power is that of its pattern; the wires' balance holds as it is.
    fn scale(&self, currents_a: &[C64], radiated_w: f64) -> Result<f64, ArrayError> {
        match &self.source {
            Source::Wires { .. } => Ok(1.0 / radiated_w),
            Source::Array { gram, .. } => {
                let integral: C64 = currents_a
                    .iter()
                    .enumerate()
                    .flat_map(|(i, a)| currents_a.iter().enumerate().map(move |(j, b)| (i, j, a, b)))
                    .map(|(i, j, a, b)| a.conj() * gram[(i, j)] * b)
                    .sum();
                if integral.re > 0.0 && integral.re.is_finite() {
                    Ok(4.0 * std::f64::consts::PI / integral.re / HALF_WAVE_DIRECTIVITY)
                } else {
                    Err(ArrayError::Silent)
                }
            }
        }
    }
}
