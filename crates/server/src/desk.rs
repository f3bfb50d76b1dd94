//! What the page needs from the program behind it.

use crate::antenna::Antenna;
use crate::file::{FileText, Saved};
use crate::handover::Handover;
use crate::link::Hop;
use crate::map::{FieldAsk, FieldPicture};
use crate::masts::{MastAsk, MastPicture};
use crate::offers::Offers;
use crate::paper::{Paper, PaperFile};
use crate::probe::{Probe, ProbeAsk};
use crate::studio::Studio;
use crate::view::{Change, View};
use serde::{Deserialize, Serialize};
use station::Edit;
use std::sync::Arc;
use utoipa::ToSchema;
use words::{Language, Message};

/// The desk a station lies on: whoever holds the folder, assesses, and writes the papers.
///
/// Methods may take as long as they need; they are called off the threads that answer requests. Every number comes from here:
/// the layer above only carries it.
pub trait Desk: Send + Sync + 'static {
    /// The language of the station as it stands: what the desk says is said in it, refusals of the door included.
    fn language(&self) -> Language;

    /// The station as it stands. May answer with the last whole view, marked draft, while newer work goes on.
    ///
    /// # Errors
    /// When the folder cannot be read, with the reason in words.
    fn view(&self) -> Result<View, Refusal>;

    /// Applies edits to the model and to the file, as one change that can be undone.
    ///
    /// Answers at once with what is known at once (`draft`); the whole answer is announced by [`Event::Done`].
    ///
    /// # Errors
    /// When an edit does not fit the file, names the path.
    fn apply(&self, edits: &[Edit]) -> Result<View, Refusal>;

    /// What edits would give, without keeping them: the echo of a slider. Within 100 ms; later calls make earlier ones moot.
    ///
    /// # Errors
    /// As [`Desk::apply`].
    fn draft(&self, edits: &[Edit]) -> Result<View, Refusal>;

    /// Takes the last change back.
    ///
    /// # Errors
    /// When there is nothing to take back.
    fn undo(&self) -> Result<View, Refusal>;

    /// Does the last change taken back again.
    ///
    /// # Errors
    /// When there is nothing to do again.
    fn redo(&self) -> Result<View, Refusal>;

    /// Every change of this sitting, newest first.
    fn history(&self) -> Vec<Change>;

    /// The text of the station file as it stands on disk.
    ///
    /// # Errors
    /// When it cannot be read.
    fn file(&self) -> Result<FileText, Refusal>;

    /// Writes a whole text, unless the file on disk is no longer the one it was begun from.
    ///
    /// # Errors
    /// When it cannot be written; faults of the text and a changed file are answers, not errors.
    fn save(&self, text: &str, base_digest: &str) -> Result<Saved, Refusal>;

    /// The field over the ground, for the way it is asked to be heard.
    ///
    /// # Errors
    /// When nothing radiates, or the field is still being computed and there is no older one.
    fn field(&self, ask: &FieldAsk) -> Result<Arc<FieldPicture>, Refusal>;

    /// Where the mast should stand: the best hills for the places to be served, and people served from every cell. Takes
    /// seconds; progress comes as events, [`Desk::cancel`] stops it.
    ///
    /// # Errors
    /// When the question lacks something or names what is not there, in words.
    fn masts(&self, ask: &MastAsk) -> Result<Arc<MastPicture>, Refusal>;

    /// The field at one place with each loss term, and the path to it.
    ///
    /// # Errors
    /// When the place is off the ground or not found.
    fn probe(&self, ask: &ProbeAsk) -> Result<Probe, Refusal>;

    /// The papers of the station and their state.
    ///
    /// # Errors
    /// When the folder cannot be read.
    fn papers(&self) -> Result<Vec<Paper>, Refusal>;

    /// One paper, by name.
    ///
    /// # Errors
    /// When there is no such paper, or it has not been written.
    fn paper(&self, name: &str) -> Result<PaperFile, Refusal>;

    /// Writes all papers anew; progress and end come as events.
    ///
    /// # Errors
    /// When they cannot be written now.
    fn write_papers(&self) -> Result<(), Refusal>;

    /// Every antenna as it radiates and is fed, of the station as it stands.
    ///
    /// # Errors
    /// When a sentence is missing: a fault of the program.
    fn antennas(&self) -> Result<Vec<Antenna>, Refusal>;

    /// The programme's way to the transmitter, hop by hop, of the station as it stands.
    ///
    /// # Errors
    /// When a sentence is missing: a fault of the program.
    fn link(&self) -> Result<Vec<Hop>, Refusal>;

    /// The studio's signals, of the station as it stands.
    ///
    /// # Errors
    /// When a sentence is missing: a fault of the program.
    fn studio(&self) -> Result<Studio, Refusal>;

    /// What is handed over: rigging and acceptance, of the station as it stands.
    ///
    /// # Errors
    /// When a sentence is missing: a fault of the program.
    fn handover(&self) -> Result<Handover, Refusal>;

    /// The designs worked out for the brief, and whether they still fit the station.
    fn offers(&self) -> Offers;

    /// Begins to work out designs for the brief; progress and end come as events. Work that is going on goes on.
    ///
    /// # Errors
    /// When the station cannot be planned as it stands.
    fn work_out_offers(&self) -> Result<(), Refusal>;

    /// Makes the station one of the designs worked out, as one change that can be undone.
    ///
    /// # Errors
    /// When there is no such design, or the station was changed since.
    fn choose_offer(&self, id: &str) -> Result<View, Refusal>;

    /// Stops the longer work that is going on; the last whole answer stays.
    fn cancel(&self);

    /// What happens from now on.
    fn events(&self) -> tokio::sync::broadcast::Receiver<Event>;
}

/// Why something was not done. It becomes a sentence at the door, in the desk's language.
#[derive(Debug, Clone, PartialEq)]
pub struct Refusal {
    /// Stable code in kebab-case, such as `edit-refused`, `not-found`, `changed`, `not-ready`, `failed`.
    pub code: String,
    /// What would have been accepted.
    pub says: Message,
    /// The path in the station file it is about.
    pub path: Option<String>,
}

/// Why something was not done, for the person who asked.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, ToSchema)]
#[schema(as = Refusal)]
pub struct SaidRefusal {
    /// Stable code in kebab-case, such as `edit-refused`, `not-found`, `changed`, `not-ready`, `failed`.
    pub code: String,
    /// What would have been accepted, in one sentence.
    pub says: String,
    /// The path in the station file it is about.
    pub path: Option<String>,
}

impl Refusal {
    /// A refusal with a code and a sentence.
    pub fn new(code: impl Into<String>, says: impl Into<Message>) -> Refusal {
        Refusal {
            code: code.into(),
            says: says.into(),
            path: None,
        }
    }

    /// The refusal in words.
    pub fn said(self, language: Language) -> SaidRefusal {
        SaidRefusal {
            code: self.code,
            says: words::said(&self.says, language),
            path: self.path,
        }
    }

    /// Names the path it is about.
    pub fn at(mut self, path: impl Into<String>) -> Refusal {
        self.path = Some(path.into());
        self
    }
}

/// What the page is told without asking.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, ToSchema)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Event {
    /// Longer work goes on.
    Progress {
        /// What is being done.
        what: String,
        /// Share done, 0 to 1.
        share: f64,
        /// What is left, in words, such as `4 s left`.
        left: Option<String>,
    },
    /// The station was changed: a draft of it stands, the whole answer follows.
    Changed {
        /// Token of the view that is a draft now.
        token: String,
    },
    /// A whole answer stands; the page asks for the view again.
    Done {
        /// Token of the view that is whole now.
        token: String,
    },
    /// The file was changed by another hand.
    ChangedOutside {
        /// What differs, in words.
        says: String,
    },
    /// The papers were written.
    Papers,
    /// The offers stand, or their work was stopped.
    Offers,
    /// Longer work failed; what stood still stands.
    Failed {
        /// What failed and what still stands.
        says: String,
    },
}
