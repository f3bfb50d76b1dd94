//! Prints the description of the API: `cargo run -p server --example openapi > web/api/openapi.json`, then `npm run types` in `web/`.

fn main() {
    println!(
        "{}",
        server::openapi()
            .to_pretty_json()
            .expect("the description is plain data")
    );
}
