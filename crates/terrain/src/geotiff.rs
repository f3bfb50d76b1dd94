//! GeoTIFF rasters: one band, striped or tiled, whole numbers or floats, uncompressed, LZW or DEFLATE, any predictor.
//!
//! The header is read at once, strips and tiles when first touched. Coordinate systems: see [`crate::Crs`]; others are refused by name.
//! A corner is the first sample where the file says pixel-is-point, the outer edge of its cell where it says pixel-is-area (or
//! nothing).
//!
//! # Source
//! OGC 19-008r4 "GeoTIFF" 1.1 (keys 1024, 1025, 2048, 2054, 3072, 3076, 4099; tags 33550, 33922, 34264, 34735, 34737) [M];
//! the no-data text in tag 42113 is common practice, no standard.

mod keys;

use std::sync::{Arc, Mutex, PoisonError};

use tiff::decoder::{ChunkType, Decoder, DecodingResult, Limits};
use tiff::tags::{CompressionMethod, Tag};

use words::Message;

use crate::grid::{Grid, GridError};
use crate::raster::{BlockSource, MAX_BLOCK_SAMPLES, Raster, RasterError, Samples};
use crate::source::{OpenTile, ReadSeek, open_unpacked};

/// Most bytes of a gzipped GeoTIFF when unpacked: it has to lie in memory.
pub const MAX_UNPACKED_BYTES: u64 = 1 << 29;

/// Why a GeoTIFF is refused.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum GeoTiffError {
    /// The bytes are no TIFF, or its header is damaged.
    Unreadable {
        /// What the decoder says.
        reason: Message,
    },
    /// More than one band, or samples of a kind that is not read.
    Samples {
        /// What was found.
        found: Message,
    },
    /// A compression that is not read.
    Compression {
        /// Name of the compression.
        found: String,
    },
    /// No place on Earth is given.
    NotGeoreferenced {
        /// Tag of what is missing.
        missing: &'static str,
    },
    /// Rows that do not run from north to south.
    Turned,
    /// A coordinate system that is not read.
    Crs {
        /// Its name as the file tells it; empty where it tells none.
        name: String,
        /// Its EPSG code, where the file tells one.
        code: Option<u16>,
    },
    /// Heights or coordinates in another unit.
    Unit {
        /// Tag of what is in that unit.
        what: &'static str,
        /// EPSG code of the unit.
        code: u16,
        /// Tag of the unit that was expected.
        expected: &'static str,
    },
    /// Samples that want a scale or an offset.
    Scaled,
    /// A grid that is no place on Earth.
    Grid(#[from] GridError),
    /// Blocks too large or too many.
    Raster(#[from] RasterError),
}

/// A raster of a GeoTIFF (gzipped or not): its header is read now, its samples when first touched.
///
/// # Errors
/// [`GeoTiffError`]: what the header lacks, or holds and is not read. Damage in the samples is told by the raster.
pub fn raster(tile: Arc<dyn OpenTile>) -> Result<Raster, GeoTiffError> {
    let mut decoder = open(tile.as_ref()).map_err(|reason| GeoTiffError::Unreadable { reason })?;
    let header = Header::read(&mut decoder)?;
    let (grid, block) = (header.grid, header.block);
    let source = TiffSource {
        tile,
        header,
        decoder: Mutex::new(None),
    };
    Ok(Raster::new(grid, block, Box::new(source))?)
}

type TiffDecoder = Decoder<Box<dyn ReadSeek>>;

fn open(tile: &dyn OpenTile) -> Result<TiffDecoder, Message> {
    let reader = open_unpacked(tile, MAX_UNPACKED_BYTES)?;
    let mut limits = Limits::default();
    limits.decoding_buffer_size = MAX_BLOCK_SAMPLES as usize * 8;
    limits.intermediate_buffer_size = MAX_BLOCK_SAMPLES as usize * 8;
    limits.ifd_value_size = 16 << 20;
    let decoder = Decoder::new(reader).map_err(Message::foreign)?;
    Ok(decoder.with_limits(limits))
}

/// What the header of a file says.
struct Header {
    grid: Grid,
    block: (u32, u32),
    blocks_across: u32,
    kind: Kind,
    sample_bytes: usize,
    void: Option<f64>,
    /// Bytes of every strip or tile; 0 for one that was never written.
    stored: Vec<u64>,
}

/// How the samples are kept in memory.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    I16,
    U8,
    F32,
}

impl Header {
    fn read(decoder: &mut TiffDecoder) -> Result<Self, GeoTiffError> {
        let unreadable = |e: tiff::TiffError| GeoTiffError::Unreadable {
            reason: Message::foreign(e),
        };
        let (width, height) = decoder.dimensions().map_err(unreadable)?;
        let (kind, sample_bytes) = sample_kind(decoder)?;
        check_compression(decoder)?;
        let keys = keys::read(decoder)?;
        let grid = Grid::new(keys.crs, keys.corner, (width, height), keys.registration)?;
        let block = decoder.chunk_dimensions();
        if block.0 == 0 || block.1 == 0 {
            return Err(GeoTiffError::Unreadable {
                reason: Message::new("terrain-tiff-empty-blocks"),
            });
        }
        let counts = match decoder.get_chunk_type() {
            ChunkType::Strip => Tag::StripByteCounts,
            ChunkType::Tile => Tag::TileByteCounts,
        };
        let stored = decoder.get_tag_u64_vec(counts).map_err(unreadable)?;
        // Tiles may be larger than the raster, so the file's own width counts, not the clipped one.
        let blocks_across = width.div_ceil(block.0);
        let blocks = u64::from(blocks_across) * u64::from(height.div_ceil(block.1));
        if (stored.len() as u64) < blocks {
            let reason = Message::new("terrain-tiff-too-few-blocks")
                .count("stored", stored.len() as i64)
                .count("blocks", blocks as i64);
            return Err(GeoTiffError::Unreadable { reason });
        }
        Ok(Self {
            grid,
            block,
            blocks_across,
            kind,
            sample_bytes,
            void: keys.void,
            stored,
        })
    }
}

/// How samples are kept, and how many bytes one has in the file.
fn sample_kind(decoder: &mut TiffDecoder) -> Result<(Kind, usize), GeoTiffError> {
    use tiff::tags::SampleFormat as Format;
    let refuse = |found: Message| GeoTiffError::Samples { found };
    let number = |decoder: &mut TiffDecoder, tag| decoder.find_tag_unsigned_vec::<u16>(tag).ok().flatten();
    let bands = number(decoder, Tag::SamplesPerPixel)
        .and_then(|v| v.first().copied())
        .unwrap_or(1);
    if bands != 1 {
        return Err(refuse(
            Message::new("terrain-tiff-bands").count("bands", i64::from(bands)),
        ));
    }
    let bits = number(decoder, Tag::BitsPerSample)
        .and_then(|v| v.first().copied())
        .unwrap_or(1);
    let format = number(decoder, Tag::SampleFormat)
        .and_then(|v| v.first().copied())
        .unwrap_or(1);
    let kind = match (Format::from_u16_exhaustive(format), bits) {
        (Format::Int, 16) => Kind::I16,
        (Format::Uint, 8) => Kind::U8,
        (Format::Int, 8 | 32) | (Format::Uint, 16 | 32) | (Format::IEEEFP, 32 | 64) => Kind::F32,
        (format, bits) => {
            return Err(refuse(
                Message::new("terrain-tiff-format")
                    .count("bits", i64::from(bits))
                    .text("format", format!("{format:?}")),
            ));
        }
    };
    Ok((kind, usize::from(bits / 8)))
}

fn check_compression(decoder: &mut TiffDecoder) -> Result<(), GeoTiffError> {
    let code = decoder
        .find_tag_unsigned::<u16>(Tag::Compression)
        .ok()
        .flatten()
        .unwrap_or(1);
    match CompressionMethod::from_u16_exhaustive(code) {
        CompressionMethod::None
        | CompressionMethod::LZW
        | CompressionMethod::Deflate
        | CompressionMethod::OldDeflate => Ok(()),
        other => Err(GeoTiffError::Compression {
            found: format!("{other:?} ({code})"),
        }),
    }
}

struct TiffSource {
    tile: Arc<dyn OpenTile>,
    header: Header,
    /// Opened at the first touch and kept.
    decoder: Mutex<Option<TiffDecoder>>,
}

impl BlockSource for TiffSource {
    fn load(&self, block_col: u32, block_row: u32) -> Result<Samples, RasterError> {
        let index = block_row * self.header.blocks_across + block_col;
        if self.header.stored.get(index as usize) == Some(&0) {
            return Ok(self.never_written(block_col, block_row));
        }
        let unreadable = |why: Message| RasterError::Unreadable {
            reason: Message::new("terrain-block-undecodable")
                .text("block", format!("{block_col},{block_row}"))
                .message("why", why),
        };
        let mut slot = self.decoder.lock().unwrap_or_else(PoisonError::into_inner);
        let decoder = match slot.as_mut() {
            Some(decoder) => decoder,
            None => slot.insert(open(self.tile.as_ref()).map_err(unreadable)?),
        };
        let decoded = self
            .decode(decoder, index)
            .map_err(|e| unreadable(Message::foreign(e)))?;
        drop(slot);
        Ok(self.cropped(self.kept(decoded), block_col, block_row))
    }
}

impl TiffSource {
    /// One strip or tile in full width, also at the right edge of the raster.
    ///
    /// The decoder, left to clip such a tile itself, skips the padding row by row and takes an LZW stream whose end it meets
    /// while skipping for a broken one; with room for whole rows it reads the tile in one go.
    fn decode(&self, decoder: &mut TiffDecoder, index: u32) -> tiff::TiffResult<DecodingResult> {
        let mut samples = DecodingResult::U8(Vec::new());
        let row_bytes = self.header.block.0 as usize * self.header.sample_bytes;
        decoder.read_chunk_to_buffer(&mut samples, index, row_bytes)?;
        Ok(samples)
    }

    /// Without the padding to the right of the raster.
    fn cropped(&self, samples: Samples, block_col: u32, block_row: u32) -> Samples {
        let (width, height) = self.size_of(block_col, block_row);
        let stride = self.header.block.0 as usize;
        match samples {
            Samples::I16(v) => Samples::I16(crop(v, stride, width, height)),
            Samples::U8(v) => Samples::U8(crop(v, stride, width, height)),
            Samples::F32(v) => Samples::F32(crop(v, stride, width, height)),
        }
    }

    /// Columns and rows of a block inside the raster.
    fn size_of(&self, block_col: u32, block_row: u32) -> (usize, usize) {
        let (grid, (w, h)) = (&self.header.grid, self.header.block);
        (
            w.min(grid.width() - block_col * w) as usize,
            h.min(grid.height() - block_row * h) as usize,
        )
    }

    /// A block that a writer left out because it holds nothing but voids.
    fn never_written(&self, block_col: u32, block_row: u32) -> Samples {
        let (width, height) = self.size_of(block_col, block_row);
        match self.header.kind {
            Kind::I16 => Samples::I16(vec![i16::MIN; width * height].into()),
            Kind::U8 => Samples::U8(vec![0; width * height].into()),
            Kind::F32 => Samples::F32(vec![f32::NAN; width * height].into()),
        }
    }

    fn kept(&self, decoded: DecodingResult) -> Samples {
        let void = self.header.void;
        match decoded {
            DecodingResult::I16(values) => {
                Samples::I16(values.into_iter().map(|v| height_i16(v, void)).collect())
            }
            DecodingResult::U8(values) => {
                let class = |v: u8| if void == Some(f64::from(v)) { 0 } else { v };
                Samples::U8(values.into_iter().map(class).collect())
            }
            DecodingResult::I8(values) => floats(values.into_iter().map(f64::from), void),
            DecodingResult::U16(values) => floats(values.into_iter().map(f64::from), void),
            DecodingResult::U32(values) => floats(values.into_iter().map(f64::from), void),
            DecodingResult::I32(values) => floats(values.into_iter().map(f64::from), void),
            DecodingResult::F32(values) => floats(values.into_iter().map(f64::from), void),
            DecodingResult::F64(values) => floats(values.into_iter(), void),
            // Kinds that `sample_kind` has refused: no samples, which the raster reports as a block of the wrong size.
            _ => Samples::F32(Box::default()),
        }
    }
}

/// The first `width` samples of the first `height` rows of `stride` samples.
fn crop<T: Copy>(samples: Box<[T]>, stride: usize, width: usize, height: usize) -> Box<[T]> {
    if stride == width && samples.len() == width * height {
        return samples;
    }
    samples
        .chunks(stride)
        .take(height)
        .flat_map(|row| row.iter().take(width).copied())
        .collect()
}

fn height_i16(value: i16, void: Option<f64>) -> i16 {
    if value <= -32767 || void == Some(f64::from(value)) {
        i16::MIN
    } else {
        value
    }
}

/// Values as 32-bit floats; voids, infinities and the customary −32 768 and −32 767 become NaN.
fn floats(values: impl Iterator<Item = f64>, void: Option<f64>) -> Samples {
    let is_void = |v: f64| {
        !v.is_finite()
            || v == -32768.0
            || v == -32767.0
            || void.is_some_and(|void| v == void || v as f32 == void as f32)
    };
    Samples::F32(
        values
            .map(|v| if is_void(v) { f32::NAN } else { v as f32 })
            .collect(),
    )
}

#[cfg(test)]
mod tests;
