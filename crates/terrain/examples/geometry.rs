//! Prints what the briefs' geometries come to on the generated grounds: distances, heights, effective heights.
use terrain::{generated, geodesic};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    for id in generated::IDS {
        let made = generated::by_id(id).ok_or("unknown ground")?;
        println!("{}", made.title);
        for site in &made.sites {
            let spot = made.ground.spot(site.position)?;
            let mut mean_m = 0.0;
            for k in 0..36 {
                mean_m += made
                    .ground
                    .mean_ground_m(site.position, f64::from(k) * 10.0, 3.0, 15.0, 100.0)?
                    / 36.0;
            }
            println!(
                "  {:8} {:6.1} m, mean 3 to 15 km round it {mean_m:.1} m",
                site.id, spot.height_m
            );
            for place in &made.places {
                let span = geodesic::span(site.position, place.position);
                if span.length_m < 10.0 {
                    continue;
                }
                let km = span.length_m / 1000.0;
                let (near, far) = if km < 15.0 { (0.2 * km, km) } else { (3.0, 15.0) };
                let ground_m = made
                    .ground
                    .mean_ground_m(site.position, span.azimuth_deg, near, far, 50.0)?;
                let path = made.ground.profile(site.position, place.position, 90.0)?;
                let top = path.heights_m.iter().cloned().fold(0.0, f64::max);
                println!(
                    "    {:16} {km:6.2} km at {:5.1}°  ground towards it {ground_m:6.1} m, top {top:6.1} m, water {:.0} %, end {:.1} m",
                    place.name,
                    span.azimuth_deg,
                    100.0 * path.shares().water,
                    path.heights_m[path.len() - 1]
                );
            }
        }
    }
    Ok(())
}
