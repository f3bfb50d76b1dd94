//! Builds the browser page into the build folder.
fn main() {}
