//! The generic shelf reads without a complaint, and the air chain is walked over it, joint by joint.

#![expect(
    clippy::unwrap_used,
    reason = "a test stops at the first thing that is not as it should be"
)]

use serde_json::json;
use station::chain::{self, ChainFault, Mating};
use station::read::{Faults, FromNode};
use station::{Node, Shelf, ShelfItem, Station};

fn shelf() -> Shelf {
    let mut shelf = Shelf::default();
    for name in ["transmission", "studio", "link", "site"] {
        let path = format!("{}/../../shelf/{name}.toml", env!("CARGO_MANIFEST_DIR"));
        let table: toml::Table = toml::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
        let node = Node::from_json(&serde_json::to_value(&table["items"]).unwrap());
        let mut faults = Faults::default();
        let items = Vec::<ShelfItem>::from_node(&node, "items", &mut faults);
        assert!(faults.0.is_empty(), "{name}: {:#?}", faults.0);
        shelf.lay_over(items.unwrap());
    }
    shelf
}

fn station(cables: serde_json::Value) -> Station {
    Station::read(&Node::from_json(&json!({
        "format": 1, "name": "Test",
        "sites": [{"tag": "HILL", "name": "Hill", "position": "45.0° N 8.0° E"}],
        "emissions": [{"tag": "E1", "frequency": "98 MHz", "transmitter": "TX1", "antenna": "ANT1"}],
        "antennas": [{"tag": "ANT1", "site": "HILL", "element": "dipole-steel"}],
        "items": [{"tag": "TX1", "shelf": "tx-300"}, {"tag": "SP1", "shelf": "splitter-4"}],
        "cables": cables,
    })))
    .unwrap()
}

#[test]
fn every_kind_in_the_air_chain_is_on_the_shelf() {
    let shelf = shelf();
    use station::shelf::ItemKind::*;
    let chain = [
        Transmitter,
        Feeder,
        Connector,
        Adapter,
        Splitter,
        Bay,
        LinkRadio,
        Codec,
        Console,
        Microphone,
        Arm,
        Headphones,
        HeadphoneAmplifier,
        Loudspeaker,
        Playout,
        Processor,
        RdsEncoder,
        Furniture,
        Rack,
        OnAirLight,
        Ups,
        Generator,
        Mast,
        Service,
    ];
    for kind in chain {
        assert!(shelf.of(kind).next().is_some(), "{}", kind.word());
    }
    assert_eq!(shelf.of(Transmitter).count(), 6);
    assert!(shelf.items.iter().all(|i| i.price.is_some() && i.mark.is_some()));
}

#[test]
fn a_thin_line_needs_an_adapter_where_nothing_mates() {
    let shelf = shelf();
    let station = station(json!([
        {"tag": "F1", "shelf": "rg-213", "from": "TX1", "to": "SP1", "length": "20 m"},
        {"tag": "TAILS", "shelf": "foam-1-4", "from": "SP1", "to": "ANT1", "length": "3 m", "count": 4},
    ]));
    let chain = chain::walk(&station, &shelf, &station.emissions[0]).unwrap();
    assert_eq!(
        chain.links.iter().map(|l| l.part.tag()).collect::<Vec<_>>(),
        ["TX1", "F1", "SP1", "TAILS", "ANT1"]
    );
    // Transmitter and splitter have 7-16 jacks, the line takes N plugs only.
    for joint in &chain.joints[..2] {
        let Mating::Adapter { adapter, .. } = &joint.mating else {
            panic!("{joint:?}")
        };
        assert_eq!(adapter.id, "adapter-n-jack-7-16-plug");
    }
    for joint in &chain.joints[2..] {
        assert!(matches!(joint.mating, Mating::Direct { .. }), "{joint:?}");
        assert_eq!(joint.count, 4);
    }
}

#[test]
fn bad_a_chain_that_does_not_arrive_says_where_it_ends() {
    let shelf = shelf();
    let open =
        station(json!([{"tag": "F1", "shelf": "rg-213", "from": "TX1", "to": "SP1", "length": "20 m"}]));
    let fault = chain::walk(&open, &shelf, &open.emissions[0]).unwrap_err();
    assert_eq!(fault, ChainFault::OpenEnd { tag: "SP1".into() });
    let circle = station(json!([
        {"tag": "F1", "shelf": "rg-213", "from": "TX1", "to": "SP1", "length": "20 m"},
        {"tag": "F2", "shelf": "rg-213", "from": "SP1", "to": "TX1", "length": "20 m"},
    ]));
    let fault = chain::walk(&circle, &shelf, &circle.emissions[0]).unwrap_err();
    assert_eq!(fault, ChainFault::Circle { tag: "TX1".into() });
}

#[test]
fn a_mask_runs_straight_between_its_rows_and_round_the_circle() {
    let station = Station::read(&Node::from_json(&json!({
        "format": 1, "name": "Test",
        "emissions": [{"tag": "E1", "frequency": "98 MHz", "licence": {"masks": [{
            "rows": [{"azimuth": "0°", "attenuation": "0 dB"}, {"azimuth": "90°", "attenuation": "9 dB"},
                     {"azimuth": "350°", "attenuation": "2 dB"}],
            "sectors": [{"from": "300°", "to": "20°", "attenuation": "4 dB"}],
        }]}}],
    })))
    .unwrap();
    let mask = &station.emissions[0].licence.masks[0];
    assert!((mask.attenuation_db(45.0) - 4.5).abs() < 1e-12);
    assert!((mask.attenuation_db(90.0) - 9.0).abs() < 1e-12);
    // 220°: half-way from 90° (9 dB) to 350° (2 dB).
    assert!((mask.attenuation_db(220.0) - 5.5).abs() < 1e-12);
    // Inside the sector the greater counts, on both sides of north.
    assert!((mask.attenuation_db(355.0) - 4.0).abs() < 1e-12);
    assert!((mask.attenuation_db(10.0) - 4.0).abs() < 1e-12);
}

#[test]
fn the_schema_names_every_section_and_what_is_required() {
    let schema = Station::schema();
    assert_eq!(schema["required"], json!(["format", "name"]));
    assert!(schema["properties"]["brief"].is_object());
    let text = schema.to_string();
    for word in ["stand_off", "pre_emphasis", "spare_wind_area", "case_mass"] {
        assert!(text.contains(word), "{word}");
    }
}

#[test]
fn the_country_profiles_read_and_cite_every_row() {
    for name in ["generic-50us", "generic-75us"] {
        let path = format!("{}/../../country/{name}.toml", env!("CARGO_MANIFEST_DIR"));
        let table: toml::Table = toml::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
        let mut faults = Faults::default();
        let node = Node::from_json(&serde_json::to_value(&table).unwrap());
        let profile = station::country::CountryProfile::from_node(&node, "", &mut faults);
        assert!(faults.0.is_empty(), "{:#?}", faults.0);
        assert_eq!(profile.unwrap().id, name);
    }
}
