//! Effective radiated power towards every direction, in the receiver's plane.

use antenna::direction::Plane;
use antenna::pattern::Pattern;

/// Which polarisation plane of the radiated field a receiver takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReceiverPlane {
    /// A vertical aerial: cars, portables.
    Vertical,
    /// A horizontal aerial: roofs where that is customary.
    Horizontal,
    /// Whichever plane is stronger in that direction.
    Stronger,
}

/// Most dBkW a table holds: 10 GW.
const CEILING_DBKW: f64 = 70.0;

/// A power in dB relative to 1 kW; nothing, less than nothing and no number are [`FLOOR_DBKW`].
fn dbkw(kw: f64) -> f64 {
    if kw > 0.0 {
        (10.0 * kw.log10()).clamp(FLOOR_DBKW, CEILING_DBKW)
    } else {
        FLOOR_DBKW
    }
}

/// A level that is a number; what is none is [`FLOOR_DBKW`].
fn clean_dbkw(dbkw: f64) -> f64 {
    if dbkw.is_nan() {
        return FLOOR_DBKW;
    }
    dbkw.clamp(FLOOR_DBKW, CEILING_DBKW)
}

/// Fewest dBkW a direction is given: 100 dB under a milliwatt, so that an empty direction stays a number.
pub const FLOOR_DBKW: f64 = -160.0;

/// ERP by azimuth and elevation, dB relative to 1 kW ERP, tabulated for coverage: every whole degree of azimuth, elevations
/// every quarter of a degree near the horizon and every degree elsewhere, straight lines in dB between.
#[derive(Debug, Clone, PartialEq)]
pub struct ErpTable {
    /// Azimuth by azimuth, `ELEVS` each; one azimuth where all are alike.
    cells: Vec<f32>,
    azimuths: usize,
    add_db: f64,
}

/// Steep part below: −90° to −20°, whole degrees; fine part to +6°; steep part above to +90°.
const FINE_FROM_DEG: f64 = -20.0;
const FINE_TO_DEG: f64 = 6.0;
const BELOW: usize = 70;
const FINE: usize = 104;
const ABOVE: usize = 84;
const ELEVS: usize = BELOW + FINE + ABOVE + 1;

/// Elevation of a column, degrees.
fn elev_deg(column: usize) -> f64 {
    if column <= BELOW {
        column as f64 - 90.0
    } else if column <= BELOW + FINE {
        FINE_FROM_DEG + (column - BELOW) as f64 * 0.25
    } else {
        FINE_TO_DEG + (column - BELOW - FINE) as f64
    }
}

#[inline]
fn column(elev_deg: f64) -> f64 {
    let e = elev_deg.clamp(-90.0, 90.0);
    if e < FINE_FROM_DEG {
        e + 90.0
    } else if e < FINE_TO_DEG {
        BELOW as f64 + (e - FINE_FROM_DEG) * 4.0
    } else {
        (BELOW + FINE) as f64 + (e - FINE_TO_DEG)
    }
}

impl ErpTable {
    /// The same ERP towards every direction.
    ///
    /// # Units
    /// - `erp_kw`: kW, relative to a half-wave dipole; nothing radiates where it is not above 0
    pub fn omni(erp_kw: f64) -> Self {
        Self {
            cells: vec![0.0; ELEVS],
            azimuths: 1,
            add_db: dbkw(erp_kw),
        }
    }

    /// An antenna's pattern fed with a power.
    ///
    /// # Units
    /// - `power_kw`: power accepted at the antenna's input, kW
    pub fn of_pattern(pattern: &Pattern, power_kw: f64, plane: ReceiverPlane) -> Self {
        let elevs: Vec<f64> = (0..ELEVS).map(elev_deg).collect();
        let mut cells = Vec::with_capacity(360 * ELEVS);
        let (mut one, mut other) = (vec![0.0; ELEVS], vec![0.0; ELEVS]);
        for azimuth in 0..360 {
            let bearing = f64::from(azimuth);
            match plane {
                ReceiverPlane::Vertical => pattern.gains_dbd(Plane::Vertical, bearing, &elevs, &mut one),
                ReceiverPlane::Horizontal => pattern.gains_dbd(Plane::Horizontal, bearing, &elevs, &mut one),
                ReceiverPlane::Stronger => {
                    pattern.gains_dbd(Plane::Vertical, bearing, &elevs, &mut one);
                    pattern.gains_dbd(Plane::Horizontal, bearing, &elevs, &mut other);
                    one.iter_mut().zip(&other).for_each(|(a, b)| *a = a.max(*b));
                }
            }
            cells.extend(one.iter().map(|g| *g as f32));
        }
        Self {
            cells,
            azimuths: 360,
            add_db: dbkw(power_kw),
        }
    }

    /// ERP in dB relative to 1 kW from any function of azimuth and elevation, degrees.
    pub fn from_fn(erp_dbkw: impl Fn(f64, f64) -> f64) -> Self {
        let mut cells = Vec::with_capacity(360 * ELEVS);
        for azimuth in 0..360 {
            cells.extend((0..ELEVS).map(|e| clean_dbkw(erp_dbkw(f64::from(azimuth), elev_deg(e))) as f32));
        }
        Self {
            cells,
            azimuths: 360,
            add_db: 0.0,
        }
    }

    /// The same directions at another power.
    pub fn plus_db(mut self, db: f64) -> Self {
        self.add_db = clean_dbkw(self.add_db + db);
        self
    }

    /// The same antenna turned clockwise.
    pub fn turned(&self, by_deg: f64) -> Self {
        if self.azimuths == 1 {
            return self.clone();
        }
        let base = self.clone();
        Self {
            add_db: self.add_db,
            ..Self::from_fn(|azimuth, elev| base.relative_db(azimuth - by_deg, elev))
        }
    }

    /// ERP towards a direction, dB relative to 1 kW.
    ///
    /// # Units
    /// - `azimuth_deg`: clockwise from true north, any turn; `elev_deg`: a depression is negative
    #[inline]
    pub fn erp_dbkw(&self, azimuth_deg: f64, elev_deg: f64) -> f64 {
        (self.relative_db(azimuth_deg, elev_deg) + self.add_db).max(FLOOR_DBKW)
    }

    /// Part of the ERP that the direction decides.
    #[inline]
    pub(crate) fn relative_db(&self, azimuth_deg: f64, elev_deg: f64) -> f64 {
        let x = column(elev_deg);
        let c = (x as usize).min(ELEVS - 2);
        let t = x - c as f64;
        if self.azimuths == 1 {
            return between(&self.cells, c, t);
        }
        let turn = azimuth_deg.rem_euclid(360.0);
        let a = (turn as usize).min(359);
        let left = between(&self.cells[a * ELEVS..], c, t);
        let right = between(&self.cells[(a + 1) % 360 * ELEVS..], c, t);
        left + (turn - a as f64) * (right - left)
    }

    /// The same towards a direction found before.
    #[inline]
    pub(crate) fn at_spot(&self, spot: &Spot) -> f32 {
        let along = |start: usize| {
            let pair = &self.cells[start..start + 2];
            pair[0] + spot.up * (pair[1] - pair[0])
        };
        if self.azimuths == 1 {
            return along(spot.column as usize);
        }
        let (left, right) = (along(spot.left as usize), along(spot.right as usize));
        left + spot.across * (right - left)
    }

    /// Part of the ERP that is the same everywhere, dB.
    pub(crate) fn common_db(&self) -> f64 {
        self.add_db
    }

    /// One azimuth's elevations, ready to be asked many times.
    pub(crate) fn cut(&self, azimuth_deg: f64) -> Cut {
        let erp_dbkw = |relative_db: f64| (relative_db + self.add_db).max(FLOOR_DBKW) as f32;
        let of = |azimuth: usize| {
            let start = azimuth * ELEVS;
            self.cells[start..start + ELEVS].iter().map(|&db| f64::from(db))
        };
        if self.azimuths == 1 {
            let columns = of(0).map(erp_dbkw).collect();
            return Cut { columns };
        }
        let turn = azimuth_deg.rem_euclid(360.0);
        let a = (turn as usize).min(359);
        let across = turn - a as f64;
        let between = |(left, right): (f64, f64)| erp_dbkw(left + across * (right - left));
        Cut {
            columns: of(a).zip(of((a + 1) % 360)).map(between).collect(),
        }
    }

    /// Strongest direction: azimuth, elevation (degrees) and ERP (dB relative to 1 kW).
    pub fn strongest(&self) -> (f64, f64, f64) {
        let mut best = (0, f32::NEG_INFINITY);
        for (index, &value) in self.cells.iter().enumerate() {
            if value > best.1 {
                best = (index, value);
            }
        }
        let (azimuth, elev) = (best.0 / ELEVS, elev_deg(best.0 % ELEVS));
        (azimuth as f64, elev, f64::from(best.1) + self.add_db)
    }
}

/// Where a direction lies in every table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Spot {
    left: u32,
    right: u32,
    column: u32,
    across: f32,
    up: f32,
}

impl Spot {
    pub fn at(azimuth_deg: f64, elev_deg: f64) -> Self {
        let x = column(elev_deg);
        let c = (x as usize).min(ELEVS - 2);
        let turn = azimuth_deg.rem_euclid(360.0);
        let a = (turn as usize).min(359);
        Self {
            left: (a * ELEVS + c) as u32,
            right: ((a + 1) % 360 * ELEVS + c) as u32,
            column: c as u32,
            across: (turn - a as f64) as f32,
            up: (x - c as f64) as f32,
        }
    }

    /// Azimuth and elevation it stands for, degrees.
    pub fn direction_deg(&self) -> (f64, f64) {
        let column = self.column as usize;
        let (low, high) = (elev_deg(column), elev_deg(column + 1));
        (
            f64::from(self.left / ELEVS as u32) + f64::from(self.across),
            low + f64::from(self.up) * (high - low),
        )
    }
}

#[inline]
fn between(cells: &[f32], c: usize, t: f64) -> f64 {
    let (a, b) = (f64::from(cells[c]), f64::from(cells[c + 1]));
    a + t * (b - a)
}

/// ERP by elevation on one azimuth.
pub(crate) struct Cut {
    columns: Vec<f32>,
}

impl Cut {
    /// ERP, dB relative to 1 kW.
    #[inline]
    pub fn erp_dbkw(&self, elev_deg: f64) -> f64 {
        let x = column(elev_deg);
        let c = (x as usize).min(ELEVS - 2);
        between(&self.columns, c, x - c as f64)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use antenna::direction::Field;
    use num_complex::Complex64;

    #[test]
    fn columns_and_elevations_are_inverse() {
        assert_eq!(elev_deg(ELEVS - 1), 90.0);
        for c in 0..ELEVS {
            assert_eq!(column(elev_deg(c)), c as f64);
        }
    }

    #[test]
    fn a_cut_is_its_azimuth() {
        let table = ErpTable::from_fn(|azimuth, elev| (azimuth * 0.1).sin() * 9.0 - elev.abs() * 0.3);
        for azimuth in [0.0, 17.3, 180.0, 359.6, 721.25, -3.5] {
            let cut = table.cut(azimuth);
            for c in 0..ELEVS {
                let (ours, plain) = (cut.erp_dbkw(elev_deg(c)), table.erp_dbkw(azimuth, elev_deg(c)));
                assert!((ours - plain).abs() < 1e-5, "{ours} for {plain}");
            }
        }
    }

    #[test]
    fn omni_is_the_same_everywhere() {
        let t = ErpTable::omni(0.5);
        for (a, e) in [(0.0, 0.0), (359.9, -89.0), (-10.0, 90.0)] {
            assert!((t.erp_dbkw(a, e) - 10.0 * 0.5f64.log10()).abs() < 1e-12);
        }
    }

    #[test]
    fn no_power_and_no_number_radiate_nothing() {
        for kw in [0.0, -5.0, f64::NAN] {
            assert_eq!(ErpTable::omni(kw).erp_dbkw(10.0, -1.0), FLOOR_DBKW);
        }
        for table in [
            ErpTable::from_fn(|_, _| f64::NAN),
            ErpTable::omni(1.0).plus_db(f64::NAN),
            ErpTable::omni(1.0).plus_db(f64::NEG_INFINITY),
        ] {
            assert_eq!(table.erp_dbkw(10.0, -1.0), FLOOR_DBKW);
        }
        assert!(ErpTable::omni(f64::INFINITY).erp_dbkw(0.0, 0.0).is_finite());
    }

    #[test]
    fn a_pattern_is_followed_within_a_twentieth_of_a_db_in_the_lobe() {
        let pattern = Pattern::from_field(98.0, 1.0, 0.25, |d| Field {
            vertical: Complex64::from(
                (1.2 + d.bearing_deg.to_radians().cos()) * (8.0 * d.elev_deg.to_radians()).cos(),
            ),
            ..Field::default()
        });
        let table = ErpTable::of_pattern(&pattern, 2.0, ReceiverPlane::Vertical);
        let silent = ErpTable::of_pattern(&pattern, 2.0, ReceiverPlane::Horizontal);
        for (a, e) in [(10.3, -1.13), (170.7, -3.4), (300.2, 2.2), (45.0, -7.9)] {
            let expected = pattern.gain_dbd(Plane::Vertical, a, e) + 10.0 * 2f64.log10();
            assert!((table.erp_dbkw(a, e) - expected).abs() < 0.05, "{a} {e}");
            assert!(silent.erp_dbkw(a, e) < -90.0);
            let spot = f64::from(table.at_spot(&Spot::at(a, e))) + table.common_db();
            assert!((spot - table.erp_dbkw(a, e)).abs() < 1e-4);
        }
        let turned = table.turned(90.0);
        assert!((turned.erp_dbkw(100.0, -1.0) - table.erp_dbkw(10.0, -1.0)).abs() < 1e-4);
    }
}
