//! The field at one place, term by term, and what stands in the way.

use propagation::p1812::bullington::{CLEAR_NU, knife_edge_db};
use propagation::p1812::horizon::{above_line_m, nu_root_m};
use propagation::p1812::{
    Antennas, Bearing, Constants, Link, Prediction, Steps, check_antennas, field_1kw_dbuv_m, predict,
};
use terrain::{Position, Profile, Surroundings};

use crate::cover_row::{CoverRow, CoverRows};
use crate::erp::ErpTable;
use crate::error::CoverageError;
use crate::study::Study;
use crate::walk;
use crate::wanted::{Threshold, Wanted};
use crate::world::World;

/// A part of the loss to a listener.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum TermKind {
    /// Distance alone. P.1812 § 4.2.
    FreeSpace,
    /// Ground and clutter in the way, for half of the time. P.1812 §§ 4.3.1 and 4.3.4: the Bullington construction over the
    /// actual path.
    Obstacles,
    /// The curve of a smooth Earth beyond what the construction holds. P.1812 §§ 4.3.2 to 4.3.4.
    CurvedEarth,
    /// What other ways and other times change: ducting, troposcatter, a time percentage under 50. P.1812 §§ 4.2, 4.4 to 4.6.
    /// Mostly negative.
    OtherWays,
    /// From the height of prediction down to the aerial. P.2108 § 3.1.
    Height,
    /// Into the building, in the median of buildings. P.2109 § 3.
    Walls,
}

/// One term of a loss.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Term {
    /// Which.
    pub kind: TermKind,
    /// Loss, dB.
    pub db: f64,
}

/// What reaches furthest into the way of the wave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Obstacle {
    /// From the site, km.
    pub distance_km: f64,
    /// Where.
    pub position: Position,
    /// Its top above sea, m, clutter included.
    pub top_amsl_m: f64,
    /// The part of the top that is clutter, m.
    pub clutter_m: f64,
    /// Above the straight line between the aerials over the median Earth, m; negative where it stays below.
    pub above_ray_m: f64,
    /// Loss as a single knife edge, dB: P.526 § 4.1. The path's own loss counts all obstacles together.
    pub knife_edge_db: f64,
}

/// The field at a place and how it comes about.
#[derive(Debug, Clone, PartialEq)]
pub struct AtPlace {
    /// From the site, km.
    pub distance_km: f64,
    /// From the site, degrees clockwise from true north.
    pub azimuth_deg: f64,
    /// Elevation at which the ray leaves the antenna, degrees; a depression is negative.
    pub elev_deg: f64,
    /// ERP towards the place, dB relative to 1 kW.
    pub erp_dbkw: f64,
    /// Terms of the loss; their sum is `loss_db`.
    pub terms: Vec<Term>,
    /// Loss to the listener, dB.
    pub loss_db: f64,
    /// Median field at the listener, dB(µV/m).
    pub field_dbuv_m: f64,
    /// Median field at the height of prediction, dB(µV/m).
    pub field_at_prediction_dbuv_m: f64,
    /// Height of prediction above ground, m.
    pub prediction_agl_m: f64,
    /// What is wanted there, and the spreads.
    pub threshold: Threshold,
    /// Median field less the wanted field, dB.
    pub margin_db: f64,
    /// Probability that the wanted field is reached, 0…1.
    pub probability: f64,
    /// What stands round the listener.
    pub row: CoverRow,
    /// The prediction with every step of P.1812.
    pub prediction: Prediction,
    /// The worst obstacle; `None` where nothing comes within the zone that matters (ν ≤ −0.78).
    pub obstacle: Option<Obstacle>,
    /// The path, site first.
    pub profile: Profile,
}

/// The field at a place, point to point over the path that ends there.
///
/// # Units
/// - `surroundings`: of the place; `None` reads them off the land cover
///
/// # Errors
/// [`CoverageError`]: a place at the site, ground missing on the way, conditions outside P.1812.
pub fn at_place(
    world: &dyn World,
    study: &Study,
    place: Position,
    erp: &ErpTable,
    wanted: &Wanted,
    surroundings: Option<Surroundings>,
) -> Result<AtPlace, CoverageError> {
    study.check()?;
    let profile = path_to(world, study, place)?;
    let rows = CoverRows::new(world.clutter_table(), study.receiving, world.clutter_mode())
        .ok_or(CoverageError::TooManyRows)?;
    let row = *rows.of_code(*profile.covers.last().expect("a path has two ends"));
    let constants = Constants::new(&study.conditions)?;
    let antennas = Antennas {
        tx_agl_m: study.tx_agl_m,
        rx_agl_m: row.reference_m,
    };
    check_antennas(&antennas)?;
    let prediction = predict(
        &walk::radio_profile(&profile, profile.len())?,
        &Link {
            conditions: study.conditions,
            antennas,
            bearing: Bearing::new(study.site.lat_deg(), profile.azimuth_deg),
            coast: None,
        },
    )?;
    let elev_deg = departure_deg(&profile, &antennas, constants.ae_km);
    let erp_dbkw = erp.erp_dbkw(profile.azimuth_deg, elev_deg);
    let threshold = wanted.threshold_in(
        &row,
        surroundings.unwrap_or(row.surroundings()),
        study.receiving,
        study.conditions.freq_mhz,
    )?;
    let terms = terms(&prediction, wanted, &row, study)?;
    let loss_db = prediction.loss_db + threshold.situation_db;
    let without_loss = field_1kw_dbuv_m(0.0, constants.freq_ghz);
    let field_dbuv_m = without_loss + erp_dbkw - loss_db;
    let margin_db = field_dbuv_m - threshold.wanted_dbuv_m;
    Ok(AtPlace {
        distance_km: profile.length_km,
        azimuth_deg: profile.azimuth_deg,
        elev_deg,
        erp_dbkw,
        terms,
        loss_db,
        field_dbuv_m,
        field_at_prediction_dbuv_m: field_dbuv_m + threshold.situation_db,
        prediction_agl_m: row.reference_m,
        threshold,
        margin_db,
        probability: threshold.probability(margin_db),
        row,
        prediction,
        obstacle: obstacle(&profile, &antennas, &constants),
        profile,
    })
}

/// The path from the site to a place, complete.
fn path_to(world: &dyn World, study: &Study, place: Position) -> Result<Profile, CoverageError> {
    let distance_m = terrain::geodesic::span(study.site, place).length_m;
    if distance_m < 1.0 {
        return Err(CoverageError::AtTheSite { distance_m });
    }
    if distance_m > 3.0e6 {
        return Err(CoverageError::Study {
            what: "place-distance",
            value: distance_m / 1000.0,
        });
    }
    let profile = world.path(study.site, place, study.step_m)?;
    let usable = profile.usable_len();
    if usable < profile.len() {
        return Err(CoverageError::MissingGround {
            from_km: profile.distances_km[usable],
        });
    }
    Ok(profile)
}

/// Elevation at which the ray leaves: towards the receiver or the highest ground before it.
fn departure_deg(profile: &Profile, antennas: &Antennas, ae_km: f64) -> f64 {
    let antenna_m = profile.heights_m[0] + antennas.tx_agl_m;
    let last = profile.len() - 1;
    let towards =
        |i: usize, height_m| walk::elevation_rad(antenna_m, height_m, profile.distances_km[i], ae_km);
    (1..last)
        .map(|i| towards(i, profile.heights_m[i]))
        .fold(
            towards(last, profile.heights_m[last] + antennas.rx_agl_m),
            f64::max,
        )
        .to_degrees()
}

fn terms(
    prediction: &Prediction,
    wanted: &Wanted,
    row: &CoverRow,
    study: &Study,
) -> Result<Vec<Term>, CoverageError> {
    let freq_mhz = study.conditions.freq_mhz;
    let mut terms = path_terms(prediction);
    let height_db = wanted.situation.row_loss_db(row, study.receiving, freq_mhz)?;
    terms.push(Term {
        kind: TermKind::Height,
        db: height_db,
    });
    terms.push(Term {
        kind: TermKind::Walls,
        db: wanted.situation.entry_loss_db(freq_mhz)?,
    });
    Ok(terms)
}

/// Terms of the path itself; they add up to its loss.
fn path_terms(prediction: &Prediction) -> Vec<Term> {
    let Some(Steps { closed, .. }) = &prediction.steps else {
        return vec![Term {
            kind: TermKind::FreeSpace,
            db: prediction.loss_db,
        }];
    };
    let free_db = closed.direct.line_of_sight.lbfs_db;
    let (obstacles_db, all_db) = (closed.median.lbulla_db, closed.median.ld_db);
    [
        (TermKind::FreeSpace, free_db),
        (TermKind::Obstacles, obstacles_db),
        (TermKind::CurvedEarth, all_db - obstacles_db),
        (TermKind::OtherWays, prediction.loss_db - free_db - all_db),
    ]
    .map(|(kind, db)| Term { kind, db })
    .to_vec()
}

/// The point of the path with the greatest ν over the median Earth.
fn obstacle(profile: &Profile, antennas: &Antennas, constants: &Constants) -> Option<Obstacle> {
    let last = profile.len() - 1;
    let path_km = profile.distances_km[last];
    let ends_m = (
        profile.heights_m[0] + antennas.tx_agl_m,
        profile.heights_m[last] + antennas.rx_agl_m,
    );
    let top = |i: usize| profile.heights_m[i] + profile.clutter_m[i];
    let above = |i: usize| above_line_m(top(i), profile.distances_km[i], path_km, ends_m, constants.ae_km);
    let nu = |i: usize| nu_root_m(above(i), profile.distances_km[i], path_km) / constants.lambda_m.sqrt();
    let worst = (1..last).max_by(|&a, &b| nu(a).total_cmp(&nu(b)))?;
    (nu(worst) > CLEAR_NU).then(|| Obstacle {
        distance_km: profile.distances_km[worst],
        position: profile.positions[worst],
        top_amsl_m: top(worst),
        clutter_m: profile.clutter_m[worst],
        above_ray_m: above(worst),
        knife_edge_db: knife_edge_db(nu(worst)),
    })
}
