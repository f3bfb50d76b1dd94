//! Outlines of equal field.

use contour::ContourBuilder;
use geo::algorithm::bool_ops::unary_union;
use geo::orient::Direction;
use geo::{
    Area, BooleanOps, Coord, GeodesicArea, MapCoords, MultiPolygon, Orient, Rect, Simplify, Translate,
    Validation,
};
use words::Message;

use crate::error::CoverageError;
use crate::raster::{FieldRaster, NODATA};

/// Where a value of a raster is reached or exceeded.
#[derive(Debug, Clone, PartialEq)]
pub struct Contour {
    /// The value: dB(µV/m) for a field, dB for a margin.
    pub level_db: f64,
    /// The ground at or above it, in degrees (x is longitude). Outer rings run counter-clockwise, holes clockwise, as RFC 7946
    /// wants. Longitudes may go on beyond ±180°: see [`Contour::cut_at_antimeridian`].
    pub area: MultiPolygon<f64>,
    /// Its area on the ellipsoid, km², sea included.
    pub area_km2: f64,
}

/// Half of the hundredth in which rasters are stored: a level just below the steps, for cells equal to a level make rings of
/// too few points.
const HALF_STEP_DB: f64 = 0.005;

/// What cells without an answer are taken for, dB: far below anything asked.
const LOW_DB: f64 = -330.0;

/// Outlines of a raster at several levels, each by linear interpolation between cell centres, simplified by half a cell.
///
/// # Errors
/// [`CoverageError::Contour`] for a level that is no number within ±300 dB, or when an outline cannot be built.
pub fn contours(raster: &FieldRaster, levels_db: &[f64]) -> Result<Vec<Contour>, CoverageError> {
    let (width, height) = (raster.grid.width() as usize, raster.grid.height() as usize);
    // A frame of one cell without field, so that outlines that reach the raster's edge close there.
    let values = framed(raster, width, height);
    let builder = ContourBuilder::new(width + 2, height + 2, true);
    levels_db
        .iter()
        .map(|&level_db| {
            let fail = |reason: Message| CoverageError::Contour { level_db, reason };
            if !(-300.0..=300.0).contains(&level_db) {
                return Err(fail(Message::new("coverage-contour-level")));
            }
            let mut found = builder
                .contours(&values, &[level_db - HALF_STEP_DB])
                .map_err(|e| fail(Message::foreign(e)))?;
            let pixels = found
                .pop()
                .ok_or_else(|| fail(Message::new("coverage-contour-none")))?;
            Ok(on_earth(raster, level_db, pixels.geometry()))
        })
        .collect()
}

fn framed(raster: &FieldRaster, width: usize, height: usize) -> Vec<f64> {
    let mut values = vec![LOW_DB; (width + 2) * (height + 2)];
    for (row, cells) in raster.values_cdb.chunks(width).enumerate() {
        let start = (row + 1) * (width + 2) + 1;
        for (slot, &cell) in values[start..start + width].iter_mut().zip(cells) {
            if cell != NODATA {
                *slot = f64::from(cell) / 100.0;
            }
        }
    }
    values
}

/// From cells (the raster's outer corner at 1, 1 behind the frame) to degrees.
fn on_earth(raster: &FieldRaster, level_db: f64, pixels: &MultiPolygon<f64>) -> Contour {
    let (west, _, _, north) = raster.grid.edges();
    let (step_x, step_y) = raster.grid.steps();
    let mut area = pixels
        .map_coords(|c| Coord {
            x: west + (c.x - 1.0) * step_x,
            y: north - (c.y - 1.0) * step_y,
        })
        .simplify(0.5 * step_y);
    area.0
        .retain(|p| p.exterior().0.len() >= 4 && p.unsigned_area() > 0.0);
    // Simplified rings may cross themselves or one another: a union makes them whole again.
    let mut area = area.orient(Direction::Default);
    if !area.is_valid() {
        area = unary_union(&area.0).orient(Direction::Default);
    }
    let area_km2 = area.geodesic_area_unsigned() * 1e-6;
    Contour {
        level_db,
        area,
        area_km2,
    }
}

impl Contour {
    /// The same ground with every longitude within ±180°, cut in two where it crosses the antimeridian, as RFC 7946 § 3.1.9
    /// wants.
    pub fn cut_at_antimeridian(&self) -> MultiPolygon<f64> {
        let inside = |turn: f64| {
            let band = Rect::new(
                Coord {
                    x: -180.0 + turn,
                    y: -90.0,
                },
                Coord {
                    x: 180.0 + turn,
                    y: 90.0,
                },
            );
            self.area
                .intersection(&MultiPolygon(vec![band.to_polygon()]))
                .translate(-turn, 0.0)
        };
        let beyond = |c: &Coord<f64>| c.x.abs() > 180.0;
        let crosses = |area: &MultiPolygon<f64>| area.iter().any(|p| p.exterior().coords().any(beyond));
        if !crosses(&self.area) {
            return self.area.clone();
        }
        let parts = [-360.0, 0.0, 360.0].into_iter().flat_map(|turn| inside(turn).0);
        MultiPolygon(parts.collect()).orient(Direction::Default)
    }
}
