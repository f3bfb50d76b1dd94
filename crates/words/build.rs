//! Lists the message files, so that adding one needs no code.

use std::fmt::Write as _;
use std::path::Path;
use std::{env, fs};

fn main() {
    let messages = Path::new(&env::var("CARGO_MANIFEST_DIR").expect("cargo sets it")).join("messages");
    println!("cargo::rerun-if-changed={}", messages.display());
    let mut list = String::new();
    for language in ["en", "fr"] {
        let folder = messages.join(language);
        println!("cargo::rerun-if-changed={}", folder.display());
        let entries = fs::read_dir(&folder).expect("each language has a folder of message files");
        let mut paths: Vec<_> = entries.filter_map(|entry| entry.ok().map(|e| e.path())).collect();
        paths.retain(|path| path.extension().is_some_and(|e| e == "ftl"));
        paths.sort();
        for path in paths {
            println!("cargo::rerun-if-changed={}", path.display());
            let name = format!(
                "{language}/{}",
                path.file_name().unwrap_or_default().to_string_lossy()
            );
            writeln!(
                list,
                "    ({language:?}, {name:?}, include_str!({:?})),",
                path.display().to_string()
            )
            .expect("writing to a string cannot fail");
        }
    }
    let code = format!(
        "/// Language, name and text of every message file.\npub(crate) const FILES: &[(&str, &str, &str)] = &[\n{list}];\n"
    );
    let out = Path::new(&env::var("OUT_DIR").expect("cargo sets it")).join("files.rs");
    fs::write(out, code).expect("the build folder can be written");
}
