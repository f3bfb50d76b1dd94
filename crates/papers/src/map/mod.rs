//! The map: field on land, coast, outlines and names, drawn once and handed out in open formats.

pub mod geotiff;
pub mod kml;
pub mod outlines;
pub mod places;
pub mod plate;
mod tint;

pub(crate) use tint::hex as tint_hex;

use crate::book::Book;
use crate::paper::PaperError;
use assess::said::Shown;
use coverage::{Contour, ErpTable, FieldRaster, LossField, Paint, Situation, World};
use geo::{BoundingRect, MultiPolygon};
use terrain::grid::Corner;
use terrain::{Crs, Grid, Position, Registration};

/// Lower edges of the classes, dB(µV/m): Rec. ITU-R BS.412-9, Table 1, mono and stereo in open country, town and large city.
pub const CLASSES_DBUV_M: [f64; 6] = [48.0, 54.0, 60.0, 66.0, 70.0, 74.0];

/// Cells across the drawn map.
const CELLS_ACROSS: f64 = 1200.0;

/// Cells across the look-out that finds the land.
const LOOKOUT: f64 = 160.0;

/// Metres in a degree of latitude, for drawing only.
const METRES_A_DEGREE: f64 = 111_200.0;

/// What a named point is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MarkKind {
    /// An antenna.
    Mast,
    /// The studio.
    Studio,
    /// A place.
    Place,
}

/// A named point.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// What it is.
    pub kind: MarkKind,
    /// Its name.
    pub name: String,
    /// Where it is.
    pub position: Position,
    /// What the assessment says of it.
    pub note: Option<Shown>,
    /// Its in hand, where something is wanted there.
    pub in_hand: Option<Shown>,
}

/// What a map is drawn from.
pub struct MapAsk<'a> {
    /// The world: land and water.
    pub world: &'a dyn World,
    /// Losses.
    pub field: &'a LossField,
    /// Radiated power.
    pub erp: &'a ErpTable,
    /// Where it is heard.
    pub situation: Situation,
    /// The emission's tag.
    pub emission: &'a str,
    /// Named points.
    pub marks: Vec<Mark>,
    /// What the strip below says: label and text.
    pub strip: Vec<(String, String)>,
}

/// A map, drawn.
#[derive(Debug, Clone)]
pub struct Map {
    /// The emission's tag.
    pub emission: String,
    /// Median field over the whole study, for files.
    pub raster: FieldRaster,
    /// Outlines of the whole study at the classes' edges, sea included.
    pub contours: Vec<Contour>,
    /// Median field where the land lies, fine enough to print.
    pub view: FieldRaster,
    /// Outlines on the view.
    pub view_contours: Vec<Contour>,
    /// Land on the view.
    pub land: MultiPolygon<f64>,
    /// Ground above sea at the view's cells, m; NaN where there is none.
    pub ground_m: Vec<f32>,
    /// Named points.
    pub marks: Vec<Mark>,
    /// The strip below.
    pub strip: Vec<(String, String)>,
}

impl Map {
    /// Draws a map.
    ///
    /// # Errors
    /// [`PaperError::Coverage`] for a field that cannot be laid on a grid.
    pub fn draw(ask: MapAsk) -> Result<Map, PaperError> {
        let study = ask.field.study();
        let values = ask.field.painted_db(ask.erp, &Paint::Field(ask.situation))?;
        let raster = ask.field.raster_of(&values, ask.field.raster_grid(study.step_m)?);
        let lookout = ask.field.raster_grid(2000.0 * study.radius_km / LOOKOUT)?;
        let grid = framed(&lookout, &ask)?;
        let view = ask.field.raster_of(&values, grid);
        let (land, ground_m) = land_and_ground(&view.grid, ask.world, study.step_m)?;
        Ok(Map {
            emission: ask.emission.to_owned(),
            contours: coverage::contours(&raster, &CLASSES_DBUV_M)?,
            view_contours: coverage::contours(&view, &CLASSES_DBUV_M)?,
            raster,
            view,
            land,
            ground_m,
            marks: ask.marks,
            strip: ask.strip,
        })
    }

    pub(crate) fn of<'a>(book: &Book<'a>) -> Result<&'a Map, PaperError> {
        book.map.ok_or(PaperError::NoMap)
    }
}

/// The part of a look-out that holds land and the named points, with a margin; all of it where there is no sea.
fn framed(lookout: &Grid, ask: &MapAsk) -> Result<Grid, PaperError> {
    let (west, south, east, north) = lookout.edges();
    let (step_x, step_y) = lookout.steps();
    let mut frame: Option<(f64, f64, f64, f64)> = None;
    let mut hold = |x: f64, y: f64| {
        let (w, s, e, n) = frame.get_or_insert((x, y, x, y));
        (*w, *s, *e, *n) = (w.min(x), s.min(y), e.max(x), n.max(y));
    };
    for row in 0..lookout.height() {
        for col in 0..lookout.width() {
            let dry = lookout
                .position(col, row)
                .and_then(|at| ask.world.spot(at).ok())
                .is_some_and(|s| !s.water);
            if dry {
                let (x, y) = lookout.xy(col, row);
                hold(x, y);
            }
        }
    }
    let site = ask.field.study().site;
    hold(site.lon_deg(), site.lat_deg());
    let (w, s, e, n) = frame.unwrap_or((west, south, east, north));
    let (pad_x, pad_y) = (0.05 * (e - w) + 3.0 * step_x, 0.05 * (n - s) + 3.0 * step_y);
    let (mut w, mut e, mut s, mut n) = (w - pad_x, e + pad_x, s - pad_y, n + pad_y);
    // Neither a ribbon nor a tower: at most 16 to 10 and at least 1 to 1.
    let squeeze = step_y / step_x;
    let (wide, high) = ((e - w) * squeeze, n - s);
    if wide > 1.6 * high {
        let more = 0.5 * (wide / 1.6 - high);
        (s, n) = (s - more, n + more);
    } else if wide < high {
        let more = 0.5 * (high - wide) / squeeze;
        (w, e) = (w - more, e + more);
    }
    let cell_x = (e - w) / CELLS_ACROSS;
    let cell_y = cell_x * squeeze;
    let corner = Corner {
        x: w,
        y: n,
        step_x: cell_x,
        step_y: cell_y,
    };
    let size = (CELLS_ACROSS as u32, ((n - s) / cell_y).ceil() as u32);
    Grid::new(Crs::Geographic, corner, size, Registration::Area)
        .map_err(|e| PaperError::Drawing(words::Message::foreign(e)))
}

/// Land as an outline, and the heights below it. The outline runs where half of the ground around is land, so that the cells of a
/// water mask, some `mask_m` wide, leave no stairs.
fn land_and_ground(
    grid: &Grid,
    world: &dyn World,
    mask_m: f64,
) -> Result<(MultiPolygon<f64>, Vec<f32>), PaperError> {
    let (width, height) = (grid.width() as usize, grid.height() as usize);
    let (mut dry, mut ground_m) = (vec![0.0_f32; width * height], vec![f32::NAN; width * height]);
    for row in 0..height {
        for col in 0..width {
            let index = row * width + col;
            let at = grid.position(col as u32, row as u32);
            if let Some(spot) = at.and_then(|at| world.spot(at).ok()) {
                ground_m[index] = spot.height_m as f32;
                dry[index] = if spot.water { 0.0 } else { 1.0 };
            }
        }
    }
    let cell_m = grid.steps().1 * METRES_A_DEGREE;
    let dry = coverage::shares_of_land(dry, width, mask_m, cell_m);
    let shares = FieldRaster {
        grid: *grid,
        values_cdb: dry.iter().map(|share| (share * 10_000.0) as i16).collect(),
    };
    let outline = coverage::contours(&shares, &[50.0])?;
    let land = outline
        .into_iter()
        .next()
        .map_or_else(|| MultiPolygon(Vec::new()), |c| c.area);
    Ok((land, ground_m))
}

/// The corner of an outline, for tests that ask whether it lies where it should.
pub fn bounds(area: &MultiPolygon<f64>) -> Option<(f64, f64, f64, f64)> {
    area.bounding_rect()
        .map(|r| (r.min().x, r.min().y, r.max().x, r.max().y))
}
