//! An alpine valley: a glacier's trough with side valleys, a lake and peaks above 2 500 m.

use super::drainage::{Flatten, Uplands, carve};
use super::island::along;
use super::land::{Frame, Growth, Lake, Land};
use super::lattice::{Field, Lattice};
use super::noise::Noise;
use super::{Plan, Site, places, town};
use crate::geodesic::destination;

const SEED: u64 = 0xa1b3;

/// A valley: points of x, y, floor height m and half width of the floor km.
type Valley = &'static [[f64; 4]];

/// Valleys whose floors are given; everything else drains to them.
const VALLEYS: [Valley; 8] = [
    // The main valley, falling eastward.
    &[
        [-74.0, -22.0, 1020.0, 0.5],
        [-50.0, -13.0, 840.0, 0.7],
        [-30.0, -9.0, 712.0, 0.8],
        [-15.0, -3.0, 622.0, 0.95],
        [-4.0, -1.5, 584.0, 1.1],
        [8.0, 2.0, 556.0, 1.3],
        [22.0, 3.0, 521.0, 1.3],
        [38.0, 10.0, 470.0, 1.5],
        [74.0, 19.0, 402.0, 2.2],
    ],
    // Side valleys.
    &[
        [-15.5, -2.5, 640.0, 0.5],
        [-17.5, 2.5, 790.0, 0.3],
        [-20.5, 9.0, 1120.0, 0.2],
        [-24.0, 16.0, 1650.0, 0.15],
    ],
    &[
        [-4.0, -1.8, 590.0, 0.5],
        [-1.5, -8.5, 760.0, 0.3],
        [-4.5, -17.0, 1080.0, 0.25],
        [-3.0, -25.0, 1600.0, 0.15],
    ],
    &[
        [22.0, 3.0, 530.0, 0.5],
        [18.5, 11.0, 720.0, 0.35],
        [21.0, 20.0, 980.0, 0.3],
        [17.5, 29.0, 1500.0, 0.15],
    ],
    &[
        [38.0, 10.0, 480.0, 0.6],
        [43.0, 1.0, 640.0, 0.4],
        [41.0, -10.0, 900.0, 0.3],
        [46.0, -20.0, 1400.0, 0.2],
    ],
    &[
        [-50.0, -13.0, 850.0, 0.4],
        [-53.0, -3.0, 1150.0, 0.3],
        [-50.0, 8.0, 1600.0, 0.2],
    ],
    // Neighbouring valleys.
    &[
        [-74.0, 34.0, 1050.0, 0.5],
        [-40.0, 38.0, 860.0, 0.7],
        [-8.0, 43.0, 700.0, 0.9],
        [28.0, 49.0, 560.0, 1.2],
        [74.0, 54.0, 450.0, 1.8],
    ],
    &[
        [-74.0, -58.0, 1250.0, 0.4],
        [-38.0, -47.0, 980.0, 0.7],
        [-2.0, -47.0, 800.0, 0.8],
        [30.0, -43.0, 640.0, 1.0],
        [74.0, -35.0, 490.0, 1.6],
    ],
];

pub(super) fn plan() -> Plan {
    let frame = Frame {
        lat_deg: 46.5,
        lon_deg: -42.5,
        km_per_deg_lon: 76.77,
    };
    let noise = Noise::new(SEED);
    let parish = frame.position(-13.1, -2.55);
    let village = destination(parish, 98.0, 2_500.0);
    let hamlet = destination(parish, 315.0, 4_500.0);
    let summit = frame.position(7.0, -1.0);
    let capital = destination(summit, 20.0, 3_500.0);
    let second = destination(summit, 74.0, 30_000.0);
    let border = destination(summit, 73.0, 52_000.0);
    let towns = [
        (town("Dirana", 1_420.0, 0.55), village),
        (town("Sassel d'Ombra", 160.0, 0.2), hamlet),
        (town("Talmaren", 38_600.0, 1.9), capital),
        (town("Vorderlint", 14_900.0, 1.3), second),
        (town("Pontefreno", 5_300.0, 0.9), border),
    ];
    let mut land = Land {
        frame,
        base: carved(noise),
        noise: Noise::new(SEED + 1),
        rough_m: (1.0, 70.0),
        has_sea: false,
        pins: Vec::new(),
        lakes: vec![Lake {
            x_km: 28.5,
            y_km: 5.9,
            half_km: (4.2, 1.1),
            axis: (0.916, 0.402),
            level_m: 503.0,
        }],
        settlements: towns.iter().map(|(s, p)| s.at(frame.xy_km(*p))).collect(),
        scattered_people: 31_000.0,
        growth: Growth {
            tree_line_m: 1850.0,
            snow_line_m: 2850.0,
            crops_below_m: 760.0,
            woods: 0.1,
        },
    };
    land.pin(parish, 612.0, 0.7);
    land.pin(summit, 1081.0, 1.0);
    let site = |id, name, position, note| Site {
        id,
        name,
        position,
        note,
    };
    Plan {
        id: "alpine",
        title: "Val Dirana, an invented alpine valley",
        land,
        half_deg: (0.65, 0.95),
        sites: vec![
            site(
                "parish",
                "Parish house, Dirana",
                parish,
                "studio and mast in the valley, 612 m above sea; village at 2.5 km, hamlet in a side valley at 4.5 km",
            ),
            site(
                "mast",
                "Oberquell",
                summit,
                "mountain above the capital; capital 3.5 km, second town 30 km, border 52 km",
            ),
            site(
                "studio",
                "Talmaren, broadcasting house",
                capital,
                "studio in the valley's capital",
            ),
            site(
                "border",
                "Pontefreno bridge",
                border,
                "where the next country begins",
            ),
        ],
        places: places(&towns),
    }
}

fn carved(noise: Noise) -> Field {
    let lattice = Lattice::around((-74.0, -73.0), (74.0, 73.0), 0.48);
    let (mut outlets, mut uplift) = (vec![f64::NAN; lattice.len()], vec![0.0; lattice.len()]);
    for node in 0..lattice.len() {
        let (x_km, y_km) = lattice.xy_km(node);
        let sway = |k: f64| noise.octaves(x_km * 0.06 + k, y_km * 0.06 - k, 4, 0.5);
        if let Some(floor_m) = floor_m(noise, x_km + 4.0 * sway(12.0), y_km + 4.0 * sway(47.0)) {
            outlets[node] = floor_m;
        }
        let massif = noise.octaves(x_km * 0.035 + 2.0, y_km * 0.035 + 6.0, 3, 0.5);
        uplift[node] = 0.30 * (1.0 + 0.9 * massif).max(0.3);
    }
    let uplands = Uplands {
        lattice,
        outlets: &outlets,
        uplift: &uplift,
        flatten: Flatten::Root,
        steepest: 0.6,
        rounds: 5,
        noise,
    };
    let values = carve(&uplands);
    Field { lattice, values }
}

/// Height of the valley floor at a point; `None` off the floors.
fn floor_m(noise: Noise, x_km: f64, y_km: f64) -> Option<f64> {
    let width = 1.0 + 0.5 * noise.octaves(x_km * 0.2, y_km * 0.2, 3, 0.5);
    VALLEYS
        .iter()
        .flat_map(|valley| valley.windows(2))
        .find_map(|pair| {
            let ([x0, y0, z0, w0], [x1, y1, z1, w1]) = (pair[0], pair[1]);
            let (t, off_km) = along([x0, y0, x1, y1], x_km, y_km);
            let half_km = (w0 + t * (w1 - w0)) * width;
            (off_km < half_km.max(0.3)).then_some(z0 + t * (z1 - z0) + 9.0 * off_km * off_km)
        })
}
