//! A radial laid out for the walker: flattened heights, slopes from the transmitter, and lids over blocks of points.

use super::{Radial, RadialSetup};
use crate::p1812::effective_earth::RADIUS_BETA0_KM;

/// Points under one lid.
pub const BLOCK: usize = 16;

/// Blocks whose lids are looked at together; lists of blocks are padded to whole groups.
pub const GROUP: usize = 8;

/// Heights above a flat Earth that bends like the ray, and a straight lid over every block of points.
///
/// Block `b` holds the points `1 + 16 b` to `16 + 16 b`. No point of a block stands above the straight line from its `lid_first`
/// at its first point to its `lid_last` at its last.
#[derive(Debug, Clone, Default)]
pub struct Flattened {
    /// `500 / ap`, m/km².
    pub bulge: f64,
    /// Height less the curvature, m, one for each point.
    pub y_m: Vec<f64>,
    /// Lid at a block's first point, m.
    pub lid_first_m: Vec<f64>,
    /// Lid at a block's last point, m.
    pub lid_last_m: Vec<f64>,
}

/// A radial laid out for one transmitting antenna.
#[derive(Debug, Clone, Default)]
pub struct Ground {
    /// Distances, km.
    pub d_km: Vec<f64>,
    /// Distance of each block's first point, km.
    pub first_km: Vec<f64>,
    /// Distance of each block's last point, km.
    pub last_km: Vec<f64>,
    /// Samples per kilometre, on the whole.
    pub per_km: f64,
    /// Bare ground, m.
    pub h_m: Vec<f64>,
    /// Ground and clutter, m.
    pub g_m: Vec<f64>,
    /// Whether clutter stands anywhere.
    pub cluttered: bool,
    /// Bare ground flattened for the median Earth.
    pub bare: Flattened,
    /// Ground and clutter flattened for the median Earth; not filled without clutter.
    pub median: Flattened,
    /// Ground and clutter flattened for the Earth of β0 %; filled on demand.
    pub beta0: Flattened,
    /// Slopes from the transmitting antenna to bare ground, no curvature, m/km.
    pub flat_slope: Vec<f64>,
    /// The same to ground and clutter.
    pub flat_slope_g: Vec<f64>,
}

impl Ground {
    /// Lays out a radial; `both` also for the Earth of β0 %.
    pub fn lay(&mut self, radial: &Radial, setup: &RadialSetup, both: bool) {
        let path = radial.profile.path();
        let points = path.d_km.len();
        self.cluttered = path.clutter_m.iter().any(|&r| r > 0.0);
        fill(&mut self.d_km, path.d_km);
        self.per_km = (points - 1) as f64 / path.length_km();
        fill(&mut self.h_m, path.h_m);
        self.g_m.clear();
        self.g_m
            .extend(path.h_m.iter().zip(path.clutter_m).map(|(h, r)| h + r));
        let blocks = (points - 1) / BLOCK;
        self.first_km.clear();
        self.first_km
            .extend((0..blocks).map(|b| path.d_km[1 + b * BLOCK]));
        self.last_km.clear();
        self.last_km
            .extend((0..blocks).map(|b| path.d_km[BLOCK + b * BLOCK]));
        pad(&mut self.first_km);
        pad(&mut self.last_km);

        let hts_m = path.h_m[0] + setup.tx_agl_m;
        slopes(&mut self.flat_slope, &self.d_km, &self.h_m, hts_m);
        let median = 500.0 / setup.constants.ae_km;
        self.bare.flatten(&self.d_km, &self.h_m, median);
        if self.cluttered {
            slopes(&mut self.flat_slope_g, &self.d_km, &self.g_m, hts_m);
            self.median.flatten(&self.d_km, &self.g_m, median);
        }
        if both {
            self.beta0.flatten(&self.d_km, &self.g_m, 500.0 / RADIUS_BETA0_KM);
        }
    }

    /// Ground and clutter over the median Earth.
    #[inline(always)]
    pub fn obstacles(&self) -> &Flattened {
        if self.cluttered { &self.median } else { &self.bare }
    }
}

impl Flattened {
    fn flatten(&mut self, d_km: &[f64], height_m: &[f64], bulge: f64) {
        self.bulge = bulge;
        self.y_m.clear();
        self.y_m
            .extend(d_km.iter().zip(height_m).map(|(d, q)| q - bulge * d * d));
        self.lid_first_m.clear();
        self.lid_last_m.clear();
        for (d, y) in d_km[1..]
            .as_chunks::<BLOCK>()
            .0
            .iter()
            .zip(self.y_m[1..].as_chunks::<BLOCK>().0)
        {
            let slope = (y[BLOCK - 1] - y[0]) / (d[BLOCK - 1] - d[0]);
            let mut above = [0.0; BLOCK];
            for i in 0..BLOCK {
                above[i] = y[i] - (y[0] + slope * (d[i] - d[0]));
            }
            // A hair of room keeps rounding from putting a point through the lid.
            let most = above.iter().fold(0.0_f64, |m, &a| if a > m { a } else { m }) + 1e-9;
            self.lid_first_m.push(y[0] + most);
            self.lid_last_m.push(y[BLOCK - 1] + most);
        }
        pad(&mut self.lid_first_m);
        pad(&mut self.lid_last_m);
    }
}

/// Fills up to a whole number of [`GROUP`]s of blocks.
fn pad(list: &mut Vec<f64>) {
    list.resize(list.len().next_multiple_of(GROUP), 0.0);
}

fn fill(to: &mut Vec<f64>, from: &[f64]) {
    to.clear();
    to.extend_from_slice(from);
}

/// `(height − hts) / d` for every point but the first, whose slope is of no use.
fn slopes(to: &mut Vec<f64>, d_km: &[f64], height_m: &[f64], hts_m: f64) {
    to.clear();
    to.extend(d_km.iter().zip(height_m).map(|(d, q)| (q - hts_m) / d));
    to[0] = f64::NEG_INFINITY;
}
