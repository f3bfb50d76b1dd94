//! The desk a station lies on: what the page asks, answered from the office.

mod antenna;
mod behind;
mod changes;
mod choosing;
mod hand;
mod handles;
mod history;
mod link;
mod masts;
mod offers;
mod openings;
pub(crate) mod papers;
pub(crate) mod picture;
mod probe;
mod studio;
mod text;
mod view;

use crate::office::{Assessed, Office, OfficeError};
use coverage::Control;
use folder::{Digest, StationFile};
use hand::Hand;
use history::Step;
use server::antenna::Antenna;
use server::desk::{Desk, Event, Refusal};
use server::file::{FileText, Saved};
use server::handover::Handover;
use server::map::{FieldAsk, FieldPicture};
use server::masts::{MastAsk, MastPicture};
use server::offers::Offers;
use server::paper::{Paper, PaperFile};
use server::probe::{Probe, ProbeAsk};
use server::view::{Change, FileCondition, FileState, View};
use station::{Edit, Node};
use std::path::PathBuf;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, Weak};
use tokio::sync::broadcast;
use words::{Language, Message, WordsError};

/// One station on the desk.
pub struct StationDesk {
    office: Office,
    state: Mutex<State>,
    /// Held by whatever changes the station, so that a quick second act begins from the first one's text.
    acting: Mutex<()>,
    hand: Hand,
    events: broadcast::Sender<Event>,
    /// When this sitting began: tokens of another sitting are not mistaken for this one's.
    sitting: u64,
    myself: Weak<StationDesk>,
}

struct State {
    path: PathBuf,
    name: String,
    text: String,
    digest: Digest,
    /// Of the text that was on disk when it was last looked at.
    on_disk: Digest,
    assessed: Arc<Assessed>,
    /// The whole answer that stood before the last change; none when that change came upon a draft.
    before: Option<Arc<Assessed>>,
    draft: bool,
    /// What the remedies would change is known.
    weighed: bool,
    token: u64,
    /// Changes whenever figures do; weighing remedies changes none.
    figures: u64,
    undo: Vec<Step>,
    redo: Vec<Step>,
    not_saved: Option<String>,
    /// What another hand did to the file that could not be taken in.
    outside: Option<String>,
    /// The flag that stops what goes on behind this answer.
    behind: Arc<AtomicBool>,
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

/// A message without arguments.
fn words_of(code: &'static str, language: Language) -> String {
    words::said(&Message::new(code), language)
}

/// A sentence that is missing: a fault of ours.
fn no_words(error: &WordsError) -> Refusal {
    Refusal::new(
        "failed",
        Message::new("office-no-words").text("why", error.to_string()),
    )
}

fn refuse(error: &OfficeError) -> Refusal {
    match error {
        OfficeError::Faults(faults) => {
            let first = faults.first();
            let says = first.map_or_else(|| error.into(), |f| f.what.clone());
            let refusal = Refusal::new("edit-refused", says);
            match first.map(|f| f.path.clone()).filter(|p| !p.is_empty()) {
                Some(path) => refusal.at(path),
                None => refusal,
            }
        }
        OfficeError::Cancelled => Refusal::new("not-ready", Message::new("desk-stopped")),
        other => Refusal::new("failed", other),
    }
}

impl State {
    /// The language of the station as it stands.
    fn language(&self) -> Language {
        view::language(&self.assessed)
    }
}

impl StationDesk {
    /// Lays an assessed station on the desk, and begins to compute the heights beside it.
    pub fn new(file: StationFile, office: Office, assessed: Assessed) -> Arc<StationDesk> {
        let text = file.reading.source.text().to_string();
        let name = file.reading.source.name().to_owned();
        let (events, _) = broadcast::channel(64);
        let behind = Arc::new(AtomicBool::new(false));
        let desk = Arc::new_cyclic(|myself| StationDesk {
            office,
            events,
            sitting: std::time::UNIX_EPOCH
                .elapsed()
                .map_or(0, |since| since.as_millis() as u64),
            myself: myself.clone(),
            acting: Mutex::new(()),
            hand: Hand::new(),
            state: Mutex::new(State {
                path: file.path,
                name,
                text,
                digest: file.digest,
                on_disk: file.digest,
                assessed: Arc::new(assessed),
                before: None,
                draft: false,
                weighed: true,
                token: 1,
                figures: 1,
                undo: Vec::new(),
                redo: Vec::new(),
                not_saved: None,
                outside: None,
                behind: behind.clone(),
                picture: None,
                masts: None,
                searching: None,
                offers: OfferBook::default(),
            }),
        });
        desk.clone().ahead(behind);
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

    fn named(&self, token: u64) -> String {
        format!("{:x}-{token}", self.sitting)
    }

    fn shown(&self, state: &State, assessed: &Assessed, draft: bool) -> View {
        let condition = match (&state.not_saved, &state.outside) {
            (_, Some(_)) => FileCondition::ChangedOutside,
            (Some(_), None) => FileCondition::NotSaved,
            (None, None) => FileCondition::Saved,
        };
        let mut view = view::view(&self.office, assessed);
        view.token = self.named(state.token) + if draft { "-draft" } else { "" };
        view.draft = draft;
        view.file = FileState {
            name: state.name.clone(),
            digest: state.digest.to_string(),
            condition,
            why: state.outside.clone().or_else(|| state.not_saved.clone()),
        };
        view.last = state.undo.last().map(|s| s.told(false));
        view.can_undo = !state.undo.is_empty();
        view.can_redo = !state.redo.is_empty();
        view
    }

    /// The station of a document by the fast models.
    fn drafted(&self, document: &Node, digest: &str) -> Result<Assessed, Refusal> {
        let drafted = self.hand.done(|| self.office.draft(document, digest));
        drafted.map(|(assessed, _)| assessed).map_err(|e| refuse(&e))
    }

    fn papers_folder(&self) -> PathBuf {
        self.office.folder.join("papers")
    }
}

impl Desk for StationDesk {
    fn language(&self) -> Language {
        self.state().language()
    }

    fn view(&self) -> Result<View, Refusal> {
        let state = self.state();
        let assessed = state.assessed.clone();
        Ok(self.shown(&state, &assessed, state.draft))
    }

    fn apply(&self, edits: &[Edit]) -> Result<View, Refusal> {
        self.apply_edits(edits)
    }

    fn draft(&self, edits: &[Edit]) -> Result<View, Refusal> {
        let echo = self.hand.echo(|| {
            let (mut file, digest) = {
                let state = self.state();
                (state.assessed.file.clone(), state.digest.to_string())
            };
            for edit in edits {
                edit.apply(&mut file)
                    .map_err(|e| Refusal::new("edit-refused", &e).at(edit.path.clone()))?;
            }
            let (drafted, _) = self.office.draft(&file, &digest).map_err(|e| refuse(&e))?;
            let state = self.state();
            Ok(self.shown(&state, &drafted, true))
        });
        echo.unwrap_or_else(|| Err(Refusal::new("moot", Message::new("desk-moot"))))
    }

    fn undo(&self) -> Result<View, Refusal> {
        self.take_back()
    }

    fn redo(&self) -> Result<View, Refusal> {
        self.do_again()
    }

    fn history(&self) -> Vec<Change> {
        self.changes_told()
    }

    fn file(&self) -> Result<FileText, Refusal> {
        self.text_on_disk()
    }

    fn save(&self, text: &str, base_digest: &str) -> Result<Saved, Refusal> {
        self.save_text(text, base_digest)
    }

    fn field(&self, ask: &FieldAsk) -> Result<Arc<FieldPicture>, Refusal> {
        let (assessed, figures, kept) = {
            let state = self.state();
            let kept = state
                .picture
                .as_ref()
                .filter(|(of, a, _)| *of == state.figures && a == ask)
                .map(|p| p.2.clone());
            (state.assessed.clone(), state.figures, kept)
        };
        if let Some(picture) = kept {
            return Ok(picture);
        }
        let picture = Arc::new(picture::picture(
            &self.office,
            &assessed,
            ask,
            &self.named(figures),
        )?);
        self.state().picture = Some((figures, ask.clone(), picture.clone()));
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
            (state.assessed.clone(), digest, self.named(state.figures))
        };
        let progress = |p: coverage::Progress| {
            self.hand.let_by();
            self.tell_progress("masts-working", p);
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
        let assessed = self.state().assessed.clone();
        Ok(papers::listed(&self.papers_folder(), &assessed))
    }

    fn paper(&self, name: &str) -> Result<PaperFile, Refusal> {
        papers::one(&self.papers_folder(), name)
    }

    fn write_papers(&self) -> Result<(), Refusal> {
        let assessed = self.weighed_now()?;
        papers::write_all(&self.office, &assessed, &self.papers_folder())?;
        let _ = self.events.send(Event::Papers);
        Ok(())
    }

    fn antennas(&self) -> Result<Vec<Antenna>, Refusal> {
        let assessed = self.state().assessed.clone();
        antenna::antennas(&self.office, &assessed, view::language(&assessed)).map_err(|e| no_words(&e))
    }

    fn link(&self) -> Result<Vec<server::link::Hop>, Refusal> {
        let assessed = self.state().assessed.clone();
        link::hops(&assessed).map_err(|e| no_words(&e))
    }

    fn studio(&self) -> Result<server::studio::Studio, Refusal> {
        let assessed = self.state().assessed.clone();
        studio::studio(&self.office, &assessed).map_err(|e| no_words(&e))
    }

    fn handover(&self) -> Result<Handover, Refusal> {
        let assessed = self.state().assessed.clone();
        let case = self
            .office
            .case(&assessed.file, &assessed.document, &assessed.station);
        let over =
            assess::handover::hand_over(&case, &assessed.outcome, &assessed.assessment, &assessed.sheet)
                .map_err(|e| no_words(&e))?;
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
        self.stop_all();
    }

    fn events(&self) -> broadcast::Receiver<Event> {
        self.events.subscribe()
    }
}

/// Time left, in words; nothing when it is about to end.
fn left(seconds: f64, language: Language) -> Option<String> {
    (seconds >= 1.0)
        .then(|| words::Message::new("progress-left").text("seconds", format!("{:.0}", seconds.ceil())))
        .map(|m| words::said(&m, language))
}
