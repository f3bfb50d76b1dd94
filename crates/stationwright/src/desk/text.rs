//! The station file as text: read, saved from the page, and looked at for another hand's changes.

use super::StationDesk;
use super::history::Whence;
use folder::{Digest, Reading};
use server::desk::{Event, Refusal};
use server::file::{Fault, FileText, Saved};
use std::path::Path;
use std::time::{Duration, SystemTime};
use words::{Language, Message, said};

/// How often the file is looked at for another hand's change.
const LOOK_EVERY: Duration = Duration::from_millis(700);

impl StationDesk {
    pub(super) fn text_on_disk(&self) -> Result<FileText, Refusal> {
        let (path, name) = {
            let state = self.state();
            (state.path.clone(), state.name.clone())
        };
        let on_disk = folder::reading::read_text(&path).map_err(|e| Refusal::new("failed", &e))?;
        Ok(FileText {
            name,
            text: on_disk.0,
            digest: on_disk.1.to_string(),
        })
    }

    pub(super) fn save_text(&self, text: &str, base_digest: &str) -> Result<Saved, Refusal> {
        let _one = self.acting();
        let theirs = self.text_on_disk()?;
        if theirs.digest != base_digest {
            return Ok(Saved::Changed {
                theirs,
                says: Vec::new(),
            });
        }
        let reading = Reading::of(theirs.name.clone(), text);
        let language = self.state().language();
        if !reading.faults.is_empty() {
            return Ok(Saved::Faults {
                faults: reading.faults.iter().map(|f| fault(f, language)).collect(),
            });
        }
        // The text on disk is the base now, whatever stood in memory.
        self.state().on_disk = Digest::of(theirs.text.as_bytes());
        let says = said(&Message::new("change-text").text("file", theirs.name), language);
        let view = self.step(theirs.text, text.to_owned(), says, Whence::Page)?;
        let digest = self.state().digest.to_string();
        Ok(Saved::Taken {
            view: Box::new(view),
            digest,
        })
    }

    /// Looks at the file from now on, as long as the desk stands, and takes in what another hand writes.
    pub fn watch_disk(&self) {
        let (desk, path) = (self.myself.clone(), self.state().path.clone());
        std::thread::spawn(move || {
            let (mut taken, mut last) = (stamp(&path), None);
            loop {
                std::thread::sleep(LOOK_EVERY);
                let Some(desk) = desk.upgrade() else { return };
                let now = stamp(&path);
                // Seen twice alike: no text that is half written.
                if now != taken && last == Some(now) {
                    taken = now;
                    desk.take_in();
                }
                last = Some(now);
            }
        });
    }

    /// Takes another hand's text as one change that can be undone. Where it has faults, or would drop what is not saved, the
    /// answer that stands stays and the page says so.
    pub fn take_in(&self) {
        let _one = self.acting();
        let theirs = self.text_on_disk().ok();
        let (ours, name, unsaved, language) = {
            let mut state = self.state();
            if theirs
                .as_ref()
                .is_some_and(|t| t.digest == state.on_disk.to_string())
            {
                if state.outside.take().is_some() {
                    let says = state.name.clone();
                    state.token += 1;
                    let _ = self.events.send(Event::ChangedOutside { says });
                }
                return;
            }
            let unsaved = state.not_saved.is_some();
            (state.text.clone(), state.name.clone(), unsaved, state.language())
        };
        let about = |code| Message::new(code).text("file", name.clone());
        let why = match theirs {
            None => about("desk-file-gone"),
            Some(_) if unsaved => about("desk-file-beside-unsaved"),
            Some(theirs) => {
                let says = said(&about("desk-file-by-another"), language);
                match self.step(ours, theirs.text.clone(), says.clone(), Whence::Disk) {
                    Ok(_) => {
                        let _ = self.events.send(Event::ChangedOutside { says });
                        return;
                    }
                    Err(_) => {
                        let faults = Reading::of(name.clone(), theirs.text.as_str()).faults;
                        about("desk-file-faulty").count("count", faults.len() as i64)
                    }
                }
            }
        };
        let says = said(&why, language);
        {
            let mut state = self.state();
            state.outside = Some(says.clone());
            state.token += 1;
        }
        let _ = self.events.send(Event::ChangedOutside { says });
    }
}

/// What tells a change of a file without reading it.
fn stamp(path: &Path) -> Option<(SystemTime, u64)> {
    let about = std::fs::metadata(path).ok()?;
    Some((about.modified().ok()?, about.len()))
}

fn fault(fault: &folder::Fault, language: Language) -> Fault {
    Fault {
        line: fault.line,
        column: fault.column,
        length: fault.text.chars().count().max(1),
        says: said(&fault.what, language),
        help: fault.help.as_ref().map(|help| said(help, language)),
    }
}
