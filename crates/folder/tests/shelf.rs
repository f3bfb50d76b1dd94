//! The shelf and the lists laid over it.

use std::path::Path;

use folder::sheet::Sheet;
use folder::{price_list, shelf};
use quantity::{Mass, Money, Power};
use station::shelf::{ItemKind, Per};

#[test]
fn the_built_in_shelf_has_the_whole_air_chain() {
    let shelf = shelf::built_in().unwrap_or_else(|faults| panic!("{}", faults[0]));
    assert!(shelf.items.len() >= 40, "{} items", shelf.items.len());
    for kind in ItemKind::ALL {
        assert!(shelf.of(*kind).next().is_some(), "no {kind:?} on the shelf");
    }
    for item in &shelf.items {
        assert!(
            price_list::unrated(item).is_empty(),
            "{:?}",
            price_list::unrated(item)
        );
    }
}

fn laid(text: &str) -> (station::Shelf, price_list::Laid) {
    let mut shelf = shelf::built_in().unwrap_or_default();
    let sheet = Sheet::from_csv("list.csv", text).expect("the list is read");
    let laid = price_list::lay_price_list(&mut shelf, &sheet);
    (shelf, laid)
}

#[test]
fn a_row_changes_what_its_cells_say_and_no_more() {
    let before = shelf::built_in().unwrap_or_default();
    let (after, report) =
        laid("id;sell;currency;mass (kg);per;date\ntx-300;2222.50;EUR;17.5;;2031-03-14\ntx-100;;;;;\n");
    assert_eq!(report.changed, ["tx-300", "tx-100"]);
    assert!(
        report.faults.is_empty() && report.unknown_columns.is_empty(),
        "{report:?}"
    );
    let (old, new) = (before.get("tx-300").unwrap(), after.get("tx-300").unwrap());
    let price = new.price.as_ref().unwrap();
    assert_eq!(price.sell, Money::parse("2222.50 EUR").unwrap());
    assert_eq!(price.cost, old.price.as_ref().unwrap().cost);
    assert_eq!(price.per, Some(Per::Each));
    assert_eq!(new.mass, Some(Mass::from_kg(17.5)));
    assert_eq!(new.transmitter, old.transmitter);
    assert_eq!(new.ports, old.ports);
    assert_eq!(before.get("tx-100"), after.get("tx-100"));
}

#[test]
fn a_new_row_without_ratings_cannot_be_proved() {
    let (shelf, report) = laid(
        "id,kind,name,sell,transmitter.output\nour-tx,transmitter,Ours,900 EUR,\nour-tx-2,transmitter,Two,900 EUR,350 W\n",
    );
    assert_eq!(report.added, ["our-tx", "our-tx-2"]);
    assert_eq!(
        report.unrated,
        [price_list::Unrated {
            id: "our-tx".into(),
            missing: "transmitter"
        }]
    );
    assert!(shelf.get("our-tx").unwrap().transmitter.is_none());
    assert_eq!(
        shelf
            .get("our-tx-2")
            .unwrap()
            .transmitter
            .as_ref()
            .unwrap()
            .output,
        Power::from_w(350.0)
    );
}

#[test]
fn bad_columns_and_cells_are_reported_at_their_place_and_the_rest_is_laid() {
    let text = "id;sel;colour;power\ntx-30;700 EUR;red;\ntx-100;;;90\n;1;2;3\ntx-30;;;\nnew-1;;;5 W\n";
    let (shelf, report) = laid(text);
    let columns: Vec<(&str, &str, Option<&str>)> = report
        .unknown_columns
        .iter()
        .map(|c| (c.cell.as_str(), c.name.as_str(), c.nearest))
        .collect();
    assert_eq!(columns[0], ("1:2", "sel", Some("sell")));
    assert_eq!((columns[1].0, columns[1].1), ("1:3", "colour"));
    let faults: Vec<(usize, usize, &str)> = report
        .faults
        .iter()
        .map(|f| (f.line, f.column, f.what.code.as_ref()))
        .collect();
    assert!(
        faults[0].0 == 3 && faults[0].1 == 4 && faults[0].2.contains("quantity-missing-unit"),
        "{faults:?}"
    );
    assert!(
        faults[1].0 == 4 && faults[1].2.contains("list-no-id"),
        "{faults:?}"
    );
    assert!(
        faults[2].0 == 5 && faults[2].2.contains("list-id-twice"),
        "{faults:?}"
    );
    assert!(
        faults[3].0 == 6 && faults[3].2.contains("file-key-missing-at-top"),
        "{faults:?}"
    );
    assert_eq!(report.changed, ["tx-30"]);
    assert!(shelf.get("new-1").is_none());
    let (_, report) = laid("name;sell\nx;1 EUR\n");
    assert!(report.faults[0].what.code.contains("list-no-header"));
}

#[test]
fn a_spreadsheet_is_read_cell_by_cell() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("list.xlsx");
    let mut book = rust_xlsxwriter::Workbook::new();
    book.add_worksheet()
        .set_name("Notes")
        .unwrap()
        .write(0, 0, "nothing here")
        .unwrap();
    let sheet = book.add_worksheet().set_name("Prices").unwrap();
    for (column, header) in [
        "Id",
        "Sell",
        "Currency",
        "Rack units",
        "Date",
        "Sea air",
        "Weight",
    ]
    .into_iter()
    .enumerate()
    {
        sheet.write(2, column as u16 + 1, header).unwrap();
    }
    let day = rust_xlsxwriter::ExcelDateTime::from_ymd(2031, 3, 14).unwrap();
    let format = rust_xlsxwriter::Format::new().set_num_format("yyyy-mm-dd");
    sheet
        .write(3, 1, "tx-300")
        .unwrap()
        .write(3, 2, 2222.5)
        .unwrap()
        .write(3, 3, "EUR")
        .unwrap();
    sheet
        .write(3, 4, 4)
        .unwrap()
        .write_with_format(3, 5, &day, &format)
        .unwrap()
        .write(3, 6, true)
        .unwrap();
    sheet.write(4, 1, "tx-100").unwrap().write(4, 2, "dear").unwrap();
    book.save(&path).unwrap();

    let mut shelf = shelf::built_in().unwrap_or_default();
    let report = shelf::lay_file(&mut shelf, &path).unwrap();
    let item = shelf.get("tx-300").unwrap();
    let price = item.price.as_ref().unwrap();
    assert_eq!(price.sell, Money::parse("2222.5 EUR").unwrap());
    assert_eq!(price.date.map(|d| d.to_string()).as_deref(), Some("2031-03-14"));
    assert_eq!((item.rack_units, item.sea_air), (Some(4), Some(true)));
    assert_eq!(report.unknown_columns[0].cell, "H3");
    assert_eq!(report.faults[0].path, "C5");
    assert_eq!(report.faults[0].text, "dear");
}

#[test]
fn lists_of_a_folder_lie_over_the_shelf_in_order() {
    let folder = tempfile::tempdir().unwrap();
    let own = folder.path().join("shelf");
    std::fs::create_dir(&own).unwrap();
    std::fs::write(
        own.join("10-ours.toml"),
        "[[items]]\nid = \"tx-9\"\nkind = \"transmitter\"\nname = \"Nine\"\n",
    )
    .unwrap();
    std::fs::write(own.join("20-prices.csv"), "id,sell\ntx-9,99 EUR\n").unwrap();
    std::fs::write(own.join("README.md"), "notes").unwrap();
    let (shelf, laid) = shelf::of_folder(folder.path()).unwrap();
    assert_eq!(laid.len(), 2);
    assert_eq!(
        shelf.get("tx-9").unwrap().price.as_ref().unwrap().sell,
        Money::parse("99 EUR").unwrap()
    );
    assert!(shelf.get("tx-300").is_some());
}

#[test]
fn bad_list_files_are_refused_by_name() {
    let folder = tempfile::tempdir().unwrap();
    let mut shelf = shelf::built_in().unwrap_or_default();
    let path = folder.path().join("list.xlsx");
    std::fs::write(&path, b"PK not a spreadsheet").unwrap();
    assert!(
        shelf::lay_file(&mut shelf, &path)
            .unwrap_err()
            .to_string()
            .contains("list.xlsx")
    );
    assert!(
        shelf::lay_file(&mut shelf, Path::new("list.pdf"))
            .unwrap_err()
            .to_string()
            .contains("list.pdf")
    );
    let path = folder.path().join("latin.csv");
    std::fs::write(&path, b"id,name\nx,caf\xe9\n").unwrap();
    assert!(
        shelf::lay_file(&mut shelf, &path)
            .unwrap_err()
            .to_string()
            .contains("byte 13")
    );
}

/// A name is ours as long as it is the one of our files; a list of a user's that calls an item otherwise is heard.
#[test]
fn the_built_in_shelf_is_named_in_every_language_and_a_users_names_stay() {
    use words::{Language, Message, say};
    let mut shelf = folder::shelf::built_in().unwrap();
    for item in &shelf.items {
        let name = Message::new(format!("item-{}", item.id));
        assert_eq!(
            say(&name, Language::English).as_ref(),
            Ok(&item.name),
            "{}",
            item.id
        );
    }
    let unnamed: Vec<_> = words::words()
        .codes(Language::English)
        .filter_map(|code| code.strip_prefix("item-"))
        .filter(|id| shelf.get(id).is_none())
        .collect();
    assert!(unnamed.is_empty(), "{unnamed:?} are on no shelf");
    assert_eq!(shelf.clone().named_in(Language::English), shelf);
    shelf.items[0].name = "Our own transmitter".into();
    let french = shelf.clone().named_in(Language::French);
    assert_eq!(french.items[0].name, "Our own transmitter");
    let same = shelf
        .items
        .iter()
        .zip(&french.items)
        .filter(|(ours, theirs)| ours.name == theirs.name)
        .count();
    assert_eq!(same, 1, "every other name is told in French");
}
