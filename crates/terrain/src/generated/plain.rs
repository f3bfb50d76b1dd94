//! A rolling plain: low swells between slow rivers, 90 m between the height deciles.

use super::drainage::{Flatten, Uplands, carve};
use super::land::{Frame, Growth, Lake, Land};
use super::lattice::{Field, Lattice};
use super::noise::Noise;
use super::{Plan, Site, places, town};
use crate::geodesic::destination;

const SEED: u64 = 0x91a1;

/// Height between the lowest and the highest tenth of the land, m.
const BETWEEN_DECILES_M: f64 = 90.0;

/// Height of the median, m above sea.
const MEDIAN_M: f64 = 210.0;

/// Height of the broad swells before the land is scaled, m.
const SWELL_M: f64 = 60.0;

/// Rivers: latitude of the course at the middle, km north, and fall per km eastward, m.
const RIVERS: [(f64, f64); 3] = [(-46.0, 0.25), (9.0, 0.3), (58.0, 0.25)];

pub(super) fn plan() -> Plan {
    let frame = Frame {
        lat_deg: 46.0,
        lon_deg: -38.5,
        km_per_deg_lon: 77.47,
    };
    let noise = Noise::new(SEED);
    let tower = frame.position(-8.0, 3.0);
    let at = |azimuth_deg, km: f64| destination(tower, azimuth_deg, km * 1000.0);
    let towns = [
        (town("Pedra Serena", 41_000.0, 3.1), tower),
        (town("Corvelle", 6_800.0, 1.1), at(68.0, 9.0)),
        (town("Ambrault Mere", 2_350.0, 0.7), at(190.0, 5.0)),
        (town("Sottaire", 12_400.0, 1.5), at(305.0, 24.0)),
        (town("Vennock", 3_900.0, 0.9), at(171.0, 17.0)),
        (town("Larrowby", 1_150.0, 0.5), at(15.0, 13.0)),
        (town("Tessemond", 8_700.0, 1.3), at(232.0, 38.0)),
    ];
    let mut land = Land {
        frame,
        base: carved(noise),
        noise: Noise::new(SEED + 1),
        rough_m: (1.2, 60.0),
        has_sea: false,
        pins: Vec::new(),
        lakes: vec![Lake {
            x_km: 14.0,
            y_km: -9.5,
            half_km: (2.6, 1.0),
            axis: (0.8, 0.6),
            level_m: 0.0,
        }],
        settlements: towns.iter().map(|(s, p)| s.at(frame.xy_km(*p))).collect(),
        scattered_people: 96_000.0,
        growth: Growth {
            tree_line_m: 1600.0,
            snow_line_m: 3000.0,
            crops_below_m: 330.0,
            woods: 0.22,
        },
    };
    let lake = land.lakes[0];
    land.lakes.clear();
    let level_m = land.height_m(lake.x_km, lake.y_km) - 4.0;
    land.lakes.push(Lake { level_m, ..lake });
    let middle = frame.position(1.0, 2.0);
    land.pin(middle, 237.0, 1.5);
    let site = |id, name, position, note| Site {
        id,
        name,
        position,
        note,
    };
    Plan {
        id: "rolling",
        title: "Serena plain, invented rolling country",
        land,
        half_deg: (0.65, 0.95),
        sites: vec![
            site(
                "mast",
                "Corn Knoll",
                middle,
                "open field in the middle of the plain, for questions about distance",
            ),
            site(
                "tower",
                "Tower block, Pedra Serena",
                tower,
                "roof 42 m above ground in the town; with a 6 m pole the effective height stays under 55 m",
            ),
            site(
                "studio",
                "Pedra Serena, third floor",
                tower,
                "studio in the tower block",
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
        for (k, (north_km, fall_m)) in RIVERS.iter().enumerate() {
            let meander_km = 8.0 * noise.octaves(x_km * 0.03, 40.0 * k as f64, 4, 0.5);
            if (y_km - north_km - meander_km).abs() < 0.3 {
                outlets[node] = 60.0 - fall_m * x_km;
            }
        }
        let swell = noise.octaves(x_km * 0.045 + 8.0, y_km * 0.045 - 3.0, 4, 0.5);
        uplift[node] = 0.02 * (1.0 + 1.2 * swell).max(0.15);
    }
    let uplands = Uplands {
        lattice,
        outlets: &outlets,
        uplift: &uplift,
        flatten: Flatten::ThreeQuarters,
        steepest: 0.12,
        rounds: 5,
        noise,
    };
    let mut values = carve(&uplands);
    for (node, value) in values.iter_mut().enumerate() {
        let (x_km, y_km) = lattice.xy_km(node);
        *value += SWELL_M * noise.octaves(x_km * 0.022 + 3.0, y_km * 0.022 - 9.0, 4, 0.5);
    }
    scaled(Field { lattice, values })
}

/// The same land with the wanted median, and the wanted height between the deciles of what lies within 60 km of the middle.
fn scaled(mut field: Field) -> Field {
    let near = |&(x_km, y_km): &(f64, f64)| x_km * x_km + y_km * y_km <= 60.0 * 60.0;
    let points = (0..field.lattice.len())
        .map(|node| field.lattice.xy_km(node))
        .filter(near);
    let mut heights: Vec<f64> = points.map(|(x_km, y_km)| field.at(x_km, y_km).0).collect();
    heights.sort_by(f64::total_cmp);
    let at = |share: f64| heights[(share * (heights.len() - 1) as f64) as usize];
    let (low, median, high) = (at(0.1), at(0.5), at(0.9));
    for value in &mut field.values {
        *value = MEDIAN_M + (*value - median) * BETWEEN_DECILES_M / (high - low);
    }
    field
}
