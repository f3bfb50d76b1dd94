//! A sound station on generated ground, and ways to break it.

#![expect(
    clippy::unwrap_used,
    reason = "a test stops at the first thing that is not as it should be"
)]
#![allow(dead_code, reason = "every test binary uses its own part")]

use assess::finding::Finding;
use assess::rules::{self, Look};
use assess::{Assessment, Case, Fields, Outcome, evaluate, explain};
use coverage::{Control, CoverageError, GroundWorld, LossField, Study, World};
use serde_json::{Value as Json, json};
use station::country::CountryProfile;
use station::read::{Faults, FromNode};
use station::value::Date;
use station::{Edit, Node, Shelf, ShelfItem, Station};
use std::sync::{Arc, LazyLock, Mutex};

fn toml_at(path: &str) -> Json {
    let path = format!("{}/{path}", env!("CARGO_MANIFEST_DIR"));
    let table: toml::Table = toml::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    serde_json::to_value(table).unwrap()
}

/// What is done with the generated ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Land {
    /// Beyond its edge is sea.
    Sea,
    /// Beyond its edge nothing is known.
    Edge,
    /// Its heights are taken for those of a surface model.
    Surface,
}

/// What a station is judged by, as JSON, so that a test can change any rating of it.
#[derive(Clone)]
pub struct Bench {
    /// The station file.
    pub file: Node,
    /// Shelf items by file order.
    pub shelf: Vec<Json>,
    /// The country profile.
    pub country: Json,
    /// Key of the generated ground.
    pub ground: &'static str,
    /// The day.
    pub today: &'static str,
    /// What is done with the ground.
    pub land: Land,
}

/// The sound station.
pub fn sound() -> Bench {
    static SOUND: LazyLock<Bench> = LazyLock::new(|| Bench {
        file: Node::from_json(&toml_at("tests/data/sound.toml")),
        shelf: ["transmission", "studio", "link", "site"]
            .iter()
            .flat_map(|name| {
                toml_at(&format!("../../shelf/{name}.toml"))["items"]
                    .as_array()
                    .unwrap()
                    .clone()
            })
            .collect(),
        country: toml_at("../../country/generic-50us.toml"),
        ground: "island",
        today: "2026-11-20",
        land: Land::Sea,
    });
    SOUND.clone()
}

/// A world by its key; generated once.
fn world(ground: &'static str, land: Land) -> Arc<GroundWorld> {
    static KEPT: Mutex<Vec<(&'static str, Land, Arc<GroundWorld>)>> = Mutex::new(Vec::new());
    let mut kept = KEPT.lock().unwrap();
    if let Some(found) = kept.iter().find(|k| k.0 == ground && k.1 == land) {
        return found.2.clone();
    }
    let made = GroundWorld::generated(ground).unwrap();
    let made = Arc::new(made.with_ground(|g| match land {
        Land::Sea => g.with_missing(terrain::MissingGround::TreatAsSea),
        Land::Edge => g,
        Land::Surface => g.with_kind(terrain::HeightKind::Surface),
    }));
    kept.push((ground, land, made.clone()));
    made
}

/// Loss fields, each computed once.
struct Kept {
    ground: (&'static str, Land),
}

type Field = Result<Arc<LossField>, CoverageError>;
type KeptField = ((&'static str, Land), Study, Field);

impl assess::FieldStore for Kept {
    fn field(&self, world: &dyn World, study: &Study, control: &Control) -> Field {
        static KEPT: Mutex<Vec<KeptField>> = Mutex::new(Vec::new());
        let mut kept = KEPT.lock().unwrap();
        if let Some(found) = kept.iter().find(|k| k.0 == self.ground && k.1 == *study) {
            return found.2.clone();
        }
        let field = LossField::compute(world, study, control).map(Arc::new);
        kept.push((self.ground, *study, field.clone()));
        field
    }
}

/// A station judged.
pub struct Judged {
    /// The numbers.
    pub outcome: Outcome,
    /// What was found.
    pub findings: Vec<Finding>,
    /// The whole proof.
    pub assessment: Assessment,
    /// The same in English.
    pub sheet: assess::said::Sheet,
}

impl Judged {
    /// The first finding of a rule, about a tag unless the tag is `*`.
    pub fn found(&self, code: &str, tag: &str) -> Option<&Finding> {
        self.findings
            .iter()
            .find(|f| f.code == code && (tag == "*" || f.tag == tag))
    }
}

impl Bench {
    /// Sets a value of the station file.
    pub fn set(mut self, path: &str, to: impl Into<Json>) -> Bench {
        Edit::set(&self.file, path, to).apply(&mut self.file).unwrap();
        self
    }

    /// Removes a value of the station file.
    pub fn remove(mut self, path: &str) -> Bench {
        Edit::remove(&self.file, path).apply(&mut self.file).unwrap();
        self
    }

    /// Sets a rating on the shelf; null takes it away. The path is of keys with dots.
    pub fn shelf(mut self, id: &str, path: &str, to: impl Into<Json>) -> Bench {
        let item = self.shelf.iter_mut().find(|i| i["id"] == json!(id)).unwrap();
        *item
            .pointer_mut(&format!("/{}", path.replace('.', "/")))
            .unwrap_or_else(|| panic!("{id} has no {path}")) = to.into();
        self
    }

    /// Adds an item to the shelf, made from another with some keys changed.
    pub fn shelve(mut self, like: &str, id: &str, changes: &[(&str, Json)]) -> Bench {
        let mut item = self
            .shelf
            .iter()
            .find(|i| i["id"] == json!(like))
            .unwrap()
            .clone();
        item["id"] = json!(id);
        for (path, to) in changes {
            let (outer, key) = path.rsplit_once('.').map_or(("", *path), |(o, k)| (o, k));
            let at = match outer {
                "" => &mut item,
                outer => item
                    .pointer_mut(&format!("/{}", outer.replace('.', "/")))
                    .unwrap(),
            };
            at[key] = to.clone();
        }
        self.shelf.push(item);
        self
    }

    /// Sets a value of the country profile; null takes it away.
    pub fn country(mut self, key: &str, to: impl Into<Json>) -> Bench {
        let to = to.into();
        if to.is_null() {
            self.country.as_object_mut().unwrap().remove(key);
        } else {
            self.country[key]["value"] = to;
        }
        self
    }

    /// Another day.
    pub fn today(mut self, day: &'static str) -> Bench {
        self.today = day;
        self
    }

    /// Something else done with the ground.
    pub fn land(mut self, land: Land) -> Bench {
        self.land = land;
        self
    }

    /// Other ground.
    pub fn ground(mut self, ground: &'static str) -> Bench {
        self.ground = ground;
        self
    }

    /// The same with edits applied, such as those of a remedy.
    pub fn edited(mut self, edits: &[Edit]) -> Bench {
        for edit in edits {
            edit.apply(&mut self.file)
                .unwrap_or_else(|e| panic!("{e}: {edit:?}"));
        }
        // As whoever opens the ground does it.
        if self.file.at("ground.missing_is_sea").map(Node::to_json) == Some(json!(true)) {
            self.land = Land::Sea;
        }
        self
    }

    /// The station's faults, when it cannot be read.
    pub fn faults(&self) -> Option<Vec<station::Fault>> {
        Station::read(&station::assumptions::fill(&self.file)).err()
    }

    /// Calls `with` with the station as a case.
    pub fn with_case<R>(&self, with: impl FnOnce(&Case) -> R) -> R {
        let document = station::assumptions::fill(&self.file);
        let station = Station::read(&document).unwrap_or_else(|faults| panic!("{faults:#?}"));
        let mut faults = Faults::default();
        let mut shelf = Shelf::default();
        let node = Node::from_json(&Json::Array(self.shelf.clone()));
        shelf.lay_over(Vec::<ShelfItem>::from_node(&node, "items", &mut faults).unwrap_or_default());
        let country = CountryProfile::from_node(&Node::from_json(&self.country), "", &mut faults);
        assert!(faults.0.is_empty(), "{:#?}", faults.0);
        let world = world(self.ground, self.land);
        with(&Case {
            file: &self.file,
            document: &document,
            station: &station,
            shelf: &shelf,
            country: &country.unwrap(),
            world: &*world,
            today: self.today.parse::<Date>().unwrap(),
        })
    }

    /// Judges it: every figure, every finding, every sentence.
    pub fn judge(&self, with_fields: bool) -> Judged {
        self.with_case(|case| self.judged(case, with_fields))
    }

    fn judged(&self, case: &Case, with_fields: bool) -> Judged {
        let fields = if with_fields {
            let store = Kept {
                ground: (self.ground, self.land),
            };
            Fields::prepare(case, &store, &Control::quiet()).unwrap()
        } else {
            Fields::default()
        };
        let outcome = evaluate(case, &fields);
        let findings = rules::run(&Look {
            case,
            outcome: &outcome,
        });
        let assessment = explain(case, &outcome, "test");
        let sheet = assess::say(&assessment, case, words::Language::English)
            .unwrap_or_else(|e| panic!("{e}: {:#?}", findings.iter().map(|f| f.code).collect::<Vec<_>>()));
        Judged {
            outcome,
            findings,
            assessment,
            sheet,
        }
    }
}
