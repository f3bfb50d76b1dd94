//! What the licence allows.

use crate::brief::FieldCondition;
use crate::known::Known;
use crate::value::{Date, RadiatedPower};
use quantity::{Azimuth, Decibels, Frequency, Height, Length, Position};

crate::record! {
    /// What the licence allows one emission.
    pub struct Licence {
        /// The licence's own reference.
        pub reference: Option<String>,
        /// The most that may be radiated.
        pub erp: Known<RadiatedPower>,
        /// The least that must be radiated, where a rule says so.
        pub erp_at_least: Option<RadiatedPower>,
        /// Polarisation planes it names.
        pub polarisation: Known<Polarisation>,
        /// The greatest antenna height.
        pub height: Option<Height>,
        /// The licensed position of the antenna.
        pub position: Option<Position>,
        /// How far from it the antenna may stand.
        pub position_tolerance: Option<Length>,
        /// How far the antenna's height may differ.
        pub height_tolerance: Option<Length>,
        /// Attenuation by azimuth, one mask for each plane or one for both.
        pub masks: Vec<Mask>,
        /// Limits on the field at a distance.
        pub conditions: Vec<FieldCondition>,
        /// It ends on this day.
        pub until: Option<Date>,
        /// Spacing to stations on the same mast that a rule asks for.
        pub channel_raster: Option<Frequency>,
    }
}

crate::choice! {
    /// Polarisation of what is radiated.
    pub enum Polarisation {
        /// Vertical plane only.
        Vertical = "vertical",
        /// Horizontal plane only.
        Horizontal = "horizontal",
        /// Both planes.
        Mixed = "mixed",
    }
}

crate::choice! {
    /// One polarisation plane.
    pub enum Plane {
        /// Vertical.
        Vertical = "vertical",
        /// Horizontal.
        Horizontal = "horizontal",
    }
}

impl Polarisation {
    /// The planes this polarisation radiates in.
    pub fn planes(self) -> &'static [Plane] {
        match self {
            Polarisation::Vertical => &[Plane::Vertical],
            Polarisation::Horizontal => &[Plane::Horizontal],
            Polarisation::Mixed => &[Plane::Horizontal, Plane::Vertical],
        }
    }
}

crate::record! {
    /// Attenuation the licence asks for, by azimuth.
    pub struct Mask {
        /// The plane it is for; both when absent.
        pub plane: Option<Plane>,
        /// Rows at single azimuths, usually every 10°; between rows the attenuation runs straight in dB.
        pub rows: Vec<MaskRow>,
        /// Sectors with one attenuation each.
        pub sectors: Vec<MaskSector>,
    }
}

crate::record! {
    /// One row of a mask.
    pub struct MaskRow {
        /// Azimuth from true north.
        pub azimuth: Azimuth,
        /// Attenuation below the licensed ERP.
        pub attenuation: Decibels,
    }
}

crate::record! {
    /// One sector of a mask, clockwise from `from` to `to`.
    pub struct MaskSector {
        /// Where it begins.
        pub from: Azimuth,
        /// Where it ends.
        pub to: Azimuth,
        /// Attenuation below the licensed ERP.
        pub attenuation: Decibels,
    }
}

impl Mask {
    /// Attenuation in dB asked for towards an azimuth, in degrees clockwise from true north.
    ///
    /// Rows are joined by straight lines in dB, round the circle; where sectors and rows both speak, the greater counts.
    pub fn attenuation_db(&self, azimuth_deg: f64) -> f64 {
        self.by_rows(azimuth_deg).max(self.by_sectors(azimuth_deg))
    }

    fn by_rows(&self, azimuth_deg: f64) -> f64 {
        let mut rows: Vec<(f64, f64)> = self
            .rows
            .iter()
            .map(|r| (r.azimuth.deg().rem_euclid(360.0), r.attenuation.db()))
            .collect();
        rows.sort_by(|a, b| a.0.total_cmp(&b.0));
        let (Some(first), Some(last)) = (rows.first().copied(), rows.last().copied()) else {
            return 0.0;
        };
        let az = azimuth_deg.rem_euclid(360.0);
        let after = rows.iter().position(|r| r.0 > az);
        let (low, high) = match after {
            Some(0) => ((last.0 - 360.0, last.1), first),
            Some(i) => (rows[i - 1], rows[i]),
            None => (last, (first.0 + 360.0, first.1)),
        };
        if high.0 - low.0 < 1e-9 {
            return low.1;
        }
        low.1 + (high.1 - low.1) * (az - low.0) / (high.0 - low.0)
    }

    fn by_sectors(&self, azimuth_deg: f64) -> f64 {
        self.sectors
            .iter()
            .filter(|s| {
                let width = (s.to.deg() - s.from.deg()).rem_euclid(360.0);
                let width = if width == 0.0 { 360.0 } else { width };
                (azimuth_deg - s.from.deg()).rem_euclid(360.0) <= width
            })
            .map(|s| s.attenuation.db())
            .fold(0.0, f64::max)
    }
}

impl Licence {
    /// Attenuation in dB asked for in a plane towards an azimuth.
    pub fn attenuation_db(&self, plane: Plane, azimuth_deg: f64) -> f64 {
        self.masks
            .iter()
            .filter(|m| m.plane.is_none_or(|p| p == plane))
            .map(|m| m.attenuation_db(azimuth_deg))
            .fold(0.0, f64::max)
    }
}
