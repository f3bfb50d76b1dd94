//! The ground of a station folder: generated, or real tiles.

use std::path::{Path, PathBuf};

use coverage::{Control, Study, World};
use folder::cache::Cache;
use folder::world::{OpenedWorld, WorldError, loss_field, loss_key};
use folder::{Reading, tiles};
use propagation::p1812::Polarisation;
use station::Station;
use terrain::Position;

/// The folder of reference data; none is an error where `CI` is set, else the test says so and passes by.
fn shared() -> Option<PathBuf> {
    let beside = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../shared");
    let folder = std::env::var_os("STATIONWRIGHT_SHARED").map_or(beside, PathBuf::from);
    if folder.join("terrain").is_dir() {
        return Some(folder);
    }
    assert!(
        std::env::var_os("CI").is_none(),
        "no reference data: set STATIONWRIGHT_SHARED"
    );
    println!("skipped: no reference data; set STATIONWRIGHT_SHARED");
    None
}

fn station(ground: &str) -> Station {
    let text = format!(
        "format = 1\nname = \"Ground\"\n[ground]\n{ground}\n[study]\nradius = \"4 km\"\n\
         [[sites]]\ntag = \"HILL\"\nname = \"Hill\"\nposition = \"46.6 N, 8.4 E\"\n"
    );
    let reading = Reading::of("station.toml", text);
    reading.station.unwrap_or_else(|| panic!("{}", reading.faults[0]))
}

fn write(folder: &Path, name: &str, bytes: &[u8]) {
    let path = folder.join(name);
    std::fs::create_dir_all(path.parent().expect("a file has a folder")).expect("the folder is made");
    std::fs::write(path, bytes).expect("the file is written");
}

fn alps() -> Position {
    Position::new(46.6, 8.4).expect("a position")
}

#[test]
fn every_generated_ground_opens_with_people_and_places() {
    let folder = tempfile::tempdir().unwrap();
    for word in ["demo island", "rolling plain", "alpine valley", "hill coast"] {
        let opened = OpenedWorld::of(&station(&format!("generated = \"{word}\"")), folder.path()).unwrap();
        assert!(opened.world.people().unwrap().total() > 100.0, "{word}");
        assert!(!opened.world.places().is_empty(), "{word}");
        assert!(opened.made_of.generated.is_some());
    }
}

/// Heights of the tile stand in the data set's README: 187 to 4173 m.
#[test]
fn real_tiles_are_read_lazily_and_identified_by_their_bytes() {
    let Some(shared) = shared() else { return };
    let folder = tempfile::tempdir().unwrap();
    let tile = std::fs::read(shared.join("terrain/N46E008.hgt.gz")).unwrap();
    write(folder.path(), "tiles/N46E008.hgt.gz", &tile);
    write(folder.path(), "tiles/README.md", b"where these come from");
    let station = station("tiles = \"tiles\"\nmodel = \"surface\"");
    let opened = OpenedWorld::of(&station, folder.path()).unwrap();
    let height_m = opened.world.spot(alps()).unwrap().height_m;
    assert!((187.0..4173.0).contains(&height_m), "{height_m}");
    assert_eq!(opened.made_of.left_out, ["README.md"]);
    let study = Study::new(alps(), 20.0, 98.0, Polarisation::Vertical)
        .within_km(3.0)
        .at_step_m(90.0)
        .coarse(16);
    let key = loss_key(&opened.world, &study);
    let again = OpenedWorld::of(&station, folder.path()).unwrap();
    assert_eq!(
        loss_key(&again.world, &study),
        key,
        "the same bytes, the same key"
    );

    let mut other = Vec::new();
    std::io::Read::read_to_end(&mut flate2::read::GzDecoder::new(&tile[..]), &mut other).unwrap();
    other[700_000] ^= 1;
    std::fs::remove_file(folder.path().join("tiles/N46E008.hgt.gz")).unwrap();
    write(folder.path(), "tiles/N46E008.hgt", &other);
    let changed = OpenedWorld::of(&station, folder.path()).unwrap();
    assert_ne!(loss_key(&changed.world, &study), key, "one bit more, another key");
}

#[test]
fn digests_are_made_once_for_files_that_do_not_change() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.tif");
    std::fs::write(&path, b"one").unwrap();
    let mut book = tiles::DigestBook::of_folder(folder.path());
    let first = book.digest(&path).unwrap();
    book.keep(folder.path());
    let time = std::fs::metadata(&path).unwrap().modified().unwrap();
    // The same size and time with other bytes: only a remembered digest can still say `one`.
    std::fs::write(&path, b"two").unwrap();
    let file = std::fs::File::options().append(true).open(&path).unwrap();
    file.set_modified(time).unwrap();
    assert_eq!(
        tiles::DigestBook::of_folder(folder.path()).digest(&path).unwrap(),
        first
    );
    file.set_modified(time + std::time::Duration::from_secs(2))
        .unwrap();
    assert_ne!(
        tiles::DigestBook::of_folder(folder.path()).digest(&path).unwrap(),
        first
    );
}

#[test]
fn losses_come_from_the_cache_and_a_damaged_one_is_made_again() {
    let folder = tempfile::tempdir().unwrap();
    let opened = OpenedWorld::of(&station("generated = \"rolling plain\""), folder.path()).unwrap();
    let at = opened.world.places()[0].position;
    let study = Study::new(at, 20.0, 98.0, Polarisation::Vertical)
        .within_km(3.0)
        .at_step_m(90.0)
        .coarse(16);
    let cache = Cache::of_folder(folder.path());
    let computed = loss_field(&cache, &opened.world, &study, &Control::quiet()).unwrap();
    let key = loss_key(&opened.world, &study);
    let kept = cache.load(key).expect("it is kept");
    let loaded = loss_field(&cache, &opened.world, &study, &Control::quiet()).unwrap();
    assert_eq!(loaded.to_bytes(), computed.to_bytes());
    cache.store(key, &kept[..kept.len() / 2]).unwrap();
    let again = loss_field(&cache, &opened.world, &study, &Control::quiet()).unwrap();
    assert_eq!(again.to_bytes(), computed.to_bytes());
    let other = Study::new(at, 21.0, 98.0, Polarisation::Vertical)
        .within_km(3.0)
        .at_step_m(90.0)
        .coarse(16);
    assert_ne!(loss_key(&opened.world, &other), key);
}

#[test]
fn places_of_the_file_and_of_a_table_stand_beside_the_ground_s_own() {
    let folder = tempfile::tempdir().unwrap();
    write(
        folder.path(),
        "places.csv",
        b"name,lat,lon,people\nFarhold,46.61,8.41,120\n",
    );
    let with_csv = station("generated = \"rolling plain\"\nplaces = \"places.csv\"");
    let opened = OpenedWorld::of(&with_csv, folder.path()).unwrap();
    assert_eq!(opened.world.places()[0].name, "Farhold");
    assert!(opened.world.places().len() > 1);
    write(folder.path(), "places.csv", b"name,lat,lon\nFarhold,north,8.41\n");
    let fault = OpenedWorld::of(&with_csv, folder.path()).unwrap_err().to_string();
    assert!(fault.contains("places.csv:2:2"), "{fault}");
}

#[test]
fn bad_grounds_say_what_to_write() {
    let folder = tempfile::tempdir().unwrap();
    let refused = |ground: &str| OpenedWorld::of(&station(ground), folder.path()).unwrap_err();
    assert!(matches!(refused(""), WorldError::NoGround));
    assert!(matches!(
        refused("generated = \"hill coast\"\ntiles = \"t\""),
        WorldError::TwoGrounds
    ));
    assert!(matches!(refused("tiles = \"tiles\""), WorldError::NoModel));
    assert!(
        refused("tiles = \"tiles\"\nmodel = \"surface\"")
            .to_string()
            .contains("tiles")
    );
    write(folder.path(), "tiles/README.md", b"nothing else");
    assert!(
        refused("tiles = \"tiles\"\nmodel = \"surface\"")
            .to_string()
            .contains("no tile in it")
    );
}

#[test]
fn bad_tiles_are_all_named_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let station = station("tiles = \"tiles\"\nmodel = \"surface\"");
    write(folder.path(), "tiles/N46E008.hgt", &vec![0; 25_934_400]);
    write(folder.path(), "tiles/somewhere.hgt", &[0; 100]);
    write(folder.path(), "tiles/cut.tif", b"II*\0\x08\0\0\0");
    write(folder.path(), "tiles/empty.tif", b"");
    write(folder.path(), "tiles/N47E008.hgt.gz", b"\x1f\x8b\x08\0\0\0\0\0");
    let fault = OpenedWorld::of(&station, folder.path()).unwrap_err().to_string();
    for part in [
        "25,934,400",
        "somewhere.hgt",
        "cut.tif",
        "empty.tif",
        "N47E008.hgt.gz",
    ] {
        assert!(fault.contains(part), "`{part}` is not named in:\n{fault}");
    }
    assert_eq!(fault.lines().count(), 5, "{fault}");
}
