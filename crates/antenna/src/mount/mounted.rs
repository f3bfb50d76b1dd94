//! A plan solved: port matrix at the bays' connectors, and patterns for any feed by superposition.

use std::sync::OnceLock;

use num_complex::Complex64 as C64;

use super::bays::BayPorts;
use super::{MountError, MountPlan};
use crate::array::{ETA_OHM, HALF_WAVE_DIRECTIVITY, Matrix};
use crate::direction::{Direction, Field, Plane};
use crate::feed::tolerance::{Trials, band_of};
use crate::feed::{Band, Fed, Feed};
use crate::pattern::Pattern;
use crate::wires::far_field::Direction as WireDirection;
use crate::wires::grid::DIGITS;
use crate::wires::solve::SegmentCurrents;
use crate::wires::{FieldGrid, Solution, Standing, Wire, WireFault, WireModel, solve, solve_on};

/// How a bay's maker matched it: a lossless transformer and a series reactance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Matching {
    /// Element amperes per connector ampere.
    pub turns: f64,
    /// Series reactance at the connector where it is tuned, ohm; positive is a coil.
    pub series_ohm: f64,
    /// Where it is tuned, MHz.
    pub tuned_mhz: f64,
}

impl Matching {
    /// The bare terminals.
    pub const BARE: Matching = Matching {
        turns: 1.0,
        series_ohm: 0.0,
        tuned_mhz: 100.0,
    };

    fn reactance_ohm(&self, freq_mhz: f64) -> f64 {
        let ratio = freq_mhz / self.tuned_mhz;
        if self.series_ohm >= 0.0 {
            self.series_ohm * ratio
        } else {
            self.series_ohm / ratio
        }
    }
}

/// Digits of fields that a search looks at.
pub(in crate::mount) const DIGITS_OF_SEARCH: f64 = 4.0;

/// A solved antenna.
#[derive(Debug)]
pub struct Mounted {
    solution: Solution,
    wires: Vec<(String, f64)>,
    bays: Vec<BayPorts>,
    matching: Vec<Matching>,
    /// Open-circuit impedances of the wires' ports, ohm.
    wires_ohm: Matrix,
    ports_ohm: Matrix,
    steps: (usize, usize),
    /// Far field of each wire port alone at one volt, others shorted.
    embedded: OnceLock<Vec<FieldGrid>>,
}

impl MountPlan {
    /// Solves the plan, each bay matched to 50 Ω on its mast with the others open.
    ///
    /// # Errors
    /// Those of [`MountPlan::wires`], [`MountError::Wire`] from the solver, [`MountError::Unmatchable`].
    pub fn solved(&self) -> Result<Mounted, MountError> {
        let bare = self.solved_with(self.frequency_mhz, &vec![Matching::BARE; self.bays.len()])?;
        let matching = bare.matched(50.0)?;
        Ok(bare.with_matching(matching))
    }

    /// Solves the plan's geometry at another frequency with given matching (that of the design, for a sweep). Errors as
    /// [`Self::solved`].
    pub fn solved_with(&self, freq_mhz: f64, matching: &[Matching]) -> Result<Mounted, MountError> {
        self.solved_by(freq_mhz, matching, solve, |_, _| {})
    }

    /// As [`Self::solved_with`], each wire of each bay reshaped first: bent, cut too long, hung the other way round.
    ///
    /// # Shape
    /// `reshape`: takes the bay's index and each of its wires
    pub fn solved_reshaped(
        &self,
        freq_mhz: f64,
        matching: &[Matching],
        reshape: impl Fn(usize, &mut Wire),
    ) -> Result<Mounted, MountError> {
        self.solved_by(freq_mhz, matching, solve, reshape)
    }

    /// As [`Self::solved`], with the mast's block of the matrix factored once for all plans that share `standing` and the
    /// mast: places on one mast. Errors as [`Self::solved`].
    pub fn solved_on(&self, standing: &Standing) -> Result<Mounted, MountError> {
        let bare = vec![Matching::BARE; self.bays.len()];
        let on_mast = |model: &WireModel| solve_on(model, standing);
        let bare = self.solved_by(self.frequency_mhz, &bare, on_mast, |_, _| {})?;
        let matching = bare.matched(50.0)?;
        Ok(bare.with_matching(matching))
    }

    fn solved_by(
        &self,
        freq_mhz: f64,
        matching: &[Matching],
        solver: impl Fn(&WireModel) -> Result<Solution, WireFault>,
        reshape: impl Fn(usize, &mut Wire),
    ) -> Result<Mounted, MountError> {
        let (mut model, bays) = self.built()?;
        model.frequency_mhz = freq_mhz;
        for (i, bay) in bays.iter().enumerate() {
            model.wires[bay.wires.clone()]
                .iter_mut()
                .for_each(|wire| reshape(i, wire));
        }
        let (low, high) = super::span(&model);
        let out = model
            .wires
            .iter()
            .flat_map(|w| [w.start_m, w.end_m])
            .map(|p| p[0].hypot(p[1]))
            .fold(0.0, f64::max);
        let solution = solver(&model)?;
        let z = solution.impedance()?;
        let n = z.len();
        let k = crate::array::element::wave_number(freq_mhz);
        let bays_height = self.bays.iter().map(|b| b.height_m.abs()).fold(0.0, f64::max) + 0.8;
        // The mast's far ends carry little current: the bays set how fast phases turn.
        let height = (0.5 * (high - low)).min(1.5 * bays_height);
        let mounted = Mounted {
            wires_ohm: Matrix::from_fn(n, n, |i, j| z[i][j]),
            ports_ohm: Matrix::zeros(bays.len(), bays.len()),
            steps: (bearings(k * out), elevations(k * height)),
            solution,
            wires: model.wires.iter().map(|w| (w.name.clone(), w.radius_m)).collect(),
            bays,
            matching: Vec::new(),
            embedded: OnceLock::new(),
        };
        Ok(mounted.with_matching(matching.to_vec()))
    }
}

impl Mounted {
    /// Impedances between the bays' connectors, ohm: what [`Feed::solve_ports`] takes.
    pub fn ports_ohm(&self) -> &Matrix {
        &self.ports_ohm
    }

    /// The wires' own solution: currents, health, cautions.
    pub fn solution(&self) -> &Solution {
        &self.solution
    }

    /// Name and radius (m) of every wire, bays first.
    pub fn wires(&self) -> &[(String, f64)] {
        &self.wires
    }

    /// How each bay is matched.
    pub fn matching(&self) -> &[Matching] {
        &self.matching
    }

    /// Frequency it is solved at, MHz.
    pub fn frequency_mhz(&self) -> f64 {
        self.solution.frequency_mhz
    }

    /// Matching that brings every bay to `z0_ohm` with the others open.
    ///
    /// # Errors
    /// [`MountError::Unmatchable`] for a bay without positive resistance.
    pub fn matched(&self, z0_ohm: f64) -> Result<Vec<Matching>, MountError> {
        self.connectors().matched(z0_ohm)
    }

    /// The same solution with its bays matched otherwise.
    pub fn with_matching(mut self, matching: Vec<Matching>) -> Self {
        self.ports_ohm = self.connectors().ohm(&matching);
        self.matching = matching;
        self
    }

    /// Pattern and network for a feed. The pattern's gain is against the power accepted at the splitter.
    ///
    /// # Errors
    /// Those of [`Feed::solve_ports`].
    pub fn pattern(&self, feed: &Feed) -> Result<(Pattern, Fed), MountError> {
        let fed = feed.solve_ports(&self.ports_ohm, self.frequency_mhz())?;
        let pattern = self.pattern_of(&fed.currents_a, fed.accepted_w());
        Ok((pattern, fed))
    }

    /// Pattern of given connector currents (A peak) against a power, W.
    pub fn pattern_of(&self, currents_a: &[C64], against_w: f64) -> Pattern {
        let volts = self.wire_volts(currents_a);
        let grids = self.embedded();
        let (bearings, elevs) = self.steps;
        let scale = gain_per_field_square(against_w).sqrt();
        Pattern::from_samples(self.frequency_mhz(), bearings, elevs + 1, |b, e| {
            // Azimuth runs from east anticlockwise, bearings from north clockwise.
            let azimuth = (bearings / 4 + bearings - b) % bearings;
            let mut sum = Field::default();
            for (grid, v) in grids.iter().zip(&volts) {
                let f = grid.at(e, azimuth);
                sum.vertical += f[0] * v;
                sum.horizontal += f[1] * v;
            }
            sum * scale.into()
        })
    }

    /// Far field of each bay alone at one ampere into its connector, the others open, as the square root of a gain against a half-wave
    /// dipole for 1 W; over elevations × bearings.
    pub(crate) fn alone(&self, bearings_deg: &[f64], elevs_deg: &[f64]) -> Vec<FieldGrid> {
        let currents = self.currents_alone();
        // Azimuth runs from east anticlockwise, bearings from north clockwise.
        let azimuths: Vec<f64> = bearings_deg.iter().map(|b| 90.0 - b).collect();
        let sets: Vec<_> = currents.iter().collect();
        FieldGrid::in_parts(&self.solution, &sets, elevs_deg, &azimuths, DIGITS_OF_SEARCH)
    }

    /// Far field of each bay alone at one ampere into its connector, the others open, as the square root of a gain against a
    /// half-wave dipole for 1 W.
    ///
    /// # Shape
    /// returns: for each direction, one field a bay
    pub fn fields_of_bays(&self, towards: &[Direction]) -> Vec<Vec<Field>> {
        let currents = self.currents_alone();
        let sets: Vec<_> = currents.iter().collect();
        let field = |[vertical, horizontal]: [C64; 2]| Field { vertical, horizontal };
        self.solution
            .far_field
            .at_all(&sets, &as_azimuths(towards))
            .into_iter()
            .map(|of_bays| of_bays.into_iter().map(field).collect())
            .collect()
    }

    /// Currents on the wires for each bay alone, scaled so that the square of their field is gain for 1 W.
    fn currents_alone(&self) -> Vec<SegmentCurrents> {
        let n = self.bays.len();
        let scale = C64::from(gain_per_field_square(1.0).sqrt());
        (0..n)
            .map(|i| {
                let one: Vec<C64> = (0..n)
                    .map(|j| if i == j { scale } else { C64::default() })
                    .collect();
                self.solution.drive(&self.wire_volts(&one)).currents
            })
            .collect()
    }

    /// Band of gain in one plane for a harness whose cables are each cut with a normal error, coupling and mast included.
    ///
    /// # Errors
    /// Those of [`Feed::solve_ports`]; [`crate::array::ArrayError::Range`] for trials out of range.
    pub fn tolerance_band(
        &self,
        feed: &Feed,
        plane: Plane,
        towards: &[Direction],
        trials: Trials,
    ) -> Result<Vec<Band>, MountError> {
        let sets: Vec<_> = self.solution.embedded.iter().collect();
        let fields = self.solution.far_field.at_all(&sets, &as_azimuths(towards));
        band_of(feed, towards, trials, |feed| {
            let fed = feed.solve_ports(&self.ports_ohm, self.frequency_mhz())?;
            let volts = self.wire_volts(&fed.currents_a);
            let scale = gain_per_field_square(fed.accepted_w());
            let gain = |parts: &Vec<[C64; 2]>| {
                let sum: C64 = parts.iter().zip(&volts).map(|(f, v)| f[plane as usize] * v).sum();
                crate::pattern::dbd(scale * sum.norm_sqr())
            };
            Ok(fields.iter().map(gain).collect())
        })
    }

    /// Volts at the wires' ports for connector currents.
    pub fn wire_volts(&self, currents_a: &[C64]) -> Vec<C64> {
        let amperes = self.connectors().wire_amperes(&self.matching, currents_a);
        (0..amperes.len())
            .map(|p| {
                amperes
                    .iter()
                    .enumerate()
                    .map(|(q, i)| self.wires_ohm[(p, q)] * i)
                    .sum()
            })
            .collect()
    }

    fn embedded(&self) -> &[FieldGrid] {
        self.embedded.get_or_init(|| {
            let (bearings, elevs) = self.steps;
            let azimuths: Vec<f64> = (0..bearings)
                .map(|i| 360.0 * i as f64 / bearings as f64)
                .collect();
            let elevations: Vec<f64> = (0..=elevs)
                .map(|i| -90.0 + 180.0 * i as f64 / elevs as f64)
                .collect();
            let sets: Vec<_> = self.solution.embedded.iter().collect();
            FieldGrid::in_parts(&self.solution, &sets, &elevations, &azimuths, DIGITS)
        })
    }

    fn connectors(&self) -> Connectors<'_> {
        Connectors {
            bays: &self.bays,
            wires_ohm: &self.wires_ohm,
            freq_mhz: self.frequency_mhz(),
        }
    }
}

/// The wires' ports as the bays take them together.
pub(in crate::mount) struct Connectors<'a> {
    pub bays: &'a [BayPorts],
    /// Open-circuit impedances of the wires' ports, ohm.
    pub wires_ohm: &'a Matrix,
    pub freq_mhz: f64,
}

impl Connectors<'_> {
    /// Matching that brings every bay to `z0_ohm` with the others open.
    pub fn matched(&self, z0_ohm: f64) -> Result<Vec<Matching>, MountError> {
        (0..self.bays.len())
            .map(|i| {
                let z = self.raw(i, i);
                if z.re <= 0.5 {
                    return Err(MountError::Unmatchable {
                        bay: i + 1,
                        resistance_ohm: z.re,
                    });
                }
                let turns = (z0_ohm / z.re).sqrt();
                Ok(Matching {
                    turns,
                    series_ohm: -z.im * turns * turns,
                    tuned_mhz: self.freq_mhz,
                })
            })
            .collect()
    }

    /// Impedances between the connectors, ohm.
    pub fn ohm(&self, matching: &[Matching]) -> Matrix {
        Matrix::from_fn(self.bays.len(), self.bays.len(), |i, j| {
            let own = if i == j {
                matching[i].reactance_ohm(self.freq_mhz)
            } else {
                0.0
            };
            self.raw(i, j) * (matching[i].turns * matching[j].turns) + C64::new(0.0, own)
        })
    }

    /// Amperes into the wires' ports for those into the connectors.
    pub fn wire_amperes(&self, matching: &[Matching], currents_a: &[C64]) -> Vec<C64> {
        let mut amperes = vec![C64::default(); self.wires_ohm.nrows()];
        for ((bay, m), i) in self.bays.iter().zip(matching).zip(currents_a) {
            for &(port, weight) in &bay.ports {
                amperes[port] += i * weight * m.turns;
            }
        }
        amperes
    }

    /// Impedance between two bays' bare inputs, ohm: Σ w_p* w_q Z_pq.
    fn raw(&self, i: usize, j: usize) -> C64 {
        let mut z = C64::default();
        for &(p, a) in &self.bays[i].ports {
            for &(q, b) in &self.bays[j].ports {
                z += a.conj() * b * self.wires_ohm[(p, q)];
            }
        }
        z
    }
}

/// Bearings run from north clockwise, the wires' azimuths from east anticlockwise.
fn as_azimuths(towards: &[Direction]) -> Vec<WireDirection> {
    let turned = |d: &Direction| WireDirection {
        azimuth_deg: 90.0 - d.bearing_deg,
        elevation_deg: d.elev_deg,
    };
    towards.iter().map(turned).collect()
}

/// 4π/(2η)/P against a half-wave dipole: times |E·r|² (V², peak) it is gain.
pub(in crate::mount) fn gain_per_field_square(against_w: f64) -> f64 {
    4.0 * std::f64::consts::PI / (2.0 * ETA_OHM) / against_w / HALF_WAVE_DIRECTIVITY
}

/// Largest change of gain within 10 dB of the maximum when the mast is built twice as far beyond the bays, dB, in either plane:
/// the error of cutting it off.
///
/// # Errors
/// Those of [`MountPlan::solved`].
pub fn truncation_db(plan: &MountPlan, feed: &Feed) -> Result<f64, MountError> {
    let longer = MountPlan {
        mast_beyond_m: 2.0 * plan.mast_beyond_m,
        ..plan.clone()
    };
    let (a, b) = (plan.solved()?.pattern(feed)?.0, longer.solved()?.pattern(feed)?.0);
    Ok(a.largest_difference_db(&b, 10.0))
}

/// Samples round the circle: a multiple of four, so that bearings and azimuths share them.
fn bearings(rate: f64) -> usize {
    ((360.0f64 / 2.0)
        .max(rate * std::f64::consts::TAU / 0.2)
        .min(720.0)
        / 4.0)
        .ceil() as usize
        * 4
}

/// Intervals from pole to pole.
fn elevations(rate: f64) -> usize {
    (rate * std::f64::consts::PI / 0.2).clamp(180.0, 1440.0).ceil() as usize
}
