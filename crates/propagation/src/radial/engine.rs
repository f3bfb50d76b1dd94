//! The fast walker: one pass outwards instead of reading the profile anew for every receiver.
//!
//! What it answers is [`plain`]'s answer, to within rounding. Each receiver is surveyed from running
//! sums and maxima, the hulls of the ground passed so far, and searches that look only where a bound leaves a chance; eight
//! receivers go through the closed form together. Nothing is approximated: see [`clearance`](super::clearance),
//! [`hull`](super::hull), [`smooth`](super::smooth) for why each shortcut is exact.

use super::block::{self, Numbers, Study};
use super::clearance::{self, Ray};
use super::ground::Ground;
use super::hull::Hull;
use super::outward::{Maxima, Runs};
use super::smooth::{SmoothPath, edge_nu_root_m};
use super::{Radial, RadialSetup, check_receivers, plain};
use crate::lane::wide::WIDTH;
use crate::p1812::bullington::{CLEAR_NU, crossing_nu_root_m};
use crate::p1812::effective_earth::RADIUS_BETA0_KM;
use crate::p1812::horizon::{above_line_m, nu_root_m, slope_m_per_km};
use crate::p1812::smooth_earth::{Fit, Obstruction, step_sums, surface_for_diffraction, surface_for_ducting};
use crate::p1812::spherical_earth::Surfaces;
use crate::p1812::tail::Geometry;
use crate::p1812::{FEWEST_POINTS, InputError, Path, SHORTEST_KM, Zone};
use std::ops::Range;

/// An edge parameter so far below [`CLEAR_NU`] that it stands for "clear at any frequency".
const CLEAR_NU_ROOT_M: f64 = -1e3;

/// Basic transmission loss in dB to each receiver of a radial, as [`plain::walk`] gives it.
///
/// # Errors
/// [`InputError`], as [`plain::walk`].
pub fn walk(
    radial: &Radial,
    setup: &RadialSetup,
    rx_agl_m: &[f64],
    receivers: Range<usize>,
) -> Result<Vec<f64>, InputError> {
    let mut losses_db = Vec::with_capacity(receivers.len());
    Walker::default().walk(radial, setup, rx_agl_m, receivers, &mut losses_db)?;
    Ok(losses_db)
}

/// The fast walker's workspace, kept from radial to radial so that nothing is allocated again.
#[derive(Debug, Clone, Default)]
pub struct Walker {
    ground: Ground,
    bare_hull: Hull,
    flat_hull: Hull,
    median_hull: Hull,
    beta0_hull: Hull,
    guess: Guesses,
}

/// Where the last searches ended; the next end near.
#[derive(Debug, Clone, Default)]
struct Guesses {
    median_least: usize,
    beta0_least: usize,
    horizon_least: usize,
    median_smooth_back: usize,
    beta0_smooth_back: usize,
}

/// What a receiver's survey leaves for later, in case it is needed.
#[derive(Debug, Clone, Copy, Default)]
struct Standing {
    n: usize,
    slot: usize,
    line_of_sight: bool,
    horizons: (usize, usize),
    ducting_surface_m: (f64, f64),
    slopes: (f64, f64),
}

/// Receivers waiting for the closed form.
struct Waiting {
    count: usize,
    geometry: Geometry<Numbers>,
    standing: [Standing; WIDTH],
    surfaces: Surfaces,
}

impl Walker {
    /// [`walk`] into a list that is cleared first.
    ///
    /// # Errors
    /// [`InputError`], as [`plain::walk`].
    pub fn walk(
        &mut self,
        radial: &Radial,
        setup: &RadialSetup,
        rx_agl_m: &[f64],
        receivers: Range<usize>,
        losses_db: &mut Vec<f64>,
    ) -> Result<(), InputError> {
        check_receivers(radial, rx_agl_m, &receivers)?;
        losses_db.clear();
        losses_db.resize(receivers.len(), 0.0);
        let both = setup.constants.conditions.time_pct < 50.0;
        self.ground.lay(radial, setup, both);
        for hull in [
            &mut self.bare_hull,
            &mut self.flat_hull,
            &mut self.median_hull,
            &mut self.beta0_hull,
        ] {
            hull.clear();
        }
        self.guess = Guesses::default();

        let path = radial.profile.path();
        let mut outward = Outward::new(&path);
        let mut waiting = Waiting::new();
        for (n, &rx_agl_m) in rx_agl_m.iter().enumerate().take(receivers.end).skip(1) {
            if n > 1 {
                self.pass(n - 1, &mut outward.maxima, both);
            }
            outward.step(&path, n);
            if n < receivers.start {
                continue;
            }
            let slot = n - receivers.start;
            if path.d_km[n] < SHORTEST_KM || n + 1 < FEWEST_POINTS {
                losses_db[slot] = plain::at(radial, setup, rx_agl_m, n)?.loss_db;
                continue;
            }
            let (geometry, standing) = self.survey(setup, &path, &outward, n, rx_agl_m, both);
            waiting.put(&geometry, Standing { slot, ..standing });
            if waiting.count == WIDTH {
                self.finish(radial, setup, &mut waiting, losses_db);
            }
        }
        self.finish(radial, setup, &mut waiting, losses_db);
        Ok(())
    }

    /// Takes a point that lies behind the next receiver into the maxima and hulls.
    #[inline(always)]
    fn pass(&mut self, i: usize, maxima: &mut Maxima, both: bool) {
        let ground = &self.ground;
        let d = ground.d_km[i];
        let flat = ground.flat_slope[i];
        let horizon = flat - ground.bare.bulge * d;
        if horizon > maxima.horizon.0 {
            maxima.horizon = (horizon, i);
        }
        maxima.flat = maxima.flat.max(flat);
        self.bare_hull.push(d, ground.bare.y_m[i], i);
        self.flat_hull.push(d, ground.h_m[i], i);
        let flat_g = if ground.cluttered {
            ground.flat_slope_g[i]
        } else {
            flat
        };
        if ground.cluttered {
            maxima.median = maxima.median.max(flat_g - ground.median.bulge * d);
            self.median_hull.push(d, ground.median.y_m[i], i);
        } else {
            maxima.median = maxima.horizon.0;
        }
        if both {
            maxima.beta0 = maxima.beta0.max(flat_g - ground.beta0.bulge * d);
            self.beta0_hull.push(d, ground.beta0.y_m[i], i);
        }
    }

    /// Surveys the receiver over point `n`; what only ducting or the smooth edge wants is left for [`Walker::finish`].
    #[inline(always)]
    fn survey(
        &mut self,
        setup: &RadialSetup,
        path: &Path<'_>,
        outward: &Outward,
        n: usize,
        rx_agl_m: f64,
        both: bool,
    ) -> (Geometry<f64>, Standing) {
        let k = &setup.constants;
        let (d, h) = (path.d_km[n], path.h_m[n]);
        let ends_m = (path.h_m[0], h);
        let antennas = (path.h_m[0] + setup.tx_agl_m, h + rx_agl_m);
        let fit = Fit::from_sums(outward.v1, outward.v2, d);
        let obstruction = self.obstruction(&outward.maxima, antennas, d);
        let smooth = surface_for_diffraction(&fit, &obstruction, ends_m);
        let ducting = surface_for_ducting(&fit, ends_m);
        let sight = self.sight(&outward.maxima, antennas, n, d, k.ae_km);
        let median = self.median_edge(&outward.maxima, antennas, n, d, k.ae_km, k.lambda_m);
        let beta0 = if both {
            self.beta0_edge(&outward.maxima, antennas, n, d, k.lambda_m)
        } else {
            median
        };
        let zones = outward.runs.sea_and_land(d);
        let coast = outward.runs.coast(d);
        let at_sea = path.zone[n] == Zone::Sea;
        let geometry = Geometry {
            path_km: d,
            antennas_m: antennas,
            smooth_m: (antennas.0 - smooth.tx_m, antennas.1 - smooth.rx_m),
            effective_m: (antennas.0 - ducting.tx_m, antennas.1 - ducting.rx_m),
            theta_t_r_mrad: (0.0, 0.0),
            theta_mrad: 0.0,
            horizon_km: sight.horizon_km,
            roughness_m: 0.0,
            median_nu_root_m: (median, CLEAR_NU_ROOT_M),
            beta0_nu_root_m: (beta0, CLEAR_NU_ROOT_M),
            sea_ratio: zones.sea_ratio,
            land_km: zones.land_km,
            inland_km: zones.inland_km,
            coast_km: (coast.tx_km, coast.rx_km),
            location_db: if at_sea { 0.0 } else { k.location_db },
        };
        let standing = Standing {
            n,
            slot: 0,
            line_of_sight: sight.line_of_sight,
            horizons: sight.horizons,
            ducting_surface_m: (ducting.tx_m, ducting.rx_m),
            slopes: sight.slopes,
        };
        (geometry, standing)
    }

    /// Obstruction heights; only the sign of `hobs` is looked for where nothing obstructs.
    #[inline(always)]
    fn obstruction(&mut self, maxima: &Maxima, antennas: (f64, f64), d: f64) -> Obstruction {
        let (hts, hrs) = antennas;
        let rise = (hrs - hts) / d;
        let alpha_obt = maxima.flat - rise;
        if alpha_obt <= 0.0 {
            return Obstruction {
                hobs_m: 0.0,
                alpha_obt,
                alpha_obr: 0.0,
            };
        }
        let above = |i: usize| {
            let di = self.ground.d_km[i];
            (self.ground.h_m[i] - (hts * (d - di) + hrs * di) / d, d - di)
        };
        let hobs_m = above(self.flat_hull.highest_along(rise)).0;
        let (most, rest_km) = above(self.flat_hull.steepest_from(d, hrs));
        Obstruction {
            hobs_m,
            alpha_obt,
            alpha_obr: most / rest_km,
        }
    }

    /// Path type, horizon slopes and, beyond the horizon, where the horizons are.
    #[inline(always)]
    fn sight(&mut self, maxima: &Maxima, antennas: (f64, f64), n: usize, d: f64, ae_km: f64) -> Sight {
        let (hts, hrs) = antennas;
        let ground = &self.ground;
        let to_receiver = slope_m_per_km(hts, hrs, d, ae_km);
        let (steepest, lt) = maxima.horizon;
        if steepest <= to_receiver {
            return Sight {
                line_of_sight: true,
                slopes: (to_receiver, slope_m_per_km(hrs, hts, d, ae_km)),
                horizons: (n - 1, n - 1),
                // Only the sum counts until ducting does; then the horizon is looked for.
                horizon_km: (d, 0.0),
            };
        }
        let lr = self.bare_hull.steepest_from(d, hrs - ground.bare.bulge * d * d);
        let back_km = d - ground.d_km[lr];
        Sight {
            line_of_sight: false,
            slopes: (steepest, slope_m_per_km(hrs, ground.h_m[lr], back_km, ae_km)),
            horizons: (lt, lr),
            horizon_km: (ground.d_km[lt], back_km),
        }
    }

    /// `ν √λ` of ground and clutter over the median Earth.
    #[inline(always)]
    fn median_edge(
        &mut self,
        maxima: &Maxima,
        antennas: (f64, f64),
        n: usize,
        d: f64,
        ae_km: f64,
        lambda_m: f64,
    ) -> f64 {
        let hull = if self.ground.cluttered {
            &mut self.median_hull
        } else {
            &mut self.bare_hull
        };
        let at = Receiver {
            n,
            path_km: d,
            antennas_m: antennas,
            ap_km: ae_km,
            lambda_m,
        };
        let lay = self.ground.obstacles();
        edge(
            &self.ground,
            lay,
            hull,
            maxima.median,
            &at,
            &mut self.guess.median_least,
        )
    }

    /// `ν √λ` of ground and clutter over the Earth of β0 %.
    #[inline(always)]
    fn beta0_edge(&mut self, maxima: &Maxima, antennas: (f64, f64), n: usize, d: f64, lambda_m: f64) -> f64 {
        let at = Receiver {
            n,
            path_km: d,
            antennas_m: antennas,
            ap_km: RADIUS_BETA0_KM,
            lambda_m,
        };
        let (ground, hull) = (&self.ground, &mut self.beta0_hull);
        edge(
            ground,
            &ground.beta0,
            hull,
            maxima.beta0,
            &at,
            &mut self.guess.beta0_least,
        )
    }

    /// Sends the waiting receivers through the closed form.
    fn finish(&mut self, radial: &Radial, setup: &RadialSetup, waiting: &mut Waiting, losses_db: &mut [f64]) {
        if waiting.count == 0 {
            return;
        }
        waiting.fill_up();
        block::fill_angles(setup.constants.ae_km, &waiting.slopes(), &mut waiting.geometry);
        let study = Study {
            constants: &setup.constants,
            bearing: &radial.bearing,
            surfaces: waiting.surfaces,
            both: setup.constants.conditions.time_pct < 50.0,
        };
        let ldsph_db = block::spherical_db(&study, &waiting.geometry);
        for lane in 0..waiting.count {
            self.smooth_edges(setup, waiting, lane, (ldsph_db.0[lane], ldsph_db.1[lane]));
        }
        let (mut answer_db, doubt) = block::unducted_db(&study, &waiting.geometry, &ldsph_db);
        if doubt[..waiting.count].iter().any(|&d| d) {
            let doubtful = (0..waiting.count).filter(|&lane| doubt[lane]);
            doubtful
                .clone()
                .for_each(|lane| self.ducting_geometry(waiting, lane));
            let complete_db = block::complete_db(&study, &waiting.geometry);
            doubtful.for_each(|lane| answer_db[lane] = complete_db[lane]);
        }
        for lane in 0..waiting.count {
            losses_db[waiting.standing[lane].slot] = answer_db[lane];
        }
        waiting.clear();
    }

    /// Edges over the smooth path, where the smooth Earth loses anything.
    #[inline(always)]
    fn smooth_edges(
        &mut self,
        setup: &RadialSetup,
        waiting: &mut Waiting,
        lane: usize,
        ldsph_db: (f64, f64),
    ) {
        let g = &mut waiting.geometry;
        let d_km = &self.ground.d_km[..=waiting.standing[lane].n];
        let antennas_m = (g.smooth_m.0[lane], g.smooth_m.1[lane]);
        if ldsph_db.0 > 0.0 {
            let path = SmoothPath {
                d_km,
                antennas_m,
                ap_km: setup.constants.ae_km,
            };
            g.median_nu_root_m.1[lane] = edge_nu_root_m(&path, &mut self.guess.median_smooth_back);
        }
        if ldsph_db.1 > 0.0 {
            let path = SmoothPath {
                d_km,
                antennas_m,
                ap_km: RADIUS_BETA0_KM,
            };
            g.beta0_nu_root_m.1[lane] = edge_nu_root_m(&path, &mut self.guess.beta0_smooth_back);
        }
    }

    /// What only ducting wants: the horizon in a line of sight, and the roughness between the horizons.
    fn ducting_geometry(&mut self, waiting: &mut Waiting, lane: usize) {
        let g = &mut waiting.geometry;
        let standing = &waiting.standing[lane];
        let ground = &self.ground;
        let (d, antennas) = (g.path_km[lane], (g.antennas_m.0[lane], g.antennas_m.1[lane]));
        let mut horizons = standing.horizons;
        if standing.line_of_sight {
            let ray = Ray::new(standing.n, d, antennas.0, antennas.1, ground.bare.bulge);
            let at = clearance::least(
                ground,
                &ground.bare,
                &ray,
                f64::INFINITY,
                self.guess.horizon_least,
            )
            .index;
            self.guess.horizon_least = at;
            horizons = (at, at);
            g.horizon_km.0[lane] = ground.d_km[at];
            g.horizon_km.1[lane] = d - ground.d_km[at];
        }
        let (tx_m, rx_m) = standing.ducting_surface_m;
        g.roughness_m[lane] =
            clearance::roughness_m(ground, (tx_m, (rx_m - tx_m) / d), horizons.0, horizons.1, 0.0);
    }
}

/// A receiver and the Earth over which its edge is sought.
struct Receiver {
    n: usize,
    path_km: f64,
    antennas_m: (f64, f64),
    ap_km: f64,
    lambda_m: f64,
}

/// `ν √λ` of the edge equivalent to ground and clutter; [`CLEAR_NU_ROOT_M`] where it costs nothing.
#[inline(always)]
fn edge(
    ground: &Ground,
    lay: &super::ground::Flattened,
    hull: &mut Hull,
    steepest: f64,
    at: &Receiver,
    guess: &mut usize,
) -> f64 {
    let (ht, hr) = at.antennas_m;
    let d = at.path_km;
    let stim = steepest + lay.bulge * d;
    if stim < (hr - ht) / d {
        let ray = Ray::new(at.n, d, ht, hr, lay.bulge);
        let clear = CLEAR_NU * CLEAR_NU * at.lambda_m / (0.002 * d) * (1.0 + 1e-9);
        let found = clearance::least(ground, lay, &ray, clear, *guess);
        if found.index == 0 {
            return CLEAR_NU_ROOT_M;
        }
        *guess = found.index;
        let (di, gi) = (ground.d_km[found.index], ground.g_m[found.index]);
        return nu_root_m(above_line_m(gi, di, d, at.antennas_m, at.ap_km), di, d);
    }
    let i = hull.steepest_from(d, hr - lay.bulge * d * d);
    let di = ground.d_km[i];
    let srim = (ground.g_m[i] + 500.0 * di * (d - di) / at.ap_km - hr) / (d - di);
    crossing_nu_root_m(d, at.antennas_m, stim, srim)
}

/// What a receiver sees of the transmitter.
struct Sight {
    line_of_sight: bool,
    slopes: (f64, f64),
    horizons: (usize, usize),
    horizon_km: (f64, f64),
}

/// What has been gathered on the way out.
struct Outward {
    v1: f64,
    v2: f64,
    runs: Runs,
    maxima: Maxima,
}

impl Outward {
    fn new(path: &Path<'_>) -> Outward {
        Outward {
            v1: 0.0,
            v2: 0.0,
            runs: Runs::new(path.zone[0]),
            maxima: Maxima::default(),
        }
    }

    /// Goes on to point `n`.
    #[inline(always)]
    fn step(&mut self, path: &Path<'_>, n: usize) {
        let (d, h) = (path.d_km, path.h_m);
        let (a, b) = step_sums((d[n - 1], h[n - 1]), (d[n], h[n]));
        self.v1 += a;
        self.v2 += b;
        self.runs.step(path.zone[n], d[n - 1], d[n]);
    }
}

impl Waiting {
    fn new() -> Waiting {
        Waiting {
            count: 0,
            geometry: Geometry::filled([0.0; WIDTH]),
            standing: [Standing::default(); WIDTH],
            surfaces: Surfaces {
                land: false,
                sea: false,
            },
        }
    }

    #[inline(always)]
    fn put(&mut self, geometry: &Geometry<f64>, standing: Standing) {
        let lane = self.count;
        self.geometry.zip(geometry, |all, x| all[lane] = x);
        self.standing[lane] = standing;
        self.surfaces.sea |= geometry.sea_ratio > 0.0;
        self.surfaces.land |= geometry.sea_ratio < 1.0;
        self.count += 1;
    }

    /// Lanes without a receiver take the last one's numbers, which do no harm.
    fn fill_up(&mut self) {
        let last = self.count - 1;
        for lane in self.count..WIDTH {
            let one = self.geometry.map(|all| all[last]);
            self.geometry.zip(&one, |all, x| all[lane] = x);
        }
    }

    /// Horizon slopes of all lanes.
    fn slopes(&self) -> (Numbers, Numbers) {
        (
            self.standing.map(|s| s.slopes.0),
            self.standing.map(|s| s.slopes.1),
        )
    }

    fn clear(&mut self) {
        self.count = 0;
        self.surfaces = Surfaces {
            land: false,
            sea: false,
        };
    }
}
