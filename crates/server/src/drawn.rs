//! A map made ready to be painted: coast and contours as lines, relief as shades, planes as bytes.

use crate::desk::Refusal;
use crate::map::{Contour, FieldAsk, FieldPicture, Heard, Map, NO_FIELD};
use contour::ContourBuilder;
use geo::{LineString, MultiPolygon, Simplify};
use std::sync::Arc;
use words::Message;

/// Shades of relief; the middle one is flat.
const SHADES: u8 = 13;
/// Slope towards the light that takes the last shade. A choice of drawing, not a measure.
const STEEPEST: f32 = 0.35;
/// Lines may leave their true course by this much of a cell: below a pixel until the map is drawn very near.
const SIMPLER_CELLS: f64 = 0.12;
/// A level far below any class, for cells without field: `contour` would lose lines over a hole.
const FAR_BELOW_DB: f64 = -100.0;

/// A map and its planes.
pub struct Drawn {
    picture: Arc<FieldPicture>,
    /// Legend, coast and contours.
    pub map: Map,
    /// Field, relief and land as the page reads them.
    pub planes: Vec<u8>,
}

impl Drawn {
    /// Draws a picture.
    ///
    /// # Errors
    /// When its planes do not have the size its legend says.
    pub fn new(picture: Arc<FieldPicture>, asked: &FieldAsk) -> Result<Drawn, Refusal> {
        let cells = picture.legend.width * picture.legend.height;
        if [
            picture.field_hundredths.len(),
            picture.ground_m.len(),
            picture.land.len(),
            picture.land_round.len(),
        ]
        .iter()
        .any(|n| *n != cells)
            || cells == 0
        {
            return Err(Refusal::new("failed", Message::new("server-map-planes")));
        }
        let map = Map {
            legend: picture.legend.clone(),
            coast: coast(&picture)?,
            contours: contours(&picture)?,
            raster: address(&picture, asked),
        };
        Ok(Drawn {
            planes: planes(&picture),
            map,
            picture,
        })
    }

    /// Whether it was drawn from this very picture.
    pub fn is_of(&self, picture: &Arc<FieldPicture>) -> bool {
        Arc::ptr_eq(&self.picture, picture)
    }
}

/// Where the planes are: the same question, with the token so that no older answer is kept for it.
fn address(picture: &FieldPicture, asked: &FieldAsk) -> String {
    let heard = match asked.heard {
        Heard::Roof => "roof",
        Heard::Indoors => "indoors",
        Heard::Car => "car",
    };
    let emission = asked
        .emission
        .as_deref()
        .map(|tag| format!("emission={tag}&"))
        .unwrap_or_default();
    let coarse = u8::from(picture.legend.coarse);
    format!(
        "api/field/raster?{emission}heard={heard}&places={}&of={}{coarse}",
        asked.places, picture.legend.token
    )
}

/// Outlines of the land.
fn coast(picture: &FieldPicture) -> Result<Vec<Vec<f32>>, Refusal> {
    let land: Vec<f64> = picture.land_round.iter().map(|share| f64::from(*share)).collect();
    let outlines = lines(picture, &land, &[0.5])?;
    Ok(outlines.iter().flat_map(rings).collect())
}

/// Lines of equal field at the lower edge of each class.
fn contours(picture: &FieldPicture) -> Result<Vec<Contour>, Refusal> {
    let field: Vec<f64> = picture
        .field_hundredths
        .iter()
        .map(|h| {
            if *h == NO_FIELD {
                FAR_BELOW_DB
            } else {
                f64::from(*h) / 100.0
            }
        })
        .collect();
    let classes: Vec<(usize, f64)> = picture
        .legend
        .classes
        .iter()
        .enumerate()
        .filter_map(|(i, class)| class.from.map(|from| (i, from)))
        .collect();
    // Half a step of the plane below each edge: cells equal to a level would make rings of too few points.
    let edges: Vec<f64> = classes.iter().map(|(_, from)| from - 0.005).collect();
    let found = lines(picture, &field, &edges)?;
    Ok(classes
        .iter()
        .zip(&found)
        .map(|((class, _), area)| Contour {
            class: *class,
            rings: rings(area),
        })
        .collect())
}

fn lines(picture: &FieldPicture, values: &[f64], levels: &[f64]) -> Result<Vec<MultiPolygon<f64>>, Refusal> {
    let builder = ContourBuilder::new(picture.legend.width, picture.legend.height, true);
    let failed = |_| Refusal::new("failed", Message::new("server-map-lines"));
    Ok(builder
        .contours(values, levels)
        .map_err(failed)?
        .into_iter()
        .map(|line| line.into_inner().0)
        .collect())
}

/// Rings of an area in cells, x and y by turns, without needless points.
fn rings(area: &MultiPolygon<f64>) -> Vec<Vec<f32>> {
    let flat = |ring: &LineString<f64>| -> Vec<f32> {
        ring.simplify(SIMPLER_CELLS)
            .0
            .iter()
            .flat_map(|c| [hundredths(c.x), hundredths(c.y)])
            .collect()
    };
    area.0
        .iter()
        .flat_map(|polygon| std::iter::once(polygon.exterior()).chain(polygon.interiors()))
        .map(flat)
        .filter(|r| r.len() >= 8)
        .collect()
}

/// A place to a hundredth of a cell.
fn hundredths(cells: f64) -> f32 {
    ((cells * 100.0).round() / 100.0) as f32
}

/// Field, relief and land as bytes.
fn planes(picture: &FieldPicture) -> Vec<u8> {
    let mut out = Vec::with_capacity(picture.land.len() * 4);
    for hundredths in &picture.field_hundredths {
        out.extend_from_slice(&hundredths.to_le_bytes());
    }
    out.extend(relief(picture));
    out.extend(picture.land.iter().map(|land| u8::from(*land)));
    out
}

/// Relief by the slope towards a light in the north-west: one shade for each cell, the middle one where it is flat or unknown.
fn relief(picture: &FieldPicture) -> impl Iterator<Item = u8> {
    let (width, height) = (picture.legend.width, picture.legend.height);
    let flat = SHADES / 2;
    let (dx_m, dy_m) = (
        picture.legend.cell_m as f32,
        (picture.legend.cell_m * picture.legend.aspect) as f32,
    );
    let ground = move |x: usize, y: usize| picture.ground_m[y * width + x];
    (0..width * height).map(move |i| {
        let (x, y) = (i % width, i / width);
        let (west, east) = (x.saturating_sub(1), (x + 1).min(width - 1));
        let (north, south) = (y.saturating_sub(1), (y + 1).min(height - 1));
        let rise_east = (ground(east, y) - ground(west, y)) / (dx_m * (east - west).max(1) as f32);
        let rise_south = (ground(x, south) - ground(x, north)) / (dy_m * (south - north).max(1) as f32);
        let lit = (rise_east + rise_south) * std::f32::consts::FRAC_1_SQRT_2 / STEEPEST;
        if !lit.is_finite() {
            return flat;
        }
        (f32::from(flat) + lit.clamp(-1.0, 1.0) * f32::from(flat)).round() as u8
    })
}
