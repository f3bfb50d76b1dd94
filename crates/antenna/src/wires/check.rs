//! What cannot be computed, told by wire and with the mend; and what can, with a caution.

use super::geometry::{Ground, Wire, WireModel};
use super::mesh;
use super::vector::{distance, dot, nearest_approach, scale, sub};

/// Shortest segment in radii that the exact kernel still describes (convergence study of the method's note).
pub(super) const LEAST_SEGMENT_RADII: f64 = 1.5;
/// Single wires thicker than this fraction of a wavelength carry no current round the tube.
const THICK_WAVELENGTHS: f64 = 1.0 / 50.0;

/// Why an antenna made of wires cannot be computed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[expect(
    missing_docs,
    reason = "the message of each variant is its documentation, and its fields are named there"
)]
pub enum WireFault {
    #[error("the antenna has no wires: give at least one")]
    NoWires,
    #[error("frequency {frequency_mhz} MHz: expected a positive number")]
    BadFrequency { frequency_mhz: f64 },
    #[error("wire `{wire}`: {what} is not a finite number: give metres as plain numbers")]
    NotFinite { wire: String, what: &'static str },
    #[error("wire `{wire}` has no length: start and end are the same point; move one end or remove the wire")]
    ZeroLength { wire: String },
    #[error("wire `{wire}`: radius {radius_m} m: expected a positive number")]
    BadRadius { wire: String, radius_m: f64 },
    #[error(
        "wire `{wire}`: radius {radius_m} m is too thick for its segments of {segment_m:.4} m, which must be at least 1.5 radii: \
         {}make it longer, or model the tube as a cage of thin wires",
        if *most > 0 { format!("give at most {most} segments, ") } else { String::new() }
    )]
    TooThick {
        wire: String,
        radius_m: f64,
        segment_m: f64,
        most: usize,
    },
    #[error(
        "wires `{first}` and `{second}` cross or touch at ({x:.4}, {y:.4}, {z:.4}) m without a junction: end both wires there to \
         join them, or move them more than {clear_m:.4} m apart",
        x = at_m[0], y = at_m[1], z = at_m[2]
    )]
    Crossing {
        first: String,
        second: String,
        at_m: [f64; 3],
        clear_m: f64,
    },
    #[error(
        "wires `{first}` and `{second}` lie on one another from their common end: remove one or turn it away"
    )]
    Overlap { first: String, second: String },
    #[error(
        "fed wire `{wire}` lies inside `{around}` (radius {radius_m} m): move it at least {clear_m:.4} m from that axis"
    )]
    Inside {
        wire: String,
        around: String,
        radius_m: f64,
        clear_m: f64,
    },
    #[error(
        "{what} {index} names wire {wire}, but the wires are 0 to {last}: give the index of a wire that exists"
    )]
    NoSuchWire {
        what: &'static str,
        index: usize,
        wire: usize,
        last: usize,
    },
    #[error(
        "{what} {index} on wire `{wire}`: position {position} is not on the wire: give a fraction from 0 to 1"
    )]
    OffTheWire {
        what: &'static str,
        index: usize,
        wire: String,
        position: f64,
    },
    #[error("{what} {index} on wire `{wire}`: {value} is not a finite number")]
    BadValue {
        what: &'static str,
        index: usize,
        wire: String,
        value: String,
    },
    #[error(
        "{what} {index} sits at a free end of wire `{wire}`, where no current flows: move it along the wire"
    )]
    FreeEnd {
        what: &'static str,
        index: usize,
        wire: String,
    },
    #[error("{what} {index} sits where wire `{wire}` meets {others} others: move it a little along the wire")]
    Junction {
        what: &'static str,
        index: usize,
        wire: String,
        others: usize,
    },
    #[error("sources {first} and {second} sit at the same place of wire `{wire}`: keep one of them")]
    SamePlace {
        first: usize,
        second: usize,
        wire: String,
    },
    #[error(
        "wire `{wire}` reaches z = {z_m:.4} m: over perfect ground every wire must stay above {least_m:.4} m"
    )]
    BelowGround { wire: String, z_m: f64, least_m: f64 },
    #[error("the antenna needs {unknowns} unknowns, more than {most}: use fewer or coarser segments")]
    TooLarge { unknowns: usize, most: usize },
    #[error("the matrix is singular to working precision: look for wires that nearly coincide")]
    Singular,
    #[error("there is no source: name a wire and a position for at least one")]
    NoPort,
}

/// Computed, but with less certainty than usual.
#[derive(Clone, Debug, PartialEq)]
pub enum WireCaution {
    /// A single wire thicker than λ/50 within one wavelength of a fed wire: use a cage.
    ThickWire {
        /// Its name.
        wire: String,
        /// Its radius in wavelengths.
        radius_wavelengths: f64,
    },
    /// Two unjoined wires closer than four radii, axis to axis: current is uneven round the tubes.
    Close {
        /// One.
        first: String,
        /// The other.
        second: String,
        /// Axis to axis, metres.
        apart_m: f64,
    },
}

impl std::fmt::Display for WireCaution {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::ThickWire {
                wire,
                radius_wavelengths,
            } => write!(
                f,
                "wire `{wire}` is {radius_wavelengths:.3} wavelengths in radius: above 0.020 a single wire is too coarse near a fed one; use a cage"
            ),
            Self::Close {
                first,
                second,
                apart_m,
            } => {
                write!(
                    f,
                    "wires `{first}` and `{second}` are {apart_m:.4} m apart, less than four radii: currents round the tubes are uneven"
                )
            }
        }
    }
}

/// Checks everything that does not need the mesh.
///
/// # Errors
/// The first fault found, in the order: frequency, each wire alone, sources and loads, pairs of wires.
pub fn check(model: &WireModel) -> Result<Vec<WireCaution>, WireFault> {
    if model.wires.is_empty() {
        return Err(WireFault::NoWires);
    }
    if !(model.frequency_mhz.is_finite() && model.frequency_mhz > 0.0) {
        return Err(WireFault::BadFrequency {
            frequency_mhz: model.frequency_mhz,
        });
    }
    for (index, wire) in model.wires.iter().enumerate() {
        check_shape(wire)?;
        check_ground(model, wire)?;
        check_thickness(model, index)?;
    }
    check_places(model)?;
    let mut cautions = Vec::new();
    check_pairs(model, &mut cautions)?;
    check_thick_wires(model, &mut cautions);
    Ok(cautions)
}

fn check_shape(wire: &Wire) -> Result<(), WireFault> {
    let name = || wire.name.clone();
    for (what, values) in [
        ("its start", &wire.start_m[..]),
        ("its end", &wire.end_m[..]),
        ("its radius", &[wire.radius_m][..]),
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

fn check_ground(model: &WireModel, wire: &Wire) -> Result<(), WireFault> {
    let z_m = wire.start_m[2].min(wire.end_m[2]);
    let least_m = 2.0 * wire.radius_m;
    if model.ground == Ground::Perfect && z_m < least_m {
        return Err(WireFault::BelowGround {
            wire: wire.name.clone(),
            z_m,
            least_m,
        });
    }
    Ok(())
}

fn check_thickness(model: &WireModel, index: usize) -> Result<(), WireFault> {
    let wire = &model.wires[index];
    let segments = mesh::segments_of(model, index);
    let segment_m = wire.length_m() / segments as f64;
    if segment_m < LEAST_SEGMENT_RADII * wire.radius_m {
        let most = (wire.length_m() / (LEAST_SEGMENT_RADII * wire.radius_m)) as usize;
        return Err(WireFault::TooThick {
            wire: wire.name.clone(),
            radius_m: wire.radius_m,
            segment_m,
            most,
        });
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

fn check_pairs(model: &WireModel, cautions: &mut Vec<WireCaution>) -> Result<(), WireFault> {
    let join_m = mesh::join_distance_m(model);
    let spheres: Vec<_> = model
        .wires
        .iter()
        .map(|w| (super::vector::along(w.start_m, w.end_m, 0.5), 0.5 * w.length_m()))
        .collect();
    for (i, a) in model.wires.iter().enumerate() {
        for (j, b) in model.wires.iter().enumerate().skip(i + 1) {
            let near = spheres[i].1 + spheres[j].1 + 4.0 * a.radius_m.max(b.radius_m);
            let gap = sub(spheres[i].0, spheres[j].0);
            if dot(gap, gap) < near * near {
                check_pair(model, (i, a), (j, b), join_m, cautions)?;
            }
        }
    }
    Ok(())
}

fn check_pair(
    model: &WireModel,
    (i, a): (usize, &Wire),
    (j, b): (usize, &Wire),
    join_m: f64,
    cautions: &mut Vec<WireCaution>,
) -> Result<(), WireFault> {
    let ends = |w: &Wire| [w.start_m, w.end_m];
    for (ea, pa) in ends(a).into_iter().enumerate() {
        for (eb, pb) in ends(b).into_iter().enumerate() {
            if distance(pa, pb) <= join_m {
                return check_joined(a, ea, b, eb);
            }
        }
    }
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
        let middle = super::vector::along(
            super::vector::along(a.start_m, a.end_m, s),
            super::vector::along(b.start_m, b.end_m, t),
            0.5,
        );
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

fn check_joined(a: &Wire, end_a: usize, b: &Wire, end_b: usize) -> Result<(), WireFault> {
    let outward = |w: &Wire, end: usize| {
        let d = sub(w.end_m, w.start_m);
        scale(d, if end == 0 { 1.0 } else { -1.0 } / w.length_m())
    };
    let (u, v) = (outward(a, end_a), outward(b, end_b));
    let sine = super::vector::length(sub(u, scale(v, dot(u, v))));
    // Within this angle the tubes have not parted by the end of the shorter wire.
    let parted = (a.radius_m + b.radius_m) / a.length_m().min(b.length_m());
    if dot(u, v) > 0.0 && sine < parted {
        return Err(WireFault::Overlap {
            first: a.name.clone(),
            second: b.name.clone(),
        });
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
