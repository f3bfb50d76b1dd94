//! How far it is heard, azimuth by azimuth.

use rayon::prelude::*;

use crate::erp::ErpTable;
use crate::error::CoverageError;
use crate::loss_field::{LossField, ROW_BITS, WATER};
use crate::served::Criterion;
use crate::wanted::Wanted;

/// How far it is heard towards one azimuth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DistanceTowards {
    /// Degrees clockwise from true north.
    pub azimuth_deg: f64,
    /// Length of the ray that is served, km: what is heard, added up without the gaps (and without water, unless it counts).
    pub served_km: f64,
    /// Where the field first falls below what is wanted for at least [`GAP_KM`], km from the site.
    pub unbroken_km: f64,
    /// The furthest receiver that is served, km from the site.
    pub furthest_km: f64,
    /// False when the furthest is the rim: it may be heard further out.
    pub ends_inside: bool,
}

/// A gap shorter than this does not end an unbroken distance, km: a dip behind a fold of the ground (mark I).
pub const GAP_KM: f64 = 0.5;

impl LossField {
    /// How far the median field reaches what is wanted, on every unthinned radial. `water` counts receivers on water too.
    ///
    /// # Errors
    /// As [`LossField::served`].
    pub fn distances(
        &self,
        erp: &ErpTable,
        wanted: &Wanted,
        water: bool,
    ) -> Result<Vec<DistanceTowards>, CoverageError> {
        let criterion = self.criterion(wanted)?;
        let innermost = (0..self.lattice.azimuths()).filter(|&i| self.lattice.first_point(i) == 1);
        let radials: Vec<u32> = innermost.collect();
        Ok(radials
            .into_par_iter()
            .map(|radial| self.distance_on(radial, erp, &criterion, water))
            .collect())
    }

    fn distance_on(
        &self,
        radial: u32,
        erp: &ErpTable,
        criterion: &Criterion,
        water: bool,
    ) -> DistanceTowards {
        let azimuth_deg = self.lattice.azimuth_deg(radial);
        let cut = erp.cut(azimuth_deg);
        let (base, step_km) = (self.field_without_loss_dbuv_m(), self.lattice.step_m() / 1000.0);
        let (mut served, mut last, mut silent, mut unbroken) = (0u32, 0u32, 0u32, None);
        for (k, index) in (1u32..).zip(self.lattice.radial_range(radial)) {
            let cover = self.cover[index];
            if !water && cover & WATER != 0 {
                continue;
            }
            let need = criterion.thresholds[usize::from(cover & ROW_BITS)].at_prediction_dbuv_m();
            let heard = self
                .loss_db(index)
                .is_some_and(|loss_db| base - loss_db + cut.erp_dbkw(self.elev_deg(index)) >= need);
            if heard {
                (served, last, silent) = (served + 1, k, 0);
                continue;
            }
            silent += 1;
            if unbroken.is_none() && f64::from(silent) * step_km >= GAP_KM {
                unbroken = Some(last);
            }
        }
        let points = self.lattice.points();
        DistanceTowards {
            azimuth_deg,
            served_km: f64::from(served) * step_km,
            unbroken_km: f64::from(unbroken.unwrap_or(last)) * step_km,
            furthest_km: f64::from(last) * step_km,
            ends_inside: last < points,
        }
    }
}
