//! The georeference in a file's tags: coordinate system, corner, spacing, registration, no-data value.

use tiff::tags::Tag;

use super::{GeoTiffError, TiffDecoder};
use crate::crs::Crs;
use crate::grid::{Corner, Registration};

/// What the tags say.
pub(super) struct Keys {
    pub crs: Crs,
    pub corner: Corner,
    pub registration: Registration,
    pub void: Option<f64>,
}

/// Tag 42112: XML in which GDAL keeps scale and offset.
const METADATA: Tag = Tag::Unknown(42112);

const MODEL_TYPE: u16 = 1024;
const RASTER_TYPE: u16 = 1025;
const GEOGRAPHIC_CRS: u16 = 2048;
const ANGULAR_UNIT: u16 = 2054;
const PROJECTED_CRS: u16 = 3072;
const LINEAR_UNIT: u16 = 3076;
const VERTICAL_UNIT: u16 = 4099;

/// EPSG codes of units.
const DEGREE: u16 = 9102;
const METRE: u16 = 9001;

/// Value of a key that a file defines itself.
const USER_DEFINED: u16 = 32767;

pub(super) fn read(decoder: &mut TiffDecoder) -> Result<Keys, GeoTiffError> {
    let directory = Directory::read(decoder)?;
    let crs = directory.crs()?;
    directory.check_units(crs)?;
    if text(decoder, METADATA).is_some_and(|xml| wants_scale(&xml)) {
        return Err(GeoTiffError::Scaled);
    }
    let registration = match directory.value(RASTER_TYPE) {
        Some(2) => Registration::Point,
        _ => Registration::Area,
    };
    let void = text(decoder, Tag::GdalNodata).and_then(|t| t.trim().parse().ok());
    Ok(Keys {
        crs,
        corner: corner(decoder)?,
        registration,
        void,
    })
}

/// The key directory (tag 34735) and the text its keys point into (tag 34737).
struct Directory {
    entries: Vec<(u16, u16)>,
    text: String,
}

impl Directory {
    fn read(decoder: &mut TiffDecoder) -> Result<Self, GeoTiffError> {
        let missing = GeoTiffError::NotGeoreferenced { missing: "keys" };
        let shorts = decoder
            .get_tag_u16_vec(Tag::GeoKeyDirectoryTag)
            .map_err(|_| missing)?;
        let entries = shorts.as_chunks::<4>().0.iter().skip(1);
        // Location 0: the value stands in the entry itself.
        let entries = entries
            .filter(|[_, location, ..]| *location == 0)
            .map(|[key, _, _, value]| (*key, *value));
        Ok(Self {
            entries: entries.collect(),
            text: text(decoder, Tag::GeoAsciiParamsTag).unwrap_or_default(),
        })
    }

    fn value(&self, key: u16) -> Option<u16> {
        self.entries
            .iter()
            .find(|(k, _)| *k == key)
            .map(|(_, value)| *value)
    }

    fn crs(&self) -> Result<Crs, GeoTiffError> {
        let code = match self.value(MODEL_TYPE) {
            Some(2) => self.value(GEOGRAPHIC_CRS),
            _ => self.value(PROJECTED_CRS),
        };
        let known = match code {
            None | Some(0 | USER_DEFINED) => self.is_mollweide().then_some(Crs::Mollweide),
            Some(code) => Crs::from_code(u32::from(code)),
        };
        known.ok_or_else(|| GeoTiffError::Crs {
            name: self.crs_name().into(),
            code: code.filter(|code| !matches!(*code, 0 | USER_DEFINED)),
        })
    }

    /// Mollweide has no EPSG code; writers put its definition into the text. Only the one centred on Greenwich is read.
    fn is_mollweide(&self) -> bool {
        let zero = |name: &str| {
            let Some(at) = self.text.find(name) else {
                return true;
            };
            let number = self.text[at + name.len()..].trim_start_matches(['"', ',', ' ']);
            let end = number.find([']', ',']).unwrap_or(number.len());
            number[..end].trim().parse() == Ok(0.0)
        };
        self.text.contains("Mollweide")
            && zero("Central_Meridian")
            && zero("False_Easting")
            && zero("False_Northing")
    }

    fn crs_name(&self) -> &str {
        let first = self.text.split('|').next().unwrap_or("");
        first.trim_matches('\0').trim()
    }

    fn check_units(&self, crs: Crs) -> Result<(), GeoTiffError> {
        let check = |what, key, wanted, expected| match self.value(key) {
            Some(code) if code != wanted && code != 0 => Err(GeoTiffError::Unit { what, code, expected }),
            _ => Ok(()),
        };
        if crs == Crs::Geographic {
            check("coordinates", ANGULAR_UNIT, DEGREE, "degrees")?;
        } else {
            check("coordinates", LINEAR_UNIT, METRE, "metres")?;
        }
        check("heights", VERTICAL_UNIT, METRE, "metres")
    }
}

fn corner(decoder: &mut TiffDecoder) -> Result<Corner, GeoTiffError> {
    let mut numbers = |tag| decoder.get_tag_f64_vec(tag).ok();
    if let (Some(scale), Some(tie)) = (numbers(Tag::ModelPixelScaleTag), numbers(Tag::ModelTiepointTag)) {
        let ([step_x, step_y, ..], [col, row, _, x, y, _]) = (&scale[..], &tie[..]) else {
            return Err(GeoTiffError::NotGeoreferenced {
                missing: "tie-points",
            });
        };
        // Some writers give the row spacing a sign; a negative one is refused by the grid.
        return Ok(Corner {
            x: x - col * step_x,
            y: y + row * step_y,
            step_x: *step_x,
            step_y: *step_y,
        });
    }
    let Some(matrix) = numbers(Tag::ModelTransformationTag) else {
        return Err(GeoTiffError::NotGeoreferenced { missing: "corner" });
    };
    let [step_x, turn_x, _, x, turn_y, down_y, _, y, ..] = matrix[..] else {
        return Err(GeoTiffError::NotGeoreferenced { missing: "matrix" });
    };
    if turn_x != 0.0 || turn_y != 0.0 || step_x <= 0.0 || down_y >= 0.0 {
        return Err(GeoTiffError::Turned);
    }
    Ok(Corner {
        x,
        y,
        step_x,
        step_y: -down_y,
    })
}

fn text(decoder: &mut TiffDecoder, tag: Tag) -> Option<String> {
    decoder
        .get_tag_ascii_string(tag)
        .ok()
        .map(|text| text.trim_end_matches('\0').to_owned())
}

/// True when the metadata hold a scale other than 1 or an offset other than 0.
fn wants_scale(xml: &str) -> bool {
    let differs = |role: &str, neutral: f64| {
        xml.split("<Item")
            .skip(1)
            .filter(|item| item.contains(role))
            .any(|item| {
                let value = item.split_once('>').and_then(|(_, rest)| rest.split('<').next());
                value.and_then(|v| v.trim().parse::<f64>().ok()) != Some(neutral)
            })
    };
    differs("role=\"scale\"", 1.0) || differs("role=\"offset\"", 0.0)
}
