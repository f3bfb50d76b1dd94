//! A station without a day of its revision has papers without a day: none is taken from a clock or made up.

use super::reading::poppler;
use super::{DEMO, Desk, folder};
use std::io::Read;

fn core(bytes: &[u8]) -> String {
    let mut archive = zip::ZipArchive::new(std::io::Cursor::new(bytes)).unwrap();
    let mut core = String::new();
    archive
        .by_name("docProps/core.xml")
        .unwrap()
        .read_to_string(&mut core)
        .unwrap();
    core
}

#[test]
fn the_day_is_the_revisions_or_none() {
    let folder = folder();
    let file = folder.path().join("station.toml");
    let original = std::fs::read_to_string(&file).unwrap();
    std::fs::write(&file, original.replace("\ndate = 2026-11-01\n", "\n")).unwrap();
    let undated = Desk::of(folder, |_| {});
    assert_eq!(undated.assessed.sheet.date, None);
    let (with, without) = (
        core(&DEMO.paper("bill-of-materials.xlsx")),
        core(&undated.paper("bill-of-materials.xlsx")),
    );
    assert!(with.contains("2026-11-01"), "{with}");
    assert!(!without.contains("dcterms:"), "{without}");
    let info = |desk: &Desk| poppler("pdfinfo", &["FILE"], &desk.paper("offer.pdf"));
    let (Some(with), Some(without)) = (info(&DEMO), info(&undated)) else {
        return;
    };
    assert!(with.contains("CreationDate:"), "{with}");
    assert!(
        !without.contains("CreationDate:") && !without.contains("1970"),
        "{without}"
    );
    assert!(undated.folder.path().exists());
}
