//! Builds the browser page into the build folder, or leaves a plain page where Node.js is absent.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::{env, fs};

fn main() {
    let here = PathBuf::from(env::var("CARGO_MANIFEST_DIR").expect("cargo sets it"));
    let root = here.join("../..");
    let web = root.join("web");
    let out = PathBuf::from(env::var("OUT_DIR").expect("cargo sets it")).join("page");
    watch(&root, &web);
    fs::create_dir_all(&out).expect("the build folder can be written");
    if env::var_os("STATIONWRIGHT_WITHOUT_PAGE").is_some() {
        return plain(
            &out,
            "it was left out on purpose (STATIONWRIGHT_WITHOUT_PAGE is set)",
        );
    }
    if Command::new("npm").arg("--version").output().is_err() {
        println!(
            "cargo::warning=the browser page is left out: Node.js is absent: install Node 20.19 or later, then build again"
        );
        return plain(
            &out,
            "Node.js was absent when the program was built; install Node 20.19 or later, then build again",
        );
    }
    packages(&web);
    run(&web, "node", &["tools/fonts.mjs"]);
    let out = out.to_string_lossy().into_owned();
    run(
        &web,
        "npx",
        &[
            "--no-install",
            "vite",
            "build",
            "--outDir",
            &out,
            "--emptyOutDir",
            "--logLevel",
            "warn",
        ],
    );
}

/// What the page is made of; the fonts are made from files of their own.
fn watch(root: &Path, web: &Path) {
    println!("cargo::rerun-if-env-changed=PATH");
    println!("cargo::rerun-if-env-changed=STATIONWRIGHT_WITHOUT_PAGE");
    for file in [
        "index.html",
        "package-lock.json",
        "vite.config.ts",
        "svelte.config.js",
        "tools",
        "public",
    ] {
        println!("cargo::rerun-if-changed={}", web.join(file).display());
    }
    println!("cargo::rerun-if-changed={}", root.join("fonts").display());
    for language in ["en", "fr"] {
        let words = format!("crates/words/messages/{language}/page.ftl");
        println!("cargo::rerun-if-changed={}", root.join(words).display());
    }
    for entry in fs::read_dir(web.join("src")).into_iter().flatten().flatten() {
        if entry.file_name() != "fonts" {
            println!("cargo::rerun-if-changed={}", entry.path().display());
        }
    }
}

/// Installs the packages when the lock file is not the one they were installed from.
fn packages(web: &Path) {
    let lock = fs::read(web.join("package-lock.json")).expect("web/package-lock.json can be read");
    let stamp = web.join("node_modules/.installed-from");
    if fs::read(&stamp).is_ok_and(|installed| installed == lock) {
        return;
    }
    run(
        web,
        "npm",
        &["ci", "--ignore-scripts", "--no-audit", "--no-fund", "--silent"],
    );
    fs::write(&stamp, lock).expect("web/node_modules can be written");
}

fn run(web: &Path, program: &str, arguments: &[&str]) {
    let done = Command::new(program).args(arguments).current_dir(web).output();
    let done = done.unwrap_or_else(|fault| panic!("{program} could not be started: {fault}"));
    assert!(
        done.status.success(),
        "the page could not be built: `{program} {}` in web/ said:\n{}{}",
        arguments.join(" "),
        String::from_utf8_lossy(&done.stdout),
        String::from_utf8_lossy(&done.stderr)
    );
}

/// A page that says why there is none.
fn plain(out: &Path, why: &str) {
    let text = format!(
        "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Stationwright</title>\
         <h1>The page is not in this build</h1><p>{why}. The commands say the same: <code>stationwright assess</code>.</p></html>\n"
    );
    fs::write(out.join("index.html"), text).expect("the build folder can be written");
}
