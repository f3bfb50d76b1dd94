//! Long work on a terminal: a bar with the time left, and Ctrl-C stops it cleanly.

use crate::language::told;
use coverage::{Control, Progress};
use indicatif::{ProgressBar, ProgressStyle};
use std::io::IsTerminal;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;
use words::Message;

/// Work that has not stopped this long after Ctrl-C is ended with the process: a step that looks at no flag, such as one antenna's
/// matrix, may take a second. Whatever it would have written is whole or not there.
const GRACE: Duration = Duration::from_millis(80);

/// A bar where somebody looks.
pub fn bar() -> Option<ProgressBar> {
    std::io::stderr().is_terminal().then(|| {
        let bar = ProgressBar::new(0);
        if let Ok(style) = ProgressStyle::with_template("{wide_bar} {percent} % {msg}") {
            bar.set_style(style);
        }
        bar
    })
}

/// Shows how far work is, and what is left.
pub fn show(bar: Option<&ProgressBar>, p: Progress) {
    if let Some(bar) = bar {
        bar.set_length(p.total);
        bar.set_position(p.done);
        bar.set_message(
            p.left
                .map_or(String::new(), |left| format!("{} s", left.as_secs())),
        );
    }
}

/// Work that is watched.
pub struct Watched {
    bar: Option<ProgressBar>,
    flags: Arc<Flags>,
}

#[derive(Default)]
struct Flags {
    stop: AtomicBool,
    working: AtomicBool,
}

impl Watched {
    /// Begins to listen for Ctrl-C; shows a bar where somebody looks.
    pub fn begin() -> Watched {
        let bar = bar();
        let flags = Arc::new(Flags::default());
        listen(flags.clone(), bar.clone());
        Watched { bar, flags }
    }

    /// Does the work and takes the bar away.
    pub fn work<T>(&self, work: impl FnOnce(&Control<'_>) -> T) -> T {
        let show = |p: Progress| show(self.bar.as_ref(), p);
        let control = Control {
            progress: Some(&show),
            cancel: Some(&self.flags.stop),
        };
        self.flags.working.store(true, Ordering::SeqCst);
        let out = work(&control);
        self.flags.working.store(false, Ordering::SeqCst);
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
        out
    }
}

/// Sets the flag at Ctrl-C, and ends the process with 3 where the work does not stop by itself. Where the system gives no such
/// signal, Ctrl-C ends the program as ever.
fn listen(flags: Arc<Flags>, bar: Option<ProgressBar>) {
    std::thread::spawn(move || {
        let Ok(runtime) = tokio::runtime::Builder::new_current_thread().enable_all().build() else {
            return;
        };
        if runtime.block_on(tokio::signal::ctrl_c()).is_err() {
            return;
        }
        flags.stop.store(true, Ordering::SeqCst);
        std::thread::sleep(GRACE);
        if flags.working.load(Ordering::SeqCst) {
            if let Some(bar) = bar {
                bar.finish_and_clear();
            }
            eprintln!("stationwright: {}", told(Message::new("office-cancelled")));
            std::process::exit(3);
        }
    });
}
