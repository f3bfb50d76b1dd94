//! What the walk finds for eight receivers, and its arithmetic: from sums, tops and tangents to the geometry of a path.

use crate::lane::{Numbers, Vector, WIDTH, widest};
use crate::p1812::bullington::crossing_nu_root_m;
use crate::p1812::effective_earth::RADIUS_BETA0_KM;
use crate::p1812::horizon::{above_line_m, angular_distance_mrad, elevation_mrad, nu_root_m};
use crate::p1812::smooth_earth::{Fit, Obstruction, surface_for_diffraction, surface_for_ducting};
use crate::p1812::tail::Geometry;

/// The equivalent edge of ground and clutter, as found.
#[derive(Debug, Clone, Copy)]
pub enum Edge {
    /// Clear of everything by so much that it costs nothing at any frequency asked for.
    Clear,
    /// A line of sight: height above sea level and distance of the point with the greatest `ν`.
    Sight {
        /// Height, m.
        height_m: f64,
        /// Distance from the transmitter, km.
        d_km: f64,
    },
    /// Beyond the horizon: the steepest slope from the transmitter, and the receiver's as rise over distance.
    Beyond {
        /// Steepest slope from the transmitter, m/km.
        stim: f64,
        /// Rise from the receiver to its tangent point over the curved Earth, m.
        rise_m: f64,
        /// Distance of the tangent point from the receiver, km.
        back_km: f64,
    },
}

/// Edges of eight receivers: a kind (1 for a line of sight) and three numbers each.
#[derive(Debug, Clone, Copy)]
pub struct Edges {
    sight: Numbers,
    first: Numbers,
    second: Numbers,
    third: Numbers,
}

/// What the walk found for one receiver.
#[derive(Debug, Clone, Copy)]
pub struct One {
    /// Length, km.
    pub path_km: f64,
    /// Ground under the receiver, m.
    pub ground_m: f64,
    /// Receiving antenna above sea level, m.
    pub hrs_m: f64,
    /// Sums of the smooth-Earth fit.
    pub sums: (f64, f64),
    /// Obstruction heights; `hobs` 0 where nothing obstructs.
    pub obstruction: Obstruction,
    /// Slope to the transmitter's horizon, m/km.
    pub slope_t: f64,
    /// Rise from the receiver to its horizon, m, and the distance to it, km.
    pub back: (f64, f64),
    /// Horizon distances, km.
    pub horizon_km: (f64, f64),
    /// Edge over the median Earth.
    pub median: Edge,
    /// Edge over the Earth of β0 %.
    pub beta0: Edge,
}

/// What the walk found for eight receivers side by side.
#[derive(Debug, Clone, Copy)]
pub struct Found {
    /// Lengths, km.
    pub path_km: Numbers,
    ground_m: Numbers,
    hrs_m: Numbers,
    sums: (Numbers, Numbers),
    obstruction: (Numbers, Numbers, Numbers),
    slope_t: Numbers,
    back: (Numbers, Numbers),
    horizon_km: (Numbers, Numbers),
    median: Edges,
    beta0: Edges,
}

const NONE: Numbers = [0.0; WIDTH];
const NO_EDGES: Edges = Edges {
    sight: NONE,
    first: NONE,
    second: NONE,
    third: NONE,
};

impl Default for Found {
    fn default() -> Found {
        Found {
            path_km: NONE,
            ground_m: NONE,
            hrs_m: NONE,
            sums: (NONE, NONE),
            obstruction: (NONE, NONE, NONE),
            slope_t: NONE,
            back: (NONE, NONE),
            horizon_km: (NONE, NONE),
            median: NO_EDGES,
            beta0: NO_EDGES,
        }
    }
}

impl Default for Edges {
    fn default() -> Edges {
        NO_EDGES
    }
}

impl Edges {
    /// Puts the edge of a path of this length into one lane.
    #[inline(always)]
    pub fn put(&mut self, lane: usize, edge: &Edge, path_km: f64) {
        let (sight, first, second, third) = match *edge {
            // A thousand kilometres under the ray: the loss is none at any frequency.
            Edge::Clear => (1.0, -1e6, 0.5 * path_km, 1.0),
            Edge::Sight { height_m, d_km } => (1.0, height_m, d_km, 1.0),
            Edge::Beyond {
                stim,
                rise_m,
                back_km,
            } => (0.0, stim, rise_m, back_km),
        };
        self.sight[lane] = sight;
        self.first[lane] = first;
        self.second[lane] = second;
        self.third[lane] = third;
    }

    #[inline(always)]
    fn nu_root_m<V: Vector>(&self, path_km: V, antennas_m: (V, V), ap_km: f64) -> V {
        let (first, second) = (V::load(&self.first), V::load(&self.second));
        let above = above_line_m(first, second, path_km, antennas_m, ap_km);
        let in_sight = nu_root_m(above, second, path_km);
        let beyond = crossing_nu_root_m(path_km, antennas_m, first, second / V::load(&self.third));
        V::select(V::splat(0.5).lt(V::load(&self.sight)), in_sight, beyond)
    }
}

impl Found {
    /// Puts a receiver into one lane.
    #[inline(always)]
    pub fn put(&mut self, lane: usize, one: &One) {
        self.path_km[lane] = one.path_km;
        self.ground_m[lane] = one.ground_m;
        self.hrs_m[lane] = one.hrs_m;
        self.sums.0[lane] = one.sums.0;
        self.sums.1[lane] = one.sums.1;
        self.obstruction.0[lane] = one.obstruction.hobs_m;
        self.obstruction.1[lane] = one.obstruction.alpha_obt;
        self.obstruction.2[lane] = one.obstruction.alpha_obr;
        self.slope_t[lane] = one.slope_t;
        self.back.0[lane] = one.back.0;
        self.back.1[lane] = one.back.1;
        self.horizon_km.0[lane] = one.horizon_km.0;
        self.horizon_km.1[lane] = one.horizon_km.1;
        self.median.put(lane, &one.median, one.path_km);
        self.beta0.put(lane, &one.beta0, one.path_km);
    }
}

/// The transmitting end, the same for all receivers.
#[derive(Debug, Clone, Copy)]
pub struct TxEnd {
    /// Ground, m above sea level.
    pub ground_m: f64,
    /// Antenna, m above sea level.
    pub hts_m: f64,
    /// Median effective radius, km.
    pub ae_km: f64,
    /// Whether the Earth of β0 % counts.
    pub both: bool,
}

widest! {
    /// `ν √λ` of eight edges, given their paths' lengths and the heights of the antennas.
    pub fn edges_nu_root_m(
        edges: &Edges,
        path_km: &Numbers,
        antennas_m: &(Numbers, Numbers),
        ap_km: f64,
    ) -> Numbers = edges_lanes;

    /// Works out the geometry of eight receivers; zones, coast, smooth edges and roughness are left as they are.
    pub fn shape(tx: &TxEnd, found: &Found, geometry: &mut Geometry<Numbers>) -> () = shape_lanes;
}

#[inline(always)]
fn edges_lanes<V: Vector>(
    edges: &Edges,
    path_km: &Numbers,
    antennas_m: &(Numbers, Numbers),
    ap_km: f64,
) -> Numbers {
    let antennas_m = (V::load(&antennas_m.0), V::load(&antennas_m.1));
    edges.nu_root_m(V::load(path_km), antennas_m, ap_km).store()
}

#[inline(always)]
fn shape_lanes<V: Vector>(tx: &TxEnd, found: &Found, geometry: &mut Geometry<Numbers>) {
    let path_km = V::load(&found.path_km);
    let (hts_m, hrs_m) = (V::splat(tx.hts_m), V::load(&found.hrs_m));
    let ends_m = (V::splat(tx.ground_m), V::load(&found.ground_m));
    let fit = Fit::from_sums(V::load(&found.sums.0), V::load(&found.sums.1), path_km);
    let obstruction = Obstruction {
        hobs_m: V::load(&found.obstruction.0),
        alpha_obt: V::load(&found.obstruction.1),
        alpha_obr: V::load(&found.obstruction.2),
    };
    let smooth = surface_for_diffraction(&fit, &obstruction, ends_m);
    let ducting = surface_for_ducting(&fit, ends_m);
    let back_km = V::load(&found.back.1);
    let slope_r = V::load(&found.back.0) / back_km - V::splat(500.0 / tx.ae_km) * back_km;
    let theta_t = elevation_mrad(V::load(&found.slope_t));
    let theta_r = elevation_mrad(slope_r);

    geometry.path_km = found.path_km;
    geometry.antennas_m = (hts_m.store(), found.hrs_m);
    geometry.smooth_m = ((hts_m - smooth.tx_m).store(), (hrs_m - smooth.rx_m).store());
    geometry.effective_m = ((hts_m - ducting.tx_m).store(), (hrs_m - ducting.rx_m).store());
    geometry.theta_t_r_mrad = (theta_t.store(), theta_r.store());
    geometry.theta_mrad = angular_distance_mrad(path_km, tx.ae_km, theta_t, theta_r).store();
    geometry.horizon_km = found.horizon_km;
    geometry.median_nu_root_m.0 = found.median.nu_root_m(path_km, (hts_m, hrs_m), tx.ae_km).store();
    if tx.both {
        geometry.beta0_nu_root_m.0 = found
            .beta0
            .nu_root_m(path_km, (hts_m, hrs_m), RADIUS_BETA0_KM)
            .store();
    }
}
