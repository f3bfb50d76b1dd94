//! What grows with distance and needs no second look: sums, running maxima from the transmitter, runs of zones.

#[cfg(test)]
use crate::p1812::Path;
use crate::p1812::Zone;
use crate::p1812::zones::{SeaAndLand, ToCoast};

/// Runs of sea and land up to the present point.
#[derive(Debug, Clone, Copy)]
pub struct Runs {
    closed_sea_km: f64,
    sea: Run,
    land: Run,
    inland: Run,
    first_sea_km: f64,
    last_sea_km: f64,
}

/// The open run of one kind of zone and the longest closed one.
#[derive(Debug, Clone, Copy)]
struct Run {
    longest_km: f64,
    /// Where the open run begins, km; not a number while none is open.
    start_km: f64,
}

impl Run {
    fn open(here: bool) -> Run {
        Run {
            longest_km: 0.0,
            start_km: if here { 0.0 } else { f64::NAN },
        }
    }

    /// Goes on from one point to the next; the length of a run that this closed.
    #[inline(always)]
    fn step(&mut self, here: bool, from_km: f64, to_km: f64) -> f64 {
        if here != self.start_km.is_nan() {
            return 0.0;
        }
        let between_km = 0.5 * (from_km + to_km);
        if here {
            self.start_km = between_km;
            return 0.0;
        }
        let length_km = between_km - self.start_km;
        self.longest_km = self.longest_km.max(length_km);
        self.start_km = f64::NAN;
        length_km
    }

    /// Length of the run open at the receiver's point, km.
    #[inline(always)]
    fn open_km(&self, d_km: f64) -> f64 {
        (d_km - self.start_km).max(0.0)
    }
}

impl Runs {
    /// At the transmitter.
    pub fn new(zone: Zone) -> Runs {
        let sea = zone == Zone::Sea;
        Runs {
            closed_sea_km: 0.0,
            sea: Run::open(sea),
            land: Run::open(!sea),
            inland: Run::open(zone == Zone::Inland),
            first_sea_km: if sea { 0.0 } else { f64::NAN },
            last_sea_km: 0.0,
        }
    }

    /// Goes on from one point to the next.
    #[inline(always)]
    pub fn step(&mut self, zone: Zone, from_km: f64, to_km: f64) {
        let sea = zone == Zone::Sea;
        self.closed_sea_km += self.sea.step(sea, from_km, to_km);
        self.land.step(!sea, from_km, to_km);
        self.inland.step(zone == Zone::Inland, from_km, to_km);
        if sea {
            self.last_sea_km = to_km;
            if self.first_sea_km.is_nan() {
                self.first_sea_km = to_km;
            }
        }
    }

    /// Sea share and longest land stretches of the path that ends here.
    #[inline(always)]
    pub fn sea_and_land(&self, d_km: f64) -> SeaAndLand {
        SeaAndLand {
            sea_ratio: (self.closed_sea_km + self.sea.open_km(d_km)) / d_km,
            land_km: self.land.longest_km.max(self.land.open_km(d_km)),
            inland_km: self.inland.longest_km.max(self.inland.open_km(d_km)),
        }
    }

    /// Distances to the coast of the path that ends here.
    #[inline(always)]
    pub fn coast(&self, d_km: f64) -> ToCoast {
        if self.first_sea_km.is_nan() {
            return ToCoast::FAR;
        }
        ToCoast {
            tx_km: self.first_sea_km,
            rx_km: d_km - self.last_sea_km,
        }
    }
}

/// Running maxima of slopes seen from the transmitter, m/km.
#[derive(Debug, Clone, Copy)]
pub struct Maxima {
    /// Steepest to bare ground over the median Earth, and where it was first met.
    pub horizon: (f64, usize),
    /// Steepest to bare ground, no curvature.
    pub flat: f64,
    /// Steepest to ground and clutter over the median Earth.
    pub median: f64,
    /// Steepest to ground and clutter over the Earth of β0 %.
    pub beta0: f64,
}

impl Default for Maxima {
    fn default() -> Maxima {
        let none = f64::NEG_INFINITY;
        Maxima {
            horizon: (none, 0),
            flat: none,
            median: none,
            beta0: none,
        }
    }
}

/// The runs of a whole path: the walker's sums, for comparison with the plain reading.
#[cfg(test)]
fn runs_of(path: &Path<'_>) -> Runs {
    let mut runs = Runs::new(path.zone[0]);
    for i in 1..path.d_km.len() {
        runs.step(path.zone[i], path.d_km[i - 1], path.d_km[i]);
    }
    runs
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::p1812::{Profile, zones};
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn prop_runs_equal_the_plain_reading(codes in proptest::collection::vec(0u8..3, 2..60)) {
            let points = codes.len();
            let zone: Vec<Zone> =
                codes.iter().map(|c| [Zone::Sea, Zone::Coast, Zone::Inland][*c as usize]).collect();
            let d = (0..points).map(|i| i as f64 * 0.3 + (i % 3) as f64 * 0.07).collect();
            let profile = Profile::new(d, vec![0.0; points], vec![0.0; points], zone).expect("valid");
            for last in 1..points {
                let path = profile.path_to(last);
                let runs = runs_of(&path);
                let (ours, plain) = (runs.sea_and_land(path.length_km()), zones::sea_and_land(&path));
                prop_assert!((ours.sea_ratio - plain.sea_ratio).abs() < 1e-12);
                prop_assert!((ours.land_km - plain.land_km).abs() < 1e-12);
                prop_assert!((ours.inland_km - plain.inland_km).abs() < 1e-12);
                prop_assert_eq!(runs.coast(path.length_km()), zones::to_coast(&path));
            }
        }
    }
}
