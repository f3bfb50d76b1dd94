//! ERP round the horizon against the licence: a polar plot, radius by the field.

use crate::svg::{HAIR, INK, INK_2, Lettering, SANS, SIGNAL, width_of};
use assess::handover::Radiation;
use std::fmt::Write;

/// Side of the drawing.
const SIDE: f64 = 470.0;
/// Its middle.
const MIDDLE: f64 = 235.0;
/// Radius of the greatest power.
const RADIUS: f64 = 180.0;

/// The drawing.
pub(super) fn of(antenna: &Radiation, compass: &[String; 4]) -> String {
    let most = antenna.rings.first().map_or(1.0, |(watts, _)| *watts);
    let at = |azimuth_deg: f64, radius: f64| {
        let (east, north) = azimuth_deg.to_radians().sin_cos();
        (MIDDLE + radius * east, MIDDLE - radius * north)
    };
    let of_power = |watts: f64| RADIUS * (watts / most).max(0.0).sqrt();
    let mut out = format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {SIDE} {SIDE}" width="{SIDE}" height="{SIDE}" font-family="{SANS}">"#
    );
    for (watts, _) in &antenna.rings {
        let _ = write!(
            out,
            r#"<circle cx="{MIDDLE}" cy="{MIDDLE}" r="{:.1}" fill="none" stroke="{HAIR}"/>"#,
            of_power(*watts)
        );
    }
    for tenth in 0..36 {
        let azimuth = f64::from(tenth) * 10.0;
        let whole = tenth % 3 == 0;
        let (from, to) = (
            at(azimuth, if whole { 0.0 } else { RADIUS - 5.0 }),
            at(azimuth, RADIUS + 4.0),
        );
        let _ = write!(
            out,
            r#"<path d="M{:.1} {:.1}L{:.1} {:.1}" stroke="{HAIR}"/>"#,
            from.0, from.1, to.0, to.1
        );
    }
    let ring = |of: fn(&(f64, f64, f64)) -> f64| {
        let mut path = String::new();
        for (i, row) in antenna.round.iter().enumerate() {
            let (x, y) = at(row.0, of_power(of(row)));
            let _ = write!(path, "{}{x:.1} {y:.1}", if i == 0 { "M" } else { "L" });
        }
        path + "Z"
    };
    if !antenna.round.is_empty() {
        let _ = write!(
            out,
            r#"<path d="{}" fill="{SIGNAL}" fill-opacity="0.12" stroke="{SIGNAL}" stroke-width="2.2"/><path d="{}" fill="none" stroke="{INK}" stroke-width="1.4"/>"#,
            ring(|row| row.2),
            ring(|row| row.1)
        );
    }
    for (quarter, name) in compass.iter().enumerate() {
        let (x, y) = at(quarter as f64 * 90.0, RADIUS + 17.0);
        out += &letters((x, y + 4.5), "middle", 600, INK).of(name);
    }
    for (watts, says) in &antenna.rings {
        let (x, y) = at(15.0, of_power(*watts));
        out += &plated((x, y), says, INK_2);
    }
    for place in &antenna.places {
        let (x, y) = at(place.azimuth_deg, RADIUS + 4.0);
        // Names near a letter of the compass stand one line farther out.
        let near = (place.azimuth_deg.rem_euclid(90.0) - 45.0).abs() > 30.0;
        let reach = RADIUS + if near { 26.0 } else { 16.0 };
        let (from, outer) = (at(place.azimuth_deg, 0.0), at(place.azimuth_deg, reach));
        let _ = write!(
            out,
            r##"<path d="M{:.1} {:.1}L{x:.1} {y:.1}" stroke="{INK}" stroke-width="0.7" stroke-dasharray="2 3"/><rect x="{:.1}" y="{:.1}" width="8" height="8" fill="#FFFFFF" stroke="{INK}" stroke-width="1.6"/>"##,
            from.0,
            from.1,
            x - 4.0,
            y - 4.0
        );
        let half = width_of(&place.name, 12.5) / 2.0;
        let x = outer.0.clamp(half + 4.0, SIDE - half - 4.0);
        let y = if outer.1 > MIDDLE {
            outer.1 + 10.0
        } else {
            outer.1 - 2.0
        };
        out += &plated((x, y), &place.name, INK);
    }
    out + "</svg>\n"
}

pub(super) fn letters<'a>(at: (f64, f64), anchor: &'a str, weight: u16, ink: &'a str) -> Lettering<'a> {
    Lettering {
        at,
        anchor,
        size: 12.5,
        weight,
        ink,
    }
}

/// A word in the middle of a plate of paper.
pub(super) fn plated((x, y): (f64, f64), text: &str, ink: &str) -> String {
    let wide = width_of(text, 12.5) + 6.0;
    format!(
        r##"<rect x="{:.1}" y="{:.1}" width="{wide:.1}" height="15" fill="#FFFFFF" fill-opacity="0.88"/>"##,
        x - wide / 2.0,
        y - 7.5
    ) + &letters((x, y + 4.3), "middle", 400, ink).of(text)
}
