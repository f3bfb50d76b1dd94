//! Where the receivers of a coverage stand: on radials from the site, thinned towards it.

use std::f64::consts::TAU;

use terrain::{Position, geodesic};

/// Widest arc between neighbouring receivers, in study steps.
///
/// The number of azimuths follows: the least m·2ⁿ (m from 32 to 63) whose arc at the rim is no wider. Towards the site every
/// second radial stops wherever the arc of the rest is still within the limit, so that receivers stay within 1.1 per square of
/// one step. Our choice (mark I).
pub const ARC_STEPS: f64 = 1.25;

/// Fewest azimuths at any distance under the rule.
const FEWEST: u32 = 32;

/// How the number of azimuths is found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Azimuths {
    /// By [`ARC_STEPS`].
    Rule,
    /// This many radials, none thinned.
    Count(u32),
}

/// Receivers in polar order: radials clockwise from true north, each from the site outwards.
#[derive(Debug, Clone, PartialEq)]
pub struct Lattice {
    site: Position,
    step_m: f64,
    azimuths: u32,
    points: u32,
    /// Every `stride[k]`-th radial has a receiver at distance index k; a power of two; index 0 unused.
    stride: Vec<u32>,
    /// Distance index of each radial's innermost receiver.
    first: Vec<u32>,
    /// Where each radial's receivers start, and one past the end.
    offsets: Vec<u64>,
    thinned: bool,
}

/// A position as the lattice sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Polar {
    /// Clockwise from true north at the site, degrees, 0 ≤ a < 360.
    pub azimuth_deg: f64,
    /// Along the geodesic, m.
    pub distance_m: f64,
}

impl Lattice {
    /// Receivers at every step out to the radius.
    pub fn new(site: Position, radius_km: f64, step_m: f64, azimuths: Azimuths) -> Self {
        let points = ((radius_km * 1000.0 / step_m + 1e-9).floor() as u32).max(1);
        let (azimuths, thinned) = match azimuths {
            Azimuths::Count(count) => (count.max(1), false),
            Azimuths::Rule => (azimuths_by_rule(points), true),
        };
        Self::with_count(site, step_m, points, azimuths, thinned)
    }

    /// The same receivers on every `every`-th radial only; the step stays. A number that does not divide the azimuths is
    /// lowered to the next that does.
    pub fn coarser(&self, every: u32) -> Self {
        let every = (1..=every.clamp(1, self.azimuths))
            .rev()
            .find(|e| self.azimuths.is_multiple_of(*e))
            .unwrap_or(1);
        Self::with_count(
            self.site,
            self.step_m,
            self.points,
            self.azimuths / every,
            self.thinned,
        )
    }

    pub(crate) fn with_count(site: Position, step_m: f64, points: u32, azimuths: u32, thinned: bool) -> Self {
        let stride: Vec<u32> = (0..=points)
            .map(|k| if thinned { stride_at(k, azimuths) } else { 1 })
            .collect();
        let first: Vec<u32> = (0..azimuths).map(|i| innermost(&stride, i)).collect();
        let mut offsets = Vec::with_capacity(azimuths as usize + 1);
        let mut start = 0;
        offsets.push(0);
        for &k in &first {
            start += u64::from(points + 1 - k);
            offsets.push(start);
        }
        Self {
            site,
            step_m,
            azimuths,
            points,
            stride,
            first,
            offsets,
            thinned,
        }
    }

    /// The site.
    pub fn site(&self) -> Position {
        self.site
    }

    /// Spacing of receivers and of profile samples along a radial, m.
    pub fn step_m(&self) -> f64 {
        self.step_m
    }

    /// Number of radials.
    pub fn azimuths(&self) -> u32 {
        self.azimuths
    }

    /// Steps from the site to the rim.
    pub fn points(&self) -> u32 {
        self.points
    }

    /// Whether radials stop short of the site by the rule.
    pub fn is_thinned(&self) -> bool {
        self.thinned
    }

    /// Distance of the outermost receivers, km.
    pub fn radius_km(&self) -> f64 {
        f64::from(self.points) * self.step_m / 1000.0
    }

    /// Number of receivers.
    #[expect(clippy::len_without_is_empty, reason = "a lattice has at least one receiver")]
    pub fn len(&self) -> usize {
        self.offsets[self.azimuths as usize] as usize
    }

    /// Azimuth of a radial, degrees clockwise from true north.
    pub fn azimuth_deg(&self, radial: u32) -> f64 {
        360.0 * f64::from(radial) / f64::from(self.azimuths)
    }

    /// Distance index of the receiver nearest to the site on a radial, 1 or more.
    pub fn first_point(&self, radial: u32) -> u32 {
        self.first[radial as usize]
    }

    /// Every `stride`-th radial has a receiver at this distance index.
    pub fn stride(&self, point: u32) -> u32 {
        self.stride[point as usize]
    }

    /// Indices of a radial's receivers among all receivers.
    pub fn radial_range(&self, radial: u32) -> std::ops::Range<usize> {
        self.offsets[radial as usize] as usize..self.offsets[radial as usize + 1] as usize
    }

    /// Index of the receiver on a radial at a distance index; `None` where the radial has none.
    pub fn index(&self, radial: u32, point: u32) -> Option<usize> {
        let first = self.first_point(radial);
        (point >= first && point <= self.points)
            .then(|| self.offsets[radial as usize] as usize + (point - first) as usize)
    }

    /// Ground that one receiver stands for, m²: its step along the radial by its arc (flat geometry, wrong by less than
    /// 0.01 % at 100 km). The innermost receivers also stand for the half step round the mast.
    pub fn area_m2(&self, point: u32) -> f64 {
        let inner = if point == 1 { 0.0 } else { f64::from(point) - 0.5 };
        let outer = if point == self.points {
            f64::from(point)
        } else {
            f64::from(point) + 0.5
        };
        let ring = 0.5 * TAU * (outer * outer - inner * inner) * self.step_m * self.step_m;
        ring * f64::from(self.stride(point)) / f64::from(self.azimuths)
    }

    /// Azimuth and distance of a position from the site, on the ellipsoid.
    pub fn polar(&self, position: Position) -> Polar {
        let span = geodesic::span(self.site, position);
        Polar {
            azimuth_deg: geodesic::compass_deg(span.azimuth_deg),
            distance_m: span.length_m,
        }
    }

    /// East and north of the site on the azimuthal equidistant plane, m.
    pub fn plane(&self, position: Position) -> (f64, f64) {
        let polar = self.polar(position);
        let (sin, cos) = polar.azimuth_deg.to_radians().sin_cos();
        (polar.distance_m * sin, polar.distance_m * cos)
    }

    /// The receiver nearest to a place in polar terms; `None` beyond half a step outside the rim.
    pub fn nearest(&self, polar: Polar) -> Option<usize> {
        let k = (polar.distance_m / self.step_m).round().max(1.0);
        if k > f64::from(self.points) {
            return None;
        }
        let k = k as u32;
        let stride = self.stride(k);
        let turn = polar.azimuth_deg / 360.0 * f64::from(self.azimuths / stride);
        let i = (turn.round() as u32 % (self.azimuths / stride)) * stride;
        self.index(i, k)
    }

    /// The four receivers round a place and their weights (bilinear in azimuth and distance, each ring with its own azimuths);
    /// `None` outside the rim. Inside the first ring both rings are the first.
    pub fn around(&self, polar: Polar) -> Option<[(usize, f64); 4]> {
        let r = polar.distance_m / self.step_m;
        if r > f64::from(self.points) + 1e-9 {
            return None;
        }
        let inner = (r.floor() as u32).clamp(1, self.points);
        let outer = (inner + 1).min(self.points);
        let along = (r - f64::from(inner)).clamp(0.0, 1.0);
        let (a, b, t) = self.beside(polar.azimuth_deg, inner)?;
        let (c, d, u) = self.beside(polar.azimuth_deg, outer)?;
        Some([
            (a, (1.0 - along) * (1.0 - t)),
            (b, (1.0 - along) * t),
            (c, along * (1.0 - u)),
            (d, along * u),
        ])
    }

    /// The receivers to the left and right on one ring, and how far towards the right one the azimuth lies.
    fn beside(&self, azimuth_deg: f64, point: u32) -> Option<(usize, usize, f64)> {
        let stride = self.stride(point);
        let on_ring = self.azimuths / stride;
        let turn = azimuth_deg / 360.0 * f64::from(on_ring);
        let left = (turn.floor() as u32) % on_ring;
        let right = (left + 1) % on_ring;
        Some((
            self.index(left * stride, point)?,
            self.index(right * stride, point)?,
            turn - turn.floor(),
        ))
    }
}

/// Distance index from which a radial is one of those its ring uses. Strides never rise with distance.
fn innermost(stride: &[u32], radial: u32) -> u32 {
    let own = if radial == 0 {
        u32::MAX
    } else {
        1 << radial.trailing_zeros()
    };
    1 + stride[1..].partition_point(|&s| s > own) as u32
}

fn azimuths_by_rule(points: u32) -> u32 {
    let wanted = (TAU * f64::from(points) / ARC_STEPS)
        .ceil()
        .max(f64::from(FEWEST)) as u32;
    let halvings = (wanted / FEWEST).ilog2();
    wanted.div_ceil(1 << halvings) << halvings
}

fn stride_at(point: u32, azimuths: u32) -> u32 {
    let most = (f64::from(azimuths) * ARC_STEPS / (TAU * f64::from(point.max(1)))).max(1.0) as u32;
    let mut stride = 1;
    while stride * 2 <= most && azimuths.is_multiple_of(stride * 2) && azimuths / (stride * 2) >= FEWEST {
        stride *= 2;
    }
    stride
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lattice(radius_km: f64, step_m: f64) -> Lattice {
        Lattice::new(
            Position::new(47.0, 8.0).unwrap(),
            radius_km,
            step_m,
            Azimuths::Rule,
        )
    }

    #[test]
    fn receivers_stay_under_eleven_tenths_of_cells_and_arcs_within_the_limit() {
        for (radius_km, step_m) in [
            (30.0, 90.0),
            (60.0, 90.0),
            (120.0, 90.0),
            (60.0, 30.0),
            (45.0, 100.0),
            (75.0, 90.0),
        ] {
            let l = lattice(radius_km, step_m);
            let cells = std::f64::consts::PI * (l.radius_km() * 1000.0 / step_m).powi(2);
            assert!(
                (l.len() as f64) < 1.1 * cells,
                "{radius_km} km at {step_m} m: {} receivers for {cells} cells",
                l.len()
            );
            for k in 8..=l.points() {
                let arc = TAU * f64::from(k) * f64::from(l.stride(k)) / f64::from(l.azimuths());
                assert!(arc <= ARC_STEPS + 1e-9, "arc of {arc} steps at ring {k}");
            }
        }
    }

    #[test]
    fn every_ring_is_complete_and_every_index_is_used_once() {
        let l = lattice(9.0, 100.0);
        let mut seen = vec![0; l.len()];
        for k in 1..=l.points() {
            for i in (0..l.azimuths()).step_by(l.stride(k) as usize) {
                seen[l.index(i, k).unwrap()] += 1;
            }
        }
        assert!(seen.iter().all(|&n| n == 1));
    }

    #[test]
    fn areas_add_up_to_the_disc() {
        let l = lattice(9.0, 100.0);
        let sum: f64 = (1..=l.points())
            .map(|k| l.area_m2(k) * f64::from(l.azimuths() / l.stride(k)))
            .sum();
        assert!((sum / (std::f64::consts::PI * 9e3f64.powi(2)) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn the_four_around_weigh_one_and_a_receiver_finds_itself() {
        let l = lattice(9.0, 100.0);
        for (azimuth_deg, distance_m) in [(0.0, 20.0), (359.99, 4321.0), (123.4, 8999.0), (77.0, 9000.0)] {
            let four = l
                .around(Polar {
                    azimuth_deg,
                    distance_m,
                })
                .unwrap();
            let sum: f64 = four.iter().map(|(_, w)| w).sum();
            assert!((sum - 1.0).abs() < 1e-12 && four.iter().all(|(_, w)| *w >= -1e-12));
        }
        let polar = Polar {
            azimuth_deg: l.azimuth_deg(4),
            distance_m: 8000.0,
        };
        assert_eq!(l.nearest(polar), l.index(4, 80));
        assert_eq!(
            l.around(Polar {
                azimuth_deg: 0.0,
                distance_m: 9051.0
            }),
            None
        );
    }
}
