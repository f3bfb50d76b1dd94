//! The desk a station lies on: what the page asks, answered from the office.

mod antenna;
mod changes;
mod choosing;
mod handles;
mod masts;
mod offers;
pub(crate) mod papers;
pub(crate) mod picture;
mod probe;
mod view;

use crate::office::{Assessed, Office, OfficeError};
use coverage::Control;
use folder::{Digest, Expected, Reading, SaveError, StationFile, edit_text, save};
use server::antenna::Antenna;
use server::desk::{Desk, Event, Refusal};
use server::file::{Fault, FileText, Saved};
use server::handover::Handover;
use server::map::{FieldAsk, FieldPicture};
use server::masts::{MastAsk, MastPicture};
use server::offers::Offers;
use server::paper::{Paper, PaperFile, PaperState};
use server::probe::{Probe, ProbeAsk};
use server::view::{Change, FileCondition, FileState, View};
use station::Edit;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, Weak};
use tokio::sync::broadcast;
use words::Language;

/// Changes that can be taken back.
const MOST_CHANGES: usize = 200;

/// One station on the desk.
pub struct StationDesk {
    office: Office,
    state: Mutex<State>,
    /// Held by whatever changes the station, so that a quick second act begins from the first one's text.
    acting: Mutex<()>,
    events: broadcast::Sender<Event>,
    cancel: Arc<AtomicBool>,
    myself: Weak<StationDesk>,
}

struct State {
    path: PathBuf,
    name: String,
    text: String,
    digest: Digest,
    assessed: Arc<Assessed>,
    /// The whole answer that stood before the last change; none when that change came upon a draft.
    before: Option<Arc<Assessed>>,
    draft: bool,
    /// What the remedies would change is known.
    weighed: bool,
    token: u64,
    undo: Vec<Step>,
    redo: Vec<Step>,
    not_saved: Option<String>,
    picture: Option<(u64, FieldAsk, Arc<FieldPicture>)>,
    masts: Option<(String, MastAsk, Arc<MastPicture>)>,
    /// The flag that stops the search for hills going on.
    searching: Option<Arc<AtomicBool>>,
    offers: OfferBook,
}

/// The offers worked out last, and the work that goes on.
#[derive(Default)]
struct OfferBook {
    worked: Option<Arc<offers::Worked>>,
    /// The flag that stops the work going on.
    working: Option<Arc<AtomicBool>>,
    why: Option<String>,
}

/// One change: the text before and after, and what it says.
#[derive(Clone)]
struct Step {
    before: String,
    after: String,
    says: String,
    effect: Option<String>,
}

fn refuse(error: &OfficeError) -> Refusal {
    match error {
        OfficeError::Faults(faults) => {
            let first = faults.first();
            let says = first.map_or_else(|| error.to_string(), |f| words::said(&f.what, Language::English));
            let refusal = Refusal::new("edit-refused", says);
            match first.map(|f| f.path.clone()).filter(|p| !p.is_empty()) {
                Some(path) => refusal.at(path),
                None => refusal,
            }
        }
        OfficeError::Cancelled => Refusal::new("not-ready", "Cancelled: the last whole answer stands"),
        other => Refusal::new("failed", other.to_string()),
    }
}

impl StationDesk {
    /// Lays an assessed station on the desk, and begins to compute the heights beside it.
    pub fn new(file: StationFile, office: Office, assessed: Assessed) -> Arc<StationDesk> {
        let text = file.reading.source.text().to_string();
        let name = file.reading.source.name().to_owned();
        let (events, _) = broadcast::channel(64);
        let desk = Arc::new_cyclic(|myself| StationDesk {
            office,
            events,
            cancel: Arc::new(AtomicBool::new(false)),
            myself: myself.clone(),
            acting: Mutex::new(()),
            state: Mutex::new(State {
                path: file.path,
                name,
                text,
                digest: file.digest,
                assessed: Arc::new(assessed),
                before: None,
                draft: false,
                weighed: true,
                token: 1,
                undo: Vec::new(),
                redo: Vec::new(),
                not_saved: None,
                picture: None,
                masts: None,
                searching: None,
                offers: OfferBook::default(),
            }),
        });
        desk.clone().ahead();
        desk
    }

    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(|poisoned| poisoned.into_inner())
    }

    fn acting(&self) -> MutexGuard<'_, ()> {
        self.acting
            .lock()
            .unwrap_or_else(|poisoned| poisoned.into_inner())
    }

    /// Computes the fields of the heights a hand can choose, in the background.
    fn ahead(self: Arc<Self>) {
        std::thread::spawn(move || {
            let assessed = self.state().assessed.clone();
            for edits in handles::heights_ahead(&self.office, &assessed) {
                let mut file = assessed.file.clone();
                if edits.iter().all(|e| e.apply(&mut file).is_ok()) {
                    let cancel = self.cancel.clone();
                    let control = Control {
                        cancel: Some(&cancel),
                        ..Control::quiet()
                    };
                    if self.office.prepare(&file, &control).is_err() {
                        return;
                    }
                }
            }
        });
    }

    fn shown(&self, state: &State, assessed: &Assessed, draft: bool) -> View {
        let file = FileState {
            name: state.name.clone(),
            digest: state.digest.to_string(),
            condition: if state.not_saved.is_some() {
                FileCondition::NotSaved
            } else {
                FileCondition::Saved
            },
            why: state.not_saved.clone(),
        };
        let told = |step: &Step, undone: bool| Change {
            says: step.says.clone(),
            effect: step.effect.clone(),
            at: None,
            undone,
        };
        let mut view = view::view(&self.office, assessed);
        view.token = format!("{}{}", state.token, if draft { "-draft" } else { "" });
        view.draft = draft;
        view.file = file;
        view.last = state.undo.last().map(|s| told(s, false));
        view.can_undo = !state.undo.is_empty();
        view.can_redo = !state.redo.is_empty();
        view
    }

    /// Takes a text as the station now: on disk, in memory, drafted at once and assessed whole behind.
    fn take(&self, text: String, step: Option<Step>) -> Result<View, Refusal> {
        let reading = Reading::of(self.state().name.clone(), text.as_str());
        if !reading.faults.is_empty() {
            return Err(refuse(&OfficeError::Faults(reading.faults)));
        }
        let digest = Digest::of(text.as_bytes());
        let (drafted, _) = self
            .office
            .draft(&reading.document, &digest.to_string())
            .map_err(|e| refuse(&e))?;
        let mut state = self.state();
        match save(&state.path, text.as_bytes(), Expected::Is(state.digest)) {
            Ok(_) => state.not_saved = None,
            Err(SaveError::Changed { .. }) => {
                return Err(Refusal::new(
                    "changed",
                    "Another hand changed the file meanwhile: open it and take both",
                ));
            }
            // The change stands in memory, and the page says that it is not on disk.
            Err(error) => state.not_saved = Some(error.to_string()),
        }
        // A draft is no measure of a change: its antenna is the fast model. The effect follows with the whole answer.
        state.before = (!state.draft && step.is_some()).then(|| state.assessed.clone());
        if let Some(step) = step {
            state.undo.push(step);
            if state.undo.len() > MOST_CHANGES {
                state.undo.remove(0);
            }
        }
        state.text = text;
        state.digest = digest;
        state.assessed = Arc::new(drafted);
        state.draft = true;
        state.token += 1;
        let token = state.token;
        let assessed = state.assessed.clone();
        let view = self.shown(&state, &assessed, true);
        drop(state);
        self.whole(token);
        Ok(view)
    }

    /// Assesses the station whole behind the draft; a newer change makes it moot.
    fn whole(&self, token: u64) {
        let Some(desk) = self.myself.upgrade() else { return };
        std::thread::spawn(move || {
            let (file, digest) = {
                let state = desk.state();
                (state.assessed.file.clone(), state.digest.to_string())
            };
            let cancel = desk.cancel.clone();
            cancel.store(false, Ordering::Relaxed);
            let tell = desk.events.clone();
            let progress = move |p: coverage::Progress| {
                let share = if p.total == 0 {
                    0.0
                } else {
                    p.done as f64 / p.total as f64
                };
                let _ = tell.send(Event::Progress {
                    what: handles::words_of("working-field"),
                    share,
                    left: p.left.and_then(|l| left(l.as_secs_f64())),
                });
            };
            let control = Control {
                progress: Some(&progress),
                cancel: Some(&cancel),
            };
            match desk.office.answer(&file, &digest, &control) {
                Ok(assessed) => {
                    let mut state = desk.state();
                    if state.token != token {
                        return;
                    }
                    let before = state.before.take();
                    if let (Some(before), Some(step)) = (before, state.undo.last_mut()) {
                        step.effect = view::effect(&before.sheet, &assessed.sheet);
                    }
                    state.assessed = Arc::new(assessed);
                    state.draft = false;
                    state.weighed = false;
                    state.token += 1;
                    let token = state.token;
                    let _ = desk.events.send(Event::Done {
                        token: token.to_string(),
                    });
                    drop(state);
                    desk.weigh(token);
                    desk.clone().ahead();
                }
                Err(OfficeError::Cancelled) => {}
                Err(error) => {
                    let _ = desk.events.send(Event::Failed {
                        says: error.to_string(),
                    });
                }
            }
        });
    }

    /// Weighs the remedies of the answer that stands, and tells; a newer change makes it moot.
    ///
    /// Every figure and finding is final before it: many evaluations would hold them back for seconds.
    fn weigh(&self, token: u64) {
        let assessed = self.state().assessed.clone();
        let Ok(weighed) = self.office.weighed((*assessed).clone()) else {
            return;
        };
        let mut state = self.state();
        if state.token != token {
            return;
        }
        state.assessed = Arc::new(weighed);
        state.weighed = true;
        state.token += 1;
        let _ = self.events.send(Event::Done {
            token: state.token.to_string(),
        });
    }

    /// The answer that stands, weighed: what papers are made of.
    fn weighed_now(&self) -> Result<Arc<Assessed>, Refusal> {
        let (assessed, weighed) = {
            let state = self.state();
            (state.assessed.clone(), state.weighed || state.draft)
        };
        if weighed {
            return Ok(assessed);
        }
        let weighed = self.office.weighed((*assessed).clone());
        weighed.map(Arc::new).map_err(|e| refuse(&e))
    }

    /// Takes one step that nobody took before: what had been taken back is gone.
    fn step(&self, before: String, after: String, says: String) -> Result<View, Refusal> {
        let step = Step {
            before,
            after: after.clone(),
            says,
            effect: None,
        };
        let view = self.take(after, Some(step))?;
        self.state().redo.clear();
        Ok(View {
            can_redo: false,
            ..view
        })
    }

    fn papers_folder(&self) -> PathBuf {
        self.office.folder.join("papers")
    }
}

impl Desk for StationDesk {
    fn view(&self) -> Result<View, Refusal> {
        let state = self.state();
        let assessed = state.assessed.clone();
        Ok(self.shown(&state, &assessed, state.draft))
    }

    fn apply(&self, edits: &[Edit]) -> Result<View, Refusal> {
        let _one = self.acting();
        let (before, says) = {
            let state = self.state();
            let language = view::language(&state.assessed);
            let says = changes::says(&self.office, &state.assessed.file, edits, language)
                .map_err(|e| Refusal::new("failed", e.to_string()))?;
            (state.text.clone(), says)
        };
        let after = edit_text(&before, edits).map_err(|e| Refusal::new("edit-refused", e.to_string()))?;
        self.step(before, after, says)
    }

    fn draft(&self, edits: &[Edit]) -> Result<View, Refusal> {
        let (mut file, digest) = {
            let state = self.state();
            (state.assessed.file.clone(), state.digest.to_string())
        };
        for edit in edits {
            edit.apply(&mut file)
                .map_err(|e| Refusal::new("edit-refused", e.to_string()).at(edit.path.clone()))?;
        }
        let (drafted, _) = self.office.draft(&file, &digest).map_err(|e| refuse(&e))?;
        let state = self.state();
        Ok(self.shown(&state, &drafted, true))
    }

    fn undo(&self) -> Result<View, Refusal> {
        let _one = self.acting();
        let step = self
            .state()
            .undo
            .pop()
            .ok_or_else(|| Refusal::new("not-found", "Nothing to take back"))?;
        match self.take(step.before.clone(), None) {
            Ok(view) => {
                let mut state = self.state();
                state.redo.push(step);
                Ok(View {
                    can_redo: true,
                    can_undo: !state.undo.is_empty(),
                    ..view
                })
            }
            Err(refusal) => {
                self.state().undo.push(step);
                Err(refusal)
            }
        }
    }

    fn redo(&self) -> Result<View, Refusal> {
        let _one = self.acting();
        let step = self
            .state()
            .redo
            .pop()
            .ok_or_else(|| Refusal::new("not-found", "Nothing to do again"))?;
        match self.take(step.after.clone(), Some(step.clone())) {
            Ok(view) => {
                let can_redo = !self.state().redo.is_empty();
                Ok(View { can_redo, ..view })
            }
            Err(refusal) => {
                self.state().redo.push(step);
                Err(refusal)
            }
        }
    }

    fn history(&self) -> Vec<Change> {
        let state = self.state();
        let told = |step: &Step, undone: bool| Change {
            says: step.says.clone(),
            effect: step.effect.clone(),
            at: None,
            undone,
        };
        let undone = state.redo.iter().map(|s| told(s, true));
        undone
            .chain(state.undo.iter().rev().map(|s| told(s, false)))
            .collect()
    }

    fn file(&self) -> Result<FileText, Refusal> {
        let state = self.state();
        let on_disk =
            folder::reading::read_text(&state.path).map_err(|e| Refusal::new("failed", e.to_string()))?;
        Ok(FileText {
            name: state.name.clone(),
            text: on_disk.0,
            digest: on_disk.1.to_string(),
        })
    }

    fn save(&self, text: &str, base_digest: &str) -> Result<Saved, Refusal> {
        let _one = self.acting();
        let theirs = self.file()?;
        if theirs.digest != base_digest {
            return Ok(Saved::Changed {
                theirs,
                says: Vec::new(),
            });
        }
        let reading = Reading::of(theirs.name.clone(), text);
        if !reading.faults.is_empty() {
            return Ok(Saved::Faults {
                faults: reading.faults.iter().map(fault).collect(),
            });
        }
        let before = {
            let mut state = self.state();
            // The text on disk is the base now, whatever stood in memory.
            state.digest = Digest::of(theirs.text.as_bytes());
            theirs.text
        };
        let step = Step {
            before,
            after: text.to_owned(),
            says: words::say(
                &words::Message::new("change-text").text("file", theirs.name),
                words::Language::English,
            )
            .map_err(|e| Refusal::new("failed", e.to_string()))?,
            effect: None,
        };
        let view = self.take(text.to_owned(), Some(step))?;
        let digest = self.state().digest.to_string();
        Ok(Saved::Taken {
            view: Box::new(view),
            digest,
        })
    }

    fn field(&self, ask: &FieldAsk) -> Result<Arc<FieldPicture>, Refusal> {
        let (assessed, token, kept) = {
            let state = self.state();
            let kept = state
                .picture
                .as_ref()
                .filter(|(t, a, _)| *t == state.token && a == ask)
                .map(|p| p.2.clone());
            (state.assessed.clone(), state.token, kept)
        };
        if let Some(picture) = kept {
            return Ok(picture);
        }
        let picture = Arc::new(picture::picture(
            &self.office,
            &assessed,
            ask,
            &token.to_string(),
        )?);
        self.state().picture = Some((token, ask.clone(), picture.clone()));
        Ok(picture)
    }

    fn masts(&self, ask: &MastAsk) -> Result<Arc<MastPicture>, Refusal> {
        let flag = Arc::new(AtomicBool::new(false));
        let (assessed, digest, token) = {
            let mut state = self.state();
            let digest = state.digest.to_string();
            let kept = state
                .masts
                .as_ref()
                .filter(|(of, a, _)| *of == digest && a == ask);
            if let Some((_, _, picture)) = kept {
                return Ok(picture.clone());
            }
            // A newer question makes the one before it moot.
            if let Some(older) = state.searching.replace(flag.clone()) {
                older.store(true, Ordering::Relaxed);
            }
            (state.assessed.clone(), digest, state.token.to_string())
        };
        let tell = self.events.clone();
        let progress = move |p: coverage::Progress| {
            let _ = tell.send(Event::Progress {
                what: masts::working(),
                share: p.done as f64 / p.total.max(1) as f64,
                left: p.left.and_then(|l| left(l.as_secs_f64())),
            });
        };
        let control = Control {
            progress: Some(&progress),
            cancel: Some(&flag),
        };
        let picture = masts::picture(&self.office, &assessed, ask, &token, &control);
        let mut state = self.state();
        if state.searching.as_ref().is_some_and(|f| Arc::ptr_eq(f, &flag)) {
            state.searching = None;
        }
        let picture = Arc::new(picture?);
        state.masts = Some((digest, ask.clone(), picture.clone()));
        Ok(picture)
    }

    fn probe(&self, ask: &ProbeAsk) -> Result<Probe, Refusal> {
        let assessed = self.state().assessed.clone();
        probe::probe(&self.office, &assessed, ask)
    }

    fn papers(&self) -> Result<Vec<Paper>, Refusal> {
        let folder = self.papers_folder();
        let assessed = self.state().assessed.clone();
        Ok(papers::names()
            .into_iter()
            .map(|(name, title, says)| paper(&folder, &assessed, name, title, says))
            .collect())
    }

    fn paper(&self, name: &str) -> Result<PaperFile, Refusal> {
        let known = papers::names();
        let known = known
            .iter()
            .find(|p| p.0 == name)
            .ok_or_else(|| Refusal::new("not-found", format!("There is no paper called {name}")))?;
        let bytes = std::fs::read(self.papers_folder().join(known.0))
            .map_err(|_| Refusal::new("not-found", "It has not been written yet: write the papers first"))?;
        Ok(PaperFile {
            media_type: media_type(known.0).into(),
            name: known.0.into(),
            bytes,
        })
    }

    fn write_papers(&self) -> Result<(), Refusal> {
        let assessed = self.weighed_now()?;
        let folder = self.papers_folder();
        papers::write(&self.office, &assessed, &folder).map_err(|e| Refusal::new("failed", e.to_string()))?;
        let stamp = folder.join(STAMP);
        std::fs::write(&stamp, &assessed.sheet.digest).map_err(|e| Refusal::new("failed", e.to_string()))?;
        let _ = self.events.send(Event::Papers);
        Ok(())
    }

    fn antennas(&self) -> Result<Vec<Antenna>, Refusal> {
        let assessed = self.state().assessed.clone();
        antenna::antennas(&self.office, &assessed, view::language(&assessed))
            .map_err(|e| Refusal::new("failed", e.to_string()))
    }

    fn handover(&self) -> Result<Handover, Refusal> {
        let assessed = self.state().assessed.clone();
        let case = self
            .office
            .case(&assessed.file, &assessed.document, &assessed.station);
        let over =
            assess::handover::hand_over(&case, &assessed.outcome, &assessed.assessment, &assessed.sheet)
                .map_err(|e| Refusal::new("failed", e.to_string()))?;
        Ok(Handover {
            rigging: over.rigging,
            acceptance: over.acceptance,
        })
    }

    fn offers(&self) -> Offers {
        self.offers_now()
    }

    fn work_out_offers(&self) -> Result<(), Refusal> {
        self.begin_offers()
    }

    fn choose_offer(&self, id: &str) -> Result<View, Refusal> {
        self.take_offer(id)
    }

    fn cancel(&self) {
        self.cancel.store(true, Ordering::Relaxed);
        if let Some(flag) = self.state().searching.take() {
            flag.store(true, Ordering::Relaxed);
        }
        let stopped = self.state().offers.working.take();
        if let Some(flag) = stopped {
            flag.store(true, Ordering::Relaxed);
            self.state().offers.why = Some(handles::words_of("offers-stopped"));
            let _ = self.events.send(Event::Offers);
        }
    }

    fn events(&self) -> broadcast::Receiver<Event> {
        self.events.subscribe()
    }
}

/// Time left, in words; nothing when it is about to end.
fn left(seconds: f64) -> Option<String> {
    (seconds >= 1.0)
        .then(|| words::Message::new("progress-left").text("seconds", format!("{:.0}", seconds.ceil())))
        .and_then(|m| words::say(&m, words::Language::English).ok())
}

/// File beside the papers that says which station they are of.
const STAMP: &str = ".of";

fn paper(folder: &Path, assessed: &Assessed, name: &str, title: &str, says: &str) -> Paper {
    let about = std::fs::metadata(folder.join(name)).ok();
    let of = std::fs::read_to_string(folder.join(STAMP)).unwrap_or_default();
    let state = match (&about, of == assessed.sheet.digest) {
        (None, _) => PaperState::Missing,
        (Some(_), true) => PaperState::Ready,
        (Some(_), false) => PaperState::Old,
    };
    Paper {
        name: name.into(),
        title: title.into(),
        says: says.into(),
        format: name.rsplit('.').next().unwrap_or_default().to_uppercase(),
        state,
        why: None,
        size: about.map(|a| format!("{} kB", a.len().div_ceil(1000))),
        written: None,
    }
}

fn media_type(name: &str) -> &'static str {
    match name.rsplit('.').next() {
        Some("pdf") => "application/pdf",
        Some("xlsx") => "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("tif") => "image/tiff",
        Some("geojson") => "application/geo+json",
        Some("kml") => "application/vnd.google-earth.kml+xml",
        Some("csv") => "text/csv",
        _ => "application/octet-stream",
    }
}

fn fault(fault: &folder::Fault) -> Fault {
    Fault {
        line: fault.line,
        column: fault.column,
        length: fault.text.chars().count().max(1),
        says: words::said(&fault.what, Language::English),
        help: fault.help.as_ref().map(|h| words::said(h, Language::English)),
    }
}
