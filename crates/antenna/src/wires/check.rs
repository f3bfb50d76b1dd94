//! What can be computed: every wire alone, the places of sources and loads, every pair of wires.

use super::cuts;
use super::fault::{WireCaution, WireFault};
use super::geometry::{Ground, Wire, WireModel};
use super::joints::Joints;
use super::vector::{Point, along, distance, dot, length, nearest_approach, scale, sub};

/// Shortest segment in radii that the exact kernel still describes (convergence study of the method's note).
pub(super) const LEAST_SEGMENT_RADII: f64 = 1.5;
/// Single wires thicker than this fraction of a wavelength carry no current round the tube.
const THICK_WAVELENGTHS: f64 = 1.0 / 50.0;
/// Largest distance from the middle of an antenna, in wavelengths: the pattern must be sampled as finely as it changes.
const MOST_WAVELENGTHS: f64 = 200.0;

/// Checks everything that does not need the mesh, and finds where wires meet.
///
/// # Errors
/// The first fault found, in the order: frequency, each wire alone, its size, sources and loads, the ground, thickness, pairs
/// of wires.
pub(crate) fn check(model: &WireModel) -> Result<(Joints, Vec<WireCaution>), WireFault> {
    if model.wires.is_empty() {
        return Err(WireFault::NoWires);
    }
    if !(model.frequency_mhz.is_finite() && model.frequency_mhz > 0.0) {
        return Err(WireFault::BadFrequency {
            frequency_mhz: model.frequency_mhz,
        });
    }
    model.wires.iter().try_for_each(check_shape)?;
    check_places(model)?;
    check_size(model)?;
    let joints = Joints::of(model);
    for index in 0..model.wires.len() {
        check_ground(model, &joints, index)?;
        check_thickness(model, &joints, index)?;
    }
    let mut cautions = Vec::new();
    check_pairs(model, &joints, &mut cautions)?;
    check_thick_wires(model, &mut cautions);
    Ok((joints, cautions))
}

fn check_shape(wire: &Wire) -> Result<(), WireFault> {
    let name = || wire.name.clone();
    for (what, values) in [
        ("start", &wire.start_m[..]),
        ("end", &wire.end_m[..]),
        ("radius", &[wire.radius_m][..]),
    ] {
        if values.iter().any(|v| !v.is_finite()) {
            return Err(WireFault::NotFinite { wire: name(), what });
        }
    }
    if wire.radius_m <= 0.0 {
        return Err(WireFault::BadRadius {
            wire: name(),
            radius_m: wire.radius_m,
        });
    }
    let size = wire
        .start_m
        .iter()
        .chain(&wire.end_m)
        .fold(0.0, |m: f64, v| m.max(v.abs()));
    if wire.length_m() <= 1e-9 * size.max(1e-3) {
        return Err(WireFault::ZeroLength { wire: name() });
    }
    Ok(())
}

/// Whether it is small enough to be solved, and near enough together to be seen as one.
fn check_size(model: &WireModel) -> Result<(), WireFault> {
    let segments = (0..model.wires.len()).fold(0usize, |sum, wire| {
        sum.saturating_add(cuts::least_segments(model, wire))
    });
    if segments > 2 * cuts::MOST_UNKNOWNS {
        return Err(WireFault::TooLarge {
            unknowns: segments,
            most: cuts::MOST_UNKNOWNS,
        });
    }
    let points = || model.wires.iter().flat_map(|w| [w.start_m, w.end_m]);
    let image = if model.ground == Ground::Perfect {
        -1.0
    } else {
        1.0
    };
    let middle: Point = std::array::from_fn(|axis| {
        let (low, high) = points()
            .flat_map(|p| [p[axis], if axis == 2 { image * p[2] } else { p[axis] }])
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| {
                (l.min(v), h.max(v))
            });
        0.5 * (low + high)
    });
    for wire in &model.wires {
        let away_m = distance(wire.start_m, middle).max(distance(wire.end_m, middle));
        let wavelengths = away_m / model.wavelength_m();
        // A distance beyond all numbers is too far as well.
        let wavelengths = if wavelengths.is_nan() {
            f64::INFINITY
        } else {
            wavelengths
        };
        if wavelengths > MOST_WAVELENGTHS {
            return Err(WireFault::TooFar {
                wire: wire.name.clone(),
                wavelengths,
                most: MOST_WAVELENGTHS,
            });
        }
    }
    Ok(())
}

fn check_ground(model: &WireModel, joints: &Joints, index: usize) -> Result<(), WireFault> {
    if model.ground == Ground::FreeSpace {
        return Ok(());
    }
    let wire = &model.wires[index];
    let least_m = 2.0 * wire.radius_m;
    let name = || wire.name.clone();
    let heights = [wire.start_m[2], wire.end_m[2]];
    match joints.ends[index].map(|node| joints.grounded[node]) {
        [true, true] => Err(WireFault::AlongGround {
            wire: name(),
            least_m,
        }),
        standing => {
            let free = heights.iter().zip(standing).filter(|(_, stands)| !stands);
            let z_m = free.map(|(z, _)| *z).fold(f64::INFINITY, f64::min);
            if z_m < least_m {
                return Err(WireFault::BelowGround {
                    wire: name(),
                    z_m,
                    least_m,
                });
            }
            Ok(())
        }
    }
}

fn check_thickness(model: &WireModel, joints: &Joints, index: usize) -> Result<(), WireFault> {
    let wire = &model.wires[index];
    let least_m = LEAST_SEGMENT_RADII * wire.radius_m;
    let segment_m = wire.length_m() / cuts::segments_of(model, index) as f64;
    if segment_m < least_m {
        return Err(WireFault::TooThick {
            wire: wire.name.clone(),
            radius_m: wire.radius_m,
            segment_m,
            most: (wire.length_m() / least_m) as usize,
        });
    }
    let cuts = cuts::cuts_of(model, index, &joints.between[index]);
    for piece in cuts.windows(2) {
        let piece_m = (piece[1] - piece[0]) * wire.length_m();
        if piece_m < least_m {
            return Err(WireFault::ShortPiece {
                wire: wire.name.clone(),
                piece_m,
                from: piece[0],
                to: piece[1],
                least_m,
            });
        }
    }
    Ok(())
}

fn check_places(model: &WireModel) -> Result<(), WireFault> {
    let ports = model.ports.iter().map(|p| (p.wire, p.position)).enumerate();
    let loads = model.loads.iter().map(|l| (l.wire, l.position)).enumerate();
    for (what, (index, (wire, position))) in ports.map(|p| ("source", p)).chain(loads.map(|l| ("load", l))) {
        let Some(named) = model.wires.get(wire) else {
            return Err(WireFault::NoSuchWire {
                what,
                index,
                wire,
                last: model.wires.len() - 1,
            });
        };
        if !(0.0..=1.0).contains(&position) {
            return Err(WireFault::OffTheWire {
                what,
                index,
                wire: named.name.clone(),
                position,
            });
        }
    }
    for (index, load) in model.loads.iter().enumerate() {
        if !load.ohm.is_finite() {
            let wire = model.wires[load.wire].name.clone();
            return Err(WireFault::BadValue {
                what: "load",
                index,
                wire,
                value: load.ohm.to_string(),
            });
        }
    }
    for (second, b) in model.ports.iter().enumerate() {
        if let Some(first) = model.ports[..second]
            .iter()
            .position(|a| a.wire == b.wire && (a.position - b.position).abs() < 1e-9)
        {
            return Err(WireFault::SamePlace {
                first,
                second,
                wire: model.wires[b.wire].name.clone(),
            });
        }
    }
    Ok(())
}

fn check_pairs(model: &WireModel, joints: &Joints, cautions: &mut Vec<WireCaution>) -> Result<(), WireFault> {
    let spheres: Vec<_> = model
        .wires
        .iter()
        .map(|w| (along(w.start_m, w.end_m, 0.5), 0.5 * w.length_m()))
        .collect();
    for (i, a) in model.wires.iter().enumerate() {
        for (j, b) in model.wires.iter().enumerate().skip(i + 1) {
            let near = spheres[i].1 + spheres[j].1 + 4.0 * a.radius_m.max(b.radius_m);
            let gap = sub(spheres[i].0, spheres[j].0);
            if dot(gap, gap) < near * near {
                check_pair(model, joints, (i, a), (j, b), cautions)?;
            }
        }
    }
    Ok(())
}

fn check_pair(
    model: &WireModel,
    joints: &Joints,
    (i, a): (usize, &Wire),
    (j, b): (usize, &Wire),
    cautions: &mut Vec<WireCaution>,
) -> Result<(), WireFault> {
    if let Some(&node) = joints.shared(i, j).first() {
        return check_joined(joints, node, (i, a), (j, b));
    }
    let ends = |w: &Wire| [w.start_m, w.end_m];
    let (apart_m, s, t) = nearest_approach(ends(a), ends(b));
    let touching_m = a.radius_m + b.radius_m;
    let names = || (a.name.clone(), b.name.clone());
    if apart_m < touching_m {
        let thick = a.radius_m.max(b.radius_m);
        let (thin, around) = if a.radius_m < b.radius_m {
            ((i, a), b)
        } else {
            ((j, b), a)
        };
        if model.is_fed(thin.0) && apart_m < thick && thick > 2.0 * thin.1.radius_m && apart_m > 0.0 {
            return Err(WireFault::Inside {
                wire: thin.1.name.clone(),
                around: around.name.clone(),
                radius_m: thick,
                clear_m: touching_m,
            });
        }
        let middle = along(along(a.start_m, a.end_m, s), along(b.start_m, b.end_m, t), 0.5);
        let (first, second) = names();
        return Err(WireFault::Crossing {
            first,
            second,
            at_m: middle,
            clear_m: touching_m,
        });
    }
    if apart_m < 4.0 * a.radius_m.max(b.radius_m) {
        let (first, second) = names();
        cautions.push(WireCaution::Close {
            first,
            second,
            apart_m,
        });
    }
    Ok(())
}

/// Two wires that meet at a node must part from there.
fn check_joined(
    joints: &Joints,
    node: usize,
    (i, a): (usize, &Wire),
    (j, b): (usize, &Wire),
) -> Result<(), WireFault> {
    // What leaves the node along a wire: one arm from its end, two from its side.
    let arms = |index: usize, w: &Wire| {
        let at = joints.place_on(index, node).unwrap_or(0.0);
        let u = scale(sub(w.end_m, w.start_m), 1.0 / w.length_m());
        [
            (u, (1.0 - at) * w.length_m()),
            (scale(u, -1.0), at * w.length_m()),
        ]
        .into_iter()
        .filter(|arm| arm.1 > 0.0)
    };
    for (u, long_m) in arms(i, a) {
        for (v, other_m) in arms(j, b) {
            let sine = length(sub(u, scale(v, dot(u, v))));
            // Within this angle the tubes have not parted by the end of the shorter arm.
            let parted = (a.radius_m + b.radius_m) / long_m.min(other_m);
            if dot(u, v) > 0.0 && sine < parted {
                return Err(WireFault::Overlap {
                    first: a.name.clone(),
                    second: b.name.clone(),
                });
            }
        }
    }
    Ok(())
}

fn check_thick_wires(model: &WireModel, cautions: &mut Vec<WireCaution>) {
    let wavelength = model.wavelength_m();
    for wire in &model.wires {
        let radius_wavelengths = wire.radius_m / wavelength;
        let near_a_fed_wire = || {
            model.ports.iter().any(|p| {
                let fed = &model.wires[p.wire];
                nearest_approach([fed.start_m, fed.end_m], [wire.start_m, wire.end_m]).0 < wavelength
            })
        };
        if radius_wavelengths > THICK_WAVELENGTHS && near_a_fed_wire() {
            cautions.push(WireCaution::ThickWire {
                wire: wire.name.clone(),
                radius_wavelengths,
            });
        }
    }
}
