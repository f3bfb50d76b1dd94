//! How the refusals of this crate are told: a message by code with typed arguments each, said by `words`.

use words::{Message, said_in_english};

use crate::cover::CoverError;
use crate::crs::Crs;
use crate::geotiff::GeoTiffError;
use crate::grid::{GridError, MAX_SIDE};
use crate::ground::{GroundError, HIGHEST_M, LOWEST_M, MAX_SAMPLES};
use crate::hgt::{BYTES_1_SECOND, BYTES_3_SECONDS, HgtError};
use crate::people::{MAX_CELLS, PeopleError};
use crate::places::CellError;
use crate::position::PositionError;
use crate::raster::{MAX_BLOCK_SAMPLES, MAX_BLOCKS, RasterError};
use quantity::Digits;

said_in_english!(CellError);
said_in_english!(CoverError);
said_in_english!(GeoTiffError);
said_in_english!(GridError);
said_in_english!(GroundError);
said_in_english!(HgtError);
said_in_english!(PeopleError);
said_in_english!(PositionError);
said_in_english!(RasterError);

/// Degrees of a place a person looks for on a map: about a metre.
const PLACE: Digits = Digits::Decimals(5);

impl From<&PositionError> for Message {
    fn from(error: &PositionError) -> Self {
        match error {
            PositionError::NotFinite { lat_deg, lon_deg } => Message::new("terrain-position-not-finite")
                .given("lat", *lat_deg)
                .given("lon", *lon_deg),
            PositionError::LatitudeOutOfRange { lat_deg } => {
                Message::new("terrain-position-latitude").given("lat", *lat_deg)
            }
            PositionError::LongitudeOutOfRange { lon_deg } => {
                Message::new("terrain-position-longitude").given("lon", *lon_deg)
            }
        }
    }
}

impl From<&CellError> for Message {
    fn from(error: &CellError) -> Self {
        Message::new("terrain-cell")
            .text("line", error.line.to_string())
            .text("column", error.column.to_string())
            .message("what", error.message.clone())
    }
}

impl From<&CoverError> for Message {
    fn from(error: &CoverError) -> Self {
        let CoverError::Row { line, expected } = error;
        Message::new("terrain-cover-row")
            .text("line", line.to_string())
            .message("what", expected.clone())
    }
}

impl From<&HgtError> for Message {
    fn from(error: &HgtError) -> Self {
        match error {
            HgtError::Name { name } => Message::new("terrain-hgt-name").text("name", name),
            HgtError::Size { name, found } => Message::new("terrain-hgt-size")
                .text("name", name)
                .count("found", *found as i64)
                .count("one", BYTES_1_SECOND as i64)
                .count("three", BYTES_3_SECONDS as i64),
            HgtError::Unreadable { name, reason } => Message::new("terrain-hgt-unreadable")
                .text("name", name)
                .message("why", reason.clone()),
        }
    }
}

impl From<&GridError> for Message {
    fn from(error: &GridError) -> Self {
        match error {
            GridError::Size { width, height } => Message::new("terrain-grid-size")
                .count("width", i64::from(*width))
                .count("height", i64::from(*height))
                .count("most", i64::from(MAX_SIDE)),
            GridError::Step { step_x, step_y } => Message::new("terrain-grid-step")
                .given("x", *step_x)
                .given("y", *step_y),
            GridError::BeyondPole { south, north } => Message::new("terrain-grid-beyond-pole")
                .given("south", *south)
                .given("north", *north),
            GridError::TooWide { west, east } => Message::new("terrain-grid-too-wide")
                .given("west", *west)
                .given("east", *east),
            GridError::Corner { x, y, crs } => Message::new("terrain-grid-corner")
                .given("x", *x)
                .given("y", *y)
                .message("crs", *crs),
        }
    }
}

impl From<Crs> for Message {
    fn from(crs: Crs) -> Self {
        let (tag, zone) = match crs {
            Crs::Geographic => ("geographic", None),
            Crs::Utm { zone, north: true } => ("utm-north", Some(zone)),
            Crs::Utm { zone, north: false } => ("utm-south", Some(zone)),
            Crs::WebMercator => ("web-mercator", None),
            Crs::Mollweide => ("mollweide", None),
        };
        Message::new("terrain-crs")
            .tag("crs", tag)
            .count("zone", zone.map_or(0, i64::from))
    }
}

impl From<&RasterError> for Message {
    fn from(error: &RasterError) -> Self {
        match error {
            RasterError::Unreadable { reason } => reason.clone(),
            RasterError::BlockSize {
                block_col,
                block_row,
                found,
                expected,
            } => Message::new("terrain-block-size")
                .text("block", format!("{block_col},{block_row}"))
                .count("found", *found as i64)
                .count("expected", *expected as i64),
            RasterError::TooManyBlocks { blocks } => Message::new("terrain-blocks-too-many")
                .count("blocks", *blocks as i64)
                .count("most", MAX_BLOCKS as i64),
            RasterError::BlockTooLarge { samples } => Message::new("terrain-block-too-large")
                .count("samples", *samples as i64)
                .count("most", MAX_BLOCK_SAMPLES as i64),
        }
    }
}

impl From<&PeopleError> for Message {
    fn from(error: &PeopleError) -> Self {
        match error {
            PeopleError::Length { found, expected } => Message::new("terrain-people-length")
                .count("found", *found as i64)
                .count("expected", *expected as i64),
            PeopleError::Count { count, col, row } => Message::new("terrain-people-count")
                .given("count", *count)
                .count("column", i64::from(*col))
                .count("row", i64::from(*row)),
            PeopleError::TooMany { cells } => Message::new("terrain-people-too-many")
                .count("cells", *cells as i64)
                .count("most", MAX_CELLS as i64),
            PeopleError::Elsewhere => Message::new("terrain-people-elsewhere"),
            PeopleError::Raster(error) => error.into(),
        }
    }
}

impl From<&GroundError> for Message {
    fn from(error: &GroundError) -> Self {
        match error {
            GroundError::Tile { tile, error } => Message::new("terrain-ground-tile")
                .text("tile", tile)
                .message("why", error),
            GroundError::AbsurdHeight {
                height_m,
                lat_deg,
                lon_deg,
            } => Message::new("terrain-ground-absurd-height")
                .given_in("height", *height_m, "m")
                .number("lat", *lat_deg, PLACE)
                .number("lon", *lon_deg, PLACE)
                .given("low", LOWEST_M)
                .given_in("high", HIGHEST_M, "m"),
            GroundError::Missing { lat_deg, lon_deg } => Message::new("terrain-ground-missing")
                .number("lat", *lat_deg, PLACE)
                .number("lon", *lon_deg, PLACE),
            GroundError::AllVoid => Message::new("terrain-ground-all-void"),
            GroundError::NoLength => Message::new("terrain-ground-no-length"),
            GroundError::NoPath {
                length_km,
                azimuth_deg,
                step_m,
            } => Message::new("terrain-ground-no-path")
                .given_in("length", *length_km, "km")
                .given("azimuth", *azimuth_deg)
                .given_in("step", *step_m, "m")
                .count("most", MAX_SAMPLES as i64),
        }
    }
}

impl From<&GeoTiffError> for Message {
    fn from(error: &GeoTiffError) -> Self {
        match error {
            GeoTiffError::Unreadable { reason } => {
                Message::new("terrain-tiff-unreadable").message("why", reason.clone())
            }
            GeoTiffError::Samples { found } => {
                Message::new("terrain-tiff-samples").message("found", found.clone())
            }
            GeoTiffError::Compression { found } => {
                Message::new("terrain-tiff-compression").text("found", found)
            }
            GeoTiffError::NotGeoreferenced { missing } => {
                Message::new("terrain-tiff-no-place").tag("missing", *missing)
            }
            GeoTiffError::Turned => Message::new("terrain-tiff-turned"),
            GeoTiffError::Crs { name, code } => Message::new("terrain-tiff-crs")
                .tag("known", known(name, *code))
                .text("name", name)
                .text("code", code.map(|code| code.to_string()).unwrap_or_default()),
            GeoTiffError::Unit { what, code, expected } => Message::new("terrain-tiff-unit")
                .tag("what", *what)
                .text("code", code.to_string())
                .tag("expected", *expected),
            GeoTiffError::Scaled => Message::new("terrain-tiff-scaled"),
            GeoTiffError::Grid(error) => error.into(),
            GeoTiffError::Raster(error) => error.into(),
        }
    }
}

/// What a file tells of its coordinate system.
fn known(name: &str, code: Option<u16>) -> &'static str {
    match (name.is_empty(), code) {
        (true, None) => "nothing",
        (false, None) => "name",
        (true, Some(_)) => "code",
        (false, Some(_)) => "both",
    }
}
