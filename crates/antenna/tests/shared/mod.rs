//! Where the large reference sets lie.

use std::path::PathBuf;

/// The folder of reference sets: `$STATIONWRIGHT_SHARED`, else `../shared` beside the workspace. None when there is none, which
/// is a failure where `CI` is set.
pub fn reference_folder() -> Option<PathBuf> {
    let beside = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../../shared");
    let folder = std::env::var_os("STATIONWRIGHT_SHARED")
        .map_or(beside, PathBuf::from)
        .join("validation/antenna");
    if folder.is_dir() {
        return Some(folder);
    }
    assert!(
        std::env::var_os("CI").is_none(),
        "no reference sets at {}",
        folder.display()
    );
    println!("skipped: no reference sets at {}", folder.display());
    None
}
