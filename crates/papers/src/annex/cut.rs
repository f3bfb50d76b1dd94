//! The vertical cut through the strongest direction: level under the peak by elevation, the served places on it.

use super::round::{letters, plated};
use crate::svg::{HAIR, INK, INK_2, SANS, SIGNAL};
use assess::handover::{Cuts, Radiation};
use std::fmt::Write;

/// Width and height of the drawing.
const SIZE: (f64, f64) = (820.0, 190.0);
/// Frame of the plot: left, top, right, foot.
const FRAME: (f64, f64, f64, f64) = (60.0, 14.0, 806.0, 160.0);
/// Least level drawn, dB under the peak.
const LEAST_DB: f64 = -24.0;

/// The drawing.
pub(super) fn of(plane: &Cuts, antenna: &Radiation) -> String {
    let (width, height) = SIZE;
    let (left, top, right, foot) = FRAME;
    let elevations: Vec<f64> = antenna.elevations.iter().map(|(deg, _)| *deg).collect();
    let (low, high) = (
        elevations.first().copied().unwrap_or(-30.0),
        elevations.last().copied().unwrap_or(10.0),
    );
    // From the sky on the left to the ground on the right: what lies near the mast stands on the right.
    let x = |deg: f64| left + (high - deg) / (high - low) * (right - left);
    let y = |db: f64| top + db.max(LEAST_DB) / LEAST_DB * (foot - top);
    let mut out = format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}" height="{height}" font-family="{SANS}">"#
    );
    for (db, says) in &antenna.levels {
        let _ = write!(
            out,
            r#"<path d="M{left} {0:.1}H{right}" stroke="{HAIR}"/>"#,
            y(*db)
        );
        out += &letters((left - 6.0, y(*db) + 4.0), "end", 400, INK_2).of(says);
    }
    for (deg, says) in &antenna.elevations {
        let _ = write!(
            out,
            r#"<path d="M{0:.1} {top}V{foot}" stroke="{HAIR}"/>"#,
            x(*deg)
        );
        out += &letters((x(*deg), foot + 16.0), "middle", 400, INK_2).of(says);
    }
    let mut curve = String::new();
    for (deg, dbd) in plane
        .vertical
        .iter()
        .filter(|(deg, _)| (low..=high).contains(deg))
    {
        let _ = write!(
            curve,
            "{}{:.1} {:.1}",
            if curve.is_empty() { "M" } else { "L" },
            x(*deg),
            y(dbd - plane.peak_dbd)
        );
    }
    let _ = write!(
        out,
        r#"<path d="{curve}" fill="none" stroke="{SIGNAL}" stroke-width="2.2"/><path d="M{left} {top}V{foot}H{right}" fill="none" stroke="{INK}" stroke-width="1.25"/>"#
    );
    for (i, place) in antenna.places.iter().enumerate() {
        if !(low..=high).contains(&place.elev_deg) {
            continue;
        }
        let at = x(place.elev_deg);
        let row = top + 52.0 + 17.0 * (i % 5) as f64;
        let _ = write!(
            out,
            r#"<path d="M{at:.1} {top}V{foot}" stroke="{INK}" stroke-width="0.8" stroke-dasharray="2 3"/>"#
        );
        out += &plated((at, row), &place.name, INK);
    }
    out + "</svg>\n"
}
