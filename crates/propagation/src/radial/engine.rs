//! The fast walker: one pass outwards instead of reading the profile anew for every receiver.
//!
//! What it answers is [`plain`]'s answer, to within rounding. Each receiver is surveyed from running
//! sums and maxima, the hulls of the ground passed so far, and searches that look only where a bound leaves a chance; eight
//! receivers go through the closed form together. Nothing is approximated: `hull`, `clearance` and `smooth` say why each
//! shortcut is exact.
//!
//! What is found on the way does not depend on frequency, polarisation or percentages, so [`Walker::walk_each`] shares it among
//! any number of them.

use super::block::{self, Study};
use super::clearance::{self, Ray, Ties};
use super::found::{self, Edge, One, TxEnd};
use super::ground::{Flattened, Ground};
use super::hull::Hull;
use super::outward::{Maxima, Runs};
use super::smooth::{self, SmoothPath};
use super::waiting::{Standing, Waiting};
use super::{Radial, RadialSetup, check_receivers, plain};
use crate::lane::{Numbers, WIDTH};
use crate::p1812::bullington::CLEAR_NU;
use crate::p1812::effective_earth::RADIUS_BETA0_KM;
use crate::p1812::smooth_earth::{Obstruction, step_sums};
use crate::p1812::{FEWEST_POINTS, InputError, Path, SHORTEST_KM, Zone};
use std::ops::Range;

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
    waiting: Waiting,
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

/// What a walk is asked for.
struct Asked<'a> {
    radial: &'a Radial,
    setups: &'a [RadialSetup],
    tx: TxEnd,
    longest_wave_m: f64,
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
        let setups = std::slice::from_ref(setup);
        self.walk_each(
            radial,
            setups,
            rx_agl_m,
            receivers,
            std::slice::from_mut(losses_db),
        )
    }

    /// One walk for many frequencies, polarisations and percentages: one list of losses for each setup.
    ///
    /// # Errors
    /// [`InputError::Setups`] unless there is a list for each setup and all have the same antenna height and lapse rate; else
    /// as [`plain::walk`].
    pub fn walk_each(
        &mut self,
        radial: &Radial,
        setups: &[RadialSetup],
        rx_agl_m: &[f64],
        receivers: Range<usize>,
        losses_db: &mut [Vec<f64>],
    ) -> Result<(), InputError> {
        check_receivers(radial, rx_agl_m, &receivers)?;
        let asked = Asked::new(radial, setups, losses_db.len())?;
        for list in losses_db.iter_mut() {
            list.clear();
            list.resize(receivers.len(), 0.0);
        }
        self.begin(&asked);
        let path = radial.profile.path();
        let mut outward = Outward::new(&path);
        for (n, &rx_agl_m) in rx_agl_m.iter().enumerate().take(receivers.end).skip(1) {
            if n > 1 {
                self.pass(n - 1, &mut outward.maxima, asked.tx.both);
            }
            outward.step(&path, n);
            if n < receivers.start {
                continue;
            }
            let slot = n - receivers.start;
            if path.d_km[n] < SHORTEST_KM || n + 1 < FEWEST_POINTS {
                for (setup, list) in setups.iter().zip(losses_db.iter_mut()) {
                    list[slot] = plain::at(radial, setup, rx_agl_m, n)?.loss_db;
                }
                continue;
            }
            let standing = Standing {
                n,
                slot,
                at_sea: path.zone[n] == Zone::Sea,
                ..Standing::default()
            };
            self.survey(&asked, &path, &outward, standing, rx_agl_m);
            if self.waiting.count == WIDTH {
                self.finish(&asked, losses_db);
            }
        }
        self.finish(&asked, losses_db);
        Ok(())
    }

    fn begin(&mut self, asked: &Asked<'_>) {
        self.ground.lay(asked.radial, &asked.setups[0], asked.tx.both);
        for hull in [
            &mut self.bare_hull,
            &mut self.flat_hull,
            &mut self.median_hull,
            &mut self.beta0_hull,
        ] {
            hull.clear();
        }
        self.guess = Guesses::default();
        // Nothing of another radial may be left in the lanes: answers must not depend on the order of radials.
        self.waiting = Waiting::default();
    }

    /// Takes a point that lies behind the next receiver into the maxima.
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
        let flat_g = if ground.cluttered {
            ground.flat_slope_g[i]
        } else {
            flat
        };
        maxima.median = maxima.median.max(flat_g - ground.bare.bulge * d);
        if both {
            maxima.beta0 = maxima.beta0.max(flat_g - ground.beta0.bulge * d);
        }
    }

    /// Surveys a receiver and lets it wait; what only ducting or the smooth edge wants is left for [`Walker::finish`].
    #[inline(always)]
    fn survey(
        &mut self,
        asked: &Asked<'_>,
        path: &Path<'_>,
        outward: &Outward,
        mut standing: Standing,
        rx_agl_m: f64,
    ) {
        let n = standing.n;
        let (d, h) = (path.d_km[n], path.h_m[n]);
        let (hts, hrs) = (asked.tx.hts_m, h + rx_agl_m);
        let to = To {
            n,
            d,
            hts,
            hrs,
            rise: (hrs - hts) / d,
        };
        let obstruction = self.obstruction(&outward.maxima, &to);
        let sight = self.sight(&outward.maxima, &to);
        (standing.line_of_sight, standing.horizons) = (sight.line_of_sight, sight.horizons);
        let median = self.median_edge(&outward.maxima, &to, asked.longest_wave_m);
        let beta0 = if asked.tx.both {
            self.beta0_edge(&outward.maxima, &to, asked.longest_wave_m)
        } else {
            Edge::Clear
        };
        let one = One {
            path_km: d,
            ground_m: h,
            hrs_m: hrs,
            sums: (outward.v1, outward.v2),
            obstruction,
            slope_t: sight.slope_t,
            back: sight.back,
            horizon_km: sight.horizon_km,
            median,
            beta0,
        };
        self.waiting.put(&one, standing, &outward.runs);
    }

    /// Obstruction heights; only the sign of `hobs` is looked for where nothing obstructs.
    #[inline(always)]
    fn obstruction(&mut self, maxima: &Maxima, to: &To) -> Obstruction {
        let alpha_obt = maxima.flat - to.rise;
        if alpha_obt <= 0.0 {
            return Obstruction {
                hobs_m: 0.0,
                alpha_obt,
                alpha_obr: 0.0,
            };
        }
        let ground = &self.ground;
        let above = |i: usize| ground.h_m[i] - (to.hts + to.rise * ground.d_km[i]);
        let hull = self.flat_hull.before(to.n, &ground.d_km, &ground.h_m);
        let hobs_m = above(hull.highest_along(to.rise));
        let tangent = hull.steepest_from(to.d, to.hrs);
        Obstruction {
            hobs_m,
            alpha_obt,
            alpha_obr: above(tangent) / (to.d - ground.d_km[tangent]),
        }
    }

    /// Path type, horizon slopes and, beyond the horizon, where the horizons are.
    #[inline(always)]
    fn sight(&mut self, maxima: &Maxima, to: &To) -> Sight {
        let ground = &self.ground;
        let bulge = ground.bare.bulge;
        let to_receiver = to.rise - bulge * to.d;
        let (steepest, lt) = maxima.horizon;
        if steepest <= to_receiver {
            return Sight {
                line_of_sight: true,
                slope_t: to_receiver,
                back: (to.hts - to.hrs, to.d),
                horizons: (to.n - 1, to.n - 1),
                // Only the sum counts until ducting does; then the horizon is looked for.
                horizon_km: (to.d, 0.0),
            };
        }
        let hull = self.bare_hull.before(to.n, &ground.d_km, &ground.bare.y_m);
        let lr = hull.steepest_from(to.d, to.hrs - bulge * to.d * to.d);
        let back_km = to.d - ground.d_km[lr];
        Sight {
            line_of_sight: false,
            slope_t: steepest,
            back: (ground.h_m[lr] - to.hrs, back_km),
            horizons: (lt, lr),
            horizon_km: (ground.d_km[lt], back_km),
        }
    }

    /// Edge of ground and clutter over the median Earth.
    #[inline(always)]
    fn median_edge(&mut self, maxima: &Maxima, to: &To, longest_wave_m: f64) -> Edge {
        let hull = if self.ground.cluttered {
            &mut self.median_hull
        } else {
            &mut self.bare_hull
        };
        let seen = (self.ground.obstacles(), maxima.median);
        edge(
            &self.ground,
            seen,
            hull,
            to,
            longest_wave_m,
            &mut self.guess.median_least,
        )
    }

    /// Edge of ground and clutter over the Earth of β0 %.
    #[inline(always)]
    fn beta0_edge(&mut self, maxima: &Maxima, to: &To, longest_wave_m: f64) -> Edge {
        let seen = (&self.ground.beta0, maxima.beta0);
        edge(
            &self.ground,
            seen,
            &mut self.beta0_hull,
            to,
            longest_wave_m,
            &mut self.guess.beta0_least,
        )
    }

    /// Sends the waiting receivers through the closed form, once for each setup.
    fn finish(&mut self, asked: &Asked<'_>, losses_db: &mut [Vec<f64>]) {
        if self.waiting.count == 0 {
            return;
        }
        self.waiting.fill_up();
        found::shape(&asked.tx, &self.waiting.found, &mut self.waiting.geometry);
        for (setup, list) in asked.setups.iter().zip(losses_db) {
            let study = Study {
                constants: &setup.constants,
                bearing: &asked.radial.bearing,
                surfaces: self.waiting.surfaces,
                both: setup.constants.conditions.time_pct < 50.0,
            };
            self.waiting.place(setup.constants.location_db);
            let answer_db = self.answer(asked, &study);
            for (standing, answer_db) in self.waiting.standing[..self.waiting.count].iter().zip(answer_db) {
                list[standing.slot] = answer_db;
            }
        }
        self.waiting.clear();
    }

    /// Losses of the waiting receivers for one setup, dB.
    #[inline(always)]
    fn answer(&mut self, asked: &Asked<'_>, study: &Study<'_>) -> Numbers {
        let ldsph_db = block::spherical_db(study, &self.waiting.geometry);
        self.smooth_edges(asked, &ldsph_db);
        let (mut answer_db, doubt) = block::unducted_db(study, &self.waiting.geometry, &ldsph_db);
        let doubtful = (0..self.waiting.count).filter(|&lane| doubt[lane]);
        if doubtful.clone().next().is_none() {
            return answer_db;
        }
        doubtful.clone().for_each(|lane| self.ducting_geometry(lane));
        let complete_db = block::complete_db(study, &self.waiting.geometry);
        doubtful.for_each(|lane| answer_db[lane] = complete_db[lane]);
        answer_db
    }

    /// Edges over the smooth path, where the smooth Earth loses anything and they are not known yet.
    #[inline(always)]
    fn smooth_edges(&mut self, asked: &Asked<'_>, ldsph_db: &(Numbers, Numbers)) {
        let Waiting {
            count,
            geometry: g,
            standing,
            smooth,
            ..
        } = &mut self.waiting;
        let mut found = (false, false);
        for (lane, standing) in standing[..*count].iter_mut().enumerate() {
            let d_km = &self.ground.d_km[..=standing.n];
            let path = |ap_km| SmoothPath {
                d_km,
                per_km: self.ground.per_km,
                antennas_m: (g.smooth_m.0[lane], g.smooth_m.1[lane]),
                ap_km,
            };
            if ldsph_db.0[lane] > 0.0 && !standing.median_smooth {
                let edge = smooth::edge(&path(asked.tx.ae_km), &mut self.guess.median_smooth_back);
                smooth.0.put(lane, &edge, g.path_km[lane]);
                (found.0, standing.median_smooth) = (true, true);
            }
            if ldsph_db.1[lane] > 0.0 && !standing.beta0_smooth {
                let edge = smooth::edge(&path(RADIUS_BETA0_KM), &mut self.guess.beta0_smooth_back);
                smooth.1.put(lane, &edge, g.path_km[lane]);
                (found.1, standing.beta0_smooth) = (true, true);
            }
        }
        if found.0 {
            g.median_nu_root_m.1 = found::edges_nu_root_m(&smooth.0, &g.path_km, &g.smooth_m, asked.tx.ae_km);
        }
        if found.1 {
            g.beta0_nu_root_m.1 = found::edges_nu_root_m(&smooth.1, &g.path_km, &g.smooth_m, RADIUS_BETA0_KM);
        }
    }

    /// What only ducting wants: the horizon in a line of sight, and the roughness between the horizons.
    fn ducting_geometry(&mut self, lane: usize) {
        let g = &mut self.waiting.geometry;
        let standing = &mut self.waiting.standing[lane];
        if standing.ducting {
            return;
        }
        standing.ducting = true;
        let ground = &self.ground;
        let (d, hts, hrs) = (g.path_km[lane], g.antennas_m.0[lane], g.antennas_m.1[lane]);
        if standing.line_of_sight {
            let to = To {
                n: standing.n,
                d,
                hts,
                hrs,
                rise: (hrs - hts) / d,
            };
            let ray = to.ray(ground.bare.bulge, Ties::Last);
            let at = clearance::least(
                ground,
                &ground.bare,
                &ray,
                f64::INFINITY,
                self.guess.horizon_least,
            )
            .index;
            self.guess.horizon_least = at;
            standing.horizons = (at, at);
            g.horizon_km.0[lane] = ground.d_km[at];
            g.horizon_km.1[lane] = d - ground.d_km[at];
        }
        let (tx_m, rx_m) = (hts - g.effective_m.0[lane], hrs - g.effective_m.1[lane]);
        let (lt, lr) = standing.horizons;
        g.roughness_m[lane] = clearance::roughness_m(ground, (tx_m, (rx_m - tx_m) / d), lt, lr, 0.0);
    }
}

/// The way to one receiver.
#[derive(Debug, Clone, Copy)]
struct To {
    n: usize,
    d: f64,
    hts: f64,
    hrs: f64,
    /// Straight from antenna to antenna, m/km.
    rise: f64,
}

impl To {
    #[inline(always)]
    fn ray(&self, bulge: f64, ties: Ties) -> Ray {
        Ray {
            n: self.n,
            path_km: self.d,
            hts_m: self.hts,
            rise: self.rise - bulge * self.d,
            ties,
        }
    }
}

/// The edge equivalent to ground and clutter, given its flattened heights and the steepest of them from the transmitter.
#[inline(always)]
fn edge(
    ground: &Ground,
    (lay, steepest): (&Flattened, f64),
    hull: &mut Hull,
    to: &To,
    longest_wave_m: f64,
    guess: &mut usize,
) -> Edge {
    let d = to.d;
    let stim = steepest + lay.bulge * d;
    if stim < to.rise {
        let clear = CLEAR_NU * CLEAR_NU * longest_wave_m / (0.002 * d) * (1.0 + 1e-9);
        let found = clearance::least(ground, lay, &to.ray(lay.bulge, Ties::Any), clear, *guess);
        if found.index == 0 {
            return Edge::Clear;
        }
        *guess = found.index;
        return Edge::Sight {
            height_m: ground.g_m[found.index],
            d_km: ground.d_km[found.index],
        };
    }
    let i = hull
        .before(to.n, &ground.d_km, &lay.y_m)
        .steepest_from(d, to.hrs - lay.bulge * d * d);
    let di = ground.d_km[i];
    Edge::Beyond {
        stim,
        rise_m: ground.g_m[i] + lay.bulge * di * (d - di) - to.hrs,
        back_km: d - di,
    }
}

/// What a receiver sees of the transmitter.
struct Sight {
    line_of_sight: bool,
    slope_t: f64,
    back: (f64, f64),
    horizons: (usize, usize),
    horizon_km: (f64, f64),
}

impl<'a> Asked<'a> {
    fn new(radial: &'a Radial, setups: &'a [RadialSetup], lists: usize) -> Result<Asked<'a>, InputError> {
        let alike = |a: &RadialSetup, b: &RadialSetup| {
            a.tx_agl_m == b.tx_agl_m && a.constants.ae_km == b.constants.ae_km
        };
        let first = setups.first().ok_or(InputError::Setups { setups: 0, lists })?;
        if lists != setups.len() || !setups.iter().all(|setup| alike(setup, first)) {
            return Err(InputError::Setups {
                setups: setups.len(),
                lists,
            });
        }
        let ground_m = radial.profile.path().h_m[0];
        let longest_wave_m = setups.iter().map(|s| s.constants.lambda_m).fold(0.0, f64::max);
        let tx = TxEnd {
            ground_m,
            hts_m: ground_m + first.tx_agl_m,
            ae_km: first.constants.ae_km,
            both: setups.iter().any(|s| s.constants.conditions.time_pct < 50.0),
        };
        Ok(Asked {
            radial,
            setups,
            tx,
            longest_wave_m,
        })
    }
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
