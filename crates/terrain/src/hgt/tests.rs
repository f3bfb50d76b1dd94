use super::*;
use crate::mosaic::{Cursor, Lookup, Mosaic, Tile};
use crate::position::Position;
use crate::source::ReadSeek;
use proptest::prelude::*;
use std::io::{Cursor as Bytes, Write};

fn held(bytes: Vec<u8>) -> Arc<dyn OpenTile> {
    Arc::new(move || Ok(Box::new(Bytes::new(bytes.clone())) as Box<dyn ReadSeek>))
}

fn packed(bytes: &[u8]) -> Vec<u8> {
    let mut encoder = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::fast());
    encoder.write_all(bytes).unwrap();
    encoder.finish().unwrap()
}

/// A 3″ tile whose height is row + 2·column (mod 2000), with a void at row 10, column 20.
fn tile() -> Vec<u8> {
    let height = |i: u32| {
        if i == 10 * 1201 + 20 {
            -32768
        } else {
            ((i / 1201 + 2 * (i % 1201)) % 2000) as i16
        }
    };
    (0..1201 * 1201).flat_map(|i| height(i).to_be_bytes()).collect()
}

#[test]
fn names_tell_the_corner() {
    let corner = |name| HgtName::parse(name).map(|n| (n.south_deg, n.west_deg));
    assert_eq!(corner("N46E008.hgt"), Ok((46, 8)));
    assert_eq!(corner("a/b\\s01w180.HGT.gz"), Ok((-1, -180)));
    for bad in [
        "N46E08.hgt",
        "N90E000.hgt",
        "S91E000",
        "N00E180",
        "X46E008.hgt",
        "N4+E008",
        "N46é08",
        "",
        "N46E008.tif",
    ] {
        assert!(matches!(HgtName::parse(bad), Err(HgtError::Name { .. })), "{bad}");
    }
    assert_eq!(
        HgtName::holding(Position::new(-45.5, -65.5).unwrap()).to_string(),
        "S46W066"
    );
}

#[test]
fn plain_and_packed_tiles_hold_the_same_samples() {
    let bytes = tile();
    let plain = raster("N46E008.hgt", held(bytes.clone())).unwrap();
    let packed = raster("N46E008.hgt.gz", held(packed(&bytes))).unwrap();
    assert_eq!(plain.loaded_share(), 0.0);
    assert_eq!(plain.value(3, 700).unwrap(), 706.0);
    assert!(plain.loaded_share() < 0.11, "one strip of ten");
    for (col, row) in [(0, 0), (1200, 1200), (20, 11), (7, 128)] {
        assert_eq!(plain.value(col, row), packed.value(col, row));
    }
    assert!(plain.value(20, 10).unwrap().is_nan());
}

#[test]
fn bad_sizes_are_refused_with_the_expected_ones() {
    let refuse = |bytes: Vec<u8>| raster("N46E008.hgt", held(bytes)).unwrap_err().to_string();
    let short = refuse(tile()[..2_884_800].to_vec());
    assert_eq!(
        short,
        "N46E008.hgt  2,884,800 bytes; a 1″ tile has 25,934,402, a 3″ tile 2,884,802: copy the file again"
    );
    assert!(refuse(Vec::new()).contains("  0 bytes"));
    assert!(refuse(vec![0x1f, 0x8b]).contains("N46E008.hgt  "));
}

#[test]
fn bad_gzip_streams_are_told_when_touched() {
    let whole = packed(&tile());
    let mut short = whole[..whole.len() / 2].to_vec();
    short.extend_from_slice(&whole[whole.len() - 4..]);
    let damaged = raster("N46E008.hgt.gz", held(short)).unwrap();
    assert!(
        damaged
            .value(0, 1200)
            .unwrap_err()
            .to_string()
            .contains("gzip stream is damaged")
    );
    // A trailer that promises a tile over a stream of a gigabyte of zeros.
    let mut bomb = packed(&vec![0; 40_000_000]);
    let end = bomb.len() - 4;
    bomb[end..].copy_from_slice(&(BYTES_3_SECONDS as u32).to_le_bytes());
    let damaged = raster("N46E008.hgt.gz", held(bomb)).unwrap();
    assert!(damaged.value(0, 0).is_err());
}

#[test]
fn heights_between_samples_are_bilinear() {
    let raster = Arc::new(raster("N46E008.hgt", held(tile())).unwrap());
    let mosaic = Mosaic::new(vec![Tile {
        name: "N46E008.hgt".into(),
        raster,
    }]);
    // Column 300.5, row 600.25 counted from the north-west corner (8° E, 47° N).
    let at = Position::new(47.0 - 600.25 / 1200.0, 8.0 + 300.5 / 1200.0).unwrap();
    let Lookup::Value(height_m) = mosaic.bilinear(&mut Cursor::default(), at) else {
        panic!("no height")
    };
    assert!((height_m - (600.25 + 601.0)).abs() < 1e-3, "{height_m}");
}

proptest! {
    #[test]
    fn prop_any_bytes_give_an_error_or_a_tile(mut bytes in proptest::collection::vec(any::<u8>(), 0..4000), gzip in any::<bool>()) {
        if gzip {
            bytes.splice(0..0, [0x1f, 0x8b, 8, 0]);
        }
        if let Ok(raster) = raster("N46E008.hgt", held(bytes)) {
            let _ = raster.value(0, 0);
        }
    }
}
