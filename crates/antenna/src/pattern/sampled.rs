//! The sampled pattern: complex fields on a grid of bearing and elevation, interpolated as fields so that nulls stay nulls.

use num_complex::Complex;

use super::{FLOOR_DBD, Peak, dbd};
use crate::array::{ArrayError, HALF_WAVE_DIRECTIVITY, Radiator, Stack};
use crate::direction::{Direction, Field, Plane};
use crate::feed::{Fed, Feed};
use crate::mount::answered::{Reader, Writer};

type C32 = Complex<f32>;

/// Widest step of the grid, degrees.
const STEP_DEG: f64 = 2.0;
/// Largest turn of phase of the outermost conductor between two samples, radians: keeps interpolation within 0.05 dB in the
/// lobes (tested).
const TURN_RAD: f64 = 0.2;

/// Gain of an antenna towards every direction, against a half-wave dipole and the power accepted at its input, losses between
/// that input and the air included.
///
/// The square of a stored field is the gain as a ratio. Queries interpolate both complex components bilinearly: the answer lies
/// within 0.05 dB of the array model in the lobes (tested).
#[derive(Debug, Clone, PartialEq)]
pub struct Pattern {
    freq_mhz: f64,
    bearings: usize,
    elevs: usize,
    /// Bearing by bearing (from north, clockwise), each from −90° to +90°.
    cells: Vec<[C32; 2]>,
    /// Strongest of all elevations for each sampled bearing, ratio, by plane.
    strongest: Vec<[f32; 2]>,
}

impl Pattern {
    /// The pattern of a stack with its feed by the array model (a draft), and the feed's answer.
    ///
    /// # Errors
    /// Those of [`Feed::solve`] and [`Radiator::new`].
    ///
    /// # Example
    /// ```
    /// use antenna::array::{ElementKind, StackPlan};
    /// use antenna::direction::Plane;
    /// use antenna::feed::{Cable, Feed, Splitter};
    /// use antenna::line::LineConstants;
    /// use antenna::pattern::Pattern;
    ///
    /// let stack = StackPlan {
    ///     frequency_mhz: 98.0, bays: 4, spacing_m: 2.75, element: ElementKind::Vertical, bearing_deg: 120.0,
    ///     pole_radius_m: Some(0.03), stand_off_m: 0.75,
    /// }.stack()?;
    /// let cable = Cable { line: LineConstants::new(0.2109, 0.000611, 0.88, 50.0)?, length_m: 5.0 };
    /// let feed = Feed::equal(Splitter::quarter_wave(4, 98.0, 0.1), 4, cable);
    /// let (pattern, fed) = Pattern::of(&stack, &feed)?;
    /// assert!(pattern.gain_dbd(Plane::Vertical, 120.0, 0.0) > 7.0);
    /// assert!(fed.input_vswr()?.ratio() < 1.5);
    /// # Ok::<(), antenna::array::ArrayError>(())
    /// ```
    pub fn of(stack: &Stack, feed: &Feed) -> Result<(Self, Fed), ArrayError> {
        let fed = feed.solve(stack)?;
        let pattern = Self::with_currents(stack, &fed.currents_a, fed.efficiency_ratio())?;
        Ok((pattern, fed))
    }

    /// The pattern of a stack with given port currents and an efficiency (ratio of radiated to accepted power).
    ///
    /// # Errors
    /// Those of [`Radiator::new`]; [`ArrayError::Silent`] when nothing is radiated.
    pub fn with_currents(
        stack: &Stack,
        currents_a: &[num_complex::Complex64],
        efficiency_ratio: f64,
    ) -> Result<Self, ArrayError> {
        // Referred to its own middle, so that phases turn slowly from sample to sample.
        let centred = stack.centred();
        let radiator = Radiator::new(&centred, currents_a)?;
        let total = radiator.checked_integral()?;
        let scale = (4.0 * std::f64::consts::PI * efficiency_ratio / total / HALF_WAVE_DIRECTIVITY).sqrt();
        let k = crate::array::element::wave_number(stack.frequency_mhz);
        let (height_m, breadth_m) = centred.extent_m();
        let (elevs, bearings) = (
            intervals(180.0, k * height_m / 2.0),
            intervals(360.0, k * breadth_m),
        );
        let mut out = Self::empty(stack.frequency_mhz, bearings, elevs + 1);
        for e in 0..=elevs {
            let row = radiator.row(out.elev_deg(e));
            for b in 0..bearings {
                let field = row.field(out.bearing_deg(b));
                out.set(b, e, field * scale.into());
            }
        }
        Ok(out.finished())
    }

    /// A pattern from any far field whose square is the gain as a ratio to a half-wave dipole: from wires, a file, a formula.
    ///
    /// # Units
    /// - `bearing_step_deg`, `elev_step_deg`: wished steps of the grid, degrees, narrowed to divide the circle
    pub fn from_field(
        freq_mhz: f64,
        bearing_step_deg: f64,
        elev_step_deg: f64,
        field: impl Fn(Direction) -> Field,
    ) -> Self {
        let bearings = (360.0 / bearing_step_deg.clamp(0.1, STEP_DEG)).ceil() as usize;
        let elevs = (180.0 / elev_step_deg.clamp(0.05, STEP_DEG)).ceil() as usize;
        let mut out = Self::empty(freq_mhz, bearings, elevs + 1);
        for b in 0..bearings {
            for e in 0..=elevs {
                let f = field(Direction::new(out.bearing_deg(b), out.elev_deg(e)));
                out.set(b, e, f);
            }
        }
        out.finished()
    }

    /// A pattern from samples by index: bearings from north clockwise, elevations from −90° to +90°.
    pub(crate) fn from_samples(
        freq_mhz: f64,
        bearings: usize,
        elevs: usize,
        sample: impl Fn(usize, usize) -> Field,
    ) -> Self {
        let mut out = Self::empty(freq_mhz, bearings, elevs);
        for b in 0..bearings {
            for e in 0..elevs {
                out.set(b, e, sample(b, e));
            }
        }
        out.finished()
    }

    /// A textbook pattern: a half-wave dipole's elevation shape, the same on every bearing, in one plane.
    pub fn all_round(freq_mhz: f64, plane: Plane, gain_dbd: f64) -> Self {
        let peak = 10f64.powf(gain_dbd / 20.0);
        Self::from_field(freq_mhz, STEP_DEG, 0.5, |d| {
            let (s, c) = d.elev_deg.to_radians().sin_cos();
            let shape = if c.abs() < 1e-6 {
                0.0
            } else {
                (std::f64::consts::FRAC_PI_2 * s).cos() / c
            };
            let part = num_complex::Complex64::from(peak * shape);
            match plane {
                Plane::Vertical => Field {
                    vertical: part,
                    ..Field::default()
                },
                Plane::Horizontal => Field {
                    horizontal: part,
                    ..Field::default()
                },
            }
        })
    }

    pub(crate) fn write(&self, out: &mut Writer) {
        [self.freq_mhz, self.bearings as f64, self.elevs as f64]
            .iter()
            .for_each(|x| out.number(*x));
        let parts = self.cells.iter().flatten().flat_map(|c| [c.re, c.im]);
        out.0.extend(parts.flat_map(f32::to_le_bytes));
    }

    pub(crate) fn read(from: &mut Reader) -> Option<Self> {
        let freq_mhz = from.number()?;
        let (bearings, elevs) = (from.count()?, from.count()?);
        let bytes = from.take(bearings.checked_mul(elevs)?.checked_mul(16)?)?;
        let part = |at: usize| f32::from_le_bytes([bytes[at], bytes[at + 1], bytes[at + 2], bytes[at + 3]]);
        let cell = |i: usize| [0, 8].map(|p| C32::new(part(16 * i + p), part(16 * i + p + 4)));
        (bearings > 0 && elevs > 1).then(|| {
            Self {
                freq_mhz,
                bearings,
                elevs,
                cells: (0..bearings * elevs).map(cell).collect(),
                strongest: Vec::new(),
            }
            .finished()
        })
    }

    /// Frequency it holds for, MHz.
    pub fn frequency_mhz(&self) -> f64 {
        self.freq_mhz
    }

    /// Gain in one plane towards a direction, dBd, never below [`FLOOR_DBD`].
    ///
    /// # Units
    /// - `bearing_deg`: clockwise from true north, any turn
    /// - `elev_deg`: above the horizon, −90…90 (outside it is taken at the pole of the sphere); a depression is negative
    pub fn gain_dbd(&self, plane: Plane, bearing_deg: f64, elev_deg: f64) -> f64 {
        dbd(self.gain_ratio(plane, bearing_deg, elev_deg))
    }

    /// The same as a ratio to a half-wave dipole.
    pub fn gain_ratio(&self, plane: Plane, bearing_deg: f64, elev_deg: f64) -> f64 {
        let (columns, along) = self.columns(bearing_deg);
        self.between(columns, along, plane as usize, elev_deg)
    }

    /// Sum of both planes, dBd.
    pub fn total_gain_dbd(&self, bearing_deg: f64, elev_deg: f64) -> f64 {
        let ratio: f64 = Plane::BOTH
            .iter()
            .map(|&p| self.gain_ratio(p, bearing_deg, elev_deg))
            .sum();
        dbd(ratio)
    }

    /// Many elevations on one bearing: fills `out` with dBd. The shorter of the two slices counts.
    pub fn gains_dbd(&self, plane: Plane, bearing_deg: f64, elevs_deg: &[f64], out: &mut [f64]) {
        let (columns, along) = self.columns(bearing_deg);
        for (elev, gain) in elevs_deg.iter().zip(out) {
            *gain = dbd(self.between(columns, along, plane as usize, *elev));
        }
    }

    /// Strongest gain of all elevations on a bearing, dBd: what a licence mask is held against.
    pub fn strongest_dbd(&self, plane: Plane, bearing_deg: f64) -> f64 {
        let x = bearing_deg.rem_euclid(360.0) / 360.0 * self.bearings as f64;
        let (b, t) = (x.floor(), x - x.floor());
        let at = |i: usize| f64::from(self.strongest[i % self.bearings][plane as usize]).sqrt();
        let i = b as usize;
        dbd((at(i) * (1.0 - t) + at(i + 1) * t).powi(2))
    }

    /// The strongest direction of one plane.
    pub fn peak(&self, plane: Plane) -> Peak {
        let mut best = Peak {
            gain_dbd: FLOOR_DBD,
            bearing_deg: 0.0,
            elev_deg: 0.0,
        };
        let mut ratio = 0.0;
        for b in 0..self.bearings {
            for e in 0..self.elevs {
                let r = self.cells[b * self.elevs + e][plane as usize].norm_sqr();
                // Clearly stronger only: of equals the first bearing stands.
                if r > ratio * 1.000_01 {
                    ratio = r;
                    best = Peak {
                        gain_dbd: dbd(f64::from(r)),
                        bearing_deg: self.bearing_deg(b),
                        elev_deg: self.elev_deg(e),
                    };
                }
            }
        }
        self.refined(plane, best)
    }

    /// Largest difference of gain to another pattern, dB, in either plane, at every fifth degree of bearing and every degree of
    /// elevation where this one is within `within_db` of its maximum: draft against proof, say.
    pub fn largest_difference_db(&self, other: &Pattern, within_db: f64) -> f64 {
        let top = Plane::BOTH
            .map(|p| self.peak(p).gain_dbd)
            .into_iter()
            .fold(f64::NEG_INFINITY, f64::max);
        let mut worst = 0.0f64;
        for bearing in (0..360).step_by(5).map(f64::from) {
            for elev in (-90..=90).map(f64::from) {
                for plane in Plane::BOTH {
                    let gain = self.gain_dbd(plane, bearing, elev);
                    if gain > top - within_db {
                        worst = worst.max((gain - other.gain_dbd(plane, bearing, elev)).abs());
                    }
                }
            }
        }
        worst
    }

    /// Steps of the grid: bearing, elevation, degrees.
    pub fn steps_deg(&self) -> (f64, f64) {
        (360.0 / self.bearings as f64, 180.0 / (self.elevs - 1) as f64)
    }

    /// The same antenna turned clockwise, as when a whole mast section is turned.
    pub fn turned(&self, by_deg: f64) -> Self {
        let (bearing_step, elev_step) = self.steps_deg();
        Self::from_field(self.freq_mhz, bearing_step, elev_step, |d| {
            self.field(d.bearing_deg - by_deg, d.elev_deg)
        })
    }

    /// The interpolated field itself; its squares are gains as ratios.
    pub fn field(&self, bearing_deg: f64, elev_deg: f64) -> Field {
        let (columns, along) = self.columns(bearing_deg);
        let wide = |c: C32| num_complex::Complex64::new(f64::from(c.re), f64::from(c.im));
        Field {
            vertical: wide(self.mixed(columns, along, 0, elev_deg)),
            horizontal: wide(self.mixed(columns, along, 1, elev_deg)),
        }
    }

    /// A refinement of the peak's elevation by a parabola through three samples.
    fn refined(&self, plane: Plane, at: Peak) -> Peak {
        let step = self.steps_deg().1;
        let [l, m, h] =
            [-1.0, 0.0, 1.0].map(|i| self.gain_ratio(plane, at.bearing_deg, at.elev_deg + i * step));
        let bend = l - 2.0 * m + h;
        if bend >= 0.0 || at.elev_deg.abs() > 89.0 {
            return at;
        }
        let shift = (0.5 * (l - h) / bend).clamp(-0.5, 0.5);
        let elev_deg = at.elev_deg + shift * step;
        Peak {
            gain_dbd: dbd(m - 0.25 * (l - h) * shift),
            elev_deg,
            ..at
        }
    }

    fn empty(freq_mhz: f64, bearings: usize, elevs: usize) -> Self {
        Self {
            freq_mhz,
            bearings,
            elevs,
            cells: vec![[C32::default(); 2]; bearings * elevs],
            strongest: Vec::new(),
        }
    }

    fn set(&mut self, b: usize, e: usize, field: Field) {
        let narrow = |c: num_complex::Complex64| C32::new(c.re as f32, c.im as f32);
        self.cells[b * self.elevs + e] = [narrow(field.vertical), narrow(field.horizontal)];
    }

    fn finished(mut self) -> Self {
        self.strongest = self
            .cells
            .chunks(self.elevs)
            .map(|column| {
                let most = |p: usize| column.iter().map(|c| c[p].norm_sqr()).fold(0.0, f32::max);
                [most(0), most(1)]
            })
            .collect();
        self
    }

    fn bearing_deg(&self, b: usize) -> f64 {
        360.0 * b as f64 / self.bearings as f64
    }

    fn elev_deg(&self, e: usize) -> f64 {
        -90.0 + 180.0 * e as f64 / (self.elevs - 1) as f64
    }

    fn columns(&self, bearing_deg: f64) -> ((usize, usize), f32) {
        let x = bearing_deg.rem_euclid(360.0) / 360.0 * self.bearings as f64;
        let b = x as usize % self.bearings;
        (
            (b * self.elevs, (b + 1) % self.bearings * self.elevs),
            (x - x.floor()) as f32,
        )
    }

    fn mixed(&self, (left, right): (usize, usize), along: f32, plane: usize, elev_deg: f64) -> C32 {
        let last = self.elevs - 1;
        let y = ((elev_deg.clamp(-90.0, 90.0) + 90.0) / 180.0 * last as f64).clamp(0.0, last as f64);
        let e = (y as usize).min(last - 1);
        let up = (y - e as f64) as f32;
        let at = |column: usize, e: usize| self.cells[column + e][plane];
        let lower = at(left, e) * (1.0 - along) + at(right, e) * along;
        let upper = at(left, e + 1) * (1.0 - along) + at(right, e + 1) * along;
        lower * (1.0 - up) + upper * up
    }

    fn between(&self, columns: (usize, usize), along: f32, plane: usize, elev_deg: f64) -> f64 {
        f64::from(self.mixed(columns, along, plane, elev_deg).norm_sqr())
    }
}

/// Number of intervals over an arc for a phase that turns by `rate` radians per radian at most.
fn intervals(arc_deg: f64, rate: f64) -> usize {
    let step_deg = (TURN_RAD / rate.max(1e-6)).to_degrees().clamp(0.05, STEP_DEG);
    (arc_deg / step_deg).ceil() as usize
}
