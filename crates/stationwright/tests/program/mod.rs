//! The program as a shell runs it, from the top of the tree.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// The top of the tree.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// Runs it with these arguments.
pub fn stationwright(args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_stationwright"))
        .args(args)
        // Whatever language this machine is set to.
        .env("LC_ALL", "C")
        .current_dir(root())
        .output()
        .expect("the program starts")
}

/// What was printed, with plain spaces before units.
pub fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).replace('\u{a0}', " ")
}
