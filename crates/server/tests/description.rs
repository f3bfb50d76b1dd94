//! The committed description of the API is the one the program gives; the page's types are made from it.

use std::path::Path;

#[test]
fn committed_description_is_fresh() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../web/api/openapi.json");
    let committed = std::fs::read_to_string(&path).unwrap_or_default();
    let given = server::openapi().to_pretty_json().expect("plain data");
    assert!(
        committed.trim() == given.trim(),
        "web/api/openapi.json is old: run `cargo run -p server --example openapi > web/api/openapi.json`, then `npm run types` in web/"
    );
}
