//! Many receivers along one radial.
//!
//! The method is defined path by path: refractivity, hence the Earth's radius, follows from the mean height of *each* path. Walked
//! here, with the same result: the mean height and the fitted lines (prefix sums), the transmitter's horizon (a hull that holds for
//! every radius), the receiver's horizon (a search from the receiver backwards that passes over blocks too low to matter). Plain, as
//! for a single path: the roughness Δh, which the method samples anew between two distances of each path, and the closed form.

use super::conditions::{self, Constants, Refused};
use super::geometry::{Geometry, Ground, from_horizons};
use super::horizons::{BLOCK, Horizons, Sight, accumulated};
use super::line_fit::{Line, Moments, Stretch};
use super::preparation::prepare;
use super::profile::{Profile, ProfileError};
use super::roughness::roughness_m;
use super::{Antennas, Prediction, closed_form, predict_with};
use std::ops::Range;

/// Ground along one direction from a mast, with what every receiver shares.
#[derive(Debug, Clone)]
pub struct Radial<'a> {
    profile: Profile<'a>,
    /// `Σ (y_i − y_0)` and `Σ i·(y_i − y_0)` over `i < k`.
    sums: Vec<[f64; 2]>,
    /// Highest point of each block, and of each large block.
    highest: Vec<f64>,
    highest_large: Vec<f64>,
}

impl<'a> Radial<'a> {
    /// A radial of heights above sea level at a constant spacing, the mast first.
    ///
    /// # Errors
    /// [`ProfileError`], as [`Profile::new`].
    pub fn new(spacing_m: f64, height_m: &'a [f64]) -> Result<Self, ProfileError> {
        let profile = Profile::new(spacing_m, height_m)?;
        let (mut sum, mut moment) = (0.0, 0.0);
        let mut sums = Vec::with_capacity(height_m.len() + 1);
        sums.push([0.0; 2]);
        for (i, y) in height_m.iter().enumerate() {
            sum += y - height_m[0];
            moment += i as f64 * (y - height_m[0]);
            sums.push([sum, moment]);
        }
        let maximum = |part: &[f64]| part.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let highest: Vec<f64> = height_m.chunks(BLOCK).map(maximum).collect();
        let highest_large = highest.chunks(BLOCK).map(maximum).collect();
        Ok(Self {
            profile,
            sums,
            highest,
            highest_large,
        })
    }

    /// Number of points, the mast's included.
    pub fn len(&self) -> usize {
        self.profile.height_m().len()
    }

    /// Never: a radial has at least two points.
    pub fn is_empty(&self) -> bool {
        false
    }

    /// The path to one of its points.
    ///
    /// # Errors
    /// [`ProfileError::TooFewPoints`] for the mast itself.
    pub fn path_to(&self, point: usize) -> Result<Profile<'a>, ProfileError> {
        let heights = self.profile.height_m();
        Profile::new(self.profile.spacing_m(), &heights[..heights.len().min(point + 1)])
    }

    /// `Σ (y − y_0)` and `Σ i·(y − y_0)` over a range of indices.
    #[inline(always)]
    fn sums_over(&self, range: Range<usize>) -> [f64; 2] {
        let (a, b) = (self.sums[range.start], self.sums[range.end]);
        [b[0] - a[0], b[1] - a[1]]
    }
}

/// Basic transmission loss to each receiver of a range of points, dB, or why the method refuses it.
///
/// Equal to [`plain`] at every receiver (tests/itm_radial.rs: within 10⁻⁶ dB but for ties of two horizons).
///
/// # Shape
/// One entry for each point of `receivers`, which lies within `1..radial.len()`; points outside are left out.
///
/// # Errors
/// [`Refused`] for aerial heights outside the method.
pub fn walk(
    radial: &Radial<'_>,
    constants: &Constants,
    antennas: &Antennas,
    receivers: Range<usize>,
) -> Result<Vec<Result<f64, Refused>>, Refused> {
    let warnings = conditions::check_antennas(antennas)? | constants.warnings;
    let receivers = receivers.start.max(1)..receivers.end.min(radial.len());
    let mut losses = Vec::with_capacity(receivers.len());
    let heights_m = [antennas.tx_agl_m, antennas.rx_agl_m];
    walk_dispatched(
        radial,
        constants,
        heights_m,
        receivers,
        &mut |distance_m, preparation, geometry| {
            let answer = closed_form(distance_m, heights_m, constants, preparation, geometry, warnings);
            losses.push(answer.map(|p| p.loss_db));
        },
    );
    Ok(losses)
}

/// The same receiver worked out as a path of its own: the definition, and the oracle of [`walk`].
///
/// # Errors
/// [`Refused`], as [`predict_with`].
///
/// # Panics
/// For point 0, which is the mast.
pub fn plain(
    radial: &Radial<'_>,
    constants: &Constants,
    antennas: &Antennas,
    point: usize,
) -> Result<Prediction, Refused> {
    let path = radial.path_to(point).expect("a receiver away from the mast");
    predict_with(&path, antennas, constants)
}

#[multiversion::multiversion(targets("x86_64+avx2", "aarch64+neon"))]
fn walk_dispatched(
    radial: &Radial<'_>,
    constants: &Constants,
    heights_m: [f64; 2],
    receivers: Range<usize>,
    tell: &mut dyn FnMut(f64, super::Preparation, Geometry),
) {
    let y = radial.profile.height_m();
    let step = radial.profile.spacing_m();
    let tx_top_m = y[0] + heights_m[0];
    let mut seen = Outlook::default();
    let mut distances = RunningDistance {
        step,
        distance_m: 0.0,
    };
    let mut inner = 1;
    for point in receivers {
        while inner < point {
            seen.add(distances.next(), y[inner] - tx_top_m);
            inner += 1;
        }
        let reach = Reach { radial, point };
        let preparation = prepare(reach.mean_height_m(), constants);
        let found = reach.horizons(&seen, [tx_top_m, y[point] + heights_m[1]], preparation.a_e_m);
        let geometry = from_horizons(&reach, found, heights_m, [y[0], y[point]], preparation.a_e_m);
        tell(reach.distance_m(), preparation, geometry);
    }
}

/// The method's running sum of the spacing.
struct RunningDistance {
    step: f64,
    distance_m: f64,
}

impl RunningDistance {
    fn next(&mut self) -> f64 {
        self.distance_m += self.step;
        self.distance_m
    }
}

/// One point as the transmitter sees it: elevation over a flat Earth is `slope`; over an Earth of radius `ae` it is
/// `slope − distance/(2·ae)`, a straight line in the curvature.
#[derive(Debug, Clone, Copy)]
struct Seen {
    distance_m: f64,
    slope: f64,
}

/// Points that can be the transmitter's horizon for some radius of the Earth: the upper hull of slope over distance.
#[derive(Debug, Default)]
struct Outlook {
    hull: Vec<Seen>,
}

impl Outlook {
    /// Adds the next farther point.
    #[inline(always)]
    fn add(&mut self, distance_m: f64, above_m: f64) {
        let new = Seen {
            distance_m,
            slope: above_m / distance_m,
        };
        while let [.., a, b] = self.hull.as_slice() {
            // b stays when it lies above the chord from a to the new point.
            let chord = (new.slope - a.slope) * (b.distance_m - a.distance_m);
            if (b.slope - a.slope) * (new.distance_m - a.distance_m) > chord {
                break;
            }
            self.hull.pop();
        }
        self.hull.push(new);
    }

    /// Elevation and distance of the steepest point for a half curvature `1/(2·ae)`; of equal ones the nearest.
    #[inline(always)]
    fn steepest(&self, half_curvature_per_m: f64) -> Option<(f64, f64)> {
        let elevation = |seen: &Seen| seen.slope - seen.distance_m * half_curvature_per_m;
        let (mut low, mut high) = (0, self.hull.len().saturating_sub(1));
        while low < high {
            let middle = (low + high) / 2;
            if elevation(&self.hull[middle + 1]) > elevation(&self.hull[middle]) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        self.hull.get(low).map(|seen| (elevation(seen), seen.distance_m))
    }
}

/// The path from the mast to one point of a radial.
struct Reach<'a> {
    radial: &'a Radial<'a>,
    point: usize,
}

impl Reach<'_> {
    #[inline(always)]
    fn heights(&self) -> &[f64] {
        &self.radial.profile.height_m()[..=self.point]
    }

    /// Mean height of the middle eight tenths, m.
    #[inline(always)]
    fn mean_height_m(&self) -> f64 {
        let tenth = (0.1 * self.point as f64) as usize;
        let middle = tenth..self.point - tenth + 1;
        self.heights()[0] + self.radial.sums_over(middle.clone())[0] / middle.len() as f64
    }

    #[inline(always)]
    fn horizons(&self, seen: &Outlook, tops_m: [f64; 2], a_e_m: f64) -> Horizons {
        let d = self.distance_m();
        let step = self.spacing_m();
        let rise = (tops_m[1] - tops_m[0]) / d;
        let sag = d / (2.0 * a_e_m);
        let half_curvature_per_m = 0.5 / a_e_m;
        let (direct_tx, direct_rx) = (rise - sag, -rise - sag);
        let (theta_tx, distance_tx) = match seen.steepest(half_curvature_per_m) {
            Some((theta, distance_m)) if theta > direct_tx => (theta, distance_m),
            _ => (direct_tx, d),
        };
        let sight = Sight {
            top_m: tops_m[1],
            half_curvature_per_m,
            step,
        };
        let from_rx = sight.backwards_by_large(
            &self.heights()[..self.point],
            &self.radial.highest,
            &self.radial.highest_large,
            direct_rx,
        );
        Horizons {
            theta_rad: [theta_tx, from_rx.theta_rad],
            distance_m: [distance_tx, from_rx.index.map_or(d, |i| accumulated(d, -step, i))],
        }
    }
}

impl Ground for Reach<'_> {
    #[inline(always)]
    fn distance_m(&self) -> f64 {
        self.point as f64 * self.radial.profile.spacing_m()
    }

    #[inline(always)]
    fn spacing_m(&self) -> f64 {
        self.radial.profile.spacing_m()
    }

    #[inline(always)]
    fn intervals(&self) -> usize {
        self.point
    }

    #[inline(always)]
    fn line(&self, stretch: Stretch) -> Line {
        let y = self.heights();
        let Stretch { first, last } = stretch;
        let [sum, moment] = if last > first + 1 {
            self.radial.sums_over(first + 1..last)
        } else {
            [0.0; 2]
        };
        let moments = Moments {
            sum,
            first_moment: moment - first as f64 * sum,
        };
        let ends = (y[first] - y[0], y[last] - y[0]);
        let line = Line::from_moments(moments, ends, stretch, self.point);
        Line {
            start: line.start + y[0],
            end: line.end + y[0],
        }
    }

    #[inline(always)]
    fn roughness_m(&self, from_m: f64, to_m: f64) -> f64 {
        roughness_m(self.heights(), self.spacing_m(), from_m, to_m)
    }
}
