//! Receivers that wait until eight go through the closed form together.

use super::found::{Edge, Edges, Found, One};
use super::outward::Runs;
use crate::lane::{Numbers, WIDTH};
use crate::p1812::spherical_earth::Surfaces;
use crate::p1812::tail::Geometry;

/// Receivers waiting for the closed form.
#[derive(Debug, Clone)]
pub struct Waiting {
    /// Receivers that wait.
    pub count: usize,
    /// What the walk found of them.
    pub found: Found,
    /// Their geometry.
    pub geometry: Geometry<Numbers>,
    /// Their edges over the smooth path, for the two radii.
    pub smooth: (Edges, Edges),
    /// What stays to be asked.
    pub standing: [Standing; WIDTH],
    /// Surfaces their paths meet.
    pub surfaces: Surfaces,
}

/// What stays to be asked about a receiver after its survey.
#[derive(Debug, Clone, Copy, Default)]
pub struct Standing {
    /// Profile index of the receiver's point.
    pub n: usize,
    /// Its place in the list of losses.
    pub slot: usize,
    /// Path type.
    pub line_of_sight: bool,
    /// Profile indices of the horizons, where they are known.
    pub horizons: (usize, usize),
    /// Whether the point is sea.
    pub at_sea: bool,
    /// Whether the smooth edge over the median Earth is known.
    pub median_smooth: bool,
    /// Whether that over the Earth of β0 % is.
    pub beta0_smooth: bool,
    /// Whether horizons in sight and roughness are known.
    pub ducting: bool,
}

impl Default for Waiting {
    fn default() -> Waiting {
        Waiting {
            count: 0,
            found: Found::default(),
            geometry: Geometry::filled([0.0; WIDTH]),
            smooth: (Edges::default(), Edges::default()),
            standing: [Standing::default(); WIDTH],
            surfaces: Surfaces {
                land: false,
                sea: false,
            },
        }
    }
}

impl Waiting {
    /// Lets one more receiver wait.
    #[inline(always)]
    pub fn put(&mut self, one: &One, standing: Standing, runs: &Runs) {
        let lane = self.count;
        self.found.put(lane, one);
        self.standing[lane] = standing;
        let (zones, coast) = (runs.sea_and_land(one.path_km), runs.coast(one.path_km));
        let g = &mut self.geometry;
        g.sea_ratio[lane] = zones.sea_ratio;
        g.land_km[lane] = zones.land_km;
        g.inland_km[lane] = zones.inland_km;
        g.coast_km.0[lane] = coast.tx_km;
        g.coast_km.1[lane] = coast.rx_km;
        g.roughness_m[lane] = 0.0;
        g.median_nu_root_m.1[lane] = CLEAR_NU_ROOT_M;
        g.beta0_nu_root_m.1[lane] = CLEAR_NU_ROOT_M;
        self.smooth.0.put(lane, &Edge::Clear, one.path_km);
        self.smooth.1.put(lane, &Edge::Clear, one.path_km);
        self.surfaces.sea |= zones.sea_ratio > 0.0;
        self.surfaces.land |= zones.sea_ratio < 1.0;
        self.count += 1;
    }

    /// Loss for the location percentage, at each receiver on land.
    #[inline(always)]
    pub fn place(&mut self, location_db: f64) {
        for (loss_db, standing) in self.geometry.location_db.iter_mut().zip(&self.standing) {
            *loss_db = if standing.at_sea { 0.0 } else { location_db };
        }
    }

    /// Lanes without a receiver keep what an earlier block of the radial left there: numbers that do no harm.
    pub fn fill_up(&mut self) {
        for lane in self.count..WIDTH {
            if self.found.path_km[lane] == 0.0 {
                self.found.path_km[lane] = self.found.path_km[0];
            }
        }
    }

    /// Lets all of them go.
    pub fn clear(&mut self) {
        self.count = 0;
        self.surfaces = Surfaces {
            land: false,
            sea: false,
        };
    }
}

/// An edge parameter so far below that of a clear path that it costs nothing at any frequency.
const CLEAR_NU_ROOT_M: f64 = -1e3;
