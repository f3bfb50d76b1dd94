//! What any excitation gives the audience, for bays in their places.

use num_complex::Complex64 as C64;

use super::solved::{MASK_BEARINGS, MASK_STEP_DEG, Solved, Spot, planes_heard};
use super::sums::{Parts, least_dbw, powers, strongest, to_db};
use super::{Audience, Bounds, Goal, Harnessing};
use crate::direction::Plane;
use crate::feed::Excitation;
use crate::mount::{MountError, MountPlan};

/// Worth of what is known to be no better.
const NO_WORTH: f64 = -1e12;

impl Solved {
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
