//! Draws a generated ground as shaded relief with its places, for looking at: `cargo run --release -p terrain --example relief -- island out.png [half-width km]`.

use std::time::Instant;
use terrain::generated::{self, GeneratedGround};
use terrain::{Position, cover, geodesic};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut args = std::env::args().skip(1);
    let id = args.next().unwrap_or_else(|| "island".into());
    let path = args.next().unwrap_or_else(|| format!("{id}.png"));
    let half_km: f64 = args.next().map_or(Ok(60.0), |text| text.parse())?;
    let (east_km, north_km) = (
        args.next().map_or(Ok(0.0), |t| t.parse())?,
        args.next().map_or(Ok(0.0), |t| t.parse())?,
    );
    let start = Instant::now();
    let made = generated::by_id(&id).ok_or("expected island, rolling, alpine or coast")?;
    println!(
        "{}: made in {:.0} ms",
        made.title,
        start.elapsed().as_secs_f64() * 1e3
    );
    let centre = geodesic::destination(
        geodesic::destination(made.centre(), 90.0, east_km * 1e3),
        0.0,
        north_km * 1e3,
    );
    let picture = Picture {
        made,
        centre,
        half_km,
        pixels: 1000,
    };
    let start = Instant::now();
    let image = picture.draw();
    println!("drawn in {:.0} ms", start.elapsed().as_secs_f64() * 1e3);
    let file = std::io::BufWriter::new(std::fs::File::create(&path)?);
    let mut encoder = png::Encoder::new(file, picture.pixels, picture.pixels);
    encoder.set_color(png::ColorType::Rgb);
    encoder.write_header()?.write_image_data(&image)?;
    for place in &made.places {
        let spot = made.ground.spot(place.position)?;
        println!(
            "{:14} {:7.0} people, {:6.1} m, cover {}",
            place.name,
            place.people.unwrap_or(0.0),
            spot.height_m,
            spot.cover
        );
    }
    for site in &made.sites {
        println!(
            "{:14} {:6.1} m  {}",
            site.id,
            made.ground.spot(site.position)?.height_m,
            site.note
        );
    }
    Ok(())
}

struct Picture {
    made: &'static GeneratedGround,
    centre: Position,
    half_km: f64,
    pixels: u32,
}

impl Picture {
    fn position(&self, col: f64, row: f64) -> Position {
        let n = f64::from(self.pixels);
        let (x, y) = (
            (2.0 * col / n - 1.0) * self.half_km,
            (1.0 - 2.0 * row / n) * self.half_km,
        );
        let lat = self.centre.lat_deg() + y / 111.13;
        let lon = self.centre.lon_deg() + x / (111.3 * self.centre.lat_deg().to_radians().cos());
        Position::new(lat, lon).expect("pictures stay away from the poles")
    }

    fn height_m(&self, col: f64, row: f64) -> f64 {
        self.made
            .ground
            .spot(self.position(col, row))
            .map_or(0.0, |spot| spot.height_m)
    }

    fn draw(&self) -> Vec<u8> {
        let run_m = 2.0 * self.half_km * 1000.0 / f64::from(self.pixels);
        let gain = if self.made.id == "alpine" { 0.8 } else { 1.6 };
        let mut image = Vec::new();
        for row in 0..self.pixels {
            for col in 0..self.pixels {
                let (c, r) = (f64::from(col), f64::from(row));
                let here = self.made.ground.spot(self.position(c, r));
                let Ok(here) = here else {
                    image.extend([255, 0, 255]);
                    continue;
                };
                let dx = (self.height_m(c + 1.0, r) - here.height_m) / run_m;
                let dy = (self.height_m(c, r + 1.0) - here.height_m) / run_m;
                let light =
                    ((1.0 + gain * dx + gain * dy) / (1.0 + dx * dx + dy * dy).sqrt()).clamp(0.15, 1.7);
                let tint = tint(here.cover, here.height_m);
                image
                    .extend(tint.map(|v| (v * if here.water { 1.0 } else { light }).clamp(0.0, 255.0) as u8));
            }
        }
        let sites = self.made.sites.iter().map(|s| (s.position, [220, 0, 0]));
        let places = self.made.places.iter().map(|p| (p.position, [0, 0, 0]));
        for (position, colour) in places.chain(sites) {
            self.mark(&mut image, position, colour);
        }
        image
    }

    fn mark(&self, image: &mut [u8], position: Position, colour: [u8; 3]) {
        let n = f64::from(self.pixels);
        let x =
            (position.lon_deg() - self.centre.lon_deg()) * 111.3 * self.centre.lat_deg().to_radians().cos();
        let y = (position.lat_deg() - self.centre.lat_deg()) * 111.13;
        let (col, row) = (
            (x / self.half_km + 1.0) * n / 2.0,
            (1.0 - y / self.half_km) * n / 2.0,
        );
        for k in -5i64..=5 {
            for (c, r) in [(col as i64 + k, row as i64), (col as i64, row as i64 + k)] {
                if (0..i64::from(self.pixels)).contains(&c) && (0..i64::from(self.pixels)).contains(&r) {
                    let at = (r as usize * self.pixels as usize + c as usize) * 3;
                    image[at..at + 3].copy_from_slice(&colour);
                }
            }
        }
    }
}

fn tint(code: u8, height_m: f64) -> [f64; 3] {
    match code {
        cover::WATER => [120.0, 160.0, 195.0],
        cover::TREES => [88.0, 120.0, 78.0],
        cover::BUILT_UP => [190.0, 95.0, 85.0],
        cover::CROPS => [200.0, 190.0, 130.0],
        cover::BARE => [150.0, 145.0, 140.0],
        cover::SNOW => [225.0, 230.0, 238.0],
        cover::WETLAND => [110.0, 150.0, 140.0],
        cover::SHRUB => [140.0, 150.0, 95.0],
        _ => [150.0 + height_m.min(2000.0) * 0.01, 175.0, 115.0],
    }
}
