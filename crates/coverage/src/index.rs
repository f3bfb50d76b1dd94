//! People served, summed in microseconds for any power, pattern and tilt.

use crate::erp::{ErpTable, Spot};
use crate::error::CoverageError;
use crate::loss_field::LossField;
use crate::wanted::{Wanted, probability};

/// Azimuths every index has, in hundredths of a degree; the last is the first again.
const AZIMUTHS_CDEG: [i32; 25] = [
    0, 1500, 3000, 4500, 6000, 7500, 9000, 10500, 12000, 13500, 15000, 16500, 18000, 19500, 21000, 22500,
    24000, 25500, 27000, 28500, 30000, 31500, 33000, 34500, 36000,
];

/// Elevations every index has, in hundredths of a degree.
const ELEVS_CDEG: [i32; 21] = [
    -9000, -6000, -4500, -3600, -3000, -2500, -2000, -1600, -1200, -900, -700, -500, -400, -300, -200, -100,
    0, 100, 400, 2000, 9000,
];

/// Most azimuths and elevations of an index, from fine to coarse: the first that leaves no more than [`MOST_DIRECTIONS`] with
/// people behind them is taken. People spread over more directions need fewer angles: their errors cancel.
const MOST: [(usize, usize); 3] = [(45, 144), (45, 104), (37, 80)];

/// Directions that can be summed in well under 20 µs.
const MOST_DIRECTIONS: usize = 2600;

/// ERP of the tables, dB relative to 1 kW: from, step, number. Beyond the ends the end's value holds: 1 µW and 6 MW.
const FROM_DBKW: f64 = -90.0;
const STEP_DB: f64 = 1.0;
const STEPS: usize = 128;

/// Margins at 1 kW that are told apart, dB: from −250 to +250, so many to a step of the tables.
const MARGIN_FROM_DB: f64 = -250.0;
const MARGINS_PER_STEP: usize = 2;
const MARGINS: usize = 1001;

/// For each direction with people behind it: how many are served as a function of the ERP in that direction.
///
/// People stand between directions in proportion, so nothing is rounded to the nearest. Equal to the full sum within 0.5 % on
/// 100 seeded antennas and powers (`tests/index.rs`).
#[derive(Debug, Clone, PartialEq)]
pub struct CoverageIndex {
    directions: Vec<Towards>,
    /// Direction by direction, `STEPS` each, rising: share of the people behind it in 65 535ths.
    served: Vec<u16>,
    people_total: f64,
}

/// A direction with people behind it.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Towards {
    spot: Spot,
    /// People in one 65 535th.
    each: f32,
}

/// The whole of the people behind a direction in the tables.
const WHOLE: f64 = 65_535.0;

/// An antenna as an index sees it: relative ERP towards each of its directions, without the power.
#[derive(Debug, Clone, PartialEq)]
pub struct Aim {
    /// Position in the tables at the table's own power.
    at_step: Vec<f32>,
}

impl CoverageIndex {
    /// The index of a field for one wanted field and situation.
    ///
    /// # Errors
    /// As [`LossField::served`].
    pub fn new(field: &LossField, wanted: &Wanted) -> Result<Self, CoverageError> {
        let criterion = field.criterion(wanted)?;
        let (classes, class_of_row) = spread_classes(criterion.thresholds.iter().map(|t| t.spread_db));
        let curves: Vec<Vec<f32>> = classes.iter().map(|&spread_db| curve(spread_db)).collect();
        let base = field.field_without_loss_dbuv_m();
        let (mut people_total, mut seen) = (0.0, Vec::with_capacity(field.listeners.len()));
        for (radial, index, count) in field.people_on_radials() {
            people_total += count;
            let Some(loss_db) = field.loss_db(index) else {
                continue;
            };
            let row = field.row_index(index);
            seen.push(Piece {
                azimuth_deg: field.lattice.azimuth_deg(radial),
                elev_deg: field.elev_deg(index),
                class: class_of_row[row],
                margin_db: base - loss_db - criterion.thresholds[row].at_prediction_dbuv_m(),
                count,
            });
        }
        let (mesh, pieces) = split(&seen);
        Ok(Self::tabulated(&pieces, &mesh, &curves, people_total))
    }

    fn tabulated(pieces: &[Share], mesh: &Mesh, curves: &[Vec<f32>], people_total: f64) -> Self {
        let (mut directions, mut served) = (Vec::new(), Vec::new());
        for same in pieces.chunk_by(|a, b| a.0 == b.0) {
            let (azimuth_deg, elev_deg) = mesh.direction(usize::from(same[0].0));
            let mut table = [0.0; STEPS];
            for bin in same.chunk_by(|a, b| (a.1, a.2) == (b.1, b.2)) {
                let count: f64 = bin.iter().map(|p| p.3).sum();
                let curve = &curves[usize::from(bin[0].1)][usize::from(bin[0].2)..];
                table
                    .iter_mut()
                    .zip(curve.iter().step_by(MARGINS_PER_STEP))
                    .for_each(|(sum, &share)| *sum += count * f64::from(share));
            }
            let behind: f64 = same.iter().map(|share| share.3).sum();
            directions.push(Towards {
                spot: Spot::at(azimuth_deg, elev_deg),
                each: (behind / WHOLE) as f32,
            });
            served.extend(table.iter().map(|&sum| (sum / behind * WHOLE).round() as u16));
        }
        Self {
            directions,
            served,
            people_total,
        }
    }

    /// People within the radius.
    pub fn people_total(&self) -> f64 {
        self.people_total
    }

    /// Number of directions with people behind them.
    pub fn directions(&self) -> usize {
        self.directions.len()
    }

    /// The directions with people behind them, azimuth and elevation in degrees, in the order of [`Self::people_towards`].
    pub fn directions_deg(&self) -> impl Iterator<Item = (f64, f64)> + '_ {
        self.directions.iter().map(|towards| towards.spot.direction_deg())
    }

    /// People served by an ERP given for each direction, dB relative to 1 kW.
    ///
    /// # Panics
    /// If there are fewer values than directions.
    pub fn people_towards(&self, erp_dbkw: &[f32]) -> f64 {
        let erp_dbkw = &erp_dbkw[..self.directions.len()];
        self.sum(|k, _| (erp_dbkw[k] - FROM_DBKW as f32) * (1.0 / STEP_DB) as f32)
    }

    /// People behind one direction served by an ERP there, dB relative to 1 kW.
    ///
    /// # Panics
    /// If there is no such direction.
    pub fn people_behind(&self, direction: usize, erp_dbkw: f32) -> f64 {
        let (towards, table) = (
            &self.directions[direction],
            &self.served.as_chunks::<STEPS>().0[direction],
        );
        let step = (erp_dbkw - FROM_DBKW as f32) * (1.0 / STEP_DB) as f32;
        f64::from(at(table, step) * towards.each)
    }

    /// People served by this antenna and power.
    pub fn people(&self, erp: &ErpTable) -> f64 {
        let first = (erp.common_db() - FROM_DBKW) as f32;
        self.sum(|_, towards| (erp.at_spot(&towards.spot) + first) * (1.0 / STEP_DB) as f32)
    }

    /// An antenna made ready for many powers.
    pub fn aim(&self, erp: &ErpTable) -> Aim {
        let first = (erp.common_db() - FROM_DBKW) as f32;
        let step = |towards: &Towards| (erp.at_spot(&towards.spot) + first) * (1.0 / STEP_DB) as f32;
        Aim {
            at_step: self.directions.iter().map(step).collect(),
        }
    }

    /// People served by an antenna at `plus_db` above the power it was made ready with.
    ///
    /// # Panics
    /// If the antenna was made ready by another index with fewer directions.
    pub fn people_at(&self, aim: &Aim, plus_db: f64) -> f64 {
        let plus = (plus_db / STEP_DB) as f32;
        let steps = &aim.at_step[..self.directions.len()];
        self.sum(|k, _| steps[k] + plus)
    }

    #[inline(always)]
    fn sum(&self, step: impl Fn(usize, &Towards) -> f32) -> f64 {
        let tables = self.served.as_chunks::<STEPS>().0;
        self.directions
            .iter()
            .zip(tables)
            .enumerate()
            .map(|(k, (towards, table))| f64::from(at(table, step(k, towards)) * towards.each))
            .sum()
    }
}

#[inline(always)]
fn at(table: &[u16; STEPS], step: f32) -> f32 {
    let step = step.clamp(1.0, (STEPS - 3) as f32);
    let k = (step as usize).clamp(1, STEPS - 3);
    let t = step - k as f32;
    // The cubic through four neighbours (Catmull and Rom): curves of a normal distribution within 10⁻⁴ at a spread of 6 dB.
    let [a, b, c, d] = [table[k - 1], table[k], table[k + 1], table[k + 2]].map(f32::from);
    b + 0.5 * t * (c - a + t * (2.0 * a - 5.0 * b + 4.0 * c - d + t * (3.0 * (b - c) + d - a)))
}

/// People of one receiver.
struct Piece {
    azimuth_deg: f64,
    elev_deg: f64,
    class: u8,
    margin_db: f64,
    count: f64,
}

/// People in one direction, of one spread, at one margin.
type Share = (u16, u8, u16, f64);

/// Everybody split over the finest mesh that is small enough to be summed fast; shares sorted.
fn split(seen: &[Piece]) -> (Mesh, Vec<Share>) {
    let over = |most| {
        let mesh = Mesh::of(seen, most);
        let mut shares = Vec::with_capacity(seen.len() * 8);
        seen.iter().for_each(|piece| piece.split(&mesh, &mut shares));
        shares.sort_unstable_by_key(|share| (share.0, share.1, share.2));
        (mesh, shares)
    };
    let small = |shares: &[Share]| shares.chunk_by(|a, b| a.0 == b.0).count() <= MOST_DIRECTIONS;
    let (last, finer) = MOST.split_last().expect("three sizes");
    for &most in finer {
        let (mesh, shares) = over(most);
        if small(&shares) {
            return (mesh, shares);
        }
    }
    over(*last)
}

impl Piece {
    /// Splits people between the four directions around and the two margins beside.
    fn split(&self, mesh: &Mesh, out: &mut Vec<Share>) {
        let (a, ta) = beside(&mesh.azimuths_deg, self.azimuth_deg.rem_euclid(360.0));
        let (e, te) = beside(&mesh.elevs_deg, self.elev_deg);
        let m = ((self.margin_db - MARGIN_FROM_DB) / STEP_DB * MARGINS_PER_STEP as f64)
            .clamp(0.0, (MARGINS - 1) as f64 - 1e-6);
        let (k, tm) = (m as usize, m - m.floor());
        for (a, wa) in [(a, 1.0 - ta), (a + 1, ta)] {
            for (e, we) in [(e, 1.0 - te), (e + 1, te)] {
                for (k, wm) in [(k, 1.0 - tm), (k + 1, tm)] {
                    let count = self.count * wa * we * wm;
                    if count > 0.0 {
                        out.push((mesh.node(a, e), self.class, k as u16, count));
                    }
                }
            }
        }
    }
}

/// Angles, degrees: the given ones, and between them more where people are. The interval with the greatest people × width² is
/// halved first, for that is what straight lines between angles cost.
///
/// # Shape
/// - `nodes`: rising, hundredths of a degree; `people`: angle in hundredths of a degree, and people there
fn crowded_deg(nodes: &[i32], mut people: Vec<(i32, f64)>, most: usize) -> Vec<f64> {
    people.sort_unstable_by_key(|&(angle, _)| angle);
    let running = people.iter().scan(0.0, |sum, &(_, n)| {
        *sum += n;
        Some(*sum)
    });
    let below: Vec<f64> = std::iter::once(0.0).chain(running).collect();
    let up_to = |angle: i32| below[people.partition_point(|&(a, _)| a < angle)];
    let cost = |a: i32, b: i32| (up_to(b) - up_to(a)) * f64::from(b - a).powi(2);
    let mut nodes = nodes.to_vec();
    while nodes.len() < most {
        let worst = (0..nodes.len() - 1)
            .filter(|&k| nodes[k + 1] - nodes[k] > 1)
            .max_by(|&i, &k| cost(nodes[i], nodes[i + 1]).total_cmp(&cost(nodes[k], nodes[k + 1])));
        match worst {
            Some(k) if cost(nodes[k], nodes[k + 1]) > 0.0 => {
                nodes.insert(k + 1, (nodes[k] + nodes[k + 1]).div_euclid(2));
            }
            _ => break,
        }
    }
    nodes.iter().map(|&a| f64::from(a) / 100.0).collect()
}

/// Azimuths and elevations between which people are split.
struct Mesh {
    azimuths_deg: Vec<f64>,
    elevs_deg: Vec<f64>,
}

impl Mesh {
    fn of(seen: &[Piece], most: (usize, usize)) -> Self {
        let cdeg = |deg: f64| (deg * 100.0).round() as i32;
        let azimuths = seen.iter().map(|p| (cdeg(p.azimuth_deg), p.count)).collect();
        let elevs = seen.iter().map(|p| (cdeg(p.elev_deg), p.count)).collect();
        Self {
            azimuths_deg: crowded_deg(&AZIMUTHS_CDEG, azimuths, most.0),
            elevs_deg: crowded_deg(&ELEVS_CDEG, elevs, most.1),
        }
    }

    fn direction(&self, node: usize) -> (f64, f64) {
        let elevs = self.elevs_deg.len();
        (self.azimuths_deg[node / elevs], self.elevs_deg[node % elevs])
    }

    fn node(&self, azimuth: usize, elev: usize) -> u16 {
        // The last azimuth is the first again.
        let azimuth = azimuth % (self.azimuths_deg.len() - 1);
        (azimuth * self.elevs_deg.len() + elev) as u16
    }
}

/// The interval of rising nodes that holds an angle, and how far along it lies.
fn beside(nodes_deg: &[f64], angle_deg: f64) -> (usize, f64) {
    let k = (nodes_deg.partition_point(|&a| a <= angle_deg).max(1) - 1).min(nodes_deg.len() - 2);
    let along = (angle_deg - nodes_deg[k]) / (nodes_deg[k + 1] - nodes_deg[k]);
    (k, along.clamp(0.0, 1.0))
}

/// Different spreads, and which one each row has.
fn spread_classes(spreads_db: impl Iterator<Item = f64>) -> (Vec<f64>, Vec<u8>) {
    let (mut classes, mut of_row): (Vec<f64>, Vec<u8>) = (Vec::new(), Vec::new());
    for spread_db in spreads_db {
        let class = classes.iter().position(|&s| s == spread_db).unwrap_or_else(|| {
            classes.push(spread_db);
            classes.len() - 1
        });
        of_row.push(class as u8);
    }
    (classes, of_row)
}

/// Probability by margin bin plus ERP step: a margin bin's table starts at its own index.
fn curve(spread_db: f64) -> Vec<f32> {
    (0..MARGINS + STEPS * MARGINS_PER_STEP)
        .map(|i| {
            let margin_db = MARGIN_FROM_DB + FROM_DBKW + i as f64 * STEP_DB / MARGINS_PER_STEP as f64;
            probability(margin_db, spread_db) as f32
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn angles_crowd_where_people_are() {
        let people = vec![(-812, 500.0), (-799, 900.0), (-30, 20.0)];
        let elevs = crowded_deg(&ELEVS_CDEG, people, MOST[0].1);
        assert!(elevs.is_sorted_by(|a, b| a < b) && elevs.len() <= MOST[0].1);
        assert_eq!((elevs[0], elevs[elevs.len() - 1]), (-90.0, 90.0));
        let near = |e: f64| elevs.windows(2).find(|w| w[1] > e).map(|w| w[1] - w[0]).unwrap();
        assert!(near(-8.05) < 0.2 && near(-45.0) > 5.0);
        assert_eq!(crowded_deg(&ELEVS_CDEG, Vec::new(), 50).len(), ELEVS_CDEG.len());
        assert!(MOST[0].0 * MOST[0].1 < usize::from(u16::MAX));
    }

    #[test]
    fn nobody_is_lost_between_directions() {
        let mesh = Mesh {
            azimuths_deg: crowded_deg(&AZIMUTHS_CDEG, vec![(12_340, 3.0)], MOST[0].0),
            elevs_deg: crowded_deg(&ELEVS_CDEG, Vec::new(), MOST[0].1),
        };
        let mut out = Vec::new();
        for direction in [(0.0, -0.1), (359.99, -89.9), (123.4, 90.0), (7.0, -90.0)] {
            out.clear();
            let piece = Piece {
                azimuth_deg: direction.0,
                elev_deg: direction.1,
                class: 0,
                margin_db: -31.27,
                count: 17.0,
            };
            piece.split(&mesh, &mut out);
            let sum: f64 = out.iter().map(|p| p.3).sum();
            assert!((sum - 17.0).abs() < 1e-9);
        }
    }
}
