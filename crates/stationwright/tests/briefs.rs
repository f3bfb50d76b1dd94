//! The briefs that come with the program load without a fault.
#![allow(clippy::unwrap_used, reason = "a test stops where its ground gives way")]

use folder::StationFile;
use std::path::Path;

#[test]
fn every_brief_loads_without_a_fault_and_says_that_it_is_invented() {
    let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    for name in [
        "lantern-valley",
        "quadrangle",
        "saltlight",
        "oberquell",
        "tremarine",
        "vague",
        "orrenay",
    ] {
        let file = StationFile::open(&examples.join(name)).unwrap();
        assert!(
            file.reading.faults.is_empty(),
            "{name}: {:?}",
            file.reading.faults
        );
        let filled = station::assumptions::fill(&file.reading.document);
        let station = station::Station::read(&filled).unwrap();
        assert_eq!(station.invented, Some(true), "{name}");
    }
}
