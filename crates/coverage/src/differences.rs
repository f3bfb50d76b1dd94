//! Two predictions of the same area against each other: where, and by how much.

use crate::error::CoverageError;
use crate::loss_field::{LossField, WATER};

/// How far two loss fields lie apart over land, dB: the field of the first less the field of the second.
///
/// Shares are of the ground, as receivers stand for areas of their own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Differences {
    /// Half of the land lies below.
    pub median_db: f64,
    /// A tenth of the land lies below.
    pub tenth_db: f64,
    /// Nine tenths of the land lie below.
    pub ninetieth_db: f64,
    /// The greatest, with its sign.
    pub worst_db: f64,
    /// Land that both answer for, km².
    pub land_km2: f64,
    /// Land that only one of them answers for, km².
    pub only_one_km2: f64,
}

impl LossField {
    /// By how much the field of this prediction exceeds another's at each receiver, dB, whatever antenna sends; NaN where either
    /// gives none.
    ///
    /// # Shape
    /// One for each receiver, in the lattice's order.
    ///
    /// # Errors
    /// [`CoverageError::OtherLattice`] for receivers that stand elsewhere.
    pub fn exceeds_db(&self, other: &LossField) -> Result<Vec<f32>, CoverageError> {
        if self.study.other_receivers(&other.study).is_some() {
            return Err(CoverageError::OtherLattice);
        }
        let more = |i| Some((other.loss_db(i)? - self.loss_db(i)?) as f32);
        Ok((0..self.lattice.len())
            .map(|i| more(i).unwrap_or(f32::NAN))
            .collect())
    }

    /// Median, tenths and the greatest of [`LossField::exceeds_db`] over land; `None` where there is no land that both answer for.
    ///
    /// # Errors
    /// As [`LossField::exceeds_db`].
    pub fn differences(&self, other: &LossField) -> Result<Option<Differences>, CoverageError> {
        let apart = self.exceeds_db(other)?;
        let mut on_land: Vec<(f32, f64)> = Vec::with_capacity(apart.len());
        let mut only_one_km2 = 0.0;
        for radial in 0..self.lattice.azimuths() {
            let points = self.lattice.first_point(radial)..;
            for (index, point) in self.lattice.radial_range(radial).zip(points) {
                if self.cover[index] & WATER != 0 {
                    continue;
                }
                let km2 = self.lattice.area_m2(point) * 1e-6;
                if !apart[index].is_nan() {
                    on_land.push((apart[index], km2));
                } else if self.loss_db(index).is_some() || other.loss_db(index).is_some() {
                    only_one_km2 += km2;
                }
            }
        }
        on_land.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
        let (Some(first), Some(last)) = (on_land.first(), on_land.last()) else {
            return Ok(None);
        };
        let land_km2: f64 = on_land.iter().map(|(_, km2)| km2).sum();
        let below = |share: f64| {
            let mut passed_km2 = 0.0;
            let reached = |&&(_, km2): &&(f32, f64)| {
                passed_km2 += km2;
                passed_km2 >= share * land_km2
            };
            f64::from(on_land.iter().find(reached).unwrap_or(last).0)
        };
        let worst = if -first.0 > last.0 { first.0 } else { last.0 };
        Ok(Some(Differences {
            median_db: below(0.5),
            tenth_db: below(0.1),
            ninetieth_db: below(0.9),
            worst_db: f64::from(worst),
            land_km2,
            only_one_km2,
        }))
    }
}
