//! Work behind the page: the whole answer after a draft, its remedies weighed, the heights a hand may choose next.
//!
//! What was begun for an older text is stopped by a newer one, and all of it waits while a hand moves.

use super::{State, StationDesk, handles, left, refuse, view, words_of};
use crate::office::{Assessed, OfficeError};
use coverage::Control;
use server::desk::{Event, Refusal};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use words::Message;

impl State {
    /// Stops what goes on behind an older text; the flag of what is begun now.
    pub fn begin_behind(&mut self) -> Arc<AtomicBool> {
        let flag = Arc::new(AtomicBool::new(false));
        std::mem::replace(&mut self.behind, flag.clone()).store(true, Ordering::Relaxed);
        flag
    }
}

impl StationDesk {
    /// Computes the fields of the heights a hand can choose, in the background.
    pub(super) fn ahead(self: Arc<Self>, stop: Arc<AtomicBool>) {
        std::thread::spawn(move || {
            let assessed = self.state().assessed.clone();
            let wait = |_: coverage::Progress| self.hand.let_by();
            let control = Control {
                progress: Some(&wait),
                cancel: Some(&stop),
            };
            for edits in handles::heights_ahead(&assessed) {
                let mut file = assessed.file.clone();
                let fits = edits.iter().all(|e| e.apply(&mut file).is_ok());
                if fits && self.office.prepare(&file, &control).is_err() {
                    return;
                }
            }
        });
    }

    /// Assesses the station whole behind the draft; a newer change makes it moot.
    pub(super) fn whole(&self, token: u64, stop: Arc<AtomicBool>) {
        let Some(desk) = self.myself.upgrade() else { return };
        std::thread::spawn(move || {
            let (file, digest) = {
                let state = desk.state();
                (state.assessed.file.clone(), state.digest.to_string())
            };
            let progress = |p: coverage::Progress| {
                desk.hand.let_by();
                if !stop.load(Ordering::Relaxed) {
                    desk.tell_progress("working-field", p);
                }
            };
            let control = Control {
                progress: Some(&progress),
                cancel: Some(&stop),
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
                    state.figures += 1;
                    let token = state.token;
                    let _ = desk.events.send(Event::Done {
                        token: desk.named(token),
                    });
                    drop(state);
                    desk.weigh(token, &stop);
                    desk.clone().ahead(stop.clone());
                }
                Err(OfficeError::Cancelled) => {
                    // Stopped by a newer change, nobody is told: its own answer comes.
                    let state = desk.state();
                    if state.token == token {
                        let says = words_of("desk-stopped", state.language());
                        let _ = desk.events.send(Event::Failed { says });
                    }
                }
                Err(error) => {
                    let says = words::said(&Message::from(&error), desk.state().language());
                    let _ = desk.events.send(Event::Failed { says });
                }
            }
        });
    }

    /// Weighs the remedies of the answer that stands, and tells; a newer change makes it moot.
    ///
    /// Every figure and finding is final before it: many evaluations would hold them back for seconds.
    fn weigh(&self, token: u64, stop: &AtomicBool) {
        let wait = |_: coverage::Progress| self.hand.let_by();
        let control = Control {
            progress: Some(&wait),
            cancel: Some(stop),
        };
        let assessed = self.state().assessed.clone();
        let Ok(weighed) = self.office.weighed((*assessed).clone(), &control) else {
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
            token: self.named(state.token),
        });
    }

    /// The whole answer, weighed: what papers are made of. A draft is answered in full first.
    pub(super) fn weighed_now(&self) -> Result<Arc<Assessed>, Refusal> {
        let (assessed, digest, draft, weighed) = {
            let state = self.state();
            let digest = state.digest.to_string();
            (state.assessed.clone(), digest, state.draft, state.weighed)
        };
        if !draft && weighed {
            return Ok(assessed);
        }
        let quiet = Control::quiet();
        let answer = match draft {
            true => self
                .office
                .answer(&assessed.file, &digest, &quiet)
                .map_err(|e| refuse(&e))?,
            false => (*assessed).clone(),
        };
        let weighed = self.office.weighed(answer, &quiet);
        weighed.map(Arc::new).map_err(|e| refuse(&e))
    }

    /// Tells the page how far longer work is.
    pub(super) fn tell_progress(&self, what: &'static str, p: coverage::Progress) {
        let language = self.state().language();
        let _ = self.events.send(Event::Progress {
            what: words_of(what, language),
            share: p.done as f64 / p.total.max(1) as f64,
            left: p.left.and_then(|l| left(l.as_secs_f64(), language)),
        });
    }

    /// Stops every longer work; what stood still stands.
    pub(super) fn stop_all(&self) {
        let (searching, working) = {
            let mut state = self.state();
            state.behind.store(true, Ordering::Relaxed);
            (state.searching.take(), state.offers.working.take())
        };
        if let Some(flag) = searching {
            flag.store(true, Ordering::Relaxed);
        }
        if let Some(flag) = working {
            flag.store(true, Ordering::Relaxed);
            let mut state = self.state();
            state.offers.why = Some(words_of("offers-stopped", state.language()));
            let _ = self.events.send(Event::Offers);
        }
    }
}
