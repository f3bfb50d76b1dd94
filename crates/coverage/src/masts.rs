//! Where should the mast stand? Losses outwards from each place to be served to every possible cell of a mast.
//!
//! P.1812 at half of the time, over land and with the ends' heights exchanged, gives the same loss in both directions, for the
//! clutter of the two end points does not count. So one field per place, its receivers at the mast's height, holds the losses
//! from every cell. `tests/masts.rs` shows within what that holds, and how far the forward run's own sampling lies.

use std::time::{Duration, Instant};

use rayon::prelude::*;
use terrain::{Grid, Position, Surroundings, geodesic};

use crate::control::{Control, Progress};
use crate::cover_row::{CoverRows, ReceivingRule};
use crate::error::CoverageError;
use crate::loss_field::LossField;
use crate::raster::{FieldRaster, grid_round};
use crate::study::Study;
use crate::wanted::{Threshold, Wanted};
use crate::world::World;

/// A place that is to be served.
#[derive(Debug, Clone, PartialEq)]
pub struct Target {
    /// Where.
    pub position: Position,
    /// People there: what it counts.
    pub people: f64,
    /// Its surroundings.
    pub surroundings: Surroundings,
    /// What counts as served there.
    pub wanted: Wanted,
}

/// A search for the best hills.
#[derive(Debug, Clone, PartialEq)]
pub struct Search {
    /// Places to be served, 1 to [`MAX_TARGETS`].
    pub targets: Vec<Target>,
    /// Frequency, polarisation, climate, step; its site is the middle of the area searched, its radius the area's, its antenna
    /// height the mast's. Time must be 50 %.
    pub study: Study,
    /// ERP towards every place, kW.
    pub erp_kw: f64,
    /// Side of a cell, m.
    pub cell_m: f64,
    /// How many hills to name.
    pub best: usize,
    /// Hills nearer to each other than this are one, km.
    pub apart_km: f64,
}

/// Most places of one search.
pub const MAX_TARGETS: usize = 20;

/// A cell where the mast would serve well.
#[derive(Debug, Clone, PartialEq)]
pub struct MastCell {
    /// Middle of the cell.
    pub position: Position,
    /// Ground there, m above sea.
    pub ground_m: f64,
    /// People of the places, each counted with the probability of being served.
    pub people: f64,
    /// Median field less the wanted one at each place, dB; `None` where nothing was computed.
    pub margin_db: Vec<Option<f64>>,
}

/// All cells, and the best.
#[derive(Debug, Clone, PartialEq)]
pub struct Masts {
    /// North-up grid of the cells.
    pub grid: Grid,
    /// People served from each cell, rows from the north; NaN on water, outside the area and behind missing ground.
    pub people: Vec<f32>,
    /// Best hills, best first.
    pub best: Vec<MastCell>,
}

/// One target's losses to the cells.
struct Sweep {
    losses: FieldRaster,
    without_loss_dbuv_m: f64,
    threshold: Threshold,
    people: f64,
}

/// Sweeps outwards from every place and ranks the cells of the area.
///
/// # Errors
/// [`CoverageError`]: no places or too many, a time percentage other than 50, what [`LossField::compute`] gives, or
/// [`CoverageError::Cancelled`].
pub fn best_masts(world: &dyn World, search: &Search, control: &Control<'_>) -> Result<Masts, CoverageError> {
    check(search)?;
    let study = &search.study;
    let rows = CoverRows::new(world.clutter_table(), study.receiving, world.clutter_mode())
        .ok_or(CoverageError::TooManyRows)?;
    let grid = grid_round(study.site, study.radius_km * 1000.0, search.cell_m)?;
    let mut sweeps = Vec::with_capacity(search.targets.len());
    let begun = Instant::now();
    for (i, target) in search.targets.iter().enumerate() {
        let tell = |p: Progress| {
            if let Some(told) = control.progress {
                told(of_all(p, i, search.targets.len(), begun));
            }
        };
        let control = Control {
            progress: Some(&tell),
            cancel: control.cancel,
        };
        sweeps.push(sweep(world, search, target, &rows, grid, &control)?);
    }
    let people = people(world, search, &grid, &sweeps, control)?;
    let best = best(world, search, &grid, &sweeps, &people)?;
    Ok(Masts { grid, people, best })
}

/// Parts that a place's sweep is told in.
const PARTS: u64 = 1000;

/// How far all sweeps have come when one has come so far.
fn of_all(one: Progress, sweep: usize, sweeps: usize, begun: Instant) -> Progress {
    let done = PARTS * sweep as u64 + PARTS * one.done / one.total.max(1);
    let total = PARTS * sweeps as u64;
    let each = begun.elapsed().as_secs_f64() / done.max(1) as f64;
    Progress {
        done,
        total,
        left: (done > 0).then(|| Duration::from_secs_f64(each * total.saturating_sub(done) as f64)),
    }
}

fn check(search: &Search) -> Result<(), CoverageError> {
    let refuse = |what, value| Err(CoverageError::Study { what, value });
    let count = search.targets.len();
    if !(1..=MAX_TARGETS).contains(&count) {
        return refuse("mast-places", count as f64);
    }
    if search.study.conditions.time_pct != 50.0 {
        return refuse("mast-time", search.study.conditions.time_pct);
    }
    if !(1e-6..=1e4).contains(&search.erp_kw) {
        return refuse("mast-erp", search.erp_kw);
    }
    if !(0.0..=1000.0).contains(&search.apart_km) {
        return refuse("mast-apart", search.apart_km);
    }
    match search.targets.iter().find(|t| !(0.0..=1e9).contains(&t.people)) {
        Some(bad) => refuse("mast-people", bad.people),
        None => Ok(()),
    }
}

/// From a place outwards: its aerial sends, the mast receives.
///
/// # Errors
/// As [`LossField::compute`].
pub fn sweep_study(world: &dyn World, search: &Search, target: &Target) -> Result<Study, CoverageError> {
    let rows = CoverRows::new(
        world.clutter_table(),
        search.study.receiving,
        world.clutter_mode(),
    )
    .ok_or(CoverageError::TooManyRows)?;
    let row = rows.of_code(world.spot(target.position)?.cover);
    let apart_km = geodesic::span(search.study.site, target.position).length_m / 1000.0;
    let margin_km = (search.cell_m + search.study.step_m) / 1000.0;
    Ok(Study {
        site: target.position,
        tx_agl_m: row.reference_m,
        receiving: ReceivingRule::TrueHeight(search.study.tx_agl_m),
        radius_km: search.study.radius_km + apart_km + margin_km,
        ..search.study
    })
}

fn sweep(
    world: &dyn World,
    search: &Search,
    target: &Target,
    rows: &CoverRows,
    grid: Grid,
    control: &Control<'_>,
) -> Result<Sweep, CoverageError> {
    let study = &search.study;
    let row = rows.of_code(world.spot(target.position)?.cover);
    let freq_mhz = study.conditions.freq_mhz;
    let threshold = target
        .wanted
        .threshold_in(row, target.surroundings, study.receiving, freq_mhz)?;
    let reach = reach_over(search, target);
    let field = LossField::without_people(world, &sweep_study(world, search, target)?, &reach, control)?;
    Ok(Sweep {
        losses: field.raster_of(&field.losses_db(), grid),
        without_loss_dbuv_m: field.field_without_loss_dbuv_m(),
        threshold,
        people: target.people,
    })
}

/// How far a sweep must go on each azimuth to leave the area searched, km; 0 where it never enters. Flat geometry, so with 1 %
/// and the cells' size to spare.
fn reach_over(search: &Search, target: &Target) -> impl Fn(f64) -> f64 + Sync + use<> {
    let span = geodesic::span(target.position, search.study.site);
    let apart_km = span.length_m / 1000.0;
    let spare_km =
        (search.cell_m + search.study.step_m) / 1000.0 + 0.01 * (apart_km + search.study.radius_km);
    let radius_km = search.study.radius_km + spare_km;
    move |azimuth_deg| {
        let (sin, cos) = (azimuth_deg - span.azimuth_deg).to_radians().sin_cos();
        let half = radius_km.powi(2) - (apart_km * sin).powi(2);
        if half < 0.0 {
            return 0.0;
        }
        (apart_km * cos + half.sqrt()).max(0.0)
    }
}

/// People served from every cell on land within the radius.
fn people(
    world: &dyn World,
    search: &Search,
    grid: &Grid,
    sweeps: &[Sweep],
    control: &Control<'_>,
) -> Result<Vec<f32>, CoverageError> {
    let width = grid.width() as usize;
    let mut people = vec![f32::NAN; width * grid.height() as usize];
    let gain_db = 10.0 * search.erp_kw.log10();
    let radius_m = search.study.radius_km * 1000.0;
    people
        .par_chunks_mut(width)
        .enumerate()
        .try_for_each(|(row, cells)| {
            control.check()?;
            for (col, cell) in cells.iter_mut().enumerate() {
                let (col, row) = (col as u32, row as u32);
                let Some(served) = served_from(sweeps, (col, row), gain_db) else {
                    continue;
                };
                let Some(position) = grid.position(col, row) else {
                    continue;
                };
                let inside = geodesic::span(search.study.site, position).length_m <= radius_m;
                if inside && world.spot(position).is_ok_and(|spot| !spot.water) {
                    *cell = served as f32;
                }
            }
            Ok::<(), CoverageError>(())
        })?;
    Ok(people)
}

/// People served from a cell; `None` where no place has a loss.
fn served_from(sweeps: &[Sweep], cell: (u32, u32), gain_db: f64) -> Option<f64> {
    let mut sum = None;
    for sweep in sweeps {
        if let Some(margin_db) = sweep.margin_db(cell, gain_db) {
            *sum.get_or_insert(0.0) += sweep.people * sweep.threshold.probability(margin_db);
        }
    }
    sum
}

/// The best cells, none nearer to a better one than the search wants.
fn best(
    world: &dyn World,
    search: &Search,
    grid: &Grid,
    sweeps: &[Sweep],
    people: &[f32],
) -> Result<Vec<MastCell>, CoverageError> {
    let mut order: Vec<u32> = (0..people.len() as u32)
        .filter(|&i| !people[i as usize].is_nan())
        .collect();
    // Equal cells in the order of the grid, so that the answer does not depend on the sort.
    order.sort_unstable_by(|&a, &b| people[b as usize].total_cmp(&people[a as usize]).then(a.cmp(&b)));
    let gain_db = 10.0 * search.erp_kw.log10();
    let mut best: Vec<MastCell> = Vec::new();
    for index in order {
        if best.len() >= search.best {
            break;
        }
        let cell = (index % grid.width(), index / grid.width());
        let Some(position) = grid.position(cell.0, cell.1) else {
            continue;
        };
        let near =
            |other: &MastCell| geodesic::span(other.position, position).length_m < search.apart_km * 1000.0;
        if best.iter().any(near) {
            continue;
        }
        best.push(MastCell {
            position,
            ground_m: world.spot(position)?.height_m,
            people: f64::from(people[index as usize]),
            margin_db: sweeps.iter().map(|s| s.margin_db(cell, gain_db)).collect(),
        });
    }
    Ok(best)
}

impl Sweep {
    /// Median field at the place less what is wanted there, with the mast in a cell, dB.
    fn margin_db(&self, (col, row): (u32, u32), gain_db: f64) -> Option<f64> {
        let loss_db = self.losses.value_db(col, row)?;
        Some(self.without_loss_dbuv_m - loss_db + gain_db - self.threshold.at_prediction_dbuv_m())
    }
}
