//! The stack from above, north up: which way the bays face and how far from the mast they stand.

use crate::paper::PaperError;
use crate::svg::{INK, INK_2, INK_3, Lettering, SANS, SIGNAL};
use crate::wording::Wording;
use assess::handover::Rigging;
use std::fmt::Write;

/// Width and height of the drawing.
const SIZE: (f64, f64) = (300.0, 190.0);
/// The mast's axis.
const AXIS: (f64, f64) = (110.0, 100.0);
/// From the axis to the bays, as drawn.
const FAR: f64 = 46.0;
/// Radius of the ring of bearings.
const RING: f64 = 72.0;

/// The drawing; nothing for an antenna that faces nowhere.
///
/// # Errors
/// [`PaperError::Words`].
pub(super) fn of(rig: &Rigging, words: Wording) -> Result<Option<String>, PaperError> {
    let Some(azimuth) = &rig.azimuth else {
        return Ok(None);
    };
    let (width, height) = SIZE;
    let (x, y) = AXIS;
    let (east, north) = azimuth.number.unwrap_or(0.0).to_radians().sin_cos();
    let at = |r: f64| (x + r * east, y - r * north);
    let mut out = format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}" height="{height}" font-family="{SANS}"><circle cx="{x}" cy="{y}" r="{RING}" fill="none" stroke="{INK_3}" stroke-width="0.7"/>"#
    );
    for tenth in 0..36 {
        let (e, n) = f64::from(tenth * 10).to_radians().sin_cos();
        let long = if tenth % 9 == 0 { 8.0 } else { 4.0 };
        let (near, far) = (RING - long, RING);
        let _ = write!(
            out,
            r#"<path d="M{:.1} {:.1}L{:.1} {:.1}" stroke="{INK_3}" stroke-width="0.7"/>"#,
            x + near * e,
            y - near * n,
            x + far * e,
            y - far * n
        );
    }
    let letters = |at, anchor, weight, ink| Lettering {
        at,
        anchor,
        size: 12.5,
        weight,
        ink,
    };
    out += &letters((x, y - RING - 6.0), "middle", 600, INK).of("N");
    let mast = if rig.lattice {
        format!(
            "M{x} {:.1}L{:.1} {:.1}H{:.1}Z",
            y - 11.0,
            x + 10.0,
            y + 6.5,
            x - 10.0
        )
    } else {
        format!("M{:.1} {y}a8 8 0 1 0 16 0a8 8 0 1 0 -16 0", x - 8.0)
    };
    let (end, tip) = (at(FAR), at(RING));
    let (start, after) = (at(10.0), at(FAR + 6.0));
    let _ = write!(
        out,
        r#"<path d="{mast}" fill="none" stroke="{INK}" stroke-width="1.6"/><path d="M{:.1} {:.1}L{:.1} {:.1}" stroke="{INK}" stroke-width="1"/><circle cx="{:.1}" cy="{:.1}" r="4.5" fill="{INK}"/><path d="M{:.1} {:.1}L{:.1} {:.1}" stroke="{SIGNAL}" stroke-width="1.6"/>"#,
        start.0, start.1, end.0, end.1, end.0, end.1, after.0, after.1, tip.0, tip.1
    );
    let beside = |row: f64| (x + RING + 16.0, 30.0 + 18.0 * row);
    out += &letters(beside(0.0), "start", 600, INK).of(&words.word("paper-rigging-plan")?);
    let faces = format!(
        "{} {}",
        words.word("paper-rigging-azimuth")?,
        assess::say::joined(azimuth)
    );
    out += &letters(beside(1.0), "start", 400, INK_2).of(&faces);
    if let Some(off) = &rig.stand_off {
        let says = format!(
            "{} {}",
            words.word("paper-rigging-stand-off")?,
            assess::say::joined(off)
        );
        out += &letters(beside(2.0), "start", 400, INK_2).of(&says);
    }
    Ok(Some(out + "</svg>\n"))
}
