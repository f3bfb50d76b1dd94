use super::*;
use crate::crs::Crs;
use crate::grid::Registration;
use crate::mosaic::{Cursor, Lookup, Mosaic, Tile};
use crate::position::Position;
use proptest::prelude::*;
use std::io::Cursor as Bytes;
use tiff::encoder::{TiffEncoder, colortype};
use tiff::tags::Tag;

fn held(bytes: Vec<u8>) -> Arc<dyn OpenTile> {
    Arc::new(move || Ok(Box::new(Bytes::new(bytes.clone())) as Box<dyn ReadSeek>))
}

/// What a test file says about itself.
struct Said {
    keys: Vec<u16>,
    text: &'static str,
    scale: Vec<f64>,
    tie: Vec<f64>,
    nodata: Option<&'static str>,
}

fn geographic(raster_type: u16) -> Said {
    Said {
        keys: vec![
            1,
            1,
            0,
            3,
            1024,
            0,
            1,
            2,
            1025,
            0,
            1,
            raster_type,
            2048,
            0,
            1,
            4326,
        ],
        text: "",
        scale: vec![0.01, 0.01, 0.0],
        tie: vec![0.0, 0.0, 0.0, 8.0, 47.0, 0.0],
        nodata: Some("-999"),
    }
}

/// 30 columns, 20 rows; height = 100·row + column, with −999 at (5, 5), −32767 at (6, 6).
fn written(said: &Said) -> Vec<u8> {
    written_in(said, 6)
}

fn written_in(said: &Said, rows_per_strip: u32) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = TiffEncoder::new(Bytes::new(&mut bytes)).unwrap();
    let mut image = encoder.new_image::<colortype::GrayI16>(30, 20).unwrap();
    image.rows_per_strip(rows_per_strip).unwrap();
    let directory = image.encoder();
    directory
        .write_tag(Tag::GeoKeyDirectoryTag, &said.keys[..])
        .unwrap();
    if !said.text.is_empty() {
        directory.write_tag(Tag::GeoAsciiParamsTag, said.text).unwrap();
    }
    directory
        .write_tag(Tag::ModelPixelScaleTag, &said.scale[..])
        .unwrap();
    directory.write_tag(Tag::ModelTiepointTag, &said.tie[..]).unwrap();
    if let Some(nodata) = said.nodata {
        directory.write_tag(Tag::GdalNodata, nodata).unwrap();
    }
    let mut heights: Vec<i16> = (0..600).map(|i| (i / 30 * 100 + i % 30) as i16).collect();
    heights[5 * 30 + 5] = -999;
    heights[6 * 30 + 6] = -32767;
    image.write_data(&heights).unwrap();
    bytes
}

fn refused(said: &Said) -> String {
    raster(held(written(said))).unwrap_err().to_string()
}

#[test]
fn strips_are_read_when_touched_and_voids_known() {
    let raster = raster(held(written(&geographic(2)))).unwrap();
    assert_eq!(raster.loaded_share(), 0.0);
    assert_eq!(raster.value(7, 19).unwrap(), 1907.0);
    assert_eq!(raster.loaded_share(), 0.25);
    assert!(raster.value(5, 5).unwrap().is_nan() && raster.value(6, 6).unwrap().is_nan());
}

/// Pixel-is-point: the tie point is the first sample. Pixel-is-area: it is the corner of its cell, half a step up and left.
/// OGC 19-008r4, requirement on GTRasterTypeGeoKey [M].
#[test]
fn ref_both_registrations_are_honoured() {
    for (raster_type, registration, half) in [(2, Registration::Point, 0.0), (1, Registration::Area, 0.5)] {
        let raster = raster(held(written(&geographic(raster_type)))).unwrap();
        assert_eq!(raster.grid().registration(), registration);
        let mosaic = Mosaic::new(vec![Tile {
            name: "t".into(),
            raster: Arc::new(raster),
        }]);
        let at = Position::new(47.0 - 0.01 * (10.0 + half), 8.0 + 0.01 * (20.0 + half)).unwrap();
        let Lookup::Value(height_m) = mosaic.bilinear(&mut Cursor::default(), at) else {
            panic!("no height")
        };
        assert!((height_m - 1020.0).abs() < 1e-3, "{height_m}");
    }
}

#[test]
fn coordinate_systems_that_are_not_read_are_named() {
    let mut said = geographic(1);
    said.keys = vec![1, 1, 0, 3, 1024, 0, 1, 1, 1025, 0, 1, 1, 3072, 0, 1, 2056];
    said.text = "CH1903+ / LV95|";
    assert!(refused(&said).contains("coordinate system `CH1903+ / LV95` (EPSG 2056): expected"));
    said.keys = vec![1, 1, 0, 2, 1024, 0, 1, 1, 3072, 0, 1, 32767];
    said.text = "Goode Homolosine|";
    assert!(refused(&said).contains("`Goode Homolosine`"));
    said.text =
        "World_Mollweide|ESRI PE String = PROJECTION[\"Mollweide\"],PARAMETER[\"Central_Meridian\",11.0]";
    assert!(
        refused(&said).contains("`World_Mollweide`"),
        "only the one centred on Greenwich"
    );
    said.text =
        "World_Mollweide|ESRI PE String = PROJECTION[\"Mollweide\"],PARAMETER[\"Central_Meridian\",0.0]";
    assert_eq!(raster(held(written(&said))).unwrap().grid().crs(), Crs::Mollweide);
}

#[test]
fn bad_georeferences_are_refused_by_reason() {
    let refuse = |change: fn(&mut Said)| {
        let mut said = geographic(1);
        change(&mut said);
        refused(&said)
    };
    assert!(
        refuse(|s| s.tie = vec![0.0, 0.0, 0.0, 47.0, 108.0, 0.0])
            .contains("are latitude and longitude swapped?")
    );
    assert!(refuse(|s| s.scale = vec![0.01, -0.01, 0.0]).contains("sample spacing"));
    assert!(refuse(|s| s.scale = vec![f64::NAN, 0.01, 0.0]).contains("sample spacing"));
    assert!(refuse(|s| s.tie = vec![0.0; 12]).contains("tie points"));
    assert!(refuse(|s| s.keys.extend([4099, 0, 1, 9002])).contains("heights in unit 9002"));
    assert!(refuse(|s| s.keys.extend([2054, 0, 1, 9101])).contains("coordinates in unit 9101"));
    assert!(
        raster(held(b"II*\0 nonsense".to_vec()))
            .unwrap_err()
            .to_string()
            .starts_with("not a readable TIFF")
    );
    assert!(raster(held(Vec::new())).is_err());
}

#[test]
fn a_truncated_file_tells_which_block() {
    // One strip, said to start beyond the end of the file.
    let mut bytes = written_in(&geographic(2), 20);
    set_entry(&mut bytes, 273, 999_999);
    let raster = raster(held(bytes)).unwrap();
    let said = raster.value(0, 19).unwrap_err().to_string();
    assert!(
        said.contains("block 0,0 cannot be decoded") && said.contains("copy the file again"),
        "{said}"
    );
    assert!(
        self::raster(held(written(&geographic(2))[..700].to_vec())).is_err(),
        "the directory at the end is cut off"
    );
}

/// Giant dimensions over a few bytes: refused, or an error at the touch, without filling the memory.
#[test]
fn bad_giant_dimensions_stay_small() {
    let whole = written(&geographic(2));
    for (tag, value) in [
        (256u16, 400_000u32),
        (257, 400_000),
        (256, u32::MAX),
        (257, u32::MAX),
        (278, u32::MAX),
    ] {
        let mut bytes = whole.clone();
        set_entry(&mut bytes, tag, value);
        if let Ok(raster) = raster(held(bytes)) {
            let _ = raster.value(0, 0);
        }
    }
}

/// Overwrites the value of a tag in a little-endian TIFF with one directory.
fn set_entry(bytes: &mut [u8], tag: u16, value: u32) {
    let start = u32::from_le_bytes(bytes[4..8].try_into().unwrap()) as usize;
    let count = u16::from_le_bytes(bytes[start..start + 2].try_into().unwrap()) as usize;
    for k in 0..count {
        let at = start + 2 + 12 * k;
        if bytes[at..at + 2] == tag.to_le_bytes() {
            bytes[at + 2..at + 4].copy_from_slice(&4u16.to_le_bytes());
            bytes[at + 4..at + 8].copy_from_slice(&1u32.to_le_bytes());
            bytes[at + 8..at + 12].copy_from_slice(&value.to_le_bytes());
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1500))]

    /// Any damage to any bytes: an error or heights, no panic, no NaN that is not a void.
    #[test]
    fn prop_damaged_files_never_panic(hits in proptest::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..12),
        near_header in any::<bool>(), cut in any::<prop::sample::Index>(), cuts in 0u8..4) {
        let mut bytes = written(&geographic(2));
        let header = u32::from_le_bytes(bytes[4..8].try_into().unwrap()) as usize;
        for (index, value) in hits {
            let from = if near_header { header } else { 0 };
            let at = from + index.index(bytes.len() - from);
            bytes[at] = value;
        }
        if cuts == 0 {
            bytes.truncate(cut.index(bytes.len()));
        }
        if let Ok(raster) = raster(held(bytes)) {
            let (w, h) = (raster.grid().width(), raster.grid().height());
            for (col, row) in [(0, 0), (w - 1, h - 1), (w / 2, h / 2)] {
                if let Ok(value) = raster.value(col, row) {
                    prop_assert!(!value.is_infinite());
                }
            }
        }
    }
}
