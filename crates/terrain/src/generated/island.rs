//! The demo island: a broken crescent round a bay that opens to the south.

use super::drainage::{Flatten, Uplands, carve};
use super::land::{Frame, Growth, Land, Settlement};
use super::lattice::{Field, Lattice};
use super::noise::{Noise, smooth};
use super::{Plan, Site, place};
use crate::geodesic::destination;
use crate::places::Surroundings;

const SEED: u64 = 0x15_1a4d;

/// Backbone of the land: x, y and half width, km. Consecutive points of one group are joined.
const BACKBONE: [&[[f64; 3]]; 8] = [
    &[
        [-15.6, 4.0, 3.4],
        [-9.0, 6.6, 4.9],
        [-3.0, 6.6, 5.9],
        [3.5, 5.6, 5.6],
        [8.5, 3.2, 4.9],
        [11.6, -1.4, 3.9],
        [11.0, -5.8, 2.7],
        [10.4, -9.2, 2.9],
    ],
    &[[-15.4, 3.0, 3.2], [-13.9, -1.8, 2.4], [-12.3, -6.2, 1.9]],
    &[[-2.0, 7.0, 4.0], [-0.2, 12.4, 1.7]],
    &[[-2.4, 4.5, 3.2], [-2.9, 0.9, 1.9]],
    &[[9.5, 5.0, 4.2], [15.5, 7.0, 2.4]],
    &[[-15.0, 5.0, 3.0], [-18.0, 9.6, 1.9]],
    &[[-4.6, -13.2, 0.9], [-2.6, -13.9, 0.5]],
    &[[17.2, -6.0, 0.7], [17.6, -8.0, 0.5]],
];

/// Ridges: x, y of both ends, half width km, strength.
const RIDGES: [[f64; 6]; 7] = [
    [-8.5, 7.0, -1.8, 5.3, 1.9, 0.75],
    [0.25, 2.6, 0.7, 5.0, 0.9, 0.85],
    [0.7, 5.0, 2.4, 9.0, 1.1, 0.7],
    [0.6, 6.0, 8.0, 5.2, 1.7, 0.45],
    [-12.4, -5.9, -13.8, -2.0, 0.9, 0.02],
    [11.2, -1.0, 11.9, -4.5, 1.2, 0.35],
    [-15.4, 4.6, -10.5, 6.0, 1.7, 0.5],
];

pub(super) fn plan() -> Plan {
    let frame = Frame {
        lat_deg: 43.5,
        lon_deg: -35.5,
        km_per_deg_lon: 80.86,
    };
    let noise = Noise::new(SEED);
    let base = carved(noise);
    let hill = frame.position(-11.4, -6.8);
    let port = destination(hill, 54.6, 11_000.0);
    let quellow = destination(hill, 345.0, 8_000.0);
    let vessaby = destination(hill, 95.0, 22_000.0);
    let ridge = frame.position(-3.0, 5.0);
    let thrannock = destination(ridge, 102.0, 8_200.0);
    let [orren, west, east, far] = [
        Settlement {
            name: "Port Orren",
            x_km: 0.0,
            y_km: 0.0,
            people: 6240.0,
            radius_km: 1.1,
        },
        Settlement {
            name: "Quellow",
            x_km: 0.0,
            y_km: 0.0,
            people: 2610.0,
            radius_km: 0.75,
        },
        Settlement {
            name: "Thrannock",
            x_km: 0.0,
            y_km: 0.0,
            people: 1480.0,
            radius_km: 0.6,
        },
        Settlement {
            name: "Vessaby",
            x_km: 0.0,
            y_km: 0.0,
            people: 2130.0,
            radius_km: 0.7,
        },
    ];
    let towns = [(orren, port), (west, quellow), (east, thrannock), (far, vessaby)];
    let mut land = Land {
        frame,
        base,
        noise: Noise::new(SEED + 1),
        rough_m: (1.0, 50.0),
        has_sea: true,
        pins: Vec::new(),
        lakes: Vec::new(),
        settlements: towns.map(|(s, p)| s.at(frame.xy_km(p))).to_vec(),
        scattered_people: 1040.0,
        growth: Growth {
            tree_line_m: 300.0,
            snow_line_m: 3000.0,
            crops_below_m: 90.0,
            woods: 0.12,
        },
    };
    land.pin(hill, 78.0, 1.0);
    land.pin(ridge, 312.0, 1.1);
    for (town, height_m, radius_km) in [
        (port, 9.0, 1.0),
        (quellow, 14.0, 0.9),
        (thrannock, 62.0, 0.9),
        (vessaby, 11.0, 0.9),
    ] {
        land.pin(town, height_m, radius_km);
    }
    let site = |id, name, position, note| Site {
        id,
        name,
        position,
        note,
    };
    Plan {
        id: "island",
        title: "Orrenay, an invented island",
        land,
        half_deg: (0.75, 1.0),
        sites: vec![
            site(
                "mast",
                "Harl Ridge",
                ridge,
                "ridge north of the harbour, 312 m above sea",
            ),
            site(
                "studio",
                "Port Orren, quayside",
                port,
                "studio in the harbour town",
            ),
            site(
                "hill",
                "Ternhead",
                hill,
                "headland across the bay: an antenna 42 m up stands 120 m above the sea; 11 km over water to the studio",
            ),
        ],
        places: vec![
            place(&orren, port, Surroundings::Urban),
            place(&west, quellow, Surroundings::Urban),
            place(&east, thrannock, Surroundings::Rural),
            place(&far, vessaby, Surroundings::Rural),
        ],
    }
}

fn carved(noise: Noise) -> Field {
    let lattice = Lattice::around((-23.0, -16.0), (21.0, 18.0), 0.16);
    let (mut outlets, mut uplift) = (vec![f64::NAN; lattice.len()], vec![0.0; lattice.len()]);
    for node in 0..lattice.len() {
        let (x_km, y_km) = lattice.xy_km(node);
        let inland_km = inland_km(noise, x_km, y_km);
        if inland_km <= 0.0 {
            outlets[node] = (inland_km * 45.0).max(-60.0);
        }
        let crest: f64 = RIDGES.iter().map(|ridge| crest(ridge, noise, x_km, y_km)).sum();
        let patchy = 1.0 + 0.5 * noise.octaves(x_km * 0.35, y_km * 0.35, 3, 0.5);
        uplift[node] = (0.016 + 0.085 * crest) * patchy * smooth(-0.2, 1.6, inland_km).max(0.25);
    }
    let uplands = Uplands {
        lattice,
        outlets: &outlets,
        uplift: &uplift,
        flatten: Flatten::Root,
        steepest: 0.5,
        rounds: 8,
        noise,
    };
    let values = carve(&uplands);
    Field { lattice, values }
}

/// Distance inside the shore, km, negative at sea: the backbone's rim, wavered by noise.
fn inland_km(noise: Noise, x_km: f64, y_km: f64) -> f64 {
    let waver = 1.9 * noise.octaves(x_km * 0.17 + 4.0, y_km * 0.17 + 9.0, 5, 0.46)
        + 1.5 * noise.at(x_km * 0.11 - 6.0, y_km * 0.11 + 2.0);
    let mut best = -9.0f64;
    for group in BACKBONE {
        for pair in group.windows(2) {
            let (t, distance_km) = along([pair[0][0], pair[0][1], pair[1][0], pair[1][1]], x_km, y_km);
            let half_km = pair[0][2] + t * (pair[1][2] - pair[0][2]);
            best = best.max(half_km - distance_km + waver * (0.3 + 0.22 * half_km));
        }
    }
    let islet = noise.octaves(x_km * 0.3 - 70.0, y_km * 0.3 + 22.0, 4, 0.6) - 0.60;
    best.max(if best > -2.5 { islet * 6.0 } else { -9.0 })
}

fn crest([x0, y0, x1, y1, half_km, strength]: &[f64; 6], noise: Noise, x_km: f64, y_km: f64) -> f64 {
    let sway = 1.3 * noise.octaves(x_km * 0.3 + 33.0, y_km * 0.3 - 12.0, 3, 0.5);
    let (_, distance_km) = along([*x0, *y0, *x1, *y1], x_km + sway, y_km - sway);
    let r2 = distance_km * distance_km / (half_km * half_km);
    strength / (1.0 + r2 * r2)
}

/// Where on a stretch (0…1) the nearest point lies, and how far off it is, km.
pub(super) fn along([x0, y0, x1, y1]: [f64; 4], x_km: f64, y_km: f64) -> (f64, f64) {
    let (dx, dy) = (x1 - x0, y1 - y0);
    let t = (((x_km - x0) * dx + (y_km - y0) * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
    let (ox, oy) = (x_km - x0 - t * dx, y_km - y0 - t * dy);
    (t, (ox * ox + oy * oy).sqrt())
}
