//! Hills that come down to an indented coast, the sea in the south-west.

use super::drainage::{Flatten, Uplands, carve};
use super::land::{Frame, Growth, Land};
use super::lattice::{Field, Lattice};
use super::noise::{Noise, smooth};
use super::{Plan, Site, places, town};
use crate::geodesic::destination;

const SEED: u64 = 0xc0a5;

pub(super) fn plan() -> Plan {
    let frame = Frame {
        lat_deg: 48.5,
        lon_deg: -30.0,
        km_per_deg_lon: 73.9,
    };
    let noise = Noise::new(SEED);
    let mast = frame.position(1.5, 1.5);
    let at = |azimuth_deg, km: f64| destination(mast, azimuth_deg, km * 1000.0);
    let towns = [
        (town("Tremarine", 9_350.0, 1.2), at(215.0, 1.9)),
        (town("Pollavern", 3_420.0, 0.8), at(84.0, 12.0)),
        (town("Carnissey", 2_180.0, 0.7), at(348.0, 12.0)),
        (town("Hollen Bridge", 1_260.0, 0.5), at(40.0, 12.0)),
        (town("Lantor", 15_800.0, 1.6), at(62.0, 31.0)),
    ];
    let mut land = Land {
        frame,
        base: carved(noise),
        noise: Noise::new(SEED + 1),
        rough_m: (1.0, 70.0),
        has_sea: true,
        pins: Vec::new(),
        lakes: Vec::new(),
        settlements: towns.iter().map(|(s, p)| s.at(frame.xy_km(*p))).collect(),
        scattered_people: 24_000.0,
        growth: Growth {
            tree_line_m: 520.0,
            snow_line_m: 3000.0,
            crops_below_m: 150.0,
            woods: 0.18,
        },
    };
    land.pin(mast, 107.0, 1.2);
    let site = |id, name, position, note| Site {
        id,
        name,
        position,
        note,
    };
    Plan {
        id: "coast",
        title: "Tremarine coast, invented hills by the sea",
        land,
        half_deg: (0.65, 0.95),
        sites: vec![
            site(
                "mast",
                "Beacon Down",
                mast,
                "hill behind the town; towns at 12 km",
            ),
            site(
                "studio",
                "Tremarine, Fore Street",
                towns[0].1,
                "studio in the town",
            ),
        ],
        places: places(&towns),
    }
}

fn carved(noise: Noise) -> Field {
    let lattice = Lattice::around((-74.0, -73.0), (74.0, 73.0), 0.45);
    let (mut outlets, mut uplift) = (vec![f64::NAN; lattice.len()], vec![0.0; lattice.len()]);
    for node in 0..lattice.len() {
        let (x_km, y_km) = lattice.xy_km(node);
        let inland_km = inland_km(noise, x_km, y_km);
        if inland_km <= 0.0 {
            outlets[node] = (inland_km * 25.0).max(-60.0);
        }
        let hills = 1.0 + 1.5 * noise.octaves(x_km * 0.05 + 8.0, y_km * 0.05 - 3.0, 4, 0.5);
        uplift[node] = 0.05 * hills.max(0.25) * smooth(-2.0, 14.0, inland_km).max(0.35);
    }
    let uplands = Uplands {
        lattice,
        outlets: &outlets,
        uplift: &uplift,
        flatten: Flatten::Root,
        steepest: 0.3,
        rounds: 10,
        noise,
    };
    let values = carve(&uplands);
    Field { lattice, values }
}

/// Distance inside a slanting shore, km, indented by bays.
fn inland_km(noise: Noise, x_km: f64, y_km: f64) -> f64 {
    let shore_km = 0.8 * x_km + 0.6 * y_km + 2.0;
    let bays = 15.0 * noise.octaves(x_km * 0.035 + 1.0, y_km * 0.035 + 1.0, 6, 0.5);
    shore_km + bays
}
