//! SRTM height tiles: square rasters of big-endian 16-bit metres, rows north to south, named after their south-west corner.
//!
//! 1 201² samples (3″) or 3 601² (1″), plain or gzipped; samples on the edges are shared with the neighbours. Void −32 768, and
//! −32 767 as some products write it.
//!
//! # Source
//! NASA / USGS, "SRTM Topography" (quick-start text of the data set) [M].

use std::io::{Read, SeekFrom};
use std::sync::Arc;

use words::Message;

use crate::crs::Crs;
use crate::grid::{Corner, Grid, Registration};
use crate::raster::{BlockSource, Raster, RasterError, Samples};
use crate::source::{OpenTile, is_gzip, unpack};

/// Bytes of a 3″ tile.
pub const BYTES_3_SECONDS: u64 = 1201 * 1201 * 2;

/// Bytes of a 1″ tile.
pub const BYTES_1_SECOND: u64 = 3601 * 3601 * 2;

/// Rows read at once from a plain file.
const ROWS_AT_ONCE: u32 = 128;

/// The south-west corner in a tile's name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct HgtName {
    /// Latitude of the southern edge, whole degrees, −90…89.
    pub south_deg: i32,
    /// Longitude of the western edge, whole degrees, −180…179.
    pub west_deg: i32,
}

/// Why a tile is refused.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum HgtError {
    /// A name that tells no corner.
    Name {
        /// The name as given.
        name: String,
    },
    /// A size that is neither a 1″ nor a 3″ tile.
    Size {
        /// Name of the tile.
        name: String,
        /// Bytes found (after unpacking).
        found: u64,
    },
    /// The bytes could not be read.
    Unreadable {
        /// Name of the tile.
        name: String,
        /// What happened.
        reason: Message,
    },
}

impl HgtName {
    /// The corner in a file's name; folders before it and `.hgt` or `.hgt.gz` (any case) behind it are allowed.
    ///
    /// # Errors
    /// [`HgtError::Name`].
    ///
    /// # Example
    /// ```
    /// let name = terrain::hgt::HgtName::parse("tiles/S46W066.hgt.gz").unwrap();
    /// assert_eq!((name.south_deg, name.west_deg), (-46, -66));
    /// assert_eq!(name.to_string(), "S46W066");
    /// ```
    pub fn parse(name: &str) -> Result<Self, HgtError> {
        let refuse = || HgtError::Name {
            name: name.to_owned(),
        };
        let file = name
            .rsplit(['/', '\\'])
            .next()
            .unwrap_or(name)
            .to_ascii_uppercase();
        let stem = file.strip_suffix(".GZ").unwrap_or(&file);
        let stem = stem.strip_suffix(".HGT").unwrap_or(stem);
        if stem.len() != 7 || !stem.is_ascii() {
            return Err(refuse());
        }
        let number = |text: &str| {
            text.bytes()
                .all(|b| b.is_ascii_digit())
                .then(|| text.parse::<i32>().ok())
                .flatten()
                .ok_or_else(refuse)
        };
        let south_deg = match &stem[..1] {
            "N" => number(&stem[1..3])?,
            "S" => -number(&stem[1..3])?,
            _ => return Err(refuse()),
        };
        let west_deg = match &stem[3..4] {
            "E" => number(&stem[4..7])?,
            "W" => -number(&stem[4..7])?,
            _ => return Err(refuse()),
        };
        if (-90..90).contains(&south_deg) && (-180..180).contains(&west_deg) {
            Ok(Self { south_deg, west_deg })
        } else {
            Err(refuse())
        }
    }

    /// The tile that holds a position.
    pub fn holding(position: crate::Position) -> Self {
        let south_deg = (position.lat_deg().floor() as i32).min(89);
        Self {
            south_deg,
            west_deg: position.lon_deg().floor() as i32,
        }
    }
}

impl std::fmt::Display for HgtName {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let ns = if self.south_deg < 0 { 'S' } else { 'N' };
        let ew = if self.west_deg < 0 { 'W' } else { 'E' };
        write!(f, "{ns}{:02}{ew}{:03}", self.south_deg.abs(), self.west_deg.abs())
    }
}

/// A raster of the tile with this name: its size is looked at now, its samples are read when first touched.
///
/// # Errors
/// [`HgtError`]: a name without a corner, a size that is no tile's, bytes that cannot be read. Later damage (a gzip stream
/// whose trailer lied) is told by the raster.
pub fn raster(name: &str, tile: Arc<dyn OpenTile>) -> Result<Raster, HgtError> {
    let corner = HgtName::parse(name)?;
    let unreadable = |reason: Message| HgtError::Unreadable {
        name: name.to_owned(),
        reason,
    };
    let (bytes, packed) = size(tile.as_ref()).map_err(|e| unreadable(Message::foreign(e)))?;
    let side = match bytes {
        BYTES_1_SECOND => 3601,
        BYTES_3_SECONDS => 1201,
        found => {
            return Err(HgtError::Size {
                name: name.to_owned(),
                found,
            });
        }
    };
    let step = 1.0 / f64::from(side - 1);
    let north_west = Corner {
        x: f64::from(corner.west_deg),
        y: f64::from(corner.south_deg + 1),
        step_x: step,
        step_y: step,
    };
    let grid = Grid::new(Crs::Geographic, north_west, (side, side), Registration::Point)
        .map_err(|e| unreadable((&e).into()))?;
    let rows = if packed { side } else { ROWS_AT_ONCE };
    Raster::new(grid, (side, rows), Box::new(HgtSource { tile, side, packed }))
        .map_err(|e| unreadable((&e).into()))
}

/// Bytes of the unpacked tile, and whether it is packed. A gzip stream tells its length in its last four bytes (RFC 1952 § 2.3.1).
fn size(tile: &dyn OpenTile) -> std::io::Result<(u64, bool)> {
    let mut reader = tile.open()?;
    if !is_gzip(reader.as_mut())? {
        return Ok((reader.seek(SeekFrom::End(0))?, false));
    }
    reader.seek(SeekFrom::End(-4))?;
    let mut length = [0; 4];
    reader.read_exact(&mut length)?;
    Ok((u64::from(u32::from_le_bytes(length)), true))
}

struct HgtSource {
    tile: Arc<dyn OpenTile>,
    side: u32,
    packed: bool,
}

impl BlockSource for HgtSource {
    fn load(&self, _: u32, block_row: u32) -> Result<Samples, RasterError> {
        let bytes = if self.packed {
            self.unpacked()
        } else {
            self.rows(block_row)
        };
        let bytes = bytes.map_err(|reason| RasterError::Unreadable { reason })?;
        let samples = bytes
            .as_chunks::<2>()
            .0
            .iter()
            .map(|pair| match i16::from_be_bytes(*pair) {
                -32767 => i16::MIN,
                height => height,
            });
        Ok(Samples::I16(samples.collect()))
    }
}

impl HgtSource {
    fn unpacked(&self) -> Result<Vec<u8>, Message> {
        let expected = u64::from(self.side) * u64::from(self.side) * 2;
        let told = |why: Message| Message::new("terrain-gzip-damaged").message("why", why);
        let reader = self.tile.open().map_err(Message::foreign)?;
        let bytes = unpack(reader, expected).map_err(told)?;
        if bytes.len() as u64 == expected {
            Ok(bytes)
        } else {
            Err(Message::new("terrain-unpacked-size")
                .count("found", bytes.len() as i64)
                .count("expected", expected as i64))
        }
    }

    fn rows(&self, block_row: u32) -> Result<Vec<u8>, Message> {
        let first = block_row * ROWS_AT_ONCE;
        let rows = ROWS_AT_ONCE.min(self.side - first);
        let row_bytes = u64::from(self.side) * 2;
        let mut reader = self.tile.open().map_err(Message::foreign)?;
        let mut bytes = vec![0; (u64::from(rows) * row_bytes) as usize];
        let read = reader
            .seek(SeekFrom::Start(u64::from(first) * row_bytes))
            .and_then(|_| reader.read_exact(&mut bytes));
        read.map_err(|e| {
            Message::new("terrain-rows-unreadable")
                .count("first", i64::from(first))
                .count("last", i64::from(first + rows - 1))
                .message("why", Message::foreign(e))
        })?;
        Ok(bytes)
    }
}

#[cfg(test)]
mod tests;
