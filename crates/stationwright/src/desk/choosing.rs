//! Offers on the desk: worked out behind the page, told as they stand, one of them taken as a step.

use super::history::Whence;
use super::offers::{self, present};
use super::{StationDesk, left, words_of};
use coverage::Control;
use server::desk::{Event, Refusal};
use server::offers::{Offers, OffersState};
use server::view::View;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::time::Instant;
use words::{Message, said};

impl StationDesk {
    /// The offers as they stand.
    pub(super) fn offers_now(&self) -> Offers {
        let state = self.state();
        let worked = state.offers.worked.as_deref();
        let of_this = worked.is_some_and(|w| w.is_of(&state.text));
        let (at, why) = match (&state.offers.working, worked) {
            (Some(_), _) => (OffersState::Working, None),
            (None, None) => (OffersState::None, state.offers.why.clone()),
            (None, Some(_)) if of_this => (OffersState::Ready, state.offers.why.clone()),
            (None, Some(_)) => (OffersState::Old, Some(words_of("offers-old", state.language()))),
        };
        let answer = worked.map(|w| {
            let mut answer = w.answer.clone();
            let now = w.in_force(&state.text);
            for offer in &mut answer.offers {
                offer.in_force = now == Some(offer.id.as_str());
                offer.can_choose &= of_this && !offer.in_force;
            }
            answer
        });
        let in_force = worked.is_some_and(|w| w.in_force(&state.text).is_some());
        Offers {
            state: at,
            why,
            answer,
            present: (!in_force).then(|| present(&state.assessed)),
        }
    }

    /// Begins to work them out, behind the page.
    pub(super) fn begin_offers(&self) -> Result<(), Refusal> {
        let flag = Arc::new(AtomicBool::new(false));
        {
            let mut state = self.state();
            if state.offers.working.is_some() {
                return Ok(());
            }
            state.offers.working = Some(flag.clone());
            state.offers.why = None;
        }
        if let Some(desk) = self.myself.upgrade() {
            desk.plan(flag);
        }
        Ok(())
    }

    /// Takes one of them: one step, undoable.
    pub(super) fn take_offer(&self, id: &str) -> Result<View, Refusal> {
        let _one = self.acting();
        let gone = || Refusal::new("changed", Message::new("offers-gone"));
        let (before, after, says) = {
            let state = self.state();
            let worked = state.offers.worked.as_deref().filter(|w| w.is_of(&state.text));
            let worked = worked.ok_or_else(gone)?;
            let (_, text) = worked.texts.iter().find(|(i, _)| i == id).ok_or_else(gone)?;
            let offer = worked
                .answer
                .offers
                .iter()
                .find(|o| o.id == id)
                .ok_or_else(gone)?;
            let message = Message::new("offers-taken")
                .text("letter", offer.letter.clone())
                .text("title", offer.title.clone());
            let says = said(&message, state.language());
            (state.text.clone(), text.clone(), says)
        };
        self.step(before, after, says, Whence::Page)
    }

    /// Works designs out in the background; the answer of work that was stopped is dropped.
    fn plan(self: Arc<Self>, flag: Arc<AtomicBool>) {
        std::thread::spawn(move || {
            let (text, file, language) = {
                let state = self.state();
                (state.text.clone(), state.assessed.file.clone(), state.language())
            };
            let begun = Instant::now();
            let furthest = Mutex::new(0.0_f64);
            let step = |share: f64| {
                let mut furthest = furthest.lock().unwrap_or_else(|poisoned| poisoned.into_inner());
                if share < *furthest || flag.load(Ordering::Relaxed) {
                    return;
                }
                *furthest = share;
                let pace = begun.elapsed().as_secs_f64() / share.max(1e-6);
                let _ = self.events.send(Event::Progress {
                    what: words_of("offers-working", language),
                    share,
                    left: (share > 0.1)
                        .then_some(pace * (1.0 - share))
                        .and_then(|seconds| left(seconds, language)),
                });
            };
            step(0.0);
            let progress = |p: coverage::Progress| {
                if p.total > 0 {
                    step(offers::PLANNING_SHARE * p.done as f64 / p.total as f64);
                }
            };
            let control = Control {
                progress: Some(&progress),
                cancel: Some(&flag),
            };
            let worked = offers::work_out(&self.office, &text, &file, &control, &step);
            let mut state = self.state();
            let mine = state
                .offers
                .working
                .as_ref()
                .is_some_and(|f| Arc::ptr_eq(f, &flag));
            if !mine {
                return;
            }
            state.offers.working = None;
            match worked {
                Ok(worked) => {
                    state.offers.worked = Some(Arc::new(worked));
                    state.offers.why = None;
                }
                Err(error) => state.offers.why = Some(said(&Message::from(&error), language)),
            }
            drop(state);
            let _ = self.events.send(Event::Offers);
        });
    }
}
