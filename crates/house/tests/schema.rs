//! The schema of the station file in `schema/` is the one the program reads by, and the examples are written in it.
//!
//! After a change of the model: `STATIONWRIGHT_BLESS=1 cargo test -p house --test schema`.

use serde_json::Value;
use std::fs;
use std::path::PathBuf;

const BLESS: &str = "STATIONWRIGHT_BLESS";

fn published() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../schema/station.schema.json")
}

fn generated() -> String {
    let mut schema = station::Station::schema();
    let top = schema.as_object_mut().expect("a schema is an object");
    top.insert("title".into(), "Stationwright station file, station.toml".into());
    let text = serde_json::to_string_pretty(&schema).expect("a schema can be printed");
    text + "\n"
}

#[test]
fn the_published_schema_is_fresh() {
    let file = published();
    let fresh = generated();
    if std::env::var_os(BLESS).is_some() {
        fs::write(&file, &fresh).expect("schema/ can be written");
    }
    let kept = fs::read_to_string(&file).unwrap_or_default();
    let line = kept.lines().zip(fresh.lines()).position(|(a, b)| a != b);
    assert!(
        kept == fresh,
        "schema/station.schema.json is stale from line {}: {BLESS}=1 cargo test -p house --test schema",
        line.unwrap_or_else(|| kept.lines().count().min(fresh.lines().count())) + 1
    );
}

/// Every `$ref` of the schema leads somewhere: an editor that follows it finds a definition.
#[test]
fn every_reference_in_the_schema_leads_somewhere() {
    let schema: Value = serde_json::from_str(&generated()).expect("our own JSON");
    let mut references = Vec::new();
    collect(&schema, &mut references);
    assert!(references.len() > 50, "only {} references", references.len());
    for reference in references {
        let pointer = reference
            .strip_prefix('#')
            .expect("only references within the file");
        assert!(schema.pointer(pointer).is_some(), "`{reference}` leads nowhere");
    }
}

fn collect(value: &Value, references: &mut Vec<String>) {
    match value {
        Value::Object(map) => {
            if let Some(Value::String(reference)) = map.get("$ref") {
                references.push(reference.clone());
            }
            map.values().for_each(|child| collect(child, references));
        }
        Value::Array(items) => items.iter().for_each(|child| collect(child, references)),
        _ => {}
    }
}
