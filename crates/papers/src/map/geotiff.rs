//! Rasters as GeoTIFF: hundredths of a dB as 16-bit integers, EPSG 4326, pixel is area (OGC GeoTIFF 1.1).

use super::Map;
use crate::book::Book;
use crate::paper::PaperError;
use coverage::{FieldRaster, NODATA};
use std::io::Cursor;
use tiff::encoder::colortype::GrayI16;
use tiff::encoder::{Compression, DeflateLevel, Predictor, TiffEncoder};
use tiff::tags::Tag;

/// The file.
///
/// # Errors
/// [`PaperError::NoMap`], [`PaperError::Tiff`].
pub fn file(book: &Book) -> Result<Vec<u8>, PaperError> {
    written(&Map::of(book)?.raster, "dB(uV/m)")
}

/// A raster of fields, or of their differences, with its unit in plain letters.
///
/// # Errors
/// [`PaperError::Tiff`].
pub fn written(raster: &FieldRaster, unit: &str) -> Result<Vec<u8>, PaperError> {
    let grid = &raster.grid;
    let ((west, _, _, north), (step_x, step_y)) = (grid.edges(), grid.steps());
    let mut bytes = Cursor::new(Vec::new());
    let mut encoder = TiffEncoder::new(&mut bytes)?
        .with_compression(Compression::Deflate(DeflateLevel::Balanced))
        .with_predictor(Predictor::Horizontal);
    let mut image = encoder.new_image::<GrayI16>(grid.width(), grid.height())?;
    image.rows_per_strip(64)?;
    let tags = image.encoder();
    tags.write_tag(Tag::ModelPixelScaleTag, &[step_x, step_y, 0.0][..])?;
    // The outer corner, not the first pixel's middle.
    tags.write_tag(Tag::ModelTiepointTag, &[0.0, 0.0, 0.0, west, north, 0.0][..])?;
    let keys: [u16; 16] = [1, 1, 0, 3, 1024, 0, 1, 2, 1025, 0, 1, 1, 2048, 0, 1, 4326];
    tags.write_tag(Tag::GeoKeyDirectoryTag, &keys[..])?;
    tags.write_tag(Tag::GdalNodata, NODATA.to_string().as_str())?;
    tags.write_tag(
        Tag::Unknown(42112),
        format!("<GDALMetadata><Item name=\"SCALE\" sample=\"0\" role=\"scale\">0.01</Item><Item name=\"UNITTYPE\" sample=\"0\" role=\"unittype\">{unit}</Item></GDALMetadata>").as_str(),
    )?;
    image.write_data(&raster.values_cdb)?;
    Ok(bytes.into_inner())
}
