//! Changes of the station: taken as one step each, taken back, done again.

use super::{State, StationDesk, changes, no_words, refuse, view};
use crate::office::OfficeError;
use folder::{Digest, Expected, Reading, SaveError, edit_text, save};
use server::desk::{Event, Refusal};
use server::view::{Change, View};
use station::Edit;
use std::sync::Arc;
use words::Message;

/// Changes that can be taken back.
const MOST_CHANGES: usize = 200;

/// One change: the text before and after, and what it says.
#[derive(Clone)]
pub(super) struct Step {
    /// The whole text before it.
    pub before: String,
    /// The whole text after it.
    pub after: String,
    /// What was changed.
    pub says: String,
    /// What that did.
    pub effect: Option<String>,
}

impl Step {
    /// What the page shows of it.
    pub fn told(&self, undone: bool) -> Change {
        Change {
            says: self.says.clone(),
            effect: self.effect.clone(),
            at: None,
            undone,
        }
    }
}

/// Which way a text that is taken moves through the changes.
enum Turn {
    /// One step that nobody took before: what had been taken back is gone.
    New(Step),
    /// The last step is taken back.
    Back,
    /// The step taken back last is done again.
    Again,
}

impl State {
    /// Moves through the changes; an effect still being worked out stays with the step it is the effect of.
    fn turn(&mut self, turn: Turn) {
        match turn {
            Turn::New(step) => {
                self.redo.clear();
                self.undo.push(step);
            }
            Turn::Back => self.redo.extend(self.undo.pop()),
            Turn::Again => self.undo.extend(self.redo.pop()),
        }
        if self.undo.len() > MOST_CHANGES {
            self.undo.remove(0);
        }
    }
}

/// Where a text that is taken comes from.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Whence {
    /// The page: it is to be written to disk.
    Page,
    /// The disk: another hand has written it.
    Disk,
}

impl StationDesk {
    /// Takes a text as the station now: on disk, in memory, drafted at once and assessed whole behind.
    fn take(&self, text: String, turn: Turn, from: Whence) -> Result<View, Refusal> {
        let reading = Reading::of(self.state().name.clone(), text.as_str());
        if !reading.faults.is_empty() {
            return Err(refuse(&OfficeError::Faults(reading.faults)));
        }
        let digest = Digest::of(text.as_bytes());
        let drafted = self.drafted(&reading.document, &digest.to_string())?;
        let mut state = self.state();
        if from == Whence::Disk {
            state.on_disk = digest;
        } else {
            let saved = match save(&state.path, text.as_bytes(), Expected::Is(state.on_disk)) {
                // Gone from the disk: nothing of another hand's is lost by writing it again.
                Err(SaveError::Changed { theirs: None, .. }) => {
                    save(&state.path, text.as_bytes(), Expected::Absent)
                }
                saved => saved,
            };
            match saved {
                Ok(_) => {
                    state.not_saved = None;
                    state.on_disk = digest;
                }
                Err(SaveError::Changed { .. }) => {
                    return Err(Refusal::new("changed", Message::new("desk-changed-meanwhile")));
                }
                // The change stands in memory, and the page says that it is not on disk.
                Err(error) => {
                    state.not_saved = Some(words::said(&Message::from(&error), view::language(&drafted)));
                }
            }
        }
        state.outside = None;
        // A draft is no measure of a change: its antenna is the fast model. The effect follows with the whole answer.
        let measured = !state.draft && !matches!(turn, Turn::Back);
        state.before = measured.then(|| state.assessed.clone());
        state.turn(turn);
        state.text = text;
        state.digest = digest;
        state.assessed = Arc::new(drafted);
        state.draft = true;
        state.token += 1;
        state.figures += 1;
        let token = state.token;
        let stop = state.begin_behind();
        let assessed = state.assessed.clone();
        let view = self.shown(&state, &assessed, true);
        let _ = self.events.send(Event::Changed {
            token: view.token.clone(),
        });
        drop(state);
        self.whole(token, stop);
        Ok(view)
    }

    /// Takes one step that nobody took before.
    pub(super) fn step(
        &self,
        before: String,
        after: String,
        says: String,
        from: Whence,
    ) -> Result<View, Refusal> {
        let step = Step {
            before,
            after: after.clone(),
            says,
            effect: None,
        };
        self.take(after, Turn::New(step), from)
    }

    pub(super) fn apply_edits(&self, edits: &[Edit]) -> Result<View, Refusal> {
        let _one = self.acting();
        let (before, says) = {
            let state = self.state();
            let language = view::language(&state.assessed);
            let says = changes::says(&self.office, &state.assessed.file, edits, language)
                .map_err(|e| no_words(&e))?;
            (state.text.clone(), says)
        };
        let after = edit_text(&before, edits).map_err(|e| Refusal::new("edit-refused", &e))?;
        self.step(before, after, says, Whence::Page)
    }

    pub(super) fn take_back(&self) -> Result<View, Refusal> {
        let _one = self.acting();
        let before = self.state().undo.last().map(|step| step.before.clone());
        let nothing = || Refusal::new("not-found", Message::new("desk-nothing-to-undo"));
        self.take(before.ok_or_else(nothing)?, Turn::Back, Whence::Page)
    }

    pub(super) fn do_again(&self) -> Result<View, Refusal> {
        let _one = self.acting();
        let after = self.state().redo.last().map(|step| step.after.clone());
        let nothing = || Refusal::new("not-found", Message::new("desk-nothing-to-redo"));
        self.take(after.ok_or_else(nothing)?, Turn::Again, Whence::Page)
    }

    pub(super) fn changes_told(&self) -> Vec<Change> {
        let state = self.state();
        let undone = state.redo.iter().map(|s| s.told(true));
        undone
            .chain(state.undo.iter().rev().map(|s| s.told(false)))
            .collect()
    }
}
