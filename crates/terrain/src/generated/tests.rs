use super::*;
use crate::cover;
use crate::geodesic::span;
use crate::profile::Quality;

fn site_m(made: &GeneratedGround, id: &str) -> f64 {
    made.ground
        .spot(made.site(id).unwrap().position)
        .unwrap()
        .height_m
}

fn km(made: &GeneratedGround, site: &str, place: &str) -> f64 {
    span(
        made.site(site).unwrap().position,
        made.place(place).unwrap().position,
    )
    .length_m
        / 1000.0
}

/// Antenna height above the mean ground from 3 to 15 km (0.2 d to d when nearer) towards a place: Rec. ITU-R P.1546 Annex 5 § 3 [V].
fn effective_m(made: &GeneratedGround, site: &str, place: &str, antenna_agl_m: f64) -> f64 {
    let (from, to) = (
        made.site(site).unwrap().position,
        made.place(place).unwrap().position,
    );
    let way = span(from, to);
    let km = way.length_m / 1000.0;
    let (near, far) = if km < 15.0 { (0.2 * km, km) } else { (3.0, 15.0) };
    site_m(made, site) + antenna_agl_m
        - made
            .ground
            .mean_ground_m(from, way.azimuth_deg, near, far, 50.0)
            .unwrap()
}

/// Geometry of brief B5 and of the demo: studio in port, 11 km over water to the hill; towns at 8 and 22 km; 120 m effective height.
#[test]
fn island_holds_its_geometry() {
    let island = demo_island();
    assert!((km(island, "hill", "Quellow") - 8.0).abs() < 0.01);
    assert!((km(island, "hill", "Vessaby") - 22.0).abs() < 0.01);
    let hop = island.ground.profile(
        island.site("studio").unwrap().position,
        island.site("hill").unwrap().position,
        90.0,
    );
    let hop = hop.unwrap();
    assert!(
        (hop.length_km - 11.0).abs() < 0.01 && hop.shares().water > 0.7,
        "{:?}",
        hop.shares()
    );
    assert!((effective_m(island, "hill", "Vessaby", 42.0) - 120.0).abs() < 3.0);
    let along_m = effective_m(island, "hill", "Quellow", 42.0);
    assert!((100.0..122.0).contains(&along_m), "{along_m}");
    assert!((site_m(island, "mast") - 312.0).abs() < 3.0);
    let behind = island.ground.profile(
        island.site("mast").unwrap().position,
        island.place("Thrannock").unwrap().position,
        90.0,
    );
    let behind = behind.unwrap();
    let (start, end) = (
        behind.heights_m[0] + 24.0,
        behind.heights_m[behind.len() - 1] + 10.0,
    );
    let over_m = (0..behind.len())
        .map(|i| behind.heights_m[i] - start - (end - start) * i as f64 / (behind.len() - 1) as f64)
        .fold(f64::MIN, f64::max);
    assert!(
        over_m > 80.0,
        "the back between mast and village stands {over_m} m over the ray"
    );
    let bay = island.ground.profile(
        island.site("hill").unwrap().position,
        island.place("Vessaby").unwrap().position,
        90.0,
    );
    assert!(bay.unwrap().shares().water > 0.8);
}

/// Brief B3: roof 42 m up and a 6 m pole, effective height at most 55 m on the mean of all directions; a place at 5 km.
#[test]
fn plain_holds_its_geometry() {
    let plain = rolling_plain();
    let tower = plain.site("tower").unwrap().position;
    let mean = |k: u32| {
        plain
            .ground
            .mean_ground_m(tower, f64::from(k) * 10.0, 3.0, 15.0, 100.0)
            .unwrap()
    };
    let effective_m = site_m(plain, "tower") + 48.0 - (0..36).map(mean).sum::<f64>() / 36.0;
    assert!((40.0..55.0).contains(&effective_m), "{effective_m}");
    assert!((km(plain, "tower", "Ambrault Mere") - 5.0).abs() < 0.01);
}

/// The plain is what its name in the briefs says: 90 m between the lowest and the highest tenth.
#[test]
fn plain_has_ninety_metres_between_deciles() {
    let plain = rolling_plain();
    let mut heights = Vec::new();
    for k in 0..72 {
        let path = plain
            .ground
            .radial(plain.centre(), f64::from(k) * 5.0, 60.0, 400.0)
            .unwrap();
        // One in so many by distance, so that every square kilometre counts alike.
        heights.extend((0..path.len()).flat_map(|i| std::iter::repeat_n(path.heights_m[i], i / 10)));
    }
    heights.sort_by(f64::total_cmp);
    let at = |share: f64| heights[(share * heights.len() as f64) as usize];
    assert!((at(0.9) - at(0.1) - 90.0).abs() < 6.0, "{}", at(0.9) - at(0.1));
}

/// Briefs B1 and B7: parish house at 612 m, village 2.5 km, hamlet 4.5 km in a side valley behind a spur; a mountain 480 m over
/// the valley, capital 3.5 km, second town 30 km, border 52 km.
#[test]
fn alpine_holds_its_geometry() {
    let alpine = alpine_valley();
    assert!(
        (site_m(alpine, "parish") - 612.0).abs() < 2.0,
        "{}",
        site_m(alpine, "parish")
    );
    assert!((km(alpine, "parish", "Dirana") - 2.5).abs() < 0.01);
    assert!((km(alpine, "parish", "Sassel d'Ombra") - 4.5).abs() < 0.01);
    let parish = alpine.site("parish").unwrap().position;
    let side = alpine
        .ground
        .profile(parish, alpine.place("Sassel d'Ombra").unwrap().position, 90.0)
        .unwrap();
    let (start, end) = (side.heights_m[0] + 20.0, side.heights_m[side.len() - 1] + 10.0);
    let shut = (0..side.len()).any(|i| {
        let t = i as f64 / (side.len() - 1) as f64;
        side.heights_m[i] > start + t * (end - start) + 50.0
    });
    assert!(shut, "a spur stands before the hamlet: {:?}", side.heights_m);
    assert!((km(alpine, "mast", "Talmaren") - 3.5).abs() < 0.01);
    assert!((km(alpine, "mast", "Vorderlint") - 30.0).abs() < 0.01);
    assert!((km(alpine, "mast", "Pontefreno") - 52.0).abs() < 0.01);
    let effective_m = effective_m(alpine, "mast", "Vorderlint", 40.0);
    assert!((effective_m - 480.0).abs() < 12.0, "{effective_m}");
}

/// Brief B10: places at 12 km, effective height 60 m towards the first of them.
#[test]
fn coast_holds_its_geometry() {
    let coast = hill_coast();
    for place in ["Pollavern", "Carnissey", "Hollen Bridge"] {
        assert!((km(coast, "mast", place) - 12.0).abs() < 0.01);
    }
    let effective_m = effective_m(coast, "mast", "Pollavern", 25.0);
    assert!((effective_m - 60.0).abs() < 6.0, "{effective_m}");
}

#[test]
fn every_site_and_place_stands_on_land_with_houses_where_people_live() {
    for made in IDS.map(|id| by_id(id).unwrap()) {
        for site in &made.sites {
            let spot = made.ground.spot(site.position).unwrap();
            assert!(!spot.water && spot.height_m > 1.0, "{} {}", made.id, site.id);
        }
        for place in &made.places {
            let spot = made.ground.spot(place.position).unwrap();
            assert_eq!(spot.cover, cover::BUILT_UP, "{} {}", made.id, place.name);
        }
    }
}

#[test]
fn everybody_lives_somewhere_and_nobody_in_water() {
    for made in IDS.map(|id| by_id(id).unwrap()) {
        let wanted: f64 =
            made.land.settlements.iter().map(|s| s.people).sum::<f64>() + made.land.scattered_people;
        let people = made.people();
        assert!(
            (people.total() / wanted - 1.0).abs() < 1e-9,
            "{}: {} of {wanted}",
            made.id,
            people.total()
        );
        let afloat: f64 = people
            .cells()
            .filter(|(p, _)| made.ground.spot(*p).is_ok_and(|spot| spot.water))
            .map(|(_, count)| count)
            .sum();
        assert!(
            afloat < 0.002 * wanted,
            "{}: {afloat} people live in cells whose middle is water",
            made.id
        );
    }
}

#[test]
fn zones_and_water_follow_the_land() {
    let island = demo_island();
    let hill = island.site("hill").unwrap().position;
    let out = island.ground.radial(hill, 180.0, 60.0, 90.0).unwrap();
    assert_eq!(out.zones[out.len() - 1], crate::Zone::Sea);
    assert_eq!(out.zones[0], crate::Zone::CoastalLand);
    assert!(out.quality.iter().all(|&q| q == Quality::Measured));
    let mast = island.ground.spot(island.site("mast").unwrap().position).unwrap();
    assert_eq!(mast.zone, crate::Zone::Inland); // above 100 m
    let alpine = alpine_valley();
    let lake = alpine.land.lakes[0];
    let spot = alpine
        .ground
        .spot(alpine.land.frame.position(lake.x_km, lake.y_km))
        .unwrap();
    assert!(
        spot.water && spot.zone == crate::Zone::Inland,
        "a lake is water but no sea"
    );
}

/// A regression: the grounds are the same bits on every machine and in every build.
#[test]
fn regress_heights_are_the_same_everywhere() {
    let sums = IDS.map(|id| {
        let land = &by_id(id).unwrap().land;
        (0..400).fold(0u64, |sum, k| {
            let (x_km, y_km) = (f64::from(k % 20) * 1.7 - 16.0, f64::from(k / 20) * 1.3 - 12.0);
            sum.rotate_left(7) ^ land.height_m(x_km, y_km).to_bits()
        })
    });
    assert_eq!(
        sums,
        [
            11395869819080952086,
            5825843531301102901,
            8620259202312197898,
            18151961259653092927
        ]
    );
}

/// Cover looks like country: some wood and some field everywhere (common practice, no source; the land is invented).
#[test]
fn every_land_has_woods_and_fields() {
    for made in IDS.map(|id| by_id(id).unwrap()) {
        let mut codes = Vec::new();
        for k in 0..36 {
            let path = made
                .ground
                .radial(
                    made.site("mast").unwrap().position,
                    f64::from(k) * 10.0,
                    40.0,
                    300.0,
                )
                .unwrap();
            codes.extend(
                (0..path.len())
                    .filter(|&i| !path.water[i])
                    .map(|i| path.covers[i]),
            );
        }
        let share = |code| codes.iter().filter(|&&c| c == code).count() as f64 / codes.len() as f64;
        let (trees, crops) = (share(cover::TREES), share(cover::CROPS));
        assert!((0.08..0.75).contains(&trees), "{}: {trees} trees", made.id);
        assert!(crops > 0.02, "{}: {crops} crops", made.id);
    }
}
