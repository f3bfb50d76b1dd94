//! From a place to the best one near it, by ever smaller steps.

use super::{Found, Grid, MastPlace};

/// Steps at the end: a degree and a centimetre, as a rigger is told.
const LAST_TURN_DEG: f64 = 1.0;
const LAST_OFF_M: f64 = 0.01;

/// Walks to better places, from half the grid's steps down to a degree and a centimetre; places are whole steps from where it starts.
pub(super) fn climbed(
    start: Found,
    grid: &Grid,
    (low_m, high_m): (f64, f64),
    mut judge: impl FnMut(MastPlace) -> Option<Found>,
) -> Found {
    let mut best = start;
    let (mut turn, mut off) = (grid.bearing_step_deg, grid.step_m);
    while turn > LAST_TURN_DEG || off > LAST_OFF_M {
        turn = (turn / 2.0).round().max(LAST_TURN_DEG);
        off = ((off / 2.0 / LAST_OFF_M).round() * LAST_OFF_M).max(LAST_OFF_M);
        while let Some(better) = neighbours(best.place, turn, off)
            .into_iter()
            .filter(|p| (low_m - 1e-9..=high_m + 1e-9).contains(&p.stand_off_m))
            .filter_map(&mut judge)
            .filter(|f| f.worst_place_dbw > best.worst_place_dbw + 1e-6)
            .max_by(|a, b| a.worst_place_dbw.total_cmp(&b.worst_place_dbw))
        {
            best = better;
        }
    }
    best
}

fn neighbours(from: MastPlace, turn_deg: f64, off_m: f64) -> [MastPlace; 8] {
    [
        (1.0, 0.0),
        (-1.0, 0.0),
        (0.0, 1.0),
        (0.0, -1.0),
        (1.0, 1.0),
        (-1.0, -1.0),
        (1.0, -1.0),
        (-1.0, 1.0),
    ]
    .map(|(round, out)| MastPlace {
        bearing_deg: (from.bearing_deg + round * turn_deg).rem_euclid(360.0),
        stand_off_m: from.stand_off_m + out * off_m,
    })
}

/// Some of the best places, none a neighbour of a better one.
pub(super) fn spread(mut found: Vec<Found>, grid: &Grid, most: usize) -> Vec<Found> {
    found.sort_by(|a, b| b.worst_place_dbw.total_cmp(&a.worst_place_dbw));
    let mut out: Vec<Found> = Vec::new();
    for f in found {
        let near = |g: &Found| {
            let turn = (f.place.bearing_deg - g.place.bearing_deg + 540.0).rem_euclid(360.0) - 180.0;
            turn.abs() < 2.5 * grid.bearing_step_deg
                && (f.place.stand_off_m - g.place.stand_off_m).abs() < 2.5 * grid.step_m
        };
        if !out.iter().any(near) {
            out.push(f);
        }
        if out.len() == most {
            break;
        }
    }
    out
}
