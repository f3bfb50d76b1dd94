//! The pattern unrolled: azimuth along, elevation up, level under the peak in steps of the map's ink, the served places on it.

use super::round::{letters, plated};
use crate::map::tint_hex;
use crate::svg::{INK, INK_2, SANS};
use assess::handover::{Cuts, Radiation};
use std::fmt::Write;

/// Width and height of the drawing.
const SIZE: (f64, f64) = (820.0, 236.0);
/// Frame of the plot: left, top, right, foot.
const FRAME: (f64, f64, f64, f64) = (60.0, 8.0, 716.0, 206.0);

/// The drawing.
pub(super) fn of(plane: &Cuts, antenna: &Radiation, compass: &[String; 4]) -> String {
    let (width, height) = SIZE;
    let (left, top, right, foot) = FRAME;
    let grid = &plane.unrolled;
    let (rows, columns) = (
        grid.gain_dbd.len().max(1),
        grid.gain_dbd.first().map_or(1, Vec::len).max(1),
    );
    let (cell_x, cell_y) = ((right - left) / columns as f64, (foot - top) / rows as f64);
    let y_of = |elev: f64| foot - ((elev - grid.from_elev_deg) / grid.elev_step_deg + 0.5) * cell_y;
    let x_of = |azimuth: f64| left + azimuth / 360.0 * (right - left);
    // Steps under the peak; below the last one the land's own tint.
    let steps: Vec<f64> = antenna
        .levels
        .iter()
        .map(|(db, _)| *db)
        .filter(|db| *db < 0.0)
        .collect();
    let class = |db: f64| steps.iter().position(|s| db >= *s).map_or(0, |i| 6 - i);
    let mut out = format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}" height="{height}" font-family="{SANS}">"#
    );
    for (row, cells) in grid.gain_dbd.iter().enumerate() {
        let y = foot - (row + 1) as f64 * cell_y;
        // The middle of a cell is its azimuth: the first column is half at either end.
        let mut from = 0;
        while from < columns {
            let tint = class(cells[from] - plane.peak_dbd);
            let mut to = from + 1;
            while to < columns && class(cells[to] - plane.peak_dbd) == tint {
                to += 1;
            }
            let _ = write!(
                out,
                r#"<rect x="{:.1}" y="{y:.1}" width="{:.2}" height="{:.2}" fill="{}"/>"#,
                left + from as f64 * cell_x,
                (to - from) as f64 * cell_x + 0.3,
                cell_y + 0.3,
                tint_hex(tint)
            );
            from = to;
        }
    }
    let _ = write!(
        out,
        r#"<rect x="{left}" y="{top}" width="{:.1}" height="{:.1}" fill="none" stroke="{INK}" stroke-width="1.25"/>"#,
        right - left,
        foot - top
    );
    for (deg, says) in antenna.elevations.iter().filter(|(deg, _)| y_of(*deg) <= foot) {
        out += &letters((left - 6.0, y_of(*deg) + 4.0), "end", 400, INK_2).of(says);
    }
    for (quarter, name) in compass.iter().chain(compass.first()).enumerate() {
        let x = x_of(quarter as f64 * 90.0);
        let _ = write!(out, r#"<path d="M{x:.1} {foot}v5" stroke="{INK}"/>"#);
        out += &letters((x, foot + 19.0), "middle", 600, INK).of(name);
    }
    for place in &antenna.places {
        let (x, y) = (
            x_of(place.azimuth_deg),
            y_of(place.elev_deg).clamp(top + 6.0, foot - 6.0),
        );
        let _ = write!(
            out,
            r##"<rect x="{:.1}" y="{:.1}" width="9" height="9" fill="#FFFFFF" stroke="{INK}" stroke-width="1.8"/>"##,
            x - 4.5,
            y - 4.5
        );
        out += &plated((x.clamp(left + 40.0, right - 40.0), y - 15.0), &place.name, INK);
    }
    for (i, (_, says)) in antenna.levels.iter().skip(1).enumerate() {
        let y = top + 30.0 * i as f64;
        let _ = write!(
            out,
            r#"<rect x="{:.1}" y="{y:.1}" width="22" height="30" fill="{}"/>"#,
            right + 16.0,
            tint_hex(6 - i)
        );
        out += &letters((right + 44.0, y + 33.0), "start", 400, INK_2).of(says);
    }
    out + "</svg>\n"
}
