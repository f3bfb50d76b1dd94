//! Edits in the text: comments and order stay, the text says what the edited document says.

use folder::{Reading, edit_text};
use proptest::prelude::*;
use serde_json::{Value as Json, json};
use station::Edit;

const TEXT: &str = r#"# A small station. The comment at the top stays.
format = 1
name = "Edits"   # its name

[brief]
budget = "5000 EUR"      # all there is
purpose = "talk"

[brief.seats]
hosts = 1                # one of us

# --- things ---

# the transmitter
[[items]]
tag = "TX1"
shelf = "tx-100"         # 100 W
place = "SHED"

# the old one
[[items]]
tag = "TX0"
shelf = "tx-30"
ports = [
  { tag = "A", name = "rf out" },   # the socket
  { tag = "B", name = "audio in" },
]

[study]
radius = "45 km"
date = 2031-03-14
"#;

fn set(path: &str, from: Option<Json>, to: Option<Json>) -> Edit {
    Edit {
        path: path.into(),
        from,
        to,
        at: Vec::new(),
    }
}

fn edited(edit: Edit) -> String {
    edit_text(TEXT, &[edit]).expect("the edit fits")
}

/// Lines that differ between the text before and after, removed ones first.
fn changed_lines(after: &str) -> (Vec<&'static str>, Vec<&str>) {
    let gone = TEXT.lines().filter(|l| !after.lines().any(|a| a == *l)).collect();
    let new = after.lines().filter(|l| !TEXT.lines().any(|b| b == *l)).collect();
    (gone, new)
}

#[test]
fn a_value_changes_and_its_comment_stays() {
    let after = edited(set(
        "brief.budget",
        Some(json!("5000 EUR")),
        Some(json!("6000 EUR")),
    ));
    assert_eq!(
        changed_lines(&after).1,
        ["budget = \"6000 EUR\"      # all there is"]
    );
    assert_eq!(after.lines().count(), TEXT.lines().count());
    let after = edited(set(
        "items.TX1.shelf",
        Some(json!("tx-100")),
        Some(json!("tx-300")),
    ));
    assert_eq!(changed_lines(&after).1, ["shelf = \"tx-300\"         # 100 W"]);
}

#[test]
fn a_stated_value_becomes_an_assumption_in_one_line() {
    let to = json!({"assumed": 2, "low": 1, "high": 4, "why": "asked twice"});
    let after = edited(set("brief.seats.hosts", Some(json!(1)), Some(to)));
    let expected =
        "hosts = { assumed = 2, low = 1, high = 4, why = \"asked twice\" }                # one of us";
    assert_eq!(changed_lines(&after).1, [expected]);
}

#[test]
fn items_come_and_go_by_tag() {
    let after = edited(set("items.SP1", None, Some(json!({"shelf": "splitter-4"}))));
    let (gone, new) = changed_lines(&after);
    assert!(gone.is_empty());
    assert_eq!(new, ["tag = \"SP1\"", "shelf = \"splitter-4\""]);
    assert!(
        after.find("SP1").unwrap() < after.find("[study]").unwrap(),
        "it joins its list"
    );
    let tx1 = json!({"tag": "TX1", "shelf": "tx-100", "place": "SHED"});
    let after = edited(set("items.TX1", Some(tx1), None));
    assert!(
        !after.contains("TX1") && !after.contains("# the transmitter"),
        "{after}"
    );
    assert!(
        after.contains("# --- things ---") && after.contains("# the old one"),
        "{after}"
    );
}

#[test]
fn lists_in_lines_keep_their_shape() {
    let after = edited(set("items.TX0.ports.C", None, Some(json!({"name": "network"}))));
    assert!(
        after.contains("  { tag = \"B\", name = \"audio in\" },\n  { tag = \"C\", name = \"network\" },\n]"),
        "{after}"
    );
    assert!(after.contains("# the socket"));
    let after = edited(set(
        "items.TX0.ports.A.name",
        Some(json!("rf out")),
        Some(json!("rf")),
    ));
    assert!(
        after.contains("  { tag = \"A\", name = \"rf\" },   # the socket"),
        "{after}"
    );
}

#[test]
fn a_date_stays_a_date() {
    let after = edited(set(
        "study.date",
        Some(json!("2031-03-14")),
        Some(json!("2032-02-29")),
    ));
    assert_eq!(changed_lines(&after).1, ["date = 2032-02-29"]);
}

#[test]
fn a_first_item_makes_its_list_and_a_first_key_its_section() {
    let after = edited(set(
        "cables.F1",
        None,
        Some(json!({"shelf": "coax", "length": "30 m"})),
    ));
    assert!(
        after.contains("[[cables]]\ntag = \"F1\"\nshelf = \"coax\"\nlength = \"30 m\"\n"),
        "{after}"
    );
    let after = edited(set("ground.generated", None, Some(json!("demo island"))));
    assert!(
        after.contains("[ground]\ngenerated = \"demo island\"\n"),
        "{after}"
    );
    assert!(after.starts_with("# A small station."));
}

#[test]
fn bad_edits_change_nothing_and_say_why() {
    let moved = edit_text(
        TEXT,
        &[set("brief.budget", Some(json!("1 EUR")), Some(json!("2 EUR")))],
    )
    .unwrap_err();
    assert!(moved.to_string().contains("stands there"), "{moved}");
    let nowhere = edit_text(TEXT, &[set("items.TX9.place", None, Some(json!("HILL")))]).unwrap_err();
    assert!(nowhere.to_string().contains("TX9"), "{nowhere}");
    let syntax = edit_text("a = \n", &[set("a", None, Some(json!(1)))]).unwrap_err();
    assert!(syntax.to_string().contains("syntax"), "{syntax}");
}

/// Paths that exist in the text with what stands there, and paths that do not.
fn an_edit() -> impl Strategy<Value = Edit> {
    let document = Reading::of("x", TEXT).document;
    let paths = [
        "name",
        "brief.budget",
        "brief.purpose",
        "brief.seats.hosts",
        "items.TX1.place",
        "items.TX0.shelf",
        "items.TX0",
        "items.TX1",
        "items.TX0.ports.A",
        "items.TX0.ports.B.name",
        "study.radius",
        "study",
        "brief",
        "items.NEW",
        "items.TX1.note",
        "rooms.R1",
        "brief.running.staff",
        "items.TX0.ports.Z",
        "hops.L1.way",
    ];
    let value = prop_oneof![
        Just(Json::Null),
        any::<i32>().prop_map(Json::from),
        "[a-z\"\\\\ µ\n#=]{0,12}".prop_map(Json::from),
        any::<bool>().prop_map(Json::from),
        "[a-z]{1,5}".prop_map(|text| json!({"k": text, "n": [1, 2]})),
    ];
    // What a tag names is a table before and after.
    let fits = |(path, to): &(&str, Json)| {
        let last = path.rsplit('.').next().unwrap_or(path);
        to.is_null() || to.is_object() || last != last.to_uppercase()
    };
    (proptest::sample::select(paths.to_vec()), value)
        .prop_filter("an item is a table", fits)
        .prop_map(move |(path, to)| {
            let from = document.at(path).map(station::Node::to_json);
            let to = match to {
                Json::Object(mut map) => {
                    map.insert("tag".to_owned(), path.rsplit('.').next().unwrap_or(path).into());
                    Json::Object(map)
                }
                other => other,
            };
            Edit {
                path: path.into(),
                from,
                to: (!to.is_null()).then_some(to),
                at: Vec::new(),
            }
        })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn prop_an_edit_and_its_inverse_say_the_same_again(edit in an_edit()) {
        let Ok(after) = edit_text(TEXT, std::slice::from_ref(&edit)) else { return Ok(()) };
        let back = edit_text(&after, &[edit.inverse()]);
        prop_assert!(back.is_ok(), "{edit:?}\n{after}\n{back:?}");
        let brief = |text: &str| {
            let mut brief = Reading::of("x", text).document.get("brief").map(station::Node::to_json).unwrap_or(json!({}));
            if let Some(sections) = brief.as_object_mut() {
                let is_empty = |v: &Json| *v == json!({}) || *v == json!([]);
                sections.retain(|_, v| !is_empty(v)); // a section made for one key may stay
            }
            brief
        };
        prop_assert_eq!(brief(&back.unwrap_or_default()), brief(TEXT));
    }

    #[test]
    fn prop_an_edit_is_written_or_refused_and_comments_elsewhere_stay(edit in an_edit()) {
        let Ok(after) = edit_text(TEXT, std::slice::from_ref(&edit)) else { return Ok(()) };
        prop_assert!(after.starts_with("# A small station. The comment at the top stays."));
        prop_assert!(edit.path == "name" || after.contains("# its name"));
        if !edit.path.starts_with("items") {
            prop_assert!(after.contains("# the transmitter") && after.contains("# the socket"));
        }
    }

    #[test]
    fn prop_any_text_is_read_without_panic(text in "\\PC{0,200}") {
        let _ = Reading::of("x", text);
    }

    #[test]
    fn prop_a_station_cut_or_garbled_anywhere_is_read_without_panic(at in 0usize..900, junk in "[\\[\\]{}\"'=,.#\n0-9a-z]{0,8}") {
        let at = (0..=at.min(TEXT.len())).rev().find(|i| TEXT.is_char_boundary(*i)).unwrap_or(0);
        let _ = Reading::of("x", &TEXT[..at]);
        let reading = Reading::of("x", format!("{}{junk}{}", &TEXT[..at], &TEXT[at..]));
        for fault in &reading.faults {
            prop_assert!(fault.line >= 1 && fault.column >= 1);
        }
    }
}

/// As this program writes it: sections and lists of sections, no comments, no dates.
const PLAIN: &str = r#"format = 1
name = "Edits"
wanted = [3, 1, 2]

[brief]
budget = "5000 EUR"
purpose = "talk"
seats = { hosts = 1, guests = 2 }

[[items]]
tag = "TX1"
shelf = "tx-100"
place = "SHED"

[[items]]
tag = "TX0"
shelf = "tx-30"
ports = [{ tag = "A", name = "rf out" }, { tag = "B", name = "audio in" }, { tag = "C", name = "mains" }]

[[items]]
tag = "SP1"
shelf = "splitter-4"

[study]
radius = "45 km"
step = "90 m"
"#;

/// An edit made from the document, as the page and the rules make them: set or removed, at what is there and at what is not.
fn a_made_edit() -> impl Strategy<Value = (&'static str, Option<Json>)> {
    let text = || {
        prop_oneof![
            Just(json!("one")),
            Just(json!(2)),
            Just(json!(true)),
            Just(json!(2.5))
        ]
    };
    let there = proptest::sample::select(vec![
        "format",
        "name",
        "brief.budget",
        "brief.seats.hosts",
        "brief.seats.guests",
        "items.TX1.shelf",
        "items.TX0.ports.B.name",
        "study.radius",
        "study.step",
        "wanted.0",
        "wanted.1",
        "wanted.2",
    ]);
    let fresh = proptest::sample::select(vec![
        "client",
        "brief.tier",
        "brief.seats.callers",
        "items.SP1.place",
        "study.more.deep",
        "wanted.3",
        "new.key",
        "new.deep.key",
    ]);
    let item = proptest::sample::select(vec![
        "items.NEW",
        "items.TX0.ports.D",
        "cables.C1",
        "brief.notes.N1",
    ]);
    let gone = proptest::sample::select(vec![
        "name",
        "brief",
        "brief.seats",
        "brief.seats.hosts",
        "items.TX1",
        "items.TX0",
        "items.SP1",
        "items.TX0.ports",
        "items.TX0.ports.A",
        "items.TX0.ports.B",
        "items.TX0.ports.C",
        "study",
        "wanted.0",
        "wanted.1",
        "wanted.2",
        "wanted",
    ]);
    prop_oneof![
        (there, text()).prop_map(|(p, v)| (p, Some(v))),
        (fresh, text()).prop_map(|(p, v)| (p, Some(v))),
        item.prop_map(|p| (p, Some(json!({ "tag": p.rsplit('.').next(), "shelf": "thing" })))),
        gone.prop_map(|p| (p, None)),
    ]
}

fn made((path, to): (&str, Option<Json>), text: &str) -> Edit {
    let document = Reading::of("x", text).document;
    match to {
        Some(to) => Edit::set(&document, path, to),
        None => Edit::remove(&document, path),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 600, ..ProptestConfig::default() })]

    #[test]
    fn prop_a_made_edit_taken_back_leaves_the_document_identical(first in a_made_edit(), second in a_made_edit()) {
        let mut document = Reading::of("x", PLAIN).document;
        let original = document.to_json().to_string();
        let one = made(first, PLAIN);
        prop_assert!(one.apply(&mut document).is_ok(), "{one:?}");
        let between = document.to_json().to_string();
        let two = match second.1 {
            Some(to) => Edit::set(&document, second.0, to),
            None => Edit::remove(&document, second.0),
        };
        if two.apply(&mut document).is_ok() {
            two.inverse().apply(&mut document).map_err(|e| TestCaseError::fail(format!("{two:?}: {e}")))?;
        }
        prop_assert_eq!(document.to_json().to_string(), between, "{:?}", two);
        one.inverse().apply(&mut document).map_err(|e| TestCaseError::fail(format!("{one:?}: {e}")))?;
        prop_assert_eq!(document.to_json().to_string(), original, "{:?}", one);
    }

    #[test]
    fn prop_a_made_edit_taken_back_leaves_the_text_identical(edit in a_made_edit()) {
        let edit = made(edit, PLAIN);
        let after = edit_text(PLAIN, std::slice::from_ref(&edit)).map_err(|e| TestCaseError::fail(format!("{edit:?}: {e}")))?;
        prop_assert!(after != PLAIN || edit.from == edit.to, "{edit:?}");
        let back = edit_text(&after, &[edit.inverse()]).map_err(|e| TestCaseError::fail(format!("{edit:?}: {e}\n{after}")))?;
        prop_assert_eq!(back, PLAIN, "{:?}", edit);
    }
}
