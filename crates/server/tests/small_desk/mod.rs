//! A desk just large enough to carry something: for tests of the HTTP layer only. Everything on it is invented.

use assess::said::{Piece, Sheet, Shown};
use server::desk::{Desk, Event, Refusal};
use server::file::{Fault, FileText, Saved};
use server::handover::Handover;
use server::map::{Class, FieldAsk, FieldPicture, Legend};
use server::masts::{MastAsk, MastPicture, Masts, NO_SHARE};
use server::offers::{Offers, OffersState};
use server::paper::{Paper, PaperFile};
use server::probe::{Probe, ProbeAsk};
use server::view::{Change, FileCondition, FileState, View};
use station::Edit;
use std::sync::{Arc, Mutex};
use tokio::sync::broadcast;
use words::{Language, Message};

const TEXT: &str = "name = 'Radio Sample'\n";

pub struct SmallDesk {
    /// Changes made, and how often anything changed.
    done: Mutex<(Vec<String>, u32)>,
    tell: broadcast::Sender<Event>,
}

impl Default for SmallDesk {
    fn default() -> Self {
        Self {
            done: Mutex::default(),
            tell: broadcast::channel(4).0,
        }
    }
}

fn shown(text: &str, unit: &str) -> Shown {
    Shown {
        text: text.into(),
        unit: unit.into(),
        number: None,
    }
}

impl SmallDesk {
    fn now(&self) -> View {
        let done = self.done.lock().unwrap();
        let says = done.0.last().cloned();
        View {
            token: done.1.to_string(),
            draft: false,
            sheet: Sheet {
                name: "Radio Sample".into(),
                invented: true,
                client: None,
                revision: 1,
                date: None,
                digest: String::new(),
                currency: "EUR".into(),
                language: "en".into(),
                sentence: vec![Piece {
                    text: "Nobody hears it.".into(),
                    figure: None,
                }],
                lead: String::new(),
                stages: vec![],
                points: vec![],
                figures: vec![],
                findings: vec![],
                bill: vec![],
                excluded: vec![],
                assumptions: vec![],
                questions: vec![],
                curves: vec![],
            },
            subtitle: String::new(),
            file: FileState {
                name: "station.toml".into(),
                digest: "1".into(),
                condition: FileCondition::Saved,
                why: None,
            },
            can_undo: says.is_some(),
            last: says.map(|says| Change {
                says,
                effect: None,
                at: None,
                undone: false,
            }),
            can_redo: false,
            openings: vec![],
            handles: vec![],
            mast: None,
            horizon: None,
            ladder: vec![],
            more: vec![],
        }
    }
}

impl Desk for SmallDesk {
    fn language(&self) -> Language {
        Language::English
    }
    fn view(&self) -> Result<View, Refusal> {
        Ok(self.now())
    }
    fn apply(&self, edits: &[Edit]) -> Result<View, Refusal> {
        for edit in edits {
            let to = edit.to.as_ref().map(ToString::to_string).unwrap_or_default();
            if !to.contains(' ') {
                return Err(Refusal::new(
                    "edit-refused",
                    Message::foreign("A power needs its unit: 500 W, 0.5 kW or 27 dBW."),
                )
                .at(&edit.path));
            }
            let mut done = self.done.lock().unwrap();
            done.0.push(to);
            done.1 += 1;
        }
        Ok(self.now())
    }
    fn draft(&self, _: &[Edit]) -> Result<View, Refusal> {
        Ok(View {
            draft: true,
            ..self.now()
        })
    }
    fn undo(&self) -> Result<View, Refusal> {
        let mut done = self.done.lock().unwrap();
        done.0
            .pop()
            .ok_or_else(|| Refusal::new("nothing", Message::foreign("There is nothing to take back.")))?;
        done.1 += 1;
        drop(done);
        Ok(self.now())
    }
    fn redo(&self) -> Result<View, Refusal> {
        Err(Refusal::new(
            "nothing",
            Message::foreign("There is nothing to do again."),
        ))
    }
    fn history(&self) -> Vec<Change> {
        vec![]
    }
    fn file(&self) -> Result<FileText, Refusal> {
        Ok(FileText {
            name: "station.toml".into(),
            text: TEXT.into(),
            digest: "1".into(),
        })
    }
    fn save(&self, text: &str, base_digest: &str) -> Result<Saved, Refusal> {
        if base_digest != "1" {
            return Ok(Saved::Changed {
                theirs: self.file()?,
                says: vec![],
            });
        }
        if text.starts_with("nmae") {
            let says = "`nmae` is not known here".into();
            return Ok(Saved::Faults {
                faults: vec![Fault {
                    line: 1,
                    column: 1,
                    length: 4,
                    says,
                    help: None,
                }],
            });
        }
        Ok(Saved::Taken {
            view: Box::new(self.now()),
            digest: "2".into(),
        })
    }
    fn field(&self, _: &FieldAsk) -> Result<Arc<FieldPicture>, Refusal> {
        let (width, height) = (40, 12);
        let class = |from, edge: &str| Class {
            from,
            edge: edge.into(),
            wanted_for: String::new(),
            mono: false,
            weight: 0,
            people: shown("0", ""),
        };
        let inland =
            |i: usize| (2..width - 2).contains(&(i % width)) && (2..height - 2).contains(&(i / width));
        Ok(Arc::new(FieldPicture {
            field_hundredths: (0..width * height)
                .map(|i| 8000 - 100 * i16::try_from(i % width).unwrap())
                .collect(),
            ground_m: (0..width * height)
                .map(|i| if inland(i) { (i % 7) as f32 } else { f32::NAN })
                .collect(),
            land: (0..width * height).map(inland).collect(),
            land_round: (0..width * height)
                .map(|i| f32::from(u8::from(inland(i))))
                .collect(),
            legend: Legend {
                token: "1".into(),
                coarse: false,
                width,
                height,
                west_deg: 0.0,
                north_deg: 0.0,
                step_lon_deg: 0.001,
                step_lat_deg: 0.001,
                aspect: 1.0,
                cell_m: 90.0,
                classes: vec![class(None, "below 60"), class(Some(60.0), "60")],
                unit: "dBµV/m".into(),
                marks: vec![],
                scale: vec![],
                places: vec![],
                strip: vec![],
                says: String::new(),
            },
        }))
    }
    fn masts(&self, ask: &MastAsk) -> Result<Arc<MastPicture>, Refusal> {
        if ask.places.as_deref() == Some("nowhere") {
            return Err(Refusal::new(
                "not-found",
                Message::foreign("There is no place nowhere."),
            ));
        }
        Ok(Arc::new(MastPicture {
            masts: Masts {
                token: "1".into(),
                says: "The best hills.".into(),
                notes: Vec::new(),
                best: Vec::new(),
                people: shown("100", ""),
                width: 2,
                height: 1,
                west_deg: 8.0,
                north_deg: 47.0,
                step_lon_deg: 0.1,
                step_lat_deg: 0.1,
                raster: "api/masts/raster?of=1".into(),
            },
            share_hundredths: vec![10_000, NO_SHARE],
        }))
    }
    fn probe(&self, _: &ProbeAsk) -> Result<Probe, Refusal> {
        Err(Refusal::new(
            "not-found",
            Message::foreign("No place is called that."),
        ))
    }
    fn papers(&self) -> Result<Vec<Paper>, Refusal> {
        Ok(vec![])
    }
    fn paper(&self, name: &str) -> Result<PaperFile, Refusal> {
        if name != "offer.pdf" {
            return Err(Refusal::new(
                "not-found",
                Message::foreign("There is no such paper."),
            ));
        }
        Ok(PaperFile {
            media_type: "application/pdf".into(),
            name: name.into(),
            bytes: b"%PDF".to_vec(),
        })
    }
    fn write_papers(&self) -> Result<(), Refusal> {
        Ok(())
    }
    fn antennas(&self) -> Result<Vec<server::antenna::Antenna>, Refusal> {
        Ok(vec![])
    }
    fn link(&self) -> Result<Vec<server::link::Hop>, Refusal> {
        Ok(vec![])
    }
    fn studio(&self) -> Result<server::studio::Studio, Refusal> {
        Err(Refusal::new("not-found", Message::foreign("There is no studio.")))
    }
    fn handover(&self) -> Result<Handover, Refusal> {
        Ok(Handover {
            rigging: vec![],
            acceptance: vec![],
        })
    }
    fn offers(&self) -> Offers {
        Offers {
            state: OffersState::None,
            why: None,
            answer: None,
            present: None,
        }
    }
    fn work_out_offers(&self) -> Result<(), Refusal> {
        Ok(())
    }
    fn choose_offer(&self, _: &str) -> Result<View, Refusal> {
        Err(Refusal::new(
            "changed",
            Message::foreign("That offer is of no station here."),
        ))
    }
    fn cancel(&self) {}
    fn events(&self) -> broadcast::Receiver<Event> {
        self.tell.subscribe()
    }
}
