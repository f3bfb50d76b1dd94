//! The stack and its mast from the side, every wire as thick as its current.

use crate::svg::{INK_3, SANS, SIGNAL};
use assess::handover::Radiation;
use std::fmt::Write;

/// Width and height of the drawing.
const SIZE: (f64, f64) = (300.0, 640.0);
/// Thickness of the strongest current.
const THICKEST: f64 = 9.0;

/// The drawing.
pub(super) fn of(antenna: &Radiation) -> String {
    let (width, height) = SIZE;
    // The bays' direction: that of the plane's peak would lean on the pattern, so the farthest wire from the axis says it.
    let far = |p: &[f64; 3]| p[0].hypot(p[1]);
    let bay = antenna
        .wires
        .iter()
        .flat_map(|w| w.ends_m.iter())
        .max_by(|a, b| far(a).total_cmp(&far(b)))
        .copied()
        .unwrap_or([1.0, 0.0, 0.0]);
    let length = far(&bay).max(1e-6);
    let (east, north) = (bay[0] / length, bay[1] / length);
    let side = |p: [f64; 3]| (p[0] * east + p[1] * north, p[2]);
    let ends = || {
        antenna
            .wires
            .iter()
            .flat_map(|w| w.ends_m.iter().map(|p| side(*p)))
    };
    let bound =
        |of: fn((f64, f64)) -> f64, pick: fn(f64, f64) -> f64, start: f64| ends().map(of).fold(start, pick);
    let (low, high) = (
        bound(|p| p.1, f64::min, f64::MAX),
        bound(|p| p.1, f64::max, f64::MIN),
    );
    let (near, away) = (
        bound(|p| p.0, f64::min, f64::MAX),
        bound(|p| p.0, f64::max, f64::MIN),
    );
    let per_m = ((height - 30.0) / (high - low).max(0.1)).min((width - 30.0) / (away - near).max(0.1));
    let at = |p: (f64, f64)| {
        (
            width / 2.0 + (p.0 - (near + away) / 2.0) * per_m,
            height / 2.0 - (p.1 - (low + high) / 2.0) * per_m,
        )
    };
    let most = antenna
        .wires
        .iter()
        .flat_map(|w| &w.current)
        .map(|(_, amps, _)| *amps)
        .fold(1e-12, f64::max);
    let mut out = format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}" height="{height}" font-family="{SANS}">"#
    );
    for wire in &antenna.wires {
        let [from, to] = wire.ends_m;
        let long = (0..3)
            .map(|i| (to[i] - from[i]).powi(2))
            .sum::<f64>()
            .sqrt()
            .max(1e-9);
        let along = |position: f64| {
            let part = (position / long).clamp(0.0, 1.0);
            at(side([0, 1, 2].map(|i| from[i] + (to[i] - from[i]) * part)))
        };
        let (a, b) = (along(0.0), along(long));
        let _ = write!(
            out,
            r#"<path d="M{:.1} {:.1}L{:.1} {:.1}" stroke="{INK_3}" stroke-width="0.5"/>"#,
            a.0, a.1, b.0, b.1
        );
        for pair in wire.current.windows(2) {
            let pen = THICKEST * 0.5 * (pair[0].1 + pair[1].1) / most;
            if pen < 0.25 {
                continue;
            }
            let (a, b) = (along(pair[0].0), along(pair[1].0));
            let _ = write!(
                out,
                r#"<path d="M{:.1} {:.1}L{:.1} {:.1}" stroke="{SIGNAL}" stroke-width="{pen:.2}" stroke-linecap="round"/>"#,
                a.0, a.1, b.0, b.1
            );
        }
    }
    out + "</svg>\n"
}
