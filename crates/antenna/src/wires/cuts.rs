//! Where a wire is cut: even pieces short against the wavelength, with a cut at every port, load and joint.

use super::geometry::WireModel;
use super::vector::distance;

/// Segments per wavelength on elements and on all others (convergence study of the method's note: triangles need about
/// twice the segments of a three-term basis for the same reactance).
const ELEMENT_PER_WAVELENGTH: f64 = 80.0;
const OTHER_PER_WAVELENGTH: f64 = 20.0;
/// Shortest segment chosen unasked, in radii.
const LEAST_RADII: f64 = 4.0;
/// A wire by itself of this length may resonate, so it is cut like a fed one: a yagi's rods must agree with each other.
const ELEMENT_WAVELENGTHS: std::ops::Range<f64> = 0.2..0.75;
/// However few the file asks for, no segment is longer than λ/8: beyond it a straight current is no description.
const LEAST_PER_WAVELENGTH: f64 = 8.0;
/// Largest number of unknowns accepted: 12 000 need 2.3 GB.
pub(super) const MOST_UNKNOWNS: usize = 12_000;
/// Cuts closer than this fraction of the wire are one.
const SAME: f64 = 1e-9;

/// Number of segments that a wire by itself is cut into, joints with others left aside; never more than the largest model has.
pub(crate) fn segments_of(model: &WireModel, wire: usize) -> usize {
    cuts_of(model, wire, &[]).len() - 1
}

/// Fractions at which a wire is cut, from 0 to 1, with a node at every port and load and at the `joints`.
pub(crate) fn cuts_of(model: &WireModel, wire: usize, joints: &[(f64, usize)]) -> Vec<f64> {
    let ports = model.ports.iter().filter(|p| p.wire == wire).map(|p| p.position);
    let loads = model.loads.iter().filter(|l| l.wire == wire).map(|l| l.position);
    let mut taps: Vec<f64> = ports
        .chain(loads)
        .chain(joints.iter().map(|j| j.0))
        .filter(|p| *p > SAME && *p < 1.0 - SAME)
        .collect();
    taps.sort_by(f64::total_cmp);
    taps.dedup_by(|a, b| (*a - *b).abs() < SAME);
    let even = |n: &usize| {
        taps.iter()
            .all(|p| (p * *n as f64 - (p * *n as f64).round()).abs() < 1e-6)
    };
    let least = least_segments(model, wire).min(MOST_UNKNOWNS + 1);
    if let Some(n) = (least..=2 * least + 4).find(even) {
        return (0..=n).map(|i| i as f64 / n as f64).collect();
    }
    uneven_cuts(&taps, least)
}

/// How many segments a wire needs at least: for its electrical length, for what it is, and for what its maker asks.
pub(super) fn least_segments(model: &WireModel, wire: usize) -> usize {
    let w = &model.wires[wire];
    let wavelengths = w.length_m() / model.wavelength_m();
    let element =
        model.is_fed(wire) || (ELEMENT_WAVELENGTHS.contains(&wavelengths) && stands_alone(model, wire));
    let fine = |per: f64| {
        (wavelengths * per)
            .ceil()
            .min((w.length_m() / (LEAST_RADII * w.radius_m)).floor()) as usize
    };
    let own = if element {
        fine(ELEMENT_PER_WAVELENGTH)
    } else {
        (wavelengths * LEAST_PER_WAVELENGTH).ceil() as usize
    };
    w.segments
        .unwrap_or_else(|| fine(OTHER_PER_WAVELENGTH))
        .max(own)
        .max(1)
}

/// Whether no other wire shares an end with this one.
fn stands_alone(model: &WireModel, wire: usize) -> bool {
    let w = &model.wires[wire];
    let near = 1e-3 * w.length_m();
    let touches = |o: &super::Wire| {
        [o.start_m, o.end_m]
            .iter()
            .any(|p| distance(*p, w.start_m) < near || distance(*p, w.end_m) < near)
    };
    model
        .wires
        .iter()
        .enumerate()
        .all(|(i, o)| i == wire || !touches(o))
}

fn uneven_cuts(taps: &[f64], least: usize) -> Vec<f64> {
    let mut cuts = vec![0.0];
    for stop in taps.iter().copied().chain([1.0]) {
        let from = cuts[cuts.len() - 1];
        let pieces = ((stop - from) * least as f64).ceil().max(1.0) as usize;
        cuts.extend((1..=pieces).map(|i| from + (stop - from) * i as f64 / pieces as f64));
    }
    cuts
}
