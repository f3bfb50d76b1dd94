//! The map as a picture: tints on land, coast with three lines out at sea, outlines that carry the class without colour, names on plates.

use super::tint::Tints;
use super::{CLASSES_DBUV_M, METRES_A_DEGREE, Map, Mark, MarkKind};
use crate::book::Book;
use crate::paper::PaperError;
use crate::svg::{HAIR, INK, INK_2, INK_3, Lettering, SANS, painted, width_of};
use geo::{Coord, LineString, MultiPolygon};
use std::fmt::Write;

/// Paper below the map file; the offer's own paper is white.
const PAPER: &str = "#F4F6F2";
/// Width of the drawing.
const WIDTH: f64 = 1000.0;
/// Height of the strip below.
const STRIP: f64 = 46.0;
/// Distances of the three lines off the coast, m.
const OFF_COAST_M: [f64; 3] = [1050.0, 620.0, 280.0];

/// The picture file.
///
/// # Errors
/// [`PaperError::NoMap`], or a drawing that cannot be painted.
pub fn png(book: &Book) -> Result<Vec<u8>, PaperError> {
    painted(&drawing(Map::of(book)?, PAPER), 2.0)
}

/// A box on the drawing.
#[derive(Clone, Copy)]
struct Plate {
    x: f64,
    y: f64,
    wide: f64,
    high: f64,
}

impl Plate {
    fn meets(&self, other: &Plate) -> bool {
        self.x < other.x + other.wide
            && other.x < self.x + self.wide
            && self.y < other.y + other.high
            && other.y < self.y + self.high
    }

    fn inside(&self, high: f64) -> bool {
        self.x >= 4.0
            && self.y >= 4.0
            && self.x + self.wide <= WIDTH - 4.0
            && self.y + self.high <= high - 4.0
    }

    fn drawn(&self, paper: &str) -> String {
        let Plate { x, y, wide, high } = self;
        format!(
            r#"<rect x="{x:.1}" y="{y:.1}" width="{wide:.1}" height="{high:.1}" fill="{paper}" fill-opacity="0.9"/>"#
        )
    }
}

struct Sheet<'a> {
    map: &'a Map,
    paper: &'a str,
    west: f64,
    north: f64,
    per_lon: f64,
    per_lat: f64,
    high: f64,
    taken: Vec<Plate>,
}

/// The drawing on paper of a colour.
pub fn drawing(map: &Map, paper: &str) -> String {
    let (west, south, east, north) = map.view.grid.edges();
    let (step_x, step_y) = map.view.grid.steps();
    let per_lon = WIDTH / (east - west);
    let per_lat = per_lon * step_x / step_y;
    let high = (north - south) * per_lat;
    let sheet = Sheet {
        map,
        paper,
        west,
        north,
        per_lon,
        per_lat,
        high,
        taken: Vec::new(),
    };
    sheet.drawn()
}

impl Sheet<'_> {
    fn drawn(mut self) -> String {
        let (high, whole, paper) = (self.high, self.high + STRIP, self.paper);
        let mut out = format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 {WIDTH} {whole:.1}" width="{WIDTH}" height="{whole:.1}" font-family="{SANS}"><rect width="{WIDTH}" height="{whole:.1}" fill="{paper}"/>"#
        );
        let land = self.path(&self.map.land);
        let _ = write!(
            out,
            r#"<defs><clipPath id="land"><path d="{land}" clip-rule="evenodd"/></clipPath><clipPath id="frame"><rect width="{WIDTH}" height="{high:.1}"/></clipPath></defs><g clip-path="url(#frame)">"#
        );
        out += &self.sea(&land);
        let _ = write!(
            out,
            r#"<g clip-path="url(#land)"><image x="0" y="0" width="{WIDTH}" height="{high:.1}" preserveAspectRatio="none" image-rendering="optimizeSpeed" xlink:href="data:image/png;base64,{}"/>{}</g>"#,
            base64(&self.tinted()),
            self.outlines()
        );
        let _ = write!(
            out,
            r#"<path d="{land}" fill="none" stroke="{INK}" stroke-width="1.25"/>"#
        );
        out += &self.marks();
        out += &self.figures();
        out += &self.scale();
        out += "</g>";
        out += &self.strip();
        out + "</svg>\n"
    }

    fn point(&self, at: &Coord<f64>) -> (f64, f64) {
        (
            (at.x - self.west) * self.per_lon,
            (self.north - at.y) * self.per_lat,
        )
    }

    fn ring(&self, ring: &LineString<f64>) -> String {
        let mut out = String::new();
        for (index, at) in ring.0.iter().enumerate() {
            let (x, y) = self.point(at);
            let _ = write!(out, "{}{x:.1} {y:.1}", if index == 0 { "M" } else { "L" });
        }
        out + "Z"
    }

    fn path(&self, area: &MultiPolygon<f64>) -> String {
        area.0
            .iter()
            .flat_map(|p| std::iter::once(p.exterior()).chain(p.interiors()))
            .map(|ring| self.ring(ring))
            .collect()
    }

    /// Three thin lines that follow the coast, drawn as ever narrower bands of line and paper.
    fn sea(&self, land: &str) -> String {
        let per_m = self.per_lat / METRES_A_DEGREE;
        let mut out = String::new();
        for off_m in OFF_COAST_M {
            let wide = 2.0 * off_m * per_m;
            for (pen, ink) in [(wide + 1.4, HAIR), (wide, self.paper)] {
                let _ = write!(
                    out,
                    r#"<path d="{land}" fill="none" stroke="{ink}" stroke-width="{pen:.1}" stroke-linejoin="round"/>"#
                );
            }
        }
        out
    }

    /// The tints as a picture.
    fn tinted(&self) -> Vec<u8> {
        let (grid, ground) = (&self.map.view.grid, &self.map.ground_m);
        let (width, height) = (grid.width() as usize, grid.height() as usize);
        let tints = Tints::new();
        let cell_m = grid.steps().1 * METRES_A_DEGREE;
        let height_at = |col: usize, row: usize| ground[row.min(height - 1) * width + col.min(width - 1)];
        let mut pixels = Vec::with_capacity(3 * width * height);
        for row in 0..height {
            for col in 0..width {
                // Light from the north-west, over four cells.
                let (left, up) = (col.saturating_sub(2), row.saturating_sub(2));
                let fall = height_at(col + 2, row + 2) - height_at(left, up);
                let lit = if fall.is_nan() {
                    0.0
                } else {
                    f64::from(-fall) / (4.0 * cell_m) * 3.0
                };
                pixels.extend(tints.of(self.map.view.values_cdb[row * width + col], -lit));
            }
        }
        rgb_png(&pixels, width as u32, height as u32)
    }

    fn outlines(&self) -> String {
        let mut out = String::new();
        for contour in &self.map.view_contours {
            let (pen, dash) = pen_of(contour.level_db);
            let path = self.path(&contour.area);
            let _ = write!(
                out,
                r#"<path d="{path}" fill="none" stroke="{PAPER}" stroke-opacity="0.55" stroke-width="3.2"/><path d="{path}" fill="none" stroke="{INK}" stroke-width="{pen}"{dash}/>"#
            );
        }
        out
    }

    /// The class's figure, upright on a plate, twice a class where there is room.
    fn figures(&mut self) -> String {
        let mut out = String::new();
        for contour in &self.map.view_contours {
            let mut rings: Vec<&LineString<f64>> = contour
                .area
                .0
                .iter()
                .flat_map(|p| std::iter::once(p.exterior()).chain(p.interiors()))
                .filter(|r| r.0.len() > 24)
                .collect();
            rings.sort_by_key(|r| std::cmp::Reverse(r.0.len()));
            let text = format!("{:.0}", contour.level_db);
            let mut left = 3;
            for ring in rings.iter().take(4) {
                for part in [7, 2, 5, 3, 6, 1, 4] {
                    let at = ring.0[part * ring.0.len() / 8];
                    let (x, y) = self.point(&at);
                    let plate = Plate {
                        x: x - 11.0,
                        y: y - 9.0,
                        wide: 22.0,
                        high: 18.0,
                    };
                    let room = Plate {
                        x: x - 60.0,
                        y: y - 30.0,
                        wide: 120.0,
                        high: 60.0,
                    };
                    let free = plate.inside(self.high) && !self.taken.iter().any(|t| t.meets(&plate));
                    let crowd =
                        out.contains(&format!(">{text}<")) && self.taken.iter().any(|t| t.meets(&room));
                    if left > 0 && free && !crowd && self.on_land(&at) {
                        self.taken.push(plate);
                        left -= 1;
                        out += &plate.drawn(self.paper);
                        out += &Lettering {
                            at: (x, y + 5.0),
                            anchor: "middle",
                            size: 14.5,
                            weight: 600,
                            ink: INK,
                        }
                        .of(&text);
                        break;
                    }
                }
            }
        }
        out
    }

    fn on_land(&self, at: &Coord<f64>) -> bool {
        use geo::Contains;
        self.map.land.contains(&geo::Point::from(*at))
    }

    fn marks(&mut self) -> String {
        let mut out = String::new();
        for mark in self.map.marks.clone() {
            let at = Coord {
                x: mark.position.lon_deg(),
                y: mark.position.lat_deg(),
            };
            let (x, y) = self.point(&at);
            if !(0.0..=WIDTH).contains(&x) || !(0.0..=self.high).contains(&y) {
                continue;
            }
            self.taken.push(Plate {
                x: x - 12.0,
                y: y - 20.0,
                wide: 24.0,
                high: 32.0,
            });
            out += &symbol(&mark, x, y, self.paper);
        }
        for mark in self.map.marks.clone() {
            let at = Coord {
                x: mark.position.lon_deg(),
                y: mark.position.lat_deg(),
            };
            out += &self.name(&mark, self.point(&at));
        }
        out
    }

    /// A name with its figure, on the first plate round its point that is free.
    fn name(&mut self, mark: &Mark, (x, y): (f64, f64)) -> String {
        let note = mark.note.as_ref().map(assess::say::joined);
        let wide = [Some(&mark.name), note.as_ref()]
            .into_iter()
            .flatten()
            .map(|t| width_of(t, 17.0) + 14.0)
            .fold(0.0, f64::max);
        let high = if note.is_some() { 42.0 } else { 24.0 };
        let spots = [
            (x + 14.0, y - 0.5 * high),
            (x - wide - 14.0, y - 0.5 * high),
            (x - 0.5 * wide, y + 14.0),
            (x - 0.5 * wide, y - high - 22.0),
            (x + 14.0, y + 10.0),
            (x - wide - 14.0, y + 10.0),
            (x + 14.0, y - high - 12.0),
        ];
        let plates = spots.map(|(x, y)| Plate { x, y, wide, high });
        let free = plates
            .iter()
            .find(|p| p.inside(self.high) && !self.taken.iter().any(|t| t.meets(p)));
        let Some(&plate) = free else { return String::new() };
        self.taken.push(plate);
        let at = |line: f64| (plate.x + 6.0, plate.y + 18.0 * line);
        let mut out = plate.drawn(self.paper);
        out += &Lettering {
            at: at(1.0),
            anchor: "start",
            size: 16.5,
            weight: 600,
            ink: INK,
        }
        .of(&mark.name);
        if let Some(note) = note {
            out += &Lettering {
                at: at(2.0),
                anchor: "start",
                size: 15.5,
                weight: 400,
                ink: INK_2,
            }
            .of(&note);
        }
        out
    }

    /// A bar of round kilometres and north, where nothing stands.
    fn scale(&self) -> String {
        let per_km = 1000.0 * self.per_lat / METRES_A_DEGREE;
        let km = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0]
            .into_iter()
            .rfind(|km| km * per_km < 0.2 * WIDTH)
            .unwrap_or(1.0);
        let long = km * per_km;
        let (right, y) = (WIDTH - 50.0, self.high - 22.0);
        let left = right - long;
        let mut out = Plate {
            x: left - 14.0,
            y: y - 52.0,
            wide: long + 68.0,
            high: 66.0,
        }
        .drawn(self.paper);
        let _ = write!(
            out,
            r#"<path d="M{left:.1} {:.1}v6H{right:.1}v-6M{:.1} {y:.1}v-4M{:.1} {:.1}v-34m-4 9l4 -9l4 9" fill="none" stroke="{INK}" stroke-width="1.3"/>"#,
            y - 6.0,
            0.5 * (left + right),
            right + 32.0,
            y + 4.0
        );
        let letters = |x: f64, anchor| Lettering {
            at: (x, y - 12.0),
            anchor,
            size: 14.5,
            weight: 400,
            ink: INK_2,
        };
        out += &letters(left, "middle").of("0");
        out += &letters(right + 4.0, "end").of(&format!("{km} km"));
        let north = (right + 32.0, y - 36.0);
        let north = Lettering {
            at: north,
            ..letters(0.0, "middle")
        };
        out + &north.of("N")
    }

    /// What it is and how it was made, below the frame.
    fn strip(&self) -> String {
        let high = self.high;
        let mut out = format!(
            r#"<rect x="0.75" y="0.75" width="{:.1}" height="{:.1}" fill="none" stroke="{INK}" stroke-width="1.5"/><line x1="0" y1="{high:.1}" x2="{WIDTH}" y2="{high:.1}" stroke="{INK}" stroke-width="1.25"/>"#,
            WIDTH - 1.5,
            high + STRIP - 1.5
        );
        let cells = self.map.strip.len().max(1) as f64;
        for (index, (label, says)) in self.map.strip.iter().enumerate() {
            let x = WIDTH / cells * index as f64;
            if index > 0 {
                let _ = write!(
                    out,
                    r#"<path d="M{x:.1} {high:.1}v{STRIP}" stroke="{HAIR}" stroke-width="1"/>"#
                );
            }
            let at = |y: f64| (x + 12.0, high + y);
            out += &Lettering {
                at: at(18.0),
                anchor: "start",
                size: 14.0,
                weight: 400,
                ink: INK_3,
            }
            .of(label);
            out += &Lettering {
                at: at(36.0),
                anchor: "start",
                size: 15.0,
                weight: 400,
                ink: INK,
            }
            .of(says);
        }
        out
    }
}

/// Weight and dash of a class's line: solid stereo, dashed mono; thin open country, heavier town and large city.
pub fn pen_of(level_dbuv_m: f64) -> (f64, &'static str) {
    let index = CLASSES_DBUV_M
        .iter()
        .position(|l| *l == level_dbuv_m)
        .unwrap_or(0);
    let pen = [1.0, 1.25, 1.6][index / 2];
    (
        pen,
        if index % 2 == 0 {
            r#" stroke-dasharray="5 3""#
        } else {
            ""
        },
    )
}

fn symbol(mark: &Mark, x: f64, y: f64, paper: &str) -> String {
    match mark.kind {
        MarkKind::Mast => format!(
            r#"<g transform="translate({x:.1} {y:.1})" fill="none" stroke-linecap="round"><path d="M0 0V-18M-8 -18L0 -8L8 -18" stroke="{paper}" stroke-width="6"/><circle r="4.5" fill="{paper}" stroke="{INK}" stroke-width="1.6"/><path d="M0 -5V-18M-8 -18L0 -8L8 -18" stroke="{INK}" stroke-width="2.2"/></g>"#
        ),
        MarkKind::Studio => format!(
            r#"<rect x="{:.1}" y="{:.1}" width="11" height="11" fill="{INK}" stroke="{paper}" stroke-width="1.5"/>"#,
            x - 5.5,
            y - 5.5
        ),
        MarkKind::Place => format!(
            r#"<rect x="{:.1}" y="{:.1}" width="10" height="10" fill="{paper}" stroke="{INK}" stroke-width="2"/>"#,
            x - 5.0,
            y - 5.0
        ),
    }
}

fn rgb_png(pixels: &[u8], width: u32, height: u32) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, width, height);
    encoder.set_color(png::ColorType::Rgb);
    let written = encoder
        .write_header()
        .and_then(|mut w| w.write_image_data(pixels));
    written.expect("a picture of its own size fits into memory");
    bytes
}

/// RFC 4648, section 4.
fn base64(bytes: &[u8]) -> String {
    const DIGITS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut out = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for three in bytes.chunks(3) {
        let joined = three.iter().fold(0_u32, |v, b| v << 8 | u32::from(*b)) << (8 * (3 - three.len()));
        for place in 0..4 {
            let digit = DIGITS[(joined >> (18 - 6 * place) & 63) as usize];
            out.push(if place <= three.len() {
                char::from(digit)
            } else {
                '='
            });
        }
    }
    out
}

/// The legend as a drawing: the listener's ruler, classes with what each is wanted for.
pub(crate) fn ruler(wanted_for: &[String; 6], unit: &str) -> String {
    let (row, wide) = (34.0, 320.0);
    let high = row * 7.0 + 40.0;
    let mut out = format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide} {high}" width="{wide}" height="{high}" font-family="{SANS}">"#
    );
    let letters = |x: f64, y: f64, ink| Lettering {
        at: (x, y),
        anchor: "start",
        size: 16.0,
        weight: 400,
        ink,
    };
    out += &letters(0.0, 16.0, INK_3).of(unit);
    for class in 0..7 {
        let top = 30.0 + row * (6 - class) as f64;
        let _ = write!(
            out,
            r#"<rect x="40" y="{top}" width="34" height="{row}" fill="{}"/>"#,
            super::tint::hex(class)
        );
        if class > 0 {
            let edge = top + row;
            let level = CLASSES_DBUV_M[class - 1];
            let (pen, dash) = pen_of(level);
            let _ = write!(
                out,
                r#"<line x1="40" y1="{edge}" x2="{wide}" y2="{edge}" stroke="{INK}" stroke-width="{pen}"{dash}/>"#
            );
            out += &letters(8.0, edge + 5.0, INK).of(&format!("{level:.0}"));
            out += &letters(84.0, edge - 6.0, INK_2).of(&wanted_for[class - 1]);
        }
    }
    let _ = write!(
        out,
        r#"<rect x="40" y="30" width="34" height="{}" fill="none" stroke="{INK}"/>"#,
        row * 7.0
    );
    out + "</svg>"
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 4648, section 10.
    #[test]
    fn base64_of_the_rfc() {
        for (plain, coded) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(base64(plain.as_bytes()), coded);
        }
    }
}
