//! People and ground served, counted by probability.

use propagation::p1812::field_1kw_dbuv_m;
use rayon::prelude::*;
use terrain::Surroundings;

use crate::erp::ErpTable;
use crate::error::CoverageError;
use crate::loss_field::{LossField, ROW_BITS, WATER};
use crate::wanted::{Threshold, Wanted};

/// Who and what is served.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Served {
    /// People served: everyone counted with the probability that the wanted field is reached at their receiver.
    pub people: f64,
    /// People within the radius.
    pub people_total: f64,
    /// People within the radius behind missing ground: nothing was computed for them, they count as not served.
    pub people_unknown: f64,
    /// Land served, by probability, km².
    pub land_km2: f64,
    /// Land within the radius where something was computed, km²; inland water is no land.
    pub land_total_km2: f64,
    /// Ground behind missing tiles, km².
    pub unknown_km2: f64,
    /// The same by surroundings: rural, urban, large city.
    pub by_surroundings: [ServedPart; 3],
}

/// Served within one kind of surroundings.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ServedPart {
    /// People served.
    pub people: f64,
    /// People there.
    pub people_total: f64,
    /// Land served, km².
    pub land_km2: f64,
    /// Land there, km².
    pub land_total_km2: f64,
}

impl Served {
    /// Share of the people within the radius, 0…1; `None` with nobody.
    pub fn people_share(&self) -> Option<f64> {
        (self.people_total > 0.0).then(|| self.people / self.people_total)
    }

    /// Share of the land, 0…1; `None` without land.
    pub fn land_share(&self) -> Option<f64> {
        (self.land_total_km2 > 0.0).then(|| self.land_km2 / self.land_total_km2)
    }

    /// What is served in one kind of surroundings.
    pub fn part(&self, surroundings: Surroundings) -> &ServedPart {
        &self.by_surroundings[surroundings_index(surroundings)]
    }

    fn add(mut self, other: &Served) -> Served {
        self.people += other.people;
        self.people_total += other.people_total;
        self.people_unknown += other.people_unknown;
        self.land_km2 += other.land_km2;
        self.land_total_km2 += other.land_total_km2;
        self.unknown_km2 += other.unknown_km2;
        for (a, b) in self.by_surroundings.iter_mut().zip(&other.by_surroundings) {
            a.people += b.people;
            a.people_total += b.people_total;
            a.land_km2 += b.land_km2;
            a.land_total_km2 += b.land_total_km2;
        }
        self
    }
}

/// Index in tables of three: rural, urban, large city.
pub(crate) fn surroundings_index(surroundings: Surroundings) -> usize {
    match surroundings {
        Surroundings::Rural => 0,
        Surroundings::Urban => 1,
        Surroundings::LargeCity => 2,
    }
}

/// What decides at each row of a field.
pub(crate) struct Criterion {
    pub thresholds: Vec<Threshold>,
    pub surroundings: Vec<usize>,
}

impl LossField {
    pub(crate) fn criterion(&self, wanted: &Wanted) -> Result<Criterion, CoverageError> {
        let rows = self.rows.rows();
        let (rule, freq_mhz) = (self.study.receiving, self.study.conditions.freq_mhz);
        Ok(Criterion {
            thresholds: rows
                .iter()
                .map(|row| wanted.threshold(row, rule, freq_mhz))
                .collect::<Result<_, _>>()?,
            surroundings: rows
                .iter()
                .map(|row| surroundings_index(row.surroundings()))
                .collect(),
        })
    }

    /// Field of 1 kW ERP without any loss, dB(µV/m): what losses are taken from.
    pub(crate) fn field_without_loss_dbuv_m(&self) -> f64 {
        field_1kw_dbuv_m(0.0, self.study.conditions.freq_mhz / 1000.0)
    }

    /// People and land served, the full sum over every receiver.
    ///
    /// # Errors
    /// [`CoverageError`]: spreads or fields out of range, a situation at another height than predicted.
    pub fn served(&self, erp: &ErpTable, wanted: &Wanted) -> Result<Served, CoverageError> {
        self.served_where(erp, wanted, u32::MAX, |_| f64::NEG_INFINITY)
    }

    /// The same for several services or situations in one pass: the field at a receiver is worked out once for all of them.
    ///
    /// # Shape
    /// One for each wanted, in order.
    ///
    /// # Errors
    /// As [`LossField::served`], for any of them.
    pub fn served_each(&self, erp: &ErpTable, wanted: &[Wanted]) -> Result<Vec<Served>, CoverageError> {
        let criteria = wanted
            .iter()
            .map(|w| self.criterion(w))
            .collect::<Result<Vec<_>, _>>()?;
        Ok(self.served_by(erp, &criteria, u32::MAX, |_| f64::NEG_INFINITY))
    }

    /// The same inside a circle round the site.
    ///
    /// # Errors
    /// As [`LossField::served`].
    pub fn served_within(
        &self,
        erp: &ErpTable,
        wanted: &Wanted,
        radius_km: f64,
    ) -> Result<Served, CoverageError> {
        let last_point = (radius_km * 1000.0 / self.lattice.step_m()).floor().max(0.0) as u32;
        self.served_where(erp, wanted, last_point, |_| f64::NEG_INFINITY)
    }

    /// The same where every receiver also needs a field of its own at the height of prediction, such as the usable field that
    /// interference leaves, dB(µV/m).
    ///
    /// # Shape
    /// - `usable_dbuv_m`: one for each receiver, in the lattice's order
    ///
    /// # Errors
    /// As [`LossField::served`], and [`CoverageError::OtherLattice`] for another number of receivers.
    pub fn served_against(
        &self,
        erp: &ErpTable,
        wanted: &Wanted,
        usable_dbuv_m: &[f32],
    ) -> Result<Served, CoverageError> {
        if usable_dbuv_m.len() != self.lattice.len() {
            return Err(CoverageError::OtherLattice);
        }
        self.served_where(erp, wanted, u32::MAX, |index| f64::from(usable_dbuv_m[index]))
    }

    fn served_where(
        &self,
        erp: &ErpTable,
        wanted: &Wanted,
        last_point: u32,
        floor_dbuv_m: impl Fn(usize) -> f64 + Sync,
    ) -> Result<Served, CoverageError> {
        let criteria = [self.criterion(wanted)?];
        let mut each = self.served_by(erp, &criteria, last_point, floor_dbuv_m);
        Ok(each.pop().unwrap_or_default())
    }

    /// One sum for each criterion.
    fn served_by(
        &self,
        erp: &ErpTable,
        criteria: &[Criterion],
        last_point: u32,
        floor_dbuv_m: impl Fn(usize) -> f64 + Sync,
    ) -> Vec<Served> {
        let parts: Vec<Vec<Served>> = (0..self.lattice.azimuths())
            .into_par_iter()
            .map(|radial| self.served_on(radial, erp, criteria, last_point, &floor_dbuv_m))
            .collect();
        // In the order of the radials, so that sums do not depend on threads.
        (0..criteria.len())
            .map(|i| {
                parts
                    .iter()
                    .fold(Served::default(), |sum, part| sum.add(&part[i]))
            })
            .collect()
    }

    fn served_on(
        &self,
        radial: u32,
        erp: &ErpTable,
        criteria: &[Criterion],
        last_point: u32,
        floor_dbuv_m: impl Fn(usize) -> f64,
    ) -> Vec<Served> {
        let cut = erp.cut(self.lattice.azimuth_deg(radial));
        let range = self.lattice.radial_range(radial);
        let first = self.lattice.first_point(radial);
        let base = self.field_without_loss_dbuv_m();
        let people = &self.listeners.at;
        let mut next = people.partition_point(|&(i, _)| (i as usize) < range.start);
        let mut each = vec![Served::default(); criteria.len()];
        for index in range.clone() {
            let point = first + (index - range.start) as u32;
            if point > last_point {
                break;
            }
            let here = match people.get(next) {
                Some(&(i, count)) if i as usize == index => {
                    next += 1;
                    f64::from(count)
                }
                _ => 0.0,
            };
            let cover = self.cover[index];
            let km2 = if cover & WATER == 0 {
                self.lattice.area_m2(point) * 1e-6
            } else {
                0.0
            };
            if km2 == 0.0 && here == 0.0 {
                continue;
            }
            let Some(loss_db) = self.loss_db(index) else {
                for out in &mut each {
                    out.people_total += here;
                    out.people_unknown += here;
                    out.unknown_km2 += km2;
                }
                continue;
            };
            let row = usize::from(cover & ROW_BITS);
            let field = base - loss_db + cut.erp_dbkw(self.elev_deg(index));
            let floor = floor_dbuv_m(index);
            for (out, criterion) in each.iter_mut().zip(criteria) {
                out.people_total += here;
                let threshold = &criterion.thresholds[row];
                let need = threshold.at_prediction_dbuv_m().max(floor);
                let share = threshold.probability(field - need);
                out.people += here * share;
                out.land_km2 += km2 * share;
                out.land_total_km2 += km2;
                let part = &mut out.by_surroundings[criterion.surroundings[row]];
                part.people += here * share;
                part.people_total += here;
                part.land_km2 += km2 * share;
                part.land_total_km2 += km2;
            }
        }
        each
    }

    /// Median field at every receiver at its height of prediction, dB(µV/m); NaN behind missing ground.
    ///
    /// # Shape
    /// One for each receiver, in the lattice's order.
    pub fn fields_dbuv_m(&self, erp: &ErpTable) -> Vec<f32> {
        let mut out = vec![f32::NAN; self.lattice.len()];
        let base = self.field_without_loss_dbuv_m();
        let mut rest = out.as_mut_slice();
        let slots: Vec<(u32, &mut [f32])> = (0..self.lattice.azimuths())
            .map(|radial| {
                let here;
                (here, rest) =
                    std::mem::take(&mut rest).split_at_mut(self.lattice.radial_range(radial).len());
                (radial, here)
            })
            .collect();
        slots.into_par_iter().for_each(|(radial, slots)| {
            let cut = erp.cut(self.lattice.azimuth_deg(radial));
            for (slot, index) in slots.iter_mut().zip(self.lattice.radial_range(radial)) {
                if let Some(loss_db) = self.loss_db(index) {
                    *slot = (base - loss_db + cut.erp_dbkw(self.elev_deg(index))) as f32;
                }
            }
        });
        out
    }
}
